"""Which keys of the catalogue the source uses, read off its syntax trees."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path

import fellwright
from fellwright.words import catalogue

PACKAGE = Path(fellwright.__file__).parent
AREA_OF_CALL = {"say": "", "because": "reason.", "warn": "caution.", "caution": "caution."}
"""Functions that take a key, and the area that they put before it."""

AREAS = rf"({'|'.join(sorted({key.partition('.')[0] for key in catalogue('en')}))})\\\."
"""How a key begins, in a pattern."""

LIMITING = ("judge_device", "drive_train", "scenario", "cone_and_ram", "device_kinds", "pairs")
LEADS_TO = {
    "group.": ("tables/species.py",),
    "kit_form.": ("records/kit.py", "records/kit_fields.py"),
    "kit.": ("planning/drive_train.py", "planning/cone_and_ram.py"),
    "limit.": tuple(f"planning/{name}.py" for name in LIMITING),
    "measure.": ("planning/missing.py", "planning/tip.py"),
}
"""Area -> the files whose words complete a key that is put together at run time.

Elsewhere they are the words of the file itself, of those it imports and of those that import it.
"""


@dataclass(frozen=True)
class Use:
    """One place that takes a key: whole, or with a gap that a word of the code fills."""

    where: str
    pattern: str
    is_whole: bool


@cache
def source_trees() -> dict[str, ast.Module]:
    """Syntax tree of every file of the package, by its path in it."""
    return {
        path.relative_to(PACKAGE).as_posix(): ast.parse(path.read_text(encoding="utf-8"))
        for path in sorted(PACKAGE.rglob("*.py"))
    }


def _gaps(node: ast.JoinedStr) -> str:
    return "".join(
        re.escape(part.value)
        if isinstance(part, ast.Constant) and isinstance(part.value, str)
        else "(.*)"
        for part in node.values
    )


def _keys_of(node: ast.expr, area: str) -> Iterator[tuple[str, bool]]:
    """Keys that the first argument of a call may be."""
    if isinstance(node, ast.Constant) and isinstance(node.value, str):
        yield re.escape(area + node.value), True
    elif isinstance(node, ast.JoinedStr):
        yield re.escape(area) + _gaps(node), False
    elif isinstance(node, ast.IfExp):
        yield from _keys_of(node.body, area)
        yield from _keys_of(node.orelse, area)
    elif area:
        yield re.escape(area) + "(.*)", False


@cache
def uses() -> tuple[Use, ...]:
    """Every call in the package that takes a key."""
    found = []
    for where, tree in source_trees().items():
        for area, key in _asked(tree):
            found += [Use(where, pattern, is_whole) for pattern, is_whole in _keys_of(key, area)]
    return tuple(found)


def _asked(node: ast.AST) -> Iterator[tuple[str, ast.expr]]:
    """Area and key of each call, but for those by which the functions themselves are defined."""
    match node:
        case ast.FunctionDef(name=name) if name in AREA_OF_CALL:
            return
        case ast.Call(func=ast.Name(id=name), args=[key, *_]) if name in AREA_OF_CALL:
            yield AREA_OF_CALL[name], key
        case ast.Assign(value=ast.JoinedStr() as key):
            if re.match(AREAS, _gaps(key)):
                yield "", key
    for child in ast.iter_child_nodes(node):
        yield from _asked(child)


@cache
def words_in(where: str) -> frozenset[str]:
    """Every string and field name in one file, with underscores for spaces and hyphens."""
    found = set()
    for node in ast.walk(source_trees()[where]):
        if isinstance(node, ast.Constant) and isinstance(node.value, str):
            found.add(node.value.replace(" ", "_").replace("-", "_"))
        elif isinstance(node, ast.AnnAssign) and isinstance(node.target, ast.Name):
            found.add(node.target.id)
    return frozenset(found)


@cache
def imported_by(where: str) -> tuple[str, ...]:
    """Files of the package that one file imports from."""
    found = []
    for node in ast.walk(source_trees()[where]):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("fellwright."):
            path = "/".join((node.module or "").split(".")[1:])
            names = [f"{path}.py", *(f"{path}/{name.name}.py" for name in node.names)]
            found += [name for name in names if name in source_trees()]
    return tuple(found)


@cache
def importing(where: str) -> tuple[str, ...]:
    """Files of the package that import from one file."""
    return tuple(other for other in source_trees() if where in imported_by(other))


@cache
def fillers(use: Use) -> frozenset[str]:
    """Words of the code that can fill the gap of a key put together at run time."""
    area = use.pattern.replace("\\", "").split(".")[0] + "."
    near = LEADS_TO.get(area) or (*imported_by(use.where), *importing(use.where))
    return frozenset({""}).union(*(words_in(file) for file in (use.where, *near)))


def completes(use: Use, key: str) -> bool:
    """Whether a word of the code makes this key of a key with a gap."""
    gap = re.fullmatch(use.pattern, key)
    return gap is not None and set(gap.groups()) <= fillers(use)


def whole_keys() -> dict[str, str]:
    """Every key that is written out in a call, with the file that does."""
    return {use.pattern.replace("\\", ""): use.where for use in uses() if use.is_whole}


def used_keys(known: frozenset[str]) -> frozenset[str]:
    """Keys that some place in the code can ask for."""
    written = frozenset().union(*(words_in(where) for where in source_trees()))
    found = known & (written | whole_keys().keys())
    for use in uses():
        if not use.is_whole:
            found |= {key for key in known if completes(use, key)}
    return frozenset(found)

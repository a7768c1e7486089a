"""What the meta tests look at: the package's modules, its public formulas, the reference keys."""

from __future__ import annotations

import csv
import importlib
import inspect
import io
import pkgutil
import re
import tomllib
from collections.abc import Callable, Iterator
from pathlib import Path
from types import ModuleType
from typing import Any

import fellwright
import fellwright.physics

ROOT = Path(__file__).resolve().parents[2]
PACKAGE = ROOT / "src" / "fellwright"
DOCS = ROOT / "docs"
REFERENCES = DOCS / "references.md"

# Upper-case start, a hyphen, no link target behind: [FPL-GTR-282] is a key, [kg/m3] is a unit.
KEY = re.compile(r"\[([A-Z][A-Za-z]+(?:-[A-Za-z0-9]+)+)\](?!\()")
ENTRY = re.compile(r"^- \*\*\[([A-Za-z0-9-]+)\]\*\* (.+)$", re.MULTILINE)
MARK = re.compile(r"\b(SEEN|MEMORY|PRACTICE|OWN|DERIVED)\b")


def package_modules() -> list[ModuleType]:
    """Every module of the package that imports without an extra."""
    found = pkgutil.walk_packages(fellwright.__path__, "fellwright.")
    names = sorted(info.name for info in found)
    return [
        importlib.import_module(name)
        for name in names
        if not name.startswith("fellwright.bulk") and not name.endswith("__main__")
    ]


def physics_modules() -> list[ModuleType]:
    """Every module of the physics layer."""
    found = pkgutil.walk_packages(fellwright.physics.__path__, "fellwright.physics.")
    return [importlib.import_module(info.name) for info in found]


def physics_formulas() -> dict[str, Callable[..., Any]]:
    """Public functions of the physics layer under the names that rows use, "hinge.chord_m"."""
    formulas: dict[str, Callable[..., Any]] = {}
    for module in physics_modules():
        topic = module.__name__.removeprefix("fellwright.physics.")
        for name in getattr(module, "__all__", ()):
            member = getattr(module, name)
            if inspect.isfunction(member):
                formulas[f"{topic}.{name}"] = member
    return formulas


def reference_entries() -> dict[str, str]:
    """Key and text of every entry in docs/references.md."""
    return {key: text for section in reference_sections() for key, text in section}


def reference_sections() -> list[list[tuple[str, str]]]:
    """Entries of docs/references.md as they stand, by section."""
    sections = REFERENCES.read_text(encoding="utf-8").split("\n## ")[1:]
    return [ENTRY.findall(section) for section in sections]


def citing_files() -> Iterator[Path]:
    """Every file that may cite a reference."""
    for suffix in ("py", "toml", "csv", "json"):
        yield from sorted(PACKAGE.rglob(f"*.{suffix}"))
    yield from sorted((ROOT / "tests" / "checks").glob("*.py"))
    yield from (path for path in sorted(DOCS.rglob("*.md")) if path != REFERENCES)
    yield ROOT / "README.md"


def cited_keys(path: Path) -> set[str]:
    """Keys that a file cites: in square brackets, in a table's sidecar, in its source columns."""
    text = path.read_text(encoding="utf-8")
    keys = set(KEY.findall(text))
    if path.suffix == ".csv":
        keys |= _source_cells(text)
    if path.suffix == ".toml":
        keys |= _sidecar_keys(tomllib.loads(text))
    return keys


def _source_cells(text: str) -> set[str]:
    rows = csv.DictReader(io.StringIO(text))
    cells = {
        cell
        for row in rows
        for column, cell in row.items()
        if column == "source" or column.endswith("_source")
    }
    return {key.strip() for cell in cells for key in cell.split(";") if key.strip()}


def _sidecar_keys(node: object) -> set[str]:
    if isinstance(node, list):
        return {key for item in node for key in _sidecar_keys(item)}
    if not isinstance(node, dict):
        return set()
    keys: set[str] = set()
    for name, value in node.items():
        if name == "reference_keys":
            keys |= {str(key) for key in value}
        else:
            keys |= _sidecar_keys(value)
    return keys

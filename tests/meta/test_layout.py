"""The source tree keeps to the house rules that no linter holds."""

import ast
import re
import sys
from pathlib import Path

import pytest
from tests.meta.sources import PACKAGE

MOST_LINES = 600
VAGUE_NAMES = {"utils", "helpers", "common", "core", "misc", "manager"}
ENGINE = ("physics", "tables", "records", "planning", "draw", "api")
ENGINE_MODULES = ("units.py", "errors.py", "kernel.py", "package_text.py")
FILES = sorted(PACKAGE.rglob("*.py"))
ENGINE_FILES = [
    path for path in FILES if path.relative_to(PACKAGE).parts[0] in {*ENGINE, *ENGINE_MODULES}
]


def short(path: Path) -> str:
    return str(path.relative_to(PACKAGE))


@pytest.mark.parametrize("path", FILES, ids=short)
def test_no_source_file_outgrows_its_idea(path: Path) -> None:
    lines = len(path.read_text(encoding="utf-8").splitlines())
    assert lines <= MOST_LINES, f"{short(path)} has {lines} lines: split it by idea"


@pytest.mark.parametrize("path", FILES, ids=short)
def test_no_name_is_vague_and_no_unit_ambiguous(path: Path) -> None:
    assert not VAGUE_NAMES & {path.stem, *path.relative_to(PACKAGE).parts}
    tree = ast.parse(path.read_text(encoding="utf-8"))
    names = {node.id for node in ast.walk(tree) if isinstance(node, ast.Name)}
    names |= {node.arg for node in ast.walk(tree) if isinstance(node, ast.arg)}
    names |= {node.name for node in ast.walk(tree) if isinstance(node, ast.FunctionDef)}
    ambiguous = sorted(name for name in names if name.lower().endswith("_nm"))
    assert not ambiguous, f"_nm may be nanometres: write _n_m: {ambiguous}"


@pytest.mark.parametrize("path", [path for path in FILES if path.name == "__init__.py"], ids=short)
def test_package_opens_with_one_sentence_on_its_job(path: Path) -> None:
    docstring = ast.get_docstring(ast.parse(path.read_text(encoding="utf-8"))) or ""
    opening = docstring.split("\n\n")[0]
    assert opening.endswith("."), "the docstring opens with a sentence"
    assert not re.search(r"[.!?]\s", opening), f"one sentence, got: {opening!r}"


def test_every_source_folder_is_a_package() -> None:
    folders = {path.parent for path in FILES if path.parent != PACKAGE}
    bare = [short(folder) for folder in folders if not (folder / "__init__.py").exists()]
    assert not bare, f"no __init__.py in {bare}"


@pytest.mark.parametrize("path", ENGINE_FILES, ids=short)
def test_engine_imports_nothing_beyond_the_standard_library(path: Path) -> None:
    tree = ast.parse(path.read_text(encoding="utf-8"))
    imported: set[str] = set()
    for node in ast.walk(tree):
        if isinstance(node, ast.Import):
            imported |= {alias.name.split(".")[0] for alias in node.names}
        elif isinstance(node, ast.ImportFrom) and not node.level:
            imported.add((node.module or "").split(".")[0])
    foreign = imported - sys.stdlib_module_names - {"fellwright"}
    assert not foreign, f"{short(path)} must run in a browser, but imports {sorted(foreign)}"

"""The documents agree with the code and with each other."""

import re
import subprocess
import tomllib
from pathlib import Path

import pytest
from tests.meta.cli_reference import cli_reference
from tests.meta.sources import DOCS, PACKAGE, ROOT

PAGES = [*sorted(DOCS.rglob("*.md")), *sorted(ROOT.glob("*.md")), ROOT / "tests" / "README.md"]
DECISIONS = sorted((DOCS / "decisions").glob("*.md"))
LINK = re.compile(r"\]\(([^)#\s]+)(?:#[^)]*)?\)")


def short(path: Path) -> str:
    return str(path.relative_to(ROOT))


@pytest.mark.parametrize("page", PAGES, ids=short)
def test_links_to_files_lead_somewhere(page: Path) -> None:
    targets = LINK.findall(page.read_text(encoding="utf-8"))
    local = [target for target in targets if not re.match(r"[a-z]+:", target)]
    dead = [target for target in local if not (page.parent / target).exists()]
    assert not dead, f"{short(page)} links to {dead}"


@pytest.mark.parametrize("page", DECISIONS, ids=short)
def test_decision_has_its_four_parts(page: Path) -> None:
    headings = re.findall(r"^## (.+)$", page.read_text(encoding="utf-8"), re.MULTILINE)
    assert headings == ["Context", "Decision", "Rejected", "Consequences"]


def test_command_reference_is_fresh() -> None:
    written = (DOCS / "cli.md").read_text(encoding="utf-8")
    assert written == cli_reference(), "run: make cli-reference"


def test_architecture_names_every_part_of_the_package() -> None:
    page = (DOCS / "architecture.md").read_text(encoding="utf-8")
    modules = [path.stem for path in PACKAGE.glob("[a-z]*.py")]
    folders = [path.parent.name for path in PACKAGE.glob("*/__init__.py")]
    unnamed = [part for part in [*modules, *folders] if f"`{part}`" not in page]
    assert not unnamed, f"docs/architecture.md does not say what these are for: {unnamed}"


def test_every_dependency_has_its_reason_written_down() -> None:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    page = (DOCS / "decisions" / "0002-dependencies.md").read_text(encoding="utf-8")
    groups = [project["dependencies"], *project["optional-dependencies"].values()]
    names = {re.split(r"[<>=! ;\[]", wanted)[0] for group in groups for wanted in group}
    unexplained = sorted(name for name in names if f"| {name} |" not in page)
    assert not unexplained, f"docs/decisions/0002-dependencies.md lacks {unexplained}"


def test_make_targets_named_in_the_documents_exist() -> None:
    makefile = (ROOT / "Makefile").read_text(encoding="utf-8")
    targets = set(re.findall(r"^([a-z-]+):", makefile, re.MULTILINE))
    named = {
        target
        for page in PAGES
        for target in re.findall(r"`make ([a-z-]+)", page.read_text(encoding="utf-8"))
    }
    assert named <= targets, f"no such target: {sorted(named - targets)}"


def test_ci_script_is_executable_and_parses() -> None:
    script = ROOT / ".ci" / "run"
    assert script.stat().st_mode & 0o100
    subprocess.run(["bash", "-n", str(script)], check=True)

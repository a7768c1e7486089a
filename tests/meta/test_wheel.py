"""The wheel holds the package and nothing else, runs without the sources, and carries the app."""

import json
import os
import shutil
import subprocess
import sys
import tomllib
import zipfile
from pathlib import Path

import pytest
from tests.meta.sources import PACKAGE, ROOT

from fellwright.api.text_door import answer_text

pytestmark = pytest.mark.slow

STATIC = PACKAGE / "server" / "static"
BUILT_FROM = ("pyproject.toml", "hatch_build.py", "README.md", "LICENSE", ".gitignore")
KINDS = {".py", ".toml", ".csv", ".json", ".typ", ".typed"}
"""Endings that the package must not lose on its way."""
APP = {"index.html": "<!doctype html>", "service-worker.js": "", "py/engine.zip": "PK"}
ASK = (
    "import sys; from fellwright.api.text_door import answer_text; "
    "sys.stdout.write(answer_text('sheet', sys.stdin.read()))"
)


def pip(*arguments: str, web: str = "skip") -> subprocess.CompletedProcess[str]:
    """Pip of this interpreter, with no network."""
    settings = {"FELLWRIGHT_WEB": web, "PIP_NO_INDEX": "1", "PIP_DISABLE_PIP_VERSION_CHECK": "1"}
    return subprocess.run(
        [sys.executable, "-m", "pip", *arguments],
        env={**os.environ, **settings},
        capture_output=True,
        text=True,
        check=False,
    )


def build(tree: Path, into: Path, web: str) -> Path:
    """Build the wheel of a source tree."""
    arguments = ("wheel", "--no-build-isolation", "--no-deps", "--wheel-dir", str(into), str(tree))
    run = pip(*arguments, web=web)
    assert run.returncode == 0, run.stdout + run.stderr
    (wheel,) = into.glob("*.whl")
    return wheel


def names_in(wheel: Path) -> set[str]:
    with zipfile.ZipFile(wheel) as archive:
        return set(archive.namelist())


@pytest.fixture(scope="module")
def tree(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """What a wheel is built from, with an app that any build would take for a built one."""
    tree = tmp_path_factory.mktemp("tree")
    for name in BUILT_FROM:
        shutil.copy(ROOT / name, tree / name)
    unwanted = shutil.ignore_patterns("__pycache__", ".*", STATIC.name)
    shutil.copytree(PACKAGE, tree / "src" / PACKAGE.name, ignore=unwanted)
    for name, content in APP.items():
        path = tree / STATIC.relative_to(ROOT) / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(content)
    return tree


@pytest.fixture(scope="module")
def wheel(tree: Path, tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel without the app."""
    return build(tree, tmp_path_factory.mktemp("wheel"), web="skip")


def test_wheel_holds_every_file_of_the_package_and_nothing_else(tree: Path, wheel: Path) -> None:
    source = tree / "src"
    package = {
        path.relative_to(source).as_posix()
        for path in source.rglob("*")
        if path.is_file() and not path.is_relative_to(tree / STATIC.relative_to(ROOT))
    }
    found = {name for name in names_in(wheel) if not name.split("/")[0].endswith(".dist-info")}
    assert found == package
    assert {Path(name).suffix for name in found} >= KINDS


def test_installed_without_its_sources_it_gives_the_same_answer(
    wheel: Path, tmp_path: Path
) -> None:
    subprocess.run([sys.executable, "-m", "venv", "--without-pip", tmp_path / "venv"], check=True)
    python = next((tmp_path / "venv").glob("[bS]*/python*"))
    run = pip("--python", str(python), "install", "--no-deps", str(wheel))
    assert run.returncode == 0, run.stdout + run.stderr
    tables = {
        key: tomllib.loads((ROOT / "examples" / name).read_text(encoding="utf-8"))
        for key, name in (("tree", "harrowlees-11.toml"), ("kit", "van-2.toml"))
    }
    for language in ("en", "de"):
        request = json.dumps({**tables, "language": language, "draws": 64})
        answered = subprocess.run(
            # -I: neither this folder nor the environment may lend the package.
            [python, "-I", "-c", ASK],
            input=request,
            cwd=tmp_path,
            capture_output=True,
            encoding="utf-8",
            check=True,
        )
        assert json.loads(answered.stdout) == json.loads(answer_text("sheet", request))
        assert "answer" in json.loads(answered.stdout)


def test_skip_leaves_a_built_app_out_and_built_takes_it(
    tree: Path, wheel: Path, tmp_path: Path
) -> None:
    carried = {f"fellwright/server/static/{name}" for name in APP}
    assert not carried & names_in(wheel)
    with_app = names_in(build(tree, tmp_path, web="built"))
    assert with_app - names_in(wheel) == carried


def test_built_refuses_where_there_is_no_app(tree: Path, tmp_path: Path) -> None:
    bare = tmp_path / "bare"
    shutil.copytree(tree, bare, ignore=shutil.ignore_patterns(STATIC.name))
    run = pip(
        "wheel", "--no-build-isolation", "--no-deps", "-w", str(tmp_path), str(bare), web="built"
    )
    assert run.returncode != 0
    assert "no web app is built. Run make app first." in run.stdout + run.stderr
    assert not list(tmp_path.glob("*.whl"))

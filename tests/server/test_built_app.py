"""A copy of the app is whole or not there, and never replaces anything that is not an app."""

from __future__ import annotations

import os
import socket
from pathlib import Path

import pytest
from click.testing import CliRunner

from fellwright.cli.main import cli
from fellwright.errors import BadInput
from fellwright.server import built_app as module
from fellwright.server.listening import HOST, listen

BUILT = ("index.html", "service-worker.js", "py/engine.zip")


@pytest.fixture
def built(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """An app as the build leaves it."""
    folder = tmp_path / "static"
    for name in BUILT:
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_text(f"new {name}", encoding="utf-8")
    monkeypatch.setattr(module, "files", lambda _package: tmp_path)
    return folder


def names(folder: Path) -> set[str]:
    return {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}


@pytest.mark.usefixtures("built")
@pytest.mark.parametrize("before", ["nothing", "empty", "older"])
def test_a_new_an_empty_and_an_older_folder_take_the_app(tmp_path: Path, before: str) -> None:
    target = tmp_path / "host" / "app"
    if before != "nothing":
        target.mkdir(parents=True)
    if before == "older":
        for name in ("index.html", "service-worker.js", "assets-of-old.js"):
            (target / name).write_text("old", encoding="utf-8")
    assert module.write_app(target) == len(BUILT)
    assert names(target) == set(BUILT)
    assert (target / "index.html").read_text(encoding="utf-8") == "new index.html"
    assert [path.name for path in target.parent.iterdir()] == ["app"]


@pytest.mark.usefixtures("built")
@pytest.mark.parametrize("kind", ["other folder", "file"])
def test_anything_else_is_left_as_it_is(tmp_path: Path, kind: str) -> None:
    target = tmp_path / "mine"
    kept = target
    if kind == "other folder":
        target.mkdir()
        kept = target / "letter.txt"
    kept.write_text("dear", encoding="utf-8")
    with pytest.raises(BadInput) as refused:
        module.write_app(target)
    assert [fault.code for fault in refused.value.faults] == ["not-empty"]
    assert kept.read_text(encoding="utf-8") == "dear"


@pytest.mark.usefixtures("built")
def test_a_change_over_that_fails_leaves_the_older_app(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    target = tmp_path / "app"
    module.write_app(target)
    (target / "index.html").write_text("older", encoding="utf-8")

    move = os.replace

    def full(source: Path, to: Path) -> None:
        if source.name == "new":
            raise OSError(28, "No space left on device")
        move(source, to)

    monkeypatch.setattr(os, "replace", full)
    with pytest.raises(BadInput) as refused:
        module.write_app(target)
    assert [fault.code for fault in refused.value.faults] == ["folder-unwritable"]
    assert (target / "index.html").read_text(encoding="utf-8") == "older"
    assert names(target) == set(BUILT)
    assert not list(tmp_path.glob(".app-*"))


def test_an_installation_without_the_app_says_what_to_do(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(module, "files", lambda _package: tmp_path)
    for command in (["serve"], ["app", str(tmp_path / "to")]):
        result = CliRunner().invoke(cli, command)
        assert isinstance(result.exception, BadInput)
        assert "Node.js" in str(result.exception)
    assert list(tmp_path.iterdir()) == []


def test_a_port_that_is_taken_is_one_fault() -> None:
    with listen(0) as taken:
        host, port = taken.getsockname()
        assert host == HOST
        with pytest.raises(BadInput) as refused:
            listen(port)
    assert [fault.field for fault in refused.value.faults] == ["port"]


def test_a_browser_opened_at_once_is_not_refused() -> None:
    with listen(0) as taken:
        assert taken.getsockopt(socket.SOL_SOCKET, socket.SO_ACCEPTCONN) == 1

import os
import re
import tomllib
from pathlib import Path

import pytest
from tests.cli.running import run

from fellwright.cli.new import TEMPLATES, template_text
from fellwright.errors import BadInput
from fellwright.exchange.toml_file import read_kit_file
from fellwright.exchange.tree_file import read_trees
from fellwright.records.kit_fields import KIT_SECTIONS
from fellwright.records.loader import read_kit, read_tree
from fellwright.records.tree import Look
from fellwright.records.tree_fields import TREE_SECTIONS

Capsys = pytest.CaptureFixture[str]


def uncommented(name: str) -> str:
    """Return a template with the keys and headings in its comments taken as written."""
    return re.sub(r"(?m)^# (?=[a-z_]+ = |\[)", "", template_text(name))


def test_new_writes_files_that_read_well(capsys: Capsys, tmp_path: Path) -> None:
    folder = tmp_path / "site" / "monday"
    ran = run(capsys, "new", str(folder))
    assert ran.exit_code == 0
    assert sorted(path.name for path in folder.iterdir()) == sorted(TEMPLATES)
    (tree,) = read_trees(folder / "tree.toml")
    assert tree.dbh_cm == 40.0
    assert read_kit_file(folder / "kit.toml").devices[0].name == "Dipper"


def test_the_look_of_a_new_tree_is_left_unanswered() -> None:
    assert read_tree(tomllib.loads(template_text("tree.toml")), "tree.toml").look == Look()


@pytest.mark.parametrize("existing", TEMPLATES)
def test_new_overwrites_nothing_and_then_writes_nothing(
    capsys: Capsys, tmp_path: Path, existing: str
) -> None:
    (tmp_path / existing).write_text("mine")
    ran = run(capsys, "new", str(tmp_path))
    assert ran.exit_code == 2
    assert f"{tmp_path / existing}: must not exist yet" in ran.err
    assert [path.name for path in tmp_path.iterdir()] == [existing]
    assert (tmp_path / existing).read_text() == "mine"


def test_a_folder_that_is_a_file_is_refused(capsys: Capsys, tmp_path: Path) -> None:
    (tmp_path / "a").write_text("mine")
    ran = run(capsys, "new", str(tmp_path / "a"))
    assert ran.exit_code == 2
    assert "must be a folder that can be written" in ran.err
    assert "Traceback" not in ran.err


def test_a_write_that_fails_half_way_leaves_nothing(
    capsys: Capsys, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    replace = os.replace
    moved: list[str] = []

    def full_disk(source: Path, target: Path) -> None:
        if moved:
            raise OSError(28, "No space left on device")
        moved.append(str(target))
        replace(source, target)

    monkeypatch.setattr(os, "replace", full_disk)
    ran = run(capsys, "new", str(tmp_path))
    assert ran.exit_code == 2
    assert "No space left on device" in ran.err
    assert len(moved) == 1
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize(
    ("name", "sections"), [("tree.toml", TREE_SECTIONS), ("kit.toml", KIT_SECTIONS)]
)
def test_the_templates_hold_every_key_with_a_comment(name: str, sections: dict[str, tuple]) -> None:  # type: ignore[type-arg]
    text = uncommented(name)
    for heading, fields in sections.items():
        blocks = [block for block in text.split("\n\n") if f"\n{heading}\n" in f"\n{block}"]
        assert blocks, heading
        for field in fields:
            assert any(re.search(rf"(?m)^{field.key} = ", block) for block in blocks), field.key
    assert "#" in text


def test_the_templates_with_every_key_in_use_still_read() -> None:
    text = uncommented("tree.toml").replace('sighted_at = "balance point"', 'sighted_at = "top"')
    tree = read_tree(tomllib.loads(text), "tree.toml")
    assert tree.look == Look(True, True, True, True, 2)
    assert tree.crown_shift is not None
    kit = read_kit(tomllib.loads(uncommented("kit.toml")), "kit.toml")
    assert kit.devices[0].lugs == 2
    with pytest.raises(BadInput, match="crown_shift"):
        read_tree(tomllib.loads(uncommented("tree.toml")), "tree.toml")

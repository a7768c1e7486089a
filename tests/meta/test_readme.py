"""README says what the program does: its example is run and compared, its Python is executed."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[2]
README = (ROOT / "README.md").read_text(encoding="utf-8")


def blocks(language: str) -> list[str]:
    return re.findall(rf"^```{language}\n(.*?)^```$", README, flags=re.MULTILINE | re.DOTALL)


def test_first_screen_holds_job_limits_and_example() -> None:
    assert README.startswith("# Fellwright\n\nA hand feller")
    assert README.index("Limits of use") < README.index("make run") < README.index("## ")


def test_example_output_is_the_real_one() -> None:
    shown = [b for b in blocks("") if b.startswith("$ ")]
    assert shown
    for block in shown:
        command, _, output = block.partition("\n")
        words = command.removeprefix("$ ").split()
        assert words[0] == "fellwright"
        run = subprocess.run(
            [sys.executable, "-c", "from fellwright.cli.main import main; main()", *words[1:]],
            cwd=ROOT,
            capture_output=True,
            text=True,
            check=True,
        )
        assert [line.rstrip() for line in run.stdout.splitlines()] == [
            line.rstrip() for line in output.splitlines()
        ]


def test_python_example_runs(
    monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(ROOT)
    assert blocks("python")
    for block in blocks("python"):
        exec(compile(block, "README.md", "exec"), {})
    assert capsys.readouterr().out.startswith("ADDS UP lift")

import subprocess
import sys

import click
import pytest
from tests.cli.running import run

from fellwright import __version__
from fellwright.cli.main import COMMANDS, cli

Capsys = pytest.CaptureFixture[str]


def test_help_lists_every_command_and_promises_nothing(capsys: Capsys) -> None:
    ran = run(capsys, "--help")
    assert ran.exit_code == 0
    for name, command in COMMANDS.items():
        assert f"  {name} " in ran.out
        assert command.summary in ran.out
    assert "safe" not in ran.out.casefold()
    assert max(len(line) for line in ran.out.splitlines()) <= 80


@pytest.mark.parametrize("name", sorted(COMMANDS))
def test_every_command_is_where_the_group_says(capsys: Capsys, name: str) -> None:
    command = cli.get_command(click.Context(cli), name)
    assert command is not None
    assert command.name == name
    assert run(capsys, name, "--help").exit_code == 0


def test_version_is_that_of_the_package(capsys: Capsys) -> None:
    assert __version__ in run(capsys, "--version").out


def test_an_unknown_command_is_a_usage_error(capsys: Capsys) -> None:
    ran = run(capsys, "chekc")
    assert ran.exit_code == 2
    assert "No such command" in ran.err


def test_help_imports_no_command() -> None:
    code = (
        "import sys\n"
        "from fellwright.cli.main import main\n"
        "try:\n"
        "    main(['--help'])\n"
        "except SystemExit:\n"
        "    pass\n"
        "print([name for name in sys.modules if name.startswith('fellwright.records')])\n"
    )
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert out.stdout.splitlines()[-1] == "[]"

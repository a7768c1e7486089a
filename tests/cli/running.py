"""Runs the command line in this process, as the console script does."""

from typing import NamedTuple

import pytest

from fellwright.cli.main import main


class Ran(NamedTuple):
    """What a run left behind."""

    exit_code: int
    out: str
    err: str


def run(capsys: pytest.CaptureFixture[str], *args: str) -> Ran:
    with pytest.raises(SystemExit) as ended:
        main(list(args))
    captured = capsys.readouterr()
    code = ended.value.code
    return Ran(code if isinstance(code, int) else 0, captured.out, captured.err)

"""The command `fellwright`: a group that imports a command only when it is called."""

from __future__ import annotations

import importlib
import sys
from collections.abc import Sequence
from typing import NamedTuple

import click

from fellwright import __version__
from fellwright.errors import FellwrightError

EXIT_BAD_INPUT = 2


class LazyCommand(NamedTuple):
    """Where a command lives, and its one line in the help."""

    module: str
    name: str
    summary: str


COMMANDS: dict[str, LazyCommand] = {
    "tip": LazyCommand("fellwright.cli.tip", "tip", "Will it tip, and with what?"),
    "mark": LazyCommand("fellwright.cli.tip", "mark", "Where do I cut?"),
    "why": LazyCommand("fellwright.cli.why", "why", "Where does a figure come from?"),
    "check": LazyCommand("fellwright.cli.check", "check", "Check files; list every fault at once."),
    "new": LazyCommand("fellwright.cli.new", "new", "Write example files to start from."),
    "serve": LazyCommand("fellwright.cli.serve", "serve", "Serve the phone app on this machine."),
    "app": LazyCommand("fellwright.cli.serve", "app", "Write the phone app as a folder."),
}
"""A new command is one line here."""


class LazyGroup(click.Group):
    """A group whose commands are imported when they are called."""

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002 - click's signature
        """Return the names in the order of the help."""
        return list(COMMANDS)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:
        """Import a command."""
        place = COMMANDS.get(cmd_name)
        if place is None:
            return super().get_command(ctx, cmd_name)
        command = getattr(importlib.import_module(place.module), place.name)
        if not isinstance(command, click.Command):
            raise TypeError(f"{place.module}.{place.name} must be a click command")
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002
        """Write the list of commands without importing any."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, place.summary) for name, place in COMMANDS.items()])


@click.group(cls=LazyGroup, context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, prog_name="fellwright")
def cli() -> None:
    """Will this tree tip, and with what? Arithmetic for one tree before the saw starts.

    It says what adds up on the readings given. It never says that a tree may be felled.
    """


def main(args: Sequence[str] | None = None) -> None:
    """Run the command line; whatever the package refuses becomes lines on stderr and exit 2."""
    try:
        cli.main(args=args, prog_name="fellwright")
    except FellwrightError as error:
        click.echo(str(error), err=True)
        sys.exit(EXIT_BAD_INPUT)

"""Writes docs/cli.md from the commands themselves: `make cli-reference`."""

from __future__ import annotations

import importlib
import inspect
import sys
from collections.abc import Iterator

import click

HEAD = """# Command line

Written by `make cli-reference` from the commands themselves; do not edit by hand.
Exit codes: 0 for an answer of any kind, 2 for bad input.
"""


def root_command() -> click.Group:
    """The command group behind the console script."""
    module = importlib.import_module("fellwright.cli.main")
    groups = [value for value in vars(module).values() if isinstance(value, click.Group)]
    if len(groups) != 1:
        raise LookupError(f"fellwright.cli.main must hold one click.Group, found {len(groups)}")
    return groups[0]


def _parameter(parameter: click.Parameter) -> str:
    if isinstance(parameter, click.Option):
        names = ", ".join(f"`{name}`" for name in [*parameter.opts, *parameter.secondary_opts])
        return f"- {names}: {(parameter.help or '').strip()}"
    word = parameter.human_readable_name.upper()
    manner = "" if parameter.required else ", may be left out"
    return f"- `{word}`{'...' if parameter.nargs == -1 else ''}: an argument{manner}"


def _commands(command: click.Command, path: str) -> Iterator[tuple[str, click.Command]]:
    yield path, command
    if isinstance(command, click.Group):
        # Asked by name: a group may import its commands only when they are called.
        context = click.Context(command)
        for name in sorted(command.list_commands(context)):
            child = command.get_command(context, name)
            if child is not None and not child.hidden:
                yield from _commands(child, f"{path} {name}")


def _section(path: str, command: click.Command) -> str:
    text = inspect.cleandoc(command.help or "").replace("\b\n", "").split("\f")[0].strip()
    parts = [f"## {path}", text]
    listed = [_parameter(one) for one in command.params if not getattr(one, "hidden", False)]
    if listed:
        parts.append("\n".join(listed))
    return "\n\n".join(part for part in parts if part)


def cli_reference() -> str:
    """Text of docs/cli.md."""
    sections = [
        _section(path, command) for path, command in _commands(root_command(), "fellwright")
    ]
    return "\n".join([HEAD, "\n\n".join(sections), ""])


if __name__ == "__main__":
    sys.stdout.write(cli_reference())

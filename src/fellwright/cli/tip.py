"""`fellwright tip` and `fellwright mark`: read, call, show."""

from __future__ import annotations

import json
from collections.abc import Callable
from typing import Any, NamedTuple

import click

from fellwright.api import answer_read, options_from, style_from, with_lay
from fellwright.cli.show_mark import mark_lines
from fellwright.cli.show_tip import heading_lines, tip_lines
from fellwright.errors import BadInput, Fault
from fellwright.exchange.toml_file import read_kit_file
from fellwright.exchange.tree_file import is_table_file, read_trees
from fellwright.records.kit import Kit
from fellwright.records.tree import Tree
from fellwright.words import Style

Response = dict[str, Any]


class Asked(NamedTuple):
    """Arguments that `tip` and `mark` share, under click's names."""

    tree_file: str
    kit_file: str
    lay: float | None
    as_json: bool
    draws: int
    seed: int
    language: str
    force: str
    imperial: bool


def options(command: Callable[..., None]) -> Callable[..., None]:
    """Add the arguments that `tip` and `mark` share."""
    for option in (
        click.option("--imperial", is_flag=True, help="Inches, feet and pounds in the text."),
        click.option(
            "--force",
            type=click.Choice(["kN", "t"]),
            default="kN",
            show_default=True,
            help="Unit of forces in the text.",
        ),
        click.option(
            "--language",
            type=click.Choice(["en", "de"]),
            default="en",
            show_default=True,
            help="Language of the text.",
        ),
        click.option("--seed", type=int, default=1, show_default=True, help="Seed of the draws."),
        click.option(
            "--draws", type=int, default=1024, show_default=True, help="Draws, a power of two."
        ),
        click.option("--json", "as_json", is_flag=True, help="Print JSON instead of text."),
        click.option("--lay", type=float, help="Another lay, degrees from true north."),
        click.option("--kit", "kit_file", required=True, metavar="KIT", help="What is in the van."),
        click.argument("tree_file", metavar="TREE"),
    ):
        command = option(command)
    return command


@click.command("tip")
@options
def tip(**given: Any) -> None:
    """Will it tip, and with what? TREE is a tree file, or a CSV with a tree a row."""
    _ask("tip", tip_lines, Asked(**given))


@click.command("mark")
@options
def mark(**given: Any) -> None:
    """Where do I cut? Bark marks, sequence of cuts and turns for TREE."""
    _ask("mark", _mark_page, Asked(**given))


def _mark_page(response: Response, style: Style) -> list[str]:
    return heading_lines(response, style) + mark_lines(response, style)


def _ask(question: str, show: Callable[[Response, Style], list[str]], asked: Asked) -> None:
    trees, kit = read_files(asked)
    chosen = options_from({"draws": asked.draws, "seed": asked.seed})
    style = style_from(asked._asdict())
    responses = [answer_read(question, tree, kit, chosen, style) for tree in trees]
    if asked.as_json:
        whole: object = responses if is_table_file(asked.tree_file) else responses[0]
        click.echo(json.dumps(whole, ensure_ascii=False, indent=2, allow_nan=False))
        return
    for index, response in enumerate(responses):
        if index:
            click.echo("")
        click.echo("\n".join(show(response, style)))


def read_files(asked: Asked) -> tuple[list[Tree], Kit]:
    """Read both files, with the faults of both at once, and turn the lay if asked."""
    faults: list[Fault] = []
    trees: list[Tree] = []
    kit = Kit()
    try:
        trees = read_trees(asked.tree_file)
    except BadInput as bad:
        faults += bad.faults
    try:
        kit = read_kit_file(asked.kit_file)
    except BadInput as bad:
        faults += bad.faults
    if faults:
        raise BadInput(faults)
    return [with_lay(tree, asked.lay) for tree in trees], kit

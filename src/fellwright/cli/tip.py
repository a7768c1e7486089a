"""`fellwright tip` and `fellwright mark`: read, call, show."""

from __future__ import annotations

import json
import sys
from collections.abc import Callable
from dataclasses import replace
from typing import Any, NamedTuple

import click

from fellwright.api import (
    Options,
    answer_plan,
    options_from,
    plan_tip,
    style_from,
    with_lay,
)
from fellwright.cli.faults import told_as_asked
from fellwright.cli.papers import NOTHING, Papers, keep_papers, paper_options
from fellwright.cli.show_mark import mark_lines
from fellwright.cli.show_tip import heading_lines, tip_lines
from fellwright.cli.tree_list import STOPPED, each, list_heading, list_line, with_twin
from fellwright.errors import BadInput, Fault
from fellwright.exchange.profile_file import read_profile
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
    profile: str | None


def options(command: Callable[..., None]) -> Callable[..., None]:
    """Add the arguments that `tip` and `mark` share, and tell faults in the language of theirs."""
    command = told_as_asked(command)
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
            "--draws",
            type=int,
            default=1024,
            show_default=True,
            help="Draws, rounded up to a power of two.",
        ),
        click.option(
            "--profile", metavar="NAME", help="Practice profile by name, or a file of your own."
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
@paper_options
def tip(card: str | None, paper: str, pictures: str | None, **given: Any) -> None:
    """Will it tip, and with what? TREE is a tree file, or a CSV with a tree a row."""
    _ask("tip", tip_lines, Asked(**given), Papers(card, paper, pictures))


@click.command("mark")
@options
def mark(**given: Any) -> None:
    """Where do I cut? Bark marks, sequence of cuts and turns for TREE."""
    _ask("mark", _mark_page, Asked(**given))


def _mark_page(response: Response, style: Style) -> list[str]:
    return heading_lines(response, style) + mark_lines(response, style)


def _ask(
    question: str,
    show: Callable[[Response, Style], list[str]],
    asked: Asked,
    papers: Papers = NOTHING,
) -> None:
    trees, kit = read_files(asked)
    style = style_from(asked._asdict())
    is_list = is_table_file(asked.tree_file)
    as_lines = is_list and question == "tip" and not asked.as_json
    bare = as_lines and not papers.is_wanted
    options = with_twin(plan_options(asked, bare=bare), len(trees))
    with keep_papers(papers, trees, style) as keep:

        def answer(index: int) -> Response:
            plan = plan_tip(trees[index], kit, options)
            keep(plan)
            return answer_plan(question, plan, style)

        if asked.as_json:
            _print_json(trees, answer, is_list=is_list)
        elif as_lines:
            click.echo(list_heading(style))
            _print_each(trees, answer, lambda response: [list_line(response, style)])
        else:
            _print_each(trees, answer, lambda response: show(response, style), between="\n")


def _print_each(
    trees: list[Tree],
    answer: Callable[[int], Response],
    show: Callable[[Response], list[str]],
    between: str = "",
) -> None:
    """Print answer after answer as each is done."""
    try:
        for index, response in enumerate(each(len(trees), answer, "tip")):
            click.echo((between if index else "") + "\n".join(show(response)))
    except KeyboardInterrupt:
        sys.exit(STOPPED)


def plan_options(asked: Asked, *, bare: bool) -> Options:
    """How the plan is asked for, its practice profile read."""
    options = options_from({"draws": asked.draws, "seed": asked.seed, "bare": bare})
    if asked.profile is None:
        return options
    return replace(options, profile=read_profile(asked.profile))


def _print_json(trees: list[Tree], answer: Callable[[int], Response], *, is_list: bool) -> None:
    """Print one answer, or a list of what was done before it was stopped."""
    responses: list[Response] = []
    stopped = False
    try:
        responses.extend(each(len(trees), answer, "tip"))
    except KeyboardInterrupt:
        stopped = True
    whole: object = responses if is_list else responses[0]
    click.echo(json.dumps(whole, ensure_ascii=False, indent=2, allow_nan=False))
    if stopped:
        sys.exit(STOPPED)


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

"""What `tip` writes beside its answer: the tree card, and a folder of pictures."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import TYPE_CHECKING, NamedTuple

import click

from fellwright.errors import BadInput, Fault
from fellwright.exchange.pictures import file_stem, write_pictures
from fellwright.print import PAPERS, check_target, lay_out, write_cards
from fellwright.records.tree import Tree
from fellwright.words import Style, say

if TYPE_CHECKING:
    from fellwright.planning.plan import Plan


class Papers(NamedTuple):
    """What is wanted: a file for the card and its paper, a folder for the pictures."""

    card: str | None = None
    paper: str = PAPERS[0]
    pictures: str | None = None

    @property
    def is_wanted(self) -> bool:
        """Whether anything is written, so that a plan must be whole."""
        return self.card is not None or self.pictures is not None


NOTHING = Papers()


def paper_options(command: Callable[..., None]) -> Callable[..., None]:
    """Add the arguments that say what is written."""
    for option in (
        click.option("--pictures", metavar="DIR", help="Write the pictures as SVG into a folder."),
        click.option(
            "--paper",
            type=click.Choice(PAPERS),
            default=PAPERS[0],
            show_default=True,
            help="Paper of the card; a4 has the stump plan beside it.",
        ),
        click.option("--card", metavar="FILE.pdf", help="Write the tree card, a page a tree."),
    ):
        command = option(command)
    return command


@contextmanager
def keep_papers(
    wanted: Papers, trees: Sequence[Tree], style: Style
) -> Iterator[Callable[[Plan], None]]:
    """Write each plan's pictures as it is done, and at the end the cards of all that were done."""
    _check(wanted, trees)
    cards = []

    def keep(plan: Plan) -> None:
        if wanted.pictures is not None:
            write_pictures(plan, wanted.pictures, style)
        if wanted.card is not None:
            cards.append(lay_out(plan, style, wanted.paper))

    def write() -> None:
        if wanted.card is not None and cards:
            write_cards(cards, wanted.card, wanted.paper)

    try:
        yield keep
    except SystemExit:  # stopped by Ctrl-C: what is done is kept
        write()
        raise
    write()


def _check(wanted: Papers, trees: Sequence[Tree]) -> None:
    """Refuse before any planning what could not be written after it."""
    if wanted.card is not None:
        check_target(wanted.card, wanted.paper)
    if wanted.pictures is None:
        return
    stems = [file_stem(tree.name) for tree in trees]
    twice = sorted({stem for stem in stems if stems.count(stem) > 1})
    if twice:
        rule, remedy = say("rule.names_differ"), say("remedy.trees_named")
        source = say("fault.pictures")
        raise BadInput([Fault(source, None, "", ", ".join(twice), rule, remedy, "name-twice")])

"""Write the card that the documents show: `make pictures`."""

from __future__ import annotations

from pathlib import Path

from tests.plans.cases import example, van

from fellwright.planning.tip import plan_tip
from fellwright.print import write_card
from fellwright.words import Style

SHOWN = "harrowlees-11"
CARD = Path(__file__).parents[2] / "docs" / "pictures" / f"{SHOWN}-card.pdf"


def write_shown(path: Path) -> Path:
    """Write the card of the tree that the documents show, as the command line would."""
    return write_card(plan_tip(example(SHOWN), van()), path, Style())


if __name__ == "__main__":
    write_shown(CARD)

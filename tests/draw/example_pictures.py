"""Write the pictures that the documents show: `make pictures`."""

from __future__ import annotations

from pathlib import Path

from tests.draw.pages import ENGLISH, ROOT, kit, tree

from fellwright.exchange.pictures import write_pictures
from fellwright.planning.tip import plan_tip

FOLDER = ROOT / "docs" / "pictures"
SHOWN = "harrowlees-11"


def write_shown(folder: Path) -> list[Path]:
    """Write the pictures of the tree that the documents show, as the command line would."""
    return write_pictures(plan_tip(tree(SHOWN), kit()), folder, ENGLISH)


if __name__ == "__main__":
    write_shown(FOLDER)

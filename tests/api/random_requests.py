"""Random trees and vans with this interpreter's answers, a JSON line each: another one must agree.

`python -m tests.api.random_requests --count 200 --seed 7` writes `question`, `request` and `text`.
"""

from __future__ import annotations

import argparse
import json
import random
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from fellwright.api.text_door import answer_text
from fellwright.tables import species_by_key

EXAMPLES = Path(__file__).parents[2] / "examples"
YES = ("sound", "clear_overhead", "no_conductor_in_reach", "ring_clear")
WHOLE_EVERY = 20
"""One request in so many asks for the whole answer with its pictures; the rest for the verdict."""


def random_tree(chance: random.Random) -> dict[str, Any]:
    """Make a tree of a size that trees have, some readings left out."""
    dbh = chance.uniform(12.0, 95.0)
    tree: dict[str, Any] = {
        "name": f"Drawn {chance.randrange(1000)}",
        "species": chance.choice(sorted(species_by_key())),
        "dbh_cm": round(dbh, 1),
        "height_m": round(min(44.0, max(6.0, chance.gauss(0.7 * dbh, 3.0))), 1),
        "lean": [_lean(chance) for _ in range(chance.choice((1, 1, 2)))],
        "flare": chance.choice(("none", "trimmed", "untrimmed")),
    }
    if chance.random() < 0.7:
        tree["stump_diameter_cm"] = round(dbh * chance.uniform(1.05, 1.3), 1)
    if chance.random() < 0.5:
        tree["crown_base_m"] = round(tree["height_m"] * chance.uniform(0.2, 0.6), 1)
        tree["crown_radius_m"] = round(chance.uniform(1.0, 5.0), 1)
    look: dict[str, Any] = dict.fromkeys(
        ("sound", "clear_overhead", "no_conductor_in_reach", "ring_clear"), True
    )
    look["ways_out"] = 2
    if chance.random() < 0.15:
        look.pop(chance.choice(sorted(look)))
    if chance.random() < 0.1:
        look["clear_overhead"] = False
    day: dict[str, Any] = {"temperature_degc": round(chance.uniform(-8.0, 25.0), 0)}
    if chance.random() < 0.5:
        day |= {"gust_m_s": round(chance.uniform(0.0, 9.0), 1), "wind_from_deg": 40}
    cut = {"lay_deg": chance.randrange(0, 360, 5), "preload": True}
    return {"tree": tree, "look": look, "cut": cut, "day": day}


def _lean(chance: random.Random) -> dict[str, Any]:
    return {
        "offset_m": round(abs(chance.gauss(0.0, 0.7)), 2),
        "toward_clock": chance.choice((5, 5.5, 6, 6, 6.5, 7, 12, 3, 9)),
        "sighted_at": chance.choice(("balance point", "top")),
        "how": chance.choice(("plumb line, two sides", "plumb line, one side", "eye")),
    }


def requests(count: int, seed: int) -> Iterator[tuple[str, dict[str, Any]]]:
    """Draw questions with their requests."""
    chance = random.Random(seed)
    kit = tomllib.loads((EXAMPLES / "van-2.toml").read_text(encoding="utf-8"))
    for number in range(count):
        request: dict[str, Any] = {
            **random_tree(chance),
            "kit": kit,
            "language": chance.choice(("en", "de")),
            "force": chance.choice(("kN", "t")),
            "imperial": chance.random() < 0.3,
            "bare": number % WHOLE_EVERY != 0,
        }
        tables = {key: request.pop(key) for key in ("tree", "look", "cut", "day")}
        request["tree"] = tables
        if not request["bare"]:
            request["pictures"] = ["tipping", "need-have", "stump", "push-lift"]
        yield "sheet", request


def main() -> None:
    """Write the lines."""
    parser = argparse.ArgumentParser(prog="python -m tests.api.random_requests")
    parser.add_argument("--count", type=int, default=200)
    parser.add_argument("--seed", type=int, default=7)
    asked = parser.parse_args()
    for question, request in requests(asked.count, asked.seed):
        text = json.dumps(request)
        line = {"question": question, "request": text, "text": answer_text(question, text)}
        sys.stdout.write(json.dumps(line) + "\n")


if __name__ == "__main__":
    main()

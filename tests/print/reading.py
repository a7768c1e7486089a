"""Cards of whole plans, and what can be read off the paper again."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Any

from pypdf import PdfReader
from tests.plans.cases import example, van
from tests.words.variants import NAMES, variants

from fellwright.planning.plan import Options, Plan
from fellwright.planning.tip import plan_tip
from fellwright.words import Style

EXAMPLES = NAMES
STYLES = (Style(), Style("en", "kN", True), Style("de", "t"), Style("de", "kN", True))
MM_PER_POINT = 25.4 / 72.0
FEW = Options(draws=64)


@cache
def example_plan(name: str) -> Plan:
    return plan_tip(example(name), van(), Options(draws=256))


@cache
def variant_plans() -> dict[str, Plan]:
    """Plans of every variant, with few draws."""
    return {name: plan_tip(case.tree, case.kit, FEW) for name, case in variants().items()}


@dataclass(frozen=True)
class Page:
    """One page of paper: its size [mm], its text on one line, its letters by size [pt]."""

    width_mm: float
    height_mm: float
    text: str
    letters: dict[float, str]


def read_pages(path: Path) -> list[Page]:
    return [_read_page(page) for page in PdfReader(path).pages]


def _read_page(page: Any) -> Page:
    letters: dict[float, list[str]] = {}

    def visit(text: str, cm: Sequence[float], tm: Sequence[float], _: object, size: float) -> None:
        if text.strip():
            letters.setdefault(round(abs(size * tm[3] * cm[3]), 1), []).append(text.strip())

    text = page.extract_text(visitor_text=visit)
    return Page(
        float(page.mediabox.width) * MM_PER_POINT,
        float(page.mediabox.height) * MM_PER_POINT,
        one_line(text),
        {size: one_line(" ".join(texts)) for size, texts in letters.items()},
    )


def one_line(text: str) -> str:
    return " ".join(text.split())


def strings(value: object) -> list[str]:
    """Every string in a tree of lists and tables."""
    if isinstance(value, str):
        return [value]
    if isinstance(value, dict):
        value = list(value.values())
    if isinstance(value, list | tuple):
        return [text for one in value for text in strings(one)]
    return []

"""The tree card on paper: what a plan says, laid out in PDF by the `print` extra."""

from fellwright.print.card import Card, lay_out
from fellwright.print.pdf import PAPERS, check_target, write_card, write_cards

__all__ = ["PAPERS", "Card", "check_target", "lay_out", "write_card", "write_cards"]

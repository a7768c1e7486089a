"""docs/species.md is what the tables say."""

from tests.meta.sources import DOCS
from tests.meta.species_page import species_page


def test_species_page_is_fresh() -> None:
    kept = (DOCS / "species.md").read_text(encoding="utf-8")
    assert kept == species_page(), "run python -m tests.meta.species_page > docs/species.md"

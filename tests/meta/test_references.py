"""docs/references.md and what cites it agree, both ways."""

import re

from tests.meta.sources import MARK, cited_keys, citing_files, reference_entries, reference_sections


def test_every_cited_key_has_an_entry() -> None:
    entries = reference_entries()
    unknown = {
        f"{path.name}: [{key}]"
        for path in citing_files()
        for key in cited_keys(path)
        if key not in entries
    }
    assert not unknown, f"not in docs/references.md: {sorted(unknown)}"


def test_every_entry_is_cited_somewhere() -> None:
    text = "\n".join(path.read_text(encoding="utf-8") for path in citing_files())
    unused = [
        key
        for key in reference_entries()
        if not re.search(rf"(?<![\w-]){re.escape(key)}(?![\w-])", text)
    ]
    assert not unused, f"cited nowhere, cite or remove: {unused}"


def test_entries_are_sorted_and_appear_once() -> None:
    sections = [[key for key, _ in section] for section in reference_sections()]
    assert sections, "docs/references.md holds no section"
    for keys in sections:
        assert keys, "an entry has the form - **[Key]** text"
        assert keys == sorted(keys, key=str.lower)
    every = [key for keys in sections for key in keys]
    assert len(every) == len(set(every))


def test_every_entry_says_how_it_was_read() -> None:
    unmarked = [key for key, text in reference_entries().items() if not MARK.search(text)]
    assert not unmarked, f"no mark (SEEN, MEMORY ...): {unmarked}"

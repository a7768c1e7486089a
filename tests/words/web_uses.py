"""Which keys of the catalogue the phone app uses, read off its sources."""

from __future__ import annotations

import re
from functools import cache
from pathlib import Path

SOURCES = Path(__file__).parents[2] / "web" / "src"
KEY = r"screen(?:_[a-z]+)*\.[a-z0-9_]*"
WRITTEN = re.compile(rf'["\']({KEY[:-1]}+)["\']')
GAPPED = re.compile(rf"`({KEY}(?:\$\{{[^`}}]+\}}[a-z0-9_.]*)+)`")
QUOTED = re.compile(r"[\"'`]([^\"'`\n]{1,40})[\"'`]|^\s*\"?([a-z][a-z_ ]*)\"?:", re.MULTILINE)


@cache
def texts() -> dict[str, str]:
    """Text of every source file of the app, by its path."""
    return {
        path.relative_to(SOURCES).as_posix(): path.read_text(encoding="utf-8")
        for path in sorted(SOURCES.rglob("*"))
        if path.suffix in (".ts", ".svelte")
    }


@cache
def written_keys() -> dict[str, str]:
    """Every key that is written out, with a file that does."""
    return {key: where for where, text in texts().items() for key in WRITTEN.findall(text)}


@cache
def gapped_keys() -> dict[str, str]:
    """Every key put together at run time, as a pattern, with a file that does."""
    return {
        re.sub(r"\\\$\\\{.*?\\\}", "(.+)", re.escape(key)): where
        for where, text in texts().items()
        for key in GAPPED.findall(text)
    }


@cache
def words() -> frozenset[str]:
    """Every short text and field name in the sources, with underscores for spaces."""
    found = {one or other for text in texts().values() for one, other in QUOTED.findall(text)}
    return frozenset(word.strip().replace(" ", "_").replace("-", "_").lower() for word in found)


def web_keys(known: frozenset[str], more: frozenset[str] = frozenset()) -> frozenset[str]:
    """Keys that some place in the app can ask for; `more` are words that the engine sends."""
    filling = words() | more
    found = known & written_keys().keys()
    for pattern in gapped_keys():
        for key in known:
            gap = re.fullmatch(pattern, key)
            if gap is not None and set(gap.groups()) <= filling:
                found |= {key}
    return frozenset(found)

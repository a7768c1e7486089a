"""Fields that hold words: names, choices out of a vocabulary, yes or no."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from fellwright.records.fault_log import FaultLog, Said, folded, nearest, shown
from fellwright.words import say


@dataclass(frozen=True, slots=True)
class Text:
    """A short text."""

    key: str
    remedy: Said
    required: bool = False
    longest: int = 120

    @property
    def accepted_keys(self) -> tuple[str, ...]:
        """The one key."""
        return (self.key,)

    def read(self, log: FaultLog, path: str, table: Mapping[str, object]) -> dict[str, Any]:
        """Read the text, runs of blanks brought to one."""
        raw = table.get(self.key)
        if raw is None:
            return {}
        text = " ".join(raw.split()) if isinstance(raw, str) else ""
        if not 1 <= len(text) <= self.longest or not text.isprintable():
            rule = say("rule.text", most=self.longest)
            log.add(f"{path}.{self.key}", shown(raw), rule, self.remedy, "not-text")
            return {}
        return {self.key: text}


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a few words; `options` maps each accepted spelling to what the record holds."""

    key: str
    options: Mapping[str, str]
    remedy: Said
    required: bool = False

    @property
    def accepted_keys(self) -> tuple[str, ...]:
        """The one key."""
        return (self.key,)

    def read(self, log: FaultLog, path: str, table: Mapping[str, object]) -> dict[str, Any]:
        """Read the word, upper and lower case alike."""
        raw = table.get(self.key)
        if raw is None:
            return {}
        by_folded = {folded(option): held for option, held in self.options.items()}
        if isinstance(raw, str) and folded(raw) in by_folded:
            return {self.key: by_folded[folded(raw)]}
        log.add(
            f"{path}.{self.key}",
            shown(raw),
            say("rule.one_of", words=listed(self.options)),
            nearest_remedy(raw, self.options, self.remedy),
            "not-a-choice",
        )
        return {}


@dataclass(frozen=True, slots=True)
class WordList:
    """A list of words out of a vocabulary."""

    key: str
    vocabulary: tuple[str, ...]
    remedy: Said
    required: bool = False
    longest: int = 40

    @property
    def accepted_keys(self) -> tuple[str, ...]:
        """The one key."""
        return (self.key,)

    def read(self, log: FaultLog, path: str, table: Mapping[str, object]) -> dict[str, Any]:
        """Read the words, each once, in the order given."""
        raw = table.get(self.key)
        if raw is None:
            return {}
        if not isinstance(raw, (list, tuple)) or len(raw) > self.longest:
            rule = say("rule.words", most=self.longest)
            log.add(f"{path}.{self.key}", shown(raw), rule, self.remedy, "not-a-list")
            return {}
        by_folded = {folded(word): word for word in self.vocabulary}
        words: dict[str, None] = {}
        for count, item in enumerate(raw, start=1):
            word = by_folded.get(folded(item)) if isinstance(item, str) else None
            if word is None:
                self._note_unknown(log, f"{path}.{self.key}[{count}]", item)
            else:
                words[word] = None
        return {self.key: tuple(words)}

    def _note_unknown(self, log: FaultLog, where: str, item: object) -> None:
        rule = say("rule.one_of", words=listed(self.vocabulary))
        remedy = nearest_remedy(item, self.vocabulary, self.remedy)
        log.add(where, shown(item), rule, remedy, "not-a-choice")


@dataclass(frozen=True, slots=True)
class Flag:
    """Yes or no."""

    key: str
    remedy: Said
    required: bool = False

    @property
    def accepted_keys(self) -> tuple[str, ...]:
        """The one key."""
        return (self.key,)

    def read(self, log: FaultLog, path: str, table: Mapping[str, object]) -> dict[str, Any]:
        """Read true or false; nothing else counts as an answer."""
        raw = table.get(self.key)
        if raw is None:
            return {}
        if not isinstance(raw, bool):
            rule = say("rule.flag")
            log.add(f"{path}.{self.key}", shown(raw), rule, self.remedy, "not-yes-or-no")
            return {}
        return {self.key: raw}


def listed(words: Mapping[str, str] | tuple[str, ...]) -> str:
    """List words for a rule, each in quotation marks."""
    return ", ".join(f'"{word}"' for word in words)


def nearest_remedy(
    raw: object, words: Mapping[str, str] | tuple[str, ...], otherwise: Said
) -> Said:
    """Name the nearest known word, else say what to do."""
    near = nearest(raw, words) if isinstance(raw, str) else None
    if near is not None:
        return say("remedy.nearest_word", word=near)
    return otherwise

"""The words the tool shows and speaks, read from one file per language.

The files are TOML: no Python, no indentation to get wrong, and a parser in the standard library.
"""

import difflib
import tomllib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from decimal import Decimal
from pathlib import Path
from typing import Any

from frame.language.lines import Line
from frame.language.numbers import grouped, number_words
from frame.technique.reading import plain

Fact = str | int | Decimal | Line
"""What fills a place in a sentence. A number is shown in digits and spoken in words."""


class WordsError(ValueError):
    """A words file that cannot be read, or a sentence whose facts do not fit it."""


class UnknownKey(KeyError):
    """A key that the words file does not have; the message names the nearest one."""

    def __str__(self) -> str:
        return str(self.args[0])


@dataclass(frozen=True, slots=True)
class Words:
    """All words of one language: sentences and lists, by dotted key."""

    sentences: Mapping[str, Line]
    lists: Mapping[str, tuple[str, ...]]

    @property
    def keys(self) -> tuple[str, ...]:
        """Every key, in the file's order."""
        return (*self.sentences, *self.lists)

    def text(self, key: str, **facts: Fact) -> str:
        """The shown form of a sentence. Raises UnknownKey, or WordsError for a missing fact."""
        return _filled(key, self._sentence(key).show, {k: _shown(v) for k, v in facts.items()})

    def line(self, key: str, **facts: Fact) -> Line:
        """Both forms of a sentence. Raises UnknownKey, or WordsError for a missing fact."""
        spoken = {name: self._spoken(fact) for name, fact in facts.items()}
        return Line(self.text(key, **facts), _filled(key, self._sentence(key).speak, spoken))

    def listed(self, key: str) -> tuple[str, ...]:
        """The words of a list. Raises UnknownKey."""
        if key not in self.lists:
            raise self._unknown(key)
        return self.lists[key]

    def number(self, number: Decimal | int) -> str:
        """The number in words. Raises ValueError from 10 ** 36 on."""
        return number_words(number, self)

    def _sentence(self, key: str) -> Line:
        if key not in self.sentences:
            raise self._unknown(key)
        return self.sentences[key]

    def _spoken(self, fact: Fact) -> str:
        if isinstance(fact, Line):
            return fact.speak
        return fact if isinstance(fact, str) else number_words(fact, self)

    def _unknown(self, key: str) -> UnknownKey:
        nearest = difflib.get_close_matches(key, self.keys, 1, cutoff=0)
        return UnknownKey(f"no words for {key!r}; the nearest key is {nearest[0]!r}")


def _shown(fact: Fact) -> str:
    """As it is read: a number of the work in groups of three, a count of things plain."""
    match fact:
        case Line():
            return fact.show
        case Decimal():
            return grouped(plain(fact))
    return str(fact).replace("-", "−") if isinstance(fact, int) else fact


def _filled(key: str, template: str, facts: Mapping[str, str]) -> str:
    try:
        return template.format(**facts)
    except (KeyError, IndexError) as error:
        given = ", ".join(sorted(facts)) or "none"
        message = f"{key}: {template!r} needs the fact {error}; given: {given}"
        raise WordsError(message) from None


def load_words(path: Path) -> Words:
    """The words of one language. Raises WordsError when the file is missing or no TOML."""
    try:
        tree = tomllib.loads(path.read_text(encoding="utf-8"))
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise WordsError(f"{path}: {error}") from error
    sentences: dict[str, Line] = {}
    lists: dict[str, tuple[str, ...]] = {}
    for key, entry in _entries(tree, ""):
        if isinstance(entry, list):
            lists[key] = tuple(map(str, entry))
        elif isinstance(entry, dict):
            sentences[key] = Line(entry["show"], entry["speak"])
        elif isinstance(entry, str):
            sentences[key] = Line(entry, entry)
        else:
            raise WordsError(f"{path}: {key} is {entry!r}; expected a text or a list of texts")
    return Words(sentences, lists)


def _entries(tree: Mapping[str, Any], before: str) -> Iterator[tuple[str, Any]]:
    """Every entry with its dotted key; a table of `show` and `speak` is one entry."""
    for name, entry in tree.items():
        if isinstance(entry, dict) and set(entry) != {"show", "speak"}:
            yield from _entries(entry, f"{before}{name}.")
        else:
            yield f"{before}{name}", entry

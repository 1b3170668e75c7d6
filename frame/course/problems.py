"""Problems in lesson scripts: where, what was found, what was expected; and their wording."""

import tomllib
from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from difflib import get_close_matches
from pathlib import Path

from frame.course.lesson import Mark
from frame.language.escaping import escaped

Fact = str | int | tuple[str, ...]
Wording = Mapping[str, Mapping[str, str]]
"""The wording of problems: `problems` by code, `kinds` by name, and the `joints` of a message."""

MOST_PROBLEMS = 200
_LONGEST_SHOWN = 60


@dataclass(frozen=True, slots=True)
class Problem:
    """One thing wrong with a file, at a line and column from 1.

    `code` names the kind of problem; `facts` are the values its wording needs. The facts `kind`
    and `wanted` are names of kinds of values; a tuple is a choice of words; `nearest` is the
    right word that comes closest to what was found.
    """

    file: str
    line: int
    column: int
    code: str
    facts: Mapping[str, Fact] = field(default_factory=dict, hash=False)


class LessonError(Exception):
    """Lesson scripts that cannot be used. `problems` are all that were found, in order."""

    def __init__(self, problems: tuple[Problem, ...]) -> None:
        super().__init__("; ".join(f"{p.file}:{p.line}:{p.column}: {p.code}" for p in problems))
        self.problems = problems


class Report:
    """Gathers the problems of one file, up to `MOST_PROBLEMS`; those beyond are counted."""

    def __init__(self, file: str) -> None:
        self.file = file
        self._problems: list[Problem] = []
        self._more = 0

    @property
    def is_full(self) -> bool:
        """Whether further problems are only counted."""
        return len(self._problems) >= MOST_PROBLEMS

    def add(self, mark: Mark, code: str, **facts: Fact) -> None:
        """A problem is kept."""
        if self.is_full:
            self._more += 1
            return
        self._problems.append(Problem(self.file, mark.line, mark.column, code, facts))

    def add_unknown(self, mark: Mark, code: str, found: str, choice: Collection[str]) -> None:
        """A word that is none of the choice is kept as a problem, with the nearest right word."""
        near = None if self.is_full else nearest(found, choice)
        facts: dict[str, Fact] = {"nearest": near} if near else {}
        self.add(mark, code, found=found, choice=tuple(choice), **facts)

    def __bool__(self) -> bool:
        return bool(self._problems)

    @property
    def problems(self) -> tuple[Problem, ...]:
        """The problems in the order of their places."""
        kept = sorted(self._problems, key=lambda problem: (problem.line, problem.column))
        if self._more:
            last = kept[-1]
            more = {"count": self._more}
            kept.append(Problem(self.file, last.line, last.column, "more", more))
        return tuple(kept)


def nearest(word: str, choice: Collection[str]) -> str | None:
    """The word of the choice that comes closest, or None when none is near."""
    if len(word) > _LONGEST_SHOWN:
        return None
    close = get_close_matches(word.lower(), choice, n=1, cutoff=0.6)
    return close[0] if close else None


def read_words(file: Path) -> Wording:
    """The wording in a TOML file. Raises OSError or tomllib.TOMLDecodeError."""
    with file.open("rb") as stream:
        return tomllib.load(stream)


def problem_text(problem: Problem, words: Wording) -> str:
    """The problem in one line: its place, what was found, what was expected, the nearest word."""
    facts = {name: _shown(name, fact, words) for name, fact in problem.facts.items()}
    text = words["problems"][problem.code].format_map(facts)
    if "nearest" in facts:
        text += words["joints"]["nearest"].format_map(facts)
    return f"{escaped(problem.file)}:{problem.line}:{problem.column}: {text}"


def _shown(name: str, fact: Fact, words: Wording) -> str:
    if isinstance(fact, tuple):
        return _either(fact, words["joints"])
    if name in ("kind", "wanted"):
        return words["kinds"][str(fact)]
    text = "".join(c if c.isprintable() else " " for c in str(fact))
    return text if len(text) <= _LONGEST_SHOWN else text[: _LONGEST_SHOWN - 1] + "…"


def _either(choice: tuple[str, ...], joints: Mapping[str, str]) -> str:
    """The choice as words: "say, show or set"."""
    if len(choice) < 2:
        return "".join(choice)
    return joints["comma"].join(choice[:-1]) + joints["or"] + choice[-1]

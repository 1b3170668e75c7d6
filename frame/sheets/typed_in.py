"""The answers to a sheet as they are typed in, task after task: digits, and a key for the next."""

from dataclasses import dataclass, field
from decimal import Decimal
from enum import IntEnum

from frame.sheets.marking import MOST_DIGITS, Answer, is_right
from frame.sheets.sheet import Sheet

_MINUS, _POINT = "-", "."


class Field(IntEnum):
    """Where a sign goes: to the number, or to what is left over."""

    NUMBER = 0
    REST = 1


@dataclass
class TypedIn:
    """What is typed for each task, by its index, and where the next sign goes. A task that is
    `given` is done with, until something of it is typed anew."""

    sheet: Sheet
    at: int = 0
    into: Field = Field.NUMBER
    given: set[int] = field(default_factory=set)
    last_given: int | None = None
    texts: dict[tuple[int, Field], str] = field(default_factory=dict)

    @property
    def is_begun(self) -> bool:
        """Whether anything was typed or given."""
        return bool(self.given) or any(self.texts.values())

    @property
    def has_rest(self) -> bool:
        """Whether the task leaves something over, so that there is a field for it."""
        return bool(self.sheet.tasks[self.at].sum.remainder)

    def text(self, of: Field) -> str:
        """What is typed in a field of the task."""
        return self.texts.get((self.at, of), "")

    def type(self, sign: str) -> None:
        """A digit or a point more; a minus comes first, and goes again where it is typed twice."""
        before = self.text(self.into)
        after = with_sign(before, sign)
        if after != before:
            self._write(after)

    def erase(self) -> None:
        """The last sign is taken away; of an empty field that of the one before."""
        if not self.text(self.into) and self.into is Field.REST:
            self.into = Field.NUMBER
        self._write(self.text(self.into)[:-1])

    def _write(self, text: str) -> None:
        self.texts[self.at, self.into] = text
        self.given.discard(self.at)

    def enter(self) -> bool:
        """Take what is typed: on to what is left over, where that is asked for and there is a
        number, or to the next task that is not given. Whether there is one."""
        if self.has_rest and self.into is Field.NUMBER and self.text(Field.NUMBER):
            self.into = Field.REST
            return True
        self.give()
        later = range(self.at + 1, len(self.sheet.tasks))
        following = next((one for one in later if one not in self.given), None)
        if following is None:
            return False
        self._come_to(following)
        return True

    def step(self, way: int) -> None:
        """Go to the task after (1) or before (-1), if there is one."""
        self.go(min(max(0, self.at + way), len(self.sheet.tasks) - 1))

    def go(self, at: int) -> None:
        """Go to any task. What was typed in the one that is left is given."""
        if at != self.at:
            if self.text(Field.NUMBER):
                self.give()
            self._come_to(at)

    def give(self) -> None:
        """What is typed for the task is its answer."""
        self.given.add(self.at)
        self.last_given = self.at

    def _come_to(self, at: int) -> None:
        self.at, self.into = at, Field.NUMBER

    @property
    def answers(self) -> tuple[Answer | None, ...]:
        """The answers to all tasks, None where there is no number."""
        return tuple(map(self.answer, range(len(self.sheet.tasks))))

    def answer(self, at: int) -> Answer | None:
        """The answer to a task."""
        number = number_in(self.texts.get((at, Field.NUMBER), ""))
        if number is None:
            return None
        return Answer(number, number_in(self.texts.get((at, Field.REST), "")))

    def is_right(self, at: int) -> bool | None:
        """Whether the answer that was given to a task is right; None while none was."""
        if at not in self.given:
            return None
        answer = self.answer(at)
        return answer is not None and is_right(self.sheet.tasks[at], answer)


def with_sign(text: str, sign: str) -> str:
    """What is typed with a sign more: a minus comes first, and goes again where it is typed twice;
    a second point, and a digit too many, change nothing."""
    if sign == _MINUS:
        return text.removeprefix(_MINUS) if text.startswith(_MINUS) else _MINUS + text
    if (sign == _POINT and _POINT in text) or _digits(text) >= MOST_DIGITS:
        return text
    return text + sign


def number_in(text: str) -> Decimal | None:
    """The number that is typed so far; None without any digit."""
    return Decimal(text) if _digits(text) else None


def _digits(text: str) -> int:
    return sum(map(str.isdigit, text))

"""A paper under way on the screen: what is answered, how long it was worked, and handing it in."""

from dataclasses import dataclass, replace
from datetime import datetime
from typing import NamedTuple

from frame.sheets.marking import Answer, Marked, mark_at_once
from frame.sheets.recipe import Part
from frame.sheets.sheet import Sheet
from frame.sheets.typed_in import number_in, with_sign

Answers = tuple[Answer | None, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Paper:
    """A sheet that is worked since the day and time `began`, with what is typed for each task and
    the index `at` of the one that is open. `now` is always a steady clock, in seconds.

    It was worked for so many seconds, and paused so often and for so long, up to `since`: from
    there on it goes on being worked, or paused where it `is_paused`. By the clock only what is
    typed before the minutes are over counts: `in_time` are the texts of then.
    """

    sheet: Sheet
    began: datetime
    since: float
    is_clocked: bool
    texts: tuple[str, ...]
    in_time: tuple[str, ...]
    at: int = 0
    worked: float = 0.0
    paused: float = 0.0
    pauses: int = 0
    is_paused: bool = False

    @classmethod
    def begun(cls, sheet: Sheet, began: datetime, now: float, *, is_clocked: bool) -> "Paper":
        """A paper on which nothing is answered yet."""
        blank = ("",) * len(sheet.tasks)
        return cls(
            sheet=sheet, began=began, since=now, is_clocked=is_clocked, texts=blank, in_time=blank
        )

    # The time

    @property
    def minutes(self) -> float:
        """Those after which nothing counts any more; 0 where all counts."""
        return self.sheet.minutes if self.is_clocked else 0

    def seconds(self, now: float) -> float:
        """How long it was worked, without pauses."""
        return self.worked + (0.0 if self.is_paused else now - self.since)

    def is_over(self, now: float) -> bool:
        """Whether its minutes are over. One may go on."""
        return 0 < self.minutes * 60 <= self.seconds(now)

    def pause(self, now: float) -> "Paper":
        """The clock stands still."""
        if self.is_paused:
            return self
        pauses, worked = self.pauses + 1, self.seconds(now)
        return replace(self, is_paused=True, pauses=pauses, worked=worked, since=now)

    def go_on(self, now: float) -> "Paper":
        """The pause is over."""
        if not self.is_paused:
            return self
        return replace(self, is_paused=False, paused=self.paused + now - self.since, since=now)

    # What is answered

    @property
    def text(self) -> str:
        """What is typed for the task that is open."""
        return self.texts[self.at]

    def type(self, sign: str, now: float) -> "Paper":
        """A sign more for the task that is open."""
        return self.put(with_sign(self.text, sign), now)

    def erase(self, now: float) -> "Paper":
        """The last sign of it is taken away."""
        return self.put(self.text[:-1], now)

    def put(self, text: str, now: float) -> "Paper":
        """This is the answer to the task that is open."""
        texts = (*self.texts[: self.at], text, *self.texts[self.at + 1 :])
        in_time = self.in_time if self.is_over(now) else texts
        return replace(self, texts=texts, in_time=in_time)

    @property
    def open(self) -> tuple[int, ...]:
        """The indices of all tasks without an answer."""
        return tuple(at for at, text in enumerate(self.texts) if number_in(text) is None)

    @property
    def open_of_sections(self) -> tuple[tuple[int, ...], ...]:
        """The same, those of each section by themselves."""
        some = self.open
        return tuple(tuple(at for at in some if at in one) for one in self.sheet.bounds)

    def go(self, at: int) -> "Paper":
        """Open any task."""
        return replace(self, at=min(max(0, at), len(self.texts) - 1))

    def on(self) -> "Paper":
        """Open the next task without an answer, from the first one again behind the last; the same
        where there is no other."""
        others = [at for at in self.open if at != self.at]
        later = [at for at in others if at > self.at]
        return self.go(next(iter(later or others), self.at))

    def hand_in(self, now: float) -> "HandedIn":
        """It is over: all that is typed is answered."""
        ended = self.go_on(now)
        return HandedIn(
            self.sheet, self.began, self.is_clocked, _answers(ended.texts),
            _answers(ended.in_time), ended.seconds(now), ended.paused, ended.pauses,
        )  # fmt: skip


class HandedIn(NamedTuple):
    """A paper that was handed in: whether by the clock; its answers, and those `in_time`, which
    count; how long it was worked, and the seconds and number of pauses."""

    sheet: Sheet
    began: datetime
    is_clocked: bool
    answers: Answers
    in_time: Answers
    seconds: float
    paused: float
    pauses: int

    @property
    def marked(self) -> Marked:
        """It is marked by what counts."""
        return mark_at_once(self.sheet, self.in_time)

    @property
    def marked_whole(self) -> Marked:
        """The same, also by what was answered when the minutes were over."""
        return mark_at_once(self.sheet, self.answers)

    @property
    def is_paper(self) -> bool:
        """Whether it has marks: five tasks to warm up have none."""
        return self.sheet.recipe.part is not Part.WARM_UP


def _answers(texts: tuple[str, ...]) -> Answers:
    numbers = map(number_in, texts)
    return tuple(None if one is None else Answer(one) for one in numbers)

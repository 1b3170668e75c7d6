"""The end of a sheet that was marked: how many are right, what cost most, and where it is kept."""

from enum import StrEnum
from functools import partial

import pygame

from frame.app import Change, Pop, Push
from frame.language.habits import off_by_text
from frame.language.lines import Line
from frame.learner.learners import Learner
from frame.screens.marking.at_hand import AtHand
from frame.screens.marking.next_child import NextChild, waiting, was_kept
from frame.screens.paper.paper_keeping import keep_sheet
from frame.screens.paper.told_marks import (
    fault_name,
    right_text,
    summary_lines,
    task_text,
    written_text,
)
from frame.screens.parts.keypad import MINUS, POINT, key_sign
from frame.screens.parts.page import abreast
from frame.screens.parts.paged import PagedPage
from frame.sheets.marking import Mark
from frame.view.inputs import Key
from frame.view.widgets import Brushes, Button, Style

ANSWER_SECONDS = 0.05
"""How long after one question whether all is weighed the next one is."""
DEAF_SECONDS = 1.0
"""How long after a digit, or at first, Enter and touches were meant for the answers."""
_ROWS, _LINES = 5, 3
"""So many wrong ones are seen at a time, and so many lines tell of the whole."""
_BESIDE = 115
"""Units across that the parts of a row need to stand side by side."""
_SHARES = 0.4, 0.24, 0.36
"""How wide a task, what was written and the fault are in a row."""
_MAIN_SHARE = 0.36
"""Of the width, for the main button at the foot."""
_BOTH_SHARE = 0.54
"""The same for two."""


class Due(StrEnum):
    """What the page waits for."""

    ANSWER = "answer"


class Left(StrEnum):
    """How the end was left: the sheet is KEPT, and another may be marked."""

    KEPT = "kept"


class MarksEnd(PagedPage):
    """The wrong ones in rows, each of which leads back to its answer; and Keep."""

    def __init__(self, at_hand: AtHand) -> None:
        super().__init__(at_hand.room)
        self.at_hand = at_hand
        self.is_new = True
        self.was_kept = was_kept(at_hand.room, at_hand.learner, at_hand.code)
        self.others: tuple[Learner, ...] = ()
        self._be_deaf()
        self._weigh()

    @property
    def is_kept(self) -> bool:
        """Whether it is kept."""
        return self.at_hand.is_kept

    def _be_deaf(self) -> None:
        self.deaf_until = self.room.seconds() + DEAF_SECONDS

    def press_key(self, key: Key) -> Change | None:
        """Whoever types on, as if there were a task more, keeps nothing by it."""
        if key_sign(key, MINUS + POINT):
            self._be_deaf()
        return super().press_key(key)

    def _weigh(self) -> None:
        if self.at_hand.is_quick:
            return
        count = len(self.at_hand.sheet.tasks)
        self.at_hand.weigh(count)
        if self.at_hand.weighed(count) is None:
            self.dues.put(Due.ANSWER, self.room.seconds() + ANSWER_SECONDS)

    def advance(self, now: float) -> Change | None:
        """What was behind the wrong ones may be known."""
        if self.dues.take(Due.ANSWER, now):
            self._weigh()
            self.touch_up()
        return super().advance(now)

    @property
    def greeting(self) -> Line:
        """How many are right, or that it is kept."""
        words, marks = self.room.words, self.at_hand.marked.marks
        if self.is_kept:
            return words.line("marks.kept" if self.is_new else "marks.known")
        return words.line("results.title", right=sum(one.is_right for one in marks), all=len(marks))

    @property
    def pages(self) -> int:
        """How many pages the wrong ones take."""
        return max(1, -(-len(self.at_hand.marked.wrong) // _ROWS))

    @property
    def _wrong(self) -> tuple[Mark, ...]:
        """Those on this page."""
        return self.at_hand.marked.wrong[_ROWS * self.page :][:_ROWS]

    @property
    def _without_answer(self) -> int:
        """How many tasks count as wrong since nothing was typed for them."""
        if self.at_hand.is_quick:
            return 0
        return sum(one.answer is None for one in self.at_hand.marked.marks)

    def back(self) -> Change | None:
        """To the answers; where they are kept, to the code of another sheet."""
        return Pop(Left.KEPT if self.is_kept else None)

    def arrange(self) -> None:
        """A row for each wrong one, what turns the page, and Keep."""
        if not self.is_kept and not self.at_hand.is_quick:
            for at, one in enumerate(self._wrong):
                look = partial(self._look, one)
                text, place = str(one.number), self._number(self._row(at))
                self.buttons.append(Button(place, look, text))
        main, turners, _ = self._foot
        self.buttons += self.turners(abreast(turners, 2, self.unit))
        self.buttons += self._ways_on(main)

    def _ways_on(self, main: pygame.Rect) -> list[Button]:
        """Keep; then another sheet, or the same one of another child."""
        text = self.room.words.text
        if not self.is_kept:
            return [Button(main, self._keep, text("marks.keep"), style=Style.MAIN, step=2)]
        if not self.others:
            return [Button(main, self.back, text("marks.another"), style=Style.MAIN, step=2)]
        sheet, child = abreast(main, 2, 2 * self.unit)
        return [
            Button(sheet, self.back, text("marks.another")),
            Button(child, self._next, text("marks.another_child"), style=Style.MAIN),
        ]

    @property
    def _foot(self) -> tuple[pygame.Rect, pygame.Rect, pygame.Rect]:
        return self.foot_places(_BOTH_SHARE if self.others else _MAIN_SHARE)

    def _row(self, at: int) -> pygame.Rect:
        return self.band(40 + at * 7.4, 6.6)

    def _number(self, row: pygame.Rect) -> pygame.Rect:
        """Where the number of a task stands in its row."""
        return pygame.Rect(row.left, row.top, round(9 * self.unit), row.h)

    def _look(self, one: Mark) -> Change:
        self.at_hand.typed.go(one.number - 1)
        return Pop()

    def _keep(self) -> None:
        at_hand = self.at_hand
        self.is_new = keep_sheet(self.room, at_hand.learner, at_hand.marked, at_hand.conventions)
        at_hand.done()
        self.others = waiting(self.room, at_hand.learner, at_hand.code)
        self.rearrange()
        self.greet()

    def _next(self) -> Change:
        return Push(NextChild(self.room, self.others))

    def resumed(self, result: object) -> Change | None:
        """Whose sheet comes next."""
        return Pop(result) if isinstance(result, Learner) else None

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, the whole in words, and the wrong ones."""
        words = self.room.words
        self.paint_title(
            brushes, words.text("marks.told.title", name=self.at_hand.learner.nickname)
        )
        score = words.text(
            "results.title", right=len(self.at_hand.marked.marks) - len(self.at_hand.marked.wrong),
            all=len(self.at_hand.marked.marks),
        )  # fmt: skip
        brushes.text(score, self.band(12, 8), 3, bold=True)
        self._paint_summary(brushes)
        if self.is_kept:
            brushes.text(self._note, self.band(34, 5), 1, bold=True)
        else:
            is_doubtful = self.was_kept or bool(self._without_answer)
            brushes.text(self._note, self.band(34, 5), 0, soft=not is_doubtful, bold=is_doubtful)
        for at, one in enumerate(self._wrong):
            self._paint_row(brushes, self._row(at), one)
        if self.pages > 1:
            first, count = _ROWS * self.page + 1, len(self.at_hand.marked.wrong)
            last = first + len(self._wrong) - 1
            text = words.text("marks.told.shown", first=first, last=last, count=count)
            is_full = self.is_narrow and self.others
            place = self.band(76.3, 2.6) if is_full else self._foot[2]
            brushes.text(text, place, 0, soft=True)

    def _paint_summary(self, brushes: Brushes) -> None:
        """The whole in words, a line each, or in a narrow window one after another."""
        told = list(summary_lines(self.at_hand.marked, self.room.words))
        if self.is_narrow:
            told = [" ".join(told)]
        place = self.band(20.5, 13)
        high = place.h if self.is_narrow else place.h // _LINES
        for at, text in enumerate(told):
            line = pygame.Rect(place.left, place.top + at * high, place.w, high)
            brushes.text(text, line, 1)

    @property
    def _note(self) -> str:
        """Whether it is kept, and what can be touched."""
        text = self.room.words.text
        if self.is_kept:
            return text("marks.kept" if self.is_new else "marks.known")
        if self.was_kept:
            return text("marks.known")
        note = text("marks.told.at_end", name=self.at_hand.learner.nickname)
        if count := self._without_answer:
            note = f"{text('marks.told.without_answer', count=count)} {note}"
        if self.dues.at(Due.ANSWER) is not None:
            return f"{note} {text('marks.told.weighing')}"
        can_mend = self._wrong and not self.at_hand.is_quick
        return f"{note} {text('marks.told.mend')}" if can_mend else note

    def _paint_row(self, brushes: Brushes, row: pygame.Rect, one: Mark) -> None:
        """The task with its right answer, what was written, and what was likely behind it."""
        words, number = self.room.words, self._number(row)
        if self.is_kept or self.at_hand.is_quick:
            text = words.text("marks.told.number", number=one.number)
            brushes.text(text, number, 1, bold=True)
        rest = pygame.Rect(number.right + round(2 * self.unit), row.top, 0, row.h)
        rest.w = row.right - rest.left
        right = right_text(one, words)
        task = words.text("marks.told.sum", sum=task_text(one.task, words), right=right)
        fault = fault_name(one, words) or off_by_text(one.off_by, words)
        told = [] if self.at_hand.is_quick else [written_text(one, words), fault]
        if self.across < _BESIDE:
            sentences = task, ", ".join(filter(None, told))
            brushes.text(". ".join(filter(None, sentences)), rest, 0)
            return
        for text, place, step in zip((task, *told), self._columns(rest), (1, 1, 0), strict=False):
            if text:
                brushes.text(text, place, step)

    def _columns(self, row: pygame.Rect) -> list[pygame.Rect]:
        """The places in a row for a task, what was written, and the fault."""
        gap = round(self.unit)
        lefts = [row.left + round(sum(_SHARES[:at]) * row.w) for at in range(len(_SHARES))]
        return [
            pygame.Rect(left, row.top, round(share * row.w) - gap, row.h)
            for left, share in zip(lefts, _SHARES, strict=True)
        ]

"""The end of a paper: its marks beside those that are enough, the wrong ones, what to practise."""

from enum import StrEnum
from functools import partial

import pygame

from frame.app import Change, Push
from frame.course.paper import HandedIn
from frame.language.lines import Line
from frame.practice.choices import Beads, Choices, families_known
from frame.practice.drawing import ExerciseError
from frame.practice.families import Family
from frame.room import Room
from frame.screens.lesson.practice import begin_set, known_facts
from frame.screens.lesson.screen import LessonScreen
from frame.screens.paper.dots import paint_share
from frame.screens.paper.graded import paper_title
from frame.screens.paper.told_marks import right_text, task_text, written_text
from frame.screens.paper.told_paper import (
    answered_wrong,
    enough_for,
    fault_line,
    missed_families,
    practise_lines,
    score_line,
    told_lines,
)
from frame.screens.parts.page import abreast
from frame.screens.parts.paged import PagedPage
from frame.sheets.code import code_of
from frame.sheets.marking import Mark, Marked, mark
from frame.view.widgets import Brushes, Button, Style

ANSWER_SECONDS = 0.05
"""How long after one question whether all is weighed the next one is."""
DEAF_SECONDS = 1.0
"""How long at first touches and Enter were meant for the paper."""
_ROWS = 5
_LINES_TOP = 25.0
_LINE, _LINE_NARROW, _ROW, _ROW_NARROW = 4.6, 5.6, 6.4, 5.8
"""Units: the height of a line, and of a row of the wrong ones."""
_SHARES = 0.4, 0.24, 0.36
"""How wide a task, what was given and the rule are in a row."""
_MAIN_SHARE = 0.42
"""Of the width, for the main button at the foot."""


class Due(StrEnum):
    """What the page waits for."""

    ANSWER = "answer"


class PaperResult(PagedPage):
    """What was behind the wrong ones is weighed beside the window's thread."""

    def __init__(self, room: Room, handed: HandedIn) -> None:
        super().__init__(room)
        self.handed = handed
        work = partial(mark, handed.sheet, handed.answers, room.settings.conventions)
        self._weighing = room.aside.do(work)
        self.deaf_until = room.seconds() + DEAF_SECONDS
        self._family = self._to_practise()
        self.note = ""
        self._wait()

    def _wait(self) -> None:
        if not self._weighing.done():
            self.dues.put(Due.ANSWER, self.room.seconds() + ANSWER_SECONDS)

    def advance(self, now: float) -> Change | None:
        """What was behind the wrong ones may be known."""
        if self.dues.take(Due.ANSWER, now):
            self._wait()
            self.touch_up()
        return super().advance(now)

    def leave(self) -> None:
        """What is not weighed yet need not be."""
        self._weighing.cancel()

    @property
    def marked(self) -> Marked:
        """The whole paper, with what was behind the answers where that is known by now."""
        if self._weighing.done() and not self._weighing.cancelled():
            return self._weighing.result()
        return self.handed.marked_whole

    @property
    def greeting(self) -> Line:
        """The marks."""
        return score_line(self.handed, self.room.words)

    @property
    def pages(self) -> int:
        """How many pages the wrong ones take."""
        return max(1, -(-len(answered_wrong(self.marked)) // _ROWS))

    @property
    def _wrong(self) -> tuple[Mark, ...]:
        return answered_wrong(self.marked)[_ROWS * self.page :][:_ROWS]

    def _to_practise(self) -> Family | None:
        """The family that was missed most often of those that are known here."""
        known = families_known(known_facts(self.room))
        missed = missed_families(self.handed.marked_whole)
        return next((one for one in missed if one in known), None)

    # How it is laid out

    @property
    def _lines(self) -> list[str]:
        words, marked = self.room.words, self.marked
        told = list(told_lines(self.handed, marked, words, self.room.listener))
        if self._family is None:  # Else a button says it.
            told += practise_lines(marked, words)
        return told

    @property
    def _rows_top(self) -> float:
        """Below the lines, of which one more may come while all is weighed."""
        line = _LINE_NARROW if self.is_narrow else _LINE
        lines = len(self._lines) + (not self._weighing.done() and bool(self._wrong))
        return _LINES_TOP + line * lines + 2

    def _row(self, at: int) -> pygame.Rect:
        high = _ROW_NARROW if self.is_narrow else _ROW
        return self.band(self._rows_top + at * high, high - 0.6)

    def arrange(self) -> None:
        """What to practise, and what turns the page."""
        main, turners, _ = self.foot_places(_MAIN_SHARE)
        self.buttons += self.turners(abreast(turners, 2, self.unit))
        text, family = self.room.words.text, self._family
        if family is not None:
            name = text("paper.practise", family=text(f"family.{family}"))
            self.buttons.append(Button(main, self._practise, name, style=Style.MAIN))
        else:
            self.buttons.append(Button(main, self.back, text("paper.to_papers"), style=Style.MAIN))

    def _practise(self) -> Change | None:
        if self._family is None:
            return None
        choices = Choices(beads=Beads(family=self._family))
        try:
            return Push(LessonScreen(self.room, begin_set(self.room, choices)))
        except ExerciseError:
            line = self.room.words.line("practise.none")
            self.note = line.show
            self.room.say(line)
            self.rearrange()
            return None

    # What is seen

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, the marks, the lines below them, and the wrong ones."""
        words = self.room.words
        self.paint_title(brushes, paper_title(self.handed.sheet.recipe, words))
        step = 2 if self.is_narrow else 3
        brushes.text(self.greeting.show, self.band(12, 8.5), step, bold=True)
        marked = self.handed.marked
        enough = enough_for(self.handed) / marked.most
        paint_share(brushes, self.band(21.2, 2.4), marked.points / marked.most, enough)
        high = _LINE_NARROW if self.is_narrow else _LINE
        for at, text in enumerate(self._lines):
            brushes.text(text, self.band(_LINES_TOP + at * high, high - 0.4), 1)
        for at, one in enumerate(self._wrong):
            self._paint_row(brushes, self._row(at), one)
        if told := self.note or self._shown:
            brushes.text(told, self.foot_places(_MAIN_SHARE)[2], 0, soft=True)

    @property
    def _shown(self) -> str:
        """That it is being weighed; then the code of the sheet, or which of the wrong ones are
        seen, where not all are."""
        if self._wrong and not self._weighing.done():
            return self.room.words.text("marks.told.weighing")
        if self.pages == 1:
            code = code_of(self.handed.sheet.recipe)
            return self.room.words.text("paper.told.code", code=code)
        first, count = _ROWS * self.page + 1, len(answered_wrong(self.marked))
        last = first + len(self._wrong) - 1
        return self.room.words.text("marks.told.shown", first=first, last=last, count=count)

    def _paint_row(self, brushes: Brushes, row: pygame.Rect, one: Mark) -> None:
        """The number of a task, the task with its right answer, what was given, and the rule."""
        words = self.room.words
        number = pygame.Rect(row.left, row.top, round(7 * self.unit), row.h)
        text = words.text("marks.told.number", number=one.number)
        brushes.text(text, number, 0 if self.is_narrow else 1, bold=True)
        rest = pygame.Rect(number.right, row.top, row.right - number.right, row.h)
        right = right_text(one, words)
        task = words.text("marks.told.sum", sum=task_text(one.task, words), right=right)
        told = [written_text(one, words), fault_line(one, words, self.room.listener)]
        if self.is_narrow:
            brushes.text(". ".join(filter(None, (task, *told))), rest, 0)
            return
        left = rest.left
        for text, share, step in zip((task, *told), _SHARES, (1, 1, 0), strict=True):
            place = pygame.Rect(left, row.top, round(share * rest.w - self.unit), row.h)
            if text:
                brushes.text(text, place, step)
            left += round(share * rest.w)

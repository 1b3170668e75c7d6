"""The end of a paper: its marks beside those that are enough, the wrong ones, what to practise."""

from collections.abc import Callable
from enum import StrEnum
from functools import partial

import pygame

from frame.app import Change, Pop, Push
from frame.course.course import LessonEntry
from frame.course.paper import HandedIn
from frame.language.lines import Line
from frame.learner.assigned import Work
from frame.practice.choices import Beads, Choices, families_known
from frame.practice.drawing import ExerciseError
from frame.practice.families import Family
from frame.room import Room
from frame.screens.lesson.given_now import following_given
from frame.screens.lesson.keeping import Keeping
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
    score_line,
    told_lines,
)
from frame.screens.parts.outcome import Next, NextGiven
from frame.screens.parts.page import abreast
from frame.screens.parts.paged import PagedPage
from frame.screens.parts.way import Way
from frame.sheets.code import code_of
from frame.sheets.marking import Mark, Marked, mark
from frame.view.theme import type_size
from frame.view.widgets import Brushes, Button, Style

ANSWER_SECONDS = 0.05
"""How long after one question whether all is weighed the next one is."""
DEAF_SECONDS = 1.0
"""How long at first touches and Enter were meant for the paper."""
_LINES_TOP, _BETWEEN, _ABOVE_ROWS = 25.0, 0.9, 1.8
"""Units: where the lines begin, how far they stand apart, and what is free below them."""
_ROW, _ROW_NARROW, _BOTTOM = 6.2, 5.8, 78.0
"""Units: the height of a row of the wrong ones, and where they end."""
_SHARES, _SHARES_WITHOUT = (0.4, 0.24, 0.36), (0.7, 0.3, 0.0)
"""How wide a task, what was given and the rule are in a row, and where there is no rule."""
_MAIN_SHARE = 0.42
"""Of the width, for the main button at the foot."""
_LONG_SHARE = 0.64
"""The same in a narrow window for what a tutor gave, beside which nothing is told."""


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
        self.following = following_given(room, (Work.SHEET, code_of(handed.sheet.recipe)))
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
            if self._is_weighed:
                self.rearrange()
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
    def heard(self) -> Line:
        """All that is told of the whole, and what to do next."""
        _, following = self._next
        return Line.joined([self.greeting, *self._told, following])

    @property
    def _is_weighed(self) -> bool:
        return self._weighing.done()

    @property
    def pages(self) -> int:
        """How many pages the wrong ones take."""
        return max(1, -(-len(answered_wrong(self.marked)) // self._on_page))

    @property
    def _on_page(self) -> int:
        high = _ROW_NARROW if self.is_narrow else _ROW
        return max(1, int((_BOTTOM - self._rows_top) // high))

    @property
    def _wrong(self) -> tuple[Mark, ...]:
        return answered_wrong(self.marked)[self._on_page * self.page :][: self._on_page]

    def _to_practise(self) -> Family | None:
        """The family that cost most marks of those that are known here."""
        known = families_known(known_facts(self.room))
        missed = missed_families(self.handed.marked_whole)
        return next((one for one in missed if one in known), None)

    # How it is laid out

    @property
    def _told(self) -> list[Line]:
        words, marked = self.room.words, self.marked
        told = list(
            told_lines(self.handed, marked, words, self.room.listener, is_weighed=self._is_weighed)
        )
        if self._lesson is not None:
            told.append(words.line("paper.lessons"))
        return told

    @property
    def _lines(self) -> list[tuple[str, pygame.Rect]]:
        """The lines, each with its place, as high as it needs."""
        lettering, pixels = self.room.lettering, type_size(1, self.size[1])
        room, placed, top = self.band(_LINES_TOP, _BOTTOM), [], round(_LINES_TOP * self.unit)
        for line in self._told:
            _, rows = lettering.fitted(line.show, pixels, room.size)
            place = pygame.Rect(room.left, top, room.w, lettering.height(pixels) * len(rows))
            placed.append((line.show, place))
            top = place.bottom + round(_BETWEEN * self.unit)
        return placed

    @property
    def _rows_top(self) -> float:
        """Below the lines, of which one more may come while all is weighed."""
        last = self._lines[-1][1]
        comes = not self._is_weighed and bool(answered_wrong(self.marked))
        high = last.h + round(_BETWEEN * self.unit) if comes else 0
        return (last.bottom + high) / self.unit + _ABOVE_ROWS

    def _row(self, at: int) -> pygame.Rect:
        high = _ROW_NARROW if self.is_narrow else _ROW
        return self.band(self._rows_top + at * high, high - 0.6)

    @property
    def _has_long_main(self) -> bool:
        return self.is_narrow and self.following is not None

    @property
    def _foot(self) -> tuple[pygame.Rect, pygame.Rect, pygame.Rect]:
        return self.foot_places(_LONG_SHARE if self._has_long_main else _MAIN_SHARE)

    def arrange(self) -> None:
        """What lets it be heard, what turns the page, and what comes next."""
        self.buttons += self.speaker(self.corner)
        main, turners, _ = self._foot
        self.buttons += self.turners(abreast(turners, 2, self.unit))
        act, line = self._next
        sign = "slip" if self.following else ""
        self.buttons.append(
            Button(main, act, line.show, sign=sign, name=line.speak, style=Style.MAIN)
        )

    @property
    def _lesson(self) -> LessonEntry | None:
        """The next lesson, where what was missed is not taught yet."""
        if self._family is not None or not answered_wrong(self.handed.marked_whole):
            return None
        room = self.room
        return Way(room.course, room.lessons, room.settings.all_open).upcoming

    @property
    def _next(self) -> tuple[Callable[[], Change | None], Line]:
        """The main thing to do, and what it is called: what a tutor gave besides, else what to
        practise."""
        line, family, lesson = self.room.words.line, self._family, self._lesson
        if self.following is not None:
            return partial(Pop, self.following.asks), self.following.line
        if family is not None:
            name = self.room.words.text(f"family.{family}")
            return self._practise, line("paper.practise", family=name)
        if lesson is not None:
            return partial(self._learn, lesson.id), line("home.start", title=lesson.title)
        return self.back, line("paper.to_papers")

    def _learn(self, lesson_id: str) -> Change:
        return Push(LessonScreen(self.room, Keeping.begin(self.room, lesson_id)))

    def resumed(self, result: object) -> Change | None:
        """A set or a lesson is over: there may be more to practise, or another lesson follows. What
        a tutor gave besides home knows."""
        self._family = self._to_practise()
        self.rearrange()
        if isinstance(result, NextGiven):
            return Pop(result)
        following = self._lesson if isinstance(result, Next) else None
        return self._learn(following.id) if following else None

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
        for text, place in self._lines:
            brushes.text(text, place, 1)
        for at, one in enumerate(self._wrong):
            self._paint_row(brushes, self._row(at), one)
        told = self.note or self._shown
        if told and not self._has_long_main:
            main, _, place = self._foot
            if self.pages == 1:
                place.w = main.left - place.left - round(2 * self.unit)
            brushes.text(told, place, 0, soft=True)

    @property
    def _shown(self) -> str:
        """That it is being weighed; then the code of the sheet, or which of the wrong ones are
        seen, where not all are."""
        if self._wrong and not self._weighing.done():
            return self.room.words.text("marks.told.weighing")
        if self.pages == 1:
            code = code_of(self.handed.sheet.recipe)
            return self.room.words.text("paper.told.code", code=code)
        first, count = self._on_page * self.page + 1, len(answered_wrong(self.marked))
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
        told = [written_text(one, words), self._rule(one)]
        if self.is_narrow:
            brushes.text(". ".join(filter(None, (task, *told))), rest, 0)
            return
        left, has_rule = rest.left, any(map(self._rule, self._wrong))
        shares = _SHARES if has_rule else _SHARES_WITHOUT
        for text, share, step in zip((task, *told), shares, (1, 1, 0), strict=True):
            place = pygame.Rect(left, row.top, round(share * rest.w - self.unit), row.h)
            if text:
                brushes.text(text, place, step)
            left += round(share * rest.w)

    def _rule(self, one: Mark) -> str:
        return fault_line(one, self.room.words, self.room.listener)

"""How a set of called or flashed numbers went, told at its end, with the way of each."""

from decimal import Decimal
from functools import partial

import pygame

from frame.app import Change, Pop, Push
from frame.course.feedback import Feedback
from frame.language.lines import Line
from frame.language.numbers import grouped
from frame.language.printed import printed_sum
from frame.practice.flashing import FlashReport
from frame.practice.work import Work
from frame.room import Room
from frame.screens.lesson.fault import answers_of
from frame.screens.lesson.replay import replay_screen
from frame.screens.parts.paged import PagedPage
from frame.technique.reading import plain
from frame.view.widgets import Brushes, Button, Style, paint_tick

_MOST_ROWS = 6
"""On a page."""
_MOST_ROW, _MOST_ROW_NARROW = 10.0, 15.0
_MOST_EYE, _MOST_EYE_NARROW = 17.2, 10.0


class ResultsScreen(PagedPage):
    """A row for each exercise of the set; a row that is touched shows its way. Below the title may
    stand a `note`."""

    def __init__(self, room: Room, results: list[Work], note: Line | None = None) -> None:
        super().__init__(room)
        self.results = results
        self.note = note
        self.feedback = Feedback(room.words, room.listener, partial(answers_of, room))
        self.has_spoken = False

    @property
    def title(self) -> Line:
        """How many were right."""
        counting = [work for work in self.results if work.counts]
        right = sum(work.right for work in counting)
        return self.room.words.line("results.title", right=right, all=len(counting))

    @property
    def pages(self) -> int:
        """As many as there must be, all about as long."""
        return -(-len(self.results) // _MOST_ROWS)

    @property
    def _rows(self) -> int:
        """How many rows a page has, but for the last."""
        return -(-len(self.results) // self.pages)

    @property
    def _shown(self) -> list[Work]:
        first = self.page * self._rows
        return self.results[first : first + self._rows]

    def arrange(self) -> None:
        """The rows, each with its eye, what turns the page, and the way on."""
        for index, work in enumerate(self._shown):
            row = self._row(index)
            eye = self._eye(row)
            style = Style.SIGN if work.right else Style.PLAIN
            self.buttons.append(Button(eye, partial(self._watch, work), sign="eye", style=style))
        foot = self.band(79, 9)
        back = pygame.Rect(foot.topleft, (foot.h, foot.h))
        step = foot.h + round(self.unit)
        self.buttons += self.turners((back, back.move(step, 0)))
        on = self.rect(self.across - 48, 79, 36, 9)
        if self.is_narrow and self.pages > 1:
            on = pygame.Rect(foot.left + 2 * step, foot.top, foot.w - 2 * step, foot.h)
        elif self.is_narrow:
            on = self.rect(12, 79, self.across - 24, 9)
        text = self.room.words.text("lesson.go_on")
        self.buttons.append(Button(on, self.back, text, sign="next", style=Style.MAIN))

    def _row(self, index: int) -> pygame.Rect:
        most = _MOST_ROW_NARROW if self.is_narrow else _MOST_ROW
        top = 18 if self.note else 16
        high = min(most, (76 - top) / self._rows)
        side = 4 if self.is_narrow else 12
        return self.rect(side, top + index * high, self.across - 2 * side, high * 0.86)

    def _eye(self, row: pygame.Rect) -> pygame.Rect:
        most = _MOST_EYE_NARROW if self.is_narrow else _MOST_EYE
        width = min(2 * row.h, round(most * self.unit))
        return pygame.Rect(row.right - width, row.top, width, row.h)

    def _watch(self, work: Work) -> Change:
        line = self.feedback.of_outcome(work)
        return Push(replay_screen(self.room, work, self.feedback, line))

    def back(self) -> Change | None:
        """Enough seen."""
        self.room.hush()
        return Pop("seen")

    def advance(self, now: float) -> Change | None:
        """Once, all of it is said, for whoever does not look."""
        if not self.has_spoken:
            self.has_spoken = True
            note = [self.note] if self.note else []
            lines = [self.title, *note, *(self._spoken(at) for at in range(len(self.results)))]
            said = " ".join(line.speak for line in lines)
            self.room.say(Line(said, said))
        return None

    def _spoken(self, index: int) -> Line:
        work = self.results[index]
        key = "results.right" if work.right else "results.other"
        return self.room.words.line(key, at=index + 1, number=work.exercise.sum.result)

    def wakes_in(self, now: float) -> float | None:
        """Once, to speak."""
        return None if self.has_spoken else 0.01

    def paint_rest(self, brushes: Brushes) -> None:
        """The title and the rows: a tick, the column, the answer given, the right one."""
        head = self.rect(12, 3.5, self.across - 24, 9)
        if self.is_narrow:
            head.h //= 2
        brushes.text(self.room.words.text("results.head"), head, 2, bold=True)
        if self.is_narrow:
            head.top = head.bottom
        align = "left" if self.is_narrow else "right"
        brushes.text(self.title.show, head, 1, soft=True, align=align)
        if self.note:
            below = self.rect(12, 12, self.across - 24, 3.8)
            brushes.text(self.note.show, below, int(not self.is_narrow))
        for index, work in enumerate(self._shown):
            self._paint_row(brushes, self._row(index), work)

    def _paint_row(self, brushes: Brushes, row: pygame.Rect, work: Work) -> None:
        tick = pygame.Rect(row.left, row.top, row.h, row.h)
        if self.is_narrow:
            tick.w = tick.h = row.h // 3
        if work.right:
            paint_tick(brushes, tick.inflate(-tick.w // 5, -tick.h // 5))
        else:
            self._paint_other(brushes, tick)
        left = tick.right + round(2 * self.unit)
        column, answer, figures = self._parts(pygame.Rect(left, row.top, 0, row.h), row, work)
        if work.report is not None:
            brushes.text(self._figures(work.report), figures, 0, soft=True)
        brushes.line(printed_sum(work.exercise.sum, self.room.words), column, 1, least=0)
        brushes.text(self._answers(work), answer, 1, bold=True)

    def _parts(
        self, text: pygame.Rect, row: pygame.Rect, work: Work
    ) -> tuple[pygame.Rect, pygame.Rect, pygame.Rect]:
        """Where the column, the answers and the figures of a row stand: the answers beside the
        column, or below it where the window is narrow; the figures below all."""
        lines = (2 if self.is_narrow else 1) + (work.report is not None)
        column = pygame.Rect(text.left, text.top, 0, text.h // lines)
        column.w = self._eye(row).left - text.left
        answer = column.move(0, column.h)
        if not self.is_narrow:
            numbers = round(row.w * 0.3)
            column.w -= numbers
            answer = pygame.Rect(column.right, row.top, numbers, row.h)
        return column, answer, column.move(0, (lines - 1) * column.h)

    def _figures(self, report: FlashReport) -> str:
        """What the screen really did."""
        words, refresh = self.room.words, report.schedule.refresh
        steady = words.text("flash.steady", refresh=_short(refresh)) if refresh else ""
        figures = words.text(
            "flash.figures", rate=_short(report.rate), sd=_short(report.onset_sd_ms),
            worst=_short(report.worst_ms), missed=len(report.missed),
            limit=_short(report.late_after_ms),
        )  # fmt: skip
        return f"{figures} {steady}".strip()

    def _answers(self, work: Work) -> str:
        """The answer given; beside another than the right one, the right one."""
        words, calculation = self.room.words, work.exercise.sum
        right = self._with_rest(calculation.result, calculation.remainder)
        given = self._with_rest(work.given, work.given_rest) if work.given is not None else ""
        if not work.counts:
            return words.text("results.late", given=given, right=right)
        return right if work.right else words.text("results.given", given=given, right=right)

    def _with_rest(self, number: Decimal, rest: Decimal | None) -> str:
        """An answer, and what is left over where something is."""
        figures = grouped(plain(number))
        if not rest:
            return figures
        return self.room.words.text("results.with_rest", number=figures, rest=grouped(plain(rest)))

    def _paint_other(self, brushes: Brushes, place: pygame.Rect) -> None:
        """A ring: to be looked at."""
        pygame.draw.circle(
            brushes.surface, brushes.theme.soft_ink, place.center, round(place.w * 0.3),
            max(2, round(self.unit / 3)),
        )  # fmt: skip


def _short(number: float) -> str:
    """The number with two places at most."""
    return f"{number:.2f}".rstrip("0").rstrip(".")

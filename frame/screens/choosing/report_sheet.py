"""A report as it is seen on the screen: all of it at once, whatever the window."""

from collections.abc import Sequence
from dataclasses import dataclass

import pygame

from frame.language.catalogue import Words
from frame.report.drawings import share_of
from frame.report.told import SUMS, About, Bar, Page, Part, Row, count_text, minutes_text
from frame.screens.parts.bead_string import paint_beads
from frame.screens.parts.page import shares
from frame.view.theme import type_size
from frame.view.widgets import Brushes

_MOST_LEARNING = {True: 2, False: 3}
"""So many kinds that are being learned are told, the last ones, by whether the window is narrow."""
_WITH_BEADS, _WITH_NOTE = (0.56, 0.27, 0.17), (0.48, 0.35, 0.17)
"""What the name of a kind takes of a line, what stands beside it, and the count."""
_MOST_LINES = 2
"""Of a sentence."""
_FAULT, _HOME = 0.4, 0.36
"""The most that they take, in shares of the height there is."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A report in words, painted in places; smaller where the window is narrow."""

    brushes: Brushes
    words: Words
    told: Page
    is_narrow: bool

    @property
    def _step(self) -> int:
        return 0 if self.is_narrow else 1

    @property
    def _line(self) -> int:
        """The height of a line in pixels."""
        return self._pixels(4.2, narrow=3)

    def _pixels(self, units: float, narrow: float) -> int:
        return round((narrow if self.is_narrow else units) * self.brushes.unit)

    def paint_sums(self, place: pygame.Rect) -> int:
        """What is known, what is being learned, what goes in the head: a line each, of what is
        known as many as there is room for. Where they end."""
        line, gap = self._line, self._pixels(1.2, narrow=0.3)
        known, *others = (part for about in SUMS if (part := self.told.part(about)))
        most = _MOST_LEARNING[self.is_narrow]
        below = [(part.heading, *self._shortened(part, most)) for part in others]
        taken = sum(self._lines(shown, place.w) * line for group in below for shown in group)
        left = (place.h - taken - gap * len(below)) // line
        left -= 1 + sum(self._lines(one, place.w) for one in known.sentences)
        if any(part.rows for part in (known, *others)):
            self._paint_column(place)
        top = place.top
        for group in ((known.heading, *self._shortened(known, left)), *below):
            for at, shown in enumerate(group):
                high = line * self._lines(shown, place.w)
                here = pygame.Rect(place.left, top, place.w, high)
                self._paint_line(here, shown, is_head=not at)
                top += high
            top += gap
        return top

    def _lines(self, shown: Row | str, wide: int) -> int:
        """How many lines a row or a sentence takes."""
        if isinstance(shown, Row):
            return 1
        pixels = type_size(self._step, self.brushes.height)
        return min(_MOST_LINES, len(self.brushes.lettering.wrapped(shown, pixels, wide)))

    def _paint_column(self, place: pygame.Rect) -> None:
        """What the counts are of."""
        head = pygame.Rect(place.left, place.top, place.w, self._line)
        self.brushes.text(self.words.text("report.page.column"), head, 0, soft=True, align="right")

    def _shortened(self, part: Part, most: int) -> Sequence[Row | str]:
        """The rows and sentences of a part, of more rows than that the last ones."""
        if len(part.rows) <= most:
            return (*part.rows, *part.sentences)
        rows = part.rows[len(part.rows) - most + 1 :]
        key = "report.page.more_known" if part.about is About.KNOWN else "report.page.more_learning"
        more = self.words.text(key, count=len(part.rows) - len(rows))
        return (*rows, more, *part.sentences)

    def _paint_line(self, place: pygame.Rect, shown: Row | str, *, is_head: bool) -> None:
        brushes = self.brushes
        if isinstance(shown, str):
            brushes.text(shown, place, self._step, bold=is_head)
            return
        name, beside, count = shares(place, _WITH_NOTE if shown.note else _WITH_BEADS)
        name.w -= round(brushes.unit)
        brushes.text(shown.name, name, self._step)
        if shown.note:
            brushes.text(shown.note, beside, 0, soft=True)
        else:
            around = round(1.2 * brushes.unit), round(0.3 * place.h)
            paint_beads(brushes, beside.inflate(-around[0], -around[1]), shown.tally)
        text = count_text(shown.tally, self.words)
        brushes.text(text, count, self._step, bold=True, align="right")

    def paint_fault_and_home(self, place: pygame.Rect) -> pygame.Rect:
        """The fault, and what to do at home; what they leave of the place."""
        gap, top = self._pixels(2.4, narrow=1), place.top
        for about, share in ((About.FAULT, _FAULT), (About.HOME, _HOME)):
            if part := self.told.part(about):
                most = pygame.Rect(place.left, top, place.w, round(share * place.h))
                top = self._paint_part(most, part) + gap
        return pygame.Rect(place.left, top, place.w, place.bottom - top)

    def _paint_part(self, most: pygame.Rect, part: Part) -> int:
        """A heading and sentences, in as much of a place as they need; where they end. What can be
        done stands in a box."""
        brushes, is_boxed = self.brushes, part.about is About.HOME
        pad = round(1.2 * brushes.unit) if is_boxed else 0
        inside = most.inflate(-2 * pad, -2 * pad)
        head, below = inside.copy(), inside.copy()
        head.h = self._line
        below.top, below.h = head.bottom, inside.h - head.h
        text = " ".join(part.sentences)
        below.h = self._high(text, below)
        if is_boxed:
            around = pygame.Rect(most.left, most.top, most.w, below.bottom + pad - most.top)
            brushes.box(around, brushes.theme.hint_wash, brushes.theme.hint)
        brushes.text(part.heading, head, self._step, bold=True)
        brushes.text(text, below, self._step)
        return below.bottom + pad

    def _high(self, text: str, place: pygame.Rect) -> int:
        """How high a text stands in a place."""
        lettering, usual = self.brushes.lettering, type_size(self._step, self.brushes.height)
        pixels, lines = lettering.fitted(text, usual, place.size)
        return min(place.h, lettering.height(pixels) * len(lines))

    def paint_week(self, place: pygame.Rect) -> None:
        """A bar for each week, and as many sentences as there is room for; without a heading where
        there is room for the bars alone."""
        week = self.told.part(About.WEEK)
        if week is None:
            return
        most = max((one.minutes for one in week.bars), default=0)
        at = pygame.Rect(place.left, place.top, place.w, self._line)
        if place.h >= (1 + len(week.bars)) * self._line:
            self.brushes.text(week.heading, at, self._step, bold=True)
            at.top = at.bottom
        for number, one in enumerate(week.bars):
            self._paint_bar(at, one, most, is_now=not number)
            at.top = at.bottom
        at.top += self._pixels(0.6, narrow=0.4)
        for sentence in week.sentences:
            if place.bottom - at.top < self._line:
                return
            at.h = place.bottom - at.top
            at.h = self._high(sentence, at)
            self.brushes.text(sentence, at, self._step)
            at.top = at.bottom

    def _paint_bar(self, place: pygame.Rect, week: Bar, most: int, *, is_now: bool) -> None:
        brushes = self.brushes
        label, room, count = shares(place, (0.49, 0.31, 0.2))
        brushes.text(week.name, label, self._step)
        text = minutes_text(week, self.words)
        brushes.text(text, count, self._step, bold=True, align="right")
        colours = brushes.theme.bead(used=is_now)
        bar = room.inflate(0, -round(0.5 * room.h))
        bar.w = round(bar.w * share_of(week.minutes, most))
        if bar.w:
            brushes.box(bar, colours.face, colours.edge, radius=1)

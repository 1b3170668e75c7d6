"""A page on which a sheet is marked: whose it is, the two ways of marking it, and the end."""

from dataclasses import replace
from enum import StrEnum
from functools import partial

import pygame

from frame.app import Change, Pop, Push
from frame.learner.learners import Learner
from frame.screens.marking.at_hand import AtHand
from frame.screens.marking.marks_end import Left, MarksEnd
from frame.screens.parts.page import Page, Tab, abreast
from frame.view.widgets import Brushes, Button

_BESIDE = 115
"""Units across that keys need beside the rest."""


class Turned(StrEnum):
    """The page goes, for the OTHER way of marking is wanted."""

    OTHER = "other"


class SheetPage(Page):
    """Has the sheet at hand marked in one way; the other is behind a tab."""

    def __init__(self, at_hand: AtHand) -> None:
        super().__init__(at_hand.room)
        self.at_hand = at_hand

    @property
    def is_upright(self) -> bool:
        """Whether all stands in one column."""
        return self.across < _BESIDE

    def arrange(self) -> None:
        """The two ways, and what leads to the end."""
        text = self.room.words.text
        quick = self.at_hand.is_quick
        tabs = [
            Tab(text("marks.answers"), partial(self._turn, False), not quick),
            Tab(text("marks.only_wrong"), partial(self._turn, True), quick),
        ]
        answers, only, end = abreast(self.band(12, 7), 3, 3 * self.unit)
        self.buttons += self.tabs(answers.union(only), tabs, 0, narrow=2)
        self.buttons.append(Button(end, self.end, text("marks.to_end"), step=0))

    def _turn(self, quick: bool) -> Change | None:
        if quick == self.at_hand.is_quick:
            return None
        self.at_hand.turn(quick)
        return Pop(Turned.OTHER)

    def end(self) -> Change:
        """How it went."""
        return Push(MarksEnd(self.at_hand))

    def resumed(self, result: object) -> Change | None:
        """Back from the end, to mend something, or since it is kept, perhaps for another child."""
        if result is Left.KEPT or isinstance(result, Learner):
            return Pop(result)
        self.rearrange()
        return None

    def paint_rest(self, brushes: Brushes) -> None:
        """Whose sheet it is."""
        name = self.at_hand.learner.nickname
        self.paint_title(brushes, self.room.words.text("marks.told.title", name=name))

    def paint_dashes(self, brushes: Brushes, place: pygame.Rect, share: float = 0.7) -> None:
        """A dashed edge around a place that is small: shorter and thinner dashes."""
        fine = replace(brushes, measure=round(share * brushes.height))
        fine.dashes(place, self.room.theme.mending)

    def tiles(self, place: pygame.Rect, in_line: int, gap: float) -> list[pygame.Rect]:
        """A place for each task."""
        count = len(self.at_hand.sheet.tasks)
        rows = -(-count // in_line)
        high = (place.h - gap * (rows - 1)) / rows
        wide = (place.w - gap * (in_line - 1)) / in_line
        return [
            pygame.Rect(
                round(place.left + at % in_line * (wide + gap)),
                round(place.top + at // in_line * (high + gap)),
                round(wide), round(high),
            )
            for at in range(count)
        ]  # fmt: skip

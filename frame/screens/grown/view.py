"""A part of what has grown, as the page shows it: what of it can be touched, and what is told."""

from collections.abc import Callable, Sequence
from functools import partial
from typing import NamedTuple

import pygame

from frame.language.lines import Line
from frame.screens.parts.frame_panel import GlidingPanel
from frame.screens.parts.page import Page
from frame.view.bead_field import BeadField
from frame.view.geometry import Point
from frame.view.widgets import Brushes, Button

WAYS = {
    pygame.K_LEFT: (-1, 0), pygame.K_RIGHT: (1, 0), pygame.K_UP: (0, -1), pygame.K_DOWN: (0, 1),
}  # fmt: skip
_ASIDE = 3
"""A spot so many times as far to one side as ahead is no nearer than one straight ahead."""


class Spot(NamedTuple):
    """A place that can be touched, and what is told of it."""

    place: pygame.Rect
    line: Line


class GlidingPage(GlidingPanel, Page):
    """A page with frames on it."""

    def play(self) -> None:
        """Have what it shows played."""


class View:
    """Subclasses have `told`, and lay out their `spots` and paint them; `fields` are frames whose
    beads move."""

    def __init__(self, page: GlidingPage) -> None:
        self.page, self.room, self.words = page, page.room, page.room.words
        self.spots: Sequence[Spot] = ()

    @property
    def fields(self) -> tuple[BeadField, ...]:
        """The frames on it."""
        return ()

    @property
    def told(self) -> Line:
        """What is told while no spot is chosen."""
        raise NotImplementedError

    def arrange(self) -> Sequence[Button]:
        """Lay all out; what can be pressed."""
        raise NotImplementedError

    def paint(self, brushes: Brushes, at: int | None) -> None:
        """Paint it, with the spot that is chosen."""
        raise NotImplementedError

    @property
    def heard(self) -> Line | None:
        """What is said while it is played; None where there is nothing to play."""
        return None

    def choose(self, at: int | None) -> None:
        """A spot is chosen, or none any more."""

    def plays(self, at: int) -> bool:
        """Whether touching a spot has something played."""
        return False

    def begin(self, now: float) -> None:
        """Play it from its beginning."""

    def go_on(self, now: float) -> bool:
        """Go on playing; whether there is more."""
        return False

    def paint_told(self, brushes: Brushes, place: pygame.Rect, at: int | None) -> None:
        """What is told of the spot that is chosen, or of the whole."""
        line = self.told if at is None else self.spots[at].line
        brushes.text(line.show, place, 0 if self.page.is_narrow else 1, soft=at is None)


def turners(
    back: pygame.Rect, on: pygame.Rect, turn: Callable[[int], object]
) -> tuple[Button, Button]:
    """What turns to the part before, and to the next."""
    return (
        Button(back, partial(turn, -1), sign="step_back"),
        Button(on, partial(turn, 1), sign="step_on"),
    )


def spot_at(spots: Sequence[Spot], place: Point) -> int | None:
    """The spot at a place; None where there is none."""
    return next((at for at, one in enumerate(spots) if one.place.collidepoint(place)), None)


def beside(spots: Sequence[Spot], at: int, key: int) -> int:
    """The nearest spot to which an arrow points; the same where there is none."""
    (x, y), here = WAYS[key], spots[at].place

    def apart(other: int) -> tuple[int, int]:
        there = spots[other].place
        across, down = there.centerx - here.centerx, there.centery - here.centery
        return across * x + down * y, abs(across * y) + abs(down * x)

    ahead = [other for other in range(len(spots)) if apart(other)[0] > 0]
    return min(ahead, key=lambda other: apart(other)[0] + _ASIDE * apart(other)[1], default=at)

"""Rows of things to choose: one of a few, or a value with less and more beside it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

import pygame

from frame.language.lines import Line
from frame.view.widgets import Brushes, Button, Style

_LABEL_SHARE = 0.3
_ALIKE = 1e-9
"""Values no further apart than this are one."""


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a row: its text, whether it is chosen, and what choosing it does."""

    text: str
    is_chosen: bool
    act: Callable[[], object]


@dataclass(frozen=True, slots=True)
class Dial:
    """A row: its name, and either its choices, or a value and what less and more of it do; None
    where there is no less or no more. `names` are what those two, and a choice that is chosen,
    are called when they are heard."""

    label: str
    choices: tuple[Choice, ...] = ()
    value: Line | None = None
    less: Callable[[], object] | None = None
    more: Callable[[], object] | None = None
    names: tuple[str, str, str] = ("", "", "")

    def buttons(self, place: pygame.Rect, gap: int) -> list[Button]:
        """What can be touched of the row."""
        area = self._area(place)
        if not self.choices:
            less = pygame.Rect(area.topleft, (area.h, area.h))
            more = less.copy()
            more.right = area.right
            pair = (
                (less, self.less, "less", self.names[0]),
                (more, self.more, "more", self.names[1]),
            )
            return [
                Button(at, act, sign=sign, name=self._said(name))
                for at, act, sign, name in pair
                if act
            ]
        width = (area.w - gap * (len(self.choices) - 1)) / len(self.choices)
        return [
            Button(
                pygame.Rect(
                    round(area.left + index * (width + gap)), area.top, round(width), area.h
                ),
                one.act, one.text, name=self._said_of(one), style=Style.CHOICE, step=0,
                chosen=one.is_chosen, bold=one.is_chosen,
            )
            for index, one in enumerate(self.choices)
        ]  # fmt: skip

    def _said(self, last: str) -> str:
        """The row and its value, then one thing more."""
        value = self.value.speak.rstrip(".") if self.value else ""
        return " ".join(f"{part}." for part in (self.label, value, last) if part)

    def _said_of(self, one: Choice) -> str:
        chosen = f"{one.text}. {self.names[2]}" if one.is_chosen else one.text
        return self._said(chosen)

    def paint(self, brushes: Brushes, place: pygame.Rect) -> None:
        """The name, and the value if there is one."""
        label = pygame.Rect(place.left, place.top, round(place.w * _LABEL_SHARE) - 8, place.h)
        brushes.text(self.label, label, 1)
        if self.value:
            area = self._area(place)
            brushes.text(
                self.value.show, area.inflate(-2 * area.h - 8, 0), 1, bold=True, align="centre"
            )

    def _area(self, place: pygame.Rect) -> pygame.Rect:
        label = round(place.w * _LABEL_SHARE)
        return pygame.Rect(place.left + label, place.top, place.w - label, place.h)


def beside(now: float, values: Sequence[float]) -> tuple[list[float], list[float]]:
    """The values before one and those after it, in the direction in which they run."""
    way = -1 if values[0] > values[-1] else 1
    before = [value for value in values if way * (now - value) > _ALIKE]
    return before, [value for value in values if way * (value - now) > _ALIKE]

"""Rows of things to choose: one of a few, or a value with less and more beside it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import pygame

from frame.language.lines import Line
from frame.screens.parts.page import Page, abreast
from frame.view.widgets import Brushes, Button, Style

_LABEL_SHARE = 0.3
_GAP = 0.7
"""Units between two choices."""
_ALIKE = 1e-9
"""Numbers no further apart than this are one."""

Act = Callable[[], object]


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a row: its text, whether it is chosen, and what choosing it does."""

    text: str
    is_chosen: bool
    act: Act


@dataclass(frozen=True, slots=True)
class Dial:
    """A row: its name, and either its choices, or a value and what less and more of it do; None
    where there is no less or no more."""

    label: str
    choices: tuple[Choice, ...] = ()
    value: Line | None = None
    less: Act | None = None
    more: Act | None = None


class DialPage(Page):
    """A page of rows, of settings unless a subclass has other values `now` and other things to
    `choose`. It says which `rows` there are and where they stand."""

    first_row, apart, high = 14.0, 8.2, 7.0
    dials: tuple[Dial, ...] = ()

    def rows(self) -> tuple[Dial, ...]:
        """The rows, from the top."""
        return ()

    def now(self, name: str) -> object:
        """What is chosen under a name."""
        return getattr(self.room.settings, name)

    def choose(self, **changes: object) -> None:
        """Have this chosen, each under its name, and kept."""
        self.room.set(**changes)

    def arrange(self) -> None:
        """What can be touched of each row."""
        self.dials = self.rows()
        for index, dial in enumerate(self.dials):
            self.buttons += self._buttons(dial, self._area(index))

    def row(self, index: int) -> pygame.Rect:
        """Where a row stands."""
        return self.band(self.first_row + index * self.apart, self.high)

    def _area(self, index: int) -> pygame.Rect:
        """The part of a row that is beside its name."""
        row = self.row(index)
        label = round(row.w * _LABEL_SHARE)
        return pygame.Rect(row.left + label, row.top, row.w - label, row.h)

    def _buttons(self, dial: Dial, area: pygame.Rect) -> list[Button]:
        text = self.room.words.text
        if dial.choices:
            places = abreast(area, len(dial.choices), round(self.unit * _GAP))
            return [
                Button(
                    place, one.act, one.text, style=Style.CHOICE, step=0, chosen=one.is_chosen,
                    bold=one.is_chosen,
                    name=_said(dial, one.text, text("sign.chosen") if one.is_chosen else ""),
                )
                for place, one in zip(places, dial.choices, strict=True)
            ]  # fmt: skip
        left, right = pygame.Rect(area.topleft, (area.h, area.h)), area.right - area.h
        signs = (("less", dial.less, left), ("more", dial.more, left.move(right - left.left, 0)))
        value = dial.value.speak.rstrip(".") if dial.value else ""
        return [
            Button(place, act, sign=sign, name=_said(dial, value, text(f"sign.{sign}")))
            for sign, act, place in signs
            if act
        ]

    def paint_rows(self, brushes: Brushes) -> None:
        """The names of the rows, and their values."""
        for index, dial in enumerate(self.dials):
            row, area = self.row(index), self._area(index)
            label = pygame.Rect(row.left, row.top, area.left - row.left - 8, row.h)
            brushes.text(dial.label, label, 1)
            if dial.value:
                between = area.inflate(-2 * area.h - 8, 0)
                brushes.text(dial.value.show, between, 1, bold=True, align="centre")

    def pick(
        self, label: str, name: str, values: Sequence[tuple[str, object]], usual: object = None
    ) -> Dial:
        """A row of which one is chosen, the `usual` one where nothing is."""
        now = self.now(name)
        now = usual if now is None else now
        choices = (Choice(text, now == one, self.setter(**{name: one})) for text, one in values)
        return Dial(label, tuple(choices))

    def switch(self, label: str, name: str) -> Dial:
        """A row of on and off."""
        text = self.room.words.text
        return self.pick(label, name, [(text("settings.on"), True), (text("settings.off"), False)])

    def turn(self, label: str, name: str, values: Sequence[Any], shown: Line) -> Dial:
        """A row with less and more of a value."""
        before, after = beside(self.now(name), values)
        return Dial(
            label,
            value=shown,
            less=self.setter(**{name: before[-1]}) if before else None,
            more=self.setter(**{name: after[0]}) if after else None,
        )

    def setter(self, **changes: object) -> Callable[[], None]:
        """What has this chosen, shown and heard."""

        def change() -> None:
            self.choose(**changes)
            self.rearrange()
            self.speak_focus()

        return change


def _said(dial: Dial, *parts: str) -> str:
    """The row's name, then what more there is."""
    return " ".join(f"{part}." for part in (dial.label, *parts) if part)


def beside(now: Any, values: Sequence[Any]) -> tuple[Sequence[Any], Sequence[Any]]:
    """The values before one and those after it; of numbers also beside one that is none of them."""
    if now in values:
        at = values.index(now)
        return values[:at], values[at + 1 :]
    way = -1 if values[0] > values[-1] else 1
    before = [value for value in values if way * (now - value) > _ALIKE]
    return before, [value for value in values if way * (value - now) > _ALIKE]

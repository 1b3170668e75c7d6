"""Rows of things to choose: one of a few, or a value with less and more beside it."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any

import pygame

from frame.language.lines import Line
from frame.screens.parts.page import Page, abreast
from frame.view.widgets import Brushes, Button, Style

_LABEL_SHARE = 0.3
_LABEL_HEIGHT = 2.8
"""Units, where the name of a row stands above it."""
_MOST_APART = 10.3
_BETWEEN = 1.3
"""Units between two rows."""
_GAP, _CLOSE_GAP = 0.7, 0.3
"""Units between two choices, and between more than _FEW."""
_FEW = 9
_ALIKE = 1e-9
"""Numbers no further apart than this are one."""

Act = Callable[[], object]


@dataclass(frozen=True, slots=True)
class Choice:
    """One of a row: its text, whether it is chosen, and what choosing it does."""

    text: Line
    is_chosen: bool
    act: Act


@dataclass(frozen=True, slots=True)
class Dial:
    """A row: its name, and either its choices, or a value and what less and more of it do; None
    where there is no less or no more."""

    label: Line
    choices: tuple[Choice, ...] = ()
    value: Line | None = None
    less: Act | None = None
    more: Act | None = None

    @property
    def spoken(self) -> str:
        """Its name and what is chosen of it, as they are heard."""
        return _spoken(self.label, self.value, *(one.text for one in self.choices if one.is_chosen))


class DialPage(Page):
    """A page of rows, of settings unless a subclass has other values `now` and other things to
    `choose`. It says which `rows` there are, and between which heights, in units, they stand."""

    top, bottom = 14.0, 55.0
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
        for dial, (_, area) in zip(self.dials, self.places(), strict=True):
            self.buttons += self._buttons(dial, area)

    def places(self) -> list[tuple[pygame.Rect, pygame.Rect]]:
        """For each row the places for its name and for what can be touched: in a narrow window
        the name stands above it."""
        above = [_LABEL_HEIGHT * bool(self.is_narrow and one.label.show) for one in self.dials]
        apart = (self.bottom - self.top - sum(above)) / max(1, len(self.dials))
        apart, top, places = min(_MOST_APART, apart), self.top, []
        for high in above:
            label = self.band(top, high or apart - _BETWEEN)
            area = self.band(top + high, apart - _BETWEEN)
            if not self.is_narrow:
                area.left += round(area.w * _LABEL_SHARE)
                area.w = label.right - area.left
                label.w = area.left - label.left - 8
            places.append((label, area))
            top += high + apart
        return places

    def _buttons(self, dial: Dial, area: pygame.Rect) -> list[Button]:
        line = self.room.words.line
        if dial.choices:
            gap = _GAP if len(dial.choices) <= _FEW else _CLOSE_GAP
            places = abreast(area, len(dial.choices), round(self.unit * gap))
            chosen = line("sign.chosen")
            return [
                Button(
                    place, one.act, one.text.show, style=Style.CHOICE, step=0,
                    chosen=one.is_chosen, bold=one.is_chosen,
                    name=_spoken(dial.label, one.text, chosen if one.is_chosen else None),
                )
                for place, one in zip(places, dial.choices, strict=True)
            ]  # fmt: skip
        less = pygame.Rect(area.topleft, (area.h, area.h))
        more = less.move(area.w - area.h, 0)
        return [
            Button(
                place, act, sign=sign,
                name=_spoken(dial.label, dial.value, line(f"sign.{sign}")),
            )
            for sign, act, place in (("less", dial.less, less), ("more", dial.more, more))
            if act
        ]  # fmt: skip

    def paint_rows(self, brushes: Brushes) -> None:
        """The names of the rows, and their values."""
        for dial, (label, area) in zip(self.dials, self.places(), strict=True):
            brushes.text(dial.label.show, label, 1)
            if dial.value:
                between = area.inflate(-2 * area.h - 8, 0)
                brushes.text(dial.value.show, between, 1, bold=True, align="centre")

    def pick(
        self, label: Line, name: str, values: Sequence[tuple[Line, object]], usual: object = None
    ) -> Dial:
        """A row of which one is chosen, the `usual` one where nothing is."""
        now = self.now(name)
        now = usual if now is None else now
        choices = (Choice(text, now == one, self.setter(**{name: one})) for text, one in values)
        return Dial(label, tuple(choices))

    def switch(self, label: Line, name: str) -> Dial:
        """A row of on and off."""
        line = self.room.words.line
        return self.pick(label, name, [(line("settings.on"), True), (line("settings.off"), False)])

    def turn(self, label: Line, name: str, values: Sequence[Any], shown: Line) -> Dial:
        """A row with less and more of a value."""
        before, after = beside(self.now(name), values)
        return Dial(
            label,
            value=shown,
            less=self.setter(**{name: before[-1]}) if before else None,
            more=self.setter(**{name: after[0]}) if after else None,
        )

    def setter(self, **changes: object) -> Callable[[], None]:
        """What has this chosen, and shows and says it."""

        def change() -> None:
            before = {dial.spoken for dial in self.dials}
            self.choose(**changes)
            self.rearrange()
            new = " ".join(dial.spoken for dial in self.dials if dial.spoken not in before)
            if self.focus is not None:
                self.speak_focus()
            elif new:
                self.room.say(Line(new, new))

        return change


def _spoken(*parts: Line | None) -> str:
    """A sentence for each part that there is."""
    return " ".join(f"{part.speak.rstrip('.')}." for part in parts if part and part.speak)


def beside(now: Any, values: Sequence[Any]) -> tuple[Sequence[Any], Sequence[Any]]:
    """The values before one and those after it; of numbers also beside one that is none of them."""
    if now in values:
        at = values.index(now)
        return values[:at], values[at + 1 :]
    way = -1 if values[0] > values[-1] else 1
    before = [value for value in values if way * (now - value) > _ALIKE]
    return before, [value for value in values if way * (value - now) > _ALIKE]

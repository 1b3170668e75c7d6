"""Rows of things to choose: one of a few, or a value with less and more beside it, and with leaps
where there are many."""

from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from typing import Any, NamedTuple

import pygame

from frame.language.lines import Line
from frame.screens.parts.page import Page, abreast
from frame.view.widgets import Brushes, Button, Style

_LABEL_SHARE = 0.3
_LABEL_HEIGHT = 2.6
"""Units, where the name of a row stands above it."""
_MOST_APART = 10.3
_BETWEEN, _NARROWLY_BETWEEN = 1.3, 0.6
"""Units between two rows, wide windows and narrow ones."""
_BELOW_LABEL = 1.0
"""Units between a name and what can be touched below it: letters hang there, and the ring comes."""
_GAP = 0.7
"""Units between two choices."""
_FEW = 8
_LEAPS = 4
"""Of more than a few values one comes from one end to the other in so many leaps."""
_ALIKE = 1e-9
"""Numbers no further apart than this are one."""

Press = Callable[[], object]


class Choice(NamedTuple):
    """One of a row: its text, whether it is chosen, and what choosing it does."""

    text: Line
    is_chosen: bool
    act: Press


class Turn(NamedTuple):
    """What turns a row to another value: its sign, what it is called, and what it does; None at
    the end of the values."""

    sign: str
    name: Line
    act: Press | None


@dataclass(frozen=True, slots=True)
class Dial:
    """A row: its name, and either its choices, or a value and what turns it, from far less to far
    more."""

    label: Line
    choices: tuple[Choice, ...] = ()
    value: Line | None = None
    turns: tuple[Turn, ...] = ()

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
            self.buttons += self._choices(dial, area) if dial.choices else _turns(dial, area)

    def places(self) -> list[tuple[pygame.Rect, pygame.Rect]]:
        """For each row the places for its name and for what can be touched: in a narrow window
        the name stands above it."""
        above = [_LABEL_HEIGHT * bool(self.is_narrow and one.label.show) for one in self.dials]
        apart = (self.bottom - self.top - sum(above)) / max(1, len(self.dials))
        apart, top, places = min(_MOST_APART, apart), self.top, []
        free = apart - (_NARROWLY_BETWEEN if self.is_narrow else _BETWEEN)
        for high in above:
            label = self.band(top, high or free)
            below = _BELOW_LABEL if high else 0.0
            area = self.band(top + high + below, free - below)
            if not self.is_narrow:
                area.left += round(area.w * _LABEL_SHARE)
                area.w = label.right - area.left
                label.w = area.left - label.left - 8
            places.append((label, area))
            top += high + apart
        return places

    def _choices(self, dial: Dial, area: pygame.Rect) -> Iterator[Button]:
        chosen = self.room.words.line("sign.chosen")
        places = abreast(area, len(dial.choices), round(self.unit * _GAP))
        for place, one in zip(places, dial.choices, strict=True):
            yield Button(
                place, one.act, one.text.show, style=Style.CHOICE, step=0, chosen=one.is_chosen,
                bold=one.is_chosen,
                name=_spoken(dial.label, one.text, chosen if one.is_chosen else None),
            )  # fmt: skip

    def paint_rows(self, brushes: Brushes) -> None:
        """The names of the rows, and their values."""
        for dial, (label, area) in zip(self.dials, self.places(), strict=True):
            brushes.text(dial.label.show, label, 1)
            if dial.value:
                between = area.inflate(-len(dial.turns) * _step(area), 0)
                brushes.text(dial.value.show, between, 1, bold=True, align="centre")

    def pick(
        self, key: str, *, name: str, values: Sequence[tuple[Line, object]], usual: object = None
    ) -> Dial:
        """A row of which one is chosen, the `usual` one where nothing is; without a `key` for its
        name it goes on with the row above."""
        now = self.now(name)
        now = usual if now is None else now
        choices = (Choice(text, now == one, self.setter(**{name: one})) for text, one in values)
        return Dial(self._label(key), tuple(choices))

    def switch(self, key: str, *, name: str) -> Dial:
        """A row of on and off."""
        line = self.room.words.line
        values = [(line("settings.on"), True), (line("settings.off"), False)]
        return self.pick(key, name=name, values=values)

    def turn(self, key: str, *, name: str, values: Sequence[Any], shown: Line) -> Dial:
        """A row with less and more of a value; of many values also with leaps."""
        before, after = beside(self.now(name), values)
        line, leap = self.room.words.line, -(-len(values) // _LEAPS)

        def to(some: Sequence[Any], steps: int) -> Press | None:
            return self.setter(**{name: some[min(steps, len(some)) - 1]}) if some else None

        turns = (
            Turn("much_less", line("sign.much_less"), to(before[::-1], leap)),
            Turn("less", line("sign.less"), to(before[::-1], 1)),
            Turn("more", line("sign.more"), to(after, 1)),
            Turn("much_more", line("sign.much_more"), to(after, leap)),
        )
        is_long = len(values) > _FEW
        return Dial(self._label(key), value=shown, turns=turns if is_long else turns[1:3])

    def _label(self, key: str) -> Line:
        return self.room.words.line(key) if key else Line("", "")

    def setter(self, **changes: object) -> Press:
        """What has this chosen, and shows and says it."""

        def change() -> None:
            before = {dial.spoken for dial in self.dials}
            focused = None if self.focus is None else self.buttons[self.focus].place
            self.choose(**changes)
            self.rearrange()
            if focused:
                self.focus = _nearest(focused, self.buttons)
            new = " ".join(dial.spoken for dial in self.dials if dial.spoken not in before)
            if self.focus is not None:
                self.speak_focus()
            elif new:
                self.room.say(Line(new, new))

        return change


def _turns(dial: Dial, area: pygame.Rect) -> Iterator[Button]:
    """Half of them from the left, half from the right, as squares."""
    half, step = len(dial.turns) // 2, _step(area)
    for at, turn in enumerate(dial.turns):
        place = pygame.Rect(area.left + at * step, area.top, area.h, area.h)
        if at >= half:
            place.right = area.right - (len(dial.turns) - 1 - at) * step
        name = _spoken(dial.label, dial.value, turn.name)
        yield Button(place, turn.act, sign=turn.sign, name=name)


def _nearest(place: pygame.Rect, buttons: Sequence[Button]) -> int:
    """The button nearest to where one was, in its row if there is one."""

    def distance(at: int) -> tuple[int, int]:
        there = buttons[at].place
        return abs(there.centery - place.centery), abs(there.centerx - place.centerx)

    return min(range(len(buttons)), key=distance)


def _step(area: pygame.Rect) -> int:
    """How far it is from one turn to the next."""
    return round(area.h * 9 / 8)


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

"""The free frame: any number of rods, nothing asked, nothing judged."""

from functools import partial

import pygame

from frame.app import Change, Push
from frame.language.lines import Line
from frame.language.numbers import grouped
from frame.room import Room
from frame.screens.choosing.plays import PlaysPage
from frame.screens.parts.keyed_panel import KeyedPanel
from frame.screens.parts.names import paint_names
from frame.screens.parts.page import Page, abreast
from frame.technique.addition import plan_set
from frame.technique.beads import MOST_RODS, Frame, Stroke
from frame.technique.reading import frame_of, plain, read, whole_digits
from frame.view.bead_field import BeadField
from frame.view.geometry import usual_units
from frame.view.inputs import Input, Key
from frame.view.scrolling import BAR_ROOM
from frame.view.widgets import Brushes, Button

MOST_RODS_AT_ONCE = 27
"""On a frame of more rods only those that can be touched well are seen; the others scroll."""
_LEAST_SIGNED = 20.0
"""So many units wide is a button that has room for a sign beside its words."""
LEAST_TOUCH = 44
"""A rod narrower than this, in pixels, is hard to touch."""


class FreeFrame(KeyedPanel, Page):
    """A frame to try things on, with undo and redo."""

    def __init__(self, room: Room) -> None:
        super().__init__(room, _cleared(room.settings.free_rods, room.settings.marks_every))
        self.shows_reading = True
        self.past: list[Frame] = []
        self.future: list[Frame] = []
        self._usable = (False, False)
        self._read = self.field.frame

    def field_of(self, frame: Frame, least: int = 0) -> BeadField:
        """The frame; of more rods than can be touched well some are seen."""
        rods = len(frame.digits)
        return super().field_of(frame, LEAST_TOUCH if rods > MOST_RODS_AT_ONCE else least)

    def arrange(self) -> None:
        """The frame, the reading above it, the buttons below."""
        wide, text = self.across - 10, self.room.words.text
        self.field.place(self.band(33, 30) if self.is_narrow else self.rect(5, 25, wide, 48))
        self.buttons += self.speaker(self.corner)
        hide = "free.reading_hide" if self.shows_reading else "free.reading_show"
        entries = [
            ("free.undo", "undo", self.undo if self.past else None),
            ("free.redo", "redo", self.redo if self.future else None),
            ("free.clear", "clear", self.clear),
            (hide, "reading", self._toggle_reading),
            ("free.plays", "play", self._play),
        ]
        row = self.band(70, 8.5) if self.is_narrow else self.rect(5, 79, 0.76 * wide - 2, 8.5)
        places = abreast(row, len(entries), 2 * self.unit)
        has_signs = places[0].w >= _LEAST_SIGNED * self.unit
        for place, (key, sign, act) in zip(places, entries, strict=True):
            self.buttons.append(Button(place, act, text(key), sign=sign if has_signs else ""))
        self._arrange_rods(self.rect(self.across - 0.24 * wide - 4, 79, 0.24 * wide - 1, 8.5))

    def _arrange_rods(self, row: pygame.Rect) -> None:
        """Fewer rods and more, with their number between."""
        if self.is_narrow:
            row = self.band(79.5, 8.5)
        fewer = pygame.Rect(row.topleft, (row.h, row.h))
        more = fewer.move(row.w - row.h, 0)
        self.rods_place = row.inflate(-2 * row.h, 0)
        less = partial(self._add_rods, -1) if self.rods > 1 else None
        many = partial(self._add_rods, 1) if self.rods < MOST_RODS else None
        self.buttons.append(Button(fewer, less, "−", step=2))
        self.buttons.append(Button(more, many, "+", step=2))

    @property
    def heard(self) -> Line:
        """The number that the frame reads."""
        text = self.room.words.number(read(self.field.frame))
        return Line(text, text)

    def rest(self, now: float) -> Change | None:
        """After a move the number is read out, where that is asked for."""
        frame, before = self.field.frame, self._read
        self._read = frame
        if frame != before and self.room.settings.is_read_out:
            self.room.say(self.heard)
        return super().rest(now)

    def _play(self) -> Change:
        return Push(PlaysPage(self.room))

    @property
    def rods(self) -> int:
        """How many rods the frame has."""
        return len(self.field.frame.digits)

    def _add_rods(self, more: int) -> None:
        """More rods or fewer, of the same number where it still fits; what did not is undone."""
        frame = self.field.frame
        new = _cleared(len(frame.digits) + more, self.room.settings.marks_every)
        number = read(frame)
        if number == number.to_integral_value() and whole_digits(number) <= new.highest + 1:
            new = frame_of(number, len(new.digits), new.units)
        self._go_to(new)

    def _toggle_reading(self) -> None:
        self.shows_reading = not self.shows_reading
        self.rearrange()

    def handle(self, event: Input) -> Change | None:
        """Touches move beads; keys do, too."""
        seen = self.field.layout.scroll
        change: Change | None = None
        if isinstance(event, Key) and self._take_key(event):
            self.touch_up_fields()
        else:
            change = super().handle(event)
        if self.field.layout.scroll != seen:
            self.touch_up(self.rect(0, 25, self.across, 52))
        return change

    def _take_key(self, key: Key) -> bool:
        if key.control and key.code == pygame.K_z:
            self.redo() if key.shift else self.undo()
        elif key.control and key.code == pygame.K_y:
            self.redo()
        elif key.code == pygame.K_DELETE:
            self.clear()
        else:
            return self.take_bead_key(key)
        return True

    def touch(self, stroke: Stroke) -> None:
        """Beads move."""
        if self.field.frame.can_all(stroke):
            self._go_to(self.field.frame.apply_all(stroke))

    def wipe(self, rods: tuple[int, ...]) -> None:
        """The rods are cleared."""
        frame = self.field.frame
        for rod in rods:
            frame = frame.with_digit(rod, 0)
        self._go_to(frame)

    def clear(self) -> None:
        """All beads away from the beam."""
        frame = self.field.frame
        self._go_to(plan_set(frame, read(frame) * 0, self.room.settings.conventions).end)

    def undo(self) -> None:
        """The frame as it was before."""
        if self.past:
            self.future.append(self.field.frame)
            self._show(self.past.pop())

    def redo(self) -> None:
        """The frame as it was before undoing."""
        if self.future:
            self.past.append(self.field.frame)
            self._show(self.future.pop())

    def _go_to(self, frame: Frame) -> None:
        if frame != self.field.frame:
            self.past.append(self.field.frame)
            self.future = []
            self._show(frame)

    def _show(self, frame: Frame) -> None:
        if len(frame.digits) != self.rods:
            self._take_rods(frame)
        self.field.show(frame, self.room.seconds())
        usable = bool(self.past), bool(self.future)
        if usable != self._usable:
            self._usable = usable
            self.lay_out()
            self.touch_up(self.rect(0, 69 if self.is_narrow else 77, self.across, 21))
        for place in self._reading_places:
            self.touch_up(place.inflate(0, round(self.unit)))
        self.touch_up_fields()

    def _take_rods(self, frame: Frame) -> None:
        """The frame has other rods."""
        self.field = self.field_of(frame)
        self.room.set(free_rods=len(frame.digits))
        self.rearrange()

    @property
    def _reading_places(self) -> tuple[pygame.Rect, pygame.Rect]:
        """Where the number stands in digits, and where in words."""
        if self.is_narrow:
            return self.band(12, 9), self.band(21, 11)
        return self.band(2.5, 12), self.band(14.5, 8)

    def paint_rest(self, brushes: Brushes) -> None:
        """The frame, and what it reads in digits and in words."""
        self.field.paint(brushes.surface)
        words = self.room.words
        brushes.text(str(self.rods), self.rods_place, 1, align="centre", bold=True)
        if self.room.settings.place_names:
            self._paint_place_names(brushes)
        if self.field.layout.spacing < LEAST_TOUCH:
            below = self.band(65 if self.is_narrow else 73.5, 4.5)
            brushes.text(words.text("free.small"), below, 0, soft=True, align="centre")
        if not self.shows_reading:
            return
        number = read(self.field.frame)
        place, below = self._reading_places
        brushes.line(grouped(plain(number)), place, 3, bold=True, align="centre")
        brushes.text(words.number(number), below, 1, soft=True, align="centre")

    def _paint_place_names(self, brushes: Brushes) -> None:
        below = self.field.box.bottom + (BAR_ROOM if self.field.layout.window else 0)
        paint_names(brushes, self.field, pygame.Rect(0, below, 0, round(3.5 * self.unit)))


def _cleared(rods: int, marks_every: int) -> Frame:
    return Frame.cleared(rods, usual_units(rods, marks_every))

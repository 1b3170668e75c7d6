"""Where a name is typed: on the computer's own keyboard, by an input method, or on letters to
touch, the last of which one more key takes from accent to accent."""

from functools import partial

import pygame

from frame.app import Change
from frame.language.lines import Line
from frame.language.signs import signs_of
from frame.learner.nickname import MOST_SIGNS, is_too_long, nickname_of, typed_name
from frame.room import Room
from frame.screens.parts.accents import next_form
from frame.screens.parts.keypad import ERASE
from frame.screens.parts.page import Page, abreast
from frame.view.clipboard import clipboard_text
from frame.view.inputs import Composing, Input, Key, Lost, Typed
from frame.view.reading_order import runs_left
from frame.view.theme import TYPE_PERCENT, type_size
from frame.view.widgets import (
    Brushes,
    Button,
    Drawing,
    Style,
    paint_ticket,
    ticket_parts,
    ticket_type,
)

_SPACE, _HYPHEN, _APOSTROPHE = " ", "-", "’"


class NamePage(Page):
    """A question, a ticket on which the name is typed, and letters to touch. Where nothing is typed
    the name is `usual`. Subclasses take the name in `take`."""

    question = "who.name"
    drawing: Drawing | None = None
    """What draws the picture, where it has no name."""

    def __init__(self, room: Room, picture: str, name: str, usual: str) -> None:
        super().__init__(room)
        self.picture, self.name, self.usual = picture, name, usual
        self.composed = ""
        self.is_full = False
        """Whether something was typed last that the name had no room for."""
        self._is_awake = False

    @property
    def greeting(self) -> Line:
        """Who may type a name."""
        return self.room.words.line(self.question)

    def take(self, nickname: str) -> Change | None:
        """A name is given."""
        raise NotImplementedError

    def greet(self) -> None:
        """Have a system that has a keyboard on the screen show it, beside the ticket."""
        super().greet()
        # Never stopped: without it no screen would hear what keys type.
        pygame.key.start_text_input()
        pygame.key.set_text_input_rect(self.ticket)

    @property
    def ticket(self) -> pygame.Rect:
        """Where the ticket is."""
        return self.band(13, 13) if self.is_narrow else self.rect(12, 14, self.across - 60, 18)

    def arrange(self) -> None:
        """What is done with the name, and the letters."""
        wide = self.rect(self.across - 45, 14, 33, 18)
        ready = self.band(80, 9) if self.is_narrow else wide
        text = self.room.words.text("who.name_done")
        self.buttons.append(Button(ready, self._give, text, style=Style.MAIN, step=2))
        pad = self.band(30, 47) if self.is_narrow else self.band(37, 50)
        self.buttons += self._letters(pad)

    def _give(self) -> Change | None:
        return self.take(nickname_of(self.name + self.composed, self.usual))

    @property
    def _gap(self) -> float:
        """Pixels between two letters."""
        return self.unit * (0.5 if self.is_narrow else 1)

    def _letters(self, pad: pygame.Rect) -> list[Button]:
        """The letters in rows, each in the middle, and below them what else is in names."""
        rows, gap = self.room.words.listed("who.letters"), self._gap
        high = round((pad.h - gap * len(rows)) / (len(rows) + 1))
        wide = (pad.w + gap) / max(map(len, rows)) - gap
        buttons: list[Button] = []
        for at, letters in enumerate(rows):
            row = pygame.Rect(0, round(pad.top + at * (high + gap)), 0, high)
            row.w = round(len(letters) * (wide + gap) - gap)
            row.centerx = pad.centerx
            places = abreast(row, len(letters), gap)
            buttons += map(self._key, letters, places)
        return [*buttons, *self._others(pygame.Rect(pad.left, pad.bottom - high, pad.w, high))]

    def _key(self, letter: str, place: pygame.Rect) -> Button:
        name = self.room.words.text("who.letter", letter=letter.upper())
        text, step = self._as_typed(letter), 1 if self.is_narrow else 2
        return Button(place, partial(self.touch, letter), text, step=step, name=name)

    def _others(self, row: pygame.Rect) -> list[Button]:
        """Hyphen, apostrophe, an accent for the last letter, space, and what takes a sign away."""
        text, places = self.room.words.text, abreast(row, 8, self._gap)
        space, accented = places[3].union(places[5]), next_form(self._last)
        step = 1 if self.is_narrow else 2
        accent = Button(places[2], self.accent, accented, step=step, name=text("who.accent"))
        return [
            Button(places[0], partial(self.touch, _HYPHEN), "-", step=2, name=text("who.hyphen")),
            Button(places[1], partial(self.touch, _APOSTROPHE), _APOSTROPHE, step=2,
                   name=text("who.apostrophe")),
            *([accent] if accented else []),
            Button(space, partial(self.touch, _SPACE), text("who.space")),
            Button(places[6].union(places[7]), partial(self.touch, ERASE), sign="erase"),
        ]  # fmt: skip

    @property
    def _last(self) -> str:
        """The last sign that stands for good."""
        return "" if self.composed else "".join(signs_of(self.name)[-1:])

    def accent(self) -> None:
        """The last letter gets another accent, and after all of them none."""
        self._show("".join(signs_of(self.name)[:-1]) + next_form(self._last))

    def _as_typed(self, letter: str) -> str:
        """A letter as a touch types it: a capital where a word begins."""
        word = self.name.replace(_HYPHEN, _SPACE).rpartition(_SPACE)[2]
        begins = not word or (len(word) == 2 and word.endswith(("'", _APOSTROPHE)))
        return letter.upper() if begins else letter

    def touch(self, letter: str) -> None:
        """A letter is touched; `<` takes the last sign away."""
        if letter == ERASE:
            self._show("".join(signs_of(self.name)[:-1]))
        else:
            self.type(self._as_typed(letter))

    def type(self, text: str) -> None:
        """A text goes on with the name."""
        text = self.name + text
        self._show(typed_name(text), is_full=is_too_long(text))

    def _show(self, name: str, *, is_full: bool = False) -> None:
        self.name, self.is_full = name, is_full
        self.rearrange()

    def handle(self, event: Input) -> Change | None:
        """What is typed, and what is being put together."""
        # The space that opened the screen comes as a text as well.
        if isinstance(event, Typed) and (self._is_awake or event.text != _SPACE):
            self.composed = ""
            self.type(event.text)
        elif isinstance(event, Composing | Lost):
            self.composed = typed_name(event.text) if isinstance(event, Composing) else ""
            self.rearrange()
        self._is_awake = True
        return super().handle(event)

    def press_key(self, key: Key) -> Change | None:
        """Keys that type nothing: they take away, paste, give the name, or go round the buttons.
        While something is put together all are the input method's; Esc gives it up."""
        if self.composed and key.code == pygame.K_ESCAPE:
            self.handle(Composing(""))
            return None
        if self.composed or (key.code == pygame.K_SPACE and not key.control):
            return None
        if key.code == pygame.K_BACKSPACE:
            self._show("" if key.control else "".join(signs_of(self.name)[:-1]))
        elif key.code == pygame.K_DELETE:
            self._show("")
        elif key.control and key.code == pygame.K_v:
            self.type(clipboard_text())
        else:
            return super().press_key(key)
        return None

    def paint_rest(self, brushes: Brushes) -> None:
        """The question, and the ticket with the name as far as it is typed."""
        self.paint_title(brushes, self.greeting.show)
        typed = self.name + self.composed
        paint_ticket(brushes, self.ticket, self.drawing or self.picture, typed or self.usual)
        if self.is_full:
            text = self.room.words.text("who.name_full", most=MOST_SIGNS)
            brushes.text(text, self.band(26.3 if self.is_narrow else 32.5, 3.4), 0, soft=True)
        _, place = ticket_parts(self.ticket, True)
        self._paint_caret(brushes, place, typed)

    def _paint_caret(self, brushes: Brushes, place: pygame.Rect, typed: str) -> None:
        """Where the next sign comes; what is being put together is underlined."""
        pixels = ticket_type(self.ticket, place, brushes.height)
        pixels = type_size(0, round(100 * pixels / TYPE_PERCENT[0]))
        lettering, colour = brushes.lettering, brushes.theme.ink
        pixels, lines = lettering.fitted(typed or self.usual, pixels, place.size, cut=True)
        leading, wide = lettering.height(pixels), lettering.width(lines[-1], pixels)
        below = round(place.centery + leading * len(lines) / 2)
        at_left = not typed or runs_left(typed)
        thick = max(2, round(self.unit / 4))
        left = place.left - 2 * thick if at_left else min(place.left + wide + thick, place.right)
        brushes.surface.fill(colour, (left, below - leading, thick, leading))
        if self.composed:
            brushes.surface.fill(colour, (place.left, below, wide, thick))

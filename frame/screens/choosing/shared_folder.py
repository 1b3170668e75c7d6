"""The shared folder: which it is, what came of it last, and what it means."""

import os
from contextlib import suppress
from enum import StrEnum
from pathlib import Path

import pygame

from frame.app import Change
from frame.language.lines import Line
from frame.learner.trouble import OF_OTHERS
from frame.room import Room
from frame.screens.parts.fitting import printable
from frame.screens.parts.merged import other_trouble_line
from frame.screens.parts.own_files import path_lines
from frame.screens.parts.page import Page, abreast
from frame.screens.parts.trouble import trouble_text
from frame.view.clipboard import clipboard_text
from frame.view.inputs import Dropped, Input, Key, Typed
from frame.view.theme import type_size
from frame.view.widgets import Brushes, Button, Style

LOOK_SECONDS = 0.5
"""How long after one look at what came of it the next one is."""
_PATH_LINES = 2
_USUAL = "bead-frame"
"""What the folder among the user's documents is called that is offered."""


class Due(StrEnum):
    """What the page waits for."""

    LOOK = "look"


class SharedFolder(Page):
    """The path of a folder is typed, pasted or let go over the window; then this computer shares
    it, until somebody stops that."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.typed = ""
        self.asked = "shared.ask"
        self._seen = ""
        self.dues.put(Due.LOOK, room.seconds() + LOOK_SECONDS)

    @property
    def greeting(self) -> Line:
        """What came of it, or what it is."""
        return self._state if self.room.sharer.folder else self.room.words.line(self.asked)

    def greet(self) -> None:
        """Have what keys type heard."""
        super().greet()
        pygame.key.start_text_input()

    @property
    def _state(self) -> Line:
        sharer, words = self.room.sharer, self.room.words
        if sharer.trouble is not None:
            if sharer.trouble.where == self.room.store.path:
                text = trouble_text(sharer.trouble.trouble, words)
                return Line(text, text)
            if sharer.trouble.trouble in OF_OTHERS:
                return words.line("shared.away")
            return other_trouble_line(sharer.trouble.trouble, words)
        if sharer.last is None:
            return words.line("shared.looking")
        if sharer.last.left:
            return words.line("shared.left", count=len(sharer.last.left))
        return words.line("shared.done", count=sharer.last.computers)

    # What is done

    def use(self, folder: Path) -> None:
        """Share this folder from now on; a file is none."""
        if os.path.isfile(folder):
            self.asked = "shared.a_file"
            self.rearrange()
            self.greet()
            return
        self.room.sharer.use(folder, self.room.seconds())
        self.typed = ""
        self.rearrange()
        self.greet()

    def take(self) -> None:
        """What was typed is the folder, where it is a whole path."""
        folder = Path(self.typed.strip()).expanduser()
        if not folder.is_absolute():
            self.room.say(self.room.words.line("shared.ask"))
            return
        self.use(folder)

    def stop(self) -> None:
        """Nothing is shared any more."""
        self.room.sharer.use(None, self.room.seconds())
        self.rearrange()
        self.greet()

    def look(self) -> None:
        """Look into the folder now."""
        self.room.sharer.look(self.room.seconds())
        self.rearrange()

    @property
    def _offered(self) -> Path:
        return (self.room.documents or self.room.folder) / _USUAL

    def _use_offered(self) -> None:
        with suppress(OSError):  # What came of it is told.
            self._offered.mkdir(parents=True, exist_ok=True)
        self.use(self._offered)

    def handle(self, event: Input) -> Change | None:
        """A path is typed, or a folder let go over the window."""
        if self.room.sharer.folder is None:
            if isinstance(event, Dropped):
                self.use(Path(event.path))
                return None
            if isinstance(event, Typed):
                self._show(self.typed + printable(event.text))
        return super().handle(event)

    def press_key(self, key: Key) -> Change | None:
        """Keys that type nothing: they take away, or paste."""
        if self.room.sharer.folder is None and self.focus is None:
            if key.code == pygame.K_BACKSPACE:
                self._show("" if key.control else self.typed[:-1])
                return None
            if key.control and key.code == pygame.K_v:
                self._show(self.typed + printable(clipboard_text().strip()))
                return None
            if key.code == pygame.K_SPACE:
                return None
        return super().press_key(key)

    def _show(self, typed: str) -> None:
        self.typed, self.asked = typed, "shared.ask"
        self.rearrange()

    def advance(self, now: float) -> Change | None:
        """What came of it may be other than before."""
        if self.dues.take(Due.LOOK, now):
            self.dues.put(Due.LOOK, now + LOOK_SECONDS)
            if self._state.show != self._seen:
                self.rearrange()
        return super().advance(now)

    # How it is laid out

    @property
    def _box(self) -> pygame.Rect:
        return self.band(44, 11)

    def arrange(self) -> None:
        """What begins to share, or what looks and what stops it."""
        text, (left, right) = self.room.words.text, abreast(self.band(79, 9), 2, 3 * self.unit)
        self._seen = self._state.show
        if self.room.store.path is None:
            return
        if self.room.sharer.folder is not None:
            self.buttons += [
                Button(left, self.stop, text("shared.stop")),
                Button(right, self.look, text("shared.now"), style=Style.MAIN),
            ]
            return
        self.buttons.append(Button(left, self._use_offered, text("shared.offered")))
        if self.typed.strip():
            self.buttons.append(Button(right, self.take, text("shared.use"), style=Style.MAIN))

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, what sharing means, the folder, and what came of it."""
        words, theme, folder = self.room.words, self.room.theme, self.room.sharer.folder
        self.paint_title(brushes, words.text("shared.title"))
        brushes.text(words.text("shared.about"), self.band(12.5, 15), 1)
        brushes.text(words.text("shared.privacy"), self.band(28, 9), 0)
        if folder is None:
            brushes.text(words.text(self.asked), self.band(38, 5.5), 1, bold=True)
            brushes.box(self._box, theme.card, theme.ink)
            self._paint_path(brushes, self.typed, self._box.inflate(-round(3 * self.unit), -4))
            offered = words.text("shared.offered_is", folder=printable(str(self._offered)))
            brushes.text(offered, self.band(72, 5.5), 0, soft=True)
            return
        brushes.text(words.text("shared.folder"), self.band(38, 5.5), 0)
        self._paint_path(brushes, printable(str(folder)), self._box)
        brushes.text(self._state.show, self.band(58, 12), 1, bold=True)

    def _paint_path(self, brushes: Brushes, path: str, place: pygame.Rect) -> None:
        pixels = type_size(1, brushes.height)

        def fits(line: str) -> bool:
            return brushes.lettering.width(line, pixels, bold=True) <= place.w

        for at, line in enumerate(path_lines(path, fits, _PATH_LINES) if path else ()):
            high = place.h // _PATH_LINES
            here = pygame.Rect(place.left, place.top + at * high, place.w, high)
            brushes.text(line, here, 1, bold=True)

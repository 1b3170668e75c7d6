"""The window, the loop and the stack of screens.

A screen asks for a change, and only the stack acts, between two frames. The loop waits for events,
draws only what became stale, and never sleeps a frame away. Each stale place becomes the surface's
clip, and the screen paints itself within it: there is one way of painting, whole or in part.
"""

import os
import sys
from collections.abc import Callable
from typing import TYPE_CHECKING, NamedTuple

import pygame

from frame.language.lines import Line
from frame.room import Room
from frame.view.canvas import Canvas, ask_least_size
from frame.view.double_tap import DoubleTap
from frame.view.inputs import (
    Closed,
    Hover,
    Input,
    Key,
    Release,
    Resized,
    input_of,
    kind_of,
)
from frame.view.waiting import next_events

if TYPE_CHECKING:
    from frame.view.geometry import Point
    from frame.view.widgets import Button

FRAMES_A_SECOND = 60
APP_ID = "bead-frame"
"""What desktops know the program by."""


class NoScreen(Exception):
    """There is no screen to open a window on."""


class Screen:
    """One thing a person does. Screens read the room, paint themselves and ask for changes. Where
    one `follows_mouse`, as the board does, it hears of a mouse that moves with no button down; any
    other would be woken for nothing."""

    def __init__(self, room: Room) -> None:
        self.room = room
        self.stale: list[pygame.Rect] = []
        self.whole = True
        self.follows_mouse = False

    def touch_up(self, place: pygame.Rect | None = None) -> None:
        """Note that a place, or everything, must be painted again."""
        if place is None:
            self.whole = True
        else:
            self.stale.append(pygame.Rect(place))

    @property
    def greeting(self) -> Line | None:
        """What is said when the screen comes up."""
        return None

    def greet(self) -> None:
        """The screen comes up."""
        self.room.say(self.greeting)

    def resumed(self, result: object) -> "Change | None":
        """The screen above is gone; its result."""
        return None

    def renewed(self) -> None:
        """What others did came from the shared folder."""

    def resized(self, size: tuple[int, int]) -> None:
        """The window has this size: lay everything out."""

    def under(self, at: "Point") -> "Button | None":
        """What a touch at a place would press."""
        return None

    def handle(self, event: Input) -> "Change | None":
        """Take an input; perhaps ask for a change."""
        return None

    def advance(self, now: float) -> "Change | None":
        """Let time pass up to `now` seconds; perhaps ask for a change."""
        return None

    def wakes_in(self, now: float) -> float | None:
        """In how many seconds `advance` has something to do; 0 while beads move; None never."""
        return None

    def paint(self, surface: pygame.Surface) -> None:
        """Paint everything within the surface's clip."""

    def leave(self) -> None:
        """The screen goes: keep what must be kept."""


class Push(NamedTuple):
    """Put a screen on top."""

    screen: Screen


class Pop(NamedTuple):
    """Take the top screen away; the one below gets the result."""

    result: object = None


class Replace(NamedTuple):
    """Put a screen in the place of the top one."""

    screen: Screen


class Quit(NamedTuple):
    """Close the window."""


class Perform(NamedTuple):
    """Let something have the window to itself until it is over; the screen gets its result, and
    is painted anew."""

    act: Callable[[pygame.Surface], object]


Change = Push | Pop | Replace | Quit | Perform


def open_window(
    size: tuple[int, int],
    full: bool = False,
    display: int = 0,
    icon: pygame.Surface | None = None,
) -> pygame.Surface:
    """Open the window, or change it; a full one on this display, or on the last one where it went
    away. It keeps the icon once it has one. Raises NoScreen where there is none.

    SDL falls back to a driver without a screen when it finds none; asked for, it is honoured.
    """
    asked = os.environ.get("SDL_VIDEODRIVER")
    _advise_sdl()
    try:
        pygame.display.init()
        if pygame.display.get_driver() in ("offscreen", "dummy", "evdev") and not asked:
            raise NoScreen
        if icon:  # Not every system lets a window that is open change its own.
            pygame.display.set_icon(icon)
        if full:
            desktops = pygame.display.get_desktop_sizes()
            chosen = min(display, len(desktops) - 1)
            return pygame.display.set_mode(desktops[chosen], pygame.FULLSCREEN, display=chosen)
        desktop = pygame.display.get_desktop_sizes()[0]
        fitting = min(size[0], desktop[0]), min(size[1], desktop[1])
        window = pygame.display.set_mode(fitting, pygame.RESIZABLE)
        ask_least_size()
        return window
    except pygame.error as error:
        raise NoScreen from error


def _advise_sdl() -> None:
    """What SDL is told before it opens a window, unless the user has told it otherwise."""
    if sys.platform in ("linux", "win32"):
        # Without a graphics card the texture way costs 8 to 14 ms a picture at 1080p, the
        # plain way 1 ms, and only the plain way can show a part of the window alone.
        os.environ.setdefault("SDL_FRAMEBUFFER_ACCELERATION", "0")
    if sys.platform == "linux" and not os.environ.get("XDG_RUNTIME_DIR"):
        # Wayland can't work then, and its library would complain about it to the user.
        os.environ.setdefault("SDL_VIDEODRIVER", "x11,kmsdrm")
    # By these the desktop knows whose window it is; pygame has put a file's name there.
    os.environ["SDL_VIDEO_X11_WMCLASS"] = APP_ID
    os.environ["SDL_VIDEO_WAYLAND_WMCLASS"] = APP_ID
    os.environ.setdefault("SDL_WINDOWS_DPI_AWARENESS", "permonitorv2")
    os.environ.setdefault("SDL_VIDEO_X11_NET_WM_BYPASS_COMPOSITOR", "0")


class App:
    """The stack of screens on one window."""

    def __init__(self, room: Room, window: pygame.Surface, first: Screen) -> None:
        self.room = room
        self.window = window
        self.canvas = Canvas(window)
        room.window = window.get_size()
        self.screens = [first]
        self.windowed = window.get_size()
        self.full = False
        self.display = 0
        self.double_tap = DoubleTap()
        self.after_first_picture: Callable[[], None] | None = None
        self._next_frame = 0.0
        first.resized(self.canvas.size)

    @property
    def top(self) -> Screen:
        """The screen that is seen."""
        return self.screens[-1]

    def run(self) -> None:
        """Until the window is closed."""
        self.draw()
        after, self.after_first_picture = self.after_first_picture, None
        if after:
            after()
        while self.screens:
            self.turn(self.patience())

    def patience(self) -> float | None:
        """How many seconds to wait for an event before time must pass; None for ever."""
        now = self.room.seconds()
        wake = self.top.wakes_in(now)
        if wake is None or wake > 0:
            beside = _sooner(self.room.wakes_in(now), self.room.sharer.wakes_in(now))
            return _sooner(wake, beside)
        self._next_frame = max(self._next_frame + 1 / FRAMES_A_SECOND, now)
        return self._next_frame - now

    def turn(self, patience: float | None) -> None:
        """One turn: wait for events at most `patience` seconds, take them, let time pass, draw."""
        self.go_on(patience)
        if self.screens:
            self.draw()

    def go_on(self, patience: float | None) -> None:
        """The same without drawing."""
        for event in next_events(patience):
            taken = input_of(event, self.window.get_size(), self.canvas.place.topleft)
            if taken is not None:
                self._take_input(taken)
            if not self.screens:
                return
        self.pass_time(self.room.seconds())

    def pass_time(self, now: float) -> None:
        """Let time pass up to `now` seconds; where nothing moves, what could not be written is
        tried again, and the shared folder looked after."""
        self.take(self.top.advance(now))
        if not self.screens or self.top.wakes_in(now) == 0:
            return
        if self.room.advance(now):
            self.top.touch_up()
        sharer, untold = self.room.sharer, self.room.sharer.untold
        if sharer.advance(now, self.room.learner is not None):
            self.room.fold_anew()
            self.top.renewed()
        elif sharer.untold is not untold:
            self.top.renewed()

    def draw(self) -> None:
        """Paint what is stale on the top screen, and show it."""
        top = self.top
        surface = self.canvas.surface
        places = [surface.get_rect()] if top.whole else _merged(top.stale)
        top.whole, top.stale = False, []
        for place in places:
            surface.set_clip(place)
            top.paint(surface)
        surface.set_clip(None)
        if places:
            self.canvas.show(places)

    @property
    def size(self) -> tuple[int, int]:
        """How large the window is, or will be again once it is full no more."""
        return self.windowed if self.full else self.window.get_size()

    def close(self) -> None:
        """Let every screen keep what it must, top first."""
        while self.screens:
            self.screens.pop().leave()

    def _take_input(self, event: Input) -> None:
        if kind := kind_of(event):
            self.room.note_input(kind)
        if isinstance(event, Closed):
            self.close()
        elif isinstance(event, Resized):
            self._resize()
        elif isinstance(event, Key) and event.code == pygame.K_F11:
            self._next_display() if event.shift else self._toggle_full()
        elif isinstance(event, Key) and event.code == pygame.K_F2:
            self.room.toggle_sound()
            self.top.resized(self.canvas.size)
        elif not isinstance(event, Hover) or self.top.follows_mouse:
            self._hand_on(event)

    def _hand_on(self, event: Input) -> None:
        """Let the top screen take an input, unless it is what led there, done once more."""
        if self.double_tap.is_second(event, self.room.seconds(), self.canvas.size[1]):
            return
        before, under = self.top, self._under(event)
        self.take(before.handle(event))
        if self.screens and (self.top is not before or _is_other(self._under(event), under)):
            self.double_tap.led_on(event, self.room.seconds())

    def _under(self, event: Input) -> "Button | None":
        return self.top.under(event.at) if isinstance(event, Release) else None

    def _resize(self) -> None:
        self.window = pygame.display.get_surface()
        self.canvas = Canvas(self.window)
        self.room.window = self.window.get_size()
        for screen in self.screens:
            screen.resized(self.canvas.size)
        self.top.whole = True

    def _toggle_full(self) -> None:
        self.windowed = self.size
        self.full = not self.full
        self.window = open_window(self.windowed, self.full, self.display)
        self._resize()

    def _next_display(self) -> None:
        """Fill the next display; with one alone, that one."""
        self.display = (self.display + 1) % len(pygame.display.get_desktop_sizes())
        if not self.full:
            self._toggle_full()
        else:
            self.window = open_window(self.windowed, self.full, self.display)
            self._resize()

    def take(self, change: Change | None) -> None:
        """Act on what a screen asked for."""
        if isinstance(change, Quit):
            self.close()
        elif isinstance(change, Push):
            self._put(change.screen)
        elif isinstance(change, Replace):
            self.screens.pop().leave()
            self._put(change.screen)
        elif isinstance(change, Perform):
            self._perform(change)
        elif isinstance(change, Pop):
            self.screens.pop().leave()
            if self.screens:
                self.top.resized(self.canvas.size)
                self.top.whole = True
                top = self.top
                self.take(top.resumed(change.result))
                if self.screens and self.top is top:
                    self.greet()

    def _perform(self, change: Perform) -> None:
        result = change.act(self.window)
        # The window may have been opened anew meanwhile.
        self.window = pygame.display.get_surface() or self.window
        self._resize()
        self.take(self.top.resumed(result))

    def _put(self, screen: Screen) -> None:
        self.screens.append(screen)
        screen.resized(self.canvas.size)
        screen.whole = True
        self.greet()

    def greet(self) -> None:
        """Say what the screen on top has to say."""
        self.top.greet()


def _is_other(button: "Button | None", before: "Button | None") -> bool:
    """Whether a button lies where nothing, or something else, lay before."""
    if button is None or before is None:
        return button is not None
    return not (button.is_like(before) or button.does_as(before))


def _sooner(one: float | None, other: float | None) -> float | None:
    """The sooner of two times, of which None never comes."""
    return min((time for time in (one, other) if time is not None), default=None)


def _merged(places: list[pygame.Rect]) -> list[pygame.Rect]:
    """The places with overlapping ones joined, so that nothing is painted twice."""
    merged: list[pygame.Rect] = []
    for place in places:
        while (at := place.collidelist(merged)) >= 0:
            place = place.union(merged.pop(at))
        merged.append(place)
    return merged

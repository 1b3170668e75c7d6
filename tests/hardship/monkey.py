"""A monkey at the real window: events of any kind, and what must hold after each."""

import traceback
from functools import cache
from itertools import pairwise
from pathlib import Path
from random import Random
from tempfile import TemporaryDirectory
from typing import NamedTuple

import pygame
from chance import DROPPED, events
from pilot import Pilot, WhenTold
from pytest import MonkeyPatch
from robot import Heard, number_asked
from test_every_screen import WAYS_TO_ALL

from frame.app import Push, Replace
from frame.course.stages import Stage
from frame.learner.store import Store
from frame.learner.trouble import StoreError, Trouble
from frame.resources import ASSETS, VOICE
from frame.screens.board.agendas import AGENDAS, Agendas
from frame.screens.board.screen import BoardScreen
from frame.screens.choosing.home import Home
from frame.screens.choosing.own_lessons import LESSONS
from frame.screens.choosing.unopened import Unopened
from frame.screens.choosing.who import Who
from frame.screens.lesson.screen import LessonScreen
from frame.screens.parts.own_files import own_folder
from frame.view.sdl import loaded_sdl
from frame.view.voice import Silence, Voice

MOST_ESCAPES = 8
MOST_SCREENS = 8
ENDS = (Home, Who, BoardScreen, Unopened)
DESKTOPS = [(1920, 1080), (1280, 720), (1024, 768)]


class Impossible(AssertionError):
    """Something that must never be."""


class Fault(NamedTuple):
    """What went wrong, where in the code or by which check, after how many events; its trace."""

    what: str
    events: int
    trace: str


_opened = cache(Voice)


def _voice():
    """The sounds of the program; opened anew where the mixer was closed since."""
    if not pygame.mixer.get_init():
        _opened.cache_clear()
    return _opened(ASSETS / "sounds", VOICE)


# From where it starts


def _who(pilot):
    pilot.key(pygame.K_ESCAPE)


def _agendas(pilot):
    pilot.app.take(Push(BoardScreen(pilot.room)))
    pilot.app.take(Push(Agendas(pilot.room)))


def _unopened(pilot):
    path, left = pilot.room.folder / "other.sqlite", [1, 2, 3]

    def opening():
        if left:
            left.pop()
            raise StoreError(path, "database is locked", Trouble.HELD)
        return Store(path)

    _who(pilot)
    error = StoreError(path, "database is locked", Trouble.HELD)
    pilot.app.take(Replace(Unopened(pilot.room, opening, error)))


STARTS = {**WAYS_TO_ALL, "who": _who, "agendas": _agendas, "unopened": _unopened}
"""What opens each screen from home."""


# What it does


class Monkey:
    """Does what it is told to a window that stands at one of STARTS, and looks after each event."""

    def __init__(self, folder, start, patch):
        self.folder = folder
        self.pilot = Pilot(folder, (800, 480))
        self.there, self._coming, self._sleeps = list(DESKTOPS), [], 0
        self._set_mode = pygame.display.set_mode
        patch.setattr("frame.view.flash_stage.next_events", self._sleep)
        patch.setattr("frame.view.voice.open_live", lambda: None)
        patch.setattr(pygame.display, "get_desktop_sizes", lambda: list(self.there))
        patch.setattr(pygame.display, "set_mode", self._open_on)
        _voice()  # Clips are decoded by an open mixer alone.
        self.pilot.tick = 0.00001
        self.pilot.welcome("Otter")
        STARTS[start](self.pilot)
        self.pilot.room.aside = WhenTold()
        for kind in (AGENDAS, LESSONS):
            place = own_folder(self.pilot.room, kind)
            place.mkdir(exist_ok=True)
            for name in ("nets.yaml", "broken.yaml", "torn.yaml"):
                (place / name).write_text(DROPPED[name])

    def _open_on(self, size, flags=0, display=0):
        """Displays that are there, to go and come."""
        full = flags & pygame.FULLSCREEN
        assert not full or self.there[display] == size
        return self._set_mode(size, flags & ~pygame.FULLSCREEN)

    def _sleep(self, seconds):
        """Flashed numbers take no time; what comes meanwhile comes."""
        self._sleeps += 1
        for at, what in self._coming:
            if at == self._sleeps:
                pygame.event.post(self._coming_event(what))
        return self.pilot.sleep(seconds)

    def _coming_event(self, what):
        """What comes while numbers are flashed."""
        if what == "press":
            return pygame.event.Event(pygame.MOUSEBUTTONDOWN, pos=(9, 9), button=1, touch=False)
        if what == "lost":
            return pygame.event.Event(pygame.WINDOWFOCUSLOST)
        if what == "size":
            self._set_mode((700, 500), pygame.RESIZABLE)
            return pygame.event.Event(pygame.WINDOWSIZECHANGED, x=700, y=500)
        code, text = {
            "escape": (pygame.K_ESCAPE, "\x1b"), "black": (pygame.K_b, "b"),
            "digit": (pygame.K_7, "7"), "next": (pygame.K_PAGEDOWN, ""),
        }[what]  # fmt: skip
        return pygame.event.Event(pygame.KEYDOWN, key=code, mod=0, unicode=text, scancode=0)

    @property
    def screen(self):
        return self.pilot.screen

    def do(self, event):
        """One event, and a look at what became of it."""
        kind, *facts = event
        self.pilot.clock += 0.02
        getattr(self, kind)(*facts)
        self.check()

    def _turn(self):
        self.pilot.app.turn(0)

    def _post(self, kind, **facts):
        self.pilot.post(kind, **facts)

    def _at(self, x, y):
        width, height = self.pilot.app.window.get_size()
        return round(x * width), round(y * height)

    def mouse(self, kind, x, y, button, touch):
        at = self._at(x, y)
        if kind == "MOTION":
            down = (int(button == 1), 0, 0)
            self._post(pygame.MOUSEMOTION, pos=at, rel=(0, 0), buttons=down, touch=touch)
        else:
            self._post(getattr(pygame, f"MOUSEBUTTON{kind}"), pos=at, button=button, touch=touch)

    def finger(self, kind, finger, x, y):
        kind = getattr(pygame, f"FINGER{kind}")
        self._post(kind, finger_id=finger, touch_id=1, x=x, y=y, dx=0, dy=0)

    def _beads(self, x, y):
        """A place on the frame that is seen, by shares of it; else of the canvas."""
        field = getattr(self.screen, "field", None)
        box = field.box if field else self.pilot.app.canvas.surface.get_rect()
        return box.x + x * box.w, box.y + y * box.h

    def drag(self, finger, x, y, along, far, pause):
        """A drag on the frame: across it, or along it; by the mouse, which is -1, or a finger."""
        start = self._beads(x, y)
        end = self._beads(x + far * along, y + far * (1 - along))
        places = [[a + (b - a) * step / 3 for a, b in zip(start, end, strict=True)]
                  for step in range(4)]  # fmt: skip
        self._down(finger, places[0])
        for at in places[1:]:
            self.pilot.clock += pause
            self._moved(finger, at)
        self._up(finger, places[-1])

    def pinch(self, x, one, other):
        """Two fingers on a rod."""
        upper, lower = self._beads(x, 0.15), self._beads(x, 0.6)
        self._down(1, upper)
        self._down(2, lower)
        self._up(1, (upper[0], upper[1] + 300 * one))
        self._up(2, (lower[0], lower[1] + 300 * other))

    def _down(self, finger, at):
        self._touch(finger, at, pygame.FINGERDOWN, pygame.MOUSEBUTTONDOWN, button=1)

    def _moved(self, finger, at):
        buttons = {"rel": (0, 0), "buttons": (1, 0, 0)}
        self._touch(finger, at, pygame.FINGERMOTION, pygame.MOUSEMOTION, **buttons)

    def _up(self, finger, at):
        self._touch(finger, at, pygame.FINGERUP, pygame.MOUSEBUTTONUP, button=1)

    def _touch(self, finger, at, by_finger, by_mouse, **facts):
        if finger < 0:
            self._post(by_mouse, pos=self.pilot.in_window(at), touch=False, **facts)
        else:
            self.pilot.finger(by_finger, finger, at)

    def wheel(self, y):
        button = 4 if y > 0 else 5
        self._post(pygame.MOUSEBUTTONDOWN, pos=(9, 9), button=button, touch=False)
        self._post(pygame.MOUSEBUTTONUP, pos=(9, 9), button=button, touch=False)
        self._post(pygame.MOUSEWHEEL, x=0, y=y, flipped=False, touch=False)

    def press(self, number, patience):
        """Touch one of the buttons there are, after as many seconds."""
        self.time(patience)
        if self.screen.buttons:
            self.pilot.tap(self.screen.buttons[number % len(self.screen.buttons)].place.center)

    def key(self, code, mod, text):
        self.pilot.key(code, mod, text)

    def text(self, text):
        self._post(pygame.TEXTINPUT, text=text)

    def compose(self, text):
        """An input method shows what it puts together."""
        self._post(pygame.TEXTEDITING, text=text, start=0, length=len(text))

    def right(self):
        """What a lesson waits for; elsewhere the main thing."""
        runner = getattr(self.screen, "runner", None)
        stage = runner.stage if isinstance(self.screen, LessonScreen) else None
        if stage is Stage.WORK and runner.work.next_stroke:
            self.pilot.move(min(runner.work.next_stroke))
        elif stage is Stage.ANSWER:
            for sign in str(number_asked(runner.work)):
                self.key(ord(sign), 0, sign)
            self.key(pygame.K_RETURN, 0, "\r")
        else:
            self.key(pygame.K_RETURN, 0, "\r")

    def time(self, seconds):
        self.pilot.clock += seconds
        self._turn()

    def drop(self, name):
        self._post(pygame.DROPFILE, file=str(self.folder.parent / "dropped" / name) if name else "")

    def copy(self, text):
        """Something is copied elsewhere, and pasted here."""
        loaded_sdl().SDL_SetClipboardText(text.encode())
        self.key(pygame.K_v, pygame.KMOD_CTRL, "\x16")

    def size(self, width, height):
        self._set_mode((width, height), pygame.RESIZABLE)
        self._post(pygame.WINDOWSIZECHANGED, x=width, y=height)

    def window(self, name):
        self._post(getattr(pygame, f"WINDOW{name}"))

    def sounds(self, name):
        """The program takes its sounds into use once, before anything is done; a screen that
        stands there already is laid out anew, as F2 does it."""
        self.pilot.room.hear({"voice": _voice, "heard": Heard, "silence": Silence}[name]())
        self.screen.resized(self.pilot.app.canvas.size)

    def displays(self, count):
        self.there[:] = DESKTOPS[:count]

    def meanwhile(self, what, at):
        """Something will come while the next numbers are flashed."""
        self._coming = [(self._sleeps + 1 + at, what)]

    def aside(self):
        """What is done beside the window's thread goes on."""
        if self.pilot.room.aside.waiting:
            self.pilot.room.aside.go_on()
        self._turn()

    def look(self):
        """What is on the window is what all of it painted anew is."""
        self._turn()
        before = self.pilot.pixels()
        self.screen.touch_up()
        self.pilot.app.draw()
        if self.pilot.pixels() != before:
            raise Impossible(f"{type(self.screen).__name__} was not painted as it is")

    # What must hold

    def check(self):
        """No bead and no button is where it cannot be, and time goes on."""
        app, screen = self.pilot.app, self.screen
        for field in getattr(screen, "fields", None) or [getattr(screen, "field", None)]:
            if field is not None:
                _check_beads(field)
        canvas = app.canvas.surface.get_rect()
        for button in screen.buttons:
            if not canvas.contains(button.place):
                raise Impossible(f"a button of {type(screen).__name__} leaves the window: {button}")
        if len(app.screens) > MOST_SCREENS:
            raise Impossible(f"screens pile up: {app.screens}")
        patience = app.patience()
        if patience is not None and not patience >= 0:
            raise Impossible(f"{type(screen).__name__} waits for {patience} seconds")

    def come_home(self):
        """Esc alone leads home, to the first screen or to the board; there all comes to rest."""
        self.window("FOCUSLOST")
        while self.pilot.room.aside.waiting:
            self.aside()
        for _ in range(MOST_ESCAPES):
            if isinstance(self.screen, ENDS):
                break
            self.key(pygame.K_ESCAPE, 0, "\x1b")
            self.time(0.1)
            self.check()
        else:
            raise Impossible(f"Esc leads to {type(self.screen).__name__}")
        for _ in range(200):
            self.time(0.5)
            if self.pilot.app.patience() is None or self.pilot.app.patience() > 0.1:
                break
        else:
            raise Impossible(f"{type(self.screen).__name__} never rests")
        self.look()


def _check_beads(field):
    frame, pose = field.frame, field.pose
    if not all(digit in "0123456789" for digit in frame.digits):
        raise Impossible(f"a frame with {frame.digits}")
    if len(pose.rods) != len(frame.digits):
        raise Impossible(f"{len(pose.rods)} rods are painted of {len(frame.digits)}")
    for rod in pose.rods:
        earth = rod[1:]
        if not all(0 <= at <= 1 for at in rod) or any(b < a for a, b in pairwise(earth)):
            raise Impossible(f"beads at {rod}")


# Runs


def play(start, events):
    """A run of these events from one of STARTS: its Fault, or None where all is well."""
    done = 0
    with TemporaryDirectory() as folder, MonkeyPatch.context() as patch:
        _lay_out(Path(folder) / "dropped")
        place = Path(folder) / "data"
        place.mkdir()
        monkey = Monkey(place, start, patch)
        try:
            for event in events:
                monkey.do(event)
                done += 1
            monkey.come_home()
            monkey.pilot.close()
        except Exception as error:
            return Fault(_where(error), done + 1, traceback.format_exc())
        finally:
            monkey.pilot.room.store.close()
    return None


def _lay_out(folder):
    (folder / "folder").mkdir(parents=True)
    for name, text in DROPPED.items():
        (folder / name).write_bytes(text.encode("latin-1"))


def _where(error):
    """What makes two faults the same one: the error, and where it was raised."""
    last = traceback.extract_tb(error.__traceback__)[-1]
    what = str(error).split(":")[0] if isinstance(error, Impossible) else last.filename
    return f"{type(error).__name__} {what} {last.name}"


def shortest(start, events, fault):
    """As few of the events as lead to the same fault, by delta debugging (Zeller and Hildebrandt,
    "Simplifying and isolating failure-inducing input", 2002): none of them can be left out."""
    events, parts = events[: fault.events], 2
    while events:
        size = -(-len(events) // parts)
        for at in range(0, len(events), size):
            fewer = [*events[:at], *events[at + size :]]
            again = play(start, fewer)
            if again is not None and again.what == fault.what:
                events, parts = fewer[: again.events], max(2, parts - 1)
                break
        else:
            if size == 1:
                break
            parts = min(len(events), 2 * parts)
    return events


def as_program(start, events):
    """A program that plays a run again and prints what goes wrong in it."""
    lines = "".join(f"    {event!r},\n" for event in events)
    return (
        "# PYTHONPATH=.:tests:tests/screens:tests/hardship python THIS\n"
        "import conftest\nfrom monkey import play\n\n"
        f"fault = play({start!r}, [\n{lines}])\nprint(fault and fault.trace)\n"
    )


def drawn(seed, count):
    """The start and the events of the run with this seed."""
    random = Random(seed)
    return list(STARTS)[seed % len(STARTS)], events(random, count)

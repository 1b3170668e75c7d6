"""Works the real window without a screen: posts real events and hands the time in."""

from concurrent.futures import Future
from datetime import UTC, datetime, timedelta
from functools import cache
from random import Random

import pygame
from kept import store_in
from shipped import the_course, the_words
from sight import WatchedLettering, has_frame

from frame.app import App, Push
from frame.aside import Aside, settle
from frame.course.attempts import Position
from frame.learner.keeper import Keeper
from frame.learner.learners import Learner
from frame.learner.looks import Portrait
from frame.learner.settings import Age
from frame.learner.store import LessonState
from frame.resources import ASSETS
from frame.room import Room
from frame.screens.choosing.free import FreeFrame
from frame.screens.choosing.who import Who
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.screen import LessonScreen
from frame.view.clips import ClipStore
from frame.view.pictures import Pictures
from frame.view.presenting import Presentation


@cache
def the_pictures():
    """The pictures, each loaded once for all tests."""
    return Pictures(ASSETS / "pictures")


@cache
def the_lettering():
    """The fonts, and what fits where, kept for all tests."""
    return WatchedLettering(ASSETS / "fonts")


@cache
def the_clips():
    """The voice's clips, each decoded once for all tests."""
    return ClipStore(ASSETS / "voice" / "en", most=100)


class AtOnce(Aside):
    """Does at once what else is done beside the window's thread."""

    def do(self, work):
        future = Future()
        settle(future, work)
        return future


class WhenTold(Aside):
    """Keeps what is to be done beside the window's thread until it is told."""

    def __init__(self):
        self.waiting = []

    def do(self, work):
        future = Future()
        self.waiting.append((future, work))
        return future

    def go_on(self):
        """Do the first thing that waits."""
        settle(*self.waiting.pop(0))


class Pilot:
    """An app on SDL's dummy driver. Its lettering keeps every text with its place. It is painted
    once something happens or is looked at."""

    def __init__(self, folder, size=(1280, 720), seed=1):
        pygame.display.quit()
        pygame.display.init()
        pygame.font.init()
        the_lettering().written.clear()
        self.clock = 100.0
        self.tick = 0.0
        self.looks = 0
        self.sees_presses = False
        self.room = Room(
            words=the_words(),
            keeper=Keeper(store_in(folder)),
            folder=folder,
            load_course=the_course,
            lettering=the_lettering(),
            pictures=the_pictures(),
            seconds=self.seconds,
            now=self.now,
            random=Random(seed),
            aside=AtOnce(),
            presentation=Presentation("plain", None, 0.2),
        )
        self.room.clip_store = the_clips()
        window = pygame.display.set_mode(size, pygame.RESIZABLE)
        self.app = App(self.room, window, Who(self.room))

    def now(self):
        """The time of day, which goes on with the clock, and a little with each look at it."""
        self.looks += 1
        passed = timedelta(seconds=self.clock, microseconds=self.looks)
        return datetime(2026, 5, 4, 9, 30, tzinfo=UTC) + passed

    def seconds(self):
        """The clock that is handed in; each look at it takes a `tick`."""
        self.clock += self.tick
        return self.clock

    def sleep(self, seconds):
        """Sleep without sleeping: what has happened meanwhile."""
        self.clock += seconds
        return pygame.event.get()

    @property
    def screen(self):
        return self.app.top

    @property
    def words(self):
        return self.room.words

    def post(self, kind, is_painted=True, **facts):
        pygame.event.post(pygame.event.Event(kind, facts))
        self.app.turn(0) if is_painted else self.app.go_on(0)

    def in_window(self, at):
        """A place of the screen as one of the window."""
        left, top = self.app.canvas.place.topleft
        return round(at[0] + left), round(at[1] + top)

    def tap(self, at):
        """A press and a release of the mouse; the former is painted where it is looked at."""
        at = self.in_window(at)
        self.post(pygame.MOUSEBUTTONDOWN, self.sees_presses, pos=at, button=1, touch=False)
        self.post(pygame.MOUSEBUTTONUP, pos=at, button=1, touch=False)

    def drag(self, start, end, steps=5):
        self.post(pygame.MOUSEBUTTONDOWN, pos=self.in_window(start), button=1, touch=False)
        for step in range(1, steps + 1):
            self.wait(0.03, turns=1)
            share = step / steps
            at = self.in_window([a + (b - a) * share for a, b in zip(start, end, strict=True)])
            self.post(pygame.MOUSEMOTION, pos=at, rel=(0, 0), buttons=(1, 0, 0), touch=False)
        self.post(pygame.MOUSEBUTTONUP, pos=self.in_window(end), button=1, touch=False)

    def finger(self, kind, finger, at):
        """An event of a touch screen, which gives places as shares of the window."""
        at, (width, height) = self.in_window(at), self.app.window.get_size()
        self.post(kind, finger_id=finger, touch_id=1, x=at[0] / width, y=at[1] / height, dx=0, dy=0)

    def finger_tap(self, at, finger=7):
        """A touch as SDL reports it: its own events, and mouse events made up from them."""
        place = {"pos": self.in_window(at), "button": 1, "touch": True}
        self.finger(pygame.FINGERDOWN, finger, at)
        self.post(pygame.MOUSEBUTTONDOWN, **place)
        self.finger(pygame.FINGERUP, finger, at)
        self.post(pygame.MOUSEBUTTONUP, **place)

    def key(self, code, mod=0, text=""):
        """A key goes down; `text` is what it types."""
        self.post(pygame.KEYDOWN, key=code, mod=mod, unicode=text, scancode=0)

    def wait(self, seconds, turns=20):
        """Let time pass in so many turns, of which the last one is painted."""
        for _ in range(turns):
            self.clock += seconds / turns
            self.app.pass_time(self.clock)
        self.app.draw()

    def settle(self):
        """Let time pass until no bead is on its way."""
        for _ in range(100):
            self.clock += 0.05
            self.app.pass_time(self.clock)
            if not any(field.is_moving for field in self.fields):
                return self.app.draw()
        raise AssertionError("beads that never arrive")

    @property
    def fields(self):
        """The frames that are seen on the screen."""
        alone = getattr(self.screen, "field", None) if has_frame(self.screen) else None
        return getattr(self.screen, "fields", [alone] if alone else [])

    def wait_for_buttons(self):
        """Let time pass until the buttons that came up take touches and keys."""
        until = max(self.screen.deaf_until, self.app.double_tap.until)
        if self.clock < until:
            self.wait(until - self.clock + 0.01, turns=2)

    def press_lesson(self):
        """Touch home's button for the next lesson, or for the last one again."""
        entry = self.screen.next_lesson or self.room.course.lessons[-1]
        texts = {
            self.words.text(f"home.{key}", title=entry.title) for key in ("start", "go_on", "again")
        }
        return self.press(next(one.text for one in self.screen.buttons if one.text in texts))

    def press_word(self, key):
        """Touch the button that these words of the words file are on."""
        self.press(self.words.text(key))

    def press(self, text):
        """Touch the button with this text or sign or picture."""
        self.wait_for_buttons()
        buttons = [one for one in self.screen.buttons if not one.rests]
        for button in buttons:
            if text in (button.text, button.sign, button.picture):
                return self.tap(button.place.center)
        there = [button.text or button.sign for button in buttons]
        raise LookupError(f"no button {text!r}; there are {there}")

    def welcome(self, animal, age="7–9", flag="plain", name=""):
        """Take a newcomer in: an animal, a flag, an age, and perhaps a name."""
        self.press(animal)
        self.press(Portrait(animal.lower(), flag).picture)
        self.press(age)
        self.type(name)
        self.press_word("who.name_done")

    def seat(self, animal, age=Age.MIDDLE):
        """Take a newcomer in without touching anything, as after all was answered."""
        learner = Learner.new(animal, Portrait(animal.lower()).picture)
        self.room.welcome(learner, age)
        self.app.take(self.app.top.resumed(learner))

    def type(self, text):
        """A text comes from the keyboard or from an input method."""
        self.post(pygame.TEXTINPUT, text=text)

    def bead_at(self, rod, change):
        """Where the bead is that a finger touches for a change on a rod."""
        field = self.screen.field
        column = field.layout.units - rod
        bead = field.pose.bead_to_touch(column, change)
        return field.layout.bead_box(column, bead, field.pose.rods[column][bead]).centre

    def move(self, move):
        """Tap the bead that makes this move on the screen's frame."""
        self.tap(self.bead_at(move.rod, move.change))

    def wipe(self):
        """Pass the mouse along the whole beam."""
        beam, inner = self.screen.field.layout.beam_box, self.screen.field.layout.inner_box
        y = beam.centre[1]
        self.drag((inner.x + 2, y), (inner.x + inner.w - 2, y), 8)
        self.wait(0.4, 4)

    def open(self, lesson_id, step=0, seed=7):
        """Open a lesson at one of its steps."""
        self.room.lessons[lesson_id] = LessonState(seed, Position(step), False)
        self.app.take(Push(LessonScreen(self.room, Keeping.begin(self.room, lesson_id))))
        self.app.draw()

    def lines(self):
        """All that is written on the screen, in one text."""
        return " ".join(line for line, _ in self.repaint())

    def open_free(self, rods=13):
        """Open a free frame."""
        self.room.set(free_rods=rods)
        self.app.take(Push(FreeFrame(self.room)))
        self.app.draw()

    def resize(self, size):
        """The window gets another size."""
        pygame.display.set_mode(size, pygame.RESIZABLE)
        self.post(pygame.WINDOWSIZECHANGED, x=size[0], y=size[1])

    def pixels(self, place=None):
        """The colours of the window, or of a place in it, as it is seen now."""
        window = self.app.window
        return pygame.image.tobytes(window.subsurface(place) if place else window, "RGB")

    def repaint(self):
        """All texts of the screen, painted anew: (text, place) pairs."""
        self.room.lettering.written.clear()
        self.app.top.touch_up()
        self.app.draw()
        return [line for one in self.room.lettering.written for line in one.lines]

    def picture(self, path):
        self.repaint()
        pygame.image.save(self.app.window, str(path))

    def close(self):
        self.app.close()
        self.room.leave()
        self.room.store.close()

"""Renders every picture of the README from the real screens: `python assets/readme/make.py`.

Names of pictures behind it make these alone. It needs `python -m pip install -e '.[page]'`. Each
picture is a function that goes to its screen and says what has to be read there; where that is
not so nothing is written, and the words beside the picture have to be looked at, too.
"""

import os
import random
import sys
import tempfile
import uuid
from contextlib import contextmanager
from pathlib import Path

os.environ["SDL_VIDEODRIVER"] = os.environ["SDL_AUDIODRIVER"] = "dummy"
HERE = Path(__file__).resolve().parent
ROOT = HERE.parents[1]
sys.path[:0] = [str(ROOT), *(str(ROOT / "tests" / part) for part in ("", "screens"))]

from board_class import open_board, press  # noqa: E402
from film import Film, shrunk  # noqa: E402
from PIL import Image  # noqa: E402
from pilot import Pilot  # noqa: E402
from robot import begin, give_answer, steps_at, until  # noqa: E402
from shipped import lesson_of  # noqa: E402

from frame.cli import main as command_line  # noqa: E402
from frame.course.attempts import Position  # noqa: E402
from frame.course.stages import Stage  # noqa: E402
from frame.learner.settings import Age  # noqa: E402
from frame.learner.store import LessonState  # noqa: E402
from frame.practice.exercises import Exercise, Kind  # noqa: E402
from frame.practice.rungs import Rung  # noqa: E402
from frame.technique.beads import BeadMove  # noqa: E402
from frame.technique.expression import parse_calculation  # noqa: E402
from frame.technique.operation import Act  # noqa: E402

SIZE = (1280, 720)
WIDTH = 960
COLOURS = 256
FILM_COLOURS = 128
DONE_ON_HOME = 24
"""So many lessons are done by the child whose home is seen."""
SCENES = (
    (Rung.ALONE, "3 + 4"),
    (Rung.PALE, "3 + 4"),
    (Rung.TRACES, "3 + 4"),
    (Rung.COVERED, "4 + 3"),
    (Rung.NUMBER, "4 + 3"),
)
"""The sums of the moving picture, seen less and less, as lessons of the course ask them."""
WRONG = BeadMove(0, 1)
"""The bead that is touched first where 4 come and one is free."""


@contextmanager
def window(age=Age.MIDDLE):
    """The program in a window that nobody sees, with Otter before it."""
    source = random.Random(1)
    uuid.uuid4 = lambda: uuid.UUID(int=source.getrandbits(128), version=4)
    with tempfile.TemporaryDirectory() as folder:
        pilot = Pilot(Path(folder), SIZE)
        pilot.seat("Otter", age)
        yield pilot
        pilot.close()


def need(pilot, *texts):
    """Raises LookupError unless all of these are written on the screen."""
    seen = " ".join(pilot.lines().split())
    for one in texts:
        if one not in seen:
            raise LookupError(f"{one!r} is not seen; there is: {seen}")


def keep(pilot, path, *texts):
    """What the window shows, with these texts, as a picture of the README."""
    need(pilot, *texts)
    picture = shrunk(pilot.app.window, WIDTH).quantize(COLOURS, kmeans=2, dither=Image.Dither.NONE)
    picture.save(path, optimize=True)


def home(path):
    """The harbour of a child of four to six: the first units done, three of them large."""
    with window(Age.YOUNG) as pilot:
        for entry in pilot.room.course.lessons[:DONE_ON_HOME]:
            pilot.room.lessons[entry.id] = LessonState(1, Position(), done=True)
        pilot.screen.rearrange()
        pilot.wait(1.0)
        keep(pilot, path, "The harbour", "Today", "Go on", "Free frame")


def board(path):
    """46 + 39 on the board, half worked: the rule below, the next bead marked."""
    with window() as pilot:
        open_board(pilot, "46 + 39")
        press(pilot, "on", times=3)
        pilot.wait(6.0)
        keep(pilot, path, "46", "+ 39", "+9 = −1 +10")


def replay(path):
    """A covered 38 + 47 in which a ten was forgotten, beside the way."""
    with window() as pilot:
        begin(pilot, asked("38 + 47", Rung.COVERED, 2))
        until(pilot, Stage.WORK)
        for rod, change in ((1, 3), (0, 5), (0, 3), (1, 5), (1, -1), (0, -3)):
            pilot.move(BeadMove(rod, change))
            pilot.settle()
        pilot.press_word("lesson.done")
        give_answer(pilot, 75)
        pilot.wait(18.0, 180)
        keep(pilot, path, "38 + 47", "75", "85", "Here they part. The ten goes in, too.")


def division(path):
    """3876 ÷ 68 when 6 was tried, was too much, and became 5."""
    with window() as pilot:
        begin(pilot, asked("3876 / 68", Rung.ALONE, 13))
        until(pilot, Stage.WORK)
        work = pilot.screen.runner.work
        while work.step.operation.act is not Act.REVISE_DOWN:
            pilot.move(min(work.next_stroke))
            pilot.settle()
        keep(pilot, path, "3 876", "÷ 68", "6 becomes 5.")


def strip(path):
    """What the command `picture` draws of 38 + 47."""
    command_line(["picture", "38 + 47", str(path), "--size", f"{WIDTH}x200"])


def moving(path):
    """A child works 3 + 4 with things to count, goes wrong once, and works sums like it on a
    frame that is seen less and less, until there is the number alone."""
    film = Film(WIDTH)
    with window(Age.YOUNG) as pilot:
        film.pilot = pilot
        lesson = ""
        for rung, text in SCENES:
            lesson, step = where_asked(rung, text, pilot.room.course, lesson)
            pilot.open(lesson, step)
            film.roll(1.2 if rung is Rung.ALONE else 0.68)
            work_in(film, rung)
    film.write(path, FILM_COLOURS)
    print(f"moving: {len(film.pictures)} pictures, {film.seconds:.1f} s")


def work_in(film, rung):
    """The sum is worked; where all is seen, first with a bead that does not fit."""
    pilot = film.pilot
    work = pilot.screen.runner.work
    while not (work.asks or work.judge.finished):
        film.press(pilot.bead_at(*min(work.next_stroke)))
        film.roll(0.28)
        if rung is Rung.ALONE and len(work.touches) == 1:
            film.press(pilot.bead_at(*WRONG))
            film.roll(0.6)
            need(pilot, "The beads run out.")
            film.roll(1.2)
    if rung is Rung.COVERED:
        press_button(film, pilot.words.text("lesson.done"))
    if work.asks:
        press_button(film, str(work.exercise.sum.result))
    if not work.finished:
        press_button(film, "tick")
    need(pilot, "Yes. 7.")
    film.roll(0.64)


def press_button(film, text):
    """The button with this text or sign is pressed, once it takes touches."""
    film.roll(max(0.2, film.pilot.screen.deaf_until - film.pilot.clock))
    buttons = film.pilot.screen.buttons
    film.press(next(one.place.center for one in buttons if text in (one.text, one.sign)))


def where_asked(rung, text, course, before):
    """The lesson and step of the course that ask for this sum at this rung: in the lesson of the
    scene before, or else in the first that does."""
    found = [
        (lesson, number)
        for lesson, number in steps_at(course, rung)
        if lesson_of(lesson).steps[number].exercise.sum == parse_calculation(text)
    ]
    if not found:
        raise LookupError(f"no lesson asks {text} at {rung}")
    return next((one for one in found if one[0] == before), found[0])


def asked(text, rung, rods):
    """An exercise on so many rods."""
    return Exercise(Kind.SUM, parse_calculation(text), rung, rods)


PICTURES = (moving, home, board, replay, division, strip)


def make(folder, names=()):
    """The pictures of these names, or all, in a folder."""
    for picture in PICTURES:
        if not names or picture.__name__ in names:
            picture(folder / f"{picture.__name__}.png")


if __name__ == "__main__":
    make(HERE, sys.argv[1:])

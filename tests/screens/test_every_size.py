"""Every screen, in each of its states, paints at every size of window: nothing is cut, overlaps
or leaves what is used of the window."""

from itertools import product

import pygame
import pytest
from kept import added
from pilot import Pilot
from robot import until
from sight import flaws, look_at
from test_way_home import WAYS, given

from frame.app import Push
from frame.course.runner import Stage
from frame.learner.looks import ANIMALS, FLAGS, Portrait
from frame.learner.settings import Look
from frame.screens.board.screen import BoardScreen
from frame.screens.choosing.newcomer import ChooseFlag
from frame.view.canvas import canvas_in

WIDTHS = (320, 480, 600, 720, 800, 1080, 1280, 1920, 2560, 5120)
HEIGHTS = (240, 320, 480, 600, 720, 960, 1280, 1920, 2880)
SIZES = tuple(product(WIDTHS, HEIGHTS))
SOME = ((320, 240), (320, 960), (600, 960), (720, 720), (1280, 1920), (2560, 480))
FIFTEEN = " + ".join(str(1234 * number) for number in range(1, 16))
SUMS = {
    "": 0, "46 + 39": 3, "12 - 30": 3, "37 x 24": 9, "3876 / 68": 9, "sqrt 1764": 9,
    "12345678901 + 98765432101": 5, FIFTEEN: 9, "1 + 1" + "0" * 34: 9,
}  # fmt: skip


def on_the_board(text, at):
    def go(pilot):
        pilot.app.take(Push(BoardScreen(pilot.room)))
        board = pilot.screen
        board.type(board.typed.opened(is_open=True).plus(text))
        board.take_typed()
        if board.shown is not None:
            board.shown.go_to(min(at, board.shown.last))
            board.show(pilot.room.seconds())
        board.rearrange()

    return go


def answer_above_the_frame(pilot):
    pilot.open("below-5", 0)
    until(pilot, Stage.ANSWER)


NAMES = (
    "Anna",
    "W" * 24,
    "国" * 24,
    "Jean-Luc",
    "Дмитрий",
    "שרה לוי",
    "محمد",
    "प्रिया",
    "O’Brien 🦦",
)


def among(count):
    """The first screen, with so many learners."""

    def go(pilot):
        looks = list(product(FLAGS, ANIMALS))
        for at in range(count - 1):
            name, (flag, animal) = NAMES[at % len(NAMES)], looks[(7 * at + 1) % len(looks)]
            added(pilot.room.store, name, Portrait(animal, flag).picture)
        pilot.key(pygame.K_ESCAPE)

    return go


WAYS_TO_ALL = {
    "home": lambda pilot: None,
    **{f"home, given {count}": given(count) for count in (1, 2, 10)},
    "home, given and done": given(1, done=1, lessons=0),
    "answer above the frame": answer_above_the_frame,
    **{f"who, {count}": among(count) for count in (2, 12, 40, 60)},
    **{f"board, {text}": on_the_board(text, at) for text, at in SUMS.items()},
    **{name: go for some in WAYS.values() for name, go in some.items()},
}


# Each day every other size of some, in turns.
DAILY = [(way, SOME[at % 2 :: 2]) for at, way in enumerate(WAYS_TO_ALL)]
ALL = [pytest.param(way, SIZES, marks=pytest.mark.proof) for way in WAYS_TO_ALL]


@pytest.mark.parametrize(("way", "sizes"), [*DAILY, *ALL])
def test_every_screen_is_well_laid_out_at_every_size(pilot, way, sizes):
    WAYS_TO_ALL[way](pilot)
    for look in Look if sizes is SIZES else [Look.LIGHT]:
        pilot.room.set(look=look)
        for size in sizes:
            found = flaws(look_at(pilot.screen, canvas_in(size).size))
            assert not found, (size, look, found)


@pytest.mark.parametrize("size", [(1, 1), (100, 90), (300, 1000), (40, 2000)])
def test_a_window_too_small_shows_a_part_and_takes_touches(tmp_path, size):
    pilot = Pilot(tmp_path, size)
    pilot.seat("Otter")
    pilot.repaint()
    assert pilot.app.window.get_size() == size
    pilot.close()


def test_a_touch_in_a_tall_window_means_what_is_seen_there(tmp_path):
    pilot = Pilot(tmp_path, (600, 1600))
    face = next(one for one in pilot.screen.buttons if one.text == "Seal")
    top = pilot.app.canvas.place.top
    assert top > 0
    at = face.place.centerx, face.place.centery + top
    for kind in (pygame.MOUSEBUTTONDOWN, pygame.MOUSEBUTTONUP):
        pilot.post(kind, pos=at, button=pygame.BUTTON_LEFT, touch=False)
    assert isinstance(pilot.screen, ChooseFlag) and pilot.screen.animal == "seal"
    ground = pilot.room.theme.ground
    assert pilot.app.window.get_at((0, 0))[:3] == pilot.app.window.get_at((0, 1599))[:3] == ground
    pilot.close()

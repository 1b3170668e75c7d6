"""The board as it is seen from the last row, and on which display."""

from dataclasses import replace
from itertools import chain, product

import pygame
import pytest
from board_class import open_board, type_keys
from contrast import projected_contrast
from pilot import Pilot
from proofs import some_daily
from sight import flaws, look_at

from frame.app import open_window
from frame.course.agenda import Item, Task
from frame.course.problems import Problem
from frame.course.shown import ItemStage
from frame.learner.settings import Age, Look
from frame.screens.board.acts import CLEARING, PASTED, Aid, Deed, Signs
from frame.screens.board.screen import BoardScreen
from frame.screens.board.work import Due
from frame.screens.parts.problem import problem_line
from frame.technique.beads import BeadMove
from frame.technique.expression import parse_calculation
from frame.view.theme import THEMES

SIZES = [(1024, 768), (1280, 720), (1920, 1080)]
LEAST_TEXT, LEAST_SUM = 0.04, 0.10
SHORT = 16
"""A sum with its answer of so many signs stands in full size on any board."""
LINE = 1.3
"""A line is so many times higher than its type size."""

PORTRAIT = [(800, 1280), (720, 1280), (1080, 1920), (600, 960), (480, 800), (900, 1000)]
SMALL = [(800, 480), (640, 400), (400, 300)]

SUMS = (
    "46 + 39", "3876 / 68", "12.5 + 0.75", "sqrt 1764", "37 * 432", "12 - 7", "12 - 30 + 25",
    "1.2 x 0.3", "987654321012 / 123",
)  # fmt: skip
LONG = (
    " + ".join(["48"] * 15), " - ".join(["99", *["2"] * 14]), "1234 + 567 - 89 + 4321 - 2",
    "12345678901 + 10987654321", "+".join(["12345678901"] * 15), "+".join(["7"] * 149),
    "9" * 23 + " - 1", "123456789012345 / 1234567",
)  # fmt: skip

TRIES = (
    ("46 + 39", [BeadMove(1, 5)]),
    ("46 + 39", [BeadMove(1, -4)]),
    ("46 + 39", [BeadMove(0, -1), BeadMove(2, 1)]),
    ("46 + 39", [BeadMove(0, -1), BeadMove(2, 1), BeadMove(1, 5)]),
    ("3876 / 68", [BeadMove(0, 1)]),
    ("12 - 7", [BeadMove(0, -2)]),
)


@pytest.fixture(scope="module")
def class_pilot(tmp_path_factory):
    pilot = Pilot(tmp_path_factory.mktemp("board"), (1024, 768))
    yield pilot
    pilot.close()


@pytest.fixture
def room(class_pilot):
    return class_pilot.room


def item(text, act=Task.SHOW, **more):
    return Item(act, parse_calculation(text), **more)


def board(room, one, *, at=None, stage=None, bar=True, reading=False):
    """A board with one item among others, somewhere in its work."""
    screen = BoardScreen(room, [one, item("4 + 3")])
    screen.resized(SIZES[0])
    if at is not None:
        screen.shown.go_to(at)
    if stage is not None:
        screen.shown.stage = stage
    if reading:
        screen.turn(Aid.READING)
    if not bar:
        screen.dues.put(Due.BAR, None)
    return screen


def boards(room):
    """(name, screen) of what a class may see."""
    for text in SUMS:
        last = board(room, item(text)).shown.last
        for at, bar in ((None, True), (last // 2, False), (last - 1, True), (last, False)):
            yield f"{text} at {at}, bar {bar}", board(room, item(text), at=at, bar=bar)
        yield f"{text} told", board(room, item(text), at=last, stage=ItemStage.TOLD, reading=True)
    for one in (item("57", Task.READ), item("12 + 7", Task.CALL), item("3 + 9", Task.FLASH)):
        for stage in ItemStage:
            yield f"{one.act} {stage}", board(room, one, stage=stage, bar=stage is ItemStage.READY)
    for is_held in (False, True):
        calling = board(room, item("12 + 7 - 4", Task.CALL), bar=is_held)
        for act in (Deed.NEXT, *[Deed.NEXT] * is_held):
            calling.do(act)
        yield f"called, held {is_held}", calling
    longest = " + ".join(["9999999999999999"] * 15)
    for stage in ItemStage:
        yield f"called, longest, {stage}", board(room, item(longest, Task.CALL), stage=stage)
    said = item("46 + 39", line="Which bead goes first?")
    yield "sentence", board(room, said, bar=False)
    for bar in (True, False):
        yield f"empty, bar {bar}", empty(room, bar)
    typed = board(room, item("4 + 3"))
    for sign in "46+*39":
        typed.do(Signs(sign))
    typed.do(Deed.TAKE)
    assert typed.typed.is_wrong
    yield "mistyped", typed
    for text, place in product(LONG, (0.0, 0.5, 1.0)):
        long = board(room, item(text), bar=place > 0)
        long.jump(place)
        if place == 1:
            long.do(Deed.ANSWER)
        yield f"{text} at {place}", long
    for bar in (True, False):
        yield f"added, bar {bar}", telling(room, room.words.text("board.added", count=4), bar)
    for text in ("", "sqrt 1764", "+".join(["12345678901"] * 26), "9" * 300):
        typing = board(room, item("4 + 3"))
        typing.do(Deed.TYPE)
        typing.do(Signs(text))
        yield f"typed {text}", typing
    for question in (PASTED, CLEARING):
        asked = empty(room, bar=True)
        asked.resized(SIZES[0])
        asked.ask(question, focus=0)
        asked.column = "12\n47\n8"
        yield question.key, asked


def telling(room, note, bar):
    """A board that tells something of a file."""
    screen = board(room, item("46 + 39"), bar=bar)
    screen.note = note
    return screen


def empty(room, bar):
    screen = BoardScreen(room)
    screen.has_field = False
    if not bar:
        screen.dues.put(Due.BAR, None)
    return screen


def tries(room, age):
    """(name, screen) of wrong and right beads moved by hand, each with its word for an age."""
    room.set(age=age)
    for number, (text, moves) in enumerate(TRIES):
        screen = board(room, item(text), bar=bool(number % 2))
        for move in moves:
            screen.touch((move,))
        assert len(screen.shown.hand) == len(moves)
        yield f"{text} {moves} for {age}", screen


def sight_of(screen, size):
    """What is seen of a board; where it asks something, or is empty, there is no frame."""
    sight = look_at(screen, size)
    has_frame = screen.question is None and screen.shown is not None
    return sight if has_frame else replace(sight, frame=None)


def heading(screen):
    """Sum and answer, as long as they ever are."""
    return f"{' '.join(screen.seen.head)} {screen.seen.told}"


def too_small(screen, sight):
    """Every text that the last row can't read, with how high it is; the sum's too. Keys of the bar
    are read by the hand that types."""
    height = sight.window.h
    keys = {button.text for button in sight.buttons if len(button.text) == 1}
    for one in sight.written:
        if one.text in keys:
            continue
        is_short = one.how[0] == 4 and len(heading(screen)) <= SHORT
        least = LEAST_SUM if is_short and not screen.typed.is_open else LEAST_TEXT
        for line, place in one.lines:
            share = place.h / LINE / height
            if share < least - 0.5 / height:
                yield f"{line!r} is {share:.3f} of the window's height"


# The largest is 16 to 9 like the one before: another size, and not another layout.
@pytest.mark.parametrize("size", some_daily(SIZES, SIZES[:2]), ids="{0[0]}x{0[1]}".format)
def test_all_can_be_read_from_the_last_row_and_nothing_overlaps_or_is_cut(room, size):
    found = []
    for name, screen in chain(boards(room), *(tries(room, age) for age in Age)):
        sight = sight_of(screen, size)
        found += [f"{name}: {flaw}" for flaw in (*too_small(screen, sight), *flaws(sight))]
    assert not found, "\n".join(found)


@pytest.mark.parametrize("bar", [True, False])
@pytest.mark.parametrize("size", [*SIZES, *PORTRAIT, *SMALL], ids=str)
def test_a_problem_as_long_as_any_of_a_file_lies_on_nothing(room, size, bar):
    """It is for the tutor and not for the last row, so it may be smaller than the rest."""
    name = "quays-and-lamps-of-the-north.txt"
    problem = Problem(name, 12, 16, "sum", {"found": "46 + crates"})
    assert not list(flaws(sight_of(telling(room, problem_line(problem), bar), size)))


EXTREME = [(800, 1280), (480, 800), (900, 1000), (800, 480), (400, 300)]


@pytest.mark.parametrize(
    "size", some_daily([*PORTRAIT, *SMALL], EXTREME), ids="{0[0]}x{0[1]}".format
)
def test_in_high_and_in_small_windows_nothing_overlaps_or_is_cut(room, size):
    found = []
    for name, screen in chain(boards(room), tries(room, Age.OLDER)):
        found += [f"{name}: {flaw}" for flaw in flaws(sight_of(screen, size))]
    assert not found, "\n".join(found)


@pytest.mark.parametrize("size", [(800, 1280), (600, 960)], ids=str)
def test_the_signs_of_the_bar_can_be_touched_in_a_high_window(room, size):
    for _, screen in boards(room):
        if screen.has_bar:
            sight = look_at(screen, size)
            assert min(button.place.w for button in sight.buttons) >= min(44, size[0] / 13.7)


@pytest.mark.parametrize("look", Look)
def test_all_texts_hold_on_a_wall_in_every_theme(room, look):
    room.set(look=look)
    theme = THEMES[str(look)]
    screens = [*tries(room, Age.OLDER), *boards(room)][::5]
    colours = {one.colour for _, screen in screens for one in look_at(screen, SIZES[0]).written}
    room.set(look=Look.LIGHT)
    assert colours
    assert min(projected_contrast(colour, theme.ground) for colour in colours) >= 4.5


# On which display

DESKTOPS = [(1920, 1080), (1280, 720), (1024, 768)]


@pytest.fixture
def pilot(tmp_path):
    pilot = Pilot(tmp_path, (1000, 600))
    yield pilot
    pilot.close()


@pytest.fixture
def displays(monkeypatch):
    """Displays that are there, to be changed by a test; `opened` are those that a full window
    was opened on, None for a window."""
    there, opened, set_mode = list(DESKTOPS), [], pygame.display.set_mode

    def open_on(size, flags=0, display=None):
        full = bool(flags & pygame.FULLSCREEN)
        assert not full or (0 <= display < len(there) and there[display] == size)
        opened.append(display if full else None)
        return set_mode(size, flags & ~pygame.FULLSCREEN)

    monkeypatch.setattr(pygame.display, "get_desktop_sizes", lambda: list(there))
    monkeypatch.setattr(pygame.display, "set_mode", open_on)
    return there, opened


def f11(pilot, shift=False):
    pilot.key(pygame.K_F11, pygame.KMOD_SHIFT if shift else 0)
    return pilot.app.window.get_size()


def test_the_board_goes_from_display_to_display_and_back(pilot, displays):
    screen = open_board(pilot, "46 + 39")
    sizes = [f11(pilot, shift=True) for _ in range(4)]
    assert sizes == [DESKTOPS[1], DESKTOPS[2], DESKTOPS[0], DESKTOPS[1]]
    assert screen.size == DESKTOPS[1]
    assert f11(pilot) == (1000, 600)
    assert f11(pilot) == DESKTOPS[1]
    assert displays[1] == [1, 2, 0, 1, None, 1]
    assert not pygame.display.get_allow_screensaver()
    type_keys(pilot, "4+3\r")
    assert len(screen.board.items) == 2


def test_a_display_that_went_away_is_the_last_there_is(pilot, displays):
    there, opened = displays
    f11(pilot, shift=True)
    f11(pilot, shift=True)
    f11(pilot)
    del there[1:]
    assert f11(pilot) == DESKTOPS[0]
    assert f11(pilot, shift=True) == DESKTOPS[0]
    there.append((800, 480))
    assert f11(pilot, shift=True) == (800, 480)
    assert opened == [1, 2, None, 0, 0, 1]


def test_one_display_alone_is_filled_by_either_way(pilot, displays):
    del displays[0][1:]
    assert f11(pilot, shift=True) == DESKTOPS[0]
    assert f11(pilot) == (1000, 600)
    assert f11(pilot) == DESKTOPS[0]
    assert open_window((640, 400), full=True, display=5).get_size() == DESKTOPS[0]

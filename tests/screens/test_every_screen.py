"""Every screen, in each of its states, come to once and looked at in turn: it is well laid out at
every size of window, the focus ring goes round it, and from there Esc leads home."""

from collections import namedtuple
from itertools import pairwise, product
from random import Random

import pygame
import pytest
from kept import added
from pilot import Pilot
from robot import until
from sight import flaws, look_at
from test_two_computers import put
from test_way_home import WAYS, escape, given

from frame.app import Push
from frame.course.runner import Stage
from frame.learner.looks import ANIMALS, FLAGS, Portrait
from frame.learner.settings import Look
from frame.screens.board.screen import BoardScreen
from frame.screens.choosing.home import Home
from frame.screens.choosing.two_computers import ROWS, backup_folder
from frame.screens.parts.keyed_panel import KeyedPanel
from frame.screens.parts.tickets import TicketPage
from frame.view.canvas import canvas_in
from frame.view.inputs import Key
from frame.view.widgets import focus_reach

WIDTHS = (320, 480, 600, 720, 800, 1080, 1280, 1920, 2560, 5120)
HEIGHTS = (240, 320, 480, 600, 720, 960, 1280, 1920, 2880)
SIZES = tuple(product(WIDTHS, HEIGHTS))
SOME = ((320, 240), (320, 960), (600, 960), (720, 720), (1280, 1920), (2560, 480))
RING_SIZES = [(600, 960), (800, 480), (1280, 720), (1920, 1080)]
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


def with_backups(pilot):
    """Two computers, with two pages of backups, and somebody who may come back."""
    folder = backup_folder(pilot.room)
    folder.mkdir()
    for number in range(ROWS + 1):
        put(folder, f"bead-frame-2026-05-0{number + 1}.sqlite", number + 1)
    CHOOSING["two computers"](pilot)
    pilot.screen.left_out = folder
    pilot.screen.rearrange()


CHOOSING = {
    name: go
    for kind, some in WAYS.items()
    if kind.__module__.startswith("frame.screens.choosing") and not issubclass(kind, KeyedPanel)
    for name, go in some.items()
}
RING_WAYS = {"home": WAYS_TO_ALL["home"], "who, 7": among(7), "who, 60": among(60),
             "two computers, files": with_backups, **CHOOSING}  # fmt: skip
KINDS = {name: kind for kind, some in WAYS.items() for name in some}
Arrived = namedtuple("Arrived", "pilot screen home")


@pytest.fixture(scope="module")
def arrived(request, ids, tmp_path_factory):
    """A screen, come to for all tests of the same way there, the last of which leaves it."""
    ids.source = Random(request.param)
    pilot = Pilot(tmp_path_factory.mktemp("way"), (800, 480))
    pilot.seat("Otter")
    home = pilot.screen
    (WAYS_TO_ALL | RING_WAYS)[request.param](pilot)
    yield Arrived(pilot, pilot.screen, home)
    pilot.close()


def by(ways):
    return pytest.mark.parametrize("arrived", ways, indirect=True)


RINGED = by(RING_WAYS)


# Each day one size of some, in turns.
DAILY = {way: SOME[at % 6 :: 6] for at, way in enumerate(WAYS_TO_ALL)}


@by(WAYS_TO_ALL)
def test_it_is_well_laid_out(arrived, request):
    assert_well_laid_out(arrived, DAILY[request.node.callspec.params["arrived"]], [Look.LIGHT])


@pytest.mark.proof
@by(WAYS_TO_ALL)
def test_it_is_well_laid_out_at_every_size(arrived):
    assert_well_laid_out(arrived, SIZES, Look)


def assert_well_laid_out(arrived, sizes, looks):
    for look in looks:
        arrived.pilot.room.set(look=look)
        for size in sizes:
            found = flaws(look_at(arrived.screen, canvas_in(size).size))
            assert not found, (size, look, found)


def places_of(screen):
    return [one.place for one in screen.buttons]


def is_above(one, other):
    """Whether a place lies wholly above another."""
    return one.bottom <= other.top


def in_row(one, other):
    return not is_above(one, other) and not is_above(other, one)


@RINGED
def test_tab_goes_as_one_reads_from_the_first_thing_below_the_head(arrived):
    screen = arrived.screen
    for size in RING_SIZES:
        screen.resized(size)
        screen.focus = None
        places, seen = places_of(screen), []
        for _ in screen.order:
            screen.press_key(Key(pygame.K_TAB))
            seen.append(screen.focus)
        live = [at for at, one in enumerate(screen.buttons) if not one.rests]
        assert sorted(seen) == live, size
        below = [at for at in seen if places[at].centery > screen.head * screen.unit]
        assert seen[: len(below)] == below, "the head comes last"
        assert below or len(seen) == 1, size
        for some in (below, seen[len(below) :]):
            for one, other in pairwise(some):
                is_on = places[one].left < places[other].left
                assert is_above(places[one], places[other]) or is_on, (size, one, other)


@RINGED
def test_an_arrow_leads_to_the_nearest_button_on_its_way_or_the_ring_stays(arrived):
    screen = arrived.screen
    if isinstance(screen, Home):
        pytest.skip("arrows go round the lessons there")
    for size in RING_SIZES[:2]:
        screen.resized(size)
        live = [at for at, one in enumerate(screen.buttons) if not one.rests]
        for at in live:
            for code in (pygame.K_UP, pygame.K_DOWN):
                check_upright(screen, live, at, code)
            if not isinstance(screen, TicketPage):
                for code in (pygame.K_LEFT, pygame.K_RIGHT):
                    check_along(screen, live, at, code)


def led_to(screen, at, code):
    """The place to which an arrow leads from a button; None where the ring stays."""
    screen.focus = at
    page = getattr(screen, "page", 0)
    screen.press_key(Key(code))
    if getattr(screen, "page", 0) != page:  # Over the pages: that is told of with the tickets.
        screen.turn(page - screen.page)
        return None
    return None if screen.focus == at else screen.buttons[screen.focus].place


def check_upright(screen, live, at, code):
    places, down = places_of(screen), code == pygame.K_DOWN
    here, there = places[at], led_to(screen, at, code)
    beyond = [
        place
        for place in (places[one] for one in live)
        if (is_above(here, place) if down else is_above(place, here))
    ]
    if there is None:
        assert not beyond or isinstance(screen, TicketPage), (here, code)
        return
    assert there in beyond
    nearer = [one for one in beyond if (is_above(one, there) if down else is_above(there, one))]
    assert not nearer, (here, there, nearer)

    def apart(place):
        return max(place.left - here.right, here.left - place.right, 0)

    assert apart(there) == min(apart(one) for one in beyond if in_row(one, there)), (here, there)


def check_along(screen, live, at, code):
    places, sign = places_of(screen), 1 if code == pygame.K_RIGHT else -1
    here, there = places[at], led_to(screen, at, code)
    beyond = [
        places[one]
        for one in live
        if in_row(places[one], here) and sign * (places[one].centerx - here.centerx) > 0
    ]
    if there is None:
        assert not beyond, (here, beyond)
        return
    assert there == min(beyond, key=lambda place: abs(place.centerx - here.centerx))


@RINGED
def test_the_ring_touches_no_text_and_stays_in_the_window(arrived):
    screen = arrived.screen
    room = screen.room
    for size in RING_SIZES:
        screen.resized(size)
        buttons, screen.buttons, screen.focus = screen.buttons, [], None
        surface = pygame.Surface(size)
        room.lettering.written.clear()
        screen.paint(surface)
        lines = [line for one in room.lettering.written for line in one.lines]
        screen.buttons = buttons
        for button in buttons:
            ring = focus_reach(button.place, size[1]).inflate(-2, -2)
            assert surface.get_rect().contains(ring), (size, button.text or button.sign)
            for text, place in lines:
                ink = ink_in(surface, ring.clip(place), room.theme.ground)
                assert not ink, (size, button.text or button.sign, text)


def ink_in(surface, place, ground):
    """How many pixels of a place are not of the ground."""
    place = place.clip(surface.get_rect())
    if not place:
        return 0
    of_ground = pygame.mask.from_threshold(surface.subsurface(place), ground, (1, 1, 1, 255))
    return place.w * place.h - of_ground.count()


@by(KINDS)
def test_esc_leads_home(arrived, request):
    name = request.node.callspec.params["arrived"]
    assert isinstance(arrived.home, Home)
    assert type(arrived.screen) is KINDS[name]
    if name.startswith("lesson, "):
        assert arrived.screen.runner.stage.name == name.removeprefix("lesson, ")
    arrived.screen.resized(arrived.pilot.app.canvas.size)
    assert arrived.pilot.screen is arrived.screen
    escape(arrived.pilot, arrived.home)

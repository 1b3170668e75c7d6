"""The focus ring on the choosing screens: it goes as one reads, by arrows to what lies nearest, and
nothing beside it is touched."""

from itertools import pairwise

import pygame
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pilot import Pilot
from test_every_size import WAYS_TO_ALL, among
from test_two_computers import put
from test_way_home import WAYS

from frame.screens.choosing.home import Home
from frame.screens.choosing.two_computers import ROWS, backup_folder
from frame.screens.parts.keyed_panel import KeyedPanel
from frame.screens.parts.ring import across, along, rows_of
from frame.screens.parts.tickets import TicketPage
from frame.view.inputs import Key
from frame.view.widgets import focus_reach

SIZES = [(600, 960), (800, 480), (1280, 720), (1920, 1080)]
CHOOSING = {
    name: go
    for kind, some in WAYS.items()
    if kind.__module__.startswith("frame.screens.choosing") and not issubclass(kind, KeyedPanel)
    for name, go in some.items()
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


SCREENS = {"home": WAYS_TO_ALL["home"], "who, 7": among(7), "who, 60": among(60),
           "two computers, files": with_backups, **CHOOSING}  # fmt: skip


def places_of(screen):
    return [one.place for one in screen.buttons]


def is_above(one, other):
    """Whether a place lies wholly above another."""
    return one.bottom <= other.top


def in_row(one, other):
    return not is_above(one, other) and not is_above(other, one)


# Places


@st.composite
def grids(draw):
    """Places in rows of any lengths, shaken by less than half their height, and how many each row
    has."""
    rows = draw(st.lists(st.integers(1, 5), min_size=1, max_size=5))
    shake = st.integers(0, 9)
    places = [
        pygame.Rect(30 * column + draw(shake), 40 * row + draw(shake), 20, 20)
        for row, count in enumerate(rows)
        for column in range(count)
    ]
    return draw(st.permutations(places)), rows


@given(grids())
def test_places_are_read_row_by_row_from_the_left(grid):
    places, counts = grid
    rows = rows_of(places)
    assert [len(row) for row in rows] == counts
    for row in rows:
        assert [places[at].left for at in row] == sorted(places[at].left for at in row)
    for upper, lower in pairwise(rows):
        assert max(places[at].top for at in upper) < min(places[at].top for at in lower)


@given(grids())
def test_arrows_lead_to_the_next_of_the_row_and_to_the_nearest_of_the_next_row(grid):
    places, _ = grid
    rows = rows_of(places)
    for index, row in enumerate(rows):
        for column, at in enumerate(row):
            for way in (-1, 1):
                there = column + way
                assert along(places, at, way) == (row[there] if 0 <= there < len(row) else None)
                other = rows[index + way] if 0 <= index + way < len(rows) else []
                wanted = other[min(column, len(other) - 1)] if other else None
                assert across(places, at, way) == wanted


# Screens


@pytest.fixture(scope="module", params=SCREENS)
def screen(tmp_path_factory, request):
    """A screen on which nothing is pressed, but laid out and gone round anew by each test."""
    pilot = Pilot(tmp_path_factory.mktemp("ring"), (800, 480))
    pilot.seat("Otter")
    SCREENS[request.param](pilot)
    yield pilot.screen
    pilot.close()


def test_tab_goes_as_one_reads_from_the_first_thing_below_the_head(screen):
    for size in SIZES:
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


def test_an_arrow_leads_to_the_nearest_button_on_its_way_or_the_ring_stays(screen):
    if isinstance(screen, Home):
        pytest.skip("arrows go round the lessons there")
    for size in SIZES[:2]:
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


def test_the_ring_touches_no_text_and_stays_in_the_window(screen):
    room = screen.room
    for size in SIZES:
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

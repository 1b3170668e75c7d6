"""What beads stand for: as many things as the frame reads, in the hand's groups, within their
place."""

from itertools import combinations, product

import pygame
import pytest
from hypothesis import given
from hypothesis import strategies as st
from pilot import the_lettering, the_pictures

from frame.technique.beads import BeadMove, Frame
from frame.view.ashore import MOST_RODS, THERE, Shore, counted, moved_by, presence
from frame.view.pose import Bead, Pose, pose_of
from frame.view.theme import LIGHT, THEMES
from frame.view.things import paint_things
from frame.view.widgets import Brushes

AREAS = [(330, 472, 8.0), (266, 472, 8.0), (130, 250, 8.9), (400, 708, 12.0), (180, 300, 5.3)]
areas = pytest.mark.parametrize(("width", "height", "unit"), AREAS)
rods = pytest.mark.parametrize("rods", range(1, MOST_RODS + 1))


def shore_of(rods, width=330, height=472, unit=8.0):
    return Shore.fit(pygame.Rect(20, 30, width, height), rods, unit)


def frame_of(number, rods):
    return Frame(f"{number:0{rods}}", rods - 1)


@rods
def test_there_are_as_many_things_as_the_frame_reads_in_nets_of_five_and_single_groups(rods):
    shore = shore_of(rods)
    for number in range(10**rods):
        seen = tuple(shore.seen(pose_of(frame_of(number, rods))))
        assert counted(seen) == number
        for column, digit in enumerate(map(int, f"{number:0{rods}}")):
            here = [group.bead for group, _ in seen if group.column == column]
            assert here.count(Bead.HEAVEN) == digit // 5 and len(here) == digit // 5 + digit % 5


@rods
@areas
def test_all_groups_have_room_beside_one_another_above_the_quay(rods, width, height, unit):
    shore = shore_of(rods, width, height, unit)
    groups = list(shore.groups)
    assert len(groups) == 5 * rods
    for group in groups:
        assert shore.area.contains(group.box) and group.box.bottom <= shore.edge
    for one, other in combinations(groups, 2):
        assert not one.box.colliderect(other.box)


@pytest.mark.parametrize("rods", [1, 2])
def test_all_things_are_of_one_size(rods):
    shore = shore_of(rods)
    for group in shore.groups:
        if not group.bead.is_heaven:
            ten = (2 * shore.size, 5 * shore.size)
            assert group.box.size == (ten if group.place else (shore.size, shore.size))


@given(st.lists(st.floats(0, 1), min_size=5, max_size=5))
def test_on_their_way_things_count_with_their_beads(shares):
    heaven, *earth = shares
    pose = Pose(((heaven, *sorted(earth)),))
    nearer = 5 * (heaven > THERE) + sum(1 - one > THERE for one in earth)
    seen = tuple(shore_of(1).seen(pose))
    assert counted(seen) == nearer
    assert all(share == presence(pose, group.column, group.bead) for group, share in seen)


@pytest.mark.parametrize("digit", range(10))
@pytest.mark.parametrize("change", [1, 2, 3, 4, -1, -2, -3, -4, 5, -5])
def test_what_a_move_takes_along_is_what_differs_after_it(digit, change):
    before, move = Frame(f"3{digit}", 1), BeadMove(0, change)
    if not before.can(move):
        return
    start, end = pose_of(before), pose_of(before.apply(move))
    differs = {
        (column, bead)
        for column, bead in product(range(2), Bead)
        if presence(start, column, bead) != presence(end, column, bead)
    }
    assert moved_by(move, start, 1) == differs


def painted(shore, frame, theme=LIGHT, lit=frozenset()):
    surface = pygame.Surface((shore.area.right + 20, shore.area.bottom + 20))
    surface.fill(theme.ground)
    brushes = Brushes(surface, theme, the_lettering(), the_pictures(), measure=720)
    paint_things(brushes, shore, "crate", pose_of(frame), lit)
    return surface


def times(surface, picture):
    """How often a picture is seen whole, at places that do not overlap."""
    width, height = picture.get_size()
    solid = [
        (x, y) for x, y in product(range(0, width, 3), range(0, height, 3))
        if picture.get_at((x, y)).a == 255
    ]  # fmt: skip
    found = []
    first = solid[len(solid) // 2]
    for x, y in product(range(surface.get_width() - width), range(surface.get_height() - height)):
        if surface.get_at((x + first[0], y + first[1]))[:3] != picture.get_at(first)[:3]:
            continue
        if any(abs(x - a) < width and abs(y - b) < height for a, b in found):
            continue
        if all(surface.get_at((x + a, y + b))[:3] == picture.get_at((a, b))[:3] for a, b in solid):
            found.append((x, y))
    return len(found)


@pytest.mark.parametrize("number", [0, 1, 4, 5, 7, 9])
def test_a_picture_shows_each_thing_that_is_counted(number):
    shore = shore_of(1, 200, 300)
    picture = the_pictures().drawn("crate", shore.size, LIGHT.drawn)
    below = painted(shore, frame_of(number % 5, 1))
    assert times(below, picture) == number % 5
    # In a net its lines cross some things: there the net with five is one picture.
    without, with_net = painted(shore, frame_of(0, 1)), painted(shore, frame_of(5, 1))
    net = next(group for group in shore.groups if group.bead.is_heaven)
    whole = painted(shore, frame_of(number, 1)).subsurface(net.box)
    wanted = (with_net if number >= 5 else without).subsurface(net.box)
    assert pygame.image.tobytes(whole, "RGB") == pygame.image.tobytes(wanted, "RGB")


@pytest.mark.parametrize("theme", THEMES.values(), ids=THEMES)
def test_what_comes_or_leaves_next_is_lit_with_an_edge(theme):
    shore, frame = shore_of(1), frame_of(3, 1)
    plain = painted(shore, frame, theme)
    for move in (BeadMove(0, 5), BeadMove(0, 1), BeadMove(0, -2)):
        lit = moved_by(move, pose_of(frame), 0)
        seen = painted(shore, frame, theme, lit)
        for group in shore.groups:
            if (group.column, group.bead) in lit:
                foot = range(group.box.left, group.box.right)
                below = {
                    tuple(seen.get_at((x, group.box.bottom + y))[:3])
                    for x in foot
                    for y in range(6)
                }
                assert {theme.hint, theme.hint_ink} <= below, (move, group)
        assert pygame.image.tobytes(seen, "RGB") != pygame.image.tobytes(plain, "RGB")

"""The free frame with more rods than fit: every rod can be reached, moved and read."""

from itertools import pairwise

import pygame
import pytest
from robot import signs
from sight import SHAPES, assert_well_laid_out, look_at

from frame.learner.settings import Settings
from frame.screens.choosing.free import FreeFrame
from frame.technique.beads import MOST_RODS, BeadMove
from frame.technique.reading import read
from frame.view.scrolling import bar_box

LARGE = (1920, 1080)


def seen_rods(free):
    """The place numbers of the rods that are seen whole, from the left."""
    layout, box = free.field.layout, free.field.box
    places = ((rod, layout.rod_box(layout.units - rod)) for rod, _ in free.field.rod_places())
    return [rod for rod, one in places if box.left <= one.x and one.x + one.w <= box.right]


def all_rods(free):
    frame = free.field.frame
    return list(range(frame.highest, frame.lowest - 1, -1))


def border(free, at="top"):
    """A place on the frame's upper or lower border, in its middle."""
    box, half = free.field.box, free.field.layout.border // 2
    return box.centerx, (box.top + half if at == "top" else box.bottom - half - 1)


def thumb(free):
    """The middle of the thumb, by what is seen: its share of the bar is that of the rods."""
    layout, box = free.field.layout, free.field.box
    middle = (layout.scroll + layout.window / 2) / (layout.rods * layout.spacing)
    return box.left + layout.border + middle * layout.window, box.bottom + 9


def drag_frame(pilot, rods, at="top"):
    """Drag a border by so many rods' widths; more than the window's width in several goes."""
    (x, y), spacing = border(pilot.screen, at), pilot.screen.field.layout.spacing
    most = 5 if rods > 0 else -5
    for left in range(rods, 0, -most):
        way = min(left, most, key=abs)
        pilot.drag((x, y), (x + way * spacing, y))


def to_left_end(pilot):
    x, y = thumb(pilot.screen)
    pilot.drag((x, y), (0, y))


def assert_as_painted_anew(pilot):
    seen = pilot.pixels()
    pilot.repaint()
    assert pilot.pixels() == seen


@pytest.fixture
def wide(pilot):
    """A frame of the most rods there are."""
    pilot.open_free(MOST_RODS)
    return pilot.screen


# How much is seen


@pytest.mark.parametrize("size", SHAPES)
@pytest.mark.parametrize("rods", [18, 27])
def test_up_to_27_rods_are_seen_at_once(room, rods, size):
    room.settings = Settings(free_rods=rods)
    free = FreeFrame(room)
    look_at(free, size)
    assert seen_rods(free) == all_rods(free)
    assert len(all_rods(free)) == rods and not free.field.layout.window


@pytest.mark.parametrize("size", [*SHAPES, LARGE])
@pytest.mark.parametrize("rods", [28, MOST_RODS])
def test_of_more_rods_as_many_are_seen_as_can_be_touched_well(room, rods, size):
    room.settings = Settings(free_rods=rods)
    free = FreeFrame(room)
    look_at(free, size)
    layout, box = free.field.layout, free.field.box
    assert layout.spacing >= 44
    assert box.left >= 0 and box.right <= size[0]
    if layout.window:
        assert len(seen_rods(free)) < rods
        assert box.w + layout.spacing > size[0] * 0.93, "another rod would have had room"
    else:
        assert seen_rods(free) == all_rods(free)
    assert 0 in seen_rods(free)


@pytest.mark.parametrize("rods", [28, MOST_RODS])
def test_nothing_overlaps_wherever_the_window_is(room, rods):
    def scrolled(share):
        room.settings = Settings(free_rods=rods, place_names=True)
        free = FreeFrame(room)
        look_at(free, SHAPES[0])
        layout = free.field.layout
        most = layout.rods * layout.spacing - layout.window
        free.field.layout = layout.scrolled(share * most)
        for rod in all_rods(free)[1:]:
            free.touch((BeadMove(rod, 5),))
        return free

    screens = [(f"{rods} rods, {share}", scrolled(share)) for share in (0, 0.5, 1)]
    assert len({screen.field.layout.scroll for _, screen in screens}) == 3
    assert_well_laid_out(screens, SHAPES)


# What moves it


@pytest.mark.parametrize("at", ["top", "bottom"])
def test_the_frame_goes_along_with_a_finger_on_its_border(pilot, wide, at):
    before = seen_rods(wide)
    drag_frame(pilot, 3, at)
    assert seen_rods(wide) == [rod + 3 for rod in before]
    drag_frame(pilot, -2, at)
    assert seen_rods(wide) == [rod + 1 for rod in before]
    assert not int(wide.field.frame.digits) and not wide.past


def test_it_stops_at_its_ends(pilot, wide):
    drag_frame(pilot, MOST_RODS)
    assert seen_rods(wide)[0] == wide.field.frame.highest
    drag_frame(pilot, -2 * MOST_RODS)
    assert seen_rods(wide)[-1] == wide.field.frame.lowest


def test_whole_rods_are_seen_when_the_finger_leaves(pilot, wide):
    x, y = border(wide)
    spacing = wide.field.layout.spacing
    places = [dict(wide.field.rod_places())]
    for way in (0.3, 0.8, 1.4):
        pilot.drag((x, y), (x + way * spacing, y))
        assert wide.field.layout.scroll % spacing == 0
        places.append(dict(wide.field.rod_places()))
    moved = [there[0] - here[0] for here, there in pairwise(places)]
    assert moved == [0, spacing, spacing]


def test_the_thumb_of_the_bar_goes_along_with_a_finger(pilot, wide):
    for share in (0.0, 0.5, 1.0, 0.25):
        start, box = thumb(wide), wide.field.box
        layout = wide.field.layout
        half = layout.window**2 / (layout.rods * layout.spacing) / 2
        left, right = box.left + layout.border + half, box.right - layout.border - half
        to = left + share * (right - left)
        pilot.drag(start, (to, start[1]))
        assert abs(thumb(wide)[0] - to) <= layout.spacing / 2
    to_left_end(pilot)
    assert seen_rods(wide)[0] == wide.field.frame.highest
    x, y = thumb(wide)
    pilot.drag((x, y), (799, y))
    assert seen_rods(wide)[-1] == wide.field.frame.lowest


def test_what_is_painted_while_it_moves_is_as_painted_anew(pilot, wide):
    pilot.move(BeadMove(0, 1))
    pilot.settle()
    x, y = border(wide)
    pilot.post(pygame.MOUSEBUTTONDOWN, pos=(x, y), button=1, touch=False)
    for way in (7, 40, 90, 300, -50):
        pilot.post(pygame.MOUSEMOTION, pos=(x + way, y), rel=(0, 0), buttons=(1, 0, 0), touch=False)
        assert_as_painted_anew(pilot)
    pilot.post(pygame.MOUSEBUTTONUP, pos=(x - 50, y), button=1, touch=False)
    assert_as_painted_anew(pilot)


def test_the_rod_that_keys_work_comes_in_sight(pilot, wide):
    pilot.key(pygame.K_LEFT)
    for _ in all_rods(wide):
        assert wide.field.focus in seen_rods(wide)
        pilot.key(pygame.K_LEFT)
    assert wide.field.focus == wide.field.frame.highest
    pilot.key(pygame.K_1)
    assert wide.field.frame.digits == "1" + "0" * (MOST_RODS - 1)


# Every rod


@pytest.mark.parametrize("rods", [28, pytest.param(32, marks=pytest.mark.proof), MOST_RODS])
def test_every_rod_is_reached_and_moved(pilot, rods):
    pilot.open_free(rods)
    free, done = pilot.screen, []
    to_left_end(pilot)
    while len(done) < rods:
        new = [rod for rod in seen_rods(free) if rod not in done]
        assert new, f"no way on from rod {done[-1]}"
        for rod in new:
            pilot.move(BeadMove(rod, 1))
        done += new
        drag_frame(pilot, -len(seen_rods(free)))
    assert done == all_rods(free)
    assert free.field.frame.digits == "1" * rods


def test_a_bead_that_is_not_seen_is_not_touched(pilot, wide):
    to_left_end(pilot)
    layout = wide.field.layout
    assert 0 not in seen_rods(wide)
    middle = layout.rod_box(layout.units).centre[0]
    assert middle > wide.field.box.right
    pilot.tap((min(middle, 799), layout.beam_box.centre[1] + layout.bead_height / 2))
    assert not int(wide.field.frame.digits)


def test_a_wipe_clears_the_rods_that_are_seen_and_no_other(pilot, wide):
    for rod in all_rods(wide):
        wide.touch((BeadMove(rod, 1),))
    pilot.settle()
    beam, box, half = wide.field.layout.beam_box, wide.field.box, wide.field.layout.spacing // 2
    y = beam.centre[1]
    pilot.drag((box.left + half, y), (box.right - half, y), 8)
    cleared = [rod for rod in all_rods(wide) if not wide.field.frame.digit(rod)]
    assert cleared == seen_rods(wide)


# The unit rod


def ones_below(pilot):
    """The middles of each "1" that is written below the frame; it keeps clear of the bar."""
    field = pilot.screen.field
    ones = [one for line, one in pilot.repaint() if line == "1" and one.top >= field.box.centery]
    bar = bar_box(field.layout) if field.layout.window else field.layout.frame_box
    assert all(one.top >= bar.y + bar.h for one in ones)
    return [one.centerx for one in ones]


@pytest.mark.parametrize("rods", [28, 31, MOST_RODS])
def test_the_1_is_below_the_unit_rod_and_nowhere_when_that_is_out_of_sight(pilot, rods):
    pilot.open_free(rods)
    free, shown = pilot.screen, []
    for _ in range(4):
        middle = dict(free.field.rod_places()).get(0)
        ones = ones_below(pilot)
        assert len(ones) == (middle is not None)
        assert all(abs(one - middle) <= 1 for one in ones)
        shown += [bool(ones)]
        drag_frame(pilot, 5)
    assert shown[0] and not shown[-1]


def test_the_1_is_written_only_where_places_are_named(pilot, wide):
    assert ones_below(pilot)
    pilot.room.set(place_names=False)
    assert not ones_below(pilot)


# More rods and fewer


def test_more_rods_and_fewer_keep_the_number(pilot):
    pilot.open_free(26)
    free = pilot.screen
    for rod, change in ((0, 3), (4, 5), (11, 1)):
        free.touch((BeadMove(rod, change),))
    number, counts = read(free.field.frame), []
    for sign in "+" * 9 + "−" * 9:
        pilot.press(sign)
        assert read(free.field.frame) == number
        assert 0 in seen_rods(free)
        counts.append(len(all_rods(free)))
    assert counts == [*range(27, 36), *range(34, 25, -1)]
    assert pilot.room.settings.free_rods == 26


def test_there_are_at_most_35_rods(pilot, wide):
    assert "+" not in signs(wide)
    pilot.press("−")
    assert "+" in signs(wide)
    pilot.press("+")
    assert len(all_rods(wide)) == MOST_RODS == 35


def test_in_a_larger_window_the_whole_frame_is_seen(pilot, wide):
    to_left_end(pilot)
    pilot.resize(LARGE)
    assert seen_rods(wide) == all_rods(wide)
    assert len(ones_below(pilot)) == 1


def test_the_frame_stays_where_it_was_moved_to_when_a_window_gets_another_size(pilot, wide):
    drag_frame(pilot, 8)
    first = seen_rods(wide)[0]
    pilot.resize((1024, 768))
    assert seen_rods(wide)[0] == first


def test_the_unit_rod_is_still_seen_after_a_larger_window(pilot, wide):
    before = seen_rods(wide)
    assert 0 in before
    pilot.resize(LARGE)
    pilot.resize((800, 480))
    assert 0 in seen_rods(wide)

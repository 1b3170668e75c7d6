"""Geometry: the frame fits, mappings are inverse, hit cells tile the decks."""

from itertools import pairwise

import pytest
from each import each_row
from hypothesis import given
from hypothesis import strategies as st
from poses import is_possible

from frame.technique.beads import Frame
from frame.view.geometry import Bead, Layout, Pose, pose_of, unit_marks, usual_units

WINDOWS = [(800, 480), (1024, 768), (1280, 720), (1920, 1080), (3840, 2160)]

layouts = st.builds(
    lambda window, rods, narrow: Layout.fit((0, 0, *window), rods, rods - 1, narrow),
    st.tuples(st.integers(800, 3840), st.integers(480, 2160)),
    st.integers(1, 31),
    st.booleans(),
)
digits = st.integers(0, 9)


@each_row("narrow", [False, True])
@each_row("rods", range(1, 32))
@each_row("window", WINDOWS)
def test_frame_fits_is_centred_and_could_not_be_larger(window, rods, narrow):
    x, y, w, h = 10, 20, window[0] - 30, window[1] - 50
    layout = Layout.fit((x, y, w, h), rods, rods - 1, narrow)
    box = layout.frame_box
    assert x <= box.x and box.x + box.w <= x + w
    assert y <= box.y and box.y + box.h <= y + h
    assert abs(box.centre[0] - (x + w / 2)) <= 1
    assert abs(box.centre[1] - (y + h / 2)) <= 1
    grown = (Layout.fit((0, 0, box.w + i, 99999), rods, rods - 1, narrow) for i in range(99))
    larger = next(other for other in grown if other.spacing > layout.spacing).frame_box
    assert larger.w > w or larger.h > h


@each_row("rods", [1, 5, 13, 27])
@each_row("window", WINDOWS)
def test_proportions_of_the_instrument(window, rods):
    layout = Layout.fit((0, 0, *window), rods, rods - 1)
    assert layout.bead_width == pytest.approx(layout.spacing / 1.16, abs=1.01)
    assert layout.bead_height == pytest.approx(0.55 * layout.bead_width, abs=1.1)
    assert layout.inner_box.h == 7 * layout.bead_height + layout.beam
    assert layout.beam < layout.bead_height / 2 and layout.border < layout.bead_height / 2


def test_an_area_too_small_still_gives_a_frame():
    assert Layout.fit((0, 0, 5, 5), 27, 26).bead_height >= 1


@given(layouts, st.floats(-50, 50), st.floats(-50, 50))
def test_a_place_on_the_screen_is_so_many_rods_from_the_corner(layout, x, y):
    place = layout.x + x * layout.spacing, layout.y + y * layout.spacing
    assert layout.to_frame(place) == pytest.approx((x, y), abs=1e-9)


@given(layouts)
def test_rod_i_spans_i_to_i_plus_1(layout):
    for index in range(layout.rods):
        box = layout.rod_box(index)
        assert layout.to_frame((box.x, box.y)) == pytest.approx((index, 0))
        assert layout.to_frame((box.x + box.w, box.y))[0] == pytest.approx(index + 1)


@given(layouts, digits)
def test_beads_stay_in_their_deck_and_never_overlap(layout, digit):
    offsets = pose_of(Frame(str(digit), 0)).rods[0]
    boxes = [box for _, box in layout.bead_boxes(0, offsets)]
    assert all(box == tuple(map(round, box)) for box in boxes), "beads at rest on whole pixels"
    assert boxes[0].y >= layout.inner_box.y
    assert boxes[0].y + boxes[0].h <= layout.beam_box.y
    edges = [layout.beam_box.y + layout.beam_box.h]
    for box in boxes[1:]:
        edges += [box.y, box.y + box.h]
    edges.append(layout.inner_box.y + layout.inner_box.h)
    assert edges == sorted(edges)
    assert sum(b - a for a, b in zip(edges[::2], edges[1::2], strict=True)) == layout.bead_height


@given(layouts, st.data())
def test_beads_in_use_touch_the_beam(layout, data):
    digit = data.draw(digits)
    boxes = dict(layout.bead_boxes(0, pose_of(Frame(str(digit), 0)).rods[0]))
    beam = layout.beam_box
    heaven = boxes[Bead.HEAVEN]
    assert (heaven.y + heaven.h == beam.y) == (digit >= 5)
    assert (boxes[Bead.EARTH_1].y == beam.y + beam.h) == (digit % 5 > 0)


@given(layouts, digits, st.data())
def test_hit_cells_tile_the_frame(layout, digit, data):
    index = data.draw(st.integers(0, layout.rods - 1))
    pose = pose_of(Frame(str(digit) * layout.rods, layout.rods - 1))
    column = layout.rod_box(index)
    found = []
    for y in range(int(column.h)):
        hit = layout.bead_at((column.x + column.w / 2, column.y + y), pose)
        assert hit is not None and hit[0] == index
        found.append(hit[1])
    assert found == sorted(found) and set(found) == set(Bead)
    for bead, box in layout.bead_boxes(index, pose.rods[index]):
        assert layout.bead_at(box.centre, pose) == (index, bead)
        assert layout.bead_at((box.x, box.y + 0.5), pose) == (index, bead)
        assert layout.bead_at((box.x + box.w - 0.5, box.y + box.h - 0.5), pose) == (index, bead)


def test_half_of_the_gap_belongs_to_each_side():
    layout = Layout.fit((0, 0, 800, 480), 1, 0)
    pose = pose_of(Frame("2", 0))
    upper = layout.bead_box(0, Bead.EARTH_2, 0.0)
    middle = upper.y + 1.5 * upper.h
    assert layout.bead_at((upper.centre[0], middle - 1), pose) == (0, Bead.EARTH_2)
    assert layout.bead_at((upper.centre[0], middle + 1), pose) == (0, Bead.EARTH_3)


def test_off_the_frame_is_no_bead_unless_within_reach():
    layout = Layout.fit((100, 100, 600, 300), 5, 4)
    pose = pose_of(Frame.cleared(5))
    box = layout.frame_box
    outside = (box.x - 10, box.y + box.h + 10)
    assert layout.bead_at(outside, pose) is None
    assert layout.bead_at(outside, pose, reach=12) == (0, Bead.EARTH_4)


def test_on_beam():
    layout = Layout.fit((0, 0, 800, 480), 5, 4)
    beam = layout.beam_box
    assert layout.on_beam(beam.centre)
    assert not layout.on_beam((beam.centre[0], beam.y - 3))
    assert layout.on_beam((beam.centre[0], beam.y - 3), reach=5)


@pytest.mark.parametrize(
    ("rods", "marked"),
    # Every third rod outward from the centre rod: Japanese Wikibooks, 珠算, basics.
    [
        (13, [1, 4, 7, 10, 13]),
        (17, [3, 6, 9, 12, 15]),
        (21, [2, 5, 8, 11, 14, 17, 20]),
        (23, [3, 6, 9, 12, 15, 18, 21]),
        (27, [2, 5, 8, 11, 14, 17, 20, 23, 26]),
    ],
)
def test_unit_marks_of_real_frames(rods, marked):
    assert [index + 1 for index in unit_marks(rods, rods - 1)] == marked


@each_row("every", [3, 4])
@each_row("rods", range(1, 32))
def test_unit_marks_are_even_and_hold_the_unit_rod(rods, every):
    for units in range(rods):
        marks = unit_marks(rods, units, every)
        assert all(b - a == every for a, b in pairwise(marks))
        assert marks[0] < every and marks[-1] + every >= rods
        assert units in marks or (units == rods - 1 and rods >= 13)
    assert unit_marks(rods, usual_units(rods, every), every) == unit_marks(rods, rods - 1, every)


def test_small_frames_are_marked_from_the_rightmost_rod():
    assert unit_marks(5, 4) == (1, 4)
    assert usual_units(5) == 4


@pytest.mark.parametrize(
    "offsets",
    [
        (0.0, 0.5, 0.4, 1.0, 1.0),
        (-0.1, 0.0, 0.0, 0.0, 0.0),
        (1.1, 0.0, 0.0, 0.0, 0.0),
        (0.0, -0.1, 0.0, 0.0, 0.0),
        (0.0, 0.0, 0.0, 0.0, 1.1),
    ],
)
def test_impossible_poses(offsets):
    assert not is_possible(Pose((offsets,)))


@given(st.text("0123456789", min_size=1, max_size=31))
def test_pose_of_a_frame_is_possible_and_tells_the_digits(text):
    pose = pose_of(Frame(text, 0))
    assert is_possible(pose)
    read = [int(5 * rod[0]) + pose.earth_up(i) for i, rod in enumerate(pose.rods)]
    assert read == [int(digit) for digit in text]

"""Gestures: touches become legal bead moves, whatever the fingers do."""

import pytest
from each import each_row
from poses import is_possible

from frame.technique.beads import BeadMove, Frame
from frame.view.geometry import Bead, Layout, pose_of
from frame.view.gestures import Hands, Settles, Strokes, Wipe

EARTH = [Bead.EARTH_1, Bead.EARTH_2, Bead.EARTH_3, Bead.EARTH_4]
LAYOUT = Layout.fit((40, 30, 900, 400), 5, 4)
HEIGHT = LAYOUT.bead_height


def hands_on(digits: str, **more: bool) -> Hands:
    return Hands(LAYOUT, Frame(digits, len(digits) - 1), **more)


def place(hands: Hands, index: int, bead: Bead) -> tuple[float, float]:
    offsets = pose_of(hands.frame).rods[index]
    return hands.layout.bead_box(index, bead, offsets[bead]).centre


def moves(events: list) -> list[str]:
    return [str(move) for event in events for move in event.stroke]


def tap(hands: Hands, index: int, bead: Bead) -> list[str]:
    point = place(hands, index, bead)
    assert hands.press(1, point, 0.0) == []
    return moves(hands.release(1, point, 0.1))


def stroke(hands: Hands, start: tuple[float, float], by: float, seconds: float) -> list:
    """Presses, drags down by so many pixels in ten steps, rests unless quick, and lets go."""
    x, y = start
    hands.press(1, start, 0.0)
    for step in range(1, 11):
        hands.drag(1, (x, y + by * step / 10), seconds * step / 10)
        assert is_possible(hands.pose)
    return hands.release(1, (x, y + by), seconds + 0.001)


@pytest.mark.parametrize("digit", range(10))
def test_a_tap_moves_the_bead_and_its_neighbours_towards_the_gap(digit):
    up = digit % 5
    expected = [f"0:{j + 1 - up:+d}" if j >= up else f"0:{j - up:+d}" for j in range(4)]
    assert [tap(hands_on(f"0000{digit}"), 4, bead) for bead in EARTH] == [[m] for m in expected]
    assert tap(hands_on(f"0000{digit}"), 4, Bead.HEAVEN) == ["0:-5" if digit >= 5 else "0:+5"]


def test_a_move_is_named_by_its_place():
    assert tap(Hands(LAYOUT, Frame("00000", 2)), 0, Bead.EARTH_2) == ["2:+2"]


def test_a_press_is_answered_at_once():
    hands = hands_on("00000")
    hands.press(1, place(hands, 3, Bead.EARTH_3), 0.0)
    assert hands.touched == (3, Bead.EARTH_3)
    hands.cancel()
    assert hands.touched is None


def test_a_tap_may_tremble():
    hands = hands_on("00000")
    x, y = place(hands, 2, Bead.EARTH_1)
    hands.press(1, (x, y), 0.0)
    hands.drag(1, (x + 5, y - 5), 0.05)
    assert moves(hands.release(1, (x + 3, y - 4), 0.1)) == ["2:+1"]


def test_a_dragged_bead_follows_and_pushes_its_neighbours():
    hands = hands_on("00001")
    x, y = place(hands, 4, Bead.EARTH_3)
    hands.press(1, (x, y), 0.0)
    hands.drag(1, (x, y - 0.4 * HEIGHT), 0.5)
    assert hands.pose.rods[4] == pytest.approx((0, 0, 0.6, 0.6, 1))
    assert hands.pose.rods[3] == pose_of(hands.frame).rods[3]


@pytest.mark.parametrize(("part", "expected"), [(0.4, []), (0.6, ["0:+2"]), (3.0, ["0:+2"])])
def test_a_slow_drag_settles_on_the_nearer_side(part, expected):
    hands = hands_on("00000")
    events = stroke(hands, place(hands, 4, Bead.EARTH_2), -part * HEIGHT, 2.0)
    assert len(events) == 1
    assert isinstance(events[0], Strokes if expected else Settles)
    assert moves([e for e in events if isinstance(e, Strokes)]) == expected
    assert events[0].pose.rods[4][1:3] == pytest.approx((max(1 - part, 0),) * 2)


def test_a_flick_goes_over_from_less_than_half_the_way():
    hands = hands_on("00009")
    assert moves(stroke(hands, place(hands, 4, Bead.HEAVEN), -0.4 * HEIGHT, 0.03)) == ["0:-5"]


def test_a_flick_back_takes_back():
    hands = hands_on("00004")
    x, y = place(hands, 4, Bead.EARTH_4)
    hands.press(1, (x, y), 0.0)
    hands.drag(1, (x, y + 0.9 * HEIGHT), 0.5)
    hands.drag(1, (x, y + 0.9 * HEIGHT), 0.6)
    hands.drag(1, (x, y + 0.6 * HEIGHT), 0.61)
    assert isinstance(hands.release(1, (x, y + 0.6 * HEIGHT), 0.615)[0], Settles)


def test_a_bead_cannot_be_dragged_against_its_neighbours():
    hands = hands_on("00000")
    events = stroke(hands, place(hands, 4, Bead.EARTH_2), HEIGHT, 0.1)
    assert [type(event) for event in events] == [Settles]


@pytest.mark.parametrize("heaven_first", [True, False])
def test_a_pinch_is_one_stroke_with_the_earth_beads_first(heaven_first):
    hands = hands_on("00000")
    fingers = [(1, place(hands, 4, Bead.EARTH_2)), (2, place(hands, 4, Bead.HEAVEN))]
    fingers = fingers[::-1] if heaven_first else fingers
    for after, (finger, point) in enumerate(fingers):
        hands.press(finger, point, 0.14 * after)
    assert hands.release(*fingers[0], 0.3) == []
    (event,) = hands.release(*fingers[1], 0.4)
    assert event.stroke == (BeadMove(0, 2), BeadMove(0, 5))


@pytest.mark.parametrize(
    ("index", "bead", "after"),
    [(4, Bead.HEAVEN, 0.16), (3, Bead.HEAVEN, 0.05), (4, Bead.EARTH_4, 0.05)],
    ids=["too late", "another rod", "the same deck"],
)
def test_any_other_second_touch_is_ignored(index, bead, after):
    hands = hands_on("00000")
    first, second = place(hands, 4, Bead.EARTH_2), place(hands, index, bead)
    hands.press(1, first, 0.0)
    hands.press(2, second, after)
    assert hands.release(2, second, 0.3) == []
    assert moves(hands.release(1, first, 0.4)) == ["0:+2"]


def wipe(hands: Hands, start: int, end: float, drop: float = 0.0) -> list:
    x, y = hands.layout.rod_box(start).centre[0], hands.layout.beam_box.centre[1]
    to = hands.layout.x + (end + 0.5) * hands.layout.spacing
    hands.press(1, (x, y), 0.0)
    for step in range(1, 11):
        hands.drag(1, (x + (to - x) * step / 10, y + drop * step / 10), 0.05 * step)
    return hands.release(1, (to, y + drop), 0.6)


def test_a_wipe_along_the_beam_names_the_rods_passed():
    assert wipe(hands_on("12345"), 0, 4) == [Wipe((4, 3, 2, 1, 0))]
    assert wipe(hands_on("12345"), 3, 1) == [Wipe((1, 2, 3))]
    assert wipe(hands_on("12345", blind=True), 0, 2) == [Wipe((4, 3, 2))]


def test_a_wipe_under_way_shows_its_rods_and_no_bead():
    hands = hands_on("12345")
    beam = hands.layout.beam_box.centre[1]
    hands.press(1, (hands.layout.rod_box(1).centre[0], beam), 0.0)
    hands.drag(1, (hands.layout.rod_box(3).centre[0], beam), 0.2)
    assert hands.wiped == (3, 2, 1) and hands.touched is None
    assert hands.pose == pose_of(hands.frame)


def test_no_wipe_when_short_or_away_from_the_beam():
    assert wipe(hands_on("00000"), 0, 1) == []
    assert wipe(hands_on("00000"), 0, 4, drop=6 * HEIGHT) == []


def test_a_wipe_ends_where_the_finger_leaves_the_beam():
    hands = hands_on("12345")
    beam = hands.layout.beam_box.centre[1]
    x = [hands.layout.rod_box(index).centre[0] for index in range(5)]
    hands.press(1, (x[0], beam), 0.0)
    hands.drag(1, (x[2], beam), 0.2)
    hands.drag(1, (x[4], beam + 3 * HEIGHT), 0.3)
    assert hands.release(1, (x[4], beam + 3 * HEIGHT), 0.4) == [Wipe((4, 3, 2))]


def test_a_wipe_under_way_takes_no_second_finger():
    hands = hands_on("00000")
    column, beam = hands.layout.rod_box(1), hands.layout.beam_box.centre[1]
    hands.press(1, (column.centre[0], beam - 1), 0.0)
    hands.drag(1, (hands.layout.rod_box(3).centre[0], beam - 1), 0.05)
    hands.press(2, place(hands, 1, Bead.EARTH_2), 0.1)
    (event,) = hands.release(1, (hands.layout.rod_box(3).centre[0], beam - 1), 0.2)
    assert event == Wipe((3, 2, 1))


def test_a_tap_beside_the_beam_means_the_bead_there():
    hands = hands_on("00009")
    x, y = hands.layout.rod_box(4).centre[0], hands.layout.beam_box.centre[1]
    for point, expected in [((x, y - 1), "0:-5"), ((x, y + 1), "0:-4")]:
        hands.press(1, point, 0.0)
        assert moves(hands.release(1, point, 0.1)) == [expected]


@each_row("beads", [1, 2, 3, 4])
@each_row("way", [1, -1])
@each_row("digit", "0379")
def test_unseen_earth_beads_are_told_by_length_and_direction(beads, way, digit):
    hands = hands_on(f"0000{digit}", blind=True)
    box = hands.layout.inner_box
    start = (hands.layout.rod_box(4).centre[0], box.y + box.h - (4.9 if way > 0 else 0.1) * HEIGHT)
    for seconds in (0.05, 2.0):
        events = stroke(hands, start, way * (beads + 0.3) * HEIGHT, seconds)
        assert moves(events) == [f"0:{-way * beads:+d}"]


def test_unseen_strokes_are_never_more_than_four_beads():
    hands = hands_on("00000", blind=True)
    assert moves(stroke(hands, place(hands, 4, Bead.EARTH_4), -9 * HEIGHT, 1)) == ["0:+4"]


def test_the_unseen_heaven_bead_goes_the_way_of_the_stroke():
    for digit in "05":
        hands = hands_on(f"0000{digit}", blind=True)
        middle = place(hands, 4, Bead.HEAVEN)
        assert moves(stroke(hands, middle, HEIGHT / 2, 1)) == ["0:+5"]
        assert moves(stroke(hands, middle, -HEIGHT / 2, 1)) == ["0:-5"]


def test_an_unseen_tap_is_as_on_a_seen_frame_and_no_bead_shows():
    assert tap(hands_on("00007", blind=True), 4, Bead.HEAVEN) == ["0:-5"]
    assert tap(hands_on("00007", blind=True), 4, Bead.EARTH_3) == ["0:+1"]
    hands = hands_on("00000", blind=True)
    x, y = place(hands, 4, Bead.EARTH_1)
    hands.press(1, (x, y), 0.0)
    hands.drag(1, (x, y - HEIGHT / 2), 0.1)
    assert hands.pose == pose_of(hands.frame)


def test_another_frame_or_layout_cancels_what_is_under_way():
    hands = hands_on("00000")
    hands.press(1, place(hands, 4, Bead.EARTH_1), 0.0)
    hands.frame = Frame("00001", 4)
    assert hands.release(1, (0, 0), 0.1) == []
    hands.press(1, place(hands, 4, Bead.EARTH_1), 0.0)
    hands.layout = Layout.fit((0, 0, 800, 480), 5, 4)
    assert hands.touched is None


def test_a_touch_off_the_frame_is_nothing():
    hands = hands_on("00000")
    hands.press(1, (0, 0), 0.0)
    assert hands.touched is None and hands.release(1, (0, 0), 0.1) == []

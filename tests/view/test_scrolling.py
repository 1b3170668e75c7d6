"""A frame of more rods than fit: its window, its two mappings, and the finger that moves it."""

from hypothesis import given
from hypothesis import strategies as st

from frame.view.geometry import Layout
from frame.view.scrolling import Panning, bar_box, fitted, revealing, thumb_box

LEAST = 44
WIDTHS, RODS = st.integers(320, 1600), st.integers(1, 35)


def wide(width: int, rods: int) -> Layout:
    return fitted((0, 0, width, 400), rods, rods - 1, rods > 17, LEAST)


@given(WIDTHS, RODS)
def test_a_frame_is_whole_or_its_rods_can_be_touched(width: int, rods: int) -> None:
    layout = wide(width, rods)
    box = layout.frame_box
    assert box.x >= 0
    assert box.x + box.w <= width
    if layout.window:
        assert layout.spacing >= LEAST
        assert layout.window < rods * layout.spacing


@given(WIDTHS, RODS, st.integers(0, 34))
def test_the_rod_to_work_comes_in_sight_whole(width: int, rods: int, at: int) -> None:
    index = at % rods
    layout = revealing(wide(width, rods), index)
    if layout.window:
        x, _, w, _ = layout.rod_box(index)
        inner = layout.frame_box
        assert inner.x <= x
        assert x + w <= inner.x + inner.w


@given(WIDTHS, RODS, st.integers(0, 34), st.floats(0, 35), st.floats(0, 4))
def test_a_place_stays_so_many_rods_from_the_corner(
    width: int, rods: int, at: int, x: float, y: float
) -> None:
    layout = revealing(wide(width, rods), at % rods)
    back = layout.to_frame((layout.x + x * layout.spacing, layout.y + y * layout.spacing))
    assert abs(back[0] - x) < 1e-6
    assert abs(back[1] - y) < 1e-6


@given(WIDTHS, st.just(35), st.integers(-3000, 3000))
def test_a_finger_on_the_bar_moves_the_window_within_the_frame(
    width: int, rods: int, way: int
) -> None:
    layout = wide(width, rods)
    if not layout.window:
        return
    bar, hand = bar_box(layout), Panning()
    start = (bar.x + 1, bar.y + 1)
    assert hand.press(1, start, layout)
    assert hand.drag(2, start, layout) is None
    there = hand.release(1, (start[0] + way, start[1]), layout)
    assert there is not None
    assert 0 <= there.scroll <= there.rods * there.spacing - there.window
    thumb = thumb_box(there)
    assert bar.x - 1 <= thumb.x
    assert thumb.x + thumb.w <= bar.x + bar.w + 1
    assert hand.drag(1, start, layout) is None

"""Names of places beneath the rods: from the ones outwards, as many as there is room for."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.language.numbers import place_figures
from frame.view.place_names import place_names

THIN = "\u202f"


@pytest.mark.parametrize(
    ("rod", "name"),
    [
        (0, "1"), (1, "10"), (3, f"1{THIN}000"), (4, f"10{THIN}000"), (6, f"1{THIN}000{THIN}000"),
        (-1, "0.1"), (-3, "0.001"),
    ],
)  # fmt: skip
def test_the_name_of_a_place(rod: int, name: str) -> None:
    assert place_figures(rod) == name


@pytest.mark.parametrize(
    ("room", "named"),
    [(0, []), (1, [0]), (3, [-1, 0, 1, 2]), (5, [-3, -2, -1, 0, 1, 2, 3]),
     (6, [-3, -2, -1, 0, 1, 2, 3, 4]), (99, list(range(-3, 10)))],
)  # fmt: skip
def test_names_beyond_a_thousand_stand_where_there_is_room(room: int, named: list[int]) -> None:
    """A sign is a unit wide here."""
    assert sorted(place_names(range(9, -4, -1), room, len)) == named


@given(st.integers(-20, 0), st.integers(0, 34), st.floats(0, 60))
def test_names_are_a_row_without_gaps_none_too_wide(lowest: int, highest: int, room: float) -> None:
    rods = range(highest, lowest - 1, -1)
    names = place_names(rods, room, len)
    assert all(len(name) <= room and place_figures(rod) == name for rod, name in names.items())
    for beyond in (max(names, default=-1) + 1, min(names, default=0) - 1):
        assert beyond not in rods or len(place_figures(beyond)) > room or not names
    assert not names or sorted(names) == list(range(min(names), max(names) + 1))


def test_a_frame_without_ones_has_no_names_above_them() -> None:
    assert place_names([3, 2], 99, len) == {}

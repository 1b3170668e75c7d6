"""Where the marks lie and what room there is: by marks of three or four rods, and refused with the
number of rods."""

from decimal import Decimal

import pytest

from frame.technique.addition import plan_set
from frame.technique.beads import MOST_RODS, Frame
from frame.technique.conventions import Conventions, First
from frame.technique.expression import parse_calculation
from frame.technique.places import frame_for, room_around, unit_marks, usual_units
from frame.technique.planning import plan_of
from frame.technique.reading import NumberError, RodsError

MARKS = [
    (12, 3, (2, 5, 8, 11)),
    (12, 4, (3, 7, 11)),
    (13, 3, (0, 3, 6, 9, 12)),
    (13, 4, (2, 6, 10)),
    (15, 3, (1, 4, 7, 10, 13)),
    (15, 4, (3, 7, 11)),
]
"""Rods, a mark every so many, the indices marked: outward from the middle rod on 13 and more, from
the last one on fewer. Worked out by hand."""


@pytest.mark.parametrize(("rods", "every", "marked"), MARKS)
def test_marks_and_the_unit_rod_which_is_the_last_of_them(
    rods: int, every: int, marked: tuple[int, ...]
) -> None:
    assert unit_marks(rods, rods - 1, every) == marked
    assert usual_units(rods, every) == marked[-1]


NEEDED = [
    ("6 + 95", First.HIGHEST, 3),  # 101
    ("7.25", First.HIGHEST, 3),
    ("37 x 4", First.HIGHEST, 7),  # 4, two clear rods, 37 and two rods for its last product
    ("37 x 4", First.LOWEST, 6),  # a digit lies where the first digit of its last product goes
    ("0.5 x 0.5", First.HIGHEST, 6),  # 5, two clear rods, 5 on the ones, 25 behind the point
    ("0.5 x 0.5", First.LOWEST, 6),  # 5, two clear rods, the empty ones, 25 in the place of the 5
    ("84 / 4", First.HIGHEST, 7),  # 4, four clear rods, two of them for the quotient, 84
]
"""A calculation, with which digit its products begin, the rods that it needs. Worked out by hand
from the layouts in the planners' docstrings."""


@pytest.mark.parametrize(("text", "first", "needed"), NEEDED)
def test_work_has_room_on_as_many_rods_as_it_needs_and_on_no_fewer(
    text: str, first: First, needed: int
) -> None:
    work, conventions = parse_calculation(text), Conventions(first=first)
    assert len(plan_of(work, conventions, rods=needed).start.digits) == needed
    with pytest.raises(RodsError) as caught:
        plan_of(work, conventions, rods=needed - 1)
    assert (caught.value.needed, caught.value.most) == (needed, needed - 1)


@pytest.mark.parametrize(
    ("left", "right", "rods", "most"), [(3, 2, 5, 5), (0, 5, 5, 5), (20, 15, None, MOST_RODS)]
)
def test_room_that_there_is_not_tells_how_much_is_needed(
    left: int, right: int, rods: int | None, most: int
) -> None:
    with pytest.raises(RodsError) as caught:
        room_around(left, right, rods, 13)
    assert (caught.value.needed, caught.value.most) == (left + 1 + right, most)


@pytest.mark.parametrize(
    ("number", "rods", "needed"), [("123", 2, 3), ("12.5", 2, 3), ("0.5", 1, 2), ("0.025", 3, 4)]
)
def test_a_number_too_wide_for_a_frame_tells_how_many_rods_it_needs(
    number: str, rods: int, needed: int
) -> None:
    assert len(frame_for(Decimal(number), needed).digits) == needed
    with pytest.raises(RodsError) as caught:
        frame_for(Decimal(number), rods)
    assert (caught.value.needed, caught.value.most) == (needed, rods)


@pytest.mark.parametrize("number", ["100", "0.5", "-3"])
def test_a_number_that_can_not_be_set_is_named(number: str) -> None:
    with pytest.raises(NumberError, match=f"^{number} does not fit the frame$"):
        plan_set(Frame("07", 1), Decimal(number))

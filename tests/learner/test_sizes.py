"""How large an exercise is, told from itself and from the text that is kept of it."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.learner.sizes import Extent, size_of, size_of_text
from frame.technique.expression import Sum

NUMBERS = st.decimals(-(10**9), 10**9, places=2).map(lambda one: one.normalize() + Decimal(0))


@pytest.mark.parametrize(
    ("text", "size"),
    [
        ("0", Extent(1, 1)), ("7", Extent(1, 1)), ("-7", Extent(1, 1)), ("1,000 + 2", Extent(4, 2)),
        ("5 - (2 + 3)", Extent(1, 3)), ("0.5 + 0.25", Extent(2, 2)), ("12.5 + 1", Extent(3, 2)),
        ("37 x 432", Extent(3, 0)), ("3588 / 46", Extent(4, 0)), ("sqrt 234256", Extent(6, 0)),
        ("-4 x (-12)", Extent(2, 0)),
    ],
)  # fmt: skip
def test_digits_of_the_longest_number_and_numbers_of_a_column(text, size):
    assert size_of_text(text) == size


@pytest.mark.parametrize("text", ["", "harbour", "4 +", "3 / 0", "sqrt -4", "1 + " * 9000, "(" * 9])
def test_what_is_no_exercise_has_no_size(text):
    assert size_of_text(text) == Extent(0, 0)


@given(st.lists(NUMBERS, min_size=1, max_size=6))
def test_the_kept_text_tells_the_same(terms):
    exercise = Sum(tuple(terms))
    assert size_of_text(str(exercise)) == size_of(exercise)
    assert size_of(exercise).terms == len(terms)

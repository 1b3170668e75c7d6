"""Numbers as a sheet has them."""

from decimal import Decimal

import pytest

from frame.language.numbers import grouped
from frame.printing.figures import Figures, figures
from frame.technique.reading import plain


@pytest.mark.parametrize(
    ("number", "text"),
    (
        ("0", "0"),
        ("999", "999"),
        ("1000", "1\u202f000"),
        ("-12345.5", "−12\u202f345.5"),
        ("0.25", "0.25"),
        ("-0.5", "−0.5"),
        ("98765432101234", "98\u202f765\u202f432\u202f101\u202f234"),
        ("1E+30", "\u202f".join(["1", *["000"] * 10])),
    ),
)
def test_a_number_is_written_as_in_the_window(number: str, text: str) -> None:
    assert figures(Decimal(number)).text == text == grouped(plain(Decimal(number)))


def test_the_second_number_of_a_calculation_is_in_brackets_below_zero() -> None:
    assert figures(Decimal("-1.5"), is_second=True) == Figures("(−1", ".5)")
    assert figures(Decimal("1.5"), is_second=True) == Figures("1", ".5")


def test_a_root_has_its_sign_before_it() -> None:
    assert figures(Decimal(1764), "√").text == "√1\u202f764"

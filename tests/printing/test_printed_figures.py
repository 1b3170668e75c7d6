"""Numbers as a sheet has them."""

from decimal import Decimal

import pytest

from frame.printing.figures import Figures, figures, with_commas


@pytest.mark.parametrize(
    ("number", "text"),
    (
        ("0", "0"),
        ("999", "999"),
        ("1000", "1,000"),
        ("-12345.5", "−12,345.5"),
        ("0.25", "0.25"),
        ("-0.5", "−0.5"),
        ("98765432101234", "98,765,432,101,234"),
        ("1E+30", "1," + ",".join(["000"] * 10)),
    ),
)
def test_a_number_has_commas_and_a_true_minus(number: str, text: str) -> None:
    assert figures(Decimal(number)).text == text


def test_the_second_number_of_a_calculation_is_in_brackets_below_zero() -> None:
    assert figures(Decimal("-1.5"), is_second=True) == Figures("(−1", ".5)")
    assert figures(Decimal("1.5"), is_second=True) == Figures("1", ".5")


def test_a_root_has_its_sign_before_it() -> None:
    assert figures(Decimal(1764), "√").text == "√1,764"


def test_words_group_as_the_sheet_does() -> None:
    assert with_commas("set 12\u202f345") == "set 12,345"

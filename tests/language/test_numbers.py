"""Numbers and rods in English words."""

import re
from decimal import Decimal
from pathlib import Path

import pytest
from each import each_row
from hypothesis import given, settings
from hypothesis import strategies as st
from shipped import the_words

from frame.language.numbers import number_words, rod_name
from frame.technique.beads import MOST_RODS

WORDS = the_words()
TABLE = Path(__file__).parent.parent / "truth" / "spelled.txt"
SPELLED_ELSEWHERE = [
    line.split("  ", 1) for line in TABLE.read_text("utf-8").splitlines() if line[:1].isdigit()
]

# From memory: English number names, short scale, without "and".
SPELLED = [
    ("0", "zero"),
    ("7", "seven"),
    ("10", "ten"),
    ("13", "thirteen"),
    ("19", "nineteen"),
    ("20", "twenty"),
    ("21", "twenty-one"),
    ("40", "forty"),
    ("99", "ninety-nine"),
    ("100", "one hundred"),
    ("105", "one hundred five"),
    ("999", "nine hundred ninety-nine"),
    ("1000", "one thousand"),
    ("1001", "one thousand one"),
    ("20305", "twenty thousand three hundred five"),
    ("1000000", "one million"),
    ("1000010", "one million ten"),
    ("50.2", "fifty point two"),
    ("0.05", "zero point zero five"),
    ("-5", "minus five"),
    ("-38.25", "minus thirty-eight point two five"),
    (
        "548957648776",
        "five hundred forty-eight billion nine hundred fifty-seven million "
        "six hundred forty-eight thousand seven hundred seventy-six",
    ),
    ("1" + "0" * 32, "one hundred nonillion"),
    ("1" + "0" * 34, "ten decillion"),
]


@each_row(("number", "spelled"), SPELLED)
def test_a_number_is_spelled(number: str, spelled: str) -> None:
    assert number_words(Decimal(number), WORDS) == spelled


@each_row(("number", "spelled"), SPELLED_ELSEWHERE)
def test_a_whole_number_is_spelled_as_elsewhere(number: str, spelled: str) -> None:
    assert number_words(int(number), WORDS) == spelled


def test_the_largest_number_has_a_name_and_the_next_has_none() -> None:
    assert number_words(10**36 - 1, WORDS).startswith("nine hundred ninety-nine decillion")
    with pytest.raises(ValueError, match="has no name"):
        number_words(10**36, WORDS)


def value_of(spelled: str) -> Decimal:
    """The number a name means, worked out from the words, to check the way back."""
    names = {name: value for value, name in enumerate(WORDS.listed("number.small"))}
    names |= {name: 10 * at for at, name in enumerate(WORDS.listed("number.tens")) if name}
    scales = {name: 1000**at for at, name in enumerate(WORDS.listed("number.scales")) if name}
    whole, _, decimals = spelled.removeprefix("minus ").partition(" point ")
    total = group = 0
    for word in re.split("[ -]", whole):
        if word in scales:
            total, group = total + group * scales[word], 0
        elif word == "hundred":
            group *= 100
        else:
            group += names[word]
    digits = "".join(str(names[word]) for word in decimals.split())
    sign = "-" if spelled.startswith("minus ") else ""
    return Decimal(f"{sign}{total + group}.{digits or 0}")


@settings(max_examples=200)
@given(st.integers(0, 10**36 - 1), st.integers(0, 999), st.sampled_from([1, -1]))
def test_the_words_mean_the_number(whole: int, decimals: int, sign: int) -> None:
    number = Decimal(f"{'-' if sign < 0 else ''}{whole}.{decimals:03}")
    if number:
        assert value_of(number_words(number, WORDS)) == number


# From memory: the English names of decimal places.
PLACES = [
    (0, "ones"), (1, "tens"), (2, "hundreds"), (3, "thousands"), (4, "ten thousands"),
    (5, "hundred thousands"), (6, "millions"), (13, "ten trillions"), (30, "nonillions"),
    (34, "ten decillions"),
    (-1, "tenths"), (-2, "hundredths"), (-3, "thousandths"), (-4, "ten thousandths"),
    (-5, "hundred thousandths"), (-6, "millionths"), (-30, "nonillionths"),
    (-34, "ten decillionths"),
]  # fmt: skip


@each_row(("rod", "name"), PLACES)
def test_a_rod_is_named_for_its_place(rod: int, name: str) -> None:
    assert rod_name(rod, WORDS) == name


def test_no_two_rods_share_a_name() -> None:
    names = [rod_name(rod, WORDS) for rod in range(-MOST_RODS, MOST_RODS + 1)]
    assert len(set(names)) == len(names)

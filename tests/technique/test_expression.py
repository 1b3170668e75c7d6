"""Calculations as people write them: what is read, what is refused and where, what they come to."""

from decimal import ROUND_DOWN, ROUND_HALF_UP, Context, Decimal, localcontext
from fractions import Fraction
from math import isqrt
from random import Random

import pytest
from each import each_row
from hypothesis import given
from hypothesis import strategies as st

from frame.technique.expression import (
    MOST_CHARACTERS,
    Calculation,
    Expected,
    ExpressionError,
    Product,
    Quotient,
    Root,
    Sum,
    UndefinedError,
    parse_calculation,
    parse_sum,
)
from frame.technique.reading import NumberError

# Wide enough that quotients and roots of 35 digits are told from a half by their digits.
WIDE = Context(prec=250)
DIGITS = 35

whole = st.integers(-(10**DIGITS) + 1, 10**DIGITS - 1).map(Decimal)
shifted = st.tuples(whole, st.integers(0, DIGITS)).map(lambda pair: pair[0].scaleb(-pair[1], WIDE))
numbers = whole | shifted | st.integers(-99, 99).map(Decimal)
calculations = st.one_of(
    st.lists(numbers, min_size=1, max_size=6).map(lambda terms: Sum(tuple(terms))),
    st.builds(Product, numbers, numbers),
    st.builds(Quotient, numbers, numbers.filter(bool)),
    st.builds(Root, numbers.map(abs)),
)


def terms(*numbers: int | str) -> Sum:
    return Sum(tuple(map(Decimal, numbers)))


def product(one: int | str, other: int | str) -> Product:
    return Product(Decimal(one), Decimal(other))


def quotient(one: int | str, other: int | str) -> Quotient:
    return Quotient(Decimal(one), Decimal(other))


def root(number: int | str) -> Root:
    return Root(Decimal(number))


@given(calculations)
def test_a_calculation_and_its_text(calculation: Calculation) -> None:
    text = str(calculation)
    assert text.isascii()
    assert parse_calculation(text) == calculation
    assert str(parse_calculation(text)) == text


@given(calculations, st.sampled_from(["", " ", "  ", "\t", "\u00a0"]))
def test_spaces_unicode_signs_and_a_last_equals_change_nothing(
    calculation: Calculation, space: str
) -> None:
    text = str(calculation).replace(" ", space)
    written = text.replace("-", "−").replace("/", "÷").replace("x", "×").replace("sqrt", "√")
    for other in (text, written, f"{space}{text}{space}={space}", f"({text})"):
        assert parse_calculation(other) == calculation


@pytest.mark.parametrize(
    ("calculation", "text"),
    [
        (terms(38, -5), "38 - 5"),
        (terms(-5, 8), "-5 + 8"),
        (product(37, 432), "37 x 432"),
        (product(3, -4), "3 x (-4)"),
        (product(-3, 4), "-3 x 4"),
        (quotient(3588, 46), "3588 / 46"),
        (quotient("-8.90", "-0.5"), "-8.9 / (-0.5)"),
        (root(1764), "sqrt 1764"),
    ],
)
def test_how_a_calculation_is_written(calculation: Calculation, text: str) -> None:
    assert str(calculation) == text


@each_row(
    ("text", "calculation"),
    [
        ("38 + 47 - 5", terms(38, 47, -5)),
        ("38 + 47 =", terms(38, 47)),
        ("7", terms(7)),
        ("+7", terms(7)),
        (".5 + 007", terms("0.5", 7)),
        ("85 - (20 + 5)", terms(85, -20, -5)),
        ("85 - (20 - (5 - 2))", terms(85, -20, 5, -2)),
        ("(-5) + 8", terms(-5, 8)),
        ("3 + (-4)", terms(3, -4)),
        ("3 - (−4)", terms(3, 4)),
        ("-(3 + 4)", terms(-3, -4)),
        ("-(-(-4)) + 1", terms(-4, 1)),
        ("((38)) + ((47 - 5))", terms(38, 47, -5)),
        ("37 x 432", product(37, 432)),
        ("37X432", product(37, 432)),
        ("37*432", product(37, 432)),
        ("37 × 432", product(37, 432)),
        ("37·432", product(37, 432)),
        ("37⋅432 =", product(37, 432)),
        ("3 x (-4)", product(3, -4)),
        ("-3 x 4", product(-3, 4)),
        ("(-3) x 4", product(-3, 4)),
        ("-(3) x 4", product(-3, 4)),
        ("(37) x ((432))", product(37, 432)),
        ("(37 x 432)", product(37, 432)),
        ("-(3 x (-4))", product(-3, -4)),
        ("0 x 0", product(0, 0)),
        ("3588/46", quotient(3588, 46)),
        ("3588 ÷ 46", quotient(3588, 46)),
        ("3588 : 46", quotient(3588, 46)),
        ("-7 / (-2)", quotient(-7, -2)),
        ("0 / 5", quotient(0, 5)),
        ("sqrt 1764", root(1764)),
        ("SQRT1764", root(1764)),
        ("sqrt(1764)", root(1764)),
        ("√1764", root(1764)),
        ("(√(1764)) =", root(1764)),
        ("√-(-4)", root(4)),
        ("sqrt 0", root(0)),
        ("1,234,567.5", terms("1234567.5")),
        ("1'234'567 + 1’000", terms(1234567, 1000)),
        ("12\u202f345 x 6\u00a0789", product(12345, 6789)),
        ("1\u2009000 / 8", quotient(1000, 8)),
        ("3\u00a0+\u00a04", terms(3, 4)),
    ],
)
def test_texts_and_what_is_read(text: str, calculation: Calculation) -> None:
    assert parse_calculation(text) == calculation


ONE = Expected.ONE_AT_A_TIME


@each_row(
    ("text", "column", "found", "expected"),
    [
        ("", 1, "", Expected.NUMBER),
        ("  ", 3, "", Expected.NUMBER),
        ("3 +", 4, "", Expected.NUMBER),
        ("3 x", 4, "", Expected.NUMBER),
        ("sqrt", 5, "", Expected.NUMBER),
        ("=", 1, "=", Expected.NUMBER),
        ("3 + =", 5, "=", Expected.NUMBER),
        ("3 + abc", 5, "abc", Expected.NUMBER),
        ("()", 2, ")", Expected.NUMBER),
        ("x 4", 1, "x", Expected.NUMBER),
        ("3 ** 4", 4, "*", Expected.NUMBER),
        ("1.2.3", 1, "1.2.3", Expected.NUMBER),
        ("3 + 1.", 5, "1.", Expected.NUMBER),
        ("٣ + ٤", 1, "٣", Expected.NUMBER),
        ("３ + 4", 1, "３", Expected.NUMBER),
        ("3 + \ud800", 5, "\ud800", Expected.NUMBER),
        ("12,34", 1, "12,34", Expected.GROUPED),
        ("1 + 1234,567", 5, "1234,567", Expected.GROUPED),
        ("1,234'567", 1, "1,234'567", Expected.GROUPED),
        ("1,,234", 1, "1,,234", Expected.GROUPED),
        ("1,234,", 1, "1,234,", Expected.GROUPED),
        ("1.234,567", 1, "1.234,567", Expected.GROUPED),
        ("1\u00a023", 1, "1\u00a023", Expected.GROUPED),
        ("1,234.5.6", 1, "1,234.5.6", Expected.NUMBER),
        ("--3", 2, "-", Expected.BRACKETED),
        ("3 + + 4", 5, "+", Expected.BRACKETED),
        ("3 x -4", 5, "-", Expected.BRACKETED),
        ("3 / −(4)", 5, "−", Expected.BRACKETED),
        ("3 4", 3, "4", Expected.OPERATION),
        ("1e5", 2, "e", Expected.OPERATION),
        ("1 234", 3, "234", Expected.OPERATION),
        ("3²", 2, "²", Expected.OPERATION),
        ("(3)(4)", 4, "(", Expected.OPERATION),
        ("3)", 2, ")", Expected.OPERATION),
        ("3 + 4 5", 7, "5", Expected.SIGN),
        ("3 + 4)", 6, ")", Expected.SIGN),
        ("3 + 4 x 5", 7, "x", ONE),
        ("3 x 4 + 5", 7, "+", ONE),
        ("3 x 4 x 5", 7, "x", ONE),
        ("3 / 4 * 5", 7, "*", ONE),
        ("2 x (3 + 4)", 8, "+", ONE),
        ("(3 + 4) x 2", 9, "x", ONE),
        ("5 - (3 x 4)", 8, "x", ONE),
        ("3 + sqrt 4", 5, "sqrt", ONE),
        ("2 x √4", 5, "√", ONE),
        ("-√4", 2, "√", ONE),
        ("-(+√4)", 4, "√", ONE),
        ("(-√4)", 3, "√", ONE),
        ("sqrt 4 + 3", 8, "+", ONE),
        ("sqrt(4) x 3", 9, "x", ONE),
        ("sqrt(9 - 5)", 8, "-", ONE),
        ("√√16", 2, "√", ONE),
        ("2 √4", 3, "√", ONE),
        ("(3", 3, "", Expected.CLOSING),
        ("3 + ((4)", 9, "", Expected.CLOSING),
        ("(3 + 4 =", 8, "=", Expected.CLOSING),
        ("sqrt(4 5", 8, "5", Expected.CLOSING),
        ("3 x 4 5", 7, "5", Expected.END),
        ("3 x 4)", 6, ")", Expected.END),
        ("38 + 47 = 85", 11, "85", Expected.END),
        ("3 = =", 5, "=", Expected.END),
        ("5 / 0", 5, "0", Expected.NOT_ZERO),
        ("5 ÷ (0.00) =", 6, "0.00", Expected.NOT_ZERO),
        ("5 / (-0)", 6, "-0", Expected.NOT_ZERO),
        ("sqrt -4", 6, "-4", Expected.NOT_NEGATIVE),
        ("√(-1,764)", 3, "-1,764", Expected.NOT_NEGATIVE),
        ("√(-(4))", 3, "-(4", Expected.NOT_NEGATIVE),
    ],
)
def test_texts_that_are_refused(text: str, column: int, found: str, expected: Expected) -> None:
    with pytest.raises(ExpressionError) as caught:
        parse_calculation(text)
    error = caught.value
    assert (error.where, error.found, error.expected) == (column, found, expected)


@pytest.mark.parametrize(
    ("text", "column"), [("3 x 4", 3), ("3588 / 46 =", 6), ("√4", 1), ("(2) : 4", 5)]
)
def test_a_sum_alone_refuses_the_others(text: str, column: int) -> None:
    with pytest.raises(ExpressionError) as caught:
        parse_sum(text)
    assert (caught.value.where, caught.value.expected) == (column, Expected.SIGN)


@given(st.text("0123456789.,' +-−x×/:()=√sqrt\u00a0٣a", max_size=30))
def test_any_text_is_read_or_refused_at_a_place_in_it(text: str) -> None:
    try:
        calculation = parse_calculation(text)
    except ExpressionError as error:
        assert 1 <= error.where <= len(text) + 1
        assert text.startswith(error.found, error.where - 1)
        assert bool(error.found) == (error.where <= len(text))
    else:
        assert parse_calculation(str(calculation)) == calculation


MANY = MOST_CHARACTERS


@each_row(
    ("text", "column", "expected"),
    [
        ("(" * MANY, MANY + 1, Expected.NUMBER),
        ("(" * (MANY - 1) + "5", MANY + 1, Expected.CLOSING),
        (")" * MANY, 1, Expected.NUMBER),
        ("5" + ")" * (MANY - 1), 2, Expected.OPERATION),
        ("-(" * (MANY // 2), MANY + 1, Expected.NUMBER),
        ("√(" * (MANY // 2), 3, ONE),
        ("5" + " " * (MANY - 1), None, None),
        ("1" + "\u00a0" * (MANY - 2) + "x", MANY + 1, Expected.NUMBER),
        ("1," * (MANY // 2), 1, Expected.GROUPED),
        ("1" * (MANY - 1) + ",", 1, Expected.GROUPED),
        ("." * MANY, 1, Expected.NUMBER),
        ("x" * MANY, 1, Expected.NUMBER),
        ("1 " * (MANY // 2), 3, Expected.OPERATION),
        ("1" * (MANY + 1), 1, Expected.SHORTER),
    ],
)
def test_hostile_texts_are_refused_too(
    text: str, column: int | None, expected: Expected | None
) -> None:
    try:
        parse_calculation(text)
    except ExpressionError as error:
        assert (error.where, error.expected) == (column, expected)
    else:
        assert expected is None


@pytest.mark.parametrize("minus", ["", "-"])
def test_brackets_however_deep(minus: str) -> None:
    deep = 6000
    text = f"{minus}(" * deep + "3 + 4" + ")" * deep
    assert parse_calculation(text) == terms(3, 4)


def some_number(random: Random) -> Decimal:
    """A number of 1 to 35 digits, often short, with a point in it or not, below zero or not."""
    digits = random.choice([1, 2, 3, 5, random.randint(1, DIGITS)])
    places = random.choice([0, 0, 0, 1, random.randint(0, digits)])
    return Decimal(random.randrange(-(10**digits) + 1, 10**digits)).scaleb(-places, WIDE)


def test_sums_and_products_lose_no_digit() -> None:
    random = Random(4)
    for _ in range(2000):
        one, other = some_number(random), some_number(random)
        column = Sum((one, other, one.copy_negate(), one))
        assert Fraction(column.result) == Fraction(one) + Fraction(other)
        assert Fraction(Product(one, other).result) == Fraction(one) * Fraction(other)
        assert column.remainder is Product(one, other).remainder is None
        assert column.numbers == (one, other, one.copy_negate(), one)
        assert Product(one, other).numbers == (one, other)


def parts_of_ten(value: Fraction) -> int | None:
    """How many decimals a number has, from the twos and fives of its denominator; or None."""
    rest, counts = value.denominator, {2: 0, 5: 0}
    for prime in counts:
        while rest % prime == 0:
            rest //= prime
            counts[prime] += 1
    return max(counts.values()) if rest == 1 else None


def test_quotients_are_whole_with_a_remainder_or_exact() -> None:
    random = Random(5)
    exact = 0
    for _ in range(4000):
        dividend, divisor = some_number(random), some_number(random)
        if not divisor:
            continue
        worked = Quotient(dividend, divisor)
        value = Fraction(dividend) / Fraction(divisor)
        count = parts_of_ten(value)
        are_whole = dividend == int(dividend) and divisor == int(divisor)
        if not are_whole and count is not None and count <= 30:
            exact += 1
            assert (Fraction(worked.result), worked.remainder) == (value, 0)
        else:
            with localcontext(WIDE):  # Decimal's // cuts towards zero; its % is signed as it.
                assert (worked.result, worked.remainder) == divmod(dividend, divisor)
        assert str(worked.result) != "-0" and str(worked.remainder) != "-0"
    assert exact > 300


@pytest.mark.parametrize("places", [0, 1, 2, 5, 30])
def test_quotients_products_and_roots_are_rounded_half_up(places: int) -> None:
    random = Random(places)
    step = Decimal(1).scaleb(-places, WIDE)
    for _ in range(400):
        one, other = some_number(random), some_number(random) or Decimal(8)
        multiplied, divided = Product(one, other, places), Quotient(one, other, places)
        rooted = Root(abs(one), places)
        for worked, exact in (
            (multiplied, WIDE.multiply(one, other)),
            (divided, WIDE.divide(one, other)),
            (rooted, WIDE.sqrt(abs(one))),
        ):
            rounded = exact.quantize(step, ROUND_HALF_UP, WIDE)
            assert worked.result == rounded
            if worked is not multiplied:
                assert worked.remainder == (0 if rounded == exact else None)


def test_halves_are_rounded_away_from_zero() -> None:
    for half in range(-99, 100):
        cut = Decimal(half).scaleb(-1).quantize(Decimal(1), ROUND_HALF_UP)
        assert Quotient(Decimal(half), Decimal(10), 0).result == cut
        assert Product(Decimal(half), Decimal("0.1"), 0).result == cut
        square = Decimal(half) * Decimal(half)
        assert Root(square.scaleb(-2), 0).result == abs(cut)


def test_roots_of_whole_numbers_are_whole_with_a_remainder() -> None:
    random = Random(6)
    for _ in range(2000):
        number = abs(int(some_number(random)))
        square = number * number
        for radicand in (number, square, square + 1, max(square - 1, 0)):
            worked = Root(Decimal(radicand))
            whole = isqrt(radicand)
            assert (worked.result, worked.remainder) == (whole, radicand - whole * whole)


def test_roots_of_numbers_with_decimals_have_half_as_many_and_what_is_left() -> None:
    """A number with up to 2k decimals has a root of k; where there is an exact one it is that."""
    random = Random(7)
    for _ in range(2000):
        number = abs(some_number(random))
        square = WIDE.multiply(number, number)
        if -int(WIDE.normalize(number).as_tuple().exponent) <= 30:
            assert (Root(square).result, Root(square).remainder) == (number, 0)
        other = WIDE.add(square, Decimal("0.001"))
        worked = Root(other)
        exact = WIDE.sqrt(other)
        if WIDE.multiply(exact, exact) != other:
            half = -(int(other.normalize(WIDE).as_tuple().exponent) // 2)
            assert worked.result == exact.quantize(Decimal(1).scaleb(-half), ROUND_DOWN, WIDE)
            with localcontext(WIDE):
                assert worked.remainder == other - worked.result**2


@each_row(
    ("worked", "result", "remainder"),
    [
        (quotient(3588, 46), "78", "0"),
        (quotient(7, 2), "3", "1"),
        (quotient(-7, 2), "-3", "-1"),
        (quotient(7, -2), "-3", "1"),
        (quotient(-7, -2), "3", "-1"),
        (quotient(-1, 2), "0", "-1"),
        (quotient("7.5", 2), "3.75", "0"),
        (quotient("7.0", 2), "3", "1"),
        (quotient("0.1", 3), "0", "0.1"),
        (quotient(1, "0.3"), "3", "0.1"),
        (Quotient(Decimal(2), Decimal(3), 2), "0.67", None),
        (Quotient(Decimal(-1), Decimal(8), 2), "-0.13", None),
        (Quotient(Decimal(1), Decimal(8), 3), "0.125", "0"),
        (Quotient(Decimal(-1), Decimal(300), 2), "0", None),
        (root(1764), "42", "0"),
        (root(2), "1", "1"),
        (root("2.25"), "1.5", "0"),
        (root("2.5"), "1.5", "0.25"),
        (root("0.5"), "0.7", "0.01"),
        (root("0.05"), "0.2", "0.01"),
        (root("0.001"), "0.03", "0.0001"),
        (Root(Decimal(2), 3), "1.414", None),
        (product("0.25", -8), "-2", None),
        (Product(Decimal("0.05"), Decimal("0.1"), 2), "0.01", None),
    ],
)
def test_what_it_comes_to(worked: Calculation, result: str, remainder: str | None) -> None:
    assert str(worked.result) == result
    assert worked.remainder == (None if remainder is None else Decimal(remainder))


@pytest.mark.parametrize("undefined", [lambda: quotient(5, "-0.0"), lambda: root("-0.1")])
def test_what_has_no_value_cannot_be_made(undefined) -> None:
    with pytest.raises(UndefinedError) as caught:
        undefined()
    assert isinstance(caught.value, NumberError)

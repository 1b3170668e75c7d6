"""Faults outside of the catalogue: wrong ways to work a column, a product or a quotient, written as
arithmetic that knows nothing of the technique model."""


def _terms(calculation):
    return [int(term) for term in calculation.terms]


def _digits(number, count=4):
    return [number // 10**at % 10 for at in range(count)]


def smaller_from_larger(calculation):
    """In each place the smaller digit is taken from the larger one (Brown & Burton 1978)."""
    total = 0
    for term in _terms(calculation):
        if term >= 0:
            total += term
        else:
            pairs = zip(_digits(total), _digits(-term), strict=True)
            total = sum(abs(one - other) * 10**at for at, (one, other) in enumerate(pairs))
    return total


def last_row_left_out(calculation):
    return sum(_terms(calculation)[:-1])


def first_row_twice(calculation):
    terms = _terms(calculation)
    return sum(terms) + terms[0]


def answer_reversed(calculation):
    return int(str(abs(sum(_terms(calculation))))[::-1])


def ones_not_worked(calculation):
    first, *others = _terms(calculation)
    return first + sum(int(term / 10) * 10 for term in others)


def nines_as_eights(calculation):
    return sum(int(str(term).replace("9", "8")) for term in _terms(calculation))


def counts_from_itself(calculation):
    """Counting on begins at the number itself, so that each row adds one too few."""
    first, *others = _terms(calculation)
    return first + sum(term - (1 if term > 0 else -1) for term in others)


def taken_from_ten(calculation):
    """Each digit that is taken is taken from ten, and that put down."""
    total = 0
    for term in _terms(calculation):
        if term >= 0:
            total += term
        else:
            total = sum((10 - digit) % 10 * 10**at for at, digit in enumerate(_digits(-term, 2)))
    return total


def tens_doubled(calculation):
    return sum(term + int(term / 10) * 10 for term in _terms(calculation))


def reads_tens_first(calculation):
    """Tens and ones change places in the answer, where it has two digits."""
    total = sum(_terms(calculation))
    return total if not 10 <= total <= 99 else total % 10 * 10 + total // 10


def sixes_for_nines(calculation):
    return sum(int(str(term).replace("6", "9")) for term in _terms(calculation))


def stops_at_ninety_nine(calculation):
    return min(99, max(0, sum(_terms(calculation))))


UNLISTED = (
    smaller_from_larger, last_row_left_out, first_row_twice, answer_reversed, ones_not_worked,
    nines_as_eights, counts_from_itself, taken_from_ten, tens_doubled, reads_tens_first,
    sixes_for_nines, stops_at_ninety_nine,
)  # fmt: skip
OF_TAKING_ALONE = (smaller_from_larger, taken_from_ten)
"""Those that show where a number is taken away alone."""


def _figures(number):
    return [int(figure) for figure in str(int(number))]


def seven_eights_fifty_four(product):
    """7 x 8 is taken for 54, wherever it comes."""
    one, other = (_figures(factor)[::-1] for factor in product.numbers)
    return sum(
        (54 if {a, b} == {7, 8} else a * b) * 10 ** (i + j)
        for i, a in enumerate(one)
        for j, b in enumerate(other)
    )


def products_side_by_side(product):
    """The products of single digits are written one beside the other: 38 x 2 is 616."""
    one, other = product.numbers
    by = int(other)
    return int("".join(str(digit * by) for digit in _figures(one)))


def ones_of_the_second_alone(product):
    """The first factor is multiplied by the last digit of the second alone."""
    one, other = map(int, product.numbers)
    return one * (other % 10) if other > 9 else one * other + one


def factors_added(product):
    return sum(map(int, product.numbers))


def like_places_alone(product):
    """Ones by ones and tens by tens, and nothing across: 23 x 45 is 815."""
    one, other = (_figures(factor)[::-1] for factor in product.numbers)
    return sum(a * b * 100**at for at, (a, b) in enumerate(zip(one, other, strict=False)))


UNLISTED_OF_PRODUCTS = (
    seven_eights_fifty_four, products_side_by_side, ones_of_the_second_alone, factors_added,
    like_places_alone,
)  # fmt: skip


def _right(quotient):
    return int(quotient.result)


def zeros_of_the_quotient_left_out(quotient):
    """408 is given as 48, 420 as 42."""
    return int("".join(str(_right(quotient)).split("0")))


def last_digit_not_worked(quotient):
    """The work ends one digit early."""
    return _right(quotient) // 10


def by_the_first_digit(quotient):
    """A divisor of two digits is taken for its first one, one of one digit for one more."""
    divisor = int(quotient.divisor)
    by = divisor // 10 * 10 if divisor > 9 else divisor + 1
    return int(quotient.dividend) // by


def one_too_high(quotient):
    """The first digit of the quotient is one too high."""
    first = _figures(_right(quotient))[0]
    return _right(quotient) + (10 ** (len(str(_right(quotient))) - 1) if first < 9 else 0)


def last_two_swapped(quotient):
    figures = str(_right(quotient))
    return int(figures[:-2] + figures[:-3:-1])


UNLISTED_OF_QUOTIENTS = (
    zeros_of_the_quotient_left_out, last_digit_not_worked, by_the_first_digit, one_too_high,
    last_two_swapped,
)  # fmt: skip

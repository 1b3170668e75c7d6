"""Faults outside of the catalogue: wrong ways to work a column, written as arithmetic that knows
nothing of the technique model."""


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

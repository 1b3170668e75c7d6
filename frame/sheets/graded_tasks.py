"""Tasks of graded papers, drawn so that they fit the row of their grade exactly."""

from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from functools import partial
from itertools import accumulate
from random import Random

from frame.practice.columns import rods_needed
from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family
from frame.practice.rungs import Rung
from frame.practice.sizes import Size, rods_for
from frame.sheets.fairness import is_varied
from frame.sheets.grades import Columns, GradedSection, Pairs
from frame.sheets.in_turn import in_turn
from frame.sheets.recipe import Part
from frame.sheets.sheet import Way
from frame.technique.calculation import Calculation, Product, Quotient, Sum
from frame.technique.places import USUAL_RODS

Key = tuple[type[Calculation], tuple[Decimal, ...]]
"""What makes a task the same as another: its numbers, in whatever order."""

_TAKEN = (0.2, 0.4)
"""The share of a column's numbers that is taken away where some are: from and to. Our choice."""

_MOST_TRIES = 100_000
"""More than any grade needs for a task that does not stand on the paper yet."""

_ONES = range(2, 10)
"""The numbers of one digit with which there is something to be worked."""

_Draw = Callable[[], Calculation | None]
"""Draws a calculation; None where what was drawn is not fair."""


def graded_tasks(
    row: GradedSection, way: Way, random: Random, drawn: set[Key]
) -> tuple[Exercise, ...]:
    """The tasks of a section, one stretch after the other: none that was drawn before.

    Every split of digits, and every count of numbers that are taken away, comes as often as another
    or once more, and so does every factor or divisor of one digit, never twice in a row: in all
    versions, for some are easier than others.
    """
    ones = in_turn(_ONES, random), in_turn(_ONES, random)
    tasks: list[Exercise] = []
    for stretch in row.stretches:
        rods = _rods(row.part, stretch)
        if isinstance(stretch, Columns):
            draws = _columns(stretch, random)
        else:
            draws = _pairs(row.part, stretch, random, ones)
        for draw in draws:
            calculation = _new(draw, drawn)
            own = way is Way.BEADS
            tasks.append(Exercise(Kind.SUM, calculation, Rung.NUMBER, rods, own=own))
    return tuple(tasks)


def _rods(part: Part, stretch: Columns | Pairs) -> int:
    """How many rods hold the work of any of its tasks."""
    if isinstance(stretch, Columns):
        needed = rods_needed(stretch.digits.most, stretch.rows) + bool(stretch.below_zero)
        return max(USUAL_RODS, needed)
    if part is Part.PRODUCTS:
        needed = max(rods_for(Family.MULTIPLY, Size(one, by=by)) for one, by in stretch.splits)
    else:
        needed = max(rods_for(Family.DIVIDE, Size(one, by=by)) for by, one in stretch.splits)
    return max(USUAL_RODS, needed)


def _columns(columns: Columns, random: Random) -> list[_Draw]:
    taken = [_taken(columns, at) for at in range(columns.count)]
    random.shuffle(taken)
    return [partial(_column, columns, *one, random) for one in taken]


def _pairs(
    part: Part, pairs: Pairs, random: Random, ones: tuple[Iterator[int], Iterator[int]]
) -> list[_Draw]:
    splits = [pairs.splits[at % len(pairs.splits)] for at in range(pairs.count)]
    random.shuffle(splits)
    numbers = [map(_numbers, split, ones) for split in splits]
    return [partial(_pair, part, first, second, random) for first, second in numbers]


def _numbers(digits: int, ones: Iterator[int]) -> range:
    """The numbers of so many digits; of one digit, the one whose turn it is."""
    if digits > 1:
        return range(10 ** (digits - 1), 10**digits)
    one = next(ones)
    return range(one, one + 1)


def _new(draw: _Draw, drawn: set[Key]) -> Calculation:
    """A calculation that was not drawn before."""
    for _ in range(_MOST_TRIES):
        calculation = draw()
        if calculation is None:
            continue
        key = type(calculation), tuple(sorted(calculation.numbers))
        if key not in drawn:
            drawn.add(key)
            return calculation
    raise ValueError("there are too few tasks of this size for a paper")


def _taken(columns: Columns, at: int) -> tuple[int, bool]:
    """How many numbers of a column are taken away, and whether that leads below zero: then half of
    them, for with fewer it is unlikely."""
    if at < columns.below_zero:
        return columns.rows // 2, True
    least, most = (round(share * columns.rows * columns.minus) for share in _TAKEN)
    return least + at % (most - least + 1), False


def _column(columns: Columns, taken: int, is_below: bool, random: Random) -> Sum | None:
    """A column, or None where what was drawn is not fair. The first number is never taken away,
    and below zero it comes with the last."""
    terms = [_of_digits(length, random) for length in _lengths(columns, random)]
    *rows, last = range(1, columns.rows)
    some = (
        [*random.sample(rows, taken - 1), last] if is_below else random.sample([*rows, last], taken)
    )
    for row in some:
        terms[row] = -terms[row]
    return Sum(tuple(map(Decimal, terms))) if _is_fair(terms, is_below) else None


def _lengths(columns: Columns, random: Random) -> list[int]:
    """How many digits each row has: all together the characters of the column."""
    least, most = columns.digits
    room = [row for row in range(columns.rows) for _ in range(most - least)]
    longer = random.sample(room, columns.characters - columns.rows * least)
    return [least + longer.count(row) for row in range(columns.rows)]


def _is_fair(terms: Sequence[int], is_below: bool) -> bool:
    """Whether nothing on the way comes to zero or below, the answer is above zero, or below it
    where it has to be, and the column is varied."""
    *on_the_way, answer = accumulate(terms)
    is_right = answer < 0 if is_below else answer > 0
    return min(on_the_way) > 0 and is_right and is_varied(terms)


def _pair(part: Part, first: range, second: range, random: Random) -> Product | Quotient | None:
    """A product, or a quotient that comes out even, of two of the numbers; None where one of them
    ends in 0 and so has fewer digits to be worked."""
    one, other = random.choice(first), random.choice(second)
    if not one % 10 or not other % 10:
        return None
    if part is Part.PRODUCTS:
        return Product(Decimal(one), Decimal(other))
    return Quotient(Decimal(one * other), Decimal(one))


def _of_digits(digits: int, random: Random) -> int:
    return random.randrange(10 ** (digits - 1), 10**digits)

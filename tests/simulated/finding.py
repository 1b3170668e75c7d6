"""How well the fault behind answers is found: simulated learners with planted habits.

`python tests/simulated/finding.py [LEARNERS]` prints the report. The learners are simulated, and
the finder knows the habits that are planted: this proves the arithmetic, and not that children
have these habits. Of the faults outside of the catalogue those of `unlisted.py` were written by
who wrote the finder, those of `sealed.py` by one who had not read it.
"""

import sys
import time
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from decimal import Decimal
from functools import partial, wraps
from random import Random
from typing import NamedTuple

from drawn import below_zero, called, column, flashed, product, product_with_zero, quotient
from sealed import SEALED
from unlisted import OF_TAKING_ALONE, UNLISTED, UNLISTED_OF_PRODUCTS, UNLISTED_OF_QUOTIENTS

from frame.practice.separating import gain
from frame.practice.suspects import Given, weigh
from frame.technique.conventions import USUAL
from frame.technique.faulty import Choosing, answer_by
from frame.technique.habits import Habit

AT = (1, 3, 5, 10, 20)
USED = 0.8
SLIPS = 0.05
POOL = 12
"""So many exercises are there to choose the most telling from."""
OF_COLUMNS = tuple(Habit)[: tuple(Habit).index(Habit.ROD_MISREAD)]
BELOW_ZERO = {Habit.NOT_GIVEN_BACK, Habit.NEGATIVE_READ_AS_SHOWN}
OF_TAKING = {
    Habit.BORROW_FORGOTTEN, Habit.BORROWED_WITHOUT_PARTNER, Habit.BORROWED_THOUGH_FIVE,
    Habit.ADDED_FOR_TAKEN,
}  # fmt: skip
OF_ADDING = {Habit.CARRY_FORGOTTEN, Habit.CARRIED_WITHOUT_PARTNER}
OF_A_ROD = tuple(habit for habit in OF_COLUMNS[: OF_COLUMNS.index(Habit.WRONG_ROD)])
"""What shows on the rod that is worked, in products and quotients, too."""
OF_PRODUCTS = (Habit.ROD_MISREAD, Habit.PRODUCT_ONE_ROD_OFF, Habit.ZERO_NOT_SKIPPED)
OF_QUOTIENTS = tuple(Habit)[tuple(Habit).index(Habit.QUOTIENT_ONE_ROD_OFF) :]


def by_habits(habits):
    """Who answers with these habits."""

    def answer(calculation, random, before):
        choices = [random.random() < USED for _ in range(80)]
        found = answer_by(calculation, USUAL, Choosing(habits, choices, before=before))
        return found.number if found else calculation.result

    return answer


def slipped(number, random):
    """A number with one place wrong, one time in twenty."""
    if random.random() >= SLIPS:
        return number
    place = random.randrange(len(str(abs(int(number)))))
    return number + random.choice((1, -1)) * random.randint(1, 9) * 10**place


def by_unlisted(fault):
    """Who answers with a fault outside of the catalogue."""
    return lambda calculation, random, before: (
        Decimal(fault(calculation)) if random.random() < USED else calculation.result
    )


def of_numbers(fault):
    """A fault that is written for the numbers of a column, as one for the column."""

    @wraps(fault)
    def answer(calculation):
        return fault(tuple(map(int, calculation.terms)))

    return answer


BY_ANOTHER = tuple(map(of_numbers, SEALED))


def rightly(calculation, random, before):
    """Who has no fault."""
    return calculation.result


def named_at(answer, draw, random, is_chosen, most=AT[-1]):
    """The habits that are named after so many answers."""
    givens, found = [], {}
    for count in range(1, most + 1):
        pool = [draw(random) for _ in range(POOL if is_chosen else 1)]
        asked = max(pool, key=partial(gain, weigh(aged(givens)))) if is_chosen else pool[0]
        before = givens[-1][1] if givens else None
        givens.append((asked, slipped(answer(asked, random, before), random)))
        if count in AT:
            found[count] = set(weigh(aged(givens)).named)
    return found


def aged(givens):
    """The answers, each with how many came after it, and the one before."""
    befores = [None, *(answer for _, answer in givens)]
    return [
        Given(asked, answer, len(givens) - 1 - at, before=befores[at])
        for at, (asked, answer) in enumerate(givens)
    ]


class Learner(NamedTuple):
    """Who answers, what is asked, the habits planted, and a name."""

    answer: object
    draw: object
    planted: set
    name: str


class Row(NamedTuple):
    """A row of the report: its learners, and whether they are asked what tells most."""

    title: str
    learners: list
    is_chosen: bool = False


def with_one(habits, draw, kind):
    """Learners with one habit."""
    return [Learner(by_habits({one}), draw, {one}, f"{kind}{one}") for one in habits]


def singles():
    """Learners with one habit of columns: a number below zero shows some alone."""
    is_below = [habit in BELOW_ZERO for habit in OF_COLUMNS]
    return [
        with_one([habit], below_zero if below else column, "")[0]
        for habit, below in zip(OF_COLUMNS, is_below, strict=True)
    ]


def pairs():
    """Learners with two."""
    random = Random("pairs")
    some = [set(random.sample(OF_COLUMNS[:11], 2)) for _ in range(len(OF_COLUMNS))]
    return [Learner(by_habits(pair), column, pair, f"{sorted(pair)}") for pair in some]


def others(faults=UNLISTED, draw=column, kind=""):
    """Learners with a fault that is not in the catalogue."""
    return [Learner(by_unlisted(one), draw, set(), f"{kind}{one.__name__}") for one in faults]


def faultless(draw=column, kind="", count=17):
    """Learners who slip and have no fault."""
    return [Learner(rightly, draw, set(), f"{kind}faultless {at}") for at in range(count)]


def products():
    """Learners with a habit of products."""
    zero = with_one(OF_PRODUCTS[-1:], product_with_zero, "product ")
    return with_one(OF_PRODUCTS[:-1], product, "product ") + zero


def of_columns(is_chosen):
    """The rows of columns that are read."""
    how = "chosen" if is_chosen else "at random"
    return [
        Row(f"one habit, {how}", singles(), is_chosen),
        Row(f"two habits, {how}", pairs(), is_chosen),
        Row(f"{len(UNLISTED)} others, {how}", others(), is_chosen),
        Row(f"{len(BY_ANOTHER)} others, second hand, {how}", others(BY_ANOTHER), is_chosen),
        Row(f"no fault, {how}", faultless(), is_chosen),
    ]


def of_kind(kind, draw, habits, faults):
    """The rows of another kind of work, at random."""
    return [
        Row(f"{kind}, one habit", with_one(habits, draw, f"{kind} ")),
        Row(f"{kind}, {len(faults)} others", others(faults, draw, f"{kind} ")),
        Row(f"{kind}, no fault", faultless(draw, f"{kind} ", len(faults))),
    ]


def other_kinds():
    """The rows of numbers called and flashed, of products and of quotients."""
    heard = [habit for habit in OF_COLUMNS if habit not in BELOW_ZERO]
    seen = [habit for habit in heard if habit not in {*OF_TAKING, Habit.DIGITS_SWAPPED}]
    adding = [habit for habit in OF_A_ROD if habit not in OF_TAKING]
    taking = [habit for habit in OF_A_ROD if habit not in {*OF_ADDING, Habit.RIPPLE_STOPPED}]
    without_minus = [one for one in UNLISTED if one not in OF_TAKING_ALONE]
    return [
        *of_kind("called", called, heard, UNLISTED),
        *of_kind("flashed", flashed, seen, without_minus),
        Row("product, one habit of products", products()),
        *of_kind("product", product, adding, UNLISTED_OF_PRODUCTS),
        Row("quotient, one habit of quotients", with_one(OF_QUOTIENTS, quotient, "quotient ")),
        *of_kind("quotient", quotient, taking, UNLISTED_OF_QUOTIENTS),
    ]


def rows():
    """All rows of the report."""
    return [*of_columns(is_chosen=False), *of_columns(is_chosen=True), *other_kinds()]


class Counted(NamedTuple):
    """After so many answers: how many learners are named rightly, how many wrongly; how many there
    were, and to whom what was wrongly named at the end. Of a pair one of the two alone is right as
    far as it goes."""

    rightly: Counter
    wrongly: Counter
    count: int
    taken_for: dict


def counted(learners, each, is_chosen, most=AT[-1]):
    """What comes of so many learners of each kind."""
    rightly_named, wrongly, taken_for = Counter(), Counter(), {}
    for answer, draw, planted, name in learners:
        for at in range(each):
            found = named_at(answer, draw, Random(f"{name} {at}"), is_chosen, most)
            for count, named in found.items():
                rightly_named[count] += bool(named) and named == planted
                wrongly[count] += not named <= planted
            if not found[most] <= planted:
                taken_for.setdefault(name, Counter())[" + ".join(sorted(found[most]))] += 1
    return Counted(rightly_named, wrongly, each * len(learners), taken_for)


def printed(row, found, each):
    """A row of the report, and below it what was wrongly named at the end."""
    right, wrong, count, taken_for = found
    cells = [f"{100 * right[at] / count:4.0f} {100 * wrong[at] / count:4.1f}" for at in AT]
    lines = [f"{row.title:38}{count:5}  " + "   ".join(cells)]
    for name, named in taken_for.items():
        as_what = ", ".join(f"{one} {times}" for one, times in named.most_common())
        lines.append(f"    {name}, of {each}: {as_what}")
    return "\n".join(lines)


def worked_row(each, at):
    """A row of the report, worked out."""
    row = rows()[at]
    return printed(row, counted(row.learners, each, row.is_chosen), each)


def milliseconds():
    """The mean time of an answer that was never seen before, in ms."""
    random = Random("time")
    columns = [column(random) for _ in range(200)]
    begun = time.perf_counter()
    for one in columns:
        weigh([Given(one, one.result + random.choice((10, -10, 2, 5, 34)))])
    return 1000 * (time.perf_counter() - begun) / len(columns)


def main(each):
    """Print the report, its rows worked out on all cores."""
    print(f"Simulated learners, {each} of each kind. Columns are of three numbers of two digits.")
    print("A planted habit shows at four sites in five, one answer in twenty is a slip.")
    print("In percent: named rightly, named wrongly (all else is left unknown).")
    print("Below a row: what was named wrongly after 20 answers.")
    heads = "   ".join(f"{f'after {at}':>9}" for at in AT)
    print(f"{'':38}{'n':>5}  {heads}")
    with ProcessPoolExecutor() as pool:
        for line in pool.map(partial(worked_row, each), range(len(rows()))):
            print(line, flush=True)
    print(f"An answer takes {milliseconds():.0f} ms on the average.")
    print("The learners are simulated, and the finder knows the planted habits but the others.")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 5)

"""How well the fault behind answers is found: simulated learners with planted habits.

`python tests/simulated/finding.py [LEARNERS]` prints the report. The learners are simulated, and
the finder knows the habits that are planted: this proves the arithmetic, and not that children
have these habits.
"""

import sys
import time
from collections import Counter
from decimal import Decimal
from random import Random

from unlisted import UNLISTED

from frame.practice.separating import most_telling
from frame.practice.suspects import Given, weigh
from frame.technique.calculation import Sum
from frame.technique.conventions import USUAL
from frame.technique.faulty import Choosing, answer_by
from frame.technique.habits import Habit

AT = (1, 3, 5, 10, 20)
USED = 0.8
SLIPS = 0.05
POOL = 12
"""So many exercises are there to choose the most telling from."""
OF_COLUMNS = tuple(Habit)[: tuple(Habit).index(Habit.ROD_MISREAD)]


def column(random):
    """Three numbers of two digits, added and taken away, never below zero."""
    while True:
        terms = [Decimal(random.randint(10, 99)) for _ in range(3)]
        signs = [1, *(random.choice((1, -1)) for _ in range(2))]
        terms = [term * sign for term, sign in zip(terms, signs, strict=True)]
        if terms[0] + terms[1] >= 0 and sum(terms) >= 0:
            return Sum(tuple(terms))


def below_zero(random):
    """A column that goes below zero, and may come back."""
    terms = (random.randint(10, 49), -random.randint(50, 99), random.randint(10, 99))
    return Sum(tuple(map(Decimal, terms)))


def by_habits(habits):
    """Who answers with these habits."""

    def answer(calculation, random):
        choices = [random.random() < USED for _ in range(80)]
        found = answer_by(calculation, USUAL, Choosing(habits, choices))
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
    return lambda calculation, random: (
        Decimal(fault(calculation)) if random.random() < USED else calculation.result
    )


def rightly(calculation, random):
    """Who has no fault."""
    return calculation.result


def named_at(answer, draw, random, is_chosen, most=AT[-1]):
    """The habits that are named after so many answers."""
    givens, found = [], {}
    for count in range(1, most + 1):
        pool = [draw(random) for _ in range(POOL if is_chosen else 1)]
        asked = most_telling(weigh(aged(givens)), pool) if is_chosen else pool[0]
        givens.append((asked, slipped(answer(asked, random), random)))
        if count in AT:
            found[count] = set(weigh(aged(givens)).named)
    return found


def aged(givens):
    """The answers, each with how many came after it."""
    return [Given(asked, answer, len(givens) - 1 - at) for at, (asked, answer) in enumerate(givens)]


def drawn_for(habits):
    """What is asked: a number below zero shows some habits alone."""
    is_below = habits & {Habit.NOT_GIVEN_BACK, Habit.NEGATIVE_READ_AS_SHOWN}
    return below_zero if is_below else column


def singles():
    """Learners with one habit."""
    return [(by_habits({habit}), drawn_for({habit}), {habit}, f"{habit}") for habit in OF_COLUMNS]


def pairs():
    """Learners with two."""
    random = Random("pairs")
    some = [set(random.sample(OF_COLUMNS[:11], 2)) for _ in range(len(OF_COLUMNS))]
    return [(by_habits(pair), column, pair, f"{sorted(pair)}") for pair in some]


def others():
    """Learners with a fault that is not in the catalogue."""
    return [(by_unlisted(fault), column, set(), fault.__name__) for fault in UNLISTED]


def faultless():
    """Learners who slip and have no fault."""
    return [(rightly, column, set(), f"faultless {at}") for at in range(len(OF_COLUMNS))]


def counted(learners, each, is_chosen, most=AT[-1]):
    """After so many answers: how many are named rightly, how many wrongly; how many there were. Of
    a pair one of the two alone is right as far as it goes."""
    rightly_named, wrongly = Counter(), Counter()
    for answer, draw, planted, name in learners:
        for at in range(each):
            found = named_at(answer, draw, Random(f"{name} {at}"), is_chosen, most)
            for count, named in found.items():
                rightly_named[count] += bool(named) and named == planted
                wrongly[count] += not named <= planted
    return rightly_named, wrongly, each * len(learners)


def row(title, learners, each, is_chosen):
    """A row of the report."""
    right, wrong, count = counted(learners, each, is_chosen)
    cells = [f"{100 * right[at] / count:4.0f} {100 * wrong[at] / count:4.1f}" for at in AT]
    print(f"{title:34}{count:5}  " + "   ".join(cells), flush=True)


def milliseconds():
    """The mean time of an answer that was never seen before, in ms."""
    random = Random("time")
    columns = [column(random) for _ in range(200)]
    begun = time.perf_counter()
    for one in columns:
        weigh([Given(one, one.result + random.choice((10, -10, 2, 5, 34)))])
    return 1000 * (time.perf_counter() - begun) / len(columns)


def main(each):
    """Print the report."""
    print(f"Simulated learners, {each} of each kind; columns of three numbers of two digits.")
    print("A planted habit shows at four sites in five, one answer in twenty is a slip.")
    print("In percent: named rightly, named wrongly (all else is left unknown).")
    heads = "   ".join(f"{f'after {at}':>9}" for at in AT)
    print(f"{'':34}{'n':>5}  {heads}")
    for is_chosen in (False, True):
        how = "chosen" if is_chosen else "at random"
        row(f"one habit, {how}", singles(), each, is_chosen)
        row(f"two habits, {how}", pairs(), each, is_chosen)
        row(f"{len(UNLISTED)} others, {how}", others(), each, is_chosen)
        row(f"no fault, {how}", faultless(), each, is_chosen)
    print(f"An answer takes {milliseconds():.0f} ms on the average.")
    print("The learners are simulated, and the finder knows the planted habits but the others.")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 10)

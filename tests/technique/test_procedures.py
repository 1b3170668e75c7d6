"""Which procedures a calculation needs, and the parts in which it is worked."""

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from itertools import accumulate, pairwise
from random import Random

import pytest
from truth_tables import rows

from frame.technique.conventions import Carry, Conventions, Layout, Remove
from frame.technique.expression import Calculation, Product, Quotient, Root, Sum, parse_calculation
from frame.technique.facts import PROCEDURES, calculation_facts
from frame.technique.operation import Act
from frame.technique.plan import Plan
from frame.technique.planning import plan_of, plans_by_part
from frame.technique.reading import plain, read
from frame.technique.trials import with_first_trial

TABLE = rows("procedures.txt", 4)


def procedures(calculation: Calculation, plan: Plan) -> set[str]:
    return set(calculation_facts(calculation, plan)) & set(PROCEDURES)


@pytest.mark.parametrize(("text", "places", "needed", "why"), TABLE)
def test_a_calculation_needs_the_procedures_of_the_table(
    text: str, places: str, needed: str, why: str
) -> None:
    calculation = parse_calculation(text)
    if places != ".":
        assert not isinstance(calculation, Sum)
        calculation = replace(calculation, places=int(places))
    found = procedures(calculation, plan_of(calculation))
    assert found == set(needed.replace(".", "").split()), why


def test_every_procedure_but_a_larger_trial_digit_is_in_the_table() -> None:
    """The largest digit is tried first, so none must be made larger unless one is chosen."""
    found = {fact for row in TABLE for fact in row[2].split()} - {"."}
    assert found == set(PROCEDURES) - {"revise-up"}
    assert len(TABLE) == len({row[:2] for row in TABLE}) > 50


# Plans in parts


def number(random: Random, digits: int, places: int = 0) -> Decimal:
    return Decimal(random.randint(1, 10**digits - 1)).scaleb(-random.randint(0, places))


def column(random: Random) -> Sum:
    """A column that goes below zero and back now and then, some with decimals."""
    places = random.choice((0, 0, 2))
    terms = [number(random, 3, places) * random.choice((1, -1)) for _ in range(6)]
    return Sum(tuple(terms))


def calculations(seed: int, count: int) -> Iterator[tuple[Calculation, Conventions]]:
    random = Random(seed)
    for _ in range(count):
        chosen = random.choice((
            column(random),
            Product(number(random, 3, 2), number(random, 2, 1)),
            Quotient(number(random, 4), number(random, 2), random.choice((None, 1))),
            Root(number(random, 4), random.choice((None, 1))),
        ))  # fmt: skip
        carry, remove = random.choice(list(Carry)), random.choice(list(Remove))
        yield chosen, Conventions(carry, remove, random.choice(list(Layout)))


def assert_chained(pieces: tuple[Plan, ...], plan: Plan) -> None:
    """The pieces, one after the other, are the plan."""
    assert pieces[0].start == plan.start
    assert all(one.end == other.start for one, other in pairwise(pieces))
    assert tuple(step for piece in pieces for step in piece.steps) == plan.steps
    assert tuple(stroke for piece in pieces for stroke in piece.strokes) == plan.strokes
    assert pieces[-1].end == plan.end
    assert (pieces[-1].result, pieces[-1].remainder) == (plan.result, plan.remainder)
    assert (pieces[-1].on_with is None) is (plan.on_with is None)


def test_a_plan_cut_anywhere_is_whole_again_when_its_pieces_are_chained() -> None:
    random = Random(41)
    for calculation, conventions in calculations(42, 60):
        plan = plan_of(calculation, conventions)
        ends = sorted(random.randint(0, len(plan.steps)) for _ in range(random.randint(0, 4)))
        pieces = plan.cut(ends)
        assert len(pieces) == len(ends) + 1
        assert list(accumulate(len(piece.steps) for piece in pieces))[:-1] == ends
        assert_chained(pieces, plan)


def test_the_numbers_of_a_column_are_its_pieces_and_end_in_the_running_totals() -> None:
    random, seen = Random(43), set[bool]()
    for _ in range(60):
        work = column(random)
        pieces = plans_by_part(work)
        assert_chained(pieces, plan_of(work))
        totals = list(accumulate(work.terms))
        assert [piece.result for piece in pieces] == totals
        for piece, total in zip(pieces, totals, strict=True):
            # Below zero the frame shows what is missing to a power of ten.
            shown = read(piece.end) - total
            assert shown == 0 if total >= 0 else is_power_of_ten(shown)
        seen |= {one < 0 <= other for one, other in pairwise(totals)}
    assert seen == {True, False}


def is_power_of_ten(number: Decimal) -> bool:
    return number > 0 and plain(number).strip("0.") == "1"


def test_other_work_has_two_parts_the_setting_of_its_numbers_and_the_rest() -> None:
    for calculation, conventions in calculations(44, 60):
        if isinstance(calculation, Sum):
            continue
        setting, work = pieces = plans_by_part(calculation, conventions)
        assert_chained(pieces, plan_of(calculation, conventions))
        assert {step.operation.act for step in setting.steps} <= {Act.SET}
        assert Act.SET not in {step.operation.act for step in work.steps}
        is_unset = isinstance(calculation, Product) and conventions.layout is Layout.NONE
        assert bool(setting.steps) is not is_unset


# Another digit tried first


def largest(dividend: int, divisor: int) -> int:
    """The largest digit to try first: how often the divisor's first digit goes into the dividend's
    first one or, where the divisor is more than as many of its digits, into its first two."""
    some, others = str(dividend), str(divisor)
    is_far = int(some[: len(others)].ljust(len(others), "0")) >= divisor
    return min(9, int(some[: 1 if is_far else 2]) // int(others[0]))


def test_a_lawful_digit_tried_first_leads_to_the_same_quotient_and_any_other_to_none() -> None:
    random, larger = Random(45), 0
    for _ in range(25):
        divisor = random.randint(2, 999)
        dividend = divisor * random.randint(1, 99) + random.randrange(divisor)
        work = Quotient(Decimal(dividend), Decimal(divisor))
        plan = plan_of(work)
        for digit in range(1, 10):
            found = with_first_trial(plan, digit)
            if digit > largest(dividend, divisor):
                assert found is None, (work, digit)
                continue
            assert found is not None, (work, digit)
            trials = [step for step in found.steps if step.operation.act is Act.QUOTIENT]
            assert trials[0].operation.digits == str(digit)
            assert (found.result, found.remainder) == divmod(dividend, divisor)
            assert (found.start, found.end) == (plan.start, plan.end)
            larger += "revise-up" in procedures(work, found)
    assert larger > 25


def test_the_usual_digit_tried_first_is_the_usual_work() -> None:
    for text in ("3588 / 46", "84 / 4", "100 / 25"):
        plan = plan_of(parse_calculation(text))
        first = next(step for step in plan.steps if step.operation.act is Act.QUOTIENT)
        found = with_first_trial(plan, int(first.operation.digits))
        assert found is not None
        assert str(found) == str(plan)
        assert (found.start, found.end, found.result) == (plan.start, plan.end, plan.result)


@pytest.mark.parametrize("text", ["3 + 4", "12 x 34", "sqrt 1764", "3 / 7"])
def test_where_no_digit_is_chosen_none_can_be_tried_first(text: str) -> None:
    """The first digit of a root is known from its square."""
    plan = plan_of(parse_calculation(text))
    assert [with_first_trial(plan, digit) for digit in range(1, 10)] == [None] * 9

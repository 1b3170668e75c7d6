"""Which procedures a calculation needs, and the parts in which it is worked."""

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from itertools import accumulate, pairwise
from random import Random

import pytest
from each import each_row
from truth_tables import rows

from frame.technique.conventions import Carry, Conventions, First, Operands, Outer, Remove
from frame.technique.expression import Calculation, Product, Quotient, Root, Sum, parse_calculation
from frame.technique.facts import PROCEDURES, calculation_facts
from frame.technique.operation import Act
from frame.technique.plan import Freedom, Plan
from frame.technique.planning import plan_of
from frame.technique.reading import plain, read
from frame.technique.trials import with_first_trial

TABLE = rows("procedures.txt", 4)


def procedures(calculation: Calculation, plan: Plan) -> set[str]:
    return set(calculation_facts(calculation, plan)) & set(PROCEDURES)


@each_row(("text", "places", "needed", "why"), TABLE)
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


# Plans and their lines


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
        yield chosen, Conventions(carry, remove, random.choice(list(Operands)))


def test_a_plan_begun_at_any_step_is_the_rest_of_the_whole() -> None:
    random = Random(41)
    for calculation, conventions in calculations(42, 60):
        plan = plan_of(calculation, conventions)
        frames = [plan.start, *(frame for _, frame in plan.frames())]
        for at in {0, random.randint(0, len(plan.steps)), len(plan.steps)}:
            rest = plan.begin_at(at)
            assert (rest.start, rest.end) == (frames[at], plan.end)
            assert rest.steps == plan.steps[at:]
            assert rest.strokes == plan.strokes[len(plan.strokes) - len(rest.strokes) :]
            assert (rest.result, rest.remainder) == (plan.result, plan.remainder)
            assert rest.conventions == plan.conventions
            assert (rest.trials, rest.orders) == (plan.trials, plan.orders)
            further = random.randint(0, len(rest.steps))
            assert rest.begin_at(further) == plan.begin_at(at + further)


def test_the_lines_of_a_plan_one_after_another_are_the_plan() -> None:
    for calculation, conventions in calculations(46, 60):
        plan = plan_of(calculation, conventions)
        lines = plan.lines
        assert [line.index for line in lines] == list(range(len(lines)))
        assert [line.last for line in lines] == list(accumulate(len(one.steps) for one in lines))
        assert tuple(step for line in lines for step in line.steps) == plan.steps
        assert tuple(stroke for line in lines for stroke in line.strokes) == plan.strokes
        for line in lines:
            assert line.operation == line.steps[0].operation
            assert line.parts == tuple(step.strokes for step in line.steps)
            assert [line.steps[at] for at in line.step_of] == [
                step for step in line.steps for _ in step.strokes
            ]


def test_a_line_of_other_work_is_one_of_the_paper_and_ends_with_it() -> None:
    for calculation, conventions in calculations(47, 60):
        lines = plan_of(calculation, conventions).lines
        if isinstance(calculation, Sum):
            continue
        operations = [line.operation for line in lines if line.operation.act is not Act.SET]
        assert all(one != other for one, other in pairwise(operations))
        for line in lines:
            acts = {step.operation.act for step in line.steps}
            assert len(acts) == 1
            if acts != {Act.SET}:
                assert {step.operation for step in line.steps} == {line.operation}


def test_the_numbers_of_a_column_are_its_lines_and_end_in_the_running_totals() -> None:
    random, seen = Random(43), set[bool]()
    for _ in range(60):
        work = column(random)
        plan = plan_of(work)
        frames = [frame for _, frame in plan.frames()]
        totals = list(accumulate(work.terms))
        assert [line.operation.row for line in plan.lines] == list(range(len(work.terms)))
        for line, total in zip(plan.lines, totals, strict=True):
            assert {step.operation.row for step in line.steps} == {line.index}
            # Below zero the frame shows what is missing to a power of ten.
            shown = read(frames[line.last - 1]) - total
            assert shown == 0 if total >= 0 else is_power_of_ten(shown)
        seen |= {one < 0 <= other for one, other in pairwise(totals)}
    assert seen == {True, False}


def test_only_a_number_that_stays_at_zero_or_above_may_be_worked_in_any_order() -> None:
    """A trial digit and its revision may be chosen, all other lines go from the highest digit."""
    random = Random(48)
    for _ in range(60):
        work = column(random)
        totals = [Decimal(0), *accumulate(work.terms)]
        for line, (before, after) in zip(plan_of(work).lines, pairwise(totals), strict=True):
            is_above = min(before, after) >= 0
            assert line.freedom is (Freedom.ANY_ORDER if is_above else Freedom.IN_ORDER), work
    for calculation, conventions in calculations(49, 60):
        for line in () if isinstance(calculation, Sum) else plan_of(calculation, conventions).lines:
            act = line.operation.act
            wanted = Freedom.ANY_ORDER if act is Act.SET else Freedom.IN_ORDER
            is_chosen = act in (Act.QUOTIENT, Act.ROOT, Act.REVISE_DOWN, Act.REVISE_UP)
            assert line.freedom is (Freedom.DIGIT if is_chosen else wanted), calculation


def is_power_of_ten(number: Decimal) -> bool:
    return number > 0 and plain(number).strip("0.") == "1"


def test_other_work_has_two_parts_the_setting_of_its_numbers_and_the_rest() -> None:
    for calculation, conventions in calculations(44, 60):
        if isinstance(calculation, Sum):
            continue
        plan = plan_of(calculation, conventions)
        setting, work = plan.lines[: plan.fork], plan.lines[plan.fork :]
        assert {line.operation.act for line in setting} <= {Act.SET}
        assert Act.SET not in {line.operation.act for line in work}
        is_unset = isinstance(calculation, Product) and conventions.layout is Operands.NONE
        assert len(setting) == (not is_unset)


SCHOOLS = [Conventions(layout=layout, outer=outer) for layout in Operands for outer in Outer]


@pytest.mark.parametrize("school", SCHOOLS, ids=str)
@pytest.mark.parametrize("first", First)
def test_a_product_names_the_rods_on_which_its_factors_stand(
    school: Conventions, first: First
) -> None:
    """Those of both where both are set, of the one that is set where it is one; none else."""
    random, worked = Random(50), 0 if school.outer is Outer.MULTIPLICAND else 1
    stand = {Operands.BOTH: (0, 1), Operands.ONE: (worked,), Operands.NONE: ()}[school.layout]
    for _ in range(10):
        work = Product(number(random, 3), number(random, 2))
        plan = plan_of(work, replace(school, first=first))
        setting = plan.lines[: plan.fork]
        frame = plan.begin_at(setting[-1].last).start if setting else plan.start
        for line in plan.lines[plan.fork :]:
            if (product := line.operation).act is Act.MULTIPLY:
                shown = [frame.digit(rod) for rod in product.of]
                assert shown == [product.factors[at] for at in stand], (work, str(product))


ROUNDED = [
    (Quotient(Decimal(2), Decimal(7), 2), "0.29", "5", -3),
    (Quotient(Decimal(1), Decimal(3), 0), "0", "3", -1),
    (Root(Decimal(2), 1), "1.4", "1", -2),
    (Product(Decimal("1.25"), Decimal("3.3"), 1), "4.1", "25", -2),
    (Product(Decimal("2.5"), Decimal("1.5"), 1), "3.8", "5", -2),
    (Product(Decimal("0.25"), Decimal("0.25"), 2), "0.06", "25", -3),
]
"""What is rounded, what it comes to, the digits that go and the rod of the first of them. Worked
out by hand: 0.285, 0.3, 1.41, 4.125, 3.75 and 0.0625."""


@pytest.mark.parametrize(("work", "result", "digits", "rod"), ROUNDED)
def test_the_line_that_rounds_names_the_digits_that_go(
    work: Product | Quotient | Root, result: str, digits: str, rod: int
) -> None:
    plan = plan_of(work)
    line = plan.lines[-1].operation
    assert (line.act, line.digits.rstrip("0"), line.rod) == (Act.ROUND, digits, rod)
    assert plan.result == Decimal(result)


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

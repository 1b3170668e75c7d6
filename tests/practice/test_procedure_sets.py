"""Products, quotients, roots, decimals and columns below zero, as exercises and as sets."""

from itertools import accumulate, product
from random import Random

import pytest
from each import each_row

from frame.practice.choices import MOST_BY, USUAL_DIGITS, Choices
from frame.practice.columns import MOST_DIGITS
from frame.practice.drawing import ExerciseError, Request, draw, drawable
from frame.practice.exercises import Exercise, Kind, plan_for
from frame.practice.families import Family, family_of
from frame.practice.ladder import USUAL_RULES, Try
from frame.practice.numbers import any_calculation
from frame.practice.rungs import Rung
from frame.practice.sizes import Size, rods_for
from frame.practice.standing import Ladder
from frame.technique.conventions import USUAL, Conventions, First, Operands, Outer
from frame.technique.expression import Product, Quotient, Root, parse_calculation
from frame.technique.facts import ALL_FACTS, PROCEDURES
from frame.technique.operation import Act
from frame.technique.planning import plan_of
from frame.technique.reading import NumberError, decimals, read

EVERYTHING = frozenset(ALL_FACTS)
HARDNESS = list(Family).index
NOT_GROWING = [family for family in Family if not family.grows]

NEEDS = {
    "multiply-2": {"by": 2}, "multiply-3": {"by": 3}, "divide-2": {"by": 2},
    "revise-down": {"by": 2}, "give-back": {"terms": 3},
}  # fmt: skip
"""How large the numbers must be for a fact, where two digits by one, or two terms, won't do."""


def easier(fact):
    """All facts but those of harder families."""
    hardness = HARDNESS(family_of([fact]))
    return frozenset(other for other in ALL_FACTS if HARDNESS(family_of([other])) <= hardness)


def request_for(fact, known, **more):
    sized = {"count": 3, "digits": 2, "rods": 13, **NEEDS.get(fact, {}), **more}
    return Request(facts=(fact,), known=known, **sized)


# Sets


@each_row("fact", PROCEDURES)
def test_every_exercise_needs_its_procedure_and_nothing_untaught(fact):
    known = easier(fact)
    for seed in range(4):
        drawn = draw(request_for(fact, known), Random(seed))
        assert len(drawn) == 3
        for exercise in drawn:
            assert fact in exercise.facts
            assert exercise.facts <= known
            assert family_of(exercise.facts) is family_of([fact])
            assert plan_for(exercise, USUAL).result == exercise.sum.result


BESIDE = [("place-product", "skip-zero"), ("divide-2", "revise-down"), ("root", "root-revise"),
          ("divide-1", "place-quotient-far"), ("below-zero", "give-back")]  # fmt: skip


@pytest.mark.parametrize(("fact", "other"), BESIDE)
def test_what_may_come_beside_a_procedure_comes_only_when_it_is_known(fact, other):
    sized = {"count": 30, **NEEDS.get(other, {})}
    known = easier(fact)
    assert any(other in one.facts for one in draw(request_for(fact, known, **sized), Random(5)))
    less = draw(request_for(fact, known - {other}, **sized), Random(5))
    assert not any(other in one.facts for one in less)


@pytest.mark.parametrize("rung", [Rung.FOLLOW, Rung.ALONE, Rung.PALE])
def test_a_larger_trial_digit_is_practised_on_one_tried_too_small(rung):
    request = request_for("revise-up", EVERYTHING, rung=rung, count=6)
    for exercise in draw(request, Random(1)):
        first = int(str(exercise.sum.result)[0])
        assert 0 < exercise.trial < first
        acts = [step.operation.act for step in plan_for(exercise, USUAL).steps]
        assert Act.REVISE_UP in acts


UNSEEN = [{"rung": Rung.TRACES}, {"rung": Rung.COVERED}, {"rung": Rung.NUMBER}, {"own": True}]


@pytest.mark.parametrize("unseen", UNSEEN, ids=str)
def test_where_no_digit_tried_is_seen_none_is_made_larger_for_the_largest_is_tried_first(unseen):
    request = request_for("revise-up", EVERYTHING, digits=1, by=1, **unseen)
    with pytest.raises(ExerciseError):
        draw(request, Random(1))
    assert drawable(request, Random(1)) == ()


SIZES = [("place-product", 3, 2), ("multiply-1", 3, 1), ("skip-zero", 2, 3), ("divide-1", 3, 1),
         ("place-quotient", 2, 2), ("root", 3, 1)]  # fmt: skip


@pytest.mark.parametrize(("fact", "digits", "by"), SIZES)
def test_numbers_are_as_long_as_is_asked_for(fact, digits, by):
    request = request_for(fact, EVERYTHING, digits=digits, by=by, rods=15)
    for exercise in draw(request, Random(6)):
        match exercise.sum:
            case Product(one, other):
                lengths = (len(str(one)), len(str(other)))
            case Quotient(_, divisor):
                lengths = (len(str(exercise.sum.result)), len(str(divisor)))
            case Root():
                lengths = (len(str(exercise.sum.result)), by)
        assert lengths == (digits, by)


@pytest.mark.parametrize("places", [1, 2])
def test_numbers_with_a_point_have_the_decimals_asked_for(places):
    columns = draw(request_for("decimals", EVERYTHING, digits=3, places=places), Random(7))
    for exercise in columns:
        assert max(map(decimals, exercise.sum.terms)) == places
        assert min(accumulate(exercise.sum.terms)) >= 0
    for exercise in draw(request_for("round", EVERYTHING, places=places), Random(7)):
        assert exercise.sum.places == places
        assert not any(map(decimals, exercise.sum.numbers))
    for exercise in draw(request_for("unit-rod", EVERYTHING, places=places, count=8), Random(7)):
        assert 0 < max(map(decimals, exercise.sum.numbers)) <= places


@pytest.mark.parametrize("terms", [2, 4])
def test_only_columns_below_zero_sink_below_it(terms):
    below = draw(request_for("below-zero", EVERYTHING, terms=terms), Random(8))
    assert all(min(accumulate(one.sum.terms)) < 0 for one in below)
    above = draw(request_for("sub-ten-3", EVERYTHING, terms=terms, count=8), Random(8))
    assert all(min(accumulate(one.sum.terms)) >= 0 for one in above)


def test_quotients_and_roots_come_out_even_unless_a_remainder_is_wanted():
    for fact in ("divide-1", "place-quotient-far", "root-digit"):
        drawn = draw(request_for(fact, EVERYTHING), Random(9))
        assert {one.sum.remainder for one in drawn} == {0}
    assert all(one.sum.remainder for one in draw(request_for("remainder", EVERYTHING), Random(9)))


# What is chosen


@pytest.mark.parametrize("family", NOT_GROWING)
def test_such_families_take_the_digits_that_are_chosen_and_rods_for_them(family):
    for digits in (None, *range(1, MOST_DIGITS + 1)):
        chosen = Choices().choose(family=family, digits=digits, by=2, rows=3)
        rods = rods_for(family, Size(digits or USUAL_DIGITS, terms=3, by=2, exact=True))
        one = Try(family, rods, Rung.ALONE, True, 0, 4.0, frozenset())
        climbed = [one] * USUAL_RULES.up_after
        assert chosen.standing(Ladder()) == (Rung.ALONE, rods)
        assert chosen.standing(Ladder.of(climbed)) == (Rung.PALE, rods)
        request = chosen.request(EVERYTHING, Ladder())
        sizes = (request.digits, request.by, request.terms, request.first, request.rods)
        assert sizes == (digits or USUAL_DIGITS, 2, 3, 0, rods)
        assert rods == family.least_rods or (digits or 0) > USUAL_DIGITS


@pytest.mark.parametrize("family", NOT_GROWING)
def test_some_size_that_can_be_chosen_lets_each_procedure_be_practised(family):
    found = set()
    for by in range(1, MOST_BY + 1):
        chosen = Choices().choose(family=family, by=by, rows=3)
        found |= set(drawable(chosen.request(EVERYTHING, Ladder()), Random(10)))
    of_family = {fact for fact in PROCEDURES if family_of([fact]) is family}
    assert found == of_family


SCHOOLS = [USUAL, Conventions(outer=Outer.MULTIPLIER), Conventions(layout=Operands.ONE),
           Conventions(layout=Operands.NONE), Conventions(first=First.LOWEST)]  # fmt: skip


LEAST_AND_MOST = list(product((1, 6, 14), (1, 3), (1, 3)))
EVERY_SIZE = pytest.param(list(product((1, 6, 14), (1, 2, 3), (1, 2, 3))), marks=pytest.mark.proof)


@pytest.mark.parametrize("sizes", [LEAST_AND_MOST, EVERY_SIZE], ids=["some", "every"])
@pytest.mark.parametrize("fact", PROCEDURES)
def test_the_rods_of_a_size_hold_any_work_drawn_of_it(fact, sizes):
    random = Random(fact)
    for digits, by, places in sizes:
        size = Size(digits, terms=random.randint(2, 15), by=by, places=places, exact=True)
        for school in SCHOOLS:
            rods = rods_for(family_of([fact]), size, school)
            calculation = any_calculation(fact, size, random)
            assert len(plan_of(calculation, school, rods).start.digits) == rods


LARGEST = {
    Family.MULTIPLY: "999 x 99", Family.DIVIDE: "98999 / 99", Family.DECIMALS: "99.9 x 9.9",
    Family.BELOW_ZERO: "1 - 999 - 999 - 999 - 999 - 999", Family.ROOT: "sqrt 998001",
}  # fmt: skip


@pytest.mark.parametrize("family", NOT_GROWING)
def test_its_fewest_rods_hold_numbers_of_three_digits(family):
    work = parse_calculation(LARGEST[family])
    assert Exercise(Kind.SUM, work, rods=family.least_rods).facts
    with pytest.raises(NumberError):
        _ = Exercise(Kind.SUM, work, rods=3).facts


# Exercises


SHOWN = {
    Rung.WATCH: True, Rung.FOLLOW: True, Rung.FINISH: True, Rung.ALONE: False, Rung.PALE: False,
    Rung.TRACES: True, Rung.COVERED: True, Rung.NUMBER: True,
}  # fmt: skip
"""Whether the operands stand on the frame: where the tool leads, and where setting is unseen."""


@each_row(("rung", "is_shown"), SHOWN.items())
@each_row("text", ["12 x 34", "3588 / 46", "sqrt 1764", "1.2 x 3"])
def test_the_operands_stand_there_or_are_set_by_the_learner(text, rung, is_shown):
    exercise = Exercise(Kind.SUM, parse_calculation(text), rung, rods=13)
    assert exercise.shows_start is is_shown
    plan, alone = (plan_for(one, USUAL) for one in (exercise, exercise.at(Rung.ALONE)))
    operands = [step for step in alone.steps if step.operation.act is Act.SET]
    assert operands and not any(step.operation.act is Act.SET for step in work_of(alone))
    assert plan.steps == (work_of(alone) if is_shown else alone.steps)
    assert (read(plan.start) != 0) is is_shown
    assert plan.result == exercise.sum.result
    assert plan.end == alone.end


def work_of(plan):
    """The steps behind those that set the operands."""
    return plan.steps[sum(step.operation.act is Act.SET for step in plan.steps) :]


def test_a_digit_tried_first_is_worked_or_found_tried_and_its_procedures_are_needed():
    usual = Exercise(Kind.SUM, parse_calculation("3588 / 46"), rods=13)
    smaller = Exercise(Kind.SUM, usual.sum, rods=13, trial=6)
    procedures = {"divide-2", "place-quotient", "revise-down"}
    assert usual.facts & set(PROCEDURES) == procedures
    assert smaller.facts & set(PROCEDURES) == procedures | {"revise-up"}
    tried, planned = (plan_for(one.at(Rung.FOLLOW), USUAL) for one in (smaller, usual))
    first = tried.steps[0]
    assert first.operation.act.is_trial and first.change == 6
    assert (tried.start, tried.end) == (planned.start, planned.end)
    alone = plan_for(smaller, USUAL)
    assert alone.steps[0].operation.act is Act.REVISE_UP
    assert alone.steps == tried.steps[-len(alone.steps) :]
    assert alone.start.digit(first.rod) == 6 and alone.end == planned.end


BELOW = [("3 - 4", True), ("3 - 4 - 2", True), ("-1 - 1", True), ("3 - 4 + 1", False),
         ("3 - 4 + 2", False), ("4 - 3", False)]  # fmt: skip


@each_row(("text", "is_below"), BELOW)
@each_row("rung", Rung)
def test_a_column_must_be_read_when_it_is_worked_and_ends_below_zero(text, is_below, rung):
    exercise = Exercise(Kind.SUM, parse_calculation(text), rung, rods=3)
    assert exercise.asks_reading is (is_below and not rung.is_led)
    silent = rung in (Rung.COVERED, Rung.NUMBER)
    assert exercise.is_answered is (silent or exercise.asks_reading)
    assert exercise.is_silent is silent


@pytest.mark.parametrize("text, totals, shown", [
    ("38 - 50 - 7 + 40", (38, -12, -19, 21), ["00038", "00088", "00081", "00021"]),
    ("-12 + 3 - 5", (-12, -9, -14), ["00088", "00091", "00086"]),
])  # fmt: skip
@pytest.mark.parametrize("rung", [Rung.ALONE, Rung.FOLLOW])
def test_each_number_of_a_column_below_zero_is_a_line_of_its_own(text, totals, shown, rung):
    exercise = Exercise(Kind.SUM, parse_calculation(text), rung, rods=5)
    plan = plan_for(exercise, USUAL)
    states = list(plan.frames())
    ends = [states[line.last - 1] for line in plan.lines]
    assert plan.start.digits == (shown[0] if rung.is_led else "00000")
    assert [plan.reading(*end) for end in ends] == list(totals)[rung.is_led :]
    assert [frame.digits for _, frame in ends] == shown[rung.is_led :]

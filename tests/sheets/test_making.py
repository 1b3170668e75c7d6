"""Sheets made by recipes: what stands on them, always the same, fair and right."""

import os
import subprocess
import sys
from collections import Counter
from dataclasses import asdict, replace
from decimal import Decimal
from functools import cache
from itertools import accumulate, pairwise
from math import isqrt
from pathlib import Path

import pytest
from proofs import some_daily

from frame.practice.exercises import Kind as Asks
from frame.practice.families import Family, family_of_fact
from frame.sheets.fairness import is_fair, is_varied
from frame.sheets.likeness import likeness
from frame.sheets.making import LADDER, SheetError, make
from frame.sheets.recipe import Kind, Leaf, Recipe, Version
from frame.sheets.sheet import Way
from frame.sheets.sizing import sized
from frame.sheets.topics import facts_of
from frame.technique.calculation import Product, Quotient, Root, Sum
from frame.technique.conventions import Conventions, Operands
from frame.technique.facts import ALL_FACTS
from frame.technique.planning import plan_of

ROOT = Path(__file__).resolve().parents[2]


def of_family(*families):
    return tuple(fact for fact in ALL_FACTS if family_of_fact(fact) in families)


def is_in_turn(facts, *sheets):
    """Whether each time that so many tasks follow one another each of them is for another of the
    facts, the same on all sheets in the same place."""
    for first in range(0, len(sheets[0]), len(facts)):
        places = list(zip(*(tasks[first : first + len(facts)] for tasks in sheets), strict=True))
        if len(matched(places, facts)) < len(places):
            return False
    return True


def matched(places, facts):
    """As many facts as can be shared out among the tasks that need them, with whose they are."""
    owners = {}

    def finds(at, tried):
        for fact in facts:
            if fact not in tried and all(fact in task.facts for task in places[at]):
                tried.add(fact)
                if fact not in owners or finds(owners[fact], tried):
                    owners[fact] = at
                    return True
        return False

    for at in range(len(places)):
        finds(at, set())
    return owners


RECIPES = {
    "read": Recipe(kind=Kind.READ, digits=3),
    "read facts": Recipe(kind=Kind.READ, digits=2, facts=of_family(Family.READ)[:11]),
    "set": Recipe(kind=Kind.SET, digits=4),
    "set facts": Recipe(kind=Kind.SET, digits=2, facts=of_family(Family.SET)[:11]),
    "columns": Recipe(kind=Kind.COLUMNS, rows=10, digits=5),
    "longest": Recipe(kind=Kind.COLUMNS, rows=15, digits=14, minus=True, count=2),
    "minus": Recipe(kind=Kind.COLUMNS, rows=4, digits=2, minus=True),
    "direct": Recipe(kind=Kind.COLUMNS, digits=2, facts=of_family(Family.ADD_DIRECT)),
    "five": Recipe(kind=Kind.COLUMNS, rows=3, digits=2, facts=of_family(Family.ADD_FIVE)),
    "five and ten": Recipe(
        kind=Kind.COLUMNS, rows=3, digits=2, minus=True, facts=("add-five-3", "sub-ten-7")
    ),
    "ripple": Recipe(kind=Kind.COLUMNS, digits=3, facts=("ripple-add",)),
    "below zero": Recipe(kind=Kind.COLUMNS, rows=3, digits=2, facts=("below-zero",)),
    "with a point": Recipe(kind=Kind.COLUMNS, rows=3, digits=3, facts=("decimals",)),
    "products": Recipe(kind=Kind.PRODUCTS, digits=3, by=2),
    "signs": Recipe(kind=Kind.PRODUCTS, digits=2, facts=("skip-zero", "signs")),
    "quotients": Recipe(kind=Kind.QUOTIENTS, digits=2, by=2),
    "remainder": Recipe(kind=Kind.QUOTIENTS, digits=2, by=2, facts=("revise-down", "remainder")),
    "rounded": Recipe(kind=Kind.QUOTIENTS, digits=2, by=1, facts=("round",), count=5),
    "roots": Recipe(kind=Kind.ROOTS, digits=2),
    "partners": Recipe(kind=Kind.PARTNERS, count=30),
    "strip": Recipe(kind=Kind.STRIP, rows=3, digits=2),
    "frame": Recipe(kind=Kind.FRAME),
    "ladder": Recipe(kind=Kind.LADDER, rows=3, digits=2, count=18),
}
ANYWHERE = ["read facts", "minus", "five and ten", "below zero", "quotients", "partners"]
"""What is made in other processes as well."""
EACH_DAY = (
    "read",
    "set facts",
    "minus",
    "five and ten",
    "below zero",
    "signs",
    "partners",
    "ladder",
)
SEEDS = (1, 9999)
DAILY = SEEDS[:1]


@pytest.fixture(params=some_daily(tuple(RECIPES), EACH_DAY))
def recipe(request):
    return RECIPES[request.param]


@cache
def made(recipe):
    return make(recipe)


@pytest.fixture(params=some_daily(SEEDS, DAILY))
def sheet(request, recipe):
    return made(replace(recipe, seed=request.param))


def terms_of(task):
    """The numbers of a column, in ones of its last decimal."""
    return [int(term.scaleb(1)) for term in task.sum.terms]


def test_a_sheet_has_as_many_tasks_as_are_asked_for(sheet):
    recipe = sheet.recipe
    wanted = {Kind.FRAME: 0, Kind.STRIP: 1}.get(recipe.kind, recipe.count)
    assert len(sheet.tasks) == wanted


def test_the_tasks_are_of_its_kind(sheet):
    sorts = {Kind.PRODUCTS: Product, Kind.QUOTIENTS: Quotient, Kind.ROOTS: Root}
    asks = {Kind.READ: Asks.READ, Kind.SET: Asks.SET}
    kind = sheet.recipe.kind
    for task in sheet.tasks:
        assert isinstance(task.sum, sorts.get(kind, Sum))
        assert task.kind is asks.get(kind, Asks.SUM)


def test_each_task_needs_its_fact_and_nothing_untaught(sheet):
    recipe = sheet.recipe
    for task in sheet.tasks:
        assert task.facts  # Planned on its rods, it fits.
        assert not recipe.facts or task.facts <= recipe.known
    assert not recipe.facts or is_in_turn(recipe.facts, sheet.tasks)


def test_no_task_comes_twice_where_there_are_others(sheet):
    if sheet.recipe.kind is not Kind.PARTNERS:
        assert len({task.sum for task in sheet.tasks}) == len(sheet.tasks)


def test_numbers_are_as_long_as_is_asked(sheet):
    recipe = sheet.recipe
    longest = {Kind.PRODUCTS: max(recipe.digits, recipe.by)}.get(recipe.kind, recipe.digits)
    for task in sheet.tasks if recipe.kind not in (Kind.QUOTIENTS, Kind.ROOTS) else ():
        if recipe.kind is Kind.PARTNERS:
            continue
        assert all(len(number.as_tuple().digits) <= longest for number in task.sum.numbers)
        if recipe.kind is Kind.COLUMNS:
            assert len(task.sum.terms) == recipe.rows


def test_nothing_is_taken_away_that_need_not_be(sheet):
    recipe = sheet.recipe
    if recipe.kind in (Kind.COLUMNS, Kind.STRIP, Kind.LADDER) and not recipe.facts:
        taken = [min(terms_of(task)) < 0 for task in sheet.tasks]
        assert taken == [recipe.minus] * len(taken)


def test_columns_are_fair(sheet):
    may_sink = "below-zero" in sheet.recipe.facts
    if sheet.recipe.kind not in (Kind.COLUMNS, Kind.STRIP, Kind.LADDER):
        return
    for task in sheet.tasks:
        terms = terms_of(task)
        totals = list(accumulate(terms))
        assert all(terms) and not any(one == -other for one, other in pairwise(terms))
        assert may_sink or min(totals) >= 0
        assert totals.count(0) <= 1


def test_the_answers_are_right_by_whole_numbers(sheet):
    for task in sheet.tasks:
        match task.sum:
            case Sum(terms):
                assert int(task.sum.result.scaleb(1)) == sum(int(t.scaleb(1)) for t in terms)
            case Product(one, other):
                assert int(task.sum.result) == int(one) * int(other)
            case Quotient(some, by) if task.sum.places is None:
                assert (int(task.sum.result), int(task.sum.remainder)) == divmod(int(some), int(by))
            case Quotient(some, by):
                tenths = (20 * int(some) + int(by)) // (2 * int(by))
                assert int(task.sum.result.scaleb(1)) == tenths
            case Root(square):
                assert int(task.sum.result) == isqrt(int(square))
        if task.kind is Asks.SUM:
            assert plan_of(task.sum, rods=task.rods).result == task.sum.result


@pytest.mark.parametrize("terms", ["7 -7 3", "3 4 -7 2 5 -7", "5 0 2", "3 -5"])
def test_columns_without_work_are_not_fair(terms):
    assert not is_fair(Sum(tuple(map(Decimal, terms.split()))))


@pytest.mark.parametrize(
    ("terms", "varied"),
    [
        ("7", True), ("7 8", True), ("7 7", False), ("7 -7", False), ("7 8 7", False),
        ("7 8 9", True), ("7 8 7 8", True), ("7 8 -7 1", True), ("7 8 8 7", False),
        ("7 8 7 1 2", True), ("7 8 7 1 -7", False), ("12 34 12 34 56 78", True),
    ],
)  # fmt: skip
def test_a_column_is_varied_if_no_number_stands_out(terms, varied):
    assert is_varied([int(term) for term in terms.split()]) == varied


@pytest.mark.parametrize(("rows", "digits"), [(2, 1), (3, 1), (5, 1), (15, 1), (3, 2), (10, 6)])
def test_columns_of_any_numbers_are_varied(rows, digits):
    minus = rows in (3, 10)
    sheet = made(
        Recipe(kind=Kind.COLUMNS, rows=rows, digits=digits, minus=minus, version=Version.B)
    )
    assert all(is_varied(task.sum.numbers) for task in sheet.tasks)


def test_the_same_recipe_makes_the_same_sheet_in_any_process():
    program = (
        "from dataclasses import asdict, replace\n"
        "import sys; sys.path[:0] = ['tests/sheets', 'tests']\n"
        "from test_making import RECIPES\n"
        "from frame.sheets.making import make\n"
        "from frame.sheets.recipe import Version\n"
        f"for name in {ANYWHERE}:\n"
        "    for one in Version:\n"
        "        print(make(replace(RECIPES[name], seed=3, count=8, version=one)))\n"
    )

    def printed(hash_seed):
        environment = {**os.environ, "PYTHONHASHSEED": hash_seed, "PYTHONPATH": str(ROOT)}
        run = [sys.executable, "-c", program]
        done = subprocess.run(run, cwd=ROOT, env=environment, capture_output=True, check=True)
        return done.stdout

    first = printed("1")
    assert len(first.splitlines()) == 3 * len(ANYWHERE)
    assert first == printed("4711")


def test_another_seed_makes_another_sheet(recipe):
    if recipe.kind is not Kind.FRAME:
        assert made(recipe).tasks != made(replace(recipe, seed=2)).tasks


def test_leaf_key_and_school_change_no_number(recipe):
    school = Conventions(layout=Operands.NONE)
    plain, other = made(recipe), make(replace(recipe, leaf=Leaf.LETTER, is_worked=True), school)
    assert [one.sum for one in plain.tasks] == [one.sum for one in other.tasks]
    for task in other.tasks:
        if task.kind is Asks.SUM:
            plan_of(task.sum, school, task.rods)


def test_the_order_in_which_facts_are_named_changes_nothing():
    recipe = RECIPES["five and ten"]
    assert make(replace(recipe, facts=recipe.facts[::-1])).tasks == made(recipe).tasks


def test_few_tasks_come_again_as_late_as_can_be():
    found = [str(task) for task in make(Recipe(kind=Kind.SET, digits=1, count=25)).tasks]
    assert len(set(found)) == 9
    assert all(len(set(found[at : at + 9])) == 9 for at in range(17))


def test_every_partner_comes_as_often_as_every_other():
    for version in Version:
        tasks = make(Recipe(kind=Kind.PARTNERS, count=26, version=version)).tasks
        wanted = {f"{whole} - {one}" for whole in (5, 10) for one in range(1, whole)}
        assert Counter(map(str, tasks)) == dict.fromkeys(wanted, 2)


def test_partners_of_the_facts_asked_for():
    tasks = make(Recipe(kind=Kind.PARTNERS, count=2, facts=("add-five-3", "sub-ten-7"))).tasks
    assert {str(task) for task in tasks} == {"5 - 3", "10 - 7"}


def test_a_ladder_has_the_same_sort_of_sums_with_less_and_less_in_sight():
    sheet = made(RECIPES["ladder"])
    assert [section.way for section in sheet.sections] == list(LADDER)
    assert [len(section.tasks) for section in sheet.sections] == [5, 5, 4, 4]


def test_each_kind_is_done_in_its_way():
    ways = {"read": Way.SHOWN, "set": Way.WRITTEN, "columns": Way.BEADS, "roots": Way.BEADS,
            "partners": Way.CARDS, "strip": Way.FOLLOWED}  # fmt: skip
    assert {name: made(RECIPES[name]).sections[0].way for name in ways} == ways


IMPOSSIBLE = {
    "takes all away": Recipe(kind=Kind.COLUMNS, facts=("sub-direct-9",)),
    "no room to run on": Recipe(kind=Kind.COLUMNS, facts=("ripple-sub",)),
    "ten times direct": Recipe(kind=Kind.COLUMNS, rows=15, facts=("add-direct-1",)),
    "one digit by one": Recipe(kind=Kind.PRODUCTS, facts=("multiply-2",)),
    "too long": Recipe(kind=Kind.COLUMNS, digits=15),
    "too many": Recipe(kind=Kind.COLUMNS, rows=16),
    "a short ladder": Recipe(kind=Kind.LADDER, count=2),
    "no such frame": Recipe(kind=Kind.PRODUCTS, digits=14, by=14, count=1),
}


@pytest.mark.parametrize("name", IMPOSSIBLE)
def test_what_cannot_be_drawn_is_said_with_what_can(name):
    recipe = IMPOSSIBLE[name]
    with pytest.raises(SheetError) as caught:
        make(recipe)
    error = caught.value
    assert error.recipe == recipe
    assert not error.fact or error.fact in recipe.facts
    assert error.nearest is not None and make(error.nearest).tasks


@pytest.mark.parametrize(
    "recipe",
    [
        Recipe(kind=Kind.READ, facts=("add-five-3",)),
        Recipe(kind=Kind.PRODUCTS, facts=("divide-1",)),
        Recipe(kind=Kind.COLUMNS, facts=("multiply-1",)),
        Recipe(kind=Kind.SET, facts=("clear",)),
        Recipe(kind=Kind.PARTNERS, facts=("ripple-add",)),
        Recipe(kind=Kind.QUOTIENTS, by=2, digits=2, facts=("revise-up",)),
    ],
)
def test_facts_that_a_kind_never_needs_are_refused(recipe):
    with pytest.raises(SheetError) as caught:
        make(recipe)
    assert caught.value.fact == recipe.facts[0]
    assert caught.value.nearest is None


@pytest.mark.parametrize("version", [Version.B, Version.C])
def test_versions_are_for_the_same_facts_in_the_same_places(recipe, version):
    if not recipe.facts or recipe.kind is Kind.PARTNERS:
        return
    others = made(replace(recipe, version=version)).tasks
    assert is_in_turn(recipe.facts, made(recipe).tasks, others)
    for task in others:
        assert task.facts <= recipe.known
        assert is_fair(task.sum, "below-zero" in recipe.facts)


@pytest.mark.parametrize(
    "family", [Family.ADD_DIRECT, Family.ADD_FIVE, Family.ADD_TEN, Family.SUB_TEN, Family.COLUMNS]
)
def test_with_minus_a_number_is_taken_away_in_each_column_also_for_facts(family):
    facts = facts_of(family)
    for kind in (Kind.COLUMNS, Kind.LADDER):
        extent = asdict(sized(kind, facts, {"count": 10}, minus=True))
        sheet = make(Recipe(kind=kind, facts=facts, minus=True, **extent))
        assert all(min(task.sum.terms) < 0 for task in sheet.tasks)
        assert all(task.facts <= sheet.recipe.known for task in sheet.tasks)


@pytest.mark.parametrize(("digits", "by"), [(2, 1), (3, 2)])
def test_of_a_quotient_the_digits_are_those_of_the_answer(digits, by):
    for task in make(Recipe(kind=Kind.QUOTIENTS, digits=digits, by=by)).tasks:
        assert len(str(task.sum.result)) == digits and len(str(task.sum.divisor)) == by
    for task in make(Recipe(kind=Kind.ROOTS, digits=digits, count=3)).tasks:
        assert len(str(task.sum.result)) == digits


@pytest.mark.parametrize("digits", [1, 2])
def test_what_is_read_does_not_run_in_order(digits):
    facts = of_family(Family.READ)[: 9 + digits]
    for seed in range(1, 6):
        recipe = Recipe(kind=Kind.READ, count=30, digits=digits, facts=facts, seed=seed)
        numbers = [task.sum.result for task in make(recipe).tasks]
        rising = sum(one < other for one, other in pairwise(numbers))
        assert len(numbers) / 4 < rising < len(numbers) * 3 / 4
        assert all(one != other for one, other in pairwise(numbers))


def test_likeness_of_a_sheet_with_itself_and_with_a_harder_one():
    easy, hard = made(RECIPES["five"]).tasks, made(RECIPES["five and ten"]).tasks
    assert likeness(easy, easy) == (0, 0, 0, len(easy))
    assert not likeness(easy, hard).is_equal


PROCEDURES = {
    Family.MULTIPLY: (Kind.PRODUCTS, {"digits": 2, "by": 1}),
    Family.DIVIDE: (Kind.QUOTIENTS, {"digits": 2, "by": 2}),
    Family.BELOW_ZERO: (Kind.COLUMNS, {"digits": 2, "rows": 3}),
    Family.ROOT: (Kind.ROOTS, {"digits": 2}),
}
SIZES = {
    "multiply-2": {"by": 2}, "multiply-3": {"by": 3},
    **{fact: {"by": 1} for fact in ("divide-1", "place-quotient", "place-quotient-far")},
}  # fmt: skip


@pytest.mark.parametrize(
    "fact", [one for one in of_family(*PROCEDURES) if one not in ("revise-up", "place-product")]
)
def test_a_procedure_is_practised_alone_with_what_is_taught_by_then(fact):
    kind, size = PROCEDURES[family_of_fact(fact)]
    recipe = Recipe(kind=kind, count=4, facts=(fact,), **{**size, **SIZES.get(fact, {})})
    for task in make(recipe).tasks:
        assert fact in task.facts and task.facts <= recipe.known

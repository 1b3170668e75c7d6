"""What is chosen to be practised becomes a set that can be drawn, and asks for what was chosen."""

from contextlib import suppress
from dataclasses import replace
from itertools import product
from random import Random
from time import process_time

import pytest
from each import each_row
from proofs import some_daily
from shipped import the_course

from frame.practice import drawing, exercises
from frame.practice.choices import (
    CALL_PACES,
    FLASH_SECONDS,
    MOST_BY,
    SET,
    SHORT_SET,
    USUAL_DIGITS,
    Beads,
    Choices,
    Sight,
    families_known,
    suggested,
)
from frame.practice.columns import MOST_DIGITS, MOST_ROWS
from frame.practice.drawing import ExerciseError, draw, drawable
from frame.practice.exercises import Kind, plan_for
from frame.practice.families import Family, family_of
from frame.practice.flashing import COUNT, DIGITS, INTERVAL, LEVELS, FlashSetting
from frame.practice.ladder import RUNGS, USUAL_RULES, Try
from frame.practice.own_ladder import levels_of
from frame.practice.rungs import Asked, Rung
from frame.practice.standing import Ladder
from frame.practice.why import Reason
from frame.technique.beads import MOST_RODS
from frame.technique.conventions import USUAL, Conventions, First, Operands, Outer
from frame.technique.expression import Sum
from frame.technique.facts import ALL_FACTS

KNOWN = frozenset(ALL_FACTS)
COURSE = the_course()
AS_CHOSEN = [Family.READ, Family.SET, Family.BELOW_ZERO, *[f for f in Family if f.grows]]
"""The families whose exercises are numbers and columns of whole numbers."""


def chosen(asked=Asked.SHOWN, **what):
    return Choices(asked).choose(**what)


def request_of(asked=Asked.SHOWN, known=KNOWN, tries=(), conventions=USUAL, **what):
    return chosen(asked, **what).request(known, Ladder.of(tries), conventions)


def drawn_of(request, seed):
    """The set of a request, without what it cannot draw."""
    random = Random(seed)
    facts = drawable(request, random) if request.facts else ()
    return draw(replace(request, facts=facts), random)


def tries_of(family, rods, rung, count, **more):
    one = Try(family, rods, rung, True, 0, 4.0, frozenset({"add-direct-1"}), **more)
    return [one] * count


def mastered(family, rods):
    rungs = list(Rung)[list(Rung).index(Rung.ALONE) :]
    return [one for rung in rungs for one in tries_of(family, rods, rung, 10)]


# Beads


@each_row("digits", [None, 1, 2, 3, 7, MOST_DIGITS])
@each_row("family", Family)
def test_every_family_can_be_practised_by_whoever_knows_everything(family, digits):
    request = request_of(family=family, digits=digits)
    drawn = drawn_of(request, 1)
    assert len(drawn) == SET
    assert all(family_of(one.facts) is family for one in drawn)
    assert all((plan_for(one, USUAL) is None) is (one.kind is Kind.READ) for one in drawn)


SIZES = [
    pytest.param(digits, rows, marks=[] if digits in (1, 2, 14) and rows in (2, 3, 15) else proof)
    for proof in [pytest.mark.proof]
    for digits, rows in product(range(1, MOST_DIGITS + 1), range(2, MOST_ROWS + 1))
]


@pytest.mark.parametrize(("digits", "rows"), SIZES)
@each_row("family", AS_CHOSEN)
def test_as_many_numbers_as_are_chosen_and_all_with_just_the_digits_chosen(family, digits, rows):
    """But that single digits cannot be taken through ten, or run on: there the first has two."""
    request = request_of(family=family, digits=digits, rows=rows)
    for one in drawn_of(request, 2):
        first, *others = one.sum.numbers
        assert {len(str(abs(number))) for number in others} <= {digits}
        assert len(str(first)) == max(digits, family.least_digits)
        assert one.kind is not Kind.SUM or len(one.sum.numbers) == min(rows, family.most_rows)


@pytest.mark.parametrize("digits", some_daily([1, 2, 7, MOST_DIGITS], [1, MOST_DIGITS]))
@pytest.mark.parametrize("by", some_daily(range(1, MOST_BY + 1), [1, MOST_BY]))
@pytest.mark.parametrize("family", [Family.MULTIPLY, Family.DIVIDE, Family.ROOT, Family.DECIMALS])
@pytest.mark.parametrize(
    "school",
    [USUAL, Conventions(outer=Outer.MULTIPLIER), Conventions(layout=Operands.NONE),
     Conventions(outer=Outer.MULTIPLIER, first=First.LOWEST)],
    ids=["usual", "multiplier", "none", "lowest"],
)  # fmt: skip
def test_the_frame_is_as_wide_as_the_work_of_a_school_needs(family, digits, by, school):
    request = request_of(family=family, digits=digits, by=by, rows=15, conventions=school)
    assert request.rods <= MOST_RODS
    for one in drawn_of(request, 5):
        plan = plan_for(one, school)
        assert len(plan.start.digits) == request.rods
        if family is Family.MULTIPLY:
            assert [len(str(abs(number))) for number in one.sum.numbers] == [digits, by]


def stages(family):
    """What a learner knows after each lesson that teaches something of a family, and at the end."""
    known, found = frozenset(), {}
    for entry in COURSE.lessons:
        known |= set(entry.new)
        if any(family_of([fact]) is family for fact in entry.new):
            found[entry.id] = known
    return [*found.values(), known]


@pytest.mark.proof
@pytest.mark.parametrize("family", Family)
def test_no_set_that_can_be_chosen_takes_many_tries(family, monkeypatch):
    """A try that is planned takes half a thousandth of a second, one that is not a twentieth of
    that: what a set takes to begin is bounded by both counts."""
    tries, plans = [], []
    for name, calls in (("_any_exercise", tries), ("plan_of", plans)):
        module = drawing if name == "_any_exercise" else exercises
        made = getattr(module, name)

        def counted(*facts, made=made, calls=calls):
            calls.append(facts)
            return made(*facts)

        monkeypatch.setattr(module, name, counted)
    rows = range(2, family.most_rows + 1) if family.is_of_columns else [2]
    digits = [*([None] if family.grows else []), *range(1, MOST_DIGITS + 1)]
    by = [1] if family.grows else range(1, MOST_BY + 1)
    rungs = [None, Rung.NUMBER] if family is Family.DIVIDE else [None]
    for known, *sized in product(stages(family), digits, rows, by, rungs):
        chosen = dict(zip(("digits", "rows", "by", "rung"), sized, strict=True))
        request = request_of(family=family, known=known, **chosen)
        tries.clear(), plans.clear()
        with suppress(ExerciseError):
            drawn_of(request, 3)
        assert len(tries) <= 3000, chosen
        assert len(tries) <= 3000 and len(plans) <= 150, chosen


def test_the_longest_and_most_numbers_are_drawn_in_no_time():
    """A fifth of a second for the slowest of all, with what can be drawn found out first."""
    slowest = 0.0
    for family, digits, rows in product(AS_CHOSEN, (1, MOST_DIGITS), (2, MOST_ROWS)):
        begun = process_time()
        drawn_of(request_of(family=family, digits=digits, rows=rows), 3)
        slowest = max(slowest, process_time() - begun)
    assert slowest < 0.2


@pytest.mark.parametrize("rung", Rung)
def test_a_chosen_rung_is_asked_at_throughout(rung):
    request = request_of(family=Family.ADD_FIVE, rung=rung)
    assert request.probe is None
    assert {one.rung for one in drawn_of(request, 3)} == {rung}


def test_only_facts_of_the_family_are_wanted_and_only_known_ones():
    known = frozenset({"add-five-3", "add-five-4", "add-direct-1", "read-digit-3"})
    request = request_of(known=known, family=Family.ADD_FIVE)
    assert set(request.facts) == {"add-five-3", "add-five-4"}
    assert request.known == known


@pytest.mark.parametrize("family", [Family.SUB_FIVE, Family.SUB_TEN, Family.ADD_TEN_FIVE])
@pytest.mark.parametrize("digits", [1, 5, MOST_DIGITS])
def test_nothing_is_needed_that_is_not_known(family, digits):
    """Of the easier families half the facts, and of its own two."""
    easier = list(Family)[: list(Family).index(family)]
    some = {fact for at, fact in enumerate(ALL_FACTS) if at % 2 and family_of([fact]) in easier}
    numbers = {fact for fact in ALL_FACTS if family_of([fact]) in (Family.READ, Family.SET)}
    own = [fact for fact in ALL_FACTS if family_of([fact]) is family][:2]
    known = frozenset({*some, *numbers, *own, "add-direct-1", "sub-direct-1", "add-five-1"})
    for one in drawn_of(request_of(known=known, family=family, digits=digits, rows=3), 4):
        assert one.facts <= known
        assert one.facts & set(own)


def test_the_ladder_says_the_rung_and_the_rods_where_nothing_else_is_chosen():
    family = Family.ADD_FIVE
    usual = chosen(family=family)
    assert usual.standing(Ladder()) == (Rung.ALONE, 1)
    climbed = tries_of(family, 1, Rung.ALONE, USUAL_RULES.up_after)
    assert usual.standing(Ladder.of(climbed)) == (Rung.PALE, 1)
    others = [one._replace(family=Family.ADD_TEN) for one in climbed]
    assert usual.standing(Ladder.of(others)) == (Rung.ALONE, 1)
    assert usual.choose(rung=Rung.TRACES).standing(Ladder.of(climbed)) == (Rung.TRACES, 1)
    assert usual.choose(digits=2).standing(Ladder.of(climbed)) == (Rung.ALONE, 2)
    assert usual.standing(Ladder.of(mastered(family, 1))) == (Rung.ALONE, 2)


ON_FEWEST_RODS = {
    **{family: (1, 1, 1) for family in Family if family.grows},
    Family.ADD_TEN: (2, 1, 1), Family.ADD_TEN_FIVE: (2, 1, 1),
    Family.SUB_TEN: (2, 2, 1), Family.SUB_TEN_FIVE: (2, 2, 1), Family.COLUMNS: (3, 3, 2),
}  # fmt: skip
"""Rods, and how many digits the first number and the others may have."""


@each_row("more", [0, 2])
@each_row("family", ON_FEWEST_RODS)
def test_by_the_ladder_numbers_grow_with_the_rods(family, more):
    """Of what adds, nothing stands on the highest rod before it comes there."""
    rods, first, others = (figure + more for figure in ON_FEWEST_RODS[family])
    tries = [one for fewer in range(rods - more, rods) for one in mastered(family, fewer)]
    request = request_of(tries=tries, family=family)
    assert request.rods == rods
    for one in drawn_of(request, 10):
        numbers = [len(str(abs(number))) for number in one.sum.numbers]
        assert numbers[0] <= first
        assert max(numbers[1:], default=1) <= others


def test_by_the_ladder_now_and_then_comes_a_probe_of_the_rung_below():
    tries = tries_of(Family.ADD_FIVE, 1, Rung.ALONE, USUAL_RULES.up_after)
    request = request_of(tries=tries, family=Family.ADD_FIVE)
    assert (request.rung, request.probe) == (Rung.PALE, Rung.ALONE)


def test_without_digits_families_that_do_not_grow_have_the_usual_ones():
    request = request_of(family=Family.MULTIPLY)
    assert (request.digits, request.rods) == (USUAL_DIGITS, 13)


def test_why_is_told_of_what_the_ladder_says_and_of_nothing_else():
    family = Family.ADD_FIVE
    usual = chosen(family=family)
    climbed = tries_of(family, 1, Rung.ALONE, USUAL_RULES.up_after)
    assert usual.why(Ladder()).reason is Reason.BEGIN
    assert usual.why(Ladder.of(climbed)).reason is Reason.RIGHT
    assert usual.why(Ladder.of(mastered(family, 1))).reason is Reason.ROD
    assert usual.choose(digits=2).why(Ladder.of(climbed)).reason is Reason.BEGIN
    for without in ({"rung": Rung.PALE}, {"own": True}):
        assert usual.choose(**without).why(Ladder.of(climbed)) is None
    assert chosen(Asked.CALLED).why(Ladder.of(climbed)) is None


# A frame of one's own


@pytest.mark.parametrize("own", [False, True])
def test_a_frame_of_ones_own_is_for_sums(own):
    request = request_of(family=Family.ADD_FIVE, own=own)
    assert all(one.own is one.by_answer is own for one in drawn_of(request, 4))


@pytest.mark.parametrize("family", [Family.READ, Family.SET])
def test_nothing_is_read_or_set_on_a_frame_that_nobody_sees(family):
    drawn = drawn_of(request_of(family=family, own=True, digits=2), 4)
    assert not any(one.own for one in drawn)


def passed(asked, level, family=Family.ADD_FIVE):
    """What lifts whoever stands at a level, or below it, to the next."""
    size = {"digits": level.digits, "terms": level.rows, "pace": level.pace}
    return tries_of(family, 1, Rung.ALONE, 10, asked=asked, own=True, **size)


@pytest.mark.parametrize("asked", Asked)
def test_on_ones_own_frame_its_ladder_says_what_is_not_chosen(asked):
    what = {"sight": Sight.OWN} if asked is Asked.CALLED else {"own": True}
    what |= {"family": Family.ADD_FIVE} if asked is Asked.SHOWN else {}
    levels = levels_of(asked, what.get("family"))
    at = len(levels) // 2
    history = passed(asked, levels[at])
    request, level = request_of(asked, tries=history, **what), levels[at + 1]
    assert (request.digits, request.terms, request.own) == (level.digits, level.rows, True)
    assert request.pace == pytest.approx(level.pace)
    assert len(drawn_of(request, 6)[0].sum.terms) == level.rows
    first = request_of(asked, **what)
    assert (first.digits, first.terms) == levels[0][1:3]


@pytest.mark.parametrize("asked", [Asked.SHOWN, Asked.CALLED])
def test_what_is_chosen_stays_chosen_on_ones_own_frame(asked):
    own = {"sight": Sight.OWN} if asked is Asked.CALLED else {"own": True}
    request = request_of(asked, digits=7, **own)
    assert (request.digits, request.terms) == (7, levels_of(asked)[0].rows)


def test_products_on_ones_own_frame_have_no_ladder():
    history = passed(Asked.SHOWN, levels_of(Asked.SHOWN)[20], Family.MULTIPLY)
    request = request_of(tries=history, family=Family.MULTIPLY, own=True)
    assert (request.digits, request.own) == (USUAL_DIGITS, True)


# Called


SEEN = {
    Sight.SEEN: Rung.ALONE, Sight.PALE: Rung.PALE, Sight.COVERED: Rung.COVERED,
    Sight.NONE: Rung.NUMBER, Sight.OWN: Rung.NUMBER,
}  # fmt: skip


@pytest.mark.parametrize("sight", Sight)
def test_what_is_seen_of_the_frame_in_a_call(sight):
    request = request_of(Asked.CALLED, sight=sight)
    drawn = drawn_of(request, 5)
    assert len(drawn) == SHORT_SET
    assert {one.rung for one in drawn} == {SEEN[sight]}
    assert all(one.own is (sight is Sight.OWN) for one in drawn)
    assert all(one.asked is Asked.CALLED and one.by_answer for one in drawn)


@pytest.mark.parametrize("rows", [2, MOST_ROWS])
@pytest.mark.parametrize("digits", [1, 7, MOST_DIGITS])
def test_called_columns_fit_the_frame_and_have_the_digits_asked_for(digits, rows):
    what = {"digits": digits, "rows": rows, "minus": True, "by_place": True}
    for exercise in drawn_of(request_of(Asked.CALLED, **what), 6):
        assert len(exercise.sum.terms) == rows
        assert {len(str(abs(term))) for term in exercise.sum.terms} == {digits}
        assert plan_for(exercise, USUAL).result == exercise.sum.result
        assert exercise.by_place


@pytest.mark.parametrize("pace", CALL_PACES)
def test_the_pace_of_a_call_is_the_silence_between_two_numbers(pace):
    assert request_of(Asked.CALLED, pace=pace).pace == pace
    assert list(CALL_PACES) == sorted(CALL_PACES, reverse=True)


# Flashed


@each_row("level", LEVELS)
def test_flashed_numbers_of_every_level(level):
    drawn = drawn_of(Choices(Asked.FLASHED).at(level).request(KNOWN, Ladder()), 7)
    assert len(drawn) == SHORT_SET
    for exercise in drawn:
        assert len(exercise.sum.terms) == level.setting.count
        assert {len(str(term)) for term in exercise.sum.terms} == {level.setting.digits}
        assert exercise.pace == pytest.approx(level.setting.interval)
        assert (exercise.rung, exercise.asked) == (Rung.NUMBER, Asked.FLASHED)


def test_every_value_that_can_be_turned_to_is_a_setting():
    for seconds in FLASH_SECONDS:
        assert INTERVAL[0] <= seconds <= INTERVAL[1]
        for digits, count in ((DIGITS[0], COUNT[0]), (DIGITS[1], COUNT[1])):
            setting = FlashSetting(digits, count, seconds)
            assert drawn_of(request_of(Asked.FLASHED, setting=setting), 8)


# All three


def test_each_way_of_asking_has_choices_of_its_own():
    """What is taken away, or worked on one's own frame, is chosen for one way and no other."""
    usual = Choices()
    for asked, part in zip(Asked, ("beads", "called", "flashed"), strict=True):
        names = {"beads": "own", "called": "minus", "flashed": "minus"}
        changed = replace(usual, asked=asked).choose(**{names[part]: True})
        assert changed.part == getattr(changed, part) != getattr(usual, part)
        for other in {"beads", "called", "flashed"} - {part}:
            assert getattr(changed, other) == getattr(usual, other)
    called = Choices(Asked.CALLED).choose(minus=True)
    assert called.request(KNOWN, Ladder()).minus
    assert not replace(called, asked=Asked.FLASHED).request(KNOWN, Ladder()).minus


@pytest.mark.parametrize("asked", Asked)
def test_any_level_can_be_chosen_and_the_next_set_is_at_it(asked):
    for level in levels_of(asked):
        request = Choices(asked).at(level).request(KNOWN, Ladder())
        asked_for = min(level.rows, Beads().family.most_rows)
        rows = asked_for if asked is Asked.SHOWN else level.rows
        assert (request.digits, request.terms) == (level.digits, rows)
        assert request.pace == pytest.approx(level.pace)


def test_a_calculation_of_every_family_is_of_its_kind():
    columns = {family for family in Family if family.is_of_columns}
    for family in Family:
        drawn = drawn_of(request_of(family=family), 9)
        assert any(isinstance(one.sum, Sum) for one in drawn) is (family in columns)


def test_the_families_known_come_in_the_order_of_the_course():
    assert families_known(frozenset()) == ()
    assert families_known(KNOWN) == tuple(Family)
    some = frozenset({"add-ten-3", "read-digit-1", "sub-direct-4"})
    assert families_known(some) == (Family.READ, Family.SUB_DIRECT, Family.ADD_TEN)


# What is suggested


def wholly_mastered(family):
    """Tries by which a family is mastered with as many rods as it can have."""
    rungs = RUNGS[: RUNGS.index(family.top) + 1]
    rods = range(family.least_rods, family.most_rods + 1)
    return [one for many in rods for one in mastered(family, many) if one.rung in rungs]


def test_the_furthest_family_that_is_known_and_not_mastered_is_suggested():
    known = frozenset(fact for fact in KNOWN if family_of([fact]) in (Family.READ, Family.SET))
    assert suggested(known, Ladder.of([])) == chosen(family=Family.SET)
    assert suggested(known, Ladder.of(wholly_mastered(Family.SET))) == chosen(family=Family.READ)
    both = Ladder.of([*wholly_mastered(Family.SET), *wholly_mastered(Family.READ)])
    assert suggested(known, both) == chosen(family=Family.SET)


def test_who_knows_nothing_is_suggested_what_cannot_be_asked_yet():
    assert not suggested(frozenset(), Ladder.of([])).can_be_asked(frozenset())


@each_row("family", Family)
def test_beads_can_be_asked_once_their_family_is_known_and_numbers_always(family):
    facts = frozenset(fact for fact in KNOWN if family_of([fact]) is family)
    assert chosen(family=family).can_be_asked(facts)
    assert not chosen(family=family).can_be_asked(KNOWN - facts)
    assert all(chosen(asked).can_be_asked(frozenset()) for asked in (Asked.CALLED, Asked.FLASHED))

"""What a lesson promises is checked by playing it: each promise, broken once, is caught."""

from collections.abc import Iterator
from contextlib import contextmanager
from decimal import Decimal
from typing import Any

import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st
from lesson_samples import BEFORE, CRATES, NETS, PLUS_FOUR, problems_of

from frame.course.checker import check_lesson, with_known
from frame.course.lesson import Practise
from frame.course.loader import load_lesson
from frame.course.problems import Problem
from frame.practice import drawing
from frame.practice.exercises import Exercise, Kind
from frame.technique.expression import Sum, parse_calculation
from frame.technique.facts import ADD_AND_TAKE, ALL_FACTS, PROCEDURES

PLUS = load_lesson(PLUS_FOUR, "plus.yaml")
PAST_ZERO = {"below-zero", "give-back"}
TAUGHT_ABOVE = frozenset(ALL_FACTS) - set(PROCEDURES)


def _codes(text: str, taught: frozenset[str] = BEFORE) -> set[str]:
    return {problem.code for problem in problems_of(text, taught=taught)}


def _lesson(steps: str, rods: int = 2, new: str = "") -> str:
    head = f"lesson: quay-2\ntitle: Lamps\nafter: quay-1\nrods: {rods}\nnew: [{new}]\nsteps:\n"
    return f"{head}  - {steps}\n"


def test_sound_lessons_have_no_problems() -> None:
    assert problems_of(PLUS_FOUR) == ()
    assert problems_of(CRATES) == ()
    assert problems_of(NETS, taught=frozenset(), others=frozenset()) == ()


@pytest.mark.parametrize("fact", sorted({f for s in PLUS.steps if hasattr(s, "exercise")
                                         for f in s.exercise.facts} - set(PLUS.new)))  # fmt: skip
def test_a_fact_taken_away_from_what_is_taught_is_missed(fact: str) -> None:
    problems = problems_of(PLUS_FOUR, taught=BEFORE - {fact})
    assert any(fact == one.facts.get("fact") for one in problems)


def test_a_lesson_without_the_one_that_teaches_is_caught() -> None:
    later = _lesson("sum: 3 + 4", rods=1)
    assert _codes(later, BEFORE | {"add-five-4"}) == set()
    assert _codes(later, BEFORE) == {"untaught"}


def test_a_new_fact_counts_only_when_the_learner_practises_it() -> None:
    assert _codes(_lesson("watch: 3 + 4", 1, "add-five-4")) == {"never-practised"}
    for name in ("follow", "finish", "sum"):
        assert _codes(_lesson(f"{name}: 3 + 4", 1, "add-five-4")) == set()
    drawn = "practise: {facts: [add-direct-1], mix: [add-five-4], count: 4, pass: 3}"
    assert _codes(_lesson(drawn, 1, "add-five-4")) == set()


@settings(max_examples=50)
@given(
    st.integers(0, 120), st.integers(-120, 120), st.integers(1, 3),
    st.sets(st.sampled_from(ALL_FACTS)),
)  # fmt: skip
@example(3, -15, 1, set())
@example(30, -150, 2, set())
@example(99, -98, 2, {"give-back"})
def test_a_sum_passes_exactly_when_it_fits_and_all_it_needs_is_taught(
    first: int, second: int, rods: int, away: set[str]
) -> None:
    sign = "-" if second < 0 else "+"
    taught = frozenset(ALL_FACTS) - away
    codes = _codes(_lesson(f"sum: {first} {sign} {abs(second)}", rods), taught)
    if max(first, first + second) >= 10**rods:
        assert codes == {"fit"}
    elif len(str(abs(second))) > rods:
        assert codes == {"rods"}
    else:
        column = Sum((Decimal(first), Decimal(second)))
        needed = Exercise(Kind.SUM, column, rods=rods).facts
        assert ("below-zero" in needed) is (first + second < 0)
        assert codes == ({"untaught"} if needed & away else set())


@pytest.mark.parametrize(
    ("column", "needed"),
    [("3 - 4", {"below-zero"}), ("-3 - 4", {"below-zero"}), ("3 - 4 + 2", PAST_ZERO),
     ("-1 + 2", PAST_ZERO), ("0.3 - 0.4", {"below-zero", "decimals"}), ("4 - 4 + 2", set())],
)  # fmt: skip
def test_below_zero_passes_exactly_when_it_is_taught(column: str, needed: set[str]) -> None:
    text = _lesson(f"sum: {column}", 3)
    assert problems_of(text, taught=frozenset(ALL_FACTS)) == ()
    assert needed == _facts(problems_of(text, taught=TAUGHT_ABOVE)) & set(PROCEDURES)
    for fact in needed:
        assert _facts(problems_of(text, taught=frozenset(ALL_FACTS) - {fact})) == {fact}


def _facts(problems: tuple[Problem, ...]) -> set[object]:
    """The facts of which the problems say that they are not taught."""
    assert {problem.code for problem in problems} <= {"untaught"}
    return {problem.facts["fact"] for problem in problems}


WORK = ["3 x 4", "12 x 345", "0.5 x 0.4", "-3 x 4", "42 / 6", "3588 / 46", "4.5 / 3", "43 / 6",
        "sqrt 49", "sqrt 1764", "1.5 + 20", "1.5 - 20", "3 - 4 + 2"]  # fmt: skip


@pytest.mark.parametrize("work", WORK)
def test_work_passes_exactly_when_the_rods_hold_it_and_all_it_needs_is_taught(work: str) -> None:
    everything = frozenset(ALL_FACTS)
    (problem,) = problems_of(_lesson(f"sum: {work}", 1), taught=everything)
    needed = problem.facts["needed"]
    assert isinstance(needed, int)
    assert (problem.code, problem.facts["found"], problem.facts["rods"]) == ("rods", work, 1)
    assert _codes(_lesson(f"sum: {work}", needed - 1), everything) == {"rods"}
    assert _codes(_lesson(f"sum: {work}", needed), everything) == set()
    for fact in Exercise(Kind.SUM, parse_calculation(work), rods=needed).facts:
        (missed,) = problems_of(_lesson(f"sum: {work}", needed), taught=everything - {fact})
        assert (missed.code, missed.facts["fact"]) == ("untaught", fact)


@pytest.mark.parametrize("number", ["4.5", "12.75", "0.5"])
def test_a_number_with_a_point_needs_a_rod_for_each_digit(number: str) -> None:
    rods = len(number) - 1
    for name in ("show", "read", "set", "clear"):
        few, enough = (_lesson(f"{name}: {number}", some) for some in (rods - 1, rods))
        assert _codes(few, frozenset(ALL_FACTS)) == {"rods"}
        assert _codes(enough, frozenset(ALL_FACTS)) == set()


@pytest.mark.parametrize("digit", range(1, 10))
def test_a_digit_tried_first_passes_when_the_work_can_go_on_with_it(digit: int) -> None:
    # 35 tens hold the 4 of the divisor 8 times; 6 is too small, and must be made larger.
    text = _lesson(f"watch: 3588 / 46\n    trial: {digit}", 13)
    assert _codes(text, frozenset(ALL_FACTS)) == (set() if digit <= 8 else {"trial"})
    untaught = _codes(text, frozenset(ALL_FACTS) - {"revise-up"})
    assert untaught == ({"untaught"} if digit < 7 else set() if digit <= 8 else {"trial"})


@pytest.mark.parametrize(
    ("steps", "right"),
    [("sum: 3 - 5", "-2"), ("sum: 0.3 - 1", "-0.7"), ("sum: 12 x (-3)", "-36"),
     ("sum: 43 / 6", "7"), ("sum: 10 / 4\n    places: 1", "2.5"), ("sum: sqrt 50", "7"),
     ("sum: 2 / 3\n    places: 2", "0.67"), ("set: 4.5", "4.5"), ("clear: 4.5", "0")],
)  # fmt: skip
def test_an_answer_may_have_a_sign_and_a_point(steps: str, right: str) -> None:
    taught = frozenset(ALL_FACTS)
    assert _codes(_lesson(f"{steps}\n    answer: {right}", 13), taught) == set()
    (problem,) = problems_of(_lesson(f"{steps}\n    answer: 999", 13), taught=taught)
    assert (problem.code, problem.facts["right"]) == ("answer", right)


@settings(max_examples=40)
@given(st.integers(0, 99), st.integers(0, 99), st.integers(0, 250))
def test_an_answer_passes_exactly_when_it_is_the_reading(
    first: int, second: int, answer: int
) -> None:
    taught = frozenset(ALL_FACTS)
    for steps, right in (
        (f"sum: {first} + {second}", first + second),
        (f"set: {first}", first),
        (f"read: {first}", first),
        (f"clear: {first}", 0),
    ):
        codes = _codes(_lesson(f"{steps}\n    answer: {answer}", 3), taught)
        assert codes == (set() if answer == right else {"answer"})


@pytest.mark.parametrize("last", [1, 2, 3])
def test_the_learner_finishes_no_more_strokes_than_there_are(last: int) -> None:
    # 1 + 4: the heaven bead down, one earth bead away.
    codes = _codes(_lesson(f"finish: 1 + 4\n    last: {last}"), frozenset(ALL_FACTS))
    assert codes == (set() if last <= 2 else {"last"})


def test_what_follows_a_set_that_cannot_be_drawn_is_out_of_reach_once() -> None:
    text = _lesson("practise: {facts: [set-tens], count: 2, pass: 1}\n  - say: Lo.\n  - say: Oh.")
    assert [one.code for one in problems_of(text)] == ["undrawable", "unreachable-draw"]


VAIN = "practise: {{facts: [root-revise], count: 2, pass: 1, digits: {}}}"


def test_after_too_much_in_vain_no_more_is_tried() -> None:
    """Only a lesson that has been found to be wrong is not looked at to its end."""
    for many in range(1, 9):
        steps = "\n  - ".join(VAIN.format(digits) for digits in range(2, 2 + many))
        codes = [one.code for one in problems_of(_lesson(steps, 35, "root-revise"))]
        assert codes.count("undrawable") == min(many, 3)
        assert codes.count("untried") == max(0, many - 3)


def test_many_sets_alike_are_tried_once(monkeypatch: pytest.MonkeyPatch) -> None:
    counts = []
    for many in (1, 20):
        with counted_tries(monkeypatch) as tries:
            steps = "\n  - ".join(["practise: {facts: [add-direct-2], count: 2, pass: 1}"] * many)
            assert _codes(_lesson(steps)) == set()
        counts.append(len(tries))
    assert counts[0] == counts[1] > 0


@pytest.mark.parametrize("rods", [1, 2, 9])
@pytest.mark.parametrize("sized", ["", ", terms: 3", ", terms: 15, digits: 1"])
def test_a_wide_set_on_few_rods_is_soon_checked(
    rods: int, sized: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Twenty sets for every sum, most of them impossible: so many tries take a second or so, where
    10 000 had been made for each fact."""
    with counted_tries(monkeypatch) as tries:
        facts = ", ".join(fact for fact in ADD_AND_TAKE)
        one = f"practise: {{facts: [{facts}], count: 2, pass: 1{sized}}}"
        codes = _codes(_lesson("\n  - ".join([one] * 20), rods), frozenset(ALL_FACTS))
    assert "undrawable" in codes or rods > 1
    assert len(tries) < 40_000


@contextmanager
def counted_tries(monkeypatch: pytest.MonkeyPatch) -> Iterator[list[str]]:
    """What columns and other work are made up for meanwhile."""
    tries: list[str] = []
    with monkeypatch.context() as patch:
        for name in ("taught_column", "any_calculation"):
            make = getattr(drawing, name)

            def counted(wanted: str, *rest: object, make: Any = make) -> object:
                tries.append(wanted)
                return make(wanted, *rest)

            patch.setattr(drawing, name, counted)
        yield tries


def test_a_lesson_read_in_part_is_not_said_to_leave_out_practice() -> None:
    text = _lesson("sum: three + four", 1, "add-five-4")
    assert _codes(text) == {"sum"}


def test_sets_may_need_all_that_is_known() -> None:
    known = BEFORE | set(PLUS.new)
    requests = [step.request for step in PLUS.steps if isinstance(step, Practise)]
    assert {request.known for request in requests} == {frozenset({"add-five-4"})}
    whole = with_known(PLUS, known)
    requests = [step.request for step in whole.steps if isinstance(step, Practise)]
    assert {request.known for request in requests} == {known}
    assert check_lesson(whole, "x", BEFORE, {"quay-1"}) == ()


LONGEST = " + ".join(["99999999999999"] * 15)
ALL_SUMS = "[add-direct-3, sub-five-2, add-ten-9, sub-ten-five-7, ripple-add, ripple-sub]"


@pytest.mark.parametrize(
    ("rods", "step"),
    [
        (16, f"practise: {{facts: {ALL_SUMS}, count: 6, pass: 3, terms: 15, digits: 14}}"),
        (16, f"sum: {LONGEST}"),
        (23, "practise: {facts: [multiply-3], count: 3, pass: 3, digits: 14, by: 3}"),
        (24, "practise: {facts: [divide-2, revise-down], count: 3, pass: 3, digits: 14, by: 3}"),
        (31, "practise: {facts: [root-digit], count: 3, pass: 3, digits: 14}"),
        (35, f"show: {'9' * 33}"),
    ],
    ids=["set", "column", "product", "quotient", "root", "shown"],
)
def test_numbers_of_fourteen_digits_and_fifteen_of_them_are_sound(rods: int, step: str) -> None:
    assert _codes(_lesson(step, rods), frozenset(ALL_FACTS)) == set()

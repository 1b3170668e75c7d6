"""What a lesson promises is checked by playing it: each promise, broken once, is caught."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lesson_samples import BEFORE, NETS, PLUS_FOUR, problems_of

from frame.course.checker import check_lesson, with_known
from frame.course.lesson import Practise
from frame.course.loader import load_lesson
from frame.practice.exercises import Exercise, Kind
from frame.technique.expression import Sum
from frame.technique.facts import ALL_FACTS

PLUS = load_lesson(PLUS_FOUR, "plus.yaml")


def _codes(text: str, taught: frozenset[str] = BEFORE) -> set[str]:
    return {problem.code for problem in problems_of(text, taught=taught)}


def _lesson(steps: str, rods: int = 2, new: str = "") -> str:
    head = f"lesson: quay-2\ntitle: Lamps\nafter: quay-1\nrods: {rods}\nnew: [{new}]\nsteps:\n"
    return f"{head}  - {steps}\n"


def test_sound_lessons_have_no_problems() -> None:
    assert problems_of(PLUS_FOUR) == ()
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


@given(
    st.integers(0, 120), st.integers(-120, 120), st.integers(1, 3),
    st.sets(st.sampled_from(ALL_FACTS)),
)  # fmt: skip
def test_a_sum_passes_exactly_when_it_fits_and_all_it_needs_is_taught(
    first: int, second: int, rods: int, away: set[str]
) -> None:
    sign = "-" if second < 0 else "+"
    taught = frozenset(ALL_FACTS) - away
    codes = _codes(_lesson(f"sum: {first} {sign} {abs(second)}", rods), taught)
    if max(first, first + second) >= 10**rods or first + second < 0:
        assert codes == {"fit"}
        return
    column = Sum((Decimal(first), Decimal(second)))
    needed = Exercise(Kind.SUM, column, rods=rods).facts
    assert codes == ({"untaught"} if needed & away else set())


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

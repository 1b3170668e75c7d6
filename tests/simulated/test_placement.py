"""Placement, tried with simulated learners: what holds for each, and how near it comes to them."""

from functools import cache
from random import Random
from statistics import median

import pytest
from placement import (
    course,
    imagined,
    late_learners,
    learners,
    needed_first,
    place,
    placed,
    share_near,
    share_too_early,
    share_too_far,
)
from proofs import some_daily

from frame.course.placement import Placement
from frame.practice.asking import MOST_ITEMS, MOST_SECONDS, YOUNG_MANNER
from frame.practice.families import family_of
from frame.practice.imagining import MOST_ITEMS as MOST_OF_STEPS
from frame.practice.rungs import Asked, Rung
from frame.technique.facts import ALL_FACTS

FEW = 12
PATIENT = 60
"""Seconds, at most, by which the last item runs over in these tests: none takes longer."""


@cache
def walks_of(young):
    count = FEW // 3 if young else FEW
    return [walk(one, str(at), young) for at, one in enumerate(learners(count, seed="few"))]


def walks(young=False):
    """All states of some learners, each from the beginning to the end."""
    return walks_of(young)


def walk(learner, seed, young=False, done=()):
    random, state = Random(f"answers {seed}"), begin(seed, young=young, done=done)
    states = [state]
    while item := state.next_item():
        state = state.answered(*learner.works(item, random))
        states.append(state)
    return states


def begin(seed="0", **more):
    return Placement.begin(course().lessons, Random(seed), **more)


def taught_by(lesson):
    """What is taught by the end of a lesson."""
    ids = [one.id for one in course().lessons]
    return {f for one in course().lessons[: ids.index(lesson) + 1] for f in one.new}


def hardest(item):
    """The place of the last lesson that teaches what an item needs."""
    lessons = enumerate(course().lessons)
    return max(at for at, one in lessons if not item.facts.isdisjoint(one.new))


def answer_all(state, right, seconds=5.0):
    while state.next_item():
        state = state.answered(right, seconds)
    return state


@pytest.mark.parametrize("young", some_daily([False, True], [True]))
def test_few_items_and_little_time(young):
    for *_, end in walks(young):
        assert len(end.answers) <= (YOUNG_MANNER.items if young else MOST_ITEMS)
        before = end.seconds - end.answers[-1].seconds
        assert before < MOST_SECONDS
        assert end.seconds < MOST_SECONDS + PATIENT


def test_no_item_comes_twice_and_all_are_worked_alone_on_a_frame_that_is_seen():
    for *_, end in walks():
        items = [answer.item for answer in end.answers]
        assert len({(item.kind, item.sum) for item in items}) == len(items)
        assert {item.rung for item in items} == {Rung.ALONE}


def test_an_item_needs_only_what_comes_before_the_lesson_that_it_is_about():
    for *_, end in walks():
        for answer in end.answers:
            lesson = course().lessons[hardest(answer.item)].id
            assert answer.item.facts <= taught_by(lesson)


def test_after_two_misses_comes_something_easier():
    found = 0
    for states in walks() + walks(True):
        for state in states:
            last = state.answers[-2:]
            if len(last) == 2 and not any(one.right for one in last) and state.next_item():
                found += 1
                assert hardest(state.next_item()) < min(hardest(one.item) for one in last)
    assert found > FEW // 2


def test_it_ends_with_what_succeeds_while_there_is_time():
    for *_, end in walks():
        is_short = len(end.answers) < MOST_ITEMS and end.seconds < MOST_SECONDS - PATIENT
        missed_all = not any(answer.right for answer in end.answers[-2:])
        assert not is_short or end.answers[-1].right or missed_all


def test_it_can_be_left_at_any_moment():
    for states in walks()[::4]:
        for state in states:
            result = state.result()
            assert result.lesson in course().by_id
            assert result.items == len(state.answers)


@pytest.mark.parametrize("young", [False, True])
def test_whoever_leaves_early_is_led_into_no_unit_of_which_nothing_succeeded(young):
    lessons = course().lessons
    for seed in "0123":
        state, right = begin(seed, young=young), set()
        for _ in range(3):
            right |= state.next_item().facts
            state = state.answered(True, 5.0)
            at = lessons.index(course().by_id[state.result().lesson])
            seen = {one.unit for one in lessons if not right.isdisjoint(one.new)}
            assert {one.unit for one in lessons[:at] if one.new} <= seen


def test_the_same_seed_and_answers_bring_the_same_items():
    one, other = (answer_all(begin("same"), True) for _ in range(2))
    assert one.answers == other.answers
    assert begin("same").next_item() == begin("same").next_item()
    assert one.answers != answer_all(begin("other"), True).answers


def test_who_knows_nothing_is_sent_to_the_first_lesson_within_few_items():
    end = answer_all(begin(), False)
    assert end.result().lesson == "beads-1"
    assert len(end.answers) <= 5
    assert end.result().families == ()


def test_who_knows_all_gets_the_last_lesson():
    end = answer_all(begin(), True)
    assert end.result().lesson == course().lessons[-1].id
    assert end.result().beside == "mind-one-1"


def test_nobody_is_asked_after_the_end():
    with pytest.raises(ValueError, match="no item"):
        answer_all(begin(), False).answered(True, 1.0)


def test_time_ends_it():
    state = begin().answered(True, MOST_SECONDS)
    assert state.next_item() is None
    assert state.result().items == 1


def test_what_is_done_is_not_suggested():
    lessons = course().lessons
    for at, learner in enumerate(learners(6, seed="done")):
        done = {one.id for one in lessons[: 16 * at]}
        states = walk(learner, str(at), done=done)
        for state in states:
            lesson = state.result().lesson
            assert lesson not in done
            assert lesson == lessons[-1].id or course().by_id[lesson].new


def test_where_all_is_done_nothing_is_asked():
    lessons = course().lessons
    state = begin(done={one.id for one in lessons})
    assert state.next_item() is None
    assert state.result().lesson == lessons[-1].id
    assert state.result().beside is None


def test_an_imagined_lesson_is_told_of_only_where_it_is_passed_over():
    for *_, end in walks():
        result = end.result()
        ids = [one.id for one in course().lessons]
        is_beyond = ids.index(result.lesson) > ids.index("mind-one-1")
        assert result.beside == ("mind-one-1" if is_beyond else None)


def test_every_claim_shows_its_count_and_most_are_true():
    claims = []
    for learner, (*_, end) in zip(learners(FEW, seed="few"), walks(), strict=True):
        for claim in end.result().families:
            own = {fact for fact in ALL_FACTS if family_of([fact]) is claim.family}
            about = [one for one in end.answers if not own.isdisjoint(one.item.facts)]
            assert claim.right == sum(one.right for one in about) > 0
            assert claim.right <= claim.asked <= len(about), "some lacked something else"
            assert 2 * claim.right > claim.asked, "more went well than not"
            claims.append(own <= learner.known)
    assert len(claims) > FEW
    assert sum(claims) >= 0.9 * len(claims)


def test_it_comes_near_to_what_few_learners_need():
    lessons = [states[-1].result().lesson for states in walks()]
    units = [unit.id for unit in course().units]
    off = [
        units.index(course().by_id[lesson].unit)
        - units.index(course().by_id[needed_first(learner.known)].unit)
        for lesson, learner in zip(lessons, learners(FEW, seed="few"), strict=True)
    ]
    assert sum(abs(one) <= 1 for one in off) >= 0.85 * FEW
    assert sum(one > 1 for one in off) <= 1


def test_more_succeeds_than_not():
    rights = [[answer.right for answer in end.answers] for *_, end in walks()]
    assert median(sum(right) / len(right) for right in rights) > 0.6


@pytest.mark.proof
def test_the_lesson_is_near_for_ninety_and_too_far_for_two_of_a_hundred():
    some = placed(500)
    assert len(some) == 500
    assert share_near(some) >= 0.9
    assert share_too_far(some) <= 0.02
    assert max(one.result.items for one in some) <= MOST_ITEMS


@pytest.mark.proof
def test_asked_as_the_young_it_is_near_for_less_and_too_far_for_more():
    some = placed(500, young=True)
    assert share_near(some) >= 0.88
    assert share_too_far(some) <= 0.03
    assert max(one.result.items for one in some) <= YOUNG_MANNER.items


@pytest.mark.proof
@pytest.mark.parametrize("young", [False, True])
def test_of_those_who_lack_only_what_is_late_a_fifth_is_sent_back_and_nobody_too_far(young):
    some = placed(200, young=young, some=late_learners)
    assert len(some) == 200
    assert share_too_early(some) <= (0.26 if young else 0.21)
    assert share_too_far(some) == 0


@pytest.mark.parametrize("asked", Asked)
def test_the_second_part_finds_the_step_or_one_nearby(asked):
    some = imagined(asked, 40)
    assert sum(abs(one.steps) <= 2 for one in some) >= 0.75 * len(some)
    assert sum(one.steps > 2 for one in some) <= 0.02 * len(some)
    assert max(one.found.asked for one in some) <= MOST_OF_STEPS


def test_a_simulated_learner_is_placed_alike_each_time():
    learner = next(learners(1))
    assert place(learner, "x") == place(learner, "x")

"""Today's set: what is in it and why, in which order, how it goes on and ends."""

import subprocess
import sys
from dataclasses import replace
from functools import cache
from itertools import cycle, pairwise
from pathlib import Path
from random import Random
from statistics import mean

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shipped import the_course

from frame.practice.confusions import confusable
from frame.practice.evidence import Evidence
from frame.practice.exercises import Kind
from frame.practice.families import Family, family_of
from frame.practice.items import ITEMS, items_of_facts
from frame.practice.ladder import Try
from frame.practice.mastery import Mastery, State
from frame.practice.own_ladder import levels_of
from frame.practice.prediction import PredictionRules, chance_of
from frame.practice.rungs import Asked, Rung
from frame.practice.schedule import DAY
from frame.practice.standing import Ladder
from frame.practice.today import Because, Done
from frame.practice.todays import today_of
from frame.practice.wanted import MIDDLE, OLDER, YOUNG, Situation, aloud_of, sets_of, wants_of
from frame.technique.facts import ALL_FACTS

LESSONS = Path(__file__).parents[2] / "lessons"
NOW = 1000 * DAY
BANDS = {"4-6": YOUNG, "7-9": MIDDLE, "10+": OLDER}


@cache
def taught():
    """The facts taught after each lesson of the course, and those of the lesson itself."""
    known, found = set(), []
    for lesson in the_course().lessons:
        known |= set(lesson.new)
        found.append((frozenset(known), lesson.new))
    return found


@cache
def practised(known, seed=0, right=0.95, days=30):
    """Evidence of so many days on which half of what is known was asked for."""
    random, mastery = Random(seed), Mastery()
    items = items_of_facts(known)
    for day in range(days, 0, -1):
        for item in random.sample(items, len(items) // 2):
            is_right, at = random.random() < right, NOW - day * DAY
            mastery.add(Evidence(item, at, str(day), is_right, False, 2.0))
    return mastery


def situation(lesson=-1, rules=MIDDLE, seed=1, mastery=None, tries=(), **more):
    known, new = taught()[lesson]
    later = [fact for _, facts in taught()[lesson:][1:4] for fact in facts] if lesson != -1 else []
    return Situation(
        mastery=practised(known, seed) if mastery is None else mastery,
        known=known, sets=sets_of(known, Ladder.of(tries)), now=NOW, seed=seed, rules=rules,
        new=new, soon=tuple(later), **more,
    )  # fmt: skip


AT = (0, 2, 4, 8, 10, 13, 17, 22, 31, 39, 44, 62, 69, 84)
SITUATIONS = [
    (lesson, band, seed) for seed, (lesson, band) in enumerate(zip(AT, cycle(BANDS), strict=False))
]
WITH = pytest.mark.parametrize(("lesson", "band", "seed"), SITUATIONS)


@cache
def made(lesson, band, seed, **more):
    asked = situation(lesson, BANDS[band], seed, **more)
    return asked, today_of(asked)


@WITH
def test_nothing_untaught_is_asked_but_what_is_shown_of_next_weeks_lessons(lesson, band, seed):
    asked, today = made(lesson, band, seed)
    for one in today.exercises:
        soon = {one.item} if one.because is Because.SOON else set()
        assert one.exercise.facts <= asked.known | soon
        assert not soon or one.exercise.rung is Rung.WATCH
    shown = [one.item for one in today.exercises if one.because is Because.SOON]
    assert len(shown) <= asked.rules.soon
    assert set(shown) <= set(asked.soon)


@WITH
def test_the_first_and_the_last_are_sure(lesson, band, seed):
    asked, today = made(lesson, band, seed)
    first, last = today.exercises[0], today.exercises[-1]
    assert min(first.success, last.success) >= asked.rules.sure
    assert {first.because, last.because} == {Because.SURE}


@WITH
def test_never_three_of_one_family_in_a_row(lesson, band, seed):
    _, today = made(lesson, band, seed)
    families = [one.family for one in today.exercises]
    assert not any(a == b == c for (a, b), (_, c) in pairwise(pairwise(families)))


@pytest.mark.parametrize("away", [1, 3, 33])
@pytest.mark.parametrize("lesson", [5, 7, 12])
def test_nor_where_there_is_little_to_ask(lesson, away):
    for seed in range(12):
        _, today = made(lesson, "4-6", seed, away=away, seconds=9.0)
        families = [one.family for one in today.exercises]
        assert not any(a == b == c for (a, b), (_, c) in pairwise(pairwise(families))), seed


@WITH
def test_no_exercise_twice_in_a_row(lesson, band, seed):
    _, today = made(lesson, band, seed)
    assert all(one.exercise != other.exercise for one, other in pairwise(today.exercises))


@pytest.mark.parametrize("lesson", [1, 2, 5])
def test_no_number_twice_in_a_row_where_there_are_others(lesson):
    for seed in range(8):
        exercises = [one.exercise for one in made(lesson, "4-6", seed)[1].exercises]
        assert all(one.sum != other.sum for one, other in pairwise(exercises))


@WITH
def test_success_is_likely_on_the_whole_and_nothing_is_asked_without_hope(lesson, band, seed):
    asked, today = made(lesson, band, seed)
    assert mean(one.success for one in today.exercises) >= asked.rules.low - 0.05
    can_be_led = [one for one in today.exercises if one.exercise.kind is not Kind.READ]
    alone = [one for one in can_be_led if not one.exercise.rung.is_led]
    assert all(one.success >= asked.rules.floor for one in alone)


@WITH
def test_each_is_in_for_what_it_asks(lesson, band, seed):
    asked, today = made(lesson, band, seed)
    wants = wants_of(asked)
    for one in today.exercises:
        if one.because in (Because.SOON, Because.CALLED, Because.FLASHED) or not one.item:
            continue
        assert one.item in one.items
        assert one.because is wants[one.item].because


@pytest.mark.parametrize("band", BANDS)
def test_a_set_takes_the_minutes_of_the_age_or_of_the_learners_own_pace(band):
    rules = BANDS[band]
    counts = {"4-6": 10, "7-9": 30, "10+": 60}
    assert len(today_of(situation(40, rules)).exercises) == counts[band]
    own = 60 * rules.minutes / 12
    assert len(today_of(situation(40, rules, seconds=own)).exercises) == 12


def test_whoever_was_away_has_less_and_easier_and_nothing_from_lessons_to_come():
    sets = [today_of(situation(40, away=days)) for days in (1, 2, 8, 31, 400)]
    lengths = [len(one.exercises) for one in sets]
    assert lengths == [30, 27, 21, 15, 15]
    asked = [situation(40).rules.after(days) for days in (1, 2, 8, 31)]
    assert all(one.low < other.low for one, other in pairwise(asked))
    for one in sets[1:]:
        assert Because.SOON not in {some.because for some in one.exercises}


def test_what_is_due_weak_hard_new_or_confused_is_wanted():
    known, _ = taught()[40]
    right = [Evidence(item, NOW - day * DAY, str(day), True, False, 2.0)
             for day in (2, 1) for item in items_of_facts(known)]  # fmt: skip
    mastery = Mastery.of([*right, Evidence("4+3", NOW - DAY / 2, "x", False)])
    asked = replace(situation(40, mastery=mastery), new=("add-ten-9",), hard=("7-2",), soon=())
    wants = wants_of(asked)
    assert wants["4+3"].because is Because.DUE
    assert wants["9+3"].because is Because.CONFUSABLE
    assert "9+3" in confusable()["4+3"]
    assert wants["8+9"].because is Because.NEW
    assert wants["7-2"].because is Because.HARD
    assert wants["1+1"].because is Because.SURE
    assert wants["4+3"].weight > wants["9+3"].weight > wants["1+1"].weight


def test_what_is_due_comes_before_what_is_not():
    known, _ = taught()[44]
    items = items_of_facts(known)
    due = set(Random(2).sample(items, 20))
    days = {item: ((6, 4) if item in due else (3, 2, 0.2)) for item in items}
    evidence = sorted(
        (Evidence(item, NOW - day * DAY, str(day), True, False, 2.0)
         for item in items for day in days[item]),
        key=lambda one: one.at,
    )  # fmt: skip
    today = today_of(situation(44, mastery=Mastery.of(evidence), seed=3))
    asked = set().union(*(one.items for one in today.exercises))
    assert len(asked & due) / len(due) > 0.8
    assert len(asked - due) / len(items) < 0.4


def test_the_rung_is_the_ladders_once_an_item_is_accurate():
    known, _ = taught()[44]
    facts = frozenset({"sub-direct-2"})
    tries = [Try(Family.SUB_DIRECT, 1, Rung.ALONE, True, 0, 4.0, facts, terms=2)] * 10
    sure = today_of(situation(44, mastery=practised(known, right=1.0), tries=tries))
    rungs = {one.exercise.rung for one in sure.exercises if one.family is Family.SUB_DIRECT}
    assert Rung.PALE in rungs
    unsure = today_of(situation(44, mastery=Mastery(), tries=tries))
    assert Rung.PALE not in {one.exercise.rung for one in unsure.exercises}


def test_what_the_last_lesson_taught_is_led_until_it_was_right_twice_with_help():
    new = ("add-five-4",)
    asked = replace(situation(15), new=new, mastery=Mastery(), soon=())
    rungs = {one.exercise.rung for one in today_of(asked).exercises if one.because is Because.NEW}
    assert rungs == {Rung.FOLLOW}
    led = [Evidence(item, NOW - DAY, "l", True, True)
           for item in items_of_facts(new) for _ in range(2)]  # fmt: skip
    asked = replace(asked, mastery=Mastery.of(led))
    rungs = {one.exercise.rung for one in today_of(asked).exercises if one.because is Because.NEW}
    assert Rung.ALONE in rungs
    assert Rung.FOLLOW not in rungs


ALOUD = Asked.CALLED, Asked.FLASHED


def aloud_try(asked, level=None, own=False):
    """Numbers that came in a way, right; at a level of one's own frame."""
    size = level[1:] if level else (1, 3, 2.0)
    return Try(Family.ADD_DIRECT, 2, Rung.NUMBER, True, 0, 5.0, frozenset(), asked, own, *size)


def step(request):
    return request.digits, request.terms, request.pace


@pytest.mark.parametrize("ways", [(), *((way,) for way in ALOUD), ALOUD])
@pytest.mark.parametrize("own", [False, True])
def test_numbers_are_called_or_flashed_only_where_they_were_so_before(ways, own):
    known, _ = taught()[60]
    shown = Try(Family.ADD_DIRECT, 2, Rung.ALONE, True, 0, 5.0, frozenset(), own=own)
    ladder = Ladder.of([shown, *(aloud_try(way, own=own) for way in ways)])
    requests = aloud_of(known, ladder)
    assert tuple(one.asked for one in requests) == ways
    assert {one.own for one in requests} <= {own}


@pytest.mark.parametrize("asked", ALOUD)
def test_on_ones_own_frame_they_take_their_step_from_the_ladder_of_that_way(asked):
    known, _ = taught()[60]
    (other,) = set(ALOUD) - {asked}
    levels, tries = levels_of(asked), [aloud_try(other, own=True)]
    for level in levels:
        ladder = Ladder.of([*tries, aloud_try(asked, level, own=True)])
        steps = {one.asked: step(one) for one in aloud_of(known, ladder)}
        assert steps[asked] == level[1:]
        assert steps[other] == levels_of(other)[0][1:]
        tries += [aloud_try(asked, level, own=True)] * 20


@pytest.mark.parametrize("asked", ALOUD)
def test_on_the_frame_of_the_screen_they_take_the_first_step(asked):
    known, _ = taught()[60]
    ladder = Ladder.of([aloud_try(asked)] * 50)
    (request,) = aloud_of(known, ladder)
    assert (request.digits, request.terms) == (1, 3) and request.pace >= 2.0
    assert not request.own


def test_what_is_flashed_is_never_quicker_than_is_safe_for_everybody():
    """Whatever an adult has allowed: WCAG 2.3.1 has three flashes a second or fewer."""
    known, _ = taught()[60]
    for level in levels_of(Asked.FLASHED):
        ladder = Ladder.of([aloud_try(Asked.FLASHED, level, own=True)] * 500)
        (request,) = aloud_of(known, ladder)
        assert request.pace * 3 >= 1


def test_numbers_are_called_and_flashed_where_that_was_learned():
    known, _ = taught()[60]
    aloud = aloud_of(known, Ladder.of([aloud_try(Asked.CALLED), aloud_try(Asked.FLASHED)]))
    reasons = [one.because for one in today_of(situation(60, aloud=aloud)).exercises]
    assert reasons.count(Because.CALLED) == reasons.count(Because.FLASHED) == 1
    assert min(reasons.index(Because.CALLED), reasons.index(Because.FLASHED)) > len(reasons) / 2
    assert Because.CALLED not in [one.because for one in today_of(situation(60)).exercises]


@given(st.integers(0, 10**6), st.integers(0, 84))
@settings(max_examples=15, deadline=None)
def test_the_same_situation_makes_the_same_set(seed, lesson):
    asked = situation(lesson, seed=seed)
    assert today_of(asked) == today_of(asked)


def test_another_seed_makes_another_set():
    one = situation(40)
    assert today_of(one) != today_of(replace(one, seed=2))


def test_it_is_the_same_in_every_run_of_the_program():
    text = (
        "from frame.practice.mastery import Mastery; from frame.practice.ladder import USUAL_RULES;"
        "from frame.practice.todays import today_of;"
        "from frame.practice.standing import Ladder;"
        "from frame.practice.wanted import Situation, sets_of;"
        "from frame.technique.facts import ALL_FACTS; known = frozenset(ALL_FACTS);"
        "print(*map(str, (o.exercise for o in today_of(Situation(mastery=Mastery(), known=known,"
        "sets=sets_of(known, Ladder()), now=0.0, seed=5)).exercises)), sep='; ')"
    )
    root = Path(__file__).parents[2]
    runs = [
        subprocess.run(
            [sys.executable, "-c", text], capture_output=True, text=True, check=True, cwd=root,
            env={"PYTHONHASHSEED": seed, "PYTHONPATH": str(root)},
        ).stdout
        for seed in ("1", "2")
    ]  # fmt: skip
    assert runs[0] == runs[1]
    assert runs[0].count(";") > 20


def test_where_nothing_was_taught_there_is_nothing_to_do():
    nothing = Situation(mastery=Mastery(), known=frozenset(), sets={}, now=NOW, seed=1)
    assert today_of(nothing).exercises == ()
    assert today_of(nothing).next(()) is None


def run(today, rights, seconds=10.0):
    """What comes when each exercise goes as told, the last of them over and over."""
    done, came = [], []
    while (one := today.next(done)) is not None:
        came.append(one)
        right = rights[min(len(done), len(rights) - 1)]
        done.append(Done(right, seconds))
    return came, done


def test_whoever_is_right_does_all_in_order():
    today = today_of(situation(40))
    assert run(today, [True])[0] == list(today.exercises)


def test_after_two_misses_something_surer_comes():
    today = today_of(situation(40))
    came, _ = run(today, [True, False, False, True])
    assert came[:3] == list(today.exercises[:3])
    assert came[3] == today.spare[0]
    assert came[3].success >= situation(40).rules.sure
    assert came[4:] == list(today.exercises[4:])


def test_where_spare_ones_are_used_up_it_is_a_rung_lower():
    today = replace(today_of(situation(40)), spare=())
    came, _ = run(today, [False])
    for planned, one in list(zip(today.exercises, came, strict=True))[2:-1]:
        assert one == planned.easier


@pytest.mark.parametrize("at", [0, 1, 5, 28])
@pytest.mark.parametrize("rights", [[True], [False], [True, False, False, True]])
def test_what_is_left_out_has_no_place_and_all_else_comes_as_it_would(at, rights):
    today = today_of(situation(40))
    left = today.without(at)
    assert len(left.exercises) == len(today.exercises) - 1
    assert run(left, [True])[0] == [one for n, one in enumerate(today.exercises) if n != at]
    came, done = run(today, rights)
    assert [left.next(done[:count]) for count in range(at)] == came[:at]


def test_when_the_minutes_are_over_one_more_comes_and_that_is_enough():
    today = today_of(situation(40))
    came, done = run(today, [True], seconds=130)
    assert len(came) == 6  # Ten minutes are over after five.
    assert came[-1] == today.exercises[-1]
    assert today.next(done) is None


def test_at_the_end_it_says_what_went_well():
    today = today_of(situation(40))
    before = Mastery.of(Evidence("4+3", NOW - 9 * DAY, sitting, True, False, 2.0)
                        for sitting in "aabbb")  # fmt: skip
    after = Mastery.of((), before.rules)
    after.standings = dict(before.standings)
    after.add(Evidence("4+3", NOW, "c", True, False, 2.0))
    _, done = run(today, [True, False, True])
    went = today.went(done, before, after)
    assert went.done == len(today.exercises)
    assert sum(went.right.values()) == went.done - 1
    assert (went.fluent, went.kept) == ((), ("4+3",))
    assert before.standing("4+3").state is State.FLUENT


def test_a_chance_nobody_knows_is_guessed():
    rules = PredictionRules()
    assert chance_of("4+3", Mastery(), NOW, rules) == rules.untried


def test_every_item_of_a_family_can_be_wanted():
    wants = wants_of(situation())
    assert set(wants) == set(ITEMS)
    assert frozenset(ALL_FACTS) == situation().known
    assert all(family_of([fact]) in situation().sets for fact in ALL_FACTS)

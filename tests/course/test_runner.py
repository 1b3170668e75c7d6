"""Every lesson of the course played without a window: by every lawful order, and left half way."""

from random import Random

import pytest

from frame.course.attempts import Place
from frame.course.course import index, load_one, taught
from frame.course.lesson import Practise
from frame.course.runner import MOST_ROUNDS, Runner, Stage
from frame.resources import LESSONS
from frame.technique.beads import BeadMove
from frame.technique.judge import Judgement

COURSE = index(LESSONS, None)
LESSON_IDS = [entry.id for entry in COURSE.lessons]
MOST_TURNS = 3000


def runner_of(lesson_id, seed=1, **more):
    return Runner(load_one(COURSE, lesson_id), taught(COURSE, lesson_id), seed, **more)


def lawful_strokes(work):
    """Every bead move that is part of what is left of the number under way."""
    progress = work.judge.progress
    parts = {
        BeadMove(move.rod, change)
        for move in progress.left_in_plan
        for change in ([move.change] if move.is_heaven else steps(move.change))
    }
    return sorted(part for part in parts if progress.frame.can(part))


def steps(change):
    sign = 1 if change > 0 else -1
    return [sign * beads for beads in range(1, abs(change) + 1)]


def right_answer(work):
    """What the frame reads, or the sum."""
    return work.exercise.sum.result


def turn(runner, random):
    """One lawful thing to do."""
    work = runner.work
    if runner.stage in (Stage.TELL, Stage.DONE, Stage.PRESENT, Stage.REVEAL, Stage.RESULTS):
        runner.go_on()
    elif runner.stage is Stage.DEMO:
        runner.play()
    elif runner.stage is Stage.ANSWER:
        assert runner.answer(right_answer(work))
    elif work.is_silent and work.judge.finished:
        assert runner.say_done()
    else:
        verdict = runner.touch((random.choice(lawful_strokes(work)),))
        assert verdict.judgement is not Judgement.WRONG
        assert verdict.kept


@pytest.mark.parametrize("lesson_id", LESSON_IDS)
def test_no_lawful_order_is_ever_refused(lesson_id):
    random, runner = Random(lesson_id), runner_of(lesson_id)
    for _ in range(MOST_TURNS):
        if runner.stage is Stage.END:
            break
        turn(runner, random)
    assert runner.stage is Stage.END and runner.passed
    assert all(attempt.right and not attempt.slips for attempt in runner.attempts)


@pytest.mark.proof
@pytest.mark.parametrize("seed", range(30))
@pytest.mark.parametrize("lesson_id", LESSON_IDS)
def test_no_lawful_order_is_ever_refused_with_any_seed(lesson_id, seed):
    random, runner = Random(seed), runner_of(lesson_id, seed)
    while runner.stage is not Stage.END:
        turn(runner, random)
    assert runner.passed


@pytest.mark.parametrize("lesson_id", LESSON_IDS[2::6])
def test_every_place_can_be_left_and_come_back_to(lesson_id):
    random, runner = Random(3), runner_of(lesson_id)
    while runner.stage is not Stage.END:
        place = runner.upcoming
        again = runner_of(lesson_id, place=place)
        if runner.stage is not Stage.DONE and again.stage is not Stage.END:
            assert again.stage == runner_of(lesson_id, place=runner.place).stage
            same = runner.work is None or again.work.exercise == runner.work.exercise
            assert same
        turn(runner, random)
    assert runner_of(lesson_id, place=Place(len(runner.lesson.steps))).stage is Stage.END


def test_progress_counts_every_exercise_and_never_goes_back():
    random, runner = Random(4), runner_of("ten-add-1")
    seen = [runner.done]
    while runner.stage is not Stage.END:
        turn(runner, random)
        seen.append(runner.done)
    assert seen == sorted(seen)
    assert seen[0] == 0 and seen[-1] == runner.total


def fail_a_set(runner, random):
    """Make a wrong bead, or give another number, so that no exercise of a set is unaided."""
    work = runner.work
    if runner.stage is Stage.WORK and not work.slips and not work.is_silent:
        runner.touch((other_move(work),))
    elif runner.stage is Stage.ANSWER and not work.slips:
        runner.answer(right_answer(work) + 1)
    else:
        turn(runner, random)


def other_move(work):
    """A move that is no part of what is left."""
    asked = work.judge.progress
    changes = (BeadMove(rod, change) for rod in range(3) for change in (5, -5, 1, -1, 4, -4))
    return next(move for move in changes if asked.find(move) is None)


@pytest.mark.parametrize("lesson_id", ["five-add-1", "beads-1", "ten-five-5"])
def test_a_set_that_is_not_passed_comes_again_and_then_the_lesson_goes_on(lesson_id):
    random, runner = Random(5), runner_of(lesson_id)
    rounds = set()
    while runner.stage is not Stage.END:
        fail_a_set(runner, random)
        rounds.add(runner.place.round)
    assert rounds == set(range(MOST_ROUNDS))
    assert not runner.passed


def test_a_set_comes_again_with_other_numbers():
    random, runner = Random(6), runner_of("no-partner-4")
    by_round = {}
    while runner.stage is not Stage.END:
        place = runner.place
        fail_a_set(runner, random)
        if runner.work is not None and isinstance(runner.lesson.steps[place.step], Practise):
            texts = by_round.setdefault((place.step, place.round), [])
            texts.append(str(runner.work.exercise))
    steps = {step for step, _ in by_round}
    assert steps
    for step in steps:
        assert by_round[step, 0] != by_round[step, 1] != by_round[step, 2]

"""Every lesson of the course played without a window: by every lawful order, and left half way."""

from decimal import Decimal
from functools import cache
from random import Random

import pytest
from each import each_row
from shipped import the_course

from frame.course.attempts import Position
from frame.course.course import load_one, taught
from frame.course.lesson import Ask, Lesson, Line, Mark, Practise, Say
from frame.course.runner import MOST_ROUNDS, Runner, Stage
from frame.practice.drawing import Request
from frame.practice.exercises import Exercise, Kind
from frame.practice.flashing import FlashReport, FlashSetting, ItemTime, Schedule
from frame.practice.outcomes import Outcome
from frame.practice.rungs import Asked, Rung
from frame.technique.beads import BeadMove
from frame.technique.expression import parse_sum
from frame.technique.facts import ALL_FACTS
from frame.technique.judge import Judgement
from frame.technique.plan import Freedom

COURSE = the_course()
LESSON_IDS = [entry.id for entry in COURSE.lessons]
MOST_TURNS = 3000


def runner_of(lesson_id, seed=1, **more):
    return Runner(*lesson_of(lesson_id), seed, **more)


@cache
def lesson_of(lesson_id):
    """A lesson, read once, and the facts taught when it is over."""
    return load_one(COURSE, lesson_id), taught(COURSE, lesson_id)


def lawful_strokes(work):
    """Every bead that a lawful hand may move next, in whatever order it works."""
    progress = work.judge.progress
    parts = {
        BeadMove(move.rod, change)
        for move in lawful_moves(progress)
        for change in ([move.change] if move.is_heaven else steps(move.change))
    }
    return sorted(part for part in parts if progress.frame.can(part))


def lawful_moves(progress):
    """Of written work what is left of the digit under way, for there digits go from the highest.
    Of a number, on each rod what is left of the digit begun or first to come there, or a carry that
    may come before it."""
    if progress.way.freedom is not Freedom.ANY_ORDER:
        yield from progress.left_in_step
        return
    left = list(left_by_step(progress))
    for at, (step, moves) in enumerate(left):
        for move in moves:
            match [one for one in left[:at] if any(other.rod == move.rod for other in one[1])]:
                case []:
                    yield move
                case [(digit, whole)] if digit.rod == move.rod and whole == digit.moves:
                    yield from one_more(progress.frame, move.rod, step.change)


def left_by_step(progress):
    """Each step with what is left of it."""
    way = progress.way
    left = list(zip(way.step_of[progress.at :], progress.strokes_left, strict=True))
    for here, step in enumerate(way.steps):
        yield step, tuple(move for at, stroke in left if at == here for move in stroke)


def one_more(frame, rod, change):
    """The moves of a carry or a borrow that comes to a rod and stops there."""
    digit = frame.digit(rod)
    after = digit + (1 if change > 0 else -1)
    if 0 <= after <= 9:
        heaven, earth = after // 5 - digit // 5, after % 5 - digit % 5
        yield from (BeadMove(rod, one) for one in (5 * heaven, earth) if one)


def steps(change):
    sign = 1 if change > 0 else -1
    return [sign * beads for beads in range(1, abs(change) + 1)]


def right_answer(work):
    """What the frame reads, or the sum; or what is left over, where that is asked for."""
    return work.exercise.sum.remainder if work.asks_rest else work.exercise.sum.result


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


@each_row("lesson_id", LESSON_IDS)
def test_no_lawful_order_is_ever_refused(lesson_id):
    random, runner = Random(lesson_id), runner_of(lesson_id)
    for _ in range(MOST_TURNS):
        if runner.stage is Stage.END:
            break
        turn(runner, random)
    assert runner.stage is Stage.END and runner.mastered
    assert all(attempt.right and not attempt.slips for attempt in runner.attempts)


@pytest.mark.proof
@pytest.mark.parametrize("seed", range(30))
@pytest.mark.parametrize("lesson_id", LESSON_IDS)
def test_no_lawful_order_is_ever_refused_with_any_seed(lesson_id, seed):
    random, runner = Random(seed), runner_of(lesson_id, seed)
    while runner.stage is not Stage.END:
        turn(runner, random)
    assert runner.mastered


@pytest.mark.parametrize("lesson_id", LESSON_IDS[2::17])
def test_every_place_can_be_left_and_come_back_to(lesson_id):
    random, runner = Random(3), runner_of(lesson_id)
    while runner.stage is not Stage.END:
        position = runner.upcoming
        again = runner_of(lesson_id, position=position)
        is_over = runner.stage in (Stage.REVEAL, Stage.DONE, Stage.RESULTS)
        if not is_over and again.stage is not Stage.END:
            assert again.stage == runner_of(lesson_id, position=runner.position).stage
            same = runner.work is None or again.work.exercise == runner.work.exercise
            assert same
        turn(runner, random)
    assert runner_of(lesson_id, position=Position(len(runner.lesson.steps))).stage is Stage.END


@pytest.mark.parametrize("step", range(12))
@pytest.mark.parametrize("item, round", [(0, 0), (1, 0), (3, 1), (9, 0), (49, 1)])
def test_a_lesson_left_before_it_was_changed_can_be_worked_to_its_end(step, item, round):
    random, lesson = Random(7), lesson_of("five-add-1")[0]
    runner = runner_of("five-add-1", position=Position(step, item, round))
    if step < len(lesson.steps):
        assert runner.position.step == step
    elif step > len(lesson.steps):
        assert runner.position == Position()
    for _ in range(MOST_TURNS):
        if runner.stage is Stage.END:
            return
        turn(runner, random)
    raise AssertionError(f"it does not end: {runner.position}")


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
    """A move that the work does not ask for."""
    changes = (BeadMove(rod, change) for rod in range(3) for change in (5, -5, 1, -1, 4, -4))
    return next(move for move in changes if not work.judge.judge((move,)).is_right)


@pytest.mark.parametrize("lesson_id", ["five-add-1", "beads-1", "ten-five-5"])
def test_a_set_that_is_not_passed_comes_again_and_then_the_lesson_goes_on(lesson_id):
    random, runner = Random(5), runner_of(lesson_id)
    rounds = set()
    while runner.stage is not Stage.END:
        fail_a_set(runner, random)
        rounds.add(runner.position.round)
    assert rounds == set(range(MOST_ROUNDS))
    assert not runner.mastered


def test_a_set_comes_again_with_other_numbers():
    random, runner = Random(6), runner_of("no-partner-4")
    by_round = {}
    while runner.stage is not Stage.END:
        position = runner.position
        fail_a_set(runner, random)
        if runner.work is not None and isinstance(runner.lesson.steps[position.step], Practise):
            texts = by_round.setdefault((position.step, position.round), [])
            texts.append(str(runner.work.exercise))
    steps = {step for step, _ in by_round}
    assert steps
    for step in steps:
        assert len(set(by_round[step, 0]) & set(by_round[step, 1])) < len(by_round[step, 0]) / 2


# Numbers that are called or flashed


def called_lesson(count=3, right=0, asked=Asked.CALLED, rung=Rung.ALONE, after=True):
    """A set of called or flashed sums, and a sentence after it."""
    request = Request(
        facts=("add-direct-1", "add-five-4"), known=frozenset(ALL_FACTS), count=count, rods=2,
        rung=rung,
        asked=asked, pace=1.0,
    )  # fmt: skip
    mark = Mark(1, 1)
    steps = (Practise(request, right, None, mark), Say(Line("So.", "So."), mark))
    lesson = Lesson("harbour", "Called", None, 2, (), steps if after else steps[:1])
    return Runner(lesson, frozenset(ALL_FACTS), 1)


def answer_one(runner, right=True):
    runner.go_on()
    assert runner.stage is Stage.ANSWER
    number = right_answer(runner.work)
    runner.answer(number if right else number + 1)
    assert runner.stage is Stage.DONE
    runner.go_on()


@pytest.mark.parametrize("asked", [Asked.CALLED, Asked.FLASHED])
def test_numbers_are_presented_then_answered_and_told_of_at_the_end_of_the_set(asked):
    runner = called_lesson(asked=asked)
    for right in (True, False, True):
        assert runner.stage is Stage.PRESENT
        answer_one(runner, right)
    assert runner.stage is Stage.RESULTS
    assert [work.right for work in runner.results] == [True, False, True]
    assert [attempt.right for attempt in runner.attempts] == [True, False, True]
    runner.go_on()
    assert (runner.stage, runner.line.show) == (Stage.TELL, "So.")


def test_presented_numbers_may_come_again_from_the_start_and_so_does_the_work():
    runner = called_lesson()
    for _ in range(2):
        for move in (BeadMove(1, 4), BeadMove(1, 5)):
            runner.touch((move,))
        assert runner.frame.digits == "90"
        runner.present_again()
        assert (runner.stage, runner.frame.digits) == (Stage.PRESENT, "00")
        assert runner.work.touches == [] and not runner.undo()
        runner.go_on()
    assert runner.stage is Stage.ANSWER
    assert not runner.attempts
    runner.answer(right_answer(runner.work))
    assert runner.attempts[0].unaided


def test_a_set_left_out_is_passed_over_as_a_whole():
    runner = called_lesson(asked=Asked.FLASHED, rung=Rung.NUMBER, right=3)
    answer_one(runner, right=False)
    runner.skip()
    assert [(work.right, runner.work) for work in runner.results] == [(False, None)]
    assert runner.stage is Stage.RESULTS, "what was answered is told of first"
    runner.go_on()
    assert (runner.stage, runner.line.show) == (Stage.TELL, "So.")
    runner.go_on()
    assert runner.stage is Stage.END and runner.mastered


def test_a_set_left_out_at_once_has_nothing_to_tell_of():
    runner = called_lesson(asked=Asked.FLASHED, rung=Rung.NUMBER, right=3)
    runner.skip()
    assert (runner.stage, runner.line.show) == (Stage.TELL, "So.")
    assert runner.attempts == []


@pytest.mark.parametrize("after", [True, False])
def test_a_lesson_left_at_the_results_of_a_set_left_out_goes_on_behind_it(after):
    runner = called_lesson(asked=Asked.FLASHED, rung=Rung.NUMBER, after=after)
    answer_one(runner)
    runner.skip()
    assert runner.stage is Stage.RESULTS
    assert runner.upcoming == Position(1)
    assert runner.done == runner.total - after


def asked_one(asked, right):
    """A single sum that is called or flashed, answered."""
    exercise = Exercise(Kind.SUM, parse_sum("34 + 23"), Rung.NUMBER, 2, asked=asked, pace=1.0)
    steps = (Ask(exercise, None, None, Mark(1, 1)), Say(Line("So.", "So."), Mark(1, 1)))
    runner = Runner(Lesson("harbour", "Called", None, 2, (), steps), frozenset(ALL_FACTS), 1)
    assert runner.stage is Stage.PRESENT
    runner.go_on()
    assert not runner.is_set_told_at_end
    runner.answer(Decimal(57 if right else 75))
    return runner


@pytest.mark.parametrize("right", [True, False])
@pytest.mark.parametrize("asked", [Asked.CALLED, Asked.FLASHED])
def test_a_single_sum_called_or_flashed_is_told_of_at_once(asked, right):
    runner = asked_one(asked, right)
    assert runner.stage is (Stage.DONE if right else Stage.REVEAL)
    assert [attempt.right for attempt in runner.attempts] == [right]
    if not right:
        runner.go_on()
        assert runner.stage is Stage.DONE
    runner.go_on()
    assert (runner.stage, runner.results) == (Stage.TELL, [])


def test_nothing_else_than_what_is_presented_can_be_left_out():
    runner = runner_of("five-add-1")
    while runner.stage is not Stage.END:
        position, stage = runner.position, runner.stage
        runner.skip()
        assert (runner.position, runner.stage) == (position, stage)
        turn(runner, Random(1))


def test_beads_may_be_moved_beside_a_call_and_nothing_is_said_of_them():
    runner = called_lesson()
    verdict = runner.touch((BeadMove(1, 4),))
    assert verdict.kept and runner.frame.digits == "40" and runner.stage is Stage.PRESENT
    assert runner.undo() and runner.frame.digits == "00"
    runner.go_on()
    assert runner.touch((BeadMove(1, 4),)).kept and runner.stage is Stage.ANSWER
    runner.answer(right_answer(runner.work))
    assert runner.attempts[0].outcome is Outcome.HAND_STRAYED


@pytest.mark.parametrize("asked, rung", [(Asked.CALLED, Rung.NUMBER), (Asked.FLASHED, Rung.ALONE)])
def test_where_only_the_number_counts_no_bead_is_taken(asked, rung):
    runner = called_lesson(asked=asked, rung=rung)
    for _ in range(2):
        assert not runner.takes_touches
        assert runner.touch((BeadMove(1, 4),)) is None
        runner.go_on()


def test_a_called_set_that_comes_again_begins_on_an_empty_frame():
    """All its numbers are called, so none of them may stand there already."""
    runner = called_lesson(count=2, right=2, after=False)
    for _ in range(2):
        answer_one(runner, right=False)
    runner.go_on()
    assert (runner.stage, runner.position.round) == (Stage.PRESENT, 1)
    assert set(runner.frame.digits) == {"0"}
    assert runner.work.exercise.rung is Rung.ALONE


def test_a_set_shown_that_comes_again_is_led_at_first():
    runner = runner_of("no-partner-4")
    while runner.position.round == 0:
        fail_a_set(runner, Random(2))
    assert runner.work.exercise.rung is Rung.FOLLOW


def test_what_is_not_right_is_revealed_before_it_is_done():
    runner = runner_of("five-add-5")
    while not (runner.work and runner.work.exercise.rung is Rung.COVERED):
        turn(runner, Random(3))
    position = runner.position
    runner.say_done()
    assert runner.stage is Stage.ANSWER
    runner.answer(right_answer(runner.work) + 1)
    assert (runner.stage, runner.position) == (Stage.REVEAL, position)
    assert runner.upcoming != position
    runner.go_on()
    assert runner.stage is Stage.DONE
    runner.go_on()
    assert runner.position == runner.upcoming != position


def test_an_attempt_whose_numbers_came_late_is_not_kept():
    runner = called_lesson(asked=Asked.FLASHED)
    late = FlashReport(
        Schedule.of(FlashSetting(1, 2, 1.0)), (ItemTime(0.0, 0.0), ItemTime(1.0, 1.5)), "plain"
    )
    runner.work.report = late
    answer_one(runner)
    assert runner.attempts == []
    answer_one(runner)
    assert len(runner.attempts) == 1


def test_free_looks_are_kept_beside_helps():
    runner = runner_of("five-add-5")
    while not (runner.work and runner.work.exercise.rung is Rung.COVERED):
        turn(runner, Random(4))
    for _ in range(2):
        runner.help()
    while not runner.attempts or runner.attempts[-1].exercise.rung is not Rung.COVERED:
        turn(runner, Random(4))
    attempt = runner.attempts[-1]
    assert (attempt.looks, attempt.helps, attempt.unaided) == (2, 0, True)

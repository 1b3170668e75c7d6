"""What is kept of an exercise: each stroke and answer with its time, and what was so meanwhile."""

import sqlite3
from contextlib import closing

import pygame
import pytest
from calls import called, to_the_answer, until_called
from robot import DEAF, begin, do_right, give_answer

from frame.course.attempts import Origin
from frame.course.runner import Stage
from frame.learner.store import Store
from frame.practice.exercises import Exercise, Kind
from frame.practice.items import Cell, Worked
from frame.practice.log import Happening
from frame.practice.rungs import Rung
from frame.practice.standing import Ladder
from frame.screens.lesson.screen import LessonScreen
from frame.technique.beads import parse_stroke
from frame.technique.conventions import Carry
from frame.technique.expression import parse_sum
from frame.technique.judge import VERSION, Judgement
from frame.technique.slips import Slip

SUM = Exercise(Kind.SUM, parse_sum("4 + 3"), Rung.ALONE, 2)


def past(pilot):
    """Everything that is on disk, oldest first."""
    with closing(Store(pilot.room.store.path)) as disk:
        return disk.past(pilot.room.learner)


def at_work(pilot, exercise):
    screen = begin(pilot, exercise)
    assert screen.runner.stage is Stage.WORK
    pilot.wait(DEAF)
    return screen


def strokes(log):
    return [one for one in log.entries if one.what is Happening.STROKE]


def make(pilot, screen, text, after):
    """A stroke, so many seconds after the last."""
    pilot.wait(after, turns=1)
    screen.touch(parse_stroke(text))


def test_strokes_are_kept_in_order_with_their_times_from_when_work_could_begin(pilot):
    screen = at_work(pilot, SUM)
    zero = screen.guide.stopwatch.since
    times = []
    for text, after in (("0:+4", 1.0), ("1:+1", 0.7), ("0:+5", 1.3), ("0:-2", 0.4)):
        make(pilot, screen, text, after)
        times.append(round(1000 * (pilot.clock - zero)))
    pilot.settle()
    pilot.wait(0.5)
    (kept,) = past(pilot)
    assert [(str(*one.stroke), one.digit) for one in strokes(kept.log)] == [
        ("0:+4", 0), ("1:+1", 0), ("0:+5", 4), ("0:-2", 9),
    ]  # fmt: skip
    assert [one.ms for one in strokes(kept.log)] == pytest.approx(times, abs=2)
    assert [one.judgement for one in strokes(kept.log)] == [
        Judgement.RIGHT, Judgement.WRONG, Judgement.RIGHT, Judgement.RIGHT,
    ]  # fmt: skip
    assert [one.kept for one in strokes(kept.log)] == [True, False, True, True]
    assert [one.step for one in strokes(kept.log)] == [0, 1, 1, 1]
    assert strokes(kept.log)[1].slip in set(Slip)
    assert kept.slips == (strokes(kept.log)[1].slip,)
    assert kept.log.worked == (Worked(), Worked(Cell(4, 3)))
    assert (kept.right, kept.unaided, kept.ended) == (True, False, True)
    assert (kept.origin, kept.number) == (Origin.SET, 1)


def test_what_the_tool_moves_first_is_not_the_learners(pilot):
    screen = begin(pilot, SUM.at(Rung.FINISH))
    while screen.runner.stage is not Stage.WORK:
        pilot.wait(0.2)
    began = pilot.clock
    make(pilot, screen, "0:-2", 1.5)
    pilot.settle()
    (kept,) = past(pilot)
    assert [str(*one.stroke) for one in strokes(kept.log)] == ["0:-2"]
    assert strokes(kept.log)[0].ms == pytest.approx(1000 * (pilot.clock - began), abs=1300)


def test_an_answer_is_kept_and_so_is_the_one_before_it(pilot):
    screen = begin(pilot, Exercise(Kind.READ, parse_sum("7"), Rung.ALONE, 2))
    pilot.wait(DEAF)
    for number in (17, 7):
        pilot.wait(0.6)
        give_answer(pilot, number)
    pilot.settle()
    assert screen.runner.attempts
    (kept,) = past(pilot)
    assert kept.answers == ("17", "7")
    answers = [one for one in kept.log.entries if one.what is Happening.ANSWER]
    assert [one.judgement for one in answers] == [Judgement.WRONG, Judgement.RIGHT]
    assert answers[0].ms < answers[1].ms


def test_looks_helps_and_what_was_taken_back_stand_at_their_time(pilot):
    screen = at_work(pilot, SUM)
    make(pilot, screen, "0:+4", 0.5)
    pilot.wait(1.0)
    screen.show_me()
    pilot.wait(1.0)
    screen.undo()
    pilot.wait(1.0)
    while screen.runner.stage is not Stage.END:
        do_right(pilot)
    (kept,) = past(pilot)
    what = [one.what for one in kept.log.entries]
    assert what[:3] == [Happening.STROKE, Happening.HELP, Happening.UNDO]
    assert [one.ms for one in kept.log.entries] == sorted(one.ms for one in kept.log.entries)
    assert kept.log.entries[2].ms - kept.log.entries[1].ms >= 1000


def test_another_window_is_noted(pilot):
    screen = at_work(pilot, SUM)
    make(pilot, screen, "0:+4", 0.5)
    for event, after in ((pygame.WINDOWFOCUSLOST, 1.0), (pygame.WINDOWFOCUSGAINED, 40.0)):
        pilot.wait(after, turns=1)
        pygame.event.post(pygame.event.Event(event))
        pilot.app.turn(0)
    while screen.runner.stage is not Stage.END:
        do_right(pilot)
    (kept,) = past(pilot)
    away, back = kept.log.entries[1:3]
    assert (away.what, back.what) == (Happening.AWAY, Happening.BACK)
    assert back.ms - away.ms == pytest.approx(40_000, abs=300)


@pytest.mark.parametrize("is_touched", [False, True])
def test_what_was_begun_and_left_is_kept_as_left_and_moves_no_ladder(pilot, is_touched):
    screen = at_work(pilot, SUM)
    if is_touched:
        make(pilot, screen, "0:+4", 0.5)
    pilot.key(pygame.K_ESCAPE)
    assert not isinstance(pilot.screen, LessonScreen)
    kept = past(pilot)
    assert [(one.ended, one.right, one.unaided) for one in kept] == [
        (False, False, False)
    ] * is_touched
    assert pilot.room.ladder == Ladder(pilot.room.settings.ladder_rules)
    assert pilot.room.store.lessons(pilot.room.learner) == {}


def test_of_called_numbers_the_time_begins_with_the_first_of_them(pilot, calling):
    screen = begin(pilot, called())
    until_called(pilot)
    began = pilot.clock
    to_the_answer(pilot)
    over = pilot.clock
    pilot.wait(2.0, turns=1)
    give_answer(pilot, screen.runner.work.exercise.sum.result)
    pilot.settle()
    (kept,) = past(pilot)
    heard = {one.what: one.ms / 1000 for one in kept.log.entries}
    assert heard[Happening.CALLED] == pytest.approx(over - began, abs=0.4)
    assert heard[Happening.ANSWER] - heard[Happening.CALLED] == pytest.approx(2.0, abs=0.4)


def sittings(pilot):
    with closing(sqlite3.connect(pilot.room.store.path)) as rows:
        return rows.execute(
            "SELECT conventions, window, input, judge, ended IS NULL FROM sitting ORDER BY began"
        ).fetchall()


def test_a_sitting_tells_around_what_it_was(pilot):
    ((ways, window, _, judge, is_open),) = sittings(pilot)
    assert '"carry": "last"' in ways
    assert (window, judge, is_open) == ("{}x{}".format(*pilot.app.window.get_size()), VERSION, True)


def test_what_the_hand_used_is_kept_with_the_sitting(pilot):
    pilot.tap((5, 5))
    assert "mouse" in sittings(pilot)[0][2].split()
    pilot.key(pygame.K_F2)
    assert set(sittings(pilot)[0][2].split()) == {"keys", "mouse"}


def test_another_schools_way_begins_another_sitting(pilot):
    pilot.room.set(left_handed=True)
    assert len(sittings(pilot)) == 1
    pilot.wait(1.0)
    pilot.room.set(carry=Carry.FIRST)
    before, after = sittings(pilot)
    assert '"carry": "first"' in after[0] and '"carry": "last"' in before[0]
    assert (before[-1], after[-1]) == (False, True)


def test_attempts_are_numbered_within_a_sitting(pilot):
    for _ in range(3):
        screen = at_work(pilot, SUM)
        while screen.runner.stage is not Stage.END:
            do_right(pilot)
        pilot.wait(0.5)
        pilot.key(pygame.K_ESCAPE)
    assert [one.number for one in past(pilot)] == [1, 2, 3]

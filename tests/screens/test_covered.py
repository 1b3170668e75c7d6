"""Frames that are seen less and less: the cover, what lies under it, and when it is lifted."""

from dataclasses import replace

import pygame
import pytest
import yaml
from robot import at_work, begin, give_answer, signs, steps_at, tick_is_seen
from shipped import lesson_of

from frame.course.lesson import Say
from frame.course.runner import Stage
from frame.practice.exercises import Exercise, Kind
from frame.practice.outcomes import Outcome
from frame.practice.rungs import Rung
from frame.resources import LESSONS
from frame.screens.lesson.replay import ReplayScreen
from frame.technique.beads import BeadMove
from frame.technique.expression import parse_sum
from frame.technique.mend import shortest_mend
from frame.technique.reading import read

COVERED = "five-add-5"


def covered_lessons(course):
    """(lesson id, kind) of each lesson's first step on a covered frame."""
    found = {}
    for kind in (Kind.SET, Kind.SUM):
        for lesson, _ in steps_at(course, Rung.COVERED, kind):
            found.setdefault(lesson, kind)
    return found.items()


def work_blindly(pilot, moves):
    for move in moves:
        pilot.screen.touch((move,))
        pilot.settle()


def test_on_a_covered_frame_every_touch_clicks_once_and_no_bead_is_seen(pilot, heard):
    for lesson_id, kind in covered_lessons(pilot.room.course):
        screen = at_work(pilot, lesson_id, Rung.COVERED, kind)
        before = pilot.pixels(screen.field.box)
        for stroke in screen.runner.work.plan.strokes:
            for move in stroke:
                heard.names.clear()
                pilot.move(move)
                for _ in range(3):
                    assert pilot.pixels(screen.field.box) == before, lesson_id
                    pilot.wait(0.1, turns=1)
                assert heard.names == ["click"], lesson_id
        pilot.wait(1, 2)


def test_a_wrong_bead_on_a_covered_frame_is_not_given_away(pilot, heard):
    screen = at_work(pilot, COVERED, Rung.COVERED)
    field = screen.field
    before, (x, y) = pilot.pixels(field.box), field.box.center
    pilot.drag((x, y + field.layout.bead_height * 2), (x, y + field.layout.bead_height))
    pilot.wait(1)
    assert heard.names == ["click"]
    assert screen.guide.said is None
    assert pilot.pixels(field.box) == before


def test_a_look_is_ended_by_the_next_touch_and_the_lessons_own_line_is_back(pilot):
    screen = at_work(pilot, COVERED, Rung.COVERED)
    covered = pilot.pixels(screen.field.box)
    pilot.press("eye")
    assert screen.guide.said == screen.room.words.line("lesson.look")
    assert pilot.pixels(screen.field.box) != covered
    pilot.move(BeadMove(0, 1))
    pilot.settle()
    assert screen.guide.said is None
    assert pilot.pixels(screen.field.box) == covered
    assert screen.runner.line.show in " ".join(line for line, _ in pilot.repaint())


# Done, and the answer


def say_done(pilot, moves):
    """Work the covered sum with these beads, and say that it is done."""
    screen = at_work(pilot, COVERED, Rung.COVERED)
    assert screen.runner.work.exercise.sum.result == 7
    work_blindly(pilot, moves)
    pilot.press_word("lesson.done")
    if not moves:
        assert screen.guide.said == pilot.words.line("lesson.move_beads")
        pilot.press_word("lesson.done")
    return screen


SEVEN = [BeadMove(0, 4), BeadMove(0, 5), BeadMove(0, -2)]
SIX = [BeadMove(0, 4), BeadMove(0, 5), BeadMove(0, -3)]


def test_done_asks_for_the_number_and_the_beads_stay_covered(pilot, heard):
    screen = at_work(pilot, COVERED, Rung.COVERED)
    covered = pilot.pixels(screen.field.box)
    work_blindly(pilot, SIX)
    pilot.press_word("lesson.done")
    assert screen.runner.stage is Stage.ANSWER
    assert pilot.words.text("lesson.what_reads") in pilot.lines()
    assert screen.field.look.covered
    assert pilot.pixels(screen.field.box) == covered
    assert "right" not in heard.names
    assert screen.runner.attempts == []


def test_a_right_answer_of_a_right_hand_lifts_the_cover_with_the_tick(pilot, heard):
    screen = say_done(pilot, SEVEN)
    covered = pilot.pixels(screen.field.box)
    give_answer(pilot, 7)
    attempt = screen.runner.attempts[-1]
    assert (screen.runner.stage, attempt.outcome) == (Stage.DONE, Outcome.RIGHT)
    assert attempt.unaided
    pilot.settle()
    assert not screen.field.look.covered
    assert pilot.pixels(screen.field.box) != covered
    assert tick_is_seen(pilot)
    assert heard.names[-1] == "right"


OTHERS = [
    # beads, answer, outcome, what is said
    (SIX, 6, Outcome.WRONG_PLAN, "Your hand went another way. Look."),
    (SEVEN, 6, Outcome.PICTURE_LOST, "Your hand was right. It reads 7."),
    (SIX, 7, Outcome.HAND_STRAYED, "Yes. 7. Your hand went another way."),
    ([], 6, Outcome.WRONG_ANSWER, "It is 7. Look."),
]


@pytest.mark.parametrize("moves, answer, outcome, said", OTHERS)
def test_hand_and_picture_are_told_apart_and_then_the_way_is_seen(
    pilot, heard, moves, answer, outcome, said
):
    screen = say_done(pilot, moves)
    give_answer(pilot, answer)
    assert (screen.runner.stage, screen.runner.attempts[-1].outcome) == (Stage.REVEAL, outcome)
    assert screen.guide.said.show == said
    assert said in pilot.lines()
    assert not tick_is_seen(pilot)
    pilot.wait(1.1)
    assert pilot.screen is screen
    pilot.wait(len(said) / 15 + 1.2, 60)
    assert isinstance(pilot.screen, ReplayScreen)
    assert said in pilot.lines()
    assert pilot.screen.has_two is bool(moves == SIX)


@pytest.mark.parametrize("leave", ["lesson.go_on", "escape"])
def test_when_the_way_was_seen_the_lesson_goes_on(pilot, leave):
    screen = say_done(pilot, SIX)
    place = screen.runner.position
    give_answer(pilot, 6)
    pilot.wait(1.3)
    if leave == "escape":
        pilot.key(pygame.K_ESCAPE)
    else:
        pilot.press_word(leave)
    assert pilot.screen is screen
    assert not tick_is_seen(pilot)
    assert screen.runner.position.step == place.step + 1
    pilot.wait(3)
    assert pilot.screen is screen
    assert screen.runner.position.step == place.step + 1
    assert [attempt.right for attempt in screen.runner.attempts] == [False]


def test_the_learners_own_frame_is_open_before_the_way_is_shown(pilot):
    screen = say_done(pilot, SIX)
    give_answer(pilot, 6)
    pilot.settle()
    assert not screen.field.look.covered
    assert read(screen.field.frame) == 6
    assert signs(screen) == {"back"}


def test_nothing_is_judged_while_the_frame_is_revealed(pilot):
    screen = say_done(pilot, SIX)
    give_answer(pilot, 6)
    for move in (BeadMove(0, 1), BeadMove(0, -5)):
        pilot.move(move)
    assert screen.runner.stage is Stage.REVEAL
    assert read(screen.runner.frame) == read(screen.field.frame) == 6
    pilot.settle()
    assert read(screen.field.frame) == 6


def covered_set(pilot, digits):
    """A covered setting, worked to show this, and "Done" said."""
    lesson, _ = next(steps_at(pilot.room.course, Rung.COVERED, Kind.SET))
    screen = at_work(pilot, lesson, Rung.COVERED, Kind.SET)
    end = screen.runner.work.plan.end
    wanted = end if digits is None else replace(end, digits=digits)
    work_blindly(pilot, shortest_mend(screen.runner.frame, wanted))
    pilot.press_word("lesson.done")
    return screen, read(end)


def test_a_number_set_unseen_is_its_own_answer(pilot):
    screen, number = covered_set(pilot, None)
    assert screen.runner.stage is Stage.DONE
    assert screen.runner.attempts[-1].unaided
    assert screen.guide.said.show == f"Yes. {number}."
    pilot.settle()
    assert tick_is_seen(pilot)


def test_another_number_set_unseen_is_named_and_its_way_is_seen(pilot):
    lesson, _ = next(steps_at(pilot.room.course, Rung.COVERED, Kind.SET))
    rods = at_work(pilot, lesson, Rung.COVERED, Kind.SET).runner.lesson.rods
    screen, number = covered_set(pilot, "1".zfill(rods))
    assert number != 1
    assert screen.runner.stage is Stage.REVEAL
    assert screen.guide.said.show == "Your frame reads 1."
    pilot.wait(1.3)
    assert isinstance(pilot.screen, ReplayScreen)


# The sentence that a cover begins with


def covers(course, rung):
    for entry in course.lessons:
        for number, step in enumerate(lesson_of(entry.id).steps):
            if isinstance(step, Say) and step.cover is rung:
                yield entry.id, number


@pytest.mark.parametrize("rung", [Rung.PALE, Rung.TRACES, Rung.COVERED, Rung.ALONE])
def test_a_sentence_that_begins_a_cover_is_shown_with_it(pilot, rung):
    some = list(covers(pilot.room.course, rung))
    assert some
    for lesson, number in some[::3]:
        pilot.open(lesson, number)
        runner, look = pilot.screen.runner, pilot.screen.field.look
        assert runner.stage is Stage.TELL
        assert look.covered is (rung in (Rung.TRACES, Rung.COVERED))
        assert (look.opacity < 1) is (rung is Rung.PALE)


def in_force(course):
    """(lesson id, number, rung) of each sentence that comes while a cover is in force, but for
    those that begin one."""
    for entry in course.lessons:
        steps = lesson_of(entry.id).steps
        rung = Rung.ALONE
        for number, (step, raw) in enumerate(zip(steps, raw_steps(entry), strict=True)):
            if "cover" in raw:
                rung = Rung[raw["cover"].upper()]
            elif isinstance(step, Say):
                yield entry.id, number, rung


def raw_steps(entry):
    """The steps of a lesson as they are written."""
    return yaml.safe_load((LESSONS / entry.path).read_text(encoding="utf-8"))["steps"]


def test_a_cover_stays_on_in_every_sentence_until_it_is_lifted(pilot):
    some = list(in_force(pilot.room.course))
    assert {rung for *_, rung in some} >= {Rung.TRACES, Rung.COVERED, Rung.ALONE}
    unseen = [one for one in some if one[2] is not Rung.ALONE]
    for lesson, number, rung in unseen[::3] + some[::40]:
        pilot.open(lesson, number)
        look = pilot.screen.field.look
        assert look.covered is rung.is_unseen, (lesson, number)
        assert (look.opacity < 1) is (rung is Rung.PALE), (lesson, number)


# The sum above an unseen frame


def colours_of_sum(pilot, rung):
    """The colour of each number of 34 + 23 as it is written, the first number worked."""
    screen = begin(pilot, Exercise(Kind.SUM, parse_sum("34 + 23"), rung, 2))
    for move in (BeadMove(1, 3), BeadMove(0, 4)):
        screen.touch((move,))
    pilot.settle()
    pilot.repaint()
    written = {one.text: one.colour for one in pilot.room.lettering.written}
    return written["34"], written["+ 23"]


@pytest.mark.parametrize("rung", [Rung.ALONE, Rung.TRACES, Rung.COVERED])
def test_the_number_under_way_stands_out_only_where_beads_are_judged_at_once(pilot, rung):
    first, second = colours_of_sum(pilot, rung)
    assert (first == second) is (rung is Rung.COVERED)
    assert second == pilot.room.theme.ink

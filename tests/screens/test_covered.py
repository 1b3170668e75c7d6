"""Frames that are seen less and less: the cover, what lies under it, and when it is lifted."""

import pytest
from robot import Heard, at_work, signs, steps_at, tick_is_seen

from frame.course.course import load_one
from frame.course.lesson import Say
from frame.course.runner import Stage
from frame.practice.exercises import Kind
from frame.practice.rungs import Rung
from frame.technique.beads import BeadMove
from frame.technique.mend import shortest_mend
from frame.technique.reading import read

COVERED = "five-add-5"


@pytest.fixture
def heard(pilot):
    heard = Heard()
    pilot.room.hear(heard)
    return heard


def covered_lessons(course):
    """(lesson id, kind) of each lesson's first step on a covered frame."""
    found = {}
    for kind in (Kind.SET, Kind.SUM):
        for lesson, _ in steps_at(course, Rung.COVERED, kind):
            found.setdefault(lesson, kind)
    return found.items()


def right_moves(screen):
    plans = screen.runner.work.plans
    return [move for plan in plans for stroke in plan.strokes for move in stroke]


def work_blindly(pilot, moves):
    for move in moves:
        pilot.screen.touch((move,))
        pilot.settle()


def test_on_a_covered_frame_every_touch_clicks_once_and_no_bead_is_seen(pilot, heard):
    for lesson_id, kind in covered_lessons(pilot.room.course):
        screen = at_work(pilot, lesson_id, Rung.COVERED, kind)
        before = pilot.pixels(screen.field.box)
        for stroke in screen.runner.work.plans[0].strokes:
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
    assert screen.said is None
    assert pilot.pixels(field.box) == before


def test_a_look_is_ended_by_the_next_touch_and_the_lessons_own_line_is_back(pilot):
    screen = at_work(pilot, COVERED, Rung.COVERED)
    covered = pilot.pixels(screen.field.box)
    pilot.press("eye")
    assert screen.said == screen.room.words.line("lesson.look")
    assert pilot.pixels(screen.field.box) != covered
    pilot.move(BeadMove(0, 1))
    pilot.settle()
    assert screen.said is None
    assert pilot.pixels(screen.field.box) == covered
    assert screen.runner.line.show in " ".join(line for line, _ in pilot.repaint())


# Done, and right


def test_a_right_frame_is_uncovered_with_the_tick(pilot, heard):
    screen = at_work(pilot, COVERED, Rung.COVERED)
    covered = pilot.pixels(screen.field.box)
    work_blindly(pilot, right_moves(screen))
    pilot.press("Done")
    assert screen.runner.stage is Stage.DONE
    assert screen.runner.attempts[-1].right
    pilot.settle()
    assert not screen.field.look.covered
    assert pilot.pixels(screen.field.box) != covered
    assert tick_is_seen(pilot)
    assert heard.names[-1] == "right"


# Done, and another number


@pytest.fixture
def revealed(pilot):
    """A covered sum worked as 6 where it should be 7, and "Done" said."""
    screen = at_work(pilot, COVERED, Rung.COVERED)
    assert screen.runner.work.exercise.sum.result == 7
    work_blindly(pilot, [BeadMove(0, 5), BeadMove(0, 1)])
    assert screen.field.look.covered
    pilot.press("Done")
    return screen


def test_the_learners_own_frame_is_shown_with_its_number(pilot, revealed):
    assert revealed.runner.stage is Stage.REVEAL
    assert revealed.said.show == "Your frame reads 6."
    assert "Your frame reads 6." in [line for line, _ in pilot.repaint()]
    pilot.wait(2.4)
    assert revealed.runner.stage is Stage.REVEAL
    assert read(revealed.field.frame) == 6
    assert not revealed.field.look.covered
    assert not revealed.field.is_moving
    assert signs(revealed) == {"back"}
    assert not tick_is_seen(pilot)
    pilot.wait(0.2, 2)
    assert revealed.runner.stage is Stage.DEMO


def test_the_first_bead_that_would_mend_it_is_outlined(pilot, revealed):
    field = revealed.field
    assert field.mending == shortest_mend(field.frame, revealed.runner.work.plans[-1].end)[0]
    outlined = pilot.pixels(field.box)
    field.mend(None)
    pilot.repaint()
    assert pilot.pixels(field.box) != outlined


def test_then_the_right_work_is_replayed_in_sight_and_ends_without_a_tick(pilot, revealed, heard):
    pilot.wait(2.6)
    runner, numbers = revealed.runner, []
    assert revealed.field.mending is None
    while runner.stage is Stage.DEMO:
        assert not revealed.field.look.covered
        if not numbers or numbers[-1] != read(revealed.field.frame):
            numbers.append(read(revealed.field.frame))
        pilot.wait(0.1, 1)
    assert numbers[:2] == [0, 4]
    pilot.settle()
    assert runner.stage is Stage.DONE
    assert read(revealed.field.frame) == 7
    assert not runner.attempts[-1].right
    assert not tick_is_seen(pilot)
    assert "right" not in heard.names
    assert "Yes" not in " ".join(line for line, _ in pilot.repaint())
    pilot.wait(3)
    assert runner.stage is not Stage.DONE


def test_nothing_is_judged_while_the_frame_is_revealed(pilot, revealed):
    for move in (BeadMove(0, 1), BeadMove(0, -5)):
        pilot.move(move)
    assert revealed.runner.stage is Stage.REVEAL
    assert read(revealed.runner.frame) == read(revealed.field.frame) == 6
    pilot.settle()
    assert read(revealed.field.frame) == 6


# The sentence that a cover begins with


def covers(course, rung):
    for entry in course.lessons:
        for number, step in enumerate(load_one(course, entry.id).steps):
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

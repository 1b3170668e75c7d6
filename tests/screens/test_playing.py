"""The whole course is played in the real window, with the mouse, right and with mistakes."""

from random import Random

import pytest
from pilot import Pilot

from frame.app import Push
from frame.course.course import index
from frame.course.runner import Stage
from frame.practice.exercises import Kind
from frame.resources import LESSONS
from frame.screens.lesson import LessonScreen
from frame.technique.beads import BeadMove
from frame.technique.plan import Strictness

LESSON_IDS = [entry.id for entry in index(LESSONS, None).lessons]
MOST_TURNS = 1500


@pytest.fixture
def pilot(tmp_path):
    pilot = Pilot(tmp_path, (800, 480))
    pilot.welcome("Otter")
    yield pilot
    pilot.close()


def open_lesson(pilot, lesson_id):
    pilot.app.take(Push(LessonScreen(pilot.room, lesson_id)))


def do_right(pilot):
    """Do with the mouse what the lesson waits for."""
    screen = pilot.screen
    runner, work = screen.runner, screen.runner.work
    if runner.stage is Stage.TELL:
        pilot.press(pilot.room.words.text("lesson.go_on"))
    elif runner.stage is Stage.ANSWER:
        for digit in str(int(runner.frame.digits)):
            pilot.press(digit)
        if len(runner.frame.digits) > 1:
            pilot.press("tick")
    elif runner.stage is not Stage.WORK:
        pilot.wait(1.0, 10)
    elif work.is_covered and work.judge.finished:
        pilot.press(pilot.room.words.text("lesson.done"))
    elif work.exercise.kind is Kind.CLEAR and len(runner.frame.digits) > 2:
        wipe(pilot)
    else:
        pilot.move(min(work.next_moves))
        pilot.wait(0.3, 4)


def wipe(pilot):
    field = pilot.screen.field
    beam, inner = field.layout.beam_box, field.layout.inner_box
    y = beam.centre[1]
    pilot.drag((inner.x + 2, y), (inner.x + inner.w - 2, y), 8)
    pilot.wait(0.4, 4)


def do_something_else(pilot, random):
    """Do something with the mouse that is not asked."""
    screen = pilot.screen
    runner = screen.runner
    if runner.stage is Stage.ANSWER:
        pilot.press(random.choice("123456789"))
        if len(runner.frame.digits) > 1:
            pilot.press("tick")
    elif runner.stage is Stage.WORK:
        rod = random.randrange(len(runner.frame.digits))
        move = BeadMove(rod, random.choice([-5, -4, -2, -1, 1, 2, 3, 5]))
        if screen.field.frame.can(move):
            pilot.move(move)
            pilot.wait(0.7, 6)
        if screen.runner.stage is Stage.WORK:
            signs = [button.sign for button in screen.buttons]
            pilot.press(random.choice([sign for sign in ("eye", "undo") if sign in signs]))
    elif runner.stage is Stage.TELL:
        pilot.tap((700, 400))


def play(pilot, lesson_id, random=None):
    open_lesson(pilot, lesson_id)
    for _ in range(MOST_TURNS):
        if pilot.screen.runner.stage is Stage.END:
            return pilot.screen.runner
        if random is not None and random.random() < 0.3:
            do_something_else(pilot, random)
        else:
            do_right(pilot)
    raise AssertionError(f"{lesson_id} never ends; it stands at {pilot.screen.runner.place}")


@pytest.mark.parametrize("lesson_id", LESSON_IDS)
def test_every_lesson_is_passed_by_who_does_what_it_asks(pilot, lesson_id):
    runner = play(pilot, lesson_id)
    assert runner.passed
    assert all(attempt.right for attempt in runner.attempts)
    assert all(attempt.slips == () for attempt in runner.attempts)
    pilot.press(pilot.room.words.text("lesson.home"))
    assert pilot.room.store.lessons(pilot.room.learner)[lesson_id].done


@pytest.mark.parametrize("lesson_id", LESSON_IDS[::4])
def test_no_mistake_leads_to_a_dead_end(pilot, lesson_id):
    play(pilot, lesson_id, Random(lesson_id))


@pytest.mark.proof
@pytest.mark.parametrize("strictness", Strictness)
@pytest.mark.parametrize("lesson_id", LESSON_IDS)
def test_no_mistake_leads_to_a_dead_end_anywhere(pilot, lesson_id, strictness):
    pilot.room.set(strictness=strictness)
    play(pilot, lesson_id, Random(f"{lesson_id} {strictness}"))


def test_a_lesson_left_in_the_middle_goes_on_where_it_stood(pilot):
    open_lesson(pilot, "five-add-1")
    for _ in range(40):
        do_right(pilot)
    place = pilot.screen.runner.upcoming
    pilot.press("back")
    open_lesson(pilot, "five-add-1")
    assert pilot.screen.runner.place == place
    assert place.step > 0

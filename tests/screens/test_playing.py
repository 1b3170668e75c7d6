"""The whole course is played in the real window, with the mouse, right and with mistakes."""

from random import Random

import pytest
from robot import do_right, give_answer, open_lesson, signs
from shipped import the_course

from frame.course.runner import Stage
from frame.language.printed import printed_parts
from frame.screens.lesson.screen import LessonScreen
from frame.technique.beads import BeadMove
from frame.technique.conventions import Strictness

LESSON_IDS = [entry.id for entry in the_course().lessons]
EACH_LESSON = [
    pytest.param(lesson, marks=[pytest.mark.proof] * (at % 12 != 11))
    for at, lesson in enumerate(LESSON_IDS)
]
"""Eleven of twelve are left to the proofs; without a window all are played each time."""
MOST_TURNS = 1500


pytestmark = pytest.mark.usefixtures("flashes")


def do_something_else(pilot, random):
    """Do something with the mouse that is not asked."""
    screen = pilot.screen
    if not isinstance(screen, LessonScreen):
        pilot.press(
            random.choice(sorted({"eye", "step_back", "step_on", "pause", "play"} & signs(screen)))
        )
        return
    runner = screen.runner
    if runner.stage is Stage.ANSWER:
        give_answer(pilot, random.randint(1, 9))
    elif runner.stage is Stage.WORK:
        move_anything(pilot, random)
        if screen.runner.stage is Stage.WORK:
            pilot.press(random.choice(sorted({"eye", "undo"} & signs(screen))))
    elif runner.stage is Stage.PRESENT:
        move_anything(pilot, random)
        if some := sorted({"pause", "redo", "speaker", "next"} & signs(pilot.screen)):
            pilot.press(random.choice(some))
    elif runner.stage is Stage.TELL:
        pilot.tap((700, 400))


def move_anything(pilot, random):
    """Move a bead somewhere, where it can be moved."""
    field = pilot.screen.field
    rod = random.randrange(len(field.frame.digits))
    move = BeadMove(rod, random.choice([-5, -4, -2, -1, 1, 2, 3, 5]))
    if field.frame.can(move):
        pilot.move(move)
        pilot.wait(0.7, 3)


def play(pilot, lesson_id, random=None):
    open_lesson(pilot, lesson_id)
    runner = pilot.screen.runner
    for _ in range(MOST_TURNS):
        if runner.stage is Stage.END:
            return runner
        if random is not None and random.random() < 0.3:
            do_something_else(pilot, random)
        else:
            do_right(pilot)
    raise AssertionError(f"{lesson_id} never ends; it stands at {runner.position}")


@pytest.mark.parametrize("lesson_id", EACH_LESSON)
def test_every_lesson_is_passed_by_who_does_what_it_asks(pilot, lesson_id):
    runner = play(pilot, lesson_id)
    assert runner.mastered
    assert all(attempt.right for attempt in runner.attempts)
    assert all(attempt.slips == () for attempt in runner.attempts)
    pilot.press(pilot.room.words.text("lesson.home"))
    assert pilot.room.store.lessons(pilot.room.learner)[lesson_id].done


@pytest.mark.parametrize("lesson_id", LESSON_IDS[13::40])
def test_no_mistake_leads_to_a_dead_end(pilot, lesson_id):
    play(pilot, lesson_id, Random(lesson_id))


def test_the_sum_that_was_new_stands_over_its_beads_at_the_end(pilot):
    open_lesson(pilot, "five-add-1")
    while pilot.screen.runner.stage is not Stage.END:
        do_right(pilot)
    learned = pilot.screen.guide.sight.learned
    text = " ".join(printed_parts(learned.exercise.sum, pilot.words))
    assert text in pilot.lines() and "+ 4" in text


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
    assert pilot.screen.runner.position == place
    assert place.step > 0

"""Lessons for whoever cannot read yet: heard in the real window, with nobody looking."""

import pytest
from ear import says_what_to_do
from robot import do_right, open_lesson, wrong_moves
from shipped import the_course

from frame.course.runner import Stage
from frame.screens.lesson.screen import LessonScreen

LESSONS = [entry.id for entry in the_course().lessons[:45]]
"""Those of the first nine units: from one bead to columns."""
SPREAD = ("beads-1", "tens-3", "ten-take-5")
EACH_LESSON = [
    pytest.param(lesson, marks=[pytest.mark.proof] * (lesson not in SPREAD)) for lesson in LESSONS
]


@pytest.mark.parametrize("lesson_id", EACH_LESSON)
def test_what_was_heard_last_tells_what_is_to_be_done(pilot, heard, lesson_id):
    """Whenever the lesson comes to wait; and asked again, the loudspeaker tells it too."""
    open_lesson(pilot, lesson_id)
    screen, entered = pilot.screen, 0
    while screen.runner.stage is not Stage.END:
        waits = screen.runner.stage in (Stage.TELL, Stage.WORK, Stage.ANSWER)
        if pilot.screen is screen and waits and screen.guide.entered != entered:
            entered = screen.guide.entered
            assert_told(pilot, heard)
            pilot.press("speaker")
            assert_told(pilot, heard)
        do_right(pilot)


@pytest.mark.parametrize("lesson_id", EACH_LESSON)
def test_after_a_mistake_the_loudspeaker_tells_what_is_to_be_done_and_what_was_wrong(
    pilot, heard, lesson_id
):
    open_lesson(pilot, lesson_id)
    screen, position = pilot.screen, None
    while screen.runner.stage is not Stage.END:
        runner = screen.runner
        at_work = isinstance(pilot.screen, LessonScreen) and runner.stage is Stage.WORK
        moves = wrong_moves(screen) if at_work and not runner.work.is_silent else ()
        if moves and runner.position != position:
            position = runner.position
            pilot.settle()
            pilot.move(moves[0])
            pilot.settle()
            said = heard.said[-1]
            pilot.press("speaker")
            assert heard.said[-1].endswith(said)
            assert_told(pilot, heard)
        do_right(pilot)


def assert_told(pilot, heard):
    text = heard.said[-1]
    assert says_what_to_do(text, pilot.screen.runner, pilot.words), text

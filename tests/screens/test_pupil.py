"""A pupil who makes every mistake three times is answered each time, and comes to the end."""

import pytest
from pupil import Pupil
from shipped import the_course

from frame.course.lesson import Practise
from frame.learner.settings import Age
from frame.technique.conventions import Strictness

LESSONS = the_course().lessons[:45]
"""Those of the first nine units: from one bead to columns."""
SPREAD = ("beads-1", "ten-take-5")
EACH_LESSON = [
    pytest.param(lesson, id=lesson.id, marks=[pytest.mark.proof] * (lesson.id not in SPREAD))
    for lesson in LESSONS
]


def play(pilot, heard, lesson):
    """Every mistake is answered in words and on the screen; the lesson ends, and the next opens. A
    lesson whose sets were not passed ends well and is not mastered."""
    pupil = Pupil(pilot, heard)
    runner = pupil.play(lesson)
    assert pupil.made.total() >= 9
    assert (pupil.silent, pupil.unseen, pupil.lost) == ([], [], [])
    assert runner.mastered is not any(isinstance(step, Practise) for step in runner.lesson.steps)


@pytest.mark.parametrize("lesson", EACH_LESSON)
def test_every_mistake_is_answered_and_every_lesson_ends(pilot, heard, lesson):
    play(pilot, heard, lesson)


@pytest.mark.proof
@pytest.mark.parametrize(
    "age, strictness", [(Age.YOUNG, Strictness.ANSWER), (Age.OLDER, Strictness.ORDER)]
)
@pytest.mark.parametrize("lesson", LESSONS[2::4], ids=lambda lesson: lesson.id)
def test_so_it_is_however_strict_the_judge_and_however_young_the_pupil(
    pilot, heard, lesson, age, strictness
):
    pilot.room.set(age=age, strictness=strictness)
    play(pilot, heard, lesson)

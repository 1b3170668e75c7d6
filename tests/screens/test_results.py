"""How a set of called or flashed numbers went: told at its end, a row and a way for each."""

import pygame
import pytest
from robot import begin, give_answer, let_numbers_come, sets_asked, until

from frame.course.runner import Stage
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Asked, Rung
from frame.screens.lesson.replay import ReplayScreen
from frame.screens.lesson.results import ResultsScreen
from frame.technique.expression import parse_sum
from frame.technique.reading import read


def called(text="34 + 23"):
    return Exercise(Kind.SUM, parse_sum(text), Rung.ALONE, 2, asked=Asked.CALLED, pace=0.7)


def at_results(pilot, *off):
    """The results of a called set whose answers are so much off; the lesson's screen."""
    screen = begin(pilot, called(), count=len(off))
    for item, more in enumerate(off):
        while screen.runner.stage is not Stage.ANSWER or screen.runner.position.item < item:
            pilot.wait(2, 4)
        give_answer(pilot, screen.runner.work.exercise.sum.result + more)
    pilot.wait(4, 20)
    assert isinstance(pilot.screen, ResultsScreen)
    return screen


def numbers_of(lesson):
    """The right answers of the set."""
    return [work.exercise.sum.result for work in lesson.runner.results]


def test_a_row_tells_of_a_right_answer_and_its_eye_shows_the_way(pilot):
    lesson = at_results(pilot, 0, 0)
    assert pilot.words.text("results.title", right=2, all=2) in pilot.lines()
    pilot.press("eye")
    replay = pilot.screen
    assert isinstance(replay, ReplayScreen)
    while replay.at < replay.replay.last:
        pilot.press("step_on")
        pilot.wait(1.2, 6)
    assert [read(field.frame) for field in replay.fields] == numbers_of(lesson)[:1]
    pilot.press_word("lesson.go_on")
    assert isinstance(pilot.screen, ResultsScreen)
    pilot.press_word("lesson.go_on")
    assert pilot.screen is lesson
    assert lesson.runner.stage is Stage.END


def test_another_answer_stands_beside_the_right_one(pilot):
    right, other = numbers_of(at_results(pilot, 0, 18))
    lines = pilot.lines()
    words = pilot.words
    assert words.text("results.given", given=f"{other + 18}", right=f"{other}") in lines
    assert words.text("results.given", given=f"{right}", right=f"{right}") not in lines
    assert words.text("results.title", right=1, all=2) in lines


def test_a_set_of_the_course_is_told_of_at_its_end_and_not_before(pilot):
    pilot.open(*next(sets_asked(pilot.room.course, Asked.CALLED)))
    screen = until(pilot, Stage.PRESENT)
    count = screen.runner.lesson.steps[screen.runner.position.step].request.count
    for number in range(count):
        while screen.runner.stage is Stage.PRESENT:
            let_numbers_come(pilot)
        right = screen.runner.work.exercise.sum.result
        give_answer(pilot, right if number else right + 1)
        assert screen.guide.said == pilot.words.line("lesson.noted")
        while screen.runner.position.item == number and pilot.screen is screen:
            assert screen.guide.line in (None, screen.guide.said), "not the task's own sentence"
            assert read(screen.field.frame) == 0, "not the result"
            lines = pilot.lines()
            assert not [text for text in ("Yes", "right", f"It is {right}") if text in lines]
            pilot.wait(0.5, 2)
    assert isinstance(pilot.screen, ResultsScreen)
    works = pilot.screen.results
    assert [work.right for work in works] == [False] + [True] * (count - 1)
    assert [button.sign for button in pilot.screen.buttons].count("eye") == count
    lines = pilot.lines()
    assert all(str(work.exercise.sum.result) in lines for work in works)
    attempts = [attempt.right for attempt in screen.runner.attempts[-count:]]
    assert attempts == [work.right for work in works]


def test_all_of_it_is_said_once_for_who_does_not_look(pilot, heard):
    right, other = numbers_of(at_results(pilot, 0, 18))
    pilot.wait(5, 5)
    words = pilot.words
    assert heard.said[-1].startswith(words.line("results.title", right=1, all=2).speak)
    for line in (words.line("results.right", at=1, number=right),
                 words.line("results.other", at=2, number=other)):  # fmt: skip
        assert [line.speak in text for text in heard.said] == [False] * (len(heard.said) - 1) + [
            True
        ]
    assert pilot.screen.wakes_in(pilot.clock) is None


@pytest.mark.parametrize("code", [pygame.K_ESCAPE, pygame.K_RETURN])
def test_keys_leave_it_and_the_lesson_goes_on(pilot, code):
    lesson = at_results(pilot, 0, 0)
    pilot.key(code)
    assert pilot.screen is lesson
    assert lesson.runner.stage is Stage.END


def test_the_attempts_are_on_disk_when_the_results_are_seen(pilot):
    lesson = at_results(pilot, 0, 18)
    kept = pilot.room.store.attempts(pilot.room.learner)
    columns = [str(work.exercise) for work in lesson.runner.results]
    assert [(text, right) for _, text, right, _ in kept] == [
        (columns[0], True),
        (columns[1], False),
    ]

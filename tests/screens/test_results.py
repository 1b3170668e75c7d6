"""How a set of called or flashed numbers went: told at its end, a row and a way for each."""

import pygame
import pytest
from robot import begin, give_answer, let_numbers_come, sets_asked, until

from frame.course.runner import Stage
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Asked, Rung
from frame.screens.replay import ReplayScreen
from frame.screens.results import ResultsScreen
from frame.technique.expression import parse_sum
from frame.technique.reading import read


def called(text="34 + 23"):
    return Exercise(Kind.SUM, parse_sum(text), Rung.ALONE, 2, asked=Asked.CALLED, pace=0.7)


def answered(pilot, *answers):
    """A called set answered like this; the lesson's screen."""
    screen = begin(pilot, called(), count=len(answers))
    for step, answer in enumerate(answers):
        while screen.runner.stage is not Stage.ANSWER or screen.runner.place.step < step:
            pilot.wait(2, 4)
        give_answer(pilot, answer)
    return screen


def at_results(pilot, answer=57):
    """The result of one called sum, of which 57 is right."""
    screen = answered(pilot, answer)
    pilot.wait(4, 20)
    assert isinstance(pilot.screen, ResultsScreen)
    return screen


def test_a_row_tells_of_a_right_answer_and_its_eye_shows_the_way(pilot):
    lesson = at_results(pilot)
    assert pilot.words.text("results.title", right=1, all=1) in pilot.lines()
    pilot.press("eye")
    assert isinstance(pilot.screen, ReplayScreen)
    for _ in range(6):
        pilot.press("step_on")
        pilot.wait(1.2, 6)
    assert [read(field.frame) for field in pilot.screen.fields] == [57]
    pilot.press_word("lesson.go_on")
    assert isinstance(pilot.screen, ResultsScreen)
    pilot.press_word("lesson.go_on")
    assert pilot.screen is lesson
    assert lesson.runner.stage is Stage.END


def test_another_answer_stands_beside_the_right_one(pilot):
    at_results(pilot, 75)
    lines = pilot.lines()
    assert pilot.words.text("results.given", given="75", right="57") in lines
    assert pilot.words.text("results.title", right=0, all=1) in lines


def test_a_set_of_the_course_is_told_of_at_its_end_and_not_before(pilot):
    pilot.open(*next(sets_asked(pilot.room.course, Asked.CALLED)))
    screen = until(pilot, Stage.PRESENT)
    count = screen.runner.lesson.steps[screen.runner.place.step].request.count
    for number in range(count):
        while screen.runner.stage is Stage.PRESENT:
            let_numbers_come(pilot)
        right = screen.runner.work.exercise.sum.result
        give_answer(pilot, right if number else right + 1)
        assert screen.said == pilot.words.line("lesson.noted")
        lines = pilot.lines()
        assert not [text for text in ("Yes", "right", f"It is {right}") if text in lines]
        while screen.runner.place.item == number and isinstance(pilot.screen, type(screen)):
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
    at_results(pilot, 75)
    pilot.wait(5, 5)
    words = pilot.words
    assert heard.said[-1].startswith(words.line("results.title", right=0, all=1).speak)
    assert words.line("results.other", at=1, number=57).speak in heard.said[-1]
    assert len([text for text in heard.said if "fifty-seven" in text]) == 1
    assert pilot.screen.wakes_in(pilot.clock) is None


@pytest.mark.parametrize("code", [pygame.K_ESCAPE, pygame.K_RETURN])
def test_keys_leave_it_and_the_lesson_goes_on(pilot, code):
    lesson = at_results(pilot)
    pilot.key(code)
    assert pilot.screen is lesson
    assert lesson.runner.stage is Stage.END


def test_the_attempts_are_on_disk_when_the_results_are_seen(pilot):
    at_results(pilot, 75)
    kept = pilot.room.store.attempts(pilot.room.learner)
    assert [(text, right) for _, text, right, _ in kept] == [("34 + 23", False)]

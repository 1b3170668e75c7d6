"""What is pressed twice in haste is pressed once: no sentence is skipped, nothing is given."""

import pygame
import pytest
from robot import DEAF, begin

from frame.app import Push
from frame.course.lesson import Ask, Lesson, Line, Mark, Say
from frame.course.runner import Runner, Stage
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Asked, Rung
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.screen import LessonScreen
from frame.technique.expression import parse_sum

MARK = Mark(1, 1)


def by_mouse(pilot, place):
    pilot.tap(place)


def by_touch(pilot, place):
    pilot.finger_tap(place)


def by_two_fingers(pilot, place):
    for finger in (1, 2):
        pilot.finger(pygame.FINGERDOWN, finger, place)
    for finger in (1, 2):
        pilot.finger(pygame.FINGERUP, finger, place)


def by_key(code):
    return lambda pilot, _: pilot.key(code)


WAYS = {
    "mouse": by_mouse,
    "touch": by_touch,
    "two fingers": by_two_fingers,
    "enter": by_key(pygame.K_RETURN),
    "keypad": by_key(pygame.K_KP_ENTER),
    "space": by_key(pygame.K_SPACE),
}
GAPS = (0.0, 0.1, DEAF - 0.05)


def say(text):
    return Say(Line(text, text), MARK)


def ask(kind=Kind.SUM, rung=Rung.ALONE, **more):
    return Ask(Exercise(kind, parse_sum("7"), rung, 2, **more), None, None, MARK)


FOLLOWING = {
    "sentence": say("Two."),
    "work": ask(),
    "watch": ask(rung=Rung.WATCH),
    "covered": ask(rung=Rung.COVERED),
    "read": ask(Kind.READ),
    "number": ask(rung=Rung.NUMBER),
    "called": ask(asked=Asked.CALLED, pace=1.0),
    "flashed": ask(rung=Rung.NUMBER, asked=Asked.FLASHED, pace=1.0),
    "end": None,
}


def open_sentence(pilot, following):
    """A sentence whose button takes touches; the place of that button."""
    steps = (say("One."), following, say("Three.")) if following else (say("One."),)
    lesson = Lesson("beads-1", "The quay", None, 2, (), steps)
    pilot.app.take(
        Push(LessonScreen(pilot.room, Keeping(pilot.room, Runner(lesson, frozenset(), 1), None)))
    )
    pilot.app.draw()
    pilot.wait_for_buttons()
    text = pilot.words.text("lesson.go_on")
    return next(one.place.center for one in pilot.screen.buttons if one.text == text)


PRESSED = [
    (following, way, GAPS[(one + other) % len(GAPS)])
    for one, following in enumerate(FOLLOWING)
    for other, way in enumerate(WAYS)
]
"""Each way before each thing, in as much haste as falls to it."""


@pytest.mark.parametrize(("following", "way", "gap"), PRESSED)
def test_go_on_pressed_twice_goes_on_once(pilot, following, way, gap):
    place = open_sentence(pilot, FOLLOWING[following])
    screen = pilot.screen
    WAYS[way](pilot, place)
    work, stage = screen.runner.work, screen.runner.stage
    assert screen.runner.position.step == 1
    if gap:
        pilot.wait(gap, 4)
    WAYS[way](pilot, place)
    assert pilot.screen is screen
    assert (screen.runner.position.step, screen.runner.work) == (1, work)
    assert screen.runner.stage is stage
    if work is not None:
        assert (work.helps, work.looks, work.slips, work.touches) == (0, 0, [], [])
    assert screen.guide.answer.typed == ""


@pytest.mark.parametrize("way", WAYS)
def test_a_press_after_that_goes_on(pilot, way):
    place = open_sentence(pilot, say("Two."))
    for step in (1, 2):
        WAYS[way](pilot, place)
        assert pilot.screen.runner.position.step == step
        pilot.wait(DEAF + 0.01, 4)


@pytest.mark.parametrize("gap", GAPS)
@pytest.mark.parametrize("way", ["mouse", "touch"])
def test_a_last_bead_touched_twice_does_not_skip_what_is_said_of_it(pilot, way, gap):
    screen = begin(pilot, Exercise(Kind.SET, parse_sum("3"), Rung.ALONE, 1), count=2)
    place = pilot.bead_at(0, 3)
    WAYS[way](pilot, place)
    said = screen.guide.said
    assert screen.runner.stage is Stage.DONE and said
    if gap:
        pilot.wait(gap, 4)
    WAYS[way](pilot, place)
    assert (screen.runner.stage, screen.guide.said) == (Stage.DONE, said)


def test_a_digit_that_is_the_answer_pressed_twice_does_not_skip_the_tick(pilot):
    screen = begin(pilot, Exercise(Kind.READ, parse_sum("7"), Rung.ALONE, 1), count=2)
    pilot.wait_for_buttons()
    seven = next(one.place.center for one in screen.buttons if one.text == "7")
    for _ in range(2):
        pilot.tap(seven)
        assert (screen.runner.stage, screen.runner.position.step) == (Stage.DONE, 0)
        pilot.wait(0.1, 2)

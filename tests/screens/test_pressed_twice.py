"""What is pressed twice in haste is pressed once: no sentence is skipped, nothing is given."""

from itertools import count, product

import pygame
import pytest
from proofs import some_daily
from robot import DEAF, begin

from frame.app import Pop, Push
from frame.course.lesson import Ask, Lesson, Line, Mark, Say
from frame.course.runner import Runner, Stage
from frame.learner.kept_sets import KeptSet
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Asked, Rung
from frame.screens.choosing.code import NewCode
from frame.screens.choosing.home import Home
from frame.screens.choosing.named_sets import OneSet
from frame.screens.choosing.who import Who
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.screen import LessonScreen
from frame.technique.expression import parse_sum
from frame.view.widgets import Button

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


@pytest.mark.parametrize("following", FOLLOWING)
def test_the_way_back_is_taken_at_any_moment(pilot, following):
    place = open_sentence(pilot, FOLLOWING[following])
    screen = pilot.screen
    by_touch(pilot, place)
    back = next(one.place.center for one in screen.buttons if one.sign == "back")
    by_touch(pilot, back)
    assert pilot.screen is not screen


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


def opened(pilot):
    """The screens that lie on one another."""
    return [type(one) for one in pilot.app.screens]


def twice_at(pilot, way, place, gap):
    WAYS[way](pilot, place)
    once = opened(pilot)
    pilot.wait(gap, 2)
    WAYS[way](pilot, place)
    return once, opened(pilot)


BY_HAND = list(product([(800, 480), (600, 960)], ["mouse", "touch"]))


@pytest.mark.parametrize(
    ("size", "way"), some_daily(BY_HAND, [BY_HAND[0], BY_HAND[3]], several=True)
)
def test_what_leads_to_another_screen_leads_no_further_when_it_is_tapped_twice(pilot, size, way):
    """From the first screen, home, practice and the settings, by each of their buttons."""
    pilot.resize(size)
    seen = 0
    for go in (leave, stay, practise, practise_more, settings):
        for at in count():
            buttons = at_home(pilot, go).screen.buttons
            if at >= len(buttons):
                break
            button = buttons[at]
            before = opened(pilot)
            once, then = twice_at(pilot, way, button.place.center, 0.1)
            seen += once != before
            assert then == once or once == before, (go.__name__, button.text or button.sign)
            if not pilot.app.screens:
                return
    assert seen > 10


def at_home(pilot, go):
    """The pilot on a screen that is reached from home, whatever came before."""
    for _ in range(9):
        if isinstance(pilot.screen, Home):
            break
        pilot.press("Otter") if isinstance(pilot.screen, Who) else pilot.key(pygame.K_ESCAPE)
        pilot.wait(1.0)
    go(pilot)
    pilot.wait_for_buttons()
    return pilot


def leave(pilot):
    pilot.key(pygame.K_ESCAPE)


def stay(_):
    pass


def practise(pilot):
    pilot.press_word("home.practise")


def practise_more(pilot):
    practise(pilot)
    pilot.press_word("practise.more")


def settings(pilot):
    pilot.press("gear")


@pytest.mark.parametrize("code", [pygame.K_RETURN, pygame.K_KP_ENTER, pygame.K_SPACE])
def test_a_key_that_leads_to_another_screen_leads_no_further_when_it_is_pressed_twice(pilot, code):
    pilot.key(code)
    opened_once = opened(pilot)
    assert opened_once != [Who, Home]
    pilot.wait(0.1)
    pilot.key(code)
    assert opened(pilot) == opened_once


def test_esc_twice_is_two_steps_back(pilot):
    practise_more(pilot)
    for _ in range(2):
        pilot.key(pygame.K_ESCAPE)
    assert isinstance(pilot.screen, Home)


def test_after_half_a_second_the_same_place_can_be_tapped_anew(pilot):
    place = next(one.place.center for one in pilot.screen.buttons if one.sign == "gear")
    pilot.tap(place)
    pilot.screen.buttons[:] = [Button(pygame.Rect(place, (1, 1)), Pop)]
    pilot.tap(place)
    assert isinstance(pilot.screen, NewCode)
    pilot.wait(0.6)
    pilot.tap(place)
    assert isinstance(pilot.screen, Home)


@pytest.mark.parametrize("way", ["mouse", "touch"])
def test_a_question_that_comes_up_under_the_finger_is_not_answered_by_the_same_tap(pilot, way):
    one = KeptSet("1", "Quay", {})
    pilot.app.take(Push(OneSet(pilot.room, one)))
    asked = pilot.words.text("practise.remove")
    place = next(button.place.center for button in pilot.screen.buttons if button.text == asked)
    twice_at(pilot, way, place, 0.1)
    assert pilot.screen.under(place).text == pilot.words.text("who.remove_yes")
    assert isinstance(pilot.screen, OneSet)


def test_a_key_of_the_keypad_can_be_typed_as_fast_as_anybody_can(pilot):
    screen = begin(pilot, Exercise(Kind.READ, parse_sum("77"), Rung.ALONE, 2))
    pilot.wait_for_buttons()
    seven = next(one.place.center for one in screen.buttons if one.text == "7")
    for _ in range(2):
        pilot.tap(seven)
    assert screen.guide.answer.typed == "77"

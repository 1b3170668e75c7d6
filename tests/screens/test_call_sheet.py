"""A sheet is called by the voice, sum by sum, from its code."""

import pygame
import pytest
from sight import SHAPES, UPRIGHT, assert_well_laid_out, laid_out

from frame.app import Push
from frame.learner.settings import Age, Settings
from frame.practice.exercises import Exercise
from frame.practice.exercises import Kind as Asks
from frame.screens.marking.call_sheet import CallSheet
from frame.screens.marking.marks import MarksScreen
from frame.screens.marking.type_answers import TypeAnswers
from frame.sheets.code import code_of
from frame.sheets.making import sheet_of
from frame.sheets.recipe import Kind, Recipe
from frame.sheets.sheet import Section, Sheet, Way
from frame.technique.expression import parse_calculation

SIX = Recipe(kind=Kind.COLUMNS, count=6, digits=2, rows=3)
READ = Recipe(kind=Kind.READ, count=6, digits=2)
FRAME = Recipe(kind=Kind.FRAME)


def sheet_with(*texts):
    tasks = tuple(Exercise(Asks.SUM, parse_calculation(text), rods=13) for text in texts)
    recipe = Recipe(kind=Kind.COLUMNS, count=len(tasks))
    return Sheet(recipe, (Section(Way.BEADS, tasks),))


def open_code(pilot, recipe):
    pilot.app.take(Push(MarksScreen(pilot.room, pilot.room.learner)))
    pilot.app.draw()
    pilot.type(code_of(recipe))
    pilot.press_word("marks.call")


@pytest.fixture
def called(pilot, heard):
    """Three sums of a sheet."""
    sheet = sheet_with("38 + 47 - 5", "37 x 432", "17 / 5")
    pilot.app.take(Push(CallSheet(pilot.room, sheet)))
    pilot.app.draw()
    return pilot


def type_number(pilot, number):
    for digit in str(number):
        pilot.key(pygame.K_0 + int(digit))


def hear_out(pilot):
    for _ in range(600):
        if pilot.screen.calling.is_over(pilot.clock):
            pilot.wait(0.1, 1)
            return
        pilot.wait(0.1, 1)
    raise AssertionError("a call without end")


def test_a_sheet_is_called_from_its_code(pilot):
    open_code(pilot, SIX)
    assert isinstance(pilot.screen, CallSheet)
    assert pilot.screen.sheet.typed.sheet == sheet_of(SIX)
    pilot.press("back")
    assert isinstance(pilot.screen, MarksScreen)
    pilot.press_word("marks.go_on")
    assert isinstance(pilot.screen, TypeAnswers)


@pytest.mark.parametrize("recipe", [READ, Recipe(kind=Kind.SET, digits=2), FRAME], ids=str)
def test_a_sheet_without_sums_says_so(pilot, heard, recipe):
    open_code(pilot, recipe)
    assert isinstance(pilot.screen, MarksScreen)
    assert pilot.words.text("marks.uncalled") in pilot.lines()
    assert pilot.words.text("marks.no_code") not in pilot.lines()
    assert pilot.words.text("marks.empty") not in pilot.lines()
    assert heard.said[-1] == pilot.words.line("marks.uncalled").speak
    pilot.press_word("marks.go_on")
    assert isinstance(pilot.screen, TypeAnswers) is (recipe != FRAME)


def test_what_is_no_code_is_said_here_too(pilot):
    pilot.app.take(Push(MarksScreen(pilot.room, pilot.room.learner)))
    pilot.app.draw()
    pilot.type("1400")
    pilot.press_word("marks.call")
    assert pilot.words.text("marks.no_code") in pilot.lines()


def test_nothing_is_called_until_it_is_asked_for_and_then_nothing_else_is_said(called, heard):
    called.wait(30, 30)
    assert "play" not in heard.calls
    called.press_word("marks.call")
    assert heard.calls.count("play") == 1
    heard.said.clear()
    called.wait(60, 60)
    assert heard.said == []
    assert heard.calls.count("play") == 1


def test_how_far_the_call_is_is_seen_and_no_number(called):
    called.press_word("marks.call")
    pictures = []
    while not called.screen.calling.is_over(called.clock):
        assert not {"38", "+ 47", "− 5"} & {line for line, _ in called.repaint()}
        if called.pixels() not in pictures:
            pictures.append(called.pixels())
        called.wait(0.1, 1)
    assert len(pictures) == 4


def test_it_is_called_once_more_and_the_sums_beside_it_at_once(called, heard):
    called.press_word("marks.call")
    hear_out(called)
    called.press_word("call.repeat")
    assert heard.calls.count("play") == 2
    called.press("step_on")
    assert called.screen.sheet.number == 2
    assert heard.calls.count("play") == 3
    called.key(pygame.K_LEFT)
    assert called.screen.sheet.number == 1
    called.key(pygame.K_LEFT)
    assert called.screen.sheet.number == 1
    assert heard.calls.count("play") == 4


def test_a_call_is_held(called, heard):
    called.press_word("marks.call")
    called.wait(1, 5)
    called.key(pygame.K_SPACE)
    at = called.screen.calling.position(called.clock)
    called.wait(60, 60)
    assert called.screen.calling.position(called.clock) == at
    called.press_word("call.go_on")
    hear_out(called)


def test_a_slower_pace_takes_longer(called):
    lengths = []
    for pace in ("call_sheet.slow", "call_sheet.usual", "call_sheet.quick"):
        called.press_word(pace)
        called.screen.call()
        lengths.append(called.screen.calling.length)
    assert lengths == sorted(lengths, reverse=True)
    assert lengths[0] - lengths[1] == pytest.approx(1.5 * 4, abs=0.01)


def test_another_pace_ends_the_call_under_way(called, heard):
    called.press_word("marks.call")
    called.wait(1, 5)
    called.press_word("call_sheet.slow")
    assert heard.calls[-1] == "stop"
    called.press_word("call.repeat")
    assert heard.calls[-1] == "play"


def test_a_finger_that_is_down_while_a_part_begins_presses_all_the_same(called):
    called.press_word("marks.call")
    place = next(one.place for one in called.screen.buttons if one.sign == "step_on")
    begun = called.screen.calling.begun(called.clock)
    called.wait_for_buttons()
    called.finger(pygame.FINGERDOWN, 7, place.center)
    while called.screen.calling.begun(called.clock) == begun:
        called.wait(0.1, 1)
    called.finger(pygame.FINGERUP, 7, place.center)
    assert called.screen.sheet.number == 2


def test_an_answer_is_typed_and_told_kindly(called, heard):
    words = called.words
    type_number(called, 81)
    called.key(pygame.K_RETURN)
    assert words.text("call_sheet.not_yet") in called.lines()
    assert "38" not in called.lines()
    for _ in range(2):
        called.key(pygame.K_BACKSPACE)
    assert words.text("call_sheet.not_yet") not in called.lines()
    type_number(called, 80)
    called.press("tick")
    assert heard.said[-1] == words.line("lesson.right_answer", number=80).speak
    assert "= 80" in called.lines()


def test_an_answer_is_looked_at(called, heard):
    called.press("step_on")
    called.press_word("call_sheet.look")
    assert "= 15\u202f984" in called.lines()
    assert heard.calls[-1] == "stop"
    assert heard.said[-1] == called.words.line("lesson.it_is", number=15984).speak
    called.press("step_on")
    type_number(called, 3)
    called.key(pygame.K_RETURN)
    type_number(called, 2)
    called.key(pygame.K_RETURN)
    rest = called.words.line("lesson.rest_is", rest=2).speak
    assert heard.said[-1].endswith(rest)


def test_nothing_of_it_is_kept(called):
    type_number(called, 80)
    called.key(pygame.K_RETURN)
    called.press("back")
    assert called.room.store.attempts(called.room.learner) == ()


def test_leaving_ends_the_call(called, heard):
    called.press_word("marks.call")
    called.key(pygame.K_ESCAPE)
    assert heard.calls[-1] == "stop"


def test_without_sound_its_parts_are_shown(pilot):
    pilot.app.take(Push(CallSheet(pilot.room, sheet_with("38 + 47 - 5"))))
    pilot.app.draw()
    pilot.press_word("marks.call")
    shown = []
    for _ in range(200):
        seen = {line for line, _ in pilot.repaint()} & {"38", "+ 47", "− 5"}
        shown += [one for one in seen if shown[-1:] != [one]]
        pilot.wait(0.1, 1)
    assert shown == ["38", "+ 47", "− 5"]


@pytest.mark.parametrize("age", [Age.YOUNG, Age.OLDER])
def test_every_state_is_well_laid_out(room, age):
    room.settings = Settings(age=age)
    long = "98765432109876 + 12345678901234 - 80000000000007 + 4"

    def screen(*deeds):
        one = laid_out(CallSheet(room, sheet_with(long, "17 / 5", "1 + 1")))
        for deed in deeds:
            deed(one)
        one.rearrange()
        return one

    def typed(one):
        for sign in "1" * 18:
            one.press_sign(sign)

    states = {
        "begun": (),
        "called": (CallSheet.call,),
        "held": (CallSheet.call, CallSheet.hold),
        "wrong": (typed, CallSheet.enter),
        "seen": (typed, CallSheet.look),
        "left over": (lambda one: one.step(1), typed, CallSheet.enter),
        "last": (lambda one: one.step(1), lambda one: one.step(1), CallSheet.look),
    }
    screens = [(name, screen(*deeds)) for name, deeds in states.items()]
    assert_well_laid_out(screens, [*SHAPES, UPRIGHT])

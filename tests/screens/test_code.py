"""The grown-ups' code: set at the first use, asked before the settings, forgotten by command."""

import pygame
import pytest
from pilot import Pilot
from robot import signs

from frame.commands.code import forget_code
from frame.learner.settings import Settings
from frame.screens.choosing.code import NewCode
from frame.screens.choosing.home import Home
from frame.screens.choosing.lock import Lock
from frame.screens.choosing.sections import COMPUTER, LEARNER
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.choosing.who import Who


@pytest.fixture
def first(tmp_path):
    """The first screen, with nobody known."""
    pilot = Pilot(tmp_path, (800, 480))
    yield pilot
    pilot.close()


def give(pilot, code):
    """Type a code on the screen's keys, and give it."""
    for digit in code:
        pilot.press(digit)
    pilot.press("tick")


def set_code(pilot, code="2580"):
    pilot.press("gear")
    assert isinstance(pilot.screen, NewCode)
    give(pilot, code)
    give(pilot, code)


def asked(pilot):
    """What the screen asks."""
    return pilot.screen.greeting.show


def test_nothing_is_set_before_a_code_is_and_it_is_typed_twice(first):
    first.press("gear")
    assert asked(first) == first.words.text("code.new")
    give(first, "2580")
    assert asked(first) == first.words.text("code.again")
    assert not first.room.store.has_code()
    give(first, "2580")
    assert first.room.store.is_code("2580")
    assert isinstance(first.screen, SettingsScreen)


def test_enter_gives_what_was_typed_wherever_the_ring_was(first):
    first.press("gear")
    for digit in "2580":
        first.screen.focus_button([one.text for one in first.screen.buttons].index("8"))
        first.key(pygame.K_0 + int(digit))
    first.key(pygame.K_RETURN)
    assert asked(first) == first.words.text("code.again")


def test_two_different_codes_set_none(first):
    first.press("gear")
    give(first, "2580")
    give(first, "2581")
    assert asked(first) == first.words.text("code.other")
    assert not first.room.store.has_code()
    give(first, "2581")
    assert asked(first) == first.words.text("code.again"), "it is typed twice again"


def test_afterwards_only_the_code_opens_the_settings(first):
    set_code(first)
    first.key(pygame.K_ESCAPE)
    assert isinstance(first.screen, Who)
    first.press("gear")
    assert isinstance(first.screen, Lock)
    for typed in ("0000", "2581", "0852"):
        give(first, typed)
        assert isinstance(first.screen, Lock)
        assert asked(first) == first.words.text("code.wrong")
    give(first, "2580")
    assert isinstance(first.screen, SettingsScreen)


def test_fewer_than_four_digits_are_no_code_and_more_cannot_be_typed(first):
    first.press("gear")
    give(first, "258")
    assert asked(first) == first.words.text("code.new")
    first.press("tick")
    first.press("erase")
    give(first, "8099")
    assert asked(first) == first.words.text("code.again")
    give(first, "2580")
    assert first.room.store.is_code("2580")


def test_what_is_typed_is_not_shown(first):
    first.press("gear")
    before = {line for line, _ in first.repaint()}
    empty = first.pixels()
    for digit in "259":
        first.press(digit)
    assert {line for line, _ in first.repaint()} == before
    assert first.pixels() != empty


def test_the_screen_says_what_the_code_is_for_and_how_one_forgets_it(first):
    first.press("gear")
    assert first.words.text("code.purpose") in first.lines()
    first.key(pygame.K_ESCAPE)
    first.room.store.set_code("1234")
    first.press("gear")
    assert first.words.text("code.purpose") in first.lines()
    for size in ((800, 480), (1280, 720), (600, 960), (480, 800)):
        first.resize(size)
        lines = [line.replace("\u00a0", " ") for line, _ in first.repaint()]
        assert sum("bead-frame code --forget" in line for line in lines) == 1, "on one line"
    first.resize((800, 480))
    assert forget_code(first.room.store.path, first.words) == 0
    first.key(pygame.K_ESCAPE)
    set_code(first)
    assert isinstance(first.screen, SettingsScreen)


def test_the_code_guards_the_settings_of_a_learner_too(pilot):
    pilot.room.store.set_code("2580")
    pilot.press("gear")
    assert isinstance(pilot.screen, Lock)
    give(pilot, "1111")
    assert isinstance(pilot.screen, Lock)
    pilot.key(pygame.K_ESCAPE)
    assert isinstance(pilot.screen, Home)
    pilot.press("gear")
    give(pilot, "2580")
    assert isinstance(pilot.screen, SettingsScreen)
    assert LEARNER in pilot.screen.sections


def test_the_code_is_changed_in_the_settings(first):
    set_code(first)
    first.press_word(COMPUTER.key)
    first.press_word("code.change")
    give(first, "7777")
    give(first, "7777")
    assert isinstance(first.screen, SettingsScreen)
    assert first.room.store.is_code("7777") and not first.room.store.is_code("2580")


# What is the computer's


def test_the_first_screen_leads_to_the_computers_settings_without_a_learner(first):
    set_code(first)
    assert LEARNER not in first.screen.sections
    assert first.words.text("settings.title_newcomers") in first.lines()
    first.press_word(COMPUTER.key)
    assert first.words.text("settings.title_computer") in first.lines()
    first.press_word("settings.on")
    assert first.room.store.computer().quick_flash
    first.press_word("classroom.title")
    first.press_word("settings.on")
    assert first.room.store.computer().classroom
    for _ in range(2):
        first.key(pygame.K_ESCAPE)
    assert isinstance(first.screen, Who)
    assert first.room.store.learners() == ()


def test_a_newcomer_begins_with_the_computers_settings_and_keeps_what_is_theirs(first):
    set_code(first)
    first.press_word("settings.page_2")
    first.press_word("settings.carry_first")
    first.key(pygame.K_ESCAPE)
    first.welcome("Otter")
    assert first.room.settings.carry is first.room.computer.carry is not Settings().carry
    first.room.set(carry=Settings().carry, quick_flash=True)
    first.key(pygame.K_ESCAPE)
    assert first.room.settings == first.room.computer
    assert first.room.computer.quick_flash
    assert first.room.computer.carry is not Settings().carry


def test_a_newcomers_age_is_asked_in_peace(first):
    assert {"gear", "board"} <= signs(first.screen)
    first.press("Otter")
    assert not {"gear", "board"} & signs(first.screen)

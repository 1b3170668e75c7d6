"""What a screen has to say when it comes up, and once more to whoever waits."""

import pygame
import pytest
from robot import Heard

from frame.app import Push
from frame.course.attempts import Position
from frame.learner.kept_sets import KeptSet
from frame.learner.store import LessonState
from frame.practice.choices import Choices
from frame.practice.rungs import Asked
from frame.screens.choosing.all_choices import AllChoices
from frame.screens.choosing.classroom import ClassroomScreen
from frame.screens.choosing.code import NewCode
from frame.screens.choosing.home import Home
from frame.screens.choosing.lock import Lock
from frame.screens.choosing.named_sets import KeptSets, NewSet, OneSet
from frame.screens.choosing.own_lessons import OwnLessons
from frame.screens.choosing.practise import PractiseScreen
from frame.screens.choosing.same_child import SameChild
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.choosing.two_computers import TwoComputers
from frame.screens.choosing.who import Who
from frame.view.geometry import Bead

SPEAKING = {
    "who": Who,
    "home": Home,
    "practise": PractiseScreen,
    "all choices": AllChoices,
    "kept sets": KeptSets,
    "one set": lambda room: OneSet(room, KeptSet("1", "Quay", {})),
    "new set": lambda room: NewSet(room, Choices()),
    "own lessons": OwnLessons,
    "classroom": ClassroomScreen,
    "lock": Lock,
    "new code": lambda room: NewCode(room, None),
    "settings": SettingsScreen,
    "two computers": TwoComputers,
    "same child": SameChild,
}


@pytest.fixture
def said(pilot, heard):
    """What is said from now on."""
    assert isinstance(heard, Heard)
    heard.said.clear()
    return heard.said


@pytest.mark.parametrize("name", SPEAKING)
def test_a_screen_says_what_there_is_to_do_and_once_more_after_a_while(pilot, said, name):
    pilot.app.take(Push(SPEAKING[name](pilot.room)))
    greeting = pilot.screen.greeting.speak
    assert said == [greeting]
    pilot.wait(19.9, 10)
    assert said == [greeting]
    pilot.wait(0.2, 1)
    assert said == [greeting] * 2
    pilot.wait(300, 30)
    assert said == [greeting] * 2


def test_whoever_does_something_is_given_time_again(pilot, said):
    pilot.app.take(Push(SettingsScreen(pilot.room)))
    said.clear()
    for _ in range(3):
        pilot.wait(15, 5)
        pilot.tap((3, 300))
        assert said == []
    pilot.wait(20.1, 5)
    assert said == [pilot.screen.greeting.speak]


def test_it_is_told_again_each_time_the_screen_comes_up(pilot, said):
    for _ in range(2):
        pilot.press_word("home.practise")
        pilot.wait(30, 5)
        pilot.key(pygame.K_ESCAPE)
        said.clear()
        pilot.wait(30, 5)
        assert said == [pilot.screen.greeting.speak]


@pytest.mark.parametrize("code", [pygame.K_RIGHT, pygame.K_UP])
def test_going_round_the_lessons_is_doing_something(pilot, said, code):
    pilot.wait(15, 3)
    pilot.key(code)
    told = [*said]
    pilot.wait(15, 3)
    assert said == told


def test_typing_a_code_is_doing_something(pilot, said):
    pilot.app.take(Push(Lock(pilot.room)))
    pilot.wait(15, 3)
    pilot.key(pygame.K_1)
    said.clear()
    pilot.wait(15, 3)
    assert said == []


# What each screen says


def test_the_first_screen_asks_each_of_its_questions(pilot, said):
    words = pilot.words
    pilot.key(pygame.K_ESCAPE)
    assert said[-1] == words.line("who.title").speak
    pilot.press("newcomer")
    assert said[-1] == words.line("who.choose_animal").speak
    pilot.press("Gull")
    assert said[-1] == words.line("who.choose_flag").speak
    pilot.press("gull-cross")
    bands = ("who.age_young", "who.age_middle", "who.age_older")
    asked = " ".join(words.line(key).speak for key in ("who.age", *bands))
    assert said[-1] == asked
    pilot.wait(21, 5)
    assert said[-2:] == [asked] * 2
    ages = []
    for _ in bands:
        pilot.key(pygame.K_TAB)
        ages.append(said[-1])
    assert ages == [words.line(key).speak for key in bands]
    pilot.press("7–9")
    assert said[-1] == words.line("who.name").speak
    for key in ("who.age", "who.choose_flag", "who.choose_animal", "who.title"):
        pilot.key(pygame.K_ESCAPE)
        assert said[-1].startswith(words.line(key).speak)


def test_what_a_typed_name_cannot_say_its_picture_does(pilot, said):
    """No clip says any name there is: the animal stands for it, with its flag among others."""
    pilot.key(pygame.K_ESCAPE)
    pilot.press("newcomer")
    pilot.welcome("Gull", flag="cross", name="Ælfgifu")
    names = [button.name for button in pilot.screen.buttons]
    assert "Gull, Cross." in names
    pilot.key(pygame.K_ESCAPE)
    heard = []
    for _ in range(3):
        pilot.key(pygame.K_TAB)
        heard.append(said[-1])
    assert heard == ["Otter, Plain.", "Gull, Cross.", "New"]


def test_a_flag_that_somebody_has_is_said_to_be_taken(pilot, said):
    pilot.key(pygame.K_ESCAPE)
    pilot.press("newcomer")
    pilot.press("Otter")
    spoken = {}
    for _ in range(6):
        pilot.key(pygame.K_TAB)
        spoken[pilot.screen.buttons[pilot.screen.focus].picture] = said[-1]
    assert spoken["otter"] == "Otter, Plain. Taken."
    assert spoken["otter-checks"] == "Otter, Checks."


def test_a_locked_bead_says_what_comes_first(pilot, said):
    field = pilot.screen.map.fields[0]
    box = field.layout.bead_box(3, Bead.EARTH_2, field.pose.rods[3][Bead.EARTH_2])
    pilot.tap(box.centre)
    first = pilot.words.text("home.locked", title=pilot.room.course.lessons[0].title)
    assert pilot.screen.said == first
    assert said[-1] == first
    assert first in pilot.lines()


def test_home_says_the_main_thing(pilot, said):
    pilot.room.lessons["beads-1"] = LessonState(1, Position(2), done=False)
    pilot.press_word("home.practise")
    pilot.key(pygame.K_ESCAPE)
    title = pilot.room.course.lessons[0].title
    assert said[-1] == pilot.words.text("home.go_on", title=title)


def test_practise_says_its_title_and_all_that_is_chosen(pilot, said):
    pilot.room.set(all_open=True)
    pilot.press_word("home.practise")
    pilot.press_word("practise.more")
    told, words = said[-1], pilot.words
    assert told.startswith(f"{words.text('practise.title')}. {words.text('practise.beads')}.")
    for dial in pilot.screen.dials:
        assert dial.spoken in told
        chosen = [one.text.speak for one in dial.choices if one.is_chosen]
        assert all(text in told for text in chosen)


def test_practise_says_what_stands_ready(pilot, said):
    pilot.room.set(all_open=True)
    pilot.press_word("home.practise")
    screen, words = pilot.screen, pilot.words
    assert said[-1] == f"{words.text('practise.title')}. {screen.ready.spoken}"
    pilot.key(pygame.K_TAB)
    assert said[-1] == screen.ready.spoken


def test_practise_says_that_a_lesson_comes_first(pilot, said):
    pilot.press_word("home.practise")
    assert said[-1].endswith(pilot.words.line("practise.first").speak)


def test_what_is_chosen_with_a_finger_is_said(pilot, said):
    pilot.room.set(all_open=True)
    pilot.press_word("home.practise")
    pilot.press_word("practise.more")
    words = pilot.words
    pilot.press_word("practise.called")
    assert pilot.screen.choices.asked is Asked.CALLED
    assert said[-1] == pilot.screen.greeting.speak
    assert words.text("practise.called") in said[-1]
    pilot.press_word("sight.pale")
    assert said[-1] == f"{words.text('practise.frame')}. {words.text('sight.pale')}."

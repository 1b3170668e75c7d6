"""Who learns here: a newcomer chooses a picture and an age, and nothing else is asked."""

import pygame
import pytest
from pilot import Pilot
from robot import signs

from frame.learner.settings import Age, Settings
from frame.screens.choosing.home import Home
from frame.screens.choosing.who import ANIMALS, Who


@pytest.fixture
def pilot(tmp_path):
    pilot = Pilot(tmp_path, (800, 480))
    yield pilot
    pilot.close()


def texts(pilot):
    return [button.text for button in pilot.screen.buttons if button.text]


@pytest.mark.parametrize(
    "answer, age", [("4–6", Age.YOUNG), ("7–9", Age.MIDDLE), ("10+", Age.OLDER)]
)
def test_the_age_chosen_is_the_learners_setting(pilot, answer, age):
    pilot.welcome("Otter", answer)
    assert isinstance(pilot.screen, Home)
    assert pilot.room.settings == Settings(age=age)
    assert pilot.room.store.settings(pilot.room.learner).age is age


def test_nobody_is_kept_before_an_age_is_chosen(pilot):
    pilot.press("Otter")
    assert texts(pilot) == ["4–6", "7–9", "10+"]
    assert pilot.room.store.learners() == ()
    assert "How old?" in [line for line, _ in pilot.repaint()]


@pytest.mark.parametrize("leave", [lambda p: p.key(pygame.K_ESCAPE), lambda p: p.press("back")])
def test_the_way_back_leads_from_the_ages_to_the_pictures_and_from_there_to_faces(pilot, leave):
    pictures = texts(pilot)
    assert len(pictures) == len(ANIMALS)
    pilot.press("Otter")
    leave(pilot)
    assert texts(pilot) == pictures
    pilot.welcome("Seal")
    pilot.key(pygame.K_ESCAPE)
    assert texts(pilot) == ["Seal", "New"]
    pilot.press("newcomer")
    assert texts(pilot) == pictures
    pilot.press("Gull")
    leave(pilot)
    assert texts(pilot) == pictures
    leave(pilot)
    assert texts(pilot) == ["Seal", "New"]
    assert len(pilot.app.screens) == 1
    assert [one.nickname for one in pilot.room.store.learners()] == ["Seal"]


def test_a_picture_chosen_twice_is_numbered(pilot):
    for _ in range(2):
        pilot.welcome("Otter")
        pilot.key(pygame.K_ESCAPE)
        pilot.press("newcomer")
        pilot.wait(1.0)
    pilot.key(pygame.K_ESCAPE)
    assert texts(pilot) == ["Otter", "Otter 2", "New"]


def test_where_nobody_is_known_there_is_no_way_back_from_the_pictures(pilot):
    assert isinstance(pilot.screen, Who)
    assert "back" not in signs(pilot.screen)
    pilot.key(pygame.K_ESCAPE)
    assert len(texts(pilot)) == len(ANIMALS)

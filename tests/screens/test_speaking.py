"""What is spoken: each new sentence once, and again when it is asked for."""

import pygame
import pytest
from robot import at_work, begin, give_answer, signs, wrong_moves

from frame.app import Push
from frame.course.runner import Stage
from frame.learner.settings import Volume
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Rung
from frame.screens.choosing.settings import SettingsScreen
from frame.technique.expression import parse_sum


def exercise(text="34 + 23", rung=Rung.ALONE, rods=2):
    return Exercise(Kind.SUM, parse_sum(text), rung, rods)


def err(pilot):
    """Make a bead move that is not asked for."""
    while not wrong_moves(pilot.screen):
        pilot.move(min(pilot.screen.runner.work.next_stroke))
        pilot.settle()
    pilot.move(wrong_moves(pilot.screen)[0])
    pilot.settle()


def test_every_new_sentence_is_said_once_as_it_is_spoken(pilot, heard):
    pilot.open("beads-1")
    screen, lines = pilot.screen, []
    for _ in range(40):
        if screen.runner.stage is Stage.END:
            break
        if screen.guide.line is not None and (not lines or lines[-1] is not screen.guide.line):
            lines.append(screen.guide.line)
        pilot.wait(0.3, 3)
        if screen.runner.stage is Stage.TELL:
            pilot.press_word("lesson.go_on")
        elif screen.runner.stage is Stage.WORK:
            pilot.move(min(screen.runner.work.next_stroke))
    assert len(heard.said) > 5
    assert all(one != other for one, other in zip(heard.said, heard.said[1:], strict=False))
    spoken = {line.speak for line in lines}
    assert spoken <= set(heard.said)


def test_a_sentence_still_stands_and_is_not_said_again(pilot, heard):
    at_work(pilot, "columns-1")
    pilot.wait(5, 20)
    pilot.repaint()
    pilot.resize((1024, 768))
    pilot.wait(3, 5)
    assert len(heard.said) == len(set(heard.said))


def test_the_speaker_says_it_again(pilot, heard):
    screen = at_work(pilot, "columns-1")
    err(pilot)
    said = screen.guide.line.speak
    assert heard.said[-1] == said
    before = heard.said.count(said)
    pilot.press("speaker")
    assert heard.said[-1] == f"twenty-eight. plus forty-five. {said}"
    assert heard.said.count(said) == before


def test_a_sentence_that_comes_later_has_its_speaker_too(pilot, heard):
    """What is asked is heard before there is a sentence, and with it."""
    screen = begin(pilot, exercise())
    assert screen.guide.line is None
    pilot.press("speaker")
    assert heard.said == ["thirty-four. plus twenty-three."] * 2
    err(pilot)
    assert heard.said[2:] == [screen.guide.line.speak]
    pilot.press("speaker")
    assert heard.said[3:] == [f"thirty-four. plus twenty-three. {screen.guide.line.speak}"]


@pytest.mark.parametrize("changes", [{"voice": False}, {"volume": Volume.OFF}])
def test_without_voice_or_sound_nothing_is_said_and_there_is_no_speaker(pilot, heard, changes):
    pilot.room.set(**changes)
    screen = at_work(pilot, "columns-1")
    err(pilot)
    assert screen.guide.line is not None
    assert heard.said == []
    assert "speaker" not in signs(screen)


def test_sound_turned_off_and_on_takes_the_speaker_away_and_brings_it_back(pilot, heard):
    screen = at_work(pilot, "columns-1")
    err(pilot)
    for is_there in (False, True):
        while pilot.room.can_speak is not is_there:
            pilot.key(pygame.K_F2)
        assert ("speaker" in signs(screen)) is is_there
        seen = pilot.pixels()
        pilot.repaint()
        assert pilot.pixels() == seen


def test_where_there_is_no_loudspeaker_there_is_no_speaker_to_touch(pilot):
    screen = at_work(pilot, "columns-1")
    err(pilot)
    assert screen.guide.line is not None
    assert "speaker" not in signs(screen)


def test_going_round_with_tab_says_what_each_button_is(pilot, heard):
    screen = at_work(pilot, "columns-1")
    pilot.move(min(screen.runner.work.next_stroke))
    pilot.settle()
    words, said = pilot.words, []
    for _ in screen.buttons:
        heard.said.clear()
        pilot.key(pygame.K_TAB)
        said += heard.said
    assert {words.text("lesson.show_me"), words.text("lesson.undo"), words.text("sign.back"),
            words.text("sign.speaker")} <= set(said)  # fmt: skip
    assert len(said) == len(screen.buttons)


@pytest.mark.parametrize("code", [pygame.K_TAB, pygame.K_DOWN])
def test_every_button_of_the_settings_says_what_it_is(pilot, heard, code):
    pilot.app.take(Push(SettingsScreen(pilot.room)))
    for _ in pilot.screen.sections:
        for button in pilot.screen.buttons:
            heard.said.clear()
            pilot.key(code)
            assert heard.said, button
        pilot.screen.page = (pilot.screen.page + 1) % len(pilot.screen.sections)
        pilot.screen.rearrange()


def test_what_is_typed_is_said_digit_by_digit(pilot, heard):
    begin(pilot, exercise(rung=Rung.NUMBER))
    heard.said.clear()
    for digit in "57":
        pilot.press(digit)
    assert heard.said == ["five", "seven"]


def test_how_it_went_is_said_as_well_as_shown(pilot, heard):
    screen = begin(pilot, exercise(rung=Rung.NUMBER))
    give_answer(pilot, 57)
    assert heard.said[-1] == pilot.words.line("lesson.right_answer", number=57).speak
    assert heard.said[-1] == screen.guide.line.speak != screen.guide.line.show


def test_leaving_ends_what_is_being_said(pilot, heard, monkeypatch):
    hushed = []
    monkeypatch.setattr(heard, "hush", lambda: hushed.append(True))
    pilot.open("beads-1")
    pilot.press("back")
    assert hushed


def test_a_sentence_is_heard_out_before_what_follows_by_itself(pilot, heard, monkeypatch):
    monkeypatch.setattr(heard, "say", lambda text: heard.said.append(text) or 6.0)
    screen = begin(pilot, exercise(rung=Rung.NUMBER), count=2)
    give_answer(pilot, 57)
    pilot.wait(5.8, 20)
    assert screen.runner.position.step == 0
    pilot.wait(0.5, 5)
    assert screen.runner.position.step == 1


# Beads that mean nothing


def by_tap(pilot):
    pilot.tap(pilot.screen.field.box.center)


def by_drag(pilot):
    box = pilot.screen.field.box
    pilot.drag((box.centerx, box.bottom - 5), box.center)


@pytest.mark.parametrize("volume", [Volume.QUIET, Volume.OFF])
@pytest.mark.parametrize("act", [by_tap, by_drag])
def test_who_touches_beads_before_a_sentence_sees_the_way_on(pilot, heard, act, volume):
    pilot.room.set(volume=volume)
    pilot.open("beads-1")
    pilot.wait(8)
    (on,) = (button for button in pilot.screen.buttons if button.sign == "next")
    around = on.place.inflate(10, 10)
    before = pilot.pixels(around)
    heard.said.clear()
    act(pilot)
    told = pilot.words.line("lesson.touch_on")
    assert heard.said == ([told.speak] if volume is not Volume.OFF else [])
    assert pilot.pixels(around) != before
    assert told.show in pilot.lines()
    pilot.press_word("lesson.go_on")
    pilot.wait(1)
    assert told.show not in pilot.lines()
    assert pilot.pixels(around) == before

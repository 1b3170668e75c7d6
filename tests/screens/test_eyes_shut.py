"""With eyes shut the empty field comes to the hand: the first touch of a sitting tells where."""

import pygame
import pytest
from pilot import Pilot
from robot import begin

from frame.language.numbers import rod_name
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Asked, Rung
from frame.screens.choosing.who import Who
from frame.technique.beads import BeadMove
from frame.technique.expression import parse_sum
from frame.technique.reading import read


def exercise(rung=Rung.COVERED, **more):
    return Exercise(Kind.SUM, parse_sum("34 + 23"), rung, 2, **more)


@pytest.fixture
def blind(pilot):
    pilot.room.set(eyes_shut=True)
    return pilot


def beam(screen):
    """The place of the beam on the unit rod, as it is painted."""
    layout = screen.field.layout
    return layout.rod_box(layout.units).centre[0], layout.beam_box.centre[1]


def test_the_first_touch_makes_no_move_and_tells_where_the_hand_is(blind, heard):
    screen = begin(blind, exercise())
    there = (200, 300)
    blind.tap(there)
    assert read(screen.runner.frame) == 0
    assert screen.runner.work.touches == []
    assert blind.room.hand_at == there
    assert screen.guide.said == blind.words.line("lesson.hand_found")
    assert heard.names == ["settle"]
    assert heard.said[-1].endswith(blind.words.line("lesson.hand_found").speak)


def test_then_beads_lie_about_the_hand_and_not_about_the_picture(blind, heard):
    screen = begin(blind, exercise())
    layout = screen.field.layout
    x, y = beam(screen)
    there = (x - 1.2 * layout.spacing, y - 0.6 * layout.bead_height)
    blind.tap(there)
    for move, number in ((BeadMove(0, 5), 5), (BeadMove(1, 3), 35), (BeadMove(0, 2), 37)):
        seen = blind.bead_at(move.rod, move.change)
        blind.tap((there[0] + seen[0] - x, there[1] + seen[1] - y))
        blind.settle()
        assert read(screen.runner.frame) == number
    assert heard.names.count("click") == 3


def test_it_is_asked_once_in_a_sitting_and_holds_for_the_next_exercise(blind):
    screen = begin(blind, exercise())
    blind.tap((180, 250))
    blind.press("back")
    screen = begin(blind, exercise())
    assert screen.field.anchor == (180, 250)
    x, y = beam(screen)
    seen = blind.bead_at(0, 3)
    blind.tap((180 + seen[0] - x, 250 + seen[1] - y))
    assert read(screen.runner.frame) == 3
    assert blind.room.hand_at == (180, 250)


def test_another_sitting_asks_anew(blind):
    begin(blind, exercise())
    blind.tap((180, 250))
    blind.press("back")
    blind.press("otter")
    assert isinstance(blind.screen, Who)
    assert blind.room.hand_at is None
    blind.press("Otter")
    screen = begin(blind, exercise())
    blind.tap((300, 200))
    assert blind.room.hand_at == (300, 200)
    assert screen.runner.work.touches == []


@pytest.mark.parametrize("rung", [Rung.TRACES, Rung.COVERED])
def test_on_every_unseen_rung_the_hand_is_found_first(blind, rung):
    screen = begin(blind, exercise(rung))
    blind.move(BeadMove(1, 3))
    assert blind.room.hand_at is not None
    assert read(screen.runner.frame) == 0


@pytest.mark.parametrize("rung", [Rung.ALONE, Rung.PALE])
def test_where_beads_are_seen_they_are_touched_where_they_are(blind, rung):
    screen = begin(blind, exercise(rung))
    blind.move(BeadMove(1, 3))
    blind.settle()
    assert blind.room.hand_at is None
    assert read(screen.runner.frame) == 30


def test_buttons_stay_where_they_are_seen(blind):
    screen = begin(blind, exercise())
    blind.press("eye")
    assert screen.runner.work.looks == 1
    assert blind.room.hand_at is None


def from_hand(screen, there, seen):
    """The place of a bead that is painted there for the hand whose beam is here."""
    x, y = beam(screen)
    return there[0] + seen[0] - x, there[1] + seen[1] - y


def test_a_look_is_ended_by_a_touch_which_is_felt_where_the_hand_lies(blind):
    screen, there = begin(blind, exercise()), (180, 250)
    blind.tap(there)
    covered = blind.pixels(screen.field.box)
    blind.press("eye")
    assert blind.pixels(screen.field.box) != covered
    blind.tap(from_hand(screen, there, blind.bead_at(1, 3)))
    blind.settle()
    assert read(screen.runner.frame) == 30
    assert blind.pixels(screen.field.box) == covered


def test_the_sum_is_heard_and_can_be_heard_again(blind, heard):
    begin(blind, exercise())
    words = blind.words
    first = words.line("lesson.number", number=34).speak
    second = words.line("rule.plus", number=23).speak
    assert [first in text and second in text for text in heard.said] == [True]
    blind.tap((180, 250))
    heard.said.clear()
    blind.press("speaker")
    assert first in heard.said[-1] and second in heard.said[-1]


def test_over_a_button_a_stroke_is_one_of_beads_and_a_tap_is_the_buttons(blind):
    screen = begin(blind, exercise())
    eye = next(one for one in screen.buttons if one.sign == "eye").place
    seen = blind.bead_at(0, 1)
    x, y = beam(screen)
    blind.room.hand_at = eye.centerx - seen[0] + x, eye.centery - seen[1] + y
    screen = begin(blind, exercise())
    high = screen.field.layout.bead_height
    blind.drag(eye.center, (eye.centerx, eye.centery - high))
    blind.settle()
    assert (read(screen.runner.frame), screen.runner.work.looks) == (1, 0)
    blind.wait_for_buttons()
    blind.tap(eye.center)
    blind.settle()
    assert (read(screen.runner.frame), screen.runner.work.looks) == (1, 1)


def test_the_rod_that_keys_come_to_is_named(blind, heard):
    screen = begin(blind, exercise())
    for code in (pygame.K_LEFT, pygame.K_LEFT, pygame.K_RIGHT):
        heard.said.clear()
        blind.key(code)
        name = rod_name(screen.field.focus, blind.words)
        assert heard.said == [blind.words.line("verdict.next_rod", rod=name).speak]


def test_while_numbers_are_called_the_hand_is_found_too(blind):
    screen = begin(blind, exercise(asked=Asked.CALLED, pace=1.0))
    blind.wait(1.5, 10)
    blind.tap((180, 250))
    assert blind.room.hand_at == (180, 250)
    assert screen.runner.work.touches == []


def test_without_the_setting_a_touch_is_a_touch(pilot):
    screen = begin(pilot, exercise())
    pilot.move(BeadMove(1, 3))
    assert read(screen.runner.frame) == 30
    assert pilot.room.hand_at is None


def test_in_a_window_of_another_size_the_hand_is_found_anew_or_kept_inside(tmp_path):
    pilot = Pilot(tmp_path, (1280, 720))
    pilot.welcome("Seal")
    pilot.room.set(eyes_shut=True)
    screen = begin(pilot, exercise())
    pilot.tap((1240, 690))
    pilot.resize((800, 480))
    for anchor in (screen.field.anchor, pilot.room.hand_at):
        assert anchor is None or pilot.app.window.get_rect().collidepoint(anchor)
    pilot.close()

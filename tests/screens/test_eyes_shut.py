"""With eyes shut the empty field comes to the hand: the first touch of a sitting tells where."""

import pytest
from pilot import Pilot
from robot import begin

from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Asked, Rung
from frame.screens.who import Who
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
    assert screen.said == blind.words.line("lesson.hand_found")
    assert heard.names == ["settle"]
    assert heard.said[-1] == blind.words.line("lesson.hand_found").speak


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


def test_a_look_shows_the_frame_and_is_touched_where_it_is(blind):
    screen = begin(blind, exercise())
    blind.tap((180, 250))
    blind.press("eye")
    blind.move(BeadMove(1, 3))
    blind.settle()
    assert read(screen.runner.frame) == 30


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

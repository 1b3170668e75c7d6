"""A call held, repeated and begun again, and beads moved meanwhile."""

import pygame
import pytest
from calls import called, to_the_answer, until_called, until_number
from robot import begin, give_answer, signs

from frame.course.runner import Stage
from frame.language.speech import RATE
from frame.practice.outcomes import Outcome
from frame.practice.rungs import Rung
from frame.technique.beads import BeadMove
from frame.technique.reading import read

# Held, repeated, begun again


def test_hold_stops_time_and_go_on_goes_on_there(pilot, heard):
    screen = begin(pilot, called())
    until_called(pilot)
    until_number(pilot, 1)
    pilot.press_word("call.hold")
    at = screen.calling.position(pilot.clock)
    pilot.wait(60, 20)
    assert screen.runner.stage is Stage.PRESENT
    assert screen.calling.position(pilot.clock) == pytest.approx(at)
    assert screen.wakes_in(pilot.clock) is None
    pilot.press_word("lesson.go_on")
    assert heard.calls[-2:] == ["pause", "resume"]
    assert screen.calling.position(pilot.clock) == pytest.approx(at)
    to_the_answer(pilot)


def test_space_holds_and_goes_on(pilot, heard):
    screen = begin(pilot, called())
    until_called(pilot)
    for is_held in (True, False, True):
        pilot.key(pygame.K_SPACE)
        assert screen.calling.is_held is is_held


def test_once_more_begins_at_the_number_called_last(pilot, calling):
    until_number(pilot, 1)
    onset = calling.calling.position(pilot.clock)
    pilot.wait(0.6, 2)
    pilot.press_word("call.hold")
    pilot.press_word("call.repeat")
    assert not calling.calling.is_held
    assert calling.calling.number(pilot.clock) == 1
    assert calling.calling.position(pilot.clock) == pytest.approx(onset, abs=0.1)
    until_number(pilot, 2)
    to_the_answer(pilot)


def test_from_the_start_begins_again_while_numbers_are_called(pilot, calling):
    until_number(pilot, 2)
    pilot.press_word("call.again")
    assert calling.calling.number(pilot.clock) is None
    until_number(pilot, 0)


def test_there_is_no_once_more_before_a_number_was_called(pilot, heard):
    """A call with sound opens with words."""
    screen = begin(pilot, called())
    until_called(pilot)
    once_more = pilot.words.text("call.repeat")
    assert screen.calling.number(pilot.clock) is None
    pilot.press_word("call.hold")
    assert once_more not in signs(screen)
    pilot.press_word("lesson.go_on")
    until_number(pilot, 0)
    pilot.press_word("call.hold")
    assert once_more in signs(screen)


@pytest.mark.parametrize("when", [until_called, to_the_answer])
def test_from_the_start_puts_the_beads_back_and_forgets_them(pilot, calling, when):
    when(pilot)
    pilot.move(BeadMove(1, 3))
    assert len(calling.runner.work.touches) == 1
    pilot.press_word("call.again")
    pilot.settle()
    assert read(calling.field.frame) == read(calling.runner.frame) == 0
    assert calling.runner.work.touches == []
    assert "undo" not in signs(calling)
    to_the_answer(pilot)
    give_answer(pilot, 45)
    assert calling.runner.attempts[-1].unaided, "the hand of the first time is forgotten"


def test_a_bead_moved_in_a_call_can_be_taken_back(pilot, calling):
    assert "undo" not in signs(calling)
    pilot.move(BeadMove(1, 3))
    pilot.wait(0.3, 3)
    assert read(calling.runner.frame) == 30
    pilot.press_word("lesson.undo")
    pilot.wait(0.3, 3)
    assert read(calling.runner.frame) == read(calling.field.frame) == 0
    assert "undo" not in signs(calling)
    assert calling.runner.stage is Stage.PRESENT


def test_from_the_start_begins_again_when_the_answer_is_waited_for(pilot, calling):
    to_the_answer(pilot)
    pilot.press("9")
    pilot.press_word("call.again")
    assert calling.runner.stage is Stage.PRESENT
    assert calling.guide.answer.typed == ""
    until_called(pilot)
    to_the_answer(pilot)
    give_answer(pilot, 45)
    assert calling.runner.attempts[-1].right


def test_a_repeated_call_is_heard_from_that_number_on(pilot, heard, monkeypatch):
    lengths, play = [], heard.play_call

    def note(samples):
        lengths.append(play(samples))
        return lengths[-1]

    monkeypatch.setattr(heard, "play_call", note)
    screen = begin(pilot, called())
    until_called(pilot)
    until_number(pilot, 1)
    pilot.press_word("call.hold")
    pilot.press_word("call.repeat")
    whole, rest = lengths
    assert rest == pytest.approx(whole - screen.calling.position(pilot.clock))
    assert 0 < rest < whole == pytest.approx(screen.calling.length, abs=1 / RATE)


# Beads meanwhile


@pytest.mark.parametrize("rung", [Rung.ALONE, Rung.PALE, Rung.COVERED])
def test_beads_may_be_moved_meanwhile_and_are_not_judged(pilot, heard, rung):
    screen = begin(pilot, called(rung=rung))
    until_called(pilot)
    before = pilot.pixels(screen.field.box)
    for move in (BeadMove(1, 4), BeadMove(0, 3)):
        pilot.move(move)
        pilot.wait(0.3, 3)
    assert read(screen.runner.frame) == 43
    assert screen.guide.said is None
    assert screen.field.mending is None
    assert not screen.field.hints
    assert (pilot.pixels(screen.field.box) == before) is (rung is Rung.COVERED)


def test_the_frame_can_be_worked_to_the_end_and_read_off_for_the_answer(pilot, calling):
    work = calling.runner.work
    while work.next_stroke:
        pilot.screen.touch(work.next_stroke)
        pilot.wait(0.3, 3)
    to_the_answer(pilot)
    pilot.press_word("lesson.take")
    assert calling.guide.answer.typed == "45"
    pilot.press("tick")
    attempt = calling.runner.attempts[-1]
    assert (attempt.outcome, attempt.unaided) == (Outcome.RIGHT, True)


def test_a_strayed_hand_beside_a_right_answer_is_told_apart(pilot, calling):
    pilot.screen.touch((BeadMove(1, 4),))
    to_the_answer(pilot)
    give_answer(pilot, 45)
    assert calling.runner.attempts[-1].outcome is Outcome.HAND_STRAYED


def test_beads_of_a_number_only_call_cannot_be_moved(pilot):
    screen = begin(pilot, called(rung=Rung.NUMBER))
    until_called(pilot)
    before = pilot.pixels(screen.field.box)
    pilot.tap(screen.field.box.center)
    pilot.drag(screen.field.box.center, screen.field.box.midtop)
    assert read(screen.runner.frame) == 0
    assert screen.runner.work.touches == []
    assert pilot.pixels(screen.field.box) == before

"""What a learner is told and shown after right and wrong beads."""

from random import Random

import pygame
import pytest
from robot import Heard, at_work, do_right, give_answer, steps_at, tick_is_seen, wrong_moves

from frame.course.runner import Stage
from frame.practice.exercises import Kind
from frame.practice.rungs import Rung
from frame.technique.reading import read

HARSH = ("wrong", "false", "mistake", "error", "incorrect", "bad", "no,", "fail")
LESSONS = ["beads-3", "no-partner-2", "five-add-2", "ten-add-2", "ten-five-2", "columns-2"]


def until_one_can_err(pilot, lesson_id):
    """At the lesson's first sum, as far as it takes for a wrong bead to be possible."""
    screen = at_work(pilot, lesson_id)
    while not wrong_moves(screen):
        pilot.move(min(screen.runner.work.next_stroke))
        pilot.settle()
    return screen


@pytest.mark.parametrize("lesson_id", LESSONS[1:])
def test_a_wrong_bead_gets_a_sentence_and_goes_back(pilot, lesson_id):
    screen = until_one_can_err(pilot, lesson_id)
    before, seen = screen.runner.frame, pilot.pixels(screen.field.box)
    move = wrong_moves(screen)[0]
    pilot.move(move)
    assert screen.guide.said is not None
    assert screen.guide.said != screen.runner.line
    assert screen.guide.said.show in " ".join(line for line, _ in pilot.repaint())
    pilot.wait(0.1, turns=2)
    assert pilot.pixels(screen.field.box) != seen
    assert screen.runner.frame == before
    pilot.wait(0.5)
    assert not screen.field.is_moving
    assert screen.field.frame == before


@pytest.mark.parametrize("lesson_id", LESSONS[1:])
def test_after_two_misses_in_a_row_the_next_bead_is_lit(pilot, lesson_id):
    screen = until_one_can_err(pilot, lesson_id)
    for lit in (False, True):
        pilot.move(wrong_moves(screen)[0])
        pilot.settle()
        assert bool(screen.field.hints) is lit
    assert set(screen.field.hints) == set(screen.runner.work.next_stroke)
    pilot.move(min(screen.runner.work.next_stroke))
    assert not screen.field.hints


@pytest.mark.parametrize("lesson_id", LESSONS[::2])
def test_nobody_is_ever_told_off(pilot, lesson_id):
    """A hand that errs half of the time; every sentence seen is looked at."""
    random, said = Random(lesson_id), set()
    pilot.open(lesson_id)
    for _ in range(70):
        screen = pilot.screen
        runner = screen.runner
        if runner.stage is Stage.END:
            break
        if runner.stage is Stage.WORK and random.random() < 0.5 and (some := wrong_moves(screen)):
            pilot.move(random.choice(some))
            pilot.settle()
        elif runner.stage is Stage.ANSWER and random.random() < 0.5:
            give_answer(pilot, 9)
        else:
            do_right(pilot)
        said |= {screen.guide.said.show} if screen.guide.said else set()
    assert len(said) > 3
    assert not [text for text in said if any(word in text.lower() for word in HARSH)]


def number_made(screen):
    """What is said beside the tick where no rule is."""
    runner = screen.runner
    if runner.stage is not Stage.DONE:
        return None
    return screen.room.words.line("lesson.right_answer", number=read(runner.frame))


def test_a_new_rule_is_explained_twice_and_not_a_third_time(pilot):
    """In one lesson; the rule of a right move is said once its step is done."""
    said = []
    pilot.open("five-add-1")
    while pilot.screen.runner.stage is not Stage.END:
        screen = pilot.screen
        at = screen.runner.stage
        do_right(pilot)
        if at is Stage.WORK and screen.guide.said not in (None, number_made(screen)):
            said.append(screen.guide.said.show)
    rules = [text for text in said if "Five in" in text]
    assert len(said) == len(rules) == 2
    assert len({text.partition(". Yes.")[0] for text in said}) == 1


# At the tick


def until_done(pilot, lesson_id):
    """At the lesson's first sum, to the moment when it is done; the sounds heard."""
    screen = at_work(pilot, lesson_id)
    heard = Heard()
    pilot.room.hear(heard)
    while screen.runner.stage is Stage.WORK:
        pilot.settle()
        pilot.move(min(screen.runner.work.next_stroke))
    return screen, heard


def seconds_at_the_tick(pilot):
    begun = pilot.clock
    while pilot.screen.runner.stage is Stage.DONE:
        pilot.wait(0.05, 1)
    return pilot.clock - begun


def test_at_the_tick_the_number_is_said_for_a_moment(pilot):
    screen, heard = until_done(pilot, "no-partner-1")
    number = str(int(screen.runner.frame.digits))
    pilot.settle()
    assert screen.guide.said.show == f"Yes. {number}."
    assert f"Yes. {number}." in [line for line, _ in pilot.repaint()]
    assert "right" in heard.names
    assert seconds_at_the_tick(pilot) < 1.5


def test_at_the_tick_a_rule_that_was_said_stays_and_for_longer(pilot):
    screen, _ = until_done(pilot, "five-add-2")
    assert screen.guide.said.show == f"Five in, one out. {number_made(screen).show}"
    pilot.wait(2.0)
    assert screen.runner.stage is Stage.DONE
    assert screen.guide.said.show == f"Five in, one out. {number_made(screen).show}"
    assert seconds_at_the_tick(pilot) < 1.0


@pytest.mark.parametrize("on_the_frame", [True, False])
def test_a_touch_beside_buttons_goes_on_at_once(pilot, on_the_frame):
    screen, _ = until_done(pilot, "five-add-2")
    pilot.wait_for_buttons()
    place = screen.runner.position
    box = screen.field.box
    pilot.tap(box.center if on_the_frame else (box.right + 30, box.bottom - 5))
    assert screen.runner.stage is not Stage.DONE
    assert screen.runner.position != place


@pytest.mark.parametrize("code", [pygame.K_RETURN, pygame.K_KP_ENTER])
def test_so_does_enter_but_not_the_one_that_was_meant_for_what_came_before(pilot, code):
    screen, _ = until_done(pilot, "five-add-2")
    place = screen.runner.position
    pilot.key(code)
    assert (screen.runner.stage, screen.runner.position) == (Stage.DONE, place)
    pilot.wait_for_buttons()
    pilot.key(code)
    assert screen.runner.stage is not Stage.DONE
    assert screen.runner.position != place


@pytest.mark.parametrize("left_handed", [False, True])
def test_the_tick_stands_beside_the_frame(pilot, left_handed):
    pilot.room.set(left_handed=left_handed)
    screen, _ = until_done(pilot, "no-partner-4")
    pilot.settle()
    assert tick_is_seen(pilot)
    while screen.runner.stage is Stage.DONE:
        do_right(pilot)
    assert not tick_is_seen(pilot)


# Numbers to be read


def at_answer(pilot, lesson_id):
    for lesson, number in steps_at(pilot.room.course, Rung.ALONE, Kind.READ):
        if lesson == lesson_id:
            pilot.open(lesson_id, number)
            pilot.settle()
            assert pilot.screen.runner.stage is Stage.ANSWER
            return pilot.screen
    raise LookupError(lesson_id)


def test_on_one_rod_a_digit_is_the_answer(pilot):
    screen = at_answer(pilot, "beads-2")
    right = screen.runner.frame.digits
    assert not {"tick", "erase"} & {button.sign for button in screen.buttons}
    pilot.press("9")
    assert screen.runner.stage is Stage.ANSWER
    assert screen.guide.answer.typed == ""
    assert screen.guide.said == screen.room.words.line("lesson.look_again")
    pilot.press(right)
    assert screen.runner.stage is Stage.DONE
    assert screen.runner.attempts[-1].right
    assert not screen.runner.attempts[-1].unaided
    assert screen.guide.said.show == f"Yes. {right}."


def test_on_more_rods_a_number_is_given_with_the_tick(pilot):
    screen = at_answer(pilot, "tens-2")
    for digit in screen.runner.frame.digits:
        pilot.press(digit)
        assert screen.runner.stage is Stage.ANSWER
    assert screen.guide.answer.typed == screen.runner.frame.digits
    pilot.press("erase")
    assert screen.guide.answer.typed == screen.runner.frame.digits[:-1]
    pilot.press(screen.runner.frame.digits[-1])
    pilot.press("tick")
    assert screen.runner.stage is Stage.DONE
    assert screen.runner.attempts[-1].unaided

"""Answers typed on big keys or the keyboard, with a minus and a point where those are known; and a
frame below zero that was read as it stands."""

from decimal import Decimal

import pygame
import pytest
from each import each_row
from robot import begin, lesson_with, signs, work_right
from sight import SHAPES, assert_well_laid_out, laid_out, look_at

from frame.app import Push
from frame.course.answer import Answer
from frame.course.runner import Stage
from frame.learner.settings import Age, Settings
from frame.practice.exercises import Exercise, Kind
from frame.practice.outcomes import Outcome
from frame.practice.rungs import Asked, Rung
from frame.practice.touches import WRONG_ANSWER
from frame.screens.lesson.replay import ReplayScreen
from frame.technique.expression import parse_calculation
from frame.technique.slips import Slip
from frame.view.inputs import Key

BELOW, POINT = frozenset({"below-zero"}), frozenset({"decimals"})
NOTHING = frozenset()


def exercise(text, rods=5, kind=Kind.SUM, **more):
    return Exercise(kind, parse_calculation(text), rods=rods, **more)


def asking(room, text, known=NOTHING, **more):
    """The question for the answer."""
    screen = laid_out(lesson_with(room, exercise(text, **more), known=known))
    if screen.runner.stage is Stage.PRESENT:
        screen.go_on()
    while screen.runner.stage is Stage.WORK:
        stroke = screen.runner.work.next_stroke
        screen.touch(stroke) if stroke else screen.say_done()
    assert screen.runner.stage is Stage.ANSWER
    return screen


def seen_asking(pilot, text, known=NOTHING, **more):
    """The question in the window, its keys awake."""
    screen = asking(pilot.room, text, known, **more)
    pilot.app.take(Push(screen))
    pilot.app.draw()
    pilot.wait(0.5, 2)
    return screen


def answer(screen, typed):
    """Type signs, and give the answer."""
    for sign in typed.replace("−", "-"):
        screen.type_sign(sign)
    screen.give_answer()


KEYS = {
    **{str(digit): (pygame.K_0 + digit, pygame.K_KP1 + digit - 1) for digit in range(1, 10)},
    "0": (pygame.K_0, pygame.K_KP0),
    "−": (pygame.K_MINUS, pygame.K_KP_MINUS),
    ".": (pygame.K_PERIOD, pygame.K_KP_PERIOD, pygame.K_COMMA),
    "erase": (pygame.K_BACKSPACE,),
    "tick": (pygame.K_RETURN, pygame.K_KP_ENTER),
}


def type_keys(pilot, typed, way):
    """Type signs one by one: on the screen's keys (way "mouse"), or the nth key for each."""
    for sign in typed.replace("<", " erase ").replace("!", " tick ").split():
        for one in [sign] if sign in ("erase", "tick") else sign:
            if way == "mouse":
                pilot.press(one)
            else:
                pilot.key(KEYS[one][min(way, len(KEYS[one]) - 1)])


TYPED = [
    # keys, what stands there, the number that is
    ("", "", None),
    ("1234567890", "12345", 12345),
    ("007", "007", 7),
    ("−", "-", None),
    ("−−", "", None),
    ("−12", "-12", -12),
    ("12−", "-12", -12),
    ("−12−", "12", 12),
    ("1−2−3", "123", 123),
    ("12345−", "-12345", -12345),
    (".", ".", None),
    ("−.", "-.", None),
    ("1.5", "1.5", Decimal("1.5")),
    (".5", ".5", Decimal("0.5")),
    ("1..5.", "1.5", Decimal("1.5")),
    ("12345.6", "12345.", 12345),
    ("1.23456", "1.2345", Decimal("1.2345")),
    ("<", "", None),
    ("12<", "1", 1),
    ("1.5<<", "1", 1),
    ("1.<.5", "1.5", Decimal("1.5")),
    ("−1<<", "", None),
    ("12<<<<3", "3", 3),
    ("12345<6", "12346", 12346),
]


@each_row(("typed", "stands", "number"), TYPED)
def test_what_stands_there_after_signs_are_typed(typed, stands, number):
    given = Answer(5)
    for sign in typed.replace("−", "-"):
        given.type(sign)
    assert (given.typed, given.number) == (stands, number)


@pytest.mark.parametrize("way", ["mouse", 0, 1, 2])
def test_every_key_writes_its_sign(pilot, way):
    screen = seen_asking(pilot, "38 - 50", BELOW | POINT, rods=13, rung=Rung.COVERED)
    stood = []
    for sign in "1234567890.−<−":
        type_keys(pilot, sign, way)
        stood.append(screen.guide.answer.typed)
    assert stood[:10] == ["1234567890"[: count + 1] for count in range(10)]
    assert stood[10:] == ["1234567890.", "-1234567890.", "-1234567890", "1234567890"]
    type_keys(pilot, "!", way)
    assert screen.runner.work.given == 1234567890


@pytest.mark.parametrize("way", ["mouse", 0, 1])
def test_nothing_typed_is_no_answer(pilot, way):
    screen = seen_asking(pilot, "38 - 50", BELOW | POINT)
    for typed in ("!", "−!", ".!", "−−!", "−<1<!"):
        type_keys(pilot, typed, way)
        assert screen.runner.stage is Stage.ANSWER
        assert screen.runner.work.given is None and screen.runner.work.slips == []


@pytest.mark.parametrize("rods, most", [(1, 4), (3, 4), (5, 5), (13, 13)])
def test_an_answer_has_at_most_as_many_digits_as_the_frame_has_rods(room, rods, most):
    screen = asking(room, "7", POINT, rods=rods, kind=Kind.READ)
    for sign in "8" * 20 + ".":
        screen.type_sign(sign)
    assert screen.guide.answer.typed == "8" * most + "."


def test_what_is_typed_is_seen_with_its_minus_and_point(pilot):
    screen = seen_asking(pilot, "38 - 50", BELOW | POINT)
    assert "?" in pilot.lines().split()
    type_keys(pilot, "−1234.5", "mouse")
    assert "−1\u202f234.5" in pilot.lines()
    assert screen.guide.answer.typed == "-1234.5"


def test_a_frame_that_was_used_is_put_aside_when_something_is_typed():
    given = Answer(5)
    given.set_on_frame(5)
    assert (given.typed, given.number) == ("0", 0)
    given.type("-")
    assert (given.typed, given.frame, given.number) == ("-", None, None)


# Which keys there are


OFFERED = [
    # exercise, what is taught, the signs that are offered
    ("38 + 47", NOTHING, set()),
    ("38 - 50", NOTHING, {"−"}),
    ("1.5 + 2", NOTHING, {"."}),
    ("1.5 - 2", NOTHING, {"−", "."}),
    ("38 + 47", BELOW, {"−"}),
    ("38 + 47", frozenset({"signs"}), {"−"}),
    ("38 + 47", POINT, {"."}),
    ("38 + 47", frozenset({"unit-rod"}), {"."}),
    ("38 + 47", BELOW | POINT, {"−", "."}),
    ("1.5 + 2.5", frozenset({"add-direct"}), set()),
]


@pytest.mark.parametrize("rods", [5, 13])
@pytest.mark.parametrize(("text", "known", "offered"), OFFERED)
def test_minus_and_point_are_there_where_they_are_taught_or_wanted(
    room, text, known, offered, rods
):
    screen = asking(room, text, known, rung=Rung.COVERED, rods=rods)
    assert signs(screen) & {"−", "."} == offered
    assert set("0123456789") | {"erase", "tick"} <= signs(screen)
    for key in (pygame.K_MINUS, pygame.K_PERIOD, pygame.K_COMMA, pygame.K_1):
        screen.handle(Key(key))
    assert screen.guide.answer.typed == "-" * ("−" in offered) + "." * ("." in offered) + "1"


@pytest.mark.parametrize("known, is_whole_answer", [(NOTHING, True), (BELOW, False)])
def test_on_one_rod_a_digit_is_the_whole_answer_unless_it_may_have_a_sign(
    pilot, known, is_whole_answer
):
    screen = seen_asking(pilot, "7", known, rods=1, kind=Kind.READ)
    assert ("tick" in signs(screen)) is not is_whole_answer
    type_keys(pilot, "7", "mouse")
    assert (screen.runner.stage is Stage.DONE) is is_whole_answer
    if not is_whole_answer:
        type_keys(pilot, "!", "mouse")
    assert screen.runner.stage is Stage.DONE and screen.runner.work.right


def facts_of(more):
    """What makes the keys stand three abreast beside a frame, above other buttons or none."""
    return {"own": {"own": True}, "called": {"asked": Asked.CALLED, "pace": 1.0},
            "number": {"rung": Rung.NUMBER}, "read": {"kind": Kind.READ},
            "covered": {"rung": Rung.COVERED}}[more]  # fmt: skip


@pytest.mark.parametrize("is_left", [False, True])
@pytest.mark.parametrize("more", ["read", "covered", "own", "called", "number"])
def test_keys_beside_a_frame_are_large_enough_with_signs(room, more, is_left):
    text = "38" if more == "read" else "38 + 47"
    for age in Age:
        room.settings = Settings(age=age, left_handed=is_left)
        asked = [asking(room, text, known, **facts_of(more)) for known in (BELOW, BELOW | POINT)]
        assert not any(screen.is_wide for screen in asked)
        for screen in asked:
            for sign in "-88888.8":
                screen.type_sign(sign)
        assert_well_laid_out([(f"{more}, {age}", screen) for screen in asked], SHAPES[2:])


# Answers


ANSWERS = [
    ("38 - 50", "−12", 5), ("38 - 50", "12−", 5), ("1.5 - 2", "−0.5", 5), ("1.5 - 2", "−.5", 5),
    ("1.5 - 2", "0.50−", 5), ("-12 x 3", "−36", 13), ("-12 x (-3)", "36", 13),
    ("1.2 x 3", "3.6", 13), ("4.5 / 6", ".75", 13), ("-4.5 / 6", "−.75", 13),
]  # fmt: skip


@pytest.mark.parametrize("rung", [Rung.COVERED, Rung.NUMBER])
@pytest.mark.parametrize(("text", "typed", "rods"), ANSWERS)
def test_answers_with_minus_and_point_are_right(room, text, typed, rods, rung):
    screen = asking(room, text, rung=rung, rods=rods)
    answer(screen, typed)
    assert screen.runner.attempts[-1].outcome is Outcome.RIGHT
    assert screen.runner.stage is Stage.DONE and screen.runner.work.unaided


@pytest.mark.parametrize("way", ["mouse", 0, 1])
def test_the_answer_is_given_with_the_mouse_or_the_keyboard_alone(pilot, way):
    screen = seen_asking(pilot, "1.5 - 2", rung=Rung.NUMBER)
    type_keys(pilot, "0.5−!", way)
    assert screen.runner.stage is Stage.DONE and screen.runner.work.right


def test_a_number_with_a_point_is_read(room):
    screen = asking(room, "1.5", POINT, kind=Kind.READ)
    answer(screen, "15")
    assert screen.runner.stage is Stage.ANSWER
    answer(screen, "1.5")
    assert screen.runner.stage is Stage.DONE and not screen.runner.work.unaided


# A frame below zero, read as it stands


READINGS = [
    # work, rods, what is read as it stands, what it means, the sentence about that
    ("38 - 50", 5, "88", "−12", "lesson.reads_below"),
    ("3 - 4", 13, "9", "−1", "lesson.reads_below"),
    ("1.5 - 2", 5, "9.5", "−0.5", "lesson.reads_below"),
    ("-12 x 3", 13, "36", "−36", "lesson.reads_signs"),
    ("84 / (-4)", 13, "21", "−21", "lesson.reads_signs"),
]


@pytest.mark.parametrize("age", [Age.YOUNG, Age.OLDER])
@pytest.mark.parametrize(("text", "rods", "shown", "meant", "sentence"), READINGS)
def test_a_frame_read_as_it_stands_is_told_kindly_and_may_be_read_again(
    room, text, rods, shown, meant, sentence, age
):
    room.settings = Settings(age=age)
    screen = asking(room, text, rods=rods)
    work, words = screen.runner.work, room.words
    answer(screen, shown)
    assert screen.runner.stage is Stage.ANSWER and not work.finished
    assert work.slips == [Slip.NEGATIVE_READ_AS_SHOWN]
    listener = "young" if age is Age.YOUNG else "older"
    said = words.text(f"slip.negative-read-as-shown.{listener}"), words.text(sentence)
    assert all(part.rstrip(".") in screen.guide.said.show for part in said)
    assert screen.guide.said.show in {one.text for one in look_at(screen, SHAPES[0]).written}
    assert not {"you", "your", "wrong", "mistake"} & set(screen.guide.said.show.lower().split())
    assert screen.guide.answer.typed == ""
    answer(screen, meant)
    assert screen.runner.stage is Stage.DONE and work.right and not work.unaided
    assert screen.runner.attempts[-1].slips == (Slip.NEGATIVE_READ_AS_SHOWN,)


def test_what_is_not_used_is_written_once_it_was_read_as_it_stands(pilot):
    screen = begin(pilot, exercise("38 - 50"))
    while screen.runner.stage is Stage.WORK:
        pilot.settle()
        work_right(pilot)
    unused = pilot.words.text("written.unused")
    assert unused not in pilot.lines()
    type_keys(pilot, "88!", "mouse")
    assert unused in pilot.lines()
    type_keys(pilot, "−12!", "mouse")
    assert screen.runner.stage is Stage.DONE and screen.runner.work.right


def test_another_number_is_told_how_to_read_and_nothing_else(room):
    screen = asking(room, "38 - 50")
    answer(screen, "−88")
    assert screen.guide.said == room.words.line("lesson.reads_below")
    assert screen.runner.work.slips == [WRONG_ANSWER]
    answer(screen, "88")
    assert screen.runner.work.slips == [WRONG_ANSWER, Slip.NEGATIVE_READ_AS_SHOWN]
    answer(screen, "−12")
    assert screen.runner.stage is Stage.DONE


def test_a_frame_that_was_only_imagined_is_read_once_and_its_way_is_shown(pilot):
    screen = seen_asking(pilot, "38 - 50", rung=Rung.COVERED)
    type_keys(pilot, "88!", "mouse")
    assert screen.runner.work.slips == [Slip.NEGATIVE_READ_AS_SHOWN]
    assert screen.runner.attempts[-1].outcome is Outcome.PICTURE_LOST
    pilot.settle()
    pilot.wait(1.5)
    assert isinstance(pilot.screen, ReplayScreen)


# What is left over


def lines_of(screen):
    return {one.text for one in look_at(screen, SHAPES[0]).written}


@pytest.mark.parametrize("text, rest", [("43 / 6", "1"), ("sqrt 20", "4")])
def test_what_is_left_over_is_asked_for_until_it_is_given(room, text, rest):
    screen = asking(room, text, rods=13)
    asked, again = (room.words.line(f"lesson.{key}") for key in ("what_rest", "rest_again"))
    assert asked.show in lines_of(screen)
    answer(screen, "9")
    assert screen.guide.said == again and again.show in lines_of(screen)
    assert screen.runner.stage is Stage.ANSWER and screen.guide.answer.typed == ""
    answer(screen, rest)
    assert screen.runner.stage is Stage.DONE and screen.runner.work.right
    assert screen.runner.attempts[-1].slips == (WRONG_ANSWER,)


def test_of_a_frame_that_was_only_imagined_the_answer_comes_before_what_is_left_over(room):
    screen = asking(room, "43 / 6", rods=13, rung=Rung.COVERED)
    asked = room.words.line("lesson.what_rest").show
    assert asked not in lines_of(screen)
    answer(screen, "7")
    assert screen.runner.stage is Stage.ANSWER and asked in lines_of(screen)
    answer(screen, "1")
    assert screen.runner.stage is Stage.DONE and screen.runner.attempts[-1].unaided

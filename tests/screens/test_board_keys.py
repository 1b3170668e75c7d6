"""What each key means on the board at any moment, the four of a remote first of all."""

from dataclasses import replace

import pygame
import pytest
from each import each_row

from frame.course.typed import TypedSum
from frame.screens.board.acts import CLEARING, Aid, Deed, Moment, Signs
from frame.screens.board.keys import act_of
from frame.view.inputs import Key

CALM = Moment(aids=frozenset(), typed=TypedSum())
REMOTE = {
    "on": Key(pygame.K_PAGEDOWN),
    "back": Key(pygame.K_PAGEUP),
    "start": Key(pygame.K_F5),
    "stop": Key(pygame.K_ESCAPE, text="\x1b"),
    "full stop": Key(pygame.K_PERIOD, text="."),
    "b": Key(pygame.K_b, text="b"),
}
MEANT = {
    "on": Deed.NEXT,
    "back": Deed.BACK,
    "start": Deed.TOGGLE,
    "stop": Deed.STOP,
    "full stop": Deed.BLACK,
    "b": Deed.BLACK,
}
HALF_TYPED = ("", "4", "46+", "12-", "(", "1.5", "sqrt ", "46+.", "x" * 20)
"""What may stand there half typed."""


def typing(text, **more):
    return replace(CALM, typed=TypedSum(text, is_open=True), **more)


@each_row("button", REMOTE)
@each_row("text", HALF_TYPED)
def test_a_half_typed_sum_takes_no_key_of_a_remote(text, button):
    assert act_of(REMOTE[button], typing(text)) == MEANT[button]
    assert act_of(REMOTE[button], CALM) == MEANT[button]


def test_a_point_is_typed_with_ctrl_or_on_the_keypad():
    with_ctrl = Key(pygame.K_PERIOD, control=True, text=".")
    assert act_of(with_ctrl, typing("46+3")) == Signs(".")
    keypad = Key(pygame.K_KP_PERIOD, text=".")
    assert act_of(keypad, typing("46+")) == Signs(".")


@each_row("has_letters", [True, False])
@each_row("text", HALF_TYPED)
@each_row("button", ["full stop", "b"])
def test_black_is_left_by_the_key_that_made_it_whatever_was_typed(text, button, has_letters):
    dark = typing(text, is_black=True, has_letters=has_letters)
    assert act_of(REMOTE[button], dark) is Deed.BLACK
    assert act_of(REMOTE[button], replace(dark, typed=TypedSum(text))) is Deed.BLACK
    assert act_of(REMOTE[button], replace(dark, question=CLEARING)) is Deed.BLACK


@pytest.mark.parametrize("button", ["on", "back", "start", "stop"])
def test_nothing_goes_on_in_the_dark(button):
    assert act_of(REMOTE[button], replace(CALM, is_black=True)) is Deed.NOTHING
    assert act_of(REMOTE[button], typing("46+", is_black=True)) is Deed.NOTHING


def test_letters_that_are_turned_off_mean_nothing_but_signs_of_a_sum():
    quiet = replace(CALM, has_letters=False)
    for code in range(pygame.K_a, pygame.K_z + 1):
        assert act_of(Key(code, text=chr(code)), quiet) is None
    assert act_of(REMOTE["full stop"], quiet) is None
    assert act_of(REMOTE["full stop"], replace(typing("46+"), has_letters=False)) == Signs(".")


def test_letters_belong_to_a_sum_once_it_is_begun():
    for sign in "sqrtx":
        key = Key(ord(sign), text=sign)
        assert isinstance(act_of(key, CALM), Deed | Aid) or sign in "qx"
        assert act_of(key, typing("")) == Signs(sign)


@pytest.mark.parametrize("has_letters", [True, False])
@pytest.mark.parametrize(
    "key", [Key(pygame.K_EQUALS, text="="), Key(pygame.K_0, shift=True, text="=")]
)
def test_a_sum_is_begun_by_a_sign_of_its_own_on_any_layout(key, has_letters):
    assert act_of(key, replace(CALM, has_letters=has_letters)) is Deed.BEGIN


def test_a_question_has_the_keyboard_but_for_black():
    asked = replace(CALM, question=CLEARING)
    given = {"1": Deed.FIRST_CHOICE, "2": Deed.SECOND_CHOICE}
    assert {sign: act_of(Key(ord(sign), text=sign), asked) for sign in "12"} == given
    for code in (pygame.K_LEFT, pygame.K_RIGHT, pygame.K_TAB, pygame.K_RETURN, pygame.K_SPACE):
        assert act_of(Key(code), asked) is None
    assert act_of(REMOTE["stop"], asked) is Deed.STOP
    for button in ("on", "back", "start"):
        assert act_of(REMOTE[button], asked) is Deed.NOTHING
    assert act_of(Key(pygame.K_a, text="a"), asked) is Deed.NOTHING


def test_keys_with_control_are_no_letters():
    paste = Key(pygame.K_v, control=True, text="\x16")
    assert act_of(paste, CALM) is act_of(paste, typing("12-")) is Deed.PASTE
    assert act_of(Key(pygame.K_b, control=True, text="\x02"), CALM) is None

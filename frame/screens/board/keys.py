"""What keys mean on the board. Four of them are a presenter's remote: Page Down, Page Up, the full
stop or B, and F5 alternating with Esc."""

import pygame

from frame.screens.board.acts import Aid, BoardAct, Deed, Moment, Signs
from frame.view.inputs import Key

_ALWAYS = {
    pygame.K_PAGEDOWN: Deed.NEXT,
    pygame.K_PAGEUP: Deed.BACK,
    pygame.K_F5: Deed.TOGGLE,
    pygame.K_ESCAPE: Deed.STOP,
}
"""Keys that no sum takes while it is typed; those of a remote."""
_WITHOUT_FOCUS = {
    pygame.K_RIGHT: Deed.NEXT,
    pygame.K_SPACE: Deed.NEXT,
    pygame.K_RETURN: Deed.NEXT,
    pygame.K_KP_ENTER: Deed.NEXT,
    pygame.K_LEFT: Deed.BACK,
    pygame.K_BACKSPACE: Deed.BACK,
    pygame.K_DOWN: Deed.TO_STEP_END,
    pygame.K_UP: Deed.TO_STEP_START,
    pygame.K_HOME: Deed.TO_START,
    pygame.K_END: Deed.TO_END,
}
"""Keys that mean the board while no button has the focus."""
_LETTERS: dict[int, BoardAct] = {
    pygame.K_n: Deed.NEXT,
    pygame.K_p: Deed.BACK,
    pygame.K_a: Deed.ANSWER,
    pygame.K_e: Deed.READ,
    pygame.K_s: Deed.SPEED,
    pygame.K_o: Deed.AGENDAS,
    pygame.K_w: Deed.WATCH,
    pygame.K_h: Aid.STOP_BEFORE,
    pygame.K_r: Aid.RULE,
    pygame.K_f: Aid.FINGERS,
    pygame.K_m: Aid.NAMES,
    pygame.K_t: Aid.TINT,
    pygame.K_g: Aid.READING,
    pygame.K_v: Aid.VERDICT,
    pygame.K_l: Aid.SPOT,
    pygame.K_i: Aid.RING,
}
_WITH_CONTROL = {
    pygame.K_z: Deed.UNDO,
    pygame.K_v: Deed.PASTE,
    pygame.K_o: Deed.AGENDAS,
    pygame.K_PAGEDOWN: Deed.ITEM_ON,
    pygame.K_PAGEUP: Deed.ITEM_BACK,
    pygame.K_LEFT: Deed.SPOT_LEFT,
    pygame.K_RIGHT: Deed.SPOT_RIGHT,
}
_OF_FIELD = {
    pygame.K_RETURN: Deed.TAKE,
    pygame.K_KP_ENTER: Deed.TAKE,
    pygame.K_BACKSPACE: Deed.ERASE,
    pygame.K_DELETE: Deed.FORGET,
}
"""Keys that mean a sum while it is typed."""
_ANSWERS = {"1": Deed.FIRST_CHOICE, "2": Deed.SECOND_CHOICE}
"""What answers a question, on whichever keys these digits are."""
_OF_BUTTONS = frozenset(
    {
        pygame.K_TAB, pygame.K_RETURN, pygame.K_KP_ENTER, pygame.K_SPACE,
        pygame.K_LEFT, pygame.K_RIGHT, pygame.K_UP, pygame.K_DOWN,
    }
)  # fmt: skip
"""Keys that go round the answers to a question, and give one."""


def act_of(key: Key, now: Moment) -> BoardAct | None:
    """What a key does, None where it is the buttons' or nobody's."""
    if _is_black_key(key, now):
        return Deed.BLACK
    if now.question is not None and not now.is_black:
        return _answer_of(key)
    if now.typed.is_open and key.code in _OF_FIELD:
        return _OF_FIELD[key.code]
    if now.typed.is_open and key.control and key.code == pygame.K_PERIOD:
        return Signs(".")
    if now.typed.is_open and key.text and key.text.isprintable():
        return Signs(key.text)
    if key.control:
        return _WITH_CONTROL.get(key.code)
    if now.is_black and (key.code in _ALWAYS or key.code in _WITHOUT_FOCUS):
        return Deed.NOTHING  # What nobody sees must not go on.
    if key.code in _ALWAYS:
        return _ALWAYS[key.code]
    if not now.has_focus and key.code in _WITHOUT_FOCUS:
        return _WITHOUT_FOCUS[key.code]
    if now.has_letters and key.code in _LETTERS:
        return _LETTERS[key.code]
    if key.text == "=":
        return Deed.BEGIN
    return Signs(key.text) if now.typed.takes(key.text) else None


def _answer_of(key: Key) -> Deed | None:
    """What a key does while something is asked."""
    if key.code == pygame.K_ESCAPE:
        return Deed.STOP
    return None if key.code in _OF_BUTTONS else _ANSWERS.get(key.text, Deed.NOTHING)


def _is_black_key(key: Key, now: Moment) -> bool:
    """Whether the full stop or B is the remote's, whatever has been typed: in the dark always, or
    nobody could leave it; else unless letters are turned off. A point is typed with Ctrl, on the
    keypad, or by its sign on the bar."""
    return key.is_black and (now.is_black or now.has_letters)

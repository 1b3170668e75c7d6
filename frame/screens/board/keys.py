"""What keys mean on the board. Four of them are a presenter's remote: Page Down, Page Up, the full
stop or B, and F5 alternating with Esc."""

import pygame

from frame.screens.board.acts import Act, Aid, Deed, Moment, Signs
from frame.view.inputs import Key

_ALWAYS = {
    pygame.K_PAGEDOWN: Deed.NEXT,
    pygame.K_PAGEUP: Deed.BACK,
    pygame.K_F5: Deed.TOGGLE,
    pygame.K_ESCAPE: Deed.TOGGLE,
}
"""Keys that no field takes; those of a remote."""
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
_LETTERS: dict[int, Act] = {
    pygame.K_PERIOD: Deed.BLACK,
    pygame.K_b: Deed.BLACK,
    pygame.K_n: Deed.NEXT,
    pygame.K_p: Deed.BACK,
    pygame.K_a: Deed.ANSWER,
    pygame.K_e: Deed.READ,
    pygame.K_s: Deed.SPEED,
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


def act_of(key: Key, now: Moment) -> Act | None:
    """What a key does, None where it is the buttons' or nobody's."""
    if now.typed.is_open and key.code in _OF_FIELD:
        return _OF_FIELD[key.code]
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
    return Signs(key.text) if now.typed.takes(key.text) else None

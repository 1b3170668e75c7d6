"""What keys do on the board. Four of them are a presenter's remote: Page Down, Page Up, the full
stop or B, and F5 alternating with Esc."""

from __future__ import annotations

from collections.abc import Callable
from functools import partial
from typing import TYPE_CHECKING

import pygame

from frame.view.inputs import Key

if TYPE_CHECKING:
    from frame.screens.board.screen import BoardScreen

Done = Callable[[], object]

_ALWAYS = {
    pygame.K_PAGEDOWN: "next",
    pygame.K_PAGEUP: "go_back",
    pygame.K_F5: "toggle",
    pygame.K_ESCAPE: "toggle",
}
"""Keys that no field takes; those of a remote."""
_WITHOUT_FOCUS = {
    pygame.K_RIGHT: "next",
    pygame.K_SPACE: "next",
    pygame.K_RETURN: "next",
    pygame.K_KP_ENTER: "next",
    pygame.K_LEFT: "go_back",
    pygame.K_BACKSPACE: "go_back",
    pygame.K_DOWN: "next_step",
    pygame.K_UP: "step_back",
    pygame.K_HOME: "first",
    pygame.K_END: "last",
}
"""Keys that mean the board while no button has the focus."""
_LETTERS = {
    pygame.K_PERIOD: "toggle_black",
    pygame.K_b: "toggle_black",
    pygame.K_n: "next",
    pygame.K_p: "go_back",
    pygame.K_a: "toggle_answer",
    pygame.K_e: "everyone_reads",
    pygame.K_h: "toggle_pauses",
    pygame.K_s: "turn_speed",
}
SHOWN_BY = {
    pygame.K_r: "rule",
    pygame.K_f: "fingers",
    pygame.K_m: "names",
    pygame.K_t: "tint",
    pygame.K_g: "reading",
    pygame.K_v: "verdict",
    pygame.K_l: "spot",
    pygame.K_i: "ring",
}
"""Letters that show or hide one thing."""


def act_of(screen: BoardScreen, key: Key) -> Done | None:
    """What a key does on the board, None where it is the buttons' or nobody's."""
    if screen.typed.is_open and (done := _of_field(screen, key)):
        return done
    if key.control:
        return _with_control(screen, key)
    if screen.is_black and (key.code in _ALWAYS or key.code in _WITHOUT_FOCUS):
        return _nothing  # What nobody sees must not go on.
    if key.code in _ALWAYS:
        return _method(screen, _ALWAYS[key.code])
    if screen.focus is None and key.code in _WITHOUT_FOCUS:
        return _method(screen, _WITHOUT_FOCUS[key.code])
    if screen.room.settings.letter_keys and key.code in _LETTERS:
        return _method(screen, _LETTERS[key.code])
    if screen.room.settings.letter_keys and key.code in SHOWN_BY:
        return partial(screen.turn, SHOWN_BY[key.code])
    return partial(screen.type, key.text) if screen.typed.takes(key.text) else None


def _with_control(screen: BoardScreen, key: Key) -> Done | None:
    """A bead back, a pasted column, another sum, the light on another rod."""
    done: dict[int, Done] = {
        pygame.K_z: screen.undo,
        pygame.K_v: screen.paste,
        pygame.K_PAGEDOWN: partial(screen.go_to_item, 1),
        pygame.K_PAGEUP: partial(screen.go_to_item, -1),
        pygame.K_LEFT: partial(screen.move_spot, 1),
        pygame.K_RIGHT: partial(screen.move_spot, -1),
    }
    return done.get(key.code)


def _nothing() -> None:
    """A key that means nothing now, and is nobody else's either."""


def _of_field(screen: BoardScreen, key: Key) -> Done | None:
    """What a key does while a sum is typed."""
    if key.code in (pygame.K_RETURN, pygame.K_KP_ENTER):
        return screen.take_typed
    if key.code == pygame.K_BACKSPACE:
        return screen.erase_typed
    if key.code == pygame.K_DELETE:
        return screen.forget_typed
    is_sign = key.text and key.text.isprintable()
    return partial(screen.type, key.text) if is_sign else None


def _method(screen: BoardScreen, name: str) -> Done:
    done: Done = getattr(screen, name)
    return done

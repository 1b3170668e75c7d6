"""Big digit keys, so that no typing is needed."""

from collections.abc import Callable
from functools import partial

import pygame

from frame.view.inputs import Key
from frame.view.widgets import Button, Style

_ROWS = ("7", "8", "9", "4", "5", "6", "1", "2", "3", "<", "0", "ok")


def keypad(
    area: pygame.Rect,
    unit: float,
    press: Callable[[str], object],
    done: Callable[[], object] | None,
) -> list[Button]:
    """The keys in an area, three abreast: digits, `<` for taking one away, and a tick.

    Where a digit is the whole answer there is nothing to be `done` with: digits alone.
    """
    gap = max(4, round(unit * 1.2))
    width, height = (area.w - 2 * gap) // 3, (area.h - 3 * gap) // 4
    buttons = []
    for index, name in enumerate(_ROWS):
        row, column = divmod(index, 3)
        at = area.left + column * (width + gap), area.top + row * (height + gap)
        place = pygame.Rect(at, (width, height))
        if name.isdigit():
            buttons.append(Button(place, partial(press, name), name, step=2))
        elif done is not None and name == "<":
            buttons.append(Button(place, partial(press, "<"), sign="erase"))
        elif done is not None:
            buttons.append(Button(place, done, sign="tick", style=Style.MAIN))
    return buttons


_CODES = {
    **{pygame.K_0 + digit: str(digit) for digit in range(10)},
    **{pygame.K_KP1 + digit - 1: str(digit) for digit in range(1, 10)},
    pygame.K_KP0: "0",
    pygame.K_BACKSPACE: "<",
}


def key_digit(key: Key) -> str:
    """The digit, or `<`, that a key stands for; empty for any other key."""
    return _CODES.get(key.code, "")

"""Big digit keys, so that no typing is needed."""

from collections.abc import Callable

import pygame

from frame.view.inputs import Key
from frame.view.widgets import Button, Style

_ROWS = ("7", "8", "9", "4", "5", "6", "1", "2", "3", "<", "0", "ok")


def keypad(
    area: pygame.Rect, unit: float, press: Callable[[str], object], done: Callable[[], object]
) -> list[Button]:
    """The keys in an area, three abreast: digits, `<` for taking one away, and a tick."""
    gap = max(4, round(unit * 1.2))
    width, height = (area.w - 2 * gap) // 3, (area.h - 3 * gap) // 4
    buttons = []
    for index, name in enumerate(_ROWS):
        row, column = divmod(index, 3)
        at = area.left + column * (width + gap), area.top + row * (height + gap)
        buttons.append(_key(pygame.Rect(at, (width, height)), name, press, done))
    return buttons


def _key(
    place: pygame.Rect, name: str, press: Callable[[str], object], done: Callable[[], object]
) -> Button:
    if name == "ok":
        return Button(place, done, sign="tick", style=Style.MAIN)
    if name == "<":
        return Button(place, lambda: press("<"), sign="erase")
    return Button(place, lambda: press(name), name, step=2)


_CODES = {
    **{pygame.K_0 + digit: str(digit) for digit in range(10)},
    **{pygame.K_KP1 + digit - 1: str(digit) for digit in range(1, 10)},
    pygame.K_KP0: "0",
    pygame.K_BACKSPACE: "<",
}


def key_digit(key: Key) -> str:
    """The digit, or `<`, that a key stands for; empty for any other key."""
    return _CODES.get(key.code, "")

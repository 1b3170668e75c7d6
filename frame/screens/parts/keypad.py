"""Big keys for an answer, so that no typing is needed."""

from collections.abc import Callable, Iterator, Mapping
from functools import partial

import pygame

from frame.view.inputs import Key
from frame.view.widgets import Button, Style

MINUS, POINT, ERASE, TICK = "-", ".", "<", "ok"
_ROWS = ("7", "8", "9", "4", "5", "6", "1", "2", "3", ERASE, "0", TICK)
_SHOWN = {MINUS: "−", POINT: "."}

Press = Callable[[str], object]
Done = Callable[[], object]


def keypad(
    area: pygame.Rect, unit: float, press: Press, done: Done | None, signs: str = ""
) -> list[Button]:
    """The keys in an area, three abreast: digits, `<` for taking one away, and a tick; with
    `signs`, a minus or a point, four abreast.

    Where a digit is the whole answer there is nothing to be `done` with: digits alone.
    """
    gap = key_gap(unit)
    names = _with_signs(signs) if signs else _ROWS
    abreast = len(names) // 4
    width, height = (area.w - (abreast - 1) * gap) // abreast, (area.h - 3 * gap) // 4
    places = {}
    for index, name in enumerate(names):
        row, column = divmod(index, abreast)
        at = area.left + column * (width + gap), area.top + row * (height + gap)
        places[name] = pygame.Rect(at, (width, height))
    places.pop("", None)
    return list(_keys(places, press, done))


def key_gap(unit: float) -> int:
    """The pixels between two keys of a pad."""
    return max(4, round(unit * 1.2))


def _with_signs(signs: str) -> tuple[str, ...]:
    """The keys four abreast, an empty name where none is."""
    minus, point = (sign if sign in signs else "" for sign in (MINUS, POINT))
    return (*"789", ERASE, *"456", minus, *"123", point, "", "0", "", TICK)


def keys_in_rows(
    area: pygame.Rect, unit: float, press: Press, done: Done | None, signs: str = "", rows: int = 1
) -> list[Button]:
    """The keys in so many rows: digits in their order, signs, `<` and a tick, where something is to
    be `done`."""
    names = (*"1234567890", *signs, *((ERASE, TICK) if done is not None else ()))
    gap, abreast = max(3, round(unit)), -(-len(names) // rows)
    width = (area.w - gap * (abreast - 1)) // abreast
    height = (area.h - gap * (rows - 1)) // rows
    places = {}
    for index, name in enumerate(names):
        row, column = divmod(index, abreast)
        at = area.left + column * (width + gap), area.top + row * (height + gap)
        places[name] = pygame.Rect(at, (width, height))
    return list(_keys(places, press, done))


keys_in_two_rows = partial(keys_in_rows, rows=2)


def _keys(places: Mapping[str, pygame.Rect], press: Press, done: Done | None) -> Iterator[Button]:
    for name, place in places.items():
        if name not in (ERASE, TICK):
            yield Button(place, partial(press, name), _SHOWN.get(name, name), step=2)
        elif done is not None and name == ERASE:
            yield Button(place, partial(press, ERASE), sign="erase")
        elif done is not None:
            yield Button(place, done, sign="tick", style=Style.MAIN)


_CODES = {
    **{pygame.K_0 + digit: str(digit) for digit in range(10)},
    **{pygame.K_KP1 + digit - 1: str(digit) for digit in range(1, 10)},
    pygame.K_KP0: "0",
    pygame.K_BACKSPACE: ERASE,
    pygame.K_MINUS: MINUS,
    pygame.K_KP_MINUS: MINUS,
    pygame.K_PERIOD: POINT,
    pygame.K_COMMA: POINT,
    pygame.K_KP_PERIOD: POINT,
}


def key_sign(key: Key, signs: str = "") -> str:
    """The digit, `<` or, where they are among `signs`, minus or point that a key stands for; empty
    for any other key."""
    sign = _CODES.get(key.code, "")
    return "" if sign in (MINUS, POINT) and sign not in signs else sign

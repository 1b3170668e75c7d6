"""Where tickets hang on rails: how many abreast, how large, and on how many pages."""

import math
from collections.abc import Iterator
from dataclasses import dataclass

import pygame

RAIL, STRING, BELOW, BETWEEN = 0.6, 0.8, 0.9, 1.2
"""A rail, what a ticket hangs by, and the gaps below and between tickets, in ninetieths of the
window's shorter side."""
_DROP = RAIL + STRING + BELOW
_MOST_WIDE, _MOST_TALL = 24.0, 24.0
"""The largest side of a picture beside its name, and above it."""
_LOOSE = 6.0
"""Tickets that are as large as can be stand no further apart."""
_LEAST_WIDE, _USUAL_WIDE, _TALL = 2.1, 2.8, 1.4
"""How many times as wide as high a ticket is whose name is beside its picture; how many times as
high as wide one whose name is below."""
_NAME_SHARE = 1.3
"""So many pictures wide a name should be."""
_TALL_LEAST = 0.84
"""A ticket with the name below must be larger by this for the name to be read."""
_TALL_WORTH = 0.72
"""A picture above its name is worth as much as one smaller by this beside it: names below have
less room, and stand in no column."""


@dataclass(frozen=True, slots=True)
class Hanging:
    """The rails of a page, and the places of tickets from the left, rail by rail."""

    rails: tuple[pygame.Rect, ...]
    places: tuple[pygame.Rect, ...]
    columns: int


@dataclass(frozen=True, slots=True)
class _Sizes:
    """A way to hang tickets: `least` is the side that must not be too small, `worth` the more the
    better."""

    columns: int
    rows: int
    width: float
    height: float
    least: float
    worth: float


def per_page(area: pygame.Rect, below: int, count: int, least: float, one: float) -> int:
    """How many of so many tickets hang on a page: all where they fit, none of them smaller than
    `least` pixels; else as many as on each other page, which have `below` pixels less for what
    turns them. `one` is a ninetieth of the window's shorter side, in pixels."""
    if any(sizes.least >= least for sizes in _ways(area, count, one)):
        return count
    rows = (area.h - below) // (least + _DROP * one)
    columns = area.w // (_LEAST_WIDE * least + BETWEEN * one)
    pages = math.ceil(count / max(1, rows * columns))
    return math.ceil(count / pages)


def hang(area: pygame.Rect, count: int, least: float, one: float) -> Hanging:
    """So many tickets in an area, as large as they can be."""
    ways = list(_ways(area, count, one))
    fitting = [sizes for sizes in ways if sizes.least >= least] or ways
    best = max(fitting, key=lambda sizes: sizes.worth)
    pitch = min(area.h / best.rows, best.height + (_DROP + _LOOSE) * one)
    cell = min(area.w / best.columns, best.width + _LOOSE * one)
    left, top = area.centerx - cell * best.columns / 2, area.centery - pitch * best.rows / 2
    rails = [
        pygame.Rect(area.left, round(top + pitch * row), area.w, max(2, round(RAIL * one)))
        for row in range(best.rows)
    ]
    places = []
    for at in range(count):
        row, column = divmod(at, best.columns)
        place = pygame.Rect(0, 0, round(best.width), round(best.height))
        place.centerx = round(left + cell * (column + 0.5))
        place.top = rails[row].bottom + round(STRING * one)
        places.append(place)
    return Hanging(tuple(rails), tuple(places), best.columns)


def _ways(area: pygame.Rect, count: int, one: float) -> Iterator[_Sizes]:
    """Every number of tickets abreast, with the name beside the picture and below it."""
    for columns in range(1, count + 1):
        rows = math.ceil(count / columns)
        width = area.w / columns - BETWEEN * one
        height = area.h / rows - _DROP * one
        high = min(height, width / _LEAST_WIDE, _MOST_WIDE * one)
        wide = min(width, _USUAL_WIDE * high)
        worth = min(high, (wide - high) / _NAME_SHARE)
        yield _Sizes(columns, rows, wide, high, high, worth)
        across = min(width, height / _TALL, _MOST_TALL * one)
        least, worth = _TALL_LEAST * across, _TALL_WORTH * across
        yield _Sizes(columns, rows, across, _TALL * across, least, worth)

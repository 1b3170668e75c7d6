"""Which way the focus ring goes: over places as they are read, row by row from the left, and by
arrows to what lies nearest."""

from collections.abc import Sequence

import pygame


def rows_of(places: Sequence[pygame.Rect]) -> list[list[int]]:
    """The indices of places in rows from the top, each from the left. A row has all whose middle
    lies above the foot of its first one.

    >>> from pygame import Rect
    >>> rows_of([Rect(0, 0, 9, 9), Rect(20, 12, 9, 9), Rect(0, 10, 9, 9), Rect(30, 1, 9, 9)])
    [[0, 3], [2, 1]]
    """
    left, rows = sorted(range(len(places)), key=lambda at: places[at].top), []
    while left:
        first, foot = left[0], places[left[0]].bottom
        row = [at for at in left if at == first or places[at].centery < foot]
        left = [at for at in left if at not in row]
        rows.append(sorted(row, key=lambda at: (places[at].left, places[at].top)))
    return rows


def along(places: Sequence[pygame.Rect], at: int, way: int) -> int | None:
    """The place beside one in its row, to the right or for -1 to the left; None at its end."""
    row = next(row for row in rows_of(places) if at in row)
    there = row.index(at) + way
    return row[there] if 0 <= there < len(row) else None


def across(places: Sequence[pygame.Rect], at: int, way: int) -> int | None:
    """The place nearest to one in the row below, or for -1 above; None where there is none."""
    rows, here = rows_of(places), places[at]
    there = next(index for index, row in enumerate(rows) if at in row) + way

    def apart(other: int) -> tuple[int, int]:
        place = places[other]
        gap = max(place.left - here.right, here.left - place.right, 0)
        return gap, abs(place.centerx - here.centerx)

    return min(rows[there], key=apart) if 0 <= there < len(rows) else None

"""Paints the small shapes of which a frame is drawn, and keeps them.

Each shape is painted at four times its size and shrunk smoothly, so that its edges are soft.
It is filled row by row here, as the ways of `pygame.draw` differ between versions and leave a
bead's left and right side uneven.
"""

from collections import OrderedDict
from collections.abc import Callable, Hashable, Iterable, Iterator, Sequence
from itertools import pairwise
from math import ceil, floor, hypot, sqrt

import pygame

from frame.technique.fingers import Finger
from frame.view.geometry import Point
from frame.view.theme import BeadColours, Colour

FINE = 4
FLAT_TOP_IN_WIDTHS = 0.53
FLAT_SIDE_IN_HEIGHTS = 0.08
GLINT_TOP_IN_WIDTHS = 0.58
GLINT_FOOT_IN_WIDTHS = 0.46
HAIRLINE_IN_BEAD_HEIGHTS = 1 / 57
DASHES = 14


class Kept:
    """Surfaces by key; the one unused for longest goes when there are more than `most`."""

    def __init__(self, most: int) -> None:
        self._most = most
        self._surfaces: OrderedDict[Hashable, pygame.Surface] = OrderedDict()

    def get(self, key: Hashable, paint: Callable[[], pygame.Surface]) -> pygame.Surface:
        """The surface kept under a key; painted first when there is none."""
        surface = self._surfaces.pop(key, None) or paint()
        self._surfaces[key] = surface
        if len(self._surfaces) > self._most:
            self._surfaces.popitem(last=False)
        return surface


def paint_bead(width: int, height: int, colours: BeadColours, opacity: float) -> pygame.Surface:
    """A bicone from the side; its lowest hairline stays clear, to part it from the next bead."""
    hairline = max(1, round(height * HAIRLINE_IN_BEAD_HEIGHTS))
    fine = _fine_surface(width, height, colours.edge)
    w, h, edge = FINE * width, FINE * max(height - hairline, 1), FINE * hairline
    _fill_convex(fine, colours.edge, _octagon(w, h, 0))
    body = _octagon(w, h, edge)
    if body[2][1] > body[1][1]:
        _paint_facets(fine, body, colours, w)
    sprite = pygame.transform.smoothscale(fine, (width, height))
    sprite.fill((255, 255, 255, round(255 * opacity)), special_flags=pygame.BLEND_RGBA_MULT)
    return sprite


def _octagon(w: int, h: int, inset: float) -> list[Point]:
    """The bead's outline within w x h pixels, moved inwards; clockwise from the top left."""
    a, b = w * (1 - FLAT_TOP_IN_WIDTHS) / 2, h * (1 - FLAT_SIDE_IN_HEIGHTS) / 2
    k = 1 + inset * hypot(1 / a, 1 / b)
    x, y = a * (k - inset / b), b * (k - inset / a)
    return [
        (x, inset),
        (w - x, inset),
        (w - inset, y),
        (w - inset, h - y),
        (w - x, h - inset),
        (x, h - inset),
        (inset, h - y),
        (inset, y),
    ]


def _paint_facets(
    fine: pygame.Surface, body: list[Point], colours: BeadColours, width: int
) -> None:
    top, middle = body[0][1], body[2][1]
    ridge = [(width * GLINT_TOP_IN_WIDTHS, top), (width * GLINT_FOOT_IN_WIDTHS, middle)]
    _fill_convex(fine, colours.lower, body[2:])
    _fill_convex(fine, colours.face, [body[1], body[2], ridge[1], ridge[0]])
    _fill_convex(fine, colours.upper, [body[7], body[0], *ridge])


def paint_outline(
    width: int, height: int, thick: int, colours: tuple[Colour, Colour], dashed: bool
) -> pygame.Surface:
    """A bead's outline, `thick` pixels wide, in the first colour within a rim of the second.

    The rim keeps it seen on beads of any colour. It fills width x height pixels.
    """
    colour, rim = colours
    fine = _fine_surface(width, height, rim)
    radius = FINE * thick / 2
    path = _octagon(FINE * width, FINE * height, radius)
    points = list(_along([*path, path[0]], radius / 4))
    length = points[-1][0]
    _stamp(fine, rim, radius, (point for _, point in points))
    dashes = (at / length * DASHES % 1 < 0.55 for at, _ in points)
    marked = (point for (_, point), on in zip(points, dashes, strict=True) if on or not dashed)
    _stamp(fine, colour, radius * 0.6, marked)
    return pygame.transform.smoothscale(fine, (width, height))


def _stamp(fine: pygame.Surface, colour: Colour, radius: float, points: Iterable[Point]) -> None:
    """Puts a disc on each of the points."""
    size = round(2 * radius)
    disc = pygame.Surface((size, size), pygame.SRCALPHA)
    disc.fill((*colour, 0))
    _fill_round(disc, colour, disc.get_rect(), size / 2)
    for x, y in points:
        fine.blit(disc, (round(x - size / 2), round(y - size / 2)))


def _along(path: list[Point], step: float) -> Iterator[tuple[float, Point]]:
    """Points on a path about `step` apart, each with its way from the start."""
    gone = 0.0
    for (a, b), (c, d) in pairwise(path):
        length = hypot(c - a, d - b)
        count = int(length / step) + 1
        for i in range(count):
            yield gone + length * i / count, (a + (c - a) * i / count, b + (d - b) * i / count)
        gone += length


def paint_badge(
    size: int, finger: Finger, is_up: bool, colour: Colour, ink: Colour
) -> pygame.Surface:
    """A finger's badge with an ink outline and an arrow: thumb square, index finger round."""
    fine = _fine_surface(size, size, ink)
    whole = fine.get_rect()
    edge = FINE * max(1, round(size / 16))
    radius = whole.w * (0.5 if finger == "index" else 0.3)
    _fill_round(fine, ink, whole, radius)
    _fill_round(fine, colour, whole.inflate(-2 * edge, -2 * edge), radius - edge)
    half, tip, foot = whole.w * 0.25, whole.w * 0.26, whole.w * 0.17
    way = -1 if is_up else 1
    x = y = whole.w / 2
    base = y - way * foot
    _fill_convex(fine, ink, [(x - half, base), (x + half, base), (x, y + way * tip)])
    return pygame.transform.smoothscale(fine, (size, size))


def paint_disc(size: int, colour: Colour, hole: int = 0) -> pygame.Surface:
    """A disc `size` pixels across, or a ring when `hole` is how wide it is open."""
    fine = _fine_surface(size, size, colour)
    whole, margin = fine.get_rect(), FINE * (size - hole)
    _fill_round(fine, colour, whole, whole.w / 2)
    if hole:
        _fill_round(fine, (*colour, 0), whole.inflate(-margin, -margin), FINE * hole / 2)
    return pygame.transform.smoothscale(fine, (size, size))


def _fine_surface(width: int, height: int, colour: Colour) -> pygame.Surface:
    # Clear pixels take the colour too: shrinking mixes it into the edges.
    surface = pygame.Surface((FINE * width, FINE * height), pygame.SRCALPHA)
    surface.fill((*colour, 0))
    return surface


def _fill_convex(surface: pygame.Surface, colour: Colour, corners: Sequence[Point]) -> None:
    """Fills all pixels whose middle lies between corners given in turn."""
    sides = list(pairwise([*corners, corners[0]]))
    for row in range(surface.get_height()):
        y = row + 0.5
        cuts = [a + (c - a) * (y - b) / (d - b) for (a, b), (c, d) in sides if (b <= y) != (d <= y)]
        if cuts:
            _fill_row(surface, colour, row, min(cuts), max(cuts))


def _fill_round(
    surface: pygame.Surface, colour: Colour | tuple[int, ...], box: pygame.Rect, radius: float
) -> None:
    """Fills a box with round corners."""
    for row in range(box.top, box.bottom):
        into_corner = radius - min(row + 0.5 - box.top, box.bottom - row - 0.5, radius)
        inset = radius - sqrt(radius * radius - into_corner * into_corner)
        _fill_row(surface, colour, row, box.left + inset, box.right - inset)


def _fill_row(
    surface: pygame.Surface,
    colour: Colour | tuple[int, ...],
    row: int,
    left: float,
    right: float,
) -> None:
    start, stop = ceil(left - 0.5), floor(right - 0.5) + 1
    if stop > start:
        surface.fill(colour, (start, row, stop - start, 1))


def blit_corners(surface: pygame.Surface, box: pygame.Rect, disc: pygame.Surface) -> None:
    """Puts the quarters of a disc or ring into the corners of a box."""
    r = disc.get_width() // 2
    for x, left in ((0, box.left), (r, box.right - r)):
        for y, top in ((0, box.top), (r, box.bottom - r)):
            surface.blit(disc, (left, top), (x, y, r, r))

"""Paints what a frame's beads stand for: groups of things on a quay, and nets of five above it."""

from functools import lru_cache
from itertools import product
from typing import NamedTuple

import pygame

from frame.view.ashore import GAP, GROUPS, SLACK, Group, Shore, counted, edge_of, presence, rise
from frame.view.pictures import Pictures, svg
from frame.view.pose import Bead, Pose
from frame.view.quay import Quay, paint_quay
from frame.view.sprites import FINE
from frame.view.theme import Colour, Drawn
from frame.view.widgets import Brushes

_TENS = (5, 2)
"""How ten stacks stand: so many beside one another, and one above the other."""
_AS_DRAWN = (16, 24)
"""So many pixels is a thing at least that is drawn at its size, alone and in a stack."""
_RING = 0.3
"""How thick the ring around a group that is lit is, in units."""
RING_REACH = 4 * _RING
"""So far a ring and its edge may reach beyond a group, in units, on both sides together."""
_PLANK, _DEEP = 1.4, 5.0
"""How high the quay is, and how far it reaches down with its posts, in units."""
_NUMBER = 5.6
"""How high the number below the quay is, in units."""
_NET_LINE = 0.07
"""How thick a net's lines are, in things."""


def paint_things(
    brushes: Brushes, shore: Shore, thing: str, pose: Pose, lit: frozenset[tuple[int, Bead]],
    wanted: Pose | None = None,
) -> None:  # fmt: skip
    """Paint what the beads of a pose stand for. What comes or leaves next is lit; what is to come,
    of what is `wanted` too, is hollow until then."""
    if not brushes.needs(shore.area):
        return
    surface, before = brushes.surface, brushes.surface.get_clip()
    surface.set_clip(before.clip(shore.area))
    paint_quay(surface, brushes.pictures, brushes.theme, quay_in(shore.area, brushes.unit))
    for group, share in shore.seen(pose):
        if brushes.needs(group.box):
            _blit(brushes, shore, thing, group, share)
    for group in shore.groups:
        is_wanted = wanted is not None and presence(wanted, group.column, group.bead) > 0
        if is_wanted and not presence(pose, group.column, group.bead):
            _blit(brushes, shore, thing, group, 1.0, is_hollow=True)
        if (group.column, group.bead) in lit:
            is_there = presence(pose, group.column, group.bead) > 0
            _paint_lit(brushes, shore, thing, group, is_there=is_there)
    surface.set_clip(before)


def quay_in(area: pygame.Rect, unit: float) -> Quay:
    """The quay of an area on which things come ashore, with room for a number under it."""
    place = pygame.Rect(area.left, edge_of(area, unit), area.w, round(_DEEP * unit))
    return Quay(place, round(_PLANK * unit), is_open=True)


def number_on(shore: Shore, pose: Pose) -> int:
    """The number that is said by what is there."""
    return counted(tuple(shore.seen(pose)))


def number_place(shore: Shore, unit: float) -> pygame.Rect:
    """Where the number stands that all of it says."""
    place = pygame.Rect(shore.area.left, 0, shore.area.w, round(_NUMBER * unit))
    place.bottom = shore.area.bottom
    return place


def _blit(
    brushes: Brushes, shore: Shore, thing: str, group: Group, share: float, is_hollow: bool = False
) -> None:
    look = _Look(brushes.pictures, brushes.theme.drawn, thing, is_hollow)
    net = group.box.size if group.bead.is_heaven else None
    sprite = _sprite(look, group.place, shore.size, net, shore.piled(group.place))
    sprite.set_alpha(round(255 * share))
    brushes.surface.blit(sprite, sprite.get_rect(midbottom=group.box.midbottom))


def _paint_lit(brushes: Brushes, shore: Shore, thing: str, group: Group, *, is_there: bool) -> None:
    """A ring in the colour of hints around a group, within edges of ink."""
    theme, wide = brushes.theme, max(2, round(_RING * brushes.unit))
    held = group.box.copy()
    if group.bead.is_heaven:
        held.h = round(shore.bag(group.place) * shore.size)
        held.bottom = group.box.bottom
    if not is_there:
        _blit(brushes, shore, thing, group, 1.0, is_hollow=True)
    ring = held.inflate(4 * wide, 4 * wide)
    pygame.draw.rect(brushes.surface, theme.hint_ink, ring, 3 * wide, 2 * wide)
    edge = max(1, wide // 2)
    inner = ring.inflate(-2 * edge, -2 * edge)
    pygame.draw.rect(brushes.surface, theme.hint, inner, 3 * wide - 2 * edge, 2 * wide - edge)


class _Look(NamedTuple):
    """What is drawn, and how: hollow in quiet lines, or as it is."""

    pictures: Pictures
    colours: Drawn
    thing: str
    is_hollow: bool

    def drawn(self, size: int) -> pygame.Surface:
        """One thing, so many pixels wide and high."""
        return self.pictures.drawn(self.thing, size, self.colours, self.is_hollow)

    @property
    def line(self) -> Colour:
        """The colour of a net."""
        return self.colours.quiet if self.is_hollow else self.colours.ink


@lru_cache(maxsize=24)
def _sprite(
    look: _Look, place: int, size: int, net: tuple[int, int] | None, rows: tuple[int, ...]
) -> pygame.Surface:
    """A group of a rod, or a net of five of them in rows, which with its rope is so large."""
    group = _group(look, place, size)
    return _net(group, look.line, size, net, rows) if net else group.copy()


def _group(look: _Look, place: int, size: int) -> pygame.Surface:
    """One thing, a stack of ten of them, or ten stacks."""
    if place < len(_AS_DRAWN):
        return _drawn(look, place, size)
    # As if seen from afar: too small to be drawn at their size.
    stack, (across, above) = _drawn(look, 1, size), _TENS
    return _shrunk(_in_rows(stack, across, above), GROUPS[place], size)


def _drawn(look: _Look, place: int, size: int) -> pygame.Surface:
    """One, or ten of them. Small ones are drawn larger and shrunk, or there were nothing but
    lines."""
    if size >= _AS_DRAWN[place]:
        return _in_rows(look.drawn(size), *GROUPS[place])
    return _shrunk(_in_rows(look.drawn(FINE * size), *GROUPS[place]), GROUPS[place], size)


def _in_rows(one: pygame.Surface, across: int, above: int) -> pygame.Surface:
    """So many beside one another, and one above the other."""
    wide, high = one.get_size()
    surface = pygame.Surface((across * wide, above * high), pygame.SRCALPHA)
    for x, y in product(range(across), range(above)):
        surface.blit(one, (x * wide, y * high))
    return surface


def _shrunk(surface: pygame.Surface, group: tuple[int, int], size: int) -> pygame.Surface:
    wide, high = group
    return pygame.transform.smoothscale(surface, (wide * size, high * size))


def _net(
    group: pygame.Surface, line: Colour, size: int, box: tuple[int, int], rows: tuple[int, ...]
) -> pygame.Surface:
    """Five groups, in rows from the bottom, in a bag that hangs from a rope; all of it in a box."""
    width, high = box
    surface = pygame.Surface(box, pygame.SRCALPHA)
    apart = group.get_width() + round(GAP * size)
    for row, count in enumerate(rows):
        left = (width - (count - 1) * apart) / 2
        foot = round(high - SLACK * size - row * group.get_height())
        for at in range(count):
            surface.blit(group, group.get_rect(midbottom=(round(left + at * apart), foot)))
    upper = (rows[-1] - 1) * apart + group.get_width()
    surface.blit(svg(_bag(box, upper, len(rows) * group.get_height(), size, line)), (0, 0))
    return surface


def _bag(box: tuple[int, int], upper: int, pile: int, size: int, colour: Colour) -> str:
    """A bag around a pile so high, whose uppermost row is so wide, and its rope, as an SVG."""
    width, high = box
    line, slack, middle = max(1.5, _NET_LINE * size), SLACK * size, width / 2
    ink = "#{:02X}{:02X}{:02X}".format(*colour)
    left, right, foot = line, width - line, high - slack
    shoulder = foot - pile - slack / 2
    half = min(upper / 2 + slack, middle - line)
    apex = max(0, shoulder - rise(upper / size) * size)
    path = (
        f"M{middle} 0 V{apex} M{middle} {apex} L{middle - half} {shoulder} L{left} {foot - slack}"
        f" Q{left} {high - line} {left + 2 * slack} {high - line} H{right - 2 * slack}"
        f" Q{right} {high - line} {right} {foot - slack} L{middle + half} {shoulder} Z"
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{high}" '
        f'viewBox="0 0 {width} {high}"><g fill="none" stroke="{ink}" stroke-width="{line}" '
        f'stroke-linejoin="round" stroke-linecap="round"><path d="{path}"/></g></svg>'
    )

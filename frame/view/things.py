"""Paints what a frame's beads stand for: groups of things on a quay, and nets of five above it."""

from functools import lru_cache
from itertools import product

import pygame

from frame.view.ashore import GROUPS, PILED, SLACK, Group, Shore, presence
from frame.view.pictures import Pictures, svg
from frame.view.pose import Bead, Pose
from frame.view.theme import Drawn
from frame.view.widgets import Brushes

_TENS = (5, 2)
"""How ten stacks stand: so many beside one another, and one above the other."""
_RING = 0.3
"""Units around a group that is lit."""
_PLANK, _POST = 1.4, 3.0
"""How high the quay is, and how far its posts reach below it, in units."""
_NUMBER = 5.6
"""How high the number below the quay is, in units."""
_NET_LINE = 0.07
"""How thick a net's lines are, in things."""


def paint_things(
    brushes: Brushes, shore: Shore, thing: str, pose: Pose, lit: frozenset[tuple[int, Bead]]
) -> None:
    """Paint what the beads of a pose stand for. What comes or leaves next is lit; what is to come
    is hollow until then."""
    if not brushes.needs(shore.area):
        return
    surface, before = brushes.surface, brushes.surface.get_clip()
    surface.set_clip(before.clip(shore.area))
    paint_quay(brushes, shore.area, shore.edge)
    for group, share in shore.seen(pose):
        _blit(brushes, shore, thing, group, share)
    for group in shore.groups():
        if (group.column, group.bead) in lit:
            is_there = presence(pose, group.column, group.bead) > 0
            _paint_lit(brushes, shore, thing, group, is_there=is_there)
    surface.set_clip(before)


def number_place(shore: Shore, unit: float) -> pygame.Rect:
    """Where the number stands that all of it says."""
    place = pygame.Rect(shore.area.left, 0, shore.area.w, round(_NUMBER * unit))
    place.bottom = shore.area.bottom
    return place


def paint_quay(brushes: Brushes, area: pygame.Rect, edge: int) -> None:
    """A plank from side to side, its upper edge at this height, on three posts."""
    one, colours = brushes.unit, brushes.theme.drawn
    line = max(2, round(one / 3))
    plank = pygame.Rect(area.left, edge, area.w, round(_PLANK * one))
    for share in (0.08, 0.5, 0.92):
        post = pygame.Rect(0, plank.bottom - line, round(1.6 * one), round(_POST * one))
        post.centerx = area.left + round(share * area.w)
        brushes.surface.fill(colours.ink, post)
        brushes.surface.fill(colours.wood, post.inflate(-2 * line, -2 * line))
    brushes.surface.fill(colours.ink, plank)
    brushes.surface.fill(colours.wood, plank.inflate(-2 * line, -2 * line))


def _blit(brushes: Brushes, shore: Shore, thing: str, group: Group, share: float) -> None:
    sprite = _sprite(
        brushes.pictures, brushes.theme.drawn, thing, group.place, shore.size,
        group.box.h if group.bead.is_heaven else 0,
    )  # fmt: skip
    sprite.set_alpha(round(255 * share))
    brushes.surface.blit(sprite, sprite.get_rect(midbottom=group.box.midbottom))


def _paint_lit(brushes: Brushes, shore: Shore, thing: str, group: Group, *, is_there: bool) -> None:
    """A ring in the colour of hints around a group, within edges of ink."""
    theme, wide = brushes.theme, max(2, round(_RING * brushes.unit))
    held = group.box.copy()
    if group.bead.is_heaven:
        held.top = held.bottom - round((PILED[1] * GROUPS[group.place][1] + SLACK) * shore.size)
    if not is_there:
        sprite = brushes.pictures.drawn(thing, shore.size, theme.drawn, True)
        if not group.bead.is_heaven and group.place == 0:
            brushes.surface.blit(sprite, group.box)
    ring = held.inflate(4 * wide, 4 * wide)
    pygame.draw.rect(brushes.surface, theme.hint_ink, ring, 3 * wide, 2 * wide)
    edge = max(1, wide // 2)
    inner = ring.inflate(-2 * edge, -2 * edge)
    pygame.draw.rect(brushes.surface, theme.hint, inner, 3 * wide - 2 * edge, 2 * wide - edge)


@lru_cache(maxsize=24)
def _sprite(
    pictures: Pictures, colours: Drawn, thing: str, place: int, size: int, net: int
) -> pygame.Surface:
    """A group of a rod, or a net of five of them that hangs `net` pixels from above."""
    group = _group(pictures, colours, thing, place, size)
    return _net(group, colours, size, net) if net else group


def _group(pictures: Pictures, colours: Drawn, thing: str, place: int, size: int) -> pygame.Surface:
    """One thing, a stack of ten of them, or ten stacks."""
    if place == 0:
        return pictures.drawn(thing, size, colours)
    wide, high = (part * size for part in GROUPS[place])
    if place == 1:
        surface = pygame.Surface((wide, high), pygame.SRCALPHA)
        one = pictures.drawn(thing, size, colours)
        for x, y in product(range(GROUPS[1][0]), range(GROUPS[1][1])):
            surface.blit(one, (x * size, y * size))
        return surface
    # As if seen from afar: too small to be drawn at their size.
    across, above = _TENS
    stack = _group(pictures, colours, thing, 1, size)
    whole = pygame.Surface(
        (across * stack.get_width(), above * stack.get_height()), pygame.SRCALPHA
    )
    for x, y in product(range(across), range(above)):
        whole.blit(stack, (x * stack.get_width(), y * stack.get_height()))
    return pygame.transform.smoothscale(whole, (wide, high))


def _net(group: pygame.Surface, colours: Drawn, size: int, high: int) -> pygame.Surface:
    """Five groups, three below and two on them, in a bag that hangs from a rope."""
    below, above = PILED
    wide, slack = group.get_width(), SLACK * size
    width = round(below * wide + 2 * slack)
    surface = pygame.Surface((width, high), pygame.SRCALPHA)
    bottom = high - slack
    for row, count in enumerate((below, above)):
        left = (width - count * wide) / 2
        for at in range(count):
            foot = round(left + (at + 0.5) * wide), round(bottom - row * group.get_height())
            surface.blit(group, group.get_rect(midbottom=foot))
    surface.blit(svg(_bag(width, high, group.get_height(), size, colours)), (0, 0))
    return surface


def _bag(width: int, high: int, group: int, size: int, colours: Drawn) -> str:
    """The bag and its rope, as an SVG."""
    line = max(1.5, _NET_LINE * size)
    ink, middle, inset = "#{:02X}{:02X}{:02X}".format(*colours.ink), width / 2, line
    bottom, slack = high - line, SLACK * size
    top, side = high - 2 * group - 2 * slack, high - slack - group / 2
    left, right, high_side, foot = inset, width - inset, top + group / 2, bottom - slack
    paths = (
        f"M{middle} 0 V{top}",
        f"M{middle} {top} C{left} {high_side} {left} {side} {left + slack / 2} {foot}"
        f" Q{middle} {bottom + slack / 2} {right - slack / 2} {foot}"
        f" C{right} {side} {right} {high_side} {middle} {top}",
    )
    drawn = "".join(f'<path d="{path}"/>' for path in paths)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}" height="{high}" '
        f'viewBox="0 0 {width} {high}"><g fill="none" stroke="{ink}" stroke-width="{line}" '
        f'stroke-linejoin="round" stroke-linecap="round">{drawn}</g></svg>'
    )

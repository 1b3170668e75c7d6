"""What a frame's beads stand for, ashore: where each group stands, and how much of it is there.

Things stand in the groups of the hand. On the rod of ones an earth bead is one thing, on that of
tens a stack of ten, on that of hundreds ten stacks, drawn smaller; a heaven bead is a net of five
such groups. All follow the beads, so that both always say the same number.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache
from typing import NamedTuple

import pygame

from frame.technique.beads import BeadMove
from frame.view.pose import Bead, Pose

MOST_RODS = 3
GROUPS = ((1, 1), (2, 5), (3, 3))
"""How wide and high a group is on the rods of ones, tens and hundreds, in things."""
SLACK = 0.4
"""How much wider a net is than what it holds at either side, and deeper, in things."""
GAP = 0.35
"""Between groups beside one another."""
_RISE = 0.16
"""How high a net's ropes rise at least, in shares of how wide what it holds is."""
_ROPE = {1: 1.8, 2: 2.4, 3: 1.6}
"""How much rope there is at least above what nets hold, by the rods, in things."""
_BETWEEN = 1.0
"""Between two rods' groups, and between nets and what stands on the quay."""
_PILED, _IN_A_ROW = (3, 2), (5,)
"""How five groups lie in a net, in rows from below; where there is room, stacks in one row."""
_LOOSE = {1: 4, 2: 4, 3: 2}
"""How many loose groups stand side by side, by the rods."""
_MOST_THING, _FOOT = 7.5, 9.0
"""The largest a thing is, and what lies below the quay's edge, in units."""
_SHIFT = 0.8
"""How far from its place a group comes into sight, in things."""
THERE = 0.5
"""As much of a group counts."""


class Group(NamedTuple):
    """What one bead stands for: its rod's index from the left, the bead, where it stands ashore
    which rod it is from the right."""

    column: int
    bead: Bead
    box: pygame.Rect
    place: int


@dataclass(frozen=True)
class Shore:
    """Where the groups of so many rods stand, at most MOST_RODS, in an area; a thing is `size`
    pixels wide and high, and `edge` is the height of the quay."""

    area: pygame.Rect
    rods: int
    size: int
    edge: int

    @classmethod
    def fit(cls, area: pygame.Rect, rods: int, unit: float) -> "Shore":
        """With things as large as the area holds."""
        return _fitted((*area.topleft, *area.size), rods, unit)

    @cached_property
    def groups(self) -> tuple[Group, ...]:
        """All groups, those of one rod after another from the left, the net first."""
        return tuple(self._groups())

    def _groups(self) -> Iterator[Group]:
        places = _places(self.rods)
        wide = sum(_column(place, self.rods) for place in places) + _BETWEEN * (self.rods - 1)
        left = self.area.centerx - wide * self.size / 2
        for index, place in enumerate(places):
            column = _column(place, self.rods) * self.size
            yield self._net(index, place, left + column / 2)
            yield from self._loose(index, place, left + column / 2)
            left += column + _BETWEEN * self.size

    def piled(self, place: int) -> tuple[int, ...]:
        """The rows from below in which five groups lie in the net of a rod."""
        return _piled(place, self.rods)

    def pile(self, place: int) -> int:
        """How high they lie, in things."""
        return len(self.piled(place)) * GROUPS[place][1]

    def bag(self, place: int) -> float:
        """How high the net of a rod is without its rope, in things."""
        return SLACK + self.pile(place) + SLACK / 2 + rise(upper(place, self.rods))

    def _net(self, index: int, place: int, middle: float) -> Group:
        width = round(_net_width(place, self.rods) * self.size)
        high = round((_ROPE[self.rods] + SLACK + _pile(self.rods)) * self.size)
        box = pygame.Rect(round(middle - width / 2), self.area.top, width, high)
        return Group(index, Bead.HEAVEN, box, place)

    def _loose(self, index: int, place: int, middle: float) -> Iterator[Group]:
        wide, high = (part * self.size for part in GROUPS[place])
        across, gap = _LOOSE[self.rods], GAP * self.size
        left = middle - (across * wide + (across - 1) * gap) / 2
        for at, bead in enumerate(list(Bead)[Bead.EARTH_1 :]):
            row, column = divmod(at, across)
            x, y = left + column * (wide + gap), self.edge - (row + 1) * high
            yield Group(index, bead, pygame.Rect(round(x), round(y), wide, high), place)

    def seen(self, pose: Pose) -> Iterator[tuple[Group, float]]:
        """The groups of which something is there, each moved to where it is on its way, and how
        much of it is seen, up to 1."""
        for group in self.groups:
            there = presence(pose, group.column, group.bead)
            if there > 0:
                yield group._replace(box=self._on_its_way(group, there)), there

    def _on_its_way(self, group: Group, there: float) -> pygame.Rect:
        way = -1 if group.bead.is_heaven else 1
        return group.box.move(0, round(way * (1 - there) * _SHIFT * self.size))

    def changed(self, before: Pose, after: Pose) -> Iterator[pygame.Rect]:
        """The places that look different in another pose."""
        for group in self.groups:
            was, there = (presence(one, group.column, group.bead) for one in (before, after))
            if was != there:
                yield self._on_its_way(group, was).union(self._on_its_way(group, there))


@lru_cache(maxsize=8)
def _fitted(area: tuple[int, int, int, int], rods: int, unit: float) -> Shore:
    place = pygame.Rect(area)
    edge = edge_of(place, unit)
    wide = sum(_column(one, rods) for one in _places(rods)) + _BETWEEN * (rods - 1)
    rows = -(-4 // _LOOSE[rods])
    loose = max(rows * GROUPS[one][1] for one in _places(rods))
    high = _ROPE[rods] + SLACK + _pile(rods) + _BETWEEN + loose
    size = min(place.w / wide, (edge - place.top) / high, _MOST_THING * unit)
    return Shore(place, rods, max(2, int(size)), edge)


def presence(pose: Pose, index: int, bead: Bead) -> float:
    """How much of what a bead stands for is there: all at the beam, nothing away from it."""
    offset = pose.rods[index][bead]
    return offset if bead.is_heaven else 1 - offset


def counted(groups: Sequence[tuple[Group, float]]) -> int:
    """How many things are there, counted one by one."""
    there = (group for group, share in groups if share > THERE)
    return sum((5 if one.bead.is_heaven else 1) * 10**one.place for one in there)


def moved_by(move: BeadMove, pose: Pose, units: int) -> frozenset[tuple[int, Bead]]:
    """The beads, each with its rod's index, that a move takes along; `units` is the index of the
    unit rod."""
    index = units - move.rod
    if move.is_heaven:
        return frozenset({(index, Bead.HEAVEN)})
    up = pose.earth_up(index)
    first, last = sorted((up, up + move.change))
    return frozenset((index, Bead(at + 1)) for at in range(max(first, 0), min(last, 4)))


def edge_of(area: pygame.Rect, unit: float) -> int:
    """The height of the quay's edge in an area."""
    return area.bottom - round(_FOOT * unit)


def _piled(place: int, rods: int) -> tuple[int, ...]:
    return _IN_A_ROW if place and rods < MOST_RODS else _PILED


def _pile(rods: int) -> int:
    """How high the highest pile in a net is, in things."""
    return max(len(_piled(place, rods)) * GROUPS[place][1] for place in _places(rods))


def _net_width(place: int, rods: int) -> float:
    """How wide a net is, in things."""
    count = max(_piled(place, rods))
    return count * GROUPS[place][0] + (count - 1) * GAP + 2 * SLACK


def upper(place: int, rods: int) -> float:
    """How wide the uppermost row of what lies in a net is, in things."""
    count = _piled(place, rods)[-1]
    return count * GROUPS[place][0] + (count - 1) * GAP


def rise(wide: float) -> float:
    """How high a net's ropes rise above what it holds, which is so wide; in things."""
    return max(1.0, _RISE * wide)


def _column(place: int, rods: int) -> float:
    """How wide a rod's groups are, in things."""
    across = _LOOSE[rods]
    return max(_net_width(place, rods), across * GROUPS[place][0] + (across - 1) * GAP)


def _places(rods: int) -> range:
    """The rods from the left, each by its place from the right."""
    return range(rods - 1, -1, -1)

"""The pictures of a report: beads on a rod that lies, bars, and who it is about."""

import re
from collections.abc import Iterator
from typing import NamedTuple

from frame.learner.looks import portrait_of
from frame.practice.tally import Tally
from frame.report.figures import LAST
from frame.resources import ASSETS

_WIDE, _HIGH, _BAR = 9.0, 18.0, 4.0
_PITCH, _GAP, _MARGIN = 10.0, 24.0, 1.0
"""From bead to bead, from those at the bar to the others, and for the edges of the outermost."""
_CORNERS = (
    (_WIDE * 0.36, 0.0), (_WIDE * 0.64, 0.0), (_WIDE, _HIGH * 0.3), (_WIDE, _HIGH * 0.7),
    (_WIDE * 0.64, _HIGH), (_WIDE * 0.36, _HIGH), (0.0, _HIGH * 0.7), (0.0, _HIGH * 0.3),
)  # fmt: skip
"""Of a bead."""
SIZE = (_BAR + LAST * _PITCH + _GAP + 2 * _MARGIN, _HIGH + 2 * _MARGIN)
"""Of a rod with its beads."""
ROD = (0.0, SIZE[1] / 2 - 1, SIZE[0], 2.0)
BAR = (0.0, 0.0, _BAR, SIZE[1])
"""Left, top, width and height of a rod, and of the bar on its left."""
_UNKNOWN = "newcomer"
_PIXELS = re.compile(r'width="\d+" height="\d+"')


class DrawnBead(NamedTuple):
    """A bead by its corners, and whether it lies at the bar."""

    is_at_bar: bool
    corners: tuple[tuple[float, float], ...]


def drawn_beads(tally: Tally) -> Iterator[DrawnBead]:
    """A bead for each of the last exercises: those right at once at the bar, the others at the
    other end of the rod."""
    right, of = tally
    for at in range(of):
        is_at_bar = at < right
        left = _BAR + _MARGIN + at * _PITCH if is_at_bar else SIZE[0] - (of - at) * _PITCH
        yield DrawnBead(is_at_bar, tuple((left + x, _MARGIN + y) for x, y in _CORNERS))


def beads(tally: Tally) -> str:
    """The rod with its beads as SVG."""
    drawn = "".join(map(_bead, drawn_beads(tally)))
    head = f'class="beads" viewBox="0 0 {SIZE[0]:g} {SIZE[1]:g}" aria-hidden="true"'
    return f"<svg {head}>{_box('rod', ROD)}{_box('beam', BAR)}{drawn}</svg>"


def _bead(bead: DrawnBead) -> str:
    corners = " ".join(f"{x:g},{y:g}" for x, y in bead.corners)
    return f'<polygon class="{"in" if bead.is_at_bar else "out"}" points="{corners}"/>'


def _box(kind: str, box: tuple[float, float, float, float]) -> str:
    left, top, width, height = box
    return f'<rect class="{kind}" x="{left:g}" y="{top:g}" width="{width:g}" height="{height:g}"/>'


def share_of(minutes: int, most: int) -> float:
    """How long a bar is, in shares of the longest."""
    return minutes / max(1, most)


def bar(minutes: int, most: int, kind: str) -> str:
    """A bar of minutes as SVG."""
    drawn = _box(kind, (0, 0, 100 * share_of(minutes, most), 10)) if minutes else ""
    head = 'viewBox="0 0 100 10" preserveAspectRatio="none" aria-hidden="true"'
    return f"<svg {head}>{drawn}</svg>"


def portrait(picture: str) -> str:
    """A learner's animal; that of a newcomer where it is not known."""
    found = portrait_of(picture)
    name = found.animal if found else _UNKNOWN
    text = (ASSETS / "pictures" / f"{name}.svg").read_text(encoding="utf-8")
    return _PIXELS.sub('class="portrait" aria-hidden="true"', text, count=1)

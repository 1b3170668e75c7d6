"""Slips of paper that say what somebody is to do, several on a page, to be cut out: in greys."""

from collections.abc import Sequence
from contextlib import closing
from pathlib import Path
from typing import NamedTuple

from frame.language.catalogue import Words
from frame.learner.new_file import new_file
from frame.learner.trouble import told_of
from frame.printing.cuts import draw_cuts
from frame.printing.leaf import Area, printed_area, size_of
from frame.printing.pen import INK, SOFT, Pen, Type
from frame.sheets.recipe import Leaf

_ACROSS, _DOWN = 2, 4
_NAME, _FROM, _WHAT = Type(17, bold=True), Type(9, grey=SOFT), Type(14)
_CODE = Type(12, bold=True)
_INSET = 6.0
"""White between the cut and what is printed, in millimetres."""
_MOST_LINES = 3
_BOX = 7.0
"""The side of the box that is ticked by hand."""


class Slip(NamedTuple):
    """Who is to do what, in words, with the code of its sheet where it is one."""

    name: str
    what: str
    code: str = ""


def write_slips(path: Path, slips: Sequence[Slip], words: Words, leaf: Leaf = Leaf.A4) -> int:
    """Write the slips to a new file, and answer how many pages they have. Raises StoreError; a file
    that is there is left as it is."""
    title, on_page = words.text("given.title"), _ACROSS * _DOWN
    pages = [slips[first : first + on_page] for first in range(0, len(slips), on_page)]
    language = words.text("report.page.lang")
    with new_file(path) as fresh, told_of(path), closing(Pen(title, language)) as pen:
        for some in pages:
            pen.turn_page(size_of(leaf, False))
            _draw_page(pen, printed_area(leaf, False), some, words)
        fresh.write_bytes(pen.file())
    return len(pages)


def _draw_page(pen: Pen, area: Area, slips: Sequence[Slip], words: Words) -> None:
    width, height = area.w / _ACROSS, area.h / _DOWN
    for index, slip in enumerate(slips):
        row, column = divmod(index, _ACROSS)
        place = Area(area.x + column * width, area.y + row * height, width, height)
        _draw_slip(pen, place, slip, words)
    draw_cuts(pen, area, _ACROSS, _DOWN, len(slips))


def _draw_slip(pen: Pen, place: Area, slip: Slip, words: Words) -> None:
    """The name beside a box to tick, what to do, and at the foot the code."""
    left, top, room = place.x + _INSET, place.y + _INSET, place.w - 2 * _INSET
    box = Area(place.right - _INSET - _BOX, top, _BOX, _BOX)
    pen.outline(box, 0.4, INK)
    foot = top + _BOX - (_BOX - _NAME.capital) / 2
    pen.write(slip.name, (left, foot), pen.fitting(slip.name, _NAME, room - _BOX - _INSET))
    foot = box.bottom + 1.5 + _FROM.leading
    pen.write(words.text("given.title"), (left, foot), _FROM)
    kind = _WHAT
    while len(lines := [*pen.wrapped(slip.what, kind, room)]) > _MOST_LINES:
        kind = kind._replace(size=0.9 * kind.size)
    foot += 3.5
    for line in lines:
        foot += kind.leading
        pen.write(line, (left, foot), pen.fitting(line, kind, room))
    if slip.code:
        shrunk = min(1.0, room / (0.68 * _CODE.millimetres * len(slip.code)))
        code = _CODE._replace(size=_CODE.size * shrunk)
        pen.write_code(slip.code, (left, place.bottom - _INSET), code)

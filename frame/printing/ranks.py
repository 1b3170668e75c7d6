"""The ranks of a dan, each with the marks that are enough for it."""

from collections.abc import Sequence
from functools import partial

from frame.language.catalogue import Words
from frame.printing.blocks import Block
from frame.printing.leaf import Area
from frame.printing.pen import HAIR, INK, SOFT, Pen, Type
from frame.sheets.grades import Rank

_HEAD, _CELL = Type(8, grey=SOFT), Type(9, grey=INK)
_ROW = 5.0
_BESIDE = 4.0
"""White right of what the rows are called."""


def ranks_block(ranks: Sequence[Rank], words: Words) -> Block:
    """A table of two rows over all the width: the ranks, and the marks below them."""
    rows = [
        (words.text("sheet.rank"), *(rank.name for rank in ranks)),
        (words.text("sheet.rank_marks"), *(str(rank.marks) for rank in ranks)),
    ]
    return Block(len(rows) * _ROW, partial(_draw, rows), gap=6.0)


def _draw(rows: Sequence[Sequence[str]], pen: Pen, area: Area) -> None:
    left = area.x + max(pen.width(row[0], _HEAD) for row in rows) + _BESIDE
    pitch = (area.right - left) / (len(rows[0]) - 1)
    for index, (name, *cells) in enumerate(rows):
        foot = area.y + index * _ROW + (_ROW + _CELL.capital) / 2
        pen.write(name, (area.x, foot), _HEAD)
        for column, cell in enumerate(cells):
            pen.write(cell, (left + (column + 0.5) * pitch, foot), _CELL, 0.5)
    pen.line((area.x, area.y + _ROW), (area.right, area.y + _ROW), 0.2, HAIR)

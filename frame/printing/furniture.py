"""What stands at the head and at the foot of every page."""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from frame.language.catalogue import Words
from frame.printing.beads import draw_letter
from frame.printing.leaf import Area
from frame.printing.pen import BLACK, EDGE, SOFT, Pen, Type
from frame.printing.titles import Group, below_of, group_line, notes_of, title_of
from frame.sheets.sheet import Sheet

_TITLE, _BELOW, _FIELD = Type(15, bold=True), Type(10, grey=SOFT), Type(10, grey=SOFT)
_GROUP = Type(10, bold=True)
_LETTER = (13.0, 7.6)
"""The bead with the letter of the version."""
_TITLE_FOOT, _BELOW_FOOT, _GROUP_FOOT, _FIELD_FOOT = 5.4, 10.4, 15.0, 20.6
"""The lines that the title, what stands below it, the group and the name stand on."""
_HEAD, _KEY_HEAD, _OF_GROUP = 26.0, 16.5, 3.0
"""The heights of the heads of a sheet and of its key, with the white below; and what a group adds
to the key's."""
_DATE = 0.68
"""Where the date begins, of the width."""
_NOTE, _CODE = Type(8, grey=SOFT), Type(9.5)
_QR = 13.5
_QUIET = 5.0
"""White beside the square code."""
_BESIDE_CODE = 4.0
"""From the code to the id of a grade."""
_ABOVE_FOOT = 5.5
_ABOVE_CODE = 3.4
"""From the last note to the code."""


@dataclass(frozen=True)
class Furniture:
    """Head and foot of the pages of a sheet, with its code and what must be said of it."""

    pen: Pen
    sheet: Sheet
    code: str
    words: Words
    group: Group | None = None

    def head_height(self, is_key: bool) -> float:
        """The height of a head, with the white below."""
        if not is_key:
            return _HEAD
        return _KEY_HEAD + (_OF_GROUP if self.group else 0)

    def foot_height(self, width: float) -> float:
        """The height of the foot, with the white above."""
        lines = len(list(self._foot_lines(width)))
        return _ABOVE_FOOT + max(_QR, lines * _NOTE.leading + _ABOVE_CODE + _CODE.capital)

    def draw_head(self, area: Area, is_key: bool) -> None:
        """Title, version and, but on the key, name and date."""
        pen, words, recipe = self.pen, self.words, self.sheet.recipe
        title = title_of(recipe, words)
        if is_key:
            title = words.text("sheet.key", title=title)
        room = area.w - _LETTER[0] - 6
        pen.write(title, (area.x, area.y + _TITLE_FOOT), pen.fitting(title, _TITLE, room))
        below = below_of(self.sheet, words)
        pen.write(below, (area.x, area.y + _BELOW_FOOT), pen.fitting(below, _BELOW, room))
        if self.group is not None:
            told = group_line(self.group, words, lambda one: pen.width(one, _GROUP) <= room)
            pen.write(told, (area.x, area.y + _GROUP_FOOT), pen.fitting(told, _GROUP, room))
        draw_letter(pen, recipe.version, Area(area.right - _LETTER[0], area.y, *_LETTER))
        if not is_key:
            date = area.x + area.w * _DATE
            foot = area.y + _FIELD_FOOT
            self._draw_field(words.text("sheet.name"), area.x, date - 6, foot)
            self._draw_field(words.text("sheet.date"), date, area.right, foot)

    def draw_foot(self, area: Area, page: int, pages: int) -> None:
        """Notes, the code in letters and as a square, the id of a grade, and which page it is."""
        pen = self.pen
        self._draw_qr(area.right - _QR, area.bottom - _QR)
        right = area.right - _QR - _QUIET
        end = pen.write_code(self.code, (area.x, area.bottom), _CODE)
        pen.write(self.sheet.recipe.grade, (end + _BESIDE_CODE, area.bottom), _NOTE)
        text = self.words.text("sheet.page", page=page, pages=pages)
        pen.write(text, (right, area.bottom), _NOTE, 1)
        lines = list(self._foot_lines(area.w))
        y = area.bottom - _CODE.capital - _ABOVE_CODE - (len(lines) - 1) * _NOTE.leading
        for line in lines:
            pen.write(line, (area.x, y), _NOTE)
            y += _NOTE.leading

    def _foot_lines(self, width: float) -> Iterator[str]:
        for note in notes_of(self.sheet.recipe, self.words):
            yield from self.pen.wrapped(note, _NOTE, width - _QR - _QUIET)

    def _draw_field(self, name: str, left: float, right: float, foot: float) -> None:
        """A name with a line to write on."""
        self.pen.write(name, (left, foot), _FIELD)
        start = left + self.pen.width(name, _FIELD) + 2.5
        self.pen.line((start, foot + 1), (right, foot + 1), 0.25, EDGE)

    def _draw_qr(self, left: float, top: float) -> None:
        """The code as a square for a camera, its dark cells row by row."""
        side = _QR / len(self._matrix)
        for row, cells in enumerate(self._matrix):
            start = 0
            while start < len(cells):
                end = start
                while end < len(cells) and cells[end]:
                    end += 1
                if end > start:
                    cell = Area(left + start * side, top + row * side, (end - start) * side, side)
                    self.pen.fill(cell, BLACK)
                start = end + 1

    @cached_property
    def _matrix(self) -> tuple[bytearray, ...]:
        import segno

        return segno.make(self.code, error="m", micro=False).matrix

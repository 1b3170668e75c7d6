"""The report of a learner as one page of a PDF, for a parent: in words, in greys."""

from collections.abc import Sequence
from contextlib import closing
from pathlib import Path

from frame.language.catalogue import Words
from frame.learner.new_file import new_file
from frame.learner.trouble import told_of
from frame.printing.leaf import Area, printed_area, size_of
from frame.printing.pen import BLACK, EDGE, HAIR, REST, SOFT, Pen, Type
from frame.report.drawings import SIZE, drawn_beads, share_of
from frame.report.told import SUMS, About, Bar, Page, Part, Row, count_text, minutes_text
from frame.sheets.recipe import Leaf

_TITLE, _HEAD, _TEXT = Type(18, bold=True), Type(12.5, bold=True), Type(11)
_COUNT, _SOFT, _NOTE = Type(11, bold=True), Type(9, grey=SOFT), Type(8.5, grey=SOFT)
_BELOW_TITLE, _HIGH = 9.0, 6.0
"""Millimetres below the title and the day; and of a row."""
_BETWEEN, _GUTTER, _PAD = 5.0, 10.0, 3.5
"""Between parts, between the two columns, and within the box."""
_LEFT = 0.56
"""The share of the left column."""
_BEADS, _COUNTED = 0.28, 19.0
"""The share of a column that beads take, and the room for a count."""
_BAR = 3.4


def write_report(path: Path, page: Page, words: Words, leaf: Leaf = Leaf.A4) -> str:
    """Write the page to a new file, and answer the letters that no font here has. Raises
    StoreError; a file that is there is left as it is."""
    language = words.text("report.page.lang")
    with new_file(path) as fresh, told_of(path), closing(Pen(page.title, language)) as pen:
        pen.turn_page(size_of(leaf, False))
        _Press(pen, page, words).press(printed_area(leaf, False))
        fresh.write_bytes(pen.file())
        return pen.lacking


class _Press:
    """Puts a page on paper."""

    def __init__(self, pen: Pen, page: Page, words: Words) -> None:
        self.pen, self.page, self.words = pen, page, words
        self._name = _TEXT

    def press(self, whole: Area) -> None:
        """Title and day, what is known at the left, all else at the right, and the notes below."""
        pen, page = self.pen, self.page
        y = whole.y + _TITLE.capital
        pen.write(page.title, (whole.x, y), pen.fitting(page.title, _TITLE, whole.w))
        pen.write(page.day, (whole.x, y + 6), _SOFT)
        top = y + 6 + _BELOW_TITLE
        left = Area(whole.x, top, whole.w * _LEFT, whole.bottom - top)
        right = Area(left.right + _GUTTER, top, whole.w - left.w - _GUTTER, left.h)
        names = [row.name for part in page.parts for row in part.rows]
        room = left.w - _count_and_beads(left.w) - 2
        self._name = min((pen.fitting(one, _TEXT, room) for one in names), default=_TEXT)
        first = [part for part in page.parts if part.about in SUMS]
        ends = [self._parts(first, left)]
        ends.append(self._parts([part for part in page.parts if part not in first], right))
        self._notes(Area(whole.x, max(ends) + _BETWEEN, whole.w, 0))

    def _parts(self, parts: Sequence[Part], area: Area) -> float:
        """Parts one below the other; where they end."""
        y = area.y
        for part in parts:
            y = self._part(part, Area(area.x, y, area.w, 0)) + _BETWEEN
        return y

    def _part(self, part: Part, area: Area) -> float:
        is_boxed = part.about is About.HOME
        inside = _padded(area) if is_boxed else area
        y = inside.y + _HEAD.capital
        self.pen.write(part.heading, (inside.x, y), _HEAD)
        y += 2.5
        for row in part.rows:
            y = self._row(row, Area(inside.x, y, inside.w, _HIGH))
        y = self._bars(part.bars, Area(inside.x, y, inside.w, 0))
        for sentence in part.sentences:
            y = self._wrapped(sentence, _TEXT, inside, y)
        if is_boxed:
            y += _PAD
            self.pen.outline(Area(area.x, area.y, area.w, y - area.y), 0.5, EDGE)
        return y

    def _row(self, row: Row, area: Area) -> float:
        """A kind by its name, its beads, how many were right at once; below a word on it."""
        pen, count = self.pen, count_text(row.tally, self.words)
        foot = area.y + area.h - 1.6
        pen.write(count, (area.right, foot), _COUNT, 1)
        taken = _count_and_beads(area.w)
        beads = Area(area.right - taken, foot - _TEXT.capital, taken - _COUNTED, _TEXT.capital)
        pen.write(row.name, (area.x, foot), self._name)
        if row.tally.of:
            self._beads(row, beads)
        if not row.note:
            return foot + 1.6
        pen.write(row.note, (area.x, foot + _SOFT.leading), _SOFT)
        return foot + _SOFT.leading + 1.8

    def _beads(self, row: Row, area: Area) -> None:
        scale = min(area.w / SIZE[0], area.h / SIZE[1])
        middle = area.y + scale * SIZE[1] / 2
        end = area.x + scale * SIZE[0]
        self.pen.line((area.x, middle), (end, middle), 0.3, HAIR)
        self.pen.line((area.x, area.y), (area.x, area.y + scale * SIZE[1]), 0.8, BLACK)
        for bead in drawn_beads(row.tally):
            corners = [(area.x + scale * x, area.y + scale * y) for x, y in bead.corners]
            self.pen.shapes([corners], SOFT if bead.is_at_bar else REST, EDGE, 0.15)

    def _bars(self, bars: Sequence[Bar], area: Area) -> float:
        y, most = area.y, max((one.minutes for one in bars), default=0)
        for bar in bars:
            foot = y + _TEXT.leading
            self.pen.write(bar.name, (area.x, foot), _TEXT)
            self.pen.write(minutes_text(bar, self.words), (area.right, foot), _COUNT, 1)
            y = foot + 1.5
            if bar.minutes:
                share = share_of(bar.minutes, most)
                self.pen.fill(Area(area.x, y, area.w * share, _BAR), EDGE)
                y += _BAR + 1.0
        return y + 1.5 if bars else y

    def _wrapped(self, text: str, kind: Type, area: Area, y: float) -> float:
        for line in self.pen.wrapped(text, kind, area.w):
            y += kind.leading
            self.pen.write(line, (area.x, y), kind)
        return y + 1.2

    def _notes(self, area: Area) -> None:
        page, y = self.page, area.y
        self.pen.line((area.x, y), (area.right, y), 0.2, HAIR)
        for note in filter(None, (page.legend, page.over, *page.notes)):
            y = self._wrapped(note, _NOTE, area, y)


def _count_and_beads(width: float) -> float:
    """What they take of the width of a column."""
    return width * _BEADS + _COUNTED


def _padded(area: Area) -> Area:
    return Area(area.x + _PAD, area.y + _PAD, area.w - 2 * _PAD, 0)

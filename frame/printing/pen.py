"""Text and shapes on the pages of a PDF; the only module that knows the library that writes it.

The library is loaded when the first pen is made, so that nothing else waits for it.
"""

import logging
import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from itertools import groupby
from pathlib import Path
from typing import TYPE_CHECKING, NamedTuple

from frame.language.signs import is_unseen
from frame.printing.leaf import Area
from frame.resources import ASSETS

if TYPE_CHECKING:
    from fpdf.fonts import TTFFont

    from frame.printing.other_fonts import OtherFonts

Point = tuple[float, float]
BLACK, INK, SOFT, EDGE, HAIR, REST, WHITE = 0.0, 0.12, 0.34, 0.5, 0.7, 0.93, 1.0
"""Greys, from black to white."""
MM = 25.4 / 72
"""Millimetres of a point of type."""
CAPITAL = 0.725
"""The height of a capital or a figure, in sizes of its type."""
_FONT = "Andika"
_MADE = datetime(2000, 1, 1, tzinfo=UTC)
"""One date for all, so that the same sheet is the same file."""
_UNUSED = "GDEF", "GPOS", "GSUB"
"""Tables by which letters would be joined and moved. The library leaves them out of the file, but
reads all of them first where they are there."""
_UNKNOWN = "?"
_OF_THOSE = r"[\u0590-\u08ff\ufb1d-\ufdff\ufe70-\ufefc]"
_FROM_THE_RIGHT = re.compile(rf"{_OF_THOSE}(?:\W*{_OF_THOSE})*")
"""Letters of the scripts that are written so, with what stands between them."""
_MEASURED = 100.0
"""The size of type at which letters are measured."""
_CELL, _APART = 0.68, 0.085
"""From letter to letter of a code, and the most white between two, in sizes of its type."""


class Type(NamedTuple):
    """The size in points of what is written, its weight and its grey."""

    size: float
    bold: bool = False
    grey: float = INK

    @property
    def millimetres(self) -> float:
        """The size in millimetres."""
        return self.size * MM

    @property
    def capital(self) -> float:
        """The height of its capitals and figures in millimetres."""
        return self.millimetres * CAPITAL

    @property
    def leading(self) -> float:
        """From a line of text to the next."""
        return self.millimetres * 1.32


class Pen:
    """Writes and draws on the last page."""

    def __init__(self, title: str, language: str) -> None:
        from fpdf import FPDF

        self._widths: dict[tuple[str, bool], float] = {}
        self._texts: dict[tuple[str, bool], float] = {}
        self._others: OtherFonts | None = None
        self._lacking: dict[str, None] = {}
        self._pdf = FPDF(unit="mm")
        self._pdf.set_auto_page_break(False)
        self._pdf.set_margin(0)
        self._pdf.set_creation_date(_MADE)
        self._pdf.set_title(title)
        self._pdf.set_lang(language)
        for style, weight in (("", "Regular"), ("B", "Bold")):
            self._pdf.add_font(_FONT, style, ASSETS / "fonts" / f"Andika-{weight}.ttf")
        for font in self._fonts:
            for table in _UNUSED:
                del font.ttfont[table]
        self._own = frozenset(next(self._fonts).cmap)

    @property
    def lacking(self) -> str:
        """The letters that no font here has; a question mark is written for each."""
        return "".join(self._lacking)

    def turn_page(self, size: tuple[float, float]) -> None:
        """Begin a page of a width and a height."""
        self._pdf.add_page(format=size)

    def file(self) -> bytes:
        """All pages as they are to be written."""
        logging.getLogger("fontTools.subset").setLevel(logging.ERROR)  # Of odd tables.
        return bytes(self._pdf.output())

    def close(self) -> None:
        """Let go of the files of the fonts."""
        for font in self._fonts:
            font.close()

    @property
    def _fonts(self) -> "Iterator[TTFFont]":
        from fpdf.fonts import TTFFont

        return (one for one in self._pdf.fonts.values() if isinstance(one, TTFFont))

    def width(self, text: str, kind: Type) -> float:
        """How wide a text is."""
        if (text, kind.bold) not in self._texts:
            letters = (self._letter(one, kind.bold) for one in _seen(text))
            self._texts[text, kind.bold] = sum(letters)
        return self._texts[text, kind.bold] * kind.millimetres

    def write(self, text: str, at: Point, kind: Type, share: float = 0.0) -> None:
        """Write a text on the line through a point, with that share of its width left of it."""
        x = at[0] - share * self.width(text, kind)
        for font, letters in groupby(_as_read(_seen(text)), self._font_of):
            run = "".join(letters)
            self._set(kind, font or _FONT)
            self._pdf.text(x, at[1], run if font else _UNKNOWN * len(run))
            x += self.width(run, kind)

    def write_code(self, code: str, at: Point, kind: Type) -> float:
        """Write a code with all its letters equally wide, as a typewriter does: narrow ones are
        drawn wider and wide ones narrower, so that it is found as one word. Tells where it ends."""
        widths = [
            self._letter(letter, kind.bold) for letter in code
        ]  # All before any is stretched.
        for index, (letter, natural) in enumerate(zip(code, widths, strict=True)):
            drawn = min(max(natural, _CELL - _APART), _CELL)
            left = at[0] + (index * _CELL + (_CELL - drawn) / 2) * kind.millimetres
            self._pdf.set_stretching(100 * drawn / natural)
            self.write(letter, (left, at[1]), kind)
        self._pdf.set_stretching(100)
        return at[0] + len(code) * _CELL * kind.millimetres

    def wrapped(self, text: str, kind: Type, width: float) -> Iterator[str]:
        """A text in lines of at most that width; a word that is wider has a line of its own."""
        return self.filled(text.split(" "), kind, width)

    def filled(self, parts: Iterable[str], kind: Type, width: float) -> Iterator[str]:
        """Parts with spaces between them in lines of at most that width, each part whole; one that
        is wider has a line of its own."""
        line = ""
        for part in parts:
            longer = f"{line} {part}" if line else part
            if line and self.width(longer, kind) > width:
                yield line
                line = part
            else:
                line = longer
        yield line

    def fitting(self, text: str, kind: Type, width: float) -> Type:
        """The type, as much smaller as it takes for a text of that width."""
        needed = self.width(text, kind)
        return kind if needed <= width else kind._replace(size=kind.size * width / needed)

    def line(self, start: Point, end: Point, thick: float, grey: float) -> None:
        """Draw a line."""
        self._pdf.set_line_width(thick)
        self._pdf.set_draw_color(_level(grey))
        self._pdf.line(*start, *end)

    def dashed(self, start: Point, end: Point, grey: float) -> None:
        """Draw a line to cut along."""
        self._pdf.set_dash_pattern(dash=2, gap=1.6)
        self.line(start, end, 0.2, grey)
        self._pdf.set_dash_pattern()

    def fill(self, area: Area, grey: float) -> None:
        """Fill an area."""
        self._pdf.set_fill_color(_level(grey))
        self._pdf.rect(*area, style="F")

    def outline(self, area: Area, thick: float, grey: float) -> None:
        """Draw the edge of an area, with corners that are a little round."""
        self._pdf.set_line_width(thick)
        self._pdf.set_draw_color(_level(grey))
        self._pdf.rect(*area, style="D", round_corners=True, corner_radius=thick)

    def shapes(
        self, shapes: Iterable[Sequence[Point]], fill: float, edge: float, thick: float
    ) -> None:
        """Fill shapes of straight sides and draw their edges."""
        self._pdf.set_line_width(thick)
        self._pdf.set_draw_color(_level(edge))
        self._pdf.set_fill_color(_level(fill))
        for shape in shapes:
            self._pdf.polygon(list(shape), style="DF")

    @contextmanager
    def shifted(self, by: Point) -> Iterator[None]:
        """What is drawn meanwhile lies so much farther right and down. What is drawn again and
        again takes little room in the file so."""
        from fpdf.drawing_primitives import Transform

        with self._pdf.transform(Transform.translation(*by)):
            yield

    def disc(self, middle: Point, radius: float, grey: float) -> None:
        """Fill a disc."""
        self._pdf.set_fill_color(_level(grey))
        self._pdf.circle(*middle, radius, style="F")

    def _letter(self, letter: str, bold: bool) -> float:
        """The width of a letter in sizes of its type. Letters don't move closer to one another."""
        if (letter, bold) not in self._widths:
            font = self._font_of(letter)
            self._set(Type(_MEASURED, bold), font or _FONT)
            width = self._pdf.get_string_width(letter if font else _UNKNOWN)
            self._widths[letter, bold] = width / Type(_MEASURED).millimetres
        return self._widths[letter, bold]

    def _font_of(self, letter: str) -> str:
        """The name of the font that has a letter, another one where the printed family lacks it;
        empty where there is none."""
        if ord(letter) in self._own:
            return _FONT
        if self._others is None:
            # Hardly any sheet needs it.
            from frame.printing.other_fonts import OtherFonts

            self._others = OtherFonts()
        path = self._others.find(letter)
        if path is None:
            self._lacking[letter] = None
            return ""
        name = Path(path).stem
        if name.lower() not in self._pdf.fonts:
            self._pdf.add_font(name, "", path)
            self._pdf.add_font(name, "B", path)
        return name

    def _set(self, kind: Type, font: str = _FONT) -> None:
        self._pdf.set_font(font, "B" if kind.bold else "", kind.size)
        self._pdf.set_text_color(_level(kind.grey))


def _seen(text: str) -> str:
    """A text without what is not seen, and has no width."""
    return "".join(one for one in text if not is_unseen(one))


def _as_read(text: str) -> str:
    """A text as it stands from the left: what is written from the right is turned round."""
    return _FROM_THE_RIGHT.sub(lambda found: found[0][::-1], text)


def _level(grey: float) -> int:
    return round(255 * grey)

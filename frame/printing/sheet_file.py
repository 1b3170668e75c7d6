"""A sheet as a PDF: its tasks, and its key on pages of its own."""

from collections.abc import Iterator
from contextlib import closing
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from frame.language.catalogue import Words
from frame.learner.new_file import new_file
from frame.learner.trouble import told_of
from frame.printing.blocks import EASES
from frame.printing.cards import card_pages
from frame.printing.contents import Contents
from frame.printing.furniture import Furniture
from frame.printing.leaf import Area, printed_area, size_of
from frame.printing.paging import Page, pages_of
from frame.printing.pen import Pen
from frame.printing.titles import Group, title_of
from frame.sheets.recipe import Kind
from frame.sheets.sheet import Sheet
from frame.technique.conventions import Conventions


class Written(NamedTuple):
    """How many pages there are, and the letters that no font here has."""

    pages: int
    lacking: str


def write_sheet(
    path: Path, sheet: Sheet, code: str, words: Words, conventions: Conventions,
    group: Group | None = None,
) -> Written:  # fmt: skip
    """Write the sheet and its key to a new file. A group is at the head of each page, the code at
    its foot. Raises StoreError; a file that is there already is left as it is, and nothing is left
    of one that can't be written whole."""
    title, language = title_of(sheet.recipe, words), words.text("report.page.lang")
    with new_file(path) as fresh, told_of(path), closing(Pen(title, language)) as pen:
        furniture = Furniture(pen, sheet, code, words, group)
        press = _Press(pen, Contents(pen, sheet, words, conventions), furniture)
        pages = press.print_all()
        fresh.write_bytes(pen.file())
        return Written(pages, pen.lacking)


@dataclass(frozen=True)
class _Press:
    """Puts the contents on pages."""

    pen: Pen
    contents: Contents
    furniture: Furniture

    def print_all(self) -> int:
        """Draw all pages; how many they are."""
        sheet, key = list(self._sheet_pages()), list(self._key_pages())
        count = len(sheet) + len(key)
        for number, page in enumerate((*sheet, *key), 1):
            self._print(page, number > len(sheet), number, count)
        return count

    def _print(self, page: Page, is_key: bool, number: int, count: int) -> None:
        leaf = self.contents.sheet.recipe.leaf
        self.pen.turn_page(size_of(leaf, page.is_wide))
        whole = printed_area(leaf, page.is_wide)
        if not page.is_back:
            self.furniture.draw_head(whole, is_key)
        page.draw(self.pen, self._between(page.is_wide, is_key))
        self.furniture.draw_foot(whole, number, count)

    def _between(self, is_wide: bool, is_key: bool) -> Area:
        """What is left of a page between head and foot."""
        x, y, w, h = printed_area(self.contents.sheet.recipe.leaf, is_wide)
        head = self.furniture.head_height(is_key)
        return Area(x, y + head, w, h - head - self.furniture.foot_height(w))

    def _sheet_pages(self) -> Iterator[Page]:
        kind = self.contents.sheet.recipe.kind
        if kind is Kind.PARTNERS:
            yield from card_pages(self.contents.tasks, self.contents.words)
        else:
            area = self._between(kind is Kind.FRAME, False)
            ways = (self.contents.sheet_blocks(area.w, ease) for ease in EASES)
            yield from min((pages_of(way, area.h, kind is Kind.FRAME) for way in ways), key=len)

    def _key_pages(self) -> Iterator[Page]:
        area = self._between(False, True)
        ways = (self.contents.answer_blocks(area.w, ease) for ease in EASES)
        yield from min((pages_of(way, area.h, most_lead=1) for way in ways), key=len)

"""Printed sheets as they are held: all is there, on the leaf, and nothing lies over another."""

import os
import re
import shutil
import subprocess
import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace
from decimal import Decimal
from pathlib import Path
from typing import NamedTuple
from xml.etree import ElementTree

import pygame
import pytest
import segno
from printed_sheets import every, largest, of, partners, sums, usual
from proofs import some_daily
from shipped import the_words

from frame.language.numbers import grouped
from frame.language.wording import stroke_text
from frame.learner.store import StoreError
from frame.learner.trouble import Trouble
from frame.practice.exercises import Exercise
from frame.practice.exercises import Kind as Asked
from frame.printing.figures import figures
from frame.printing.leaf import BOTTOM, MARGIN, TOP
from frame.printing.of_grades import doubts_of
from frame.printing.sheet_file import write_sheet
from frame.sheets.making import sheet_of
from frame.sheets.recipe import Kind, Leaf, Recipe
from frame.sheets.sheet import Section, Sheet, Way
from frame.technique.conventions import USUAL
from frame.technique.expression import Root, Sum
from frame.technique.planning import plan_of
from frame.technique.reading import NumberError, plain

WORDS = the_words()
CODE = "K7QM-2WX9-04BW"
EVERY = dict(every())
DAILY = [
    *(f"usual {kind} A4" for kind in ("columns", "read", "partners", "paper", "ladder", "strip")),
    "usual quotients rounded A4", "largest columns Letter",
]  # fmt: skip
AGAIN = ("read", "paper")
MOST_BYTES = 300_000
DOTS = 50
"""Of an inch, where margins are looked at."""
FINE = 300
LEAST_TYPE = 5.5
"""In points: smaller figures are not read without effort. Common practice, no source."""
INCH, POINT = 25.4, 25.4 / 72
TYPE_IN_BOX = 1 / (1.220703125 + 0.390625)
"""The size of type in heights of the box that a word of Andika is told to have."""
ABOVE, BELOW = 0.73, 0.12
"""What of it is ink above and below the line, for figures."""

needs_poppler = pytest.mark.skipif(
    not (shutil.which("pdftoppm") and shutil.which("pdftotext")),
    reason="needs pdftoppm and pdftotext, from Debian's poppler-utils",
)


THIN, GROUPS = 0.3, re.compile(r"\d \d{3}(?!\d)")


class Word(NamedTuple):
    """A word on a page, and the box of its ink in millimetres."""

    text: str
    left: float
    top: float
    right: float
    bottom: float


def written(folder: Path, sheet: Sheet, code: str = CODE) -> Path:
    path = folder / "sheet.pdf"
    write_sheet(path, sheet, code, WORDS, USUAL)
    return path


def told(*command: str | Path) -> bytes:
    return subprocess.run(command, check=True, capture_output=True, timeout=120).stdout


def pages_of(path: Path) -> list[list[Word]]:
    """The words of each page, in the order in which they were written."""
    tree = ElementTree.fromstring(told("pdftotext", "-raw", "-bbox", path, "-"))
    name = "{http://www.w3.org/1999/xhtml}"
    return [list(joined(map(word_of, page))) for page in tree.iter(f"{name}page")]


def joined(words: Iterable[Word]) -> Iterator[Word]:
    """The words, of numbers the groups of three together: the program parts them at thin spaces."""
    last: Word | None = None
    for word in words:
        if last is not None and is_of_one_number(last, word):
            text = f"{last.text}\u202f{word.text}"
            last = last._replace(text=text, right=word.right)
            continue
        if last is not None:
            yield last
        last = word
    if last is not None:
        yield last


def is_of_one_number(one: Word, other: Word) -> bool:
    is_near = 0 < other.left - one.right < THIN * (one.bottom - one.top)
    is_level = abs(one.bottom - other.bottom) < 0.05
    return is_near and is_level and bool(GROUPS.search(f"{one.text} {other.text}"))


def word_of(element: ElementTree.Element) -> Word:
    left, top, right, bottom = (
        float(element.attrib[side]) * POINT for side in ("xMin", "yMin", "xMax", "yMax")
    )
    size = (bottom - top) * TYPE_IN_BOX
    line = top + 1.220703125 * size
    return Word(element.text or "", left, line - ABOVE * size, right, line + BELOW * size)


def pictures_of(path: Path, folder: Path, dots: int) -> list[pygame.Surface]:
    told("pdftoppm", "-r", str(dots), "-png", path, folder / "page")
    return [pygame.image.load(one) for one in sorted(folder.glob("page*.png"))]


def size_of(word: Word) -> float:
    """The size of its type in points."""
    return (word.bottom - word.top) / (ABOVE + BELOW) / POINT


def is_key(page: list[Word]) -> bool:
    return page[0].text == "Key"


def numbers_asked(sheet: Sheet) -> Counter[str]:
    """Each number that stands on the sheet itself."""
    return Counter(text for task in sheet.tasks for text in asked(task, sheet.recipe.kind))


def asked(task: Exercise, kind: Kind) -> Iterator[str]:
    if task.kind is Asked.READ:
        return
    if kind is Kind.PARTNERS:
        yield from (figures(abs(one)).text for one in (*task.sum.numbers, task.sum.result))
    elif isinstance(task.sum, Sum):
        yield from (figures(one).text for one in task.sum.numbers)
    else:
        first, *others = task.sum.numbers
        yield figures(first, "√" if isinstance(task.sum, Root) else "").text
        yield from (figures(one, is_second=True).text for one in others)


def answers(sheet: Sheet) -> Counter[str]:
    found: Counter[str] = Counter()
    for task in sheet.tasks:
        found[figures(task.sum.result).text] += 1
        if task.sum.remainder:
            found[figures(task.sum.remainder).text] += 1
    return found


def overlapping(page: list[Word]) -> list[tuple[str, str]]:
    """The words of which one lies over another."""
    found, open_words = [], list[Word]()
    for word in sorted(page, key=lambda one: one.top):
        open_words = [one for one in open_words if one.bottom > word.top]
        found += [
            (one.text, word.text)
            for one in open_words
            if one.left < word.right and word.left < one.right
        ]
        open_words.append(word)
    return found


def texts_of(pages: list[list[Word]]) -> Counter[str]:
    return Counter(word.text for page in pages for word in page)


@needs_poppler
@pytest.mark.parametrize("name", some_daily(EVERY, DAILY))
def test_all_is_there_and_nothing_lies_over_another(name: str, tmp_path: Path) -> None:
    sheet = EVERY[name]
    path = written(tmp_path, sheet)
    pages = pages_of(path)
    keys = [page for page in pages if is_key(page)]
    first_key = len(pages) - len(keys)
    assert [found for page in pages if (found := overlapping(page))] == []
    assert [word for page in pages for word in page if size_of(word) < LEAST_TYPE] == []
    assert numbers_asked(sheet) - texts_of(pages[:first_key]) == Counter()
    assert answers(sheet) - texts_of(keys) == Counter()
    assert pages[first_key:] == keys, "the key comes last"
    assert path.stat().st_size < MOST_BYTES
    for picture in pictures_of(path, tmp_path, DOTS):
        check_margins(picture)
        assert is_grey(picture)


@needs_poppler
def test_a_long_sum_is_broken_and_not_made_small(tmp_path: Path) -> None:
    sheet = largest()["strip of many"]
    first, *_ = pages_of(written(tmp_path, sheet))
    for term in sheet.tasks[0].sum.numbers:
        sizes = [size_of(word) for word in first if word.text == grouped(plain(term))]
        assert max(sizes, default=0) > 13.9


def check_margins(picture: pygame.Surface) -> None:
    """There is ink on a page, and none beyond the margins."""
    width, height = picture.get_size()
    left, top, bottom = (round(one / INCH * DOTS) - 2 for one in (MARGIN, TOP, BOTTOM))
    ink = pygame.mask.from_threshold(picture, (0, 0, 0), (250, 250, 250, 255))
    boxes = ink.get_bounding_rects()
    assert boxes, "an empty page"
    assert pygame.Rect(left, top, width - 2 * left, height - top - bottom).contains(
        boxes[0].unionall(boxes[1:])
    )


def is_grey(picture: pygame.Surface) -> bool:
    red, green, blue = (pygame.image.tobytes(picture, "RGB")[at::3] for at in range(3))
    return red == green == blue


@needs_poppler
def test_every_page_has_code_and_number_and_notes(tmp_path: Path) -> None:
    pages = pages_of(written(tmp_path, largest()["paper"]))
    for number, page in enumerate(pages, 1):
        text = " ".join(word.text for word in page)
        assert f" {CODE} " in f" {text} "
        assert f"{number} of {len(pages)}" in text
        assert WORDS.text("sheet.no_examination") in text
        assert doubts_of("kyu-6", WORDS) in text


@needs_poppler
def test_the_square_holds_the_code(tmp_path: Path) -> None:
    """Its cells as they are printed are those of the code."""
    sheet = usual()["columns"]
    page = pictures_of(written(tmp_path, sheet), tmp_path, FINE)[0]
    matrix = segno.make(CODE, error="m", micro=False).matrix
    side = 13.5 / len(matrix)
    left, top = 210 - MARGIN - 13.5, 297 - BOTTOM - 13.5
    dots = FINE / INCH
    for row, cells in enumerate(matrix):
        for column, is_dark in enumerate(cells):
            at = (left + (column + 0.5) * side) * dots, (top + (row + 0.5) * side) * dots
            assert (page.get_at((round(at[0]), round(at[1])))[0] < 128) == bool(is_dark)


@needs_poppler
def test_figures_are_set_below_one_another_by_their_places(tmp_path: Path) -> None:
    terms = tuple(map(Decimal, ("1234567.5", "-38", "47.25", "-1000")))
    sheet = of(Kind.COLUMNS, sums(0, 0, 1)._replace(tasks=(Exercise(Asked.SUM, Sum(terms)),)))
    words = {word.text: word for word in pages_of(written(tmp_path, sheet))[0]}
    whole, tail = words["−38"].right, words["1\u202f234\u202f567.5"]
    size = size_of(tail) * POINT
    point, figure = 0.3125 * size, 0.586 * size
    assert words["−1\u202f000"].right == pytest.approx(whole, abs=0.05)
    assert tail.right == pytest.approx(whole + point + figure, abs=0.05)
    assert words["47.25"].right == pytest.approx(whole + point + 2 * figure, abs=0.05)


@needs_poppler
@pytest.mark.parametrize("name", ("columns", "products", "quotients", "roots", "ladder"))
def test_figures_are_large_enough(name: str, tmp_path: Path) -> None:
    sheet = usual()[name]
    numbers = numbers_asked(sheet)
    for page in pages_of(written(tmp_path, sheet)):
        assert min(map(size_of, page)) > 6.9
        read = [size_of(word) for word in page if word.text in numbers]
        assert is_key(page) or max(read) > 13.9


@needs_poppler
def test_the_numbers_are_written_in_the_order_in_which_they_are_read(tmp_path: Path) -> None:
    sheet = usual()["columns"]
    text = [word.text for word in pages_of(written(tmp_path, sheet))[0]]
    at = 0
    for number, task in enumerate(sheet.tasks, 1):
        column = [str(number), *(figures(one).text for one in task.sum.numbers)]
        at = next(i for i in range(at, len(text)) if text[i : i + len(column)] == column)


@needs_poppler
def test_answers_lie_behind_their_questions(tmp_path: Path) -> None:
    """A leaf that is turned over its long edge has left for right."""
    sheet = of(Kind.PARTNERS, partners(13))
    front, back = pages_of(written(tmp_path, sheet))[:2]
    asked, told_of = (
        [word for word in page if size_of(word) == pytest.approx(8.5, abs=0.1)]
        for page in (front, back)
    )
    both = list(zip(asked, told_of, strict=True))
    across = {round(one.left + one.right + two.left + two.right) for one, two in both}
    assert [one.text for one in asked] == [one.text for one in told_of]
    assert len(across) == 1
    assert all(one.top == pytest.approx(two.top) for one, two in both)
    shown = [word.text for word in back if size_of(word) > 30]
    assert shown == [figures(task.sum.result).text for task in sheet.tasks]


ANEW = """
import sys
from pathlib import Path
sys.path[:0] = {paths!r}
from printed_sheets import usual
from shipped import the_words
from frame.printing.of_grades import doubts_of
from frame.printing.sheet_file import write_sheet
from frame.technique.conventions import USUAL
for name in {names!r}:
    write_sheet(Path({folder!r}) / f"{{name}}.pdf", usual()[name], "CODE", the_words(), USUAL)
"""


def test_the_same_sheet_is_the_same_file(tmp_path: Path) -> None:
    """Written by two processes, whatever the order of their sets."""
    found = []
    for seed in ("1", "2"):
        folder = tmp_path / seed
        folder.mkdir()
        code = ANEW.format(paths=sys.path, folder=str(folder), names=AGAIN)
        surroundings = {**os.environ, "PYTHONHASHSEED": seed}
        subprocess.run([sys.executable, "-c", code], check=True, env=surroundings, timeout=120)
        found.append({path.name: path.read_bytes() for path in folder.iterdir()})
    assert len(found[0]) == len(AGAIN)
    assert found[0] == found[1]


def test_a_file_that_is_there_is_left_as_it_is(tmp_path: Path) -> None:
    path = tmp_path / "sheet.pdf"
    path.write_text("mine")
    with pytest.raises(StoreError) as caught:
        written(tmp_path, usual()["read"])
    assert caught.value.trouble is Trouble.TAKEN
    assert path.read_text() == "mine"
    assert [one.name for one in tmp_path.iterdir()] == ["sheet.pdf"]


def test_nothing_is_left_of_a_sheet_that_could_not_be_made(tmp_path: Path) -> None:
    unheard = Exercise(Asked.SUM, Sum((Decimal(10) ** 40, Decimal(1))))
    sheet = of(Kind.STRIP, Section(Way.FOLLOWED, (unheard,)))
    with pytest.raises(NumberError):
        written(tmp_path, sheet)
    assert list(tmp_path.iterdir()) == []


def test_the_pages_are_counted(tmp_path: Path) -> None:
    sheet = of(Kind.PARTNERS, partners(13))
    written = write_sheet(tmp_path / "sheet.pdf", sheet, CODE, WORDS, USUAL)
    assert written == (3, "")


@pytest.mark.parametrize("name", ["kyu-10", "kyu-9"])
def test_the_first_papers_stand_on_one_page_or_a_section_on_each(name: str, tmp_path: Path) -> None:
    def pages(leaf: Leaf) -> list[list[Word]]:
        (folder := tmp_path / leaf).mkdir()
        sheet = sheet_of(Recipe(kind=Kind.PAPER, grade=name, leaf=leaf))
        return [page for page in pages_of(written(folder, sheet)) if not is_key(page)]

    assert len(pages(Leaf.A4)) == 1
    first, second = pages(Leaf.LETTER)
    assert not any(word.text == "×" for word in first)
    assert sum(word.text == "×" for word in second) == 20


def test_importing_the_window_and_the_sheets_loads_no_library_of_theirs() -> None:
    code = (
        "import sys, frame.screens.start, frame.printing.sheet_file; "
        "print(*({'fpdf', 'segno', 'fontTools', 'PIL'} & set(sys.modules)))"
    )
    done = subprocess.run(
        [sys.executable, "-c", code], capture_output=True, text=True, check=True, timeout=120
    )
    assert done.stdout.splitlines()[-1] == ""


@needs_poppler
def test_the_key_tells_the_first_task_bead_by_bead_where_it_is_asked_for(tmp_path: Path) -> None:
    sheet = usual()["columns"]
    for is_worked in (True, False):
        folder = tmp_path / str(is_worked)
        folder.mkdir()
        recipe = replace(sheet.recipe, is_worked=is_worked)
        pages = pages_of(written(folder, sheet._replace(recipe=recipe)))
        text = " ".join(word.text for page in pages if is_key(page) for word in page)
        plan = plan_of(sheet.tasks[0].sum, USUAL)
        told_moves = [stroke_text(stroke, WORDS) for stroke in plan.strokes]
        assert all((move in text) is is_worked for move in told_moves)
        assert WORDS.text("sheet.worked") in text or not is_worked


@needs_poppler
def test_a_strip_tells_every_stroke_and_what_the_frame_reads(tmp_path: Path) -> None:
    sheet = usual()["strip"]
    text = " ".join(word.text for word in pages_of(written(tmp_path, sheet))[0])
    plan = plan_of(sheet.tasks[0].sum, USUAL)
    at = 0
    for step, frame in plan.frames():
        at = text.index(figures(plan.reading(step, frame)).text, at)
        for stroke in step.strokes:
            at = text.index(stroke_text(stroke, WORDS), at)

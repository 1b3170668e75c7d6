"""Letters that the printed family lacks: from other fonts, or a question mark each, and told."""

import shutil
import subprocess
from contextlib import closing
from pathlib import Path

import pytest
from fontTools.fontBuilder import FontBuilder
from fontTools.pens.ttGlyphPen import TTGlyphPen

from frame.printing.pen import Pen, Type
from frame.view.system_fonts import SystemFonts

KIND = Type(12)
NEEDS_POPPLER = pytest.mark.skipif(shutil.which("pdftotext") is None, reason="needs poppler")


def font(path: Path, letters: str, is_forbidden: bool = False) -> str:
    """A font with a box for each of some letters."""
    pen = TTGlyphPen(None)
    pen.moveTo((100, 0))
    for corner in ((100, 700), (600, 700), (600, 0)):
        pen.lineTo(corner)
    pen.closePath()
    names = [".notdef", *(f"letter{ord(one):x}" for one in letters)]
    builder = FontBuilder(1000, isTTF=True)
    builder.setupGlyphOrder(names)
    builder.setupCharacterMap(dict(zip(map(ord, letters), names[1:], strict=True)))
    builder.setupGlyf(dict.fromkeys(names, pen.glyph()))
    builder.setupHorizontalMetrics(dict.fromkeys(names, (700, 100)))
    builder.setupHorizontalHeader(ascent=800, descent=-200)
    builder.setupNameTable({"familyName": path.stem, "styleName": "Regular"})
    builder.setupOS2(fsType=2 if is_forbidden else 0)
    builder.setupPost()
    builder.save(path)
    return str(path)


@pytest.fixture
def fonts(monkeypatch, tmp_path):
    """Those that the system has, set by a test."""
    some: list[str] = []
    monkeypatch.setattr(SystemFonts, "_paths", property(lambda _: some))
    return some


def written(*lines: str) -> tuple[bytes, str]:
    """The file with some lines, and what is lacking."""
    with closing(Pen("A sheet", "en")) as pen:
        pen.turn_page((100, 100))
        for at, line in enumerate(lines, 1):
            pen.write(line, (10, 10 * at), KIND)
        return pen.file(), pen.lacking


def read(file: bytes, folder: Path) -> list[str]:
    (path := folder / "read.pdf").write_bytes(file)
    told = subprocess.run(["pdftotext", "-raw", path, "-"], capture_output=True, text=True)
    return told.stdout.split("\n")


@NEEDS_POPPLER
def test_a_name_in_another_script_is_written_by_another_font(fonts, tmp_path):
    fonts += [font(tmp_path / "some.ttf", "木村"), font(tmp_path / "all.ttf", "木村海")]
    file, lacking = written("Otter", "木村海", "A 木")
    assert lacking == "" and len(file) < 300_000
    assert read(file, tmp_path)[:3] == ["Otter", "木村海", "A 木"]


@NEEDS_POPPLER
def test_where_no_font_has_a_letter_the_others_are_written_and_it_is_told(fonts, tmp_path):
    fonts.append(font(tmp_path / "some.ttf", "木"))
    file, lacking = written("A 木村 B村")
    assert lacking == "村"
    assert read(file, tmp_path)[0] == "A 木? B?"


def test_fonts_that_may_not_or_cannot_be_put_in_are_passed_over(fonts, tmp_path):
    (broken := tmp_path / "broken.ttf").write_bytes(b"no font")
    forbidden = font(tmp_path / "forbidden.ttf", "木", is_forbidden=True)
    fonts += [str(broken), forbidden]
    assert written("木")[1] == "木"
    fonts.append(font(tmp_path / "free.ttf", "木"))
    assert written("木")[1] == ""


def test_what_is_written_is_as_wide_as_is_measured(fonts, tmp_path):
    fonts.append(font(tmp_path / "some.ttf", "木"))
    with closing(Pen("A sheet", "en")) as pen:
        assert pen.width("木木", KIND) == pytest.approx(2 * 0.7 * KIND.millimetres)
        assert pen.width("村", KIND) == pen.width("?", KIND)
        assert pen.width("A\u200d", KIND) == pen.width("A", KIND)


def test_what_is_written_from_the_right_stands_so(fonts, tmp_path):
    from fpdf import FPDF

    fonts.append(font(tmp_path / "right.ttf", "שלוםרב"))
    said = []
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(FPDF, "text", lambda _self, _x, _y, text: said.append(text))
        written("Crab, שלום רב, Otter")
    assert "".join(said) == "Crab, בר םולש, Otter"


def test_a_sheet_without_such_letters_looks_for_no_font(monkeypatch):
    monkeypatch.setattr(SystemFonts, "_paths", property(lambda _: 1 / 0))
    assert written("Zoë, Łucja, Пётр: 12 − 3 = 9…")[1] == ""

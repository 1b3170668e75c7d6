"""Slips of paper: each says who is to do what, several on a page, and nothing is lost."""

import shutil
import subprocess

import pytest
from shipped import the_words

from frame.learner.trouble import StoreError
from frame.printing.slips import Slip, write_slips
from frame.sheets.recipe import Leaf

PDFTOTEXT = shutil.which("pdftotext")
CODE = "1400-43M8-GNQ"


def words_of(path):
    if PDFTOTEXT is None:
        pytest.skip("pdftotext is not there")
    out = subprocess.run([PDFTOTEXT, path, "-"], capture_output=True, check=True)
    return " ".join(out.stdout.decode().split())


@pytest.mark.parametrize(("count", "pages"), [(1, 1), (8, 1), (9, 2), (30, 4)])
@pytest.mark.parametrize("leaf", Leaf)
def test_eight_are_on_a_page(tmp_path, count, pages, leaf):
    slips = [Slip(f"Otter {at}", "The lesson: Plus three") for at in range(count)]
    assert write_slips(tmp_path / "slips.pdf", slips, the_words(), leaf) == pages


def test_each_has_its_name_what_to_do_and_its_code(tmp_path):
    slips = [
        Slip("Otter", "The lesson: One to four"),
        Slip("W" * 24, "On paper: Columns: 15 numbers of 6 digits", CODE),
        Slip("Дмитрий", "To practise: Taking away, both partners"),
        Slip("Gull", "word " * 60),
    ]
    write_slips(tmp_path / "slips.pdf", slips, the_words())
    text = words_of(tmp_path / "slips.pdf")
    for one in ("Otter", "W" * 24, "Дмитрий", "One to four", "both partners"):
        assert one in text
    assert text.count("word") == 60
    assert CODE in text.replace(" ", "")


def test_a_file_that_is_there_is_left_as_it_is(tmp_path):
    path = tmp_path / "slips.pdf"
    path.write_text("crabs")
    with pytest.raises(StoreError):
        write_slips(path, [Slip("Otter", "Today")], the_words())
    assert path.read_text() == "crabs"


def test_the_same_slips_are_the_same_file(tmp_path):
    for name in ("one.pdf", "two.pdf"):
        write_slips(tmp_path / name, [Slip("Otter", "Today", CODE)], the_words())
    assert (tmp_path / "one.pdf").read_bytes() == (tmp_path / "two.pdf").read_bytes()

"""The report of a learner on paper: one page, with all that the page says."""

import shutil
import subprocess
from pathlib import Path

import pytest
from reports import EARLY, FULL, ON_PAPER
from shipped import the_words

from frame.learner.store import StoreError
from frame.printing.report_page import write_report
from frame.report.told import page_of
from frame.sheets.recipe import Leaf

WORDS = the_words()
NEEDS_POPPLER = pytest.mark.skipif(shutil.which("pdftotext") is None, reason="needs poppler")


def words_of(path: Path) -> str:
    """All text of a PDF, its blanks alike."""
    text = subprocess.run(["pdftotext", path, "-"], capture_output=True, text=True, check=True)
    return " ".join(text.stdout.split())


@NEEDS_POPPLER
@pytest.mark.parametrize("leaf", Leaf)
@pytest.mark.parametrize("report", [FULL, EARLY, ON_PAPER], ids=["full", "early", "paper"])
def test_all_that_the_page_says_is_on_one_leaf(report, leaf, tmp_path):
    page, path = page_of(report, "Otter", WORDS), tmp_path / "otter.pdf"
    write_report(path, page, WORDS, leaf)
    text = words_of(path)
    said = [page.title, page.day, *page.notes]
    for part in page.parts:
        said += [part.heading, *part.sentences, *(row.name for row in part.rows)]
    for one in said:
        assert " ".join(one.split()) in text, one
    info = subprocess.run(["pdfinfo", path], capture_output=True, text=True, check=True).stdout
    assert "Pages:           1\n" in info


def test_it_is_the_same_file_each_time_and_takes_no_place(tmp_path):
    page, files = page_of(FULL, "Otter", WORDS), [tmp_path / f"{one}.pdf" for one in "ab"]
    for file in files:
        write_report(file, page, WORDS)
    assert files[0].read_bytes() == files[1].read_bytes()
    with pytest.raises(StoreError):
        write_report(files[0], page, WORDS)

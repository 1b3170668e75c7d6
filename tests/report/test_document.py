"""The page as one file: whole, its own, and safe whatever a child is called."""

import os
import re
import stat
from dataclasses import replace
from datetime import date
from html.parser import HTMLParser

import pytest
from contrast import contrast
from each import each_row
from shipped import the_words
from test_told import LESSONS, fault, report

from frame.learner.learners import Learner
from frame.learner.looks import ANIMALS
from frame.learner.store import StoreError
from frame.learner.trouble import Trouble
from frame.practice.bead_habits import Where
from frame.practice.families import Family
from frame.practice.tally import Tally
from frame.report.document import html_of, write_page
from frame.report.figures import Found
from frame.technique.habits import Habit

WORDS = the_words()
FULL = replace(
    report(
        *((family, 20, 20, 0) for family in list(Family)[:10]), (Family.COLUMNS, 4, 15, 0),
        found=Found(LESSONS),
    ),
    unseen=Tally(11, 20), fault=fault(Habit.CARRY_FORGOTTEN, Where(is_long=True)),
)  # fmt: skip
NAMES = (
    "Otter", "<b>Otter</b>", '"><script>alert(1)</script>', "Tom & Jerry's \"pier\"", "&lt;",
    "Дмитрий", "שרה לוי", "محمد", "प्रिया", "国" * 24, "O’Brien 🦦",
    "👩‍👩‍👧", "W" * 24, "--></style>", "{name}",
)  # fmt: skip
VOID = ("meta", "rect", "path", "polygon", "circle", "ellipse", "line")


class Tree(HTMLParser):
    """Reads a page and complains of what is not closed; keeps tags with their attributes, and the
    text within each."""

    def __init__(self, text):
        super().__init__()
        self.open, self.tags, self.texts = [], [], {}
        self.feed(text)
        self.close()
        assert self.open == []

    def handle_starttag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))
        if tag not in VOID:
            self.open.append(tag)

    def handle_startendtag(self, tag, attrs):
        self.tags.append((tag, dict(attrs)))

    def handle_endtag(self, tag):
        assert self.open.pop() == tag

    def handle_data(self, data):
        for tag in set(self.open):
            self.texts[tag] = self.texts.get(tag, "") + data

    def named(self, tag):
        return [attributes for one, attributes in self.tags if one == tag]


def page(name="Otter", picture="otter", of=FULL):
    return Tree(html_of(of, Learner("1", name, picture), WORDS))


@each_row("name", NAMES)
def test_any_name_stands_in_the_page_as_it_is_and_is_nothing_else(name):
    tree = page(name)
    heading = tree.texts["h1"].replace("\u2068", "").replace("\u2069", "")
    assert heading == f"How {name} is getting on" and tree.texts["title"] == tree.texts["h1"]
    assert [tag for tag, _ in tree.tags] == [tag for tag, _ in page().tags]


def test_what_is_no_text_in_a_name_is_left_out(tmp_path):
    learner = Learner("1", "Ot\x00te\x1br\ud800", "otter")
    write_page(tmp_path / "page.html", FULL, learner, WORDS)
    assert "\u2068Otter\u2069" in (tmp_path / "page.html").read_text(encoding="utf-8")


def test_the_page_needs_nothing_and_does_nothing():
    text = html_of(FULL, Learner("1", "Otter", "otter"), WORDS)
    tree = Tree(text)
    of_pictures = {"xmlns"}
    for tag, attributes in tree.tags:
        assert tag not in ("script", "link", "img", "iframe", "object", "base", "form", "a")
        assert not [one for one in attributes if one.startswith("on") or one in ("src", "href")]
        assert not [one for one in attributes if one not in of_pictures
                    and "://" in (attributes[one] or "")]  # fmt: skip
    assert "url(" not in text and "@import" not in text
    policy = next(one for one in tree.named("meta") if "http-equiv" in one)
    assert policy["content"].startswith("default-src 'none'")


def test_it_can_be_read_by_ear_and_on_a_telephone():
    tree = page()
    assert tree.named("html") == [{"lang": "en"}]
    assert tree.texts["title"] and len(tree.named("h1")) == 1
    assert len(tree.named("h2")) == len(tree.named("section")) == 6
    assert all(one["aria-hidden"] == "true" for one in tree.named("svg")), "the text says it all"
    assert any("width=device-width" in one.get("content", "") for one in tree.named("meta"))
    for count in ("20\u00a0of\u00a020", "4\u00a0of\u00a015", "11\u00a0of\u00a020"):
        assert count in tree.texts["main"]


def test_what_a_bead_is_is_told_wherever_there_are_beads():
    legend = WORDS.text("report.page.legend")
    learning = report((Family.ADD_FIVE, 3, 15, 0))
    for of, times in ((FULL, 1), (learning, 1), (report(), 0)):
        assert page(of=of).texts["main"].count(legend) == times


def test_each_count_is_drawn_bead_by_bead():
    text = html_of(FULL, Learner("1", "Otter", "otter"), WORDS)
    rods = re.findall(r'<svg class="beads".*?</svg>', text)
    drawn = [(rod.count('"in"'), rod.count('"in"') + rod.count('"out"')) for rod in rods]
    kinds = [one.tally for one in (*FULL.known, *FULL.learning)]
    assert drawn == [*kinds, FULL.unseen]
    left, width = r'points="([\d.]+)', float(re.search(r'viewBox="0 0 ([\d.]+)', rods[0])[1])
    for rod in rods:
        assert all(0 < float(one) < width for one in re.findall(left, rod))


@each_row("picture", [*ANIMALS, "otter-cross", "walrus-plaid", ""])
def test_every_animal_has_its_picture_and_a_stranger_one_too(picture):
    assert page(picture=picture).named("svg")[0]["class"] == "portrait"


def schemes():
    """The colours of the page: by day, in the dark, on paper."""
    text = html_of(FULL, Learner("1", "Otter", "otter"), WORDS)
    for block in re.findall(r":root \{(.*?)\}", text):
        yield {
            name: tuple(bytes.fromhex(code))
            for name, code in re.findall(r"--([\w-]+): #(\w{6});", block)
        }


def test_its_colours_hold_their_contrast_by_day_in_the_dark_and_on_paper():
    found = list(schemes())
    assert len(found) == 3
    for colours in found:
        for ground in ("ground", "card", "wash"):
            assert contrast(colours["ink"], colours[ground]) >= 7
        assert contrast(colours["soft"], colours["ground"]) >= 7
        for shape in ("bead", "rest-edge", "beam"):
            assert contrast(colours[shape], colours["ground"]) >= 3
    on_paper = found[-1]
    assert all(len(set(colour)) == 1 for colour in on_paper.values()), "grey"


def test_it_is_written_once_for_this_user_alone(tmp_path):
    path = tmp_path / "page.html"
    write_page(path, FULL, Learner("1", "Otter", "otter"), WORDS)
    first = path.read_bytes()
    assert first.startswith(b"<!DOCTYPE html>")
    if os.name == "posix":
        assert stat.S_IMODE(path.stat().st_mode) == 0o600
    with pytest.raises(StoreError) as caught:
        write_page(path, report(), Learner("1", "Seal", "seal"), WORDS)
    assert caught.value.trouble is Trouble.TAKEN and path.read_bytes() == first
    with pytest.raises(StoreError) as caught:
        write_page(tmp_path / "none" / "page.html", FULL, Learner("1", "Seal", "seal"), WORDS)
    assert caught.value.where == tmp_path / "none" / "page.html"
    assert os.listdir(tmp_path) == ["page.html"]


def test_an_early_report_is_a_page_too():
    tree = page(of=report())
    assert len(tree.named("section")) == 5 and "Too early to tell" in tree.texts["main"]
    assert date(2026, 5, 4) == report().day and "4 May 2026" in tree.texts["header"]

"""The page for the adult: behind the lock, read beside the window, all of it seen at once."""

import re
from dataclasses import replace
from datetime import UTC, date, datetime, timedelta
from itertools import product
from pathlib import Path

import pygame
import pytest
from kept import begun, timed
from pilot import WhenTold
from reports import EARLY, FULL, ON_PAPER, of_any_length, of_every_fault, page_of
from sight import assert_well_laid_out, flaws, look_at

from frame.app import Push
from frame.course.attempts import Attempt, Position
from frame.learner.store import LessonState, StoreError
from frame.learner.trouble import Trouble
from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family
from frame.practice.tally import Tally
from frame.report.told import family_name
from frame.screens.choosing.code import NewCode
from frame.screens.choosing.lock import Lock
from frame.screens.choosing.report import ReportPage
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.parts.bead_string import paint_beads
from frame.screens.parts.reported import lessons_of, report_folder
from frame.screens.parts.way import Way
from frame.technique.expression import parse_sum
from frame.view.widgets import Brushes

SIZES = [(800, 480), (1280, 720), (1920, 1080), (600, 960)]
SUM = Attempt("x", Exercise(Kind.SUM, parse_sum("3 + 4"), rods=1), True, True, 0, ())


def keep(pilot, days=2):
    """Ten sums on each of some days, a minute each."""
    store, learner = pilot.room.store, pilot.room.learner
    for ago in range(days):
        day = pilot.now() - timedelta(days=ago)
        store.record(begun(store, learner, day), timed(*[(SUM, 60)] * 10), learner, "x", None, day)


def open_page(pilot):
    pilot.app.take(Push(ReportPage(pilot.room, pilot.room.learner)))
    pilot.app.draw()
    return pilot.screen


def seen(pilot):
    return pilot.lines().replace("\u00a0", " ")


def test_it_lies_behind_the_lock(pilot):
    keep(pilot)
    pilot.press("gear")
    assert isinstance(pilot.screen, NewCode | Lock)
    for _ in range(2):
        for sign in "2580":
            pilot.press(sign)
        pilot.press("tick")
    assert isinstance(pilot.screen, SettingsScreen)
    pilot.press_word("settings.page_5")
    pilot.press_word("report.open")
    assert isinstance(pilot.screen, ReportPage)
    assert "How Otter is getting on" in seen(pilot)


def test_what_is_seen_is_what_is_in_the_record(pilot):
    keep(pilot)
    open_page(pilot)
    text = seen(pilot)
    assert "Adding, partner of five: 3 + 4" in text and "20 of 20" in text
    assert "20 min" in text and "nothing goes wrong again and again." in text
    assert "Lessons done: 0 of 90. The next: One to four." in text


def test_the_day_and_what_is_meant_by_over_stand_there_until_there_is_something_to_tell(pilot):
    keep(pilot)
    page = open_page(pilot)
    meant = " ".join(
        (f"{page.told.day}.", *map(pilot.words.text, ("report.page.legend", "report.note.over")))
    )
    assert meant in seen(pilot)
    pilot.press_word("report.save")
    assert meant not in seen(pilot)


def test_it_is_read_beside_the_window_and_told_meanwhile(pilot):
    keep(pilot)
    pilot.room.aside = aside = WhenTold()
    page = open_page(pilot)
    words = pilot.words
    assert words.text("report.reading") in seen(pilot)
    assert not [one for one in page.buttons if one.text == words.text("report.save")]
    pilot.wait(1)
    assert page.report is None
    aside.go_on()
    pilot.wait(0.2)
    assert "20 of 20" in seen(pilot) and words.text("report.reading") not in seen(pilot)
    pilot.press_word("report.save")


def test_whoever_leaves_before_it_is_read_has_it_called_off(pilot):
    pilot.room.aside = aside = WhenTold()
    open_page(pilot)
    (future, _) = aside.waiting[0]
    pilot.key(pygame.K_ESCAPE)
    assert future.cancelled()
    aside.go_on()


def test_only_the_title_is_read_aloud_for_a_child_may_be_near(pilot, heard):
    keep(pilot)
    open_page(pilot)
    pilot.wait(60, 60)
    assert set(heard.said) == {"How Otter is getting on"}


def test_a_name_of_ones_own_is_spoken_as_the_animal(pilot, heard):
    pilot.room.rename("Дмитрий", "otter")
    open_page(pilot)
    assert heard.said == ["How Otter is getting on"] and "Дмитрий" in seen(pilot)


def test_the_page_is_saved_under_a_name_not_taken_and_told_with_its_folder(pilot, heard):
    keep(pilot)
    for _ in range(2):
        page = open_page(pilot)
        pilot.press_word("report.save")
        assert [one.sign for one in page.buttons] == ["back"], "it is saved once"
        pilot.key(pygame.K_ESCAPE)
    open_page(pilot)
    pilot.press_word("report.save")
    folder = report_folder(pilot.room)
    names = [f"report-Otter-2026-05-04{number}.html" for number in ("", "-2", "-3")]
    assert sorted(one.name for one in folder.iterdir()) == sorted(names)
    text = (folder / names[0]).read_text(encoding="utf-8")
    assert "Otter" in text and "20\u00a0of\u00a020" in text
    assert names[2] in seen(pilot)
    assert str(folder).replace("/", "") in re.sub("[ /]", "", seen(pilot))
    assert heard.said[-1] == pilot.words.line("report.saved").speak


@pytest.mark.parametrize(
    "name", ["../x", "a/b\\c:d", "Ann & Bo", "Дмитрий", "शिव", "👩‍👩‍👧", "CON"]
)
def test_whatever_a_child_is_called_the_file_has_a_name(pilot, name):
    pilot.room.rename(name, "otter")
    open_page(pilot)
    pilot.press_word("report.save")
    (path,) = report_folder(pilot.room).iterdir()
    assert path.suffix == ".html" and not set(path.name) & set('/\\:*?"<>| ')


def test_it_goes_among_the_users_documents_where_the_system_names_a_folder(pilot, tmp_path):
    pilot.room.documents = tmp_path / "documents"
    open_page(pilot)
    pilot.press_word("report.save")
    assert [one.suffix for one in (tmp_path / "documents").iterdir()] == [".html"]


def test_where_it_cannot_be_saved_it_is_told_and_can_be_tried_again(pilot):
    folder = report_folder(pilot.room)
    folder.write_text("crates")
    open_page(pilot)
    pilot.press_word("report.save")
    assert pilot.words.text("other_file.closed") in seen(pilot) or "cannot" in seen(pilot)
    folder.unlink()
    pilot.press_word("report.save")
    assert len(list(folder.iterdir())) == 1


def test_a_record_that_cannot_be_read_is_told_of(pilot, monkeypatch):
    def refuse(*asked):
        raise StoreError(Path("learners.sqlite"), "no", Trouble.HELD)

    monkeypatch.setattr("frame.screens.choosing.report.read_beside", refuse)
    page = open_page(pilot)
    assert pilot.words.text("report.unread") in seen(pilot)
    assert [one.sign for one in page.buttons] == ["back"]


def test_the_lessons_are_those_of_home(pilot):
    course, done = pilot.room.course.lessons, LessonState(1, Position(), done=True)
    placed = LessonState(0, Position(), done=False, placed=True)
    pilot.room.lessons.update({one.id: placed for one in course[:20]})
    pilot.room.lessons.update({one.id: done for one in course[20:23]})
    way = Way(pilot.room.course, pilot.room.lessons, all_open=False)
    lessons = lessons_of(way)
    assert (lessons.done, lessons.known, lessons.all) == (3, 20, len(course))
    assert lessons.next == way.upcoming.id and lessons.title == way.upcoming.title
    assert Family.READ in lessons.found and Family.ROOT not in lessons.found


# How it is laid out


def test_whatever_there_is_to_tell_all_of_it_is_seen(room):
    reports = [("full", FULL), ("early", EARLY), ("paper", ON_PAPER), *of_any_length()]
    assert_well_laid_out(((name, page_of(room, one)) for name, one in reports), SIZES)


def test_every_fault_has_room_with_what_to_do(room):
    assert_well_laid_out(((name, page_of(room, one)) for name, one in of_every_fault()), SIZES)


def test_what_became_of_the_page_has_room_too(room, tmp_path):
    pages = []
    for folder in (tmp_path, tmp_path / ("w" * 200)):
        room.documents = folder
        page = page_of(room, FULL)
        page.size = SIZES[0]
        page.rearrange()
        page.save()
        pages.append((str(folder), page))
    room.documents = None
    assert_well_laid_out(pages, SIZES)


def lettering_height(pixels):
    return int(1.3 * pixels)


@pytest.mark.parametrize("name", ["W" * 24, "国" * 24, "Maximiliane Wilhelmine M"])
def test_a_long_name_is_cut_rather_than_out_of_place(room, name):
    room.learner = replace(room.learner, nickname=name)
    for size, report in product(SIZES, (EARLY, FULL)):
        found = flaws(look_at(page_of(room, report), size))
        assert not [one for one in found if "is cut short" not in one], size


@pytest.mark.parametrize(("right", "of"), [(0, 0), (0, 3), (4, 4), (3, 5), (18, 20)])
def test_each_exercise_is_a_bead_and_those_right_at_once_lie_at_the_bar(room, right, of):
    theme, surface = room.theme, pygame.Surface((1000, 100))
    brushes = Brushes(surface, theme, room.lettering, room.pictures)
    paint_beads(brushes, surface.get_rect(), Tally(right, of))
    lefts = []
    for colours in (theme.bead_used, theme.bead_rest):
        mask = pygame.mask.from_threshold(surface, colours.face, (5, 5, 5, 255))
        lefts.append([one.left for one in mask.get_bounding_rects() if one.h > 40])
    assert [len(some) for some in lefts] == [right, of - right]
    assert max(lefts[0], default=0) < min(lefts[1], default=1000)


@pytest.mark.parametrize("size", SIZES)
def test_the_text_is_large_enough_to_be_read_in_a_minute(room, size):
    """Two in a hundred of the window's height at least, most of it three; and as many words as an
    adult reads in a minute."""
    sight = look_at(page_of(room, FULL), size)
    lines = [(line, place.h) for one in sight.written for line, place in one.lines]
    small = [line for line, high in lines if high < lettering_height(0.02 * size[1])]
    assert {line for line in small if not line.startswith("last on")} == set()
    assert sum(len(line.split()) for line, _ in lines) < 240


def test_the_kinds_known_that_have_no_room_are_counted(room):
    for size in SIZES:
        sight = look_at(page_of(room, FULL), size)
        text = " ".join(one.text for one in sight.written)
        shown = [
            one for one in FULL.known
            if family_name(one.family, room.words) in text
        ]  # fmt: skip
        more = re.search(r"Easier kinds, too: (\d+)", text)
        assert len(shown) + int(more[1] if more else 0) == len(FULL.known)
        assert list(FULL.known[len(FULL.known) - len(shown) :]) == shown, "the hardest are told"


def test_the_day_is_that_of_the_place(pilot):
    assert (
        open_page(pilot).report.day == datetime(2026, 5, 4, tzinfo=UTC).date() == date(2026, 5, 4)
    )

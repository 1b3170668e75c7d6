"""A backup is saved and another computer's file brought in, by a button or let go over the window;
a child who is here twice is joined, and parted again."""

import shutil
import sqlite3
from contextlib import closing
from dataclasses import replace
from itertools import pairwise

import pygame
import pytest
from kept import NOW, added, begun, timed
from pilot import WhenTold
from sight import SHAPES, UPRIGHT, assert_well_laid_out

from frame.app import Push
from frame.course.attempts import Attempt, Position
from frame.language.lines import Line
from frame.learner.backups import back_up
from frame.learner.looks import ANIMALS
from frame.learner.merging import Merged
from frame.learner.settings import Age, Settings
from frame.learner.store import LessonState, Store
from frame.practice.exercises import Exercise, Kind
from frame.screens.choosing.home import Home
from frame.screens.choosing.same_child import SameChild
from frame.screens.choosing.two_computers import ROWS, TwoComputers, backup_folder
from frame.screens.parts.fitting import short_name
from frame.screens.parts.merged import merged_line
from frame.technique.expression import parse_sum

TRIED = Attempt("beads-1", Exercise(Kind.SUM, parse_sum("3 + 4"), rods=1), True, True, 0, ())


@pytest.fixture
def page(pilot):
    return opened(pilot, TwoComputers)


def opened(pilot, kind):
    pilot.app.take(Push(kind(pilot.room)))
    pilot.app.draw()
    return pilot.screen


@pytest.fixture
def elsewhere(tmp_path):
    """The file of another computer, with a seal who did two exercises."""
    path = tmp_path / "elsewhere" / "learners.sqlite"
    with closing(Store(path)) as store:
        seal = added(store, "Seal", "seal")
        sitting = begun(store, seal)
        store.record(sitting, timed((TRIED, 1.0), (TRIED, 2.0)), seal, "beads-1", None, NOW)
    return path


def names(pilot):
    return sorted(one.nickname for one in pilot.room.learners())


def told(merged, pilot):
    return merged_line(merged, pilot.words).show


def wait_for(pilot, page):
    for _ in range(40):
        if not page.is_busy:
            return
        pilot.wait(0.1, 1)
    raise AssertionError("it is never done")


def drop(pilot, page, path):
    pilot.post(pygame.DROPFILE, file=str(path))
    wait_for(pilot, page)


def test_a_backup_is_saved_and_listed_with_the_day_in_its_name(pilot, page):
    folder = backup_folder(pilot.room)
    for number in range(2):
        pilot.press_word("two_computers.save")
        wait_for(pilot, page)
        assert len(page.files) == number + 1
    assert [path.name for path in page.files] == [
        "bead-frame-2026-05-04-2.sqlite",
        "bead-frame-2026-05-04.sqlite",
    ]
    assert page.files[0].name in pilot.lines() and str(folder)[-20:] in pilot.lines()
    with closing(Store(folder / page.files[0].name)) as copy:
        assert [one.nickname for one in copy.learners()] == ["Otter"]


def test_a_file_let_go_over_the_window_is_brought_in_and_what_it_brought_is_said(
    pilot, heard, page, elsewhere
):
    drop(pilot, page, elsewhere)
    brought = Merged(learners=1, attempts=2, is_new=True)
    told = merged_line(brought, pilot.words)
    assert page.said == Line(f"{short_name(elsewhere)}: {told.show}", told.speak)
    assert heard.said[-1] == page.said.speak and page.said.show in pilot.lines()
    assert names(pilot) == ["Otter", "Seal"]
    drop(pilot, page, elsewhere)
    assert page.said.show.endswith(pilot.words.text("merged.nothing"))


def test_a_file_of_the_folder_is_brought_in_by_its_button_or_the_keyboard(pilot, page, elsewhere):
    folder = backup_folder(pilot.room)
    folder.mkdir()
    elsewhere.rename(folder / "harbour.sqlite")
    pilot.wait(1.1, 2)
    for _ in range(3):
        pilot.key(pygame.K_TAB)
    assert page.buttons[page.focus].text == "harbour.sqlite"
    pilot.key(pygame.K_RETURN)
    wait_for(pilot, page)
    assert names(pilot) == ["Otter", "Seal"]


@pytest.mark.parametrize(
    ("content", "key"),
    [
        (b"crates and lamps", "foreign"),
        (b"", "foreign"),
        (None, "missing"),
        ("newer", "newer"),
        ("cut off", "damaged"),
    ],
)
def test_what_is_no_file_of_the_tool_is_refused_and_nothing_changes(
    pilot, page, tmp_path, content, key
):
    path = tmp_path / "odd.sqlite"
    if content == "newer":
        Store(path).close()
        with closing(sqlite3.connect(path)) as file:
            file.execute("PRAGMA user_version = 99")
    elif content == "cut off":
        back_up(pilot.room.store, path)
        path.write_bytes(path.read_bytes()[:50_000])
    elif content is not None:
        path.write_bytes(content)
    before = pilot.room.store.path.read_bytes()
    drop(pilot, page, path)
    assert page.said.show == f"odd.sqlite: {pilot.words.text(f'other_file.{key}')}"
    assert pilot.room.store.path.read_bytes() == before


def test_a_file_that_goes_after_it_was_chosen_is_missed_and_its_folder_not_made(pilot, page):
    folder = backup_folder(pilot.room)
    folder.mkdir()
    (folder / "harbour.sqlite").touch()
    pilot.wait(1.1, 2)
    pilot.room.aside = WhenTold()
    pilot.press("harbour.sqlite")
    shutil.rmtree(folder)
    pilot.room.aside.go_on()
    wait_for(pilot, page)
    assert page.said.show == f"harbour.sqlite: {pilot.words.text('other_file.missing')}"
    assert not folder.exists()


@pytest.mark.parametrize("apart", [0.1, 0.3, 0.55, 0.7])
@pytest.mark.parametrize("by_key", [False, True])
def test_who_presses_save_several_times_saves_one_backup(pilot, page, apart, by_key):
    (save,) = (one for one in page.buttons if one.text == pilot.words.text("two_computers.save"))
    for _ in range(3):
        pilot.key(pygame.K_RETURN) if by_key else pilot.tap(save.place.center)
        pilot.wait(apart)
    wait_for(pilot, page)
    assert len(page.files) == 1
    pilot.press_word("two_computers.save")
    wait_for(pilot, page)
    assert len(page.files) == 2


def test_where_nothing_can_be_saved_it_is_said(pilot, page):
    backup_folder(pilot.room).write_text("in the way")
    pilot.press_word("two_computers.save")
    wait_for(pilot, page)
    assert page.said.show.partition(": ")[2] in {
        pilot.words.text("other_file.closed"), pilot.words.text("other_file.other"),
    }  # fmt: skip


def test_who_was_deleted_is_left_out_until_they_are_brought_back(pilot, page, elsewhere):
    drop(pilot, page, elsewhere)
    (seal,) = (one for one in pilot.room.learners() if one.nickname == "Seal")
    pilot.room.store.remove_learner(seal, NOW)
    drop(pilot, page, elsewhere)
    assert names(pilot) == ["Otter"]
    assert pilot.words.text("merged.left_out", left_out=1) in page.said.show
    pilot.press_word("two_computers.back")
    wait_for(pilot, page)
    assert names(pilot) == ["Otter", "Seal"]
    assert len(pilot.room.store.attempts(seal)) == 2
    assert pilot.words.text("merged.back", back=1) in page.said.show


def test_who_is_here_goes_on_with_what_was_brought_in(pilot, tmp_path):
    """The same learner did a lesson elsewhere, in other settings."""
    otter, there = pilot.room.learner, tmp_path / "there.sqlite"
    page = opened(pilot, TwoComputers)
    pilot.press_word("two_computers.save")
    wait_for(pilot, page)
    page.files[0].rename(there)
    later = NOW.replace(hour=20)
    with closing(Store(there)) as store:
        sitting = begun(store, otter, later)
        store.record(sitting, [], otter, "beads-1", LessonState(1, Position(2), True), later)
        store.save_settings(otter, Settings(free_rods=7), later)
    drop(pilot, page, there)
    assert pilot.room.lessons["beads-1"].done
    assert pilot.room.settings.free_rods == 7
    with closing(Store(there)) as store:
        store.remove_learner(otter, later)
    drop(pilot, page, there)
    assert names(pilot) == []
    while not isinstance(pilot.screen, Home):
        pilot.key(pygame.K_ESCAPE)
    assert pilot.words.text("store.removed", name="Otter") in pilot.lines()


def test_the_window_goes_on_while_a_file_is_taken_in(pilot, page, elsewhere):
    pilot.room.aside = WhenTold()
    pilot.post(pygame.DROPFILE, file=str(elsewhere))
    assert page.is_busy and pilot.words.text("two_computers.working") in pilot.lines()
    pilot.post(pygame.DROPFILE, file=str(elsewhere))
    assert len(pilot.room.aside.waiting) == 1, "one thing at a time"
    assert [button.sign for button in page.buttons] == ["back"]
    pilot.wait(5)
    assert page.is_busy
    pilot.room.aside.go_on()
    pilot.wait(0.1)
    assert not page.is_busy and names(pilot) == ["Otter", "Seal"]


def test_more_files_than_rows_take_pages(pilot, page):
    folder = backup_folder(pilot.room)
    folder.mkdir()
    for number in range(ROWS + 2):
        (folder / f"quay-{number}.sqlite").touch()
    pilot.wait(1.1, 2)
    seen = []
    for _ in range(2):
        seen += [button.text for button in page.buttons if "quay" in button.text]
        pilot.press("step_on")
    assert seen == [f"quay-{number}.sqlite" for number in reversed(range(ROWS + 2))]


# The same child


def try_once(store, learner):
    store.record(begun(store, learner), timed((TRIED, 1.0)), learner, "beads-1", None, NOW)


def test_two_are_joined_by_choice_and_parted_again(pilot):
    store, otter = pilot.room.store, pilot.room.learner
    seal, gull = added(store, "Seal", "seal"), added(store, "Gull", "gull")
    for learner in (otter, seal, gull):
        try_once(store, learner)
    page = opened(pilot, SameChild)
    pilot.press("Seal")
    pilot.press_word("same_child.no")
    assert len(store.ids_of(otter)) == 1 and page.chosen is None
    pilot.press("Seal")
    assert pilot.words.text("same_child.ask", name="Otter", other="Seal") in pilot.lines()
    pilot.press_word("same_child.yes")
    assert set(store.ids_of(otter)) == {otter.id, seal.id}
    assert len(store.attempts(otter)) == 2 and len(pilot.room.learners()) == 2
    pilot.press_word("same_child.part")
    assert store.ids_of(otter) == (otter.id,)
    assert len(pilot.room.learners()) == 3
    assert len(store.attempts(otter)) == 1


def test_who_is_parted_goes_on_with_the_name_and_the_picture_of_their_own(pilot):
    """Also where somebody left between, and came back by the one ticket of both."""
    store, otter = pilot.room.store, pilot.room.learner
    seal = added(store, "Seal", "seal")
    try_once(store, seal)
    store.join(otter, seal, NOW)
    pilot.key(pygame.K_ESCAPE)
    pilot.press("Otter")
    assert pilot.room.learner == replace(seal, nickname="Otter", picture=otter.picture)
    opened(pilot, SameChild)
    pilot.press_word("same_child.part")
    assert pilot.room.learner == seal
    assert pilot.screen.others == (otter,)


def test_a_child_under_three_ids_is_three_children_when_it_is_taken_back(pilot):
    store, otter = pilot.room.store, pilot.room.learner
    some = [otter, added(store, "Seal", "seal"), added(store, "Gull", "gull")]
    for one, other in pairwise(some):
        store.join(one, other, NOW)
    assert len(store.ids_of(otter)) == 3
    opened(pilot, SameChild)
    pilot.press_word("same_child.part")
    assert [store.ids_of(one) for one in some] == [(one.id,) for one in some]


# How they are laid out


@pytest.mark.parametrize("age", Age)
def test_two_computers_are_well_laid_out(room, age):
    room.settings = Settings(age=age)
    folder = backup_folder(room)
    folder.mkdir(exist_ok=True)
    screens = [("empty", TwoComputers(room))]
    for number, name in enumerate(["W" * 90, "a b " * 30, "quay\udcff", "harbour", "market"]):
        (folder / f"{name}{number}.sqlite").touch()
    screens.append(("files", TwoComputers(room)))
    full = TwoComputers(room)
    full.said = merged_line(Merged(88, 1_000_000, 88, 88, 88, True, False), room.words)
    full.left_out = folder
    screens.append(("told", full))
    assert_well_laid_out(screens, [*SHAPES, UPRIGHT])
    for path in folder.iterdir():
        path.unlink()


def test_a_child_twice_is_well_laid_out(room):
    screens = [("alone", SameChild(room))]
    for count in (1, 4, 25):
        known = len(room.learners())
        for number in range(count):
            animal = ANIMALS[number % len(ANIMALS)]
            added(room.store, f"{animal.title()} {number + 20}", animal)
        screens.append((f"{known + count}", SameChild(room)))
    asking = SameChild(room)
    asking.chosen = asking.others[0]
    joined = SameChild(room)
    joined.is_joined = True
    last = SameChild(room)
    last.is_joined, last.page = True, 1
    screens += [("asking", asking), ("joined", joined), ("last", last)]
    assert_well_laid_out(screens, [*SHAPES, UPRIGHT])
    for one in room.learners():
        if one != room.learner:
            room.store.remove_learner(one, NOW)

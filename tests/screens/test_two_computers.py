"""A backup is saved and another computer's file brought in, by a button or let go over the
window."""

import os
import re
import shutil
import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import datetime

import pygame
import pytest
from kept import NOW, added, begun, timed
from pilot import WhenTold
from sight import SHAPES, UPRIGHT, assert_well_laid_out, look_at

from frame.app import Push
from frame.course.attempts import Attempt, Position
from frame.language.lines import Line
from frame.learner.backups import back_up
from frame.learner.merging import Merged
from frame.learner.persons import Person
from frame.learner.salvage import Saved
from frame.learner.settings import Age, Settings
from frame.learner.store import LessonState, Store
from frame.practice.exercises import Exercise, Kind
from frame.screens.choosing.home import Home
from frame.screens.choosing.two_computers import ROWS, TwoComputers, backup_folder
from frame.screens.parts.fitting import short_name
from frame.screens.parts.merged import merged_line
from frame.screens.parts.trouble import saved_text
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
    for _ in range(2):
        pilot.key(pygame.K_TAB)
    assert page.buttons[page.focus].text.endswith(", Seal")
    pilot.key(pygame.K_RETURN)
    wait_for(pilot, page)
    assert names(pilot) == ["Otter", "Seal"]
    assert page.buttons[page.focus].text.endswith(", Seal"), "the focus stays where it was"


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
    back_up(pilot.room.store, folder / "harbour.sqlite")
    pilot.wait(1.1, 2)
    (row,) = [one.text for one in page.buttons if one.text.endswith(", Otter")]
    pilot.room.aside = WhenTold()
    pilot.press(row)
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


def test_who_was_deleted_is_left_out_by_name_until_they_are_brought_back(
    pilot, heard, page, elsewhere
):
    drop(pilot, page, elsewhere)
    (seal,) = (one for one in pilot.room.learners() if one.nickname == "Seal")
    pilot.room.store.remove_learner(seal, NOW)
    drop(pilot, page, elsewhere)
    assert names(pilot) == ["Otter"]
    who = "Seal, exercises 2"
    assert page.said.show.endswith(f"left out: {who}.") and who in pilot.lines()
    assert heard.said[-1].endswith("left out: Seal, Plain."), "no voice can say every name"
    pilot.press_word("two_computers.back")
    wait_for(pilot, page)
    assert names(pilot) == ["Otter", "Seal"]
    assert len(pilot.room.store.attempts(seal)) == 2
    assert page.said.show.endswith(f"Brought back: {who}.") and who in pilot.lines()


ANNA, BO, EVA, NOBODY = (
    Person("Anna", "seal-cross", 4), Person("Bo", "owl", 0), Person("éva", "otter", 3),
    Person("\u200b", "walrus-plaid", 1),
)  # fmt: skip


@pytest.mark.parametrize(
    ("merged", "said"),
    [
        (Merged(1, 2), "Brought in: learners 1, exercises 2."),
        (Merged(0, 2), "Brought in: learners 0, exercises 2."),
        (
            Merged(2, 4, back=(ANNA, BO)),
            "Brought back: Anna, exercises 4; Bo, exercises 0.",
        ),
        (
            Merged(3, 9, back=(ANNA,)),
            "Brought in: learners 2, exercises 5. Brought back: Anna, exercises 4.",
        ),
        (
            Merged(left_out=(ANNA, BO, EVA, NOBODY)),
            "Nothing in it is new here. Deleted, and so left out: New, exercises 1; "
            "Anna, exercises 4; and 2 more.",
        ),
    ],
)
def test_who_came_is_told_once_and_who_was_deleted_by_name(pilot, merged, said):
    assert told(merged, pilot) == said


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


@pytest.mark.parametrize("by_key", [True, False])
def test_there_is_no_way_back_before_who_is_here_goes_on_with_what_was_brought_in(
    pilot, heard, page, tmp_path, by_key
):
    there, later = tmp_path / "there.sqlite", NOW.replace(hour=20)
    back_up(pilot.room.store, there)
    with closing(Store(there)) as store:
        store.save_settings(pilot.room.learner, Settings(free_rods=7), later)
    pilot.room.aside = WhenTold()
    pilot.post(pygame.DROPFILE, file=str(there))
    heard.said.clear()
    pilot.key(pygame.K_ESCAPE) if by_key else pilot.press("back")
    assert pilot.screen is page and heard.said == [pilot.words.text("two_computers.working")]
    pilot.room.aside.go_on()
    wait_for(pilot, page)
    assert pilot.room.settings.free_rods == 7
    pilot.key(pygame.K_ESCAPE) if by_key else pilot.press("back")
    assert pilot.screen is not page


@pytest.mark.parametrize("kind", ["merge", "backup", "refused"])
def test_what_was_saved_of_a_file_that_was_damaged_meanwhile_is_told(pilot, page, elsewhere, kind):
    path = pilot.room.store.path
    path.write_bytes(b"garbage!" + path.read_bytes()[8:])
    if kind == "refused":
        elsewhere.write_bytes(b"crates and lamps")
    page.save() if kind == "backup" else page.bring_in(elsewhere)
    wait_for(pilot, page)
    saved = Saved(1, 0, path.with_suffix(".unreadable-1"))
    assert saved_text(saved, pilot.words) in page.said.show
    assert saved.aside.name in pilot.lines() and saved.aside.exists()
    pilot.press_word("two_computers.save")
    wait_for(pilot, page)
    assert saved.aside.name not in pilot.lines()


# The list of backups


def put(folder, name, learners=1, joined=0):
    """A file with so many learners, some of them joined with the first."""
    with closing(Store(folder / name)) as store:
        everybody = [added(store, f"Seal {number}", "seal") for number in range(learners)]
        for other in everybody[1 : joined + 1]:
            store.join(everybody[0], other, NOW)
    for path in folder.glob("*.good"):
        path.unlink()
    return folder / name


def listed(pilot, page):
    """What stands on the buttons of the rows, on all pages."""
    seen = []
    for at in range(page.pages):
        if at:
            pilot.press("step_on")
        seen += [one.text for one in page.buttons if re.search(r"\d{4}", one.text)]
    return seen


def test_more_files_than_rows_take_pages_the_newest_first(pilot, page):
    folder = backup_folder(pilot.room)
    folder.mkdir()
    names = [
        "bead-frame-2026-05-04.sqlite", "bead-frame-2026-05-04-2.sqlite",
        "bead-frame-2026-05-04-10.sqlite", "quay of 2026-12-01.sqlite",
        "bead-frame-2025-12-31.sqlite",
    ]  # fmt: skip
    for number, name in enumerate(names):
        put(folder, name, number + 1)
    pilot.wait(1.1, 2)
    assert len(names) > ROWS and page.pages == 2
    assert [path.name for path in page.files] == [names[at] for at in (3, 2, 1, 0, 4)]
    assert listed(pilot, page) == [
        "Newest: 1 December 2026, 4 learners", "4 May 2026, 3 learners", "4 May 2026, 2 learners",
        "4 May 2026, Seal 0", "31 December 2025, 5 learners",
    ]  # fmt: skip


def changed(path, *at):
    """The file was last changed at this time."""
    moment = datetime(*at).timestamp()
    os.utime(path, (moment, moment))


def test_of_backups_of_one_day_the_time_is_told_where_it_is_known(pilot, page):
    folder = backup_folder(pilot.room)
    folder.mkdir()
    for number, at in enumerate([(4, 9, 5), (4, 14, 30), (5, 8, 0)]):
        changed(put(folder, f"bead-frame-2026-05-04-{number + 1}.sqlite", 2), 2026, 5, *at)
    changed(put(folder, "bead-frame-2026-05-03.sqlite", 2), 2026, 5, 3, 9, 0)
    pilot.wait(1.1, 2)
    assert listed(pilot, page) == [
        "Newest: 4 May 2026, 2 learners", "4 May 2026, 14:30, 2 learners",
        "4 May 2026, 9:05, 2 learners", "3 May 2026, 2 learners",
    ]  # fmt: skip


def test_who_is_alone_in_a_backup_is_named_as_they_were_called_last(pilot, page):
    folder = backup_folder(pilot.room)
    folder.mkdir()
    path = put(folder, "bead-frame-2026-05-04.sqlite", 2, joined=1)
    with closing(Store(path)) as store:
        (seal,) = store.learners()
        store.rename(replace(seal, nickname="Wanda"), NOW.replace(year=2027))
    with closing(sqlite3.connect(put(folder, "bead-frame-2026-05-03.sqlite"))) as file, file:
        file.execute("UPDATE learner SET nickname = char(7, 10)")
    pilot.wait(1.1, 2)
    assert listed(pilot, page) == ["Newest: 4 May 2026, Wanda", "3 May 2026, 1 learner"]


def test_a_count_that_has_changed_is_shown(pilot, page):
    folder = backup_folder(pilot.room)
    folder.mkdir()
    path = put(folder, "bead-frame-2026-05-04.sqlite", 2)
    pilot.wait(1.1, 2)
    with closing(Store(path)) as store:
        added(store, "Crab")
    pilot.wait(2.2, 4)
    assert listed(pilot, page) == ["Newest: 4 May 2026, 3 learners"]


def test_without_a_day_in_its_name_a_file_is_of_the_day_it_was_last_changed(pilot, page):
    folder = backup_folder(pilot.room)
    folder.mkdir()
    path = put(folder, "harbour-2026-31-31.sqlite", 3, joined=1)
    noon = datetime(2024, 2, 29, 12).timestamp()
    os.utime(path, (noon, noon))
    pilot.wait(1.1, 2)
    assert listed(pilot, page) == ["Newest: 29 February 2024, 2 learners"]


def test_the_whole_name_of_a_file_is_shown_where_there_is_room(pilot, page):
    folder = backup_folder(pilot.room)
    folder.mkdir()
    name = "backup of the harbour school, room four, 2026-05-04.sqlite"
    put(folder, name)
    pilot.resize((1280, 720))
    pilot.wait(1.1, 2)
    assert name in pilot.lines()


def test_what_is_none_of_ours_is_not_listed_and_what_is_damaged_is(pilot, page):
    folder = backup_folder(pilot.room)
    folder.mkdir()
    (folder / "empty.sqlite").touch()
    (folder / "crates.sqlite").write_bytes(b"crates and lamps")
    with closing(sqlite3.connect(folder / "other.sqlite")) as other:
        other.execute("CREATE TABLE crate (lamp TEXT)")
    damaged = put(folder, "bead-frame-2026-05-04.sqlite", 4)
    damaged.write_bytes(b"x" * 100 + damaged.read_bytes()[100:])
    pilot.wait(1.1, 2)
    assert listed(pilot, page) == ["Newest: 4 May 2026, may be damaged"]


WAYS_TO_DAMAGE = {
    "no header": lambda content: b"x" * 100 + content[100:],
    "a bad letter in a name": lambda content: content.replace(
        b"TABLE learner", b"TABL\xb3 learner"
    ),
    "cut off": lambda content: content[: len(content) // 2],
    "nearly nothing left": lambda content: content[:100],
    "empty": lambda content: b"",
}


@pytest.mark.parametrize("way", WAYS_TO_DAMAGE)
def test_a_backup_that_is_damaged_is_listed_and_said_to_be_so(pilot, page, way):
    folder = backup_folder(pilot.room)
    folder.mkdir()
    path = put(folder, "bead-frame-2026-05-04.sqlite", 4)
    path.write_bytes(WAYS_TO_DAMAGE[way](path.read_bytes()))
    (folder / "bead-frame.sqlite").touch()
    pilot.wait(1.1, 2)
    (told,) = listed(pilot, page)
    assert told == "Newest: 4 May 2026, may be damaged"


def test_files_are_looked_into_beside_the_window(pilot, elsewhere):
    folder = backup_folder(pilot.room)
    folder.mkdir()
    elsewhere.rename(folder / "harbour.sqlite")
    pilot.room.aside = WhenTold()
    page = opened(pilot, TwoComputers)
    none, files = (pilot.words.text(f"two_computers.{key}") for key in ("none", "files"))
    assert page.files == () and none not in pilot.lines()
    pilot.room.aside.go_on()
    pilot.wait(0.1, 2)
    assert len(page.files) == 1
    pilot.wait(5)
    assert pilot.room.aside.waiting == [], "one that has not changed is not looked into again"
    page.files[0].unlink()
    pilot.wait(1.1, 2)
    assert page.files == () and none in pilot.lines() and files not in pilot.lines()


def test_what_is_not_looked_into_yet_is_called_off_when_the_page_is_left_or_the_file_has_changed(
    pilot,
):
    folder = backup_folder(pilot.room)
    folder.mkdir()
    for number in range(3):
        put(folder, f"harbour-{number}.sqlite")
    pilot.room.aside = WhenTold()
    opened(pilot, TwoComputers)
    os.utime(folder / "harbour-0.sqlite", (0, 0))
    pilot.wait(1.1, 2)
    called_off = [look.cancelled() for look, _ in pilot.room.aside.waiting]
    assert sorted(called_off) == [False] * 3 + [True]
    pilot.key(pygame.K_ESCAPE)
    assert all(look.cancelled() for look, _ in pilot.room.aside.waiting)


# How they are laid out


def test_in_an_upright_window_a_name_stands_nearest_to_its_own_button(room):
    folder = backup_folder(room)
    folder.mkdir(exist_ok=True)
    for number in range(ROWS):
        put(folder, f"harbour-{number}.sqlite", 2)
    page = TwoComputers(room)
    page.backups.look()
    sight = look_at(page, UPRIGHT)
    rows = [one.place for one in sight.buttons if one.text.endswith(" learners")]
    names = [one.lines[0][1] for one in sight.written if one.text.endswith(".sqlite")]
    assert len(rows) == len(names) == ROWS
    for name, own, following in zip(names[:-1], rows[:-1], rows[1:], strict=True):
        air = following.top - name.bottom
        assert 3 * abs(name.top - own.bottom) < air > name.h / 2


@pytest.mark.parametrize("age", Age)
def test_two_computers_are_well_laid_out(room, age):
    room.settings = Settings(age=age)
    folder = backup_folder(room)
    folder.mkdir(exist_ok=True)
    screens = [("empty", TwoComputers(room))]
    for number, name in enumerate(["W" * 90, "a b " * 30, "quay\udcff", "harbour", "2026-09-24 "]):
        put(folder, f"{name}{number}.sqlite", 5 * number)
    screens.append(("files", TwoComputers(room)))
    full = TwoComputers(room)
    many = (Person("W" * 24, "hedgehog-stripes", 90_000),) * 88
    full.said = merged_line(Merged(88, 9_000_000, 88, (), many, True, False), room.words)
    full.left_out = folder
    screens.append(("told", full))
    back = TwoComputers(room)
    back.said = merged_line(Merged(99, 9_000_000, 88, many, (), True, False), room.words)
    screens.append(("back", back))
    saved = TwoComputers(room)
    kept = saved_text(Saved(88, 1_000_000, folder / "learners.unreadable-12"), room.words)
    saved.said = Line(f"bead-frame-2026-05-04.sqlite: {full.said.show} {kept}", "")
    screens.append(("saved", saved))
    assert_well_laid_out(screens, [*SHAPES, UPRIGHT])
    for path in folder.iterdir():
        path.unlink()

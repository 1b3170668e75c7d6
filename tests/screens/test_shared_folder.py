"""The shared folder in the window: what others did comes by itself, what is done here goes there,
and a drive that is away is told once and loses nothing."""

import shutil
from contextlib import closing

import pygame
import pytest
from kept import NOW, added, begun, timed
from pilot import AtOnce, Pilot, WhenTold
from robot import do_right, open_lesson

from frame.app import Push
from frame.course.attempts import Attempt
from frame.learner.assigned import Assigned, Work
from frame.learner.sharer import EVERY
from frame.learner.sharing import share
from frame.learner.store import Store
from frame.practice.exercises import Exercise, Kind
from frame.screens.choosing.home import Home
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.choosing.shared_folder import SharedFolder
from frame.screens.choosing.who import Who
from frame.technique.expression import parse_sum

TRIED = Attempt("beads-1", Exercise(Kind.SUM, parse_sum("3 + 4"), rods=1), True, True, 0, ())


@pytest.fixture
def drive(tmp_path):
    (tmp_path / "drive").mkdir()
    return tmp_path / "drive"


@pytest.fixture
def other(tmp_path):
    """Another computer, with a seal."""
    with closing(Store(tmp_path / "other" / "learners.sqlite")) as store:
        added(store, "Seal", "seal")
        yield store


@pytest.fixture
def shared(pilot, drive):
    """A window that shares the drive and was there once."""
    pilot.room.sharer.aside = AtOnce()
    pilot.room.sharer.use(drive, pilot.clock)
    pilot.wait(2)
    return pilot


def names(store):
    return sorted(one.nickname for one in store.learners())


def look(store, drive):
    return share(store, drive, None, NOW)


def later(pilot):
    pilot.wait(EVERY + 20, 40)


def told(pilot):
    return " ".join(pilot.lines().replace("\u00a0", " ").split())


def test_what_is_here_goes_there_and_what_is_there_comes(shared, drive, other):
    look(other, drive)
    assert names(other) == ["Otter", "Seal"]
    later(shared)
    assert names(shared.room.store) == ["Otter", "Seal"]


def test_who_came_is_seen_among_the_tickets_at_once(shared, drive, other):
    shared.key(pygame.K_ESCAPE)
    assert isinstance(shared.screen, Who)
    look(other, drive)
    later(shared)
    assert "Seal" in [one.text for one in shared.screen.buttons]


def test_what_a_tutor_gives_elsewhere_comes_to_the_home(shared, drive, other):
    look(other, drive)
    other.assign([(shared.room.learner, Assigned("1", NOW, Work.LESSON, "beads-1"))])
    look(other, drive)
    later(shared)
    assert isinstance(shared.screen, Home)
    assert [one for one in shared.screen.buttons if one.sign == "slip"]


def test_when_somebody_stands_up_what_they_did_goes_there_at_once(shared, drive, other):
    open_lesson(shared, "beads-1")
    while len(shared.screen.runner.attempts) < 2:
        do_right(shared)
    shared.key(pygame.K_ESCAPE)
    shared.key(pygame.K_ESCAPE)
    shared.wait(2)
    look(other, drive)
    otter = next(one for one in other.learners() if one.nickname == "Otter")
    assert other.count_attempts(otter) == 2


def test_at_the_end_of_the_window_it_goes_there(shared, drive, other):
    added(shared.room.store, "Gull")
    shared.app.close()
    shared.room.leave()
    shared.room.store.close()
    shared.room.sharer.finish()
    look(other, drive)
    assert names(other) == ["Gull", "Otter", "Seal"]


def test_what_takes_long_holds_up_nothing(shared, drive, other):
    look(other, drive)
    slow = shared.room.sharer.aside = WhenTold()
    later(shared)
    assert len(slow.waiting) == 1 and names(shared.room.store) == ["Otter"]
    open_lesson(shared, "beads-1")
    do_right(shared)
    slow.go_on()
    shared.wait(2)
    assert names(shared.room.store) == ["Otter", "Seal"]


def test_a_window_that_shares_nothing_is_not_woken(pilot):
    assert pilot.room.sharer.wakes_in(pilot.clock) is None


def test_attempts_that_come_while_somebody_sits_here_count(shared, drive, other):
    """The same child works on both computers; what was folded here before lacks the others."""
    look(other, drive)
    otter = next(one for one in other.learners() if one.nickname == "Otter")
    tried = timed(*[(TRIED, 1.0)] * 7)
    other.record(begun(other, otter), tried, otter, TRIED.lesson, None, NOW)
    look(other, drive)
    later(shared)
    assert shared.room.store.count_attempts(shared.room.learner) == 7
    assert len(shared.room.known.lately) == 7


def test_a_drive_that_is_away_is_told_once_and_nothing_is_lost(shared, drive, tmp_path, other):
    shutil.rmtree(drive)
    shared.key(pygame.K_ESCAPE)
    later(shared)
    away = shared.words.text("shared.away")
    assert away in told(shared)
    shared.press("Otter")
    shared.key(pygame.K_ESCAPE)
    later(shared)
    assert away not in told(shared) and not drive.exists()
    drive.mkdir()
    added(shared.room.store, "Gull")
    later(shared)
    look(other, drive)
    assert names(other) == ["Gull", "Otter", "Seal"]


# The page


@pytest.fixture
def page(pilot):
    pilot.room.sharer.aside = AtOnce()
    pilot.app.take(Push(SharedFolder(pilot.room)))
    pilot.app.draw()
    return pilot


def test_from_the_settings_of_the_computer_the_page_is_reached(pilot):
    screen = SettingsScreen(pilot.room)
    pilot.app.take(Push(screen))
    screen.page = 5
    screen.rearrange()
    pilot.press_word("shared.title")
    assert isinstance(pilot.screen, SharedFolder)
    assert pilot.words.text("shared.privacy") in told(pilot)


def test_that_it_is_kept_on_this_computer_alone_is_said_only_where_it_is_so(shared):
    for folder, key in ((shared.room.sharer.folder, "kept_shared"), (None, "kept_here")):
        if folder is None:
            shared.room.sharer.use(None, shared.clock)
        screen = SettingsScreen(shared.room)
        shared.app.take(Push(screen))
        screen.page = 4
        screen.rearrange()
        assert shared.words.text(f"settings.{key}", name="Otter") in told(shared)


def test_a_path_is_typed_and_shared_until_somebody_stops_it(page, drive):
    page.type(str(drive) + "x")
    page.key(pygame.K_BACKSPACE)
    page.press_word("shared.use")
    page.wait(2)
    assert page.room.sharer.folder == drive and len([*drive.iterdir()]) == 1
    assert page.words.line("shared.done", count=0).show in told(page)
    assert page.room.store.shared_folder() == drive
    page.press_word("shared.stop")
    assert page.room.sharer.folder is None and [*drive.iterdir()] == []


def test_what_is_under_way_leaves_no_file_where_nothing_is_shared_any_more(page, drive):
    page.screen.use(drive)
    page.wait(2)
    slow = page.room.sharer.aside = WhenTold()
    added(page.room.store, "Gull")
    page.press_word("shared.now")
    page.wait(1)
    page.press_word("shared.stop")
    while slow.waiting:
        slow.go_on()
    page.wait(1)
    assert [*drive.iterdir()] == [] and page.room.sharer.folder is None


def test_a_folder_may_be_let_go_over_the_window(page, drive):
    page.post(pygame.DROPFILE, file=str(drive))
    assert page.room.sharer.folder == drive


def test_a_path_that_is_not_whole_is_not_taken(page):
    page.type("drive")
    page.press_word("shared.use")
    assert page.room.sharer.folder is None


def test_a_folder_among_documents_is_offered_for_who_cannot_type(page, tmp_path):
    page.room.documents = tmp_path / "documents"
    page.press_word("shared.offered")
    page.wait(2)
    assert len([*(tmp_path / "documents" / "bead-frame").iterdir()]) == 1


def test_files_that_are_left_aside_are_told(page, drive):
    (drive / f"bead-frame-{'0' * 32}.shared").write_bytes(b"half")
    page.screen.use(drive)
    page.wait(2)
    assert page.words.line("shared.left", count=1).show in told(page)


def test_a_file_is_no_folder_to_share(page, drive, heard):
    (file := drive / "nets.txt").write_text("nets")
    words = page.words
    for refuse in (
        lambda: page.post(pygame.DROPFILE, file=str(file)),
        lambda: (page.type(str(file)), page.press_word("shared.use")),
    ):
        refuse()
        assert page.room.sharer.folder is None and page.room.store.shared_folder() is None
        assert words.text("shared.a_file") in told(page)
        assert heard.said[-1] == words.line("shared.a_file").speak
        page.key(pygame.K_BACKSPACE)
        assert words.text("shared.ask") in told(page)
        page.screen.typed = ""


def test_a_folder_that_went_before_the_start_is_told_on_the_first_screen(shared, drive):
    folder, away = shared.room.folder, shared.words.text("shared.away")
    shared.close()
    drive.rename(drive.with_name("moved"))
    again = Pilot(folder, (800, 480))
    again.room.sharer.aside = AtOnce()
    assert isinstance(again.screen, Who)
    again.wait(2)
    assert away in told(again)
    drive.with_name("moved").rename(drive)
    later(again)
    assert away not in told(again)
    again.close()


def test_a_window_that_is_opened_again_goes_on_sharing(shared, drive, other):
    folder = shared.room.folder
    shared.close()
    look(other, drive)
    again = Pilot(folder, (800, 480))
    again.room.sharer.aside = AtOnce()
    again.wait(2)
    assert again.room.sharer.folder == drive and names(again.room.store) == ["Otter", "Seal"]
    again.close()

"""A learners' file that can't be opened: the window says why and tries again."""

import sqlite3
from contextlib import closing

import pygame
import pytest
from kept import added
from pilot import Pilot
from shipped import the_words

from frame.app import Replace
from frame.learner.store import Store, StoreError
from frame.learner.trouble import Trouble
from frame.screens.choosing.home import Home
from frame.screens.choosing.unopened import Unopened
from frame.screens.choosing.who import Who
from frame.screens.start import build_app


@pytest.fixture
def held(tmp_path):
    """A learners' file that another process holds."""
    path = tmp_path / "learners.sqlite"
    store = Store(path)
    added(store, "Seal", "seal")
    store.close()
    with closing(sqlite3.connect(path, isolation_level=None)) as holder:
        holder.execute("BEGIN EXCLUSIVE")
        yield path, holder


@pytest.fixture
def app(held):
    """The window on it."""
    app = build_app(held[0].parent, the_words(), (800, 480))
    yield app
    app.close()
    app.room.store.close()
    pygame.display.quit()


def button(app, key):
    text = the_words().text(key)
    return next(one for one in app.top.buttons if one.text == text)


def test_the_window_opens_and_says_why(app):
    assert isinstance(app.top, Unopened)
    assert app.top.error.trouble is Trouble.HELD


def test_esc_does_not_close_the_window(app):
    pygame.event.post(
        pygame.event.Event(pygame.KEYDOWN, key=pygame.K_ESCAPE, mod=0, unicode="\x1b", scancode=0)
    )
    app.turn(0)
    assert [type(screen) for screen in app.screens] == [Unopened]


def test_it_goes_on_by_itself_when_the_file_is_free(held, app):
    now = app.room.seconds()
    assert app.top.advance(now + 3) is None
    assert app.top.wakes_in(now + 3) is not None
    held[1].execute("COMMIT")
    change = app.top.advance(now + 60)
    assert isinstance(change, Replace)
    app.take(change)
    assert isinstance(app.top, Who)
    assert [one.nickname for one in app.room.learners()] == ["Seal"]


def test_one_can_go_on_and_keep_nothing(held, app):
    app.take(button(app, "store.without").act())
    assert isinstance(app.top, Who) and app.room.learners() == ()
    app.room.set_computer(marks_every=4)
    assert not app.room.is_unsaved
    held[1].execute("COMMIT")
    with closing(Store(held[0])) as store:
        assert store.computer().marks_every == 3


def test_a_folder_that_cannot_be_written_is_told_of_too(tmp_path):
    (tmp_path / "bead-frame").write_text("in the way")
    with pytest.raises(StoreError):
        Store(tmp_path / "bead-frame" / "learners.sqlite")
    app = build_app(tmp_path / "bead-frame", the_words(), (800, 480))
    assert isinstance(app.top, Unopened)
    app.close()
    app.room.store.close()
    pygame.display.quit()


def test_a_file_of_a_newer_version_is_told_of_too(held):
    path, holder = held
    holder.execute("COMMIT")
    holder.execute("PRAGMA user_version = 99")
    app = build_app(path.parent, the_words(), (800, 480))
    assert isinstance(app.top, Unopened) and app.top.error.trouble is Trouble.NEWER
    app.close()
    app.room.store.close()
    pygame.display.quit()


def test_who_sits_down_while_the_file_is_held_is_told_and_can_try_again(tmp_path):
    pilot = Pilot(tmp_path, (800, 480))
    pilot.welcome("Seal")
    pilot.key(pygame.K_ESCAPE)
    with closing(sqlite3.connect(pilot.room.store.path, isolation_level=None)) as holder:
        holder.execute("BEGIN EXCLUSIVE")
        pilot.press("Seal")
        assert isinstance(pilot.screen, Who)
        seen = " ".join(line for line, _ in pilot.repaint())
        assert pilot.words.text("store.held") in seen
        holder.execute("COMMIT")
    pilot.press("Seal")
    assert isinstance(pilot.screen, Home)
    pilot.close()


def test_a_newcomer_on_a_held_file_goes_on_and_is_kept_as_soon_as_it_can_be(tmp_path):
    pilot = Pilot(tmp_path, (800, 480))
    with closing(sqlite3.connect(pilot.room.store.path, isolation_level=None)) as holder:
        holder.execute("BEGIN EXCLUSIVE")
        pilot.welcome("Heron")
        pilot.room.set(free_rods=7)
        assert isinstance(pilot.screen, Home) and pilot.room.is_unsaved
        pilot.key(pygame.K_ESCAPE)
        pilot.press("Heron")
        assert pilot.room.settings.free_rods == 7
        holder.execute("COMMIT")
    pilot.wait(5)
    assert not pilot.room.is_unsaved
    with closing(Store(pilot.room.store.path)) as store:
        (heron,) = store.learners()
        assert (heron.nickname, store.settings(heron).free_rods) == ("Heron", 7)
    pilot.close()

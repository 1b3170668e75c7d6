"""Puts the window together: words, store, course, clocks; then who is here.

The course, the sounds and what draws beads are loaded after the first picture, which shows only
tickets. That is why some imports stand within functions, each with its reason beside it.
"""

import sys
import time
from collections.abc import Sequence
from contextlib import suppress
from datetime import UTC, datetime
from pathlib import Path
from random import SystemRandom
from typing import TYPE_CHECKING

import platformdirs
import pygame

from frame.app import App, NoScreen, Push, Screen, open_window
from frame.language.catalogue import Words
from frame.learner.keeper import Keeper
from frame.learner.store import Store, StoreError
from frame.resources import ASSETS, LESSONS, VOICE
from frame.room import Room
from frame.screens.choosing.unkept import Unkept
from frame.screens.choosing.unopened import Unopened
from frame.screens.choosing.who import Who
from frame.screens.parts.trouble import lost_line
from frame.view.lettering import Lettering
from frame.view.pictures import Pictures
from frame.view.stopping import closed_by_signals
from frame.view.system_fonts import SystemFonts
from frame.view.voice import open_sounds

if TYPE_CHECKING:
    from frame.course.agenda import Item
    from frame.course.course import CourseIndex

USUAL_SIZE = (1280, 720)
ICON_SIZE = 64
STORE_NAME = "learners.sqlite"
PATIENCE = 1.0
"""Seconds that the end of a window waits for a file which can't be written."""


class NoFolder(Exception):
    """The system names no folder of this user, as where a user has neither name nor home."""


def data_folder() -> Path:
    """The folder of this user in which the tool keeps its file. Raises NoFolder."""
    try:
        folder = Path(platformdirs.user_data_dir("bead-frame", appauthor=False))
    except (RuntimeError, ValueError, KeyError) as error:  # As the system and the version are.
        raise NoFolder from error
    if not folder.is_absolute():  # Older versions leave the ~ where there is no home.
        raise NoFolder
    return folder


def documents_folder() -> Path | None:
    """The folder of this user's documents; None where the system names none."""
    try:
        folder = Path(platformdirs.user_documents_dir())
    except (RuntimeError, ValueError, KeyError):
        return None
    return folder if folder.is_absolute() else None


def build_room(folder: Path, words: Words, store: Store) -> Room:
    """The room with everything in it."""
    pygame.font.init()
    return Room(
        words=words,
        keeper=Keeper(store),
        folder=folder,
        documents=documents_folder(),
        load_course=lambda: _course(folder),
        lettering=Lettering(ASSETS / "fonts"),
        pictures=Pictures(ASSETS / "pictures"),
        seconds=time.perf_counter,
        now=lambda: datetime.now(UTC),
        random=SystemRandom(),
    )


def _course(folder: Path) -> "CourseIndex":
    # The lesson loader and its YAML take a while to import, and nobody needs them to be greeted.
    from frame.course.course import index

    return index(LESSONS, folder / "course.json")


def build_app(
    folder: Path, words: Words, size: tuple[int, int] | None = None, items: "Sequence[Item]" = ()
) -> App:
    """The window with its first screen, as large as it was when it was closed unless a size is
    given; with items, the board with them stands before it. Raises NoScreen and StoreError."""
    room, first = _first(folder, words)
    try:
        asked = size or room.keeper.read(Store.window, None) or USUAL_SIZE
        window = open_window(asked, icon=room.pictures.get("icon", ICON_SIZE))
    except NoScreen:
        room.store.close()
        raise
    pygame.display.set_caption(words.text("app.title"))
    app = App(room, window, first)
    if items:
        from frame.screens.board.screen import BoardScreen

        app.take(Push(BoardScreen(room, items)))
    app.after_first_picture = lambda: _after_first_picture(app)
    return app


def _first(folder: Path, words: Words) -> tuple[Room, Screen]:
    """The room, and the first screen: who is here, or that the learners' file can't be opened."""

    def opening() -> Store:
        return Store(folder / STORE_NAME)

    try:
        store = opening()
    except StoreError as error:
        room = build_room(folder, words, Store(None))
        return room, Unopened(room, opening, error)
    room = build_room(folder, words, store)
    return room, Who(room)


def _items(agenda: Path) -> "Sequence[Item]":
    # As for the course: nobody needs it without an agenda.
    from frame.course.agenda import load_items

    return load_items(agenda)


def _after_first_picture(app: App) -> None:
    """What takes a while, and is needed only after somebody was seen to be greeted."""
    if app.room.lettering.use(SystemFonts()):
        app.top.touch_up()
    app.room.hear(open_sounds(ASSETS / "sounds", VOICE))
    app.greet()
    if app.room.store.needs_check:
        app.room.aside.do(app.room.store.check)
    app.room.course  # noqa: B018


def _wait_until_kept(app: App) -> None:
    """The window stays while not all is on disk, unless it is closed once more."""
    app.room.leave()
    while app.room.is_unsaved:
        waiting = Unkept(app.room)
        app.take(Push(waiting))
        app.run()
        app.room.leave()
        if not waiting.goes_on:
            return


def _end(room: Room, size: tuple[int, int]) -> None:
    """The size of the window is kept, where that can be, and the file closed; what else could not
    be written to the last is told."""
    with suppress(StoreError):
        room.store.keep_window(size)
    if room.is_unsaved:
        time.sleep(PATIENCE)
        room.keeper.send()
    if room.is_unsaved:
        print(lost_line(room.keeper, room.words), file=sys.stderr)
    room.store.close()


def run(words: Words, agenda: Path | None = None) -> int:
    """Open the window, on the board where a file with its items is given, and stay until it is
    closed; the number of the signal that closed it, or 0. Raises LessonError for such a file with
    a problem, before any window opens; NoScreen; NoFolder; StoreError."""
    items = _items(agenda) if agenda else ()
    with closed_by_signals() as came:
        app = build_app(data_folder(), words, items=items)
        try:
            app.run()
            _wait_until_kept(app)
        finally:
            app.close()
            app.room.leave()
            _end(app.room, app.size)
            pygame.quit()
            app.room.sharer.finish()
    return came[0] if came else 0

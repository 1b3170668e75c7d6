"""How a learner is getting on, for the adult: one page, read in a minute."""

from concurrent.futures import Future
from enum import StrEnum
from functools import partial

import pygame

from frame.aside import settle
from frame.language.lines import Line
from frame.learner.learners import Learner
from frame.learner.new_file import free_name, plain_name
from frame.learner.store import StoreError
from frame.learner.trouble import told_of
from frame.report.document import write_page
from frame.report.figures import Report
from frame.report.reading import read_beside, read_report
from frame.report.told import Page as Told
from frame.report.told import page_of
from frame.room import Room
from frame.screens.choosing.report_sheet import Sheet
from frame.screens.parts.fitting import short_name
from frame.screens.parts.merged import other_trouble_line
from frame.screens.parts.page import Page, shares
from frame.screens.parts.portraits import called
from frame.screens.parts.reported import lessons_of, report_folder
from frame.screens.parts.saved import paint_saved
from frame.screens.parts.way import Way
from frame.view.widgets import Brushes, Button

ANSWER_SECONDS = 0.05
"""How long after one question whether the record is read the next one is."""
_SUFFIX = ".html"
_TWO_COLUMNS = 115
"""Units across that two columns need."""


class Due(StrEnum):
    """What the page waits for."""

    ANSWER = "answer"


class ReportPage(Page):
    """The figures of whoever is here, in words; read beside the window's thread. The page can be
    saved for a browser."""

    def __init__(self, room: Room, learner: Learner) -> None:
        super().__init__(room)
        self.learner = learner
        self.report: Report | None = None
        self.told: Told | None = None
        self.said: Line | None = None
        self.is_saved = False
        self._reading = self._begun()
        self._take()

    def _begun(self) -> "Future[Report]":
        room, store = self.room, self.room.store
        lessons = lessons_of(Way(room.course, room.lessons, room.settings.all_open))
        asked = (store, self.learner, room.settings, lessons, room.now())
        if store.path is None:  # What is in memory is this thread's alone.
            future: Future[Report] = Future()
            settle(future, partial(read_report, *asked))
            return future
        return room.aside.do(partial(read_beside, *asked))

    def _take(self) -> None:
        """Take what was read, or wait for it."""
        if not self._reading.done():
            self.dues.put(Due.ANSWER, self.room.seconds() + ANSWER_SECONDS)
            return
        try:
            self.show(self._reading.result())
        except StoreError:
            self.said = self.room.words.line("report.unread")

    def show(self, report: Report) -> None:
        """Show these figures."""
        self.report = report
        self.told = page_of(report, self.learner.nickname, self.room.words)

    @property
    def greeting(self) -> Line:
        """Whose page it is, or what became of it. The page itself is not read aloud: a child may be
        near."""
        words = self.room.words
        return self.said or words.line("report.title", name=called(words, self.learner))

    def advance(self, now: float) -> None:
        """What is read may be there."""
        super().advance(now)
        if self.dues.take(Due.ANSWER, now):
            self._take()
            self.rearrange()

    def leave(self) -> None:
        """What is not read yet need not be."""
        self._reading.cancel()

    def arrange(self) -> None:
        """The page can be saved once it is there, if it was not; then it is told where."""
        if self.report is not None and not self.is_saved:
            text = self.room.words.text("report.save")
            self.buttons.append(Button(self._foot, self.save, text))

    @property
    def _foot(self) -> pygame.Rect:
        """The button's place."""
        place = self.band(79, 8.5)
        place.w = round((24 if self.is_narrow else 36) * self.unit)
        return place

    def save(self) -> None:
        """Save the page under a name not taken."""
        if self.report is None:
            return
        words, folder = self.room.words, report_folder(self.room)
        path = free_name(folder / f"{_file_name(self.learner, self.report)}{_SUFFIX}")
        try:
            with told_of(folder):
                folder.mkdir(parents=True, exist_ok=True)
            write_page(path, self.report, self.learner, words)
        except StoreError as error:
            line = other_trouble_line(error.trouble, words)
        else:
            line, self.is_saved = words.line("report.saved"), True
        self.said = Line(f"{short_name(path)}: {line.show}", line.speak)
        self.greet()
        self.rearrange()

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, and what there is to read."""
        words = self.room.words
        self.paint_title(brushes, words.text("report.title", name=self.learner.nickname))
        if self.told is None:
            said = self.said.show if self.said else words.text("report.reading")
            brushes.text(said, self.band(14, 12), 1)
            return
        is_single = self.across < _TWO_COLUMNS
        sheet = Sheet(brushes, words, self.told, is_single)
        if is_single:
            below = sheet.paint_sums(self.band(11.5, 34)) + round(self.unit)
            rest = self.band(46, 32)
            rest.top, rest.h = below, rest.bottom - below
            rest = sheet.paint_fault_and_home(rest)
        else:
            whole = self.band(13, 64)
            left, _, right = shares(whole, (0.56, 0.06, 0.38))
            sheet.paint_sums(left)
            rest = sheet.paint_fault_and_home(right)
        sheet.paint_week(rest)
        place = self.band(79, 9)
        if not self.is_saved:
            end = self._foot.right + round(2 * self.unit)
            place.w, place.left = place.right - end, end
        if self.said:
            paint_saved(brushes, place, self.said.show, report_folder(self.room))
        else:
            meant = () if is_single else (self.told.legend, self.told.over)
            text = " ".join((f"{self.told.day}.", *filter(None, meant)))
            brushes.text(text, place, 0, soft=True)


def _file_name(learner: Learner, report: Report) -> str:
    return f"report-{plain_name(learner.nickname)}-{report.day}"

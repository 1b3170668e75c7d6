"""A page for each child of a class, for its parents."""

from collections.abc import Sequence
from contextlib import closing
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from frame.course.course import CourseIndex
from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.learner.learners import Learner
from frame.learner.new_file import free_name, plain_name
from frame.learner.store import Store
from frame.learner.trouble import told_of
from frame.report.told import page_of
from frame.room import Room
from frame.screens.parts.reported import read_reported
from frame.screens.tutor.rows import Rows
from frame.screens.tutor.saving import SavingPage, Work, class_folder
from frame.view.widgets import Brushes, Button, Style


@dataclass(frozen=True, slots=True)
class _ReportToSave:
    """A report that is asked for, and what it needs to be read and written beside the window."""

    store: Store
    learner: Learner
    course: CourseIndex
    now: datetime
    words: Words
    folder: Path

    def save(self) -> Path:
        """Read it and write it. Raises StoreError."""
        # What writes PDFs is needed by nobody before.
        from frame.printing.report_page import write_report

        with closing(self.store.second()) as second:
            report = read_reported(second, self.learner, self.course, self.now)
        page = page_of(report, self.learner.nickname, self.words)
        with told_of(self.folder):
            self.folder.mkdir(parents=True, exist_ok=True)
        path = free_name(self.folder / f"report-{plain_name(self.learner.nickname)}.pdf")
        write_report(path, page, self.words)
        return path


def saving_report(room: Room, learner: Learner) -> Work:
    """What saves the report of a child."""
    folder = class_folder(room)
    return _ReportToSave(room.store, learner, room.course, room.now(), room.words, folder).save


class ReportsPage(SavingPage):
    """Says what the pages are, and saves all of them at once."""

    def __init__(self, room: Room, learners: Sequence[Learner]) -> None:
        super().__init__(room)
        self.learners = tuple(learners)

    @property
    def greeting(self) -> Line:
        """What the pages are."""
        return self.room.words.line("class.about_reports")

    def save_all(self) -> None:
        """Have them saved."""
        works = [saving_report(self.room, one) for one in self.learners]
        self.save(works, class_folder(self.room))

    def arrange(self) -> None:
        """What saves them."""
        if not self.is_saving and self.folder is None:
            place = self.band(48, 12)
            place.w = min(place.w, round(60 * self.unit))
            text = self.room.words.text("class.save_reports", count=len(self.learners))
            self.buttons.append(Button(place, self.save_all, text, style=Style.MAIN))

    def paint_rest(self, brushes: Brushes) -> None:
        """What they are, and where they were saved."""
        words = self.room.words
        self.paint_title(brushes, words.text("class.reports"))
        Rows(brushes, self.band(16, 28), 1).write(self.greeting.show, most=6)
        self.paint_told(brushes, self.band(46, 12))

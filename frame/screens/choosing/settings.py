"""Settings, for grown-ups: how it looks and sounds, what the school does, who and where."""

from collections.abc import Callable
from functools import partial

import pygame

from frame.app import Change, Pop, Push, Screen
from frame.language.lines import Line
from frame.learner.learners import Learner
from frame.learner.looks import Portrait
from frame.learner.settings import Age
from frame.learner.store import StoreError
from frame.learner.trouble import Trouble
from frame.practice.wanted import MIDDLE, OLDER, YOUNG
from frame.room import Room
from frame.screens.board.screen import BoardScreen
from frame.screens.choosing.classroom import ClassroomScreen
from frame.screens.choosing.code import NewCode
from frame.screens.choosing.joined import joined_text
from frame.screens.choosing.newcomer import ChooseAnimal, shared_text
from frame.screens.choosing.report import ReportPage
from frame.screens.choosing.same_child import SameChild
from frame.screens.choosing.sections import COMPUTER, LEARNER, SECTIONS, USUAL_MINUTES, Section
from frame.screens.choosing.shared_folder import SharedFolder
from frame.screens.choosing.sheets import SheetsPage
from frame.screens.choosing.two_computers import TwoComputers
from frame.screens.marking.marks import MarksScreen
from frame.screens.parts.dials import Dial, DialPage
from frame.screens.parts.naming import NamePage
from frame.screens.parts.page import Tab, abreast, lines
from frame.screens.parts.portraits import animal_name, called
from frame.screens.parts.trouble import trouble_text
from frame.screens.tutor.giving import GivingScreen
from frame.view.theme import type_size
from frame.view.widgets import Brushes, Button, Style, paint_ticket

_MINUTES = {
    Age.YOUNG: round(YOUNG.minutes),
    Age.MIDDLE: round(MIDDLE.minutes),
    Age.OLDER: round(OLDER.minutes),
}
"""What is usual for the set of a day."""


class NewName(NamePage):
    """Another name for whoever is here."""

    def __init__(self, room: Room) -> None:
        learner = room.learner or Learner("", "", "")
        usual = animal_name(room.words, learner.picture)
        name = "" if learner.nickname == usual else learner.nickname
        super().__init__(room, learner.picture, name, usual)
        self.asked = room.words.line("who.rename", name=called(room.words, learner))

    @property
    def greeting(self) -> Line:
        """Who gets another name."""
        return self.asked

    def take(self, nickname: str) -> Change | None:
        """Keep it."""
        self.room.rename(nickname, self.picture)
        return Pop()


class SettingsScreen(DialPage):
    """Rows of choices, a section at a time: those of the learner who is here, or where nobody is
    the computer's own, by which the board goes and with which newcomers begin."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.page = 0
        self.asks = False
        self.trouble: Trouble | None = None
        self._read_learners()

    def _read_learners(self) -> None:
        """Who was joined as one child with whoever is here, and who else has their picture."""
        learner = self.room.learner
        self.joined = joined_text(self.room)
        self.shared = shared_text(self.room, learner.picture) if learner else ""

    @property
    def sections(self) -> tuple[Section, ...]:
        """The pages there are."""
        return (*SECTIONS, *((LEARNER,) if self.room.learner else ()), COMPUTER)

    @property
    def section(self) -> Section:
        """The page shown: the last one still, when nobody is here because a board lies above."""
        return self.sections[min(self.page, len(self.sections) - 1)]

    @property
    def greeting(self) -> Line:
        """For whom the settings of the page are."""
        learner, words = self.room.learner, self.room.words
        if self.section is COMPUTER:
            return words.line("settings.title_computer")
        if learner is None:
            return words.line("settings.title_newcomers")
        return words.line("settings.title_of", name=called(words, learner))

    def arrange(self) -> None:
        """The rows, what else there is to do on the page, and the way to the other pages."""
        self.top, self.bottom = 14 if self.is_narrow else 16, 68 if self.section.note else 78
        super().arrange()
        if self.section is LEARNER and self.room.learner:
            self._arrange_learner(self.room.learner)
        elif self.section is COMPUTER:
            self._arrange_computer()
        text = self.room.words.text
        tabs = [
            Tab(text(one.key), self._turner(page), page == self.page)
            for page, one in enumerate(self.sections)
        ]
        self.buttons += self.tabs(self.band(79, 10 if self.is_narrow else 7.5), tabs, 0)

    def _turner(self, page: int) -> Callable[[], None]:
        def turn() -> None:
            before = self.greeting
            self.page, self.asks = page, False
            self.rearrange()
            if self.greeting != before:
                self.greet()

        return turn

    def rows(self) -> tuple[Dial, ...]:
        """A row of choices for each setting."""
        return tuple(
            self.pick(
                one.key,
                name=one.name,
                values=[(self._choice(key), value) for key, value in one.choices],
            )
            for one in self.section.rows
        )

    def _choice(self, key: str) -> Line:
        """The words for a choice. What goes by age tells the minutes: those of whoever is here, or
        where nobody is of all ages."""
        words = self.room.words
        if key != USUAL_MINUTES:
            return words.line(key)
        if self.room.learner is not None:
            return words.line(key, minutes=_MINUTES[self.room.settings.age])
        young, middle, older = _MINUTES.values()
        ages = words.line("settings.today_ages", young=young, middle=middle, older=older)
        return words.line(key, minutes=ages)

    def _arrange_computer(self) -> None:
        text = self.room.words.text
        classroom, board = self._halves(32)
        code, two, shared = abreast(self.band(44, 9), 3, 2 * self.unit)
        self.buttons += [
            Button(classroom, partial(self._open, ClassroomScreen), text("classroom.title")),
            Button(board, partial(self._open, BoardScreen), text("sign.board")),
            Button(code, partial(self._open, self._new_code), text("code.change")),
            Button(two, partial(self._open, TwoComputers), text("two_computers.title")),
            Button(shared, partial(self._open, SharedFolder), text("shared.title")),
        ]
        of_class, sheets = self._halves(56)
        self.buttons.append(Button(of_class, self._open_class, text("class.title")))
        if self.room.learner is None:  # Else they stand beside the report.
            self.buttons.append(
                Button(sheets, partial(self._open, SheetsPage), text("sheets.title"))
            )

    def back(self) -> Change | None:
        """From a question back to what led to it."""
        if self.asks:
            self._keep()
            return None
        return super().back()

    def _halves(self, top: float) -> list[pygame.Rect]:
        return abreast(self.band(top, 9), 2, 2 * self.unit)

    def _open(self, make: Callable[[Room], Screen]) -> Change:
        return Push(make(self.room))

    def _open_class(self) -> Change:
        # A class brings the planner with it, and its sheets.
        from frame.screens.tutor.screen import ClassPage

        return Push(ClassPage(self.room))

    def _new_code(self, room: Room) -> Screen:
        return NewCode(room, Pop())

    def _arrange_learner(self, learner: Learner) -> None:
        words = self.room.words
        if self.asks:
            keep, remove = self._halves(46)
            self.buttons += [
                Button(keep, self._keep, words.text("who.remove_no"), style=Style.MAIN),
                Button(remove, partial(self._remove, learner), words.text("who.remove_yes")),
            ]
            return
        _, beside = self._ticket_and_beside()
        name, picture = self._halves(34)
        same, remove = self._halves(58)
        line = words.line("who.remove", name=called(words, learner))
        self.buttons += [
            *self._openers(learner, beside),
            Button(name, partial(self._open, NewName), words.text("who.change_name")),
            Button(picture, self._change_picture, words.text("who.change_picture")),
            Button(same, partial(self._open, SameChild), words.text("same_child.open")),
            Button(remove, self._ask, line.show, name=line.speak),
        ]

    def _ticket_and_beside(self) -> tuple[pygame.Rect, pygame.Rect]:
        """The places of the learner's ticket and of the buttons beside it."""
        ticket, beside = abreast(self.band(15, 16), 2, 2 * self.unit)
        more = round(0.12 * ticket.w) if self.is_narrow else 0
        ticket.w, beside.w, beside.left = ticket.w + more, beside.w - more, beside.left + more
        return ticket, beside

    def _openers(self, learner: Learner, place: pygame.Rect) -> list[Button]:
        """What opens pages about a learner: they share a place, in two lines, or in a narrow window
        one below the other."""
        openers: tuple[tuple[str, Callable[[Room], Screen]], ...] = (
            ("report.open", partial(ReportPage, learner=learner)),
            ("sheets.title", SheetsPage),
            ("marks.open", partial(MarksScreen, learner=learner)),
            ("giving.open", partial(GivingScreen, learners=(learner,))),
        )
        count, between = len(openers), round(self.unit)
        in_line = 1 if self.is_narrow else -(-count // 2)
        places = lines(place.inflate(0, between), count, in_line, between)
        return [
            Button(at.inflate(0, -between), partial(self._open, make),
                   self.room.words.text(key))
            for at, (key, make) in zip(places, openers, strict=True)
        ]  # fmt: skip

    def _change_picture(self) -> Change:
        return Push(ChooseAnimal(self.room, Pop))

    def resumed(self, result: object) -> Change | None:
        """A portrait was chosen, or a name given: whoever is called like their animal still is."""
        learner, words = self.room.learner, self.room.words
        if learner is not None and isinstance(result, Portrait):
            is_unnamed = learner.nickname == animal_name(words, learner.picture)
            name = animal_name(words, result.picture) if is_unnamed else learner.nickname
            self.room.rename(name, result.picture)
        self._read_learners()
        self.rearrange()
        return None

    def _ask(self) -> None:
        self.asks = True
        self.rearrange()

    def _keep(self) -> None:
        self.asks, self.trouble = False, None
        self.rearrange()

    def _remove(self, learner: Learner) -> Change | None:
        try:
            self.room.remove(learner)
        except StoreError as error:
            self.trouble = error.trouble
            self.rearrange()
            return None
        self.room.leave()
        return Pop()

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, the names of the settings, notes."""
        words, learner = self.room.words, self.room.learner
        self.paint_title(brushes, self.greeting.show)
        self.paint_rows(brushes)
        if self.section.note:
            brushes.text(words.text(self.section.note), self.band(68, 9), 0)
        if self.section is LEARNER and learner is not None:
            self._paint_learner(brushes, learner)

    def _paint_learner(self, brushes: Brushes, learner: Learner) -> None:
        """Their ticket, and that what they do stays here; or what is asked before they go."""
        words = self.room.words
        ticket, _ = self._ticket_and_beside()
        paint_ticket(brushes, ticket, learner.picture, learner.nickname)
        if self.asks:
            why = f"{trouble_text(self.trouble, words)} " if self.trouble else ""
            text = words.text("who.remove_ask", name=learner.nickname)
            back = words.text("who.remove_backup")
            brushes.text(f"{why}{text} {back}", self.band(33, 12), 1)
            return
        is_shared = self.room.sharer.folder is not None
        key = "settings.kept_shared" if is_shared else "settings.kept_here"
        kept = words.text(key, name=learner.nickname)
        brushes.text(f"{self.shared} {kept}".strip(), self.band(46, 9), 1)
        brushes.name(self.joined, self.band(68.5, 8), type_size(1, self.size[1]))

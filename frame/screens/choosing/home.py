"""Home: the course as what it is about, a frame with a rod for each unit.

The four earth beads of a rod are its first lessons, the heaven bead its covered last one; what
is done lies at the beam.
"""

import pygame

from frame.app import Change, Pop, Push
from frame.course.attempts import Position
from frame.course.course import LessonEntry, UnitEntry
from frame.language.lines import Line
from frame.room import Room
from frame.screens.choosing.free import FreeFrame
from frame.screens.choosing.lock import Lock
from frame.screens.choosing.own_lessons import OwnLessons, has_own_lessons
from frame.screens.choosing.practise import PractiseScreen
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.screen import LessonScreen
from frame.screens.parts.panel import Panel
from frame.technique.beads import BeadMove, Frame
from frame.view.bead_field import BeadField
from frame.view.geometry import Bead
from frame.view.inputs import Input, Key, Press
from frame.view.painter import Appearance
from frame.view.widgets import Brushes, Button, Style


class Home(Panel):
    """The course, the next lesson lit, and what else there is to do."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.said = ""
        self.cursor: tuple[int, int] | None = None  # unit, lesson
        self.field: BeadField | None = None

    @property
    def next_lesson(self) -> LessonEntry | None:
        """The first lesson left half done, else the first not yet done."""
        lessons = self.room.course.lessons
        half_done = (entry for entry in lessons if self._is_half_done(entry))
        not_done = (entry for entry in lessons if not self._is_done(entry))
        return next(half_done, None) or next(not_done, None)

    def _is_half_done(self, entry: LessonEntry) -> bool:
        state = self.room.lessons.get(entry.id)
        return state is not None and not state.done and state.position != Position()

    def _is_done(self, entry: LessonEntry) -> bool:
        state = self.room.lessons.get(entry.id)
        return state is not None and state.done

    def _is_open(self, entry: LessonEntry) -> bool:
        upcoming = self.next_lesson
        return self._is_done(entry) or entry == upcoming or self.room.settings.all_open

    def _lessons(self, unit: UnitEntry) -> tuple[LessonEntry, ...]:
        return self.room.course.lessons_of(unit.id)

    def _frame(self) -> Frame:
        """The course as a frame: lessons done one after another lie at the beam."""
        digits = ""
        for unit in self.room.course.units:
            done = [self._is_done(entry) for entry in self._lessons(unit)]
            earth = next((at for at, one in enumerate(done[:4]) if not one), 4)
            digits += str(earth + 5 * all(done[4:5]))
        return Frame(digits, len(digits) - 1)

    def resumed(self, result: object) -> Change | None:
        """A lesson, the free frame or the settings are left; a lesson may ask for the next."""
        self.said = ""
        if self.room.learner is None:
            return Pop()
        self.rearrange()
        following = self.next_lesson
        if result == "next" and following is not None:
            return Push(LessonScreen(self.room, Keeping.begin(self.room, following.id)))
        return None

    def arrange(self) -> None:
        """The frame of the course and the buttons under it."""
        margin = 12
        area = self.rect(margin, 13, self.across - 2 * margin, 56)
        self.field = BeadField(self.room.painter, self._frame(), area)
        self.field.appear(Appearance())
        upcoming = self.next_lesson
        self.field.hint([self._move_of(upcoming)] if upcoming else [])
        self._arrange_buttons(margin, upcoming)

    def _arrange_buttons(self, margin: float, upcoming: LessonEntry | None) -> None:
        words = self.room.words
        entry = upcoming or self.room.course.lessons[-1]
        begun = entry.id in self.room.lessons
        key = "home.again" if upcoming is None else "home.go_on" if begun else "home.start"
        wide = self.across - 2 * margin
        has_own = self.room.settings.all_open or has_own_lessons(self.room)
        main, other = (0.38, 0.21) if has_own else (0.44, 0.22)
        row = [
            (words.text(key, title=entry.title), lambda: self._open(entry), Style.MAIN, main),
            (words.text("home.practise"), self._practise, Style.PLAIN, other),
            (words.text("home.free"), self._free, Style.PLAIN, other),
        ]
        x = margin
        for text, act, style, share in row:
            place = self.rect(x, 77, wide * share - 3, 9)
            self.buttons.append(Button(place, act, text, style=style, step=1))
            x += wide * share
        gear = self.rect(margin + wide - 9, 77, 9, 9)
        self.buttons.append(Button(gear, self._settings, sign="gear", style=Style.SIGN))
        if has_own:
            own = self.rect(margin + wide - 20, 77, 9, 9)
            self.buttons.append(Button(own, self._own, sign="own", style=Style.SIGN))
        learner = self.room.learner
        if learner is not None:
            place = self.rect(margin + wide - 8, 3, 8, 8)
            self.buttons.append(
                Button(place, self.back, picture=learner.picture, style=Style.PORTRAIT)
            )

    @property
    def greeting(self) -> Line | None:
        """The main thing to do."""
        main = self.main_button()
        text = self.buttons[main].text if main is not None else ""
        return Line(text, text) if text else None

    def _open(self, entry: LessonEntry) -> Change:
        return Push(LessonScreen(self.room, Keeping.begin(self.room, entry.id)))

    def _practise(self) -> Change:
        return Push(PractiseScreen(self.room))

    def _free(self) -> Change:
        return Push(FreeFrame(self.room))

    def _own(self) -> Change:
        return Push(OwnLessons(self.room))

    def _settings(self) -> Change:
        return Push(Lock(self.room))

    def _move_of(self, entry: LessonEntry) -> BeadMove:
        """The bead move that stands for doing a lesson."""
        units = [unit.id for unit in self.room.course.units]
        rod = len(units) - 1 - units.index(entry.unit)
        is_last = self.room.course.lessons_of(entry.unit).index(entry) == 4
        return BeadMove(rod, 5 if is_last else 1)

    def handle(self, event: Input) -> Change | None:
        """A touched bead is a lesson."""
        if isinstance(event, Press) and self.field and self.button_at(event.at) is None:
            hit = self.field.layout.bead_at(event.at, self.field.pose)
            if hit is not None:
                return self._choose(hit[0], 4 if hit[1].is_heaven else hit[1] - 1)
        if isinstance(event, Key) and event.code in _ARROWS:
            self._move_cursor(*_ARROWS[event.code])
            return None
        if isinstance(event, Key) and event.code == pygame.K_RETURN and self.cursor:
            return self._choose(*self.cursor)
        if isinstance(event, Key) and event.code == pygame.K_TAB and self.cursor is not None:
            self.cursor, self.said = None, ""
            self.touch_up()
        return super().handle(event)

    def _choose(self, unit: int, lesson: int) -> Change | None:
        lessons = self._lessons(self.room.course.units[unit])
        if lesson >= len(lessons):
            return None
        entry = lessons[lesson]
        if self._is_open(entry):
            self.room.click()
            return self._open(entry)
        upcoming = self.next_lesson
        if upcoming is not None:
            self.said = self.room.words.text("home.locked", title=upcoming.title)
            self.touch_up()
        return None

    def _move_cursor(self, across: int, up: int) -> None:
        units = self.room.course.units
        unit, lesson = self.cursor or (0, 0)
        unit = (unit + across) % len(units)
        lesson = (lesson - up) % 5 if self.cursor else lesson
        self.cursor = unit, lesson
        self.said = self._lessons(units[unit])[lesson].title
        self.room.say(Line(self.said, self.said))
        self.focus_button(None)
        self.touch_up()

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, the frame, the names of the units."""
        field = self.field
        if field is None:
            return
        unsaved = self.room.words.text("lesson.unsaved") if self.room.is_unsaved else ""
        title = self.said or unsaved or self.room.words.text("home.title")
        place = self.rect(12, 3, self.across - 54, 9)
        brushes.text(title, place, 2, bold=True)
        if self.room.learner is not None:
            name = self.rect(self.across - 40, 3, 19, 8)
            brushes.text(self.room.learner.nickname, name, 1, soft=True, align="right")
        field.paint(brushes.surface)
        if self.cursor is not None:
            unit, lesson = self.cursor
            bead = Bead.HEAVEN if lesson == 4 else Bead(Bead.EARTH_1 + lesson)
            field.painter.draw_touched(brushes.surface, field.layout, unit, bead, field.pose)
        self._paint_names(brushes, field)

    def _paint_names(self, brushes: Brushes, field: BeadField) -> None:
        upcoming = self.next_lesson
        for unit, (_, middle) in zip(self.room.course.units, field.rod_places(), strict=True):
            width = field.layout.spacing - round(self.unit / 2)
            place = pygame.Rect(0, 0, width, round(6 * self.unit))
            place.midtop = middle, field.box.bottom + round(0.5 * self.unit)
            here = upcoming in self._lessons(unit)
            brushes.text(unit.title, place, 0, soft=not here, bold=here, align="centre")


_ARROWS = {
    pygame.K_LEFT: (-1, 0), pygame.K_RIGHT: (1, 0), pygame.K_UP: (0, 1), pygame.K_DOWN: (0, -1),
}  # fmt: skip

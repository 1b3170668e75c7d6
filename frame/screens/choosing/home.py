"""Home: the course as a frame, and what there is to do."""

from collections.abc import Callable, Sequence
from enum import StrEnum

import pygame

from frame.app import Change, Pop, Push, Screen
from frame.course.course import LessonEntry
from frame.course.lesson import Unit
from frame.course.placement import Result
from frame.language.lines import Line
from frame.room import Room
from frame.screens.choosing.course_map import CourseMap
from frame.screens.choosing.free import FreeFrame
from frame.screens.choosing.given_page import GivenPage
from frame.screens.choosing.lock import for_grown_ups
from frame.screens.choosing.own_lessons import OwnLessons, has_own_lessons
from frame.screens.choosing.placed import PlacedPage
from frame.screens.choosing.practise import PractiseScreen
from frame.screens.choosing.shown_given import given_line, given_screen
from frame.screens.grown.screen import LOOK_SECONDS, GrownScreen
from frame.screens.lesson.given_now import Given, given_now
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.placement import begin_placement
from frame.screens.lesson.screen import LessonScreen
from frame.screens.lesson.today import begin_today, can_begin_today, left_today
from frame.screens.parts.outcome import Begin, Next, NextGiven
from frame.screens.parts.page import Page, abreast
from frame.screens.parts.portraits import portrait_name
from frame.screens.parts.trouble import kept_note
from frame.screens.parts.way import Way
from frame.technique.beads import Frame
from frame.view.inputs import Input, Key, Press
from frame.view.theme import type_size
from frame.view.widgets import Brushes, Button, Style

_BESIDE, _GIVEN = 118, 11
"""Units across that what a tutor gave needs beside today's place; else so many of the course."""


class Due(StrEnum):
    """What it waits for."""

    COUNTED = "counted"


class Home(Page):
    """The course, the next lesson lit, and what else there is to do. What was pressed and needs to
    know what the learner did comes as soon as that is counted."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.said = ""
        self.cursor: tuple[int, int] | None = None  # unit, lesson
        self.map: CourseMap | None = None
        self._given = Given((), (), ())
        self._opened: LessonEntry | None = None
        self._before: Frame | None = None
        self._stands: Frame | None = None
        self._coming: Callable[[], Screen | Line] | None = None

    @property
    def way(self) -> Way:
        """Where the learner stands."""
        room = self.room
        return Way(room.course, room.lessons, room.settings.all_open)

    @property
    def next_lesson(self) -> LessonEntry | None:
        """The lesson that comes next."""
        return self.way.upcoming

    def _lessons(self, unit: Unit) -> tuple[LessonEntry, ...]:
        return self.room.course.lessons_of(unit.id)

    def resumed(self, result: object) -> Change | None:
        """A lesson, the free frame or the settings are left; a lesson may ask for the next."""
        self.said = ""
        if self.room.learner is None:
            return Pop()
        self._before, self._stands = self._stands, None
        self.rearrange()
        if isinstance(result, Result):
            return Push(PlacedPage(self.room, result))
        if isinstance(result, NextGiven):
            return self._open_given(result.id)
        following = self.way.after(result.lesson_id) if isinstance(result, Next) else None
        if isinstance(result, Begin):
            following = self.room.course.by_id[result.lesson_id]
        return self._open(following) if following else None

    def renewed(self) -> None:
        """A tutor may have given something."""
        self.rearrange()

    def arrange(self) -> None:
        """The frame of the course and the buttons under it."""
        way = self.way
        self._given = given_now(self.room)
        area = self.band(22, 30) if self.is_narrow else self.band(13, 45)
        if self.across < _BESIDE and self._given_line is not None:
            area.h -= round((_GIVEN + 1) * self.unit)
        self.map = CourseMap(self.room, way, area, self._before)
        self._before = None
        corner = self._corner()
        row = self.band(77, 9)
        row.w = corner[-1].place.left - round(3 * self.unit) - row.left
        self._arrange_row(row, way.upcoming)
        self.buttons += corner + self.speaker(self._speaker)
        learner = self.room.learner
        if learner is not None:
            self.buttons.append(
                Button(
                    self._face,
                    self.back,
                    picture=learner.picture,
                    style=Style.TICKET,
                    name=portrait_name(self.room.words, learner.picture),
                )
            )

    @property
    def head(self) -> float:
        """In a narrow window the sign below the face is part of it."""
        return 22.0 if self.is_narrow else super().head

    @property
    def _speaker(self) -> pygame.Rect:
        """In the corner; in a narrow window, where the face is there, below it."""
        return self.corner.move(0, round(10 * self.unit) if self.is_narrow else 0)

    @property
    def _face(self) -> pygame.Rect:
        size = round(8 * self.unit)
        return pygame.Rect(self.band(3, 8).right - size, round(3 * self.unit), size, size)

    def _corner(self) -> list[Button]:
        """From the right: the settings; for who needs them the tutor's own lessons; where there is
        a set for today, and so no room elsewhere, placement."""
        acts = {"gear": self._settings}
        if self.room.settings.all_open or has_own_lessons(self.room):
            acts["own"] = self._own
        if can_begin_today(self.room) and self.way.upcoming is not None:
            acts["placement"] = self._place
        row = self.band(77, 9)
        place = pygame.Rect(row.right - row.h, row.top, row.h, row.h)
        apart = row.h + round(2 * self.unit)
        return [
            Button(place.move(-at * apart, 0), act, sign=sign, style=Style.SIGN)
            for at, (sign, act) in enumerate(acts.items())
        ]

    def _arrange_row(self, row: pygame.Rect, upcoming: LessonEntry | None) -> None:
        """What to do today, where something is known; the next lesson, and beside it, or in a
        narrow window below, the others. What a tutor gave to do here comes before both."""
        words, entry = self.room.words, upcoming or self.room.course.lessons[-1]
        has_today = can_begin_today(self.room)
        has_given = bool(self._given.on_screen)
        is_done = self.room.today_done == self.room.now().date()
        begun = self.way.is_begun(entry)
        key = "home.again" if upcoming is None else "home.go_on" if begun else "home.start"
        main = self.band(66, 9)
        if not self.is_narrow:
            main = pygame.Rect(row.topleft, (round(row.w * 0.46), row.h))
            used = main.w + round(3 * self.unit)
            row = pygame.Rect(row.left + used, row.top, row.w - used, row.h)
        practise, free = abreast(row, 2, 3 * self.unit)
        text = words.text(key, title=entry.title)
        place = self.band(55 if self.is_narrow else 66, 9)
        grown = place.copy()
        grown.left = free.left if not self.is_narrow else place.left + round(place.w * 0.62)
        grown.w = place.right - grown.left
        place.w = grown.left - round(3 * self.unit) - place.left
        place = self._arrange_given(place)
        if has_today:
            style = Style.PLAIN if is_done or has_given else Style.MAIN
            name = words.text("today.title")
            if left_today(self.room) is not None:
                name = words.text("home.go_on", title=name)
            self.buttons.append(Button(place, self._today, name, sign="today", style=style))
        else:
            name = words.text("placement.offer")
            self.buttons.append(Button(place, self._place, name, sign="placement"))
        is_next = (is_done or not has_today) and not has_given
        style = Style.MAIN if is_next else Style.PLAIN
        self.buttons += [
            Button(main, lambda: self._open(entry), text, style=style),
            Button(practise, self._practise, words.text("home.practise")),
            Button(free, self._free, words.text("home.free")),
            Button(grown, self._grown, words.text("grown.title"), sign="grown"),
        ]

    def _arrange_given(self, place: pygame.Rect) -> pygame.Rect:
        """What a tutor gave, at the left of today's place, or where there is no room above it, and
        the main thing to do, unless it is on paper; at the right, that all is done. What is left
        of the place."""
        line, is_open = self._given_line, bool(self._given.open)
        if line is None:
            return place
        if self.across < _BESIDE:
            given = self.band((55 if self.is_narrow else 66) - _GIVEN, 9)
        else:
            given, gap = place.copy(), round(3 * self.unit)
            place.w = round(0.38 * place.w)
            given.w -= place.w + gap
            if is_open:
                place.left = given.right + gap
            else:
                given.left = place.right + gap
        style = Style.MAIN if self._given.on_screen else Style.PLAIN
        sign = "slip" if is_open else "tick"
        self.buttons.append(
            Button(given, self._do_given, line.show, sign=sign, name=line.speak, style=style)
        )
        return place

    @property
    def _given_line(self) -> Line | None:
        return given_line(self.room, self._given)

    @property
    def greeting(self) -> Line | None:
        """The main thing to do."""
        main = self.main_button()
        if main is None:
            return None
        button = self.buttons[main]
        return Line(button.text, button.name or button.text)

    def _open(self, entry: LessonEntry) -> Change | None:
        self._opened = entry
        self._stands = self.map.field.frame if self.map else None
        return self._begin(lambda: LessonScreen(self.room, Keeping.begin(self.room, entry.id)))

    def _begin(self, screen: Callable[[], Screen | Line]) -> Change | None:
        """Go to a screen that needs to know what the learner did."""
        self._coming = screen
        if not self.room.known.is_counted:
            self._tell(self.room.words.text("grown.counting"))
        return self._come()

    def _come(self) -> Change | None:
        """What is to come, once it is counted what the learner did; or why it can't."""
        if self._coming is None:
            return None
        if not self.room.known.is_counted:
            self.dues.put(Due.COUNTED, self.room.seconds() + LOOK_SECONDS)
            return None
        coming, self._coming = self._coming, None
        screen = coming()
        if isinstance(screen, Line):
            self._tell(screen.show)
            return None
        return Push(screen)

    def press_button(self, index: int) -> Change | None:
        """What was to come comes no more."""
        self._coming = None
        return super().press_button(index)

    def advance(self, now: float) -> Change | None:
        """What was to come does; a bead that came to be done glides to the beam, and is heard
        there."""
        change = super().advance(now)
        if self.dues.take(Due.COUNTED, now):
            change = self._come()
        field = self.map.field if self.map else None
        if field is not None and field.is_moving:
            field.advance(now)
            self.touch_up(field.box)
            if field.take_landed():
                self.room.click()
        return change

    def wakes_in(self, now: float) -> float | None:
        """At once while a bead glides."""
        is_moving = self.map is not None and self.map.field.is_moving
        return 0.0 if is_moving else super().wakes_in(now)

    def _do_given(self) -> Change | None:
        """The only thing that is open, or all of them to choose from."""
        if len(self._given.open) != 1 or self._given.waiting:
            return self._begin(lambda: GivenPage(self.room))
        return self._open_given(self._given.open[0].id)

    def _open_given(self, id: str) -> Change | None:
        """What a tutor gave under this id, where it is open still."""
        one = next((one for one in self._given.open if one.id == id), None)
        if one is None:
            return None
        self._stands = self.map.field.frame if self.map else None
        return self._begin(lambda: given_screen(self.room, one))

    def _today(self) -> Change | None:
        return self._begin(lambda: begin_today(self.room))

    def _place(self) -> Change:
        return Push(begin_placement(self.room))

    def _practise(self) -> Change | None:
        return self._begin(lambda: PractiseScreen(self.room))

    def _free(self) -> Change:
        return Push(FreeFrame(self.room))

    def _grown(self) -> Change:
        return Push(GrownScreen(self.room))

    def _own(self) -> Change:
        return Push(OwnLessons(self.room))

    def _settings(self) -> Change:
        return Push(for_grown_ups(self.room))

    def handle(self, event: Input) -> Change | None:
        """A touched bead is a lesson."""
        if isinstance(event, Press) and self.map and self.button_at(event.at) is None:
            share = self.map.lessons_at(event.at)
            if share:
                return self._touch(share)
        return super().handle(event)

    def press_key(self, key: Key) -> Change | None:
        """Arrows go round the lessons; Enter chooses the one in focus."""
        if key.code in _ARROWS:
            self._move_cursor(*_ARROWS[key.code])
            return None
        if key.code == pygame.K_RETURN and self.cursor:
            return self._choose(self._in_focus) if self._in_focus else None
        if key.code == pygame.K_TAB and self.cursor is not None:
            self.cursor, self.said = None, ""
            self.touch_up()
        return super().press_key(key)

    def _touch(self, share: Sequence[LessonEntry]) -> Change | None:
        """The lesson of a bead; of several the first not done, and once all are done one after
        another."""
        left = [one for one in share if not self.way.is_done(one)]
        again = share.index(self._opened) + 1 if self._opened in share else 0
        return self._choose((left or share[again:] or share)[0])

    def _choose(self, entry: LessonEntry) -> Change | None:
        upcoming = self.next_lesson
        if self.way.is_open(entry) or upcoming is None:
            self.room.click()
            return self._open(entry)
        self._tell(self.room.words.text("home.locked", title=upcoming.title))
        return None

    def _tell(self, text: str) -> None:
        """Have this in the place of the title, and heard."""
        self.said = text
        self.room.say(Line(text, text))
        self.touch_up()

    @property
    def _in_focus(self) -> LessonEntry | None:
        """The lesson at the cursor; None where its unit has none."""
        unit, lesson = self.cursor or (0, 0)
        return next(iter(self._lessons(self.room.course.units[unit])[lesson:]), None)

    def _move_cursor(self, across: int, up: int) -> None:
        units = self.room.course.units
        unit, lesson = self.cursor or (0, 0)
        unit = (unit + across) % len(units)
        lessons = self._lessons(units[unit])
        if lessons and self.cursor:
            lesson = (min(lesson, len(lessons) - 1) - up) % len(lessons)
        self.cursor = unit, lesson
        self.focus_button(None)
        self._tell((self._in_focus or units[unit]).title)

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, the frame, the names of the units."""
        note = kept_note(self.room.keeper, self.room.learner, self.room.words)
        title = self.said or note or self.room.words.text("home.title")
        place = self.band(13, 9) if self.is_narrow else self.rect(12, 3, self.across - 54, 9)
        brushes.text(title, place, 2, bold=True)
        if self.room.learner is not None:
            name = self._face.move(round(-20 * self.unit), 0)
            name.w = round(18 * self.unit)
            pixels = type_size(1, self.size[1])
            brushes.name(self.room.learner.nickname, name, pixels, align="right", soft=True)
        if self.map:
            touched = self._in_focus if self.cursor else None
            self.map.paint(brushes, touched, self._named)

    @property
    def _named(self) -> Unit | None:
        """The unit that matters: that of the cursor, else that of the next lesson."""
        units, upcoming = self.room.course.units, self.next_lesson
        if self.cursor:
            return units[self.cursor[0]]
        return next((one for one in units if upcoming and one.id == upcoming.unit), None)


_ARROWS = {
    pygame.K_LEFT: (-1, 0), pygame.K_RIGHT: (1, 0), pygame.K_UP: (0, 1), pygame.K_DOWN: (0, -1),
}  # fmt: skip

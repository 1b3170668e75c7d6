"""Home: the course as a frame, and what there is to do."""

from collections.abc import Callable, Iterator, Sequence
from enum import StrEnum

import pygame

from frame.app import Change, Pop, Push, Screen
from frame.course.course import LessonEntry
from frame.course.lesson import Unit
from frame.course.placement import Result
from frame.language.lines import Line
from frame.learner.settings import Age
from frame.room import Room
from frame.screens.choosing.course_map import CourseMap
from frame.screens.choosing.free import FreeFrame
from frame.screens.choosing.given_page import GivenPage
from frame.screens.choosing.home_offers import Offer, drawing_of, in_rows
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
from frame.screens.parts.frame_panel import GlidingPanel
from frame.screens.parts.outcome import Begin, Next, NextGiven
from frame.screens.parts.page import Page, abreast
from frame.screens.parts.portraits import portrait_name
from frame.screens.parts.trouble import kept_note
from frame.screens.parts.way import Way
from frame.view.bead_field import BeadField
from frame.view.inputs import Input, Key, Press
from frame.view.theme import type_size
from frame.view.widgets import Brushes, Button, Style

_LARGE, _GAP = 11.5, 2.5
"""How high the large buttons are, and how far apart all are, in units."""
_FOOT = 79.5
"""Where the small buttons begin."""


class Due(StrEnum):
    """What it waits for."""

    COUNTED = "counted"


class Home(GlidingPanel, Page):
    """The course, the next lesson lit, and what else there is to do. What was pressed and needs to
    know what the learner did comes as soon as that is counted."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.said = ""
        self.cursor: tuple[int, int] | None = None  # unit, lesson
        self.map: CourseMap | None = None
        self._given = Given((), (), ())
        self._opened: LessonEntry | None = None
        self._before: str | None = None
        self._stands: str | None = None
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
        """The harbour, the large buttons under it, and below them the small ones."""
        self._given = given_now(self.room)
        rows = in_rows(list(self._offers()), self.across, is_narrow=self.is_narrow)
        high, head = (9.0, 23.0) if self.is_narrow else (_LARGE, 12.5)
        foot = _FOOT - (8 + _GAP if self.is_narrow else 0)
        top = foot - len(rows) * (high + _GAP)
        self.map = CourseMap(
            self.room, self.way, self.band(head, top - head - 1), self.unit, self._before
        )
        self._before = None
        for at, row in enumerate(rows):
            places = abreast(self.band(top + at * (high + _GAP), high), len(row), self._gap)
            step = 2 if all(map(self._fits, row, places)) else 1
            self.buttons += [self._large(*one, step) for one in zip(row, places, strict=True)]
        self._arrange_foot(self.band(foot, 8))
        self.buttons += self.speaker(self._speaker)
        learner = self.room.learner
        if learner is not None:
            name = portrait_name(self.room.words, learner.picture)
            self.buttons.append(
                Button(
                    self._face, self.back, picture=learner.picture, style=Style.TICKET, name=name
                )
            )

    @property
    def _gap(self) -> float:
        return _GAP * self.unit

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

    def _fits(self, offer: Offer, place: pygame.Rect) -> bool:
        """Whether there is room for large type beside the picture."""
        wide = self.room.lettering.width(offer.text, type_size(2, self.size[1]), bold=True)
        return wide <= place.w - 1.3 * place.h

    def _large(self, offer: Offer, place: pygame.Rect, step: int) -> Button:
        return Button(
            place, offer.act, offer.text, sign=offer.sign, name=offer.said, step=step,
            style=Style.MAIN if offer.is_main else Style.PLAIN,
            drawing=drawing_of(self.room, offer.sign, is_main=offer.is_main),
        )  # fmt: skip

    def _offers(self) -> Iterator[Offer]:
        """What there is to do, first the main thing: what a tutor gave, today's set where something
        is known, the next lesson; the free frame; and for who is new, where to begin."""
        has_today, line = can_begin_today(self.room), self._given_line
        is_done = self.room.today_done == self.room.now().date()
        given = [self._given_offer(line)] if line is not None else []
        lesson, today = self._lesson_offer(), self._today_offer()
        first = given if self._given.on_screen else []
        then = [lesson, today] if is_done else [today, lesson]
        main, *others = [*first, *(then if has_today else [lesson])]
        yield main._replace(is_main=True)
        yield from others
        yield Offer(self._free, self.room.words.text("home.free"), "free")
        if not has_today:
            yield Offer(self._place, self.room.words.text("placement.offer"), "placement")
        if not first:
            yield from given

    def _given_offer(self, line: Line) -> Offer:
        return Offer(self._do_given, line.show, "slip" if self._given.open else "tick", line.speak)

    def _lesson_offer(self) -> Offer:
        """The next lesson; for the young without its name, which is said."""
        way, words = self.way, self.room.words
        entry = way.upcoming or self.room.course.lessons[-1]
        key = "home.start" if not way.is_begun(entry) else "home.go_on"
        key = "home.again" if way.upcoming is None else key
        text = words.text(key, title=entry.title)
        is_young = self.room.settings.age is Age.YOUNG
        shown = words.text("home.on") if is_young and way.upcoming is not None else text
        return Offer(lambda: self._open(entry), shown, "lesson", text)

    def _today_offer(self) -> Offer:
        name = self.room.words.text("today.title")
        if left_today(self.room) is not None:
            name = self.room.words.text("home.go_on", title=name)
        return Offer(self._today, name, "today")

    @property
    def _given_line(self) -> Line | None:
        return given_line(self.room, self._given)

    def _arrange_foot(self, row: pygame.Rect) -> None:
        """What is there besides: to practise, what has grown; at the right the settings, for who
        needs them the tutor's own lessons, and where nothing larger leads there placement."""
        acts = {"gear": self._settings}
        if self.room.settings.all_open or has_own_lessons(self.room):
            acts["own"] = self._own
        if can_begin_today(self.room) and self.way.upcoming is not None:
            acts["placement"] = self._place
        place = pygame.Rect(row.right - row.h, round(_FOOT * self.unit), row.h, row.h)
        apart = row.h + round(self._gap)
        signs = [
            Button(place.move(-at * apart, 0), act, sign=sign, style=Style.SIGN)
            for at, (sign, act) in enumerate(acts.items())
        ]
        if not self.is_narrow:
            row.w = signs[-1].place.left - round(self._gap) - row.left
        practise, grown = abreast(row, 2, self._gap)
        words = self.room.words
        self.buttons += [
            Button(practise, self._practise, words.text("home.practise"), sign="beads"),
            Button(grown, self._grown, words.text("grown.title"), sign="grown"),
            *signs,
        ]

    @property
    def greeting(self) -> Line | None:
        """The main thing to do."""
        main = self.main_button()
        if main is None:
            return None
        button = self.buttons[main]
        return Line(button.text, button.name or button.text)

    @property
    def heard(self) -> Line:
        """All that the large buttons do."""
        said = ". ".join(offer.said or offer.text for offer in self._offers())
        return Line(said, said)

    def _open(self, entry: LessonEntry) -> Change | None:
        self._opened = entry
        self._stands = self.map.digits if self.map else None
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

    @property
    def fields(self) -> tuple[BeadField, ...]:
        """The frames of the course: a bead that came to be done glides to the beam, and is heard
        there."""
        return self.map.fields if self.map else ()

    def rest(self, now: float) -> Change | None:
        """What was to come does."""
        return self._come() if self.dues.take(Due.COUNTED, now) else None

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
        self._stands = self.map.digits if self.map else None
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

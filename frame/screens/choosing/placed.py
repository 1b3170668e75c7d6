"""Where to begin, told after placement, with what it rests on."""

from collections.abc import Callable, Iterator, Mapping

from frame.app import Change, Pop, Push
from frame.course.lesson import Unit
from frame.course.placement import Result
from frame.language.lines import Line
from frame.learner.settings import Age
from frame.practice.imagining import Found
from frame.practice.rungs import Asked
from frame.room import Room
from frame.screens.choosing.course_map import CourseMap
from frame.screens.lesson.imagining import begin_imagining, can_imagine
from frame.screens.lesson.practice import TITLES
from frame.screens.parts.outcome import Begin
from frame.screens.parts.page import Page, abreast, lines
from frame.screens.parts.way import Way
from frame.view.widgets import Brushes, Button, Style

_BELOW_MAIN, _BELOW_OTHERS = 34.0, 45.0
_ROW = 5.5
_MOST = 12
"""So many families are told, the last ones; two fewer for each way of imagining and each note."""


class PlacedPage(Page):
    """The lesson to begin at is one press away. From seven on it is told which families are known,
    each with its count."""

    def __init__(self, room: Room, result: Result) -> None:
        super().__init__(room)
        self.result = result
        self.imagined: Mapping[Asked, Found] = {}
        self.map: CourseMap | None = None

    @property
    def title(self) -> str:
        """The lesson to begin at."""
        return self.room.course.by_id[self.result.lesson].title

    @property
    def unit_of_lesson(self) -> Unit:
        """The unit of that lesson."""
        course = self.room.course
        return next(one for one in course.units if one.id == course.by_id[self.result.lesson].unit)

    @property
    def greeting(self) -> Line | None:
        """Where to begin, and what that rests on."""
        here = self.room.words.line("placement.here", title=self.title)
        told = (*self._thanks, here, *self._notes, *self.ways, *self.claims)
        return Line(here.show, " ".join(one.speak for one in told))

    @property
    def _thanks(self) -> list[Line]:
        """A kind word for the young, who are told of no counts."""
        return [self.room.words.line("placement.thanks")] if self._is_young else []

    @property
    def _is_young(self) -> bool:
        return self.room.settings.age is Age.YOUNG

    @property
    def _notes(self) -> list[Line]:
        """Why it begins there: how the tasks went that needed what the lesson teaches; and that
        there is more to find, where time was up. The young are told of no counts and no time."""
        if self._is_young:
            return []
        line, (right, asked) = self.room.words.line, (self.result.right, self.result.needing)
        unit = self.unit_of_lesson.title
        if not asked:
            why = line("placement.why_untried", unit=unit)
        else:
            key = "placement.why" if right < asked else "placement.why_unsure"
            why = line(key, unit=unit, right=right, asked=asked)
        return [why, line("placement.late")] if self.result.is_late else [why]

    @property
    def claims(self) -> list[Line]:
        """The last families that are known, with their counts; none where a child is young."""
        if self._is_young:
            return []
        told = len(self.imagined) + len(self._notes)
        line, most = self.room.words.line, _MOST - 2 * told
        return [
            line("placement.claim", family=line(f"family.{family}"), right=right, asked=asked)
            for family, right, asked in self.result.families[-most:]
        ]

    @property
    def ways(self) -> list[Line]:
        """How far somebody imagines, for each way of asking."""
        return [self._way(*one) for one in self.imagined.items()]

    def _way(self, asked: Asked, found: Found) -> Line:
        line, step = self.room.words.line, found.step
        way = line(TITLES[asked])
        if step is None:
            return line("placement.no_way", way=way, right=found.right, asked=found.asked)
        return line(
            "placement.way", way=way, rung=line(f"rung.{step.rung.name}"), digits=step.digits,
            rows=step.rows, right=found.right, asked=found.asked,
        )  # fmt: skip

    def arrange(self) -> None:
        """The lesson to begin at, large; below it what else may be begun."""
        words, lesson = self.room.words, self.result.lesson
        text = words.text("home.start", title=self.title)
        main = self.band(17, 13)
        self.buttons.append(
            Button(main, lambda: self._begin(lesson), text, sign="next", style=Style.MAIN, step=2)
        )
        others = list(self._others())
        row = abreast(self.band(33, 9), max(1, len(others)), 3 * self.unit)
        for place, (name, sign, act) in zip(row, others, strict=False):
            self.buttons.append(Button(place, act, name, sign=sign))
        self.buttons += self.speaker(self.corner)
        self.map = None
        if self._is_young:
            room, top = self.room, (_BELOW_OTHERS if others else _BELOW_MAIN) + 9
            way = Way(room.course, room.lessons, room.settings.all_open)
            self.map = CourseMap(room, way, self.band(top, 81 - top), self.unit)

    def _others(self) -> Iterator[tuple[str, str, Callable[[], Change]]]:
        beside, words = self.result.beside, self.room.words
        if beside is not None:
            title = self.room.course.by_id[beside].title
            yield words.text("placement.beside", title=title), "", lambda: self._begin(beside)
        if can_imagine(self.room) and not self._is_young:
            yield words.text("placement.imagine"), "", self._imagine

    def _imagine(self) -> Change:
        return Push(begin_imagining(self.room))

    def resumed(self, result: object) -> Change | None:
        """How far somebody imagines is told here, too."""
        if isinstance(result, Mapping):
            self.imagined = result
        self.rearrange()
        return None

    def _begin(self, lesson: str) -> Change:
        return Pop(Begin(lesson))

    def paint_rest(self, brushes: Brushes) -> None:
        """The title; for the young the course with what is known of it, else what is known."""
        self.paint_title(brushes, self.room.words.text("placement.title"))
        top = _BELOW_OTHERS if any(self._others()) else _BELOW_MAIN
        if self._is_young:
            for thanks in self._thanks:
                brushes.text(thanks.show, self.band(top, 8), 2)
        else:
            self._paint_known(brushes, top)
        if self.map:
            self.map.paint(brushes, None, self.unit_of_lesson)

    def _paint_known(self, brushes: Brushes, top: float) -> None:
        claims, step = self.claims, 0 if self.is_narrow else 1
        for note in self._notes:
            brushes.text(note.show, self.band(top, _ROW), step)
            top += _ROW
        for way in self.ways:
            brushes.text(way.show, self.band(top, _ROW), step)
            top += _ROW
        if not claims:
            return
        brushes.text(self.room.words.text("placement.known"), self.band(top, 5), step, soft=True)
        top += 7
        rows = -(-len(claims) // 2)
        high = min(1.3 * _ROW if self.is_narrow else _ROW, (87 - top) / rows)
        places = lines(self.band(top, high * rows), 2 * rows, 2, 3 * self.unit)
        for claim, place in zip(claims, places, strict=False):
            brushes.text(claim.show, place, 0 if high < _ROW else step)

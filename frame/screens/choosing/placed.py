"""Where to begin, told after placement, with what it rests on."""

from collections.abc import Callable, Iterator, Mapping

from frame.app import Change, Pop, Push
from frame.course.placement import Result
from frame.language.lines import Line
from frame.learner.settings import Age
from frame.practice.imagining import Found
from frame.practice.rungs import Asked
from frame.room import Room
from frame.screens.lesson.imagining import begin_imagining, can_imagine
from frame.screens.lesson.practice import TITLES
from frame.screens.parts.outcome import Begin
from frame.screens.parts.page import Page, abreast, lines
from frame.view.widgets import Brushes, Button, Style

_ROW = 5.5
_MOST = 12
"""So many families are told, the last ones; of each way of imagining that is told two fewer."""


class PlacedPage(Page):
    """The lesson to begin at is one press away. From seven on it is told which families are known,
    each with its count."""

    def __init__(self, room: Room, result: Result) -> None:
        super().__init__(room)
        self.result = result
        self.imagined: Mapping[Asked, Found] = {}

    @property
    def title(self) -> str:
        """The lesson to begin at."""
        return self.room.course.by_id[self.result.lesson].title

    @property
    def greeting(self) -> Line | None:
        """Where to begin, and what that rests on."""
        here = self.room.words.line("placement.here", title=self.title)
        told = (*self._thanks, here, *self._late, *self.ways, *self.claims)
        return Line(here.show, " ".join(one.speak for one in told))

    @property
    def _thanks(self) -> list[Line]:
        """A kind word for the young, who are told of no counts."""
        is_young = self.room.settings.age is Age.YOUNG
        return [self.room.words.line("placement.thanks")] if is_young else []

    @property
    def _late(self) -> list[Line]:
        """That there is more to find, where time was up; the young are not told of time."""
        is_young = self.room.settings.age is Age.YOUNG
        is_told = self.result.is_late and not is_young
        return [self.room.words.line("placement.late")] if is_told else []

    @property
    def claims(self) -> list[Line]:
        """The last families that are known, with their counts; none where a child is young."""
        if self.room.settings.age is Age.YOUNG:
            return []
        told = len(self.imagined) + len(self._late)
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

    def _others(self) -> Iterator[tuple[str, str, Callable[[], Change]]]:
        beside, words = self.result.beside, self.room.words
        if beside is not None:
            title = self.room.course.by_id[beside].title
            yield words.text("placement.beside", title=title), "", lambda: self._begin(beside)
        if can_imagine(self.room) and self.room.settings.age is not Age.YOUNG:
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
        """The title, and what is known."""
        words = self.room.words
        self.paint_title(brushes, words.text("placement.title"))
        ways, top = [*self._late, *self.ways], 47.0 if any(self._others()) else 37.0
        claims = self.claims
        for thanks in self._thanks:
            brushes.text(thanks.show, self.band(top, 8), 2)
        if not ways and not claims:
            return
        brushes.text(words.text("placement.known"), self.band(top, 5), 1, soft=True)
        top += 7
        for way in ways:
            brushes.text(way.show, self.band(top, _ROW), 0 if self.is_narrow else 1)
            top += _ROW
        rows = -(-len(claims) // 2)
        high = min(1.3 * _ROW if self.is_narrow else _ROW, (91 - top) / max(1, rows))
        places = lines(self.band(top, high * rows), 2 * rows, 2, 3 * self.unit) if rows else []
        for claim, place in zip(claims, places, strict=False):
            brushes.text(claim.show, place, 0 if self.is_narrow or high < _ROW else 1)

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
        """Where to begin."""
        return self.room.words.line("placement.here", title=self.title)

    @property
    def claims(self) -> list[str]:
        """The families that are known, with their counts; none where a child is young."""
        if self.room.settings.age is Age.YOUNG:
            return []
        words = self.room.words
        return [
            words.text("placement.claim", family=words.text(f"family.{one.family}"),
                       right=one.right, asked=one.asked)
            for one in self.result.families
        ]  # fmt: skip

    @property
    def ways(self) -> list[str]:
        """How far somebody imagines, for each way of asking."""
        words = self.room.words
        return [
            words.text("placement.no_way", way=words.text(TITLES[asked]), right=one.right,
                       asked=one.asked)
            if one.step is None
            else words.text("placement.way", way=words.text(TITLES[asked]),
                            rung=words.text(f"rung.{one.step.rung.name}"), digits=one.step.digits,
                            rows=one.step.rows, right=one.right, asked=one.asked)
            for asked, one in self.imagined.items()
        ]  # fmt: skip

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
        ways, top = self.ways, 47.0 if any(self._others()) else 37.0
        claims = self.claims[-(_MOST - 2 * len(ways)) :]
        if not ways and not claims:
            return
        brushes.text(words.text("placement.known"), self.band(top, 5), 1, soft=True)
        top += 7
        for text in ways:
            brushes.text(text, self.band(top, _ROW), 0 if self.is_narrow else 1)
            top += _ROW
        rows = -(-len(claims) // 2)
        high = min(1.3 * _ROW if self.is_narrow else _ROW, (91 - top) / max(1, rows))
        for text, at in zip(
            claims, lines(self.band(top, high * rows), 2 * rows, 2, 3 * self.unit), strict=False
        ):
            brushes.text(text, at, 0 if self.is_narrow or high < _ROW else 1)

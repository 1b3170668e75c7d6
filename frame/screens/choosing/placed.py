"""Where to begin, told after placement, with what it rests on."""

from collections.abc import Callable, Iterator

from frame.app import Change, Pop
from frame.course.placement import Result
from frame.language.lines import Line
from frame.learner.settings import Age
from frame.room import Room
from frame.screens.parts.outcome import Begin
from frame.screens.parts.page import Page, abreast, lines
from frame.view.widgets import Brushes, Button, Style

_ROW = 5.0


class PlacedPage(Page):
    """The lesson to begin at is one press away. From seven on it is told which families are known,
    each with its count."""

    def __init__(self, room: Room, result: Result) -> None:
        super().__init__(room)
        self.result = result

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

    def arrange(self) -> None:
        """The lesson to begin at, large; below it what else may be begun."""
        words, lesson = self.room.words, self.result.lesson
        text = words.text("home.start", title=self.title)
        main = self.band(17, 13)
        self.buttons.append(
            Button(main, lambda: self._begin(lesson), text, sign="next", style=Style.MAIN, step=2)
        )
        others = list(self._others())
        row = abreast(self.band(34, 9), max(1, len(others)), 3 * self.unit)
        for place, (name, sign, act) in zip(row, others, strict=False):
            self.buttons.append(Button(place, act, name, sign=sign))

    def _others(self) -> Iterator[tuple[str, str, Callable[[], Change]]]:
        beside, words = self.result.beside, self.room.words
        if beside is not None:
            title = self.room.course.by_id[beside].title
            yield words.text("placement.beside", title=title), "", lambda: self._begin(beside)

    def _begin(self, lesson: str) -> Change:
        return Pop(Begin(lesson))

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, and what is known."""
        words = self.room.words
        self.paint_title(brushes, words.text("placement.title"))
        claims = self.claims
        if not claims:
            return
        brushes.text(words.text("placement.known"), self.band(47, 5), 0, soft=True)
        across = 2 if self.is_narrow else 3
        rows = -(-len(claims) // across)
        place = self.band(53, min(_ROW, 36 / rows) * rows)
        for at, text in zip(lines(place, len(claims), across, 3 * self.unit), claims, strict=True):
            brushes.text(text, at, 0)

"""Papers of published grades: one is chosen, and those taken before stand as dots."""

from collections.abc import Sequence
from typing import Any

import pygame

from frame.app import Change, Pop, Push
from frame.course.next_paper import PaperChoices, PaperDesk, next_recipe
from frame.course.paper import Paper
from frame.language.lines import Line
from frame.learner.settings import Age
from frame.room import Room
from frame.screens.paper.dots import Dots, past_line
from frame.screens.paper.graded import (
    BODIES,
    PARTS,
    WAYS,
    doubts_in_short,
    grade_line,
    is_timed,
    measures_of,
    paper_title,
)
from frame.screens.paper.paper_keeping import (
    Past,
    keep_choices,
    kept_choices,
    left_paper,
    past_papers,
)
from frame.screens.paper.taking import TakingScreen
from frame.screens.parts.dial_lines import DialLines
from frame.screens.parts.dials import Dial
from frame.screens.parts.outcome import NextGiven
from frame.screens.parts.page import abreast
from frame.sheets.choices import fellow, fellows
from frame.sheets.grades import grade
from frame.sheets.papers import paper
from frame.sheets.recipe import Part, Recipe
from frame.sheets.sheet import Way
from frame.view.widgets import Brushes, Button, Style

_DOUBTS, _DOUBTS_NARROW = 3.2, 6.6
"""Units: how high what is not sure of a grade may be."""


class PapersPage(DialLines):
    """Rows of choices, the dots, and one button that begins, or goes on with what was left. A paper
    that a tutor gave is chosen, and is the next one."""

    def __init__(self, room: Room, given: Recipe | None = None) -> None:
        super().__init__(room)
        self.past, self.given = past_papers(room), given
        if room.papers is None:
            room.papers = PaperDesk(self._usual(), left_paper(room))
        if given is not None:
            self.choose(grade=given.grade, part=given.part)
        self.told: Past | None = None
        self.dots: Dots | None = None
        self.asks = False

    @property
    def _is_young(self) -> bool:
        return self.room.settings.age is Age.YOUNG

    def _line_of(self, past: Past) -> Line:
        """What is told of a paper: no minutes to the young, or where the clock is hidden."""
        is_timed = self.choices.is_clocked and not self._is_young
        return past_line(past, self.room.words, is_timed=is_timed)

    def _usual(self) -> PaperChoices:
        """What was chosen last; else the grade of the last paper, for the young without a clock."""
        usual = PaperChoices(is_clocked=not self._is_young)
        if self.past:
            usual = usual.choose(grade=self.past[-1].recipe.grade)
        return kept_choices(self.room, usual)

    @property
    def desk(self) -> PaperDesk:
        """What is chosen, and what was left."""
        return self.room.papers or PaperDesk(self._usual())

    @property
    def choices(self) -> PaperChoices:
        """What is chosen."""
        return self.desk.choices

    @property
    def greeting(self) -> Line:
        """The title, or that a paper waits."""
        return self.room.words.line("paper.waits" if self.desk.left else "paper.title")

    @property
    def heard(self) -> Line:
        """The same, what is chosen, and of the last paper, or of the one that is touched, how it
        went; where none was taken what a paper is."""
        chosen = (Line(dial.spoken, dial.spoken) for dial in self.dials)
        below = self._line_of(self._past) if self._past else self._about
        return Line.joined([self.greeting, *chosen, below])

    def resumed(self, result: object) -> Change | None:
        """A paper was handed in, or left; what a tutor gave may be wanted next."""
        self.past, self.told, self.asks = past_papers(self.room), None, False
        self.rearrange()
        return Pop(result) if isinstance(result, NextGiven) else None

    def leave(self) -> None:
        """What is chosen stays so."""
        self._keep()

    def _keep(self) -> None:
        """Keep what is chosen for another day, unless it would be so anyway; not which paper, where
        a tutor gave it."""
        usual, choices = self._usual(), self.choices
        if self.given is not None and choices.is_of(self.given):
            choices = choices.choose(grade=usual.grade, part=usual.part)
        if choices != usual:
            keep_choices(self.room, choices)

    # What is chosen

    def now(self, name: str) -> object:
        """What is chosen under a name."""
        if name in ("body", "way"):
            return getattr(grade(self.choices.grade), name)
        return getattr(self.choices, name)

    def choose(self, **changes: Any) -> None:
        """Have this chosen."""
        if "body" in changes or "way" in changes:
            one = grade(self.choices.grade)
            body, way = changes.pop("body", one.body), changes.pop("way", one.way)
            changes["grade"] = fellow(self.choices.grade, body, way)
        self.told = None
        self.room.papers = self.desk._replace(choices=self.choices.choose(**changes))

    def lines(self) -> Sequence[tuple[Dial, ...]]:
        """The rows of what is chosen."""
        one, line = grade(self.choices.grade), self.room.words.line
        bodies = [(line(key), body) for body, key in BODIES.items()]
        sorts = [(line(key), way) for way, key in WAYS.items()]
        parts = [(line(PARTS[part]), part) for part in one.parts]
        shown = grade_line(one.id, self.room.words)
        clock = [(line("paper.clock_seen"), True), (line("paper.clock_hidden"), False)]
        frames = [(line("paper.on_beads"), True), (line("paper.typed"), False)]
        ways = []
        if self.choices.part is not Part.WARM_UP:
            ways.append(self.pick("paper.clock", name="is_clocked", values=clock))
        if one.way is Way.BEADS:
            ways.append(self.pick("paper.way", name="on_beads", values=frames))
        return (
            (
                self.pick("sheets.association", name="body", values=bodies),
                self.pick("sheets.sort", name="way", values=sorts),
            ),
            (self.turn("sheets.grade", name="grade", values=fellows(one.body, one.way),
                       shown=shown),),
            (self.pick("sheets.how_much", name="part", values=parts),),
            *((tuple(ways),) if ways else ()),
        )  # fmt: skip

    # How it is laid out

    def arrange(self) -> None:
        """The rows, the dots, what lets it be heard, and what begins."""
        self.top, self.bottom = (12.5, 48) if self.is_narrow else (12.5, 43.5)
        super().arrange()
        self.dots = self._dots
        if self.dots is not None:
            self.buttons += self.dots.buttons(self.tell, self._line_of)
        self.buttons += self.speaker(self.corner)
        text = self.room.words.text
        other, main = self._foot
        if self.desk.left is not None:
            act = self.begin if self.asks else self.ask
            self.buttons.append(Button(other, act, text("paper.begin_new")))
            self.buttons.append(Button(main, self.go_on, text("paper.go_on"), style=Style.MAIN))
        else:
            self.buttons.append(Button(main, self.begin, text("paper.begin"), style=Style.MAIN))

    @property
    def _dots(self) -> Dots | None:
        """Papers like the one that is chosen, where there are any."""
        papers = [past for past in self.past if self.choices.is_of(past.recipe)]
        if not papers or self.choices.part is Part.WARM_UP:
            return None
        area = self.band(60.5, 10) if self.is_narrow else self.band(52, 18)
        return Dots(area, self.unit, papers)

    @property
    def _foot(self) -> tuple[pygame.Rect, pygame.Rect]:
        """What begins a new paper beside one that waits, and the main thing to do."""
        place = self.band(79, 9)
        if not self.is_narrow:
            wide = min(place.w, round(68 * self.unit))
            place.left, place.w = place.right - wide, wide
        other, main = abreast(place, 2, 2 * self.unit)
        return other, main

    def tell(self, past: Past) -> None:
        """Tell of a paper."""
        self.told = past
        self.room.say(self._line_of(past))
        self.touch_up()

    # What begins

    def ask(self) -> None:
        """A new paper is wanted while one waits: once more, and that one goes."""
        self.asks = True
        self.room.say(self.room.words.line("paper.lets_go"))
        self.rearrange()

    def begin(self) -> Change | None:
        """Another paper of what is chosen; one that waits waits no more."""
        room, learner = self.room, self.room.learner
        if learner is None:
            return None
        self._keep()
        sheet = paper(self._next)
        is_clocked = self.choices.is_clocked and self.choices.part is not Part.WARM_UP
        begun = Paper.begun(sheet, room.now(), room.seconds(), is_clocked=is_clocked)
        return Push(TakingScreen(room, learner, begun, self.desk))

    @property
    def _next(self) -> Recipe:
        """The recipe of a new paper."""
        taken = [past.recipe for past in self.past]
        given = self.given
        if given is not None and given not in taken and self.choices.is_of(given):
            return given
        return next_recipe(self.choices, taken, self.room.random)

    def go_on(self) -> Change | None:
        """On with the paper that waits."""
        room, learner, left = self.room, self.room.learner, self.desk.left
        if learner is None or left is None:
            return None
        return Push(TakingScreen(room, learner, left, self.desk))

    # What is seen

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, the rows' names, the minutes and marks and what of them is not sure, the dots
        or that there are none."""
        words, choices = self.room.words, self.choices
        self.paint_title(brushes, words.text("paper.title"))
        self.paint_rows(brushes)
        timed = choices.is_clocked
        measures = measures_of(choices.grade, choices.part, words, is_timed=timed)
        top = self.bottom + 0.5
        brushes.text(measures, self.band(top, 4.6), 1, bold=True)
        doubts = doubts_in_short(choices.grade, choices.part, words)
        high = _DOUBTS_NARROW if self.is_narrow else _DOUBTS
        brushes.from_top(doubts, self.band(top + 4.4, high), 0, soft=True)
        told, waiting = self._told_places
        if self.dots is not None:
            self.dots.paint(brushes, self.dots.papers[-1].recipe, self._past, words)
        if self._past is None:
            top, bottom = (60 if self.is_narrow else 54), (70 if self.desk.left else 78)
            brushes.from_top(self._about.show, self.band(top, bottom - top), 1, soft=True)
        elif told is not None:
            brushes.text(self._line_of(self._past).show, told, 1)
        self._paint_waiting(brushes, waiting)

    @property
    def _told_places(self) -> tuple[pygame.Rect | None, pygame.Rect]:
        """For what is told of a dot, and for what waits: beside the foot, or where that is narrow
        above it, and what is asked in place of what is told."""
        both = self.band(70.5, 7.5)
        if self.dots is None or self.desk.left is None:
            return both, both
        if not self.is_narrow:
            beside = self.band(79, 9)
            beside.w = self._foot[0].left - beside.left - round(2 * self.unit)
            return both, beside
        return (None, both) if self.asks else (self.band(70.5, 3.8), self.band(74.3, 3.8))

    @property
    def _past(self) -> Past | None:
        """The paper that is told of: the last one, unless another was touched."""
        return None if self.dots is None else self.told or self.dots.papers[-1]

    @property
    def _about(self) -> Line:
        """What a paper is and is not, where none was taken."""
        words, choices = self.room.words, self.choices
        keys = ["paper.practice"]
        if choices.part is Part.WARM_UP:
            keys.append("paper.warm_up")
        else:
            is_by_clock = choices.is_clocked and is_timed(choices.grade, choices.part)
            keys.append("paper.counts" if is_by_clock else "paper.all_counts")
            keys.append("paper.dots")
        return Line.joined(map(words.line, keys))

    def _paint_waiting(self, brushes: Brushes, place: pygame.Rect) -> None:
        """Which paper waits."""
        left = self.desk.left
        if left is None:
            return
        count = len(left.texts)
        text = self.room.words.text(
            "paper.told.waiting", title=paper_title(left.sheet.recipe, self.room.words),
            answered=count - len(left.open), all=count,
        )  # fmt: skip
        if self.asks:
            text = self.room.words.text("paper.lets_go")
        brushes.text(text, place, 0, bold=self.asks)

"""Sheets and papers to be printed, for the tutor: what is to stand on one, and the file of it."""

from collections.abc import Sequence
from concurrent.futures import Future
from enum import StrEnum
from functools import partial
from typing import Any

import pygame

from frame.app import Change, Push
from frame.language.lines import Line
from frame.learner.store import StoreError
from frame.practice.families import Family
from frame.printing.of_grades import doubts_of
from frame.printing.titles import below_title, title_of
from frame.room import Room
from frame.screens.choosing.sheet_sizes import other_sizes, size_key
from frame.screens.choosing.sheet_topics import first_choices, last_lesson, topics_of
from frame.screens.paper.graded import BODIES, PARTS, WAYS, grade_line, measures_of
from frame.screens.parts.dial_lines import DialLines
from frame.screens.parts.dials import Dial
from frame.screens.parts.fitting import short_name
from frame.screens.parts.merged import other_trouble_line
from frame.screens.parts.page import Tab, abreast
from frame.screens.parts.saved import paint_saved
from frame.screens.parts.sheet_saving import Saved, SheetToSave, sheet_folder, take_back
from frame.screens.tutor.giving import GivingScreen
from frame.sheets.choices import KINDS, SheetChoices, Topic, fellow, fellows
from frame.sheets.grades import grade
from frame.sheets.making import SheetError
from frame.sheets.recipe import Leaf, Recipe, Version
from frame.view.widgets import Brushes, Button, Style

ANSWER_SECONDS = 0.05
"""How long after one question whether a sheet is there the next one is."""
_IN_LINE = 5
_BUTTONS = ((30, 0.3), (26, 0.27))
"""How wide the buttons at the foot are, the last one first: in units, and at most in shares of the
width."""
_BOTH = 118
"""Units across that both need beside what became of a sheet."""
_LEAVES = {Leaf.A4: "sheets.a4", Leaf.LETTER: "sheets.letter"}


class Due(StrEnum):
    """What the page waits for."""

    ANSWER = "answer"


class SheetsPage(DialLines):
    """Rows of choices for a sheet, or for a graded paper, and one button that saves it."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.said: Line | None = None
        self.saved: Saved | None = None
        self.is_of_file = False
        self.nearest: Recipe | None = None
        self._first = first_choices(room)
        self._making: Future[Saved] | None = None
        self._read_topics()
        self._ask_again()

    @property
    def choices(self) -> SheetChoices:
        """What is chosen so far, in this sitting."""
        return self.room.sheet or self._first

    @property
    def topic(self) -> Topic | Family:
        """What the sheet is for: all of its kind, where there is not what was chosen."""
        return self.choices.topic if self.choices.topic in self.topics else Topic.ALL

    @property
    def recipe(self) -> Recipe:
        """The recipe of the sheet that is chosen."""
        return self.choices.recipe(self.topics[self.topic])

    @property
    def greeting(self) -> Line:
        """The title."""
        return self.room.words.line("sheets.title")

    def _read_topics(self) -> None:
        self.topics = topics_of(self.room, self.choices.kind)

    def _ask_again(self) -> None:
        """Look again soon, while anything is not there yet."""
        if self._making is not None or not self.room.known.is_counted:
            self.dues.put(Due.ANSWER, self.room.seconds() + ANSWER_SECONDS)

    def leave(self) -> None:
        """A sheet that is not told as saved is not kept."""
        if self._making is not None and not self._making.cancel():
            self._making.add_done_callback(take_back)

    def advance(self, now: float) -> None:
        """What is due may be counted, and what was to be saved may be there."""
        super().advance(now)
        if self.dues.take(Due.ANSWER, now):
            if self._making is not None and self._making.done():
                self._take(self._making)
            before = self.topics
            self._read_topics()
            if self.topics != before:
                self.rearrange()
            self._ask_again()

    def now(self, name: str) -> object:
        """What is chosen for the sheet, as large as it will be."""
        if name in self.choices.sizes:
            return getattr(self.recipe, name)
        if name in ("body", "way"):
            return getattr(grade(self.choices.grade), name)
        return self.topic if name == "topic" else getattr(self.choices, name)

    def choose(self, **changes: Any) -> None:
        """Have this chosen for the sheet."""
        if "body" in changes or "way" in changes:
            one = grade(self.choices.grade)
            body, way = changes.pop("body", one.body), changes.pop("way", one.way)
            changes["grade"] = fellow(self.choices.grade, body, way)
        before = self.recipe
        self._use(self.choices.choose(**changes))
        if "topic" in changes and (sizes := other_sizes(self.recipe, before, self.room.words)):
            line = self.room.words.line("sheets.resized")
            self.said = Line(f"{line.show} {sizes}.", line.speak)

    def _use(self, choices: SheetChoices) -> None:
        self.room.sheet = choices
        self.said = self.saved = self.nearest = None
        self.is_of_file = False
        self._read_topics()

    def arrange(self) -> None:
        """The tabs, the rows, the buttons at the foot."""
        self.top, self.bottom = (18.5, 69) if self.is_narrow else (22, 77)
        if self.choices.is_paper:
            self.bottom = 57.6 if self.is_narrow else 61
        text, is_paper = self.room.words.text, self.choices.is_paper
        tabs = [
            Tab(text("sheets.sheet"), partial(self._open, False), not is_paper),
            Tab(text("sheets.paper"), partial(self._open, True), is_paper),
        ]
        narrow = len(tabs)
        self.buttons += self.tabs(self.band(12, 6 if self.is_narrow else 7), tabs, 1, narrow)
        super().arrange()
        if self._making is not None:
            return
        other, save = self._foot
        if self.nearest is not None:
            self.buttons.append(Button(other, self._take_nearest, text("sheets.take_nearest")))
        elif self.choices.has_versions:
            self.buttons.append(Button(other, self._another, text("sheets.another")))
        if self.saved is None:
            self.buttons.append(Button(save, self.save, text("sheets.save"), style=Style.MAIN))
        elif self._gives:
            self.buttons.append(Button(save, self._give, text("giving.open"), style=Style.MAIN))

    @property
    def _foot(self) -> tuple[pygame.Rect, pygame.Rect]:
        """The places of the buttons at the foot, the main one last: at the right, or in a narrow
        window side by side. What is saved leaves its place to the other."""
        place = self.band(79, 9)
        if self.is_narrow:
            other, save = abreast(place, 2, 2 * self.unit)
            return other, save
        save, other = place.copy(), place.copy()
        save.w, other.w = (
            round(min(units * self.unit, share * place.w)) for units, share in _BUTTONS
        )
        save.right = place.right
        gap = round(2 * self.unit)
        is_alone = self.saved is not None and not self._gives
        other.right = place.right if is_alone else save.left - gap
        return other, save

    @property
    def _gives(self) -> bool:
        """Whether the sheet that was saved can be given, and there is room for that."""
        has_room = self.is_narrow or self.across >= _BOTH
        return has_room and self.saved is not None and self.room.learner is not None

    def _open(self, is_paper: bool) -> None:
        """The other tab."""
        self.choose(is_paper=is_paper)
        self.rearrange()

    def lines(self) -> Sequence[tuple[Dial, ...]]:
        """The rows of what is chosen."""
        return self._paper_lines() if self.choices.is_paper else self._sheet_lines()

    def _sheet_lines(self) -> Sequence[tuple[Dial, ...]]:
        choices, line = self.choices, self.room.words.line
        kinds = [(line(f"sheets.kind.{what}"), what) for what in KINDS]
        first = self.pick("sheets.what", name="kind", values=kinds[:_IN_LINE])
        more = self.pick("", name="kind", values=kinds[_IN_LINE:])
        dials = [self._size(name) for name in choices.sizes]
        if choices.can_take(self.topics[self.topic]):
            dials.append(self.switch("practise.minus", name="minus"))
        below = [*((self._version(),) if choices.has_versions else ()), self._leaf()]
        if choices.has_work:
            (dials if len(dials) % 2 else below).append(self._worked())
        for_what = ((self._topic(),),) if len(self.topics) > 1 else ()
        return ((first,), (more,), *for_what, *_pairs(dials), *_pairs(below))

    def _topic(self) -> Dial:
        shown = self._topic_name(self.topic)
        return self.turn("sheets.topic", name="topic", values=tuple(self.topics), shown=shown)

    def _topic_name(self, topic: Topic | Family) -> Line:
        line = self.room.words.line
        match topic:
            case Topic.ALL:
                return line("sheets.all")
            case Topic.DUE:
                return line("sheets.due")
            case Topic.LESSON:
                entry = last_lesson(self.room)
                return line("sheets.lesson", title=entry.title if entry else "")
        family = topic
        return line(f"family.{family}")

    def _size(self, name: str) -> Dial:
        now = getattr(self.recipe, name)
        shown = Line(str(now), self.room.words.number(now))
        return self.turn(
            size_key(self.choices.kind, name),
            name=name,
            values=self.choices.values(name),
            shown=shown,
        )

    def _version(self) -> Dial:
        versions = [(Line(one, one), one) for one in Version]
        return self.pick("sheets.version", name="version", values=versions)

    def _leaf(self) -> Dial:
        leaves = [(self.room.words.line(key), leaf) for leaf, key in _LEAVES.items()]
        return self.pick("sheets.leaf", name="leaf", values=leaves)

    def _worked(self) -> Dial:
        return self.switch("sheets.worked", name="is_worked")

    def _paper_lines(self) -> Sequence[tuple[Dial, ...]]:
        one, line = grade(self.choices.grade), self.room.words.line
        bodies = [(line(key), body) for body, key in BODIES.items()]
        ways = [(line(key), way) for way, key in WAYS.items()]
        parts = [(line(PARTS[part]), part) for part in one.parts]
        names = fellows(one.body, one.way)
        shown = grade_line(one.id, self.room.words)
        return (
            (
                self.pick("sheets.association", name="body", values=bodies),
                self.pick("sheets.sort", name="way", values=ways),
            ),
            (self.turn("sheets.grade", name="grade", values=names, shown=shown),),
            (self.pick("sheets.how_much", name="part", values=parts),),
            (self._version(), self._leaf()),
            (self._worked(),),
        )

    def _give(self) -> Change | None:
        """Whoever is here has the sheet that was saved to do."""
        learner, saved = self.room.learner, self.saved
        if learner is None or saved is None:
            return None
        return Push(GivingScreen(self.room, (learner,), saved.code))

    def _another(self) -> None:
        """The same with other numbers."""
        self._use(self.choices.another())
        self._tell(self.room.words.line("sheets.others", seed=self.choices.seed))

    def _take_nearest(self) -> None:
        """What can be drawn in the place of what can't."""
        if self.nearest is not None:
            self._use(self.choices.near(self.nearest))
        self._tell(self.room.words.line("sheets.nearest_taken"))

    def save(self) -> None:
        """Have the sheet made and saved, beside the window's thread."""
        room, recipe = self.room, self.recipe
        what = recipe.grade or recipe.kind
        name = f"sheet-{what}-{recipe.version}-{room.now().date()}"
        conventions = room.settings.conventions
        sheet = SheetToSave(recipe, sheet_folder(room), name, room.words, conventions)
        self._making = room.aside.do(sheet.save)
        if self._making.done():
            self._take(self._making)
            return
        self._ask_again()
        self._tell(room.words.line("sheets.making"))

    def _take(self, making: "Future[Saved]") -> None:
        """Tell what became of the sheet."""
        self._making, words = None, self.room.words
        try:
            self.saved = making.result()
        except SheetError as error:
            self.nearest = error.nearest
            self._tell(self._undrawn(error))
        except StoreError as error:
            line, self.is_of_file = other_trouble_line(error.trouble, words), True
            self._tell(line)
        else:
            line, self.is_of_file = words.line("sheets.saved"), True
            told = words.text("sheets.code", name=short_name(self.saved.path), code=self.saved.code)
            self._tell(Line(f"{told} {line.show}", line.speak))

    def _undrawn(self, error: SheetError) -> Line:
        """That there is no such sheet, and the sizes of the nearest that there is."""
        words, near = self.room.words, error.nearest
        if near is None:
            return words.line("sheets.undrawn")
        line = words.line("sheets.undrawn_near")
        return Line(f"{line.show} {other_sizes(near, error.recipe, words)}.", line.speak)

    def _tell(self, line: Line) -> None:
        """Have this at the foot, and heard."""
        self.said = line
        self.room.say(line)
        self.rearrange()

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, the rows' names, what is said of a paper, and what became of the sheet."""
        self.paint_title(brushes, self.greeting.show)
        self.paint_rows(brushes)
        if self.choices.is_paper:
            self._paint_paper(brushes)
        place = self._note
        if self.said is None:
            brushes.text(self._about, place, 0, soft=True)
        elif self.is_of_file:
            paint_saved(brushes, place, self.said.show, sheet_folder(self.room))
        else:
            brushes.text(self.said.show, place, 0)

    @property
    def _about(self) -> str:
        """What is to stand on the sheet; of a paper that it is no examination."""
        words = self.room.words
        if self.choices.is_paper:
            return words.text("sheet.no_examination")
        told = filter(None, (title_of(self.recipe, words), below_title(self.recipe, words)))
        return f"{'. '.join(told)}."

    @property
    def _note(self) -> pygame.Rect:
        """What is left of the foot."""
        if self.is_narrow:
            return self.band(69, 8.6)
        place = self.band(79, 9)
        place.w = self._foot[0].left - place.left - round(2 * self.unit)
        return place

    def _paint_paper(self, brushes: Brushes) -> None:
        """Its minutes and marks, and what of it is not sure."""
        words, choices = self.room.words, self.choices
        measures = measures_of(choices.grade, choices.part, words)
        top = self.bottom + 0.2
        brushes.text(measures, self.band(top, 3.6), 1, bold=True)
        doubts = self.band(top + 3.8, (69.2 if self.is_narrow else 78) - top - 3.8)
        brushes.from_top(doubts_of(choices.grade, words), doubts, 0, soft=True)


def _pairs(dials: Sequence[Dial]) -> list[tuple[Dial, ...]]:
    """Two rows a line, of an odd count the last alone."""
    return [tuple(dials[at : at + 2]) for at in range(0, len(dials), 2)]

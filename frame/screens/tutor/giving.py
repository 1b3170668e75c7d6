"""Giving work: what it is, for some learners; it then stands on the home of each."""

from collections.abc import Callable, Iterable, Iterator, Sequence
from concurrent.futures import Future
from dataclasses import dataclass, replace
from enum import StrEnum
from functools import partial
from typing import Any, NamedTuple

import pygame

from frame.app import Change, Push
from frame.language.lines import Line
from frame.learner.assigned import Work
from frame.learner.giving import Share, give, share_of
from frame.learner.learners import Learner
from frame.learner.store import StoreError
from frame.printing.titles import title_of
from frame.room import Room
from frame.screens.parts.dial_lines import DialLines
from frame.screens.parts.dials import Dial
from frame.screens.parts.fitting import short_name
from frame.screens.parts.given_work import work_line
from frame.screens.parts.merged import other_trouble_line
from frame.screens.parts.page import Tab, abreast
from frame.screens.parts.portraits import called
from frame.screens.parts.trouble import trouble_text
from frame.screens.tutor.code_to_give import CodeToGive
from frame.screens.tutor.given_before import GivenBefore
from frame.screens.tutor.named import names_line
from frame.screens.tutor.reading import ANSWER_SECONDS, Found, read_beside, read_now
from frame.screens.tutor.slips import Printed, slips_to_save
from frame.screens.tutor.to_give import next_lesson, paper_code, sets_to_give
from frame.sheets.code import recipe_of
from frame.sheets.grades import grades
from frame.view.widgets import Brushes, Button, Style

_SEEDS = range(1, 21)
_TABS = {
    Work.LESSON: "giving.lesson",
    Work.SET: "giving.set",
    Work.SHEET: "giving.sheet",
    Work.DUE: "giving.due",
}


class Due(StrEnum):
    """What the page waits for."""

    ANSWER = "answer"


@dataclass(frozen=True, slots=True)
class _Chosen:
    """What is chosen of each kind of work: a lesson and its unit, a grade's paper with its numbers,
    and which of the sets."""

    unit: str
    lesson: str
    grade: str
    seed: int = 1
    at: int = 0


class _Errand(NamedTuple):
    """What is waited for, and what is done with it."""

    future: Future[Any]
    then: Callable[[Any], None]


class GivingScreen(DialLines):
    """A tab for each kind of work, and one button that gives it; a sheet that was just prepared can
    be handed in by its code."""

    def __init__(self, room: Room, learners: Sequence[Learner], code: str = "") -> None:
        super().__init__(room)
        self.learners = tuple(learners)
        self.code = code
        self.work = Work.SHEET if code else Work.LESSON
        self.said: Line | None = None
        self.sets = sets_to_give(room)
        lesson = next_lesson(room, self.learners)
        unit = room.course.by_id[lesson].unit
        grade = next(iter(grades()))
        self.chosen = _Chosen(unit, lesson, grade)
        self._errand: _Errand | None = None
        self._printed: Printed | None = None

    @property
    def text(self) -> str:
        """The text of the work that is chosen."""
        match self.work:
            case Work.LESSON:
                return self.chosen.lesson
            case Work.SET:
                return self.sets[self.chosen.at].text
            case Work.SHEET:
                return self.code or paper_code(self.chosen.grade, self.chosen.seed)
            case Work.DUE:
                return ""

    @property
    def title(self) -> Line:
        """What the work that is chosen is called."""
        line = work_line(self.work, self.text, self.room.course, self.room.words)
        return line or Line(self.text, "")

    @property
    def greeting(self) -> Line:
        """To whom it goes."""
        words = self.room.words
        if len(self.learners) != 1:
            return words.line("giving.several", count=len(self.learners))
        return words.line("giving.title", who=called(words, self.learners[0]))

    # What is chosen

    def now(self, name: str) -> object:
        """What is chosen under a name."""
        return getattr(self.chosen, name)

    def choose(self, **changes: Any) -> None:
        """Have this chosen; of another unit the first lesson."""
        self.said = None
        if "unit" in changes:
            changes["lesson"] = self.room.course.lessons_of(changes["unit"])[0].id
        self.chosen = replace(self.chosen, **changes)

    def lines(self) -> Sequence[tuple[Dial, ...]]:
        """The rows of what is chosen."""
        match self.work:
            case Work.LESSON:
                return self._lesson_lines()
            case Work.SET:
                values = range(len(self.sets))
                turn = self.turn("giving.set", name="at", values=values, shown=self.title_of_set)
                return ((turn,),)
            case Work.SHEET if not self.code:
                seed = Line(str(self.chosen.seed), str(self.chosen.seed))
                names, title = tuple(grades()), title_of(recipe_of(self.text), self.room.words)
                return (
                    (
                        self.turn(
                            "giving.paper", name="grade", values=names, shown=Line(title, title)
                        ),
                    ),
                    (self.turn("giving.numbers", name="seed", values=_SEEDS, shown=seed),),
                )
        return ()

    @property
    def title_of_set(self) -> Line:
        """The name by which a set is kept, or what it is called."""
        return self.sets[self.chosen.at].title

    def _lesson_lines(self) -> Sequence[tuple[Dial, ...]]:
        course, unit = self.room.course, self.chosen.unit
        units = {one.id: one.title for one in course.units if course.lessons_of(one.id)}
        lessons = [one.id for one in course.lessons_of(unit)]
        name = Line(units[unit], units[unit])
        return (
            (self.turn("giving.unit", name="unit", values=tuple(units), shown=name),),
            (self.turn("giving.lesson", name="lesson", values=lessons, shown=self.title),),
        )

    # What is done

    def give(self) -> None:
        """Each has it to do from now on; tell to whom it went. What is due takes long to be read,
        and so is beside the window."""
        room, what, now = self.room, (self.work, self.text), self.room.now()
        begin = read_beside if self.work is Work.DUE else read_now
        if self.work is Work.DUE:
            self._tell(room.words.line("giving.reading"))
        sharing = begin(room, lambda store: share_of(store, room.course, self.learners, what, now))
        self._wait_for(sharing, partial(self._give, self.title))

    def _give(self, title: Line, share: Share) -> None:
        now = self.room.now()
        self.room.keeper.write(lambda store: give(store, share, now))
        told = [*self._told_of(title, share)]
        self._tell(Line(" ".join(one.show for one in told), " ".join(one.speak for one in told)))

    def _told_of(self, title: Line, share: Share) -> Iterator[Line]:
        """Who has what, and who nothing; and of whom something is taken back for it."""
        groups: dict[str, Iterable[Learner]] = {
            "giving.given": [gift.learner for gift in share.gifts],
            "giving.due_sheet": [gift.learner for gift in share.sheet],
            "giving.had": share.had,
            "giving.nothing_due": share.nothing,
            "giving.instead": {gift.learner: gift for gift in share.instead},
        }
        words = self.room.words
        for key, learners in groups.items():
            if learners:
                yield words.line(key, title=title, who=names_line(learners, words))

    def print_slips(self) -> None:
        """Have a slip for all that these learners have to do saved; the same ones once."""
        slips = slips_to_save(self.room, self.learners, self._printed)
        self._tell(self.room.words.line("giving.printing"))
        self._wait_for(read_beside(self.room, slips.save), self._tell_printed)

    def _wait_for(self, future: "Future[Found]", then: Callable[[Found], None]) -> None:
        """Do this with what is read, as soon as it is."""
        self._errand = _Errand(future, then)
        self.rearrange()
        self._look()

    def _look(self) -> None:
        """See whether what is waited for is there."""
        errand = self._errand
        if errand is None:
            return
        if not errand.future.done():
            self.dues.put(Due.ANSWER, self.room.seconds() + ANSWER_SECONDS)
            return
        self._errand = None
        try:
            found = errand.future.result()
        except StoreError as error:
            self._tell_trouble(error)
        else:
            errand.then(found)

    def _tell_trouble(self, error: StoreError) -> None:
        words = self.room.words
        if error.where == self.room.store.path:
            text = trouble_text(error.trouble, words)
            self._tell(Line(text, text))
        else:
            self._tell(other_trouble_line(error.trouble, words))

    def _tell_printed(self, printed: Printed | None) -> None:
        words = self.room.words
        if printed is None:
            self._tell(words.line("giving.none_open"))
            return
        self._printed, path = printed, printed.path
        line = words.line("giving.printed")
        told = words.text("giving.printed_as", name=short_name(path), folder=str(path.parent))
        self._tell(Line(told, line.speak))

    def advance(self, now: float) -> Change | None:
        """What is waited for may be there."""
        if self.dues.take(Due.ANSWER, now):
            self._look()
        return super().advance(now)

    def leave(self) -> None:
        """What is not read yet is neither given nor printed."""
        if self._errand is not None:
            self._errand.future.cancel()

    def _tell(self, line: Line) -> None:
        self.said = line
        self.room.say(line)
        self.rearrange()

    def resumed(self, result: object) -> Change | None:
        """The code of a sheet may have been typed."""
        if isinstance(result, str):
            self.code, self.said = result, None
        self.rearrange()
        return None

    def _open(self, work: Work) -> None:
        self.work, self.said = work, None
        self.rearrange()

    def _use_paper(self) -> None:
        self.code = ""
        self.rearrange()

    def _before(self) -> Change:
        return Push(GivenBefore(self.room, self.learners))

    def _type_code(self) -> Change:
        return Push(CodeToGive(self.room))

    # How it is laid out

    def arrange(self) -> None:
        """The tabs, the rows, and the buttons."""
        self.top, self.bottom = (24.0, 44.0) if self.is_narrow else (23.0, 44.0)
        text = self.room.words.text
        tabs = [
            Tab(text(key), partial(self._open, work), work is self.work)
            for work, key in _TABS.items()
        ]
        self.buttons += self.tabs(self.band(12, 8), tabs, 1, narrow=len(tabs))
        super().arrange()
        if self.work is Work.SHEET:
            self._arrange_code()
        before, slips, main = self._foot
        is_busy = self._errand is not None
        self.buttons += [
            Button(before, self._before, text("giving.before")),
            Button(slips, None if is_busy else self.print_slips, text("giving.slips")),
            Button(
                main, None if is_busy else self.give, text("giving.give"), style=Style.MAIN, step=2
            ),
        ]

    def _arrange_code(self) -> None:
        text = self.room.words.text
        typed, paper = abreast(self.band(47, 8), 2, 3 * self.unit)
        self.buttons.append(Button(typed, self._type_code, text("giving.by_code")))
        if self.code:
            self.buttons.append(Button(paper, self._use_paper, text("giving.a_paper")))

    @property
    def _foot(self) -> tuple[pygame.Rect, pygame.Rect, pygame.Rect]:
        """The places of the buttons at the foot, the main one last."""
        before, slips, main = abreast(self.band(79, 9), 3, 2 * self.unit)
        return before, slips, main

    def paint_rest(self, brushes: Brushes) -> None:
        """To whom, the rows, what a sheet is, and what was done."""
        words = self.room.words
        self.paint_title(brushes, self.greeting.show)
        self.paint_rows(brushes)
        if self.work is Work.SHEET and self.code:
            brushes.text(self.title.show, self.band(24, 9), 1, bold=True)
            brushes.text(self.code, self.band(34, 7), 1)
        elif self.work is Work.DUE:
            brushes.text(words.text("giving.about_due"), self.band(24, 14), 1)
        place = self.band(58, 18)
        if self.said is not None:
            brushes.text(self.said.show, place, 1)
        else:
            who = names_line(self.learners, words)
            told = words.text("giving.about", who=who.show)
            brushes.text(told, place, 0, soft=True)

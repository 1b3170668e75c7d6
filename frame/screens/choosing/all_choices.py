"""All that can be chosen to practise: beads at any rung, called numbers, flashed numbers; then a
set of them, which can be kept by a name."""

from collections.abc import Sequence
from functools import partial
from typing import Any

import pygame

from frame.app import Change, Pop, Push
from frame.course.course import LessonEntry
from frame.language.lines import Line
from frame.learner.kept_sets import MOST_SETS, KeptSet
from frame.practice.choices import (
    CALL_PACES,
    FLASH_SECONDS,
    MOST_BY,
    Choices,
    Sight,
    families_known,
)
from frame.practice.columns import MOST_CALLED_DIGITS, MOST_DIGITS, MOST_ROWS
from frame.practice.drawing import ExerciseError
from frame.practice.families import Family
from frame.practice.flashing import COUNT, DIGITS
from frame.practice.rungs import Asked, Rung
from frame.room import Room
from frame.screens.choosing.chosen import Chosen
from frame.screens.choosing.named_sets import NewSet
from frame.screens.choosing.practice_note import note_of
from frame.screens.choosing.published import Published
from frame.screens.choosing.usual import kept_sets, usual
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.practice import TITLES, begin_set, keep_choices, known_facts
from frame.screens.lesson.screen import LessonScreen
from frame.screens.parts.decimals import to_hundredths
from frame.screens.parts.dials import Dial, DialPage
from frame.screens.parts.outcome import Left, NextGiven
from frame.screens.parts.page import Tab
from frame.sheets.rounds import runs_asked
from frame.view.widgets import Brushes, Button, Style


class AllChoices(DialPage):
    """Rows of choices for what is asked, and one button to begin."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.note = ""
        self.left: Line | None = None
        self.known = known_facts(room)
        self._usual = usual(room)
        if room.choices is not None:
            room.choices = self._usual

    @property
    def choices(self) -> Choices:
        """What is chosen so far."""
        return self.room.choices or self._usual

    @property
    def chosen(self) -> Chosen:
        """What is chosen so far, with what the ladders say."""
        return Chosen(self.choices, self.room.ladder, self.room.settings.quick_flash)

    def leave(self) -> None:
        """What is chosen is kept for another day."""
        keep_choices(self.room)

    @property
    def greeting(self) -> Line | None:
        """How a set went that was left, the title, and what is chosen; or that something is to be
        learned first."""
        line = self.room.words.line
        title, asked = line("practise.title"), line(TITLES[self.choices.asked])
        rows = [dial.spoken for dial in self.dials] or [line("practise.first").speak]
        left = [self.left.speak] if self.left else []
        return Line(title.show, " ".join((*left, f"{title.speak}.", f"{asked.speak}.", *rows)))

    def resumed(self, result: object) -> Change | None:
        """A set is over, or was left: the ladder may say something else now. One that is kept
        hangs on the page before; what a tutor gave is begun from home."""
        if isinstance(result, KeptSet):
            return Pop()
        if isinstance(result, NextGiven):
            return Pop(result)
        left = result._asdict() if isinstance(result, Left) else None
        self.left = self.room.words.line("practise.left", **left) if left else None
        self.rearrange()
        return None

    def arrange(self) -> None:
        """The tabs, the rows, the button."""
        self.top, self.bottom = (21.4, 70.4) if self.is_narrow else (22, 77)
        words, one = self.room.words, self.choices
        tabs = [
            Tab(words.text(key), partial(self._open, asked), one.asked is asked)
            for asked, key in TITLES.items()
        ]
        self.buttons += self.tabs(self.band(12.5, 7.5), tabs, 1)
        super().arrange()
        text, begin, start = words.text("practise.start"), self._start, self._foot
        if not self.dials:
            text, begin = words.text("home.start", title=self._first.title), self._open_first
            start = self.band(34, 10)
        else:
            self.buttons.append(Button(self._beside_title, self._keep, words.text("practise.keep")))
        if runs_asked(one.asked):
            self.buttons.append(
                Button(self._published, self._open_published, words.text("published.open"))
            )
        self.buttons.append(Button(start, begin, text, sign="next", style=Style.MAIN))

    @property
    def _beside_title(self) -> pygame.Rect:
        """The button that keeps the set, at the right of the title."""
        place = self.band(2.5, 8.5)
        place.left, place.w = place.right - round(28 * self.unit), round(28 * self.unit)
        return place

    @property
    def _foot(self) -> pygame.Rect:
        """The button that begins, at the foot: beside the note, or in a narrow window below it."""
        place = self.band(79, 9)
        if not self.is_narrow:
            place.left, place.w = place.right - round(32 * self.unit), round(32 * self.unit)
        elif runs_asked(self.choices.asked):
            place.left, place.w = self._published.right + round(self.unit), round(0.6 * place.w)
        return place

    @property
    def _published(self) -> pygame.Rect:
        """What leads to the published runs: beside what keeps the set, or in a narrow window beside
        what begins it."""
        if self.is_narrow:
            place = self.band(79, 9)
            place.w -= round(0.6 * place.w) + round(self.unit)
            return place
        place = self._beside_title.copy()
        place.left, place.w = place.left - round(25 * self.unit), round(24 * self.unit)
        return place

    def _open_published(self) -> Change:
        return Push(Published(self.room, self.choices.asked))

    def _open(self, asked: Asked) -> None:
        """Another way of asking."""
        self.choose(asked=asked)
        self.rearrange()
        self.greet()

    @property
    def _first(self) -> LessonEntry:
        return self.room.course.lessons[0]

    def _open_first(self) -> Change:
        return Push(LessonScreen(self.room, Keeping.begin(self.room, self._first.id)))

    def now(self, name: str) -> object:
        """What is chosen for the next set."""
        return self.chosen.now(name)

    def choose(self, **changes: Any) -> None:
        """Have this chosen for the next set."""
        self.room.choices = self.chosen.choose(**changes)
        self.note, self.left = "", None

    def rows(self) -> tuple[Dial, ...]:
        """The rows of what is asked."""
        match self.choices.asked:
            case Asked.CALLED:
                return self._call_rows()
            case Asked.FLASHED:
                return self._flash_rows()
        return self._bead_rows() if self.known else ()

    def _bead_rows(self) -> tuple[Dial, ...]:
        beads, line = self.choices.beads, self.room.words.line
        by_ladder = line("practise.by_ladder")
        is_left = beads.family.grows and not beads.is_own
        digits = [*((None,) if is_left else ()), *range(1, MOST_DIGITS + 1)]
        return (
            self.turn(
                "practise.family",
                name="family",
                values=families_known(self.known),
                shown=line(f"family.{beads.family}"),
            ),
            *(self._level() if beads.is_own else self._rungs(by_ladder)),
            self._number("practise.digits", "digits", digits, by_ladder),
            *self._rows_of(beads.family),
            *((self._own(),) if beads.family.is_of_sums else ()),
        )

    def _rungs(self, by_ladder: Line) -> tuple[Dial, ...]:
        line = self.room.words.line
        rungs = [(by_ladder, None), *((line(f"rung.{rung.name}"), rung) for rung in Rung)]
        return (
            self.pick("practise.rung", name="rung", values=rungs[:5]),
            self.pick("", name="rung", values=rungs[5:]),
        )

    def _rows_of(self, family: Family) -> tuple[Dial, ...]:
        """How many numbers a column has, or how long the second number is."""
        if family.is_of_columns:
            rows = range(2, family.most_rows + 1)
            return (self._number("practise.terms", "rows", rows),) if family.is_of_sums else ()
        by = [(self._count(digits), digits) for digits in range(1, MOST_BY + 1)]
        return () if family is Family.ROOT else (self.pick("practise.by", name="by", values=by),)

    def _own(self) -> Dial:
        line = self.room.words.line
        frames = [(line("practise.on_screen"), False), (line("practise.own"), True)]
        return self.pick("practise.frame", name="own", values=frames)

    def _call_rows(self) -> tuple[Dial, ...]:
        line = self.room.words.line
        sights = [(line(f"sight.{sight}"), sight) for sight in Sight]
        gap = line("practise.gap", seconds=to_hundredths(self.chosen.now("pace")))
        return (
            *self._level(),
            self._number("practise.digits", "digits", range(1, MOST_CALLED_DIGITS + 1)),
            self._number("practise.terms", "rows", range(2, MOST_ROWS + 1)),
            self.turn("practise.pace", name="pace", values=CALL_PACES, shown=gap),
            self.switch("practise.minus", name="minus"),
            self.switch("practise.by_place", name="by_place"),
            self.pick("practise.frame", name="sight", values=sights),
        )

    def _flash_rows(self) -> tuple[Dial, ...]:
        line, now = self.room.words.line, self.chosen.now
        each, total = to_hundredths(now("interval")), to_hundredths(now("count") * now("interval"))
        paces = [seconds for seconds in FLASH_SECONDS if self.chosen.may_flash(seconds)]
        shown = line("practise.each", seconds=each, total=total)
        return (
            *self._level(),
            self._number("practise.digits", "digits", range(DIGITS[0], DIGITS[1] + 1)),
            self._number("practise.terms", "count", range(COUNT[0], COUNT[1] + 1)),
            self.turn("practise.pace", name="interval", values=paces, shown=shown),
            self.switch("practise.minus", name="minus"),
            self._own(),
        )

    def _level(self) -> tuple[Dial, ...]:
        """The row of levels, where there are any; before the first one comes what is left to the
        ladder of one's own frame."""
        chosen, line = self.chosen, self.room.words.line
        if not chosen.levels:
            return ()
        numbers = {"level": chosen.level.number, "levels": len(chosen.all_levels)}
        shown = line("practise.level", **numbers) if chosen.is_at_level else Line("–", "")
        if chosen.is_by_own_ladder:
            shown = line("practise.level_by_ladder", **numbers)
        values = [*((None,) if chosen.has_own_ladder else ()), *chosen.levels]
        return (self.turn("practise.level_name", name="level", values=values, shown=shown),)

    def _number(
        self, key: str, name: str, values: Sequence[int | None], without: Line | None = None
    ) -> Dial:
        """A row with less and more of a number."""
        now = self.chosen.now(name)
        shown = without if now is None and without else self._count(now)
        return self.turn(key, name=name, values=values, shown=shown)

    def _count(self, number: int) -> Line:
        return Line(str(number), self.room.words.number(number))

    def _start(self) -> Change | None:
        self.room.choices = self.choices
        try:
            return Push(LessonScreen(self.room, begin_set(self.room, self.choices)))
        except ExerciseError:
            self._tell(self.room.words.line("practise.none"))
            return None

    def _keep(self) -> Change | None:
        """The set gets a name, unless as many as can be have one."""
        count = len(kept_sets(self.room))
        if count < MOST_SETS:
            return Push(NewSet(self.room, self.choices))
        self._tell(self.room.words.line("practise.full", count=count))
        return None

    def _tell(self, line: Line) -> None:
        """Have this at the foot, and heard."""
        self.note = line.show
        self.room.say(line)
        self.rearrange()

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, the rows' names, and a note."""
        title = self.rect(12, 3, self.across - (44 if self.is_narrow else 80), 8)
        brushes.text(self.room.words.text("practise.title"), title, 2, bold=True)
        self.paint_rows(brushes)
        is_caution = self.choices.asked is Asked.FLASHED and not self.note
        note, size = self.band(77, 11), int(is_caution)
        note.w -= self._foot.w + round(4 * self.unit)
        if self.is_narrow:
            note = self.band(70, 9)
        if not self.dials:
            note, size = self.band(23, 8), 1
        text = self.note or note_of(self.room, self.chosen, self.known, self.size)
        left = self.left.show if self.left else ""
        told = " ".join(filter(None, (text, left) if is_caution else (left, text)))
        brushes.text(told, note, size, soft=not is_caution)

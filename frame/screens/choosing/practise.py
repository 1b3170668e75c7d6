"""What to practise: beads at any rung, called numbers, flashed numbers; then a set of them."""

from dataclasses import replace
from decimal import Decimal
from functools import partial
from typing import Any

import pygame

from frame.app import Change, Push
from frame.course.course import LessonEntry
from frame.language.lines import Line
from frame.practice.choices import (
    CALL_PACES,
    FLASH_SECONDS,
    MOST_BY,
    MOST_CALLED,
    MOST_CALLED_DIGITS,
    MOST_DIGITS,
    MOST_TERMS,
    USUAL_DIGITS,
    Choices,
    Sight,
    families_known,
)
from frame.practice.drawing import ExerciseError
from frame.practice.families import Family
from frame.practice.flashing import COUNT, DIGITS, LEVELS
from frame.practice.ladder import tracks
from frame.practice.rungs import Asked, Rung
from frame.room import Room
from frame.screens.choosing.practice_note import note_of
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.practice import TITLES, begin_set, known_facts
from frame.screens.lesson.screen import LessonScreen
from frame.screens.parts.dials import Dial, DialPage
from frame.screens.parts.page import Tab
from frame.view.flash_safety import needs_caution
from frame.view.widgets import Brushes, Button, Style

_OF_FLASH = "flash_"
"""With this before it, a name is one of the flash setting's."""


class PractiseScreen(DialPage):
    """Rows of choices for what is asked, and one button to begin."""

    top, bottom = 23.0, 76.0

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.note = ""
        self.known = known_facts(room)
        known = families_known(self.known)
        choices = room.choices or Choices()
        if known and choices.family not in known:
            choices = replace(choices, family=known[-1])
        room.choices = self._allowed(choices)
        self.tries = tracks(room.tries())

    def _allowed(self, choices: Choices) -> Choices:
        """The choices, with the nearest level that is allowed where the pace is not."""
        allowed = max(one.number for one in LEVELS if self._may_flash(one.setting.interval))
        level = min(choices.level, allowed)
        is_flash = self._may_flash(choices.flash.interval)
        return replace(
            choices, level=level, flash=choices.flash if is_flash else LEVELS[level - 1].setting
        )

    @property
    def choices(self) -> Choices:
        """What is chosen so far."""
        return self.room.choices or Choices()

    @property
    def greeting(self) -> Line | None:
        """The title, and what is chosen."""
        words, asked = self.room.words, TITLES[self.choices.asked]
        parts = (words.line("practise.title").speak, words.line(asked).speak)
        heard = [f"{part}." for part in parts] + [dial.spoken for dial in self.dials]
        return Line(words.text("practise.title"), " ".join(heard))

    def resumed(self, result: object) -> Change | None:
        """A set is over: the ladder may say something else now."""
        self.tries = tracks(self.room.tries())
        self.rearrange()
        return None

    def arrange(self) -> None:
        """The tabs, the rows, the button."""
        self.bottom = 70 if self.is_narrow else 76
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
        self.buttons.append(Button(start, begin, text, sign="next", style=Style.MAIN))

    @property
    def _foot(self) -> pygame.Rect:
        """The button that begins, at the foot: beside the note, or in a narrow window below it."""
        place = self.band(79, 9)
        if not self.is_narrow:
            place.left, place.w = place.right - round(44 * self.unit), round(44 * self.unit)
        return place

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

    def rows(self) -> tuple[Dial, ...]:
        """The rows of what is asked."""
        match self.choices.asked:
            case Asked.CALLED:
                return self._call_rows()
            case Asked.FLASHED:
                return self._flash_rows()
        return self._bead_rows() if self.known else ()

    def _bead_rows(self) -> tuple[Dial, ...]:
        one, line = self.choices, self.room.words.line
        by_ladder = line("practise.by_ladder")
        rungs = [(by_ladder, None), *((line(f"rung.{rung.name}"), rung) for rung in Rung)]
        ladder = [(by_ladder, None)] if one.family.grows else []
        digits = [*ladder, *self._numbers(range(1, MOST_DIGITS + 1))]
        usual = None if one.family.grows else USUAL_DIGITS
        family = line(f"family.{one.family}")
        is_own = one.own and one.family.is_of_sums
        seen = (
            self.pick("practise.rung", name="rung", values=rungs[:5]),
            self.pick("", name="rung", values=rungs[5:]),
        )
        return (
            self.turn(
                "practise.family", name="family", values=families_known(self.known), shown=family
            ),
            *(() if is_own else seen),
            self.pick("practise.digits", name="digits", values=digits, usual=usual),
            *(self._sum_rows() if one.family.is_of_sums else ()),
        )

    def _sum_rows(self) -> tuple[Dial, ...]:
        """How many numbers a column has, or how long the second number is; the frame."""
        one = self.choices
        frame = self.pick("practise.frame", name="own", values=self._frames)
        if one.family.is_of_columns:
            return self._number("practise.terms", "terms", range(2, MOST_TERMS + 1)), frame
        if one.family is Family.ROOT:
            return (frame,)
        by = self._numbers(range(1, MOST_BY + 1))
        return self.pick("practise.by", name="by", values=by), frame

    @property
    def _frames(self) -> list[tuple[Line, object]]:
        line = self.room.words.line
        return [(line("practise.on_screen"), False), (line("practise.own"), True)]

    def _call_rows(self) -> tuple[Dial, ...]:
        line, paces = self.room.words.line, range(len(CALL_PACES))
        gap = _decimal(CALL_PACES[self.choices.call_pace])
        pace = line("practise.gap", seconds=gap)
        sights = [(line(f"sight.{sight}"), sight) for sight in Sight]
        return (
            self._number("practise.digits", "call_digits", range(1, MOST_CALLED_DIGITS + 1)),
            self._number("practise.terms", "call_count", range(2, MOST_CALLED + 1)),
            self.turn("practise.pace", name="call_pace", values=paces, shown=pace),
            self.switch("practise.minus", name="minus"),
            self.switch("practise.by_place", name="by_place"),
            self.pick("practise.frame", name="sight", values=sights),
        )

    def _flash_rows(self) -> tuple[Dial, ...]:
        one, line = self.choices, self.room.words.line
        level = (
            line("practise.level", level=one.level, levels=len(LEVELS))
            if self._is_level
            else Line("–", "")
        )
        each, total = _decimal(one.flash.interval), _decimal(one.flash.total)
        pace = line("practise.each", seconds=each, total=total)
        levels = [level.number for level in LEVELS if self._may_flash(level.setting.interval)]
        paces = [seconds for seconds in FLASH_SECONDS if self._may_flash(seconds)]
        return (
            self.turn("practise.level_name", name="level", values=levels, shown=level),
            self._number("practise.digits", "flash_digits", range(*_beyond(DIGITS))),
            self._number("practise.terms", "flash_count", range(*_beyond(COUNT))),
            self.turn("practise.pace", name="flash_interval", values=paces, shown=pace),
            self.switch("practise.minus", name="minus"),
            self.pick("practise.frame", name="own", values=self._frames),
        )

    def _number(self, key: str, name: str, values: range) -> Dial:
        """A row with less and more of a number."""
        now = int(str(self.now(name)))
        return self.turn(key, name=name, values=values, shown=self._count(now))

    def _count(self, number: int) -> Line:
        return Line(str(number), self.room.words.number(number))

    def _numbers(self, values: range) -> list[tuple[Line, object]]:
        return [(self._count(value), value) for value in values]

    def now(self, name: str) -> object:
        """What is chosen, also of the flash setting."""
        of_flash = name.removeprefix(_OF_FLASH)
        if of_flash != name:
            return getattr(self.choices.flash, of_flash)
        return getattr(self.choices, name)

    def choose(self, **changes: Any) -> None:
        """Have this chosen for the next set."""
        of_flash = {name: changes.pop(name) for name in [*changes] if name.startswith(_OF_FLASH)}
        flash = {name.removeprefix(_OF_FLASH): value for name, value in of_flash.items()}
        if "level" in changes:
            changes["flash"] = LEVELS[changes["level"] - 1].setting
        elif flash:
            changes["flash"] = replace(self.choices.flash, **flash)
        self.room.choices = replace(self.choices, **changes)
        self.note = ""

    @property
    def _is_level(self) -> bool:
        return LEVELS[self.choices.level - 1].setting == self.choices.flash

    def _may_flash(self, interval: float) -> bool:
        """Whether so quick a pace may be chosen: beyond the safe rate only where an adult has
        allowed it."""
        return self.room.settings.quick_flash or not needs_caution(interval)

    def _start(self) -> Change | None:
        try:
            return Push(LessonScreen(self.room, begin_set(self.room, self.choices)))
        except ExerciseError:
            self.note = self.room.words.text("practise.none")
            self.rearrange()
            return None

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, the rows' names, and a note."""
        self.paint_title(brushes, self.room.words.text("practise.title"))
        self.paint_rows(brushes)
        note, size = self.band(77, 11), 0
        note.w -= self._foot.w + round(4 * self.unit)
        if self.is_narrow:
            note = self.band(70, 9)
        if not self.dials:
            note, size = self.band(23, 8), 1
        is_caution = self.choices.asked is Asked.FLASHED and not self.note
        text = self.note or note_of(self.room, self.choices, self.tries, self.known, self.size)
        brushes.text(text, note, size, soft=not is_caution)


def _beyond(ends: tuple[int, int]) -> tuple[int, int]:
    return ends[0], ends[1] + 1


def _decimal(seconds: float) -> Decimal:
    return Decimal(f"{seconds:.2f}".rstrip("0").rstrip("."))

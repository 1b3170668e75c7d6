"""What to practise: beads at any rung, called numbers, flashed numbers; then a set of them."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from decimal import Decimal
from typing import Any, TypeVar

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
from frame.screens.parts.dials import Choice, Dial, beside
from frame.screens.parts.panel import Panel
from frame.view.flash_safety import needs_caution
from frame.view.widgets import Brushes, Button, Style

Value = TypeVar("Value")


class PractiseScreen(Panel):
    """Rows of choices for what is asked, and one button to begin."""

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
        """The title."""
        return self.room.words.line("practise.title")

    def resumed(self, result: object) -> Change | None:
        """A set is over: the ladder may say something else now."""
        self.tries = tracks(self.room.tries())
        self.rearrange()
        return None

    def arrange(self) -> None:
        """The tabs, the rows, the button."""
        words, wide = self.room.words, self.across - 24
        width = (wide - 2 * (len(TITLES) - 1)) / len(TITLES)
        for index, (asked, key) in enumerate(TITLES.items()):
            place = self.rect(12 + index * (width + 2), 12.5, width, 7.5)
            chosen = self.choices.asked is asked
            act = self._setter(asked=asked)
            self.buttons.append(
                Button(place, act, words.text(key), style=Style.TAB, step=1, chosen=chosen)
            )
        self.dials = self._dials()
        for index, dial in enumerate(self.dials):
            self.buttons += dial.buttons(self._row(index), round(self.unit * 0.7))
        start = self.rect(12 + wide - 44, 78, 44, 9)
        text = words.text("practise.start")
        begin: Callable[[], object] = self._start
        if not self.dials:
            start = self.rect(12, 34, 60, 10)
            text = words.text("home.start", title=self._first.title)
            begin = self._open_first
        self.buttons.append(Button(start, begin, text, sign="next", style=Style.MAIN))

    @property
    def _first(self) -> LessonEntry:
        return self.room.course.lessons[0]

    def _open_first(self) -> Change:
        return Push(LessonScreen(self.room, Keeping.begin(self.room, self._first.id)))

    def _row(self, index: int) -> pygame.Rect:
        return self.rect(12, 23 + index * 8.8, self.across - 24, 7.4)

    def _dials(self) -> tuple[Dial, ...]:
        match self.choices.asked:
            case Asked.CALLED:
                return self._call_dials()
            case Asked.FLASHED:
                return self._flash_dials()
        return self._bead_dials() if self.known else ()

    def _bead_dials(self) -> tuple[Dial, ...]:
        one, words = self.choices, self.room.words
        by_ladder = words.text("practise.by_ladder")
        rungs = [(by_ladder, None), *((words.text(f"rung.{r.name}"), r) for r in Rung)]
        ladder = [(by_ladder, None)] if one.family.grows else []
        digits = [*ladder, *((str(d), d) for d in range(1, MOST_DIGITS + 1))]
        usual = None if one.family.grows else USUAL_DIGITS
        family = words.line(f"family.{one.family}")
        is_own = one.own and one.family.is_of_sums
        seen = (
            self._pick("practise.rung", "rung", rungs[:5]),
            self._pick("", "rung", rungs[5:]),
        )
        return (
            self._turn("practise.family", "family", families_known(self.known), family),
            *(() if is_own else seen),
            self._pick("practise.digits", "digits", digits, usual),
            *(self._sum_dials() if one.family.is_of_sums else ()),
        )

    def _sum_dials(self) -> tuple[Dial, ...]:
        return (*self._size_dials(), self._pick("practise.frame", "own", self._frames))

    def _size_dials(self) -> tuple[Dial, ...]:
        """How many numbers a column has, or how long the second number is."""
        if self.choices.family.is_of_columns:
            terms = range(2, MOST_TERMS + 1)
            return (self._turn("practise.terms", "terms", terms, self._count(self.choices.terms)),)
        if self.choices.family is Family.ROOT:
            return ()
        return (self._pick("practise.by", "by", [(str(d), d) for d in range(1, MOST_BY + 1)]),)

    @property
    def _frames(self) -> list[tuple[str, object]]:
        text = self.room.words.text
        return [(text("practise.on_screen"), False), (text("practise.own"), True)]

    @property
    def _on_off(self) -> list[tuple[str, object]]:
        text = self.room.words.text
        return [(text("settings.on"), True), (text("settings.off"), False)]

    def _call_dials(self) -> tuple[Dial, ...]:
        one, text = self.choices, self.room.words.text
        gap = _decimal(CALL_PACES[one.call_pace])
        pace = self.room.words.line("practise.gap", seconds=gap)
        sights = [(text(f"sight.{sight}"), sight) for sight in Sight]
        digits, counts = range(1, MOST_CALLED_DIGITS + 1), range(2, MOST_CALLED + 1)
        return (
            self._turn("practise.digits", "call_digits", digits, self._count(one.call_digits)),
            self._turn("practise.terms", "call_count", counts, self._count(one.call_count)),
            self._turn("practise.pace", "call_pace", range(len(CALL_PACES)), pace),
            self._pick("practise.minus", "minus", self._on_off),
            self._pick("practise.by_place", "by_place", self._on_off),
            self._pick("practise.frame", "sight", sights),
        )

    def _flash_dials(self) -> tuple[Dial, ...]:
        one, line = self.choices, self.room.words.line
        flash, most = one.flash, len(LEVELS)
        named = line("practise.level", level=one.level, levels=most)
        level = named if self._is_level else Line("–", "")
        each, total = _decimal(flash.interval), _decimal(flash.total)
        pace = line("practise.each", seconds=each, total=total)
        levels = [level.number for level in LEVELS if self._may_flash(level.setting.interval)]
        paces = [seconds for seconds in FLASH_SECONDS if self._may_flash(seconds)]
        return (
            self._turn("practise.level_name", "level", levels, level),
            self._flash_turn("practise.digits", "digits", range(*_beyond(DIGITS)), flash.digits),
            self._flash_turn("practise.terms", "count", range(*_beyond(COUNT)), flash.count),
            self._dial("practise.pace", pace, *self._steps("interval", paces, flash.interval)),
            self._pick("practise.minus", "minus", self._on_off),
            self._pick("practise.frame", "own", self._frames),
        )

    @property
    def _is_level(self) -> bool:
        return LEVELS[self.choices.level - 1].setting == self.choices.flash

    def _may_flash(self, interval: float) -> bool:
        """Whether so quick a pace may be chosen: beyond the safe rate only where an adult has
        allowed it."""
        return self.room.settings.quick_flash or not needs_caution(interval)

    def _pick(
        self, key: str, name: str, values: Sequence[tuple[str, object]], usual: object = None
    ) -> Dial:
        """A row of which one is chosen, the `usual` one where nothing is."""
        now = getattr(self.choices, name)
        now = usual if now is None else now
        label = self.room.words.text(key) if key else ""
        choices = tuple(
            Choice(text, now == one, self._setter(**{name: one})) for text, one in values
        )
        return Dial(label, choices, names=self._names)

    def _turn(self, key: str, name: str, values: Sequence[Value], shown: Line) -> Dial:
        """A row with less and more of a value."""
        at = list(values).index(getattr(self.choices, name))
        less = self._setter(**{name: values[at - 1]}) if at else None
        more = self._setter(**{name: values[at + 1]}) if at + 1 < len(values) else None
        return self._dial(key, shown, less, more)

    def _flash_turn(self, key: str, name: str, values: Sequence[int], now: int) -> Dial:
        return self._dial(key, self._count(now), *self._steps(name, values, now))

    def _steps(
        self, name: str, values: Sequence[float], now: float
    ) -> tuple[Callable[[], None] | None, Callable[[], None] | None]:
        """What less and more of one value of the flash setting do; beside a value of none of
        the steps, the nearest ones."""
        below, above = beside(now, values)
        less = self._flash_setter(name, below[-1]) if below else None
        return less, self._flash_setter(name, above[0]) if above else None

    def _flash_setter(self, name: str, value: float) -> Callable[[], None]:
        changed: Mapping[str, Any] = {name: value}
        return self._setter(flash=replace(self.choices.flash, **changed))

    def _dial(
        self, key: str, shown: Line, less: Callable[[], None] | None,
        more: Callable[[], None] | None,
    ) -> Dial:  # fmt: skip
        label = self.room.words.text(key)
        return Dial(label, value=shown, less=less, more=more, names=self._names)

    @property
    def _names(self) -> tuple[str, str, str]:
        text = self.room.words.text
        return text("sign.less"), text("sign.more"), text("sign.chosen")

    def _count(self, number: int) -> Line:
        return Line(str(number), self.room.words.number(number))

    def _setter(self, **changes: object) -> Callable[[], None]:
        def change() -> None:
            if "level" in changes:
                changes["flash"] = LEVELS[int(str(changes["level"])) - 1].setting
            self.room.choices = replace(self.choices, **changes)  # type: ignore[arg-type]
            self.note = ""
            self.rearrange()
            self.speak_focus()

        return change

    def _start(self) -> Change | None:
        try:
            return Push(LessonScreen(self.room, begin_set(self.room, self.choices)))
        except ExerciseError:
            self.note = self.room.words.text("practise.none")
            self.rearrange()
            return None

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, the rows' names, and a note."""
        words = self.room.words
        title = self.rect(12, 3, self.across - 24, 8)
        brushes.text(words.text("practise.title"), title, 2, bold=True)
        for index, dial in enumerate(self.dials):
            dial.paint(brushes, self._row(index))
        note, size = self.rect(12, 77, self.across - 24 - 48, 11), 0
        if not self.dials:
            note, size = self.rect(12, 23, self.across - 24, 8), 1
        is_caution = self.choices.asked is Asked.FLASHED and not self.note
        text = self.note or note_of(self.room, self.choices, self.tries, self.known, self.size)
        brushes.text(text, note, size, soft=not is_caution)


def _beyond(ends: tuple[int, int]) -> tuple[int, int]:
    return ends[0], ends[1] + 1


def _decimal(seconds: float) -> Decimal:
    return Decimal(f"{seconds:.2f}".rstrip("0").rstrip("."))

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
    Choices,
    Sight,
    families_known,
)
from frame.practice.columns import MOST_DIGITS, MOST_ROWS
from frame.practice.drawing import ExerciseError
from frame.practice.families import Family
from frame.practice.flashing import COUNT, DIGITS, LEVELS
from frame.practice.rungs import Asked, Rung
from frame.room import Room
from frame.screens.dials import Choice, Dial, beside
from frame.screens.keeping import Keeping
from frame.screens.lesson import LessonScreen
from frame.screens.panel import Panel
from frame.screens.practice_note import note_of
from frame.screens.practice_set import TITLES, begin_set, known_facts
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
        if known and choices.beads.family not in known:
            choices = replace(choices, beads=replace(choices.beads, family=known[-1]))
        room.choices = self._allowed(choices)
        self.tries = room.tries()

    def _allowed(self, choices: Choices) -> Choices:
        """The choices, with the nearest level that is allowed where the pace is not."""
        flash = choices.flashed.setting
        if flash is None or self._may_flash(flash.interval):
            return choices
        allowed = max(one.number for one in LEVELS if self._may_flash(one.setting.interval))
        nearest = LEVELS[min(choices.flashed.level.number, allowed) - 1].setting
        return replace(choices, flashed=replace(choices.flashed, setting=nearest))

    @property
    def choices(self) -> Choices:
        """What is chosen so far."""
        return self.room.choices or Choices()

    @property
    def settled(self) -> Choices:
        """The choices with what the ladders say in place of what is not chosen."""
        return self.choices.settled(self.tries, self.room.settings.ladder_rules)

    @property
    def greeting(self) -> Line | None:
        """The title."""
        return self.room.words.line("practise.title")

    def resumed(self, result: object) -> Change | None:
        """A set is over: the ladder may say something else now."""
        self.tries = self.room.tries()
        self.rearrange()
        return None

    def arrange(self) -> None:
        """The tabs, the rows, the button."""
        words, wide = self.room.words, self.across - 24
        width = (wide - 2 * (len(TITLES) - 1)) / len(TITLES)
        for index, (asked, key) in enumerate(TITLES.items()):
            place = self.rect(12 + index * (width + 2), 12.5, width, 7.5)
            chosen = self.choices.asked is asked
            act = self._to(replace(self.choices, asked=asked))
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
        one, words = self.choices.beads, self.room.words
        by_ladder = words.line("practise.by_ladder")
        rungs = [(by_ladder.show, None), *((words.text(f"rung.{r.name}"), r) for r in Rung)]
        ladder = [None] if one.family.grows else []
        digits = self.settled.beads.digits if one.digits or not ladder else None
        family = words.line(f"family.{one.family}")
        is_own = one.own and one.family.is_of_sums
        seen = (
            self._pick("practise.rung", "rung", rungs[:5]),
            self._pick("", "rung", rungs[5:]),
        )
        return (
            self._turn("practise.family", "family", families_known(self.known), family),
            *(() if is_own else seen),
            self._turn(
                "practise.digits",
                "digits",
                [*ladder, *range(1, MOST_DIGITS + 1)],
                self._count(digits) if digits else by_ladder,
            ),
            *(self._sum_dials() if one.family.is_of_sums else ()),
        )

    def _sum_dials(self) -> tuple[Dial, ...]:
        return (*self._size_dials(), self._pick("practise.frame", "own", self._frames))

    def _size_dials(self) -> tuple[Dial, ...]:
        """How many numbers a column has, or how long the second number is."""
        beads = self.settled.beads
        if beads.family.is_of_columns:
            rows = range(2, beads.family.most_rows + 1)
            return (self._turn("practise.terms", "rows", rows, self._count(beads.rows or 2)),)
        if beads.family is Family.ROOT:
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
        one, text = self.settled.called, self.room.words.text
        pace = self.room.words.line("practise.gap", seconds=_decimal(one.pace or 0))
        sights = [(text(f"sight.{sight}"), sight) for sight in Sight]
        digits, rows = range(1, MOST_DIGITS + 1), range(2, MOST_ROWS + 1)
        return (
            self._turn("practise.digits", "digits", digits, self._count(one.digits or 1)),
            self._turn("practise.terms", "rows", rows, self._count(one.rows or 2)),
            self._turn("practise.pace", "pace", CALL_PACES, pace),
            self._pick("practise.minus", "minus", self._on_off),
            self._pick("practise.by_place", "by_place", self._on_off),
            self._pick("practise.frame", "sight", sights),
        )

    def _flash_dials(self) -> tuple[Dial, ...]:
        one, line = self.settled.flashed, self.room.words.line
        flash = one.setting or LEVELS[0].setting
        levels = [level for level in LEVELS if self._may_flash(level.setting.interval)]
        at = min(one.level.number, len(levels))
        named = line("practise.level", level=at, levels=len(LEVELS))
        is_level = flash == one.level.setting
        each, total = _decimal(flash.interval), _decimal(flash.total)
        pace = line("practise.each", seconds=each, total=total)
        paces = [seconds for seconds in FLASH_SECONDS if self._may_flash(seconds)]
        less = self._to(self.choices.at(levels[at - 2])) if at > 1 else None
        more = self._to(self.choices.at(levels[at])) if at < len(levels) else None
        return (
            self._dial("practise.level_name", named if is_level else Line("–", ""), less, more),
            self._flash_turn("practise.digits", "digits", range(*_beyond(DIGITS)), flash.digits),
            self._flash_turn("practise.terms", "count", range(*_beyond(COUNT)), flash.count),
            self._dial("practise.pace", pace, *self._steps("interval", paces, flash.interval)),
            self._pick("practise.minus", "minus", self._on_off),
            self._pick("practise.frame", "own", self._frames),
        )

    def _may_flash(self, interval: float) -> bool:
        """Whether so quick a pace may be chosen: beyond the safe rate only where an adult has
        allowed it."""
        return self.room.settings.quick_flash or not needs_caution(interval)

    def _pick(self, key: str, name: str, values: Sequence[tuple[str, object]]) -> Dial:
        """A row of which one is chosen."""
        now = getattr(self.choices.part, name)
        label = self.room.words.text(key) if key else ""
        choices = tuple(
            Choice(text, now == one, self._setter(**{name: one})) for text, one in values
        )
        return Dial(label, choices, names=self._names)

    def _turn(self, key: str, name: str, values: Sequence[Value], shown: Line) -> Dial:
        """A row with less and more of a value."""
        now = getattr(self.choices.part, name)
        at = list(values).index(now if now in values else getattr(self.settled.part, name))
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
        return self._setter(
            setting=replace(self.settled.flashed.setting or LEVELS[0].setting, **changed)
        )

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
        return self._to(self.choices.choose(**changes))

    def _to(self, choices: Choices) -> Callable[[], None]:
        def change() -> None:
            self.room.choices = choices
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

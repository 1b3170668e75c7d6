"""A published run: what it asks for, where that is from, what is left open in it, and its start."""

from dataclasses import replace
from decimal import Decimal
from functools import partial
from typing import Any

import pygame

from frame.app import Change, Push
from frame.language.lines import Line
from frame.practice.choices import CALL_PACES
from frame.practice.flashing import FlashSetting
from frame.practice.rungs import Asked
from frame.room import Room
from frame.screens.lesson.practice import TITLES
from frame.screens.lesson.run import RunScreen
from frame.screens.parts.decimals import to_hundredths
from frame.screens.parts.dials import Dial, DialPage
from frame.screens.parts.flashing import size_note
from frame.screens.parts.outcome import Left
from frame.screens.parts.page import Tab
from frame.sheets.rounds import Rounds, runs_asked
from frame.sheets.runs import PublishedRun
from frame.view.flash_safety import SAFE_RATE, needs_caution
from frame.view.widgets import Brushes, Button, Style


class Published(DialPage):
    """The runs whose numbers come in one way, one of them open. Numbers that are flashed more
    quickly than this computer may are offered slower, and it is said that this is not what is
    published."""

    def __init__(self, room: Room, asked: Asked) -> None:
        super().__init__(room)
        self.runs = runs_asked(asked)
        self.left: Line | None = None
        self.rounds = self._rounds(self.runs[0])

    def _rounds(self, run: PublishedRun) -> Rounds:
        """The rounds of a run, as quick as this computer may show them."""
        rounds = Rounds.of(run)
        return replace(rounds, pace=1 / SAFE_RATE) if self._is_held(run) else rounds

    def _is_held(self, run: PublishedRun) -> bool:
        is_quick = run.asked is Asked.FLASHED and needs_caution(Rounds.of(run).pace)
        return is_quick and not self.room.settings.quick_flash

    @property
    def run(self) -> PublishedRun:
        """What is published."""
        return self.rounds.run

    @property
    def is_flashed(self) -> bool:
        """Whether its numbers are flashed; else they are called."""
        return self.run.asked is Asked.FLASHED

    @property
    def is_held(self) -> bool:
        """Whether it is too quick for this computer, as it is set."""
        return self._is_held(self.run)

    @property
    def title(self) -> Line:
        """What the page is of."""
        line = self.room.words.line
        return line("published.title", numbers=line(TITLES[self.run.asked]))

    @property
    def greeting(self) -> Line:
        """How the last one went where it was left, what it is, and what it asks for."""
        told = [self.left] if self.left else []
        told += [self.title, self.asks, *([self.held] if self.is_held else [])]
        said = [f"{one.speak.rstrip('.')}." for one in told]
        return Line(self.title.show, " ".join((*said, *(dial.spoken for dial in self.dials))))

    @property
    def asks(self) -> Line:
        """What it asks for."""
        return asks_line(self.room, self.run)

    @property
    def held(self) -> Line:
        """That it is too quick here, and what can be done."""
        total = to_hundredths(self.rounds.pace * self.rounds.count)
        pace = Rounds.of(self.run).pace
        return self.room.words.line(
            "published.held", rate=to_hundredths(1 / pace), most=SAFE_RATE, seconds=total
        )

    def resumed(self, result: object) -> Change | None:
        """A run is over, or was left."""
        left = result._asdict() if isinstance(result, Left) else None
        self.left = self.room.words.line("practise.left", **left) if left else None
        self.rearrange()
        return None

    def open(self, run: PublishedRun) -> None:
        """Another run."""
        self.rounds, self.left = self._rounds(run), None
        self.rearrange()
        self.greet()

    # What is left open

    def now(self, name: str) -> object:
        """What is chosen."""
        return getattr(self.rounds, name)

    def choose(self, **changes: Any) -> None:
        """Have this chosen for the next run."""
        self.rounds = replace(self.rounds, **changes)

    def rows(self) -> tuple[Dial, ...]:
        """Nothing of flashed numbers, of which all is published."""
        if self.is_flashed:
            return ()
        line, digits = self.room.words.line, self.run.digits
        counts = [(self._count(count), count) for count in self.run.counts]
        gap = line("practise.gap", seconds=to_hundredths(self.rounds.pace))
        frames = [(line("practise.on_screen"), False), (line("practise.own"), True)]
        lengths = range(digits.least, digits.most + 1)
        shown = self._count(self.rounds.digits)
        own = (self.pick("practise.frame", name="own", values=frames),)
        return (
            self.pick("practise.terms", name="count", values=counts),
            self.turn("published.longest", name="digits", values=lengths, shown=shown),
            self.turn("practise.pace", name="pace", values=CALL_PACES, shown=gap),
            self.switch("practise.minus", name="minus"),
            *(own if self.rounds.has_frame else ()),
        )

    def _count(self, number: int) -> Line:
        return Line(str(number), self.room.words.number(number))

    # How it is laid out

    def arrange(self) -> None:
        """The rows, and the button that begins."""
        self.top, self.bottom = (38.0, 76.0) if self.is_narrow else (36.0, 77.0)
        words, start = self.room.words, self.band(79, 9)
        if len(self.runs) > 1:
            tabs = [
                Tab(
                    words.text(f"published.name.{run.id}"), partial(self.open, run), run is self.run
                )
                for run in self.runs
            ]
            self.buttons += self.tabs(self.band(12.5, 7.5), tabs, 1, narrow=2)
        super().arrange()
        if not self.is_narrow:
            start.left, start.w = start.right - round(36 * self.unit), round(36 * self.unit)
        begin = words.line("practise.start")
        if self.is_held:
            seconds = to_hundredths(self.rounds.pace * self.rounds.count)
            begin = words.line("published.start_slower", seconds=seconds)
        self.buttons.append(
            Button(start, self._start, begin.show, sign="next", style=Style.MAIN, name=begin.speak)
        )
        self.buttons += self.speaker(self.corner)

    def _start(self) -> Change:
        return Push(RunScreen(self.room, self.rounds))

    def paint_rest(self, brushes: Brushes) -> None:
        """The title, what it asks for, where that is from, the rows, and what is to be known."""
        text = self.room.words.text
        self.paint_title(brushes, self.title.show)
        step = 1 if self.is_narrow or len(self.runs) > 1 else 2
        brushes.text(self.asks.show, self._asks, step)
        source = self.band(30.5, 7) if self.is_narrow else self.band(28.5, 6.5)
        brushes.text(text("published.source", source=self.run.source), source, 0, soft=True)
        self.paint_rows(brushes)
        if self.is_flashed:
            self._paint_caution(brushes)
        elif self.left:
            brushes.text(self.left.show, self._beside_start, 1 - self.is_narrow, soft=True)

    @property
    def _beside_start(self) -> pygame.Rect:
        """The foot beside the button, or in a narrow window what is above it."""
        if self.is_narrow:
            return self.band(60, 16) if self.is_flashed else self.band(75.5, 3)
        place = self.band(77, 11)
        place.w -= round(40 * self.unit)
        return place

    @property
    def _asks(self) -> pygame.Rect:
        """Where stands what it asks for: below the tabs, where there are any."""
        bottom = 30.0 if self.is_narrow else 28.0
        top = 21.0 if len(self.runs) > 1 else 13.0
        return self.band(top, bottom - top)

    def _paint_caution(self, brushes: Brushes) -> None:
        """How the last run went, where it was left; whether flashed numbers are too quick here, how
        large they come, and whom they harm."""
        words, rounds = self.room.words, self.rounds
        if self.is_held:
            told = self.held.show
        else:
            setting = FlashSetting(rounds.digits, rounds.count, rounds.pace)
            told = size_note(self.room, setting, self.size)
        if self.left:
            told = f"{self.left.show} {told}"
        brushes.text(told, self.band(39, 20) if self.is_narrow else self.band(37, 16), 1)
        brushes.text(words.text("flash.caution"), self._beside_start, 1)


def asks_line(room: Room, run: PublishedRun) -> Line:
    """What a run asks for, in a sentence or two."""
    line = room.words.line
    least, most = run.digits
    if run.asked is Asked.FLASHED:
        return line(
            "published.flashed", name=line(f"published.name.{run.id}"), tries=run.tries,
            count=run.counts[0], digits=most, seconds=Decimal(run.seconds), right=run.right,
        )  # fmt: skip
    return line("published.called", least=least, most=most, tries=Rounds.of(run).tries)

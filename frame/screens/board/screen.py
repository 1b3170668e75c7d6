"""The tutor's board: sums worked before a class, bead by bead, by a remote, keyboard or mouse."""

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path

import pygame

from frame.app import Change
from frame.course.agenda import Item, column_of
from frame.course.shown import ItemStage
from frame.language.printed import printed
from frame.room import Room
from frame.screens.board import painting
from frame.screens.board.acts import PASTED, Aid, Moment
from frame.screens.board.arriving import of_file
from frame.screens.board.bar import answer_buttons, bar_buttons, tools_of, way_in_button
from frame.screens.board.desk import BoardDesk
from frame.screens.board.keys import act_of
from frame.screens.board.places import Places, measure_of
from frame.screens.board.seen import Seen, seen_of
from frame.screens.board.work import Due
from frame.view.geometry import Point
from frame.view.inputs import Drag, Dropped, Hover, Input, Key, Press, Release
from frame.view.motion import SHOW_SECONDS
from frame.view.theme import unit
from frame.view.widgets import Brushes

BAR_SECONDS = 4.0
"""How long the bar stays after the mouse has moved, or a finger touched."""


class BoardScreen(BoardDesk):
    """The board in its window: what comes in, where it is laid out, what is painted."""

    def __init__(self, room: Room, items: Sequence[Item] = ()) -> None:
        super().__init__(room, items)
        self.follows_mouse = True
        self.is_black_by_touch = False
        self.mouse: Point | None = None
        self._seen: Seen | None = None
        self.dues.put(Due.BAR, room.seconds() + BAR_SECONDS)
        pygame.display.set_allow_screensaver(False)

    @property
    def unit(self) -> float:
        """One unit of space in pixels."""
        return unit(measure_of(self.size))

    @property
    def has_bar(self) -> bool:
        """Whether the bar of buttons is there: when the mouse has moved, or a button has focus; and
        while the board is empty."""
        return self.dues.at(Due.BAR) is not None or self.shown is None

    @property
    def has_timeline(self) -> bool:
        """Whether the timeline is there: while prepared work is shown, with the bar; not while
        another sum is typed above it, or something is told of a file, which takes its place."""
        shown = self.shown
        is_prepared = shown is not None and shown.is_worked and not shown.hand
        is_free = self.question is None and not self.typed.is_open and not self.note
        return self.has_bar and is_prepared and is_free

    @property
    def places(self) -> Places:
        """The parts of the window."""
        is_written = self.shown is not None and self.shown.is_written
        return Places(self.across, self.size[1] / self.unit, self.unit, is_written)

    @property
    def moment(self) -> Moment:
        """The board now, for what keys and tools mean."""
        shown = self.shown
        return Moment(
            aids=self.aids,
            typed=self.typed,
            task=shown.item.act if shown else None,
            speed=self.speed,
            question=self.question,
            is_told=shown is not None and shown.stage is ItemStage.TOLD,
            is_tried=bool(shown and shown.hand),
            is_asked=self.is_asked,
            is_covered=self.is_covered,
            is_given=self.is_given,
            called=self._called,
            is_held=self.is_held,
            runs=self.runs,
            is_black=self.is_black,
            has_focus=self.focus is not None,
            has_letters=self.room.settings.letter_keys,
        )

    @property
    def seen(self) -> Seen:
        """What is written on the board."""
        words, question = self.room.words, self.question
        if question is not None:
            count = len(column_of(self.column) if question is PASTED else self.board.items)
            return Seen(middle=words.text(question.key, count=count))
        return seen_of(
            self.board, self.moment, note=self.note, called=self._number_called, words=words,
            listener=self.room.listener,
        )  # fmt: skip

    @property
    def _called(self) -> int | None:
        """How many numbers of a call were begun; None where there is none."""
        return self.calling.begun(self.room.seconds()) if self.calling is not None else None

    @property
    def _number_called(self) -> str:
        """Without sound, the number that is called now."""
        at = self.calling.unheard(self.room) if self.calling is not None else None
        return "" if self.shown is None or at is None else printed(self.shown.item.sum.numbers[at])

    def touch_up(self, place: pygame.Rect | None = None) -> None:
        """Note what must be painted again; where it is all, what is seen may be another."""
        if place is None:
            self._seen = None
        super().touch_up(place)

    def arrange(self) -> None:
        """The frame, as large as it can be; the bar."""
        self.field.painter = self.room.painter
        self.show(self.room.seconds())

    def show(self, now: float, seconds: float = SHOW_SECONDS) -> None:
        """The beads, and the bar as it is for what is shown now."""
        self.field.place(self.places.frame)
        super().show(now, seconds)
        places, words = self.places, self.room.words
        if self.question is not None:
            self.buttons = answer_buttons(self.question, places, words, self.do)
        elif self.has_bar:
            self.buttons = bar_buttons(tools_of(self.moment), places, words, self.do)
        else:
            self.buttons = []
        if self.shown is None and self.question is None and not self.typed.is_open:
            self.buttons.append(way_in_button(places, words, self.do))
        if self.focus is not None:
            self.focus = min(self.focus, len(self.buttons) - 1)

    def handle(self, event: Input) -> Change | None:
        """Keys of the board; beads; the bar."""
        now, was_black = self.room.seconds(), self.is_black
        if was_black and isinstance(event, Press):
            if self.is_black_by_touch:  # There may be no key to show it again.
                self.toggle_black()
            return None
        change = self._handle(event, now)
        if self.is_black and not was_black:
            self.is_black_by_touch = isinstance(event, Release)
        if isinstance(event, Press):
            self._follow(event.at, now)
        return change

    def _handle(self, event: Input, now: float) -> Change | None:
        match event:
            case Hover(at) | Drag(_, at):
                self._follow(at, now)
            case Press(_, at) if self.has_timeline and self.places.timeline.collidepoint(at):
                line = self.places.timeline
                self.jump((at[0] - line.left) / line.w)
            case Dropped(path):
                self.add(of_file(Path(path), self.room.words))
            case Key():
                if event.code == pygame.K_TAB and not self.has_bar:
                    self._follow(self.mouse, now)
                act = act_of(event, self.moment)
                if act is not None:
                    self.focus_button(None)
                    return self.do(act)
        return super().handle(event)

    def may_press(self, at: Point) -> bool:
        """No beads are touched where they are covered or only to be read, or under the bar."""
        is_free = not self.is_covered and not self.looks and self.question is None
        return is_free and super().may_press(at)

    def focus_button(self, index: int | None) -> None:
        """Go to a tool; its name is written above the bar."""
        if index != self.focus:
            self.touch_up()
        super().focus_button(index)

    def _follow(self, at: Point | None, now: float) -> None:
        had_bar, before, self.mouse = self.has_bar, self.mouse, at
        self.dues.put(Due.BAR, now + BAR_SECONDS)
        if not had_bar:
            self.rearrange()
        elif Aid.RING in self.aids or self._tool_at(before) != self._tool_at(at):
            self.touch_up()

    def _tool_at(self, at: Point | None) -> int | None:
        return None if at is None else self.button_at(at)

    def rest(self, now: float) -> Change | None:
        """The work goes on; the bar goes where no button has the focus."""
        if self.dues.take(Due.BAR, now):
            if self.focus is not None:
                self.dues.put(Due.BAR, now + BAR_SECONDS)
            self.rearrange()
        return super().rest(now)

    def leave(self) -> None:
        """The computer may sleep again."""
        super().leave()
        pygame.display.set_allow_screensaver(True)
        pygame.mouse.set_visible(True)

    def brushes(self, surface: pygame.Surface) -> Brushes:
        """What to paint with, in the measure of the board."""
        return replace(super().brushes(surface), measure=measure_of(self.size))

    def paint(self, surface: pygame.Surface) -> None:
        """All of the board, or nothing but black."""
        if self.is_black:
            surface.fill((0, 0, 0))
            return
        super().paint(surface)

    def paint_rest(self, brushes: Brushes) -> None:
        """The sum, the answer, the frame, the rule, how far it is."""
        places, words = self.places, self.room.words
        seen = self._seen = self._seen or self.seen
        painting.paint_texts(brushes, places, seen)
        now, watch = self.room.seconds(), self.watch
        painting.paint_watch(brushes, places.watch, watch.told(now), watch.is_over(now))
        if self.question is not None:
            return
        shown = self.shown
        if shown is not None:
            self.field.paint(brushes.surface)
            painting.paint_work(brushes, places, seen, self.field, words)
            if Aid.NAMES in self.aids and not self.is_covered:
                painting.paint_place_names(brushes, self.field, is_one_number=shown.is_one_number)
            if Aid.SPOT in self.aids:
                painting.paint_spot(brushes, self.field, self.spot_at)
        if not self.has_bar:
            painting.paint_foot(brushes, places, seen)
            return
        if self.has_timeline and seen.steps:
            painting.paint_timeline(brushes, places, seen)
        tool = self.focus if self.focus is not None else self._tool_at(self.mouse)
        name = "" if tool is None else self.buttons[tool].name
        painting.paint_tool_name(brushes, places, seen, name)
        if Aid.RING in self.aids and self.mouse is not None:
            painting.paint_ring(brushes, self.mouse)

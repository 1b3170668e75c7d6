"""The tutor's board: sums worked before a class, bead by bead, by a remote, keyboard or mouse."""

from collections.abc import Callable, Sequence
from pathlib import Path

import pygame

from frame.app import Change, Perform, Pop, Push, Quit, Replace
from frame.course.agenda import Item
from frame.course.board import Shown, Stage
from frame.course.typed import TypedSum
from frame.language.printed import printed
from frame.room import Room
from frame.screens.board import painting
from frame.screens.board.acts import Act, Aid, Deed, Moment, Signs
from frame.screens.board.arriving import Arrival, of_file, of_text
from frame.screens.board.bar import bar_buttons, tools_of
from frame.screens.board.keys import act_of
from frame.screens.board.painting import Places
from frame.screens.board.seen import Seen, seen_of
from frame.screens.board.work import BoardWork, Due
from frame.view.clipboard import clipboard_text
from frame.view.geometry import Point
from frame.view.inputs import Drag, Dropped, Hover, Input, Key, Press
from frame.view.motion import SHOW_SECONDS
from frame.view.widgets import Brushes

BAR_SECONDS = 4.0
"""How long the bar stays after the mouse has moved."""


class BoardScreen(BoardWork):
    """One board, with the items of an agenda and whatever is typed."""

    def __init__(self, room: Room, items: Sequence[Item] = ()) -> None:
        super().__init__(room, items)
        self.follows_mouse = True
        self.typed = TypedSum()
        self.is_black = False
        self.mouse: Point | None = None
        self.dues.put(Due.BAR, room.seconds() + BAR_SECONDS)
        pygame.display.set_allow_screensaver(False)

    @property
    def has_bar(self) -> bool:
        """Whether the bar of buttons is there: when the mouse has moved, or a button has focus."""
        return self.dues.at(Due.BAR) is not None

    @property
    def has_timeline(self) -> bool:
        """Whether the timeline is there: while prepared work is shown, with the bar."""
        shown = self.shown
        return self.has_bar and shown is not None and shown.is_worked and not shown.hand

    @property
    def places(self) -> Places:
        """The parts of the window."""
        return Places(self.across, self.unit)

    @property
    def moment(self) -> Moment:
        """The board now, for what keys and tools mean."""
        shown = self.shown
        return Moment(
            task=shown.item.act if shown else None,
            is_told=shown is not None and shown.stage is Stage.TOLD,
            is_tried=bool(shown and shown.hand),
            runs=self.plays or self.calling is not None,
            speed=self.speed,
            aids=self.aids,
            typed=self.typed,
            is_black=self.is_black,
            has_focus=self.focus is not None,
            has_letters=self.room.settings.letter_keys,
        )

    @property
    def seen(self) -> Seen:
        """What is written on the board."""
        return seen_of(
            self.board, self.moment, note=self.note, called=self._number_called,
            is_covered=self.is_covered, words=self.room.words, listener=self.room.listener,
        )  # fmt: skip

    @property
    def _number_called(self) -> str:
        """Without sound, the number that is called now."""
        call, shown = self.calling, self.shown
        if call is None or shown is None or (call.is_heard and self.room.can_speak):
            return ""
        at = call.number(self.room.seconds())
        return "" if at is None else printed(shown.item.sum.numbers[at])

    def arrange(self) -> None:
        """The frame, as large as it can be; the bar."""
        self.field.painter = self.room.painter
        self.field.place(self.rect(5, 17, self.across - 10, 49))
        self.show(self.room.seconds())

    def show(self, now: float, seconds: float = SHOW_SECONDS) -> None:
        """The beads, and the bar as it is for what is shown now."""
        super().show(now, seconds)
        tools = tools_of(self.moment)
        self.buttons = (
            bar_buttons(
                tools, across=self.across, unit=self.unit, words=self.room.words, do=self.do
            )
            if self.has_bar
            else []
        )
        if self.focus is not None:
            self.focus = min(self.focus, len(self.buttons) - 1)

    def do(self, act: Act) -> Change | None:
        """Do what a key or a tool means."""
        match act:
            case Aid():
                self.turn(act)
            case Signs(signs):
                self.type(self.typed.plus(signs))
            case Deed():
                change = _DEEDS[act](self)
                return change if isinstance(change, Push | Pop | Replace | Quit | Perform) else None
        return None

    def handle(self, event: Input) -> Change | None:
        """Keys of the board; beads; the bar."""
        now = self.room.seconds()
        if self.is_black and isinstance(event, Press):
            return None
        match event:
            case Hover(at) | Drag(_, at):
                self._follow(at, now)
            case Press(_, at) if self.has_timeline and self.places.timeline.collidepoint(at):
                line = self.places.timeline
                self.jump((at[0] - line.left) / line.w)
            case Dropped(path):
                self._add(of_file(Path(path), self.room.words))
            case Key():
                if event.code == pygame.K_TAB and not self.has_bar:
                    self._follow(self.mouse, now)
                act = act_of(event, self.moment)
                if act is not None:
                    self.focus_button(None)
                    return self.do(act)
        return super().handle(event)

    def may_press(self, at: Point) -> bool:
        """No beads are touched where they are covered, or under the bar."""
        return not self.is_covered and super().may_press(at)

    def _follow(self, at: Point | None, now: float) -> None:
        had_bar, before, self.mouse = self.has_bar, self.mouse, at
        self.dues.put(Due.BAR, now + BAR_SECONDS)
        if not had_bar:
            self.rearrange()
        elif Aid.RING in self.aids or self._tool_at(before) != self._tool_at(at):
            self.touch_up()

    def _tool_at(self, at: Point | None) -> int | None:
        return None if at is None else self.button_at(at)

    def toggle_black(self) -> None:
        """Make the screen black, or show it again."""
        self.stop()
        self.is_black = not self.is_black
        pygame.mouse.set_visible(not self.is_black)
        self.rearrange()

    def type(self, typed: TypedSum) -> None:
        """Something is typed, or taken away."""
        self.typed = typed
        self.touch_up()

    def take_typed(self) -> None:
        """What was typed is put on the board, after what is shown."""
        item = self.typed.item
        self.typed = TypedSum() if item else self.typed.wrong()
        if item is not None:
            self.stop()
            self.board.put(item)
        self.rearrange()

    def paste(self) -> None:
        """The clipboard's column of sums is put behind the items there are."""
        self._add(of_text(clipboard_text(), self.room.words))

    def _add(self, arrival: Arrival) -> None:
        """Items come behind those there are; what is to be told of them is told."""
        self.stop()
        self.board.add(arrival.items)
        self.note = arrival.note
        self.rearrange()

    def rest(self, now: float) -> Change | None:
        """The work goes on; the bar goes where no button has the focus."""
        if self.dues.take(Due.BAR, now):
            if self.focus is not None:
                self.dues.put(Due.BAR, now + BAR_SECONDS)
            self.rearrange()
        return super().rest(now)

    def leave(self) -> None:
        """The computer may sleep again."""
        self.stop()
        pygame.display.set_allow_screensaver(True)
        pygame.mouse.set_visible(True)

    def paint(self, surface: pygame.Surface) -> None:
        """All of the board, or nothing but black."""
        if self.is_black:
            surface.fill((0, 0, 0))
            return
        super().paint(surface)

    def paint_rest(self, brushes: Brushes) -> None:
        """The sum, the answer, the frame, the rule, how far it is."""
        at, seen = self.places, self.seen
        painting.paint_texts(brushes, at, seen)
        if self.shown is not None:
            self.field.paint(brushes.surface)
            if Aid.NAMES in self.aids and not self.is_covered:
                painting.paint_names(brushes, at, self.field)
            if Aid.SPOT in self.aids:
                painting.paint_spot(brushes, self.field, self.spot_at)
        if not self.has_bar:
            painting.paint_foot(brushes, at, seen)
            return
        if self.has_timeline and seen.steps:
            painting.paint_timeline(brushes, at, seen)
        tool = self.focus if self.focus is not None else self._tool_at(self.mouse)
        painting.paint_tool_name(brushes, at, seen, "" if tool is None else self.buttons[tool].name)
        if Aid.RING in self.aids and self.mouse is not None:
            painting.paint_ring(brushes, at, self.mouse)


_DEEDS: dict[Deed, Callable[[BoardScreen], object]] = {
    Deed.LEAVE: lambda board: Pop(),
    Deed.BACK: BoardScreen.go_back,
    Deed.NEXT: BoardScreen.next,
    Deed.TO_STEP_START: lambda board: board.work_on(Shown.step_back),
    Deed.TO_STEP_END: lambda board: board.work_on(Shown.next_step),
    Deed.TO_START: lambda board: board.jump(0),
    Deed.TO_END: lambda board: board.jump(1),
    Deed.TOGGLE: BoardScreen.toggle,
    Deed.SPEED: BoardScreen.turn_speed,
    Deed.READ: BoardScreen.everyone_reads,
    Deed.ANSWER: BoardScreen.toggle_answer,
    Deed.UNDO: BoardScreen.undo,
    Deed.BLACK: BoardScreen.toggle_black,
    Deed.ITEM_BACK: lambda board: board.go_to_item(-1),
    Deed.ITEM_ON: lambda board: board.go_to_item(1),
    Deed.SPOT_LEFT: lambda board: board.move_spot(1),
    Deed.SPOT_RIGHT: lambda board: board.move_spot(-1),
    Deed.PASTE: BoardScreen.paste,
    Deed.TAKE: BoardScreen.take_typed,
    Deed.ERASE: lambda board: board.type(board.typed.erased()),
    Deed.FORGET: lambda board: board.type(TypedSum()),
    Deed.NOTHING: lambda board: None,
}

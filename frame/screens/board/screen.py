"""The tutor's board: sums worked before a class, bead by bead, by a remote, keyboard or mouse."""

import pygame

from frame.app import Change, Perform, Pop, Push, Quit, Replace
from frame.course.board import Stage
from frame.practice.flashing import FlashReport
from frame.screens.board.acts import BAR_SECONDS, BoardActs
from frame.screens.board.bar import bar_buttons
from frame.screens.board.keys import act_of
from frame.screens.board.painting import paint_board
from frame.screens.parts.flashing import refusal
from frame.technique.beads import Stroke
from frame.view.flash_safety import FlashRefused
from frame.view.gestures import Strokes
from frame.view.inputs import Drag, Dropped, Hover, Input, Key, Lost, Press, Release
from frame.view.motion import MOVE_SECONDS, SHOW_SECONDS
from frame.view.widgets import Brushes

MOVE_PAUSE = 1.4
"""Seconds from one move to the next while the board plays by itself, at normal speed."""


class BoardScreen(BoardActs):
    """One board, with the items of an agenda and whatever is typed."""

    @property
    def has_timeline(self) -> bool:
        """Whether the timeline is there: while prepared work is shown, with the bar."""
        shown = self.shown
        return self.has_bar and shown is not None and shown.is_worked and not shown.hand

    def arrange(self) -> None:
        """The frame, as large as it can be; the bar."""
        self.field.painter = self.room.painter
        self.field.place(self.rect(5, 17, self.across - 10, 49))
        self.show(self.room.seconds())

    def show(self, now: float, seconds: float = SHOW_SECONDS) -> None:
        """The beads, and the bar as it is for what is shown now."""
        super().show(now, seconds)
        self.buttons = bar_buttons(self) if self.has_bar else []
        if self.focus is not None:
            self.focus = min(self.focus, len(self.buttons) - 1)

    def go_to_item(self, way: int) -> None:
        """To the sum after this one (1) or before it (-1), as it was left."""
        self._hold()
        self.board.go_to_item(self.board.at + way)
        self.show(self.room.seconds(), MOVE_SECONDS)

    def move_spot(self, way: int) -> None:
        """The light goes a rod to the left (1) or to the right (-1)."""
        rod = (self.spot_at or 0) + way
        if self.shows.spot and self.field.frame.has(rod):
            self.spot_at = rod
            self.touch_up()

    def handle(self, event: Input) -> Change | None:
        """Keys of the board; beads; the bar."""
        now = self.room.seconds()
        if self.is_black and isinstance(event, Press):
            return None
        match event:
            case Hover(at) | Drag(_, at):
                self._follow(at, now)
            case Press(_, at) if self.has_timeline and self.timeline.collidepoint(at):
                self.jump((at[0] - self.timeline.left) / self.timeline.w)
            case Press(finger, at) if not self.is_covered and self.button_at(at) is None:
                self.field.press(finger, at, now)
            case Lost():
                self.field.cancel(now)
            case Dropped(path):
                self.take_file(path)
            case Key():
                if event.code == pygame.K_TAB and not self.buttons:
                    self.bar_until = now + BAR_SECONDS
                    self.rearrange()
                done = act_of(self, event)
                if done is not None:
                    self.focus_button(None)
                    change = done()
                    if isinstance(change, Push | Pop | Replace | Quit | Perform):
                        return change
                    return None
        if isinstance(event, Drag):
            self.field.drag(event.finger, event.at, now)
        if isinstance(event, Release):
            for one in self.field.release(event.finger, event.at, now):
                if isinstance(one, Strokes):
                    self.move(one.stroke)
        self.touch_up_field(self.field)
        return super().handle(event)

    def _follow(self, at: tuple[float, float], now: float) -> None:
        had_bar, before, self.mouse = self.has_bar, self.mouse, at
        self.bar_until = now + BAR_SECONDS
        if not had_bar:
            self.rearrange()
        elif self.shows.ring or (before and self.button_at(before)) != self.button_at(at):
            self.touch_up()

    def move(self, stroke: Stroke) -> None:
        """A bead is moved by hand at the board."""
        shown = self.shown
        if shown is not None and not self.is_covered:
            self._hold()
            shown.touch(stroke)
            self.show(self.room.seconds(), MOVE_SECONDS)

    def resumed(self, result: object) -> Change | None:
        """A run of flashed numbers is over; one that was stopped can be begun again."""
        is_shown = isinstance(result, FlashReport) and not result.was_stopped
        if isinstance(result, FlashRefused):
            self.note = refusal(result, self.room.words).show
        if self.shown is not None and not is_shown:
            self.shown.stage = Stage.READY
        self.rearrange()
        return None

    def advance(self, now: float) -> Change | None:
        """Beads glide; the play goes on; what was to be read is covered; the bar goes."""
        self.field.advance(now)
        if self.field.take_landed():
            self.room.click()
        self.touch_up_field(self.field)
        if self.covered_at is not None and now >= self.covered_at:
            self.covered_at = None
            self.show(now)
        if self.calling is not None:
            self.touch_up(self.rect(0, 0, self.across, 17))
            if self.calling.is_over(now):
                self._hold()
                self.rearrange()
        if self.buttons and not self.has_bar:
            self.rearrange()
        if self.plays and self.due is not None and now >= self.due and not self.field.is_moving:
            self._play_on(now)
        return None

    def _play_on(self, now: float) -> None:
        shown = self.shown
        if shown is None or shown.at >= shown.last:
            self._hold()
            self.rearrange()
            return
        shown.go_to(shown.at + 1)
        self.show(now, SHOW_SECONDS / self.speed)
        self.due = now + MOVE_PAUSE / self.speed
        if self.pauses and shown.is_deciding:
            self._hold()
            self.rearrange()

    def wakes_in(self, now: float) -> float | None:
        """At once while beads move; else when something falls due."""
        if self.field.is_moving:
            return 0
        call = self.calling.next_change(now) if self.calling else None
        bar = self.bar_until if self.buttons and self.focus is None else None
        times = [time for time in (self.due, self.covered_at, bar) if time is not None]
        waits = [max(0.001, min(times) - now)] if times else []
        return min([*waits, *([call] if call is not None else [])], default=None)

    def leave(self) -> None:
        """The computer may sleep again."""
        self._hold()
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
        paint_board(self, brushes)

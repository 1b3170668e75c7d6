"""What can be done on the board, by a key of a remote, by a letter or by the bar."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from pathlib import Path

import pygame

from frame.app import Change, Pop
from frame.course.agenda import Act, Item, items_of, read_agenda
from frame.course.board import Board, Shown, Stage
from frame.course.draft import read_file
from frame.course.problems import LessonError, Problem, problem_text, read_words
from frame.course.typed import TypedSum
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Asked, Rung
from frame.resources import ASSETS
from frame.room import Room
from frame.screens.parts import flashing
from frame.screens.parts.calling import Calling
from frame.screens.parts.panel import Panel
from frame.technique.beads import Frame
from frame.view.bead_field import BeadField
from frame.view.clipboard import clipboard_text
from frame.view.motion import MOVE_SECONDS, SHOW_SECONDS
from frame.view.painter import Appearance

SPEEDS = (0.5, 1.0, 2.0)
READ_SECONDS = 2.0
"""How long everyone sees a frame that is to be read."""
BAR_SECONDS = 4.0
"""How long the bar stays after the mouse has moved."""


@dataclass(frozen=True, slots=True)
class Shows:
    """What is seen beside the beads."""

    reading: bool = False
    rule: bool = True
    fingers: bool = True
    names: bool = True
    tint: bool = True
    verdict: bool = True
    spot: bool = False
    ring: bool = False


class BoardActs(Panel):
    """A board, what is shown of it, and what may be done; screens take the inputs."""

    goes_back = False

    def __init__(self, room: Room, items: Sequence[Item] = ()) -> None:
        super().__init__(room)
        self.follows_mouse = True
        self.board = Board.of(items, room.settings.conventions)
        self.shows = Shows(names=room.settings.place_names, tint=room.settings.bead_tint)
        self.typed = TypedSum()
        self.is_black = self.plays = self.pauses = False
        self.speed = SPEEDS[1]
        self.spot_at: int | None = None
        self.mouse: tuple[float, float] | None = None
        self.calling: Calling | None = None
        self.note = ""
        self.due: float | None = None
        self.covered_at: float | None = None
        self.bar_until = room.seconds() + BAR_SECONDS
        frame = self.shown.frame if self.shown else Frame.cleared(5)
        self.field = BeadField(
            room.painter, frame, self.rect(0, 0, 1, 1), room.settings.marks_every,
            reduced=room.settings.reduced_motion,
        )  # fmt: skip
        pygame.display.set_allow_screensaver(False)

    @property
    def shown(self) -> Shown | None:
        """The item on the board."""
        return self.board.shown

    @property
    def has_bar(self) -> bool:
        """Whether the bar of buttons is there: when the mouse has moved, or a button has focus."""
        return self.focus is not None or self.room.seconds() < self.bar_until

    @property
    def timeline(self) -> pygame.Rect:
        """The line along which one jumps to any point of the work."""
        return self.rect(6, 77.4, self.across - 12, 2.6)

    @property
    def is_covered(self) -> bool:
        """Whether the frame is covered: what everyone was to read, until it is told; and the
        answer of numbers that were called or flashed."""
        shown = self.shown
        if shown is None or shown.is_worked or shown.stage is Stage.TOLD:
            return False
        return not (shown.item.act is Act.READ and self.covered_at is not None)

    def show(self, now: float, seconds: float = SHOW_SECONDS) -> None:
        """Let the beads go where the board has them."""
        shown, field = self.shown, self.field
        if shown is not None and field.frame != shown.frame:
            field.show(shown.frame, now, seconds)
        stroke = shown.next_stroke if shown else ()
        field.hint(stroke if self.shows.fingers else ())
        rod = stroke[0].rod if stroke else None
        if self.shows.spot:
            self.spot_at = rod if rod is not None else self.spot_at
        look = Appearance(tint=self.shows.tint, covered=self.is_covered)
        field.appear(look)
        self.touch_up()

    def next(self) -> Change | None:
        """One move on; what is to be called, flashed or read begins."""
        return self._step(self.board.next)

    def go_back(self) -> Change | None:
        """One move back."""
        return self._step(self.board.back)

    def next_step(self) -> None:
        """To the end of the step."""
        self._in_item(lambda shown: shown.next_step())

    def step_back(self) -> None:
        """To the start of the step."""
        self._in_item(lambda shown: shown.step_back())

    def first(self) -> None:
        """To the start of the work."""
        self._in_item(lambda shown: shown.go_to(0))

    def last(self) -> None:
        """To the end of the work."""
        self._in_item(lambda shown: shown.go_to(shown.last))

    def jump(self, share: float) -> None:
        """To a place in the work, given as a share of its strokes."""
        self._in_item(lambda shown: shown.go_to(round(share * shown.last)))

    def _in_item(self, act: Callable[[Shown], None]) -> None:
        self._hold()
        if self.shown is not None and self.shown.is_worked:
            act(self.shown)
        self.show(self.room.seconds())

    def _step(self, act: Callable[[], None]) -> Change | None:
        self._hold()
        before, stage = self.shown, self.shown.stage if self.shown else None
        act()
        shown = self.shown
        is_given = shown is before and stage is Stage.READY
        self.covered_at = None
        self.show(self.room.seconds(), MOVE_SECONDS)
        if shown is not None and is_given and shown.stage is Stage.GIVEN:
            return self._give(shown)
        return None

    def _give(self, shown: Shown) -> Change | None:
        """What is to be read is seen for a moment; numbers are called or flashed."""
        now = self.room.seconds()
        if shown.item.act is Act.READ:
            self.everyone_reads()
        elif shown.item.act is Act.CALL:
            self.calling = Calling.of(self.room, _exercise(shown.item, Asked.CALLED))
            self.calling.start(now)
        elif shown.item.act is Act.FLASH:
            return flashing.flash(self.room, _exercise(shown.item, Asked.FLASHED))
        return None

    def everyone_reads(self) -> None:
        """The frame is seen for a moment, and then covered until the answer is told."""
        if self.shown is not None and self.shown.item.act is Act.READ:
            self.shown.stage = Stage.GIVEN
            self.covered_at = self.room.seconds() + READ_SECONDS
            self.show(self.room.seconds())

    def _hold(self) -> None:
        """Stop what runs, the play or a call; what was told of a file goes."""
        self.plays, self.due, self.note = False, None, ""
        if self.calling is not None:
            self.calling.stop()
            self.calling = None

    def toggle(self) -> Change | None:
        """Start the play, a call or a flashed run, or stop what runs. Nothing is lost."""
        shown, now, change = self.shown, self.room.seconds(), None
        self.note = ""
        if self.plays or self.calling is not None:
            self._hold()
        elif shown is not None and shown.is_worked:
            self.plays, self.due = True, now
        elif shown is not None and shown.stage is not Stage.TOLD and shown.item.act is not Act.READ:
            shown.stage = Stage.GIVEN
            change = self._give(shown)
        self.rearrange()
        return change

    def turn_speed(self) -> None:
        """Half, normal, double speed, in turn."""
        self.speed = SPEEDS[(SPEEDS.index(self.speed) + 1) % len(SPEEDS)]
        self.rearrange()

    def toggle_pauses(self) -> None:
        """Whether the play stops before the bead that decides, for the class to say it."""
        self.pauses = not self.pauses
        self.rearrange()

    def toggle_black(self) -> None:
        """Make the screen black, or show it again."""
        self._hold()
        self.is_black = not self.is_black
        pygame.mouse.set_visible(not self.is_black)
        self.rearrange()

    def toggle_answer(self) -> None:
        """Tell the answer, or keep it back."""
        if self.shown is not None:
            told = self.shown.stage is Stage.TOLD
            self.shown.stage = Stage.GIVEN if told else Stage.TOLD
            self.show(self.room.seconds())
            self.rearrange()

    def turn(self, name: str) -> None:
        """Show or hide one thing beside the beads."""
        self.shows = replace(self.shows, **{name: not getattr(self.shows, name)})
        self.spot_at = None
        self.rearrange()

    def undo(self) -> None:
        """The hand's last bead goes back."""
        if self.shown is not None and self.shown.undo():
            self.show(self.room.seconds(), MOVE_SECONDS)

    def type(self, signs: str) -> None:
        """A key types something; what is no part of a sum is nobody's."""
        if self.typed.type(signs):
            self.touch_up()

    def erase_typed(self) -> None:
        """The last sign typed goes."""
        self.typed.erase()
        self.touch_up()

    def forget_typed(self) -> None:
        """What was typed goes."""
        self.typed.clear()
        self.touch_up()

    def take_typed(self) -> None:
        """What was typed is put on the board, after what is shown."""
        item = self.typed.take()
        if item is not None:
            self._hold()
            self.board.put(item)
        self.rearrange()

    def paste(self) -> None:
        """The clipboard's column of sums is put behind the items there are."""
        items, problems = items_of(clipboard_text())
        self._add(items, problems)

    def take_file(self, path: str) -> None:
        """An agenda, or a text with a column of sums, is put behind the items there are."""
        try:
            content = read_file(Path(path))
        except LessonError as error:
            named = [replace(one, file=Path(path).name) for one in error.problems]
            return self._add((), named)
        if Path(path).suffix.lower() in (".yaml", ".yml"):
            agenda, problems = read_agenda(content, Path(path).name)
            return self._add(agenda.items if agenda else (), problems)
        return self._add(*items_of(content.decode("utf-8", "replace")))

    def _add(self, items: Sequence[Item], problems: Sequence[Problem]) -> None:
        """Items come, or the first problem is told and nothing comes."""
        self._hold()
        if problems:
            wording = read_words(ASSETS / "words" / "problems.en.toml")
            # A pasted column has no file, and so no name before line and column.
            self.note = problem_text(problems[0], wording).removeprefix(":")
        elif items:
            self.board.add(items)
            self.note = self.room.words.text("board.added", count=len(items))
        else:
            self.note = self.room.words.text("board.nothing")
        self.rearrange()

    def leave_board(self) -> Change:
        """Home."""
        return Pop()


def _exercise(item: Item, asked: Asked) -> Exercise:
    """The numbers of an item as they are called or flashed."""
    return Exercise(Kind.SUM, item.sum, Rung.NUMBER, asked=asked, pace=item.pace)

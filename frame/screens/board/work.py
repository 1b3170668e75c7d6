"""The work on the board: gone through bead by bead, played, called, flashed, tried by hand."""

from collections.abc import Callable, Sequence
from dataclasses import replace
from enum import StrEnum

from frame.app import Change
from frame.course.agenda import Item, Task
from frame.course.shown import LEAST_RODS, ItemStage, Shown
from frame.practice.exercises import Exercise, Kind
from frame.practice.flashing import FlashReport
from frame.practice.rungs import Asked, Rung
from frame.room import Room
from frame.screens.board.acts import SPEEDS, Aid
from frame.screens.board.keeping import kept_board
from frame.screens.parts import flashing
from frame.screens.parts.calling import Calling
from frame.screens.parts.frame_panel import FramePanel
from frame.technique.beads import Frame, Stroke
from frame.view.flash_safety import FlashRefused
from frame.view.motion import MOVE_SECONDS, SHOW_SECONDS

READ_SECONDS = 2.0
"""How long everyone sees a frame that is to be read."""
MOVE_PAUSE = 1.4
"""Seconds from one move to the next while the board plays by itself, at normal speed."""


class Due(StrEnum):
    """What the board waits for: the next move of the play, covering what everyone reads, the next
    number of a call, the end of the bar, another look of the watch."""

    MOVE = "move"
    COVER = "cover"
    CALL = "call"
    BAR = "bar"
    WATCH = "watch"


class BoardWork(FramePanel):
    """A board as it was left, with the items of an agenda behind those there are, and what becomes
    of the one that is shown."""

    goes_back = False

    def __init__(self, room: Room, items: Sequence[Item] = ()) -> None:
        self.board, self.aids, self.speed = kept_board(room)
        self.board.bring(items)
        super().__init__(room, self.shown.frame if self.shown else Frame.cleared(LEAST_RODS))
        self.spot_at: int | None = None
        self.calling: Calling | None = None
        self.note = ""

    @property
    def shown(self) -> Shown | None:
        """The item on the board."""
        return self.board.shown

    @property
    def plays(self) -> bool:
        """Whether the work goes on by itself."""
        return self.dues.at(Due.MOVE) is not None

    @property
    def is_covered(self) -> bool:
        """Whether the frame is covered: what everyone was to read, until it is told; and the
        answer of numbers that were called or flashed."""
        shown = self.shown
        if shown is None or shown.is_worked or shown.stage is ItemStage.TOLD:
            return False
        return not self.looks

    @property
    def is_given(self) -> bool:
        """Whether all was called, flashed or read, and the answer is kept back."""
        shown = self.shown
        if shown is None or shown.is_worked:
            return False
        return shown.stage is ItemStage.GIVEN and not self.runs

    def show(self, now: float, seconds: float = SHOW_SECONDS) -> None:
        """Let the beads go where the board has them."""
        shown, field = self.shown, self.field
        if shown is not None and field.frame != shown.frame:
            field.show(shown.frame, now, seconds)
        stroke = shown.next_stroke if shown else ()
        field.hint(stroke if self.tells_next else ())
        if Aid.SPOT in self.aids and stroke:
            self.spot_at = stroke[0].rod
        is_tinted = Aid.TINT in self.aids
        field.appear(replace(field.look, tint=is_tinted, covered=self.is_covered))
        self.touch_up()

    @property
    def tells_next(self) -> bool:
        """Whether the next bead is marked."""
        return Aid.FINGERS in self.aids and not self.is_asked

    @property
    def is_asked(self) -> bool:
        """Whether the class is to say what comes next: a sentence of the tutor's own stands there,
        or the next bead is one that decides and the play stops before those."""
        shown = self.shown
        if shown is None or shown.hand or self.plays:
            return False
        is_deciding = Aid.STOP_BEFORE in self.aids and shown.is_worked and shown.is_deciding
        return is_deciding or (bool(shown.item.line) and not shown.is_begun)

    def next(self) -> Change | None:
        """One move on; what is to be called, flashed or read begins. A call is held, or goes on:
        its answer is told only when all of it was called; so is what everyone reads first covered
        and then told."""
        if self.calling is not None:
            self.hold()
        elif self.looks:
            self.end_look()
        else:
            return self._go_on()
        return None

    def _go_on(self) -> Change | None:
        before, stage = self.shown, self.shown.stage if self.shown else None
        self._step(self.board.next)
        shown = self.shown
        if shown is None or shown is not before or (stage, shown.stage) != _GIVEN_NOW:
            return None
        return self._give()

    def hold(self) -> None:
        """Hold a call, or let it go on."""
        if self.calling is not None:
            self.calling.hold(self.room.seconds())
            self._await_number(self.room.seconds())

    def end_look(self) -> None:
        """Cover what everyone reads before its time is over."""
        self.dues.put(Due.COVER, None)
        self.rearrange()

    def go_back(self) -> None:
        """One move back; from a call, or while everyone reads, to before it."""
        self._step(self.stop if self.calling is not None else self.board.back)

    def go_to_item(self, way: int) -> None:
        """To the sum after this one (1) or before it (-1), as it was left."""
        self._step(lambda: self.board.go_to_item(self.board.at + way))

    def _step(self, act: Callable[[], None]) -> None:
        self.stop()
        act()
        self.show(self.room.seconds(), MOVE_SECONDS)

    def work_on(self, act: Callable[[Shown], None]) -> None:
        """To another place in the work that is shown."""
        self.stop()
        if self.shown is not None and self.shown.is_worked:
            act(self.shown)
        self.show(self.room.seconds())

    def jump(self, share: float) -> None:
        """To a place in the work, given as a share of its strokes."""
        self.work_on(lambda shown: shown.go_to(round(share * shown.last)))

    def _give(self) -> Change | None:
        """What is to be read is seen for a moment; numbers are called or flashed."""
        item = self.shown.item if self.shown else None
        if item is not None and item.act is Task.READ:
            self.everyone_reads()
        elif item is not None and item.act is Task.CALL:
            self.calling = Calling.of(self.room, _exercise(item, Asked.CALLED))
            self.calling.start(self.room.seconds())
            self._await_number(self.room.seconds())
        elif item is not None and item.act is Task.FLASH:
            return flashing.flash(self.room, _exercise(item, Asked.FLASHED))
        return None

    def everyone_reads(self) -> None:
        """The frame is seen for a moment, and then covered until the answer is told."""
        if self.shown is not None and self.shown.item.act is Task.READ:
            self.stop()
            self.shown.leave_try()
            self.shown.stage = ItemStage.GIVEN
            self.dues.put(Due.COVER, self.room.seconds() + READ_SECONDS)
            self.show(self.room.seconds())

    @property
    def looks(self) -> bool:
        """Whether everyone reads now."""
        return self.dues.at(Due.COVER) is not None

    @property
    def runs(self) -> bool:
        """Whether a play or a call is under way, be it held, or everyone reads."""
        return self.plays or self.looks or self.calling is not None

    @property
    def is_held(self) -> bool:
        """Whether a call is held."""
        return self.calling is not None and self.calling.is_held

    def pause(self) -> None:
        """Stop what runs, but hold a call."""
        if self.calling is None:
            self.stop()
        elif not self.is_held:
            self.hold()

    def stop(self) -> None:
        """Stop what runs, the play, a call or a look; a call can be begun anew. What was told of a
        file goes."""
        self.note = ""
        for due in (Due.MOVE, Due.CALL, Due.COVER):
            self.dues.put(due, None)
        if self.calling is not None and self.shown is not None:
            is_over = self.calling.is_over(self.room.seconds())
            self.shown.stage = self.shown.stage if is_over else ItemStage.READY
            self.calling.stop()
            self.calling = None

    def toggle(self) -> Change | None:
        """Start the play, at its end from where it began, a call, a flashed run or a look; or stop
        what runs, but for a call, which is held or goes on. Nothing is lost."""
        if self.calling is not None:
            self.hold()
            return None
        runs = self.runs
        self.stop()
        change = None if runs else self._start()
        self.rearrange()
        return change

    def _start(self) -> Change | None:
        """Begin what is shown, or begin it again; what was called or flashed and is told stays."""
        shown = self.shown
        if shown is not None and shown.is_worked:
            self._play(shown)
        elif shown is not None and (self.is_covered or shown.item.act is Task.READ):
            shown.stage = ItemStage.GIVEN
            return self._give()
        return None

    def _play(self, shown: Shown) -> None:
        """Begin to play; what is over from where it began, which is seen as long as a move is."""
        is_over = shown.at == shown.last and not shown.hand
        if is_over:
            shown.go_to(shown.begin if shown.begin < shown.last else 0)
        wait = MOVE_PAUSE / self.speed if is_over else 0
        self.dues.put(Due.MOVE, self.room.seconds() + wait)

    def turn_speed(self) -> None:
        """Half, normal, double speed, in turn."""
        self.speed = SPEEDS[(SPEEDS.index(self.speed) + 1) % len(SPEEDS)]
        self.rearrange()

    def toggle_answer(self) -> None:
        """Tell the answer, or keep it back."""
        self.stop()
        if self.shown is not None:
            self.shown.toggle_told()
            self.rearrange()

    def turn(self, aid: Aid) -> None:
        """Show or hide one thing beside the beads."""
        self.aids ^= {aid}
        self.spot_at = None
        self.rearrange()

    def move_spot(self, way: int) -> None:
        """The light goes a rod to the left (1) or to the right (-1)."""
        rod = (self.spot_at or 0) + way
        if Aid.SPOT in self.aids and self.field.frame.has(rod):
            self.spot_at = rod
            self.touch_up()

    def undo(self) -> None:
        """The hand's last bead goes back."""
        if self.shown is not None and self.shown.undo():
            self.show(self.room.seconds(), MOVE_SECONDS)

    def touch(self, stroke: Stroke) -> None:
        """A bead is moved by hand at the board."""
        if self.shown is not None and not self.is_covered and not self.looks:
            self.stop()
            self.shown.touch(stroke)
            self.show(self.room.seconds(), MOVE_SECONDS)

    def resumed(self, result: object) -> Change | None:
        """A run of flashed numbers is over; one that was stopped can be begun again."""
        is_shown = isinstance(result, FlashReport) and not result.was_stopped
        if isinstance(result, FlashRefused):
            self.note = flashing.refusal(result, self.room.words).show
        if self.shown is not None and not is_shown:
            self.shown.stage = ItemStage.READY
        self.rearrange()
        return None

    def rest(self, now: float) -> Change | None:
        """The play and a call go on; what was to be read is covered."""
        if self.dues.take(Due.COVER, now):
            self.show(now)
        if self.dues.take(Due.CALL, now):
            self._await_number(now)
        if self.dues.take(Due.MOVE, now):
            self._play_on(now)
        return None

    def _await_number(self, now: float) -> None:
        """Until the next number of a call begins, or the call ends."""
        change = self.calling.next_change(now) if self.calling else None
        self.dues.put(Due.CALL, None if change is None else now + change)
        if self.calling is not None and self.calling.is_over(now):
            self.stop()
        self.rearrange()

    def _play_on(self, now: float) -> None:
        shown = self.shown
        if shown is None or shown.at == shown.last:
            return self.rearrange()
        shown.go_to(shown.at + 1)
        if not (Aid.STOP_BEFORE in self.aids and shown.is_deciding):
            self.dues.put(Due.MOVE, now + MOVE_PAUSE / self.speed)
        return self.show(now, SHOW_SECONDS / self.speed)


_GIVEN_NOW = ItemStage.READY, ItemStage.GIVEN


def _exercise(item: Item, asked: Asked) -> Exercise:
    """The numbers of an item as they are called or flashed."""
    return Exercise(Kind.SUM, item.sum, Rung.NUMBER, asked=asked, pace=item.pace)

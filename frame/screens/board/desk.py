"""The board's desk: whatever can be done is done here, by whichever key, tool or file."""

from collections.abc import Callable, Sequence

import pygame

from frame.app import Change, Perform, Pop, Push, Quit, Replace
from frame.course.agenda import Item
from frame.course.own import OwnAgenda
from frame.course.shown import Shown
from frame.course.typed import TypedSum
from frame.learner.computer import Pasted
from frame.learner.store import Store
from frame.room import Room
from frame.screens.board.acts import CLEARING, PASTED, Aid, BoardAct, Deed, Question, Signs
from frame.screens.board.agendas import Agendas
from frame.screens.board.arriving import Arrival, of_column, of_text
from frame.screens.board.keeping import keep_board
from frame.screens.board.work import BoardWork, Due
from frame.view.clipboard import clipboard_text


class BoardDesk(BoardWork):
    """A board, what is typed on it and what it asks. A learner steps aside for it: it is as the
    computer is set."""

    def __init__(self, room: Room, items: Sequence[Item] = ()) -> None:
        room.step_aside()
        super().__init__(room, items)
        self.typed = TypedSum()
        self.question: Question | None = None
        self.column = ""
        """The column that is asked about, or was read last, while that is told."""
        self.brought = 0
        self.is_black = False
        self.watch = room.tutor.watch
        self.dues.put(Due.WATCH, self.watch.next_change(room.seconds()))

    def do(self, act: BoardAct) -> Change | None:
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

    def stop(self) -> None:
        """Stop what runs; what was told of a column goes, but not a question about it."""
        super().stop()
        self._forget_told()

    def _forget_told(self) -> None:
        self.note = ""
        self.column = self.column if self.question is not None else ""

    @property
    def tells_next(self) -> bool:
        """Not while another sum is typed above the frame."""
        return super().tells_next and not self.typed.is_open

    def toggle_black(self) -> None:
        """Make the screen black, or show it again. A call is held meanwhile, and afterwards."""
        self.pause()
        self.is_black = not self.is_black
        pygame.mouse.set_visible(not self.is_black)
        self.rearrange()

    def touch_watch(self) -> None:
        """Have the watch begin, tell what is left, or stop."""
        now = self.room.seconds()
        self.watch.touch(now)
        self.dues.put(Due.WATCH, self.watch.next_change(now))
        self.touch_up()

    def rest(self, now: float) -> Change | None:
        """The watch may look otherwise."""
        if self.dues.take(Due.WATCH, now):
            self.dues.put(Due.WATCH, self.watch.next_change(now))
            self.touch_up()
        return super().rest(now)

    def stop_or_start(self) -> Change | None:
        """Stop what runs, but hold a call first; else lay aside what is asked or typed; else
        start."""
        if self.question is not None:
            self._drop_question()
        elif self.calling is not None and not self.is_held:
            self.hold()
        elif self.runs:
            self.stop()
        elif self.typed.is_open:
            self.typed = self.typed.opened(is_open=False)
        else:
            return self.toggle()
        self.rearrange()
        return None

    def type(self, typed: TypedSum) -> None:
        """Something is typed, or taken away, or laid aside. What was told before goes."""
        self.typed = typed
        self._forget_told()
        self.rearrange()

    def take_typed(self) -> None:
        """What was typed is put on the board, after what is shown."""
        item = self.typed.item
        is_done = item is not None or not self.typed.text.strip()
        self.typed = TypedSum() if is_done else self.typed.wrong()
        if item is not None:
            self.stop()
            self.board.put(item)
            self.keep()
        self.rearrange()

    def add(self, arrival: Arrival) -> None:
        """Items come behind those there are; what is to be told of them is told. How a column of
        numbers is read is asked once; while that is told, the same again is read the other way."""
        is_again = arrival.column == self.column
        self.stop()
        self._drop_question()
        pasted = self.room.keeper.read(Store.pasted, None)
        if not arrival.column:
            self._bring(arrival)
        elif pasted is None:
            self.ask(PASTED, 0)
            self.column = arrival.column
        elif is_again:
            self.board.take_back(self.brought)
            self.read_column(arrival.column, _OTHER[pasted])
        else:
            self.read_column(arrival.column, pasted)

    def _bring(self, arrival: Arrival) -> None:
        self.board.add(arrival.items)
        self.note = arrival.note
        self.keep()
        self.rearrange()

    def ask(self, question: Question, focus: int) -> None:
        """Ask something, with one of the answers in focus."""
        self.stop()
        self.question = question
        self.rearrange()
        self.focus_button(focus)

    def _drop_question(self) -> None:
        self.question = self.focus = None

    def choose(self, index: int) -> Change | None:
        """Give the first answer (0) or the second (1) to what is asked."""
        return None if self.question is None else self.do(self.question.answers[index])

    def read_column(self, column: str, pasted: Pasted) -> None:
        """A column of numbers is one sum, or a list, and so is the next one."""
        self.room.keeper.write(lambda store: store.keep_pasted(pasted), "pasted")
        self._drop_question()
        arrival = of_column(column, self.room.words, pasted)
        self.column, self.brought = column, len(arrival.items)
        self._bring(arrival)

    def open_agendas(self) -> Change | None:
        """Show the tutor's agendas, but not out of the dark."""
        if self.is_black:
            return None
        self.stop()
        return Push(Agendas(self.room))

    def resumed(self, result: object) -> Change | None:
        """The agendas are left; the one that was chosen is put on the board."""
        if result is not None and not isinstance(result, OwnAgenda):
            return super().resumed(result)
        if result is not None:
            self.board.bring(result.items)
            self.keep()
        self.rearrange()
        return None

    def clear(self, *, is_sure: bool) -> None:
        """All items go, if that is meant."""
        self._drop_question()
        if is_sure:
            self.board.clear()
            self.keep()
        self.rearrange()

    def keep(self) -> None:
        """Keep the board as it stands."""
        keep_board(self.room, self.board, self.aids, self.speed)

    def leave(self) -> None:
        """The board is kept, and the learner is back."""
        self.stop()
        self.keep()
        self.room.step_back()


_OTHER = {Pasted.SUM: Pasted.LIST, Pasted.LIST: Pasted.SUM}

_DEEDS: dict[Deed, Callable[[BoardDesk], object]] = {
    Deed.LEAVE: lambda board: Pop(),
    Deed.TYPE: lambda board: board.type(board.typed.opened(is_open=not board.typed.is_open)),
    Deed.AGENDAS: BoardDesk.open_agendas,
    Deed.BEGIN: lambda board: board.type(board.typed.opened()),
    Deed.BACK: BoardDesk.go_back,
    Deed.NEXT: BoardDesk.next,
    Deed.TO_STEP_START: lambda board: board.work_on(Shown.step_back),
    Deed.TO_STEP_END: lambda board: board.work_on(Shown.next_step),
    Deed.TO_START: lambda board: board.jump(0),
    Deed.TO_END: lambda board: board.jump(1),
    Deed.TOGGLE: BoardDesk.toggle,
    Deed.STOP: BoardDesk.stop_or_start,
    Deed.SPEED: BoardDesk.turn_speed,
    Deed.READ: BoardDesk.everyone_reads,
    Deed.ANSWER: BoardDesk.toggle_answer,
    Deed.UNDO: BoardDesk.undo,
    Deed.WATCH: BoardDesk.touch_watch,
    Deed.BLACK: BoardDesk.toggle_black,
    Deed.CLEAR: lambda board: board.ask(CLEARING, 0),
    Deed.KEEP_ALL: lambda board: board.clear(is_sure=False),
    Deed.CLEAR_ALL: lambda board: board.clear(is_sure=True),
    Deed.AS_SUM: lambda board: board.read_column(board.column, Pasted.SUM),
    Deed.AS_LIST: lambda board: board.read_column(board.column, Pasted.LIST),
    Deed.FIRST_CHOICE: lambda board: board.choose(0),
    Deed.SECOND_CHOICE: lambda board: board.choose(1),
    Deed.ITEM_BACK: lambda board: board.go_to_item(-1),
    Deed.ITEM_ON: lambda board: board.go_to_item(1),
    Deed.SPOT_LEFT: lambda board: board.move_spot(1),
    Deed.SPOT_RIGHT: lambda board: board.move_spot(-1),
    Deed.PASTE: lambda board: board.add(of_text(clipboard_text(), board.room.words)),
    Deed.TAKE: BoardDesk.take_typed,
    Deed.ERASE: lambda board: board.type(board.typed.erased()),
    Deed.FORGET: lambda board: board.type(TypedSum()),
    Deed.NOTHING: lambda board: None,
}

"""A sheet that was worked on paper is marked: its code is typed, and it is made from that."""

from concurrent.futures import Future
from enum import StrEnum
from functools import partial

from frame.app import Change, Push
from frame.learner.learners import Learner
from frame.room import Room
from frame.screens.marking.at_hand import AtHand
from frame.screens.marking.call_sheet import CallSheet
from frame.screens.marking.marks_end import Left
from frame.screens.marking.sheet_page import Turned
from frame.screens.marking.sheets_kept import codes_of
from frame.screens.marking.touch_wrong import TouchWrong
from frame.screens.marking.type_answers import TypeAnswers
from frame.screens.parts.code_of_sheet import code_signs, code_trouble
from frame.screens.parts.code_page import CodePage
from frame.screens.parts.page import abreast
from frame.sheets.called import can_be_called
from frame.sheets.code import CodeError, recipe_of
from frame.sheets.making import SheetError, sheet_of
from frame.sheets.sheet import Sheet
from frame.view.widgets import Button, Style

MADE_SECONDS = 0.05
"""How long after one question whether the sheet is made the next one is."""


class Due(StrEnum):
    """What the page waits for."""

    MADE = "made"


class MarksScreen(CodePage):
    """The code of a sheet, typed or touched. Behind it are the answers, or its call."""

    def __init__(self, room: Room, learner: Learner) -> None:
        super().__init__(room)
        self.learner = learner
        self.is_called = False
        self.at_hand: AtHand | None = None
        self.signs = code_signs("".join(self._left[-1:]))
        self._making: Future[Sheet] | None = None

    @property
    def _left(self) -> list[str]:
        """The codes of the sheets of the learner that were left."""
        return codes_of(self.room, self.learner)

    @property
    def is_busy(self) -> bool:
        """Whether the sheet is made."""
        return self._making is not None

    @property
    def title(self) -> str:
        """Whose sheet it is."""
        return self.room.words.text("marks.told.title", name=self.learner.nickname)

    @property
    def note(self) -> str:
        """That nothing is kept yet; or that the sheet of the code is half marked."""
        is_left = self.signs in map(code_signs, self._left)
        return self.room.words.text("marks.told.left" if is_left else "marks.told.unkept")

    def show_signs(self, signs: str) -> None:
        """Another code is typed: what is made is not wanted."""
        if self._making is not None:
            self._making.cancel()
            self._making = None
        super().show_signs(signs)

    def ways_on(self) -> list[Button]:
        """Marking, and the call."""
        text, (on, called) = self.room.words.text, abreast(self.band(78.5, 7), 2, self.unit)
        if not self.is_narrow:
            on, called = (self.rect(self.across - 45, top, 33, 6.6) for top in (21, 28.4))
        return [
            Button(on, self.take, text("marks.go_on"), style=Style.MAIN),
            Button(called, self.call, text("marks.call"), sign="speaker"),
        ]

    def again(self) -> Change | None:
        """The code that was meant."""
        return self._make(called=self.is_called)

    def take(self) -> Change | None:
        """Mark the sheet of this code."""
        return self._make(called=False)

    def call(self) -> Change | None:
        """Have the sheet of this code called."""
        return self._make(called=True)

    def _make(self, *, called: bool) -> Change | None:
        """Have the sheet of this code made, or tell what is wrong with it."""
        self.is_called = called
        try:
            recipe = recipe_of(self.signs)
        except CodeError as error:
            self.refuse(code_trouble(error, self.room.words), error.nearest)
            return None
        self._making = self.room.aside.do(partial(sheet_of, recipe))
        return self._made()

    def refuse(self, why: str, nearest: str = "", key: str = "marks.no_code") -> None:
        """No sheet is made of it."""
        self._making = None
        super().refuse(why, nearest, key)

    def _made(self) -> Change | None:
        """Mark the sheet, or have it called, once it is made."""
        making = self._making
        if making is None:
            return None
        if not making.done():
            self.dues.put(Due.MADE, self.room.seconds() + MADE_SECONDS)
            self.rearrange()
            return None
        try:
            sheet = making.result()
        except SheetError:
            self.refuse(self.room.words.text("marks.code.unmade"))
            return None
        self._making = None
        if self.is_called:
            return self._call(sheet)
        if not sheet.tasks:
            self.refuse("", key="marks.empty")
            return None
        return self._mark(self.learner, sheet)

    def _mark(self, learner: Learner, sheet: Sheet, *, quick: bool = False) -> Change:
        self._put_away()
        self.learner, self.at_hand = learner, AtHand(self.room, learner, sheet)
        if quick and not self.at_hand.half.is_begun:
            self.at_hand.turn(quick=True)
        return self._open(self.at_hand)

    def _call(self, sheet: Sheet) -> Change | None:
        if not can_be_called(sheet):
            self.refuse("", key="marks.uncalled")
            return None
        return Push(CallSheet(self.room, sheet))

    def _open(self, at_hand: AtHand) -> Change:
        return Push(TouchWrong(at_hand) if at_hand.is_quick else TypeAnswers(at_hand))

    def advance(self, now: float) -> Change | None:
        """The sheet may be made."""
        change = self._made() if self.dues.take(Due.MADE, now) else None
        return change or super().advance(now)

    def resumed(self, result: object) -> Change | None:
        """The other way of marking is wanted, or the same sheet of another child; or all is kept,
        and another code may come."""
        if isinstance(result, Learner) and self.at_hand is not None:
            return self._mark(result, self.at_hand.sheet, quick=self.at_hand.is_quick)
        if result is Turned.OTHER and self.at_hand is not None:
            return self._open(self.at_hand)
        self._put_away()
        if result is Left.KEPT:
            self.show_signs("")
        self.rearrange()
        return None

    def _put_away(self) -> None:
        if self.at_hand is not None:
            self.at_hand.leave()
            self.at_hand = None

    def leave(self) -> None:
        """What is not made yet need not be."""
        if self._making is not None:
            self._making.cancel()
        self._put_away()

"""Sheets of a learner that are not marked to the end, kept answer by answer until they are."""

from frame.learner.learners import Learner
from frame.learner.sheets_left import WHAT, codes_left, sheet_left, sheets_with
from frame.room import Room
from frame.sheets.half_marked import HalfMarked
from frame.sheets.sheet import Sheet


def codes_of(room: Room, learner: Learner) -> list[str]:
    """The codes of the sheets that were left, the one left last at the end."""
    return codes_left(_text(room, learner))


def half_marked(room: Room, learner: Learner, code: str, sheet: Sheet) -> HalfMarked | None:
    """The sheet of a code as far as it was marked, if it was left."""
    return sheet_left(_text(room, learner), code, sheet)


def keep_half(room: Room, learner: Learner, code: str, half: HalfMarked | None) -> None:
    """Keep how far a sheet is marked, so that it is found again on another day; None for no
    more."""
    text = sheets_with(_text(room, learner), code, half)
    name = f"sheets of {learner.id}"
    room.keeper.write(lambda store: store.keep_folded(learner, WHAT, text), name)


def _text(room: Room, learner: Learner) -> str:
    return room.keeper.read(lambda store: store.folded(learner, WHAT), None) or ""

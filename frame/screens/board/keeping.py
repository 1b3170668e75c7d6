"""The board's plan, kept on this computer: for as long as the window is open, and for the next
time."""

from frame.course.board import Board
from frame.course.kept import KeptPlan, plan_from_json, plan_to_json
from frame.learner.settings import Settings
from frame.learner.store import Store
from frame.room import Room
from frame.screens.board.acts import SPEEDS, Aid
from frame.technique.reading import NumberError

_HIDDEN = frozenset({Aid.STOP_BEFORE, Aid.READING, Aid.SPOT, Aid.RING})
"""Aids that are not there at first."""


def kept_board(room: Room) -> tuple[Board, frozenset[Aid], float]:
    """The board as it was left, with its aids and its speed; an empty one where nothing was kept,
    or it can't be read any more."""
    conventions = room.settings.conventions
    plan = plan_from_json(room.keeper.read(Store.kept_plan, None) or "")
    if plan is not None:
        try:
            board = Board.standing(plan.standings, plan.at, conventions)
        except NumberError:
            pass  # The school's way of working has changed, and this work no longer fits.
        else:
            aids = frozenset(aid for aid in Aid if aid in plan.aids)
            return board, aids, plan.speed if plan.speed in SPEEDS else 1.0
    return Board(conventions), _usual_aids(room.settings), 1.0


def _usual_aids(settings: Settings) -> frozenset[Aid]:
    hidden = set(_HIDDEN)
    hidden |= set() if settings.place_names else {Aid.NAMES}
    hidden |= set() if settings.bead_tint else {Aid.TINT}
    return frozenset(Aid) - hidden


def keep_board(room: Room, board: Board, aids: frozenset[Aid], speed: float) -> None:
    """Keep the board as it stands."""
    plan = plan_to_json(KeptPlan(board.stands, board.at, frozenset(map(str, aids)), speed))
    room.keeper.write(lambda store: store.keep_plan(plan), "plan")

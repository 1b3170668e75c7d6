"""What can be done on the board, by a key of a remote, by a letter or by the bar."""

from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from frame.course.agenda import Act as Task
from frame.course.typed import TypedSum

SPEEDS = (0.5, 1.0, 2.0)


class Deed(StrEnum):
    """One thing that can be done. What stands on the bar has the name of its sign."""

    LEAVE = "back"
    BACK = "step_back"
    NEXT = "step_on"
    TO_STEP_START = "step_start"
    TO_STEP_END = "step_end"
    TOGGLE = "play"
    SPEED = "slow"
    READ = "eye"
    ANSWER = "answer"
    UNDO = "undo"
    BLACK = "dark"
    TO_START = "start"
    TO_END = "end"
    ITEM_BACK = "item-back"
    ITEM_ON = "item-on"
    SPOT_LEFT = "spot-left"
    SPOT_RIGHT = "spot-right"
    PASTE = "paste"
    TAKE = "take"
    ERASE = "erase"
    FORGET = "forget"
    NOTHING = "nothing"


class Aid(StrEnum):
    """What can be shown or hidden beside the beads; and whether the play stops where a bead
    decides, for the class to say it."""

    STOP_BEFORE = "stop_before"
    READING = "reading"
    RULE = "rule"
    FINGERS = "fingers"
    NAMES = "names"
    TINT = "tint"
    VERDICT = "verdict"
    SPOT = "spot"
    RING = "ring"


class Signs(NamedTuple):
    """Signs of a sum are typed."""

    signs: str


Act = Deed | Aid | Signs


@dataclass(frozen=True, slots=True)
class Moment:
    """The board now, as far as what can be done depends on it. `task` is that of the item shown,
    None on an empty board; `runs` tells of a play or a call under way."""

    task: Task | None
    is_told: bool
    is_tried: bool
    runs: bool
    speed: float
    aids: frozenset[Aid]
    typed: TypedSum
    is_black: bool
    has_focus: bool
    has_letters: bool

"""What can be done on the board, by a key of a remote, by a letter or by the bar: these only name
a deed, and the desk does it."""

from dataclasses import dataclass
from enum import StrEnum
from typing import NamedTuple

from frame.course.agenda import Task
from frame.course.typed import TypedSum

SPEEDS = (0.5, 1.0, 2.0)


class Deed(StrEnum):
    """One thing that can be done. What stands on the bar has the name of its sign."""

    LEAVE = "back"
    TYPE = "type"
    AGENDAS = "agenda"
    BACK = "step_back"
    NEXT = "step_on"
    TO_STEP_START = "step_start"
    TO_STEP_END = "step_end"
    TOGGLE = "play"
    SPEED = "slow"
    READ = "eye"
    ANSWER = "answer"
    UNDO = "undo"
    WATCH = "watch"
    BLACK = "dark"
    CLEAR = "clear"
    BEGIN = "begin"
    TAKE = "tick"
    ERASE = "erase"
    FORGET = "forget"
    TO_START = "start"
    TO_END = "end"
    ITEM_BACK = "item_back"
    ITEM_ON = "item_on"
    SPOT_LEFT = "spot_left"
    SPOT_RIGHT = "spot_right"
    PASTE = "paste"
    STOP = "stop"
    FIRST_CHOICE = "first_choice"
    SECOND_CHOICE = "second_choice"
    AS_SUM = "as_sum"
    AS_LIST = "as_list"
    KEEP_ALL = "keep_all"
    CLEAR_ALL = "clear_all"
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


BoardAct = Deed | Aid | Signs


class Question(NamedTuple):
    """Something the board asks, under the key of its words, and the two answers to it."""

    key: str
    answers: tuple[Deed, Deed]


PASTED = Question("board.ask_pasted", (Deed.AS_SUM, Deed.AS_LIST))
CLEARING = Question("board.ask_clear", (Deed.KEEP_ALL, Deed.CLEAR_ALL))


@dataclass(frozen=True, slots=True)
class Moment:
    """The board now, as far as what can be done and what is seen depend on it. `task` is that of
    the item shown, None on an empty board; `runs` tells of a play or a call under way, `called`
    how many numbers of a call were begun, None where there is none, and `is_held` that it is held.
    `is_given` tells that all was called, flashed or read and the answer kept back, `is_asked` that
    the class is to say what comes next."""

    aids: frozenset[Aid]
    typed: TypedSum
    task: Task | None = None
    speed: float = 1.0
    question: Question | None = None
    is_told: bool = False
    is_tried: bool = False
    is_asked: bool = False
    is_covered: bool = False
    is_given: bool = False
    called: int | None = None
    is_held: bool = False
    runs: bool = False
    is_black: bool = False
    has_focus: bool = False
    has_letters: bool = True

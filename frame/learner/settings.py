"""What a learner, a tutor or a school may set; kept for each learner, and for the computer."""

import json
from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields, replace
from enum import StrEnum
from typing import TYPE_CHECKING, Any

from frame.technique.beads import MOST_RODS
from frame.technique.conventions import (
    Carry,
    Conventions,
    First,
    Operands,
    Outer,
    Remove,
    Strictness,
)

if TYPE_CHECKING:
    from frame.practice.ladder import LadderRules
    from frame.practice.mastery import MasteryRules


class Age(StrEnum):
    """The age band, for sizes and wording; no birthday is asked or kept."""

    YOUNG = "4-6"
    MIDDLE = "7-9"
    OLDER = "10+"


class Look(StrEnum):
    """The theme."""

    LIGHT = "light"
    DARK = "dark"
    HIGH_CONTRAST = "high-contrast"


class ByAge(StrEnum):
    """Whether something is there: as is usual at the age, or always, or never."""

    BY_AGE = "by age"
    ON = "on"
    OFF = "off"


class Volume(StrEnum):
    """How loud the beads are. Quiet until somebody asks for more."""

    OFF = "off"
    QUIET = "quiet"
    NORMAL = "normal"


class Down(StrEnum):
    """At how many misses among the last exercises a learner goes one rung down."""

    TWO_OF_THREE = "2 of 3"
    THREE_OF_FOUR = "3 of 4"
    NEVER = "never"

    @property
    def misses(self) -> tuple[int, int] | None:
        """So many among the last so many; None for never."""
        return {Down.TWO_OF_THREE: (2, 3), Down.THREE_OF_FOUR: (3, 4)}.get(self)


class ScreenShape(StrEnum):
    """Width to height of the screen before a class."""

    WIDE = "16:9"
    LESS_WIDE = "16:10"
    OLD = "4:3"


DIAGONALS = (0.6, 0.8, 1.0, 1.2, 1.4, 1.65, 1.9, 2.2, 2.5, 3.0, 3.5, 4.0, 4.5, 5.0)
"""Metres from corner to corner of a screen that can be set."""
SEATS = (1.0, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 5.0, 6.0, 7.0, 8.0, 9.0, 10.0, 12.0, 15.0)
"""Metres from a screen to a seat that can be set."""

YOUNG_RODS = 3
"""So many rods the young begin with on the free frame."""


@dataclass(frozen=True, slots=True)
class Settings:
    """All settings, each with its safe default. The computer has them too: for where nobody is
    here, for a class, and for newcomers to begin with. Those of OF_COMPUTER are its alone.

    With `voice` sentences are spoken. `things` are those to count beside the beads, `reads_out` has
    the free frame say its number. With `quick_flash` an adult has allowed more than three
    numbers a second. With `eyes_shut` the empty field comes to where the first touch of a sitting
    falls. The three that begin with `ladder` are the tutor's part of the ladder's rules. Today's
    set takes `today_minutes`, 0 for what is usual at the age. With `classroom` sizes are for a
    room, whose four measures follow it; lengths are in metres.
    """

    age: Age = Age.MIDDLE
    look: Look = Look.LIGHT
    volume: Volume = Volume.QUIET
    carry: Carry = Carry.LAST
    remove: Remove = Remove.RUN
    layout: Operands = Operands.BOTH
    outer: Outer = Outer.MULTIPLICAND
    first: First = First.HIGHEST
    strictness: Strictness = Strictness.BEADS
    marks_every: int = 3
    free_rods: int = 13
    left_handed: bool = False
    reduced_motion: bool = False
    bead_tint: bool = True
    place_names: bool = True
    things: ByAge = ByAge.BY_AGE
    all_open: bool = False
    voice: bool = True
    reads_out: ByAge = ByAge.BY_AGE
    ladder_up_after: int = 10
    ladder_share: float = 0.85
    ladder_down: Down = Down.TWO_OF_THREE
    today_minutes: int = 0
    eyes_shut: bool = False
    quick_flash: bool = False
    letter_keys: bool = True
    classroom: bool = False
    screen_diagonal: float = 2.5
    screen_shape: ScreenShape = ScreenShape.WIDE
    nearest_seat: float = 2.5
    farthest_seat: float = 7.0

    def on(self, computer: "Settings") -> "Settings":
        """The same with what belongs to the computer alone."""
        return replace(self, **{name: getattr(computer, name) for name in OF_COMPUTER})

    def of_newcomer(self, age: Age) -> "Settings":
        """The same for a newcomer of this age: the young begin with a small free frame."""
        rods = min(self.free_rods, YOUNG_RODS) if age is Age.YOUNG else self.free_rods
        return replace(self, age=age, free_rods=rods)

    @property
    def has_things(self) -> bool:
        """Whether things to count stand beside the beads: usually up to nine years."""
        by_age = self.age is not Age.OLDER
        return by_age if self.things is ByAge.BY_AGE else self.things is ByAge.ON

    @property
    def is_read_out(self) -> bool:
        """Whether the free frame says its number: usually for the young."""
        by_age = self.age is Age.YOUNG
        return by_age if self.reads_out is ByAge.BY_AGE else self.reads_out is ByAge.ON

    @property
    def conventions(self) -> Conventions:
        """The school's conventions, for the planners."""
        return Conventions(self.carry, self.remove, self.layout, self.outer, self.first)

    @property
    def ladder_rules(self) -> "LadderRules":
        """The rules of the ladder as the tutor has them; who never goes down does not for looks."""
        # Settings are read before the first picture, the ladder only when something is practised.
        from frame.practice.ladder import USUAL_RULES, Among

        among = self.ladder_down.misses
        misses = Among(*among) if among else None
        return replace(
            USUAL_RULES,
            up_after=self.ladder_up_after,
            share=self.ladder_share,
            misses=misses,
            looks=misses and USUAL_RULES.looks,
        )

    @property
    def mastery_rules(self) -> "MasteryRules":
        """What it takes to know something well, by the age band."""
        # As above.
        from frame.practice.mastery import MIDDLE, OLDER, YOUNG

        return {Age.YOUNG: YOUNG, Age.MIDDLE: MIDDLE, Age.OLDER: OLDER}[self.age]


OF_COMPUTER = frozenset(
    {
        "classroom",
        "screen_diagonal",
        "screen_shape",
        "nearest_seat",
        "farthest_seat",
        "quick_flash",
    }
)
"""What belongs to a computer, whoever is at it: its room, and what an adult has allowed on it."""

_RANGES: dict[str, tuple[object, ...]] = {
    "marks_every": (3, 4),
    "free_rods": tuple(range(1, MOST_RODS + 1)),
    "ladder_up_after": (6, 10, 15),
    "ladder_share": (0.8, 0.85, 0.95),
    "today_minutes": (0, 5, 10, 15, 20),
    "screen_diagonal": DIAGONALS,
    "nearest_seat": SEATS,
    "farthest_seat": SEATS,
}


def settings_from(stored: Mapping[str, Any]) -> Settings:
    """The settings stored as plain values; what is unknown or out of range takes its default."""
    usual = Settings()
    known: dict[str, Any] = {}
    for one in fields(Settings):
        value, default = stored.get(one.name), getattr(usual, one.name)
        if isinstance(default, StrEnum):
            if value in [member.value for member in type(default)]:
                known[one.name] = type(default)(value)
        elif type(value) is type(default) and value in _RANGES.get(one.name, (value,)):
            known[one.name] = value
    found = Settings(**known)
    if found.nearest_seat <= found.farthest_seat:
        return found
    return replace(found, nearest_seat=usual.nearest_seat, farthest_seat=usual.farthest_seat)


def settings_to(settings: Settings) -> dict[str, Any]:
    """The settings as plain values; the inverse of `settings_from`."""
    return asdict(settings)


def settings_to_learner(settings: Settings) -> dict[str, Any]:
    """The settings as plain values, without what belongs to the computer alone."""
    kept = settings_to(settings)
    return {name: kept[name] for name in kept if name not in OF_COMPUTER}


def stored_object(text: str | None) -> dict[str, Any]:
    """The JSON object that is stored as this text; an empty one where it can't be read."""
    try:
        stored = json.loads(text or "")
    except (ValueError, RecursionError):
        return {}
    return stored if isinstance(stored, dict) else {}

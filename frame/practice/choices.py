"""What is chosen to be practised, and the set of exercises that it asks for."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from enum import StrEnum

from frame.practice.climb import rods_of, rung_of
from frame.practice.columns import rods_needed
from frame.practice.drawing import Request
from frame.practice.families import Family, family_of
from frame.practice.flashing import LEVELS, FlashSetting
from frame.practice.ladder import LadderRules, Try, probe_of
from frame.practice.rungs import Asked, Rung

SET = 10
"""Exercises in a set of beads."""
SHORT_SET = 5
"""Columns in a set of called or flashed numbers."""
CALL_PACES = (3.0, 2.0, 1.5, 1.0, 0.7, 0.5, 0.35, 0.2)
"""Our own paces of calling, slowest first: seconds of silence between two numbers. The last two
are spoken more quickly as well."""
MOST_CALLED_DIGITS = 14
MOST_CALLED = 15
MOST_DIGITS = 3
MOST_BY = 3
"""Digits, at most, of the multiplier or divisor."""
USUAL_DIGITS = 2
"""Digits of the numbers in families that no ladder of rods makes longer, unless others are
chosen."""
MOST_TERMS = 6
FLASH_SECONDS = (5.0, 4.0, 3.0, 2.0, 1.5, 1.0, 0.8, 0.6, 0.5, 0.4, 1 / 3, 0.25, 0.2, 2 / 15, 0.1)
"""Seconds a flashed number takes, as they can be chosen one by one."""

_GROWING = (Family.ADD_TEN, Family.ADD_TEN_FIVE)
"""What needs a rod above its first number; other families may begin with a number on all rods."""

Tracks = Mapping[tuple[Family, int], Sequence[Try]]


class Sight(StrEnum):
    """What is seen of a frame while numbers are called: all of it, less and less, none; or the
    learner's own, on the table."""

    SEEN = "seen"
    PALE = "pale"
    COVERED = "covered"
    NONE = "none"
    OWN = "own"

    @property
    def rung(self) -> Rung:
        """The rung of the ladder that it is."""
        rungs = {Sight.SEEN: Rung.ALONE, Sight.PALE: Rung.PALE, Sight.COVERED: Rung.COVERED}
        return rungs.get(self, Rung.NUMBER)


@dataclass(frozen=True, slots=True)
class Choices:
    """All that can be chosen. `rung` and `digits` are None for what the ladder says."""

    asked: Asked = Asked.SHOWN
    family: Family = Family.ADD_DIRECT
    rung: Rung | None = None
    digits: int | None = None
    by: int = 1
    terms: int = 2
    own: bool = False
    call_digits: int = 1
    call_count: int = 3
    call_pace: int = 1
    by_place: bool = False
    sight: Sight = Sight.SEEN
    level: int = 1
    flash: FlashSetting = LEVELS[0].setting
    minus: bool = False

    def request(self, known: frozenset[str], tries: Tracks, rules: LadderRules) -> Request:
        """The set asked for, from what is known; beads by the ladder where nothing else is
        chosen."""
        match self.asked:
            case Asked.CALLED:
                return self._called()
            case Asked.FLASHED:
                return self._flashed()
        return self._shown(known, tries, rules)

    def standing(self, tries: Tracks, rules: LadderRules) -> tuple[Rung, int]:
        """The rung and the number of rods that the ladder says, with what is chosen instead."""
        by_rods = {rods: some for (family, rods), some in tries.items() if family is self.family}
        least = rods = self.family.least_rods
        if self.family.grows and self.digits is None:
            rods = rods_of(by_rods, self.family, rules)
        elif self.family.grows and self.digits is not None:
            rods = max(least, self.digits + self._room_above)
        rung = rung_of(by_rods.get(rods, ()), rules) if self.rung is None else self.rung
        return rung, rods

    def _shown(self, known: frozenset[str], tries: Tracks, rules: LadderRules) -> Request:
        rung, rods = self.standing(tries, rules)
        is_own = self.own and self.family.is_of_sums
        families = tuple(Family)
        easier = families[: families.index(self.family) + 1]
        usable = frozenset(fact for fact in known if family_of([fact]) in easier)
        facts = sorted(fact for fact in usable if family_of([fact]) is self.family)
        probe = probe_of(rung) if self.rung is None and not is_own else None
        digits, first = rods - self._room_above, 0 if self.family in _GROWING else rods
        if not self.family.grows:
            digits, first = self.digits or USUAL_DIGITS, 0
        return Request(
            tuple(fact for fact in facts if fact != "clear"), (), usable, SET, self.terms,
            digits, rods, Rung.ALONE if is_own else rung, own=is_own, first=first, by=self.by,
            probe=probe, rules=rules,
        )  # fmt: skip

    @property
    def _room_above(self) -> int:
        """How many rods a sum of this family needs beyond the digits of its numbers."""
        return 1 if self.family.least_rods > 1 else 0

    def _called(self) -> Request:
        rods = rods_needed(self.call_digits, self.call_count)
        return Request(
            (), (), frozenset(), SHORT_SET, self.call_count, self.call_digits, rods,
            self.sight.rung, Asked.CALLED, CALL_PACES[self.call_pace], self.by_place,
            self.sight is Sight.OWN, self.minus,
        )  # fmt: skip

    def _flashed(self) -> Request:
        flash = self.flash
        return Request(
            (), (), frozenset(), SHORT_SET, flash.count, flash.digits,
            rods_needed(flash.digits, flash.count), Rung.NUMBER, Asked.FLASHED, flash.interval,
            own=self.own, minus=self.minus,
        )  # fmt: skip


def families_known(known: frozenset[str]) -> tuple[Family, ...]:
    """The families of which something is known, in their order."""
    found = {family_of([fact]) for fact in known}
    return tuple(family for family in Family if family in found)

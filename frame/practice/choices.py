"""What is chosen to be practised, and the set of exercises that it asks for."""

from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Any

from frame.practice.columns import rods_needed
from frame.practice.drawing import Request
from frame.practice.families import Family, family_of_fact
from frame.practice.flashing import LEVELS, FlashSetting, Level
from frame.practice.ladder import LadderRules, probe_of
from frame.practice.own_ladder import OwnLevel, levels_of
from frame.practice.rungs import Asked, Rung
from frame.practice.sizes import Size, rods_for
from frame.practice.standing import Ladder
from frame.practice.why import Reason, Why, why_of
from frame.technique.conventions import USUAL, Conventions

SET = 10
"""Exercises in a set of beads."""
SHORT_SET = 5
"""Columns in a set of called or flashed numbers."""
CALL_PACES = (3.0, 2.0, 1.5, 1.0, 0.7, 0.5, 0.35, 0.2)
"""Our own paces of calling, slowest first: seconds of silence between two numbers. The last two
are spoken more quickly as well."""
MOST_BY = 3
"""Digits, at most, of the multiplier or divisor."""
USUAL_DIGITS = 2
"""Digits of the numbers in families that no ladder of rods makes longer, unless others are
chosen."""
FLASH_SECONDS = (5.0, 4.0, 3.0, 2.0, 1.5, 1.0, 0.8, 0.6, 0.5, 0.4, 1 / 3, 0.25, 0.2, 2 / 15, 0.1)
"""Seconds a flashed number takes, as they can be chosen one by one."""

_GROWING = (Family.ADD_TEN, Family.ADD_TEN_FIVE)
"""What needs a rod above its first number; other families may begin with a number on all rods."""


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
class Beads:
    """Exercises that are shown. None is for what a ladder says; `by` are the digits of a multiplier
    or divisor. With `own` sums are worked on a frame of one's own."""

    family: Family = Family.ADD_DIRECT
    rung: Rung | None = None
    digits: int | None = None
    rows: int | None = None
    by: int = 1
    own: bool = False

    @property
    def is_own(self) -> bool:
        """Whether the frame is the learner's own, on which only sums can be worked."""
        return self.own and self.family.is_of_sums

    def settled(self, ladder: Ladder) -> "Beads":
        """The same with rows and digits; without digits where the ladder says them by its rods."""
        digits = None if self.family.grows else USUAL_DIGITS
        rows = 2
        if self.is_own and self.family.grows:
            level = ladder.own_level(Asked.SHOWN, self.family)
            digits, rows = level.digits, level.rows
        rows = min(self.rows or rows, self.family.most_rows)
        return replace(self, digits=self.digits or digits, rows=rows)


@dataclass(frozen=True, slots=True)
class Called:
    """Numbers that are called. None is for what the ladder of one's own frame says, or else for the
    first level of it; `pace` is the silence between two numbers, in seconds."""

    digits: int | None = None
    rows: int | None = None
    pace: float | None = None
    by_place: bool = False
    minus: bool = False
    sight: Sight = Sight.SEEN

    def settled(self, ladder: Ladder) -> "Called":
        """The same with digits, rows and pace."""
        level = levels_of(Asked.CALLED)[0]
        if self.sight is Sight.OWN:
            level = ladder.own_level(Asked.CALLED)
        digits, rows = self.digits or level.digits, self.rows or level.rows
        pace = level.pace if self.pace is None else self.pace
        return replace(self, digits=digits, rows=rows, pace=pace)


@dataclass(frozen=True, slots=True)
class Flashed:
    """Numbers that are flashed. None is for what the ladder of one's own frame says, or else for
    the first level; what is taken away is chosen with `minus` alone."""

    setting: FlashSetting | None = None
    minus: bool = False
    own: bool = False

    def settled(self, ladder: Ladder) -> "Flashed":
        """The same with a setting."""
        if self.setting is not None:
            return self
        if not self.own:
            return replace(self, setting=LEVELS[0].setting)
        return replace(self, setting=_setting(ladder.own_level(Asked.FLASHED)))


def _setting(level: OwnLevel) -> FlashSetting:
    return FlashSetting(level.digits, level.rows, level.pace)


_PARTS = {Asked.CALLED: "called", Asked.FLASHED: "flashed"}


@dataclass(frozen=True, slots=True)
class Choices:
    """All that can be chosen, apart for each way of asking."""

    asked: Asked = Asked.SHOWN
    beads: Beads = field(default_factory=Beads)
    called: Called = field(default_factory=Called)
    flashed: Flashed = field(default_factory=Flashed)

    @property
    def part(self) -> Beads | Called | Flashed:
        """What is chosen of the way of asking."""
        if self.asked is Asked.CALLED:
            return self.called
        return self.flashed if self.asked is Asked.FLASHED else self.beads

    @property
    def part_name(self) -> str:
        """Under which name the way of asking has its part."""
        return _PARTS.get(self.asked, "beads")

    def choose(self, **changes: Any) -> "Choices":
        """The same with this chosen of the way of asking."""
        return self._with(replace(self.part, **changes))

    def at(self, level: Level | OwnLevel) -> "Choices":
        """The same at a level of the way of asking: one of LEVELS, or of `levels_of`."""
        if isinstance(level, Level):
            return self.choose(setting=level.setting)
        if self.asked is Asked.FLASHED:
            return self.choose(setting=_setting(level))
        pace = {"pace": level.pace} if self.asked is Asked.CALLED else {}
        return self.choose(digits=level.digits, rows=level.rows, **pace)

    def settled(self, ladder: Ladder) -> "Choices":
        """The same with what the ladders, or what is usual, say in place of what is not chosen."""
        return self._with(self.part.settled(ladder))

    def _with(self, part: Beads | Called | Flashed) -> "Choices":
        changes: dict[str, Any] = {self.part_name: part}
        return replace(self, **changes)

    def asking(self, other: "Choices") -> "Choices":
        """The same that asks for what another does, in its way of asking."""
        return replace(self, asked=other.asked)._with(other.part)

    def can_be_asked(self, known: frozenset[str]) -> bool:
        """Whether what it asks for has been learned; numbers that are called or flashed need
        nothing."""
        return self.asked is not Asked.SHOWN or self.beads.family in families_known(known)

    def request(
        self, known: frozenset[str], ladder: Ladder, conventions: Conventions = USUAL
    ) -> Request:
        """The set asked for, from what is known and where the learner stands; by the ladders where
        nothing else is chosen. Frames are wide enough for how a school works."""
        part = self.part.settled(ladder)
        if isinstance(part, Called):
            return _called(part)
        if isinstance(part, Flashed):
            return _flashed(part)
        return self._shown(part, known, self.standing(ladder, conventions), ladder.rules)

    def standing(self, ladder: Ladder, conventions: Conventions = USUAL) -> tuple[Rung, int]:
        """The rung and the number of rods that the ladder says, with what is chosen instead."""
        beads = self.beads.settled(ladder)
        if beads.digits is None:
            rods = ladder.rods(beads.family)
        else:
            rods = rods_for(beads.family, _size(beads), conventions)
        return beads.rung or ladder.climb(beads.family, rods).rung, rods

    def why(self, ladder: Ladder, conventions: Conventions = USUAL) -> Why | None:
        """Why the ladder has the learner where it does; None where it has no say."""
        beads = self.beads
        if self.asked is not Asked.SHOWN or beads.is_own or beads.rung is not None:
            return None
        _, rods = self.standing(ladder, conventions)
        why = why_of(ladder.climb(beads.family, rods))
        has_grown = beads.digits is None and rods > beads.family.least_rods
        is_new = has_grown and why.reason is Reason.BEGIN
        return why._replace(reason=Reason.ROD) if is_new else why

    def _shown(
        self,
        beads: Beads,
        known: frozenset[str],
        standing: tuple[Rung, int],
        rules: LadderRules,
    ) -> Request:
        rung, rods = standing
        families = tuple(Family)
        easier = families[: families.index(beads.family) + 1]
        usable = frozenset(fact for fact in known if family_of_fact(fact) in easier)
        facts = sorted(fact for fact in usable if family_of_fact(fact) is beads.family)
        by_ladder = beads.rung is None and not beads.is_own
        size = _size(beads) if beads.digits else _size_on(rods, beads)
        return Request(
            facts=tuple(fact for fact in facts if fact != "clear"), known=usable, count=SET,
            terms=size.terms, digits=size.digits, rods=rods,
            rung=Rung.ALONE if beads.is_own else rung, own=beads.is_own,
            first=size.first, by=size.by, exact=size.exact,
            probe=probe_of(rung) if by_ladder else None, rules=rules,
        )  # fmt: skip


def _size(beads: Beads) -> Size:
    """The size of numbers with the digits chosen: all have just so many. Only where single digits
    would not do at all has the first number more."""
    digits, rows, family = beads.digits or USUAL_DIGITS, beads.rows or 2, beads.family
    first = family.least_digits if digits < family.least_digits else 0
    return Size(digits, first, rows, beads.by, exact=True)


def _size_on(rods: int, beads: Beads) -> Size:
    """The size of numbers that the ladder asks for with so many rods: up to so many digits."""
    first = 0 if beads.family in _GROWING else rods
    return Size(rods - beads.family.room_above, first, beads.rows or 2, beads.by)


def _called(called: Called) -> Request:
    digits, rows = called.digits or 1, called.rows or 2
    return Request(
        count=SHORT_SET, terms=rows, digits=digits, rods=rods_needed(digits, rows),
        rung=called.sight.rung, asked=Asked.CALLED, pace=called.pace or 0.0,
        by_place=called.by_place, own=called.sight is Sight.OWN, minus=called.minus,
    )  # fmt: skip


def _flashed(flashed: Flashed) -> Request:
    flash = flashed.setting or LEVELS[0].setting
    return Request(
        count=SHORT_SET, terms=flash.count, digits=flash.digits,
        rods=rods_needed(flash.digits, flash.count), rung=Rung.NUMBER, asked=Asked.FLASHED,
        pace=flash.interval, own=flashed.own, minus=flashed.minus,
    )  # fmt: skip


def families_known(known: frozenset[str]) -> tuple[Family, ...]:
    """The families of which something is known, in their order."""
    found = {family_of_fact(fact) for fact in known}
    return tuple(family for family in Family if family in found)


def suggested(known: frozenset[str], ladder: Ladder) -> Choices:
    """What is to be practised by who has chosen nothing: by the ladder, the furthest family that is
    known and not mastered yet."""
    families = families_known(known)
    left = [one for one in families if not ladder.climb(one, ladder.rods(one)).is_mastered]
    furthest = (left or families)[-1:]
    return Choices().choose(family=furthest[0]) if furthest else Choices()

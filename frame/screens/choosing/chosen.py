"""What is chosen on the practice page, by the names of its rows: levels, ladders, single values."""

from collections.abc import Sequence
from dataclasses import dataclass, fields, replace
from typing import Any

from frame.practice.choices import Beads, Called, Choices, Sight
from frame.practice.flashing import LEVELS, FlashSetting, Level
from frame.practice.own_ladder import OwnLevel, levels_of
from frame.practice.rungs import Asked
from frame.practice.standing import Ladder
from frame.view.flash_safety import needs_caution

_SIZES = ("digits", "rows", "pace")
"""What the ladder of a frame of one's own says together."""
_OF_SETTING = frozenset(one.name for one in fields(FlashSetting)) - {"minus"}


@dataclass(frozen=True, slots=True)
class Chosen:
    """The choices, and what the ladders say of what is left to them. Where it is not `quick`, no
    more numbers are flashed in a second than is safe for all."""

    choices: Choices
    ladder: Ladder
    quick: bool

    @property
    def settled(self) -> Choices:
        """The choices with what the ladders say."""
        return self.choices.settled(self.ladder)

    @property
    def has_own_ladder(self) -> bool:
        """Whether the ladder of a frame of one's own may say how long, how many and how quick."""
        part = self.choices.part
        if isinstance(part, Beads):
            return part.is_own and part.family.grows
        return part.sight is Sight.OWN if isinstance(part, Called) else part.own

    @property
    def is_by_own_ladder(self) -> bool:
        """Whether that ladder says it."""
        part = self.choices.part
        sizes = [getattr(part, name, None) for name in (*_SIZES, "setting")]
        return self.has_own_ladder and not any(size is not None for size in sizes)

    @property
    def all_levels(self) -> tuple[Level, ...] | tuple[OwnLevel, ...]:
        """The levels there are; none where each thing is chosen for itself."""
        if self.has_own_ladder:
            part = self.choices.part
            family = part.family if isinstance(part, Beads) else None
            return levels_of(self.choices.asked, family)
        return LEVELS if self.choices.asked is Asked.FLASHED else ()

    @property
    def levels(self) -> Sequence[Level | OwnLevel]:
        """The levels that may be chosen."""
        is_flashed = self.choices.asked is Asked.FLASHED
        return [one for one in self.all_levels if not is_flashed or self.may_flash(_size(one)[2])]

    @property
    def level(self) -> Level | OwnLevel:
        """The last level that may be chosen and is not harder than what is."""
        digits, rows, pace = self._sizes
        easier = [one for one in self.levels if _is_easier(_size(one), (digits, rows, pace))]
        return easier[-1] if easier else self.levels[0]

    @property
    def is_at_level(self) -> bool:
        """Whether what is chosen is a level."""
        return _size(self.level) == self._sizes

    @property
    def _sizes(self) -> tuple[int, int, float]:
        part = self.settled.part
        if isinstance(part, Beads):
            return part.digits or 1, part.rows or 2, 0.0
        if isinstance(part, Called):
            return part.digits or 1, part.rows or 2, part.pace or 0.0
        setting = part.setting or LEVELS[0].setting
        return setting.digits, setting.count, setting.interval

    def may_flash(self, interval: float) -> bool:
        """Whether so quick a pace may be chosen."""
        return self.quick or not needs_caution(interval)

    def now(self, name: str) -> Any:
        """What is chosen under a name, or what the ladders say there; None for a level or another
        thing that a ladder goes on saying."""
        if name == "level":
            return None if self.is_by_own_ladder else self.level
        if self.choices.asked is Asked.FLASHED and name in _OF_SETTING:
            return getattr(self.settled.flashed.setting, name)
        value = getattr(self.choices.part, name)
        return getattr(self.settled.part, name) if value is None else value

    def choose(self, **changes: Any) -> Choices:
        """The choices with this chosen, each under its name."""
        choices = self.choices
        if "asked" in changes:
            return replace(choices, asked=changes["asked"])
        if "level" in changes:
            level = changes["level"]
            return self._left_to_ladder() if level is None else choices.at(level)
        if choices.asked is Asked.FLASHED and changes.keys() <= _OF_SETTING:
            setting = self.settled.flashed.setting or LEVELS[0].setting
            return choices.choose(setting=replace(setting, **changes))
        if self.has_own_ladder and changes.keys() <= set(_SIZES):
            choices = self.settled
        return choices.choose(**changes)

    def _left_to_ladder(self) -> Choices:
        part = self.choices.part
        names = [one.name for one in fields(part) if one.name in (*_SIZES, "setting")]
        return self.choices.choose(**dict.fromkeys(names))

    def allowed(self) -> Choices:
        """The choices, with the nearest level that may be chosen where numbers were to be flashed
        more quickly."""
        setting = self.choices.flashed.setting
        if setting is None or self.may_flash(setting.interval):
            return self.choices
        flashed = replace(self, choices=replace(self.choices, asked=Asked.FLASHED))
        return replace(flashed.choices.at(flashed.level), asked=self.choices.asked)


def _size(level: Level | OwnLevel) -> tuple[int, int, float]:
    """Digits, how many numbers, and their pace in seconds."""
    if isinstance(level, OwnLevel):
        return level.digits, level.rows, level.pace
    setting = level.setting
    return setting.digits, setting.count, setting.interval


def _is_easier(one: tuple[int, int, float], other: tuple[int, int, float]) -> bool:
    """Whether a size is not harder than another."""
    return (*one[:2], -one[2]) <= (*other[:2], -other[2])

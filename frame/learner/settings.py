"""What a learner, a tutor or a school may set; kept for each learner."""

from collections.abc import Mapping
from dataclasses import asdict, dataclass, fields
from enum import StrEnum
from typing import Any

from frame.technique.plan import Carry, Conventions, Remove, Strictness


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


class Volume(StrEnum):
    """How loud the beads are. Quiet until somebody asks for more."""

    OFF = "off"
    QUIET = "quiet"
    NORMAL = "normal"


@dataclass(frozen=True, slots=True)
class Settings:
    """All settings, each with its safe default."""

    age: Age = Age.MIDDLE
    look: Look = Look.LIGHT
    volume: Volume = Volume.QUIET
    carry: Carry = Carry.LAST
    remove: Remove = Remove.RUN
    strictness: Strictness = Strictness.BEADS
    marks_every: int = 3
    free_rods: int = 13
    left_handed: bool = False
    reduced_motion: bool = False
    bead_tint: bool = True
    place_names: bool = True
    all_open: bool = False

    @property
    def conventions(self) -> Conventions:
        """The school's conventions, for the planners."""
        return Conventions(self.carry, self.remove)


_RANGES = {"marks_every": (3, 4), "free_rods": tuple(range(1, 28))}


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
    return Settings(**known)


def settings_to(settings: Settings) -> dict[str, Any]:
    """The settings as plain values; the inverse of `settings_from`."""
    return asdict(settings)

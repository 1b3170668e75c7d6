"""Named times at which something falls due."""

from dataclasses import dataclass, field
from enum import StrEnum

SOONEST = 0.001
"""Seconds that a wait has at least: what is due already is taken at the next turn."""


@dataclass
class Dues:
    """What is waited for, each under its name, with its time in seconds on the caller's clock."""

    _times: dict[StrEnum, float] = field(default_factory=dict)

    def put(self, name: StrEnum, at: float | None) -> None:
        """Wait for something until a time, in the place of the time it had; None for no more."""
        self._times.pop(name, None)
        if at is not None:
            self._times[name] = at

    def at(self, name: StrEnum) -> float | None:
        """When something falls due, None where it is not waited for."""
        return self._times.get(name)

    def take(self, name: StrEnum, now: float) -> bool:
        """Whether something has fallen due; then it is waited for no longer."""
        at = self._times.get(name)
        if at is None or now < at:
            return False
        del self._times[name]
        return True

    def fallen(self, now: float) -> tuple[StrEnum, ...]:
        """What has fallen due, the earliest first; it is waited for no longer."""
        due = sorted(self._times, key=self._times.__getitem__)
        return tuple(name for name in due if self.take(name, now))

    def wakes_in(self, now: float) -> float | None:
        """In how many seconds the first of them falls due, None where nothing is waited for."""
        return max(SOONEST, min(self._times.values()) - now) if self._times else None

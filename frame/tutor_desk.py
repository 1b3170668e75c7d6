"""What a tutor has begun with a class, kept while the window is open: it is there still for whoever
leaves and comes back."""

from collections.abc import Iterable
from dataclasses import dataclass, field
from math import ceil
from random import Random
from typing import TYPE_CHECKING, NamedTuple

if TYPE_CHECKING:
    from concurrent.futures import Future

    from frame.learner.learners import Learner
    from frame.report.class_reading import Mark, Seen

MINUTES = 5
GLANCE_SECONDS = 2.0
"""How long the watch tells what is left."""


@dataclass
class Watch:
    """The minutes of a task, of which the class sees no count. It runs unseen. Touched, it begins,
    or tells for a moment how many minutes are left; touched once more meanwhile it stops. When the
    time is over a sign stands there until it is touched."""

    ends: float | None = None
    told_until: float = 0.0

    def touch(self, now: float) -> None:
        """Begin, tell, or stop."""
        if self.ends is None:
            self.ends = now + 60 * MINUTES
        elif self.is_over(now) or now < self.told_until:
            self.ends, self.told_until = None, 0.0
            return
        self.told_until = now + GLANCE_SECONDS

    def is_over(self, now: float) -> bool:
        """Whether the time is over and nobody has taken note of it."""
        return self.ends is not None and now >= self.ends

    def told(self, now: float) -> int | None:
        """The minutes left, as long as they are told."""
        if self.ends is None or self.is_over(now) or now >= self.told_until:
            return None
        return ceil((self.ends - now) / 60)

    def next_change(self, now: float) -> float | None:
        """When it looks otherwise than now; None where it stays so until it is touched."""
        times = (one for one in (self.told_until, self.ends) if one is not None and one > now)
        return min(times, default=None)


@dataclass
class Round:
    """Children by their ids, each once in an order by chance; `at` is how many were."""

    order: tuple[str, ...] = ()
    at: int = 0

    @property
    def next(self) -> str | None:
        """Who is next; None before the first, and after the last."""
        return self.order[self.at - 1] if 0 < self.at <= len(self.order) else None

    @property
    def is_over(self) -> bool:
        """Whether all were."""
        return self.at > len(self.order)

    def begin(self, random: Random) -> None:
        """Another one: who was last in the one before is not first in it."""
        last, order = self.order[-1:], list(self.order)
        random.shuffle(order)
        if tuple(order[:1]) == last and order[1:]:
            order.append(order.pop(0))
        self.order, self.at = tuple(order), 0

    def go_on(self, random: Random) -> None:
        """The next one; after the last, and after that another round."""
        if self.is_over:
            self.begin(random)
        self.at += 1


class Read(NamedTuple):
    """What was read of a child, or is being read, and the mark of what was kept of it then."""

    mark: "Mark | None"
    seen: "Future[Seen]"


@dataclass
class TutorDesk:
    """The watch of the board, what was read of each child, and for some children the round of who
    is next."""

    watch: Watch = field(default_factory=Watch)
    read: "dict[Learner, Read]" = field(default_factory=dict)
    _rounds: dict[frozenset[str], Round] = field(default_factory=dict)

    def round_of(self, ids: Iterable[str], random: Random) -> Round:
        """The round of these children, as it stands; one that is new has its order."""
        ordered = tuple(ids)
        some = frozenset(ordered)
        if some not in self._rounds:
            self._rounds[some] = Round(ordered)
            self._rounds[some].begin(random)
        return self._rounds[some]

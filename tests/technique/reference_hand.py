"""A second model of a hand at the frame, made on purpose in another way than the one tested.

Beads are things that lie in slots, numbers are integers, and carries and borrows are calls of
the same function on the next rod. It knows the rules of Kojima 1954, p. 29 (read through a
secondary summary), carries first or last, and takes 6 to 9 off in two moves or in one pinch.
"""

from dataclasses import dataclass

Move = tuple[int, int]
Pinch = tuple[Move, ...]


class Beads:
    """One rod: an earth bead or nothing in each of five slots, the heaven bead in one of two."""

    def __init__(self, digit: int = 0) -> None:
        self.earth = ["bead"] * 4 + ["nothing"]
        self.heaven = ["bead", "nothing"]  # the last slot is at the beam
        self.earth.insert(digit % 5, self.earth.pop())
        if digit >= 5:
            self.heaven.reverse()

    @property
    def up(self) -> int:
        """How many earth beads touch the beam."""
        return self.earth.index("nothing")

    @property
    def down(self) -> int:
        """How many heaven beads touch the beam."""
        return self.heaven.index("bead")

    @property
    def shown(self) -> int:
        return self.up + 5 * self.down

    def allows(self, change: int) -> bool:
        """Whether there are beads for the change."""
        if abs(change) == 5:
            return self.down == (0 if change > 0 else 1)
        return 0 <= self.up + change <= 4

    def push(self, change: int) -> None:
        """Push the beads, one slot at a time. They must be there."""
        assert self.allows(change)
        if abs(change) == 5:
            self.heaven.reverse()
            return
        for _ in range(abs(change)):
            gap = self.up
            other = gap + (1 if change > 0 else -1)
            self.earth[gap], self.earth[other] = self.earth[other], self.earth[gap]


@dataclass
class Worked:
    """One digit worked: `kind` is D, F, T, TF or B (a borrow beyond the number)."""

    place: int
    change: int
    kind: str
    ripple: int
    strokes: list[Pinch]
    debt: int | None
    shown: int = 0


class Hand:
    """A hand with a frame of as many rods as it likes; place 0 is the last digit."""

    def __init__(self, carry_first: bool = False, pinch: bool = False) -> None:
        self.rods: list[Beads] = []
        self.carry_first, self.pinch = carry_first, pinch
        self.debt: int | None = None
        self.done: list[Worked] = []

    def rod(self, place: int) -> Beads:
        while len(self.rods) <= place:
            self.rods.append(Beads())
        return self.rods[place]

    def shown(self) -> int:
        return sum(rod.shown * 10**place for place, rod in enumerate(self.rods))

    def value(self) -> int:
        return self.shown() - (10**self.debt if self.debt is not None else 0)

    def work(self, number: int) -> None:
        """Add a number, or take it away when it is below zero."""
        self._widen_debt(self.value() + number)
        size = abs(number)
        for place in reversed(range(len(str(size)))):
            digit = size // 10**place % 10
            if digit:
                self._note(place, digit if number > 0 else -digit)
        if self.debt is not None and self.value() >= 0:
            place, self.debt = self.debt, None
            self._note(place, -1)

    def _note(self, place: int, change: int) -> None:
        way = self._put if change > 0 else self._take
        kind, ripple, strokes = way(place, abs(change))
        self.done.append(Worked(place, change, kind, ripple, strokes, self.debt, self.shown()))

    def _widen_debt(self, coming: int) -> None:
        if self.debt is None or coming > -(10**self.debt):
            return
        wide = self.debt
        while 10**wide <= -coming:
            wide += 1
        strokes: list[Pinch] = []
        for place in reversed(range(self.debt, wide)):
            assert self.rod(place).shown == 0
            strokes += self._put(place, 9)[2]
        self.debt = wide
        self.done.append(Worked(wide, 1, "B", 0, strokes, wide, self.shown()))

    def _push(self, place: int, *changes: int) -> list[Move]:
        for change in changes:
            self.rod(place).push(change)
        return [(place, change) for change in changes]

    def _together(self, place: int, *changes: int) -> list[Pinch]:
        return [tuple(sorted(self._push(place, *changes)))]

    def _one_by_one(self, place: int, *changes: int) -> list[Pinch]:
        return [(move,) for move in self._push(place, *changes)]

    def _put_straight(self, place: int, k: int) -> list[Pinch] | None:
        """Set k with the beads that are free, or None."""
        wanted = [c for c in (k % 5, 5 * (k // 5)) if c]
        if not all(self.rod(place).allows(c) for c in wanted):
            return None
        return self._together(place, *wanted)

    def _take_straight(self, place: int, k: int) -> list[Pinch] | None:
        """Take k off with the beads that are set, or None."""
        wanted = [-c for c in (k % 5, 5 * (k // 5)) if c]
        if not all(self.rod(place).allows(c) for c in wanted):
            return None
        return (self._together if self.pinch else self._one_by_one)(place, *wanted)

    def _put(self, place: int, k: int) -> tuple[str, int, list[Pinch]]:
        """Add k (1 to 9): the kind, how many 9s the carry ran over, the strokes."""
        straight = self._put_straight(place, k)
        if straight:
            return "D", 0, straight
        if k < 5 and self.rod(place).allows(5):
            return "F", 0, self._one_by_one(place, 5, k - 5)
        kind, own = "T", self._take_straight(place, 10 - k)
        if own is None:
            kind, own = "TF", self._together(place, k - 5, -5)
        over_kind, over_ripple, over = self._put(place + 1, 1)
        ripple = over_ripple + 1 if over_kind == "T" else 0
        return kind, ripple, over + own if self.carry_first else own + over

    def _take(self, place: int, k: int) -> tuple[str, int, list[Pinch]]:
        """Take k (1 to 9) away: the kind, how many 0s the borrow ran over, the strokes."""
        straight = self._take_straight(place, k)
        if straight:
            return "D", 0, straight
        if k < 5 and self.rod(place).allows(-5):
            return "F", 0, self._together(place, 5 - k, -5)
        ripple, over = self._borrow(place + 1)
        kind, own = "T", self._put_straight(place, 10 - k)
        if own is None:
            kind, own = "TF", self._one_by_one(place, 5, 5 - k)
        return kind, ripple, over + own

    def _borrow(self, place: int) -> tuple[int, list[Pinch]]:
        if not any(rod.shown for rod in self.rods[place:]):
            assert self.debt is None
            self.done.append(Worked(place, 1, "B", 0, [], None, self.shown()))
            self.debt = place
            return 0, []
        kind, ripple, strokes = self._take(place, 1)
        return (ripple + 1 if kind == "T" else 0), strokes

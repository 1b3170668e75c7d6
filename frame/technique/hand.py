"""A hand at work on the rods of a frame: it gathers the steps of a plan, digit by digit."""

from collections.abc import Callable
from functools import lru_cache
from itertools import chain

from frame.technique.beads import Frame, Stroke
from frame.technique.conventions import Carry, Conventions
from frame.technique.fingers import needs_five, strokes_on
from frame.technique.operation import Operation
from frame.technique.plan import Step, Technique


@lru_cache(maxsize=1024)
def _on_one_rod(digit: int, change: int) -> tuple[int, int, Technique]:
    """For a signed digit worked on a rod: the digit after, the carry (-1, 0, 1), the technique."""
    carry, after = divmod(digit + change, 10)
    five = needs_five(digit, after)
    if carry:
        return after, carry, Technique.TEN_FIVE if five else Technique.TEN
    return after, carry, Technique.FIVE if five else Technique.DIRECT


Hands = Callable[[Conventions, Frame], "Hand"]
"""Whose hand works on a frame: a trained one's, or another."""


class Hand:
    """The rods of a frame, what they show, and the steps made on them.

    `owed` is the rod of a 1 borrowed beyond the number, `span` the highest and lowest rod of the
    result so far; each step is given them as they are when it is made.
    """

    def __init__(self, conventions: Conventions, frame: Frame) -> None:
        self.conventions = conventions
        self.lowest = frame.lowest
        self.digits = [int(digit) for digit in reversed(frame.digits)]
        self._start = list(self.digits)
        self.steps: list[Step] = []
        self.owed: int | None = None
        self.span: tuple[int, int] | None = None

    @property
    def start(self) -> Frame:
        """The frame before the first step, with as many rods as there are now."""
        return Frame("".join(map(str, reversed(self._start))), self.highest)

    @property
    def highest(self) -> int:
        """The highest rod."""
        return self.lowest + len(self.digits) - 1

    def digit(self, rod: int) -> int:
        """What a rod shows; 0 beyond the rods there are."""
        index = rod - self.lowest
        return self.digits[index] if 0 <= index < len(self.digits) else 0

    def shown(self, high: int, low: int) -> int:
        """The number on the rods from `high` down to `low`, the lowest counting as ones."""
        number, last = 0, low - self.lowest
        there = self.digits[max(last, 0) : max(high - self.lowest + 1, 0)]
        for digit in (*reversed(there), *[0] * -last):
            number = 10 * number + digit
        return number

    def show(self, rod: int, digit: int) -> None:
        """Let a rod show a digit that belongs to no step of this hand."""
        self.digits[rod - self.lowest] = digit

    def put(self, operation: Operation, rod: int, digit: int) -> None:
        """Let a rod show a digit, without a carry."""
        before = self.digits[rod - self.lowest]
        if before == digit:
            return
        self.digits[rod - self.lowest] = digit
        technique = Technique.FIVE if needs_five(before, digit) else Technique.DIRECT
        strokes = strokes_on(rod, before, digit, self.conventions)
        self.add_step(operation, rod, digit - before, technique, strokes)

    def put_all(self, operation: Operation) -> None:
        """Let the rods show the operation's digits, the highest first."""
        for index, digit in enumerate(operation.digits):
            self.put(operation, operation.rod - index, int(digit))

    def work_all(self, operation: Operation, sign: int) -> None:
        """Add (`sign` 1) or take away (-1) the operation's digits on their rods, the highest
        first."""
        for index, digit in enumerate(operation.digits):
            if digit != "0":
                self.work(operation, operation.rod - index, sign * int(digit))

    def work(self, operation: Operation, rod: int, change: int) -> None:
        """Work one signed digit on a rod, with its carry or borrow."""
        before = self.digits[rod - self.lowest]
        after, carry, technique = _on_one_rod(before, change)
        after, carry = self.lands(rod, change, after, carry, technique)
        self.digits[rod - self.lowest] = after
        own = strokes_on(rod, before, after, self.conventions)
        if not carry:
            self.add_step(operation, rod, change, technique, own)
            return
        over, ripple = self.carry(rod + 1, carry)
        if carry < 0 or self.conventions.carry is Carry.FIRST:
            strokes = (*chain.from_iterable(reversed(over)), *own)
        else:
            strokes = (*own, *chain.from_iterable(over))
        self.add_step(operation, rod, change, technique, strokes, ripple)

    def lands(
        self, rod: int, change: int, after: int, carry: int, technique: Technique
    ) -> tuple[int, int]:
        """What a rod shows after a digit is worked on it, and the carry: for a trained hand what
        they are."""
        return after, carry

    def stops(self, rod: int, carry: int) -> bool:
        """Whether a carry stops on a rod that it runs over: for a trained hand never."""
        return False

    def carry(self, rod: int, carry: int) -> tuple[list[tuple[Stroke, ...]], int]:
        """Move 1 onto, or 1 off, a rod; run on over 9s or 0s.

        The strokes of each rod, nearest first, and how many rods the 1 ran over; none where nothing
        is left to borrow from.
        """
        full, empty = (9, 0) if carry > 0 else (0, 9)
        over: list[tuple[Stroke, ...]] = []
        while True:
            if carry < 0 and rod - self.lowest >= len(self.digits):
                for at in range(rod - len(over), rod):
                    self.show(at, full)
                return [], 0
            self.reach(rod)
            before = self.digits[rod - self.lowest]
            after = empty if before == full else before + carry
            self.digits[rod - self.lowest] = after
            over.append(strokes_on(rod, before, after, self.conventions))
            if before != full or self.stops(rod, carry):
                return over, len(over) - 1
            rod += 1

    def reach(self, rod: int) -> None:
        """See to it that there are rods up to this one, empty ones where there were none."""
        while self.highest < rod:
            self.digits.append(0)
            self._start.append(0)

    def add_step(
        self, operation: Operation, rod: int, change: int, technique: Technique,
        strokes: tuple[Stroke, ...], ripple: int = 0,
    ) -> None:  # fmt: skip
        """Note a step that was made."""
        step = Step(operation, rod, change, technique, ripple, strokes, self.owed, self.span)
        self.steps.append(step)

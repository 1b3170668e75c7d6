"""Which beads a lawful hand may move next, and no other, reckoned from numbers alone. It knows
nothing of the judge.

A number in any order: every rod goes, deck by deck, to what it shows with its digit worked, or with
the carry that comes to it, or with both; which of them a hand means is open until a bead tells.
A line in order: the rods go to what they show after its next digit.
"""

import random
from collections.abc import Callable, Iterator, Sequence
from functools import cached_property
from itertools import product

from lawful_hands import Number, Written, column_numbers

from frame.technique.beads import BeadMove, Frame

CHANGES = (-5, -4, -3, -2, -1, 1, 2, 3, 4, 5)


def goes_towards(before: int, after: int, change: int) -> bool:
    """Whether a bead goes a part of the way from one digit to another, never back."""
    if abs(change) == 5:
        return change == 5 * ((after >= 5) - (before >= 5))
    earth = after % 5 - before % 5
    return 0 < change <= earth or earth <= change < 0


def with_number(frame: Frame, number: int) -> Frame:
    """The frame that shows a number, counted in ones of its lowest rod."""
    assert 0 <= number < 10 ** len(frame.digits), (frame, number)
    return Frame(f"{number:0{len(frame.digits)}}", frame.units)


def shown(frame: Frame, high: int, low: int) -> int:
    """The number on some rods of a frame; beyond them there is nothing."""
    return sum(
        frame.digit(rod) * 10 ** (rod - low) for rod in range(low, high + 1) if frame.has(rod)
    )


def whole(frame: Frame) -> int:
    """All that a frame shows, in ones of its lowest rod."""
    return shown(frame, frame.highest, frame.lowest)


Then = Callable[[Frame], "list[Work]"]
"""The works that may begin on a frame when one is done; none at the end."""


class Work:
    """A line of work, or a digit of it, that a hand may be at."""

    is_trial = False

    def __init__(self, then: Then) -> None:
        self.then = then

    def after(self, frame: Frame, move: BeadMove) -> "Work | None":
        """The work after a bead; None where it is no lawful bead of it."""
        raise NotImplementedError

    def is_done(self, frame: Frame) -> bool:
        """Whether what comes next may be begun."""
        raise NotImplementedError

    def following(self, frame: Frame) -> "list[Work]":
        """What comes next on a frame on which this is done."""
        return self.then(frame)

    def coming(self, frame: Frame) -> "list[Work]":
        """What comes next when this will be done."""
        raise NotImplementedError


class InOrder(Work):
    """Frames to come to, one after another."""

    def __init__(self, ends: Sequence[Frame], then: Then) -> None:
        super().__init__(then)
        self.ends = ends

    def after(self, frame: Frame, move: BeadMove) -> Work | None:
        end = self.ends[0].digit(move.rod)
        return self if goes_towards(frame.digit(move.rod), end, move.change) else None

    def is_done(self, frame: Frame) -> bool:
        return frame == self.ends[0]

    def following(self, frame: Frame) -> list[Work]:
        return [InOrder(self.ends[1:], self.then)] if self.ends[1:] else self.then(frame)

    def coming(self, frame: Frame) -> list[Work]:
        return self.following(self.ends[0])


class Choice(Work):
    """A digit to be chosen. Any way leads from what stood `before` to another; of a digit that is
    tried, beads may be set and taken back as long as the rod shows no more than may be tried."""

    is_trial = True

    def __init__(self, rod: int, digits: Sequence[int], before: int, then: Then) -> None:
        super().__init__(then)
        self.rod, self.digits, self.before = rod, digits, before

    def after(self, frame: Frame, move: BeadMove) -> Work | None:
        if move.rod != self.rod:
            return None
        shown = frame.digit(move.rod)
        if not self.before:
            return self if 0 <= shown + move.change <= max(self.digits) else None
        is_on_the_way = any(goes_towards(shown, digit, move.change) for digit in self.digits)
        return self if is_on_the_way else None

    def is_done(self, frame: Frame) -> bool:
        return frame.digit(self.rod) in self.digits

    def coming(self, frame: Frame) -> list[Work]:
        chosen = [frame.with_digit(self.rod, digit) for digit in self.digits]
        return [work for one in chosen for work in self.then(one)]


Meant = frozenset[tuple[str, int]]
"""What a hand means by its beads: the digits and the carries that it works, by their rods."""


class AnyOrder(Work):
    """Signed digits of one sign in any order, begun on a frame. `meant` are the least that hands
    may mean by the beads so far."""

    def __init__(
        self,
        begun: Frame,
        digits: Sequence[tuple[int, int]],
        then: Then,
        meant: Sequence[Meant] = (frozenset(),),
        aims: dict[Meant, dict[int, int]] | None = None,
    ) -> None:
        super().__init__(then)
        self.begun, self.digits, self.meant = begun, digits, meant
        self.aims = _aims(begun, dict(digits)) if aims is None else aims

    @cached_property
    def end(self) -> Frame:
        """The frame that shows the number worked."""
        number = sum(digit * 10 ** (rod - self.begun.lowest) for rod, digit in self.digits)
        return with_number(self.begun, whole(self.begun) + number)

    @cached_property
    def may_mean(self) -> list[Meant]:
        """All that a hand may mean now: no less than before."""
        return [more for more in self.aims if any(less <= more for less in self.meant)]

    @cached_property
    def goals(self) -> dict[int, set[int]]:
        """For each rod, the digits that a hand may mean it to show."""
        found: dict[int, set[int]] = {}
        for meant in self.may_mean:
            for rod, digit in self.aims[meant].items():
                found.setdefault(rod, set()).add(digit)
        return found

    def after(self, frame: Frame, move: BeadMove) -> Work | None:
        before = frame.digit(move.rod)
        goals = {g for g in self.goals.get(move.rod, ()) if goes_towards(before, g, move.change)}
        if not goals:
            return None
        fitting = [meant for meant in self.may_mean if self.aims[meant].get(move.rod) in goals]
        least = [one for one in fitting if not any(other < one for other in fitting)]
        return AnyOrder(self.begun, self.digits, self.then, least, self.aims)

    def is_done(self, frame: Frame) -> bool:
        return frame == self.end

    def coming(self, frame: Frame) -> list[Work]:
        following = self.then(self.end)
        as_it_stands = [
            AnyOrder(frame, work.digits, work.then)
            for work in following
            if isinstance(work, AnyOrder)
        ]
        return [*following, *as_it_stands]


def _aims(frame: Frame, digits: dict[int, int]) -> dict[Meant, dict[int, int]]:
    """All that a hand may mean, with what the rods are to show by it: a carry comes from a rod
    whose own digit, or the carry to it, or both, run past 9 or below 0."""
    sign = 1 if max(digits.values()) > 0 else -1
    found: list[tuple[Meant, dict[int, int], bool]] = [(frozenset(), {}, False)]
    for rod in range(min(digits), frame.highest + 1):
        longer = []
        for meant, goals, carries in found:
            own = [0, digits[rod]] if rod in digits else [0]
            for digit, carry in product(own, [0, sign] if carries else [0]):
                total = frame.digit(rod) + digit + carry
                more = {("digit", rod)} if digit else set()
                more |= {("carry", rod)} if carry else set()
                goal = {rod: total % 10} if more else {}
                longer.append((meant | more, goals | goal, not 0 <= total <= 9))
        found = longer
    return {meant: goals for meant, goals, _ in found}


class Lawful:
    """A frame, and the works that a hand may be at."""

    def __init__(self, frame: Frame, works: Sequence[Work]) -> None:
        self.frame, self.works = frame, works

    @cached_property
    def open(self) -> list[Work]:
        """The works under way, and those that may follow them."""
        found = list(self.works)
        for work in found:
            if work.is_done(self.frame):
                found += work.following(self.frame)
        return found

    @property
    def is_done(self) -> bool:
        """Whether nothing need follow."""
        return not self.works or any(
            work.is_done(self.frame) and not work.following(self.frame) for work in self.open
        )

    def allows(self, move: BeadMove) -> bool:
        """Whether it is a lawful bead."""
        return self.frame.can(move) and any(work.after(self.frame, move) for work in self.open)

    def is_of_trial(self, move: BeadMove) -> bool:
        """Whether it is a bead of a digit that may be chosen."""
        works = [work for work in self.open if work.after(self.frame, move)]
        return any(work.is_trial for work in works)

    def after(self, move: BeadMove) -> "Lawful":
        works = [after for work in self.open if (after := work.after(self.frame, move))]
        return Lawful(self.frame.apply(move), works)

    @cached_property
    def too_early(self) -> list[BeadMove]:
        """Every bead of what comes next that is no lawful bead now."""
        coming = [one for work in self.works for one in work.coming(self.frame)]
        moves = [move for move in every_move(self.frame) if not self.allows(move)]
        return [move for move in moves if any(one.after(self.frame, move) for one in coming)]

    @cached_property
    def beads(self) -> list[BeadMove]:
        """Every lawful bead."""
        return [move for move in every_move(self.frame) if self.allows(move)]


def every_move(frame: Frame) -> list[BeadMove]:
    """Every move that the beads of a frame allow."""
    rods = range(frame.lowest, frame.highest + 1)
    moves = [BeadMove(rod, change) for rod in rods for change in CHANGES]
    return [move for move in moves if frame.can(move)]


def wander(rng: random.Random, lawful: Lawful) -> Iterator[tuple[Lawful, BeadMove]]:
    """A hand that makes any lawful bead until all is done, large moves rather than small."""
    while not lawful.is_done:
        (move,) = rng.choices(lawful.beads, [one.beads for one in lawful.beads])
        yield lawful, move
        lawful = lawful.after(move)


def at_end(frame: Frame) -> list[Work]:
    """Nothing follows."""
    return []


# Columns


def column(start: Frame, terms: Sequence[int]) -> Lawful:
    """A column of whole numbers."""
    return Lawful(start, _numbers(start, list(column_numbers(terms))))


def _numbers(frame: Frame, numbers: Sequence[Number]) -> list[Work]:
    if not numbers:
        return []

    def then(after: Frame) -> list[Work]:
        return _numbers(after, numbers[1:])

    number = numbers[0]
    if number.digits:
        return [AnyOrder(frame, number.digits, then)]
    return [InOrder([with_number(frame, one) for one in number.shown], then)]


# Written work


def setting(start: Frame, numbers: Sequence[tuple[str, int]], then: Then) -> list[Work]:
    """Numbers set from their rods on, the digits of all of them in any order."""
    digits = [(rod - at, int(d)) for text, rod in numbers for at, d in enumerate(text) if d != "0"]
    return [AnyOrder(start, digits, then)] if digits else then(start)


def written(frame: Frame, lines: Sequence[Written], then: Then) -> list[Work]:
    """Lines of written work one after another, each from its highest digit."""
    ends, number = [], whole(frame)
    for digits, rod, sign in lines:
        for at, digit in enumerate(digits):
            if digit != "0":
                number += sign * int(digit) * 10 ** (rod - at - frame.lowest)
                ends.append(with_number(frame, number))
    return [InOrder(ends, then)] if ends else then(frame)


def multiplied(
    start: Frame, numbers: Sequence[tuple[str, int]], orders: Sequence[Sequence[Written]]
) -> Lawful:
    """The operands set, then the products in one of some orders."""

    def then(frame: Frame) -> list[Work]:
        return [work for lines in orders for work in written(frame, lines, at_end)]

    return Lawful(start, setting(start, numbers, then))


class DividedBy:
    """A division by trial, its quotient's digits from the rod `top` down to rod 0."""

    def __init__(self, divisor: int, top: int) -> None:
        self.divisor, self.digits, self.top = divisor, str(divisor), top

    def begin(self, start: Frame, numbers: Sequence[tuple[str, int]]) -> Lawful:
        return Lawful(start, setting(start, numbers, lambda frame: self.digit(frame, self.top)))

    def held(self, frame: Frame, rod: int) -> int:
        """How often the rest holds the divisor, for the quotient's digit on a rod."""
        return shown(frame, rod - 1, rod - 1 - len(self.digits)) // self.divisor

    def digit(self, frame: Frame, rod: int) -> list[Work]:
        """The next digit is tried on the rod, or on the first after it where the rest is enough."""
        while rod >= 0 and not self.held(frame, rod):
            rod -= 1
        if rod < 0:
            return []
        largest = min(9, shown(frame, rod - 1, rod - 2) // int(self.digits[0]))
        then = lambda after: self.taken(after, rod, 0)  # noqa: E731
        return [Choice(rod, range(1, largest + 1), 0, then)]

    def taken(self, frame: Frame, rod: int, at: int) -> list[Work]:
        """The product with the divisor's digit `at` is taken, or the trial made smaller for it."""
        trial = frame.digit(rod)
        if not trial or at == len(self.digits):
            return self.larger(frame, rod) if self.held(frame, rod) else self.digit(frame, rod - 1)
        times = trial * int(self.digits[at])
        if times > shown(frame, rod - 1, rod - 2 - at):
            return self.smaller(frame, rod, at)
        line = Written(f"{times:02}", rod - 1 - at, -1)
        return written(frame, [line], lambda after: self.taken(after, rod, at + 1))

    def smaller(self, frame: Frame, rod: int, at: int) -> list[Work]:
        """The trial is made smaller, and what was taken too much added back; by 1, that may come
        first."""
        before, taken = frame.digit(rod), self.digits[:at]

        def then(after: Frame) -> list[Work]:
            return self.taken(after, rod, at)

        def add_back(after: Frame) -> list[Work]:
            line = self.times(rod, taken or "0", before - after.digit(rod), 1)
            return written(after, [line], then)

        digits = range(1, before) if before > 1 else [0]
        found: list[Work] = [Choice(rod, digits, before, add_back)]
        if taken.strip("0"):
            back = self.times(rod, taken, 1, 1)
            found += written(frame, [back, Written("1", rod, -1)], then)
        return found

    def larger(self, frame: Frame, rod: int) -> list[Work]:
        """The trial is made larger, and the divisor taken once more, or more often; once, that may
        come first."""
        before = frame.digit(rod)

        def then(after: Frame) -> list[Work]:
            return self.taken(after, rod, len(self.digits))

        def take(after: Frame) -> list[Work]:
            line = self.times(rod, self.digits, after.digit(rod) - before, -1)
            return written(after, [line], then)

        most = min(9, before + self.held(frame, rod))
        again = self.times(rod, self.digits, 1, -1)
        turned = written(frame, [again, Written("1", rod, 1)], then)
        return [Choice(rod, range(before + 1, most + 1), before, take), *turned]

    def times(self, rod: int, digits: str, times: int, sign: int) -> Written:
        """Some digits of the divisor, so many times, in their place for the digit on a rod."""
        number = str(times * int(digits))
        return Written(number, rod - 2 - len(digits) + len(number), sign)

"""Hands that work rightly, each in its own way. They know numbers and beads, and nothing of the
judge: digits in any order, partner or carry first or the carry put off, either deck first, beads
moved a few at a time."""

import random
from collections.abc import Iterator, Sequence

from frame.technique.beads import BeadMove, Frame, Stroke


class Sight:
    """The frame as a hand sees it while it works: a digit for each rod."""

    def __init__(self, rng: random.Random, frame: Frame) -> None:
        self.rng = rng
        self.digits = {rod: frame.digit(rod) for rod in range(frame.lowest, frame.highest + 1)}

    def turn(self, rod: int, after: int) -> Iterator[Stroke]:
        """Let a rod show another digit: decks in either order or at once, earth beads in parts."""
        before = self.digits[rod]
        self.digits[rod] = after
        heaven, earth = after // 5 - before // 5, after % 5 - before % 5
        if heaven and earth and self.rng.random() < 0.4:
            pinch = [BeadMove(rod, 5 * heaven), BeadMove(rod, earth)]
            yield tuple(self.rng.sample(pinch, 2))
            return
        moves = [BeadMove(rod, 5 * heaven)] if heaven else []
        if earth and self.rng.random() < 0.3:
            cut = self.rng.randint(1, abs(earth))
            sign = 1 if earth > 0 else -1
            parts = [BeadMove(rod, sign * n) for n in (cut, abs(earth) - cut) if n]
        else:
            parts = [BeadMove(rod, earth)] if earth else []
        at = self.rng.randint(0, len(parts))
        for move in (*parts[:at], *moves, *parts[at:]):
            yield (move,)

    def carry(self, rod: int, sign: int) -> Iterator[Stroke]:
        """Move 1 onto or off a rod, on over 9s or 0s, the near rod first or the far one."""
        chain, full = [], 9 if sign > 0 else 0
        while self.digits[rod] == full:
            chain.append((rod, 9 - full))
            rod += 1
        chain.append((rod, self.digits[rod] + sign))
        for one, after in chain if self.rng.random() < 0.5 else reversed(chain):
            yield from self.turn(one, after)


def number_worked(
    rng: random.Random, sight: Sight, works: Sequence[tuple[int, int]], puts_off: bool = True
) -> Iterator[Stroke]:
    """Signed digits worked on their rods, in any order."""
    waiting = list(works)
    while waiting:
        rod, change = waiting.pop(rng.randrange(len(waiting)))
        carry, after = divmod(sight.digits[rod] + change, 10)
        way = rng.choice(["first", "last", "later"] if puts_off else ["first", "last"])
        if carry and way == "first":
            yield from sight.carry(rod + 1, carry)
        yield from sight.turn(rod, after)
        if carry and way == "last":
            yield from sight.carry(rod + 1, carry)
        elif carry and way == "later":
            waiting.append((rod + 1, carry))


def digits_of(number: int) -> list[tuple[int, int]]:
    """The signed digits of a number with their rods, the highest first."""
    sign, figures = (1 if number >= 0 else -1), str(abs(number))
    return [
        (len(figures) - 1 - at, sign * int(figure))
        for at, figure in enumerate(figures)
        if figure != "0"
    ]


def set_number(rng: random.Random, sight: Sight, digits: str, rod: int) -> Iterator[Stroke]:
    """The digits set on the rods from one on, in any order."""
    places = [(rod - at, int(digit)) for at, digit in enumerate(digits) if digit != "0"]
    for place, digit in rng.sample(places, len(places)):
        yield from sight.turn(place, digit)


def in_order(
    rng: random.Random, sight: Sight, number: int, size: int, rod: int, sign: int
) -> Iterator[Stroke]:
    """A number of a line of written work, from its highest digit: added or taken away."""
    for at, digit in enumerate(str(number).zfill(size)):
        if digit != "0":
            yield from number_worked(rng, sight, [(rod - at, sign * int(digit))], puts_off=False)


class Division:
    """A hand that divides by trial: any digit from 1 to the largest is tried; what can't be taken
    is made smaller, by one or by more at once; what is too small is made larger."""

    def __init__(self, rng: random.Random, sight: Sight, divisor: str, top: int) -> None:
        self.rng, self.sight, self.divisor, self.top = rng, sight, divisor, top

    def rest(self, high: int, low: int) -> int:
        return int("".join(str(self.sight.digits.get(rod, 0)) for rod in range(high, low - 1, -1)))

    def work(self, last: int) -> Iterator[Stroke]:
        for rod in range(self.top, last - 1, -1):
            if self.rest(rod - 1, rod - 1 - len(self.divisor)) >= int(self.divisor):
                yield from self.digit(rod)

    def digit(self, rod: int) -> Iterator[Stroke]:
        largest = min(9, self.rest(rod - 1, rod - 2) // int(self.divisor[0]))
        yield from self.sight.turn(rod, self.rng.randint(1, largest))
        at = 0
        while at < len(self.divisor):
            trial, digit = self.sight.digits[rod], int(self.divisor[at])
            if trial * digit > self.rest(rod - 1, rod - 2 - at):
                yield from self.make_smaller(rod, self.divisor[:at])
            else:
                yield from in_order(self.rng, self.sight, trial * digit, 2, rod - 1 - at, -1)
                at += 1
        size = len(self.divisor)
        while (held := self.rest(rod - 1, rod - 1 - size) // int(self.divisor)) > 0:
            more = self.rng.randint(1, min(held, 9 - self.sight.digits[rod]))
            yield from self.sight.turn(rod, self.sight.digits[rod] + more)
            yield from self.divisor_times(rod, self.divisor, more, -1)

    def make_smaller(self, rod: int, taken: str) -> Iterator[Stroke]:
        trial = self.sight.digits[rod]
        less = self.rng.choice([1, 1, self.rng.randint(1, trial - 1)]) if trial > 1 else 1
        turned = list(self.sight.turn(rod, trial - less))
        if less == 1 and taken and self.rng.random() < 0.3:
            yield from self.divisor_times(rod, taken, less, 1)
            yield from turned
        else:
            yield from turned
            if taken:
                yield from self.divisor_times(rod, taken, less, 1)

    def divisor_times(self, rod: int, digits: str, times: int, sign: int) -> Iterator[Stroke]:
        number = times * int(digits)
        size = max(len(str(number)), len(digits))
        first = rod - 2 + size - len(digits)
        yield from in_order(self.rng, self.sight, number, size, first, sign)

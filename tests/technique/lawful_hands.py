"""Hands that work rightly, each in its own way. They know numbers and beads, and nothing of the
judge: digits in any order, partner or carry first or the carry put off, either deck first, beads
moved a few at a time."""

import random
from collections.abc import Iterator, Sequence
from itertools import accumulate
from typing import NamedTuple

from frame.technique.beads import BeadMove, Frame, Stroke


class Sight:
    """The frame as a hand sees it while it works: a digit for each rod."""

    def __init__(self, rng: random.Random, frame: Frame) -> None:
        self.rng = rng
        self.digits = {rod: frame.digit(rod) for rod in range(frame.lowest, frame.highest + 1)}

    def turn(self, rod: int, after: int, most: int = 9) -> Iterator[Stroke]:
        """Let a rod show another digit: decks in either order or at once, earth beads in parts. On
        the way it shows no more than `most`, but where both decks move at once."""
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
        ways = [(*parts[:at], *moves, *parts[at:]) for at in range(len(parts) + 1)]
        for move in self.rng.choice([way for way in ways if highest(before, way) <= most]):
            yield (move,)

    def reach(self, after: dict[int, int]) -> Iterator[Stroke]:
        """Let the rods show other digits, one rod after another in any order."""
        for rod in self.rng.sample(sorted(after), len(after)):
            yield from self.turn(rod, after[rod])

    def carry(self, rod: int, sign: int) -> Iterator[Stroke]:
        """Move 1 onto or off a rod, on over 9s or 0s, the near rod first or the far one."""
        chain, full = [], 9 if sign > 0 else 0
        while self.digits[rod] == full:
            chain.append((rod, 9 - full))
            rod += 1
        chain.append((rod, self.digits[rod] + sign))
        for one, after in chain if self.rng.random() < 0.5 else reversed(chain):
            yield from self.turn(one, after)


def highest(digit: int, moves: Stroke) -> int:
    """The most that a rod shows while moves are made on it."""
    return max(accumulate((move.change for move in moves), initial=digit))


def number_worked(
    rng: random.Random,
    sight: Sight,
    works: Sequence[tuple[int, int]],
    puts_off: bool = True,
    adds_up: bool = False,
) -> Iterator[Stroke]:
    """Signed digits worked on their rods, in any order. A hand that `adds_up` may work a digit and
    the carry that waits for its rod at once."""
    waiting = list(works)
    while waiting:
        rod, change = waiting.pop(rng.randrange(len(waiting)))
        if adds_up and rng.random() < 0.5:
            change += sum(other for place, other in waiting if place == rod)
            waiting = [work for work in waiting if work[0] != rod]
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
    yield from set_numbers(rng, sight, [(digits, rod)])


def set_numbers(
    rng: random.Random, sight: Sight, numbers: Sequence[tuple[str, int]]
) -> Iterator[Stroke]:
    """The digits of numbers set, each from a rod on, in any order."""
    places = [
        (rod - at, int(digit))
        for digits, rod in numbers
        for at, digit in enumerate(digits)
        if digit != "0"
    ]
    for place, digit in rng.sample(places, len(places)):
        yield from sight.turn(place, digit)


def in_order(
    rng: random.Random, sight: Sight, number: int, size: int, rod: int, sign: int
) -> Iterator[Stroke]:
    """A number of a line of written work, from its highest digit: added or taken away."""
    for at, digit in enumerate(str(number).zfill(size)):
        if digit != "0":
            yield from number_worked(rng, sight, [(rod - at, sign * int(digit))], puts_off=False)


class Written(NamedTuple):
    """A line of written work: digits from a rod on, added (1) or taken away (-1)."""

    digits: str
    rod: int
    sign: int


def unset_products(a: str, b: str, by_multiplier: bool, from_highest: bool) -> list[Written]:
    """The products of two numbers that are not on the frame, by one of the four orders: each digit
    of the multiplicand or the multiplier with all of the other number, both from the highest or
    both from the lowest."""
    turn = 1 if from_highest else -1
    pairs = [
        (i, j)
        for i in range(len(b if by_multiplier else a))[::turn]
        for j in range(len(a if by_multiplier else b))[::turn]
    ]
    if by_multiplier:
        pairs = [(i, j) for j, i in pairs]
    ones = len(a) + len(b) - 1
    return [Written(f"{int(a[i]) * int(b[j]):02}", ones - i - j, 1) for i, j in pairs]


def set_products(middle: str, other: str, from_highest: bool, overwrites: bool) -> list[Written]:
    """The products of a number that stands in the middle of the frame: each of its digits, from the
    lowest, with all of the other number, and then cleared; or cleared before its last product,
    which goes in its place."""
    ones = len(other) + 1 - overwrites
    found = []
    for rod, digit in enumerate(reversed(middle), start=ones):
        indices = range(len(other))[:: 1 if from_highest else -1]
        lines = [
            Written(f"{int(digit) * int(other[at]):02}", rod - 1 - at + overwrites, 1)
            for at in indices
        ]
        lines.insert(len(lines) - overwrites, Written(digit, rod, -1))
        found += lines
    return found


def middle_rod(middle: str, other: str, overwrites: bool) -> int:
    """The rod of the first digit of the number in the middle of the frame."""
    return len(middle) + len(other) - overwrites


def lines_worked(rng: random.Random, sight: Sight, lines: Sequence[Written]) -> Iterator[Stroke]:
    """Lines of written work, one after another."""
    for digits, rod, sign in lines:
        yield from in_order(rng, sight, int(digits), len(digits), rod, sign)


class Number(NamedTuple):
    """One number of a column: its signed digits where they may be worked in any order, else none;
    and what the frame shows after each of its digits, with a 1 borrowed or given back."""

    digits: tuple[tuple[int, int], ...]
    shown: tuple[int, ...]


def column_numbers(terms: Sequence[int]) -> Iterator[Number]:
    """The numbers of a column, below zero as well: with nothing left to borrow from, a 1 is
    borrowed beyond the number; it is raised where the number outgrows it, and given back when the
    number is zero or more again."""
    value, owed = 0, 0
    for term in terms:
        was_owed, shown = owed, []
        if owed and -(value + term) >= owed:
            owed = 10 ** len(str(-(value + term)))
            shown.append(value + owed)
        for rod, digit in digits_of(term):
            value += digit * 10**rod
            if value + owed < 0:
                # Borrowed on the next rod: nothing stands there, nor on any beyond it.
                owed = 10 ** (rod + 1)
            shown.append(value + owed)
        is_below = bool(was_owed or owed)
        if owed and value >= 0:
            owed = 0
            shown.append(value)
        if shown:
            yield Number(() if is_below else tuple(digits_of(term)), tuple(shown))


def column_worked(rng: random.Random, sight: Sight, terms: Sequence[int]) -> Iterator[Stroke]:
    """A column worked: below zero digits from the highest, the rods of each in any order."""
    for number in column_numbers(terms):
        if number.digits:
            strokes = number_worked(rng, sight, number.digits, adds_up=True)
            yield from until_shown(sight, strokes, number.shown[-1])
            continue
        for shown in number.shown:
            after = {rod: shown // 10**rod % 10 for rod in sight.digits}
            yield from sight.reach({r: d for r, d in after.items() if d != sight.digits[r]})


def until_shown(sight: Sight, strokes: Iterator[Stroke], number: int) -> Iterator[Stroke]:
    """The strokes up to the one after which the frame shows a number, though the hand may have
    meant to go on: 5 set for 4, and the carry to come is the 1 that was to be taken off."""
    digits = dict(sight.digits)
    for stroke in strokes:
        if sum(digit * 10**rod for rod, digit in digits.items()) == number:
            break
        for rod, change in stroke:
            digits[rod] += change
        yield stroke
    sight.digits = digits


class Division:
    """A hand that divides by trial: any digit from 1 to the largest is tried; what can't be taken
    is made smaller, by one or by more at once; what is too small is made larger. A hand that
    `wavers` may choose another digit before it goes on with it."""

    def __init__(
        self, rng: random.Random, sight: Sight, divisor: str, top: int, wavers: bool = False
    ) -> None:
        self.rng, self.sight, self.divisor, self.top = rng, sight, divisor, top
        self.wavers = wavers

    def rest(self, high: int, low: int) -> int:
        return int("".join(str(self.sight.digits.get(rod, 0)) for rod in range(high, low - 1, -1)))

    def work(self, last: int) -> Iterator[Stroke]:
        for rod in range(self.top, last - 1, -1):
            if self.rest(rod - 1, rod - 1 - len(self.divisor)) >= int(self.divisor):
                yield from self.digit(rod)

    def digit(self, rod: int) -> Iterator[Stroke]:
        largest = min(9, self.rest(rod - 1, rod - 2) // int(self.divisor[0]))
        yield from self.choose(rod, range(1, largest + 1), largest)
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
            before = self.sight.digits[rod]
            yield from self.choose(rod, range(before + 1, min(before + held, 9) + 1))
            more = self.sight.digits[rod] - before
            yield from self.divisor_times(rod, self.divisor, more, -1)

    def choose(self, rod: int, digits: Sequence[int], most: int = 9) -> Iterator[Stroke]:
        """Let a rod show one of some digits, perhaps after another of them."""
        while self.wavers and self.rng.random() < 0.3:
            yield from self.sight.turn(rod, self.rng.choice(digits), most)
        yield from self.sight.turn(rod, self.rng.choice(digits), most)

    def make_smaller(self, rod: int, taken: str) -> Iterator[Stroke]:
        trial = self.sight.digits[rod]
        less = self.rng.choice([1, 1, self.rng.randint(1, trial - 1)]) if trial > 1 else 1
        if self.wavers and self.rng.random() < 0.3:
            yield from self.choose(rod, range(trial - 1, 0, -1) or [0])
            less = trial - self.sight.digits[rod]
            yield from self.divisor_times(rod, taken or "0", less, 1)
            return
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

"""Numbers and columns that need a fact and nothing untaught, made digit by digit.

To draw any numbers and to look afterwards what they need would take for ever where they are long.
A column is worked number by number from the highest digit, so what a digit needs depends only on
what stands on the frame by then: each is drawn among those that need nothing untaught there.
"""

from collections.abc import Sequence
from decimal import Decimal
from functools import lru_cache
from random import Random
from typing import NamedTuple

from frame.practice.sizes import Size
from frame.technique.facts import PLACES, number_facts
from frame.technique.fingers import needs_five


def taught_number(
    verb: str, wanted: str, size: Size, known: frozenset[str], random: Random
) -> Decimal | None:
    """One try at a number of a size to be read, set or cleared (`verb`), with digits that are known
    and, where `wanted` is one, with that. None where no digit is known."""
    digits = _digits_known(verb, known)
    most, lengths = size.first or size.digits, lengths_known(verb, size, known)
    leading = digits if verb == "read" and most == 1 else tuple(filter(None, digits))
    if not leading or not lengths:
        return None
    longest = lengths[-1]
    length = longest if size.exact else len(str(random.randint(1, 10**longest - 1)))
    figures = [random.choice(leading), *(random.choice(digits) for _ in range(length - 1))]
    _, _, digit = wanted.rpartition("-digit-")
    if digit.isdecimal() and int(digit) in digits:
        at = random.randrange(length)
        figures[at] = int(digit) if at or int(digit) in leading else figures[at]
    return Decimal("".join(map(str, figures)))


@lru_cache(maxsize=256)
def _digits_known(verb: str, known: frozenset[str]) -> tuple[int, ...]:
    return tuple(d for d in range(10) if verb == "clear" or f"{verb}-digit-{d}" in known)


@lru_cache(maxsize=1024)
def lengths_known(verb: str, size: Size, known: frozenset[str]) -> tuple[int, ...]:
    """How long a number of a size may be, the shortest first, so that its places are known."""
    most = size.first or size.digits
    places = [verb == "clear" or f"{verb}-{place}" in known for place in PLACES]
    unknown = places.index(False) if False in places else len(PLACES)
    longest = most if unknown == len(PLACES) else min(most, unknown + 1)
    if size.exact:
        return (most,) if longest == most else ()
    return tuple(range(1, longest + 1))


def taught_column(
    wanted: str, size: Size, rods: int, known: frozenset[str], random: Random
) -> tuple[Decimal, ...] | None:
    """One try at a column of a size on so many rods that needs the fact `wanted` and nothing that
    is not known; no partial sum is below 0. None where the try came to nothing."""
    first = taught_number("set", wanted, size, known, random)
    if first is None or not number_facts("set", first) <= known or first >= 10**rods:
        return None
    hand = _Hand(int(first), rods, wanted, known, random)
    sought = random.randrange((size.terms - 1) * size.digits)
    column = [int(first)]
    for row in range(size.terms - 1):
        term = hand.work(size, max(0, sought - row * size.digits))
        if term is None:
            return None
        column.append(term)
    return tuple(map(Decimal, column)) if hand.has_found else None


class _Digit(NamedTuple):
    """A digit that may come next, and the facts that it needs where the frame stands."""

    digit: int
    facts: frozenset[str]


_NOUGHT = _Digit(0, frozenset())


class _Hand:
    """Works numbers that it makes up. `has_found` tells that the wanted fact was needed."""

    def __init__(
        self, first: int, rods: int, wanted: str, known: frozenset[str], random: Random
    ) -> None:
        self.rods = [int(digit) for digit in reversed(str(first).zfill(rods))]
        self.wanted, self.known, self.random = wanted, known, random
        self.has_found = False

    def work(self, size: Size, sought: int) -> int | None:
        """Make up a number and work it; from its digit `sought` on the wanted fact is looked for.
        None where no number can come."""
        is_sought = sought < size.digits and not self.has_found
        signs = [self._wanted_sign] if is_sought else self.random.sample((1, -1), 2)
        for sign in signs:
            before = list(self.rods)
            number = self._made_up(size, sign, sought)
            if number:
                return sign * number
            self.rods = before
        return None

    @property
    def _wanted_sign(self) -> int:
        operation = self.wanted.removeprefix("ripple-").partition("-")[0]
        return -1 if operation == "sub" else 1

    def _made_up(self, size: Size, sign: int, sought: int) -> int:
        number = 0
        for at in range(size.digits):
            rod = size.digits - 1 - at
            least = 1 if size.exact and at == 0 else 0
            choices = self._choices(rod, sign, least)
            if not choices:
                return 0
            if at >= sought and not self.has_found:
                choices = [one for one in choices if self.wanted in one.facts] or choices
            chosen = self.random.choice(choices)
            self.has_found = self.has_found or self.wanted in chosen.facts
            self._add(rod, sign * chosen.digit)
            number = 10 * number + chosen.digit
        return number

    def _choices(self, rod: int, sign: int, least: int) -> Sequence[_Digit]:
        """The digits from `least` on that may be worked on a rod."""
        if rod >= len(self.rods):
            return () if least else (_NOUGHT,)
        lands_on = self._landing(rod, sign)
        beyond = None if lands_on is None else self.rods[lands_on]
        runs_on = lands_on is not None and lands_on > rod + 1
        return _digits(self.rods[rod], sign, least, beyond, runs_on, self.known)

    def _landing(self, rod: int, carry: int) -> int | None:
        """The rod where a carry comes to rest, None where the frame has none."""
        full = 9 if carry > 0 else 0
        for one in range(rod + 1, len(self.rods)):
            if self.rods[one] != full:
                return one
        return None

    def _add(self, rod: int, change: int) -> None:
        while change:
            self.rods[rod], change, _ = on_rod(self.rods[rod], change)
            rod += 1


class OnRod(NamedTuple):
    """A signed digit worked on one rod: the digit after, the carry (-1, 0, 1), the fact."""

    after: int
    carry: int
    fact: str


@lru_cache(maxsize=256)
def on_rod(digit: int, change: int) -> OnRod:
    """A signed digit worked on a rod that shows a digit."""
    carry, after = divmod(digit + change, 10)
    names = ["ten"] * (carry != 0) + ["five"] * needs_five(digit, after)
    operation = "add" if change > 0 else "sub"
    return OnRod(after, carry, f"{operation}-{'-'.join(names) or 'direct'}-{abs(change)}")


@lru_cache(maxsize=4096)
def _digits(
    shown: int, sign: int, least: int, beyond: int | None, runs_on: bool, known: frozenset[str]
) -> tuple[_Digit, ...]:
    """The digits from `least` on that may be worked with a sign on a rod as it is shown. A carry
    comes to rest on a rod that shows `beyond`, None where there is none; it may run on to it."""
    found = () if least else (_NOUGHT,)
    return found + tuple(
        _Digit(digit, facts)
        for digit in range(max(1, least), 10)
        if (facts := _facts(shown, sign * digit, beyond, runs_on)) and facts <= known
    )


def _facts(shown: int, change: int, beyond: int | None, runs_on: bool) -> frozenset[str]:
    """What a signed digit on a rod needs; nothing where the frame has no rod for its carry."""
    _, carry, fact = on_rod(shown, change)
    if not carry:
        return frozenset({fact})
    if beyond is None:
        return frozenset()
    operation = "add" if carry > 0 else "sub"
    ripple = {f"ripple-{operation}"} if runs_on else set()
    return frozenset({fact, on_rod(beyond, carry).fact} | ripple)

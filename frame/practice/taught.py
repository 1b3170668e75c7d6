"""Numbers and columns that need a fact and nothing untaught, made digit by digit.

To draw any numbers and to look afterwards what they need would take for ever where they are long.
A column is worked number by number from the highest digit, so what a digit needs depends only on
what stands on the frame by then: each is drawn among those that need nothing untaught there.
"""

from decimal import Decimal
from functools import lru_cache
from random import Random
from typing import NamedTuple

from frame.practice.sizes import Size
from frame.technique.facts import number_facts
from frame.technique.fingers import needs_five


def taught_number(
    verb: str, wanted: str, size: Size, known: frozenset[str], random: Random
) -> Decimal | None:
    """One try at a number of a size to be read, set or cleared (`verb`), with digits that are known
    and, where `wanted` is one, with that. None where no digit is known."""
    digits = [d for d in range(10) if verb == "clear" or f"{verb}-digit-{d}" in known]
    most = size.first or size.digits
    length = most if size.exact else len(str(random.randint(1, 10**most - 1)))
    leading = digits if verb == "read" and most == 1 else [digit for digit in digits if digit]
    if not leading:
        return None
    figures = [random.choice(leading), *(random.choice(digits) for _ in range(length - 1))]
    _, _, digit = wanted.rpartition("-digit-")
    if digit.isdecimal() and int(digit) in digits:
        at = random.randrange(length)
        figures[at] = int(digit) if at or int(digit) in leading else figures[at]
    return Decimal("".join(map(str, figures)))


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
    facts: tuple[str, ...]


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
            finding = [one for one in choices if self.wanted in one.facts]
            is_sought = at >= sought and not self.has_found
            chosen = self.random.choice(finding if is_sought and finding else choices)
            self.has_found = self.has_found or self.wanted in chosen.facts
            self._add(rod, sign * chosen.digit)
            number = 10 * number + chosen.digit
        return number

    def _choices(self, rod: int, sign: int, least: int) -> list[_Digit]:
        """The digits from `least` on that may be worked on a rod."""
        found = [_Digit(0, ())] if not least else []
        for digit in range(max(1, least), 10):
            facts = self._facts(rod, sign * digit)
            if facts and self.known.issuperset(facts):
                found.append(_Digit(digit, facts))
        return found

    def _facts(self, rod: int, change: int) -> tuple[str, ...]:
        """What a signed digit on a rod needs; nothing where the frame has no rod for it."""
        if rod >= len(self.rods):
            return ()
        _, carry, fact = _on_rod(self.rods[rod], change)
        if not carry:
            return (fact,)
        lands_on = self._landing(rod, carry)
        if lands_on is None:
            return ()
        _, _, carried = _on_rod(self.rods[lands_on], carry)
        operation = "add" if carry > 0 else "sub"
        ripple = (f"ripple-{operation}",) if lands_on > rod + 1 else ()
        return (fact, carried, *ripple)

    def _landing(self, rod: int, carry: int) -> int | None:
        """The rod where a carry comes to rest, None where the frame has none."""
        full = 9 if carry > 0 else 0
        higher = range(rod + 1, len(self.rods))
        return next((one for one in higher if self.rods[one] != full), None)

    def _add(self, rod: int, change: int) -> None:
        while change:
            self.rods[rod], change, _ = _on_rod(self.rods[rod], change)
            rod += 1


class _OnRod(NamedTuple):
    """A signed digit worked on one rod: the digit after, the carry (-1, 0, 1), the fact."""

    after: int
    carry: int
    fact: str


@lru_cache(maxsize=256)
def _on_rod(digit: int, change: int) -> _OnRod:
    carry, after = divmod(digit + change, 10)
    names = ["ten"] * (carry != 0) + ["five"] * needs_five(digit, after)
    operation = "add" if change > 0 else "sub"
    return _OnRod(after, carry, f"{operation}-{'-'.join(names) or 'direct'}-{abs(change)}")

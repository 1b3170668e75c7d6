"""What no number and no column of a size can need, told without making one up.

Each rod of a column is looked at alone, as though those beside it did whatever suits it. So what is
told to be impossible is; what seems possible may still not be, and then tries in vain tell.
"""

from collections.abc import Iterator
from functools import lru_cache
from typing import NamedTuple

from frame.practice.sizes import Size
from frame.practice.taught import lengths_known, on_rod
from frame.technique.facts import PLACES


def number_can_need(verb: str, wanted: str, size: Size, rods: int, known: frozenset[str]) -> bool:
    """Whether a number of a size on so many rods, to be read, set or cleared (`verb`), can need a
    fact and nothing that is not known."""
    lengths = [length for length in lengths_known(verb, size, known) if length <= rods]
    what = wanted.removeprefix(f"{verb}-")
    if not lengths or wanted not in known:
        return False
    if what in PLACES:
        return lengths[-1] > PLACES.index(what) + 1
    is_only_nought = what == "digit-0" and lengths[-1] == 1
    return not is_only_nought or (verb == "read" and (size.first or size.digits) == 1)


@lru_cache(maxsize=4096)
def column_can_need(wanted: str, size: Size, rods: int, known: frozenset[str]) -> bool:
    """Whether a column of a size on so many rods can need a fact and nothing that is not known."""
    first, lengths = size.first or size.digits, lengths_known("set", size, known)
    longest = max(first, size.digits) if size.exact else 1
    if wanted not in known or not lengths or longest > rods:
        return False
    most = lengths[-1]
    both = {(_rod(at, size, rods, known), _set_on(at, size, most, known)) for at in range(rods)}
    ends = [_ends(rod, digits, size.terms - 1, wanted, known) for rod, digits in both]
    return all(end.is_there for end in ends) and any(end.is_needed for end in ends)


class _Rod(NamedTuple):
    """What may happen on a rod with each number: a digit from `least` to `most` is worked, a 1
    comes from a lower rod, a 1 goes to a higher one, or comes from there."""

    least: int
    most: int
    has_lower: bool
    has_higher: bool
    has_lender: bool


def _rod(at: int, size: Size, rods: int, known: frozenset[str]) -> _Rod:
    is_leading = at == size.digits - 1 and (size.exact or size.digits == 1)
    most = 9 if at < size.digits else 0
    is_below_others = at < min(max(size.first, size.digits), rods) - 1
    has_carried = size.terms > 2 and any(fact.startswith("add-ten") for fact in known)
    has_higher = at < rods - 1
    has_lender = is_below_others or (has_carried and has_higher)
    return _Rod(1 if is_leading else 0, most, at > 0, has_higher, has_lender)


def _set_on(at: int, size: Size, most: int, known: frozenset[str]) -> frozenset[int]:
    """The digits that a rod may show once the first number is set, of up to `most` digits."""
    if at >= most:
        return frozenset({0})
    digits = {digit for digit in range(10) if f"set-digit-{digit}" in known}
    is_alone = at == most - 1 and (size.exact or most == 1)
    is_above = not size.exact and at > 0
    return frozenset((digits - {0} if is_alone else digits) | ({0} if is_above else set()))


class _End(NamedTuple):
    """Whether a rod comes to the end of a column at all, and having needed the fact."""

    is_there: bool
    is_needed: bool


def _ends(rod: _Rod, digits: frozenset[int], rows: int, wanted: str, known: frozenset[str]) -> _End:
    """How a rod that shows one of these digits comes through so many rows."""
    ways = _ways(rod, known)
    without, needed = set(digits), set[int]()
    for _ in range(rows):
        before = without, needed
        needed = {w.after for w in ways if w.before in needed or
                  (w.before in without and wanted in w.facts)}  # fmt: skip
        without = {way.after for way in ways if way.before in without}
        if (without, needed) == before:
            break
    return _End(bool(without), bool(needed))


class _Way(NamedTuple):
    """The digit before and after a number is worked, and the facts that it needs on the rod."""

    before: int
    after: int
    facts: frozenset[str]


@lru_cache(maxsize=64)
def _ways(rod: _Rod, known: frozenset[str]) -> frozenset[_Way]:
    """Every way that a number may be worked on a rod by what is known."""
    found = (_all_ways(before, sign, rod, known) for before in range(10) for sign in (1, -1))
    return frozenset(way for ways in found for way in ways if way.facts <= known)


def _all_ways(before: int, sign: int, rod: _Rod, known: frozenset[str]) -> Iterator[_Way]:
    operation = "add" if sign > 0 else "sub"
    is_above = rod.has_higher if sign > 0 else rod.has_lender
    can_carry = is_above and not known.isdisjoint((f"{operation}-direct-1", f"{operation}-five-1"))
    for digit in range(rod.least, rod.most + 1):
        after, carry, fact = on_rod(before, sign * digit)
        if carry and not can_carry:
            continue
        facts = frozenset({fact} if digit else ())
        yield _Way(before, after, facts)
        if not rod.has_lower:
            continue
        end, runs_on, carried = on_rod(after, sign)
        if not runs_on:
            yield _Way(before, end, facts | {carried})
        elif is_above:
            yield _Way(before, end, facts | {f"ripple-{operation}"})

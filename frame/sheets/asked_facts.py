"""The facts that a sheet asks for, as few bits, and back.

Three bits say how they are told: 0 that there are none, up to 6 that they are so many lines of the
table from one on, and 7 that they are chosen freely. Then their number is told and which of all
choices of so many it is: the combinatorial number system (Knuth, The Art of Computer Programming
4A, 7.2.1.3; from memory). For twenty facts it takes 84 bits where a bit for each takes 127 and a
list 140. It counts choices by their highest member, so facts that are added to the table leave
the others' numbers.
"""

from collections.abc import Iterable, Sequence
from itertools import chain
from math import comb

from frame.sheets.bits import Bits, bits_of
from frame.sheets.numbered import FACT_LINES, FACTS
from frame.technique.facts import ALL_FACTS

_HOW, _LINE, _MANY = 3, 5, 7
"""Bits of how facts are told, of a line's number, and of how many are chosen."""
_MOST_LINES = 6
_CHOSEN = 7
MOST_FACTS = 127
"""For so many facts there is room."""

_LINES = {
    frozenset(chain.from_iterable(FACT_LINES[first : first + many])): (many, first)
    for first in range(len(FACT_LINES))
    for many in range(1, min(_MOST_LINES, len(FACT_LINES) - first) + 1)
}


def facts_to_bits(facts: tuple[str, ...]) -> str:
    """The facts as bits. Raises ValueError where one is no fact, stands twice, or is not in the
    order of ALL_FACTS."""
    if facts != _in_order(facts):
        raise ValueError("facts are told once, in their order")
    if not facts:
        return bits_of(0, _HOW)
    if lines := _LINES.get(frozenset(facts)):
        many, first = lines
        return bits_of(many, _HOW) + bits_of(first, _LINE)
    numbers = sorted(map(FACTS.index, facts))
    choice = bits_of(choice_number(numbers), _width(len(numbers)))
    return bits_of(_CHOSEN, _HOW) + bits_of(len(numbers), _MANY) + choice


def take_facts(bits: Bits) -> tuple[str, ...]:
    """The inverse of `facts_to_bits`. Raises IndexError for a number that no fact has."""
    how = bits.take(_HOW)
    if not how:
        return ()
    if how < _CHOSEN:
        first = bits.take(_LINE)
        return _in_order(chain.from_iterable(FACT_LINES[first : first + how]))
    many = bits.take(_MANY)
    numbers = choice_of(bits.take(_width(many)), many)
    return _in_order([FACTS[number] for number in numbers])


def _in_order(facts: Iterable[str]) -> tuple[str, ...]:
    return tuple(sorted(set(facts), key=ALL_FACTS.index))


def _width(many: int) -> int:
    """Bits for which of all choices of so many facts it is."""
    return comb(MOST_FACTS, many).bit_length()


def choice_number(members: Sequence[int]) -> int:
    """Which choice of so many numbers this is, from 0. The members rise.

    >>> [choice_number(one) for one in ((0, 1), (0, 2), (1, 2), (0, 3))]
    [0, 1, 2, 3]
    """
    return sum(comb(member, place) for place, member in enumerate(members, 1))


def choice_of(number: int, many: int) -> tuple[int, ...]:
    """The inverse of `choice_number`: the highest member is the last whose choices begin at or
    below the number, and so on with what is left.

    >>> choice_of(2, 2)
    (1, 2)
    """
    members = []
    for place in range(many, 0, -1):
        member = place - 1
        while comb(member + 1, place) <= number:
            member += 1
        members.append(member)
        number -= comb(member, place)
    return tuple(reversed(members))

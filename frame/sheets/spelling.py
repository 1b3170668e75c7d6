"""How a code is spelled: signs that are told apart when they are read aloud and typed, in groups of
four, the last three of which check the others.

The signs are Crockford's base 32 (a published one; from memory): no I, L and O, which look like
digits and are read as such, and no U.

The check is that of bank account numbers (ISO/IEC 7064, pure system; from memory) with another
prime: the whole code, read as one number in base 32, leaves 1 when divided by 32749. One wrong
sign changes the number by less than 32 times a power of 32, and two neighbours that changed places
by less than 32 times 31 times a power of 32. As 32749 is a prime and divides none of these factors,
the rest is then another. Two signs would find as much; with the third a wrong code is hardly ever
a slip away from two right ones, so that what was meant can be told.
"""

from collections.abc import Iterator, Sequence
from itertools import pairwise

_SIGNS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
_BASE = len(_SIGNS)
SIGN_BITS = 5
CHECK_SIGNS = 3
_PRIME = 32749
"""The largest that so many signs have room for."""
_GROUP = 4

NO_SIGN = -1
"""In the place of a sign's number where a character is no sign."""

_READ = {sign: number for number, sign in enumerate(_SIGNS)}
_READ |= {"O": 0, "I": 1, "L": 1}
_READ |= {sign.lower(): number for sign, number in _READ.items()}
_HYPHENS = "-\u2010\u2011\u2012\u2013\u2014\u2212"


def is_between(character: str) -> bool:
    """Whether it may stand anywhere in a code and means nothing."""
    return character.isspace() or character in _HYPHENS


def number_of(character: str) -> int:
    """The number of a sign, or NO_SIGN."""
    return _READ.get(character, NO_SIGN)


def spelled(numbers: Sequence[int]) -> str:
    """A code as it is printed, of the numbers of its signs.

    >>> spelled([1, 0, 10, 31, 2])
    '10AZ-2'
    """
    signs = "".join(_SIGNS[number] for number in numbers)
    return "-".join(signs[at : at + _GROUP] for at in range(0, len(signs), _GROUP))


def checked(numbers: Sequence[int]) -> tuple[int, ...]:
    """The numbers with those of the check behind them."""
    rest = 0
    for number in (*numbers, *[0] * CHECK_SIGNS):
        rest = (rest * _BASE + number) % _PRIME
    check = (1 - rest) % _PRIME
    places = reversed(range(CHECK_SIGNS))
    return (*numbers, *(check // _BASE**place % _BASE for place in places))


def fits(numbers: Sequence[int]) -> bool:
    """Whether the last ones check the others."""
    return checked(numbers[:-CHECK_SIGNS]) == tuple(numbers)


def one_slip_away(numbers: tuple[int, ...]) -> Iterator[tuple[int, ...]]:
    """All that is meant if one sign is wrong or two neighbours have changed places."""
    for at, number in enumerate(numbers):
        before, behind = numbers[:at], numbers[at + 1 :]
        yield from ((*before, other, *behind) for other in range(_BASE) if other != number)
    for at, (one, other) in enumerate(pairwise(numbers)):
        if one != other:
            yield (*numbers[:at], other, one, *numbers[at + 2 :])

"""The code at a sheet's foot, from which alone the sheet is made again.

The first sign is the code's own version, so that a later program may tell more. Then come the
fields that the kind of sheet uses, so many bits each, five bits a sign; last the check of
`spelling`. What is usual takes eleven to thirteen signs.
"""

from collections.abc import Mapping, Sequence
from enum import StrEnum
from math import ceil
from typing import Any

from frame.sheets.asked_facts import facts_to_bits, take_facts
from frame.sheets.bits import Bits, bits_of
from frame.sheets.numbered import GRADES, KINDS, LEAVES, PARTS, VERSIONS
from frame.sheets.recipe import MOST_COUNT, MOST_SEED, Kind, Recipe
from frame.sheets.spelling import (
    CHECK_SIGNS,
    NO_SIGN,
    SIGN_BITS,
    checked,
    fits,
    is_between,
    number_of,
    one_slip_away,
    spelled,
)

FORMAT = 2
"""The version of the code. Raise it when the same signs mean something else."""
FEWEST_SIGNS, MOST_SIGNS = 11, 39

MOST_ROWS, MOST_DIGITS, MOST_BY = 15, 14, 7

# A field's bits, and its values by number.
_FIELDS: Mapping[str, tuple[int, Sequence[Any]]] = {
    "kind": (4, KINDS),
    "seed": (14, range(MOST_SEED + 1)),
    "version": (2, VERSIONS),
    "leaf": (1, LEAVES),
    "is_worked": (1, (False, True)),
    "count": (6, range(1, MOST_COUNT + 1)),
    "rows": (4, range(1, MOST_ROWS + 1)),
    "digits": (4, range(1, MOST_DIGITS + 1)),
    "by": (3, range(1, MOST_BY + 1)),
    "minus": (1, (False, True)),
    "grade": (7, GRADES),
    "part": (3, PARTS),
}
_OF_ALL = ("seed", "version", "leaf", "is_worked")
_OF_COLUMNS = ("count", "rows", "digits", "minus", "facts")
_OF_FACTORS = ("count", "digits", "by", "facts")
_OF_NUMBERS = ("count", "digits", "facts")
_OF_KIND = {
    Kind.READ: _OF_NUMBERS,
    Kind.SET: _OF_NUMBERS,
    Kind.COLUMNS: _OF_COLUMNS,
    Kind.PRODUCTS: _OF_FACTORS,
    Kind.QUOTIENTS: _OF_FACTORS,
    Kind.ROOTS: _OF_NUMBERS,
    Kind.PARTNERS: ("count", "facts"),
    Kind.STRIP: _OF_COLUMNS,
    Kind.FRAME: ("count", "digits"),
    Kind.LADDER: _OF_COLUMNS,
    Kind.PAPER: ("grade", "part"),
}


class UncodableError(ValueError):
    """A recipe that has no code, since this field cannot be so."""

    def __init__(self, field: str, value: object) -> None:
        super().__init__(f"no code for the {field} {value!r}")
        self.field, self.value = field, value


class Expected(StrEnum):
    """What a text that is no code should have been: made of SIGNs, LONGER, SHORTER, with signs
    that fit the CHECK; OLDER, since only a newer program can have made it, or NEWER, since an older
    one made it, whose sheets were others."""

    SIGN = "sign"
    LONGER = "longer"
    SHORTER = "shorter"
    CHECK = "check"
    OLDER = "older"
    NEWER = "newer"


class CodeError(ValueError):
    """A text that is no code: the column (from 1), the text found there (empty at the end), and
    what was expected. Where one sign or two neighbours that change places make a code of it, and
    in one way alone, `nearest` is that code, and they are what was found."""

    def __init__(self, where: int, found: str, expected: Expected, nearest: str = "") -> None:
        super().__init__(f"column {where}: found {found!r}; expected {expected}")
        self.where, self.found, self.expected, self.nearest = where, found, expected, nearest


def code_of(recipe: Recipe) -> str:
    """The code of a recipe. What its kind does not use is not told. Raises UncodableError."""
    names = ("kind", *_OF_ALL, *_OF_KIND[recipe.kind])
    bits = "".join(_bits_of_field(name, getattr(recipe, name)) for name in names)
    return spelled(checked((FORMAT, *_signs(bits))))


def recipe_of(code: str) -> Recipe:
    """The recipe with this code, in which all that its kind does not use is as usual. Letters may
    be small; spaces and hyphens mean nothing. Raises CodeError."""
    columns = [at for at, character in enumerate(code) if not is_between(character)]
    numbers = tuple(number_of(code[at]) for at in columns)
    try:
        return _read(numbers)
    except _Fault as fault:
        nearest = _nearest(numbers)
        wrong = _beside(nearest, numbers, fault) if nearest else fault
        found = "".join(code[at] for at in columns[wrong.start : wrong.stop])
        where = columns[wrong.start] if found else len(code)
        raise CodeError(where + 1, found, wrong.expected, spelled(nearest)) from None


class _Fault(Exception):
    """From one sign to before another, counted from 0, there is not what is expected."""

    def __init__(self, start: int, stop: int, expected: Expected) -> None:
        super().__init__(start, stop, expected)
        self.start, self.stop, self.expected = start, stop, expected


def _read(numbers: tuple[int, ...]) -> Recipe:
    """The recipe of the numbers of a code's signs. Raises _Fault."""
    size = len(numbers)
    if NO_SIGN in numbers:
        at = numbers.index(NO_SIGN)
        raise _Fault(at, at + 1, Expected.SIGN)
    if size and 0 < numbers[0] < FORMAT:
        raise _Fault(0, 1, Expected.NEWER)
    if size < FEWEST_SIGNS:
        raise _Fault(size, size, Expected.LONGER)
    if numbers[0] != FORMAT:
        raise _Fault(0, 1, Expected.OLDER)
    recipe, told = _told(numbers)
    if recipe and told > size:
        raise _Fault(size, size, Expected.LONGER)
    if recipe and told < size:
        raise _Fault(told, size, Expected.SHORTER)
    if not fits(numbers):
        raise _Fault(size - CHECK_SIGNS, size, Expected.CHECK)
    if recipe is None or code_of(recipe) != spelled(numbers):
        raise _Fault(0, size, Expected.OLDER)
    return recipe


def _told(numbers: tuple[int, ...]) -> tuple[Recipe | None, int]:
    """The recipe that the signs tell, None where one of its fields is unknown, and how many signs
    its code has. Nobody has checked them yet."""
    told = "".join(bits_of(number, SIGN_BITS) for number in numbers[1:-CHECK_SIGNS])
    bits = Bits(told)
    try:
        recipe = _take_recipe(bits)
    except (LookupError, ValueError):
        recipe = None
    return recipe, 1 + ceil(bits.taken / SIGN_BITS) + CHECK_SIGNS


def _take_recipe(bits: Bits) -> Recipe:
    """Raises LookupError or ValueError for a number that nothing known has."""
    kind = _take_field("kind", bits)
    names = (*_OF_ALL, *_OF_KIND[kind])
    return Recipe(kind=kind, **{name: _take_field(name, bits) for name in names})


def _take_field(name: str, bits: Bits) -> Any:
    if name == "facts":
        return take_facts(bits)
    width, values = _FIELDS[name]
    return values[bits.take(width)]


def _nearest(numbers: tuple[int, ...]) -> tuple[int, ...]:
    """The one code that is a slip away, or nothing."""
    if len(numbers) > MOST_SIGNS:
        return ()
    found = {other for other in one_slip_away(numbers) if fits(other) and _is_read(other)}
    return found.pop() if len(found) == 1 else ()


def _is_read(numbers: tuple[int, ...]) -> bool:
    try:
        _read(numbers)
    except _Fault:
        return False
    return True


def _beside(nearest: tuple[int, ...], numbers: tuple[int, ...], fault: _Fault) -> _Fault:
    """What is wrong where a code is a slip away: the signs that are others in it. If the length
    seemed wrong, it was since a wrong sign told another."""
    changed = [at for at, number in enumerate(numbers) if number != nearest[at]]
    is_of_length = fault.expected in (Expected.LONGER, Expected.SHORTER)
    expected = Expected.CHECK if is_of_length else fault.expected
    return _Fault(changed[0], changed[-1] + 1, expected)


def _bits_of_field(name: str, value: Any) -> str:
    try:
        if name == "facts":
            return facts_to_bits(value)
        width, values = _FIELDS[name]
        return bits_of(values.index(value), width)
    except ValueError:
        raise UncodableError(name, value) from None


def _signs(bits: str) -> list[int]:
    """The numbers of the signs that so many bits are, the last filled up with 0."""
    signs = Bits(bits)
    return [signs.take(SIGN_BITS) for _ in range(ceil(len(bits) / SIGN_BITS))]

"""Numbers drawn for a fact: a column, a product, a quotient or a root that may need it."""

from dataclasses import dataclass
from decimal import Decimal
from random import Random

from frame.practice.families import Family, family_of
from frame.technique.calculation import Calculation, Product, Quotient, Root, Sum


@dataclass(frozen=True, slots=True)
class Size:
    """How large the numbers are. Columns have `terms` numbers of up to `digits` digits, the first
    of up to `first` (0 for as many). A product has `digits` by `by` digits; so have quotient and
    divisor, and the root has `digits`. Numbers with a point have `places` decimals."""

    digits: int = 1
    first: int = 0
    terms: int = 2
    by: int = 1
    places: int = 1


def any_calculation(fact: str, size: Size, random: Random, *, is_number: bool) -> Calculation:
    """A calculation that may need a fact; where `is_number`, a column of one number."""
    family = family_of([fact])
    if is_number:
        return _number(fact, size, random)
    if fact == "signs":
        product = _product(size, random)
        one, other = random.choice(((1, -1), (-1, 1), (-1, -1)))
        return Product(product.multiplicand * one, product.multiplier * other)
    match family:
        case Family.MULTIPLY:
            return _product(size, random)
        case Family.DIVIDE:
            return _quotient(fact, size, random)
        case Family.ROOT:
            return _root(fact, size, random)
        case Family.DECIMALS:
            return _with_point(fact, size, random)
    return _column(size, random, may_sink=family is Family.BELOW_ZERO)


def _number(fact: str, size: Size, random: Random) -> Sum:
    least = 0 if fact.startswith("read") and size.digits == 1 else 1
    return Sum((Decimal(random.randint(least, 10 ** (size.first or size.digits) - 1)),))


def _column(size: Size, random: Random, *, may_sink: bool) -> Sum:
    """A column; no partial sum is below zero unless it `may_sink`."""
    most = 10**size.digits - 1
    total = random.randint(1, 10 ** (size.first or size.digits) - 1)
    terms = [total]
    for _ in range(size.terms - 1):
        term = random.randint(1, most) * random.choice((1, -1))
        term = -term if total + term < 0 and not may_sink else term
        total += term
        terms.append(term)
    return Sum(tuple(map(Decimal, terms)))


def _product(size: Size, random: Random) -> Product:
    return Product(_of_digits(size.digits, random), _of_digits(size.by, random))


def _quotient(fact: str, size: Size, random: Random) -> Quotient:
    """A quotient that comes out even, unless a remainder is wanted."""
    divisor, quotient = _of_digits(size.by, random), _of_digits(size.digits, random)
    rest = random.randrange(int(divisor)) if fact == "remainder" else 0
    return Quotient(quotient * divisor + rest, divisor)


def _root(fact: str, size: Size, random: Random) -> Root:
    """The root of a square, unless a remainder is wanted."""
    root = _of_digits(size.digits, random)
    rest = random.randint(1, int(2 * root)) if fact == "remainder" else 0
    return Root(root * root + rest)


def _with_point(fact: str, size: Size, random: Random) -> Calculation:
    """A column with decimals; a product or a quotient with them; a quotient to be rounded."""
    if fact == "decimals":
        whole = _column(size, random, may_sink=False)
        return Sum(tuple(_shifted(term, size.places) for term in whole.terms))
    quotient = _quotient("", size, random)
    if fact == "round":
        return Quotient(_of_digits(size.digits, random), quotient.divisor, size.places)
    if random.randrange(2):
        product = _product(size, random)
        one, other = random.choice(((size.places, 0), (0, size.places), (size.places, size.places)))
        return Product(_shifted(product.multiplicand, one), _shifted(product.multiplier, other))
    return Quotient(_shifted(quotient.dividend, size.places), quotient.divisor)


def _of_digits(digits: int, random: Random) -> Decimal:
    """A number of so many digits, a single one not below 2."""
    return Decimal(random.randint(max(2, 10 ** (digits - 1)), 10**digits - 1))


def _shifted(number: Decimal, places: int) -> Decimal:
    """The number with its last digits as decimals."""
    return number.scaleb(-places)

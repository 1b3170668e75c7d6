"""Numbers drawn for a procedure: a product, a quotient, a root or a column that may need it."""

from decimal import Decimal
from random import Random

from frame.practice.families import Family, family_of_fact
from frame.practice.sizes import Size
from frame.technique.calculation import Calculation, Product, Quotient, Root, Sum


def can_need(fact: str, size: Size) -> bool:
    """Whether numbers of a size may need a procedure at all."""
    is_long, is_by_more = size.digits > 1, size.by > 1
    needs = {
        "multiply-1": is_long and not is_by_more,
        "multiply-2": size.by == 2,
        "multiply-3": size.by > 2,
        "skip-zero": is_long or is_by_more,
        "divide-1": not is_by_more,
        "divide-2": is_by_more,
        "revise-down": is_by_more,
        "halve": is_long,
        "root-digit": is_long,
        "root-revise": is_long,
        "give-back": size.terms > 2,
    }
    return needs.get(fact, True)


def any_calculation(fact: str, size: Size, random: Random) -> Calculation:
    """A calculation that may need a procedure."""
    if fact == "signs":
        product = _product(size, random)
        one, other = random.choice(((1, -1), (-1, 1), (-1, -1)))
        return Product(product.multiplicand * one, product.multiplier * other)
    match family_of_fact(fact):
        case Family.MULTIPLY:
            return _product(size, random)
        case Family.DIVIDE:
            return _quotient(fact, size, random)
        case Family.ROOT:
            return _root(fact, size, random)
        case Family.DECIMALS:
            return _with_point(fact, size, random)
    return _column(size, random, may_sink=True)


def _column(size: Size, random: Random, *, may_sink: bool) -> Sum:
    """A column; no partial sum is below zero unless it `may_sink`."""
    total = _up_to(size.first or size.digits, size, random)
    terms = [total]
    for _ in range(size.terms - 1):
        term = _up_to(size.digits, size, random) * random.choice((1, -1))
        term = -term if total + term < 0 and not may_sink else term
        total += term
        terms.append(term)
    return Sum(tuple(map(Decimal, terms)))


def _up_to(digits: int, size: Size, random: Random) -> int:
    """A number of just so many digits where the size is exact, else of up to so many."""
    return random.randint(10 ** (digits - 1) if size.exact else 1, 10**digits - 1)


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

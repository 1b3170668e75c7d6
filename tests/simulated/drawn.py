"""What simulated learners are asked: numbers drawn as the practice pages draw them, or nearly."""

from decimal import Decimal

from frame.practice.columns import draw_column
from frame.practice.flashing import LEVELS
from frame.practice.numbers import any_calculation
from frame.practice.sizes import Size
from frame.technique.calculation import Product, Sum


def column(random):
    """Three numbers of two digits, added and taken away, never below zero."""
    while True:
        terms = [Decimal(random.randint(10, 99)) for _ in range(3)]
        signs = [1, *(random.choice((1, -1)) for _ in range(2))]
        terms = [term * sign for term, sign in zip(terms, signs, strict=True)]
        if terms[0] + terms[1] >= 0 and sum(terms) >= 0:
            return Sum(tuple(terms))


def below_zero(random):
    """A column that goes below zero, and may come back."""
    terms = (random.randint(10, 49), -random.randint(50, 99), random.randint(10, 99))
    return Sum(tuple(map(Decimal, terms)))


def called(random):
    """Four numbers of two digits, some to be taken away."""
    return Sum(draw_column(2, 4, random, minus=True))


def flashed(random):
    """Five numbers of one digit, or of two: levels 2 and 7 of the ladder."""
    return Sum(random.choice((LEVELS[1], LEVELS[6])).setting.column(random))


def product(random):
    """Three digits by one, or two by two."""
    digits, by = random.choice(((3, 1), (2, 2)))
    return any_calculation(f"multiply-{by}", Size(digits, by=by), random)


def product_with_zero(random):
    """The same, with a zero within the first factor."""
    first = random.randint(1, 9) * 100 + random.randint(1, 9)
    return Product(Decimal(first), product(random).multiplier)


def quotient(random):
    """One that comes out even: three digits by one, or two by two."""
    digits, by = random.choice(((3, 1), (2, 2)))
    return any_calculation(f"divide-{by}", Size(digits, by=by), random)

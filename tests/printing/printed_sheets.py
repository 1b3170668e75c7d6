"""Sheets of every kind, made by hand: usual ones, the smallest and the largest."""

from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from random import Random

from frame.practice.exercises import Exercise
from frame.practice.exercises import Kind as Asked
from frame.sheets.recipe import Kind, Leaf, Recipe, Version
from frame.sheets.sheet import Section, Sheet, Way
from frame.technique.expression import Product, Quotient, Root, Sum

MOST_TASKS, MOST_ROWS, MOST_DIGITS = 60, 15, 14


def number(chance: Random, digits: int, decimals: int = 0) -> Decimal:
    """A number of so many digits, of which so many follow the point."""
    return Decimal(chance.randrange(10 ** (digits - 1), 10**digits)).scaleb(-decimals)


def column(chance: Random, rows: int, digits: int, minus: bool = False, decimals: int = 0) -> Sum:
    terms = [number(chance, digits, decimals) for _ in range(rows)]
    return Sum(tuple(-one if minus and at % 3 == 1 else one for at, one in enumerate(terms)))


def sums(count: int, rows: int, digits: int, minus: bool = False, decimals: int = 0) -> Section:
    chance = Random(7)
    made = [column(chance, rows, digits, minus, decimals) for _ in range(count)]
    return Section(Way.BEADS, tuple(Exercise(Asked.SUM, one) for one in made))


def products(count: int, digits: int, by: int, decimals: int = 0) -> Section:
    chance = Random(8)
    made = [
        Product(number(chance, digits, decimals), number(chance, by), 1 if decimals else None)
        for _ in range(count)
    ]
    return Section(Way.BEADS, tuple(Exercise(Asked.SUM, one) for one in made))


def quotients(count: int, digits: int, by: int, with_rest: bool = False) -> Section:
    chance = Random(9)
    made = []
    for at in range(count):
        divisor = number(chance, by)
        rest = divisor - 1 if with_rest and at % 2 else Decimal(0)
        made.append(Quotient(divisor * number(chance, digits) + rest, divisor))
    return Section(Way.BEADS, tuple(Exercise(Asked.SUM, one) for one in made))


def rounded(count: int, digits: int, by: int) -> Section:
    """Quotients that don't come out even, to the nearest tenth."""
    chance = Random(13)
    made = (Quotient(number(chance, digits), number(chance, by), 1) for _ in range(count))
    return Section(Way.BEADS, tuple(Exercise(Asked.SUM, one) for one in made))


def roots(count: int, digits: int) -> Section:
    chance = Random(10)
    made = [Root(number(chance, digits) ** 2 + at % 2) for at in range(count)]
    return Section(Way.BEADS, tuple(Exercise(Asked.SUM, one) for one in made))


def frames(count: int, digits: int, asked: Asked, decimals: int = 0) -> Section:
    chance = Random(11)
    made = [Sum((number(chance, digits, decimals),)) for _ in range(count)]
    way = Way.SHOWN if asked is Asked.READ else Way.WRITTEN
    rods = digits + decimals
    return Section(way, tuple(Exercise(asked, one, rods=rods) for one in made))


def partners(count: int) -> Section:
    pairs = [(5, one) for one in range(1, 5)] + [(10, one) for one in range(1, 10)]
    made = [Sum((Decimal(of), Decimal(-one))) for of, one in (pairs * 5)[:count]]
    return Section(Way.CARDS, tuple(Exercise(Asked.SUM, one) for one in made))


def followed(*terms: int) -> Section:
    made = Sum(tuple(map(Decimal, terms)))
    return Section(Way.FOLLOWED, (Exercise(Asked.SUM, made),))


def of(kind: Kind, *sections: Section, **more: object) -> Sheet:
    count = sum(len(section.tasks) for section in sections)
    return Sheet(replace(Recipe(kind=kind, count=count or 1), **more), sections)


def ladder(count: int, rows: int, digits: int) -> Sheet:
    tasks = sums(4 * count, rows, digits).tasks
    ways = (Way.BEADS, Way.COVERED, Way.EYES_SHUT, Way.MIND)
    parts = [tasks[at * count : (at + 1) * count] for at in range(4)]
    sections = [Section(way, part) for way, part in zip(ways, parts, strict=True)]
    return of(Kind.LADDER, *sections, rows=rows, digits=digits)


def paper(count: int, rows: int, digits: int) -> Sheet:
    sections = (
        sums(count, rows, digits, minus=True)._replace(marks=10),
        products(count, digits, max(1, digits // 2))._replace(marks=5),
        quotients(count, digits, max(1, digits // 2))._replace(marks=5),
    )
    made = of(Kind.PAPER, *sections, grade="kyu-6")
    return made._replace(minutes=30, pass_marks=14 * count)


def usual() -> dict[str, Sheet]:
    """A sheet of each kind as a tutor would ask for it."""
    five = ("add-five-3", "add-five-4")
    strip, frame = followed(38, 47), sums(10, 2, 1)
    return {
        "read": of(Kind.READ, frames(20, 2, Asked.READ), digits=2),
        "set": of(Kind.SET, frames(12, 3, Asked.SET), digits=3),
        "columns": of(
            Kind.COLUMNS, sums(20, 5, 2, minus=True), rows=5, digits=2, minus=True, is_worked=True
        ),
        "products": of(Kind.PRODUCTS, products(20, 3, 2), digits=3, by=2, is_worked=True),
        "quotients": of(Kind.QUOTIENTS, quotients(20, 2, 2, True), digits=2, by=2),
        "quotients rounded": of(Kind.QUOTIENTS, rounded(20, 3, 1), digits=3, facts=("round",)),
        "roots": of(Kind.ROOTS, roots(20, 2), digits=2),
        "partners": of(Kind.PARTNERS, partners(13)),
        "strip": of(Kind.STRIP, strip, digits=2),
        "frame": of(Kind.FRAME, frame),
        "ladder": ladder(5, 3, 1),
        "paper": paper(10, 5, 3),
        "facts": of(Kind.COLUMNS, sums(20, 2, 1), facts=five),
    }


def smallest() -> dict[str, Sheet]:
    """One task of one digit of each kind; of a frame none."""
    return {
        "read": of(Kind.READ, frames(1, 1, Asked.READ)),
        "set": of(Kind.SET, frames(1, 1, Asked.SET)),
        "columns": of(Kind.COLUMNS, sums(1, 2, 1), is_worked=True),
        "products": of(Kind.PRODUCTS, products(1, 1, 1)),
        "quotients": of(Kind.QUOTIENTS, quotients(1, 1, 1)),
        "roots": of(Kind.ROOTS, roots(1, 1)),
        "partners": of(Kind.PARTNERS, partners(1)),
        "strip": of(Kind.STRIP, followed(1, 1)),
        "frame": of(Kind.FRAME),
        "ladder": ladder(1, 2, 1),
        "paper": paper(1, 2, 1),
    }


def largest() -> dict[str, Sheet]:
    """As many tasks as there may be, with the longest numbers, those with a point, and those below
    zero."""
    many, rows, digits = MOST_TASKS, MOST_ROWS, MOST_DIGITS
    long = number(Random(3), digits), number(Random(4), digits)
    return {
        "read": of(Kind.READ, frames(many, digits, Asked.READ), digits=digits),
        "read decimals": of(Kind.READ, frames(many, 6, Asked.READ, 3), digits=6),
        "set": of(Kind.SET, frames(many, digits, Asked.SET), digits=digits),
        "set decimals": of(Kind.SET, frames(many, 7, Asked.SET, 2), digits=7),
        "columns": of(Kind.COLUMNS, sums(many, rows, digits, True), rows=rows, digits=digits),
        "columns decimals": of(Kind.COLUMNS, sums(many, rows, 9, True, 4), rows=rows, digits=9),
        "columns short": of(Kind.COLUMNS, sums(many, rows, 1, True), rows=rows),
        "products": of(
            Kind.PRODUCTS, products(many, digits, digits), digits=digits, by=digits, is_worked=True
        ),
        "products worked": of(Kind.PRODUCTS, products(3, 9, 7), digits=9, by=7, is_worked=True),
        "products decimals": of(Kind.PRODUCTS, products(many, 6, 4, 3), digits=6, by=4),
        "products below zero": of(Kind.PRODUCTS, below_zero(many)),
        "quotients": of(Kind.QUOTIENTS, quotients(many, digits, digits, True), digits=digits),
        "quotients short": of(Kind.QUOTIENTS, quotients(many, 1, 1, True)),
        "roots": of(Kind.ROOTS, roots(many, 7), digits=7),
        "partners": of(Kind.PARTNERS, partners(many)),
        "strip": of(Kind.STRIP, followed(*map(int, long))),
        "strip of many": of(Kind.STRIP, followed(*range(123_456, 923_456, 57_143))),
        "frame": of(Kind.FRAME, sums(many, rows, digits)),
        "ladder": ladder(many // 4, rows, digits),
        "paper": paper(many // 3, rows, digits),
    }  # fmt: skip


def below_zero(count: int) -> Section:
    chance = Random(12)
    made = [Product(-number(chance, 5, 2), -number(chance, 3)) for _ in range(count)]
    return Section(Way.BEADS, tuple(Exercise(Asked.SUM, one) for one in made))


def every() -> Iterator[tuple[str, Sheet]]:
    """All of them on both leaves."""
    for size, sheets in (("usual", usual()), ("smallest", smallest()), ("largest", largest())):
        for name, sheet in sheets.items():
            for leaf in Leaf:
                recipe = replace(sheet.recipe, leaf=leaf, version=Version.B)
                yield f"{size} {name} {leaf}", sheet._replace(recipe=recipe)

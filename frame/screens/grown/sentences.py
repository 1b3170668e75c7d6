"""What is told of each figure, with its count."""

from decimal import Decimal

from frame.language.catalogue import Fact, Words
from frame.language.days import day_line
from frame.language.lines import Line
from frame.language.printed import sum_line
from frame.practice.examples import example_of
from frame.practice.figures import FEWEST, FamilyKnown, ItemFigure, Level, Point
from frame.practice.growth import Numbers, Step, monday_of
from frame.practice.why import why_line


def family_line(known: FamilyKnown, words: Words) -> Line:
    """How much of a family is known, and where more was taught how much."""
    family = known.family
    return words.line(
        "grown.family_taught" if known.taught > known.known else "grown.family",
        family=words.line(f"family.{family}"), known=known.known, all=known.all,
        taught=known.taught,
    )  # fmt: skip


def item_line(figure: ItemFigure, words: Words) -> Line:
    """How well an item is known: nothing but its tries where they are few."""
    facts: dict[str, Fact] = {
        "sum": sum_line(example_of(figure.item).sum, words), "tries": figure.tries,
        "right": figure.right, "fewest": FEWEST,
    }  # fmt: skip
    if not figure.tries:
        return words.line("grown.untried", **facts)
    if figure.level is Level.FEW:
        return words.line("grown.too_few", **facts)
    told = words.line("grown.item", level=level_line(figure.level, words), **facts)
    if figure.decision is None:
        return told
    seconds, decided = tenths(figure.decision), figure.decided
    more = words.line("grown.decision", seconds=seconds, decided=decided)
    return words.line("verdict.then", what=told, act=more)


def level_line(level: Level, words: Words) -> Line:
    """How well something is known."""
    return words.line(f"grown.level.{level}", fewest=FEWEST)


def point_line(point: Point, words: Words) -> Line:
    """What a week of a curve rests on."""
    week = words.line("grown.week", day=day_line(words, monday_of(point.week)))
    facts: dict[str, Fact] = {"week": week, "right": point.tally.right, "tries": point.tally.of}
    match point.of:
        case Step(_, _, rods, why):
            rung = why.rung
            return words.line(
                "grown.stood", rung=words.line(f"rung.{rung.name}"), rods=rods, **facts
            )
        case Numbers(_, digits, rows, pace):
            return words.line("grown.held", digits=digits, rows=rows, seconds=tenths(pace), **facts)


def step_lines(step: Step, words: Words) -> tuple[Line, Line, Line]:
    """Where the ladder came to stand; when, and why; and what it means to stand there."""
    family, rung = step.family, step.why.rung
    where = words.line(
        "grown.step", family=words.line(f"family.{family}"), rung=words.line(f"rung.{rung.name}"),
        rods=step.rods,
    )  # fmt: skip
    why = why_line(step.why, words) or words.line("grown.begun")
    when = words.line("grown.reason", day=day_line(words, step.day), why=why)
    return where, when, words.line(f"rung_means.{rung.name}")


def tenths(seconds: float) -> Decimal:
    """Seconds as they are told.

    >>> tenths(1.0), tenths(1.26)
    (Decimal('1'), Decimal('1.3'))
    """
    return Decimal(f"{seconds:.1f}".removesuffix(".0"))

"""Which curves there are, and how their heights are read."""

from collections.abc import Iterator, Mapping
from typing import NamedTuple

from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.practice.families import Family
from frame.practice.figures import (
    Curve,
    Measure,
    digits,
    height_of,
    ladder_curve,
    numbers_curve,
    quickness,
    rows,
)
from frame.practice.growth import Growth, Step
from frame.practice.rungs import Asked, Rung
from frame.screens.grown.sentences import tenths
from frame.screens.lesson.practice import TITLES

_MEASURES: Mapping[str, Measure] = {"digits": digits, "rows": rows, "pace": quickness}
_ABOVE_ALONE = tuple(Rung)[tuple(Rung).index(Rung.ALONE) + 1 :]


class Chart(NamedTuple):
    """A curve with its name, from the height `low` to `high`; the heights that have a line, and
    others between that are named where there is room."""

    name: Line
    curve: Curve
    low: float
    high: float
    marks: tuple[tuple[float, str], ...]
    between: tuple[tuple[float, str], ...] = ()


def charts_of(growth: Growth, words: Words) -> tuple[Chart, ...]:
    """Those with points: of each family on the ladder, then of called and flashed numbers."""
    found = (*_of_families(growth, words), *_of_numbers(growth, words))
    return tuple(one for one in found if one.curve.points)


def _of_families(growth: Growth, words: Words) -> Iterator[Chart]:
    for family in Family:
        curve = ladder_curve(growth, family)
        if curve.points:
            yield _ladder_chart(family, curve, words)


def _ladder_chart(family: Family, curve: Curve, words: Words) -> Chart:
    """From `alone` with the fewest rods to the rod above the highest point, where there is one;
    each rod is named, and the rungs between."""
    rods = [point.of.rods for point in curve.points if isinstance(point.of, Step)]
    first, last = min(rods), max(rods)
    low = min(height_of(first, Rung.ALONE), *(one.height for one in curve.points))
    marks = [
        (height_of(count, Rung.ALONE), words.text("grown.rods", rods=count))
        for count in range(first, min(last + 1, family.most_rods) + 1)
    ]
    rungs = [
        (height_of(count, rung), words.text(f"rung.{rung.name}"))
        for count in range(first, last + 1)
        for rung in _ABOVE_ALONE
    ]
    high = max(marks[-1][0], height_of(last, family.top))
    return Chart(words.line(f"family.{family}"), curve, low, high, tuple(marks), tuple(rungs))


def _of_numbers(growth: Growth, words: Words) -> Iterator[Chart]:
    for asked in (Asked.CALLED, Asked.FLASHED):
        for key, measure in _MEASURES.items():
            curve = numbers_curve(growth, asked, measure)
            if curve.points:
                name = words.line(f"grown.{key}", way=words.line(TITLES[asked]))
                yield _numbers_chart(name, curve, words)


def _numbers_chart(name: Line, curve: Curve, words: Words) -> Chart:
    """From nothing up, or where fewer seconds are higher from the slowest pace on."""
    heights = [one.height for one in curve.points]
    if max(heights) < 0:
        low, high = min(heights) - 0.5, 0.0
        marks = [(h, words.text("grown.seconds", seconds=tenths(-h))) for h in sorted(set(heights))]
    else:
        low, high = 0.0, max(heights) + 1
        marks = [(h, f"{h:.0f}") for h in sorted(set(heights))]
    return Chart(name, curve, low, high, tuple(marks))

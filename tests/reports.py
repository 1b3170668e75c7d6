"""Reports to be shown, without a record behind them."""

from dataclasses import replace
from datetime import date
from itertools import product

from frame.app import Push
from frame.practice.bead_habits import EVERYWHERE, Where
from frame.practice.families import Family
from frame.practice.own_ladder import levels_of
from frame.practice.rungs import Asked
from frame.practice.tally import Tally
from frame.report.figures import Aloud, Fault, Kind, Lessons, OnPaper, Report, Week
from frame.screens.choosing.report import ReportPage
from frame.technique.habits import Habit

TODAY = date(2026, 9, 30)
LAST = Tally(18, 20)
FAMILIES = tuple(Family)
WHERES = (
    EVERYWHERE, Where(digits=frozenset({4, 6})), Where(digits=frozenset({5})), Where(rod=14),
    Where(is_long=True), Where(is_long=False),
)  # fmt: skip
LEVEL = levels_of(Asked.CALLED)[-1]


def week(minutes):
    return Week(TODAY, TODAY, minutes, Tally(1080, 1234))


EARLY = Report(
    TODAY, Tally(0, 0), week(0)._replace(tally=Tally(0, 0)), week(0), Lessons(0, 0, 90, "x", "One")
)
FULL = Report(
    TODAY, Tally(49_876, 50_000), week(1234), week(987),
    Lessons(43, 31, 90, "x", "Minus nine, minus eight"),
    tuple(Kind(family, LAST, 2, TODAY) for family in FAMILIES[:12]),
    tuple(Kind(family, Tally(3, 12), 2, date(2026, 1, 28)) for family in FAMILIES[12:]),
    LAST, Aloud(LAST, LEVEL, 51), Aloud(LAST, LEVEL, 51),
    Fault(Habit.INNER_FIVE_MISSED, WHERES[1], 107, 112, date(2026, 9, 28), in_answers=True),
    on_paper=OnPaper(Tally(1080, 1234), Family.SUB_TEN_FIVE, Tally(54, 112)),
)  # fmt: skip

ON_PAPER = replace(
    FULL, lessons=Lessons(0, 0, 90, "x", "One"), called=None, flashed=None,
    on_paper=FULL.on_paper._replace(is_all=True),
)  # fmt: skip


def of_every_fault():
    """A report for each fault, wherever it may show."""
    for habit, where, in_answers in product(Habit, WHERES, (True, False)):
        if where == EVERYWHERE or not in_answers:  # Where it shows beads alone can tell.
            fault = Fault(habit, where, 107, 112, date(2026, 9, 28), in_answers)
            yield f"{habit} {where}", replace(FULL, fault=fault)


def of_any_length():
    """Reports with few and many kinds known, and being learned."""
    for known, learning in product((0, 1, 5, 16), (0, 1, 3, 4, 16)):
        for has_inward in (True, False):
            kinds = {
                "known": tuple(Kind(one, LAST, 2, TODAY) for one in FAMILIES[:known]),
                "learning": tuple(Kind(one, Tally(0, 0)) for one in FAMILIES[:learning]),
            }
            inward = {} if has_inward else dict.fromkeys(("unseen", "called", "flashed"))
            yield f"{known} {learning} {has_inward}", replace(FULL, **kinds, **inward)


def page_of(room, report):
    """A page that shows a report."""
    page = ReportPage(room, room.learner)
    page.show(report)
    return page


def reporting(report, *presses):
    """Opens the page of a report; then what is pressed there."""

    def go(pilot):
        pilot.app.take(Push(page_of(pilot.room, report)))
        pilot.app.draw()
        for one in presses:
            pilot.press_word(one)

    return go

"""The rounds of a published run are drawn and counted as they are published, and no mark is told
of what was easier, late or left out."""

from dataclasses import replace
from itertools import accumulate, product
from random import Random

import pytest

from frame.practice.columns import draw_column
from frame.practice.drawing import draw
from frame.practice.exercises import plan_for
from frame.practice.flashing import FlashSetting
from frame.practice.rungs import Asked, Rung
from frame.sheets.rounds import Rounds, Score, runs_asked
from frame.sheets.runs import published_runs
from frame.technique.conventions import USUAL
from frame.technique.reading import read

RUNS = published_runs()
FLASHED = Rounds.of(RUNS["flashed-dan-10"])
ON_FRAME, IN_MIND = Rounds.of(RUNS["called-beads"]), Rounds.of(RUNS["called-mind"])


def lengths(exercises):
    return [len(str(abs(term))) for one in exercises for term in one.sum.terms]


def test_the_flashed_level_comes_as_it_is_published():
    exercises = draw(FLASHED.request, Random(1))
    assert len(exercises) == 10
    assert set(lengths(exercises)) == {3}
    for one in exercises:
        assert (len(one.sum.terms), one.asked, one.rung) == (15, Asked.FLASHED, Rung.NUMBER)
        assert FlashSetting(3, 15, one.pace).total == pytest.approx(3)
    assert FLASHED.is_as_published


@pytest.mark.parametrize("rounds", [ON_FRAME, IN_MIND], ids=["frame", "mind"])
@pytest.mark.parametrize("minus", [False, True])
def test_called_numbers_have_every_length_that_is_published(rounds, minus):
    for count in rounds.run.counts:
        asked = replace(rounds, count=count, minus=minus)
        exercises = [one for seed in range(8) for one in draw(asked.request, Random(seed))]
        least, most = rounds.run.digits
        assert set(lengths(exercises)) == set(range(least, most + 1))
        for one in exercises:
            assert len(one.sum.terms) == count
            assert min(accumulate(one.sum.terms)) >= 0
            assert any(term < 0 for term in one.sum.terms) is minus
            assert read(plan_for(one, USUAL).end) == one.sum.result


def test_where_they_are_worked_is_as_published_or_ones_own():
    seen, own = ON_FRAME.request, replace(ON_FRAME, own=True).request
    assert (seen.rung, seen.own) == (Rung.ALONE, False)
    assert (own.rung, own.own) == (Rung.NUMBER, True)
    for one in (IN_MIND, replace(IN_MIND, own=True), FLASHED, replace(FLASHED, own=True)):
        assert (one.request.rung, one.request.own) == (Rung.NUMBER, False)


def test_numbers_may_be_shorter_than_published_and_are_so_then():
    short = replace(ON_FRAME, digits=8)
    assert set(lengths(draw(short.request, Random(1)))) == {7, 8}
    assert not short.is_as_published
    assert ON_FRAME.is_as_published


def test_numbers_of_one_length_are_drawn_as_ever():
    for digits, count, minus in product((1, 3, 14), (2, 15), (False, True)):
        column = draw_column(digits, count, Random(f"{digits} {count}"), minus=minus)
        assert {len(str(abs(term))) for term in column} == {digits}


@pytest.mark.parametrize(
    ("right", "counted", "is_enough"),
    [
        (8, 10, True),
        (10, 10, True),
        (7, 10, False),
        (0, 10, False),
        (8, 8, True),  # Whatever the two would be that did not count.
        (7, 9, None),  # The one that did not count may have been right.
        (6, 9, False),
        (0, 0, None),
    ],
)
def test_the_mark_is_told_only_where_it_is_certain(right, counted, is_enough):
    assert Score(FLASHED, right, counted).is_enough is is_enough


def test_no_mark_is_told_of_what_was_slower_or_has_none():
    assert Score(replace(FLASHED, pace=1 / 3), 10, 10).is_enough is None
    assert Score(ON_FRAME, 5, 5).is_enough is None


def test_every_published_run_is_found_by_how_its_numbers_come():
    found = [run.id for asked in Asked for run in runs_asked(asked)]
    assert sorted(found) == sorted(RUNS)
    assert runs_asked(Asked.SHOWN) == ()

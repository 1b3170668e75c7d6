"""What an exercise tells of what is behind it: its answer where no bead was moved, else its slips;
read from the record as when it was made."""

from contextlib import closing
from dataclasses import replace
from decimal import Decimal
from itertools import product

import pytest
from kept import NOW, added, begun

from frame.course.attempts import Attempt, Origin
from frame.learner.lately import done_lately, done_of_attempt
from frame.learner.learners import new_id
from frame.learner.rows import Record
from frame.learner.store import Store
from frame.practice.exercises import Exercise, Kind
from frame.practice.log import Entry, Happening, Log
from frame.practice.rungs import Asked, Rung
from frame.technique.beads import BeadMove
from frame.technique.conventions import USUAL
from frame.technique.expression import Quotient, parse_sum

SUM = parse_sum("38 + 47")
SLIP = Entry(Happening.STROKE, 900, (BeadMove(1, 1),), slip="carry-forgotten", step=1)
ANSWER = Entry(Happening.ANSWER, 4000)
WAYS = [
    (rung, asked, own)
    for rung, asked, own in product(Rung, Asked, (False, True))
    if not rung.is_led and (asked is Asked.SHOWN or rung is Rung.NUMBER)
]


def attempt(way, *entries, answers=(Decimal(75),)):
    rung, asked, own = way
    exercise = Exercise(Kind.SUM, SUM, rung, 3, asked=asked, pace=1.0, own=own)
    return Attempt("x", exercise, False, False, 0, (), answers=answers, log=Log(entries=entries))


@pytest.mark.parametrize("way", WAYS)
def test_an_answer_tells_where_no_bead_was_moved_and_slips_where_one_was(way, tmp_path):
    made = attempt(way, ANSWER), attempt(way, SLIP, ANSWER), attempt(way, answers=())
    at = NOW.timestamp()
    told = [done_of_attempt(one, at, USUAL) for one in made]
    slips = (("carry-forgotten", 1),)
    assert [one and (one.answer, len(one.slips)) for one in told] == [
        (Decimal(75), 0), (None, len(slips)), None
    ]  # fmt: skip
    with closing(Store(tmp_path / "learners.sqlite")) as store:
        otter = added(store, "Otter")
        records = [Record(new_id(), at, one, Origin.SET) for at, one in enumerate(made, 1)]
        store.record(begun(store, otter), records, otter, "x", None, NOW)
        assert done_lately(store, otter, USUAL) == [one for one in told if one]


def test_what_was_rounded_is_no_fault_when_it_is_read_again(tmp_path):
    exercise = Exercise(Kind.SUM, Quotient(Decimal(10), Decimal(3), 2), Rung.NUMBER, 17)
    made = Attempt("x", exercise, True, True, 0, (), answers=(Decimal("3.33"),))
    with closing(Store(tmp_path / "learners.sqlite")) as store:
        otter = added(store, "Otter")
        record = Record(new_id(), 1, made, Origin.SET)
        store.record(begun(store, otter), [record], otter, "x", None, NOW)
        (told,) = done_lately(store, otter, USUAL)
    assert told == done_of_attempt(made, NOW.timestamp(), USUAL)
    assert told.answer == told.calculation.result


@pytest.mark.parametrize("rung", [one for one in Rung if one.is_led])
def test_of_a_hand_that_was_led_nothing_is_told(rung, tmp_path):
    made = attempt((rung, Asked.SHOWN, False), SLIP)
    assert done_of_attempt(made, 0.0, USUAL) is None
    with closing(Store(tmp_path / "learners.sqlite")) as store:
        otter = added(store, "Otter")
        store.record(
            begun(store, otter), [Record(new_id(), 1, made, Origin.SET)], otter, "x", None, NOW
        )
        assert done_lately(store, otter, USUAL) == []


def test_what_was_left_and_a_number_alone_tell_nothing():
    left = replace(attempt((Rung.NUMBER, Asked.SHOWN, False), ANSWER), ended=False)
    number = Exercise(Kind.SET, parse_sum("38"), Rung.ALONE, 2)
    for one in (left, Attempt("x", number, True, True, 0, (), answers=(Decimal(38),))):
        assert done_of_attempt(one, 0.0, USUAL) is None

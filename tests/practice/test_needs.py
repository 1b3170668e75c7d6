"""Who needs somebody now: what more is needed never brings a child down the list."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from frame.practice.families import Family
from frame.practice.needs import (
    ENOUGH,
    FEW,
    MUCH,
    ON_PAPER,
    Pupil,
    Reason,
    Week,
    need_of,
    needs_of,
)
from frame.practice.tally import Tally
from frame.technique.habits import Habit

QUICKLY = settings(max_examples=25)

CALM = Week(ENOUGH, Tally(20, 20))
CARRY, PARTNER, FIVE, ROD = (
    Habit.CARRY_FORGOTTEN,
    Habit.WRONG_PARTNER,
    Habit.FIVE_BEAD_LEFT,
    Habit.WRONG_ROD,
)


@st.composite
def pupils(draw):
    of = draw(st.integers(0, 60))
    return Pupil(
        draw(st.text("abc", min_size=1, max_size=3)),
        draw(st.sampled_from(["Fox", "Hare", "otter", "Seal"])),
        draw(st.dictionaries(st.sampled_from(Family), st.integers(0, 20), max_size=4)),
        draw(st.dictionaries(st.sampled_from(Habit), st.floats(0, 1), max_size=3)),
        Week(
            draw(st.floats(0, 90)),
            Tally(draw(st.integers(0, of)), of),
            on_paper=draw(st.integers(0, of)),
        ),
    )


CLASSES = st.lists(pupils(), max_size=8, unique_by=lambda one: one.id)


def names(found):
    return [one.pupil.name for one in found.children]


@QUICKLY
@given(CLASSES)
def test_everybody_is_in_the_list_who_needs_most_first(some):
    found = needs_of(some)
    assert sorted(one.pupil.id for one in found.children) == sorted(one.id for one in some)
    needs = [round(need_of(one.pupil), 6) for one in found.children]
    assert needs == sorted(needs, reverse=True)


@QUICKLY
@given(CLASSES, st.randoms(use_true_random=False))
def test_the_order_in_which_they_come_changes_nothing(some, random):
    assert needs_of(random.sample(some, len(some))) == needs_of(some)


@QUICKLY
@given(pupils(), st.sampled_from(Habit), st.floats(0.5, 1))
def test_more_to_need_is_never_less_need(one, habit, chance):
    right, of = one.week.exercises
    more = [
        one._replace(faults={**one.faults, habit: max(chance, one.faults.get(habit, 0))}),
        one._replace(due={**one.due, Family.READ: one.due.get(Family.READ, 0) + 1}),
        one._replace(week=one.week._replace(minutes=one.week.minutes / 2)),
        one._replace(week=one.week._replace(on_paper=one.week.on_paper // 2)),
        one._replace(week=one.week._replace(exercises=Tally(right, of + 1))),
        one._replace(week=one.week._replace(exercises=Tally(max(0, right - 1), of))),
    ]
    assert all(need_of(other) >= need_of(one) - 1e-9 for other in more)


@QUICKLY
@given(pupils())
def test_right_answers_alone_never_decide(one):
    of = one.week.exercises.of
    worst, best = (
        one._replace(week=one.week._replace(exercises=Tally(right, of))) for right in (0, of)
    )
    assert 0 <= need_of(best) <= need_of(worst) <= need_of(best) + 1 <= 6


@pytest.mark.parametrize(
    ("pupil", "reasons"),
    [
        (Pupil("1", "Fox", week=CALM), ()),
        (Pupil("1", "Fox", faults={CARRY: 0.9}, week=CALM), (Reason.FAULT,)),
        (Pupil("1", "Fox", faults={CARRY: 0.49}, week=CALM), ()),
        (Pupil("1", "Fox", {Family.READ: MUCH // 2}, week=CALM), (Reason.DUE,)),
        (Pupil("1", "Fox", {Family.READ: MUCH // 2 - 1}, week=CALM), ()),
        (Pupil("1", "Fox"), (Reason.AWAY,)),
        (Pupil("1", "Fox", week=Week(on_paper=ON_PAPER)), ()),
        (Pupil("1", "Fox", week=Week(on_paper=ON_PAPER // 2)), (Reason.AWAY,)),
        (Pupil("1", "Fox", week=Week(ENOUGH / 4, on_paper=ON_PAPER // 2)), ()),
        (Pupil("1", "Fox", week=Week(ENOUGH, Tally(0, FEW))), (Reason.UNSURE,)),
        (Pupil("1", "Fox", week=Week(ENOUGH, Tally(0, FEW - 1))), ()),
        (Pupil("1", "Fox", week=Week(ENOUGH, Tally(10, 20))), (Reason.UNSURE,)),
        (Pupil("1", "Fox", week=Week(ENOUGH, Tally(11, 20))), ()),
        (
            Pupil("1", "Fox", {Family.SET: 99}, {CARRY: 0.6}, Week(6, Tally(0, 90))),
            (Reason.FAULT, Reason.DUE, Reason.UNSURE, Reason.AWAY),
        ),
    ],
)
def test_reasons_are_what_weighs(pupil, reasons):
    assert needs_of([pupil]).children[0].reasons == reasons


def test_those_alike_come_by_name():
    some = [Pupil(str(at), name) for at, name in enumerate(("otter", "Seal", "Fox", "Fox"))]
    assert [(one.pupil.name, one.pupil.id) for one in needs_of(some).children] == [
        ("Fox", "2"),
        ("Fox", "3"),
        ("otter", "0"),
        ("Seal", "1"),
    ]


def test_a_fault_comes_before_a_week_away():
    away = Pupil("1", "Fox")
    faulty = Pupil("2", "Hare", faults={CARRY: 0.6}, week=CALM)
    assert names(needs_of([away, faulty])) == ["Hare", "Fox"]


def test_the_commonest_faults_with_who_has_them():
    some = [
        Pupil("1", "Seal", faults={PARTNER: 0.9, FIVE: 0.7}),
        Pupil("2", "Fox", faults={PARTNER: 0.5, ROD: 0.8, FIVE: 0.9}),
        Pupil("3", "Hare", faults={PARTNER: 0.6, CARRY: 0.9, FIVE: 0.1}),
    ]
    told = [(one.habit, [who.name for who in one.pupils]) for one in needs_of(some).faults]
    assert told == [
        (PARTNER, ["Fox", "Hare", "Seal"]),
        (FIVE, ["Fox", "Seal"]),
        (CARRY, ["Hare"]),
    ]


def test_for_how_many_something_is_due_of_each_family():
    some = [
        Pupil("1", "Seal", {Family.COLUMNS: 3, Family.READ: 1}),
        Pupil("2", "Fox", {Family.COLUMNS: 1, Family.SET: 0}),
    ]
    assert list(needs_of(some).due.items()) == [(Family.READ, 1), (Family.COLUMNS, 2)]


def test_nobody_needs_nothing():
    assert needs_of([]) == ((), (), {})

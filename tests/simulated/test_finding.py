"""Small shares of the report: planted habits are found, and hardly anything else is."""

from random import Random

import pytest
from drawn import column
from finding import (
    BY_ANOTHER,
    OF_COLUMNS,
    counted,
    faultless,
    other_kinds,
    others,
    pairs,
    singles,
)
from unlisted import UNLISTED

from frame.technique.conventions import USUAL
from frame.technique.expression import parse_calculation
from frame.technique.faulty import Choosing, answer_by

MOST = 10


def test_a_planted_habit_is_found_and_no_other():
    right, wrong, *_ = counted(singles()[:2], 1, is_chosen=True, most=MOST)
    assert right[MOST] == 2 and not wrong[MOST]


def test_others_and_nothing_are_left_unknown():
    for learners in (others()[2:5:2], faultless()[:2]):
        _, wrong, *_ = counted(learners, 1, is_chosen=False, most=MOST)
        assert not wrong[MOST]


@pytest.mark.proof
def test_the_report_holds():
    right, wrong, count, _ = counted(singles(), 3, is_chosen=True)
    assert right[20] >= 0.9 * count and wrong[20] <= 0.02 * count
    _, wrong, count, _ = counted(pairs(), 2, is_chosen=True)
    assert wrong[20] <= 0.1 * count
    for is_chosen in (False, True):
        for faults in (UNLISTED, BY_ANOTHER):
            _, wrong, count, _ = counted(others(faults), 3, is_chosen)
            assert wrong[20] <= 0.05 * count
        _, wrong, count, _ = counted(faultless(), 3, is_chosen)
        assert wrong[20] <= 0.03 * count


@pytest.mark.proof
@pytest.mark.parametrize("row", other_kinds(), ids=lambda row: row.title)
def test_so_it_holds_of_other_kinds_of_work(row):
    right, wrong, count, _ = counted(row.learners, 2, row.is_chosen)
    is_planted = any(one.planted for one in row.learners)
    assert wrong[20] <= 0.03 * count and right[20] >= 0.7 * count * is_planted


def test_the_second_hands_faults_are_no_habits_under_another_name():
    columns = [column(Random(seed)) for seed in range(40)]
    by_habit = [
        [answer_by(one, USUAL, Choosing({habit})) for one in columns] for habit in OF_COLUMNS
    ]
    for fault in BY_ANOTHER:
        given = [fault(one) for one in columns]
        wrong = [at for at, one in enumerate(columns) if given[at] != one.result]
        assert wrong, fault
        for answers in by_habit:
            same = sum(answers[at] is not None and answers[at].number == given[at] for at in wrong)
            assert same <= len(wrong) / 2, fault


def test_each_fault_outside_of_the_catalogue_leads_to_other_answers():
    texts = ("63 - 36 + 23", "35 + 69 - 28", "46 + 97 + 31")
    columns = [parse_calculation(text) for text in texts]
    for fault in UNLISTED:
        assert any(fault(column) != column.result for column in columns), fault

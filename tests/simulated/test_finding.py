"""Small shares of the report: planted habits are found, and hardly anything else is."""

import pytest
from finding import counted, faultless, others, pairs, singles
from unlisted import UNLISTED

from frame.technique.expression import parse_calculation

MOST = 10


def test_a_planted_habit_is_found_and_no_other():
    right, wrong, _ = counted(singles()[:2], 1, is_chosen=True, most=MOST)
    assert right[MOST] == 2 and not wrong[MOST]


def test_others_and_nothing_are_left_unknown():
    for learners in (others()[2:5:2], faultless()[:2]):
        _, wrong, _ = counted(learners, 1, is_chosen=False, most=MOST)
        assert not wrong[MOST]


@pytest.mark.proof
def test_the_report_holds():
    right, wrong, count = counted(singles(), 3, is_chosen=True)
    assert right[20] >= 0.9 * count and wrong[20] <= 0.02 * count
    _, wrong, count = counted(pairs(), 2, is_chosen=True)
    assert wrong[20] <= 0.1 * count
    for is_chosen in (False, True):
        _, wrong, count = counted(others(), 3, is_chosen)
        assert wrong[20] <= 0.1 * count
        _, wrong, count = counted(faultless(), 3, is_chosen)
        assert wrong[20] <= 0.03 * count


def test_each_fault_outside_of_the_catalogue_leads_to_other_answers():
    texts = ("63 - 36 + 23", "35 + 69 - 28", "46 + 97 + 31")
    columns = [parse_calculation(text) for text in texts]
    for fault in UNLISTED:
        assert any(fault(column) != column.result for column in columns), fault

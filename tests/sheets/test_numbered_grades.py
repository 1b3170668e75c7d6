"""Every grade of the table has a number for codes."""

from frame.sheets.grades import grades
from frame.sheets.numbered import GRADES


def test_every_grade_has_a_number():
    assert set(grades()) == set(GRADES)

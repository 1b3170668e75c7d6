"""The tasks of a sheet can stand on the board."""

import pytest

from frame.course.agenda import Task
from frame.course.board import Board
from frame.course.sheet_items import items_of_sheet
from frame.practice.families import Family
from frame.sheets.enough import recipe_for
from frame.sheets.making import make
from frame.sheets.topics import facts_of
from frame.technique.conventions import USUAL

READ_ALOUD = (Family.READ, Family.SET)


@pytest.mark.parametrize("family", Family)
def test_each_task_is_an_item_that_the_board_takes(family):
    sheet = make(recipe_for(facts_of(family)))
    items = items_of_sheet(sheet)
    assert [one.sum for one in items] == [one.sum for one in sheet.tasks]
    act = Task.READ if family in READ_ALOUD else Task.SHOW
    assert {one.act for one in items} == {act}
    assert len(Board.of(items, USUAL).items) == len(sheet.tasks)

"""The tasks of a sheet as items for the board."""

from frame.course.agenda import MOST_ITEMS, Item, Task
from frame.practice.exercises import Exercise, Kind
from frame.sheets.sheet import Sheet


def items_of_sheet(sheet: Sheet) -> tuple[Item, ...]:
    """What is worked on paper, to be shown; what is read or set there, to be read."""
    return tuple(map(_item, sheet.tasks[:MOST_ITEMS]))


def _item(task: Exercise) -> Item:
    if task.kind is Kind.SUM:
        return Item(Task.SHOW, task.sum)
    return Item(Task.READ, task.sum, rods=task.rods)

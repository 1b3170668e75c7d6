"""A sheet for what a group needs, or one child."""

from collections.abc import Iterable

from frame.practice.grouping import Group
from frame.sheets.enough import recipe_for
from frame.sheets.making import sheet_near
from frame.sheets.sheet import Sheet
from frame.sheets.topics import facts_of_items, facts_showing
from frame.technique.habits import Habit


def sheet_for(group: Group) -> Sheet | None:
    """A task for what a group needs; None where it needs nothing."""
    return sheet_of_needs(group.items, group.fault)


def sheet_of_needs(items: Iterable[str], fault: Habit | None) -> Sheet | None:
    """A sheet of the facts of some items, else of those of a fault; None where there is neither."""
    facts = facts_of_items(items)
    if not facts and fault is not None:
        facts = facts_showing(fault)
    return sheet_near(recipe_for(facts)) if facts else None

"""A sheet of what a group needs, or one child, to be saved beside the window."""

from dataclasses import dataclass
from pathlib import Path

from frame.language.catalogue import Words
from frame.learner.new_file import plain_name
from frame.practice.grouping import Group
from frame.printing.titles import Group as PrintedGroup
from frame.room import Room
from frame.screens.parts.sheet_saving import SheetToSave
from frame.screens.tutor.saving import Work, class_folder
from frame.sheets.making import SheetError
from frame.sheets.of_needs import sheet_for
from frame.sheets.recipe import Kind, Recipe
from frame.technique.conventions import Conventions


@dataclass(frozen=True, slots=True)
class _SheetOfNeeds:
    """For whom a sheet is, and what it needs to be made and written."""

    group: Group
    folder: Path
    name: str
    words: Words
    conventions: Conventions
    whose: PrintedGroup

    def save(self) -> Path:
        """Make it and save it. Raises SheetError or StoreError."""
        sheet = sheet_for(self.group)
        if sheet is None:
            raise SheetError(Recipe(kind=Kind.COLUMNS))
        order = SheetToSave(
            sheet.recipe, self.folder, self.name, self.words, self.conventions, self.whose
        )
        return order.save().path


def saving_sheet(room: Room, group: Group, name: str, whose: PrintedGroup) -> Work:
    """What saves a sheet of what a group needs, under a name, with whose it is at its head."""
    conventions = room.computer.conventions
    file = f"sheet-{plain_name(name)}"
    return _SheetOfNeeds(group, class_folder(room), file, room.words, conventions, whose).save

"""A sheet made and saved beside the window's thread."""

from concurrent.futures import Future
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import NamedTuple

from frame.language.catalogue import Words
from frame.learner.new_file import free_name
from frame.learner.trouble import told_of
from frame.printing.titles import Group
from frame.room import Room
from frame.sheets.code import code_of, recipe_of
from frame.sheets.making import sheet_of
from frame.sheets.recipe import Recipe
from frame.technique.conventions import Conventions

_SUFFIX = ".pdf"


class Saved(NamedTuple):
    """The file of a sheet, and its code."""

    path: Path
    code: str


def take_back(making: "Future[Saved]") -> None:
    """Remove a sheet that was made when whoever asked for it had left, and was told nothing."""
    if making.exception() is None:
        with suppress(OSError):
            making.result().path.unlink()


def sheet_folder(room: Room) -> Path:
    """Where sheets are saved."""
    return room.documents or room.folder / "sheets"


@dataclass(frozen=True, slots=True)
class SheetToSave:
    """A sheet that is asked for, and what it needs to be written under a name not taken. The key
    shows work by the `conventions`; what stands on the sheet is the same in every school. Who is
    to work it stands at its head."""

    recipe: Recipe
    folder: Path
    name: str
    words: Words
    conventions: Conventions
    group: Group | None = None

    def save(self) -> Saved:
        """Make it and save it. Raises SheetError or StoreError."""
        # What writes PDFs is needed by nobody before.
        from frame.printing.sheet_file import write_sheet

        code = code_of(self.recipe)
        recipe = recipe_of(code)  # As it is understood again, without what its kind does not use.
        sheet = sheet_of(recipe)
        with told_of(self.folder):
            self.folder.mkdir(parents=True, exist_ok=True)
        path = free_name(self.folder / f"{self.name}{_SUFFIX}")
        write_sheet(path, sheet, code, self.words, self.conventions, self.group)
        return Saved(path, code)

"""Lists of names in files, to be a class."""

from pathlib import Path

from frame.app import Change, Pop, Push
from frame.learner.class_file import OwnList, read_own_list
from frame.resources import ASSETS
from frame.screens.parts.own_files import Kind, OwnFiles
from frame.screens.tutor.taking import TakeList

CLASSES = Kind(
    "classes", ASSETS / "words" / "class-template.en.csv", "my-class", "class_files",
    (".csv", ".tsv", ".txt"),
)  # fmt: skip


class ClassFiles(OwnFiles[OwnList]):
    """A list that can be read is looked over. Its result is how many children were taken in."""

    kind = CLASSES

    def read(self, path: Path) -> OwnList:
        """A list, or why it is none."""
        return read_own_list(path)

    def choose(self, own: OwnList) -> Change:
        """Look it over."""
        return Push(TakeList(self.room, own.listed))

    def resumed(self, result: object) -> Change | None:
        """It was taken, or not."""
        return Pop(result) if result is not None else super().resumed(result)

"""Slips of what some learners have to do, saved beside the window's thread."""

from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path

from frame.language.catalogue import Words
from frame.learner.giving import Before, given_before
from frame.learner.learners import Learner
from frame.learner.new_file import free_name
from frame.learner.trouble import told_of
from frame.printing.slips import Slip, write_slips
from frame.room import Room
from frame.screens.parts.given_slips import slips_of
from frame.screens.parts.portraits import by_name


def slips_folder(room: Room) -> Path:
    """Where slips are saved: with the sheets."""
    return room.documents or room.folder / "sheets"


def open_slips(room: Room, learners: Sequence[Learner]) -> tuple[Slip, ...]:
    """A slip for each work that is open, child by child in the order of their names."""
    none = tuple[Before, ...]()
    before = room.keeper.read(lambda store: given_before(store, learners), none)
    gifts = [gift for one in reversed(before) for gift in one.open]
    order = by_name(learners)
    gifts.sort(key=lambda gift: order.index(gift.learner))
    return slips_of(gifts, room.course, room.words)


@dataclass(frozen=True, slots=True)
class SlipsToSave:
    """Slips that are asked for, and what they need to be written under a name not taken."""

    slips: tuple[Slip, ...]
    folder: Path
    name: str
    words: Words

    def save(self) -> Path:
        """Save them; their file. Raises StoreError."""
        with told_of(self.folder):
            self.folder.mkdir(parents=True, exist_ok=True)
        path = free_name(self.folder / f"{self.name}.pdf")
        write_slips(path, self.slips, self.words)
        return path

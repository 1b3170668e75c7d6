"""Slips of what some learners have to do, read and saved beside the window's thread."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import NamedTuple

from frame.course.course import CourseIndex
from frame.language.catalogue import Words
from frame.learner.giving import due_codes, given_before
from frame.learner.learners import Learner
from frame.learner.new_file import free_name
from frame.learner.store import Store
from frame.learner.trouble import told_of
from frame.printing.slips import Slip, write_slips
from frame.room import Room
from frame.screens.parts.given_slips import slips_of
from frame.screens.parts.portraits import by_name


class Printed(NamedTuple):
    """Slips that were saved, and their file."""

    slips: tuple[Slip, ...]
    path: Path


@dataclass(frozen=True, slots=True)
class SlipsToSave:
    """Slips that are asked for, what they need to be read, and to be written under a name not
    taken; and those that were saved before, which are not saved twice."""

    learners: tuple[Learner, ...]
    course: CourseIndex
    words: Words
    now: datetime
    folder: Path
    before: Printed | None

    def save(self, store: Store) -> Printed | None:
        """Save them; None where nothing is open. Raises StoreError."""
        slips, before = self._slips(store), self.before
        if not slips:
            return None
        if before is not None and before.slips == slips and before.path.exists():
            return before
        with told_of(self.folder):
            self.folder.mkdir(parents=True, exist_ok=True)
        path = free_name(self.folder / f"slips-{self.now.date()}.pdf")
        write_slips(path, slips, self.words)
        return Printed(slips, path)

    def _slips(self, store: Store) -> tuple[Slip, ...]:
        """A slip for each work that is open, child by child in the order of their names."""
        before, order = given_before(store, self.learners), by_name(self.learners)
        gifts = [gift for one in reversed(before) for gift in one.open]
        gifts.sort(key=lambda gift: order.index(gift.learner))
        return slips_of(gifts, self.course, self.words, due_codes(store, gifts, self.now))


def slips_to_save(room: Room, learners: Sequence[Learner], before: Printed | None) -> SlipsToSave:
    """The slips of some learners, which go where sheets are saved."""
    folder = room.documents or room.folder / "sheets"
    return SlipsToSave(tuple(learners), room.course, room.words, room.now(), folder, before)

"""The tutor's board: the items of an agenda gone through before a class. Where each stands is kept
while others are shown, so that nothing that was begun is lost."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from frame.course.agenda import Item
from frame.course.shown import ItemStage, Shown, Standing
from frame.technique.conventions import Conventions


@dataclass
class Board:
    """The items of an agenda, those put in while it goes on, and which is shown."""

    conventions: Conventions
    items: list[Shown] = field(default_factory=list)
    at: int = 0

    @classmethod
    def of(cls, items: Sequence[Item], conventions: Conventions) -> "Board":
        """The board of an agenda, at its first item. Raises NumberError."""
        return cls(conventions, [Shown.of(item, conventions) for item in items])

    @classmethod
    def standing(cls, kept: Sequence[Standing], at: int, conventions: Conventions) -> "Board":
        """A board as it was left. Raises NumberError."""
        board = cls(conventions, [Shown.standing(one, conventions) for one in kept])
        board.go_to_item(at)
        return board

    @property
    def stands(self) -> tuple[Standing, ...]:
        """Where each item stands."""
        return tuple(shown.stands for shown in self.items)

    @property
    def shown(self) -> Shown | None:
        """The item that is shown, None where there is none."""
        return self.items[self.at] if self.items else None

    @property
    def has_next(self) -> bool:
        """Whether an item follows."""
        return self.at + 1 < len(self.items)

    def add(self, items: Sequence[Item]) -> None:
        """Put items in at the end. Raises NumberError."""
        self.items += [Shown.of(item, self.conventions) for item in items]

    def take_back(self, count: int) -> None:
        """Take so many items away again from the end."""
        self.items = self.items[: len(self.items) - count]
        self.go_to_item(self.at)

    def bring(self, items: Sequence[Item]) -> None:
        """Show the first of some items, put in at the end unless they are there one after another;
        nothing is done of them yet. Raises NumberError."""
        if items:
            there, wanted = [shown.item for shown in self.items], list(items)
            starts = range(len(there) - len(wanted) + 1)
            found = (at for at in starts if there[at : at + len(wanted)] == wanted)
            at = next(found, len(there))
            fresh = [Shown.of(item, self.conventions) for item in items]
            self.items[at : at + len(fresh)] = fresh
            self.at = at

    def put(self, item: Item) -> None:
        """Put an item in after the one that is shown, and show it. Raises NumberError."""
        shown = Shown.of(item, self.conventions)
        place = self.at + 1 if self.items else 0
        self.items.insert(place, shown)
        self.at = place

    def next(self) -> None:
        """One move on; at its end the answer; then the next item. A try that follows the prepared
        work is gone on from; of another only what does not is taken back."""
        shown = self.shown
        if shown is None:
            return
        if shown.hand and not shown.keep_try():
            return
        if shown.is_worked and shown.at < shown.last:
            shown.go_to(shown.at + 1)
        elif shown.stage is not ItemStage.TOLD:
            is_given = shown.is_worked or shown.stage is ItemStage.GIVEN
            shown.stage = ItemStage.TOLD if is_given else ItemStage.GIVEN
        elif self.has_next:
            self.at += 1

    def back(self) -> None:
        """One move back; at the start the item before, as it was left."""
        shown = self.shown
        if shown is None:
            return
        if shown.hand:
            shown.leave_try()
        elif shown.stage is ItemStage.TOLD:
            shown.stage = ItemStage.GIVEN
        elif shown.is_worked and shown.at > (shown.begin if self.at else 0):
            shown.go_to(shown.at - 1)
        elif shown.stage is ItemStage.GIVEN:
            shown.stage = ItemStage.READY
        elif self.at:
            self.at -= 1

    def clear(self) -> None:
        """No items are left."""
        self.items, self.at = [], 0

    def go_to_item(self, index: int) -> None:
        """Show another item, as it was left."""
        self.at = min(max(index, 0), max(0, len(self.items) - 1))

"""Evidence: what one exercise, done once, told of one item."""

from typing import NamedTuple


class Evidence(NamedTuple):
    """One item as one exercise asked for it.

    `item` is a name of `items.ITEMS`; `at` is in seconds since the epoch, UTC; `sitting` tells
    sittings apart. `right` means at the first try, unaided; `guided` that the tool led the hand.
    `decision` is how long it took, in seconds and without the hand's own time, from when the digit
    could be decided to the first right bead; None where nobody knows.
    """

    item: str
    at: float
    sitting: str
    right: bool
    guided: bool = False
    decision: float | None = None

"""What each child needs is the tutor's to see: it is covered where the class may look on."""

from collections.abc import Callable
from enum import Enum, auto

from frame.screens.parts.page import Page
from frame.screens.tutor.rows import Rows
from frame.view.widgets import Brushes, Button, Style


class Shown(Enum):
    """What a page tells that goes: something was shown TO_CLASS."""

    TO_CLASS = auto()


def uncovering(page: Page, act: Callable[[], object]) -> Button:
    """What shows again what is covered."""
    place = page.band(36, 12)
    place.w = min(place.w, round(60 * page.unit))
    return Button(place, act, page.room.words.text("class.show"), style=Style.MAIN)


def paint_cover(brushes: Brushes, page: Page) -> None:
    """Why nothing is seen."""
    rows = Rows(brushes, page.band(16, 20), 1)
    rows.write(page.room.words.text("class.covered"), most=4)

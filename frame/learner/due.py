"""What of a learner's own is due to come again, also as a sheet on paper."""

from datetime import datetime
from typing import TYPE_CHECKING

from frame.learner.folding import Fold, FoldRules
from frame.practice.items import ITEMS
from frame.sheets.code import code_of
from frame.sheets.making import SheetError
from frame.sheets.of_needs import sheet_of_needs

if TYPE_CHECKING:
    from frame.learner.learners import Learner
    from frame.learner.store import Store


def due_items(store: "Store", learner: "Learner", now: datetime) -> tuple[str, ...]:
    """The items that are due today, in the order of ITEMS. Raises StoreError."""
    settings, at = store.settings(learner), now.timestamp()
    fold = Fold.of(store, learner, FoldRules(settings.ladder_rules, settings.mastery_rules))
    return tuple(item for item in ITEMS if fold.mastery.is_due(item, at))


def due_code(store: "Store", learner: "Learner", now: datetime) -> str:
    """The code of a sheet of what is due today; empty where nothing is, or none can be made. Raises
    StoreError."""
    try:
        sheet = sheet_of_needs(due_items(store, learner, now), None)
    except SheetError:
        return ""
    return code_of(sheet.recipe) if sheet else ""

"""What of a learner's own is due to come again."""

from datetime import datetime
from typing import TYPE_CHECKING

from frame.learner.folding import Fold, FoldRules
from frame.practice.items import ITEMS

if TYPE_CHECKING:
    from frame.learner.learners import Learner
    from frame.learner.store import Store


def due_items(store: "Store", learner: "Learner", now: datetime) -> tuple[str, ...]:
    """The items that are due today, in the order of ITEMS. Raises StoreError."""
    settings, at = store.settings(learner), now.timestamp()
    fold = Fold.of(store, learner, FoldRules(settings.ladder_rules, settings.mastery_rules))
    return tuple(item for item in ITEMS if fold.mastery.is_due(item, at))

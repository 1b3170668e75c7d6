"""The scheduler of the `fsrs` package behind our interface, to be measured beside the boxes."""

from datetime import UTC, datetime, timedelta
from functools import cache

from frame.practice.schedule import DAY, Recall, Trace


@cache
def _scheduler():
    from fsrs import Scheduler

    return Scheduler(
        learning_steps=(), relearning_steps=(), maximum_interval=60, enable_fuzzing=False
    )


class FsrsMemory:
    """Strength is stability in days and difficulty. Days are whole ones, rounded: the package cuts
    them off, and whoever came an hour earlier than yesterday would seem to come the same day."""

    def counted(self, trace, recall: Recall, at: float) -> Trace:
        from fsrs import Rating

        now = datetime.fromtimestamp(at, UTC)
        card, _ = _scheduler().review_card(self._card(trace, now, at), Rating(recall), now)
        days = (card.due - now) / timedelta(days=1)
        return Trace(at, at + DAY * days, (card.stability, card.difficulty))

    def chance(self, trace: Trace, unused: float) -> float:
        return _retained(trace.strength[0], unused / DAY)

    def _card(self, trace, now, at):
        from fsrs import Card, State

        if trace is None:
            return Card(card_id=1, due=now)
        stability, difficulty = trace.strength
        last = now - timedelta(days=round((at - trace.at) / DAY))
        return Card(1, State.Review, None, stability, difficulty, now, last)

    def __eq__(self, other):
        return isinstance(other, FsrsMemory)


def _retained(stability, days):
    scheduler = _scheduler()
    return (1 + scheduler._FACTOR * days / stability) ** scheduler._DECAY

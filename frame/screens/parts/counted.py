"""What was kept just now is known of whoever is here, too."""

from collections.abc import Iterable
from datetime import datetime

from frame.course.attempts import Origin
from frame.learner.lately import done_of_attempt
from frame.learner.rows import Place, Record, told_of_attempt
from frame.room import Room
from frame.technique.conventions import Conventions


def count_records(
    room: Room, records: Iterable[Record], sitting: str, origin: Origin, conventions: Conventions,
    now: datetime,
) -> None:  # fmt: skip
    """Attempts of a sitting that were written now: where the learner stands moves with them."""
    told = []
    for one in records:
        done = done_of_attempt(one.attempt, now.timestamp(), conventions)
        if done is not None:
            room.known.note(done)
        place = Place(now.isoformat(), sitting, one.number)
        told.append(told_of_attempt(one.attempt, origin, place))
    # Last, for where all must be read anew it has what was noted.
    room.count(*told)

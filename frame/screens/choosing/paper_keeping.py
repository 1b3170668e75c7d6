"""Keeps a marked sheet with the learner who is here, who is known by it from then on."""

from frame.course.attempts import Origin
from frame.learner.lately import done_of_attempt
from frame.learner.learners import Learner
from frame.learner.on_paper import keep_on_paper, on_paper
from frame.learner.rows import Place, told_of_attempt
from frame.room import Room
from frame.sheets.marking import Marked


def keep_sheet(room: Room, learner: Learner, marked: Marked) -> bool:
    """Write each task as an attempt, and count it, unless it was on this day; whether it is new."""
    conventions, now = room.settings.conventions, room.now()
    kept = on_paper(learner, marked, conventions, now)
    if room.store.has_sitting(kept.sitting):
        return False
    room.keeper.write(lambda store: keep_on_paper(store, learner, kept, now))
    for one in kept.records:
        done = done_of_attempt(one.attempt, now.timestamp(), conventions)
        if done is not None:
            room.known.note(done)
        # Last, for where all must be read anew it has what was noted.
        place = Place(now.isoformat(), kept.sitting, one.number)
        room.count(told_of_attempt(one.attempt, Origin.PAPER, place))
    return True

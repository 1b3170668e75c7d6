"""What a tutor gave whoever is here to do, and that it is done."""

from frame.learner.assigned import Assigned, Work
from frame.room import Room


def given(room: Room) -> tuple[Assigned, ...]:
    """All that was given and not taken back, oldest first, done or not."""
    learner, none = room.learner, tuple[Assigned, ...]()
    if learner is None:
        return none
    return room.keeper.read(lambda store: store.assigned(learner), none)


def tick_off(room: Room, work: Work, text: str = "") -> None:
    """Whoever is here did this, whether or not it was given."""
    learner, now = room.learner, room.now()
    if learner is not None:
        room.keeper.write(lambda store: store.tick_off(learner, work, text, now))

"""What may be behind what whoever is here did lately."""

from frame.practice.behind import Behind, behind, givens_of
from frame.practice.suspects import Given
from frame.room import Room


def answers_of(room: Room) -> list[Given]:
    """The answers given lately of which no bead was seen, oldest first."""
    return givens_of(room.known.lately, room.now().timestamp())


def behind_of(room: Room) -> Behind:
    """What is behind what was done lately."""
    return behind(room.known.lately, room.now().timestamp(), room.settings.conventions)

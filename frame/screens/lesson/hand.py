"""Where the hand of somebody lies who works with eyes shut: there its touches are felt."""

from frame.room import Room
from frame.view.bead_field import BeadField
from frame.view.geometry import Point


def is_felt(field: BeadField) -> bool:
    """Whether touches are felt where the hand lies, wherever that is."""
    return field.anchor is not None and field.hands.blind


def find_hand(room: Room, field: BeadField, at: Point) -> bool:
    """With eyes shut, the first touch of a sitting on the empty field shows where the hand is: that
    is the beam on the unit rod, and no bead moves. Whether this was it."""
    is_sought = room.settings.eyes_shut and field.hands.blind
    if not is_sought or room.hand_at is not None:
        return False
    room.hand_at = at
    field.recentre(at)
    return True


def lose_hand(room: Room, field: BeadField) -> None:
    """It is to be found again."""
    room.hand_at = None
    field.recentre(None)

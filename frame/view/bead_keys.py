"""Working beads with the keyboard: choose a rod, move beads up and down."""

import pygame

from frame.technique.beads import BeadMove, Stroke
from frame.view.bead_field import BeadField
from frame.view.inputs import Key

_COUNTS = {pygame.K_1: 1, pygame.K_2: 2, pygame.K_3: 3, pygame.K_4: 4}


def is_bead_key(key: Key) -> bool:
    """Whether the key chooses a rod or moves a bead."""
    arrows = (pygame.K_LEFT, pygame.K_RIGHT, pygame.K_UP, pygame.K_DOWN)
    return key.code in (*arrows, pygame.K_5, *_COUNTS) and not key.control


def stroke_of_key(field: BeadField, key: Key) -> Stroke | None:
    """Left and right choose a rod; up and down move one earth bead; 1 to 4 push that many up,
    with shift down; 5 moves the heaven bead. The stroke asked for, or None for none."""
    if field.focus is None:
        field.focus_on(max(0, field.frame.lowest))
        if key.code in (pygame.K_LEFT, pygame.K_RIGHT):
            return None
    rod = field.focus if field.focus is not None else 0
    if key.code in (pygame.K_LEFT, pygame.K_RIGHT):
        beside = rod + (1 if key.code == pygame.K_LEFT else -1)
        field.focus_on(min(max(beside, field.frame.lowest), field.frame.highest))
        return None
    move = BeadMove(rod, _change(field, rod, key))
    return (move,) if field.frame.can(move) or field.hands.blind else None


def _change(field: BeadField, rod: int, key: Key) -> int:
    if key.code == pygame.K_5:
        return -5 if field.frame.rod(rod).heaven else 5
    if key.code in _COUNTS:
        return -_COUNTS[key.code] if key.shift else _COUNTS[key.code]
    return 1 if key.code == pygame.K_UP else -1

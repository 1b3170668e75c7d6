"""A sentence on a screen: larger for the young."""

import pygame

from frame.learner.settings import Age
from frame.room import Room
from frame.view.theme import Colour
from frame.view.widgets import Brushes

_YOUNG_TEXT = 1.25


def is_heard(room: Room) -> bool:
    """Whether sentences are spoken here."""
    return room.can_speak and room.settings.voice


def paint_sentence(
    room: Room, brushes: Brushes, text: str, place: pygame.Rect, colour: Colour
) -> None:
    """Write a sentence in a place."""
    scale = _YOUNG_TEXT if room.settings.age is Age.YOUNG else 1.0
    brushes.lettering.draw(brushes.surface, text, place, 1, colour, scale=scale)

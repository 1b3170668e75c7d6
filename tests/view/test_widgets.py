"""What is painted of a control within a clip is what the whole of it has there."""

import pygame
import pytest
from pilot import the_lettering, the_pictures

from frame.view.theme import THEMES
from frame.view.widgets import Brushes, Button, Style, paint_button

SIZE = (640, 1700)
PLACE = pygame.Rect(60, 60, 500, 120)
WHOLE = pygame.Rect((0, 0), SIZE)


def painted(clip, **look):
    """The colours within a clip of a button that is painted within it."""
    pygame.font.init()
    surface = pygame.Surface(SIZE)
    surface.set_clip(clip)
    brushes = Brushes(surface, next(iter(THEMES.values())), the_lettering(), the_pictures())
    button = Button(PLACE, lambda: None, "Go on", sign="next", style=look["style"],
                    pointed=look["pointed"])  # fmt: skip
    paint_button(brushes, button, pressed=False)
    if look["focused"]:
        brushes.ring(button.place)
    return surface


CUTS = range(30, 80, 3)
AT_AN_EDGE = (30, 57, 60, 63, 66, 78)
"""Beside the button, at its border, and within it."""


@pytest.mark.parametrize("cuts", [AT_AN_EDGE, pytest.param(CUTS, marks=pytest.mark.proof)])
@pytest.mark.parametrize("style", [Style.MAIN, Style.PLAIN, Style.CHOICE])
@pytest.mark.parametrize(("pointed", "focused"), [(False, False), (True, False), (False, True)])
def test_a_part_of_a_button_is_as_the_whole_wherever_it_is_cut(style, pointed, focused, cuts):
    look = {"style": style, "pointed": pointed, "focused": focused}
    whole = painted(WHOLE, **look)
    for cut in cuts:
        for clip in (
            pygame.Rect(cut, 0, 700, 1700), pygame.Rect(0, cut, 700, 1700),
            pygame.Rect(0, 0, 620 - cut, 1700), pygame.Rect(0, 0, 700, 240 - cut),
        ):  # fmt: skip
            clip = clip.clip(WHOLE)
            part = painted(clip, **look).subsurface(clip)
            seen = (pygame.image.tobytes(one, "RGB") for one in (part, whole.subsurface(clip)))
            assert len(set(seen)) == 1, clip

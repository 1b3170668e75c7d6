"""Portraits, whatever name a file has for one."""

import pygame
import pytest
from pilot import the_pictures


@pytest.mark.parametrize("name", ["walrus", "", "../fonts/OFL", "x" * 5000, "a\0b", "icon-eye.svg"])
def test_a_portrait_that_is_not_there_is_that_of_a_newcomer(name):
    found, usual = (the_pictures().get(one, 64) for one in (name, "newcomer"))
    assert pygame.image.tobytes(found, "RGBA") == pygame.image.tobytes(usual, "RGBA")


def test_a_sign_that_is_not_there_is_an_error():
    with pytest.raises(FileNotFoundError):
        the_pictures().get("icon-walrus", 64, (0, 0, 0))

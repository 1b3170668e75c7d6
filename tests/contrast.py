"""Contrast by the formula of WCAG 2.2, and which colours of a theme stand on which."""

from operator import attrgetter
from typing import NamedTuple

from frame.view.theme import Colour, Theme, luminance

TEXT = 7.0
SHAPE = 3.0


def contrast(one: Colour, other: Colour) -> float:
    """The WCAG 2.2 contrast ratio of two colours, 1 to 21, in either order."""
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + 0.05) / (darker + 0.05)


PROJECTOR = 7.0
"""How many times brighter than its black a projector's white is in a room that is not dark."""


def projected_contrast(one: Colour, other: Colour, projector: float = PROJECTOR) -> float:
    """The ratio of two colours on a wall: what lights up a projector's black lies over both."""
    veil = 1 / (projector - 1)
    darker, lighter = sorted((luminance(one), luminance(other)))
    return (lighter + veil) / (darker + veil)


class Pair(NamedTuple):
    """A foreground role that stands on a background role, and the contrast it must hold."""

    foreground: str
    background: str
    minimum: float


PAIRS = (
    Pair("ink", "ground", TEXT),
    Pair("ink", "card", TEXT),
    Pair("ink", "hint_wash", TEXT),
    Pair("soft_ink", "ground", TEXT),
    Pair("soft_ink", "card", TEXT),
    Pair("soft_ink", "hint_wash", TEXT),
    Pair("work", "ground", TEXT),
    Pair("button_ink", "button", TEXT),
    Pair("button", "ground", SHAPE),
    Pair("frame", "ground", SHAPE),
    Pair("frame", "card", SHAPE),
    Pair("frame", "field", SHAPE),
    Pair("beam", "field", SHAPE),
    Pair("rod", "field", SHAPE),
    Pair("mark", "beam", SHAPE),
    Pair("bead_used.face", "field", SHAPE),
    Pair("bead_used.upper", "field", SHAPE),
    Pair("bead_used.lower", "field", SHAPE),
    Pair("bead_rest.edge", "field", SHAPE),
    Pair("bead_rest.edge", "ground", SHAPE),
    Pair("bead_used.face", "bead_rest.face", SHAPE),
    Pair("hint_ink", "hint", SHAPE),
    Pair("right", "ground", SHAPE),
    Pair("right", "card", SHAPE),
    Pair("right", "field", SHAPE),
    Pair("mending", "ground", SHAPE),
    Pair("mending", "card", SHAPE),
    Pair("mending", "field", SHAPE),
    Pair("focus", "ground", SHAPE),
    Pair("focus", "card", SHAPE),
    Pair("focus", "field", SHAPE),
    Pair("mark_covered", "field_covered", SHAPE),
    Pair("focus", "field_covered", SHAPE),
    Pair("mending", "field_covered", SHAPE),
    Pair("flags.halves.figure", "flags.halves.ground", SHAPE),
    Pair("flags.stripes.figure", "flags.stripes.ground", SHAPE),
    Pair("flags.cross.figure", "flags.cross.ground", SHAPE),
    Pair("flags.checks.figure", "flags.checks.ground", SHAPE),
    Pair("flash_one", "flash_ground", SHAPE),
    Pair("flash_other", "flash_ground", SHAPE),
)
"""All pairs in use. Not among them, on purpose: `hairline`, `beam_covered` and `trace`. Flashed
numbers hold what a shape must: their size follows from what may flash, and they are large."""


def role(theme: Theme, name: str) -> Colour:
    """The colour of a role, or of a part as in `bead_used.upper`. Raises AttributeError."""
    colour: Colour = attrgetter(name)(theme)
    return colour

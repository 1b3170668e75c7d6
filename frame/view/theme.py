"""Colours and type sizes by their roles; no other module knows a colour.

Contrast follows the WCAG 2.2 formula: text in use holds 7:1, shapes that carry meaning 3:1.
"""

from typing import NamedTuple

Colour = tuple[int, int, int]
"""Red, green and blue, 0 to 255."""

TYPE_PERCENT = (2.2, 3.0, 4.5, 7.5, 12.0)
"""The five type sizes, in percent of the window's height."""

UNITS_IN_HEIGHT = 90
CORNER_UNITS = 1.5


def unit(window_height: float) -> float:
    """One unit of space in pixels: a ninetieth of the window's height."""
    return window_height / UNITS_IN_HEIGHT


def type_size(step: int, window_height: float, scale: float = 1.0) -> int:
    """The type size of a step (0 the smallest to 4) in whole pixels, times a reader's scale."""
    return max(1, round(TYPE_PERCENT[step] * window_height / 100 * scale))


def luminance(colour: Colour) -> float:
    """The WCAG 2.2 relative luminance of a colour, 0 to 1."""
    red, green, blue = (_linear(channel / 255) for channel in colour)
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue


def _linear(channel: float) -> float:
    bent: float = ((channel + 0.055) / 1.055) ** 2.4
    return channel / 12.92 if channel <= 0.04045 else bent


class BeadColours(NamedTuple):
    """A bead's three facets and its edge; the edge is what shows it against the field."""

    face: Colour
    upper: Colour
    lower: Colour
    edge: Colour


class FlagColours(NamedTuple):
    """The ground of a flag and what is on it. An animal drawn in ink stands before them."""

    ground: Colour
    figure: Colour


class Flags(NamedTuple):
    """The flags behind animals, which have one name with the learners' looks."""

    plain: FlagColours
    halves: FlagColours
    stripes: FlagColours
    cross: FlagColours
    checks: FlagColours


class Drawn(NamedTuple):
    """What a drawing of the harbour is made of: its lines and its fills. One that only tells what
    is to come has lines in `quiet` and is `hollow`."""

    ink: Colour
    wood: Colour
    rust: Colour
    sea: Colour
    shallow: Colour
    deep: Colour
    straw: Colour
    pale: Colour
    stone: Colour
    mist: Colour
    light: Colour
    quiet: Colour
    hollow: Colour


class Theme(NamedTuple):
    """Every colour by its role.

    `field` lies behind the beads, `field_covered`, `beam_covered` and `mark_covered` make up
    a frame whose beads are not shown, and `trace` is a bead that shows there only while it
    moves. `work` ties a line of written work to its rods. `hint_ink` outlines a hint and draws
    its arrow; `hint_wash` lies behind a hinted line of text. `button` and `button_ink` make the
    one filled button. Flashed numbers take turns in `flash_one` and `flash_other`, two hues of
    equal luminance, neither of them red.
    """

    ground: Colour
    ink: Colour
    soft_ink: Colour
    hairline: Colour
    card: Colour
    button: Colour
    button_ink: Colour
    frame: Colour
    field: Colour
    beam: Colour
    rod: Colour
    mark: Colour
    bead_used: BeadColours
    bead_rest: BeadColours
    work: Colour
    hint: Colour
    hint_ink: Colour
    hint_wash: Colour
    right: Colour
    mending: Colour
    focus: Colour
    field_covered: Colour
    beam_covered: Colour
    mark_covered: Colour
    trace: Colour
    flags: Flags
    drawn: Drawn
    flash_ground: Colour
    flash_one: Colour = (0x56, 0xB4, 0xE9)
    flash_other: Colour = (0xE6, 0x9F, 0x00)

    def bead(self, *, used: bool, tint: bool = True) -> BeadColours:
        """The colours of a bead; without the tint all beads look as at rest."""
        return self.bead_used if used and tint else self.bead_rest


def _colour(code: str) -> Colour:
    red, green, blue = bytes.fromhex(code)
    return red, green, blue


def _beads(face: str, upper: str, lower: str, edge: str) -> BeadColours:
    return BeadColours(_colour(face), _colour(upper), _colour(lower), _colour(edge))


def _flag(ground: str, figure: str) -> FlagColours:
    return FlagColours(_colour(ground), _colour(figure))


def _drawn(**codes: str) -> Drawn:
    return Drawn(**{role: _colour(code) for role, code in codes.items()})


_FLAGS = Flags(
    plain=_flag("E9DCC3", "E9DCC3"),
    halves=_flag("F5E3A0", "3A8499"),
    stripes=_flag("FAF6EE", "D2603A"),
    cross=_flag("8C7CC0", "FAF6EE"),
    checks=_flag("FAF6EE", "4E9A6B"),
)
"""Alike in the light and in the dark, as an animal's own colours are."""

LIGHT = Theme(
    ground=_colour("FAF6EE"),
    ink=_colour("1C2230"),
    soft_ink=_colour("4E525C"),
    hairline=_colour("DDD5C6"),
    card=_colour("FFFFFF"),
    button=_colour("1C2230"),
    button_ink=_colour("FAF6EE"),
    frame=_colour("2E3442"),
    field=_colour("FFFDF7"),
    beam=_colour("2E3442"),
    rod=_colour("8F8268"),
    mark=_colour("FAF6EE"),
    bead_used=_beads("2F6D80", "5898A8", "1F4E5E", "1F4E5E"),
    bead_rest=_beads("C9D0CC", "E0E5E2", "A0AAA7", "7C8783"),
    work=_colour("5A3A7E"),
    hint=_colour("E69F00"),
    hint_ink=_colour("1C2230"),
    hint_wash=_colour("FFF2D6"),
    right=_colour("008060"),
    mending=_colour("C04000"),
    focus=_colour("1C2230"),
    field_covered=_colour("F0EADF"),
    beam_covered=_colour("DDD5C6"),
    mark_covered=_colour("4E525C"),
    trace=_colour("CDDBDB"),
    flags=_FLAGS,
    drawn=_drawn(
        ink="1C2230",
        wood="8F6B4A",
        rust="C04000",
        sea="2F6D80",
        shallow="5898A8",
        deep="1F4E5E",
        straw="E9DCC3",
        pale="FAF6EE",
        stone="A0AAA7",
        mist="C9D0CC",
        light="E69F00",
        quiet="918874",
        hollow="FAF6EE",
    ),
    flash_ground=_colour("1C2230"),
)

DARK = Theme(
    ground=_colour("161A22"),
    ink=_colour("F2EDE2"),
    soft_ink=_colour("B9B7B0"),
    hairline=_colour("3A404C"),
    card=_colour("202632"),
    button=_colour("F2EDE2"),
    button_ink=_colour("161A22"),
    frame=_colour("77808F"),
    field=_colour("10131A"),
    beam=_colour("77808F"),
    rod=_colour("8F8268"),
    mark=_colour("10131A"),
    bead_used=_beads("7CC4D6", "B4E2EC", "4FA0B4", "B4E2EC"),
    bead_rest=_beads("4A545E", "5C6772", "39424B", "8A949E"),
    work=_colour("CDB8F2"),
    hint=_colour("F0B030"),
    hint_ink=_colour("10131A"),
    hint_wash=_colour("2E2714"),
    right=_colour("2FB98D"),
    mending=_colour("F07840"),
    focus=_colour("F2EDE2"),
    field_covered=_colour("202632"),
    beam_covered=_colour("3A404C"),
    mark_covered=_colour("B9B7B0"),
    trace=_colour("33505A"),
    flags=_FLAGS,
    drawn=_drawn(
        ink="F2EDE2",
        wood="7A5A3D",
        rust="B8441A",
        sea="2F6D80",
        shallow="47808F",
        deep="1F4E5E",
        straw="85775A",
        pale="76818E",
        stone="56605F",
        mist="69757E",
        light="E69F00",
        quiet="757C88",
        hollow="161A22",
    ),
    flash_ground=_colour("10131A"),
)

HIGH_CONTRAST = Theme(
    ground=_colour("FFFFFF"),
    ink=_colour("000000"),
    soft_ink=_colour("262626"),
    hairline=_colour("767676"),
    card=_colour("FFFFFF"),
    button=_colour("000000"),
    button_ink=_colour("FFFFFF"),
    frame=_colour("000000"),
    field=_colour("FFFFFF"),
    beam=_colour("000000"),
    rod=_colour("595959"),
    mark=_colour("FFFFFF"),
    bead_used=_beads("0B4A63", "16627F", "04293A", "000000"),
    bead_rest=_beads("F2F2F2", "FFFFFF", "D0D0D0", "262626"),
    work=_colour("3F1D6B"),
    hint=_colour("FFB000"),
    hint_ink=_colour("000000"),
    hint_wash=_colour("FFF0C0"),
    right=_colour("00674D"),
    mending=_colour("A03000"),
    focus=_colour("000000"),
    field_covered=_colour("E6E6E6"),
    beam_covered=_colour("767676"),
    mark_covered=_colour("000000"),
    trace=_colour("557D8C"),
    flags=Flags(
        plain=_flag("FFFFFF", "FFFFFF"),
        halves=_flag("FFFFFF", "4A86A0"),
        stripes=_flag("FFFFFF", "C8603C"),
        cross=_flag("8474BC", "FFFFFF"),
        checks=_flag("FFFFFF", "45905F"),
    ),
    drawn=_drawn(
        ink="000000",
        wood="B0B0B0",
        rust="B0B0B0",
        sea="B0B0B0",
        shallow="B0B0B0",
        deep="B0B0B0",
        straw="FFFFFF",
        pale="FFFFFF",
        stone="B0B0B0",
        mist="FFFFFF",
        light="FFFFFF",
        quiet="767676",
        hollow="FFFFFF",
    ),
    flash_ground=_colour("000000"),
)

THEMES = {"light": LIGHT, "dark": DARK, "high-contrast": HIGH_CONTRAST}
"""The themes by the names that settings use."""

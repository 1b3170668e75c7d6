"""The few controls: button, ticket, card, progress string, tick."""

from collections.abc import Callable
from dataclasses import dataclass, replace
from enum import Enum, auto
from functools import partial
from typing import TYPE_CHECKING

import pygame

from frame.view.lettering import Lettering
from frame.view.pictures import Pictures
from frame.view.theme import CORNER_UNITS, TYPE_PERCENT, Colour, Theme, type_size, unit

if TYPE_CHECKING:
    from frame.view.painter import Painter


Drawing = Callable[["Brushes", pygame.Rect], None]
"""What draws a picture in a square."""

_NAME_BESIDE, _NAME_BELOW = 0.36, 0.6
"""The type of a ticket's name in shares of the height there is for it."""


class Style(Enum):
    """How a button looks: the one main thing to do, any other, a sign alone, a choice, the name of
    a page, or a learner's ticket."""

    MAIN = auto()
    PLAIN = auto()
    SIGN = auto()
    CHOICE = auto()
    TAB = auto()
    TICKET = auto()


@dataclass
class Button:
    """Something to touch. `act` is called when it is; with None it rests: it keeps its place, and
    cannot be used now. `sign` and `picture` name pictures, which a
    `drawing` draws in their place; `name` is what is said of it where that is not its text; one
    that is `pointed` at has a ring, a ticket that is `in_use` a thick edge. A text alone has the
    type of its `step`, measured by the height in pixels of the window, or of another `window`."""

    place: pygame.Rect
    act: Callable[[], object] | None
    text: str = ""
    sign: str = ""
    picture: str = ""
    name: str = ""
    style: Style = Style.PLAIN
    step: int = 1
    chosen: bool = False
    bold: bool = True
    pointed: bool = False
    in_use: bool = False
    drawing: Drawing | None = None
    window: int | None = None

    @property
    def rests(self) -> bool:
        """Whether it cannot be used now."""
        return self.act is None

    def is_like(self, other: "Button") -> bool:
        """Whether it stands for the same thing, wherever it stands and whatever is said of it."""
        alike = (self.sign, self.picture) == (other.sign, other.picture)
        return alike and self.text == other.text

    def does_as(self, other: "Button") -> bool:
        """Whether it does the same, as what holds a call does and what lets it go on."""
        return not self.rests and _deed(self.act) == _deed(other.act)


def _deed(act: Callable[[], object] | None) -> object:
    """What can be compared of an act: two partial ones are never equal."""
    return (act.func, act.args) if isinstance(act, partial) else act


@dataclass(frozen=True, slots=True)
class Brushes:
    """What widgets are painted with, on one surface. Space and type are measured by its height, or
    by `measure` in its place, in pixels."""

    surface: pygame.Surface
    theme: Theme
    lettering: Lettering
    pictures: Pictures
    measure: int | None = None

    @property
    def height(self) -> int:
        """The height in pixels that space and type are measured by."""
        return self.measure or self.surface.get_height()

    @property
    def unit(self) -> float:
        """One unit of space in pixels."""
        return unit(self.height)

    def needs(self, place: pygame.Rect) -> bool:
        """Whether anything of a place is to be painted."""
        return bool(self.surface.get_clip().colliderect(place))

    def text(
        self, text: str, place: pygame.Rect, step: int, *, soft: bool = False, bold: bool = False,
        align: str = "left", colour: Colour | None = None,
    ) -> pygame.Rect:  # fmt: skip
        """Write text in a place, wrapped and if need be smaller."""
        usual = self.theme.soft_ink if soft else self.theme.ink
        return self.lettering.draw(
            self.surface, text, place, step, colour or usual, bold=bold, align=align,
            window=self.height,
        )  # fmt: skip

    def from_top(
        self, text: str, place: pygame.Rect, step: int, *, soft: bool = False
    ) -> pygame.Rect:
        """The same, from the top of the place, not in its middle."""
        pixels, lines = self.lettering.fitted(text, type_size(step, self.height), place.size)
        high = min(place.h, self.lettering.height(pixels) * len(lines))
        return self.text(text, pygame.Rect(place.topleft, (place.w, high)), step, soft=soft)

    def line(
        self, text: str, place: pygame.Rect, step: int, *, least: int = 1, bold: bool = False,
        align: str = "left",
    ) -> pygame.Rect:  # fmt: skip
        """Write a text in one line, at a smaller step where it is long, and where it is too long
        for the step `least`, as much of it as fits."""
        for one in range(step, least - 1, -1):
            pixels = type_size(one, self.height)
            if self.lettering.width(text, pixels, bold) <= place.w:
                return self.text(text, place, one, bold=bold, align=align)
        short = self.lettering.shortened(text, pixels, place.w, bold)
        return self.text(short, place, least, bold=bold, align=align)

    def name(
        self, text: str, place: pygame.Rect, pixels: int, *, align: str = "left", soft: bool = False
    ) -> pygame.Rect:
        """Write a name, at a type size in pixels: smaller, and then cut, where it is too long."""
        ink = self.theme.soft_ink if soft else self.theme.ink
        window = round(100 * pixels / TYPE_PERCENT[0])
        return self.lettering.draw(
            self.surface, text, place, 0, ink, align=align, window=window, cut=True
        )

    def box(
        self, place: pygame.Rect, colour: Colour, edge: Colour | None = None, radius: int = 0
    ) -> None:
        """A box with round corners, of the usual radius unless another is given, filled, with an
        edge if one is asked for."""
        radius = radius or round(self.unit * CORNER_UNITS)
        pygame.draw.rect(self.surface, edge or colour, place, border_radius=radius)
        if edge is not None:
            thick = max(2, round(self.unit / 4))
            inner = place.inflate(-2 * thick, -2 * thick)
            pygame.draw.rect(self.surface, colour, inner, border_radius=max(1, radius - thick))

    def dashes(self, place: pygame.Rect, colour: Colour) -> None:
        """A dashed edge along a box, for what needs mending."""
        thick, dash = max(2, round(self.unit / 2)), max(4, round(2 * self.unit))
        for left in range(place.left + dash // 2, place.right - dash, 2 * dash):
            for top in (place.top, place.bottom - thick):
                self.surface.fill(colour, (left, top, dash, thick))
        for top in range(place.top + dash // 2, place.bottom - dash, 2 * dash):
            for left in (place.left, place.right - thick):
                self.surface.fill(colour, (left, top, thick, dash))

    def ring(self, place: pygame.Rect) -> None:
        """The focus ring around a place, in a band of ground that keeps it apart from whatever lies
        there."""
        gap, thick = _ring_sizes(self.height)
        radius = round(self.unit * CORNER_UNITS) + gap + thick
        around = place.inflate(2 * (gap + thick), 2 * (gap + thick))
        band = around.inflate(2 * gap, 2 * gap)
        self._ring(band, self.theme.ground, 2 * gap + thick, radius + gap)
        self._ring(around, self.theme.focus, thick, radius)

    def pointer(self, place: pygame.Rect) -> None:
        """The ring around what is to be looked at, as around a rod: of a hint, with ink edges."""
        thick = max(2, round(self.unit / 3))
        around, edge = place.inflate(4 * thick, 4 * thick), max(1, thick // 3)
        radius = round(self.unit * CORNER_UNITS) + 2 * thick
        ink, hint = self.theme.hint_ink, self.theme.hint
        self._ring(around, ink, 2 * thick, radius)
        inner, width = around.inflate(-2 * edge, -2 * edge), 2 * thick - 2 * edge
        self._ring(inner, hint, width, radius - edge)

    def _ring(self, around: pygame.Rect, colour: Colour, thick: int, radius: int) -> None:
        # On a surface of its own, as pygame leaves out a side that a clip cuts lengthwise.
        ring = pygame.Surface(around.size, pygame.SRCALPHA)
        pygame.draw.rect(ring, colour, ring.get_rect(), thick, border_radius=radius)
        self.surface.blit(ring, around)


def _ring_sizes(window_height: int) -> tuple[int, int]:
    """The gap within a focus ring, and how thick it is, in pixels."""
    one = unit(window_height)
    return max(1, round(one / 4)), max(3, round(one / 2))


def focus_reach(place: pygame.Rect, window_height: int) -> pygame.Rect:
    """The place a button takes together with its focus ring."""
    gap, thick = _ring_sizes(window_height)
    reach = 2 * (2 * gap + thick) + 2
    return place.inflate(reach, reach)


def paint_button(brushes: Brushes, button: Button, *, pressed: bool) -> None:
    """Paint a button; a pressed one sinks by a hair."""
    if not brushes.needs(focus_reach(button.place, brushes.height)):
        return
    theme = brushes.theme
    sunk = max(1, round(brushes.unit / 4)) if pressed else 0
    place = button.place.move(0, sunk)
    filled = button.style is Style.MAIN or (button.style is Style.CHOICE and button.chosen)
    ink = theme.button_ink if filled else theme.soft_ink if button.rests else theme.ink
    if filled:
        brushes.box(place, theme.button)
    elif button.style is Style.PLAIN:
        brushes.box(place, theme.ground, theme.hairline if button.rests else theme.ink)
    elif button.style is Style.CHOICE:
        brushes.box(place, theme.ground, theme.soft_ink)
    elif button.style is Style.TAB:
        _paint_tab(brushes, button, place)
    if button.style is Style.TICKET:
        picture = button.drawing or button.picture
        paint_ticket(brushes, place, picture, button.text, punched=button.chosen)
        if button.in_use:
            _paint_edge(brushes, place)
    else:
        _paint_label(brushes, button, place, ink)
    if button.pointed:
        brushes.pointer(button.place)


def _paint_tab(brushes: Brushes, button: Button, place: pygame.Rect) -> None:
    """A line under the name of a page: thick under the one that is open."""
    thick = max(2, round(brushes.unit * (0.8 if button.chosen else 0.2)))
    line = pygame.Rect(place.left, place.bottom - thick, place.w, thick)
    brushes.surface.fill(brushes.theme.ink if button.chosen else brushes.theme.soft_ink, line)


def ticket_parts(place: pygame.Rect, has_text: bool) -> tuple[pygame.Rect, pygame.Rect]:
    """Where the picture of a ticket is and where its name: beside it on a wide one, else below."""
    pad = max(3, round(min(place.size) * 0.05))
    inside = place.inflate(-2 * pad, -2 * pad)
    side = min(inside.size)
    if not has_text:
        return pygame.Rect(0, 0, side, side).move(inside.topleft), pygame.Rect(
            inside.topleft, (0, 0)
        )
    picture = pygame.Rect(inside.topleft, (side, side))
    if place.w > place.h:
        left = picture.right + 2 * pad
        return picture, pygame.Rect(left, inside.top, inside.right - left - pad // 2, inside.h)
    top = picture.bottom + pad
    return picture, pygame.Rect(inside.left, top, inside.w, inside.bottom - top)


def ticket_type(place: pygame.Rect, name: pygame.Rect, window_height: int) -> int:
    """The type size of the name on a ticket, in pixels: two lines of it beside the picture."""
    share = _NAME_BESIDE if place.w > place.h else _NAME_BELOW
    return max(1, min(type_size(2, window_height), round(share * name.h)))


def paint_ticket(
    brushes: Brushes,
    place: pygame.Rect,
    picture: str | Drawing,
    text: str = "",
    *,
    punched: bool = False,
) -> None:
    """A ticket: a learner's picture, or a drawn one, and the name on the part to tear off. One that
    is taken is punched."""
    theme, surface = brushes.theme, brushes.surface
    shown, name = ticket_parts(place, bool(text))
    brushes.box(place, theme.card, theme.soft_ink, radius=2 * (shown.left - place.left))
    if isinstance(picture, str):
        surface.blit(brushes.pictures.portrait(picture, shown.w, theme.flags), shown)
    else:
        picture(brushes, shown)
    if not text:
        return
    _paint_tear(brushes, place, shown)
    if punched:
        name = _paint_punch(brushes, place, name)
    pixels = ticket_type(place, name, brushes.height)
    align = "left" if place.w > place.h else "centre"
    brushes.name(text, name, pixels, align=align, soft=punched)


def _paint_edge(brushes: Brushes, place: pygame.Rect) -> None:
    """The thick edge of a ticket that is in use."""
    picture, _ = ticket_parts(place, True)
    thick, radius = max(3, round(0.6 * brushes.unit)), 2 * (picture.left - place.left)
    around = place.inflate(thick, thick)
    pygame.draw.rect(brushes.surface, brushes.theme.ink, around, thick, border_radius=radius)


def _paint_tear(brushes: Brushes, place: pygame.Rect, picture: pygame.Rect) -> None:
    """Where a ticket is torn: a dotted line with a notch at each end."""
    theme, surface, clip = brushes.theme, brushes.surface, brushes.surface.get_clip()
    pad, is_wide = picture.left - place.left, place.w > place.h
    radius, thick = max(2, pad), max(1, pad // 3)
    start = picture.right + pad if is_wide else picture.bottom + pad // 2
    length = place.h if is_wide else place.w
    surface.set_clip(clip.clip(place))
    for along in range(2 * radius, length - radius, 3 * thick + 1):
        at = (start, place.top + along) if is_wide else (place.left + along, start)
        surface.fill(theme.hairline, (at, (thick, thick)))
    for along in (0, length - 1):
        at = (start, place.top + along) if is_wide else (place.left + along, start)
        pygame.draw.circle(surface, theme.soft_ink, at, radius)
        pygame.draw.circle(surface, theme.ground, at, radius - max(2, round(brushes.unit / 4)))
    surface.set_clip(clip)


def _paint_punch(brushes: Brushes, place: pygame.Rect, name: pygame.Rect) -> pygame.Rect:
    """The hole in a ticket that is taken; what it leaves for the name."""
    radius = max(3, round(min(place.size) * 0.09))
    at = name.right - radius, name.centery
    pygame.draw.circle(brushes.surface, brushes.theme.soft_ink, at, radius)
    thick = max(2, round(brushes.unit / 4))
    pygame.draw.circle(brushes.surface, brushes.theme.ground, at, max(1, radius - thick))
    return pygame.Rect(name.left, name.top, name.w - 3 * radius, name.h)


def _padding(place: pygame.Rect, unit: float) -> int:
    return round(min(unit * 1.2, place.w / 5))


def label_room(place: pygame.Rect, unit: float) -> pygame.Rect:
    """Where the text of a button at a place stands; `unit` is one of space in pixels."""
    padding = _padding(place, unit)
    return place.inflate(-2 * padding, -padding)


def _paint_label(brushes: Brushes, button: Button, place: pygame.Rect, ink: Colour) -> None:
    padding, room = _padding(place, brushes.unit), label_room(place, brushes.unit)
    if button.drawing is not None:
        square = pygame.Rect(place.topleft, (place.h, place.h)).inflate(-2 * padding, -2 * padding)
        button.drawing(brushes, square)
        left = square.right + 2 * padding
        beside = pygame.Rect(left, room.top, room.right - left, room.h)
        brushes.text(button.text, beside, button.step, bold=button.bold, colour=ink)
        return
    if not button.sign:
        brushes = replace(brushes, measure=button.window or brushes.measure)
        brushes.text(button.text, room, button.step, align="centre", bold=button.bold, colour=ink)
        return
    size = round(min(room.h, room.w, brushes.unit * 6))
    picture = brushes.pictures.get(f"icon-{button.sign}", size, ink)
    if not button.text:
        brushes.surface.blit(picture, picture.get_rect(center=place.center))
        return
    step = type_size(button.step, brushes.height)
    wide = size + padding + brushes.lettering.width(button.text, step, button.bold)
    at = picture.get_rect(midleft=(max(room.left, room.centerx - wide // 2), room.centery))
    brushes.surface.blit(picture, at)
    beside = pygame.Rect(at.right + padding, room.top, room.right - at.right - padding, room.h)
    brushes.text(button.text, beside, button.step, bold=button.bold, colour=ink)


_MOST_BEADS = 40


def paint_string(
    brushes: Brushes, painter: "Painter", place: pygame.Rect, done: int, total: int
) -> None:
    """Progress as beads on a rod: those done are in use. Of many things a bead is several."""
    if not total or not brushes.needs(place):
        return
    done, total = done * min(total, _MOST_BEADS) // total, min(total, _MOST_BEADS)
    spacing = min(place.w / total, place.h * 2.1)
    width = max(4, round(min(spacing * 0.72, place.h * 1.4)))
    height = max(3, round(width * 0.72))
    rod = pygame.Rect(place.left, 0, round(spacing * total), max(2, height // 8))
    rod.centery = place.centery
    brushes.surface.fill(brushes.theme.rod, rod)
    for index in range(total):
        picture = painter.bead(width, height, used=index < done)
        middle = (place.left + spacing * (index + 0.5), place.centery)
        brushes.surface.blit(picture, picture.get_rect(center=middle))


def paint_tick(brushes: Brushes, place: pygame.Rect) -> None:
    """A tick in the colour of right, for a shape and not for text."""
    if brushes.needs(place):
        size = min(place.size)
        picture = brushes.pictures.get("icon-tick", size, brushes.theme.right)
        brushes.surface.blit(picture, picture.get_rect(center=place.center))

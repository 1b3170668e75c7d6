"""What is seen on a screen, and what is wrong with how it is laid out."""

from dataclasses import dataclass
from functools import lru_cache
from itertools import combinations
from typing import NamedTuple

import pygame

from frame.view.lettering import Lettering

LEAST_TOUCHED_PIXELS = 44
"""The side of a target: WCAG 2.2, success criterion 2.5.5."""
LEAST_TOUCHED_SHARE = 0.07
ALL_MATTER_FROM = (1280, 720)
ROUNDING = 1
"""Pixels by which whole numbers of pixels may be off."""


MOST_TEXTS = 50_000
"""The same texts come in many tests, at many sizes."""

SIZES = [(800, 480), (1024, 768), (1280, 720), (1920, 1080), (3840, 2160)]
SHAPES = SIZES[:3]
"""The larger ones are 16 to 9 like the last of these: another size, not another layout."""
UPRIGHT = (800, 1280)


class Written(NamedTuple):
    """A text, the box it was to fit, the lines with the places they took, and its colour."""

    text: str
    box: pygame.Rect
    lines: list[tuple[str, pygame.Rect]]
    how: tuple[object, ...]
    colour: tuple[int, ...]


class WatchedLettering(Lettering):
    """Lettering that keeps all it wrote in `written`."""

    def __init__(self, fonts):
        self.written = []
        self._lines = []
        super().__init__(fonts, self._keep, MOST_TEXTS)

    def _keep(self, line, place):
        self._lines.append((line, place.copy()))

    def draw(self, surface, text, box, step, colour, **how):
        self._lines.clear()
        place = super().draw(surface, text, box, step, colour, **how)
        kept = (step, surface.get_height(), tuple(sorted(how.items())))
        self.written.append(Written(text, pygame.Rect(box), list(self._lines), kept, colour))
        return place


@dataclass(frozen=True)
class Sight:
    """All that one picture shows, beside beads. With `is_paper` there is a card where else a frame
    is, and what is asked may be written on it."""

    window: pygame.Rect
    written: tuple[Written, ...]
    buttons: tuple
    frame: pygame.Rect | None
    is_paper: bool


class Unpainted(pygame.Surface):
    """Takes no paint, which nobody looks at where only places are asked for: it says that it is
    to be painted, and where, while all of it is clipped away."""

    def __init__(self, size):
        super().__init__(size)
        self.within = self.get_rect()
        super().set_clip((0, 0, 0, 0))

    def get_clip(self):
        return self.within.copy()

    def set_clip(self, within):
        self.within = self.get_rect() if within is None else self.get_rect().clip(within)


_canvas = lru_cache(maxsize=None)(Unpainted)


def look_at(screen, size):
    """The screen laid out and painted in a window of this size."""
    lettering = screen.room.lettering
    surface = _canvas(size)
    screen.resized(size)
    lettering.written.clear()
    screen.paint(surface)
    field = getattr(screen, "field", None)
    written = tuple(one for one in lettering.written if one.text)
    is_empty = getattr(screen, "shown", screen) is None
    frame = field.box if field and not is_empty else None
    return Sight(
        surface.get_rect(), written, tuple(screen.buttons), frame, is_paper=not has_frame(screen)
    )


def has_frame(screen):
    """Whether a frame is seen on a screen that may have one."""
    guide = getattr(screen, "guide", None)
    return guide is None or guide.sight.has_field


def flaws(sight):
    """Everything wrong with the layout, a sentence each; none where all is well."""
    return [*_cut(sight), *_text_overlaps(sight), *_text_on_others(sight), *_buttons(sight)]


def _cut(sight):
    for one in sight.written:
        if one.box.w <= 0 or one.box.h <= 0:
            yield f"no room at all for {one.text!r} in {one.box}"
            continue
        if one.lines and one.lines[-1][0].endswith("…") and not _may_be_cut(one):
            yield f"{one.text!r} is cut short in {one.box}"
        for line, place in one.lines:
            if not _inside(place, one.box):
                yield f"{line!r} at {place} is larger than its box {one.box}"
            if not sight.window.contains(place):
                yield f"{line!r} at {place} leaves the window"


def _may_be_cut(written):
    """Whether a text has dots itself, or is a name, which may have any length."""
    return "…" in written.text or dict(written.how[2]).get("cut", False)


def _text_overlaps(sight):
    lines = [(line, place) for one in sight.written for line, place in one.lines]
    for (one, here), (other, there) in combinations(lines, 2):
        if _collide(here, there):
            yield f"{one!r} at {here} lies on {other!r} at {there}"


def _text_on_others(sight):
    for one in sight.written:
        for line, place in one.lines:
            for button in sight.buttons:
                own = one.text == button.text and _inside(place, button.place)
                if not own and _collide(place, button.place):
                    yield f"{line!r} at {place} lies on the button {name(button)}"
            if sight.frame and not sight.is_paper and _collide(place, sight.frame):
                yield f"{line!r} at {place} lies on the frame {sight.frame}"


def _buttons(sight):
    for one, other in combinations(sight.buttons, 2):
        if _collide(one.place, other.place):
            yield f"the buttons {name(one)} and {name(other)} overlap"
    width, height = sight.window.size
    matters = width >= ALL_MATTER_FROM[0] and height >= ALL_MATTER_FROM[1]
    seen_high = min(height, width * 9 / 16)
    least = max(LEAST_TOUCHED_PIXELS, LEAST_TOUCHED_SHARE * seen_high) if matters else 1
    for button in sight.buttons:
        if not sight.window.contains(button.place):
            yield f"the button {name(button)} leaves the window"
        if min(button.place.size) < least:
            yield f"the button {name(button)} is smaller than {least:.0f} pixels"
        if sight.frame and _collide(button.place, sight.frame):
            yield f"the button {name(button)} lies on the frame {sight.frame}"


def _inside(place, box):
    return box.inflate(2 * ROUNDING, 2 * ROUNDING).contains(place)


def _collide(one, other):
    return one.inflate(-2 * ROUNDING, -2 * ROUNDING).colliderect(other)


def name(button):
    """The button as a message names it."""
    return f"{button.text or button.sign or button.picture!r} at {button.place}"


def ink_outside(lettering, written):
    """By how many pixels the letters themselves are above, left, below or right of their box."""
    step, height, how = written.how
    around = 60
    box = pygame.Rect((around, around), written.box.size)
    probe = pygame.Surface(box.inflate(2 * around, 2 * around).size, pygame.SRCALPHA)
    black = (0, 0, 0)
    lettering.draw(probe, written.text, box, step, black, **{**dict(how), "window": height})
    ink = probe.get_bounding_rect()
    return max(box.left - ink.left, box.top - ink.top, ink.right - box.right,
               ink.bottom - box.bottom)  # fmt: skip


def assert_well_laid_out(named_screens, sizes=SIZES):
    """Everything is looked at before anything is said, so that one flaw hides no other."""
    named_screens = list(named_screens)
    found = [
        f"{name} at {size}: {flaw}"
        for size in sizes
        for name, screen in named_screens
        for flaw in flaws(look_at(screen, size))
    ]
    assert not found, "\n".join(found)


def laid_out(screen):
    """The screen as in a small window, so that it can be worked."""
    screen.resized(SIZES[0])
    return screen

"""Meters flashing in pictures, by WCAG 2.2, success criterion 2.3.1 and its definition of
"general flash and red flash thresholds". It knows pictures and times only: it takes nothing from
the program that it tests, so that one error cannot stand in both.

The definition, and how it is read here where it leaves a choice, always to the stricter side:

- A *transition* leads from a peak to a valley of a pixel, or back; a *flash* is two opposing ones.
  In general it is a change of relative luminance of 0.10 or more where the darker side is below
  0.80, summed over a fade. It stands at the picture by which the change has become that large.
- A *red* transition is one to or from a saturated red, R / (R + G + B) >= 0.8 of the linear
  channels, by more than 0.2 in CIE 1976 u'v'. Black has no chromaticity: it takes that of white.
- A *second* is any, and holds both its ends: changes one second apart are in the same second.
- *More than three flashes* begin with the seventh transition.
- The *field* of 10 degrees is 341 x 256 pixels of a picture of 1024 x 768, moved over the picture
  pixel by pixel; too much is more than a quarter of it. At most 0.0057 sr, below the 0.006 named.
- *Concurrent* is read in two ways, and what fails by either fails. By pixel: those that flash
  more than three times within a second add up, at whatever moments. By moment: a moment counts
  if the pixels in transition then, each part of a flash within the second, are too many; so that
  flashes add up that fall upon other pixels each time.
- *What flashes* is what changes, pixel by pixel. Technique G176 asks more, that a container of all
  that flashes be small: `contained` takes the upright rectangle about all pixels that ever are
  in transition as one thing, which is in transition whenever a pixel of it is.
- The exception for fine patterns is not made use of.
"""

import math
from collections.abc import Callable, Iterator, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

Pixels = NDArray[np.uint8]
"""Red, green and blue of each pixel: (height, width, 3)."""
Mask = NDArray[np.bool_]
Reals = NDArray[np.float64]
Share = Callable[[Mask], float]
"""The largest share of the field that some of what flashes takes, wherever the field lies."""

LEAST_CHANGE = 0.10
BRIGHT = 0.80
SATURATED = 0.8
LEAST_HUE_CHANGE = 0.2
MOST_TRANSITIONS = 6
QUARTER = 0.25
SECOND = 1.0 + 1e-9

# IEC 61966-2-1 (sRGB) to CIE XYZ under D65; the middle row is WCAG's "relative luminance".
TO_XYZ = np.array([[0.4124, 0.3576, 0.1805], [0.2126, 0.7152, 0.0722], [0.0193, 0.1192, 0.9505]])
_SHARES = np.arange(256) / 255
LINEAR = np.where(_SHARES <= 0.04045, _SHARES / 12.92, ((_SHARES + 0.055) / 1.055) ** 2.4)


class Field(NamedTuple):
    """What lies within 10 degrees, in pixels."""

    width: int
    height: int


def field_of_reference(window_height: float) -> Field:
    """The field of a picture that high, seen as WCAG sees 1024 x 768."""
    return Field(int(341 * window_height / 768), int(256 * window_height / 768))


def field_from_seat(distance: float, pixel: float) -> Field:
    """The field, 10 by 7.5 degrees, from a distance; the side of a pixel in the same unit."""
    across = np.radians(10.0) * distance / pixel
    return Field(int(across), int(0.75 * across))


class Flashing(NamedTuple):
    """The most found in any second.

    `flashes`: flashes of more than a quarter of the field; two transitions make one.
    `share`: the share of the field whose pixels flash more than three times.
    """

    flashes: float
    share: float

    @property
    def too_much(self) -> bool:
        """Whether it is above the threshold."""
        return self.flashes > MOST_TRANSITIONS / 2 or self.share > QUARTER


class Metered(NamedTuple):
    """What a sequence of pictures showed: general and red flashes are counted apart."""

    general: Flashing
    red: Flashing

    @property
    def too_much(self) -> bool:
        """Whether either is above the threshold."""
        return self.general.too_much or self.red.too_much


class Channels(NamedTuple):
    """Linear red, green and blue, 0 to 1, in arrays of one shape."""

    red: Reals
    green: Reals
    blue: Reals


def channels_of(colours: Pixels) -> Channels:
    """The channels of colours that lie along the last axis."""
    return Channels(*(LINEAR[colours[..., channel]] for channel in range(3)))


def metered(
    onsets: Sequence[float], pictures: Sequence[Pixels], field: Field, *, contained: bool = False
) -> Metered:
    """What is found in pictures shown from their onsets on, in seconds, each until the next.

    `pictures` may be the part of a window outside of which nothing changes.
    """
    shown = np.stack(pictures)
    moving: Mask = (shown != shown[0]).any(axis=0).any(axis=-1)
    channels = channels_of(shown[:, moving])
    times = np.asarray(onsets, dtype=np.float64)
    general, red = (
        _flashing(times, *(_container if contained else _ink)(turns, moving, field))
        for turns in (_general_transitions(channels), _red_transitions(channels))
    )
    return Metered(general, red)


def luminance(linear: Channels) -> Reals:
    """Relative luminance, 0 to 1: CIE Y."""
    return _weighed(TO_XYZ[1], linear)


def _weighed(weights: Reals, linear: Channels) -> Reals:
    red, green, blue = weights.tolist()
    found: Reals = red * linear.red + green * linear.green + blue * linear.blue
    return found


def _general_transitions(channels: Channels) -> Mask:
    """Picture by pixel: where a pixel has come a whole change away from its last peak or valley."""
    light = luminance(channels)
    highest, lowest = light[0].copy(), light[0].copy()
    may_fall, may_rise = (np.ones(light.shape[1], dtype=bool) for _ in range(2))
    turns = np.zeros(light.shape, dtype=bool)
    for turn, now in zip(turns, light, strict=True):
        np.maximum(highest, now, out=highest)
        np.minimum(lowest, now, out=lowest)
        falls = may_fall & (highest - now >= LEAST_CHANGE) & (now < BRIGHT)
        rises = may_rise & (now - lowest >= LEAST_CHANGE) & (lowest < BRIGHT)
        turn[:] = falls | rises
        may_fall, may_rise = (may_fall | rises) & ~falls, (may_rise | falls) & ~rises
        highest[turn] = lowest[turn] = now[turn]
    return turns


def _red_transitions(channels: Channels) -> Mask:
    """Picture by pixel: where a pixel comes into or out of red from any state since the last."""
    total = channels.red + channels.green + channels.blue
    red: Mask = (channels.red >= SATURATED * total) & (total > 0)
    turns: Mask = np.zeros(red.shape, dtype=bool)
    ever: Mask = np.logical_or.reduce(red)
    if ever.any():
        hues = chromaticity(Channels(*(channel[:, ever] for channel in channels)))
        turns[:, ever] = _turns_of_hue(hues, red[:, ever])
    return turns


def _turns_of_hue(hues: Reals, red: Mask) -> Mask:
    turns: Mask = np.zeros(red.shape, dtype=bool)
    since = np.zeros(red.shape[1], dtype=int)
    for now in range(len(red)):
        for earlier in range(now):
            far = np.linalg.norm(hues[now] - hues[earlier], axis=-1) > LEAST_HUE_CHANGE
            turns[now] |= far & (red[now] | red[earlier]) & (earlier >= since)
        since[turns[now]] = now
    return turns


def chromaticity(linear: Channels) -> Reals:
    """CIE 1976 u' and v' along the last axis; black has those of white."""
    black: Mask = np.asarray(linear.red + linear.green + linear.blue == 0)
    light = Channels(*(np.where(black, 1.0, channel) for channel in linear))
    x, y, z = (_weighed(weights, light) for weights in TO_XYZ)
    hue: Reals = np.stack([4 * x, 9 * y], axis=-1) / (x + 15 * y + 3 * z)[..., None]
    return hue


def _ink(turns: Mask, moving: Mask, field: Field) -> tuple[Mask, Share]:
    """The transitions of each moving pixel, and the share of any of these pixels."""

    def share(pixels: Mask) -> float:
        if not pixels.any():
            return 0.0
        picture = np.zeros(moving.shape, dtype=np.int32)
        picture[moving] = pixels
        return int(_within(picture, field).max()) / (field.width * field.height)

    return turns, share


def _container(turns: Mask, moving: Mask, field: Field) -> tuple[Mask, Share]:
    """The transitions of the container as one thing, and its share."""
    picture = np.zeros(moving.shape, dtype=bool)
    picture[moving] = turns.any(axis=0)
    sides = (np.flatnonzero(np.logical_or.reduce(picture, axis)) for axis in (0, 1))
    lengths = [int(np.ptp(side)) + 1 if side.size else 0 for side in sides]
    held = math.prod(map(min, lengths, field)) / (field.width * field.height)
    moments: Mask = np.logical_or.reduce(turns, axis=1, keepdims=True)
    return moments, lambda thing: held if thing.any() else 0.0


def _flashing(times: Reals, turns: Mask, share: Share) -> Flashing:
    moments = turns.any(axis=1)
    most, widest = 0, 0.0
    for second in _seconds(times[moments], turns[moments]):
        count = second.sum(axis=0)
        widest = max(widest, share(count > MOST_TRANSITIONS))
        if len(second) > most:
            most = max(most, sum(share(turn & (count > 1)) > QUARTER for turn in second))
    return Flashing(most / 2, widest)


def _seconds(times: Reals, turns: Mask) -> Iterator[Mask]:
    """The transitions within each second that begins with one; any other second holds no more."""
    ends: NDArray[np.int64] = np.searchsorted(times, times + SECOND, side="right")
    for first, end in enumerate(ends.tolist()):
        yield turns[first:end]


def _within(picture: NDArray[np.int32], field: Field) -> NDArray[np.int32]:
    """How much of a picture lies within the field at each place, by sums over rectangles."""
    height, width = (min(pair) for pair in zip(picture.shape, field[::-1], strict=True))
    sums = np.pad(picture.cumsum(0).cumsum(1), ((1, 0), (1, 0)))
    rows = sums[height:] - sums[:-height]
    found: NDArray[np.int32] = rows[:, width:] - rows[:, :-width]
    return found

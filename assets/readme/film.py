"""A film of the window: what is seen every 40 ms, and where it is touched."""

import pygame
from PIL import Image, ImageChops

TURN = 0.04
"""Seconds from one look to the next."""
RADIUS, BREADTH, INK = 34, 7, (224, 140, 0)
"""The ring that marks a touch, in the window's pixels."""
PLAIN, LARGE, MOST = 25, 0.1, 3
"""A change that is seen is so much of a grey; large is so much of the picture; so many large ones
there may be within a second."""


class Film:
    """The window of a pilot as a row of pictures, each with how long it stands, in ms."""

    def __init__(self, width):
        self.width = width
        self.pictures = []
        self.lasting = []
        self.pilot = None

    def roll(self, seconds, touched=None):
        """Let time pass; a place that is touched meanwhile has a ring."""
        for _ in range(round(seconds / TURN)):
            self.pilot.clock += TURN
            self.pilot.app.pass_time(self.pilot.clock)
            self.pilot.app.draw()
            self._take(touched)

    def press(self, at):
        """A touch: the ring comes first, so that the eye is there when the bead moves."""
        self.roll(0.28, at)
        self.pilot.tap(at)

    def write(self, path, colours):
        """As a moving PNG that plays for ever, all its pictures in the same colours. Raises
        ValueError where so much changes so often that it would flash."""
        self._need_calm()
        palette = self._palette(colours)
        drawn = [one.quantize(palette=palette, dither=Image.Dither.NONE) for one in self.pictures]
        drawn[0].save(
            path, save_all=True, append_images=drawn[1:], duration=self.lasting, loop=0,
            optimize=True,
        )  # fmt: skip

    @property
    def seconds(self):
        """How long it lasts."""
        return sum(self.lasting) / 1000

    def _take(self, touched):
        """One more picture; one that is like the last makes that last longer."""
        window = self.pilot.app.window.copy()
        if touched is not None:
            place = self.pilot.in_window(touched)
            pygame.draw.circle(window, INK, place, RADIUS, BREADTH)
        picture = shrunk(window, self.width)
        is_new = not self.pictures or ImageChops.difference(picture, self.pictures[-1]).getbbox()
        if is_new:
            self.pictures.append(picture)
            self.lasting.append(0)
        self.lasting[-1] += round(TURN * 1000)

    def _need_calm(self):
        """Raises ValueError unless large changes are few within any second; the film begins anew at
        its end."""
        at, times = 0, []
        for before, picture, lasting in zip(
            [self.pictures[-1], *self.pictures], self.pictures, self.lasting, strict=False
        ):
            grey = ImageChops.difference(before, picture).convert("L")
            changed = sum(grey.histogram()[PLAIN:]) / (grey.width * grey.height)
            times += [at] if changed > LARGE else []
            at += lasting
        for first, last in zip(times, times[MOST:], strict=False):
            if last - first < 1000:
                raise ValueError(f"it flashes {first} ms from its beginning")

    def _palette(self, colours):
        """The colours of some pictures out of all parts of it."""
        some = self.pictures[:: max(1, len(self.pictures) // 24)]
        width, height = some[0].size
        sheet = Image.new("RGB", (width, height * len(some)))
        for at, one in enumerate(some):
            sheet.paste(one, (0, at * height))
        return sheet.quantize(colours, kmeans=2)


def shrunk(window, width):
    """The window as a picture so wide."""
    height = round(window.get_height() * width / window.get_width())
    picture = Image.frombytes("RGB", window.get_size(), pygame.image.tobytes(window, "RGB"))
    return picture.resize((width, height), Image.Resampling.LANCZOS)

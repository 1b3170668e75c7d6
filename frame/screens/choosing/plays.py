"""The small plays of the free frame, to choose one."""

from functools import partial

import pygame

from frame.app import Change, Push
from frame.course.plays import Play
from frame.language.lines import Line
from frame.screens.lesson.play import PlayScreen
from frame.screens.parts.page import Page, abreast
from frame.technique.beads import Frame
from frame.view.geometry import Layout, pose_of
from frame.view.painter import Appearance
from frame.view.widgets import Brushes, Button, Drawing

_SHOWN = {
    Play.TEN: (Frame("10", 1),),
    Play.MIRROR: (Frame("7", 0), Frame("7", 0)),
    Play.MISSING: (Frame("7", 0), Frame("0", 0)),
}
"""The frames that stand for a play; for numbers that are called a loudspeaker does."""
_TOP, _HIGH, _GAP = 17.0, 30.0, 3.0
_HIGH_NARROW = 15.0
_LEAST_FOR_TWO = 120.0
"""So many units across is a window in which two stand side by side."""


class PlaysPage(Page):
    """A large button with a picture for each."""

    def arrange(self) -> None:
        """Two in a row where there is room for both, else one."""
        in_row, high = (2, _HIGH) if self.across >= _LEAST_FOR_TWO else (1, _HIGH_NARROW)
        for at, play in enumerate(Play):
            row = self.band(_TOP + at // in_row * (high + _GAP), high)
            place = abreast(row, in_row, _GAP * self.unit)[at % in_row]
            self.buttons.append(
                Button(
                    place,
                    partial(self._begin, play),
                    self.room.words.text(f"play.{play}"),
                    step=2,
                    drawing=self._drawing(play),
                )
            )
        self.buttons += self.speaker(self.corner)

    def _begin(self, play: Play) -> Change:
        return Push(PlayScreen(self.room, play))

    @property
    def greeting(self) -> Line:
        """All of them by name."""
        said = ". ".join(self.room.words.text(f"play.{play}") for play in Play)
        return Line(said, said)

    def resumed(self, result: object) -> Change | None:
        """A play was left."""
        self.rearrange()
        return None

    def _drawing(self, play: Play) -> Drawing:
        frames = _SHOWN.get(play)
        return partial(self._paint_frames, frames) if frames else _paint_called

    def _paint_frames(
        self, frames: tuple[Frame, ...], brushes: Brushes, square: pygame.Rect
    ) -> None:
        for frame, place in zip(frames, abreast(square, len(frames), self.unit), strict=True):
            area = (*place.topleft, *place.size)
            layout = Layout.fit(area, len(frame.digits), frame.units)
            self.room.painter.draw_frame(brushes.surface, layout, pose_of(frame), Appearance())

    def paint_rest(self, brushes: Brushes) -> None:
        """The title."""
        self.paint_title(brushes, self.room.words.text("play.title"))


def _paint_called(brushes: Brushes, square: pygame.Rect) -> None:
    sign = brushes.pictures.get("icon-speaker", round(0.7 * square.h), brushes.theme.ink)
    brushes.surface.blit(sign, sign.get_rect(center=square.center))

"""The parts of the lesson screen: beside one another, or for wide frames one below the other.

A lesson has one layout from start to end, so that nothing jumps: the wide one where it has written
work or more than 9 rods. A frame of few rods stands in the middle, between what its beads stand
for and the side.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from typing import NamedTuple

import pygame

from frame.course.lesson import Ask, LessonStep, Practise
from frame.practice.drawing import Request
from frame.practice.exercises import Exercise
from frame.practice.rungs import Asked, Rung
from frame.practice.written import are_written, is_written
from frame.view.bead_field import WIDE_RODS
from frame.view.geometry import Layout

_MARGIN = 12.0
_EDGE = 5.0
_TOP = 19.0
_FRAME_HEIGHT = 59.0
_NARROW_LINE = 10.0
"""In a narrow window a sentence runs over three lines."""
_NARROW_TOP = 21.8
_SIDE_BELOW = 51.5
_GAP = 8.0
_LEAST_COLUMN = 90.0
_LEAST_BESIDE = 80.0
"""In a narrower window, in units, the side has no room beside the frame."""
_LEAST_STORY = {1: 20.0, 2: 26.0, 3: 30.0}
"""As wide, by the rods of a frame, is the story at least; beside a frame of more rods there is no
place for it."""
_LEAST_SIDE, _NARROWEST_SIDE = 46.0, 36.0
_LOW_FRAME = 50.0
"""A frame that makes room beside it is still 55 % of the window's height."""
_NARROW_GAP = 5.0
_MOST_ACROSS = 160.0
"""In a wider window the columns stand in the middle."""
_WIDE_CARD = 50.0
_KEYS_IN_HEIGHTS = 9
"""A row of keys is at least so many times as long as it is high."""
_WIDE_FRAME = 36.7
_NARROW_FRAME = 17.0
"""Even a frame of few rods leaves room for the keys of an answer above it."""
_LEAST_ROW = 110.0
_MOST_RODS_BESIDE = 9
"""A frame of more rods takes the width of the window."""
_WRITTEN_TOP = 18.4
_WIDE_BOTTOM = 71.5
"""Where a wide frame ends; below it stand the name of its unit rod and a row of buttons."""


@dataclass(frozen=True, slots=True)
class Places:
    """The parts of the screen: the header's sum, and below it the sentence, at whose left the
    loudspeaker may stand; the story, which is what the beads stand for or a picture, and has no
    width where there is no room for it; the written work above the frame, the frame, the side with
    its card or an answer, the buttons, the string, the step back. Where frame and side stand beside
    one another there is no written work, and the buttons stand on the side."""

    sum: pygame.Rect
    speaker: pygame.Rect
    line: pygame.Rect
    story: pygame.Rect
    written: pygame.Rect
    frame: pygame.Rect
    side: pygame.Rect
    answer: pygame.Rect
    buttons: pygame.Rect
    string: pygame.Rect
    count: pygame.Rect
    before: pygame.Rect

    @property
    def has_row(self) -> bool:
        """Whether the buttons' place is long enough for a row of keys."""
        return self.buttons.w > _KEYS_IN_HEIGHTS * self.buttons.h

    @property
    def is_stacked(self) -> bool:
        """Whether the side stands below the frame."""
        return self.side.top >= self.frame.bottom

    @property
    def changing(self) -> tuple[pygame.Rect, ...]:
        """What looks different after a touch, beside the beads."""
        return (self._said, self.story, self.written, self.side.inflate(8, 8))

    @property
    def _said(self) -> pygame.Rect:
        """The header with what hangs below the last line of a long sentence."""
        return self.sum.union(self.line).inflate(0, self.line.h // 8)

    @property
    def between_exercises(self) -> tuple[pygame.Rect, ...]:
        """What looks different when the lesson waits for something else: all but the frame."""
        ladder = self.string.inflate(0, self.string.h)  # It stands higher and lower than a string.
        string = ladder.union(self.count)
        header = self._said.union(self.before.inflate(8, 8))
        if self.written.h:
            above = header.unionall((self.side, self.written))
            below = pygame.Rect(0, self.frame.bottom, 0, self.buttons.top - self.frame.bottom)
            below.left, below.w = self.frame.left, self.frame.w
            return (above, below, self.buttons.inflate(8, 8), string)
        if self.is_stacked:
            frame = self.frame.union(self.story) if self.story.w else self.frame
            return (header.unionall((frame, self.side.inflate(8, 8), string)),)
        gap = self.frame.union(self.side)
        next_to = pygame.Rect(self.frame.right, gap.top, gap.right - self.frame.right, gap.h)
        if self.side.left < self.frame.left:
            next_to = pygame.Rect(gap.left, gap.top, self.frame.left - gap.left, gap.h)
        return (header, self.story, next_to.inflate(8, 8), string)


def is_wide(steps: Iterable[LessonStep]) -> bool:
    """Whether steps of a lesson need a frame across the window, with room for written work above
    it."""
    return any(map(_needs_width, steps))


def has_frame(asked: Exercise | Request) -> bool:
    """Whether beads of the screen's frame are worked for what is asked."""
    is_number = asked.asked is not Asked.SHOWN and asked.rung is Rung.NUMBER
    return not asked.own and not is_number


def _needs_width(step: LessonStep) -> bool:
    match step:
        case Ask(exercise):
            is_work = exercise.asked is Asked.SHOWN and is_written(exercise)
            return has_frame(exercise) and (exercise.rods > _MOST_RODS_BESIDE or is_work)
        case Practise(request):
            is_work = are_written(request.facts)
            return has_frame(request) and (request.rods > _MOST_RODS_BESIDE or is_work)
    return False


class _Span(NamedTuple):
    """From where, and how far across the window, in units."""

    x: float
    w: float

    @property
    def end(self) -> float:
        """Where it ends."""
        return self.x + self.w

    def mirrored(self, across: float) -> "_Span":
        """The same from the other side of a window so wide."""
        return _Span(across - self.end, self.w)


class _Columns(NamedTuple):
    """What stands beside one another, for the right-handed, and how high the frame is."""

    header: _Span
    story: _Span
    frame: _Span
    side: _Span
    high: float

    def mirrored(self, across: float) -> "_Columns":
        """For the left-handed; the header begins where it did."""
        story, frame, side = (span.mirrored(across) for span in (self.story, self.frame, self.side))
        return _Columns(self.header, story, frame, side, self.high)


@lru_cache(maxsize=8)
def beside(across: float, unit: float, rods: int, units: int, is_left: bool) -> Places:
    """Columns in the middle: the story where there is room for it, the frame, the side.

    A left-handed layout has the side at the left. In a window that is higher than wide the side
    stands below the frame.
    """
    if across < _LEAST_BESIDE:
        return _below(across, unit, rods, units, is_left)
    columns = _three(across, unit, rods, units) or _two(across, unit, rods, units)
    if is_left:
        columns = columns.mirrored(across)
    left, column = columns.header
    top = _TOP + (_FRAME_HEIGHT - columns.high) / 2
    side = _rect(unit, columns.side.x, _TOP, columns.side.w, _FRAME_HEIGHT)
    return Places(
        sum=_rect(unit, left, 2.5, column, 8.5),
        speaker=_rect(unit, left, 11, 7.2, 7.2),
        line=_rect(unit, left, 11, column, 7.2),
        story=_rect(unit, columns.story.x, top, columns.story.w, columns.high),
        written=_rect(unit, left, _TOP, 0, 0),
        frame=_rect(unit, columns.frame.x, top, columns.frame.w, columns.high),
        side=side,
        answer=_rect(unit, columns.side.x, _TOP, columns.side.w, 10.5),
        buttons=side,
        string=_rect(unit, left, 84.2, column - 12, 3.6),
        count=_rect(unit, left + column - 11, 84, 11, 4),
        before=_rect(unit, 1.5, 11.2, 8, 6.8),
    )


def _natural(high: float, unit: float, rods: int, units: int) -> float:
    """How wide a frame is that is so high."""
    return Layout.fit((0, 0, 10**6, high * unit), rods, units).frame_box.w / unit + 0.2


def _three(across: float, unit: float, rods: int, units: int) -> _Columns | None:
    """With the story, where there is room for it: the frame in the middle, or as near to it as the
    side lets it; in a window that is less wide, a lower frame between narrower columns."""
    least = _LEAST_STORY.get(rods)
    if least is None:
        return None
    left = max(_MARGIN, (across - _MOST_ACROSS) / 2 + _MARGIN)
    end = across - max(_EDGE, (across - _MOST_ACROSS) / 2 + _EDGE)
    header = _Span(left, end - left)
    for high, side, gap, start in (
        (_FRAME_HEIGHT, _LEAST_SIDE, _GAP, left),
        (_FRAME_HEIGHT, _NARROWEST_SIDE, _NARROW_GAP, left),
        (_LOW_FRAME, _NARROWEST_SIDE, _NARROW_GAP, _EDGE),
    ):
        wide = _natural(high, unit, rods, units)
        frame = _Span(min((across - wide) / 2, end - side - gap - wide), wide)
        story = _Span(start, frame.x - gap - start)
        if story.w >= least:
            at_side = frame.end + gap
            return _Columns(header, story, frame, _Span(at_side, end - at_side), high)
    return None


def _two(across: float, unit: float, rods: int, units: int) -> _Columns:
    """One column in the middle of the frame and the side, as wide as the frame needs when it takes
    the whole height."""
    most = across - _MARGIN - _EDGE
    side = max(40.0, min(56.0, across * 0.34))
    wide = min(_natural(_FRAME_HEIGHT, unit, rods, units), most - side - _GAP)
    column = min(most, max(_LEAST_COLUMN, wide + _GAP + side))
    left = max(_MARGIN, (across - column) / 2)
    at_side = _Span(left + column - side, side)
    return _Columns(_Span(left, column), _Span(left, 0), _Span(left, wide), at_side, _FRAME_HEIGHT)


def _below(across: float, unit: float, rods: int, units: int, is_left: bool) -> Places:
    """The frame as wide as the window, or where it has few rods with the story beside it; and below
    the names of its places the side."""
    column = across - _MARGIN - _EDGE
    most = across - 2 * _EDGE
    high = _SIDE_BELOW - 4.5 - _NARROW_TOP
    story, frame = _Span(_EDGE, 0), _Span(_EDGE, most)
    if rods in _LEAST_STORY:
        wide = _natural(high, unit, rods, units)
        story = _Span(_EDGE, most - wide - _NARROW_GAP)
        frame = _Span(_EDGE + most - wide, wide)
    if is_left:
        story, frame = story.mirrored(across), frame.mirrored(across)
    side = _rect(unit, _EDGE, _SIDE_BELOW, most, 83.5 - _SIDE_BELOW)
    return Places(
        sum=_rect(unit, _MARGIN, 2.5, column, 8.5),
        speaker=_rect(unit, _MARGIN, 11, 7.2, 7.2),
        line=_rect(unit, _MARGIN, 11, column, _NARROW_LINE),
        story=_rect(unit, story.x, _NARROW_TOP, story.w, high),
        written=_rect(unit, _EDGE, _NARROW_TOP, 0, 0),
        frame=_rect(unit, frame.x, _NARROW_TOP, frame.w, high),
        side=side,
        answer=_rect(unit, _EDGE, _SIDE_BELOW, most, 8.5),
        buttons=side,
        string=_rect(unit, _EDGE, 85.4, most - 12, 3.6),
        count=_rect(unit, _EDGE + most - 11, 85.2, 11, 4),
        before=_rect(unit, 1.5, 11.2, 8, 6.8),
    )


@lru_cache(maxsize=8)
def wide(across: float, unit: float, rods: int, units: int, is_left: bool) -> Places:
    """The frame as wide as the window, the written work above it, the buttons below.

    The card stands beside sum and sentence, at the left for the left-handed.
    """
    most, is_narrow = across - 2 * _EDGE, across < _LEAST_BESIDE
    area = (0, 0, most * unit, (_NARROW_FRAME if is_narrow else _WIDE_FRAME) * unit)
    box = Layout.fit(area, rods, units, rods > WIDE_RODS).frame_box
    height = box.h / unit + 0.2
    top = _WIDE_BOTTOM - height
    width = min(most, max(_LEAST_ROW, box.w / unit))
    left = (across - width) / 2
    card = min(_WIDE_CARD, across * 0.36)
    header = left + width - _MARGIN - card - 3
    head_x, card_x = _MARGIN, left + width - card
    if is_left:
        head_x, card_x = _MARGIN + card + 3, _MARGIN
    card_y, above = 2.5, _WRITTEN_TOP
    if is_narrow:
        # The card has no room beside the sum, and plenty below it.
        header, card, card_x, card_y = across - _MARGIN - _EDGE, most, _EDGE, _WRITTEN_TOP
        head_x, above = _MARGIN, _WRITTEN_TOP + 17
    return Places(
        sum=_rect(unit, head_x, 2.5, header, 8.5),
        speaker=_rect(unit, head_x, 11, 7.2, 7.2),
        line=_rect(unit, head_x, 11, header, 7.2),
        story=_rect(unit, _EDGE, above, 0, 0),
        written=_rect(unit, _EDGE, above, most, top - above),
        frame=_rect(unit, _EDGE, top, most, height),
        side=_rect(unit, card_x, card_y, card, 15.7),
        answer=_rect(unit, card_x, card_y, card, 15.7),
        buttons=_rect(unit, left, 75.2, width, 7.8),
        string=_rect(unit, left, 85.4, width - 12, 3.6),
        count=_rect(unit, left + width - 11, 85.2, 11, 4),
        before=_rect(unit, 1.5, 11.2, 8, 6.8),
    )


def _rect(unit: float, x: float, y: float, w: float, h: float) -> pygame.Rect:
    return pygame.Rect(round(x * unit), round(y * unit), round(w * unit), round(h * unit))

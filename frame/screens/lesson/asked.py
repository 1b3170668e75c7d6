"""Paints what is asked for otherwise than by a sum in sight: a call, and a column to be worked on
the learner's own frame; and the ladder, where a set is practised."""

from collections.abc import Sequence

import pygame

from frame.language.printed import printed, printed_parts
from frame.practice.exercises import Exercise
from frame.practice.rungs import Asked, Rung
from frame.screens.lesson.scene import Scene
from frame.screens.parts.flashing import told
from frame.view.theme import type_size
from frame.view.widgets import Brushes

_MOST_ROW = 9.0
_MOST_NUMBERS = 15
_MOST_BEAD = 7.0
_STEPS = ((7.0, 3), (4.5, 2), (0.0, 1))
"""The type size for rows of at least so many units."""


def paint_asked(scene: Scene, brushes: Brushes, place: pygame.Rect) -> None:
    """What stands where a sum would: how the numbers come; without sound, over a frame, the number
    itself."""
    work, words, number = scene.work, scene.room.words, scene.shown_call
    if work is None:
        return
    if number is not None and scene.guide.sight.has_field:
        brushes.line(printed(number), place, 3, least=0, bold=True)
        return
    if work.report is not None:
        brushes.text(told(work.report, words), place, 1, soft=True)
        return
    key = "call.title" if work.exercise.asked is Asked.CALLED else "flash.title"
    brushes.text(words.text(key), place, 2, bold=True)


def paint_call(scene: Scene, brushes: Brushes, side: pygame.Rect) -> None:
    """Which number is being called: a bead for each, those called in use."""
    work, call = scene.work, scene.calling
    if work is None or call is None:
        return
    count = len(work.exercise.sum.numbers)
    called = call.begun(scene.room.seconds())
    one = scene.unit
    text = scene.room.words.text("call.count", done=called, all=count)
    head = pygame.Rect(side.left, side.top, side.w, round(7 * one))
    brushes.text(text, head, 1, bold=True)
    across = _MOST_NUMBERS if scene.places.is_stacked else 5
    size = round(min(_MOST_BEAD * one, side.w / across))
    for index in range(count):
        row, column = divmod(index, across)
        bead = scene.room.painter.bead(round(size * 0.86), round(size * 0.6), used=index < called)
        middle = side.left + size * (column + 0.5), head.bottom + size * (row * 0.8 + 0.5)
        brushes.surface.blit(bead, bead.get_rect(center=tuple(map(round, middle))))


def paint_own(scene: Scene, brushes: Brushes) -> None:
    """Where there is no frame: the column as it stands on paper, large; numbers that are called
    or flashed are not shown, but for one that is called and cannot be heard."""
    place, number = scene.paper, scene.shown_call
    exercise = scene.work.exercise if scene.work is not None else None
    brushes.box(place, brushes.theme.card, brushes.theme.hairline)
    inner = place.inflate(-round(8 * scene.unit), -round(6 * scene.unit))
    if exercise is not None and exercise.asked is Asked.SHOWN:
        _paint_column(scene, brushes, inner, exercise)
    elif number is not None:
        brushes.line(printed(number), inner, 4, least=0, bold=True, align="centre")
    elif exercise is None or exercise.own:
        text = scene.room.words.text("lesson.own_frame")
        brushes.text(text, inner, 2, soft=True, align="centre")
    elif exercise.asked is Asked.FLASHED and scene.guide.is_presenting:
        text = scene.room.words.text("flash.caution")
        brushes.text(text, place.inflate(-round(2 * scene.unit), 0), 0, soft=True, align="centre")


def _paint_column(scene: Scene, brushes: Brushes, inner: pygame.Rect, exercise: Exercise) -> None:
    lines = printed_parts(exercise.sum, scene.room.words)
    row = min(_MOST_ROW * scene.unit, inner.h / len(lines))
    wide = round(inner.w * 0.8)
    step = _step(brushes, lines, wide, row / scene.unit)
    top = inner.centery - row * len(lines) / 2
    for index, text in enumerate(lines):
        line = pygame.Rect(inner.left, round(top + index * row), wide, round(row))
        brushes.text(text, line, step, bold=True, align="right")


def _step(brushes: Brushes, lines: Sequence[str], wide: int, row: float) -> int:
    """The largest type size at which every row of the column fits."""
    height = brushes.surface.get_height()
    for least, step in _STEPS:
        pixels = type_size(step, height)
        widest = max(brushes.lettering.width(line, pixels, bold=True) for line in lines)
        if row >= least and widest <= wide:
            return step
    return 0


def paint_rungs(scene: Scene, brushes: Brushes, place: pygame.Rect, now: Rung) -> None:
    """The ladder along the bottom: a dot and a name for each rung, the present one strong; its name
    alone where there is no room for all."""
    rungs, theme = tuple(Rung), brushes.theme
    width = place.w / len(rungs)
    y = place.top - round(scene.unit / 2)
    line = pygame.Rect(round(place.left + width / 2), y, round(width * (len(rungs) - 1)), 2)
    brushes.surface.fill(theme.hairline, line)
    names = [scene.room.words.text(f"rung.{rung.name}") for rung in rungs]
    pixels = type_size(0, brushes.height)
    words = [word for name in names for word in name.split(" ")]
    needed = max(brushes.lettering.width(word, pixels, bold=True) for word in words)
    wide = round(width) if needed <= width else place.w
    for index, (rung, name) in enumerate(zip(rungs, names, strict=True)):
        middle = round(place.left + width * (index + 0.5))
        radius = max(3, round(scene.unit * (0.9 if rung is now else 0.55)))
        colour = theme.ink if rung is now else theme.soft_ink
        pygame.draw.circle(brushes.surface, colour, (middle, y), radius)
        if rung is not now and needed > width:
            continue
        label = pygame.Rect(0, y + round(scene.unit), wide, round(4 * scene.unit))
        label.centerx = middle if wide < place.w else place.centerx
        brushes.text(name, label, 0, soft=rung is not now, bold=rung is now, align="centre")

"""Paints the lesson screen: the sum, the sentence, the card with the rule, the progress."""

from collections.abc import Sequence
from decimal import Decimal

import pygame

from frame.course.runner import Stage
from frame.language.numbers import grouped
from frame.language.printed import printed, printed_parts
from frame.practice.exercises import Kind
from frame.practice.rungs import Asked
from frame.practice.written import unused_line, written_lines
from frame.screens.lesson.asked import paint_asked, paint_call, paint_own, paint_rungs
from frame.screens.lesson.card import paint_card, shows_card
from frame.screens.lesson.layout import is_spoken
from frame.screens.lesson.places import Places, places_of
from frame.screens.lesson.view import LessonView
from frame.screens.parts.sentence import paint_sentence
from frame.screens.parts.written import paint_written
from frame.technique.reading import plain
from frame.view.theme import type_size
from frame.view.widgets import Brushes, paint_string, paint_tick

_MOST_NAMED_RODS = 7


def paint(screen: LessonView, brushes: Brushes) -> None:
    """Paint all but the buttons."""
    places = places_of(screen)
    _paint_header(screen, brushes, places)
    if screen.has_field:
        screen.field.paint(brushes.surface)
        _paint_place_names(screen, brushes)
        _paint_written(screen, brushes, places)
    elif screen.runner.work is not None:
        paint_own(screen, brushes, places.frame, screen.runner.work.exercise)
    _paint_side(screen, brushes, places.side)
    _paint_progress(screen, brushes, places)


def _paint_written(screen: LessonView, brushes: Brushes, places: Places) -> None:
    work, words = screen.runner.work, screen.room.words
    if work is not None and places.written.h:
        lines, unused = written_lines(work), unused_line(work)
        paint_written(brushes, places.written, screen.field, lines, words, unused=unused)


def _paint_header(screen: LessonView, brushes: Brushes, places: Places) -> None:
    work = screen.runner.work
    kind = work.exercise.kind if work is not None else None
    if work is not None and work.exercise.asked is not Asked.SHOWN:
        paint_asked(screen, brushes, places.sum)
    elif work is not None and kind is Kind.SUM and screen.has_field:
        parts = printed_parts(work.exercise.sum, screen.room.words)
        parts = parts if work.term is not None else (" ".join(parts),)
        _paint_sum(brushes, places.sum, parts, None if work.exercise.is_silent else work.term)
    elif work is not None and kind is Kind.SET:
        brushes.text(printed(work.exercise.number), places.sum, 3, bold=True)
    else:
        brushes.text(screen.runner.lesson.title, places.sum, 2, bold=True)
    line = screen.line
    if line is not None:
        colour = brushes.theme.ink if screen.said else brushes.theme.soft_ink
        place = places.line.copy()
        if is_spoken(screen):
            place.left += place.h + round(screen.unit)
            place.w -= place.h + round(screen.unit)
        paint_sentence(screen.room, brushes, line.show, place, colour)


def _paint_sum(
    brushes: Brushes, place: pygame.Rect, parts: Sequence[str], term: int | None
) -> None:
    """The sum in one line; the number of a column being worked is dark, the others soft; all alike
    where nothing is told of the work."""
    usual = type_size(3, brushes.surface.get_height())
    pixels = usual
    while pixels > 8 and _width(brushes, parts, pixels) > place.w:
        pixels -= 1
    left = float(place.left)
    for index, part in enumerate(parts):
        width = brushes.lettering.width(part, pixels, bold=True)
        cell = pygame.Rect(round(left), place.top, width + 2, place.h)
        colour = brushes.theme.ink if term in (None, index) else brushes.theme.soft_ink
        brushes.lettering.draw(
            brushes.surface, part, cell, 3, colour, bold=True, scale=pixels / usual
        )
        left += width + pixels * 0.35


def _width(brushes: Brushes, parts: Sequence[str], pixels: int) -> float:
    return sum(brushes.lettering.width(part, pixels, True) + pixels * 0.35 for part in parts)


def _paint_place_names(screen: LessonView, brushes: Brushes) -> None:
    field = screen.field
    if not screen.room.settings.place_names or len(field.frame.digits) == 1:
        return
    are_named = len(field.frame.digits) <= _MOST_NAMED_RODS
    top, height = field.box.bottom + round(0.5 * screen.unit), round(4 * screen.unit)
    if screen.is_wide:
        height = min(height, places_of(screen).buttons.top - top)
    for rod, middle in field.rod_places():
        if not are_named and rod != 0:
            continue
        place = pygame.Rect(0, top, field.layout.spacing, height)
        place.centerx = middle
        brushes.text(grouped(plain(Decimal(10) ** rod)), place, 0, soft=True, align="centre")


def _paint_progress(screen: LessonView, brushes: Brushes, places: Places) -> None:
    runner, work = screen.runner, screen.runner.work
    is_on_ladder = work is not None and not work.exercise.own and not runner.is_set_told_at_end
    if not screen.is_lesson and is_on_ladder and work is not None:
        paint_rungs(screen, brushes, places.string, work.exercise.rung)
    else:
        paint_string(brushes, screen.room.painter, places.string, runner.done, runner.total)
    count = min(runner.done + 1, runner.total)
    text = screen.room.words.text("lesson.step_count", done=count, all=runner.total)
    brushes.text(text, places.count, 0, soft=True, align="right")


def _paint_side(screen: LessonView, brushes: Brushes, side: pygame.Rect) -> None:
    runner, work = screen.runner, screen.runner.work
    if not brushes.needs(side) and not brushes.needs(places_of(screen).buttons):
        return
    if runner.stage is Stage.ANSWER:
        height = side.h if screen.is_wide else round(10.5 * screen.unit)
        box = pygame.Rect(side.left, side.top, side.w, height)
        brushes.box(box, brushes.theme.card, brushes.theme.hairline)
        typed = grouped(screen.answer.typed) if screen.answer.typed else "?"
        inner = box.inflate(-round(screen.unit), 0)
        brushes.line(typed, inner, 3, least=0, bold=True, align="centre")
    elif runner.stage is Stage.PRESENT:
        paint_call(screen, brushes, side)
    elif runner.stage is Stage.DONE and work is not None:
        if work.right and not runner.is_set_told_at_end:
            _paint_done(screen, brushes)
    elif work is not None and shows_card(work):
        paint_card(screen, brushes, side, work)
    if runner.stage is Stage.DEMO:
        _paint_watch(screen, brushes, places_of(screen).buttons)


def _paint_done(screen: LessonView, brushes: Brushes) -> None:
    """The tick, close to the beads that were looked at."""
    box = screen.field.box
    place = screen.rect(0, 0, 14, 14)
    if screen.is_wide:
        place.center = places_of(screen).side.center
        paint_tick(brushes, place)
        return
    place.centery = round(screen.field.layout.beam_box.centre[1])
    if screen.room.settings.left_handed:
        place.right = box.left - round(4 * screen.unit)
    else:
        place.left = box.right + round(4 * screen.unit)
    paint_tick(brushes, place)


def _paint_watch(screen: LessonView, brushes: Brushes, side: pygame.Rect) -> None:
    """While the tool moves beads: an eye, where the buttons stand otherwise."""
    size = round(7 * screen.unit)
    sign = brushes.pictures.get("icon-eye", size, brushes.theme.soft_ink)
    at = sign.get_rect(bottomleft=side.bottomleft)
    brushes.surface.blit(sign, at)
    beside = pygame.Rect(at.right + round(2 * screen.unit), at.top, side.w, at.h)
    beside.w = side.right - beside.left
    brushes.text(screen.room.words.text("lesson.watch"), beside, 1, soft=True, bold=True)

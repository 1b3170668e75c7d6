"""Paints the lesson screen: the sum, the sentence, the card with the rule, the progress."""

from collections.abc import Sequence

import pygame

from frame.course.runner import Stage
from frame.language.wording import finger_text, move_text, rule
from frame.practice.exercises import Kind
from frame.practice.rungs import Asked
from frame.practice.work import Help, Work
from frame.screens.asked_painting import paint_asked, paint_call, paint_own, paint_rungs
from frame.screens.lesson_layout import Places, is_spoken, places_of
from frame.screens.lesson_view import LessonView
from frame.screens.printed import printed, printed_parts
from frame.screens.sentence import paint_sentence
from frame.technique.beads import BeadMove
from frame.technique.fingers import finger_of
from frame.view.lettering import grouped
from frame.view.theme import type_size
from frame.view.widgets import Brushes, paint_string, paint_tick

_MOST_ROWS = 5
_LOW_ROW = 7.0
_MOST_NAMED_RODS = 7


def paint(screen: LessonView, brushes: Brushes) -> None:
    """Paint all but the buttons."""
    places = places_of(screen)
    _paint_header(screen, brushes, places)
    if screen.has_field:
        screen.field.paint(brushes.surface)
        _paint_place_names(screen, brushes)
    elif screen.runner.work is not None:
        paint_own(screen, brushes, places.frame, screen.runner.work.exercise)
    _paint_side(screen, brushes, places.side)
    _paint_progress(screen, brushes, places)


def _paint_header(screen: LessonView, brushes: Brushes, places: Places) -> None:
    work = screen.runner.work
    kind = work.exercise.kind if work is not None else None
    if work is not None and work.exercise.asked is not Asked.SHOWN:
        paint_asked(screen, brushes, places.sum)
    elif work is not None and kind is Kind.SUM and screen.has_field:
        parts = printed_parts(work.exercise, screen.room.words)
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
    are_named = 1 < len(field.frame.digits) <= _MOST_NAMED_RODS
    if not screen.room.settings.place_names or not are_named:
        return
    top = field.box.bottom + round(0.5 * screen.unit)
    for rod, middle in field.rod_places():
        place = pygame.Rect(0, top, field.layout.spacing, round(4 * screen.unit))
        place.centerx = middle
        brushes.text(grouped(str(10**rod)), place, 0, soft=True, align="centre")


def _paint_progress(screen: LessonView, brushes: Brushes, places: Places) -> None:
    runner, work = screen.runner, screen.runner.work
    is_on_ladder = work is not None and not work.exercise.own and not runner.is_set_told_at_end
    if not screen.is_course and is_on_ladder and work is not None:
        paint_rungs(screen, brushes, places.string, work.exercise.rung)
    else:
        paint_string(brushes, screen.room.painter, places.string, runner.done, runner.total)
    count = min(runner.done + 1, runner.total)
    text = screen.room.words.text("lesson.step_count", done=count, all=runner.total)
    brushes.text(text, places.count, 0, soft=True, align="right")


def _paint_side(screen: LessonView, brushes: Brushes, side: pygame.Rect) -> None:
    runner, work = screen.runner, screen.runner.work
    if not brushes.needs(side):
        return
    if runner.stage is Stage.ANSWER:
        box = pygame.Rect(side.left, side.top, side.w, round(10.5 * screen.unit))
        brushes.box(box, brushes.theme.card, brushes.theme.hairline)
        typed = grouped(screen.answer.typed) if screen.answer.typed else "?"
        inner = box.inflate(-round(screen.unit), 0)
        brushes.text(typed, inner, 3, bold=True, align="centre")
    elif runner.stage is Stage.PRESENT:
        paint_call(screen, brushes, side)
    elif runner.stage is Stage.DONE and work is not None:
        if work.right and not runner.is_set_told_at_end:
            _paint_done(screen, brushes)
    elif work is not None and _shows_card(work):
        _paint_card(screen, brushes, side, work)
    if runner.stage is Stage.DEMO:
        _paint_watch(screen, brushes, side)


def _paint_done(screen: LessonView, brushes: Brushes) -> None:
    """The tick, close to the beads that were looked at."""
    box = screen.field.box
    place = screen.rect(0, 0, 14, 14)
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


def _shows_card(work: Work) -> bool:
    """The rule and its moves are seen while the tool leads, and when asked for."""
    if work.step is None or work.exercise.kind in (Kind.READ, Kind.CLEAR):
        return False
    return work.exercise.rung.is_led or work.level >= Help.TEACH


def _paint_card(screen: LessonView, brushes: Brushes, side: pygame.Rect, work: Work) -> None:
    """The rule as a formula, and its moves; those made are soft, the next is lit."""
    step, one = work.step, screen.unit
    if step is None or work.judge is None or not step.moves:
        return
    left = work.judge.progress.left_in_step
    moves = step.moves if len(step.moves) <= _MOST_ROWS else left[:_MOST_ROWS]
    more = len(left) > _MOST_ROWS
    head_height = round(12 * one)
    room = _top_of_buttons(screen, side) - round(2 * one) - side.top - head_height
    rows = len(moves) + more
    row = min(round(7.2 * one), room // rows)
    box = pygame.Rect(side.left, side.top, side.w, head_height + row * rows)
    brushes.box(box, brushes.theme.card, brushes.theme.hairline)
    inner = box.inflate(-round(6 * one), 0)
    head = pygame.Rect(inner.left, inner.top + round(one), inner.w, round(8 * one))
    brushes.text(rule(step, screen.room.words), head, 2, bold=True)
    below = head.bottom + round(1.5 * one)
    line = pygame.Rect(inner.left, head.bottom, inner.w, max(1, round(one / 5)))
    brushes.surface.fill(brushes.theme.hairline, line)
    for index, move in enumerate(moves):
        place = pygame.Rect(inner.left, below + index * row, inner.w, row)
        _paint_move(screen, brushes, place, move, to_come=move in left, lit=move in work.next_moves)
    if more:
        place = pygame.Rect(inner.left, below + len(moves) * row, inner.w, row)
        brushes.text("…", place, 1, soft=True)


def _top_of_buttons(screen: LessonView, side: pygame.Rect) -> int:
    """Where the buttons of the side begin."""
    tops = [button.place.top for button in screen.buttons if side.contains(button.place)]
    return min(tops, default=side.bottom)


def _paint_move(
    screen: LessonView, brushes: Brushes, place: pygame.Rect, move: BeadMove, *, to_come: bool,
    lit: bool,
) -> None:  # fmt: skip
    words, one = screen.room.words, screen.unit
    if lit:
        around = place.inflate(round(3 * one), -round(0.6 * one))
        brushes.box(around, brushes.theme.hint_wash)
    is_up = (move.change < 0) == move.is_heaven
    badge = screen.room.painter.badge(round(4.2 * one), finger_of(move), is_up=is_up)
    at = badge.get_rect(midleft=place.midleft)
    brushes.surface.blit(badge, at)
    small = type_size(0, brushes.surface.get_height())
    # In a low row the badge alone tells the finger, so that the move keeps to one line.
    named = finger_text(move, words) if place.h > _LOW_ROW * one else ""
    finger = pygame.Rect(0, place.top, brushes.lettering.width(named, small) + 2, place.h)
    finger.right = place.right
    text = pygame.Rect(at.right + round(1.5 * one), place.top, 0, place.h)
    text.w = finger.left - text.left - round(one)
    brushes.text(move_text(move, words), text, 1, bold=lit, soft=not to_come)
    brushes.text(named, finger, 0, soft=True, align="right")

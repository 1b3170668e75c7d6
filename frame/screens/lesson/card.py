"""The card with the rule of a step and its moves: those made are soft, the next is lit."""

import pygame

from frame.language.wording import finger_text, move_text, names_rods, whole_rule
from frame.practice.exercises import Kind
from frame.practice.touches import Help
from frame.practice.work import Work
from frame.screens.lesson.scene import Scene
from frame.technique.beads import BeadMove
from frame.technique.fingers import finger_of
from frame.technique.plan import Step
from frame.view.theme import type_size
from frame.view.widgets import Brushes

_MOST_ROWS = 5
_LOW_ROW = 7.0


def shows_card(work: Work) -> bool:
    """The rule and its moves are seen while the tool leads, and when asked for."""
    if work.step is None or work.exercise.kind in (Kind.READ, Kind.CLEAR):
        return False
    return work.exercise.rung.is_led or work.level >= Help.TEACH


def paint_card(scene: Scene, brushes: Brushes, side: pygame.Rect, work: Work) -> None:
    """The rule as a formula, and its moves."""
    step = work.step
    if step is None or work.judge is None or not step.moves:
        return
    if scene.is_wide:
        _paint_low_card(scene, brushes, side, work, step)
    elif scene.places.is_stacked:
        above = side.copy()
        above.h = _top_of_buttons(scene, side) - round(2 * scene.unit) - side.top
        _paint_low_card(scene, brushes, above, work, step)
    else:
        _paint_high_card(scene, brushes, side, work, step)


def _paint_low_card(
    scene: Scene, brushes: Brushes, side: pygame.Rect, work: Work, step: Step
) -> None:
    """The rule, and the next stroke below it, a move a row."""
    one, stroke = scene.unit, work.next_stroke
    brushes.box(side, brushes.theme.card, brushes.theme.hairline)
    inner = side.inflate(-round(4 * one), -round(1.4 * one))
    row = pygame.Rect(inner.left, inner.top, inner.w, inner.h // max(2, 1 + len(stroke)))
    brushes.text(whole_rule(step, scene.room.words), row, 1, bold=True)
    for move in stroke:
        row = row.move(0, row.h)
        _paint_move(scene, brushes, row, move, to_come=True, lit=True, name_rod=names_rods(step))


def _paint_high_card(
    scene: Scene, brushes: Brushes, side: pygame.Rect, work: Work, step: Step
) -> None:
    if work.judge is None:
        return
    one = scene.unit
    left = work.judge.progress.left_in_step
    is_whole = len(step.moves) <= _MOST_ROWS and set(left) <= set(step.moves)
    # A hand half through a move, or on a way of its own, sees what is left of it.
    moves = step.moves if is_whole else (left or step.moves)[:_MOST_ROWS]
    more = not is_whole and len(left) > _MOST_ROWS
    is_named = len(work.frame.digits) > 1  # On one rod there are no ones yet.
    head_height = round(12 * one)
    room = _top_of_buttons(scene, side) - round(2 * one) - side.top - head_height
    rows = len(moves) + more
    row = min(round(7.2 * one), room // rows)
    box = pygame.Rect(side.left, side.top, side.w, head_height + row * rows)
    brushes.box(box, brushes.theme.card, brushes.theme.hairline)
    inner = box.inflate(-round(6 * one), 0)
    head = pygame.Rect(inner.left, inner.top + round(one), inner.w, round(8 * one))
    brushes.text(whole_rule(step, scene.room.words), head, 2, bold=True)
    below = head.bottom + round(1.5 * one)
    line = pygame.Rect(inner.left, head.bottom, inner.w, max(1, round(one / 5)))
    brushes.surface.fill(brushes.theme.hairline, line)
    for index, move in enumerate(moves):
        place = pygame.Rect(inner.left, below + index * row, inner.w, row)
        lit = move in work.next_stroke
        _paint_move(scene, brushes, place, move, to_come=move in left, lit=lit, name_rod=is_named)
    if more:
        place = pygame.Rect(inner.left, below + len(moves) * row, inner.w, row)
        brushes.text("…", place, 1, soft=True)


def _top_of_buttons(scene: Scene, side: pygame.Rect) -> int:
    """Where the buttons of the side begin."""
    tops = [place.top for place in scene.buttons if side.contains(place)]
    return min(tops, default=side.bottom)


def _paint_move(
    scene: Scene, brushes: Brushes, place: pygame.Rect, move: BeadMove, *, to_come: bool,
    lit: bool, name_rod: bool,
) -> None:  # fmt: skip
    words, one = scene.room.words, scene.unit
    if lit:
        around = place.inflate(round(3 * one), -round(0.6 * one))
        brushes.box(around, brushes.theme.hint_wash)
    is_up = (move.change < 0) == move.is_heaven
    badge = scene.room.painter.badge(round(4.2 * one), finger_of(move), is_up=is_up)
    at = badge.get_rect(midleft=place.midleft)
    brushes.surface.blit(badge, at)
    small, usual = (type_size(step, brushes.surface.get_height()) for step in (0, 1))
    said, named = move_text(move, words, name_rod), finger_text(move, words)
    finger = pygame.Rect(0, place.top, brushes.lettering.width(named, small) + 2, place.h)
    finger.right = place.right
    text = pygame.Rect(at.right + round(1.5 * one), place.top, 0, place.h)
    text.w = finger.left - text.left - round(one)
    # In a low or narrow row the badge alone tells the finger, so that the move keeps to one line.
    if place.h <= _LOW_ROW * one or text.w < brushes.lettering.width(said, usual, bold=lit):
        named, text.w = "", place.right - text.left
    fits = brushes.lettering.width(said, usual, bold=lit) <= text.w
    brushes.text(said, text, int(fits), bold=lit, soft=not to_come)
    brushes.text(named, finger, 0, soft=True, align="right")

"""Where things stand on the lesson screen, and how they are painted."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING

import pygame

from frame.course.runner import Stage
from frame.language.wording import finger_text, move_text, rule
from frame.practice.exercises import Exercise, Kind
from frame.practice.work import Help
from frame.screens.keypad import key_digit, keypad
from frame.technique.beads import BeadMove
from frame.technique.fingers import finger_of
from frame.technique.judge import Strictness
from frame.technique.plan import Step
from frame.technique.reading import plain
from frame.view.bead_keys import is_bead_key, stroke_of_key
from frame.view.inputs import Key
from frame.view.lettering import grouped
from frame.view.theme import type_size
from frame.view.widgets import Brushes, Button, Style, paint_string, paint_tick

if TYPE_CHECKING:
    from frame.screens.lesson import LessonScreen

_MARGIN = 12
_TOP = 18.5
_FRAME_HEIGHT = 59
_MOST_ROWS = 4


@dataclass(frozen=True, slots=True)
class Places:
    """The parts of the screen: the header's sum and sentence, the frame, the side, the string."""

    sum: pygame.Rect
    line: pygame.Rect
    frame: pygame.Rect
    side: pygame.Rect
    string: pygame.Rect


def places_of(screen: LessonScreen) -> Places:
    """The parts for the window's size; a left-handed layout has the side at the left."""
    across = screen.across
    side_width = max(40.0, min(56.0, across * 0.34))
    frame_width = across - _MARGIN - side_width - 9
    left = screen.room.settings.left_handed
    frame_x = across - 5 - frame_width if left else _MARGIN
    side_x = 6 if left else across - 5 - side_width
    return Places(
        sum=screen.rect(_MARGIN, 2.5, across - _MARGIN - 5, 8.5),
        line=screen.rect(_MARGIN, 11, across - _MARGIN - 5, 7),
        frame=screen.rect(frame_x, _TOP, frame_width, _FRAME_HEIGHT),
        side=screen.rect(side_x, _TOP, side_width, _FRAME_HEIGHT),
        string=screen.rect(_MARGIN, 84, across - _MARGIN - 20, 4),
    )


def arrange(screen: LessonScreen) -> None:
    """Place the frame, and the buttons for what the lesson waits for."""
    places = places_of(screen)
    screen.field.painter = screen.room.painter
    screen.field.place(places.frame)
    side, scale, one = places.side, screen.room.button_scale, screen.unit
    high = round(9 * one * scale)
    if screen.runner.stage is Stage.TELL:
        _main(screen, "lesson.go_on", screen.go_on, _row(side, high * 1.3, 0.62))
    elif screen.runner.stage is Stage.WORK:
        _arrange_work(screen, side, high)
    elif screen.runner.stage is Stage.ANSWER:
        _arrange_keys(screen, side)
    elif screen.runner.stage is Stage.END:
        _arrange_end(screen, side, high)


def _row(side: pygame.Rect, height: float, share: float) -> pygame.Rect:
    place = pygame.Rect(side.left, 0, side.w, round(height))
    place.centery = round(side.top + side.h * share)
    return place


def _main(screen: LessonScreen, key: str, act: object, place: pygame.Rect) -> None:
    text = screen.room.words.text(key)
    screen.buttons.append(Button(place, act, text, style=Style.MAIN, step=2))  # type: ignore[arg-type]


def _arrange_work(screen: LessonScreen, side: pygame.Rect, high: int) -> None:
    gap = round(2 * screen.unit)
    half = (side.w - gap) // 2
    bottom = side.bottom - high
    words = screen.room.words
    show = pygame.Rect(side.left, bottom, half, high)
    undo = pygame.Rect(side.left + half + gap, bottom, half, high)
    screen.buttons.append(Button(show, screen.show_me, words.text("lesson.show_me")))
    screen.buttons.append(Button(undo, screen.undo, words.text("lesson.undo")))
    work = screen.runner.work
    by_answer = screen.room.settings.strictness is Strictness.ANSWER
    if work is not None and (work.is_covered or by_answer):
        done = pygame.Rect(side.left, bottom - high - gap, side.w, high)
        _main(screen, "lesson.done", screen.say_done, done)


def _arrange_keys(screen: LessonScreen, side: pygame.Rect) -> None:
    """The digit keys under the place where the number is shown."""
    top = side.top + round(12 * screen.unit)
    area = pygame.Rect(side.left, top, side.w, side.bottom - top)
    screen.buttons += keypad(area, screen.unit, screen.type_digit, screen.answer)


def _arrange_end(screen: LessonScreen, side: pygame.Rect, high: int) -> None:
    words, gap = screen.room.words, round(2 * screen.unit)
    passed = screen.runner.passed
    entries = [
        (words.text("lesson.next"), screen.next_lesson, Style.MAIN),
        (words.text("lesson.again"), screen.once_more, Style.PLAIN),
        (words.text("lesson.home"), screen.back, Style.PLAIN),
    ]
    if not passed:
        entries = [
            (words.text("lesson.again"), screen.once_more, Style.MAIN),
            (words.text("lesson.home"), screen.back, Style.PLAIN),
        ]
    top = side.bottom - len(entries) * (high + gap) + gap
    for index, (text, act, style) in enumerate(entries):
        place = pygame.Rect(side.left, top + index * (high + gap), side.w, high)
        screen.buttons.append(Button(place, act, text, style=style))  # type: ignore[arg-type]


def paint(screen: LessonScreen, brushes: Brushes) -> None:
    """Paint all but the buttons."""
    places = places_of(screen)
    _paint_header(screen, brushes, places)
    screen.field.paint(brushes.surface)
    _paint_place_names(screen, brushes)
    _paint_side(screen, brushes, places.side)
    _paint_progress(screen, brushes, places.string)


def _paint_header(screen: LessonScreen, brushes: Brushes, places: Places) -> None:
    runner, words = screen.runner, screen.room.words
    exercise = runner.work.exercise if runner.work else None
    if exercise is not None and exercise.kind is Kind.SUM:
        _paint_sum(brushes, places.sum, exercise, runner.work.term if runner.work else 0)
    elif exercise is not None and exercise.kind is Kind.SET:
        text = grouped(plain(exercise.sum.terms[0]))
        brushes.text(text, places.sum, 3, bold=True)
    else:
        brushes.text(runner.lesson.title, places.sum, 2, bold=True)
    line = screen.said or runner.line
    if runner.stage is Stage.END:
        line = words.line("lesson.passed" if runner.passed else "lesson.another_day")
    if line is not None:
        brushes.text(line.show, places.line, 1, soft=screen.said is None)


def _paint_sum(brushes: Brushes, place: pygame.Rect, exercise: Exercise, term: int) -> None:
    """The column in one line; the number being worked is dark, the others soft."""
    parts = [
        (f"{'−' if one < 0 else '+'} " if index else "") + grouped(plain(abs(one)))
        for index, one in enumerate(exercise.sum.terms)
    ]
    pixels = type_size(3, brushes.surface.get_height())
    lettering = brushes.lettering
    gap = pixels * 0.35
    while sum(lettering.width(part, pixels, True) + gap for part in parts) > place.w:
        pixels -= 1
        gap = pixels * 0.35
    left = float(place.left)
    for index, part in enumerate(parts):
        width = lettering.width(part, pixels, True)
        cell = pygame.Rect(round(left), place.top, width + 2, place.h)
        scale = pixels / type_size(3, brushes.surface.get_height())
        colour = brushes.theme.ink if index == term else brushes.theme.soft_ink
        lettering.draw(
            brushes.surface, part, cell, 3, colour, bold=index == term or index == 0, scale=scale
        )
        left += width + gap


def _paint_place_names(screen: LessonScreen, brushes: Brushes) -> None:
    field = screen.field
    if not screen.room.settings.place_names or len(field.frame.digits) > 7:
        return
    top = field.box.bottom + round(0.5 * screen.unit)
    for rod, middle in field.rod_places():
        place = pygame.Rect(0, top, field.layout.spacing, round(4 * screen.unit))
        place.centerx = middle
        brushes.text(grouped(str(10**rod)), place, 0, soft=True, align="centre")


def _paint_progress(screen: LessonScreen, brushes: Brushes, place: pygame.Rect) -> None:
    runner = screen.runner
    paint_string(brushes, place, runner.done, runner.total)
    beside = pygame.Rect(place.right + round(screen.unit), place.top, 0, place.h)
    beside.w = screen.size[0] - beside.left - round(4 * screen.unit)
    count = min(runner.done + 1, runner.total)
    text = screen.room.words.text("lesson.step_count", done=count, all=runner.total)
    brushes.text(text, beside, 0, soft=True, align="right")


def _paint_side(screen: LessonScreen, brushes: Brushes, side: pygame.Rect) -> None:
    runner, work = screen.runner, screen.runner.work
    if runner.stage is Stage.ANSWER:
        box = pygame.Rect(side.left, side.top, side.w, round(10.5 * screen.unit))
        brushes.box(box, brushes.theme.card, brushes.theme.hairline)
        brushes.text(screen.typed or "?", box, 3, bold=True, align="centre")
    elif runner.stage is Stage.DONE and runner.attempts[-1].right:
        middle = screen.rect(0, 0, 16, 16)
        middle.center = side.centerx, round(side.top + side.h * 0.36)
        paint_tick(brushes, middle)
    elif work is not None and work.step is not None and _shows_card(screen):
        _paint_card(screen, brushes, side, work.step)


def _shows_card(screen: LessonScreen) -> bool:
    """The rule and its moves are seen while the tool leads, and when asked for."""
    work = screen.runner.work
    if work is None or work.exercise.kind in (Kind.READ, Kind.CLEAR):
        return False
    led = work.exercise.rung.is_led or work.replaying
    return led or work.level >= Help.TEACH


def _paint_card(screen: LessonScreen, brushes: Brushes, side: pygame.Rect, step: Step) -> None:
    """The rule as a formula, and its moves; those made are soft, the next is lit."""
    one, words = screen.unit, screen.room.words
    moves = step.moves[:_MOST_ROWS]
    row = round(7.5 * one)
    box = pygame.Rect(side.left, side.top, side.w, round(12 * one) + row * len(moves))
    brushes.box(box, brushes.theme.card, brushes.theme.hairline)
    inner = box.inflate(-round(6 * one), 0)
    head = pygame.Rect(inner.left, inner.top + round(one), inner.w, round(8 * one))
    brushes.text(rule(step, words), head, 2, bold=True)
    rule_end = pygame.Rect(inner.left, head.bottom, inner.w, max(1, round(one / 5)))
    brushes.surface.fill(brushes.theme.hairline, rule_end)
    left = list(screen.runner.work.judge.progress.left_in_step if _judged(screen) else ())
    for index, move in enumerate(moves):
        place = pygame.Rect(inner.left, rule_end.bottom + round(one) + index * row, inner.w, row)
        _paint_move(screen, brushes, place, move, to_come=move in left, lit=left[:1] == [move])


def _judged(screen: LessonScreen) -> bool:
    return screen.runner.work is not None and screen.runner.work.judge is not None


def _paint_move(
    screen: LessonScreen, brushes: Brushes, place: pygame.Rect, move: BeadMove, *, to_come: bool,
    lit: bool,
) -> None:  # fmt: skip
    words = screen.room.words
    if lit:
        around = place.inflate(round(3 * screen.unit), -round(screen.unit))
        brushes.box(around, brushes.theme.hint_wash)
    size = round(4.2 * screen.unit)
    is_up = (move.change < 0) == move.is_heaven
    badge = brushes.painter.badge(size, finger_of(move), is_up=is_up)
    at = badge.get_rect(midleft=place.midleft)
    brushes.surface.blit(badge, at)
    finger = pygame.Rect(0, place.top, round(place.w * 0.26), place.h)
    finger.right = place.right
    text = pygame.Rect(at.right + round(1.5 * screen.unit), place.top, 0, place.h)
    text.w = finger.left - text.left - round(screen.unit)
    brushes.text(move_text(move, words), text, 1, bold=lit, soft=not to_come)
    brushes.text(finger_text(move, words), finger, 0, soft=True, align="right")


def take_key(screen: LessonScreen, key: Key) -> bool:
    """Keys that work beads or type digits. Whether the key was meant so."""
    if screen.runner.stage is Stage.ANSWER:
        return _type_key(screen, key)
    if screen.runner.stage is not Stage.WORK or screen.focus is not None:
        return False
    if key.control and key.code == pygame.K_z:
        screen.undo()
        return True
    if not is_bead_key(key):
        return False
    stroke = stroke_of_key(screen.field, key)
    if stroke is not None:
        screen.touch(stroke)
    return True


def _type_key(screen: LessonScreen, key: Key) -> bool:
    enter = key.code in (pygame.K_RETURN, pygame.K_KP_ENTER)
    if digit := key_digit(key):
        screen.type_digit(digit)
    elif enter and screen.typed and screen.focus is None:
        screen.answer()
    else:
        return False
    return True

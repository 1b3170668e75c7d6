"""Paints the board, to be read from afar: no text below 4 % of the window's height, the sum at
12 %."""

from __future__ import annotations

from decimal import Decimal
from typing import TYPE_CHECKING

import pygame

from frame.course.agenda import Act
from frame.course.board import Shown, Stage
from frame.language.numbers import grouped
from frame.language.printed import printed, printed_sum
from frame.language.verdicts import verdict_line
from frame.language.wording import rule
from frame.language.written import work_line
from frame.technique.reading import plain
from frame.view.widgets import Brushes

if TYPE_CHECKING:
    from frame.screens.board.screen import BoardScreen

LEAST_STEP = 2
"""The smallest type size on the board: 4.5 % of the window's height."""
_LINE_TOP = 70.7
_DIM = 150


def paint_board(screen: BoardScreen, brushes: Brushes) -> None:
    """The sum, the answer, the frame, the line below it."""
    shown = screen.shown
    _paint_head(screen, brushes, shown)
    if shown is not None:
        screen.field.paint(brushes.surface)
        _paint_names(screen, brushes)
        _paint_line(screen, brushes, shown)
        if screen.shows.spot:
            _paint_spot(screen, brushes)
    if not screen.has_bar:
        _paint_foot(screen, brushes, shown)
    else:
        _paint_timeline(screen, brushes, shown)
        _paint_tool_name(screen, brushes)
    if screen.shows.ring and screen.mouse is not None:
        size = round(5 * screen.unit)
        for width, colour in ((size, brushes.theme.ink), (size - 2, brushes.theme.hint)):
            pygame.draw.circle(brushes.surface, colour, screen.mouse, width, round(screen.unit))


def _paint_head(screen: BoardScreen, brushes: Brushes, shown: Shown | None) -> None:
    """The sum at the left, the answer at the right; what is typed instead of the sum."""
    wide = screen.across - 12
    head = screen.rect(6, 2, wide * 0.72, 14)
    if screen.typed.is_open:
        mark = " ?" if screen.typed.is_wrong else "_"
        brushes.text(f"{screen.typed.text}{mark}", head, 4, bold=True)
        return
    if shown is None:
        text = screen.note or screen.room.words.text("board.empty")
        brushes.text(text, screen.rect(6, 30, wide, 24), 3, align="centre")
        return
    is_told = shown.stage is Stage.TOLD
    called = _number_called(screen, shown)
    if called:
        text = called
    elif shown.is_worked or is_told:
        text = printed_sum(shown.item.sum, screen.room.words)
    else:
        text = screen.room.words.text(f"board.title_{shown.item.act}")
    is_number = shown.item.act is Act.READ
    if not (is_number and is_told):
        brushes.text(text, head, 4, bold=True)
    answer = screen.rect(6 + wide * 0.72, 2, wide * 0.28, 14)
    said = printed(shown.plan.result) if is_told else "?"
    if is_told and shown.plan.remainder:
        words = screen.room.words
        said = words.text("board.rest", number=shown.plan.result, rest=shown.plan.remainder)
    brushes.text(f"= {said}", answer, 4, bold=is_told, align="right")


def _number_called(screen: BoardScreen, shown: Shown) -> str:
    """Without sound, the number that is called now."""
    call = screen.calling
    if call is None or (call.is_heard and screen.room.can_speak):
        return ""
    at = call.number(screen.room.seconds())
    return "" if at is None else printed(shown.item.sum.numbers[at])


def _paint_timeline(screen: BoardScreen, brushes: Brushes, shown: Shown | None) -> None:
    """How far the work is, with a mark where each step begins."""
    if shown is None or not shown.last or not screen.has_timeline:
        return
    line, one = screen.timeline, max(2, round(screen.unit * 0.5))
    bar = pygame.Rect(line.left, line.centery - one // 2, line.w, one)
    brushes.surface.fill(brushes.theme.rod, bar)
    done = pygame.Rect(bar.left, bar.top - one // 2, round(line.w * shown.at / shown.last), 2 * one)
    brushes.surface.fill(brushes.theme.ink, done)
    for span in shown.plan.span_of:
        x = line.left + round(line.w * span.start / shown.last)
        brushes.surface.fill(brushes.theme.ink, (x, line.top, max(1, one // 2), line.h))


def _paint_names(screen: BoardScreen, brushes: Brushes) -> None:
    """The places under the rods where they are wide enough for their names, else the ones alone."""
    field = screen.field
    if not screen.shows.names or screen.is_covered:
        return
    top, height = field.box.bottom, round(4.75 * screen.unit)
    rods = len(field.frame.digits)
    for rod, middle in field.rod_places():
        if rod != 0 and (rods > 7 or abs(rod) > 3):
            continue
        place = pygame.Rect(0, top, field.layout.spacing, height)
        place.centerx = middle
        name = grouped(plain(Decimal(10) ** rod))
        brushes.text(name, place, LEAST_STEP, align="centre")


def _line_place(screen: BoardScreen, shown: Shown | None) -> pygame.Rect:
    """Where the rule stands; the word on a try has two lines, and the timeline's place with it."""
    wide = screen.across * 0.76 - 7 if screen.shows.reading else screen.across - 12
    return screen.rect(6, _LINE_TOP, wide, 9.7 if shown is not None and shown.hand else 6)


def _paint_line(screen: BoardScreen, brushes: Brushes, shown: Shown) -> None:
    """The word on a try, or the rule of the step; and what the frame reads."""
    line = _line_place(screen, shown)
    words = screen.room.words
    own = "" if shown.hand or shown.is_begun else shown.item.line
    if screen.note or own:
        brushes.line(screen.note or own, line, 3, least=LEAST_STEP)
    elif shown.hand:
        if screen.shows.verdict and shown.verdict is not None:
            word = verdict_line(shown.verdict, words, screen.room.listener)
            brushes.text(word.show, line, LEAST_STEP, bold=True)
    elif screen.shows.rule and shown.is_worked and shown.step is not None and shown.at < shown.last:
        act = shown.step.operation.act
        is_written = not act.is_of_column
        said = work_line(shown.step.operation, words).show if is_written else ""
        brushes.line(said or rule(shown.step, words), line, 3, least=LEAST_STEP, bold=True)
    if screen.shows.reading and not screen.is_covered:
        place = screen.rect(screen.across * 0.76, _LINE_TOP, screen.across * 0.24 - 6, 6)
        brushes.text(printed(shown.reading), place, 3, align="right")


def _paint_foot(screen: BoardScreen, brushes: Brushes, shown: Shown | None) -> None:
    """How far it is: which bead of how many, which item of how many."""
    words, place = screen.room.words, screen.rect(6, 82, screen.across - 12, 6)
    if shown is not None and shown.is_worked:
        text = words.text("board.bead", at=shown.at, all=shown.last)
        brushes.text(text, place, LEAST_STEP)
    if len(screen.board.items) > 1:
        text = words.text("board.item", at=screen.board.at + 1, all=len(screen.board.items))
        brushes.text(text, place, LEAST_STEP, align="right")


def _paint_tool_name(screen: BoardScreen, brushes: Brushes) -> None:
    """The name of the tool in focus or under the mouse, above the bar."""
    index = screen.focus
    if index is None and screen.mouse is not None:
        index = screen.button_at(screen.mouse)
    if index is None:
        return
    place = _line_place(screen, screen.shown)
    place.w = round(screen.size[0] - 2 * place.left)
    brushes.surface.fill(brushes.theme.ground, place)
    brushes.text(screen.buttons[index].name, place, LEAST_STEP, align="centre")


def _paint_spot(screen: BoardScreen, brushes: Brushes) -> None:
    """All rods but one in the shade."""
    field, rod = screen.field, screen.spot_at
    middles = dict(field.rod_places())
    if rod is None or rod not in middles:
        return
    half = field.layout.spacing // 2
    shade = pygame.Surface(field.box.size, pygame.SRCALPHA)
    shade.fill((*brushes.theme.ground, _DIM))
    hole = pygame.Rect(middles[rod] - half - field.box.left, 0, 2 * half, field.box.h)
    shade.fill((0, 0, 0, 0), hole)
    brushes.surface.blit(shade, field.box)

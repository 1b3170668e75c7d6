"""The fields of a task of a sheet: its number, and beside it what is left over, where that is."""

import pygame

from frame.language.numbers import grouped
from frame.room import Room
from frame.sheets.typed_in import Field, TypedIn
from frame.view.theme import unit
from frame.view.widgets import Brushes

_NUMBER_SHARE = 0.6


def paint_fields(brushes: Brushes, room: Room, typed: TypedIn, place: pygame.Rect) -> None:
    """What is typed, and where the next sign goes."""
    for of, at in _places(brushes, typed, place).items():
        _paint_field(brushes, room, typed, of, at)


def _places(brushes: Brushes, typed: TypedIn, place: pygame.Rect) -> dict[Field, pygame.Rect]:
    if not typed.has_rest:
        return {Field.NUMBER: place}
    gap = round(unit(brushes.height))
    number = pygame.Rect(place.left, place.top, round(_NUMBER_SHARE * place.w), place.h)
    rest = pygame.Rect(number.right + gap, place.top, place.right - number.right - gap, place.h)
    return {Field.NUMBER: number, Field.REST: rest}


def _paint_field(
    brushes: Brushes, room: Room, typed: TypedIn, of: Field, place: pygame.Rect
) -> None:  # fmt: skip
    theme, one, is_here = brushes.theme, unit(brushes.height), of is typed.into
    brushes.box(place, theme.card, theme.ink if is_here else theme.hairline)
    inside = place.inflate(-round(2 * one), -round(one))
    if text := typed.text(of):
        brushes.line(grouped(text), inside, 3, least=0, bold=True, align="centre")
    elif of is Field.REST:
        brushes.text(room.words.text("marks.told.rest"), inside, 0, soft=True, align="centre")
    if is_here and not text:
        caret = pygame.Rect(0, 0, max(2, round(one / 4)), round(inside.h * 0.7))
        caret.center = inside.center
        brushes.surface.fill(theme.ink, caret)

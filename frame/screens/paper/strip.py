"""The tasks of a paper in a strip: a number for each, and below it a bead that lies at the beam
once there is an answer."""

from collections.abc import Callable, Iterator
from functools import partial

import pygame

from frame.course.paper import Paper
from frame.language.catalogue import Words
from frame.screens.paper.graded import section_names
from frame.screens.parts.page import Tab
from frame.sheets.sheet import Sheet
from frame.view.painter import Painter
from frame.view.widgets import Brushes, Button, Style

AT_ONCE, AT_ONCE_NARROW = 15, 10
"""So many numbers are seen at a time."""
_GAP = 0.6
"""Units between two of them."""
_BEAD, _FREE = 0.6, 0.3
"""The height of a bead, and how far it lies from the beam before: in shares of the place."""
_FLAT = 1.4
"""How many times as wide as high a bead is."""


def seen_of(sheet: Sheet, at: int, most: int) -> range:
    """The indices of the tasks that are seen beside one: of its section, unless all have room."""
    count = len(sheet.tasks)
    within = range(count) if count <= most else next(one for one in sheet.bounds if at in one)
    first = within.start + (at - within.start) // most * most
    return range(first, min(first + most, within.stop))


def section_tabs(paper: Paper, go: Callable[[int], object], words: Words) -> list[Tab]:
    """The sections of a whole paper, each with how many of it are answered; one leads to its first
    task without an answer."""
    sheet, tabs = paper.sheet, []
    sections = zip(
        section_names(sheet.recipe, words), sheet.bounds, paper.open_of_sections, strict=True
    )
    for name, bounds, waiting in sections:
        text = words.text(
            "paper.told.section", part=name, answered=len(bounds) - len(waiting), all=len(bounds)
        )
        first = next(iter(waiting), bounds.start)
        tabs.append(Tab(text, partial(go, first), paper.at in bounds))
    return tabs


def places_in(row: pygame.Rect, most: int, unit: float) -> list[pygame.Rect]:
    """The places in a row for what turns back, for so many numbers, and for what turns on."""
    gap = round(_GAP * unit)
    wide = (row.w - gap * (most + 1)) / (most + 2)
    return [
        pygame.Rect(round(row.left + at * (wide + gap)), row.top, round(wide), row.h)
        for at in range(most + 2)
    ]


def strip_buttons(
    paper: Paper, places: list[pygame.Rect], go: Callable[[int], object], words: Words
) -> Iterator[Button]:
    """The numbers, and what turns to those before and after them where there are any."""
    back, *cells, on = places
    seen, count = seen_of(paper.sheet, paper.at, len(cells)), len(paper.texts)
    if len(seen) < count:
        before = partial(go, seen.start - 1) if seen.start else None
        after = partial(go, seen.stop) if seen.stop < count else None
        yield Button(back, before, sign="much_less", name=words.text("paper.before"))
        yield Button(on, after, sign="much_more", name=words.text("paper.after"))
    waiting = frozenset(paper.open)
    for cell, at in zip(cells, seen, strict=False):
        key = "paper.told.open" if at in waiting else "paper.told.answered"
        yield Button(
            cell, partial(go, at), str(at + 1), style=Style.CHOICE, step=1 if at < 99 else 0,
            chosen=at == paper.at, name=words.text(key, number=at + 1),
        )  # fmt: skip


def paint_beads(
    brushes: Brushes, painter: Painter, paper: Paper, places: list[pygame.Rect], row: pygame.Rect
) -> None:
    """A beam below the numbers, and a bead for each: at the beam, or away from it."""
    _, *cells, _ = places
    seen, waiting = seen_of(paper.sheet, paper.at, len(cells)), frozenset(paper.open)
    shown = list(zip(cells, seen, strict=False))
    if not brushes.needs(row):
        return
    thick = max(2, row.h // 10)
    beam = pygame.Rect(cells[0].left, row.top, shown[-1][0].right - cells[0].left, thick)
    brushes.surface.fill(brushes.theme.beam, beam)
    high = max(3, round(_BEAD * (row.h - thick)))
    wide = min(round(_FLAT * high), cells[0].w)
    for cell, at in shown:
        is_open = at in waiting
        rod = pygame.Rect(cell.centerx, beam.bottom, max(1, thick // 3), row.h - thick)
        brushes.surface.fill(brushes.theme.rod, rod)
        top = beam.bottom + (round(_FREE * (row.h - thick)) if is_open else 0)
        picture = painter.bead(wide, high, used=not is_open)
        brushes.surface.blit(picture, picture.get_rect(midtop=(cell.centerx, top)))

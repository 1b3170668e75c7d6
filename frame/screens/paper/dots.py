"""Papers that were taken, as dots: the later the further right, the more marks the higher."""

from collections.abc import Callable, Iterator, Sequence
from functools import partial

import pygame

from frame.language.catalogue import Words
from frame.language.days import day_text
from frame.language.lines import Line
from frame.screens.paper.paper_keeping import Past
from frame.sheets.grades import grade
from frame.sheets.recipe import Part, Recipe
from frame.view.theme import type_size
from frame.view.widgets import Brushes, Button, Style

_APART = 7.0
"""Units from one dot to the next."""
_HEADS = 13.0
"""Units left of the dots, for what names their heights."""
_RADIUS, _THICK, _DASH = 1.0, 0.35, 1.2
"""Units: of a dot, of its edge where it is hollow, and of the dashes of a line."""


def enough_of(recipe: Recipe) -> tuple[int, int]:
    """The marks that are enough for a paper, or for a section of it, and all it has; 0 are enough
    where the grade says none."""
    one = grade(recipe.grade)
    if recipe.part is Part.WHOLE:
        return one.pass_marks or sum(each.pass_marks for each in one.sections), one.full_marks
    section = next(each for each in one.sections if each.part is recipe.part)
    return section.pass_marks, section.full_marks


def past_line(past: Past, words: Words, *, is_timed: bool) -> Line:
    """The day, the marks, and of a paper on the screen how long it took, where that is told."""
    taken = past.taken
    said = [
        words.line(
            "paper.dot", day=day_text(words, taken.at.astimezone().date()), marks=taken.marks,
            most=taken.most,
        )
    ]  # fmt: skip
    if taken.on_screen and is_timed:
        said.append(minutes_line(taken.seconds, taken.pauses, words))
    if not taken.on_screen:
        said.append(words.line("paper.on_paper"))
    return Line.joined(said)


def minutes_line(seconds: float, pauses: int, words: Words) -> Line:
    """How long a paper took, and its pauses where there were any."""
    minutes = max(1, round(seconds / 60))
    if pauses:
        return words.line("paper.minutes_pauses", minutes=minutes, pauses=pauses)
    return words.line("paper.minutes", minutes=minutes)


def paint_share(brushes: Brushes, place: pygame.Rect, share: float, enough: float) -> None:
    """A bar that is filled by the share of marks, and a stroke across it at what is enough."""
    theme, unit = brushes.theme, brushes.unit
    brushes.box(place, theme.card, theme.soft_ink, radius=place.h // 2)
    filled = place.inflate(-round(0.8 * unit), -round(0.8 * unit))
    filled.w = round(share * filled.w)
    if filled.w:
        brushes.box(filled, theme.bead_used.face, radius=max(1, filled.h // 2))
    if enough:
        stroke = pygame.Rect(0, 0, max(2, round(_THICK * unit)), place.h + round(1.6 * unit))
        stroke.center = place.left + round(enough * place.w), place.centery
        brushes.surface.fill(theme.ink, stroke)


class Dots:
    """The last papers that have room in an area, each with a strip that can be touched."""

    def __init__(self, area: pygame.Rect, unit: float, papers: Sequence[Past]) -> None:
        self.plot = area.inflate(0, -round(2 * unit))
        self.plot.left = area.left + round(_HEADS * unit)
        self.plot.w = area.right - self.plot.left
        self.area, self.unit = area, unit
        self.papers = tuple(papers)[-max(1, int(self.plot.w // (_APART * unit))) :]

    def _strip(self, at: int) -> pygame.Rect:
        left = self.plot.left + round(at * _APART * self.unit)
        return pygame.Rect(left, self.area.top, round(_APART * self.unit), self.area.h)

    def buttons(
        self, tell: Callable[[Past], object], line_of: Callable[[Past], Line]
    ) -> Iterator[Button]:
        """A strip for each dot, which tells of it."""
        for at, past in enumerate(self.papers):
            name = line_of(past).speak
            yield Button(self._strip(at), partial(tell, past), name=name, style=Style.SIGN)

    def _down(self, share: float) -> int:
        return round(self.plot.bottom - share * self.plot.h)

    def paint(self, brushes: Brushes, recipe: Recipe, told: Past | None, words: Words) -> None:
        """The lines with their names, and the dots; the one that is told has a ring."""
        enough, most = enough_of(recipe)
        heights = [(0.0, "0"), (1.0, str(most))]
        if enough:
            self._paint_dashes(brushes, self._down(enough / most))
            heights.append((enough / most, words.text("paper.told.enough", marks=enough)))
        for share in (0.0, 1.0):
            line = pygame.Rect(self.plot.left, self._down(share), self.plot.w, 1)
            brushes.surface.fill(brushes.theme.soft_ink, line)
        self._paint_names(brushes, heights)
        for at, past in enumerate(self.papers):
            self._paint_dot(brushes, self._strip(at), past, is_told=past == told)

    def _paint_names(self, brushes: Brushes, heights: Sequence[tuple[float, str]]) -> None:
        """The names of heights; what lies too near to the one that is enough is left out."""
        high = round(1.5 * type_size(0, brushes.height))
        taken: list[int] = []
        for share, name in reversed(heights):
            middle = self._down(share)
            if any(abs(other - middle) < high for other in taken):
                continue
            taken.append(middle)
            place = pygame.Rect(self.area.left, middle - high // 2, 0, high)
            place.w = self.plot.left - self.area.left - round(self.unit)
            brushes.text(name, place, 0, soft=True, align="right")

    def _paint_dashes(self, brushes: Brushes, middle: int) -> None:
        dash, thick = max(3, round(_DASH * self.unit)), max(1, round(self.unit / 5))
        for left in range(self.plot.left, self.plot.right - dash, 2 * dash):
            brushes.surface.fill(brushes.theme.ink, (left, middle, dash, thick))

    def _paint_dot(
        self, brushes: Brushes, strip: pygame.Rect, past: Past, *, is_told: bool
    ) -> None:
        """Full where it was taken on the screen, hollow where on paper."""
        at = strip.centerx, self._down(past.taken.marks / past.taken.most)
        radius, colour = max(3, round(_RADIUS * self.unit)), brushes.theme.bead_used.face
        pygame.draw.circle(brushes.surface, colour, at, radius)
        if not past.taken.on_screen:
            inner = max(1, radius - max(2, round(_THICK * self.unit)))
            pygame.draw.circle(brushes.surface, brushes.theme.ground, at, inner)
        if is_told:
            around = pygame.Rect(0, 0, 2 * radius, 2 * radius)
            around.center = at
            brushes.ring(around)

"""What is known as a frame: a rod for each family, with as many beads at the beam as of it is
known. The first bead comes with the first item, the last one when nothing is lacking.

The bead of what came to be known last is lit; what it is about is played on a small frame beside.
"""

from collections.abc import Sequence

import pygame

from frame.language.catalogue import Fact
from frame.language.lines import Line
from frame.language.printed import sum_line
from frame.learner.settings import Age
from frame.practice.figures import FAMILY_OF, FamilyKnown, known_by_family, newest
from frame.practice.items import items_of_facts
from frame.screens.grown.played import Played
from frame.screens.grown.sentences import family_line
from frame.screens.grown.view import GlidingPage, Spot, View
from frame.screens.lesson.practice import learned_facts
from frame.screens.parts.rod_names import HEIGHT, paint_rod_names
from frame.technique.beads import Frame
from frame.view.bead_field import BeadField
from frame.view.geometry import Bead, Layout
from frame.view.widgets import Brushes, Button, Style

FIRST = 10
"""So many families are always there: up to sums through both partners."""
_ALL = 9
"""The digit of a rod with all its beads at the beam."""
_BETWEEN = 1
"""Rods of space between the two frames, and for their borders."""
_PLAY = 44.0
"""Units for the button that plays it, where that stands beside what is told."""
_LEAST_PLAYED = 16.0
"""Units of height for the small frame at least, where it stands below."""
_NAME_ROOM = 6.2
"""Units of space from rod to rod that the names of families need."""


def digit_of(known: FamilyKnown) -> int:
    """The digit whose beads stand for what is known of a family: of the four earth beads one for
    each quarter that is begun, and the heaven bead with the last item.

    >>> [digit_of(FamilyKnown(Family.SET, count, 0, 8)) for count in (0, 1, 2, 7, 8)]
    [0, 1, 2, 4, 9]
    """
    if known.known == known.all:
        return _ALL
    return 1 + 4 * known.known // known.all if known.known else 0


class FamilyFrame(View):
    """The young are told of no counts."""

    def __init__(self, page: GlidingPage) -> None:
        super().__init__(page)
        room = self.room
        mastery = room.mastery
        found = known_by_family(mastery, items_of_facts(learned_facts(room)))
        begun = (at for at, one in enumerate(found, 1) if one.known or one.taught)
        self.families = found[: max(FIRST, *begun, 0)]
        self.is_young = room.settings.age is Age.YOUNG
        self.item = newest(room.known.growth, mastery)
        self.played = Played(page, self.item) if self.item else None
        digits = "".join(str(digit_of(one)) for one in self.families)
        self.field = page.field_of(Frame(digits, len(digits) - 1))
        self._area = page.rect(0, 0, 1, 1)

    @property
    def fields(self) -> tuple[BeadField, ...]:
        """The frame of families, and the small one."""
        return (self.field, self.played.field) if self.played else (self.field,)

    @property
    def lit(self) -> int | None:
        """The place, from the left, of the rod of what came to be known last."""
        if self.item is None:
            return None
        return [one.family for one in self.families].index(FAMILY_OF[self.item])

    @property
    def told(self) -> Line:
        """What the beads stand for; for the young what there is to touch."""
        if self.is_young:
            return self.words.line("grown.young" if self.item else "grown.young_none")
        rules = self.room.settings.mastery_rules
        return self.words.line("grown.known", in_a_row=rules.in_a_row, sittings=rules.sittings)

    # How it is laid out

    def arrange(self) -> Sequence[Button]:
        """The frames, and what plays the small one."""
        page = self.page
        self._area = page.band(14, 61) if self.is_young else page.band(23, 42)
        self._place(self._area)
        self.spots = [self._spot(index) for index in range(len(self.families))]
        return self._button()

    def _place(self, area: pygame.Rect) -> None:
        """Both frames abreast, with beads of one size; in a narrow window one below the other."""
        names = round(HEIGHT * self.page.unit)
        above = pygame.Rect(area.left, area.top, area.w, area.h - names)
        if self.played is None:
            self.field.place(above)
        elif self.page.is_narrow:
            self._place_below(area, self.played.field, names)
        else:
            self._place_abreast(above, self.played.field)

    def _place_below(self, area: pygame.Rect, small: BeadField, names: int) -> None:
        least = round(_LEAST_PLAYED * self.page.unit)
        self.field.place(pygame.Rect(area.left, area.top, area.w, area.h - names - least))
        high = self.field.box.h
        self.field.place(pygame.Rect(area.left, area.top, area.w, high))
        top = area.top + high + names
        small.place(pygame.Rect(area.left, top, area.w, area.bottom - top))

    def _place_abreast(self, area: pygame.Rect, small: BeadField) -> None:
        rods, others = len(self.families), len(small.frame.digits)
        # As wide as a frame of all rods, with some to stand for what is between and the borders.
        x, y, w, h = area
        whole = Layout.fit((x, y, w, h), rods + others + _BETWEEN, 0)
        wide, other = (count * whole.spacing + 2 * whole.border for count in (rods, others))
        box = pygame.Rect(*map(round, whole.frame_box))
        self.field.place(pygame.Rect(box.left, box.top, wide, box.h))
        small.place(pygame.Rect(box.right - other, box.top, other, box.h))

    def _spot(self, index: int) -> Spot:
        rod, known = self.field.layout.rod_box(index), self.families[index]
        family = known.family
        name = self.words.line(f"family.{family}")
        return Spot(
            pygame.Rect(*map(round, rod)), name if self.is_young else family_line(known, self.words)
        )

    def _button(self) -> Sequence[Button]:
        page, words = self.page, self.words
        if self.played is None:
            return ()
        if self.is_young:
            text = words.text("lesson.show_me")
            return [Button(page.band(77, 11), page.play, text, sign="play", style=Style.MAIN)]
        line = self._of_newest(self.played)
        return [Button(self._foot[1], page.play, line.show, sign="play", name=line.speak)]

    def _of_newest(self, played: Played) -> Line:
        """What is played, with what it comes to where that is one number."""
        facts: dict[str, Fact] = {"sum": sum_line(played.sum, self.words)}
        if not played.is_sum:
            return self.words.line("grown.newest_number", **facts)
        if played.result is None:
            return self.words.line("grown.newest", **facts)
        return self.words.line("grown.newest_result", **facts, result=played.result)

    @property
    def _foot(self) -> tuple[pygame.Rect, pygame.Rect]:
        """The places of what is told and of the button beside it; in a narrow window below."""
        page = self.page
        if page.is_narrow:
            return page.band(67, 9), page.band(78, 9)
        told, button = page.band(70, 11), page.band(71, 9)
        if self.played:
            button.w = round(_PLAY * page.unit)
            button.right = told.right
            told.w = button.left - round(3 * page.unit) - told.left
        return told, button

    def choose(self, at: int | None) -> None:
        """The rod that is chosen has the ring."""
        self.field.focus_on(None if at is None else self.field.layout.units - at)

    # What is played

    @property
    def heard(self) -> Line | None:
        """The sum that is played."""
        return sum_line(self.played.sum, self.words) if self.played else None

    def plays(self, at: int) -> bool:
        """A touch of the lit rod plays it."""
        return self.played is not None and at == self.lit

    def begin(self, now: float) -> None:
        """The small frame as before the first stroke."""
        if self.played:
            self.played.begin(now)

    def go_on(self, now: float) -> bool:
        """The next stroke."""
        return self.played is not None and self.played.go_on(now)

    # How it is painted

    def paint(self, brushes: Brushes, at: int | None) -> None:
        """The frames, the bead that is lit, the names, and what is told."""
        for field in self.fields:
            field.paint(brushes.surface)
        lit = self.lit
        if lit is not None:
            bead = _last(digit_of(self.families[lit]))
            self.field.painter.draw_lit(
                brushes.surface, self.field.layout, lit, bead, self.field.pose
            )
        families = [one.family for one in self.families]
        names = [self.words.text(f"short.{family}") for family in families]
        strong = at if at is not None else lit
        paint_rod_names(brushes, self.field, self._area, names, strong, _NAME_ROOM)
        if not self.is_young:
            self.paint_told(brushes, self._foot[0], at)


def _last(digit: int) -> Bead:
    """The bead that came to the beam last."""
    return Bead.HEAVEN if digit == _ALL else Bead(digit)

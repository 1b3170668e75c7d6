"""Which group of a class: one there is, none, or a new one."""

from collections.abc import Sequence
from functools import partial

import pygame

from frame.app import Change, Pop, Push
from frame.language.lines import Line
from frame.room import Room
from frame.screens.parts.naming import NamePage
from frame.screens.parts.page import abreast, lines
from frame.screens.parts.paged import PagedPage
from frame.view.widgets import Brushes, Button, Style

_ROWS = 6
_SIGN = "icon-agenda"


class NewGroup(NamePage):
    """The name of a group; its result."""

    question = "class.group_name"

    def __init__(self, room: Room) -> None:
        super().__init__(room, "", "", "")
        self.drawing = _paint_sign

    def take(self, nickname: str) -> Change | None:
        """It is called so."""
        return Pop(nickname)


def _paint_sign(brushes: Brushes, place: pygame.Rect) -> None:
    size = round(0.6 * min(place.size))
    picture = brushes.pictures.get(_SIGN, size, brushes.theme.soft_ink)
    brushes.surface.blit(picture, picture.get_rect(center=place.center))


class GroupChoice(PagedPage):
    """A choice for each group, and `otherwise` for none of them; where one `can_add`, a new one.
    Its result is the group, "" for none."""

    def __init__(
        self, room: Room, groups: Sequence[str], now: str, otherwise: str, *, can_add: bool = False
    ) -> None:
        super().__init__(room)
        self.choices = ("", *groups)
        self.now, self.otherwise, self.can_add = now, otherwise, can_add

    @property
    def greeting(self) -> Line:
        """The question."""
        return self.room.words.line("class.which_group")

    @property
    def _columns(self) -> int:
        return 1 if self.is_narrow else 3

    @property
    def pages(self) -> int:
        """How many pages the groups take."""
        return max(1, -(-len(self.choices) // (_ROWS * self._columns)))

    def arrange(self) -> None:
        """The groups, a new one, other pages."""
        on_page = _ROWS * self._columns
        self.page = min(self.page, self.pages - 1)
        shown = self.choices[self.page * on_page : (self.page + 1) * on_page]
        area, gap = self.band(14, 60), round(1.5 * self.unit)
        places = lines(area, on_page, self._columns, gap)
        for place, group in zip(places, shown, strict=False):
            text = group or self.room.words.text(self.otherwise)
            self.buttons.append(
                Button(place.inflate(0, -gap), partial(self._choose, group), text,
                       style=Style.CHOICE, chosen=group == self.now, step=1)
            )  # fmt: skip
        new, turns = abreast(self.band(79, 9), 2, 3 * self.unit)
        if self.can_add:
            text = self.room.words.text("class.new_group")
            self.buttons.append(Button(new, self._add, text, sign="plus"))
        back = pygame.Rect(turns.right - round(2.4 * turns.h), turns.top, turns.h, turns.h)
        on = back.move(turns.right - back.right, 0)
        self.buttons += self.turners((back, on))

    def _choose(self, group: str) -> Change:
        return Pop(group)

    def _add(self) -> Change:
        return Push(NewGroup(self.room))

    def resumed(self, result: object) -> Change | None:
        """A new one has a name."""
        return Pop(result) if result else None

    def paint_rest(self, brushes: Brushes) -> None:
        """The question."""
        self.paint_title(brushes, self.greeting.show)

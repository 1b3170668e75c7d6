"""A page with more than it has room for at once: some of it at a time, and what turns it."""

from collections.abc import Sequence
from functools import partial

import pygame

from frame.room import Room
from frame.screens.parts.page import Page
from frame.view.widgets import Brushes, Button


class PagedPage(Page):
    """It begins and ends: what would turn it beyond rests."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.page = 0

    @property
    def pages(self) -> int:
        """How many pages all of it takes."""
        raise NotImplementedError

    def lay_out(self) -> None:
        """With fewer pages than before the last one is open."""
        self.page = min(self.page, self.pages - 1)
        super().lay_out()

    def turned(self) -> None:
        """Another page is to be shown."""

    def turn(self, pages: int) -> None:
        """Turn so many pages on, as far as there are any."""
        page = min(max(0, self.page + pages), self.pages - 1)
        if page != self.page:
            self.page = page
            self.turned()
            self.rearrange()

    def turners(
        self,
        places: Sequence[pygame.Rect],
        signs: Sequence[str] = ("step_back", "step_on"),
        texts: Sequence[str] = ("", ""),
    ) -> list[Button]:
        """What turns it back and on; nothing where all of it is on one page."""
        if self.pages == 1:
            return []
        back = partial(self.turn, -1) if self.page > 0 else None
        on = partial(self.turn, 1) if self.page < self.pages - 1 else None
        return [
            Button(place, act, text, sign=sign)
            for place, act, text, sign in zip(places, (back, on), texts, signs, strict=True)
        ]

    @property
    def corner_turns(self) -> tuple[pygame.Rect, pygame.Rect]:
        """The places in the corners of the foot for what turns the page."""
        foot = self.band(79, 9)
        back = pygame.Rect(foot.topleft, (foot.h, foot.h))
        return back, back.move(foot.w - foot.h, 0)

    def paint_page(self, brushes: Brushes, turns: tuple[pygame.Rect, pygame.Rect]) -> None:
        """Between what turns it, which page it is; nothing where all of it is on one."""
        if self.pages == 1:
            return
        back, on = turns
        between = pygame.Rect(back.right, back.top, on.left - back.right, back.h)
        text = self.room.words.text("own.page", page=self.page + 1, all=self.pages)
        brushes.text(text, between, 0, soft=True, align="centre")

    def foot_places(self, share: float) -> tuple[pygame.Rect, pygame.Rect, pygame.Rect]:
        """The places at the foot: of the main button, which has a share of the width, of what turns
        the page, and of what is told beside them."""
        foot = self.band(79, 8.5)
        main = pygame.Rect(0, foot.top, round(share * foot.w), foot.h)
        main.right = foot.right
        turners = pygame.Rect(0, foot.top, round(2 * foot.h + self.unit), foot.h)
        turners.right = main.left - round(2 * self.unit)
        left = pygame.Rect(foot.left, foot.top, turners.left - foot.left - 1, foot.h)
        return main, turners, left

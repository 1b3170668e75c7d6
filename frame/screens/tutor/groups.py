"""Groups of a class for one task of five minutes each: who is in which, and what each shares."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from concurrent.futures import Future
from enum import StrEnum
from functools import partial
from pathlib import Path
from typing import NamedTuple

import pygame

from frame.app import Change, Pop, Push
from frame.course.agenda import Item
from frame.course.sheet_items import items_of_sheet
from frame.language.lines import Line
from frame.learner.learners import Learner
from frame.practice.families import family_of_fact
from frame.practice.grouping import Child, Group, split_of
from frame.printing.titles import Group as PrintedGroup
from frame.report.class_reading import Seen
from frame.room import Room
from frame.screens.board.screen import BoardScreen
from frame.screens.parts.page import abreast
from frame.screens.tutor.covering import Shown, paint_cover, uncovering
from frame.screens.tutor.giving import GivingScreen
from frame.screens.tutor.reading import ANSWER_SECONDS
from frame.screens.tutor.rows import Rows
from frame.screens.tutor.saving import SavingPage, class_folder
from frame.screens.tutor.sheets import saving_sheet
from frame.screens.tutor.told import names_text, shared_fault
from frame.sheets.code import code_of
from frame.sheets.making import SheetError
from frame.sheets.of_needs import sheet_for
from frame.view.widgets import Brushes, Button

ROWS, NARROW_ROWS = 3, 2
LEAST, MOST, USUAL = 2, 10, 4
_ROW, _NARROW_ROW = 18.6, 27.5
_MOST_NAMES = 14
_DEEDS = 0.26
"""The share of the width that buttons take."""


class Due(StrEnum):
    """What the page waits for."""

    SPLIT = "split"


class Share(NamedTuple):
    """A group with its task: the facts that it is for, the same for the board, and the code of its
    sheet; nothing of them where nothing can be drawn for it."""

    group: Group
    facts: tuple[str, ...]
    items: tuple[Item, ...]
    code: str


class Shared(NamedTuple):
    """A class in groups, and the ids of those who need nothing now."""

    shares: tuple[Share, ...] = ()
    others: tuple[str, ...] = ()


class GroupsPage(SavingPage):
    """The planner's split of a class, made beside the window."""

    def __init__(self, room: Room, seen: Sequence[Seen]) -> None:
        super().__init__(room)
        self.children = tuple(one.child for one in seen)
        self.learners: Mapping[str, Learner] = {one.learner.id: one.learner for one in seen}
        self.is_covered = False
        self.most = min(MOST, len(self.children))
        self.number = min(USUAL, self.most)
        self.split = Shared()
        self.saved: frozenset[int] = frozenset()
        """The groups whose sheets were saved."""
        self._asked: frozenset[int] = frozenset()
        self._splitting: Future[Shared] | None = None
        self._split()

    @property
    def greeting(self) -> Line:
        """What groups are for."""
        return self.room.words.line("class.about_groups")

    @property
    def shares(self) -> tuple[Share, ...]:
        """The groups, as far as they are made."""
        return self.split.shares

    @property
    def pages(self) -> int:
        """How many pages the rows take."""
        return max(1, -(-self._count // self._on_page))

    @property
    def _count(self) -> int:
        """How many rows there are."""
        return len(self.shares) + bool(self.split.others)

    @property
    def _on_page(self) -> int:
        return NARROW_ROWS if self.is_narrow else ROWS

    # What is done

    def choose(self, number: int) -> None:
        """Have at most so many groups."""
        self.number, self.page = number, 0
        self.said = self.folder = None
        self._split()
        self.rearrange()

    def _split(self) -> None:
        if self._splitting is not None:
            self._splitting.cancel()
        self.split, self.saved = Shared(), frozenset()
        self._splitting = self.room.aside.do(partial(_shared, self.children, self.number))
        self._take()

    def _take(self) -> None:
        """Show the groups, or wait for them."""
        if self._splitting is None:
            return
        if self._splitting.done():
            self.split, self._splitting = self._splitting.result(), None
        else:
            self.dues.put(Due.SPLIT, self.room.seconds() + ANSWER_SECONDS)

    def advance(self, now: float) -> None:
        """The groups may be there by now."""
        super().advance(now)
        if self.dues.take(Due.SPLIT, now):
            self._take()
            if self._splitting is None:
                self.rearrange()

    def leave(self) -> None:
        """What is not split yet need not be."""
        super().leave()
        if self._splitting is not None:
            self._splitting.cancel()

    def save_sheets(self, *numbers: int) -> None:
        """Have the sheets of some groups saved, by their numbers."""
        able = [at for at in numbers if self.shares[at - 1].facts]
        works = [
            saving_sheet(self.room, self.shares[at - 1].group, self._name(at), self._whose(at))
            for at in able
        ]
        self._asked = frozenset(able)
        self.save(works, class_folder(self.room))

    def _tell_saved(self, saved: Sequence[Path]) -> None:
        self.saved |= self._asked
        super()._tell_saved(saved)

    def back(self) -> Change | None:
        """The class may be looking still."""
        return Pop(Shown.TO_CLASS if self.is_covered else None)

    def resumed(self, result: object) -> Change | None:
        """The class may have seen the board; what was given changes nothing here."""
        self.rearrange()
        return None

    def uncover(self) -> None:
        """Show the groups again."""
        self.is_covered = False
        self.rearrange()

    def _to_board(self, share: Share) -> Change:
        self.is_covered = True
        return Push(BoardScreen(self.room, share.items))

    def _give(self, share: Share) -> Change:
        learners = [self.learners[one.id] for one in share.group.members]
        return Push(GivingScreen(self.room, learners, share.code))

    # What is told

    def _name(self, number: int) -> str:
        return self.room.words.text("class.group", number=number)

    def _whose(self, number: int) -> PrintedGroup:
        return PrintedGroup(number, tuple(self._names_of(self.shares[number - 1])))

    def _names_of(self, share: Share) -> list[str]:
        return self._names(one.id for one in share.group.members)

    def _names(self, ids: Iterable[str]) -> list[str]:
        return sorted((self.learners[id].nickname for id in ids), key=str.casefold)

    @property
    def _others(self) -> str:
        """Who needs nothing now."""
        words, names = self.room.words, self._names(self.split.others)
        return words.text("class.told.others", names=names_text(names, _MOST_NAMES, words))

    @property
    def _how_many(self) -> str:
        """How many need nothing now; their names stand on the last page."""
        count = len(self.split.others)
        key = "class.told.one_needs_nothing" if count == 1 else "class.told.need_nothing"
        return self.room.words.text(key, count=count) if count else ""

    def _task(self, share: Share) -> str:
        """What a group shares: its fault, and the families of its facts."""
        words = self.room.words
        families = dict.fromkeys(family_of_fact(one) for one in share.facts)
        told = [words.text(f"family.{family}") for family in families]
        return "; ".join(filter(None, [shared_fault(share.group, words), *told]))

    # How it is laid out

    def arrange(self) -> None:
        """How many groups, what is done with each, and with all."""
        if self.is_covered:
            self.buttons.append(uncovering(self, self.uncover))
            return
        self.page = min(self.page, self.pages - 1)
        less, _, more, all_sheets = self._head_places
        text = self.room.words.text
        fewer = partial(self.choose, self.number - 1) if self.number > LEAST else None
        further = partial(self.choose, self.number + 1) if self.number < self.most else None
        self.buttons += [
            Button(less, fewer, sign="less", name=text("class.fewer")),
            Button(more, further, sign="more", name=text("class.further")),
        ]
        if self.is_saving:
            return
        if any(share.facts for share in self.shares):
            every = partial(self.save_sheets, *range(1, len(self.shares) + 1))
            self.buttons.append(Button(all_sheets, every, text("class.save_sheets")))
        for number, share, place in self._shown:
            if share.facts:
                self.buttons += self._deeds(number, share, place)
        self.buttons += self.turners(self._turns)

    @property
    def _head_places(self) -> tuple[pygame.Rect, pygame.Rect, pygame.Rect, pygame.Rect]:
        """The places of fewer, of how many there are, of more, and of what saves all sheets."""
        row = self.band(12.5, 7.5)
        wide = round((27 if self.is_narrow else 36) * self.unit)
        less = pygame.Rect(row.topleft, (row.h, row.h))
        more = less.move(wide - row.h, 0)
        count = pygame.Rect(less.right, row.top, more.left - less.right, row.h)
        left = more.right + round(3 * self.unit)
        every = pygame.Rect(left, row.top, row.right - left, row.h)
        if not self.is_narrow:
            every.w = round(_DEEDS * row.w)
            every.right = row.right
        return less, count, more, every

    @property
    def _rows(self) -> list[tuple[int, pygame.Rect]]:
        """The rows of the page by their numbers, each with its place: a group in each, and in the
        last one of all who needs nothing now."""
        first, apart = self.page * self._on_page, _NARROW_ROW if self.is_narrow else _ROW
        count = min(self._count - first, self._on_page)
        return [(first + at + 1, self.band(23 + at * apart, apart - 2.8)) for at in range(count)]

    @property
    def _shown(self) -> list[tuple[int, Share, pygame.Rect]]:
        """The groups of the page, each with its number and its place."""
        groups = len(self.shares)
        return [(at, self.shares[at - 1], place) for at, place in self._rows if at <= groups]

    def _parts(self, place: pygame.Rect) -> tuple[pygame.Rect, pygame.Rect]:
        """Where a group is told, and where its buttons are."""
        if self.is_narrow:
            high = round(6.5 * self.unit)
            told = pygame.Rect(place.topleft, (place.w, place.h - high - round(self.unit)))
            return told, pygame.Rect(place.left, place.bottom - high, place.w, high)
        wide = round(_DEEDS * place.w)
        told = pygame.Rect(place.topleft, (place.w - wide - round(3 * self.unit), place.h))
        return told, pygame.Rect(place.right - wide, place.top, wide, place.h)

    def _deeds(self, number: int, share: Share, place: pygame.Rect) -> list[Button]:
        _, area = self._parts(place)
        gap = round(1.2 * self.unit)
        if self.is_narrow:
            places = abreast(area, 3, gap)
        else:
            high = (area.h - gap) // 2
            sheet = pygame.Rect(area.topleft, (area.w, high))
            places = [sheet, *abreast(sheet.move(0, high + gap), 2, gap)]
        deeds: list[tuple[str, Callable[[], object]]] = [
            ("class.its_sheet", partial(self.save_sheets, number)),
            ("giving.give", partial(self._give, share)),
            ("class.on_board", partial(self._to_board, share)),
        ]
        shown = [self.room.words.text(key) for key, _ in deeds]
        return [
            Button(place, act, text, name=f"{self._name(number)}. {text}")
            for place, text, (_, act) in zip(places, shown, deeds, strict=True)
        ]

    @property
    def _turns(self) -> tuple[pygame.Rect, pygame.Rect]:
        foot = self.band(79.5, 8.5)
        back = pygame.Rect(foot.topleft, (foot.h, foot.h))
        return back, back.move(round(22 * self.unit), 0)

    def paint_rest(self, brushes: Brushes) -> None:
        """The groups, and what was saved."""
        words = self.room.words
        self.paint_title(brushes, words.text("class.groups"))
        if self.is_covered:
            paint_cover(brushes, self)
            return
        count = words.text("class.told.groups", count=self.number)
        brushes.text(count, self._head_places[1], 0, align="centre", bold=True)
        if self._splitting is not None:
            brushes.text(words.text("class.splitting"), self.band(24, 8), 1)
        for number, share, place in self._shown:
            self._paint_share(brushes, number, share, self._parts(place)[0])
        for _, place in self._rows[len(self._shown) :]:
            Rows(brushes, place, 0).write(self._others, most=5)
        self._paint_foot(brushes)

    def _paint_foot(self, brushes: Brushes) -> None:
        words, place = self.room.words, self.band(79.5, 9)
        if self.pages > 1 and not self.is_saving:
            self.paint_page(brushes, self._turns)
            on = self._turns[1]
            left = on.right + round(2 * self.unit)
            place.w, place.left = place.right - left, left
        self.paint_told(brushes, place, self._how_many or words.text("class.told.five_minutes"))

    def _paint_share(self, brushes: Brushes, number: int, share: Share, place: pygame.Rect) -> None:
        words, names = self.room.words, self._names_of(share)
        rows = Rows(brushes, place, 0)
        code = words.text("class.told.code", code=share.code) if number in self.saved else ""
        rows.write(f"{self._name(number)}{code}", bold=True)
        rows.write(names_text(names, _MOST_NAMES, words), most=2)
        rows.write(self._task(share), soft=True, most=2)


def _shared(children: Sequence[Child], most: int) -> Shared:
    split = split_of(children, most)
    return Shared(tuple(map(_share, split.groups)), split.others)


def _share(group: Group) -> Share:
    """A group with its task; without one where nothing can be drawn for it."""
    try:
        sheet = sheet_for(group)
    except SheetError:
        sheet = None
    if sheet is None:
        return Share(group, (), (), "")
    return Share(group, sheet.recipe.facts, items_of_sheet(sheet), code_of(sheet.recipe))

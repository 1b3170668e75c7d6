"""The class: who needs somebody now, and what is done for all of them."""

from collections.abc import Callable, Iterator, Sequence
from enum import StrEnum
from functools import partial

import pygame

from frame.app import Change, Push
from frame.language.lines import Line
from frame.learner.class_kept import Member, groups_of, kept_class
from frame.learner.learners import Learner
from frame.practice.needs import Needing, Needs, needs_of
from frame.report.class_reading import Seen
from frame.room import Room
from frame.screens.parts.page import lines, shares
from frame.screens.parts.paged import PagedPage
from frame.screens.parts.portraits import portrait_name
from frame.screens.tutor.child import ChildPage
from frame.screens.tutor.covering import Shown, paint_cover, uncovering
from frame.screens.tutor.giving import GivingScreen
from frame.screens.tutor.group_choice import GroupChoice
from frame.screens.tutor.groups import LEAST, GroupsPage
from frame.screens.tutor.listing import ListPage
from frame.screens.tutor.picker import PickerPage
from frame.screens.tutor.reading import ANSWER_SECONDS, ClassReading
from frame.screens.tutor.reports import ReportsPage
from frame.screens.tutor.rows import Rows
from frame.screens.tutor.told import fault_name, names_text, need_text, week_text
from frame.view.widgets import Brushes, Button, Style

_TWO_COLUMNS = 115
"""Units across that two columns need."""
_ROWS, _SINGLE_ROWS, _NARROW_ROWS = 8, 6, 5
_ROW, _NARROW_ROW = 7.5, 10.2
_TOP = 13.0
_MOST_DUE = 3
_MOST_NAMES = 12


class Due(StrEnum):
    """What the page waits for."""

    ANSWER = "answer"


class ClassPage(PagedPage):
    """Rows of children, who needs somebody most first, and beside them or on a page of their own
    what many of them have. After something was shown to the class itself it stays covered until it
    is asked for."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.group = ""
        self.is_covered = False
        self.said: Line | None = None
        self.members: tuple[Member, ...] = ()
        self.needs: Needs | None = None
        self.reading = ClassReading(room)
        self._read()

    def _read(self) -> None:
        """Who is in the class now; whoever is not read yet is."""
        self.members = self.room.keeper.read(kept_class, self.members)
        if self.group not in groups_of(self.members):
            self.group = ""
        self.reading.ask(one.learner for one in self.members)
        self._look()

    def _look(self) -> None:
        """What is known by now."""
        if self.reading.is_done:
            self.needs = needs_of(one.pupil for one in self.seen)
        else:
            self.needs = None
            self.dues.put(Due.ANSWER, self.room.seconds() + ANSWER_SECONDS)

    @property
    def learners(self) -> tuple[Learner, ...]:
        """Those of the group that is chosen, or all."""
        return tuple(one.learner for one in self.members if self.group in ("", one.group))

    @property
    def seen(self) -> tuple[Seen, ...]:
        """The same, as they were read."""
        return self.reading.seen(self.learners)

    @property
    def greeting(self) -> Line:
        """What was done, or whose page it is. Nothing else is read aloud: a child may be near."""
        return self.said or self.room.words.line("class.title")

    @property
    def pages(self) -> int:
        """How many pages the rows take, and what many have where that has no room beside them."""
        rows = len(self.needs.children) if self.needs else 0
        return max(1, -(-rows // self._on_page)) + self.is_single

    @property
    def is_single(self) -> bool:
        """Whether there is room for one column alone."""
        return self.across < _TWO_COLUMNS

    @property
    def _on_page(self) -> int:
        if self.is_narrow:
            return _NARROW_ROWS
        return _SINGLE_ROWS if self.is_single else _ROWS

    @property
    def _rows(self) -> Sequence[Needing]:
        """The children of the page."""
        children = self.needs.children if self.needs else ()
        return children[self.page * self._on_page : (self.page + 1) * self._on_page]

    # What is done

    def advance(self, now: float) -> None:
        """Children may be read by now."""
        super().advance(now)
        if self.dues.take(Due.ANSWER, now):
            self._look()
            self.rearrange()

    def leave(self) -> None:
        """What is not read yet need not be."""
        self.reading.call_off()

    def resumed(self, result: object) -> Change | None:
        """A group was chosen, or the class is another."""
        self.said, self.is_covered = None, self.is_covered or result is Shown.TO_CLASS
        if isinstance(result, str):
            self.group, self.page = result, 0
        elif isinstance(result, int):
            self.said = self.room.words.line("class.taken", count=result)
        self._read()
        self.rearrange()
        return None

    def uncover(self) -> None:
        """Show the rows again."""
        self.is_covered = False
        self.rearrange()

    def _open(self, needing: Needing) -> Change:
        id = needing.pupil.id
        member = next(one for one in self.members if one.learner.id == id)
        seen = next(one for one in self.seen if one.learner.id == id)
        return Push(ChildPage(self.room, member, seen))

    def _choose_group(self) -> Change:
        groups = groups_of(self.members)
        return Push(GroupChoice(self.room, groups, self.group, "class.all_groups"))

    def _list(self) -> Change:
        return Push(ListPage(self.room))

    def _groups(self) -> Change:
        return Push(GroupsPage(self.room, self.seen))

    def _reports(self) -> Change:
        return Push(ReportsPage(self.room, self.learners))

    def _give(self) -> Change:
        return Push(GivingScreen(self.room, self.learners))

    def _pick(self) -> Change:
        return Push(PickerPage(self.room, self.learners))

    # How it is laid out

    def arrange(self) -> None:
        """A row for each child; what is done for all; other pages."""
        self.page = min(self.page, self.pages - 1)
        if self.room.store.path is None:
            return
        text = self.room.words.text
        if not self.members:
            place = self.band(40, 12)
            place.w = min(place.w, round(60 * self.unit))
            self.buttons.append(Button(place, self._list, text("class.list"), style=Style.MAIN))
            return
        if self.is_covered:
            self.buttons.append(uncovering(self, self.uncover))
        elif self.needs is not None:
            self.buttons += self._row_buttons()
            self.buttons += self.turners(self._turns)
        self.buttons += self._deeds()

    def _row_buttons(self) -> Iterator[Button]:
        words = self.room.words
        by_id = {one.learner.id: one.learner for one in self.members}
        for one, (place, _) in zip(self._rows, self._row_places, strict=False):
            learner = by_id[one.pupil.id]
            yield Button(
                place, partial(self._open, one), learner.nickname,
                name=portrait_name(words, learner.picture), step=1,
                drawing=partial(_paint_portrait, learner.picture),
            )  # fmt: skip

    def _deeds(self) -> Iterator[Button]:
        """Each keeps its place, whether it can be done now or not."""
        text, is_read = self.room.words.text, self.needs is not None
        group = text("class.in_group", group=self.group) if self.group else ""
        deeds: list[tuple[str, Callable[[], object], object]] = [
            (group or text("class.all_groups"), self._choose_group, groups_of(self.members)),
            (text("class.groups"), self._groups, is_read and len(self.seen) >= LEAST),
            (text("class.who_next"), self._pick, True),
            (text("class.reports"), self._reports, is_read),
            (text("giving.open"), self._give, True),
            (text("class.list"), self._list, True),
        ]
        gap, in_line = round(1.2 * self.unit), 3 if self.is_single else 6
        high = gap if self.is_single else 0
        places = lines(self._foot, len(deeds), in_line, gap)
        for place, (shown, act, can_be) in zip(places, deeds, strict=True):
            if can_be:
                step = 0 if self.is_single else 1
                yield Button(place.inflate(0, -high), act, shown, step=step)

    @property
    def _foot(self) -> pygame.Rect:
        """Where it stands what is done for all."""
        if self.is_single:
            return self.band(73, 15.5)
        foot, turned = self.band(79, 8.5), round(26 * self.unit)
        foot.w, foot.left = foot.w - turned, foot.left + turned
        return foot

    @property
    def _turns(self) -> tuple[pygame.Rect, pygame.Rect]:
        foot = self.band(64.5, 7.5) if self.is_single else self.band(79, 8.5)
        back = pygame.Rect(foot.topleft, (foot.h, foot.h))
        return back, back.move(round(15.5 * self.unit), 0)

    @property
    def _columns(self) -> tuple[pygame.Rect, pygame.Rect]:
        """The places of the rows, and of what many have."""
        whole = self.band(_TOP, 64)
        if self.is_single:
            return whole, whole
        left, _, right = shares(whole, (0.63, 0.04, 0.33))
        return left, right

    @property
    def _row_places(self) -> list[tuple[pygame.Rect, pygame.Rect]]:
        """For each row the places of its button and of what is told."""
        column, _ = self._columns
        places = []
        for at in range(self._on_page):
            if self.is_narrow:
                top = round((_TOP + at * _NARROW_ROW) * self.unit)
                name = pygame.Rect(column.left, top, column.w, round(4.7 * self.unit))
                told = pygame.Rect(name.left, name.bottom, name.w, round(5 * self.unit))
            else:
                top = round((_TOP + at * _ROW) * self.unit)
                high = round((_ROW - 0.9) * self.unit)
                name = pygame.Rect(column.left, top, round(0.36 * column.w), high)
                left = name.right + round(1.6 * self.unit)
                told = pygame.Rect(left, top, column.right - left, high)
            places.append((name, told))
        return places

    def paint_rest(self, brushes: Brushes) -> None:
        """The rows, what many have, and which page it is."""
        words = self.room.words
        self.paint_title(brushes, words.text("class.title"))
        if self.room.store.path is None:
            brushes.text(words.text("two_computers.nowhere"), self.band(16, 10), 1)
        elif not self.members:
            Rows(brushes, self.band(16, 22), 1).write(words.text("class.nobody"), most=5)
        elif self.is_covered:
            paint_cover(brushes, self)
        elif self.needs is None:
            done, all_of_them = self.reading.done, len(self.members)
            told = words.text("class.told.reading", done=done, all=all_of_them)
            brushes.text(told, self.band(16, 8), 1)
        else:
            self._paint_needs(brushes, self.needs)

    def _paint_needs(self, brushes: Brushes, needs: Needs) -> None:
        for one, (_, place) in zip(self._rows, self._row_places, strict=False):
            self._paint_row(brushes, one, place)
        if not self.is_single or self.page == self.pages - 1:
            self._paint_common(brushes, needs, self._columns[1])
        self.paint_page(brushes, self._turns)

    def _paint_row(self, brushes: Brushes, one: Needing, place: pygame.Rect) -> None:
        words = self.room.words
        why, _, week = shares(place, (0.7, 0.03, 0.27))
        brushes.text(need_text(one, 1 if self.is_narrow else 2, words), why, 0)
        brushes.text(week_text(one.pupil.week, words), week, 0, soft=True)

    def _paint_common(self, brushes: Brushes, needs: Needs, area: pygame.Rect) -> None:
        """The commonest faults with who has them, and what is due for most."""
        words, rows = self.room.words, Rows(brushes, area, 0)
        rows.write(words.text("class.told.faults"), bold=True)
        for one in needs.faults:
            names = names_text((pupil.name for pupil in one.pupils), _MOST_NAMES, words)
            rows.space()
            rows.write(fault_name(one.habit, words), str(len(one.pupils)))
            rows.write(names, soft=True, most=3)
        if not needs.faults:
            rows.write(words.text("class.told.no_faults"), soft=True)
        rows.space()
        rows.space()
        rows.write(words.text("class.told.due_for"), bold=True)
        rows.space()
        for family in sorted(needs.due, key=lambda one: -needs.due[one])[:_MOST_DUE]:
            rows.write(words.text(f"family.{family}"), str(needs.due[family]))
        if not needs.due:
            rows.write(words.text("class.told.nothing_due"), soft=True)
        if self.reading.unread:
            rows.space()
            rows.write(words.text("class.told.unread", count=self.reading.unread), most=2)


def _paint_portrait(picture: str, brushes: Brushes, place: pygame.Rect) -> None:
    portrait = brushes.pictures.portrait(picture, place.w, brushes.theme.flags)
    brushes.surface.blit(portrait, place)

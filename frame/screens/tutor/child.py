"""A child of the class: what it needs now, what it did this week, what is due."""

from collections.abc import Callable, Iterable
from enum import StrEnum

import pygame

from frame.app import Change, Push
from frame.language.lines import Line
from frame.learner.class_kept import Member, groups_of, keep_class, kept_class
from frame.practice.families import Family
from frame.practice.grouping import split_of
from frame.practice.needs import Needing, needs_of
from frame.printing.titles import Group
from frame.report.class_reading import Seen
from frame.room import Room
from frame.screens.marking.marks import MarksScreen
from frame.screens.marking.sheets_kept import codes_of
from frame.screens.parts.page import lines, shares
from frame.screens.parts.portraits import called
from frame.screens.tutor.giving import GivingScreen
from frame.screens.tutor.group_choice import GroupChoice
from frame.screens.tutor.reading import ANSWER_SECONDS, ClassReading
from frame.screens.tutor.reports import saving_report
from frame.screens.tutor.rows import Rows
from frame.screens.tutor.saving import SavingPage, class_folder
from frame.screens.tutor.sheets import saving_sheet
from frame.screens.tutor.told import need_lines, right_text, week_text
from frame.view.widgets import Brushes, Button, paint_ticket

_MOST_FAMILIES = 6
_Deed = tuple[str, Callable[[], object] | None]


class Due(StrEnum):
    """What the page waits for, beside files."""

    READ = "read"


class ChildPage(SavingPage):
    """Whoever is taken out of the class stays a learner, and may be put back while the page is
    there. What is marked meanwhile is read."""

    def __init__(self, room: Room, member: Member, seen: Seen) -> None:
        super().__init__(room)
        self.member, self.seen = member, seen
        self.needing: Needing = needs_of([seen.pupil]).children[0]
        alone: tuple[Member, ...] = (member,)
        self.members = room.keeper.read(kept_class, alone)
        self.reading = ClassReading(room)

    @property
    def greeting(self) -> Line:
        """Whose page it is."""
        return called(self.room.words, self.member.learner)

    @property
    def is_in(self) -> bool:
        """Whether the child is in the class."""
        return any(one.learner == self.member.learner for one in self.members)

    # What is done

    def save_report(self) -> None:
        """Have the page for the parents saved."""
        folder = class_folder(self.room)
        self.save([saving_report(self.room, self.member.learner)], folder)

    def save_sheet(self) -> None:
        """Have a sheet of what is due saved, else of a fault."""
        (group,) = split_of([self.seen.child], 1).groups
        name = self.member.learner.nickname
        whose = Group(None, (name,))
        self.save([saving_sheet(self.room, group, name, whose)], class_folder(self.room))

    def turn_in(self) -> None:
        """Take the child out of the class, or put it back."""
        if self.is_in:
            self._keep(one for one in self.members if one.learner != self.member.learner)
        else:
            self._keep((*self.members, self.member))
        key = "class.is_in" if self.is_in else "class.is_out"
        self.folder = None
        self._tell(self.room.words.line(key))

    def _mark(self) -> Change:
        return Push(MarksScreen(self.room, self.member.learner))

    def _give(self) -> Change:
        return Push(GivingScreen(self.room, (self.member.learner,)))

    def _choose_group(self) -> Change:
        groups, now = groups_of(self.members), self.member.group
        return Push(GroupChoice(self.room, groups, now, "class.no_group", can_add=True))

    def resumed(self, result: object) -> Change | None:
        """The child is in another group, or a sheet of it is kept."""
        if isinstance(result, str):
            self.member = self.member._replace(group=result)
            self._keep(
                self.member if one.learner == self.member.learner else one for one in self.members
            )
        self.reading.ask((self.member.learner,))
        self._look_again()
        self.rearrange()
        return None

    def _look_again(self) -> None:
        """Tell what is known of the child by now."""
        for seen in self.reading.seen((self.member.learner,)):
            self.seen, self.needing = seen, needs_of([seen.pupil]).children[0]
        if not self.reading.is_done:
            self.dues.put(Due.READ, self.room.seconds() + ANSWER_SECONDS)

    def advance(self, now: float) -> None:
        """The child may be read by now."""
        super().advance(now)
        if self.dues.take(Due.READ, now):
            self._look_again()
            self.rearrange()

    def leave(self) -> None:
        """What is not read or saved yet need not be."""
        super().leave()
        self.reading.call_off()

    def _keep(self, members: Iterable[Member]) -> None:
        self.members = kept = tuple(members)
        self.room.keeper.write(lambda store: keep_class(store, kept), "class")

    # How it is laid out

    def arrange(self) -> None:
        """What can be saved, the group, and the way out of the class; each keeps its place."""
        if self.is_saving:
            return
        text, group = self.room.words.text, self.member.group
        save_sheet: _Deed = (text("class.no_sheet"), None)
        if self.seen.child.due or self.seen.child.likely:
            save_sheet = (text("class.save_sheet"), self.save_sheet)
        is_half_marked = bool(codes_of(self.room, self.member.learner))
        in_group = text("class.in_group", group=group) if group else text("class.no_group")
        deeds: list[_Deed] = [
            (text("class.save_report"), self.save_report),
            save_sheet,
            (text("marks.open_left" if is_half_marked else "marks.open_one"), self._mark),
            (in_group, self._choose_group if self.is_in else None),
            (text("giving.open"), self._give),
            (text("class.take_out" if self.is_in else "class.put_back"), self.turn_in),
        ]
        in_line, gap = 3 if self.is_narrow else 6, round(1.5 * self.unit)
        area = self.band(70, 18) if self.is_narrow else self.band(79, 9)
        places = lines(area, len(deeds), in_line, gap)
        for place, (shown, act) in zip(places, deeds, strict=True):
            fits = place.inflate(0, -gap if self.is_narrow else 0)
            self.buttons.append(Button(fits, act, shown))

    def paint_rest(self, brushes: Brushes) -> None:
        """Needs at the left, what is due at the right."""
        learner = self.member.learner
        head = self.band(3, 8)
        face = pygame.Rect(head.right - head.h, head.top, head.h, head.h)
        title = self.rect(12, 3, face.left / self.unit - 14, 8)
        brushes.text(learner.nickname, title, 2, bold=True)
        paint_ticket(brushes, face, learner.picture)
        told = self.band(60, 9) if self.is_narrow else self.band(67, 11)
        self.paint_told(brushes, told)
        for one in filter(lambda button: button.rests, self.buttons):
            brushes.text(one.text, one.place, 0, soft=True, align="centre")
        if self.is_narrow:
            self._paint_needs(brushes, self.band(13, 29))
            self._paint_due(brushes, self.band(43, 16.5))
        else:
            left, _, right = shares(self.band(15, 50), (0.52, 0.06, 0.42))
            self._paint_needs(brushes, left)
            self._paint_due(brushes, right)

    def _paint_needs(self, brushes: Brushes, area: pygame.Rect) -> None:
        words, one = self.room.words, self.needing
        week = one.pupil.week
        rows = Rows(brushes, area, 0 if self.is_narrow else 1)
        rows.write(words.text("class.told.needs"), bold=True)
        for line in need_lines(one, self.seen.told, words):
            rows.write(line, most=2)
        rows.space()
        rows.write(words.text("class.told.week"), bold=True)
        rows.write(week_text(week, words))
        rows.write(right_text(week, words))

    def _paint_due(self, brushes: Brushes, area: pygame.Rect) -> None:
        words, one = self.room.words, self.needing
        rows = Rows(brushes, area, 0 if self.is_narrow else 1)
        rows.write(words.text("class.told.due_head"), bold=True)
        due = one.pupil.due
        order = sorted(due, key=lambda family: (-due[family], list(Family).index(family)))
        for family in order[:_MOST_FAMILIES]:
            rows.write(words.text(f"family.{family}"), str(due[family]))
        if rest := sum(due[family] for family in order[_MOST_FAMILIES:]):
            rows.write(words.text("class.told.other_kinds"), str(rest))
        if not due:
            rows.write(words.text("class.told.nothing_due"))

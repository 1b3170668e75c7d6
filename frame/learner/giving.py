"""The same work given to several learners, and taken back."""

from collections.abc import Iterable, Mapping, Sequence
from datetime import datetime
from typing import NamedTuple

from frame.course.course import CourseIndex
from frame.learner.assigned import Assigned, Work
from frame.learner.due import due_code
from frame.learner.ids import new_id
from frame.learner.learners import Learner
from frame.learner.store import Store


class Gift(NamedTuple):
    """What one learner is given."""

    learner: Learner
    one: Assigned


class Before(NamedTuple):
    """Work that was given: who has it to do, and who has done it. What is due is one, also where
    some have it as a sheet."""

    work: Work
    text: str
    open: tuple[Gift, ...]
    done: tuple[Learner, ...]


class Share(NamedTuple):
    """How some work is shared out: what is to be given, to whom as a `sheet`, as no lesson was done
    here yet; who `had` the same to do already; for whom `nothing` is due; and what of before it is
    `instead` of."""

    gifts: tuple[Gift, ...]
    sheet: tuple[Gift, ...] = ()
    had: tuple[Learner, ...] = ()
    nothing: tuple[Learner, ...] = ()
    instead: tuple[Gift, ...] = ()

    @property
    def all(self) -> tuple[Gift, ...]:
        """All that is to be given."""
        return *self.gifts, *self.sheet


def share_of(
    store: Store,
    course: CourseIndex,
    learners: Iterable[Learner],
    what: tuple[Work, str],
    now: datetime,
) -> Share:
    """How work with its text is shared out to some learners. Who can't begin today's set has what
    is due on paper. Of what is due one stands: it takes the place of another that is open. Raises
    StoreError."""
    gifts, sheet, had, nothing = list[Gift](), list[Gift](), list[Learner](), list[Learner]()
    instead = list[Gift]()
    for learner in learners:
        is_open = [one for one in store.assigned(learner) if one.done is None]
        is_sheet = what[0] is Work.DUE and not _can_begin_today(store, course, learner)
        own = (Work.SHEET, due_code(store, learner, now)) if is_sheet else what
        others = [one for one in is_open if one.is_due and (one.work, one.text) != own]
        if own == (Work.SHEET, ""):
            (had if others else nothing).append(learner)
            continue
        if what[0] is Work.DUE:
            instead += [Gift(learner, one) for one in others]
        if any((one.work, one.text) == own for one in is_open):
            had.append(learner)
        elif is_sheet:
            sheet.append(Gift(learner, Assigned.due_sheet(own[1], now)))
        else:
            gifts.append(Gift(learner, Assigned(new_id(), now, *own)))
    return Share(tuple(gifts), tuple(sheet), tuple(had), tuple(nothing), tuple(instead))


def _can_begin_today(store: Store, course: CourseIndex, learner: Learner) -> bool:
    """Whether something was learned here that can be practised, or all lessons are open."""
    if store.settings(learner).all_open:
        return True
    known = (id for id, state in store.lessons(learner).items() if state.is_known)
    return any(course.by_id[id].new for id in known if id in course.by_id)


def give(store: Store, share: Share, now: datetime) -> None:
    """Give it, and take back what it is instead of; once more it changes nothing. Raises
    StoreError."""
    take_back(store, share.instead, now)
    store.assign(share.all)


def given_before(store: Store, learners: Iterable[Learner]) -> tuple[Before, ...]:
    """All that some learners were given and not taken back, what was given last first. Raises
    StoreError."""
    gifts = [Gift(learner, one) for learner in learners for one in store.assigned(learner)]
    newest = sorted(gifts, key=lambda gift: gift.one.given, reverse=True)
    works = dict.fromkeys(gift.one.given_as for gift in newest)
    return tuple(_before(work, text, gifts) for work, text in works)


def _before(work: Work, text: str, gifts: Sequence[Gift]) -> Before:
    same = [gift for gift in gifts if gift.one.given_as == (work, text)]
    is_open = tuple(gift for gift in same if gift.one.done is None)
    having = {gift.learner for gift in is_open}
    done = dict.fromkeys(gift.learner for gift in same if gift.learner not in having)
    return Before(work, text, is_open, tuple(done))


def due_codes(store: Store, gifts: Iterable[Gift], now: datetime) -> Mapping[Learner, str]:
    """The codes of sheets of what is due, for those who have today's set to do and for whom there
    is one. Raises StoreError."""
    having = dict.fromkeys(learner for learner, one in gifts if one.work is Work.DUE)
    codes = {learner: due_code(store, learner, now) for learner in having}
    return {learner: code for learner, code in codes.items() if code}


def take_back(store: Store, gifts: Iterable[Gift], now: datetime) -> None:
    """Nobody need do it any more; once more it changes nothing. Raises StoreError."""
    store.take_back([one for _, one in gifts], now)

"""The same work given to several learners, and taken back."""

from collections.abc import Iterable, Sequence
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
    """Work that was given: who has it to do, and who has done it."""

    work: Work
    text: str
    open: tuple[Gift, ...]
    done: tuple[Learner, ...]


class Share(NamedTuple):
    """How some work is shared out: what is to be given, to whom as a `sheet`, as no lesson was done
    here yet; who `had` the same to do already; for whom `nothing` is due."""

    gifts: tuple[Gift, ...]
    sheet: tuple[Gift, ...] = ()
    had: tuple[Learner, ...] = ()
    nothing: tuple[Learner, ...] = ()

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
    is due on paper. Raises StoreError."""
    gifts, sheet, had, nothing = list[Gift](), list[Gift](), list[Learner](), list[Learner]()
    for learner in learners:
        own = what
        if what[0] is Work.DUE and not _can_begin_today(store, course, learner):
            own = Work.SHEET, due_code(store, learner, now)
        if own == (Work.SHEET, ""):
            nothing.append(learner)
        elif any(_is_open(one, *own) for one in store.assigned(learner)):
            had.append(learner)
        else:
            gift = Gift(learner, Assigned(new_id(), now, *own))
            (gifts if own == what else sheet).append(gift)
    return Share(tuple(gifts), tuple(sheet), tuple(had), tuple(nothing))


def _can_begin_today(store: Store, course: CourseIndex, learner: Learner) -> bool:
    """Whether something was learned here that can be practised, or all lessons are open."""
    if store.settings(learner).all_open:
        return True
    known = (id for id, state in store.lessons(learner).items() if state.is_known)
    return any(course.by_id[id].new for id in known if id in course.by_id)


def _is_open(one: Assigned, work: Work, text: str) -> bool:
    return one.done is None and (one.work, one.text) == (work, text)


def give(store: Store, gifts: Sequence[Gift]) -> None:
    """Give it; once more it changes nothing. Raises StoreError."""
    for learner, one in gifts:
        store.assign(learner, one)


def given_before(store: Store, learners: Iterable[Learner]) -> tuple[Before, ...]:
    """All that some learners were given and not taken back, what was given last first. Raises
    StoreError."""
    gifts = [Gift(learner, one) for learner in learners for one in store.assigned(learner)]
    newest = sorted(gifts, key=lambda gift: gift.one.given, reverse=True)
    works = dict.fromkeys((gift.one.work, gift.one.text) for gift in newest)
    return tuple(_before(work, text, gifts) for work, text in works)


def _before(work: Work, text: str, gifts: Sequence[Gift]) -> Before:
    same = [gift for gift in gifts if (gift.one.work, gift.one.text) == (work, text)]
    is_open = tuple(gift for gift in same if gift.one.done is None)
    having = {gift.learner for gift in is_open}
    done = dict.fromkeys(gift.learner for gift in same if gift.learner not in having)
    return Before(work, text, is_open, tuple(done))


def take_back(store: Store, gifts: Sequence[Gift], now: datetime) -> None:
    """Nobody need do it any more; once more it changes nothing. Raises StoreError."""
    for _, one in gifts:
        store.take_back(one, now)

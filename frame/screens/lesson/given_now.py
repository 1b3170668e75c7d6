"""What a tutor gave that is open now, what was done of it, and what of it follows."""

from datetime import timedelta
from typing import NamedTuple

from frame.course.next_paper import graded_recipe
from frame.language.lines import Line
from frame.learner.assigned import Assigned, Work
from frame.practice.kept_choices import set_from
from frame.room import Room
from frame.screens.lesson.given import given
from frame.screens.lesson.practice import known_facts
from frame.screens.parts.given_work import work_line
from frame.screens.parts.outcome import NextGiven

_WEEK = timedelta(days=7)


class Given(NamedTuple):
    """What a tutor gave that this version knows how to do: what is open, oldest first, but sheets
    on paper last; of that what still waits for a lesson; and what was done in the last week, the
    newest first."""

    open: tuple[Assigned, ...]
    waiting: tuple[Assigned, ...]
    done: tuple[Assigned, ...]

    @property
    def on_screen(self) -> tuple[Assigned, ...]:
        """What is open and done here. A sheet on paper is open until the tutor has marked it."""
        return tuple(one for one in self.open if not _is_on_paper(one))


def given_now(room: Room) -> Given:
    """What was given to whoever is here."""
    known = [one for one in given(room) if _line(room, one) is not None]
    since = room.now() - _WEEK
    done = [(one.done, one) for one in known if one.done is not None and one.done >= since]
    newest = sorted(done, key=lambda pair: pair[0], reverse=True)
    left = [one for one in known if one.done is None]
    waiting = tuple(one for one in left if waits(room, one))
    is_open = [one for one in left if one not in waiting]
    return Given(tuple(sorted(is_open, key=_is_on_paper)), waiting, tuple(one for _, one in newest))


def _is_on_paper(one: Assigned) -> bool:
    return one.work is Work.SHEET and graded_recipe(one.text) is None


def waits(room: Room, one: Assigned) -> bool:
    """Whether nothing is learned yet that it could ask."""
    match one.work:
        case Work.SET:
            # Without the ladder, which may not be counted yet.
            asked = set_from(one.asked)
            return asked is None or not asked.can_be_asked(known_facts(room))
        case Work.DUE:
            return not known_facts(room)
    return False


def _line(room: Room, one: Assigned) -> Line | None:
    return work_line(one.work, one.text, room.course, room.words)


def given_title(room: Room, one: Assigned) -> Line:
    """What it is called."""
    return _line(room, one) or Line("", "")


class FollowingGiven(NamedTuple):
    """What follows of what a tutor gave: what it is called, and what asks for it."""

    line: Line
    asks: NextGiven


def following_given(room: Room, done: tuple[Work, str]) -> FollowingGiven | None:
    """What is open on the screen besides, where what is just done was given; None where it was not,
    or nothing is."""
    now, today = given_now(room), room.now().astimezone().date()
    fresh = [one for one in now.done if one.done and one.done.astimezone().date() == today]
    others = [one for one in now.on_screen if (one.work, one.text) != done]
    if not others or all((one.work, one.text) != done for one in (*now.open, *fresh)):
        return None
    line = room.words.line("given.next", title=given_title(room, others[0]))
    return FollowingGiven(line, NextGiven(others[0].id))

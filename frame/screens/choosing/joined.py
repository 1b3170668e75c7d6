"""Who is one child with whom, and what tells two of one name apart: for the pages on which a
grown-up joins them and parts them again."""

from collections.abc import Callable, Sequence
from datetime import datetime
from itertools import pairwise

from frame.language.days import day_text
from frame.language.lines import Line
from frame.learner.learners import Learner
from frame.learner.store import Store, StoreError
from frame.room import Room
from frame.screens.parts.portraits import portrait_name
from frame.screens.parts.trouble import trouble_text


def each_of(room: Room, learner: Learner) -> tuple[Learner, ...]:
    """Whom a child is joined of, each with a name and a picture of their own; only the child
    where nobody is joined."""
    alone: tuple[Learner, ...] = (learner,)
    return room.keeper.read(lambda store: store.each_of(learner), alone) or alone


def joined_text(room: Room) -> str:
    """Of whom the child is joined who is here; nothing where nobody is joined."""
    learner, words = room.learner, room.words
    parts = each_of(room, learner) if learner else ()
    if len(parts) < 2:
        return ""
    named = [
        words.text(
            "same_child.named",
            name=one.nickname,
            portrait=portrait_name(words, one.picture).rstrip("."),
        )
        for one in parts
    ]
    return words.text("same_child.joined", names=", ".join(named))


def apart_text(room: Room, learner: Learner, ids: Sequence[str]) -> str:
    """What tells one child from another of the same name: the picture in words, how much was done
    under the ids of the child, and on which day the last of it."""
    nothing: tuple[int, datetime | None] = (0, None)
    count, last = room.keeper.read(lambda store: store.worked(ids), nothing)
    words, portrait = room.words, portrait_name(room.words, learner.picture)
    if last is None:
        return words.text("same_child.idle", portrait=portrait)
    day = day_text(words, last.astimezone().date())
    return words.text("same_child.worked", portrait=portrait, count=count, day=day)


def kept(room: Room, write: Callable[[Store], None], done: Line) -> Line:
    """Have something written at once: what was done, or why it could not be."""
    try:
        write(room.store)
    except StoreError as error:
        text = trouble_text(error.trouble, room.words)
        return Line(text, text)
    room.read_anew()
    return done


def part_one(store: Store, one: Learner, others: Sequence[Learner], now: datetime) -> None:
    """One is a child of their own again, and the others stay one child, also where that one was
    what joined them. In this order nobody is apart who should not be, wherever it breaks off."""
    for first, second in pairwise(others):
        store.join(first, second, now)
    for other in others:
        store.join(one, other, now, apart=True)

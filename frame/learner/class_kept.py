"""The class of a tutor: which of the children here are in it, and in which group.

It is this computer's, as the list it was made of is this tutor's; what the children do goes with
themselves.
"""

import json
from collections.abc import Iterable
from typing import NamedTuple

from frame.learner.learners import Learner
from frame.learner.nickname import nickname_of
from frame.learner.store import Store


class Member(NamedTuple):
    """A child of the class, and its group; "" for none."""

    learner: Learner
    group: str = ""


def kept_class(store: Store) -> tuple[Member, ...]:
    """The class in the order in which it was kept, empty for none. Who was deleted is in it no
    more, and a child with several ids is in it once. Raises StoreError."""
    ids = {one: learner for learner in store.learners() for one in store.ids_of(learner)}
    found = dict[Learner, str]()
    for one, group in _listed(store.kept_class() or ""):
        if one in ids:
            found.setdefault(ids[one], nickname_of(group, ""))
    return tuple(Member(*one) for one in found.items())


def keep_class(store: Store, members: Iterable[Member]) -> None:
    """Keep a class in place of the one before; one without children is none. Raises StoreError."""
    listed = [[one.learner.id, one.group] for one in members]
    store.keep_class(json.dumps(listed) if listed else None)


def groups_of(members: Iterable[Member]) -> tuple[str, ...]:
    """The groups that a class has, in the order in which they come."""
    return tuple(dict.fromkeys(one.group for one in members if one.group))


def _listed(text: str) -> list[tuple[str, str]]:
    """Ids and groups; without what no version wrote."""
    try:
        rows = json.loads(text)
    except (ValueError, RecursionError):
        return []
    if not isinstance(rows, list):
        return []
    return [
        (row[0], row[1])
        for row in rows
        if isinstance(row, list) and len(row) == 2 and all(isinstance(one, str) for one in row)
    ]

"""The learner whom a command names: by name, and of several of that name by the first letters of an
id, behind it as in Otter#3f2a, or with --id where a command has that."""

from collections.abc import Sequence
from difflib import get_close_matches

from frame.commands.output import Refusal, refusal_near
from frame.language.catalogue import Words
from frame.learner.learners import Learner
from frame.learner.nickname import called, nickname_of, search_key
from frame.learner.store import Store

_LEAST_OF_ID = 4
_OF_ID = "#"
"""Between a name and the first letters of an id."""


def learner_called(store: Store, name: str | None, begins: str, words: Words) -> Learner:
    """The one learner of this name whose id begins so. Raises Refusal."""
    everybody = store.learners()
    fitting = [one for one in _named(name, everybody) if _has_id(store, one, begins)]
    if not fitting and name is not None and _OF_ID in name:
        short, _, letters = name.rpartition(_OF_ID)
        some = [one for one in _named(short.strip(), everybody) if _has_id(store, one, begins)]
        fitting = [one for one in some if _has_id(store, one, letters.strip())]
    where = name or (f"--id {begins}" if begins else words.text("cli.command_line"))
    expected = words.text("cli.copies.a_learner")
    if not everybody:
        raise Refusal(where, words.text("cli.copies.nobody_yet"), expected)
    if not fitting:
        names = ", ".join(sorted({one.nickname for one in everybody}))
        found = words.text("cli.copies.no_learner", name=where, names=names)
        raise refusal_near(where, found, expected, _nearest(name or "", everybody), words)
    if len(fitting) > 1:
        which = "; ".join(_told_apart(store, fitting, words))
        found = words.text("cli.copies.several", count=len(fitting), which=which)
        raise Refusal(where, found, words.text("cli.copies.one_id"))
    return fitting[0]


def without_id(name: str) -> str:
    """What stands before the first letters of an id, if there are any."""
    return name.rpartition(_OF_ID)[0].strip() or name


def _named(name: str | None, learners: Sequence[Learner]) -> Sequence[Learner]:
    """Those of this name, which may be longer than what is kept of it; None for everybody."""
    if name is None:
        return learners
    kept = name if _OF_ID in name else nickname_of(name, name)
    return [learners[at] for at in called(kept, [one.nickname for one in learners])]


def _has_id(store: Store, learner: Learner, begins: str) -> bool:
    return any(one.startswith(begins.lower()) for one in store.ids_of(learner))


def _nearest(name: str, learners: Sequence[Learner]) -> list[str]:
    """The name that may have been meant, if there is one."""
    names = {search_key(one.nickname): one.nickname for one in learners}
    return [names[key] for key in get_close_matches(search_key(name), names, 1)]


def _told_apart(store: Store, learners: Sequence[Learner], words: Words) -> list[str]:
    """Each with the picture, the day they came and as much of the id as no other has."""
    length = _LEAST_OF_ID
    while len({one.id[:length] for one in learners}) < len(learners):
        length += 1
    told = []
    for one in learners:
        came = store.came(one)
        day = str(came.astimezone().date()) if came else "?"
        facts = {"name": one.nickname, "picture": one.picture, "id": one.id[:length]}
        told.append(words.text("cli.copies.one_of_them", day=day, **facts))
    return told

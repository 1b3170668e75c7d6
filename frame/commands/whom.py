"""The learner whom a command names."""

from collections.abc import Sequence
from difflib import get_close_matches

from frame.commands.output import Refusal, perhaps
from frame.language.catalogue import Words
from frame.learner.learners import Learner
from frame.learner.nickname import called, search_key
from frame.learner.store import Store

_LEAST_OF_ID = 4


def learner_called(store: Store, name: str | None, begins: str, words: Words) -> Learner:
    """The one learner of this name whose id begins so. Raises Refusal."""
    everybody = store.learners()
    named = everybody
    if name is not None:
        named = tuple(everybody[at] for at in called(name, [one.nickname for one in everybody]))
    fitting = [one for one in named if any(i.startswith(begins.lower()) for i in store.ids_of(one))]
    where = name or (f"--id {begins}" if begins else words.text("cli.command_line"))
    expected = words.text("cli.copies.a_learner")
    if not everybody:
        raise Refusal(where, words.text("cli.copies.nobody_yet"), expected)
    if not fitting:
        names = ", ".join(sorted({one.nickname for one in everybody}))
        found = words.text("cli.copies.no_learner", name=where, names=names)
        raise Refusal(where, found, perhaps(expected, _nearest(name or "", everybody), words))
    if len(fitting) > 1:
        which = "; ".join(_told_apart(store, fitting, words))
        found = words.text("cli.copies.several", count=len(fitting), which=which)
        raise Refusal(where, found, words.text("cli.copies.one_id"))
    return fitting[0]


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

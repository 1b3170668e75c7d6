"""A list that was read becomes a class: who of it is here already, who is new, and of whom only the
tutor can say."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping, Sequence
from difflib import get_close_matches
from enum import Enum, auto
from itertools import count, islice
from typing import NamedTuple

from frame.drawn import ANIMALS
from frame.learner.class_kept import Member
from frame.learner.class_list import MOST_CHILDREN, Listed
from frame.learner.learners import Learner
from frame.learner.looks import FLAGS, Portrait, portrait_of
from frame.learner.nickname import search_key

_NEARLY = 0.8
"""From this share of signs in common on (difflib's ratio) a name may be meant for another: a
judgement, no source."""
_LEAST_LETTERS = 5
"""Shorter names that are nearly the same are mostly two names."""


class Whom(Enum):
    """What a name of a list may stand for, beside somebody who is here."""

    NEW = auto()
    NOBODY = auto()
    """It is left out, as one that is there already in another line."""


class Named(NamedTuple):
    """A child of a list, who is here under that name, and whether a line before has it, too. Where
    nobody is, `known` may be who is here, not in the list, and called nearly so (`is_near`)."""

    listed: Listed
    known: tuple[Learner, ...]
    is_again: bool = False
    is_near: bool = False

    @property
    def is_doubtful(self) -> bool:
        """Whether only a tutor can say who it is."""
        return len(self.known) > 1 or self.is_again or self.is_near

    @property
    def whom(self) -> Learner | Whom:
        """Who it is, where there is no doubt."""
        return self.known[0] if self.known else Whom.NEW


Said = Mapping[int, Learner | Whom]
"""Whom a tutor said that the child of a line is."""


class Taken(NamedTuple):
    """A class, and who of it is new."""

    members: tuple[Member, ...]
    newcomers: tuple[Learner, ...]


def named(listed: Iterable[Listed], learners: Sequence[Learner]) -> tuple[Named, ...]:
    """The children of a list, at most MOST_CHILDREN, beside who is here."""
    times = Counter[str]()
    some = tuple(islice(listed, MOST_CHILDREN))
    called = [_called(one.name, learners) for one in some]
    of_list = frozenset(one for known in called for one in known)
    others = [one for one in learners if one not in of_list]
    found = []
    for one, known in zip(some, called, strict=True):
        key = search_key(one.name)
        near = () if known else _nearly_called(key, others)
        found.append(Named(one, known or near, is_again=times[key] > 0, is_near=bool(near)))
        times[key] += 1
    return tuple(found)


def taken(some: Iterable[Named], said: Said, learners: Sequence[Learner]) -> Taken:
    """The class that a list is, by what was said of those in doubt; of whom nothing was said is
    left out. Whoever is new gets a picture that as few as can be have."""
    pictures = _pictures(one.picture for one in learners)
    groups, newcomers = dict[Learner, str](), []
    for one in some:
        whom = said.get(one.listed.line, Whom.NOBODY) if one.is_doubtful else one.whom
        if whom is Whom.NOBODY:
            continue
        if whom is Whom.NEW:
            whom = Learner.new(one.listed.name, next(pictures))
            newcomers.append(whom)
        assert isinstance(whom, Learner)
        groups.setdefault(whom, one.listed.group)
    return Taken(tuple(Member(*one) for one in groups.items()), tuple(newcomers))


def joined(before: Iterable[Member], more: Iterable[Member]) -> tuple[Member, ...]:
    """A class with more children behind those there are; who is among those gets the group that is
    given now, if one is."""
    groups = {one.learner: one.group for one in before}
    for one in more:
        groups[one.learner] = one.group or groups.get(one.learner, "")
    return tuple(Member(*one) for one in groups.items())


def _called(name: str, learners: Sequence[Learner]) -> tuple[Learner, ...]:
    """Who has a name: the same, or else so but for case, or but for accents."""
    for key in (str, str.casefold, search_key):
        if found := tuple(one for one in learners if key(one.nickname) == key(name)):
            return found
    return ()


def _nearly_called(key: str, learners: Iterable[Learner]) -> tuple[Learner, ...]:
    """Whose name is nearly so: not where names are short, or a sign tells the children apart."""
    if len(key) < _LEAST_LETTERS:
        return ()
    keys = {one: search_key(one.nickname) for one in learners}
    able = [
        one
        for one in keys.values()
        if len(one) >= _LEAST_LETTERS and _sign_of(one) == _sign_of(key)
    ]
    near = get_close_matches(key, able, len(able) or 1, _NEARLY)
    return tuple(one for one in keys if keys[one] in near)


def _sign_of(key: str) -> list[str]:
    """The parts of a name that tell children of one name apart: an initial, a number."""
    return [part for part in key.split() if len(part.strip(".")) < 2 or any(map(str.isdigit, part))]


def _pictures(taken: Iterable[str]) -> Iterator[str]:
    """Pictures, those first that fewest have, and of those an animal that fewest have."""
    portraits = [Portrait(animal, flag) for flag in FLAGS for animal in ANIMALS]
    times, animals = Counter[Portrait](), Counter[str]()

    def use(one: Portrait) -> None:
        times[one] += 1
        animals[one.animal] += 1

    for known in filter(None, map(portrait_of, taken)):
        use(known)
    for _ in count():
        best = min(portraits, key=lambda one: (times[one], animals[one.animal]))
        use(best)
        yield best.picture

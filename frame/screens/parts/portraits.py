"""Learners' portraits in words: what is said of them, since no voice can say every name; and in
which order names stand."""

from collections.abc import Iterable

from frame.drawn import ANIMALS
from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.learner.learners import Learner
from frame.learner.looks import FLAGS, portrait_of
from frame.learner.nickname import search_key


def animal_name(words: Words, picture: str) -> str:
    """What the animal of a picture is called; of one that is not known, that somebody is new."""
    portrait = portrait_of(picture)
    if portrait is None:
        return words.text("who.new")
    return words.listed("who.animals")[ANIMALS.index(portrait.animal)]


def flag_name(words: Words, flag: str) -> str:
    """What is on a flag."""
    return words.listed("who.flags")[FLAGS.index(flag)]


def portrait_name(words: Words, picture: str) -> str:
    """A picture in words."""
    portrait, animal = portrait_of(picture), animal_name(words, picture)
    if portrait is None:
        return animal
    return words.text("who.portrait", animal=animal, flag=flag_name(words, portrait.flag))


def called(words: Words, learner: Learner) -> Line:
    """A learner's name as it is shown, and the animal as it is spoken."""
    return Line(learner.nickname, animal_name(words, learner.picture))


def by_name(learners: Iterable[Learner]) -> tuple[Learner, ...]:
    """Learners by their names, whatever the language of the system: without case and accents, of
    one name in the order given.

    >>> from frame.learner.learners import Learner
    >>> [one.nickname for one in by_name(Learner("", name, "") for name in ("Zoe", "Éva", "abe"))]
    ['abe', 'Éva', 'Zoe']
    """
    return tuple(sorted(learners, key=lambda one: search_key(one.nickname)))

"""A list becomes a class: who is here stays who they are, who is new gets their own picture."""

from itertools import product

import pytest

from frame.learner.class_kept import Member
from frame.learner.class_list import MOST_CHILDREN, read_class
from frame.learner.class_taking import Whom, joined, named, taken
from frame.learner.learners import Learner
from frame.learner.looks import ANIMALS, FLAGS, Portrait

OTTER, OTHER_OTTER = Learner("1", "Otter", "otter"), Learner("2", "Otter", "seal")
SEAL, EVA = Learner("3", "seal", "seal-cross"), Learner("4", "Éva", "gull")
HERE = (OTTER, OTHER_OTTER, SEAL, EVA)


def of(text, here=HERE):
    return named(read_class(text).children, here)


@pytest.mark.parametrize(
    ("text", "known", "is_doubtful"),
    [
        ("Seal", (SEAL,), False),
        ("seal", (SEAL,), False),
        ("Eva", (EVA,), False),
        ("Otter", (OTTER, OTHER_OTTER), True),
        ("Ott", (), False),
        ("Sealion", (), False),
        ("Crab", (), False),
    ],
)
def test_who_is_here_is_found_by_the_whole_name(text, known, is_doubtful):
    (one,) = of(text)
    assert one.known == known and one.is_doubtful is is_doubtful


NAMES = ("Badger", "Otter", "Crab", "Sprat 1", "Puffin B.", "Éider Duck", "Storm-petrel")
HARBOUR = tuple(Learner(str(at), name, "otter") for at, name in enumerate(NAMES))


@pytest.mark.parametrize(
    ("name", "near"),
    [
        ("Bagder", "Badger"), ("badgr", "Badger"), ("Bádgers", "Badger"),
        ("Eider Duk", "Éider Duck"), ("Pufin B.", "Puffin B."), ("Strom-petrel", "Storm-petrel"),
        ("Osprey", None), ("Crabs", None), ("Cra", None), ("Sprat 2", None), ("Sprat 11", None),
        ("Puffin C.", None), ("Puffin", None), ("Badger M", None), ("Ranger", None),
    ],
)  # fmt: skip
def test_a_new_name_that_is_nearly_one_who_is_here_is_in_doubt(name, near):
    (one,) = of(name, HARBOUR)
    assert [known.nickname for known in one.known] == [near] * (near is not None)
    assert one.is_doubtful is one.is_near is (near is not None)


def test_who_is_in_the_list_is_meant_by_no_other_line():
    assert [one.is_doubtful for one in of("Bagder\nBadger", HARBOUR)] == [False, False]


@pytest.mark.parametrize("whom", [HARBOUR[0], *Whom])
def test_of_a_name_that_is_nearly_so_it_goes_by_what_is_said(whom):
    some = of("Bagder, nets", HARBOUR)
    assert taken(some, {}, HARBOUR).members == ()
    found = taken(some, {1: whom}, HARBOUR)
    new = ["Bagder"] * (whom is Whom.NEW)
    names = ["Badger"] if whom is HARBOUR[0] else new
    assert [one.learner.nickname for one in found.members] == names
    assert [one.nickname for one in found.newcomers] == new


def test_a_name_that_comes_again_is_in_doubt_even_of_nobody_who_is_here():
    assert [one.is_doubtful for one in of("Crab\nCrab\ncráb\nHeron")] == [False, True, True, False]


@pytest.mark.parametrize(
    ("said", "members", "new"),
    [
        ({}, ["seal"], []),
        ({1: OTHER_OTTER}, ["Otter", "seal"], []),
        ({1: Whom.NEW}, ["Otter", "seal"], ["Otter"]),
        ({1: Whom.NOBODY}, ["seal"], []),
        ({1: OTTER, 3: OTTER}, ["Otter", "seal"], []),
        ({1: OTTER, 3: Whom.NEW}, ["Otter", "seal", "Otter"], ["Otter"]),
    ],
)
def test_of_those_in_doubt_it_goes_by_what_is_said(said, members, new):
    found = taken(of("Otter, nets\nSeal, nets\nOtter, lamps"), said, HERE)
    assert [one.learner.nickname for one in found.members] == members
    assert [one.nickname for one in found.newcomers] == new
    for whom in set(said.values()) - set(Whom):
        assert whom in [one.learner for one in found.members]


def test_the_first_line_of_a_child_says_its_group():
    found = taken(of("Otter, nets\nOtter, lamps"), {1: OTTER, 2: OTTER}, HERE)
    assert found.members == (Member(OTTER, "nets"),)


def test_newcomers_get_pictures_that_nobody_has_while_there_are_any():
    names = "\n".join(f"Sprat {at}" for at in range(len(ANIMALS) * len(FLAGS) - len(HERE)))
    found = taken(of(names), {}, HERE)
    pictures = [one.picture for one in (*HERE, *found.newcomers)]
    every = {Portrait(animal, flag).picture for animal, flag in product(ANIMALS, FLAGS)}
    assert len(pictures) == len(every) and set(pictures) == every


def test_a_few_newcomers_are_animals_that_nobody_is():
    found = taken(of("Sprat\nCod\nLing"), {}, HERE)
    animals = [one.picture for one in found.newcomers]
    assert len(set(animals)) == 3 and set(animals) <= set(ANIMALS) - {"otter", "seal", "gull"}


def test_a_class_has_no_more_children_than_it_can():
    names = "\n".join(f"Sprat {at}" for at in range(MOST_CHILDREN + 1))
    assert len(of(names, ())) == MOST_CHILDREN


def test_what_is_added_stands_behind_and_changes_a_group_only_where_one_is_given():
    before = (Member(OTTER, "nets"), Member(SEAL, "nets"))
    more = (Member(SEAL, "lamps"), Member(OTTER, ""), Member(EVA, "lamps"))
    assert joined(before, more) == (
        Member(OTTER, "nets"), Member(SEAL, "lamps"), Member(EVA, "lamps"),
    )  # fmt: skip

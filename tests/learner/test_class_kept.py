"""A class is kept in its order, and holds who is here."""

import pytest
from kept import NOW, added

from frame.learner.class_kept import Member, groups_of, keep_class, kept_class


@pytest.fixture
def three(store):
    names = {"Otter": "nets", "Seal": "", "Crab": "lamps"}
    return tuple(Member(added(store, name), group) for name, group in names.items())


def test_a_class_comes_back_in_its_order_with_its_groups(store, three):
    assert kept_class(store) == ()
    turned = three[::-1]
    keep_class(store, turned)
    assert kept_class(store) == turned
    assert groups_of(turned) == ("lamps", "nets")
    keep_class(store, ())
    assert kept_class(store) == () and store.kept_class() is None


def test_who_was_deleted_is_in_it_no_more_and_who_has_two_ids_once(store, three):
    otter, seal, crab = three
    keep_class(store, three)
    store.remove_learner(seal.learner, NOW)
    assert kept_class(store) == (otter, crab)
    store.join(otter.learner, crab.learner, NOW)
    (both,) = kept_class(store)
    assert (both.learner.id, both.group) == (otter.learner.id, "nets")


@pytest.mark.parametrize(
    "text", ["", "{", "[", "7", "{}", "[7]", '[["1"]]', "[[1, 2]]", "[" * 9999, "[null]"]
)
def test_a_class_that_cannot_be_read_is_none(store, three, text):
    store.keep_class(text)
    assert kept_class(store) == ()

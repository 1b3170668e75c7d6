"""Portraits: sixty that differ, kept so that older files stay valid."""

import pytest

from frame.learner.looks import ANIMALS, FLAGS, Portrait, portrait_of

ALL = [Portrait(animal, flag) for animal in ANIMALS for flag in FLAGS]


def test_sixty_portraits_are_kept_and_known_again():
    assert len({one.picture for one in ALL}) == 60
    assert [portrait_of(one.picture) for one in ALL] == ALL


@pytest.mark.parametrize("animal", ANIMALS)
def test_the_animal_alone_of_an_older_file_is_that_before_a_plain_flag(animal):
    assert portrait_of(animal) == Portrait(animal, "plain") and Portrait(animal).picture == animal


@pytest.mark.parametrize("picture", ["", "walrus", "otter-plaid", "newcomer", "-", "otter-cross-x"])
def test_what_is_not_known_is_no_portrait(picture):
    assert portrait_of(picture) is None

"""A share of the report: planted groups are found, and their tasks cover more than others."""

from random import Random
from statistics import mean

import pytest
from grouping import MOST, ROWS, every_split, found_of, of_best, worse
from rand_index import adjusted_rand

SOME = range(8)


@pytest.mark.parametrize(
    ("one", "other", "index"),
    [
        ("aabb", "aabb", 1),
        ("aabb", "bbaa", 1),
        ("aabb", "aabc", 4 / 7),
        ("aabc", "aabb", 4 / 7),
        ("aabb", "abab", -1 / 2),
        ("aaaa", "abcd", 0),
        ("aaaa", "aaaa", 1),
        ("abcd", "dcba", 1),
        # Yeung and Ruzzo 2001, Details of the adjusted Rand index: counts 1 1 0, 1 2 1, 0 0 4.
        ("aabbbbcccc", "xyxyyzzzzz", 0.313),
    ],
)
def test_the_index_is_the_published_one(one, other, index):
    assert adjusted_rand(one, other) == pytest.approx(index, abs=0.0005)


def test_by_chance_the_index_is_nothing():
    random, parts = Random(1), [at % 4 for at in range(20)]
    found = [adjusted_rand(parts, random.sample(parts, len(parts))) for _ in range(400)]
    assert abs(mean(found)) < 0.02


def test_there_are_as_many_splits_as_stirling_counts():
    splits = [tuple(one) for one in every_split(6, 3)]
    assert len(splits) == len(set(splits)) == 1 + 31 + 90


def check(row, classes, least):
    _, noise, most = row
    found = [found_of(seed, noise, most) for seed in classes]
    ours = mean(one.ours for one in found)
    assert ours > mean(one.same for one in found) + 0.1
    assert ours > mean(one.by_chance for one in found) + 0.05
    assert mean(one.agreement for one in found) >= least
    assert worse(found, "same") == 0
    return found


def test_planted_groups_are_found_and_cover_more():
    check(ROWS[0], SOME, 0.95)


def test_with_more_groups_than_are_planted_no_less_is_covered():
    _, noise, _ = ROWS[0]
    for seed in SOME:
        few, many = found_of(seed, noise), found_of(seed, noise, MOST)
        assert many.ours >= few.ours - 0.001


@pytest.mark.proof
@pytest.mark.parametrize(
    ("row", "least"), [*zip(ROWS, (0.98, 0.7, 0.95, 0.95, 0.35, 0.95), strict=True)]
)
def test_the_report_holds(row, least):
    found = check(row, range(60), least)
    assert worse(found, "by_chance") == 0
    assert worse(found, "planted") <= 0.1 * len(found)


@pytest.mark.proof
def test_hardly_anything_is_missed_of_the_best_split():
    shares = [of_best(seed) for seed in range(60)]
    assert max(shares) <= 1.001
    assert mean(shares) >= 0.99 and min(shares) >= 0.95

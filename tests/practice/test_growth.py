"""What has grown is what a plain count over the record finds, week by week."""

import json
from collections import Counter
from datetime import date, timedelta
from itertools import pairwise
from random import Random

import pytest
from each import each_row
from hypothesis import given
from hypothesis import strategies as st

from frame.practice.evidence import Evidence
from frame.practice.families import Family
from frame.practice.figures import (
    FAMILY_OF,
    FEWEST,
    HELD,
    ItemFigure,
    Level,
    digits,
    figure_of,
    height_of,
    known_by_family,
    ladder_curve,
    newest,
    numbers_curve,
    quickness,
    rows,
)
from frame.practice.growth import Growth, Numbers, monday_of, week_of
from frame.practice.items import CELLS, ITEMS, PRODUCTS
from frame.practice.ladder import RUNGS, Try
from frame.practice.mastery import Mastery, Standing, State
from frame.practice.rungs import Asked, Rung
from frame.practice.standing import Ladder
from frame.practice.why import Reason

DAY = 86_400.0
MONDAY = 1_777_852_800.0  # The 4th of May 2026.
FAMILIES = (Family.READ, Family.ADD_FIVE, Family.ADD_TEN)


def tries(seed, count, right):
    """Tries in order, a few a day and with pauses of weeks: most as the ladder has them, some by
    hand, some of called numbers."""
    random, at, ladder = Random(seed), MONDAY, Ladder()
    for _ in range(count):
        at += random.choice((60.0, 600.0, DAY / 3, 9 * DAY) if random.random() < 0.2 else (60.0,))
        family, is_right = random.choice(FAMILIES), random.random() < right
        rods = ladder.rods(family)
        one = Try(
            family, rods, ladder.climb(family, rods).rung, is_right, 0, 2.0, frozenset(),
            digits=random.choice((1, 2)), terms=2,
        )  # fmt: skip
        if random.random() < 0.2:
            one = one._replace(asked=Asked.CALLED, pace=1.0, terms=3)
        elif random.random() < 0.1:
            one = one._replace(rung=random.choice(RUNGS), rods=family.least_rods)
        ladder.add(one)
        yield at, one


def grown(tried):
    growth, ladder = Growth(), Ladder()
    for at, one in tried:
        ladder.add(one)
        growth.climb(one, ladder, at)
    return growth


LIVES = st.builds(
    lambda *facts: list(tries(*facts)),
    st.integers(0, 999), st.integers(0, 250), st.sampled_from((0.5, 0.9, 1.0)),
)  # fmt: skip


@given(st.dates(date(1971, 1, 1), date(2100, 1, 1)))
def test_a_week_goes_from_monday_to_sunday(day):
    at = (day - date(1970, 1, 1)).days * DAY
    monday = day - timedelta(days=day.weekday())
    assert monday_of(week_of(at)) == monday_of(week_of(at + DAY - 1)) == monday


@given(LIVES)
def test_a_week_of_a_family_is_a_recount_of_its_tries_and_where_the_ladder_stood_at_its_end(life):
    growth = grown(life)
    for family in FAMILIES:
        points = ladder_curve(growth, family).points
        ours = [(week_of(at), one) for at, one in life if one.family is family and one.is_on_ladder]
        assert [one.week for one in points] == sorted({week for week, _ in ours})
        for point in points:
            here = [one for week, one in ours if week == point.week]
            assert point.tally == (sum(one.right for one in here), len(here))
            ladder = Ladder.of(one for at, one in life if week_of(at) <= point.week)
            rods = ladder.rods(family)
            place = rods, ladder.climb(family, rods).rung
            assert (point.of.place, point.height) == (place, height_of(*place))


@given(LIVES)
def test_steps_lead_from_the_first_place_to_where_the_ladder_stands_each_with_a_reason(life):
    growth, ladder = grown(life), Ladder.of(one for _, one in life)
    assert [one.at for one in growth.steps] == sorted(one.at for one in growth.steps)
    for family in {one.family for one in growth.steps}:
        steps = [one for one in growth.steps if one.family is family]
        begun = [one.why.reason is Reason.BEGIN for one in steps]
        assert begun == [True, *[False] * (len(steps) - 1)]
        places = [one.place for one in steps]
        assert all(one != other for one, other in pairwise(places))
        rods = ladder.rods(family)
        assert places[-1] == (rods, ladder.climb(family, rods).rung)
        for before, after in pairwise(steps):
            assert (after.why.reason is Reason.ROD) == (after.rods > before.rods)


SIZES = [(1, 3, 2.0), (1, 5, 2.0), (2, 3, 1.0), (2, 5, 2.0)]
MEASURES = {
    digits: lambda size: size[0],
    rows: lambda size: size[1],
    quickness: lambda size: -size[2],
}


def columns(seed, count=900):
    """Called and flashed numbers in some weeks, most of them right, and some that are no column."""
    random, at = Random(seed), MONDAY
    for _ in range(count):
        at += random.choice((60.0, 60.0, 60.0, DAY / 8))
        asked, right = random.choice((Asked.CALLED, Asked.FLASHED)), random.random() < 0.92
        size, is_column = random.choice(SIZES), random.random() < 0.9
        yield at, Try(
            Family.SET, 1, Rung.NUMBER, right, 0, 2.0, frozenset(), asked, True,
            size[0], size[1] * is_column, size[2],
        )  # fmt: skip


@each_row("seed", range(5))
@each_row("asked", [Asked.CALLED, Asked.FLASHED])
@each_row("measure", MEASURES)
def test_a_week_of_numbers_is_the_furthest_of_which_nine_of_ten_were_right(asked, measure, seed):
    tried, right = Counter(), Counter()
    for at, one in columns(seed):
        if one.asked is asked and one.terms:
            key = week_of(at), (one.digits, one.terms, one.pace)
            tried[key] += 1
            right[key] += one.right
    held = {key for key in tried if tried[key] >= HELD and 10 * right[key] >= 9 * tried[key]}
    points = numbers_curve(grown(columns(seed)), asked, measure).points
    assert held, "or nothing is tried here"
    assert [one.week for one in points] == sorted({week for week, _ in held})
    for point in points:
        size = point.of[1:]
        assert (point.week, size) in held
        assert point.tally == (right[point.week, size], tried[point.week, size])
        far = max(MEASURES[measure](one) for week, one in held if week == point.week)
        assert point.height == MEASURES[measure](size) == far


@pytest.mark.parametrize(
    ("right", "wrong", "is_told"), [(9, 0, False), (9, 1, True), (8, 2, False), (18, 2, True)]
)
def test_a_point_of_numbers_needs_ten_columns_and_nine_of_ten(right, wrong, is_told):
    one = Try(
        Family.SET, 1, Rung.NUMBER, True, 0, 0, frozenset(), Asked.CALLED, True, 3, 10, 1.5
    )  # fmt: skip
    life = [(MONDAY + at, one._replace(right=at < right)) for at in range(right + wrong)]
    points = numbers_curve(grown(life), Asked.CALLED, digits).points
    assert [one.of for one in points] == [Numbers(Asked.CALLED, 3, 10, 1.5)] * is_told


def test_own_best_is_the_highest_week_and_the_first_of_those():
    life = list(tries(3, 400, 1.0))
    for family in FAMILIES:
        curve = ladder_curve(grown(life), family)
        heights = [one.height for one in curve.points]
        assert curve.best == curve.points[heights.index(max(heights))]
    assert ladder_curve(Growth(), Family.ADD_FIVE).best is None


def test_a_higher_place_is_higher():
    places = [(rods, rung) for rods in range(1, 5) for rung in RUNGS[RUNGS.index(Rung.ALONE) :]]
    heights = [height_of(*place) for place in places]
    assert heights == sorted(set(heights))


# What is known


ITEM = st.sampled_from(("4+3", "8-7", "7x8", "set-tens", "ripple-add"))
EVIDENCE = st.lists(
    st.tuples(
        ITEM, st.integers(0, 40), st.booleans() | st.just(True), st.just(False) | st.booleans()
    ),
    max_size=60,
)


def told(facts):
    at, found = MONDAY, []
    for item, hours, right, guided in facts:
        at += 3600 * hours
        found.append(Evidence(item, at, str(at // DAY), right, guided, 2.0 if right else None))
    return found


def known_of(mastery):
    known = (State.ACCURATE, State.FLUENT, State.KEPT)
    return {item for item in ITEMS if mastery.standing(item).state in known}


def folded(evidence):
    growth, mastery = Growth(), Mastery()
    for one in evidence:
        mastery.add(one)
        growth.learn(one.item, mastery, one.at)
    return growth, mastery


@given(EVIDENCE)
def test_when_an_item_first_came_to_be_known_is_when_the_mastery_first_knew_it(facts):
    evidence, first = told(facts), {}
    for count, one in enumerate(evidence, 1):
        for item in known_of(Mastery.of(evidence[:count])):
            first.setdefault(item, one.at)
    assert folded(evidence)[0].first_known == first


@given(EVIDENCE)
def test_the_newest_is_of_what_is_known_now_what_was_known_last_for_the_first_time(facts):
    growth, mastery = folded(told(facts))
    known, found = known_of(mastery), newest(growth, mastery)
    assert (found is None) == (not known)
    if found is not None:
        assert found in known
        assert growth.first_known[found] == max(growth.first_known[one] for one in known)


@given(EVIDENCE)
def test_tries_and_rights_are_a_plain_count_of_what_was_told(facts):
    evidence, mastery = told(facts), Mastery.of(told(facts))
    for item in ITEMS:
        alone = [one for one in evidence if one.item == item and not one.guided]
        figure = figure_of(mastery, item)
        assert (figure.tries, figure.right) == (len(alone), sum(one.right for one in alone))
        assert (figure.level is Level.FEW) == (len(alone) < FEWEST)
        last = [one.decision for one in alone if one.right][-5:]
        decision = 2.0 if len(last) >= FEWEST else None
        assert (figure.decision, figure.decided) == (decision, len(last))


@pytest.mark.parametrize("tries", [FEWEST - 1, FEWEST, 60])
def test_the_level_of_an_item_goes_by_its_state_from_five_tries_on(tries):
    levels = [ItemFigure("4+3", tries, 0, state, None, 0).level for state in State]
    told = [Level.LEARNING, Level.LEARNING, Level.KNOWN, Level.AT_ONCE, Level.KEPT]
    assert levels == (told if tries >= FEWEST else [Level.FEW] * len(State))


def knowing(items):
    return Mastery(standings=dict.fromkeys(items, Standing(State.ACCURATE)))


@given(st.sets(st.sampled_from(ITEMS)), st.sets(st.sampled_from(ITEMS)))
def test_every_item_is_counted_in_one_family(known, taught):
    families = known_by_family(knowing(known), taught)
    assert [one.family for one in families] == list(Family)
    assert sum(one.known for one in families) == len(known)
    assert sum(one.taught for one in families) == len(taught)
    assert sum(one.all for one in families) == len(ITEMS)
    for one in families:
        assert one.known == sum(FAMILY_OF[item] is one.family for item in known)


def test_cells_and_products_belong_where_they_are_taught():
    sizes = Counter(FAMILY_OF[str(cell)] for cell in CELLS)
    assert sizes == {
        Family.ADD_DIRECT: 35, Family.ADD_FIVE: 10, Family.ADD_TEN: 35, Family.ADD_TEN_FIVE: 10,
        Family.SUB_DIRECT: 35, Family.SUB_FIVE: 10, Family.SUB_TEN: 35, Family.SUB_TEN_FIVE: 10,
    }  # fmt: skip
    assert {FAMILY_OF[str(one)] for one in PRODUCTS} == {Family.MULTIPLY}


def test_of_what_came_at_once_a_sum_is_told_before_anything_else():
    at_once = dict.fromkeys(("set-tens", "4+3", "ripple-add"), MONDAY)
    assert newest(Growth(first_known=at_once), knowing(at_once)) == "4+3"
    later = {**at_once, "clear": MONDAY + 1}
    assert newest(Growth(first_known=later), knowing(later)) == "clear"
    assert newest(Growth(first_known=later), knowing(at_once)) == "4+3"


# What is kept


@given(LIVES, EVIDENCE)
def test_what_was_kept_is_read_again_as_it_was(life, facts):
    growth = grown(life)
    growth.first_known = folded(told(facts))[0].first_known
    assert Growth.from_plain(json.loads(json.dumps(growth.to_plain()))) == growth


def test_of_another_version_nothing_is_believed():
    with pytest.raises(ValueError, match="0"):
        Growth.from_plain({**Growth().to_plain(), "version": 0})

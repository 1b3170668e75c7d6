"""What is chosen to be practised becomes a set that can be drawn, and asks for what was chosen."""

from dataclasses import replace
from random import Random

import pytest

from frame.practice.choices import (
    CALL_PACES,
    FLASH_SECONDS,
    MOST_CALLED,
    MOST_CALLED_DIGITS,
    MOST_DIGITS,
    MOST_TERMS,
    SET,
    SHORT_SET,
    Choices,
    Sight,
    families_known,
)
from frame.practice.drawing import draw, drawable
from frame.practice.exercises import Kind, plan_for
from frame.practice.families import Family, family_of
from frame.practice.flashing import COUNT, DIGITS, INTERVAL, LEVELS, FlashSetting
from frame.practice.ladder import USUAL_RULES, Try
from frame.practice.rungs import Asked, Rung
from frame.technique.conventions import USUAL
from frame.technique.facts import ALL_FACTS

KNOWN = frozenset(ALL_FACTS)


def request_of(known=KNOWN, tries=None, **chosen):
    return Choices(**chosen).request(known, tries or {}, USUAL_RULES)


def drawn_of(request, seed):
    """The set of a request, without what it cannot draw."""
    random = Random(seed)
    facts = drawable(request, random) if request.facts else ()
    return draw(replace(request, facts=facts), random)


def tries_of(family, rods, rung, count, **more):
    one = Try(family, rods, rung, True, 0, 4.0, frozenset({"add-direct-1"}), **more)
    return [one] * count


@pytest.mark.parametrize("digits", [None, *range(1, MOST_DIGITS + 1)])
@pytest.mark.parametrize("family", Family)
def test_every_family_can_be_practised_by_whoever_knows_everything(family, digits):
    request = request_of(family=family, digits=digits)
    drawn = drawn_of(request, 1)
    assert len(drawn) == SET
    assert all(family_of(one.facts) is family for one in drawn)
    assert all((plan_for(one, USUAL) is None) is (one.kind is Kind.READ) for one in drawn)


@pytest.mark.parametrize("terms", range(2, MOST_TERMS + 1))
@pytest.mark.parametrize("family", [Family.SUB_DIRECT, Family.ADD_FIVE, Family.ADD_TEN_FIVE])
def test_as_many_numbers_as_are_chosen(family, terms):
    drawn = drawn_of(request_of(family=family, terms=terms), 2)
    assert {len(one.sum.terms) for one in drawn} == {terms}


@pytest.mark.parametrize("rung", Rung)
def test_a_chosen_rung_is_asked_at_throughout(rung):
    request = request_of(family=Family.ADD_FIVE, rung=rung)
    assert request.probe is None
    assert {one.rung for one in drawn_of(request, 3)} == {rung}


def test_only_facts_of_the_family_are_wanted_and_only_known_ones():
    known = frozenset({"add-five-3", "add-five-4", "add-direct-1", "read-digit-3"})
    request = request_of(known, family=Family.ADD_FIVE)
    assert set(request.facts) == {"add-five-3", "add-five-4"}
    assert request.known == known


def test_the_ladder_says_the_rung_and_the_rods_where_nothing_else_is_chosen():
    family = Family.ADD_FIVE
    usual = Choices(family=family)
    assert usual.standing({}, USUAL_RULES) == (Rung.ALONE, 1)
    climbed = {(family, 1): tries_of(family, 1, Rung.ALONE, USUAL_RULES.up_after)}
    assert usual.standing(climbed, USUAL_RULES) == (Rung.PALE, 1)
    others = {(Family.ADD_TEN, 1): climbed[family, 1]}
    assert usual.standing(others, USUAL_RULES) == (Rung.ALONE, 1)
    assert replace(usual, rung=Rung.TRACES).standing(climbed, USUAL_RULES) == (Rung.TRACES, 1)
    assert replace(usual, digits=2).standing(climbed, USUAL_RULES) == (Rung.ALONE, 2)


def test_by_the_ladder_now_and_then_comes_a_probe_of_the_rung_below():
    family = Family.ADD_FIVE
    tries = {(family, 1): tries_of(family, 1, Rung.ALONE, USUAL_RULES.up_after)}
    request = request_of(tries=tries, family=family)
    assert (request.rung, request.probe) == (Rung.PALE, Rung.ALONE)


@pytest.mark.parametrize("own", [False, True])
def test_a_frame_of_ones_own_is_for_sums(own):
    request = request_of(family=Family.ADD_FIVE, own=own)
    assert all(one.own is one.by_answer is own for one in drawn_of(request, 4))


@pytest.mark.parametrize("family", [Family.READ, Family.SET])
def test_nothing_is_read_or_set_on_a_frame_that_nobody_sees(family):
    drawn = drawn_of(request_of(family=family, own=True, digits=2), 4)
    assert not any(one.own for one in drawn)


# Called


@pytest.mark.parametrize("sight", Sight)
def test_what_is_seen_of_the_frame_in_a_call(sight):
    request = request_of(asked=Asked.CALLED, sight=sight)
    drawn = drawn_of(request, 5)
    assert len(drawn) == SHORT_SET
    assert {one.rung for one in drawn} == {sight.rung}
    assert all(one.own is (sight is Sight.OWN) for one in drawn)
    assert all(one.asked is Asked.CALLED and one.by_answer for one in drawn)


@pytest.mark.parametrize("count", [2, MOST_CALLED])
@pytest.mark.parametrize("digits", [1, 7, MOST_CALLED_DIGITS])
def test_called_columns_fit_the_frame_and_have_the_digits_asked_for(digits, count):
    chosen = {"call_digits": digits, "call_count": count, "minus": True, "by_place": True}
    request = request_of(asked=Asked.CALLED, **chosen)
    for exercise in drawn_of(request, 6):
        assert len(exercise.sum.terms) == count
        assert {len(str(abs(term))) for term in exercise.sum.terms} == {digits}
        assert plan_for(exercise, USUAL).result == exercise.sum.result
        assert exercise.by_place


@pytest.mark.parametrize("pace", range(len(CALL_PACES)))
def test_the_pace_of_a_call_is_the_silence_between_two_numbers(pace):
    assert request_of(asked=Asked.CALLED, call_pace=pace).pace == CALL_PACES[pace]
    assert list(CALL_PACES) == sorted(CALL_PACES, reverse=True)


# Flashed


@pytest.mark.parametrize("level", LEVELS, ids=lambda level: str(level.number))
def test_flashed_numbers_of_every_level(level):
    request = request_of(asked=Asked.FLASHED, flash=level.setting)
    drawn = drawn_of(request, 7)
    assert len(drawn) == SHORT_SET
    for exercise in drawn:
        assert len(exercise.sum.terms) == level.setting.count
        assert {len(str(term)) for term in exercise.sum.terms} == {level.setting.digits}
        assert exercise.pace == pytest.approx(level.setting.interval)
        assert (exercise.rung, exercise.asked) == (Rung.NUMBER, Asked.FLASHED)


def test_every_value_that_can_be_turned_to_is_a_setting():
    for seconds in FLASH_SECONDS:
        assert INTERVAL[0] <= seconds <= INTERVAL[1]
        for digits, count in ((DIGITS[0], COUNT[0]), (DIGITS[1], COUNT[1])):
            setting = FlashSetting(digits, count, seconds)
            assert drawn_of(request_of(asked=Asked.FLASHED, flash=setting), 8)


def test_the_families_known_come_in_the_order_of_the_course():
    assert families_known(frozenset()) == ()
    assert families_known(KNOWN) == tuple(Family)
    some = frozenset({"add-ten-3", "read-digit-1", "sub-direct-4"})
    assert families_known(some) == (Family.READ, Family.SUB_DIRECT, Family.ADD_TEN)

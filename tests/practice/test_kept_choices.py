"""What was chosen to practise comes back from its text, and damage costs no more than itself."""

import json
from dataclasses import replace

import pytest
from each import each_row
from hypothesis import given
from hypothesis import strategies as st

from frame.practice.choices import CALL_PACES, Beads, Called, Choices, Flashed, Sight
from frame.practice.columns import MOST_CALLED_DIGITS, MOST_DIGITS
from frame.practice.families import Family
from frame.practice.flashing import COUNT, DIGITS, LEVELS, FlashSetting
from frame.practice.kept_choices import choices_from, choices_to, set_from, set_to
from frame.practice.rungs import Asked, Rung

maybe_digits = st.none() | st.integers(1, MOST_DIGITS)
maybe_called_digits = st.none() | st.integers(1, MOST_CALLED_DIGITS)
maybe_rows = st.none() | st.integers(2, 15)
settings = st.builds(
    FlashSetting, st.integers(*DIGITS), st.integers(*COUNT), st.floats(0.1, 5.0), st.booleans()
)
choices = st.builds(
    Choices,
    st.sampled_from(Asked),
    st.builds(
        Beads,
        st.sampled_from(Family),
        st.none() | st.sampled_from(Rung),
        maybe_digits,
        maybe_rows,
        st.integers(1, 3),
        st.booleans(),
    ),
    st.builds(
        Called,
        maybe_called_digits,
        maybe_rows,
        st.none() | st.sampled_from(CALL_PACES),
        st.booleans(),
        st.booleans(),
        st.sampled_from(Sight),
    ),
    st.builds(Flashed, st.none() | settings, st.booleans(), st.booleans()),
)


@given(choices)
def test_choices_come_back_from_their_text(chosen):
    assert choices_from(json.loads(json.dumps(choices_to(chosen)))) == chosen


def test_nothing_kept_is_the_usual():
    assert choices_from({}) == Choices()


CHOSEN = Choices(
    Asked.CALLED,
    Beads(Family.ADD_TEN, Rung.PALE, 3, 5, 2, own=True),
    Called(4, 7, 1.0, by_place=True, minus=True, sight=Sight.OWN),
    Flashed(LEVELS[12].setting, minus=True, own=True),
)
WRONG = (None, "", "harbour", -1, 99, 1.23, [], {}, {"digits": 99}, [1])


@pytest.mark.parametrize("wrong", WRONG, ids=str)
def test_one_damaged_value_costs_itself_alone(wrong):
    usual = choices_to(Choices())
    for part in ("beads", "called", "flashed"):
        for name in choices_to(CHOSEN)[part]:
            kept = choices_to(CHOSEN)
            kept[part][name] = wrong
            read = choices_to(choices_from(kept))
            allowed = wrong is None and usual[part][name] is None
            assert read[part][name] == (None if allowed else usual[part][name])
            read[part][name] = choices_to(CHOSEN)[part][name]
            assert read == choices_to(CHOSEN)


@each_row("wrong", WRONG)
@each_row("part", ["asked", "beads", "called", "flashed"])
def test_a_damaged_part_costs_itself_alone(part, wrong):
    kept = choices_to(CHOSEN)
    kept[part] = wrong
    read = choices_to(choices_from(kept))
    if not (part != "asked" and isinstance(wrong, dict)):
        assert read[part] == choices_to(Choices())[part]
    read[part] = choices_to(CHOSEN)[part]
    assert read == choices_to(CHOSEN)


@pytest.mark.parametrize(
    "setting",
    [
        {"digits": 9},
        {"digits": 99, "count": 3, "interval": 1.0},
        {"digits": 1.2, "count": 5, "interval": 5},
        {"digits": 2, "count": 2.5, "interval": 2.0},
        {"digits": True, "count": 5, "interval": 2.0},
        {"digits": 2, "count": 5, "interval": True},
        {"digits": 2, "count": 5, "interval": 2.0, "minus": "no"},
        {"digits": 2, "count": 5, "interval": float("nan")},
        {"digits": 2, "count": 5, "interval": 2.0, "nets": 1},
        3,
    ],
    ids=str,
)
def test_a_flash_setting_that_cannot_be_is_left_to_the_level(setting):
    kept = choices_to(CHOSEN)
    kept["flashed"]["setting"] = setting
    assert choices_from(kept).flashed == Flashed(None, minus=True, own=True)


def test_a_whole_number_of_seconds_is_an_interval():
    kept = choices_to(CHOSEN)
    kept["flashed"]["setting"] = {"digits": 2, "count": 5, "interval": 2}
    assert choices_from(kept).flashed.setting == FlashSetting(2, 5, 2.0)


# A set that is kept by itself


@given(choices)
def test_a_set_comes_back_from_its_text_with_what_it_asks_alone(chosen):
    read = set_from(json.loads(json.dumps(set_to(chosen))))
    assert read == Choices().asking(chosen) and read.part == chosen.part
    assert read.asking(chosen) == read and CHOSEN.asking(read).part == chosen.part


@pytest.mark.parametrize("asked", Asked)
def test_a_set_of_which_anything_is_not_known_is_no_other_set(asked):
    kept = set_to(replace(CHOSEN, asked=asked))
    name = CHOSEN.asking(set_from(kept)).part_name
    for value in kept[name]:
        assert set_from({**kept, name: {**kept[name], value: "harbour"}}) is None
    assert set_from({**kept, name: {**kept[name], "harbour": 1}}) is None
    assert set_from({**kept, "asked": "harbour"}) is set_from({**kept, name: None}) is None


@pytest.mark.parametrize("wrong", [{}, {"asked": []}, {"asked": "shown"}, {"beads": {}}], ids=str)
def test_what_is_no_set_is_none(wrong):
    assert set_from(wrong) is None


def test_what_an_earlier_version_did_not_know_is_as_usual():
    kept = set_to(CHOSEN)
    del kept["called"]["by_place"]
    assert set_from(kept).called == replace(CHOSEN.called, by_place=False)

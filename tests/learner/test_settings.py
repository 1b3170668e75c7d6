"""Settings are kept as they are, are safe by default, and odd ones take their default."""

import json
from dataclasses import fields, replace
from enum import StrEnum
from itertools import product

import pytest
from each import each_row

from frame.learner.settings import (
    OF_COMPUTER,
    Age,
    Down,
    Settings,
    Volume,
    settings_from,
    settings_to,
    settings_to_learner,
    stored_object,
)
from frame.practice.ladder import USUAL_RULES, Among


@pytest.mark.parametrize(
    "changed",
    [
        Settings(),
        Settings(age=Age.YOUNG, volume=Volume.OFF, free_rods=27, left_handed=True),
        Settings(voice=False, quick_flash=True, eyes_shut=True, today_minutes=20),
        Settings(ladder_up_after=15, ladder_share=0.95, ladder_down=Down.NEVER),
    ],
)
def test_settings_round_trip_through_text(changed):
    assert settings_from(json.loads(json.dumps(settings_to(changed)))) == changed


def test_every_setting_that_is_a_number_has_its_range():
    for name, usual in settings_to(Settings()).items():
        if type(usual) in (int, float):
            for odd in (-7, 10**9):
                assert settings_from({name: type(usual)(odd)}) == Settings(), name


@each_row(
    ("name", "value"),
    [
        ("age", "99"), ("free_rods", 400), ("left_handed", "yes"), ("marks_every", True),
        ("new", 1), ("voice", 0), ("quick_flash", 1), ("quick_flash", "true"), ("eyes_shut", None),
        ("today_minutes", 7), ("today_minutes", 5.0), ("today_minutes", "5"),
        ("ladder_up_after", 0), ("ladder_up_after", 7), ("ladder_up_after", 6.0),
        ("ladder_share", 0.5), ("ladder_share", 1), ("ladder_share", "0.85"),
        ("ladder_share", float("nan")), ("ladder_down", "1 of 2"), ("ladder_down", []),
    ],
)  # fmt: skip
def test_what_is_unknown_or_out_of_range_takes_its_default(name, value):
    assert settings_from({name: value}) == Settings()
    others = settings_to(Settings(left_handed=True, ladder_share=0.8))
    if name not in ("left_handed", "ladder_share"):
        kept = settings_from({**others, name: value})
        assert kept == Settings(left_handed=True, ladder_share=0.8)


def test_what_could_harm_is_off_until_somebody_asks_for_it():
    usual = Settings()
    assert not usual.quick_flash
    assert usual.volume is Volume.QUIET


def test_the_usual_settings_are_the_usual_ladder():
    assert Settings().ladder_rules == USUAL_RULES


@pytest.mark.parametrize(
    ("down", "misses", "looks"),
    [
        (Down.TWO_OF_THREE, Among(2, 3), Among(3, 5)),
        (Down.THREE_OF_FOUR, Among(3, 4), Among(3, 5)),
        (Down.NEVER, None, None),
    ],
)
def test_a_tutor_changes_the_rules_of_the_ladder(down, misses, looks):
    for after, share in product((6, 10, 15), (0.8, 0.85, 0.95)):
        chosen = Settings(ladder_up_after=after, ladder_share=share, ladder_down=down)
        rules = replace(USUAL_RULES, up_after=after, share=share, misses=misses, looks=looks)
        assert settings_from(settings_to(chosen)).ladder_rules == rules


def test_every_setting_is_stored():
    assert set(settings_to(Settings())) == {one.name for one in fields(Settings)}
    assert set(settings_to_learner(Settings())) == set(settings_to(Settings())) - OF_COMPUTER


def other(value):
    """Another value of the same kind."""
    if isinstance(value, StrEnum):
        return next(one for one in type(value) if one is not value)
    return not value if isinstance(value, bool) else value + 1


@each_row("one", fields(Settings))
def test_at_a_computer_its_own_settings_hold_and_no_others(one):
    changed = replace(Settings(), **{one.name: other(getattr(Settings(), one.name))})
    own = one.name in OF_COMPUTER
    assert Settings().on(changed) == (changed if own else Settings())
    assert changed.on(Settings()) == (Settings() if own else changed)


@pytest.mark.parametrize("text", [None, "", "{", "[]", "null", "7", "[" * 99_999, '{"a": 1}}'])
def test_text_that_is_no_object_is_stored_as_an_empty_one(text):
    assert stored_object(text) == {}

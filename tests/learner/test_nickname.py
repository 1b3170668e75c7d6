"""Names that an adult types: whatever comes, a name that can be shown on one line."""

import unicodedata

import pytest
from each import each_row
from hypothesis import given
from hypothesis import strategies as st

from frame.language.signs import signs_of
from frame.learner.nickname import (
    MOST_SIGNS,
    beginning,
    called,
    nickname_of,
    search_key,
    typed_name,
)

TURNING = "\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069\u200e\u200f\u061c"
"""What turns the direction of writing: UAX 9, section 2."""
ANY = st.text(st.one_of(st.characters(), st.sampled_from(TURNING + " \n\t\u2028\u200d\u0301🦦")))


@each_row(
    ("text", "name"),
    [
        ("Ann", "Ann"),
        ("  Mary\n Ann\t", "Mary Ann"),
        ("Zoe\u0308", "Zoë"),
        ("\u202eevil", "evil"),
        ("a\u2028b", "a b"),
        ("a\u00a0\u3000b", "a b"),
        ("\ufeffOla\0\x7f", "Ola"),
        ("W" * 40, "W" * 24),
        ("👩🏽‍🚀" * 30, "👩🏽‍🚀" * 24),
        ("e\u0301" * 30, "é" * 24),
        ("می‌خواهم", "می‌خواهم"),
        ("O’Brien-Ng", "O’Brien-Ng"),
        ("", "Otter"),
        (" \n", "Otter"),
        ("\u200d\u0301\ufe0f", "Otter"),
    ],
)
def test_what_is_typed_becomes_a_name(text, name):
    assert nickname_of(text, "Otter") == name


@given(ANY)
def test_any_text_becomes_a_name_that_can_be_shown(text):
    name = nickname_of(text, "Otter")
    assert name == name.strip() and name and "  " not in name
    assert 1 <= len(signs_of(name)) <= MOST_SIGNS
    assert not set(name) & set(TURNING)
    assert not {unicodedata.category(one) for one in name} & {"Cc", "Zl", "Zp", "Cs"}
    assert nickname_of(name, "Otter") == name
    name.encode()


def test_no_sign_of_a_name_is_endless():
    assert len(typed_name("a" + "\u0301" * 5000)) < 20


@pytest.mark.parametrize(
    ("typed", "name"),
    [("e", "Éva"), ("EV", "Éva"), ("д", "Дмитрий"), ("ŁU", "łukasz"), ("luk", "Łukasz"),
     ("so", "Søren"), ("strasse", "Straße"),
     ("ש", "שָׁרָה"), ("Ο", "ο"), ("ｆ", "ｆｏｘ")],
)  # fmt: skip
def test_a_name_is_found_without_case_and_accents(typed, name):
    assert search_key(name).startswith(search_key(typed))


@pytest.mark.parametrize(("typed", "name"), [("a", "Éva"), ("v", "Éva"), ("б", "Дмитрий")])
def test_other_names_are_not_found(typed, name):
    assert not search_key(name).startswith(search_key(typed))


NAMES = st.lists(st.text("aAäÄoöz ", max_size=4), max_size=5)


@given(NAMES, st.text("aAäÄoöz ", min_size=1, max_size=3))
def test_who_is_called_so_is_found_rather_than_who_begins_so(names, typed):
    found, begin = called(typed, names), beginning(typed, names)
    if typed in names:
        assert [names[at] for at in found] == [one for one in names if one == typed]
    keys, key = [search_key(one) for one in names], search_key(typed)
    is_begun = any(one.startswith(key) for one in keys)
    for at in {*found, *begin}:
        assert keys[at].startswith(key) if is_begun else f" {key}" in keys[at]
    assert bool(found) == bool(begin)


def test_where_no_name_begins_so_a_later_word_may():
    names = ["Seal 3", "Seal 39", "Otter", "Sea Otter", "Big seal"]
    for typed, found in (
        ("39", [1]),
        ("3", [0]),
        ("otter", [2]),
        ("ot", [2]),
        ("eal", []),
        ("seal", [0, 1]),
    ):
        assert beginning(typed, names) == found

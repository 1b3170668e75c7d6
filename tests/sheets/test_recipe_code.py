"""The code at a sheet's foot: the recipe and back, what is mistyped, what later programs change."""

from collections.abc import Iterator
from dataclasses import fields, replace
from itertools import chain, combinations, pairwise
from math import comb
from pathlib import Path
from random import Random
from typing import Any

import pytest
from each import each_row
from hypothesis import assume, example, given
from hypothesis import strategies as st

from frame.practice.families import Family, family_of_fact
from frame.sheets.asked_facts import MOST_FACTS, choice_number, choice_of
from frame.sheets.code import (
    FEWEST_SIGNS,
    FORMAT,
    MOST_SIGNS,
    CodeError,
    Expected,
    UncodableError,
    code_of,
    recipe_of,
)
from frame.sheets.numbered import FACT_LINES, FACTS, GRADES, KINDS, LEAVES, PARTS, VERSIONS
from frame.sheets.recipe import MOST_COUNT, MOST_SEED, Kind, Leaf, Part, Recipe, Version
from frame.sheets.spelling import checked, fits, spelled
from frame.technique.facts import ALL_FACTS

SIGNS = "0123456789ABCDEFGHJKMNPQRSTVWXYZ"
PRINTED = Path(__file__).with_name("printed_codes.txt")

COLUMNS = {"count", "rows", "digits", "minus", "facts"}
FACTORS = {"count", "digits", "by", "facts"}
NUMBERS = {"count", "digits", "facts"}
USED = {
    Kind.READ: NUMBERS,
    Kind.SET: NUMBERS,
    Kind.COLUMNS: COLUMNS,
    Kind.PRODUCTS: FACTORS,
    Kind.QUOTIENTS: FACTORS,
    Kind.ROOTS: NUMBERS,
    Kind.PARTNERS: {"count", "facts"},
    Kind.STRIP: COLUMNS,
    Kind.FRAME: {"count", "digits"},
    Kind.LADDER: COLUMNS,
    Kind.PAPER: {"grade", "part"},
}
OF_SOME = set().union(*USED.values())


def in_order(facts: Any) -> tuple[str, ...]:
    return tuple(sorted(facts, key=ALL_FACTS.index))


def of_family(*families: str) -> tuple[str, ...]:
    return tuple(fact for fact in ALL_FACTS if family_of_fact(fact) in families)


def signs(code: str) -> str:
    return code.replace("-", "")


def numbers(code: str) -> tuple[int, ...]:
    return tuple(map(SIGNS.index, signs(code)))


one_family = st.sampled_from(list(Family)).map(of_family)
any_facts = st.sets(st.sampled_from(ALL_FACTS)).map(in_order)
recipes = st.builds(
    Recipe,
    kind=st.sampled_from(Kind),
    seed=st.integers(0, MOST_SEED),
    version=st.sampled_from(Version),
    leaf=st.sampled_from(Leaf),
    count=st.integers(1, MOST_COUNT),
    rows=st.integers(1, 15),
    digits=st.integers(1, 14),
    by=st.integers(1, 7),
    minus=st.booleans(),
    facts=st.just(()) | one_family | any_facts,
    grade=st.sampled_from(GRADES),
    part=st.sampled_from(Part),
    is_worked=st.booleans(),
)


def as_made(recipe: Recipe) -> Recipe:
    """Without what its kind does not use."""
    usual = Recipe(kind=recipe.kind)
    unused = OF_SOME - USED[recipe.kind]
    return replace(recipe, **{name: getattr(usual, name) for name in unused})


def some_recipes(many: int) -> Iterator[Recipe]:
    """Of all kinds in turn, without facts, with a family, or with a list."""
    random = Random(7)
    for at in range(many):
        few = in_order(random.sample(ALL_FACTS, random.randint(1, 20)))
        yield Recipe(
            kind=KINDS[at % len(KINDS)],
            seed=random.randint(0, MOST_SEED),
            version=random.choice(VERSIONS),
            count=random.randint(1, MOST_COUNT),
            rows=random.randint(1, 15),
            digits=random.randint(1, 14),
            by=random.randint(1, 7),
            minus=random.random() < 0.5,
            facts=random.choice([(), random.choice(FACT_LINES[4:]), few]),
            grade=random.choice(GRADES),
            part=random.choice(PARTS),
        )


def one_slip(code: str) -> Iterator[str]:
    """All with one other sign, and all in which two neighbours have changed places."""
    plain = signs(code)
    for at, sign in enumerate(plain):
        yield from (plain[:at] + other + plain[at + 1 :] for other in SIGNS if other != sign)
    for at, (one, other) in enumerate(pairwise(plain)):
        if one != other:
            yield plain[:at] + other + one + plain[at + 2 :]


def error_of(text: str) -> CodeError:
    with pytest.raises(CodeError) as caught:
        recipe_of(text)
    return caught.value


# The recipe and its code


@given(recipes)
def test_a_recipe_and_its_code(recipe: Recipe) -> None:
    code = code_of(recipe)
    assert recipe_of(code) == as_made(recipe)
    assert code_of(recipe_of(code)) == code
    assert FEWEST_SIGNS <= len(signs(code)) <= MOST_SIGNS


@given(recipes, recipes)
def test_what_a_kind_does_not_use_changes_no_code(recipe: Recipe, other: Recipe) -> None:
    unused = OF_SOME - USED[recipe.kind]
    otherwise = replace(recipe, **{name: getattr(other, name) for name in unused})
    assert code_of(otherwise) == code_of(recipe)


def test_every_field_is_told_by_some_kind() -> None:
    always = {"kind", "seed", "version", "leaf", "is_worked"}
    assert always | OF_SOME == {field.name for field in fields(Recipe)}
    assert set(USED) == set(Kind)


def test_what_is_usual_takes_thirteen_signs_at_most() -> None:
    for kind in Kind:
        for facts in ((), *map(of_family, Family)):
            recipe = Recipe(kind=kind, facts=facts, grade=GRADES[0], seed=MOST_SEED)
            assert len(signs(code_of(recipe))) <= 13


def test_families_that_follow_one_another_take_no_more() -> None:
    facts = of_family(Family.ADD_FIVE, Family.SUB_FIVE)
    assert len(signs(code_of(Recipe(kind=Kind.COLUMNS, minus=True, facts=facts)))) == 13


@given(st.lists(st.sampled_from(ALL_FACTS), min_size=20, max_size=20, unique=True))
def test_a_list_of_twenty_facts_takes_thirty_one_signs_at_most(facts: list[str]) -> None:
    assert len(signs(code_of(Recipe(kind=Kind.COLUMNS, facts=in_order(facts))))) <= 31


def test_the_longest_is_as_long_as_is_said() -> None:
    half = Recipe(kind=Kind.COLUMNS, facts=ALL_FACTS[1 : MOST_FACTS // 2 + 1])
    assert len(signs(code_of(half))) == MOST_SIGNS


@given(recipes)
def test_a_code_is_printed_in_fours(recipe: Recipe) -> None:
    *fours, last = code_of(recipe).split("-")
    assert {len(group) for group in fours} == {4}
    assert 1 <= len(last) <= 4
    assert set("".join([*fours, last])) <= set(SIGNS)


@given(recipes, st.randoms(use_true_random=False))
def test_it_is_typed_as_people_type(recipe: Recipe, random: Random) -> None:
    code = code_of(recipe)
    alike = {"0": "0oO", "1": "1iIlL"}
    typed = ""
    for sign in signs(code):
        typed += random.choice(["", "", " ", "-", "–", "\u00a0", " - ", "\n"])
        typed += random.choice(alike.get(sign, sign + sign.lower()))
    assert recipe_of(typed) == recipe_of(code)


@each_row(
    ("kind", "field", "value"),
    [
        (Kind.COLUMNS, "seed", -1),
        (Kind.COLUMNS, "seed", MOST_SEED + 1),
        (Kind.COLUMNS, "count", 0),
        (Kind.COLUMNS, "count", MOST_COUNT + 1),
        (Kind.COLUMNS, "rows", 0),
        (Kind.COLUMNS, "rows", 16),
        (Kind.COLUMNS, "digits", 0),
        (Kind.COLUMNS, "digits", 15),
        (Kind.PRODUCTS, "by", 0),
        (Kind.PRODUCTS, "by", 8),
        (Kind.COLUMNS, "facts", ("add-five-5",)),
        (Kind.COLUMNS, "facts", ("add-five-2", "add-five-1")),
        (Kind.COLUMNS, "facts", ("add-five-1", "add-five-1")),
        (Kind.PAPER, "grade", ""),
        (Kind.PAPER, "grade", "kyu-11"),
    ],
)
def test_what_cannot_be_has_no_code(kind: Kind, field: str, value: Any) -> None:
    usual = {"grade": GRADES[0]} | {field: value}
    with pytest.raises(UncodableError, match=field) as caught:
        code_of(Recipe(kind=kind, **usual))
    assert (caught.value.field, caught.value.value) == (field, value)


# What is mistyped


def test_no_slip_fits_the_check() -> None:
    for code in map(code_of, some_recipes(120)):
        assert fits(numbers(code))
        assert not any(fits(numbers(wrong)) for wrong in one_slip(code))


def test_every_slip_is_found_and_its_nearest_is_what_was_meant_or_none() -> None:
    told = tried = 0
    codes = map(code_of, some_recipes(20))
    for code in [code for code in codes if len(signs(code)) <= 13][:5]:
        for wrong in one_slip(code):
            error = error_of(wrong)
            assert error.nearest in (code, "")
            if error.nearest:
                changed = [at for at, sign in enumerate(signs(code)) if sign != wrong[at]]
                assert error.found == wrong[changed[0] : changed[-1] + 1]
                assert error.where == changed[0] + 1
                is_version = changed[0] == 0
                of_version = Expected.NEWER if wrong[0] == "1" else Expected.OLDER
                assert error.expected is (of_version if is_version else Expected.CHECK)
            told, tried = told + bool(error.nearest), tried + 1
    assert tried > 1500
    assert told > tried * 0.97


def test_where_several_codes_are_near_none_is_told() -> None:
    code = code_of(Recipe(kind=Kind.COLUMNS, facts=of_family(Family.ADD_TEN)))
    silent = [wrong for wrong in one_slip(code) if not error_of(wrong).nearest]
    assert silent
    for wrong in silent:
        near = [other for other in one_slip(wrong) if fits(numbers(other)) and is_code(other)]
        assert len(near) > 1


def is_code(text: str) -> bool:
    try:
        recipe_of(text)
    except CodeError:
        return False
    return True


USUAL = "24JC-W2C8-0VBA"


def test_the_usual_code_of_these_examples() -> None:
    assert code_of(Recipe(kind=Kind.COLUMNS, seed=4711)) == USUAL


@each_row(
    ("text", "where", "found", "expected", "nearest"),
    [
        ("", 1, "", Expected.LONGER, ""),
        (" - ", 4, "", Expected.LONGER, ""),
        ("24JC", 5, "", Expected.LONGER, ""),
        ("24JC-W2C8-0VB", 14, "", Expected.LONGER, ""),
        ("24JC-W2C8-0VBA A", 16, "A", Expected.SHORTER, ""),
        ("24JC-W2C8-0VBA-24JC-W2C8-0VBA", 16, "24JCW2C80VBA", Expected.SHORTER, ""),
        ("24JC-W2U8-0VBA", 8, "U", Expected.SIGN, USUAL),
        ("24JC-W2é8-0VBA", 8, "é", Expected.SIGN, USUAL),
        ("24JC-W2??-0VBA", 8, "?", Expected.SIGN, ""),
        ("24jc-w28c-0vba", 8, "8c", Expected.CHECK, USUAL),
        ("24JC-W2C0-8VBA", 9, "08", Expected.CHECK, USUAL),
        ("24JC-W2C8-0VBZ", 14, "Z", Expected.CHECK, USUAL),
        ("24JC-W2C8-0VZZ", 12, "VZZ", Expected.CHECK, ""),
        ("34JC-W2C8-0VBA", 1, "3", Expected.OLDER, USUAL),
        ("34JC-W2C8-0VBZ", 1, "3", Expected.OLDER, ""),
        ("14JC-W2C8-0VH", 1, "1", Expected.NEWER, ""),
        ("1M00-4000-QV", 1, "1", Expected.NEWER, ""),
        ("14JC-W2C8-0VBA", 1, "1", Expected.NEWER, USUAL),
        ("04JC-W2C8-0VBA", 1, "0", Expected.OLDER, USUAL),
    ],
)
def test_what_is_wrong_is_told(
    text: str, where: int, found: str, expected: Expected, nearest: str
) -> None:
    error = error_of(text)
    told = (error.where, error.found, error.expected, error.nearest)
    assert told == (where, found, expected, nearest)


@given(recipes, st.data())
def test_one_sign_that_is_none_is_always_made_good(recipe: Recipe, data: st.DataObject) -> None:
    code = code_of(recipe)
    at = data.draw(st.sampled_from([at for at, sign in enumerate(code) if sign != "-"]))
    error = error_of(code[:at] + "*" + code[at + 1 :])
    assert (error.where, error.found, error.expected) == (at + 1, "*", Expected.SIGN)
    assert error.nearest == code


@given(recipes, st.data())
def test_a_sign_left_out_or_typed_twice_is_found(recipe: Recipe, data: st.DataObject) -> None:
    # Here nothing is proven: a text of another length may by chance be another code.
    code = signs(code_of(recipe))
    at = data.draw(st.integers(0, len(code) - 1))
    for wrong in (code[:at] + code[at + 1 :], code[:at] + code[at] + code[at:]):
        assume(not fits(numbers(wrong)))
        assert error_of(wrong).nearest != code


texts = st.one_of(
    st.text(),
    st.text(SIGNS.lower() + SIGNS + "-  uUoOiIlL"),
    st.text(SIGNS, min_size=FEWEST_SIGNS - 1, max_size=MOST_SIGNS).map(lambda text: "2" + text),
)


@given(texts)
@example("ß" * 12)
@example("2" * 100_000)
@example("\ud800\x00")
def test_any_text_is_a_code_or_is_told_why_not(text: str) -> None:
    try:
        recipe = recipe_of(text)
    except CodeError as error:
        assert 1 <= error.where <= len(text) + 1
        assert text[error.where - 1 :].startswith(error.found[:1])
        assert error.nearest == "" or is_code(error.nearest)
    else:
        assert signs(code_of(recipe)) == "".join(
            {"O": "0", "I": "1", "L": "1"}.get(one, one) for one in text.upper() if one.isalnum()
        )


@given(st.lists(st.integers(0, 31), min_size=FEWEST_SIGNS - 4, max_size=MOST_SIGNS - 4))
@example([0] * 7)
@example([31] * 7)
def test_whatever_fits_the_check_is_the_one_code_of_its_recipe_or_is_refused(
    told: list[int],
) -> None:
    code = spelled(checked([FORMAT, *told]))
    try:
        recipe = recipe_of(code)
    except CodeError as error:
        assert error.expected in (Expected.OLDER, Expected.LONGER, Expected.SHORTER)
        assert error.nearest == ""
    else:
        assert code_of(recipe) == code


@pytest.mark.parametrize(
    "told",
    [
        pytest.param([2 * len(KINDS), 0, 0, 0, 0, 0, 0], id="a kind"),
        pytest.param([2 * len(KINDS) - 2, 0, 0, 0, 31, 31, 0], id="a grade"),
        pytest.param([2 * len(KINDS) - 1, 31, 31, 0, 0, 0, 0], id="a seed"),
        pytest.param([2 * len(KINDS) - 2, 0, 0, 0, 0, 0, 1], id="a bit at the end"),
    ],
)
def test_what_only_a_newer_program_can_have_made(told: list[int]) -> None:
    code = spelled(checked([FORMAT, *told]))
    error = error_of(code)
    assert (error.where, error.found, error.expected) == (1, signs(code), Expected.OLDER)


@each_row("newer", range(FORMAT + 1, 32))
def test_a_code_of_a_later_version_says_so(newer: int) -> None:
    assert error_of(spelled(checked([newer, *range(10)]))).expected is Expected.OLDER


# What later programs change


def test_the_tables_have_all() -> None:
    assert set(KINDS) == set(Kind)
    assert set(VERSIONS) == set(Version)
    assert set(LEAVES) == set(Leaf)
    assert set(PARTS) == set(Part)
    assert set(FACTS) >= set(ALL_FACTS), "give new facts a line at the end of FACT_LINES"
    for table in (KINDS, VERSIONS, LEAVES, PARTS, GRADES, FACTS):
        assert len(set(table)) == len(table)
    assert len(FACTS) <= MOST_FACTS


def printed() -> list[tuple[str, Recipe]]:
    lines = PRINTED.read_text("utf-8").splitlines()
    return [read_line(line) for line in lines if line and not line.startswith("#")]


def read_line(line: str) -> tuple[str, Recipe]:
    code, kind, *told = line.split()
    values: dict[str, Any] = dict(pair.split("=") for pair in told)
    for name in {"seed", "count", "rows", "digits", "by"} & set(values):
        values[name] = int(values[name])
    for name in {"minus", "is_worked"} & set(values):
        values[name] = values[name] == "yes"
    if "facts" in values:
        values["facts"] = in_order(values["facts"].split(","))
    return code, Recipe(kind=Kind(kind), **values)


def test_codes_that_were_printed_still_hold() -> None:
    codes = printed()
    assert [recipe_of(code) for code, _ in codes] == [recipe for _, recipe in codes]
    assert [code_of(recipe) for _, recipe in codes] == [code for code, _ in codes]


def test_every_number_stands_in_a_printed_code() -> None:
    made = [recipe for _, recipe in printed()]
    assert {recipe.kind for recipe in made} == set(KINDS)
    assert {recipe.grade for recipe in made} >= set(GRADES)
    assert {recipe.version for recipe in made} == set(VERSIONS)
    assert {recipe.leaf for recipe in made} == set(LEAVES)
    assert {recipe.part for recipe in made} == set(PARTS)
    asked = {recipe.facts for recipe in made}
    assert asked >= {in_order(line) for line in FACT_LINES}
    assert asked >= {(fact,) for fact in FACTS}


# Choices of so many


def test_choices_of_so_many_are_counted_without_a_gap() -> None:
    for many in range(9):
        choices = list(combinations(range(8), many))
        assert sorted(map(choice_number, choices)) == list(range(comb(8, many)))


@given(st.sets(st.integers(0, MOST_FACTS - 1)).map(sorted))
def test_a_choice_and_its_number(members: list[int]) -> None:
    number = choice_number(members)
    assert choice_of(number, len(members)) == tuple(members)
    assert number < comb(MOST_FACTS, len(members))


def test_the_table_is_flat() -> None:
    assert tuple(chain(*FACT_LINES)) == FACTS

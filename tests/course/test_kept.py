"""The board's plan as text, and back; whatever is damaged is no plan."""

import json
from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest
from each import each_row
from hypothesis import given
from hypothesis import strategies as st

from frame.course.agenda import Item, Task
from frame.course.board import Board
from frame.course.kept import KeptPlan, plan_from_json, plan_to_json
from frame.course.shown import ItemStage, Shown, Standing
from frame.technique.beads import BeadMove
from frame.technique.conventions import USUAL, Conventions, Operands
from frame.technique.expression import Product, Quotient, Root, Sum

numbers = st.decimals(0, 9999, places=1, allow_nan=False).map(lambda one: one.normalize() + 0)
counts = st.integers(0, 40)


@st.composite
def items(draw: st.DrawFn) -> Item:
    one, other = draw(numbers) + 1, draw(numbers) + 1
    line = draw(st.sampled_from(["", "Which bead first?", 'Nets: "12" — {or} 13 #?', "a é €"]))
    match draw(st.sampled_from(Task)):
        case Task.READ:
            return Item(Task.READ, Sum((one,)), rods=draw(st.sampled_from([None, 9])), line=line)
        case Task.SHOW:
            sums = Sum((one, -other, one)), Product(one, other), Root(one)
            quotient = Quotient(one, other, draw(st.integers(0, 2)))
            return Item(Task.SHOW, draw(st.sampled_from([*sums, quotient])), line=line)
        case act:
            terms = tuple(map(Decimal, draw(st.lists(st.integers(1, 999), min_size=2, max_size=5))))
            return Item(act, Sum(terms), pace=draw(st.sampled_from([0.5, 1.0, 1.5])), line=line)
    raise AssertionError


@st.composite
def standings(draw: st.DrawFn) -> Standing:
    move = BeadMove(draw(st.integers(0, 3)), draw(st.sampled_from([5, -5, 1, -2])))
    tried = ((move,),) * draw(st.integers(0, 2))
    return Standing(
        draw(items()), draw(counts), draw(counts), draw(st.sampled_from(ItemStage)), tried
    )


plans = st.builds(
    KeptPlan,
    st.lists(standings(), max_size=3).map(tuple),
    counts,
    st.frozensets(st.sampled_from(["rule", "ring", "stop_before"])),
    st.sampled_from([0.5, 1.0, 2.0]),
)


@given(plans)
def test_a_plan_that_was_kept_is_the_same_plan(plan: KeptPlan) -> None:
    assert plan_from_json(plan_to_json(plan)) == plan


def test_a_trial_digit_and_a_long_sum_are_kept() -> None:
    tried = Item(Task.SHOW, Quotient(Decimal(3588), Decimal(46)), trial=6)
    long = Item(Task.SHOW, Sum((Decimal(12345678901234),) * 15))
    plan = KeptPlan((Standing(tried, 7), Standing(long, 3)), 1, frozenset(), 1.0)
    assert plan_from_json(plan_to_json(plan)) == plan


SOME = plan_to_json(
    KeptPlan(
        (
            Standing(Item(Task.SHOW, Sum((Decimal(46), Decimal(39)))), 3, 2, ItemStage.GIVEN),
            Standing(Item(Task.READ, Sum((Decimal(57),)))),
        ),
        1, frozenset({"rule"}), 1.0,
    )
)  # fmt: skip


@each_row("cut", range(len(SOME)))
def test_a_plan_that_is_cut_off_is_none(cut: int) -> None:
    assert plan_from_json(SOME[:cut]) is None


_JUNK: tuple[Any, ...] = (
    None, True, -1, 2.5, 1e999, "", "x", "46 +", [], ["x"], {}, {"x": 1}, [[[]]], "0:+1", 10**30,
)  # fmt: skip


def places_in(value: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    """The way to every value within a value of JSON."""
    if not isinstance(value, dict | list):
        return [path]
    below = value.items() if isinstance(value, dict) else enumerate(value)
    return [path, *(way for key, one in below for way in places_in(one, (*path, key)))]


@each_row("path", places_in(json.loads(SOME))[1:])
@each_row("junk", _JUNK)
def test_whatever_is_put_in_its_place_it_is_a_plan_or_none(
    path: tuple[Any, ...], junk: Any
) -> None:
    kept = json.loads(SOME)
    within = kept
    for key in path[:-1]:
        within = within[key]
    within[path[-1]] = junk
    plan = plan_from_json(json.dumps(kept))
    if plan is not None:
        Board.standing(plan.standings, plan.at, USUAL)


@pytest.mark.parametrize("text", ["", "null", "[]", "3", '"x"', "{}", "[" * 100_000, "\0", "é"])
def test_what_is_no_plan_at_all_is_none(text: str) -> None:
    assert plan_from_json(text) is None


@given(st.text())
def test_no_text_is_an_error(text: str) -> None:
    plan_from_json(text)


def test_a_board_stands_as_it_was_left() -> None:
    sums = (Sum((Decimal(46), Decimal(39))), Product(Decimal(37), Decimal(24)))
    board = Board.of([Item(Task.SHOW, one) for one in sums], USUAL)
    board.next()
    board.go_to_item(1)
    board.shown.touch(board.shown.next_stroke)
    again = Board.standing(board.stands, board.at, USUAL)
    assert again.at == 1 and again.stands == board.stands
    for one, other in zip(again.items, board.items, strict=True):
        assert (one.frame, one.at, one.begin, one.stage) == (
            other.frame, other.at, other.begin, other.stage,
        )  # fmt: skip


def test_in_another_layout_an_item_stands_no_farther_than_its_work_goes() -> None:
    item = Item(Task.SHOW, Product(Decimal(37), Decimal(24)))
    kept = Standing(item, 99, 9, ItemStage.TOLD)
    shown = Shown.standing(kept, replace(USUAL, layout=Operands.NONE))
    assert shown.at == shown.last
    assert shown.begin <= Shown.of(item, Conventions(layout=Operands.NONE)).begin

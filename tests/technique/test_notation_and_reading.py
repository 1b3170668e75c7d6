"""Pairs that undo each other, and what the frame, the numbers and the sums refuse."""

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st
from reference_hand import Beads

from frame.technique.addition import plan_on, plan_set, plan_sum
from frame.technique.beads import (
    MOST_RODS,
    BeadMove,
    Frame,
    IllegalMove,
    Stroke,
    parse_move,
    parse_stroke,
    stroke_text,
)
from frame.technique.expression import ExpressionError, Sum, parse_sum, sum_text
from frame.technique.plan import parse_strokes
from frame.technique.reading import (
    EXACT,
    NumberError,
    decimals,
    frame_of,
    parse_number,
    plain,
    read,
    whole_digits,
)

CHANGES = (-5, -4, -3, -2, -1, 1, 2, 3, 4, 5)
moves = st.builds(BeadMove, st.integers(-30, 30), st.sampled_from(CHANGES))


@st.composite
def pinches(draw: st.DrawFn) -> Stroke:
    rod = draw(st.integers(-30, 30))
    heaven = BeadMove(rod, draw(st.sampled_from([5, -5])))
    earth = BeadMove(rod, draw(st.sampled_from(CHANGES[1:-1])))
    return draw(st.sampled_from([(heaven, earth), (earth, heaven)]))


strokes = moves.map(lambda move: (move,)) | pinches()


@st.composite
def frames(draw: st.DrawFn) -> Frame:
    digits = draw(st.text("0123456789", min_size=1, max_size=MOST_RODS))
    return Frame(digits, draw(st.integers(0, len(digits) - 1)))


numbers = st.decimals(0, 10**14 - 1, places=4).map(lambda n: Decimal(plain(n)))
widest = st.integers(0, 10**MOST_RODS - 1).map(Decimal)
signed = st.tuples(numbers, st.sampled_from([1, -1])).map(lambda pair: pair[0] * pair[1])


@given(moves)
def test_a_move_and_its_text(move: BeadMove) -> None:
    assert parse_move(str(move)) == move
    assert parse_move(str(move).replace("-", "−")) == move  # as word processors write it
    assert move.inverse.inverse == move


@given(strokes)
def test_a_stroke_and_its_text(stroke: Stroke) -> None:
    assert parse_stroke(stroke_text(stroke)) == stroke


@given(st.lists(signed, max_size=6))
def test_a_plan_and_its_text(terms: list[Decimal]) -> None:
    plan = plan_sum(terms)
    assert parse_strokes(str(plan)) == plan.strokes


@given(st.lists(signed, min_size=1, max_size=8))
def test_a_sum_and_its_text(terms: list[Decimal]) -> None:
    column = Sum(tuple(terms))
    assert parse_sum(str(column)).terms == tuple(terms)
    assert str(parse_sum(str(column))) == str(column) == sum_text(terms)


@given(st.lists(widest, min_size=1, max_size=3))
def test_no_digit_is_lost_on_the_widest_frame(terms: list[Decimal]) -> None:
    text = " + ".join(str(int(term)) for term in terms)
    assert [int(term) for term in parse_sum(text).terms] == [int(term) for term in terms]
    assert sum_text(terms) == text
    assert int(parse_sum(text).result) == sum(int(term) for term in terms)
    first = terms[0]
    assert whole_digits(first) == (len(str(int(first))) if first else 0)
    assert read(frame_of(first, MOST_RODS)) == first
    assert {str(step.operation) for step in plan_sum([first]).steps} <= {f"set {int(first)}"}


@given(frames())
def test_a_frame_and_its_reading(frame: Frame) -> None:
    assert frame_of(read(frame), len(frame.digits), frame.units) == frame
    assert Frame(str(frame), frame.units) == frame


@given(numbers, st.integers(0, 5))
def test_a_number_and_its_frame(number: Decimal, more: int) -> None:
    whole, places = max(whole_digits(number), 1), decimals(number)
    rods = min(whole + places + more, MOST_RODS)
    frame = frame_of(number, rods, rods - 1 - places)
    assert read(frame) == number
    assert plain(read(frame)) == plain(number)
    with pytest.raises(NumberError):
        frame_of(number + 10**rods, rods, rods - 1 - places)


@given(numbers)
def test_plain_numbers_parse_back(number: Decimal) -> None:
    text = plain(number)
    assert parse_number(text) == number
    assert "E" not in text
    assert plain(parse_number(text)) == text


@given(frames(), moves)
def test_a_move_is_possible_when_the_beads_are_there(frame: Frame, move: BeadMove) -> None:
    if not frame.has(move.rod):
        assert not frame.can(move)
        return
    beads = Beads(frame.digit(move.rod))
    assert frame.can(move) == beads.allows(move.change)
    if not frame.can(move):
        with pytest.raises(IllegalMove):
            frame.apply(move)
        return
    beads.push(move.change)
    after = frame.apply(move)
    assert after.digit(move.rod) == beads.shown
    assert (after.rod(move.rod).heaven, after.rod(move.rod).earth) == (beads.down, beads.up)
    assert after.apply(move.inverse) == frame


@given(frames(), signed)
def test_a_number_worked_on_a_frame_as_it_stands(frame: Frame, number: Decimal) -> None:
    before = read(frame)
    try:
        plan = plan_on(frame, number)
    except NumberError:
        fits = decimals(number) <= -frame.lowest
        room = 10 ** (frame.highest + 1)
        after = EXACT.add(before, number)
        assert not (fits and 0 <= after < room and abs(number) < room)
        return
    owed = plan.steps[-1].owed if plan.steps else None
    assert plan.start == frame
    assert read(plan.end, owed) == plan.result == EXACT.add(before, number)


@given(frames(), numbers)
def test_setting_over_what_stands_there(frame: Frame, number: Decimal) -> None:
    try:
        wanted = frame_of(number, len(frame.digits), frame.units)
    except NumberError:
        with pytest.raises(NumberError):
            plan_set(frame, number)
        return
    plan = plan_set(frame, number)
    assert plan.end == wanted
    rods = [step.rod for step in plan.steps]
    assert rods == sorted(rods, reverse=True)


@pytest.mark.parametrize(
    "text", ["", "0", "0:", "0:5", "0:+6", "0:+0", "a:+1", "0:+1 ", "100:+1", "0:+1&1:+5"]
)
def test_texts_that_are_no_stroke(text: str) -> None:
    with pytest.raises(IllegalMove):
        parse_stroke(text)


@pytest.mark.parametrize("text", ["0:+1&0:+2", "0:+5&0:-5", "0:+1&0:+5&0:+1"])
def test_strokes_that_are_no_pinch(text: str) -> None:
    with pytest.raises(IllegalMove):
        parse_stroke(text)


@pytest.mark.parametrize(
    "text", ["", "-1", "+1", "1.", "1e5", "1_0", "1,000", " 1", "1.2.3", "٣", "NaN"]
)
def test_texts_that_are_no_number(text: str) -> None:
    with pytest.raises(NumberError):
        parse_number(text)


@pytest.mark.parametrize(
    ("text", "column"),
    [("", 1), ("3 +", 4), ("3 4", 3), ("3 + + 4", 5), ("3 x 4", 3), ("3 + a", 5), ("--3", 2)],
)
def test_texts_that_are_no_sum(text: str, column: int) -> None:
    with pytest.raises(ExpressionError) as caught:
        parse_sum(text)
    assert caught.value.where == column


@pytest.mark.parametrize("rods", [0, 36, -1])
def test_frames_of_no_size(rods: int) -> None:
    with pytest.raises(ValueError, match="1 to 35"):
        Frame.cleared(rods)


@pytest.mark.parametrize(("terms", "rods"), [(["999", "1"], 3), (["0.01"], 2), (["1e35"], None)])
def test_work_that_does_not_fit_the_frame(terms: list[str], rods: int | None) -> None:
    with pytest.raises(NumberError):
        plan_sum([Decimal(term) for term in terms], rods=rods)

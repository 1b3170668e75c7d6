"""The learner's touches beside the right ones: where they part, and how each of them ends."""

from decimal import Decimal
from itertools import pairwise
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.practice.exercises import Exercise, Kind
from frame.practice.outcomes import Outcome
from frame.practice.replay import replay_of
from frame.practice.rungs import Asked, Rung
from frame.practice.work import Work
from frame.technique.beads import BeadMove, parse_stroke
from frame.technique.conventions import USUAL, Strictness
from frame.technique.expression import Sum, parse_sum
from frame.technique.plan import parse_strokes
from frame.technique.reading import read

RODS = 3
CHANGES = (5, -5, 1, 2, 3, 4, -1, -2, -3, -4)
MOVES = [BeadMove(rod, change) for rod in range(RODS) for change in CHANGES]


def begin(text, rung=Rung.COVERED, kind=Kind.SUM, **more):
    return begun(Exercise(kind, parse_sum(text), rung, RODS, **more))


def begun(exercise):
    work = Work.begin(exercise, USUAL, Strictness.BEADS)
    while work.is_playing:
        work.play()
    return work


def touched(text, moves, **more):
    work = begin(text, **more)
    for stroke in parse_strokes(moves):
        work.touch(stroke)
    return work


@st.composite
def columns(draw):
    """Two to four numbers of at most two digits, never below nothing."""
    total, terms = 0, []
    for _ in range(draw(st.integers(2, 4))):
        term = draw(st.integers(-min(99, total), 99).filter(bool))
        terms.append(term)
        total += term
    return Sum(tuple(map(Decimal, terms)))


@st.composite
def hands(draw):
    """Silent work with random touches, about half of them right."""
    rung = draw(st.sampled_from([Rung.COVERED, Rung.NUMBER]))
    asked = Asked.CALLED if rung is Rung.NUMBER else Asked.SHOWN
    work = begun(Exercise(Kind.SUM, draw(columns()), rung, RODS, asked=asked))
    random = Random(draw(st.integers(0, 10**6)))
    for _ in range(draw(st.integers(0, 14))):
        if random.random() < 0.7 and work.next_stroke:
            work.touch(work.next_stroke)
        else:
            work.touch((random.choice(MOVES),))
    return work


@given(hands())
def test_hand_and_way_of_any_work(work):
    replay = replay_of(work)
    assert_frames_follow_strokes(replay)
    assert replay.hand == tuple(touch.verdict.stroke for touch in work.touches)
    assert replay.hand_frames[-1] == work.frame
    assert replay.way_frames[-1] == work.plan.end
    assert read(replay.way_frames[-1]) == work.exercise.sum.result
    assert replay.last == max(len(replay.hand), len(replay.way))
    assert tuple(state.frame for state in replay.way_states) == replay.way_frames
    if replay.parting is None:
        assert not replay.hand or work.frame == work.plan.end
    else:
        same = replay.parting
        assert replay.hand[:same] == replay.way[:same]
        assert replay.hand_frames[: same + 1] == replay.way_frames[: same + 1]
        assert replay.hand[same : same + 1] != replay.way[same : same + 1]


def assert_frames_follow_strokes(replay):
    for frames, strokes in (
        (replay.hand_frames, replay.hand), (replay.way_frames, replay.way),
    ):  # fmt: skip
        assert frames[0] == replay.hand_frames[0]
        assert len(frames) == len(strokes) + 1
        made = zip(pairwise(frames), strokes, strict=True)
        assert all(before.apply_all(stroke) == after for (before, after), stroke in made)


@given(columns(), st.integers(0, 10**6))
def test_a_hand_that_is_right_in_any_lawful_order_never_parts(column, seed):
    random = Random(seed)
    work = begun(Exercise(Kind.SUM, column, Rung.COVERED, RODS))
    while not work.judge.finished:
        lawful = [move for move in MOVES if work.judge.judge((move,)).is_right]
        work.touch((random.choice(lawful),))
    replay = replay_of(work)
    assert work.frame == work.plan.end
    assert (replay.parting, replay.verdict) == (None, None)
    assert replay.hand == replay.way


@given(columns(), st.integers(0, 20))
def test_a_hand_that_ends_too_early_parts_at_its_end(column, left):
    work = begun(Exercise(Kind.SUM, column, Rung.COVERED, RODS))
    strokes = list(work.plan.strokes)
    for stroke in strokes[: -1 - left]:
        work.touch(stroke)
    replay = replay_of(work)
    assert replay.way == tuple(strokes)
    assert replay.verdict is None
    assert replay.parting == (len(replay.hand) or None)


def test_where_nothing_was_touched_the_way_is_shown_alone():
    work = begin("38 + 47")
    work.say_done()
    work.answer(Decimal(86))
    replay = replay_of(work)
    assert (replay.hand, replay.parting, replay.verdict) == ((), None, None)
    assert replay.way == work.plan.strokes


PARTINGS = [
    # sum, touches, the stroke where they part, the right one there
    ("4 + 3", "0:+4 0:+5 0:-3", 2, "0:-2"),
    ("4 + 3", "0:+4 1:+1", 1, "0:+5"),
    ("4 + 3", "1:+4", 0, "0:+4"),
    ("8 + 7", "0:+3&0:+5 0:-3", 2, "1:+1"),
    ("38 + 47", "1:+3 0:+3&0:+5 2:+1", 2, "1:+5"),
    # half a stroke is right as far as it goes
    ("4 + 3", "0:+4 0:+5 0:-1", 3, "0:-1"),
    ("4 + 3", "0:+3", 1, "0:+1"),
]


@pytest.mark.parametrize("text, moves, parting, right", PARTINGS)
def test_the_place_where_hand_and_way_part(text, moves, parting, right):
    replay = replay_of(touched(text, moves))
    assert replay.parting == parting
    assert replay.way[parting] == parse_stroke(right)
    verdict = replay.verdict
    assert (verdict is None) is (parting == len(replay.hand))
    assert verdict is None or verdict.stroke == replay.hand[parting]


def test_a_slip_that_was_mended_still_parts_and_both_end_right():
    work = touched("4 + 3", "0:+4 0:+5 0:-3 0:+1")
    replay = replay_of(work)
    assert replay.parting == 2
    assert replay.hand_frames[-1] == replay.way_frames[-1]
    assert len(replay.hand) == replay.last == 4


def test_a_hand_that_strayed_from_a_right_answer_has_a_parting():
    work = touched("4 + 3", "0:+4 0:+5 0:-3")
    work.say_done()
    work.answer(Decimal(7))
    assert work.outcome is Outcome.HAND_STRAYED
    assert replay_of(work).parting == 2


def test_frames_before_and_after_the_end_are_the_last_ones():
    replay = replay_of(touched("4 + 3", "0:+4"))
    assert replay.frames_at(0) == (replay.hand_frames[0], replay.way_frames[0])
    assert replay.frames_at(2) == (replay.hand_frames[1], replay.way_frames[2])
    assert replay.frames_at(99) == (replay.hand_frames[-1], replay.way_frames[-1])


def test_a_number_set_or_cleared_unseen_has_its_way_too():
    for kind, end in ((Kind.SET, 57), (Kind.CLEAR, 0)):
        work = begin("57", kind=kind)
        work.touch(parse_stroke("2:+1"))
        work.say_done()
        replay = replay_of(work)
        assert replay.parting == 0
        assert read(replay.way_frames[-1]) == end


def test_the_way_of_a_frame_of_ones_own_is_all_there_is():
    work = begin("38 + 47", rung=Rung.ALONE, own=True)
    work.answer(Decimal(86))
    replay = replay_of(work)
    assert replay.hand == ()
    assert read(replay.way_frames[-1]) == 85

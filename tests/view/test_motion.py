"""Motion: beads glide from pose to pose without ever overlapping."""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from poses import is_possible

from frame.technique.beads import Frame
from frame.view.geometry import Pose, pose_of
from frame.view.motion import (
    MOVE_SECONDS,
    RETURN_SECONDS,
    SHOW_SECONDS,
    Glide,
    between,
    ease_out,
)

share = st.floats(0, 1)
possible_rod = st.builds(
    lambda heaven, earth: (heaven, *sorted(earth)), share, st.tuples(share, share, share, share)
)
possible_pose = st.builds(Pose, st.tuples(possible_rod, possible_rod))


@given(possible_pose, possible_pose, share)
def test_between_possible_poses_every_pose_is_possible(start, end, part):
    assert is_possible(between(start, end, part))


@given(possible_pose, possible_pose, st.floats(0, 10), st.floats(0, 10), st.floats(-1, 20))
def test_a_glide_is_possible_at_any_time_and_ends(start, end, began, seconds, at):
    glide = Glide(start, end, began, seconds)
    assert is_possible(glide.pose(at))
    assert glide.pose(began + seconds + 1) == end
    assert glide.done(began + seconds + 1)


@given(possible_pose, possible_pose, possible_pose, share)
def test_a_new_glide_starts_where_the_old_one_is(start, end, other, part):
    now = 5 + part
    first = Glide(start, end, 5, 1)
    second = Glide(first.pose(now), other, now, 1)
    assert second.pose(now) == first.pose(now)


def test_a_glide_begins_at_its_start():
    start, end = pose_of(Frame("3", 0)), pose_of(Frame("8", 0))
    glide = Glide(start, end, 2.0, MOVE_SECONDS)
    assert glide.pose(1.0) == glide.pose(2.0) == start
    assert not glide.done(2.1)


def test_ease_out_slows_down():
    steps = [ease_out(i / 10) for i in range(11)]
    gains = [b - a for a, b in pairwise(steps)]
    assert (steps[0], steps[-1]) == (0, 1)
    assert gains == sorted(gains, reverse=True)
    assert ease_out(0.5) == 0.875


def test_a_glide_of_no_length_is_at_its_end_at_once():
    start, end = pose_of(Frame("0", 0)), pose_of(Frame("9", 0))
    assert Glide(start, end, 3.0, 0.0).pose(3.0) == end


def test_durations():
    assert 0.12 <= MOVE_SECONDS <= 0.18 and RETURN_SECONDS == 0.4
    assert SHOW_SECONDS == 0.6


def test_poses_of_different_frames_do_not_mix():
    with pytest.raises(ValueError):
        between(pose_of(Frame("0", 0)), pose_of(Frame("00", 1)), 0.5)

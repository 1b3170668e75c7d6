"""Small plays: what they draw, and that what is asked never tells the answer."""

from decimal import Decimal
from itertools import pairwise
from random import Random

import pytest
from shipped import the_words

from frame.course.plays import TEN, Play, PlayFeedback, draw_play, frame_beside
from frame.language.wording import Listener
from frame.practice.exercises import Kind
from frame.practice.work import Work
from frame.technique.conventions import USUAL, Strictness
from frame.technique.reading import read

WORDS = the_words()
plays = pytest.mark.parametrize("play", Play)


def drawn(play, count=200, rods=1):
    random, last = Random(3), None
    for _ in range(count):
        last = draw_play(play, random, rods, last)
        yield last


def worked(exercise):
    """The work, from where the learner begins to its end."""
    work = Work.begin(exercise, USUAL, Strictness.BEADS)
    while work.is_playing:
        work.play()
    return work


@plays
@pytest.mark.parametrize("rods", [1, 2])
def test_each_number_is_another_than_the_last_and_all_of_them_come(play, rods):
    numbers = [one.number for one in drawn(play, 1500, rods)]
    most = 9 if play.is_of_ten else 10**rods - 1
    assert set(numbers) == {Decimal(one) for one in range(1, most + 1)}
    assert all(one != other for one, other in pairwise(numbers))


@plays
def test_the_right_beads_lead_to_the_number_that_is_asked_for(play):
    for exercise in drawn(play, 40):
        work, beside = worked(exercise), frame_beside(play, exercise)
        start = read(work.frame)
        while not work.finished:
            work.touch(work.next_stroke)
        end = read(work.frame)
        assert work.right and (work.unaided or play is Play.TEN)
        match play:
            case Play.CALLED:
                assert (start, end, beside) == (0, exercise.number, None)
            case Play.TEN:
                assert (start, end, beside) == (exercise.number, TEN, None)
            case Play.MIRROR:
                assert (start, end) == (0, read(beside))
            case Play.MISSING:
                assert start == 0 and end + read(beside) == TEN


@plays
@pytest.mark.parametrize("listener", Listener)
def test_only_a_number_that_is_called_is_told_before_it_is_found(play, listener):
    feedback = PlayFeedback(WORDS, listener, play=play)
    for exercise in drawn(play, 60):
        work = worked(exercise)
        heard = feedback.of_asked(work).speak.lower()
        found = exercise.sum.terms[-1]  # What the learner sets or adds.
        if play is Play.CALLED:
            assert WORDS.number(found) in heard
        elif found != TEN - found:
            assert WORDS.number(found) not in heard.replace("ten", "").split()
        assert feedback.of_deed(work) is not None and not feedback.shows_number


def test_a_number_that_nobody_hears_is_seen():
    deaf = PlayFeedback(WORDS, Listener.YOUNG, play=Play.CALLED, hears=False)
    assert deaf.shows_number
    assert not PlayFeedback(WORDS, Listener.YOUNG, play=Play.MIRROR, hears=False).shows_number


@pytest.mark.parametrize("play", [Play.TEN, Play.MISSING])
def test_partners_of_ten_are_told_when_they_are_found(play):
    feedback = PlayFeedback(WORDS, Listener.YOUNG, play=play)
    for exercise in drawn(play, 20):
        work = worked(exercise)
        while not work.finished:
            work.touch(work.next_stroke)
        one, other = exercise.number, TEN - exercise.number
        said = feedback.of_done(work).speak
        assert said == f"Yes. {WORDS.number(one)} and {WORDS.number(other)} make ten."
        assert exercise.kind is (Kind.SUM if play is Play.TEN else Kind.SET)

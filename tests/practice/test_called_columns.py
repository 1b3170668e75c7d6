"""Every column that can be called is spoken whole from the real recordings."""

from collections.abc import Iterator
from decimal import Decimal
from itertools import product
from random import Random

import pytest
from shipped import the_course, the_words

from frame.course.course import load_one
from frame.course.lesson import Ask, Lesson, Practise
from frame.language.speech import SPEEDS, Clips
from frame.practice.choices import CALL_PACES, Called, Choices
from frame.practice.columns import MOST_CALLED_DIGITS, MOST_ROWS
from frame.practice.cues import CallPace, CueKind, UnspokenError, call_cues
from frame.practice.drawing import draw
from frame.practice.exercises import Exercise, plan_for
from frame.practice.rungs import Asked
from frame.practice.standing import Ladder
from frame.resources import ASSETS
from frame.technique.conventions import USUAL
from frame.technique.reading import read

WORDS = the_words()
CLIPS = Clips(ASSETS / "voice" / "en")
OWN = {speed: {clip for _, clip in CLIPS.entries(speed)} for speed in SPEEDS}

SIGNS = (1, -1)
HEADS = range(1, 1000)
"""The highest group of three digits, with the sign before it."""
GROUPS = (0, 7, 10, 13, 40, 42, 300, 307, 310, 313, 340, 342)
"""One of each way in which a group is put into words."""
MOST_GROUPS = -(-MOST_CALLED_DIGITS // 3)
TAILS = ("", ".5", ".05", ".125")


def unspoken(column: tuple[Decimal, ...]) -> list[str]:
    """What is not spoken of a column, or not as quickly as asked, at each speed and either way."""
    found = []
    for speed, by_place in product(SPEEDS, (False, True)):
        how = f"{', '.join(map(str, column))}, {speed}{', by place' if by_place else ''}"
        try:
            cues = call_cues(column, WORDS, CLIPS, CallPace(speed, place_by_place=by_place))
        except UnspokenError as error:
            found.append(f"{how}: {error}")
            continue
        clips = {clip for cue in cues if cue.kind is CueKind.NUMBER for _, clip in cue.clips}
        if not clips <= OWN[speed]:
            found.append(f"{how}: not at its speed")
    return found


def test_every_group_is_spoken_with_and_without_a_minus() -> None:
    for head, sign in product(HEADS, SIGNS):
        assert unspoken((Decimal(sign * head),)) == []


def numbers_of_two_groups() -> Iterator[int]:
    """Each way of a group beside each way of the next, at every scale, noughts below them."""
    for scale, head, following in product(range(1, MOST_GROUPS), GROUPS[1:], GROUPS):
        yield (head * 1000 + following) * 1000 ** (scale - 1)


def test_every_kind_of_group_is_spoken_beside_every_other_at_every_scale() -> None:
    for number, sign in product(numbers_of_two_groups(), SIGNS):
        assert unspoken((Decimal(sign * number),)) == []


@pytest.mark.parametrize("tail", TAILS)
def test_decimals_are_spoken(tail: str) -> None:
    for head, sign in product(GROUPS, ("", "-")):
        assert unspoken((Decimal(f"{sign}{head}{tail}"),)) == []


def called(pace: int, digits: int, count: int, minus: bool) -> tuple[Exercise, ...]:
    """A set of the practice page, as it is chosen and drawn there."""
    called = Called(digits=digits, rows=count, pace=CALL_PACES[pace], minus=minus)
    request = Choices(Asked.CALLED, called=called).request(frozenset(), Ladder())
    return draw(request, Random(f"{pace} {digits} {count} {minus}"))


COUNTS = range(2, MOST_ROWS + 1)


@pytest.mark.parametrize("digits", range(1, MOST_CALLED_DIGITS + 1))
@pytest.mark.parametrize(
    ("counts", "paces"),
    [
        ((2, MOST_ROWS), (0,)),
        pytest.param(COUNTS, range(len(CALL_PACES)), marks=pytest.mark.proof),
    ],
    ids=["some", "all"],
)
def test_whatever_the_practice_page_draws_is_spoken(
    digits: int, counts: range, paces: range
) -> None:
    for count, pace, minus in product(counts, paces, (False, True)):
        for exercise in called(pace, digits, count, minus):
            assert len(exercise.sum.numbers) == count
            assert unspoken(exercise.sum.numbers) == []


@pytest.mark.parametrize("digits", [1, 7, MOST_CALLED_DIGITS])
def test_whatever_the_practice_page_draws_is_worked_on_its_rods(digits: int) -> None:
    for minus in (False, True):
        for exercise in called(0, digits, MOST_ROWS, minus):
            plan = plan_for(exercise, USUAL)
            assert plan is not None
            assert len(plan.start.digits) == exercise.rods
            assert read(plan.end) == exercise.sum.result == sum(exercise.sum.numbers)


def called_steps() -> list[tuple[Lesson, Ask | Practise]]:
    course = the_course()
    lessons = [load_one(course, entry.id) for entry in course.lessons]
    return [
        (lesson, step)
        for lesson in lessons
        for step in lesson.steps
        if (isinstance(step, Ask) and step.exercise.asked is Asked.CALLED)
        or (isinstance(step, Practise) and step.request.asked is Asked.CALLED)
    ]


def drawn(step: Ask | Practise, times: int) -> Iterator[Exercise]:
    if isinstance(step, Ask):
        yield step.exercise
        return
    for seed in range(times):
        yield from draw(step.request, Random(seed))


@pytest.mark.parametrize(
    "times", [5, pytest.param(100, marks=pytest.mark.proof)], ids=["some", "many"]
)
def test_whatever_a_lesson_calls_is_spoken(times: int) -> None:
    steps = called_steps()
    assert {lesson.id for lesson, _ in steps} >= {"mind-one-4", "mind-three-4", "mind-three-5"}
    for _, step in steps:
        for exercise in drawn(step, times):
            assert unspoken(exercise.sum.numbers) == []


@pytest.mark.parametrize("speed", SPEEDS)
def test_a_pace_changes_gaps_and_no_clip(speed: str) -> None:
    column = (Decimal(3456), Decimal(-324))
    said = {
        tuple(
            clip
            for cue in call_cues(column, WORDS, CLIPS, CallPace(speed, gap))
            for _, clip in cue.clips
        )
        for gap in CALL_PACES
    }
    assert len(said) == 1

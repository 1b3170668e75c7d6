"""A wrong answer of which no bead was seen: what was likely behind it is told, and seen beside the
way; and what was done lately is minded."""

from datetime import timedelta
from decimal import Decimal

import pytest
from robot import do_right, give_answer, until

from frame.app import Push
from frame.course.attempts import Position
from frame.course.feedback import Feedback
from frame.course.runner import Stage
from frame.language.wording import Listener
from frame.learner.settings import Age
from frame.learner.store import LessonState
from frame.practice.choices import Beads, Choices
from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family
from frame.practice.rungs import Rung
from frame.practice.suspects import Given
from frame.practice.work import Work
from frame.screens.lesson.fault import answers_of, behind_of
from frame.screens.lesson.practice import begin_set
from frame.screens.lesson.replay import ReplayScreen, replay_screen
from frame.screens.lesson.screen import LessonScreen
from frame.technique.conventions import USUAL, Strictness
from frame.technique.expression import parse_calculation
from frame.technique.faulty import Choosing, answer_by
from frame.technique.habits import Habit
from frame.technique.reading import read


def answered(text, answer, rods=4):
    exercise = Exercise(Kind.SUM, parse_calculation(text), Rung.NUMBER, rods)
    work = Work.begin(exercise, USUAL, Strictness.BEADS)
    work.answer(Decimal(answer))
    return work


@pytest.mark.parametrize(
    ("text", "answer", "said"),
    [
        ("38 + 47", 75, "It is 85. The ten goes in, too."),
        ("38 + 47", 84, "It is 85. Look."),
        ("52 - 17", 45, "It is 35. The ten goes out, too."),
        ("38 + 47", 85, "Yes. 85."),
    ],
)
def test_one_sentence_tells_what_was_behind_it(pilot, text, answer, said):
    feedback = Feedback(pilot.words, Listener.OLDER)
    assert feedback.of_outcome(answered(text, answer)).show == said


def test_what_was_answered_before_is_minded(pilot):
    text, answer = "4 + 3", 9
    alone = Feedback(pilot.words, Listener.OLDER)
    assert alone.behind(answered(text, answer)) is None
    habit = Habit.PARTNER_OF_FIVE_LEFT
    before = [
        Given(one, answer_by(one, USUAL, Choosing({habit})).number)
        for one in map(parse_calculation, ("30 + 40", "24 + 13", "40 + 22"))
    ]
    minding = Feedback(pilot.words, Listener.OLDER, lambda: before)
    assert minding.behind(answered(text, answer)).site.habit is habit


@pytest.mark.parametrize(
    ("answer", "rest", "habit"),
    [(3, 5, Habit.REMAINDER_NOT_SMALLER), (4, 3, None), (5, 3, None)],
)
def test_the_answer_tells_of_it_and_not_what_is_left_over(pilot, answer, rest, habit):
    before = [
        Given(parse_calculation(text), Decimal(number))
        for text, number in (("19 / 6", 2), ("25 / 4", 5), ("35 / 8", 3), ("59 / 8", 6))
    ]
    work = answered("17 / 4", answer, 13)
    work.answer(Decimal(rest))
    behind = Feedback(pilot.words, Listener.OLDER, lambda: before).behind(work)
    assert (behind and behind.site.habit) == habit


@pytest.mark.parametrize(
    ("days_ago", "said"), [(0.001, "It is 85. The frame is cleared"), (0.1, "It is 85. Look.")]
)
def test_the_answer_before_may_stand_on_the_frame_for_a_while(pilot, days_ago, said):
    before = Given(parse_calculation("5 + 7"), Decimal(12), days_ago=days_ago)
    feedback = Feedback(pilot.words, Listener.OLDER, lambda: [before])
    work = answered("38 + 47", 97)
    assert feedback.of_outcome(work).show.startswith(said)
    assert isinstance(replay_screen(pilot.room, work, feedback, None), ReplayScreen)


def test_the_hand_that_has_it_is_seen_beside_the_way_up_to_where_they_part(pilot):
    work = answered("38 + 47", 75)
    feedback = Feedback(pilot.words, Listener.OLDER)
    screen = replay_screen(pilot.room, work, feedback, feedback.of_outcome(work))
    assert isinstance(screen, ReplayScreen) and screen.has_two
    hand, way = screen.replay.frames_at(screen.replay.last)
    assert (read(hand), read(way)) == (75, 85)
    assert (
        screen.replay.hand_frames[: screen.replay.parting]
        == (screen.replay.way_frames[: screen.replay.parting])
    )
    screen.at = screen.replay.parting + 1
    assert "The ten goes in, too." in screen.line.show
    pilot.app.take(Push(screen))
    pilot.wait(30, 60)
    pilot.app.draw()


@pytest.mark.parametrize(
    ("text", "answer", "rods"),
    [("38 + 47", 84, 3), ("503 x 2", 106, 13), ("38 + 47", 508, 2), ("99 + 1", 0, 3)],
)
def test_where_no_hand_can_be_shown_the_way_alone_is(pilot, text, answer, rods):
    work = answered(text, answer, rods)
    feedback = Feedback(pilot.words, Listener.OLDER)
    screen = replay_screen(pilot.room, work, feedback, None)
    assert not screen.replay.hand and screen.replay.way_frames[-1] == work.plan.end
    pilot.app.take(Push(screen))
    pilot.wait(30, 60)


def to_numbers(pilot, family=Family.ADD_TEN):
    """A set of sums that are answered by their number alone."""
    pilot.room.set(age=Age.OLDER, all_open=True)
    for entry in pilot.room.course.lessons[:40]:
        pilot.room.lessons[entry.id] = LessonState(1, Position(), True, True)
    choices = Choices(beads=Beads(family, rung=Rung.NUMBER))
    pilot.app.take(Push(LessonScreen(pilot.room, begin_set(pilot.room, choices))))
    pilot.app.draw()


def test_what_is_answered_now_is_minded_at_once_and_after_a_new_beginning(pilot):
    to_numbers(pilot)
    asked = []
    for _ in range(400):
        work = pilot.screen.runner.work
        if len(asked) == 3:
            break
        if work is not None and work.exercise.by_answer and str(work.exercise) not in asked:
            asked.append(str(work.exercise))
        do_right(pilot)
    given = [str(one.calculation) for one in answers_of(pilot.room)]
    assert given and given == asked[: len(given)]
    assert behind_of(pilot.room).told == ()
    pilot.room.fold_anew()
    assert [str(one.calculation) for one in answers_of(pilot.room)] == given


def test_an_answer_does_not_tell_twice_of_what_is_behind_it(pilot):
    """By the time its replay comes it is kept, and among the answers of the past."""
    to_numbers(pilot, Family.ADD_FIVE)
    until(pilot, Stage.ANSWER)
    feedback, work = pilot.screen.guide.feedback, pilot.screen.runner.work
    five_left = Choosing({Habit.PARTNER_OF_FIVE_LEFT})
    give_answer(pilot, answer_by(work.exercise.sum, USUAL, five_left).number)
    assert feedback.behind(work) is None and answers_of(pilot.room) == []
    for _ in range(60):
        if isinstance(pilot.screen, ReplayScreen):
            break
        pilot.wait(0.2)
    assert isinstance(pilot.screen, ReplayScreen) and len(answers_of(pilot.room)) == 1
    assert pilot.screen.habit is None and not pilot.screen.replay.hand


def test_an_answer_is_minded_once_where_the_clock_was_put_back(pilot):
    """All is read anew from the record then, and the answer is in it."""
    to_numbers(pilot)
    for back in (0, 1):
        until(pilot, Stage.ANSWER)
        then = pilot.now() - timedelta(days=back)
        pilot.room.now = lambda then=then: then
        give_answer(pilot, pilot.screen.runner.work.exercise.sum.result)
        pilot.settle()
        pilot.wait(5)
    assert len(answers_of(pilot.room)) == 2

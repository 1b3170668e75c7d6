"""How long lessons take, told by a clock that no one waits for."""

from dataclasses import replace
from decimal import Decimal
from itertools import pairwise

import pytest
from each import each_row
from guided import WORDS, ask, line, practise, read, say, show
from shipped import the_course

from frame.course.lesson import End, Lesson, Practise
from frame.course.minutes import THOUGHT_SECONDS, WORDS_A_MINUTE, Playing, Reading
from frame.course.pacing import PAUSE_AFTER_DEMO, PAUSE_AFTER_DONE
from frame.language.speech import RATE, SENTENCE_GAP, Clips
from frame.language.wording import Listener
from frame.practice.exercises import Kind
from frame.practice.rungs import Rung
from frame.technique.facts import ALL_FACTS

GLIDE = 0.6
WORD = 60 / WORDS_A_MINUTE
KNOWN = frozenset(ALL_FACTS)
UNITS = the_course().units
YOUNG, LATER = UNITS[:10], UNITS[10:]
"""What children of four to six work through, beads to borrows; and all that comes after it."""
UNREAD = Playing(WORDS, Reading(), GLIDE)
ENDS = End(line("Two are there"))


def lesson(*steps, rods=1):
    return Lesson("quay-1", "The quay", None, rods, (), steps, end=ENDS)


def seconds(*steps, playing=UNREAD, rods=1):
    return playing.seconds(lesson(*steps, rods=rods), KNOWN)


# By hand


def test_a_sentence_is_heard_and_thought_of():
    own = 3 * WORD + THOUGHT_SECONDS
    end = 3 * WORD
    assert seconds(say("Look at this")) == pytest.approx(own + end)


def test_a_bead_is_moved_and_its_number_told():
    asked = 2 * WORD + THOUGHT_SECONDS
    told = 2 * WORD + SENTENCE_GAP  # "Yes. Two." is longer than the pause.
    end = 3 * WORD
    assert seconds(ask("2", own="Set two", kind=Kind.SET, rods=1)) == pytest.approx(
        asked + told + end
    )


def test_a_demonstration_glides_and_is_repeated():
    asked = 3 * WORD
    shown = GLIDE + PAUSE_AFTER_DEMO
    turn = 5 * WORD + 2 * SENTENCE_GAP + THOUGHT_SECONDS  # "Now you. One. Plus one."
    told = 2 * WORD + SENTENCE_GAP
    end = 3 * WORD
    step = ask("1 + 1", Rung.WATCH, own="One plus one", rods=1)
    assert seconds(step) == pytest.approx(asked + shown + turn + told + end)


def test_what_was_new_is_seen_once_more_at_the_end():
    step = ask("1", own="Set one", kind=Kind.SET, rods=1)
    taught = replace(lesson(step), new=("set-digit-1",))
    seen = PAUSE_AFTER_DONE + GLIDE
    heard = ENDS.line.speak.count(" ") + 1
    assert UNREAD.seconds(taught, KNOWN) == pytest.approx(
        seconds(step) + max(seen - heard * WORD, GLIDE)
    )


# In general


@pytest.mark.parametrize("playing", [UNREAD, replace(UNREAD, listener=Listener.OLDER)])
def test_minutes_grow_with_each_step(playing):
    steps = (
        say("Two boats"), show(Decimal(2), "Two"), ask("2", kind=Kind.READ, rods=2),
        ask("12", Rung.FOLLOW, kind=Kind.SET), ask("57", kind=Kind.CLEAR),
        ask("2 + 4", Rung.WATCH), ask("8 + 9", Rung.FINISH, last=1), ask("8 + 9", Rung.PALE),
        ask("8 + 9", Rung.COVERED), practise(("add-five-4",), 2, rods=2),
        practise(("read-tens",), 2, digits=2, rods=2),
        practise(("add-ten-9",), 2, rods=2, rung=Rung.COVERED),
    )  # fmt: skip
    taken = [seconds(*steps[:at], playing=playing, rods=2) for at in range(1, len(steps) + 1)]
    assert all(later > earlier + 1 for earlier, later in pairwise(taken))


@pytest.mark.parametrize("more", range(1, 5))
def test_each_exercise_of_a_set_takes_its_time(more):
    def taken(count):
        return seconds(practise(("set-digit-1",), count), rods=1)

    assert taken(more + 1) - taken(more) >= THOUGHT_SECONDS


def test_a_text_is_heard_as_long_as_its_clips_are(tmp_path):
    (tmp_path / "plain.txt").write_text(
        f"a.ogg 0 {2 * RATE}\tlook here\na.ogg 0 {3 * RATE}\tgo on\na.ogg 0 {RATE}\tall of it now\n"
    )
    reading = Reading(Clips(tmp_path))
    assert reading.seconds("Look here.") == 2
    assert reading.seconds("Look here. Go on!") == 2 + SENTENCE_GAP + 3
    assert reading.seconds("All of it. Now.") == 1
    assert reading.seconds("Look here. Twenty-one.") == pytest.approx(2 + SENTENCE_GAP + 2 * WORD)
    assert Reading().seconds("Look here. Twenty-one.") == pytest.approx(4 * WORD + SENTENCE_GAP)


# The course


def test_a_lesson_is_played_the_same_at_every_time():
    assert UNREAD.seconds(*read("five-add-1")) == UNREAD.seconds(*read("five-add-1"))


def lessons_of(units):
    return [one.id for unit in units for one in the_course().lessons_of(unit.id)]


@each_row("lesson_id", lessons_of(YOUNG))
def test_a_lesson_for_the_young_takes_four_minutes_at_most(lesson_id):
    assert UNREAD.seconds(*read(lesson_id)) <= 4 * 60


@each_row("lesson_id", lessons_of(LATER))
def test_a_later_lesson_takes_seven_minutes_at_most(lesson_id):
    assert UNREAD.seconds(*read(lesson_id)) <= 7 * 60


@each_row("lesson_id", lessons_of(LATER))
def test_no_later_lesson_is_short_by_sets_that_ask_for_little(lesson_id):
    sets = [step for step in read(lesson_id)[0].steps if isinstance(step, Practise)]
    assert sets
    assert all(one.request.count >= 3 and 3 * one.right >= 2 * one.request.count for one in sets)

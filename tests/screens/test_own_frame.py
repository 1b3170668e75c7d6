"""A set worked on the learner's own frame: the column as on paper, and only the answer is taken;
and an answer that is set on a frame instead of being typed."""

import pytest
from calls import until_number
from robot import DEAF, begin, give_answer, signs, tick_is_seen, until

from frame.course.runner import Stage
from frame.language.lines import Line
from frame.practice.exercises import Exercise, Kind
from frame.practice.outcomes import Outcome
from frame.practice.rungs import Asked, Rung
from frame.screens.lesson.replay import ReplayScreen
from frame.technique.beads import BeadMove
from frame.technique.expression import parse_sum
from frame.technique.reading import read

TEXT = "38 + 47 - 5"


def exercise(text=TEXT, rung=Rung.ALONE, rods=3, **more):
    return Exercise(Kind.SUM, parse_sum(text), rung, rods, **more)


@pytest.fixture
def own(pilot):
    return begin(pilot, exercise(own=True), count=2)


def test_there_is_no_frame_but_the_column_as_on_paper(pilot, own):
    places = {" ".join(line.split()): place for line, place in pilot.repaint()}
    assert {"38", "+ 47", "− 5"} <= set(places)
    assert places["38"].bottom <= places["+ 47"].top
    assert places["+ 47"].bottom <= places["− 5"].top
    assert places["38"].right == pytest.approx(places["+ 47"].right, abs=3)
    beads = pilot.pixels(own.field.box)
    pilot.room.set(bead_tint=False)
    pilot.repaint()
    assert pilot.pixels(own.field.box) == beads


def test_the_answer_is_waited_for_at_once_and_nothing_on_the_paper_can_be_moved(pilot, own):
    assert own.runner.stage is Stage.ANSWER
    before = pilot.pixels(own.field.box)
    pilot.tap(own.field.box.center)
    pilot.drag(own.field.box.midbottom, own.field.box.center)
    assert pilot.pixels(own.field.box) == before
    assert own.runner.work.touches == []
    assert not {"beads", "eye", "undo"} & signs(own)


def test_a_right_answer_goes_on(pilot, own):
    give_answer(pilot, 80)
    assert (own.runner.stage, own.runner.attempts[-1].outcome) == (Stage.DONE, Outcome.RIGHT)
    assert own.runner.attempts[-1].exercise.own
    pilot.settle()
    pilot.repaint()
    assert tick_is_seen(pilot)
    pilot.wait(3)
    assert own.runner.stage is Stage.ANSWER


def test_where_it_is_not_right_the_way_is_shown(pilot, own):
    give_answer(pilot, 81)
    assert own.runner.attempts[-1].outcome is Outcome.WRONG_ANSWER
    pilot.wait(1.3)
    assert isinstance(pilot.screen, ReplayScreen)
    assert not pilot.screen.has_two
    assert read(pilot.screen.replay.way_frames[-1]) == 80
    pilot.press_word("lesson.go_on")
    pilot.wait(3)
    assert own.runner.position.step == 1


@pytest.mark.parametrize("asked", [Asked.CALLED, Asked.FLASHED])
def test_called_and_flashed_numbers_are_not_on_the_paper(pilot, asked):
    begin(pilot, exercise(own=True, asked=asked, pace=1.0))
    lines = pilot.lines()
    assert pilot.words.text("lesson.own_frame") in lines
    assert not {"38", "47", "5", "−5"} & set(lines.split())


def where(pilot, text):
    """Where a text is written, None where it is not."""
    return {line.strip(): place for line, place in pilot.repaint()}.get(text)


@pytest.mark.parametrize("rung", [Rung.ALONE, Rung.NUMBER])
def test_a_number_called_without_sound_is_large_on_the_paper(pilot, rung):
    screen = begin(pilot, exercise(own=rung is Rung.ALONE, rung=rung, asked=Asked.CALLED, pace=1.0))
    for index, text in enumerate(["38", "47", "−5"]):
        until_number(pilot, index)
        pilot.app.draw()
        seen = pilot.pixels(screen.scene.paper)
        place = where(pilot, text)
        assert screen.scene.paper.contains(place)
        assert place.h > 0.11 * screen.size[1]
        assert pilot.words.text("call.title") in pilot.lines()
        assert pilot.pixels(screen.scene.paper) == seen


@pytest.mark.parametrize("count", [1, 2])
@pytest.mark.parametrize("asked", [Asked.SHOWN, Asked.CALLED])
def test_at_the_end_there_is_no_frame_but_the_learners_own(pilot, asked, count):
    screen = begin(pilot, exercise(own=True, asked=asked, pace=1.0), count)
    until(pilot, Stage.END)
    assert not screen.guide.sight.has_field
    assert pilot.words.text("lesson.own_frame") in pilot.lines()


def test_at_the_end_of_beads_their_frame_is_still_seen(pilot):
    screen = begin(pilot, exercise())
    until(pilot, Stage.END)
    assert screen.guide.sight.has_field


# The answer on a frame


@pytest.fixture
def number_only(pilot):
    return begin(pilot, exercise(rung=Rung.NUMBER), count=2)


def test_the_column_stands_on_a_card_until_the_answer_is_given(pilot, number_only):
    assert not number_only.guide.sight.has_field
    places = dict(pilot.repaint())
    assert {"38", "+ 47", "− 5"} <= {" ".join(line.split()) for line in places}
    give_answer(pilot, 80)
    pilot.settle()
    assert number_only.guide.sight.has_field
    assert read(number_only.field.frame) == 80
    assert not number_only.field.look.covered
    assert tick_is_seen(pilot)


def test_after_another_answer_the_frame_shows_the_right_one(pilot, number_only):
    give_answer(pilot, 81)
    pilot.settle()
    assert number_only.runner.stage is Stage.REVEAL
    assert number_only.guide.sight.has_field
    assert read(number_only.field.frame) == 80


@pytest.mark.parametrize("has_line", [True, False])
def test_the_lessons_own_sentence_comes_before_the_question(pilot, has_line):
    line = Line("Crates and nets.", "Crates and nets.") if has_line else None
    screen = begin(pilot, exercise(rung=Rung.NUMBER), line=line)
    assert screen.guide.line == (line or pilot.words.line("lesson.what_answer"))
    assert screen.guide.line.show in pilot.lines()


def test_a_digit_puts_the_answers_frame_aside(pilot, number_only):
    pilot.press_word("lesson.set_answer")
    pilot.move(BeadMove(1, 5))
    pilot.settle()
    assert number_only.guide.answer.typed == "50"
    pilot.press("7")
    assert (number_only.guide.answer.typed, number_only.guide.answer.frame) == ("7", None)
    assert not number_only.guide.sight.has_field
    assert pilot.words.text("lesson.set_answer") in signs(number_only)
    pilot.press_word("lesson.set_answer")
    assert read(number_only.field.frame) == 0


@pytest.mark.parametrize("digit", ["8", "tick"])
def test_a_press_where_digits_have_just_come_up_types_nothing(pilot, number_only, digit):
    key = next(one for one in number_only.buttons if digit in (one.text, one.sign))
    number_only.type_sign("6")
    pilot.tap(key.place.center)
    assert (number_only.guide.answer.typed, number_only.runner.stage) == ("6", Stage.ANSWER)
    pilot.clock += DEAF
    pilot.tap(key.place.center)
    given = number_only.runner.stage is not Stage.ANSWER
    assert number_only.guide.answer.typed == ("" if digit == "tick" else "68")
    assert given is (digit == "tick")


def test_nothing_is_seen_or_moved_where_only_the_number_counts(pilot, number_only):
    assert number_only.runner.stage is Stage.ANSWER
    before = pilot.pixels(number_only.field.box)
    pilot.tap(number_only.field.box.center)
    pilot.drag(number_only.field.box.center, number_only.field.box.midbottom)
    assert pilot.pixels(number_only.field.box) == before
    assert number_only.runner.work.touches == []


def test_on_the_frame_gives_an_empty_one_and_what_it_reads_is_typed(pilot, number_only, heard):
    covered = pilot.pixels(number_only.field.box)
    pilot.press_word("lesson.set_answer")
    assert pilot.pixels(number_only.field.box) != covered
    assert read(number_only.field.frame) == 0
    assert pilot.words.text("lesson.set_answer") not in signs(number_only)
    for move, typed in ((BeadMove(1, 3), "30"), (BeadMove(1, 5), "80"), (BeadMove(0, 1), "81"),
                        (BeadMove(0, -1), "80")):  # fmt: skip
        pilot.move(move)
        assert number_only.guide.answer.typed == typed
        pilot.settle()
        assert number_only.guide.said is None
    assert "80" in [line for line, _ in pilot.repaint()]
    assert number_only.runner.work.touches == []
    pilot.press("tick")
    attempt = number_only.runner.attempts[-1]
    assert (attempt.outcome, attempt.unaided) == (Outcome.RIGHT, True)


def test_the_answers_frame_is_gone_with_the_next_exercise(pilot, number_only):
    pilot.press_word("lesson.set_answer")
    pilot.move(BeadMove(1, 5))
    pilot.settle()
    pilot.press("tick")
    pilot.wait(1.3)
    pilot.press_word("lesson.go_on")
    pilot.wait(3)
    assert number_only.runner.position.step == 1
    assert number_only.guide.answer.frame is None
    assert number_only.guide.answer.typed == ""
    assert not number_only.guide.sight.has_field


def test_an_answer_set_on_a_frame_of_one_rod_can_be_given_by_touch(pilot):
    screen = begin(pilot, exercise("4 + 3", rung=Rung.NUMBER, rods=1))
    pilot.press_word("lesson.set_answer")
    for move in (BeadMove(0, 5), BeadMove(0, 2)):
        pilot.move(move)
        pilot.settle()
    assert screen.guide.answer.typed == "7"
    pilot.press("tick")
    assert screen.runner.attempts[-1].outcome is Outcome.RIGHT


def test_an_answer_read_off_a_called_frame_of_one_rod_can_be_given_by_touch(pilot):
    screen = begin(pilot, exercise("4 + 3", rods=1, asked=Asked.CALLED, pace=0.7))
    while not screen.scene.is_calling:
        pilot.wait(0.1, 1)
    for move in (BeadMove(0, 5), BeadMove(0, 2)):
        pilot.move(move)
        pilot.settle()
    while screen.runner.stage is Stage.PRESENT:
        pilot.wait(2, 4)
    pilot.press_word("lesson.take")
    if screen.runner.stage is Stage.ANSWER:
        pilot.press("tick")
    assert screen.runner.attempts[-1].outcome is Outcome.RIGHT

"""Called numbers: heard, held, repeated, worked by ear; shown where nothing can be heard."""

import pygame
import pytest
from pilot import Pilot
from robot import Heard, begin, give_answer, open_lesson, signs, steps_at, tick_is_seen

from frame.course.runner import Stage
from frame.language.speech import RATE, Clips
from frame.learner.settings import Volume
from frame.practice.exercises import Exercise, Kind
from frame.practice.outcomes import Outcome
from frame.practice.rungs import Asked, Rung
from frame.screens.home import Home
from frame.screens.lesson import LessonScreen
from frame.screens.replay import ReplayScreen
from frame.screens.results import ResultsScreen
from frame.technique.beads import BeadMove
from frame.technique.expression import parse_sum
from frame.technique.reading import read

COLUMN = "34 + 23 - 12"


def called(text=COLUMN, rung=Rung.ALONE, **more):
    return Exercise(Kind.SUM, parse_sum(text), rung, 2, asked=Asked.CALLED, pace=1.5, **more)


@pytest.fixture
def calling(pilot):
    """A call without sound, just begun."""
    screen = begin(pilot, called())
    until_called(pilot)
    return screen


def until_called(pilot):
    for _ in range(100):
        if pilot.screen.calling is not None and pilot.screen.calling.has_begun:
            return
        pilot.wait(0.05, 1)
    raise AssertionError("no call begins")


def until_number(pilot, index):
    for _ in range(1000):
        if pilot.screen.calling.number(pilot.clock) == index:
            return
        pilot.wait(0.05, 1)
    raise AssertionError(f"number {index} is not called")


def to_the_answer(pilot):
    for _ in range(600):
        if pilot.screen.runner.stage is Stage.ANSWER:
            return
        pilot.wait(0.1, 1)
    raise AssertionError("the answer is never waited for")


# By ear and keyboard alone


class Blind:
    """Somebody who hears, and has keys: what was said since last asked."""

    def __init__(self, pilot, heard):
        self.pilot, self.heard, self.at = pilot, heard, 0

    def new(self):
        said, self.at = self.heard.said[self.at :], len(self.heard.said)
        return said

    def until(self, words, seconds=60):
        """Wait until this is said; what was said meanwhile."""
        heard = []
        for _ in range(seconds * 10):
            heard += self.new()
            if any(words in text for text in heard):
                return heard
            self.pilot.wait(0.1, 1)
        raise AssertionError(f"{words!r} is never said, but {heard}")


def test_a_called_set_is_done_by_ear_and_keyboard_alone(pilot, heard, monkeypatch):
    """Nothing that is painted is used: painting does nothing at all."""
    runner = begin(pilot, called(), count=2).runner
    monkeypatch.setattr(LessonScreen, "paint", lambda self, surface: None)
    monkeypatch.setattr(ResultsScreen, "paint", lambda self, surface: None)
    somebody, words, numbers = Blind(pilot, heard), pilot.words, []
    for more in (0, 1):
        heard.calls.clear()
        somebody.until(words.line("lesson.what_answer").speak)
        assert heard.calls[0] == "play"
        numbers.append(runner.work.exercise.sum.result)
        answer = str(numbers[-1] + more)
        for digit in answer:
            pilot.key(pygame.K_0 + int(digit))
        assert somebody.new() == [words.number(int(digit)) for digit in answer]
        pilot.key(pygame.K_RETURN)
        assert somebody.new() == [words.line("lesson.noted").speak]
    told = somebody.until(words.line("results.title", right=1, all=2).speak)
    assert words.line("results.right", at=1, number=numbers[0]).speak in told[-1]
    assert words.line("results.other", at=2, number=numbers[1]).speak in told[-1]
    pilot.key(pygame.K_RETURN)
    assert isinstance(pilot.screen, LessonScreen)
    assert runner.stage is Stage.END


def test_the_call_begins_by_itself_after_what_is_said_of_it(pilot, heard):
    open_called_lesson(pilot)
    screen = pilot.screen
    assert heard.said == [screen.runner.line.speak]
    seconds = len(heard.said[0]) / 15
    assert seconds > 1
    pilot.wait(seconds - 0.1, 10)
    assert heard.calls.count("play") == 0
    pilot.wait(0.2, 4)
    assert heard.calls.count("play") == 1


def open_called_lesson(pilot):
    """The first sum of a lesson that is called."""
    lesson, number = next(steps_at(pilot.room.course, Rung.ALONE, asked=Asked.CALLED))
    pilot.open(lesson, number)
    assert pilot.screen.runner.stage is Stage.PRESENT
    return lesson


def test_without_a_sentence_it_begins_after_about_a_second(pilot):
    screen = begin(pilot, called())
    pilot.wait(0.9, 9)
    assert not screen.calling.has_begun
    pilot.wait(0.2, 2)
    assert screen.calling.has_begun


def test_while_numbers_are_called_nothing_else_is_said(pilot, heard):
    screen = begin(pilot, called(rung=Rung.COVERED))
    until_called(pilot)
    heard.said.clear()
    for move in (BeadMove(1, 3), BeadMove(0, 5), BeadMove(0, -5)):
        pilot.screen.touch((move,))
        pilot.wait(0.4, 4)
    assert screen.runner.stage is Stage.PRESENT
    assert heard.said == []


# Held, repeated, begun again


def test_hold_stops_time_and_go_on_goes_on_there(pilot, heard):
    screen = begin(pilot, called())
    until_called(pilot)
    until_number(pilot, 1)
    pilot.press_word("call.hold")
    at = screen.calling.position(pilot.clock)
    pilot.wait(60, 20)
    assert screen.runner.stage is Stage.PRESENT
    assert screen.calling.position(pilot.clock) == pytest.approx(at)
    assert screen.wakes_in(pilot.clock) is None
    pilot.press_word("lesson.go_on")
    assert heard.calls[-2:] == ["pause", "resume"]
    assert screen.calling.position(pilot.clock) == pytest.approx(at)
    to_the_answer(pilot)


def test_space_holds_and_goes_on(pilot, heard):
    screen = begin(pilot, called())
    until_called(pilot)
    for is_held in (True, False, True):
        pilot.key(pygame.K_SPACE)
        assert screen.calling.is_held is is_held


def test_once_more_begins_at_the_number_called_last(pilot, calling):
    until_number(pilot, 1)
    onset = calling.calling.position(pilot.clock)
    pilot.wait(0.6, 2)
    pilot.press_word("call.hold")
    pilot.press_word("call.repeat")
    assert not calling.calling.is_held
    assert calling.calling.number(pilot.clock) == 1
    assert calling.calling.position(pilot.clock) == pytest.approx(onset, abs=0.1)
    until_number(pilot, 2)
    to_the_answer(pilot)


def test_from_the_start_begins_again_while_numbers_are_called(pilot, calling):
    until_number(pilot, 2)
    pilot.press_word("call.again")
    assert calling.calling.number(pilot.clock) is None
    until_number(pilot, 0)


def test_there_is_no_once_more_before_a_number_was_called(pilot, heard):
    """A call with sound opens with words."""
    screen = begin(pilot, called())
    until_called(pilot)
    once_more = pilot.words.text("call.repeat")
    assert screen.calling.number(pilot.clock) is None
    pilot.press_word("call.hold")
    assert once_more not in signs(screen)
    pilot.press_word("lesson.go_on")
    until_number(pilot, 0)
    pilot.press_word("call.hold")
    assert once_more in signs(screen)


@pytest.mark.parametrize("when", [until_called, to_the_answer])
def test_from_the_start_puts_the_beads_back_and_forgets_them(pilot, calling, when):
    when(pilot)
    pilot.move(BeadMove(1, 3))
    assert len(calling.runner.work.touches) == 1
    pilot.press_word("call.again")
    pilot.settle()
    assert read(calling.field.frame) == read(calling.runner.frame) == 0
    assert calling.runner.work.touches == []
    assert "undo" not in signs(calling)
    to_the_answer(pilot)
    give_answer(pilot, 45)
    assert calling.runner.attempts[-1].unaided, "the hand of the first time is forgotten"


def test_a_bead_moved_in_a_call_can_be_taken_back(pilot, calling):
    assert "undo" not in signs(calling)
    pilot.move(BeadMove(1, 3))
    pilot.wait(0.3, 3)
    assert read(calling.runner.frame) == 30
    pilot.press_word("lesson.undo")
    pilot.wait(0.3, 3)
    assert read(calling.runner.frame) == read(calling.field.frame) == 0
    assert "undo" not in signs(calling)
    assert calling.runner.stage is Stage.PRESENT


def test_from_the_start_begins_again_when_the_answer_is_waited_for(pilot, calling):
    to_the_answer(pilot)
    pilot.press("9")
    pilot.press_word("call.again")
    assert calling.runner.stage is Stage.PRESENT
    assert calling.answer.typed == ""
    until_called(pilot)
    to_the_answer(pilot)
    give_answer(pilot, 45)
    assert calling.runner.attempts[-1].right


def test_a_repeated_call_is_heard_from_that_number_on(pilot, heard, monkeypatch):
    lengths, play = [], heard.play_call

    def note(samples):
        lengths.append(play(samples))
        return lengths[-1]

    monkeypatch.setattr(heard, "play_call", note)
    screen = begin(pilot, called())
    until_called(pilot)
    until_number(pilot, 1)
    pilot.press_word("call.hold")
    pilot.press_word("call.repeat")
    whole, rest = lengths
    assert rest == pytest.approx(whole - screen.calling.position(pilot.clock))
    assert 0 < rest < whole == pytest.approx(screen.calling.length, abs=1 / RATE)


# Beads meanwhile


@pytest.mark.parametrize("rung", [Rung.ALONE, Rung.PALE, Rung.COVERED])
def test_beads_may_be_moved_meanwhile_and_are_not_judged(pilot, heard, rung):
    screen = begin(pilot, called(rung=rung))
    until_called(pilot)
    before = pilot.pixels(screen.field.box)
    for move in (BeadMove(1, 4), BeadMove(0, 3)):
        pilot.move(move)
        pilot.wait(0.3, 3)
    assert read(screen.runner.frame) == 43
    assert screen.said is None
    assert screen.field.mending is None
    assert not screen.field.hints
    assert (pilot.pixels(screen.field.box) == before) is (rung is Rung.COVERED)


def test_the_frame_can_be_worked_to_the_end_and_read_off_for_the_answer(pilot, calling):
    work = calling.runner.work
    while work.next_stroke:
        pilot.screen.touch(work.next_stroke)
        pilot.wait(0.3, 3)
    to_the_answer(pilot)
    pilot.press_word("lesson.take")
    assert calling.answer.typed == "45"
    pilot.press("tick")
    attempt = calling.runner.attempts[-1]
    assert (attempt.outcome, attempt.unaided) == (Outcome.RIGHT, True)


def test_a_strayed_hand_beside_a_right_answer_is_told_apart(pilot, calling):
    pilot.screen.touch((BeadMove(1, 4),))
    to_the_answer(pilot)
    give_answer(pilot, 45)
    assert calling.runner.attempts[-1].outcome is Outcome.HAND_STRAYED


def test_beads_of_a_number_only_call_cannot_be_moved(pilot):
    screen = begin(pilot, called(rung=Rung.NUMBER))
    until_called(pilot)
    before = pilot.pixels(screen.field.box)
    pilot.tap(screen.field.box.center)
    pilot.drag(screen.field.box.center, screen.field.box.midtop)
    assert read(screen.runner.frame) == 0
    assert screen.runner.work.touches == []
    assert pilot.pixels(screen.field.box) == before


# Without sound


def test_without_sound_the_numbers_are_shown_when_they_would_be_heard(pilot, calling):
    shown = []
    while calling.runner.stage is Stage.PRESENT:
        lines = {line for line, _ in pilot.repaint()}
        at = calling.calling.number(pilot.clock)
        seen = lines & {"34", "23", "−12"}
        assert seen == (set() if at is None else {["34", "23", "−12"][at]})
        shown += [one for one in seen if not shown or shown[-1] != one]
        pilot.wait(0.1, 1)
    assert shown == ["34", "23", "−12"]
    assert not {"34", "23", "−12"} & {line for line, _ in pilot.repaint()}


def test_with_sound_no_number_is_shown(pilot, heard):
    begin(pilot, called())
    until_called(pilot)
    while pilot.screen.runner.stage is Stage.PRESENT:
        assert not {"34", "23", "−12", "12"} & {line for line, _ in pilot.repaint()}
        pilot.wait(0.3, 2)


def test_with_the_volume_off_the_numbers_are_shown(pilot, heard):
    pilot.room.set(volume=Volume.OFF)
    begin(pilot, called())
    until_called(pilot)
    until_number(pilot, 0)
    assert "34" in {line for line, _ in pilot.repaint()}


def test_sound_turned_off_in_a_call_shows_what_is_left_of_it(pilot, heard):
    begin(pilot, called())
    until_called(pilot)
    until_number(pilot, 0)
    pilot.key(pygame.K_F2)
    until_number(pilot, 1)
    assert "23" in {line for line, _ in pilot.repaint()}


def test_numbers_whose_words_have_no_clip_are_shown(pilot, heard, tmp_path):
    pilot.room.clips = Clips(tmp_path)
    screen = begin(pilot, called())
    until_called(pilot)
    for index, number in enumerate(("34", "23", "−12")):
        until_number(pilot, index)
        assert number in {line for line, _ in pilot.repaint()}
    to_the_answer(pilot)
    give_answer(pilot, 45)
    assert screen.runner.attempts[-1].right


def test_how_many_numbers_were_called_is_counted(pilot, calling):
    for index in range(3):
        until_number(pilot, index)
        assert pilot.words.text("call.count", done=index + 1, all=3) in pilot.lines()


# Leaving


def test_leaving_in_a_call_ends_it(pilot, heard):
    begin(pilot, called())
    until_called(pilot)
    pilot.key(pygame.K_ESCAPE)
    assert isinstance(pilot.screen, Home)
    assert heard.calls[-1] == "stop"


def test_a_lesson_left_in_a_call_begins_there_again(pilot):
    lesson = open_called_lesson(pilot)
    place = pilot.screen.runner.place
    until_called(pilot)
    pilot.key(pygame.K_ESCAPE)
    open_lesson(pilot, lesson)
    assert (pilot.screen.runner.place, pilot.screen.runner.stage) == (place, Stage.PRESENT)


def test_a_call_of_the_most_digits_and_numbers_by_place(tmp_path):
    """Every number has its clips, one by one and place by place."""
    pilot = Pilot(tmp_path, (800, 480))
    pilot.welcome("Seal")
    pygame.mixer.init(RATE, -16, 1, 256, allowedchanges=0)
    heard = Heard()
    pilot.room.hear(heard)
    text = "98765432109876 + 12345678901234 - 80000000000007"
    for by_place in (False, True):
        sum_ = parse_sum(text)
        screen = begin(
            pilot,
            Exercise(Kind.SUM, sum_, Rung.NUMBER, 15, asked=Asked.CALLED, pace=0.2,
                     by_place=by_place),
        )  # fmt: skip
        to_the_answer(pilot)
        give_answer(pilot, sum_.result)
        assert screen.runner.attempts[-1].right
    pygame.mixer.quit()
    pilot.close()


# Told of at once, or at the end of a set


def test_no_replay_is_pushed_after_one_of_a_set(pilot):
    screen = begin(pilot, called(), count=2)
    to_the_answer(pilot)
    give_answer(pilot, screen.runner.work.exercise.sum.result + 1)
    while screen.runner.place.item == 0:
        assert screen.said == pilot.words.line("lesson.noted")
        assert not tick_is_seen(pilot)
        pilot.wait(0.1, 1)
        assert pilot.screen is screen
    assert screen.runner.stage is Stage.PRESENT


def test_a_single_sum_is_told_of_at_once_when_it_is_right(pilot, calling):
    to_the_answer(pilot)
    give_answer(pilot, 45)
    assert calling.runner.stage is Stage.DONE
    assert calling.said == pilot.words.line("lesson.right_answer", number=45)
    pilot.settle()
    pilot.repaint()
    assert tick_is_seen(pilot)
    pilot.wait(3, 15)
    assert pilot.screen is calling
    assert calling.runner.stage is Stage.END


def test_a_single_sum_that_is_not_right_is_told_of_at_once_and_its_way_is_seen(pilot, calling):
    to_the_answer(pilot)
    give_answer(pilot, 44)
    assert calling.runner.stage is Stage.REVEAL
    assert calling.said == pilot.words.line("outcome.wrong_answer", number=45)
    assert not tick_is_seen(pilot)
    pilot.wait(1.3, 10)
    assert isinstance(pilot.screen, ReplayScreen)
    pilot.press_word("lesson.go_on")
    assert pilot.screen is calling
    assert calling.runner.stage is Stage.END

"""Called numbers: heard, worked by ear, told of; shown where nothing can be heard."""

import pygame
from calls import called, to_the_answer, until_called, until_number
from pilot import Pilot
from robot import Heard, begin, give_answer, open_lesson, steps_at, tick_is_seen

from frame.course.runner import Stage
from frame.language.speech import RATE, Clips
from frame.learner.settings import Volume
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Asked, Rung
from frame.screens.choosing.home import Home
from frame.screens.lesson.replay import ReplayScreen
from frame.screens.lesson.results import ResultsScreen
from frame.screens.lesson.screen import LessonScreen
from frame.technique.beads import BeadMove
from frame.technique.expression import parse_sum

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
    place = pilot.screen.runner.position
    until_called(pilot)
    pilot.key(pygame.K_ESCAPE)
    open_lesson(pilot, lesson)
    assert (pilot.screen.runner.position, pilot.screen.runner.stage) == (place, Stage.PRESENT)


def test_a_call_of_the_most_digits_and_numbers_by_place(tmp_path):
    """Every number has its clips, one by one and place by place."""
    pilot = Pilot(tmp_path, (800, 480))
    pilot.welcome("Seal")
    pygame.mixer.init(RATE, -16, 1, 256, allowedchanges=0)
    heard = Heard()
    pilot.room.hear(heard)
    text = "9876543210987654 + 1234567890123456 - 8000000000000007"
    for by_place in (False, True):
        sum_ = parse_sum(text)
        screen = begin(
            pilot,
            Exercise(Kind.SUM, sum_, Rung.NUMBER, 17, asked=Asked.CALLED, pace=0.2,
                     by_place=by_place),
        )  # fmt: skip
        to_the_answer(pilot)
        give_answer(pilot, sum_.result)
        assert screen.runner.attempts[-1].right
        pilot.settle()
        kept = pilot.room.store.attempts(pilot.room.learner)
        assert kept[-1][1] == str(sum_)
    pygame.mixer.quit()
    pilot.close()


# Told of at once, or at the end of a set


def test_no_replay_is_pushed_after_one_of_a_set(pilot):
    screen = begin(pilot, called(), count=2)
    to_the_answer(pilot)
    give_answer(pilot, screen.runner.work.exercise.sum.result + 1)
    while screen.runner.position.item == 0:
        assert screen.guide.said == pilot.words.line("lesson.noted")
        assert not tick_is_seen(pilot)
        pilot.wait(0.1, 1)
        assert pilot.screen is screen
    assert screen.runner.stage is Stage.PRESENT


def test_a_single_sum_is_told_of_at_once_when_it_is_right(pilot, calling):
    to_the_answer(pilot)
    give_answer(pilot, 45)
    assert calling.runner.stage is Stage.DONE
    assert calling.guide.said == pilot.words.line("lesson.right_answer", number=45)
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
    assert calling.guide.said == pilot.words.line("outcome.wrong_answer", number=45)
    assert not tick_is_seen(pilot)
    pilot.wait(1.3, 10)
    assert isinstance(pilot.screen, ReplayScreen)
    pilot.press_word("lesson.go_on")
    assert pilot.screen is calling
    assert calling.runner.stage is Stage.END

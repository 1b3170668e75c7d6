"""Flashed numbers: nothing before Start, the window lent and given back, late runs not kept."""

import re
from time import perf_counter, sleep

import pygame
import pytest
from robot import DEAF, begin, give_answer, sets_asked, signs, until

from frame.course.runner import Stage
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Asked, Rung
from frame.screens.lesson.results import ResultsScreen
from frame.technique.expression import parse_sum
from frame.technique.reading import read
from frame.view.flash_safety import (
    FlashRefused,
    Glyphs,
    Numeral,
    flash_verdict,
    largest_height,
)

COLUMN = "3 + 4 + 2"


def flashed(text=COLUMN, pace=0.5, **more):
    return Exercise(Kind.SUM, parse_sum(text), Rung.NUMBER, 2, asked=Asked.FLASHED, pace=pace,
                    **more)  # fmt: skip


def runs(pilot):
    return pilot.room.store.flash_runs(pilot.room.learner)


@pytest.fixture
def late(monkeypatch, pilot):
    """The screen takes 0.1 s too long to show the second number, after the mark, the first one
    and the empty place."""
    shows, update = [], pygame.display.update

    def slowly(places=None):
        shows.extend([places] if isinstance(places, pygame.Rect) else [])
        pilot.clock += 0.1 if len(shows) == 4 and shows[-1] is places else 0.0
        update(places)

    monkeypatch.setattr(pygame.display, "update", slowly)


def test_nothing_flashes_until_somebody_starts_it(pilot, flashes):
    screen = begin(pilot, flashed())
    before = pilot.pixels()
    pilot.wait(120, 30)
    assert screen.runner.stage is Stage.PRESENT
    assert pilot.pixels() == before
    assert runs(pilot) == ()
    lines = pilot.lines()
    assert pilot.words.text("flash.ready") in lines
    assert not {"3", "4", "2"} & set(lines.split())


def test_the_numbers_are_shown_and_then_the_answer_is_waited_for(pilot, flashes):
    screen = begin(pilot, flashed())
    begun = pilot.clock
    pilot.press_word("flash.start")
    assert pilot.clock - begun > 3 * 0.5
    assert screen.runner.stage is Stage.ANSWER
    (run,) = runs(pilot)
    assert (run.count, run.interval, run.counts, run.stopped) == (3, 0.5, True, False)
    give_answer(pilot, 9)
    assert [attempt.unaided for attempt in screen.runner.attempts] == [True]


def test_what_the_screen_did_stands_quietly_where_the_sum_would_be(pilot, flashes, heard):
    screen = begin(pilot, flashed())
    pilot.press_word("flash.start")
    assert screen.guide.line == pilot.words.line("lesson.what_answer")
    told = pilot.words.text("flash.on_time", count=3, rate=2, limit=8)
    assert told in pilot.lines()
    assert told not in heard.said
    assert heard.said[-1] == screen.guide.line.speak


def test_the_window_is_painted_anew_when_it_is_given_back(pilot, flashes):
    begin(pilot, flashed())
    pilot.press_word("flash.start")
    seen = pilot.pixels()
    pilot.repaint()
    assert pilot.pixels() == seen


def test_a_run_on_the_real_clock(pilot):
    """Three numbers, a tenth of a second each: nothing is replaced."""
    pilot.seconds = perf_counter
    pilot.room.seconds = perf_counter
    screen = begin(pilot, flashed(pace=0.1))
    sleep(DEAF)
    begun = perf_counter()
    pilot.key(pygame.K_RETURN)
    assert perf_counter() - begun > 3 * 0.1 + 1
    (run,) = runs(pilot)
    assert all(shown >= asked for asked, shown in run.items if shown is not None)
    assert screen.runner.stage is Stage.ANSWER


def test_a_single_run_with_a_late_number_is_told_so_and_not_kept(pilot, flashes, late):
    screen = begin(pilot, flashed())
    pilot.press_word("flash.start")
    (run,) = runs(pilot)
    assert (run.counts, run.missed, run.stopped) == (False, 1, False)
    assert screen.guide.line == pilot.words.line("lesson.what_answer")
    assert pilot.words.text("flash.late", late=1, count=3, limit=8) in pilot.lines()
    give_answer(pilot, 9)
    assert screen.runner.attempts == []
    pilot.wait(3, 15)
    assert screen.runner.stage is Stage.END
    assert pilot.room.store.attempts(pilot.room.learner) == ()


def test_a_late_number_in_a_set_is_told_of_with_all_figures_in_the_results(pilot, flashes, late):
    screen = begin(pilot, flashed(), count=2)
    answers = flash_and_answer(pilot, 2)
    pilot.wait(3, 15)
    assert isinstance(pilot.screen, ResultsScreen)
    lines = pilot.lines()
    late_one = screen.runner.results[0].exercise.sum.result
    assert pilot.words.text("results.late", given=answers[0], right=late_one) in lines
    assert pilot.words.text("results.title", right=1, all=1) in lines
    for missed in (1, 0):
        assert re.search(figures(pilot.words, missed), lines)
    assert [str(one.exercise.sum.result) for one in screen.runner.attempts] == answers[1:]
    assert len(pilot.room.store.attempts(pilot.room.learner)) == 1


def figures(words, missed):
    """What the figures of a run look like, of which so many numbers came late."""
    text = words.text("flash.figures", rate="~", sd="~", worst="~", limit=8, missed=missed)
    return re.escape(text).replace("\\~", r"[\d.]+").replace("~", r"[\d.]+")


def flash_and_answer(pilot, count):
    """So many exercises of a set, answered rightly; what was typed."""
    screen, typed = pilot.screen, []
    for item in range(count):
        while screen.runner.position.item < item:
            pilot.wait(0.5, 2)
        pilot.press_word("flash.start")
        typed.append(str(screen.runner.work.exercise.sum.result))
        give_answer(pilot, typed[-1])
        assert screen.guide.said == pilot.words.line("lesson.noted")
    return typed


def test_escape_stops_it_and_it_can_be_started_again(pilot, flashes):
    screen = begin(pilot, flashed())
    start = next(b for b in screen.buttons if b.text == pilot.words.text("flash.start"))
    pygame.event.post(pygame.event.Event(pygame.KEYDOWN, key=pygame.K_ESCAPE, mod=0, unicode="",
                                         scancode=0))  # fmt: skip
    pilot.app.take(start.act())
    pilot.app.draw()
    assert pilot.screen is screen
    assert screen.runner.stage is Stage.PRESENT
    assert [run.stopped for run in runs(pilot)] == [True]
    assert pilot.words.text("flash.stopped") in pilot.lines()
    pilot.press_word("flash.start")
    assert screen.runner.stage is Stage.ANSWER
    give_answer(pilot, 9)
    assert screen.runner.attempts[-1].right


def test_leave_this_out_skips_the_set_and_nothing_is_kept(pilot):
    screen = begin(pilot, flashed(), count=1)
    pilot.press_word("flash.skip")
    assert screen.runner.stage is Stage.END
    assert screen.runner.attempts == []
    assert runs(pilot) == ()


def test_leave_this_out_after_some_tells_of_these_first(pilot, flashes):
    screen = begin(pilot, flashed(), count=3)
    answers = flash_and_answer(pilot, 2)
    while screen.runner.stage is not Stage.PRESENT:
        pilot.wait(0.5, 2)
    pilot.press_word("flash.skip")
    pilot.wait(0.5, 2)
    assert isinstance(pilot.screen, ResultsScreen)
    assert [str(work.given) for work in pilot.screen.results] == answers
    assert pilot.words.text("results.title", right=2, all=2) in pilot.lines()
    pilot.press_word("lesson.go_on")
    assert pilot.screen is screen
    assert screen.runner.stage is Stage.END
    assert len(pilot.room.store.attempts(pilot.room.learner)) == 2


def test_a_lesson_left_at_the_results_of_a_set_left_out_goes_on_behind_it(pilot, flashes):
    lesson, at = next(sets_asked(pilot.room.course, Asked.FLASHED))
    pilot.open(lesson, at)
    screen = pilot.screen
    flash_and_answer(pilot, 1)
    while screen.runner.stage is not Stage.PRESENT:
        pilot.wait(0.5, 2)
    pilot.press_word("flash.skip")
    pilot.wait(0.5, 2)
    assert isinstance(pilot.screen, ResultsScreen)
    assert pilot.room.lessons[lesson].position.step == at + 1


def test_leave_this_out_in_a_lesson_goes_on_behind_the_whole_set(pilot, flashes):
    pilot.open(*next(sets_asked(pilot.room.course, Asked.FLASHED)))
    screen = pilot.screen
    assert screen.runner.total > 1
    at = screen.runner.position.step
    pilot.press_word("flash.skip")
    assert screen.runner.position.step == at + 1
    assert screen.runner.attempts == []
    until(pilot, Stage.END)
    assert screen.runner.mastered


def test_the_keyboard_starts_it_and_leaves_it_out(pilot, flashes):
    screen = begin(pilot, flashed())
    pilot.wait_for_buttons()
    pilot.key(pygame.K_RETURN)
    assert screen.runner.stage is Stage.ANSWER
    pilot.wait_for_buttons()
    for code in (pygame.K_9, pygame.K_RETURN):
        pilot.key(code)
    assert screen.runner.attempts[-1].right


def test_no_beads_and_no_help_in_the_answer_but_a_frame_to_set_it_on(pilot, flashes):
    screen = begin(pilot, flashed())
    pilot.press_word("flash.start")
    assert "eye" not in signs(screen)
    pilot.press_word("lesson.set_answer")
    assert set(screen.field.frame.digits) == {"0"}


def test_a_press_where_start_has_just_come_up_starts_nothing(pilot, flashes):
    screen = begin(pilot, flashed())
    start = next(one for one in screen.buttons if one.text == pilot.words.text("flash.start"))
    pilot.tap(start.place.center)
    assert screen.runner.stage is Stage.PRESENT
    assert runs(pilot) == ()
    pilot.clock += DEAF
    pilot.tap(start.place.center)
    assert screen.runner.stage is Stage.ANSWER


def test_after_the_numbers_there_is_an_empty_card_until_the_answer_is_given(pilot, flashes):
    screen = begin(pilot, flashed())
    pilot.press_word("flash.start")
    place = screen.field.box
    on_card = {line for line, at in pilot.repaint() if place.contains(at)}
    assert not screen.guide.sight.has_field
    assert not {"3", "4", "2", "9"} & on_card
    give_answer(pilot, 9)
    pilot.settle()
    assert screen.guide.sight.has_field
    assert read(screen.field.frame) == 9


def test_an_answer_typed_too_early_reaches_the_answer(pilot, flashes, monkeypatch):
    """Keys that come while the window fades back belong to the answer."""
    screen = begin(pilot, flashed())
    sleep, end = pilot.sleep, 0.5 + 1 + 3 * 0.5 + 0.4
    begun, posted = pilot.clock, []

    def note(seconds):
        if not posted and pilot.clock - begun > end:
            posted.append(True)
            pygame.event.post(pygame.event.Event(pygame.KEYDOWN, key=pygame.K_9, mod=0,
                                                 unicode="", scancode=0))  # fmt: skip
        return sleep(seconds)

    monkeypatch.setattr("frame.view.flash_stage.next_events", note)
    pilot.press_word("flash.start")
    pilot.app.turn(0)
    assert posted
    assert screen.guide.answer.typed == "9"


def test_what_may_not_be_shown_is_refused_with_the_size_and_the_rate_allowed(pilot):
    screen = begin(pilot, flashed())
    size = screen.size
    numeral = Numeral(3, False, Glyphs(0.8, 0.8))
    colours = {"inks": [(255, 255, 255)], "ground": (0, 0, 0)}
    verdict = flash_verdict(0.1, numeral, size[1], size, **colours)
    screen.resumed(FlashRefused(verdict))
    assert screen.runner.stage is Stage.PRESENT
    largest = largest_height(numeral, size)
    assert f"{largest} pixels" in screen.guide.said.show and "3 a second" in screen.guide.said.show
    assert screen.guide.said.show in pilot.lines()
    assert runs(pilot) == ()

"""Tapping in the window: a bead is lit until it is moved, nobody is hurried, and it is seldom
offered."""

from contextlib import closing
from itertools import product

import pygame
import pytest
from flash_meter import field_of_reference, metered
from kept import added
from proofs import some_daily
from robot import Heard, do_right
from tapper import tap, tap_by_key, tap_to_the_end, until_lit
from test_today_screen import learn, texts, to_the_end

from frame.app import Push
from frame.learner.settings import Age
from frame.learner.store import Store
from frame.practice.pace import AFTER, PAUSE
from frame.screens.choosing.home import Home
from frame.screens.lesson.tapping import TappingScreen
from frame.screens.lesson.today import TodayScreen
from frame.technique.beads import BeadMove
from frame.view.widgets import Style

DAY = 86_400


def begin(pilot):
    pilot.app.take(Push(TappingScreen(pilot.room)))
    pilot.app.draw()
    return pilot.screen


def paces(pilot):
    with closing(Store(pilot.room.store.path)) as disk:
        return [one.pace for one in disk.tappings(pilot.room.learner)]


def have_practised(pilot, attempts=AFTER):
    """So many attempts are kept."""
    pilot.room.store.count_attempts = lambda learner: attempts


def end_of_today(pilot):
    learn(pilot, 3)
    pilot.press("today")
    to_the_end(pilot)
    return pilot.screen


def is_offered(pilot):
    return pilot.words.text("tapping.offer") in texts(pilot.screen)


# What tapping is


PACES = list(product([0.3, 0.7, 1.4], [tap, tap_by_key]))
SOME_PACES = [(0.3, tap), (0.7, tap_by_key), (1.4, tap)]


@pytest.mark.parametrize(("seconds", "by"), some_daily(PACES, SOME_PACES, several=True))
def test_half_a_minute_of_taps_gives_the_pace_of_the_hand(pilot, by, seconds):
    begin(pilot)
    count = tap_to_the_end(pilot, seconds, by)
    assert count == pytest.approx(30 / seconds, abs=2)
    assert paces(pilot) == [pytest.approx(seconds, abs=0.05)]


def test_with_motion_reduced_it_is_the_same(pilot):
    pilot.room.set(reduced_motion=True)
    begin(pilot)
    tap_to_the_end(pilot, 0.5)
    assert paces(pilot) == [pytest.approx(0.5, abs=0.05)]


def test_one_bead_is_lit_and_another_one_only_when_that_was_moved(pilot):
    screen, seen = begin(pilot), set()
    for at in range(40):
        lit = until_lit(pilot)
        assert screen.field.hints == (lit,) and lit.beads == 1 and screen.field.frame.can(lit)
        pilot.wait(90 if at == 5 else 0.1, 30)
        assert screen.lit == lit
        before = screen.field.frame
        pilot.move(lit)
        assert screen.field.frame == before.apply(lit)
        assert until_lit(pilot) != lit.inverse
        seen.add(lit)
    assert {one.rod for one in seen} == {0, 1, 2}
    assert {one.change for one in seen} >= {1, -1, 5}


def test_no_clock_is_seen_and_nothing_changes_by_itself(pilot):
    begin(pilot)
    tap(pilot, 0.5)
    until_lit(pilot)
    pilot.settle()
    before = pilot.pixels()
    pilot.wait(200, 50)
    pilot.repaint()
    assert pilot.pixels() == before
    assert not any(sign.isdigit() for sign in pilot.lines())


HANDS = list(product([0.09, 0.16, 0.3], [False, True]))
QUICKEST = [(0.09, False), (0.09, True), (0.16, False)]


@pytest.mark.parametrize(("seconds", "reduced"), some_daily(HANDS, QUICKEST, several=True))
def test_the_quickest_hand_makes_nothing_flash(pilot, reduced, seconds):
    pilot.room.set(reduced_motion=reduced)
    screen, pictures, onsets = begin(pilot), [], []
    began = pilot.clock
    while pilot.clock < began + 3:
        tap(pilot, seconds)
        while True:
            pilot.app.draw()
            box = pilot.app.window.subsurface(screen.field.box.inflate(20, 20))
            pictures.append(pygame.surfarray.array3d(box).swapaxes(0, 1))
            onsets.append(pilot.clock)
            if screen.lit is not None:
                break
            pilot.wait(0.03, 1)
    assert len(pictures) > 10
    field = field_of_reference(pilot.app.window.get_height())
    assert not metered(onsets, pictures, field).too_much


def test_a_pause_among_the_taps_and_another_window_tell_nothing(pilot):
    begin(pilot)
    for at in range(200):
        tap(pilot, 50.0 if at % 9 == 3 else 0.4)
        if at % 7 == 0:
            until_lit(pilot)
            pilot.post(pygame.WINDOWFOCUSLOST)
            pilot.clock += 1000
        if pilot.screen.is_over:
            break
    assert paces(pilot) == [pytest.approx(0.4, abs=0.05)]


def test_another_bead_glides_back_without_blame_and_its_time_does_not_count(pilot):
    screen = begin(pilot)
    tap(pilot, 0.5)
    lit = until_lit(pilot)
    before, taps = screen.field.frame, list(screen.taps)
    other = next(
        move for rod in range(3) for change in (1, 5)
        if (move := BeadMove(rod, change)) != lit and before.can(move)
    )  # fmt: skip
    pilot.move(other)
    pilot.settle()
    assert screen.field.frame == before and screen.lit == lit
    pilot.clock += 9
    pilot.move(lit)
    assert screen.taps == taps
    tap(pilot, 0.5)
    assert len(screen.taps) == len(taps) + 1


def test_a_hand_that_pauses_all_the_time_gives_none_and_is_thanked_all_the_same(pilot):
    begin(pilot)
    tap_to_the_end(pilot, 2 * PAUSE)
    assert paces(pilot) == []
    pilot.repaint()
    assert pilot.words.text("tapping.thanks") in pilot.lines()


@pytest.mark.parametrize("taps", [0, 1, 30])
def test_it_can_be_left_at_any_moment_and_then_nothing_is_kept(pilot, taps):
    home = pilot.screen
    begin(pilot)
    for _ in range(taps):
        tap(pilot, 0.3)
    pilot.key(pygame.K_ESCAPE)
    assert pilot.screen is home
    assert paces(pilot) == []


def test_what_there_is_to_do_and_the_thanks_are_spoken(pilot):
    pilot.room.hear(heard := Heard())
    begin(pilot)
    assert heard.said == [pilot.words.line("tapping.begin").speak]
    tap_to_the_end(pilot)
    assert heard.said[-1] == pilot.words.line("tapping.thanks").speak
    pilot.key(pygame.K_RETURN)
    assert isinstance(pilot.screen, Home)


# When it is offered


@pytest.mark.parametrize("age", Age)
@pytest.mark.parametrize("attempts", [AFTER - 1, AFTER])
def test_it_is_a_quiet_button_at_the_end_of_today_from_seven_on(pilot, age, attempts):
    pilot.room.set(age=age)
    have_practised(pilot, attempts)
    end_of_today(pilot)
    may = age is not Age.YOUNG and attempts == AFTER
    assert is_offered(pilot) is may
    assert texts(pilot.screen, Style.MAIN) == [pilot.words.text("lesson.leave")]
    assert paces(pilot) == ([None] if may else [])


def test_before_the_end_it_is_not_offered(pilot):
    have_practised(pilot)
    learn(pilot, 3)
    pilot.press("today")
    for _ in range(20):
        assert not is_offered(pilot)
        do_right(pilot)
    pilot.key(pygame.K_ESCAPE)
    assert paces(pilot) == []


def test_from_there_it_is_begun_and_leads_back_and_is_then_not_offered(pilot):
    have_practised(pilot)
    today = end_of_today(pilot)
    pilot.press_word("tapping.offer")
    tap_to_the_end(pilot, 0.5)
    pilot.press_word("lesson.leave")
    assert pilot.screen is today and isinstance(today, TodayScreen)
    assert not is_offered(pilot)
    assert paces(pilot) == [None, pytest.approx(0.5, abs=0.05)]


@pytest.mark.parametrize("begun", [True, False])
@pytest.mark.parametrize(
    ("days", "again"), [pytest.param(0, False, marks=pytest.mark.proof), (6, False), (8, True)]
)
def test_who_left_it_or_left_it_out_is_not_asked_within_a_week(pilot, begun, days, again):
    have_practised(pilot)
    end_of_today(pilot)
    if begun:
        pilot.press_word("tapping.offer")
        tap(pilot, 0.5)
        pilot.key(pygame.K_ESCAPE)
    pilot.press_word("lesson.leave")
    pilot.clock += days * DAY
    end_of_today(pilot)
    assert is_offered(pilot) is again


@pytest.mark.parametrize(("days", "again"), [(8, False), (59, False), (61, True)])
def test_who_tapped_is_asked_again_after_two_months(pilot, days, again):
    have_practised(pilot)
    begin(pilot)
    tap_to_the_end(pilot, 0.5)
    pilot.key(pygame.K_ESCAPE)
    pilot.clock += days * DAY
    end_of_today(pilot)
    assert is_offered(pilot) is again


def test_what_was_done_before_is_not_told_by_the_new_pace(pilot):
    end_of_today(pilot)
    pilot.press_word("lesson.leave")
    before = pilot.room.mastery.copy()
    begin(pilot)
    tap_to_the_end(pilot, 2.5)
    assert pilot.room.mastery == before


def test_the_pace_of_another_learner_is_theirs(pilot):
    begin(pilot)
    tap_to_the_end(pilot, 0.5)
    other = added(pilot.room.store, "Seal")
    assert pilot.room.store.tappings(other) == ()

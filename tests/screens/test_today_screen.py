"""Today's set in the window: offered where something is known, worked, and over by itself."""

from contextlib import closing

import pygame
import pytest
from proofs import some_daily
from robot import do_right

from frame.course.attempts import Origin, Position
from frame.course.runner import Stage
from frame.learner.settings import Age
from frame.learner.store import LessonState, Store
from frame.practice.families import Family
from frame.practice.ladder import Try
from frame.practice.rungs import Asked, Rung
from frame.screens.choosing.home import Home
from frame.screens.lesson.screen import LessonScreen
from frame.screens.lesson.today import TodayScreen, begin_today
from frame.view.flash_safety import SAFE_RATE
from frame.view.widgets import Style


def learn(pilot, lessons):
    """So many lessons done, with nothing kept of them."""
    for entry in pilot.room.course.lessons[:lessons]:
        pilot.room.lessons[entry.id] = LessonState(1, Position(), True, True)
    pilot.screen.rearrange()


def texts(screen, style=None):
    return [one.text for one in screen.buttons if style in (None, one.style)]


def exercises(screen):
    return [str(one.exercise) for one in screen.today.exercises]


def to_the_end(pilot):
    for _ in range(5000):
        if pilot.screen.runner.stage is Stage.END:
            return
        do_right(pilot)
    raise AssertionError("no end")


@pytest.mark.parametrize("lessons", [0, 1, 30, 85])
def test_it_is_the_main_thing_where_something_is_known(pilot, lessons):
    learn(pilot, lessons)
    today = pilot.words.text("today.title")
    assert (today in texts(pilot.screen)) is bool(lessons)
    assert (texts(pilot.screen, Style.MAIN) == [today]) is bool(lessons)
    assert len(texts(pilot.screen, Style.MAIN)) == 1


@pytest.mark.parametrize("age", Age)
def test_it_is_over_by_itself_with_what_went_well_and_the_lesson_comes_next(pilot, age):
    pilot.room.set(age=age)
    learn(pilot, 12)
    pilot.press("today")
    planned = len(exercises(pilot.screen))
    to_the_end(pilot)
    screen = pilot.screen
    assert len(screen.done) == len(screen.runner.attempts) == planned
    pilot.repaint()
    assert pilot.words.text("today.enough") in pilot.lines()
    assert "went well" in pilot.lines()
    assert texts(screen) == ["", pilot.words.text("lesson.leave")] or len(texts(screen)) <= 3
    pilot.press_word("lesson.leave")
    assert isinstance(pilot.screen, Home)
    assert texts(pilot.screen, Style.MAIN) != [pilot.words.text("today.title")]


def test_what_is_done_is_kept_as_todays_and_each_item_is_known_better(pilot):
    learn(pilot, 20)
    pilot.press("today")
    to_the_end(pilot)
    pilot.wait(0.5)
    with closing(Store(pilot.room.store.path)) as disk:
        past = disk.past(pilot.room.learner)
    assert {one.origin for one in past} == {Origin.TODAY}
    assert len(past) == len(pilot.screen.done)
    assert pilot.room.mastery.standings
    assert pilot.room.mastery != pilot.screen.before


def test_the_same_day_has_the_same_set_until_something_is_done(pilot):
    learn(pilot, 20)
    one, other = begin_today(pilot.room), begin_today(pilot.room)
    assert exercises(one) == exercises(other)
    pilot.clock += 86_400
    assert exercises(begin_today(pilot.room)) != exercises(one)


def test_nothing_that_was_done_comes_back_and_no_step_leads_back(pilot):
    learn(pilot, 20)
    pilot.press("today")
    for _ in range(60):
        assert not pilot.screen.runner.can_step_back
        do_right(pilot)


def test_after_two_misses_something_surer_comes(pilot):
    learn(pilot, 20)
    pilot.press("today")
    screen, wrong = pilot.screen, 0
    assert isinstance(screen, TodayScreen)
    while len(screen.done) < 2:
        work = screen.runner.work
        if work and screen.runner.stage is Stage.WORK and not work.helps:
            screen.show_me()
            wrong += bool(work.helps)
        elif work and screen.runner.stage is Stage.ANSWER and not work.slips:
            screen.guide.answer.typed = "99"
            screen.give_answer()
            wrong += bool(work.slips)
        do_right(pilot)
    assert [one.right for one in screen.done] == [False, False] and wrong >= 2
    coming, planned = screen.today.next(screen.done), screen.today.exercises[2]
    assert coming != planned
    assert coming.success >= planned.success or coming == planned.easier


def test_who_leaves_keeps_what_was_done_and_is_told_no_blame(pilot):
    learn(pilot, 20)
    pilot.press("today")
    while len(pilot.screen.done) < 3:
        do_right(pilot)
    pilot.key(pygame.K_ESCAPE)
    assert isinstance(pilot.screen, Home) and not isinstance(pilot.screen, LessonScreen)
    with closing(Store(pilot.room.store.path)) as disk:
        assert len([one for one in disk.past(pilot.room.learner) if one.ended]) >= 3


@pytest.mark.parametrize("days", some_daily([0, 1, 9, 40], [1, 9]))
def test_after_a_while_away_it_is_shorter(pilot, days):
    learn(pilot, 20)
    pilot.press("today")
    to_the_end(pilot)
    pilot.press_word("lesson.leave")
    usual = begin_today(pilot.room).today.minutes
    pilot.clock += 86_400 * days
    later = begin_today(pilot.room).today
    assert (later.minutes < usual) is (days > 1)


@pytest.mark.parametrize("own", [False, True])
def test_called_and_flashed_numbers_come_once_they_were_asked_for_and_are_worked_to_the_end(
    pilot, flashes, own
):
    learn(pilot, 60)
    assert ways(begin_today(pilot.room)) == {Asked.SHOWN}
    for asked in (Asked.CALLED, Asked.FLASHED):
        pilot.room.ladder.add(
            Try(Family.ADD_DIRECT, 2, Rung.NUMBER, True, 0, 5.0, frozenset(), asked, own, 1, 3, 3.0)
        )
    pilot.press("today")
    assert ways(pilot.screen) == set(Asked)
    to_the_end(pilot)
    assert {one.exercise.asked for one in pilot.screen.runner.attempts} == set(Asked)
    aloud = [one for one in pilot.screen.runner.attempts if one.exercise.asked is not Asked.SHOWN]
    assert {one.exercise.own for one in aloud} == {own}
    (run,) = pilot.room.store.flash_runs(pilot.room.learner)
    assert run.interval * SAFE_RATE >= 1


def test_what_is_not_to_be_flashed_is_left_out_and_the_rest_comes_once_each(pilot, flashes):
    learn(pilot, 20)
    flashed = Try(
        *(Family.ADD_DIRECT, 2, Rung.NUMBER, True, 0, 5.0, frozenset(), Asked.FLASHED),
        *(False, 1, 3, 3.0),
    )
    pilot.room.ladder.add(flashed)
    pilot.press("today")
    screen, came = pilot.screen, []
    planned = exercises(screen)
    while screen.runner.stage is not Stage.END:
        work = screen.runner.work
        if work is not None and (not came or came[-1] is not work):
            came.append(work)
        is_flashed = work is not None and work.exercise.asked is Asked.FLASHED
        if is_flashed and screen.runner.stage is Stage.PRESENT:
            pilot.wait_for_buttons()
            assert screen.runner.work is work, "nothing flashes that nobody starts"
            pilot.press_word("flash.skip")
        else:
            do_right(pilot)
    assert [str(one.exercise) for one in came] == planned
    assert len(screen.done) == len(screen.runner.attempts) == len(planned) - 1
    assert pilot.words.text("today.enough") in pilot.lines()
    assert pilot.room.today_done == pilot.now().date()


def ways(screen):
    return {one.exercise.asked for one in screen.today.exercises}


@pytest.mark.parametrize(("age", "usual"), [(Age.YOUNG, 5), (Age.MIDDLE, 10), (Age.OLDER, 15)])
def test_it_is_as_long_as_is_usual_for_the_age_or_as_is_set(pilot, age, usual):
    pilot.room.set(age=age)
    learn(pilot, 30)
    assert begin_today(pilot.room).today.minutes == usual
    counts = []
    for minutes in (5, 10, 15, 20):
        pilot.room.set(today_minutes=minutes)
        today = begin_today(pilot.room).today
        assert today.minutes == minutes
        counts.append(len(today.exercises))
    assert counts == sorted(set(counts))


def work_some(pilot, count):
    """So many exercises of the set, and the next one just come up."""
    for _ in range(2000):
        if len(pilot.screen.done) == count and pilot.screen.runner.stage is not Stage.DONE:
            return
        do_right(pilot)
    raise AssertionError("no end")


def test_a_set_that_was_left_goes_on_where_it_was_and_the_next_day_it_is_another(pilot):
    learn(pilot, 30)
    pilot.press("today")
    whole = exercises(pilot.screen)
    work_some(pilot, 3)
    asked, position = str(pilot.screen.runner.work.exercise), pilot.screen.runner.position
    pilot.press("back")
    pilot.press("today")
    assert pilot.screen.runner.position == position
    assert str(pilot.screen.runner.work.exercise) == asked
    assert exercises(pilot.screen) == whole
    to_the_end(pilot)
    assert len(pilot.screen.done) == len(whole)
    pilot.press_word("lesson.leave")
    assert pilot.room.today_left is None


def test_a_pause_uses_up_no_minutes_of_the_set_whether_it_is_left_or_not(pilot):
    learn(pilot, 30)
    pilot.press("today")
    whole = exercises(pilot.screen)
    for done, seconds in enumerate((10, 3600, 10, 900), 1):
        pilot.wait(seconds, 10)
        work_some(pilot, done)
        asked = str(pilot.screen.runner.work.exercise)
        assert asked != whole[-1]
        pilot.press("back")
        pilot.press("today")
        assert exercises(pilot.screen) == whole and len(pilot.screen.done) == done
        assert str(pilot.screen.runner.work.exercise) == asked


def test_time_at_work_uses_up_the_minutes_of_the_set(pilot):
    learn(pilot, 30)
    pilot.press("today")
    for _ in range(11 * 2):
        pilot.wait(30, 2)
        pilot.key(pygame.K_LEFT)
    work_some(pilot, 1)
    assert str(pilot.screen.runner.work.exercise) == exercises(pilot.screen)[-1]


@pytest.mark.parametrize("before", [0, 2])
def test_what_was_done_when_a_set_is_left_is_not_asked_again(pilot, before):
    learn(pilot, 30)
    pilot.press("today")
    work_some(pilot, before)
    whole = exercises(pilot.screen)
    while pilot.screen.runner.stage is not Stage.DONE:
        do_right(pilot)
    pilot.key(pygame.K_ESCAPE)
    pilot.press("today")
    assert exercises(pilot.screen) == whole and len(pilot.screen.done) == before + 1


def test_a_set_left_after_its_last_exercise_is_over(pilot):
    learn(pilot, 30)
    pilot.room.set(today_minutes=5)
    pilot.press("today")
    work_some(pilot, len(exercises(pilot.screen)) - 1)
    while pilot.screen.runner.stage is not Stage.DONE:
        do_right(pilot)
    pilot.key(pygame.K_ESCAPE)
    assert pilot.room.today_left is None
    assert texts(pilot.screen, Style.MAIN) != [pilot.words.text("today.title")]


def test_home_says_that_a_set_goes_on(pilot):
    learn(pilot, 30)
    today = pilot.words.text("today.title")
    going_on = pilot.words.text("home.go_on", title=today)
    pilot.press("today")
    work_some(pilot, 2)
    pilot.press("back")
    assert texts(pilot.screen, Style.MAIN) == [going_on]
    assert pilot.screen.greeting.speak == going_on
    pilot.clock += 24 * 3600
    pilot.screen.rearrange()
    assert texts(pilot.screen, Style.MAIN) == [today]


@pytest.mark.parametrize(
    ("minutes", "used", "left"), [(20, 240, 16.0), (5, 240, 1.0), (5, 600, 0.0), (10, 240, 10.0)]
)
def test_minutes_changed_half_way_leave_what_is_left_of_them(pilot, minutes, used, left):
    learn(pilot, 30)
    pilot.press("today")
    work_some(pilot, 1)
    for _ in range(used // 30):
        pilot.wait(30, 2)
        pilot.key(pygame.K_LEFT)
    work_some(pilot, 2)
    pilot.press("back")
    taken = sum(one.seconds for one in pilot.room.today_left.done)
    pilot.room.set(today_minutes=minutes)
    pilot.press("today")
    asked = pilot.screen.today.minutes
    assert asked == pytest.approx(max(0.0, minutes - taken / 60) if minutes != 10 else 10)
    assert asked == pytest.approx(left, abs=1.5)
    to_the_end(pilot)
    pilot.press_word("lesson.leave")
    assert pilot.room.today_done == pilot.room.now().date()


def test_a_set_left_yesterday_is_not_gone_on_with(pilot):
    learn(pilot, 30)
    pilot.press("today")
    work_some(pilot, 2)
    pilot.press("back")
    assert pilot.room.today_left is not None
    pilot.clock += 24 * 3600
    pilot.press("today")
    assert pilot.screen.done == []


def test_a_set_of_which_nothing_was_done_is_made_anew(pilot):
    learn(pilot, 30)
    pilot.press("today")
    pilot.press("back")
    assert pilot.room.today_left is None


def test_whoever_comes_next_has_a_set_of_their_own(pilot):
    learn(pilot, 30)
    pilot.press("today")
    work_some(pilot, 2)
    for _ in range(2):
        pilot.key(pygame.K_ESCAPE)
    pilot.seat("Seal")
    assert pilot.room.today_left is None

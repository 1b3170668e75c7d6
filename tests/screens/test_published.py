"""Published runs: chosen beside our own levels, worked as published, with the mark beside them."""

import pytest
from robot import do_right, give_answer, let_numbers_come, until

from frame.course.runner import Stage
from frame.language.printed import printed
from frame.practice.choices import SHORT_SET
from frame.practice.rungs import Asked
from frame.screens.choosing.all_choices import AllChoices
from frame.screens.choosing.published import Published
from frame.screens.lesson.results import ResultsScreen
from frame.screens.lesson.run import RunScreen
from frame.sheets.runs import published_runs

RUNS = published_runs()
TITLES = {Asked.CALLED: "practise.called", Asked.FLASHED: "practise.flashed"}


def open_published(pilot, asked, quick=True):
    """The page of published runs, by the way of practice."""
    pilot.room.set(all_open=True, quick_flash=quick)
    pilot.press_word("home.practise")
    pilot.press_word("practise.more")
    pilot.press_word(TITLES[asked])
    pilot.press_word("published.open")
    assert isinstance(pilot.screen, Published)
    return pilot.screen


def start(pilot):
    pilot.press_word("practise.start")
    assert isinstance(pilot.screen, RunScreen)
    return pilot.screen


def work_all(pilot, wrong=0):
    """All rounds, the first ones with another answer."""
    screen, worked = pilot.screen, []
    for at in range(screen.runner.total):
        until(pilot, Stage.ANSWER)
        result = screen.runner.work.exercise.sum.result
        give_answer(pilot, result + (at < wrong))
        worked.append(screen.runner.work)
        pilot.wait(3, 15)
    assert isinstance(pilot.screen, ResultsScreen)
    return worked


def test_nothing_is_published_of_numbers_that_are_shown(pilot):
    pilot.room.set(all_open=True)
    pilot.press_word("home.practise")
    pilot.press_word("practise.more")
    pilot.press_word("practise.beads")
    assert pilot.words.text("published.open") not in [one.text for one in pilot.screen.buttons]


@pytest.mark.parametrize("run", RUNS.values(), ids=lambda run: run.id)
def test_each_run_tells_where_it_is_from(pilot, run):
    screen = open_published(pilot, run.asked)
    if len(screen.runs) > 1:
        pilot.press_word(f"published.name.{run.id}")
    assert screen.run is run
    assert run.source in pilot.lines()


@pytest.mark.parametrize(("wrong", "right", "is_reached"), [(0, 10, True), (2, 8, True),
                                                            (3, 7, False)])  # fmt: skip
def test_the_flashed_level_with_the_mark_beside_what_was_right(
    pilot, flashes, wrong, right, is_reached
):
    open_published(pilot, Asked.FLASHED)
    start(pilot)
    worked = work_all(pilot, wrong)
    assert {one.exercise.pace for one in worked} == {0.2}
    assert {len(one.exercise.sum.terms) for one in worked} == {15}
    lines = pilot.lines()
    assert pilot.words.text("results.title", right=right, all=10) in lines
    assert pilot.words.text("published.mark", right=8, tries=10) in lines
    assert (pilot.words.text("published.reached") in lines) is is_reached


def test_the_results_of_many_rounds_are_turned(pilot, flashes):
    open_published(pilot, Asked.FLASHED)
    start(pilot)
    worked = work_all(pilot)
    results = [printed(one.exercise.sum.result) for one in worked]
    first = pilot.lines()
    pilot.press("step_on")
    second = pilot.lines()
    assert [one in first for one in results] == [True] * 5 + [False] * 5
    assert [one in second for one in results] == [False] * 5 + [True] * 5


def test_what_is_too_quick_for_this_computer_is_said_and_slower_numbers_are_offered(
    pilot, flashes, heard
):
    screen = open_published(pilot, Asked.FLASHED, quick=False)
    assert screen.is_held
    assert screen.held.show in pilot.lines()
    assert screen.held.speak in heard.said[-1]
    pilot.press(pilot.words.text("published.start_slower", seconds=5))
    worked = work_all(pilot)
    assert all(one.exercise.pace * 3 >= 1 - 1e-9 for one in worked)
    lines = pilot.lines()
    assert pilot.words.text("published.slower") in lines
    assert pilot.words.text("published.mark", right=8, tries=10) not in lines


def test_a_called_run_on_the_frame_is_worked_as_it_is_called(pilot):
    screen = open_published(pilot, Asked.CALLED)
    assert screen.run is RUNS["called-beads"]
    run = start(pilot)
    assert run.guide.sight.has_field
    assert run.runner.total == SHORT_SET
    assert len(run.runner.frame.digits) == 17
    let_numbers_come(pilot)
    until(pilot, Stage.ANSWER)
    assert run.runner.takes_touches


def test_a_called_run_in_the_mind_has_no_frame(pilot):
    open_published(pilot, Asked.CALLED)
    pilot.press_word("published.name.called-mind")
    assert pilot.words.text("practise.own") not in [one.text for one in pilot.screen.buttons]
    run = start(pilot)
    assert not run.guide.sight.has_field
    work_all(pilot)
    assert pilot.words.text("published.slower") not in pilot.lines()


def test_a_run_on_ones_own_frame(pilot):
    open_published(pilot, Asked.CALLED)
    pilot.press_word("practise.own")
    run = start(pilot)
    assert not run.guide.sight.has_field
    assert run.runner.work.exercise.own


def test_a_run_that_is_over_or_left_leads_back_to_its_page(pilot, flashes):
    screen = open_published(pilot, Asked.FLASHED)
    run = start(pilot)
    until(pilot, Stage.ANSWER)
    give_answer(pilot, run.runner.work.exercise.sum.result)
    run.keeping.keep()
    pilot.press("back")
    assert pilot.screen is screen
    assert pilot.words.text("practise.left", worked=1, right=1) in pilot.lines()
    pilot.press("back")
    assert isinstance(pilot.screen, AllChoices)


def test_no_rank_stands_at_the_end(pilot, flashes):
    open_published(pilot, Asked.FLASHED)
    run = start(pilot)
    work_all(pilot)
    rank = pilot.words.text("published.name.flashed-dan-10")
    assert rank not in pilot.lines()
    while run.runner.stage is not Stage.END:
        do_right(pilot)
    assert rank not in pilot.lines()


def test_once_more_is_the_same_run_with_other_numbers(pilot, flashes):
    open_published(pilot, Asked.FLASHED)
    first = start(pilot)
    worked = work_all(pilot)
    while first.runner.stage is not Stage.END:
        do_right(pilot)
    pilot.press_word("lesson.again")
    assert isinstance(pilot.screen, RunScreen)
    assert pilot.screen.rounds == first.rounds
    assert pilot.screen.runner.work.exercise.sum != worked[0].exercise.sum

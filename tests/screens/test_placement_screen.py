"""Placement in the window: offered, worked without marks, over by itself, left at any moment."""

from contextlib import closing

import pygame
import pytest
from proofs import some_daily
from robot import do_right, tick_is_seen, wrong_moves

from frame.course.attempts import Origin, Position
from frame.course.quiet import SLIPS, forgiven, is_spent
from frame.course.stages import Stage
from frame.learner.settings import Age
from frame.learner.store import LessonState, Store
from frame.practice.asking import MOST_SECONDS
from frame.practice.exercises import Kind
from frame.practice.flashing import FlashReport
from frame.practice.imagining import Found
from frame.practice.rungs import Asked
from frame.practice.today import Because
from frame.screens.choosing.home import Home
from frame.screens.choosing.placed import PlacedPage
from frame.screens.choosing.practise import PractiseScreen
from frame.screens.lesson.imagining import ImaginingScreen
from frame.screens.lesson.placement import PlacementScreen
from frame.screens.lesson.screen import LessonScreen
from frame.screens.lesson.today import begin_today
from frame.view.widgets import Style


def begin(pilot):
    pilot.press_word("placement.offer")
    assert isinstance(pilot.screen, PlacementScreen)
    pilot.press_word("lesson.go_on")
    pilot.settle()
    return pilot.screen


def taught(pilot, lessons):
    return frozenset(fact for one in pilot.room.course.lessons[:lessons] for fact in one.new)


def work_on(pilot, known, seconds=6.0):
    """Work what is known, pass by what is new, until something else is on the screen."""
    screen, items = pilot.screen, []
    for _ in range(4000):
        if pilot.screen is not screen:
            return items
        work = screen.runner.work
        if work is not None and (not items or items[-1] is not work):
            items.append(work)
            pilot.clock += seconds
        is_open = screen.runner.stage in (Stage.WORK, Stage.ANSWER)
        if is_open and work is not None and not work.exercise.facts <= known:
            pilot.settle()
            pilot.press("pass")
        else:
            do_right(pilot)
    raise AssertionError("no end")


def slip(pilot):
    screen = pilot.screen
    if screen.runner.stage is Stage.ANSWER:
        right = screen.runner.work.exercise.sum.result
        screen.guide.answer.typed = str(int(right) + 1)
        screen.give_answer()
    else:
        screen.touch((wrong_moves(screen)[0],))


def units(pilot):
    return [one.id for one in pilot.room.course.units]


def unit_of(pilot, lesson):
    return units(pilot).index(pilot.room.course.by_id[lesson].unit)


@pytest.mark.parametrize(
    ("lessons", "age"),
    some_daily(
        [(0, "4–6"), (7, "4–6"), (24, "7–9"), (58, "10+")],
        [(0, "4–6"), (7, "4–6"), (24, "7–9")],
        several=True,
    ),
)
def test_who_knows_the_first_lessons_is_sent_on_to_the_next(pilot, lessons, age):
    pilot.room.set(age={"4–6": Age.YOUNG, "7–9": Age.MIDDLE, "10+": Age.OLDER}[age])
    begin(pilot)
    work_on(pilot, taught(pilot, lessons))
    page = pilot.screen
    assert isinstance(page, PlacedPage)
    wanted = pilot.room.course.lessons[lessons]
    assert abs(unit_of(pilot, page.result.lesson) - unit_of(pilot, wanted.id)) <= 1
    main = [one for one in page.buttons if one.style is Style.MAIN]
    assert [one.text for one in main] == [pilot.words.text("home.start", title=page.title)]
    assert bool(page.claims) is (age != "4–6" and bool(page.result.families))
    assert all(claim.show[-1].isdigit() for claim in page.claims), "each has its count"


def test_what_is_known_is_kept_and_opens_all_before_and_the_lesson_is_one_press_away(pilot):
    begin(pilot)
    work_on(pilot, taught(pilot, 24))
    result = pilot.screen.result
    assert result.known and result.lesson == "ten-add-1"
    with closing(Store(pilot.room.store.path)) as disk:
        kept = disk.lessons(pilot.room.learner)
    assert {lesson for lesson, state in kept.items() if state.placed} == set(result.known)
    assert not any(state.done for state in kept.values())
    pilot.key(pygame.K_ESCAPE)
    home = pilot.screen
    assert isinstance(home, Home) and home.next_lesson.id == result.lesson
    course = pilot.room.course.lessons
    upto = course[: course.index(home.next_lesson) + 1]
    assert all(home.way.is_open(one) for one in upto), "nothing is locked by it"
    pilot.press("placement")
    pilot.press_word("lesson.go_on")
    while isinstance(pilot.screen, PlacementScreen):  # It goes on from there, and takes none back.
        pilot.settle()
        pilot.press("pass")
    pilot.key(pygame.K_ESCAPE)
    assert {one for one, state in pilot.room.lessons.items() if state.placed} >= set(result.known)
    pilot.room.read_anew()
    assert {one for one, state in pilot.room.lessons.items() if state.placed} >= set(result.known)
    if pilot.screen is not home:
        pilot.key(pygame.K_ESCAPE)
    pilot.press_word("today.title")
    assert pilot.screen.runner.known == taught_by(pilot, result.known)
    assert pilot.room.ladder.climbs == {}, "where anybody begins moves no ladder"


@pytest.mark.parametrize("lessons", some_daily([24, 55], [24]))
def test_who_was_placed_is_not_led_through_what_is_known(pilot, lessons):
    for one in pilot.room.course.lessons[:lessons]:
        if one.new:
            pilot.room.lessons[one.id] = LessonState(0, Position(), done=False, placed=True)
    days = []
    for _ in range(5):
        days += begin_today(pilot.room).today.exercises
        pilot.clock += 86_400
    led = [one.because for one in days if one.exercise.rung.is_led]
    assert set(led) <= {Because.SOON}, "what comes next is new"


def taught_by(pilot, lessons):
    return frozenset(fact for one in lessons for fact in pilot.room.course.by_id[one].new)


@pytest.mark.parametrize("seconds", [2, 12, 60])
def test_it_is_told_how_the_tasks_went_that_needed_what_the_lesson_teaches(pilot, seconds):
    screen = begin(pilot)
    work_on(pilot, taught(pilot, 24), seconds)
    lesson = pilot.room.course.by_id[pilot.screen.result.lesson]
    later = taught(pilot, None) - taught(pilot, pilot.room.course.lessons.index(lesson) + 1)
    needed = [(one.right, one.item.facts) for one in screen.placement.answers]
    about = [is_right for is_right, facts in needed
             if facts & set(lesson.new) and (is_right or not facts & later)]  # fmt: skip
    unit, counts = pilot.screen.unit_of_lesson.title, {"right": sum(about), "asked": len(about)}
    key = "placement.why_unsure" if all(about) else "placement.why"
    line = pilot.words.line(key, unit=unit, **counts)
    if not about:
        line = pilot.words.line("placement.why_untried", unit=unit)
    assert line.show in pilot.lines() and line.speak in pilot.screen.greeting.speak


def test_the_young_see_the_course_and_what_is_known_of_it(pilot, heard):
    pilot.room.set(age=Age.YOUNG)
    begin(pilot)
    work_on(pilot, taught(pilot, 7))
    page = pilot.screen
    known = page.map.digits
    assert known[0] != "0" and len(known) == len(pilot.room.course.units)
    pilot.key(pygame.K_ESCAPE)
    assert pilot.screen.map.digits == known


@pytest.mark.parametrize("has_sound", [True, False])
def test_what_is_told_can_be_heard_again(pilot, request, has_sound):
    heard = request.getfixturevalue("heard") if has_sound else None
    begin(pilot)
    work_on(pilot, taught(pilot, 7))
    for _ in range(2):  # The page, then home.
        signs = [one.sign for one in pilot.screen.buttons]
        assert ("speaker" in signs) is has_sound
        if heard:
            pilot.wait_for_buttons()
            pilot.press("speaker")
            assert heard.said[-1] == pilot.screen.heard.speak
        pilot.key(pygame.K_ESCAPE)


def test_the_lesson_to_begin_at_begins(pilot):
    begin(pilot)
    work_on(pilot, taught(pilot, 10))
    lesson = pilot.screen.result.lesson
    pilot.key(pygame.K_RETURN)
    assert type(pilot.screen) is LessonScreen and pilot.screen.runner.lesson.id == lesson


def test_what_is_known_by_placement_is_drawn_apart_from_what_is_done_and_not_done(pilot):
    course = pilot.room.course.lessons
    pilot.repaint()
    seen = [pilot.pixels()]
    for state in (
        LessonState(1, Position(), False, placed=True), LessonState(1, Position(), True),
        LessonState(1, Position(), True, placed=True),
    ):  # fmt: skip
        pilot.room.lessons[course[0].id] = state
        pilot.screen.rearrange()
        pilot.repaint()
        seen.append(pilot.pixels())
    assert seen[2] == seen[3], "once it is done it is done"
    assert len(set(seen)) == 3


def test_nothing_is_marked(pilot, heard):
    begin(pilot)
    screen, stages = pilot.screen, set()
    for _ in range(60):
        if pilot.screen is not screen:
            break
        if screen.runner.stage is Stage.WORK and len(stages) % 2:
            slip(pilot)
        do_right(pilot)
        stages.add((screen.runner.stage, len(screen.runner.attempts)))
        pilot.repaint()
        assert not tick_is_seen(pilot)
        assert " of " not in pilot.lines(), "no count"
        assert not screen.guide.sight.hinted
        assert screen.guide.sight.pointed is None
    assert "right" not in heard.names
    assert any(stage is Stage.DONE for stage, _ in stages)


@pytest.mark.parametrize("age", Age)
def test_a_wrong_bead_glides_back_and_is_not_marked(pilot, age):
    pilot.room.set(age=age)
    screen = begin(pilot)
    while screen.runner.stage is not Stage.WORK:
        do_right(pilot)
    pilot.settle()
    before = screen.runner.frame
    slip(pilot)
    assert screen.guide.said == pilot.words.line("placement.once_more")
    assert screen.field.mending is None
    pilot.settle()
    assert screen.field.mending is None
    assert screen.field.frame == screen.runner.frame == before


@pytest.mark.parametrize("key", [pygame.K_RETURN, pygame.K_SPACE])
def test_after_a_task_is_passed_by_with_a_key_another_press_passes_by_nothing(pilot, key):
    screen = begin(pilot)
    for answers in (1, 2):
        pilot.wait_for_buttons()
        screen.focus_button([one.sign for one in screen.buttons].index("pass"))
        pilot.key(key)
        work = screen.runner.work
        pilot.wait_for_buttons()
        pilot.key(key)
        assert len(screen.placement.answers) == answers
        assert screen.runner.work is work and not work.slips


def test_a_second_slip_leads_to_another_task_and_so_does_passing_it_by(pilot):
    screen = begin(pilot)
    do_right(pilot)
    answers = 0
    for act in (lambda: [slip(pilot) for _ in range(SLIPS)], lambda: pilot.press("pass")):
        while screen.runner.stage not in (Stage.WORK, Stage.ANSWER):
            do_right(pilot)
        pilot.settle()
        work, answers = screen.runner.work, len(screen.placement.answers)
        assert not forgiven(work)
        act()
        pilot.settle()
        pilot.wait(0.5, 5)
        assert screen.runner.work is not work
        assert len(screen.placement.answers) == answers + 1
        assert not screen.placement.answers[-1].right
        assert screen.runner.record[-1].exercise == work.exercise
        assert not screen.runner.record[-1].ended, "it is kept as left"


def test_a_slip_in_long_work_that_is_mended_is_the_hands(pilot):
    screen = begin(pilot)
    for _ in range(3000):
        work = screen.runner.work
        if screen.runner.stage is Stage.WORK and work.exercise.kind is Kind.SUM and forgiven(work):
            break
        do_right(pilot)
    answers = len(screen.placement.answers)
    slip(pilot)
    assert work.slips and not is_spent(work)
    while len(screen.placement.answers) == answers:
        do_right(pilot)
    assert screen.placement.answers[-1].right and not work.unaided


def test_after_four_minutes_sharp_it_is_over_and_what_is_half_done_counts_neither_way(pilot):
    screen = begin(pilot)
    do_right(pilot)
    while screen.runner.stage is not Stage.WORK:
        do_right(pilot)
    pilot.settle()
    answers = len(screen.placement.answers)
    pilot.clock = screen._began + MOST_SECONDS - 1
    pilot.wait(0.1, 2)
    assert pilot.screen is screen
    assert pilot.screen.wakes_in(pilot.clock) <= 1
    pilot.wait(1.5, 5)
    assert isinstance(pilot.screen, PlacedPage)
    assert pilot.screen.result.items == answers == len(screen.placement.answers)
    assert pilot.words.line("placement.late").speak in pilot.screen.greeting.speak


@pytest.mark.parametrize("tasks", [0, 1, 4])
def test_it_is_left_at_any_moment_and_what_is_known_by_then_is_kept(pilot, tasks):
    home = pilot.screen
    screen = begin(pilot)
    while len(screen.placement.answers) < tasks:
        do_right(pilot)
    pilot.key(pygame.K_ESCAPE)
    if tasks:  # Where to begin is told all the same.
        assert isinstance(pilot.screen, PlacedPage)
        pilot.key(pygame.K_ESCAPE)
    assert pilot.screen is home
    known = {one for one, state in pilot.room.lessons.items() if state.placed}
    assert known == (set(screen.placement.result().known) if tasks else set())
    with closing(Store(pilot.room.store.path)) as disk:
        past = disk.past(pilot.room.learner)
    assert {one.origin for one in past} <= {Origin.PLACEMENT}


@pytest.mark.parametrize("age", Age)
def test_who_leaves_after_little_is_sent_no_further_than_what_succeeded(pilot, age):
    pilot.room.set(age=age)
    screen = begin(pilot)
    while len(screen.placement.answers) < 1:
        do_right(pilot)
    pilot.key(pygame.K_ESCAPE)
    ids = [one.id for one in pilot.room.course.lessons]
    reached = max(at for at, one in enumerate(pilot.room.course.lessons)
                  if not screen.placement.answers[0].item.facts.isdisjoint(one.new))  # fmt: skip
    known = {one for one, state in pilot.room.lessons.items() if state.placed}
    assert known <= set(ids[: reached + 1])


def test_the_young_get_few_words_and_the_offer_is_spoken_with_the_keyboard(pilot, heard):
    pilot.room.set(age=Age.YOUNG)
    for _ in range(30):
        pilot.key(pygame.K_TAB)
        if heard.said and heard.said[-1] == pilot.words.text("placement.offer"):
            break
    pilot.key(pygame.K_RETURN)
    assert isinstance(pilot.screen, PlacementScreen)
    pilot.wait(0.5)
    assert pilot.words.line("placement.begin_young").speak in heard.said


def to_imagining(pilot):
    begin(pilot)
    work_on(pilot, taught(pilot, 18))
    pilot.press_word("placement.imagine")
    assert isinstance(pilot.screen, ImaginingScreen)
    return pilot.screen


def test_how_far_somebody_imagines_stands_ready_to_be_practised(pilot, flashes):
    screen = to_imagining(pilot)
    for _ in range(600):
        if isinstance(pilot.screen, PlacedPage):
            break
        is_open = screen.runner.stage in (Stage.WORK, Stage.ANSWER)
        if pilot.screen is screen and is_open and len(screen.parts[screen.at].answers) >= 2:
            pilot.settle()
            pilot.press("pass")
        else:
            do_right(pilot)
    page, found = pilot.screen, screen.found()
    assert set(found) == set(Asked) and all(one.step and one.right for one in found.values())
    assert len(page.ways) == 3
    kept = pilot.room.choices
    step = found[Asked.SHOWN].step
    assert (kept.asked, kept.beads.rung) == (Asked.SHOWN, step.rung)
    assert (kept.beads.digits, kept.beads.rows) == (step.digits, step.rows)
    assert kept.called.digits == found[Asked.CALLED].step.digits
    assert kept.flashed.setting.digits == found[Asked.FLASHED].step.digits
    with closing(Store(pilot.room.store.path)) as disk:
        assert disk.choices(pilot.room.learner)["beads"]["rung"] == step.rung


def test_who_imagines_nothing_yet_is_told_so_kindly_and_numbers_need_not_be_flashed(pilot):
    screen = to_imagining(pilot)
    for _ in range(600):
        if pilot.screen is not screen:
            break
        pilot.settle()
        stage, asked = screen.runner.stage, screen.parts[screen.at].asked
        if stage in (Stage.WORK, Stage.ANSWER):
            pilot.press("pass")
        elif stage is Stage.PRESENT and asked is Asked.FLASHED:
            pilot.press_word("flash.skip")
            pilot.settle()
        else:
            do_right(pilot)
    page, found = pilot.screen, screen.found()
    assert isinstance(page, PlacedPage)
    assert set(found) == {Asked.SHOWN, Asked.CALLED}
    assert all(one.step is None and one.right == 0 for one in found.values())
    said = pilot.words.text("placement.no_way", way="", right=0, asked=0)[:20]
    assert all(said in way.show for way in page.ways)
    assert pilot.room.choices.beads.rung is None
    pilot.key(pygame.K_ESCAPE)
    pilot.press_word("home.practise")
    assert isinstance(pilot.screen, PractiseScreen)


@pytest.mark.parametrize("late", some_daily([1, 2], [1]))
def test_a_flashed_run_that_does_not_count_is_asked_again_once(pilot, flashes, monkeypatch, late):
    screen, spoilt = to_imagining(pilot), []
    counts = FlashReport.counts.fget

    def spoil(report):
        is_spoilt = any(report is one for one in spoilt)
        if len(spoilt) < late and not is_spoilt:
            spoilt.append(report)
        return not any(report is one for one in spoilt) and counts(report)

    monkeypatch.setattr(FlashReport, "counts", property(spoil))
    for _ in range(900):
        if pilot.screen is not screen:
            break
        pilot.settle()
        if screen.runner.stage is Stage.ANSWER and not screen.runner.work.counts:
            slip(pilot)
        elif screen.runner.stage in (Stage.WORK, Stage.ANSWER) and not spoilt:
            pilot.press("pass")
        else:
            do_right(pilot)
    page, found = pilot.screen, screen.found()
    assert isinstance(page, PlacedPage) and len(spoilt) == late
    assert (Asked.FLASHED in found) is (late == 1)
    if late == 1:
        assert found[Asked.FLASHED].right == found[Asked.FLASHED].asked > 0


def test_what_did_not_succeed_does_not_stand_below_what_is_known(pilot, monkeypatch):
    begin(pilot)
    work_on(pilot, taught(pilot, 18))
    page, known = pilot.screen, pilot.words.text("placement.known")
    assert known in pilot.lines()
    none = Found(None, 0, 1)
    page.resumed({Asked.FLASHED: none})
    pilot.repaint()
    lines = pilot.lines()
    (way,) = page.ways
    assert lines.index(way.show) < lines.index(known)
    page.result = page.result._replace(families=())
    page.rearrange()
    pilot.repaint()
    assert way.show in pilot.lines() and known not in pilot.lines()


def test_the_young_are_not_asked_to_imagine(pilot):
    pilot.room.set(age=Age.YOUNG)
    begin(pilot)
    work_on(pilot, taught(pilot, 18))
    assert pilot.words.text("placement.imagine") not in [one.text for one in pilot.screen.buttons]

"""A paper is taken on the screen: chosen, answered in any order, paused, handed in and kept."""

import re
from collections import Counter
from dataclasses import replace

import pygame
import pytest
from kept import AROUND
from proofs import some_daily

from frame.app import Pop, Push
from frame.course.attempts import Position
from frame.course.next_paper import PaperChoices
from frame.language.habits import habit_line
from frame.language.printed import sum_line
from frame.learner.assigned import Assigned, Work
from frame.learner.folding import Fold, FoldRules
from frame.learner.learners import Chosen, new_id
from frame.learner.on_paper import keep_marked
from frame.learner.settings import Age, Volume
from frame.learner.store import LessonState
from frame.practice.families import family_of
from frame.screens.choosing.given_sheet import sheet_screen
from frame.screens.choosing.home import Home
from frame.screens.choosing.practise import PractiseScreen
from frame.screens.lesson.screen import LessonScreen
from frame.screens.paper.dots import past_line
from frame.screens.paper.graded import doubts_in_short
from frame.screens.paper.open_tasks import OpenTasks
from frame.screens.paper.paper_keeping import left_paper
from frame.screens.paper.papers import PapersPage
from frame.screens.paper.result import PaperResult
from frame.screens.paper.taking import TakingScreen
from frame.screens.parts.outcome import Next
from frame.sheets.code import code_of, recipe_of
from frame.sheets.grades import grades
from frame.sheets.making import sheet_of
from frame.sheets.marking import Answer, mark
from frame.sheets.papers import paper
from frame.sheets.recipe import Kind, Part, Recipe, Version
from frame.technique.conventions import USUAL
from frame.technique.habits import Habit
from frame.technique.planning import plan_of
from frame.technique.reading import plain
from frame.view.widgets import Style

SIGNS = {"-": pygame.K_MINUS}
MINUTE = 60


@pytest.fixture
def papers(pilot):
    """The page on which a paper is chosen."""
    pilot.app.take(Push(PapersPage(pilot.room)))
    pilot.app.draw()
    return pilot


def begin(pilot, **choices):
    pilot.screen.choose(**{"grade": "kyu-8", "on_beads": False, **choices})
    pilot.screen.rearrange()
    pilot.press_word("paper.begin")
    assert isinstance(pilot.screen, TakingScreen)
    return pilot.screen


def touch(pilot, number):
    """Touch a number of the strip."""
    names = {text(pilot, f"paper.told.{key}", number=number) for key in ("open", "answered")}
    (button,) = [one for one in pilot.screen.buttons if one.name in names]
    pilot.tap(button.place.center)


def tasks(pilot):
    return pilot.screen.paper.sheet.tasks


def give(pilot, number, enter=True):
    for sign in plain(number):
        pilot.key(SIGNS.get(sign) or pygame.K_0 + int(sign))
    if enter:
        pilot.key(pygame.K_RETURN)


def give_all(pilot, off=lambda at: 0):
    """All answers, one after another, each off by so much."""
    for at, task in enumerate(tasks(pilot)):
        give(pilot, task.sum.result + off(at))


def hand_in(pilot):
    pilot.press_word("paper.hand_in")
    if isinstance(pilot.screen, OpenTasks):
        pilot.press_word("paper.hand_in")
    assert isinstance(pilot.screen, PaperResult)
    pilot.wait(1, 2)


def told(pilot):
    return " ".join(pilot.lines().replace("\u00a0", " ").split())


def text(pilot, key, **facts):
    return pilot.words.text(key, **facts)


def kept(pilot):
    return pilot.room.store.papers(pilot.room.learner)


def past(pilot):
    return pilot.room.store.past(pilot.room.learner)


# What is chosen


def test_papers_are_behind_practise(pilot):
    pilot.press_word("home.practise")
    assert isinstance(pilot.screen, PractiseScreen)
    pilot.press_word("paper.open")
    assert isinstance(pilot.screen, PapersPage)


@pytest.mark.parametrize(("age", "seen"), [(Age.YOUNG, False), (Age.MIDDLE, True)])
def test_the_young_have_no_clock_unless_they_choose_one(pilot, age, seen):
    pilot.room.set(age=age)
    pilot.app.take(Push(PapersPage(pilot.room)))
    assert pilot.screen.choices.is_clocked is seen


@pytest.mark.parametrize("part", [Part.WHOLE, Part.PRODUCTS, Part.WARM_UP])
def test_the_paper_is_that_of_its_code(papers, part):
    screen = begin(papers, part=part)
    sheet = screen.paper.sheet
    assert sheet_of(recipe_of(code_of(sheet.recipe))) == sheet
    assert (sheet.recipe.grade, sheet.recipe.part) == ("kyu-8", part)


def test_the_next_paper_is_another_version_also_of_what_was_worked_on_paper(papers):
    versions = []
    for _ in range(2):
        versions.append(begin(papers).paper.sheet.recipe.version)
        hand_in(papers)
        papers.key(pygame.K_ESCAPE)
    assert versions == [Version.A, Version.B]
    room, sheet = papers.room, paper(Recipe(kind=Kind.PAPER, grade="kyu-8", version=Version.C))
    keep_marked(room.store, room.learner, mark(sheet, ()), USUAL, room.now())
    papers.screen.resumed(None)
    following = begin(papers).paper.sheet.recipe
    assert (following.seed, following.version) == (2, Version.A)


CELLS = [(name, doubt) for name, one in grades().items() for doubt in one.uncertain]


def test_each_doubt_of_each_grade_stands_where_the_grade_is_chosen(papers):
    for name, doubt in CELLS:
        papers.screen.choose(grade=name, part=Part.WHOLE)
        papers.screen.rearrange()
        about = text(papers, f"paper.doubt.{doubt.cell.rpartition('.')[2]}")
        how = text(papers, f"sheet.doubt.{doubt.how}", note="").rstrip(". ")
        doubts = doubts_in_short(name, Part.WHOLE, papers.words)
        assert doubts in told(papers)
        (sentence,) = [one for one in doubts.split(". ") if one.startswith(how)]
        assert about in sentence, (name, doubt)


@pytest.mark.parametrize(
    ("grade", "part", "doubts"),
    [
        ("kyu-3", Part.QUOTIENTS, "Sources differ – how long numbers are."),
        ("kyu-5", Part.PRODUCTS, "Not sure – how digits are shared out."),
        ("kyu-7", Part.COLUMNS, "Our choice – whether numbers are taken away."),
        ("kyu-9", Part.PRODUCTS, ""),
        ("kyu-3", Part.PRODUCTS, ""),
    ],
)
def test_of_a_part_its_own_doubts_alone_are_told(papers, grade, part, doubts):
    assert doubts_in_short(grade, part, papers.words) == doubts


def test_a_doubt_about_some_of_the_parts_names_them(papers):
    doubts = doubts_in_short("kyu-3", Part.WHOLE, papers.words)
    assert doubts.startswith("Sources differ – Quotients: how long numbers are. ")


def comes_again(pilot, **settings):
    """As on another day: who was here stands up, and comes again to the papers, with these
    settings."""
    learner = pilot.room.learner
    while not isinstance(pilot.screen, PapersPage):
        pilot.app.take(Pop())
    pilot.app.take(Pop())
    pilot.room.leave()
    pilot.room.enter(learner)
    pilot.room.set(**settings)
    pilot.app.take(Push(PapersPage(pilot.room)))
    pilot.app.draw()


CHOSEN = [
    {"on_beads": False},
    {"is_clocked": False},
    {"part": Part.PRODUCTS},
    {"part": Part.WARM_UP, "grade": "second-dan"},
    {"on_beads": False, "is_clocked": False, "part": Part.COLUMNS, "grade": "kyu-2"},
]


@pytest.mark.parametrize("chosen", CHOSEN)
@pytest.mark.parametrize("is_begun", [False, True])
def test_what_was_chosen_is_chosen_on_another_day(papers, chosen, is_begun):
    if is_begun:
        begin(papers, **{"grade": "kyu-10", "on_beads": True, **chosen})
    else:
        papers.screen.choose(**chosen)
    before = papers.room.papers.choices
    comes_again(papers)
    assert papers.screen.choices == before
    papers.screen.choose(on_beads=not before.on_beads)
    comes_again(papers)
    assert papers.screen.choices == replace(before, on_beads=not before.on_beads)


def test_what_was_turned_to_meanwhile_is_kept(papers):
    begin(papers, on_beads=True)
    papers.press("type")
    comes_again(papers)
    assert not papers.screen.choices.on_beads


def test_of_a_paper_that_a_tutor_gave_it_is_kept_how_it_is_worked_alone(papers):
    before = papers.screen.choices
    given = Recipe(kind=Kind.PAPER, grade="kyu-3", part=Part.PRODUCTS, seed=7)
    papers.app.take(Push(PapersPage(papers.room, given)))
    papers.screen.choose(on_beads=False)
    comes_again(papers)
    assert papers.screen.choices == replace(before, on_beads=False)


def test_who_chose_nothing_has_what_is_usual_at_their_age(papers):
    comes_again(papers)
    assert papers.screen.choices.is_clocked
    comes_again(papers, age=Age.YOUNG)
    assert not papers.screen.choices.is_clocked


@pytest.mark.parametrize("kept", [{"grade": "kyu-0", "part": 5, "on_beads": "no"}, {"part": []}])
def test_what_nobody_can_choose_is_as_usual(papers, kept):
    room = papers.room
    room.store.keep_choices(room.learner, kept, room.now(), Chosen.PAPER)
    comes_again(papers)
    assert papers.screen.choices == PaperChoices()


# How it is worked


@pytest.mark.parametrize("off", [0, 1, -10])
def test_what_is_told_and_kept_is_what_the_same_answers_give_on_paper(papers, off):
    begin(papers)
    sheet = papers.screen.paper.sheet
    give_all(papers, lambda at: off * (at % 3 == 0))
    hand_in(papers)
    answers = [Answer(one.sum.result + off * (at % 3 == 0)) for at, one in enumerate(sheet.tasks)]
    marked = mark(sheet, answers)
    score = text(papers, "paper.score_enough", marks=marked.points, most=200, enough=140)
    assert score in told(papers)
    (taken,) = kept(papers)
    assert (taken.marks, taken.most, taken.on_screen) == (marked.points, marked.most, True)
    assert taken.code == code_of(sheet.recipe)
    assert papers.screen.marked == marked


def test_the_answers_are_kept_as_those_on_paper_are_and_move_no_ladder(papers):
    room = papers.room
    rules = FoldRules(room.settings.ladder_rules, room.settings.mastery_rules)
    before = Fold.of(room.store, room.learner, rules)
    begin(papers)
    for at, task in enumerate(tasks(papers)[:4]):
        give(papers, task.sum.result + (at == 2))
    hand_in(papers)
    told_of = past(papers)
    assert [one.right for one in told_of] == [True, True, False, True]
    fold = Fold.of(room.store, room.learner, rules)
    assert (fold.ladder, fold.attempts) == (before.ladder, 4)
    assert fold.mastery != before.mastery
    assert (room.ladder, room.mastery) == (fold.ladder, fold.mastery)


def test_with_a_hidden_clock_no_minutes_are_told_before(papers):
    papers.screen.choose(grade="kyu-8", is_clocked=True)
    assert text(papers, "sheet.minutes", minutes=20) in told(papers)
    papers.screen.choose(is_clocked=False)
    assert text(papers, "sheet.minutes", minutes=20) not in told(papers)


def test_any_number_is_opened_and_answered_in_any_order(papers):
    begin(papers)
    for number in (3, 1, 10):
        touch(papers, number)
        assert papers.screen.paper.at == number - 1
        give(papers, tasks(papers)[number - 1].sum.result, enter=False)
    assert set(range(30)) - set(papers.screen.paper.open) == {0, 2, 9}
    papers.key(pygame.K_RETURN)
    assert papers.screen.paper.at == 10
    papers.key(pygame.K_LEFT)
    assert papers.screen.paper.at == 9


def test_enter_behind_the_last_one_leads_to_what_was_left_out(papers):
    begin(papers)
    touch(papers, 2)
    for task in tasks(papers)[1:]:
        give(papers, task.sum.result)
    assert papers.screen.paper.at == 0
    give(papers, tasks(papers)[0].sum.result)
    assert text(papers, "paper.all_answered") in told(papers)
    papers.press_word("paper.hand_in")
    assert isinstance(papers.screen, PaperResult)


def test_no_two_signs_are_one(papers):
    begin(papers)
    touch(papers, 2)
    signs = {one.sign: one.name for one in papers.screen.buttons if one.sign and not one.rests}
    assert len(signs) == sum(bool(one.sign) for one in papers.screen.buttons if not one.rests)
    assert {text(papers, "marks.after"), text(papers, "paper.after")} <= set(signs.values())


def test_a_tab_leads_to_a_section(papers):
    begin(papers)
    papers.press(text(papers, "paper.told.section", part="Quotients", answered=0, all=10))
    assert papers.screen.paper.at == 20


def test_a_warm_up_has_no_clock_no_marks_and_is_no_paper(papers):
    screen = begin(papers, part=Part.WARM_UP)
    assert screen.clock == "" and not screen.paper.is_clocked
    give_all(papers, lambda at: int(at == 0))
    hand_in(papers)
    assert text(papers, "results.title", right=4, all=5) in told(papers)
    assert kept(papers) == ()
    assert len(past(papers)) == 5


# On a frame


def work(pilot):
    """Work the open task on the frame, bead by bead as it is taught."""
    screen = pilot.screen
    plan = plan_of(screen.paper.sheet.tasks[screen.paper.at].sum, USUAL, 13)
    for stroke in plan.strokes:
        screen.touch(stroke)


def test_what_the_frame_reads_is_the_answer(papers):
    screen = begin(papers, on_beads=True)
    for at in (0, 1, 10, 20):
        screen.go(at)
        work(papers)
        papers.press_word("paper.take")
        task = screen.paper.sheet.tasks[at]
        assert screen.paper.texts[at] == plain(task.sum.result)
        if at > 1:  # A product or a quotient is seen before the next one comes.
            assert screen.paper.at == at
            papers.press_word("paper.take")
        assert screen.paper.at == at + 1


def test_a_bead_is_moved_and_enter_takes_it(papers):
    screen = begin(papers, on_beads=True)
    papers.key(pygame.K_5)
    papers.settle()
    papers.key(pygame.K_RETURN)
    assert screen.paper.texts[0] == "5"
    assert screen.paper.at == 1


def test_each_task_has_its_own_beads(papers):
    screen = begin(papers, on_beads=True)
    papers.key(pygame.K_5)
    touch(papers, 2)
    assert set(screen.field.frame.digits) == {"0"}
    touch(papers, 1)
    assert "5" in screen.field.frame.digits
    papers.press_word("free.clear")
    assert set(screen.field.frame.digits) == {"0"}


def test_where_no_bead_is_at_the_beam_nothing_is_taken(papers):
    screen = begin(papers, on_beads=True)
    papers.press_word("paper.take")
    assert screen.paper.texts[0] == "" and screen.paper.at == 0
    assert text(papers, "paper.no_bead") in told(papers)


def test_a_mental_paper_has_no_frame(papers):
    screen = begin(papers, grade="mental-kyu-6", on_beads=True)
    assert screen.fields == ()
    assert "beads" not in [one.sign for one in screen.buttons]


def test_from_the_frame_to_the_keys_and_back(papers):
    screen = begin(papers, on_beads=True)
    papers.press("type")
    give(papers, tasks(papers)[0].sum.result)
    papers.press("beads")
    assert screen.fields and screen.paper.at == 1


# The clock


def test_the_clock_tells_minutes_and_a_pause_holds_it(papers):
    screen = begin(papers)
    papers.wait(2.5 * MINUTE)
    assert text(papers, "paper.told.clock_of", minutes=2, all=20) in told(papers)
    papers.press("pause")
    task = plain(tasks(papers)[0].sum.numbers[0])
    assert task not in told(papers)
    papers.wait(30 * MINUTE)
    papers.press_word("paper.go_on")
    assert text(papers, "paper.told.clock_of", minutes=2, all=20) in told(papers)
    hand_in(papers)
    (taken,) = kept(papers)
    assert taken.seconds == pytest.approx(2.5 * MINUTE, abs=5)
    assert taken.paused == pytest.approx(30 * MINUTE, abs=5)
    assert taken.pauses == 1
    assert screen.paper.pauses == 1


def test_a_hidden_clock_is_not_told_and_all_counts(papers):
    screen = begin(papers, is_clocked=False)
    papers.wait(25 * MINUTE)
    assert screen.clock == ""
    give(papers, tasks(papers)[0].sum.result)
    hand_in(papers)
    assert kept(papers)[0].marks == 10
    assert "25" not in told(papers)


def test_what_comes_when_the_minutes_are_over_is_told_apart(papers):
    begin(papers)
    give(papers, tasks(papers)[0].sum.result)
    papers.wait(20 * MINUTE + 1)
    assert text(papers, "paper.over", minutes=20) in told(papers)
    give(papers, tasks(papers)[1].sum.result)
    hand_in(papers)
    assert text(papers, "paper.late", minutes=20, marks=20) in told(papers)
    assert kept(papers)[0].marks == 10
    assert [one.right for one in past(papers)] == [True, True]


# How it ends


def test_it_asks_once_where_tasks_are_open(papers):
    begin(papers)
    give(papers, tasks(papers)[0].sum.result)
    papers.press_word("paper.hand_in")
    assert text(papers, "paper.ask", count=29) in told(papers)
    papers.press_word("paper.go_on")
    assert isinstance(papers.screen, TakingScreen)
    hand_in(papers)
    assert text(papers, "paper.none", count=29) in told(papers)


def numbers_listed(pilot):
    """The numbers that stand there to be gone to, page by page."""
    numbers = []
    while True:
        numbers += [int(one.text) for one in pilot.screen.buttons if one.text.isdigit()]
        if "step_on" not in [one.sign for one in pilot.screen.buttons if not one.rests]:
            return numbers
        pilot.press("step_on")


def leave_open(pilot, numbers):
    """Answer all tasks but those with these numbers, and want to hand it in."""
    screen = pilot.screen
    for at in range(len(tasks(pilot))):
        if at + 1 not in numbers:
            screen.paper = screen.paper.go(at).put("1", pilot.clock)
    pilot.press_word("paper.hand_in")
    assert isinstance(pilot.screen, OpenTasks)


@pytest.mark.parametrize("size", [(1280, 720), (800, 480), (480, 800)])
@pytest.mark.parametrize("grade", ["kyu-8", "dan", "second-kyu-15"])
def test_what_is_open_is_listed_and_all_of_it_has_room(papers, size, grade):
    papers.resize(size)
    screen = begin(papers, grade=grade)
    numbers = [at + 1 for at in range(len(tasks(papers))) if at % 7]
    leave_open(papers, numbers)
    assert numbers_listed(papers) == numbers
    assert papers.screen.paper is screen.paper


@pytest.mark.parametrize(("number", "part"), [(4, "columns"), (12, "products"), (30, "quotients")])
def test_an_open_one_is_named_by_its_section_and_leads_to_its_task(papers, number, part):
    screen = begin(papers)
    leave_open(papers, {4, 12, 30})
    for one in ("columns", "products", "quotients"):
        assert text(papers, f"sheets.kind.{one}") in told(papers)
    section = text(papers, f"sheets.kind.{part}")
    name = text(papers, "paper.told.open_of", part=section, number=number)
    (button,) = [one for one in papers.screen.buttons if one.name == name]
    papers.wait_for_buttons()
    papers.tap(button.place.center)
    assert papers.screen is screen
    assert screen.paper.at == number - 1
    give(papers, tasks(papers)[number - 1].sum.result)
    assert len(screen.paper.open) == 2


def test_an_open_one_on_a_later_page_leads_to_its_task(papers):
    screen = begin(papers, grade="dan")
    leave_open(papers, set(range(1, 151)))
    papers.press("step_on")
    papers.press("150")
    assert papers.screen is screen
    assert screen.paper.at == 149


def test_meanwhile_the_clock_goes_on(papers):
    begin(papers)
    papers.press_word("paper.hand_in")
    papers.wait(21 * MINUTE)
    papers.press("1")
    papers.wait(1, 2)
    assert text(papers, "paper.over", minutes=20) in told(papers)


def test_who_leaves_finds_it_again_until_another_is_begun(papers):
    screen = begin(papers)
    give(papers, tasks(papers)[0].sum.result)
    papers.key(pygame.K_ESCAPE)
    assert papers.screen is screen
    papers.key(pygame.K_ESCAPE)
    assert isinstance(papers.screen, PapersPage)
    papers.wait(5 * MINUTE)
    papers.press_word("paper.go_on")
    assert papers.screen.paper.texts == screen.paper.texts
    assert papers.screen.paper.seconds(papers.clock) < MINUTE
    for _ in range(2):
        papers.key(pygame.K_ESCAPE)
    papers.press_word("paper.begin_new")
    assert isinstance(papers.screen, PapersPage)
    papers.press_word("paper.begin_new")
    assert not any(papers.screen.paper.texts)


def test_where_the_clock_is_hidden_no_dot_tells_of_minutes(papers):
    begin(papers)
    hand_in(papers)
    papers.key(pygame.K_ESCAPE)
    past_one = papers.screen.past[-1]
    for is_clocked in (True, False):
        papers.screen.choose(is_clocked=is_clocked)
        papers.screen.rearrange()
        line = past_line(past_one, papers.words, is_timed=is_clocked).show
        assert line in told(papers)
        assert (text(papers, "paper.minutes", minutes=1) in told(papers)) is is_clocked


@pytest.mark.parametrize("size", [(1280, 720), (800, 480), (480, 800)])
def test_which_one_waits_and_what_goes_is_told_beside_the_dots_too(papers, size):
    papers.resize(size)
    begin(papers)
    hand_in(papers)
    papers.key(pygame.K_ESCAPE)
    begin(papers)
    for _ in range(2):
        papers.key(pygame.K_ESCAPE)
    title = text(papers, "sheets.kyu", number=8)
    assert text(papers, "paper.told.waiting", title=title, answered=0, all=30) in told(papers)
    papers.press_word("paper.begin_new")
    assert text(papers, "paper.lets_go") in told(papers)


def test_a_paper_outlives_its_window(papers):
    begin(papers)
    give(papers, tasks(papers)[0].sum.result)
    before = papers.screen.paper
    papers.room.papers = None
    papers.app.take(Push(PapersPage(papers.room)))
    papers.app.draw()
    papers.press_word("paper.go_on")
    assert papers.screen.paper is not before
    assert papers.screen.paper.texts == before.texts
    assert papers.screen.paper.began == before.began


def test_what_is_handed_in_waits_no_more(papers):
    begin(papers)
    hand_in(papers)
    papers.key(pygame.K_ESCAPE)
    assert papers.room.papers.left is None
    assert left_paper(papers.room) is None
    papers.press_word("paper.begin")


def test_a_paper_may_be_taken_twice_on_a_day(papers):
    for _ in range(2):
        papers.room.papers = None
        begin(papers)
        hand_in(papers)
        papers.key(pygame.K_ESCAPE)
    assert len({one.sitting for one in kept(papers)}) == 2


def test_nobody_is_told_that_they_failed(papers):
    begin(papers)
    hand_in(papers)
    assert text(papers, "paper.score_enough", marks=0, most=200, enough=140) in told(papers)
    assert text(papers, "marks.told.not_passed") not in told(papers)


@pytest.mark.parametrize("age", [Age.YOUNG, Age.OLDER])
def test_the_rule_that_cost_most_is_told(papers, age):
    papers.room.set(age=age)
    screen = begin(papers, grade="mental-kyu-10", is_clocked=True)
    for at, task in enumerate(tasks(papers)[:6]):
        screen.go(at)
        give(papers, task.sum.result - (10 if at < 4 else 1 if at == 4 else 0))
    hand_in(papers)
    sites = [one.behind.site for one in papers.screen.marked.marks if one.behind]
    assert len(sites) > 1 and {one.habit for one in sites} == {Habit.CARRY_FORGOTTEN}
    rule = habit_line(sites[0], papers.words, papers.room.listener).show
    most = text(papers, "paper.most", what=rule, count=len(sites), all=5)
    assert most in told(papers)


def test_what_was_missed_can_be_practised(papers):
    papers.room.set(all_open=True)
    begin(papers)
    give(papers, tasks(papers)[0].sum.result + 1)
    hand_in(papers)
    (practise,) = [one for one in papers.screen.buttons if one.style.name == "MAIN"]
    papers.press(practise.text)
    assert isinstance(papers.screen, LessonScreen)


def only_main(pilot):
    (button,) = [one for one in pilot.screen.buttons if one.style.name == "MAIN"]
    return button


def test_what_cost_most_marks_is_told_and_practised(papers):
    """Three columns of ten marks each, and five products of five: fewer, but they cost more."""
    papers.room.set(all_open=True)
    screen = begin(papers)
    families = [family_of(task.facts) for task in tasks(papers)]
    ((family, _),) = Counter(families[:10]).most_common(1)
    columns = [at for at in range(10) if families[at] is family][:3]
    at_fault = (*columns, *range(10, 15))
    assert len(at_fault) == 8
    for at in range(30):
        screen.go(at)
        # What is off by so much no habit explains.
        give(papers, tasks(papers)[at].sum.result + 777 * (at in at_fault))
    hand_in(papers)
    name = text(papers, f"family.{family}")
    assert text(papers, "paper.most", what=name, count=3, all=8) in told(papers)
    papers.press(text(papers, "paper.practise", family=name))
    assert isinstance(papers.screen, LessonScreen)
    exercise = papers.screen.runner.work.exercise
    assert family_of(exercise.facts) is family


def test_who_had_no_lesson_yet_is_led_to_the_first_and_then_on(papers):
    first, second = papers.room.course.lessons[:2]
    begin(papers)
    give(papers, tasks(papers)[0].sum.result + 1)
    hand_in(papers)
    assert text(papers, "paper.lessons") in told(papers)
    family = family_of(papers.screen.handed.sheet.tasks[0].facts)
    assert text(papers, "paper.most_one", what=text(papers, f"family.{family}")) in told(papers)
    papers.press(text(papers, "home.start", title=first.title))
    assert papers.screen.runner.lesson.id == first.id
    papers.key(pygame.K_ESCAPE)
    assert only_main(papers).text == text(papers, "home.start", title=first.title)
    papers.room.lessons[first.id] = LessonState(1, Position(), True)
    papers.press(text(papers, "home.start", title=first.title))
    papers.app.take(Pop(Next(first.id)))
    assert papers.screen.runner.lesson.id == second.id


@pytest.mark.parametrize("answers", [0, 30])
def test_where_nothing_is_wrong_the_papers_are_next(papers, answers):
    begin(papers)
    for task in tasks(papers)[:answers]:
        give(papers, task.sum.result)
    hand_in(papers)
    assert (text(papers, "paper.all_right") in told(papers)) is (answers == 30)
    papers.press_word("paper.to_papers")
    assert isinstance(papers.screen, PapersPage)


@pytest.mark.parametrize(
    "size", some_daily([(1280, 720), (800, 480), (480, 800)], daily=[(800, 480)])
)
def test_every_wrong_one_is_listed_above_the_foot(papers, size):
    papers.resize(size)
    begin(papers, grade="kyu-1")
    for at, task in enumerate(tasks(papers)):
        papers.screen.paper = papers.screen.paper.go(at).put(plain(task.sum.result + 1), 0)
    hand_in(papers)
    listed = []
    while True:
        top = only_main(papers).place.top
        rows = [(line, place) for line, place in papers.repaint() if re.fullmatch(r"\d+\.", line)]
        assert all(place.bottom <= top for _, place in rows)
        listed += [int(line[:-1]) for line, _ in rows]
        if "step_on" not in [one.sign for one in papers.screen.buttons if not one.rests]:
            break
        papers.press("step_on")
    assert listed == list(range(1, 51))


# By ear


def hear(pilot, heard):
    pilot.press("speaker")
    return heard.said[-1]


def test_each_page_is_heard_again(papers, heard):
    words = papers.words
    papers.screen.rearrange()
    said = hear(papers, heard)
    for key in ("paper.title", "paper.practice", "paper.counts", "sheets.whole"):
        assert words.line(key).speak in said, key
    begin(papers)
    task = tasks(papers)[0].sum
    assert hear(papers, heard) == f"{sum_line(task, words).speak} {words.line('paper.type').speak}"
    papers.press("pause")
    assert hear(papers, heard) == words.line("paper.paused").speak
    papers.press_word("paper.go_on")
    papers.press_word("paper.hand_in")
    assert hear(papers, heard) == words.line("paper.ask", count=30).speak


def test_of_a_touched_dot_its_paper_is_heard_again(papers, heard):
    begin(papers)
    hand_in(papers)
    papers.key(pygame.K_ESCAPE)
    said = hear(papers, heard)
    assert past_line(papers.screen.past[-1], papers.words, is_timed=True).speak in said


@pytest.mark.parametrize("part", [Part.WHOLE, Part.WARM_UP])
def test_the_result_is_heard_again_with_what_to_do_next(papers, heard, part):
    words = papers.words
    papers.room.set(all_open=True)
    begin(papers, part=part)
    give(papers, tasks(papers)[0].sum.result)
    give(papers, tasks(papers)[1].sum.result + 1)
    hand_in(papers)
    said = hear(papers, heard)
    for key in ("paper.right", "paper.mend"):
        assert words.line(key, count=1).speak in said
    assert said.startswith(papers.screen.greeting.speak)
    assert said.endswith(f"{only_main(papers).text}.")


@pytest.mark.parametrize("changes", [{"voice": False}, {"volume": Volume.OFF}])
def test_without_a_voice_there_is_no_loudspeaker(papers, heard, changes):
    papers.room.set(**changes)
    papers.screen.rearrange()
    for deed in (lambda: begin(papers), lambda: hand_in(papers)):
        assert "speaker" not in [one.sign for one in papers.screen.buttons]
        deed()
    assert "speaker" not in [one.sign for one in papers.screen.buttons]


# Dots


def test_a_dot_tells_of_its_paper(papers):
    room = papers.room
    begin(papers)
    hand_in(papers)
    papers.key(pygame.K_ESCAPE)
    (taken,) = kept(papers)
    for marks in (60, 120):
        room.store.begin_sitting(f"s{marks}", room.learner, AROUND, taken.at)
        room.store.keep_paper(replace(taken, sitting=f"s{marks}", marks=marks, pauses=2))
    papers.screen.resumed(None)
    papers.app.draw()
    dots = papers.screen.dots
    assert sorted(one.taken.marks for one in dots.papers) == [0, 60, 120]
    at = next(at for at, one in enumerate(dots.papers) if one.taken.marks == 60)
    papers.tap(dots._strip(at).center)
    assert "60 of 200" in told(papers) and "Pauses: 2" in told(papers)


def test_dots_are_of_what_is_chosen_alone(papers):
    begin(papers)
    hand_in(papers)
    papers.key(pygame.K_ESCAPE)
    assert len(papers.screen.dots.papers) == 1
    for other in ({"part": Part.COLUMNS}, {"grade": "kyu-9", "part": Part.WHOLE}):
        papers.screen.choose(**other)
        papers.screen.rearrange()
        assert papers.screen.dots is None


def test_a_paper_that_was_marked_from_paper_is_a_dot_too(papers):
    room = papers.room
    sheet = paper(Recipe(kind=Kind.PAPER, grade="kyu-8"))
    answers = [Answer(one.sum.result) for one in sheet.tasks[:12]]
    for _ in range(2):
        keep_marked(room.store, room.learner, mark(sheet, answers), USUAL, room.now())
    papers.screen.choose(grade="kyu-8")
    papers.screen.resumed(None)
    (one,) = papers.screen.dots.papers
    assert (one.taken.marks, one.taken.most, one.taken.on_screen) == (110, 200, False)
    assert text(papers, "paper.on_paper") in told(papers)


def test_a_paper_that_a_tutor_gave_is_the_next_one_and_done_once_handed_in(pilot):
    given = Recipe(kind=Kind.PAPER, grade="kyu-7", seed=4711, version=Version.C)
    learner, code = pilot.room.learner, code_of(given)
    pilot.room.store.assign([(learner, Assigned("1", pilot.room.now(), Work.SHEET, code))])
    pilot.app.take(Push(sheet_screen(pilot.room, code)))
    for expected in (given, Recipe(kind=Kind.PAPER, grade="kyu-7")):
        pilot.app.draw()
        pilot.press_word("paper.begin")
        assert pilot.screen.paper.sheet == sheet_of(expected)
        pilot.press_word("paper.hand_in")
        pilot.press_word("paper.hand_in")
        assert [bool(one.done) for one in pilot.room.store.assigned(learner)] == [True]
        pilot.press_word("paper.to_papers")


def test_a_paper_that_was_given_leads_on_to_what_else_was(papers):
    room = papers.room
    screen = begin(papers)
    code = code_of(screen.paper.sheet.recipe)
    for work, what in ((Work.SHEET, code), (Work.LESSON, "beads-1")):
        room.store.assign([(room.learner, Assigned(new_id(), room.now(), work, what))])
    hand_in(papers)
    title = room.course.by_id["beads-1"].title
    (main,) = [one for one in papers.screen.buttons if one.style is Style.MAIN]
    assert main.text == text(papers, "given.next", title=title)
    papers.press(main.text)
    assert papers.screen.runner.lesson.id == "beads-1"
    papers.press("back")
    assert isinstance(papers.screen, Home)


def test_a_paper_that_was_not_given_leads_on_as_ever(papers):
    room = papers.room
    room.store.assign([(room.learner, Assigned(new_id(), room.now(), Work.LESSON, "beads-1"))])
    begin(papers)
    hand_in(papers)
    assert not [one for one in papers.screen.buttons if one.sign == "slip"]

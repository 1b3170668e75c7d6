"""What a tutor gave to do stands on the home, leads to its place, and is ticked off there."""

from contextlib import closing
from datetime import timedelta
from itertools import count

import pytest
from kept import NOW
from pilot import WhenTold
from robot import do_right, open_lesson
from test_marks import SIX, at_end
from test_today_screen import learn, to_the_end

from frame.app import Pop, Push
from frame.course.attempts import Position
from frame.course.runner import Stage
from frame.learner.assigned import Assigned, Work, set_text
from frame.learner.learners import Learner, new_id
from frame.learner.settings import Age
from frame.learner.store import LessonState, Store
from frame.learner.trouble import StoreError
from frame.practice.choices import Choices
from frame.practice.families import Family
from frame.practice.kept_choices import set_to
from frame.screens.choosing.home import Home
from frame.screens.lesson.practice import begin_set
from frame.screens.lesson.screen import LessonScreen
from frame.screens.lesson.today import TodayScreen
from frame.screens.marking.marks import MarksScreen
from frame.screens.parts.outcome import Next
from frame.sheets.code import code_of
from frame.sheets.recipe import Kind, Recipe
from frame.view.widgets import Style

ASKED = Choices().choose(family=Family.SET)
GIVEN = count()


def give(pilot, work, text="", learner=None):
    """A tutor gives this; what it is known by."""
    one = Assigned(new_id(), NOW + timedelta(seconds=next(GIVEN)), work, text)
    pilot.room.store.assign([(learner or pilot.room.learner, one)])
    return one.id


def done_on_disk(pilot, learner=None):
    """The ids of what was given and is ticked off, as another window would read them."""
    with closing(Store(pilot.room.store.path)) as disk:
        given = disk.assigned(learner or pilot.room.learner)
        return {one.id for one in given if one.done is not None}


def play(pilot):
    for _ in range(2000):
        if pilot.screen.runner.stage is Stage.END:
            return pilot.wait(0.5)
        do_right(pilot)
    raise AssertionError("no end")


def begin(pilot, choices, given=""):
    learn(pilot, 4)
    pilot.app.take(Push(LessonScreen(pilot.room, begin_set(pilot.room, choices, given))))


def test_a_lesson_is_ticked_off_when_it_ends_and_not_before(pilot):
    one, _ = (give(pilot, Work.LESSON, id) for id in ("beads-1", "beads-2"))
    open_lesson(pilot, "beads-1")
    for _ in range(5):
        do_right(pilot)
    assert done_on_disk(pilot) == set()
    play(pilot)
    assert done_on_disk(pilot) == {one}


def test_a_lesson_that_was_done_long_ago_is_done_again(pilot):
    pilot.room.lessons["beads-1"] = LessonState(3, Position(), True, True)
    one = give(pilot, Work.LESSON, "beads-1")
    open_lesson(pilot, "beads-1")
    assert done_on_disk(pilot) == set()
    play(pilot)
    assert done_on_disk(pilot) == {one}


def test_a_set_is_ticked_off_at_its_end_where_it_asks_the_same(pilot):
    same = give(pilot, Work.SET, set_text(set_to(ASKED)))
    give(pilot, Work.SET, set_text(set_to(ASKED.choose(family=Family.READ))))
    begin(pilot, ASKED)
    do_right(pilot)
    assert done_on_disk(pilot) == set()
    play(pilot)
    assert done_on_disk(pilot) == {same}


def test_a_set_that_was_given_is_done_also_where_it_may_ask_no_more_than_a_part_of_it(pilot):
    text = set_text({"asked": "shown", "beads": "of another time"})
    one = give(pilot, Work.SET, text)
    begin(pilot, ASKED, text)
    play(pilot)
    assert done_on_disk(pilot) == {one}


def test_todays_set_is_ticked_off_with_its_last_exercise(pilot):
    pilot.room.set(age=Age.YOUNG)
    learn(pilot, 12)
    one = give(pilot, Work.DUE)
    pilot.press("today")
    do_right(pilot)
    assert done_on_disk(pilot) == set()
    to_the_end(pilot)
    assert done_on_disk(pilot) == {one}


def test_a_sheet_is_ticked_off_when_its_marks_are_kept(pilot):
    one = give(pilot, Work.SHEET, code_of(SIX))
    pilot.app.take(Push(MarksScreen(pilot.room, pilot.room.learner)))
    at_end(pilot)
    assert done_on_disk(pilot) == set()
    pilot.wait(2)
    pilot.press_word("marks.keep")
    assert done_on_disk(pilot) == {one}
    # Given once more on the same day, it is done once more.
    again = give(pilot, Work.SHEET, code_of(SIX))
    pilot.press_word("marks.another")
    at_end(pilot)
    pilot.wait(2)
    pilot.press_word("marks.keep")
    assert done_on_disk(pilot) == {one, again}


def test_what_another_child_was_given_stays(pilot):
    seal = Learner.new("Seal", "seal")
    pilot.room.store.add_learner(seal, pilot.room.settings, NOW)
    give(pilot, Work.LESSON, "beads-1", seal)
    open_lesson(pilot, "beads-1")
    play(pilot)
    assert done_on_disk(pilot, seal) == set()


def test_a_tick_that_cannot_be_written_now_is_not_lost(pilot, monkeypatch):
    one = give(pilot, Work.LESSON, "beads-1")
    open_lesson(pilot, "beads-1")
    with monkeypatch.context() as full:

        def refuse(*_):
            raise StoreError(None, "full")

        full.setattr(Store, "tick_off", refuse)
        play(pilot)
        assert pilot.room.is_unsaved and done_on_disk(pilot) == set()
    pilot.room.keeper.send()
    assert not pilot.room.is_unsaved and done_on_disk(pilot) == {one}


# On the home


@pytest.fixture
def home(pilot):
    """The home of somebody who has done nine lessons."""
    learn(pilot, 9)
    return pilot


def given_buttons(pilot):
    pilot.screen.rearrange()
    return [one for one in pilot.screen.buttons if one.sign in ("slip", "tick")]


def open_given(pilot, *some):
    """Give this; press what stands on the home of it."""
    ids = [give(pilot, work, text) for work, text in some]
    (button,) = given_buttons(pilot)
    pilot.press(button.sign)
    return ids


def test_nothing_stands_there_where_nothing_was_given(home):
    assert given_buttons(home) == []


def test_the_first_that_is_open_stands_there_with_how_many_more(home):
    first = home.room.course.lessons[40]
    give(home, Work.LESSON, first.id)
    (button,) = given_buttons(home)
    assert first.title in button.text and button.text.startswith("From your tutor")
    assert first.title in button.name
    give(home, Work.DUE)
    give(home, Work.SHEET, code_of(SIX))
    (button,) = given_buttons(home)
    assert first.title in button.text and "2 more" in button.text and "two" in button.name
    assert first.title in home.screen.greeting.speak


def test_a_lesson_that_is_not_open_by_the_way_is_opened_all_the_same(home):
    far = home.room.course.lessons[60]
    assert not home.screen.way.is_open(far)
    open_given(home, (Work.LESSON, far.id))
    assert home.screen.runner.lesson.id == far.id


def test_the_due_list_is_todays_set(home):
    open_given(home, (Work.DUE, ""))
    assert isinstance(home.screen, TodayScreen)


def test_a_set_is_begun_as_it_asks_and_home_tells_when_it_is_done(home):
    (one,) = open_given(home, (Work.SET, set_text(set_to(ASKED))))
    assert home.screen.runner.lesson.id == "practise-shown"
    play(home)
    assert done_on_disk(home) == {one}
    home.press("back")
    (button,) = given_buttons(home)
    assert button.sign == "tick" and button.text == home.words.text("given.all_done")


def test_what_was_done_on_another_day_stands_there_no_more(home):
    give(home, Work.DUE)
    before = home.now() - timedelta(days=1)
    home.room.store.tick_off(home.room.learner, Work.DUE, "", before)
    assert given_buttons(home) == []


def test_a_sheet_shows_its_code_and_that_it_is_on_paper(home):
    open_given(home, (Work.SHEET, code_of(SIX)))
    assert code_of(SIX) in home.lines() and "on paper" in home.lines()


@pytest.mark.parametrize(
    ("work", "text"),
    [
        (Work.LESSON, "of-a-newer-course"),
        (Work.SET, "{}"),
        (Work.SET, set_text({"asked": "sung"})),
        (Work.SHEET, "ZZZZ"),
    ],
)
def test_what_only_a_newer_version_knows_does_not_stand_there(home, work, text):
    give(home, work, text)
    assert given_buttons(home) == []


WAITING = [(Work.DUE, ""), (Work.SET, set_text(set_to(ASKED)))]


@pytest.mark.parametrize("work", WAITING)
def test_what_waits_for_a_lesson_stands_there_once_one_is_done(pilot, work):
    give(pilot, *work)
    assert given_buttons(pilot) == []
    learn(pilot, 9)
    assert [one.sign for one in given_buttons(pilot)] == ["slip"]


@pytest.mark.parametrize("work", WAITING)
def test_what_waits_for_a_lesson_comes_behind_what_can_be_done(pilot, work):
    give(pilot, *work)
    lesson = pilot.room.course.lessons[0]
    open_given(pilot, (Work.LESSON, lesson.id))
    page = pilot.screen
    first, last = page.tickets()
    assert first.name == lesson.title
    pilot.press(last.name)
    assert pilot.screen is page and pilot.words.text("given.first") in pilot.lines()


def test_of_several_each_has_a_ticket_and_those_done_this_week_a_tick(home):
    learner, store = home.room.learner, home.room.store
    for at, id in enumerate(("beads-1", "beads-2", "beads-3")):
        give(home, Work.LESSON, id)
        if at < 2:
            days = timedelta(days=(3, 9)[at])
            store.tick_off(learner, Work.LESSON, id, home.now() - days)
    give(home, Work.DUE)
    home.screen.rearrange()
    home.press("slip")
    titles = {entry.id: entry.title for entry in home.room.course.lessons}
    tickets = [(one.name, "Done" in one.spoken) for one in home.screen.tickets()]
    assert tickets == [(titles["beads-3"], False), ("Today", False), (titles["beads-1"], True)]
    home.press(titles["beads-3"])
    play(home)
    home.press("back")
    tickets = [(one.name, "Done" in one.spoken) for one in home.screen.tickets()]
    assert tickets == [("Today", False), (titles["beads-3"], True), (titles["beads-1"], True)]


def test_from_a_lesson_that_was_given_among_others_the_next_one_follows(home):
    for id in ("beads-1", "beads-2"):
        give(home, Work.LESSON, id)
    home.screen.rearrange()
    home.press("slip")
    home.press(home.room.course.by_id["beads-1"].title)
    home.app.take(Pop(Next("beads-1")))
    assert home.screen.runner.lesson.id == "beads-2"


# What comes first, and what comes next


def dark(pilot):
    """The texts of the buttons that look like the main thing to do."""
    return [one.text for one in pilot.screen.buttons if one.style is Style.MAIN]


@pytest.mark.parametrize("size", [(1280, 720), (800, 480), (480, 800)])
@pytest.mark.parametrize("lessons", [0, 9])
def test_what_a_tutor_gave_is_the_one_main_thing_until_it_is_done(pilot, size, lessons):
    learn(pilot, lessons)
    pilot.resize(size)
    (usual,) = dark(pilot)
    give(pilot, Work.LESSON, "beads-3")
    pilot.screen.rearrange()
    (given,) = given_buttons(pilot)
    (today,) = [one for one in pilot.screen.buttons if one.sign in ("today", "placement")][-1:]
    assert dark(pilot) == [given.text] and pilot.screen.greeting.speak == given.name
    assert reading_order(given) < reading_order(today)
    pilot.room.store.tick_off(pilot.room.learner, Work.LESSON, "beads-3", pilot.now())
    pilot.screen.rearrange()
    assert dark(pilot) == [usual] and given_buttons(pilot)[0].sign == "tick"


def reading_order(button):
    return button.place.top, button.place.left


def test_what_only_waits_for_a_lesson_is_not_the_main_thing(pilot):
    usual = dark(pilot)
    give(pilot, Work.DUE)
    pilot.screen.rearrange()
    assert dark(pilot) == usual


def test_a_sheet_on_paper_is_told_and_what_is_done_here_comes_first(pilot):
    usual = dark(pilot)
    give(pilot, Work.SHEET, code_of(Recipe(kind=Kind.COLUMNS, rows=3)))
    pilot.screen.rearrange()
    assert len(given_buttons(pilot)) == 1 and dark(pilot) == usual
    give(pilot, Work.SHEET, code_of(Recipe(kind=Kind.PAPER, grade="kyu-6")))
    pilot.screen.rearrange()
    (given,) = given_buttons(pilot)
    assert dark(pilot) == [given.text] and "kyu 6" in given.text


def next_text(pilot, title):
    return pilot.words.text("given.next", title=title)


def test_the_end_of_a_given_lesson_leads_on_to_what_else_was_given(home):
    titles = {entry.id: entry.title for entry in home.room.course.lessons}
    ids = ("beads-1", "beads-5")
    for id in ids:
        give(home, Work.LESSON, id)
    home.screen.rearrange()
    home.press("slip")
    home.press(titles["beads-1"])
    play(home)
    assert dark(home) == [next_text(home, titles["beads-5"])]
    home.press(dark(home)[0])
    assert home.screen.runner.lesson.id == "beads-5"
    play(home)
    assert dark(home) == [home.words.text("lesson.next")]


def test_the_end_of_a_lesson_that_was_not_given_leads_on_as_ever(home):
    give(home, Work.DUE)
    open_lesson(home, "beads-1")
    play(home)
    assert dark(home) == [home.words.text("lesson.next")]


def test_a_first_lesson_lets_follow_what_waited_for_it(pilot):
    give(pilot, Work.DUE)
    (first,) = [one for one in pilot.room.course.lessons if one.new][:1]
    open_given(pilot, (Work.LESSON, first.id))
    pilot.press(first.title)
    play(pilot)
    assert dark(pilot) == [next_text(pilot, "Today")]


def test_todays_set_leads_on_and_so_does_a_set(pilot):
    pilot.room.set(age=Age.YOUNG)
    learn(pilot, 12)
    asked = set_text(set_to(ASKED))
    for work, text in ((Work.DUE, ""), (Work.SET, asked), (Work.LESSON, "beads-1")):
        give(pilot, work, text)
    pilot.screen.rearrange()
    pilot.press("today")
    to_the_end(pilot)
    pilot.wait(2)
    family = pilot.words.text(f"family.{Family.SET}")
    assert dark(pilot) == [next_text(pilot, family)]
    pilot.press(dark(pilot)[0])
    assert pilot.screen.runner.lesson.id == "practise-shown"
    play(pilot)
    assert dark(pilot) == [next_text(pilot, pilot.room.course.by_id["beads-1"].title)]


def test_a_given_set_that_is_found_in_practise_leads_on_as_well(home):
    home.press_word("home.practise")
    under = home.screen
    choices = home.screen.usual
    give(home, Work.SET, set_text(set_to(choices)))
    give(home, Work.LESSON, "beads-1")
    home.app.take(Push(LessonScreen(home.room, begin_set(home.room, choices))))
    play(home)
    home.wait(2)
    home.press(next_text(home, home.room.course.by_id["beads-1"].title))
    assert home.screen is not under and home.screen.runner.lesson.id == "beads-1"
    home.press("back")
    assert isinstance(home.screen, Home)


def test_what_was_taken_back_meanwhile_is_not_begun(home):
    give(home, Work.LESSON, "beads-1")
    other = give(home, Work.LESSON, "beads-5")
    open_lesson(home, "beads-1")
    play(home)
    (one,) = [one for one in home.room.store.assigned(home.room.learner) if one.id == other]
    home.room.store.take_back([one], home.now())
    home.press(dark(home)[0])
    assert isinstance(home.screen, Home)


def test_a_given_set_waits_until_it_is_counted_what_the_learner_did(home):
    later = home.room.known.aside = WhenTold()
    home.room.fold_anew()
    open_given(home, (Work.SET, set_text(set_to(ASKED))))
    assert not isinstance(home.screen, LessonScreen)
    while later.waiting:
        later.go_on()
    home.wait(2)
    assert isinstance(home.screen, LessonScreen)

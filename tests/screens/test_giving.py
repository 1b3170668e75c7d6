"""A tutor gives work to one child or to several, is told to whom it went, and takes it back."""

from datetime import timedelta

import pygame
import pytest
from class_here import CRAB, four_of_the_harbour, open_class
from kept import added
from pilot import WhenTold

from frame.app import Push
from frame.learner.assigned import Assigned, Work, set_text
from frame.learner.due import due_code
from frame.learner.kept_sets import KeptSet
from frame.learner.learners import new_id
from frame.learner.store import Store
from frame.learner.trouble import StoreError, Trouble
from frame.practice.choices import Choices
from frame.practice.families import Family
from frame.practice.kept_choices import set_to
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.choosing.sheets import SheetsPage
from frame.screens.tutor.code_to_give import CodeToGive
from frame.screens.tutor.given_before import GivenBefore
from frame.screens.tutor.given_names import GivenNames
from frame.screens.tutor.giving import GivingScreen
from frame.screens.tutor.reading import read_beside
from frame.sheets.code import code_of, recipe_of
from frame.sheets.recipe import Kind, Recipe

SIX = code_of(Recipe(kind=Kind.COLUMNS, count=6, digits=2))


@pytest.fixture
def three(pilot):
    """The page, for an otter, a seal and a gull, who know something of it."""
    others = [added(pilot.room.store, name, name.lower()) for name in ("Seal", "Gull")]
    learners = (pilot.room.learner, *others)
    for learner in learners:
        pilot.room.store.place(learner, [pilot.room.course.lessons[8].id], pilot.now())
    pilot.app.take(Push(GivingScreen(pilot.room, learners)))
    pilot.app.draw()
    return pilot


def usable(pilot, key):
    """Whether the button with these words can be pressed."""
    text = pilot.words.text(key)
    return any(one.text == text and not one.rests for one in pilot.screen.buttons)


def todo(pilot, learner=None):
    given = pilot.room.store.assigned(learner or pilot.room.learner)
    return [(one.work, one.text) for one in given if one.done is None]


def told(pilot):
    return " ".join(pilot.lines().replace("\u00a0", " ").split())


def tab(pilot, key):
    pilot.press_word(key)


def turn(pilot, sign="more", row=0):
    """Turn a row of the page on."""
    buttons = [one for one in pilot.screen.buttons if one.sign == sign and not one.rests]
    pilot.tap(buttons[row].place.center)


def test_from_the_settings_of_a_learner_work_is_given_to_them(pilot):
    screen = SettingsScreen(pilot.room)
    pilot.app.take(Push(screen))
    screen.page = 4
    screen.rearrange()
    pilot.press_word("giving.open")
    assert pilot.screen.learners == (pilot.room.learner,)
    pilot.press_word("giving.give")
    assert todo(pilot) == [(Work.LESSON, "beads-1")]


def test_all_of_them_have_it_and_it_is_said_to_whom_it_went(three):
    turn(three, row=0)
    turn(three, row=1)
    second_unit = three.room.course.units[1]
    wanted = three.room.course.lessons_of(second_unit.id)[1]
    three.press_word("giving.give")
    for learner in three.screen.learners:
        assert todo(three, learner) == [(Work.LESSON, wanted.id)]
    said = three.words.line("giving.given", title=wanted.title, who="Gull, Otter, Seal").show
    assert said in told(three)


def test_whoever_has_it_already_does_not_get_it_twice_and_that_is_said(three):
    tab(three, "giving.due")
    for _ in range(2):
        three.press_word("giving.give")
    assert [todo(three, one) for one in three.screen.learners] == [[(Work.DUE, "")]] * 3
    assert three.words.line("giving.had", who="Gull, Otter, Seal").show in told(three)


def test_who_has_done_no_lesson_gets_what_is_due_on_paper_and_nothing_where_nothing_is(pilot):
    room = pilot.room
    four_of_the_harbour(room)
    mole = next(one for one in room.store.learners() if one.nickname == "Mole")
    pilot.app.take(Push(GivingScreen(room, (room.learner, mole))))
    tab(pilot, "giving.due")
    pilot.press_word("giving.give")
    ((work, _),) = todo(pilot, mole)
    assert work is Work.SHEET and todo(pilot) == []
    for key, who in (("giving.due_sheet", "Mole"), ("giving.nothing_due", "Otter")):
        assert pilot.words.line(key, who=who).show in told(pilot)


def test_what_is_due_is_read_beside_the_window_and_given_once_it_is_read(three):
    three.room.aside = later = WhenTold()
    tab(three, "giving.due")
    three.press_word("giving.give")
    assert [todo(three, one) for one in three.screen.learners] == [[]] * 3
    assert three.words.text("giving.reading") in told(three)
    assert not usable(three, "giving.give") and not usable(three, "giving.slips")
    tab(three, "giving.lesson")
    later.go_on()
    three.wait(0.2)
    assert [todo(three, one) for one in three.screen.learners] == [[(Work.DUE, "")]] * 3
    assert three.words.line("giving.given", title="Today", who="Gull, Otter, Seal").show in told(
        three
    )
    assert usable(three, "giving.give")


def test_what_is_kept_in_memory_alone_is_read_at_once(pilot):
    pilot.room.keeper.use(Store(None))
    pilot.room.aside = WhenTold()
    found = read_beside(pilot.room, lambda store: store)
    assert found.done() and found.result() is pilot.room.store


def test_a_lesson_is_given_at_once_whatever_else_is_read(three):
    three.room.aside = WhenTold()
    three.press_word("giving.give")
    assert [todo(three, one) for one in three.screen.learners] == [
        [(Work.LESSON, three.screen.text)]
    ] * 3


def test_who_leaves_before_it_is_read_gives_nothing(three):
    three.room.aside = later = WhenTold()
    learners = three.screen.learners
    tab(three, "giving.due")
    three.press_word("giving.give")
    three.key(pygame.K_ESCAPE)
    later.go_on()
    three.wait(0.2)
    assert [todo(three, one) for one in learners] == [[]] * 3


def test_what_is_due_given_again_stands_in_the_place_of_what_was_and_that_is_told(pilot):
    room = pilot.room
    four_of_the_harbour(room)
    mole = next(one for one in room.store.learners() if one.nickname == "Mole")
    room.store.assign([(mole, Assigned.due_sheet(SIX, room.now()))])
    pilot.app.take(Push(GivingScreen(room, (mole,))))
    tab(pilot, "giving.due")
    pilot.press_word("giving.give")
    ((work, code),) = todo(pilot, mole)
    assert work is Work.SHEET and code != SIX
    assert pilot.words.line("giving.instead", who="Mole").show in told(pilot)


def test_a_slip_of_what_is_due_has_the_code_of_its_sheet(pilot, monkeypatch):
    room, slips = pilot.room, []
    monkeypatch.setattr(
        "frame.screens.tutor.slips.write_slips", lambda _, some, __: slips.extend(some)
    )
    four_of_the_harbour(room)
    mole = next(one for one in room.store.learners() if one.nickname == "Mole")
    for learner in (mole, room.learner):
        room.store.assign([(learner, Assigned(new_id(), room.now(), Work.DUE))])
    pilot.app.take(Push(GivingScreen(room, (room.learner, mole))))
    pilot.press_word("giving.slips")
    assert [(one.name, one.code) for one in slips] == [
        ("Mole", due_code(room.store, mole, room.now())), ("Otter", "")
    ]  # fmt: skip
    assert all(one.code for one in slips[:1])


def test_the_next_lesson_stands_ready(pilot):
    room = pilot.room
    for entry in room.course.lessons[:7]:
        room.store.place(room.learner, [entry.id], room.now())
    pilot.app.take(Push(GivingScreen(room, (room.learner,))))
    assert pilot.screen.text == room.course.lessons[7].id


def test_a_set_that_is_kept_by_name_comes_first_then_one_of_each_family(pilot):
    room = pilot.room
    kept = set_to(Choices().choose(family=Family.ROOT, digits=4))
    room.store.keep_set(room.learner, KeptSet(new_id(), "Quay", kept), room.now())
    pilot.app.take(Push(GivingScreen(room, (room.learner,))))
    tab(pilot, "giving.set")
    assert "Quay" in told(pilot)
    pilot.press_word("giving.give")
    texts = {set_text(set_to(Choices().choose(family=family))) for family in Family}
    assert todo(pilot) == [(Work.SET, set_text(kept))]
    assert texts < {one.text for one in pilot.screen.sets}


def test_a_paper_of_a_grade_is_given_by_its_code(pilot):
    pilot.app.take(Push(GivingScreen(pilot.room, (pilot.room.learner,))))
    tab(pilot, "giving.sheet")
    turn(pilot, row=0)
    turn(pilot, row=1)
    pilot.press_word("giving.give")
    ((work, code),) = todo(pilot)
    recipe = recipe_of(code)
    assert (work, recipe.kind, recipe.seed) == (Work.SHEET, Kind.PAPER, 2)


def test_a_sheet_is_given_by_a_code_that_is_typed(pilot):
    pilot.app.take(Push(GivingScreen(pilot.room, (pilot.room.learner,))))
    tab(pilot, "giving.sheet")
    pilot.press_word("giving.by_code")
    pilot.type("1400")
    pilot.press_word("giving.take_code")
    assert isinstance(pilot.screen, CodeToGive) and pilot.words.text("marks.no_code") in told(pilot)
    pilot.screen.show_signs("")
    pilot.type(SIX.lower())
    pilot.press_word("giving.take_code")
    assert isinstance(pilot.screen, GivingScreen) and SIX in told(pilot)
    pilot.press_word("giving.give")
    assert todo(pilot) == [(Work.SHEET, SIX)]


def test_a_sheet_that_was_just_saved_can_be_given(pilot):
    pilot.app.take(Push(SheetsPage(pilot.room)))
    pilot.press_word("sheets.save")
    code = pilot.screen.saved.code
    pilot.press_word("giving.open")
    pilot.press_word("giving.give")
    assert todo(pilot) == [(Work.SHEET, code)]


def test_what_was_given_is_shown_with_who_did_it_and_can_be_taken_back(three):
    otter, seal, gull = three.screen.learners
    three.press_word("giving.give")
    three.room.store.tick_off(seal, Work.LESSON, "beads-1", three.now())
    three.press_word("giving.before")
    assert isinstance(three.screen, GivenBefore)
    assert "To do: 2. Done: 1." in told(three)
    three.press_word("giving.take_back")
    assert [todo(three, one) for one in (otter, seal, gull)] == [[], [], []]
    assert "Taken back from Gull, Otter" in told(three)
    assert not [one for one in three.screen.buttons if one.text == "Take back"]


@pytest.mark.parametrize("size", [(1280, 720), (480, 800)])
def test_of_a_whole_class_each_name_is_found_with_who_has_done_it(pilot, size):
    room = pilot.room
    pilot.resize(size)
    some = [added(room.store, f"Sprat {at:02}", "owl") for at in range(30)]
    pilot.app.take(Push(GivingScreen(room, some)))
    pilot.press_word("giving.give")
    for one in some[:9]:
        room.store.tick_off(one, Work.LESSON, "beads-1", pilot.now())
    pilot.press_word("giving.before")
    assert "To do: 21. Done: 9." in told(pilot)
    pilot.press(room.course.by_id["beads-1"].title)
    assert isinstance(pilot.screen, GivenNames) and "To do: 21. Done: 9." in told(pilot)
    seen = []
    for page in range(pilot.screen.pages):
        if page:
            pilot.press("step_on")
        text = told(pilot)
        seen += [one.nickname for one in some if one.nickname in text]
    order = [one.nickname for one in (*some[9:], *some[:9])]
    assert sorted(seen) == sorted(order)
    assert [one.learner.nickname for one in pilot.screen.named] == order
    assert [one.is_done for one in pilot.screen.named] == [False] * 21 + [True] * 9


def test_of_many_works_each_is_found_on_some_page(pilot):
    room = pilot.room
    lessons = room.course.lessons[:12]
    for at, entry in enumerate(lessons):
        now = pilot.now() + timedelta(seconds=at)
        room.store.assign([(room.learner, Assigned(new_id(), now, Work.LESSON, entry.id))])
    pilot.app.take(Push(GivingScreen(room, (room.learner,))))
    pilot.press_word("giving.before")
    seen = []
    for page in range(pilot.screen.pages):
        if page:
            pilot.press("step_on")
        text = told(pilot)
        assert f"{page + 1} of 3" in text
        seen += [one.title for one in lessons if one.title in text]
    assert sorted(seen) == sorted(one.title for one in lessons)


def test_who_has_a_sheet_of_what_is_due_stands_there_with_its_code(pilot):
    room = pilot.room
    seal = added(room.store, "Seal", "seal")
    room.store.assign([(room.learner, Assigned(new_id(), room.now(), Work.DUE))])
    room.store.assign([(seal, Assigned.due_sheet(SIX, room.now()))])
    pilot.app.take(Push(GivingScreen(room, (room.learner, seal))))
    pilot.press_word("giving.before")
    pilot.press_word("today.title")
    assert "To do: 2. Done: 0." in told(pilot) and told(pilot).count(SIX) == 1


def test_slips_are_saved_for_all_that_is_open(three):
    three.press_word("giving.slips")
    assert three.words.text("giving.none_open") in told(three)
    three.press_word("giving.give")
    three.room.aside = later = WhenTold()
    three.press_word("giving.slips")
    assert three.words.text("giving.printing") in told(three)
    later.go_on()
    three.wait(0.2)
    (path,) = (three.room.folder / "sheets").iterdir()
    assert path.suffix == ".pdf" and path.name in told(three)


def test_the_same_slips_are_saved_once(three):
    three.press_word("giving.give")
    three.room.aside = later = WhenTold()
    for _ in range(3):
        three.press_word("giving.slips")
        assert not usable(three, "giving.slips") and not usable(three, "giving.give")
        later.go_on()
        three.wait(0.2)
        (path,) = (three.room.folder / "sheets").iterdir()
        assert not later.waiting and path.name in told(three)
    turn(three, row=1)
    three.press_word("giving.give")
    three.press_word("giving.slips")
    later.go_on()
    three.wait(0.2)
    assert len([*(three.room.folder / "sheets").iterdir()]) == 2


def test_slips_that_are_gone_are_saved_anew(three):
    three.press_word("giving.give")
    three.room.aside = later = WhenTold()
    for _ in range(2):
        three.press_word("giving.slips")
        later.go_on()
        three.wait(0.2)
        (path,) = (three.room.folder / "sheets").iterdir()
        path.unlink()


def test_where_the_file_can_not_be_read_it_is_told_and_nothing_is_given(three, monkeypatch):
    def refuse(*_):
        raise StoreError(three.room.store.path, "held", Trouble.HELD)

    with monkeypatch.context() as held:
        held.setattr(Store, "assigned", refuse)
        three.press_word("giving.give")
    assert three.words.text("store.held") in told(three) and todo(three) == []


def test_from_the_class_all_of_it_a_group_or_a_child_is_given_work(pilot):
    four_of_the_harbour(pilot.room)
    page = open_class(pilot)
    for group, names in (("", 4), ("quay", None)):
        page.group = group
        page.rearrange()
        pilot.press_word("giving.open")
        given = pilot.screen.learners
        assert given == tuple(page.learners) and (names is None or len(given) == names)
        pilot.key(pygame.K_ESCAPE)
    page.group = ""
    page.rearrange()
    pilot.press(CRAB)
    pilot.press_word("giving.open")
    assert [one.nickname for one in pilot.screen.learners] == [CRAB]

"""Sheets for the tutor: chosen, made beside the window, saved as files that can be made again."""

import re
from concurrent.futures import Future
from itertools import product

import pygame
import pytest
from grown_up import grow_up
from pilot import WhenTold
from sight import assert_well_laid_out, flaws, look_at

from frame.app import Push
from frame.course.attempts import Position
from frame.learner.settings import Age
from frame.learner.store import LessonState, StoreError
from frame.learner.trouble import Trouble
from frame.practice.evidence import Evidence
from frame.practice.families import Family, family_of_fact
from frame.practice.items import items_of_facts
from frame.printing.of_grades import doubts_of
from frame.screens.choosing.lock import Lock
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.choosing.sheets import SheetsPage
from frame.screens.paper.graded import measures_of
from frame.screens.parts.sheet_saving import sheet_folder
from frame.sheets.choices import KINDS, SheetChoices, Topic, fellow, fellows
from frame.sheets.code import recipe_of
from frame.sheets.grades import DigitsAre, grade, grades
from frame.sheets.making import sheet_of
from frame.sheets.recipe import Kind, Leaf, Part, Recipe, Version
from frame.sheets.sheet import Way
from frame.sheets.topics import fitting
from frame.technique.facts import ALL_FACTS

SIZES = [(800, 480), (1024, 768), (1280, 720), (1920, 1080), (600, 960), (720, 720)]
UNDRAWN = {"kind": Kind.COLUMNS, "topic": Family.ADD_DIRECT, "digits": 1}
"""A nine that comes at once needs a rod beside it."""


@pytest.fixture
def page(pilot):
    """The page, where whoever is here knows all."""
    pilot.room.set(all_open=True)
    return open_page(pilot)


def open_page(pilot):
    pilot.app.take(Push(SheetsPage(pilot.room)))
    pilot.app.draw()
    return pilot.screen


def learn(pilot, upto):
    """All lessons up to one, which is done too."""
    for entry in pilot.room.course.lessons:
        pilot.room.lessons[entry.id] = LessonState(1, Position(), done=True)
        if entry.id == upto:
            return entry
    raise LookupError(upto)


def choose(pilot, **choices):
    pilot.screen.choose(**choices)
    pilot.screen.rearrange()
    pilot.app.draw()


def files(pilot):
    return sorted(sheet_folder(pilot.room).glob("*.pdf"))


def seen(pilot):
    return pilot.lines().replace("\u00a0", " ")


def texts(pilot):
    return [one.text for one in pilot.screen.buttons]


# How it is reached


def test_it_lies_behind_the_lock_beside_the_report(pilot):
    pilot.room.store.set_code("2580")
    pilot.press("gear")
    assert isinstance(pilot.screen, Lock)
    for sign in (*"2580", "tick"):
        pilot.press(sign)
    pilot.press_word("settings.page_5")
    pilot.press_word("sheets.title")
    assert isinstance(pilot.screen, SheetsPage)


def test_where_nobody_is_here_the_computers_page_leads_there_and_else_the_learners(pilot):
    title = pilot.words.text("sheets.title")
    pilot.app.take(Push(SettingsScreen(pilot.room)))
    pilot.press_word("settings.page_6")
    assert title not in texts(pilot)
    pilot.room.leave()
    pilot.app.take(Push(SettingsScreen(pilot.room)))
    pilot.press_word("settings.page_6")
    pilot.press(title)
    assert isinstance(pilot.screen, SheetsPage)
    pilot.press_word("sheets.save")
    assert len(files(pilot)) == 1


# What is saved


@pytest.mark.parametrize("kind", KINDS)
def test_each_kind_is_saved_as_a_pdf_whose_code_makes_what_was_chosen(pilot, page, kind):
    choices = [one for dial in page.dials[:2] for one in dial.choices]
    pilot.press(choices[KINDS.index(kind)].text.show)
    assert page.choices.kind is kind
    pilot.press_word("sheets.save")
    (path,) = files(pilot)
    assert path.read_bytes().startswith(b"%PDF-") and path.suffix == ".pdf"
    recipe = recipe_of(page.saved.code)
    assert recipe.kind is kind
    assert [task.sum for task in sheet_of(recipe).tasks] == [
        task.sum for task in sheet_of(page.recipe).tasks
    ]
    assert page.saved.code in seen(pilot) and path.name in seen(pilot)


@pytest.mark.parametrize("part", Part)
def test_a_paper_of_a_grade_is_saved_by_its_part(pilot, page, part):
    pilot.press_word("sheets.paper")
    choose(pilot, grade="kyu-6", part=part, version=Version.B, leaf=Leaf.LETTER)
    pilot.press_word("sheets.save")
    assert recipe_of(page.saved.code) == Recipe(
        kind=Kind.PAPER, grade="kyu-6", part=part, version=Version.B, leaf=Leaf.LETTER
    )
    assert len(files(pilot)) == 1


def test_all_that_is_chosen_by_touch_stands_in_the_code(pilot, page):
    words = pilot.words
    for text in ("sheets.kind.products", "sheets.letter", "settings.on"):
        pilot.press_word(text)
    pilot.press("C")
    pilot.press("more")
    pilot.press_word("sheets.save")
    recipe = recipe_of(page.saved.code)
    assert (recipe.kind, recipe.leaf, recipe.version) == (Kind.PRODUCTS, Leaf.LETTER, Version.C)
    assert recipe.is_worked and words.text("sheets.save") not in texts(pilot), "it is saved once"


def test_other_numbers_make_another_sheet_and_the_same_choices_the_same(pilot, page):
    def saved():
        pilot.press_word("sheets.save")
        return sheet_of(recipe_of(pilot.screen.saved.code)).tasks

    choose(pilot, kind=Kind.PRODUCTS)
    first = saved()
    pilot.press_word("sheets.another")
    assert saved() != first
    pilot.key(pygame.K_ESCAPE)
    pilot.room.sheet = None
    open_page(pilot)
    choose(pilot, kind=Kind.PRODUCTS)
    assert saved() == first
    assert len(files(pilot)) == 3, "no file takes the place of another"


def test_it_goes_among_the_users_documents_where_the_system_names_a_folder(pilot, page, tmp_path):
    pilot.room.documents = tmp_path / "documents"
    pilot.press_word("sheets.save")
    assert [one.suffix for one in (tmp_path / "documents").iterdir()] == [".pdf"]
    assert str(tmp_path).replace("/", "") in re.sub("[ /]", "", seen(pilot))


def test_it_is_made_beside_the_window_and_told_meanwhile(pilot, page):
    pilot.room.aside = aside = WhenTold()
    pilot.press_word("sheets.save")
    assert pilot.words.text("sheets.making") in seen(pilot)
    assert pilot.words.text("sheets.save") not in texts(pilot), "it is begun once"
    pilot.wait(1)
    assert page.saved is None
    aside.go_on()
    pilot.wait(0.2)
    assert page.saved is not None and page.saved.code in seen(pilot)


def test_whoever_leaves_meanwhile_has_none_that_was_not_told(pilot, page):
    pilot.room.aside = aside = WhenTold()
    pilot.press_word("sheets.save")
    pilot.key(pygame.K_ESCAPE)
    aside.go_on()
    assert files(pilot) == []


class Begun:
    """What is done beside the window is under way, and ends when it is told to."""

    def do(self, work):
        future = Future()
        future.set_running_or_notify_cancel()
        self.end = lambda: future.set_result(work())
        return future


def test_nor_has_whoever_leaves_while_it_is_written(pilot, page):
    pilot.room.aside = aside = Begun()
    pilot.press_word("sheets.save")
    pilot.key(pygame.K_ESCAPE)
    aside.end()
    assert files(pilot) == []


# What cannot be


@pytest.mark.parametrize("trouble", [Trouble.FULL, Trouble.CLOSED, Trouble.TAKEN])
def test_why_it_cannot_be_saved_is_told_and_it_can_be_tried_again(
    pilot, page, trouble, monkeypatch
):
    def refuse(path, *_):
        raise StoreError(path, "no", trouble)

    with monkeypatch.context() as patch:
        patch.setattr("frame.printing.sheet_file.write_sheet", refuse)
        pilot.press_word("sheets.save")
    assert pilot.words.text(f"other_file.{trouble}") in seen(pilot)
    pilot.press_word("sheets.save")
    assert len(files(pilot)) == 1


def test_a_folder_that_cannot_be_is_told_of(pilot, page):
    folder = sheet_folder(pilot.room)
    folder.write_text("crates")
    pilot.press_word("sheets.save")
    assert page.saved is None and folder.name in seen(pilot)
    folder.unlink()
    pilot.press_word("sheets.save")
    assert len(files(pilot)) == 1


def test_what_cannot_be_drawn_is_told_with_the_nearest_which_can_be_taken(pilot, page):
    choose(pilot, **UNDRAWN)
    before = page.choices
    pilot.press_word("sheets.save")
    assert pilot.words.text("sheets.undrawn_near") in seen(pilot)
    assert page.choices == before and not files(pilot), "nothing is lost, and nothing is saved"
    pilot.press_word("sheets.take_nearest")
    pilot.press_word("sheets.save")
    assert recipe_of(page.saved.code).digits == 2


def test_where_nothing_is_near_that_is_told(pilot, page):
    choose(pilot, kind=Kind.READ, topic=Family.READ, digits=1)
    pilot.press_word("sheets.save")
    assert pilot.words.text("sheets.undrawn") in seen(pilot)
    assert pilot.words.text("sheets.take_nearest") not in texts(pilot)


# What it is for


def test_whoever_is_here_is_offered_their_last_lesson_first(pilot):
    entry = learn(pilot, "five-add-1")
    page = open_page(pilot)
    assert page.topic is Topic.LESSON and entry.title in seen(pilot)
    pilot.press_word("sheets.save")
    assert set(recipe_of(page.saved.code).facts) <= set(entry.new)


def test_whoever_has_learned_nothing_is_offered_all_alone(pilot):
    page = open_page(pilot)
    assert list(page.topics) == [Topic.ALL]


def test_of_families_what_is_known_is_offered(pilot):
    learn(pilot, "five-add-1")
    page = open_page(pilot)
    choose(pilot, kind=Kind.COLUMNS)
    offered = [one for one in page.topics if isinstance(one, Family)]
    assert Family.ADD_DIRECT in offered and Family.ADD_TEN not in offered
    known = {fact for one in pilot.room.course.lessons if one.id in pilot.room.lessons
             for fact in one.new}  # fmt: skip
    assert {fact for facts in page.topics.values() for fact in facts} <= known


def test_what_is_due_is_offered_once_it_is_counted(pilot):
    grow_up(pilot.room, 400, Age.MIDDLE)
    pilot.room.known.aside = aside = WhenTold()
    pilot.room.fold_anew()
    page = open_page(pilot)
    pilot.clock += 40 * 86400
    assert not pilot.room.known.is_counted and Topic.DUE not in page.topics
    while aside.waiting:
        aside.go_on()
    pilot.wait(0.2)
    choose(pilot, kind=Kind.COLUMNS, topic=Topic.DUE)
    assert page.topic is Topic.DUE
    pilot.press_word("sheets.save")
    asked = recipe_of(page.saved.code).facts
    assert asked and {family_of_fact(one).is_of_columns for one in asked} == {True}


@pytest.mark.parametrize("kind", [kind for kind in KINDS if kind is not Kind.FRAME])
def test_what_is_due_is_offered_for_each_kind_that_asks_for_it(pilot, page, kind):
    facts = [fact for fact in ALL_FACTS if fitting(kind, [fact])]
    at = pilot.room.now().timestamp()
    for item in items_of_facts(facts):
        pilot.room.mastery.add(Evidence(item, at - 90 * 86400, "past", right=True))
    choose(pilot, kind=kind)
    assert set(page.topics[Topic.DUE]) <= set(facts)
    assert pilot.words.text("sheets.topic") in seen(pilot)
    choose(pilot, topic=Topic.DUE)
    pilot.press_word("sheets.save")
    assert recipe_of(page.saved.code).facts


@pytest.mark.parametrize(
    ("kind", "said"),
    [
        (Kind.COLUMNS, ["Digits"]),
        (Kind.PRODUCTS, ["Digits of one factor", "Digits of the other"]),
        (Kind.QUOTIENTS, ["Digits of the answer", "Digits of the divisor"]),
        (Kind.ROOTS, ["Digits of the answer"]),
    ],
)
def test_it_is_said_whose_digits_they_are(pilot, page, kind, said):
    choose(pilot, kind=kind)
    names = [dial.label.show for dial in page.dials]
    assert [one for one in names if one.startswith("Digits")] == said


def test_sizes_that_were_chosen_stay_and_usual_ones_that_change_are_told(pilot, page):
    choose(pilot, kind=Kind.COLUMNS, topic=Topic.ALL)
    choose(pilot, topic=Family.ADD_DIRECT)
    assert (page.recipe.rows, page.recipe.digits) == (2, 2)
    assert "Numbers: 2." in seen(pilot)
    choose(pilot, topic=Topic.ALL)
    assert "Numbers: 5." in seen(pilot)
    choose(pilot, rows=4)
    assert pilot.words.text("sheets.resized") not in seen(pilot), "that was the tutor's own choice"
    choose(pilot, topic=Family.ADD_DIRECT)
    assert page.recipe.rows == 4 and "Numbers: " not in seen(pilot)


def test_nothing_is_taken_away_before_it_is_taught_and_the_choice_comes_back(pilot):
    learn(pilot, next(one.id for one in pilot.room.course.lessons if "add-direct-1" in one.new))
    page, switch = open_page(pilot), pilot.words.text("practise.minus")
    choose(pilot, kind=Kind.COLUMNS, topic=Topic.ALL, minus=True)
    assert switch in seen(pilot) and page.recipe.minus
    choose(pilot, topic=Topic.LESSON)
    assert switch not in seen(pilot) and not page.recipe.minus
    choose(pilot, topic=Topic.ALL)
    assert page.recipe.minus


def test_what_was_chosen_stays_for_the_sitting(pilot, page):
    choose(pilot, kind=Kind.ROOTS, count=7, version=Version.C)
    pilot.key(pygame.K_ESCAPE)
    assert open_page(pilot).choices == page.choices
    choose(pilot, is_paper=True)
    choose(pilot, is_paper=False)
    assert pilot.screen.choices.count == 7, "the other tab changes nothing"


def test_what_a_kind_has_not_is_for_all_and_comes_back_with_another(pilot, page):
    choose(pilot, kind=Kind.COLUMNS, topic=Family.ADD_TEN)
    choose(pilot, kind=Kind.ROOTS)
    assert page.topic is Topic.ALL
    choose(pilot, kind=Kind.LADDER)
    assert page.topic is Family.ADD_TEN


@pytest.mark.parametrize("kind", KINDS)
def test_there_is_a_row_for_each_size_that_changes_what_is_made(kind):
    choices = SheetChoices(kind=kind)
    shared = {"count": 4, "rows": 3, "digits": 2, "by": 2}
    for name, size in shared.items():
        recipe = choices.choose(**{name: size}).recipe(())
        changed = recipe != choices.recipe(())
        assert not changed or name in choices.sizes
    for name in choices.sizes:
        values = choices.values(name)
        assert getattr(choices.recipe(()), name) in values


def test_another_examination_keeps_the_grade_where_it_has_it():
    for one, other in product(grades().values(), repeat=2):
        found = grade(fellow(one.id, other.body, other.way))
        assert (found.body, found.way) == (other.body, other.way)
    assert fellow("kyu-3", "first association", Way.MIND) == "mental-kyu-3"
    assert fellow("second-kyu-15", "first association", Way.BEADS) == "kyu-10"
    assert set(fellows("first association", Way.MIND)) == {
        name for name in grades() if name.startswith("mental-")
    }


def test_a_grade_without_the_part_is_taken_whole():
    choices = SheetChoices(is_paper=True, grade="kyu-6", part=Part.QUOTIENTS)
    assert choices.choose(grade="kyu-5").part is Part.QUOTIENTS
    assert choices.choose(grade="kyu-10").part is Part.WHOLE


@pytest.mark.parametrize("name", grades())
def test_of_a_paper_it_is_told_what_counts_and_what_is_not_sure(room, name):
    one = grade(name)
    told = measures_of(name, Part.WHOLE, room.words)
    assert str(one.minutes) in told and str(one.full_marks) in told
    enough = one.pass_marks or one.sections[0].pass_marks
    assert room.words.text("sheet.pass_marks", marks=enough) in told
    doubts = doubts_of(name, room.words).lower()
    assert all(doubt.note.lower() in doubts for doubt in one.uncertain)
    assert ("our choice" in doubts) >= (one.digits_are is DigitsAre.OURS)


# How it is worked, heard and seen


def test_the_title_is_heard_and_then_the_choice_that_changed(pilot, page, heard):
    open_page(pilot)
    assert heard.said == ["Sheets to print"]
    pilot.press_word("sheets.letter")
    assert heard.said[-1] == "Paper size. Letter."
    pilot.press_word("sheets.save")
    assert heard.said[-1] == pilot.words.line("sheets.saved").speak


def test_the_keyboard_alone_will_do(pilot, page):
    texts = []
    for _ in page.buttons:
        pilot.key(pygame.K_TAB)
        texts.append(page.buttons[page.focus].text)
        if texts[-1] == pilot.words.text("sheets.save"):
            pilot.key(pygame.K_RETURN)
            break
    assert len(files(pilot)) == 1


def test_a_finger_will_do(pilot, page):
    pilot.wait_for_buttons()
    (save,) = (one for one in page.buttons if one.text == pilot.words.text("sheets.save"))
    pilot.finger_tap(save.place.center)
    assert len(files(pilot)) == 1


def chosen():
    """What has most to show: each kind, long families with large sizes, each grade."""
    for kind in KINDS:
        yield SheetChoices(kind=kind)
    for family in (Family.SUB_TEN_FIVE, Family.ADD_DIRECT):
        yield SheetChoices(topic=family, count=60, rows=15, digits=14, minus=True)
    for name in grades():
        yield SheetChoices(is_paper=True, grade=name)


@pytest.mark.parametrize("size", SIZES)
def test_all_of_it_has_room(room, size):
    room.set(all_open=True)
    found = []
    for room.sheet in chosen():
        found += [f"{room.sheet}: {flaw}" for flaw in flaws(look_at(SheetsPage(room), size))]
    room.sheet = None
    assert found == []


def test_what_became_of_it_has_room(pilot):
    grow_up(pilot.room, 400, Age.MIDDLE)
    pilot.clock += 40 * 86400
    page = open_page(pilot)
    for folder in (sheet_folder(pilot.room), pilot.room.folder / ("w" * 200)):
        pilot.room.documents = folder
        choose(pilot, kind=Kind.COLUMNS, topic=Topic.DUE)
        pilot.press_word("sheets.save")
        assert_well_laid_out([(page.saved.code, page)], SIZES)
    pilot.press_word("sheets.another")
    assert_well_laid_out([("others", page)], SIZES)


def test_what_cannot_be_drawn_has_room(pilot, page):
    for choices in (UNDRAWN, {"kind": Kind.READ, "topic": Family.READ, "digits": 1}):
        choose(pilot, **choices)
        pilot.press_word("sheets.save")
        assert_well_laid_out([(str(choices), page)], SIZES)

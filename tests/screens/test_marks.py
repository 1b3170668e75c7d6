"""A sheet worked on paper is marked on the screen, from its code to what is kept of it."""

from contextlib import closing
from copy import deepcopy
from dataclasses import replace

import pygame
import pytest
from kept import added
from pilot import WhenTold

from frame.app import Push
from frame.learner.class_kept import Member, keep_class
from frame.learner.folding import Fold, FoldRules
from frame.learner.lately import done_lately
from frame.learner.on_paper import keep_marked
from frame.learner.settings import Settings
from frame.learner.sheets_left import WHAT, codes_left, sheet_left
from frame.practice.exercises import Exercise
from frame.practice.exercises import Kind as Asks
from frame.report.class_reading import seen_of
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.marking.at_hand import AtHand
from frame.screens.marking.marks import MarksScreen
from frame.screens.marking.marks_end import MarksEnd
from frame.screens.marking.next_child import NextChild, waiting
from frame.screens.marking.touch_wrong import TouchWrong
from frame.screens.marking.type_answers import TypeAnswers
from frame.sheets.code import code_of
from frame.sheets.making import sheet_of
from frame.sheets.marking import mark
from frame.sheets.recipe import Kind, Recipe
from frame.sheets.sheet import Section, Sheet, Way
from frame.technique.conventions import USUAL, Carry, Outer
from frame.technique.expression import parse_calculation
from frame.technique.habits import Habit
from frame.technique.reading import plain
from frame.view.widgets import Style

SIX = Recipe(kind=Kind.COLUMNS, count=6, digits=2)
THIRTY = Recipe(kind=Kind.COLUMNS, count=30, digits=2)
SLIPPED = "2400-43m8-grnm", "2400-438M-GRNM"
"""A code, and the same with two signs in each other's place."""
PAPER = Recipe(kind=Kind.PAPER, grade="kyu-6")
CODES = {recipe: code_of(recipe) for recipe in (SIX, THIRTY, PAPER)}
SIGNS = {"-": pygame.K_MINUS, ".": pygame.K_PERIOD}


@pytest.fixture
def marks(pilot):
    """The page on which a code is typed."""
    pilot.app.take(Push(MarksScreen(pilot.room, pilot.room.learner)))
    pilot.app.draw()
    return pilot


def type_code(pilot, code):
    pilot.type(code)
    pilot.key(pygame.K_RETURN)


def type_number(pilot, number):
    """Its signs, each by a key; how many keys those were."""
    for sign in str(number):
        pilot.key(SIGNS.get(sign) or pygame.K_0 + int(sign))
    return len(str(number))


def give(pilot, number):
    """A number and Enter; how many keys those were."""
    count = type_number(pilot, number)
    pilot.key(pygame.K_RETURN)
    return count + 1


def rights(recipe):
    return [plain(task.sum.result) for task in sheet_of(recipe).tasks]


def with_wrong(recipe, **wrong):
    """The right answers to the tasks of a recipe, but those."""
    numbers = rights(recipe)
    for at, number in wrong.items():
        numbers[int(at[1:]) - 1] = number
    return numbers


def at_end(pilot, recipe=SIX, **wrong):
    """Type the code and all answers."""
    type_code(pilot, CODES[recipe])
    for number in with_wrong(recipe, **wrong):
        give(pilot, number)
    assert isinstance(pilot.screen, MarksEnd)


def told(pilot):
    """All that is told, no matter where its lines break."""
    return " ".join(pilot.lines().replace("\u00a0", " ").split())


def text(pilot, key, **facts):
    return pilot.words.text(key, **facts)


# The code


def test_from_the_settings_of_a_learner_a_sheet_can_be_marked(pilot):
    screen = SettingsScreen(pilot.room)
    pilot.app.take(Push(screen))
    screen.page = 4
    screen.rearrange()
    pilot.press_word("marks.open")
    assert isinstance(pilot.screen, MarksScreen)
    assert text(pilot, "marks.told.title", name="Otter") in told(pilot)


@pytest.mark.parametrize("change", [str, str.lower, lambda code: code.replace("-", "")])
def test_a_code_is_typed_in_any_case_with_hyphens_or_without(marks, change):
    type_code(marks, change(CODES[SIX]))
    assert isinstance(marks.screen, TypeAnswers)
    assert marks.screen.at_hand.sheet == sheet_of(SIX)


def test_a_code_is_touched(marks):
    for sign in "9" + CODES[SIX].replace("-", ""):
        marks.press(sign)
        if sign == "9" and len(marks.screen.signs) == 1:
            marks.press("erase")
    marks.press_word("marks.go_on")
    assert isinstance(marks.screen, TypeAnswers)


def test_where_two_signs_changed_places_the_code_that_was_meant_is_offered(marks):
    meant, typed = SLIPPED
    type_code(marks, typed)
    assert text(marks, "marks.no_code") in told(marks)
    assert text(marks, "marks.code.where", number=7, sign="8M") in told(marks)
    assert text(marks, "marks.code.check") in told(marks)
    marks.press(text(marks, "marks.code.near", code=meant.upper()))
    assert isinstance(marks.screen, TypeAnswers)
    assert code_of(marks.screen.at_hand.sheet.recipe) == meant.upper()


@pytest.mark.parametrize(
    ("typed", "expected"),
    [
        ("2400", "longer"),
        ("1400-43M8-GNQ", "newer"),
        ("2400-43U8-GRNM", "sign"),
        ("9400-43M8-GRNM", "older"),
    ],
)
def test_what_is_no_code_is_said_and_can_be_mended(marks, typed, expected):
    type_code(marks, typed)
    assert isinstance(marks.screen, MarksScreen)
    assert text(marks, f"marks.code.{expected}") in told(marks)
    for _ in typed:
        marks.key(pygame.K_BACKSPACE)
    assert text(marks, f"marks.code.{expected}") not in told(marks)
    type_code(marks, CODES[SIX])
    assert isinstance(marks.screen, TypeAnswers)


def test_a_sheet_without_tasks_has_nothing_to_be_marked(marks):
    type_code(marks, code_of(Recipe(kind=Kind.FRAME)))
    assert text(marks, "marks.empty") in told(marks)
    assert text(marks, "marks.no_code") not in told(marks)


def test_a_sheet_of_which_nothing_can_be_drawn_is_told(marks):
    type_code(marks, code_of(replace(SIX, facts=("multiply-1",))))
    assert text(marks, "marks.code.unmade") in told(marks)


def test_the_window_goes_on_while_the_sheet_is_made(marks):
    marks.room.aside = WhenTold()
    type_code(marks, CODES[SIX])
    assert text(marks, "marks.making") in told(marks)
    marks.room.aside.go_on()
    marks.wait(0.1)
    assert isinstance(marks.screen, TypeAnswers)


def test_a_sheet_that_is_made_is_let_go_where_another_code_is_typed(marks):
    marks.room.aside = WhenTold()
    type_code(marks, CODES[SIX])
    marks.key(pygame.K_BACKSPACE)
    marks.room.aside.go_on()
    marks.wait(0.2)
    assert isinstance(marks.screen, MarksScreen)


# The answers


def test_thirty_answers_cost_their_digits_and_an_enter_each(marks):
    type_code(marks, CODES[THIRTY])
    numbers, before = rights(THIRTY), marks.clock
    keys = sum(give(marks, number) for number in numbers)
    assert keys == sum(map(len, numbers)) + 30 <= 30 * 4
    assert marks.clock == before, "no time had to pass between any two keys"
    assert isinstance(marks.screen, MarksEnd)
    assert text(marks, "results.title", right=30, all=30) in told(marks)
    assert text(marks, "marks.told.all_right") in told(marks)


def test_a_wrong_one_is_told_while_the_next_is_here_already(marks):
    type_code(marks, CODES[SIX])
    right, *_ = rights(SIX)
    give(marks, 7)
    assert marks.screen.typed.at == 1
    assert text(marks, "marks.told.wrong", number=1, right=right, written=7) in told(marks)
    give(marks, rights(SIX)[1])
    line = text(marks, "marks.told.right", number=2, right=rights(SIX)[1])
    assert line in told(marks)


def test_what_was_behind_is_weighed_beside_the_window_and_told(marks):
    type_code(marks, code_of(THIRTY))
    marks.room.aside = WhenTold()
    give(marks, 19)  # 55 + 64, the carry left out
    give(marks, 74)  # 49 + 35
    assert text(marks, "marks.told.weighing") in told(marks)
    type_number(marks, 5)
    assert marks.screen.typed.text(0) == "5", "nobody waits for it"
    while marks.room.aside.waiting:
        marks.room.aside.go_on()
    marks.wait(0.2)
    answers = marks.screen.typed.answers[:2]
    behind = mark(sheet_of(THIRTY), answers).marks[1].behind
    assert behind is not None
    assert text(marks, f"report.habit.{behind.site.habit}.parent") in told(marks)


def test_backspace_mends_and_arrows_go_back(marks):
    type_code(marks, CODES[SIX])
    numbers = rights(SIX)
    give(marks, f"{numbers[0]}1")
    give(marks, numbers[1])
    for _ in range(2):
        marks.key(pygame.K_LEFT)
    marks.key(pygame.K_BACKSPACE)
    marks.key(pygame.K_RETURN)
    assert marks.screen.typed.at == 2
    for number in numbers[2:]:
        give(marks, number)
    assert text(marks, "results.title", right=6, all=6) in told(marks)


def test_enter_alone_is_no_answer(marks):
    type_code(marks, CODES[SIX])
    marks.wait(1)
    for number in ["", *rights(SIX)[1:]]:
        give(marks, number)
    assert text(marks, "results.title", right=5, all=6) in told(marks)
    assert text(marks, "marks.told.nothing") in told(marks)


def test_all_of_it_by_touch(marks):
    type_code(marks, CODES[SIX])
    numbers = rights(SIX)
    for sign in ("-", "1", "erase", "erase"):
        marks.press({"-": "−"}.get(sign, sign))
    for number in [*numbers[:5], "1"]:
        for sign in number:
            marks.press(sign)
        marks.press("tick")
    assert text(marks, "results.title", right=5, all=6) in told(marks)
    marks.press("6")
    assert marks.screen.typed.at == 5
    marks.press("step_back")
    assert marks.screen.typed.at == 4
    marks.press("step_on")
    marks.press("erase")
    for sign in numbers[5]:
        marks.press(sign)
    marks.press("tick")
    assert text(marks, "results.title", right=6, all=6) in told(marks)


def test_what_is_left_over_is_typed_in_a_field_of_its_own(pilot):
    tasks = tuple(Exercise(Asks.SUM, parse_calculation(one)) for one in ("17 / 5", "8 - 9"))
    sheet = Sheet(Recipe(kind=Kind.QUOTIENTS, count=2), (Section(Way.BEADS, tasks),))
    at_hand = AtHand(pilot.room, pilot.room.learner, sheet)
    pilot.app.take(Push(TypeAnswers(at_hand)))
    assert text(pilot, "marks.told.rest") in told(pilot)
    for number in ("3", "2", "-1"):
        give(pilot, number)
    assert text(pilot, "results.title", right=2, all=2) in told(pilot)


# Only the wrong ones


def test_the_numbers_of_the_wrong_ones_are_touched_or_typed(marks):
    type_code(marks, CODES[THIRTY])
    marks.press_word("marks.only_wrong")
    assert isinstance(marks.screen, TouchWrong)
    for number in ("4", "7", "7"):
        marks.press(number)
    for number in (12, 30, 30, 31, 9, 45):
        give(marks, number)
    marks.key(pygame.K_RETURN)
    assert text(marks, "results.title", right=27, all=30) in told(marks)
    numbers = [one.number for one in marks.screen.at_hand.marked.wrong]
    assert numbers == [4, 9, 12]
    marks.press_word("marks.keep")
    past = marks.room.store.past(marks.room.learner)
    assert [at for at, one in enumerate(past, 1) if not one.right] == numbers


def test_both_ways_keep_what_was_done_while_one_turns_between_them(marks):
    type_code(marks, CODES[SIX])
    give(marks, rights(SIX)[0])
    marks.press_word("marks.only_wrong")
    marks.press("3")
    marks.press_word("marks.answers")
    assert isinstance(marks.screen, TypeAnswers) and marks.screen.typed.at == 1
    marks.press_word("marks.only_wrong")
    marks.press_word("marks.to_end")
    assert text(marks, "results.title", right=5, all=6) in told(marks)


# The end


def test_a_paper_tells_its_marks_and_whether_they_are_enough(marks):
    type_code(marks, CODES[PAPER])
    sheet = marks.screen.at_hand.sheet
    marks.press_word("marks.only_wrong")
    marks.press_word("marks.to_end")
    most = marks.screen.at_hand.marked.most
    assert text(marks, "marks.told.marks", marks=most, most=most) in told(marks)
    assert text(marks, "marks.told.passed") in told(marks)
    assert text(marks, "marks.told.enough", enough=sheet.pass_marks) in told(marks)
    marks.key(pygame.K_ESCAPE)
    for number in range(1, len(sheet.tasks) + 1):
        give(marks, number)
    marks.press_word("marks.to_end")
    assert text(marks, "marks.told.not_passed") in told(marks)


def test_the_fault_that_cost_most_is_told_and_what_to_practise(marks):
    at_end(marks, THIRTY, n1=19, n2=74, n5=12, n6=78, n8="")
    marked = marks.screen.at_hand.marked
    behind = {one.number: one.behind for one in marked.wrong if one.behind}
    assert len(behind) > 1
    name = text(marks, f"report.habit.{Habit.CARRY_FORGOTTEN}.tutor")
    line = text(marks, "marks.told.most", fault=name, count=len(behind), all=len(marked.wrong) - 1)
    assert {one.site.habit for one in behind.values()} == {Habit.CARRY_FORGOTTEN}
    assert line in told(marks)
    assert text(marks, "family.add-ten") in told(marks)


def test_more_wrong_ones_than_there_is_room_for_are_turned_to(marks):
    type_code(marks, CODES[THIRTY])
    marks.press_word("marks.to_end")
    seen = set()
    for _ in range(6):
        assert marks.screen.greeting.show in told(marks)
        seen |= {one.text for one in marks.screen.buttons if one.text.isdigit()}
        if any(one.sign == "step_on" and not one.rests for one in marks.screen.buttons):
            marks.press("step_on")
    assert seen == {str(number) for number in range(1, 31)}


def test_keep_writes_it_with_the_learner_and_counts_it_at_once(marks):
    room = marks.room
    at_end(marks, n1=1, n4="")
    assert room.store.past(room.learner) == ()
    assert text(marks, "marks.told.at_end", name="Otter") in told(marks)
    marks.press_word("marks.keep")
    past = room.store.past(room.learner)
    assert [(one.origin, one.right) for one in past] == [
        ("paper", at not in (1, 4)) for at in range(1, 7)
    ]
    rules = FoldRules(room.settings.ladder_rules, room.settings.mastery_rules)
    anew = Fold.of(room.store, room.learner, rules)
    assert (room.ladder, room.mastery) == (anew.ladder, anew.mastery)
    assert room.known.lately == done_lately(room.store, room.learner, USUAL)
    assert text(marks, "marks.kept") in told(marks)


def test_whoever_types_on_behind_the_last_task_keeps_nothing(marks):
    at_end(marks)
    marks.wait(5)
    give(marks, 47)
    assert not marks.screen.is_kept
    marks.wait(5)
    marks.key(pygame.K_RETURN)
    assert marks.screen.is_kept


def test_it_is_kept_once_and_then_comes_another_sheet(marks):
    at_end(marks)
    marks.press_word("marks.keep")
    assert text(marks, "marks.keep") not in [one.text for one in marks.screen.buttons]
    marks.press_word("marks.another")
    assert isinstance(marks.screen, MarksScreen) and not marks.screen.signs
    assert marks.room.store.count_attempts(marks.room.learner) == 6
    at_end(marks)
    marks.press_word("marks.keep")
    assert marks.room.store.count_attempts(marks.room.learner) == 6, "it is the same sheet"
    assert text(marks, "marks.known") in told(marks) and text(marks, "marks.kept") not in told(
        marks
    )


def test_leaving_before_keeps_nothing_and_it_was_said(marks):
    said = text(marks, "marks.told.unkept")
    assert said in told(marks)
    type_code(marks, CODES[SIX])
    assert said in told(marks)
    for number in rights(SIX):
        give(marks, number)
    for _ in range(3):
        marks.key(pygame.K_ESCAPE)
    assert marks.room.store.count_attempts(marks.room.learner) == 0


@pytest.mark.parametrize("leaves", [1, 2])
def test_what_was_typed_is_there_again_whether_the_answers_were_left_or_the_code_too(marks, leaves):
    type_code(marks, CODES[SIX])
    first, second, *_ = rights(SIX)
    give(marks, f"9{first}")
    type_number(marks, second)
    for _ in range(leaves):
        marks.key(pygame.K_ESCAPE)
    if leaves == 2:
        marks.app.take(Push(MarksScreen(marks.room, marks.room.learner)))
        marks.app.draw()
    assert text(marks, "marks.told.left") in told(marks)
    marks.key(pygame.K_RETURN)
    typed = marks.screen.typed
    assert (typed.at, typed.text(0)) == (1, second)
    assert (typed.is_right(0), typed.is_right(1)) == (False, None)


def test_tasks_without_an_answer_are_counted_before_anything_is_kept(marks):
    type_code(marks, CODES[SIX])
    give(marks, rights(SIX)[0])
    marks.press_word("marks.to_end")
    assert text(marks, "marks.told.without_answer", count=len(rights(SIX)) - 1) in told(marks)
    assert "To practise" not in told(marks), "nothing that was answered is wrong"


def test_that_a_sheet_was_kept_today_is_told_before_it_is_kept_again(marks):
    for said in (False, True):
        type_code(marks, CODES[SIX])
        for number in rights(SIX):
            give(marks, number)
        assert (text(marks, "marks.known") in told(marks)) is said
        marks.press_word("marks.keep")
        marks.press_word("marks.another")


def test_an_answer_that_was_mended_is_not_wrong_by_touch_either(marks):
    type_code(marks, CODES[SIX])
    first = rights(SIX)[0]
    give(marks, f"9{first}")
    marks.press_word("marks.only_wrong")
    assert marks.screen.at_hand.wrong == {1}
    marks.press_word("marks.answers")
    marks.screen.typed.go(0)
    for _ in f"9{first}":
        marks.key(pygame.K_BACKSPACE)
    give(marks, first)
    marks.press_word("marks.only_wrong")
    assert marks.screen.at_hand.wrong == set()


@pytest.mark.parametrize(("digits", "by"), [(10, 5), (14, 7)])
def test_work_for_which_the_learners_school_lacks_rods_is_marked_and_kept(marks, digits, by):
    room = marks.room
    ours = replace(room.store.settings(room.learner), outer=Outer.MULTIPLIER)
    room.store.save_settings(room.learner, ours, room.now())
    large = Recipe(kind=Kind.PRODUCTS, count=4, digits=digits, by=by)
    type_code(marks, code_of(large))
    give(marks, 1)
    for number in rights(large)[1:]:
        give(marks, number)
    marks.wait(2)
    marks.press_word("marks.keep")
    assert room.store.count_attempts(room.learner) == 4
    assert seen_of(room.store, room.learner, room.now()).pupil.week.exercises == (3, 4)


def test_what_was_given_outlives_a_window_that_is_killed(marks):
    type_code(marks, CODES[SIX])
    first, second, *_ = rights(SIX)
    give(marks, first)
    give(marks, f"9{second}")
    with closing(marks.room.store.second()) as on_disk:
        text = on_disk.folded(marks.room.learner, WHAT)
    (code,) = codes_left(text)
    typed = sheet_left(text, code, sheet_of(SIX)).typed
    assert (typed.at, typed.is_right(0), typed.is_right(1)) == (2, True, False)


def test_what_was_touched_is_there_again_and_by_touch(marks):
    type_code(marks, CODES[SIX])
    marks.press_word("marks.only_wrong")
    marks.press("3")
    marks.key(pygame.K_ESCAPE)
    marks.key(pygame.K_RETURN)
    assert isinstance(marks.screen, TouchWrong) and marks.screen.at_hand.wrong == {3}


def test_of_two_sheets_that_were_left_each_is_there_again_the_last_one_at_once(marks):
    for code, number in ((CODES[SIX], 1), (CODES[THIRTY], 2)):
        type_code(marks, code)
        type_number(marks, number)
        marks.key(pygame.K_ESCAPE)
        for _ in code:
            marks.key(pygame.K_BACKSPACE)
    marks.key(pygame.K_ESCAPE)
    marks.app.take(Push(MarksScreen(marks.room, marks.room.learner)))
    marks.key(pygame.K_RETURN)
    assert marks.screen.typed.text(0) == "2"
    marks.key(pygame.K_ESCAPE)
    for _ in CODES[THIRTY]:
        marks.key(pygame.K_BACKSPACE)
    type_code(marks, CODES[SIX])
    assert marks.screen.typed.text(0) == "1"


def test_a_sheet_without_an_answer_or_that_is_kept_is_not_half_marked(marks):
    type_code(marks, CODES[SIX])
    marks.key(pygame.K_ESCAPE)
    assert text(marks, "marks.told.left") not in told(marks)
    type_code(marks, "")
    for number in rights(SIX):
        give(marks, number)
    marks.press_word("marks.keep")
    marks.press_word("marks.another")
    type_code(marks, CODES[SIX])
    assert not marks.screen.typed.is_begun


# Another child


@pytest.fixture
def three(marks):
    """Two more, who are here."""
    return [added(marks.room.store, name) for name in ("Seal", "Heron")]


def kept_of(pilot, learner):
    return pilot.room.store.count_attempts(learner)


def test_the_same_sheet_of_one_child_after_another_by_keys_alone(marks, three):
    room, (seal, heron) = marks.room, three
    at_end(marks, n2=7)
    for learner in (seal, heron):
        marks.wait(2)
        marks.key(pygame.K_RETURN)  # Keep.
        marks.key(pygame.K_RETURN)  # Another child.
        assert isinstance(marks.screen, NextChild)
        marks.wait(1)
        marks.key(pygame.K_RETURN)  # The next one.
        assert isinstance(marks.screen, TypeAnswers)
        assert text(marks, "marks.told.title", name=learner.nickname) in told(marks)
        for number in rights(SIX):
            give(marks, number)
    marks.wait(2)
    marks.press_word("marks.keep")
    assert text(marks, "marks.another_child") not in [one.text for one in marks.screen.buttons]
    assert [kept_of(marks, one) for one in (room.learner, seal, heron)] == [6, 6, 6]
    assert [one.right for one in room.store.past(room.learner)].count(False) == 1
    marks.press_word("marks.another")
    assert not marks.screen.signs


def test_only_of_whoever_is_here_is_it_counted_at_once(marks, three):
    before = deepcopy((marks.room.mastery, marks.room.ladder, marks.room.known.lately))
    marks.app.take(Push(MarksScreen(marks.room, three[0])))
    at_end(marks, n2=7)
    marks.press_word("marks.keep")
    assert kept_of(marks, three[0]) == 6
    assert (marks.room.mastery, marks.room.ladder, marks.room.known.lately) == before


def test_any_child_may_be_next_and_whoever_is_left_half_marked_waits(marks, three):
    at_end(marks)
    marks.press_word("marks.keep")
    marks.press_word("marks.another_child")
    marks.press("Heron")
    type_number(marks, 4)
    marks.key(pygame.K_ESCAPE)
    assert text(marks, "marks.told.title", name="Heron") in told(marks)
    marks.key(pygame.K_RETURN)
    assert marks.screen.typed.text(0) == "4"


def test_who_was_marked_today_is_asked_for_no_more_and_the_way_stays(marks, three):
    keep_marked(marks.room.store, three[0], mark(sheet_of(SIX), []), USUAL, marks.now())
    type_code(marks, CODES[SIX])
    marks.press_word("marks.only_wrong")
    marks.press_word("marks.to_end")
    marks.press_word("marks.keep")
    marks.press_word("marks.another_child")
    assert [one.text for one in marks.screen.buttons if one.style is Style.TICKET] == ["Heron"]
    marks.key(pygame.K_ESCAPE)
    assert isinstance(marks.screen, MarksEnd) and marks.screen.is_kept
    marks.press_word("marks.another_child")
    marks.press("Heron")
    assert isinstance(marks.screen, TouchWrong)


def test_of_a_class_its_children_come_in_its_order_and_nobody_else(marks, three):
    seal, heron = three
    room = marks.room
    newt = added(room.store, "Newt")
    keep_class(room.store, [Member(one) for one in (newt, seal, heron)])
    code = CODES[SIX]
    assert waiting(room, seal, code) == (heron, newt)
    assert waiting(room, room.learner, code) == (seal, heron, newt), "who is in no class"
    keep_marked(room.store, heron, mark(sheet_of(SIX), []), USUAL, marks.now())
    assert waiting(room, seal, code) == (newt,)
    assert waiting(room, seal, CODES[THIRTY]) == (heron, newt)


def test_a_child_is_marked_by_its_own_schools_way(marks, three):
    room, seal = marks.room, three[0]
    other = Settings(carry=Carry.FIRST)
    assert room.settings.conventions != other.conventions
    room.store.save_settings(seal, other, marks.now())
    assert AtHand(room, seal, sheet_of(SIX)).conventions == other.conventions


def test_what_was_typed_wrong_is_wrong_on_the_tiles_too(marks):
    type_code(marks, CODES[SIX])
    first, second, *_ = rights(SIX)
    give(marks, f"9{first}")
    give(marks, second)
    marks.press_word("marks.only_wrong")
    assert marks.screen.at_hand.wrong == {1}
    marks.press_word("marks.to_end")
    assert [one.number for one in marks.screen.at_hand.marked.wrong] == [1]

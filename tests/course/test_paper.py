"""A paper under way: whatever the order and the pauses, what is handed in is marked by its answers
alone, and by the clock by those in time."""

from datetime import UTC, datetime
from decimal import Decimal
from itertools import combinations
from random import Random

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.course.next_paper import PaperChoices, graded_recipe, next_recipe
from frame.course.paper import Paper
from frame.course.read_off import read_off
from frame.sheets.code import code_of
from frame.sheets.grades import grades
from frame.sheets.marking import Answer, mark, mark_at_once
from frame.sheets.papers import paper
from frame.sheets.recipe import Kind, Part, Recipe, Version
from frame.technique.beads import Frame
from frame.technique.conventions import Conventions, Operands, Outer
from frame.technique.planning import plan_of
from frame.technique.reading import plain

BEGAN = datetime(2026, 5, 4, 9, 30, tzinfo=UTC)
SHEET = paper(Recipe(kind=Kind.PAPER, grade="kyu-8"))
COUNT, MINUTES = len(SHEET.tasks), 20
RIGHT = tuple(task.sum.result for task in SHEET.tasks)
INDICES = st.integers(0, COUNT - 1)
OFFS = st.lists(st.sampled_from([0, 0, 1, None]), min_size=COUNT, max_size=COUNT)
"""By how much each answer is off; None for no answer."""


def begun(sheet=SHEET, now=0.0, is_clocked=True):
    return Paper.begun(sheet, BEGAN, now, is_clocked=is_clocked)


def typed(under_way, number, now=0.0):
    for sign in plain(Decimal(number)):
        under_way = under_way.type(sign, now)
    return under_way


def answered(under_way, offs, order=None, now=0.0):
    for at in order or range(COUNT):
        if offs[at] is not None:
            under_way = typed(under_way.go(at), RIGHT[at] + offs[at], now)
    return under_way


def answers(offs):
    return [
        None if off is None else Answer(right + off) for right, off in zip(RIGHT, offs, strict=True)
    ]


@given(OFFS)
def test_what_is_open_of_each_section_is_all_that_is_open(offs):
    under_way = answered(begun(), offs)
    parts = under_way.open_of_sections
    assert tuple(at for part in parts for at in part) == under_way.open
    assert [len(one.tasks) for one in SHEET.sections] == [10, 10, 10]
    assert all(at in SHEET.bounds[one] for one, part in enumerate(parts) for at in part)


@given(OFFS, st.permutations(range(COUNT)))
def test_in_any_order_it_is_marked_by_its_answers(offs, order):
    handed = answered(begun(), offs, order).hand_in(60.0)
    assert handed.answers == tuple(answers(offs))
    assert handed.marked == handed.marked_whole == mark_at_once(SHEET, answers(offs))


def test_the_marks_are_those_of_the_same_sheet_marked_from_paper():
    offs = [[0, 1, 0, 10, None][at % 5] for at in range(COUNT)]
    whole, by_screen = mark(SHEET, answers(offs)), answered(begun(), offs).hand_in(60.0).marked
    assert (by_screen.points, by_screen.most) == (whole.points, whole.most)
    assert [one.is_right for one in by_screen.marks] == [one.is_right for one in whole.marks]
    by_hand = sum(
        section.marks
        for section, start in zip(SHEET.sections, (0, 10, 20), strict=True)
        for at in range(start, start + len(section.tasks))
        if offs[at] == 0
    )
    assert by_screen.points == by_hand


SPANS = st.lists(st.tuples(st.booleans(), st.floats(0, 1000)), max_size=12)
"""So many seconds each, paused or worked."""


@given(SPANS)
def test_pauses_are_no_work(spans):
    under_way, now = begun(now=5.0), 5.0
    for is_paused, seconds in spans:
        under_way = under_way.pause(now) if is_paused else under_way.go_on(now)
        now += seconds
    handed = under_way.hand_in(now)
    worked = sum(seconds for is_paused, seconds in spans if not is_paused)
    assert handed.seconds == pytest.approx(worked)
    assert handed.paused == pytest.approx(now - 5.0 - worked)
    starts = [is_paused for is_paused, _ in spans]
    changes = sum(one and not before for before, one in zip([False, *starts], starts, strict=False))
    assert handed.pauses == changes


@given(st.floats(0, 3000), st.floats(0, 3000), st.booleans())
def test_by_the_clock_what_is_typed_in_time_counts(first, then, is_clocked):
    under_way = typed(begun(is_clocked=is_clocked), RIGHT[0], first)
    under_way = typed(under_way.go(1), RIGHT[1], first + then)
    handed = under_way.hand_in(first + then)
    limit = MINUTES * 60 if is_clocked else float("inf")
    right = [one.is_right for one in handed.marked.marks[:2]]
    assert right == [first < limit, first + then < limit]
    assert all(one.is_right for one in handed.marked_whole.marks[:2])


def test_an_answer_that_is_changed_too_late_counts_as_it_was():
    late = MINUTES * 60 + 1
    handed = typed(begun(), RIGHT[0], 1).erase(late).type("0", late).hand_in(late)
    assert handed.marked.marks[0].is_right
    assert handed.answers != handed.in_time


def test_a_pause_gives_the_minutes_back():
    under_way = begun().pause(60.0).go_on(7260.0)
    assert not under_way.is_over(7260.0 + (MINUTES - 1) * 60 - 1)
    assert under_way.is_over(7260.0 + (MINUTES - 1) * 60)


def test_to_pause_or_go_on_once_more_changes_nothing():
    paused = begun().pause(60.0)
    assert paused.pause(90.0) is paused
    assert begun().go_on(90.0) == begun()


@given(st.sets(INDICES), INDICES)
def test_on_leads_to_the_next_one_without_an_answer(given_ones, at):
    under_way = begun()
    for one in sorted(given_ones):
        under_way = typed(under_way.go(one), 7)
    under_way = under_way.go(at)
    waiting = [one for one in range(COUNT) if one not in given_ones]
    assert list(under_way.open) == waiting
    others = [one for one in waiting if one != at]
    expected = min(others, key=lambda one: (one < at, one), default=at)
    assert under_way.on().at == expected


@given(st.integers(-100, 200))
def test_to_go_too_far_leads_to_the_last_one(at):
    assert begun().go(at).at == min(max(0, at), COUNT - 1)


def test_a_sign_alone_is_no_answer():
    handed = begun().type("-", 0.0).hand_in(1.0)
    assert handed.answers[0] is None


# Which paper is next


def test_a_new_paper_is_another_version_and_then_another_set():
    taken = []
    for at in range(7):
        part = (Part.WHOLE, Part.COLUMNS)[at % 2]
        taken.append(next_recipe(PaperChoices(grade="kyu-8", part=part), taken, Random(1)))
    assert [(one.seed, one.version) for one in taken] == [
        *((1, one) for one in Version), *((2, one) for one in Version), (3, Version.A),
    ]  # fmt: skip
    sheets = [{task.sum for task in paper(one).tasks} for one in taken]
    assert not sheets[0] & sheets[1] and not sheets[1] & sheets[2]
    assert all(one != other for one, other in combinations(sheets, 2))


def test_papers_that_two_grades_share_are_not_had_twice():
    first = next_recipe(PaperChoices(grade="mental-kyu-10"), (), Random(1))
    shared = [one.id for one in grades().values() if one.paper == grades()["mental-kyu-10"].paper]
    assert len(shared) > 1
    for name in shared:
        following = next_recipe(PaperChoices(grade=name), [first], Random(1))
        assert (following.seed, following.version) == (1, Version.B)


def test_a_warm_up_takes_nothing_from_papers_to_come():
    for seed in range(50):
        recipe = next_recipe(PaperChoices(part=Part.WARM_UP), (), Random(seed))
        assert recipe.seed >= 5000


def test_a_grade_without_the_part_is_chosen_whole():
    products = PaperChoices(grade="kyu-8", part=Part.PRODUCTS)
    assert products.choose(grade="kyu-9").part is Part.PRODUCTS
    assert products.choose(grade="second-kyu-15").choose(part=Part.QUOTIENTS).part is Part.WHOLE


def test_only_the_code_of_a_paper_tells_of_one():
    recipe = Recipe(kind=Kind.PAPER, grade="kyu-8", part=Part.COLUMNS)
    assert graded_recipe(code_of(recipe)) == recipe
    assert graded_recipe(code_of(Recipe(kind=Kind.COLUMNS))) is None
    assert graded_recipe("no code") is None


# Read off a frame


@pytest.mark.parametrize("layout", Operands)
@pytest.mark.parametrize("outer", Outer)
def test_what_the_work_leaves_is_no_part_of_the_answer(layout, outer):
    conventions = Conventions(layout=layout, outer=outer)
    for name in ("kyu-6", "kyu-1"):
        for task in paper(Recipe(kind=Kind.PAPER, grade=name)).tasks:
            plan = plan_of(task.sum, conventions, task.rods)
            if task.sum.result > 0:
                assert read_off(plan.end, plan) == task.sum.result


@given(st.integers(1, 9999))
def test_any_number_alone_is_read_as_it_stands(number):
    from frame.technique.reading import frame_of

    for task in SHEET.tasks:
        plan = plan_of(task.sum, rods=task.rods)
        frame = frame_of(Decimal(number), len(plan.start.digits), plan.start.units)
        assert read_off(frame, plan) == number


def test_a_result_on_the_last_rods_is_read_with_its_ones_there():
    for task in paper(Recipe(kind=Kind.PAPER, grade="kyu-6")).tasks:
        plan = plan_of(task.sum, rods=task.rods)
        rods, lowest = len(plan.start.digits), plan.start.lowest
        if not task.sum.result % 10**-lowest:
            continue  # It could be a smaller one, with its ones where they are taught to be.
        frame = Frame(str(task.sum.result).rjust(rods, "0"), plan.start.units)
        assert read_off(frame, plan) == task.sum.result

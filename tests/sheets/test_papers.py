"""Graded papers: which parts there are of them, when they are alike, and what marks come to."""

import pytest
from each import each_row

from frame.sheets.grades import grade, grades
from frame.sheets.papers import WARM_UP, is_passed, paper, rank, score, section_scores
from frame.sheets.recipe import Kind, Part, Recipe, Version
from frame.sheets.sheet import Way
from frame.technique.calculation import Product, Quotient, Sum
from frame.technique.conventions import USUAL
from frame.technique.planning import plan_of

SORTS = {Part.COLUMNS: Sum, Part.PRODUCTS: Product, Part.QUOTIENTS: Quotient}


def recipe(name, **others):
    return Recipe(kind=Kind.PAPER, grade=name, **others)


def texts(sheet):
    return [str(task) for task in sheet.tasks]


def answers(sheet, *right):
    """So many right in each section, from its first task on."""
    return [
        at < count
        for section, count in zip(sheet.sections, right, strict=True)
        for at in range(len(section.tasks))
    ]


@each_row("name", grades())
def test_a_part_is_of_the_whole(name):
    whole, row = paper(recipe(name)), grade(name)
    assert (whole.minutes, whole.pass_marks) == (row.minutes, row.pass_marks)
    for part in row.parts[1:-1]:
        sheet = paper(recipe(name, part=part))
        assert all(isinstance(task.sum, SORTS[part]) for task in sheet.tasks)
        assert texts(sheet) == [str(one) for one in whole.tasks if isinstance(one.sum, SORTS[part])]


@each_row("name", grades())
def test_a_warm_up_is_five_of_the_whole_from_all_sections_and_nobody_has_to_pass_it(name):
    whole, warm_up = paper(recipe(name)), paper(recipe(name, part=Part.WARM_UP))
    assert len(warm_up.tasks) == WARM_UP == len(set(texts(warm_up)))
    for section, of_whole in zip(warm_up.sections, whole.sections, strict=True):
        assert set(section.tasks) <= set(of_whole.tasks) and section.way is of_whole.way
        assert len(section.tasks) >= WARM_UP // len(whole.sections)
        assert (section.minutes, section.pass_marks) == (0, 0)
    assert (warm_up.minutes, warm_up.pass_marks) == (0, 0)
    assert is_passed(warm_up, [True] * WARM_UP) is None and rank(warm_up, [True] * WARM_UP) == ""


@pytest.mark.parametrize("name", ["kyu-1", "mental-kyu-7", "second-kyu-15"])
@pytest.mark.parametrize("part", [Part.WHOLE, Part.COLUMNS, Part.WARM_UP])
def test_the_same_recipe_makes_the_same_paper_and_another_seed_or_version_another(name, part):
    one = paper(recipe(name, part=part))
    assert one == paper(recipe(name, part=part))
    for other in (recipe(name, part=part, seed=2), recipe(name, part=part, version=Version.B)):
        assert texts(paper(other)) != texts(one)


def test_grades_with_one_paper_get_the_same_tasks_and_other_grades_do_not():
    assert texts(paper(recipe("kyu-9"))) == texts(paper(recipe("kyu-10")))
    assert not set(texts(paper(recipe("kyu-1")))) & set(texts(paper(recipe("dan"))))


def test_beads_are_worked_on_an_own_frame_and_mental_papers_without_one():
    beads, mind = paper(recipe("kyu-6")), paper(recipe("mental-kyu-6"))
    assert {section.way for section in beads.sections} == {Way.BEADS}
    assert {section.way for section in mind.sections} == {Way.MIND}
    assert all(task.own for task in beads.tasks) and not any(task.own for task in mind.tasks)


@each_row("name", grades())
def test_the_work_of_every_task_fits_its_frame(name):
    for section in paper(recipe(name)).sections:
        for task in section.tasks[::7]:
            assert len(plan_of(task.sum, USUAL, task.rods).start.digits) == task.rods


def test_rows_of_the_first_mental_papers_grow_from_stretch_to_stretch():
    rows = [len(task.sum.terms) for task in paper(recipe("mental-kyu-8")).tasks]
    assert rows == [3] * 15 + [4] * 15 + [5] * 20


@pytest.mark.parametrize("name", ["kyu-1", "dan", "mental-kyu-1", "mental-dan", "kyu-3"])
def test_versions_have_as_many_tasks_of_each_shape(name):
    shapes = [
        sorted(
            [task.sum.terms[-1] < 0 > task.sum.result, sum(term < 0 for term in task.sum.terms)]
            if isinstance(task.sum, Sum)
            else [len(str(number)) for number in halves(task.sum)]
            for task in paper(recipe(name, version=version)).tasks
        )
        for version in Version
    ]
    assert shapes[0] == shapes[1] == shapes[2]


def halves(work):
    """Factor and multiplier, or divisor and quotient."""
    return work.numbers if isinstance(work, Product) else (work.divisor, work.result)


def test_every_digit_comes_and_none_is_0_alone():
    terms = [term for task in paper(recipe("mental-kyu-7")).tasks for term in task.sum.terms]
    assert set(terms) == set(range(1, 10))


def test_which_columns_end_below_zero_is_not_known_before():
    sheets = [paper(recipe("kyu-1", seed=seed, part=Part.COLUMNS)) for seed in range(1, 20)]
    places = {[task.sum.result < 0 for task in sheet.tasks].index(True) for sheet in sheets}
    assert len(places) > 4


def test_a_part_or_a_grade_that_is_not_there_is_told():
    with pytest.raises(ValueError, match="kyu-9 has no quotients; expected one of whole, columns"):
        paper(recipe("kyu-9", part=Part.QUOTIENTS))
    with pytest.raises(KeyError):
        paper(recipe("kyu-99"))


def test_marks_are_those_of_the_tasks_that_are_right():
    sheet = paper(recipe("kyu-3"))
    assert section_scores(sheet, answers(sheet, 10, 0, 20)) == (100, 0, 100)
    assert score(sheet, answers(sheet, 1, 1, 1)) == 20
    with pytest.raises(ValueError, match="49 answers for 50 tasks"):
        score(sheet, [True] * 49)


@pytest.mark.parametrize(
    ("name", "right", "passed"),
    [
        ("kyu-3", (10, 20, 8), True),  # 240 of 300, whatever a section gives.
        ("kyu-3", (10, 20, 7), False),
        ("mental-kyu-7", (40,), True),
        ("mental-kyu-7", (39,), False),
        ("mental-kyu-10", (25,), True),
        ("mental-kyu-10", (24,), False),
        ("second-kyu-8", (10, 10, 10), True),  # 100 of 150 in each section.
        ("second-kyu-8", (15, 15, 9), False),
        ("dan", (9, 18, 18), True),  # 90 of 300 in each section.
        ("dan", (30, 60, 17), False),
    ],
)
def test_a_paper_is_passed_by_its_marks_or_by_those_of_every_section(name, right, passed):
    sheet = paper(recipe(name))
    assert is_passed(sheet, answers(sheet, *right)) is passed


def test_a_section_alone_has_marks_to_pass_where_the_grade_says_so():
    of_kyu, of_dan = (paper(recipe(name, part=Part.PRODUCTS)) for name in ("kyu-1", "dan"))
    assert of_kyu.minutes == 0 and is_passed(of_kyu, answers(of_kyu, 20)) is None
    assert of_dan.minutes == 10 and is_passed(of_dan, answers(of_dan, 18)) is True
    assert is_passed(of_dan, answers(of_dan, 17)) is False


@pytest.mark.parametrize(
    ("name", "right", "reached"),
    [
        ("dan", (8, 60, 60), ""),
        ("dan", (9, 60, 60), "pre-1"),  # What is reached in all sections counts.
        ("dan", (10, 20, 20), "1"),
        ("mental-dan", (15, 32, 31), "3"),
        ("dan", (29, 58, 58), "10"),
        ("dan", (29, 58, 57), "9"),
        ("second-dan", (15, 30, 30), "pre-4"),
        ("second-mental-dan", (13, 40, 40), ""),
        ("second-mental-dan", (23, 40, 40), "pre-5"),
        ("kyu-1", (10, 20, 20), ""),
    ],
)
def test_a_dan_has_the_rank_that_all_its_sections_reach(name, right, reached):
    sheet = paper(recipe(name))
    assert rank(sheet, answers(sheet, *right)) == reached


def test_one_section_of_a_dan_has_a_rank_of_its_own():
    sheet = paper(recipe("dan", part=Part.COLUMNS))
    assert rank(sheet, answers(sheet, 20)) == "6"

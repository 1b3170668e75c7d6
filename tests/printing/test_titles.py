"""What a sheet is called, and what a graded paper says of itself."""

import pytest
from each import each_row
from printed_sheets import ladder, paper, sums
from shipped import the_words

from frame.printing.of_grades import marks_of
from frame.printing.titles import (
    Group,
    below_title,
    group_line,
    headings_of,
    title_of,
)
from frame.sheets.recipe import Kind, Part, Recipe
from frame.sheets.sheet import Sheet

WORDS = the_words()


@pytest.mark.parametrize(
    ("recipe", "title"),
    (
        (Recipe(kind=Kind.COLUMNS, rows=5, digits=2), "Columns: 5 numbers of 2 digits"),
        (Recipe(kind=Kind.COLUMNS, rows=2), "Columns: 2 numbers of 1 digit"),
        (Recipe(kind=Kind.PRODUCTS, digits=3, by=2), "Products: 3 digits × 2 digits"),
        (
            Recipe(kind=Kind.QUOTIENTS, digits=2),
            "Quotients: answers of 2 digits, divisors of 1 digit",
        ),
        (
            Recipe(kind=Kind.COLUMNS, rows=3, digits=2, facts=("add-five-4",)),
            "Columns: 3 numbers of up to 2 digits",
        ),
        (
            Recipe(kind=Kind.COLUMNS, rows=3, facts=("add-five-4",)),
            "Columns: 3 numbers of 1 digit",
        ),
        (
            Recipe(kind=Kind.PRODUCTS, digits=3, by=2, facts=("multiply-2",)),
            "Products: 3 digits × 2 digits",
        ),
        (
            Recipe(kind=Kind.PRODUCTS, digits=2, facts=("multiply-1", "unit-rod")),
            "Products: up to 2 digits × 1 digit",
        ),
        (
            Recipe(kind=Kind.QUOTIENTS, digits=2, facts=("round",)),
            "Quotients: answers of up to 2 digits before the point, rounded, divisors of 1 digit",
        ),
        (Recipe(kind=Kind.PAPER, grade="kyu-6"), "Practice paper, kyu 6"),
        (
            Recipe(kind=Kind.PAPER, grade="kyu-6", part=Part.WARM_UP),
            "Practice paper, kyu 6: Five to warm up",
        ),
    ),
)
def test_a_title_says_kind_and_what(recipe: Recipe, title: str) -> None:
    assert title_of(recipe, WORDS) == title


@each_row("kind", Kind)
@each_row("part", Part)
def test_every_sheet_has_a_title(kind: Kind, part: Part) -> None:
    title = title_of(Recipe(kind=kind, part=part, grade="kyu-1"), WORDS)
    assert title
    assert "{" not in title


def test_below_the_title_stand_the_families_or_that_numbers_are_taken_away() -> None:
    """Of facts the families tell whether any are: with those of adding none may be."""
    recipe = Recipe(kind=Kind.COLUMNS, facts=("add-five-3", "add-five-4", "add-ten-3"), minus=True)
    assert below_title(recipe, WORDS) == "Adding, partner of five; Adding, partner of ten"
    assert (
        below_title(Recipe(kind=Kind.COLUMNS, minus=True), WORDS) == "Some numbers are taken away"
    )
    assert below_title(Recipe(kind=Kind.COLUMNS), WORDS) == ""


def test_a_ladder_has_a_heading_for_each_way() -> None:
    sheet = ladder(2, 2, 1)
    assert headings_of(sheet, WORDS) == (
        "On the frame", "Hand over the frame", "Eyes shut", "In the head",
    )  # fmt: skip


def test_a_paper_has_a_heading_for_each_sort_with_its_marks() -> None:
    sheet = paper(2, 2, 2)
    marks = [marks_of(one, WORDS) for one in sheet.sections]
    assert [*zip(headings_of(sheet, WORDS), marks, strict=True)] == [
        ("Columns", "10 marks each"), ("Products", "5 marks each"), ("Quotients", "5 marks each")
    ]  # fmt: skip
    assert marks_of(sheet.sections[0]._replace(marks=1), WORDS) == "1 mark each"


def test_sections_of_one_sort_are_counted() -> None:
    sheet = Sheet(Recipe(kind=Kind.PAPER, grade="second-kyu-12"), (sums(2, 2, 1), sums(2, 2, 2)))
    assert headings_of(sheet, WORDS) == ("Columns, 1 of 2", "Columns, 2 of 2")


def test_one_sort_of_tasks_has_no_heading() -> None:
    sheet = Sheet(Recipe(kind=Kind.COLUMNS), (sums(2, 2, 1),))
    assert headings_of(sheet, WORDS) == ("",)
    assert marks_of(sheet.sections[0], WORDS) == ""


def test_a_group_is_told_with_its_names_cut_where_they_do_not_fit() -> None:
    group = Group(3, ("Crab", "Otter", "W" * 40))
    cut = "W" * 24 + "…"
    assert group_line(group, WORDS, lambda _: True) == f"Group 3: Crab, Otter, {cut}"
    assert group_line(group, WORDS, lambda one: len(one) < 32) == "Group 3: Crab, Otter and 1 more"
    assert group_line(group, WORDS, lambda _: False) == "Group 3: Crab and 2 more"

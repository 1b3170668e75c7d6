"""Graded papers fit the rows of their grades: a share of what papers.py measures, and all of it."""

from dataclasses import replace

import pytest
from each import each_row
from papers import Found, measure

from frame.sheets.grades import grades
from frame.sheets.papers import paper
from frame.sheets.recipe import Kind, Recipe
from frame.technique.expression import parse_calculation

A_SHARE, ALL = 3, 200
LONG = "11 + 12 + 13 + 14 + 15"


@pytest.mark.parametrize("name", grades())
def test_papers_of_a_few_seeds_fit_their_row(name):
    assert [*measure(name, A_SHARE).misses] == []


@pytest.mark.proof
@pytest.mark.parametrize("name", grades())
def test_papers_of_many_seeds_fit_their_row(name):
    assert [*measure(name, ALL).misses] == []


def planted(name, at, text):
    """What is missed of a paper whose task, counted from 0, is another."""
    sheet = paper(Recipe(kind=Kind.PAPER, grade=name))
    sections, found = list(sheet.sections), Found(name)
    for number, section in enumerate(sections):
        if 0 <= at < len(section.tasks):
            tasks = list(section.tasks)
            tasks[at] = replace(tasks[at], sum=parse_calculation(text or str(tasks[at - 1])))
            sections[number] = section._replace(tasks=tuple(tasks))
        at -= len(section.tasks)
    found.add(sheet._replace(sections=tuple(sections)))
    return [*found.misses]


@each_row(
    ("name", "at", "text", "missed"),
    [
        ("kyu-9", 3, "", ["repeated: 1"]),
        ("kyu-9", 0, "11 + 12 + 13 + 14", ["columns rows 5: 4-5", "columns characters 10: 8-10"]),
        (
            "kyu-9", 0, "11 + 12 + 13 + 14 + 1",
            ["columns digits 2: 1-2", "columns characters 10: 9-10"],
        ),
        ("kyu-9", 0, "11 + 12 + 13 - 10 + 14", ["columns taken away 0: 0-1"]),
        ("mental-kyu-1", 0, "+".join(map(str, range(123, 133))), ["columns taken away 1-9: 0-4"]),
        (
            "mental-kyu-1", 0, "123 + 456 - 456 + 789 + 111 + 222 + 333 + 444 + 555 + 666",
            ["twice running: 1"],
        ),
        ("kyu-9", 0, "11 + 12 + 12 + 13 + 14", ["twice running: 1"]),
        ("kyu-9", 0, "11 + 12 + 11 + 12 + 11", ["too often: 1"]),
        ("kyu-9", 0, "11 + 12 + 11 + 12 + 13", []),
        (
            "mental-kyu-1", 0, "123 - 456 + 457 + 789 + 111 + 222 + 333 + 444 + 555 + 666",
            ["not above zero on the way: 1"],
        ),
        (
            "mental-kyu-1", 0, "123 + 456 + 457 + 200 + 111 + 222 - 333 - 444 - 555 - 666",
            ["columns below zero 0: 1"],
        ),
        (
            "mental-kyu-1", 0, "123 + 456 + 457 + 200 + 111 + 222 - 333 - 444 - 555 - 237",
            ["comes to zero: 1"],
        ),
        (
            "kyu-9", 10, "31 x 12",
            ["products digits 3: 3-4", "products multiplier 1: 1-2", "one digit uneven: 1"],
        ),
        ("kyu-9", 10, "31 x 1", ["one digit uneven: 1", "times 1: 1"]),
        ("kyu-9", 10, "30 x 2", ["one digit uneven: 1", "ends in 0: 1"]),
        ("kyu-8", 20, "100 / 3", ["one digit uneven: 1", "not even: 1"]),
        (
            "kyu-8", 20, "333 / 3",
            ["quotients digits 3: 3-4", "quotients quotient 2: 2-3", "one digit uneven: 1"],
        ),
    ],
)  # fmt: skip
def test_what_does_not_fit_is_found(name, at, text, missed):
    assert planted(name, at, text) == missed


def test_other_minutes_marks_and_counts_are_found():
    sheet = paper(Recipe(kind=Kind.PAPER, grade="kyu-9"))
    one, other = sheet.sections
    shorter, longer = (
        one.tasks[1:],
        (*one.tasks, replace(one.tasks[0], sum=parse_calculation(LONG))),
    )
    for wrong, missed in (
        (sheet._replace(minutes=21), "other marks: 1"),
        (sheet._replace(pass_marks=100), "other marks: 1"),
        (sheet._replace(sections=(one._replace(marks=5), other)), "other marks: 1"),
        (sheet._replace(sections=(one._replace(tasks=longer), other)), "more tasks: 1"),
        (sheet._replace(sections=(one._replace(tasks=shorter), other)), "columns tasks 10: 9"),
    ):
        found = Found("kyu-9")
        found.add(wrong)
        assert [*found.misses] == [missed]

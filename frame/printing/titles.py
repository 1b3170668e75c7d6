"""What a sheet and its sections are called."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

from frame.language.catalogue import Words
from frame.practice.exercises import Kind as Asked
from frame.practice.families import family_of_fact
from frame.printing.of_grades import doubts_of, grade_name, measures_line
from frame.sheets.recipe import Kind, Part, Recipe
from frame.sheets.sheet import Section, Sheet
from frame.technique.expression import Product, Quotient, Root

_MOST_OF_NAME = 24
_OF_ONE_LENGTH = (Kind.PRODUCTS, Kind.QUOTIENTS, Kind.ROOTS)
"""Their numbers have all digits asked for, whatever fact they need."""


def title_of(recipe: Recipe, words: Words) -> str:
    """The kind of a sheet and what stands on it."""
    if recipe.kind is Kind.PAPER:
        return _paper_title(recipe, words)
    digits, by = _most_digits(recipe, words), _digits(recipe.by, words)
    return words.text(f"sheet.title.{recipe.kind}", rows=recipe.rows, digits=digits, by=by)


def _paper_title(recipe: Recipe, words: Words) -> str:
    title = words.text("sheet.title.paper", grade=grade_name(recipe.grade, words))
    if recipe.part is Part.WHOLE:
        return title
    return words.text("sheet.part", title=title, part=words.text(f"sheet.{recipe.part}"))


def below_of(sheet: Sheet, words: Words) -> str:
    """What stands below the title of a sheet: what a paper takes, or what the sums need."""
    return measures_line(sheet, words) or below_title(sheet.recipe, words)


def below_title(recipe: Recipe, words: Words) -> str:
    """What its sums need, or whether numbers are taken away; empty where nothing is said."""
    families = dict.fromkeys(family_of_fact(fact) for fact in recipe.facts)
    named = [words.text(f"family.{family}") for family in families]
    if recipe.minus and not recipe.facts:
        named.append(words.text("sheet.minus"))
    return "; ".join(named)


class Group(NamedTuple):
    """Who is to work a sheet: a group of a class by its number, None for a child alone, and the
    names of its children."""

    number: int | None
    names: tuple[str, ...]


def group_line(group: Group, words: Words, fits: Callable[[str], bool]) -> str:
    """The number of a group and the names of its children: a long name is cut short, and of names
    that do not all fit the last ones are counted."""
    names = [one if len(one) <= _MOST_OF_NAME else f"{one[:_MOST_OF_NAME]}…" for one in group.names]
    for shown in range(len(names), 0, -1):
        told = ", ".join(names[:shown])
        if more := len(names) - shown:
            told = words.text("sheet.and_more", names=told, count=more)
        text = told
        if group.number is not None:
            text = words.text("sheet.group", number=group.number, names=told)
        if fits(text):
            break
    return text


def headings_of(sheet: Sheet, words: Words) -> tuple[str, ...]:
    """The headings of its sections; empty ones where it has one sort of tasks."""
    return counted([_heading(section, sheet, words) for section in sheet.sections], words)


def counted(names: Sequence[str], words: Words) -> tuple[str, ...]:
    """The names of sections, those counted that several have: "Columns, 1 of 2"."""
    told: list[str] = []
    for at, name in enumerate(names):
        count, number = names.count(name), names[: at + 1].count(name)
        if name and count > 1:
            name = words.text("sheet.one_of", name=name, number=number, count=count)
        told.append(name)
    return tuple(told)


def _heading(section: Section, sheet: Sheet, words: Words) -> str:
    """How the tasks of a section are done, or on a graded paper what they are; empty on
    sheets of one sort of tasks."""
    if sheet.recipe.kind is Kind.LADDER:
        return words.text(f"sheet.way.{section.way}")
    if sheet.recipe.kind is not Kind.PAPER or not section.tasks:
        return ""
    task = section.tasks[0]
    if task.kind is not Asked.SUM:
        return ""
    match task.sum:
        case Product():
            return words.text("sheet.products")
        case Quotient():
            return words.text("sheet.quotients")
        case Root():
            return words.text("sheet.roots")
    return words.text("sheet.columns")


def notes_of(recipe: Recipe, words: Words) -> tuple[str, ...]:
    """What must be said of a graded paper: what it is not, and what of it is not sure."""
    if recipe.kind is not Kind.PAPER:
        return ()
    doubts = doubts_of(recipe.grade, words, recipe.part)
    return (" ".join(filter(None, (words.text("sheet.no_examination"), doubts))),)


def _most_digits(recipe: Recipe, words: Words) -> str:
    """How many digits its numbers have: just so many where any may come. Those that need a fact may
    be shorter, and a rounded answer has some behind its point too."""
    digits = _digits(recipe.digits, words)
    if "round" in recipe.facts:
        return words.text("sheet.before_point", digits=digits)
    of_one_length = recipe.kind in _OF_ONE_LENGTH and "unit-rod" not in recipe.facts
    if recipe.digits == 1 or not recipe.facts or of_one_length:
        return digits
    return words.text("sheet.up_to", digits=digits)


def _digits(count: int, words: Words) -> str:
    return words.text("sheet.digit" if count == 1 else "sheet.digits", count=count)

"""What is said of a graded paper before it is printed: its minutes and marks."""

from collections.abc import Iterator

from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.printing.titles import counted
from frame.sheets.grades import FIELDS, Grade, GradedSection, How, grade
from frame.sheets.recipe import Part, Recipe
from frame.sheets.sheet import Way

BODIES = {"first association": "sheets.first", "second association": "sheets.second"}
WAYS = {Way.BEADS: "sheets.beads", Way.MIND: "sheets.mental"}
_UNUSUAL = {"second association": "paper.second", Way.MIND: "sheets.mental"}
"""What is told of a paper besides its grade."""
PARTS = {
    Part.WHOLE: "sheets.whole",
    Part.COLUMNS: "sheets.kind.columns",
    Part.PRODUCTS: "sheets.kind.products",
    Part.QUOTIENTS: "sheets.kind.quotients",
    Part.WARM_UP: "sheets.warm_up",
}
"""The words for each association, each way and each part of a paper."""
_OF_ALL_PARTS = (Part.WHOLE, Part.WARM_UP)
_APART = "  ·  "


def grade_line(name: str, words: Words) -> Line:
    """What a grade is called within its examination."""
    number = name.rpartition("-")[2]
    return (
        words.line("sheets.kyu", number=int(number))
        if number.isdigit()
        else words.line("sheets.dan")
    )


def paper_title(recipe: Recipe, words: Words) -> str:
    """A paper by its grade and, unless it is whole, its part; and that it is mental, or of the
    second association."""
    one = grade(recipe.grade)
    keys = [_UNUSUAL[which] for which in (one.way, one.body) if which in _UNUSUAL]
    if recipe.part is not Part.WHOLE:
        keys.insert(0, PARTS[recipe.part])
    return _APART.join([grade_line(one.id, words).show, *map(words.text, keys)])


def section_names(recipe: Recipe, words: Words) -> tuple[str, ...]:
    """What the sections of a paper, or of a part of it, are called, in their order."""
    names = [
        words.text(PARTS[section.part])
        for section in grade(recipe.grade).sections
        if recipe.part in (section.part, *_OF_ALL_PARTS)
    ]
    return counted(names, words)


def measures_of(name: str, part: Part, words: Words, *, is_timed: bool = True) -> str:
    """The minutes of a grade's paper or of a part of it, unless it is not timed, its marks, and
    what is enough."""
    one = grade(name)
    if part is Part.WARM_UP:
        return words.text("sheet.warm-up")
    some = [section for section in one.sections if section.part is part]
    return _APART.join(_measures(one, some, words, is_timed=is_timed))


def _measures(
    one: Grade, some: list[GradedSection], words: Words, *, is_timed: bool
) -> Iterator[str]:
    minutes = _minutes(one, some)
    marks = sum(section.full_marks for section in some or one.sections)
    if minutes and is_timed:
        yield words.text("sheet.minutes", minutes=minutes)
    yield words.text("sheet.marks", marks=marks)
    enough = {section.pass_marks for section in some or one.sections}
    if one.pass_marks and not some:
        yield words.text("sheet.pass_marks", marks=one.pass_marks)
    elif any(enough):
        key = "sheet.pass_marks" if some else "sheet.pass_each"
        yield words.text(key, marks=max(enough))


def is_timed(name: str, part: Part) -> bool:
    """Whether a grade's paper or a part of it has minutes."""
    one = grade(name)
    return _minutes(one, [section for section in one.sections if section.part is part]) > 0


def _minutes(one: Grade, some: list[GradedSection]) -> int:
    return sum(section.minutes for section in some) if some else one.minutes


def doubts_in_short(name: str, part: Part, words: Words) -> str:
    """What of a paper is uncertain or ours, in a line without the notes: a sentence for each way of
    being so, with all that it is about in what is chosen of it."""
    told = []
    for how in reversed(How):
        if note := _note(grade(name), part, how, words):
            told.append(words.text(f"sheet.doubt.{how}", note=note))
    return " ".join(told)


def _note(one: Grade, chosen: Part, how: How, words: Words) -> str:
    """What is uncertain in one way; of which parts, where it is not all that have it."""
    parts = {each.part for each in one.sections if chosen in (each.part, *_OF_ALL_PARTS)}
    fields: dict[str, list[Part]] = {}
    for doubt in one.uncertain:
        about, _, field = doubt.cell.rpartition(".")
        if doubt.how is how and (about in parts or (not about and chosen is Part.WHOLE)):
            fields.setdefault(field, []).extend(Part(about) for _ in filter(None, [about]))
    of_all, of_some = [], []
    for field, some in fields.items():
        note = words.text(f"paper.doubt.{field}")
        if some and set(some) != {each for each in parts if field in FIELDS[each]}:
            names = ", ".join(words.text(PARTS[each]) for each in some)
            of_some.append(f"{names}: {note}")
        else:
            of_all.append(note)
    return "; ".join(of_all + of_some)

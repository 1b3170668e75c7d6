"""What is said of a graded paper before it is printed: its minutes and marks, and how sure they
are."""

from collections.abc import Iterator

from frame.language.catalogue import Words
from frame.sheets.grades import Grade, GradedSection, grade
from frame.sheets.recipe import Part

_APART = "  ·  "
_CELLS = {
    "columns": "sheet.columns",
    "products": "sheet.products",
    "quotients": "sheet.quotients",
    "pass_marks": "sheet.doubt.enough",
}


def measures_of(name: str, part: Part, words: Words) -> str:
    """The minutes of a grade's paper or of a part of it, its marks, and what is enough."""
    one = grade(name)
    if part is Part.WARM_UP:
        return words.text("sheet.warm-up")
    some = [section for section in one.sections if section.part is part]
    return _APART.join(_measures(one, some, words))


def _measures(one: Grade, some: list[GradedSection], words: Words) -> Iterator[str]:
    minutes = sum(section.minutes for section in some) if some else one.minutes
    marks = sum(section.full_marks for section in some or one.sections)
    if minutes:
        yield words.text("sheet.minutes", minutes=minutes)
    yield words.text("sheet.marks", marks=marks)
    enough = {section.pass_marks for section in some or one.sections}
    if one.pass_marks and not some:
        yield words.text("sheet.pass_marks", marks=one.pass_marks)
    elif any(enough):
        key = "sheet.pass_marks" if some else "sheet.pass_each"
        yield words.text(key, marks=max(enough))


def doubts_of(name: str, words: Words) -> str:
    """What of a grade's paper is uncertain or ours, a sentence for each note; empty where nothing
    is."""
    notes: dict[tuple[str, str], list[str]] = {}
    for doubt in grade(name).uncertain:
        about, _, _ = doubt.cell.partition(".")
        cells = notes.setdefault((doubt.how, doubt.note), [])
        cells += [words.text(_CELLS[about])] if about in _CELLS else []
    told = []
    for (how, note), cells in notes.items():
        about = ", ".join(dict.fromkeys(cells))
        note = f"{about}: {note}" if about else f"{note[:1].upper()}{note[1:]}"
        told.append(words.text(f"sheet.doubt.{how}", note=note))
    return " ".join(told)

"""What a paper says of its grade: its name, what a pass takes, and what of it is uncertain."""

from collections.abc import Iterator, Sequence

from frame.language.catalogue import Words
from frame.sheets.grades import Grade, Rank, grade
from frame.sheets.recipe import Kind, Part, Recipe
from frame.sheets.sheet import Section, Sheet, Way

_SECOND = "second association"
_APART = "  ·  "
_ALL_OF_IT = (Part.WHOLE, Part.WARM_UP)
_CELLS = {
    "columns": "sheet.columns",
    "products": "sheet.products",
    "quotients": "sheet.quotients",
    "pass_marks": "sheet.doubt.enough",
}


def grade_name(name: str, words: Words) -> str:
    """A grade in the words of the trade: "mental kyu 3, second association"."""
    one = grade(name)
    *_, number = one.id.split("-")
    if number.isdigit():
        told = words.text("sheet.grade.kyu", number=int(number))
    else:
        told = words.text("sheet.grade.dan")
    if one.way is Way.MIND:
        told = words.text("sheet.grade.mental", grade=told)
    if one.body == _SECOND:
        told = words.text("sheet.grade.second", grade=told)
    return told


def measures_line(sheet: Sheet, words: Words) -> str:
    """What a paper takes: that it is worked without a frame, its minutes and marks, and what is
    enough; where that holds for the whole alone, of a part what the whole takes. Empty for other
    sheets."""
    recipe, told = sheet.recipe, []
    if recipe.kind is not Kind.PAPER:
        return ""
    if all(section.way is Way.MIND for section in sheet.sections):
        told.append(words.text("sheet.without_frame"))
    marks = sum(section.marks * len(section.tasks) for section in sheet.sections)
    each = [section.pass_marks for section in sheet.sections]
    told += _measures(sheet.minutes, marks, sheet.pass_marks, each, words)
    if recipe.part is not Part.WHOLE and not any(each):
        told.append(words.text("sheet.of_whole", measures=_of_whole(grade(recipe.grade), words)))
    return _APART.join(told)


def _of_whole(one: Grade, words: Words) -> str:
    each = [section.pass_marks for section in one.sections]
    return ", ".join(_measures(one.minutes, one.full_marks, one.pass_marks, each, words))


def _measures(
    minutes: float, marks: int, enough: int, each: Sequence[int], words: Words
) -> Iterator[str]:
    """Minutes and marks, and what is enough of these, or in `each` part where it is the same."""
    if minutes:
        yield words.text("sheet.minutes", minutes=f"{minutes:g}")
    if marks:
        yield words.text("sheet.marks", marks=marks)
    if enough:
        yield words.text("sheet.pass_marks", marks=enough)
    elif each and each[0] and len(set(each)) == 1:
        key = "sheet.pass_each" if len(each) > 1 else "sheet.pass_marks"
        yield words.text(key, marks=each[0])


def marks_of(section: Section, words: Words) -> str:
    """The marks of a section, with its minutes and what is enough where it is passed by itself;
    empty where none are counted."""
    if not section.marks:
        return ""
    key = "sheet.mark_each" if section.marks == 1 else "sheet.marks_each"
    each = words.text(key, marks=section.marks)
    if not section.pass_marks:
        return each
    marks = section.marks * len(section.tasks)
    measures = _measures(section.minutes, marks, section.pass_marks, (), words)
    return _APART.join((*measures, each))


def ranks_of(recipe: Recipe) -> Sequence[Rank]:
    """The ranks that marks on a paper are enough for; none where none are given."""
    if recipe.kind is not Kind.PAPER or recipe.part is Part.WARM_UP:
        return ()
    return grade(recipe.grade).ranks


def doubts_of(name: str, words: Words, part: Part = Part.WHOLE) -> str:
    """What of a grade's paper, or of a part of it, is uncertain or ours, a sentence for each note;
    empty where nothing is."""
    notes: dict[tuple[str, str], list[str]] = {}
    for doubt in grade(name).uncertain:
        about, _, field = doubt.cell.partition(".")
        if field and part not in (about, *_ALL_OF_IT):
            continue
        how = doubt.how
        key = "sheet.doubt.lacking" if about == "sections" else f"sheet.doubt.{how}"
        cells = notes.setdefault((key, doubt.note), [])
        cells += [words.text(_CELLS[about])] if about in _CELLS else []
    told = []
    for (key, note), cells in notes.items():
        about = ", ".join(dict.fromkeys(cells))
        note = f"{about}: {note}" if about else note
        told.append(words.text(key, note=note))
    return " ".join(told)

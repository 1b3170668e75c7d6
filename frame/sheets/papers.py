"""Graded papers: tasks drawn so that they fit the row of their grade exactly, and their marks."""

from collections.abc import Callable, Sequence
from decimal import Decimal
from functools import partial
from itertools import accumulate, pairwise
from random import Random

from frame.practice.columns import rods_needed
from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family
from frame.practice.rungs import Rung
from frame.practice.sizes import Size, rods_for
from frame.sheets.grades import Columns, Grade, GradedSection, Pairs, grade
from frame.sheets.recipe import Part, Recipe, Version
from frame.sheets.sheet import Section, Sheet, Way
from frame.technique.calculation import Calculation, Product, Quotient, Sum
from frame.technique.places import USUAL_RODS

WARM_UP = 5
"""So many tasks of a paper to warm up with."""

_TAKEN = (0.2, 0.4)
"""The share of a column's numbers that is taken away where some are: from and to. Our choice."""

_MOST_TRIES = 100_000
"""More than any grade needs for a task that does not stand on the paper yet."""

_Drawn = set[tuple[type[Calculation], tuple[Decimal, ...]]]


def paper(recipe: Recipe) -> Sheet:
    """The paper of a recipe, or the part of it that is asked for. What a part holds stands on the
    whole too, and no task stands on two versions. Raises KeyError for a grade that is not in the
    table, and ValueError for a part that the grade has not."""
    row = grade(recipe.grade)
    if recipe.part not in row.parts:
        raise ValueError(f"{row.id} has no {recipe.part}; expected one of {', '.join(row.parts)}")
    sections = _sections(row, recipe)
    if recipe.part is Part.WARM_UP:
        return Sheet(recipe, _to_warm_up(sections, recipe))
    is_asked = [recipe.part in (Part.WHOLE, section.part) for section in row.sections]
    if all(is_asked):
        return Sheet(recipe, sections, row.minutes, row.pass_marks)
    some = tuple(one for one, asked in zip(sections, is_asked, strict=True) if asked)
    return Sheet(recipe, some, sum(one.minutes for one in some))


def _sections(row: Grade, recipe: Recipe) -> tuple[Section, ...]:
    """All sections. The versions before are drawn too, so that this one has none of their tasks."""
    drawn: _Drawn = set()
    sections: tuple[Section, ...] = ()
    for version in Version:
        random = Random(f"{row.paper} {recipe.seed} {version}")
        sections = tuple(_section(one, row.way, random, drawn) for one in row.sections)
        if version is recipe.version:
            break
    return sections


def _section(row: GradedSection, way: Way, random: Random, drawn: _Drawn) -> Section:
    tasks = tuple(
        Exercise(Kind.SUM, calculation, Rung.NUMBER, rods, own=way is Way.BEADS)
        for stretch in row.stretches
        for rods in (_rods(row.part, stretch),)
        for calculation in _calculations(row.part, stretch, random, drawn)
    )
    return Section(way, tasks, row.marks, row.minutes, row.pass_marks)


def _rods(part: Part, stretch: Columns | Pairs) -> int:
    """How many rods hold the work of any of its tasks."""
    if isinstance(stretch, Columns):
        needed = rods_needed(stretch.digits.most, stretch.rows) + bool(stretch.below_zero)
        return max(USUAL_RODS, needed)
    if part is Part.PRODUCTS:
        needed = max(rods_for(Family.MULTIPLY, Size(one, by=by)) for one, by in stretch.splits)
    else:
        needed = max(rods_for(Family.DIVIDE, Size(one, by=by)) for by, one in stretch.splits)
    return max(USUAL_RODS, needed)


def _calculations(
    part: Part, stretch: Columns | Pairs, random: Random, drawn: _Drawn
) -> list[Calculation]:
    """The tasks of a stretch, in any order. Every split of digits, and every count of numbers that
    are taken away, comes as often as another or once more: so in all versions."""
    at_each = range(stretch.count)
    draws: list[Callable[[], Calculation | None]]
    if isinstance(stretch, Columns):
        draws = [partial(_column, stretch, *_taken(stretch, at), random) for at in at_each]
    else:
        splits = [stretch.splits[at % len(stretch.splits)] for at in at_each]
        draws = [partial(_pair, part, *split, random) for split in splits]
    random.shuffle(draws)
    return [_new(draw, drawn) for draw in draws]


def _new(draw: Callable[[], Calculation | None], drawn: _Drawn) -> Calculation:
    """A calculation that was not drawn before, its numbers in another order included."""
    for _ in range(_MOST_TRIES):
        calculation = draw()
        if calculation is None:
            continue
        key = type(calculation), tuple(sorted(calculation.numbers))
        if key not in drawn:
            drawn.add(key)
            return calculation
    raise ValueError("there are too few tasks of this size for a paper")


def _taken(columns: Columns, at: int) -> tuple[int, bool]:
    """How many numbers of a column are taken away, and whether that leads below zero: then half of
    them, for with fewer it is unlikely."""
    if at < columns.below_zero:
        return columns.rows // 2, True
    least, most = (round(share * columns.rows * columns.minus) for share in _TAKEN)
    return least + at % (most - least + 1), False


def _column(columns: Columns, taken: int, is_below: bool, random: Random) -> Sum | None:
    """A column, or None where what was drawn is not fair. The first number is never taken away,
    and below zero it comes with the last."""
    terms = [_of_digits(length, random) for length in _lengths(columns, random)]
    *rows, last = range(1, columns.rows)
    some = (
        [*random.sample(rows, taken - 1), last] if is_below else random.sample([*rows, last], taken)
    )
    for row in some:
        terms[row] = -terms[row]
    return Sum(tuple(map(Decimal, terms))) if _is_fair(terms, is_below) else None


def _lengths(columns: Columns, random: Random) -> list[int]:
    """How many digits each row has: all together the characters of the column."""
    least, most = columns.digits
    room = [row for row in range(columns.rows) for _ in range(most - least)]
    longer = random.sample(room, columns.characters - columns.rows * least)
    return [least + longer.count(row) for row in range(columns.rows)]


def _is_fair(terms: Sequence[int], is_below: bool) -> bool:
    """Whether nothing on the way comes to zero or below, no number undoes the one before, and the
    answer is above zero, or below it where it has to be."""
    *on_the_way, answer = accumulate(terms)
    is_undone = any(before + after == 0 for before, after in pairwise(terms))
    return min(on_the_way) > 0 and not is_undone and (answer < 0 if is_below else answer > 0)


def _pair(part: Part, first: int, second: int, random: Random) -> Product | Quotient | None:
    """A product, or a quotient that comes out even, of numbers with so many digits; None where one
    of them is 1, or ends in 0 and so has fewer digits to be worked."""
    one, other = _of_digits(first, random), _of_digits(second, random)
    if any(number == 1 or number % 10 == 0 for number in (one, other)):
        return None
    if part is Part.PRODUCTS:
        return Product(Decimal(one), Decimal(other))
    return Quotient(Decimal(one * other), Decimal(one))


def _of_digits(digits: int, random: Random) -> int:
    return random.randrange(10 ** (digits - 1), 10**digits)


def _to_warm_up(sections: tuple[Section, ...], recipe: Recipe) -> tuple[Section, ...]:
    """Five tasks in all, as many of each section as of another or one more, from its start to its
    end."""
    random = Random(f"warm-up {recipe.grade} {recipe.seed} {recipe.version}")
    each, more = divmod(WARM_UP, len(sections))
    some = []
    for at, section in enumerate(sections):
        count = each + (at < more)
        bounds = [len(section.tasks) * part // count for part in range(count + 1)]
        picked = tuple(section.tasks[random.randrange(*between)] for between in pairwise(bounds))
        some.append(Section(section.way, picked, section.marks))
    return tuple(some)


def section_scores(sheet: Sheet, right: Sequence[bool]) -> tuple[int, ...]:
    """The marks of each section, by which of all tasks are right. Raises ValueError where there
    are not as many as tasks."""
    if len(right) != len(sheet.tasks):
        raise ValueError(f"{len(right)} answers for {len(sheet.tasks)} tasks")
    ends = accumulate(len(section.tasks) for section in sheet.sections)
    return tuple(
        section.marks * sum(right[end - len(section.tasks) : end])
        for section, end in zip(sheet.sections, ends, strict=True)
    )


def score(sheet: Sheet, right: Sequence[bool]) -> int:
    """The marks of all sections."""
    return sum(section_scores(sheet, right))


def is_passed(sheet: Sheet, right: Sequence[bool]) -> bool | None:
    """Whether the marks are enough: of the whole, or of each section by itself. None for a sheet
    on which no marks are said to be enough."""
    scores = section_scores(sheet, right)
    needed = [section.pass_marks for section in sheet.sections]
    if not sheet.pass_marks and not any(needed):
        return None
    reached = all(marks >= enough for marks, enough in zip(scores, needed, strict=True))
    return reached and sum(scores) >= sheet.pass_marks


def rank(sheet: Sheet, right: Sequence[bool]) -> str:
    """The rank of a dan that is reached in every section of the sheet, as the table names it; empty
    where none is, or the grade has none."""
    if is_passed(sheet, right) is None:
        return ""
    least = min(section_scores(sheet, right))
    reached = [one.name for one in grade(sheet.recipe.grade).ranks if least >= one.marks]
    return reached[-1] if reached else ""

"""Whether graded papers fit the rows of their grades: papers of many seeds, measured.

`python tests/simulated/papers.py [SEEDS]` prints what each row requires and what the papers of so
many seeds gave, three versions each. Numbers are read from the tasks as they are written, and
worked with whole numbers. The rows themselves are checked against tests/truth/grades.txt.
"""

import re
import sys
from collections import Counter
from concurrent.futures import ProcessPoolExecutor
from functools import partial
from itertools import accumulate, islice, pairwise
from math import ceil

from frame.sheets.grades import Columns, grade, grades
from frame.sheets.papers import paper
from frame.sheets.recipe import Kind, Part, Recipe, Version

SIGNS = {Part.COLUMNS: "", Part.PRODUCTS: "x", Part.QUOTIENTS: "/"}
FAULTS = (
    "repeated", "on two versions", "twice running", "too often", "not above zero on the way",
    "comes to zero",
    "times 1", "ends in 0", "not even", "wrong key", "other marks", "more tasks",
    "too few rods", "one digit uneven",
)  # fmt: skip


def required(part, stretch):
    """From what to what each measure of a stretch may go."""
    if isinstance(stretch, Columns):
        taken = (1, stretch.rows - 1) if stretch.minus else (0, 0)
        return {
            "tasks": (stretch.count,) * 2,
            "rows": (stretch.rows,) * 2,
            "digits": tuple(stretch.digits),
            "characters": (stretch.characters,) * 2,
            "taken away": taken,
            "below zero": (stretch.below_zero,) * 2,
        }
    names = {Part.PRODUCTS: ("factor", "multiplier"), Part.QUOTIENTS: ("divisor", "quotient")}[part]
    return {
        "tasks": (stretch.count,) * 2,
        "digits": (stretch.digits,) * 2,
        names[0]: tuple(stretch.first),
        names[1]: tuple(stretch.second),
    }


def written(part, task):
    """The numbers of a task as they are written, signs included."""
    text = str(task)
    if part is Part.COLUMNS:
        return [int(one) for one in re.findall(r"-?\d+", text.replace(" ", ""))]
    return [int(one) for one in text.split(f" {SIGNS[part]} ")]


def measured(part, numbers):
    """The measures of one task."""
    if part is Part.COLUMNS:
        digits = [len(str(abs(one))) for one in numbers]
        return {
            "rows": [len(numbers)],
            "digits": digits,
            "characters": [sum(digits)],
            "taken away": [sum(one < 0 for one in numbers)],
        }
    one, other = numbers if part is Part.PRODUCTS else (numbers[1], numbers[0] // numbers[1])
    first, second = len(str(one)), len(str(other))
    names = ("factor", "multiplier") if part is Part.PRODUCTS else ("divisor", "quotient")
    return {"digits": [first + second], names[0]: [first], names[1]: [second]}


def faults_of(part, task, numbers):
    """What is wrong with one task by itself."""
    if part is Part.COLUMNS:
        *on_the_way, answer = accumulate(numbers)
        result, largest = answer, max([*on_the_way, abs(answer)])
        sizes = [abs(one) for one in numbers]
        yield "twice running", any(one == other for one, other in pairwise(sizes))
        yield "too often", max(Counter(sizes).values()) > ceil(len(sizes) / 3)
        yield "not above zero on the way", min(on_the_way) <= 0
        yield "comes to zero", answer == 0
    else:
        one, other = numbers if part is Part.PRODUCTS else (numbers[1], numbers[0] // numbers[1])
        result, largest = (one * other, one * other) if part is Part.PRODUCTS else (other, one)
        yield "times 1", 1 in (one, other)
        yield "ends in 0", not one % 10 or not other % 10
        yield "not even", part is Part.QUOTIENTS and one * other != numbers[0]
    yield "wrong key", task.sum.result != result
    yield "too few rods", len(str(largest)) > task.rods


def is_uneven(part, tasks):
    """Whether a number from 2 to 9 is a factor, a divisor or a quotient more than once as often as
    another where numbers of one digit are."""
    if part is Part.COLUMNS:
        return False
    pairs = [written(part, task) for task in tasks]
    if part is Part.QUOTIENTS:
        pairs = [(divisor, dividend // divisor) for dividend, divisor in pairs]
    often = [[some.count(one) for one in range(2, 10)] for some in zip(*pairs, strict=True)]
    return any(max(one) - min(one) > 1 for one in often)


class Found:
    """What the papers of a grade gave: for each stretch what each measure took, and the faults."""

    def __init__(self, name):
        self.row = grade(name)
        self.gave = [[{} for _ in one.stretches] for one in self.row.sections]
        self.faults = Counter()

    @property
    def stretches(self):
        """Each stretch with its section, and what it gave."""
        for section, gave in zip(self.row.sections, self.gave, strict=True):
            yield from ((section, *each) for each in zip(section.stretches, gave, strict=True))

    def add(self, sheet):
        """Measure a paper: the keys of its tasks."""
        keys = []
        wanted = self.row.minutes, self.row.pass_marks
        self.faults["other marks"] += (sheet.minutes, sheet.pass_marks) != wanted
        for section, row, gave in zip(sheet.sections, self.row.sections, self.gave, strict=True):
            given = section.marks, section.minutes, section.pass_marks
            self.faults["other marks"] += given != (row.marks, row.minutes, row.pass_marks)
            tasks = iter(section.tasks)
            for stretch, values in zip(row.stretches, gave, strict=True):
                some = [*islice(tasks, stretch.count)]
                keys += self.add_stretch(row.part, some, values)
            self.faults["more tasks"] += len([*tasks])
            self.faults["one digit uneven"] += is_uneven(row.part, section.tasks)
        self.faults["repeated"] += len(keys) - len(set(keys))
        return set(keys)

    def add_stretch(self, part, tasks, gave):
        """Measure the tasks of a stretch: their keys."""
        numbers = [written(part, task) for task in tasks]
        gave.setdefault("tasks", set()).add(len(tasks))
        if part is Part.COLUMNS:
            gave.setdefault("below zero", set()).add(sum(sum(one) < 0 for one in numbers))
        for task, one in zip(tasks, numbers, strict=True):
            for name, values in measured(part, one).items():
                gave.setdefault(name, set()).update(values)
            self.faults.update(name for name, is_so in faults_of(part, task, one) if is_so)
        return [(part, tuple(sorted(one))) for one in numbers]

    @property
    def misses(self):
        """What is not as required, in words: nothing where all is."""
        for section, stretch, gave in self.stretches:
            for name, need in required(section.part, stretch).items():
                if not min(need) <= min(gave[name]) <= max(gave[name]) <= max(need):
                    yield f"{section.part} {name} {between(need)}: {between(gave[name])}"
        yield from (f"{name}: {many}" for name, many in self.faults.items() if many)


def between(values):
    """The least and the most, once where they are one."""
    least, most = min(values), max(values)
    return f"{least}" if least == most else f"{least}-{most}"


def measure(name, seeds):
    """What papers of a grade gave, three versions each."""
    found = Found(name)
    for seed in range(1, seeds + 1):
        sheets = [
            paper(Recipe(kind=Kind.PAPER, grade=name, seed=seed, version=version))
            for version in Version
        ]
        keys = [found.add(sheet) for sheet in sheets]
        found.faults["on two versions"] += sum(map(len, keys)) - len(set().union(*keys))
    return found


def printed(found):
    """The lines of a grade."""
    row = found.row
    enough = row.pass_marks or f"each {row.sections[0].pass_marks}"
    lines = [f"{row.id}: {row.minutes} min, {enough} of {row.full_marks}, digits {row.digits_are}"]
    for section, stretch, gave in found.stretches:
        cells = [
            f"{name} {between(need)} > {between(gave[name])}"
            for name, need in required(section.part, stretch).items()
        ]
        lines.append(f"  {section.part:10} x{section.marks:<3} " + "; ".join(cells))
    misses = list(found.misses)
    lines.append(f"  {'ALL WITHIN' if not misses else 'NOT WITHIN: ' + ', '.join(misses)}")
    return "\n".join(lines)


def main(seeds):
    """Print the table, a grade after the other."""
    print(f"Papers of {seeds} seeds, versions A, B and C of each. Measure, required > given.")
    print(f"Faults that are looked for: {', '.join(FAULTS)}.")
    missed = []
    with ProcessPoolExecutor() as pool:
        for found in pool.map(partial(measure, seeds=seeds), grades()):
            print(printed(found), flush=True)
            missed += [found.row.id] * any(found.misses)
    print(f"{len(grades())} grades; not within: {', '.join(missed) or 'none'}.")


if __name__ == "__main__":
    main(int(sys.argv[1]) if len(sys.argv) > 1 else 200)

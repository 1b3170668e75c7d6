"""YAML text to a lesson, or to every problem in it, each with its line and column."""

from collections.abc import Mapping
from dataclasses import replace
from decimal import Decimal
from functools import lru_cache

from frame.course.fields import Fields, fields_of, report_kind
from frame.course.lesson import Ask, End, Lesson, LessonStep, Line, Mark, Practise, Say, Show, Unit
from frame.course.nodes import Node, Table, read_nodes
from frame.course.problems import LessonError, Problem, Report
from frame.drawn import DRAWN, MOST_IN_SCENE, THINGS
from frame.practice.columns import MOST_DIGITS, MOST_ROWS
from frame.practice.drawing import Request
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Asked, Rung
from frame.technique.beads import MOST_RODS
from frame.technique.conventions import Operands
from frame.technique.expression import Calculation, Sum
from frame.technique.reading import plain

MOST_IN_TITLE = 24
MOST_BY = 4
MOST_PLACES = 6
MOST_STEPS = 100
MOST_IN_SET = 50
MOST_TOLD_AT_END = 6
"""How many columns a called or flashed set has at most: they are told of together."""
MOST_STROKES = 50
MOST_NUMBER = int("9" * MOST_RODS)

LESSON_KEYS = ("lesson", "title", "after", "rods", "new", "thing", "scene", "end", "steps")
END_KEYS = ("say", "speak", "scene")
UNIT_KEYS = ("unit", "title", "thing")
STEP_KEYS: Mapping[str, tuple[str, ...]] = {
    "say": (),
    "show": (),
    "read": ("answer",),
    "set": ("rung", "answer"),
    "clear": ("rung", "answer"),
    "watch": ("answer", "places", "trial"),
    "follow": ("answer", "places", "trial"),
    "finish": ("last", "answer", "places", "trial"),
    "sum": ("rung", "answer", "asked", "pace", "places"),
    "cover": (),
    "practise": (),
}
_WORK = frozenset(STEP_KEYS) - {"say"}
PRACTISE_KEYS = (
    "facts", "mix", "count", "pass", "terms", "digits", "by", "places", "rung", "asked", "pace",
)  # fmt: skip

COVERS: Mapping[str, Rung] = {
    **{rung.value: rung for rung in (Rung.PALE, Rung.TRACES, Rung.COVERED, Rung.ALONE)},
    "number": Rung.NUMBER,
}
RUNGS: Mapping[str, Rung] = {Rung.FOLLOW.value: Rung.FOLLOW, **COVERS}
ASKED: Mapping[str, Asked] = {asked.value: asked for asked in Asked}
PACES: Mapping[Asked, tuple[Decimal, Decimal]] = {
    Asked.CALLED: (Decimal("0.5"), Decimal(5)),
    Asked.FLASHED: (Decimal("0.4"), Decimal(5)),
}
"""From the quickest to the slowest pace of a lesson, in seconds: the gap between called numbers,
and how long a flashed number takes. Quicker ones are an adult's choice, and no lesson's."""
USUAL_PACE = 1.5
_LED = {"watch": Rung.WATCH, "follow": Rung.FOLLOW, "finish": Rung.FINISH}


def load_lesson(content: str | bytes, name: str) -> Lesson:
    """The lesson in the text of a file; `name` is the file's name in problems.

    Raises LessonError with every problem of the text. What a drawn set may need is, until the
    course is known, only what the lesson itself teaches.
    """
    lesson, problems = read_lesson(content, name)
    if lesson is None or problems:
        raise LessonError(problems)
    return lesson


# A course is read and its lessons are opened again and again: a text is parsed once while it stays
# as it is. The shipped course has 90 of them.
@lru_cache(maxsize=128)
def read_lesson(content: str | bytes, name: str) -> tuple[Lesson | None, tuple[Problem, ...]]:
    """As much of a lesson as can be read, and the problems; None where it has not even an id."""
    report = Report(name)
    root = read_nodes(content, report)
    lesson = None if root is None else _lesson(root, report)
    return lesson, report.problems


def load_unit(content: str | bytes, name: str) -> Unit:
    """A unit. Raises LessonError."""
    report = Report(name)
    root = read_nodes(content, report)
    unit = title = thing = None
    if root is not None and (fields := fields_of(root, report, UNIT_KEYS)):
        fields.require("unit", "title")
        unit, title = fields.id("unit"), fields.text("title", MOST_IN_TITLE)
        thing = fields.one_of("thing", DRAWN) if "thing" in fields else None
    if report or unit is None or title is None:
        raise LessonError(report.problems)
    return Unit(unit, title, thing)


def _lesson(root: Node, report: Report) -> Lesson | None:
    fields = fields_of(root, report, LESSON_KEYS)
    if fields is None:
        return None
    fields.require("lesson", "title", "steps")
    lesson_id = fields.id("lesson")
    title = fields.text("title", MOST_IN_TITLE)
    after = fields.id("after")
    rods = fields.number("rods", 1, MOST_RODS)
    new = fields.facts("new")
    steps = _Steps(report, rods or 1, frozenset(new)).read(fields.items("steps", "steps"))
    thing = fields.one_of("thing", THINGS) if "thing" in fields else None
    scene, end = _scene(fields), _end(fields)
    if lesson_id is None:
        return None
    marks = {key: fields.mark_of(key) for key in LESSON_KEYS} | new
    return Lesson(
        lesson_id, title or "", after, rods or 1, tuple(new), steps, thing, scene, end, marks
    )


def _scene(fields: Fields) -> tuple[str, ...]:
    """What a picture is made of, from the left."""
    return fields.words("scene", DRAWN, MOST_IN_SCENE) if "scene" in fields else ()


def _end(fields: Fields) -> End:
    end = fields.table("end", END_KEYS) if "end" in fields else None
    return End(end.line(), _scene(end)) if end else End()


class _Steps:
    """Reads the steps in order: the cover in force, and whether a step can still be reached."""

    def __init__(self, report: Report, rods: int, new: frozenset[str]) -> None:
        self.report = report
        self.rods = rods
        self.new = new
        self.cover = Rung.ALONE
        self.stopped_by: tuple[Mark, str] | None = None

    def read(self, nodes: tuple[Node, ...]) -> tuple[LessonStep, ...]:
        """The steps that can be read."""
        if len(nodes) > MOST_STEPS:
            mark = nodes[MOST_STEPS].mark
            self.report.add(mark, "steps", count=len(nodes), most=MOST_STEPS)
        steps = map(self._step, nodes[:MOST_STEPS])
        return tuple(step for step in steps if step)

    def _step(self, node: Node) -> LessonStep | None:
        if not isinstance(node, Table) or not node.pairs:
            report_kind(self.report, node, "step")
            return None
        first, *others = (key for key, _ in node.pairs)
        self._reach(first.mark)
        late = next((key for key in others if key.text in _WORK), None)
        if late and first.text not in _WORK:
            self.report.add(late.mark, "step-late", found=late.text, first=first.text)
            return None
        if first.text not in STEP_KEYS:
            self.report.add_unknown(first.mark, "unknown-step", first.text, tuple(STEP_KEYS))
            return None
        known = dict.fromkeys((first.text, *STEP_KEYS[first.text], "say", "speak", "layout"))
        fields = Fields(node, self.report, tuple(known))
        step = self._named(first.text, fields, first.mark)
        layout = fields.one_of("layout", tuple(Operands)) if "layout" in fields else None
        return replace(step, layout=Operands(layout)) if step and layout else step

    def _reach(self, mark: Mark) -> None:
        """Report the first step after one that nobody comes past."""
        if self.stopped_by is None:
            return
        (stop, why), self.stopped_by = self.stopped_by, None
        self.report.add(mark, f"unreachable-{why}", line=stop.line)

    def _named(self, name: str, fields: Fields, mark: Mark) -> LessonStep | None:
        line = fields.line()
        if name == "say":
            cover = None if self.cover is Rung.ALONE else self.cover
            return Say(line, mark, cover) if line else None
        if name == "cover":
            return self._cover(fields, line, mark)
        if name == "practise":
            return self._practise(fields, line, mark)
        if name == "show":
            number = fields.decimal("show", 0, MOST_NUMBER)
            return None if number is None else Show(number, line, mark)
        exercise = self._exercise(name, fields)
        answer = fields.decimal("answer", -MOST_NUMBER, MOST_NUMBER)
        return Ask(exercise, line, answer, mark) if exercise else None

    def _cover(self, fields: Fields, line: Line | None, mark: Mark) -> Say | None:
        cover = fields.one_of("cover", tuple(COVERS))
        if cover:
            self.cover = COVERS[cover]
        return Say(line, mark, self.cover) if line else None

    def _rung(self, fields: Fields) -> Rung:
        rung = fields.one_of("rung", tuple(RUNGS)) if "rung" in fields else None
        return RUNGS[rung] if rung else self.cover

    def _exercise(self, name: str, fields: Fields) -> Exercise | None:
        if name in ("read", "set", "clear"):
            number = fields.decimal(name, 0, MOST_NUMBER)
            rung = Rung.ALONE if name == "read" else self._rung(fields)
            if number is None or not self._has_beads(name, rung, fields.mark):
                return None
            return Exercise(Kind(name), Sum((number,)), rung, self.rods)
        last = fields.number("last", 1, MOST_STROKES) or 1
        rung = _LED.get(name) or self._rung(fields)
        calculation = fields.calculation(name, MOST_PLACES)
        if calculation is None or not self._has_names(calculation, fields.value_mark(name)):
            return None
        asked, pace = self._asked(fields, rung) if name == "sum" else (Asked.SHOWN, 0.0)
        if asked is not Asked.SHOWN and not isinstance(calculation, Sum):
            self.report.add(fields.mark_of("asked"), "asked-column", found=str(calculation))
            return None
        has_trial = name in _LED and "trial" in fields
        trial = fields.number("trial", 1, 9) if has_trial else 0
        return Exercise(Kind.SUM, calculation, rung, self.rods, last, asked, pace, trial=trial or 0)

    def _has_names(self, calculation: Calculation, mark: Mark) -> bool:
        """Whether every number in a calculation, and what it comes to, can be read out."""
        largest = max(map(abs, (*calculation.numbers, calculation.result)))
        if largest > MOST_NUMBER:
            found, most = plain(largest), MOST_NUMBER
            self.report.add(mark, "range", found=found, least=-most, most=most)
        return largest <= MOST_NUMBER

    def _has_beads(self, name: str, rung: Rung, mark: Mark) -> bool:
        """Whether there are beads to move; where a number is all there is, only sums are asked."""
        if rung is Rung.NUMBER:
            self.report.add(mark, "number-only", found=name)
        return rung is not Rung.NUMBER

    def _asked(self, fields: Fields, rung: Rung) -> tuple[Asked, float]:
        """How the numbers come, and their pace in seconds."""
        word = fields.one_of("asked", tuple(ASKED)) if "asked" in fields else None
        asked = ASKED[word] if word else Asked.SHOWN
        if asked is Asked.SHOWN:
            if "pace" in fields and word is None:
                self.report.add(fields.mark_of("pace"), "pace")
            return asked, 0.0
        if rung.is_led:
            self.report.add(fields.mark_of("asked"), "asked-led", found=asked)
        pace = fields.seconds("pace", *PACES[asked]) if "pace" in fields else None
        return asked, pace or USUAL_PACE

    def _practise(self, outer: Fields, line: Line | None, mark: Mark) -> Practise | None:
        fields = outer.table("practise", PRACTISE_KEYS)
        if fields is None:
            return None
        fields.require("facts", "count", "pass")
        facts, mix = fields.facts("facts", may_be_empty=False), fields.facts("mix")
        count = fields.number("count", 1, MOST_IN_SET)
        right = fields.number("pass", 1, MOST_IN_SET)
        terms = fields.number("terms", 2, MOST_ROWS) or 2
        digits = fields.number("digits", 1, MOST_DIGITS) or 1
        by = fields.number("by", 1, MOST_BY) or 1
        places = fields.number("places", 0, MOST_PLACES) if "places" in fields else 1
        rung = self._rung(fields)
        if digits > self.rods:
            self.report.add(fields.value_mark("digits"), "digits", found=digits, rods=self.rods)
        if count and right and right > count:
            self.report.add(fields.value_mark("pass"), "pass", found=right, count=count)
            self.stopped_by = (mark, "pass")
        if not facts or not count or not right:
            return None
        asked, pace = self._asked(fields, rung)
        request = Request(
            facts=tuple(facts), mix=tuple(mix), known=self.new, count=count, terms=terms,
            digits=digits, rods=self.rods, rung=rung, asked=asked, pace=pace, by=by,
            places=1 if places is None else places,
        )  # fmt: skip
        if asked is not Asked.SHOWN and count > MOST_TOLD_AT_END:
            at = fields.value_mark("count")
            self.report.add(at, "range", found=count, least=1, most=MOST_TOLD_AT_END)
        if request.kind is not Kind.SUM and not self._is_shown(fields, request, mark):
            return None
        if request.kind is Kind.READ:
            request = replace(request, rung=Rung.ALONE)  # What is to be read must be seen.
        if not self._is_one_kind(request, facts | mix):
            return None
        return Practise(request, right, line, mark)

    def _is_shown(self, fields: Fields, request: Request, mark: Mark) -> bool:
        """Whether a set without sums is asked as such sets can be: shown, and with beads."""
        if request.asked is not Asked.SHOWN:
            self.report.add(fields.mark_of("asked"), "asked-sum", found=request.facts[0])
            return False
        return request.kind is Kind.READ or self._has_beads("practise", request.rung, mark)

    def _is_one_kind(self, request: Request, marks: Mapping[str, Mark]) -> bool:
        """Whether every fact of a set is asked in the same way as its first."""
        first = request.facts[0]
        for fact, mark in marks.items():
            if replace(request, facts=(fact,)).kind is not request.kind:
                self.report.add(mark, "mixed", found=fact, first=first)
                return False
        return True

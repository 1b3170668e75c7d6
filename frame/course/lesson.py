"""A lesson as values: what it teaches, its steps, and what has been taught before it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from decimal import Decimal

from frame.language.lines import Line as Line
from frame.practice.drawing import Request
from frame.practice.exercises import Exercise
from frame.practice.rungs import Rung
from frame.technique.conventions import USUAL, Conventions, Operands


@dataclass(frozen=True, slots=True)
class Mark:
    """A place in a lesson file: line and column from 1."""

    line: int
    column: int


@dataclass(frozen=True, slots=True)
class Say:
    """A sentence alone. `cover` is the rung that begins with it, or that is in force; `layout`, in
    every step, is that of operands of which the sentence speaks, None for any."""

    line: Line
    mark: Mark
    cover: Rung | None = None
    layout: Operands | None = None


@dataclass(frozen=True, slots=True)
class Show:
    """The frame is made to read `number`, with a sentence."""

    number: Decimal
    line: Line | None
    mark: Mark
    layout: Operands | None = None


@dataclass(frozen=True, slots=True)
class Ask:
    """One exercise: read, set, clear or work a sum, at the exercise's rung.

    `answer` is the lesson's own word for what the frame must read at the end, where it gives one.
    """

    exercise: Exercise
    line: Line | None
    answer: Decimal | None
    mark: Mark
    layout: Operands | None = None


@dataclass(frozen=True, slots=True)
class Practise:
    """A set of drawn exercises; it is passed with `right` of them done unaided."""

    request: Request
    right: int
    line: Line | None
    mark: Mark
    layout: Operands | None = None


LessonStep = Say | Show | Ask | Practise


def is_said(step: LessonStep, conventions: Conventions) -> bool:
    """Whether a step's sentence is true of how a school lays products and quotients out. Lessons
    speak of the usual layout; elsewhere such sentences are left out, not written three times."""
    if step.layout is None:
        return True
    is_in_order = (conventions.outer, conventions.first) == (USUAL.outer, USUAL.first)
    return step.layout is conventions.layout and is_in_order


@dataclass(frozen=True, slots=True)
class End:
    """How a lesson ends: a sentence that is true by then, and a picture of what stands there."""

    line: Line | None = None
    scene: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Lesson:
    """A lesson script, loaded. `new` are the facts it teaches; `after` is the lesson before.

    `thing` is what the beads stand for, `scene` what its picture is made of, both by the names of
    `frame.drawn`. `marks` are the places of the keys at its head and of each new fact.
    """

    id: str
    title: str
    after: str | None
    rods: int
    new: tuple[str, ...]
    steps: tuple[LessonStep, ...]
    thing: str | None = None
    scene: tuple[str, ...] = ()
    end: End = End()
    marks: Mapping[str, Mark] = field(default_factory=dict, compare=False, repr=False)

    @property
    def ends_on_own(self) -> bool:
        """Whether its last step is worked on the learner's own frame."""
        match self.steps[-1:]:
            case (Ask(exercise),):
                return exercise.own
            case (Practise(request),):
                return request.own
        return False


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit of lessons; `thing` is the drawing that stands for it, by a name of `frame.drawn`."""

    id: str
    title: str
    thing: str | None = None


def in_order(lessons: Sequence[Lesson]) -> tuple[Lesson, ...]:
    """The lessons in the order their `after` gives, each as soon as the one before it."""
    waiting, ordered = list(lessons), list[Lesson]()
    seen: set[str | None] = {None}
    while ready := next((one for one in waiting if one.after in seen), None):
        waiting.remove(ready)
        ordered.append(ready)
        seen.add(ready.id)
    return tuple(ordered)

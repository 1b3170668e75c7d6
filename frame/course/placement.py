"""Where to begin for who knows some of it: few items, and the lesson to begin at.

**The lesson to begin at** is the first that teaches a fact which the learner lacks. A lesson that
teaches none is never needed in this sense: the last of each unit, and the units of the imagined
frame. Those teach to do without seeing what is known already, nothing after them needs it, and
items on a frame that is seen say nothing of it. So somebody who can add and take away is sent on
to products, and is told of the first imagined lesson passed over (`beside`), to be begun when they
like. Where nothing is lacking it is the last lesson of the course.

**The next item** is chosen from all answers so far (`practice/asking.py`), of the facts of the
lessons in their order, with units for parts. Done lessons count as known: they are not suggested,
and what they taught is asked alone only where a sure item is wanted.

**Kindness.** An item succeeds by more than even chances, as far as one can know, but for a harder
one after two that succeeded; the first is a sure one; after two that did not succeed comes an
easier one; and nobody is left with a miss while there is time for a sure one.

**The end** comes with twenty items or four minutes, or when the lesson is sure enough. In doubt the
lesson lies too early rather than too far: what is known already costs less than what was missed.
"""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property
from random import Random
from typing import NamedTuple

from frame.course.course import LessonEntry
from frame.practice.asking import USUAL_MANNER, YOUNG_MANNER, Answer, Asking
from frame.practice.exercises import Exercise
from frame.practice.families import Family
from frame.practice.supposed import Supposed, Syllabus
from frame.technique.conventions import USUAL, Conventions

_KNOWN = 0.9
"""How likely a family is known that is told as known."""


class Claim(NamedTuple):
    """A family known by placement: of `asked` items that needed it so many were `right`."""

    family: Family
    right: int
    asked: int


class Result(NamedTuple):
    """The id of the lesson to begin at, and of those before it of which all is known that they
    teach, but for the last of each unit; that of the first imagined lesson passed over, where one
    is; the families known by placement, how many items there were, how many of them needed what
    the lesson teaches, and how many of those were right, but for those that were not and needed
    what comes later, too; and whether time was up before all was
    asked."""

    lesson: str
    known: tuple[str, ...]
    beside: str | None
    families: tuple[Claim, ...]
    items: int
    needing: int = 0
    right: int = 0
    is_late: bool = False


@dataclass(frozen=True)
class Placement:
    """Where it stands: a value that `answered` makes the next one of."""

    lessons: tuple[LessonEntry, ...]
    done: frozenset[str]
    asking: Asking

    @classmethod
    def begin(
        cls, lessons: Sequence[LessonEntry], random: Random, conventions: Conventions = USUAL,
        done: Collection[str] = (), young: bool = False,
    ) -> "Placement":  # fmt: skip
        """The beginning, with the course's lessons in order and the ids of those that are done."""
        syllabus = _syllabus(lessons)
        known = syllabus.mask(fact for one in lessons if one.id in done for fact in one.new)
        asking = Asking(
            syllabus, Supposed.of(syllabus, known), random.getrandbits(64), conventions,
            YOUNG_MANNER if young else USUAL_MANNER,
        )  # fmt: skip
        return cls(tuple(lessons), frozenset(done), asking)

    @property
    def answers(self) -> tuple[Answer, ...]:
        """All answers, oldest first."""
        return self.asking.answers

    @property
    def seconds(self) -> float:
        """How long all answers took."""
        return self.asking.seconds

    def next_item(self) -> Exercise | None:
        """The item to be asked now, at the rung `alone`; None when it is over."""
        return self.asking.item

    def answered(self, right: bool, seconds: float) -> "Placement":
        """The next state, once the item was answered, at once and without help (`right`) or not; a
        skipped item is an answer too. Raises ValueError when it is over."""
        return replace(self, asking=self.asking.answered(right, seconds))

    def result(self) -> Result:
        """What can be said now, at any moment."""
        lesson = self._lesson
        known = tuple(one.id for one in self._taken_in(lesson) if one.id not in self.done)
        claims, taught = tuple(self._claims()), self.asking.syllabus.mask(lesson.new)
        later = self.asking.syllabus.mask(self._taught_after(lesson))
        needed = [(one.right, self.asking.needed(one.item)) for one in self.answers]
        about = [right for right, mask in needed if mask & taught and (right or not mask & later)]
        return Result(
            lesson.id, known, self._beside(lesson), claims, len(self.answers), len(about),
            sum(about),
        )  # fmt: skip

    def _taught_after(self, lesson: LessonEntry) -> Iterator[str]:
        later = self.lessons[self.lessons.index(lesson) + 1 :]
        return (fact for one in later for fact in one.new)

    @property
    def _lesson(self) -> LessonEntry:
        teaching, group = self._teaching, self.asking.group
        return teaching[group] if group < len(teaching) else self.lessons[-1]

    @cached_property
    def _teaching(self) -> tuple[LessonEntry, ...]:
        return tuple(lesson for lesson in self.lessons if lesson.new)

    def _taken_in(self, lesson: LessonEntry) -> Iterator[LessonEntry]:
        """The lessons before one, of units that teach something, but for the last of each, which is
        worked without looking."""
        teaching = {one.unit for one in self._teaching}
        last = {one.unit: one for one in self.lessons}
        for one in self.lessons[: self.lessons.index(lesson)]:
            if one.unit in teaching and one is not last[one.unit]:
                yield one

    def _claims(self) -> Iterator[Claim]:
        """The families that are likely known, and of which more succeeded than not. What did not
        succeed and needed something else that is not known says nothing of them."""
        needed, masks = self.asking.needed, self.asking.syllabus.families
        knows = self.asking.supposed.knows
        known = [family for family in masks if knows(masks[family]) >= _KNOWN]
        lacking = sum(mask for family, mask in masks.items() if family not in known)
        telling = [one for one in self.answers if one.right or not needed(one.item) & lacking]
        for family in known:
            about = [one for one in telling if masks[family] & needed(one.item)]
            right = sum(one.right for one in about)
            if 2 * right > len(about):
                yield Claim(family, right, len(about))

    def _beside(self, lesson: LessonEntry) -> str | None:
        """The first lesson that is not done, of those before one whose whole unit teaches no
        fact."""
        teaching = {one.unit for one in self._teaching}
        before = self.lessons[: self.lessons.index(lesson)]
        imagined = (one.id for one in before if one.unit not in teaching)
        return next((one for one in imagined if one not in self.done), None)


def _syllabus(lessons: Sequence[LessonEntry]) -> Syllabus:
    units = list(dict.fromkeys(lesson.unit for lesson in lessons))
    teaching = [lesson for lesson in lessons if lesson.new]
    groups = tuple(lesson.new for lesson in teaching)
    return Syllabus(groups, tuple(units.index(lesson.unit) for lesson in teaching))

"""The sets of a lesson, as they are drawn for each round."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from random import Random

from frame.course.attempts import Position
from frame.course.lesson import LessonStep, Practise
from frame.practice.drawing import draw
from frame.practice.exercises import Exercise
from frame.practice.rungs import Rung

_DRAWS = 8
"""So often a set that comes again is drawn, to find numbers that were not there before."""


def fitted(kept: Position, steps: Sequence[LessonStep]) -> Position:
    """Where to go on in a lesson that was left at a position. Where it was changed since and has no
    such exercise, it is the start of that step, or of the lesson."""
    if kept.step >= len(steps):
        return kept if kept.step == len(steps) else Position()
    step = steps[kept.step]
    is_there = kept.item < step.request.count if isinstance(step, Practise) else not kept.item
    return kept if is_there else Position(kept.step)


@dataclass
class Sets:
    """What is drawn with a seed: the same at every time."""

    seed: int
    _redrawn: int = 0
    _drawn: dict[tuple[int, int, int], tuple[Exercise, ...]] = field(default_factory=dict)

    def item(self, step: Practise, at: Position) -> Exercise:
        """The exercise at a position. Where a set comes again it begins led, if beads are seen."""
        exercise = self._set(step, at.step, at.round)[at.item]
        is_seen = not exercise.rung.is_unseen and not exercise.by_answer
        again = at.round > 0 and at.item == 0 and is_seen
        return exercise.at(Rung.FOLLOW) if again else exercise

    def draw_another(self) -> None:
        """The exercise under way gets other numbers."""
        self._redrawn += 1

    def begin_another(self) -> None:
        """Another exercise comes, as it was drawn first."""
        self._redrawn = 0

    def has_other_numbers(self, step: Practise, at: Position) -> bool:
        """Whether a set that comes again has, for the most part, other numbers than before."""
        if not at.round:
            return False
        known = {exercise.sum for exercise in self._set(step, at.step, 0)}
        again = [one.sum in known for one in self._set(step, at.step, at.round)]
        return 2 * sum(again) < len(again)

    def _set(self, step: Practise, index: int, round: int) -> tuple[Exercise, ...]:
        """The set of a round of the step at an index; drawn once."""
        key = index, round, self._redrawn
        if key not in self._drawn:
            self._drawn[key] = self._draw(step, index, round)
        return self._drawn[key]

    def _draw(self, step: Practise, index: int, round: int) -> tuple[Exercise, ...]:
        """The first set as it is drawn; a later one with as few as can be of its numbers, and not
        beginning with those that have just been worked."""
        seed = f"{self.seed} {index} {round}"
        if self._redrawn:
            return draw(step.request, Random(f"{seed} again {self._redrawn}"))
        if not round:
            return draw(step.request, Random(seed))
        known = {exercise.sum for exercise in self._set(step, index, 0)}
        last = self._set(step, index, round - 1)[-1].sum

        def alike(some: Sequence[Exercise]) -> tuple[bool, int]:
            return some[0].sum == last, sum(one.sum in known for one in some)

        seeds = (seed, *(f"{seed} {more}" for more in range(1, _DRAWS)))
        drawn = (draw(step.request, Random(one)) for one in seeds)
        return min(drawn, key=alike)

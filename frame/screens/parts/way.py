"""Where a learner stands in the course: what is done or known by placement, what is open, what
comes next."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import dropwhile, takewhile

from frame.course.attempts import Position
from frame.course.course import CourseIndex, LessonEntry
from frame.learner.store import LessonState
from frame.view.geometry import Bead

EARTH = (Bead.EARTH_1, Bead.EARTH_2, Bead.EARTH_3, Bead.EARTH_4)


@dataclass(frozen=True, slots=True)
class Way:
    """The course and what a learner has begun of it. Where `all_open`, any lesson may be chosen."""

    course: CourseIndex
    begun: Mapping[str, LessonState]
    all_open: bool

    def is_done(self, entry: LessonEntry) -> bool:
        """Whether the lesson has once ended well."""
        state = self.begun.get(entry.id)
        return state is not None and state.done

    def is_placed(self, entry: LessonEntry) -> bool:
        """Whether what the lesson teaches is known by placement, and it was not done here."""
        state = self.begun.get(entry.id)
        return state is not None and state.placed and not state.done

    def is_known(self, entry: LessonEntry) -> bool:
        """Whether it need not be done: it was, or is known by placement."""
        return self.is_done(entry) or self.is_placed(entry)

    def is_begun(self, entry: LessonEntry) -> bool:
        """Whether the lesson was ever left half done, or done."""
        state = self.begun.get(entry.id)
        return state is not None and (state.done or state.position != Position())

    def _is_half_done(self, entry: LessonEntry) -> bool:
        return self.is_begun(entry) and not self.is_done(entry)

    @property
    def _ahead(self) -> int:
        """How many lessons there are up to the last one that is done or known."""
        known = (at for at, entry in enumerate(self.course.lessons, 1) if self.is_known(entry))
        return max(known, default=0)

    @property
    def _coming(self) -> Sequence[LessonEntry]:
        """The lessons after the last one that is done or known; after one known by placement from
        one on that teaches something new, as placement asks for no others."""
        lessons, at = self.course.lessons, self._ahead
        coming = lessons[at:]
        if at and self.is_placed(lessons[at - 1]):
            return [*dropwhile(lambda one: not one.new, coming)] or coming[-1:]
        return coming

    @property
    def upcoming(self) -> LessonEntry | None:
        """What comes after all that is done or known, and where lessons may be chosen the first
        left half done there; then what was left out; None where all is done. Nobody who went ahead
        is thrown back."""
        lessons, ahead = self.course.lessons, self._coming
        half_done = filter(self._is_half_done, ahead if self.all_open else ())
        left_out = (entry for entry in lessons if not self.is_known(entry))
        return next(half_done, None) or next(iter(ahead), None) or next(left_out, None)

    def is_open(self, entry: LessonEntry) -> bool:
        """Whether the lesson may be done now: it is no further than the first that comes."""
        lessons = self.course.lessons
        last = lessons.index(self._coming[0]) if self._coming else len(lessons)
        return self.all_open or lessons.index(entry) <= last

    def after(self, lesson_id: str) -> LessonEntry | None:
        """The lesson that follows in order, where it is open; else what comes next."""
        at = self.course.lessons.index(self.course.by_id[lesson_id]) + 1
        following = next(iter(self.course.lessons[at:]), None)
        return following if following and self.is_open(following) else self.upcoming

    def digit(self, lessons: Sequence[LessonEntry]) -> int:
        """What a unit's rod reads: beads whose lessons are done or known lie at the beam, one after
        another."""
        beads = beads_of(len(lessons))
        left = {bead for bead, one in zip(beads, lessons, strict=True) if not self.is_known(one)}
        done = set(beads) - left
        return len([*takewhile(done.__contains__, EARTH)]) + 5 * (Bead.HEAVEN in done)


def beads_of(count: int) -> tuple[Bead, ...]:
    """The bead that stands for each of so many lessons of a unit: four earth beads, and the heaven
    bead for the last of five. Of more, the earth beads share all but the last.

    >>> [bead.name for bead in beads_of(6)]
    ['EARTH_1', 'EARTH_1', 'EARTH_2', 'EARTH_3', 'EARTH_4', 'HEAVEN']
    """
    if count <= len(EARTH):
        return EARTH[:count]
    before = count - 1
    return (*(EARTH[at * len(EARTH) // before] for at in range(before)), Bead.HEAVEN)

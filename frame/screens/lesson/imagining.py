"""How far somebody imagines the frame: a few tasks of each way of asking, without marks."""

from collections.abc import Sequence
from functools import partial

from frame.course.attempts import Origin
from frame.course.lesson import Ask, Lesson, Mark, Say
from frame.course.runner import Runner
from frame.practice.choices import Choices
from frame.practice.columns import MOST_DIGITS
from frame.practice.exercises import Exercise
from frame.practice.found import choices_found
from frame.practice.imagining import Found, Imagining, Step, worked_families
from frame.practice.rungs import Asked
from frame.practice.work import Work
from frame.room import Room
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.practice import keep_choices, kept_choices, known_facts
from frame.screens.lesson.unmarked import Unmarked
from frame.view.flash_safety import needs_caution


def can_imagine(room: Room) -> bool:
    """Whether something is known that can be worked without looking."""
    return bool(worked_families(known_facts(room)))


def begin_imagining(room: Room) -> "ImaginingScreen":
    """From its beginning: sums, called numbers, flashed ones."""
    known, quick = known_facts(room), room.settings.quick_flash

    def may(step: Step) -> bool:
        return quick or not needs_caution(step.pace)

    begin = partial(Imagining.begin, known=known, random=room.random)
    return ImaginingScreen(
        room,
        (begin(Asked.SHOWN), begin(Asked.CALLED), begin(Asked.FLASHED, may=may)),
    )


class ImaginingScreen(Unmarked):
    """One way of asking after the other. Numbers that are to be flashed may be left out."""

    def __init__(self, room: Room, parts: Sequence[Imagining]) -> None:
        self.parts = list(parts)
        self.at = 0
        super().__init__(room, _keeping(room, self.parts[0]))

    def coming(self, work: Work, now: float) -> Exercise | None:
        """The next of this way of asking, or the first of another."""
        part = self.parts[self.at]
        is_right = work.right and work.unaided
        self.parts[self.at] = part.answered(is_right) if work.counts else part.spoilt_run()
        coming = self.parts[self.at].next_item()
        while coming is None and self.at + 1 < len(self.parts):
            self.at += 1
            coming = self.parts[self.at].next_item()
        return coming

    def skip(self) -> None:
        """Nothing is to be flashed: all else was asked by then."""
        self.runner.put_next(None)
        super().skip()

    def found(self) -> dict[Asked, Found]:
        """How far, for each way of asking of which something was done."""
        return {part.asked: part.result() for part in self.parts if part.answers}

    @property
    def has_found(self) -> bool:
        """Whether anything was done."""
        return bool(self.found())

    def leave(self) -> None:
        """What was found stands ready to be practised."""
        super().leave()
        found, room = self.found(), self.room
        if found:
            before = room.choices or kept_choices(room) or Choices()
            room.choices = choices_found(before, found, self.parts[0].known)
            keep_choices(room)


def _keeping(room: Room, part: Imagining) -> Keeping:
    words, mark, item = room.words, Mark(1, 1), part.next_item()
    asked = (Ask(item, None, None, mark),) if item is not None else ()
    steps = (Say(words.line("placement.imagine_begin"), mark), *asked)
    title = words.text("placement.imagine")
    runner = Runner(
        Lesson("imagining", title, None, MOST_DIGITS, (), steps), part.known, part.seed,
        room.settings.conventions, room.settings.strictness, goes_back=False,
    )  # fmt: skip
    return Keeping(room, runner, partial(_keeping, room, part), origin=Origin.PLACEMENT)

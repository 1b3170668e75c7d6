"""A sheet that is being marked: what was typed or touched so far, and what is likely behind it."""

from collections.abc import Sequence
from concurrent.futures import Future
from dataclasses import dataclass, field
from functools import partial

from frame.learner.learners import Learner
from frame.room import Room
from frame.screens.marking.sheets_kept import half_marked, keep_half
from frame.sheets.code import code_of
from frame.sheets.half_marked import HalfMarked
from frame.sheets.marking import Answer, Marked, mark, mark_at_once, mark_wrong
from frame.sheets.sheet import Sheet
from frame.sheets.typed_in import TypedIn
from frame.technique.conventions import Conventions


@dataclass
class AtHand:
    """A sheet of a learner, marked by its answers, or where it `is_quick` by the numbers of the
    wrong ones; where it was left before, it goes on. What was behind an answer is weighed beside
    the window's thread, as the learner works."""

    room: Room
    learner: Learner
    sheet: Sheet
    code: str = field(init=False)
    half: HalfMarked = field(init=False)
    conventions: Conventions = field(init=False)
    is_kept: bool = False
    _weighed: dict[tuple[Answer | None, ...], Future[Marked]] = field(default_factory=dict)

    def __post_init__(self) -> None:
        room, learner = self.room, self.learner
        self.code = code_of(self.sheet.recipe)
        left = half_marked(room, learner, self.code, self.sheet)
        self.half = left or HalfMarked(TypedIn(self.sheet))
        settings = room.keeper.read(lambda store: store.settings(learner), room.settings)
        self.conventions = settings.conventions

    @property
    def typed(self) -> TypedIn:
        """What was typed."""
        return self.half.typed

    @property
    def wrong(self) -> set[int]:
        """The numbers of those that were touched."""
        return self.half.wrong

    @property
    def is_quick(self) -> bool:
        """Whether it is marked by those."""
        return self.half.is_quick

    def turn(self, quick: bool) -> None:
        """Mark it the other way. What was typed is wrong there too, or right."""
        self.half.is_quick = quick
        if quick:
            typed = [one for one in self._at_once.marks if one.answer is not None]
            self.half.wrong -= {one.number for one in typed if one.is_right}
            self.half.wrong |= {one.number for one in typed if not one.is_right}
        self.note()

    def toggle(self, number: int) -> None:
        """A task is wrong, or it was not after all."""
        self.half.wrong ^= {number}
        self.note()

    def note(self) -> None:
        """Keep how far it is, so that nothing of it is lost with the window."""
        keep_half(self.room, self.learner, self.code, self.half)

    def done(self) -> None:
        """It is marked to the end, and kept."""
        self.is_kept = True
        keep_half(self.room, self.learner, self.code, None)

    def weigh(self, upto: int) -> None:
        """Have weighed what is behind the answers to so many tasks, unless it was."""
        answers = self.typed.answers[:upto]
        if answers not in self._weighed:
            work = partial(mark, self.sheet, answers, self.conventions)
            self._weighed[answers] = self.room.aside.do(work)

    def weighed(self, upto: int) -> Marked | None:
        """The sheet marked by the answers to so many tasks; None while they are weighed."""
        future = self._weighed.get(self.typed.answers[:upto])
        return future.result() if future is not None and future.done() else None

    @property
    def marked(self) -> Marked:
        """The sheet as far as it is marked, with what is behind it where that is known by now."""
        if self.is_quick:
            return mark_wrong(self.sheet, self.wrong)
        return self.weighed(len(self.sheet.tasks)) or self._at_once

    @property
    def _at_once(self) -> Marked:
        return mark_at_once(self.sheet, self.typed.answers)

    def leave(self) -> None:
        """What is not weighed yet need not be; what is not kept waits for whoever comes back."""
        if not self.is_kept:
            self.note()
        futures: Sequence[Future[Marked]] = tuple(self._weighed.values())
        for one in futures:
            one.cancel()
        self._weighed.clear()

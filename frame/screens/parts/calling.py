"""A call under way: what is heard of it, where it is, and holding and repeating it.

Its cues tell where each number begins, so what is shown meanwhile hangs on the clock and not on the
mixer.
"""

from collections.abc import Callable
from dataclasses import dataclass
from functools import partial

from frame.language.printed import printed_parts
from frame.language.speech import PLAIN, QUICK, RATE
from frame.practice.cues import CallPace, Cue, UnspokenError, call_cues, sum_cues, unspoken_cues
from frame.practice.exercises import Exercise
from frame.room import Room
from frame.technique.calculation import Calculation
from frame.view.calling import mix
from frame.view.voice import Sounds

QUICK_BELOW = 0.5
"""With shorter gaps than so many seconds numbers are spoken more quickly, too."""

PLACE_GAP = 0.5
"""Seconds between the places of a number that is called place by place."""


@dataclass
class Calling:
    """Numbers being called. Times are seconds on the screen's clock; without sound `is_heard` is
    false, and the numbers can be shown at the same times."""

    sounds: Sounds
    cues: tuple[Cue, ...]
    samples: bytes
    is_heard: bool = True
    _began: float | None = None
    _from: float = 0.0
    _held: float | None = None

    @classmethod
    def of(cls, room: Room, exercise: Exercise) -> "Calling":
        """The call of an exercise's numbers, not begun."""
        speed = QUICK if exercise.pace < QUICK_BELOW else PLAIN
        pace = CallPace(speed, exercise.pace, exercise.by_place, PLACE_GAP)
        numbers = exercise.sum.numbers
        cues = partial(call_cues, numbers, room.words, room.clips, pace)
        return cls._mixed(room, cues, len(numbers), pace)

    @classmethod
    def of_sum(cls, room: Room, calculation: Calculation, number: int, gap: float) -> "Calling":
        """The call of a sum of a sheet by its number there, part by part, not begun."""
        pace = CallPace(PLAIN, gap)
        cues = partial(sum_cues, calculation, number, room.words, room.clips, pace)
        return cls._mixed(room, cues, len(printed_parts(calculation, room.words)), pace)

    @classmethod
    def _mixed(
        cls, room: Room, cues_of: Callable[[], tuple[Cue, ...]], count: int, pace: CallPace
    ) -> "Calling":
        try:
            cues = cues_of()
        except UnspokenError:
            return cls(room.sounds, unspoken_cues(count, pace), b"")
        samples = mix(cues, room.clip_store) if room.can_speak else b""
        return cls(room.sounds, cues, samples)

    @property
    def length(self) -> float:
        """How many seconds the whole call takes."""
        last = self.cues[-1]
        return (last.start + last.length) / RATE

    @property
    def has_begun(self) -> bool:
        """Whether it was started."""
        return self._began is not None

    @property
    def is_held(self) -> bool:
        """Whether it is held."""
        return self._held is not None

    def start(self, now: float, begin: float = 0.0) -> None:
        """Begin, or begin again, so many seconds into the call."""
        self._began, self._from, self._held = now, begin, None
        first = round(begin * RATE) * 2
        self.is_heard = self.sounds.play_call(self.samples[first:]) > 0

    def hold(self, now: float) -> None:
        """Hold the call, or go on with it."""
        if self._held is None:
            self._held = now
            self.sounds.pause_call()
        elif self._began is not None:
            self._began += now - self._held
            self._held = None
            self.sounds.resume_call()

    def stop(self) -> None:
        """End the call."""
        self.sounds.stop_call()

    def repeat(self, now: float) -> None:
        """Call the number called last once more, and go on from there."""
        at = self.number(now)
        if at is not None:
            self.start(now, self._onset(at))

    def number(self, now: float) -> int | None:
        """The index of the number called last, None before the first."""
        begun = [cue.term for cue in self._numbers if cue.start / RATE <= self.position(now)]
        return begun[-1] if begun else None

    def begun(self, now: float) -> int:
        """How many numbers were begun."""
        at = self.number(now)
        return 0 if at is None else at + 1

    def unheard(self, room: Room) -> int | None:
        """The index of the number called last, where nobody can hear it and it must be shown."""
        is_heard = self.is_heard and room.can_speak
        return None if is_heard else self.number(room.seconds())

    def position(self, now: float) -> float:
        """How many seconds of the call are past."""
        if self._began is None:
            return 0.0
        return self._from + (self._held if self._held is not None else now) - self._began

    def is_over(self, now: float) -> bool:
        """Whether all is said."""
        return self.has_begun and self.position(now) >= self.length

    def next_change(self, now: float) -> float | None:
        """In how many seconds the next number begins or the call ends; None while it is held."""
        if self.is_held or not self.has_begun:
            return None
        at = self.position(now)
        onsets = [cue.start / RATE for cue in self._numbers]
        return min((onset for onset in [*onsets, self.length] if onset > at), default=at) - at

    @property
    def _numbers(self) -> list[Cue]:
        return [cue for cue in self.cues if cue.term is not None]

    def _onset(self, number: int) -> float:
        return next(cue.start for cue in self._numbers if cue.term == number) / RATE

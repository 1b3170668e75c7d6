"""How long a lesson takes whoever makes no mistake in it: it is played on a clock of its own.

All that is told is heard to its end, and each touch, answer or press of the way on is thought of
for a while. So it is neither the shortest time nor that of any child, but the same for all lessons.
"""

from collections.abc import Callable
from dataclasses import dataclass, field
from decimal import Decimal

from frame.course.feedback import Feedback
from frame.course.guide import Guide
from frame.course.lesson import Lesson
from frame.course.pacing import Due
from frame.course.runner import Runner
from frame.course.stages import Stage
from frame.language.catalogue import Words
from frame.language.speech import PIECE_GAP, RATE, SENTENCE_GAP, Clips, normal, sentences
from frame.language.wording import Listener
from frame.practice.exercises import Kind
from frame.practice.rungs import Asked
from frame.technique.reading import plain

THOUGHT_SECONDS = 3.0
"""From what was heard to the next touch, answer or press. Our own number, no source."""
WORDS_A_MINUTE = 130
"""How fast words without a recording are taken to be read aloud to the young."""

_SEED = 1


@dataclass(frozen=True, slots=True)
class Reading:
    """How long a text is heard: as its clips are long, and what has none, or all where there are no
    clips, by its words."""

    clips: Clips | None = None

    def seconds(self, text: str) -> float:
        """From its first word to its last."""
        whole = self.clips.find(normal(text)) if self.clips else None
        if whole is not None:
            return whole.length / RATE
        parts = [self._of_sentence(one) for one in sentences(text)]
        return sum(parts) + SENTENCE_GAP * max(0, len(parts) - 1)

    def _of_sentence(self, text: str) -> float:
        if self.clips is None or self.clips.missing(text):
            return len(normal(text).replace("-", " ").split()) * 60 / WORDS_A_MINUTE
        pieces = self.clips.pieces(text)
        return sum(one.length for one in pieces) / RATE + PIECE_GAP * (len(pieces) - 1)


@dataclass(frozen=True, slots=True)
class Playing:
    """How lessons are played: the words, how long they are heard, how long the beads of a
    demonstration glide, and who listens."""

    words: Words
    reading: Reading
    glide: float
    listener: Listener = Listener.YOUNG

    def seconds(self, lesson: Lesson, known: frozenset[str]) -> float:
        """How long a lesson takes; `known` is all that is taught when it is over."""
        runner = Runner(lesson, known, _SEED)
        return _Play(self, Guide(runner, Feedback(self.words, self.listener))).seconds()


@dataclass
class _Play:
    """A lesson under way, and the time."""

    playing: Playing
    guide: Guide
    now: float = 0.0
    _told: int = field(default=0, init=False)

    def seconds(self) -> float:
        """Play it to its end, where what was new is seen once more."""
        self._do(self.guide.settle)
        while self._waits_for_learner or self._waits_for_time:
            if self._waits_for_time:
                self._pass_time()
            else:
                self._think_and_act()
        return max(self.now, self.guide.telling.quiet_at)

    @property
    def _waits_for_learner(self) -> bool:
        return self.guide.runner.stage is not Stage.END

    @property
    def _waits_for_time(self) -> bool:
        return self.guide.dues.at(Due.ON) is not None

    def _do(self, act: Callable[[float], object]) -> None:
        """Do something now; what is told of it begins to be heard."""
        act(self.now)
        telling = self.guide.telling
        if telling.count != self._told and telling.line is not None:
            self.guide.pacing.heard(self.now, self.playing.reading.seconds(telling.line.speak))
        self._told = telling.count

    def _pass_time(self) -> None:
        """What the lesson does by itself when it is due."""
        self.now = max(self.now, self.guide.dues.at(Due.ON) or 0.0)
        self._do(self.guide.advance)
        match self.guide.runner.stage:
            case Stage.DEMO:
                self._do(self._play)
            case Stage.END:
                self._do(self._play)
                self.now += self.playing.glide
            case Stage.PRESENT:
                self.now += self._presented
                self._do(self.guide.was_shown)
            case Stage.RESULTS:
                self.now += THOUGHT_SECONDS
                self._do(self.guide.go_on)
            case _:
                self._do(self.guide.go_on)

    def _play(self, now: float) -> None:
        self.guide.play(now, self.playing.glide)

    @property
    def _presented(self) -> float:
        """How long called or flashed numbers take to come."""
        work = self.guide.runner.work
        if work is None:
            return 0.0
        seconds = work.exercise.pace * len(work.exercise.sum.numbers)
        if work.exercise.asked is Asked.CALLED:
            said = map(self.playing.words.number, work.exercise.sum.numbers)
            seconds += sum(map(self.playing.reading.seconds, said))
        return seconds

    def _think_and_act(self) -> None:
        """What the learner does, once all was heard."""
        self.now = max(self.now, self.guide.telling.quiet_at) + THOUGHT_SECONDS
        self._do(self.guide.advance)
        match self.guide.runner.stage:
            case Stage.ANSWER:
                self._do(self._answer)
            case Stage.WORK:
                self._do(self._work)
            case Stage.PRESENT:
                self.now += self._presented
                self._do(self.guide.was_shown)
            case _:
                self._do(self.guide.go_on)

    def _answer(self, now: float) -> None:
        work = self.guide.runner.work
        if work is None:
            return
        number = work.exercise.sum.remainder if work.asks_rest else work.exercise.sum.result
        for sign in plain(number or Decimal(0)):
            self.guide.type_sign(sign, now)
        self.guide.give_answer(now)

    def _work(self, now: float) -> None:
        """The next stroke, a wipe, or the word that it is done."""
        work = self.guide.runner.work
        if work is None:
            return
        if not work.next_stroke:
            self.guide.say_done(now)
        elif work.exercise.kind is Kind.CLEAR:
            self.guide.wipe(tuple(range(len(work.frame.digits))), now)
        else:
            self.guide.touch(work.next_stroke, now)

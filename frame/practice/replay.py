"""The learner's touches beside the right ones, and the first place where the two parted."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from frame.practice.touches import Touch
from frame.practice.work import Work
from frame.technique.beads import Frame, Stroke
from frame.technique.judge import Judge, Verdict
from frame.technique.progress import Progress


@dataclass(frozen=True, slots=True)
class Replay:
    """Two ways from one start: the learner's `hand`, and the right `way`, which goes with the
    hand as long as the hand is right and from there on as the convention does, so that no two
    lists need be matched. Each is the frames after 0, 1, 2 ... strokes, and the strokes between
    them.

    `parting` is the index of the first stroke in which the two differ, None where they never do
    or nothing was touched; `verdict` is what the judge said of the hand there, to be followed by
    what comes next on the way, None where the hand came to its end too early.
    """

    hand: tuple[Stroke, ...]
    way: tuple[Stroke, ...]
    hand_frames: tuple[Frame, ...]
    way_frames: tuple[Frame, ...]
    way_states: tuple[Progress, ...]
    parting: int | None
    verdict: Verdict | None

    @property
    def last(self) -> int:
        """How many strokes the longer of the two has."""
        return max(len(self.hand), len(self.way))

    def frames_at(self, stroke: int) -> tuple[Frame, Frame]:
        """The hand's frame and the way's after so many strokes, or at the end of each."""
        hand = self.hand_frames[min(stroke, len(self.hand))]
        return hand, self.way_frames[min(stroke, len(self.way))]


def replay_of(work: Work, hand: Sequence[Stroke] = ()) -> Replay:
    """The replay of an exercise that is over. Where nothing was touched the hand is one that may
    have been behind the answer, and else empty."""
    touches = work.touches or list(_touches(work, hand))
    strokes = tuple(touch.verdict.stroke for touch in work.touches) or tuple(hand)
    first = next((at for at, one in enumerate(touches) if not one.verdict.is_right), None)
    same = len(touches) if first is None else first
    judge = _judge_at(work, touches, first)
    rest = list(_rest(judge.progress)) if judge is not None else []
    way = (*strokes[:same], *(stroke for stroke, _ in rest))
    before = [touch.judge.progress for touch in touches[:same]]
    here = [judge.progress] if judge is not None else []
    states = (*before, *here, *(after for _, after in rest))
    parting = None if not strokes or way == strokes else same
    verdict = None if first is None else _of_way(touches[first])
    frames, right = _frames(work.start, strokes), _frames(work.start, way)
    return Replay(strokes, way, frames, right, states, parting, verdict)


def _judge_at(work: Work, touches: Sequence[Touch], first: int | None) -> Judge | None:
    """The judge where the hand parted, or at the end of its work."""
    if first is not None:
        return touches[first].judge
    if touches and not work.touches:
        return touches[-1].judge.after(touches[-1].verdict)
    return work.judge


def _touches(work: Work, hand: Sequence[Stroke]) -> Iterator[Touch]:
    """The strokes of a hand, judged up to the first that is not right."""
    judge = work.judge
    for stroke in hand:
        if judge is None:
            return
        verdict = judge.judge(stroke)
        yield Touch(judge, verdict)
        if not verdict.is_right:
            return
        judge = judge.after(verdict)


def _of_way(touch: Touch) -> Verdict:
    return touch.verdict._replace(progress=touch.judge.progress)


def _rest(progress: Progress) -> Iterator[tuple[Stroke, Progress]]:
    """The strokes left from a state of the work to its end, each with the state after it."""
    while stroke := progress.next_stroke:
        for move in stroke:
            progress = progress.follow(move) or progress
        yield stroke, progress


def _frames(start: Frame, strokes: Sequence[Stroke]) -> tuple[Frame, ...]:
    frames = [start]
    for stroke in strokes:
        frames.append(frames[-1].apply_all(stroke))
    return tuple(frames)

"""How even a call really is: the gaps between its numbers, found again in the mixed sound."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from random import Random

import pygame

from frame.language.catalogue import Words
from frame.language.speech import RATE, Clips
from frame.practice.columns import draw_column
from frame.practice.cues import CallPace, Cue, CueKind, call_cues
from frame.view.calling import mix
from frame.view.clips import SAMPLE_BYTES, ClipStore

NUMBERS = 15
DIGITS = 14
GAP = 0.7
"""Seconds asked for between two numbers."""


@dataclass(frozen=True, slots=True)
class CallFigures:
    """`jitter_samples` is the most that a gap between two numbers differs from what was asked."""

    numbers: int
    digits: int
    jitter_samples: int


def measure_call(words: Words, clips: Clips) -> CallFigures | None:
    """A call of long numbers, mixed and looked at; None where no sound can be opened."""
    try:
        pygame.mixer.init(RATE, -16, 1, 256, allowedchanges=0)
    except pygame.error:
        return None
    try:
        return _measure(words, clips, ClipStore(clips.folder))
    finally:
        pygame.mixer.quit()


def _measure(words: Words, clips: Clips, store: ClipStore) -> CallFigures:
    column = draw_column(DIGITS, NUMBERS, Random(1))
    cues = call_cues(column, words, clips, CallPace(gap=GAP))
    found = _places(mix(cues, store), cues, store)
    gaps = [after[0] - before[1] for before, after in pairwise(found)]
    return CallFigures(NUMBERS, DIGITS, max(abs(gap - round(GAP * RATE)) for gap in gaps))


def _places(sound: bytes, cues: Sequence[Cue], store: ClipStore) -> list[tuple[int, int]]:
    """The first sample of each number and the one after its last, where its clips are found."""
    places, at = [], 0
    for cue in cues:
        if cue.kind is not CueKind.NUMBER:
            continue
        first = None
        for _, clip in cue.clips:
            samples = store.cut(clip)
            at = sound.index(samples, at)
            first = at if first is None else first
            at += len(samples)
        places.append(((first or 0) // SAMPLE_BYTES, at // SAMPLE_BYTES))
    return places

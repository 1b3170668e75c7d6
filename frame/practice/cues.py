"""A call as a timeline: which clip starts at which sample. It knows no clock and no sound.

A caller says an opening line, the numbers in an even tempo, and a closing line; then there is
silence for the answer. "Minus" goes before a number to take away, and nothing before one to add.

Where another language goes: what is said for the numbers of a column is a `Caller`, one function
for each language, given the whole column and not one number. In Japanese calling the word for
taking away holds for all numbers that follow until the word for adding is said, so what is said
before a number depends on the number before it; in other languages the ones come before the tens.
"""

from collections.abc import Callable, Iterator, Sequence
from decimal import Decimal
from enum import StrEnum
from typing import NamedTuple

from frame.language.catalogue import Words
from frame.language.speech import PLAIN, QUICK, RATE, Clip, Clips
from frame.technique.calculation import Calculation, Product, Quotient, Root, Sum
from frame.technique.reading import plain

JOIN = {PLAIN: 0.06, QUICK: 0.03}
"""Seconds between the clips of one number, as between two words of a speaker, at each speed."""
AROUND = 0.6
"""Seconds, at least, after the opening line and before the closing one."""


class CallPace(NamedTuple):
    """How a column is called. `gap` is the silence between two numbers, `place_gap` that between
    two places of a number that is called place by place; both in seconds."""

    speed: str = PLAIN
    gap: float = 1.5
    place_by_place: bool = False
    place_gap: float = 0.4


class CueKind(StrEnum):
    """What a cue is of."""

    OPENING = "opening"
    NUMBER = "number"
    CLOSING = "closing"


class Cue(NamedTuple):
    """A part of a call: its first sample, its samples, its clips with each one's first sample
    counted from the cue's; `term` is its number's place in the column, None for a line."""

    kind: CueKind
    term: int | None
    start: int
    length: int
    clips: tuple[tuple[int, Clip], ...]

    @property
    def end(self) -> int:
        """The first sample after it."""
        return self.start + self.length


class UnspokenError(ValueError):
    """A call with words that no clip has; the message names them."""


Phrases = tuple[str, ...]
"""What is said for one number: one phrase, or one for each place."""
Caller = Callable[[Sequence[Decimal], Words, bool], Iterator[Phrases]]
"""Gives the phrases of each number of a column; the flag asks for them place by place."""


def english(terms: Sequence[Decimal], words: Words, place_by_place: bool) -> Iterator[Phrases]:
    """What is said in English: "minus three hundred forty-two", or "minus three hundred",
    "forty", "two"."""
    minus, _ = words.listed("number.signs")
    for term in terms:
        said = _places(term, words) if place_by_place else (words.number(abs(term)),)
        yield (f"{minus} {said[0]}", *said[1:]) if term < 0 else said


def _places(term: Decimal, words: Words) -> Phrases:
    """The number's digits with their places, noughts left out; those after the point one by one."""
    whole, _, decimals = plain(abs(term)).partition(".")
    count = len(whole)
    digits = [int(digit) * 10 ** (count - 1 - at) for at, digit in enumerate(whole)]
    said = [words.number(digit) for digit in digits if digit] or [words.number(0)]
    if decimals:
        _, point = words.listed("number.signs")
        said += [point, *(words.number(int(digit)) for digit in decimals)]
    return tuple(said)


def call_cues(
    terms: Sequence[Decimal], words: Words, clips: Clips, pace: CallPace, caller: Caller = english
) -> tuple[Cue, ...]:
    """The cues of a call: opening line, numbers, closing line.

    Raises UnspokenError for words without a clip, ValueError for a number without a name.
    """
    opening, closing = words.line("call.opening").speak, words.line("call.closing").speak
    said = list(caller(terms, words, pace.place_by_place))
    return _timeline(opening, said, closing, clips, pace)


def read_out(calculation: Calculation, words: Words) -> tuple[str, ...]:
    """What is said of a sum of a sheet, for each part of it that is printed: "thirty-eight", "plus
    forty-seven", "minus five"; "thirty-seven", "times four hundred thirty-two"."""
    line = words.line
    match calculation:
        case Sum((first, *others)):
            signs = ("rule.minus" if term < 0 else "rule.plus" for term in others)
            more = [line(key, number=abs(term)) for key, term in zip(signs, others, strict=True)]
            return (words.number(first), *(one.speak for one in more))
        case Product(one, other):
            said: tuple[str, ...] = words.number(one), line("call.times", number=other).speak
        case Quotient(one, other):
            said = words.number(one), line("call.divided_by", number=other).speak
        case Root(one):
            said = (line("lesson.root", one=one).speak,)
    if calculation.places is None:
        return said
    unit = Decimal(1).scaleb(-calculation.places)
    return (*said, line("lesson.nearest", number=unit).speak)


def sum_cues(
    calculation: Calculation, number: int, words: Words, clips: Clips, pace: CallPace
) -> tuple[Cue, ...]:
    """The cues of a sum of a sheet: its number there, its parts, and what is asked.

    Raises UnspokenError for words without a clip.
    """
    opening = words.line("call.sum", number=number).speak
    said = [(part,) for part in read_out(calculation, words)]
    return _timeline(opening, said, words.line("lesson.what_answer").speak, clips, pace)


def _timeline(
    opening_line: str, said: Sequence[Phrases], closing_line: str, clips: Clips, pace: CallPace
) -> tuple[Cue, ...]:
    around = max(pace.gap, AROUND)
    opening = _cue(CueKind.OPENING, None, (opening_line,), clips, pace)
    cues, at = [opening], opening.end + _samples(around)
    for term, phrases in enumerate(said):
        cue = _cue(CueKind.NUMBER, term, phrases, clips, pace)._replace(start=at)
        cues.append(cue)
        at = cue.end + _samples(pace.gap)
    closing = _cue(CueKind.CLOSING, None, (closing_line,), clips, pace)
    return (*cues, closing._replace(start=cues[-1].end + _samples(around)))


def unspoken_cues(count: int, pace: CallPace) -> tuple[Cue, ...]:
    """The cues of a call that nobody can speak: `count` numbers of a second each."""
    step = _samples(1 + pace.gap)
    return tuple(Cue(CueKind.NUMBER, at, at * step, RATE, ()) for at in range(count))


def _cue(kind: CueKind, term: int | None, phrases: Phrases, clips: Clips, pace: CallPace) -> Cue:
    """A cue that starts at 0."""
    placed: list[tuple[int, Clip]] = []
    at = 0
    for clip, gap in _clips_with_gaps(phrases, clips, pace):
        placed.append((at, clip))
        at += clip.length + gap
    last, clip = placed[-1]
    return Cue(kind, term, 0, last + clip.length, tuple(placed))


def _clips_with_gaps(phrases: Phrases, clips: Clips, pace: CallPace) -> Iterator[tuple[Clip, int]]:
    """Each clip with the samples of silence after it."""
    for phrase in phrases:
        if missing := clips.missing(phrase, pace.speed):
            raise UnspokenError(f"no clip for {', '.join(missing)}")
        *pieces, last = clips.pieces(phrase, pace.speed)
        yield from ((piece, _samples(JOIN[pace.speed])) for piece in pieces)
        yield last, _samples(pace.place_gap)


def _samples(seconds: float) -> int:
    return round(seconds * RATE)

"""A call as a timeline: what is said, in which order, and gaps that are exact to the sample."""

from decimal import Decimal
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shipped import the_words

from frame.course.spoken import number_groups
from frame.language.speech import PLAIN, QUICK, RATE, Clips, normal
from frame.practice.cues import CallPace, Cue, CueKind, UnspokenError, call_cues

WORDS = the_words()
LINES = [WORDS.line("call.opening").speak, WORDS.line("call.closing").speak]


@pytest.fixture(scope="module")
def clips(tmp_path_factory: pytest.TempPathFactory) -> Clips:
    """Clips of unlike lengths for every number, in tables made up here."""
    folder = tmp_path_factory.mktemp("clips")
    texts = [text for group in number_groups(WORDS) for text in group.texts] + LINES
    for speed, shortest in ((PLAIN, 9000), (QUICK, 5000)):
        rows = (
            f"{speed}.ogg {at * 20_000} {shortest + at * 37 % 4001}\t{normal(text)}"
            for at, text in enumerate(texts)
        )
        (folder / f"{speed}.txt").write_text("\n".join(rows), "utf-8")
    return Clips(folder)


@pytest.fixture(scope="module")
def said(clips: Clips) -> dict[int, str]:
    """The words of a clip by its first sample."""
    return {clip.start: words for words, clip in clips.entries(PLAIN)}


def call(clips: Clips, *numbers: object, **pace: object) -> tuple[Cue, ...]:
    terms = [Decimal(str(number)) for number in numbers]
    return call_cues(terms, WORDS, clips, CallPace(**pace))  # type: ignore[arg-type]


def words_of(cue: Cue, said: dict[int, str]) -> list[str]:
    return [said[clip.start] for _, clip in cue.clips]


def test_a_call_opens_says_each_number_and_closes(clips: Clips, said: dict[int, str]) -> None:
    cues = call(clips, 34, 52, -7)
    kinds = [cue.kind for cue in cues]
    assert kinds == [CueKind.OPENING, *[CueKind.NUMBER] * 3, CueKind.CLOSING]
    assert [cue.term for cue in cues] == [None, 0, 1, 2, None]
    assert words_of(cues[0], said) == [normal(LINES[0])]
    assert words_of(cues[-1], said) == [normal(LINES[1])]


@pytest.mark.parametrize(
    ("number", "words"),
    [
        ("34", ["thirty-four"]),
        ("-7", ["minus", "seven"]),
        ("0", ["zero"]),
        ("2304", ["two thousand", "three hundred four"]),
        ("-1000000", ["minus", "one million"]),
        ("4.05", ["four", "point", "zero", "five"]),
    ],
)
def test_a_number_is_said_by_its_groups(
    clips: Clips, said: dict[int, str], number: str, words: list[str]
) -> None:
    assert words_of(call(clips, number)[1], said) == words


@pytest.mark.parametrize(
    ("number", "words"),
    [
        ("342", ["three hundred", "forty", "two"]),
        ("302", ["three hundred", "two"]),
        ("-12", ["minus", "ten", "two"]),
        ("0", ["zero"]),
        ("24305", ["twenty", "thousand", "four thousand", "three hundred", "five"]),
        ("40.25", ["forty", "point", "two", "five"]),
    ],
)
def test_place_by_place_every_digit_is_said_with_its_place(
    clips: Clips, said: dict[int, str], number: str, words: list[str]
) -> None:
    assert words_of(call(clips, number, place_by_place=True)[1], said) == words


def test_a_pause_stands_between_places_and_not_within_one(clips: Clips) -> None:
    cue = call(clips, -24_000, place_by_place=True, place_gap=0.5)[1]
    ends = [offset + clip.length for offset, clip in cue.clips]
    gaps = [start - end for (start, _), end in zip(cue.clips[1:], ends, strict=False)]
    minus_twenty, twenty_thousand, places = gaps  # Four thousand is one clip.
    assert minus_twenty == twenty_thousand < places == RATE // 2


@given(
    st.lists(st.integers(-(10**14) + 1, 10**14 - 1), min_size=2, max_size=15),
    st.floats(0, 5),
    st.sampled_from([PLAIN, QUICK]),
    st.booleans(),
)
def test_the_gap_between_numbers_is_exact(
    clips: Clips, numbers: list[int], gap: float, speed: str, places: bool
) -> None:
    cues = call(clips, *numbers, gap=gap, speed=speed, place_by_place=places)
    spoken = [cue for cue in cues if cue.kind is CueKind.NUMBER]
    gaps = {after.start - before.end for before, after in pairwise(spoken)}
    assert gaps == {round(gap * RATE)}
    for cue in cues:
        last, clip = cue.clips[-1]
        assert cue.length == last + clip.length
        assert all(there.sprite == f"{speed}.ogg" for _, there in cue.clips)


def test_the_lines_stand_apart_even_at_the_quickest(clips: Clips) -> None:
    opening, first, second, closing = call(clips, 5, 6, gap=0)
    assert first.start > opening.end and closing.start > second.end
    assert second.start == first.end


def test_a_word_without_a_clip_is_named(tmp_path: Path) -> None:
    (tmp_path / f"{PLAIN}.txt").write_text("a.ogg 0 1\tstarting with\na.ogg 2 1\tfive", "utf-8")
    with pytest.raises(UnspokenError, match="minus"):
        call(Clips(tmp_path), 5, -5)

"""Clips: the key of a text, and the cutting of texts into the fewest runs that have a clip."""

from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.language.speech import PLAIN, QUICK, Clip, Clips, normal, sentences

PLAIN_TABLE = """\
# a.ogg 0123
a.ogg 100 10\tyes
a.ogg 200 20\tyour frame reads
a.ogg 300 30\tforty-two
a.ogg 400 40\ttwo
b.ogg 500 50\tthousand
b.ogg 600 60\ttwo thousand
b.ogg 700 70\tten is out its partner comes
b.ogg 800 80\tminus
b.ogg 810 81\tminus two
b.ogg 820 82\ttwo hundred
b.ogg 830 83\tminus two hundred and
"""
QUICK_TABLE = "# q.ogg 0123\nq.ogg 1 2\tforty-two\nq.ogg 3 4\tminus\nq.ogg 5 6\ttwo hundred\n"
KEYS = [row.partition("\t")[2] for row in PLAIN_TABLE.splitlines()[1:]]


@pytest.fixture(scope="module")
def clips(tmp_path_factory: pytest.TempPathFactory) -> Clips:
    folder = tmp_path_factory.mktemp("clips")
    (folder / f"{PLAIN}.txt").write_text(PLAIN_TABLE, "utf-8")
    (folder / f"{QUICK}.txt").write_text(QUICK_TABLE, "utf-8")
    return Clips(folder)


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("Yes.", "yes"),
        ("  Ten is out:   its partner comes. ", "ten is out its partner comes"),
        ("Forty-two!", "forty-two"),
        ("Three’s partner", "three's partner"),
        ("'Quoted' - and – dashed —", "quoted and dashed"),
        ("4–6", "4 6"),
        ("…", ""),
    ],
)
def test_the_key_of_a_text(text: str, key: str) -> None:
    assert normal(text) == key


@given(st.text(alphabet="aB9-'’.,:!? \n–é"))
def test_a_key_is_its_own_key(text: str) -> None:
    assert normal(normal(text)) == normal(text)


@given(st.text(alphabet="aB9-'’.,:!? é"))
def test_sentences_have_the_words_of_their_text(text: str) -> None:
    assert " ".join(map(normal, sentences(text))) == normal(text)


def starts(clips: Clips, text: str, speed: str = PLAIN) -> list[int]:
    return [clip.start for clip in clips.pieces(text, speed)]


@pytest.mark.parametrize(
    ("text", "found"),
    [
        ("Yes!", [100]),
        ("Yes. Forty-two.", [100, 300]),
        ("Ten is out: its partner comes.", [700]),
        ("Your frame reads forty-two.", [200, 300]),
        ("Your frame reads two thousand forty-two.", [200, 600, 300]),
        ("Two. Thousand.", [600]),
        ("Yes two. Thousand.", [100, 400, 500]),
        ("Yes, gulls, two", [100, 400]),
        ("Minus two", [810]),
        ("Minus two hundred", [800, 820]),
        ("Minus two hundred forty-two", [800, 820, 300]),
        ("Minus two thousand", [810, 500]),
        ("Minus hundred", [800]),
        ("", []),
    ],
)
def test_the_whole_text_then_sentences_then_the_fewest_runs(
    clips: Clips, text: str, found: list[int]
) -> None:
    assert starts(clips, text) == found


@given(st.lists(st.sampled_from(KEYS), min_size=1, max_size=8))
def test_whatever_clips_can_be_joined_to_is_spoken_whole(clips: Clips, keys: list[str]) -> None:
    text = " ".join(keys)
    assert clips.missing(text) == ()
    assert len(clips.pieces(text)) <= len(keys)


@given(st.lists(st.sampled_from([*" ".join(KEYS).split(), "gulls"]), max_size=9))
def test_no_other_cut_misses_fewer_words_or_has_fewer_clips(clips: Clips, words: list[str]) -> None:
    text = " ".join(words)
    missing, runs = len(clips.missing(text)), len(clips.pieces(text))
    assert (missing, missing + runs) == min(cuts(tuple(words)))


def cuts(words: tuple[str, ...]) -> set[tuple[int, int]]:
    """Of every way to cut the words into clips and words without one: how many of these, and how
    many in all."""
    if not words:
        return {(0, 0)}
    found = set()
    for size in range(1, len(words) + 1):
        is_missing = " ".join(words[:size]) not in KEYS
        if size == 1 or not is_missing:
            found |= {(lost + is_missing, count + 1) for lost, count in cuts(words[size:])}
    return found


def test_words_without_a_clip_are_told(clips: Clips) -> None:
    assert clips.missing("Yes, gulls, two. Crabs.") == ("gulls", "crabs")
    assert clips.missing("Yes. Your frame reads two.") == ()


def test_a_phrase_is_a_sentence(clips: Clips) -> None:
    lengths = [[clip.length for clip in phrase] for phrase in clips.phrases("Yes. Two forty-two.")]
    assert lengths == [[10], [40, 30]]


def test_a_speed_has_its_own_clips_and_borrows_the_plain_ones(clips: Clips) -> None:
    assert clips.find("forty-two", QUICK) == Clip("q.ogg", 1, 2)
    assert starts(clips, "two forty-two", QUICK) == [400, 1]
    assert set(dict(clips.entries(QUICK))) == {"forty-two", "minus", "two hundred"}


def test_more_clips_of_the_speed_go_before_fewer_of_the_other(clips: Clips) -> None:
    assert starts(clips, "minus two hundred and", QUICK) == [830]
    assert starts(clips, "minus two hundred", QUICK) == [3, 5]
    assert starts(clips, "minus two", QUICK) == [3, 400]


def test_a_language_without_recordings_lacks_every_word(tmp_path: Path) -> None:
    clips = Clips(tmp_path / "none")
    assert clips.missing("Not yet.") == ("not", "yet")
    assert clips.pieces("Not yet.") == ()

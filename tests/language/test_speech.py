"""Clips: the key of a text, and the cutting of texts into the longest runs that have a clip."""

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
"""
QUICK_TABLE = "# q.ogg 0123\nq.ogg 1 2\tforty-two\n"


@pytest.fixture
def clips(tmp_path: Path) -> Clips:
    (tmp_path / f"{PLAIN}.txt").write_text(PLAIN_TABLE, "utf-8")
    (tmp_path / f"{QUICK}.txt").write_text(QUICK_TABLE, "utf-8")
    return Clips(tmp_path)


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
        ("", []),
    ],
)
def test_the_whole_text_then_sentences_then_the_longest_runs(
    clips: Clips, text: str, found: list[int]
) -> None:
    assert starts(clips, text) == found


def test_words_without_a_clip_are_told(clips: Clips) -> None:
    assert clips.missing("Yes, gulls, two. Crabs.") == ("gulls", "crabs")
    assert clips.missing("Yes. Your frame reads two.") == ()


def test_a_phrase_is_a_sentence(clips: Clips) -> None:
    lengths = [[clip.length for clip in phrase] for phrase in clips.phrases("Yes. Two forty-two.")]
    assert lengths == [[10], [40, 30]]


def test_a_speed_has_its_own_clips_and_borrows_the_plain_ones(clips: Clips) -> None:
    assert clips.find("forty-two", QUICK) == Clip("q.ogg", 1, 2)
    assert starts(clips, "two forty-two", QUICK) == [400, 1]
    assert dict(clips.entries(QUICK)) == {"forty-two": Clip("q.ogg", 1, 2)}


def test_a_language_without_recordings_lacks_every_word(tmp_path: Path) -> None:
    clips = Clips(tmp_path / "none")
    assert clips.missing("Not yet.") == ("not", "yet")
    assert clips.pieces("Not yet.") == ()

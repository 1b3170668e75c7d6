"""How signs of both directions stand on a line."""

from collections import Counter

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.view.reading_order import in_order, runs_left

# By the rules of UAX 9, worked out by hand; capitals in its own examples stand for Hebrew here.
ROWS = [
    ("Otter", "Otter"),
    ("אבג", "גבא"),
    ("אב גד", "דג בא"),
    ("אב 12", "12 בא"),
    ("12 אב", "בא 12"),
    ("car אבג 3", "car 3 גבא"),
    ("אבג car", "car גבא"),
    ("a אב b", "a בא b"),
    ("אב (ג)", "(ג) בא"),
    ("אב!", "!בא"),
    ("a אב!", "a בא!"),
    ("اب ١٢", "١٢ با"),
    ("", ""),
]


@pytest.mark.parametrize(("text", "seen"), ROWS)
def test_the_order_on_a_line(text, seen):
    assert "".join(sign.text for sign in in_order(text)) == seen


MIXED = st.text(st.sampled_from("abcאבגدذ 12١٢()-!ąकि🦦"), max_size=30)


@given(MIXED)
def test_every_sign_is_there_once(text):
    kept = str.maketrans("()", "((")
    seen = "".join(sign.text for sign in in_order(text))
    assert Counter(seen.translate(kept)) == Counter(text.translate(kept))


@given(st.text(st.characters(codec="latin-1", exclude_categories=["Cc"])))
def test_what_is_written_to_the_right_stays_as_it_is(text):
    assert "".join(sign.text for sign in in_order(text)) == text
    assert not runs_left(text)


@pytest.mark.parametrize(
    ("text", "script"), [("ع", "Arab"), ("ש", "Hebr"), ("प्रि", "Deva"), ("a", "")]
)
def test_the_script_a_font_is_told(text, script):
    assert [sign.script for sign in in_order(text)] == [script]


def test_each_sign_knows_its_word():
    assert [sign.word for sign in in_order("ab אב")] == ["ab", "ab", " ", "אב", "אב"]

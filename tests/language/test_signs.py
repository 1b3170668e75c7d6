"""Signs of a text as a person counts them. The cuts were once compared with those of the package
regex (2026.11, Unicode 17): they differ in Burmese, where a vowel is counted with its consonant."""

import unicodedata

from each import each_row
from hypothesis import given
from hypothesis import strategies as st

from frame.language.signs import signs_of

SCOTLAND = "🏴\U000e0067\U000e0062\U000e0073\U000e0063\U000e0074\U000e007f"

# Examples of UAX 29, "Grapheme Cluster Boundaries", and of Unicode's emoji sequences; from memory.
CUTS = [
    ("", []),
    ("Zoë", ["Z", "o", "ë"]),
    ("Zoe\u0308", ["Z", "o", "e\u0308"]),
    ("x\u0323\u0302", ["x\u0323\u0302"]),
    ("שָׁלוֹם", ["שָׁ", "ל", "וֹ", "ם"]),
    ("مُحمد", ["مُ", "ح", "م", "د"]),
    ("प्रिया", ["प्रि", "या"]),
    ("क्षत्रिय", ["क्ष", "त्रि", "य"]),
    ("தமிழ்", ["த", "மி", "ழ்"]),
    ("น้ำ", ["น้ำ"]),
    ("한국", ["한", "국"]),
    (unicodedata.normalize("NFD", "한국"), [unicodedata.normalize("NFD", one) for one in "한국"]),
    ("さくら", ["さ", "く", "ら"]),
    ("か\u3099", ["か\u3099"]),
    ("ﾊﾟ", ["ﾊﾟ"]),
    ("🦦!", ["🦦", "!"]),
    ("❤️", ["❤️"]),
    ("1️⃣", ["1️⃣"]),
    ("☝🏿", ["☝🏿"]),
    ("👩🏽‍🚀", ["👩🏽‍🚀"]),
    ("👨‍👩‍👧‍👦", ["👨‍👩‍👧‍👦"]),
    ("🏳️‍🌈", ["🏳️‍🌈"]),
    ("🇳🇴🇩🇪🇫", ["🇳🇴", "🇩🇪", "🇫"]),
    (SCOTLAND, [SCOTLAND]),
    ("a\nb", ["a", "\n", "b"]),
]


@each_row(("text", "signs"), CUTS)
def test_a_text_is_cut_into_what_a_person_counts(text: str, signs: list[str]) -> None:
    assert list(signs_of(text)) == signs


@given(st.text())
def test_no_character_is_lost(text: str) -> None:
    assert "".join(signs_of(text)) == text
    assert all(signs_of(text))


@given(st.text(st.characters(codec="ascii")))
def test_plain_letters_are_a_sign_each(text: str) -> None:
    assert signs_of(text) == tuple(text)

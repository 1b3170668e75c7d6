"""The words file: its forms, its errors, and that code and file name the same keys."""

import ast
from collections.abc import Iterator
from decimal import Decimal
from pathlib import Path

import pytest

from frame.language.catalogue import UnknownKey, Words, WordsError, load_words
from frame.language.lines import Line
from frame.resources import ASSETS

ROOT = Path(__file__).resolve().parents[2]
WORDS = load_words(ASSETS / "words" / "en.toml")

# Sections whose keys are put together in code, or read by it as a whole.
FAMILIES = (
    "rung.", "sight.", "family.", "sign.",
    "number.", "place.", "move.", "finger.", "rule.", "operation.",
    "work.", "written.", "board.", "cli.expected.", "verdict.", "slip.", "hint.", "reason.",
    "cli.help.", "cli.explain.", "cli.judge.", "settings.page_", "why.",
)  # fmt: skip


def words_of(tmp_path: Path, text: str) -> Words:
    path = tmp_path / "xx.toml"
    path.write_text(text, encoding="utf-8")
    return load_words(path)


def asked_keys() -> dict[str, str]:
    """Every literal key that the source asks words for, with where it does."""
    found = {}
    for path, node in source_nodes():
        if (
            isinstance(node, ast.Call)
            and isinstance(node.func, ast.Attribute)
            and node.func.attr in ("text", "line", "listed")
            and ast.unparse(node.func.value).rpartition(".")[2] == "words"
            and node.args
            and isinstance(node.args[0], ast.Constant)
            and isinstance(node.args[0].value, str)
        ):
            found[node.args[0].value] = f"{path.name}:{node.lineno}"
    return found


def source_nodes() -> Iterator[tuple[Path, ast.AST]]:
    for path in sorted((ROOT / "frame").rglob("*.py")):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            yield path, node


def test_every_key_in_the_source_is_in_the_file() -> None:
    missing = {key: at for key, at in asked_keys().items() if key not in WORDS.keys}
    assert not missing


def test_every_key_in_the_file_is_used_or_of_a_family() -> None:
    texts = {node.value for _, node in source_nodes() if isinstance(node, ast.Constant)}
    idle = [key for key in WORDS.keys if key not in texts and not key.startswith(FAMILIES)]
    assert not idle


def test_a_plain_text_serves_as_both_forms(tmp_path: Path) -> None:
    words = words_of(tmp_path, '[a]\nb = "Hello, {name}."')
    assert words.line("a.b", name="Fox") == Line("Hello, Fox.", "Hello, Fox.")


def test_a_table_of_show_and_speak_is_one_sentence(tmp_path: Path) -> None:
    words = words_of(tmp_path, '[a]\nb = { show = "+{n}", speak = "plus {n}" }')
    assert words.text("a.b", n=3) == "+3"
    assert words.line("a.b", n="x") == Line("+x", "plus x")


def test_a_number_is_shown_in_digits_and_spoken_in_words() -> None:
    line = WORDS.line("lesson.it_reads", number=Decimal("-50.2"))
    assert line == Line("The frame reads −50.2.", "The frame reads minus fifty point two.")


def test_a_sentence_fills_a_place_in_both_forms(tmp_path: Path) -> None:
    words = words_of(tmp_path, '[a]\nb = "Yes: {what}"')
    assert words.line("a.b", what=Line("+3.", "plus three.")) == Line(
        "Yes: +3.", "Yes: plus three."
    )


def test_an_unknown_key_names_the_nearest() -> None:
    with pytest.raises(UnknownKey, match=r"'lesson\.dne'.*'lesson\.done'"):
        WORDS.text("lesson.dne")
    with pytest.raises(KeyError):
        WORDS.listed("number.smal")


def test_a_missing_fact_is_named() -> None:
    with pytest.raises(WordsError, match=r"home\.go_on.*'title'.*given: name"):
        WORDS.text("home.go_on", name="x")


@pytest.mark.parametrize("text", ["[a", "[a]\nb = 3", "\xff".encode("latin-1").decode("latin-1")])
def test_a_bad_file_is_an_error_with_its_path(tmp_path: Path, text: str) -> None:
    with pytest.raises(WordsError, match=r"xx\.toml"):
        words_of(tmp_path, text)


def test_a_missing_file_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(WordsError, match=r"none\.toml"):
        load_words(tmp_path / "none.toml")


def test_both_forms_of_a_sentence_take_the_same_facts() -> None:
    from string import Formatter

    for key, line in WORDS.sentences.items():
        shown = {name for _, name, _, _ in Formatter().parse(line.show) if name}
        spoken = {name for _, name, _, _ in Formatter().parse(line.speak) if name}
        assert shown == spoken, key

"""Lessons load as they are written, and a broken file yields only placed problems."""

import re
from decimal import Decimal
from pathlib import Path

import pytest
from each import each_row
from lesson_mutations import mutated
from lesson_samples import BROKEN, CRATES, NETS, PLUS_FOUR, SAMPLES, WORDS, problems_of

from frame.course.lesson import Ask, Practise, Show, Unit
from frame.course.loader import load_lesson, load_unit, read_lesson
from frame.course.nodes import MOST_BYTES
from frame.course.problems import LessonError, problem_text
from frame.practice.exercises import Kind
from frame.practice.rungs import Rung
from frame.technique.expression import Product, Quotient

CASES = sorted(BROKEN.glob("*.yaml"))


@each_row("file", CASES)
def test_a_broken_lesson_yields_exactly_its_messages(file: Path) -> None:
    found = [problem_text(one, WORDS) for one in problems_of(file.read_bytes(), file.name)]
    assert found == file.with_suffix(".txt").read_text(encoding="utf-8").splitlines()
    assert found


def test_every_wording_of_a_script_is_shown_by_a_broken_lesson() -> None:
    codes = {one.code for file in CASES for one in problems_of(file.read_bytes(), file.name)}
    wordings = {code for code in WORDS["problems"] if not code.startswith("agenda-")}
    # These are of folders, what is no file, sizes and pasted sums: the tests of the course, of
    # reading a file and of agendas and the tests below have them.
    elsewhere = {"size", "steps", "unreadable", "no-lessons", "after-missing", "after-ring"}
    elsewhere |= {"no-file", "file-name"}
    of_folders = {"unit-missing", "unit-taken", "unit-lessons"}
    assert codes | elsewhere | of_folders | {"no-sums", "no-names"} == wordings


def test_a_lesson_is_what_its_text_says() -> None:
    lesson = load_lesson(PLUS_FOUR, "x.yaml")
    assert (lesson.id, lesson.title, lesson.after) == ("quay-2", "Plus four", "quay-1")
    assert (lesson.rods, lesson.new) == (2, ("add-five-4",))
    kinds = [type(step).__name__ for step in lesson.steps]
    assert kinds == ["Say", "Show", *["Ask"] * 7, "Say", "Ask", "Practise", "Practise"]
    show = lesson.steps[1]
    assert isinstance(show, Show)
    assert show.line
    assert (show.line.show, show.line.speak) == ("Here is 1 crate.", "Here is one crate.")


def test_a_step_is_at_the_rung_in_force_unless_it_has_its_own() -> None:
    steps = load_lesson(PLUS_FOUR, "x.yaml").steps
    rungs = [step.exercise.rung for step in steps if isinstance(step, Ask)]
    shown = [Rung.ALONE, Rung.FOLLOW, Rung.ALONE, Rung.WATCH, Rung.FOLLOW, Rung.FINISH, Rung.ALONE]
    assert rungs == [*shown, Rung.PALE]
    sets = [step.request.rung for step in steps if isinstance(step, Practise)]
    assert sets == [Rung.PALE, Rung.COVERED]


def test_what_is_to_be_read_is_never_covered() -> None:
    text = NETS.replace("steps:\n", "steps:\n  - cover: covered\n")
    steps = load_lesson(text, "x.yaml").steps
    asked = [step.exercise for step in steps if isinstance(step, Ask)]
    drawn = [step.request for step in steps if isinstance(step, Practise)]
    assert {one.kind for one in (*asked, *drawn)} == {Kind.READ}
    assert {one.rung for one in (*asked, *drawn)} == {Rung.ALONE}


def test_numbers_may_have_a_point_and_answers_a_sign() -> None:
    steps = load_lesson(CRATES, "x.yaml").steps
    assert [step.number for step in steps if isinstance(step, Show)] == [Decimal("2.5")]
    asked = [step for step in steps if isinstance(step, Ask)]
    answers = [None, 42, None, Decimal("0.4"), 2, Decimal("3.3"), -2]
    assert [step.answer for step in asked] == answers
    works = [step.exercise.sum for step in asked]
    assert works[1] == works[2] == Product(Decimal(21), Decimal(2))
    assert works[3] == Product(Decimal("0.2"), Decimal(2), places=1)
    assert works[4] == Quotient(Decimal(24), Decimal(12))
    assert [step.exercise.trial for step in asked] == [0, 0, 0, 0, 1, 0, 0]


def test_a_set_says_how_large_its_numbers_are() -> None:
    step = "  - practise: {facts: [multiply-2], count: 2, pass: 1%s}\n"
    head = NETS.replace("new:", "rods: 13\nnew:")
    found = []
    for more in ("", ", digits: 3, by: 2", ", places: 0", ", by: 4, places: 6"):
        practise = load_lesson(head + step % more, "x.yaml").steps[-1]
        assert isinstance(practise, Practise)
        found.append((practise.request.digits, practise.request.by, practise.request.places))
    assert found == [(1, 1, 1), (3, 2, 1), (1, 1, 0), (1, 4, 6)]


def test_marks_are_the_places_in_the_text() -> None:
    lines = PLUS_FOUR.splitlines()
    for step in load_lesson(PLUS_FOUR, "x.yaml").steps:
        assert lines[step.mark.line - 1][step.mark.column - 3 : step.mark.column - 1] == "- "
    marks = load_lesson(PLUS_FOUR, "x.yaml").marks
    assert lines[marks["add-five-4"].line - 1][marks["add-five-4"].column - 1 :] == "add-five-4]"


@pytest.mark.parametrize("sample", SAMPLES)
def test_bytes_text_order_mark_and_line_ends_make_no_difference(sample: str) -> None:
    lesson = load_lesson(sample, "x.yaml")
    assert load_lesson(sample.encode(), "x.yaml") == lesson
    assert load_lesson(b"\xef\xbb\xbf" + sample.encode(), "x.yaml") == lesson
    assert load_lesson("\ufeff" + sample, "x.yaml") == lesson
    assert load_lesson(sample.replace("\n", "\r\n"), "x.yaml") == lesson


@pytest.mark.parametrize("word", ["no", "yes", "on", "null", "0123", "1_000", "12:30", "1e3"])
def test_a_plain_word_stays_as_it_is_written(word: str) -> None:
    lesson = load_lesson(NETS.replace("title: Nets", f"title: {word}"), "x.yaml")
    assert lesson.title == word


@pytest.mark.parametrize(
    ("shown", "needs"),
    [("One-way nets.", False), ("Nets - all.", True), ("-3", True), ("Plus ÷", True),
     ("x × y", True), ("Two nets.", False), ("Nets+lamps", True), ("a = b", True)],
)  # fmt: skip
def test_signs_and_digits_need_a_spoken_form(shown: str, needs: bool) -> None:
    text = NETS.replace("Two nets dry in the sun.", f"'{shown}'")
    assert [one.code for one in read_lesson(text, "x.yaml")[1]] == ["speak"] * needs
    spoken = text.replace(f"'{shown}'\n", f"'{shown}'\n    speak: Nets.\n")
    assert read_lesson(spoken, "x.yaml")[1] == ()


def test_a_file_too_large_is_named_so() -> None:
    text = NETS + "#" * MOST_BYTES
    for content in (text, text.encode()):
        _, problems = read_lesson(content, "x.yaml")
        assert [(one.code, one.line, one.column) for one in problems] == [("size", 1, 1)]


def test_too_many_steps_are_named_at_the_first_beyond() -> None:
    _, problems = read_lesson(NETS + "  - say: Nets.\n" * 200, "x.yaml")
    assert [one.code for one in problems] == ["steps"]
    assert problems[0].line == NETS.count("\n") + 100 - NETS.count("  - ") + 1


def test_a_unit_file_gives_its_id_and_title() -> None:
    assert load_unit(b"unit: nets\ntitle: nets +\n", "unit.yaml") == Unit("nets", "nets +")
    with pytest.raises(LessonError) as raised:
        load_unit("unit: Nets\nlessons: []\n", "unit.yaml")
    texts = [problem_text(one, WORDS) for one in raised.value.problems]
    assert texts == [
        "unit.yaml:1:1: found no 'title' here; expected one",
        "unit.yaml:1:7: found 'Nets'; expected an id of lower-case letters, digits and hyphens, "
        "such as five-add-4",
        "unit.yaml:2:1: found the key 'lessons'; expected unit, title or thing",
    ]


def _assert_loads_or_is_placed(data: bytes) -> bool:
    """Whether the file loads; every problem lies within the text and can be worded."""
    problems = problems_of(data)
    lines = re.split("\r\n|\n|\r", data.decode("utf-8", "replace").removeprefix("\ufeff"))
    for one in problems:
        assert 1 <= one.line <= len(lines)
        assert 1 <= one.column <= len(lines[one.line - 1]) + 1, one
        assert problem_text(one, WORDS).isprintable()
    return not problems


def test_a_damaged_lesson_loads_or_yields_placed_problems() -> None:
    loaded = sum(_assert_loads_or_is_placed(mutated(seed)) for seed in range(300))
    assert 3 <= loaded <= 150  # Some damage does no harm; most of it does.


@pytest.mark.proof
def test_twenty_thousand_damaged_lessons_load_or_yield_placed_problems() -> None:
    loaded = sum(_assert_loads_or_is_placed(mutated(seed)) for seed in range(300, 20_300))
    assert 200 <= loaded <= 10_000


@pytest.mark.parametrize(
    "text",
    ["[" * 100_000, "[\n" * 50_000, "{" * 100_000, "- " * 50_000, "? " * 50_000,
     "a: &x [*x]", "%YAML 1." + "1" * 5000, '"' + "\\U00110000" * 99 + '"', "&" * 999,
     "steps:\n" + "  - foo: 1\n" * 9000, "&a\n" * 999, "lesson: !!timestamp x"],
    ids=lambda text: text[:9].strip(),
)  # fmt: skip
def test_texts_that_break_readers_are_only_problems(text: str) -> None:
    assert not _assert_loads_or_is_placed(text.encode())

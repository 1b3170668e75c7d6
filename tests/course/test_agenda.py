"""Agendas are what their text says; a broken one yields only placed problems."""

import re
from decimal import Decimal
from pathlib import Path

import pytest
from each import each_row
from hypothesis import given, settings
from hypothesis import strategies as st
from lesson_mutations import mutated
from lesson_samples import CRATES, WORDS

from frame.course.agenda import (
    MOST_ITEMS,
    MOST_SIGNS,
    SUFFIXES,
    Agenda,
    Item,
    Task,
    as_sum,
    column_of,
    is_agenda,
    is_column,
    items_of,
    load_items,
    read_agenda,
    read_items,
)
from frame.course.loader import PACES
from frame.course.nodes import MOST_BYTES
from frame.course.problems import LessonError, Problem, problem_text
from frame.practice.exercises import Exercise, Kind, plan_for
from frame.practice.rungs import Asked
from frame.technique.beads import MOST_RODS
from frame.technique.conventions import USUAL
from frame.technique.expression import Product, Quotient, Root, Sum
from frame.technique.places import frame_for
from frame.technique.planning import plan_of
from frame.technique.reading import read

TRUTH = Path(__file__).parent.parent / "truth" / "agendas.txt"
NINES = "9" * MOST_RODS

MARKET = """\
board: Partner of ten
items:
  - show: 46 + 39
    say: Which bead first?
  - read: 57
  - call: 12 + 7 - 4
    pace: 2
  - flash: 3 + 5 + 9
    pace: 1
  - show: 3588 / 46
    trial: 6
"""
LAMPS = """\
# Lamps of the ferry, on a large frame.
board: Lamps
items:
  - show: 0.25 x 1,200
    places: 1
    rods: 17
  - show: sqrt 1764
  - read: 12.5
    rods: 5
    say: "How many lamps? 12 and a half."
  - call: 99999999999999 - 1
  - {flash: 999999 + 1, rods: 7}
  - show: 3 - 5
"""


def column(*terms: int | str) -> Sum:
    return Sum(tuple(map(Decimal, terms)))


def read_cleanly(content: str | bytes) -> Agenda:
    agenda, problems = read_agenda(content, "market.yaml")
    assert problems == ()
    assert agenda is not None
    return agenda


def one_item(*lines: str) -> str:
    return "board: Nets\nitems:\n  - " + "\n    ".join(lines) + "\n"


def codes_of(content: str) -> list[str]:
    return [one.code for one in read_agenda(content, "market.yaml")[1]]


def test_an_agenda_is_what_its_text_says() -> None:
    assert read_cleanly(MARKET) == Agenda("Partner of ten", (
        Item(Task.SHOW, column(46, 39), line="Which bead first?"),
        Item(Task.READ, column(57)),
        Item(Task.CALL, column(12, 7, -4), 2.0),
        Item(Task.FLASH, column(3, 5, 9), 1.0),
        Item(Task.SHOW, Quotient(Decimal(3588), Decimal(46)), trial=6),
    ))  # fmt: skip


def test_rods_places_and_large_numbers_are_taken() -> None:
    items = read_cleanly(LAMPS).items
    assert items[0].sum == Product(Decimal("0.25"), Decimal(1200), places=1)
    assert items[1].sum == Root(Decimal(1764))
    assert [item.rods for item in items] == [17, None, 5, None, 7, None]
    assert items[2].line == "How many lamps? 12 and a half."
    assert [item.pace for item in items] == [1.5] * 6
    assert [str(item) for item in items[3:]] == ["99999999999999 - 1", "999999 + 1", "3 - 5"]


@pytest.mark.parametrize("sample", [MARKET, LAMPS])
def test_bytes_order_mark_and_line_ends_make_no_difference(sample: str) -> None:
    agenda = read_cleanly(sample)
    for content in (sample.encode(), "\ufeff" + sample, sample.replace("\n", "\r\n")):
        assert read_cleanly(content) == agenda


CASES = {
    case[1]: (case[2], case[3].splitlines())
    for case in re.finditer(
        r"^=== (.+)\n((?:.*\n)*?)-->\n((?:.+\n)*)", TRUTH.read_text("utf-8"), re.M
    )
}
"""Each case of the table: its name, the text of the agenda, the messages."""


@each_row("name", CASES)
def test_a_broken_agenda_yields_exactly_its_messages(name: str) -> None:
    text, messages = CASES[name]
    found = [problem_text(one, WORDS) for one in read_agenda(text, "a")[1]]
    assert found == messages
    assert found


def test_every_wording_of_an_agenda_is_shown_by_a_broken_one() -> None:
    codes = {code for text, _ in CASES.values() for code in codes_of(text)}
    own = {code for code in WORDS["problems"] if code.startswith("agenda-")}
    assert own - {"agenda-items"} <= codes  # Too many items: the test below has them.


def test_a_lesson_is_told_to_be_one_and_nothing_else_is_said_of_it() -> None:
    agenda, (problem,) = read_agenda(CRATES, "crates.yaml")
    assert (agenda, problem) == (None, Problem("crates.yaml", 1, 1, "agenda-lesson"))


def test_what_can_be_read_is_kept_beside_the_problems() -> None:
    agenda, problems = read_agenda(MARKET.replace("57", "many"), "market.yaml")
    assert [(one.line, one.column) for one in problems] == [(5, 11)]
    first, _, *rest = read_cleanly(MARKET).items
    assert agenda == Agenda("Partner of ten", (first, *rest))
    assert read_agenda("nets: 4\n", "a")[0] is None


def test_too_many_items_are_named_at_the_first_beyond() -> None:
    text = "board: Nets\nitems:\n" + "  - read: 3\n" * 100
    assert len(read_cleanly(text).items) == 100
    agenda, (problem,) = read_agenda(text + "  - read: 3\n", "market.yaml")
    assert agenda is not None
    assert len(agenda.items) == 100
    assert (problem.code, problem.line, problem.column) == ("agenda-items", 103, 5)
    items, (pasted,) = items_of("3\n" * 101)
    assert len(items) == 100
    assert (pasted.code, pasted.line, pasted.column) == ("agenda-items", 101, 1)


@pytest.mark.parametrize(("act", "most"), [("call", 16), ("flash", 6)])
def test_the_limits_of_numbers_that_are_called_or_flashed(act: str, most: int) -> None:
    longest = f"{'9' * most} + 1"
    assert codes_of(one_item(f"{act}: {longest}")) == []
    assert codes_of(one_item(f"{act}: {'9' * (most + 1)} + 1")) == ["agenda-digits"]
    assert codes_of(one_item(f"{act}: 1 - {'9' * (most + 1)}")) == ["agenda-digits"]
    assert codes_of(one_item(f"{act}: {' + '.join(['1'] * 15)}")) == []
    assert codes_of(one_item(f"{act}: {' + '.join(['1'] * 16)}")) == ["agenda-terms"]
    assert codes_of(one_item(f"{act}: 4 - 4 + 1")) == []
    assert codes_of(one_item(f"{act}: 4 - 5 + 3")) == ["agenda-below"]


@pytest.mark.parametrize(("act", "asked"), [("call", Asked.CALLED), ("flash", Asked.FLASHED)])
def test_paces_are_those_of_lessons(act: str, asked: Asked) -> None:
    least, most = PACES[asked]
    step = Decimal("0.01")
    for pace in (least, most):
        item = read_cleanly(one_item(f"{act}: 1 + 2", f"pace: {pace}")).items[0]
        assert item.pace == float(pace)
    for pace in (least - step, most + step):
        assert codes_of(one_item(f"{act}: 1 + 2", f"pace: {pace}")) == ["seconds"]


@each_row(
    ("lines", "codes"),
    [
        ((f"read: {NINES}",), []), ((f"read: {NINES}9",), ["range"]),
        ((f"show: {NINES} + 0",), []), ((f"show: {NINES} + 1",), ["fit"]),
        (("show: 1 + 0." + "1" * 34,), []), (("show: 1 + 0." + "1" * 35,), ["rods"]),
        (("read: 57", "rods: 2"), []), (("read: 57", "rods: 1"), ["fit"]),
        (("read: 0.05", "rods: 2"), ["rods"]), (("show: 5 - 9", "rods: 1"), []),
        (("flash: 5 + 4", "rods: 1"), []), (("call: 5 + 5", "rods: 1"), ["fit"]),
        (("show: 37 x 24", "rods: 9"), []), (("show: 37 x 24", "rods: 8"), ["rods"]),
        (("show: 10 / 3", "places: 2"), []), (("show: 37 x 24", "trial: 3"), ["trial"]),
    ],
)  # fmt: skip
def test_work_that_does_not_fit_is_a_problem_and_no_item(
    lines: tuple[str, ...], codes: list[str]
) -> None:
    agenda, problems = read_agenda(one_item(*lines), "market.yaml")
    assert [one.code for one in problems] == codes
    assert agenda is not None
    assert len(agenda.items) == (0 if codes else 1)


def test_a_pasted_column_becomes_items_line_by_line() -> None:
    lines = ("46 + 39", "", "  37 x 24 ", "12", "\t1,234,567\t", "12'000 − 1", "sqrt 1764", "007")
    items, problems = items_of("\r\n".join((*lines, "2.50")))
    assert problems == ()
    assert items == (
        Item(Task.SHOW, column(46, 39)),
        Item(Task.SHOW, Product(Decimal(37), Decimal(24))),
        Item(Task.READ, column(12)),
        Item(Task.READ, column(1234567)),
        Item(Task.SHOW, column(12000, -1)),
        Item(Task.SHOW, Root(Decimal(1764))),
        Item(Task.READ, column(7)),
        Item(Task.READ, column("2.5")),
    )


@pytest.mark.parametrize("space", [" ", "\u00a0", "\u2009", "\u202f"])
def test_a_number_may_be_written_in_groups_of_three_with_any_space_between(space: str) -> None:
    lines = ("1 234", "12 345 678.5", "1 234 + 56 - 100 200", "12 000x3", "46 + 39")
    items, problems = items_of("\n".join(lines).replace(" ", space))
    assert problems == ()
    assert [str(item) for item in items] == [
        "1234", "12345678.5", "1234 + 56 - 100200", "12000 x 3", "46 + 39",
    ]  # fmt: skip
    assert column_of(f"1{space}234\n-12{space}000") == (Decimal(1234), Decimal(-12000))


@pytest.mark.parametrize(
    "text", ["12 7", "1 23", "1 2345", "1234 567", "0 123", "1 234 5", "12 345 6789", "1.5 234",
             "1,234 567", "1 234,567"]
)  # fmt: skip
def test_other_numbers_side_by_side_are_no_number(text: str) -> None:
    items, (problem,) = items_of(text)
    assert (items, problem.code) == ((), "sum")


RULES = ["--", "-----", "— —", "____", "_", "=", "====", "- - -", "────", "−−−"]


@each_row("rule", RULES)
@each_row("end", ["", "\n", "\n \n====\n"])
def test_a_line_drawn_under_a_column_is_no_part_of_it(rule: str, end: str) -> None:
    text = f"12\n+ 7\n - 3\n{rule}{end}"
    assert column_of(text) == (12, 7, -3)
    (item,), problems = as_sum(text)
    assert (str(item), problems) == ("12 + 7 - 3", ())
    assert items_of(f"46 + 39\n57\n{rule}{end}") == items_of("46 + 39\n57")
    assert items_of(f"{rule}{end}") == ((), ())


@pytest.mark.parametrize("text", ["12\n--\n19", "12\n-", "12\n==7", "12\n-=-", "--\n12"])
def test_what_else_a_line_may_be_is_a_problem_as_ever(text: str) -> None:
    assert not is_column(text)
    assert [one.code for one in items_of(text)[1]] == ["sum"]


def test_numbers_of_a_row_of_lines_are_not_joined() -> None:
    items, _ = items_of("12\n7\n\n5\n")
    assert [item.act for item in items] == [Task.READ] * 3
    assert [str(item) for item in items] == ["12", "7", "5"]


@pytest.mark.parametrize(
    ("text", "line", "column_", "code"),
    [
        ("46 + crates", 1, 6, "sum"), ("\n\n  46 + crates", 3, 8, "sum"),
        ("3 + 4\r\n46\t39", 2, 4, "sum"), ("3 + 4\r46 +", 2, 5, "sum"),
        ("\ufeffnets", 1, 1, "sum"), ("12,34", 1, 1, "sum"), ("8 / 0", 1, 5, "divisor"),
        ("-12", 1, 1, "range"), (f" {NINES}9", 1, 2, "range"),
        ("1 + " * 80 + "1", 1, 1, "long"), ("8" * 30 + " x " + "8" * 30, 1, 1, "rods"),
    ],
)  # fmt: skip
def test_a_pasted_line_that_is_no_sum_is_named_with_its_place(
    text: str, line: int, column_: int, code: str
) -> None:
    items, (problem,) = items_of(text)
    assert (problem.line, problem.column, problem.code) == (line, column_, code)
    assert problem_text(problem, WORDS).isprintable()
    assert [str(item) for item in items] == ["3 + 4"] * text.startswith("3 + 4")


@each_row(
    ("text", "numbers"),
    [
        ("12\n7", ("12", "7")), ("12\r\n-7\r\n+5\r\n", ("12", "-7", "5")),
        ("\n 12 \n\n\t− 7\n", ("12", "-7")), ("-12\n7", ("-12", "7")),
        ("1,234\n12'000\n0.50", ("1234", "12000", "0.5")), ("\ufeff12\r7", ("12", "7")),
        ("0\n0", ("0", "0")), ("007\n5", ("7", "5")),
        ("12", ()), ("", ()), ("\n \n", ()), ("12\n\n", ()), ("12 + 7\n5", ()), ("12\n7 x 5", ()),
        ("12 7\n5", ()), ("12\nnets", ()), ("12\n= 12", ()), ("12\n+", ()), ("12,34\n5", ()),
        ("sqrt 49\n5", ()), ("board: 3\n5", ()), ("1\n" * MOST_BYTES, ()),
    ],

)  # fmt: skip
def test_a_column_of_numbers_may_be_one_sum_or_a_list(text: str, numbers: tuple[str, ...]) -> None:
    assert is_column(text) is bool(numbers)
    if not numbers:
        return
    (one,), problems = as_sum(text)
    assert (one.act, one.sum, problems) == (Task.SHOW, column(*numbers), ())
    items, problems = items_of(text)
    below = [number for number in numbers if number.startswith("-")]
    assert [item.act for item in items] == [Task.READ] * (len(numbers) - len(below))
    assert [one.code for one in problems] == ["range"] * len(below)
    assert [item.sum for item in items] == [column(each) for each in numbers if each not in below]


@pytest.mark.parametrize(
    ("text", "code"),
    [("99\n" * 80, "long"), (f"{NINES}\n1", "fit"), (f"0.{'1' * 34}\n10", "rods")],
)
def test_a_column_too_long_for_one_sum_is_a_problem(text: str, code: str) -> None:
    assert is_column(text)
    items, (problem,) = as_sum(text)
    assert (items, problem.line, problem.column, problem.code) == ((), 1, 1, code)


@given(st.lists(st.decimals(-999, 999, places=2), min_size=2, max_size=9))
@settings(max_examples=40)
def test_a_column_summed_is_worked_to_its_sum(numbers: list[Decimal]) -> None:
    text = "\n".join(f"{number:+f}" for number in numbers)
    assert is_column(text)
    (item,), problems = as_sum(text)
    assert problems == ()
    assert item.sum.result == sum(numbers)
    assert_can_be_worked(item)


@pytest.mark.parametrize(
    ("keys", "is_one"),
    [
        ("board items", True), ("items", True), ("board", True), ("board items title", True),
        ("bord items", True), ("board steps items", True), ("title board items rods", False),
        ("lesson title steps", False), ("lesson items", False), ("board steps", False),
        ("unit title", False), ("nets", False),
    ],
)  # fmt: skip
def test_an_agenda_is_known_by_its_keys(keys: str, is_one: bool) -> None:
    text = "".join(f"{key}: 3\n" for key in keys.split())
    assert is_agenda(text) is is_agenda(text.encode()) is is_one


@pytest.mark.parametrize("text", ["", "- read: 3\n", "46 + 39\n", "board: [\n", "\0", CRATES])
def test_what_has_no_keys_of_an_agenda_is_none(text: str) -> None:
    assert not is_agenda(text)


@pytest.mark.parametrize("sample", [MARKET, LAMPS])
@pytest.mark.parametrize("ending", [*SUFFIXES, ".YAML"])
def test_a_file_gives_the_items_of_its_agenda(tmp_path: Path, sample: str, ending: str) -> None:
    file = tmp_path / f"market{ending}"
    file.write_text(sample, "utf-8")
    items = read_cleanly(sample).items
    assert load_items(file) == items
    assert read_items(file, "market") == (items, ())


@pytest.mark.parametrize("ending", [".txt", ".csv", ""])
def test_any_other_file_gives_the_items_of_its_column(tmp_path: Path, ending: str) -> None:
    file = tmp_path / f"market{ending}"
    file.write_text("46 + 39\n\n57\n", "utf-8")
    assert load_items(file) == items_of("46 + 39\n\n57\n")[0]


@pytest.mark.parametrize(
    ("name", "text", "place", "code"),
    [
        ("market.yaml", MARKET.replace("57", "many"), (5, 11), "decimal"),
        ("market.yaml", "", (1, 1), "agenda-empty"),
        ("market.yaml", "- read: 3\n", (1, 1), "kind"),
        ("sums.txt", "46 + 39\n46 + crates\n", (2, 6), "sum"),
        ("sums.txt", "", (1, 1), "no-sums"),
        ("sums.txt", " \n\n", (1, 1), "no-sums"),
    ],
)
def test_a_file_with_a_problem_gives_no_items_and_names_it(
    tmp_path: Path, name: str, text: str, place: tuple[int, int], code: str
) -> None:
    file = tmp_path / name
    file.write_text(text, "utf-8")
    with pytest.raises(LessonError) as raised:
        load_items(file)
    (problem,) = raised.value.problems
    assert (problem.file, problem.line, problem.column, problem.code) == (str(file), *place, code)
    assert problem_text(problem, WORDS).startswith(f"{file}:{place[0]}:{place[1]}: found ")


def test_a_file_that_cannot_be_opened_is_named_by_the_name_it_was_given(tmp_path: Path) -> None:
    items, (problem,) = read_items(tmp_path / "none.txt", "none.txt")
    assert (items, problem.file, problem.code) == ((), "none.txt", "unreadable")
    with pytest.raises(LessonError):
        load_items(tmp_path / "none.txt")


def test_a_text_too_large_is_named_so() -> None:
    pasted, written = items_of("1" * (MOST_BYTES + 1)), read_agenda(MARKET + "#" * MOST_BYTES, "a")
    for _, problems in (pasted, written):
        assert [(one.code, one.line, one.column) for one in problems] == [("size", 1, 1)]


def test_a_column_longer_than_any_sum_is_told_by_how_many_lines_it_has() -> None:
    for lines in (MOST_SIGNS + 1, 100_000):
        text = "1\n" * lines
        assert not is_column(text)
        items, (problem,) = items_of(text)
        assert len(items) == MOST_ITEMS
        assert (problem.line, problem.code) == (MOST_ITEMS + 1, "agenda-items")
        assert problem.facts == {"count": lines, "most": MOST_ITEMS}
    assert len(column_of("1\n" * MOST_SIGNS)) == MOST_SIGNS


def assert_placed(problems: tuple[Problem, ...], text: str) -> None:
    lines = re.split("\r\n|\n|\r", text.removeprefix("\ufeff"))
    for one in problems:
        assert 1 <= one.line <= len(lines)
        assert 1 <= one.column <= len(lines[one.line - 1]) + 1, one
        assert problem_text(one, WORDS).isprintable()


def assert_can_be_worked(item: Item) -> None:
    """Its number can be shown or its work planned, on the rods asked for or as many as needed."""
    if item.act is Task.READ:
        number = item.sum.numbers[0]
        assert read(frame_for(number, item.rods or MOST_RODS)) == number
        return
    assert plan_of(item.sum, USUAL, item.rods).result == item.sum.result
    plan = plan_for(Exercise(Kind.SUM, item.sum, rods=item.rods or MOST_RODS), USUAL)
    assert plan is not None and plan.result == item.sum.result


def test_a_damaged_agenda_is_read_or_yields_placed_problems() -> None:
    whole = 0
    for seed in range(300):
        data = mutated(seed, (MARKET, LAMPS))
        agenda, problems = read_agenda(data, "market.yaml")
        assert_placed(problems, data.decode("utf-8", "replace"))
        assert agenda or problems
        for item in agenda.items if agenda else ():
            assert_can_be_worked(item)
        whole += not problems
    assert 3 <= whole <= 150  # Some damage does no harm; most of it does.


NUMBERS = st.from_regex(r"-?[0-9]{1,38}(\.[0-9]{1,38})?", fullmatch=True)
SIGNS = st.sampled_from([" + ", " - ", " x ", " / ", "\n", "\r\n", "\t", " sqrt "])
COLUMNS = st.lists(NUMBERS | SIGNS | st.text(max_size=3), max_size=12).map("".join)


@given(COLUMNS)
@settings(max_examples=40)
def test_any_pasted_text_gives_items_that_can_be_worked_and_placed_problems(text: str) -> None:
    items, problems = items_of(text)
    assert_placed(problems, text)
    for item in items:
        assert_can_be_worked(item)
    filled = [line for line in re.split("\r\n|\n|\r", text.removeprefix("\ufeff")) if line.strip()]
    while filled and is_drawn(filled[-1]):
        filled.pop()
    assert len(items) + len({one.line for one in problems}) == len(filled)


def is_drawn(line: str) -> bool:
    """Whether a line is one that is drawn under a column."""
    signs = "".join(line.split())
    is_dashed = len(signs) > 1 and set(signs) <= set("-−–—─━")
    return is_dashed or set(signs) <= set("=═") or set(signs) <= {"_"}


@given(st.lists(st.lists(st.integers(-999, 999), min_size=1, max_size=6), max_size=20))
@settings(max_examples=40)
def test_columns_come_back_as_they_were_written(rows: list[list[int]]) -> None:
    sums = [column(abs(first), *rest) for first, *rest in rows]
    items, problems = items_of("\r\n".join(map(str, sums)))
    assert problems == ()
    assert [item.sum for item in items] == sums
    assert [item.act for item in items] == [
        Task.READ if len(row) == 1 else Task.SHOW for row in rows
    ]

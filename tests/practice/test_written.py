"""The work as one writes it on paper: which lines there are after each stroke, where their digits
stand, and how a frame below zero is read."""

from decimal import Decimal
from itertools import accumulate, product
from random import Random

import pytest
from each import each_row

from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Asked, Rung
from frame.practice.touches import Help
from frame.practice.work import Work
from frame.practice.written import WrittenLine, is_written, unused_line, written_lines
from frame.technique.beads import parse_stroke, stroke_text
from frame.technique.conventions import USUAL, Conventions, First, Operands, Outer, Strictness
from frame.technique.expression import parse_calculation
from frame.technique.operation import Act, Operation
from frame.technique.reading import read


def begin(text, rung=Rung.FOLLOW, rods=13, strictness=Strictness.BEADS, kind=Kind.SUM, **more):
    exercise = Exercise(kind, parse_calculation(text), rung, rods, **more)
    return Work.begin(exercise, USUAL, strictness)


def text_of(line):
    """A line as "7x4=28 28@1": the operation, its digits, the rod of the first; dots for one in
    work."""
    return f"{line.operation} {line.digits}@{line.rod}{'' if line.is_done else ' …'}"


def seen(work):
    return [text_of(line) for line in written_lines(work)]


def do(work, strokes):
    for stroke in strokes.split():
        assert work.touch(parse_stroke(stroke)).kept


def work_out(work):
    while work.next_stroke:
        work.touch(work.next_stroke)


# After each stroke

TABLES = {
    "37 x 24": (
        ["7x2=14 14@2", "7x4=28 28@1", "3x2=06 06@3", "3x4=12 12@2"],
        """
        -              0  led
        2:+1           0  led
        1:+4           1  led
        1:+5           1  led
        1:-3           1  led
        0:+3&0:+5      2  none
        3:-2           2  none
        3:-5           2  led
        2:+1&2:+5      3  led
        2:+1           3  led
        1:+2           4  none
        4:-3           4  none
        """,
    ),
    "3876 / 68": (
        ["quotient 6 6@1", "-6x6=36 36@0", "revise 6 to 5 5@1", "add back 6 6@-1",
         "-5x8=40 40@-1", "quotient 7 7@0", "-7x6=42 42@-1", "-7x8=56 56@-2"],
        """
        -              0  led
        1:+1&1:+5      1  led
        0:-3           1  led
        -1:-1          1  led
        -1:-5          2  always
        1:-1           3  always
        -1:+1&-1:+5    4  led
        -1:+1&-1:-5    5  led
        0:+2&0:+5      6  led
        -1:-4          6  led
        -2:-2          7  led
        -2:-5          7  led
        -3:-1          7  led
        -3:-5          8  none
        """,
    ),
    "sqrt 1764": (
        ["root 4 4@1", "-4x4=16 16@0", "halve 164 164@-1", "root 2 2@0", "-2x4=08 08@-1",
         "-2x2/2=02 02@-2"],
        """
        -              0  led
        1:+4           1  led
        0:-1           1  led
        -1:-1          1  led
        -1:-5          2  led
        -1:-1          2  led
        -2:+2          2  led
        -3:-2          3  led
        0:+2           4  led
        -2:-3          4  led
        -2:-5          5  led
        -3:-2          6  none
        """,
    ),
}  # fmt: skip
"""For each calculation all its lines, and after each stroke how many of them are done, and whether
the next one is in work: seen where the tool leads, always seen, or none."""

OPERANDS = {
    "37 x 24": [("set 24 24@9", 2), ("set 37 37@4", 2)],
    "3876 / 68": [("set 68 68@6", 2), ("set 3876 3876@0", 4)],
    "sqrt 1764": [("set 1764 1764@0", 4)],
}
"""The lines of the operands, with as many strokes as each takes."""


def rows(table):
    for row in table.strip().splitlines():
        stroke, done, in_work = row.split()
        yield stroke, int(done), in_work


@pytest.mark.parametrize("rung", [Rung.FOLLOW, Rung.ALONE])
@pytest.mark.parametrize("text", TABLES)
def test_the_lines_after_each_stroke(text, rung):
    lines, table = TABLES[text]
    work = begin(text, rung)
    if not rung.is_led:
        work_out_operands(work)
    for stroke, done, in_work in rows(table):
        if stroke != "-":
            assert stroke_text(work.next_stroke) == stroke
            do(work, stroke)
        is_seen = in_work == "always" or (in_work == "led" and rung.is_led)
        assert seen(work) == lines[:done] + [f"{line} …" for line in lines[done:][:is_seen]]
    assert work.finished


def work_out_operands(work):
    while work.step.operation.act is Act.SET:
        work.touch(work.next_stroke)


@pytest.mark.parametrize("text", OPERANDS)
def test_operands_to_be_set_are_seen_one_at_a_time_until_they_stand(text):
    work = begin(text, Rung.ALONE)
    for line, strokes in OPERANDS[text]:
        for _ in range(strokes):
            assert seen(work) == [f"{line} …"]
            work.touch(work.next_stroke)
    assert seen(work) == []
    assert seen(begin(text, Rung.FOLLOW)) == [f"{TABLES[text][0][0]} …"]


@pytest.mark.parametrize("rung", [Rung.WATCH, Rung.FINISH])
def test_lines_come_with_the_strokes_that_the_tool_makes(rung):
    work = begin("12 x 3", rung)
    shown = [seen(work)]
    while work.to_play:
        work.play()
        shown.append(seen(work))
    first, second = "2x3=06 06@1", "1x3=03 03@2"
    after = [[f"{first} …"], [first], [first, f"{second} …"], [first, second], [first, second]]
    assert shown == (after if rung is Rung.WATCH else after[:-1])


# What help shows, and what goes back


def test_help_shows_the_line_in_work_from_its_rule_on_until_a_bead_is_moved():
    work = begin("37 x 24", Rung.ALONE)
    work_out_operands(work)
    told = []
    for _ in range(4):
        told.append((work.level, seen(work)))
        work.more_help()
    line = ["7x2=14 14@2 …"]
    assert told == [(Help.NONE, []), (Help.POINT, []), (Help.TEACH, line), (Help.SHOW, line)]
    do(work, "2:+1")
    assert seen(work) == []


def test_two_misses_show_the_line_in_work():
    work = begin("37 x 24", Rung.ALONE)
    work_out_operands(work)
    for shown in ([], ["7x2=14 14@2 …"]):
        assert not work.touch(parse_stroke("0:+1")).is_right
        assert seen(work) == shown


def test_a_stroke_taken_back_takes_its_line_back():
    work = begin("sqrt 1764", Rung.ALONE)
    done = []
    while not work.finished:
        done.append(seen(work))
        work.touch(work.next_stroke)
    assert [len(lines) for lines in done] == [1, 1, 1, 1, 0, 1, 1, 1, 2, 2, 2, 3, 4, 4, 5]
    again = begin("sqrt 1764", Rung.ALONE)
    for _ in done[1:]:
        again.touch(again.next_stroke)
    for lines in reversed(done[:-1]):
        assert again.undo()
        assert seen(again) == lines


# Nought


NOUGHTS = [
    # nothing is written of a nought in an operand or a result; one in a product is
    ("20 x 304", ["2x3=06 06@4", "2x4=08 08@2"]),
    ("304 x 20", ["4x2=08 08@2", "3x2=06 06@4"]),
    ("5 x 20", ["5x2=10 10@2"]),
    ("6120 / 30", ["quotient 2 2@2", "-2x3=06 06@1", "quotient 4 4@0", "-4x3=12 12@-1"]),
    ("sqrt 10404", ["root 1 1@2", "-1x1=01 01@1", "halve 404 404@-2", "root 2 2@0",
                    "-2x1=02 02@-1", "-2x2/2=02 02@-3"]),
    ("1.2 x 0.3", ["2x3=06 06@-1", "1x3=03 03@0"]),
    ("0 x 5", []),
    ("3 / 7", []),
    ("sqrt 0", []),
]  # fmt: skip


@pytest.mark.parametrize(("text", "lines"), NOUGHTS)
def test_lines_where_there_are_noughts(text, lines):
    work = begin(text)
    work_out(work)
    assert seen(work) == lines


# Another digit than the one that is found first


SMALLER = [
    # stroke, how many lines are done, whether the next one is seen though nothing is shown
    ("1:+5", 0, False),
    ("1:+1", 0, False),
    ("0:-2", 1, False),
    ("-1:+1&-1:-5", 2, False),
    ("0:-1", 2, False),
    ("-1:+2&-1:+5", 2, False),
    ("-2:-1", 2, False),
    ("-2:-5", 3, True),
    ("1:+1", 4, True),
    ("-1:+1&-1:-5", 4, True),
    ("-1:-1", 4, True),
    ("-2:+5", 4, True),
    ("-2:-1", 5, False),
]
SMALLER_LINES = ["quotient 6 6@1", "-6x4=24 24@0", "-6x6=36 36@-1", "revise 6 to 7 7@1",
                 "take 46 46@-1", "quotient 9 9@0"]  # fmt: skip


@pytest.mark.parametrize("rung", [Rung.FOLLOW, Rung.ALONE])
def test_a_smaller_digit_tried_is_written_made_larger_and_the_divisor_taken_again(rung):
    work = begin("3588 / 46", rung)
    if not rung.is_led:
        work_out_operands(work)
    for stroke, done, is_called_for in SMALLER:
        do(work, stroke)
        to_come = [f"{line} …" for line in SMALLER_LINES[done:][: is_called_for or rung.is_led]]
        # Until the first product is taken, the 8 that the work finds may still be meant.
        to_come = ["quotient 8 8@1 …"] if done == 0 and to_come else to_come
        assert seen(work) == SMALLER_LINES[:done] + to_come
    work_out(work)
    assert work.finished and read(work.frame.only(1, 0)) == 78
    assert seen(work)[:5] == SMALLER_LINES[:5]


def test_a_digit_that_the_lesson_tries_first_is_written_alike():
    work = begin("3588 / 46", trial=6)
    assert seen(work) == ["quotient 6 6@1 …"]
    work_out(work)
    assert seen(work)[:5] == SMALLER_LINES[:5]


@pytest.mark.parametrize("strokes", ["4:+1", "1:+5 4:+1", "4:+1 4:-1"])
def test_a_stray_bead_is_no_digit_tried(strokes):
    work = begin("3588 / 46", strictness=Strictness.ANSWER)
    do(work, strokes)
    assert seen(work) == ["quotient 8 8@1 …"]


# Lines add up to the work


def place_value(line):
    return int(line.digits) * Decimal(10) ** (line.rod - len(line.digits) + 1)


def total(lines, *acts):
    return sum((place_value(line) for line in lines if line.operation.act in acts), Decimal(0))


def done_lines(text):
    work = begin(text, Rung.ALONE)
    work_out(work)
    assert work.finished or work.asks_rest
    return written_lines(work)


@each_row("seed", range(20))
def test_products_that_are_written_add_up(seed):
    random = Random(seed)
    one, other = random.randrange(1, 1000), random.randrange(1, 100)
    assert total(done_lines(f"{one} x {other}"), Act.MULTIPLY) == one * other


@each_row("layout", Operands)
@each_row("one, other", [(37, 24), (42, 54), (18, 26), (35, 120), (304, 20)])
def test_products_are_written_once_in_whichever_order_of_the_schools_they_are_worked(
    one, other, layout
):
    exercise = Exercise(Kind.SUM, parse_calculation(f"{one} x {other}"), rods=13)
    for outer, first in product(Outer, First):
        ways = Conventions(layout=layout, outer=outer, first=first)
        planned = Work.begin(exercise, ways, Strictness.BEADS).plan
        for plan in (planned, *planned.others):
            work = Work.begin(exercise, ways, Strictness.BEADS)
            for stroke in plan.strokes:
                assert work.finished or work.touch(stroke).is_right
            assert work.finished and work.unaided
            assert total(written_lines(work), Act.MULTIPLY) == one * other, (ways, str(plan))


@each_row("seed", range(20))
def test_digits_and_products_of_a_quotient_that_are_written_add_up(seed):
    random = Random(seed)
    one, other = random.randrange(100, 10000), random.randrange(11, 100)
    lines = done_lines(f"{one} / {other}")
    taken = total(lines, Act.SUBTRACT, Act.TAKE_AGAIN) - total(lines, Act.ADD_BACK)
    ones = Decimal(10) ** -(len(str(other)) + 1)  # of the dividend, right of the result's
    assert one - taken / ones == one % other
    found = {}
    for line in lines:
        if line.operation.act.is_trial or line.operation.act.is_revision:
            found[line.rod] = place_value(line)
    assert sum(found.values()) == one // other


@pytest.mark.parametrize("root", [2, 9, 31, 42, 87, 99, 120, 305, 999])
def test_digits_of_a_root_that_are_written_are_the_root(root):
    lines = done_lines(f"sqrt {root * root}")
    found = {line.rod: place_value(line) for line in lines if line.operation.act.is_revision
             or line.operation.act.is_trial}  # fmt: skip
    assert sum(found.values()) == root


def test_a_line_tells_the_rods_it_touches_highest_first():
    line = WrittenLine(Operation(Act.SUBTRACT_HALF, "405", 1), "405", 1, True)
    assert list(line.rods) == [1, 0, -1]


# Where nothing is written


SILENT = [{"rung": Rung.COVERED}, {"rung": Rung.NUMBER}, {"own": True}, {"asked": Asked.CALLED},
          {"asked": Asked.FLASHED}]  # fmt: skip


@pytest.mark.parametrize("more", SILENT, ids=str)
@pytest.mark.parametrize("text", ["37 x 24", "38 - 50"])
def test_a_silent_exercise_shows_no_line_and_no_reading(text, more):
    work = begin(text, **{"rung": Rung.ALONE, **more})
    while work.next_stroke:
        assert written_lines(work) == () and unused_line(work) is None
        work.touch(work.next_stroke)
        work.more_help()
    assert not work.finished
    assert written_lines(work) == () and unused_line(work) is None


def test_the_lines_of_a_silent_exercise_are_there_when_it_is_over():
    work = begin("37 x 24", Rung.COVERED)
    work_out(work)
    work.say_done()
    assert seen(work) == []
    assert work.answer(Decimal(888))
    assert seen(work) == TABLES["37 x 24"][0]


@pytest.mark.parametrize("kind", [Kind.READ, Kind.SET, Kind.CLEAR])
def test_numbers_that_are_read_set_or_cleared_are_not_written(kind):
    work = begin("37", Rung.ALONE, 3, kind=kind)
    assert written_lines(work) == () and unused_line(work) is None
    assert not is_written(work.exercise)


@pytest.mark.parametrize("text, written", [
    ("37 x 24", True), ("43 / 6", True), ("sqrt 1764", True), ("38 - 50", True),
    ("3 - 4 + 2", True), ("38 + 50", False), ("1.5 + 2", False),
])  # fmt: skip
def test_which_exercises_are_written(text, written):
    assert is_written(Exercise(Kind.SUM, parse_calculation(text), rods=13)) is written
    work = begin(text)
    work_out(work)
    assert bool(written_lines(work) or unused_line(work)) is written


# Below zero


def test_a_column_shows_what_is_borrowed_and_given_back():
    work = begin("38 - 50 + 20", rods=5)
    assert seen(work) == ["borrow 100 100@2"]
    do(work, "1:+5 1:-3 1:-5")
    assert seen(work) == ["borrow 100 100@2"]
    do(work, "2:+1")
    assert seen(work) == ["borrow 100 100@2", "return 100 100@2 …"]
    do(work, "2:-1")
    assert seen(work) == ["borrow 100 100@2", "return 100 100@2"]
    assert work.finished


def test_the_1_of_a_borrowed_tenth_stands_on_the_rod_it_is_borrowed_on():
    (line,) = written_lines(begin("0.03 - 0.05", rods=5))
    at = {rod: digit for rod, digit in zip(line.rods, line.digits, strict=True) if digit != "0"}
    assert (line.operation.act, at) == (Act.BORROW, {-1: "1"})


def column_below_zero(random):
    """A column, in whole numbers or tenths, that ends below zero and may come back on its way."""
    tenths = random.random() < 0.3
    while True:
        terms = [random.randrange(-999, 999) for _ in range(random.randrange(2, 6))]
        terms[0] = abs(terms[0])
        if sum(terms) < 0 and 0 not in terms:
            return [Decimal(term) / (10 if tenths else 1) for term in terms]


def column_text(terms):
    first, *others = terms
    return " ".join([str(first), *(f"{'-' if one < 0 else '+'} {abs(one)}" for one in others)])


@each_row("tens", range(20))
def test_beads_not_used_and_one_more_are_the_total_below_zero_and_no_other(tens):
    for seed in range(10 * tens, 10 * tens + 10):
        terms = column_below_zero(Random(seed))
        work = begin(column_text(terms), rods=7)
        assert unused_line(work) is None
        for term, running in list(enumerate(accumulate(terms)))[1:]:
            while work.term == term and work.next_stroke:
                work.touch(work.next_stroke)
            line = unused_line(work)
            assert (line is None) is (running >= 0), terms
            if line is not None:
                assert place_value(line) == -running, terms
                assert line.rods[-1] == work.frame.lowest and line.is_done
        assert work.finished


@pytest.mark.parametrize("text", ["38 - 50 + 20", "3 - 5 + 2", "38 - 50 - 7 + 40"])
def test_a_frame_that_is_back_above_zero_is_not_read_as_below_while_the_1_is_given_back(text):
    work = begin(text, rods=5)
    while work.step is None or work.step.operation.act is not Act.RETURN:
        work.touch(work.next_stroke)
    assert work.frame.digit(work.step.rod) == 1
    assert unused_line(work) is None


def test_a_frame_below_zero_is_told_only_when_help_is_asked_for_or_it_was_read():
    work = begin("38 - 50", Rung.ALONE, 5)
    work_out(work)
    assert work.asks and unused_line(work) is None
    work.answer(Decimal(88))
    assert unused_line(work).digits == "12"
    again = begin("38 - 50", Rung.ALONE, 5)
    work_out(again)
    again.answer(Decimal(-12))
    assert again.finished and unused_line(again).digits == "12"


UNUSED = [
    ("38 - 50", "12@1"), ("0 - 250", "250@2"), ("3 - 4", "1@0"), ("1.5 - 2", "0500@0"),
    ("5 - 105", "100@2"), ("1 - 1001", "1000@3"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "read_as"), UNUSED)
def test_how_a_frame_below_zero_is_read(text, read_as):
    work = begin(text, rods=5)
    work_out(work)
    line = unused_line(work)
    assert f"{line.digits}@{line.rod}" == read_as

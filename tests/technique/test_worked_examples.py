"""Products, quotients, roots and results below zero that stand in print, row by row."""

from collections.abc import Iterator
from decimal import Decimal
from itertools import groupby

import pytest
from each import each_row
from proofs import some_daily
from truth_tables import rows
from written_work import calculation, number, planned, replayed, rows_of, written

from frame.technique.beads import BeadMove, Stroke
from frame.technique.judge import Judge, Judgement
from frame.technique.operation import Act
from frame.technique.plan import Plan, parse_strokes
from frame.technique.reading import read
from frame.technique.slips import Slip

MARKED_OF_13 = {0, 3, 6, 9, 12}
"""Every third rod from the middle one, from the left: Japanese Wikibooks, Shuzan."""


def by_calculation(name: str, columns: int) -> list[tuple[str, list[tuple[str, ...]]]]:
    groups = groupby(rows(name, columns), key=lambda line: line[0])
    return [(text, [line[1:] for line in lines]) for text, lines in groups]


def unit_rod(plan: Plan) -> int:
    return plan.start.units


@pytest.mark.parametrize(("text", "lines"), by_calculation("worked_rows.txt", 4))
def test_rows_of_a_worked_example(text: str, lines: list[tuple[str, ...]]) -> None:
    plan = planned(text)
    assert rows_of(plan) == [(name, row) for name, row, _ in lines]
    assert plan.end.digits == lines[-1][1], lines[-1][2]


@pytest.mark.parametrize(("text", "lines"), by_calculation("worked_decimals.txt", 5))
def test_readings_of_a_worked_example_with_decimals(
    text: str, lines: list[tuple[str, ...]]
) -> None:
    plan = planned(text)
    found = []
    for name, row in rows_of(plan):
        at_left, rest = parted(row, len(lines[0][1]))
        found.append((name, at_left, Decimal(rest).scaleb(plan.start.lowest)))
    assert found == [(name, left, Decimal(value)) for name, left, value, _ in lines]
    assert plan.result == Decimal(lines[-1][2]), lines[-1][3]


def parted(row: str, width: int) -> tuple[str, str]:
    return row[:width], row[width:]


@pytest.mark.parametrize(("text", "lines"), by_calculation("worked_negatives.txt", 5))
def test_lines_of_a_result_below_zero(text: str, lines: list[tuple[str, ...]]) -> None:
    found = []
    plan = planned(text)
    for operation, step, row in written(plan):
        shown = Decimal(row).scaleb(plan.start.lowest)
        owed = 0 if step.owed is None else 10**step.owed
        found.append((str(operation), shown, owed))
    assert found == [(name, Decimal(shown), int(owed)) for name, shown, owed, _ in lines]
    assert plan.result == Decimal(lines[-1][1]) - int(lines[-1][2])


@each_row(("text", "places", "result", "remainder", "source"), rows("worked_results.txt", 5))
def test_published_result(text: str, places: str, result: str, remainder: str, source: str) -> None:
    asked = None if places == "-" else int(places)
    plan, task = planned(text, asked), calculation(text, asked)
    assert plan.result == task.result == Decimal(result), source
    if " x " not in text:
        assert plan.remainder == task.remainder == number(remainder), source
    step, frame = list(plan.frames())[-1]
    assert plan.reading(step, frame) == Decimal(result), source
    assert [rods.digits for _, _, rods in replayed(plan)][-1] == plan.end.digits


@pytest.mark.parametrize(
    "text", ["37 x 432", "78 x 503", "34 x 7", "927 / 3", "273 / 3", "3876 / 68", "sqrt 234256"]
)
def test_thirteen_rods_with_the_unit_rod_on_a_mark(text: str) -> None:
    plan = planned(text)
    assert len(plan.start.digits) == 13
    marked = unit_rod(plan)
    if " x " in text:  # the multiplicand's unit rod; the product's is as many rods on and one
        marked -= len(text.partition(" x ")[2]) + 1
    assert marked in MARKED_OF_13


def test_running_readings_of_a_product() -> None:
    """375 x 403: T. Kojima 1963, excerpt; the operands were inferred from its readings."""
    plan = planned("375 x 403")
    readings: dict[object, Decimal] = {}
    for step, frame in plan.frames():
        if step.operation.act is Act.MULTIPLY:
            readings[step.operation] = plan.reading(step, frame)
    assert list(readings.values()) == [2000, 2015, 30015, 30225, 150225, 151125]


LOWER_TRIAL = [  # strokes worked by hand from the fingering list of T. Kojima 1954, p. 29
    ("4600063588000", "1:+1&1:+5"),
    ("4600061188000", "0:-2 -1:+1&-1:-5"),
    ("4600060828000", "0:-1 -1:+2&-1:+5 -2:-1 -2:-5"),
    ("4600070368000", "1:+1 -1:+1&-1:-5 -1:-1 -2:+5 -2:-1"),
    ("4600078368000", "0:+3&0:+5"),
    ("4600078048000", "-1:-3 -2:+3&-2:-5"),
    ("4600078000000", "-2:-4 -3:-3 -3:-5"),
]
"""3588 / 46 begun with 6: from memory. 6 on F; -24 GH; -36 HI; 82 is not less
than 46, so F 7 and -46 HI; 8 on G; -32 HI; -48 IJ. Rod 0 is G."""


def set_strokes(plan: Plan) -> list[Stroke]:
    return [s for step in plan.steps if step.operation.act is Act.SET for s in step.strokes]


def test_a_lower_trial_is_worked_up_as_published() -> None:
    plan = planned("3588 / 46")
    judge = Judge.of(plan)
    for stroke in set_strokes(plan):
        judge = judge.after(judge.judge(stroke))
    assert judge.frame.digits == "4600003588000"
    for row, strokes in LOWER_TRIAL:
        for stroke in parse_strokes(strokes):
            verdict = judge.judge(stroke)
            assert verdict.judgement is Judgement.RIGHT, f"{stroke} on the way to {row}"
            assert verdict.slip is None
            judge = judge.after(verdict)
        assert judge.frame.digits == row
    assert judge.finished
    assert judge.progress.plan.result == 78
    assert int(read(judge.frame) % 100) == 78


def test_the_planner_itself_begins_with_the_highest_trial() -> None:
    """35 by 4 is 8, one too many: 48 is not in 38. Common practice, no source."""
    assert rows_of(planned("3588 / 46")) == [
        ("set", "4600003588000"),
        ("quotient 8", "4600083588000"),
        ("-8x4=32", "4600080388000"),
        ("revise 8 to 7", "4600070388000"),
        ("add back 4", "4600070788000"),
        ("-7x6=42", "4600070368000"),
        ("quotient 9", "4600079368000"),
        ("-9x4=36", "4600079008000"),
        ("revise 9 to 8", "4600078008000"),
        ("add back 4", "4600078048000"),
        ("-8x6=48", "4600078000000"),
    ]


def every_move(judge: Judge) -> Iterator[BeadMove]:
    """Every move that a finger could try on the frame, or one rod beside it."""
    frame = judge.frame
    for rod in range(frame.lowest - 1, frame.highest + 2):
        for change in (-5, -4, -3, -2, -1, 1, 2, 3, 4, 5):
            yield BeadMove(rod, change)


def is_of(line: list[BeadMove], move: BeadMove) -> bool:
    """Whether a move goes the way of one of a line's, with no more beads, in the same deck."""
    return any(
        one.rod == move.rod and one.is_heaven == move.is_heaven and one.change * move.change > 0
        and move.beads <= one.beads
        for one in line
    )  # fmt: skip


def may_be_made(judge: Judge) -> list[BeadMove]:
    """What is left of the operands to be set, or of the digit under way; where the first product is
    chosen, the first digits of other schools' first products as well."""
    progress, plan = judge.progress, judge.progress.plan
    step = progress.step
    assert step is not None
    if step.operation.act is Act.SET:
        return list(progress.left_in_line)
    chosen = [other.lines[other.fork].steps[0] for other in plan.others]
    is_first = plan.lines[plan.fork].steps[0] is step and progress.left_in_step == step.moves
    others = [move for one in chosen for move in one.moves] if is_first else []
    return [*progress.left_in_step, *others]


def is_chosen(judge: Judge, before: Act | None) -> bool:
    """Whether a trial digit or its revision is to be chosen, or may still be changed."""
    step = judge.progress.step
    assert step is not None
    begun = judge.progress.left_in_step != step.moves
    acts = (step.operation.act, None if begun else before)
    return any(act is not None and (act.is_trial or act.is_revision) for act in acts)


@pytest.mark.parametrize(
    "text",
    some_daily(
        ["3876 / 68", "37 x 432", "sqrt 1764", "sqrt 234256"],
        ["3876 / 68", "37 x 432", "sqrt 1764"],
    ),
)
def test_a_wrong_bead_anywhere_is_named(text: str) -> None:
    """Nothing is taken but beads of the digit under way, and what is not taken has a name. Only a
    trial digit may be another than the planned, and changed until its first product is begun."""
    judge, before = Judge.of(planned(text)), None
    for step in judge.progress.plan.steps:
        for move in step.moves:
            chosen, may_be = is_chosen(judge, before), may_be_made(judge)
            for tried in every_move(judge):
                verdict = judge.judge((tried,))
                if not verdict.is_right:
                    assert verdict.slip is not None
                    assert not verdict.kept
                elif not chosen:
                    assert is_of(may_be, tried), (text, str(step.operation), str(tried))
            judge = judge.after(judge.judge((move,)))
        before = step.operation.act
    assert judge.finished


def test_the_revision_is_asked_for_and_not_done_silently() -> None:
    """3876 / 68 (from memory): after 36 is taken, 6 must become 5 by the learner's own hand."""
    judge = Judge.of(planned("3876 / 68"))
    plan = judge.progress.plan
    acts = [line.operation.act for line in plan.lines]
    at = acts.index(Act.REVISE_DOWN)
    assert acts[at : at + 3] == [Act.REVISE_DOWN, Act.ADD_BACK, Act.SUBTRACT]
    for line in plan.lines[:at]:
        for stroke in line.strokes:
            judge = judge.after(judge.judge(stroke))
    step = judge.progress.step
    assert judge.frame.digits == "6800060276000"
    assert step is not None
    assert step.operation.why == (48, 27)
    product_after_it = plan.lines[at + 2].strokes[0]
    assert judge.judge(product_after_it).slip is Slip.NOT_REVISED
    left_out = judge.omission()
    assert left_out is not None
    assert (left_out.slip, left_out.step) == (Slip.NOT_REVISED, step)
    assert judge.judge((BeadMove(1, -1),)).judgement is Judgement.RIGHT

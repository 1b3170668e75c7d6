"""What was worked on paper is in the record: it tells what is known and what goes wrong, and moves
no ladder."""

from contextlib import closing
from decimal import Decimal

import pytest
from kept import NOW, added

from frame.learner.due import due_items
from frame.learner.folding import Fold, FoldRules
from frame.learner.lately import done_lately
from frame.learner.on_paper import keep_marked, keep_on_paper, on_paper
from frame.learner.store import Store
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Rung
from frame.practice.standing import Ladder
from frame.sheets.marking import answer_of, mark, mark_wrong
from frame.sheets.recipe import Kind as SheetKind
from frame.sheets.recipe import Recipe
from frame.sheets.sheet import Section, Sheet, Way
from frame.technique.conventions import USUAL
from frame.technique.expression import parse_sum

LATER = NOW.replace(day=NOW.day + 1)
TEXTS = ("4 + 3", "2 + 4", "3 + 3")
NUMBERS = Exercise(Kind.READ, parse_sum("7"))


def sheet_of(way=Way.BEADS):
    sums = tuple(Exercise(Kind.SUM, parse_sum(text), rods=3) for text in TEXTS)
    sections = (Section(way, sums), Section(Way.SHOWN, (NUMBERS,)))
    return Sheet(Recipe(kind=SheetKind.COLUMNS, count=4), sections)


@pytest.fixture
def store(tmp_path):
    with closing(Store(tmp_path / "learners.sqlite")) as store:
        yield store


def kept(store, marked):
    otter = added(store, "Otter")
    keep_marked(store, otter, marked, USUAL, NOW)
    return otter


def test_each_task_is_an_attempt_with_its_answer(store):
    otter = kept(store, mark(sheet_of(), [answer_of(one) for one in ("7", "5", "", "7")]))
    rows = [
        (one.exercise, one.origin, one.answers, one.right, one.own, one.lesson)
        for one in store.past(otter)
    ]
    assert rows == [
        ("4 + 3", "paper", ("7",), True, True, "sheet-columns"),
        ("2 + 4", "paper", ("5",), False, True, "sheet-columns"),
        ("3 + 3", "paper", (), False, True, "sheet-columns"),
        ("7", "paper", ("7",), True, False, "sheet-columns"),
    ]


def test_written_once_more_it_changes_nothing(store):
    otter = added(store, "Otter")
    sheet = on_paper(otter, mark(sheet_of(), [answer_of("7")]), USUAL, NOW)
    keep_on_paper(store, otter, sheet, NOW)
    before = store.past(otter)
    keep_on_paper(store, otter, sheet, NOW)
    assert store.past(otter) == before and len(before) == 4


def test_one_sheet_is_kept_once_a_day(store):
    otter, sheet = added(store, "Otter"), sheet_of()
    for now, count in ((NOW, 4), (NOW.replace(hour=NOW.hour + 1), 4), (LATER, 8)):
        keep_marked(store, otter, mark_wrong(sheet, [2]), USUAL, now)
        assert store.count_attempts(otter) == count
    keep_marked(store, added(store, "Seal"), mark_wrong(sheet, []), USUAL, NOW)
    assert store.count_attempts(otter) == 8


@pytest.mark.parametrize(
    ("way", "rung", "is_own"),
    [
        (Way.BEADS, Rung.ALONE, True), (Way.COVERED, Rung.COVERED, True),
        (Way.EYES_SHUT, Rung.NUMBER, False), (Way.MIND, Rung.NUMBER, False),
    ],
)  # fmt: skip
def test_how_it_was_worked_is_kept(store, way, rung, is_own):
    otter = kept(store, mark_wrong(sheet_of(way), []))
    assert {(one.rung, one.own) for one in store.past(otter)[:3]} == {(rung, is_own)}


def test_it_counts_for_what_is_known_and_moves_no_ladder(store):
    otter = kept(store, mark_wrong(sheet_of(), [2]))
    rules = FoldRules()
    fold = Fold.of(store, otter, rules)
    assert fold.ladder == Ladder(rules.ladder) and not fold.growth.of_family
    standing = fold.mastery.standing
    assert (standing("4+3").tries, standing("4+3").right) == (1, 1)
    assert standing("2+4").tries == 0, "a wrong answer is no digit's in particular"


def test_what_it_told_of_is_due_again(store):
    otter = kept(store, mark_wrong(sheet_of(), [2]))
    later = NOW.replace(day=NOW.day + 1)
    assert "4+3" in due_items(store, otter, later)
    assert due_items(store, added(store, "Seal"), later) == ()


def test_its_answers_tell_of_faults(store):
    otter = kept(store, mark(sheet_of(), [answer_of(one) for one in ("7", "5", "6", "7")]))
    assert [one.answer for one in done_lately(store, otter, USUAL)] == [
        Decimal(7), Decimal(5), Decimal(6)
    ]  # fmt: skip

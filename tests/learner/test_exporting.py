"""What a learner attempted, written for other programs: all of it, as it was, and nothing more."""

import csv
import json
import re
import sqlite3
import stat
import sys
import tracemalloc
from contextlib import closing
from datetime import datetime, timedelta
from decimal import Decimal
from math import inf
from uuid import UUID

import pytest
from each import each_row
from hypothesis import given
from hypothesis import strategies as st
from kept import AROUND, NOW, added, lasting
from proofs import some_daily
from test_migration import SCRIPTS, old_file

from frame.course.attempts import Attempt, Origin
from frame.learner.exporting import export
from frame.learner.merging import merge
from frame.learner.rows import ATTEMPT_COLUMNS, Record, attempt_row
from frame.learner.store import Store, StoreError
from frame.learner.table import GUARD, Row, cell
from frame.learner.trouble import Trouble
from frame.practice.exercises import Exercise, Kind
from frame.practice.log import Entry, Happening, Log
from frame.practice.outcomes import Outcome
from frame.practice.rungs import Asked, Rung
from frame.technique.beads import BeadMove
from frame.technique.expression import Quotient, parse_calculation
from frame.technique.slips import Slip

SET_3 = Entry(Happening.STROKE, 900, (BeadMove(0, 3),))
UNDONE = Entry(Happening.UNDO, 1400)
ANSWERED = Entry(Happening.ANSWER, 2600)
EXERCISES = [
    Exercise(kind, parse_calculation(text), rods=15)
    for kind, text in (
        (Kind.READ, "5072"), (Kind.SET, "0.25"), (Kind.CLEAR, "38"), (Kind.SUM, "38 + 47 - 5"),
        (Kind.SUM, "-5 + 8"), (Kind.SUM, "8 - 5"), (Kind.SUM, "5 - 8"), (Kind.SUM, "3 / 4"),
        (Kind.SUM, "37 x (-432)"), (Kind.SUM, "3588 / 46"), (Kind.SUM, "7.5 / 4"),
        (Kind.SUM, "sqrt 1764"), (Kind.SUM, "sqrt 1770"),
    )
]  # fmt: skip
ROUNDED = Exercise(Kind.SUM, Quotient(Decimal(10), Decimal(3), 2), rods=15)


def ids(first):
    """Ids as they are made, the same each time."""
    number = first << 64
    while True:
        number += 1
        yield UUID(int=number, version=4).hex


@pytest.fixture
def store(tmp_path):
    with closing(Store(tmp_path / "here" / "learners.sqlite")) as store:
        yield store


@pytest.fixture
def path(tmp_path):
    folder = tmp_path / "documents"
    folder.mkdir(mode=0o755)
    return folder / "otter.csv"


def tried(store, learner, *attempts, now=NOW, first=1):
    """Attempts of a new sitting, in this order."""
    made = ids(first)
    sitting = next(made)
    store.begin_sitting(sitting, learner, AROUND, now)
    records = [Record(next(made), at, one, Origin.SET) for at, one in enumerate(attempts, 1)]
    store.record(sitting, records, learner, "practise-shown", None, now)


def attempt(exercise=EXERCISES[3], *, right=True, answers=(), **facts):
    facts = {"unaided": right, "helps": 0, "slips": (), "log": lasting(2.5), **facts}
    answers = tuple(map(Decimal, answers))
    return Attempt("practise-shown", exercise, right=right, answers=answers, **facts)


def table(store, learner, path):
    """The rows of the table, as Python reads them."""
    export(store, path, learner, is_xapi=False)
    with path.open(encoding="utf-8-sig", newline="") as file:
        return list(csv.DictReader(file, strict=True))


def text_of(shown):
    """What stood in a cell before it was made safe."""
    return shown.removeprefix(GUARD)


def several(shown):
    return tuple(filter(None, text_of(shown).split("; ")))


def as_row(past):
    """What must be read back of an attempt, but for what is reckoned from it."""
    strokes = [one for one in past.log.entries if one.what is Happening.STROKE]
    return {
        "at": datetime.fromisoformat(past.at), "sitting": UUID(past.sitting),
        "number": past.number, "origin": past.origin, "lesson": past.lesson, "kind": past.kind,
        "exercise": parse_calculation(past.exercise), "answers": past.answers,
        "ended": past.ended, "right": past.right if past.ended else None, "unaided": past.unaided,
        "outcome": past.outcome, "helps": past.helps, "slips": past.slips, "looks": past.looks,
        "seconds": past.seconds, "strokes": len(strokes) if past.log.entries else None,
        "rung": past.rung, "rods": past.rods, "asked": past.asked, "own": past.own,
        "pace": past.pace, "digits": past.digits, "terms": past.terms, "places": past.places,
        "facts": past.facts,
    }  # fmt: skip


def yes_or_no(shown):
    return {"1": True, "0": False}[shown]


READ = {
    "at": datetime.fromisoformat, "sitting": UUID, "exercise": parse_calculation,
    "answers": several, "slips": several, "facts": lambda shown: frozenset(several(shown)),
    **dict.fromkeys(("ended", "right", "unaided", "own"), yes_or_no),
    **dict.fromkeys(("number", "helps", "looks", "strokes", "rods"), int),
    **dict.fromkeys(("digits", "terms", "places"), int),
    **dict.fromkeys(("seconds", "pace"), float),
    **dict.fromkeys(("origin", "lesson", "kind", "outcome", "rung", "asked"), str),
}  # fmt: skip
MAY_BE_EMPTY = ("right", "outcome", "strokes", "places")


def read_back(row):
    found = {}
    for name, read in READ.items():
        is_none = name in MAY_BE_EMPTY and not row[name]
        found[name] = None if is_none else read(text_of(row[name]))
    return found


NUMBERS = st.decimals(-(10**9), 10**9, allow_nan=False, allow_infinity=False, places=2)
ATTEMPTS = st.builds(
    Attempt,
    lesson=st.from_regex(r"[a-z]{1,8}(-[a-z0-9]{1,4}){0,2}", fullmatch=True),
    exercise=st.builds(
        lambda one, rung, asked, pace, own: Exercise(
            one.kind, one.sum, rung, one.rods, asked=asked, pace=pace, own=own
        ),
        st.sampled_from([*EXERCISES, ROUNDED]),
        st.sampled_from(Rung),
        st.sampled_from(Asked),
        st.sampled_from((0.0, 0.5, 1.25)),
        st.booleans(),
    ),
    unaided=st.booleans(),
    right=st.booleans(),
    helps=st.integers(0, 9),
    slips=st.lists(st.sampled_from(Slip), max_size=3).map(tuple),
    looks=st.integers(0, 9),
    outcome=st.sampled_from(Outcome),
    answers=st.lists(NUMBERS, max_size=4).map(tuple),
    log=st.lists(st.sampled_from((SET_3, UNDONE, ANSWERED)), max_size=6).map(
        lambda entries: Log(entries=tuple(sorted(entries, key=lambda one: one.ms)))
    ),
    ended=st.booleans(),
)
ALL = st.lists(ATTEMPTS, max_size=5)


@pytest.fixture(scope="module")
def folder(tmp_path_factory):
    return tmp_path_factory.mktemp("exported")


@given(ALL)
def test_the_table_read_back_is_the_record(folder, attempts):
    path = folder / "one.csv"
    path.unlink(missing_ok=True)
    with closing(Store(None)) as store:
        otter = added(store, "Otter")
        tried(store, otter, *attempts)
        rows, past = table(store, otter, path), store.past(otter)
    assert len(rows) == len(past) == len(attempts)
    assert list(map(read_back, rows)) == list(map(as_row, past))
    assert {*READ, "right_answer", "remainder"} == {*Row._fields}


RIGHT = {
    "5072": ("5072", ""), "0.25": ("0.25", ""), "38": ("0", ""), "38 + 47 - 5": ("80", ""),
    "-5 + 8": ("3", ""), "8 - 5": ("3", ""), "5 - 8": ("-3", ""), "3 / 4": ("0", "3"),
    "37 x (-432)": ("-15984", ""), "3588 / 46": ("78", "0"), "7.5 / 4": ("1.875", "0"),
    "sqrt 1764": ("42", "0"), "sqrt 1770": ("42", "6"),
}  # fmt: skip


def test_the_right_answer_and_what_is_left_over_stand_beside_the_exercise(store, path):
    otter = added(store, "Otter")
    tried(store, otter, *map(attempt, EXERCISES))
    rows = table(store, otter, path)
    shown = {str(parse_calculation(text_of(row["exercise"]))): row for row in rows}
    assert {text: (row["right_answer"], row["remainder"]) for text, row in shown.items()} == RIGHT


def test_of_what_was_rounded_the_decimals_are_told(store, path):
    otter = added(store, "Otter")
    tried(store, otter, attempt(ROUNDED))
    (row,) = table(store, otter, path)
    assert (row["right_answer"], row["remainder"], row["places"]) == ("3.33", "", "2")


def test_sums_are_neither_formulas_nor_dates_and_numbers_below_zero_are_numbers(store, path):
    otter = added(store, "Otter")
    texts = ("-5 + 8", "8 - 5", "3 / 4", "5 - 8")
    by_text = {str(one): one for one in EXERCISES}
    tried(store, otter, *(attempt(by_text[text], answers=("-3",)) for text in texts))
    rows = table(store, otter, path)
    assert [row["exercise"] for row in rows] == ["'−5 + 8", "8 − 5", "3 ÷ 4", "5 − 8"]
    assert rows[-1]["right_answer"] == "-3" and {row["answers"] for row in rows} == {"-3"}


DANGEROUS = (*"=+-@\t\r\n＝＋－＠", "−")
"""OWASP, "CSV injection"; the last is the minus of print."""


@given(
    st.one_of(
        st.text(), st.sampled_from(DANGEROUS).flatmap(lambda sign: st.text().map(sign.__add__))
    )
)
def test_no_text_is_worked_as_a_formula_and_each_is_found_again(text):
    shown = cell(text)
    assert text_of(shown) == text
    if shown.startswith(DANGEROUS):
        Decimal(shown)
        assert set(shown) <= set("-.0123456789")


@pytest.mark.parametrize("text", ["=1+1", "+1", "-1-1", "@SUM(A1)", "\t=1", "\r=1", "-5; 3", "'=1"])
def test_a_text_that_may_be_worked_is_marked(text):
    assert cell(text) == GUARD + text


@each_row(
    ("value", "shown"),
    [
        (-5, "-5"), (Decimal("-0.50"), "-0.5"), ("-5", "-5"), (2.0, "2"), (1e-7, "0.0000001"),
        (True, "1"), (False, "0"), (None, ""), ((), ""), (("-5",), "-5"), ((*"12",), "1; 2"),
        (Decimal(10**15 - 1), "9" * 15), (Decimal(10**15), "'1" + "0" * 15),
        (Decimal("-1234567890123.456"), "'-1234567890123.456"),
    ],
)  # fmt: skip
def test_numbers_stay_numbers_as_far_as_a_spreadsheet_keeps_them(value, shown):
    assert cell(value) == shown


EVIL = '=HYPERLINK("https://nets.example"),"\r\n@nets\r'


def test_whatever_stands_in_the_record_begins_no_formula_and_no_cell(store, path):
    otter = added(store, "Otter")
    tried(store, otter, *[attempt()] * 2)
    with closing(sqlite3.connect(store.path)) as file, file:
        names = ("lesson", "exercise", "kind", "rung", "asked", "origin", "outcome")
        some = ", ".join(f"{name} = ?" for name in names)
        lists = ", ".join(f"{name} = ?" for name in ("facts", "slips", "answers"))
        file.execute(
            f"UPDATE attempt SET {some}, {lists}", [EVIL] * 7 + [json.dumps([EVIL, "-1"])] * 3
        )
    rows = table(store, otter, path)
    assert len(rows) == 2
    for row in rows:
        assert None not in row and None not in row.values()
        assert not [shown for shown in row.values() if shown.startswith(DANGEROUS)]
        assert all(text_of(row[name]) == EVIL for name in names)
        assert several(row["answers"]) == (EVIL, "-1")


@pytest.mark.parametrize(
    ("column", "value"),
    [
        ("at", "0001-01-01T00:00:00+14:00"), ("at", "2026-05-04"), ("at", 7), ("kind", b"\xff"),
        ("outcome", b"right"), ("seconds", -1.0), ("seconds", inf), ("seconds", "long"),
        ("pace", b""), ("rods", "many"), ("helps", -1), ("answers", "[85]"), ("log", b"\x09"),
        ("places", "two"), ("places", -2), ("places", 10**9), ("places", 0.5),
    ],
)  # fmt: skip
@pytest.mark.parametrize("is_xapi", [False, True])
def test_an_attempt_as_nobody_wrote_it_is_left_out(store, path, column, value, is_xapi):
    otter = added(store, "Otter")
    tried(store, otter, *[attempt()] * 3)
    with closing(sqlite3.connect(store.path)) as file, file:
        file.execute(f"UPDATE attempt SET {column} = ? WHERE number = 2", (value,))
    assert export(store, path, otter, is_xapi=is_xapi) == 2


@pytest.mark.parametrize("is_xapi", [False, True])
def test_a_letter_that_no_file_can_hold_stops_nothing(store, path, is_xapi):
    otter = added(store, "Otter")
    tried(store, otter, attempt())
    with closing(sqlite3.connect(store.path)) as file, file:
        file.execute("UPDATE attempt SET slips = ?", (json.dumps(["\ud800"]),))
    assert export(store, path, otter, is_xapi=is_xapi) == 1


def test_it_is_utf_8_with_its_mark_and_lines_as_rfc_4180_has_them(store, path):
    otter = added(store, "Otter")
    tried(store, otter, *map(attempt, EXERCISES))
    export(store, path, otter, is_xapi=False)
    content = path.read_bytes()
    assert content.startswith(b'\xef\xbb\xbf"at"') and content.endswith(b'"\r\n')
    lines = content.removeprefix(b"\xef\xbb\xbf").decode("utf-8").split("\r\n")
    assert len(lines) == 1 + len(EXERCISES) + 1 and not any(set(line) & {*"\r\n"} for line in lines)
    assert all(len(line[1:-1].split('","')) == len(Row._fields) for line in lines[:-1])


@pytest.mark.parametrize(("is_xapi", "lines"), [(False, 1), (True, 0)])
def test_a_record_with_nothing_in_it_is_a_file_with_nothing_in_it(store, path, is_xapi, lines):
    assert export(store, path, added(store, "Otter"), is_xapi=is_xapi) == 0
    assert len(path.read_text("utf-8-sig").splitlines()) == lines


def test_what_was_left_is_neither_right_nor_wrong(store, path):
    otter = added(store, "Otter")
    tried(store, otter, attempt(right=False, ended=False, answers=("7",)), attempt(right=False))
    left, wrong = table(store, otter, path)
    assert (left["ended"], left["right"], left["outcome"]) == ("0", "", "")
    assert (wrong["ended"], wrong["right"]) == ("1", "0")


@pytest.mark.parametrize("is_xapi", [False, True])
def test_a_child_under_two_ids_at_two_computers_is_in_one_file_in_order(tmp_path, is_xapi):
    files = [tmp_path / f"{number}.txt" for number in range(2)]
    with (
        closing(Store(tmp_path / "here" / "a.sqlite")) as here,
        closing(Store(tmp_path / "there" / "b.sqlite")) as there,
    ):
        otter, again = added(here, "Otter"), added(there, "Otter")
        seal = added(here, "Seal")
        for minute in range(4):
            store, learner = ((here, otter), (there, again))[minute % 2]
            now = NOW + timedelta(minutes=minute)
            tried(store, learner, attempt(), now=now, first=19 - minute)
        tried(here, seal, attempt(), now=NOW, first=20)
        merge(here, there.path, NOW)
        here.join(otter, again, NOW)
        merge(there, here.path, NOW)
        for store, file in zip((here, there), files, strict=True):
            (one,) = (one for one in store.learners() if one.nickname == "Otter")
            assert export(store, file, one, is_xapi=is_xapi) == 4
    assert files[0].read_bytes() == files[1].read_bytes()
    minutes = re.findall(r"2026-05-04T09:(\d\d)", files[0].read_text("utf-8-sig"))
    assert minutes == ["30", "31", "32", "33"]


@pytest.mark.parametrize("version", SCRIPTS)
@pytest.mark.parametrize("is_xapi", [False, True])
def test_what_an_earlier_version_wrote_goes_out_too(tmp_path, version, is_xapi):
    with closing(Store(old_file(tmp_path, version))) as store:
        for learner in store.learners():
            out = tmp_path / learner.id
            assert export(store, out, learner, is_xapi=is_xapi) == store.count_attempts(learner)
            if not is_xapi:
                out.unlink()
                strokes = {row["strokes"] for row in table(store, learner, out)}
                assert strokes <= ({""} if version < 4 else {"1"})
        assert sum(map(store.count_attempts, store.learners())) > 0


def left(path):
    return [one.name for one in path.parent.iterdir()]


@pytest.mark.parametrize("is_xapi", [False, True])
def test_nothing_is_written_over(store, path, is_xapi):
    path.write_bytes(b"crates")
    for taken in (path, path.parent):
        with pytest.raises(StoreError) as caught:
            export(store, taken, added(store, "Otter"), is_xapi=is_xapi)
        assert (caught.value.trouble, caught.value.where) == (Trouble.TAKEN, taken)
    assert path.read_bytes() == b"crates" and left(path) == [path.name]


@pytest.mark.parametrize("place", ["none/o.csv", "in-the-way/o.csv", "w" * 300])
def test_a_place_where_nothing_can_be_written_is_told(store, path, place):
    (path.parent / "in-the-way").write_bytes(b"")
    there = path.parent / place
    with pytest.raises(StoreError) as caught:
        export(store, there, added(store, "Otter"), is_xapi=False)
    assert caught.value.where == there
    assert left(path) == ["in-the-way"]


def test_a_file_that_is_held_is_told_and_nothing_is_left(store, path):
    otter = added(store, "Otter")
    tried(store, otter, attempt())
    with closing(sqlite3.connect(store.path, isolation_level=None)) as holder:
        holder.execute("BEGIN EXCLUSIVE")
        with pytest.raises(StoreError) as caught:
            export(store, path, otter, is_xapi=False)
    assert (caught.value.trouble, caught.value.where) == (Trouble.HELD, store.path)
    assert left(path) == []


@pytest.mark.skipif(sys.platform == "win32", reason="limits of processes are POSIX")
@pytest.mark.parametrize("is_xapi", [False, True])
@pytest.mark.parametrize("most", [0, 1, 4096, 20_000])
def test_a_full_disk_leaves_nothing_half_done(store, path, is_xapi, most):
    import resource

    otter = added(store, "Otter")
    tried(store, otter, *[attempt()] * 100)
    usual = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (most, usual[1]))
    try:
        with pytest.raises(StoreError) as caught:
            export(store, path, otter, is_xapi=is_xapi)
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, usual)
    assert (caught.value.trouble, caught.value.where) == (Trouble.FULL, path)
    assert left(path) == []
    assert export(store, path, otter, is_xapi=is_xapi) == 100


@pytest.mark.skipif(sys.platform == "win32", reason="on Windows a user's folder is their own")
def test_no_other_user_can_read_it_and_the_folder_stays_as_it_was(store, path):
    export(store, path, added(store, "Otter"), is_xapi=False)
    assert stat.S_IMODE(path.stat().st_mode) == 0o600
    assert stat.S_IMODE(path.parent.stat().st_mode) == 0o755


def test_while_it_is_written_a_window_can_write(store, path):
    otter = added(store, "Otter")
    tried(store, otter, *[attempt()] * 3)
    reading = store.each_past(otter)
    next(reading)
    with closing(Store(store.path)) as window:
        tried(window, otter, attempt(), first=2)
    assert len(list(reading)) == 2


def filled(path, count, strokes):
    """A store with so many attempts of so many strokes each, in order."""
    log = Log(entries=(SET_3,) * strokes)
    columns = attempt_row(Record("", 1, attempt(log=log, answers=("80",)), Origin.SET))[1:]
    store = Store(path)
    otter = added(store, "Otter")
    store.begin_sitting("s", otter, AROUND, NOW)
    names = f"id, sitting, at, {ATTEMPT_COLUMNS}".split(", ")
    with closing(sqlite3.connect(path)) as file, file:
        file.executemany(
            f"INSERT INTO attempt ({', '.join(names)}) VALUES ({', '.join('?' * len(names))})",
            ((f"{at:032x}", "s", NOW.isoformat(), at, *columns) for at in range(count)),
        )
    return store, otter


def most_memory(folder, count, strokes=20, *, is_xapi):
    """The most bytes that Python needed besides for an export of so many attempts."""
    folder.mkdir()
    store, otter = filled(folder / "learners.sqlite", count, strokes)
    out = folder / "out"
    with closing(store):
        tracemalloc.start()
        try:
            assert export(store, out, otter, is_xapi=is_xapi) == count
            return tracemalloc.get_traced_memory()[1]
        finally:
            tracemalloc.stop()


A_ROW = 600
"""Bytes that an id needs while it waits, with room; an attempt of so many strokes needs ten times
that."""


@pytest.mark.parametrize("is_xapi", some_daily([False, True], [False]))
def test_a_longer_record_needs_little_more_memory(tmp_path, is_xapi):
    short, long = 600, 3000
    (few, many) = (
        most_memory(tmp_path / f"{count}", count, is_xapi=is_xapi) for count in (short, long)
    )
    assert many - few < A_ROW * (long - short)


@pytest.mark.proof
@pytest.mark.parametrize("is_xapi", [False, True])
def test_90_000_attempts_need_little_memory(tmp_path, is_xapi):
    assert most_memory(tmp_path / "many", 90_000, 1, is_xapi=is_xapi) < 30_000_000

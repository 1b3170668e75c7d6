"""A damaged file never ends the program, and costs no more than what is damaged of it."""

import json
import sqlite3
import sys
from contextlib import closing
from datetime import UTC, datetime
from itertools import product
from random import Random
from shutil import copyfile

import pytest
from damaged import damage, evil_values, full_file
from proofs import some_daily

from frame.learner.exporting import export
from frame.learner.folding import WHAT, Fold, FoldRules
from frame.learner.nickname import nickname_of
from frame.learner.store import Store
from frame.practice.choices import Choices
from frame.practice.kept_choices import set_from
from frame.practice.rungs import Asked

COPIES = 1000
PAGE, HEADER, ROWS = 4096, 100, 13
"""Bytes, and the kind of a page with rows, from https://www.sqlite.org/fileformat2.html."""
CALLED = Choices(Asked.CALLED)
LATE = datetime.max.replace(tzinfo=UTC)
SEEDS = [range(4), pytest.param(range(COPIES), marks=pytest.mark.proof)]


def read_all(path):
    """Everything that a window reads; how many attempts there are."""
    with closing(Store(path)) as store:
        assert store.computer() and store.has_code() in (True, False)
        assert store.is_code("4711") in (True, False)
        assert (store.kept_plan(), store.pasted()) == (None, None)
        count = 0
        for learner in store.learners():
            assert store.settings(learner).conventions and store.choices(learner) == {}
            assert all(state.seed is not None for state in store.lessons(learner).values())
            assert len(store.tries(learner)) <= len(store.attempts(learner))
            assert isinstance(store.flash_runs(learner), tuple)
            assert all(nickname_of(one.name, "") == one.name for one in store.kept_sets(learner))
            assert {set_from(one.asked) for one in store.kept_sets(learner)} <= {CALLED, None}
            assert isinstance(store.tappings(learner), tuple)
            assert all(0 <= one.marks <= one.most for one in store.papers(learner))
            assert all(isinstance(one.asked, dict) for one in store.assigned(learner))
            assert len(folded_twice(store, learner)) <= len(store.attempts(learner))
            count += len(store.attempts(learner))
    return count


def folded_twice(store, learner):
    """The attempts that a fold of the record has, also where it was kept."""
    fold = Fold.of(store, learner, FoldRules())
    store.keep_folded(learner, WHAT, fold.to_text())
    assert Fold.of(store, learner, FoldRules()) == fold
    assert not fold.last.at or datetime.fromisoformat(fold.last.at) < LATE
    return range(fold.attempts)


@pytest.fixture(scope="module")
def sound(tmp_path_factory):
    path = tmp_path_factory.mktemp("sound") / "learners.sqlite"
    full_file(path)
    return path


@pytest.mark.parametrize("seeds", SEEDS)
@pytest.mark.parametrize(("has_copy", "least"), [(False, 0.6), (True, 0.99)])
def test_a_damaged_copy_is_saved_as_far_as_it_can_be_read(sound, tmp_path, seeds, has_copy, least):
    everything, saved = read_all(sound), 0.0
    for seed in seeds:
        path = tmp_path / str(seed) / "learners.sqlite"
        path.parent.mkdir()
        path.write_bytes(damage(sound.read_bytes(), Random(seed)))
        if has_copy:
            copyfile(sound, path.with_suffix(".good"))
        count = read_all(path)
        saved += min(1.0, count / everything)
        assert read_all(path) == count, "what is saved is sound"
    share = saved / len(seeds)
    # To the error stream: pytest-xdist shows no other one with -s.
    print(f"{len(seeds)} copies, {share:.1%} of the attempts saved", file=sys.stderr)
    assert share > least


@pytest.mark.parametrize("seeds", SEEDS)
def test_values_that_nobody_wrote_are_left_out(sound, tmp_path, seeds):
    for seed in seeds:
        path = tmp_path / f"{seed}.sqlite"
        copyfile(sound, path)
        evil_values(path, Random(seed))
        assert read_all(path) >= 0


@pytest.mark.parametrize("seeds", SEEDS)
def test_values_that_nobody_wrote_are_left_out_of_what_goes_out(sound, tmp_path, seeds):
    for seed in seeds:
        path = tmp_path / f"{seed}.sqlite"
        copyfile(sound, path)
        evil_values(path, Random(seed))
        with closing(Store(path)) as store:
            for number, learner in enumerate(store.learners()):
                out = path.with_suffix(f".{number}")
                count = len(store.past(learner))
                assert export(store, out, learner, is_xapi=True) == count
                with out.open(encoding="ascii") as lines:  # JSON has no infinity.
                    assert len([json.loads(line, parse_constant=int) for line in lines]) == count
                out.unlink()
                assert export(store, out, learner, is_xapi=False) == count


LISTS = ["facts", "slips", "answers"]
NO_LISTS = ["[1]", "5", "{}", '"a"', "[null]", "[[1]]", "", b"\xff", 2.5]
BY_COLUMN = list(product(LISTS, NO_LISTS))
OF_ONE_COLUMN = [one for one in BY_COLUMN if one[0] == "answers" or one[1] in ("[1]", "")]
"""All three are read alike."""


@pytest.mark.parametrize(("column", "value"), some_daily(BY_COLUMN, OF_ONE_COLUMN, several=True))
def test_lists_that_nobody_wrote_are_left_out(sound, tmp_path, column, value):
    path = tmp_path / "learners.sqlite"
    copyfile(sound, path)
    with closing(sqlite3.connect(path)) as file, file:
        file.execute(f"UPDATE attempt SET {column} = ? WHERE rowid % 3 = 0", (value,))
    read_all(path)
    with closing(Store(path)) as store:
        for learner in store.learners():
            for past in store.past(learner):
                texts = (*past.facts, *past.slips, *past.answers)
                assert all(isinstance(one, str) for one in texts)


@pytest.mark.parametrize("junk", [b"\x00", b"\xff", b"crates and lamps"])
def test_pages_that_tell_of_the_tables_cost_nothing_of_what_is_in_them(sound, tmp_path, junk):
    """Where they lie is asked of SQLite itself: whose damage makes all tables unreadable."""
    everything, whole = read_all(sound), sound.read_bytes()
    telling = [
        page for page in range(len(whole) // PAGE) if is_needed_by_all(whole, page, tmp_path)
    ]
    assert len(telling) >= 2
    for page in telling:
        path = tmp_path / f"{page}" / "learners.sqlite"
        path.parent.mkdir()
        begin, end = page * PAGE + (HEADER if page == 0 else 0), (page + 1) * PAGE
        path.write_bytes(whole[:begin] + (junk * PAGE)[: end - begin] + whole[end:])
        assert read_all(path) == everything, page


def is_needed_by_all(whole, page, folder):
    """Whether nothing can be asked of a file without one of its pages."""
    path = folder / "one.sqlite"
    kept = whole[: page * PAGE + (HEADER if page == 0 else 0)]
    path.write_bytes(kept + bytes((page + 1) * PAGE - len(kept)) + whole[(page + 1) * PAGE :])
    with closing(sqlite3.connect(path)) as file:
        for table in ("learner", "sitting", "attempt"):
            try:
                file.execute(f"SELECT * FROM {table} LIMIT 1").fetchall()
                return False
            except sqlite3.Error:
                continue
    return True


def test_what_lies_between_damaged_stretches_is_saved(sound, tmp_path):
    """Neither end of a table can be read then, and in its middle many pages in a row."""
    ids, whole = attempt_ids(sound), sound.read_bytes()
    pages = [whole[at : at + PAGE] for at in range(0, len(whole), PAGE)]
    rows = [number for number, page in enumerate(pages) if page[0] == ROWS]
    held = {one: number for one in ids for number in rows if one in pages[number]}
    order = list(dict.fromkeys(held.values()))
    quarter = len(order) // 4
    lost = {order[0], *order[quarter : 2 * quarter], order[-1]}
    path = tmp_path / "learners.sqlite"
    path.write_bytes(b"".join(bytes(PAGE) if n in lost else page for n, page in enumerate(pages)))
    assert read_all(path) > len(ids) / 2
    assert attempt_ids(path) == [one for one in ids if held[one] not in lost]


def attempt_ids(path):
    """The ids of all attempts, as they lie in the file."""
    with closing(sqlite3.connect(path)) as file:
        rows = file.execute("SELECT id FROM attempt ORDER BY rowid").fetchall()
    return [one.encode() for (one,) in rows]


@pytest.mark.parametrize("has_copy", [True, False])
def test_what_is_garbled_comes_from_the_copy_that_has_it_whole(sound, tmp_path, has_copy):
    path = tmp_path / "learners.sqlite"
    with closing(Store(sound)) as store:
        learner = store.learners()[0]
    with closing(sqlite3.connect(sound)) as file:
        (code,) = file.execute("SELECT value FROM computer WHERE name = 'code'").fetchone()
    content = sound.read_bytes()
    for text in (learner.nickname.encode(), code[-12:].encode()):
        assert text in content
        content = content.replace(text, b"\xff" * len(text))
    path.write_bytes(b"garbage!" + content[8:])
    if has_copy:
        copyfile(sound, path.with_suffix(".good"))
    with closing(Store(path)) as store:
        names = {one.nickname for one in store.learners()}
        assert store.saved.learners == 6
        assert store.is_code("4711") is has_copy
        assert (learner.nickname in names) is has_copy

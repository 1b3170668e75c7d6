"""Whatever ends a process that takes a file in, all came in or nothing, and a repeat ends it."""

import subprocess
import sys
import time
from contextlib import closing
from random import Random
from shutil import copyfile

import pytest
from kept import NOW, added, begun, timed
from processes import running

from frame.course.attempts import Attempt
from frame.learner.merging import Merged, merge
from frame.learner.store import Store
from frame.practice.exercises import Exercise, Kind
from frame.technique.expression import parse_sum

KILLS = [4, pytest.param(200, marks=pytest.mark.proof)]
ATTEMPTS = 8000

MERGES = """
import sys
from datetime import UTC, datetime
from pathlib import Path
from frame.learner.merging import merge
from frame.learner.store import Store

store = Store(Path(sys.argv[1]), patience=20)
print("begins", flush=True)
merge(store, Path(sys.argv[2]), datetime(2026, 5, 4, tzinfo=UTC))
print("done", flush=True)
store.close()
"""
TRIED = Attempt("beads-1", Exercise(Kind.SUM, parse_sum("3 + 4"), rods=1), True, True, 0, ())


@pytest.fixture
def files(tmp_path):
    """A file with an otter and a fox, and another one in which the fox is deleted and a seal did
    much."""
    here, there = tmp_path / "here" / "learners.sqlite", tmp_path / "there" / "learners.sqlite"
    with closing(Store(here)) as store:
        otter, fox = added(store, "Otter"), added(store, "Fox-on-the-pier")
        for learner in (otter, fox):
            tried = timed(*[(TRIED, 1.0)] * 500)
            store.record(begun(store, learner), tried, learner, "beads-1", None, NOW)
    there.parent.mkdir()
    copyfile(here, there)
    with closing(Store(there)) as store:
        store.remove_learner(fox, NOW)
        seal = added(store, "Seal")
        tried = timed(*[(TRIED, 1.0)] * ATTEMPTS)
        store.record(begun(store, seal), tried, seal, "beads-1", None, NOW)
    return here, there


def counted(path):
    """How many attempts of whom there are."""
    with closing(Store(path)) as store:
        assert store.saved is None, "it is whole"
        return {one.nickname: len(store.attempts(one)) for one in store.learners()}


@pytest.mark.parametrize("kills", KILLS)
def test_a_merge_that_is_killed_is_whole_or_nothing_and_the_next_completes_it(
    files, tmp_path, kills
):
    here, there = files
    before = {"Otter": 500, "Fox-on-the-pier": 500}
    after = {"Otter": 500, "Seal": ATTEMPTS}
    random, longest, seen = Random(1), 0.0, []
    for number in range(kills + 1):
        path = tmp_path / f"{number}" / "learners.sqlite"
        path.parent.mkdir()
        copyfile(here, path)
        copyfile(here.with_suffix(".good"), path.with_suffix(".good"))
        command = [sys.executable, "-c", MERGES, str(path), str(there)]
        with running(*command, stderr=subprocess.PIPE) as process:
            assert process.stdout.readline() == "begins\n"
            if number:
                time.sleep(random.random() * 1.2 * longest)
                process.kill()
            else:
                began = time.perf_counter()
                assert process.stdout.readline() == "done\n"
                longest = time.perf_counter() - began
            assert process.stderr.read() == ""
        seen.append(counted(path) == after)
        assert seen[-1] or counted(path) == before
        with closing(Store(path)) as store:
            merge(store, there, NOW)
            assert merge(store, there, NOW) == Merged()
        assert counted(path) == after
        for one in path.parent.iterdir():
            assert one.is_file() and b"Fox-on-the-pier" not in one.read_bytes(), one
    print(f"{kills} kills, {sum(seen) - 1} of them after all had come in")
    assert seen[0] and not all(seen)

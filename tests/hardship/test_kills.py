"""What was acknowledged is on disk, whatever ends the process that wrote it, beside another one."""

import subprocess
import sys
import time
from contextlib import closing
from random import Random

import pytest
from processes import running

from frame.learner.store import Store

KILLS = [3, pytest.param(1000, marks=pytest.mark.proof)]
PAIRS = [4, pytest.param(200, marks=pytest.mark.proof)]

WRITES = """
import sys
import time
from datetime import UTC, datetime
from pathlib import Path
from frame.course.attempts import Attempt, Origin, Position
from frame.learner.keeper import Keeper
from frame.learner.rows import Record
from frame.learner.settings import Settings
from frame.learner.sitting import Circumstances
from frame.learner.learners import Learner, new_id
from frame.learner.store import LessonState, Store
from frame.practice.exercises import Exercise, Kind
from frame.technique.conventions import USUAL
from frame.technique.expression import parse_sum

now = datetime(2026, 5, 4, tzinfo=UTC)
keeper = Keeper(Store(Path(sys.argv[1]), patience=20))
name = sys.argv[2]
known = [one for one in keeper.store.learners() if one.nickname == name]
crab = known[0] if known else Learner.new(name, "crab")
sitting = new_id()
keeper.write(lambda store: store.add_learner(crab, Settings(), now))
around = Circumstances(USUAL, (1280, 720), 1)
keeper.write(lambda store: store.begin_sitting(sitting, crab, around, now))
done = Attempt("beads-1", Exercise(Kind.SUM, parse_sum("3 + 4"), rods=1), True, True, 0, ())
number = max((state.position.step for state in keeper.store.lessons(crab).values()), default=0)
print(number, flush=True)
while True:
    number += 1
    some = [Record(new_id(), number, done, Origin.SET)]
    state = LessonState(1, Position(number), False)
    keeper.write(lambda store: store.record(sitting, some, crab, "beads-1", state, now))
    if not keeper.is_unsaved:
        print(number, flush=True)
    time.sleep(0.005)  # As between exercises; else a second process would find no gap at all.
"""


def writer(path, name):
    """A process that goes on writing, and says what it has written."""
    return running(sys.executable, "-c", WRITES, str(path), name, stderr=subprocess.PIPE)


@pytest.mark.parametrize("kills", KILLS)
def test_what_was_acknowledged_survives_every_kill_beside_a_second_writer(tmp_path, kills):
    path, random, said = tmp_path / "learners.sqlite", Random(1), 0
    Store(path).close()
    with writer(path, "Heron") as other:
        for _ in range(kills):
            with writer(path, "Crab") as process:
                begins = int(process.stdout.readline())
                assert begins >= said, "what was acknowledged before the last kill"
                said = begins
                for _ in range(random.randint(1, 6)):
                    said = int(process.stdout.readline())
                process.kill()
                rest = process.stdout.read().splitlines()
                said = max([said, *map(int, (line for line in rest if line.isdigit()))])
        assert other.poll() is None
        other.kill()
        others = max(int(line) for line in other.stdout.read().splitlines() if line.isdigit())
    with closing(Store(path)) as store:
        assert store.saved is None
        learners = {one.nickname: one for one in store.learners()}
        assert store.lessons(learners["Crab"])["beads-1"].position.step >= said
        assert store.lessons(learners["Heron"])["beads-1"].position.step >= others
        assert len(store.attempts(learners["Crab"])) >= said


STARTS = """
import sys, time
from pathlib import Path
from frame.learner.store import Store
until = float(sys.argv[2])
while time.time() < until:
    pass
Store(Path(sys.argv[1]), patience=5).close()
"""


@pytest.mark.parametrize("pairs", PAIRS)
def test_two_first_starts_at_once_both_succeed(tmp_path, pairs):
    for number in range(pairs):
        path = tmp_path / f"{number}" / "learners.sqlite"
        until = str(time.time() + 0.6)
        command = [sys.executable, "-c", STARTS, str(path), until]
        started = [subprocess.Popen(command, stderr=subprocess.PIPE, text=True) for _ in "ab"]
        assert [one.communicate()[1] for one in started] == ["", ""]
        assert [one.returncode for one in started] == [0, 0]

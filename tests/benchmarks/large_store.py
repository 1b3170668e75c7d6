"""A store of five years of a school: how large it is, how soon it opens, how much memory it takes.

Thirty learners with 50 000 attempts each, or one with 90 000, of about fifteen strokes each. The
learners are simulated: their attempts are worked by the planner's own moves, with times drawn by
chance. `python tests/benchmarks/large_store.py [FOLDER]` prints the figures as they are here.
"""

import resource
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import closing
from datetime import UTC, datetime, timedelta
from pathlib import Path
from random import Random

from frame.course.attempts import Attempt, Origin
from frame.learner.learners import Learner, new_id
from frame.learner.rows import ATTEMPT_COLUMNS, Record, attempt_row
from frame.learner.settings import Settings
from frame.learner.sitting import Circumstances
from frame.learner.store import Store
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Rung
from frame.practice.work import Work
from frame.technique.conventions import USUAL, Strictness
from frame.technique.expression import parse_sum

SUMS = ("38 + 47 - 29", "64 + 58 - 37", "4 + 3", "29 + 84 + 57", "91 - 46 + 38", "7 + 8 - 6 + 9")
FIRST_DAY = datetime(2021, 9, 1, 15, tzinfo=UTC)
DAYS = 5 * 365
A_SITTING = 40
AROUND = Circumstances(USUAL, (1280, 720), 1)


def worked(text: str, random: Random) -> Attempt:
    """A sum as the planner works it, a stroke in about a second."""
    exercise = Exercise(Kind.SUM, parse_sum(text), Rung.ALONE, 4)
    work = Work.begin(exercise, USUAL, Strictness.BEADS)
    while not work.finished:
        work.notes.ms += random.randint(400, 2400)
        work.touch(work.next_stroke)
    return Attempt(
        "practise-shown", exercise, work.unaided, work.right, 0, tuple(work.slips), log=work.log
    )


def rows(count: int, random: Random) -> Iterator[tuple[object, ...]]:
    """The columns of so many attempts, without id, sitting and time."""
    some = [
        attempt_row(Record("", 0, worked(text, random), Origin.SET))
        for text in SUMS
        for _ in "1234"
    ]
    for number in range(count):
        yield (number % A_SITTING + 1, *random.choice(some)[1:])


def fill(path: Path, learners: int, attempts: int, seed: int = 1) -> None:
    """A store with so many learners, each with so many attempts."""
    random = Random(seed)
    with closing(Store(path)) as store:
        store._database.execute("PRAGMA synchronous = OFF")
        for number in range(learners):
            learner = Learner.new(f"Otter {number}", "otter")
            store.add_learner(learner, Settings(), FIRST_DAY + timedelta(minutes=number))
            _fill_one(store, learner, attempts, random)


def _fill_one(store: Store, learner: Learner, attempts: int, random: Random) -> None:
    names = f"id, sitting, at, {ATTEMPT_COLUMNS}"
    places = ", ".join("?" * len(names.split(", ")))
    days = max(1, attempts // A_SITTING)
    with store._writing() as database:
        sitting, now = "", FIRST_DAY
        for index, row in enumerate(rows(attempts, random)):
            if index % A_SITTING == 0:
                sitting = new_id()
                now = FIRST_DAY + timedelta(days=DAYS * (index // A_SITTING) / days)
                values = (
                    sitting,
                    learner.id,
                    now.isoformat(),
                    now.isoformat(),
                    "{}",
                    "1280x720",
                    "touch",
                    1,
                )
                database.execute("INSERT INTO sitting VALUES (?, ?, ?, ?, ?, ?, ?, ?)", values)
            now += timedelta(seconds=15)
            values = (new_id(), sitting, now.isoformat(), *row)
            database.execute(f"INSERT INTO attempt ({names}) VALUES ({places})", values)


OPENING = """
import resource, sys, time
from contextlib import closing
from pathlib import Path
began = time.perf_counter()
from frame.learner.folding import WHAT, Fold, FoldRules
from frame.learner.store import Store
imported = time.perf_counter()
store = Store(Path(sys.argv[1]))
learners = store.learners()
print(f"opens in {time.perf_counter() - imported:.3f} s")
for what in ("folded anew", "gone on with"):
    began = time.perf_counter()
    fold = Fold.of(store, learners[0], FoldRules())
    seconds = time.perf_counter() - began
    print(f"{fold.attempts} attempts of one learner {what} in {seconds:.3f} s")
    store.keep_folded(learners[0], WHAT, fold.to_text())
began = time.perf_counter()
store.check()
print(f"checked beside the window in {time.perf_counter() - began:.2f} s")
began = time.perf_counter()
store.close()
print(f"closed, with a good copy, in {time.perf_counter() - began:.2f} s")
print(f"{resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB at most")
"""

SAVING = """
import resource, sys, time
from pathlib import Path
from frame.learner.store import Store
began = time.perf_counter()
store = Store(Path(sys.argv[1]))
print(f"saved of a damaged one without a copy: {store.saved.attempts} attempts in "
      f"{time.perf_counter() - began:.0f} s, "
      f"{resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB at most")
"""


def damage(path: Path) -> None:
    """A hundred pages overwritten, here and there, and no mark that all was well."""
    random = Random(1)
    path.with_suffix(".good").unlink(missing_ok=True)
    path.with_suffix(".open").touch()
    with path.open("r+b") as file:
        pages = file.seek(0, 2) // 4096
        for _ in range(100):
            file.seek(4096 * random.randrange(1, pages))
            file.write(random.randbytes(4096))


def run(program: str, path: Path) -> None:
    """A program in a process of its own, so that its memory is its own."""
    subprocess.run([sys.executable, "-c", program, str(path)], check=True)


def main() -> None:
    """Print the figures."""
    folder = Path(sys.argv[1]) if len(sys.argv) > 1 else Path(tempfile.mkdtemp())
    for name, learners, attempts in (("one", 1, 90_000), ("school", 30, 50_000)):
        path = folder / name / "learners.sqlite"
        fill(path, learners, attempts)
        size = path.stat().st_size / 1e6
        print(f"{name}: {learners} learners, {attempts} attempts each: {size:.1f} MB")
        run(OPENING, path)
        damage(path)
        run(SAVING, path)
        path.unlink()
    print(f"{resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024:.0f} MB to write it")


if __name__ == "__main__":
    main()

"""Learners' files, and damage done to copies of them."""

import sqlite3
from contextlib import closing, suppress

from kept import NOW, added, begun, timed

from frame.course.attempts import Attempt, Position
from frame.learner.assigned import Assigned, Work
from frame.learner.kept_sets import KeptSet
from frame.learner.learners import new_id
from frame.learner.papers import PaperTaken
from frame.learner.rows import FlashRow
from frame.learner.schema import TABLES
from frame.learner.store import LessonState, Store
from frame.practice.choices import Choices
from frame.practice.exercises import Exercise, Kind
from frame.practice.kept_choices import set_to
from frame.practice.rungs import Asked
from frame.technique.expression import parse_sum

RUN = FlashRow(
    digits=1, count=2, interval=1.0, minus=False, path="plain", refresh=60.0, sd_ms=0.1,
    worst_ms=0.2, drift_ms=0.0, missed=0, stopped=False, counts=True, items=((0.0, 0.1),),
)  # fmt: skip


CALLED = set_to(Choices(Asked.CALLED))


def full_file(path, learners=6, attempts=120):
    """A file with learners who have done something."""
    store = Store(path)
    store.save_computer(store.computer())
    store.set_code("4711")
    for number in range(learners):
        learner = added(store, f"Otter {number}", "otter")
        sitting = begun(store, learner)
        for index in range(attempts // 10):
            exercise = Exercise(Kind.SUM, parse_sum(f"{index % 9 + 1} + {number + 1}"), rods=2)
            some = [(Attempt("beads-1", exercise, True, True, 0, ()), 3.0)] * 10
            state = LessonState(index, Position(index), done=index > 3)
            store.record(sitting, timed(*some), learner, f"beads-{index % 5 + 1}", state, NOW)
        store.record_flash(new_id(), sitting, RUN, NOW)
        store.keep_set(learner, KeptSet(new_id(), f"Quay {number}", CALLED), NOW)
        store.keep_paper(PaperTaken(sitting, NOW, "1000", number, 10, 60.0))
        store.assign([(learner, Assigned(new_id(), NOW, Work.SHEET, "1000"))])
        store.keep_tapping(new_id(), sitting, 0.5, NOW)
    store.close()


def damage(content, random):
    """Bytes as a bad disk, a torn copy or an evil hand leaves them."""
    content = bytearray(content)
    match random.randrange(6):
        case 0:
            for _ in range(random.randint(1, 40)):
                content[random.randrange(len(content))] = random.randrange(256)
        case 1:
            del content[random.randrange(len(content)) :]
        case 2:
            at = random.randrange(len(content))
            size = random.randint(1, 3 * 4096)
            content[at : at + size] = bytes(len(content[at : at + size]))
        case 3:
            page = 4096 * random.randrange(max(1, len(content) // 4096))
            content[page : page + 4096] = random.randbytes(len(content[page : page + 4096]))
        case 4:
            for _ in range(random.randint(1, 20)):
                content[random.randrange(min(100, len(content)))] = random.randrange(256)
        case 5:
            one, other = (4096 * random.randrange(max(1, len(content) // 4096)) for _ in "ab")
            content[one : one + 4096], content[other : other + 4096] = (
                content[other : other + 4096], content[one : one + 4096],
            )  # fmt: skip
    return bytes(content)


def evil_values(path, random):
    """Rows with values that no version wrote, in a file that is sound."""
    values = ("[1]", "5", "{}", "", None, 7, -1, 2.5, b"\xff\xfe", "\x00", "9" * 400, '"a"')
    with closing(sqlite3.connect(path)) as file, file:
        for _ in range(random.randint(1, 12)):
            table = random.choice(TABLES)
            columns = [row[1] for row in file.execute(f"PRAGMA table_info({table})")]
            with suppress(sqlite3.IntegrityError):
                file.execute(
                    f"UPDATE {table} SET {random.choice(columns)} = ? WHERE rowid % 3 = ?",
                    (random.choice(values), random.randrange(3)),
                )

"""Computers with a learners' file each, what is done on them, and what the files hold then."""

import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import timedelta
from hashlib import md5
from itertools import count
from shutil import copyfile

from kept import AROUND, NOW, store_in

from frame.course.attempts import Attempt, Origin, Position
from frame.learner.assigned import Assigned, Work
from frame.learner.kept_sets import KeptSet
from frame.learner.learners import Learner
from frame.learner.merging import merge
from frame.learner.papers import PaperTaken
from frame.learner.rows import FlashRow, Record
from frame.learner.schema import TABLES
from frame.learner.settings import Settings
from frame.learner.store import LessonState, Store
from frame.practice.exercises import Exercise, Kind
from frame.technique.expression import parse_sum

RUN = FlashRow(
    digits=1, count=2, interval=1.0, minus=False, path="plain", refresh=60.0, sd_ms=0.1,
    worst_ms=0.2, drift_ms=0.0, missed=0, stopped=False, counts=True, items=((0.0, 0.1),),
)  # fmt: skip
TRIED = Attempt("beads-1", Exercise(Kind.SUM, parse_sum("3 + 4"), rods=1), True, True, 0, ())
SHARED = tuple(table for table in TABLES if table != "computer")
"""The tables that all computers have in common."""


def rows_of(path):
    """All that a file shares with others, in an order that tells nothing."""
    with closing(sqlite3.connect(path)) as file:
        found = {}
        for table in SHARED:
            cursor = file.execute(f"SELECT * FROM {table}")
            names = [name for name, *_ in cursor.description]
            rows = (sorted(zip(names, row, strict=True)) for row in cursor)
            found[table] = sorted(rows, key=repr)
    return found


class Computers:
    """So many computers, and what is known of all that was done on them. A step of the clock is a
    second, so that two things may be done at one time."""

    def __init__(self, folder, many=3):
        folder.mkdir(parents=True, exist_ok=True)
        self.paths = [folder / f"{number}" / "learners.sqlite" for number in range(many)]
        self.stores = [store_in(path.parent) for path in self.paths]
        self.done = {}
        self.removed = set()
        self.sets = {}
        self.sets_removed = set()
        self.time = 0
        self._numbers = count()

    @property
    def now(self):
        return NOW + timedelta(seconds=self.time)

    def close(self):
        for store in self.stores:
            store.close()

    def _id(self):
        """An id that nothing has, and that tells nothing of its time."""
        return md5(str(next(self._numbers)).encode()).hexdigest()

    def act(self, kind, here, which, later):
        """Do one thing on a computer, to one of who is there, now or a second later."""
        self.time += later
        store = self.stores[here % len(self.stores)]
        known = store.learners()
        if kind == "come" or not known:
            learner = Learner(self._id(), f"Otter {which}", "otter")
            store.add_learner(learner, Settings(), self.now)
        else:
            getattr(self, f"_{kind}")(store, known[which % len(known)], which)

    def _try(self, store, learner, which):
        sitting, state = self._id(), LessonState(which, Position(which), which % 3 == 0)
        records = [Record(self._id(), at, TRIED, Origin.SET) for at in range(1 + which % 3)]
        store.begin_sitting(sitting, learner, AROUND, self.now)
        store.record(sitting, records, learner, f"beads-{which % 4 + 1}", state, self.now)
        store.record_flash(self._id(), sitting, RUN, self.now)
        store.keep_tapping(self._id(), sitting, which / 4 or None, self.now)
        store.keep_paper(PaperTaken(sitting, self.now, "1000", which % 10, 10, 60.0))
        self.done |= {one.id: learner.id for one in records}

    def _go_on(self, store, learner, which):
        """In a sitting that was begun before, perhaps elsewhere."""
        with closing(sqlite3.connect(store.path)) as file:
            begun = file.execute("SELECT id FROM sitting WHERE learner = ?", (learner.id,))
            sittings = sorted(begun.fetchall())
        if sittings:
            (sitting,) = sittings[which % len(sittings)]
            store.note_input(sitting, ["mouse", "keys", "touch"][: 1 + which % 3])
            store.end_sitting(sitting, self.now)

    def _rename(self, store, learner, which):
        store.rename(replace(learner, nickname=f"Seal {which}", picture="seal"), self.now)

    def _set(self, store, learner, which):
        store.save_settings(learner, Settings(free_rods=1 + which), self.now)

    def _choose(self, store, learner, which):
        store.keep_choices(learner, {"asked": which}, self.now)

    def _keep(self, store, learner, which):
        """A set gets a name, or one of those here another one."""
        kept = store.kept_sets(learner)
        if which % 2 and kept:
            one = replace(kept[which % len(kept)], name=f"Shore {which}")
        else:
            one = KeptSet(self._id(), f"Quay {which}", {"asked": which})
        self.sets[one.id] = learner.id
        store.keep_set(learner, one, self.now)

    def _let_go(self, store, learner, which):
        """One of the sets here goes."""
        if kept := store.kept_sets(learner):
            one = kept[which % len(kept)]
            self.sets_removed.add(one.id)
            store.remove_set(one, self.now)

    def _give(self, store, learner, which):
        """A lesson is given to do, or today's set."""
        work = Work.LESSON if which % 2 else Work.DUE
        text = f"beads-{which % 4 + 1}" if work is Work.LESSON else ""
        store.assign([(learner, Assigned(self._id(), self.now, work, text))])

    def _tick(self, store, learner, which):
        """What was given is done, on whichever computer it is known."""
        for one in store.assigned(learner)[which % 2 :]:
            store.tick_off(learner, one.work, one.text, self.now)

    def _take_back(self, store, learner, which):
        if given := store.assigned(learner):
            store.take_back([given[which % len(given)]], self.now)

    def _remove(self, store, learner, which):
        self.removed |= {*store.ids_of(learner)}
        store.remove_learner(learner, self.now)

    def _join(self, store, learner, which):
        others = [one for one in store.learners() if one != learner]
        if others:
            store.join(learner, others[which % len(others)], self.now, apart=which % 3 == 0)

    def merge(self, here, there):
        """Take in the file of another computer."""
        here, there = here % len(self.paths), there % len(self.paths)
        return merge(self.stores[here], self.paths[there], self.now)

    def _merge(self, store, learner, which):
        merge(store, self.paths[which % len(self.paths)], self.now)

    def copied(self, folder):
        """The same files at another place, as they are now."""
        other = Computers(folder, 0)
        for number, path in enumerate(self.paths):
            there = folder / f"{number}" / path.name
            there.parent.mkdir(parents=True)
            copyfile(path, there)
            other.paths.append(there)
            other.stores.append(Store(there))
        return other

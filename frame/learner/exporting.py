"""What a learner attempted, written for other programs. It can't be taken in again."""

import os
from pathlib import Path

from frame.learner.learners import Learner
from frame.learner.new_file import new_file
from frame.learner.statements import write_statements
from frame.learner.store import Store
from frame.learner.table import write_table


def export(store: Store, path: Path, learner: Learner, *, is_xapi: bool) -> int:
    """Write all that a learner attempted to a new file, oldest first: as a table, or as statements
    of the Experience API; how many attempts those are. It is for this user's eyes alone, and there
    only when it is whole. Raises StoreError, which tells of which file; a file that is there
    already is left as it is."""
    encoding = "utf-8" if is_xapi else "utf-8-sig"  # By its mark a spreadsheet knows it.
    attempts = store.each_past(learner)
    with (
        new_file(path) as fresh,
        fresh.open("w", encoding=encoding, errors="replace", newline="") as file,
    ):
        if is_xapi:
            count = write_statements(file, attempts, learner)
        else:
            count = write_table(file, attempts)
        file.flush()
        os.fsync(file.fileno())
        return count

"""The mark beside a file that is open: it stays where somebody did not come to an end, whatever
windows and commands do beside one another."""

import sys
from contextlib import closing
from itertools import permutations

import pytest
from processes import running

from frame.learner.store import Store

OPENED_UNTIL_TOLD = """
import sys
from pathlib import Path
from frame.learner.store import Store

store = Store(Path(sys.argv[1]))
print(store.copies.was_left_open, flush=True)
sys.stdin.readline()
store.close()
print("closed", flush=True)
"""


@pytest.fixture
def path(tmp_path):
    return tmp_path / "learners.sqlite"


def is_marked(path):
    return path.with_suffix(".open").exists()


def opened_elsewhere(path):
    """A process that has the file open until it is told to close it."""
    return running(sys.executable, "-c", OPENED_UNTIL_TOLD, str(path))


@pytest.mark.parametrize("order", [*permutations(range(3))])
def test_the_last_who_closes_the_file_takes_the_mark_away(path, order):
    stores = [Store(path) for _ in range(3)]
    for at in order:
        assert is_marked(path)
        stores[at].close()
    assert not is_marked(path)


def test_what_one_process_closes_stays_marked_for_the_other(path):
    with closing(Store(path)), opened_elsewhere(path) as other:
        assert other.stdout.readline() == "True\n"
        other.communicate("\n")
        assert is_marked(path)
    assert not is_marked(path)


def test_the_mark_of_a_process_that_was_killed_stays_for_the_next_to_find(path):
    with opened_elsewhere(path) as other:
        other.stdout.readline()
        with closing(Store(path)):
            pass
        other.kill()
        other.wait()
    assert is_marked(path)
    Store(path).close()
    assert not is_marked(path)


def test_a_file_that_is_found_damaged_stays_marked(path):
    with closing(Store(path)) as store:
        store.is_damaged = True
    assert is_marked(path)

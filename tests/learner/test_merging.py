"""Whatever is done on several computers, their files are joined without loss or double counting,
in any order and however often."""

from contextlib import closing
from itertools import permutations
from pathlib import Path
from tempfile import TemporaryDirectory

import pytest
from computers import Computers, rows_of
from hypothesis import given, settings
from hypothesis import strategies as st

from frame.learner.merging import Merged

KINDS = ("come", "try", "try", "go_on", "rename", "set", "choose", "remove", "join", "merge")
ACTS = st.tuples(
    st.sampled_from(KINDS), st.integers(0, 2), st.integers(0, 5), st.sampled_from((0, 1))
)
HISTORIES = st.lists(ACTS, min_size=5, max_size=30)
EXAMPLES = 25


@pytest.fixture
def folder():
    with TemporaryDirectory() as name:
        yield Path(name)


def lived(folder, history):
    """Computers on which all this was done."""
    computers = Computers(folder)
    for act in history:
        computers.act(*act)
    return computers


@given(history=HISTORIES, data=st.data())
@settings(max_examples=EXAMPLES)
def test_computers_that_know_of_one_another_hold_the_same_and_all_of_it(history, data):
    with TemporaryDirectory() as folder, closing(lived(Path(folder), history)) as computers:
        ways = [(here, there) for here in range(3) for there in range(3) if here != there] * 2
        for here, there in data.draw(st.permutations(ways)):
            computers.merge(here, there)
        for here in (0, 1, 2, 0, 1):
            computers.merge(here, here + 1)
        rows = [rows_of(path) for path in computers.paths]
        assert rows[0] == rows[1] == rows[2]
        kept = {id for id, learner in computers.done.items() if learner not in computers.removed}
        assert {dict(row)["id"] for row in rows[0]["attempt"]} == kept
        before = [path.read_bytes() for path in computers.paths]
        for here, there in ways:
            assert computers.merge(here, there) == Merged()
        assert [path.read_bytes() for path in computers.paths] == before


@given(history=HISTORIES)
@settings(max_examples=EXAMPLES)
def test_neither_order_nor_brackets_make_a_difference(history):
    with TemporaryDirectory() as name, closing(lived(Path(name, "all"), history)) as computers:
        found = []
        for number, (a, b, c) in enumerate(permutations(range(3))):
            with closing(computers.copied(Path(name, f"{number}"))) as one:
                one.merge(a, b)
                one.merge(a, c)
                found.append(rows_of(one.paths[a]))
            with closing(computers.copied(Path(name, f"brackets-{number}"))) as other:
                other.merge(b, c)
                other.merge(a, b)
                found.append(rows_of(other.paths[a]))
        assert all(rows == found[0] for rows in found)

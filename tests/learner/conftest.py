"""A learners' file, and somebody in it."""

from contextlib import closing

import pytest
from kept import added, store_in


@pytest.fixture
def store(tmp_path):
    with closing(store_in(tmp_path)) as opened:
        yield opened


@pytest.fixture
def otter(store):
    return added(store, "Otter")

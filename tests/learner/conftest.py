"""A learners' file, and somebody in it."""

from contextlib import closing

import pytest
from kept import added

from frame.learner.store import Store


@pytest.fixture
def store(tmp_path):
    with closing(Store(tmp_path / "learners.sqlite")) as opened:
        yield opened


@pytest.fixture
def otter(store):
    return added(store, "Otter")

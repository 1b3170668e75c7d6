"""Tests run without a screen or a loudspeaker, and alike each time."""

import gc
import os
import tempfile
from pathlib import Path
from random import Random
from uuid import UUID

import pytest
from hypothesis import settings

os.environ["SDL_VIDEODRIVER"] = "dummy"
os.environ["SDL_AUDIODRIVER"] = "dummy"

MEMORY = Path("/dev/shm")
if "TMPDIR" not in os.environ and os.access(MEMORY, os.W_OK):
    # No file of a test outlives a power cut, so none need wait until a disk holds it.
    tempfile.tempdir = str(MEMORY)

# Most of what tests make goes by itself, and a collection would find little.
gc.set_threshold(50_000, 20, 20)

settings.register_profile("alike", derandomize=True, deadline=None, database=None)
settings.load_profile("alike")


@pytest.fixture(autouse=True, scope="module")
def little_to_look_through():
    """A collection need not look through what tests are made of, nor what those before keep."""
    gc.collect()
    gc.freeze()


@pytest.fixture(autouse=True, scope="session")
def codes_cost_little():
    """Hundreds of codes are tried, and each would take as long as for somebody who waits."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("frame.learner.lock_code.COST", 2**4)
        yield


@pytest.fixture(autouse=True, scope="module")
def ids_alike_for_all_of_a_file(request):
    """What the tests of a file share has the same ids each time, too."""
    with pytest.MonkeyPatch.context() as patch:
        patch_ids(patch, request.node.nodeid)
        yield


@pytest.fixture(autouse=True)
def ids_alike_each_time(monkeypatch, request):
    """Today's set goes by the learner's id, and so do orders: a test has the same ids each time."""
    patch_ids(monkeypatch, request.node.nodeid)


def patch_ids(patch, seed):
    random = Random(seed)
    patch.setattr("uuid.uuid4", lambda: UUID(int=random.getrandbits(128), version=4))

"""Tests run without a screen or a loudspeaker, and alike each time."""

import gc
import os
import sys
import tempfile
from functools import cache, partial
from itertools import count
from pathlib import Path
from random import Random
from uuid import UUID

import pytest
from hypothesis import settings
from proofs import is_proof, without_proofs

os.environ["SDL_VIDEODRIVER"] = "dummy"
os.environ["SDL_AUDIODRIVER"] = "dummy"

MEMORY = Path("/dev/shm")
if "TMPDIR" not in os.environ and os.access(MEMORY, os.W_OK):
    # No file of a test outlives a power cut, so none need wait until a disk holds it.
    tempfile.tempdir = str(MEMORY)

if sys.dont_write_bytecode and "PYTHONPYCACHEPREFIX" not in os.environ:
    # Where no compiled code may be kept beside the source, a process that a test starts would
    # compile the whole program: it is kept as long as the tests run.
    COMPILED = tempfile.TemporaryDirectory()
    os.environ["PYTHONPYCACHEPREFIX"] = COMPILED.name
    del os.environ["PYTHONDONTWRITEBYTECODE"]

# Most of what tests make goes by itself, and a collection would find little; while they are
# looked up nothing goes at all.
gc.set_threshold(50_000, 20, 20)
gc.disable()


def pytest_collection_finish():
    gc.enable()


# The same few examples each day; others, and many more, with `--hypothesis-profile long`.
settings.register_profile("alike", derandomize=True, deadline=None, database=None, max_examples=60)
settings.register_profile("long", deadline=None, database=None, max_examples=1000)
settings.load_profile("alike")


def leaves_proofs(config):
    """Whether all proofs would be left out anyway, so that none need be made: that takes long."""
    option = config.option
    return option.markexpr == "not proof" and not any("::" in one for one in option.file_or_dir)


@pytest.hookimpl(tryfirst=True)
def pytest_pycollect_makeitem(collector, name, obj):
    if name.startswith("test") and leaves_proofs(collector.config) and is_proof(obj):
        return []
    return None


@pytest.hookimpl(tryfirst=True)
def pytest_generate_tests(metafunc):
    if leaves_proofs(metafunc.config):
        metafunc.parametrize = partial(without_proofs, metafunc.parametrize)


MODULES = count()


@pytest.fixture(autouse=True, scope="module")
def little_to_look_through():
    """A collection need not look through what tests are made of, nor what those before keep."""
    if next(MODULES) % 4 == 0:
        gc.collect()
        gc.freeze()


@pytest.fixture(autouse=True, scope="session")
def codes_cost_little():
    """Hundreds of codes are tried, and each would take as long as for somebody who waits."""
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("frame.learner.lock_code.COST", 2**4)
        yield


class Ids:
    """Ids that are alike each time: today's set goes by the learner's, and so do orders."""

    def __init__(self):
        self.source = Random()
        self.of_file = cache(Random)

    def next(self):
        return UUID(int=self.source.getrandbits(128), version=4)


IDS = Ids()


@pytest.fixture(scope="session")
def ids():
    return IDS


@pytest.fixture(autouse=True, scope="session")
def ids_alike(ids):
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr("uuid.uuid4", ids.next)
        yield


@pytest.hookimpl(tryfirst=True)
def pytest_runtest_setup(item):
    """What the tests of a file share has the same ids each time."""
    IDS.source = IDS.of_file(item.module.__name__)


@pytest.fixture(autouse=True)
def ids_alike_each_time(request):
    """A test has the same ids each time, whatever ran before it."""
    IDS.source = Random(request.node.nodeid)

"""Tests run without a screen or a loudspeaker, and alike each time."""

import gc
import os

from hypothesis import settings

os.environ["SDL_VIDEODRIVER"] = "dummy"
os.environ["SDL_AUDIODRIVER"] = "dummy"

settings.register_profile("alike", derandomize=True, deadline=None, database=None)
settings.load_profile("alike")


def pytest_collection_finish():
    gc.collect()
    gc.freeze()  # a collection need not look through what the tests are made of

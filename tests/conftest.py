"""Tests run without a screen or a loudspeaker, and alike each time."""

import os

from hypothesis import settings

os.environ["SDL_VIDEODRIVER"] = "dummy"
os.environ["SDL_AUDIODRIVER"] = "dummy"

settings.register_profile("alike", derandomize=True, deadline=None, database=None)
settings.load_profile("alike")

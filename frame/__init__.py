"""An on-screen bead frame with a technique model, guided lessons and exercises."""

import os

__version__ = "0.1.0"

# A command whose output is read by other programs must print nothing of its own accord.
os.environ.setdefault("PYGAME_HIDE_SUPPORT_PROMPT", "1")

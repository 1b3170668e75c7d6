"""What a lesson waits for by itself, and for how long, in seconds."""

from enum import StrEnum

PAUSE_AFTER_DONE = 1.2
PAUSE_TO_READ = 2.5
PAUSE_BEFORE_DEMO = 0.7
PAUSE_BEFORE_CALL = 1.0
PAUSE_AFTER_DEMO = 1.5
GLANCE_SECONDS = 2.0
"""What is to be read must be seen: on a rung that shows nothing, for so long."""
MENDING_SECONDS = 1.8
WAIT_SECONDS = 10.0
"""After so long without a touch a learner is told again, once."""
COUNT_SECONDS = 0.7
"""How long a counted bead stands at least before the next one is counted."""


class Due(StrEnum):
    """What a lesson waits for by itself."""

    ON = "on"
    """The lesson goes on."""
    WAIT = "wait"
    """Nothing was touched for a while."""
    MENDED = "mended"
    """The outline of a bead that was put back goes."""
    COVER = "cover"
    """A number to be read has been seen."""
    COUNT = "count"
    """The next bead is counted."""

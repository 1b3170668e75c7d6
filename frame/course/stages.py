"""What a lesson can wait for."""

from enum import StrEnum


class Stage(StrEnum):
    """What the lesson waits for."""

    TELL = "tell"
    """The learner reads or hears a sentence and goes on."""
    DEMO = "demo"
    """The tool moves beads: the screen plays one stroke after another."""
    WORK = "work"
    """The learner moves beads."""
    PRESENT = "present"
    """Numbers are called or flashed."""
    ANSWER = "answer"
    """The learner gives a number, and may move beads where they are not judged at once."""
    REVEAL = "reveal"
    """What was not right is to be seen: the learner's touches beside the right ones."""
    DONE = "done"
    """The exercise is done; the screen shows so and goes on."""
    RESULTS = "results"
    """A set of called or flashed numbers is over: how each went, and the way of each."""
    END = "end"
    """The lesson is over."""

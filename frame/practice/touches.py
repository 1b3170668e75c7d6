"""What is kept of a touch, and how much help there is.

Looks at an unseen frame are free: they are counted apart from help, and only the ladder minds them.
"""

from enum import IntEnum
from typing import NamedTuple

from frame.technique.judge import Judge, Verdict

WRONG_ANSWER = "wrong-answer"
"""What is kept, beside the slips of the technique, of an answer or a frame that is not right."""


class Help(IntEnum):
    """How much is shown: nothing, the rod, the rule, the very bead."""

    NONE = 0
    POINT = 1
    TEACH = 2
    SHOW = 3


class Touch(NamedTuple):
    """A stroke that was kept: the judge before it, the verdict."""

    judge: Judge
    verdict: Verdict

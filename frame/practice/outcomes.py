"""How an exercise ended: the answer and the hand, told apart."""

from enum import StrEnum


class Outcome(StrEnum):
    """What was right. Where nothing was touched, only the answer can tell."""

    RIGHT = "right"
    WRONG_PLAN = "wrong plan"
    """The touches lead to another number."""
    PICTURE_LOST = "picture lost"
    """The touches were right, the answer is not."""
    HAND_STRAYED = "hand strayed"
    """The answer is right, the touches lead to another number."""
    WRONG_ANSWER = "wrong answer"
    """The answer is not right, and nothing was touched."""

    @property
    def is_right(self) -> bool:
        """Whether the answer is right."""
        return self in (Outcome.RIGHT, Outcome.HAND_STRAYED)


def outcome_of(*, answer: bool, hand: bool | None) -> Outcome:
    """The outcome of a right or wrong answer, and of a right or wrong hand, or None for a hand
    that touched nothing."""
    if answer:
        return Outcome.HAND_STRAYED if hand is False else Outcome.RIGHT
    if hand is None:
        return Outcome.WRONG_ANSWER
    return Outcome.PICTURE_LOST if hand else Outcome.WRONG_PLAN

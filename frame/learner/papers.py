"""A paper that was taken: when, of which sheet, and what came of it."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import datetime
from math import inf
from typing import Any


@dataclass(frozen=True, slots=True)
class PaperTaken:
    """A paper with the code of its sheet, and the `sitting` in which its tasks are kept. So many
    `marks` of `most`; worked for so many `seconds`, without the `paused` ones of so many `pauses`.
    Of one that was worked on paper, not `on_screen`, nobody knows the times, and they are 0."""

    sitting: str
    at: datetime
    code: str
    marks: int
    most: int
    seconds: float = 0.0
    paused: float = 0.0
    pauses: int = 0
    on_screen: bool = False


PAPER_COLUMNS = "code, marks, most, seconds, paused, pauses, on_screen"


def paper_columns(paper: PaperTaken) -> tuple[object, ...]:
    """The PAPER_COLUMNS of a paper."""
    return (
        paper.code, paper.marks, paper.most, paper.seconds, paper.paused, paper.pauses,
        paper.on_screen,
    )  # fmt: skip


def paper_of(row: Sequence[Any]) -> PaperTaken | None:
    """The paper that its sitting, its time and its PAPER_COLUMNS tell of; None where they hold what
    no version wrote."""
    sitting, at, code, marks, most, seconds, paused, pauses, on_screen = row
    counts, times = (marks, most, pauses), (seconds, paused)
    if not (
        isinstance(sitting, str)
        and isinstance(code, str)
        and all(isinstance(one, int) and one >= 0 for one in counts)
        and all(isinstance(one, int | float) and 0 <= one < inf for one in times)
        and 0 < most >= marks
    ):
        return None
    try:
        moment = datetime.fromisoformat(at)
    except (ValueError, TypeError):
        return None
    if moment.tzinfo is None:
        return None
    return PaperTaken(
        sitting, moment, code, marks, most, float(seconds), float(paused), pauses, bool(on_screen)
    )

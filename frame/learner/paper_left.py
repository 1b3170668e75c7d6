"""A paper that is not handed in yet, as a text beside the record, so that it outlives its window.

It stands beside what is folded, and stays on its computer.
"""

import json
import re
from datetime import datetime
from math import inf
from typing import Any

from frame.course.next_paper import graded_recipe
from frame.course.paper import Paper
from frame.sheets.code import code_of
from frame.sheets.marking import MOST_DIGITS
from frame.sheets.papers import paper

WHAT = "paper"
"""Under which name it is kept."""
_TYPED = re.compile(rf"-?[0-9]{{0,{MOST_DIGITS}}}")


def paper_to(under_way: Paper, now: float) -> str:
    """A paper as it stands at a moment, paused."""
    held = under_way.pause(now)
    return json.dumps({
        "code": code_of(held.sheet.recipe), "began": held.began.isoformat(),
        "is_clocked": held.is_clocked, "texts": held.texts, "in_time": held.in_time, "at": held.at,
        "worked": held.worked, "paused": held.paused, "pauses": held.pauses,
    })  # fmt: skip


def paper_from(text: str, now: float) -> Paper | None:
    """A paper as it was kept, still paused; None where the text holds what no version wrote."""
    try:
        kept = json.loads(text)
        recipe = graded_recipe(kept["code"])
        if recipe is None:
            return None
        sheet, began = paper(recipe), datetime.fromisoformat(kept["began"])
        texts, in_time = (_texts(kept[name], len(sheet.tasks)) for name in ("texts", "in_time"))
        worked, paused = _number(kept["worked"], inf), _number(kept["paused"], inf)
        at, pauses = int(_number(kept["at"], len(texts))), int(_number(kept["pauses"], inf))
    except (ValueError, TypeError, LookupError, AttributeError, RecursionError):
        return None
    if began.tzinfo is None:
        return None
    return Paper(
        sheet=sheet, began=began, since=now, is_clocked=bool(kept["is_clocked"]), texts=texts,
        in_time=in_time, at=at, worked=worked, paused=paused, pauses=pauses, is_paused=True,
    )  # fmt: skip


def _texts(values: Any, count: int) -> tuple[str, ...]:
    """So many typed texts. Raises ValueError or TypeError for anything else."""
    if len(values) != count or not all(map(_TYPED.fullmatch, values)):
        raise ValueError("not what was typed")
    return tuple(values)


def _number(value: Any, below: float) -> float:
    """A number from 0 to below another. Raises ValueError or TypeError for anything else."""
    if not 0 <= value < below:
        raise ValueError(f"{value} is out of range")
    return float(value)

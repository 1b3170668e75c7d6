"""Sheets of a learner that are not marked to the end, as a text beside the record, so that what was
typed outlives its window.

It stands beside what is folded, and stays on its computer.
"""

import json
import re
from typing import Any

from frame.sheets.half_marked import HalfMarked
from frame.sheets.marking import MOST_DIGITS
from frame.sheets.sheet import Sheet
from frame.sheets.typed_in import Field, TypedIn

WHAT = "sheets"
"""Under which name they are kept."""
_TYPED = re.compile(rf"-?(?=[0-9.]{{0,{MOST_DIGITS + 1}}}$)[0-9]*\.?[0-9]*")


def sheets_with(text: str, code: str, half: HalfMarked | None) -> str:
    """The text with the sheet of a code as it stands, as the one left last; without it where there
    is none, or nothing of it is marked."""
    kept = _kept(text)
    kept.pop(code, None)
    if half is not None and half.is_begun:
        kept[code] = _told(half)
    return json.dumps(kept)


def codes_left(text: str) -> list[str]:
    """The codes of the sheets, the one left last at the end."""
    return list(_kept(text))


def sheet_left(text: str, code: str, sheet: Sheet) -> HalfMarked | None:
    """The sheet of a code as it was left; None where it was not, or the text holds what no version
    wrote."""
    try:
        return _half(_kept(text)[code], sheet)
    except (ValueError, TypeError, LookupError):
        return None


def _kept(text: str) -> dict[str, Any]:
    try:
        kept = json.loads(text)
    except (ValueError, RecursionError):
        return {}
    return kept if isinstance(kept, dict) else {}


def _told(half: HalfMarked) -> dict[str, Any]:
    typed = half.typed
    return {
        "texts": [[at, int(of), text] for (at, of), text in typed.texts.items()],
        "at": typed.at, "given": sorted(typed.given), "wrong": sorted(half.wrong),
        "is_quick": half.is_quick,
    }  # fmt: skip


def _half(kept: dict[str, Any], sheet: Sheet) -> HalfMarked:
    """Raises ValueError, TypeError or LookupError for what no version wrote."""
    tasks = range(len(sheet.tasks))
    texts = {(_one_of(tasks, at), Field(of)): _typed(text) for at, of, text in kept["texts"]}
    given = {_one_of(tasks, at) for at in kept["given"]}
    wrong = {_one_of(tasks, number - 1) + 1 for number in kept["wrong"]}
    typed = TypedIn(sheet, at=_one_of(tasks, kept["at"]), given=given, texts=texts)
    return HalfMarked(typed, wrong, bool(kept["is_quick"]))


def _one_of(tasks: range, at: Any) -> int:
    return tasks[tasks.index(at)]


def _typed(text: Any) -> str:
    if not _TYPED.fullmatch(text):
        raise ValueError("not what was typed")
    return str(text)

"""What was chosen to practise, as plain values and back."""

from collections.abc import Mapping, Sequence
from dataclasses import asdict, replace
from typing import Any, TypeVar

from frame.practice.choices import CALL_PACES, MOST_BY, Choices, Sight
from frame.practice.columns import MOST_CALLED_DIGITS, MOST_DIGITS, MOST_ROWS
from frame.practice.families import Family
from frame.practice.flashing import FlashSetting
from frame.practice.rungs import Asked, Rung

Part = TypeVar("Part")

_ON_OFF = (False, True)
_BY_LADDER_OR_DIGITS = (None, *range(1, MOST_DIGITS + 1))
_BY_LADDER_OR_ROWS = (None, *range(2, MOST_ROWS + 1))

_OF_BEADS: Mapping[str, Sequence[object]] = {
    "family": tuple(Family),
    "rung": (None, *Rung),
    "digits": _BY_LADDER_OR_DIGITS,
    "rows": _BY_LADDER_OR_ROWS,
    "by": range(1, MOST_BY + 1),
    "own": _ON_OFF,
}
_OF_CALLED: Mapping[str, Sequence[object]] = {
    "digits": (None, *range(1, MOST_CALLED_DIGITS + 1)),
    "rows": _BY_LADDER_OR_ROWS,
    "pace": (None, *CALL_PACES),
    "by_place": _ON_OFF,
    "minus": _ON_OFF,
    "sight": tuple(Sight),
}
_OF_FLASHED: Mapping[str, Sequence[object]] = {"minus": _ON_OFF, "own": _ON_OFF}
_KINDS_OF_SETTING: Mapping[str, Sequence[type]] = {
    "digits": (int,),
    "count": (int,),
    "interval": (int, float),
    "minus": (bool,),
}


def choices_to(choices: Choices) -> dict[str, Any]:
    """The choices as values that JSON has."""
    return asdict(choices)


def choices_from(kept: Mapping[str, Any]) -> Choices:
    """The inverse of `choices_to`; what is missing, unknown or out of range is as usual."""
    usual = _read(Choices(), kept, {"asked": tuple(Asked)})
    flashed = _read(usual.flashed, kept.get("flashed"), _OF_FLASHED)
    return replace(
        usual,
        beads=_read(usual.beads, kept.get("beads"), _OF_BEADS),
        called=_read(usual.called, kept.get("called"), _OF_CALLED),
        flashed=replace(flashed, setting=_setting(kept.get("flashed"))),
    )


def set_to(choices: Choices) -> dict[str, Any]:
    """What the choices ask for in their way of asking alone, as values that JSON has."""
    name = choices.part_name
    return {"asked": choices.asked.value, name: choices_to(choices)[name]}


def set_from(kept: Mapping[str, Any]) -> Choices | None:
    """The inverse of `set_to`; None where anything is unknown or out of range, since it would be
    another set."""
    choices = choices_from(kept)
    now, name = set_to(choices), choices.part_name
    part = kept.get(name)
    is_read = isinstance(part, Mapping) and part.items() <= now[name].items()
    is_whole = is_read and kept.get("asked") == now["asked"]
    return Choices().asking(choices) if is_whole else None


def _read(usual: Part, kept: object, allowed: Mapping[str, Sequence[object]]) -> Part:
    """The part with each value that was kept and is among those allowed for its name."""
    kept = kept if isinstance(kept, Mapping) else {}
    found = {
        name: next(value for value in values if value == kept[name])
        for name, values in allowed.items()
        if name in kept and kept[name] in values
    }
    return replace(usual, **found)  # type: ignore[type-var]


def _setting(kept: object) -> FlashSetting | None:
    kept = kept.get("setting") if isinstance(kept, Mapping) else None
    if not isinstance(kept, Mapping):
        return None
    if any(type(value) not in _KINDS_OF_SETTING.get(name, ()) for name, value in kept.items()):
        return None
    try:
        return FlashSetting(**kept)
    except (TypeError, ValueError):  # A value is missing, or out of range.
        return None

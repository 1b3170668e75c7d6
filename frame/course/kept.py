"""The board's plan as text to be kept: its items as an agenda has them, where each stood, and what
is shown beside the beads."""

import json
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from frame.course.agenda import Item, Task, read_agenda
from frame.course.shown import ItemStage, Standing
from frame.technique.beads import stroke_text
from frame.technique.expression import Sum
from frame.technique.plan import parse_strokes


@dataclass(frozen=True, slots=True)
class KeptPlan:
    """Where each item stood, which was shown, the names of the aids that were on, and how quick the
    play was."""

    standings: tuple[Standing, ...]
    at: int
    aids: frozenset[str]
    speed: float


def plan_to_json(plan: KeptPlan) -> str:
    """The plan as text. `plan_from_json` is its inverse."""
    kept = {
        "items": [_item_facts(one.item) for one in plan.standings],
        "standings": [_standing_facts(one) for one in plan.standings],
        "at": plan.at,
        "aids": sorted(plan.aids),
        "speed": plan.speed,
    }
    return json.dumps(kept, ensure_ascii=False)


def plan_from_json(text: str) -> KeptPlan | None:
    """The plan that was kept as this text, None where any of it is damaged."""
    try:
        kept = json.loads(text)
        items = [_item_of(facts) for facts in kept["items"]]
        standings = zip(items, kept["standings"], strict=True)
        return KeptPlan(
            tuple(_standing_of(item, facts) for item, facts in standings),
            _count(kept["at"]),
            frozenset(map(str, kept["aids"])),
            float(kept["speed"]),
        )
    except (ArithmeticError, AttributeError, LookupError, RecursionError, TypeError, ValueError):
        return None


def _item_facts(item: Item) -> dict[str, Any]:
    """An item as an agenda has it."""
    places = None if isinstance(item.sum, Sum) else item.sum.places
    facts = {
        item.act.value: str(item.sum).replace(" ", ""),
        "say": item.line or None,
        "pace": item.pace if item.act in (Task.CALL, Task.FLASH) else None,
        "rods": item.rods,
        "places": places,
        "trial": item.trial or None,
    }
    return {key: value for key, value in facts.items() if value is not None}


def _item_of(facts: Mapping[str, Any]) -> Item:
    """The item, checked as one of an agenda is. Raises ValueError."""
    text = json.dumps({"board": "kept", "items": [facts]}, ensure_ascii=False)
    agenda, problems = read_agenda(text, "")
    if agenda is None or problems or len(agenda.items) != 1:
        raise ValueError(text)
    return agenda.items[0]


def _standing_facts(standing: Standing) -> dict[str, Any]:
    return {
        "at": standing.at,
        "begin": standing.begin,
        "stage": standing.stage.value,
        "tried": " ".join(map(stroke_text, standing.tried)),
    }


def _standing_of(item: Item, facts: Mapping[str, Any]) -> Standing:
    at, begin = _count(facts["at"]), _count(facts["begin"])
    return Standing(item, at, begin, ItemStage(facts["stage"]), parse_strokes(facts["tried"]))


def _count(value: Any) -> int:
    """A number from 0 up. Raises ValueError."""
    if type(value) is not int or value < 0:
        raise ValueError(value)
    return value

"""What a learner attempted as statements of the Experience API, one a line.

Source: ADL, Experience API 1.0.3, part two, "Experience API Data": statements, interaction
activities and their response patterns. The verb and the types of activities are those that ADL
publishes. All other names are IRIs of a host that nobody can have (RFC 2606); no statement has the
name of the learner, and each has the id of its attempt, so that a record store takes it once.
"""

import json
import uuid
from collections.abc import Iterable
from typing import Any, TextIO
from urllib.parse import quote

from frame.learner.answered import Answered, answered
from frame.learner.ids import uuid_of
from frame.learner.learners import Learner
from frame.learner.rows import Past
from frame.learner.table import in_utc, strokes_in
from frame.technique.reading import plain

HOME = "https://bead-frame.example/"
_ADL = "http://adlnet.gov/expapi"
_VERB = {"id": f"{_ADL}/verbs/answered", "display": {"en": "answered"}}
_AND = "[,]"
"""Between the parts of a response."""

Json = dict[str, Any]


def write_statements(file: TextIO, attempts: Iterable[Past], learner: Learner) -> int:
    """A statement for each attempt goes to a file, one a line; how many those are."""
    count = 0
    for past in attempts:
        file.write(json.dumps(statement_of(past, learner)) + "\n")
        count += 1
    return count


def statement_of(past: Past, learner: Learner) -> Json:
    """The statement of an attempt."""
    asked = answered(past)
    return {
        "id": str(uuid_of(past.id) or uuid.uuid5(uuid.NAMESPACE_URL, _iri("attempts", past.id))),
        "actor": {"objectType": "Agent", "account": {"homePage": HOME, "name": learner.id}},
        "verb": _VERB,
        "object": _exercise(past, asked),
        "result": _result(past, asked),
        "context": _context(past),
        "timestamp": in_utc(past.at),
    }


def _iri(*parts: str) -> str:
    return HOME + "/".join(quote(part, safe="") for part in parts)


def _exercise(past: Past, asked: Answered) -> Json:
    """The exercise as an activity, which asks for a number, or for one and what is left over. The
    same exercise is always the same activity, but for one of which nobody can tell what is
    right."""
    definition: Json = {
        "type": f"{_ADL}/activities/cmi.interaction",
        "name": {"en": asked.printed},
        "interactionType": "fill-in" if asked.rest else "numeric",
    }
    kind = past.kind if past.decimals is None else f"{past.kind}-to-{past.decimals}"
    if asked.right is None:
        kind = f"{past.kind}-untold"
    else:
        parts = (asked.right, asked.rest) if asked.rest else (asked.right,)
        definition["correctResponsesPattern"] = [_AND.join(map(plain, parts))]
    return _activity("exercises", kind, past.exercise, definition=definition)


def _activity(*parts: str, definition: Json) -> Json:
    return {"objectType": "Activity", "id": _iri(*parts), "definition": definition}


def _result(past: Past, asked: Answered) -> Json:
    """How it went. One that was left is not completed, and neither right nor wrong."""
    ended: Json = {"success": past.right} if past.ended else {}
    if asked.given:
        ended["response"] = _AND.join(asked.given)
    return {
        "completion": past.ended,
        **ended,
        "duration": f"PT{past.seconds:.2f}S",
        "extensions": _extensions(
            unaided=past.unaided, outcome=past.outcome, answers=past.answers, slips=past.slips,
            helps=past.helps, looks=past.looks, strokes=strokes_in(past.log),
        ),
    }  # fmt: skip


def _context(past: Past) -> Json:
    """In which sitting and lesson it was, and how the exercise was asked."""
    sitting = uuid_of(past.sitting)
    lesson = _activity("lessons", past.lesson, definition={"type": f"{_ADL}/activities/lesson"})
    return {
        **({"registration": str(sitting)} if sitting else {}),
        "contextActivities": {"parent": [lesson]},
        "platform": "bead-frame",
        "extensions": _extensions(
            number=past.number, origin=past.origin, rung=past.rung, rods=past.rods,
            asked=past.asked, own=past.own, pace=past.pace, digits=past.digits, terms=past.terms,
            places=past.decimals, facts=sorted(past.facts),
        ),
    }  # fmt: skip


def _extensions(**facts: object) -> Json:
    """What the columns of the table of the same names hold, without what nobody knows."""
    return {f"{HOME}extensions/{name}": one for name, one in facts.items() if one is not None}

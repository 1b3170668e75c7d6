"""What a statement of the Experience API may hold, and must: rules for the parts that are used.

Source: ADL, Experience API 1.0.3, part two "Experience API Data", tables of sections 2.4 (Statement
Properties) and 4 (Special Data Types). Written from memory, for nothing is looked up at run time.
"""

import re
from collections.abc import Callable, Mapping
from datetime import datetime
from typing import Any

Rule = Callable[[Any], None]


def text(value: Any) -> None:
    assert isinstance(value, str), value


def yes_or_no(value: Any) -> None:
    assert isinstance(value, bool), value


def uuid(value: Any) -> None:
    """RFC 4122, in the canonical form."""
    pattern = "[0-9a-f]{8}-[0-9a-f]{4}-[1-5][0-9a-f]{3}-[89ab][0-9a-f]{3}-[0-9a-f]{12}"
    assert re.fullmatch(pattern, value), value


def iri(value: Any) -> None:
    """With a scheme, and what RFC 3987 has no place for spelt in per cent."""
    assert re.fullmatch(r'[a-z][a-z0-9+.-]*:[^\s<>"{}|\\^`]+', value), value
    assert not re.search("%(?![0-9A-F]{2})", value), value


def timestamp(value: Any) -> None:
    """ISO 8601, with a time zone."""
    assert re.fullmatch(r"\d{4}-\d\d-\d\dT\d\d:\d\d:\d\d(\.\d+)?(Z|[+-]\d\d:\d\d)", value), value
    assert datetime.fromisoformat(value).tzinfo


def duration(value: Any) -> None:
    """ISO 8601, to a hundredth of a second at most."""
    assert re.fullmatch(r"PT(\d+H)?(\d+M)?(\d+(\.\d{1,2})?S)?(?<!T)", value), value


def language_map(value: Any) -> None:
    assert isinstance(value, dict) and value
    for language, words in value.items():
        assert re.fullmatch("[a-z]{2,3}(-[A-Za-z0-9]+)*", language), language
        text(words)


def extensions(value: Any) -> None:
    """Any JSON under IRIs."""
    assert isinstance(value, dict)
    for key in value:
        iri(key)


def one_of(*values: str) -> Rule:
    def rule(value: Any) -> None:
        assert value in values, value

    return rule


def several(each: Rule) -> Rule:
    def rule(value: Any) -> None:
        assert isinstance(value, list)
        for one in value:
            each(one)

    return rule


def having(needed: Mapping[str, Rule], free: Mapping[str, Rule] | None = None) -> Rule:
    """An object with these properties and no others; none of them is null."""

    def rule(value: Any) -> None:
        rules = {**needed, **(free or {})}
        assert isinstance(value, dict)
        assert needed.keys() <= value.keys() <= rules.keys(), value.keys()
        for key, one in value.items():
            rules[key](one)

    return rule


INTERACTIONS = (
    "true-false", "choice", "fill-in", "long-fill-in", "matching", "performance", "sequencing",
    "likert", "numeric", "other",
)  # fmt: skip
definition = having(
    {},
    {
        "name": language_map,
        "description": language_map,
        "type": iri,
        "extensions": extensions,
        "interactionType": one_of(*INTERACTIONS),
        "correctResponsesPattern": several(text),
    },
)
activity = having({"id": iri}, {"objectType": one_of("Activity"), "definition": definition})
account = having({"homePage": iri, "name": text})
agent = having({"account": account}, {"objectType": one_of("Agent"), "name": text})
"""By one of the inverse functional identifiers; here it is the account."""
verb = having({"id": iri}, {"display": language_map})
result = having(
    {},
    {
        "success": yes_or_no,
        "completion": yes_or_no,
        "response": text,
        "duration": duration,
        "extensions": extensions,
    },
)
parents = having({}, {"parent": several(activity)})
context = having(
    {},
    {
        "registration": uuid,
        "contextActivities": parents,
        "platform": text,
        "language": text,
        "extensions": extensions,
    },
)
_statement = having(
    {"actor": agent, "verb": verb, "object": activity},
    {"id": uuid, "result": result, "context": context, "timestamp": timestamp},
)

_NUMBER = r"-?\d+(\.\d+)?"


def statement(value: Any) -> None:
    """A whole statement, whose patterns of right responses are as their interaction has them."""
    _statement(value)
    defined = value["object"]["definition"]
    assert defined["type"] == "http://adlnet.gov/expapi/activities/cmi.interaction"
    parts = {"numeric": _NUMBER, "fill-in": rf"{_NUMBER}\[,\]{_NUMBER}"}
    for pattern in defined.get("correctResponsesPattern", ()):
        assert re.fullmatch(parts[defined["interactionType"]], pattern), pattern

"""What a learner attempted as statements of the Experience API: by its rules, and stable."""

import copy
import json
from collections.abc import Iterator
from contextlib import closing
from pathlib import Path
from typing import Any
from uuid import UUID

import pytest
import xapi_rules
from hypothesis import given
from kept import added
from test_answered import DONE
from test_exporting import ALL, EXERCISES, attempt, tried
from told_attempt import TOLD, WHOSE

from frame.learner.exporting import export
from frame.learner.learners import Learner
from frame.learner.statements import HOME, statement_of
from frame.learner.store import Store

OTTER = Learner("0123456789ab4def8123456789abcdef", "Otter", "otter")
SITTING = "fedcba98765443218fedcba987654321"


def told(**facts: Any) -> dict[str, Any]:
    """The statement of an attempt with these facts."""
    return statement_of(DONE._replace(id=OTTER.id, sitting=SITTING, **facts), OTTER)


def written(store: Store, learner: Learner, path: Path) -> list[dict[str, Any]]:
    count = export(store, path, learner, is_xapi=True)
    lines = path.read_text("ascii").splitlines()
    assert len(lines) == count
    return [json.loads(line) for line in lines]


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return tmp_path_factory.mktemp("statements")


@given(ALL)
def test_every_attempt_is_a_statement_by_the_rules(folder: Path, attempts: list[Any]) -> None:
    path = folder / "one.jsonl"
    path.unlink(missing_ok=True)
    with closing(Store(None)) as store:
        otter = added(store, "Otter")
        tried(store, otter, *attempts)
        found = written(store, otter, path)
        past = store.past(otter)
    assert len(found) == len(past) == len(attempts)
    for one, attempted in zip(found, past, strict=True):
        xapi_rules.statement(one)
        assert UUID(one["id"]).hex == attempted.id
        assert UUID(one["context"]["registration"]).hex == attempted.sitting
        assert one["result"]["completion"] is attempted.ended
        assert one["result"].get("success") is (attempted.right if attempted.ended else None)
        assert one["actor"]["account"] == {"homePage": HOME, "name": otter.id}


def test_a_statement_is_word_for_word_the_one_that_is_told() -> None:
    """Its keys in their order, too: what a record store was given once is given it again."""
    shown = Path(__file__).with_name("statement.json").read_text("ascii")
    assert json.dumps(statement_of(TOLD, WHOSE)) == json.dumps(json.loads(shown))


def places(value: Any) -> Iterator[tuple[Any, Any]]:
    """Every place in a JSON value, as what holds it and the key there; within extensions anything
    may stand."""
    items = value.items() if isinstance(value, dict) else enumerate(value)
    for key, one in items:
        yield value, key
        if isinstance(one, dict | list) and key != "extensions":
            yield from places(one)


def test_the_rules_refuse_a_statement_that_breaks_one() -> None:
    whole = told(exercise="17 / 5", facts=frozenset({"remainder"}), answers=("3", "2"))
    xapi_rules.statement(whole)
    for number in range(len(list(places(whole)))):
        other = copy.deepcopy(whole)
        holder, key = list(places(other))[number]
        holder[key] = None
        with pytest.raises((AssertionError, TypeError)):
            xapi_rules.statement(other)
    for name in ("actor", "verb", "object"):
        with pytest.raises(AssertionError):
            xapi_rules.statement({key: one for key, one in whole.items() if key != name})
    with pytest.raises(AssertionError):
        xapi_rules.statement({**whole, "nets": 1})


def test_a_sum_that_was_answered() -> None:
    assert told(answers=("75", "85"), slips=("wrong-answer",), unaided=False, outcome="right") == {
        "id": str(UUID(OTTER.id)),
        "actor": {
            "objectType": "Agent",
            "account": {"homePage": "https://bead-frame.example/", "name": OTTER.id},
        },
        "verb": {"id": "http://adlnet.gov/expapi/verbs/answered", "display": {"en": "answered"}},
        "object": {
            "objectType": "Activity",
            "id": "https://bead-frame.example/exercises/sum/38%20%2B%2047",
            "definition": {
                "type": "http://adlnet.gov/expapi/activities/cmi.interaction",
                "name": {"en": "38 + 47"},
                "interactionType": "numeric",
                "correctResponsesPattern": ["85"],
            },
        },
        "result": {
            "completion": True,
            "success": True,
            "response": "85",
            "duration": "PT4.50S",
            "extensions": {
                f"{HOME}extensions/unaided": False,
                f"{HOME}extensions/outcome": "right",
                f"{HOME}extensions/answers": ("75", "85"),
                f"{HOME}extensions/slips": ("wrong-answer",),
                f"{HOME}extensions/helps": 0,
                f"{HOME}extensions/looks": 0,
            },
        },
        "context": {
            "registration": str(UUID(SITTING)),
            "contextActivities": {
                "parent": [
                    {
                        "objectType": "Activity",
                        "id": "https://bead-frame.example/lessons/quay-1",
                        "definition": {"type": "http://adlnet.gov/expapi/activities/lesson"},
                    }
                ]
            },
            "platform": "bead-frame",
            "extensions": {
                f"{HOME}extensions/number": 1,
                f"{HOME}extensions/origin": "set",
                f"{HOME}extensions/rung": "alone",
                f"{HOME}extensions/rods": 15,
                f"{HOME}extensions/asked": "shown",
                f"{HOME}extensions/own": False,
                f"{HOME}extensions/pace": 0.0,
                f"{HOME}extensions/digits": 2,
                f"{HOME}extensions/terms": 2,
                f"{HOME}extensions/facts": [],
            },
        },
        "timestamp": "2026-05-04T09:30:00Z",
    }


@pytest.mark.parametrize(
    ("facts", "kind", "pattern", "response"),
    [
        ({"exercise": "5 - 8", "answers": ("-3",)}, "numeric", ["-3"], "-3"),
        ({"exercise": "17 / 5"}, "fill-in", ["3[,]2"], None),
        ({"exercise": "10 / 3", "places": 1, "answers": ("3.2",)}, "numeric", ["3.3"], "3.2"),
        (
            {"exercise": "17 / 5", "own": True, "answers": ("3", "1")},
            "fill-in", ["3[,]2"], "3[,]1",
        ),
        (
            {"exercise": "10 / 3", "places": -1, "facts": {"round"}, "answers": ("3.3",)},
            "numeric", None, "3.3",
        ),
        ({"exercise": "15 / 5"}, "numeric", ["3"], None),
        ({"answers": ("75",), "ended": False}, "numeric", ["85"], None),
    ],
)  # fmt: skip
def test_what_is_right_and_what_was_given(
    facts: dict[str, Any], kind: str, pattern: list[str] | None, response: str | None
) -> None:
    one = told(**{**facts, "facts": frozenset(facts.get("facts", ()))})
    definition = one["object"]["definition"]
    assert definition["interactionType"] == kind
    assert definition.get("correctResponsesPattern") == pattern
    assert one["result"].get("response") == response
    xapi_rules.statement(one)


def test_one_exercise_is_always_the_same_activity() -> None:
    """However it was asked, worked and rounded."""
    found: dict[str, Any] = {}
    for exercise in ("10 / 4", "-5 + 8", "2.5 x 3"):
        for places in (-1, None, 0, 1, 2):
            for rung in ("alone", "number only"):
                for kind in ("sum", "read"):
                    one = told(exercise=exercise, places=places, rung=rung, kind=kind)
                    there = found.setdefault(one["object"]["id"], one["object"])
                    assert there == one["object"]
    assert len(found) == 2 * (5 + 2 + 4)


def test_a_second_export_says_the_same_and_no_name(tmp_path: Path) -> None:
    with closing(Store(tmp_path / "here" / "learners.sqlite")) as store:
        otter = added(store, "Otter of the quay")
        tried(store, otter, *map(attempt, EXERCISES))
        one, other = (written(store, otter, tmp_path / f"{name}.jsonl") for name in "ab")
    assert one == other and len({statement["id"] for statement in one}) == len(EXERCISES)
    assert "quay" not in json.dumps(one)


def test_an_id_that_is_no_uuid_gives_one_all_the_same() -> None:
    names = ("a", "b", "0" * 32, "f" * 32, "9d3c2b1a0f4e0d5c8b6a79685746352f")
    found = [statement_of(DONE._replace(id=name, sitting=name), OTTER) for name in names]
    for one in found:
        xapi_rules.statement(one)
        assert "registration" not in one["context"]
    assert len({one["id"] for one in found}) == len(names)
    assert found[0]["id"] == statement_of(DONE._replace(id="a"), OTTER)["id"]

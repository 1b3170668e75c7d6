"""A paper that was left is found as it was, paused; a text that is none is no paper."""

import json
from datetime import UTC, datetime

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.course.paper import Paper
from frame.learner.paper_left import paper_from, paper_to
from frame.sheets.papers import paper
from frame.sheets.recipe import Kind, Recipe

SHEET = paper(Recipe(kind=Kind.PAPER, grade="kyu-9"))
COUNT = len(SHEET.tasks)
BEGAN = datetime(2026, 5, 4, 9, 30, tzinfo=UTC)
DEEDS = st.lists(
    st.one_of(
        st.tuples(st.just("type"), st.sampled_from("0123456789-")),
        st.tuples(st.just("go"), st.integers(0, COUNT - 1)),
        st.tuples(st.just("pause"), st.just(None)),
        st.tuples(st.just("go_on"), st.just(None)),
    ),
    max_size=30,
)


def done(deeds):
    under_way, now = Paper.begun(SHEET, BEGAN, 0.0, is_clocked=True), 0.0
    for deed, what in deeds:
        now += 70
        match deed:
            case "type":
                under_way = under_way.type(what, now)
            case "go":
                under_way = under_way.go(what)
            case _:
                under_way = getattr(under_way, deed)(now)
    return under_way, now


@given(DEEDS, st.floats(0, 1e6))
def test_it_is_found_as_it_was_and_paused(deeds, later):
    under_way, now = done(deeds)
    found = paper_from(paper_to(under_way, now), later)
    held = under_way.pause(now)
    assert found is not None and found.is_paused
    assert (found.sheet, found.began, found.at) == (SHEET, BEGAN, held.at)
    assert (found.texts, found.in_time) == (held.texts, held.in_time)
    assert found.seconds(later + 500) == pytest.approx(under_way.seconds(now))
    assert found.pauses == held.pauses
    assert found.hand_in(later).marked == under_way.hand_in(now).marked


@given(st.text() | st.builds(json.dumps, st.recursive(st.none() | st.integers(), st.lists)))
def test_any_other_text_is_no_paper(text):
    assert paper_from(text, 0.0) is None


@pytest.mark.parametrize(
    ("name", "value"),
    [
        ("code", "1400-43M8-GNQ"), ("code", 7), ("began", "2026-05-04T09:30:00"), ("began", None),
        ("texts", ["1"]), ("texts", ["x"] * COUNT), ("texts", [1] * COUNT),
        ("in_time", ["1" * 40] * COUNT), ("in_time", None), ("at", COUNT), ("at", -1),
        ("worked", -1), ("worked", float("nan")), ("worked", float("inf")), ("paused", "long"),
        ("pauses", None),
    ],
)  # fmt: skip
def test_what_no_version_wrote_is_no_paper(name, value):
    kept = json.loads(paper_to(done(())[0], 0.0))
    assert paper_from(json.dumps(kept), 0.0) is not None
    assert paper_from(json.dumps({**kept, name: value}), 0.0) is None

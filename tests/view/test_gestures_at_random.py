"""Gestures: whatever the fingers do, every pose is possible and every move legal."""

import random
from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from poses import is_possible

from frame.technique.beads import Frame
from frame.view.geometry import Layout
from frame.view.gestures import Hands, Strokes, Wipe

LAYOUT = Layout.fit((40, 30, 900, 400), 5, 4)


def hands_on(digits: str) -> Hands:
    return Hands(LAYOUT, Frame(digits, len(digits) - 1))


def act(hands: Hands, action: str, finger: int, point: tuple[float, float], now: float) -> list:
    if action == "cancel":
        hands.cancel()
        return []
    return {"press": hands.press, "drag": hands.drag, "release": hands.release}[action](
        finger, point, now
    )


def play(hands: Hands, events: list) -> None:
    """Asserts, as the screen would keep each bead, that pose and moves are always possible."""
    for event in events:
        assert is_possible(hands.pose)
        if isinstance(event, Strokes):
            assert is_possible(event.pose)
            hands.frame = hands.frame.apply_all(event.stroke)
        elif isinstance(event, Wipe):
            assert all(map(hands.frame.has, event.rods))
            hands.frame = Frame.cleared(len(hands.frame.digits), hands.frame.units)
    assert is_possible(hands.pose)


steps = st.lists(
    st.tuples(
        st.sampled_from(["press", "drag", "drag", "release", "cancel"]),
        st.integers(1, 3),
        st.tuples(st.floats(0, 1000), st.floats(0, 460)),
        st.floats(0, 0.3),
    ),
    max_size=60,
)


@settings(max_examples=60)
@given(st.integers(0, 99999), steps)
def test_every_move_is_legal_and_every_pose_possible(number, script):
    hands, now = hands_on(f"{number:05}"), 0.0
    for action, finger, point, pause in script:
        now += pause
        play(hands, act(hands, action, finger, point, now))


def run_at_random(count: int, seed: int) -> Counter[str]:
    """Plays so many random events, long drags and small ones; counts what came of them."""
    chance, made, now = random.Random(seed), Counter(), 0.0
    hands, at, down = hands_on("13579"), dict.fromkeys((1, 2, 3), (500.0, 230.0)), set()
    for _ in range(count):
        finger, now = chance.choice([1, 1, 2, 3]), now + chance.choice([0.01, 0.04, 0.1, 0.3])
        likely = "press" if finger not in down else chance.choice(["drag", "release"])
        action = chance.choice([likely] * 8 + ["press", "release"])
        down = down - {finger} if action == "release" else down | {finger}
        x, y = at[chance.choice([1, finger])]
        reach_x, reach_y = chance.choice([(3, 3), (3, 3), (9, 400), (600, 9), (600, 400)])
        x, y = x + chance.uniform(-reach_x, reach_x), y + chance.uniform(-reach_y, reach_y)
        at[finger] = min(max(x, 60), 920), min(max(y, 30), 430)
        events = act(hands, action, finger, at[finger], now)
        play(hands, events)
        made.update(type(event).__name__ for event in events)
        made["pinch"] += any(isinstance(e, Strokes) and len(e.stroke) == 2 for e in events)
    return made


def test_twenty_thousand_random_events():
    made = run_at_random(20_000, seed=5)
    assert made["Strokes"] > 600 and all(made[kind] for kind in ("Settles", "Wipe", "pinch"))


@pytest.mark.proof
def test_two_hundred_thousand_random_events():
    made = run_at_random(200_000, seed=6)
    assert made["Strokes"] > 6_000 and all(made[kind] for kind in ("Settles", "Wipe", "pinch"))

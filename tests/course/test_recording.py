"""The pace at which lines are recorded, with an engine that only takes time."""

import importlib.util
import sys
from types import ModuleType

import numpy as np
import pytest

from frame.language.speech import PLAIN, RATE
from frame.resources import ASSETS


@pytest.fixture(scope="module")
def render() -> ModuleType:
    path = ASSETS / "voice" / "render.py"
    spec = importlib.util.spec_from_file_location("render", path)
    assert spec is not None and spec.loader is not None
    module = importlib.util.module_from_spec(spec)
    sys.modules["render"] = module
    spec.loader.exec_module(module)
    return module


class Engine:
    """Takes so many seconds a word at its usual speed."""

    def __init__(self, seconds: float) -> None:
        self.seconds, self.paces = seconds, list[float]()

    def __call__(self, text: str, speed: float, seed: int) -> np.ndarray:
        self.paces.append(speed)
        count = round(self.seconds * len(text.split()) / speed * RATE)
        return np.sin(np.arange(count, dtype=np.float32))


def rate(wave: np.ndarray, text: str) -> float:
    return 60 * RATE * len(text.split()) / len(wave)


SENTENCE, WORD = "Four gulls sit on the quay.", "Watch."


@pytest.mark.parametrize("seconds", [0.26, 0.3, 0.35, 0.4])
def test_a_quick_sentence_comes_near_the_calm_rate(render: ModuleType, seconds: float) -> None:
    wave = render.calmly(Engine(seconds), SENTENCE)
    assert rate(wave, SENTENCE) == pytest.approx(render.CALM, rel=render.CALM_NEAR)


@pytest.mark.parametrize(
    "text, seconds, slowest", [(SENTENCE, 0.1, "SLOWEST"), (WORD, 0.1, "SLOWEST_SHORT")]
)
def test_the_engine_is_never_set_slower_than_may_be(
    render: ModuleType, text: str, seconds: float, slowest: str
) -> None:
    engine = Engine(seconds)
    render.calmly(engine, text)
    assert engine.paces[-1] == min(engine.paces) == getattr(render, slowest)


def test_what_is_slow_by_itself_stays_as_it_is(render: ModuleType) -> None:
    engine = Engine(0.6)
    render.calmly(engine, SENTENCE)
    assert engine.paces == [render.PACE[PLAIN]]


def test_only_sentences_for_the_young_are_spoken_calmly(render: ModuleType) -> None:
    for sprite in render.wanted_sprites(PLAIN):
        if sprite.name.startswith("plain-number-"):
            assert not sprite.calm
    named = {sprite.name: sprite for sprite in render.wanted_sprites(PLAIN)}
    assert named["plain-lesson-beads-1.ogg"].calm
    assert not any(sprite.calm for name, sprite in named.items() if "settings" in name)
    assert not any(sprite.calm for sprite in render.wanted_sprites(render.QUICK))

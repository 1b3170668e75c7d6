"""No input ends in an error but the documented ones, or takes over a second or 200 MB."""

import importlib.util
import os
import subprocess
import sys
from pathlib import Path
from random import Random

import pytest
from mutations import changed, shortest
from targets import TARGETS
from trying import CAN_MEASURE, Trials

SOME, ALL = 150, 100_000

GREEDY = """
from trying import Trials

def run(data):
    kept = bytearray(int(data) << 20)
    while not kept:
        pass
    return "read"

trials = Trials(run, endless=0.2)
for data in (b"1", b"250", b"0"):
    trials.take(data)
print(*trials.ends.items(), *trials.failed, sep="\\n")
"""


@pytest.mark.parametrize("name", TARGETS)
def test_sound_inputs_and_a_few_changed_ones(name):
    target, random = TARGETS[name], Random(1)
    seeds, trials = target.seeds(), Trials(target.run)
    for data in seeds[::3] if len(seeds) > 100 else seeds:
        trials.take(data)
    sound = set(trials.ends)
    for _ in range(SOME):
        trials.take(changed(random.choice(seeds), seeds, target.pieces, random))
    assert trials.shrunk() == {}
    assert len(sound) > 1, "the sound inputs come to more than one end"
    assert trials.count >= SOME


@pytest.mark.proof
@pytest.mark.skipif(
    importlib.util.find_spec("atheris") is None, reason="python -m pip install -e '.[fuzz]'"
)
@pytest.mark.parametrize("name", TARGETS)
def test_a_hundred_thousand_inputs_led_by_what_code_they_reach(name):
    command = [sys.executable, str(Path(__file__).with_name("fuzz.py")), name, str(ALL)]
    done = subprocess.run(
        command, env={**os.environ, "PYTHONHASHSEED": "0"}, capture_output=True, text=True
    )
    print(done.stdout)
    assert done.returncode == 0, done.stdout + done.stderr[-2000:]
    assert f"{name}: {ALL} inputs" in done.stdout


def test_what_ends_in_an_error_is_told_with_the_shortest_input():
    def run(data):
        if b"7" in data and b"x" in data:
            raise ValueError(data)
        return "read"

    trials = Trials(run)
    for data in (b"12 + 3", b"12 +\n 7 x 3\n4", b"1 + 7\n 7 x 3 - 7 x 7\n"):
        trials.take(data)
    assert trials.ends == {"read": 1, "ValueError": 2}
    assert list(trials.shrunk().values()) == [b"7x"]


@pytest.mark.skipif(not CAN_MEASURE, reason="measured on Linux alone")
def test_what_takes_too_much_memory_or_never_ends_is_told():
    command = [sys.executable, "-c", GREEDY]
    done = subprocess.run(command, cwd=Path(__file__).parent, capture_output=True, text=True)
    told = [
        "('read', 1)",
        "('GreedyError', 1)",
        "('EndlessError', 1)",
        "GreedyError",
        "EndlessError",
    ]
    assert done.stdout.splitlines() == told, done.stderr


def test_changes_are_the_same_for_the_same_seed():
    seeds = TARGETS["plans"].seeds()
    pieces = TARGETS["plans"].pieces

    def some():
        random = Random(4)
        return [changed(seeds[0], seeds, pieces, random) for _ in range(100)]

    assert some() == some() and len(set(some())) > 60


def test_nothing_is_left_that_can_be_left_out():
    for wanted in (b"a", b"7\n8", b"\xff0"):
        text = b"a line\n12 7\n8\n\xff0 end\n"
        assert shortest(text, lambda data, wanted=wanted: wanted in data) == wanted

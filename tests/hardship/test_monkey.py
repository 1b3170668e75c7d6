"""A monkey over every screen: whatever it does, nothing breaks, and Esc leads home."""

import sys
from random import Random

import pytest
from chance import events
from monkey import STARTS, as_program, drawn, play, shortest

from frame.screens.choosing.free import FreeFrame

EVENTS = 300
"""In a run."""
RUNS = 1000
SHARES = 20
ALL = [pytest.param(range(one, RUNS, SHARES), marks=pytest.mark.proof) for one in range(SHARES)]
SOME = [pytest.param(range(RUNS + one, RUNS + one + 1)) for one in range(2)]


@pytest.mark.parametrize("seeds", [*SOME, *ALL], ids=str)
def test_whatever_a_monkey_does_nothing_breaks_and_esc_leads_home(seeds):
    for seed in seeds:
        start, drawn_events = drawn(seed, EVENTS)
        fault = play(start, drawn_events)
        if fault is not None:
            fewest = shortest(start, drawn_events, fault)
            trace = play(start, fewest).trace
            pytest.fail(f"{trace}\n{as_program(start, fewest)}", pytrace=False)
    # To the error stream: pytest-xdist shows no other one with -s.
    print(f"{EVENTS * len(seeds)} events in {len(seeds)} runs", file=sys.stderr)


def test_a_thousand_runs_start_everywhere():
    assert {drawn(seed, 0)[0] for seed in range(RUNS)} == set(STARTS)


@pytest.fixture
def broken(monkeypatch):
    """A free frame on which nothing can be undone once it has other rods than it came with."""
    undo = FreeFrame.undo

    def undone(screen):
        assert screen.rods == 13, "no way back"
        undo(screen)

    monkeypatch.setattr(FreeFrame, "undo", undone)


def test_a_fault_is_told_by_as_few_events_as_lead_to_it(broken, capsys):
    draws = (events(Random(seed), 60) for seed in range(60))
    many, fault = next((many, fault) for many in draws if (fault := play("free", many)))
    assert "no way back" in fault.trace
    few = shortest("free", many, fault)
    assert not any(play("free", [*few[:at], *few[at + 1 :]]) for at in range(len(few)))
    exec(as_program("free", few))
    assert "no way back" in capsys.readouterr().out

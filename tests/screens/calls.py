"""A called sum, and waiting for what comes in it."""

from frame.course.runner import Stage
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Asked, Rung
from frame.technique.expression import parse_sum

COLUMN = "34 + 23 - 12"


def called(text=COLUMN, rung=Rung.ALONE, **more):
    return Exercise(Kind.SUM, parse_sum(text), rung, 2, asked=Asked.CALLED, pace=1.5, **more)


def until_called(pilot):
    for _ in range(100):
        if pilot.screen.calling is not None and pilot.screen.calling.has_begun:
            return
        pilot.wait(0.05, 1)
    raise AssertionError("no call begins")


def until_number(pilot, index):
    for _ in range(1000):
        if pilot.screen.calling.number(pilot.clock) == index:
            return
        pilot.wait(0.05, 1)
    raise AssertionError(f"number {index} is not called")


def to_the_answer(pilot):
    for _ in range(600):
        if pilot.screen.runner.stage is Stage.ANSWER:
            return
        pilot.wait(0.1, 1)
    raise AssertionError("the answer is never waited for")

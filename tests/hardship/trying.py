"""One input after another given to a target: how each ended, how long it took and how much memory;
what failed is kept, the shortest of each kind."""

import signal
import time
import traceback
from collections import Counter
from collections.abc import Callable
from dataclasses import dataclass, field
from pathlib import Path
from types import FrameType

from mutations import shortest

MOST_SECONDS = 1.0
"""Of the processor, for one input."""
MOST_BYTES = 200 * 1024 * 1024
"""By which one input may raise the most memory that the process ever had."""
ENDLESS = 10.0
"""Seconds of the processor after which an input is given up."""


class EndlessError(Exception):
    """An input takes too long to wait for."""


class GreedyError(Exception):
    """An input took more time or memory than it may."""


_STATUS = Path("/proc/self/status")
CAN_MEASURE = _STATUS.exists() and hasattr(signal, "setitimer")
"""Whether memory is measured and what never ends is given up: on Linux alone."""


def memory() -> int:
    """The most bytes that this process has had at once, 0 where that is not told. (What getrusage
    tells is that of the process which started this one, where that was more.)"""
    if not CAN_MEASURE:
        return 0
    return int(_STATUS.read_text().partition("VmHWM:")[2].split()[0]) * 1024


def _allow(seconds: float) -> None:
    """Give up what takes longer, from now on; 0 allows everything."""
    if CAN_MEASURE:
        signal.signal(signal.SIGVTALRM, _give_up)
        signal.setitimer(signal.ITIMER_VIRTUAL, seconds)


def _give_up(number: int, frame: FrameType | None) -> None:
    raise EndlessError


def kind(error: BaseException) -> str:
    """An error by its name and the line that raised it: equal for the same defect."""
    last = traceback.extract_tb(error.__traceback__)[-1]
    place = (
        "" if isinstance(error, GreedyError | EndlessError) else f" {last.filename}:{last.lineno}"
    )
    return type(error).__name__ + place


@dataclass
class Trials:
    """What became of the inputs that were given to `run`."""

    run: Callable[[bytes], str]
    endless: float = ENDLESS
    ends: Counter[str] = field(default_factory=Counter)
    slowest: tuple[float, bytes] = (0.0, b"")
    failed: dict[str, bytes] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.began_with = memory()

    @property
    def count(self) -> int:
        """How many inputs there were."""
        return self.ends.total()

    @property
    def grown(self) -> int:
        """By how many bytes the memory grew, from the first input on: no input took more."""
        return memory() - self.began_with

    def take(self, data: bytes) -> None:
        """Try one input."""
        error = self._error(data)
        if error is None:
            return
        self.ends[type(error).__name__] += 1
        before = self.failed.get(kind(error))
        if before is None or len(data) < len(before):
            self.failed[kind(error)] = data

    def _error(self, data: bytes) -> Exception | None:
        """What ends the input other than it should, counted where nothing does."""
        before, start = memory(), time.process_time()
        _allow(self.endless)
        try:
            end = self.run(data)
            seconds, grown = time.process_time() - start, memory() - before
            self.slowest = max(self.slowest, (seconds, data))
            if seconds > MOST_SECONDS or grown > MOST_BYTES:
                raise GreedyError(f"{seconds:.2f} s, {grown >> 20} MB")
        except Exception as error:
            return error
        finally:
            _allow(0)
        self.ends[end] += 1
        return None

    def shrunk(self) -> dict[str, bytes]:
        """For each kind of failure the shortest input that was found to fail in the same way."""
        probe = Trials(self.run)

        def fails(data: bytes, wanted: str) -> bool:
            error = probe._error(data)
            return error is not None and kind(error) == wanted

        return {
            name: shortest(data, lambda one, name=name: fails(one, name))
            for name, data in self.failed.items()
        }

    def told(self) -> str:
        """The figures on one line."""
        ends = ", ".join(f"{end} {count}" for end, count in sorted(self.ends.items()))
        seconds, _ = self.slowest
        return f"{self.count} inputs: {ends}; slowest {seconds:.2f} s, {self.grown >> 20} MB"

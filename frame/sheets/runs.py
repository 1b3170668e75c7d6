"""Published runs of flashed and of called numbers, with where each is from."""

from dataclasses import dataclass
from functools import cache
from pathlib import Path

from frame.practice.rungs import Asked
from frame.resources import RUNS
from frame.sheets.sheet import Way
from frame.sheets.table import Range, Table


@dataclass(frozen=True, slots=True, kw_only=True)
class PublishedRun:
    """Runs of one kind: as many numbers as one of `counts`, with so many `digits` each. All numbers
    of a run together take so many `seconds`, and `right` of so many `tries` are enough; 0 where
    nothing is published of it."""

    id: str
    asked: Asked
    way: Way
    digits: Range
    counts: tuple[int, ...]
    seconds: int
    tries: int
    right: int
    source: str


@cache
def published_runs() -> dict[str, PublishedRun]:
    """All of them by their ids."""
    return load_runs(RUNS)


def load_runs(path: Path) -> dict[str, PublishedRun]:
    """The runs of a file. Raises TableError, which names the place."""
    file = Table.of_file(path)
    file.only("run")
    return {name: _run(name, row) for name, row in file.named("run")}


def _run(name: str, row: Table) -> PublishedRun:
    row.only("asked", "way", "digits", "counts", "seconds", "tries", "right", "source")
    run = PublishedRun(
        id=name,
        asked=row.name("asked", Asked),
        way=row.name("way", Way),
        digits=row.range("digits"),
        counts=row.numbers("counts"),
        seconds=row.number("seconds", 0),
        tries=row.number("tries", 0),
        right=row.number("right", 0),
        source=row.text("source"),
    )
    if run.right > run.tries:
        raise row.error("is more than tries", "right")
    return run

"""Processes that a test starts, and ends with it."""

import os
import subprocess
from collections.abc import Iterator
from contextlib import contextmanager


@contextmanager
def running(
    *command: str, stderr: int = subprocess.DEVNULL, **environment: str
) -> Iterator[subprocess.Popen[str]]:
    """A process with these variables added to its surroundings."""
    process = subprocess.Popen(
        command, stdin=subprocess.PIPE, stdout=subprocess.PIPE, stderr=stderr,
        text=True, env={**os.environ, **environment},
    )  # fmt: skip
    try:
        yield process
    finally:
        process.terminate()
        process.communicate()

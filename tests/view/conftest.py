"""A screen for tests that need a real one."""

from collections.abc import Iterator

import pytest
from processes import running


@pytest.fixture(scope="module")
def display() -> Iterator[str]:
    """The name of an X display of its own, on a number that the server itself finds free."""
    server = ["Xvfb", "-displayfd", "1", "-screen", "0", "640x480x24", "-nolisten", "tcp"]
    with running(*server) as process:
        assert process.stdout is not None
        yield f":{process.stdout.readline().strip()}"

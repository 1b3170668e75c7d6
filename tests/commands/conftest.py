"""What the tests of the commands share: the JSON that a command answers, and whose file it is."""

import io
import json
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from frame.cli import main


@pytest.fixture
def path(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The file of a user whose folder this is."""
    monkeypatch.setattr("frame.screens.start.data_folder", lambda: tmp_path / "bead-frame")
    return tmp_path / "bead-frame" / "learners.sqlite"


@pytest.fixture
def asked(capsys: pytest.CaptureFixture[str]) -> Callable[..., Any]:
    """Asks a command with --json: `asked("explain", "3 + 4", status=0)` gives its answer."""

    def ask(*arguments: str, status: int = 0) -> Any:
        assert main([*arguments, "--json"]) == status
        out, err = capsys.readouterr()
        assert err == ""
        return json.loads(out)

    return ask


@pytest.fixture
def streamed(
    capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> Callable[[str, bytes], list[Any]]:
    """Streams lines through a command: the objects it answers, and its exit status last."""

    def stream(command: str, lines: bytes) -> list[Any]:
        monkeypatch.setattr("sys.stdin", io.TextIOWrapper(io.BytesIO(lines)))
        status = main([command, "-"])
        out, err = capsys.readouterr()
        assert err == ""
        return [*map(json.loads, out.splitlines()), status]

    return stream

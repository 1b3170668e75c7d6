"""Sheets and reports where the disk is full: it is told, and no torn file is left."""

from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

import pytest
from kept import added

from frame.cli import main
from frame.learner.store import Store

resource = pytest.importorskip("resource", reason="limits of processes are POSIX")
Capture = pytest.CaptureFixture[str]
FULL = "no room left"


@contextmanager
def room_for(most: int) -> Iterator[None]:
    """No file may be larger, as if the disk were full by then."""
    usual = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (most, usual[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, usual)


@pytest.mark.parametrize("most", [0, 1, 4096, 12_000])
def test_a_sheet_that_has_no_room_is_told_and_not_there(
    most: int, path: Path, tmp_path: Path, capsys: Capture
) -> None:
    file = tmp_path / "sheet.pdf"
    with room_for(most):
        assert main(["sheet", "columns", str(file)]) == 2
    out, err = capsys.readouterr()
    assert out == "" and FULL in err and str(file) in err
    assert list(tmp_path.glob("*sheet*")) == []
    assert main(["sheet", "columns", str(file)]) == 0


def test_a_file_that_is_there_is_kept(path: Path, tmp_path: Path, capsys: Capture) -> None:
    (file := tmp_path / "sheet.pdf").write_text("nets")
    with room_for(1):
        assert main(["sheet", "columns", str(file)]) == 2
    assert file.read_text() == "nets" and len(list(tmp_path.glob("*sheet*"))) == 1


def test_a_report_that_has_no_room_is_told_and_not_there(
    path: Path, tmp_path: Path, capsys: Capture
) -> None:
    with closing(Store(path)) as store:
        added(store, "Otter")
    (folder := tmp_path / "reports").mkdir()
    with room_for(12_000):
        assert main(["report", "--class", str(folder)]) == 2
    assert FULL in capsys.readouterr().err and list(folder.iterdir()) == []

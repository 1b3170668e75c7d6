"""A user without a home: what needs no store works, the rest says in words what is missing."""

import os
from pathlib import Path

import pytest

from frame.cli import main
from frame.screens.start import NoFolder, data_folder

pytestmark = pytest.mark.skipif(os.name != "posix", reason="homes as there")

Capture = pytest.CaptureFixture[str]


@pytest.fixture
def nobody(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    """A user of whom the system knows no name."""

    def unknown(_: int) -> None:
        raise KeyError("no such user")

    monkeypatch.setattr("pwd.getpwuid", unknown)
    for name in ("HOME", "XDG_DATA_HOME"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.chdir(tmp_path)


@pytest.mark.usefixtures("nobody")
@pytest.mark.parametrize("home", [None, "", "relative"])
@pytest.mark.parametrize("command", [[], ["code", "--forget"], ["export", "Otter", "otter.csv"]])
def test_what_needs_a_folder_says_so(
    capsys: Capture, monkeypatch: pytest.MonkeyPatch, home: str | None, command: list[str]
) -> None:
    if home is not None:
        monkeypatch.setenv("HOME", home)
    assert main(command) == 1
    out, err = capsys.readouterr()
    assert out == "" and err.count("\n") == 1
    assert "found no home folder" in err and "expected HOME or XDG_DATA_HOME" in err
    assert list(Path().iterdir()) == []


@pytest.mark.usefixtures("nobody")
@pytest.mark.parametrize(
    "command",
    [["explain", "3 + 4"], ["judge", "4", "0:+4"], ["lessons"], ["picture", "5", "five.png"]],
)
def test_what_needs_none_works(command: list[str]) -> None:
    assert main(command) == 0


@pytest.mark.usefixtures("nobody")
def test_an_older_version_that_leaves_the_sign_of_a_home_is_not_taken_at_its_word(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    """As os.path.expanduser answers, which they asked."""
    monkeypatch.setattr("platformdirs.user_data_dir", lambda *_, **__: "~/.local/share/bead-frame")
    with pytest.raises(NoFolder):
        data_folder()


@pytest.mark.usefixtures("nobody")
def test_a_folder_of_data_that_is_named_is_enough(
    capsys: Capture, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))
    assert data_folder() == tmp_path / "bead-frame"
    assert main(["code", "--forget"]) == 0


def test_a_home_into_which_nobody_may_look_is_said(
    capsys: Capture, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    refused = PermissionError(13, "Permission denied")
    monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path))

    def exists(_: Path) -> bool:
        raise refused  # Root may look everywhere.

    monkeypatch.setattr(Path, "exists", exists)
    assert main(["code", "--forget"]) == 1
    out, err = capsys.readouterr()
    assert out == "" and str(tmp_path) in err and "Permission denied" in err

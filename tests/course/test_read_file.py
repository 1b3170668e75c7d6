"""What is no file, or has a name that none can have, is told and never waited for."""

import os
import socket
from pathlib import Path

import pytest

from frame.course.draft import read_file
from frame.course.nodes import MOST_BYTES
from frame.course.problems import LessonError, problem_text, read_words
from frame.resources import PROBLEM_WORDS

needs_posix = pytest.mark.skipif(os.name != "posix", reason="pipes and devices with a place")


def told(path: Path) -> str:
    with pytest.raises(LessonError) as refused:
        read_file(path)
    (problem,) = refused.value.problems
    text = problem_text(problem, read_words(PROBLEM_WORDS))
    assert text.isprintable()
    return text.partition(":1:1: ")[2]


def test_a_folder_is_no_file(tmp_path: Path) -> None:
    assert told(tmp_path) == "found a folder; expected a file"


@needs_posix
def test_a_pipe_that_nobody_writes_to_is_not_waited_for(tmp_path: Path) -> None:
    os.mkfifo(tmp_path / "nets.yaml")
    assert told(tmp_path / "nets.yaml") == "found a pipe; expected a file"
    (tmp_path / "link.yaml").symlink_to(tmp_path / "nets.yaml")
    assert told(tmp_path / "link.yaml") == "found a pipe; expected a file"


@needs_posix
def test_devices_and_sockets_are_no_files(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    for name in ("/dev/zero", "/dev/null"):
        assert told(Path(name)) == "found a device; expected a file"
    monkeypatch.chdir(tmp_path)  # The names of sockets are short.
    with socket.socket(socket.AF_UNIX) as one:
        one.bind("nets.txt")
        assert told(Path("nets.txt")) == "found a socket; expected a file"


@needs_posix
def test_a_file_that_has_become_a_pipe_is_not_waited_for(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    file, pipe = tmp_path / "file", tmp_path / "pipe"
    file.touch()
    os.mkfifo(pipe)
    as_before = file.stat()
    monkeypatch.setattr(Path, "stat", lambda _: as_before)
    assert read_file(pipe) == b""


@pytest.mark.parametrize("name", ["a\0b.yaml", "\ud800.yaml"])
def test_a_name_that_no_file_can_have(tmp_path: Path, name: str) -> None:
    assert told(tmp_path / name) == (
        "found a name that no file can have; expected the name of a file"
    )


@needs_posix
def test_a_name_of_bytes_that_are_no_letters_is_a_name(tmp_path: Path) -> None:
    path = Path(os.fsdecode(os.fsencode(tmp_path) + b"/\xff\x1b[31m.yaml"))
    path.write_bytes(b"nets")
    assert read_file(path) == b"nets"
    path.unlink()
    assert told(path).startswith("found a file that cannot be opened (")


def test_no_more_is_read_than_is_taken(tmp_path: Path) -> None:
    path = tmp_path / "long.yaml"
    with path.open("wb") as stream:
        stream.truncate(10**9)
    assert len(read_file(path)) == MOST_BYTES + 1


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "utf-16-le", "utf-16-be"])
def test_a_file_may_be_in_utf_16_where_it_says_so(tmp_path, encoding):
    path = tmp_path / "sums.txt"
    path.write_text("\ufeff" * encoding.endswith("e") + "12 − 5", encoding=encoding)
    assert read_file(path).decode("utf-8-sig") == "12 − 5"


def test_half_a_letter_at_the_end_of_utf_16_is_no_error(tmp_path):
    path = tmp_path / "sums.txt"
    path.write_bytes("1 + 2".encode("utf-16") + b"\0")
    assert read_file(path).decode().startswith("1 + 2")

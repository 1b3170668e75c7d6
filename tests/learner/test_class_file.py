"""A list in a file, as programs save them; and files that are no list."""

import pytest

from frame.course.nodes import MOST_BYTES
from frame.learner.class_file import listed_in, read_own_list

PDF = b"%PDF-1.7\n1 0 obj\n<< /Length 9 >>\nstream\n\x9c\x00\x01\x02\x13\nendstream\n"


@pytest.mark.parametrize("encoding", ["utf-8", "utf-8-sig", "utf-16", "cp1252"])
@pytest.mark.parametrize("name", ["class.csv", "class.TXT"])
def test_a_table_is_read_however_it_is_saved(tmp_path, encoding, name):
    path = tmp_path / name
    path.write_bytes("name;group\r\nZoë;quay\r\nSeal;market\r\n".encode(encoding))
    own = read_own_list(path)
    assert not own.problems and own.title == "class"
    assert [(one.name, one.group) for one in own.listed.children] == [
        ("Zoë", "quay"), ("Seal", "market"),
    ]  # fmt: skip


@pytest.mark.parametrize(
    "content", [b"", b" \n\n;;\n", PDF, b"\x89PNG\r\n\x1a\n\x00", b"Otter\n" * MOST_BYTES]
)
def test_what_is_no_list_is_told(tmp_path, content):
    path = tmp_path / "class.csv"
    path.write_bytes(content)
    own = read_own_list(path)
    assert [one.code for one in own.problems] == ["no-names"] and not own.listed.children


def test_a_file_that_is_not_there_or_is_a_folder_is_told(tmp_path):
    assert read_own_list(tmp_path / "none.csv").problems
    assert read_own_list(tmp_path).problems


def test_what_is_wrong_in_a_line_leaves_the_rest_a_list():
    listed = listed_in('Otter\n"Seal\n,quay\nCrab')
    assert [one.name for one in listed.children] == ["Otter", '"Seal', "Crab"]
    assert len(listed.problems) == 2

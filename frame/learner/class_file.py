"""A file with the list of a class, as it lies in the folder for them."""

import unicodedata
from dataclasses import dataclass
from pathlib import Path

from frame.course.draft import read_file
from frame.course.nodes import MOST_BYTES
from frame.course.own import OwnFile
from frame.course.problems import LessonError, Problem
from frame.learner.class_list import ClassList, read_class

_OTHERWISE = "cp1252"
"""As tables are often saved that are not in UTF-8."""
_PLAIN = "\t\r\n\f"
_NOTHING = ClassList((), ())


@dataclass(frozen=True, slots=True)
class OwnList(OwnFile):
    """A list of names. What is wrong in its lines stands in the list itself; only what is no list
    at all is a problem of the file."""

    listed: ClassList = _NOTHING


def read_own_list(path: Path) -> OwnList:
    """The list in a file, or why there is none. Never raises for what the file is."""
    try:
        content = read_file(path)
    except LessonError as error:
        return OwnList(path, problems=error.problems)
    listed = listed_in(content)
    if listed is None:
        problem = Problem(str(path), 1, 1, "no-names")
        return OwnList(path, content, path.stem, (problem,))
    return OwnList(path, content, path.stem, (), listed)


def listed_in(content: bytes | str) -> ClassList | None:
    """The list that a text is, or the bytes of a file; None where there is no name in it, as in a
    picture or in a document of another program."""
    text = content if isinstance(content, str) else _text_of(content)
    if len(text) > MOST_BYTES or any(map(_is_no_text, text)):
        return None
    listed = read_class(text)
    return listed if listed.children else None


def _text_of(content: bytes) -> str:
    try:
        return content.decode("utf-8-sig")
    except UnicodeDecodeError:
        return content.decode(_OTHERWISE, "replace")


def _is_no_text(char: str) -> bool:
    return unicodedata.category(char) == "Cc" and char not in _PLAIN

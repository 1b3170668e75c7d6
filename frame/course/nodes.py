"""Text and places: a lesson file as plain nodes, each with its mark and none yet typed.

Only a small part of YAML is taken: words, lists and tables. The parser's events are read one by
one, so no value is constructed and no depth of nesting can exhaust the stack.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice
from typing import Protocol

import yaml

from frame.course.lesson import Mark
from frame.course.problems import Report

MOST_BYTES = 256 * 1024
MOST_DEPTH = 20

_MOST_CONTROLS = 20
_FIRST = Mark(1, 1)
_TAGGED = (yaml.ScalarEvent, yaml.CollectionStartEvent)
_BREAK = re.compile(r"\r\n|\n|\r")
# Everything YAML calls unprintable, and the breaks and marks an editor does not count as YAML does.
_CONTROL = re.compile(
    "[^\t\n\r -~\xa0-\u2027\u202a-\ud7ff\ue000-\ufefe\uff00-\ufffd\U00010000-\U0010ffff]"
)
_ENCODINGS = (
    (re.compile(rb"\xff\xfe\0\0|[^\0]\0\0\0", re.S), "UTF-32"),
    (re.compile(rb"\0\0\xfe\xff|\0\0\0[^\0]", re.S), "UTF-32"),
    (re.compile(rb"\xff\xfe|\xfe\xff|[^\0]\0[^\0]\0|\0[^\0]\0[^\0]", re.S), "UTF-16"),
)


@dataclass(frozen=True, slots=True)
class Word:
    """A scalar as it is written, without its quotes; `is_plain` when all of it is in one line."""

    text: str
    mark: Mark
    is_plain: bool


@dataclass(frozen=True, slots=True)
class Listing:
    """A list of nodes."""

    items: tuple["Node", ...]
    mark: Mark


@dataclass(frozen=True, slots=True)
class Table:
    """Keys and their nodes, in the order of the file, no key twice."""

    pairs: tuple[tuple[Word, "Node"], ...]
    mark: Mark


@dataclass(frozen=True, slots=True)
class Refused:
    """A node that has been reported already, so nothing more is said about it."""

    mark: Mark


Node = Word | Listing | Table | Refused


def read_nodes(content: str | bytes, report: Report) -> Node | None:
    """The one document of a file, or None where it cannot be read; the report then says why."""
    text = _decoded(content, report)
    if text is None or not _is_clean(text, report):
        return None
    loader = yaml.SafeLoader(text)
    try:
        return _Builder(report).build(_events(loader))
    except yaml.MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        report.add(_mark(mark), "syntax", detail=error.problem or error.context or "")
    except (ValueError, OverflowError):
        # The scanner takes "\UFFFFFFFF" and endless version numbers for numbers it can turn.
        report.add(_mark(loader.get_mark()), "escape")
    finally:
        loader.dispose()
    return None


def _decoded(content: str | bytes, report: Report) -> str | None:
    """The text of a file without its byte order mark, or None."""
    data = content.encode("utf-8", "surrogatepass") if isinstance(content, str) else content
    if len(data) > MOST_BYTES:
        report.add(_FIRST, "size", most=MOST_BYTES)
        return None
    if isinstance(content, str):
        return content.removeprefix("\ufeff")
    for beginning, name in _ENCODINGS:
        if beginning.match(data):
            report.add(_FIRST, "encoding", name=name)
            return None
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        # Where a byte order mark was cut off, the codec counts from behind it.
        whole = bytes(error.object)
        good = whole[: error.start].decode("utf-8")
        report.add(
            place(good.removeprefix("\ufeff"), len(good)), "byte", byte=f"{whole[error.start]:02X}"
        )
        return None


def _is_clean(text: str, report: Report) -> bool:
    """Whether the text has no control characters; the first few are reported."""
    for match in islice(_CONTROL.finditer(text), _MOST_CONTROLS):
        report.add(place(text, match.start()), "control", found=f"U+{ord(match[0]):04X}")
    return not report


def place(text: str, index: int) -> Mark:
    """The line and column of a character of the text."""
    before = text[:index]
    ends = [match.end() for match in _BREAK.finditer(before)]
    return Mark(len(ends) + 1, len(before) - (ends[-1] if ends else 0) + 1)


class _Placed(Protocol):
    line: int
    column: int


def _mark(mark: _Placed | None) -> Mark:
    return Mark(mark.line + 1, mark.column + 1) if mark else _FIRST


def _events(loader: yaml.SafeLoader) -> Iterator[yaml.Event]:
    while loader.check_event():
        yield loader.get_event()  # type: ignore[no-untyped-call]


class _Open:
    """A list or table that is being read."""

    def __init__(self, event: yaml.Event) -> None:
        self.mark = _mark(event.start_mark)
        self.is_table = isinstance(event, yaml.MappingStartEvent)
        self.nodes: list[Node] = []


class _Builder:
    """Builds nodes from events; reports what the format does not take."""

    def __init__(self, report: Report) -> None:
        self.report = report
        self.open: list[_Open] = []
        self.root: Node | None = None
        self.documents = 0

    def build(self, events: Iterator[yaml.Event]) -> Node | None:
        """The root node, or None when there is none to go on with."""
        for event in events:
            if isinstance(event, yaml.DocumentStartEvent):
                if not self._begin_document(event):
                    return None
            elif isinstance(event, yaml.NodeEvent):
                if not self._take(event):
                    return None
            elif isinstance(event, yaml.CollectionEndEvent):
                self._close()
        if self.root is None or (isinstance(self.root, Word) and not self.root.text):
            self.report.add(_FIRST, "empty")
            return None
        return self.root

    def _begin_document(self, event: yaml.DocumentStartEvent) -> bool:
        self.documents += 1
        if self.documents > 1:
            self.report.add(_mark(event.start_mark), "documents")
        if event.version or event.tags:
            self.report.add(_mark(event.start_mark), "directive")
        return self.documents == 1

    def _take(self, event: yaml.NodeEvent) -> bool:
        """Take the beginning of a node; False when it lies too deep."""
        mark = _mark(event.start_mark)
        if isinstance(event, yaml.AliasEvent):
            self.report.add(mark, "alias", found=f"*{event.anchor}")
            self._put(Refused(mark))
            return True
        if event.anchor is not None:
            self.report.add(mark, "anchor", found=f"&{event.anchor}")
        if isinstance(event, _TAGGED) and event.tag is not None:
            self.report.add(mark, "tag", found=event.tag)
        if isinstance(event, yaml.ScalarEvent):
            self._put(self._word(event, mark))
            return True
        if len(self.open) >= MOST_DEPTH:
            self.report.add(mark, "depth", most=MOST_DEPTH)
            return False
        self.open.append(_Open(event))
        return True

    def _word(self, event: yaml.ScalarEvent, mark: Mark) -> Word | Refused:
        # An escape such as "\ud800" is no character, and no text that holds it can be written out.
        if control := _CONTROL.search(event.value):
            self.report.add(mark, "control", found=f"U+{ord(control[0]):04X}")
            return Refused(mark)
        one_line = mark.line == _mark(event.end_mark).line
        return Word(event.value, mark, event.style is None and one_line)

    def _put(self, node: Node) -> None:
        if self.open:
            self.open[-1].nodes.append(node)
        else:
            self.root = node

    def _close(self) -> None:
        done = self.open.pop()
        if done.is_table:
            self._put(Table(tuple(self._pairs(done.nodes)), done.mark))
        else:
            self._put(Listing(tuple(done.nodes), done.mark))

    def _pairs(self, nodes: list[Node]) -> Iterator[tuple[Word, Node]]:
        """The keys with their values; a key that cannot be used is reported and left out."""
        first: dict[str, int] = {}
        for key, value in zip(nodes[::2], nodes[1::2], strict=True):
            if isinstance(key, Refused):
                continue
            if not isinstance(key, Word):
                self.report.add(key.mark, "key")
            elif key.text == "<<":
                self.report.add(key.mark, "merge")
            elif key.text in first:
                self.report.add(key.mark, "twice", found=key.text, line=first[key.text])
            else:
                first[key.text] = key.mark.line
                yield key, value

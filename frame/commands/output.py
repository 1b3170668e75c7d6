"""What every command shares: refusals, and text, JSON and streams in and out."""

import io
import json
import os
import sys
import unicodedata
from collections.abc import Callable, Iterator, Sequence
from contextlib import suppress
from difflib import get_close_matches
from pathlib import Path
from typing import TYPE_CHECKING, Any, NamedTuple

from frame.language.catalogue import Words
from frame.language.escaping import escaped
from frame.learner.trouble import Trouble

if TYPE_CHECKING:
    from frame.learner.store import StoreError

Json = dict[str, Any]

LONGEST_LINE = 64 * 1024
"""Bytes of a line of standard input, with its end."""

_OF_PDF = b"%PDF"
"""So a file begins that is printed, though some of them could be read as text."""
_MOST_NEAR = 3
"""So many files of a folder are named that may have been meant."""

WINDOW = 60
"""How many characters of a long text are shown around a place in it."""


class Place(NamedTuple):
    """A place in a text that the user wrote: the text, and the column from 1."""

    text: str
    column: int

    def lines(self, encoding: str) -> str:
        """The text around the place with a caret below it, two lines, in a stream's encoding."""
        at = self.column - 1
        first = max(0, min(at - WINDOW // 2, len(self.text) - WINDOW))
        head = "..." if first else ""
        tail = "..." if first + WINDOW < len(self.text) else ""
        before = _encodable(head + self.text[first:at], encoding)
        after = _encodable(self.text[at : first + WINDOW] + tail, encoding)
        return f"  {before}{after}".rstrip() + f"\n  {' ' * _width(before)}^"


def need_file(path: Path, expected: str, suffix: str, words: Words) -> None:
    """Raises Refusal for a path that is no file; `expected` says what it should be, and what of the
    usual `suffix` may have been meant is named."""
    if os.path.isfile(path):  # Unlike Path.is_file, also for a name too long.
        return
    is_folder = os.path.isdir(path)
    there = _files(path if is_folder else path.parent, suffix)
    near = there[:_MOST_NEAR] if is_folder else get_close_matches(path.name, there, 1)
    found = words.text("cli.a_folder" if is_folder else "cli.no_file")
    raise refusal_near(str(path), found, expected, near, words)


def text_of(path: Path, expected: str, words: Words) -> str:
    """The text of a file; `expected` says what it should be. Raises Refusal for one that cannot be
    read or is no text."""
    try:
        data = path.read_bytes()
        text = data.decode("utf-8-sig")
    except OSError as error:
        raise Refusal(str(path), error.strerror or str(error), expected) from error
    except UnicodeDecodeError as error:
        raise Refusal(str(path), words.text("cli.no_text"), expected) from error
    if data.startswith(_OF_PDF) or "\0" in text:
        raise Refusal(str(path), words.text("cli.no_text"), expected)
    return text


def _files(folder: Path, suffix: str) -> list[str]:
    """The names of the files with this suffix in a folder."""
    with suppress(OSError, ValueError):
        return sorted(one.name for one in folder.iterdir() if one.suffix == suffix)
    return []


def _encodable(text: str, encoding: str) -> str:
    """The text without what moves the cursor, written as a stream will show it."""
    seen = (one if one.isprintable() else " " if one.isspace() else "?" for one in text)
    return "".join(seen).encode(encoding, "backslashreplace").decode(encoding)


def _width(text: str) -> int:
    """In how many cells a terminal shows the text: two for a wide character, none for a mark."""
    wide = sum(unicodedata.east_asian_width(one) in ("W", "F") for one in text)
    return len(text) + wide - sum(map(bool, map(unicodedata.combining, text)))


class Refusal(Exception):
    """Something the user must put right: where, what was found, what was expected.

    `place` is where it is in a text of the user's, or None where there is no such place; `nearest`
    is what may have been meant.
    """

    def __init__(
        self, where: str, found: str, expected: str, place: Place | None = None,
        nearest: Sequence[str] = (),
    ) -> None:  # fmt: skip
        super().__init__(f"{where}: found {found}; expected {expected}")
        self.where, self.found, self.expected, self.place = where, found, expected, place
        self.nearest = tuple(nearest)

    def at(self, where: str) -> "Refusal":
        """The same refusal, its place within a larger one."""
        whole = f"{where}, {self.where}"
        return Refusal(whole, self.found, self.expected, self.place, self.nearest)

    @property
    def shape(self) -> Json:
        """The refusal as JSON."""
        error: Json = {"where": self.where, "found": self.found, "expected": self.expected}
        if self.nearest:
            error["nearest"] = list(self.nearest)
        return {"error": error}


def refusal_near(
    where: str, found: str, expected: str, near: Sequence[str], words: Words,
    place: Place | None = None,
) -> Refusal:  # fmt: skip
    """A refusal that says also which of what there is may have been meant, if anything."""
    if near:
        names = ", ".join(map(escaped, near))
        expected = words.text("cli.perhaps", expected=expected, near=names)
    return Refusal(where, found, expected, place, near)


def tell_unusable(error: "StoreError", words: Words) -> None:
    """What is wrong with the learners' file goes to standard error."""
    key = "cli.store_newer" if error.trouble is Trouble.NEWER else "cli.store_unusable"
    found = words.text("cli.full") if error.trouble is Trouble.FULL else escaped(error.found)
    facts = {"path": escaped(str(error.where)), "found": found}
    print(words.text(key, **facts), file=sys.stderr)


def prepare_output(is_json: bool) -> None:
    """Standard output takes every character: JSON as UTF-8, text as far as it can show it."""
    for stream in (sys.stdout, sys.stderr):
        if reconfigure := getattr(stream, "reconfigure", None):
            reconfigure(errors="backslashreplace", **({"encoding": "utf-8"} if is_json else {}))


def write_json(value: Json) -> None:
    """One JSON object goes out on one line, at once; what is not seen in it is escaped."""
    text = json.dumps(value, ensure_ascii=False)
    seen = (one if one.isprintable() else json.dumps(one)[1:-1] for one in text)
    print(text if text.isprintable() else "".join(seen), flush=True)


def stream(answer: Callable[[str], Json], words: Words) -> int:
    """Every line of standard input is answered by one JSON object on one line.

    A refused line gives its error in its place and the rest goes on; 1 when there was one,
    else 0. Of a line that is too long no more is kept than it may have.
    """
    refused = 0
    for number, line in enumerate(_lines(), 1):
        try:
            write_json(_answered(line, words.text("cli.line", number=number), answer, words))
        except Refusal as refusal:
            write_json(refusal.shape)
            refused = 1
    return refused


def _answered(line: str | None, where: str, answer: Callable[[str], Json], words: Words) -> Json:
    """The answer to a line, None for one that is too long. Raises Refusal."""
    if line is None:
        found = words.text("cli.long_line", most=LONGEST_LINE)
        raise Refusal(where, found, words.text("cli.short_line", most=LONGEST_LINE))
    try:
        return answer(line)
    except Refusal as refusal:
        raise refusal.at(where) from None


def _lines() -> Iterator[str | None]:
    """The lines of standard input, None for one that is too long; a byte that is no UTF-8 stays as
    a replacement mark."""
    source = sys.stdin.buffer if sys.stdin else io.BytesIO()
    encoding = "utf-8-sig"  # Some editors begin the first line with a mark of it.
    while line := source.readline(LONGEST_LINE):
        if _is_whole(line):
            yield line.decode(encoding, errors="replace").rstrip("\r\n")
        else:
            yield None
            while not _is_whole(source.readline(LONGEST_LINE)):
                pass
        encoding = "utf-8"


def _is_whole(line: bytes) -> bool:
    """Whether a line that was read in part has come to its end, or the input has."""
    return len(line) < LONGEST_LINE or line.endswith(b"\n")


def columns(rows: Sequence[tuple[str, ...]]) -> str:
    """The rows as text, every column as wide as its widest entry."""
    widths = [max(map(len, column)) for column in zip(*rows, strict=True)]
    padded = (
        "  ".join(entry.ljust(width) for entry, width in zip(row, widths, strict=True))
        for row in rows
    )
    return "\n".join(line.rstrip() for line in padded)

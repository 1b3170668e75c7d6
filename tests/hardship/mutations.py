"""Inputs changed a little, and failing ones made short again."""

import json
import re
from collections.abc import Callable, Iterator, Sequence
from random import Random
from typing import Any

_TOKEN = re.compile(rb"[0-9.]+|[A-Za-z_]+|[\x80-\xff]+|\s+|.", re.DOTALL)
_LINE = re.compile(rb"[^\n]*\n|[^\n]+")
_FILLED = re.compile(rb"(?<=: )[^\n]+")
"""What stands behind a key of YAML."""
_CUTS = (_LINE, _TOKEN, re.compile(rb".", re.DOTALL))
"""How an input is taken apart, from the coarsest way to the finest."""


_VALUES = (
    None, True, False, -1, 0, 1, 2, 2.5, 40, 10**40, -0.0, 1e300, float("nan"), float("inf"), "",
    "x", "4-6", "carry", "0:+1 0:+5&0:-2", "\ud800", [], {}, [[1]], {"a": 1}, "9" * 500,
)  # fmt: skip


def revalued(data: bytes, random: Random) -> bytes:
    """JSON with one of its values another, left out, or with a neighbour's; any other text as it
    is."""
    try:
        whole = json.loads(data)
    except (ValueError, RecursionError):
        return data
    holders = list(_holders(whole))
    if not holders:
        return data
    holder = random.choice(holders)
    at = random.choice(list(holder) if isinstance(holder, dict) else range(len(holder)))
    match random.randrange(4):
        case 0:
            del holder[at]
        case 1:
            other = random.choice(holders)
            values = list(other.values() if isinstance(other, dict) else other)
            holder[at] = json.loads(json.dumps(random.choice(values or [None])))
        case _:
            holder[at] = random.choice(_VALUES)
    return json.dumps(whole).encode()


def _holders(value: Any) -> Iterator[Any]:
    """Every list and table within a value, that has something in it."""
    if isinstance(value, dict | list) and value:
        yield value
        for one in value.values() if isinstance(value, dict) else value:
            yield from _holders(one)


def refilled(data: bytes, others: Sequence[bytes], pieces: Sequence[str], random: Random) -> bytes:
    """YAML with the value behind one of its keys another: a piece, or that of another line."""
    found = list(_FILLED.finditer(data))
    if not found:
        return data
    place = random.choice(found)
    given = _FILLED.findall(random.choice((data, random.choice(others)))) or [b"0"]
    value = random.choice((random.choice(given), random.choice(pieces).encode()))
    return data[: place.start()] + value + data[place.end() :]


def changed(data: bytes, others: Sequence[bytes], pieces: Sequence[str], random: Random) -> bytes:
    """The input with one to four changes, of which parts may come from others and from pieces."""
    changes = random.randint(1, 4)
    if data[:1] == b"{" and random.random() < 0.8:
        for _ in range((changes + 1) // 2):
            data = revalued(data, random)
        return data
    if b":" in data[:20] and random.random() < 0.6:
        for _ in range(changes):
            data = refilled(data, others, pieces, random)
        return data
    for _ in range(changes):
        cut = random.choices(_CUTS, (2, 4, 1))[0]
        parts = cut.findall(data)
        at, end = (random.randrange(len(parts) + 1) for _ in "ab")
        match random.randrange(7):
            case 0 | 1:
                parts[at:at] = [random.choice(pieces).encode()]
            case 2:
                parts[at : at + 1] = [random.choice(pieces).encode()]
            case 3:
                del parts[at : at + random.choice((1, 1, 2, 5))]
            case 4:
                parts[at:at] = parts[end : end + random.choice((1, 1, 3, 8))]
            case 5:
                other = cut.findall(random.choice(others)) or [b""]
                begin = random.randrange(len(other))
                parts[at : at + 1] = other[begin : begin + random.choice((1, 1, 3, 8))]
            case 6:
                parts[at : at + 1] = [bytes([random.randrange(256)])]
        data = b"".join(parts)
    return data


def shortest(data: bytes, fails: Callable[[bytes], bool]) -> bytes:
    """The input with everything left out that it still fails without: lines, tokens, then bytes
    (delta debugging, Zeller and Hildebrandt 2002)."""
    for cut in _CUTS:
        parts = cut.findall(data)
        size = max(1, len(parts) // 2)
        while True:
            at, length = 0, len(parts)
            while at < len(parts):
                fewer = parts[:at] + parts[at + size :]
                if fails(b"".join(fewer)):
                    parts = fewer
                else:
                    at += size
            if size > 1:
                size //= 2
            elif len(parts) == length:
                break
        data = b"".join(parts)
    return data

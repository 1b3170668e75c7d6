"""A seeded mutator: valid lessons, damaged in the ways that files and hands damage them."""

from collections.abc import Sequence
from random import Random

from lesson_samples import SAMPLES

_PIECES = (
    "\ufeff", "\u2028", "\x85", "\x00", "\x1b", "é", "−", "💡", "\u202e", "\t", "\r", "\r\n", "٣",
    "&a ", "*a", "!!int ", "!x ", "<<: ", "? ", "- ", ": ", "{", "}", "[", "]", "'", '"', "|", ">",
    "%YAML 1.1\n", "---\n", "...\n", "#", "\\U00110000", '"\\ud800"', "~", "0123", "9" * 400, ",",
)  # fmt: skip


def mutated(seed: int, samples: Sequence[str] = SAMPLES) -> bytes:
    """One damaged sample; the same for the same seed."""
    random = Random(seed)
    data = random.choice(samples).encode()
    for _ in range(random.randint(1, 3)):
        data = random.choice(_WAYS)(data, random)
    return data


def _flip(data: bytes, random: Random) -> bytes:
    at = random.randrange(len(data) + 1)
    return data[:at] + bytes([random.randrange(256)]) + data[at + 1 :]


def _insert(data: bytes, random: Random) -> bytes:
    at = random.randrange(len(data) + 1)
    return data[:at] + random.choice(_PIECES).encode("utf-8", "surrogatepass") + data[at:]


def _truncate(data: bytes, random: Random) -> bytes:
    return data[: random.randrange(len(data) + 1)]


def _delete(data: bytes, random: Random) -> bytes:
    at = random.randrange(len(data) + 1)
    return data[:at] + data[at + random.randint(1, 12) :]


def _on_lines(data: bytes, random: Random) -> bytes:
    """Two lines swapped, one left out, one doubled, or one moved in or out."""
    lines = data.split(b"\n")
    one, other = random.randrange(len(lines)), random.randrange(len(lines))
    match random.randrange(4):
        case 0:
            lines[one], lines[other] = lines[other], lines[one]
        case 1:
            del lines[one]
        case 2:
            lines.insert(other, lines[one])
        case _:
            lines[one] = b" " * random.randrange(9) + lines[one].lstrip()
    return b"\n".join(lines)


def _nest(data: bytes, random: Random) -> bytes:
    at = random.randrange(len(data) + 1)
    depth = random.choice((2, 30, 2000))
    opening, closing = random.choice(((b"[", b"]"), (b"{a: ", b"}"), (b"- ", b"")))
    return data[:at] + opening * depth + closing * depth + data[at:]


def _value(data: bytes, random: Random) -> bytes:
    """The value of one line replaced by a piece."""
    lines = data.split(b"\n")
    at = random.randrange(len(lines))
    key, colon, _ = lines[at].partition(b":")
    lines[at] = key + colon + b" " + random.choice(_PIECES).encode("utf-8", "surrogatepass")
    return b"\n".join(lines)


_WAYS = (_flip, _insert, _truncate, _delete, _on_lines, _on_lines, _nest, _value)

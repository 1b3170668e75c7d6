"""The log of an exercise as bytes, and back: the only module that knows their layout.

A byte for the version, one for how many steps are told, then two for each step (its cell, its
product; 0 for none) and six for each entry. From the highest bit on an entry is: 15 bits of
milliseconds since the entry before, 8 of its step, 7 of its rod, 5 of its change, 4 of its digit,
2 of its judgement, 1 for kept, 6 of its slip. What is no stroke has a change of its own, and what
it is in the place of its rod. A longer wait has an entry before it, whose first 23 bits count
2 ** 15 milliseconds each.
"""

from collections.abc import Iterator, Mapping
from itertools import islice
from typing import TypeVar

from frame.practice.items import CELLS, PRODUCTS, Worked
from frame.practice.log import Entry, Happening, Log
from frame.technique.beads import BeadMove, Stroke
from frame.technique.judge import Judgement

VERSION = 1
MOST_STEPS = 255
"""Steps beyond are not told; no exercise that is drawn has so many."""
ENTRY_BYTES = 6

_WIDTHS = {
    "ms": 15, "step": 8, "rod": 7, "change": 5, "digit": 4, "judgement": 2, "kept": 1, "slip": 6,
}  # fmt: skip
_ROD_ZERO = 64
_NO_STEP = 255
_LONG = 1 << _WIDTHS["ms"]
_MOST_WAIT = 1 << 23
_WAIT, _OTHER = 30, 31
"""The changes of what is no stroke."""

# What stands in files keeps its place; what is new comes at the end.
_EARTH = (-4, -3, -2, -1, 1, 2, 3, 4)
_HEAVEN = (-5, 5)
_CHANGES = (
    *((change,) for change in (*_EARTH, *_HEAVEN)),
    *((earth, heaven) for earth in _EARTH for heaven in _HEAVEN),
)
_JUDGEMENTS = (None, Judgement.RIGHT, Judgement.OTHER_ORDER, Judgement.WRONG)
_SLIPS = (
    "", "too-early", "extra-move", "not-asked", "inner-five-missed", "wrong-partner",
    "wrong-count", "wrong-way", "counted-past", "wrong-rod", "wrong-deck", "ripple-stopped",
    "carry-forgotten", "borrow-forgotten", "carried-without-partner", "borrowed-without-partner",
    "fives-partner-for-tens", "partner-of-five-left", "zero-not-skipped", "product-one-rod-off",
    "line-out-of-order", "wrong-product", "product-left-out", "digit-not-cleared",
    "quotient-one-rod-off", "trial-too-large", "quotient-too-early", "not-revised",
    "revised-without-adding-back", "wrong-total", "remainder-not-smaller", "halving-forgotten",
    "half-square-forgotten", "not-given-back", "negative-read-as-shown", "wrong-answer",
)  # fmt: skip
_HAPPENINGS = (
    Happening.ANSWER, Happening.DONE, Happening.HELP, Happening.LOOK, Happening.UNDO,
    Happening.CALLED, Happening.REPEAT, Happening.AGAIN, Happening.HOLD, Happening.RESUME,
    Happening.AWAY, Happening.BACK,
)  # fmt: skip

Thing = TypeVar("Thing")


def _numbers(things: tuple[Thing, ...], first: int = 0) -> Mapping[Thing, int]:
    return {thing: number for number, thing in enumerate(things, first)}


_NUMBER_OF_CHANGE, _NUMBER_OF_SLIP = _numbers(_CHANGES), _numbers(_SLIPS)
_NUMBER_OF_JUDGEMENT, _NUMBER_OF_HAPPENING = _numbers(_JUDGEMENTS), _numbers(_HAPPENINGS)
_NUMBER_OF_CELL, _NUMBER_OF_PRODUCT = _numbers(CELLS, 1), _numbers(PRODUCTS, 1)


def pack(log: Log) -> bytes:
    """The log as bytes; an empty one is no bytes at all."""
    if log == Log():
        return b""
    worked = log.worked[:MOST_STEPS]
    steps = bytes(number for one in worked for number in _step_numbers(one))
    return bytes((VERSION, len(worked))) + steps + b"".join(_entries(log.entries))


def _step_numbers(worked: Worked) -> tuple[int, int]:
    cell = _NUMBER_OF_CELL[worked.cell] if worked.cell else 0
    return cell, _NUMBER_OF_PRODUCT[worked.factors] if worked.factors else 0


def _entries(entries: tuple[Entry, ...]) -> Iterator[bytes]:
    before = 0
    for entry in entries:
        wait = max(0, entry.ms - before)
        before += wait
        longer, ms = divmod(wait, _LONG)
        if longer:
            yield _bytes(change=_WAIT, **_split(min(longer, _MOST_WAIT - 1)))
        yield _bytes(ms=ms, **_parts(entry))


def _split(longer: int) -> dict[str, int]:
    return {"ms": longer >> 8, "step": longer & 255}


def _parts(entry: Entry) -> dict[str, int]:
    is_stroke = entry.what is Happening.STROKE
    change = tuple(move.change for move in entry.stroke)
    has_step = entry.step is not None and entry.step < MOST_STEPS
    return {
        "step": entry.step if has_step and entry.step is not None else _NO_STEP,
        "rod": entry.stroke[0].rod + _ROD_ZERO if is_stroke else _NUMBER_OF_HAPPENING[entry.what],
        "change": _NUMBER_OF_CHANGE[change] if is_stroke else _OTHER,
        "digit": entry.digit,
        "judgement": _NUMBER_OF_JUDGEMENT[entry.judgement],
        "kept": entry.kept,
        "slip": _NUMBER_OF_SLIP[entry.slip],
    }


def _bytes(**parts: int) -> bytes:
    value = 0
    for name, width in _WIDTHS.items():
        value = value << width | parts.get(name, 0)
    return value.to_bytes(ENTRY_BYTES, "big")


def unpack(packed: bytes) -> Log:
    """The log that these bytes are, the inverse of `pack`. Raises ValueError for any other."""
    if not packed:
        return Log()
    if len(packed) < 2 or packed[0] != VERSION:
        raise ValueError("a log of another version")
    start = 2 + 2 * packed[1]
    steps, entries = packed[2:start], packed[start:]
    if len(steps) < 2 * packed[1] or len(entries) % ENTRY_BYTES:
        raise ValueError("a log that is cut off")
    try:
        worked = tuple(map(_worked, steps[::2], steps[1::2]))
        return Log(worked, tuple(_read_entries(entries)))
    except IndexError:
        raise ValueError("a log with what nobody wrote") from None


def _worked(cell: int, product: int) -> Worked:
    return Worked(CELLS[cell - 1] if cell else None, PRODUCTS[product - 1] if product else None)


def _read_entries(packed: bytes) -> Iterator[Entry]:
    ms = 0
    pieces = iter(packed)
    while piece := bytes(islice(pieces, ENTRY_BYTES)):
        parts = _parts_of(piece)
        if parts["change"] == _WAIT:
            ms += (parts["ms"] << 8 | parts["step"]) * _LONG
            continue
        ms += parts["ms"]
        yield _entry(parts, ms)


def _parts_of(piece: bytes) -> dict[str, int]:
    value, parts = int.from_bytes(piece, "big"), {}
    for name, width in reversed(_WIDTHS.items()):
        parts[name] = value & ((1 << width) - 1)
        value >>= width
    return parts


def _entry(parts: Mapping[str, int], ms: int) -> Entry:
    is_stroke = parts["change"] != _OTHER
    return Entry(
        Happening.STROKE if is_stroke else _HAPPENINGS[parts["rod"]],
        ms,
        _stroke(parts) if is_stroke else (),
        parts["digit"],
        _JUDGEMENTS[parts["judgement"]],
        bool(parts["kept"]),
        _SLIPS[parts["slip"]],
        None if parts["step"] == _NO_STEP else parts["step"],
    )


def _stroke(parts: Mapping[str, int]) -> Stroke:
    rod = parts["rod"] - _ROD_ZERO
    return tuple(BeadMove(rod, change) for change in _CHANGES[parts["change"]])

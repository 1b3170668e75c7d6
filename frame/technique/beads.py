"""Rods, frames and bead moves: what can stand on a frame and how it changes."""

import re
from dataclasses import dataclass
from typing import NamedTuple

MOST_RODS = 35


class IllegalMove(ValueError):
    """A bead move that the frame does not allow, or a text that is no bead move."""


class BeadMove(NamedTuple):
    """One bead group moved by one finger on one rod.

    `rod` is the place number (0 = unit rod, 1 = tens, -1 = tenths); `change` is the signed
    change on that rod: +5 or -5 for the heaven bead, +1..+4 or -1..-4 for earth beads.

    >>> str(BeadMove(1, -2))
    '1:-2'
    """

    rod: int
    change: int

    def __str__(self) -> str:
        return f"{self.rod}:{self.change:+d}"

    @property
    def is_heaven(self) -> bool:
        """Whether the heaven bead moves."""
        return self.change in (5, -5)

    @property
    def beads(self) -> int:
        """How many beads move: 1 for the heaven bead, 1 to 4 for earth beads."""
        return 1 if self.is_heaven else abs(self.change)

    @property
    def inverse(self) -> "BeadMove":
        """The move that takes this one back."""
        return BeadMove(self.rod, -self.change)


Stroke = tuple[BeadMove, ...]
"""One bead move, or two made at the same time (a pinch)."""

_MOVE = re.compile(r"(-?\d{1,2}):([+-][1-5])")


def parse_move(text: str) -> BeadMove:
    """The bead move written as `rod:change`. Raises IllegalMove for any other text.

    >>> parse_move("0:+5")
    BeadMove(rod=0, change=5)
    """
    match = _MOVE.fullmatch(text.replace("−", "-"))
    if not match:
        raise IllegalMove(f"no bead move: {text!r}; expected rod:change, such as 0:+5 or 1:-2")
    return BeadMove(int(match[1]), int(match[2]))


def parse_stroke(text: str) -> Stroke:
    """The stroke written as one move, or as two joined by `&`. Raises IllegalMove."""
    moves = tuple(parse_move(part) for part in text.split("&"))
    if len(moves) > 2:
        raise IllegalMove(f"{len(moves)} moves at once in {text!r}; a pinch is two")
    if len(moves) == 2 and not _is_pinch(*moves):
        raise IllegalMove(f"no pinch: {text!r}; a pinch moves both decks of one rod")
    return moves


def _is_pinch(first: BeadMove, second: BeadMove) -> bool:
    return first.rod == second.rod and first.is_heaven != second.is_heaven


def stroke_text(stroke: Stroke) -> str:
    """The stroke in notation; the inverse of `parse_stroke`.

    >>> stroke_text((BeadMove(0, 2), BeadMove(0, 5)))
    '0:+2&0:+5'
    """
    return "&".join(map(str, stroke))


def covers(left: BeadMove, move: BeadMove) -> bool:
    """Whether `move` makes all or a part of what is `left`."""
    if left == move:
        return True
    is_same_deck = left.rod == move.rod and left.is_heaven == move.is_heaven
    return is_same_deck and 0 < move.change / left.change <= 1


def without(left: BeadMove, move: BeadMove) -> Stroke:
    """What is left of one move after `move` made all, a part or nothing of it."""
    if not covers(left, move):
        return (left,)
    rest = left.change - move.change
    return (BeadMove(left.rod, rest),) if rest else ()


def _after(digit: int, change: int) -> int | None:
    """What a rod showing `digit` shows after `change`, or None when its beads do not allow it."""
    heaven, earth = divmod(digit, 5)
    if change in (5, -5):
        heaven += change // 5
    else:
        earth += change
    return 5 * heaven + earth if 0 <= heaven <= 1 and 0 <= earth <= 4 else None


# Worked out once, as every replayed move asks it.
_AFTER: dict[tuple[str, int], str] = {
    (str(digit), change): str(after)
    for digit in range(10)
    for change in (-5, -4, -3, -2, -1, 1, 2, 3, 4, 5)
    if (after := _after(digit, change)) is not None
}


class Rod(NamedTuple):
    """The beads of one rod that touch the beam: `heaven` 0 or 1, `earth` 0 to 4."""

    heaven: int
    earth: int


@dataclass(frozen=True, slots=True)
class Frame:
    """A frame: the digit each rod shows, highest rod first, and the index of the unit rod.

    A digit says all there is to say of a rod, so a frame can hold no impossible bead.

    >>> Frame("0038", 3).digit(1)
    3
    """

    digits: str
    units: int

    @classmethod
    def cleared(cls, rods: int, units: int | None = None) -> "Frame":
        """A frame of `rods` rods (1 to 35) with no bead at the beam."""
        if not 1 <= rods <= MOST_RODS:
            raise ValueError(f"{rods} rods; a frame has 1 to {MOST_RODS}")
        return cls("0" * rods, rods - 1 if units is None else units)

    def __str__(self) -> str:
        return self.digits

    @property
    def highest(self) -> int:
        """The place number of the leftmost rod."""
        return self.units

    @property
    def lowest(self) -> int:
        """The place number of the rightmost rod."""
        return self.units - len(self.digits) + 1

    def has(self, rod: int) -> bool:
        """Whether the frame has that rod."""
        return 0 <= self.units - rod < len(self.digits)

    def digit(self, rod: int) -> int:
        """The digit on a rod. Raises IllegalMove when there is no such rod."""
        if not self.has(rod):
            raise IllegalMove(f"no rod {rod}; the frame has {self.highest} to {self.lowest}")
        return int(self.digits[self.units - rod])

    def rod(self, rod: int) -> Rod:
        """The beads of a rod that touch the beam."""
        return Rod(*divmod(self.digit(rod), 5))

    def can(self, move: BeadMove) -> bool:
        """Whether the beads of that rod allow the move."""
        at = self.units - move.rod
        return 0 <= at < len(self.digits) and (self.digits[at], move.change) in _AFTER

    def after_all(self, moves: Stroke) -> "Frame | None":
        """The frame after all the moves, in their order; None when the beads do not allow it."""
        digits = self.digits
        for rod, change in moves:
            at = self.units - rod
            after = _AFTER.get((digits[at], change)) if 0 <= at < len(digits) else None
            if after is None:
                return None
            digits = digits[:at] + after + digits[at + 1 :]
        return Frame(digits, self.units)

    def can_all(self, moves: Stroke) -> bool:
        """Whether the beads allow all the moves, one after another."""
        return self.after_all(moves) is not None

    def apply(self, move: BeadMove) -> "Frame":
        """The frame after the move. Raises IllegalMove when its beads do not allow it."""
        digits, at = self.digits, self.units - move.rod
        after = _AFTER.get((digits[at], move.change)) if 0 <= at < len(digits) else None
        if after is None:
            raise IllegalMove(f"move {move} is impossible on {digits} (unit rod {self.units + 1})")
        return Frame(digits[:at] + after + digits[at + 1 :], self.units)

    def apply_all(self, moves: Stroke) -> "Frame":
        """The frame after all the moves, in their order. Raises IllegalMove."""
        frame = self.after_all(moves)
        if frame is None:
            frame = self
            for move in moves:
                frame = frame.apply(move)
        return frame

    def with_digit(self, rod: int, digit: int) -> "Frame":
        """The frame with another digit on one rod."""
        at = self.units - rod
        return Frame(self.digits[:at] + str(digit) + self.digits[at + 1 :], self.units)

    def only(self, high: int, low: int) -> "Frame":
        """The frame with nothing at the beam but on the rods from `high` down to `low`."""
        first = min(max(self.units - high, 0), len(self.digits))
        kept = self.digits[first : max(self.units - low + 1, 0)]
        after = len(self.digits) - first - len(kept)
        return Frame("0" * first + kept + "0" * after, self.units)

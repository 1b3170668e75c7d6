"""Plans for adding and taking away: columns of any length, highest place first.

A result below zero is worked as the trade does it: a 1 is borrowed beyond the number without a
bead, the work goes on in complement form, and the 1 goes back as soon as a later number allows.
"""

from collections.abc import Sequence
from decimal import Decimal, localcontext
from functools import lru_cache

from frame.technique.beads import MOST_RODS, Frame, Stroke
from frame.technique.fingers import needs_five, strokes_on
from frame.technique.plan import USUAL, Carry, Conventions, Plan, Step, Technique
from frame.technique.reading import EXACT, NumberError, RodsError, decimals, plain

USUAL_RODS = 13


def plan_sum(
    terms: Sequence[Decimal],
    conventions: Conventions = USUAL,
    rods: int | None = None,
    at_least: int = USUAL_RODS,
) -> Plan:
    """The plan for a column of signed numbers, from a cleared frame; the first one is set.

    `rods` asks for that many rods; otherwise the frame has as many as the work needs, and
    `at_least` that many. Raises NumberError when the work does not fit.
    """
    places = max((decimals(term) for term in terms), default=0)
    hand = _Hand(places, conventions)
    for index, term in enumerate(terms):
        hand.work(term, first=index == 0)
    return hand.plan(rods, at_least)


def plan_on(frame: Frame, term: Decimal, conventions: Conventions = USUAL) -> Plan:
    """The plan for one signed number worked on a frame as it stands. Raises NumberError."""
    if decimals(term) > -frame.lowest:
        raise NumberError(f"{plain(term)} does not fit: the frame's lowest rod is {frame.lowest}")
    hand = _Hand(-frame.lowest, conventions, [int(digit) for digit in reversed(frame.digits)])
    hand.work(term, first=False)
    return hand.plan(len(frame.digits), 1)


def plan_set(frame: Frame, number: Decimal, conventions: Conventions = USUAL) -> Plan:
    """The plan that makes a frame read `number`, rod by rod from the highest."""
    with localcontext(EXACT):
        scaled = int(number.scaleb(-frame.lowest))
    after = str(scaled).zfill(len(frame.digits))
    if number < 0 or len(after) > len(frame.digits) or decimals(number) > -frame.lowest:
        raise NumberError(f"{plain(number)} does not fit the frame")
    steps = []
    for at, (old, new) in enumerate(zip(frame.digits, after, strict=True)):
        rod, change = frame.units - at, int(new) - int(old)
        if change:
            strokes = strokes_on(rod, int(old), int(new), conventions)
            technique = Technique.FIVE if needs_five(int(old), int(new)) else Technique.DIRECT
            steps.append(Step(f"set {plain(number)}", rod, change, technique, 0, strokes))
    return Plan(frame, tuple(steps), number, conventions)


@lru_cache(maxsize=1024)
def _on_one_rod(digit: int, change: int) -> tuple[int, int, Technique]:
    """For a signed digit worked on a rod: the digit after, the carry (-1, 0, 1), the technique."""
    carry, after = divmod(digit + change, 10)
    five = needs_five(digit, after)
    if carry:
        return after, carry, Technique.TEN_FIVE if five else Technique.TEN
    return after, carry, Technique.FIVE if five else Technique.DIRECT


class _Hand:
    """The hand at work. `digits` are lowest first; digit i lies on rod i - places."""

    def __init__(
        self, places: int, conventions: Conventions, digits: Sequence[int] | None = None
    ) -> None:
        self.places = places
        self.conventions = conventions
        self.start = list(digits or [0] * (places + 1))
        self.digits = list(self.start)
        self.steps: list[Step] = []
        self.owed: int | None = None  # index, not rod
        self.value = self._scaled_shown()

    def _scaled_shown(self) -> int:
        return int("".join(map(str, reversed(self.digits))))

    def plan(self, rods: int | None, at_least: int) -> Plan:
        """The finished plan on a frame of `rods` rods, or of as many as it takes."""
        needed = len(self.digits)
        size = max(needed, at_least) if rods is None else rods
        if needed > size or size > MOST_RODS:
            most = MOST_RODS if rods is None else rods
            raise RodsError(needed, most)
        shown = "".join(map(str, reversed(self.start))).zfill(size)
        with localcontext(EXACT):
            result = Decimal(self.value).scaleb(-self.places)
        start = Frame(shown, size - 1 - self.places)
        return Plan(start, tuple(self.steps), Decimal(plain(result)), self.conventions)

    def work(self, term: Decimal, first: bool) -> None:
        """Work one number, highest digit first."""
        with localcontext(EXACT):
            scaled = int(term.scaleb(self.places))
        setting = first and scaled >= 0
        text = plain(term.copy_abs())
        operation = f"set {text}" if setting else f"{'+' if scaled >= 0 else '-'}{text}"
        if self.owed is not None:
            self._raise_owed(self.owed, self.value + scaled)
        sign = 1 if scaled > 0 else -1
        figures = str(abs(scaled))
        self._reach(len(figures))
        for index in range(len(figures) - 1, -1, -1):
            digit = int(figures[len(figures) - 1 - index])
            if digit:
                self._digit(operation, index, sign * digit)
        self.value += scaled
        self._give_back()

    def _reach(self, size: int) -> None:
        while len(self.digits) < size:
            self.digits.append(0)
            self.start.append(0)

    def _add_step(
        self, operation: str, index: int, change: int, technique: Technique,
        strokes: tuple[Stroke, ...], ripple: int = 0,
    ) -> None:  # fmt: skip
        owed = None if self.owed is None else self.owed - self.places
        rod = index - self.places
        self.steps.append(Step(operation, rod, change, technique, ripple, strokes, owed))

    def _digit(self, operation: str, index: int, change: int) -> None:
        """Work one signed digit on the rod at `index`, with its carry or borrow."""
        before = self.digits[index]
        after, carry, technique = _on_one_rod(before, change)
        self.digits[index] = after
        own = strokes_on(index - self.places, before, after, self.conventions)
        if not carry:
            self._add_step(operation, index, change, technique, own)
            return
        over, ripple = self._carry(index + 1, carry)
        over_first = carry < 0 or self.conventions.carry is Carry.FIRST
        far_first = tuple(stroke for rod in reversed(over) for stroke in rod)
        near_first = tuple(stroke for rod in over for stroke in rod)
        strokes = far_first + own if over_first else own + near_first
        self._add_step(operation, index, change, technique, strokes, ripple)

    def _carry(self, index: int, carry: int) -> tuple[list[tuple[Stroke, ...]], int]:
        """Move 1 onto, or 1 off, the rod at `index`; run on over 9s or 0s.

        The strokes of each rod, nearest first, and how many rods the 1 ran over.
        """
        full, empty = (9, 0) if carry > 0 else (0, 9)
        over: list[tuple[Stroke, ...]] = []
        if carry < 0 and not any(self.digits[index:]):
            self._borrow_beyond(index)
            return over, 0
        ripple = 0
        while True:
            self._reach(index + 1)
            before = self.digits[index]
            after = empty if before == full else before + carry
            self.digits[index] = after
            over.append(strokes_on(index - self.places, before, after, self.conventions))
            if before != full:
                return over, ripple
            ripple += 1
            index += 1

    def _borrow_beyond(self, index: int) -> None:
        """Borrow a 1 on the empty rod at `index`; no bead is set for it.

        The digit that needs it uses it up at once, so it counts as owed from that digit on.
        """
        operation = f"borrow {self._power(index)}"
        self._add_step(operation, index, 1, Technique.BORROW, ())
        self.owed = index

    def _power(self, index: int) -> str:
        with localcontext(EXACT):
            return plain(Decimal(1).scaleb(index - self.places))

    def _raise_owed(self, low: int, coming: int) -> None:
        """Where a result still lower would outgrow the 1 owed at `low`, raise it: 9s go on the
        new rods, up to the next power of ten that holds the result."""
        if coming >= 0 or -coming < 10**low:
            return
        self.owed = high = len(str(-coming))
        self._reach(high)
        strokes: list[Stroke] = []
        for index in range(high - 1, low - 1, -1):
            strokes += strokes_on(index - self.places, self.digits[index], 9, self.conventions)
            self.digits[index] = 9
        self._add_step(f"borrow {self._power(high)}", high, 1, Technique.BORROW, tuple(strokes))

    def _give_back(self) -> None:
        """Give the borrowed 1 back as soon as the number is zero or more again."""
        if self.owed is None or self.value < 0:
            return
        index, self.owed = self.owed, None
        self._digit(f"return {self._power(index)}", index, -1)

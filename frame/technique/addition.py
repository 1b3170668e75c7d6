"""Plans for adding and taking away: columns of any length, highest place first.

A result below zero is worked as the trade does it: a 1 is borrowed beyond the number without a
bead, the work goes on in complement form, and the 1 goes back as soon as a later number allows.
"""

from collections.abc import Callable, Sequence
from decimal import Decimal, localcontext
from functools import lru_cache

from frame.technique.beads import MOST_RODS, Frame, Stroke
from frame.technique.conventions import USUAL, Conventions
from frame.technique.fingers import strokes_on
from frame.technique.hand import Hand
from frame.technique.operation import Act, Operation
from frame.technique.places import USUAL_RODS, last_mark
from frame.technique.plan import Plan, Technique
from frame.technique.reading import EXACT, NumberError, RodsError, decimals, plain, whole_digits


def plan_sum(
    terms: Sequence[Decimal],
    conventions: Conventions = USUAL,
    rods: int | None = None,
    at_least: int = USUAL_RODS,
    hands: "Callable[[Conventions, Frame], Column] | None" = None,
) -> Plan:
    """The plan for a column of signed numbers, from a cleared frame; the first one is set. Another
    one's `hands` may work it.

    `rods` asks for that many rods; otherwise the frame has as many as the work needs, and
    `at_least` that many. Raises NumberError when the work does not fit.
    """
    places = max((decimals(term) for term in terms), default=0)
    if places >= MOST_RODS:
        raise RodsError(places + 1, MOST_RODS)
    hand = (hands or Column)(conventions, Frame.cleared(places + 1, 0))
    for index, term in enumerate(terms):
        hand.work_number(term, first=index == 0)
    return hand.plan(rods, at_least)


def plan_on(frame: Frame, term: Decimal, conventions: Conventions = USUAL) -> Plan:
    """The plan for one signed number worked on a frame as it stands. Raises NumberError."""
    if decimals(term) > -frame.lowest:
        raise NumberError(f"{plain(term)} does not fit: the frame's lowest rod is {frame.lowest}")
    hand = Column(conventions, frame)
    hand.work_number(term, first=False)
    return hand.plan(len(frame.digits), 1)


def plan_set(frame: Frame, number: Decimal, conventions: Conventions = USUAL) -> Plan:
    """The plan that makes a frame read `number`, rod by rod from the highest."""
    with localcontext(EXACT):
        scaled = int(number.scaleb(-frame.lowest))
    after = str(scaled).zfill(len(frame.digits))
    if number < 0 or len(after) > len(frame.digits) or decimals(number) > -frame.lowest:
        raise NumberError(f"{plain(number)} does not fit the frame")
    hand, operation = Hand(conventions, frame), _setting(number)
    for at, digit in enumerate(after):
        hand.put(operation, frame.units - at, int(digit))
    return Plan(frame, tuple(hand.steps), number, conventions)


@lru_cache(maxsize=1024)
def _setting(number: Decimal, act: Act = Act.SET, row: int = 0) -> Operation:
    """The line of work of one number of a column."""
    rod = max(whole_digits(number) - 1, 0)
    return Operation(act, plain(number.copy_abs()), rod, row=row)


class Column(Hand):
    """The hand that works a column of numbers, below zero as well; `value` is what the frame
    reads, in ones of the lowest rod, `row` counts the numbers worked."""

    def __init__(self, conventions: Conventions, frame: Frame) -> None:
        super().__init__(conventions, frame)
        self.value = self.shown(self.highest, self.lowest)
        self.row = 0

    def plan(self, rods: int | None, at_least: int) -> Plan:
        """The finished plan on a frame of `rods` rods, or of as many as it takes."""
        needed = len(self.digits)
        size = max(needed, at_least) if rods is None else rods
        if needed > size or size > MOST_RODS:
            most = MOST_RODS if rods is None else rods
            raise RodsError(needed, most)
        with localcontext(EXACT):
            result = Decimal(self.value).scaleb(self.lowest)
        units = last_mark(self.highest, -self.lowest, size)
        shown = self.start.digits.zfill(units + 1 - self.lowest)
        start = Frame(shown.ljust(size, "0"), units)
        return Plan(start, tuple(self.steps), Decimal(plain(result)), self.conventions)

    def work_number(self, term: Decimal, first: bool) -> None:
        """Work one number, highest digit first."""
        with localcontext(EXACT):
            scaled = int(term.scaleb(-self.lowest))
        act = Act.SET if first and scaled >= 0 else Act.ADD if scaled >= 0 else Act.TAKE
        if self.owed is not None:
            self._raise_owed(self.owed, self.value + scaled)
        sign = 1 if scaled > 0 else -1
        figures = str(abs(scaled))
        highest = self.lowest + len(figures) - 1
        self.reach(highest)
        operation = _setting(term, act, self.row)
        for at, figure in enumerate(figures):
            if figure != "0":
                self.work(operation, highest - at, sign * int(figure))
        self.value += scaled
        self.give_back()
        self.row += 1

    def carry(self, rod: int, carry: int) -> tuple[list[tuple[Stroke, ...]], int]:
        """Move 1 onto, or 1 off, a rod; with nothing left to borrow from, borrow beyond."""
        if carry < 0 and not any(self.digits[rod - self.lowest :]):
            self._borrow_beyond(rod)
            return [], 0
        return super().carry(rod, carry)

    def _borrow_beyond(self, rod: int) -> None:
        """Borrow a 1 on an empty rod; no bead is set for it.

        The digit that needs it uses it up at once, so it counts as owed from that digit on.
        """
        self.add_step(self._one_on(Act.BORROW, rod), rod, 1, Technique.BORROW, ())
        self.owed = rod

    def _raise_owed(self, low: int, coming: int) -> None:
        """Where a result still lower would outgrow the 1 owed at `low`, raise it: 9s go on the
        new rods, up to the next power of ten that holds the result."""
        if coming >= 0 or -coming < 10 ** (low - self.lowest):
            return
        self.owed = high = self.lowest + len(str(-coming))
        self.reach(high - 1)
        strokes: list[Stroke] = []
        for rod in range(high - 1, low - 1, -1):
            strokes += strokes_on(rod, self.digit(rod), 9, self.conventions)
            self.digits[rod - self.lowest] = 9
        self.add_step(self._one_on(Act.BORROW, high), high, 1, Technique.BORROW, tuple(strokes))

    def give_back(self) -> None:
        """Give the borrowed 1 back as soon as the number is zero or more again."""
        if self.owed is None or self.value < 0:
            return
        rod, self.owed = self.owed, None
        self.work(self._one_on(Act.RETURN, rod), rod, -1)

    def _one_on(self, act: Act, rod: int) -> Operation:
        """The line of work of a borrowed 1."""
        with localcontext(EXACT):
            return Operation(act, plain(Decimal(1).scaleb(rod)), rod, row=self.row)

"""The answer to a task, read off a frame on which somebody worked it."""

from decimal import Decimal

from frame.technique.beads import Frame
from frame.technique.plan import Plan
from frame.technique.reading import read


def read_off(frame: Frame, plan: Plan) -> Decimal:
    """What the frame reads, without the number that the work leaves at its left, a multiplier or a
    divisor, where that still stands there. Where that would be a part of one, and the result is
    whole, the last rod was taken for the ones."""
    number, end = read(frame), plan.end
    if number % 1 and not plan.result % 1:
        return Decimal(frame.digits)
    left = read(end) - plan.result
    if left <= 0 or plan.result < 0:
        return number
    place = Decimal(1)
    while left % (place * 10) == 0:
        place *= 10
    return number % place if number - number % place == left else number

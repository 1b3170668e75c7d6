"""Rounding what a frame reads, as examinations ask: half up."""

from frame.technique.hand import Hand
from frame.technique.operation import Act, Operation


def round_half_up(hand: Hand, places: int, lowest: int) -> None:
    """Round the result to so many decimals; its digits reach down to the rod `lowest`.

    The first digit that goes decides: from 5 on, the digit before it gets 1 more.
    """
    rods = range(-places - 1, lowest - 1, -1)
    digits = "".join(str(hand.digit(rod)) for rod in rods)
    if not digits.strip("0"):
        return
    if hand.span is not None:
        # The 1 may land above the digits there are.
        hand.span = (max(hand.span[0] + 1, -places), hand.span[1])
    operation = Operation(Act.ROUND, digits, -places - 1)
    if digits >= "5":
        hand.work(operation, -places, 1)
    for rod in rods:
        hand.put(operation, rod, 0)

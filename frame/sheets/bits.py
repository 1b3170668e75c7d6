"""Numbers as bits, one behind another, and back."""


def bits_of(number: int, width: int) -> str:
    """A number below 2 ** width as so many bits, the highest first.

    >>> bits_of(5, 4)
    '0101'
    """
    return f"{number:b}".zfill(width)


class Bits:
    """Bits from which numbers are taken. Beyond their end all are 0; `taken` tells how many were
    asked for."""

    def __init__(self, bits: str) -> None:
        self._bits, self.taken = bits, 0

    def take(self, width: int) -> int:
        """The number that the next bits are."""
        bits = self._bits[self.taken : self.taken + width]
        self.taken += width
        return int(bits.ljust(width, "0"), 2)

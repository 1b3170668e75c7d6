"""The answer while it is given: typed, or set on a frame."""

from dataclasses import dataclass
from decimal import Decimal

from frame.technique.beads import Frame, Stroke
from frame.technique.reading import plain, read


@dataclass
class Answer:
    """A number of at most so many digits. `frame` is one to set the answer on, once it was asked
    for; what it reads is then what is typed."""

    most_digits: int
    typed: str = ""
    frame: Frame | None = None

    @property
    def number(self) -> Decimal | None:
        """The answer so far, None where nothing is typed."""
        return Decimal(self.typed) if self.typed else None

    def type(self, digit: str) -> None:
        """Add a digit; `<` takes the last one away. A frame that was used is put aside."""
        if self.frame is not None:
            self.clear()
        self.typed = self.typed[:-1] if digit == "<" else (self.typed + digit)[: self.most_digits]

    def take(self, frame: Frame) -> None:
        """Take what a frame reads."""
        self.typed = plain(read(frame))

    def set_on_frame(self, rods: int) -> None:
        """Ask for a frame to set the answer on."""
        self.frame = Frame.cleared(rods)
        self.take(self.frame)

    def touch(self, stroke: Stroke) -> None:
        """Beads of the answer's frame move, where they can."""
        if self.frame is not None and self.frame.can_all(stroke):
            self.frame = self.frame.apply_all(stroke)
            self.take(self.frame)

    def clear(self) -> None:
        """Forget it."""
        self.typed, self.frame = "", None

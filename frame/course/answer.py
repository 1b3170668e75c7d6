"""The answer while it is given: typed, or set on a frame."""

from dataclasses import dataclass
from decimal import Decimal

from frame.course.runner import Runner
from frame.technique.beads import Frame, Stroke
from frame.technique.reading import plain, read


@dataclass
class Answer:
    """A number of at most so many digits. `frame` is one to set the answer on, once it was asked
    for; what it reads is then what is typed. `refused` is what was given and is not right."""

    most_digits: int
    typed: str = ""
    frame: Frame | None = None
    refused: str = ""

    @property
    def number(self) -> Decimal | None:
        """The answer so far, None where no digit is typed."""
        return Decimal(self.typed) if any(map(str.isdigit, self.typed)) else None

    def type(self, sign: str) -> None:
        """Add a digit or a point; a minus goes before them, or goes away; `<` takes the last sign
        away. A frame that was used is put aside."""
        if self.frame is not None:
            self.clear()
        self.refused = ""
        match sign:
            case "<":
                self.typed = self.typed[:-1]
            case "-":
                is_below = self.typed.startswith("-")
                self.typed = self.typed[1:] if is_below else f"-{self.typed}"
            case "." if "." in self.typed:
                pass
            case _ if sum(map(str.isdigit, self.typed)) < self.most_digits or sign == ".":
                self.typed += sign

    def use_frame(self, runner: Runner) -> None:
        """It is taken from the frame where one was worked, else set on an empty one."""
        if runner.takes_touches:
            self.take(runner.frame)
        elif self.frame is None:
            self.set_on_frame(runner.lesson.rods)

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

    def give(self, *, is_taken: bool) -> None:
        """It is given; where it is not taken, it stays in sight until another one is typed."""
        given = self.typed
        self.clear()
        self.refused = "" if is_taken else given

    def clear(self) -> None:
        """Forget it."""
        self.typed, self.frame, self.refused = "", None, ""


def signs_of(runner: Runner) -> str:
    """The signs that an answer may have beside digits, as far as they are taught or wanted."""
    calculation = runner.work.exercise.sum if runner.work is not None else None
    numbers = (calculation.result, calculation.remainder or 0) if calculation else ()
    wanted = " ".join(plain(Decimal(number)) for number in numbers)
    minus = "-" if runner.known & {"below-zero", "signs"} or "-" in wanted else ""
    return minus + ("." if runner.known & {"decimals", "unit-rod"} or "." in wanted else "")


def is_one_digit(runner: Runner) -> bool:
    """Whether the answer is what one rod reads: then a digit is all of it."""
    work = runner.work
    by_answer = work is not None and work.exercise.by_answer
    return len(runner.frame.digits) == 1 and not by_answer and not signs_of(runner)

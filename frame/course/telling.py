"""What is said, and what was said already."""

from dataclasses import dataclass, field

from frame.language.lines import Line


@dataclass
class Telling:
    """`said` answers what the learner did last. `line` is what is to be heard, `count` how often
    there was something; it is heard until `quiet_at`."""

    said: Line | None = None
    line: Line | None = None
    count: int = 0
    quiet_at: float = 0.0
    _heard: set[str] = field(default_factory=set)

    def tell(self, line: Line | None, *parts: Line | None) -> None:
        """This is to be heard, though it may have been heard before; `parts` are sentences within
        it."""
        for one in (line, *parts):
            if one is not None:
                self._heard.add(one.speak)
        if line is not None:
            # It takes the place of what is being heard.
            self.line, self.count, self.quiet_at = line, self.count + 1, 0.0

    def answer(self, line: Line | None) -> None:
        """This is said to what was just done."""
        self.said = line
        self.tell(line)

    def tell_once(self, line: Line | None) -> None:
        """This is to be heard where it was not heard yet."""
        if not self.was_heard(line):
            self.tell(line)

    def was_heard(self, line: Line | None) -> bool:
        """Whether there is nothing new in a sentence."""
        return line is None or line.speak in self._heard

    def begin(self, *lines: Line | None) -> None:
        """Something else is worked: nothing was heard of it but these sentences."""
        self._heard = {line.speak for line in lines if line is not None}


def joined(first: Line | None, second: Line | None) -> Line | None:
    """Two sentences heard one after the other; what is shown is the second's."""
    if first is None or second is None or first.speak == second.speak:
        return second or first
    return Line(second.show, f"{first.speak} {second.speak}")

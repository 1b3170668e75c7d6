"""A sentence in its two forms."""

from collections.abc import Iterable
from dataclasses import dataclass

_ENDS = (".", "?", "!")


@dataclass(frozen=True, slots=True)
class Line:
    """A sentence: the form to show and the form to speak."""

    show: str
    speak: str

    @classmethod
    def joined(cls, lines: Iterable["Line"], apart: str = " ") -> "Line":
        """Sentences one after the other; shown with this between them, each heard to its end."""
        some = list(lines)
        ends = ("" if one.speak.endswith(_ENDS) else "." for one in some)
        spoken = (f"{one.speak}{end}" for one, end in zip(some, ends, strict=True))
        return cls(apart.join(one.show for one in some), " ".join(spoken))

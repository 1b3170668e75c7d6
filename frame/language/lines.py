"""A sentence in its two forms."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Line:
    """A sentence: the form to show and the form to speak."""

    show: str
    speak: str

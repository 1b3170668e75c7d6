"""A sum while it is typed on the board, seen or unseen."""

from dataclasses import dataclass, replace

from frame.course.agenda import MOST_SIGNS, Item, items_of
from frame.course.problems import Problem

_BEGINNINGS = set("0123456789√(-−")
_SIGNS = set("0123456789+-−*x×X·⋅/÷:.,'()√= sqrtSQRT")


@dataclass(frozen=True, slots=True)
class TypedSum:
    """What is typed so far. While it `is_open` it has the keyboard; closed it is kept, to be gone
    on with. `is_wrong` tells that it was meant to be done and is no sum."""

    text: str = ""
    is_open: bool = False
    is_wrong: bool = False

    @property
    def is_full(self) -> bool:
        """Whether no more signs fit."""
        return len(self.text) >= MOST_SIGNS

    def takes(self, signs: str) -> bool:
        """Whether what a key types can be a part of a sum, or begins one."""
        return bool(signs) and set(signs) <= (_SIGNS if self.is_open else _BEGINNINGS)

    def plus(self, signs: str) -> "TypedSum":
        """With what a key types, if it can be a part of a sum; where none is open it begins one."""
        if not self.takes(signs):
            return self
        text = self.text + signs if self.is_open else signs
        return TypedSum(text[:MOST_SIGNS], is_open=True)

    def erased(self) -> "TypedSum":
        """Without the last sign."""
        return TypedSum(self.text[:-1], is_open=True)

    def opened(self, *, is_open: bool = True) -> "TypedSum":
        """The same, begun or gone on with; or laid aside."""
        return replace(self, is_open=is_open)

    def wrong(self) -> "TypedSum":
        """The same, to be mended."""
        return replace(self, is_wrong=True)

    @property
    def item(self) -> Item | None:
        """The sum as an item, a number alone as one that everyone reads; None where it is none."""
        items, problems = items_of(self.text)
        return None if problems or len(items) != 1 else items[0]

    @property
    def problem(self) -> Problem | None:
        """The first reason why it is none, None where it is one or empty."""
        return next(iter(items_of(self.text)[1]), None)

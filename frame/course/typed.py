"""A sum while it is typed on the board, seen or unseen."""

from dataclasses import dataclass

from frame.course.agenda import Item, items_of

MOST_TYPED = 40
_SIGNS = set("0123456789+-−*x×/÷:.,()√ sqrt")


@dataclass(frozen=True, slots=True)
class TypedSum:
    """What is typed so far. It has the keyboard while there is anything; `is_wrong` tells that
    it was meant to be done and is no sum."""

    text: str = ""
    is_wrong: bool = False

    @property
    def is_open(self) -> bool:
        """Whether something is typed: then every sign belongs to it."""
        return bool(self.text)

    def takes(self, signs: str) -> bool:
        """Whether what a key types can be a part of a sum."""
        is_start = self.is_open or signs.isdigit() or signs in ("√", "(", "-")
        return bool(signs) and is_start and set(signs) <= _SIGNS

    def plus(self, signs: str) -> "TypedSum":
        """With what a key types, if it can be a part of a sum."""
        return TypedSum((self.text + signs)[:MOST_TYPED]) if self.takes(signs) else self

    def erased(self) -> "TypedSum":
        """Without the last sign."""
        return TypedSum(self.text[:-1])

    def wrong(self) -> "TypedSum":
        """The same, to be mended."""
        return TypedSum(self.text, is_wrong=True)

    @property
    def item(self) -> Item | None:
        """The sum as an item, a number alone as one that everyone reads; None where it is none."""
        items, problems = items_of(self.text)
        return None if problems or len(items) != 1 else items[0]

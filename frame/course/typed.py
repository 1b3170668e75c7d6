"""A sum while it is typed on the board, seen or unseen."""

from dataclasses import dataclass

from frame.course.agenda import Item, items_of

MOST_TYPED = 40
_SIGNS = set("0123456789+-−*x×/÷:.,()√ sqrt")


@dataclass
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

    def type(self, signs: str) -> bool:
        """Add what a key types, if it can be a part of a sum. Whether it was."""
        if not self.takes(signs):
            return False
        self.text, self.is_wrong = (self.text + signs)[:MOST_TYPED], False
        return True

    def erase(self) -> None:
        """Take the last sign away."""
        self.text, self.is_wrong = self.text[:-1], False

    def clear(self) -> None:
        """Forget it."""
        self.text, self.is_wrong = "", False

    def take(self) -> Item | None:
        """The sum as an item, a number alone as one that everyone reads; None, and it stays to
        be mended, where it is none."""
        items, problems = items_of(self.text)
        self.is_wrong = bool(problems) or len(items) != 1
        if self.is_wrong:
            return None
        self.clear()
        return items[0]

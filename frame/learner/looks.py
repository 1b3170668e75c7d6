"""How a learner is told from others at a glance: an animal before a flag."""

from typing import NamedTuple

from frame.drawn import ANIMALS

FLAGS = ("plain", "halves", "stripes", "cross", "checks")
"""As ships' signal flags: what is on them differs, and not only their colours."""


class Portrait(NamedTuple):
    """An animal and the flag behind it."""

    animal: str
    flag: str = FLAGS[0]

    @property
    def picture(self) -> str:
        """How it is kept: the animal, and unless the flag is plain, its name behind a hyphen."""
        return self.animal if self.flag == FLAGS[0] else f"{self.animal}-{self.flag}"


def portrait_of(picture: str) -> Portrait | None:
    """The portrait that is kept like this; None for one of a later version, or of nobody.

    >>> portrait_of("otter-cross"), portrait_of("otter"), portrait_of("walrus-plaid")
    (Portrait(animal='otter', flag='cross'), Portrait(animal='otter', flag='plain'), None)
    """
    animal, _, flag = picture.partition("-")
    found = Portrait(animal, flag or FLAGS[0])
    return found if animal in ANIMALS and found.flag in FLAGS else None

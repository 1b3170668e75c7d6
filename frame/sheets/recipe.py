"""A recipe: all that says what stands on a sheet, so that it can be made again."""

from dataclasses import dataclass
from enum import StrEnum
from itertools import chain

from frame.sheets.taught_order import TAUGHT

MOST_SEED = 9999
MOST_COUNT = 60
MOST_BY = 7


class Kind(StrEnum):
    """What a sheet has to do: READ frames that are drawn, SET numbers and read them again, work
    COLUMNS, PRODUCTS, QUOTIENTS and ROOTS, PARTNERS of five and ten on cards to be cut out, follow
    a STRIP of one sum bead by bead, move fingers on an empty FRAME, work the same kind of sums with
    less and less of a frame in sight (LADDER), or a graded PAPER."""

    READ = "read"
    SET = "set"
    COLUMNS = "columns"
    PRODUCTS = "products"
    QUOTIENTS = "quotients"
    ROOTS = "roots"
    PARTNERS = "partners"
    STRIP = "strip"
    FRAME = "frame"
    LADDER = "ladder"
    PAPER = "paper"


class Version(StrEnum):
    """Sheets of one recipe with other numbers, equally hard."""

    A = "A"
    B = "B"
    C = "C"


class Leaf(StrEnum):
    """The paper it is printed on."""

    A4 = "A4"
    LETTER = "Letter"


class Part(StrEnum):
    """How much of a graded paper: all of it, one section alone, or five tasks to warm up."""

    WHOLE = "whole"
    COLUMNS = "columns"
    PRODUCTS = "products"
    QUOTIENTS = "quotients"
    WARM_UP = "warm-up"


TAKING = ("sub-", "ripple-sub")
"""How the facts begin by which numbers are taken away."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Recipe:
    """What a sheet is made of. Two equal ones make the same sheet.

    `count` tasks; columns have `rows` numbers of up to `digits` digits, with `minus` some to be
    taken away. Of a product or a quotient the multiplier or divisor has `by` digits, and the other
    factor, the quotient or the root has `digits`. Each task needs one of `facts`, in their order
    in ALL_FACTS, and nothing that is `TAUGHT` after them; without any all may be needed. A PAPER
    has a `grade` of the table and a `part`, and nothing else of these. With `is_worked` the key
    shows the bead moves of the first task.
    """

    kind: Kind
    seed: int = 1
    version: Version = Version.A
    leaf: Leaf = Leaf.A4
    count: int = 20
    rows: int = 2
    digits: int = 1
    by: int = 1
    minus: bool = False
    facts: tuple[str, ...] = ()
    grade: str = ""
    part: Part = Part.WHOLE
    is_worked: bool = False

    @property
    def known(self) -> frozenset[str]:
        """The facts that may be needed: those asked for, and all that is taught before and with
        the last of them. All facts where none is asked for."""
        asked = frozenset(self.facts) or frozenset(chain.from_iterable(TAUGHT))
        last = max(at for at, new in enumerate(TAUGHT) if asked.intersection(new))
        return frozenset(chain.from_iterable(TAUGHT[: last + 1]))

    @property
    def can_take(self) -> bool:
        """Whether it is taught by then how numbers are taken away."""
        return any(fact.startswith(TAKING) for fact in self.known)

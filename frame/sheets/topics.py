"""What a sheet may be for: facts by family or by the fault that shows with them, and the kind of
sheet on which they stand."""

from collections import Counter
from collections.abc import Iterable
from functools import cache

from frame.practice.examples import example_of
from frame.practice.families import Family, family_of_fact
from frame.practice.items import CELLS, items_of_facts
from frame.practice.suspects import shown_by
from frame.sheets.recipe import Kind
from frame.technique.conventions import USUAL
from frame.technique.facts import ALL_FACTS
from frame.technique.habits import Habit

_KINDS = {
    Family.READ: Kind.READ,
    Family.SET: Kind.SET,
    Family.MULTIPLY: Kind.PRODUCTS,
    Family.DIVIDE: Kind.QUOTIENTS,
    Family.ROOT: Kind.ROOTS,
}
_OTHERS = {"unit-rod": Kind.PRODUCTS, "round": Kind.QUOTIENTS}
"""Facts of numbers with a point that columns never need."""
_FACT_OF_CELL = {str(cell): cell.fact for cell in CELLS}
_OF_TABLE = "multiply-1"
_OF_COLUMNS = (Kind.STRIP, Kind.LADDER)
"""What has columns as COLUMNS has."""
_NEVER_ASKED = ("clear", "revise-up")
"""No task on paper needs them: nobody is told there which trial digit to begin with."""


def facts_of(family: Family) -> tuple[str, ...]:
    """The facts of a family."""
    return tuple(fact for fact in ALL_FACTS if family_of_fact(fact) is family)


def kind_of(fact: str) -> Kind:
    """The kind of sheet whose tasks need a fact."""
    return _OTHERS.get(fact) or _KINDS.get(family_of_fact(fact), Kind.COLUMNS)


def fitting(kind: Kind, facts: Iterable[str]) -> tuple[str, ...]:
    """Those of some facts that tasks of a kind may be for."""
    if kind is Kind.FRAME:
        return ()
    if kind is Kind.PARTNERS:
        return tuple(one for one in facts if family_of_fact(one).has_partners)
    needed = Kind.COLUMNS if kind in _OF_COLUMNS else kind
    return tuple(one for one in facts if kind_of(one) is needed and one not in _NEVER_ASKED)


def kind_for(facts: Iterable[str]) -> Kind:
    """The kind for most of some facts, of several that of the first; of numbers that are read or
    set only where there is nothing else. Columns without any."""
    some = tuple(facts)
    sums = [fact for fact in some if family_of_fact(fact).is_of_sums]
    kinds = Counter(map(kind_of, sums or some))
    return kinds.most_common(1)[0][0] if kinds else Kind.COLUMNS


def facts_of_items(items: Iterable[str]) -> tuple[str, ...]:
    """The facts of which some items are cases, in the order of ALL_FACTS."""
    found = {_FACT_OF_CELL.get(item, _OF_TABLE if "x" in item else item) for item in items}
    return tuple(fact for fact in ALL_FACTS if fact in found)


@cache
def facts_showing(habit: Habit) -> tuple[str, ...]:
    """The facts that lead whoever has a habit astray, in one example of theirs at least."""
    return tuple(fact for fact in ALL_FACTS if _shows(habit, fact))


def _shows(habit: Habit, fact: str) -> bool:
    examples = (example_of(item) for item in items_of_facts([fact]))
    return any(habit in shown_by(one.sum, USUAL) for one in examples if len(one.sum.numbers) > 1)

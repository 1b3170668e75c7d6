"""Words for what the technique model says of a step: its rule, its bead moves, its rods."""

from collections.abc import Sequence
from decimal import Decimal
from enum import StrEnum

from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.language.numbers import grouped, rod_name
from frame.technique.beads import BeadMove, Stroke
from frame.technique.fingers import finger_of
from frame.technique.plan import Step, Technique


class Listener(StrEnum):
    """For whom a sentence is: children of 4 to 6, or everyone from 7 on."""

    YOUNG = "young"
    OLDER = "older"


def rule_parts(step: Step) -> tuple[int, ...]:
    """What a step's digit is worked as, in the school's order: +6 as (1, -5, 10).

    The parts add up to the step's change; a direct step has one part.
    """
    sign = 1 if step.change > 0 else -1
    to_ten = 10 - step.digit
    carry = 10 * sign
    match step.technique:
        case Technique.FIVE:
            return (5 * sign, -sign * (5 - step.digit))
        case Technique.TEN:
            own: tuple[int, ...] = (-sign * to_ten,)
        case Technique.TEN_FIVE if sign > 0:
            own = (5 - to_ten, -5)
        case Technique.TEN_FIVE:
            own = (5, to_ten - 5)
        case _:
            return (step.change,)
    carry_first = bool(step.moves) and step.moves[0].rod != step.rod
    return (carry, *own) if carry_first or sign < 0 else (*own, carry)


def rule(step: Step, words: Words) -> str:
    """The rule as a formula: "+3 = +5 −2"; the signed digit alone where it is worked directly."""
    if step.technique is Technique.BORROW:
        return words.text("rule.borrow", number=Decimal(10) ** step.rod)
    if not step.change:
        return words.text("rule.mend")
    whole, parts = _signed(step.change, words), _parts_with_ripple(step)
    return whole if len(parts) == 1 else _formula(whole, parts, words)


def _formula(whole: str, parts: Sequence[int | None], words: Words) -> str:
    """A formula; None stands for what is left out."""
    shown = ["…" if part is None else _signed(part, words) for part in parts]
    return words.text("rule.formula", whole=whole, parts=" ".join(shown))


def over_rules(step: Step, words: Words) -> tuple[tuple[int, str], ...]:
    """The rules of a carry or borrow that goes through the five on its own rod, by the rod: a carry
    onto 4 is "+1 = +5 −4" there."""
    sign = 1 if step.change > 0 else -1
    five = [move.rod for move in step.moves if move.rod != step.rod and move.change == 5 * sign]
    pairs = [rod for rod in five if any(m.rod == rod and m.change == -4 * sign for m in step.moves)]
    whole = _signed(sign, words)
    return tuple((rod, _formula(whole, (5 * sign, -4 * sign), words)) for rod in pairs)


def whole_rule(step: Step, words: Words) -> str:
    """The rule of a step with those of its carry: "+5 = −5 +10, +1 = +5 −4"."""
    return ", ".join((rule(step, words), *(text for _, text in over_rules(step, words))))


def over_line(step: Step, words: Words, listener: Listener) -> Line | None:
    """The rule of a carry or borrow that goes through the five, as a sentence; None where none
    does."""
    rods = [rod for rod, _ in over_rules(step, words)]
    if not rods:
        return None
    one = step._replace(technique=Technique.FIVE, change=1 if step.change > 0 else -1, ripple=0)
    said = _uncapital(rule_line(one, words, listener).show)
    return words.line("rule.there", rod=rod_name(rods[0], words), rule=said)


_MOST_NINES = 2
"""How many 9s of a ripple a formula shows."""


def _parts_with_ripple(step: Step) -> tuple[int | None, ...]:
    """The parts of a step's digit with each 9 of a ripple: +1 as (-9, -90, 100); of a long one the
    first and the last, None standing for those between."""
    parts, carry = rule_parts(step), 10 if step.change > 0 else -10
    if not step.ripple:
        return parts
    nines: list[int | None] = [-9 * carry * 10**place for place in range(step.ripple)]
    if len(nines) > _MOST_NINES:
        nines[1:-1] = [None]
    far = carry * 10**step.ripple
    carry_first = parts[0] == carry
    own = parts[1:] if carry_first else parts[:-1]
    return (far, *reversed(nines), *own) if carry_first else (*own, *nines, far)


def rule_line(step: Step, words: Words, listener: Listener) -> Line:
    """The rule as a sentence, in the order of the hand: "Five in, two out.", "One in, five out"."""
    if step.technique is Technique.BORROW:
        return words.line(f"rule.borrow_line.{listener}", number=Decimal(10) ** step.rod)
    if not step.change:
        return words.line("rule.mend_line")
    parts = rule_parts(step)
    if step.technique is Technique.FIVE and step.change < 0:
        parts = parts[::-1]  # The thumb brings the partner before the five bead goes.
    said = ", ".join(_in_or_out(part, words) for part in parts)
    return words.line("rule.sentence", said=_capital(said))


def _signed(number: int, words: Words) -> str:
    """A part of a formula: "+1 000"."""
    key = "rule.plus" if number >= 0 else "rule.minus"
    return words.text(key, number=grouped(str(abs(number))))


def _in_or_out(number: int, words: Words) -> str:
    return words.text("rule.in" if number > 0 else "rule.out", count=words.number(abs(number)))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


def _uncapital(text: str) -> str:
    return text[:1].lower() + text[1:]


def move_text(move: BeadMove, words: Words, name_rod: bool = True) -> str:
    """The move in words: "Five bead down", "Two ones up", "Two beads up on the tens"."""
    return _capital(_move(move, words, name_rod))


def stroke_text(stroke: Stroke, words: Words, name_rod: bool = True) -> str:
    """The stroke in words; the two moves of a pinch joined."""
    return _capital(_stroke(stroke, words, name_rod))


def finger_text(move: BeadMove, words: Words) -> str:
    """The finger that makes the move."""
    return words.text(f"finger.{finger_of(move)}")


def _move(move: BeadMove, words: Words, name_rod: bool) -> str:
    of_ones = name_rod and move.rod == 0
    text = _beads(move, words, of_ones)
    if not name_rod or move.rod == 0:
        return text
    return words.text("move.on_rod", move=text, rod=rod_name(move.rod, words))


def _beads(move: BeadMove, words: Words, of_ones: bool) -> str:
    way = "up" if (move.change > 0) != move.is_heaven else "down"
    if move.is_heaven:
        return words.text(f"move.heaven_{way}")
    if move.beads == 1:
        return words.text(f"move.bead_{way}")
    kind = "ones" if of_ones else "beads"
    return words.text(f"move.{kind}_{way}", count=words.number(move.beads))


def _stroke(stroke: Stroke, words: Words, name_rod: bool) -> str:
    if len(stroke) == 1:
        return _move(stroke[0], words, name_rod)
    first, second = stroke
    return words.text(
        "move.pinch",
        first=_move(first, words, name_rod=False),
        second=_move(second, words, name_rod),
    )


def names_rods(step: Step | None) -> bool:
    """Whether the names of places fit: where operands stand, a rod has other names than its own."""
    return step is None or step.span is None

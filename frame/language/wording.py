"""Sentences for what the technique model says: rules, moves, verdicts and help.

A sentence names the bead, never the child, says the next act, and is short: spoken, at most
8 words for a young child and 14 for an older one.
"""

from decimal import Decimal
from enum import StrEnum

from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.language.numbers import rod_name
from frame.language.written import work_line
from frame.technique.beads import BeadMove, Stroke
from frame.technique.fingers import finger_of
from frame.technique.judge import Judgement, Verdict
from frame.technique.plan import Progress, Step, Technique
from frame.technique.slips import Slip


class Age(StrEnum):
    """For whom a sentence is: children of 4 to 6, or everyone from 7 on."""

    YOUNG = "young"
    OLDER = "older"


class Help(StrEnum):
    """The three levels of help, each saying more than the one before."""

    POINT = "point"
    TEACH = "teach"
    SHOW = "show"


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
    whole, parts = _signed(step.change, words).show, _parts_with_ripple(step)
    if len(parts) == 1:
        return whole
    return words.text(
        "rule.formula", whole=whole, parts=" ".join(_signed(part, words).show for part in parts)
    )


def _parts_with_ripple(step: Step) -> tuple[int, ...]:
    """The parts of a step's digit with each 9 of a ripple: +1 as (-9, -90, 100)."""
    parts, carry = rule_parts(step), 10 if step.change > 0 else -10
    if not step.ripple:
        return parts
    nines = [-9 * carry * 10**place for place in range(step.ripple)]
    far = carry * 10**step.ripple
    carry_first = parts[0] == carry
    own = parts[1:] if carry_first else parts[:-1]
    return (far, *reversed(nines), *own) if carry_first else (*own, *nines, far)


def rule_line(step: Step, words: Words, age: Age) -> Line:
    """The rule as a sentence: "Five in, two out." or "+5, −2 makes +3."."""
    if step.technique is Technique.BORROW:
        return words.line(f"rule.borrow_line.{age}", number=Decimal(10) ** step.rod)
    parts = rule_parts(step)
    if age is Age.YOUNG:
        said = ", ".join(_in_or_out(part, words) for part in parts)
        return words.line("rule.sentence", said=_capital(said))
    whole = _signed(step.change, words)
    if len(parts) == 1:
        return words.line("rule.sentence", said=whole)
    return words.line("rule.makes", whole=whole, parts=_joined([_signed(p, words) for p in parts]))


def _signed(number: int, words: Words) -> Line:
    return words.line("rule.plus" if number >= 0 else "rule.minus", number=abs(number))


def _in_or_out(number: int, words: Words) -> str:
    return words.text("rule.in" if number > 0 else "rule.out", count=words.number(abs(number)))


def _joined(lines: list[Line]) -> Line:
    return Line(", ".join(line.show for line in lines), ", ".join(line.speak for line in lines))


def _capital(text: str) -> str:
    return text[:1].upper() + text[1:]


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


def verdict_line(verdict: Verdict, words: Words, age: Age) -> Line:
    """What is said of a stroke: praise by its rule, or the slip and the next act."""
    if verdict.slip is not None:
        return _slip_line(verdict.slip, verdict.step, verdict.stroke, verdict.progress, words, age)
    if verdict.judgement is Judgement.OTHER_ORDER:
        return _order_line(verdict, words, age)
    if verdict.part:
        return _part_line(verdict, words, age)
    return _right_line(verdict, words, age)


def omission_line(slip: Slip, progress: Progress, words: Words, age: Age) -> Line:
    """What is said when the step under way is left without something."""
    return _slip_line(slip, progress.step, (), progress, words, age)


def _right_line(verdict: Verdict, words: Words, age: Age) -> Line:
    """The rule when the step is done with this stroke, the move alone before that."""
    step, to_come = verdict.step, verdict.progress.step
    if step is not None and step.change and to_come is not step:
        line = words.line(f"verdict.right_step.{age}", rule=rule_line(step, words, age))
        if to_come is None or not _is_asked_for(step, to_come):
            return line
        return words.line("verdict.then", what=line, act=work_line(to_come.operation, words))
    said = _stroke(verdict.stroke, words, name_rod=age is Age.OLDER and names_rods(step))
    said = _capital(said) if age is Age.YOUNG else said
    return words.line(f"verdict.right_move.{age}", move=said)


def _is_asked_for(done: Step, to_come: Step) -> bool:
    """Whether a step begins a line of work that is asked for as soon as the one before is done."""
    act = to_come.operation.act
    is_next_line = done.operation != to_come.operation
    return is_next_line and (act.is_trial or act.is_mending)


def names_rods(step: Step | None) -> bool:
    """Whether the names of places fit: where operands stand, a rod has other names than its own."""
    return step is None or step.span is None


def _order_line(verdict: Verdict, words: Words, age: Age) -> Line:
    if verdict.kept:
        return words.line("verdict.other_order")
    first = words.line(f"verdict.order_first.{age}")
    return _with_next(first, verdict.progress, verdict.stroke[0].rod, words, age)


def _part_line(verdict: Verdict, words: Words, age: Age) -> Line:
    """The remark on a part of a stroke: how many beads of it are to come."""
    made = next(move for move in verdict.stroke if not move.is_heaven)
    rest = next(
        move
        for move in verdict.progress.left_in_plan
        if move.rod == made.rod and not move.is_heaven and move.change * made.change > 0
    )
    way = "up" if rest.change > 0 else "down"
    more = words.text(f"move.more_{way}", count=words.number(rest.beads))
    said = _capital(more) if age is Age.YOUNG else more
    return words.line(f"verdict.part.{age}", more=said)


def _slip_line(
    slip: Slip, step: Step | None, stroke: Stroke, progress: Progress, words: Words, age: Age
) -> Line:
    if slip is Slip.WRONG_PARTNER:
        what = _partner_line(step, stroke, words, age)
    elif slip is Slip.FIVES_PARTNER_FOR_TENS and step is not None:
        what = _of_ten(step, words, age)
    else:
        what = words.line(f"slip.{slip}.{age}")
    here = stroke[0].rod if stroke else step.rod if step else 0
    return _with_next(what, progress, here, words, age)


def _partner_line(step: Step | None, stroke: Stroke, words: Words, age: Age) -> Line:
    """The pair that was wanted: of five where the step's beads of that rod work against each
    other, else of ten."""
    if step is None:
        return words.line(f"slip.{Slip.WRONG_COUNT}.{age}")
    earth = next((m for m in stroke if not m.is_heaven), None)
    if earth is not None and _goes_through_five(step, earth.rod):
        return words.line(f"slip.partner-of-five.{age}", one=earth.beads, other=5 - earth.beads)
    return _of_ten(step, words, age)


def _of_ten(step: Step, words: Words, age: Age) -> Line:
    return words.line(f"slip.partner-of-ten.{age}", one=step.digit, other=10 - step.digit)


def _goes_through_five(step: Step, rod: int) -> bool:
    moves = [move for move in step.moves if move.rod == rod]
    return any(one.change * other.change < 0 for one in moves for other in moves)


def _with_next(what: Line, progress: Progress, here: int, words: Words, age: Age) -> Line:
    """The sentence with the next act behind it: the move, or for the young only the rod when
    it is another one."""
    left = progress.left_in_plan
    if not left:
        return what
    if age is Age.OLDER:
        name_rod = names_rods(progress.step)
        move = _move(left[0], words, name_rod)
        act = words.line("verdict.next_move.older", move=move if name_rod else _capital(move))
    elif left[0].rod == here or not names_rods(progress.step):
        act = words.line("verdict.next_move.young", move=move_text(left[0], words, name_rod=False))
    else:
        act = words.line("verdict.next_rod", rod=rod_name(left[0].rod, words))
    return words.line("verdict.then", what=what, act=act)


def hint_line(progress: Progress, level: Help, words: Words, age: Age) -> Line:
    """The help at one level: where to look, the rule, or a call to watch it done."""
    step = progress.step
    if step is None:
        return words.line("hint.done")
    if level is Help.POINT:
        rod = rod_name(progress.left_in_step[0].rod, words)
        return words.line(f"hint.point.{age if names_rods(step) else Age.YOUNG}", rod=rod)
    if level is Help.TEACH and not step.operation.act.is_of_column:
        return work_line(step.operation, words)
    if level is Help.TEACH and step.technique is Technique.DIRECT:
        name_rod = age is Age.OLDER and names_rods(step)
        move = stroke_text(_next_stroke(progress), words, name_rod)
        return words.line("hint.move", move=move)
    if level is Help.TEACH:
        return rule_line(step, words, age)
    return words.line(f"hint.show.{age}")


def _next_stroke(progress: Progress) -> Stroke:
    """The stroke to make next, or what is left of it."""
    return progress.remaining(progress.at)

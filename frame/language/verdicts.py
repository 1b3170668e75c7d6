"""Sentences for verdicts and help.

A sentence names the bead, never the child, says the next act, and is short: spoken, at most
8 words for a young child and 14 for an older one. What it claims of the beads is true of them.
"""

from decimal import Decimal
from enum import StrEnum

from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.language.numbers import rod_name
from frame.language.wording import (
    Listener,
    move_text,
    names_rods,
    rule_line,
    stroke_text,
)
from frame.language.written import work_line
from frame.technique.beads import BeadMove
from frame.technique.judge import Judgement, Verdict
from frame.technique.operation import Act, Operation
from frame.technique.plan import Step, Technique
from frame.technique.progress import Progress
from frame.technique.slips import ASTRAY, Fault, Slip, same_deck, same_way


class Hint(StrEnum):
    """The three levels of help, each saying more than the one before."""

    POINT = "point"
    TEACH = "teach"
    SHOW = "show"


def verdict_line(verdict: Verdict, words: Words, listener: Listener) -> Line:
    """What is said of a stroke: praise by its rule, or the slip and the next act."""
    if verdict.fault is not None:
        here = verdict.stroke[0].rod
        return _fault_line(verdict.fault, verdict.progress, here, words, listener)
    if verdict.progress.is_astray:
        key = f"verdict.astray.{listener}" if verdict.kept else f"verdict.left_astray.{listener}"
        return _with_next(words.line(key), verdict.progress, None, words, listener)
    if verdict.judgement is Judgement.OTHER_ORDER:
        return _order_line(verdict, words, listener)
    if verdict.part:
        return _part_line(verdict, words, listener)
    return _right_line(verdict, words, listener)


def shown_line(verdict: Verdict, words: Words, listener: Listener) -> Line:
    """What is said of a slip where the right stroke is shown: the reason, then a call to watch.
    "Like this" would be taken of the rod that was touched, so where another is shown, the next act
    names it."""
    touched = {move.rod for move in verdict.stroke}
    if touched.isdisjoint(move.rod for move in verdict.progress.next_stroke):
        return verdict_line(verdict, words, listener)
    show = hint_line(verdict.progress, Hint.SHOW, words, listener)
    if verdict.fault is None:
        return show
    what = _what_is_said(verdict.fault, verdict.progress, words, listener)
    return words.line("verdict.then", what=what, act=show)


def next_shown_line(verdict: Verdict, words: Words, listener: Listener) -> Line:
    """What is said of a wrong stroke of which the reason was told: the next act, and a call to
    watch it."""
    act = _next_act(verdict.progress, verdict.stroke[0].rod, words, listener)
    show = hint_line(verdict.progress, Hint.SHOW, words, listener)
    return show if act is None else words.line("verdict.then", what=act, act=show)


def omission_line(fault: Fault, progress: Progress, words: Words, listener: Listener) -> Line:
    """What is said when the work is left without something."""
    if progress.is_astray:
        return _with_next(
            words.line(f"verdict.left_astray.{listener}"), progress, None, words, listener
        )
    return _fault_line(fault, progress, None, words, listener)


def _right_line(verdict: Verdict, words: Words, listener: Listener) -> Line:
    """The rule when the step is done with this stroke, the move alone before that."""
    step, to_come = verdict.step, verdict.progress.step
    is_done = step is not None and (to_come is None or _digit_of(step) != _digit_of(to_come))
    if step is not None and is_done and step.change and not _is_chosen(verdict, step):
        line = words.line("verdict.right_step", rule=rule_line(step, words, listener))
        if to_come is None or not _is_asked_for(step, to_come):
            return line
        return words.line("verdict.then", what=line, act=work_line(to_come.operation, words))
    name_rod = listener is Listener.OLDER and names_rods(step)
    return words.line("verdict.right_move", move=stroke_text(verdict.stroke, words, name_rod))


def _digit_of(step: Step) -> tuple[Operation, int, int]:
    """The digit that a step works, by whatever strokes from where the frame stands."""
    return step.operation, step.rod, step.change


def _is_chosen(verdict: Verdict, step: Step) -> bool:
    """Whether another trial digit stands than the step's own, or an earlier one was changed, so
    that its rule was not worked."""
    line = step.operation
    if not all(any(same_deck(move, one) for one in step.moves) for move in verdict.stroke):
        return True
    is_digit = line.act.is_trial or line.act.is_revision
    return is_digit and verdict.progress.frame.digit(step.rod) != int(line.digits)


def _is_asked_for(done: Step, to_come: Step) -> bool:
    """Whether a step begins a line of work that is asked for as soon as the one before is done."""
    act = to_come.operation.act
    is_next_line = done.operation != to_come.operation
    return is_next_line and (act.is_trial or act.is_mending)


def _order_line(verdict: Verdict, words: Words, listener: Listener) -> Line:
    if verdict.kept:
        return words.line("verdict.other_order")
    first = words.line(f"verdict.order_first.{listener}")
    return _with_next(first, verdict.progress, verdict.stroke[0].rod, words, listener)


def _part_line(verdict: Verdict, words: Words, listener: Listener) -> Line:
    """The remark on a part of a stroke: how many beads of it are to come."""
    rest = next(
        move
        for move in verdict.progress.next_stroke
        if any(same_way(move, made) for made in verdict.stroke)
    )
    way = "up" if rest.change > 0 else "down"
    more = words.text(f"move.more_{way}", count=words.number(rest.beads))
    said = more[:1].upper() + more[1:] if listener is Listener.YOUNG else more
    return words.line(f"verdict.part.{listener}", more=said)


def _fault_line(
    fault: Fault, progress: Progress, here: int | None, words: Words, listener: Listener
) -> Line:
    """The sentence of a slip and the next act; `here` is the rod that was touched."""
    what = _what_is_said(fault, progress, words, listener)
    return _with_next(what, progress, here, words, listener)


def _what_is_said(fault: Fault, progress: Progress, words: Words, listener: Listener) -> Line:
    """The sentence of a slip, with its figures."""
    slip, line = fault.slip, fault.line
    if fault.detail == ASTRAY:
        return words.line(f"verdict.left_astray.{listener}")
    if pair := _pair(fault):
        return pair_line(*pair, words, listener)
    if slip is Slip.WRONG_TOTAL and line is not None:
        return work_line(line, words)
    if slip is Slip.NOT_ASKED and fault.move is not None and progress.frame.has(fault.move.rod):
        digit = progress.frame.digit(fault.move.rod)
        return words.line(f"slip.not-asked.{listener}", digit=Decimal(digit))
    return words.line(f"slip.{_key(fault)}.{listener}", **_figures(fault, words))


def _key(fault: Fault) -> str:
    """The key of a slip's sentence, of which some have more than one."""
    slip, line = fault.slip, fault.line
    if fault.detail == "digit" and not names_rods(fault.step):
        return slip
    if fault.detail:
        return f"{slip}-{fault.detail}"
    if fault.side:
        return f"{slip}-{'right' if fault.side > 0 else 'left'}"
    if slip is Slip.WRONG_COUNT and not fault.numbers:
        return f"{slip}-left"
    if slip is Slip.NOT_REVISED and fault.numbers:
        return f"{slip}-numbers"
    if line is not None and line.act is Act.SUBTRACT_HALF and slip in _HALVED:
        return f"{slip}-half"
    if line is not None and line.act is Act.TAKE_AGAIN:
        return f"{slip}-again"
    return slip


_HALVED = (Slip.LINE_OUT_OF_ORDER, Slip.WRONG_PRODUCT, Slip.PRODUCT_ONE_ROD_OFF)


def _figures(fault: Fault, words: Words) -> dict[str, Decimal | str]:
    """The figures of a slip's sentence: those of its line, and its own."""
    found: dict[str, Decimal | str] = {}
    if line := fault.line:
        found["number"] = line.number
        if line.act is Act.SUBTRACT_HALF:
            found["number"] = Decimal(5 * line.factors[0] ** 2) / 10
        found |= dict(zip(("one", "other"), map(Decimal, line.factors), strict=False))
    if fault.slip is Slip.WRONG_COUNT and fault.numbers:
        return {"count": words.number(int(fault.numbers[0]))}
    if fault.slip is Slip.WRONG_ROD and fault.numbers:
        rod = fault.step.rod if fault.step else 0
        return {"number": fault.numbers[0], "rod": rod_name(rod, words)}
    return found | dict(zip(("here", "there", "product", "rest"), fault.numbers, strict=False))


def _pair(fault: Fault) -> tuple[int, int, int] | None:
    """The pair of partners that was wanted: of what, the number worked, its partner; None where
    the slip is of no pair."""
    step, move = fault.step, fault.move
    if step is None:
        return None
    if fault.slip is Slip.FIVES_PARTNER_FOR_TENS:
        return 10, step.digit, 10 - step.digit
    if fault.slip is Slip.INNER_FIVE_MISSED:
        inner = 10 - step.digit
        return (5, inner, 5 - inner) if fault.detail == "five" else None
    if fault.slip is not Slip.WRONG_PARTNER:
        return None
    if move is not None and move.rod != step.rod:
        return 5, 1, 4
    if step.technique is Technique.FIVE:
        return 5, step.digit, 5 - step.digit
    if step.technique is Technique.TEN_FIVE:
        return 5, 10 - step.digit, step.digit - 5
    return 10, step.digit, 10 - step.digit


def pair_line(of: int, one: int, other: int, words: Words, listener: Listener) -> Line:
    """The partners of five or of ten, by name."""
    key = "partner-of-five" if of == 5 else "partner-of-ten"
    return words.line(f"slip.{key}.{listener}", one=Decimal(one), other=Decimal(other))


def _with_next(
    what: Line, progress: Progress, here: int | None, words: Words, listener: Listener
) -> Line:
    """The sentence with the next act behind it."""
    act = _next_act(progress, here, words, listener)
    return what if act is None else words.line("verdict.then", what=what, act=act)


def _next_act(
    progress: Progress, here: int | None, words: Words, listener: Listener
) -> Line | None:
    """The next act: the move, or for the young only the rod when it is another one. Where operands
    stand, a rod is named only when it is another."""
    if not progress.next_stroke:
        return None
    move, is_named = progress.next_stroke[0], names_rods(progress.step)
    if listener is Listener.OLDER:
        return words.line("verdict.next_move.older", move=_next_text(move, here, progress, words))
    is_alone = len(progress.frame.digits) == 1
    if move.rod == here or is_alone or not is_named:
        return words.line("verdict.next_move.young", move=move_text(move, words, name_rod=False))
    return words.line("verdict.next_rod", rod=rod_name(move.rod, words))


def _next_text(move: BeadMove, here: int | None, progress: Progress, words: Words) -> str:
    """The next move, as it stands behind "Next:"."""
    if names_rods(progress.step):
        text = move_text(move, words)
    else:
        text = move_text(move, words, name_rod=False)
        if move.rod != here:
            number = words.number(progress.frame.units - move.rod + 1)
            text = words.text("move.on_number", move=text, number=number)
    return text[:1].lower() + text[1:]


def _names_rod(progress: Progress, listener: Listener) -> bool:
    """Whether a move's rod is named: on one rod there are no ones to tell from tens."""
    is_alone = len(progress.frame.digits) == 1
    return listener is Listener.OLDER and names_rods(progress.step) and not is_alone


def hint_line(progress: Progress, level: Hint, words: Words, listener: Listener) -> Line:
    """The help at one level: where to look, the rule, or a call to watch it done."""
    step = progress.step
    if step is None:
        return words.line("hint.done")
    if level is Hint.POINT:
        rod = rod_name(progress.next_stroke[0].rod, words)
        return words.line(f"hint.point.{listener if names_rods(step) else Listener.YOUNG}", rod=rod)
    if level is Hint.TEACH and progress.is_astray:
        name_rod = _names_rod(progress, listener)
        return words.line("hint.move", move=move_text(progress.next_stroke[0], words, name_rod))
    if level is Hint.TEACH and not step.operation.act.is_of_column:
        return work_line(step.operation, words)
    if level is Hint.TEACH and step.technique is Technique.DIRECT:
        name_rod = _names_rod(progress, listener)
        move = stroke_text(progress.next_stroke, words, name_rod)
        return words.line("hint.move", move=move)
    if level is Hint.TEACH:
        return rule_line(step, words, listener)
    return words.line(f"hint.show.{listener}")

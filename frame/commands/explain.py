"""`explain`: how a trained hand works a sum, every bead move with its finger and its rule."""

from collections.abc import Sequence

from frame.commands.output import Json, columns, stream, write_json
from frame.commands.working import Ways, worked
from frame.language.catalogue import Words
from frame.language.reasons import reason_line
from frame.language.wording import finger_text, move_text, names_rods, over_rules, rule
from frame.language.written import operation_text, written_out
from frame.technique.beads import BeadMove, Frame
from frame.technique.fingers import finger_of
from frame.technique.plan import Plan, Step
from frame.technique.reading import plain
from frame.technique.reasons import Reason, Why, reasons_of


def explain(text: str, ways: Ways, is_json: bool, words: Words) -> int:
    """The sum is explained on standard output; "-" explains every line of standard input.

    Answers the exit status. Raises Refusal.
    """

    def shape(line: str) -> Json:
        calculation, plan = worked(line, ways, words)
        return plan_shape(str(calculation), plan, words)

    if text == "-":
        return stream(shape, words)
    if is_json:
        write_json(shape(text))
    else:
        calculation, plan = worked(text, ways, words)
        print(plan_table(written_out(calculation), plan, words))
    return 0


def plan_shape(expression: str, plan: Plan, words: Words) -> Json:
    """The plan as JSON."""
    return {
        "expression": expression,
        "conventions": {
            "carry": plan.conventions.carry,
            "remove": plan.conventions.remove,
            "layout": plan.conventions.layout,
            "outer": plan.conventions.outer,
            "first": plan.conventions.first,
        },
        "reading": plain(plan.result),
        "remainder": None if plan.remainder is None else plain(plan.remainder),
        "steps": [
            _step_shape(plan, step, frame, reasons, words)
            for (step, frame), reasons in zip(plan.frames(), reasons_of(plan), strict=True)
        ],
    }


def _step_shape(
    plan: Plan, step: Step, frame: Frame, reasons: Sequence[Reason], words: Words
) -> Json:
    return {
        "operation": str(step.operation),
        "rod": step.rod,
        "digit": step.digit,
        "technique": step.technique,
        "ripple": step.ripple,
        "reading": plain(plan.reading(step, frame)),
        "frame": frame.digits,
        "units": frame.units,
        "moves": [
            {
                "rod": move.rod,
                "beads": move.change,
                "finger": finger_of(move),
                "together": move is not stroke[-1],
            }
            for stroke in step.strokes
            for move in stroke
        ],
        "rules": [rule(step, words), *(text for _, text in over_rules(step, words))],
        "reasons": [reason_line(reason, words).show for reason in reasons],
    }


def plan_table(expression: str, plan: Plan, words: Words) -> str:
    """The plan as a readable column: a line for each bead move, the reading on a step's last."""
    rows = [words.listed("cli.explain.heads")]
    notes: dict[int, list[str]] = {}
    for (step, frame), reasons in zip(plan.frames(), reasons_of(plan), strict=True):
        before = [reason for reason in reasons if reason.why is not Why.READS_BELOW]
        notes.setdefault(len(rows), []).extend(_told(before, words))
        reading = plain(plan.reading(step, frame)).replace("-", "−")
        rows += _step_rows(step, frame.units, reading, words)
        notes[len(rows)] = _told([one for one in reasons if one not in before], words)
    head = words.text("cli.explain.head", sum=expression, number=plan.result)
    if plan.remainder:
        rest = words.text("cli.explain.remainder", number=plan.remainder)
        head = f"{head}, {rest}"
    lines = columns(rows).split("\n")
    told: list[str] = []
    for at in range(len(lines) + 1):
        told += [*notes.get(at, ()), *lines[at : at + 1]]
    return "\n".join((head, "", *told))


def _told(reasons: Sequence[Reason], words: Words) -> list[str]:
    """The reasons, each a line of its own in the table."""
    return [words.text("cli.explain.reason", says=reason_line(one, words)) for one in reasons]


def _step_rows(step: Step, units: int, reading: str, words: Words) -> list[tuple[str, ...]]:
    said: list[tuple[str, str, str]] = []
    over = dict(over_rules(step, words))
    for stroke in step.strokes:
        for move in stroke:
            key = "cli.explain.alone" if move is stroke[-1] else "cli.explain.together"
            text = words.text(key, move=_move_on_rod(move, step, units, words))
            said.append((over.pop(move.rod, ""), text, finger_text(move, words)))
    said = said or [("", words.text("cli.explain.no_move"), "")]
    whole = rule(step, words)
    first = " ".join(filter(None, (whole, said[0][0] and f"({said[0][0]})")))
    said[0] = (first, *said[0][1:])
    operation = operation_text(step.operation, words)
    return [
        (operation if index == 0 else "", *one, reading if index == len(said) - 1 else "")
        for index, one in enumerate(said)
    ]


def _move_on_rod(move: BeadMove, step: Step, units: int, words: Words) -> str:
    """The move with its rod: by its place or, where operands stand, counted from the left."""
    if names_rods(step):
        return move_text(move, words)
    text = move_text(move, words, name_rod=False)
    return words.text("cli.explain.on_rod", move=text, number=units - move.rod + 1)

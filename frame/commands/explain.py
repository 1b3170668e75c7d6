"""`explain`: how a trained hand works a sum, every bead move with its finger and its rule."""

from frame.commands.output import Json, columns, stream, write_json
from frame.commands.working import Ways, worked
from frame.language.catalogue import Words
from frame.language.wording import finger_text, move_text, names_rods, rule
from frame.language.written import operation_text, written_out
from frame.technique.beads import BeadMove, Frame
from frame.technique.fingers import finger_of
from frame.technique.plan import Plan, Step
from frame.technique.reading import plain


def explain(text: str, ways: Ways, is_json: bool, words: Words) -> int:
    """The sum is explained on standard output; "-" explains every line of standard input.

    Answers the exit status. Raises Refusal.
    """

    def shape(line: str) -> Json:
        calculation, plan = worked(line, ways, words)
        return plan_shape(str(calculation), plan)

    if text == "-":
        return stream(shape, lambda number: words.text("cli.line", number=number))
    if is_json:
        write_json(shape(text))
    else:
        calculation, plan = worked(text, ways, words)
        print(plan_table(written_out(calculation), plan, words))
    return 0


def plan_shape(expression: str, plan: Plan) -> Json:
    """The plan as JSON."""
    return {
        "expression": expression,
        "conventions": {
            "carry": plan.conventions.carry,
            "remove": plan.conventions.remove,
            "layout": plan.conventions.layout,
        },
        "reading": plain(plan.result),
        "remainder": None if plan.remainder is None else plain(plan.remainder),
        "steps": [_step_shape(plan, step, frame) for step, frame in plan.frames()],
    }


def _step_shape(plan: Plan, step: Step, frame: Frame) -> Json:
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
    }


def plan_table(expression: str, plan: Plan, words: Words) -> str:
    """The plan as a readable column: a line for each bead move, the reading on a step's last."""
    rows = [words.listed("cli.explain.heads")]
    for step, frame in plan.frames():
        reading = plain(plan.reading(step, frame)).replace("-", "−")
        rows += _step_rows(step, frame.units, reading, words)
    head = words.text("cli.explain.head", sum=expression, number=plan.result)
    if plan.remainder:
        rest = words.text("cli.explain.remainder", number=plan.remainder)
        head = f"{head}, {rest}"
    return f"{head}\n\n{columns(rows)}"


def _step_rows(step: Step, units: int, reading: str, words: Words) -> list[tuple[str, ...]]:
    said: list[tuple[str, str]] = []
    for stroke in step.strokes:
        for move in stroke:
            key = "cli.explain.alone" if move is stroke[-1] else "cli.explain.together"
            text = words.text(key, move=_move_on_rod(move, step, units, words))
            said.append((text, finger_text(move, words)))
    said = said or [(words.text("cli.explain.no_move"), "")]
    head = (operation_text(step.operation, words), rule(step, words))
    return [
        (*(head if index == 0 else ("", "")), *one, reading if index == len(said) - 1 else "")
        for index, one in enumerate(said)
    ]


def _move_on_rod(move: BeadMove, step: Step, units: int, words: Words) -> str:
    """The move with its rod: by its place or, where operands stand, counted from the left."""
    if names_rods(step):
        return move_text(move, words)
    text = move_text(move, words, name_rod=False)
    return words.text("cli.explain.on_rod", move=text, number=units - move.rod + 1)

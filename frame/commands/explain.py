"""`explain`: how a trained hand works a sum, every bead move with its finger and its rule."""

from frame.commands.output import Json, columns, stream, write_json
from frame.commands.working import parsed, planned
from frame.language.catalogue import Words
from frame.language.wording import finger_text, move_text, operation_text, rule
from frame.technique.beads import Frame
from frame.technique.expression import sum_text
from frame.technique.fingers import finger_of
from frame.technique.plan import Conventions, Plan, Step
from frame.technique.reading import plain, read


def explain(
    text: str, conventions: Conventions, rods: int | None, is_json: bool, words: Words
) -> int:
    """The sum is explained on standard output; "-" explains every line of standard input.

    Answers the exit status. Raises Refusal.
    """

    def shape(line: str) -> Json:
        column = parsed(line, words)
        return plan_shape(str(column), planned(column, conventions, rods, words))

    if text == "-":
        return stream(shape, lambda number: words.text("cli.line", number=number))
    if is_json:
        write_json(shape(text))
    else:
        column = parsed(text, words)
        print(plan_table(sum_text(column.terms), planned(column, conventions, rods, words), words))
    return 0


def plan_shape(expression: str, plan: Plan) -> Json:
    """The plan as JSON."""
    return {
        "expression": expression,
        "conventions": {"carry": plan.conventions.carry, "remove": plan.conventions.remove},
        "reading": plain(plan.result),
        "remainder": None,
        "steps": [_step_shape(step, frame) for step, frame in plan.frames()],
    }


def _step_shape(step: Step, frame: Frame) -> Json:
    return {
        "operation": step.operation,
        "rod": step.rod,
        "digit": step.digit,
        "technique": step.technique,
        "ripple": step.ripple,
        "reading": plain(read(frame, step.owed)),
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
        rows += _step_rows(step, plain(read(frame, step.owed)).replace("-", "−"), words)
    head = words.text("cli.explain.head", sum=expression.replace("-", "−"), number=plan.result)
    return f"{head}\n\n{columns(rows)}"


def _step_rows(step: Step, reading: str, words: Words) -> list[tuple[str, ...]]:
    said: list[tuple[str, str]] = []
    for stroke in step.strokes:
        for move in stroke:
            key = "cli.explain.alone" if move is stroke[-1] else "cli.explain.together"
            said.append((words.text(key, move=move_text(move, words)), finger_text(move, words)))
    said = said or [(words.text("cli.explain.no_move"), "")]
    head = (operation_text(step, words), rule(step, words))
    return [
        (*(head if index == 0 else ("", "")), *one, reading if index == len(said) - 1 else "")
        for index, one in enumerate(said)
    ]

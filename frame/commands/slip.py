"""`slip`: what may be behind an answer, when no bead was seen."""

from decimal import Decimal

from frame.commands.output import Json, Refusal, columns, stream, write_json
from frame.commands.working import Ways, worked
from frame.language.catalogue import Words
from frame.language.habits import habit_line
from frame.language.wording import Listener
from frame.practice.suspects import NAMED, Given, Weighed, explanation, weigh
from frame.technique.reading import NumberError, parse_number, plain

LEAST = 0.02
"""What is less likely is not listed."""
_DIGITS = 3


def slip(text: str, answer: str | None, ways: Ways, is_json: bool, words: Words) -> int:
    """What may be behind an answer goes to standard output; "-" answers every line of standard
    input. Answers the exit status. Raises Refusal."""
    if text == "-":
        return stream(lambda line: _of_line(line, ways, words), words)
    shape = shape_of(text, answer or "", ways, words)
    if is_json:
        write_json(shape)
    else:
        print(_table(shape, words))
    return 0


def shape_of(text: str, answer: str, ways: Ways, words: Words) -> Json:
    """What may be behind an answer, as JSON. Raises Refusal."""
    calculation, plan = worked(text, ways, words)
    given = Given(calculation, _number(answer, words))
    weighed = weigh([given], ways.conventions)
    is_right = given.answer == calculation.result
    return {
        "expression": str(calculation),
        "answer": plain(given.answer),
        "right": plain(calculation.result),
        "reading": plan.end.digits,
        "slips": [] if is_right else _slips(given, weighed, ways, words),
        "unknown": 0.0 if is_right else round(weighed.unknown + weighed.faultless, _DIGITS),
    }


def _slips(given: Given, weighed: Weighed, ways: Ways, words: Words) -> list[Json]:
    sites = explanation(given, weighed, ways.conventions)
    return [
        {
            "name": site.habit,
            "rod": site.rod,
            "probability": round(chance, _DIGITS),
            "says": habit_line(site, words, Listener.OLDER).show,
        }
        for site, chance in sites
        if chance >= LEAST
    ]


def _of_line(line: str, ways: Ways, words: Words) -> Json:
    text, tab, answer = line.partition("\t")
    if not tab:
        where = words.text("cli.column", number=len(line) + 1)
        raise Refusal(where, words.text("cli.judge.no_tab"), words.text("cli.slip.line"))
    return shape_of(text, answer, ways, words)


def _number(answer: str, words: Words) -> Decimal:
    text = answer.strip().replace("−", "-")
    try:
        number = parse_number(text.removeprefix("-"))
        return -number if text.startswith("-") else number
    except NumberError:
        where, expected = words.text("cli.slip.answer"), words.text("cli.slip.number")
        raise Refusal(where, repr(answer), expected) from None


def _table(shape: Json, words: Words) -> str:
    right = Decimal(shape["right"])
    if shape["answer"] == shape["right"]:
        return words.text("cli.slip.right", number=right)
    rows = [words.listed("cli.slip.heads")]
    rows += [
        (one["name"], str(one["rod"]), _percent(one["probability"]), one["says"])
        for one in shape["slips"]
    ]
    rows.append((words.text("cli.slip.unknown"), "", f"{shape['unknown']:.0%}", ""))
    named = [one["name"] for one in shape["slips"] if one["probability"] >= NAMED]
    key = "cli.slip.named" if named else "cli.slip.open"
    ends = words.text(key, names=", ".join(named), number=right)
    return f"{columns(rows)}\n\n{ends}"


def _percent(chance: float) -> str:
    """Cut, so that what is told as enough is."""
    return f"{int(100 * chance)}%"

"""What is fed with strange inputs: each target reads bytes as the program would and goes on to use
what it read. It answers how that ended in a word; any error but the documented ones goes through.

What lies behind a NUL chooses ways of working, so that an input says all there is to say.
"""

import json
import re
from collections.abc import Callable, Sequence
from enum import StrEnum
from functools import cache
from itertools import chain, repeat
from pathlib import Path
from random import Random
from typing import NamedTuple, TypeVar

from shipped import the_words

from frame.commands.arguments import MOST_PLACES
from frame.commands.explain import plan_shape, plan_table
from frame.commands.judging import Judging
from frame.commands.output import Refusal
from frame.commands.working import Ways, worked
from frame.course.agenda import Item, as_sum, column_of, is_agenda, read_agenda, read_sums
from frame.course.board import Board
from frame.course.checker import check_lesson
from frame.course.kept import KeptPlan, plan_from_json, plan_to_json
from frame.course.loader import load_unit, read_lesson
from frame.course.problems import LessonError, Problem, problem_text, read_words
from frame.course.shown import Shown
from frame.language.written import written_out
from frame.learner.settings import Settings, settings_from, settings_to, stored_object
from frame.practice.kept_choices import choices_from, choices_to, set_from, set_to
from frame.resources import LESSONS, PROBLEM_WORDS
from frame.technique.beads import MOST_RODS, stroke_text
from frame.technique.conventions import (
    USUAL,
    Carry,
    Conventions,
    First,
    Operands,
    Outer,
    Remove,
    Strictness,
)
from frame.technique.expression import MOST_CHARACTERS, parse_calculation
from frame.technique.facts import ALL_FACTS
from frame.technique.planning import plan_of
from frame.technique.reading import NumberError

TESTS = Path(__file__).resolve().parents[1]
WORDS = the_words()
PROBLEMS = read_words(PROBLEM_WORDS)

Choice = TypeVar("Choice", bound=StrEnum)


class Target(NamedTuple):
    """What reads bytes, sound inputs to begin with, and pieces that such inputs are made of."""

    run: Callable[[bytes], str]
    seeds: Callable[[], list[bytes]]
    pieces: tuple[str, ...]


def _split(data: bytes) -> tuple[str, bytes]:
    """The text, and the bytes behind the first NUL."""
    text, _, chosen = data.partition(b"\0")
    return text.decode("utf-8", "replace"), chosen


def _ways(chosen: bytes) -> tuple[Ways, Strictness]:
    """Ways of working that bytes choose; the usual ones for those that are missing."""
    some = chain(chosen, repeat(0))

    def of(choices: type[Choice]) -> Choice:
        members = list(choices)
        return members[next(some) % len(members)]

    conventions = Conventions(of(Carry), of(Remove), of(Operands), of(Outer), of(First))
    strictness, rods, places = (
        of(Strictness),
        next(some) % (MOST_RODS + 1),
        next(some) % (MOST_PLACES + 2),
    )
    return Ways(conventions, rods or None, places - 1 if places else None), strictness


def explained(data: bytes) -> str:
    """`bead-frame explain`, as JSON and as a table."""
    text, chosen = _split(data)
    ways, _ = _ways(chosen)
    try:
        calculation, plan = worked(text, ways, WORDS)
    except Refusal as refusal:
        assert refusal.where and refusal.found and refusal.expected
        return "refused"
    shape = plan_shape(str(calculation), plan, WORDS)
    assert plan_table(written_out(calculation), plan, WORDS) and json.dumps(shape)
    if ways.places is None and len(str(calculation)) <= MOST_CHARACTERS:
        assert parse_calculation(str(calculation)) == calculation
    return "explained"


def judged(data: bytes) -> str:
    """`bead-frame judge`: a sum and, behind a tab, a log."""
    text, chosen = _split(data)
    ways, strictness = _ways(chosen)
    text, _, log = text.partition("\t")
    try:
        shape = Judging(ways, strictness, WORDS).shape(text, log)
    except Refusal as refusal:
        assert refusal.where and refusal.found and refusal.expected
        return "refused"
    assert json.dumps(shape) and len(shape["moves"]) == len(log.split())
    return "finished" if shape["finished"] else "judged"


def _worded(problems: Sequence[Problem]) -> bool:
    """Whether every problem has a place, and a line of words."""
    return all(
        one.line > 0 and one.column > 0 and problem_text(one, PROBLEMS).isprintable()
        for one in problems
    )


def checked(data: bytes) -> str:
    """A lesson, or a unit, that is loaded and checked."""
    try:
        assert load_unit(data, "unit").title
    except LessonError as error:
        assert _worded(error.problems)
    lesson, problems = read_lesson(data, "lesson")
    assert _worded(problems) and (lesson or problems)
    if lesson is None:
        return "unread"
    taught = frozenset(ALL_FACTS if lesson.after else ())
    found = check_lesson(lesson, "lesson", taught, {lesson.after or "quay-1"}, not problems)
    assert _worded(found)
    return "in part" if problems else "problems" if found else "sound"


def _shown(items: Sequence[Item]) -> None:
    """Every item comes up on the board, halfway and with what is told of it."""
    for item in items:
        shown = Shown.of(item, USUAL)
        shown.go_to(shown.last // 2)
        assert shown.reasons is not None and shown.frame
        assert not shown.is_written or shown.lines is not None


def presented(data: bytes) -> str:
    """An agenda, shown on the board."""
    assert is_agenda(data) in (True, False)
    agenda, problems = read_agenda(data, "agenda")
    assert _worded(problems) and (agenda or problems)
    _shown(agenda.items if agenda else ())
    return "unread" if agenda is None else "in part" if problems else "sound"


def pasted(data: bytes) -> str:
    """A file with sums, shown on the board."""
    items, problems = read_sums(data, "sums")
    assert _worded(problems) and (items or problems)
    _shown(items)
    text = data.decode("utf-8", "replace")
    if column_of(text):
        items, problems = as_sum(text)
        assert _worded(problems)
        _shown(items)
    return "in part" if problems and items else "sound" if items else "unread"


def set_up(data: bytes) -> str:
    """Settings that were kept."""
    stored = stored_object(data.decode("utf-8", "replace"))
    settings = settings_from(stored)
    assert settings_from(settings_to(settings)) == settings
    assert plan_of(parse_calculation("38 + 47"), settings.conventions).result == 85
    assert settings.ladder_rules and json.dumps(settings_to(settings), allow_nan=False)
    return "usual" if settings == Settings() else "own"


def left(data: bytes) -> str:
    """A board's plan that was kept."""
    plan = plan_from_json(data.decode("utf-8", "replace"))
    if plan is None:
        return "damaged"
    assert plan_from_json(plan_to_json(plan)) == plan
    try:
        board = Board.standing(plan.standings, plan.at, USUAL)
    except NumberError:
        return "unfitting"
    for shown in board.items:
        assert shown.reading is not None and shown.reasons is not None and shown.frame
    for _ in range(3):
        board.next()
    return "kept"


def chosen(data: bytes) -> str:
    """What was kept of what was chosen to practise."""
    stored = stored_object(data.decode("utf-8", "replace"))
    choices = choices_from(stored)
    assert choices_from(json.loads(json.dumps(choices_to(choices)))) == choices
    kept = set_from(stored)
    assert kept is None or set_from(json.loads(json.dumps(set_to(kept)))) == kept
    setting = choices.flashed.setting
    if setting is None:
        return "without flashing"
    assert len(setting.column(Random(1))) == setting.count
    return "with flashing"


def _readme() -> str:
    return (TESTS.parent / "README.md").read_text("utf-8")


def _sums() -> list[str]:
    files = ("worked_rows", "worked_results", "worked_decimals", "negatives", "examples")
    lines = chain.from_iterable(
        (TESTS / "truth" / f"{name}.txt").read_text("utf-8").splitlines() for name in files
    )
    found = [re.split(r"  +|\t|=", line)[0].strip() for line in lines if line[:1].isdigit()]
    found += re.findall(r'explain "([^"]+)"', _readme())
    return [*found, "(12 - 5) - (3 - 40)", "1,234.5 + .5", "sqrt 2", "√1764", "-3 x (-4)", "7:2="]


def _expressions() -> list[bytes]:
    return [f"{one}\0".encode() + bytes(at % 7 for at in range(n, n + 8)) if n % 2 else one.encode()
            for n, one in enumerate(_sums())]  # fmt: skip


def _logs() -> list[bytes]:
    rows = (TESTS / "truth" / "slips.txt").read_text("utf-8").splitlines()
    found = [re.split(r"  +", row)[:3] for row in rows if row[:1].isdigit()]
    logs = [f"{one}\t{before} {move}".replace(".", "") for one, before, move in found]
    for one in _sums()[::4]:
        strokes = map(stroke_text, plan_of(parse_calculation(one)).strokes)
        logs.append(f"{one}\t{' '.join(strokes)}")
    return [log.encode() for log in logs]


def _lessons() -> list[bytes]:
    paths = (*sorted(LESSONS.glob("*/*.yaml")), *sorted((TESTS / "broken").glob("*.yaml")))
    return [path.read_bytes() for path in paths if path.stat().st_size < 4096]


def _agendas() -> list[bytes]:
    parts = (TESTS / "truth" / "agendas.txt").read_text("utf-8").split("\n=== ")[1:]
    texts = [part.partition("\n")[2].partition("\n-->")[0] for part in parts]
    texts += re.findall(r"```yaml\n(board:.*?)```", _readme(), re.DOTALL)
    return [text.encode() for text in texts]


def _columns() -> list[bytes]:
    sums = [one.encode() for one in _sums()]
    columns = ["12\n+7\n-3\n------\n", "1 234\r\n5 678\r\n", "46 + 39\n\n7 x 8\n12\n", "3\n=\n"]
    return [b"\n".join(sums[at : at + 5]) for at in range(0, len(sums), 5)] + [
        one.encode() for one in columns
    ]


def _settings() -> list[bytes]:
    return [json.dumps(settings_to(one)).encode() for one in (Settings(), Settings(classroom=True))]


def _plans() -> list[bytes]:
    texts = []
    for data in _agendas():
        agenda, _ = read_agenda(data, "")
        if agenda and agenda.items:
            board = Board.of(agenda.items, USUAL)
            for _ in range(7):
                board.next()
            if board.shown and board.shown.next_stroke:
                board.shown.touch(board.shown.next_stroke)
            texts.append(plan_to_json(KeptPlan(board.stands, board.at, frozenset({"ring"}), 1.0)))
    return [text.encode() for text in texts]


def _choices() -> list[bytes]:
    usual = choices_to(choices_from({}))
    setting = {"digits": 2, "count": 5, "interval": 1.2, "minus": False}
    flashed = {**usual, "flashed": {**usual["flashed"], "setting": setting}}
    return [json.dumps(one).encode() for one in (usual, flashed)]


_NUMBERS = ("0", "9" * 36, "9" * 5000, "1" + "0" * 34, "-0", ".5", "0.1", "1e400", "٣", "²", "NaN")
_SIGNS = (
    " + ", " - ", "−", " x ", " / ", "sqrt ", "√", "(", ")", "=", ",", "'", "\u202f", "\t", "\0",
    "💡",
)  # fmt: skip
_MOVES = (" 0:+1", " 0:-5", " 1:+4", " 0:+5&0:-2", " -1:+3", " 34:+1", " −3:+5", "&", ":")
_YAML = (
    "\n  - ", "\n", ": ", "'", '"', "[", "]", "{", "}", "*a", "&a ", "!!int ", "|", ">", "#",
    "---\n", "\ufeff", "\x85", "\u2028", "\r", "~", "show: ", "say: ", "read: ", "sum: ",
    "practise:\n      ", "facts: ", "count: ", "rods: 35", "places: 6", "trial: 9",
    "asked: flashed", "rung: number",
    "digits: 14", "terms: 15", "by: 4", "sqrt-digit", "sqrt 2", "7 / 3", "1.5 x 2.5",
)  # fmt: skip
_JSON = (
    "null", "true", "[]", "{}", "[[]]", '""', "1e999", "NaN", "-Infinity", "-1", "2.5", ", ",
    '"\\ud800"', "[" * 3000, '": ', '"at": ', '"tried": "0:+1"', '"setting": ', '"rows": ',
)  # fmt: skip

TARGETS = {
    "expressions": Target(explained, cache(_expressions), _NUMBERS + _SIGNS),
    "logs": Target(judged, cache(_logs), _MOVES + _SIGNS + _NUMBERS),
    "lessons": Target(checked, cache(_lessons), _YAML + _NUMBERS),
    "agendas": Target(presented, cache(_agendas), _YAML + _NUMBERS + _SIGNS),
    "sums": Target(pasted, cache(_columns), (*_NUMBERS, *_SIGNS, "\n", "\r\n", "---", "\ufeff")),
    "settings": Target(set_up, cache(_settings), _JSON + _NUMBERS),
    "plans": Target(left, cache(_plans), _JSON + _MOVES + _NUMBERS),
    "choices": Target(chosen, cache(_choices), _JSON + _NUMBERS),
}

"""`judge`: the verdict on every move of a log; what it ends without is named on its last entry."""

import difflib
from dataclasses import dataclass
from decimal import Decimal

from frame.commands.output import Json, Refusal, columns, stream, write_json
from frame.commands.working import Ways, worked
from frame.language.catalogue import Words
from frame.language.verdicts import omission_line, verdict_line
from frame.language.wording import Listener
from frame.technique.beads import (
    MOST_RODS,
    BeadMove,
    IllegalMove,
    Stroke,
    parse_move,
    parse_stroke,
    stroke_text,
)
from frame.technique.conventions import Strictness
from frame.technique.judge import Judge
from frame.technique.progress import Progress
from frame.technique.reading import plain, read

_EVERY_MOVE = [
    str(BeadMove(rod, change))
    for rod in range(-MOST_RODS + 1, MOST_RODS)
    for change in (*range(-5, 0), *range(1, 6))
]


@dataclass(frozen=True, slots=True)
class Judging:
    """How logs are judged: the ways of working, and what is asked."""

    ways: Ways
    strictness: Strictness
    words: Words

    def run(self, text: str, log: str, is_json: bool) -> int:
        """The verdicts go to standard output; "-" judges every line of standard input.

        Answers the exit status. Raises Refusal.
        """
        if text == "-":
            return stream(self._of_line, self.words)
        shape = self.shape(text, log)
        if is_json:
            write_json(shape)
        else:
            print(self._table(shape))
        return 0

    def shape(self, text: str, log: str) -> Json:
        """The verdicts as JSON. Raises Refusal."""
        _, plan = worked(text, self.ways, self.words)
        judge, entries = Judge.of(plan, self.strictness), []
        for stroke in _strokes(log, self.words):
            verdict = judge.judge(stroke)
            judge = judge.after(verdict)
            entries.append(
                {
                    "move": stroke_text(stroke),
                    "verdict": verdict.judgement,
                    "slip": verdict.slip,
                    "says": verdict_line(verdict, self.words, Listener.OLDER).show,
                }
            )
        if entries and not judge.finished:
            self._name_omission(entries[-1], judge)
        reading = plan.result if judge.finished else _reading(judge.progress)
        return {"moves": entries, "finished": judge.finished, "reading": plain(reading)}

    def _of_line(self, line: str) -> Json:
        text, tab, log = line.partition("\t")
        if not tab:
            where = self.words.text("cli.column", number=len(line) + 1)
            found, expected = self.words.text("cli.judge.no_tab"), self.words.text("cli.judge.line")
            raise Refusal(where, found, expected)
        return self.shape(text, log)

    def _name_omission(self, entry: Json, judge: Judge) -> None:
        """What the log ends without shows on its last move, unless that has a slip of its own."""
        omitted = judge.omission()
        if omitted and not entry["slip"]:
            line = omission_line(omitted, judge.progress, self.words, Listener.OLDER)
            entry.update(slip=omitted.slip, says=line.show)

    def _table(self, shape: Json) -> str:
        rows = [self.words.listed("cli.judge.heads")]
        rows += [(e["move"], e["verdict"], e["slip"] or "", e["says"]) for e in shape["moves"]]
        key = "cli.judge.finished" if shape["finished"] else "cli.judge.unfinished"
        return f"{columns(rows)}\n\n{self.words.text(key, number=Decimal(shape['reading']))}"


def _reading(progress: Progress) -> Decimal:
    """The result so far, on the rods where it stands, with the 1 that may be borrowed."""
    plan, index = progress.plan, progress.step_index
    if not plan.steps:
        return read(progress.frame)
    return plan.reading(plan.steps[max(index - 1, 0)], progress.frame)


def _strokes(log: str, words: Words) -> list[Stroke]:
    return [_stroke(token, number, words) for number, token in enumerate(log.split(), 1)]


def _stroke(token: str, number: int, words: Words) -> Stroke:
    try:
        return parse_stroke(token)
    except IllegalMove:
        where = words.text("cli.judge.move", number=number)
        raise _refusal(where, token, words) from None


def _refusal(where: str, token: str, words: Words) -> Refusal:
    """What a token should have been: a pinch where its moves are moves, else the nearest move."""
    for part in token.split("&"):
        try:
            parse_move(part)
        except IllegalMove:
            nearest = difflib.get_close_matches(part[:20], _EVERY_MOVE, 1, cutoff=0)[0]
            expected = words.text("cli.judge.expected_move", nearest=nearest)
            return Refusal(where, repr(token), expected, nearest=[nearest])
    return Refusal(where, repr(token), words.text("cli.judge.expected_pinch"))

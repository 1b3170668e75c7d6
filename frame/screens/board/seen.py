"""What is seen on the board beside the beads, in words and figures."""

from dataclasses import dataclass

from frame.course.agenda import Act as Task
from frame.course.board import Board, Shown, Stage
from frame.language.catalogue import Words
from frame.language.printed import printed, printed_sum
from frame.language.verdicts import verdict_line
from frame.language.wording import Listener, rule
from frame.language.written import work_line
from frame.screens.board.acts import Aid, Moment


@dataclass(frozen=True, slots=True)
class Seen:
    """The texts, empty where there is none: `head` is the sum or what is typed, `middle` stands on
    an empty board, `line` is the rule, a sentence or the `word` on a try. `done` and `steps` are
    shares of the work: what is done of it, and where its steps begin."""

    head: str = ""
    answer: str = ""
    is_told: bool = False
    middle: str = ""
    line: str = ""
    is_rule: bool = False
    word: str = ""
    reading: str = ""
    bead: str = ""
    item: str = ""
    done: float = 0.0
    steps: tuple[float, ...] = ()


def seen_of(
    board: Board, now: Moment, *, note: str, called: str, is_covered: bool, words: Words,
    listener: Listener,
) -> Seen:  # fmt: skip
    """What is seen now; `note` is told in the place of the rule, `called` of the sum."""
    shown, typed = board.shown, now.typed
    head = f"{typed.text}{' ?' if typed.is_wrong else '_'}" if typed.is_open else ""
    if shown is None:
        return Seen(head=head, middle="" if head else note or words.text("board.empty"))
    line, is_rule = _line(shown, now, note, words)
    has_reading = Aid.READING in now.aids and not is_covered
    count, last = len(board.items), shown.last
    return Seen(
        head=head or called or _head(shown, words),
        answer="" if head else f"= {_answer(shown, words) if now.is_told else '?'}",
        is_told=now.is_told,
        line=line,
        is_rule=is_rule,
        word=_word(shown, words, listener) if Aid.VERDICT in now.aids and not line else "",
        reading=printed(shown.reading) if has_reading else "",
        bead=words.text("board.bead", at=shown.at, all=last) if shown.is_worked else "",
        item=words.text("board.item", at=board.at + 1, all=count) if count > 1 else "",
        done=shown.at / last if last else 0.0,
        steps=tuple(span.start / last for span in shown.plan.span_of) if last else (),
    )


def _head(shown: Shown, words: Words) -> str:
    """The sum, where it may be seen; a number that was read is its own answer."""
    is_told = shown.stage is Stage.TOLD
    if shown.item.act is Task.READ and is_told:
        return ""
    if shown.is_worked or is_told:
        return printed_sum(shown.item.sum, words)
    return words.text(f"board.title_{shown.item.act}")


def _word(shown: Shown, words: Words, listener: Listener) -> str:
    """The word on a try."""
    return verdict_line(shown.verdict, words, listener).show if shown.verdict else ""


def _answer(shown: Shown, words: Words) -> str:
    result, rest = shown.plan.result, shown.plan.remainder
    return words.text("board.rest", number=result, rest=rest) if rest else printed(result)


def _line(shown: Shown, now: Moment, note: str, words: Words) -> tuple[str, bool]:
    """What was told of a file, the tutor's own sentence, or the rule; whether it is the rule."""
    own = "" if shown.hand or shown.is_begun else shown.item.line
    step = shown.step
    if note or own or shown.hand or step is None or shown.at == shown.last:
        return note or own, False
    if Aid.RULE not in now.aids or not shown.is_worked:
        return "", False
    line = step.operation
    return ("" if line.act.is_of_column else work_line(line, words).show) or rule(step, words), True

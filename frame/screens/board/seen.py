"""What is seen on the board beside the beads, in words and figures."""

import re
from collections.abc import Iterator
from dataclasses import dataclass

from frame.course.agenda import Task
from frame.course.board import Board
from frame.course.shown import Shown
from frame.course.typed import TypedSum
from frame.language.catalogue import Words
from frame.language.printed import printed, printed_parts
from frame.language.reasons import reason_line
from frame.language.verdicts import verdict_line
from frame.language.wording import Listener, whole_rule
from frame.language.written import work_line
from frame.practice.written import WrittenLine
from frame.screens.board.acts import Aid, Moment
from frame.screens.parts.problem import refusal_line
from frame.technique.plan import Technique
from frame.technique.reasons import Why

_PIECE = re.compile(r"\s*[-+−*x×X·⋅/÷:(√]*\s*[0-9.,']{1,24}\)*|\s*[A-Za-z]+|\s*\S")
"""A number with the signs before it, a word, or any other sign."""


@dataclass(frozen=True, slots=True)
class Seen:
    """The texts, empty where there is none. `head` is the sum or what is typed, in the parts that
    it may be broken into, `term` the index of the part in work; `answer` is what the sum comes to,
    with `told` to know how much room it takes once it is told. `middle` stands on an empty board.
    `line` are sentences, the rule or the reasons before it, of which the last is the one that must
    be read; `word` is said of a try, of a file or of what was refused, in the place of
    the line. `lines` are the written work, `unused` how a frame below zero
    is read. `done` and `steps` are shares of the work: what is done of it, and where its steps
    begin."""

    head: tuple[str, ...] = ()
    term: int | None = None
    answer: str = ""
    told: str = ""
    middle: str = ""
    line: tuple[str, ...] = ()
    is_rule: bool = False
    word: str = ""
    reading: str = ""
    lines: tuple[WrittenLine, ...] = ()
    unused: WrittenLine | None = None
    bead: str = ""
    item: str = ""
    done: float = 0.0
    steps: tuple[float, ...] = ()


def seen_of(
    board: Board, now: Moment, *, note: str, called: str, words: Words, listener: Listener
) -> Seen:
    """What is seen now; `note` is told in the place of the word, `called` of the sum."""
    shown, is_typing = board.shown, now.typed.is_open
    head = tuple(_pieces(now.typed)) if is_typing else ()
    refused = refusal_line(now.typed, words) if is_typing and now.typed.is_wrong else ""
    if shown is None:
        middle = "" if is_typing else note or words.text("board.empty")
        line, word = (_line_of_typing(now, words), refused or note) if is_typing else ((), "")
        return Seen(head=head, middle=middle, line=line, word=word)
    line, is_rule = _line(shown, now, words)
    has_reading = Aid.READING in now.aids and not now.is_covered
    has_word = Aid.VERDICT in now.aids and not is_typing
    word = refused or note or (_word(shown, words, listener) if has_word else "")
    is_led = Aid.RULE in now.aids and not now.is_asked and not is_typing
    count, last = len(board.items), shown.last
    told = "" if head else f"= {_answer(shown, words)}"
    return Seen(
        head=head or ((called,) if called else _head(shown, now, words)),
        term=None if head or called else shown.term,
        answer=told if now.is_told or head else "= ?",
        told=told,
        line=line,
        is_rule=is_rule,
        word=word,
        reading=printed(shown.reading) if has_reading else "",
        lines=tuple(one for one in _written(shown) if one.is_done or is_led),
        unused=shown.unused if shown.is_written and (now.is_told or shown.at < last) else None,
        bead=words.text("board.bead", at=shown.at, all=last) if shown.is_worked else "",
        item=words.text("board.item", at=board.at + 1, all=count) if count > 1 else "",
        done=shown.at / last if last else 0.0,
        steps=tuple(span.start / last for span in shown.plan.span_of) if last else (),
    )


def _pieces(typed: TypedSum) -> Iterator[str]:
    """What is typed, in parts that it can be broken into, with a mark at its end."""
    *before, last = [piece.strip() for piece in _PIECE.findall(typed.text)] or [""]
    yield from before
    yield f"{last}{' ?' if typed.is_wrong else '_'}"


def _head(shown: Shown, now: Moment, words: Words) -> tuple[str, ...]:
    """The sum, where it may be seen; a number that was read is its own answer."""
    if shown.item.act is Task.READ and now.is_told:
        return ()
    if shown.is_worked or now.is_told:
        return printed_parts(shown.item.sum, words)
    return (words.text(f"board.title_{shown.item.act}"),)


def _answer(shown: Shown, words: Words) -> str:
    result, rest = shown.plan.result, shown.plan.remainder
    return words.text("board.rest", number=result, rest=rest) if rest else printed(result)


def _word(shown: Shown, words: Words, listener: Listener) -> str:
    """The word on a try."""
    return verdict_line(shown.verdict, words, listener).show if shown.verdict else ""


def _written(shown: Shown) -> tuple[WrittenLine, ...]:
    return shown.lines if shown.is_written else ()


def _line(shown: Shown, now: Moment, words: Words) -> tuple[tuple[str, ...], bool]:
    """How a sum is typed, the tutor's own sentence, what is asked, or the rule with its reasons;
    whether it is the rule."""
    own = "" if shown.hand or shown.is_begun else shown.item.line
    if now.typed.is_open:
        return _line_of_typing(now, words), False
    if now.called is not None:
        return _line_of_call(now, len(shown.item.sum.numbers), words), False
    if own or shown.hand:
        return (own,), False
    if now.is_given:
        key = "board.given_read" if shown.item.act is Task.READ else "board.given"
        return (words.text(key),), False
    if now.is_asked:
        return (words.text("board.asked"),), False
    if Aid.RULE not in now.aids or not shown.is_worked:
        return (), False
    reasons = tuple(_reasons(shown, words))
    return (*reasons, *_rule(shown, words, stands_alone=not reasons)), True


def _line_of_typing(now: Moment, words: Words) -> tuple[str, ...]:
    """How a sum is typed. Where the point makes the screen black, how one is typed stands last, for
    nothing else tells it."""
    if now.typed.is_full:
        return (words.text("board.full"),)
    typing = words.text("board.typing")
    return (typing, words.text("board.typing_point")) if now.has_letters else (typing,)


def _line_of_call(now: Moment, count: int, words: Words) -> tuple[str, ...]:
    """At which number a call is, and whether it is held; nothing before the first."""
    if not now.called:
        return (words.text("board.held_first"),) if now.is_held else ()
    key = "board.held" if now.is_held else "board.called"
    return (words.text(key, at=now.called, all=count),)


def _reasons(shown: Shown, words: Words) -> Iterator[str]:
    """Why the line under way is worked so, but for what the line itself tells."""
    for reason in shown.reasons:
        if reason.why is not Why.LINE:
            yield reason_line(reason, words).show


def _rule(shown: Shown, words: Words, *, stands_alone: bool) -> Iterator[str]:
    """The rule of the step to come, in one piece behind a reason; or its line of written work. Of
    a 1 that is borrowed the reason tells it."""
    step = shown.step
    if step is None or shown.at == shown.last or step.technique is Technique.BORROW:
        return
    if step.operation.act.is_of_column:
        rule = whole_rule(step, words)
        yield rule if stands_alone else rule.replace(" ", "\u00a0")
    else:
        yield work_line(step.operation, words).show

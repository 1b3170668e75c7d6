"""Every text the tool can speak, so that each can be recorded: lessons, screens, feedback, numbers.

Sentences made from facts are made here from all facts they can have, by the same functions that
make them while somebody works. What can be filled in freely is recorded beside its sentence.
"""

from collections.abc import Iterable, Iterator, Sequence
from decimal import Decimal
from itertools import chain, product, takewhile
from string import Formatter
from typing import NamedTuple

from frame.course.lesson import Lesson
from frame.language.catalogue import Words
from frame.language.numbers import number_words, rod_name
from frame.language.speech import normal, sentences
from frame.language.verdicts import Hint, hint_line, pair_line, verdict_line
from frame.language.wording import Listener, move_text, rule_line, stroke_text
from frame.technique.addition import plan_on
from frame.technique.beads import BeadMove, Frame
from frame.technique.conventions import Carry, Conventions, Remove, Strictness
from frame.technique.judge import Judge, Judgement, Verdict
from frame.technique.plan import Plan
from frame.technique.progress import Progress

RODS = range(7)
"""The rods whose moves are recorded as whole sentences; others are put together."""
NAMED_RODS = range(-6, 17)
"""The rods whose places are recorded."""
NUMBERS_IN_GROUP = 25
SCALES_WHOLE = 4
"""Of so many scale words one digit with them is recorded whole."""

_SILENT = (
    "cli.", "store.", "number.", "place.", "operation.", "written.", "flash.figures", "classroom.",
    "own.problem", "own.page", "own.written", "own.not_written", "own.looking", "board.bead",
    "board.item", "board.added", "board.again", "board.rest", "board.full", "board.called",
    "board.held", "board.typing", "board.refused", "board.given", "board.asked", "board.ask_",
    "code.forgotten", "short.", "who.find", "who.typed", "who.now", "who.name_full",
    "who.remove_backup", "who.shared", "same_child.worked", "same_child.idle", "same_child.named",
    "same_child.joined", "same_child.stays", "day.", "two_computers.newest", "two_computers.holds",
    "merged.who", "report.page.", "report.head.", "report.note.", "report.kind", "report.example.",
    "report.habit.", "report.home.", "grown.best", "grown.seconds", "grown.rods", "sheet.",
    "sheets.code", "class_list.", "class.told.", "call_sheet.number",
    "call_sheet.unkept", "published.source", "marks.told.", "marks.code.", "paper.told.",
    "paper.doubt.", "given.slip_", "giving.about", "giving.to_do", "giving.did", "giving.counts",
    "giving.printed_as",
    "shared.about", "shared.privacy", "shared.folder", "shared.offered_is",
    "settings.kept_shared",
)  # fmt: skip
_NOT_YOUNG = (
    "cli", "giving", "own", "agendas", "store", "merged", "other_file", "published", "board",
    "report", "marks", "call_sheet", "paper", "sheet", "sheets", "settings", "two_computers",
    "shared", "same_child", "day", "code", "classroom", "class", "class_files", "class_list",
    "call", "flash", "work", "reason",
)  # fmt: skip
"""Sections of the words file that no child of four to six hears."""
FIRST_FOR_OLDER = "mind-one-1"
"""The lesson from which on the course is for children of seven and more."""
_CONVENTIONS = tuple(Conventions(carry, remove) for carry, remove in product(Carry, Remove))
_CHANGES = tuple(change for change in range(-9, 10) if change)
_BEADS = (5, -5, 1, -1, 2, -2, 3, -3, 4, -4)
_ABOVE = ("00", "01", "04", "05", "09", "10", "49", "50")
"""What the two rods above the one worked read: each way a carry or borrow can go on there."""
_GAP = "\0"


class Group(NamedTuple):
    """Texts that are used together, in a fixed order; no two groups share a text."""

    name: str
    texts: tuple[str, ...]


def spoken_groups(
    words: Words, lessons: Sequence[Lesson], listeners: Sequence[Listener] = tuple(Listener)
) -> Iterator[Group]:
    """Every text to record but the numbers, once each, by what it is used for: sentences, and the
    fixed parts of those that end in something free. Of what is told to others than these
    listeners, nothing."""
    seen: set[str] = set()
    for name, texts in _all_groups(words, lessons, listeners):
        fresh = tuple(_fresh(texts, seen))
        if fresh:
            yield Group(name, fresh)


def heard_by_young(words: Words, lessons: Sequence[Lesson]) -> frozenset[str]:
    """What children of four to six hear, by its words, of all texts but the numbers; `lessons` in
    the order of the course."""
    others = {f"words-{section}" for section in _NOT_YOUNG}
    early = tuple(takewhile(lambda lesson: lesson.id != FIRST_FOR_OLDER, lessons))
    groups = _all_groups(words, early, (Listener.YOUNG,))
    texts = chain.from_iterable(texts for name, texts in groups if name not in others)
    return frozenset(normal(one) for text in texts for one in sentences(text))


def number_groups(words: Words) -> Iterator[Group]:
    """The texts that numbers are put together from: scale words, signs, 0 to 999; and one digit
    with a scale word, as "four thousand", which in two clips is long, and taken for forty."""
    scales = [scale for scale in words.listed("number.scales") if scale]
    yield Group("number-words", (*words.listed("number.signs"), *scales))
    for scale in range(1, SCALES_WHOLE + 1):
        numbers = (number_words(digit * 1000**scale, words) for digit in range(1, 10))
        yield Group(f"number-scale-{scale}", tuple(numbers))
    for first in range(0, 1000, NUMBERS_IN_GROUP):
        group = range(first, first + NUMBERS_IN_GROUP)
        yield Group(f"number-{first:03}", tuple(number_words(number, words) for number in group))


def _fresh(texts: Iterable[str], seen: set[str]) -> Iterator[str]:
    """The sentences of the texts that were not there before."""
    for text in dict.fromkeys(texts):
        for sentence in sentences(text):
            key = normal(sentence)
            if key not in seen:
                seen.add(key)
                yield sentence


def _all_groups(
    words: Words, lessons: Sequence[Lesson], listeners: Sequence[Listener]
) -> Iterator[tuple[str, Iterable[str]]]:
    for section in dict.fromkeys(key.split(".")[0] for key in words.sentences):
        yield f"words-{section}", _of_section(section, words, listeners)
    yield "rods", _rod_lines(words, listeners)
    for rod in RODS:
        told = _told_of_rod(rod, words) if Listener.OLDER in listeners else ()
        yield f"rod-{rod}", (*_of_rod(rod, words, listeners), *told)
    yield "plays", _of_plays(words)
    yield "judged", _judged(words, listeners)
    yield "titles", (lesson.title for lesson in lessons)
    for lesson in lessons:
        lines = (*(step.line for step in lesson.steps), lesson.end.line)
        yield f"lesson-{lesson.id}", [line.speak for line in lines if line]


def _of_section(section: str, words: Words, listeners: Sequence[Listener]) -> Iterator[str]:
    """The sentences of a section of the words file."""
    others = tuple(f".{listener}" for listener in Listener if listener not in listeners)
    for key, line in words.sentences.items():
        if key.endswith(others):
            continue
        if key.split(".")[0] == section and not key.startswith(_SILENT):
            yield from _instances(line.speak, words)
            if line.show != line.speak and "{" not in line.show:
                yield line.show  # A button in focus is read as it stands there.
    if section == "who":
        yield from (*words.listed("who.animals"), *words.listed("who.flags"))
    if section == "day":
        yield from words.listed("day.months")


def _instances(template: str, words: Words) -> Iterator[str]:
    """A sentence itself; with every animal for a name and every letter for one; else its fixed
    parts, each to be followed or preceded by something free."""
    names = {name for _, name, _, _ in Formatter().parse(template) if name}
    if not names:
        yield template
    elif names == {"name"}:
        for animal in words.listed("who.animals"):
            yield template.format(name=animal)
    elif names == {"letter"}:
        for letter in "".join(words.listed("who.letters")):
            yield template.format(letter=letter.upper())
    else:
        yield from _fixed_parts(template.format(**dict.fromkeys(names, _GAP)))


def _fixed_parts(text: str) -> Iterator[str]:
    for sentence in sentences(text):
        *before, last = sentence.split(_GAP)
        for part in before:
            if normal(part):
                yield part.strip() if part.strip()[-1] in ",:;" else f"{part.strip()},"
        if normal(last):
            yield last.strip(" ,:;")


def _rod_lines(words: Words, listeners: Sequence[Listener]) -> Iterator[str]:
    """Sentences on rods that lie beyond those of whole sentences."""
    for rod in NAMED_RODS:
        name = rod_name(rod, words)
        yield words.line("verdict.next_rod", rod=name).speak
        if Listener.OLDER in listeners:
            yield words.line("move.on_rod", move="", rod=name).speak.strip()
            yield words.line(f"hint.point.{Listener.OLDER}", rod=name).speak


def _of_rod(rod: int, words: Words, listeners: Sequence[Listener]) -> Iterator[str]:
    """Help, rules and next acts, at every state of every step worked on a rod."""
    for plan in _plans(rod):
        for progress in _states(plan):
            for listener in listeners:
                for level in Hint:
                    yield hint_line(progress, level, words, listener).speak
        for step, listener in product(plan.steps, listeners):
            yield rule_line(step, words, listener).speak


def _told_of_rod(rod: int, words: Words) -> Iterator[str]:
    """Next acts on a rod, and slips that name it or a digit on it."""
    for change in _BEADS:
        move = move_text(BeadMove(rod, change), words)
        said = move[:1].lower() + move[1:]
        yield words.line(f"verdict.next_move.{Listener.OLDER}", move=said).speak
    for beads in range(1, 5):
        pinch = (BeadMove(rod, beads), BeadMove(rod, -5))
        yield words.line("hint.move", move=stroke_text(pinch, words)).speak
    facts = {"rod": rod_name(rod, words)}
    for digit in range(1, 10):
        key = f"slip.wrong-rod-digit.{Listener.OLDER}"
        yield words.line(key, number=Decimal(digit), **facts).speak
    yield words.line(f"slip.not-given-back.{Listener.OLDER}", number=Decimal(10) ** (rod + 1)).speak


def _plans(rod: int) -> Iterator[Plan]:
    """The plans of every digit worked on every digit of a rod that differ in their steps."""
    seen = set()
    above_it: Sequence[str] = _ABOVE
    schools: Sequence[Conventions] = _CONVENTIONS
    if rod:
        # The rods differ by their names alone, and each is itself worked: two ways on suffice.
        above_it, schools = _ABOVE[:2], (_CONVENTIONS[0], _CONVENTIONS[-1])
    for above, digit, change, conventions in product(above_it, range(10), _CHANGES, schools):
        frame = Frame(f"{above}{digit}{'0' * rod}", rod + 2)
        plan = plan_on(frame, Decimal(change).scaleb(rod), conventions)
        if plan.steps not in seen:
            seen.add(plan.steps)
            yield plan


def _states(plan: Plan) -> Iterator[Progress]:
    """A plan after each of its strokes."""
    for at in range(len(plan.strokes)):
        yield Progress.begin(plan, at)


def _of_plays(words: Words) -> Iterator[str]:
    """What is asked and told of each pair of partners of ten."""
    for number in map(Decimal, range(1, 10)):
        yield words.line("play.ten_asked", number=number).speak
        yield words.line("play.missing_asked", number=number).speak
        yield words.line("play.pair", number=number, other=10 - number).speak


def _judged(words: Words, listeners: Sequence[Listener]) -> Iterator[str]:
    """What is said of every bead moved on the ones or tens, at every state of a step there."""
    for digit, listener in product(range(10), listeners):
        yield words.line(f"slip.not-asked.{listener}", digit=Decimal(digit)).speak
    for of, listener in product((5, 10), listeners):
        for one in range(1, of):
            yield pair_line(of, one, of - one, words, listener).speak
    moves = [BeadMove(rod, change) for rod, change in product((0, 1), _BEADS)]
    for plan in _plans(0):
        for progress, move in product(_states(plan), moves):
            for verdict, listener in product(_verdicts(progress, move), listeners):
                yield verdict_line(verdict, words, listener).speak


def _verdicts(progress: Progress, move: BeadMove) -> Iterator[Verdict]:
    """The verdict on a move and, where the order may count, that with the order asked for."""
    verdict = Judge(progress).judge((move,))
    yield verdict
    if verdict.judgement is Judgement.OTHER_ORDER:
        yield Judge(progress, Strictness.ORDER).judge((move,))

"""What is said of a bead is true of the beads.

Sentences are made in thousands of situations and taken at their word by `claims`, which knows the
numbers of the calculation and the beads, and nothing of the judge.
"""

import random
import re
import signal
import sys
from collections import Counter
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from dataclasses import dataclass, field, replace
from decimal import Decimal
from itertools import product
from pathlib import Path

import pytest
from each import each_row
from shipped import the_words

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "technique"))

import claims
import to_come
from claims import Scene, claims_of
from lawful_hands import Division, Sight, digits_of, number_worked, set_number
from to_come import Job, Reading

from frame.language.verdicts import (
    Hint,
    hint_line,
    next_shown_line,
    omission_line,
    verdict_line,
)
from frame.language.wording import Listener
from frame.technique.addition import plan_on
from frame.technique.beads import BeadMove, Frame, Stroke, stroke_text
from frame.technique.conventions import Strictness
from frame.technique.expression import Product, Quotient, Root, Sum, parse_calculation
from frame.technique.judge import Judge, Verdict
from frame.technique.plan import Plan, parse_strokes
from frame.technique.planning import plan_of
from frame.technique.slips import Fault, Slip

WORDS = the_words()
CHANGES = (-5, -4, -3, -2, -1, 1, 2, 3, 4, 5)
NO_ROD = (BeadMove(40, 1),)


@dataclass
class Tally:
    """How many sentences were taken at their word, and what was found untrue."""

    sentences: int = 0
    claims: Counter[str] = field(default_factory=Counter)
    untrue: Counter[str] = field(default_factory=Counter)
    shown: dict[str, list[str]] = field(default_factory=dict)

    def note(self, pattern: str, message: str) -> None:
        self.untrue[pattern] += 1
        kept = self.shown.setdefault(pattern, [])
        kept.append(message)
        kept.sort(key=len)
        del kept[3:]

    @property
    def report(self) -> str:
        total = sum(self.claims.values())
        lines = [f"{self.sentences} sentences, {total} claims, {self.untrue.total()} untrue"]
        for pattern, count in self.untrue.most_common():
            asked = self.claims[pattern.partition(" (")[0]]
            lines.append(f"\n{count} of {asked} × {pattern!r}")
            lines += [f"    {message}" for message in self.shown[pattern]]
        return "\n".join(lines)


@dataclass
class Play:
    """A hand at work before the judge, beside the reckoning of what is still to be worked."""

    job: Job
    judge: Judge
    tally: Tally
    readings: list[Reading]
    raw: list[Reading]
    log: str = ""
    last: Stroke = ()
    stray: dict[int, tuple[int, int]] = field(default_factory=dict)

    @classmethod
    def of(cls, job: Job, plan: Plan, tally: Tally, strictness: Strictness = Strictness.BEADS,
           keep_wrong: bool = False) -> "Play":  # fmt: skip
        judge = Judge.of(plan, strictness, keep_wrong)
        readings = job.begin(job.digits(plan.start))
        return cls(job, judge, tally, readings, readings)

    @property
    def frame(self) -> Frame:
        return self.judge.frame

    def scene(self, **facts: object) -> Scene:
        usual: dict[str, object] = {
            "before": self.frame, "frame": self.frame, "readings": self.readings,
            "now": self.readings, "raw": self.raw, "stroke": self.last, "stray": self.lying(),
            "names_rods": self.job.is_column,
        }  # fmt: skip
        return Scene(self.job, **(usual | facts))  # type: ignore[arg-type]

    def lying(self) -> dict[int, int]:
        """The rods on which wrong beads lie, with how many: each deck must lie between what it
        showed before and what its rod is going to."""
        found = {}
        for rod, before in self.stray.items():
            at = rod - self.job.lowest
            here = self.job.digits(self.frame)[at]
            beads = [
                off_the_way(start, here, one.goals[at])
                for one in self.readings
                for start in (before, *(b.before for b in one.begun if b.work.rod == rod))
            ]
            if beads and min(beads):
                found[rod] = min(beads)
        return found

    def check(self, sentence: str, scene: Scene, tried: str) -> None:
        self.tally.sentences += 1
        for claim in claims_of(sentence):
            self.tally.claims[claim.pattern] += 1
            if not claim.holds(scene):
                about = (
                    f"{self.job.text} | {self.log}[{tried}] | frame {scene.before} -> "
                    f"{scene.frame} (ones: rod {scene.frame.units + 1}) | {sentence!r}: "
                    f"{claim.text!r}"
                )
                self.tally.note(kind_of(claim, scene), about)

    def judged(self, stroke: Stroke) -> Verdict | None:
        """The verdict on a stroke; None where the judge breaks down, or comes to no end."""
        try:
            with at_most(2):
                verdict = self.judge.judge(stroke)
                self.judge.after(verdict)
                return verdict
        except (ArithmeticError, LookupError, TimeoutError, ValueError) as error:
            about = f"{self.job.text} | {self.log}[{stroke_text(stroke)}] | frame {self.frame}"
            self.tally.note("no verdict", f"{about}: {type(error).__name__}: {error}")
            return None

    def hear(self, stroke: Stroke) -> Verdict | None:
        """Judge a stroke and take all that is said of it at its word; the hand stays."""
        verdict = self.judged(stroke)
        if verdict is None:
            return None
        after = self.after(stroke, verdict)
        for listener in Listener:
            scene = self.scene(
                frame=verdict.progress.frame, now=after.readings, raw=after.raw, stroke=stroke,
                is_young=listener is Listener.YOUNG, stray=after.lying()
            )  # fmt: skip
            told = [verdict_line] if verdict.is_right else [verdict_line, next_shown_line]
            for line in told:
                self.check(line(verdict, WORDS, listener).show, scene, stroke_text(stroke))
        return verdict

    def after(self, stroke: Stroke, verdict: Verdict) -> "Play":
        """The hand after a stroke, and after what became of it."""
        digits = self.job.digits(self.frame)
        raw = self.job_after(stroke, digits)
        judge, mark = self.judge.after(verdict), "" if verdict.is_right else "!"
        log = f"{self.log}{stroke_text(stroke)}{mark} "
        if not verdict.kept:
            return Play(self.job, self.judge, self.tally, self.readings, raw, self.log, self.last,
                        self.stray)  # fmt: skip
        frame = verdict.progress.frame
        stray = dict(self.stray)
        if verdict.is_right:
            readings = self.job.settled(raw, self.job.digits(frame))
        else:
            readings, raw = self.readings, []
            for move in stroke:
                stray.setdefault(move.rod, self.frame.digit(move.rod))
        play = Play(self.job, judge, self.tally, readings, raw, log, stroke, stray)
        play.stray = {rod: stray[rod] for rod in play.lying()}
        return play

    def job_after(self, stroke: Stroke, digits: tuple[int, ...]) -> list[Reading]:
        for moves in (stroke, stroke[::-1]) if len(stroke) > 1 else (stroke,):
            readings, here = self.readings, list(digits)
            for move in moves:
                readings = self.job.settled(readings, tuple(here))
                readings = self.job.after(readings, tuple(here), move)
                if not readings:
                    break
                here[move.rod - self.job.lowest] += move.change
            if readings:
                return readings
        return []

    def make(self, stroke: Stroke) -> "Play":
        """The hand after a stroke, with all that is said of it taken at its word."""
        verdict = self.hear(stroke)
        return self if verdict is None else self.after(stroke, verdict)

    def ask(self) -> None:
        """What is said to a hand that says it is done, and all levels of help."""
        if fault := self.judge.omission():
            for listener in Listener:
                scene = self.scene(is_young=listener is Listener.YOUNG, kind="omission")
                line = omission_line(fault, self.judge.progress, WORDS, listener)
                self.check(line.show, scene, "end")
        for listener, level in product(Listener, Hint):
            scene = self.scene(is_young=listener is Listener.YOUNG, kind="hint", stroke=())
            line = hint_line(self.judge.progress, level, WORDS, listener)
            self.check(line.show, scene, f"help: {level}")

    def obey(self, end: Frame | None = None) -> None:
        """What is named as next, move after move, leads to the end of the work."""
        wanted = self.job.end(self.readings)
        play, moves = self, list[str]()
        for _ in range(400):
            verdict = play.judged(NO_ROD)
            if verdict is None:
                return
            said = verdict_line(verdict, WORDS, Listener.OLDER).show
            act = said.partition("Next: ")[2].rstrip(".")
            if not act:
                break
            move = claims.move_said(act)
            assert move is not None, said
            rod = move.place or 0
            if move.from_left is not None:
                rod = play.frame.highest + 1 - move.from_left
            stroke = (BeadMove(rod, move.change),)
            moves.append(stroke_text(stroke))
            verdict = play.judged(stroke) if play.frame.can(stroke[0]) else None
            if verdict is None:
                break
            play = play.after(stroke, verdict)
        self.tally.claims["Next … Next …"] += 1
        if self.job.digits(play.frame) != wanted:
            about = f"{self.job.text} | {self.log}| frame {self.frame} | obeyed: {' '.join(moves)}"
            ends = "".join(map(str, reversed(wanted)))
            self.tally.note("Next … Next …", f"{about} -> {play.frame}, not {ends}")


def kind_of(claim: claims.Claimed, scene: Scene) -> str:
    """What kind of untruth it is: the pattern, and what goes with it."""
    is_place = re.search(r" on the \w+|Now the \w+|Look at the \w+ ", claim.text)
    if is_place and not scene.names_rods and "number" not in claim.pattern:
        return f"{claim.pattern} (a place is named beside operands)"
    if claim.pattern in claims.NEXT and claim.holds(replace(scene, kind="hint", stroke=())):
        return f"{claim.pattern} (on another rod than is said)"
    return f"{claim.pattern}{' (a wrong bead lies)' if scene.stray else ''}"


@contextmanager
def at_most(seconds: float) -> Iterator[None]:
    """A time after which work counts as endless, where the system can ring."""
    if not hasattr(signal, "setitimer"):
        yield
        return

    def ring(number: int, frame: object) -> None:
        raise TimeoutError("no end")

    before = signal.signal(signal.SIGALRM, ring)
    signal.setitimer(signal.ITIMER_REAL, seconds)
    try:
        yield
    finally:
        signal.setitimer(signal.ITIMER_REAL, 0)
        signal.signal(signal.SIGALRM, before)


def off_the_way(before: int, here: int, goal: int) -> int:
    """How many beads of a rod lie outside the way from one digit to another."""
    off = 0
    for deck in (lambda digit: digit // 5, lambda digit: digit % 5):
        low, high = sorted((deck(before), deck(goal)))
        off += max(low - deck(here), deck(here) - high, 0)
    return off


# --- situations


def of_facts(tally: Tally, share: float) -> None:
    """Every bead at every point of each one-digit fact, beside rods with little or no room."""
    rng = random.Random(71)
    for left, digit, number, sign in product((0, 1, 4, 5, 9), range(10), range(1, 10), (1, -1)):
        if rng.random() >= share:
            continue
        frame, term = Frame(f"0{left}{digit}", 2), Decimal(sign * number)
        shown = 10 * left + digit
        job = to_come.column(f"{shown}: {sign * number:+d}", [term], frame, Decimal(shown))
        plan = plan_on(frame, term)
        play = Play.of(job, plan, tally)
        for stroke in (*((m,) for s in plan.strokes for m in s), ()):
            play.ask()
            play.obey()
            for rod, change in product((-1, 0, 1, 2, 3), CHANGES):
                play.hear((BeadMove(rod, change),))
            if stroke:
                play = play.make(stroke)


def near(rng: random.Random, rods: list[int]) -> Stroke:
    """One bead or a pinch on a rod worked or beside one."""
    rod = rng.choice(rods) + rng.choice((-1, 0, 0, 0, 1))
    if rng.random() < 0.12:
        return (BeadMove(rod, rng.choice((5, -5))), BeadMove(rod, rng.choice(CHANGES[1:-1])))
    return (BeadMove(rod, rng.choice(CHANGES)),)


def tried_along(
    rng: random.Random, play: Play, strokes: Iterator[Stroke], rods: list[int], often: float,
    wrong: Callable[[Play], Iterator[Stroke]] | None = None,
) -> Play:  # fmt: skip
    """A hand that works rightly, with strokes tried beside it at random points."""
    for stroke in strokes:
        if rng.random() < often:
            play.ask()
            for tried in wrong(play) if wrong else (near(rng, rods) for _ in range(12)):
                play.hear(tried)
            if rng.random() < 0.3:
                play.obey()
            if rng.random() < 0.3:
                left_wrong(rng, play, rods)
        play = play.make(stroke)
        if not play.readings:
            return play
    play.ask()
    for _ in range(3):
        play.hear(near(rng, rods))
    return play


def left_wrong(rng: random.Random, play: Play, rods: list[int]) -> None:
    """Wrong beads are left lying, and the hand goes on: what is next, or anything near."""
    play = Play(play.job, play.judge._replace(keep_wrong=True), play.tally, play.readings,
                play.raw, play.log, play.last)  # fmt: skip
    for _ in range(5):
        left = play.judge.progress.left_in_line
        here = [move for move in left[:4] if play.frame.can(move)]
        stroke = (rng.choice(here),) if here and rng.random() < 0.6 else near(rng, rods)
        play = play.make(stroke)
        if not play.readings:
            return
        if rng.random() < 0.3:
            play.ask()
    play.obey()


def terms_of(rng: random.Random) -> list[int]:
    size = rng.choice((2, 2, 3, 4))
    figures = rng.choice(("0123456789", "0123456789", "0019", "4567", "00005"))
    terms: list[int] = []
    for _ in range(rng.choice((2, 3))):
        number = int(rng.choice("123456789") + "".join(rng.choices(figures, k=size - 1)))
        is_taken = sum(terms) >= number and rng.random() < 0.5
        terms.append(-number if is_taken else number)
    return terms


def column_of(
    tally: Tally, terms: list[Decimal], strictness: Strictness = Strictness.BEADS
) -> tuple[Play, Plan]:
    calculation = Sum(tuple(terms))
    plan = plan_of(calculation, at_least=4)
    job = to_come.column(str(calculation), terms, plan.start)
    return Play.of(job, plan, tally, strictness), plan


def in_some_order(rng: random.Random, plan: Plan, terms: list[int]) -> Iterator[Stroke]:
    sight = Sight(rng, plan.start)
    for term in terms:
        yield from number_worked(rng, sight, digits_of(term))


def of_columns(tally: Tally, count: int) -> None:
    rng = random.Random(72)
    for _ in range(count):
        terms = terms_of(rng)
        strictness = Strictness.ORDER if rng.random() < 0.1 else Strictness.BEADS
        play, plan = column_of(tally, [Decimal(term) for term in terms], strictness)
        rods = list(range(max(len(str(abs(term))) for term in terms) + 1))
        if strictness is Strictness.ORDER:
            strokes: Iterator[Stroke] = iter(plan.strokes)
        else:
            strokes = in_some_order(rng, plan, terms)
        tried_along(rng, play, strokes, rods, 0.25)


def of_odd_columns(tally: Tally, count: int) -> None:
    """Numbers below zero, and numbers with a point."""
    rng = random.Random(73)
    for _ in range(count):
        if rng.random() < 0.6:
            terms = [Decimal(rng.randrange(1, 10 ** rng.randint(1, 3))) for _ in range(3)]
            terms = [term if rng.random() < 0.4 else -term for term in terms]
        else:
            terms = [Decimal(rng.randrange(1, 10**4)).scaleb(-rng.randint(0, 3)) for _ in range(3)]
        play, plan = column_of(tally, terms)
        rods = sorted({move.rod for stroke in plan.strokes for move in stroke})
        tried_along(rng, play, iter(plan.strokes), rods or [0], 0.25)


def planted(rng: random.Random, play: Play, rods: list[int]) -> Iterator[Stroke]:
    """Beads that belong a rod or two beside, or to what comes later; and anything near."""
    left = list(play.judge.progress.left_in_line)
    coming = play.judge.progress.coming
    later = [move for stroke in coming.strokes for move in stroke] if coming else []
    for move in left[:2]:
        for off in (-2, -1, 1, 2):
            yield (BeadMove(move.rod + off, move.change),)
        yield (BeadMove(move.rod, -move.change),)
    for move in [*left[1:5], *later[:2]]:
        yield (move,)
    for move in later[:2]:
        yield (BeadMove(move.rod + rng.choice((-1, 1)), move.change),)
    for _ in range(6):
        yield near(rng, rods)


def of_written_work(tally: Tally, count: int) -> None:
    rng = random.Random(74)
    for _ in range(count):
        kind = rng.choice(("x", "x", "/", "/", "sqrt"))
        job, plan, strokes = written(rng, kind)
        rods = sorted({move.rod for stroke in plan.strokes for move in stroke})
        play = Play.of(job, plan, tally)
        tried_along(
            rng, play, strokes, rods, 0.15, lambda here, near_to=rods: planted(rng, here, near_to)
        )


def factor(rng: random.Random, size: int) -> int:
    figures = rng.choice(("0123456789", "123456789", "009", "0012"))
    return int(rng.choice("123456789") + "".join(rng.choices(figures, k=size - 1)))


def written(rng: random.Random, kind: str) -> tuple[Job, Plan, Iterator[Stroke]]:
    if kind == "x":
        one, other = (factor(rng, rng.randint(1, 3)) for _ in range(2))
        scale = rng.choice((0, 0, 0, 1, 2))
        numbers = (Decimal(one).scaleb(-scale), Decimal(other))
        text, plan = f"{numbers[0]} x {other}", plan_of(Product(*numbers))
        return to_come.product(text, *numbers, plan.start), plan, iter(plan.strokes)
    if kind == "/":
        divisor = factor(rng, rng.randint(1, 3))
        dividend = divisor * factor(rng, rng.randint(1, 3)) + rng.randrange(divisor)
        plan = plan_of(Quotient(Decimal(dividend), Decimal(divisor)))
        job = to_come.quotient(f"{dividend} / {divisor}", dividend, divisor, plan.start)
        if rng.random() < 0.5:
            return job, plan, iter(plan.strokes)
        return job, plan, by_trial(rng, plan, dividend, divisor)
    radicand = rng.randrange(2, 10 ** rng.randint(1, 5))
    plan = plan_of(Root(Decimal(radicand)))
    return to_come.root(f"sqrt {radicand}", radicand, plan.start), plan, iter(plan.strokes)


def by_trial(rng: random.Random, plan: Plan, dividend: int, divisor: int) -> Iterator[Stroke]:
    sight = Sight(rng, plan.start)
    first = len(str(dividend)) - 1 - (len(str(divisor)) - 1) - 2
    yield from set_number(rng, sight, str(divisor).rstrip("0"), plan.start.highest)
    yield from set_number(rng, sight, str(dividend), first)
    yield from Division(rng, sight, str(divisor).rstrip("0"), first + 2).work(0)


def below_zero_read(tally: Tally) -> None:
    """The slip of reading that no bead shows: what stands there is below zero."""
    play, plan = column_of(tally, [Decimal(5), Decimal(-8)])
    for stroke in plan.strokes:
        play = play.make(stroke)
    for listener in Listener:
        fault = Fault(Slip.NEGATIVE_READ_AS_SHOWN)
        line = omission_line(fault, play.judge.progress, WORDS, listener)
        play.check(line.show, play.scene(kind="below"), "read")


# --- the tests


def test_every_sentence_has_its_claim() -> None:
    said = {
        line.show for key, line in WORDS.sentences.items() if key.startswith(("slip.", "work."))
    }
    assert (
        said - {"Round half up."} - set(claims.SLIPS) - set(claims.WORK) - set(claims.DUE) == set()
    )
    praised = {
        line.show
        for key, line in WORDS.sentences.items()
        if key.startswith("verdict.") and "next" not in key and key != "verdict.then"
    }
    for text in praised:
        filled = text.format(rule="Two in.", move="two beads up", more="two more up")
        assert claims_of(filled), text


# The sum, the moves, what must be said of the last of them, or at the end; and what must never be.
ROWS = [
    ("5 - 1", "0:+5 0:+1", "", "Yes", "of ten"),
    ("5 - 1", "0:+5 0:+1", "end", "Partners of five: 1 and 4. Next: three ones up.", "of ten"),
    ("4 + 2", "0:+4 0:+2", "", "The beads run out there. Next: five bead down.", "of ten"),
    ("3 + 2", "0:+3 0:+2", "", "The beads run out there. Next: five bead down.", "of ten"),
    ("5 - 2", "0:+5 0:+2", "end", "Partners of five: 2 and 3. Next: one bead up.", "of ten"),
    ("6 - 2", "0:+1&0:+5 0:+2", "end", "Partners of five: 2 and 3. Next: one bead up.", "of ten"),
    ("6 - 3", "0:+5 0:+1 0:-1", "", "The beads run out there. Next: two ones up.", "of ten"),
    ("3 + 4", "0:+3 0:+1", "", "The beads run out there. Next: five bead down.", "other way"),
    ("6", "0:+5 1:+5", "", "That bead stays where it is. Next: one bead up.", "is to"),
    ("6", "0:+5 1:+1", "", "This move is for another rod. Next: one bead up.", "is to"),
    (
        "100 - 1", "2:+1 2:-1 0:+4&0:+5", "end",
        "A rod is left out. Next: four beads up on the tens.", "further left",
    ),
    ("14 - 6", "1:+1 0:+4 1:-1 0:+5 0:-4", "", "Partners of five: 4 and 1. Next", "of ten"),
    ("2 + 4", "0:+2 0:+2", "", "The beads run out there. Next: five bead down.", "Only"),
    ("4 + 3", "0:+4 0:+5 0:-1", "end", "Not all beads have moved. Next: one bead down.", "of ten"),
    (
        "38 + 47", "1:+3 0:+3&0:+5 2:+4", "",
        "The 4 goes on the tens. Next: five bead down on the tens.", "is to",
    ),
    ("31 - 4", "1:+3 0:+1 0:+3", "", "Only one here. Next: one bead down on the tens.", "of ten"),
    (
        "46 + 37", "1:+4 0:+5&0:+1 2:+1 1:+5", "kept", "Yes. One rod is not right. Next",
        "order",
    ),
    (
        "46 + 37", "1:+4 0:+5&0:+1 2:+1 1:+5 1:-2", "kept", "Yes. One rod is not right.",
        "order",
    ),
    (
        "47 + 38", "1:+4 0:+5&0:+2 0:-2 1:+5 1:-2", "", "Yes. Two beads down on the tens.",
        "makes",
    ),
    (
        "47 + 38", "1:+4 0:+5&0:+2 0:-2 1:+5 1:-2 1:+1", "", "Yes. Two out, ten in.",
        "One stroke",
    ),
]  # fmt: skip


@each_row(("text", "moves", "when", "said", "never"), ROWS)
def test_what_is_said_in_known_cases(
    text: str, moves: str, when: str, said: str, never: str
) -> None:
    plan = plan_of(parse_calculation(text), at_least=4)
    judge = Judge.of(plan, keep_wrong=when == "kept")
    for stroke in parse_strokes(moves):
        verdict = judge.judge(stroke)
        judge = judge.after(verdict)
        sentence = verdict_line(verdict, WORDS, Listener.OLDER).show
    if when == "end":
        fault = judge.omission()
        assert fault is not None
        sentence = omission_line(fault, judge.progress, WORDS, Listener.OLDER).show
    assert sentence.startswith(said)
    assert never not in sentence


RARE = {
    "{said}.", "Borrow {number}.", "Yes. Borrow {number}.",
    "Borrow {number} beyond the number.", "Yes. Borrow {number} beyond the number.",
    "It is below zero.", "What stands there is below zero.",
    # Of one form with "{product} is more than {rest}.", under which it is counted.
    "{here} is more than {there}.",
    # No hand of this test comes to them.
    "Try {number}.", "{one} becomes {other}.", "Half that square comes later.",
    "Revise the trial digit first.",
}  # fmt: skip


def check_all(tally: Tally, sentences: int, times: int, untrue: int = 0) -> None:
    """untrue: the most claims that may not hold, in ten thousand."""
    print(tally.report)
    never = [
        pattern
        for table in claims.TABLES
        for pattern in table
        if tally.claims[pattern] < times and pattern not in RARE
    ]
    assert tally.untrue.total() * 10_000 <= untrue * tally.claims.total(), tally.report
    assert tally.sentences >= sentences
    assert never == [], {pattern: tally.claims[pattern] for pattern in never}


def test_what_is_said_is_true_of_the_beads() -> None:
    tally = Tally()
    of_facts(tally, 0.012)
    of_columns(tally, 25)
    of_odd_columns(tally, 10)
    of_written_work(tally, 12)
    below_zero_read(tally)
    check_all(tally, 3_000, 0)


@pytest.mark.proof
def test_what_is_said_is_true_of_the_beads_in_all_facts_and_much_work() -> None:
    tally = Tally()
    of_facts(tally, 1)
    of_columns(tally, 600)
    of_odd_columns(tally, 250)
    of_written_work(tally, 500)
    below_zero_read(tally)
    # Hands that lay two half done numbers on one rod, or go on trying a digit after its
    # product has begun, can be read in two ways; the reason then told is at times that of
    # the other. Some seven claims of a hundred thousand: those are not mended yet.
    check_all(tally, 60_000, 3, untrue=1)

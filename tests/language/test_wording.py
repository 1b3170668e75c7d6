"""What is said of moves and verdicts: short, spoken in words, about the bead."""

import re
from collections.abc import Iterable, Iterator
from itertools import product
from random import Random

import pytest
from each import each_row
from shipped import the_words

from frame.language.habits import habit_line
from frame.language.lines import Line
from frame.language.verdicts import Hint, hint_line, omission_line, verdict_line
from frame.language.wording import (
    Listener,
    finger_text,
    move_text,
    rule,
    rule_line,
    rule_parts,
    stroke_text,
)
from frame.technique.beads import BeadMove, parse_move, parse_stroke
from frame.technique.conventions import Carry, Conventions, Strictness
from frame.technique.expression import parse_calculation
from frame.technique.faulty import Site
from frame.technique.habits import Habit
from frame.technique.judge import Judge, Verdict
from frame.technique.plan import Plan, Step, Technique, parse_strokes
from frame.technique.planning import plan_of
from frame.technique.progress import Progress
from frame.technique.slips import Slip
from frame.technique.trials import with_first_trial

WORDS = the_words()
MOST_WORDS = {Listener.YOUNG: 8, Listener.OLDER: 14}
UNFIT = re.compile(
    r"\b(wrong|careless|easy|easily|quick|clever|friends?|bad|stupid|you are)\b", re.I
)


def plan(text: str, carry: Carry = Carry.LAST) -> Plan:
    return plan_of(parse_calculation(text), Conventions(carry))


def last_step(text: str, carry: Carry = Carry.LAST) -> Step:
    return plan(text, carry).steps[-1]


def verdict_on(text: str, moves: str, strictness: Strictness = Strictness.BEADS) -> Verdict:
    """The verdict on the last of the moves."""
    judge = Judge.of(plan(text), strictness)
    for stroke in parse_strokes(moves):
        verdict = judge.judge(stroke)
        judge = judge.after(verdict)
    return verdict


def assert_fit(line: Line, listener: Listener) -> None:
    assert len(line.speak.split()) <= MOST_WORDS[listener], line
    assert not UNFIT.search(line.show + " " + line.speak), line
    assert re.fullmatch(r"[A-Za-z,.:?'\- ]+", line.speak), f"digits or signs spoken: {line}"
    assert line.show and line.show[0] == line.show[0].upper()
    assert "  " not in line.show and "{" not in line.show


# The forms of the rules, worked out by hand from the complements of five and of ten.
@pytest.mark.parametrize(
    ("text", "formula"),
    [
        ("0 + 2", "+2"),
        ("4 - 2", "−2"),
        ("4 + 3", "+3 = +5 −2"),
        ("5 - 4", "−4 = −5 +1"),
        ("8 + 7", "+7 = −3 +10"),
        ("12 - 8", "−8 = −10 +2"),
        ("5 + 6", "+6 = +1 −5 +10"),
        ("12 - 6", "−6 = −10 +5 −1"),
        ("99 + 1", "+1 = −9 −90 +100"),
        ("100 - 1", "−1 = −100 +90 +9"),
    ],
)
def test_a_rule_is_a_formula(text: str, formula: str) -> None:
    assert rule(last_step(text), WORDS) == formula


def test_carry_first_puts_the_ten_first() -> None:
    assert rule(last_step("8 + 7", Carry.FIRST), WORDS) == "+7 = +10 −3"


def test_a_borrow_beyond_the_number_names_its_size() -> None:
    borrow = plan("0 - 95").steps[0]
    assert rule(borrow, WORDS) == "borrow 100"
    spoken = rule_line(borrow, WORDS, Listener.OLDER).speak
    assert spoken == "Borrow one hundred beyond the number."


@each_row("first", range(10))
@each_row("sign", "+-")
def test_the_parts_of_a_rule_add_up_and_are_the_beads_moved(first: int, sign: str) -> None:
    for digit in range(1, 10):
        step = last_step(f"1{first} {sign} {digit}")
        parts = rule_parts(step)
        assert sum(parts) == step.change
        scaled = [move.change * 10 ** (move.rod - step.rod) for move in step.moves]
        if step.technique in (Technique.FIVE, Technique.TEN_FIVE):
            within = [part for part in parts if abs(part) < 10]
            assert sorted(within) == sorted(move.change for move in step.moves if move.rod == 0)
        assert sum(scaled) == sum(parts)


def test_a_rule_in_a_sentence() -> None:
    step = last_step("4 + 3")
    for listener in Listener:
        said = rule_line(step, WORDS, listener)
        assert said == Line("Five in, two out.", "Five in, two out.")


@each_row("first", range(10))
@each_row("sign", "+-")
def test_a_rule_names_its_parts_in_the_order_of_the_hand(first: int, sign: str) -> None:
    for digit in range(1, 10):
        step = last_step(f"1{first} {sign} {digit}")
        if step.technique is Technique.DIRECT:
            continue
        said = rule_line(step, WORDS, Listener.YOUNG).show.lower().rstrip(".").split(", ")
        parts = [f"{COUNTS[abs(n)]} {'in' if n > 0 else 'out'}" for n in parts_of_hand(step)]
        assert said == parts


COUNTS = WORDS.listed("number.small")


def parts_of_hand(step: Step) -> list[int]:
    """What a hand brings and takes, one after another: beads of a rod that go the same way are one
    part, and so is all of a carry."""
    parts: list[int] = []
    for move in step.moves:
        own = move.rod == step.rod
        part = move.change if own else 10 if step.change > 0 else -10
        was_own = bool(parts) and abs(parts[-1]) < 10
        if parts and own and was_own and parts[-1] * part > 0:
            parts[-1] += part
        elif own or was_own or not parts:
            parts.append(part)
    return parts


@pytest.mark.parametrize(
    ("move", "text", "finger"),
    [
        ("0:+5", "Five bead down", "index finger"),
        ("0:-5", "Five bead up", "index finger"),
        ("0:+2", "Two ones up", "thumb"),
        ("0:-1", "One bead down", "index finger"),
        ("1:+2", "Two beads up on the tens", "thumb"),
        ("-1:-5", "Five bead up on the tenths", "index finger"),
    ],
)
def test_a_move_in_words(move: str, text: str, finger: str) -> None:
    assert move_text(parse_move(move), WORDS) == text
    assert finger_text(parse_move(move), WORDS) == finger


def test_a_pinch_names_the_rod_once() -> None:
    said = stroke_text(parse_stroke("1:+2&1:+5"), WORDS)
    assert said == "Two beads up and five bead down on the tens"


def test_right_is_praised_by_the_rule() -> None:
    verdict = verdict_on("4 + 3", "0:+4 0:+5 0:-2")
    for listener in Listener:
        assert verdict_line(verdict, WORDS, listener).show == "Yes. Five in, two out."


def test_right_within_a_step_names_the_move() -> None:
    verdict = verdict_on("4 + 3", "0:+4 0:+5")
    assert verdict_line(verdict, WORDS, Listener.YOUNG).show == "Yes. Five bead down."


def test_a_part_of_a_stroke_says_how_many_are_to_come() -> None:
    verdict = verdict_on("4 + 3", "0:+1")
    assert verdict_line(verdict, WORDS, Listener.YOUNG).show == "Yes. Three more up."
    assert (
        verdict_line(verdict, WORDS, Listener.OLDER).show
        == "Yes. One stroke does it: three more up."
    )


def test_another_order_is_right_where_it_is_kept_and_led_where_it_is_not() -> None:
    kept = verdict_on("8 + 7", "0:+3 0:+5 1:+1")
    assert kept.slip is None
    for listener in Listener:
        assert verdict_line(kept, WORDS, listener).show == "That order works, too."
    put_back = verdict_on("8 + 7", "0:+3&0:+5 1:+1", Strictness.ORDER)
    assert verdict_line(put_back, WORDS, Listener.YOUNG).show == "Right, but later. Now the ones."
    assert verdict_line(put_back, WORDS, Listener.OLDER).show == (
        "That bead is right, but later. Next: three ones down."
    )


@pytest.mark.parametrize(
    ("text", "moves", "slip", "said"),
    [
        ("1 + 4", "0:+1 0:+5 0:-1 1:+1", Slip.EXTRA_MOVE, "That bead stays where it is."),
        ("2 + 4", "0:+2 0:+5 0:-2", Slip.WRONG_COUNT, "Only one here."),
        ("4 + 3", "0:+4 0:+5 0:-3", Slip.WRONG_PARTNER, "Partners of five: 3 and 2."),
        ("9 + 4", "0:+4&0:+5 0:-4", Slip.WRONG_PARTNER, "Partners of ten: 4 and 6."),
    ],
)
def test_a_slip_is_named_with_the_next_act(text: str, moves: str, slip: Slip, said: str) -> None:
    verdict = verdict_on(text, moves)
    assert verdict.slip is slip
    line = verdict_line(verdict, WORDS, Listener.OLDER)
    assert line.show.startswith(said)
    if verdict.progress.left_in_line:
        assert "Next:" in line.show


EVERY_SUM = (
    "4 + 3", "5 - 3", "8 + 7", "12 - 8", "6 + 7", "5 + 8", "12 - 6", "14 - 7", "44 + 8", "95 + 7",
    "53 - 8", "99 + 1", "100 - 1", "38 + 47", "0 - 95 + 118", "0 - 5 - 95", "45.7 + 4.5",
    "22.3 - 2.8", "9 + 1", "5000000 - 400000", "123456789012 + 987654321098", "1 - 0.000001",
    "499999 + 1", "7 + 9 - 8",
)  # fmt: skip
WRITTEN_WORK = (
    "37 x 24", "304 x 20", "3876 / 68", "3588 / 46", "6120 / 30", "sqrt 1764", "sqrt 10404",
)  # fmt: skip


def moves_near(progress: Progress) -> list[BeadMove]:
    """The moves on the rods of the step under way and beside them."""
    step = progress.step
    middle = step.rod if step else 0
    changes = (1, 2, 3, 4, 5, -1, -2, -3, -4, -5)
    return [BeadMove(middle + off, change) for off in (-1, 0, 1, 2) for change in changes]


def walks(plans: Iterable[Plan]) -> Iterator[tuple[Judge, list[Verdict]]]:
    """The judge at every point of random workings, each begun after some strokes, with verdicts on
    near moves."""
    random = Random(5)
    for worked, strictness in product(plans, Strictness):
        for begun in range(0, len(worked.strokes), 6):
            progress = Progress.begin(worked, begun)
            judge = Judge(progress, strictness, keep_wrong=strictness is Strictness.BEADS)
            for _ in range(14):
                near = moves_near(judge.progress)
                yield judge, [judge.judge((move,)) for move in random.sample(near, 8)]
                left = judge.progress.left_in_line
                if not left:
                    break
                turn = random.random()
                move = random.choice(left if turn < 0.3 else left[:1] if turn < 0.9 else near)
                judge = judge.after(judge.judge((move,)))
                yield judge, [judge.judge((random.choice(near),))]


OF_WRITTEN_WORK = {
    Slip.ZERO_NOT_SKIPPED, Slip.PRODUCT_ONE_ROD_OFF, Slip.LINE_OUT_OF_ORDER, Slip.WRONG_PRODUCT,
    Slip.PRODUCT_LEFT_OUT, Slip.DIGIT_NOT_CLEARED, Slip.QUOTIENT_ONE_ROD_OFF,
    Slip.TRIAL_TOO_LARGE, Slip.QUOTIENT_TOO_EARLY, Slip.NOT_REVISED,
    Slip.REVISED_WITHOUT_ADDING_BACK, Slip.WRONG_TOTAL, Slip.REMAINDER_NOT_SMALLER,
    Slip.HALVING_FORGOTTEN, Slip.HALF_SQUARE_FORGOTTEN,
}  # fmt: skip
OF_AN_ANSWER = {Slip.NEGATIVE_READ_AS_SHOWN}
LONGEST_NAMED = 11


def test_every_verdict_is_said_fitly() -> None:
    slips, judgements = set(), set()
    for judge, verdicts in walks(map(plan, EVERY_SUM)):
        omitted = judge.omission()
        slips |= {verdict.slip for verdict in verdicts} | ({omitted.slip} if omitted else set())
        judgements |= {verdict.judgement for verdict in verdicts}
        for listener in Listener:
            for verdict in verdicts:
                assert_fit(verdict_line(verdict, WORDS, listener), listener)
            if omitted:
                assert_fit(omission_line(omitted, judge.progress, WORDS, listener), listener)
            for level in Hint:
                assert_fit(hint_line(judge.progress, level, WORDS, listener), listener)
    assert slips == {None, *Slip} - OF_WRITTEN_WORK - OF_AN_ANSWER
    assert len(judgements) == 3


def test_every_slip_of_written_work_is_said_fitly() -> None:
    slips = set()
    worked = list(map(plan, WRITTEN_WORK))
    smaller = with_first_trial(plan("3588 / 46"), 6)
    assert smaller is not None
    for judge, verdicts in walks([*worked, smaller]):
        omitted, wrong = judge.omission(), [verdict for verdict in verdicts if verdict.fault]
        slips |= {verdict.slip for verdict in wrong} | ({omitted.slip} if omitted else set())
        for listener in Listener:
            for verdict in wrong:
                assert_fit(verdict_line(verdict, WORDS, listener), listener)
            if omitted:
                assert_fit(omission_line(omitted, judge.progress, WORDS, listener), listener)
    assert slips >= OF_WRITTEN_WORK


@each_row("habit", Habit)
def test_every_habit_is_said_fitly(habit: Habit) -> None:
    for digit, listener in product(range(1, 5), Listener):
        assert_fit(habit_line(Site(habit, 0, digit), WORDS, listener), listener)


def test_every_slip_on_the_longest_named_rods_stays_short() -> None:
    """Each form of each slip, told again on rods whose names are three words long."""
    progress = Progress.begin(plan("499999499999 + 1"))
    forms = {}
    for judge, verdicts in walks(map(plan, EVERY_SUM)):
        faults = (judge.omission(), *(verdict.fault for verdict in verdicts))
        for fault in filter(None, faults):
            forms[fault.slip, fault.detail, bool(fault.numbers), bool(fault.move)] = fault
    assert {slip for slip, *_ in forms} == {*Slip} - OF_WRITTEN_WORK - OF_AN_ANSWER
    for fault, listener in product(forms.values(), Listener):
        move = fault.move and BeadMove(LONGEST_NAMED, fault.move.change)
        step = fault.step and fault.step._replace(rod=LONGEST_NAMED)
        told = fault._replace(move=move, step=step)
        assert_fit(omission_line(told, progress, WORDS, listener), listener)


def test_help_says_more_at_each_level() -> None:
    progress = Progress.begin(plan("34 + 23"), 2)
    young = [hint_line(progress, level, WORDS, Listener.YOUNG).show for level in Hint]
    assert young == ["Look at this rod.", "Five in, three out.", "Watch. Now you."]
    assert hint_line(progress, Hint.POINT, WORDS, Listener.OLDER).show == ("Look at the tens rod.")


@pytest.mark.parametrize(
    ("listener", "rods", "said"),
    [
        (Listener.YOUNG, "0 + 2", "Two beads up."),
        (Listener.OLDER, "0 + 2", "Two ones up."),
        (Listener.OLDER, "0 + 20", "Two beads up on the tens."),
        (Listener.YOUNG, "9 - 5", "Five bead up."),
        (Listener.YOUNG, "0 + 7", "Two beads up and five bead down."),
    ],
)
def test_the_rule_of_a_direct_step_is_its_move(listener: Listener, rods: str, said: str) -> None:
    worked = plan(rods)
    progress = Progress.begin(worked, worked.span_of[-1].start)
    assert hint_line(progress, Hint.TEACH, WORDS, listener).show == said

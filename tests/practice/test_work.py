"""One exercise under way, at every rung."""

from decimal import Decimal
from random import Random

import pytest
from each import each_row

from frame.practice.exercises import Exercise, Kind
from frame.practice.outcomes import Outcome
from frame.practice.rungs import Asked, Rung
from frame.practice.touches import WRONG_ANSWER, Help
from frame.practice.work import Work
from frame.technique.beads import parse_stroke
from frame.technique.conventions import USUAL, Strictness
from frame.technique.expression import parse_sum
from frame.technique.judge import Judgement
from frame.technique.plan import parse_strokes
from frame.technique.slips import Slip


def begin(text, rung=Rung.ALONE, rods=2, strictness=Strictness.BEADS, **more):
    kind = more.pop("kind", Kind.SUM)
    return Work.begin(Exercise(kind, parse_sum(text), rung, rods, **more), USUAL, strictness)


def play(work, moves):
    return [work.touch(stroke) for stroke in parse_strokes(moves)]


def test_alone_the_learner_sets_the_first_number_and_works():
    work = begin("8 + 7")
    verdicts = play(work, "0:+3&0:+5 0:-3 1:+1")
    assert all(verdict.judgement is Judgement.RIGHT for verdict in verdicts)
    assert work.finished and work.right and work.unaided
    assert work.frame.digits == "15"


def test_following_the_first_number_stands_there_and_the_next_bead_is_lit():
    work = begin("8 + 7", Rung.FOLLOW)
    assert work.frame.digits == "08" and work.is_lit
    assert {str(move) for move in work.next_stroke} == {"0:-3"}


def test_watching_is_played_and_then_repeated():
    work = begin("4 + 3", Rung.WATCH)
    assert work.touch(parse_stroke("0:+5")) is None
    while work.play():
        pass
    assert not work.finished and work.frame.digits == "04" and work.is_lit
    play(work, "0:+5 0:-2")
    assert work.finished and work.right


@pytest.mark.parametrize("last", [1, 2, 3])
def test_finishing_leaves_the_last_strokes_to_the_learner(last):
    work = begin("95 + 7", Rung.FINISH, rods=3, last=last)
    while work.to_play:
        work.play()
    left = [move for stroke in work.plan.strokes for move in stroke][-last:]
    assert [str(move) for move in work.judge.progress.left_in_line] == [str(m) for m in left]
    for move in left:
        work.touch((move,))
    assert work.finished and work.frame.digits == "102"


def test_a_wrong_bead_is_not_kept_and_the_second_one_brings_the_next_bead():
    work = begin("4 + 3", Rung.FOLLOW)
    first = work.touch(parse_stroke("0:-3"))
    assert first.slip is not None and not first.kept and work.frame.digits == "04"
    assert work.level is Help.POINT
    work.touch(parse_stroke("0:-3"))
    assert work.level is Help.SHOW
    play(work, "0:+5")
    assert work.level is Help.NONE
    play(work, "0:-2")
    assert work.right and not work.unaided


def test_help_grows_and_is_counted():
    work = begin("4 + 3")
    levels = [work.more_help() for _ in range(4)]
    assert levels == [Help.POINT, Help.TEACH, Help.SHOW, Help.SHOW]
    play(work, "0:+4 0:+5 0:-2")
    assert work.right and not work.unaided and work.helps == 4


def test_help_is_the_bead_at_once_where_it_is_lit_and_never_the_rod_where_there_is_one():
    assert begin("4 + 3", Rung.FOLLOW).more_help() is Help.SHOW
    assert begin("4 + 3", rods=1).more_help() is Help.TEACH


def test_undo_takes_right_strokes_back_to_the_start():
    work = begin("8 + 7")
    play(work, "0:+3&0:+5 0:-3")
    assert work.undo() and work.frame.digits == "08"
    assert work.undo() and work.frame.digits == "00"
    assert not work.undo()


IN_OTHER_ORDERS = [
    # the ones first, their carry after them, before them, and after the tens
    ("38 + 47", "1:+3 0:+3&0:+5 0:-3 1:+1 1:+5 1:-1"),
    ("38 + 47", "1:+3 0:+3&0:+5 1:+1 0:-3 1:+5 1:-1"),
    ("38 + 57", "1:+3 0:+3&0:+5 0:-3 1:+5 1:+1"),
    # straight to where a digit and its carry lead together
    ("38 + 47", "1:+3 0:+3&0:+5 0:-3 1:+5"),
    # the other deck first, and beads one by one
    ("38 + 47", "1:+2 0:+5 0:+3 1:+1 1:-1 0:-1 1:+5 0:-2 1:+1"),
    ("54 - 35", "0:+4 1:+5 1:-5 0:+5 1:+1"),
    ("503 - 127", "2:+5 0:+3 2:-5 0:+5 0:-2 2:+3 1:+2 1:+5"),
]


@pytest.mark.parametrize("text, moves", IN_OTHER_ORDERS)
def test_a_number_may_be_worked_in_any_order(text, moves):
    work = begin(text, rods=3)
    judgements = {verdict.judgement for verdict in play(work, moves)}
    assert judgements == {Judgement.RIGHT, Judgement.OTHER_ORDER}
    assert work.finished and work.unaided and work.frame == work.plan.end


@pytest.mark.parametrize("text, moves, slip", [
    ("8 + 7 + 4", "0:+4", Slip.CARRY_FORGOTTEN),
    ("8 + 7 + 50", "1:+5", Slip.CARRY_FORGOTTEN),
    # The bead just moved may as well be taken back.
    ("8 + 7 + 3", "0:+3", Slip.EXTRA_MOVE),
])  # fmt: skip
def test_beginning_the_next_number_shows_what_this_one_lacks(text, moves, slip):
    work = begin(text, rods=2)
    play(work, "0:+3&0:+5 0:-3")
    verdict = work.touch(parse_stroke(moves))
    assert verdict.judgement is Judgement.WRONG and not verdict.kept
    assert verdict.slip is slip and work.slips == [slip]
    assert work.term == 1 and work.frame.digits == "05"


OUTCOMES = [
    # beads moved, answer given, what that tells
    ("0:+4 0:+5 0:-2", 7, Outcome.RIGHT),
    ("0:+4 0:+5 0:-1", 8, Outcome.WRONG_PLAN),
    ("0:+4 0:+5 0:-1", 6, Outcome.WRONG_PLAN),
    ("0:+4 0:+5 0:-2", 8, Outcome.PICTURE_LOST),
    ("0:+4 0:+5 0:-1", 7, Outcome.HAND_STRAYED),
    ("0:+4 0:+5", 7, Outcome.HAND_STRAYED),
    ("0:+4 0:+5", 9, Outcome.WRONG_PLAN),
    ("0:+4 0:+5 0:-3 0:+1", 7, Outcome.RIGHT),
    ("", 7, Outcome.RIGHT),
    ("", 8, Outcome.WRONG_ANSWER),
]


@each_row("moves, answer, outcome", OUTCOMES)
@each_row("more", [
    {"rung": Rung.COVERED}, {"rung": Rung.ALONE, "asked": Asked.CALLED},
    {"rung": Rung.COVERED, "asked": Asked.CALLED},
])  # fmt: skip
def test_the_hand_and_the_answer_are_told_apart(moves, answer, outcome, more):
    work = begin("4 + 3", **more)
    verdicts = play(work, moves)
    assert all(verdict.kept for verdict in verdicts) and not work.finished
    work.say_done()
    assert work.asks and not work.finished
    assert work.answer(Decimal(answer)) == (answer == 7)
    assert work.finished and work.outcome is outcome and work.right == (answer == 7)
    assert work.unaided == (outcome is Outcome.RIGHT and "-3" not in moves)


def test_covered_setting_asks_for_no_answer():
    right, other = (begin("34", Rung.COVERED, kind=Kind.SET) for _ in range(2))
    play(right, "1:+3 0:+4")
    assert right.say_done() and right.outcome is Outcome.RIGHT
    play(other, "1:+3 0:+3")
    assert not other.say_done() and other.outcome is Outcome.WRONG_PLAN and other.slips


@pytest.mark.parametrize("more", [
    {"rung": Rung.NUMBER}, {"own": True}, {"asked": Asked.FLASHED}, {"asked": Asked.CALLED},
])  # fmt: skip
def test_where_the_answer_is_all_there_is_it_is_asked_at_once(more):
    work = begin("38 + 47", rods=3, **more)
    assert work.asks and not work.finished
    assert work.answer(Decimal(85)) and work.unaided


def test_looks_at_an_unseen_frame_are_counted_and_spoil_nothing():
    work = begin("4 + 3", Rung.COVERED)
    work.more_help()
    work.more_help()
    play(work, "0:+4 0:+5 0:-2")
    work.say_done()
    work.answer(Decimal(7))
    assert (work.looks, work.helps) == (2, 0) and work.unaided


@pytest.mark.parametrize("rung", [Rung.COVERED, Rung.NUMBER, Rung.TRACES, Rung.PALE])
def test_right_work_is_right_at_every_rung(rung):
    work = begin("38 + 47 - 5", rung, rods=3)
    for stroke in work.plan.strokes:
        work.touch(stroke)
    if work.is_silent:
        work.say_done()
        assert not work.finished and work.answer(Decimal(80))
    assert work.finished and work.unaided


def test_a_wipe_clears_where_clearing_is_asked_and_nowhere_else():
    summing = begin("58 + 1", Rung.FOLLOW)
    assert not summing.wipe([1, 0]) and summing.frame.digits == "58"
    clearing = begin("58", kind=Kind.CLEAR)
    assert clearing.wipe([1]) and clearing.frame.digits == "08" and not clearing.finished
    assert clearing.wipe([0]) and clearing.finished and clearing.right


def test_a_number_read():
    work = begin("57", kind=Kind.READ)
    assert not work.answer(Decimal(75)) and work.slips == [WRONG_ANSWER]
    assert work.answer(Decimal(57)) and work.finished and not work.unaided


@each_row("seed", range(40))
def test_asked_for_the_answer_alone_any_beads_will_do(seed):
    random = Random(seed)
    work = begin("6 + 7", strictness=Strictness.ANSWER)
    for _ in range(random.randrange(6)):
        rod, change = random.randrange(2), random.choice([5, -5, 1, -1, 2, -2])
        stroke = parse_stroke(f"{rod}:{change:+d}")
        if work.frame.can_all(stroke):
            verdict = work.touch(stroke)
            assert verdict is None or verdict.kept
    while not work.finished:
        work.touch((min(work.judge.progress.next_stroke),))
    assert work.frame.digits == "13" and work.right


def test_in_order_a_bead_out_of_turn_is_put_back():
    work = begin("8 + 7", Rung.FOLLOW, strictness=Strictness.ORDER)
    verdict = work.touch(parse_stroke("1:+1"))
    assert verdict.judgement is Judgement.OTHER_ORDER and not verdict.kept
    assert work.frame.digits == "08"
    play(work, "0:-3 1:+1")
    assert work.finished


def test_on_a_pale_frame_the_first_look_after_a_touch_is_free_and_the_next_is_help():
    work = begin("4 + 3", Rung.PALE)
    assert work.more_help() is Help.NONE
    assert (work.looks, work.helps) == (1, 0)
    assert work.more_help() is Help.POINT
    assert (work.looks, work.helps) == (1, 1)
    play(work, "0:+4")
    assert work.more_help() is Help.NONE
    assert (work.looks, work.helps) == (2, 1)


def test_a_free_look_on_a_pale_frame_leaves_the_work_unaided():
    work = begin("4 + 3", Rung.PALE)
    for stroke in parse_strokes("0:+4 0:+5 0:-2"):
        work.more_help()
        work.touch(stroke)
    assert (work.looks, work.helps) == (3, 0) and work.unaided


def test_silent_work_keeps_wrong_beads_and_lights_none():
    work = begin("4 + 3", Rung.COVERED)
    for verdict in play(work, "0:+4 1:+4 1:+5 0:-4"):
        assert verdict.kept
    assert not work.is_lit and not work.finished and work.frame.digits == "90"


def test_nothing_can_be_moved_or_undone_when_it_is_finished():
    work = begin("4 + 3", Rung.COVERED)
    play(work, "0:+4")
    work.say_done()
    work.answer(Decimal(7))
    assert work.touch(parse_stroke("0:+5")) is None
    assert not work.undo() and not work.can_undo

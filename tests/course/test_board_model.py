"""The board's model: an agenda gone through bead by bead, back and forth, with tries in between."""

from decimal import Decimal
from random import Random

import pytest

from frame.course.agenda import Item, Task, items_of
from frame.course.board import Board
from frame.course.shown import ItemStage, Shown
from frame.technique.beads import BeadMove, parse_stroke
from frame.technique.conventions import USUAL, Conventions, Operands
from frame.technique.expression import Product, Quotient, Root, Sum, parse_calculation
from frame.technique.judge import Judge, Judgement
from frame.technique.operation import Act
from frame.technique.plan import Technique
from frame.technique.progress import Progress
from frame.technique.reading import read

CALCULATIONS = 40


def random_calculations(seed, count):
    """Sums, products, quotients and roots in turn."""
    random = Random(seed)
    for index in range(count):
        one, other = (Decimal(random.randint(2, 10 ** random.randint(1, 3))) for _ in range(2))
        kinds = (
            lambda one=one, other=other: Sum((one + other, -one, other, one)),
            lambda one=one, other=other: Product(one, other),
            lambda one=one, other=other: Quotient(one * other + random.randint(0, 1), other),
            lambda one=one: Root(one * one),
        )
        yield kinds[index % 4]()


def board_of(*texts):
    items, problems = items_of("\n".join(texts))
    assert not problems
    return Board.of(items, USUAL)


def shown_of(text, trial=0):
    return Shown.of(Item(Task.SHOW, parse_calculation(text), trial=trial), USUAL)


def frames_of(plan):
    """Every frame of a plan, the first one included, by the strokes alone."""
    frames = [plan.start]
    for stroke in plan.strokes:
        frames.append(frames[-1].apply_all(stroke))
    return frames


def look(board):
    """What the board tells now."""
    shown = board.shown
    return board.at, shown.at, shown.stage, shown.frame, shown.reading, shown.next_stroke


# On and back


@pytest.mark.parametrize("seed", range(3))
def test_next_passes_the_plan_and_then_the_answer_and_back_undoes_it(seed):
    items = [Item(Task.SHOW, one) for one in random_calculations(seed, CALCULATIONS)]
    board, looks = Board.of(items, USUAL), []
    for index, shown in enumerate(board.items):
        assert board.at == index and shown.stage is ItemStage.READY
        passed = []
        while board.shown is shown and shown.stage is not ItemStage.TOLD:
            passed.append(shown.frame)
            looks.append(look(board))
            board.next()
        assert passed == frames_of(shown.plan)[shown.begin :]
        assert (shown.frame, shown.reading) == (shown.plan.end, shown.item.sum.result)
        looks.append(look(board))
        board.next()
    assert look(board) == looks.pop()
    for before in reversed(looks):
        board.back()
        assert look(board) == before


@pytest.mark.parametrize("seed", range(2))
def test_only_the_setting_of_the_first_numbers_is_done_when_an_item_comes_up(seed):
    for one in random_calculations(seed, CALCULATIONS):
        shown = Shown.of(Item(Task.SHOW, one), USUAL)
        steps = [shown.plan.steps[shown.plan.step_of[at]] for at in range(shown.begin)]
        assert {step.operation.act for step in steps} <= {Act.SET}
        if isinstance(one, Sum):
            assert read(shown.frame) == one.terms[0]
        else:
            left = shown.plan.steps[shown.plan.step_of[shown.begin] :]
            assert Act.SET not in {step.operation.act for step in left}


def test_back_from_the_start_of_an_item_shows_the_one_before_as_it_was_left():
    board = board_of("46 + 39", "4 + 3")
    board.go_to_item(1)
    board.back()
    assert board.at == 0
    board.back()
    assert (board.at, read(board.shown.frame)) == (0, 40)
    for _ in range(9):
        board.back()
    assert (board.at, board.shown.at, board.shown.stage) == (0, 0, ItemStage.READY)


def test_what_was_set_is_taken_back_only_where_it_was_gone_back_to():
    board = board_of("4 + 3", "46 + 39")
    board.go_to_item(1)
    board.shown.go_to(0)
    board.next()
    assert read(board.shown.frame) == 40
    board.back()
    assert (board.at, board.shown.at) == (1, 0)
    board.back()
    assert board.at == 0


def test_items_that_are_not_worked_are_given_and_told():
    for act in (Task.READ, Task.CALL, Task.FLASH):
        numbers = Sum((Decimal(57),) if act is Task.READ else (Decimal(3), Decimal(4)))
        board = Board.of([Item(act, numbers)] * 2, USUAL)
        stages = []
        for _ in range(6):
            stages.append((board.at, board.shown.stage, read(board.shown.frame)))
            board.next()
        before = 57 if act is Task.READ else 0
        once = [
            (ItemStage.READY, before),
            (ItemStage.GIVEN, before),
            (ItemStage.TOLD, numbers.result),
        ]
        assert stages == [(at, *one) for at in (0, 1) for one in once]


def test_an_empty_board_takes_everything_calmly():
    board = Board.of((), USUAL)
    board.next()
    board.back()
    board.go_to_item(3)
    assert board.shown is None and not board.has_next
    board.put(Item(Task.SHOW, parse_calculation("4 + 3")))
    assert board.at == 0 and str(board.shown.item) == "4 + 3"


def test_items_keep_where_they_stood_while_others_come_and_go():
    board = board_of("46 + 39", "3876 / 68", "57")
    board.shown.next_step()
    board.go_to_item(1)
    board.shown.go_to(13)
    touched = board.shown.next_stroke
    board.shown.touch(touched)
    stood = look(board)
    board.put(Item(Task.SHOW, parse_calculation("4 + 3")))
    assert [str(one.item) for one in board.items] == ["46 + 39", "3876 / 68", "4 + 3", "57"]
    assert board.at == 2
    board.add(items_of("8 + 1")[0])
    assert (board.at, len(board.items)) == (2, 5)
    board.go_to_item(1)
    assert look(board) == stood and len(board.shown.hand) == 1
    board.go_to_item(-4)
    assert board.at == 0 and read(board.shown.frame) == 76
    board.go_to_item(99)
    assert board.at == 4


# Steps and places


@pytest.mark.parametrize("seed", range(2))
def test_step_moves_land_where_steps_begin_and_end(seed):
    random = Random(seed)
    for one in random_calculations(seed, CALCULATIONS):
        shown = Shown.of(Item(Task.SHOW, one), USUAL)
        ends = {span.stop for span in shown.plan.span_of if span}
        starts = {span.start for span in shown.plan.span_of if span}
        for _ in range(6):
            at = random.randint(0, shown.last)
            shown.go_to(at)
            shown.next_step()
            assert shown.at == min((end for end in ends if end > at), default=shown.last)
            shown.go_to(at)
            shown.step_back()
            assert shown.at == max((start for start in starts if start < at), default=0)


def test_go_to_stays_within_the_work():
    shown = shown_of("46 + 39")
    for at, stood in ((-3, 0), (0, 0), (4, 4), (shown.last, shown.last), (99, shown.last)):
        shown.go_to(at)
        assert (shown.at, shown.frame) == (stood, frames_of(shown.plan)[stood])


@pytest.mark.parametrize("layout", Operands)
def test_whatever_an_agenda_takes_can_be_shown_by_every_convention(layout):
    texts = ("99999 * 99999", "123.4567", "0.000001", "1 / 7", "sqrt 2", "0.25 * 1200", "3 - 5")
    items, problems = items_of("\n".join(texts))
    assert not problems
    board = Board.of(items, Conventions(layout=layout))
    assert [one.plan.result for one in board.items] == [one.item.sum.result for one in board.items]


# What decides


DECIDING = [
    ("4 + 3", 0, ["+5"]),
    ("1 + 2", 0, []),
    ("6 + 2", 0, []),
    ("46 + 39", 0, ["1:+5", "0:-1"]),
    ("12 - 7", 0, ["1:-1"]),
    ("7 - 5", 0, []),
    ("5 + 5 + 1", 0, ["0:-5"]),
    ("12 * 3", 0, []),
]


def deciding(shown):
    """The strokes that the class may say, by where they come."""
    found = []
    for at in range(shown.last):
        shown.go_to(at)
        if shown.is_deciding:
            found.append(shown.next_stroke)
    return found


@pytest.mark.parametrize(("text", "trial", "moves"), DECIDING)
def test_the_first_move_decides_where_a_partner_comes(text, trial, moves):
    found = [str(stroke[0]) for stroke in deciding(shown_of(text, trial))]
    assert len(found) == len(moves) and all(map(str.endswith, found, moves))


@pytest.mark.parametrize(
    ("text", "trial", "lines"),
    [
        ("3876 / 68", 0, ["quotient 6", "revise 6 to 5", "quotient 7"]),
        ("3588 / 46", 6, ["quotient 6", "revise 6 to 7", "quotient 9", "revise 9 to 8"]),
    ],
)
def test_a_trial_digit_and_its_revision_decide(text, trial, lines):
    shown, found = shown_of(text, trial), []
    for at in range(shown.last):
        shown.go_to(at)
        act = shown.step.operation.act
        if shown.is_deciding and (act.is_trial or act.is_revision):
            found.append(str(shown.step.operation))
    assert found == lines


@pytest.mark.parametrize("seed", range(2))
def test_no_direct_step_of_adding_or_taking_decides(seed):
    for one in random_calculations(seed, CALCULATIONS):
        shown = Shown.of(Item(Task.SHOW, one), USUAL)
        for at in range(shown.last):
            shown.go_to(at)
            act, is_direct = shown.step.operation.act, shown.step.technique is Technique.DIRECT
            is_first = shown.plan.span_of[shown.plan.step_of[at]].start == at
            if is_direct and not (act.is_trial or act.is_mending):
                assert not shown.is_deciding
            if is_first and not is_direct and act.is_worked:
                assert shown.is_deciding
            assert is_first or not shown.is_deciding
        shown.go_to(shown.last)
        assert not shown.is_deciding


# A try by hand


@pytest.mark.parametrize("seed", range(2))
def test_what_the_hand_moves_stays_and_the_judge_says_what_it_was(seed):
    random = Random(seed)
    for one in random_calculations(seed, CALCULATIONS // 2):
        shown = Shown.of(Item(Task.SHOW, one), USUAL)
        shown.go_to(random.randint(0, shown.last))
        prepared, at, moves = shown.frame, shown.at, []
        judge = Judge(Progress.begin(shown.plan, at), keep_wrong=True)
        for _ in range(5):
            stroke = random_stroke(random, shown)
            wanted = shown.frame.apply_all(stroke)
            verdict = shown.touch(stroke)
            assert verdict is shown.verdict
            assert told(verdict) == told(judge.judge(stroke))
            judge = judge.after(verdict)
            assert verdict.kept and shown.frame == wanted and shown.next_stroke == ()
            moves.append(wanted)
        for wanted in reversed([prepared, *moves[:-1]]):
            assert shown.undo()
            assert shown.frame == wanted and shown.verdict is None
        assert not shown.undo() and (shown.at, shown.hand) == (at, [])


def told(verdict):
    """A verdict, and what it leaves to be done."""
    progress = verdict.progress
    return verdict._replace(progress=(progress.frame, progress.step, progress.left_in_line))


def random_stroke(random, shown):
    """The next right move where there is one and a coin says so, else any that the beads allow."""
    frame, judge = shown.frame, shown.judge if shown.hand else None
    right = sorted(judge.progress.next_stroke) if judge else list(shown.next_stroke[:1])
    if right and random.random() < 0.6 and frame.can(right[0]):
        return (right[0],)
    rod = random.randint(frame.lowest, frame.highest)
    heaven, earth = divmod(frame.digit(rod), 5)
    changes = [-5 if heaven else 5, *(one for one in range(-earth, 5 - earth) if one)]
    return (BeadMove(rod, random.choice(changes)),)


def test_right_and_wrong_are_told_apart_and_a_move_the_beads_forbid_is_none():
    shown = shown_of("46 + 39")
    assert shown.touch(parse_stroke("1:+1")) is None and not shown.hand
    assert shown.touch(parse_stroke("1:+5")).judgement is Judgement.RIGHT
    assert shown.touch(parse_stroke("0:+1")).judgement is Judgement.WRONG
    assert read(shown.frame) == 97 == shown.reading


@pytest.mark.parametrize("seed", range(2))
def test_a_try_that_follows_the_work_is_gone_on_from(seed):
    random = Random(seed)
    for one in random_calculations(seed, CALCULATIONS):
        board = Board.of([Item(Task.SHOW, one)], USUAL)
        shown, twin = board.shown, Shown.of(Item(Task.SHOW, one), USUAL)
        for each in (shown, twin):
            each.go_to(shown.begin)
        tried = min(random.randint(1, 4), shown.last - shown.begin)
        for _ in range(tried):
            shown.touch(twin.next_stroke)
            twin.go_to(twin.at + 1)
        assert shown.at == shown.begin and shown.frame == twin.frame
        board.next()
        went_on = twin.at + (twin.at < twin.last)
        assert (shown.at, shown.hand, shown.verdict) == (went_on, [], None)
        assert (shown.stage is ItemStage.TOLD) is (twin.at == twin.last)


def test_of_a_try_only_what_does_not_follow_the_work_is_taken_back():
    board = board_of("46 + 39")
    for stroke in ("1:+5", "2:+1", "1:-2"):
        board.shown.touch(parse_stroke(stroke))
    board.next()
    assert (board.shown.at, read(board.shown.frame), board.shown.hand) == (3, 96, [])


def test_a_bead_put_wrong_and_taken_back_does_not_spoil_a_try():
    board = board_of("3 + 1 - 1")
    for stroke in ("0:+5", "0:-5", "0:+1", "0:-1"):
        board.shown.touch(parse_stroke(stroke))
    board.next()
    assert (board.shown.at, board.shown.stage) == (board.shown.last, ItemStage.TOLD)


def test_the_way_back_leaves_a_try():
    board = board_of("46 + 39")
    stood = look(board)
    board.shown.touch(board.shown.next_stroke)
    board.back()
    assert look(board) == stood and not board.shown.hand and board.shown.verdict is None


def test_the_end_reached_twice_does_not_hide_the_answer():
    shown = shown_of("46 + 39")
    shown.go_to(shown.last)
    shown.toggle_told()
    shown.go_to(shown.last)
    assert shown.stage is ItemStage.TOLD
    shown.go_to(shown.last - 1)
    assert shown.stage is ItemStage.GIVEN


def test_a_try_on_a_frame_that_is_not_worked_is_no_part_of_any_work():
    for act, numbers in ((Task.READ, "57"), (Task.CALL, "12 + 7"), (Task.FLASH, "12 + 7")):
        shown = Shown.of(Item(act, parse_calculation(numbers)), USUAL)
        shown.stage = ItemStage.TOLD
        before = shown.frame
        verdict = shown.touch(parse_stroke("1:+1" if act is not Task.READ else "2:+1"))
        assert verdict.judgement is Judgement.WRONG and read(shown.frame) > read(before)
        assert shown.undo() and shown.frame == before

"""Help: where to look, the rule, the next stroke shown; and beads that the tool moves."""

import pytest
from robot import Heard, at_work, begin, do_right, lesson_with, signs, steps_at, wrong_moves

from frame.app import Push
from frame.course.runner import Stage
from frame.language.wording import move_text
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Rung
from frame.practice.touches import Help
from frame.technique.beads import BeadMove
from frame.technique.expression import parse_calculation, parse_sum
from frame.technique.plan import Technique, parse_strokes
from frame.view.bead_field import AIMED_SECONDS
from frame.view.geometry import pose_of
from frame.view.motion import RETURN_SECONDS

PREVIEW = 0.3 + 0.6 + 0.7 + 0.4
"""Seconds: before the beads go, on their way, held, and back."""


def show_me(pilot):
    pilot.press("eye")
    return pilot.screen.runner.work.level


def seen_lines(pilot):
    return " ".join(line for line, _ in pilot.repaint())


def assert_next_stroke_is_shown(pilot):
    """The beads stand still, glide to the next stroke, are held there and glide back."""
    field, stroke = pilot.screen.field, pilot.screen.runner.work.next_stroke
    frame, home = pilot.screen.runner.frame, pose_of(pilot.screen.runner.frame)
    there = pose_of(frame.apply_all(stroke))
    pilot.wait(0.25, 5)
    assert field.pose == home
    pilot.wait(0.35, 7)
    assert field.pose not in (home, there)
    for _ in range(2):
        pilot.wait(0.4, 4)
        assert field.pose == there
        assert set(field.hints) == set(stroke)
    pilot.wait(PREVIEW - 1.4 + 0.05, 10)
    assert not field.is_moving
    assert field.pose == home
    assert pilot.screen.runner.frame == field.frame == frame
    assert set(field.hints) == set(stroke)


@pytest.mark.parametrize(
    "calculation, rods, hand",
    [
        ("40 + 38", 3, "1:+5 1:-1"),
        ("47 + 38", 3, "0:-2 1:+5 1:-2"),
        ("94 + 4989", 4, "1:-4 3:+4 2:+4 2:-3"),
    ],
)
def test_every_bead_that_is_lit_has_its_row_on_the_card(pilot, calculation, rods, hand):
    exercise = Exercise(Kind.SUM, parse_calculation(calculation), Rung.FOLLOW, rods)
    screen = lesson_with(pilot.room, exercise)
    pilot.app.take(Push(screen))
    work = screen.runner.work
    for stroke in parse_strokes(hand):
        stood = work.frame
        screen.touch(stroke)
        assert work.frame == stood.apply_all(stroke)
    pilot.settle()
    assert work.next_stroke
    for move in work.next_stroke:
        assert move_text(move, pilot.words) in seen_lines(pilot)


def test_on_one_rod_help_is_the_rule_and_then_the_bead(pilot):
    screen = at_work(pilot, "five-add-2")
    while screen.runner.work.step.technique is not Technique.FIVE:
        pilot.move(min(screen.runner.work.next_stroke))
        pilot.settle()
    assert show_me(pilot) is Help.TEACH
    assert screen.guide.said.show == "Five in, one out."
    assert screen.field.pointed is None
    assert not screen.field.hints
    assert show_me(pilot) is Help.SHOW
    assert_next_stroke_is_shown(pilot)


def test_the_rule_of_a_direct_step_is_its_move(pilot):
    screen = at_work(pilot, "no-partner-1")
    show_me(pilot)
    work = screen.runner.work
    assert screen.guide.said.show.lower().startswith(
        ("one ", "two ", "three ", "four ", "five bead")
    )
    assert screen.guide.said.show.endswith((" up.", " down."))
    pilot.move(min(work.next_stroke))
    assert work.slips == []


def test_on_more_rods_the_rod_is_ringed_first(pilot):
    screen = at_work(pilot, "columns-1")
    before = pilot.pixels(screen.field.box)
    assert show_me(pilot) is Help.POINT
    assert screen.field.pointed == screen.runner.work.rod_to_work is not None
    assert pilot.pixels(screen.field.box) != before
    assert show_me(pilot) is Help.TEACH
    assert screen.field.pointed is None
    assert pilot.pixels(screen.field.box) == before
    assert show_me(pilot) is Help.SHOW
    assert_next_stroke_is_shown(pilot)


def test_where_the_bead_is_lit_already_help_shows_it_at_once(pilot):
    screen = at_work(pilot, "no-partner-1", Rung.FOLLOW)
    assert screen.field.hints
    assert show_me(pilot) is Help.SHOW
    assert_next_stroke_is_shown(pilot)


def test_show_me_pressed_again_and_again_shows_one_preview(pilot):
    screen = at_work(pilot, "no-partner-1", Rung.FOLLOW)
    for _ in range(5):
        show_me(pilot)
    pilot.wait(PREVIEW + 0.1)
    assert not screen.field.is_moving


def test_a_preview_clicks_when_beads_land_and_not_else(pilot):
    at_work(pilot, "no-partner-1", Rung.FOLLOW)
    heard = Heard()
    pilot.room.hear(heard)
    show_me(pilot)
    pilot.wait(PREVIEW + 0.1, 30)
    assert heard.names == ["click", "click"]


def test_with_reduced_motion_a_preview_jumps_there_is_held_and_jumps_back(pilot):
    pilot.room.set(reduced_motion=True)
    screen = at_work(pilot, "no-partner-1", Rung.FOLLOW)
    home = pose_of(screen.runner.frame)
    there = pose_of(screen.runner.frame.apply_all(screen.runner.work.next_stroke))
    show_me(pilot)
    seen = set()
    for _ in range(30):
        pilot.wait(0.05, 1)
        seen.add(screen.field.pose)
    assert seen == {home, there}
    assert screen.field.pose == home


def test_after_the_second_miss_in_a_row_the_stroke_is_shown(pilot):
    screen = at_work(pilot, "five-add-2")
    while not wrong_moves(screen):
        pilot.move(min(screen.runner.work.next_stroke))
        pilot.settle()
    pilot.move(wrong_moves(screen)[0])
    pilot.wait(0.6)
    assert not screen.field.is_moving
    pilot.move(wrong_moves(screen)[0])
    pilot.wait(0.55, 11)
    assert screen.field.is_moving
    assert_next_stroke_is_shown(pilot)


def test_a_right_touch_in_a_preview_ends_it(pilot):
    screen = at_work(pilot, "no-partner-1", Rung.FOLLOW)
    move = min(screen.runner.work.next_stroke)
    at = pilot.bead_at(move.rod, move.change)
    show_me(pilot)
    pilot.wait(0.2, 2)
    pilot.tap(at)
    pilot.wait(0.2, 4)
    assert not screen.field.is_moving
    assert screen.field.pose == pose_of(screen.runner.frame)
    assert screen.runner.work.slips == []


def test_a_touch_on_a_bead_where_a_preview_shows_it_is_no_slip(pilot):
    screen = at_work(pilot, "no-partner-1", Rung.FOLLOW)
    (move,) = screen.runner.work.next_stroke
    assert move.change == 1
    show_me(pilot)
    pilot.wait(1.2, 6)
    back = pilot.bead_at(move.rod, -move.change)
    assert screen.field.pose != pose_of(screen.runner.frame)
    pilot.tap(back)
    pilot.settle()
    assert screen.runner.work.slips == []
    assert screen.field.pose == pose_of(screen.runner.frame)


def tap_after_preview(pilot, seconds, *changes):
    """Let the next stroke be shown, and tap beads of its rod so long after it is over."""
    screen = at_work(pilot, "no-partner-1", Rung.FOLLOW)
    (move,) = screen.runner.work.next_stroke
    assert move.change == 1
    show_me(pilot)
    pilot.settle()
    pilot.wait(seconds, 2)
    for change in changes:
        pilot.tap(pilot.bead_at(move.rod, change))
    pilot.wait(0.2, 4)
    return screen


SOON, LATER = AIMED_SECONDS / 2, AIMED_SECONDS + 0.1


@pytest.mark.parametrize("seconds, slips", [(SOON, 0), (LATER, 1)])
def test_a_touch_just_after_a_preview_is_no_slip(pilot, seconds, slips):
    screen = tap_after_preview(pilot, seconds, 2)
    pilot.settle()
    assert len(screen.runner.work.slips) == slips
    assert screen.field.pose == pose_of(screen.runner.frame)


def test_a_right_touch_just_after_a_preview_counts(pilot):
    screen = tap_after_preview(pilot, SOON, 1)
    assert len(screen.runner.work.touches) == 1


def test_a_touch_on_another_rod_just_after_a_preview_is_judged(pilot):
    screen = at_work(pilot, "columns-1", Rung.FOLLOW)
    show_me(pilot)
    pilot.settle()
    (rod,) = {move.rod for move in screen.runner.work.next_stroke}
    pilot.move(next(move for move in wrong_moves(screen) if move.rod != rod))
    pilot.settle()
    assert len(screen.runner.work.slips) == 1


def test_a_touch_on_the_way_back_of_a_preview_is_no_slip(pilot):
    screen = at_work(pilot, "no-partner-1", Rung.FOLLOW)
    (move,) = screen.runner.work.next_stroke
    show_me(pilot)
    home = pose_of(screen.runner.frame)
    pilot.wait(PREVIEW - RETURN_SECONDS + 0.1, 20)
    assert screen.field.pose != home
    pilot.tap(pilot.bead_at(move.rod, 2))
    pilot.settle()
    pilot.tap(pilot.bead_at(move.rod, 2))
    pilot.settle()
    assert screen.runner.work.slips == []
    assert screen.field.pose == home


def test_a_stroke_by_keys_after_a_touch_at_what_was_shown_is_judged(pilot):
    screen = tap_after_preview(pilot, SOON, 2)
    screen.touch((wrong_moves(screen)[0],))
    assert len(screen.runner.work.slips) == 1


# Clearing


def test_help_with_clearing_is_to_wipe_along_the_beam(pilot):
    screen = at_work(pilot, "tens-4", kind=Kind.CLEAR)
    while show_me(pilot) is not Help.SHOW:
        assert screen.guide.said.show == "Wipe along the beam."
    assert screen.guide.said.show == "Wipe along the beam."
    assert_next_stroke_is_shown(pilot)


def test_any_order_of_clearing_is_taken_without_a_word(pilot):
    screen = at_work(pilot, "tens-4", kind=Kind.CLEAR)
    work = screen.runner.work
    last = max(work.judge.progress.left_in_line, key=lambda move: (move.rod, move.change))
    first = min(work.judge.progress.left_in_line, key=lambda move: (move.rod, -move.change))
    assert first.rod != last.rod
    for move in (first, last):
        pilot.move(move)
        pilot.settle()
        assert screen.guide.said is None
    assert work.slips == []


# Watching


def test_a_demonstration_is_left_standing_and_then_handed_over(pilot):
    lesson, number = next(iter(steps_at(pilot.room.course, Rung.WATCH)))
    pilot.open(lesson, number)
    screen = pilot.screen
    runner = screen.runner
    assert runner.stage is Stage.DEMO
    begun, end = runner.frame, runner.work.plan.end
    while runner.frame != end:
        assert "Watch." in seen_lines(pilot)
        assert signs(screen) <= {"back", "step_back"}
        pilot.wait(0.1, 1)
    pilot.settle()
    for _ in range(14):
        pilot.wait(0.1, 1)
        assert (runner.stage, screen.field.frame) == (Stage.DEMO, end)
        assert not screen.field.is_moving
    pilot.wait(0.2, 2)
    assert runner.stage is Stage.WORK
    assert screen.field.is_moving
    pilot.settle()
    assert screen.field.frame == runner.frame == begun
    assert screen.guide.said.show == "Now you."
    lines = seen_lines(pilot)
    assert "Now you." in lines
    assert "Watch." not in lines


def test_what_was_watched_is_then_done_by_the_learner(pilot):
    lesson, number = next(iter(steps_at(pilot.room.course, Rung.WATCH)))
    pilot.open(lesson, number)
    runner = pilot.screen.runner
    while not runner.attempts:
        do_right(pilot)
    assert runner.attempts[0].unaided


# Looks


def look_at_sum(pilot, rung):
    screen = begin(pilot, Exercise(Kind.SUM, parse_sum("34 + 23"), rung, 2))
    pilot.move(BeadMove(1, 3))
    pilot.settle()
    return screen, pilot.pixels(screen.field.box)


@pytest.mark.parametrize("rung", [Rung.TRACES, Rung.COVERED])
def test_a_look_at_an_unseen_frame_is_free_and_ends_with_the_next_touch(pilot, rung):
    screen, covered = look_at_sum(pilot, rung)
    for looks in (1, 2):
        pilot.press("eye")
        assert screen.guide.said == pilot.words.line("lesson.look")
        assert pilot.pixels(screen.field.box) != covered
        pilot.move(min(screen.runner.work.next_stroke))
        pilot.settle()
        assert pilot.pixels(screen.field.box) == covered
        assert (screen.runner.work.looks, screen.runner.work.helps) == (looks, 0)


def test_looks_are_kept_and_leave_the_exercise_unaided(pilot):
    screen = begin(pilot, Exercise(Kind.SUM, parse_sum("34 + 23"), Rung.TRACES, 2))
    while not screen.runner.attempts:
        if screen.runner.stage is Stage.WORK:
            pilot.press("eye")
        do_right(pilot)
    attempt = screen.runner.attempts[-1]
    assert attempt.looks > 2
    assert (attempt.helps, attempt.unaided) == (0, True)


def test_on_a_pale_frame_the_first_look_after_a_touch_is_free(pilot):
    screen, pale = look_at_sum(pilot, Rung.PALE)
    pilot.press("eye")
    assert pilot.pixels(screen.field.box) != pale, "it is seen in full"
    assert (screen.runner.work.looks, screen.runner.work.helps) == (1, 0)
    assert not screen.field.hints
    pilot.press("eye")
    assert (screen.runner.work.looks, screen.runner.work.helps) == (1, 1)
    pilot.move(min(screen.runner.work.next_stroke))
    pilot.settle()
    assert not screen.guide.sight.looking
    pilot.press("eye")
    assert (screen.runner.work.looks, screen.runner.work.helps) == (2, 1)


def test_when_the_answer_is_asked_for_there_is_no_look_any_more(pilot):
    screen = begin(pilot, Exercise(Kind.SUM, parse_sum("34 + 23"), Rung.COVERED, 2))
    pilot.press_word("lesson.done")
    pilot.press_word("lesson.done")
    assert screen.runner.stage is Stage.ANSWER
    assert "eye" not in signs(screen)


def test_a_look_is_over_when_the_learner_says_done(pilot):
    screen, covered = look_at_sum(pilot, Rung.COVERED)
    pilot.press("eye")
    pilot.settle()
    assert pilot.pixels(screen.field.box) != covered
    pilot.press_word("lesson.done")
    pilot.settle()
    assert screen.runner.stage is Stage.ANSWER
    assert pilot.pixels(screen.field.box) == covered

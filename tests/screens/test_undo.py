"""Undo and redo are there when there is something to undo or redo, and cut no glide short."""

import pygame
import pytest
from robot import at_work, signs, wrong_moves

from frame.technique.beads import MOST_RODS, BeadMove
from frame.view.geometry import pose_of


def assert_glides_on(pilot):
    """Beads are on their way, are seen half way, and arrive where they should."""
    field = pilot.screen.field
    before = field.pose
    pilot.wait(0.05, turns=1)
    assert field.is_moving
    assert field.pose not in (before, pose_of(field.frame))
    seen = pilot.pixels()
    pilot.repaint()
    assert pilot.pixels() == seen
    pilot.settle()
    assert field.pose == pose_of(field.frame)


def test_undo_comes_and_goes_in_a_lesson(pilot):
    screen = at_work(pilot, "five-add-1")
    begun = screen.runner.frame
    assert "undo" not in signs(screen)
    pilot.move(min(screen.runner.work.next_stroke))
    assert "undo" in signs(screen)
    assert_glides_on(pilot)
    pilot.press("undo")
    assert "undo" not in signs(screen)
    assert screen.runner.frame == begun
    assert_glides_on(pilot)


def test_undo_and_redo_come_and_go_in_the_free_frame(pilot):
    pilot.open_free(5)
    free = pilot.screen

    def offered():
        return signs(free) & {"Undo", "Redo"}

    assert offered() == set()
    for act, expected in (
        (lambda: pilot.move(BeadMove(0, 3)), {"Undo"}),
        (lambda: pilot.move(BeadMove(1, 5)), {"Undo"}),
        (lambda: pilot.press("Undo"), {"Undo", "Redo"}),
        (lambda: pilot.press("Undo"), {"Redo"}),
        (lambda: pilot.press("Redo"), {"Undo", "Redo"}),
        (lambda: pilot.move(BeadMove(2, 1)), {"Undo"}),
    ):
        act()
        assert offered() == expected
        assert_glides_on(pilot)
    pilot.press("+")
    assert offered() == {"Undo"}


@pytest.mark.parametrize(("rods", "word", "times"), [(2, "−", 1), (31, "+", 0), (5, "Undo", 3)])
def test_the_ring_stays_on_what_has_come_to_its_end(pilot, rods, word, times):
    pilot.open_free(rods)
    free = pilot.screen
    if word == "+":
        times = MOST_RODS - rods
    for digit in range(1, times + 1) if word == "Undo" else ():
        pilot.move(BeadMove(digit, digit))
    free.focus_button([one.text for one in free.buttons].index(word))
    for _ in range(times + 2):
        pilot.key(pygame.K_RETURN)
    assert free.buttons[free.focus].text == word and free.buttons[free.focus].rests


def test_rods_that_took_a_number_with_them_come_back_with_it(pilot):
    pilot.open_free(3)
    free = pilot.screen
    pilot.move(BeadMove(2, 1))
    before = free.field.frame
    pilot.press("−")
    assert free.field.frame.digits == "00"
    pilot.press("Undo")
    assert free.field.frame == before
    assert pilot.room.settings.free_rods == 3


def test_a_wrong_bead_gives_nothing_to_undo(pilot):
    screen = at_work(pilot, "five-add-2")
    pilot.move(wrong_moves(screen)[0])
    assert screen.runner.work.slips
    assert "undo" not in signs(screen)
    assert screen.field.is_moving

"""Fingers, the mouse and the window's own events on a frame, as SDL reports them."""

import pygame
import pytest
from robot import at_work

from frame.practice.exercises import Kind
from frame.technique.beads import BeadMove
from frame.technique.reading import read


@pytest.fixture
def free(pilot):
    pilot.open_free(5)
    return pilot.screen


def digits(screen):
    return screen.field.frame.digits


def test_a_touch_counts_once_though_the_mouse_is_said_to_click_too(pilot, free):
    pilot.finger_tap(pilot.bead_at(0, 1))
    pilot.wait(0.3)
    assert digits(free) == "00001"
    pilot.press("Undo")
    assert digits(free) == "00000"


def test_a_touch_presses_a_button_once(pilot, free):
    pilot.move(BeadMove(0, 1))
    pilot.move(BeadMove(1, 1))
    undo = next(button for button in free.buttons if button.text == "Undo")
    pilot.finger_tap(undo.place.center)
    assert digits(free) == "00001"


def pinch(pilot, first, second, apart):
    pilot.finger(pygame.FINGERDOWN, 1, first)
    pilot.clock += apart
    pilot.finger(pygame.FINGERDOWN, 2, second)
    pilot.finger(pygame.FINGERUP, 1, first)
    pilot.finger(pygame.FINGERUP, 2, second)
    pilot.wait(0.3)


def test_two_fingers_on_both_decks_of_a_rod_make_one_stroke(pilot, free):
    pinch(pilot, pilot.bead_at(0, 2), pilot.bead_at(0, 5), 0.14)
    assert digits(free) == "00007"
    pilot.press("Undo")
    assert digits(free) == "00000"


@pytest.mark.parametrize("other_rod, apart", [(0, 0.16), (1, 0.05)], ids=["late", "elsewhere"])
def test_any_other_second_finger_is_ignored(pilot, free, other_rod, apart):
    pinch(pilot, pilot.bead_at(0, 2), pilot.bead_at(other_rod, 5), apart)
    assert digits(free) == "00002"


def test_fingers_lifted_one_by_one_far_apart_still_make_the_pinch(pilot, free):
    low, high = pilot.bead_at(0, 1), pilot.bead_at(0, 5)
    pilot.finger(pygame.FINGERDOWN, 1, low)
    pilot.finger(pygame.FINGERDOWN, 2, high)
    pilot.finger(pygame.FINGERUP, 2, high)
    pilot.wait(0.5)
    pilot.finger(pygame.FINGERUP, 1, low)
    pilot.wait(0.3)
    assert digits(free) == "00006"


def test_beads_follow_a_drag_and_stay_where_it_ends(pilot, free):
    start, high = pilot.bead_at(0, 2), free.field.layout.bead_height
    before = pilot.pixels()
    pilot.post(pygame.MOUSEBUTTONDOWN, pos=start, button=1, touch=False)
    half_way = start[0], start[1] - 0.7 * high
    pilot.post(pygame.MOUSEMOTION, pos=half_way, rel=(0, 0), buttons=(1, 0, 0), touch=False)
    assert pilot.pixels() != before
    assert 0 < free.field.pose.rods[-1][2] < 1
    assert digits(free) == "00000"
    pilot.wait(0.5)
    pilot.post(pygame.MOUSEBUTTONUP, pos=half_way, button=1, touch=False)
    pilot.wait(0.5)
    assert digits(free) == "00002"


def test_a_drag_too_short_to_count_settles_back(pilot, free):
    before, high = pilot.pixels(), free.field.layout.bead_height
    start = pilot.bead_at(0, 1)
    pilot.drag(start, (start[0], start[1] - 0.4 * high), steps=10)
    pilot.wait(0.5)
    assert digits(free) == "00000"
    assert not free.field.is_moving
    assert pilot.pixels() == before


def test_a_flick_moves_beads_that_a_slow_drag_of_that_length_does_not(pilot, free):
    start, high = pilot.bead_at(0, 1), free.field.layout.bead_height
    end = start[0], round(start[1] - 0.4 * high)
    pilot.post(pygame.MOUSEBUTTONDOWN, pos=start, button=1, touch=False)
    pilot.clock += 0.03
    pilot.post(pygame.MOUSEMOTION, pos=end, rel=(0, 0), buttons=(1, 0, 0), touch=False)
    pilot.post(pygame.MOUSEBUTTONUP, pos=end, button=1, touch=False)
    assert digits(free) == "00001"


def changed_box(before, after, size):
    one, other = (pygame.image.frombytes(each, size, "RGB") for each in (before, after))
    mask = pygame.mask.from_threshold(one, (0, 0, 0), (1, 1, 1, 255), other)
    mask.invert()
    boxes = mask.get_bounding_rects()
    return boxes[0].unionall(boxes[1:]) if boxes else None


def test_a_press_shows_the_touched_bead_at_once_and_nothing_but_its_rod_is_sent(
    pilot, free, monkeypatch
):
    sent, update = [], pygame.display.update
    monkeypatch.setattr(
        pygame.display, "update", lambda places: (sent.extend(places), update(places))
    )
    column = pygame.Rect(free.field.layout.rod_box(4))
    before = pilot.pixels()
    pilot.post(pygame.MOUSEBUTTONDOWN, pos=pilot.bead_at(0, 1), button=1, touch=False)
    changed = changed_box(before, pilot.pixels(), pilot.app.window.get_size())
    assert changed is not None
    assert column.inflate(4, 0).contains(changed)
    assert sent
    assert all(place.left >= column.left - 2 and place.w <= column.w + 4 for place in sent)


def test_losing_the_focus_in_a_drag_puts_beads_back(pilot, free):
    before, start = pilot.pixels(), pilot.bead_at(0, 2)
    there = start[0], start[1] - free.field.layout.bead_height
    pilot.post(pygame.MOUSEBUTTONDOWN, pos=start, button=1, touch=False)
    pilot.post(pygame.MOUSEMOTION, pos=there, rel=(0, 0), buttons=(1, 0, 0), touch=False)
    pilot.post(pygame.WINDOWFOCUSLOST)
    pilot.wait(0.5)
    pilot.post(pygame.MOUSEBUTTONUP, pos=there, button=1, touch=False)
    pilot.wait(0.5)
    assert digits(free) == "00000"
    assert pilot.pixels() == before


def test_losing_the_focus_on_a_button_does_not_press_it(pilot, free):
    pilot.move(BeadMove(0, 1))
    undo = next(button for button in free.buttons if button.text == "Undo").place.center
    pilot.post(pygame.MOUSEBUTTONDOWN, pos=undo, button=1, touch=False)
    pilot.post(pygame.WINDOWFOCUSLOST)
    pilot.post(pygame.MOUSEBUTTONUP, pos=undo, button=1, touch=False)
    assert digits(free) == "00001"


def test_a_wipe_clears_the_free_frame_in_one_step(pilot, free):
    for rod, change in ((0, 3), (1, 5), (2, 4)):
        pilot.move(BeadMove(rod, change))
        pilot.wait(0.3)
    assert digits(free) == "00453"
    pilot.wipe()
    assert digits(free) == "00000"
    pilot.press("Undo")
    assert digits(free) == "00453"


def test_a_wipe_does_what_a_clearing_step_asks(pilot):
    screen = at_work(pilot, "tens-4", kind=Kind.CLEAR)
    assert read(screen.runner.frame)
    pilot.wipe()
    assert not read(screen.runner.frame)
    assert screen.runner.attempts[-1].unaided


def test_a_wipe_in_a_sum_moves_nothing_and_is_told_where_to_look(pilot):
    screen = at_work(pilot, "no-partner-4", kind=Kind.SUM)
    pilot.wait(0.3)
    before, seen = screen.runner.frame, pilot.pixels()
    pilot.wipe()
    assert screen.runner.frame == before
    assert screen.runner.work.slips == []
    assert screen.guide.said.show == "Look at the ones rod."
    assert pilot.pixels() != seen


@pytest.mark.parametrize("button", [2, 3, 4, 5])
def test_other_mouse_buttons_and_the_wheel_do_nothing(pilot, free, button):
    before = pilot.pixels()
    for at in (pilot.bead_at(0, 1), free.buttons[0].place.center):
        pilot.post(pygame.MOUSEBUTTONDOWN, pos=at, button=button, touch=False)
        pilot.post(pygame.MOUSEBUTTONUP, pos=at, button=button, touch=False)
    assert pilot.screen is free
    assert pilot.pixels() == before


def test_a_bead_can_be_touched_while_others_glide(pilot, free):
    for rod in range(3):
        pilot.move(BeadMove(rod, 1))
        pilot.wait(0.03, turns=1)
        assert free.field.is_moving
    pilot.move(BeadMove(0, 5))
    pilot.wait(0.5)
    assert digits(free) == "00116"
    assert not free.field.is_moving


def test_the_same_bead_touched_twice_quickly_is_back(pilot, free):
    at = pilot.bead_at(0, 5)
    for _ in range(2):
        pilot.tap(at)
        pilot.wait(0.02, turns=1)
    pilot.wait(0.5)
    assert digits(free) == "00000"


@pytest.mark.parametrize("size", [(1280, 720), (900, 600)])
def test_another_size_in_the_middle_of_a_glide_and_of_a_drag(pilot, free, size):
    pilot.move(BeadMove(0, 1))
    pilot.wait(0.03, turns=1)
    start = pilot.bead_at(1, 1)
    pilot.post(pygame.MOUSEBUTTONDOWN, pos=start, button=1, touch=False)
    moved = start[0], start[1] - 20
    pilot.post(pygame.MOUSEMOTION, pos=moved, rel=(0, 0), buttons=(1, 0, 0), touch=False)
    pilot.resize(size)
    pilot.post(pygame.MOUSEMOTION, pos=(0, 0), rel=(0, 0), buttons=(1, 0, 0), touch=False)
    pilot.post(pygame.MOUSEBUTTONUP, pos=moved, button=1, touch=False)
    pilot.wait(0.5)
    assert pilot.app.window.get_size() == size
    assert digits(free) == "00001"
    assert pygame.Rect((0, 0), size).contains(free.field.box)
    assert free.field.box.h > 0.5 * size[1]
    seen = pilot.pixels()
    pilot.repaint()
    assert pilot.pixels() == seen
    pilot.move(BeadMove(1, 1))
    assert digits(free) == "00011"


def test_screens_below_have_the_new_size_too(pilot, free):
    pilot.resize((1280, 720))
    pilot.press("back")
    assert pilot.screen.size == (1280, 720)
    pilot.press("Free frame")
    assert pilot.screen.size == (1280, 720)

"""Only what changed is painted again, and that makes the very picture a whole repaint makes."""

from random import Random

import pygame
import pytest
from robot import begin, begin_all, do_right, give_answer

from frame.course.runner import Stage
from frame.learner.settings import Look
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Rung
from frame.technique.beads import BeadMove
from frame.technique.expression import parse_sum

ACTIONS = 60
KEYS = [
    pygame.K_LEFT, pygame.K_RIGHT, pygame.K_UP, pygame.K_DOWN, pygame.K_1, pygame.K_3, pygame.K_5,
    pygame.K_TAB, pygame.K_DELETE, pygame.K_BACKSPACE, pygame.K_8, pygame.K_z,
]  # fmt: skip
MODIFIERS = [0, 0, pygame.KMOD_LSHIFT, pygame.KMOD_LCTRL]


@pytest.fixture
def sent(monkeypatch):
    """The places handed to the screen, in order."""
    places, update = [], pygame.display.update

    def note(some):
        places.extend(some)
        update(some)

    monkeypatch.setattr(pygame.display, "update", note)
    return places


def assert_as_painted_anew(pilot, message=""):
    seen = pilot.pixels()
    pilot.repaint()
    assert pilot.pixels() == seen, message


def do_anything(pilot, random):
    """One thing a hand may do, beside going back. What it was."""
    at = random.choice([anywhere, on_the_frame, on_a_button])(pilot, random)
    doing = random.choice(["tap", "press", "release", "drag", "key", "wait", "long", "lost"])
    if doing == "tap":
        pilot.tap(at)
    elif doing == "press":
        pilot.post(pygame.MOUSEBUTTONDOWN, pos=at, button=1, touch=False)
    elif doing == "release":
        pilot.post(pygame.MOUSEBUTTONUP, pos=at, button=1, touch=False)
    elif doing == "drag":
        pilot.post(pygame.MOUSEMOTION, pos=at, rel=(0, 0), buttons=(1, 0, 0), touch=False)
    elif doing == "key":
        pilot.key(random.choice(KEYS), random.choice(MODIFIERS))
    elif doing == "lost":
        pilot.post(pygame.WINDOWFOCUSLOST)
    else:
        pilot.wait(0.05 if doing == "wait" else 3.0, turns=2)
    return f"{doing} at {at}"


def anywhere(pilot, random):
    width, height = pilot.app.window.get_size()
    return random.randrange(width // 8, width), random.randrange(height)


def on_the_frame(pilot, random):
    x, y, w, h = pilot.screen.field.box
    return random.randrange(x, x + w), random.randrange(y, y + h)


def on_a_button(pilot, random):
    buttons = [button for button in pilot.screen.buttons if button.sign != "back"]
    if not buttons:
        return anywhere(pilot, random)
    return random.choice(buttons).place.center


@pytest.mark.parametrize("seed", [1, 2])
def test_parts_painted_are_as_the_whole_on_the_free_frame(pilot, seed):
    random = Random(seed)
    pilot.open_free(9)
    free = pilot.screen
    for number in range(ACTIONS):
        done = do_anything(pilot, random)
        assert pilot.screen is free
        assert_as_painted_anew(pilot, f"{number}: {done}")


@pytest.mark.parametrize(
    "lesson_id, step",
    [("beads-1", 1), ("five-add-1", 3), ("columns-2", 3), ("five-add-5", 3), ("five-add-5", 5),
     ("five-add-5", 10), ("tens-4", 2), ("beads-2", 3)],
)  # fmt: skip
def test_parts_painted_are_as_the_whole_in_a_lesson(pilot, lesson_id, step):
    random = Random(f"{lesson_id} {step}")
    pilot.open(lesson_id, step)
    for number in range(ACTIONS // 2):
        done = do_anything(pilot, random)
        assert_as_painted_anew(pilot, f"{number}: {done}")


def test_parts_painted_are_as_the_whole_on_home(pilot):
    for code in (
        pygame.K_TAB, pygame.K_TAB, pygame.K_RIGHT, pygame.K_UP, pygame.K_DOWN, pygame.K_TAB,
        pygame.K_LEFT, pygame.K_F2, pygame.K_a,
    ):  # fmt: skip
        pilot.key(code)
        assert_as_painted_anew(pilot, pygame.key.name(code))


@pytest.mark.parametrize("size", [(800, 480), (1920, 1080), (1212, 1705)])
def test_the_ring_of_the_way_on_is_whole_and_goes_with_it(pilot, size):
    pilot.resize(size)
    pilot.open("beads-1", 0)
    pilot.wait(40, 20)
    assert any(button.pointed for button in pilot.screen.buttons)
    assert_as_painted_anew(pilot, "the ring")
    pilot.tap(pilot.screen.field.box.center)
    assert_as_painted_anew(pilot, "after a touch beside it")
    pilot.press("next")
    assert not any(button.pointed for button in pilot.screen.buttons)
    assert_as_painted_anew(pilot, "without the ring")


@pytest.mark.parametrize("rung", Rung)
def test_where_a_set_begins_and_ends_nothing_of_what_was_there_stays(pilot, rung):
    begin(pilot, Exercise(Kind.SUM, parse_sum("3 + 4"), rung, 2))
    while pilot.screen.runner.stage is not Stage.END:
        do_right(pilot)
        assert_as_painted_anew(pilot, f"{rung}, {pilot.screen.runner.stage}")


def test_no_outline_stays_of_a_bead_that_was_held_while_the_frame_became_another(pilot):
    pilot.open_free(9)
    pilot.move(BeadMove(1, 3))
    pilot.wait(1)
    at = pilot.bead_at(0, 1)
    pilot.post(pygame.MOUSEBUTTONDOWN, pos=at, button=1, touch=False)
    assert pilot.screen.field.hands.touched
    pilot.key(pygame.K_DELETE)
    assert_as_painted_anew(pilot)


def test_only_touched_rods_and_the_reading_are_painted(pilot, sent):
    pilot.open_free(9)
    field = pilot.screen.field
    pilot.move(BeadMove(1, 3))  # Undo is there now, which was a new layout.
    pilot.wait(1)
    sent.clear()
    pilot.move(BeadMove(2, 3))
    pilot.wait(0.5)
    column = pygame.Rect(field.layout.rod_box(field.layout.units - 2))
    on_frame = [place for place in sent if place.colliderect(field.box)]
    assert on_frame
    assert all(column.inflate(4, 200).contains(place) for place in on_frame)
    rest = [place for place in sent if place not in on_frame]
    assert all(place.bottom <= field.box.top for place in rest)


def test_a_still_picture_asks_for_no_time_and_sends_nothing(pilot, sent):
    def is_still():
        pilot.wait(1)
        sent.clear()
        pilot.app.turn(0)
        pilot.clock += 100
        pilot.app.turn(0)
        return pilot.screen.wakes_in(pilot.clock) is None and not sent

    assert is_still()
    pilot.open_free()
    assert is_still()
    pilot.move(BeadMove(0, 1))
    assert pilot.screen.wakes_in(pilot.clock) == 0
    assert is_still()
    pilot.press("back")
    pilot.press("otter")
    assert is_still()


def test_a_lesson_left_alone_says_where_to_look_once_and_is_still(pilot, sent):
    pilot.open("five-add-1", 3)
    pilot.wait(30, 100)
    for _ in range(5):
        if pilot.screen.runner.stage is Stage.TELL:
            pilot.press("Go on")
            pilot.wait(30, 100)
    assert pilot.screen.runner.stage is Stage.WORK
    pilot.move(min(pilot.screen.runner.work.next_stroke))
    assert 0 <= pilot.screen.wakes_in(pilot.clock) <= 10
    pilot.wait(12, 40)
    assert pilot.screen.wakes_in(pilot.clock) is None
    sent.clear()
    pilot.wait(60, 4)
    assert not sent


def test_themes_differ_everywhere(pilot):
    for opened in (lambda: None, pilot.open_free, lambda: pilot.open("five-add-1", 3)):
        seen = []
        for look in Look:
            pilot.room.set(look=look)
            opened()
            pilot.repaint()
            seen.append(pilot.pixels())
        assert len(set(seen)) == len(Look)


def test_with_reduced_motion_beads_arrive_at_once(pilot):
    pilot.open_free(5)
    pilot.move(BeadMove(0, 4))
    pilot.wait(1)
    arrived = pilot.pixels()
    pilot.press("Undo")
    pilot.wait(1)
    pilot.press("back")
    pilot.room.set(reduced_motion=True)
    pilot.open_free(5)
    pilot.move(BeadMove(0, 4))
    pilot.wait(0, turns=1)
    assert not pilot.screen.field.is_moving
    assert pilot.pixels(pilot.screen.field.box) == inner(arrived, pilot)


def inner(pixels, pilot):
    window = pilot.app.window
    whole = pygame.image.frombytes(pixels, window.get_size(), "RGB")
    return pygame.image.tobytes(whole.subsurface(pilot.screen.field.box), "RGB")


@pytest.mark.parametrize("reduced", [True, False])
def test_a_trace_is_seen_while_a_bead_moves_and_no_longer(pilot, reduced):
    pilot.room.set(reduced_motion=reduced)
    pilot.open("five-add-5", 5)
    box = pilot.screen.field.box
    pilot.wait(0.3)
    before = pilot.pixels(box)
    pilot.move(min(pilot.screen.runner.work.next_stroke))
    pilot.wait(0.05, turns=1)
    assert pilot.pixels(box) != before
    pilot.wait(1)
    assert pilot.screen.runner.work.exercise.rung.is_unseen
    assert pilot.pixels(box) == before


@pytest.mark.parametrize("size", [(800, 480), (1280, 720), (800, 1280)])
@pytest.mark.parametrize("rods", [2, 11])
def test_columns_on_paper_are_painted_anew_one_after_another(pilot, size, rods):
    """Where the learner's own frame lies on the table, the next column stands in the last one's
    place."""
    pilot.resize(size)
    texts = ("12 + 34", "55 + 44 - 3", "7 + 8")
    exercises = [Exercise(Kind.SUM, parse_sum(one), rods=rods, own=True) for one in texts]
    screen = begin_all(pilot, exercises)
    for number in range(3):
        assert screen.runner.stage is Stage.ANSWER
        assert_as_painted_anew(pilot, f"the column {number}")
        give_answer(pilot, screen.runner.work.exercise.sum.result)
        assert_as_painted_anew(pilot, f"the answer {number}")
        pilot.wait(0.7, 2)
        pilot.tap((size[0] // 2, size[1] // 3))

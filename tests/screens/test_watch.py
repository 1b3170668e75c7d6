"""The watch of the board: the class sees no count, and its end makes no noise."""

import pygame
import pytest
from class_here import open_class, put

from frame.screens.board.screen import BoardScreen
from frame.tutor_desk import GLANCE_SECONDS, MINUTES, Watch

WHOLE = 60 * MINUTES


@pytest.mark.parametrize(
    ("touched", "at", "told", "is_over"),
    [
        ([], 10, None, False),
        ([0], 1, MINUTES, False),
        ([0], GLANCE_SECONDS, None, False),
        ([0, 60], 61, MINUTES - 1, False),
        ([0, WHOLE - 1], WHOLE - 0.5, 1, False),
        ([0, WHOLE - 1], WHOLE, None, True),
        ([0], WHOLE + 500, None, True),
        ([0, WHOLE + 5], WHOLE + 6, None, False),
        ([0, 1], 1.5, None, False),
        ([0, 1], WHOLE + 1, None, False),
        ([0, 1, 2], 3, MINUTES, False),
    ],
)
def test_it_tells_what_is_left_only_when_touched(touched, at, told, is_over):
    watch = Watch()
    for now in touched:
        watch.touch(now)
    assert (watch.told(at), watch.is_over(at)) == (told, is_over)


def test_it_looks_otherwise_only_when_it_says_so():
    watch, now = Watch(), 0.0
    watch.touch(now)
    looks = [(watch.told(now), watch.is_over(now))]
    while (change := watch.next_change(now)) is not None:
        assert (watch.told(change - 0.01), watch.is_over(change - 0.01)) == looks[-1]
        now = change
        looks.append((watch.told(now), watch.is_over(now)))
    assert looks == [(MINUTES, False), (None, False), (None, True)]


@pytest.fixture
def board(pilot):
    pilot.resize((1280, 720))
    return put(pilot, BoardScreen(pilot.room))


def at_the_margin(pilot, board):
    return pilot.pixels(board.places.watch)


@pytest.mark.parametrize("by", ["key", "bar"])
def test_on_the_board_it_is_seen_for_a_moment_and_at_its_end(pilot, board, heard, by):
    def touch():
        if by == "key":
            pilot.key(pygame.K_w, text="w")
        else:
            pilot.press("watch")

    empty = at_the_margin(pilot, board)
    touch()
    assert at_the_margin(pilot, board) != empty
    said = list(heard.said)
    pilot.wait(GLANCE_SECONDS + 0.1)
    assert at_the_margin(pilot, board) == empty
    pilot.wait(WHOLE, 50)
    over = at_the_margin(pilot, board)
    assert over != empty and heard.said == said
    pilot.wait(600, 5)
    assert at_the_margin(pilot, board) == over
    touch()
    assert at_the_margin(pilot, board) == empty


def test_whoever_comes_back_to_the_board_finds_it_still_running(pilot, board):
    empty = at_the_margin(pilot, board)
    pilot.key(pygame.K_w, text="w")
    pilot.press("back")
    pilot.wait(60, 5)
    again = put(pilot, BoardScreen(pilot.room))
    assert at_the_margin(pilot, again) == empty
    pilot.key(pygame.K_w, text="w")
    assert again.watch.told(pilot.clock) == MINUTES - 1


def test_at_its_end_away_from_the_board_nothing_is_seen_or_heard_and_there_its_sign_is(
    pilot, board, heard
):
    empty = at_the_margin(pilot, board)
    pilot.key(pygame.K_w, text="w")
    pilot.press("back")
    open_class(pilot)
    pilot.wait(1, 5)
    elsewhere, said = pilot.pixels(), set(heard.said)
    pilot.wait(WHOLE, 5)
    assert pilot.pixels() == elsewhere and set(heard.said) == said
    again = put(pilot, BoardScreen(pilot.room))
    over = at_the_margin(pilot, again)
    assert over != empty
    pilot.key(pygame.K_w, text="w")
    assert at_the_margin(pilot, again) == empty


def test_on_its_way_to_the_end_it_is_told_on_a_board_that_was_come_back_to(pilot, board):
    empty = at_the_margin(pilot, board)
    pilot.key(pygame.K_w, text="w")
    pilot.press("back")
    again = put(pilot, BoardScreen(pilot.room))
    assert at_the_margin(pilot, again) != empty, "it is told still"
    pilot.wait(GLANCE_SECONDS + 0.1)
    assert at_the_margin(pilot, again) == empty
    pilot.wait(WHOLE, 50)
    assert at_the_margin(pilot, again) != empty


def test_in_the_dark_nothing_of_it_is_seen(pilot, board):
    pilot.key(pygame.K_w, text="w")
    pilot.wait(WHOLE + 1, 5)
    pilot.key(pygame.K_b, text="b")
    assert set(at_the_margin(pilot, board)) == {0}


def test_where_keys_of_one_letter_are_off_it_is_on_the_bar_alone(pilot, board):
    pilot.room.set(letter_keys=False)
    pilot.key(pygame.K_w, text="w")
    assert board.watch.ends is None
    pilot.press("watch")
    assert board.watch.ends is not None

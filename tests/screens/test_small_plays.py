"""The free frame reads its number out, and leads to small plays of which nothing is kept."""

import pytest
from robot import do_right

from frame.app import Push
from frame.course.plays import Play
from frame.course.stages import Stage
from frame.learner.settings import Age, ByAge
from frame.screens.choosing.free import FreeFrame
from frame.screens.choosing.plays import PlaysPage
from frame.screens.lesson.play import PlayScreen
from frame.technique.beads import BeadMove


def move_up(pilot):
    """One bead of the ones; what is said of it."""
    pilot.app.take(Push(FreeFrame(pilot.room)))
    pilot.app.draw()
    pilot.move(BeadMove(0, 1))
    pilot.wait(1)


@pytest.mark.parametrize(
    ("age", "reads_out", "is_read"),
    [
        (Age.YOUNG, ByAge.BY_AGE, True), (Age.MIDDLE, ByAge.BY_AGE, False),
        (Age.OLDER, ByAge.ON, True), (Age.YOUNG, ByAge.OFF, False),
    ],
)  # fmt: skip
def test_after_a_move_the_number_is_read_out_where_it_is_wanted(
    pilot, heard, age, reads_out, is_read
):
    pilot.room.set(age=age, reads_out=reads_out)
    move_up(pilot)
    assert ("one" in heard.said) is is_read


def test_the_loudspeaker_reads_it_out_in_any_case(pilot, heard):
    move_up(pilot)
    pilot.wait_for_buttons()
    pilot.press("speaker")
    assert heard.said[-1] == "one"


@pytest.mark.parametrize("play", Play)
def test_a_play_goes_on_until_it_is_left_and_nothing_is_kept(pilot, heard, play):
    pilot.press_word("home.free")
    pilot.press_word("free.plays")
    pilot.press_word(f"play.{play}")
    screen, numbers = pilot.screen, []
    for _ in range(200):
        if len(numbers) == 4:
            break
        if screen.runner.stage is Stage.DONE and screen.runner.work.exercise not in numbers[-1:]:
            numbers.append(screen.runner.work.exercise)
        do_right(pilot)
    assert len(numbers) == 4 and isinstance(screen, PlayScreen)
    assert any("Yes." in said for said in heard.said)
    pilot.press("back")
    assert isinstance(pilot.screen, PlaysPage)
    assert pilot.room.store.attempts(pilot.room.learner) == ()


def test_a_number_to_be_found_stands_nowhere_on_the_screen(pilot, heard):
    for play in (Play.MIRROR, Play.MISSING, Play.CALLED):
        pilot.app.take(Push(PlayScreen(pilot.room, play)))
        pilot.wait(1)
        number = str(pilot.screen.runner.work.exercise.number)
        assert number not in {text for text, _ in pilot.repaint()}
        pilot.press("back")

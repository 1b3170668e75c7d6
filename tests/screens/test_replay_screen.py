"""The learner's way beside the right one: it plays, can be stepped, and marks where they part."""

import pygame
import pytest
from robot import begin, give_answer, signs, tick_is_seen

from frame.app import Push
from frame.course.runner import Stage
from frame.practice.exercises import Exercise, Kind
from frame.practice.replay import replay_of
from frame.practice.rungs import Rung
from frame.practice.work import Work
from frame.screens.choosing.home import Home
from frame.screens.lesson.replay import ReplayScreen
from frame.technique.beads import BeadMove
from frame.technique.conventions import USUAL, Strictness
from frame.technique.expression import parse_calculation, parse_sum
from frame.technique.plan import parse_strokes
from frame.technique.reading import read
from frame.view.geometry import pose_of
from frame.view.widgets import Style

STRAYED = "0:+4 0:+5 0:-3"


def replay_screen(pilot, text="4 + 3", moves=STRAYED, rods=1, answer=6):
    """The replay of a covered sum worked like this, on top of home."""
    work = Work.begin(
        Exercise(Kind.SUM, parse_calculation(text), Rung.COVERED, rods), USUAL, Strictness.BEADS
    )
    for stroke in parse_strokes(moves):
        work.touch(stroke)
    work.say_done()
    work.answer(answer)
    first = pilot.words.line("outcome.wrong_plan")
    pilot.app.take(Push(ReplayScreen(pilot.room, work, replay_of(work), first)))
    pilot.app.draw()
    return pilot.screen


def shown(screen):
    """What each frame shows, when its beads are at rest."""
    assert all(field.pose == pose_of(field.frame) for field in screen.fields)
    return [read(field.frame) for field in screen.fields]


def stepped(pilot, sign):
    pilot.press(sign)
    pilot.wait(1.2, 12)
    return shown(pilot.screen)


def test_it_is_stepped_forth_and_back_by_touch(pilot):
    screen = replay_screen(pilot)
    assert shown(screen) == [0, 0]
    forth = [stepped(pilot, "step_on") for _ in range(4)]
    assert forth == [[4, 4], [9, 9], [6, 7], [6, 7]]
    back = [stepped(pilot, "step_back") for _ in range(4)]
    assert back == [[9, 9], [4, 4], [0, 0], [0, 0]]


def test_it_is_stepped_played_and_held_by_keys(pilot):
    screen = replay_screen(pilot)
    for code, at in ((pygame.K_RIGHT, 1), (pygame.K_RIGHT, 2), (pygame.K_LEFT, 1)):
        pilot.key(code)
        assert screen.at == at
        pilot.wait(1, 4)
    pilot.wait(20, 10)
    assert screen.at == 1, "a step by hand holds it"
    pilot.key(pygame.K_SPACE)
    pilot.wait(2, 20)
    assert screen.at == 2
    pilot.key(pygame.K_SPACE)
    pilot.wait(20, 10)
    assert screen.at == 2


def test_it_plays_by_itself_to_the_end_and_is_still(pilot):
    screen, seen = replay_screen(pilot), []
    for _ in range(200):
        pilot.wait(0.1, 1)
        if screen.at not in seen:
            seen.append(screen.at)
    assert seen == [0, 1, 2, 3]
    assert shown(screen) == [6, 7]
    assert screen.wakes_in(pilot.clock) is None
    pilot.press("play")
    pilot.wait(2, 20)
    assert screen.at < 3, "it plays from the start once more"


def test_where_they_part_it_stays_longer_and_marks_the_bead(pilot):
    screen = replay_screen(pilot, moves="0:+4 0:+5 0:-3 0:+1")
    hand, way = screen.fields
    lengths = [0] * (screen.replay.last + 1)
    for _ in range(300):
        pilot.wait(0.05, 1)
        lengths[screen.at] += 1
        assert hand.mending == (BeadMove(0, 3) if screen.at == 3 else None)
        assert way.mending is None
    assert lengths[3] > 2 * lengths[1] > 0
    stepped(pilot, "step_back")
    marked = pilot.pixels(hand.box)
    hand.mend(None)
    pilot.repaint()
    assert pilot.pixels(hand.box) != marked


def test_what_is_said_before_at_and_after_the_parting(pilot, heard):
    screen = replay_screen(pilot)
    words = pilot.words
    assert words.text("outcome.wrong_plan") in pilot.lines()
    for _ in range(2):
        stepped(pilot, "step_on")
        assert words.text("replay.same") in pilot.lines()
    stepped(pilot, "step_on")
    assert pilot.lines().count(words.text("replay.parted").rstrip(".")) == 1
    assert heard.said[-1] == screen.line.speak != words.line("replay.parted").speak
    assert heard.said[-3:-1] == [words.line("replay.same").speak] * 2
    slip = "Partners of five: 3 and 2."
    assert screen.line.show == f"{words.text('replay.parted')} {slip} Next: two ones down."


def test_the_ways_own_next_move_is_named_whatever_the_hand_did(pilot):
    screen = replay_screen(pilot, "4 + 3 + 5", "0:+4 0:-4 0:+5", rods=2)
    for _ in range(2):
        stepped(pilot, "step_on")
    assert screen.replay.way[1] == (BeadMove(0, 5),)
    assert screen.line.show.startswith(pilot.words.text("replay.parted"))
    assert screen.line.show.endswith("Next: five bead down.")


def test_after_the_parting_the_way_goes_on_to_its_number(pilot, heard):
    screen = replay_screen(pilot, "4 + 3 + 5", "0:+4 0:+5 0:-3 1:+1", rods=2)
    said = []
    for _ in range(screen.replay.last):
        stepped(pilot, "step_on")
        said.append(screen.line)
        assert screen.line.show in pilot.lines()
        assert heard.said[-1] == screen.line.speak
    words = pilot.words
    assert said[:2] == [words.line("replay.same")] * 2
    assert said[3:] == [words.line("replay.goes_on"), words.line("replay.ends", number=12)]


def test_its_sentence_can_be_heard_again_where_it_is_heard(pilot, heard):
    screen = replay_screen(pilot)
    stepped(pilot, "step_on")
    heard.said.clear()
    pilot.press("speaker")
    assert heard.said == [screen.line.speak] == [pilot.words.line("replay.same").speak]


@pytest.mark.parametrize("has_sound", [False, True])
def test_where_nothing_is_heard_there_is_no_speaker(pilot, request, has_sound):
    if has_sound:
        request.getfixturevalue("heard")
        pilot.room.set(voice=False)
    replay_screen(pilot)
    assert "speaker" not in signs(pilot.screen)


LABELS = ("7 × 2", "7 × 4", "3 × 2", "3 × 4")


def test_the_work_is_written_above_the_frame_of_the_way_as_far_as_it_has_come(pilot):
    screen = replay_screen(pilot, "37 x 24", "2:+1 0:+1", rods=13, answer=888)
    way, written = screen.fields[-1], []
    for _ in range(screen.replay.last + 1):
        above = pygame.Rect(0, screen.field.box.bottom, *screen.size)
        above.bottom = way.box.top
        texts = {text: place for text, place in pilot.repaint() if text in LABELS}
        assert all(above.contains(place) for place in texts.values())
        written.append([text for text in LABELS if text in texts][-1])
        stepped(pilot, "step_on")
    assert written == sorted(written, key=LABELS.index) and set(written) == set(LABELS)


def test_how_a_number_below_zero_is_read_stands_above_the_way(pilot):
    screen = replay_screen(pilot, "12 - 30", "1:-1", rods=5, answer=18)
    unused = pilot.words.text("written.unused")
    assert unused not in pilot.lines()
    for _ in range(screen.replay.last):
        stepped(pilot, "step_on")
    assert unused in pilot.lines()


def test_sums_that_are_not_written_have_nothing_above_their_frames(pilot):
    screen = replay_screen(pilot)
    assert screen.field.box.top < 0.4 * screen.size[1]
    assert not screen.is_written


def test_a_hand_that_ended_too_early_is_told_that_beads_were_to_come(pilot):
    screen = replay_screen(pilot, moves="0:+4 0:+5")
    for _ in range(3):
        stepped(pilot, "step_on")
    assert shown(screen) == [9, 7]
    assert pilot.words.text("replay.parted").rstrip(".") in screen.line.show


@pytest.mark.parametrize("moves, key", [("", "way_only"), ("0:+4 0:+5 0:-2", "hand_right")])
def test_where_nothing_parts_the_way_is_shown_alone(pilot, moves, key):
    screen = replay_screen(pilot, moves=moves)
    assert len(screen.fields) == 1
    for at, reading in enumerate((4, 9, 7)):
        assert stepped(pilot, "step_on") == [reading]
        if at < 2 or not moves:
            assert screen.line == pilot.words.line(f"replay.{key}")
    if moves:
        assert screen.line == pilot.words.line("replay.said_other", given=6, number=7)
    lines = pilot.lines()
    assert pilot.words.text("replay.way") in lines
    assert pilot.words.text("replay.hand") not in lines.replace(screen.line.show, "")


@pytest.mark.parametrize("rods", range(1, 17))
def test_two_frames_stand_side_by_side_up_to_seven_rods_and_else_stacked(pilot, rods):
    screen = replay_screen(pilot, rods=rods)
    hand, way = (field.box for field in screen.fields)
    assert not hand.colliderect(way)
    assert hand.size == way.size
    if rods <= 7:
        assert hand.centery == way.centery
        assert hand.right < way.left
    else:
        assert hand.centerx == way.centerx
        assert hand.bottom < way.top


def test_both_frames_and_their_numbers_are_written(pilot):
    replay_screen(pilot)
    for _ in range(3):
        stepped(pilot, "step_on")
    lines = pilot.lines()
    for name, number in (("replay.hand", 6), ("replay.way", 7)):
        assert f"{pilot.words.text(name)} {number}" in " ".join(lines.split())


@pytest.mark.parametrize("leave", ["button", "back", "escape", "enter"])
def test_it_can_be_left_at_any_time(pilot, leave):
    replay_screen(pilot)
    pilot.wait(4.0, 10)
    if leave in ("escape", "enter"):
        pilot.key({"escape": pygame.K_ESCAPE, "enter": pygame.K_RETURN}[leave])
    else:
        pilot.press("back" if leave == "back" else pilot.words.text("lesson.go_on"))
    assert isinstance(pilot.screen, Home)


def test_with_reduced_motion_beads_jump(pilot):
    pilot.room.set(reduced_motion=True)
    screen = replay_screen(pilot)
    seen = set()
    for _ in range(120):
        pilot.wait(0.05, 1)
        seen |= {field.pose for field in screen.fields}
    frames = (*screen.replay.hand_frames, *screen.replay.way_frames)
    assert seen <= set(map(pose_of, frames))


def test_beads_click_when_they_land_and_the_main_way_on_is_one_button(pilot, heard):
    screen = replay_screen(pilot)
    stepped(pilot, "step_on")
    assert set(heard.names) == {"click"}
    assert [button.style for button in screen.buttons].count(Style.MAIN) == 1


def test_parts_painted_are_as_the_whole(pilot):
    replay_screen(pilot)
    for _ in range(60):
        pilot.wait(0.15, 1)
        seen = pilot.pixels()
        pilot.repaint()
        assert pilot.pixels() == seen


def test_no_tick_stands_beside_what_was_not_right(pilot):
    screen = begin(pilot, Exercise(Kind.SUM, parse_sum("4 + 3"), Rung.NUMBER, 1), count=2)
    give_answer(pilot, 6)
    assert not tick_is_seen(pilot)
    pilot.wait(1.3)
    assert isinstance(pilot.screen, ReplayScreen)
    pilot.press_word("lesson.go_on")
    assert not tick_is_seen(pilot)
    assert (screen.runner.position.step, screen.runner.stage) == (1, Stage.ANSWER)


def test_a_late_parting_is_shown_at_once(pilot):
    """Eight digits set as they should be, and the ninth not."""
    moves = " ".join(f"{rod}:+1" for rod in range(8, 0, -1))
    screen = replay_screen(pilot, "111111111", f"{moves} 0:+2", rods=9)
    assert screen.at == screen.replay.parting == 8
    assert shown(screen) == [111111110, 111111110]
    stepped(pilot, "step_on")
    assert screen.line.show.startswith(pilot.words.text("replay.parted"))
    stepped(pilot, "step_back")
    assert stepped(pilot, "step_back") == [111111100, 111111100]

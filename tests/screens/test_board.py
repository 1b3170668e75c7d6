"""The tutor's board in the real window: a class by a remote, by the keyboard, by the mouse."""

from itertools import pairwise

import pygame
import pytest
from board_class import (
    REMOTE,
    hover,
    is_dark,
    letter,
    open_board,
    press,
    seen,
    steps_on,
    type_keys,
    without_bar,
)
from pilot import Pilot
from robot import Heard

from frame.course.agenda import read_agenda
from frame.course.shown import ItemStage
from frame.language.speech import RATE
from frame.screens.board.screen import BoardScreen
from frame.screens.parts.flashing import refusal
from frame.technique.beads import BeadMove
from frame.technique.reading import read
from frame.view.flash_safety import FlashRefused, FlashVerdict, Ruling

AGENDA = """\
board: Nets and lamps
items:
  - show: 46 + 39
    say: Which bead first?
  - show: 3588 / 46
    trial: 6
  - read: 57
  - call: 12 + 7 - 4
    pace: 1
  - flash: 3 + 5 + 9
    pace: 0.5
"""


@pytest.fixture
def pilot(tmp_path):
    pilot = Pilot(tmp_path, (800, 480))
    yield pilot
    pilot.close()


# A whole class with four keys


def test_a_whole_class_by_a_remote_alone(pilot, flashes):
    screen = open_board(pilot, AGENDA)
    without_bar(pilot)
    press(pilot, "black")
    assert is_dark(pilot)
    press(pilot, "black")
    assert {"46 + 39", "= ?", "Which bead first?"} <= set(seen(pilot))

    frames = steps_on(pilot)
    assert [read(frame) for frame in frames] == [96, 76, 75, 85]
    assert "= 85" in seen(pilot)

    press(pilot, "on")
    assert "3588 ÷ 46" in seen(pilot)
    press(pilot, "start")
    pilot.wait(4, 16)
    assert screen.plays and screen.shown.at > screen.shown.begin
    press(pilot, "stop")
    at = screen.shown.at
    pilot.wait(20, 10)
    assert (screen.plays, screen.shown.at) == (False, at)
    press(pilot, "start")
    pilot.wait(60, 150)
    assert (screen.plays, screen.shown.at) == (False, screen.shown.last)
    press(pilot, "on")
    assert "= 78" in seen(pilot)

    press(pilot, "on", 2)
    assert not screen.is_covered
    assert "57" not in " ".join(seen(pilot))
    pilot.wait(2.1, 4)
    assert screen.is_covered
    press(pilot, "on")
    assert not screen.is_covered and "= 57" in seen(pilot)

    press(pilot, "on", 2)
    assert numbers_called(pilot) == ["12", "7", "−4"]
    press(pilot, "on")
    assert {"12 + 7 − 4", "= 15"} <= set(seen(pilot))

    press(pilot, "on")
    assert "3 + 5 + 9" not in seen(pilot)
    begun = pilot.clock
    press(pilot, "on")
    assert pilot.clock - begun > 3 * 0.5
    assert screen.shown.stage is ItemStage.GIVEN
    press(pilot, "on")
    assert {"3 + 5 + 9", "= 17"} <= set(seen(pilot))

    for button in ("on", "start", "stop", "start", "stop"):
        press(pilot, button)
    assert pilot.screen is screen
    assert "= 17" in seen(pilot)


def numbers_called(pilot):
    """What stands where the sum will be, while numbers are called."""
    found = []
    while pilot.screen.calling is not None:
        text = seen(pilot)[0]
        found += (
            [text] if text not in found and text != pilot.words.text("board.title_call") else []
        )
        pilot.wait(0.2, 1)
    return found


def test_the_way_back_undoes_a_whole_class(pilot):
    screen = open_board(pilot, "4 + 3\n57\n12 - 7")
    pictures = []
    while not (screen.board.at == 2 and screen.shown.stage is ItemStage.TOLD):
        pilot.wait(5, 1)
        pictures.append(without_time(pilot, screen))
        press(pilot, "on")
    for picture in reversed(pictures):
        press(pilot, "back")
        pilot.wait(5, 1)
        assert without_time(pilot, screen) == picture


def without_time(pilot, screen):
    """What the board tells, whatever the clock says."""
    return screen.board.at, screen.shown.stage, screen.shown.frame, screen.is_covered, seen(pilot)


# Start and stop


FLASH = "board: F\nitems:\n  - flash: 3 + 5 + 9\n    pace: 0.5\n"
CALL = "board: C\nitems:\n  - call: 3 + 4\n    pace: 1\n"


@pytest.mark.parametrize("text", ["46 + 39", CALL, "57"])
@pytest.mark.parametrize("button", ["start", "stop"])
def test_one_button_starts_and_stops_whichever_key_it_sends(pilot, text, button):
    screen = open_board(pilot, text)
    for _ in range(3):
        press(pilot, button)
        assert goes_on(screen)
        pilot.wait(0.3, 3)
        press(pilot, button)
        assert not goes_on(screen)
        if screen.is_held and button == "stop":
            press(pilot, button)
            assert not screen.runs
    assert pilot.screen is screen and len(screen.board.items) == 1


def goes_on(screen):
    return screen.runs and not screen.is_held


def test_a_key_that_is_held_does_not_skip(pilot):
    screen = open_board(pilot, "46 + 39")
    assert pygame.key.get_repeat() == (0, 0)
    press(pilot, "on")
    at = screen.shown.at
    pilot.wait(3, 30)
    assert screen.shown.at == at


@pytest.mark.parametrize("again", ["start", "on"])
def test_a_call_that_was_stopped_is_called_anew(pilot, again):
    screen = open_board(pilot, CALL)
    press(pilot, "on")
    pilot.wait(1.5, 15)
    press(pilot, "stop", 2)
    assert screen.calling is None
    press(pilot, again)
    assert numbers_called(pilot) == ["3", "4"]


def test_the_key_that_goes_on_holds_a_call_and_never_tells_its_answer(pilot):
    screen = open_board(pilot, CALL)
    press(pilot, "on")
    for _ in range(3):
        pilot.wait(0.2, 2)
        press(pilot, "on")
        at = screen.calling.number(pilot.clock)
        assert screen.calling.is_held and told_of_a_call(pilot, "held") in seen(pilot)
        pilot.wait(30, 30)
        assert screen.calling.number(pilot.clock) == at and screen.shown.stage is ItemStage.GIVEN
        assert screen.wakes_in(pilot.clock) is None
        press(pilot, "on")
        assert not screen.calling.is_held
    pilot.wait(30, 60)
    assert screen.calling is None and "= ?" in seen(pilot)
    press(pilot, "on")
    assert "= 7" in seen(pilot)


def told_of_a_call(pilot, key):
    """What stands in the line while a call of two numbers is under way or held."""
    called = pilot.screen.moment.called
    return pilot.words.text(f"board.{key}", at=called, all=2) if called else before_a_call(pilot)


def before_a_call(pilot):
    return pilot.words.text("board.held_first") if pilot.screen.is_held else ""


@pytest.fixture
def spoken(pilot):
    """A loudspeaker: a call with sound opens with words."""
    pygame.mixer.init(RATE, -16, 1, 256, allowedchanges=0)
    heard = Heard()
    pilot.room.hear(heard)
    yield heard
    pygame.mixer.quit()


@pytest.mark.parametrize("button", ["black", "start", "stop", "on"])
def test_each_key_of_a_remote_but_the_way_back_holds_a_call(pilot, spoken, button):
    screen = open_board(pilot, CALL)
    press(pilot, "on")
    pilot.wait(3, 30)
    at, called = screen.calling.position(pilot.clock), screen.moment.called
    assert called
    press(pilot, button)
    assert screen.is_held and spoken.calls[-1] == "pause"
    pilot.wait(30, 30)
    if button == "black":
        press(pilot, "on")
        assert is_dark(pilot)
        press(pilot, "black")
    assert screen.is_held and screen.calling.position(pilot.clock) == pytest.approx(at)
    assert told_of_a_call(pilot, "held") in seen(pilot)
    press(pilot, "start")
    assert not screen.is_held and spoken.calls[-1] == "resume"
    pilot.wait(0.1, 1)
    assert screen.moment.called == called


def test_before_its_first_number_a_call_has_but_its_title(pilot, spoken):
    screen = open_board(pilot, CALL)
    without_bar(pilot)
    press(pilot, "on")
    title = pilot.words.text("board.title_call")
    assert screen.moment.called == 0
    assert seen(pilot)[:2] == [title, "= ?"] and "0" not in " ".join(seen(pilot)[2:3])
    assert not screen.seen.line
    press(pilot, "stop")
    assert before_a_call(pilot) in seen(pilot)
    press(pilot, "stop")
    assert screen.calling is None and screen.shown.stage is ItemStage.READY


def test_it_tells_where_a_call_is_and_when_all_is_said(pilot):
    open_board(pilot, CALL)
    press(pilot, "on")
    told = []
    while pilot.screen.calling is not None:
        place = pilot.words.text("board.called", at=len(told) + 1, all=2)
        told += [place] if place in seen(pilot) else []
        pilot.wait(0.2, 1)
    assert len(told) == 2
    given = pilot.words.text("board.given")
    assert given in seen(pilot)
    press(pilot, "on")
    assert given not in seen(pilot) and "= 7" in seen(pilot)


@pytest.mark.parametrize("text", ["46 + 39", "3588 / 46", "4 + 0"])
def test_what_was_played_to_its_end_is_played_again_from_where_it_began(pilot, text):
    screen = open_board(pilot, f"board: Again\nitems:\n  - show: {text}\n")
    shown = screen.shown
    begin = shown.begin if shown.begin < shown.last else 0
    pilot.key(pygame.K_END)
    press(pilot, "on")
    assert shown.stage is ItemStage.TOLD
    for button in ("start", "stop"):
        press(pilot, button)
        assert screen.plays and shown.at == begin and "= ?" in seen(pilot)
        pilot.wait(1.5 * (shown.last + 2), 3 * (shown.last + 2))
        assert not screen.plays and shown.at == shown.last


def test_the_way_back_from_a_call_is_to_before_it(pilot):
    screen = open_board(pilot, "4 + 3\n")
    screen.board.bring(read_agenda(CALL, "")[0].items)
    press(pilot, "on")
    pilot.wait(0.5, 5)
    press(pilot, "back")
    assert (screen.calling, screen.board.at, screen.shown.stage) == (None, 1, ItemStage.READY)


def flashed_until(pilot, button):
    """Flashed numbers under way, and a key of the remote."""
    key, text = REMOTE[button], {"black": "b", "stop": "\x1b"}.get(button, "")
    facts = {"key": key, "mod": 0, "unicode": text, "scancode": 0}
    pygame.event.post(pygame.event.Event(pygame.KEYDOWN, facts))
    pilot.app.take(pilot.screen.next())
    pilot.app.turn(0)


@pytest.mark.parametrize("button", REMOTE)
def test_flashed_numbers_are_stopped_by_each_key_of_a_remote_and_can_begin_again(
    pilot, flashes, button
):
    screen = open_board(pilot, FLASH)
    flashed_until(pilot, button)
    assert screen.shown.stage is ItemStage.READY
    assert screen.is_black is (button == "black")
    if button == "black":
        press(pilot, "black")
    begun = pilot.clock
    press(pilot, "on")
    assert pilot.clock - begun > 1.5 and screen.shown.stage is ItemStage.GIVEN


def test_numbers_that_may_not_be_flashed_say_so_and_can_begin_again(pilot, flashes):
    screen = open_board(pilot, FLASH)
    without_bar(pilot)
    refused = FlashRefused(FlashVerdict(Ruling.REFUSE, 12, 0.5))
    screen.shown.stage = ItemStage.GIVEN
    pilot.app.take(screen.resumed(refused))
    assert screen.shown.stage is ItemStage.READY
    assert screen.note == refusal(refused, pilot.words).show
    press(pilot, "on")
    assert screen.shown.stage is ItemStage.GIVEN and not screen.note


@pytest.mark.parametrize("speed", [0.5, 1.0, 2.0])
def test_half_normal_and_double_speed(pilot, speed):
    screen = open_board(pilot, "46 + 39")
    while screen.speed != speed:
        letter(pilot, "s")
    first = screen.shown.at
    pilot.key(pygame.K_F5)
    begun, times = pilot.clock, [0.0]
    while screen.shown.at < screen.shown.last:
        pilot.wait(0.04, 1)
        if screen.shown.at - first > len(times):
            times.append(pilot.clock - begun)
    pauses = [after - before for before, after in pairwise(times)]
    assert pauses == pytest.approx([1.4 / speed] * len(pauses), abs=0.09)


def test_the_play_stops_before_the_bead_that_decides_when_asked(pilot):
    screen = open_board(pilot, "41 + 12 + 9")
    shown = screen.shown
    letter(pilot, "h")
    stops = []
    while shown.at < shown.last:
        press(pilot, "start")
        pilot.wait(30, 100)
        stops.append((shown.at, screen.plays))
    deciding = [at for at in range(shown.begin + 1, shown.last) if decides(shown, at)]
    assert deciding and stops == [(at, False) for at in [*deciding, shown.last]]


def test_while_the_class_is_asked_neither_bead_nor_rule_tells_it(pilot):
    screen = open_board(pilot, "41 + 12 + 9")
    shown = screen.shown
    letter(pilot, "h")
    without_bar(pilot)
    asked = pilot.words.text("board.asked")
    for _ in range(shown.last - shown.at):
        is_asked = shown.is_deciding
        texts = seen(pilot)
        assert bool(screen.field.hints) is not is_asked
        assert (asked in texts) is is_asked
        assert any("=" in text and "?" not in text for text in texts) <= (not is_asked)
        press(pilot, "on")
    letter(pilot, "h")


def test_a_question_of_the_tutors_own_hides_the_bead_that_it_asks_for(pilot):
    screen = open_board(pilot, AGENDA)
    without_bar(pilot)
    assert "Which bead first?" in seen(pilot) and not screen.field.hints
    press(pilot, "on")
    assert screen.field.hints


def decides(shown, at):
    kept, shown.at = shown.at, at
    answer = shown.is_deciding
    shown.at = kept
    return answer


@pytest.mark.parametrize("key", ["start", "on", "back"])
def test_the_remote_takes_nothing_of_a_sum_that_is_being_typed(pilot, key):
    screen = open_board(pilot, "46 + 39\n4 + 3")
    screen.board.go_to_item(1)
    type_keys(pilot, "12-")
    press(pilot, key)
    assert screen.typed.text == "12-" and pilot.screen is screen
    type_keys(pilot, "7\r")
    assert str(screen.shown.item) == "12 - 7"


# What everyone reads


def test_while_a_number_is_seen_the_next_press_covers_it_and_only_the_one_after_tells(pilot):
    screen = open_board(pilot, "57\n4 + 3")
    press(pilot, "on")
    assert not screen.is_covered and "57" not in " ".join(seen(pilot))
    press(pilot, "on")
    assert (screen.is_covered, screen.shown.stage) == (True, ItemStage.GIVEN)
    assert pilot.words.text("board.given_read") in seen(pilot)
    press(pilot, "on")
    assert "= 57" in seen(pilot)


def test_the_way_back_covers_what_was_told_then_readies_it_to_be_asked_anew(pilot):
    screen = open_board(pilot, "4 + 3\n57")
    pilot.key(pygame.K_PAGEDOWN, pygame.KMOD_CTRL)
    press(pilot, "on", 3)
    assert "= 57" in seen(pilot)
    again = pilot.words.text("board.given_read")
    press(pilot, "back")
    assert screen.is_covered and again in seen(pilot)
    press(pilot, "back")
    assert screen.shown.stage is ItemStage.READY and again not in seen(pilot)
    press(pilot, "on")
    assert screen.looks and not screen.is_covered
    press(pilot, "back")
    assert (screen.board.at, screen.shown.stage, screen.is_covered) == (1, ItemStage.READY, True)
    press(pilot, "back")
    assert screen.board.at == 0


@pytest.mark.parametrize("pressed", [0, 2, 3])
def test_it_is_asked_again_at_any_time_by_the_key_that_starts(pilot, pressed):
    screen = open_board(pilot, "57")
    press(pilot, "on", pressed)
    press(pilot, "start")
    assert screen.looks and not screen.is_covered and "= ?" in seen(pilot)
    pilot.wait(2.1, 4)
    assert screen.is_covered and screen.shown.stage is ItemStage.GIVEN


def test_while_everyone_reads_no_bead_is_moved(pilot):
    screen = open_board(pilot, "57")
    place = pilot.bead_at(0, 1)
    press(pilot, "on")
    pilot.tap(place)
    pilot.settle()
    assert screen.looks and not screen.shown.hand and read(screen.field.frame) == 57


# Esc


def test_esc_stops_what_runs_and_then_lays_aside_what_is_typed(pilot):
    screen = open_board(pilot, "46 + 39\n4 + 3")
    press(pilot, "start")
    type_keys(pilot, "12-")
    press(pilot, "stop")
    assert (screen.plays, screen.typed.is_open) == (False, True)
    press(pilot, "stop")
    assert (screen.plays, screen.typed.is_open) == (False, False)
    assert "46 + 39" in seen(pilot)
    pilot.press("type")
    type_keys(pilot, "7")
    assert "12-7_" in seen(pilot)
    type_keys(pilot, "\x1b8 + 1\r")
    assert str(screen.shown.item) == "8 + 1"


@pytest.mark.parametrize("again", ["=", "type"])
@pytest.mark.parametrize("laid_aside", ["stop", "type"])
def test_what_was_half_typed_is_there_again(pilot, again, laid_aside):
    screen = open_board(pilot, "46 + 39")
    type_keys(pilot, "=sqrt 17")
    for way in (laid_aside, again):
        if way == "stop":
            press(pilot, way)
        elif way == "=":
            type_keys(pilot, way)
        else:
            pilot.press(way)
        assert screen.typed.text == "sqrt 17"
    type_keys(pilot, "64\r")
    assert str(screen.shown.item) == "sqrt 1764"


def test_only_the_key_that_deletes_throws_away_what_is_typed(pilot):
    screen = open_board(pilot, "46 + 39")
    type_keys(pilot, "12-")
    pilot.key(pygame.K_DELETE)
    assert not screen.typed.is_open
    type_keys(pilot, "=")
    assert screen.typed.text == "" and screen.typed.is_open


def test_esc_loses_nothing_of_a_question_and_no_sum(pilot):
    screen = open_board(pilot, "46 + 39\n4 + 3")
    pilot.press("clear")
    for _ in range(4):
        press(pilot, "stop")
    assert len(screen.board.items) == 2 and pilot.screen is screen


# Black


@pytest.mark.parametrize("button", [".", "b"])
@pytest.mark.parametrize("typed", ["", "1", "12-", "=sqrt 4", "46+3", "=", "4+*"])
def test_black_is_left_by_the_key_that_made_it_whatever_is_typed(pilot, typed, button):
    screen = open_board(pilot, "46 + 39")
    type_keys(pilot, button)
    type_keys(pilot, typed)
    assert is_dark(pilot)
    type_keys(pilot, button)
    assert not screen.is_black and not is_dark(pilot)
    assert screen.typed.text == typed.removeprefix("=")


@pytest.mark.parametrize("typed", ["12-", "15", "=", "("])
def test_a_half_typed_sum_does_not_keep_the_screen_from_going_black(pilot, typed):
    screen = open_board(pilot, "46 + 39")
    type_keys(pilot, typed)
    type_keys(pilot, ".")
    assert is_dark(pilot)
    type_keys(pilot, ".")
    assert screen.typed.text == typed.removeprefix("=") and screen.typed.is_open


def test_black_that_was_made_by_a_touch_is_left_by_a_touch(pilot):
    pilot.room.set(letter_keys=False)
    screen = open_board(pilot, "46 + 39")
    at = screen.shown.at
    pilot.press("dark")
    assert is_dark(pilot)
    pilot.tap(screen.field.box.center)
    assert not is_dark(pilot) and (screen.shown.at, screen.shown.hand) == (at, [])
    pilot.press("dark")
    type_keys(pilot, ".")
    assert not is_dark(pilot)


def test_black_hides_everything_and_a_click_does_nothing_there(pilot):
    screen = open_board(pilot, "46 + 39")
    places = [button.place.center for button in screen.buttons]
    letter(pilot, "b")
    shown, at = screen.shown, screen.shown.at
    for place in [*places, screen.places.timeline.center, screen.field.box.center]:
        hover(pilot, place)
        pilot.tap(place)
        assert is_dark(pilot) and pilot.screen is screen
    letter(pilot, "b")
    assert (screen.shown, shown.at, shown.hand) == (shown, at, [])
    assert "46 + 39" in seen(pilot)


def test_a_sum_typed_unseen_is_there_afterwards(pilot):
    screen = open_board(pilot)
    type_keys(pilot, ".")
    type_keys(pilot, "46 + 3")
    type_keys(pilot, "8\b9")
    assert is_dark(pilot)
    type_keys(pilot, "\r")
    assert is_dark(pilot)
    type_keys(pilot, ".")
    assert "46 + 39" in seen(pilot)
    assert read(screen.field.frame) == 46


@pytest.mark.parametrize(
    ("code", "mod"), [(pygame.K_KP_PERIOD, 0), (pygame.K_PERIOD, pygame.KMOD_LCTRL)]
)
def test_a_point_is_typed_with_ctrl_or_on_the_keypad_and_the_full_stop_is_black(pilot, code, mod):
    screen = open_board(pilot)
    type_keys(pilot, "1")
    pilot.key(code, mod, text=".")
    type_keys(pilot, "5+2")
    assert not is_dark(pilot) and "1.5+2_" in seen(pilot)
    type_keys(pilot, "\r.")
    assert str(screen.shown.item) == "1.5 + 2" and is_dark(pilot)


def test_a_mistyped_sum_stays_to_be_mended(pilot):
    screen = open_board(pilot, "4 + 3")
    type_keys(pilot, "46+*9\r")
    assert "46+*9 ?" in seen(pilot) and len(screen.board.items) == 1
    type_keys(pilot, "\b\b")
    assert "46+_" in seen(pilot)
    type_keys(pilot, "39\r")
    assert [str(one.item) for one in screen.board.items] == ["4 + 3", "46 + 39"]
    assert screen.board.at == 1


@pytest.mark.parametrize("there", ["", "46 + 39", "3876 / 68"])
@pytest.mark.parametrize("has_letters", [True, False])
def test_while_a_sum_is_typed_the_line_tells_how_and_nothing_of_the_other_sum(
    pilot, there, has_letters
):
    pilot.room.set(letter_keys=has_letters)
    screen = open_board(pilot, there)
    before = screen.seen
    assert bool(screen.field.hints) is bool(there)
    type_keys(pilot, "12")
    words, texts = pilot.words, " ".join(seen(pilot))
    assert words.text("board.typing") in texts
    assert (words.text("board.typing_point") in texts) is has_letters
    assert not screen.field.hints and not screen.has_timeline
    assert not any(rule in texts for rule in before.line)
    assert all(line.is_done for line in screen.seen.lines)
    press(pilot, "stop")
    assert screen.seen == before and bool(screen.field.hints) is bool(there)


def test_a_word_on_a_try_gives_way_to_what_is_typed(pilot):
    screen = open_board(pilot, "46 + 39")
    pilot.move(BeadMove(2, 1))
    pilot.settle()
    assert screen.seen.word
    type_keys(pilot, "12")
    assert not screen.seen.word and pilot.words.text("board.typing") in " ".join(seen(pilot))


@pytest.mark.parametrize(
    ("typed", "found", "expected"),
    [
        ("46+*9", "'*'", "number"), ("46++9", "'+'", "bracketed"),
        ("46+", "", "number"), ("(4+3", "", "closing"),
        ("8/0", "'0'", "not-zero"), ("3x4x5", "'x'", "one-at-a-time"),
        ("12,34", "'12,34'", "grouped"),
    ],
)  # fmt: skip
@pytest.mark.parametrize("there", ["", "4 + 3"])
def test_a_sum_that_is_refused_says_why(pilot, typed, found, expected, there):
    screen = open_board(pilot, there)
    type_keys(pilot, f"={typed}\r")
    words = pilot.words
    found = found or words.text("cli.the_end")
    told = words.text("board.refused", found=found, expected=words.text(f"cli.expected.{expected}"))
    assert screen.seen.word == told and told in " ".join(seen(pilot))
    type_keys(pilot, "\b")
    assert not screen.seen.word


@pytest.mark.parametrize(
    ("typed", "told"),
    [("9" * 36, f"to {'9' * 35}."), ("-5", "from 0"), ("99999999x" + "9" * 28, "rods: 35")],
)
def test_what_no_frame_holds_says_so(pilot, typed, told):
    screen = open_board(pilot)
    type_keys(pilot, f"{typed}\r")
    assert told in screen.seen.word and screen.seen.word.startswith("Found ")


@pytest.mark.parametrize("begin", ["=", "type"])
def test_a_root_is_typed_though_its_letters_are_keys_of_the_board(pilot, begin):
    screen = open_board(pilot, "46 + 39")
    before = screen.aids, screen.speed
    if begin == "type":
        pilot.press(begin)
    else:
        type_keys(pilot, begin)
    type_keys(pilot, "sqrt 1764\r")
    assert str(screen.shown.item) == "sqrt 1764"
    assert (screen.aids, screen.speed) == before


def test_a_sum_is_typed_by_touch_alone(pilot):
    screen = open_board(pilot, "4 + 3")
    pilot.press("type")
    for key in ("√", "1", "7", "6", "5", "erase", "4", "tick"):
        pilot.press(key)
    assert str(screen.shown.item) == "sqrt 1764" and not screen.typed.is_open
    pilot.press("type")
    pilot.press("9")
    pilot.press("type")
    assert not screen.typed.is_open and screen.typed.text == "9"


def test_as_much_is_typed_as_an_agenda_takes_and_it_says_when_that_is_full(pilot):
    screen = open_board(pilot)
    numbers = "+".join(["12345678901"] * 26)
    type_keys(pilot, numbers)
    assert screen.typed.is_full and pilot.words.text("board.full") in seen(pilot)
    type_keys(pilot, "\b")
    assert pilot.words.text("board.full") not in seen(pilot)
    type_keys(pilot, "\r")
    assert len(screen.shown.item.sum.terms) == 25


@pytest.mark.parametrize("typed", ["123.4567\r", "0.00001\r", "99999*99999\r", "√2\r", "1/7\r"])
def test_whatever_is_typed_comes_or_stays(pilot, typed):
    screen = open_board(pilot)
    type_keys(pilot, typed)
    assert len(screen.board.items) == 1 or screen.typed.is_wrong


def test_letters_do_nothing_where_they_are_turned_off(pilot):
    screen = open_board(pilot, "46 + 39")
    pilot.room.set(letter_keys=False)
    before = screen.shown.at, screen.aids, screen.speed
    for name in "abefghilmnoprstv":
        letter(pilot, name)
    type_keys(pilot, ".")
    assert (screen.shown.at, screen.aids, screen.speed) == before
    assert pilot.screen is screen
    assert not screen.is_black and not screen.typed.is_open
    press(pilot, "on")
    assert screen.shown.at == before[0] + 1
    press(pilot, "back")
    press(pilot, "start")
    assert screen.plays
    press(pilot, "stop")
    assert not screen.plays


# The way in, and out


def test_the_way_in_and_out_and_the_screensaver(pilot):
    pilot.press("board")
    screen = pilot.screen
    assert isinstance(screen, BoardScreen)
    assert not pygame.display.get_allow_screensaver()
    assert pilot.words.text("board.empty") in " ".join(seen(pilot))
    for button in ("on", "back", "start", "stop", "black", "black"):
        press(pilot, button)
    assert pilot.screen is screen
    pilot.press("back")
    assert pilot.screen is not screen
    assert pygame.display.get_allow_screensaver()


def left(pilot, screen):
    """The board left by the first sign on the bar."""
    hover(pilot, (400, 300))
    assert screen.buttons[0].sign == "back"
    pilot.press("back")
    assert pilot.screen is not screen


def test_the_plan_is_there_again_in_the_sitting_and_the_next_time(pilot, tmp_path):
    screen = open_board(pilot, AGENDA)
    press(pilot, "on", 2)
    pilot.key(pygame.K_PAGEDOWN, pygame.KMOD_CTRL)
    press(pilot, "on", 3)
    for name in "ghs":
        letter(pilot, name)
    pilot.move(screen.shown.next_stroke[0])
    left(pilot, screen)
    before, stands = plan_of(screen), screen.board.stands
    assert stands[0].at and stands[1].tried
    assert plan_of(open_board(pilot)) == before
    pilot.close()
    next_time = Pilot(tmp_path, (800, 480))
    assert plan_of(open_board(next_time)) == before
    next_time.close()


def plan_of(screen):
    """All that is kept of a board, wherever in a file its items stood."""
    stands = [(str(one.item), one.item.line, one.at, one.begin, one.stage, one.tried)
              for one in screen.board.stands]  # fmt: skip
    return stands, screen.board.at, screen.aids, screen.speed


def test_a_window_that_is_closed_keeps_the_plan_too(tmp_path):
    pilot = Pilot(tmp_path, (800, 480))
    open_board(pilot)
    type_keys(pilot, "46+39\r")
    pilot.close()
    pilot = Pilot(tmp_path, (800, 480))
    assert [str(one.item) for one in open_board(pilot).board.items] == ["46 + 39"]
    pilot.close()


@pytest.mark.parametrize("kept", ["", "{", "[]", '{"items": 3}', "\0"])
def test_a_damaged_plan_is_an_empty_board(pilot, kept):
    pilot.room.store.keep_plan(kept)
    assert open_board(pilot).board.items == []


def test_an_agenda_that_is_opened_again_begins_anew_and_another_comes_behind(pilot):
    screen = open_board(pilot, "46 + 39\n4 + 3")
    press(pilot, "on", 2)
    left(pilot, screen)
    again = open_board(pilot, "46 + 39\n4 + 3")
    assert len(again.board.items) == 2 and again.shown.at == again.shown.begin
    left(pilot, again)
    other = open_board(pilot, "12 - 7")
    assert [str(one.item) for one in other.board.items] == ["46 + 39", "4 + 3", "12 - 7"]
    assert other.board.at == 2


def test_the_board_is_cleared_only_when_that_was_asked_and_meant(pilot):
    screen = open_board(pilot, "46 + 39\n4 + 3")
    for answer in ("1", "\r", "\x1b"):
        pilot.press("clear")
        assert pilot.words.text("board.ask_clear", count=2) in seen(pilot)
        type_keys(pilot, answer)
        assert len(screen.board.items) == 2 and screen.question is None
        hover(pilot, (400, 300))
    pilot.press("clear")
    type_keys(pilot, "2")
    assert screen.board.items == [] and pilot.words.text("board.empty") in " ".join(seen(pilot))
    left(pilot, screen)
    assert open_board(pilot).board.items == []


def test_no_key_of_a_remote_loses_what_is_typed_nor_goes_on_in_the_dark(pilot):
    screen = open_board(pilot, "46 + 39")
    type_keys(pilot, "8 + 7")
    press(pilot, "stop")
    assert screen.typed.text == "8 + 7"
    press(pilot, "black")
    at = screen.shown.at
    for button in ("on", "back", "start", "stop"):
        press(pilot, button)
    pilot.wait(3, 10)
    assert screen.is_black and screen.shown.at == at
    press(pilot, "black")
    press(pilot, "on")
    assert screen.shown.at == at + 1


def test_the_light_goes_from_rod_to_rod(pilot):
    screen = open_board(pilot, "46 + 39")
    letter(pilot, "l")
    assert screen.spot_at == 1
    pilot.key(pygame.K_LEFT, pygame.KMOD_CTRL)
    assert screen.spot_at == 2
    for _ in range(9):
        pilot.key(pygame.K_RIGHT, pygame.KMOD_CTRL)
    assert screen.spot_at == 0


def test_one_may_go_from_sum_to_sum_and_each_is_as_it_was_left(pilot):
    screen = open_board(pilot, "46 + 39\n57\n4 + 3")
    press(pilot, "on", 2)
    at = screen.shown.at
    for _ in range(5):
        pilot.key(pygame.K_PAGEDOWN, pygame.KMOD_CTRL)
    assert str(screen.shown.item) == "4 + 3"
    for _ in range(5):
        pilot.key(pygame.K_PAGEUP, pygame.KMOD_CTRL)
    assert (str(screen.shown.item), screen.shown.at) == ("46 + 39", at)


def test_what_was_told_of_a_file_goes_when_the_play_begins(pilot, tmp_path):
    screen = open_board(pilot, "46 + 39")
    (tmp_path / "sums.txt").write_text("4 + 3\n")
    pilot.post(pygame.DROPFILE, file=str(tmp_path / "sums.txt"))
    assert screen.note
    press(pilot, "start")
    assert screen.plays and not screen.note

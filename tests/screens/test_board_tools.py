"""The board's bar, a child's try, what is shown beside the beads, and what is pasted or dropped."""

import os
from collections import Counter

import pygame
import pytest
from board_class import hover, letter, open_board, press, seen, type_keys, without_bar
from pilot import Pilot

from frame.course.shown import ItemStage
from frame.screens.board import desk
from frame.screens.board.acts import Aid
from frame.technique.beads import BeadMove
from frame.technique.reading import read
from frame.view.geometry import pose_of
from frame.view.theme import THEMES


@pytest.fixture
def pilot(tmp_path):
    pilot = Pilot(tmp_path, (800, 480))
    yield pilot
    pilot.close()


def tool(screen, sign):
    return next(one for one in screen.buttons if one.sign == sign)


# The bar


def test_the_bar_comes_with_the_mouse_and_goes(pilot):
    screen = open_board(pilot, "46 + 39")
    without_bar(pilot)
    before = pilot.pixels()
    hover(pilot, (400, 300))
    assert screen.buttons and pilot.pixels() != before
    pilot.wait(3.5, 4)
    assert screen.buttons
    hover(pilot, (401, 300))
    pilot.wait(3.5, 4)
    assert screen.buttons
    assert 0 < screen.wakes_in(pilot.clock) <= 0.5
    pilot.wait(0.6, 2)
    assert not screen.buttons and pilot.pixels() == before


def test_each_tool_tells_its_name_under_the_mouse_at_once(pilot):
    screen = open_board(pilot, "46 + 39")
    hover(pilot, (400, 300))
    for button in screen.buttons:
        hover(pilot, button.place.center)
        drawn = pilot.pixels()
        assert button.name in seen(pilot)
        assert pilot.pixels() == drawn
    hover(pilot, (400, 300))
    drawn = pilot.pixels()
    assert screen.buttons[-1].name not in seen(pilot)
    assert pilot.pixels() == drawn


def test_each_tool_tells_its_name_in_focus_at_once(pilot):
    screen = open_board(pilot, "46 + 39")
    press(pilot, "on")
    hover(pilot, (400, 300))
    for _ in screen.buttons:
        pilot.key(pygame.K_TAB, text="\t")
        drawn = pilot.pixels()
        assert screen.buttons[screen.focus].name in seen(pilot)
        assert pilot.pixels() == drawn
    letter(pilot, "m")
    assert screen.focus is None
    drawn = pilot.pixels()
    pilot.repaint()
    assert pilot.pixels() == drawn


def test_tab_goes_round_the_bar_and_its_keys_work_it(pilot):
    screen = open_board(pilot, "46 + 39")
    without_bar(pilot)
    type_keys(pilot, 5 * "\t")
    assert screen.buttons[screen.focus].sign == "step_on"
    at = screen.shown.at
    type_keys(pilot, "\r ")
    assert screen.shown.at == at + 2
    pilot.key(pygame.K_RIGHT)
    assert screen.buttons[screen.focus].sign == "step_start"
    assert screen.shown.at == at + 2
    pilot.wait(60, 10)
    assert screen.buttons
    press(pilot, "on")
    press(pilot, "start")
    assert screen.shown.at >= at + 3 and screen.plays
    letter(pilot, "b")
    assert screen.is_black


def test_without_the_bar_the_arrows_go_by_bead_and_by_step(pilot):
    screen = open_board(pilot, "46 + 39")
    shown = screen.shown
    seen_at = []
    for code in ("RIGHT", "SPACE", "RETURN", "LEFT", "BACKSPACE", "DOWN", "UP", "END", "HOME"):
        letter_code = getattr(pygame, f"K_{code}")
        pilot.key(letter_code)
        seen_at.append(shown.at)
    assert seen_at == [3, 4, 5, 4, 3, 4, 2, shown.last, 0]


def test_the_bar_is_that_of_the_item_that_is_shown(pilot):
    screen = open_board(pilot, "4 + 3\n57")
    assert not tool(screen, "answer").chosen
    pilot.key(pygame.K_END)
    press(pilot, "on")
    assert tool(screen, "answer").chosen
    hover(pilot, (400, 300))
    press(pilot, "on")
    signs = [button.sign for button in screen.buttons]
    assert "eye" in signs and "play" not in signs
    pilot.press("eye")
    assert not screen.is_covered
    press(pilot, "back", 2)
    hover(pilot, (400, 300))
    pilot.move(BeadMove(0, -1))
    assert tool(screen, "undo")
    pilot.settle()
    pilot.press("undo")
    assert "undo" not in [button.sign for button in screen.buttons]


def test_every_tool_does_what_its_key_does(pilot):
    screen = open_board(pilot, "46 + 39")
    for aid in Aid:
        was_on = aid in screen.aids
        pilot.press(aid)
        assert (aid in screen.aids) is not was_on
        assert tool(screen, aid).chosen is not was_on
    for _ in range(3):
        pilot.press("fast" if screen.speed > 1 else "slow")
    assert screen.speed == 1.0
    pilot.press("play")
    assert screen.plays
    pilot.press("pause")
    assert not screen.plays
    pilot.press("dark")
    assert screen.is_black


def test_a_press_on_the_timeline_goes_there(pilot):
    screen = open_board(pilot, "46 + 39 + 28")
    shown, line = screen.shown, screen.places.timeline
    for share in (0.0, 0.5, 0.99):
        pilot.tap((line.left + share * line.w, line.centery))
        assert shown.at == round(share * shown.last)
        pilot.settle()
        assert read(screen.field.frame) == shown.reading
    without_bar(pilot)
    pilot.tap((line.left + 1, line.centery))
    assert shown.at == shown.last


def test_while_a_child_tries_there_is_no_timeline_to_leave_the_try_by(pilot):
    screen = open_board(pilot, "46 + 39")
    place = screen.places.timeline
    drawn = pilot.pixels(place)
    pilot.move(BeadMove(1, 5))
    pilot.settle()
    pilot.tap((place.left + 1, place.centery))
    assert screen.shown.hand and pilot.pixels(place) != drawn
    pilot.press("undo")
    pilot.settle()
    assert pilot.pixels(place) == drawn


# A child's try


def test_a_try_tells_its_verdict_and_goes_back_bead_by_bead(pilot):
    screen = open_board(pilot, "46 + 39")
    frame, word = screen.field.frame, []
    for move in (BeadMove(1, 5), BeadMove(0, 1)):
        pilot.move(move)
        pilot.settle()
        word.append(screen.shown.verdict.judgement)
    assert word == ["right", "wrong"] and read(screen.field.frame) == 97
    said = " ".join(seen(pilot))
    letter(pilot, "v")
    assert len(" ".join(seen(pilot))) < len(said)
    pilot.key(pygame.K_z, pygame.KMOD_CTRL, text="\x1a")
    pilot.settle()
    assert read(screen.field.frame) == 96
    pilot.key(pygame.K_z, pygame.KMOD_CTRL, text="\x1a")
    pilot.settle()
    assert screen.field.frame == frame and not screen.shown.hand


@pytest.mark.parametrize("button", ["on", "back"])
def test_the_remote_leaves_a_try_for_the_prepared_work(pilot, button):
    screen = open_board(pilot, "46 + 39")
    frame = screen.field.frame
    pilot.move(BeadMove(2, 1))
    pilot.settle()
    press(pilot, button)
    assert screen.field.frame == frame and screen.field.pose.rods == at_rest(screen)


def test_a_childs_right_bead_is_gone_on_from(pilot):
    screen = open_board(pilot, "46 + 39")
    pilot.move(BeadMove(1, 5))
    pilot.settle()
    press(pilot, "on")
    assert (read(screen.field.frame), screen.shown.hand) == (76, [])
    pilot.move(BeadMove(0, -1))
    pilot.settle()
    pilot.move(BeadMove(2, 1))
    pilot.settle()
    press(pilot, "on")
    assert (read(screen.field.frame), screen.shown.hand) == (75, [])


def test_the_end_pressed_twice_does_not_hide_the_answer(pilot):
    open_board(pilot, "46 + 39")
    pilot.key(pygame.K_END)
    press(pilot, "on")
    assert "= 85" in seen(pilot)
    pilot.key(pygame.K_END)
    assert "= 85" in seen(pilot)


def test_a_touch_brings_the_bar_and_presses_nothing_of_it(pilot):
    screen = open_board(pilot, "46 + 39")
    place = tool(screen, "dark").place.center
    without_bar(pilot)
    pilot.tap(place)
    assert screen.buttons and not screen.is_black
    pilot.tap(place)
    assert screen.is_black


def at_rest(screen):
    """How the beads of what is shown lie at rest."""
    return pose_of(screen.shown.frame).rods


def test_a_covered_frame_takes_no_beads(pilot):
    screen = open_board(pilot, "57")
    place = pilot.bead_at(0, 1)
    pilot.tap(place)
    pilot.drag(place, (place[0], place[1] - 60))
    pilot.settle()
    press(pilot, "on", 3)
    assert screen.shown.stage is ItemStage.TOLD and screen.field.pose.rods == at_rest(screen)
    pilot.move(BeadMove(0, 1))
    pilot.settle()
    assert read(screen.field.frame) == 58
    seen(pilot)


# What is shown beside the beads


def changed_by(pilot, name, place=None):
    """Whether a letter changes what is painted in a place, and its second press undoes that."""
    screen = pilot.screen
    before = pilot.pixels(place)
    letter(pilot, name)
    pilot.app.draw()
    after = pilot.pixels(place)
    letter(pilot, name)
    assert pilot.pixels(place) == before
    assert screen.shown is not None
    return after != before


def test_each_letter_shows_and_hides_one_thing(pilot):
    screen = open_board(pilot, "46 + 39")
    without_bar(pilot)
    frame = screen.field.box
    assert changed_by(pilot, "t", frame) and changed_by(pilot, "f", frame)
    assert changed_by(pilot, "l", frame)
    texts = Counter(seen(pilot))
    for name, text in (("r", "+3 = +5 −2"), ("m", "100"), ("g", "46")):
        letter(pilot, name)
        assert abs(Counter(seen(pilot))[text] - texts[text]) == 1
        letter(pilot, name)
    letter(pilot, "a")
    assert "= 85" in seen(pilot)
    letter(pilot, "a")
    assert "= ?" in seen(pilot) and "= 85" not in seen(pilot)


def test_the_light_is_on_the_rod_of_the_next_bead_with_or_without_its_badge(pilot):
    screen = open_board(pilot, "46 + 39")
    without_bar(pilot)
    letter(pilot, "f")
    plain = rods_painted(pilot)
    letter(pilot, "l")
    lit = rods_painted(pilot)
    assert [rod for rod in plain if lit[rod] == plain[rod]] == [1]
    press(pilot, "on", 2)
    plain_after = rods_painted(pilot)
    letter(pilot, "l")
    assert [rod for rod, one in rods_painted(pilot).items() if one == plain_after[rod]] == [0]
    assert screen.shown.next_stroke[0].rod == 0


def rods_painted(pilot):
    """What is painted on each rod."""
    field = pilot.screen.field
    half = field.layout.spacing // 2 - 3
    top, height = field.box.top + 10, field.box.h - 20
    return {
        rod: pilot.pixels(pygame.Rect(middle - half, top, 2 * half, height))
        for rod, middle in field.rod_places()
    }


def test_the_ring_goes_with_the_mouse(pilot):
    screen = open_board(pilot, "46 + 39")
    screen.turn(Aid.RING)
    for at in ((300, 40), (500, 60)):
        hover(pilot, at)
        side = round(4.5 * screen.unit)
        hint = THEMES["light"].hint
        assert pilot.app.window.get_at((at[0] - side + 1, at[1]))[:3] == hint
    assert pilot.app.window.get_at((300 - side + 1, 40))[:3] != hint


# What is pasted and dropped


def drop(pilot, path):
    pilot.post(pygame.DROPFILE, file=str(path))


def paste(pilot, monkeypatch, text):
    monkeypatch.setattr(desk, "clipboard_text", lambda: text)
    pilot.key(pygame.K_v, pygame.KMOD_CTRL, text="\x16")


@pytest.mark.parametrize("there", ["", "4 + 3"])
def test_agendas_and_columns_come_behind_what_is_there(pilot, tmp_path, monkeypatch, there):
    screen = open_board(pilot, there)
    agenda, column = tmp_path / "nets.yaml", tmp_path / "nets.txt"
    agenda.write_text("board: Nets\nitems:\n  - show: 46 + 39\n  - read: 57\n")
    column.write_text("12 - 7\n\n8 x 7\n")
    before = len(screen.board.items)
    drop(pilot, agenda)
    assert pilot.words.text("board.added", count=2) in seen(pilot)
    drop(pilot, column)
    paste(pilot, monkeypatch, "sqrt 49\n")
    items = [str(one.item) for one in screen.board.items]
    assert items[before:] == ["46 + 39", "57", "12 - 7", "8 x 7", "sqrt 49"]
    assert screen.board.at == 0
    press(pilot, "on")
    assert pilot.words.text("board.added", count=1) not in seen(pilot)


COLUMN = "12\n47\n\n8\n"


@pytest.mark.parametrize(
    ("keys", "items"),
    [("1", ["12 + 47 + 8"]), ("2", ["12", "47", "8"]), ("\r", ["12 + 47 + 8"]),
     ("\x1b", [])],
)  # fmt: skip
def test_a_column_of_numbers_is_one_sum_or_a_list_as_the_answer_says(
    pilot, monkeypatch, keys, items
):
    screen = open_board(pilot, "4 + 3")
    paste(pilot, monkeypatch, COLUMN)
    assert pilot.words.text("board.ask_pasted", count=3) in seen(pilot)
    assert len(screen.board.items) == 1 and len(screen.buttons) == 2
    type_keys(pilot, keys)
    assert [str(one.item) for one in screen.board.items[1:]] == items
    assert screen.question is None and screen.focus is None


@pytest.mark.parametrize("way", ["arrows", "touch"])
def test_the_answer_is_given_by_arrows_or_a_touch_and_holds_the_next_time(
    pilot, tmp_path, monkeypatch, way
):
    screen = open_board(pilot)
    (tmp_path / "nets.txt").write_text(COLUMN)
    drop(pilot, tmp_path / "nets.txt")
    if way == "touch":
        pilot.tap(screen.buttons[1].place.center)
    else:
        pilot.key(pygame.K_RIGHT)
        type_keys(pilot, "\r")
    assert [str(one.item) for one in screen.board.items] == ["12", "47", "8"]
    pilot.press("back")
    again = open_board(pilot)
    paste(pilot, monkeypatch, "5\n6")
    assert again.question is None
    assert [str(one.item) for one in again.board.items[3:]] == ["5", "6"]


def items_on(screen):
    return [str(one.item) for one in screen.board.items]


def told_of(pilot, count, reading, other):
    words = pilot.words
    return (
        f"{words.text(f'board.added_{reading}', count=count)} {words.text(f'board.again_{other}')}"
    )


@pytest.mark.parametrize("way", ["paste", "drop"])
@pytest.mark.parametrize("there", [[], ["4 + 3"]])
def test_the_same_column_again_is_read_the_other_way(pilot, tmp_path, monkeypatch, way, there):
    screen = open_board(pilot, "".join(there))
    (tmp_path / "nets.txt").write_text(COLUMN)

    def bring():
        if way == "drop":
            drop(pilot, tmp_path / "nets.txt")
        else:
            paste(pilot, monkeypatch, COLUMN)

    bring()
    type_keys(pilot, "1")
    for _ in range(2):
        assert items_on(screen) == [*there, "12 + 47 + 8"]
        assert told_of(pilot, 3, "sum", "list") in seen(pilot)
        bring()
        assert items_on(screen) == [*there, "12", "47", "8"]
        assert told_of(pilot, 3, "list", "sum") in seen(pilot)
        bring()
    paste(pilot, monkeypatch, "5\n6")
    assert items_on(screen) == [*there, "12 + 47 + 8", "5 + 6"]


@pytest.mark.parametrize("between", ["next", "agenda"])
def test_once_the_board_has_gone_on_the_same_column_comes_behind(
    pilot, tmp_path, monkeypatch, between
):
    screen = open_board(pilot, "4 + 3")
    paste(pilot, monkeypatch, COLUMN)
    type_keys(pilot, "1")
    if between == "next":
        press(pilot, "on")
    else:
        (tmp_path / "nets.txt").write_text("8 x 7\n")
        drop(pilot, tmp_path / "nets.txt")
    before = items_on(screen)
    paste(pilot, monkeypatch, COLUMN)
    assert items_on(screen) == [*before, "12 + 47 + 8"]


def test_a_column_too_long_for_one_reading_says_so_and_how_to_have_the_other(pilot, monkeypatch):
    screen = open_board(pilot)
    column = "\n".join(["12345678901234567890"] * 20)
    paste(pilot, monkeypatch, column)
    type_keys(pilot, "1")
    assert not items_on(screen) and pilot.words.text("board.again_list") in screen.note
    paste(pilot, monkeypatch, column)
    assert len(items_on(screen)) == 20


def test_a_column_with_a_minus_can_only_be_one_sum(pilot, monkeypatch):
    screen = open_board(pilot)
    paste(pilot, monkeypatch, "12\n-7\n8")
    assert screen.question is None and str(screen.shown.item) == "12 - 7 + 8"


def test_fifteen_numbers_of_sixteen_digits_may_be_one_sum(pilot, monkeypatch):
    screen = open_board(pilot)
    paste(pilot, monkeypatch, "\n".join(["1234567890123456"] * 15))
    type_keys(pilot, "1")
    assert len(screen.shown.item.sum.terms) == 15


def test_black_hides_a_question_and_nothing_is_answered_there(pilot, monkeypatch):
    screen = open_board(pilot)
    paste(pilot, monkeypatch, COLUMN)
    type_keys(pilot, "b1")
    assert screen.is_black and screen.board.items == []
    type_keys(pilot, "b2")
    assert len(screen.board.items) == 3


BROKEN = {
    "a.yaml": "board: Nets\nitems:\n  - shw: 46 + 39\n",
    "b.txt": "46 + 39\n46 +\n",
    "c.yaml": "board: [\n",
    "d.txt": "",
    "missing.yaml": None,
}


@pytest.mark.parametrize("there", ["", "4 + 3"])
@pytest.mark.parametrize("name", BROKEN)
def test_of_a_broken_file_the_first_problem_is_told_and_nothing_comes(pilot, tmp_path, there, name):
    screen = open_board(pilot, there)
    if BROKEN[name] is not None:
        (tmp_path / name).write_text(BROKEN[name])
    before, texts = len(screen.board.items), seen(pilot)
    drop(pilot, tmp_path / name)
    assert len(screen.board.items) == before
    assert screen.note and set(seen(pilot)) - set(texts)
    first = seen(pilot)
    assert any(one.split()[0] == screen.note.split()[0] for one in first)


@pytest.mark.parametrize("there", ["", "4 + 3"])
@pytest.mark.parametrize(
    "name", ["", "/dev/zero", "a\0b.yaml", "a\0b", "\udcff\x1b[31m.yaml", "\ud800", "z" * 9999]
)
def test_whatever_is_let_go_is_told_and_seen(pilot, there, name):
    screen = open_board(pilot, there)
    before = len(screen.board.items)
    drop(pilot, name)
    assert len(screen.board.items) == before
    assert screen.note.isprintable() and "found" in screen.note
    assert any(one.split()[0] == screen.note.split()[0] for one in seen(pilot))


@pytest.mark.skipif(os.name != "posix", reason="pipes with a place")
@pytest.mark.parametrize("name", ["nets.yaml", "nets.txt"])
def test_a_pipe_that_is_let_go_is_not_waited_for(pilot, tmp_path, name):
    screen = open_board(pilot)
    os.mkfifo(tmp_path / name)
    drop(pilot, tmp_path / name)
    assert screen.note == f"{name}:1:1: found a pipe; expected a file"


def test_paste_and_the_bar_are_reached_while_a_sum_is_typed(pilot, monkeypatch):
    screen = open_board(pilot, "4 + 3")
    type_keys(pilot, "12-")
    paste(pilot, monkeypatch, "8 x 7")
    assert len(screen.board.items) == 2 and screen.typed.text == "12-"
    type_keys(pilot, "\t")
    assert screen.focus == 0
    type_keys(pilot, "7\r")
    assert str(screen.shown.item) == "12 - 7"


def test_paste_of_nothing_says_so(pilot, monkeypatch):
    screen = open_board(pilot)
    paste(pilot, monkeypatch, "\n")
    assert screen.note == pilot.words.text("board.nothing") and not screen.board.items

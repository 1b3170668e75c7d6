"""Work explained on the board: the number in work, reasons, lines above the rods, the names of
places."""

import pygame
import pytest
from board_class import letter, open_board, press, seen, without_bar
from pilot import Pilot

from frame.app import Push
from frame.language.reasons import reason_line
from frame.language.written import line_label, work_line
from frame.learner.settings import Age, Look
from frame.screens.board.screen import BoardScreen
from frame.screens.choosing.who import Who
from frame.technique.conventions import Operands
from frame.technique.operation import Act
from frame.technique.reasons import reasons_of
from frame.view.theme import THEMES


@pytest.fixture
def pilot(tmp_path):
    pilot = Pilot(tmp_path, (1280, 720))
    yield pilot
    pilot.close()


def parts_of(pilot):
    """The parts of the sum as they are written: (text, whether bold)."""
    pilot.repaint()
    found = [one for one in pilot.room.lettering.written if one.how[0] == 4]
    return [
        (one.text.replace("\u202f", ""), dict(one.how[2]).get("bold", False))
        for one in found
        if not one.text.startswith("=")
    ]


# The number in work


def test_the_number_in_work_is_bold_and_underlined_and_the_others_are_not(pilot):
    screen = open_board(pilot, "41 + 12 + 9 - 5")
    without_bar(pilot)
    numbers = ["41", "+ 12", "+ 9", "− 5"]
    while screen.shown.at < screen.shown.last:
        term = screen.shown.step.operation.row
        bold = [text for text, is_bold in parts_of(pilot) if is_bold]
        assert bold == [numbers[term]]
        assert underlined(pilot) == [numbers[term]]
        press(pilot, "on")
    assert all(is_bold for _, is_bold in parts_of(pilot)) and underlined(pilot) == []


def underlined(pilot):
    """The parts with a line of ink below them."""
    pilot.repaint()
    written, ink = list(pilot.room.lettering.written), THEMES["light"].ink
    found = []
    for one in written:
        if one.how[0] == 4 and not one.text.startswith("="):
            left, below = one.lines[0][1].left + 3, one.box.centery
            rows = range(below + one.box.h // 4, one.box.bottom)
            wide = range(left, one.lines[0][1].right - 3)
            window = pilot.app.window
            if any(all(window.get_at((x, y))[:3] == ink for x in wide) for y in rows):
                found.append(one.text)
    return found


@pytest.mark.parametrize("size", [(1280, 720), (800, 1280)])
def test_of_a_sum_that_is_too_long_the_number_in_work_is_seen_and_dots_for_the_rest(pilot, size):
    pilot.resize(size)
    numbers = [f"{at + 1}2345678901" for at in range(9)]
    screen = open_board(pilot, " + ".join(["42345678901", *numbers] * 2))
    without_bar(pilot)
    shown = screen.shown
    for term in range(1, 20):
        step = next(at for at in range(shown.last) if row_at(shown, at) == term)
        shown.go_to(step)
        screen.rearrange()
        parts = parts_of(pilot)
        texts = [text for text, _ in parts if text != "…"]
        assert sum(is_bold for text, is_bold in parts if text != "…") == 1
        hidden = len(screen.seen.head) - len(texts)
        assert hidden > 0 and any(text == "…" for text, _ in parts)


def row_at(shown, at):
    return shown.plan.steps[shown.plan.step_of[at]].operation.row


# Reasons


@pytest.mark.parametrize("text", ["12 - 30", "12 - 30 + 25", "12 - 30 - 90 + 200"])
def test_a_number_below_zero_is_explained_as_it_is_borrowed_for_and_read(pilot, text):
    screen = open_board(pilot, text)
    without_bar(pilot)
    words = pilot.words
    reasons = [one for step in reasons_of(screen.shown.plan) for one in step]
    wanted = [reason_line(one, words).show.replace("\u202f", "") for one in reasons]
    pages = [" ".join(seen(pilot))]
    while screen.shown.at < screen.shown.last:
        press(pilot, "on")
        pages.append(" ".join(seen(pilot)))
    last = wanted[-1]
    if screen.shown.plan.result < 0:
        assert last not in pages[-1], "the answer is not told yet"
    press(pilot, "on")
    pages.append(" ".join(seen(pilot)))
    for reason in wanted:
        assert any(reason in page for page in pages), reason
    assert any(words.text("written.unused") in page for page in pages)
    assert any("borrowed" in page for page in pages)


@pytest.mark.parametrize("text", ["3876 / 68", "37 x 24", "sqrt 1764", "3588 / 46"])
def test_each_line_is_told_and_written_above_its_rods(pilot, text):
    screen = open_board(pilot, text)
    without_bar(pilot)
    shown, words = screen.shown, pilot.words
    while shown.at < shown.last:
        texts = [(one.replace("\u202f", ""), place) for one, place in pilot.repaint()]
        operation = shown.step.operation
        if operation.act not in (Act.CLEAR, Act.SET):
            label = line_label(operation, words)
            (place,) = [place for one, place in texts if one == label]
            assert place.bottom <= screen.field.box.top
        said = work_line(operation, words).show.replace("\u202f", "")
        assert said in " ".join(one for one, _ in texts)
        press(pilot, "on")


def test_what_decides_is_not_written_while_the_class_is_to_say_it(pilot):
    screen = open_board(pilot, "3876 / 68")
    without_bar(pilot)
    label = line_label(screen.shown.step.operation, pilot.words)
    assert label in seen(pilot)
    letter(pilot, "h")
    assert label not in seen(pilot) and pilot.words.text("board.asked") in seen(pilot)
    letter(pilot, "h")
    letter(pilot, "r")
    assert label not in seen(pilot)


@pytest.mark.parametrize("size", [(1280, 720), (600, 960), (800, 1280)])
@pytest.mark.parametrize("text", ["37 x 46", "3876 / 68", "sqrt 1764", "3588 / 46", "1234 x 567"])
def test_what_lines_come_from_stands_in_one_column_beside_all_digits(pilot, size, text):
    pilot.resize(size)
    screen = open_board(pilot, text)
    without_bar(pilot)
    shown, columns = screen.shown, 0
    for at in range(shown.last):
        shown.go_to(at)
        screen.rearrange()
        above = screen.places.written(screen.field.box)
        written = [(one, place) for one, place in pilot.repaint() if above.contains(place)]
        labels = [place for one, place in written if len(one) > 1]
        digits = [place for one, place in written if len(one) == 1]
        if len(labels) < 2:
            continue
        columns += 1
        is_right = len({place.left for place in labels}) == 1
        is_left = len({place.right for place in labels}) == 1
        lowest = max(place.top for place in digits)  # Here are also digits that are marked.
        others = [place for place in digits if place.top < lowest]
        assert (is_right and all(one.right <= labels[0].left for one in others)) or (
            is_left and all(one.left >= labels[0].right for one in others)
        )
    assert columns


# Names of places


@pytest.mark.parametrize(
    ("text", "names"),
    [
        ("46 + 39", ["1", "10", "100", "1000", "10000"]),
        ("1.5 + 2", ["1"]), ("37 x 24", ["1"]), ("3876 / 68", ["1"]),
    ],
)  # fmt: skip
def test_places_are_named_beyond_a_thousand_where_there_is_room(pilot, text, names):
    screen = open_board(pilot, text)
    without_bar(pilot)
    below = pygame.Rect(0, screen.field.box.bottom - 2, screen.size[0], round(5 * screen.unit) + 4)
    found = [one.replace("\u202f", "") for one, place in pilot.repaint() if below.contains(place)]
    assert set(names) <= set(found)
    if names == ["1"] and "." not in text:
        assert found == ["1"]


@pytest.mark.parametrize("size", [(1280, 720), (800, 480), (800, 1280)])
def test_a_frame_of_five_rods_fills_the_room_it_has(pilot, size):
    pilot.resize(size)
    screen = open_board(pilot, "46 + 39")
    box, room = screen.field.box, screen.places.frame
    assert len(screen.field.frame.digits) == 5
    assert box.h >= 0.95 * room.h or box.w >= 0.95 * room.w
    assert box.h >= 0.53 * size[1] or box.w >= 0.9 * size[0]


# Whose board it is


def test_the_board_is_as_the_computer_is_set_whoever_opens_it(pilot):
    pilot.room.set(layout=Operands.NONE, look=Look.HIGH_CONTRAST)
    pilot.seat("Otter")
    pilot.room.set(look=Look.DARK, letter_keys=False, layout=Operands.BOTH, age=Age.YOUNG)
    home, own = pilot.screen, pilot.room.settings
    screen = BoardScreen(pilot.room)
    pilot.app.take(Push(screen))
    pilot.app.draw()
    assert pilot.room.theme is THEMES["high-contrast"]
    assert screen.board.conventions.layout is Operands.NONE
    pilot.key(pygame.K_F2)
    assert pilot.room.store.settings(pilot.room.waiting).volume is own.volume
    pilot.press("back")
    assert pilot.screen is home and pilot.room.settings == own
    assert pilot.room.computer.volume is not own.volume


def test_nobody_is_asked_aside_where_nobody_is_here(pilot):
    open_board(pilot, "46 + 39")
    pilot.press("back")
    assert isinstance(pilot.screen, Who) and pilot.room.learner is None

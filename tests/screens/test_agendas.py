"""The tutor's own agendas in the real window: the ways to their list, and from it to the board."""

import pygame
import pytest
from board_class import is_dark, open_board, press, seen, type_keys, without_bar
from pilot import Pilot
from sight import SHAPES, UPRIGHT, assert_well_laid_out, laid_out

from frame.screens.board.agendas import AGENDAS, Agendas
from frame.screens.parts.own_files import own_folder

NETS = "board: Nets\nitems:\n  - show: 12 - 7\n  - read: 57\n"


@pytest.fixture
def pilot(tmp_path):
    pilot = Pilot(tmp_path, (800, 480))
    yield pilot
    pilot.close()


@pytest.fixture
def folder(pilot):
    """The folder of agendas, with one in it."""
    folder = own_folder(pilot.room, AGENDAS)
    folder.mkdir()
    (folder / "nets.yaml").write_text(NETS)
    return folder


def ctrl_o(pilot):
    pilot.key(pygame.K_o, pygame.KMOD_CTRL, text="\x0f")


def choose(pilot, title="Nets"):
    ctrl_o(pilot)
    pilot.press(title)


def items(screen):
    return [str(one.item) for one in screen.board.items]


@pytest.mark.parametrize("there", ["", "4 + 3"])
@pytest.mark.parametrize("way", ["letter", "key", "sign"])
def test_one_that_is_chosen_is_shown_behind_what_is_there(pilot, folder, there, way):
    screen = open_board(pilot, there)
    if way == "key":
        ctrl_o(pilot)
    elif way == "letter":
        type_keys(pilot, "o")
    else:
        pilot.press("agenda")
    assert isinstance(pilot.screen, Agendas)
    pilot.press("Nets")
    assert pilot.screen is screen
    before = [there] if there else []
    assert items(screen) == [*before, "12 - 7", "57"] and str(screen.shown.item) == "12 - 7"
    assert "12 − 7" in seen(pilot)
    choose(pilot)
    assert items(screen) == [*before, "12 - 7", "57"], "once there, it only begins anew"


def test_an_empty_board_keeps_the_way_to_them_and_the_bar_goes_once_it_is_not(pilot, folder):
    open_board(pilot)
    pilot.wait(9, 9)
    text = pilot.words.text("board.agenda")
    (button,) = (one for one in pilot.screen.buttons if one.text == text)
    pilot.tap(button.place.center)
    assert isinstance(pilot.screen, Agendas)
    pilot.press("Nets")
    without_bar(pilot)


def test_of_one_with_problems_the_first_is_told_and_it_cannot_be_chosen(pilot, folder):
    (folder / "nets.yaml").write_text(NETS.replace("read", "raed").replace("show", "shw"))
    open_board(pilot)
    ctrl_o(pilot)
    texts = pilot.lines()
    assert "nets.yaml:3" in texts and "nets.yaml:4" not in texts
    assert "Nets" not in [button.text for button in pilot.screen.buttons]
    (folder / "nets.yaml").write_text(NETS)
    pilot.wait(1.3)
    pilot.press("Nets")
    assert items(pilot.screen) == ["12 - 7", "57"]


def test_a_file_of_sums_is_listed_by_its_name_and_can_be_chosen(pilot, folder):
    (folder / "lamps.txt").write_text("46 + 39\n8 x 7\n")
    (folder / "quay.txt").write_text("46 +\n")
    screen = open_board(pilot)
    ctrl_o(pilot)
    assert "quay.txt:1:5" in pilot.lines()
    assert not {"quay", "quay.txt"} & {button.text for button in pilot.screen.buttons}
    pilot.press("lamps")
    assert pilot.screen is screen and items(screen) == ["46 + 39", "8 x 7"]


def test_a_new_one_is_written_and_can_be_put_on_the_board_at_once(pilot):
    screen = open_board(pilot)
    ctrl_o(pilot)
    pilot.press_word("agendas.new")
    assert [path.name for path in own_folder(pilot.room, AGENDAS).iterdir()] == ["my-agenda.yaml"]
    pilot.press("Crates on the quay")
    assert pilot.screen is screen and len(screen.board.items) == 5


def test_left_without_a_choice_the_board_is_as_it_was(pilot, folder):
    screen = open_board(pilot, "12 + 7\n57")
    press(pilot, "on", 2)
    press(pilot, "start")
    type_keys(pilot, "8+")
    before = screen.board.stands
    ctrl_o(pilot)
    pilot.key(pygame.K_ESCAPE)
    assert pilot.screen is screen and screen.board.stands == before
    assert screen.typed.text == "8+" and screen.typed.is_open and not screen.plays


def test_nothing_lights_up_out_of_the_dark(pilot, folder):
    screen = open_board(pilot, "4 + 3")
    press(pilot, "black")
    ctrl_o(pilot)
    assert pilot.screen is screen and is_dark(pilot)


def test_the_list_is_well_laid_out(pilot):
    folder, empty = own_folder(pilot.room, AGENDAS), Agendas(pilot.room)
    folder.mkdir()
    for number, title in enumerate(("W" * 24, "Lamps", "", "Nets", "Quay")):
        text = NETS.replace("Nets", title).replace("read", "W" * (30 * (number % 3)) or "read")
        (folder / f"{'W' * 20 * number}{number}.yaml").write_text(text)
    (folder / f"0 {'nets ' * 40}.txt").write_text("57\n")
    screens = [("empty", empty)]
    for page in range(2):
        screen = laid_out(Agendas(pilot.room))
        screen.turn(page)
        screens.append((f"page {page}", screen))
    assert_well_laid_out(screens, [*SHAPES, UPRIGHT])

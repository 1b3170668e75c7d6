"""`board FILE`: the window on the board with what a tutor prepared, or what keeps it from that."""

from collections.abc import Iterator
from pathlib import Path

import pygame
import pytest

from frame.app import App, Pop
from frame.cli import english, main
from frame.course.agenda import load_items
from frame.screens.board.screen import BoardScreen
from frame.screens.choosing.who import Who
from frame.screens.start import build_app

AGENDA = "board: Nets\nitems:\n  - show: 46 + 39\n  - read: 572\n"

Capture = pytest.CaptureFixture[str]


@pytest.fixture
def agenda(tmp_path: Path) -> Path:
    path = tmp_path / "morning.yaml"
    path.write_text(AGENDA)
    return path


@pytest.fixture
def app(tmp_path: Path, agenda: Path) -> Iterator[App]:
    app = build_app(tmp_path, english(), (800, 480), load_items(agenda))
    yield app
    app.close()
    app.room.store.close()
    pygame.display.quit()


def test_the_board_stands_before_the_first_screen_with_all_items(app: App) -> None:
    below, board = app.screens
    assert isinstance(below, Who) and isinstance(board, BoardScreen)
    assert [str(shown.item) for shown in board.board.items] == ["46 + 39", "572"]
    app.draw()
    app.take(Pop())
    assert app.screens == [below]
    app.draw()


@pytest.fixture
def closed_at_once(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> list[str]:
    """The window is closed as soon as it waits; the top screen's name at that time."""
    seen = list[str]()
    run = App.run

    def noted(app: App) -> None:
        seen.append(type(app.top).__name__)
        run(app)

    monkeypatch.setattr("frame.screens.start.data_folder", lambda: tmp_path)
    monkeypatch.setattr("frame.app.next_events", lambda _: [pygame.event.Event(pygame.QUIT)])
    monkeypatch.setattr(App, "run", noted)
    monkeypatch.setattr("pygame.quit", pygame.display.quit)  # The fonts are every test's.
    return seen


def test_an_agenda_opens_the_window_on_the_board(
    agenda: Path, closed_at_once: list[str], capsys: Capture
) -> None:
    assert main(["board", str(agenda)]) == 0
    sums = agenda.with_name("sums.txt")
    sums.write_text("46 + 39\n572\n")
    assert main(["board", str(sums)]) == 0
    assert main([]) == 0
    assert closed_at_once == ["BoardScreen", "BoardScreen", "Who"]
    assert capsys.readouterr() == ("", "")


@pytest.mark.parametrize(
    ("name", "text", "told"),
    [
        ("a.yaml", AGENDA.replace("39", "nets"), ":3:16: found "),
        ("a.yaml", "lesson: nets\n", ":1:1: found 'lesson', so this is a lesson; "),
        ("a.yaml", "", ":1:1: found an empty file; "),
        ("a.txt", "46 + 39\n46 +\n", ":2:5: found "),
        ("a.txt", "\n", ":1:1: found no sum in this file; "),
    ],
)
def test_a_file_with_a_problem_is_told_of_and_no_window_opens(
    tmp_path: Path, closed_at_once: list[str], capsys: Capture, name: str, text: str, told: str
) -> None:
    pygame.display.quit()
    file = tmp_path / name
    file.write_text(text)
    assert main(["board", str(file)]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert err.startswith(f"{file}{told}") and err.count("\n") == 1
    assert not pygame.display.get_init()
    assert closed_at_once == []

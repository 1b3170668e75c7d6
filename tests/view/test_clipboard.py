"""What was copied in another program comes over the clipboard of a real X display."""

import os
import shutil
import subprocess
import sys
from ast import literal_eval
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from ctypes.util import find_library
from pathlib import Path

import pytest
from processes import running

HERE = Path(__file__).parent
READER = """
import sys, pygame
from frame.view.clipboard import clipboard_text
pygame.display.init()
pygame.display.set_mode((64, 64))
for _ in sys.stdin:
    pygame.event.pump()
    print(ascii(clipboard_text()), flush=True)
"""
COLUMN = "46 + 39\n√1764\n3588 ÷ 46 − 1\n"

needs_x = pytest.mark.skipif(
    shutil.which("Xvfb") is None or find_library("X11") is None,
    reason="no Xvfb or no libX11 on this computer",
)


@pytest.fixture(scope="module")
def pasted(display: str) -> Iterator[Callable[[], str]]:
    """What the tool finds on the clipboard, time after time."""
    with tool(display) as paste:
        yield paste


@contextmanager
def tool(display: str) -> Iterator[Callable[[], str]]:
    """The tool with its window on that display: what it finds on the clipboard."""
    paths = os.pathsep.join(filter(None, [str(HERE.parents[1]), os.environ.get("PYTHONPATH")]))
    surroundings = {"DISPLAY": display, "SDL_VIDEODRIVER": "x11", "PYTHONPATH": paths,
                    "PYGAME_HIDE_SUPPORT_PROMPT": "1"}  # fmt: skip
    with running(sys.executable, "-c", READER, **surroundings) as reader:

        def paste() -> str:
            assert reader.stdin is not None and reader.stdout is not None
            reader.stdin.write("\n")
            reader.stdin.flush()
            return str(literal_eval(reader.stdout.readline()))

        yield paste


@contextmanager
def copied(display: str, **offers: str) -> Iterator[None]:
    """Another program owns the clipboard and offers these texts under these names."""
    given = [f"{name}={text}" for name, text in offers.items()]
    command = [sys.executable, str(HERE / "x_owner.py"), *given]
    with running(*command, DISPLAY=display) as owner:
        assert owner.stdout is not None and owner.stdout.readline() == "ready\n"
        yield


@needs_x
@pytest.mark.parametrize(
    "text", [COLUMN, "12\r\n7\r\n", "né, ½, 数, 🦀", " ", "7", "4 + 3\n" * 10_000], ids=len
)
def test_a_text_copied_elsewhere_is_pasted_as_it_was(
    display: str, pasted: Callable[[], str], text: str
) -> None:
    with copied(display, UTF8_STRING=text, STRING=text.encode("ascii", "replace").decode()):
        assert pasted() == text


@needs_x
def test_all_the_names_of_a_text_together_give_it_once(
    display: str, pasted: Callable[[], str]
) -> None:
    names = ("text/plain;charset=utf-8", "UTF8_STRING", "STRING", "TEXT", "text/plain")
    with copied(display, **dict.fromkeys(names, COLUMN)):
        assert pasted() == COLUMN


@needs_x
@pytest.mark.parametrize(
    "offers",
    [{"UTF8_STRING": ""}, {"image/png": "\x89PNG"}, {"x-special/nets": "nets"}, {}],
    ids=["an empty text", "a picture", "something else", "nothing"],
)
def test_where_no_text_was_copied_nothing_is_pasted(display: str, offers: dict[str, str]) -> None:
    """By a tool that has pasted nothing before: else SDL may give that once more."""
    with copied(display, **offers), tool(display) as paste:
        assert paste() == ""


@needs_x
def test_a_clipboard_that_nobody_owns_any_more_is_empty(
    display: str, pasted: Callable[[], str]
) -> None:
    with copied(display, UTF8_STRING=COLUMN):
        assert pasted() == COLUMN
    assert pasted() == ""


def test_without_a_window_nothing_is_pasted() -> None:
    program = "from frame.view.clipboard import clipboard_text; print(repr(clipboard_text()))"
    done = subprocess.run(
        [sys.executable, "-c", program], cwd=HERE.parents[1], capture_output=True, text=True,
        env={**os.environ, "PYGAME_HIDE_SUPPORT_PROMPT": "1"}, check=True, timeout=60,
    )  # fmt: skip
    assert done.stdout == "''\n"

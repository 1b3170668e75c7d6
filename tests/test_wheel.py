"""The wheel by itself: what is in it, and that it works in an empty folder."""

import json
import os
import subprocess
import sys
import zipfile
from collections.abc import Callable
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[1]

FIRST_PICTURE = """
import pathlib, sys
import frame
from frame.cli import english
from frame.screens.start import build_app
app = build_app(pathlib.Path(sys.argv[1]), english())
app.draw()
app.after_first_picture()
across, down = map(range, app.window.get_size())
colours = {tuple(app.window.get_at((x, y))) for x in across[::8] for y in down[::8]}
print(frame.__file__, len(colours), len(app.room.course.lessons), sep="\\n")
app.close()
app.room.store.close()
"""


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel, built from the checkout without the network."""
    folder = tmp_path_factory.mktemp("wheel")
    build = [sys.executable, "-m", "hatchling", "build", "-t", "wheel", "-d", str(folder)]
    done = subprocess.run(build, cwd=ROOT, capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stderr
    (built,) = folder.glob("*.whl")
    return built


@pytest.fixture(scope="module")
def names(wheel: Path) -> set[str]:
    with zipfile.ZipFile(wheel) as archive:
        return set(archive.namelist())


@pytest.fixture(scope="module")
def python(wheel: Path, tmp_path_factory: pytest.TempPathFactory) -> Callable[..., str]:
    """Runs Python in an empty folder with the unpacked wheel: its output."""
    site, empty = tmp_path_factory.mktemp("site"), tmp_path_factory.mktemp("empty")
    with zipfile.ZipFile(wheel) as archive:
        archive.extractall(site)
    environment = {**os.environ, "PYTHONPATH": str(site), "PYTHONIOENCODING": "utf-8"}

    def run(*arguments: str) -> str:
        done = subprocess.run(
            [sys.executable, "-P", *arguments],
            cwd=empty, env=environment, capture_output=True, encoding="utf-8", timeout=60,
        )  # fmt: skip
        assert done.returncode == 0, done.stderr
        return done.stdout

    return run


def files_below(folder: Path) -> set[str]:
    return {
        path.relative_to(ROOT).as_posix()
        for path in folder.rglob("*")
        if path.is_file() and "__pycache__" not in path.parts
    }


def test_the_lessons_and_everything_the_program_shows_and_plays_are_inside(names: set[str]) -> None:
    shown = files_below(ROOT / "lessons") | files_below(ROOT / "assets")
    wanted = {f"frame/{name}" for name in shown if not name.startswith("assets/readme/")}
    assert wanted <= names
    assert files_below(ROOT / "frame") <= names


@pytest.mark.parametrize(
    "licence",
    ["fonts/OFL.txt", "pictures/LICENSE.txt", "sounds/LICENSE.txt", "voice/LICENSE.txt"],
)
def test_the_licence_stands_beside_what_it_is_for(names: set[str], licence: str) -> None:
    assert f"frame/assets/{licence}" in names


def test_the_licence_of_the_program_is_inside(names: set[str]) -> None:
    assert any(name.endswith("dist-info/licenses/LICENSE") for name in names)


def test_nothing_else_is_inside(names: set[str]) -> None:
    assert {name.split("/")[0].partition("-")[0] for name in names} == {"frame", "bead_frame"}
    assert not [name for name in names if "tests" in name.split("/") or "assets/readme" in name]


def test_the_command_explains_a_sum(python: Callable[..., str]) -> None:
    answer = json.loads(python("-m", "frame.cli", "explain", "38 + 47", "--json"))
    assert answer["reading"] == "85"
    assert [step["technique"] for step in answer["steps"]] == ["direct", "direct", "five", "ten"]


def test_the_command_lists_the_whole_course(python: Callable[..., str]) -> None:
    shown = python("-m", "frame.cli", "lessons")
    assert len(shown.splitlines()) == 1 + len(list((ROOT / "lessons").glob("*/[0-9]-*.yaml")))


def test_the_published_grades_are_read(python: Callable[..., str]) -> None:
    tables = (
        "from frame.sheets import grades, runs; print(*grades.grades(), *runs.published_runs())"
    )
    assert {"kyu-10", "second-mental-dan", "flashed-dan-10"} <= set(python("-c", tables).split())


def test_the_command_draws_a_picture(python: Callable[..., str], tmp_path: Path) -> None:
    python("-m", "frame.cli", "picture", "5072", str(tmp_path / "frame.png"))
    assert (tmp_path / "frame.png").read_bytes().startswith(b"\x89PNG")


def test_the_window_opens_with_its_fonts_pictures_sounds_and_course(
    python: Callable[..., str], tmp_path: Path
) -> None:
    where, colours, lessons = python("-c", FIRST_PICTURE, str(tmp_path)).splitlines()[-3:]
    assert ROOT not in Path(where).resolve().parents
    assert int(colours) > 10
    assert int(lessons) == len(list((ROOT / "lessons").glob("*/[0-9]-*.yaml")))

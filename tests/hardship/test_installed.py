"""The wheel and the source archive on every Python that is here, in a folder of many scripts, and
the README's two commands from the archive: without a home, a screen or a loudspeaker.

Everything here installs packages and takes minutes, and so is a proof. What this machine has not
was not tried: Windows, macOS, panels, a Python that `python_of` does not find.
"""

import json
import os
import shutil
import signal
import subprocess
import sys
import tarfile
import time
from collections.abc import Callable
from functools import cache
from pathlib import Path

import pytest

pytestmark = [
    pytest.mark.proof,
    pytest.mark.skipif(os.name != "posix", reason="environments and signals as there"),
]

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text("utf-8")
AGENDA = "board: Nets\nitems:\n  - show: 46 + 39\n"
FOLDER = "Fähre 渡し باب порт & 1"
"""A folder with spaces and scripts of four kinds. The starter that pip writes in a folder with a
space takes no $ and no quotes; that is pip's."""
GONE = ("HOME", "DISPLAY", "WAYLAND_DISPLAY", "SDL_VIDEODRIVER", "SDL_AUDIODRIVER", "PYTHONPATH")
"""What a process here does not have."""
OPEN_SECONDS = 4.0
"""So long a window stays open before it is closed by a signal."""


VERSIONS = ("3.11", "3.12", "3.13", "3.14")


@cache
def python_of(version: str) -> str | None:
    """A Python of that version that can make environments: on the path, or one of pyenv's."""
    there = [sys.executable, *filter(None, [shutil.which(f"python{version}")])]
    there += map(str, Path.home().glob(f".pyenv/versions/{version}.*/bin/python"))
    asks = "import sys, venv, ensurepip; print('%d.%d' % sys.version_info[:2])"
    for one in there:
        ended = subprocess.run([one, "-c", asks], capture_output=True, text=True)
        if ended.stdout.strip() == version:
            return one
    return None


@cache
def newest() -> str:
    """The newest version that is here."""
    there = [version for version in VERSIONS if python_of(version)]
    return there[-1] if there else pytest.skip("no Python that can make environments")


def surroundings(folder: Path, **more: str) -> dict[str, str]:
    """Variables without a home, a screen and a loudspeaker; learners are kept in the folder."""
    kept = {name: value for name, value in os.environ.items() if name not in GONE}
    return {**kept, "XDG_DATA_HOME": str(folder / "data"), "PYTHONIOENCODING": "utf-8", **more}


def run(command: list[str], folder: Path, **more: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        command, cwd=folder, env=surroundings(folder, **more), capture_output=True,
        encoding="utf-8", timeout=1800,
    )  # fmt: skip


def done(command: list[str], folder: Path, **more: str) -> str:
    """What a command says that must succeed."""
    ended = run(command, folder, **more)
    assert ended.returncode == 0, ended.stdout[-2000:] + ended.stderr[-2000:]
    return ended.stdout


def closed(command: list[str], folder: Path, until: Path) -> tuple[int, str]:
    """A window that is closed by a signal some time after the file `until` was made: how it ended,
    and what it complained of, but for what Linux's own library says of a sound card that is not
    there."""
    process = subprocess.Popen(
        command, cwd=folder, env=surroundings(folder, SDL_VIDEODRIVER="dummy"),
        stdout=subprocess.DEVNULL, stderr=subprocess.PIPE, text=True, start_new_session=True,
    )  # fmt: skip
    try:
        for _ in range(6000):
            if until.exists() or process.poll() is not None:
                break
            time.sleep(0.1)
        time.sleep(OPEN_SECONDS)
        assert process.poll() is None, process.communicate()[1]
        os.killpg(process.pid, signal.SIGTERM)
        complaints = process.communicate(timeout=20)[1].splitlines()
        ours = [line for line in complaints if not line.startswith("ALSA lib ")]
        return process.returncode, "\n".join(ours)
    finally:
        if process.poll() is None:
            os.killpg(process.pid, signal.SIGKILL)


@pytest.fixture(scope="module")
def built(tmp_path_factory: pytest.TempPathFactory) -> dict[str, Path]:
    """The wheel and the source archive of the checkout, by hatchling."""
    folder = tmp_path_factory.mktemp("built")
    build = [sys.executable, "-m", "hatchling", "build", "-d", str(folder)]
    subprocess.run(build, cwd=ROOT, check=True, capture_output=True, timeout=120)
    (wheel,), (archive,) = folder.glob("*.whl"), folder.glob("*.tar.gz")
    return {"wheel": wheel, "archive": archive}


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """An empty folder, `empty`, beside nothing else in a folder of many scripts."""
    empty = tmp_path / FOLDER / "empty"
    empty.mkdir(parents=True)
    return empty.parent


def installed(folder: Path, version: str, package: Path) -> str:
    """The Python of an environment of its own, with the package."""
    done([str(python_of(version)), "-m", "venv", "venv"], folder)
    python = str(folder / "venv/bin/python")
    done([python, "-m", "pip", "install", "-q", str(package)], folder)
    return python


def play_a_lesson(python: str, folder: Path) -> None:
    """The lesson is mastered and kept as done, by the program that was installed."""
    drivers = dict.fromkeys(("SDL_VIDEODRIVER", "SDL_AUDIODRIVER"), "dummy")
    script = str(ROOT / "tests/hardship/plays.py")
    where, *ends = done([python, script], folder / "empty", **drivers).splitlines()[-3:]
    assert folder in Path(where).parents
    assert ends == ["True", "True"]


@pytest.mark.parametrize("version", VERSIONS)
@pytest.mark.parametrize("kind", ["wheel", "archive"])
def test_what_is_built_works_once_installed(built, folder, kind, version):
    if python_of(version) is None:
        pytest.skip(f"no Python {version} here")
    python, program = installed(folder, version, built[kind]), str(folder / "venv/bin/bead-frame")
    empty = folder / "empty"
    answer = json.loads(done([python, "-m", "frame.cli", "explain", "38 + 47", "--json"], empty))
    assert answer["reading"] == "85"
    assert "85" in done([program, "explain", "38 + 47"], empty)
    assert len(done([program, "lessons"], empty).splitlines()) > 80
    play_a_lesson(python, folder)

    learners = empty / "data/bead-frame/learners.sqlite"
    (empty / "my agenda.yaml").write_text(AGENDA, "utf-8")
    for more in ([], ["board", "my agenda.yaml"]):
        ended = run([program, *more], empty)
        assert (ended.returncode, ended.stdout, ended.stderr.count("\n")) == (1, "", 1)
        assert "no screen" in ended.stderr
        assert closed([program, *more], empty, learners) == (128 + signal.SIGTERM, "")
    assert {one.name for one in empty.iterdir()} == {"data", "my agenda.yaml"}


def test_so_it_does_with_the_window_that_newer_pythons_take(built, folder):
    """From Python 3.14 on pygame-ce takes pygame's place, and runs on older ones too."""
    python = installed(folder, newest(), built["wheel"])
    done([python, "-m", "pip", "uninstall", "-q", "-y", "pygame"], folder)
    done([python, "-m", "pip", "install", "-q", "pygame-ce"], folder)
    assert done([python, "-c", "import pygame; print(pygame.IS_CE)"], folder).strip() == "1"
    play_a_lesson(python, folder)


def fence(before: str) -> str:
    """The first command of the README after a text."""
    return README[README.index(before) :].split("```sh\n")[1].splitlines()[0]


@pytest.fixture
def unpacked(built, folder) -> Path:
    """The source archive unpacked."""
    with tarfile.open(built["archive"]) as archive:
        archive.extractall(folder / "empty", filter="data")
    (project,) = (folder / "empty").iterdir()
    return project


@pytest.fixture
def command(tmp_path) -> Callable[[str], list[str]]:
    """A command of the README in a shell where `python3` is the newest of the Pythons."""
    (tmp_path / "bin").mkdir()
    (tmp_path / "bin/python3").symlink_to(str(python_of(newest())))
    path = f"{tmp_path / 'bin'}{os.pathsep}{os.environ['PATH']}"
    return lambda before: ["env", f"PATH={path}", "bash", "-c", fence(before)]


def test_the_readmes_first_command_opens_the_window(unpacked, command):
    ended = run(command("Linux and macOS:"), unpacked)
    assert ended.returncode == 1 and "no screen" in ended.stderr
    learners = unpacked / "data/bead-frame/learners.sqlite"
    status, complaint = closed(command("Linux and macOS:"), unpacked, learners)
    assert status in (128 + signal.SIGTERM, -signal.SIGTERM) and complaint in ("", "Terminated")


def test_the_readmes_second_command_runs_the_tests(unpacked, command):
    said = done(command("<!-- test command -->"), unpacked)
    print(said.splitlines()[-1])
    assert " passed" in said

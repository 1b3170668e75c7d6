"""The wheel and the source archive on every Python that is here, in a folder of many scripts, and
the README's two commands from the archive: without a home, a screen or a loudspeaker.

Everything here installs packages and takes minutes, and so is a proof. What this machine has not
was not tried: Windows, macOS, panels, a Python that is not found by `pythons`.
"""

import json
import os
import shutil
import signal
import subprocess
import sys
import tarfile
import time
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


def pythons() -> dict[str, str]:
    """The Pythons that can be started here by version, from 3.11 on: on the path, and pyenv's."""
    names = [f"python3.{minor}" for minor in range(11, 16)]
    there = [sys.executable, *filter(None, map(shutil.which, names))]
    there += map(str, Path.home().glob(".pyenv/versions/3.*/bin/python"))
    asks = "import sys, venv, ensurepip; print('%d.%d' % sys.version_info[:2])"
    found = {}
    for one in there:
        done = subprocess.run([one, "-c", asks], capture_output=True, text=True)
        if done.returncode == 0:
            found.setdefault(done.stdout.strip(), one)
    return {version: one for version, one in found.items() if int(version.split(".")[1]) >= 11}


PYTHONS = pythons()


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


@pytest.mark.parametrize("version", PYTHONS)
@pytest.mark.parametrize("kind", ["wheel", "archive"])
def test_what_is_built_works_once_installed(built, tmp_path, kind, version):
    folder = tmp_path / FOLDER
    folder.mkdir()
    done([PYTHONS[version], "-m", "venv", "venv"], folder)
    python, program = str(folder / "venv/bin/python"), str(folder / "venv/bin/bead-frame")
    done([python, "-m", "pip", "install", "-q", str(built[kind])], folder)

    empty = folder / "empty"
    empty.mkdir()
    answer = json.loads(done([python, "-m", "frame.cli", "explain", "38 + 47", "--json"], empty))
    assert answer["reading"] == "85"
    assert "85" in done([program, "explain", "38 + 47"], empty)
    assert len(done([program, "lessons"], empty).splitlines()) > 80

    where, *ends = done(
        [python, str(ROOT / "tests/hardship/plays.py")], empty,
        SDL_VIDEODRIVER="dummy", SDL_AUDIODRIVER="dummy",
    ).splitlines()[-3:]  # fmt: skip
    assert folder in Path(where).parents
    assert ends == ["True", "True"], "mastered, and kept as done"

    learners = empty / "data/bead-frame/learners.sqlite"
    (empty / "my agenda.yaml").write_text(AGENDA, "utf-8")
    for more in ([], ["board", "my agenda.yaml"]):
        ended = run([program, *more], empty)
        assert (ended.returncode, ended.stdout, ended.stderr.count("\n")) == (1, "", 1)
        assert "no screen" in ended.stderr
        assert closed([program, *more], empty, learners) == (128 + signal.SIGTERM, "")
    assert {one.name for one in empty.iterdir()} == {"data", "my agenda.yaml"}


def fence(before: str) -> str:
    """The first command of the README after a text."""
    return README[README.index(before) :].split("```sh\n")[1].splitlines()[0]


@pytest.fixture(params=[max(PYTHONS, key=lambda one: int(one.split(".")[1]))])
def unpacked(built, tmp_path, request) -> Path:
    """The source archive in a folder where `python3` is one of the Pythons."""
    folder = tmp_path / FOLDER
    folder.mkdir()
    with tarfile.open(built["archive"]) as archive:
        archive.extractall(folder, filter="data")
    (tmp_path / "bin").mkdir()
    (tmp_path / "bin/python3").symlink_to(PYTHONS[request.param])
    (project,) = folder.iterdir()
    return project


def test_the_readmes_first_command_opens_the_window(unpacked, tmp_path):
    path = f"{tmp_path / 'bin'}{os.pathsep}{os.environ['PATH']}"
    command = ["env", f"PATH={path}", "bash", "-c", fence("Linux and macOS:")]
    ended = run(command, unpacked)
    assert ended.returncode == 1 and "no screen" in ended.stderr
    learners = unpacked / "data/bead-frame/learners.sqlite"
    status, complaint = closed(command, unpacked, learners)
    assert status in (128 + signal.SIGTERM, -signal.SIGTERM) and complaint in ("", "Terminated")


def test_the_readmes_second_command_runs_the_tests(unpacked, tmp_path):
    path = f"{tmp_path / 'bin'}{os.pathsep}{os.environ['PATH']}"
    command = ["env", f"PATH={path}", "bash", "-c", fence("<!-- test command -->")]
    said = done(command, unpacked)
    print(said.splitlines()[-1])
    assert " passed" in said

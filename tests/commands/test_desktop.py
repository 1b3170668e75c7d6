"""`--desktop`: what desktops read starts this program, whatever its path is; all or nothing."""

import os
import plistlib
import shlex
import struct
import subprocess
import sys
from pathlib import Path

import pygame
import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.cli import english, main
from frame.commands.desktop import add_to_desktop
from frame.commands.entries import (
    Program,
    apple_icon,
    bundle_info,
    desktop_entry,
    launcher,
    shortcut_script,
    windows_icon,
)
from frame.commands.output import Refusal

Capture = pytest.CaptureFixture[str]

UNESCAPED = {"s": " ", "n": "\n", "t": "\t", "r": "\r", "\\": "\\"}
TEXTS = st.text(st.characters(exclude_categories=("Cs", "Cc"), include_characters="\n\t"))
PATHS = TEXTS.map(lambda text: f"/{text}")
AWKWARD = [
    "/home/otter/bead frame/python",
    '/a "quoted" one/python',
    "/100% sure/%f/python",
    "/back\\slash/$HOME/`ls`/python",
    "/it's; a & b | c > d < e ~ (f) # g * h ?/python",
    "/a=b/python",
    "/hérisson/ハリネズミ/python",
]
linux = pytest.mark.skipif(
    sys.platform in ("win32", "darwin"), reason="the entries of freedesktop.org"
)


def program(*command: str) -> Program:
    return Program("Bead frame", "bead-frame", "Lessons", command)


def entry_of(text: str) -> dict[str, str]:
    """The keys of an entry, with their strings as they are meant."""
    head, *lines = text.splitlines()
    assert head == "[Desktop Entry]"
    pairs = (line.split("=", 1) for line in lines)
    return {key: unescaped(value) for key, value in pairs}


def unescaped(value: str) -> str:
    """A string of an entry as the specification reads it."""
    signs, text = iter(value), ""
    for sign in signs:
        text += UNESCAPED[next(signs)] if sign == "\\" else sign
    return text


def arguments_of(command: str) -> list[str]:
    """The arguments of an Exec key as the specification reads them. Each stands in quotes as a
    whole or not at all, and no code is in it that would be filled in."""
    found, rest = [], command
    while rest:
        if rest[0] == '"':
            one, rest = quoted(rest[1:])
        else:
            one, _, rest = rest.partition(" ")
            rest = f" {rest}" if rest else ""
            assert one and not set(one) & set(" \t\n\"'\\><~|&;$*?#()`")
        assert "%" not in one.replace("%%", "")
        found.append(one.replace("%%", "%"))
        assert not rest or rest[0] == " "
        rest = rest[1:]
    return found


def quoted(text: str) -> tuple[str, str]:
    """What stands up to the closing quote, and what follows it."""
    signs, inside = iter(text), ""
    for sign in signs:
        if sign == '"':
            return inside, "".join(signs)
        assert sign not in "`$"
        inside += next(signs) if sign == "\\" else sign
    raise AssertionError("no closing quote")


def started_by(command: tuple[str, ...]) -> list[str]:
    return arguments_of(entry_of(desktop_entry(program(*command)))["Exec"])


@pytest.mark.parametrize("path", AWKWARD)
def test_an_entry_starts_the_program_wherever_it_is(path: str) -> None:
    given = started_by((path, "-m", "frame.cli"))
    if "=" in path:
        assert "=" not in given[0]
        told = subprocess.run(
            [*given[:3], "/bin/echo", *given[3:]], capture_output=True, text=True, check=True
        )
        assert told.stdout == f"{path} -m frame.cli\n"
    else:
        assert given == [path, "-m", "frame.cli"]


@given(PATHS.filter(lambda path: "=" not in path), st.lists(TEXTS, max_size=3))
def test_any_arguments_come_back_as_they_were(path: str, arguments: list[str]) -> None:
    assert started_by((path, *arguments)) == [path, *arguments]


@given(TEXTS, TEXTS)
def test_any_name_and_comment_come_back_as_they_were(name: str, comment: str) -> None:
    entry = entry_of(desktop_entry(Program(name, "bead-frame", comment, ("python",))))
    assert (entry["Name"], entry["Comment"]) == (name, comment)


@linux
class TestOnLinux:
    """What is written under XDG_DATA_HOME."""

    @pytest.fixture
    def base(self, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
        monkeypatch.setenv("XDG_DATA_HOME", str(tmp_path / "data"))
        return tmp_path / "data"

    @staticmethod
    def seen(base: Path) -> dict[str, tuple[bytes, int]]:
        files = [path for path in base.rglob("*") if path.is_file()]
        return {
            str(one.relative_to(base)): (one.read_bytes(), one.stat().st_mtime_ns) for one in files
        }

    def test_the_entry_and_its_icons_are_there(self, base: Path, capsys: Capture) -> None:
        assert main(["--desktop"]) == 0
        icons = "icons/hicolor"
        assert set(self.seen(base)) == {
            "applications/bead-frame.desktop",
            f"{icons}/scalable/apps/bead-frame.svg",
            f"{icons}/48x48/apps/bead-frame.png",
            f"{icons}/256x256/apps/bead-frame.png",
        }
        for size in (48, 256):
            picture = pygame.image.load(base / icons / f"{size}x{size}/apps/bead-frame.png")
            assert picture.get_size() == (size, size)
        entry = entry_of((base / "applications/bead-frame.desktop").read_text("utf-8"))
        assert entry["Type"] == "Application"
        assert entry["Name"] == "Bead frame"
        assert entry["Icon"] == entry["StartupWMClass"] == "bead-frame"
        assert entry["Categories"] == "Education;"
        out, err = capsys.readouterr()
        assert str(base / "applications/bead-frame.desktop") in out and err == ""

    def test_what_it_starts_is_this_program(self, base: Path, tmp_path: Path) -> None:
        """Even from a folder where something else is called as the package is."""
        (tmp_path / "frame.py").write_text("raise SystemExit(3)")
        assert main(["--desktop"]) == 0
        entry = entry_of((base / "applications/bead-frame.desktop").read_text("utf-8"))
        run = [*arguments_of(entry["Exec"]), "--version"]
        root = str(Path(__file__).parents[2])
        done = subprocess.run(
            run, capture_output=True, text=True, check=True, cwd=tmp_path,
            env={**os.environ, "PYTHONPATH": root},
        )  # fmt: skip
        assert done.stdout.startswith("bead-frame ")

    def test_done_twice_it_changes_nothing(self, base: Path, capsys: Capture) -> None:
        assert main(["--desktop"]) == 0
        before, first = self.seen(base), capsys.readouterr().out
        assert main(["--desktop"]) == 0
        again = capsys.readouterr().out
        assert self.seen(base) == before
        assert first != again and first.count("\n") == again.count("\n") == 1

    def test_an_entry_of_another_place_is_renewed(self, base: Path) -> None:
        main(["--desktop"])
        entry = base / "applications/bead-frame.desktop"
        right = entry.read_bytes()
        entry.write_bytes(b"[Desktop Entry]\nExec=/gone/python\n")
        assert main(["--desktop"]) == 0
        assert entry.read_bytes() == right

    @pytest.mark.parametrize("where", ["applications", "icons", "icons/hicolor/256x256"])
    def test_where_nothing_can_be_written_nothing_is_left(
        self, base: Path, where: str, capsys: Capture
    ) -> None:
        """A file stands where a folder should, which keeps out even those who may do all."""
        (base / where).parent.mkdir(parents=True)
        (base / where).write_text("mine")
        before = {path: path.is_file() for path in base.rglob("*")}
        assert main(["--desktop"]) == 2
        out, err = capsys.readouterr()
        assert {path: path.is_file() for path in base.rglob("*")} == before
        assert out == "" and err.count("\n") == 1
        assert str(base / where) in err and "a folder that can be written in" in err

    def test_a_folder_in_the_place_of_the_entry_is_left(self, base: Path, capsys: Capture) -> None:
        (base / "applications/bead-frame.desktop").mkdir(parents=True)
        assert main(["--desktop"]) == 2
        assert [path.name for path in base.rglob("*")] == ["applications", "bead-frame.desktop"]
        assert capsys.readouterr().err.count("\n") == 1


@pytest.mark.skipif(os.name != "posix", reason="modes as there")
def test_on_macos_there_is_an_app_in_the_folder_of_the_user(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: Capture
) -> None:
    monkeypatch.setattr(sys, "platform", "darwin")
    monkeypatch.setenv("HOME", str(tmp_path))
    assert add_to_desktop(tmp_path / "unused", english()) == 0
    inside = tmp_path / "Applications/Bead frame.app/Contents"
    info = plistlib.loads((inside / "Info.plist").read_bytes())
    start = inside / "MacOS" / info["CFBundleExecutable"]
    assert os.access(start, os.X_OK)
    assert shlex.split(start.read_text("utf-8").splitlines()[1])[1] == sys.executable
    assert (inside / "Resources" / f"{info['CFBundleIconFile']}.icns").stat().st_size > 1000
    assert [path.name for path in tmp_path.iterdir()] == ["Applications"]
    told = capsys.readouterr().out
    assert add_to_desktop(tmp_path / "unused", english()) == 0
    assert told != capsys.readouterr().out


class PowerShell:
    """Stands for the one of Windows: answers where the shortcut is, or fails."""

    def __init__(self, error: Exception | None = None) -> None:
        self.error = error
        self.asked: list[tuple[str, ...]] = []

    def __call__(self, run: tuple[str, ...], **how: object) -> subprocess.CompletedProcess[str]:
        self.asked.append(run)
        if self.error:
            raise self.error
        return subprocess.CompletedProcess(run, 0, "C:\\Start\\Bead frame.lnk\r\n", "")


def test_on_windows_powershell_makes_a_shortcut_with_an_icon(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, capsys: Capture
) -> None:
    powershell = PowerShell()
    monkeypatch.setattr(sys, "platform", "win32")
    monkeypatch.setattr(subprocess, "run", powershell)
    assert add_to_desktop(tmp_path / "bead-frame", english()) == 0
    icon = tmp_path / "bead-frame/bead-frame.ico"
    assert icon.read_bytes()[22:].startswith(b"\x89PNG")
    (asked,) = powershell.asked
    assert asked[0] == "powershell" and f"'{icon},0'" in asked[-1] and sys.executable in asked[-1]
    assert "C:\\Start\\Bead frame.lnk\n" in capsys.readouterr().out


@pytest.mark.parametrize(
    "error", [FileNotFoundError(2, "none"), subprocess.CalledProcessError(1, "powershell")]
)
def test_where_windows_makes_no_shortcut_it_is_said(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, error: Exception
) -> None:
    monkeypatch.setattr(sys, "platform", "win32")
    monkeypatch.setattr(subprocess, "run", PowerShell(error))
    with pytest.raises(Refusal) as refused:
        add_to_desktop(tmp_path, english())
    assert refused.value.expected == english().text("cli.desktop.shortcut")
    assert list(tmp_path.iterdir()) == []


@pytest.mark.parametrize("arguments", [["--desktop", "measure"], ["--desktop", "code", "--forget"]])
def test_it_stands_alone(arguments: list[str], capsys: Capture) -> None:
    assert main(arguments) == 2
    assert "--desktop alone" in capsys.readouterr().err


def test_a_bundle_names_what_is_in_it() -> None:
    info = plistlib.loads(bundle_info(program("python"), "0.1.0"))
    assert info["CFBundleExecutable"] == info["CFBundleIconFile"] == "bead-frame"
    assert info["CFBundleName"] == "Bead frame"
    assert info["CFBundleShortVersionString"] == "0.1.0"


@pytest.mark.skipif(os.name != "posix", reason="a shell as there")
@pytest.mark.parametrize("path", AWKWARD)
def test_a_bundle_starts_the_program_wherever_it_is(path: str) -> None:
    first, second, rest = launcher((path, "-m", "frame.cli")).split("\n", 2)
    assert first == "#!/bin/sh"
    assert shlex.split(second) == ["exec", path, "-m", "frame.cli"]
    assert rest == ""


def test_icons_hold_their_pictures() -> None:
    icon = apple_icon({256: b"large", 128: b"small"})
    assert icon[:4] == b"icns" and struct.unpack(">I", icon[4:8]) == (len(icon),)
    parts, at = {}, 8
    while at < len(icon):
        (length,) = struct.unpack(">I", icon[at + 4 : at + 8])
        parts[icon[at : at + 4]] = icon[at + 8 : at + length]
        at += length
    assert parts == {b"ic08": b"large", b"ic07": b"small"}
    of_windows = windows_icon(b"picture")
    length, start = struct.unpack("<II", of_windows[14:22])
    assert of_windows[start : start + length] == b"picture" == of_windows[start:]


@pytest.mark.parametrize("quote", "'‘’‚‛")
def test_a_shortcut_takes_every_path_as_a_text(quote: str) -> None:
    """PowerShell takes each of these for the end of a text unless it stands there twice."""
    path = rf"C:\Otter{quote}s $files\pythonw.exe"
    script = shortcut_script(program(path, "-P", "-m", "frame.cli"), r"C:\icon.ico")
    doubled = path.replace(quote, 2 * quote)
    assert f"$link.TargetPath = '{doubled}'; " in script
    assert "$link.Arguments = '-P -m frame.cli'; " in script
    assert r"$link.IconLocation = 'C:\icon.ico,0'; " in script
    assert "'Bead frame.lnk'" in script
    assert script.index("$link.Save()") > script.index("$link.Description")

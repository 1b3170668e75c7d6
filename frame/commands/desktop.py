"""`--desktop`: the program stands in the menu of this user's desktop, with its icon."""

import io
import os
import subprocess
import sys
from collections.abc import Sequence
from contextlib import suppress
from pathlib import Path
from typing import NamedTuple

import pygame

from frame import __version__
from frame.app import APP_ID
from frame.commands.entries import (
    APPLE_KINDS,
    WINDOWS_SIZE,
    Program,
    apple_icon,
    bundle_info,
    desktop_entry,
    launcher,
    shortcut_script,
    windows_icon,
)
from frame.commands.output import Refusal
from frame.language.catalogue import Words
from frame.language.escaping import escaped
from frame.resources import ASSETS
from frame.view.pictures import Pictures

_ICON = ASSETS / "pictures" / "icon.svg"
_SIZES = (48, 256)
_TO_READ, _TO_RUN = 0o644, 0o755


class _File(NamedTuple):
    path: Path
    data: bytes
    mode: int = _TO_READ

    @property
    def is_there(self) -> bool:
        try:
            return self.path.read_bytes() == self.data
        except OSError:
            return False


def add_to_desktop(data_folder: Path, words: Words) -> int:
    """Where the desktop looks for programs of this user it finds this one from now on; what was
    done goes to standard output. `data_folder` is that of the program. 0. Raises Refusal where
    nothing can be written there, and then nothing is."""
    program = Program(
        words.text("app.title"), APP_ID, words.text("cli.desktop.comment"), _command()
    )
    if sys.platform == "win32":
        place, is_new = _add_shortcut(program, data_folder / f"{APP_ID}.ico", words)
    else:
        files = (
            _bundle(program) if sys.platform == "darwin" else _entry(program, data_folder.parent)
        )
        place = str(files[-1].path)
        is_new = _put(files, words)
    print(words.text("cli.desktop.done" if is_new else "cli.desktop.there", file=escaped(place)))
    return 0


def _command() -> tuple[str, ...]:
    """What starts the window in whatever folder, without a console where there would be one."""
    python = Path(sys.executable)
    silent = python.with_name("pythonw.exe")
    if sys.platform == "win32" and silent.exists():
        python = silent
    return str(python), "-P", "-m", "frame.cli"


def _entry(program: Program, base: Path) -> list[_File]:
    icons = base / "icons" / "hicolor"
    pictures = [_File(icons / f"{n}x{n}" / "apps" / f"{APP_ID}.png", _png(n)) for n in _SIZES]
    entry = desktop_entry(program).encode("utf-8", "surrogateescape")
    return [
        _File(icons / "scalable" / "apps" / f"{APP_ID}.svg", _ICON.read_bytes()),
        *pictures,
        _File(base / "applications" / f"{APP_ID}.desktop", entry),
    ]


def _bundle(program: Program) -> list[_File]:
    inside = Path.home() / "Applications" / f"{program.name}.app" / "Contents"
    start = launcher(program.command).encode("utf-8", "surrogateescape")
    icon = apple_icon({size: _png(size) for size in APPLE_KINDS})
    return [
        _File(inside / "Resources" / f"{APP_ID}.icns", icon),
        _File(inside / "MacOS" / APP_ID, start, _TO_RUN),
        _File(inside / "Info.plist", bundle_info(program, __version__)),
    ]


def _add_shortcut(program: Program, icon: Path, words: Words) -> tuple[str, bool]:
    """Where the shortcut is, which is written anew each time. Raises Refusal."""
    is_new = _put([_File(icon, windows_icon(_png(WINDOWS_SIZE)))], words)
    script = (
        f"[Console]::OutputEncoding = [Text.Encoding]::UTF8; {shortcut_script(program, str(icon))}"
    )
    run = ("powershell", "-NoProfile", "-NonInteractive", "-Command", script)
    try:
        done = subprocess.run(run, capture_output=True, text=True, encoding="utf-8", check=True)
    except (OSError, subprocess.CalledProcessError) as error:
        if is_new:
            icon.unlink(missing_ok=True)
        found = words.text("cli.desktop.no_shortcut")
        raise Refusal("PowerShell", found, words.text("cli.desktop.shortcut")) from error
    return done.stdout.strip(), True


def _png(size: int) -> bytes:
    file = io.BytesIO()
    pygame.image.save(Pictures(_ICON.parent).get(_ICON.stem, size), file, "icon.png")
    return file.getvalue()


def _put(files: Sequence[_File], words: Words) -> bool:
    """Write what is not there as it should be; whether there was any. Raises Refusal, and then
    nothing was changed."""
    missing = [one for one in files if not one.is_there]
    undo: list[Path] = []
    try:
        fresh = [(_write_beside(one, undo), one.path) for one in missing]
        for part, path in fresh:
            is_new = not os.path.lexists(path)
            part.replace(path)
            if is_new:
                undo.append(path)
    except OSError as error:
        for path in reversed(undo):
            with suppress(OSError):
                path.rmdir() if path.is_dir() else path.unlink()
        where = str(error.filename or files[-1].path)
        expected = words.text("cli.desktop.writable")
        raise Refusal(where, error.strerror or str(error), expected) from error
    return bool(missing)


def _write_beside(file: _File, undo: list[Path]) -> Path:
    """The file under another name, whole; `undo` notes what is made for it. Raises OSError."""
    if file.path.is_dir():
        raise IsADirectoryError(21, "Is a directory", str(file.path))
    folders = [one for one in file.path.parents if not os.path.lexists(one)]
    for folder in reversed(folders):
        folder.mkdir()
        undo.append(folder)
    part = file.path.with_name(f".{file.path.name}.part-{os.getpid()}")
    undo.append(part)
    part.write_bytes(file.data)
    part.chmod(file.mode)
    return part

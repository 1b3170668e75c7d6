"""What desktops read of a program: an entry, an icon, a shortcut, a bundle; as text and bytes."""

import plistlib
import re
import shlex
import struct
from collections.abc import Mapping, Sequence
from pathlib import PureWindowsPath
from typing import NamedTuple

APPLE_KINDS = {128: b"ic07", 256: b"ic08", 512: b"ic09"}
"""What a bundle's icon calls pictures of these sizes."""
WINDOWS_SIZE = 256

_RESERVED = re.compile(r"[ \t\n\"'\\><~|&;$*?#()`]")
"""What an argument may have only in quotes: Desktop Entry Specification 1.5, "The Exec key"."""
_ESCAPED_IN_QUOTES = re.compile(r'(["`$\\])')
_ESCAPES = str.maketrans({"\\": "\\\\", "\n": "\\n", "\t": "\\t", "\r": "\\r"})
_BY_SHELL = ("/bin/sh", "-c", 'exec "$0" "$@"')


class Program(NamedTuple):
    """What is started: by what name and id desktops know it, what is said of it, and how."""

    name: str
    id: str
    comment: str
    command: tuple[str, ...]


def desktop_entry(program: Program) -> str:
    """The entry of a menu, by the Desktop Entry Specification 1.5."""
    command = program.command
    if "=" in command[0]:  # Which a program's path may not have there.
        command = (*_BY_SHELL, *command)
    keys = {
        "Type": "Application",
        "Name": _string(program.name),
        "Comment": _string(program.comment),
        "Exec": _string(" ".join(map(_argument, command))),
        "Icon": program.id,
        "Terminal": "false",
        "Categories": "Education;",
        "StartupWMClass": program.id,
    }
    return "\n".join(["[Desktop Entry]", *(f"{key}={value}" for key, value in keys.items()), ""])


def _argument(text: str) -> str:
    """An argument as an Exec key has it, before what every string is escaped by."""
    text = text.replace("%", "%%")
    if text and not _RESERVED.search(text):
        return text
    return '"' + _ESCAPED_IN_QUOTES.sub(r"\\\1", text) + '"'


def _string(text: str) -> str:
    escaped = text.translate(_ESCAPES)
    return "\\s" + escaped[1:] if escaped.startswith(" ") else escaped


def shortcut_script(program: Program, icon: str) -> str:
    """What PowerShell does to put a shortcut into the Start menu."""
    target, *arguments = program.command
    given = {
        "TargetPath": target,
        "Arguments": " ".join(map(_windows_argument, arguments)),
        "WorkingDirectory": str(PureWindowsPath(target).parent),
        "IconLocation": f"{icon},0",
        "Description": program.comment,
    }
    name = _powershell(f"{program.name}.lnk")
    return "; ".join(
        [
            "$ErrorActionPreference = 'Stop'",
            f"$path = Join-Path ([Environment]::GetFolderPath('Programs')) {name}",
            "$link = (New-Object -ComObject WScript.Shell).CreateShortcut($path)",
            *(f"$link.{key} = {_powershell(value)}" for key, value in given.items()),
            "$link.Save()",
            "$path",
        ]
    )


def _powershell(text: str) -> str:
    """A text in single quotes, of which PowerShell takes several kinds for one."""
    return "'" + re.sub("(['‘’‚‛])", r"\1\1", text) + "'"


def _windows_argument(text: str) -> str:
    return f'"{text}"' if " " in text else text


def bundle_info(program: Program, version: str) -> bytes:
    """The Info.plist of a bundle, whose launcher and icon are called by the program's id."""
    return plistlib.dumps(
        {
            "CFBundleName": program.name,
            "CFBundleDisplayName": program.name,
            "CFBundleIdentifier": f"local.{program.id}",
            "CFBundleExecutable": program.id,
            "CFBundleIconFile": program.id,
            "CFBundlePackageType": "APPL",
            "CFBundleShortVersionString": version,
            "CFBundleVersion": version,
            "LSApplicationCategoryType": "public.app-category.education",
            "NSHighResolutionCapable": True,
        }
    )


def launcher(command: Sequence[str]) -> str:
    """The script that a bundle starts."""
    return f"#!/bin/sh\nexec {shlex.join(command)}\n"


def apple_icon(pictures: Mapping[int, bytes]) -> bytes:
    """The icon of a bundle, of PNG files by their size, each one of `APPLE_KINDS`."""
    parts = [(APPLE_KINDS[size], png) for size, png in pictures.items()]
    body = b"".join(kind + struct.pack(">I", len(png) + 8) + png for kind, png in parts)
    return b"icns" + struct.pack(">I", len(body) + 8) + body


def windows_icon(png: bytes) -> bytes:
    """The icon of a shortcut, of one PNG file of `WINDOWS_SIZE`, for which it writes a nought."""
    head = struct.pack("<HHH", 0, 1, 1)
    entry = struct.pack("<BBBBHHII", 0, 0, 0, 0, 1, 32, len(png), len(head) + 16)
    return head + entry + png

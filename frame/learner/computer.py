"""What belongs to this computer and to no learner: its settings, the grown-ups' code, the board's
plan, the class, the folder shared with others, what was chosen last, how large the window was."""

import json
import re
from enum import StrEnum
from pathlib import Path

from frame.learner.datafile import DataFile
from frame.learner.ids import new_id
from frame.learner.lock_code import Seal, read_seal, seal_of
from frame.learner.settings import Settings, settings_from, settings_to, stored_object

_SIZE = re.compile("([1-9][0-9]{2,4})x([1-9][0-9]{2,4})")


class Pasted(StrEnum):
    """How a pasted column of numbers is read: added up, or each number for itself."""

    SUM = "sum"
    LIST = "list"


class ComputerFile(DataFile):
    """The open file, as far as it is the computer's. What can't be read in it counts as not kept;
    what can't be written raises StoreError."""

    def computer(self) -> Settings:
        """The computer's settings, which the first screen and the board have, and with which a
        newcomer begins."""
        return settings_from(stored_object(self._kept("settings")))

    def save_computer(self, settings: Settings) -> None:
        """Keep the computer's settings."""
        self._keep("settings", json.dumps(settings_to(settings)))

    def has_code(self) -> bool:
        """Whether an adult has set a code. It keeps children out, not thieves."""
        return self._seal() is not None

    def set_code(self, code: str) -> None:
        """Set the grown-ups' code, in place of one before. Raises ValueError for other than four
        digits."""
        self._keep("code", str(seal_of(code)))

    def is_code(self, code: str) -> bool:
        """Whether this is the code; it may be tried as often as one likes, about 50 ms each."""
        seal = self._seal()
        return seal is not None and seal.fits(code)

    def forget_code(self) -> None:
        """From now on there is no code."""
        self._keep("code", None)

    def kept_plan(self) -> str | None:
        """The board's plan, as the board wrote it."""
        return self._kept("plan")

    def keep_plan(self, plan: str | None) -> None:
        """Keep the board's plan; None for none."""
        self._keep("plan", plan)

    def kept_class(self) -> str | None:
        """The class, as `class_kept` wrote it."""
        return self._kept("class")

    def keep_class(self, text: str | None) -> None:
        """Keep the class; None for none."""
        self._keep("class", text)

    def computer_id(self) -> str:
        """An id of this file, which no other has that was not copied from it."""
        kept = self._kept("id")
        if kept is None:
            kept = new_id()
            self._keep("id", kept)
        return kept

    def shared_folder(self) -> Path | None:
        """The folder that this computer shares with others; None for none."""
        kept = self._kept("shared")
        return Path(kept) if kept else None

    def share_in(self, folder: Path | None) -> None:
        """Share this folder with others; None for none. What of another was seen counts no more."""
        self._keep("shared", str(folder) if folder else None)
        self._keep("seen", None)

    def shared_seen(self) -> dict[str, tuple[int, int]]:
        """The files of others that were taken in, each with its time and size."""
        kept = stored_object(self._kept("seen") or "")
        return {
            name: (stamp[0], stamp[1])
            for name, stamp in kept.items()
            if isinstance(stamp, list) and [type(one) for one in stamp] == [int, int]
        }

    def keep_shared_seen(self, name: str, stamp: tuple[int, int]) -> None:
        """A file of another computer was taken in as it is."""
        self._keep("seen", json.dumps({**self.shared_seen(), name: stamp}))

    def pasted(self) -> Pasted | None:
        """How a pasted column is read; None where that is asked each time."""
        value = self._kept("pasted")
        return Pasted(value) if value in [one.value for one in Pasted] else None

    def keep_pasted(self, pasted: Pasted | None) -> None:
        """Keep how a pasted column is read; None to be asked each time."""
        self._keep("pasted", pasted)

    def window(self) -> tuple[int, int] | None:
        """How wide and high the window was when it was closed, in pixels; None where that is not
        known."""
        found = _SIZE.fullmatch(self._kept("window") or "")
        return (int(found[1]), int(found[2])) if found else None

    def keep_window(self, size: tuple[int, int]) -> None:
        """Keep how wide and high the window is."""
        if size != self.window():
            self._keep("window", "{}x{}".format(*size))

    def _seal(self) -> Seal | None:
        return read_seal(self._kept("code") or "")

    def _kept(self, name: str) -> str | None:
        rows = self._rows("SELECT value FROM computer WHERE name = ?", (name,))
        value = next((value for (value,) in rows), None)
        return value if isinstance(value, str) else None

    def _keep(self, name: str, value: str | None) -> None:
        with self._writing() as database:
            database.execute("DELETE FROM computer WHERE name = ?", (name,))
            if value is not None:
                database.execute("INSERT INTO computer VALUES (?, ?)", (name, value))

"""The tutor's own agendas, to be put on the board."""

from pathlib import Path

from frame.app import Change, Pop
from frame.course.agenda import SUFFIXES, SUMS
from frame.course.own import OwnAgenda, read_own_agenda
from frame.resources import ASSETS
from frame.screens.parts.own_files import Kind, OwnFiles

AGENDAS = Kind(
    "agendas", ASSETS / "words" / "agenda-template.en.yaml", "my-agenda", "agendas",
    (*SUFFIXES, SUMS),
)  # fmt: skip


class Agendas(OwnFiles[OwnAgenda]):
    """The board below gets the one that is chosen."""

    kind = AGENDAS

    def read(self, path: Path) -> OwnAgenda:
        """An agenda, or a column of sums, with its problems."""
        return read_own_agenda(path)

    def choose(self, own: OwnAgenda) -> Change:
        """Back to the board with it."""
        return Pop(own)

"""The lock before what grown-ups set: a code, which they set at the first use."""

from frame.app import Change, Replace, Screen
from frame.learner.store import Store
from frame.room import Room
from frame.screens.choosing.code import CodePad, NewCode
from frame.screens.choosing.settings import SettingsScreen


class Lock(CodePad):
    """Asks for the code; the right one opens the settings."""

    def __init__(self, room: Room) -> None:
        super().__init__(room, "code.ask")

    @property
    def notes(self) -> tuple[str, ...]:
        """Also what to do where it is forgotten."""
        return (*super().notes, "code.forgotten")

    def give(self, code: str) -> Change | None:
        """Open the settings, or ask again."""
        if self.room.keeper.read(lambda store: store.is_code(code), False):
            return Replace(SettingsScreen(self.room))
        self.ask("code.wrong")
        return None


def for_grown_ups(room: Room) -> Screen:
    """What leads to the settings."""
    if room.keeper.read(Store.has_code, True):
        return Lock(room)
    return NewCode(room, Replace(SettingsScreen(room)))

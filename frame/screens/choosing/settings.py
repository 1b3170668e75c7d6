"""Settings, for grown-ups: how it looks and sounds, and what the school does."""

from collections.abc import Callable
from dataclasses import dataclass

import pygame

from frame.app import Change, Pop, Push
from frame.learner.settings import Age, Down, Look, Volume
from frame.room import Room
from frame.screens.board.screen import BoardScreen
from frame.screens.choosing.classroom import ClassroomScreen
from frame.screens.parts.panel import Panel
from frame.technique.conventions import Carry, First, Layout, Outer, Remove, Strictness
from frame.view.widgets import Brushes, Button, Style

_ON_OFF = (("settings.on", True), ("settings.off", False))


@dataclass(frozen=True, slots=True)
class Row:
    """One setting: its name, the words for it, and each choice with its words; `note` is for a
    sentence at the foot of its page."""

    name: str
    key: str
    choices: tuple[tuple[str, object], ...]
    note: str = ""


ROWS = (
    Row("age", "settings.age", (
        ("who.age_young", Age.YOUNG), ("who.age_middle", Age.MIDDLE),
        ("who.age_older", Age.OLDER))),
    Row("look", "settings.theme", (
        ("settings.theme_light", Look.LIGHT), ("settings.theme_dark", Look.DARK),
        ("settings.theme_high_contrast", Look.HIGH_CONTRAST))),
    Row("volume", "settings.sound", (
        ("settings.off", Volume.OFF), ("settings.volume_quiet", Volume.QUIET),
        ("settings.volume_normal", Volume.NORMAL))),
    Row("reduced_motion", "settings.beads_glide", (("settings.on", False), ("settings.off", True))),
    Row("bead_tint", "settings.bead_tint", _ON_OFF),
    Row("place_names", "settings.place_names", _ON_OFF),
    Row("letter_keys", "settings.letter_keys", _ON_OFF),
    Row("left_handed", "settings.left_handed", _ON_OFF),
    Row("strictness", "settings.strictness", (
        ("settings.strictness_answer", Strictness.ANSWER),
        ("settings.strictness_beads", Strictness.BEADS),
        ("settings.strictness_order", Strictness.ORDER))),
    Row("carry", "settings.carry", (
        ("settings.carry_last", Carry.LAST), ("settings.carry_first", Carry.FIRST))),
    Row("remove", "settings.remove", (
        ("settings.remove_run", Remove.RUN), ("settings.remove_pinch", Remove.PINCH))),
    Row("marks_every", "settings.unit_marks", (
        ("settings.unit_marks_three", 3), ("settings.unit_marks_four", 4))),
    Row("all_open", "settings.all_open", _ON_OFF),
    Row("layout", "settings.operands", (
        ("settings.operands_both", Layout.BOTH), ("settings.operands_one", Layout.ONE),
        ("settings.operands_none", Layout.NONE))),
    Row("outer", "settings.outer", (
        ("settings.outer_multiplicand", Outer.MULTIPLICAND),
        ("settings.outer_multiplier", Outer.MULTIPLIER))),
    Row("first", "settings.first", (
        ("settings.first_highest", First.HIGHEST), ("settings.first_lowest", First.LOWEST)),
        note="settings.products_note"),
    Row("voice", "settings.voice", _ON_OFF),
    Row("ladder_up_after", "settings.up_after", (
        ("settings.up_after_6", 6), ("settings.up_after_10", 10), ("settings.up_after_15", 15))),
    Row("ladder_share", "settings.share", (
        ("settings.share_80", 0.8), ("settings.share_85", 0.85), ("settings.share_95", 0.95))),
    Row("ladder_down", "settings.down", (
        ("settings.down_two", Down.TWO_OF_THREE), ("settings.down_three", Down.THREE_OF_FOUR),
        ("settings.down_never", Down.NEVER))),
    Row("eyes_shut", "settings.eyes_shut", _ON_OFF),
    Row("quick_flash", "settings.quick_flash", _ON_OFF, note="settings.quick_flash_caution"),
)  # fmt: skip
"""Every setting in the order shown."""

_PAGES = ((0, 7), (7, 13), (13, 16), (16, len(ROWS)))
"""The first row of each page, and the one after its last."""
_MOST_WIDE_ROWS = 6
"""How many rows stand wide apart on a page."""


class SettingsScreen(Panel):
    """Rows of choices, a page at a time, and the place where a learner is removed."""

    def __init__(self, room: Room) -> None:
        super().__init__(room)
        self.page = 0
        self.asks = False

    @property
    def pages(self) -> int:
        """How many pages there are; the last one is about the learner."""
        return len(_PAGES) + 1

    @property
    def rows(self) -> tuple[Row, ...]:
        """The rows on the page shown."""
        first, beyond = _PAGES[self.page] if self.page < len(_PAGES) else (0, 0)
        return ROWS[first:beyond]

    @property
    def notes(self) -> tuple[str, ...]:
        """What is said at the foot of the page shown."""
        return tuple(row.note for row in self.rows if row.note)

    def arrange(self) -> None:
        """A row of choices for each setting, and the way to the other pages."""
        for index, row in enumerate(self.rows):
            self._arrange_row(row, self._row_place(index))
        if not self.rows:
            self._arrange_learner()
        width = (self.across - 24 + 2) / self.pages - 2
        for page in range(self.pages):
            place = self.rect(12 + page * (width + 2), 80, width, 6.5)
            text = self.room.words.text(f"settings.page_{page + 1}")
            act = self._turner(page)
            chosen = page == self.page
            self.buttons.append(Button(place, act, text, style=Style.TAB, step=0, chosen=chosen))

    def _turner(self, page: int) -> Callable[[], None]:
        def turn() -> None:
            self.page, self.asks = page, False
            self.rearrange()

        return turn

    def _row_place(self, index: int) -> pygame.Rect:
        is_close = self.notes or len(self.rows) > _MOST_WIDE_ROWS
        apart, height = (8.8, 7) if is_close else (10.3, 8)
        return self.rect(12, 16 + index * apart, self.across - 24, height)

    def _arrange_row(self, row: Row, place: pygame.Rect) -> None:
        gap = round(self.unit)
        choices = pygame.Rect(place.left + round(place.w * 0.32), place.top, 0, place.h)
        choices.w = place.right - choices.left
        width = (choices.w - 2 * gap) // 3
        for index, (key, value) in enumerate(row.choices):
            at = pygame.Rect(choices.left + index * (width + gap), place.top, width, place.h)
            chosen = getattr(self.room.settings, row.name) == value
            self.buttons.append(
                Button(
                    at, self._setter(row.name, value), self.room.words.text(key),
                    style=Style.CHOICE, step=0, chosen=chosen, bold=chosen,
                )
            )  # fmt: skip

    def _setter(self, name: str, value: object) -> Callable[[], None]:
        def change() -> None:
            self.room.set(**{name: value})
            self.rearrange()

        return change

    def _arrange_learner(self) -> None:
        words, learner = self.room.words, self.room.learner
        classroom = self.rect(12, 64, (self.across - 24) * 0.5, 9)
        self.buttons.append(Button(classroom, self._open_room, words.text("classroom.title")))
        board = classroom.move(classroom.w + round(2 * self.unit), 0)
        board.w = self.rect(0, 0, self.across - 12, 1).right - board.left
        self.buttons.append(Button(board, self._open_board, words.text("sign.board")))
        if learner is None:
            return
        ask = self.rect(12, 34, (self.across - 24) * 0.5, 9)
        if not self.asks:
            text = words.text("who.remove", name=learner.nickname)
            self.buttons.append(Button(ask, self._ask, text))
            return
        half = (self.across - 26) / 2
        keep = self.rect(12, 46, half, 9)
        remove = self.rect(14 + half, 46, half, 9)
        self.buttons.append(Button(keep, self._keep, words.text("who.remove_no"), style=Style.MAIN))
        self.buttons.append(Button(remove, self._remove, words.text("who.remove_yes")))

    def _open_board(self) -> Change:
        return Push(BoardScreen(self.room))

    def _open_room(self) -> Change:
        return Push(ClassroomScreen(self.room))

    def _ask(self) -> None:
        self.asks = True
        self.rearrange()

    def _keep(self) -> None:
        self.asks = False
        self.rearrange()

    def _remove(self) -> Change | None:
        learner = self.room.learner
        if learner is None:
            return None
        self.room.leave()
        self.room.store.remove_learner(learner)
        return Pop()

    def paint_rest(self, brushes: Brushes) -> None:
        """The title and the names of the settings."""
        words = self.room.words
        title = self.rect(12, 4, self.across - 24, 8)
        brushes.text(words.text("settings.title"), title, 2, bold=True)
        for index, row in enumerate(self.rows):
            place = self._row_place(index)
            label = pygame.Rect(place.left, place.top, round(place.w * 0.3), place.h)
            brushes.text(words.text(row.key), label, 1)
        for note in self.notes:
            brushes.text(words.text(note), self.rect(12, 69, self.across - 24, 9), 0)
        learner = self.room.learner
        if not self.rows and learner is not None:
            self._paint_learner(brushes)

    def _paint_learner(self, brushes: Brushes) -> None:
        learner, words = self.room.learner, self.room.words
        assert learner is not None
        key = "who.remove_ask" if self.asks else "settings.kept_here"
        text = words.text(key, name=learner.nickname)
        brushes.text(text, self.rect(12, 17, self.across - 24, 14), 1)

"""Settings, for grown-ups: how it looks and sounds, and what the school does."""

from collections.abc import Callable
from dataclasses import dataclass

from frame.app import Change, Pop, Push
from frame.learner.settings import Age, Down, Look, Volume
from frame.learner.store import Learner
from frame.room import Room
from frame.screens.board.screen import BoardScreen
from frame.screens.choosing.classroom import ClassroomScreen
from frame.screens.parts.dials import Dial, DialPage
from frame.screens.parts.page import abreast
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


class SettingsScreen(DialPage):
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
    def settings(self) -> tuple[Row, ...]:
        """What is set on the page shown."""
        first, beyond = _PAGES[self.page] if self.page < len(_PAGES) else (0, 0)
        return ROWS[first:beyond]

    @property
    def notes(self) -> tuple[str, ...]:
        """What is said at the foot of the page shown."""
        return tuple(one.note for one in self.settings if one.note)

    def arrange(self) -> None:
        """The rows, or what is about the learner, and the way to the other pages."""
        super().arrange()
        if not self.settings:
            self._arrange_learner()
        for page, place in enumerate(abreast(self.band(80, 6.5), self.pages, 2 * self.unit)):
            text = self.room.words.text(f"settings.page_{page + 1}")
            self.buttons.append(
                Button(
                    place, self._turner(page), text, style=Style.TAB, step=0,
                    chosen=page == self.page,
                )
            )  # fmt: skip

    def _turner(self, page: int) -> Callable[[], None]:
        def turn() -> None:
            self.page, self.asks = page, False
            self.rearrange()

        return turn

    def rows(self) -> tuple[Dial, ...]:
        """A row of choices for each setting."""
        is_close = self.notes or len(self.settings) > _MOST_WIDE_ROWS
        self.first_row, self.apart, self.high = (16, 8.8, 7) if is_close else (16, 10.3, 8)
        text = self.room.words.text
        return tuple(
            self.pick(text(one.key), one.name, [(text(key), value) for key, value in one.choices])
            for one in self.settings
        )

    def _arrange_learner(self) -> None:
        words, learner = self.room.words, self.room.learner
        classroom, board = abreast(self.band(64, 9), 2, 2 * self.unit)
        self.buttons += [
            Button(classroom, self._open_room, words.text("classroom.title")),
            Button(board, self._open_board, words.text("sign.board")),
        ]
        if learner is None:
            return
        if not self.asks:
            ask = abreast(self.band(34, 9), 2, 2 * self.unit)[0]
            text = words.text("who.remove", name=learner.nickname)
            self.buttons.append(Button(ask, self._ask, text))
            return
        keep, remove = abreast(self.band(46, 9), 2, 2 * self.unit)
        self.buttons += [
            Button(keep, self._keep, words.text("who.remove_no"), style=Style.MAIN),
            Button(remove, self._remove, words.text("who.remove_yes")),
        ]

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
        """The title, the names of the settings, notes."""
        words = self.room.words
        self.paint_title(brushes, words.text("settings.title"))
        self.paint_rows(brushes)
        for note in self.notes:
            brushes.text(words.text(note), self.band(69, 9), 0)
        if not self.settings and self.room.learner is not None:
            self._paint_learner(brushes, self.room.learner)

    def _paint_learner(self, brushes: Brushes, learner: Learner) -> None:
        key = "who.remove_ask" if self.asks else "settings.kept_here"
        text = self.room.words.text(key, name=learner.nickname)
        brushes.text(text, self.band(17, 14), 1)

"""What a grown-up can set, a section a page."""

from dataclasses import dataclass

from frame.learner.settings import Age, ByAge, Down, Look, Volume
from frame.technique.conventions import Carry, First, Operands, Outer, Remove, Strictness

USUAL_MINUTES = "settings.today_usual"
"""The words that tell how many minutes go by age."""

_ON_OFF = (("settings.on", True), ("settings.off", False))
_BY_AGE = (
    ("settings.by_age", ByAge.BY_AGE), ("settings.on", ByAge.ON), ("settings.off", ByAge.OFF),
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class Row:
    """One setting: its name, the words for it, and each choice with its words."""

    name: str
    key: str
    choices: tuple[tuple[str, object], ...]


@dataclass(frozen=True, slots=True)
class Section:
    """A page of settings: the words for its name and for the sentence at its foot, if any."""

    key: str
    rows: tuple[Row, ...] = ()
    note: str = ""


SECTIONS = (
    Section("settings.page_1", (
        Row("age", "settings.age", (
            ("who.age_young", Age.YOUNG), ("who.age_middle", Age.MIDDLE),
            ("who.age_older", Age.OLDER))),
        Row("look", "settings.theme", (
            ("settings.theme_light", Look.LIGHT), ("settings.theme_dark", Look.DARK),
            ("settings.theme_high_contrast", Look.HIGH_CONTRAST))),
        Row("volume", "settings.sound", (
            ("settings.off", Volume.OFF), ("settings.volume_quiet", Volume.QUIET),
            ("settings.volume_normal", Volume.NORMAL))),
        Row("reduced_motion", "settings.beads_glide", (
            ("settings.on", False), ("settings.off", True))),
        Row("bead_tint", "settings.bead_tint", _ON_OFF),
        Row("place_names", "settings.place_names", _ON_OFF),
        Row("letter_keys", "settings.letter_keys", _ON_OFF),
    )),
    Section("settings.page_2", (
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
        Row("things", "settings.things", _BY_AGE),
    )),
    Section("settings.page_3", (
        Row("layout", "settings.operands", (
            ("settings.operands_both", Operands.BOTH), ("settings.operands_one", Operands.ONE),
            ("settings.operands_none", Operands.NONE))),
        Row("outer", "settings.outer", (
            ("settings.outer_multiplicand", Outer.MULTIPLICAND),
            ("settings.outer_multiplier", Outer.MULTIPLIER))),
        Row("first", "settings.first", (
            ("settings.first_highest", First.HIGHEST), ("settings.first_lowest", First.LOWEST))),
    ), "settings.products_note"),
    Section("settings.page_4", (
        Row("voice", "settings.voice", _ON_OFF),
        Row("reads_out", "settings.reads_out", _BY_AGE),
        Row("ladder_up_after", "settings.up_after", (
            ("settings.up_after_6", 6), ("settings.up_after_10", 10),
            ("settings.up_after_15", 15))),
        Row("ladder_share", "settings.share", (
            ("settings.share_80", 0.8), ("settings.share_85", 0.85), ("settings.share_95", 0.95))),
        Row("ladder_down", "settings.down", (
            ("settings.down_two", Down.TWO_OF_THREE), ("settings.down_three", Down.THREE_OF_FOUR),
            ("settings.down_never", Down.NEVER))),
        Row("today_minutes", "settings.today", (
            (USUAL_MINUTES, 0), ("settings.today_5", 5), ("settings.today_10", 10),
            ("settings.today_15", 15), ("settings.today_20", 20))),
        Row("eyes_shut", "settings.eyes_shut", _ON_OFF),
    )),
)  # fmt: skip
"""What each learner has, and for the board and for newcomers the computer."""

LEARNER = Section("settings.page_5")
"""About who is here."""

COMPUTER = Section(
    "settings.page_6",
    (Row("quick_flash", "settings.quick_flash", _ON_OFF),),
    "settings.quick_flash_caution",
)
"""What the computer has, whoever is here."""

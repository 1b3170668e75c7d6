"""A set as it is shown and told: what it asks for, and its picture."""

from dataclasses import dataclass
from functools import partial

from frame.language.lines import Line
from frame.practice.choices import Choices
from frame.practice.drawing import Request
from frame.practice.families import Family
from frame.practice.rungs import Asked, Rung
from frame.room import Room
from frame.screens.lesson.practice import TITLES
from frame.screens.parts.decimals import to_hundredths
from frame.screens.parts.set_card import SetCard, paint_set
from frame.view.widgets import Drawing

_MOST_PICTURED = 3
"""Rods of the small frame: more would not be told apart."""
_PALE = {Rung.PALE: 0.6, Rung.TRACES: 0.35, Rung.COVERED: 0.35, Rung.NUMBER: 0.35}
_SIGNS = {
    Family.READ: "icon-eye",
    Family.SET: "icon-hand",
    Family.MULTIPLY: "icon-times",
    Family.DIVIDE: "icon-over",
    Family.DECIMALS: "icon-point",
    Family.BELOW_ZERO: "icon-minus",
    Family.ROOT: "icon-root",
    Family.COLUMNS: "icon-plus",
}
_ASKED = {Asked.CALLED: "icon-speaker", Asked.FLASHED: "icon-flash"}
_SHORT = {Asked.CALLED: "short.called", Asked.FLASHED: "short.flashed"}
_OWN = "icon-own-frame"
_BLANK = SetCard("")


@dataclass(frozen=True, slots=True)
class ShownSet:
    """What a set asks for, the same in a word or two to be read, what it asks more exactly, and its
    picture."""

    title: Line
    short: str
    detail: Line
    card: SetCard

    @property
    def spoken(self) -> str:
        """All of it, as it is heard."""
        return f"{self.title.speak.rstrip('.')}. {self.detail.speak}"


def shown_set(room: Room, choices: Choices) -> ShownSet:
    """The set of these choices, as the ladder stands now."""
    request = choices.request(frozenset(), room.ladder, room.settings.conventions)
    if choices.asked is Asked.SHOWN:
        title = room.words.line(f"family.{choices.beads.family}")
        short = room.words.text(f"short.{choices.beads.family}")
        card = _card_of_beads(choices.beads.family, request)
        return ShownSet(title, short, _beads(room, request), card)
    title = room.words.line(TITLES[choices.asked])
    digits = "12345"[: min(request.digits, _MOST_PICTURED)]
    instead = _OWN if request.own else ""
    card = SetCard(_ASKED[choices.asked], digits, _PALE.get(request.rung, 1.0), instead)
    if choices.asked is Asked.FLASHED:
        card = card._replace(opacity=1.0)
    short = room.words.text(_SHORT[choices.asked])
    return ShownSet(title, short, _numbers(room, request), card)


def unknown_set(room: Room) -> ShownSet:
    """What is shown of a set that can't be read."""
    line, text = room.words.line, room.words.text
    return ShownSet(line("practise.title"), text("short.unknown"), line("practise.unknown"), _BLANK)


def _beads(room: Room, request: Request) -> Line:
    words, rung = room.words, request.rung
    how = words.line("practise.own" if request.own else f"rung.{rung.name}")
    return words.line("practise.set_beads", how=how, digits=request.digits, count=request.count)


def _numbers(room: Room, request: Request) -> Line:
    words, seconds = room.words, to_hundredths(request.pace)
    pace = words.line("practise.gap", seconds=seconds)
    if request.asked is Asked.FLASHED:
        total = to_hundredths(request.pace * request.terms)
        pace = words.line("practise.each", seconds=seconds, total=total)
    return words.line(
        "practise.set_numbers",
        terms=request.terms, digits=request.digits, pace=pace, count=request.count,
    )  # fmt: skip


def _card_of_beads(family: Family, request: Request) -> SetCard:
    """Its operation, and beads as its answers have them: a five, a ten, both."""
    sign = _SIGNS.get(family) or ("icon-plus" if family.startswith("add") else "icon-minus")
    pictured = min(max(1, request.digits), _MOST_PICTURED)
    digits = "12345"[:pictured]
    if family.endswith("-direct"):
        digits = "2" * pictured
    elif family is Family.COLUMNS:
        digits = "9" * max(2, pictured)
    elif "-five" in family or "-ten" in family:
        digits = ("5" if family.endswith("five") else "0") * pictured
        if "-ten" in family:
            digits = f"1{digits}"[:_MOST_PICTURED]
    elif family is Family.BELOW_ZERO:
        digits = "0" * pictured
    return SetCard(sign, digits, _PALE.get(request.rung, 1.0), _OWN if request.own else "")


def drawing_of(room: Room, card: SetCard) -> Drawing:
    """What draws a card."""
    return partial(paint_set, card, room.painter)

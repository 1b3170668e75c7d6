"""A film strip tells why each step is done, as `explain` and the lessons do, and names places."""

from itertools import combinations
from pathlib import Path
from typing import Any

import pygame
import pytest
from each import each_row

from frame.cli import english
from frame.commands import picture as pictures
from frame.commands.picture import CELL_SIZE, Looks, film, picture
from frame.commands.working import Ways, worked
from frame.language.reasons import reason_line
from frame.technique.conventions import USUAL
from frame.technique.reasons import reasons_of
from frame.view.lettering import Lettering
from frame.view.theme import LIGHT

WORDS = english()
WAYS = Ways(USUAL, None, None)
SUMS = ("12 - 30", "0 - 5 - 95", "-5 + 8", "34 x 7", "0.25 x 1.5", "3876 / 68", "7.2 / 3",
        "sqrt 1764", "sqrt 6.25", "38 + 47")  # fmt: skip

Drawn = list[tuple[str, pygame.Rect, list[pygame.Rect]]]
"""Each text with its box and the places of its lines."""


@each_row("text", SUMS)
@each_row("all_steps", [False, True])
def test_every_reason_of_the_work_stands_below_its_step(text: str, all_steps: bool) -> None:
    _, plan = worked(text, WAYS, WORDS)
    told = [reason_line(reason, WORDS).show for reasons in reasons_of(plan) for reason in reasons]
    assert " ".join(filter(None, (cell.note for cell in film(plan, all_steps, WORDS)))) == " ".join(
        told
    )
    assert bool(told) is (text != "38 + 47")


@pytest.mark.parametrize(
    ("text", "notes"),
    [
        # 100 less 82; as the lessons on numbers below zero have it.
        ("12 - 30", {"borrow 100": "100 is borrowed: no bead is set for it.",
                     "−30:  −3 = −10 +7": "82 is 18 short of 100: it reads −18."}),
        # From memory: the example; what decides its digits is worked by hand.
        ("3876 / 68", {"6 to 5:  −1": "48 is more than 27: 6 becomes 5.",
                       "try 7:  +7": "47 ÷ 6: try 7."}),
        ("34 x 7", {"4 × 7 = 28:  +2": "4 × 7 takes the two rods right of the 4."}),
        ("49 + 1", {"+1:  +1 = −9 +10, +1 = +5 −4": ""}),
    ],
)  # fmt: skip
def test_what_a_step_is_told_by(text: str, notes: dict[str, str]) -> None:
    _, plan = worked(text, WAYS, WORDS)
    told = {cell.said: cell.note for cell in film(plan, False, WORDS)}
    assert {said: told[said] for said in notes} == notes


@pytest.fixture
def drawn(monkeypatch: pytest.MonkeyPatch) -> Drawn:
    """All texts of the picture that is painted."""
    texts: Drawn = []

    class Watched(Lettering):
        def __init__(self, fonts: Path) -> None:
            super().__init__(fonts, lambda _, place: texts[-1][2].append(place.copy()))

        def draw(self, surface: Any, text: str, box: pygame.Rect, *rest: Any, **how: Any) -> Any:
            texts.append((text, pygame.Rect(box), []))
            return super().draw(surface, text, box, *rest, **how)

    monkeypatch.setattr(pictures, "Lettering", Watched)
    return texts


def paint(text: str, folder: Path, size: tuple[int, int] | None = None) -> None:
    picture(text, folder / "strip.png", Looks(LIGHT, size), WAYS, False, WORDS)


@pytest.mark.parametrize("text", SUMS)
@pytest.mark.parametrize("size", [None, (1920, 1080), (2560, 900)])
def test_all_texts_fit_their_places_and_none_lies_over_another(
    drawn: Drawn, tmp_path: Path, text: str, size: tuple[int, int] | None
) -> None:
    paint(text, tmp_path, size)
    lines = [(box, place) for _, box, places in drawn for place in places]
    assert lines
    for box, place in lines:
        assert box.inflate(2, 2).contains(place)
    for (_, one), (_, other) in combinations(lines, 2):
        assert not one.inflate(-2, -2).colliderect(other.inflate(-2, -2))


def test_the_note_below_zero_is_painted(drawn: Drawn, tmp_path: Path) -> None:
    paint("12 - 30", tmp_path)
    (note,) = [places for text, _, places in drawn if text.startswith("82 is 18 short of 100")]
    assert note


def names_of(drawn: Drawn) -> list[str]:
    return [text.replace("\u202f", "") for text, _, _ in drawn]


def test_places_are_named_beyond_a_thousand_where_there_is_room(
    drawn: Drawn, tmp_path: Path
) -> None:
    paint("5072", tmp_path)
    assert names_of(drawn)[:5] == ["1", "10", "100", "1000", "10000"]
    drawn.clear()
    paint("5072", tmp_path, (CELL_SIZE[0] // 2, CELL_SIZE[1] // 2))
    assert names_of(drawn) == []


@pytest.mark.parametrize("text", ["34 x 7", "3876 / 68", "sqrt 1764"])
def test_rods_of_operands_have_no_names(drawn: Drawn, tmp_path: Path, text: str) -> None:
    paint(text, tmp_path)
    assert not {"1", "10", "100"} & set(names_of(drawn))

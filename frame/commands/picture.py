"""`picture`: the frame as a picture, or a film strip of a worked sum. Needs no screen."""

from dataclasses import dataclass
from functools import partial
from io import BytesIO
from math import ceil
from pathlib import Path

import pygame

from frame.commands.output import Json, Refusal
from frame.commands.working import Ways, worked
from frame.language.catalogue import Words
from frame.language.numbers import grouped
from frame.language.reasons import reason_line
from frame.language.wording import names_rods, whole_rule
from frame.language.written import operation_text, written_out
from frame.resources import ASSETS
from frame.technique.beads import Frame
from frame.technique.calculation import Calculation, Sum
from frame.technique.operation import Act
from frame.technique.plan import Plan
from frame.technique.reading import plain
from frame.technique.reasons import reasons_of
from frame.view.geometry import Layout, pose_of, unit_marks
from frame.view.lettering import Lettering
from frame.view.painter import Appearance, Painter
from frame.view.place_names import place_names
from frame.view.theme import Theme, type_size

PNG = ".png"
NUMBER_SIZE = (1280, 480)
CELL_SIZE = (640, 300)
TEXT_SHARE, NOTE_SHARE = 0.2, 0.18
"""Of the height of a frame with its texts: what is worked and read, and the reason."""
LEAST_NAME = 10
"""Pixels of the smallest type in which places are named."""
NAME_ROOM = 0.85
"""Of the space of a rod, for the name of its place."""
MOST_COLUMNS = 3
MOST_CELLS = 120
SMALLEST_CELL = (240, 100)


@dataclass(frozen=True, slots=True)
class Cell:
    """One frame of a film strip: the beads, the work and what it reads below them, and below those
    why the work is done. With `named` the rods have the names of their places."""

    frame: Frame
    said: str
    reading: str
    note: str = ""
    named: bool = True


@dataclass(frozen=True, slots=True)
class Looks:
    """How a picture looks: its size in pixels, None for the usual one, and its colours."""

    theme: Theme
    size: tuple[int, int] | None


def picture(text: str, path: Path, looks: Looks, ways: Ways, all_steps: bool, words: Words) -> Json:
    """The number or the worked sum is painted into the file; what was painted. Raises Refusal.

    A number gives its frame; a sum, or any work with `all_steps`, a film strip.
    """
    calculation, plan = worked(text, ways, words)
    if path.suffix.lower() != PNG:
        raise Refusal(str(path), path.suffix or repr(""), words.text("cli.picture.a_png"))
    if _is_number(calculation) and not all_steps:
        cells = film(plan, False, words)
        surface = _number_picture(cells[-1], looks)
    else:
        cells = film(plan, all_steps, words)
        if len(cells) > MOST_CELLS:
            found = words.text("cli.picture.frames", count=len(cells))
            most = words.text("cli.picture.at_most", count=MOST_CELLS)
            raise Refusal(words.text("cli.expression"), found, most)
        surface = _strip_picture(calculation, plan, cells, looks, words)
    _save(surface, path, words)
    width, height = surface.get_size()
    return {"file": str(path), "width": width, "height": height, "frames": len(cells)}


def film(plan: Plan, all_steps: bool, words: Words) -> list[Cell]:
    """A frame for each step; the digits set first share one, unless all steps are asked for."""
    cells: list[Cell] = []
    named = all(map(names_rods, plan.steps))
    for (step, frame), reasons in zip(plan.frames(), reasons_of(plan), strict=True):
        reading = grouped(plain(plan.reading(step, frame)))
        is_set = step.operation.act is Act.SET
        said = operation_text(step.operation, words)
        formula = whole_rule(step, words)
        if formula != said and (all_steps or not is_set):
            said = f"{said}:  {formula}"
        elif is_set and cells:
            cells.pop()
        note = " ".join(reason_line(reason, words).show for reason in reasons)
        cells.append(Cell(frame, said, reading, note, named))
    return cells or [Cell(plan.start, "", grouped(plain(plan.result)))]


def _is_number(calculation: Calculation) -> bool:
    """Whether it is one number, which a frame alone can read."""
    numbers = calculation.numbers
    return isinstance(calculation, Sum) and len(numbers) == 1 and numbers[0] >= 0


def _number_picture(cell: Cell, looks: Looks) -> pygame.Surface:
    size = looks.size or NUMBER_SIZE
    surface = pygame.Surface(size)
    surface.fill(looks.theme.ground)
    margin = round(0.06 * min(size))
    area = pygame.Rect((0, 0), size).inflate(-2 * margin, -2 * margin)
    _draw_frame(surface, area, cell, Painter(looks.theme), _lettering(), size[1])
    return surface


def _strip_picture(
    calculation: Calculation, plan: Plan, cells: list[Cell], looks: Looks, words: Words
) -> pygame.Surface:
    """The cells row by row beneath the sum and its result."""
    across, down = _grid(len(cells), looks.size)
    size = looks.size or (across * CELL_SIZE[0], down * CELL_SIZE[1] + CELL_SIZE[1] // 4)
    head = size[1] // (4 * down + 1)
    width, height = size[0] // across, (size[1] - head) // down
    if width < SMALLEST_CELL[0] or height < SMALLEST_CELL[1]:
        found = f"{size[0]}x{size[1]}"
        raise Refusal("--size", found, words.text("cli.picture.larger", count=len(cells)))
    surface = pygame.Surface(size)
    surface.fill(looks.theme.ground)
    lettering, painter = _lettering(), Painter(looks.theme)
    title = written_out(calculation)
    if not _is_number(calculation):
        title += f" = {plain(plan.result)}".replace("-", "−")
    if plan.remainder:
        title += f", {words.text('cli.explain.remainder', number=plan.remainder)}"
    box = pygame.Rect(0, 0, size[0], head).inflate(-head // 2, -head // 6)
    lettering.draw(
        surface, title, box, 3, looks.theme.ink, bold=True, align="centre", window=5 * head
    )
    has_notes = any(cell.note for cell in cells)
    for index, cell in enumerate(cells):
        row, place = divmod(index, across)
        area = pygame.Rect(place * width, head + row * height, width, height)
        _draw_cell(surface, area, cell, painter, lettering, has_notes)
    return surface


def _grid(cells: int, size: tuple[int, int] | None) -> tuple[int, int]:
    """Columns and rows: at most three across, or in a given size those that fill it best."""
    if size is None:
        across = min(cells, MOST_COLUMNS)
    else:
        shape = CELL_SIZE[0] / CELL_SIZE[1]
        across = max(
            range(1, cells + 1),
            key=lambda n: min(size[0] / n, size[1] / ceil(cells / n) * shape),
        )
    return across, ceil(cells / across)


def _draw_cell(
    surface: pygame.Surface, area: pygame.Rect, cell: Cell, painter: Painter,
    lettering: Lettering, has_notes: bool,
) -> None:  # fmt: skip
    """The frame, the texts below it and, in a strip with reasons, room for one beneath these."""
    margin, theme, window = area.h // 20, painter.theme, area.h * 2
    inner = area.inflate(-2 * margin, -2 * margin)
    note_height = round(area.h * NOTE_SHARE) if has_notes else 0
    text_height = round(area.h * TEXT_SHARE)
    above = pygame.Rect(inner.topleft, (inner.w, inner.h - text_height - note_height))
    frame = _draw_frame(surface, above, cell, painter, lettering, window)
    below = pygame.Rect(0, above.bottom, max(frame.w, inner.w * 5 // 8), text_height)
    below.centerx = inner.centerx
    left, right = below.copy(), below.copy()
    left.w, right.w = below.w * 2 // 3, below.w // 3
    right.right = below.right
    lettering.draw(surface, cell.said, left, 2, theme.soft_ink, window=window)
    lettering.draw(
        surface, cell.reading, right, 2, theme.ink, bold=True, align="right", window=window
    )
    note = pygame.Rect(below.left, below.bottom, below.w, note_height)
    lettering.draw(surface, cell.note, note, 1, theme.ink, window=window)


def _draw_frame(
    surface: pygame.Surface, area: pygame.Rect, cell: Cell, painter: Painter,
    lettering: Lettering, window: int,
) -> pygame.Rect:  # fmt: skip
    """The frame with the names of its places, as many as there is room for; its type is as in a
    window of that height."""
    frame, pixels = cell.frame, type_size(0, window)
    is_named = cell.named and pixels >= LEAST_NAME
    rods, below = len(frame.digits), lettering.height(pixels) if is_named else 0
    layout = Layout.fit((area.x, area.y, area.w, area.h - below), rods, frame.units)
    look = Appearance(marks=unit_marks(rods, frame.units))
    drawn = painter.draw_frame(surface, layout, pose_of(frame), look)
    width, room = partial(lettering.width, pixels=pixels), NAME_ROOM * layout.spacing
    names = place_names(_rods_of(frame), room, width) if is_named else {}
    for rod, name in names.items():
        column = layout.rod_box(frame.units - rod)
        place = pygame.Rect(column.x, drawn.bottom, column.w, below)
        colour = painter.theme.soft_ink
        lettering.draw(surface, name, place, 0, colour, align="centre", window=window)
    return drawn


def _rods_of(frame: Frame) -> range:
    """The rods of a frame, highest first."""
    return range(frame.highest, frame.lowest - 1, -1)


def _lettering() -> Lettering:
    pygame.font.init()
    return Lettering(ASSETS / "fonts")


def _save(surface: pygame.Surface, path: Path, words: Words) -> None:
    """The file is opened by us, for pygame writes names that are no UTF-8 otherwise."""
    picture = BytesIO()
    pygame.image.save(surface, picture, PNG)
    try:
        path.write_bytes(picture.getvalue())
    except OSError as error:
        reason = error.strerror or str(error)
        raise Refusal(str(path), reason, words.text("cli.picture.writable")) from None

"""The names of places beneath the rods of a frame: 1, 10, 100, as many as there is room for."""

from collections.abc import Callable, Iterable

from frame.language.numbers import place_figures


def place_names(rods: Iterable[int], room: float, width: Callable[[str], float]) -> dict[int, str]:
    """The rods whose names can stand beneath them, with these: from the ones outwards on each
    side, until a name is wider than the room of a rod. `width` measures a name as `room` does."""
    here = set(rods)
    names: dict[int, str] = {}
    for rod, step in ((0, 1), (-1, -1)):
        while rod in here and width(place_figures(rod)) <= room:
            names[rod] = place_figures(rod)
            rod += step
    return names

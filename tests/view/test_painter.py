"""Painter: golden pictures without text, dirty rectangles, and what each look shows."""

import os
from dataclasses import replace
from pathlib import Path

import pygame
import pytest

from frame.technique.beads import BeadMove, Frame
from frame.view.geometry import Bead, Layout, pose_of, unit_marks
from frame.view.painter import Appearance, Painter
from frame.view.theme import DARK, LIGHT, THEMES

RENEW = "BEAD_FRAME_RENEW_PICTURES"
PICTURES = Path(__file__).parents[1] / "pictures"
TOLERANCE = 2

SIZES = {"small": ((320, 200), 5), "wide": ((480, 160), 13)}


def scene(size, rods, digits, theme=LIGHT):
    surface = pygame.Surface(size)
    surface.fill(theme.ground)
    frame = Frame(digits.zfill(rods), rods - 1)
    layout = Layout.fit((8, 8, size[0] - 16, size[1] - 16), rods, rods - 1)
    return surface, layout, pose_of(frame), Painter(theme)


def look(rods, **more):
    return Appearance(marks=unit_marks(rods, rods - 1), **more)


def draw_empty(size, rods):
    surface, layout, pose, painter = scene(size, rods, "0")
    painter.draw_frame(surface, layout, pose, look(rods))
    return surface


def draw_reading(size, rods):
    surface, layout, pose, painter = scene(size, rods, "5072")
    painter.draw_frame(surface, layout, pose, look(rods))
    return surface


def draw_hint(size, rods):
    surface, layout, pose, painter = scene(size, rods, "14")
    painter.draw_frame(surface, layout, pose, look(rods))
    painter.draw_hint(surface, layout, BeadMove(0, 5), pose, "index")
    painter.draw_hint(surface, layout, BeadMove(1, 2), pose, "thumb")
    painter.draw_mending(surface, layout, rods - 3, Bead.EARTH_2, pose)
    painter.draw_touched(surface, layout, rods - 1, Bead.EARTH_1, pose)
    painter.draw_focus(surface, layout, 0)
    return surface


def draw_covered(size, rods):
    surface, layout, pose, painter = scene(size, rods, "5072")
    moving = pose.with_rod(rods - 2, (0.6, 0.0, 0.3, 0.3, 1.0))
    painter.draw_frame(surface, layout, moving, look(rods, covered=True, traces=True))
    return surface


SCENES = {
    "empty": draw_empty,
    "reading": draw_reading,
    "hint": draw_hint,
    "covered": draw_covered,
}


def worst_difference(one, other):
    pairs = zip(rgb(one), rgb(other), strict=True)
    return max(abs(a - b) for a, b in pairs)


def rgb(surface):
    return pygame.image.tobytes(surface, "RGB")


def assert_looks_like(surface, name):
    """Fails, with both pictures side by side, unless every channel is within the tolerance."""
    golden, failed = PICTURES / f"{name}.png", PICTURES / "failed" / f"{name}.png"
    if os.environ.get(RENEW):
        golden.parent.mkdir(exist_ok=True)
        pygame.image.save(surface, str(golden))
    assert golden.exists(), f"no {golden}; set {RENEW}=1 to paint it anew"
    expected = pygame.image.load(str(golden))
    same_size = expected.get_size() == surface.get_size()
    if same_size and worst_difference(surface, expected) <= TOLERANCE:
        failed.unlink(missing_ok=True)
        return
    failed.parent.mkdir(exist_ok=True)
    both = pygame.Surface((surface.get_width() + expected.get_width(), surface.get_height()))
    both.blit(surface, (0, 0))
    both.blit(expected, (surface.get_width(), 0))
    pygame.image.save(both, str(failed))
    pytest.fail(
        f"the picture differs from {golden}: see {failed}, computed left, expected right; "
        f"if it is better, set {RENEW}=1"
    )


@pytest.mark.parametrize("kind", SIZES)
@pytest.mark.parametrize("name", SCENES)
def test_pictures(name, kind):
    assert_looks_like(SCENES[name](*SIZES[kind]), f"frame-{name}-{kind}")


@pytest.mark.parametrize("covered", [False, True])
def test_a_rod_drawn_anew_is_as_in_the_whole_frame(covered):
    rods = 7
    surface, layout, pose, painter = scene((400, 240), rods, "5072386")
    appearance = look(rods, covered=covered)
    painter.draw_frame(surface, layout, pose, appearance)
    painter.draw_hint(surface, layout, BeadMove(3, 5), pose, "index")
    painter.draw_mending(surface, layout, 3, Bead.HEAVEN, pose)
    painter.draw_mending(surface, layout, 3, Bead.EARTH_4, pose)
    painter.draw_focus(surface, layout, 3)
    other = pose.with_rod(3, pose_of(Frame("8", 0)).rods[0])
    column, whole_frame = layout.rod_box(3), layout.frame_box
    surface.set_clip((column.x, whole_frame.y, column.w, whole_frame.h))
    painter.draw_frame(surface, layout, other, replace(appearance, shown=frozenset({3})))
    surface.set_clip(None)
    whole, _, _, _ = scene((400, 240), rods, "5072386")
    painter.draw_frame(whole, layout, other, appearance)
    assert rgb(surface) == rgb(whole)


@pytest.mark.parametrize("rods", [1, 5, 13, 27])
@pytest.mark.parametrize("size", [(320, 200), (800, 480)])
def test_every_drawing_answers_the_rectangle_it_changed(size, rods):
    surface, layout, pose, painter = scene(size, rods, "3")
    drawings = [
        lambda: painter.draw_frame(surface, layout, pose, look(rods)),
        lambda: painter.draw_hint(surface, layout, BeadMove(0, 1), pose, "thumb"),
        lambda: painter.draw_hint(surface, layout, BeadMove(0, 5), pose, "index"),
        lambda: painter.draw_mending(surface, layout, 0, Bead.HEAVEN, pose),
        lambda: painter.draw_touched(surface, layout, 0, Bead.EARTH_4, pose),
        lambda: painter.draw_focus(surface, layout, rods - 1),
        lambda: painter.draw_trace(surface, layout, 0, Bead.EARTH_2, 0.4),
    ]
    for draw in drawings:
        before = surface.copy()
        changed = draw()
        assert rgb(before) != rgb(surface)
        assert pygame.Rect(*map(int, layout.frame_box)).contains(changed)
        before.blit(surface, changed, changed)
        assert rgb(before) == rgb(surface)


def colour_at(surface, box):
    """The colour in the middle of a box's lower half, where a bead has its lower facet."""
    return tuple(surface.get_at((int(box.x + box.w / 2), int(box.y + box.h * 0.75))))[:3]


@pytest.mark.parametrize("theme", THEMES.values(), ids=THEMES)
def test_beads_at_the_beam_are_tinted_unless_the_tint_is_off(theme):
    surface, layout, pose, painter = scene((400, 240), 1, "7", theme)
    for tint in (True, False):
        painter.draw_frame(surface, layout, pose, Appearance(tint=tint))
        seen = [colour_at(surface, box) for _, box in layout.bead_boxes(0, pose.rods[0])]
        used = theme.bead_used.lower if tint else theme.bead_rest.lower
        assert seen == [used] * 3 + [theme.bead_rest.lower] * 2


def test_beads_grow_pale_towards_what_lies_behind():
    surface, layout, pose, painter = scene((400, 240), 1, "5")
    box = layout.bead_box(0, Bead.HEAVEN, 1.0)
    aside = (int(box.x + box.w * 0.3), int(box.y + box.h * 0.6))
    seen = []
    for opacity in (1.0, 0.6, 0.3, 0.15, 0.0):
        painter.draw_frame(surface, layout, pose, Appearance(opacity=opacity))
        seen.append(surface.get_at(aside)[0])
    assert seen == sorted(seen) and len(set(seen)) == 5
    assert seen[-1] == LIGHT.field[0]


def test_rods_without_beads():
    surface, layout, pose, painter = scene((400, 240), 2, "77")
    painter.draw_frame(surface, layout, pose, Appearance(shown=frozenset({1})))
    middles = [colour_at(surface, layout.bead_box(index, Bead.HEAVEN, 1.0)) for index in (0, 1)]
    assert middles == [LIGHT.rod, LIGHT.bead_used.lower]


def test_a_covered_frame_shows_no_bead_until_one_moves():
    pictures = []
    for digits in ("0", "50729"):
        surface, layout, pose, painter = scene((320, 200), 5, digits)
        painter.draw_frame(surface, layout, pose, look(5, covered=True, traces=True))
        pictures.append(rgb(surface))
    assert pictures[0] == pictures[1]
    moving = pose.with_rod(1, (0.5, 0.0, 0.0, 1.0, 1.0))
    painter.draw_frame(surface, layout, moving, look(5, covered=True, traces=True))
    assert colour_at(surface, layout.bead_box(1, Bead.HEAVEN, 0.5)) == LIGHT.trace
    assert colour_at(surface, layout.bead_box(1, Bead.EARTH_4, 1.0)) == LIGHT.field_covered


@pytest.mark.parametrize("rods", [1, 2, 5, 8, 13, 27])
@pytest.mark.parametrize("size", [(800, 480), (1280, 720)])
def test_rods_stand_in_the_middle_of_their_columns(size, rods):
    surface, layout, pose, painter = scene(size, rods, "0")
    painter.draw_frame(surface, layout, pose, look(rods))
    column = layout.rod_box(rods // 2)
    for y in (layout.y + 1.5 * layout.bead_height, layout.beam_box.centre[1]):
        row = [surface.get_at((int(column.x) + x, int(y))) for x in range(int(column.w))]
        assert row == row[::-1]


def test_badges_tell_finger_and_direction():
    painter = Painter(DARK)
    badges = [painter.badge(24, finger, is_up=up) for finger in ("thumb", "index") for up in (0, 1)]
    assert len({rgb(badge) for badge in badges}) == 4

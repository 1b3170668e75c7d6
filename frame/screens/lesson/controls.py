"""Which buttons there are on the lesson screen, and where they stand."""

from collections.abc import Iterator, Sequence
from enum import StrEnum
from typing import NamedTuple

import pygame

from frame.course.attempts import Origin
from frame.course.stages import Stage
from frame.screens.lesson.scene import Scene
from frame.screens.parts.page import abreast
from frame.technique.conventions import Strictness
from frame.view.widgets import Style

_LEAST_HALF = 22.0
"""So many units wide is half of the side where its words stand in one line."""
_ROW_BUTTON = 32.0
"""How wide, in units, a button is at most where they stand in a row."""


class Control(StrEnum):
    """What a learner can ask for; its value is the key of its words."""

    GO_ON = "lesson.go_on"
    STEP_BACK = "sign.step_back"
    SAY_AGAIN = "sign.speaker"
    SHOW_ME = "lesson.show_me"
    UNDO = "lesson.undo"
    DONE = "lesson.done"
    START = "flash.start"
    SKIP = "flash.skip"
    PASS = "placement.pass"
    HOLD = "call.hold"
    RESUME = "call.go_on"
    REPEAT = "call.repeat"
    CALL_AGAIN = "call.again"
    TAKE = "lesson.take"
    SET_ANSWER = "lesson.set_answer"
    FOLLOWING = "given.next"
    NEXT = "lesson.next"
    ONCE_MORE = "lesson.again"
    HOME = "lesson.home"
    LEAVE = "lesson.leave"
    TAP = "tapping.offer"


SIGNS = {
    Control.GO_ON: "next",
    Control.STEP_BACK: "step_back",
    Control.SAY_AGAIN: "speaker",
    Control.SHOW_ME: "eye",
    Control.UNDO: "undo",
    Control.DONE: "tick",
    Control.START: "next",
    Control.PASS: "pass",
    Control.HOLD: "pause",
    Control.RESUME: "next",
    Control.REPEAT: "speaker",
    Control.CALL_AGAIN: "redo",
    Control.TAKE: "beads",
    Control.SET_ANSWER: "beads",
    Control.FOLLOWING: "slip",
    Control.NEXT: "next",
    Control.ONCE_MORE: "redo",
    Control.HOME: "beads",
    Control.LEAVE: "beads",
}


_MOST_STACKED = 2
"""Below a frame there is room for so many buttons one above another."""


class Placed(NamedTuple):
    """A button: what it asks for, where it stands, how it looks, its size of type. One in the style
    of a sign has no words."""

    control: Control
    place: pygame.Rect
    style: Style = Style.PLAIN
    step: int = 1


class Standing(NamedTuple):
    """What decides which buttons there are; where it changes, all is arranged anew."""

    entered: int
    can_undo: bool
    is_spoken: bool
    has_answer_frame: bool
    keeps_back: bool
    shown_sign: str
    has_field: bool


def standing_of(scene: Scene) -> Standing:
    """What decides it now."""
    work, guide = scene.work, scene.guide
    return Standing(
        entered=guide.entered,
        can_undo=work is not None and work.can_undo,
        is_spoken=scene.is_spoken,
        has_answer_frame=guide.answer.frame is not None,
        keeps_back=guide.sight.keeps_back,
        shown_sign=guide.sight.shown_sign,
        has_field=guide.sight.has_field,
    )


def controls_of(scene: Scene) -> Iterator[Placed]:
    """The buttons for what the lesson waits for, but the keys of an answer."""
    if scene.is_spoken:
        yield Placed(Control.SAY_AGAIN, scene.places.speaker, Style.SIGN)
    if scene.guide.runner.can_step_back and not scene.is_calling:
        yield Placed(Control.STEP_BACK, scene.places.before, Style.SIGN)
    match scene.guide.runner.stage:
        case Stage.TELL:
            yield from _telling(scene)
        case Stage.WORK:
            yield from _working(scene)
        case Stage.PRESENT:
            yield from _stacked(scene, _presenting(scene))
        case Stage.ANSWER:
            yield from _answering(scene)
        case Stage.END:
            yield from _stacked(scene, _ending(scene))


def keys_place(scene: Scene) -> pygame.Rect:
    """Where the keys of an answer stand."""
    side, above = scene.places.buttons, scene.places.written
    if scene.is_wide and not scene.has_row:
        return pygame.Rect(above.left, above.top, above.w, above.h - _gap(scene))
    if scene.is_wide:
        taken = 2 * (side.h + _gap(scene)) if _has_more_than_keys(scene) else 0
        return pygame.Rect(side.left, side.top, side.w - taken, side.h)
    top, bottom = scene.places.answer.bottom + round(1.5 * scene.unit), side.bottom
    if _has_more_than_keys(scene):
        bottom -= _height(scene) + _gap(scene)
    return pygame.Rect(side.left, top, side.w, bottom - top)


def _height(scene: Scene) -> int:
    usual = round(9 * scene.unit * scene.room.button_scale)
    return min(usual, scene.places.buttons.h) if scene.is_wide else usual


def _gap(scene: Scene) -> int:
    return round(2 * scene.unit)


def _has_more_than_keys(scene: Scene) -> bool:
    is_by_answer = scene.work is not None and scene.work.exercise.by_answer
    return is_by_answer or not scene.origin.is_marked


def _telling(scene: Scene) -> Iterator[Placed]:
    side = scene.places.buttons
    if scene.is_wide:
        yield from _in_row(scene, [], Control.GO_ON)
        return
    place = pygame.Rect(side.left, 0, side.w, round(1.3 * _height(scene)))
    place.bottom = side.bottom
    yield Placed(Control.GO_ON, place, Style.MAIN, 2)


def _working(scene: Scene) -> Iterator[Placed]:
    work, side = scene.work, scene.places.buttons
    can_undo = work is not None and work.can_undo
    is_lax = scene.room.settings.strictness is Strictness.ANSWER
    says_done = work is not None and (work.is_silent or is_lax)
    help_ = Control.SHOW_ME if scene.origin.is_marked else Control.PASS
    if scene.is_wide:
        some = [help_, *([Control.UNDO] if can_undo else [])]
        yield from _in_row(scene, some, Control.DONE if says_done else None)
        return
    show, undo = _halves(scene, side.bottom - _height(scene))
    done = pygame.Rect(side.left, show.top - _gap(scene) - show.h, side.w, show.h)
    if show.w < _LEAST_HALF * scene.unit:  # One above the other: what is there does not move.
        show.w = side.w
        undo = done.move(0, -_gap(scene) - show.h) if says_done else done
    yield Placed(help_, show)
    if can_undo:
        yield Placed(Control.UNDO, undo)
    if says_done:
        yield Placed(Control.DONE, done, Style.MAIN if can_undo else Style.PLAIN, 2)


def _presenting(scene: Scene) -> list[Control]:
    call, work, runner = scene.calling, scene.work, scene.guide.runner
    if call is None:
        return [Control.START, Control.SKIP]
    some = [Control.RESUME if call.is_held else Control.HOLD] if call.has_begun else []
    if call.is_held and call.number(scene.room.seconds()) is not None:
        some.append(Control.REPEAT)
    if call.has_begun:
        some.append(Control.CALL_AGAIN)
    if work is not None and work.can_undo and runner.takes_touches:
        some.append(Control.UNDO)
    return some


def _answering(scene: Scene) -> Iterator[Placed]:
    """Below the keys or beside them, what else an answer can come from."""
    work, guide, row = scene.work, scene.guide, scene.places.buttons
    if work is None or not _has_more_than_keys(scene):
        return
    if scene.has_row:
        style, beads = Style.SIGN, pygame.Rect(row.right - row.h, row.top, row.h, row.h)
        again = beads.move(-row.h - _gap(scene), 0)
    else:
        style = Style.PLAIN
        again, beads = _halves(scene, row.bottom - _height(scene))
    if not scene.origin.is_marked:
        yield Placed(Control.PASS, again, style)
        return
    if scene.calling is not None:
        yield Placed(Control.CALL_AGAIN, again, style)
    takes_touches = guide.runner.takes_touches
    is_covered = takes_touches and work.exercise.rung.is_unseen
    if not work.exercise.own and guide.answer.frame is None and not is_covered:
        yield Placed(Control.TAKE if takes_touches else Control.SET_ANSWER, beads, style)


def _ending(scene: Scene) -> list[Control]:
    """What a tutor gave comes before the next lesson, which is found from home."""
    following = [Control.FOLLOWING] if scene.following is not None else []
    if scene.origin is Origin.LESSON:
        return [*(following or [Control.NEXT]), Control.ONCE_MORE, Control.HOME]
    if scene.origin is Origin.TODAY:
        return [*following, Control.LEAVE, *([Control.TAP] if scene.offers_tapping else [])]
    return [*following, Control.ONCE_MORE, Control.LEAVE]


def _halves(scene: Scene, top: int) -> tuple[pygame.Rect, pygame.Rect]:
    """Two places beside one another on the side."""
    side, gap = scene.places.buttons, _gap(scene)
    half = pygame.Rect(side.left, top, (side.w - gap) // 2, _height(scene))
    return half, half.move(side.w - half.w, 0)


def _stacked(scene: Scene, controls: Sequence[Control]) -> Iterator[Placed]:
    """Buttons one above another at the bottom of the side, or in a row; the first is the main
    one."""
    if scene.is_wide:
        yield from _in_row(scene, controls[1:], controls[0] if controls else None)
        return
    if scene.places.is_stacked and len(controls) > _MOST_STACKED:
        yield from _main_above(scene, controls)
        return
    side, apart = scene.places.buttons, _height(scene) + _gap(scene)
    top = side.bottom - len(controls) * apart + _gap(scene)
    for index, control in enumerate(controls):
        place = pygame.Rect(side.left, top + index * apart, side.w, _height(scene))
        yield Placed(control, place, Style.PLAIN if index else Style.MAIN)


def _main_above(scene: Scene, controls: Sequence[Control]) -> Iterator[Placed]:
    """The main button above the others, which stand beside one another."""
    side, gap, high = scene.places.buttons, _gap(scene), _height(scene)
    row = pygame.Rect(side.left, side.bottom - high, side.w, high)
    yield Placed(controls[0], row.move(0, -high - gap), Style.MAIN)
    for place, control in zip(abreast(row, len(controls) - 1, gap), controls[1:], strict=True):
        yield Placed(control, place)


def _in_row(scene: Scene, controls: Sequence[Control], main: Control | None) -> Iterator[Placed]:
    """Buttons in a row from the left, and the main one at its right end."""
    row, gap = scene.places.buttons, _gap(scene)
    count = max(1, len(controls) + (main is not None))
    width = min(round(_ROW_BUTTON * scene.unit), (row.w - gap * (count - 1)) // count)
    for index, control in enumerate(controls):
        yield Placed(control, pygame.Rect(row.left + index * (width + gap), row.top, width, row.h))
    if main is not None:
        yield Placed(main, pygame.Rect(row.right - width, row.top, width, row.h), Style.MAIN)

"""Where things stand on the lesson screen, which buttons there are, and what keys do."""

from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

import pygame

from frame.course.runner import Stage
from frame.screens.keypad import key_digit, keypad
from frame.screens.lesson_view import LessonView
from frame.screens.sentence import is_heard
from frame.technique.conventions import Strictness
from frame.view.bead_keys import is_bead_key, stroke_of_key
from frame.view.geometry import Layout
from frame.view.inputs import Key
from frame.view.widgets import Button, Style

_MARGIN = 12.0
_EDGE = 5.0
_TOP = 19.0
_FRAME_HEIGHT = 59.0
_GAP = 8.0
_LEAST_COLUMN = 90.0


@dataclass(frozen=True, slots=True)
class Places:
    """The parts of the screen: the header's sum and sentence, the frame, the side, the string."""

    sum: pygame.Rect
    line: pygame.Rect
    frame: pygame.Rect
    side: pygame.Rect
    string: pygame.Rect
    count: pygame.Rect

    @property
    def changing(self) -> tuple[pygame.Rect, ...]:
        """What looks different after a touch, beside the beads."""
        return (self.sum.union(self.line), self.side.inflate(8, 8))

    @property
    def between_exercises(self) -> tuple[pygame.Rect, ...]:
        """What looks different when the lesson waits for something else: all but the frame."""
        gap = self.frame.union(self.side)
        beside = pygame.Rect(self.frame.right, gap.top, gap.right - self.frame.right, gap.h)
        if self.side.left < self.frame.left:
            beside = pygame.Rect(gap.left, gap.top, self.frame.left - gap.left, gap.h)
        return (self.sum.union(self.line), beside.inflate(8, 8), self.string.union(self.count))


def places_of(screen: LessonView) -> Places:
    """The parts for the window's size and the lesson's frame."""
    frame = screen.field.frame
    is_left = screen.room.settings.left_handed
    return _places(screen.across, screen.unit, len(frame.digits), frame.units, is_left)


@lru_cache(maxsize=8)
def _places(across: float, unit: float, rods: int, units: int, is_left: bool) -> Places:
    """One column in the middle, as wide as the frame needs when it takes the whole height.

    A left-handed layout has the side at the left.
    """
    endless = (0, 0, 10**6, _FRAME_HEIGHT * unit)
    natural = Layout.fit(endless, rods, units).frame_box.w / unit + 0.2
    most = across - _MARGIN - _EDGE
    side_width = max(40.0, min(56.0, across * 0.34))
    frame_width = min(natural, most - side_width - _GAP)
    column = min(most, max(_LEAST_COLUMN, frame_width + _GAP + side_width))
    left = max(_MARGIN, (across - column) / 2)
    frame_x, side_x = left, left + column - side_width
    if is_left:
        frame_x, side_x = left + column - frame_width, left

    def rect(x: float, y: float, w: float, h: float) -> pygame.Rect:
        return pygame.Rect(round(x * unit), round(y * unit), round(w * unit), round(h * unit))

    return Places(
        sum=rect(left, 2.5, column, 8.5),
        line=rect(left, 11, column, 7.2),
        frame=rect(frame_x, _TOP, frame_width, _FRAME_HEIGHT),
        side=rect(side_x, _TOP, side_width, _FRAME_HEIGHT),
        string=rect(left, 84.2, column - 12, 3.6),
        count=rect(left + column - 11, 84, 11, 4),
    )


def arrange(screen: LessonView) -> None:
    """Place the frame, and the buttons for what the lesson waits for."""
    places = places_of(screen)
    screen.field.painter = screen.room.painter
    screen.field.place(places.frame)
    side = places.side
    high = round(9 * screen.unit * screen.room.button_scale)
    if is_spoken(screen):
        place = pygame.Rect(places.line.topleft, (places.line.h, places.line.h))
        screen.buttons.append(Button(place, screen.say_again, sign="speaker", style=Style.SIGN))
    match screen.runner.stage:
        case Stage.TELL:
            place = pygame.Rect(side.left, side.bottom - round(high * 1.3), side.w, 0)
            place.h = side.bottom - place.top
            _add(screen, place, screen.go_on, "lesson.go_on", "next", Style.MAIN, 2)
        case Stage.WORK:
            _arrange_work(screen, side, high)
        case Stage.PRESENT:
            _arrange_present(screen, side, high)
        case Stage.ANSWER:
            _arrange_answer(screen, side, high)
        case Stage.END:
            _arrange_end(screen, side, high)


def is_spoken(screen: LessonView) -> bool:
    """Whether the sentence is heard, and can be heard again."""
    return is_heard(screen.room) and screen.line is not None


def _add(
    screen: LessonView, place: pygame.Rect, act: Callable[[], object], key: str, sign: str = "",
    style: Style = Style.PLAIN, step: int = 1,
) -> None:  # fmt: skip
    text = screen.room.words.text(key)
    screen.buttons.append(Button(place, act, text, sign=sign, style=style, step=step))


def _arrange_work(screen: LessonView, side: pygame.Rect, high: int) -> None:
    gap = round(2 * screen.unit)
    half = (side.w - gap) // 2
    bottom = side.bottom - high
    show = pygame.Rect(side.left, bottom, half, high)
    undo = pygame.Rect(side.right - half, bottom, half, high)
    _add(screen, show, screen.show_me, "lesson.show_me", "eye")
    work = screen.runner.work
    if work is not None and work.can_undo:
        _add(screen, undo, screen.undo, "lesson.undo", "undo")
    by_answer = screen.room.settings.strictness is Strictness.ANSWER
    if work is not None and (work.is_silent or by_answer):
        done = pygame.Rect(side.left, bottom - high - gap, side.w, high)
        style = Style.MAIN if work.can_undo else Style.PLAIN
        _add(screen, done, screen.say_done, "lesson.done", "tick", style, 2)


Entry = tuple[str, Callable[[], object], str]
"""A button of a column: the key of its words, what it does, its sign."""


def _arrange_column(screen: LessonView, side: pygame.Rect, high: int, entries: list[Entry]) -> None:
    """Buttons one above another at the bottom of the side; the first is the main one."""
    gap = round(2 * screen.unit)
    top = side.bottom - len(entries) * (high + gap) + gap
    for index, (key, act, sign) in enumerate(entries):
        place = pygame.Rect(side.left, top + index * (high + gap), side.w, high)
        _add(screen, place, act, key, sign, Style.PLAIN if index else Style.MAIN)


def _arrange_present(screen: LessonView, side: pygame.Rect, high: int) -> None:
    call = screen.calling
    if call is None:
        start: Entry = ("flash.start", screen.start, "next")
        return _arrange_column(screen, side, high, [start, ("flash.skip", screen.skip, "")])
    entries: list[Entry] = [("call.hold", screen.hold, "pause")] if call.has_begun else []
    if call.is_held:
        entries = [("lesson.go_on", screen.hold, "next")]
    if call.is_held and call.number(screen.room.seconds()) is not None:
        entries.append(("call.repeat", screen.repeat, "speaker"))
    if call.has_begun:
        entries.append(("call.again", screen.start, "redo"))
    work = screen.runner.work
    if work is not None and work.can_undo and screen.runner.takes_touches:
        entries.append(("lesson.undo", screen.undo, "undo"))
    return _arrange_column(screen, side, high, entries)


def _arrange_answer(screen: LessonView, side: pygame.Rect, high: int) -> None:
    """The digit keys, and below them what else an answer can come from."""
    work, gap = screen.runner.work, round(2 * screen.unit)
    top, bottom = side.top + round(12 * screen.unit), side.bottom
    if work is not None and work.exercise.by_answer:
        bottom -= high + gap
        half = (side.w - gap) // 2
        again = pygame.Rect(side.left, bottom + gap, half, high)
        beads = pygame.Rect(side.right - half, bottom + gap, half, high)
        if screen.calling is not None:
            _add(screen, again, screen.start, "call.again", "redo")
        is_covered = screen.runner.takes_touches and work.exercise.rung.is_unseen
        if not work.exercise.own and screen.answer.frame is None and not is_covered:
            key = "lesson.take" if screen.runner.takes_touches else "lesson.set_answer"
            _add(screen, beads, screen.use_frame, key, "beads")
    area = pygame.Rect(side.left, top, side.w, bottom - top)
    done = None if screen.is_one_digit else screen.give_answer
    screen.buttons += keypad(area, screen.unit, screen.type_digit, done)


def _arrange_end(screen: LessonView, side: pygame.Rect, high: int) -> None:
    entries: list[Entry] = [
        ("lesson.again", screen.once_more, "redo"),
        ("lesson.home" if screen.is_course else "lesson.leave", screen.back, "beads"),
    ]
    if screen.is_course and screen.runner.passed:
        entries.insert(0, ("lesson.next", screen.next_lesson, "next"))
    _arrange_column(screen, side, high, entries)


def take_key(screen: LessonView, key: Key) -> bool:
    """Keys that work beads, type digits or hold a call. Whether the key was meant so."""
    stage = screen.runner.stage
    if stage is Stage.ANSWER:
        return _type_key(screen, key)
    if stage is Stage.PRESENT and _call_key(screen, key):
        return True
    if not screen.runner.takes_touches:
        return False
    if key.control and key.code == pygame.K_z:
        screen.undo()
        return True
    if screen.focus is not None or not is_bead_key(key):
        return False
    rod = screen.field.focus
    stroke = stroke_of_key(screen.field, key)
    if stroke is not None:
        screen.touch(stroke)
    elif screen.field.focus != rod:
        screen.say_rod()
    return True


def _type_key(screen: LessonView, key: Key) -> bool:
    enter = key.code in (pygame.K_RETURN, pygame.K_KP_ENTER)
    if digit := key_digit(key):
        screen.type_digit(digit)
    elif enter and screen.answer.typed and screen.focus is None:
        screen.give_answer()
    else:
        return False
    return True


def _call_key(screen: LessonView, key: Key) -> bool:
    """While numbers are called: space holds the call, or lets it go on."""
    is_calling = screen.calling is not None and screen.calling.has_begun
    if key.code != pygame.K_SPACE or not is_calling or screen.focus is not None:
        return False
    screen.hold()
    return True

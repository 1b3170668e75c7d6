"""Which buttons there are on the lesson screen, and where they stand."""

from collections.abc import Callable

import pygame

from frame.course.runner import Stage
from frame.practice.work import Work
from frame.screens.lesson.places import places_of
from frame.screens.lesson.view import LessonView
from frame.screens.parts.keypad import keypad, keys_in_row
from frame.screens.parts.sentence import is_heard
from frame.technique.conventions import Strictness
from frame.view.widgets import Button, Style

_ROW_BUTTON = 32.0
"""How wide, in units, a button is at most where they stand in a row."""

Entry = tuple[str, Callable[[], object], str]
"""A button among others: the key of its words, what it does, its sign."""


def arrange(screen: LessonView) -> None:
    """Place the frame, and the buttons for what the lesson waits for."""
    places = places_of(screen)
    screen.field.painter = screen.room.painter
    screen.field.place(places.frame)
    side = places.buttons
    high = round(9 * screen.unit * screen.room.button_scale)
    if is_spoken(screen):
        place = pygame.Rect(places.line.topleft, (places.line.h, places.line.h))
        screen.buttons.append(Button(place, screen.say_again, sign="speaker", style=Style.SIGN))
    match screen.runner.stage:
        case Stage.TELL if screen.is_wide:
            _arrange_row(screen, side, [], ("lesson.go_on", screen.go_on, "next"))
        case Stage.TELL:
            place = pygame.Rect(side.left, side.bottom - round(high * 1.3), side.w, 0)
            place.h = side.bottom - place.top
            _add(screen, place, screen.go_on, "lesson.go_on", "next", Style.MAIN, 2)
        case Stage.WORK if screen.is_wide:
            _arrange_work_in_row(screen, side)
        case Stage.WORK:
            _arrange_work(screen, side, high)
        case Stage.PRESENT:
            _arrange_present(screen, side, high)
        case Stage.ANSWER if screen.is_wide:
            done = None if screen.is_one_digit else screen.give_answer
            keys = keys_in_row(side, screen.unit, screen.type_sign, done, screen.answer_signs)
            screen.buttons += keys
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
    if work is not None and _says_done(screen, work):
        done = pygame.Rect(side.left, bottom - high - gap, side.w, high)
        style = Style.MAIN if work.can_undo else Style.PLAIN
        _add(screen, done, screen.say_done, "lesson.done", "tick", style, 2)


def _says_done(screen: LessonView, work: Work) -> bool:
    """Whether the learner says when the work is done."""
    return work.is_silent or screen.room.settings.strictness is Strictness.ANSWER


def _arrange_work_in_row(screen: LessonView, row: pygame.Rect) -> None:
    work = screen.runner.work
    entries: list[Entry] = [("lesson.show_me", screen.show_me, "eye")]
    if work is not None and work.can_undo:
        entries.append(("lesson.undo", screen.undo, "undo"))
    done: Entry = ("lesson.done", screen.say_done, "tick")
    says_done = work is not None and _says_done(screen, work)
    _arrange_row(screen, row, entries, done if says_done else None)


def _arrange_row(
    screen: LessonView, row: pygame.Rect, entries: list[Entry], main: Entry | None = None
) -> None:
    """Buttons in a row from the left, and the main one at its right end."""
    gap = round(2 * screen.unit)
    count = len(entries) + (main is not None)
    width = min(round(_ROW_BUTTON * screen.unit), (row.w - gap * (count - 1)) // max(1, count))
    for index, (key, act, sign) in enumerate(entries):
        place = pygame.Rect(row.left + index * (width + gap), row.top, width, row.h)
        _add(screen, place, act, key, sign)
    if main is not None:
        key, act, sign = main
        place = pygame.Rect(row.right - width, row.top, width, row.h)
        _add(screen, place, act, key, sign, Style.MAIN)


def _arrange_column(screen: LessonView, side: pygame.Rect, high: int, entries: list[Entry]) -> None:
    """Buttons one above another at the bottom of the side, or in a row; the first is the main
    one."""
    if screen.is_wide:
        return _arrange_row(screen, side, entries[1:], entries[0] if entries else None)
    gap = round(2 * screen.unit)
    top = side.bottom - len(entries) * (high + gap) + gap
    for index, (key, act, sign) in enumerate(entries):
        place = pygame.Rect(side.left, top + index * (high + gap), side.w, high)
        _add(screen, place, act, key, sign, Style.PLAIN if index else Style.MAIN)
    return None


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
    screen.buttons += keypad(area, screen.unit, screen.type_sign, done, screen.answer_signs)


def _arrange_end(screen: LessonView, side: pygame.Rect, high: int) -> None:
    entries: list[Entry] = [
        ("lesson.again", screen.once_more, "redo"),
        ("lesson.home" if screen.is_course else "lesson.leave", screen.back, "beads"),
    ]
    if screen.is_course and screen.runner.passed:
        entries.insert(0, ("lesson.next", screen.next_lesson, "next"))
    _arrange_column(screen, side, high, entries)

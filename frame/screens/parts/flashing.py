"""A run of flashed numbers for an exercise: the window is lent to it, and how it went is kept."""

from dataclasses import replace
from decimal import Decimal
from functools import partial

import pygame

from frame.app import Perform
from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.learner.learners import new_id
from frame.learner.rows import FlashRow
from frame.practice.exercises import Exercise
from frame.practice.flashing import FlashReport, FlashSetting
from frame.room import Room
from frame.screens.parts.decimals import to_hundredths
from frame.view.classroom import Legibility, classroom_of
from frame.view.flash_pictures import digit_height, glyphs
from frame.view.flash_run import FlashRun
from frame.view.flash_safety import (
    REFERENCE,
    SAFE_RATE,
    FlashRefused,
    Numeral,
    Viewing,
    WindowSize,
    least_distance,
)
from frame.view.presenting import find_presentation


def setting_of(exercise: Exercise) -> FlashSetting:
    """The setting that an exercise's numbers are flashed by."""
    terms = exercise.sum.numbers
    digits = max(len(str(abs(int(term)))) for term in terms)
    is_minus = any(term < 0 for term in terms)
    return FlashSetting(digits, len(terms), exercise.pace, is_minus)


def flash(room: Room, exercise: Exercise) -> Perform:
    """Lend the window to the numbers of an exercise; the result is the FlashReport, or the
    FlashRefused that keeps them from being shown.

    Before the first run the best way to the screen is found, which takes some seconds.
    """

    def run(window: pygame.Surface) -> FlashReport | FlashRefused:
        if room.presentation is None:
            room.say(room.words.line("flash.measuring"))
            notice = partial(_paint_notice, room)
            room.presentation, window = find_presentation(window, notice, room.seconds)
            window.fill(room.theme.flash_ground)
        setting = setting_of(exercise)
        one = FlashRun(
            setting,
            exercise.sum.numbers,
            room.presentation,
            room.lettering,
            room.theme,
            viewing_of(room, setting, window.get_size()),
        )
        try:
            return one.run(window, room.seconds)
        except FlashRefused as refused:
            return refused

    return Perform(run)


def _paint_notice(room: Room, window: pygame.Surface) -> None:
    """What is seen while the screen is measured: a dark window with a sentence."""
    window.fill(room.theme.flash_ground)
    text, colour = room.words.text("flash.measuring"), room.theme.flash_one
    place = window.get_rect().inflate(-window.get_width() // 8, 0)
    room.lettering.draw(window, text, place, 2, colour, align="centre")


def _numeral(room: Room, setting: FlashSetting) -> Numeral:
    return Numeral(setting.digits, setting.minus, glyphs(room.lettering))


def viewing_of(room: Room, setting: FlashSetting, window: WindowSize) -> Viewing:
    """From how far numbers are looked at: as the classroom says, or else WCAG's reference."""
    classroom = classroom_of(room.settings)
    if classroom is None:
        return REFERENCE
    return classroom.flash_viewing(_numeral(room, setting), window)


def height_of(room: Room, setting: FlashSetting, window: WindowSize) -> int:
    """How high the digits come, in pixels."""
    viewing = viewing_of(room, setting, window)
    return digit_height(_numeral(room, setting), setting.interval, window, viewing)


def size_note(room: Room, setting: FlashSetting, window: WindowSize) -> str:
    """How large the digits of quick numbers are held, and for whom that is reckoned; in a
    classroom, whether its last row can read them."""
    words, classroom = room.words, classroom_of(room.settings)
    height = height_of(room, setting, window)
    if classroom is not None:
        nearest = to_hundredths(classroom.nearest)
        match classroom.legibility(height / window[1]):
            case Legibility.EASY:
                return words.text("classroom.size_easy", height=height, metres=nearest)
            case Legibility.JUST:
                return words.text("classroom.size_just", height=height, metres=nearest)
        small = words.text("classroom.size_not", height=height, metres=nearest)
        slow = height_of(room, replace(setting, interval=1 / SAFE_RATE), window)
        return f"{small} {words.text('classroom.slower')}" if slow > height else small
    box = _numeral(room, setting).box(height)
    distance = Decimal(f"{least_distance(box, window):.1f}")
    return words.text("flash.size", height=height, distance=distance)


def refusal(refused: FlashRefused, words: Words) -> Line:
    """What is said where numbers may not be shown."""
    verdict = refused.verdict
    rate = Decimal(f"{min(verdict.fastest_rate, SAFE_RATE):.1f}")
    return words.line("flash.refused", height=verdict.largest_height, rate=rate)


def told(report: FlashReport, words: Words) -> str:
    """What the screen did in a run, in a sentence."""
    count, limit = len(report.items), to_hundredths(report.late_after_ms)
    if report.missed:
        return words.text("flash.late", late=len(report.missed), count=count, limit=limit)
    return words.text("flash.on_time", count=count, rate=to_hundredths(report.rate), limit=limit)


def keep(room: Room, exercise: Exercise, report: FlashReport) -> None:
    """Keep what the screen did in a run, once it is over."""
    sitting, now, run_id = room.sitting, room.now(), new_id()
    if sitting is None:
        return
    row = _row(setting_of(exercise), report)
    room.keeper.write(lambda store: store.record_flash(run_id, sitting.id, row, now))


def _row(setting: FlashSetting, report: FlashReport) -> FlashRow:
    items = tuple(
        (1000 * item.requested, None if item.shown is None else 1000 * item.shown)
        for item in report.items
    )
    return FlashRow(
        digits=setting.digits, count=setting.count, interval=setting.interval,
        minus=setting.minus, path=report.path, refresh=report.schedule.refresh,
        sd_ms=report.onset_sd_ms, worst_ms=report.worst_ms, drift_ms=report.drift_ms,
        missed=len(report.missed), stopped=report.was_stopped, counts=report.counts, items=items,
    )  # fmt: skip

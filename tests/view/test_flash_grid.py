"""Flashed numbers at every legal setting, played on a stage with a clock of its own and metered.

The meter knows nothing of the program. What it meters is what the program shows: each picture
from the moment at which the run hands it to the screen.
"""

import gc
from decimal import Decimal
from itertools import cycle, islice, product
from math import ceil, inf
from random import Random

import pygame
import pytest
from flash_meter import Field, field_from_seat, field_of_reference, metered
from flash_stages import Filmed, Recorder
from sight import SHAPES, SIZES

from frame.practice import flashing
from frame.practice.flashing import LEVELS, FlashSetting, Schedule
from frame.resources import ASSETS
from frame.view import flash_safety as safety
from frame.view.flash_pictures import glyphs, prerender
from frame.view.flash_run import READY, REST, play
from frame.view.flash_safety import Numeral, Ruling, Viewing
from frame.view.lettering import Lettering
from frame.view.theme import LIGHT, THEMES

EVERY_LENGTH = range(flashing.DIGITS[0], flashing.DIGITS[1] + 1)
SMALLEST = SIZES[0]
FASTEST = flashing.INTERVAL[0]
"""Seconds from number to number."""

SEATS = {"reference": None, "near": (0.3, 0.35), "front row": (1.25, 1.8), "back row": (1.25, 7.6)}
"""The height of the screen and the distance of the nearest eye, in metres."""

EDGES = [safety.CALM_CHANGE, safety.CALM_CHANGE + safety.BLANK]
"""From here on size is free, and from here on the place is empty between numbers."""

JUST_BELOW = [edge - 0.001 for edge in EDGES]
TELLING = sorted([FASTEST, 2 / 15, *JUST_BELOW, *EDGES])
INTERVALS = sorted([*TELLING, 0.1, 0.12, 0.166, 0.167, 0.2, 0.3, 0.333, 0.334, 0.6, 1.0])

REFRESHES = [None, 60, 50, 59.94, 75, 120, 144]

windows = pytest.mark.parametrize("window", SIZES, ids=lambda size: f"{size[0]}x{size[1]}")
levels = pytest.mark.parametrize("level", LEVELS, ids=lambda level: level.number)

FINEST = 160
"""Pixels of the field's width from which on pixels are left out, evenly."""


@pytest.fixture(scope="module", autouse=True)
def _fonts():
    pygame.display.init()
    pygame.font.init()
    gc.freeze()  # each run collects first, and need not look through all that tests have loaded
    yield
    pygame.display.quit()


@pytest.fixture(scope="module")
def lettering(_fonts):
    return Lettering(ASSETS / "fonts")


def viewing_of(seat):
    return Viewing.of(*SEATS[seat]) if SEATS[seat] else safety.REFERENCE


def field_of(seat, window):
    if not SEATS[seat]:
        return field_of_reference(window[1])
    screen, distance = SEATS[seat]
    return field_from_seat(distance, screen / window[1])


def meter(recorder, seen):
    field = Field(seen.width // recorder.step, seen.height // recorder.step)
    return metered(recorder.onsets, recorder.pictures, field, contained=True)


def setting_of(digits, interval, minus):
    """A setting with so many numbers that they fill more than a second."""
    count = min(flashing.COUNT[1], ceil(1.5 / interval) + 1)
    return FlashSetting(digits, count, interval, minus)


def turning(setting, *numbers):
    every = islice(cycle(numbers), setting.count)
    return tuple(Decimal(number * setting.digits) for number in every)


def alternating(setting):
    return [turning(setting, *"81")]


def drawn(setting):
    return [setting.column(Random(repr(setting)))]


def telling(setting):
    """The column that changes the most pixels, and one as it is drawn."""
    return [*alternating(setting), *drawn(setting)]


def many(setting):
    """Columns that change as many pixels as can be: of repeats, and of signs that come and go."""
    repeats = turning(setting, *"8")
    signed = tuple((-1) ** at * number for at, number in enumerate(repeats))
    return [*telling(setting), signed if setting.minus else repeats]


def played(
    column, setting, window, seat, lettering, *, theme=LIGHT, refresh=None, delays=None, stop=inf
):
    """What was shown of a run, in the place of the numbers."""
    schedule = Schedule.of(setting, refresh)
    pictures = prerender(
        column, setting, window, viewing_of(seat), lettering, theme, schedule.interval
    )
    step = max(1, field_of(seat, window).width // FINEST)
    recorder = Recorder(step, refresh, delays, stop)
    play(recorder, pictures, schedule, "plain", ready=READY)
    return recorder


def assert_calm(setting, lettering, *, window=SMALLEST, seat="reference", columns=telling, **more):
    for column in columns(setting):
        shown = played(column, setting, window, seat, lettering, **more)
        found = meter(shown, field_of(seat, window))
        assert not found.too_much, (found, setting, window, seat, column[:3], more)


@levels
def test_no_level_flashes_too_much(level, lettering):
    assert_calm(level.setting, lettering, columns=drawn)


@pytest.mark.parametrize("interval", TELLING)
@pytest.mark.parametrize("seat", ["reference", "near"])
def test_no_setting_flashes_too_much(interval, seat, lettering):
    for digits, minus in (3, False), (EVERY_LENGTH[-1], True):
        assert_calm(setting_of(digits, interval, minus), lettering, seat=seat)


@pytest.mark.proof
@windows
@pytest.mark.parametrize("seat", SEATS)
@pytest.mark.parametrize("digits", EVERY_LENGTH)
def test_the_whole_grid(window, seat, digits, lettering):
    intervals = INTERVALS if window in SHAPES else TELLING
    for interval, minus in product(intervals, (False, True)):
        setting = setting_of(digits, interval, minus)
        assert_calm(setting, lettering, window=window, seat=seat, columns=many)


@pytest.mark.proof
@windows
@levels
def test_every_level_in_every_window_and_from_every_seat(level, window, lettering):
    for seat in SEATS:
        assert_calm(level.setting, lettering, window=window, seat=seat)


@pytest.mark.proof
@pytest.mark.parametrize("theme", THEMES)
@levels
def test_every_level_in_every_theme(level, theme, lettering):
    assert_calm(level.setting, lettering, columns=many, theme=THEMES[theme])


@pytest.mark.proof
@pytest.mark.parametrize("refresh", REFRESHES)
@pytest.mark.parametrize("interval", INTERVALS)
def test_whole_frames_of_any_screen(refresh, interval, lettering):
    for minus in (False, True):
        assert_calm(setting_of(3, interval, minus), lettering, columns=many, refresh=refresh)


@pytest.mark.parametrize("refresh", REFRESHES[:2])
@pytest.mark.parametrize("delay", [0.02, 0.19, 0.3, 0.39, 0.75, 0.9])
@pytest.mark.parametrize("interval", EDGES)
def test_a_number_that_comes_late_does_not_crowd_others(interval, delay, refresh, lettering):
    setting = FlashSetting(3, 12, interval)
    assert_calm(setting, lettering, columns=alternating, refresh=refresh, delays={2: delay})


@pytest.mark.proof
@pytest.mark.parametrize("refresh", REFRESHES)
@pytest.mark.parametrize("seed", range(50))
def test_numbers_that_come_late_or_are_stopped_at_random(seed, refresh, lettering):
    random = Random(seed)
    setting = FlashSetting(3, 12, random.uniform(1, 3) * safety.CALM_CHANGE)
    longest = random.choice((0.05, 0.3, 1.0))
    how = {
        "delays": {at: random.choice((0.0, random.uniform(0, longest))) for at in range(25)},
        "stop": random.choice((inf, READY + random.uniform(0, setting.total))),
    }
    assert_calm(setting, lettering, columns=alternating, refresh=refresh, **how)


@pytest.mark.parametrize(
    ("theme", "count", "interval"),
    [("light", 2, FASTEST), ("high-contrast", 12, 0.1), ("dark", 7, safety.CALM_CHANGE)],
)
def test_the_window_that_fades_and_the_numbers_together(count, interval, theme, lettering):
    window, setting = pygame.display.set_mode(SMALLEST), FlashSetting(3, count, interval)
    column = turning(setting, *"81")
    window.fill(THEMES[theme].ground)
    pictures = prerender(column, setting, SMALLEST, safety.REFERENCE, lettering, THEMES[theme])
    stage = Filmed(window, pictures.rect)
    for _ in range(2):
        stage.open(THEMES[theme].flash_ground, pictures.ready)
        play(stage, pictures, Schedule.of(setting), "plain", ready=READY)
        stage.close(REST, THEMES[theme].ground)
    assert not metered(stage.onsets, stage.pictures, field_of_reference(480 / Filmed.STEP)).too_much


def enlarged(recorder, times):
    """The same, shown so many times as high and wide."""
    recorder.pictures = [picture.repeat(times, 0).repeat(times, 1) for picture in recorder.pictures]
    return recorder


@pytest.mark.parametrize("digits", [3, 6])
@pytest.mark.parametrize("seat", ["reference", "near", "front row"])
def test_the_same_numbers_at_twice_the_size_flash_too_much(digits, seat, lettering):
    setting, window = setting_of(digits, FASTEST, False), SMALLEST
    shown = played(turning(setting, *"81"), setting, window, seat, lettering)
    assert not meter(shown, field_of(seat, window)).too_much
    assert meter(enlarged(shown, 2), field_of(seat, window)).too_much


@pytest.mark.parametrize("digits", [3, 6])
def test_slow_numbers_shown_quickly_flash_too_much(digits, lettering):
    setting = setting_of(digits, safety.CALM_CHANGE, False)
    shown = played(turning(setting, *"81"), setting, SMALLEST, "reference", lettering)
    assert not meter(shown, field_of_reference(480)).too_much
    shown.onsets = [onset * 0.5 for onset in shown.onsets]
    assert meter(shown, field_of_reference(480)).too_much


def verdict(interval, numeral, height, window, blank=False):
    return safety.flash_verdict(
        interval, numeral, height, window, blank=blank, ground=LIGHT.flash_ground,
        inks=(LIGHT.flash_one, LIGHT.flash_other),
    )  # fmt: skip


@windows
@pytest.mark.parametrize("digits", [1, 3, 6])
@pytest.mark.parametrize("blank", [False, True], ids=["", "blank"])
def test_what_is_just_beyond_the_limit_is_refused(window, digits, blank, lettering):
    numeral = Numeral(digits, True, glyphs(lettering))
    most = safety.largest_height(numeral, window)
    calm = 0.334 if blank else 0.167
    outcomes = {
        (FASTEST, most): Ruling.BY_AREA,
        (FASTEST, most + 1): Ruling.REFUSE,
        (calm - 0.001, most + 1): Ruling.REFUSE,
        (calm, most + 1): Ruling.BY_COUNT,
        (calm, window[1]): Ruling.BY_COUNT,
    }
    for (interval, height), outcome in outcomes.items():
        assert verdict(interval, numeral, height, window, blank).outcome is outcome, interval

"""Flashed numbers at every legal setting, played on a stage with a clock of its own and metered.

The meter knows nothing of the program. What it meters is what the program shows: each picture
from the moment at which the run hands it to the screen.
"""

from decimal import Decimal
from itertools import cycle, islice, product
from math import ceil
from random import Random

import pygame
import pytest
from flash_meter import Field, field_from_seat, field_of_reference, metered

from frame.practice.flashing import (
    COUNT,
    DIGITS,
    INTERVAL,
    LEVELS,
    FlashSetting,
    Schedule,
    draw_column,
)
from frame.resources import ASSETS
from frame.view.flash_pictures import glyphs, prerender
from frame.view.flash_run import READY, REST, play
from frame.view.flash_safety import (
    BLANK,
    CALM_CHANGE,
    REFERENCE,
    Numeral,
    Outcome,
    Viewing,
    flash_verdict,
    largest_height,
)
from frame.view.flash_stage import WindowStage
from frame.view.lettering import Lettering
from frame.view.theme import LIGHT, THEMES

WINDOWS = [(800, 480), (1024, 768), (1280, 720), (1920, 1080), (3840, 2160)]
EVERY_LENGTH = range(DIGITS[0], DIGITS[1] + 1)
FASTEST = INTERVAL[0]
"""Seconds from number to number."""

SEATS = {"reference": None, "near": (0.3, 0.35), "front row": (1.25, 1.8), "back row": (1.25, 7.6)}
"""The height of the screen and the distance of the nearest eye, in metres."""

EDGES = [CALM_CHANGE, CALM_CHANGE + BLANK]
"""From here on size is free, and from here on the place is empty between numbers."""

JUST_BELOW = [edge - 0.001 for edge in EDGES]
TELLING = sorted([FASTEST, 2 / 15, *JUST_BELOW, *EDGES])
INTERVALS = sorted([*TELLING, 0.1, 0.12, 0.166, 0.167, 0.2, 0.3, 0.333, 0.334, 0.6, 1.0])

windows = pytest.mark.parametrize("window", WINDOWS, ids=lambda size: f"{size[0]}x{size[1]}")
levels = pytest.mark.parametrize("level", LEVELS, ids=lambda level: level.number)

FINEST = 240
"""Pixels of the field's width from which on pixels are left out, evenly."""


@pytest.fixture(scope="module", autouse=True)
def _fonts():
    pygame.display.init()
    pygame.font.init()
    yield
    pygame.quit()


@pytest.fixture(scope="module")
def lettering(_fonts):
    return Lettering(ASSETS / "fonts")


class Recorder:
    """A stage that keeps what it shows, and when. Its clock runs when it is looked at or waited
    for. With `refresh` a show lasts until the screen's next picture; `delays` make the shows late
    that are so numbered."""

    def __init__(self, refresh=None, delays=None):
        self.refresh, self.delays = refresh, delays or {}
        self.now, self.drawn = 0.0, None
        self.onsets, self.pictures = [], []

    def seconds(self):
        self.now += 1e-4
        return self.now

    def wait(self, seconds):
        self.now += seconds
        return False

    def draw(self, picture):
        self.drawn = pygame.surfarray.array3d(picture).swapaxes(0, 1)

    def show(self):
        self.now += self.delays.get(len(self.onsets), 0.0)
        if self.refresh:
            self.now = ceil(self.now * self.refresh - 1e-9) / self.refresh
        self.onsets.append(self.now)
        self.pictures.append(self.drawn)


def viewing_of(seat):
    return Viewing.of(*SEATS[seat]) if SEATS[seat] else REFERENCE


def field_of(seat, window):
    if not SEATS[seat]:
        return field_of_reference(window[1])
    screen, distance = SEATS[seat]
    return field_from_seat(distance, screen / window[1])


def meter(recorder, seen):
    """What the meter says of a record. Of large pictures it takes each second, third... pixel."""
    step = max(1, seen.width // FINEST)
    thin = [picture[::step, ::step] for picture in recorder.pictures]
    thin_field = Field(seen.width // step, seen.height // step)
    return metered(recorder.onsets, thin, thin_field, contained=True)


def setting_of(digits, interval, minus):
    """A setting with so many numbers that they fill more than a second."""
    count = min(COUNT[1], ceil(1.5 / interval) + 1)
    return FlashSetting(digits, count, interval, minus)


def turning(setting, *numbers):
    every = islice(cycle(numbers), setting.count)
    return tuple(Decimal(number * setting.digits) for number in every)


def alternating(setting):
    return [turning(setting, *"81")]


def drawn(setting):
    return [draw_column(setting, Random(repr(setting)))]


def telling(setting):
    """The column that changes the most pixels, and one as it is drawn."""
    return [*alternating(setting), *drawn(setting)]


def many(setting):
    """Columns that change as many pixels as can be: of repeats, and of signs that come and go."""
    repeats = turning(setting, *"8")
    signed = tuple((-1) ** at * number for at, number in enumerate(repeats))
    signs = [signed] if setting.minus else []
    return [*telling(setting), repeats, turning(setting, *"817"), *signs]


def played(column, setting, window, seat, lettering, *, theme=LIGHT, refresh=None, delays=None):
    """What was shown of a run, in the place of the numbers."""
    schedule = Schedule.of(setting, refresh)
    pictures = prerender(
        column, setting, window, viewing_of(seat), lettering, theme, schedule.interval
    )
    recorder = Recorder(refresh, delays)
    play(recorder, pictures, schedule, "plain", ready=READY)
    return recorder


def assert_calm(setting, window, seat, lettering, *, columns=many, **more):
    for column in columns(setting):
        shown = played(column, setting, window, seat, lettering, **more)
        found = meter(shown, field_of(seat, window))
        assert not found.too_much, (found, setting, window, seat, column[:3], more)


@levels
def test_no_level_flashes_too_much(level, lettering):
    assert_calm(level.setting, (800, 480), "reference", lettering, columns=drawn)


@pytest.mark.parametrize("interval", TELLING)
@pytest.mark.parametrize(("window", "seat"), [((800, 480), "reference"), ((800, 480), "near")])
def test_no_setting_flashes_too_much(interval, window, seat, lettering):
    for digits, minus in (3, False), (DIGITS[1], True):
        setting = setting_of(digits, interval, minus)
        assert_calm(setting, window, seat, lettering, columns=telling)


@pytest.mark.proof
@windows
@pytest.mark.parametrize("seat", SEATS)
@pytest.mark.parametrize("digits", EVERY_LENGTH)
def test_the_whole_grid(window, seat, digits, lettering):
    for interval, minus in product(INTERVALS, (False, True)):
        assert_calm(setting_of(digits, interval, minus), window, seat, lettering)


@pytest.mark.proof
@levels
@windows
def test_every_level_in_every_window_theme_and_from_every_seat(level, window, lettering):
    for seat, theme in product(SEATS, THEMES.values()):
        assert_calm(level.setting, window, seat, lettering, theme=theme)


@pytest.mark.proof
@pytest.mark.parametrize("refresh", [50, 59.94, 60, 75, 120, 144])
@pytest.mark.parametrize("interval", INTERVALS)
def test_whole_frames_of_any_screen(refresh, interval, lettering):
    for minus in (False, True):
        assert_calm(
            setting_of(3, interval, minus), (800, 480), "reference", lettering, refresh=refresh
        )


@pytest.mark.parametrize("theme", THEMES)
def test_no_theme_flashes_too_much(theme, lettering):
    for interval in FASTEST, CALM_CHANGE:
        setting = setting_of(3, interval, True)
        assert_calm(
            setting, (800, 480), "reference", lettering, columns=telling, theme=THEMES[theme]
        )


@pytest.mark.parametrize("delay", [0.02, 0.19, 0.3, 0.39, 0.75, 0.9])
@pytest.mark.parametrize("interval", [CALM_CHANGE, CALM_CHANGE + BLANK])
def test_a_number_that_comes_late_does_not_crowd_those_after_it(interval, delay, lettering):
    assert_calm_though_late(interval, {2: delay}, (None, 60), lettering)


def assert_calm_though_late(interval, delays, refreshes, lettering):
    setting = FlashSetting(3, 12, interval)
    for refresh in refreshes:
        assert_calm(
            setting, (800, 480), "reference", lettering,
            columns=alternating, refresh=refresh, delays=delays,
        )  # fmt: skip


@pytest.mark.proof
@pytest.mark.parametrize("seed", range(100))
def test_numbers_that_come_late_at_random_do_not_crowd_others(seed, lettering):
    random = Random(seed)
    longest = random.choice((0.05, 0.3, 1.0))
    delays = {at: random.choice((0.0, random.uniform(0, longest))) for at in range(25)}
    interval = random.uniform(CALM_CHANGE, 3 * CALM_CHANGE)
    assert_calm_though_late(interval, delays, (None, 50, 60, 75, 144), lettering)


class Filmed(WindowStage):
    """The real window, on a clock of its own, that keeps what it shows."""

    def __init__(self, window, rect):
        self.now, self.onsets, self.pictures = 0.0, [], []
        super().__init__(window, rect, self._clock)

    def _clock(self):
        self.now += 1e-4
        return self.now

    def wait(self, seconds):
        self._keep()
        self.now += seconds
        return False

    def show(self):
        super().show()
        self._keep()

    def _keep(self):
        picture = pygame.surfarray.array3d(self.window).swapaxes(0, 1)[::8, ::8]
        if not self.pictures or (picture != self.pictures[-1]).any():
            self.onsets.append(self.now)
            self.pictures.append(picture)


@pytest.mark.parametrize(
    ("theme", "count", "interval"),
    [("light", 2, FASTEST), ("high-contrast", 12, 0.1), ("dark", 7, CALM_CHANGE)],
)
def test_the_window_that_fades_and_the_numbers_together(count, interval, theme, lettering):
    window, setting = pygame.display.set_mode((800, 480)), FlashSetting(3, count, interval)
    column = turning(setting, *"81")
    window.fill(THEMES[theme].ground)
    pictures = prerender(column, setting, (800, 480), REFERENCE, lettering, THEMES[theme])
    stage = Filmed(window, pictures.rect)
    for _ in range(2):
        stage.open(THEMES[theme].flash_ground, pictures.ready)
        play(stage, pictures, Schedule.of(setting), "plain", ready=READY)
        stage.close(REST, THEMES[theme].ground)
    assert not metered(stage.onsets, stage.pictures, field_of_reference(480 / 8)).too_much


def enlarged(recorder, times):
    """The same, shown so many times as high and wide."""
    recorder.pictures = [picture.repeat(times, 0).repeat(times, 1) for picture in recorder.pictures]
    return recorder


@pytest.mark.parametrize("digits", [3, 6])
@pytest.mark.parametrize("seat", ["reference", "near", "front row"])
def test_the_same_numbers_at_twice_the_size_flash_too_much(digits, seat, lettering):
    setting, window = setting_of(digits, FASTEST, False), (800, 480)
    shown = played(turning(setting, *"81"), setting, window, seat, lettering)
    assert not meter(shown, field_of(seat, window)).too_much
    assert meter(enlarged(shown, 2), field_of(seat, window)).too_much


@pytest.mark.parametrize("digits", [3, 6])
def test_slow_numbers_shown_quickly_flash_too_much(digits, lettering):
    setting = setting_of(digits, CALM_CHANGE, False)
    shown = played(turning(setting, *"81"), setting, (800, 480), "reference", lettering)
    assert not meter(shown, field_of_reference(480)).too_much
    shown.onsets = [onset * 0.5 for onset in shown.onsets]
    assert meter(shown, field_of_reference(480)).too_much


def verdict(interval, numeral, height, window, blank=False):
    return flash_verdict(
        interval, numeral, height, window, blank=blank, ground=LIGHT.flash_ground,
        inks=(LIGHT.flash_one, LIGHT.flash_other),
    )  # fmt: skip


@windows
@pytest.mark.parametrize("digits", [1, 3, 6])
@pytest.mark.parametrize("blank", [False, True], ids=["", "blank"])
def test_what_is_just_beyond_the_limit_is_refused(window, digits, blank, lettering):
    numeral = Numeral(digits, True, glyphs(lettering))
    most = largest_height(numeral, window)
    calm = 0.334 if blank else 0.167
    outcomes = {
        (FASTEST, most): Outcome.PASS_BY_AREA,
        (FASTEST, most + 1): Outcome.REFUSE,
        (calm - 0.001, most + 1): Outcome.REFUSE,
        (calm, most + 1): Outcome.PASS_BY_COUNT,
        (calm, window[1]): Outcome.PASS_BY_COUNT,
    }
    for (interval, height), outcome in outcomes.items():
        assert verdict(interval, numeral, height, window, blank).outcome is outcome, interval

"""Runs of flashed numbers on a stage whose clock and delays are the test's own."""

import gc
import math
import time
from collections import Counter
from itertools import pairwise
from random import Random

import pygame
import pytest

from frame.practice.flashing import FlashReport, FlashSetting, Schedule
from frame.resources import ASSETS
from frame.view import flash_run, flash_stage
from frame.view.flash_pictures import FlashPictures
from frame.view.flash_run import FlashRun, play
from frame.view.lettering import Lettering
from frame.view.presenting import Presentation
from frame.view.theme import LIGHT, luminance

CONTEST = FlashSetting.of_total(3, 15, 2.0)
READY = 1.0


@pytest.fixture(autouse=True)
def little_to_clear_up():
    """Each run clears up before it begins, which takes long amid all that tests hold."""
    gc.freeze()
    yield
    gc.unfreeze()


class PaperStage:
    """A stage of paper: each look at the clock takes `tick` seconds and each show `call`.

    `delays` are planted, in seconds, before the shows of the pictures they are given for. With a
    `refresh` a show waits for the screen's next frame. `stop_at` is when the person has had
    enough.
    """

    def __init__(self, call=0.0001, refresh=None, delays=None, stop_at=math.inf, tick=2e-5):
        self.now, self.call, self.refresh = 12.5, call, refresh
        self.delays, self.stop_at, self.tick = delays or {}, stop_at, tick
        self.drawn = None
        self.draws, self.shows, self.collecting = [], [], []

    def seconds(self):
        self.now += self.tick
        return self.now

    def wait(self, seconds):
        assert seconds >= 0
        self.now = max(self.now, min(self.now + seconds, self.stop_at))
        return self.now >= self.stop_at

    def draw(self, picture):
        self.drawn = picture
        self.draws.append((self.now, picture))

    def show(self):
        self.collecting.append(gc.isenabled())
        self.now += self.delays.get(self.drawn, 0.0)
        if self.refresh:
            self.now = (math.floor(self.now * self.refresh + 1e-6) + 1) / self.refresh
        self.now += self.call
        self.shows.append((self.now, self.drawn))


def paper_pictures(numbers):
    """Pictures of paper: numbers, for a stage only passes them on."""
    rect = pygame.Rect(0, 0, 1, 1)
    return FlashPictures(rect, tuple(range(numbers)), "blank", "ready", 1)


def played(stage, setting=CONTEST, refresh=None):
    schedule = Schedule.of(setting, refresh)
    return play(stage, paper_pictures(setting.count), schedule, "plain", ready=READY)


def test_numbers_come_once_each_in_order_and_leave_the_place_blank():
    stage = PaperStage()
    report = played(stage)
    assert [picture for _, picture in stage.shows] == ["ready", *range(15), "blank"]
    assert report.counts and report.missed == ()
    assert report.items[0].requested == 0
    assert stage.shows[-1][0] - stage.shows[1][0] == pytest.approx(2.0, abs=1e-3)


def test_a_cost_of_each_show_does_not_add_up():
    stage = PaperStage(call=0.003)
    report = played(stage)
    assert report.drift_ms == pytest.approx(0, abs=0.05)
    assert report.worst_ms == pytest.approx(3.0, abs=0.1)
    assert report.onset_sd_ms < 0.05


@pytest.mark.parametrize("interval", [0.08, 2 / 15, 0.4, 2.0])
@pytest.mark.parametrize(("call", "counts"), [(0.00401, True), (0.0075, True), (0.0085, False)])
def test_a_slow_screen_voids_a_run_only_from_the_limit_on(interval, call, counts):
    report = played(PaperStage(call=call), FlashSetting(2, 6, interval))
    assert report.counts is counts
    assert len(report.missed) == (0 if counts else 6)


def test_each_number_is_drawn_long_before_its_time():
    stage = PaperStage()
    played(stage)
    drawn = {picture: time for time, picture in stage.draws}
    shown = {picture: time for time, picture in stage.shows}
    assert all(shown[item] - drawn[item] > 0.1 for item in range(15))


def test_slow_numbers_have_a_blank_between_them_and_quick_ones_have_none():
    for interval, blanks in ((1.0, 5), (0.3, 1)):
        stage = PaperStage()
        played(stage, FlashSetting(2, 5, interval))
        assert Counter(picture for _, picture in stage.shows)["blank"] == blanks
        assert stage.shows[-1][1] == "blank"


# Planted for a number 133 ms before the next one: those that are to be reported, and those not.
HARMLESS = (0.0, 0.0005, 0.0041, 0.0077)
LATE = (0.0083, 0.017, 0.06, 0.12)


def test_ten_thousand_numbers_and_every_late_one_is_reported_and_no_other():
    random, numbers = Random(77), 0
    while numbers < 10_000:
        setting = FlashSetting(3, 30, 2 / 15)
        delays = {
            item: random.choice(LATE if random.random() < 0.05 else HARMLESS) for item in range(30)
        }
        report = played(PaperStage(delays=delays, tick=1e-4), setting)
        planted = tuple(item for item, delay in delays.items() if delay in LATE)
        assert report.missed == planted
        assert report.counts is not bool(planted)
        numbers += 30


@pytest.mark.parametrize("refresh", [50.0, 60.0, 75.0, 144.0])
def test_ten_thousand_numbers_in_frames(refresh):
    """A quarter of them at each refresh. A delay of less than half a frame costs nothing; a
    longer one costs a frame or two, of which one may be harmless too where frames are short."""
    random, numbers, frame = Random(int(refresh)), 0, 1 / refresh
    harmless, late = (0.0, 0.3 * frame), (0.7 * frame, 1.7 * frame)
    if frame < 0.008:
        harmless, late = (*harmless, late[0]), late[1:]
    while numbers < 2_500:
        setting = FlashSetting(3, 30, 2 / 15)
        delays = {
            item: random.choice(late if random.random() < 0.05 else harmless) for item in range(30)
        }
        stage = PaperStage(call=1e-5, refresh=refresh, delays=delays, tick=1e-4)
        report = played(stage, setting, refresh)
        assert report.missed == tuple(item for item, delay in delays.items() if delay in late)
        numbers += 30


@pytest.mark.parametrize(
    # 133.3 ms are 8 frames of 60 Hz, 10 of 75, 6.7 of 50 and 19.2 of 144.
    ("refresh", "frames"),
    [(60.0, 8), (75.0, 10), (50.0, 7), (144.0, 19)],
)
def test_in_frames_there_is_no_drift(refresh, frames):
    stage = PaperStage(call=0, refresh=refresh)
    report = played(stage, refresh=refresh)
    times = [time for time, picture in stage.shows if picture in range(15)]
    for before, after in pairwise(times):
        assert (after - before) * refresh == pytest.approx(frames, abs=1e-6)
    assert report.counts
    assert report.drift_ms == pytest.approx(0, abs=1e-6)
    assert report.worst_ms == pytest.approx(0, abs=0.05)
    assert report.rate == pytest.approx(refresh / frames)


@pytest.mark.parametrize("wrong_by", [-3e-4, 3e-4])
def test_a_refresh_known_a_little_wrongly_makes_no_number_late(wrong_by):
    setting = FlashSetting(2, 30, 4.0)
    stage = PaperStage(call=0, refresh=60.0, tick=2e-4)
    report = played(stage, setting, 60.0 * (1 + wrong_by))
    assert report.missed == ()
    times = [time for time, picture in stage.shows if picture in range(30)]
    assert {round((after - before) * 60) for before, after in pairwise(times)} == {240}
    assert report.drift_ms == pytest.approx(29 * 4000 * wrong_by, rel=0.01)


def test_what_is_overtaken_is_left_out_and_the_rest_is_on_time():
    stage = PaperStage(delays={4: 0.3})
    report = played(stage)
    assert [picture for _, picture in stage.shows] == [
        "ready", 0, 1, 2, 3, 4, 6, *range(7, 15), "blank",
    ]  # fmt: skip
    # 4 came 300 ms late, when 5 and 6 were due: 5 was over, 6 came at once.
    assert report.missed == (4, 5, 6)
    assert report.items[5].shown is None
    assert abs(report.drift_ms) < 0.1


@pytest.mark.parametrize("interval", [0.21, 0.3, 0.42, 0.6, 1.0])
def test_no_delay_makes_slow_and_large_numbers_change_seven_times_in_a_second(interval):
    random = Random(int(interval * 100))
    for _ in range(60):
        delays = {
            picture: random.choice((0.0, 0.1, 0.2, 0.39, 0.5, 1.2))
            for picture in (*range(12), "blank")
            if random.random() < 0.3
        }
        stop_at = 12.5 + random.uniform(1, 20)
        stage = PaperStage(delays=delays, stop_at=stop_at, tick=1e-3)
        played(stage, FlashSetting(3, 12, interval))
        changes = [time for time, _ in stage.shows]
        assert all(after - before > 1 for before, after in zip(changes, changes[6:], strict=False))
        assert stage.shows[-1][1] == "blank"


@pytest.mark.parametrize("setting", [CONTEST, FlashSetting(1, 5, 5.0), FlashSetting(1, 30, 0.08)])
@pytest.mark.parametrize("share", [0.0, 0.31, 0.5, 0.9])
def test_stopping(setting, share):
    began = 12.5 + READY
    stop_at = began + share * setting.total
    stage = PaperStage(stop_at=stop_at)
    report = played(stage, setting)
    assert report.was_stopped and not report.counts
    assert report.missed == ()
    numbers = [time for time, picture in stage.shows if picture not in ("ready", "blank")]
    assert all(time <= stop_at + 0.005 for time in numbers)
    assert stage.shows[-1][1] == "blank"
    assert stage.now <= stop_at + 0.001


def test_stopping_while_showing_takes_longer_than_there_is_time():
    stage = PaperStage(call=0.2, stop_at=14.5)
    report = played(stage, FlashSetting(1, 30, 0.08))
    assert report.was_stopped
    assert stage.now < 14.5 + 0.7


@pytest.mark.parametrize("was_on", [True, False])
def test_nothing_is_cleared_up_meanwhile(was_on):
    (gc.enable if was_on else gc.disable)()
    try:
        stage = PaperStage()
        played(stage)
        assert not any(stage.collecting)
        assert gc.isenabled() is was_on
    finally:
        gc.enable()


@pytest.fixture
def window(monkeypatch):
    """A window without a screen; fades and rests are short."""
    pygame.display.init()
    pygame.font.init()
    monkeypatch.setattr(flash_stage, "FADE", 0.03)
    monkeypatch.setattr(flash_run, "READY", 0.02)
    monkeypatch.setattr(flash_run, "REST", 0.01)
    window = pygame.display.set_mode((640, 480))
    window.fill(LIGHT.ground)
    pygame.event.clear()
    yield window
    pygame.display.quit()


@pytest.fixture
def light(window, monkeypatch):
    """The luminance of the window's corner at each showing of the whole window."""
    seen = []
    flip = pygame.display.flip

    def watched():
        seen.append(luminance(tuple(window.get_at((0, 0)))[:3]))
        flip()

    monkeypatch.setattr(pygame.display, "flip", watched)
    return seen


def a_run(setting, refresh=None):
    column = setting.column(Random(1))
    lettering = Lettering(ASSETS / "fonts")
    return FlashRun(setting, column, Presentation("plain", refresh, 0.1), lettering, LIGHT)


def key(code, kind=pygame.KEYDOWN, text=""):
    return pygame.event.Event(kind, {"key": code, "mod": 0, "unicode": text, "scancode": 0})


def test_a_run_in_the_window_fades_there_and_back(window, light):
    report = a_run(FlashSetting(2, 4, 0.08)).run(window, time.perf_counter)
    assert isinstance(report, FlashReport)
    assert not report.was_stopped
    assert len(report.items) == 4 and all(item.shown is not None for item in report.items)
    dark, half = luminance(LIGHT.flash_ground), len(light) // 2
    there, back = light[:half], light[half:]
    assert there == sorted(there, reverse=True) and back == sorted(back)
    assert there[-1] == pytest.approx(dark) == pytest.approx(light[half - 1])
    assert back[-1] == pytest.approx(luminance(LIGHT.ground))
    # Slowly: no step is a fifth of the whole range.
    steps = [abs(after - before) for before, after in pairwise([luminance(LIGHT.ground), *light])]
    assert max(steps) < 0.2
    assert tuple(window.get_at((320, 240)))[:3] == LIGHT.ground


@pytest.mark.parametrize(
    "event",
    [
        key(pygame.K_ESCAPE),
        key(pygame.K_F5),
        key(pygame.K_PAGEDOWN),
        key(pygame.K_PAGEUP),
        key(pygame.K_PERIOD, text="."),
        key(pygame.K_b, text="b"),
        pygame.event.Event(pygame.QUIT),
    ],
    ids=["escape", "F5", "on", "back", "point", "B", "closed"],
)
def test_what_stops_a_run(window, event):
    pygame.event.post(event)
    report = a_run(FlashSetting(2, 30, 5.0)).run(window, time.perf_counter)
    assert report.was_stopped
    assert all(item.shown is None for item in report.items)
    passed_on = [one for one in pygame.event.get() if one.type in (pygame.QUIT, pygame.KEYDOWN)]
    is_for_others = event.type == pygame.QUIT or event.key in (pygame.K_PERIOD, pygame.K_b)
    assert len(passed_on) == is_for_others, "the window's closing, and what makes a board black"


@pytest.mark.parametrize(("code", "text"), [(pygame.K_KP_PERIOD, "."), (pygame.K_7, "7")])
def test_no_key_of_a_number_stops_a_run(window, code, text):
    pygame.event.post(key(code, text=text))
    assert not a_run(FlashSetting(1, 2, 0.08)).run(window, time.perf_counter).was_stopped


def test_a_window_that_is_to_close_does_not_fade_first(window, monkeypatch):
    monkeypatch.setattr(flash_stage, "FADE", 20.0)
    pygame.event.post(pygame.event.Event(pygame.QUIT))
    began = time.perf_counter()
    a_run(FlashSetting(2, 30, 5.0)).run(window, time.perf_counter)
    assert time.perf_counter() - began < 10.0


def test_a_press_stops_a_run_but_not_the_one_that_began_it(window):
    press = pygame.event.Event(pygame.MOUSEBUTTONDOWN, {"pos": (9, 9), "button": 1, "touch": False})
    pygame.event.post(press)
    assert not a_run(FlashSetting(1, 2, 0.08)).run(window, time.perf_counter).was_stopped
    stage = flash_stage.WindowStage(window, window.get_rect(), time.perf_counter)
    assert not stage.open(LIGHT.flash_ground, window.copy())
    pygame.event.post(press)
    assert stage.wait(0)


def test_keys_of_an_answer_are_not_lost(window):
    stage = flash_stage.WindowStage(window, window.get_rect(), time.perf_counter)
    stage.open(LIGHT.flash_ground, window.copy())
    pygame.event.post(key(pygame.K_7))
    stage.close(0.01, LIGHT.ground)
    assert [one.key for one in pygame.event.get(pygame.KEYDOWN)] == [pygame.K_7]

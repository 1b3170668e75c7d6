"""`measure`: what this computer and its screen really do, as text or JSON."""

from dataclasses import asdict

from frame.app import NoScreen
from frame.commands.output import Json, columns, write_json
from frame.language.catalogue import Words
from frame.language.speech import Clips
from frame.measuring.call import CallFigures, measure_call
from frame.measuring.flash import FlashFigures
from frame.measuring.technique import Clock, Figures, measure
from frame.measuring.window import WindowFigures, measure_window
from frame.resources import VOICE

SECONDS_EACH = 0.3


def show_figures(clock: Clock, is_json: bool, words: Words) -> int:
    """The figures go to standard output; 0."""
    figures, window = measure(clock, SECONDS_EACH), window_or_none(words)
    call = measure_call(words, Clips(VOICE))
    if is_json:
        write_json(figures_shape(figures, window, call))
    else:
        print(_table(figures, window, call, words))
    return 0


def window_or_none(words: Words) -> WindowFigures | None:
    """The window's figures, or None where there is no screen."""
    try:
        return measure_window(words)
    except NoScreen:
        return None


def figures_shape(figures: Figures, window: WindowFigures | None, call: CallFigures | None) -> Json:
    """The figures as JSON; what was not measured is null."""
    return {
        "screen": _screen_shape(window) if window else None,
        **_flash_shapes(window),
        "call": asdict(call) if call else None,
        "touch_ms": {"median": window.touch_median, "p99": window.touch_p99} if window else None,
        "start_ms": window.start if window else figures.start_ms,
        "memory_mb": figures.memory_mb,
        "idle_cpu_percent": window.idle_cpu_percent if window else None,
        "technique": {
            "speeds": [
                {
                    "digits": speed.digits,
                    "planned_per_s": speed.planned_per_s,
                    "replayed_per_s": speed.replayed_per_s,
                }
                for speed in figures.speeds
            ],
            "verdict_us": figures.verdict_us,
        },
    }


def _screen_shape(window: WindowFigures) -> Json:
    return {
        "driver": window.driver,
        "width": window.size[0],
        "height": window.size[1],
        "frame_ms": {"median": window.frame_median, "p99": window.frame_p99},
        "frame_4k_ms": {"median": window.large_median, "p99": window.large_p99},
        "bare_window_start_ms": window.bare,
    }


def _flash_shapes(window: WindowFigures | None) -> Json:
    figures = [asdict(each) for each in window.flash] if window else []
    slow, fast = figures or (None, None)
    return {"flash": slow, "flash_fast": fast}


def _table(
    figures: Figures, window: WindowFigures | None, call: CallFigures | None, words: Words
) -> str:
    unknown = words.text("cli.measure.not_measured")
    rows = [
        (
            words.text("cli.measure.speed", digits=speed.digits),
            words.text(
                "cli.measure.per_second",
                planned=f"{speed.planned_per_s:,}",
                replayed=f"{speed.replayed_per_s:,}",
            ),
        )
        for speed in figures.speeds
    ]
    memory = unknown if figures.memory_mb is None else f"{figures.memory_mb} MB"
    rows += [
        (words.text("cli.measure.verdict"), f"{figures.verdict_us} µs"),
        (words.text("cli.measure.start"), f"{figures.start_ms} ms"),
        (words.text("cli.measure.memory"), memory),
    ]
    rows += _window_rows(window, words) if window else [(words.text("cli.measure.screen"), unknown)]
    flashed = [_flash_row(figures, words) for figures in window.flash] if window else []
    rows += flashed or [(words.text("cli.measure.flash"), unknown)]
    return columns([*rows, _call_row(call, words)])


def _call_row(call: CallFigures | None, words: Words) -> tuple[str, str]:
    if call is None:
        return words.text("cli.measure.call"), words.text("cli.measure.not_measured")
    facts = {"count": str(call.numbers), "digits": str(call.digits)}
    jitter = words.text("cli.measure.jitter", samples=str(call.jitter_samples))
    return words.text("cli.measure.call_of", **facts), jitter


def _flash_row(figures: FlashFigures, words: Words) -> tuple[str, str]:
    seconds = f"{figures.count * figures.interval_ms / 1000:.3g}"
    refresh = figures.refresh_hz
    name = words.text("cli.measure.flash_of", count=str(figures.count), seconds=seconds)
    return name, words.text(
        "cli.measure.onset", sd=str(figures.onset_sd_ms), worst=str(figures.worst_ms),
        drift=str(figures.drift_ms), missed=str(figures.missed_frames), path=figures.path,
        limit=f"{figures.late_after_ms:g}",
        refresh=f"{refresh} Hz" if refresh else words.text("cli.measure.no_refresh"),
    )  # fmt: skip


def _window_rows(window: WindowFigures, words: Words) -> list[tuple[str, str]]:
    def spread(median: float, p99: float) -> str:
        return words.text("cli.measure.spread", median=str(median), p99=str(p99))

    size = f"{window.size[0]}x{window.size[1]} ({window.driver})"
    beside = words.text("cli.measure.beside", ours=str(window.start), bare=str(window.bare))
    return [
        (words.text("cli.measure.screen"), size),
        (words.text("cli.measure.touch"), spread(window.touch_median, window.touch_p99)),
        (words.text("cli.measure.glide"), spread(window.frame_median, window.frame_p99)),
        (words.text("cli.measure.glide_4k"), spread(window.large_median, window.large_p99)),
        (words.text("cli.measure.idle"), f"{window.idle_cpu_percent} %"),
        (words.text("cli.measure.window_start"), beside),
    ]

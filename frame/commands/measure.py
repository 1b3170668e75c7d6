"""`measure`: what this computer really does, as text or JSON."""

from frame.commands.output import Json, columns, write_json
from frame.language.catalogue import Words
from frame.measuring import Clock, Figures, measure

SECONDS_EACH = 0.3


def show_figures(clock: Clock, is_json: bool, words: Words) -> int:
    """The figures go to standard output; 0."""
    figures = measure(clock, SECONDS_EACH)
    if is_json:
        write_json(figures_shape(figures))
    else:
        print(_table(figures, words))
    return 0


def figures_shape(figures: Figures) -> Json:
    """The figures as JSON; what was not measured is null."""
    return {
        "screen": None,
        "flash": None,
        "touch_ms": None,
        "start_ms": figures.start_ms,
        "memory_mb": figures.memory_mb,
        "idle_cpu_percent": None,
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


def _table(figures: Figures, words: Words) -> str:
    rows = []
    for speed in figures.speeds:
        rows.append(
            (
                words.text("cli.measure.speed", digits=speed.digits),
                words.text(
                    "cli.measure.per_second",
                    planned=f"{speed.planned_per_s:,}",
                    replayed=f"{speed.replayed_per_s:,}",
                ),
            )
        )
    unknown = words.text("cli.measure.not_measured")
    memory = "" if figures.memory_mb is None else f"{figures.memory_mb} MB"
    rows += [
        (words.text("cli.measure.verdict"), f"{figures.verdict_us} µs"),
        (words.text("cli.measure.start"), f"{figures.start_ms} ms"),
        (words.text("cli.measure.memory"), memory or unknown),
        (words.text("cli.measure.screen"), unknown),
        (words.text("cli.measure.touch"), unknown),
        (words.text("cli.measure.flash"), unknown),
    ]
    return columns(rows)

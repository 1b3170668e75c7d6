"""The report as one HTML file: its pictures within, no script, nothing from elsewhere."""

import unicodedata
from collections.abc import Iterator
from html import escape
from pathlib import Path

from frame.language.catalogue import Words
from frame.learner.learners import Learner
from frame.learner.new_file import new_file
from frame.learner.trouble import told_of
from frame.report.drawings import bar, beads, portrait
from frame.report.figures import Report
from frame.report.told import SUMS, About, Part, Row, count_text, minutes_text, page_of
from frame.resources import ASSETS
from frame.view.theme import DARK, LIGHT, Colour, Theme

_STYLE = ASSETS / "pages" / "report.css"
_POLICY = "default-src 'none'; style-src 'unsafe-inline'"
_ISOLATED = "\u2068{}\u2069"
"""A name in a script that is written from the right turns nothing around it."""
_CARDS = (About.FAULT, About.HOME)
_GREY = {
    "ground": "#ffffff", "ink": "#000000", "soft": "#333333", "hairline": "#999999",
    "card": "#ffffff", "tile": "#ffffff", "rod": "#777777", "beam": "#000000", "bead": "#444444",
    "bead-edge": "#000000", "rest": "#ffffff", "rest-edge": "#666666", "hint": "#000000",
    "wash": "#ffffff",
}  # fmt: skip
"""On paper."""


def html_of(report: Report, learner: Learner, words: Words) -> str:
    """The page of a learner."""
    page = page_of(report, _ISOLATED.format(_written(learner.nickname)), words)
    title = escape(page.title)
    first = [_section(part, words) for part in page.parts if part.about in SUMS]
    second = [_section(part, words) for part in page.parts if part.about not in SUMS]
    meant = filter(None, (page.legend, page.over))
    told = "".join(f'<p class="note">{escape(one)}</p>\n' for one in meant)
    notes = "\n".join(f"<p>{escape(one)}</p>" for one in page.notes)
    return f"""<!DOCTYPE html>
<html lang="{escape(words.text("report.page.lang"))}">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="{_POLICY}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="color-scheme" content="light dark">
<title>{title}</title>
<style>
{_style()}</style>
</head>
<body>
<header>
{portrait(learner.picture)}<div><h1>{title}</h1><p>{escape(page.day)}</p></div>
</header>
<main>
<div>
{"".join(first)}{told}</div>
<div>
{"".join(second)}</div>
</main>
<footer>
{notes}
</footer>
</body>
</html>
"""


def write_page(path: Path, report: Report, learner: Learner, words: Words) -> None:
    """Write the page to a new file, for this user's eyes alone. Raises StoreError; a file that is
    there already is left as it is."""
    with new_file(path) as fresh, told_of(path):
        fresh.write_text(html_of(report, learner, words), encoding="utf-8")


def _written(name: str) -> str:
    """A name without what is no text."""
    return "".join(sign for sign in name if unicodedata.category(sign) not in ("Cc", "Cs"))


def _section(part: Part, words: Words) -> str:
    kind = f' class="card {part.about}"' if part.about in _CARDS else ""
    inside = "".join((*_rows(part, words), *_bars(part, words), *_sentences(part)))
    return f"<section{kind}>\n<h2>{escape(part.heading)}</h2>\n{inside}</section>\n"


def _rows(part: Part, words: Words) -> Iterator[str]:
    if not part.rows:
        return
    yield '<ul class="kinds">\n'
    for row in part.rows:
        yield f"<li>{''.join(_row(row, words))}</li>\n"
    yield "</ul>\n"


def _row(row: Row, words: Words) -> Iterator[str]:
    yield f'<span class="name">{escape(row.name)}</span> '
    yield f'{beads(row.tally)} <span class="count">{escape(count_text(row.tally, words))}</span>'
    if row.note:
        yield f' <span class="note">{escape(row.note)}</span>'


def _bars(part: Part, words: Words) -> Iterator[str]:
    if not part.bars:
        return
    most = max(one.minutes for one in part.bars)
    yield '<ul class="bars">\n'
    for one, kind in zip(part.bars, ("in", "out"), strict=True):
        minutes = escape(minutes_text(one, words))
        told = f'<span>{escape(one.name)}</span> <span class="count">{minutes}</span>'
        yield f"<li>{told}{bar(one.minutes, most, kind)}</li>\n"
    yield "</ul>\n"


def _sentences(part: Part) -> Iterator[str]:
    return (f"<p>{escape(one)}</p>\n" for one in part.sentences)


def _style() -> str:
    light, dark = _colours(_of_theme(LIGHT)), _colours(_of_theme(DARK))
    by_scheme = f"@media (prefers-color-scheme: dark) {{ :root {{ {dark} }} }}"
    on_paper = f"@media print {{ :root {{ {_colours(_GREY)} }} }}"
    style = _STYLE.read_text(encoding="utf-8")
    return f":root {{ color-scheme: light dark; {light} }}\n{by_scheme}\n{on_paper}\n{style}"


def _of_theme(theme: Theme) -> dict[str, str]:
    used, rest = theme.bead_used, theme.bead_rest
    colours = {
        "ground": theme.ground, "ink": theme.ink, "soft": theme.soft_ink,
        "hairline": theme.hairline, "card": theme.card, "tile": theme.flags.plain.ground,
        "rod": theme.rod, "beam": theme.beam, "bead": used.face, "bead-edge": used.edge,
        "rest": rest.face, "rest-edge": rest.edge, "hint": theme.hint, "wash": theme.hint_wash,
    }  # fmt: skip
    return {name: _code(colour) for name, colour in colours.items()}


def _colours(codes: dict[str, str]) -> str:
    return " ".join(f"--{name}: {code};" for name, code in codes.items())


def _code(colour: Colour) -> str:
    return "#{:02x}{:02x}{:02x}".format(*colour)

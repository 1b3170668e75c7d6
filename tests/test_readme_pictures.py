"""The README's pictures are those that its script renders, alike each time; and the sums that stand
beside them in words are those that are worked there."""

import ast
import re
import subprocess
import sys
from pathlib import Path

import numpy as np
import pygame
import pytest

ROOT = Path(__file__).resolve().parents[1]
FOLDER = ROOT / "assets/readme"
README = (ROOT / "README.md").read_text("utf-8")
SCRIPT = (FOLDER / "make.py").read_text("utf-8")
FAR, FEW = 48, 0.002
"""Systems draw the edge of a letter a little otherwise: so much of a colour, or so many pixels."""
SUM = re.compile(r"\d+ [+−÷] \d+")


def rendered(into: Path) -> dict[str, bytes]:
    """What the script renders into a folder, in a process of its own."""
    into.mkdir()
    asked = (
        f"import sys; sys.path.insert(0, {str(FOLDER)!r}); import make; from pathlib import Path"
    )
    asked += f"; make.make(Path({str(into)!r}))"
    subprocess.run([sys.executable, "-c", asked], check=True, capture_output=True, timeout=300)
    return {path.name: path.read_bytes() for path in into.iterdir()}


@pytest.mark.proof
def test_the_script_renders_the_same_each_time_and_what_is_kept(tmp_path: Path) -> None:
    pytest.importorskip("PIL", reason="pictures are rendered with the extra 'page'")
    once, again = rendered(tmp_path / "once"), rendered(tmp_path / "again")
    assert once == again
    for name in once:
        made, kept = (
            pygame.surfarray.array3d(pygame.image.load(str(folder / name))).astype(int)
            for folder in (tmp_path / "once", FOLDER)
        )
        assert made.shape == kept.shape, name
        assert (np.abs(made - kept).max(axis=2) > FAR).mean() < FEW, name


def told() -> dict[str, str]:
    """What is told of each picture, by the name of its file."""
    return {name: alt for alt, name in re.findall(r"!\[([^\]]*)\]\(assets/readme/(\w+)\.", README)}


def worked() -> dict[str, str]:
    """What each picture does, by its name; of the moving one with what it works."""
    functions = [node for node in ast.parse(SCRIPT).body if isinstance(node, ast.FunctionDef)]
    sources = {one.name: ast.get_source_segment(SCRIPT, one) or "" for one in functions}
    sources["moving"] += SCRIPT[SCRIPT.index("SCENES = (") : SCRIPT.index("WRONG = ")]
    return {name: text.replace(" / ", " ÷ ") for name, text in sources.items()}


@pytest.mark.parametrize("name", sorted(told()))
def test_the_sums_told_of_a_picture_are_worked_in_it(name: str) -> None:
    assert set(SUM.findall(told()[name])) <= set(SUM.findall(worked()[name]))


def test_most_pictures_tell_a_sum() -> None:
    assert sum(bool(SUM.search(alt)) for alt in told().values()) >= len(told()) - 1

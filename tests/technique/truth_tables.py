"""Reads the tables in tests/truth: a row a line, columns two blanks or more apart."""

import re
from pathlib import Path

TRUTH = Path(__file__).parent.parent / "truth"


def rows(name: str, columns: int) -> list[tuple[str, ...]]:
    """The rows of a table; every row must have that many columns."""
    lines = (TRUTH / name).read_text("utf-8").splitlines()
    table = [
        tuple(re.split(r"\s{2,}", line.strip()))
        for line in lines
        if line.strip() and not line.startswith("#")
    ]
    for row in table:
        assert len(row) == columns, f"{name}: {len(row)} columns, not {columns}: {row}"
    return table

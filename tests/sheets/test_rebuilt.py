"""From its code alone a sheet is printed again byte for byte, in another process, and marked."""

import sys
from pathlib import Path

import pytest

sys.path.insert(0, str(Path(__file__).parents[1] / "simulated"))
from rebuilt import rebuilt


@pytest.mark.parametrize("count", [2, pytest.param(100, marks=pytest.mark.proof)])
def test_sheets_are_made_again_from_their_codes(count: int) -> None:
    kinds, wrong = rebuilt(count)
    assert wrong == [] and kinds.total() == count

"""Tests of the report use the simulated records of tests/simulated."""

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).resolve().parents[1] / "simulated"))

"""The ways to the screens, and the hands that work them, are those of tests/screens."""

import sys
from pathlib import Path

sys.path.append(str(Path(__file__).resolve().parents[1] / "screens"))

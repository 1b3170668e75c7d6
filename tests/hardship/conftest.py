"""The ways to the screens, the hands that work them and who has practised are those of other
tests."""

import sys
from pathlib import Path

for folder in ("screens", "simulated"):
    sys.path.append(str(Path(__file__).resolve().parents[1] / folder))

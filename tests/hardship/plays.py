"""Given to the Python that a built package was installed for: a whole lesson is played in the
window, on SDL's dummy driver, by the tests' own hand. Tells where the program lies, and how the
lesson ended."""

import sys
from pathlib import Path
from tempfile import TemporaryDirectory

TESTS = Path(__file__).resolve().parents[1]
sys.path += [str(TESTS), str(TESTS / "screens")]

from pilot import Pilot  # noqa: E402
from robot import do_right, open_lesson  # noqa: E402

import frame  # noqa: E402
from frame.screens.lesson.screen import LessonScreen  # noqa: E402

MOST_TURNS = 1500

with TemporaryDirectory() as folder:
    pilot = Pilot(Path(folder), (800, 480))
    pilot.welcome("Otter")
    open_lesson(pilot, "beads-1")
    runner = pilot.screen.runner
    for _ in range(MOST_TURNS):
        if not isinstance(pilot.screen, LessonScreen):
            break
        do_right(pilot)
    print(frame.__file__, runner.mastered, pilot.room.lessons["beads-1"].done, sep="\n")
    pilot.close()

"""The tutor's own lessons, to be played."""

from pathlib import Path

from frame.app import Change, Push
from frame.course.own import OwnLesson, own_files, read_own
from frame.resources import ASSETS
from frame.room import Room
from frame.screens.lesson.own import OwnLessonScreen
from frame.screens.parts.own_files import Kind, OwnFiles, own_folder

LESSONS = Kind("lessons", ASSETS / "words" / "lesson-template.en.yaml", "my-lesson", "own")


def has_own_lessons(room: Room) -> bool:
    """Whether a tutor has put lessons there."""
    return bool(own_files(own_folder(room, LESSONS)))


class OwnLessons(OwnFiles[OwnLesson]):
    """A sound lesson can be played."""

    kind = LESSONS

    def read(self, path: Path) -> OwnLesson:
        """A lesson with its problems."""
        return read_own(path, self.room.course)

    def choose(self, own: OwnLesson) -> Change:
        """Play it."""
        return Push(OwnLessonScreen(self.room, own))

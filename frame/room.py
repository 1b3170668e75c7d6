"""What all screens share: who is here, the words, the course, the brushes and the clocks."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import datetime
from functools import cached_property
from random import Random
from typing import TYPE_CHECKING, TypeVar

from frame.language.catalogue import Words
from frame.learner.settings import Age, Settings, Volume
from frame.learner.store import Learner, LessonState, Store, StoreError
from frame.view.lettering import Lettering
from frame.view.pictures import Pictures
from frame.view.theme import THEMES, Theme
from frame.view.voice import Silence, Sounds

if TYPE_CHECKING:
    from frame.course.course import CourseIndex
    from frame.view.painter import Painter

Written = TypeVar("Written")

BUTTON_SCALE = {Age.YOUNG: 1.25, Age.MIDDLE: 1.1, Age.OLDER: 1.0}


@dataclass
class Room:
    """Handed to every screen. `seconds` is a steady clock, `now` the time of day;
    `is_unsaved` tells that something could not be written and is kept until it can. The course is
    loaded when it is first asked for, so that the window opens without it."""

    words: Words
    store: Store
    load_course: Callable[[], "CourseIndex"]
    lettering: Lettering
    pictures: Pictures
    seconds: Callable[[], float]
    now: Callable[[], datetime]
    random: Random
    sounds: Sounds = field(default_factory=Silence)
    learner: Learner | None = None
    sitting: str | None = None
    settings: Settings = field(default_factory=Settings)
    lessons: dict[str, LessonState] = field(default_factory=dict)
    is_unsaved: bool = False
    _painter: "Painter | None" = None

    @cached_property
    def course(self) -> "CourseIndex":
        """The units and lessons."""
        return self.load_course()

    @property
    def theme(self) -> Theme:
        """The colours in force."""
        return THEMES[self.settings.look]

    @property
    def painter(self) -> "Painter":
        """What draws beads, in the colours in force."""
        # Faces are seen before any bead is, and sooner without what draws beads.
        from frame.view.painter import Painter

        if self._painter is None or self._painter.theme is not self.theme:
            self._painter = Painter(self.theme)
        return self._painter

    @property
    def button_scale(self) -> float:
        """How much larger buttons are for small hands."""
        return BUTTON_SCALE[self.settings.age]

    def enter(self, learner: Learner) -> None:
        """Somebody sits down."""
        self.leave()
        self.learner = learner
        self.lessons = self.store.lessons(learner)
        self._use(self.store.settings(learner))
        self.sitting = self._write(lambda: self.store.begin_sitting(learner, self.now()))

    def leave(self) -> None:
        """Whoever is here stands up."""
        sitting = self.sitting
        if sitting is not None:
            self._write(lambda: self.store.end_sitting(sitting, self.now()))
        self.learner, self.sitting, self.lessons = None, None, {}
        self._use(Settings())

    def set(self, **changes: object) -> None:
        """Change settings and keep them."""
        self._use(replace(self.settings, **changes))  # type: ignore[arg-type]
        learner = self.learner
        if learner is not None:
            self._write(lambda: self.store.save_settings(learner, self.settings))

    def _write(self, write: Callable[[], Written]) -> Written | None:
        """Write to the store; None, and noted, where that fails."""
        try:
            return write()
        except StoreError:
            self.is_unsaved = True
            return None

    def toggle_sound(self) -> None:
        """Sound off, or quietly on."""
        off = self.settings.volume is Volume.OFF
        self.set(volume=Volume.QUIET if off else Volume.OFF)

    def hear(self, sounds: Sounds) -> None:
        """Take the sounds into use, once there are any."""
        self.sounds = sounds
        sounds.set_volume(self.settings.volume)

    def click(self, name: str = "click") -> None:
        """Let a sound be heard, unless sound is off."""
        if self.settings.volume is not Volume.OFF:
            self.sounds.play(name)

    def _use(self, settings: Settings) -> None:
        self.settings = settings
        self.sounds.set_volume(settings.volume)

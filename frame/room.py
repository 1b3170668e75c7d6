"""What all screens share: who is here, the words, the course, the brushes and the clocks.

Clocks and chance are handed in, so that no test sleeps and each goes alike.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import datetime
from decimal import Decimal
from functools import cached_property
from random import Random
from typing import TYPE_CHECKING, TypeVar

from frame.aside import Aside
from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.language.speech import Clips
from frame.learner.settings import OF_COMPUTER, Age, Settings, Volume
from frame.learner.store import Learner, LessonState, Store, StoreError
from frame.resources import VOICE
from frame.view.lettering import Lettering
from frame.view.pictures import Pictures
from frame.view.theme import THEMES, Theme
from frame.view.voice import Silence, Sounds

if TYPE_CHECKING:
    from frame.course.course import CourseIndex
    from frame.language.wording import Listener
    from frame.practice.choices import Choices
    from frame.practice.ladder import Try
    from frame.view.clips import ClipStore
    from frame.view.painter import Painter
    from frame.view.presenting import Presentation

Written = TypeVar("Written")

BUTTON_SCALE = {Age.YOUNG: 1.25, Age.MIDDLE: 1.1, Age.OLDER: 1.0}


@dataclass
class Room:
    """Handed to every screen. `seconds` is a steady clock, `now` the time of day;
    `is_unsaved` tells that something could not be written and is kept until it can. `hand_at` is
    where, in this sitting, a hand with eyes shut found the unit rod; `presentation` is the way to
    the screen that was found for flashed numbers, `choices` what was practised last. What takes
    long is done `aside`. `settings`
    are those in force: the learner's, or where nobody is here the `computer`'s; `waiting` is a
    learner who has stepped aside for a class. The course is loaded when it is first asked for, so
    that the window opens without it."""

    words: Words
    store: Store
    load_course: Callable[[], "CourseIndex"]
    lettering: Lettering
    pictures: Pictures
    seconds: Callable[[], float]
    now: Callable[[], datetime]
    random: Random
    sounds: Sounds = field(default_factory=Silence)
    aside: Aside = field(default_factory=Aside)
    learner: Learner | None = None
    waiting: Learner | None = None
    sitting: str | None = None
    computer: Settings = field(init=False)
    settings: Settings = field(init=False)
    lessons: dict[str, LessonState] = field(default_factory=dict)
    is_unsaved: bool = False
    hand_at: tuple[float, float] | None = None
    presentation: "Presentation | None" = None
    choices: "Choices | None" = None
    clips: Clips = field(default_factory=lambda: Clips(VOICE))
    _painter: "Painter | None" = None

    def __post_init__(self) -> None:
        self.settings = self.computer = self.store.computer()

    @cached_property
    def course(self) -> "CourseIndex":
        """The units and lessons."""
        return self.load_course()

    @cached_property
    def clip_store(self) -> "ClipStore":
        """The recorded clips as sound."""
        # Sound is needed only after somebody was greeted.
        from frame.view.clips import ClipStore

        return ClipStore(self.clips.folder)

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
    def listener(self) -> "Listener":
        """For whom sentences are made, by the age band."""
        # Sentences about beads are needed only after somebody was greeted.
        from frame.language.wording import Listener

        return Listener.YOUNG if self.settings.age is Age.YOUNG else Listener.OLDER

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
        self.learner, self.sitting, self.lessons, self.hand_at = None, None, {}, None
        self.choices = None
        self._use(self.computer)

    def step_aside(self) -> None:
        """A class is here: whoever was here waits, and all is as the computer is set."""
        self.waiting, self.learner = self.learner, None
        self._use(self.computer)

    def step_back(self) -> None:
        """The class is over: whoever waits is here again."""
        learner, self.waiting = self.waiting, None
        if learner is not None:
            self.learner = learner
            self._use(self.store.settings(learner))

    def set(self, **changes: object) -> None:
        """Change settings and keep them: the learner's where somebody is here, but what belongs to
        the computer alone for the computer."""
        learner = self.learner
        shared = {n: changes[n] for n in changes if learner is None or n in OF_COMPUTER}
        if shared:
            self.set_computer(**shared)
        if learner is not None:
            self._use(replace(self.settings, **changes))  # type: ignore[arg-type]
            self._write(lambda: self.store.save_settings(learner, self.settings))

    def set_computer(self, **changes: object) -> None:
        """Change the computer's settings and keep them. A learner who is here keeps their own."""
        self.computer = replace(self.computer, **changes)  # type: ignore[arg-type]
        self._write(lambda: self.store.save_computer(self.computer))
        self._use(self.computer if self.learner is None else self.settings.on(self.computer))

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

    def tries(self) -> tuple["Try", ...]:
        """What the learner has tried so far, oldest first."""
        return () if self.learner is None else self.store.tries(self.learner)

    @property
    def can_speak(self) -> bool:
        """Whether sentences and calls can be heard."""
        is_on = self.settings.volume is not Volume.OFF
        return is_on and not isinstance(self.sounds, Silence)

    def say(self, line: Line | None) -> float:
        """Speak a sentence, unless voice or sound is off: how many seconds it takes."""
        settings = self.settings
        if line is None or not settings.voice or settings.volume is Volume.OFF:
            return 0.0
        return self.sounds.say(line.speak)

    def say_number(self, number: Decimal) -> None:
        """Speak a number."""
        text = self.words.number(number)
        self.say(Line(text, text))

    def hush(self) -> None:
        """Stop speaking."""
        self.sounds.hush()

    def click(self, name: str = "click") -> None:
        """Let a sound be heard, unless sound is off."""
        if self.settings.volume is not Volume.OFF:
            self.sounds.play(name)

    def _use(self, settings: Settings) -> None:
        self.settings = settings
        self.sounds.set_volume(settings.volume)

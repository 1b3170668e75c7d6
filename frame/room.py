"""What all screens share: who is here, the words, the course, brushes and clocks. Clocks and chance
are handed in, so that no test sleeps and each goes alike."""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from decimal import Decimal
from functools import cached_property
from pathlib import Path
from random import Random
from typing import TYPE_CHECKING, NamedTuple

from frame.aside import Aside
from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.language.speech import Clips
from frame.learner.keeper import Keeper
from frame.learner.known import Known
from frame.learner.learners import Learner, new_id
from frame.learner.settings import OF_COMPUTER, Age, Settings, Volume
from frame.learner.sharer import Sharer
from frame.learner.sitting import Circumstances, Sitting
from frame.learner.store import LessonState, Store
from frame.resources import VOICE
from frame.tutor_desk import TutorDesk
from frame.view.lettering import Lettering
from frame.view.pictures import Pictures
from frame.view.theme import THEMES, Theme
from frame.view.voice import Silence, Sounds

if TYPE_CHECKING:
    from frame.course.course import CourseIndex
    from frame.course.next_paper import PaperDesk
    from frame.language.wording import Listener
    from frame.learner.kept_sets import KeptSet
    from frame.learner.rows import Told
    from frame.practice.choices import Choices
    from frame.practice.mastery import Mastery
    from frame.practice.standing import Ladder
    from frame.practice.today import Left
    from frame.sheets.choices import SheetChoices
    from frame.view.clips import ClipStore
    from frame.view.painter import Painter
    from frame.view.presenting import Presentation

RETRY_SECONDS = 2.0
"""So often what could not be written is tried again."""

BUTTON_SCALE = {Age.YOUNG: 1.25, Age.MIDDLE: 1.1, Age.OLDER: 1.0}


@dataclass
class Room:
    """Handed to every screen. `seconds` is a steady clock, `now` the time of day; what is to be
    kept goes by the `keeper`, a tutor's own files lie in `folder`, what is saved for another
    computer among the user's `documents`, where the system names a folder. `hand_at` is where, in
    this sitting, a hand with eyes shut found the unit rod; `today_done` the day on which today's
    set came to its end in it, `today_left` one that was left; `presentation` the way to the screen
    for flashed numbers, `choices` what was practised last, `kept_sets` those with a name, `sheet`
    and `papers` what was chosen there last, `tutor` what is begun with a class; `removed` is who
    went for good, until it was told. What takes long is done `aside`. `settings` are in force: the
    learner's, or where nobody is here the `computer`'s; `waiting` is who stepped aside."""

    words: Words
    keeper: Keeper
    folder: Path
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
    sitting: Sitting | None = None
    window: tuple[int, int] = (0, 0)
    computer: Settings = field(init=False)
    settings: Settings = field(init=False)
    lessons: dict[str, LessonState] = field(default_factory=dict)
    hand_at: tuple[float, float] | None = None
    today_done: date | None = None
    today_left: "Left | None" = None
    documents: Path | None = None
    presentation: "Presentation | None" = None
    choices: "Choices | None" = None
    kept_sets: "tuple[KeptSet, ...] | None" = None
    sheet: "SheetChoices | None" = None
    papers: "PaperDesk | None" = None
    tutor: TutorDesk = field(default_factory=TutorDesk)
    removed: Learner | None = None
    clips: Clips = field(default_factory=lambda: Clips(VOICE))
    _painter: "Painter | None" = None
    _everybody: tuple[Learner, ...] = ()
    _unwritten: "dict[str, _Left]" = field(default_factory=dict)
    _set_aside: Settings = field(default_factory=Settings)
    _retry_at: float = 0.0

    def __post_init__(self) -> None:
        self.known, self.sharer = Known(self.aside), Sharer(self.keeper, self.now)
        self.settings = self.computer = self.keeper.read(Store.computer, Settings())

    def use_store(self, store: Store) -> None:
        """The learners' file could be opened at last: all is as it says."""
        self.keeper.use(store)
        self.computer = self.keeper.read(Store.computer, self.computer)
        self._use(self.computer)

    @property
    def store(self) -> Store:
        """The learners' file itself, for what must be known or done at once."""
        return self.keeper.store

    @property
    def is_unsaved(self) -> bool:
        """Whether something could not be written; it is kept meanwhile, in an open window."""
        return self.keeper.is_unsaved

    def advance(self, now: float) -> bool:
        """Try again now and then what could not be written; whether all of it is on disk now."""
        if not self.is_unsaved or now < self._retry_at:
            return False
        self._retry_at = now + RETRY_SECONDS
        self.keeper.send()
        return not self.is_unsaved

    def wakes_in(self, now: float) -> float | None:
        """In how many seconds `advance` has something to do; None never."""
        return max(0.0, self._retry_at - now) if self.is_unsaved else None

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
        # Tickets are seen before any bead is, and sooner without what draws beads.
        from frame.view.painter import painter_of

        if self._painter is None or self._painter.theme is not self.theme:
            self._painter = painter_of(self.theme)
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

    def learners(self) -> tuple[Learner, ...]:
        """Everybody, in the order they came; as last known where that can't be read now."""
        written = self.keeper.read(Store.learners, self._everybody)
        if not self.is_unsaved:
            self._unwritten.clear()
        everybody = {one.id: one for one in written}
        everybody |= {id: left.learner for id, left in self._unwritten.items()}
        self._everybody = tuple(everybody.values())
        return self._everybody

    def welcome(self, learner: Learner, age: Age) -> None:
        """A newcomer of this age, otherwise with the computer's settings, sits down."""
        settings, now = self.computer.of_newcomer(age), self.now()
        self._unwritten[learner.id] = _Left(learner, settings, {})
        self.keeper.write(lambda store: store.add_learner(learner, settings, now))
        self.enter(learner)

    def enter(self, learner: Learner) -> None:
        """Somebody sits down. Raises StoreError where what is kept of them can't be read."""
        left = self._unwritten.get(learner.id) if self.is_unsaved else None
        settings = left.settings if left else self.store.settings(learner)
        lessons = left.lessons if left else self.store.lessons(learner)
        self.leave()
        self.keeper.was_removed = False
        self.learner, self.lessons = learner, lessons
        self._use(settings)
        self.fold_anew()
        self._begin_sitting(learner)

    def _begin_sitting(self, learner: Learner) -> None:
        """From now on what is done counts to another sitting."""
        # Nothing is judged before somebody was greeted.
        from frame.technique.judge import VERSION

        self._end_sitting()
        sitting, now = Sitting(new_id()), self.now()
        around = Circumstances(self.settings.conventions, self.window, VERSION)
        self.sitting = sitting
        self.keeper.write(lambda store: store.begin_sitting(sitting.id, learner, around, now))

    def _end_sitting(self) -> None:
        sitting, now = self.sitting, self.now()
        if sitting is not None:
            self.keeper.write(lambda store: store.end_sitting(sitting.id, now))

    def note_input(self, kind: str) -> None:
        """The mouse, a finger or a key is used; once for each sitting it is kept."""
        sitting = self.sitting
        if sitting is not None and kind not in sitting.inputs:
            sitting.inputs.add(kind)
            inputs = frozenset(sitting.inputs)
            self.keeper.write(
                lambda store: store.note_input(sitting.id, inputs), f"inputs of {sitting.id}"
            )

    def rename(self, nickname: str, picture: str) -> None:
        """Whoever is here is called and looks like this from now on."""
        if self.learner is None:
            return
        now, learner = self.now(), replace(self.learner, nickname=nickname, picture=picture)
        self.learner = learner
        self.keeper.write(lambda store: store.rename(learner, now), f"name of {learner.id}")

    def remove(self, learner: Learner) -> None:
        """Whoever is here goes for good. Raises StoreError where that can't be written."""
        now = self.now()
        self.store.remove_learner(learner, now)
        self._unwritten.pop(learner.id, None)
        self.removed = learner
        if self.is_unsaved:
            self.keeper.write(lambda store: store.remove_learner(learner, now))

    def read_anew(self) -> None:
        """The file holds more than before, as another was taken in: whoever is here goes on with
        what is kept of them now."""
        learner = self.learner
        self.keeper.send()
        if learner is None or self.is_unsaved:
            return
        alone: tuple[str, ...] = (learner.id,)
        ids = self.keeper.read(lambda store: store.ids_of(learner), alone)
        now = next((one for one in self.learners() if one.id in ids), None)
        if now is None:
            self.keeper.was_removed = True
            return
        self.learner = replace(learner, nickname=now.nickname, picture=now.picture)
        self.lessons = self.keeper.read(lambda store: store.lessons(learner), self.lessons)
        settings = self.keeper.read(lambda store: store.settings(learner), self.settings)
        self._use_own(settings, learner)
        self.choices = self.kept_sets = None
        self.fold_anew()

    def leave(self) -> None:
        """Whoever is here stands up."""
        learner = self.learner
        self._keep_known()
        self._end_sitting()
        if learner is not None and self.is_unsaved:
            self._unwritten[learner.id] = _Left(learner, self.settings, self.lessons)
        self.learner, self.sitting, self.lessons, self.hand_at = None, None, {}, None
        self.known.forget()
        self.choices = self.kept_sets = self.papers = self.today_done = self.today_left = None
        self._use(self.computer)

    def step_aside(self) -> None:
        """A class is here: whoever was here waits, and all is as the computer is set."""
        self.waiting, self.learner = self.learner, None
        self._set_aside = self.settings
        self._use(self.computer)

    def step_back(self) -> None:
        """The class is over: whoever waits is here again."""
        learner, self.waiting = self.waiting, None
        if learner is not None:
            self.learner = learner
            self._use(self._set_aside.on(self.computer))

    def set(self, **changes: object) -> None:
        """Change settings and keep them: the learner's where somebody is here, but what belongs to
        the computer alone for the computer."""
        learner = self.learner
        shared = {n: changes[n] for n in changes if learner is None or n in OF_COMPUTER}
        if shared:
            self.set_computer(**shared)
        if learner is not None:
            before, now = self.settings, self.now()
            settings = replace(self.settings, **changes)  # type: ignore[arg-type]
            self._use_own(settings, learner)
            name = f"settings of {learner.id}"
            self.keeper.write(lambda store: store.save_settings(learner, settings, now), name)
            if settings.ladder_rules != before.ladder_rules or settings.age != before.age:
                self.fold_anew()

    def set_computer(self, **changes: object) -> None:
        """Change the computer's settings and keep them. A learner who is here keeps their own."""
        computer = replace(self.computer, **changes)  # type: ignore[arg-type]
        self.computer = computer
        self.keeper.write(lambda store: store.save_computer(computer), "computer")
        self._use(self.computer if self.learner is None else self.settings.on(self.computer))

    def toggle_sound(self) -> None:
        """Sound off, or quietly on."""
        self.set(volume=Volume.QUIET if self.settings.volume is Volume.OFF else Volume.OFF)

    def hear(self, sounds: Sounds) -> None:
        """Take the sounds into use, once there are any."""
        self.sounds = sounds
        sounds.set_volume(self.settings.volume)

    @property
    def ladder(self) -> "Ladder":
        """Where the learner stands."""
        return self.known.ladder(self.settings)

    @property
    def mastery(self) -> "Mastery":
        """How well the learner knows each item."""
        return self.known.mastery(self.settings)

    @property
    def last_at(self) -> datetime | None:
        """When the learner last attempted anything; None for never."""
        return self.known.last_at

    def fold_anew(self) -> None:
        """What the learner did is folded from the record, beside the window."""
        if self.learner is not None:
            self.known.begin(self.store, self.learner, self.settings)

    def count(self, *told: "Told") -> None:
        """Attempts were made: where the learner stands moves with them."""
        if not all([self.known.add(one) for one in told]):
            self.fold_anew()

    def _keep_known(self) -> None:
        """What is folded is kept for another day; it can be made anew, and waits for nobody."""
        # Nothing was folded before somebody was greeted.
        from frame.learner.folding import WHAT

        learner, text = self.learner, self.known.to_keep
        if learner is not None and text is not None and not self.is_unsaved:
            self.keeper.write(lambda store: store.keep_folded(learner, WHAT, text))

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

    def _use_own(self, settings: Settings, learner: Learner) -> None:
        """Other settings for whoever is here: work in other conventions is another sitting's."""
        before = self.settings
        self._use(settings)
        if settings.conventions != before.conventions:
            self._begin_sitting(learner)

    def _use(self, settings: Settings) -> None:
        self.settings = settings
        self.sounds.set_volume(settings.volume)


class _Left(NamedTuple):
    """A learner as they were left, while not all of it is written."""

    learner: Learner
    settings: Settings
    lessons: dict[str, LessonState]

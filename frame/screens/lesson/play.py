"""A small play from the free frame: one number after another, and none of it kept."""

from functools import partial

import pygame

from frame.course.attempts import Origin
from frame.course.feedback import Feedback
from frame.course.lesson import Ask, Lesson, Mark
from frame.course.plays import Play, PlayFeedback, draw_play, frame_beside
from frame.course.runner import Runner
from frame.learner.settings import Age
from frame.practice.exercises import Exercise
from frame.practice.work import Work
from frame.room import Room
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.one_by_one import OneByOne
from frame.screens.parts.sentence import is_heard
from frame.technique.facts import ALL_FACTS
from frame.view.geometry import Layout, pose_of
from frame.view.painter import Appearance
from frame.view.widgets import Brushes

_THING = "crate"
_BESIDE_SHARE = 0.8
"""How high the frame beside is, in shares of its place."""


class NotKept(Keeping):
    """Nothing of it is kept."""

    def keep(self) -> None:
        """There is nothing to write."""


class PlayScreen(OneByOne):
    """It goes on until it is left."""

    def __init__(self, room: Room, play: Play) -> None:
        self.play = play
        super().__init__(room, _keeping(room, play))

    def feedback(self) -> Feedback:
        """The sentences of the play."""
        return PlayFeedback(
            self.room.words, self.room.listener, play=self.play, hears=is_heard(self.room)
        )

    def coming(self, work: Work, now: float) -> Exercise:
        """The next number."""
        return _drawn(self.room, self.play, work.exercise)

    def paint_rest(self, brushes: Brushes) -> None:
        """As in a lesson; beside it the frame to be looked at, where there is one."""
        super().paint_rest(brushes)
        work, place = self.runner.work, self.scene.places.story
        frame = frame_beside(self.play, work.exercise) if work is not None else None
        if frame is None or not place.w or not brushes.needs(place):
            return
        area = pygame.Rect(0, 0, place.w, round(_BESIDE_SHARE * place.h))
        area.center = place.center
        layout = Layout.fit((*area.topleft, *area.size), len(frame.digits), frame.units)
        look = Appearance(tint=self.room.settings.bead_tint)
        self.room.painter.draw_frame(brushes.surface, layout, pose_of(frame), look)


def _drawn(room: Room, play: Play, before: Exercise | None = None) -> Exercise:
    rods = 1 if room.settings.age is Age.YOUNG else 2
    return draw_play(play, room.random, rods, before, room.settings.conventions)


def _keeping(room: Room, play: Play) -> Keeping:
    exercise = _drawn(room, play)
    thing = None if frame_beside(play, exercise) else _THING
    lesson = Lesson(
        f"play-{play}", room.words.text(f"play.{play}"), None, exercise.rods, (),
        (Ask(exercise, None, None, Mark(1, 1)),), thing=thing,
    )  # fmt: skip
    runner = Runner(
        lesson, frozenset(ALL_FACTS), room.random.randrange(2**31), room.settings.conventions,
        room.settings.strictness, goes_back=False,
    )  # fmt: skip
    return NotKept(room, runner, partial(_keeping, room, play), origin=Origin.FREE)

"""A pupil who makes every mistake three times before doing what is asked, and what comes of each:
whether anything is heard, and whether the picture changes."""

from collections import Counter
from contextlib import contextmanager
from dataclasses import dataclass, field

from robot import do_right, give_answer, number_asked, signs, wrong_moves

from frame.course.attempts import Position
from frame.course.runner import Stage
from frame.learner.store import LessonState
from frame.practice.exercises import Kind
from frame.screens.choosing.home import Home
from frame.screens.lesson.screen import LessonScreen

TIMES = 3
MOST_TURNS = 2500
HALF = 0.35
"""How far a bead is dragged that is let go too early, of the way it would go."""


def wrong_bead(pilot):
    """A bead on the rod to be worked that is not asked for."""
    return _wrong_move(pilot, lambda rod, wanted: rod == wanted)


def wrong_rod(pilot):
    """A bead on another rod."""
    return _wrong_move(pilot, lambda rod, wanted: rod != wanted)


def _wrong_move(pilot, is_meant):
    work = _at_work(pilot)
    if work is None or work.is_silent:
        return None
    wrong = (move for move in wrong_moves(pilot.screen) if not work.judge.judge((move,)).is_right)
    moves = [move for move in wrong if is_meant(move.rod, work.rod_to_work)]
    return (lambda: pilot.move(moves[0])) if moves else None


def half_way(pilot):
    """The right bead, let go before it is half way."""
    work = _at_work(pilot)
    if work is None or pilot.screen.field.hands.blind:
        return None
    move = min(work.next_stroke)
    x, y = pilot.bead_at(move.rod, move.change)
    up = (move.change < 0) == move.is_heaven
    reach = HALF * pilot.screen.field.layout.bead_height
    return lambda: pilot.drag((x, y), (x, y - reach if up else y + reach))


def wipe(pilot):
    """A wipe where none is asked for; one rod cannot be wiped."""
    work = _at_work(pilot)
    is_asked = work is None or work.exercise.kind is Kind.CLEAR or len(work.frame.digits) < 2
    return None if is_asked else pilot.wipe


def done_too_early(pilot):
    """Done, with beads to be moved."""
    work = _at_work(pilot)
    if work is None or "tick" not in signs(pilot.screen) or work.frame == work.plan.end:
        return None
    return lambda: pilot.press("tick")


def wrong_and_done(pilot):
    """A wrong bead on a frame that is not seen, and Done."""
    work = _at_work(pilot)
    if work is None or not work.is_silent:
        return None
    moves = wrong_moves(pilot.screen)

    def act():
        pilot.move(moves[0])
        pilot.press("tick")

    return act if moves else None


def help_asked(pilot):
    """No mistake: "Show me" is pressed."""
    return None if _at_work(pilot) is None else lambda: pilot.press("eye")


def no_number(pilot):
    """The tick, with nothing typed."""
    is_possible = _answers(pilot) is not None and "tick" in signs(pilot.screen)
    return (lambda: pilot.press("tick")) if is_possible else None


def wrong_number(pilot):
    """A number that is not the answer, or not what is left over."""
    work = _answers(pilot)
    if work is None:
        return None
    right = number_asked(work)
    return lambda: give_answer(pilot, right - 1 if right % 10 else right + 1)


def _at_work(pilot):
    return _work_at(pilot, Stage.WORK)


def _answers(pilot):
    return _work_at(pilot, Stage.ANSWER)


def _work_at(pilot, stage):
    screen = pilot.screen
    is_there = isinstance(screen, LessonScreen) and screen.runner.stage is stage
    return screen.runner.work if is_there else None


MISTAKES = (
    half_way, wipe, wrong_rod, wrong_bead, done_too_early, help_asked, wrong_and_done, no_number,
    wrong_number,
)  # fmt: skip
"""Each tells how a mistake is made on the screen as it stands, None where it cannot be made."""
SPOILING = (wrong_bead, wrong_and_done, wrong_number)
NOTHING_DONE = (half_way, wipe, no_number)
"""What does nothing may leave all as it was to the eye; what is to be done is heard again."""


@dataclass
class Pupil:
    """In a window, with somebody listening. `made` counts the mistakes by their names; `silent` has
    those to which nothing was said, `unseen` those that changed no picture, `lost` those first ones
    of an exercise after which all looked as before once the beads were at rest."""

    pilot: object
    heard: object
    made: Counter = field(default_factory=Counter)
    silent: list = field(default_factory=list)
    unseen: list = field(default_factory=list)
    lost: list = field(default_factory=list)
    _done: Counter = field(default_factory=Counter)

    @property
    def screen(self):
        return self.pilot.screen

    def play(self, entry):
        """A whole lesson from home on, and home again after a look at the next: its runner."""
        self._start(entry)
        runner = self.screen.runner
        for _ in range(MOST_TURNS):
            if runner.stage is Stage.END:
                break
            self._err()
            do_right(self.pilot)
        assert runner.stage is Stage.END, f"{entry.id} never ends; it stands at {runner.position}"
        self._look_at_the_next(entry)
        return runner

    def _start(self, entry):
        room, lessons = self.pilot.room, self.pilot.room.course.lessons
        before = lessons[: lessons.index(entry)]
        room.lessons.update({one.id: LessonState(1, Position(), True) for one in before})
        self._done.clear()
        home = self.screen
        home.rearrange()
        assert home.next_lesson == entry
        self.pilot.press_lesson()
        assert self.screen.runner.lesson.id == entry.id

    def _look_at_the_next(self, entry):
        lessons = self.pilot.room.course.lessons
        following = lessons[lessons.index(entry) + 1]
        self.pilot.press_word("lesson.next")
        assert self.screen.runner.lesson.id == following.id
        self.pilot.press("back")
        assert isinstance(self.screen, Home)
        assert self.screen.next_lesson == following

    def _err(self):
        """Make every mistake there is at a step of this kind, each three times in a row; and one
        at each exercise of a set, so that it is not passed."""
        if isinstance(self.screen, LessonScreen) and self.screen.runner.work is not None:
            self.pilot.settle()
        for mistake in MISTAKES:
            while (act := mistake(self.pilot)) and self._done[self._key(mistake)] < TIMES:
                self._done[self._key(mistake)] += 1
                self._watch(mistake, act)
        for mistake in SPOILING:
            act, runner = mistake(self.pilot), getattr(self.screen, "runner", None)
            if act and runner.is_drawn and not runner.work.slips:
                self._watch(mistake, act)

    def _key(self, mistake):
        runner = self.screen.runner
        exercise, is_alone = runner.work.exercise, len(runner.frame.digits) == 1
        return mistake, runner.stage, exercise.kind, exercise.rung, runner.is_drawn, is_alone

    def _watch(self, mistake, act):
        """Make it; listen at once, and look until all is at rest."""
        pilot, screen = self.pilot, self.screen
        pilot.wait(2.0, 4)
        work, name = screen.runner.work, mistake.__name__
        what = name, screen.runner.lesson.id, screen.runner.position, str(work.exercise)
        before, told = pilot.pixels(), screen.guide.telling.count
        is_first = not (work.slips or work.helps or work.looks)
        with self._looking(before) as others:
            act()
            telling = screen.guide.telling
            if telling.count == told or self.heard.said[-1] != telling.line.speak:
                self.silent.append(what)
            while self.screen is screen and screen.is_moving:
                pilot.wait(0.05, 1)
        if mistake not in NOTHING_DONE and not others:
            self.unseen.append(what)
        if mistake not in NOTHING_DONE and is_first and pilot.pixels() == before:
            self.lost.append(what)
        self.made[name] += 1

    @contextmanager
    def _looking(self, before):
        """The first picture in the meantime that is another than before, if there is any."""
        app, others = self.pilot.app, []
        draw = app.draw

        def seen():
            draw()
            if not others and (now := self.pilot.pixels()) != before:
                others.append(now)

        app.draw, self.pilot.sees_presses = seen, True
        yield others
        app.draw, self.pilot.sees_presses = draw, False

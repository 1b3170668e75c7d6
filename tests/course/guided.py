"""A lesson with its guide and a clock, and no window: what a screen would do, and what is heard."""

from functools import cache

from shipped import the_course, the_words

from frame.course.attempts import Position
from frame.course.course import load_one, taught
from frame.course.feedback import Feedback
from frame.course.guide import Guide
from frame.course.lesson import Ask, Lesson, Line, Mark, Practise, Say, Show
from frame.course.pacing import Due
from frame.course.runner import Runner
from frame.course.stages import Stage
from frame.language.wording import Listener
from frame.practice.drawing import Request
from frame.practice.exercises import Exercise, Kind
from frame.practice.flashing import FlashReport, FlashSetting, ItemTime, Schedule
from frame.practice.rungs import Asked, Rung
from frame.technique.beads import BeadMove
from frame.technique.conventions import USUAL, Strictness
from frame.technique.expression import parse_calculation
from frame.technique.facts import ALL_FACTS

WORDS = the_words()
COURSE = the_course()
MARK = Mark(1, 1)
LETTERS_A_SECOND = 15
SHOW_SECONDS = 0.6
BEADS = (1, -1, 5, -5, 2, -2, 3, -3, 4, -4)


def line(text):
    return Line(text, text)


def say(text):
    return Say(line(text), MARK)


def show(number, text=None):
    return Show(number, text and line(text), MARK)


def ask(text, rung=Rung.ALONE, own=None, kind=Kind.SUM, rods=2, **more):
    """An exercise, with a sentence of its own or without."""
    return Ask(
        Exercise(kind, parse_calculation(text), rung, rods, **more), own and line(own), None, MARK
    )


def practise(facts, count, right=0, own=None, **more):
    """A set drawn from these facts."""
    known = frozenset(ALL_FACTS)
    return Practise(
        Request(facts=facts, known=known, count=count, **more), right, own and line(own), MARK
    )


def rods_of(step):
    """The rods that a step needs."""
    if isinstance(step, Practise):
        return step.request.rods
    return step.exercise.rods if isinstance(step, Ask) else 2


class Guided:
    """A guide at work. Whatever it tells is heard at once, in full, into `told`, and `told_at` has
    the step it was heard at. A telling that came before another in the same act would never be
    heard, so there must be none."""

    def __init__(self, *steps, position=None, seed=1, **more):
        rods = max((rods_of(step) for step in steps), default=2)
        lesson = Lesson("quay-1", "The quay", None, rods, (), steps)
        known, strictness = frozenset(), more.pop("strictness", Strictness.BEADS)
        conventions = more.pop("conventions", USUAL)
        begin = position or Position()
        self.take(Runner(lesson, known, seed, conventions, strictness, begin), **more)

    @classmethod
    def of(cls, runner, **more):
        """The guide of a runner that stands somewhere."""
        guided = cls.__new__(cls)
        guided.take(runner, **more)
        return guided

    def take(self, runner, *, listener=Listener.OLDER, **more):
        self.now, self.told, self.told_at, self._count = 100.0, [], [], 0
        self.runner, self.guide = runner, Guide(runner, Feedback(WORDS, listener), **more)
        self.do(self.guide.settle)

    @property
    def work(self):
        return self.runner.work

    @property
    def stage(self):
        return self.runner.stage

    @property
    def last(self):
        """What was heard last."""
        return self.told[-1] if self.told else None

    def do(self, act, *facts):
        """Do something, and hear what is told; what it returns."""
        done = act(*facts, self.now)
        self.hear()
        return done

    def hear(self):
        telling = self.guide.telling
        assert telling.count - self._count <= 1, "something is told that nobody can hear"
        if telling.count != self._count:
            self._count = telling.count
            self.told.append(telling.line.speak)
            self.told_at.append(self.runner.position.step)
            self.guide.pacing.heard(self.now, len(telling.line.speak) / LETTERS_A_SECOND)

    def wait(self, seconds, step=0.1):
        """Let time pass, and do by itself what a screen does by itself."""
        until = self.now + seconds
        while self.now < until - step / 2:
            self.now += step
            if Due.ON in self.do(self.guide.advance):
                self.do(self._go_on_by_itself)

    def _go_on_by_itself(self, now):
        match self.stage:
            case Stage.DEMO:
                self.guide.play(now, SHOW_SECONDS)
            case Stage.PRESENT:
                self.guide.was_shown(now)
            case Stage.REVEAL:
                self.guide.was_shown(now)
                self.guide.go_on(now)
            case Stage.DONE | Stage.RESULTS:
                self.guide.go_on(now)

    def until(self, *stages, most=600):
        """Let time pass until the lesson waits for this."""
        for _ in range(most):
            if self.stage in stages:
                return self
            self.wait(0.1)
        raise AssertionError(f"{stages} never come; it stands at {self.stage}")

    def move(self, change, rod=0):
        """The learner moves beads of a rod."""
        return self.do(self.guide.touch, (BeadMove(rod, change),))

    def go_right(self):
        """The next right move."""
        return self.do(self.guide.touch, (min(self.work.next_stroke),))

    def go_wrong(self):
        """A move that the beads allow and the work does not ask for."""
        return self.do(self.guide.touch, (wrong_move(self.work),))

    def answer(self, number):
        """Type a number and give it."""
        for sign in str(number):
            self.do(self.guide.type_sign, sign)
        self.do(self.guide.give_answer)

    def flash(self, was_stopped=False):
        """A run of flashed numbers, all on time."""
        schedule = Schedule.of(FlashSetting(1, 2, 1.0))
        items = tuple(ItemTime(due, due) for due in schedule.onsets)
        self.do(self.guide.take_report, FlashReport(schedule, items, "plain", was_stopped))

    def turn(self):
        """One thing that is right; time passes where there is nothing to do."""
        work = self.work
        if self.stage is Stage.TELL:
            self.do(self.guide.go_on)
        elif self.stage is Stage.ANSWER:
            self.answer(work.exercise.sum.remainder if work.asks_rest else work.exercise.sum.result)
        elif self.stage is Stage.PRESENT and work.exercise.asked is Asked.FLASHED:
            self.flash()
        elif self.stage is Stage.WORK and work.is_silent and work.judge.finished:
            self.do(self.guide.say_done)
        elif self.stage is Stage.WORK:
            self.go_right()
        else:
            self.wait(0.5)


def wrong_move(work):
    """A move that the beads allow and the work neither asks for nor has as a part of another."""
    moves = (BeadMove(rod, change) for rod in range(len(work.frame.digits)) for change in BEADS)
    return next(
        one for one in moves if work.frame.can(one) and not work.judge.judge((one,)).is_right
    )


def guided(lesson_id, seed=1, **more):
    """A lesson of the course, from its start."""
    return Guided.of(Runner(*read(lesson_id), seed), **more)


@cache
def read(lesson_id):
    """A lesson of the course, read once, and the facts taught when it is over."""
    return load_one(COURSE, lesson_id), taught(COURSE, lesson_id)

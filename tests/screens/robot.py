"""A hand that works lessons in the real window: what they ask for, and what they do not."""

from functools import partial

import pygame
from shipped import lesson_of

from frame.app import Push
from frame.course.attempts import Origin, Position
from frame.course.lesson import Ask, Lesson, Line, Mark, Practise, Say
from frame.course.runner import Runner, Stage
from frame.language.speech import RATE
from frame.practice.columns import rods_needed
from frame.practice.drawing import Request
from frame.practice.exercises import Kind
from frame.practice.rungs import Asked, Rung
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.replay import ReplayScreen
from frame.screens.lesson.results import ResultsScreen
from frame.screens.lesson.screen import LessonScreen
from frame.technique.beads import BeadMove
from frame.view.clips import SAMPLE_BYTES

DEAF = 0.6
"""Seconds for which the buttons of a lesson take no touch and no key once they come up."""


class Heard:
    """Sounds that are noted, not played: the `names` of short ones, what is `said`, and of calls
    what is done with them. A second of speech is as long as fifteen letters."""

    def __init__(self):
        self.names, self.said, self.calls = [], [], []

    def play(self, name):
        self.names.append(name)

    def set_volume(self, volume):
        pass

    def say(self, text):
        self.said.append(text)
        return len(text) / 15

    def hush(self):
        pass

    def play_call(self, samples):
        self.calls.append("play")
        return len(samples) / SAMPLE_BYTES / RATE

    def pause_call(self):
        self.calls.append("pause")

    def resume_call(self):
        self.calls.append("resume")

    def stop_call(self):
        self.calls.append("stop")


def open_lesson(pilot, lesson_id):
    """Open a lesson where its learner left it."""
    pilot.app.take(Push(LessonScreen(pilot.room, Keeping.begin(pilot.room, lesson_id))))


def steps_at(course, rung, kind=Kind.SUM, asked=Asked.SHOWN):
    """(lesson id, number) of every step of the course that asks for this at this rung."""
    wanted = kind, rung, asked
    for entry in course.lessons:
        for number, step in enumerate(lesson_of(entry.id).steps):
            one = step.exercise if isinstance(step, Ask) else None
            if one is not None and (one.kind, one.rung, one.asked) == wanted:
                yield entry.id, number


def sets_asked(course, asked):
    """(lesson id, number) of every set of the course whose numbers come like this."""
    for entry in course.lessons:
        for number, step in enumerate(lesson_of(entry.id).steps):
            if isinstance(step, Practise) and step.request.asked is asked:
                yield entry.id, number


def at_work(pilot, lesson_id, rung=Rung.ALONE, kind=Kind.SUM):
    """Open the lesson at its first exercise of this kind at this rung, the learner's turn."""
    for lesson, number in steps_at(pilot.room.course, rung, kind):
        if lesson == lesson_id:
            pilot.open(lesson_id, number)
            pilot.settle()
            assert pilot.screen.runner.stage is Stage.WORK
            return pilot.screen
    raise LookupError(lesson_id)


def do_right(pilot):
    """Do with the mouse what the lesson waits for; nothing where that changed in the meantime."""
    if isinstance(pilot.screen, ReplayScreen | ResultsScreen):
        return pilot.press_word("lesson.go_on")
    before = stage_of(pilot.screen)
    pilot.settle()
    if before is None or stage_of(pilot.screen) is not before:
        return None
    runner = pilot.screen.runner
    if runner.stage is Stage.TELL:
        pilot.press_word("lesson.go_on")
    elif runner.stage is Stage.ANSWER:
        give_answer(pilot, number_asked(runner.work))
    elif runner.stage is Stage.WORK:
        work_right(pilot)
    elif runner.stage is Stage.PRESENT:
        let_numbers_come(pilot)
    else:
        pilot.wait(1.0, 3)
    return None


def number_asked(work):
    """The answer, or what is left over once that is asked for."""
    return work.exercise.sum.remainder if work.asks_rest else work.exercise.sum.result


def stage_of(screen):
    """What the lesson on the screen waits for; None where there is none."""
    return screen.runner.stage if isinstance(screen, LessonScreen) else None


def let_numbers_come(pilot):
    """Start what is flashed; hear out what is called."""
    screen = pilot.screen
    if screen.runner.work.exercise.asked is Asked.FLASHED:
        pilot.press_word("flash.start")
    elif screen.calling is not None and screen.calling.is_held:
        pilot.press_word("lesson.go_on")
    else:
        pilot.wait(20, 10)


def give_answer(pilot, number):
    """Type a number, and give it; where a digit is all of the answer there is no more to press."""
    screen = pilot.screen
    for sign in str(number).replace("-", "−"):
        pilot.press(sign)
    if "tick" in signs(screen) and screen.runner.stage is Stage.ANSWER:
        pilot.press("tick")


def work_right(pilot):
    """The next right move; "Done" where that has to be said."""
    runner = pilot.screen.runner
    work = runner.work
    if work.is_silent and work.judge.finished:
        pilot.press_word("lesson.done")
    elif work.exercise.kind is Kind.CLEAR and len(runner.frame.digits) > 2:
        pilot.wipe()
    else:
        pilot.move(min(work.next_stroke))
        pilot.settle()


def until(pilot, stage, most=400):
    """Do what is right until the lesson waits for this, on its own screen."""
    for _ in range(most):
        screen = pilot.screen
        if isinstance(screen, LessonScreen) and screen.runner.stage is stage:
            return screen
        do_right(pilot)
    raise AssertionError(f"{stage} never comes")


def begin(pilot, exercise, count=1, line=None):
    """This exercise, with a sentence of its own or without; with a `count`, so many times, or a
    set of so many like it where numbers are called or flashed."""
    mark, rods = Mark(1, 1), exercise.rods
    steps = (Ask(exercise, line, None, mark),) * count
    if count > 1 and exercise.asked is not Asked.SHOWN:
        request = request_like(exercise, count)
        steps, rods = (Practise(request, 0, line, mark),), request.rods
    return _begin_steps(pilot, steps, rods)


def begin_all(pilot, exercises):
    """These exercises, one after another."""
    steps = tuple(Ask(one, None, None, Mark(1, 1)) for one in exercises)
    return _begin_steps(pilot, steps, exercises[0].rods)


def _begin_steps(pilot, steps, rods):
    pilot.app.take(Push(LessonScreen(pilot.room, _keeping(pilot.room, steps, rods))))
    pilot.app.draw()
    return pilot.screen


def _keeping(room, steps, rods):
    lesson = Lesson("practise-shown", "The net shed", None, rods, (), steps)
    runner = Runner(lesson, frozenset(), 1, room.settings.conventions, room.settings.strictness)
    return Keeping(room, runner, partial(_keeping, room, steps, rods), origin=Origin.SET)


def lesson_with(room, exercise, step=1, line=None, known=frozenset()):
    """A lesson, not laid out yet, of a sentence and this exercise: opened at the sentence (0), the
    exercise (1) or the end (2), with these facts taught."""
    mark, told = Mark(1, 1), Line("The barge is moored.", "The barge is moored.")
    steps = Say(line or told, mark), Ask(exercise, line, None, mark)
    lesson = Lesson("times-4", "The brick barge", None, exercise.rods, (), steps)
    chosen = room.settings.conventions, room.settings.strictness
    return LessonScreen(
        room, Keeping(room, Runner(lesson, known, 1, *chosen, Position(step)), None)
    )


def request_like(exercise, count):
    """A set of so many columns of any numbers, asked as this exercise is; its rods hold them."""
    terms = exercise.sum.terms
    digits = max(len(str(abs(term))) for term in terms)
    rods = max(exercise.rods, rods_needed(digits, len(terms)))
    return Request(
        count=count, terms=len(terms), digits=digits, rods=rods, rung=exercise.rung,
        asked=exercise.asked, pace=exercise.pace, by_place=exercise.by_place, own=exercise.own,
        minus=any(term < 0 for term in terms),
    )  # fmt: skip


def wrong_moves(screen):
    """The moves that the beads allow and the work neither asks for nor has as a part."""
    runner = screen.runner
    asked = runner.work.judge.progress.left_in_line
    return [
        move
        for rod in range(len(runner.frame.digits))
        for move in (BeadMove(rod, change) for change in (5, -5, 4, -4, 3, -3, 2, -2, 1, -1))
        if runner.frame.can(move) and not any(is_part(move, one) for one in asked)
    ]


def is_part(move, whole):
    """Whether a move is a part of another one, or all of it."""
    same_beads = move.rod == whole.rod and move.is_heaven == whole.is_heaven
    return same_beads and (move.change > 0) == (whole.change > 0) and (
        abs(move.change) <= abs(whole.change))  # fmt: skip


def tick_is_seen(pilot):
    """Whether the colour of right is seen beside the frame."""
    window = pilot.app.window
    box = pilot.screen.field.box
    right = pilot.room.theme.right
    mask = pygame.mask.from_threshold(window, right, (1, 1, 1, 255))
    for rect in mask.get_bounding_rects():
        if not rect.colliderect(box) and box.top < rect.centery < box.bottom:
            return True
    return False


def signs(screen):
    """The signs and texts of the buttons that can be pressed."""
    usable = [button for button in screen.buttons if not button.rests]
    return {word for button in usable for word in (button.sign, button.text) if word}

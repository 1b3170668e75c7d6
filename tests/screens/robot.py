"""A hand that works lessons in the real window: what they ask for, and what they do not."""

import pygame

from frame.app import Push
from frame.course.course import load_one
from frame.course.lesson import Ask
from frame.course.runner import Stage
from frame.practice.exercises import Kind
from frame.practice.rungs import Rung
from frame.screens.keeping import Keeping
from frame.screens.lesson import LessonScreen
from frame.technique.beads import BeadMove


class Heard:
    """Sounds that are noted, not played."""

    def __init__(self):
        self.names = []

    def play(self, name):
        self.names.append(name)

    def set_volume(self, volume):
        pass


def open_lesson(pilot, lesson_id):
    """Open a lesson where its learner left it."""
    pilot.app.take(Push(LessonScreen(pilot.room, Keeping.begin(pilot.room, lesson_id))))


def steps_at(course, rung, kind=Kind.SUM):
    """(lesson id, number) of every step of the course that asks for this at this rung."""
    for entry in course.lessons:
        for number, step in enumerate(load_one(course, entry.id).steps):
            if isinstance(step, Ask) and (step.exercise.kind, step.exercise.rung) == (kind, rung):
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
    """Do with the mouse what the lesson waits for."""
    pilot.settle()
    runner = pilot.screen.runner
    if runner.stage is Stage.TELL:
        pilot.press(pilot.room.words.text("lesson.go_on"))
    elif runner.stage is Stage.ANSWER:
        give_answer(pilot, int(runner.frame.digits))
    elif runner.stage is Stage.WORK:
        work_right(pilot)
    else:
        pilot.wait(1.0, 3)


def give_answer(pilot, number):
    """Type a number; where the frame has one rod its digit is all there is to press."""
    for digit in str(number):
        pilot.press(digit)
    if len(pilot.screen.runner.frame.digits) > 1:
        pilot.press("tick")


def work_right(pilot):
    """The next right move; "Done" where that has to be said."""
    runner = pilot.screen.runner
    work = runner.work
    if work.is_covered and work.judge.finished:
        pilot.press(pilot.room.words.text("lesson.done"))
    elif work.exercise.kind is Kind.CLEAR and len(runner.frame.digits) > 2:
        pilot.wipe()
    else:
        pilot.move(min(work.next_moves))
        pilot.settle()


def wrong_moves(screen):
    """The moves that the beads allow and the work neither asks for nor has as a part."""
    runner = screen.runner
    asked = runner.work.judge.progress.left_in_plan
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
    """The signs and texts of the buttons there are."""
    return {word for button in screen.buttons for word in (button.sign, button.text) if word}

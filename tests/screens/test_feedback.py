"""What a learner is told and shown after right and wrong beads."""

from random import Random

import pytest
from pilot import Pilot
from test_playing import do_right

from frame.course.course import load_one
from frame.course.lesson import Ask
from frame.course.runner import Stage
from frame.practice.exercises import Kind
from frame.practice.rungs import Rung
from frame.technique.beads import BeadMove

HARSH = ("wrong", "false", "mistake", "error", "incorrect", "bad", "no,", "fail")
LESSONS = ["beads-3", "no-partner-2", "five-add-2", "ten-add-2", "ten-five-2", "columns-2"]


@pytest.fixture
def pilot(tmp_path):
    pilot = Pilot(tmp_path, (800, 480))
    pilot.welcome("Otter")
    yield pilot
    pilot.close()


def at_work(pilot, lesson_id, rung=Rung.ALONE, kind=Kind.SUM):
    """Open the lesson at its first exercise of this kind at this rung, the learner's turn."""
    for number, step in enumerate(load_one(pilot.room.course, lesson_id).steps):
        if isinstance(step, Ask) and (step.exercise.kind, step.exercise.rung) == (kind, rung):
            pilot.open(lesson_id, number)
            pilot.wait(1)
            assert pilot.screen.runner.stage is Stage.WORK
            return pilot.screen
    raise LookupError(lesson_id)


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
    same_beads = move.rod == whole.rod and move.is_heaven == whole.is_heaven
    return same_beads and (move.change > 0) == (whole.change > 0) and (
        abs(move.change) <= abs(whole.change))  # fmt: skip


def until_one_can_err(pilot, lesson_id):
    """At the lesson's first sum, as far as it takes for a wrong bead to be possible."""
    screen = at_work(pilot, lesson_id)
    while not wrong_moves(screen):
        pilot.move(min(screen.runner.work.next_moves))
        pilot.wait(0.3, turns=2)
    return screen


@pytest.mark.parametrize("lesson_id", LESSONS[1:])
def test_a_wrong_bead_gets_a_sentence_and_goes_back(pilot, lesson_id):
    screen = until_one_can_err(pilot, lesson_id)
    before, seen = screen.runner.frame, pilot.pixels(screen.field.box)
    move = wrong_moves(screen)[0]
    pilot.move(move)
    assert screen.said is not None
    assert screen.said != screen.runner.line
    assert screen.said.show in " ".join(line for line, _ in pilot.repaint())
    pilot.wait(0.1, turns=2)
    assert pilot.pixels(screen.field.box) != seen
    assert screen.runner.frame == before
    pilot.wait(0.5)
    assert not screen.field.is_moving
    assert screen.field.frame == before


@pytest.mark.parametrize("lesson_id", LESSONS[1:])
def test_after_two_misses_in_a_row_the_next_bead_is_lit(pilot, lesson_id):
    screen = until_one_can_err(pilot, lesson_id)
    for lit in (False, True):
        pilot.move(wrong_moves(screen)[0])
        pilot.wait(1)
        assert bool(screen.field.hints) is lit
    assert set(screen.field.hints) == set(screen.runner.work.next_moves)
    pilot.move(min(screen.runner.work.next_moves))
    assert not screen.field.hints


@pytest.mark.parametrize("lesson_id", LESSONS[::2])
def test_nobody_is_ever_told_off(pilot, lesson_id):
    """A hand that errs half of the time; every sentence seen is looked at."""
    random, said = Random(lesson_id), set()
    pilot.open(lesson_id)
    for _ in range(70):
        screen = pilot.screen
        runner = screen.runner
        if runner.stage is Stage.END:
            break
        if runner.stage is Stage.WORK and random.random() < 0.5 and (some := wrong_moves(screen)):
            pilot.move(random.choice(some))
            pilot.wait(0.6, 3)
        elif runner.stage is Stage.ANSWER and random.random() < 0.5:
            pilot.press("9")
            pilot.press("tick")
        else:
            do_right(pilot)
        said |= {screen.said.show} if screen.said else set()
    assert len(said) > 3
    assert not [text for text in said if any(word in text.lower() for word in HARSH)]


class Heard:
    """Sounds that are noted, not played."""

    def __init__(self):
        self.names = []

    def play(self, name):
        self.names.append(name)

    def set_volume(self, volume):
        pass


def covered_lesson(pilot):
    for entry in pilot.room.course.lessons:
        for step in load_one(pilot.room.course, entry.id).steps:
            if isinstance(step, Ask) and step.exercise.rung is Rung.COVERED:
                yield entry.id, step.exercise.kind
                break


def test_on_a_covered_frame_every_touch_clicks_and_no_bead_is_seen(pilot):
    heard = Heard()
    pilot.room.hear(heard)
    for lesson_id, kind in covered_lesson(pilot):
        screen = at_work(pilot, lesson_id, Rung.COVERED, kind)
        before = pilot.pixels(screen.field.box)
        plan = list(screen.runner.work.plans[0].strokes)
        for stroke in plan:
            for move in stroke:
                heard.names.clear()
                pilot.move(move)
                for _ in range(3):
                    assert pilot.pixels(screen.field.box) == before, lesson_id
                    pilot.wait(0.1, turns=1)
                assert heard.names == ["click"], lesson_id
        pilot.wait(1)


def test_a_wrong_bead_on_a_covered_frame_is_not_given_away(pilot):
    heard = Heard()
    pilot.room.hear(heard)
    screen = at_work(pilot, "five-add-5", Rung.COVERED)
    field = screen.field
    before, (x, y) = pilot.pixels(field.box), field.box.center
    pilot.drag((x, y + field.layout.bead_height * 2), (x, y + field.layout.bead_height))
    pilot.wait(1)
    assert heard.names == ["click"]
    assert screen.said is None
    assert pilot.pixels(field.box) == before


def test_a_new_rule_is_explained_twice_and_not_a_third_time(pilot):
    """In one lesson; the rule of a right move is said once its step is done."""
    said = []
    pilot.open("five-add-1")
    while pilot.screen.runner.stage is not Stage.END:
        screen = pilot.screen
        at = screen.runner.stage
        do_right(pilot)
        if at is Stage.WORK and screen.said is not None:
            said.append(screen.said.show)
    rules = [text for text in said if "5" in text or "five" in text.lower()]
    assert len(said) == len(rules) == 2
    assert len(set(said)) == 1

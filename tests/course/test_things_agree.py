"""In every lesson, at every moment, what the beads stand for, the beads and the number agree."""

import re

import pygame
import pytest
from guided import COURSE, guided, read

from frame.course.lesson import Show
from frame.course.stages import Stage
from frame.practice.exercises import Kind
from frame.technique.reading import read as read_frame
from frame.view.ashore import MOST_RODS, Shore, counted
from frame.view.pose import Bead, pose_of

AREA = pygame.Rect(0, 0, 330, 472)
TOLD = {entry.id: read(entry.id)[0] for entry in COURSE.lessons}
COUNTED = [one.id for one in TOLD.values() if one.thing is not None]
UNITS = ("beads", "tens", "no-partner", "five-add", "five-take", "ten-add", "ten-take", "ten-five")
_NUMBER = re.compile(r"\d+")


def moments(lesson_id):
    """A lesson played without a mistake: it, each time something may have changed."""
    play = guided(lesson_id)
    yield play
    for _ in range(2000):
        if play.stage is Stage.END:
            return
        play.turn()
        yield play
    raise AssertionError(f"{lesson_id} never ends")


@pytest.mark.parametrize("lesson_id", COUNTED)
def test_things_beads_and_number_are_one_number(lesson_id):
    seen = 0
    for play in moments(lesson_id):
        sight, work = play.guide.sight, play.work
        if not sight.shows_things:
            continue
        frame = sight.frame
        if sight.wanted is not None:
            assert read_frame(sight.wanted) == work.exercise.number and not work.finished
        if len(frame.digits) > MOST_RODS:
            continue
        seen += 1
        ashore = tuple(Shore.fit(AREA, len(frame.digits), 8.0).seen(pose_of(frame)))
        assert counted(ashore) == read_frame(frame)
        for column, digit in enumerate(map(int, frame.digits)):
            beads = [group.bead for group, _ in ashore if group.column == column]
            assert 5 * beads.count(Bead.HEAVEN) + len(set(beads) - {Bead.HEAVEN}) == digit
        if play.stage is Stage.DONE and work.exercise.kind in (Kind.SET, Kind.SUM):
            assert read_frame(frame) == work.exercise.sum.result
    assert seen > 0 or TOLD[lesson_id].rods > MOST_RODS


@pytest.mark.parametrize("lesson_id", COUNTED)
def test_a_number_shown_is_the_one_that_its_sentence_tells(lesson_id):
    for step in TOLD[lesson_id].steps:
        if isinstance(step, Show) and step.line is not None:
            told = _NUMBER.findall(step.line.show)
            assert not told or str(step.number) in told, step.line.show


def test_each_lesson_up_to_carries_and_borrows_has_things_and_all_have_pictures():
    for entry in COURSE.lessons:
        lesson = TOLD[entry.id]
        if entry.unit in UNITS:
            assert lesson.thing, entry.id
        assert lesson.scene and lesson.end.scene and lesson.end.line, entry.id


def test_no_two_lessons_end_alike():
    ends = [lesson.end.line.speak for lesson in TOLD.values() if lesson.end.line]
    assert len(ends) == len(set(ends))

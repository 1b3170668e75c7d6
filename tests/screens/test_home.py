"""Home: what comes next, what follows a lesson, and units of any number of lessons."""

from dataclasses import replace

import pygame
import pytest
from pilot import WhenTold
from robot import do_right, open_lesson
from shipped import the_course

from frame.app import Pop
from frame.course.attempts import Position
from frame.course.course import CourseIndex
from frame.course.lesson import Unit
from frame.course.stages import Stage
from frame.learner.settings import Age
from frame.learner.store import LessonState
from frame.screens.choosing.free import FreeFrame
from frame.screens.choosing.home import Home
from frame.screens.lesson.screen import LessonScreen
from frame.screens.parts.outcome import Next
from frame.screens.parts.way import Way, beads_of
from frame.view.geometry import Bead, pose_of

IDS = [entry.id for entry in the_course().lessons]


def states(done=(), half=()):
    """What is begun, by the numbers of the lessons in the course."""
    return {
        **{IDS[at]: LessonState(1, Position(), done=True) for at in done},
        **{IDS[at]: LessonState(1, Position(2), done=False) for at in half},
    }


LAST = len(IDS) - 1
WAYS = [
    # done, half done, all open, what comes next
    ((), (), False, 0),
    ((0, 1), (), False, 2),
    ((0, 1), (2,), False, 2),
    # Somebody showed a lesson far ahead while all were open: that is no way for a child.
    ((0,), (40,), False, 1),
    ((), (40,), True, 40),
    # Whoever went ahead is not thrown back, also when no more is open than that.
    ((40,), (), True, 41),
    ((40,), (), False, 41),
    ((40,), (3,), True, 41),
    ((40,), (43,), True, 43),
    # At the end comes what was left out.
    ((LAST,), (), True, 0),
    ((0, LAST), (), False, 1),
    (range(LAST + 1), (), True, None),
]


@pytest.mark.parametrize(("done", "half", "all_open", "wanted"), WAYS)
def test_what_comes_next(done, half, all_open, wanted):
    upcoming = Way(the_course(), states(done, half), all_open).upcoming
    assert (upcoming and IDS.index(upcoming.id)) == wanted


@pytest.mark.parametrize(("done", "half", "all_open", "wanted"), WAYS)
def test_all_before_what_comes_next_is_open(done, half, all_open, wanted):
    way = Way(the_course(), states(done, half), all_open)
    is_open = [way.is_open(entry) for entry in the_course().lessons]
    last = LAST if all_open or wanted is None else wanted
    assert is_open == [at <= last or LAST in done for at in range(LAST + 1)]


MOVED = [
    # How many of the lessons of columns were done before they became two units, what comes next
    (1, "carries-1"), (2, "carries-2"), (3, "columns-4"), (4, "columns-5"), (5, "mind-one-1"),
]  # fmt: skip


@pytest.mark.parametrize("all_open", [False, True])
@pytest.mark.parametrize(("count", "wanted"), MOVED)
def test_who_did_lessons_that_moved_still_stands_behind_them(count, wanted, all_open):
    before = range(IDS.index("columns-1"))
    done = [IDS.index(f"columns-{number}") for number in range(1, count + 1)]
    way = Way(the_course(), states([*before, *done]), all_open)
    assert way.upcoming.id == wanted
    assert way.is_open(way.upcoming)


# What follows a lesson


@pytest.mark.parametrize(
    ("all_open", "done", "played", "wanted"),
    [
        (True, (), "mind-one-1", "mind-one-2"),
        (True, (0, 1), "mind-one-1", "mind-one-2"),
        (False, (0,), "beads-1", "beads-2"),
        (False, range(9), "beads-2", "beads-3"),
        # It is not open yet, so what comes next does.
        (False, (), "beads-1", "beads-1"),
    ],
)
def test_next_is_the_lesson_that_follows_the_one_played(pilot, all_open, done, played, wanted):
    pilot.room.set(all_open=all_open)
    pilot.room.lessons.update(states(done))
    open_lesson(pilot, played)
    pilot.app.take(Pop(Next(played)))
    assert isinstance(pilot.screen, LessonScreen)
    assert pilot.screen.runner.lesson.id == wanted
    pilot.key(pygame.K_ESCAPE)
    assert isinstance(pilot.screen, Home)


def test_after_the_last_of_all_home_stays(pilot):
    pilot.room.lessons.update(states(range(LAST + 1)))
    open_lesson(pilot, IDS[LAST])
    pilot.app.take(Pop(Next(IDS[LAST])))
    assert isinstance(pilot.screen, Home)


# Units


COUNTS = range(11)


@pytest.mark.parametrize("count", COUNTS)
def test_lessons_are_beads_in_order_and_no_bead_is_passed_over(count):
    beads = beads_of(count)
    assert len(beads) == count
    order = [Bead.EARTH_1, Bead.EARTH_2, Bead.EARTH_3, Bead.EARTH_4, Bead.HEAVEN]
    places = [order.index(bead) for bead in beads]
    assert places == sorted(places)
    assert sorted(set(places)) == list(range(min(count, 5)))
    assert beads.count(Bead.HEAVEN) == (count >= 5)


def with_units(pilot, *counts):
    """Home with a course whose units have so many lessons each."""
    course, start, lessons = the_course(), 0, []
    units = [Unit(f"pier-{at}", f"pier {at}") for at in range(len(counts))]
    for unit, count in zip(units, counts, strict=True):
        some = course.lessons[start : start + count]
        lessons += [replace(entry, unit=unit.id) for entry in some]
        start += count
    pilot.room.course = CourseIndex(course.folder, tuple(units), tuple(lessons))
    pilot.screen.rearrange()
    pilot.repaint()
    return lessons


def touched(pilot, column, bead):
    """The lesson that a touch of a bead opens, left again; None for none."""
    home = pilot.screen
    box = home.map.fields[0].layout.bead_box(
        column, bead, home.map.fields[0].pose.rods[column][bead]
    )
    pilot.tap(box.centre)
    if pilot.screen is home:
        return None
    lesson = pilot.screen.runner.lesson.id
    pilot.key(pygame.K_ESCAPE)
    return lesson


@pytest.mark.parametrize("all_done", [False, True])
@pytest.mark.parametrize("count", [0, 1, 4, 5, 10])
def test_no_lesson_is_hidden_whatever_the_number_in_its_unit(pilot, count, all_done):
    pilot.room.set(all_open=True)
    lessons = with_units(pilot, 2, count, 5)
    if all_done:
        pilot.room.lessons.update(states(range(len(lessons))))
        pilot.screen.rearrange()
    wanted = [entry.id for entry in lessons[2 : 2 + count]]
    found = set()
    for bead in Bead:
        for _ in range(3):
            found.add(one := touched(pilot, 1, bead))
            if one and not all_done:
                pilot.room.lessons[one] = LessonState(1, Position(), done=True)
                pilot.screen.rearrange()
    assert found - {None} == set(wanted)


@pytest.mark.parametrize("count", [0, 1, 3, 5, 7])
def test_the_keyboard_reaches_every_lesson_of_a_unit(pilot, count):
    pilot.room.set(all_open=True)
    lessons = with_units(pilot, 2, count, 5)
    pilot.key(pygame.K_RIGHT)
    titles = []
    for _ in range(max(count, 1)):
        titles.append(pilot.screen.said)
        pilot.repaint()
        pilot.key(pygame.K_DOWN)
    assert set(titles) == ({entry.title for entry in lessons[2 : 2 + count]} or {"pier 1"})
    for code in (pygame.K_RETURN, pygame.K_LEFT, pygame.K_UP, pygame.K_RIGHT, pygame.K_RIGHT):
        pilot.key(code)
        pilot.repaint()


@pytest.mark.parametrize("count", [1, 3, 5, 7])
def test_a_rod_is_done_when_its_lessons_are_and_the_next_one_is_lit(pilot, count):
    with_units(pilot, count, 5)
    digits = []
    for done in range(count + 1):
        pilot.room.lessons.update(states(range(done)))
        pilot.screen.rearrange()
        digits.append(int(pilot.screen.map.fields[0].frame.digits[0]))
        column = int(done == count)
        (hint,) = pilot.screen.map.fields[0].hints
        lit = pilot.screen.map.fields[0].pose.bead_to_touch(column, hint.change)
        assert (hint.rod, lit) == (1 - column, [*beads_of(count), Bead.EARTH_1][done])
    assert digits[0] == 0 and digits == sorted(digits)
    assert digits[-1] == (9 if count >= 5 else count)


def test_the_bead_of_a_lesson_that_was_done_glides_to_the_beam(pilot):
    home = pilot.screen
    pilot.press_lesson()
    while pilot.screen.runner.stage is not Stage.END:
        do_right(pilot)
    pilot.press_word("lesson.home")
    field = pilot.screen.map.fields[0]
    assert pilot.screen is home and field.is_moving and home.wakes_in(pilot.clock) == 0.0
    start = field.pose
    pilot.wait(5, 60)
    assert field.pose == pose_of(field.frame) != start
    assert not field.is_moving and home.wakes_in(pilot.clock) != 0.0


def test_whoever_did_nothing_new_sees_all_as_it_was(pilot):
    pilot.press_lesson()
    pilot.press("back")
    assert not pilot.screen.map.fields[0].is_moving


# What was done is counted beside the window


def counted_later(pilot):
    """What the learner did is counted when it is told."""
    pilot.room.known.aside = aside = WhenTold()
    pilot.room.fold_anew()
    return aside


def by_practise(pilot):
    pilot.press_word("home.practise")


def by_lesson(pilot):
    pilot.key(pygame.K_RETURN)


@pytest.mark.parametrize("act", [by_practise, by_lesson])
def test_what_is_not_counted_yet_is_not_waited_for_and_what_needs_it_comes_then(pilot, heard, act):
    aside, counting = counted_later(pilot), pilot.words.line("grown.counting")
    act(pilot)
    for _ in range(3):
        pilot.wait(5)
        assert isinstance(pilot.screen, Home) and counting.show in pilot.lines()
    assert heard.said.count(counting.speak) == 1
    while aside.waiting:
        aside.go_on()
    pilot.wait(1)
    assert not isinstance(pilot.screen, Home)


def test_what_is_pressed_instead_is_what_comes(pilot):
    aside = counted_later(pilot)
    pilot.press_word("home.practise")
    pilot.press_word("home.free")
    assert isinstance(pilot.screen, FreeFrame)
    pilot.key(pygame.K_ESCAPE)
    while aside.waiting:
        aside.go_on()
    pilot.wait(5)
    assert isinstance(pilot.screen, Home)


# The harbour


def rods_of(home):
    """How wide the rod of each unit is, in pixels, from the left."""
    return [
        part.field.layout.spacing for part in home.map.parts for _ in part.units
    ]  # fmt: skip


@pytest.mark.parametrize("done", [0, 3, 20, LAST - 7, LAST])
def test_for_the_young_three_units_are_large_the_next_one_among_them(pilot, done):
    pilot.room.set(age=Age.YOUNG)
    pilot.room.lessons.update(states(range(done)))
    pilot.screen.rearrange()
    rods, course = rods_of(pilot.screen), pilot.room.course
    large = [at for at, rod in enumerate(rods) if rod == max(rods)]
    following = [unit.id for unit in course.units].index(course.lessons[done].unit)
    assert len(rods) == len(course.units) and len(large) == 3 and following in large
    assert sorted(rods)[-4] <= 0.55 * max(rods)


def test_for_others_and_where_there_is_no_room_all_units_are_alike(pilot):
    assert len(set(rods_of(pilot.screen))) == 1
    pilot.room.set(age=Age.YOUNG)
    pilot.resize((480, 800))
    assert len(set(rods_of(pilot.screen))) == 1


def test_what_stands_for_a_unit_is_hollow_until_all_of_it_is_done(pilot):
    units = pilot.room.course.units[:2]
    pilot.room.lessons.update(states(range(5)))
    pilot.screen.rearrange()
    pilot.repaint()
    (part,), theme = pilot.screen.map.parts, pilot.room.theme
    rods = part.field.rod_places()
    for unit, (_, middle), is_done in zip(units, rods, (True, False), strict=False):
        picture = pilot.room.pictures.drawn(unit.thing, part.thing, theme.drawn, not is_done)
        place = picture.get_rect(midbottom=(middle, pilot.screen.map.quay))
        wanted = pygame.Surface(place.size)
        wanted.fill(theme.ground)
        wanted.blit(picture, (0, 0))
        below_sea = pygame.Rect(0, place.h // 2, place.w, place.h - place.h // 2)
        seen = pilot.pixels(below_sea.move(place.topleft))
        assert seen == pygame.image.tobytes(wanted.subsurface(below_sea), "RGB")

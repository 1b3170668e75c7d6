"""Every screen in every state is laid out in windows small and large: nothing overlaps, leaves
the window or is cut, and everything to touch is large enough."""

from contextlib import closing
from dataclasses import replace
from pathlib import Path

import pytest
from kept import added
from pilot import Pilot
from sight import SHAPES, SIZES, UPRIGHT, assert_well_laid_out, flaws, laid_out, look_at

from frame.app import Pop
from frame.course.attempts import Position
from frame.learner.keeper import Keeper
from frame.learner.looks import ANIMALS, Portrait
from frame.learner.settings import Age, Look, Settings
from frame.learner.store import LessonState, Store, StoreError
from frame.learner.trouble import OF_OTHERS, Trouble
from frame.screens.choosing.code import NewCode
from frame.screens.choosing.free import FreeFrame
from frame.screens.choosing.home import Home
from frame.screens.choosing.lock import Lock
from frame.screens.choosing.newcomer import ChooseAge, ChooseAnimal, ChooseFlag, FirstName
from frame.screens.choosing.sections import LEARNER
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.choosing.unkept import Unkept
from frame.screens.choosing.unopened import Unopened
from frame.screens.choosing.who import Who
from frame.technique.beads import BeadMove
from frame.view.geometry import Bead
from frame.view.inputs import MOUSE, Press

LAYOUTS = [*SIZES, UPRIGHT]

# Who


@pytest.mark.parametrize("count", [0, 1, 5, 14, 40, 60])
def test_who(tmp_path, count):
    pilot = Pilot(tmp_path)
    for number in range(count):
        animal = ANIMALS[number % len(ANIMALS)]
        added(pilot.room.store, f"{animal.title()} {number + 20}", animal)
    choosing = ChooseAnimal(pilot.room, Pop)
    flags = ChooseFlag(pilot.room, "hedgehog", Pop)
    screens = [("who", Who(pilot.room)), ("animals", choosing), ("flags", flags)]
    assert_well_laid_out(screens, LAYOUTS)
    pilot.close()


def test_the_question_for_the_age(room):
    screens = [(animal, ChooseAge(room, Portrait(animal))) for animal in ("cat", "hedgehog")]
    screens[0][1].shared = room.words.text("who.shared", name="Maximiliane Wilhelmine M")
    assert_well_laid_out(screens, LAYOUTS)


@pytest.mark.parametrize(
    "name", ["", "Ann", "Maximiliane Wilhelmine", "W" * 24, "国" * 24, "אבג דהו"]
)
@pytest.mark.parametrize("composed", ["", "さく"])
def test_where_a_name_is_typed(room, name, composed):
    page = FirstName(room, "hedgehog-checks", Age.MIDDLE)
    page.name, page.composed, page.is_full = name, composed, bool(name)
    assert_well_laid_out([("name", page)], LAYOUTS)


@pytest.mark.parametrize("name", ["W" * 24, "国" * 24, "Maximiliane Wilhelmine M"])
def test_a_long_name_is_cut_rather_than_out_of_place(room, name):
    room.learner = replace(room.learner, nickname=name)
    learner_page = SettingsScreen(room)
    learner_page.page = learner_page.sections.index(LEARNER)
    learner_page.shared = room.words.text("who.shared", name=name)
    asking = SettingsScreen(room)
    asking.page, asking.asks = learner_page.page, True
    for size in LAYOUTS:
        for screen in (Home(room), learner_page, asking):
            found = [one for one in flaws(look_at(screen, size)) if "is cut short" not in one]
            assert not found, (size, found)


# Home


def finish(room, count, begun=False):
    """The first lessons of the course are done, and perhaps the next one begun."""
    ids = [entry.id for entry in room.course.lessons]
    room.lessons.clear()
    room.lessons.update({one: LessonState(1, Position(), True) for one in ids[:count]})
    room.lessons.update({one: LessonState(1, Position(1), False) for one in ids[count:][:begun]})


def test_home_whatever_lesson_is_next(room):
    for count in range(len(room.course.lessons) + 1):
        finish(room, count, begun=count % 2 == 0)
        assert_well_laid_out([(f"{count} done", Home(room))], [*SHAPES, UPRIGHT])


def test_home_while_nothing_can_be_saved(room):
    with closing(Store(None)) as store:
        for trouble in set(Trouble) - {Trouble.GONE} - OF_OTHERS:
            room.keeper = refusing(store, trouble)
            assert room.is_unsaved
            screens = Home(room), Who(room), Unkept(room)
            assert_well_laid_out([(trouble, screen) for screen in screens], LAYOUTS)


@pytest.mark.parametrize("trouble", sorted(set(Trouble) - {Trouble.GONE} - OF_OTHERS))
def test_a_file_that_cannot_be_opened(room, trouble):
    error = StoreError(Path("/quay/shed/bead-frame/learners.sqlite"), "database is locked", trouble)
    assert_well_laid_out([(trouble, Unopened(room, lambda: None, error))], LAYOUTS)


def refusing(store, trouble):
    """A keeper whose file refuses what is written."""

    def write(store):
        raise StoreError(Path("learners.sqlite"), "no", trouble)

    keeper = Keeper(store)
    keeper.write(write)
    return keeper


@pytest.mark.parametrize("look", Look)
def test_home_in_every_theme_after_a_touch_on_a_locked_lesson(room, look):
    room.set(look=look)
    finish(room, 20)
    home = laid_out(Home(room))
    last = len(room.course.units) - 1
    home.handle(Press(MOUSE, home.map.fields[0].layout.bead_box(last, Bead.HEAVEN, 0).centre))
    assert home.said
    assert_well_laid_out([("home", home)], LAYOUTS)


# The free frame


@pytest.mark.parametrize("digit", [0, 3, 7])
@pytest.mark.parametrize("rods", [1, 13, 27])
def test_the_free_frame_with_the_longest_words(room, rods, digit):
    room.settings = Settings(free_rods=rods)
    free = laid_out(FreeFrame(room))
    for rod in range(free.field.frame.lowest, free.field.frame.highest + 1):
        for change in filter(None, (5 * (digit // 5), digit % 5)):
            free.touch((BeadMove(rod, change),))
    assert set(free.field.frame.digits) == {str(digit)}
    if digit:
        free.touch((BeadMove(free.field.frame.lowest, -(digit % 5)),))
        free.undo()
        assert {"Undo", "Redo"} <= {button.text for button in free.buttons}
    assert_well_laid_out([(f"{rods} rods", free)], LAYOUTS)


# For grown-ups


QUESTIONS = ("code.ask", "code.wrong", "code.new", "code.again", "code.other")


@pytest.mark.parametrize("make", [Lock, lambda room: NewCode(room, Pop())])
def test_the_lock(room, make):
    screens = []
    for question in QUESTIONS:
        for typed in ("", "88", "8888"):
            screen = make(room)
            screen.question = question
            laid_out(screen)
            for digit in typed:
                screen.type_digit(digit)
            screens.append((f"{question} {typed}", screen))
    assert_well_laid_out(screens, LAYOUTS)


@pytest.mark.parametrize("is_anybody", [True, False])
@pytest.mark.parametrize("age", Age)
def test_settings(room, age, is_anybody):
    room.settings = Settings(age=age)
    learner, room.learner = room.learner, room.learner if is_anybody else None

    def settings(page):
        screen = SettingsScreen(room)
        screen.page = page
        return screen

    pages = range(len(SettingsScreen(room).sections))
    assert_well_laid_out(((f"settings {page}", settings(page)) for page in pages), LAYOUTS)
    room.learner = learner


def test_the_question_before_a_learner_is_removed(room):
    screen = SettingsScreen(room)
    screen.page = screen.sections.index(LEARNER)
    laid_out(screen)
    asking = [button for button in screen.buttons if room.learner.nickname in button.text]
    asking[0].act()
    assert screen.asks
    assert_well_laid_out([("removal", screen)], LAYOUTS)

"""What is done is on disk at once, and goes when the learner is removed."""

from contextlib import closing, contextmanager

import pygame
import pytest
from pilot import Pilot
from robot import DEAF, begin, do_right, give_answer, open_lesson
from shipped import lesson_of

from frame.app import Push
from frame.course.attempts import Position
from frame.course.runner import Stage
from frame.learner.settings import Look, Settings
from frame.learner.store import LessonState, Store
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Rung
from frame.screens.choosing.home import Home
from frame.screens.choosing.sections import LEARNER
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.choosing.who import Who
from frame.technique.expression import parse_sum


@pytest.fixture
def disk(pilot):
    """The same file, opened a second time: what is left if the window were killed now."""
    store = Store(pilot.room.store.path)
    yield store
    store.close()


def test_every_exercise_is_on_disk_as_soon_as_it_is_done(pilot, disk):
    learner = pilot.room.learner
    open_lesson(pilot, "beads-1")
    runner = pilot.screen.runner
    checked = set()
    while runner.stage is not Stage.END:
        do_right(pilot)
        if runner.stage is Stage.DONE:
            pilot.settle()
            kept = disk.attempts(learner)
            assert len(kept) == len(runner.attempts)
            assert kept[-1] == ("beads-1", str(runner.attempts[-1].exercise), True, True)
            state = disk.lessons(learner)["beads-1"]
            assert (state.position, state.seed, state.done) == (runner.upcoming, runner.seed, False)
            checked.add(len(kept))
    assert checked == set(range(1, len(runner.attempts) + 1))
    assert len(checked) > 5
    pilot.wait(0.1)
    assert disk.lessons(learner)["beads-1"].done
    assert disk.lessons(learner)["beads-1"].position == Position()


def play_until(pilot, attempts):
    while len(pilot.screen.runner.attempts) < attempts:
        do_right(pilot)


def test_a_lesson_goes_on_there_after_the_window_was_killed(pilot, tmp_path):
    open_lesson(pilot, "beads-1")
    play_until(pilot, 6)
    place, seed = pilot.screen.runner.upcoming, pilot.screen.runner.seed
    again = Pilot(tmp_path, (800, 480))
    again.press("Otter")
    again.press(again.room.words.text("home.go_on", title=again.room.course.lessons[0].title))
    assert (again.screen.runner.position, again.screen.runner.seed) == (place, seed)
    again.close()


def test_an_attempt_with_a_mistake_is_kept_as_one(pilot, disk):
    pilot.open("beads-1", 1)
    while pilot.screen.runner.stage is not Stage.WORK:
        do_right(pilot)
    pilot.press("eye")
    play_until(pilot, 1)
    pilot.wait(0.1)
    assert [own for *_, own in disk.attempts(pilot.room.learner)] == [False]


@pytest.mark.parametrize("at_once", [False, True])
def test_each_exercise_is_kept_with_its_own_time(pilot, disk, at_once):
    """Whether a learner waits for the next one, or touches what is done to go on at once."""
    screen = begin(pilot, Exercise(Kind.SUM, parse_sum("34 + 23"), Rung.NUMBER, 2), count=3)
    for at in range(3):
        pilot.wait(3.0 - (pilot.clock - screen.guide.stopwatch.since))
        give_answer(pilot, 57)
        if at_once:
            pilot.wait(DEAF, 3)
            pilot.tap(screen.field.box.center)
        while screen.runner.position.step == at and screen.runner.stage is not Stage.END:
            pilot.wait(0.05, turns=1)
    seconds = [one.seconds for one in disk.tries(pilot.room.learner)]
    assert seconds == pytest.approx([3, 3, 3], abs=0.5)


def test_a_done_lesson_brings_its_bead_to_the_beam(pilot):
    home = pilot.screen
    assert set(home.map.fields[0].frame.digits) == {"0"}
    before = pilot.pixels(home.map.fields[0].box)
    pilot.open("beads-1", len(lesson_of("beads-1").steps))
    assert pilot.screen.runner.stage is Stage.END
    pilot.wait(0.1)
    pilot.press(pilot.room.words.text("lesson.home"))
    pilot.repaint()
    assert home.map.fields[0].frame.digits[0] == "1"
    assert set(home.map.fields[0].frame.digits[1:]) == {"0"}
    assert home.next_lesson.id == "beads-2"
    assert pilot.pixels(home.map.fields[0].box) != before


def lesson_of_button(pilot):
    """The lesson that its button on home opens."""
    home = pilot.screen
    pilot.press_lesson()
    lesson = pilot.screen.runner.lesson.id
    pilot.key(pygame.K_ESCAPE)
    assert pilot.screen is home
    return lesson


@pytest.mark.parametrize(
    "done, half, wanted",
    [
        ((), (), "beads-1"),
        (("beads-1",), (), "beads-2"),
        (("beads-1", "beads-3"), (), "beads-4"),
        (("beads-1",), ("tens-2",), "tens-2"),
        (("beads-1",), ("tens-2", "beads-3"), "beads-3"),
        (("beads-1", "tens-2"), ("beads-4",), "tens-3"),
    ],
)
def test_the_main_thing_is_the_lesson_left_half_done_or_the_next_one(pilot, done, half, wanted):
    pilot.room.set(all_open=True)
    lessons = pilot.room.lessons
    lessons.update({one: LessonState(1, Position(), True) for one in done})
    lessons.update({one: LessonState(1, Position(2), False) for one in half})
    pilot.screen.rearrange()
    assert lesson_of_button(pilot) == wanted


def test_a_done_lesson_begun_again_and_left_is_not_the_main_thing(pilot):
    pilot.room.lessons["beads-1"] = LessonState(1, Position(2), True)
    pilot.screen.rearrange()
    assert lesson_of_button(pilot) == "beads-2"


def open_removal(pilot):
    settings = SettingsScreen(pilot.room)
    settings.page = settings.sections.index(LEARNER)
    pilot.app.take(Push(settings))
    pilot.press(pilot.room.words.text("who.remove", name="Otter"))


def test_removing_a_learner_deletes_all_of_them_and_goes_to_who(pilot, disk):
    learner, words = pilot.room.learner, pilot.room.words
    open_lesson(pilot, "beads-1")
    play_until(pilot, 2)
    pilot.wait(0.1)
    assert disk.attempts(learner)
    pilot.press("back")
    open_removal(pilot)
    pilot.press(words.text("who.remove_no"))
    assert disk.learners()
    pilot.press(words.text("who.remove", name="Otter"))
    pilot.press(words.text("who.remove_yes"))
    assert isinstance(pilot.screen, Who)
    assert pilot.room.learner is None
    assert disk.learners() == ()
    assert disk.attempts(learner) == ()
    assert disk.lessons(learner) == {}
    assert b"Otter" not in pilot.room.store.path.read_bytes()


def test_settings_belong_to_each_learner(pilot, disk):
    otter = pilot.room.learner
    pilot.app.take(Push(SettingsScreen(pilot.room)))
    pilot.press(pilot.room.words.text("settings.theme_dark"))
    assert disk.settings(otter).look is Look.DARK
    pilot.press("back")
    pilot.press("otter")
    assert isinstance(pilot.screen, Who)
    assert pilot.room.settings == Settings()
    pilot.press("newcomer")
    pilot.welcome("Seal")
    assert pilot.room.settings == Settings()
    pilot.press("seal")
    pilot.press("Otter")
    assert pilot.room.settings.look is Look.DARK
    assert disk.settings(otter).look is Look.DARK


def test_a_disk_that_is_full_for_a_while_loses_nothing(pilot, disk):
    open_lesson(pilot, "beads-1")
    play_until(pilot, 1)
    pilot.wait(0.1)
    with full_disk():
        play_until(pilot, 3)
        pilot.wait(0.1)
        assert len(disk.attempts(pilot.room.learner)) == 1
        assert pilot.room.is_unsaved
        assert pilot.screen.runner.stage is not Stage.END
    play_until(pilot, 4)
    pilot.wait(0.1)
    assert len(disk.attempts(pilot.room.learner)) == 4
    assert not pilot.room.is_unsaved


def test_a_disk_that_is_full_when_a_child_sits_down_loses_nothing(tmp_path):
    pilot = Pilot(tmp_path, (800, 480))
    with full_disk():
        pilot.welcome("Heron")
        open_lesson(pilot, "beads-1")
        play_until(pilot, 14)
        pilot.wait(5)
        assert pilot.room.is_unsaved
    pilot.wait(5)
    assert not pilot.room.is_unsaved
    with closing(Store(pilot.room.store.path)) as disk:
        (heron,) = disk.learners()
        assert len(disk.attempts(heron)) == 14
        assert disk.lessons(heron)["beads-1"] == pilot.room.lessons["beads-1"]
    pilot.close()


def test_home_says_that_nothing_can_be_saved_until_it_can(pilot, disk):
    unsaved = pilot.room.words.text("store.unsaved")
    open_lesson(pilot, "beads-1")
    with full_disk():
        play_until(pilot, 2)
        pilot.press("back")
        assert isinstance(pilot.screen, Home)
        assert unsaved in seen_text(pilot)
        assert pilot.room.words.text("home.title") not in seen_text(pilot)
    open_lesson(pilot, "beads-1")
    play_until(pilot, 1)
    pilot.settle()
    pilot.press("back")
    assert unsaved not in seen_text(pilot)
    assert disk.attempts(pilot.room.learner)


def seen_text(pilot):
    return " ".join(line for line, _ in pilot.repaint())


def test_a_setting_that_cannot_be_kept_is_in_force_all_the_same(pilot, disk):
    with full_disk():
        pilot.room.set(look=Look.DARK)
    assert pilot.room.settings.look is Look.DARK
    assert pilot.room.is_unsaved
    assert disk.settings(pilot.room.learner).look is Look.LIGHT


@contextmanager
def full_disk():
    """No file of this process can grow: the system refuses each write, as a full disk does."""
    resource = pytest.importorskip("resource", reason="only POSIX systems limit file sizes")
    usual = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (1, usual[1]))
    try:
        yield
    finally:
        resource.setrlimit(resource.RLIMIT_FSIZE, usual)

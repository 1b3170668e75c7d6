"""Everything is worked with the keyboard alone, and keys that mean nothing do nothing."""

import pygame
import pytest
from board_class import open_board
from calls import called, until_called
from pilot import Pilot
from robot import at_work, begin

from frame.app import Push
from frame.course.course import load_one
from frame.course.runner import Stage
from frame.learner.settings import Age, Volume
from frame.practice.exercises import Kind
from frame.screens.choosing.free import FreeFrame
from frame.screens.choosing.home import Home
from frame.screens.choosing.lock import Lock
from frame.screens.choosing.newcomer import ChooseAnimal
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.choosing.who import Who
from frame.screens.lesson.screen import LessonScreen
from frame.screens.lesson.tapping import TappingScreen
from frame.screens.parts.keyed_panel import KeyedPanel
from frame.technique.reading import read
from frame.view.widgets import focus_reach

UNKNOWN = [
    pygame.K_a, pygame.K_z, pygame.K_b, pygame.K_PERIOD, pygame.K_6, pygame.K_9, pygame.K_F1,
    pygame.K_F5, pygame.K_PAGEDOWN, pygame.K_PAGEUP, pygame.K_HOME, pygame.K_END,
    pygame.K_LSHIFT, pygame.K_LCTRL, pygame.K_LALT, pygame.K_CAPSLOCK, pygame.K_INSERT,
]  # fmt: skip


@pytest.fixture
def pilot(tmp_path):
    pilot = Pilot(tmp_path, (800, 480))
    yield pilot
    pilot.close()


@pytest.fixture
def home(pilot):
    for tabs in (1, 1, 2, 0):  # the first animal and flag; the second age; the name
        for code in (*[pygame.K_TAB] * tabs, pygame.K_RETURN):
            pilot.key(code)
        pilot.wait(0.6)
    assert pilot.room.settings.age is Age.MIDDLE
    assert isinstance(pilot.screen, Home)
    return pilot.screen


def key_move(pilot, move):
    """Make a bead move with the keys that stand for it."""
    field = pilot.screen.field
    for _ in range(40):
        if field.focus == move.rod:
            break
        left = field.focus is not None and field.focus < move.rod
        pilot.key(pygame.K_LEFT if left else pygame.K_RIGHT)
    if move.is_heaven:
        pilot.key(pygame.K_5)
    else:
        shift = pygame.KMOD_LSHIFT if move.change < 0 else 0
        pilot.key(pygame.K_0 + abs(move.change), shift)


def do_right_by_keys(pilot):
    """Do with the keyboard what the lesson waits for."""
    pilot.settle()
    pilot.wait_for_buttons()
    runner = pilot.screen.runner
    if runner.stage is Stage.TELL:
        pilot.key(pygame.K_RETURN)
    elif runner.stage is Stage.ANSWER:
        for digit in str(runner.work.exercise.sum.result):
            pilot.key(pygame.K_KP1 + int(digit) - 1 if int(digit) else pygame.K_0)
        if runner.stage is Stage.ANSWER:
            pilot.key(pygame.K_KP_ENTER)
    elif runner.stage is not Stage.WORK:
        pilot.wait(1.0, 3)
    elif runner.work.is_silent and runner.work.judge.finished:
        pilot.key(pygame.K_RETURN)
    else:
        key_move(pilot, min(runner.work.next_stroke))


@pytest.mark.parametrize("lesson_id", ["beads-5", "tens-4", "five-add-1", "ten-take-5"])
def test_a_whole_lesson_from_the_first_window_on(pilot, home, lesson_id):
    pilot.open(lesson_id)
    for _ in range(600):
        if pilot.screen.runner.stage is Stage.END:
            break
        do_right_by_keys(pilot)
    runner = pilot.screen.runner
    assert runner.stage is Stage.END
    assert runner.mastered
    assert all(attempt.slips == () for attempt in runner.attempts)
    pilot.wait_for_buttons()
    pilot.key(pygame.K_RETURN)
    assert isinstance(pilot.screen, LessonScreen)
    assert pilot.screen.runner is not runner
    pilot.key(pygame.K_ESCAPE)
    assert pilot.screen is home


def test_enter_on_home_starts_the_lit_lesson_and_arrows_choose_a_done_one(pilot, home):
    pilot.key(pygame.K_RETURN)
    assert pilot.screen.runner.lesson.id == pilot.room.course.lessons[0].id
    pilot.key(pygame.K_ESCAPE)
    pilot.key(pygame.K_RIGHT)
    pilot.key(pygame.K_LEFT)
    assert home.cursor == (0, 0)
    assert home.said == pilot.room.course.lessons[0].title
    pilot.key(pygame.K_RETURN)
    assert pilot.screen.runner.lesson.id == pilot.room.course.lessons[0].id


def test_beads_move_one_by_one_with_up_and_down(pilot, home):
    pilot.open_free(3)
    for code, digits in (
        (pygame.K_UP, "001"), (pygame.K_UP, "002"), (pygame.K_DOWN, "001"), (pygame.K_LEFT, "001"),
        (pygame.K_4, "041"), (pygame.K_5, "091"), (pygame.K_5, "041"), (pygame.K_3, "041"),
        (pygame.K_LEFT, "041"), (pygame.K_LEFT, "041"), (pygame.K_LEFT, "041"),
        (pygame.K_2, "241"), (pygame.K_DOWN, "141"), (pygame.K_DOWN, "041"),
        (pygame.K_DOWN, "041"),
    ):  # fmt: skip
        pilot.key(code)
        assert pilot.screen.field.frame.digits == digits


def worked_by_keys(pilot):
    """Screens with a frame on which a rod was chosen by keys: each while it takes beads, and a
    lesson also while it takes none any more."""
    pilot.open_free(3)
    pilot.key(pygame.K_4)
    yield pilot.screen
    at_work(pilot, "beads-2", kind=Kind.SET)
    pilot.key(pygame.K_LEFT)
    yield pilot.screen
    do_right_by_keys(pilot)
    while pilot.screen.runner.takes_touches:
        do_right_by_keys(pilot)
    yield pilot.screen
    pilot.app.take(Push(TappingScreen(pilot.room)))
    pilot.settle()
    pilot.key(pygame.K_LEFT)
    yield pilot.screen


def test_an_arrow_too_many_does_not_leave_the_beads(pilot, home):
    for screen in worked_by_keys(pilot):
        for code in (pygame.K_UP, pygame.K_DOWN, pygame.K_LEFT, pygame.K_RIGHT):
            for _ in range(6):
                pilot.key(code)
                assert pilot.screen is screen and screen.focus is None


@pytest.mark.parametrize(
    ("code", "mod"), [(pygame.K_UP, 0), (pygame.K_DOWN, 0), (pygame.K_TAB, pygame.KMOD_LSHIFT)]
)
def test_tab_leaves_the_beads_and_one_key_comes_back(pilot, home, code, mod):
    for screen in worked_by_keys(pilot):
        before = screen.field.frame
        pilot.key(pygame.K_TAB)
        assert screen.focus == screen.order[0]
        pilot.key(code, mod)
        assert (screen.focus, screen.field.frame) == (None, before)


def test_a_digit_is_for_the_beads_wherever_the_ring_is(pilot, home):
    pilot.open_free(3)
    pilot.key(pygame.K_TAB)
    pilot.key(pygame.K_4)
    assert (pilot.screen.focus, read(pilot.screen.field.frame)) == (None, 4)


def test_left_and_right_go_round_the_buttons_once_a_lesson_is_over(pilot, home):
    pilot.open("beads-1")
    while pilot.screen.runner.stage is not Stage.END:
        do_right_by_keys(pilot)
    for at in pilot.screen.order:
        pilot.key(pygame.K_RIGHT)
        assert pilot.screen.focus == at


def test_undo_and_redo_in_the_free_frame(pilot, home):
    pilot.open_free(3)
    pilot.key(pygame.K_3)
    pilot.key(pygame.K_5)
    control, shift = pygame.KMOD_LCTRL, pygame.KMOD_LSHIFT
    for code, mod, digits in (
        (pygame.K_z, control, "003"), (pygame.K_z, control, "000"), (pygame.K_z, control, "000"),
        (pygame.K_y, control, "003"), (pygame.K_z, control | shift, "008"),
        (pygame.K_DELETE, 0, "000"), (pygame.K_z, control, "008"),
    ):  # fmt: skip
        pilot.key(code, mod)
        assert pilot.screen.field.frame.digits == digits


def test_undo_in_a_lesson(pilot, home):
    screen = at_work(pilot, "tens-2", kind=Kind.SET)
    before = screen.runner.frame
    key_move(pilot, min(screen.runner.work.next_stroke))
    assert screen.runner.frame != before
    pilot.key(pygame.K_z, pygame.KMOD_LCTRL)
    assert screen.runner.frame == before


def test_backspace_takes_a_typed_digit_away(pilot, home):
    for step in range(30):
        pilot.open("tens-2", step)
        if pilot.screen.runner.stage is Stage.ANSWER:
            break
    for code in (pygame.K_1, pygame.K_KP0, pygame.K_BACKSPACE, pygame.K_2):
        pilot.key(code)
    assert pilot.screen.guide.answer.typed == "12"


def test_enter_gives_what_was_typed_wherever_the_ring_was(pilot, home):
    for step in range(30):
        pilot.open("tens-2", step)
        if pilot.screen.runner.stage is Stage.ANSWER:
            break
    screen, work = pilot.screen, pilot.screen.runner.work
    screen.focus_button([one.text for one in screen.buttons].index("7"))
    for figure in str(work.exercise.sum.result):
        pilot.key(pygame.K_0 + int(figure))
    pilot.key(pygame.K_RETURN)
    assert work.answers == [work.exercise.sum.result] and work.right


def test_on_one_rod_a_digit_key_is_the_answer(pilot, home):
    for step in range(30):
        pilot.open("beads-2", step)
        if pilot.screen.runner.stage is Stage.ANSWER:
            break
    screen = pilot.screen
    for code in (pygame.K_BACKSPACE, pygame.K_KP_ENTER):
        pilot.key(code)
        assert (screen.guide.answer.typed, screen.guide.said) == ("", None)
    pilot.key(pygame.K_0 + int(screen.runner.frame.digits))
    assert screen.runner.stage is Stage.DONE
    assert screen.runner.attempts[-1].unaided


def test_escape_goes_back_from_everywhere_and_never_closes_the_window(pilot, home):
    room = pilot.room
    for screen in (Lock(room), SettingsScreen(room), FreeFrame(room)):
        pilot.app.take(Push(screen))
        pilot.key(pygame.K_ESCAPE)
        assert pilot.screen is home
    pilot.open("beads-1")
    pilot.key(pygame.K_ESCAPE)
    assert pilot.screen is home
    pilot.key(pygame.K_ESCAPE)
    assert isinstance(pilot.screen, Who)
    for _ in range(3):
        pilot.key(pygame.K_ESCAPE)
        assert isinstance(pilot.screen, Who)


def test_the_lock_is_opened_by_keys(pilot, home):
    pilot.room.store.set_code("2580")
    pilot.app.take(Push(Lock(pilot.room)))
    for digit in "2580":
        pilot.key(pygame.K_0 + int(digit))
    pilot.key(pygame.K_RETURN)
    assert isinstance(pilot.screen, SettingsScreen)


def every_screen(pilot):
    """Each screen put on top in turn."""

    yield pilot.screen
    for make in (Lock, SettingsScreen, FreeFrame):
        pilot.app.take(Push(make(pilot.room)))
        yield pilot.screen
    for lesson_id, step in (("beads-1", 0), ("beads-2", 3), ("five-add-1", 4), ("beads-5", 99)):
        pilot.open(lesson_id, min(step, len(pilot_steps(pilot, lesson_id))))
        pilot.wait(3, 10)
        yield pilot.screen


def pilot_steps(pilot, lesson_id):

    return load_one(pilot.room.course, lesson_id).steps


@pytest.mark.parametrize("size", [(800, 480), (1024, 768)])
def test_tab_goes_round_all_buttons_with_a_ring_that_is_seen_inside_the_window(pilot, home, size):
    pilot.resize(size)
    window = pygame.Rect((0, 0), size)
    for screen in every_screen(pilot):
        pilot.repaint()
        seen = [pilot.pixels()]
        order = screen.order
        assert sorted(order) == [at for at, one in enumerate(screen.buttons) if not one.rests]
        for index in order:
            pilot.key(pygame.K_TAB)
            assert screen.focus == index
            place = screen.buttons[index].place
            assert window.contains(focus_reach(place, size[1])), (screen, place)
            seen.append(pilot.pixels())
        assert len(set(seen)) == len(seen), screen
        beads = [None] if isinstance(screen, KeyedPanel) else []
        for mod, first in ((0, order[0]), (pygame.KMOD_LSHIFT, order[-1])):
            for expected in (*beads, first):
                pilot.key(pygame.K_TAB, mod)
                assert screen.focus == expected


def focused(pilot):
    """What the button with the ring shows; None where there is no ring."""
    screen = pilot.screen
    if screen.focus is None:
        return None
    button = screen.buttons[screen.focus]
    return button.picture or button.sign or button.text


def focus_on(pilot, what):
    """Go round the buttons to this one."""
    for _ in range(40):
        if focused(pilot) == what:
            return
        pilot.key(pygame.K_TAB)
    raise LookupError(what)


def test_back_on_the_first_screen_no_button_has_the_ring_that_nobody_gave_it(pilot, home):
    pilot.key(pygame.K_ESCAPE)
    assert isinstance(pilot.screen, Who)
    assert focused(pilot) is None


def test_back_on_the_first_screen_the_ring_is_on_the_ticket_that_was_taken(pilot, home):
    pilot.key(pygame.K_ESCAPE)
    ticket = pilot.room.store.learners()[0].picture
    focus_on(pilot, ticket)
    pilot.key(pygame.K_RETURN)
    assert isinstance(pilot.screen, Home)
    pilot.key(pygame.K_ESCAPE)
    assert focused(pilot) == ticket


def test_a_newcomer_finds_no_picture_chosen(pilot, home):
    pilot.key(pygame.K_ESCAPE)
    focus_on(pilot, "newcomer")
    pilot.key(pygame.K_RETURN)
    assert isinstance(pilot.screen, ChooseAnimal)
    assert focused(pilot) is None


def test_the_ring_stays_on_what_holds_a_call_and_lets_it_go_on(pilot, home):
    begin(pilot, called())
    until_called(pilot)
    focus_on(pilot, "pause")
    for sign in ("next", "pause", "next"):
        pilot.key(pygame.K_RETURN)
        assert focused(pilot) == sign


def test_the_ring_stays_on_what_plays_and_holds_a_sum_of_the_board(pilot, home):
    open_board(pilot, "12 + 34")
    focus_on(pilot, "play")
    for sign in ("pause", "play"):
        pilot.key(pygame.K_RETURN)
        assert focused(pilot) == sign


def test_the_rod_in_focus_is_seen(pilot, home):
    pilot.open_free(13)
    seen = {pilot.pixels()}
    for _ in range(4):
        pilot.key(pygame.K_LEFT)
        seen.add(pilot.pixels())
    assert len(seen) == 5


def test_f11_makes_the_window_full_and_back(pilot, home):
    for full in (True, False):
        pilot.key(pygame.K_F11)
        assert pilot.screen is home
        assert bool(pilot.app.window.get_flags() & pygame.FULLSCREEN) is full
        assert home.size == pilot.app.window.get_size()
    # The size itself cannot be seen here: SDL's dummy driver keeps the larger one.
    assert pilot.app.windowed == (800, 480)


def test_f2_is_the_sound(pilot, home):
    for volume in (Volume.OFF, Volume.QUIET, Volume.OFF):
        pilot.key(pygame.K_F2)
        assert pilot.room.settings.volume is volume
        assert pilot.room.store.settings(pilot.room.learner).volume is volume
    assert pilot.screen is home


def test_keys_that_mean_nothing_do_nothing(pilot, home):
    for screen in every_screen(pilot):
        if getattr(screen, "typed", None) is not None and not isinstance(screen, LessonScreen):
            continue  # a lock takes every digit
        pilot.repaint()
        before, depth = pilot.pixels(), len(pilot.app.screens)
        digits = getattr(screen, "typed", "")
        for code in UNKNOWN:
            answering = isinstance(screen, LessonScreen) and screen.runner.stage is Stage.ANSWER
            if not (answering and code in (pygame.K_6, pygame.K_9)):
                pilot.key(code)
        assert pilot.screen is screen
        assert len(pilot.app.screens) == depth
        assert getattr(screen, "typed", "") == digits
        assert pilot.pixels() == before

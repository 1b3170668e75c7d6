"""What a grown-up sets: it is kept, it is in force, and the window fits the desktop."""

import pygame
import pytest
from sight import look_at

from frame.app import Pop, Push, open_window
from frame.learner.settings import OF_COMPUTER, Age, Down
from frame.screens.board.screen import BoardScreen
from frame.screens.choosing.free import FreeFrame
from frame.screens.choosing.sections import COMPUTER, SECTIONS
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.lesson.today import situation_of
from frame.view.widgets import Style


def test_pages_are_tabs_and_one_of_them_is_chosen(pilot):
    pilot.app.take(Push(SettingsScreen(pilot.room)))
    for page in range(len(pilot.screen.sections)):
        tabs = [button for button in pilot.screen.buttons if button.style is Style.TAB]
        assert len(tabs) == len(pilot.screen.sections)
        pilot.tap(tabs[page].place.center)
        tabs = [button for button in pilot.screen.buttons if button.style is Style.TAB]
        assert [at for at, tab in enumerate(tabs) if tab.chosen] == [page]
        assert pilot.screen.page == page


@pytest.mark.parametrize("is_anybody_here", [True, False])
def test_each_page_tells_for_whom_its_settings_are(pilot, heard, is_anybody_here):
    text = pilot.words.text
    if not is_anybody_here:
        pilot.room.leave()
    pilot.app.take(Push(SettingsScreen(pilot.room)))
    screen, said = pilot.screen, len(heard.said)
    for page, section in enumerate(screen.sections):
        tabs = [button for button in screen.buttons if button.style is Style.TAB]
        pilot.tap(tabs[page].place.center)
        names = {row.name for row in section.rows}
        assert names <= OF_COMPUTER or not names & OF_COMPUTER, "a page has settings of one kind"
        if section is COMPUTER:
            title = text("settings.title_computer")
        elif is_anybody_here:
            title = text("settings.title_of", name="Otter")
        else:
            title = text("settings.title_newcomers")
        assert title in [line for line, _ in pilot.repaint()]
    assert heard.said[said:] == [text("settings.title_computer")], "what has changed is said"


@pytest.mark.parametrize("size", [(600, 900), (480, 800), (800, 480), (1280, 720)])
def test_the_names_of_the_pages_have_one_size(pilot, size):
    pilot.app.take(Push(SettingsScreen(pilot.room)))
    pilot.resize(size)
    places = dict(pilot.repaint())
    tabs = [button for button in pilot.screen.buttons if button.style is Style.TAB]
    assert len({places[tab.text].h for tab in tabs}) == 1


def test_what_goes_by_age_tells_how_many_minutes_today_takes(pilot):
    for age in Age:
        pilot.room.set(age=age)
        show_page_of(pilot, "Minutes of Today")
        minutes = round(situation_of(pilot.room).rules.minutes)
        assert choices_beside(pilot, "Minutes of Today")[f"By age: {minutes}"].chosen
        pilot.app.take(Pop())
    pilot.room.leave()
    show_page_of(pilot, "Minutes of Today")
    assert choices_beside(pilot, "Minutes of Today")["By age: 5, 10 or 15"].chosen


@pytest.mark.parametrize("page", range(len(SECTIONS) + 2))
def test_a_board_opened_over_any_page_may_change_its_size(pilot, page):
    """Nobody is here while a board is open, and so the learner's own page is not there."""
    settings = SettingsScreen(pilot.room)
    pilot.app.take(Push(settings))
    pilot.tap(settings.buttons[page - len(settings.sections)].place.center)
    assert settings.page == page
    pilot.app.take(Push(BoardScreen(pilot.room)))
    pilot.resize((600, 960))
    pilot.app.take(Pop())
    assert pilot.screen is settings and settings.page == page
    assert settings.section is settings.sections[page]


def choices_beside(pilot, label):
    """The buttons in the row of a setting, by what they say."""
    lines = {line: place for line, place in pilot.repaint()}
    row = lines[label]
    return {
        button.text: button
        for button in pilot.screen.buttons
        if button.place.top <= row.centery <= button.place.bottom
    }


@pytest.mark.parametrize("answer, reduced", [("Off", True), ("On", False)])
def test_whether_beads_glide(pilot, answer, reduced):
    pilot.room.set(reduced_motion=not reduced)
    pilot.app.take(Push(SettingsScreen(pilot.room)))
    pilot.tap(choices_beside(pilot, "Beads glide")[answer].place.center)
    assert pilot.room.settings.reduced_motion is reduced
    assert pilot.room.store.settings(pilot.room.learner).reduced_motion is reduced
    assert choices_beside(pilot, "Beads glide")[answer].chosen


def show_page_of(pilot, label):
    """Open the settings at the page on which a setting stands."""
    pilot.app.take(Push(SettingsScreen(pilot.room)))
    for tab in [button for button in pilot.screen.buttons if button.style is Style.TAB]:
        if label in [line for line, _ in pilot.repaint()]:
            return
        pilot.tap(tab.place.center)
    assert label in [line for line, _ in pilot.repaint()]


@pytest.mark.parametrize(
    "label, answer, name, value",
    [
        ("Voice", "Off", "voice", False),
        ("One rung up after", "6 exercises", "ladder_up_after", 6),
        ("One rung up after", "15 exercises", "ladder_up_after", 15),
        ("Right unaided, at least", "80 %", "ladder_share", 0.8),
        ("Right unaided, at least", "95 %", "ladder_share", 0.95),
        ("One rung down at", "3 misses in 4", "ladder_down", Down.THREE_OF_FOUR),
        ("One rung down at", "Never", "ladder_down", Down.NEVER),
        ("Work with eyes shut", "On", "eyes_shut", True),
        ("Minutes of Today", "20", "today_minutes", 20),
        ("Over 3 numbers a second", "On", "quick_flash", True),
    ],
)
def test_voice_and_ladder_are_set_and_kept(pilot, label, answer, name, value):
    show_page_of(pilot, label)
    assert not choices_beside(pilot, label)[answer].chosen
    pilot.tap(choices_beside(pilot, label)[answer].place.center)
    assert getattr(pilot.room.settings, name) == value
    assert getattr(pilot.room.store.settings(pilot.room.learner), name) == value
    chosen = [text for text, one in choices_beside(pilot, label).items() if one.chosen]
    assert chosen == [answer]


def test_every_choice_shown_can_be_kept(pilot):
    for row in [row for section in (*SECTIONS, COMPUTER) for row in section.rows]:
        for _, value in row.choices:
            pilot.room.set(**{row.name: value})
            assert getattr(pilot.room.store.settings(pilot.room.learner), row.name) == value


@pytest.mark.parametrize("size", [(800, 480), (1280, 720)])
def test_the_caution_stands_where_quick_numbers_are_allowed(pilot, size):
    show_page_of(pilot, "Over 3 numbers a second")
    written = {one.text: one.box for one in look_at(pilot.screen, size).written}
    caution = written[pilot.room.words.text("settings.quick_flash_caution")]
    assert caution.top >= written["Over 3 numbers a second"].bottom
    assert pilot.screen.section is COMPUTER


@pytest.mark.parametrize("size, rods", [((800, 480), 27), ((800, 480), 13), ((800, 480), 5),
                                        ((1920, 1080), 27), ((1920, 1080), 13)])  # fmt: skip
def test_where_rods_are_narrow_a_sentence_says_what_helps(pilot, size, rods):
    pilot.room.set(free_rods=rods)
    free = FreeFrame(pilot.room)
    sight = look_at(free, size)
    small = pilot.room.words.text("free.small")
    said = [one for one in sight.written if one.text == small]
    assert bool(said) is (free.field.layout.spacing < 44)
    assert all(one.box.top >= free.field.box.bottom for one in said)


def test_both_are_found_among_usual_windows_and_frames(pilot):
    spacings = []
    for rods in (5, 27):
        pilot.room.set(free_rods=rods)
        free = FreeFrame(pilot.room)
        look_at(free, (800, 480))
        spacings.append(free.field.layout.spacing)
    assert spacings[0] >= 44 > spacings[1]


def test_the_window_is_never_larger_than_the_desktop(pilot):
    width, height = pygame.display.get_desktop_sizes()[0]
    assert open_window((width + 500, height + 500)).get_size() == (width, height)
    assert open_window((width - 100, height + 500)).get_size() == (width - 100, height)
    assert open_window((800, 480)).get_size() == (800, 480)

"""A name is typed by keys, an input method, the clipboard or on letters to touch, and changed at
any time, as is the picture."""

import pygame
import pytest
from pilot import Pilot

from frame.app import Push
from frame.language.lines import Line
from frame.learner.looks import ANIMALS, FLAGS, portrait_of
from frame.learner.nickname import search_key
from frame.screens.choosing.newcomer import FirstName
from frame.screens.choosing.sections import LEARNER
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.parts.portraits import portrait_name
from frame.view.sdl import loaded_sdl


@pytest.fixture
def page(tmp_path):
    """A pilot at the name of a newcomer."""
    pilot = Pilot(tmp_path, (800, 480))
    for press in ("Otter", "otter-cross", "7–9"):
        pilot.press(press)
    assert isinstance(pilot.screen, FirstName)
    yield pilot
    pilot.close()


def composed(pilot, text):
    """An input method shows what it puts together."""
    pilot.post(pygame.TEXTEDITING, text=text, start=0, length=0)


def kept(pilot):
    """The nickname that is kept."""
    pilot.press_word("who.name_done")
    return pilot.room.store.learners()[-1].nickname


# Typed


@pytest.mark.parametrize(
    "typed",
    ["Ann", "Дмитрий", "שרה", "محمد", "प्रिया", "さくら", "민준", "🦦", "O’Brien-Ng", "Mary Ann"],
)
def test_a_name_of_any_script_is_kept(page, typed):
    for letter in typed:
        page.type(letter)
    assert typed in page.lines()
    assert kept(page) == typed


def test_without_a_name_it_is_the_animals(page):
    assert "Otter" in page.lines()
    page.key(pygame.K_RETURN)
    assert page.room.learner.nickname == "Otter"


def test_what_a_name_cannot_have_is_left_out_and_what_is_beyond_it(page):
    page.type("  \u202eW\n")
    for _ in range(40):
        page.type("W")
    assert page.screen.name == "W " + "W" * 22
    assert kept(page) == "W " + "W" * 22


def test_where_a_sign_is_refused_it_is_said_until_something_else_is_done(page):
    full = page.words.text("who.name_full", most=24)
    page.type("W" * 24)
    assert full not in page.lines()
    for refused in ("W", " ", "👩🏽‍🚀"):
        page.type(refused)
        assert full in page.lines()
        page.type("\u0301")  # It goes with the sign before.
        assert full not in page.lines()
    page.press("w")
    assert full in page.lines()
    page.key(pygame.K_BACKSPACE)
    assert full not in page.lines()
    loaded_sdl().SDL_SetClipboardText(b"Mary Ann")
    page.key(pygame.K_v, pygame.KMOD_CTRL)
    assert full in page.lines() and page.screen.name == "W" * 23 + "M"


def test_keys_take_a_sign_away_or_all(page):
    page.type("Zoe\u0308👩🏽‍🚀")
    page.key(pygame.K_BACKSPACE)
    assert page.screen.name == "Zoë"
    page.key(pygame.K_BACKSPACE)
    assert page.screen.name == "Zo"
    for key, mod in ((pygame.K_DELETE, 0), (pygame.K_BACKSPACE, pygame.KMOD_CTRL)):
        page.type("Mo")
        page.key(key, mod)
        assert page.screen.name == ""
    page.key(pygame.K_BACKSPACE)
    assert page.screen.name == ""


def test_the_space_that_opens_the_page_is_no_part_of_the_name(page):
    page.key(pygame.K_ESCAPE)
    page.key(pygame.K_TAB)
    page.key(pygame.K_TAB)
    page.key(pygame.K_SPACE, text=" ")
    page.type(" ")
    assert isinstance(page.screen, FirstName) and page.screen.name == ""
    page.key(pygame.K_a, text="a")
    page.type("a")
    page.key(pygame.K_SPACE, text=" ")
    page.type(" ")
    page.type("b")
    assert page.screen.name == "a b"


def test_what_is_being_put_together_is_shown_and_its_keys_are_the_methods(page):
    page.type("Ann")
    composed(page, "さく")
    assert "Annさく" in page.lines()
    for key in (pygame.K_RETURN, pygame.K_BACKSPACE, pygame.K_DELETE, pygame.K_TAB):
        page.key(key)
    assert isinstance(page.screen, FirstName) and page.screen.name == "Ann"
    assert page.screen.composed == "さく" and page.screen.focus is None
    page.type("咲")
    assert page.screen.name == "Ann咲" and page.screen.composed == ""
    composed(page, "さ")
    composed(page, "")
    assert kept(page) == "Ann咲"


@pytest.mark.parametrize(
    "leave", [lambda p: p.key(pygame.K_ESCAPE), lambda p: p.post(pygame.WINDOWFOCUSLOST)]
)
def test_what_is_given_up_is_gone_and_keys_work_again(page, leave):
    page.type("Ann")
    composed(page, "さく")
    leave(page)
    assert isinstance(page.screen, FirstName)
    assert (page.screen.name, page.screen.composed) == ("Ann", "")
    page.key(pygame.K_BACKSPACE)
    assert page.screen.name == "An"


def test_what_is_still_being_put_together_is_kept_by_the_button(page):
    composed(page, "さく")
    assert kept(page) == "さく"


def test_a_name_is_pasted(page):
    loaded_sdl().SDL_SetClipboardText(b"  Mary\n Ann ")
    page.key(pygame.K_v, pygame.KMOD_CTRL)
    assert kept(page) == "Mary Ann"


# Touched


def test_letters_are_touched_and_words_begin_with_capitals(page):
    space, rows = page.words.text("who.space"), page.words.listed("who.letters")
    assert sorted("".join(rows)) == [chr(at) for at in range(ord("a"), ord("z") + 1)]
    for sign in ["M", "a", "r", "y", space, "A", "n", "n", "-", "L", "u", "x", "erase"]:
        page.press(sign)
    assert page.screen.name == "Mary Ann-Lu"
    page.key(pygame.K_DELETE)
    for sign in ["O", "’", "B", "o"]:
        page.press(sign)
    assert kept(page) == "O’Bo"


ACCENTS = {
    "e": "éèêë", "a": "áàâãäå", "c": "çćč", "n": "ñń", "o": "øőö", "l": "ł", "s": "şș", "i": "ı",
}  # fmt: skip
"""Some of the letters in names of Europe's languages, from memory."""


@pytest.mark.parametrize("letter", ACCENTS)
def test_one_key_takes_the_last_letter_from_accent_to_accent_and_back(page, letter):
    page.press("B")
    page.press(letter)
    seen = []
    while not seen or seen[-1] != f"B{letter}":
        offered = accent_of(page).text
        page.tap(accent_of(page).place.center)
        seen.append(page.screen.name)
        assert seen[-1] == f"B{offered}"
    assert set(ACCENTS[letter]) <= {name[1:] for name in seen} and len(set(seen)) == len(seen)
    assert all(search_key(name) == f"b{letter}" for name in seen)


def accent_of(page):
    """The key that leads to an accent; None where there is none for the last letter."""
    name = page.words.text("who.accent")
    return next((one for one in page.screen.buttons if one.name == name), None)


def test_a_capital_keeps_its_size_and_the_key_is_reached_by_the_keyboard(page):
    page.press("E")
    while page.screen.focus is None or page.screen.buttons[page.screen.focus] != accent_of(page):
        page.key(pygame.K_TAB)
    for name in "ÉÈ":
        page.key(pygame.K_RETURN)
        assert page.screen.name == name, "the ring stays on the key"
    page.type("va")
    assert page.screen.name == "Èva"


def test_where_a_letter_has_no_accent_none_is_offered(page):
    for text in ("", "b", "7", "-", "さ", "🦦", "ß", "ŋ", "æ", "×", "½"):
        page.key(pygame.K_DELETE)
        page.type(text)
        assert accent_of(page) is None, text
    page.type("e")
    composed(page, "さ")
    assert accent_of(page) is None


def test_letters_are_reached_by_keys_too(page):
    for _ in range(40):
        page.key(pygame.K_TAB)
        if page.screen.buttons[page.screen.focus].text == "Q":
            break
    for _ in range(2):
        page.key(pygame.K_RETURN)
    assert page.screen.name == "Qq"
    page.key(pygame.K_RIGHT)
    page.key(pygame.K_RETURN)
    assert page.screen.name == "Qqw"


# Changed


@pytest.fixture
def settings(pilot):
    """The pilot of a learner, at the page about them."""
    screen = SettingsScreen(pilot.room)
    screen.page = screen.sections.index(LEARNER)
    pilot.app.take(Push(screen))
    return pilot


def now_kept(pilot):
    (learner,) = pilot.room.store.learners()
    assert learner == pilot.room.learner
    return learner.nickname, learner.picture


def rename(pilot, name):
    pilot.press_word("who.change_name")
    pilot.key(pygame.K_DELETE)
    pilot.type(name)
    pilot.press_word("who.name_done")


def test_a_name_is_changed_at_any_time(settings):
    for name, called in (("Ann", "Ann"), ("שרה", "שרה"), ("", "Otter"), ("Ola", "Ola")):
        rename(settings, name)
        assert isinstance(settings.screen, SettingsScreen)
        assert now_kept(settings) == (called, "otter")
        assert called in settings.lines()


def test_a_name_that_is_left_is_as_before(settings):
    rename(settings, "Ann")
    settings.press_word("who.change_name")
    assert settings.screen.name == "Ann"
    settings.type("a")
    settings.key(pygame.K_ESCAPE)
    assert now_kept(settings) == ("Ann", "otter")


@pytest.mark.parametrize(
    "animal, flag", [("owl", FLAGS[0]), ("crab", FLAGS[-1]), ("otter", FLAGS[2])]
)
def test_whoever_is_called_like_their_animal_is_so_with_another(settings, animal, flag):
    assert animal in ANIMALS
    picture = animal if flag == "plain" else f"{animal}-{flag}"
    for press in (settings.words.text("who.change_picture"), animal.title(), picture):
        settings.press(press)
    assert isinstance(settings.screen, SettingsScreen)
    assert now_kept(settings) == (animal.title(), picture)


def test_a_name_stays_with_another_picture(settings):
    rename(settings, "Ann")
    for press in (settings.words.text("who.change_picture"), "Owl", "owl-cross"):
        settings.press(press)
    assert now_kept(settings) == ("Ann", "owl-cross")


def test_a_choice_that_is_left_changes_nothing(settings):
    settings.press_word("who.change_picture")
    settings.press("Owl")
    for _ in range(2):
        settings.key(pygame.K_ESCAPE)
    assert isinstance(settings.screen, SettingsScreen)
    assert now_kept(settings) == ("Otter", "otter")


def test_it_is_said_whose_name_is_changed(settings, heard):
    rename(settings, "Ann")
    settings.press_word("who.change_name")
    told = settings.words.line("who.rename", name=Line("Ann", "Otter"))
    assert told.show in settings.lines() and heard.said[-1] == told.speak


@pytest.mark.parametrize("picture", ["owl", "crab-checks"])
def test_the_picture_there_is_now_is_marked_and_named(settings, heard, picture):
    words, portrait = settings.words, portrait_of(picture)
    settings.room.rename("Ann", picture)
    settings.press_word("who.change_picture")
    assert marked(settings) == [portrait.animal]
    assert words.text("who.now", portrait=portrait_name(words, picture)) in settings.lines()
    while not in_focus_is_marked(settings):
        settings.key(pygame.K_TAB)
    assert heard.said[-1].endswith(words.text("who.is_now"))
    settings.press(portrait.animal)
    assert marked(settings) == [picture]
    assert not any(one.chosen for one in settings.screen.buttons), "nobody else has it"
    settings.press("back")
    settings.press("Hare")
    assert marked(settings) == []


def marked(pilot):
    """The tickets with a thick edge."""
    return [one.picture for one in pilot.screen.buttons if one.in_use]


def in_focus_is_marked(pilot):
    focus = pilot.screen.focus
    return focus is not None and pilot.screen.buttons[focus].in_use


def test_a_newcomer_sees_no_picture_marked(tmp_path):
    pilot = Pilot(tmp_path, (800, 480))
    assert marked(pilot) == []
    pilot.press("Otter")
    assert marked(pilot) == []
    pilot.close()

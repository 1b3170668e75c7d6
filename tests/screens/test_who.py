"""Who learns here: everybody's ticket is found, and a newcomer gets one by an animal, a flag, an
age and, from a grown-up, a name."""

from itertools import cycle, groupby, product

import pygame
import pytest
from contrast import contrast
from kept import added
from pilot import Pilot
from proofs import some_daily
from robot import signs

from frame.app import Push
from frame.language.lines import Line
from frame.learner.looks import ANIMALS, FLAGS, Portrait
from frame.learner.settings import Age, Look, Settings
from frame.screens.choosing.home import Home
from frame.screens.choosing.newcomer import ChooseAge, ChooseAnimal, ChooseFlag, FirstName
from frame.screens.choosing.sections import LEARNER
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.choosing.who import Who
from frame.screens.parts.tickets import MANY
from frame.view.widgets import Style

LOOKS = [Portrait(animal, flag).picture for flag, animal in product(FLAGS, ANIMALS)]
NAMES = ("Anna", "Anna Bo", "Bo", "Дмитрий", "Éva", "שרה", "محمد", "さくら", "Zoë", "Anna")


@pytest.fixture
def pilot(tmp_path):
    pilot = Pilot(tmp_path, (800, 480))
    yield pilot
    pilot.close()


def among(pilot, count, size=(800, 480)):
    """The first screen, with so many learners."""
    everybody = [added(pilot.room.store, NAMES[at % len(NAMES)], LOOKS[at]) for at in range(count)]
    pilot.resize(size)
    return everybody


def texts(pilot):
    return [one.text for one in pilot.screen.buttons if one.text and not one.rests]


def tickets(pilot):
    return [button for button in pilot.screen.buttons if button.style is Style.TICKET]


def focused(pilot):
    screen = pilot.screen
    return None if screen.focus is None else screen.buttons[screen.focus]


# A newcomer


@pytest.mark.parametrize(
    "answer, age", [("4–6", Age.YOUNG), ("7–9", Age.MIDDLE), ("10+", Age.OLDER)]
)
def test_the_age_chosen_is_the_learners_setting(pilot, answer, age):
    pilot.welcome("Otter", answer)
    assert isinstance(pilot.screen, Home)
    rods = 3 if age is Age.YOUNG else 13  # The young begin with a small free frame.
    assert pilot.room.settings == Settings(age=age, free_rods=rods)
    assert pilot.room.store.settings(pilot.room.learner).age is age


EVERY_LOOK = list(product(ANIMALS, FLAGS))
ONCE_EACH = list(zip(ANIMALS, cycle(FLAGS), strict=False))
"""Every animal and every flag."""


@pytest.mark.parametrize("animal, flag", some_daily(EVERY_LOOK, ONCE_EACH, several=True))
def test_a_newcomer_has_the_animal_and_the_flag_that_were_chosen(pilot, animal, flag):
    pilot.welcome(animal.title(), flag=flag)
    (learner,) = pilot.room.store.learners()
    assert learner.picture == Portrait(animal, flag).picture
    assert learner.nickname == animal.title()


def test_nobody_is_kept_before_the_name_is_given(pilot):
    steps = [("Otter", ChooseFlag), ("otter-cross", ChooseAge), ("7–9", FirstName)]
    for press, kind in steps:
        pilot.press(press)
        assert type(pilot.screen) is kind
        assert pilot.room.store.learners() == ()
    pilot.type("Mary Ann ")
    assert pilot.room.store.learners() == ()
    pilot.press_word("who.name_done")
    (learner,) = pilot.room.store.learners()
    assert (learner.nickname, learner.picture) == ("Mary Ann", "otter-cross")
    assert isinstance(pilot.screen, Home)


@pytest.mark.parametrize("leave", [lambda p: p.key(pygame.K_ESCAPE), lambda p: p.press("back")])
def test_the_way_back_leads_from_each_question_to_the_one_before(pilot, leave):
    pilot.welcome("Seal")
    pilot.key(pygame.K_ESCAPE)
    kinds = [Who, ChooseAnimal, ChooseFlag, ChooseAge, FirstName]
    for press in ("newcomer", "Gull", "gull-checks", "10+"):
        pilot.press(press)
    for kind in kinds[::-1]:
        assert type(pilot.screen) is kind
        if kind is not Who:
            leave(pilot)
    assert len(pilot.app.screens) == 1
    assert [one.nickname for one in pilot.room.store.learners()] == ["Seal"]


def test_from_home_the_way_back_leads_to_the_tickets_and_not_through_the_questions(pilot):
    pilot.welcome("Seal")
    pilot.key(pygame.K_ESCAPE)
    pilot.press("newcomer")
    pilot.welcome("Owl")
    pilot.key(pygame.K_ESCAPE)
    assert texts(pilot) == ["Seal", "Owl", "New"]


def test_names_may_be_alike_and_are_shown_as_they_are(pilot):
    pilot.welcome("Otter", name="Ann")
    pilot.key(pygame.K_ESCAPE)
    for flag in ("plain", "halves"):
        pilot.press("newcomer")
        pilot.welcome("Otter", flag=flag, name="Ann")
        pilot.key(pygame.K_ESCAPE)
    assert texts(pilot) == ["Ann", "Ann", "Ann", "New"]


def test_a_flag_that_somebody_has_is_punched_with_their_name_and_not_refused(pilot):
    pilot.welcome("Otter", flag="stripes", name="Ann")
    pilot.key(pygame.K_ESCAPE)
    pilot.press("newcomer")
    pilot.press("Otter")
    punched = {one.picture: one.text for one in tickets(pilot) if one.chosen}
    assert punched == {"otter-stripes": "Ann"}
    pilot.press("back")
    assert not any(one.chosen for one in tickets(pilot))
    pilot.welcome("Otter", flag="stripes")
    assert [one.picture for one in pilot.room.store.learners()] == ["otter-stripes"] * 2


@pytest.mark.parametrize("others", [["Wanda"], ["Wanda", "Heron"]])
def test_who_has_a_picture_already_is_told_before_and_after_it_is_chosen(pilot, others):
    for name in others:
        added(pilot.room.store, name, "otter-stripes")
    key = "who.shared" if len(others) == 1 else "who.shared_by_several"
    told = pilot.words.text(key, name=", ".join(others))
    pilot.screen.rearrange()
    pilot.press("newcomer")
    pilot.press("Otter")
    assert told not in pilot.lines()
    while focused(pilot) is None or focused(pilot).picture != "otter-stripes":
        pilot.key(pygame.K_TAB)
    assert told in pilot.lines()
    pilot.key(pygame.K_TAB)
    assert told not in pilot.lines()
    (place,) = (one.place.center for one in tickets(pilot) if one.picture == "otter-stripes")
    pilot.finger(pygame.FINGERDOWN, 7, place)
    assert told in pilot.lines()
    pilot.finger(pygame.FINGERUP, 7, (1, 200))
    assert told not in pilot.lines()
    pilot.press("otter-stripes")
    assert isinstance(pilot.screen, ChooseAge) and told in pilot.lines()


def test_who_takes_the_picture_of_another_is_told_of_it_beside_their_own(pilot):
    added(pilot.room.store, "Wanda", "otter-stripes")
    pilot.seat("Heron")
    settings = SettingsScreen(pilot.room)
    settings.page = settings.sections.index(LEARNER)
    pilot.app.take(Push(settings))
    told = pilot.words.text("who.shared", name="Wanda")
    pilot.app.draw()
    assert told not in pilot.lines()
    pilot.press_word("who.change_picture")
    pilot.press("otter")
    pilot.press("otter-stripes")
    assert pilot.screen is settings and told in pilot.lines()


def test_an_animal_is_punched_once_all_its_flags_are_taken(pilot):
    for flag in FLAGS:
        added(pilot.room.store, "Ann", Portrait("crab", flag).picture)
    pilot.screen.rearrange()
    pilot.press("newcomer")
    assert [one.picture for one in tickets(pilot) if one.chosen] == ["crab"]


def test_where_nobody_is_known_there_is_no_way_back_from_the_animals(pilot):
    assert isinstance(pilot.screen, Who)
    assert "back" not in signs(pilot.screen)
    pilot.key(pygame.K_ESCAPE)
    assert texts(pilot) == [animal.title() for animal in ANIMALS]


# Everybody


BY_NAME = [
    "Anna", "Anna", "Anna Bo", "Bo", "Éva", "Zoë", "Дмитрий", "שרה", "محمد", "さくら",
]  # fmt: skip


def in_order(everybody):
    """Up to twelve as they came, more by name, those of one name as they came."""
    if len(everybody) < MANY:
        return everybody
    return sorted(everybody, key=lambda one: BY_NAME.index(one.nickname))


@pytest.mark.parametrize("size", [(800, 480), (480, 800), (320, 240), (1280, 720)])
@pytest.mark.parametrize("count", [1, 12, 13, 40, 60])
def test_a_few_are_found_in_the_order_they_came_and_many_by_name_page_by_page(pilot, count, size):
    everybody = in_order(among(pilot, count, size))
    seen = []
    while True:
        seen += [(one.picture, one.text) for one in tickets(pilot)]
        if pilot.words.text("who.more") not in texts(pilot):
            break
        pilot.press_word("who.more")
    assert seen == [*((one.picture, one.nickname) for one in everybody), ("newcomer", "New")]


def test_nobody_changes_places_for_who_worked_last_or_for_the_size_of_the_window(pilot):
    among(pilot, 13)
    before = [one.picture for one in tickets(pilot)]
    pilot.press(before[7])
    pilot.key(pygame.K_ESCAPE)
    assert [one.picture for one in tickets(pilot)] == before
    for size in ((480, 800), (1920, 1080), (320, 240)):
        pilot.resize(size)
        shown = [one.picture for one in tickets(pilot)]
        assert shown == before[: len(shown)]


@pytest.mark.parametrize("size", [(1280, 720), (1920, 1080), (3840, 2160)])
def test_sixty_hang_on_one_page_of_a_usual_window(pilot, size):
    among(pilot, 60, size)
    assert len(tickets(pilot)) == 61 and pilot.screen.pages == 1


def test_a_ticket_on_any_page_lets_its_learner_in(pilot):
    everybody = among(pilot, 60, (480, 800))
    pilot.press_word("who.more")
    picture = tickets(pilot)[3].picture
    pilot.press(picture)
    assert isinstance(pilot.screen, Home)
    assert pilot.room.learner in everybody and pilot.room.learner.picture == picture


WAYS_ON = {
    "touch": lambda pilot, way: pilot.press_word("who.more" if way > 0 else "who.before"),
    "keys": lambda pilot, way: pilot.key(pygame.K_PAGEDOWN if way > 0 else pygame.K_PAGEUP),
    "wheel": lambda pilot, way: pilot.post(pygame.MOUSEWHEEL, x=0, y=-way, flipped=False),
}


@pytest.mark.parametrize("way", WAYS_ON)
def test_pages_are_turned_and_one_sees_that_there_are_more(pilot, way):
    among(pilot, 60, (480, 800))
    words, turn = pilot.words, WAYS_ON[way]
    last = pilot.screen.pages - 1
    assert last >= 1
    pages = [*range(last + 1), *range(last - 1, -1, -1)]
    for at, page in enumerate(pages):
        assert pilot.screen.page == page
        assert (words.text("who.before") in texts(pilot)) is (page > 0)
        assert (words.text("who.more") in texts(pilot)) is (page < last)
        if at < len(pages) - 1:
            turn(pilot, 1 if at < last else -1)


@pytest.mark.parametrize("way", ["keys", "wheel"])
def test_there_is_no_page_before_the_first_and_none_after_the_last(pilot, way):
    among(pilot, 60, (480, 800))
    WAYS_ON[way](pilot, -1)
    assert pilot.screen.page == 0
    for _ in range(9):
        WAYS_ON[way](pilot, 1)
    assert pilot.screen.page == pilot.screen.pages - 1


def test_arrows_go_along_the_rails_and_over_the_pages(pilot):
    everybody = in_order(among(pilot, 60, (480, 800)))
    pilot.key(pygame.K_TAB)
    seen = [focused(pilot).picture]
    for _ in range(59):
        pilot.key(pygame.K_RIGHT)
        seen.append(focused(pilot).picture)
    assert seen == [one.picture for one in everybody]
    assert pilot.screen.page == 1


def rail_of(pilot):
    """The page of the ticket in focus, its rail, and where it hangs on it."""
    places = [one.place for one in tickets(pilot)]
    place, rails = focused(pilot).place, sorted({one.top for one in places})
    row = sorted(one.left for one in places if one.top == place.top)
    return pilot.screen.page, rails.index(place.top), row.index(place.left)


def test_up_and_down_lead_from_rail_to_rail_and_from_page_to_page(pilot):
    """Also onto a rail that is not full, where the last one is the nearest."""
    among(pilot, 60, (480, 800))
    first, columns = tickets(pilot), pilot.screen.hanging.columns
    last_rail = -(-len(first) // columns) - 1
    assert len(first) % columns and pilot.screen.pages == 2
    pilot.key(pygame.K_TAB)
    for _ in range(columns - 1):
        pilot.key(pygame.K_RIGHT)
    for rail in range(last_rail):
        assert rail_of(pilot) == (0, rail, columns - 1)
        pilot.key(pygame.K_DOWN)
    end = len(first) % columns - 1
    assert rail_of(pilot) == (0, last_rail, end)
    pilot.key(pygame.K_DOWN)
    assert rail_of(pilot) == (1, 0, end)
    pilot.key(pygame.K_UP)
    assert rail_of(pilot) == (0, last_rail, end)


@pytest.mark.parametrize("others", [0, 3, 40])
def test_who_was_removed_is_told_once_where_one_lands(pilot, others):
    among(pilot, others)
    added(pilot.room.store, "Quentin", "whale-checks")
    pilot.screen.rearrange()
    pilot.press("whale-checks")
    settings = SettingsScreen(pilot.room)
    settings.page = settings.sections.index(LEARNER)
    pilot.app.take(Push(settings))
    pilot.press(pilot.words.text("who.remove", name="Quentin"))
    assert pilot.words.text("who.remove_backup") in pilot.lines()
    pilot.press_word("who.remove_yes")
    told = pilot.words.line("who.removed", name=Line("Quentin", "Whale"))
    assert told.show in pilot.lines() and pilot.screen.greeting.speak.startswith(told.speak)
    assert len(pilot.room.learners()) == others
    pilot.press("gear")
    pilot.key(pygame.K_ESCAPE)
    assert told.show not in pilot.lines() and told.speak not in pilot.screen.greeting.speak


# By name


def typed(pilot, text):
    """The key and what it types, as a system sends them."""
    for letter in text:
        pilot.key(ord(letter) if letter.isascii() else 0, text=letter)
        pilot.type(letter)


@pytest.mark.parametrize(
    "text, found",
    [("b", "Bo"), ("д", "Дмитрий"), ("ДМ", "Дмитрий"), ("e", "Éva"), ("EV", "Éva"), ("ש", "שרה"),
     ("م", "محمد"), ("さ", "さくら"), ("anna b", "Anna Bo"), ("zo", "Zoë"), ("n", "New")],
)  # fmt: skip
def test_typed_letters_go_to_the_name_that_begins_so(pilot, text, found):
    among(pilot, 9)
    typed(pilot, text)
    assert focused(pilot).text == found
    if found != "New":
        pilot.key(pygame.K_RETURN)
        assert pilot.room.learner.nickname == found


def test_the_same_letter_again_goes_to_the_next(pilot):
    everybody = among(pilot, 10)
    annas = [at for at, one in enumerate(everybody) if one.nickname.startswith("Anna")]
    for at in (*annas, annas[0]):
        typed(pilot, "a")
        assert focused(pilot).picture == everybody[at].picture


@pytest.mark.parametrize(("text", "found"), [("zoë", "Zoë"), ("zoé", "Zoé"), ("ZOË", "Zoë")])
def test_an_accent_that_is_typed_tells_names_apart(pilot, text, found):
    for name in ("Zoé", "Zoë", "Zoe"):
        added(pilot.room.store, name, "gull")
    pilot.screen.rearrange()
    typed(pilot, text)
    assert focused(pilot).text == found


def test_a_capital_is_no_accent(pilot):
    for name in ("Emilia", "Émile"):
        added(pilot.room.store, name, "gull")
    pilot.screen.rearrange()
    for found in ("Emilia", "Émile"):
        typed(pilot, "E")
        assert focused(pilot).text == found


def test_the_same_name_after_a_while_goes_to_the_next_of_that_name(pilot):
    for picture in ("gull", "seal"):
        added(pilot.room.store, "Mia", picture)
    pilot.screen.rearrange()
    for picture in ("gull", "seal", "gull"):
        typed(pilot, "mia")
        assert (focused(pilot).text, focused(pilot).picture) == ("Mia", picture)
        pilot.wait(3, 2)


def test_with_many_tickets_it_is_told_that_a_name_may_be_typed(pilot):
    told = pilot.words.text("who.find")
    among(pilot, MANY - 1)
    assert len(tickets(pilot)) == MANY and told not in pilot.lines()
    added(pilot.room.store, "Mia", "gull")
    pilot.screen.rearrange()
    assert told in pilot.lines()


def test_what_is_typed_is_shown_and_whether_nobody_is_called_so(pilot):
    among(pilot, 20)
    words = pilot.words
    typed(pilot, "an")
    assert words.text("who.typed", typed="an") in pilot.lines()
    typed(pilot, "x")
    assert words.text("who.typed_nobody", typed="anx") in pilot.lines()
    pilot.wait(3, 2)
    assert words.text("who.find") in pilot.lines()


@pytest.mark.parametrize("look", Look)
def test_the_ring_around_a_ticket_is_wide_and_apart_from_the_rail(pilot, look):
    """WCAG 2.2, success criterion 2.4.13: at least two pixels, and 3 : 1 against what was there.
    Ground lies on both sides of it, also where rails and strings do."""
    pilot.room.set_computer(look=look)
    among(pilot, 40)
    theme = pilot.room.theme
    pilot.key(pygame.K_TAB)
    pilot.repaint()
    place = focused(pilot).place
    upward = [pilot.app.window.get_at((place.centerx, place.top - at))[:3] for at in range(1, 12)]
    runs = [(colour, len([*same])) for colour, same in groupby(upward)]
    (inner, _), (ring, thick), (outer, _) = runs[:3]
    assert (inner, ring, outer) == (theme.ground, theme.focus, theme.ground) and thick >= 3
    assert contrast(theme.focus, theme.ground) >= 3


@pytest.mark.parametrize("signs", ["\0", "\u202e", "\ud800", "x" * 300])
def test_whatever_is_typed_can_be_shown(pilot, signs):
    among(pilot, MANY + 1)
    for text in (signs, "z", signs):
        typed(pilot, text)
        assert pilot.lines()


def test_letters_typed_after_a_while_begin_anew(pilot):
    among(pilot, 9)
    typed(pilot, "z")
    pilot.wait(3, 2)
    typed(pilot, "b")
    assert focused(pilot).text == "Bo"


@pytest.mark.parametrize("text", ["x", " ", "x b", "bx", "ax", "annb", "zz"])
def test_letters_that_begin_no_name_find_nobody(pilot, text):
    among(pilot, 8)
    typed(pilot, text)
    assert focused(pilot) is None
    pilot.key(pygame.K_RETURN)
    assert pilot.room.learner is None


def test_a_name_on_another_page_is_turned_to(pilot):
    among(pilot, 54, (320, 240))
    added(pilot.room.store, "Quentin", "whale-checks")
    pilot.screen.rearrange()
    typed(pilot, "q")
    assert focused(pilot).text == "Quentin" and pilot.screen.page > 0
    pilot.key(pygame.K_RETURN)
    assert pilot.room.learner.nickname == "Quentin"


def test_who_was_taken_in_by_a_command_is_seen_when_the_window_is_come_back_to(pilot):
    pilot.key(pygame.K_ESCAPE)
    added(pilot.room.store, "Quentin", "gull")
    assert "Quentin" not in [one.text for one in pilot.screen.buttons]
    pilot.post(pygame.WINDOWFOCUSGAINED)
    assert "Quentin" in [one.text for one in pilot.screen.buttons]

"""Practice in one press: what is usual stands ready, sets that are kept hang below it."""

import pygame
import pytest
from pilot import Pilot
from robot import do_right

from frame.course.attempts import Position
from frame.learner.kept_sets import MOST_SETS, KeptSet
from frame.learner.learners import new_id
from frame.learner.settings import Age
from frame.learner.store import LessonState, StoreError
from frame.learner.trouble import Trouble
from frame.practice.choices import SET, Choices, Sight
from frame.practice.families import Family
from frame.practice.flashing import LEVELS
from frame.practice.kept_choices import set_to
from frame.practice.rungs import Asked, Rung
from frame.screens.choosing.all_choices import AllChoices
from frame.screens.choosing.home import Home
from frame.screens.choosing.named_sets import KeptSets, NewSet, OneSet
from frame.screens.choosing.practise import PractiseScreen
from frame.screens.choosing.shown_sets import shown_set
from frame.screens.choosing.usual import keep_set
from frame.screens.lesson.practice import known_facts, learned_facts
from frame.screens.lesson.screen import LessonScreen
from frame.view.widgets import Style

HOSTILE = ("Quay", "W" * 24, "国" * 24, "שרה לוי", "O’Brien 🦦", "'); DROP TABLE x; --", "{name}")


@pytest.fixture
def all_open(pilot):
    pilot.room.set(all_open=True)
    pilot.press_word("home.practise")
    return pilot


def learn(pilot, lessons):
    """So many lessons of the course are done."""
    for entry in pilot.room.course.lessons[:lessons]:
        pilot.room.lessons[entry.id] = LessonState(1, Position(), True)


def keep(pilot, name, choices):
    """A set is kept, and hangs on the page."""
    one = KeptSet(new_id(), name, set_to(choices))
    keep_set(pilot.room, one)
    pilot.screen.resumed(None)
    return one


def tickets(pilot):
    return [button for button in pilot.screen.buttons if button.style is Style.TICKET]


def main(pilot):
    return pilot.screen.buttons[pilot.screen.main_button()]


def asked(pilot):
    """What the set under way asks for."""
    assert isinstance(pilot.screen, LessonScreen)
    return pilot.screen.runner.lesson.steps[0].request


def in_the_file(pilot):
    return pilot.room.store.kept_sets(pilot.room.learner)


def come_back(pilot, folder):
    """The window is closed and opened again, and the otter practises."""
    pilot.close()
    again = Pilot(folder, (800, 480))
    again.press("Otter")
    again.press_word("home.practise")
    return again


# What is usual


def test_what_is_furthest_stands_ready_for_who_never_chose(pilot):
    learn(pilot, 12)
    pilot.press_word("home.practise")
    families = [
        f for f in Family if Choices().choose(family=f).can_be_asked(known_facts(pilot.room))
    ]
    assert main(pilot).text == pilot.words.text(f"family.{families[-1]}")
    detail = pilot.screen.ready.detail.show
    assert detail in pilot.lines() and str(SET) in detail
    pilot.key(pygame.K_RETURN)
    assert asked(pilot).count == SET and asked(pilot).facts


def test_what_was_learned_stands_ready_and_not_all_that_is_open(pilot):
    pilot.room.set(all_open=True)
    pilot.press_word("home.practise")
    assert main(pilot).text == pilot.words.text("family.add-direct")
    pilot.key(pygame.K_ESCAPE)
    learn(pilot, 2)
    pilot.press_word("home.practise")
    assert pilot.screen.usual.can_be_asked(learned_facts(pilot.room))


def test_a_suggestion_that_was_only_seen_goes_on_with_what_is_learned(pilot):
    learn(pilot, 2)
    pilot.press_word("home.practise")
    first = main(pilot).text
    pilot.press_word("practise.more")
    pilot.key(pygame.K_ESCAPE)
    pilot.key(pygame.K_ESCAPE)
    learn(pilot, 20)
    pilot.press_word("home.practise")
    assert main(pilot).text != first


def test_what_was_chosen_last_stands_ready_on_another_day_in_one_press(all_open, tmp_path):
    pilot = all_open
    pilot.press_word("practise.more")
    pilot.press_word("practise.called")
    pilot.press_word("sight.covered")
    pilot.press("much_more")
    chosen = pilot.screen.choices
    again = come_back(pilot, tmp_path)
    assert again.screen.usual == chosen
    again.key(pygame.K_RETURN)
    assert asked(again).asked is Asked.CALLED and asked(again).rung is Rung.COVERED
    assert asked(again).digits == chosen.called.digits
    again.close()


def test_a_kept_set_that_was_begun_is_what_stands_ready_next_time(all_open, tmp_path):
    keep(all_open, "Quay", Choices().choose(family=Family.SUB_TEN, rung=Rung.PALE))
    all_open.press("Quay")
    again = come_back(all_open, tmp_path)
    assert main(again).text == again.words.text("family.sub-ten")
    again.tap(main(again).place.center)
    assert asked(again).rung is Rung.PALE
    again.close()


def test_a_family_that_is_not_known_any_more_does_not_stand_ready(all_open):
    pilot = all_open
    pilot.room.choices = Choices().choose(family=Family.ROOT, rung=Rung.COVERED)
    pilot.room.set(all_open=False)
    learn(pilot, 8)
    pilot.screen.resumed(None)
    ready = pilot.screen.usual.beads
    assert ready.family not in (Family.ROOT, Family.ADD_TEN) and ready.rung is None
    pilot.key(pygame.K_RETURN)
    assert asked(pilot).facts


def test_before_anything_is_known_the_first_lesson_stands_ready(pilot):
    pilot.press_word("home.practise")
    first = pilot.room.course.lessons[0]
    assert main(pilot).text == pilot.words.text("home.start", title=first.title)
    assert pilot.words.text("practise.first") in pilot.lines()
    pilot.key(pygame.K_RETURN)
    assert pilot.screen.runner.lesson.id == first.id


def test_how_a_set_went_is_told_once(all_open):
    pilot = all_open
    pilot.key(pygame.K_RETURN)
    lesson = pilot.screen
    while not lesson.runner.attempts:
        do_right(pilot)
    pilot.key(pygame.K_ESCAPE)
    left = pilot.words.line("practise.left", right=1, worked=1)
    assert isinstance(pilot.screen, PractiseScreen)
    assert left.show in pilot.lines() and pilot.screen.greeting.speak.startswith(left.speak)
    pilot.key(pygame.K_RETURN)
    pilot.key(pygame.K_ESCAPE)
    assert left.show not in pilot.lines()


# Sets that are kept


@pytest.mark.parametrize("name", HOSTILE)
def test_a_set_is_kept_by_any_name_and_begins_in_one_press(all_open, tmp_path, name):
    pilot = all_open
    pilot.press_word("practise.more")
    pilot.press_word("practise.called")
    pilot.press_word("sight.pale")
    pilot.press_word("practise.keep")
    assert isinstance(pilot.screen, NewSet)
    pilot.type(name)
    pilot.press_word("who.name_done")
    assert isinstance(pilot.screen, PractiseScreen)
    again = come_back(pilot, tmp_path)
    assert [button.text for button in tickets(again)] == [name]
    again.room.choices = Choices()
    again.screen.resumed(None)
    again.press(name)
    assert asked(again).asked is Asked.CALLED and asked(again).rung is Sight.PALE.rung
    again.close()


def test_a_set_without_a_name_is_called_by_what_it_asks(all_open):
    pilot = all_open
    for word in ("practise.more", "practise.flashed", "practise.keep", "who.name_done"):
        pilot.press_word(word)
    (one,) = in_the_file(pilot)
    assert one.name == ""
    assert [button.text for button in tickets(pilot)] == [pilot.words.text("short.flashed")]


def test_a_name_that_is_not_given_keeps_nothing(all_open):
    pilot = all_open
    pilot.press_word("practise.more")
    pilot.press_word("practise.keep")
    pilot.type("Quay")
    pilot.key(pygame.K_ESCAPE)
    assert isinstance(pilot.screen, AllChoices)
    assert in_the_file(pilot) == ()


def test_a_set_keeps_its_way_of_asking_and_leaves_the_others_alone(all_open):
    pilot = all_open
    keep(pilot, "Quay", Choices(Asked.CALLED).choose(minus=True))
    pilot.room.choices = Choices().choose(family=Family.ADD_TEN, rung=Rung.PALE)
    pilot.screen.resumed(None)
    pilot.press("Quay")
    assert pilot.room.choices.called.minus
    assert pilot.room.choices.beads == Choices().choose(family=Family.ADD_TEN, rung=Rung.PALE).beads


def test_no_more_than_so_many_are_kept_and_it_is_said(all_open, heard):
    pilot = all_open
    for number in range(MOST_SETS - 1):
        keep(pilot, f"Quay {number}", Choices())
    for _ in range(2):
        pilot.press_word("practise.more")
        pilot.press_word("practise.keep")
        if not isinstance(pilot.screen, NewSet):
            break
        pilot.press_word("who.name_done")
    full = pilot.words.line("practise.full", count=MOST_SETS)
    assert isinstance(pilot.screen, AllChoices) and full.show in pilot.lines()
    assert heard.said[-1] == full.speak
    assert len(in_the_file(pilot)) == MOST_SETS
    pilot.key(pygame.K_ESCAPE)
    for one in ("pencil", "Quay 3", pilot.words.text("practise.remove")):
        pilot.press(one)
    pilot.press_word("who.remove_yes")
    pilot.key(pygame.K_ESCAPE)
    pilot.press_word("practise.more")
    pilot.press_word("practise.keep")
    assert isinstance(pilot.screen, NewSet)


@pytest.mark.parametrize("count", [13, 40])
def test_more_sets_that_came_from_another_computer_are_all_reached(all_open, count):
    pilot = all_open
    for number in range(count):
        keep(pilot, f"Quay {number}", Choices(Asked.CALLED))
    seen = []
    for _ in range(pilot.screen.pages):
        seen += [button.text for button in tickets(pilot)]
        pilot.key(pygame.K_PAGEDOWN)
    assert seen == [f"Quay {number}" for number in range(count)]
    pilot.press(seen[-1])
    assert asked(pilot).asked is Asked.CALLED


# What cannot begin


def test_a_set_whose_family_is_not_known_any_more_says_so_and_waits(all_open, heard):
    pilot = all_open
    keep(pilot, "Quay", Choices().choose(family=Family.ROOT))
    pilot.room.set(all_open=False)
    pilot.screen.resumed(None)
    (ticket,) = tickets(pilot)
    assert ticket.chosen, "it is punched"
    pilot.press("Quay")
    line = pilot.words.line("practise.unknown")
    assert isinstance(pilot.screen, PractiseScreen) and line.show in pilot.lines()
    assert heard.said[-1] == line.speak
    pilot.room.set(all_open=True)
    pilot.screen.resumed(None)
    pilot.press("Quay")
    assert asked(pilot).facts


@pytest.mark.parametrize("kept", [{}, {"asked": "shown", "beads": {"family": "tides"}}], ids=str)
def test_a_set_of_another_version_is_shown_can_be_renamed_and_goes(all_open, kept):
    pilot = all_open
    keep_set(pilot.room, KeptSet(new_id(), "Quay", kept))
    pilot.screen.resumed(None)
    pilot.press("Quay")
    assert isinstance(pilot.screen, PractiseScreen)
    for one in ("pencil", "Quay", pilot.words.text("who.change_name")):
        pilot.press(one)
    pilot.type(" 2")
    pilot.press_word("who.name_done")
    assert [(one.name, one.asked) for one in in_the_file(pilot)] == [("Quay 2", kept)]
    pilot.press_word("practise.remove")
    pilot.press_word("who.remove_yes")
    assert in_the_file(pilot) == ()


def test_a_set_of_numbers_flashed_quickly_is_slower_without_leave(all_open):
    pilot = all_open
    keep(pilot, "Quay", Choices(Asked.FLASHED).choose(setting=LEVELS[-1].setting))
    pilot.press("Quay")
    assert asked(pilot).pace >= 1 / 3 - 1e-9
    assert in_the_file(pilot)[0].asked["flashed"]["setting"]["interval"] < 1 / 3


def test_what_cannot_be_made_of_what_was_learned_is_said(pilot):
    """Whoever learned tens alone knows no digit to go with them."""
    entry = next(one for one in pilot.room.course.lessons if "read-tens" in one.new)
    pilot.room.lessons[entry.id] = LessonState(1, Position(), True)
    pilot.press_word("home.practise")
    keep(pilot, "Quay", Choices().choose(family=Family.READ, digits=1))
    pilot.press("Quay")
    assert isinstance(pilot.screen, PractiseScreen)
    assert pilot.words.text("practise.none")[:40] in pilot.lines()


# Changing them


def test_one_is_renamed(all_open):
    pilot = all_open
    one = keep(pilot, "Quay", Choices(Asked.CALLED))
    for word in ("pencil", "Quay", pilot.words.text("who.change_name")):
        pilot.press(word)
    pilot.key(pygame.K_DELETE)
    pilot.type("Shore")
    pilot.key(pygame.K_RETURN)
    assert isinstance(pilot.screen, OneSet) and "Shore" in pilot.lines()
    (renamed,) = in_the_file(pilot)
    assert (renamed.id, renamed.name) == (one.id, "Shore")


def test_one_goes_only_when_that_is_said_twice_and_the_last_leads_back(all_open, heard):
    pilot = all_open
    for name in ("Quay", "Shore"):
        keep(pilot, name, Choices(Asked.CALLED))
    pilot.press("pencil")
    for name, answer in (("Quay", "no"), ("Quay", "yes"), ("Shore", "yes")):
        assert isinstance(pilot.screen, KeptSets)
        pilot.press(name)
        pilot.press_word("practise.remove")
        assert heard.said[-1] == pilot.words.line("practise.remove_ask").speak
        pilot.press_word(f"who.remove_{answer}")
        if answer == "no":
            assert len(in_the_file(pilot)) == 2
            pilot.key(pygame.K_ESCAPE)
    assert isinstance(pilot.screen, PractiseScreen)
    assert in_the_file(pilot) == () and tickets(pilot) == []
    assert "pencil" not in [button.sign for button in pilot.screen.buttons]


def test_enter_keeps_what_was_nearly_removed(all_open):
    pilot = all_open
    keep(pilot, "Quay", Choices(Asked.CALLED))
    for word in ("pencil", "Quay", pilot.words.text("practise.remove")):
        pilot.press(word)
    pilot.key(pygame.K_RETURN)
    assert len(in_the_file(pilot)) == 1


def test_what_cannot_be_written_now_hangs_there_and_is_written_later(all_open, monkeypatch):
    pilot = all_open
    store = pilot.room.store

    def refuse(*_):
        raise StoreError(store.path, "full", Trouble.FULL)

    with monkeypatch.context() as full:
        full.setattr(type(store), "keep_set", refuse)
        keep(pilot, "Quay", Choices(Asked.CALLED))
        assert [button.text for button in tickets(pilot)] == ["Quay"]
        assert in_the_file(pilot) == ()
    pilot.room.keeper.send()
    assert [one.name for one in in_the_file(pilot)] == ["Quay"]


def test_the_next_learner_sees_none_of_them(all_open):
    pilot = all_open
    keep(pilot, "Quay", Choices(Asked.CALLED))
    while not any(button.picture == "newcomer" for button in pilot.screen.buttons):
        pilot.key(pygame.K_ESCAPE)
    pilot.press("newcomer")
    pilot.welcome("Seal")
    pilot.press_word("home.practise")
    assert tickets(pilot) == []


# By keyboard, and for the young


def focus(pilot, text):
    """Go to a button by Tab alone."""
    for _ in pilot.screen.buttons:
        pilot.key(pygame.K_TAB)
        button = pilot.screen.buttons[pilot.screen.focus]
        if text in (button.text, button.sign):
            return
    raise AssertionError(f"{text} is never reached")


def test_the_keyboard_alone_keeps_begins_renames_and_removes(all_open, heard):
    pilot, text = all_open, all_open.words.text
    focus(pilot, text("practise.more"))
    pilot.key(pygame.K_RETURN)
    focus(pilot, text("practise.keep"))
    pilot.key(pygame.K_RETURN)
    pilot.type("Quay")
    pilot.key(pygame.K_RETURN)
    assert isinstance(pilot.screen, PractiseScreen)
    focus(pilot, "Quay")
    assert heard.said[-1] == pilot.screen.ready.spoken, "what it asks is said, not its name"
    pilot.key(pygame.K_RETURN)
    assert isinstance(pilot.screen, LessonScreen)
    pilot.key(pygame.K_ESCAPE)
    focus(pilot, "pencil")
    pilot.key(pygame.K_RETURN)
    focus(pilot, "Quay")
    pilot.key(pygame.K_RETURN)
    focus(pilot, text("practise.remove"))
    pilot.key(pygame.K_RETURN)
    focus(pilot, text("who.remove_yes"))
    pilot.key(pygame.K_RETURN)
    assert isinstance(pilot.screen, PractiseScreen) and in_the_file(pilot) == ()


def test_letters_that_are_typed_go_to_the_set_of_that_name(all_open):
    pilot = all_open
    for name in ("Quay", "Shore", "Pier"):
        keep(pilot, name, Choices(Asked.CALLED))
    pilot.type("s")
    assert pilot.screen.buttons[pilot.screen.focus].text == "Shore"
    pilot.key(pygame.K_RIGHT)
    assert pilot.screen.buttons[pilot.screen.focus].text == "Pier"


def test_for_the_young_a_picture_tells_what_is_asked_more_exactly(all_open):
    pilot = all_open
    pilot.room.set(age=Age.YOUNG)
    pilot.screen.resumed(None)
    detail = pilot.screen.ready.detail
    assert detail.show not in pilot.lines()
    assert detail.speak in pilot.screen.greeting.speak
    assert main(pilot).drawing is not None


def test_esc_leads_from_practice_home(all_open):
    all_open.key(pygame.K_ESCAPE)
    assert isinstance(all_open.screen, Home)


def test_no_two_families_have_the_same_picture(all_open):
    cards = {shown_set(all_open.room, Choices().choose(family=one)).card for one in Family}
    assert len(cards) == len(Family)

"""A child who is here twice is joined by a grown-up, who sees of whom it is asked and what stays,
and is parted again, one of them or all."""

from dataclasses import replace
from datetime import timedelta
from itertools import combinations, pairwise

import pygame
import pytest
from kept import NOW, added, begun, timed
from sight import SHAPES, UPRIGHT, assert_well_laid_out

from frame.app import Push
from frame.course.attempts import Attempt
from frame.learner.looks import ANIMALS
from frame.learner.store import Store, StoreError
from frame.learner.trouble import Trouble
from frame.practice.exercises import Exercise, Kind
from frame.screens.choosing.one_child import OneChild
from frame.screens.choosing.parting import Parting
from frame.screens.choosing.same_child import SameChild
from frame.screens.choosing.sections import LEARNER
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.parts.portraits import portrait_name
from frame.technique.expression import parse_sum
from frame.view.widgets import Style

TRIED = Attempt("beads-1", Exercise(Kind.SUM, parse_sum("3 + 4"), rods=1), True, True, 0, ())


def opened(pilot):
    pilot.app.take(Push(SameChild(pilot.room)))
    pilot.app.draw()
    return pilot.screen


def try_once(store, learner, now=NOW):
    store.record(begun(store, learner, now), timed((TRIED, 1.0)), learner, "beads-1", None, now)


def tickets(pilot):
    return [one for one in pilot.screen.buttons if one.style is Style.TICKET]


def ids(store, *learners):
    return [set(store.ids_of(one)) for one in learners]


def part(pilot, nickname):
    """Touch what parts one of those who are joined."""
    at = [one.nickname for one in pilot.screen.joined].index(nickname)
    text = pilot.words.text("same_child.part_one")
    pilot.wait_for_buttons()
    pilot.tap([one for one in pilot.screen.buttons if one.text == text][at].place.center)


@pytest.fixture
def three(pilot):
    """An otter, a seal and a gull, one child who was joined by way of the seal."""
    store, otter = pilot.room.store, pilot.room.learner
    later = NOW + timedelta(hours=1)
    some = [otter, added(store, "Seal", "seal", now=later), added(store, "Gull", "gull", now=later)]
    for one, other in pairwise(some):
        store.join(one, other, NOW)
    pilot.room.read_anew()
    return some


# Who is asked for


def test_those_of_the_same_name_come_first_and_the_others_by_name(pilot):
    store = pilot.room.store
    pilot.room.rename("Zoë", "otter")
    for name in ("Wren", "adder", "ZOE", "Élan", "Zoé", "Zora"):
        added(store, name, "gull")
    opened(pilot)
    assert [one.text for one in tickets(pilot)] == ["ZOE", "Zoé", "adder", "Élan", "Wren", "Zora"]


def test_one_of_many_is_found_by_a_name_that_is_typed_and_one_sees_how_many_pages_there_are(pilot):
    for number in range(40):
        added(pilot.room.store, f"Ann {number + 10}", ANIMALS[number % 12])
    added(pilot.room.store, "Quentin", "whale-checks")
    page = opened(pilot)
    assert page.pages > 1 and pilot.words.text("who.find") in pilot.lines()
    pilot.press_word("who.more")
    assert page.page == 1
    pilot.key(pygame.K_q, text="q")
    pilot.type("q")
    assert pilot.words.text("who.typed", typed="q") in pilot.lines()
    pilot.key(pygame.K_RETURN)
    assert isinstance(pilot.screen, OneChild) and pilot.screen.other.nickname == "Quentin"


def test_two_of_one_name_and_picture_are_told_apart_by_what_they_did(pilot):
    store, words = pilot.room.store, pilot.words
    twin = added(store, "Otter", "otter")
    for number in range(3):
        try_once(store, twin, NOW + timedelta(days=number))
    opened(pilot)
    pilot.press("Otter")
    portrait = portrait_name(words, "otter")
    told = words.text("same_child.worked", portrait=portrait, count=3, day="6 May 2026")
    assert told in pilot.lines()
    assert words.text("same_child.idle", portrait=portrait) in pilot.lines()


@pytest.mark.parametrize("last", ["Otter", "Seal"])
def test_the_ticket_that_both_will_have_is_shown_before_and_is_theirs_after(pilot, last):
    """The name and the picture that were given last, each for itself."""
    store, otter = pilot.room.store, pilot.room.learner
    seal = added(store, "Seal", "seal", now=NOW - timedelta(days=9))
    if last == "Seal":
        store.rename(replace(seal, nickname="Sealie"), NOW + timedelta(days=9))
    before = {one.id: one for one in store.learners()}
    opened(pilot)
    pilot.press("seal")
    shown = pilot.screen.as_one
    pilot.press_word("same_child.yes")
    (child,) = store.learners()
    assert (shown.nickname, shown.picture) == (child.nickname, child.picture)
    assert child.nickname == {"Otter": "Otter", "Seal": "Sealie"}[last]
    assert child.picture == before[otter.id].picture
    assert pilot.words.text("same_child.done", name=child.nickname) in pilot.lines()


# Joined and parted


def test_two_are_joined_by_choice_and_parted_again(pilot):
    store, otter = pilot.room.store, pilot.room.learner
    seal, gull = added(store, "Seal", "seal"), added(store, "Gull", "gull")
    for learner in (otter, seal, gull):
        try_once(store, learner)
    page = opened(pilot)
    pilot.press("Seal")
    assert pilot.words.text("same_child.ask", name="Otter", other="Seal") in pilot.lines()
    pilot.press_word("same_child.no")
    assert len(store.ids_of(otter)) == 1 and pilot.screen is page
    pilot.press("Seal")
    pilot.press_word("same_child.yes")
    assert pilot.screen is page and ids(store, otter) == [{otter.id, seal.id}]
    assert len(store.attempts(otter)) == 2 and len(pilot.room.learners()) == 2
    pilot.press_word("same_child.part")
    part(pilot, "Seal")
    assert pilot.screen is page, "nobody is joined any more"
    assert pilot.words.text("same_child.parted_one", name="Seal") in pilot.lines()
    assert store.ids_of(otter) == (otter.id,)
    assert len(pilot.room.learners()) == 3
    assert len(store.attempts(otter)) == 1


def test_what_was_done_stands_below_the_question_which_stays_and_names_who_is_here(pilot, heard):
    store, otter, words = pilot.room.store, pilot.room.learner, pilot.words
    seal, gull = added(store, "Seal", "seal"), added(store, "Gull", "gull")
    page = opened(pilot)

    def asked(name):
        return words.text("same_child.title", name=name)

    def expect(screen, question, done):
        assert screen.greeting.show == question and question in pilot.lines()
        assert done in pilot.lines()
        assert heard.said[-1].startswith(done) and heard.said[-1].endswith(screen.greeting.speak)
        assert len(heard.said[-1]) > len(done)

    for one in (seal, gull):
        pilot.press(one.nickname)
        pilot.press_word("same_child.yes")
        (here,) = (each for each in store.learners() if otter.id in store.ids_of(each))
        expect(page, asked(here.nickname), words.text("same_child.done", name=here.nickname))
    pilot.press_word("same_child.part")
    part(pilot, "Gull")
    parted = words.text("same_child.parted_one", name="Gull")
    expect(pilot.screen, words.text("same_child.who"), parted)
    part(pilot, "Seal")
    expect(page, asked("Otter"), words.text("same_child.parted_one", name="Seal"))


def test_all_of_it_by_the_keyboard(pilot):
    store, otter = pilot.room.store, pilot.room.learner
    seal = added(store, "Seal", "seal")
    opened(pilot)

    def go_to(text):
        for _ in pilot.screen.buttons:
            pilot.key(pygame.K_TAB)
            if pilot.screen.buttons[pilot.screen.focus].text == text:
                pilot.wait_for_buttons()
                return pilot.key(pygame.K_RETURN)
        raise LookupError(text)

    go_to("Seal")
    go_to(pilot.words.text("same_child.yes"))
    assert ids(store, otter) == [{otter.id, seal.id}]
    go_to(pilot.words.text("same_child.part"))
    go_to(pilot.words.text("same_child.part_one"))
    assert ids(store, otter) == [{otter.id}]


def test_who_is_parted_goes_on_with_the_name_and_the_picture_of_their_own(pilot):
    """Also where somebody left between, and came back by the one ticket of both."""
    store, otter = pilot.room.store, pilot.room.learner
    seal = added(store, "Seal", "seal")
    try_once(store, seal)
    store.join(otter, seal, NOW)
    pilot.key(pygame.K_ESCAPE)
    pilot.press("Otter")
    assert pilot.room.learner == replace(seal, nickname="Otter", picture=otter.picture)
    opened(pilot)
    pilot.press_word("same_child.part")
    part(pilot, "Otter")
    assert pilot.room.learner == seal
    assert pilot.screen.others == (otter,)


@pytest.mark.parametrize("at", range(3))
def test_one_of_three_is_parted_alone_whoever_joined_them(pilot, three, at):
    store = pilot.room.store
    names = [one.nickname for one in three]
    opened(pilot)
    pilot.press_word("same_child.part")
    page = pilot.screen
    assert [one.nickname for one in page.joined] == names
    part(pilot, names[at])
    alone, rest = three[at], [one for one in three if one is not three[at]]
    assert ids(store, alone) == [{alone.id}]
    assert ids(store, *rest) == [{one.id for one in rest}] * 2
    assert pilot.room.learner.id == three[0].id


def test_all_three_are_parted_at_once(pilot, three):
    store = pilot.room.store
    opened(pilot)
    pilot.press_word("same_child.part")
    pilot.press_word("same_child.part_all")
    assert ids(store, *three) == [{one.id} for one in three]
    assert isinstance(pilot.screen, SameChild)
    assert pilot.words.text("same_child.parted") in pilot.lines()


@pytest.mark.parametrize("fails_at", range(1, 3))
def test_where_it_cannot_be_written_it_is_said_and_nobody_is_half_apart(
    pilot, three, monkeypatch, fails_at
):
    store, written, join = pilot.room.store, [], Store.join

    def failing(self, *facts, **how):
        written.append(facts)
        if len(written) > fails_at:
            raise StoreError(store.path, "no", Trouble.FULL)
        return join(self, *facts, **how)

    opened(pilot)
    pilot.press_word("same_child.part")
    monkeypatch.setattr(Store, "join", failing)
    part(pilot, "Seal")
    assert isinstance(pilot.screen, Parting) and len(pilot.screen.joined) == 3
    together = ids(store, *three)
    assert all(one == other for one, other in combinations(together, 2))
    assert pilot.screen.said.show != pilot.words.text("same_child.parted_one", name="Seal")


def test_a_join_is_told_on_the_page_about_the_learner(pilot, three):
    screen = SettingsScreen(pilot.room)
    screen.page = screen.sections.index(LEARNER)
    pilot.app.take(Push(screen))
    pilot.resize((1280, 720))
    names = "Otter (Otter, Plain), Seal (Seal, Plain), Gull (Gull, Plain)"
    told = pilot.words.text("same_child.joined", names=names)
    assert told in pilot.lines()
    pilot.press_word("same_child.open")
    assert told in pilot.lines()
    pilot.press_word("same_child.part")
    pilot.press_word("same_child.part_all")
    pilot.key(pygame.K_ESCAPE)
    assert pilot.screen is screen and "Joined" not in pilot.lines()


# How they are laid out


def test_a_child_twice_is_well_laid_out(room):
    screens = [("alone", SameChild(room))]
    for count in (1, 4, 25, 30):
        known = len(room.learners())
        for number in range(count):
            animal = ANIMALS[number % len(ANIMALS)]
            added(room.store, f"{animal.title()} {number + 20}", animal)
        screens.append((f"{known + count}", SameChild(room)))
    screens.append(("asking", OneChild(room, screens[-1][1].others[0])))
    settings = SettingsScreen(room)
    settings.page = settings.sections.index(LEARNER)
    for number, other in enumerate(SameChild(room).others[:6]):
        room.store.join(room.learner, other, NOW)
        screens.append((f"joined {number}", SameChild(room)))
        screens.append((f"parting {number}", Parting(room)))
        for name, screen in (("done", SameChild(room)), ("parted", Parting(room))):
            screen.said = room.words.line("same_child.parted_one", name="W" * 24)
            screens.append((f"{name} {number}", screen))
    settings.joined = SameChild(room).joined
    screens.append(("settings", settings))
    assert_well_laid_out(screens, [*SHAPES, UPRIGHT, (600, 900)])
    for one in room.learners():
        if room.learner.id not in room.store.ids_of(one):
            room.store.remove_learner(one, NOW)
    room.store.part(room.learner, NOW)
    for one in room.learners():
        if one.id != room.learner.id:
            room.store.remove_learner(one, NOW)

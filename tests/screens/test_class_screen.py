"""The class in the window: behind the code, read beside the window, by need and never by rank."""

from dataclasses import replace
from itertools import pairwise

import pygame
import pytest
from class_here import (
    CRAB,
    OTHERS,
    four_of_the_harbour,
    idle_class,
    open_class,
    put,
    worked_on_paper,
)
from kept import added
from pilot import WhenTold

from frame.learner.class_file import listed_in
from frame.learner.class_kept import Member, keep_class, kept_class
from frame.learner.class_list import MOST_CHILDREN
from frame.learner.settings import Age
from frame.learner.store import StoreError
from frame.learner.trouble import Trouble
from frame.practice.families import Family
from frame.screens.board.screen import BoardScreen
from frame.screens.choosing.settings import SettingsScreen
from frame.screens.tutor.child import ChildPage
from frame.screens.tutor.class_files import CLASSES, ClassFiles
from frame.screens.tutor.giving import GivingScreen
from frame.screens.tutor.groups import GroupsPage
from frame.screens.tutor.listing import ListPage
from frame.screens.tutor.picker import PickerPage
from frame.screens.tutor.saving import class_folder
from frame.screens.tutor.screen import ClassPage
from frame.screens.tutor.taking import TakeList
from frame.screens.tutor.whom import WhomPage
from frame.sheets.code import code_of
from frame.sheets.enough import recipe_for
from frame.sheets.making import make
from frame.sheets.topics import facts_of
from frame.view.inputs import Dropped
from frame.view.widgets import Style


@pytest.fixture
def four(pilot):
    return four_of_the_harbour(pilot.room)


@pytest.fixture
def copied(monkeypatch):
    """What is on the clipboard."""

    def copy(text):
        monkeypatch.setattr("frame.screens.tutor.listing.clipboard_text", lambda: text)

    copy("")
    return copy


def seen(pilot):
    return pilot.lines().replace("\u00a0", " ")


def texts(pilot):
    return [one.text for one in pilot.screen.buttons if one.text]


def names(pilot):
    return [one.learner.nickname for one in kept_class(pilot.room.store)]


def here(pilot):
    return {one.nickname: one for one in pilot.room.store.learners()}


def taking(pilot, text):
    return put(pilot, TakeList(pilot.room, listed_in(text)))


# The list


def test_it_lies_behind_the_code_on_the_page_of_this_computer(pilot):
    pilot.room.store.set_code("2580")
    pilot.press("gear")
    for sign in "2580":
        pilot.press(sign)
    pilot.press("tick")
    assert isinstance(pilot.screen, SettingsScreen)
    pilot.press_word("settings.page_6")
    pilot.press_word("class.title")
    assert isinstance(pilot.screen, ClassPage)
    assert pilot.words.text("class.nobody") in seen(pilot)


def test_a_list_that_was_copied_is_looked_over_and_then_is_the_class(pilot, copied):
    otter = here(pilot)["Otter"]
    copied("Otter, quay\nSeal, quay\nHeron, market\n")
    open_class(pilot, "class.list", "class.paste")
    assert isinstance(pilot.screen, TakeList)
    assert "Names: 3. New: 2." in seen(pilot) and "Seal, Heron" in seen(pilot)
    assert set(here(pilot)) == {"Otter"} and names(pilot) == []
    pilot.press("10+")
    pilot.press_word("class.take")
    assert isinstance(pilot.screen, ClassPage)
    members = kept_class(pilot.room.store)
    assert [(one.learner.nickname, one.group) for one in members] == [
        ("Otter", "quay"), ("Seal", "quay"), ("Heron", "market"),
    ]  # fmt: skip
    assert members[0].learner == otter
    pictures = {one.learner.picture for one in members}
    assert len(pictures) == 3
    ages = [pilot.room.store.settings(one.learner).age for one in members]
    assert ages == [Age.MIDDLE, Age.OLDER, Age.OLDER]


def test_names_that_are_all_here_are_shown_too(pilot, four):
    taking(pilot, f"{CRAB}, quay\n{OTHERS[0]}, quay")
    assert f"{CRAB}, {OTHERS[0]}" in seen(pilot)


def test_whoever_goes_back_has_taken_nobody_in(pilot, copied):
    copied("Seal\nHeron")
    open_class(pilot, "class.list", "class.paste")
    pilot.key(pygame.K_ESCAPE)
    assert isinstance(pilot.screen, ListPage)
    assert set(here(pilot)) == {"Otter"} and names(pilot) == []


@pytest.mark.parametrize(
    ("text", "key"),
    [
        ("", "class.nothing_copied"), (" \n ", "class.nothing_copied"), (";;\n", "class.no_names"),
        ("\x00\x01", "class.no_names"), ("Otter\n" * 100_000, "class.no_names"),
    ],
)  # fmt: skip
def test_what_is_no_list_is_told_and_nothing_else_comes_of_it(pilot, copied, text, key):
    copied(text)
    open_class(pilot, "class.list", "class.paste")
    assert isinstance(pilot.screen, ListPage)
    assert pilot.words.text(key) in seen(pilot)
    pilot.key(pygame.K_v, pygame.KMOD_CTRL)
    assert isinstance(pilot.screen, ListPage)


def test_what_is_wrong_is_told_with_its_line(pilot):
    taking(pilot, 'name,group\nSeal,quay\n,market\n"Crab,quay\n')
    assert "Line 3: no name beside “market”." in seen(pilot)
    assert "Line 4: a quotation mark has no end" in seen(pilot)


def test_many_problems_are_on_pages(pilot):
    page = taking(pilot, "\n".join(f"Sprat {at}, quay, {at}" for at in range(12)))
    assert page.pages == 3 and "Line 12" not in seen(pilot)
    pilot.press("step_on")
    pilot.press("step_on")
    assert "Line 12" in seen(pilot)


def test_of_more_children_than_a_class_has_the_first_are_taken(pilot):
    names_of_all = "\n".join(f"Sprat {at}" for at in range(MOST_CHILDREN + 1))
    page = taking(pilot, names_of_all)
    assert f"From line {MOST_CHILDREN + 1} on" in seen(pilot)
    page.take(adds=False)
    assert len(names(pilot)) == MOST_CHILDREN


def test_of_two_of_one_name_the_tutor_says_who_it_is(pilot):
    pilot.room.store.add_learner(
        other := here(pilot)["Otter"].new("Otter", "seal"), pilot.room.computer, pilot.now()
    )
    page = taking(pilot, "Otter, quay\nHeron")
    assert pilot.words.text("class.take") not in texts(pilot)
    pilot.press(pilot.words.text("class.ask_whom", count=1))
    assert isinstance(pilot.screen, WhomPage) and "who is Otter?" in seen(pilot)
    pilot.press("seal")
    assert pilot.screen is page
    pilot.press_word("class.take")
    assert kept_class(pilot.room.store)[0].learner == other


@pytest.mark.parametrize(("answer", "count"), [("class.another", 3), ("class.same_one", 2)])
def test_a_name_that_is_there_twice_is_asked_about(pilot, answer, count):
    page = taking(pilot, "Seal, quay\nHeron\nSeal, market")
    assert "Names: 3. New: 2." in seen(pilot) and "Seal is in two groups" in seen(pilot)
    pilot.press(pilot.words.text("class.ask_whom", count=1))
    pilot.press_word(answer)
    assert pilot.screen is page
    assert f"Names: {count}. New: {count}." in seen(pilot)
    assert "Seal is in two groups" not in seen(pilot), "it is said"
    pilot.press_word("class.take")
    assert len(names(pilot)) == count


@pytest.mark.parametrize(("answer", "count"), [("Otter, who is here", 1), ("class.new", 2)])
def test_a_new_name_that_is_nearly_one_who_is_here_is_told_before_anything_is_taken(
    pilot, answer, count
):
    page = taking(pilot, "Heron\nOttter, quay")
    told = "Line 2: Ottter is new. Otter is here: is it meant?"
    assert told in seen(pilot) and pilot.words.text("class.take") not in texts(pilot)
    pilot.press(pilot.words.text("class.ask_whom", count=1))
    assert isinstance(pilot.screen, WhomPage) and "Otter is here: is it meant?" in seen(pilot)
    pilot.press(pilot.words.text(answer) if "." in answer else answer)
    assert pilot.screen is page and told not in seen(pilot)
    pilot.press_word("class.take")
    assert len(names(pilot)) == 2
    assert len([one for one in here(pilot) if one.startswith("Ott")]) == count


def test_what_can_be_answered_differs_in_words(pilot):
    taking(pilot, "Otter\nOtter")
    pilot.press(pilot.words.text("class.ask_whom", count=1))
    answers = [*map(pilot.words.text, ("class.another", "class.same_one")), "Otter, who is here"]
    assert set(answers) <= set(texts(pilot)) and "Otter" not in texts(pilot)


def test_whoever_leaves_the_question_is_asked_again(pilot):
    page = taking(pilot, "Seal\nSeal")
    pilot.press(pilot.words.text("class.ask_whom", count=1))
    pilot.key(pygame.K_ESCAPE)
    assert pilot.screen is page and page.doubts


def test_beside_a_class_that_is_there_a_list_adds_to_it_or_takes_its_place(pilot, four):
    taking(pilot, "Seal, pier").take(adds=True)
    assert names(pilot) == [CRAB, *OTHERS, "Seal"]
    taking(pilot, "Seal, pier").take(adds=False)
    assert names(pilot) == ["Seal"]
    assert {CRAB, *OTHERS} < set(here(pilot)), "a list deletes nobody"


def test_no_more_are_added_than_a_class_has_room_for(pilot):
    idle_class(pilot.room, MOST_CHILDREN)
    taking(pilot, "Seal")
    assert pilot.words.text("class.add") not in texts(pilot)
    assert pilot.words.text("class.instead") in texts(pilot)


def test_what_can_not_be_written_is_told_and_the_class_is_as_it_was(pilot, monkeypatch):
    page = taking(pilot, "Seal")

    def full(*_):
        raise StoreError(pilot.room.store.path, "full", Trouble.FULL)

    monkeypatch.setattr(pilot.room.store, "keep_class", full)
    pilot.press_word("class.take")
    assert pilot.screen is page and names(pilot) == []
    assert pilot.words.text("store.full") in seen(pilot)
    monkeypatch.undo()
    pilot.press_word("class.take")
    assert names(pilot) == ["Seal"]
    everybody = [one.nickname for one in pilot.room.store.learners()]
    assert everybody.count("Seal") == 1, "whoever was taken in before is so once"


def test_a_list_lies_in_a_folder_for_lists_or_is_let_go_over_the_window(pilot):
    folder = pilot.room.folder / CLASSES.folder
    open_class(pilot, "class.list", "class.from_file", "class_files.new")
    assert isinstance(pilot.screen, ClassFiles)
    (file,) = folder.iterdir()
    assert file.suffix == ".csv"
    (folder / "sick.csv").write_bytes(b"%PDF-1.7\x00\x01")
    pilot.wait(2)
    assert "no name in this file" in seen(pilot)
    pilot.press("my-class")
    pilot.press(pilot.words.text("class.take"))
    assert isinstance(pilot.screen, ClassPage) and names(pilot) == ["Otter", "Seal", "Heron"]
    pilot.press_word("class.list")
    pilot.app.take(pilot.screen.handle(Dropped(str(folder / "sick.csv"))))
    assert "no name in this file" in seen(pilot)
    pilot.app.take(pilot.screen.handle(Dropped(str(file))))
    assert isinstance(pilot.screen, TakeList)


# Who needs somebody now


def test_who_needs_somebody_stands_first_with_why_and_what_was_done(pilot, four):
    page = open_class(pilot)
    first = page.needs.children[0].pupil
    assert first.name == CRAB
    text = seen(pilot)
    assert "carry left out" in text and "20 tasks on paper" in text
    assert "nothing yet this week" in text


def test_it_is_read_beside_the_window_and_told_meanwhile(pilot, four):
    pilot.room.aside = aside = WhenTold()
    page = open_class(pilot)
    assert "Read so far: 0 of 4." in seen(pilot)
    aside.go_on()
    pilot.wait(0.2)
    assert "Read so far: 1 of 4." in seen(pilot) and page.needs is None
    for _ in range(3):
        aside.go_on()
    pilot.wait(0.2)
    assert CRAB in texts(pilot)


def test_whoever_leaves_before_it_is_read_has_it_called_off(pilot, four):
    pilot.room.aside = aside = WhenTold()
    open_class(pilot)
    pilot.key(pygame.K_ESCAPE)
    assert all(future.cancelled() for future, _ in aside.waiting)


def test_whoever_comes_back_finds_the_class_at_once(pilot, four):
    before = open_class(pilot).needs
    pilot.press("back")
    pilot.room.aside = WhenTold()
    assert open_class(pilot).needs == before and CRAB in texts(pilot)


@pytest.mark.parametrize("what", ["work", "settings", "another day", "another name"])
def test_only_those_are_read_anew_of_whom_it_may_be_otherwise(pilot, four, what):
    room, mole = pilot.room, four[2].learner
    open_class(pilot)
    pilot.press("back")
    match what:
        case "work":
            worked_on_paper(room, mole, 1)
        case "settings":
            settings = replace(room.store.settings(mole), ladder_up_after=6)
            room.store.save_settings(mole, settings, room.now())
        case "another day":
            pilot.clock += 24 * 60 * 60
        case "another name":
            room.store.rename(replace(mole, nickname="Vole"), room.now())
    room.aside = aside = WhenTold()
    page = open_class(pilot)
    others = 0 if what == "another day" else 3
    assert f"Read so far: {others} of 4." in seen(pilot) and len(aside.waiting) == 4 - others
    while aside.waiting:
        aside.go_on()
    pilot.wait(0.2)
    found = {one.pupil.name: sum(one.pupil.due.values()) for one in page.needs.children}
    assert len(found) == 4 and ("Vole" in found) == (what == "another name")


def test_who_could_not_be_read_is_read_when_one_comes_back(pilot, four, monkeypatch):
    def held(store, learner, now):
        raise StoreError(store.path, "held", Trouble.HELD)

    monkeypatch.setattr("frame.screens.tutor.reading.seen_beside", held)
    assert open_class(pilot).reading.unread == 4
    pilot.press("back")
    monkeypatch.undo()
    assert open_class(pilot).reading.unread == 0 and CRAB in texts(pilot)


def test_nothing_but_the_title_is_read_aloud(pilot, four, heard):
    open_class(pilot)
    pilot.wait(60, 60)
    assert set(heard.said) == {"The class"}


def test_all_of_many_are_on_pages_each_once(pilot):
    members = idle_class(pilot.room, MOST_CHILDREN)
    page = open_class(pilot)
    found = []
    for _ in range(page.pages):
        found += [one.text for one in page.buttons if one.drawing]
        page.turn(1)
    assert sorted(found) == sorted(one.learner.nickname for one in members)


def test_a_group_alone_is_shown(pilot, four):
    open_class(pilot, "class.all_groups", "market")
    assert [one.text for one in pilot.screen.buttons if one.drawing] == [OTHERS[0]]
    assert pilot.words.text("class.groups") not in texts(pilot), "one child is no group"
    pilot.press(pilot.words.text("class.in_group", group="market"))
    pilot.press_word("class.all_groups")
    assert len([one for one in pilot.screen.buttons if one.drawing]) == 4


# A child


def test_a_child_is_told_with_its_needs(pilot, four):
    open_class(pilot, CRAB)
    assert isinstance(pilot.screen, ChildPage)
    text = seen(pilot)
    assert "When a ten should come, it is left out" in text and "Right at once: 20 of 20" in text
    assert "20 of 20 times since 26 April 2026, as in 3 + 6 + 1 = 0" in text


def test_the_report_and_the_sheet_of_a_child_are_saved(pilot, four):
    open_class(pilot, CRAB, "class.save_report", "class.save_sheet")
    found = sorted(one.name for one in class_folder(pilot.room).iterdir())
    assert found == ["report-Crab.pdf", "sheet-Crab.pdf"]
    assert "sheet-Crab.pdf" in seen(pilot)


def test_a_sheet_of_a_child_is_marked_and_told_of_at_once(pilot, four):
    open_class(pilot, "Newt")
    pilot.press_word("marks.open_one")
    assert pilot.words.text("marks.told.title", name="Newt") in seen(pilot)
    sheet = make(recipe_for(facts_of(Family.ADD_TEN)))
    pilot.type(code_of(sheet.recipe))
    pilot.key(pygame.K_RETURN)
    for word in ("marks.only_wrong", "marks.to_end", "marks.keep"):
        pilot.press_word(word)
    for _ in range(2):
        pilot.key(pygame.K_ESCAPE)
    pilot.wait(1)
    assert isinstance(pilot.screen, ChildPage)
    count = len(sheet.tasks)
    assert pilot.words.text("class.told.on_paper", count=count) in seen(pilot)
    assert f"Right at once: {count} of {count}" in seen(pilot).replace("\u00a0", " ")


def test_of_a_sheet_that_is_half_marked_the_page_of_its_child_tells(pilot, four):
    open_class(pilot, "Newt")
    pilot.press_word("marks.open_one")
    pilot.type(code_of(make(recipe_for(facts_of(Family.ADD_TEN))).recipe))
    for key in (pygame.K_RETURN, pygame.K_1, pygame.K_RETURN, pygame.K_ESCAPE, pygame.K_ESCAPE):
        pilot.key(key)
    pilot.press_word("marks.open_left")
    pilot.key(pygame.K_RETURN)
    assert pilot.screen.typed.at == 1


def test_each_deed_of_a_child_keeps_its_place_whether_it_can_be_done_or_not(pilot, four):
    keep_class(pilot.room.store, [*four, Member(added(pilot.room.store, "Puffin"))])

    def places():
        return [tuple(one.place) for one in pilot.screen.buttons if one.text]

    open_class(pilot, CRAB)
    before = places()
    pilot.press_word("class.take_out")
    assert places() == before
    open_class(pilot, "Puffin")
    assert places() == before
    (rests,) = [one for one in pilot.screen.buttons if one.rests]
    assert rests.text == pilot.words.text("class.no_sheet")
    assert rests.text in seen(pilot).replace("\n", " ")
    assert pilot.screen.buttons[-1].text == pilot.words.text("class.take_out")


def test_a_child_out_of_the_class_stays_a_learner_and_comes_back_in_its_group(pilot, four):
    open_class(pilot, CRAB, "class.take_out")
    assert names(pilot) == list(OTHERS) and CRAB in here(pilot)
    pilot.press_word("class.put_back")
    assert kept_class(pilot.room.store)[-1] == four[0]
    pilot.press_word("class.take_out")
    pilot.press("back")
    assert CRAB not in texts(pilot)


@pytest.mark.parametrize(
    ("choices", "group"),
    [(("market",), "market"), (("class.no_group",), ""), (("class.new_group", "pier"), "pier")],
)
def test_a_child_gets_another_group(pilot, four, choices, group):
    open_class(pilot, CRAB, pilot.words.text("class.in_group", group="quay"))
    for one in choices:
        if one == "pier":
            pilot.type(one)
            pilot.press_word("who.name_done")
        else:
            pilot.press(pilot.words.text(one) if "." in one else one)
    assert isinstance(pilot.screen, ChildPage)
    assert kept_class(pilot.room.store)[0].group == group
    assert names(pilot) == [CRAB, *OTHERS]


# Groups


def test_groups_share_what_they_need_and_each_child_is_in_one(pilot, four):
    open_class(pilot, "class.groups")
    page = pilot.screen
    pilot.press("less")
    pilot.press("less")
    shown = [page._names_of(share) for share in page.shares]
    assert sorted(shown) == [[CRAB, "Mole"], ["Heron", "Newt"]]
    assert "Adding, partner of ten" in seen(pilot)
    assert "Taking away, partner of five" in seen(pilot)


def test_it_is_told_how_many_of_a_group_have_its_fault(pilot, four):
    open_class(pilot, "class.groups")
    pilot.press("less")
    pilot.press("less")
    assert "carry left out, 1 of 2" in seen(pilot).replace("\n", " ")


def test_who_needs_nothing_now_is_in_no_group_and_named(pilot, four):
    members = [*four, *(Member(added(pilot.room.store, name)) for name in ("Puffin", "Eider"))]
    keep_class(pilot.room.store, members)
    open_class(pilot, "class.groups")
    page = pilot.screen
    in_groups = [name for share in page.shares for name in page._names_of(share)]
    assert sorted(in_groups) == [CRAB, *OTHERS]
    told = pilot.words.text("class.told.others", names="Eider, Puffin")
    assert told in seen(pilot).replace("\n", " ")


@pytest.mark.parametrize("count", [0, 1, 5])
def test_on_each_page_of_groups_it_is_told_how_many_need_nothing(pilot, four, count):
    others = [Member(added(pilot.room.store, f"Puffin {at}")) for at in range(count)]
    keep_class(pilot.room.store, [*four, *others])
    pilot.resize((480, 800))
    open_class(pilot, "class.groups")
    assert pilot.screen.pages == (2 if count else 1)
    for _ in range(pilot.screen.pages):
        text = seen(pilot).replace("\n", " ")
        told = ("need nothing" in text, "1 needs nothing" in text, "5 need nothing" in text)
        assert told[1:] == (count == 1, count == 5) and told[0] == (count > 1)
        pilot.screen.turn(1)


def test_of_a_class_that_needs_nothing_there_is_no_group(pilot):
    idle_class(pilot.room, 3)
    open_class(pilot, "class.groups")
    assert "Sprat 0, Sprat 1, Sprat 2" in seen(pilot).replace("\n", " ")
    assert not pilot.screen.shares and pilot.words.text("class.save_sheets") not in texts(pilot)


def test_no_more_groups_are_asked_for_than_there_are_children(pilot, four):
    open_class(pilot, "class.groups")
    assert pilot.screen.number == 4
    with pytest.raises(LookupError):
        pilot.press("more")


def test_its_sheet_or_all_of_them_are_saved_with_the_names(pilot, four):
    open_class(pilot, "class.groups", "class.its_sheet", "class.save_sheets")
    found = sorted(one.name for one in class_folder(pilot.room).iterdir())
    assert found[:2] == ["sheet-Group-1-2.pdf", "sheet-Group-1.pdf"]
    assert len(found) == 1 + len([one for one in pilot.screen.shares if one.facts])


def test_the_code_of_a_sheet_stands_beside_its_group_once_it_was_saved(pilot, four):
    open_class(pilot, "class.groups")
    codes = [share.code for share in pilot.screen.shares]
    assert len(codes) > 1 and not any(code in seen(pilot) for code in codes)
    pilot.press_word("class.its_sheet")
    assert codes[0] in seen(pilot) and codes[1] not in seen(pilot)
    pilot.press("less")
    assert not any(share.code in seen(pilot) for share in pilot.screen.shares)


def test_a_group_is_given_its_sheet(pilot, four):
    open_class(pilot, "class.groups")
    groups, store = pilot.screen, pilot.room.store
    share = groups.shares[0]
    pilot.press_word("giving.give")
    assert isinstance(pilot.screen, GivingScreen) and share.code in seen(pilot)
    pilot.press_word("giving.give")
    pilot.press("back")
    assert pilot.screen is groups and CRAB in seen(pilot), "the class saw nothing of it"
    has = {
        one.learner.nickname: [work.text for work in store.assigned(one.learner)] for one in four
    }
    of_group = groups._names_of(share)
    assert has == {name: [share.code] * (name in of_group) for name in (CRAB, *OTHERS)}


def test_a_group_has_its_set_on_the_board_and_what_it_needs_is_covered_afterwards(pilot, four):
    open_class(pilot, "class.groups")
    groups = pilot.screen
    items = groups.shares[0].items
    pilot.press_word("class.on_board")
    board = pilot.screen
    assert isinstance(board, BoardScreen)
    assert [one.item for one in board.board.items] == list(items)
    pilot.press("back")
    assert pilot.screen is groups and CRAB not in seen(pilot)
    pilot.press("back")
    assert isinstance(pilot.screen, ClassPage) and CRAB not in seen(pilot)
    pilot.press_word("class.show")
    assert CRAB in seen(pilot)


def test_groups_are_made_beside_the_window(pilot, four):
    open_class(pilot)
    pilot.room.aside = aside = WhenTold()
    pilot.press_word("class.groups")
    assert isinstance(pilot.screen, GroupsPage)
    assert pilot.words.text("class.splitting") in seen(pilot)
    aside.go_on()
    pilot.wait(0.2)
    assert pilot.words.text("class.splitting") not in seen(pilot) and pilot.screen.shares


# For parents


def test_each_child_gets_a_page_and_it_is_told_how_far_it_is(pilot, four):
    open_class(pilot, "class.reports")
    pilot.room.aside = aside = WhenTold()
    pilot.press(pilot.words.text("class.save_reports", count=4))
    assert "Being saved: 0 of 4." in seen(pilot)
    for _ in range(3):
        aside.go_on()
    pilot.wait(0.2)
    assert "Being saved: 3 of 4." in seen(pilot)
    aside.go_on()
    pilot.wait(0.2)
    assert "Saved: 4 files" in seen(pilot)
    found = sorted(one.name for one in class_folder(pilot.room).iterdir())
    assert found == [f"report-{name}.pdf" for name in sorted((CRAB, *OTHERS))]
    assert all(one.read_bytes().startswith(b"%PDF-") for one in class_folder(pilot.room).iterdir())


def test_a_folder_that_can_not_be_made_is_told(pilot, four):
    class_folder(pilot.room).write_text("in the way")
    open_class(pilot, "class.reports")
    pilot.press(pilot.words.text("class.save_reports", count=4))
    assert "Saved" not in seen(pilot)
    assert pilot.screen.said is not None and not pilot.screen.is_saving


# Who is next


def test_each_child_is_next_once_until_all_were(pilot, four):
    open_class(pilot, "class.who_next")
    assert isinstance(pilot.screen, PickerPage) and pilot.screen.next is None
    rounds = []
    for _ in range(3):
        pilot.press_word("class.begin")
        found = [pilot.screen.next]
        for _ in range(3):
            pilot.press_word("class.next")
            found.append(pilot.screen.next)
        pilot.press_word("class.next")
        assert pilot.screen.is_over
        rounds.append(found)
    everybody = {one.learner for one in four}
    assert all(len(one) == 4 and set(one) == everybody for one in rounds)
    assert all(one[-1] != after[0] for one, after in pairwise(rounds))


def test_who_is_passed_over_comes_no_more_in_the_round(pilot, four):
    open_class(pilot, "class.who_next", "class.begin")
    passed = pilot.screen.next
    found = []
    pilot.press_word("class.pass")
    while not pilot.screen.is_over:
        found.append(pilot.screen.next)
        pilot.press_word("class.next")
    assert passed not in found and len(found) == 3


def test_whoever_comes_back_goes_on_with_the_round(pilot, four):
    page = open_class(pilot, "class.who_next", "class.begin")
    found = [pilot.screen.next]
    while len(found) < 4:
        pilot.press("back")
        pilot.press("back")
        assert pilot.screen is not page
        open_class(pilot, "class.who_next")
        assert pilot.screen.next == found[-1]
        pilot.press_word("class.next")
        found.append(pilot.screen.next)
    assert {one.nickname for one in found} == {CRAB, *OTHERS}


def test_another_group_has_a_round_of_its_own(pilot, four):
    open_class(pilot, "class.who_next", "class.begin")
    before = pilot.screen.next
    put(pilot, PickerPage(pilot.room, [one.learner for one in four[:2]]))
    assert pilot.screen.next is None
    put(pilot, PickerPage(pilot.room, [one.learner for one in reversed(four)]))
    assert pilot.screen.next == before


def test_nothing_of_it_is_kept_and_needs_are_covered_after_it(pilot, four):
    before = pilot.room.store.kept_class()
    open_class(pilot, "class.who_next", "class.begin")
    pilot.key(pygame.K_ESCAPE)
    assert pilot.words.text("class.covered") in seen(pilot)
    assert not [one for one in pilot.screen.buttons if one.drawing]
    assert [one for one in pilot.screen.buttons if one.style is Style.MAIN]
    assert pilot.room.store.kept_class() == before


def test_a_class_of_which_all_were_deleted_is_none(pilot):
    keep_class(pilot.room.store, idle_class(pilot.room, 1))
    pilot.room.store.remove_learner(here(pilot)["Sprat 0"], pilot.now())
    open_class(pilot)
    assert pilot.words.text("class.nobody") in seen(pilot)

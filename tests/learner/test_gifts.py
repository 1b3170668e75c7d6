"""Several learners are given the same at once, nobody has it twice, and it is taken back."""

from dataclasses import replace
from datetime import timedelta

import pytest
from kept import NOW, two_otters_and_a_seal
from shipped import the_course

from frame.learner.assigned import Assigned, Work
from frame.learner.due import due_code
from frame.learner.giving import due_codes, give, given_before, share_of, take_back
from frame.learner.on_paper import keep_marked
from frame.practice.families import Family
from frame.sheets.code import code_of, recipe_of
from frame.sheets.enough import recipe_for
from frame.sheets.making import make
from frame.sheets.marking import mark_wrong
from frame.sheets.recipe import Kind, Recipe
from frame.sheets.topics import facts_of
from frame.technique.conventions import USUAL

SIX = code_of(Recipe(kind=Kind.COLUMNS, count=6, digits=2))
LATER = NOW + timedelta(minutes=5)


@pytest.fixture
def three(store):
    return two_otters_and_a_seal(store)


def open_of(store, learner):
    return [(one.work, one.text) for one in store.assigned(learner) if one.done is None]


def given_to(store, learners, work=Work.LESSON, text="beads-1", now=NOW):
    share = share_of(store, the_course(), learners, (work, text), now)
    give(store, share, now)
    return [gift.learner for gift in share.gifts]


def test_each_has_it_and_whoever_has_it_to_do_already_does_not_get_it_twice(store, three):
    assert given_to(store, three[:2]) == three[:2]
    assert given_to(store, three, now=LATER) == three[2:]
    assert [open_of(store, one) for one in three] == [[(Work.LESSON, "beads-1")]] * 3


def test_given_once_more_by_a_second_try_it_is_there_once(store, three):
    share = share_of(store, the_course(), three, (Work.LESSON, "beads-1"), NOW)
    give(store, share, NOW)
    give(store, share, NOW)
    assert [open_of(store, one) for one in three] == [[(Work.LESSON, "beads-1")]] * 3


def test_what_is_done_can_be_given_again(store, three):
    otter = three[0]
    given_to(store, [otter])
    store.tick_off(otter, Work.LESSON, "beads-1", LATER)
    assert given_to(store, [otter]) == [otter]


def test_it_is_told_who_has_it_to_do_and_who_has_done_it_the_newest_first(store, three):
    otter, seal, other = three
    given_to(store, three)
    store.place(seal, ["beads-1"], NOW)
    given_to(store, [seal], Work.DUE, "", LATER)
    store.tick_off(seal, Work.LESSON, "beads-1", LATER)
    due, lesson = given_before(store, three)
    assert (due.work, [gift.learner for gift in due.open], due.done) == (Work.DUE, [seal], ())
    assert [gift.learner for gift in lesson.open] == [otter, other] and lesson.done == (seal,)
    assert [one.work for one in given_before(store, [otter])] == [Work.LESSON]


def test_it_is_taken_back_from_those_who_have_it_to_do(store, three):
    otter, seal, _ = three
    given_to(store, three)
    store.tick_off(seal, Work.LESSON, "beads-1", LATER)
    for _ in range(2):
        take_back(store, given_before(store, three[:2])[0].open, LATER)
    assert [open_of(store, one) for one in three] == [[], [], [(Work.LESSON, "beads-1")]]
    assert given_before(store, [otter]) == ()


def worked_on_paper(store, learner, family=Family.ADD_TEN):
    """A sheet of plus with a ten, or of others, of which half went wrong, some days ago."""
    sheet = make(recipe_for(facts_of(family)))
    marked = mark_wrong(sheet, range(1, 1 + len(sheet.tasks) // 2))
    keep_marked(store, learner, marked, USUAL, NOW - timedelta(days=8))


def test_what_is_due_is_a_sheet_for_who_has_done_no_lesson_and_for_whom_nothing_is_due_nothing(
    store, three
):
    otter, seal, other = three
    store.place(otter, [the_course().lessons[8].id], NOW)
    for learner in (otter, seal):
        worked_on_paper(store, learner)
    share = share_of(store, the_course(), three, (Work.DUE, ""), NOW)
    give(store, share, NOW)
    assert [gift.learner for gift in share.gifts] == [otter]
    assert [gift.learner for gift in share.sheet] == [seal] and share.nothing == (other,)
    assert open_of(store, otter) == [(Work.DUE, "")] and open_of(store, other) == []
    ((work, code),) = open_of(store, seal)
    assert work is Work.SHEET and not set(recipe_of(code).facts).isdisjoint(
        facts_of(Family.ADD_TEN)
    )
    again = share_of(store, the_course(), three, (Work.DUE, ""), NOW)
    assert again.had == (otter, seal) and again.all == ()


def test_where_all_lessons_are_open_what_is_due_is_todays_set(store, three):
    otter = three[0]
    store.save_settings(otter, replace(store.settings(otter), all_open=True), NOW)
    assert given_to(store, three, Work.DUE, "") == [otter]


def open_sheets(store, learner):
    return [text for work, text in open_of(store, learner) if work is Work.SHEET]


def test_of_what_is_due_one_stands_however_often_it_changed(store, three):
    otter = three[0]
    codes = []
    for at, family in enumerate((Family.ADD_TEN, Family.SUB_TEN, Family.SUB_FIVE)):
        worked_on_paper(store, otter, family)
        now = NOW + timedelta(minutes=at)
        share = share_of(store, the_course(), [otter], (Work.DUE, ""), now)
        assert [gift.one.text for gift in share.instead] == codes[-1:]
        for _ in range(2):
            give(store, share, now)
        codes.append(share.sheet[0].one.text)
        assert open_of(store, otter) == [(Work.SHEET, codes[-1])]
    assert len(set(codes)) == 3


def test_what_is_due_takes_the_place_of_no_sheet_that_is_done_or_was_given_by_itself(store, three):
    otter = three[0]
    worked_on_paper(store, otter)
    given_to(store, [otter], Work.SHEET, SIX)
    given_to(store, [otter], Work.DUE, "")
    (first,) = {*open_sheets(store, otter)} - {SIX}
    store.tick_off(otter, Work.SHEET, first, LATER)
    worked_on_paper(store, otter, Family.SUB_TEN)
    given_to(store, [otter], Work.DUE, "", LATER)
    (second,) = {*open_sheets(store, otter)} - {SIX}
    (due, sheet) = given_before(store, [otter])
    assert first != second and open_sheets(store, otter) == [SIX, second]
    assert (due.work, due.text, [gift.one.text for gift in due.open]) == (Work.DUE, "", [second])
    assert (sheet.work, sheet.text) == (Work.SHEET, SIX)
    assert [one.text for one in store.assigned(otter) if one.done] == [first]


def test_who_has_done_a_lesson_since_has_todays_set_in_the_place_of_the_sheet(store, three):
    otter = three[0]
    worked_on_paper(store, otter)
    given_to(store, [otter], Work.DUE, "")
    store.place(otter, [the_course().lessons[8].id], NOW)
    assert given_to(store, [otter], Work.DUE, "", LATER) == [otter]
    assert open_of(store, otter) == [(Work.DUE, "")]


def test_a_sheet_of_what_was_due_stays_where_nothing_is_any_more(store, three):
    otter = three[0]
    old = Assigned.due_sheet(SIX, NOW)
    store.assign([(otter, old)])
    share = share_of(store, the_course(), [otter], (Work.DUE, ""), LATER)
    assert (share.had, share.nothing, share.instead, share.all) == ((otter,), (), (), ())


def test_taken_back_what_is_due_takes_the_sheets_of_it_along_and_no_others(store, three):
    otter, seal, _ = three
    store.place(seal, [the_course().lessons[8].id], NOW)
    worked_on_paper(store, otter)
    given_to(store, three, Work.SHEET, SIX)
    given_to(store, three, Work.DUE, "", LATER)
    due, _ = given_before(store, three)
    assert [gift.learner for gift in due.open] == [otter, seal]
    take_back(store, due.open, LATER)
    assert [open_of(store, one) for one in three] == [[(Work.SHEET, SIX)]] * 3


def test_there_is_a_code_of_what_is_due_for_who_has_todays_set_to_do(store, three):
    otter, seal, other = three
    for learner in three:
        store.place(learner, [the_course().lessons[8].id], NOW)
    for learner in (otter, other):
        worked_on_paper(store, learner)
    given_to(store, [otter, seal], Work.DUE, "")
    given_to(store, [other])
    gifts = [gift for one in given_before(store, three) for gift in one.open]
    assert due_codes(store, gifts, NOW) == {otter: due_code(store, otter, NOW)}
    assert due_code(store, otter, NOW)


def test_who_was_removed_meanwhile_keeps_nothing_from_the_others(store, three):
    otter, seal, other = three
    share = share_of(store, the_course(), three, (Work.LESSON, "beads-1"), NOW)
    store.remove_learner(seal, NOW)
    give(store, share, NOW)
    assert [open_of(store, one) for one in (otter, other)] == [[(Work.LESSON, "beads-1")]] * 2

"""Several learners are given the same at once, nobody has it twice, and it is taken back."""

from dataclasses import replace
from datetime import timedelta

import pytest
from kept import NOW, two_otters_and_a_seal
from shipped import the_course

from frame.learner.assigned import Work
from frame.learner.giving import give, given_before, share_of, take_back
from frame.learner.on_paper import keep_marked
from frame.practice.families import Family
from frame.sheets.code import recipe_of
from frame.sheets.making import make
from frame.sheets.marking import mark_wrong
from frame.sheets.sizing import recipe_for
from frame.sheets.topics import facts_of
from frame.technique.conventions import USUAL

LATER = NOW + timedelta(minutes=5)


@pytest.fixture
def three(store):
    return two_otters_and_a_seal(store)


def open_of(store, learner):
    return [(one.work, one.text) for one in store.assigned(learner) if one.done is None]


def given_to(store, learners, work=Work.LESSON, text="beads-1", now=NOW):
    share = share_of(store, the_course(), learners, (work, text), now)
    give(store, share.all)
    return [gift.learner for gift in share.gifts]


def test_each_has_it_and_whoever_has_it_to_do_already_does_not_get_it_twice(store, three):
    assert given_to(store, three[:2]) == three[:2]
    assert given_to(store, three, now=LATER) == three[2:]
    assert [open_of(store, one) for one in three] == [[(Work.LESSON, "beads-1")]] * 3


def test_given_once_more_by_a_second_try_it_is_there_once(store, three):
    share = share_of(store, the_course(), three, (Work.LESSON, "beads-1"), NOW)
    give(store, share.all)
    give(store, share.all)
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


def worked_on_paper(store, learner):
    """A sheet of plus with a ten, of which half went wrong, some days ago."""
    sheet = make(recipe_for(facts_of(Family.ADD_TEN)))
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
    give(store, share.all)
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

"""A report in words: each fault has its own, examples are what they are said to be, nothing is
claimed without its count."""

import re
from dataclasses import replace
from datetime import date, timedelta

import pytest
from each import each_row
from shipped import the_words

from frame.practice.bead_habits import EVERYWHERE, Where
from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family, family_of
from frame.practice.own_ladder import levels_of
from frame.practice.rungs import Asked
from frame.practice.tally import Tally
from frame.report.figures import (
    Aloud,
    Exercised,
    Fault,
    Found,
    Lessons,
    Manner,
    Spent,
    report_of,
)
from frame.report.told import (
    About,
    at_home,
    family_name,
    fault_text,
    page_of,
    tutors_name,
    where_text,
)
from frame.technique.expression import parse_calculation
from frame.technique.habits import Habit

WORDS = the_words()
TODAY = date(2026, 5, 4)
LESSONS = Lessons(12, 3, 90, "five-add-1", "Crates leave")
NO_LESSONS = Lessons(0, 0, 90, "x", "One")
HARD = ("wrong", "careless", "lazy", "bad", "fail", "slow", "weak", "clever", "easy", "quick")
FRAME_WORDS = ("complement", "rod", "heaven", "earth", "carry", "borrow", "operand", "abacus")
"""What only somebody knows who knows the frame."""


def fault(habit, where=EVERYWHERE, in_answers=False):
    return Fault(habit, where, 7, 12, date(2025, 11, 3), in_answers)


def report(*kinds, found=None, spent=()):
    """A report of exercises: family, how many right of how many, days ago."""
    some = [
        Exercised(TODAY - timedelta(days=ago + number % 2), family, Manner.SEEN, number < right)
        for family, right, of, ago in kinds
        for number in range(of)
    ]
    return report_of(sorted(some), spent, found or Found(LESSONS), TODAY)


def sentences(page):
    yield page.title
    for part in page.parts:
        yield part.heading
        yield from part.sentences
        yield from (f"{row.name} {row.note}" for row in part.rows)
    yield from page.notes


@each_row("habit", Habit)
def test_every_fault_has_words_for_a_parent_and_a_tutor_and_one_thing_to_do(habit):
    told = fault_text(fault(habit), WORDS).replace("\u00a0", " ")
    assert told.endswith(": 7 of 12 times since 3 November 2025.")
    lately = fault_text(fault(habit)._replace(since=None), WORDS).replace("\u00a0", " ")
    assert lately.endswith(": 7 of the last 12 times.")
    home = at_home(replace(report(), fault=fault(habit)), "Otter", WORDS)
    assert home.endswith(".") and len(home) < 140
    for text in (told, home):
        assert not set(re.findall(r"\w+", text.lower())) & {*HARD, *FRAME_WORDS}, text
    if habit is not Habit.NOT_GIVEN_BACK:
        assert "frame" not in home, "it needs none"
    assert re.search("(on|twi)ce a day", home, re.I), "it says how much is enough"


def test_no_two_faults_are_told_alike():
    told = [fault_text(fault(habit), WORDS) for habit in Habit]
    names = [tutors_name(fault(habit), WORDS) for habit in Habit]
    assert len({*told}) == len({*names}) == len(Habit)


WHERE = {
    EVERYWHERE: "",
    Where(digits=frozenset({7})): "It shows with 7, and hardly with other digits.",
    Where(digits=frozenset({6, 4})): "It shows with 4 and 6, and hardly with other digits.",
    Where(rod=1): "It shows in the place of the tens, and hardly in others.",
    Where(rod=-1): "It shows in the place of the tenths, and hardly in others.",
    Where(is_long=True): "It shows in columns of three numbers or more, and hardly with two.",
    Where(is_long=False): "It shows with two numbers, and hardly in longer columns.",
}


@pytest.mark.parametrize("where", WHERE)
def test_where_a_fault_shows_is_page_of(where):
    assert where_text(where, WORDS) == WHERE[where]
    page = page_of(replace(report(), fault=fault(Habit.WRONG_PARTNER, where)), "Otter", WORDS)
    assert page.part(About.FAULT).sentences[1:] == tuple(filter(None, [WHERE[where]]))


@each_row("family", Family)
def test_the_example_of_each_kind_of_sum_is_of_that_kind(family):
    name, _, example = family_name(family, WORDS).partition(": ")
    assert name == WORDS.text(f"family.{family}"), "a thing has one name"
    if family in (Family.READ, Family.SET):
        assert example == "on the frame"
        return
    exercise = Exercise(Kind.SUM, parse_calculation(example.replace("\u00a0", " ")), rods=13)
    assert family_of(exercise.facts) is family


@each_row("family", Family)
def test_what_is_learned_has_one_thing_to_do_at_home(family):
    found = report((family, 3, 12, 0))
    page = page_of(found, "Otter", WORDS)
    (home,) = page.part(About.HOME).sentences
    assert home == at_home(found, "Otter", WORDS) and re.search("(on|twi)ce a day", home, re.I)
    (row,) = page.part(About.LEARNING).rows
    assert (row.name, row.tally) == (family_name(family, WORDS), Tally(3, 12))


def test_without_any_exercise_it_is_too_early_and_a_beginning_is_proposed():
    page = page_of(report(), "Otter", WORDS)
    assert page.part(About.KNOWN).sentences == ("Too early to tell. Worked alone so far: 0.",)
    assert page.part(About.FAULT).sentences == ("Too early to tell. Sums looked at: 0.",)
    assert "Otter" in page.part(About.HOME).sentences[0]
    assert page.part(About.WEEK).sentences[0] == "Nothing was worked alone in the last 7 days."
    assert page.part(About.INWARD) is None


def test_with_enough_and_no_fault_it_is_told_in_how_many_exercises_none_was_found():
    found = report((Family.READ, 20, 20, 0), found=Found(LESSONS, looked_at=143))
    (text,) = page_of(found, "Otter", WORDS).part(About.FAULT).sentences
    assert text == "In the last 143 sums nothing goes wrong again and again."


@pytest.mark.parametrize(
    ("right", "of", "ago", "note"),
    [
        (3, 4, 0, "too few to tell"),
        (12, 20, 0, ""),
        (12, 20, 29, ""),
        (12, 20, 31, "last on 3 April 2026"),
    ],
)
def test_what_is_to_be_known_of_a_count_stands_beside_it(right, of, ago, note):
    (row,) = (
        page_of(report((Family.ADD_TEN, right, of, ago)), "Otter", WORDS).part(About.LEARNING).rows
    )
    assert (row.tally, row.note) == (Tally(right, of), note)


def test_what_was_done_on_one_day_alone_says_so():
    some = [Exercised(TODAY, Family.ADD_TEN, Manner.SEEN, True)] * 30
    page = page_of(report_of(some, (), Found(LESSONS), TODAY), "Otter", WORDS)
    (row,) = page.part(About.LEARNING).rows
    assert (row.tally, row.note) == (Tally(10, 10), "on one day so far")


def test_called_numbers_have_their_level_where_there_is_one():
    level = levels_of(Asked.CALLED)[2]
    called, flashed = Aloud(Tally(9, 10), level, 51), Aloud(Tally(8, 20))
    found = replace(report(), unseen=Tally(5, 9), called=called, flashed=flashed)
    rows = page_of(found, "Otter", WORDS).part(About.INWARD).rows
    assert [row.tally for row in rows] == [(5, 9), (9, 10), (8, 20)]
    assert ["step 3" in row.name for row in rows] == [False, True, False]


def test_the_minutes_of_a_week_stand_beside_those_of_the_one_before():
    spent = [Spent(TODAY, 600.0), Spent(TODAY - timedelta(days=8), 1260.0)]
    week = page_of(report(spent=spent), "Otter", WORDS).part(About.WEEK)
    assert [bar.minutes for bar in week.bars] == [10, 21]


def test_of_a_week_on_paper_it_is_told_why_it_has_no_minutes():
    for spent in ([], [Spent(TODAY, 600.0)]):
        found = report((Family.ADD_TEN, 8, 10, 1), spent=spent)
        told = page_of(found, "Otter", WORDS).part(About.WEEK).sentences
        assert (WORDS.text("report.page.week_paper") in told) == (not spent)


def all_on_paper(right, of, lessons=NO_LESSONS):
    """A report of a sheet that went so, of which no fault is named."""
    some = [
        Exercised(TODAY, Family.SUB_TEN, Manner.SEEN, number < right, is_on_paper=True)
        for number in range(of)
    ]
    return report_of(some, (), Found(lessons, None, of, of - right), TODAY)


def test_who_worked_on_paper_alone_is_told_of_that_and_of_no_lessons_or_minutes():
    found = page_of(all_on_paper(9, 20), "Otter", WORDS)
    assert found.part(About.LEARNING).sentences == (
        "Right on sheets and papers: 9 of 20.",
        "Hardest there lately: Taking away, partner of ten (11 of 20 not right).",
    )
    assert not found.part(About.WEEK).bars
    assert not any(note.startswith("Time:") for note in found.notes)


def test_of_papers_beside_lessons_both_are_told():
    found = page_of(all_on_paper(20, 20, LESSONS), "Otter", WORDS)
    (lessons,) = found.part(About.LEARNING).sentences
    assert lessons.startswith("Lessons done: 12 of 90")
    week = found.part(About.WEEK)
    assert week.bars and week.sentences[-1] == "Right on sheets and papers: 20 of 20."


@pytest.mark.parametrize(
    ("right", "of", "says"),
    [
        (0, 19, "Too early to tell. Sums looked at: 19."),
        (9, 20, "Of the last 20 sums 11 were not right, and no one habit explains it."),
        (16, 20, "Of the last 20 sums 4 were not right, and no one habit explains it."),
        (17, 20, "In the last 20 sums nothing goes wrong again and again."),
    ],
)
def test_where_much_is_not_right_it_is_not_said_that_nothing_goes_wrong(right, of, says):
    found = all_on_paper(right, of)
    assert page_of(found, "Otter", WORDS).part(About.FAULT).sentences == (says,)
    named = replace(found, fault=fault(Habit.BORROW_FORGOTTEN))
    assert says not in page_of(named, "Otter", WORDS).part(About.FAULT).sentences


def test_of_paper_of_which_no_answers_are_known_it_is_told_why_no_fault_can_be():
    found = replace(all_on_paper(9, 20), looked_at=0, not_right=0)
    (told,) = page_of(found, "Otter", WORDS).part(About.FAULT).sentences
    assert told == "Too early to tell. It shows in answers that are typed in: 0 so far."


def test_the_parts_come_in_the_order_in_which_a_parent_asks():
    page = page_of(replace(report(), unseen=Tally(1, 2)), "Otter", WORDS)
    assert [part.about for part in page.parts] == list(About)


def test_nobody_is_ranked_blamed_or_promised_anything():
    found = report(*((family, 19, 20, 40) for family in Family))
    for one in (
        found,
        report(),
        all_on_paper(9, 20),
        replace(found, fault=fault(Habit.RIPPLE_STOPPED)),
    ):
        text = " ".join(sentences(page_of(one, "Otter", WORDS))).lower().replace(
            "goes wrong", ""
        )  # fmt: skip
        shunned = (*HARD, "rank", "streak", "average", "other children", "intelligen", "iq", "%")
        assert not [word for word in shunned if re.search(rf"\b{word}\b", text)]

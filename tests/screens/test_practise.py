"""Practice: what can be chosen, that every choice can be worked, and what is kept of it."""

import pygame
import pytest
from pilot import Pilot
from robot import do_right, give_answer, let_numbers_come, number_asked, signs, wrong_moves

from frame.course.attempts import Position
from frame.course.runner import Stage
from frame.learner.store import LessonState
from frame.practice.choices import CALL_PACES, SET, SHORT_SET, Choices, Sight
from frame.practice.families import Family
from frame.practice.flashing import LEVELS, FlashSetting
from frame.practice.kept_choices import choices_from
from frame.practice.ladder import Try
from frame.practice.rungs import Asked, Rung
from frame.practice.standing import Ladder
from frame.screens.choosing.all_choices import AllChoices
from frame.screens.choosing.chosen import Chosen
from frame.screens.choosing.home import Home
from frame.screens.choosing.practice_note import note_of
from frame.screens.choosing.who import Who
from frame.screens.lesson.screen import LessonScreen

pytestmark = pytest.mark.usefixtures("flashes")

SOME = Family.READ, Family.ADD_FIVE, Family.COLUMNS
"""The families tried in every way each time; the others are left to the proofs."""


def open_all(pilot):
    """Open the page of all that can be chosen."""
    pilot.press_word("home.practise")
    pilot.press_word("practise.more")


@pytest.fixture
def all_open(pilot):
    pilot.room.set(all_open=True)
    open_all(pilot)
    return pilot


def choose(pilot, asked=Asked.SHOWN, **chosen):
    """Have this chosen on the practise screen."""
    while not isinstance(pilot.screen, Home):
        pilot.key(pygame.K_ESCAPE)
    pilot.room.choices = Choices(asked).choose(**chosen)
    open_all(pilot)


def start(pilot):
    pilot.press_word("practise.start")
    assert isinstance(pilot.screen, LessonScreen), pilot.screen.note
    return pilot.screen


def do_one(pilot, lesson, *, right):
    """One exercise, right, or with a bead or an answer that is not, and on to the next."""
    runner, item = lesson.runner, lesson.runner.position.item
    for _ in range(300):
        if runner.position.item != item or runner.stage is Stage.END:
            return runner.attempts[-1]
        if right or runner.attempts[item:] or pilot.screen is not lesson:
            do_right(pilot)
        else:
            do_wrong(pilot)
    raise AssertionError(f"{runner.work.exercise} at {runner.stage} never ends")


def do_wrong(pilot):
    screen = pilot.screen
    work, stage = screen.runner.work, screen.runner.stage
    if stage is Stage.PRESENT:
        let_numbers_come(pilot)
    elif stage is Stage.ANSWER and not work.slips:
        other = number_asked(work) + 1
        give_answer(pilot, other % 10 if len(work.frame.digits) == 1 else other)
    elif stage is Stage.WORK and work.is_silent:
        pilot.press_word("lesson.done")
    elif stage is Stage.WORK and not work.slips and (some := wrong_moves(screen)):
        screen.touch((some[0],))
        pilot.settle()
    else:
        do_right(pilot)


# What there is to choose


def test_beads_can_be_started_once_something_was_learned_and_numbers_at_once(pilot):
    open_all(pilot)
    words = pilot.words
    assert pilot.screen.choices.asked is Asked.SHOWN
    assert words.text("practise.start") not in signs(pilot.screen)
    first = pilot.room.course.lessons[0].title
    assert words.text("practise.first") in pilot.lines()
    tabs = {words.text(f"practise.{tab}") for tab in ("beads", "called", "flashed")}
    begin = words.text("home.start", title=first)
    assert signs(pilot.screen) == {"back", "next", begin, *tabs}, "no rows"
    pilot.press(begin)
    assert pilot.screen.runner.lesson.id == pilot.room.course.lessons[0].id
    pilot.key(pygame.K_ESCAPE)
    assert isinstance(pilot.screen, AllChoices)
    for tab in ("practise.called", "practise.flashed"):
        pilot.press_word(tab)
        start(pilot)
        pilot.key(pygame.K_ESCAPE)
    pilot.key(pygame.K_ESCAPE)
    pilot.room.lessons["beads-1"] = LessonState(1, Position(), True)
    choose(pilot)
    assert start(pilot).runner.work.exercise.asked is Asked.SHOWN


def test_only_families_that_were_taught_can_be_turned_to(pilot):
    for entry in pilot.room.course.lessons[:20]:
        pilot.room.lessons[entry.id] = LessonState(1, Position(), True)
    open_all(pilot)
    seen = set()
    while "less" in signs(pilot.screen) and pilot.screen.choices.beads.family is not Family.READ:
        pilot.press("less")
    while pilot.screen.choices.beads.family not in seen:
        seen.add(pilot.screen.choices.beads.family)
        pilot.press("more")
        if (pilot.screen.choices.beads.rows or 2) > 2:
            break
    assert Family.READ in seen
    assert Family.ADD_FIVE in seen
    assert Family.ADD_TEN not in seen


def test_each_tab_has_its_rows_and_a_touch_chooses(all_open):
    pilot, words = all_open, all_open.words
    for tab, row in (
        ("practise.called", "practise.by_place"), ("practise.flashed", "practise.pace"),
        ("practise.beads", "practise.rung"),
    ):  # fmt: skip
        pilot.press_word(tab)
        assert words.text(row) in pilot.lines()
    pilot.press_word("rung.COVERED")
    assert pilot.screen.choices.beads.rung is Rung.COVERED
    pilot.press_word("practise.called")
    pilot.press_word("sight.own")
    assert pilot.screen.choices.called.sight is Sight.OWN
    pilot.press_word("practise.flashed")
    pilot.press_word("practise.own")
    assert pilot.screen.choices.flashed.own


def turns(pilot, sign):
    """What turns a row on the way of a sign, of the rows that have not come to their end."""
    return [one for one in pilot.screen.buttons if one.sign == sign and not one.rests]


def test_every_value_can_be_turned_to_its_ends_and_stays_there(all_open):
    pilot = all_open
    for tab in ("practise.beads", "practise.called", "practise.flashed"):
        pilot.press_word(tab)
        for sign in ("more", "less", "more"):
            for _ in range(150):
                turning = turns(pilot, sign)
                if not turning:
                    break
                turning[0].act()
            else:
                raise AssertionError(f"{sign} on {tab} never ends: {pilot.screen.choices}")
            pilot.repaint()
        assert start(pilot).runner.work is not None
        pilot.key(pygame.K_ESCAPE)


def test_choices_are_kept_for_each_learner_from_one_day_to_the_next(all_open, tmp_path):
    pilot = all_open
    pilot.press_word("practise.flashed")
    pilot.press_word("settings.on")
    pilot.press_word("practise.called")
    pilot.press_word("sight.covered")
    for _ in range(2):
        pilot.press("much_more")
    chosen = pilot.screen.choices
    start(pilot)
    for _ in range(4):
        pilot.key(pygame.K_ESCAPE)
    assert isinstance(pilot.screen, Who)
    pilot.press("newcomer")
    pilot.welcome("Seal")
    open_all(pilot)
    assert pilot.screen.choices == Choices()
    pilot.close()
    again = Pilot(tmp_path, (800, 480))
    again.press("Otter")
    open_all(again)
    assert again.screen.choices == chosen
    again.close()


def test_choices_are_kept_when_the_window_is_closed_on_a_set(all_open, tmp_path):
    pilot = all_open
    pilot.press_word("practise.called")
    start(pilot)
    pilot.post(pygame.QUIT)
    assert pilot.app.screens == []
    learner = pilot.room.learner
    assert choices_from(pilot.room.store.choices(learner)).asked is Asked.CALLED


def test_what_is_taken_away_is_chosen_for_each_way_of_asking(all_open):
    pilot = all_open
    pilot.press_word("practise.called")
    pilot.press_word("settings.on")
    assert pilot.screen.choices.called.minus
    pilot.press_word("practise.flashed")
    assert not pilot.screen.chosen.now("minus")
    assert not start(pilot).runner.lesson.steps[0].request.minus


def test_what_cannot_be_made_of_what_was_learned_is_said(pilot):
    """Whoever learned tens alone knows no digit to go with them."""
    entry = next(one for one in pilot.room.course.lessons if "read-tens" in one.new)
    pilot.room.lessons[entry.id] = LessonState(1, Position(), True)
    choose(pilot, family=Family.READ, digits=1)
    screen = pilot.screen
    pilot.press_word("practise.start")
    assert pilot.screen is screen
    assert pilot.words.text("practise.none")[:40] in pilot.lines()


def test_the_keyboard_alone_chooses_and_starts(all_open):
    pilot, screen = all_open, all_open.screen
    wanted = pilot.words.text("rung.TRACES")
    for _ in screen.buttons:
        pilot.key(pygame.K_TAB)
        if screen.buttons[screen.focus].text == wanted:
            break
    pilot.key(pygame.K_RETURN)
    assert screen.choices.beads.rung is Rung.TRACES
    screen.focus_button(None)
    pilot.key(pygame.K_RETURN)
    assert isinstance(pilot.screen, LessonScreen)
    assert pilot.screen.runner.work.exercise.rung is Rung.TRACES


# Everything can be started and worked


@pytest.mark.parametrize(
    "family", [Family.ADD_FIVE, pytest.param(Family.SUB_TEN, marks=pytest.mark.proof)]
)
@pytest.mark.parametrize("rung", Rung)
def test_beads_at_every_rung_right_and_wrong(all_open, rung, family):
    pilot = all_open
    choose(pilot, family=family, rung=rung)
    lesson = start(pilot)
    assert do_one(pilot, lesson, right=True).unaided
    wrong = do_one(pilot, lesson, right=False)
    assert wrong.exercise.rung is rung
    assert not wrong.unaided or rung is Rung.FINISH
    assert do_one(pilot, lesson, right=True).right


@pytest.mark.parametrize(
    "family, own",
    [
        pytest.param(family, own, marks=[pytest.mark.proof] * (own and family not in SOME))
        for family in Family
        for own in (False, True)
    ],
)
def test_every_family_by_the_ladder_and_on_the_learners_own_frame(all_open, family, own):
    pilot = all_open
    choose(pilot, family=family, own=own)
    lesson = start(pilot)
    attempt = do_one(pilot, lesson, right=True)
    assert attempt.unaided
    assert attempt.exercise.rung is Rung.ALONE
    assert attempt.exercise.own is (own and family not in (Family.READ, Family.SET))
    assert do_one(pilot, lesson, right=False).slips


@pytest.mark.parametrize("rung", [Rung.TRACES, Rung.COVERED, Rung.NUMBER])
@pytest.mark.parametrize("family", [Family.READ, Family.SET])
def test_numbers_are_read_and_set_at_every_rung(all_open, family, rung):
    pilot = all_open
    choose(pilot, family=family, rung=rung, digits=2)
    lesson = start(pilot)
    if family is Family.READ:
        assert not lesson.field.look.covered, "what is to be read must be seen"
    assert do_one(pilot, lesson, right=True).unaided


@pytest.mark.parametrize("sight", Sight)
def test_called_numbers_whatever_is_seen_right_and_wrong(all_open, sight):
    pilot = all_open
    choose(pilot, asked=Asked.CALLED, sight=sight, pace=CALL_PACES[-1])
    lesson = start(pilot)
    assert do_one(pilot, lesson, right=True).unaided
    assert not do_one(pilot, lesson, right=False).right
    assert len({str(attempt.exercise) for attempt in lesson.runner.attempts}) == 2


@pytest.mark.parametrize("own", [False, True])
def test_flashed_numbers_right_and_wrong(all_open, own):
    pilot = all_open
    choose(pilot, asked=Asked.FLASHED, own=own)
    lesson = start(pilot)
    assert do_one(pilot, lesson, right=True).unaided
    assert not do_one(pilot, lesson, right=False).right
    assert len(pilot.room.store.flash_runs(pilot.room.learner)) == 2


@pytest.mark.parametrize("setting", [LEVELS[-1].setting, FlashSetting(6, 30, 0.1, True)])
def test_the_quickest_flashed_numbers_fit_a_small_window(all_open, setting):
    pilot = all_open
    pilot.room.set(quick_flash=True)
    choose(pilot, asked=Asked.FLASHED, setting=setting)
    lesson = start(pilot)
    assert lesson.runner.work.exercise.pace == setting.interval
    assert do_one(pilot, lesson, right=True).exercise.asked is Asked.FLASHED


def test_a_whole_called_set_ends_with_results_and_then_again_or_back(all_open):
    pilot = all_open
    choose(pilot, asked=Asked.CALLED, pace=CALL_PACES[-1])
    lesson = start(pilot)
    while lesson.runner.stage is not Stage.END:
        do_right(pilot)
    assert len(lesson.runner.attempts) == SHORT_SET
    right = sum(one.unaided for one in lesson.runner.attempts)
    assert pilot.words.text("practise.over", right=right, all=SHORT_SET) in pilot.lines()
    pilot.press_word("lesson.again")
    again = pilot.screen
    assert again is not lesson
    assert str(again.runner.work.exercise) != str(lesson.runner.attempts[0].exercise)
    pilot.key(pygame.K_ESCAPE)
    assert isinstance(pilot.screen, AllChoices)


# The ladder


def do_a_set(pilot):
    lesson = start(pilot)
    while lesson.runner.stage is not Stage.END:
        do_right(pilot)
    assert len(lesson.runner.attempts) == SET
    pilot.press_word("lesson.leave")
    return lesson


def test_ten_right_in_a_row_are_one_rung_up(all_open):
    pilot, words = all_open, all_open.words
    choose(pilot, family=Family.ADD_FIVE)
    screen = pilot.screen
    note = words.text("practise.standing", rung=words.text("rung.ALONE"), rods=1)
    assert note in pilot.lines()
    do_a_set(pilot)
    assert pilot.screen is screen
    up = words.text("why.right", some=SET, last=SET, rung=words.text("rung.PALE"))
    assert f"{words.text('practise.rods', rods=1)} {up}" in pilot.lines()
    lesson = start(pilot)
    steps = lesson.runner.lesson.steps
    assert [step.request.rung for step in steps] == [Rung.PALE]
    pilot.key(pygame.K_ESCAPE)
    kept = pilot.room.store.tries(pilot.room.learner)
    assert [one.rung for one in kept] == [Rung.ALONE] * SET
    assert {one.family for one in kept} == {Family.ADD_FIVE}


def tried(pattern, rung=Rung.ALONE):
    """A try for each letter: r right, m missed."""
    facts = frozenset({"add-five-3"})
    return [
        Try(Family.ADD_FIVE, 1, rung, one == "r", looks=0, seconds=4.0, facts=facts)
        for one in pattern
    ]


NOTES = {
    "fallen":
        (tried("mm"), {},
         "Rods: 1. 2 of the last 2 were not right, so it gets easier: Finish."),
    "risen and fallen":
        (tried("r" * 10) + tried("mm", Rung.PALE), {},
         "Rods: 1. 2 of the last 2 were not right, so it gets easier: Alone."),
    "come up": (tried("r" * 10), {}, "Rods: 1. 10 of the last 10 were right, so on it goes: Pale."),
    "begun": (tried("r"), {}, "Next: Alone. Rods: 1. With 9 more done right, this comes: Pale."),
    "nothing tried": ([], {}, "Next: Alone. Rods: 1."),
    "lower by hand":
        (tried("r" * 10), {"rung": Rung.WATCH}, "Next: Watch. Rods: 1. Reached: Pale."),
    "lower by hand after a fall":
        (tried("mm"), {"rung": Rung.WATCH}, "Next: Watch. Rods: 1."),
    "higher by hand": (tried("r" * 10), {"rung": Rung.NUMBER}, "Next: Number only. Rods: 1."),
}  # fmt: skip
"""What was tried, what is chosen by hand, and what is told of it."""


@pytest.mark.parametrize("case", NOTES)
def test_the_note_names_a_rung_once_and_what_was_reached_where_that_is_higher(pilot, case):
    tries, by_hand, note = NOTES[case]
    choices = Choices().choose(family=Family.ADD_FIVE, **by_hand)
    chosen = Chosen(choices, Ladder.of(tries), quick=False)
    assert note_of(pilot.room, chosen, {"add-five-3"}, (800, 480)) == note


@pytest.mark.parametrize("family", [one for one in Family if one.is_of_sums])
def test_of_a_frame_of_ones_own_no_rung_is_told(pilot, family):
    chosen = Chosen(Choices().choose(family=family, own=True), Ladder.of(tried("mm")), quick=False)
    note = note_of(pilot.room, chosen, {"add-five-3"}, (800, 480))
    assert note.startswith("On your own frame, only your answer is looked at")
    assert ("level" in note) is chosen.has_own_ladder
    assert not any(pilot.words.text(f"rung.{rung.name}") in note for rung in Rung)


@pytest.mark.parametrize("asked", [Asked.SHOWN, Asked.CALLED])
def test_of_a_set_left_early_it_is_told_once_what_was_right(all_open, heard, asked):
    pilot = all_open
    choose(pilot, asked)
    lesson = start(pilot)
    do_one(pilot, lesson, right=True)
    do_one(pilot, lesson, right=False)
    heard.said.clear()
    pilot.key(pygame.K_ESCAPE)
    left = pilot.words.line("practise.left", right=1, worked=2)
    assert left.show in pilot.lines()
    assert heard.said[-1].startswith(left.speak)
    start(pilot)
    pilot.key(pygame.K_ESCAPE)
    assert left.show not in pilot.lines()
    assert "right at once" not in pilot.lines()


def test_what_is_told_of_a_set_goes_with_another_choice(all_open):
    pilot = all_open
    choose(pilot)
    do_one(pilot, start(pilot), right=True)
    pilot.key(pygame.K_ESCAPE)
    assert "1 worked, 1 right at once." in pilot.lines()
    pilot.press_word("rung.COVERED")
    assert "right at once" not in pilot.lines()


def test_the_ladder_is_seen_while_a_set_is_practised(all_open):
    pilot = all_open
    choose(pilot, family=Family.ADD_FIVE, rung=Rung.TRACES)
    start(pilot)
    lines = pilot.lines()
    assert all(pilot.words.text(f"rung.{rung.name}") in lines for rung in Rung)


def test_a_set_practised_leaves_no_mark_on_the_course(all_open):
    pilot = all_open
    before = dict(pilot.room.lessons)
    choose(pilot, asked=Asked.CALLED)
    do_one(pilot, start(pilot), right=True)
    pilot.key(pygame.K_ESCAPE)
    assert pilot.room.lessons == before
    assert pilot.room.store.lessons(pilot.room.learner) == before
    assert len(pilot.room.store.attempts(pilot.room.learner)) == 1


# Quick numbers


def turned_to_the_quickest(pilot):
    """The quickest pace that the last row of less and more lets one choose."""
    for _ in range(60):
        turning = turns(pilot, "more")
        pace = pilot.screen.chosen.settled.flashed.setting.interval
        turning[-1].act()
        if pilot.screen.chosen.settled.flashed.setting.interval == pace:
            return pace
    raise AssertionError("no end")


@pytest.mark.parametrize("allowed", [False, True])
def test_more_than_three_a_second_only_where_an_adult_allowed_it(all_open, allowed):
    pilot = all_open
    pilot.room.set(quick_flash=allowed)
    choose(pilot, asked=Asked.FLASHED)
    assert pilot.words.text("flash.caution")[:40] in pilot.lines()
    assert (turned_to_the_quickest(pilot) < 1 / 3 - 1e-9) is allowed
    paces = set()
    while turning := turns(pilot, "more"):
        turning[0].act()
        paces.add(pilot.screen.chosen.settled.flashed.setting.interval)
    quick = [pace for pace in paces if pace < 1 / 3 - 1e-9]
    assert bool(quick) is allowed


@pytest.mark.parametrize("flash", [LEVELS[-1].setting, LEVELS[0].setting, FlashSetting(1, 3, 0.1)])
def test_what_is_no_longer_allowed_is_not_chosen_any_more(all_open, flash):
    pilot = all_open
    choose(pilot, asked=Asked.FLASHED, setting=flash)
    assert pilot.screen.chosen.settled.flashed.setting.interval >= 1 / 3 - 1e-9
    lesson = start(pilot)
    assert lesson.runner.work.exercise.pace >= 1 / 3 - 1e-9

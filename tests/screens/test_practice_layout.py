"""Practice, called sets, results, replays and columns on paper in windows small and large: see
sight.flaws."""

from decimal import Decimal
from random import Random

import pygame
import pytest
from proofs import some_daily
from robot import Heard
from sight import SHAPES, SIZES, UPRIGHT, assert_well_laid_out, laid_out, look_at

from frame.course.attempts import Origin
from frame.course.lesson import Ask, Lesson, Mark
from frame.course.runner import Runner, Stage
from frame.language.lines import Line
from frame.language.speech import RATE
from frame.learner.kept_sets import MOST_SETS, KeptSet
from frame.learner.settings import Age, Settings
from frame.practice.choices import Choices, Sight
from frame.practice.columns import (
    MOST_CALLED_DIGITS,
    MOST_DIGITS,
    MOST_ROWS,
    draw_column,
    rods_needed,
)
from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family
from frame.practice.flashing import LEVELS, FlashReport, FlashSetting, ItemTime, Schedule
from frame.practice.kept_choices import set_to
from frame.practice.replay import replay_of
from frame.practice.rungs import Asked, Rung
from frame.practice.work import Work
from frame.screens.choosing.all_choices import AllChoices
from frame.screens.choosing.named_sets import AnotherName, KeptSets, NewSet, OneSet
from frame.screens.choosing.practise import PractiseScreen
from frame.screens.choosing.published import Published
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.placement import begin_placement
from frame.screens.lesson.replay import ReplayScreen
from frame.screens.lesson.results import ResultsScreen
from frame.screens.lesson.screen import LessonScreen
from frame.screens.parts.outcome import Left
from frame.sheets.runs import published_runs
from frame.technique.conventions import USUAL, Strictness
from frame.technique.expression import Sum, parse_calculation

LARGEST = 10**10
LATE = FlashReport(
    Schedule.of(FlashSetting(1, 2, 1.0)), (ItemTime(0.0, 0.0), ItemTime(1.0, 1.5)), "plain"
)


@pytest.fixture(params=[Age.YOUNG, Age.OLDER])
def room_for(request, room):
    """A room for the youngest, who see least, and for the oldest, who see all."""
    room.settings = Settings(age=request.param, all_open=True)
    yield room
    room.choices = None


@pytest.fixture
def with_voice(room):
    """A loudspeaker, so that every sentence has its button."""
    pygame.mixer.init(RATE, -16, 1, 256, allowedchanges=0)
    silence, room.sounds = room.sounds, Heard()
    yield
    room.sounds = silence
    pygame.mixer.quit()


def exercise(digits, count, rung=Rung.NUMBER, seed=1, **more):
    column = draw_column(digits, count, Random(seed), minus=True)
    return Exercise(Kind.SUM, Sum(column), rung, rods_needed(digits, count), **more)


def worked(exercise, touches=0, answer=None):
    """The exercise worked by so many right strokes, and answered."""
    work = Work.begin(exercise, USUAL, Strictness.BEADS)
    strokes = list(work.plan.strokes)
    for stroke in strokes[:touches]:
        work.touch(stroke)
    work.say_done()
    work.answer(exercise.sum.result if answer is None else Decimal(answer))
    return work


def lesson_screen(room, exercise):
    step = Ask(exercise, None, None, Mark(1, 1))
    title = room.words.text("practise.called")
    lesson = Lesson("practise-called", title, None, exercise.rods, (), (step,))
    runner = Runner(lesson, frozenset(), 1)
    return LessonScreen(room, Keeping(room, runner, None, origin=Origin.SET))


# What is practised


TABS = [
    {"family": Family.ADD_TEN_FIVE, "rows": MOST_ROWS, "digits": MOST_DIGITS},
    {"family": Family.READ},
    {"asked": Asked.CALLED, "digits": MOST_CALLED_DIGITS, "rows": MOST_ROWS, "pace": 0.35,
     "sight": Sight.OWN},
    {"asked": Asked.FLASHED, "setting": LEVELS[-1].setting},
    {"family": Family.ADD_FIVE, "own": True},
    {"family": Family.SUB_TEN_FIVE, "own": True, "rows": MOST_ROWS, "digits": MOST_DIGITS},
    {"asked": Asked.CALLED, "sight": Sight.OWN},
    {"asked": Asked.FLASHED, "own": True},
    {"asked": Asked.FLASHED, "setting": FlashSetting(6, 30, 2 / 15)},
]  # fmt: skip


@pytest.mark.parametrize("quick", [False, True])
@pytest.mark.parametrize("chosen", TABS, ids=str)
def test_every_tab_of_practice(room_for, chosen, quick):
    room_for.settings = Settings(age=room_for.settings.age, all_open=True, quick_flash=quick)
    asked = chosen.get("asked", Asked.SHOWN)
    what = {name: value for name, value in chosen.items() if name != "asked"}
    room_for.choices = Choices(asked).choose(**what)
    if quick or asked is not Asked.FLASHED:
        sizes = [*(SIZES if quick else SHAPES), UPRIGHT]
        left = laid_out(AllChoices(room_for))
        left.resumed(Left(9, 10))
        assert_well_laid_out([("practise", AllChoices(room_for)), ("left", left)], sizes)


@pytest.mark.parametrize("count", some_daily([0, 1, 4, 12, 30], [0, 4, 30]))
@pytest.mark.parametrize("chosen", TABS[::2], ids=str)
def test_what_stands_ready_and_the_kept_sets(room_for, chosen, count):
    asked = chosen.get("asked", Asked.SHOWN)
    what = {name: value for name, value in chosen.items() if name != "asked"}
    room_for.choices = choices = Choices(asked).choose(**what)
    names = ("Quay", "", "Fish for the market", "a")
    room_for.kept_sets = tuple(
        KeptSet(str(at), names[at % len(names)], set_to(choices)) for at in range(count)
    )
    left, unknown = (laid_out(PractiseScreen(room_for)) for _ in range(2))
    left.resumed(Left(9, 10))
    unknown.begin_kept(KeptSet("0", "", {}))
    screens = [("ready", PractiseScreen(room_for)), ("left", left), ("unknown", unknown)]
    assert_well_laid_out(screens, [*SHAPES, UPRIGHT])
    room_for.kept_sets = None


@pytest.mark.parametrize("count", [1, 4, 8, MOST_SETS])
def test_what_a_set_without_a_name_is_called_is_never_cut(room_for, count):
    for first in range(0, len(Family), count):
        some = (list(Family) * 2)[first : first + count]
        asked = [set_to(Choices().choose(family=family)) for family in some]
        room_for.kept_sets = tuple(KeptSet(str(at), "", one) for at, one in enumerate(asked))
        for size in (*SHAPES, UPRIGHT, (480, 800)):
            seen = look_at(PractiseScreen(room_for), size)
            lines = [line for one in seen.written for line, _ in one.lines]
            assert not any("…" in line for line in lines), (size, lines)
    room_for.kept_sets = None


@pytest.mark.parametrize("name", ["", "Quay", "W" * 24, "国" * 24])
@pytest.mark.parametrize("chosen", [TABS[0], TABS[-1]], ids=str)
def test_a_kept_set_that_is_changed(room_for, chosen, name):
    what = {name: value for name, value in chosen.items() if name != "asked"}
    choices = Choices(chosen.get("asked", Asked.SHOWN)).choose(**what)
    one = KeptSet("1", name, set_to(choices))
    room_for.kept_sets = (one,) * 12
    asking = laid_out(OneSet(room_for, one))
    asking.ask(True)
    screens = [
        ("which", KeptSets(room_for)), ("one", OneSet(room_for, one)), ("asking", asking),
        ("unknown", OneSet(room_for, KeptSet("1", name, {}))),
        ("name", AnotherName(room_for, one)), ("new", NewSet(room_for, choices)),
    ]  # fmt: skip
    assert_well_laid_out(screens, [*SHAPES, UPRIGHT])
    room_for.kept_sets = None


def test_the_note_that_no_more_sets_fit(room_for):
    room_for.kept_sets = (KeptSet("1", "Quay", {}),) * MOST_SETS
    screen = laid_out(AllChoices(room_for))
    press = next(one for one in screen.buttons if one.text == room_for.words.text("practise.keep"))
    press.act()
    assert screen.note
    assert_well_laid_out([("full", screen)], [*SIZES, UPRIGHT])
    room_for.kept_sets = None


def test_every_family_and_rung_of_practice(room):
    room.settings = Settings(all_open=True)
    for family, rung in [(family, None) for family in Family] + [
        (Family.SUB_TEN_FIVE, rung) for rung in Rung
    ]:
        room.choices = Choices().choose(family=family, rung=rung)
        assert_well_laid_out([(f"{family} {rung}", AllChoices(room))], [*SHAPES, UPRIGHT])
    room.choices = None


def test_the_note_that_nothing_can_be_made(room):
    room.settings = Settings(all_open=True)
    room.choices = Choices()
    screen = laid_out(AllChoices(room))
    screen.note = room.words.text("practise.none")
    assert_well_laid_out([("none", screen)])
    room.choices = None


@pytest.mark.parametrize("quick", [False, True])
def test_every_published_run(room_for, quick):
    room_for.settings = Settings(age=room_for.settings.age, quick_flash=quick)
    for run in published_runs().values():
        screens = [laid_out(Published(room_for, run.asked)) for _ in range(2)]
        for screen in screens:
            screen.open(run)
        screens[1].resumed(Left(9, 10))
        assert_well_laid_out([(run.id, one) for one in screens], [*SHAPES, UPRIGHT])


# How a set went


@pytest.mark.parametrize(
    "rows, digits, count", [(1, 1, 3), (5, 3, 15), (5, 6, 30), (6, 1, 3), (9, 3, 15)]
)
def test_results(room, rows, digits, count):
    asked = Asked.FLASHED
    works = [
        worked(exercise(digits, count, seed=seed, asked=asked, pace=1.0), answer=answer)
        for seed, answer in zip(range(rows), [None, LARGEST, None, 7, 0] * 2, strict=False)
    ]
    works[-1].report = LATE
    assert not works[-1].counts
    note = Line("Published: 8 of 10 are enough. One could not count.", "")
    screens = [ResultsScreen(room, works), laid_out(ResultsScreen(room, works, note))]
    screens[1].turn(1)
    assert_well_laid_out([(f"{rows} rows", one) for one in screens], [*SHAPES, UPRIGHT])


def test_results_of_the_longest_called_numbers(room):
    called = {"digits": MOST_CALLED_DIGITS, "count": MOST_ROWS, "asked": Asked.CALLED}
    answers = (None, 10**MOST_CALLED_DIGITS, 0, None, 7)
    works = [
        worked(exercise(seed=seed, pace=1.0, **called), answer=answer)
        for seed, answer in enumerate(answers)
    ]
    assert_well_laid_out([("called", ResultsScreen(room, works))], [*SHAPES, UPRIGHT])


# Hand and way


@pytest.mark.parametrize("touched", ["nothing", "half", "all"])
@pytest.mark.parametrize("rods", [1, 3, 7, 16])
def test_replays(room_for, rods, touched):
    some = Exercise(Kind.SUM, column_for(rods), Rung.COVERED, rods)
    strokes = {"nothing": 0, "half": 3, "all": 999}[touched]
    work = worked(some, strokes, answer=10 ** (rods - 1) + 1)
    line = room_for.words.line("outcome.wrong_plan")

    def at(step):
        screen = laid_out(ReplayScreen(room_for, work, replay_of(work), line))
        for _ in range(step):
            screen.step_on()
            screen.advance(room_for.seconds())
        return screen

    shapes = SIZES if room_for.settings.age is Age.YOUNG else SHAPES
    assert_well_laid_out([(f"{rods} rods, step {step}", at(step)) for step in (0, 4)], shapes)


@pytest.mark.parametrize("touched", [0, 3])
@pytest.mark.parametrize("text, rods", [("37 x 24", 13), ("3876 / 68", 15), ("12 - 30 + 5", 5)])
def test_replays_with_written_work(room_for, text, rods, touched):
    some = Exercise(Kind.SUM, parse_calculation(text), Rung.COVERED, rods)
    work = worked(some, touched, answer=1)
    screen = laid_out(ReplayScreen(room_for, work, replay_of(work)))
    for step in range(screen.replay.last + 1):
        assert_well_laid_out([(f"{text}, step {step}", screen)], SHAPES)
        screen.step_on()
        screen.advance(room_for.seconds() + 1)


def column_for(rods):
    """A long column whose sums fill so many rods."""
    if rods == 1:
        return Sum(tuple(map(Decimal, (2, 3, 4, -1, -5, 3, 1))))
    return Sum(draw_column(rods - 1, min(6, rods + 1), Random(rods), minus=True))


# On paper


@pytest.mark.parametrize("count, digits", [(2, 1), (2, 3), (15, 3), (15, MOST_DIGITS)])
def test_a_column_on_paper(room_for, count, digits):
    screen = lesson_screen(room_for, exercise(digits, count, Rung.ALONE, own=True))
    typed = laid_out(lesson_screen(room_for, exercise(digits, count, Rung.ALONE, own=True)))
    for _ in range(20):
        typed.type_sign("8")
    assert not screen.guide.sight.has_field
    assert_well_laid_out([("paper", screen), ("typed", typed)], SHAPES)


# Called and flashed


@pytest.mark.usefixtures("with_voice")
@pytest.mark.parametrize("sight", [Sight.SEEN, Sight.OWN])
@pytest.mark.parametrize("count, digits", [(2, 1), (15, MOST_CALLED_DIGITS)])
@pytest.mark.parametrize("age", [Age.YOUNG, Age.OLDER])
def test_a_called_set_before_while_held_and_at_the_answer(room, age, count, digits, sight):
    room.settings = Settings(age=age)
    own = sight is Sight.OWN
    some = exercise(digits, count, sight.rung, own=own, asked=Asked.CALLED, pace=0.7)
    screen = laid_out(lesson_screen(room, some))
    assert screen.guide.sight.has_field is not own
    assert_well_laid_out([("before", screen)], SHAPES)
    screen.calling.start(room.seconds())
    screen.rearrange()
    assert_well_laid_out([("called", screen)], SHAPES)
    screen.hold()
    assert_well_laid_out([("held", screen)], SHAPES)
    screen.runner.go_on()
    screen.sync(room.seconds())
    for _ in range(20):
        screen.type_sign("8")
    assert screen.runner.stage is Stage.ANSWER
    assert_well_laid_out([("answer", screen)], SHAPES)


@pytest.mark.parametrize("digits", [1, MOST_CALLED_DIGITS])
def test_a_call_that_is_shown(room, digits, shared_pilot):
    some = exercise(digits, 15, Rung.ALONE, asked=Asked.CALLED, pace=0.7)
    screen = laid_out(lesson_screen(room, some))
    screen.calling.start(room.seconds())
    screen.rearrange()
    last = screen.calling.length
    shared_pilot.clock += last * 0.9
    screen.sync(room.seconds())
    assert screen.runner.stage is Stage.PRESENT
    assert_well_laid_out([("shown", screen)])


def test_flashed_numbers_before_and_after_and_an_answer_on_the_frame(room_for):
    def flashed(after):
        screen = laid_out(lesson_screen(room_for, exercise(6, 30, asked=Asked.FLASHED, pace=1.0)))
        if after:
            screen.runner.go_on()
            screen.said = room_for.words.line(
                "flash.late", late=30, count=30, limit=Decimal("6.67")
            )
            screen.sync(room_for.seconds())
            screen.use_frame()
        return screen

    assert_well_laid_out([("before", flashed(False)), ("after", flashed(True))], SHAPES)


@pytest.mark.usefixtures("with_voice")
def test_number_only_with_the_answer_set_on_the_frame(room_for):
    def answering(rods, on_frame):
        some = Exercise(Kind.SUM, column_for(rods), Rung.NUMBER, rods)
        screen = laid_out(lesson_screen(room_for, some))
        if on_frame:
            screen.use_frame()
        return screen

    screens = [(f"{rods} {on}", answering(rods, on)) for rods in (1, 3, 7) for on in (0, 1)]
    assert_well_laid_out(screens, SHAPES)


# Where to begin


@pytest.mark.parametrize("size", [*SHAPES, UPRIGHT, (480, 800)], ids=str)
def test_what_is_said_before_the_first_task_is_whole_beside_its_loudspeaker(
    room_for, with_voice, size
):
    assert_well_laid_out([("welcome", begin_placement(room_for))], [size])

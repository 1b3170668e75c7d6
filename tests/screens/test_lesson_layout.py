"""The lesson screen at every stage and rung in windows small and large: see sight.flaws."""

from functools import cache

import pytest
from robot import steps_at
from shipped import lesson_of, the_course
from sight import SHAPES, SIZES, assert_well_laid_out, ink_outside, laid_out, look_at

from frame.course.attempts import Position
from frame.course.lesson import Ask, Practise
from frame.course.runner import Runner, Stage
from frame.learner.settings import Age, Look, Settings
from frame.learner.store import LessonState
from frame.practice.exercises import Kind
from frame.practice.rungs import Rung
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.screen import LessonScreen
from frame.technique.beads import BeadMove
from frame.technique.judge import Strictness


@cache
def steps_of_the_course():
    """(lesson id, rods, number of the step, step) of every step."""
    lessons = [lesson_of(entry.id) for entry in the_course().lessons]
    return [(one.id, one.rods, at, step) for one in lessons for at, step in enumerate(one.steps)]


def begin(room, lesson_id, step, seed=7):
    """The lesson as it is when it is opened at a step."""
    room.lessons[lesson_id] = LessonState(seed, Position(step), False)
    return LessonScreen(room, Keeping.begin(room, lesson_id))


@pytest.mark.proof
def test_every_step_of_the_course(room):
    screens = [(f"{one} {at}", begin(room, one, at)) for one, _, at, _ in steps_of_the_course()]
    assert_well_laid_out(screens)


def hardest_steps():
    """Of every kind of step at every rung the one with the longest sentence and the longest sum,
    as lesson id, number of the step, step."""
    kinds = {}
    for one in steps_of_the_course():
        kinds.setdefault(kind_of(*one), []).append(one)
    hardest = {
        max(alike, key=length)[:3:2]: max(alike, key=length)[3]
        for alike in kinds.values()
        for length in (sentence_length, expression_length)
    }
    return [(lesson, number, step) for (lesson, number), step in hardest.items()]


def kind_of(_lesson, rods, _number, step):
    exercise = getattr(step, "exercise", None) or getattr(step, "request", None)
    return type(step), exercise and (exercise.kind, exercise.rung), rods > 2


def sentence_length(one):
    return len(one[3].line.show) if one[3].line else 0


def expression_length(one):
    step = one[3]
    if isinstance(step, Ask):
        return len(str(step.exercise))
    return step.request.terms * step.request.digits if isinstance(step, Practise) else 0


@pytest.mark.parametrize(
    "settings",
    [
        Settings(age=Age.YOUNG),
        Settings(age=Age.OLDER, left_handed=True),
        Settings(strictness=Strictness.ANSWER, place_names=False, look=Look.DARK),
    ],
    ids=["young", "older, left-handed", "answer alone counts"],
)
def test_lessons_at_every_rung_with_the_longest_sentence_and_sum(room, settings):
    room.settings = settings
    screens = [(f"{one} {number}", begin(room, one, number)) for one, number, _ in hardest_steps()]
    assert_well_laid_out(screens, SHAPES)


@pytest.mark.parametrize("age", [Age.YOUNG, Age.OLDER])
def test_the_way_on_behind_the_longest_sentences(room, age):
    room.settings = Settings(age=age)
    screens = []
    for lesson, number, _ in hardest_steps():
        screen = begin(room, lesson, number)
        if laid_out(screen).guide.seek_on(room.seconds()):
            screen.sync(room.seconds())
            screens.append((f"{lesson} {number}", screen))
    assert screens
    assert_well_laid_out(screens, SHAPES)


@cache
def longest_drawn():
    """Lesson id, number of the step and seed of the longest column that a set begins with."""
    drawn = {
        (lesson, number, seed): Runner(
            lesson_of(lesson), frozenset(), seed, position=Position(number)
        )
        for lesson, _, number, step in steps_of_the_course()
        if isinstance(step, Practise) and step.request.terms * step.request.digits >= 5
        for seed in range(3)
    }
    return max(drawn, key=lambda one: len(str(drawn[one].work.exercise)))


@pytest.mark.parametrize("age", Age)
def test_the_longest_column_drawn(room, age):
    room.settings = Settings(age=age)
    longest = begin(room, *longest_drawn())
    assert_well_laid_out([(str(longest.runner.work.exercise), longest)])


def helped(screen):
    """The screen after asking for all the help there is."""
    for _ in range(3):
        laid_out(screen).show_me()
    return screen


def test_help_with_the_rules_of_the_longest_sums(room):
    """The card shows up to four moves; a carry that runs on has the most."""
    screens = [
        (f"help {lesson} {number}", helped(begin(room, lesson, number)))
        for lesson, _, number, step in steps_of_the_course()
        if isinstance(step, Ask) and len(str(step.exercise)) >= 9
    ]
    assert screens
    assert_well_laid_out(screens, SHAPES)


@pytest.mark.parametrize("age", Age)
def test_help_where_done_is_said_by_a_button(room, age):
    room.settings = Settings(age=age, strictness=Strictness.ANSWER)
    screens = (
        (f"help {lesson} {number}", helped(begin(room, lesson, number)))
        for lesson, _, number, step in steps_of_the_course()
        if lesson in ("columns-2", "columns-3") and isinstance(step, Ask)
    )
    assert_well_laid_out(screens, SHAPES)


@pytest.mark.parametrize("age", Age)
def test_a_wrong_move_and_its_sentence(room, age):
    room.settings = Settings(age=age)

    def after_wrong_moves(lesson, number):
        screen = laid_out(begin(room, lesson, number))
        for change in (-4, -1, 4, 3, 5):
            screen.touch((BeadMove(0, change),))
            if screen.guide.said:
                break
        return screen

    screens = [
        (f"{lesson} {number}", after_wrong_moves(lesson, number))
        for lesson, number, step in hardest_steps()
        if isinstance(step, Ask) and not step.exercise.rung.is_unseen
    ]
    assert_well_laid_out(screens, SHAPES)


@pytest.mark.parametrize("age", Age)
def test_the_keypad_with_and_without_a_number(room, age):
    room.settings = Settings(age=age)

    def typing(digits):
        screen = laid_out(begin(room, "tens-3", first("tens-3", Kind.READ)))
        assert screen.runner.stage is Stage.ANSWER
        for digit in digits:
            screen.type_sign(digit)
        return screen

    assert_well_laid_out((digits, typing(digits)) for digits in ("", "0", "8888"))


def first(lesson_id, kind):
    """The number of the lesson's first step that asks for this."""
    return next(
        number
        for lesson, _, number, step in steps_of_the_course()
        if lesson == lesson_id and isinstance(step, Ask) and step.exercise.kind is kind
    )


@pytest.mark.parametrize("passed", [True, False])
@pytest.mark.parametrize("age", Age)
def test_the_end(room, age, passed):
    room.settings = Settings(age=age)

    def ended(lesson_id):
        steps = sum(lesson == lesson_id for lesson, *_ in steps_of_the_course())
        screen = begin(room, lesson_id, steps)
        assert screen.runner.stage is Stage.END
        screen.runner.mastered = passed
        return screen

    ends = [(entry.id, ended(entry.id)) for entry in room.course.lessons[::9]]
    assert_well_laid_out(ends, SIZES if passed and age is Age.YOUNG else SHAPES)


def test_an_exercise_done(room):
    screen = laid_out(begin(room, "beads-1", first("beads-1", Kind.SET)))
    while screen.runner.stage is Stage.WORK:
        screen.touch((min(screen.runner.work.next_stroke),))
    assert screen.runner.stage is Stage.DONE
    assert_well_laid_out([("done", screen)])


@pytest.mark.parametrize("age", Age)
def test_beads_that_the_tool_moves(room, age):
    room.settings = Settings(age=age)
    watched = [begin(room, *step) for step in steps_at(room.course, Rung.WATCH)]
    assert {one.runner.stage for one in watched} == {Stage.DEMO}
    assert_well_laid_out([(str(one.runner.work.exercise), one) for one in watched[::6]], SHAPES)


@pytest.mark.parametrize("age", Age)
def test_the_answer_of_a_covered_frame_and_what_is_said_of_it(room, age):
    room.settings = Settings(age=age)

    def asked(lesson, number):
        screen = laid_out(begin(room, lesson, number))
        screen.say_done()
        screen.say_done()
        return screen

    def answered(lesson, number, hand):
        screen = laid_out(begin(room, lesson, number))
        strokes = screen.runner.work.plan.strokes
        for stroke in strokes[:hand]:
            screen.touch(stroke)
        screen.say_done()
        screen.say_done()
        for digit in "9":
            screen.type_sign(digit)
        screen.give_answer()
        return screen

    covered = list(steps_at(room.course, Rung.COVERED))[::5]
    waiting = [asked(*step) for step in covered]
    told = [answered(*step, hand) for step in covered[::2] for hand in (0, 1, None)]
    assert {one.runner.stage for one in waiting} == {Stage.ANSWER}
    assert Stage.REVEAL in {one.runner.stage for one in told}
    every = [(str(one.runner.work.exercise), one) for one in (*waiting, *told)]
    assert_well_laid_out(every, SHAPES)


def test_letters_stay_in_the_box_of_their_text(room):
    """Measured in the picture itself, not by what the lettering says of itself."""
    written = {
        (one.text, one.box.size, one.how): one
        for lesson, number, _ in hardest_steps()
        for one in look_at(begin(room, lesson, number), SIZES[0]).written
    }
    outside = [
        f"{one.text!r} in {one.box}: {pixels} pixels"
        for one in written.values()
        if (pixels := ink_outside(room.lettering, one)) > 1
    ]
    assert not outside, "\n".join(outside)

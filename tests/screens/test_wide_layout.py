"""Frames across the window with the written work above them: nothing overlaps, is cut or leaves
the window, and every digit stands over its rod."""

import pygame
import pytest
from robot import begin, do_right, lesson_with, number_asked
from sight import SHAPES, flaws, laid_out, look_at

from frame.course.lesson import Line
from frame.course.runner import Stage
from frame.language.numbers import grouped
from frame.language.written import line_label
from frame.learner.settings import Age, Settings
from frame.practice.exercises import Exercise, Kind
from frame.practice.rungs import Asked, Rung
from frame.practice.written import unused_line, written_lines
from frame.technique.conventions import Operands, Strictness
from frame.technique.expression import parse_calculation

LONGEST = Line("Thirty-six lamps hang in each of the forty-eight rows of the market hall.", "")

PRODUCTS = [("37 x 24", 13), ("99.9 x 9.9", 13), ("-999 x 99", 13), ("3456 x 789", 17),
            ("654321 x 6789", 23)]  # fmt: skip
QUOTIENTS = [("3588 / 46", 13), ("98999 / 99", 13), ("-86.4 / 3.2", 13), ("98765 / 432", 17),
             ("9876543 / 321", 23)]  # fmt: skip
ROOTS = [("sqrt 1764", 13), ("sqrt 998001", 13), ("sqrt 9876543", 17), ("sqrt 9876543210", 23)]
BELOW = [("38 - 50 - 7", 5), ("125 - 300 + 50", 5), ("1 - 999 - 999 - 999", 5), ("0.3 - 9.5", 5),
         ("3 - 5 + 9", 13)]  # fmt: skip
EVERY = [*PRODUCTS, *QUOTIENTS, *ROOTS, *BELOW]


def lesson(room, text, rods, rung=Rung.ALONE, step=1, line=LONGEST):
    exercise = Exercise(Kind.SUM, parse_calculation(text), rung, rods)
    return laid_out(lesson_with(room, exercise, step, line))


def played(screen):
    """The screen after each stroke that the tool makes, at last with the learner's turn."""
    yield screen
    while screen.runner.stage is Stage.DEMO:
        screen.runner.play()
        screen.show(screen.room.seconds())
        yield screen


def worked(screen):
    """The screen before each stroke of the learner, and at last when all are made."""
    for _ in played(screen):
        pass
    while screen.runner.stage is Stage.WORK:
        yield screen
        work = screen.runner.work
        if work.next_stroke:
            screen.touch(work.next_stroke)
        else:
            screen.say_done()
    yield screen


def answered(screen):
    """The screen before a number is typed, with the longest one, when that is not right, and with
    the right one given."""
    if screen.runner.stage is not Stage.ANSWER:
        return
    yield screen
    for sign in f"-{'8' * 30}":
        screen.type_sign(sign)
    yield screen
    screen.give_answer()
    yield screen
    while screen.runner.stage is Stage.ANSWER:
        for sign in str(number_asked(screen.runner.work)):
            screen.type_sign(sign)
        screen.give_answer()
        yield screen


def helped(screen):
    """The screen after each time that help is asked for."""
    for _ in range(3 * (screen.runner.stage is Stage.WORK)):
        screen.show_me()
        yield screen


def stages(room, text, rods, rung, every=1):
    """(name, screen) of every stage of a lesson, of its strokes every so many. A screen goes on to
    the next stage when that is asked for."""
    yield "tell", lesson(room, text, rods, rung, 0)
    yield "end", lesson(room, text, rods, rung, 2)
    for at, screen in enumerate(played(lesson(room, text, rods, rung))):
        if at % every == 0:
            yield f"demo {at}", screen
    for at, screen in enumerate(worked(lesson(room, text, rods, rung))):
        if at % every == 0 or screen.runner.stage is not Stage.WORK:
            yield f"{screen.runner.stage} {at}", screen
            yield from ((f"help at {at}", one) for one in helped(screen))
    yield from ((f"{one.runner.stage}, answering", one) for one in answered(screen))


def assert_each_well_laid_out(screens):
    """As `assert_well_laid_out`, for screens that are worked on while they are looked at."""
    found, seen = [], set()
    for name, screen in screens:
        seen.add(screen.runner.stage)
        sights = [(size, look_at(screen, size)) for size in SHAPES]
        found += [f"{name} at {size}: {flaw}" for size, one in sights for flaw in flaws(one)]
    assert not found, "\n".join(found)
    return seen


# Everything has its place


LEARNERS = [
    Settings(age=Age.YOUNG),
    Settings(age=Age.MIDDLE, place_names=False, strictness=Strictness.ANSWER),
    Settings(age=Age.OLDER, left_handed=True),
]
LED, OWN, READ = {Stage.DEMO, Stage.WORK}, {Stage.WORK}, {Stage.WORK, Stage.ANSWER}
STAGES = [
    # work, rods, rung, which stages it has beside the first and the last, whose it is, and after
    # how many strokes each it is looked at
    ("3456 x 789", 17, Rung.WATCH, LED, 0, 41),
    ("654321 x 6789", 23, Rung.FOLLOW, OWN, 1, 61),
    ("3588 / 46", 13, Rung.ALONE, OWN, 2, 13),
    ("9876543 / 321", 23, Rung.COVERED, READ, 0, 41),
    ("-86.4 / 3.2", 13, Rung.ALONE, READ, 1, 13),
    ("sqrt 998001", 13, Rung.FOLLOW, OWN, 0, 15),
    ("1 - 999 - 999 - 999", 5, Rung.ALONE, READ, 2, 7),
]


@pytest.mark.parametrize(("text", "rods", "rung", "stages_there", "learner", "every"), STAGES)
def test_every_stage(room, text, rods, rung, stages_there, learner, every):
    room.settings = LEARNERS[learner]
    seen = assert_each_well_laid_out(stages(room, text, rods, rung, every))
    over = Stage.REVEAL if rung is Rung.COVERED else Stage.DONE
    assert seen == {Stage.TELL, *stages_there, over, Stage.END}


@pytest.mark.proof
@pytest.mark.parametrize("rung", [Rung.WATCH, Rung.ALONE, Rung.COVERED])
@pytest.mark.parametrize(("text", "rods"), EVERY)
def test_every_stage_of_every_kind_of_work_for_every_learner(room, text, rods, rung):
    for settings in LEARNERS:
        room.settings = settings
        assert_each_well_laid_out(stages(room, text, rods, rung, 5))


@pytest.mark.proof
@pytest.mark.parametrize("layout", [Operands.ONE, Operands.NONE])
@pytest.mark.parametrize(("text", "rods"), PRODUCTS)
def test_every_stage_of_products_in_other_layouts(room, text, rods, layout):
    room.settings = Settings(layout=layout)
    for rung in (Rung.FOLLOW, Rung.ALONE):
        assert_each_well_laid_out(stages(room, text, rods, rung, 3))


@pytest.mark.parametrize("rods", [17, 23])
def test_the_longest_number_that_can_be_typed_stays_on_its_card(room, rods):
    screen = lesson(room, "38 - 50", rods, Rung.NUMBER)
    for sign in f"-{'8' * rods}":
        screen.type_sign(sign)
    assert_each_well_laid_out([(f"{rods} digits", screen)])
    for size in SHAPES:
        written = [line for one in look_at(screen, size).written for line, _ in one.lines]
        assert grouped(screen.guide.answer.typed) in written


# Digits over their rods


def middle_of(screen, rod):
    layout = screen.field.layout
    return layout.rod_box(layout.units - rod).centre[0]


def rod_under(screen, place):
    """The rod whose middle is within half a rod's width of the middle of a place."""
    layout = screen.field.layout
    index = int((place.centerx - layout.x) // layout.spacing)
    assert abs(middle_of(screen, layout.units - index) - place.centerx) <= layout.spacing / 2
    return layout.units - index


def written_rows(screen, size):
    """The digits written above the frame, by their rods, with their colours: a row of them for
    each line that is seen, the lowest one first."""
    sight, rows = look_at(screen, size), {}
    places = screen.scene.places
    for one in sight.written:
        if len(one.text) == 1 and places.written.contains(one.box):
            ((_, place),) = one.lines
            assert place.bottom <= sight.frame.top
            rows.setdefault(one.box.top, {})[rod_under(screen, place)] = one.text, one.colour
    return [rows[top] for top in sorted(rows, reverse=True)]


def expected_rows(screen):
    """What should be written there, from the lines of the work."""
    work, theme = screen.runner.work, screen.room.theme
    unused = unused_line(work)
    lines = [*written_lines(work), *([unused] if unused else [])]
    rows = [dict(zip(line.rods, line.digits, strict=True)) for line in reversed(lines)]
    if lines and not lines[-1].is_done:
        last = lines[-1].operation
        factors = zip(last.of, last.factors, strict=False)
        rows[0] = {rod: str(one) for rod, one in factors} | rows[0]
    colours = [theme.work, *[theme.soft_ink] * len(lines)]
    return [
        {rod: (digit, colour) for rod, digit in row.items()}
        for row, colour in zip(rows, colours, strict=False)
    ]


OVER_RODS = [
    ("37 x 24", 13, Rung.FOLLOW), ("654321 x 6789", 23, Rung.FOLLOW), ("9.9 x 9.9", 13, Rung.ALONE),
    ("3588 / 46", 13, Rung.FOLLOW), ("3588 / 46", 13, Rung.ALONE), ("sqrt 1764", 13, Rung.FOLLOW),
    ("0.3 - 9.5", 5, Rung.FOLLOW),
]  # fmt: skip


@pytest.mark.parametrize("size", SHAPES)
@pytest.mark.parametrize(("text", "rods", "rung"), OVER_RODS)
def test_digits_stand_over_the_rods_they_touch_above_the_frame(room, text, rods, rung, size):
    most = 0
    for at, screen in enumerate(worked(lesson(room, text, rods, rung))):
        if at % 9 not in (1, 6) and screen.runner.stage is Stage.WORK:
            continue
        rows, expected = written_rows(screen, size), expected_rows(screen)
        assert rows == expected[: len(rows)], at
        assert len(rows) == len(expected) or len(rows) >= LEAST_LINES
        most = max(most, len(rows))
    assert most >= 1


LEAST_LINES = 4
"""So many lines are always seen, even in a small window."""


@pytest.mark.parametrize("size", SHAPES)
def test_a_bracket_holds_the_rods_of_the_line_and_pointers_those_of_its_factors(room, size):
    room.settings = Settings(place_names=False)
    screen = lesson(room, "37 x 24", 13, Rung.FOLLOW)
    look_at(screen, size)
    surface = pygame.Surface(size)
    screen.paint(surface)
    y = screen.scene.places.written.bottom - 2
    theme, layout = room.theme, screen.field.layout
    marked = [x for x in range(size[0]) if surface.get_at((x, y))[:3] == theme.work]
    rods = {layout.units - int((x - layout.x) // layout.spacing) for x in marked}
    (line,) = written_lines(screen.runner.work)
    assert list(line.rods) == [2, 1] and line.operation.of == (3, 9)
    assert rods == {2, 1, 3, 9}
    assert min(marked) < middle_of(screen, 9) + layout.spacing / 4
    legs = [x for x in marked if x > middle_of(screen, 2) - layout.spacing / 2]
    assert min(legs) < middle_of(screen, 2) - layout.spacing / 4
    assert max(legs) > middle_of(screen, 1) + layout.spacing / 4


def test_nothing_is_written_above_a_frame_that_is_not_seen(room):
    for rung in (Rung.COVERED, Rung.NUMBER):
        for screen in worked(lesson(room, "37 x 24", 13, rung)):
            if screen.runner.stage in (Stage.WORK, Stage.ANSWER):
                assert written_rows(screen, SHAPES[0]) == []


# What a line comes from


def label_beside(screen, size):
    """What is written beside the lowest line, and its place."""
    sight = look_at(screen, size)
    (lowest,) = {one.box.bottom for one in sight.written
                 if one.colour == screen.room.theme.work and len(one.text) == 1}  # fmt: skip
    (label,) = [one for one in sight.written
                if one.box.bottom == lowest and len(one.text) > 1]  # fmt: skip
    return label


@pytest.mark.parametrize("size", SHAPES)
@pytest.mark.parametrize(("text", "rods"), [PRODUCTS[-1], QUOTIENTS[0], ROOTS[1]])
def test_the_whole_of_what_a_line_comes_from_stands_beside_it(room, text, rods, size):
    labels = set()
    for at, screen in enumerate(worked(lesson(room, text, rods, Rung.FOLLOW))):
        lines = written_lines(screen.runner.work)
        if at % 4 == 0 and lines:
            label = label_beside(screen, size)
            assert label.text == line_label(lines[-1].operation, room.words)
            assert " ".join(line for line, _ in label.lines) == label.text
            labels.add(label.text)
    assert len(labels) > 2


LAST_RODS = [
    # lines that end on the last rod, where there is no room to the right
    ("39421 / 8", 10, Rung.FOLLOW), ("4246449 / 0.9", 13, Rung.FOLLOW),
    ("70878.2 / 0.4", 13, Rung.FOLLOW), ("9 - 93827.4", 10, Rung.FOLLOW),
    ("0.5 - 3522269", 10, Rung.FOLLOW), ("38 - 999999", 13, Rung.FOLLOW),
]  # fmt: skip


@pytest.mark.parametrize(("text", "rods", "rung"), LAST_RODS)
def test_it_goes_where_there_is_room_beside_a_line_on_the_last_rod(room, text, rods, rung):
    touched = []

    def strokes():
        for screen in worked(lesson(room, text, rods, rung)):
            work = screen.runner.work
            lines = [*written_lines(work), *filter(None, [unused_line(work)])]
            is_last = bool(lines) and work.frame.lowest in lines[-1].rods
            if is_last:
                touched.append(lines[-1])
                yield text, screen

    assert_each_well_laid_out(strokes())
    assert touched


def test_how_to_read_a_frame_below_zero_is_told_beside_it(room):
    unused = room.words.text("written.unused")
    for size in SHAPES:
        for text, rods in BELOW[:4]:
            *_, screen = worked(lesson(room, text, rods, Rung.FOLLOW))
            if screen.runner.work.exercise.sum.result < 0:
                assert label_beside(screen, size).text == unused


# Which lessons are laid out so


WIDE = [
    ("38 + 47", 5, {}, False), ("38 + 47", 9, {}, False), ("38 + 47", 10, {}, True),
    ("1.5 + 2", 5, {}, False), ("38 - 50", 5, {}, True), ("3 - 4 + 2", 5, {}, True),
    ("3 x 4", 9, {}, True), ("43 / 6", 9, {}, True), ("sqrt 49", 9, {}, True),
    ("3 x 4", 13, {"own": True}, False), ("38 - 50", 5, {"asked": Asked.CALLED}, False),
    ("12345", 13, {"kind": Kind.READ}, True), ("1234", 5, {"kind": Kind.SET}, False),
]  # fmt: skip


@pytest.mark.parametrize(("text", "rods", "more", "is_wide"), WIDE)
def test_work_that_is_written_and_many_rods_take_the_width_of_the_window(
    room, text, rods, more, is_wide
):
    exercise = Exercise(**{"kind": Kind.SUM, "sum": parse_calculation(text), "rods": rods, **more})
    screen = laid_out(lesson_with(room, exercise))
    assert screen.is_wide is is_wide
    places = screen.scene.places
    assert bool(places.written.h) is is_wide
    if is_wide:
        assert places.written.bottom <= places.frame.top < places.frame.bottom
        assert places.frame.bottom <= places.buttons.top
    else:
        assert places.frame.right <= places.side.left and places.buttons == places.side


@pytest.mark.parametrize("size", SHAPES)
@pytest.mark.parametrize("rods", [5, 13, 17, 23])
def test_the_card_stands_at_the_hand_that_is_used(room, rods, size):
    for is_left in (False, True):
        room.settings = Settings(left_handed=is_left)
        screen = lesson(room, "38 - 50", rods)
        look_at(screen, size)
        places = screen.scene.places
        first, second = (places.side, places.sum) if is_left else (places.sum, places.side)
        assert first.right <= second.left
        assert first.left > max(b.place.right for b in screen.buttons if b.sign == "back")


@pytest.mark.parametrize(("text", "rods", "rung"), [
    ("12 x 3", 13, Rung.FOLLOW), ("101 / 12", 13, Rung.ALONE), ("38 - 50", 5, Rung.ALONE),
])  # fmt: skip
def test_parts_painted_while_it_is_worked_are_as_the_whole(pilot, text, rods, rung):
    exercise = Exercise(Kind.SUM, parse_calculation(text), rung, rods)
    screen = begin(pilot, exercise, 2, LONGEST)
    for turn in range(60):
        if screen.runner.stage is Stage.DONE:
            break
        if turn % 5 == 2 and screen.runner.stage is Stage.WORK:
            pilot.press_word("lesson.show_me")
        do_right(pilot)
        pilot.settle()
        seen = pilot.pixels()
        pilot.repaint()
        assert pilot.pixels() == seen, turn
    assert screen.runner.stage is Stage.DONE

"""My frame in the real window: it tells what a plain count finds; the young see no figure."""

import re
from collections import Counter
from itertools import pairwise

import pygame
import pytest
from growers import life
from grown_up import grow_up
from pilot import WhenTold
from sight import SIZES, UPRIGHT, flaws, look_at

from frame.language.days import day_text
from frame.learner.rows import Place
from frame.learner.settings import Age, Look
from frame.practice.examples import example_of
from frame.practice.exercises import plan_for
from frame.practice.families import Family
from frame.practice.figures import FAMILY_OF, FEWEST, FamilyKnown, Level, newest
from frame.practice.growth import monday_of
from frame.practice.items import CELLS, PRODUCTS, items_of_facts
from frame.practice.mastery import Standing, State
from frame.practice.observed import evidence_of
from frame.screens.choosing.home import Home
from frame.screens.grown.family_frame import FIRST, digit_of
from frame.screens.grown.screen import GrownScreen, Part
from frame.screens.grown.view import WAYS, beside, spot_at
from frame.screens.lesson.practice import learned_facts
from frame.technique.conventions import USUAL
from frame.view.geometry import Bead

MANY = 800
"""So many attempts fill each part."""
FEW = 40


def opened(pilot, attempts=0, part=Part.FRAME, age=None):
    grow_up(pilot.room, attempts, age)
    pilot.press_word("grown.title")
    if part is not Part.FRAME:
        pilot.press_word(f"grown.{part}")
    return pilot.screen


def played(screen):
    return screen.view.played


def lit_place(screen):
    """The middle of the bead that is lit: the last one that came to the beam."""
    view = screen.view
    digit, layout = int(view.field.frame.digits[view.lit]), view.field.layout
    bead = Bead.HEAVEN if digit == 9 else Bead(digit)
    return layout.bead_box(view.lit, bead, view.field.pose.rods[view.lit][bead]).centre


# The way to it


def test_home_has_one_button_for_it_with_a_sign_and_a_word_that_is_said(pilot, heard):
    (button,) = (one for one in pilot.screen.buttons if one.sign == "grown")
    assert button.text == pilot.words.text("grown.title")
    said = []
    for _ in pilot.screen.buttons:
        pilot.key(pygame.K_TAB)
        said.append(heard.said[-1])
    assert said.count(button.text) == 1
    pilot.tap(button.place.center)
    assert isinstance(pilot.screen, GrownScreen)


def test_what_is_not_counted_yet_is_not_waited_for(pilot, heard):
    pilot.room.known.aside = aside = WhenTold()
    screen = opened(pilot, FEW)
    counting = pilot.words.line("grown.counting")
    assert counting.show in pilot.lines() and heard.said[-1] == counting.speak
    pilot.wait(5)
    assert counting.show in pilot.lines() and not screen.fields
    while aside.waiting:
        aside.go_on()
    pilot.wait(1)
    assert counting.show not in pilot.lines() and screen.fields
    assert heard.said[-1] == screen.greeting.speak


# The frame


@pytest.mark.parametrize(("known", "digit"), [(0, 0), (1, 1), (2, 2), (4, 3), (7, 4), (8, 9)])
def test_beads_come_by_quarters_and_the_last_when_nothing_is_lacking(known, digit):
    assert digit_of(FamilyKnown(Family.SET, known, 8, 8)) == digit


@pytest.mark.parametrize("attempts", [0, FEW, MANY])
@pytest.mark.parametrize("age", [Age.YOUNG, Age.OLDER])
def test_each_rod_shows_what_is_known_of_its_family(pilot, attempts, age):
    view = opened(pilot, attempts, age=age).view
    known = Counter()
    total = Counter(FAMILY_OF.values())
    for item, family in FAMILY_OF.items():
        known[family] += pilot.room.mastery.standing(item).state.is_known
    families = list(Family)[: len(view.families)]
    assert len(families) >= FIRST
    assert not any(known[one] for one in Family if one not in families)
    for family, digit in zip(families, view.field.frame.digits, strict=True):
        assert (digit == "0") == (known[family] == 0)
        assert (digit == "9") == (known[family] == total[family])


def test_from_seven_on_each_rod_tells_its_counts(pilot, heard):
    screen = opened(pilot, MANY)
    taught = items_of_facts(learned_facts(pilot.room))
    for spot, one in zip(screen.view.spots, screen.view.families, strict=True):
        family, items = one.family, [item for item in FAMILY_OF if FAMILY_OF[item] is one.family]
        known = [item for item in items if pilot.room.mastery.standing(item).state.is_known]
        were_taught = [item for item in items if item in taught]
        pilot.tap(spot.place.center)
        told = f"{len(known)} of {len(items)} known"
        told += f"; {len(were_taught)} were taught." if len(were_taught) > len(known) else "."
        if not screen.view.plays(screen.at):
            assert f"{pilot.words.text(f'family.{family}')}: {told}" in pilot.lines()
            assert heard.said[-1] == spot.line.speak


def by_mouse(pilot):
    pilot.tap(lit_place(pilot.screen))


def by_finger(pilot):
    pilot.finger_tap(lit_place(pilot.screen))


def by_arrows(pilot):
    while pilot.screen.at != pilot.screen.view.lit:
        pilot.key(pygame.K_RIGHT)
    pilot.key(pygame.K_RETURN)


def by_button(pilot):
    pilot.press("play")


def by_tab(pilot):
    while pilot.screen.focus is None or pilot.screen.buttons[pilot.screen.focus].sign != "play":
        pilot.key(pygame.K_TAB)
    pilot.key(pygame.K_RETURN)


@pytest.mark.parametrize("age", [Age.YOUNG, Age.MIDDLE])
@pytest.mark.parametrize("act", [by_mouse, by_finger, by_arrows, by_button, by_tab])
def test_the_newest_is_lit_and_played_by_the_strokes_of_the_model(pilot, heard, act, age):
    screen = opened(pilot, MANY, age=age)
    item = newest(pilot.room.known.growth, pilot.room.mastery)
    assert screen.view.families[screen.view.lit].family is FAMILY_OF[item]
    plan = plan_for(example_of(item), USUAL)
    assert played(screen).field.frame == plan.start
    act(pilot)
    assert heard.said[-1] == screen.view.heard.speak
    frames = [plan.start]
    for _ in range(10 * len(plan.strokes) + 10):
        pilot.wait(0.2, 2)
        if played(screen).field.frame != frames[-1]:
            frames.append(played(screen).field.frame)
    expected = [plan.start]
    for stroke in plan.strokes:
        expected.append(expected[-1].apply_all(stroke))
    assert frames == expected
    act(pilot)
    pilot.wait(0.3)
    assert played(screen).field.frame == plan.start, "again from its beginning"


def test_another_rod_plays_nothing(pilot):
    screen = opened(pilot, MANY)
    other = (screen.view.lit + 1) % len(screen.view.spots)
    pilot.tap(screen.view.spots[other].place.center)
    pilot.wait(3)
    assert played(screen).field.frame == played(screen).start


def test_one_bead_is_lit_in_the_colour_of_a_hint(pilot):
    screen = opened(pilot, MANY, age=Age.YOUNG)
    pilot.repaint()
    window, hint = pilot.app.window, pilot.room.theme.hint
    spots = pygame.mask.from_threshold(window, hint, (1, 1, 1, 255)).get_bounding_rects()
    around = pygame.Rect(0, 0, 40, 40)
    around.center = lit_place(screen)
    assert spots and all(around.contains(one) for one in spots)


# The young


@pytest.mark.parametrize("attempts", [0, FEW, MANY])
def test_the_young_see_no_figure_and_nothing_but_the_frame(pilot, heard, attempts):
    screen = opened(pilot, attempts, age=Age.YOUNG)
    tabs = {pilot.words.text(f"grown.{part}") for part in Part}
    assert not tabs & {one.text for one in screen.buttons}
    for at in range(len(screen.view.spots)):
        screen.tell(at)
        assert not re.search(r"\d", pilot.lines())
    if attempts:
        pilot.press("play")
        pilot.wait(2)
        assert not re.search(r"\d", pilot.lines())


def test_the_young_hear_what_there_is_to_touch(pilot, heard):
    opened(pilot, 0, age=Age.YOUNG)
    assert heard.said[-1] == pilot.words.line("grown.young_none").speak
    pilot.press("back")
    opened(pilot, FEW)
    assert heard.said[-1] == pilot.words.line("grown.young").speak
    for key in ("grown.young", "grown.young_none"):
        assert len(pilot.words.line(key).speak.split()) <= 8


# The map


def counted(pilot):
    """How often each item was tried without help and how often it was right, by the log."""
    tried, right = Counter(), Counter()
    for one in pilot.room.store.told_after(pilot.room.learner, Place("", "", 0)):
        for each in evidence_of(one.of_items):
            tried[each.item] += not each.guided
            right[each.item] += each.right and not each.guided
    return tried, right


def test_each_square_tells_the_count_of_the_log(pilot):
    screen = opened(pilot, MANY, Part.MAP)
    tried, right = counted(pilot)
    items = Counter(screen.view.items)
    assert set(items) == {*map(str, CELLS), *map(str, PRODUCTS)}
    for item, spot in zip(screen.view.items, screen.view.spots, strict=True):
        told = spot.line.show
        if not tried[item]:
            assert told == pilot.words.text("grown.untried", sum=told.partition(":")[0])
        else:
            assert f"{right[item]} of {tried[item]} right" in told
        has_time = " s to decide" in told
        assert has_time <= (tried[item] >= FEWEST)
    levels = Counter(one.level for one in screen.view.figures.values())
    assert levels[Level.FEW] and levels[Level.KEPT], "or there is little to tell apart"


def test_each_square_is_touched_where_its_numbers_meet(pilot):
    screen = opened(pilot, 0, Part.MAP)
    written = {one.text: one.box for one in pilot.room.lettering.written}
    assert {"+", "−", "×"} <= set(written)
    for at, (item, spot) in enumerate(zip(screen.view.items, screen.view.spots, strict=True)):
        assert spot_at(screen.view.spots, spot.place.center) == at
        pilot.tap(spot.place.center)
        assert screen.at == at, item


def full(pilot, level, state):
    """How much of a square of this level has the colour of what is known."""
    screen, item = pilot.screen, "0+1"
    tries = 0 if level is Level.FEW else FEWEST
    screen.view.figures[item] = screen.view.figures[item]._replace(tries=tries, state=state)
    pilot.repaint()
    place = screen.view.spots[screen.view.items.index(item)].place
    colour = pilot.room.theme.bead_used.face
    square = pilot.app.window.subsurface(place)
    return pygame.mask.from_threshold(square, colour, (1, 1, 1, 255)).count()


@pytest.mark.parametrize("look", Look)
def test_the_better_an_item_is_known_the_fuller_is_its_square_in_every_theme(pilot, look):
    pilot.room.set(look=look)
    opened(pilot, 0, Part.MAP)
    levels = [(Level.FEW, State.NEW), (Level.LEARNING, State.GUIDED), (Level.KNOWN, State.ACCURATE),
              (Level.AT_ONCE, State.FLUENT), (Level.KEPT, State.KEPT)]  # fmt: skip
    sizes = [full(pilot, *one) for one in levels]
    assert sizes[:2] == [0, 0] and sizes[2:] == sorted(set(sizes[2:])) and sizes[2]


def test_what_a_square_means_is_written_beside_one(pilot):
    opened(pilot, 0, Part.MAP)
    lines = pilot.lines()
    assert all(pilot.words.text(f"grown.level.{one}", fewest=FEWEST) in lines for one in Level)


# The curves


def test_each_point_tells_its_week_and_count_and_all_curves_are_reached(pilot, heard):
    screen = opened(pilot, MANY, Part.CURVES)
    names = []
    for _ in screen.view.charts:
        chart = screen.view.chart
        names.append(chart.name.show)
        assert chart.name.show in pilot.lines() and chart.name.speak in heard.said[-1]
        for at, point in enumerate(chart.curve.points):
            screen.tell(at)
            told = screen.view.spots[at].line.show
            assert day_text(pilot.words, monday_of(point.week)) in told
            assert f"{point.tally.right} of {point.tally.of} right" in told
        pilot.press("step_on")
    assert len(set(names)) == len(names) > 5
    assert any(pilot.words.text("practise.called") in name for name in names)
    assert screen.view.chart.name.show == names[0], "after the last comes the first"


def test_a_gap_is_just_a_gap(pilot):
    screen = opened(pilot, MANY, Part.CURVES)
    view, colour, gaps = screen.view, pilot.room.theme.bead_used.face, 0
    for _ in view.charts:
        pilot.repaint()
        for one, other in pairwise(view.points):
            left, right = (view.place_of(point)[0] for point in (one, other))
            between = pygame.Rect((left + right) // 2, view.plot.top, 1, view.plot.h + 1)
            strip = pilot.app.window.subsurface(between)
            has_line = pygame.mask.from_threshold(strip, colour, (1, 1, 1, 255)).count() > 0
            assert has_line == (other.week - one.week == 1)
            gaps += not has_line
        pilot.press("step_on")
    assert gaps, "somebody was away now and then"


def test_own_best_is_the_only_other_thing_that_is_told(pilot):
    opened(pilot, MANY, Part.CURVES)
    assert pilot.lines().count(pilot.words.text("grown.best")) == 1


# The climb


def test_each_step_of_the_climb_is_told_the_latest_first_with_its_day_and_reason(pilot, heard):
    screen = opened(pilot, MANY, Part.CLIMB)
    steps, found = pilot.room.known.growth.steps[::-1], []
    assert len(steps) > 2 * screen.view.on_page
    for _ in range(screen.view.pages):
        lines = pilot.lines()
        for spot in screen.view.spots:
            step = steps[len(found)]
            family, rung = step.family, step.why.rung
            family = pilot.words.text(f"family.{family}")
            stood = f"{family}: {pilot.words.text(f'rung.{rung.name}')}, rods: {step.rods}"
            assert stood in lines and day_text(pilot.words, step.day) in lines
            assert spot.line.show == pilot.words.text(f"rung_means.{rung.name}")
            found.append(stood)
        pilot.press("step_on")
    assert len(found) == len(steps)
    assert spot_at(screen.view.spots, screen.view.spots[0].place.center) == 0
    pilot.tap(screen.view.spots[0].place.center)
    assert heard.said[-1] == screen.view.spots[0].line.speak
    assert screen.view.spots[0].line.show in pilot.lines()


def test_in_a_window_of_another_size_the_step_that_was_chosen_has_the_ring(pilot):
    screen = opened(pilot, MANY, Part.CLIMB)
    screen.view.turn(1)
    screen.tell(screen.view.on_page - 1)
    chosen = screen.view.spots[screen.at].line
    for size in ((600, 960), (1280, 720)):
        pilot.resize(size)
        assert screen.view.spots[screen.at].line == chosen
        assert screen.view.first % screen.view.on_page == 0
    screen.view.turn(1)
    assert screen.at is None


# By keyboard


@pytest.mark.parametrize("part", Part)
def test_arrows_lead_to_every_spot_and_each_is_said(pilot, heard, part):
    screen = opened(pilot, MANY, part)
    spots, reached, left = screen.view.spots, {0}, [0]
    while left:
        at = left.pop()
        fresh = {beside(spots, at, key) for key in WAYS} - reached
        reached |= fresh
        left += fresh
    assert reached == set(range(len(spots)))
    for code in (pygame.K_RIGHT, pygame.K_DOWN, pygame.K_RIGHT, pygame.K_DOWN, pygame.K_LEFT):
        pilot.key(code)
        assert heard.said[-1] == spots[screen.at].line.speak
        pilot.repaint()
    pilot.key(pygame.K_TAB)
    assert screen.at is None and screen.focus is not None
    pilot.key(pygame.K_UP)
    assert screen.at == 0 and screen.focus is None
    pilot.key(pygame.K_TAB)
    pilot.tap(spots[-1].place.center)
    assert screen.focus is None


@pytest.mark.parametrize("part", Part)
@pytest.mark.parametrize("attempts", [0, MANY])
def test_a_part_says_what_it_is_when_it_comes_up_and_again_by_the_loudspeaker(
    pilot, heard, attempts, part
):
    screen = opened(pilot, attempts, part)
    assert heard.said[-1] == screen.greeting.speak
    assert screen.view.told.speak in heard.said[-1]
    heard.said.clear()
    pilot.press("speaker")
    assert heard.said == [screen.greeting.speak]


# How it is laid out


@pytest.mark.parametrize("age", [Age.YOUNG, Age.MIDDLE])
def test_it_is_well_laid_out_beside_the_loudspeaker(pilot, heard, age):
    screen = opened(pilot, MANY, age=age)
    for part in Part if age is not Age.YOUNG else [Part.FRAME]:
        screen.open(part)
        for size in (*SIZES, UPRIGHT, (600, 960)):
            assert not flaws(look_at(screen, size)), (part, size)


def test_whatever_came_to_be_known_last_can_be_played_and_is_well_laid_out(pilot):
    """Also an item whose exercise takes many rods."""
    home = pilot.screen
    for item in ("9x9", "root-digit", "set-thousands", "clear", "ripple-add"):
        mastery, growth = pilot.room.mastery, pilot.room.known.growth
        mastery.standings = {item: Standing(State.ACCURATE)}
        growth.first_known = {item: 1.0}
        pilot.press_word("grown.title")
        screen = pilot.screen
        for size in (*SIZES, UPRIGHT):
            assert not flaws(look_at(screen, size)), (item, size)
        screen.resized((800, 480))
        pilot.press("play")
        pilot.wait(1.2 * len(played(screen).strokes) + 3, 60)
        assert played(screen).field.frame == plan_for(example_of(item), USUAL).end
        pilot.key(pygame.K_ESCAPE)
        assert pilot.screen is home and isinstance(home, Home)


def test_a_life_is_the_same_each_time():
    assert life(FEW) == life.__wrapped__(FEW)
    assert sum(len(some) for one in life(FEW) for _, some in one.sets) == FEW

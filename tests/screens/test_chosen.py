"""The practice page: levels, what is left to ladders, and how few presses lead anywhere."""

import pygame
import pytest
from shipped import the_course

from frame.practice.choices import CALL_PACES, Beads, Choices, Flashed, Sight
from frame.practice.families import Family
from frame.practice.flashing import LEVELS, FlashSetting
from frame.practice.ladder import USUAL_RULES, Try
from frame.practice.own_ladder import levels_of
from frame.practice.rungs import Asked, Rung
from frame.practice.standing import Ladder
from frame.screens.choosing.all_choices import AllChoices
from frame.screens.choosing.chosen import Chosen

KNOWN = frozenset(fact for entry in the_course().lessons for fact in entry.new)


def chosen(choices, tries=(), quick=True):
    return Chosen(choices, Ladder.of(tries), quick)


OWN = {
    "shown": Choices(Asked.SHOWN).choose(own=True),
    "called": Choices(Asked.CALLED).choose(sight=Sight.OWN),
    "flashed": Choices(Asked.FLASHED).choose(own=True),
}


@pytest.mark.parametrize("asked", OWN)
def test_a_frame_of_ones_own_is_left_to_its_ladder_until_something_is_chosen(asked):
    one = chosen(OWN[asked])
    assert one.has_own_ladder and one.is_by_own_ladder
    assert one.now("level") is None
    assert one.level == one.levels[0]
    for level in one.levels:
        at = chosen(one.choose(level=level))
        assert at.now("level") == level and at.is_at_level and not at.is_by_own_ladder
    back = chosen(at.choose(level=None))
    assert back.is_by_own_ladder and back.choices == one.choices


@pytest.mark.parametrize("asked", OWN)
def test_one_thing_chosen_leaves_nothing_to_the_ladder(asked):
    one = chosen(OWN[asked])
    rows = "count" if asked == "flashed" else "rows"
    other = chosen(one.choose(**{rows: 7}))
    assert not other.is_by_own_ladder
    assert other.now(rows) == 7
    assert other.now("digits") == one.now("digits")
    assert not other.is_at_level


def tried(level, asked, family, right=True):
    return Try(
        family, 2, Rung.ALONE, right, 0, 5.0, frozenset(), asked, True, level.digits, level.rows,
        level.pace,
    )  # fmt: skip


def test_what_the_ladder_of_ones_own_frame_says_is_shown_and_asked_for():
    levels = levels_of(Asked.CALLED)
    tries = [tried(levels[0], Asked.CALLED, Family.READ)] * USUAL_RULES.up_after
    one = chosen(OWN["called"], tries)
    assert one.is_by_own_ladder and one.level == levels[1]
    assert (one.now("digits"), one.now("rows"), one.now("pace")) == levels[1][1:]
    request = one.choices.request(KNOWN, one.ladder)
    assert (request.digits, request.terms, request.pace) == levels[1][1:]


@pytest.mark.parametrize("family", [Family.MULTIPLY, Family.ROOT, Family.READ])
def test_families_without_a_ladder_of_ones_own_have_no_levels(family):
    one = chosen(Choices(beads=Beads(family, own=True)))
    assert not one.has_own_ladder and one.levels == []


def test_levels_of_flashed_numbers_and_what_is_none_of_them():
    for level in LEVELS:
        one = chosen(Choices(Asked.FLASHED).at(level))
        assert one.now("level") == level and one.is_at_level
    between = chosen(Choices(Asked.FLASHED).choose(setting=FlashSetting(2, 6, 1.0)))
    assert not between.is_at_level
    assert between.level.setting.digits == 2
    assert chosen(between.choose(digits=1)).now("digits") == 1


@pytest.mark.parametrize(
    ("setting", "level"),
    [
        (FlashSetting(1, 2, 0.1), 1),
        (FlashSetting(1, 3, 3.0), 1),
        (FlashSetting(1, 5, 1.3), 2),
        (FlashSetting(2, 4, 1.0), 6),
        (FlashSetting(6, 30, 5.0), 24),
    ],
)
def test_beside_a_setting_of_ones_own_stands_the_last_level_that_is_not_harder(setting, level):
    assert chosen(Choices(Asked.FLASHED).choose(setting=setting)).level.number == level


@pytest.mark.parametrize("asked", Asked)
def test_without_leave_no_more_than_is_safe_is_offered_or_kept(asked):
    quick = Choices(asked, flashed=Flashed(LEVELS[-1].setting))
    one = chosen(quick, quick=False)
    assert one.allowed().flashed.setting.interval >= 1 / 3 - 1e-9
    assert one.allowed().asked is asked
    assert chosen(quick).allowed() == quick
    flashed = chosen(Choices(Asked.FLASHED), quick=False)
    assert all(flashed.may_flash(level.setting.interval) for level in flashed.levels)
    assert len(flashed.levels) < len(LEVELS)


# On the page


def presses_to(screen, label, name, order, wanted):
    """How many presses it takes from what is chosen to another value: leaps, then steps."""
    for presses in range(100):
        if screen.now(name) == wanted:
            return presses
        ahead = order.index(wanted) - order.index(screen.now(name))
        dial = next(dial for dial in screen.dials if dial.label.show == label)
        turns = {turn.sign: turn.act for turn in dial.turns}
        way = "more" if ahead > 0 else "less"
        is_far = 2 * abs(ahead) > -(-len(order) // 4)
        turns[f"much_{way}" if is_far and f"much_{way}" in turns else way]()
    raise AssertionError(f"{wanted} is never reached")


LABELS = {"level": "level_name", "digits": "digits", "rows": "terms", "pace": "pace"}
FAR = [
    # what is chosen, the row, its values, the most presses
    (Choices(Asked.FLASHED), "level", LEVELS, 6),
    (Choices(), "digits", [None, *range(1, 15)], 5),
    (Choices(beads=Beads(Family.ADD_FIVE)), "rows", range(2, 16), 5),
    (Choices(Asked.CALLED), "digits", range(1, 15), 5),
    (Choices(Asked.CALLED), "rows", range(2, 16), 5),
    (Choices(Asked.CALLED), "pace", CALL_PACES, 7),
    (OWN["called"], "level", [None, *levels_of(Asked.CALLED)], 10),
]


@pytest.mark.parametrize(("choices", "name", "values", "most"), FAR)
def test_every_value_is_reached_in_a_few_presses(pilot, choices, name, values, most):
    pilot.room.set(all_open=True, quick_flash=True)
    label = pilot.words.text(f"practise.{LABELS[name]}")
    for wanted in values:
        pilot.room.choices = choices
        screen = AllChoices(pilot.room)
        screen.resized((800, 480))
        assert presses_to(screen, label, name, list(values), wanted) <= most, wanted


def test_the_ring_stays_where_the_values_of_a_row_end(pilot):
    pilot.room.choices = Choices(Asked.CALLED)
    pilot.press_word("home.practise")
    pilot.press_word("practise.more")
    screen = pilot.screen

    def focused():
        button = screen.buttons[screen.focus]
        return button.sign, button.name.partition(".")[0]

    numbers = pilot.words.text("practise.terms")
    while screen.focus is None or focused() != ("more", numbers):
        pilot.key(pygame.K_TAB)
    for rows in range(4, 16):
        pilot.key(pygame.K_RETURN)
        assert screen.now("rows") == rows
    for code in (pygame.K_RETURN, pygame.K_RIGHT):
        assert focused() == ("more", numbers), "there is no more"
        pilot.key(code)
    assert screen.now("rows") == 15
    pilot.key(pygame.K_LEFT)
    assert focused() == ("less", numbers)
    pilot.key(pygame.K_RIGHT)
    assert focused() == ("less", numbers), "what rests is passed by"
    pilot.key(pygame.K_RETURN)
    assert screen.now("rows") == 14

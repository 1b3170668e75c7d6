"""Exercises for items: each item has one, and what is predicted of them."""

from random import Random

from each import each_row

from frame.practice.candidates import exercise_for, fact_of
from frame.practice.confusions import confusable
from frame.practice.evidence import Evidence
from frame.practice.exercises import Exercise, Kind
from frame.practice.families import family_of
from frame.practice.items import CELLS, ITEMS, PRODUCTS, items_of_facts
from frame.practice.mastery import Mastery
from frame.practice.prediction import USUAL_PREDICTION, success, task_of
from frame.practice.rungs import Asked, Rung
from frame.practice.schedule import DAY
from frame.practice.standing import Ladder
from frame.practice.wanted import sets_of
from frame.technique.expression import parse_calculation
from frame.technique.facts import ALL_FACTS

KNOWN = frozenset(ALL_FACTS)
SETS = sets_of(KNOWN, Ladder())


def asks(item, draws):
    """Whether one of so many exercises drawn for an item asks for it."""
    random, request = Random(item), SETS[family_of([fact_of(item)])]
    found = (exercise_for(item, request, random, draw) for draw in range(draws))
    return any(one is not None and item in task_of(one).items for one in found)


def test_there_is_an_exercise_for_every_item():
    assert [item for item in ITEMS if not asks(item, 120)] == []


@each_row("factors", PRODUCTS)
def test_every_product_is_had_at_once(factors):
    assert asks(str(factors), 1)


def test_items_are_the_cases_of_the_facts_taught():
    assert items_of_facts(["add-ten-five-6"]) == ("5+6", "6+6", "7+6", "8+6")
    assert items_of_facts(["read-tens", "add-direct-9"]) == ("0+9", "read-tens")
    assert set(items_of_facts(ALL_FACTS)) == set(ITEMS)
    assert items_of_facts([]) == ()


def test_what_is_confused_is_so_both_ways_and_worked_otherwise():
    pairs = confusable()
    cells = {str(cell): cell for cell in CELLS}
    assert set(pairs) <= set(ITEMS)
    for item, others in pairs.items():
        assert item not in others
        for other in others:
            assert item in pairs[other]
            if item in cells:
                assert cells[item].change == cells[other].change
                assert cells[item].fact != cells[other].fact


def sum_of(text, rung=Rung.ALONE, asked=Asked.SHOWN):
    return task_of(Exercise(Kind.SUM, parse_calculation(text), rung, 2, asked=asked))


def test_an_exercise_tells_all_that_it_asks():
    task = sum_of("14 + 3 - 9")
    assert task.items == {"set-digit-1", "set-digit-4", "set-tens", "4+3", "7-9"}
    assert task_of(Exercise(Kind.READ, parse_calculation("7"))).items == {"read-digit-7"}


def test_more_items_strokes_and_less_to_see_make_success_less_likely():
    items = items_of_facts(ALL_FACTS)
    evidence = [Evidence(item, day * DAY, str(day), True) for day in range(5) for item in items]
    mastery = Mastery.of(evidence)

    def chance(*task, days=5.0):
        return success(sum_of(*task), mastery, days * DAY, USUAL_PREDICTION)

    assert chance("4 + 3") > chance("4 + 3 + 2") > chance("4 + 3 + 2 - 7")
    rungs = (Rung.ALONE, Rung.PALE, Rung.TRACES, Rung.COVERED, Rung.NUMBER)
    by_rung = [chance("4 + 3", rung) for rung in rungs]
    assert by_rung == sorted(by_rung, reverse=True)
    assert len(set(by_rung)) == len(rungs)
    assert chance("4 + 3", Rung.NUMBER, Asked.FLASHED) < chance("4 + 3", Rung.NUMBER)
    assert chance("4 + 3", days=20.0) < chance("4 + 3")
    assert chance("4 + 3", Rung.FOLLOW) == USUAL_PREDICTION.led

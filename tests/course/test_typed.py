"""A sum while it is typed: what begins one, what belongs to it, where a point is one."""

import pytest
from each import each_row

from frame.course.agenda import MOST_SIGNS, Task
from frame.course.typed import TypedSum


def typed(text: str, *, is_open: bool = True) -> TypedSum:
    """What stands there after these signs, one after another."""
    one = TypedSum(is_open=is_open)
    for sign in text:
        one = one.plus(sign)
    return one


@each_row("sign", [*"0123456789", "√", "(", "-", "−"])
def test_digits_and_what_may_stand_before_them_begin_a_sum(sign: str) -> None:
    assert typed(sign, is_open=False) == TypedSum(sign, is_open=True)


@pytest.mark.parametrize("sign", ["", "s", "x", "b", "+", ".", "=", " ", "é"])
def test_nothing_else_begins_one(sign: str) -> None:
    assert TypedSum().plus(sign) == TypedSum()


@pytest.mark.parametrize(
    ("text", "task", "calculation"),
    [
        ("sqrt 1764", Task.SHOW, "sqrt 1764"), ("SQRT1764", Task.SHOW, "sqrt 1764"),
        ("√1764", Task.SHOW, "sqrt 1764"), ("37x24", Task.SHOW, "37 x 24"),
        ("37 X 24", Task.SHOW, "37 x 24"), ("3588:46", Task.SHOW, "3588 / 46"),
        ("1,200 - 12'000", Task.SHOW, "1200 - 12000"), ("1.5+2=", Task.SHOW, "1.5 + 2"),
        ("57", Task.READ, "57"),
    ],
)  # fmt: skip
def test_once_it_is_begun_every_sign_of_a_calculation_belongs_to_it(
    text: str, task: Task, calculation: str
) -> None:
    item = typed(text).item
    assert item is not None
    assert (item.act, str(item)) == (task, calculation)


def test_it_is_laid_aside_and_gone_on_with() -> None:
    aside = typed("12-").opened(is_open=False)
    assert (aside.text, aside.is_open) == ("12-", False)
    assert aside.opened().plus("7") == TypedSum("12-7", is_open=True)
    assert aside.plus("4") == TypedSum("4", is_open=True)


def test_a_mistyped_sum_is_mended_and_the_last_sign_erased() -> None:
    wrong = typed("46+*").wrong()
    assert wrong.item is None and wrong.is_wrong
    assert wrong.erased() == TypedSum("46+", is_open=True)
    assert typed("4").erased() == TypedSum("", is_open=True)


@pytest.mark.parametrize("text", ["46+", "8/0", "-5", "9" * 36, "nets", "√-4"])
def test_what_is_no_sum_has_a_problem_and_a_sum_has_none(text: str) -> None:
    one = TypedSum(text, is_open=True)
    assert one.item is None and one.problem is not None
    assert TypedSum("46+39", is_open=True).problem is None


def test_it_takes_as_many_signs_as_an_agenda_and_says_when_it_is_full() -> None:
    numbers = "+".join(["7"] * 160)
    full = typed(numbers)
    assert full.text == numbers[:MOST_SIGNS] and full.is_full
    assert full.plus("7") == full
    assert not full.erased().is_full
    assert full.erased().item is not None

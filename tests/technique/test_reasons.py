"""Why a step is done, told beside worked examples."""

from dataclasses import replace
from decimal import Decimal

import pytest
from shipped import the_words

from frame.language.reasons import reason_line
from frame.language.wording import over_rules, rule
from frame.technique.expression import parse_calculation
from frame.technique.planning import plan_of
from frame.technique.reasons import Why, reasons_of

WORDS = the_words()


def told(text: str) -> list[tuple[str, str]]:
    """Each reason with the line of work that it is told of."""
    plan = plan_of(parse_calculation(text))
    return [
        (str(step.operation), reason_line(reason, WORDS).show)
        for step, reasons in zip(plan.steps, reasons_of(plan), strict=True)
        for reason in reasons
    ]


def test_a_revised_quotient_tells_what_decides_each_digit() -> None:
    """3876 / 68, revised down; the example is from memory."""
    assert told("3876 / 68") == [
        ("quotient 6", "38 does not hold 68: one rod left of it."),
        ("quotient 6", "38 ÷ 6: try 6."),
        ("revise 6 to 5", "48 is more than 27: 6 becomes 5."),
        ("add back 6", "Add 6 back."),
        ("quotient 7", "47 ÷ 6: try 7."),
    ]


# Rule I and Rule II of the quotient's place: Kojima, through Heffelfinger & Flom 2004.
@pytest.mark.parametrize(
    ("text", "why"),
    [
        ("927 / 3", Why.FAR), ("273 / 3", Why.NEAR), ("3876 / 68", Why.NEAR), ("672 / 32", Why.FAR),
        ("2575 / 103", Why.FAR), ("306 / 102", Why.FAR),
        ("7.2 / 3", Why.FAR), ("4.8 / 6", Why.NEAR),
    ],
)  # fmt: skip
def test_the_first_digit_of_a_quotient_tells_which_rule_places_it(text: str, why: Why) -> None:
    plan = plan_of(parse_calculation(text))
    places = [
        reason.why
        for reasons in reasons_of(plan)
        for reason in reasons
        if reason.why in (Why.FAR, Why.NEAR)
    ]
    assert places == [why]


def test_a_root_tells_why_it_halves() -> None:
    """The root of 1764 by the half table (from memory; its lines are worked by hand)."""
    assert told("sqrt 1764") == [
        ("root 4", "4 × 4 goes into 17."),
        ("halve 164", "Halve the rest: of two equal strips one is worked."),
        ("root 2", "8 ÷ 4: try 2."),
        ("-2x2/2=02", "Half of 2 × 2, the corner tile: take it away."),
    ]


def test_numbers_below_zero_tell_how_they_are_read_and_why_more_is_borrowed() -> None:
    """0 - 95 is read from a borrowed 100 (Heffelfinger and Flom); 0 - 5 - 95 outgrows its 10
    (worked by hand)."""
    assert told("12 - 30")[-1][1] == "82 is 18 short of 100: it reads −18."
    assert [says for _, says in told("0 - 5 - 95")] == [
        "10 is borrowed: no bead is set for it.",
        "5 is 5 short of 10: it reads −5.",
        "10 is not enough: 1\u202f000 is borrowed, with 9s up to it.",
        "900 is 100 short of 1\u202f000: it reads −100.",
    ]


def test_the_decimals_of_a_quotient_begin_where_it_says_so() -> None:
    beginnings = [line for line, says in told("7 / 4") if "decimals" in says]
    assert beginnings == []
    assert [line for line, says in told("7.0 / 4") if "decimals" in says] == []
    assert [line for line, says in told("0.9 / 4") if "decimals" in says] == ["quotient 2"]
    assert ("9x2=18", "The ones of the answer stand on rod 7.") not in told("93 x 24")
    assert [says for _, says in told("9.3 x 2.4")] == [
        "The ones of the answer stand on rod 7.",
        "3 × 2 takes the two rods right of the 3.",
    ]


@pytest.mark.parametrize(
    ("text", "own", "over"),
    [
        ("45 + 5", "+5 = −5 +10", "+1 = +5 −4"),
        ("53 - 8", "−8 = −10 +5 −3", "−1 = −5 +4"),
        ("38 + 47", "+7 = −3 +10", None),
    ],
)
def test_a_carry_onto_four_and_a_borrow_from_five_have_a_rule_of_their_own(
    text: str, own: str, over: str | None
) -> None:
    step = plan_of(parse_calculation(text)).steps[-1]
    assert rule(step, WORDS) == own
    assert [rule for _, rule in over_rules(step, WORDS)] == ([] if over is None else [over])


def test_a_long_ripple_keeps_its_rule_short() -> None:
    step = plan_of(parse_calculation("99999999999999 + 4")).steps[-1]
    assert step.ripple == 13
    assert len(rule(step, WORDS)) < 60
    assert (
        Decimal(10) ** 14
        == sum(move.change * Decimal(10) ** move.rod for move in step.moves) + Decimal(10) ** 14 - 4
    )


def test_the_work_of_telling_grows_with_the_sum_and_not_with_its_square() -> None:
    """A sum of ten thousand numbers can be asked for."""

    class Counted(tuple):  # type: ignore[type-arg]
        def __getitem__(self, at):  # type: ignore[no-untyped-def]
            found = super().__getitem__(at)
            looked_at.append(len(found) if isinstance(at, slice) else 1)
            return found

    def looks(numbers: int) -> int:
        looked_at.clear()
        plan = plan_of(parse_calculation("+".join(["9"] * numbers)))
        reasons_of(replace(plan, steps=Counted(plan.steps)))
        return sum(looked_at)

    looked_at: list[int] = []
    assert looks(800) <= 2.1 * looks(400)

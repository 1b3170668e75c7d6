"""Random products, quotients and roots against written work with integers, and exact results."""

import random
from decimal import ROUND_HALF_UP, Decimal, localcontext
from fractions import Fraction
from math import isqrt

import pytest
from reference_rows import Written, places_before_point, product, quotient, root, significant
from written_work import compared, expected, is_set, replayed

from frame.technique.beads import MOST_RODS
from frame.technique.conventions import Carry, Conventions, Operands, Remove
from frame.technique.expression import Calculation, Product, Quotient, Root
from frame.technique.operation import Act
from frame.technique.plan import Plan
from frame.technique.planning import plan_of
from frame.technique.reading import RodsError

TOO_WIDE_FROM = 27
"""Work of fewer rods than this, side by side, finds room on the widest frame with its marks."""


def sized(rng: random.Random, most: int) -> int:
    """Mostly few digits, now and then as many as there may be."""
    return most if rng.random() < 0.02 else rng.randint(1, min(most, rng.choice([2, 3, 4, 6])))


def operand(rng: random.Random, most: int, decimals: bool) -> Decimal:
    """A number above nought; zeros within it are common, and places after the point when asked."""
    figures = rng.choice(["0123456789", "0123456789", "00001234", "0009", "0005", "19", "98"])
    size = sized(rng, most)
    whole = int(rng.choice("123456789") + "".join(rng.choices(figures, k=size - 1)))
    places = rng.choice([0, 1, 2, 3, 5]) if decimals else 0
    return Decimal(whole).scaleb(-places)


def conventions(rng: random.Random, layout: Operands = Operands.BOTH) -> Conventions:
    return Conventions(rng.choice(list(Carry)), rng.choice(list(Remove)), layout)


def planned(work: Calculation, chosen: Conventions, span: int) -> Plan | None:
    """The plan; None where it truly has no room."""
    try:
        return plan_of(work, chosen, at_least=13)
    except RodsError:
        assert span > TOO_WIDE_FROM, f"{work}: no room"
        return None


def check_reading(plan: Plan, about: object) -> None:
    """When all is done, the part of the frame that holds the result reads it."""
    assert plan.reading(*list(plan.frames())[-1]) == plan.result, str(about)


def is_marked(plan: Plan, rod: int) -> bool:
    """Every third rod counted from the middle one: Japanese Wikibooks, Shuzan."""
    middle = len(plan.start.digits) // 2
    return (plan.start.units - rod - middle) % 3 == 0


def check_rows(plan: Plan, work: Written, at_left: str, about: object) -> None:
    assert compared(plan) == expected(work.lines, at_left, plan), str(about)
    assert len(plan.start.digits) % 2 == 1, str(about)


def rods_at_left(plan: Plan, at_left: str) -> set[int]:
    return {plan.start.highest - index for index in range(len(at_left))}


def check_setting(plan: Plan) -> None:
    """Each digit set moves its own rod alone, and no rod twice."""
    steps = [step for step in plan.steps if is_set(step.operation)]
    rods = [step.rod for step in steps]
    assert len(rods) == len(set(rods))
    assert all(move.rod == step.rod for step in steps for move in step.moves)


def check_product_keeps(plan: Plan, task: Product, at_left: str, is_set_up: bool) -> None:
    """After each bead move: the multiplier stands, and each digit not yet multiplied."""
    held = rods_at_left(plan, at_left)
    ahead = places_before_point(task.multiplier) + 1
    if is_set_up:
        top = task.multiplicand.adjusted() + ahead
        figures = task.multiplicand.as_tuple().digits
        held |= {top - index for index, digit in enumerate(figures) if digit}
    check_setting(plan)
    for step, rod, _ in replayed(plan):
        if step.operation.act is Act.CLEAR:
            assert rod == step.operation.rod
            held.discard(rod)
        elif not is_set(step.operation):
            assert rod not in held, f"{task}: {step.operation} moves rod {rod}"


SETS_DIGIT = {Act.QUOTIENT, Act.ROOT}
REVISES = {Act.REVISE_DOWN, Act.REVISE_UP}


def check_quotient_keeps(plan: Plan, at_left: str, about: object) -> None:
    """After each bead move: the divisor stands, and each digit found but by its own revision."""
    divisor, found = rods_at_left(plan, at_left), set[int]()
    check_setting(plan)
    for step, rod, _ in replayed(plan):
        act = step.operation.act
        if act in SETS_DIGIT or act in REVISES:
            assert rod == step.operation.rod, f"{about}: {step.operation} moves rod {rod}"
            found.add(rod)
        elif act is not Act.SET and act is not Act.ROUND:
            assert rod not in divisor | found, f"{about}: {step.operation} moves rod {rod}"
        assert act is Act.SET or rod not in divisor


def half_up(value: Fraction, places: int) -> Decimal:
    return Decimal((value * 10**places * 2 + 1) // 2).scaleb(-places)


def is_at_most(value: Fraction, places: int) -> bool:
    return (value * 10**places).denominator == 1


def finite_places(value: Fraction) -> int | None:
    """How many decimals the value has; None when it has no end."""
    return next((places for places in range(61) if is_at_most(value, places)), None)


def exact(value: Fraction) -> Decimal:
    places = finite_places(value)
    assert places is not None
    return Decimal(int(value * 10**places)).scaleb(-places)


def check_product(a: Decimal, b: Decimal, chosen: Conventions) -> bool:
    """The rows, the beads and the exact result of one product; whether it had room."""
    task = Product(a, b)
    exponents = [int(number.as_tuple().exponent) for number in (a, b)]
    span = a.adjusted() + 2 * max(b.adjusted(), 0) + 6 - sum(exponents)
    plan = planned(task, chosen, span)
    if plan is None:
        return False
    at_left = significant(b) if chosen.layout is Operands.BOTH else ""
    nothing_set = chosen.layout is Operands.NONE
    check_rows(plan, product(a, b, nothing_set), at_left, (task, chosen))
    check_product_keeps(plan, task, at_left, not nothing_set)
    check_reading(plan, task)
    assert is_marked(plan, marked_rod(a, b, nothing_set)), str(task)
    with localcontext(prec=60):
        assert plan.result == task.result == a * b, str(task)
    return True


def is_whole(*numbers: Decimal) -> bool:
    return all(number == number.to_integral_value() for number in numbers)


def marked_rod(a: Decimal, b: Decimal, nothing_set: bool) -> int:
    """Kojima sets the multiplicand's unit rod on a mark; Kato's rule, which decimals need, is
    counted from a marked unit rod of the result."""
    return places_before_point(b) + 1 if is_whole(a, b) and not nothing_set else 0


def check_products(seed: int, count: int, most_decimals: float) -> None:
    rng = random.Random(seed)
    done = 0
    for _ in range(count):
        a = operand(rng, 14, rng.random() < most_decimals)
        b = operand(rng, 8, rng.random() < most_decimals)
        layout = rng.choice([Operands.BOTH, Operands.BOTH, Operands.ONE, Operands.NONE])
        done += check_product(a, b, conventions(rng, layout))
    assert done > 0.9 * count


def places_of(task: Quotient, value: Fraction) -> int:
    """How many decimals the rows go to: those asked, or all of an exact value, or none."""
    if task.places is not None:
        return task.places
    if is_whole(*task.numbers):
        return 0
    return finite_places(value) or 0


def check_result(plan: Plan, task: Quotient, value: Fraction) -> None:
    """Rounded half up where places are asked and do not suffice; else whole, with a rest."""
    places = places_of(task, value)
    if is_at_most(value, places):
        wanted = exact(value), Decimal(0)
    elif task.places is not None:
        wanted = half_up(value, places), None
    else:
        with localcontext(prec=60):
            wanted = Decimal(int(value)), task.dividend - task.divisor * int(value)
    assert (plan.result, plan.remainder) == wanted, str(task)
    assert (task.result, task.remainder) == wanted, str(task)


def check_quotient(a: Decimal, b: Decimal, places: int | None, chosen: Conventions) -> bool:
    """The rows, the beads, the result and the rest of one quotient; whether it had room."""
    task, value = Quotient(a, b, places), Fraction(a) / Fraction(b)
    reach = places_of(task, value)
    work = quotient(a, b, reach)
    plan = planned(task, chosen, a.adjusted() + 2 * len(significant(b)) + 8 + reach)
    if plan is None:
        return False
    at_left = significant(b) if chosen.layout is Operands.BOTH else ""
    rounded = places is not None and not is_at_most(value, places)
    found, wanted = compared(plan), expected(work.lines, at_left, plan)
    assert found[: len(wanted)] == wanted, str(task)
    assert rounded or len(found) == len(wanted), str(task)
    assert is_marked(plan, 0), str(task)
    check_quotient_keeps(plan, at_left, task)
    check_reading(plan, task)
    check_result(plan, task, value)
    return True


def check_quotients(seed: int, count: int, most_decimals: float) -> None:
    rng = random.Random(seed)
    done = 0
    for _ in range(count):
        a = operand(rng, 14, rng.random() < most_decimals)
        b = operand(rng, 8, rng.random() < most_decimals)
        places = rng.choice([None, None, None, 0, 1, 3])
        layout = rng.choice([Operands.BOTH, Operands.BOTH, Operands.ONE])
        done += check_quotient(a, b, places, conventions(rng, layout))
    assert done > 0.9 * count


def check_root(n: Decimal, places: int | None, chosen: Conventions) -> None:
    task = Root(n, places)
    plan = plan_of(task, chosen, at_least=13)
    scale = 10 ** (places or 0)
    down = isqrt(int(n * scale * scale))
    is_exact = Decimal(down) ** 2 == n * scale * scale
    found, wanted = compared(plan), expected(root(n, places or 0).lines, "", plan)
    assert found[: len(wanted)] == wanted, str(task)
    assert len(found) == len(wanted) or (places is not None and not is_exact), str(task)
    check_quotient_keeps(plan, "", task)
    check_reading(plan, task)
    if places is None or is_exact:
        result, rest = Decimal(down) / scale, n - (Decimal(down) / scale) ** 2
        assert (plan.result, plan.remainder) == (result, rest), str(task)
    else:
        doubled = isqrt(int(4 * n * scale * scale))
        assert plan.result == Decimal((doubled + 1) // 2) / scale, str(task)
        assert plan.remainder is None, str(task)
    assert (task.result, task.remainder) == (plan.result, plan.remainder), str(task)


def check_roots(seed: int, count: int) -> None:
    rng = random.Random(seed)
    for _ in range(count):
        n = operand(rng, 9, decimals=False)
        if rng.random() < 0.5:
            n = Decimal(int(n) ** 2 % 10**12 or 1)
        places = rng.choice([None, None, 0, 1, 3])
        check_root(n, places, conventions(rng))


def test_random_products_match_the_written_work() -> None:
    check_products(seed=41, count=1000, most_decimals=0.3)


def test_random_quotients_match_the_written_work() -> None:
    check_quotients(seed=42, count=1000, most_decimals=0.3)


def test_random_roots_match_the_written_work() -> None:
    check_roots(seed=43, count=1000)


@pytest.mark.proof
def test_many_products_with_decimals() -> None:
    check_products(seed=44, count=5000, most_decimals=0.8)


@pytest.mark.proof
def test_many_quotients_with_decimals() -> None:
    check_quotients(seed=45, count=5000, most_decimals=0.8)


@pytest.mark.proof
def test_many_roots() -> None:
    check_roots(seed=46, count=5000)


@pytest.mark.parametrize("layout", list(Operands))
def test_as_many_digits_as_the_widest_frame_takes(layout: Operands) -> None:
    rng = random.Random(47)
    a = Decimal(rng.randrange(10**13, 10**14))
    b = Decimal(rng.randrange(10**7, 10**8))
    assert check_product(a, b, Conventions(layout=layout))
    assert check_product(Decimal(10**14 - 1), Decimal(10**8 - 1), Conventions(layout=layout))
    assert check_quotient(a, b, None, Conventions(layout=layout))
    assert MOST_RODS == 35


@pytest.mark.parametrize("sign", [(1, -1), (-1, 1), (-1, -1)])
def test_signs_stand_beside_the_frame(sign: tuple[int, int]) -> None:
    """The beads are those of the numbers without signs."""
    rng = random.Random(48)
    for _ in range(40):
        a, b = operand(rng, 5, False), operand(rng, 3, False)
        signed = Product(a * sign[0], b * sign[1])
        plan, bare = plan_of(signed), plan_of(Product(a, b))
        assert plan.result == signed.result == a * b * sign[0] * sign[1]
        assert (plan.start, plan.strokes) == (bare.start, bare.strokes)
        parts = Quotient(a * sign[0], b * sign[1])
        plan, bare = plan_of(parts), plan_of(Quotient(a, b))
        assert plan.remainder is not None and abs(plan.remainder) < b
        assert plan.result * b * sign[1] + plan.remainder == a * sign[0]
        assert (plan.start, plan.strokes) == (bare.start, bare.strokes)


@pytest.mark.parametrize("layout", list(Operands))
def test_nought_in_an_operand(layout: Operands) -> None:
    nought, some = Decimal(0), Decimal("40.5")
    chosen = Conventions(layout=layout)
    for task in (Product(nought, some), Product(some, nought), Quotient(nought, some)):
        plan = plan_of(task, chosen)
        assert plan.result == 0
        assert all(rods.digits for _, _, rods in replayed(plan))


def test_rounding_of_a_product_is_half_up() -> None:
    """Nisshuren's papers round at the third decimal: half a last place counts as a whole one."""
    rng = random.Random(49)
    for _ in range(100):
        a, b = operand(rng, 6, True), operand(rng, 4, True)
        plan = plan_of(Product(a, b, 2))
        wanted = (a * b).quantize(Decimal("0.01"), ROUND_HALF_UP)
        assert plan.result == Product(a, b, 2).result == wanted
        check_reading(plan, (a, b))

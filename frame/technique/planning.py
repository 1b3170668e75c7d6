"""The plan for whatever can be calculated on a frame."""

from frame.technique.addition import plan_sum
from frame.technique.conventions import USUAL, Conventions
from frame.technique.division import plan_quotient
from frame.technique.expression import Calculation, Product, Quotient, Root, Sum
from frame.technique.multiplication import plan_product
from frame.technique.places import USUAL_RODS
from frame.technique.plan import Plan
from frame.technique.reading import RodsError, decimals
from frame.technique.roots import plan_root
from frame.technique.trials import Result


def plan_of(
    calculation: Calculation,
    conventions: Conventions = USUAL,
    rods: int | None = None,
    at_least: int = USUAL_RODS,
) -> Plan:
    """The plan for a calculation, from a cleared frame; setting its numbers is a part of it.

    `rods` asks for that many rods; otherwise the frame has as many as the work needs, and
    `at_least` that many. Raises NumberError when the work does not fit.
    """
    match calculation:
        case Sum(terms):
            return plan_sum(terms, conventions, rods, at_least)
        case Product(multiplicand, multiplier):
            factors = (multiplicand, multiplier)
            return plan_product(factors, calculation.result, conventions, rods, at_least)
        case Quotient(dividend, divisor):
            answer = answer_of(calculation)
            return plan_quotient(dividend, divisor, answer, conventions, rods, at_least)
        case Root(radicand):
            return plan_root(radicand, answer_of(calculation), conventions, rods, at_least)


def fits_a_frame(calculation: Calculation, conventions: Conventions = USUAL) -> bool:
    """Whether any frame has rods enough to work it so."""
    try:
        plan_of(calculation, conventions)
    except RodsError:
        return False
    return True


def answer_of(calculation: Quotient | Root) -> Result:
    """What comes out; where it is rounded, one decimal more must be worked."""
    result = calculation.result
    remainder = calculation.left_by(result)
    worked = decimals(result) if remainder is not None else (calculation.places or 0) + 1
    return Result(result, remainder, worked)

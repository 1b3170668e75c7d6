"""The catalogue of faulty habits: procedures in which something is done wrongly again and again.

Each is a rule of the trained hand that is left out or taken wrongly; what comes out of one alone
has a known error (trade literature and common practice; the rows of `tests/truth/habits.txt` have
the source of each). A habit that the catalogue of slips has, too, has its name.
"""

from enum import StrEnum

from frame.technique.slips import Slip


class Habit(StrEnum):
    """What goes wrong in a procedure. The ids are stable."""

    CARRY_FORGOTTEN = Slip.CARRY_FORGOTTEN.value
    BORROW_FORGOTTEN = Slip.BORROW_FORGOTTEN.value
    CARRIED_WITHOUT_PARTNER = Slip.CARRIED_WITHOUT_PARTNER.value
    BORROWED_WITHOUT_PARTNER = Slip.BORROWED_WITHOUT_PARTNER.value
    RIPPLE_STOPPED = Slip.RIPPLE_STOPPED.value
    """A carry clears a 9, or a borrow fills a 0, and runs on no further."""
    WRONG_PARTNER = Slip.WRONG_PARTNER.value
    """The number itself is taken for its partner of ten: 4 for 6, 6 for 4."""
    FIVES_PARTNER_FOR_TENS = Slip.FIVES_PARTNER_FOR_TENS.value
    """The partner of five is taken for that of ten; the five bead of a partner of ten, left where
    it is, comes to the same."""
    INNER_FIVE_MISSED = Slip.INNER_FIVE_MISSED.value
    """The partner of ten goes through the five, and its own number is taken for the partner of
    five: 14 - 6 with five in and four away."""
    PARTNER_OF_FIVE_LEFT = Slip.PARTNER_OF_FIVE_LEFT.value
    """The five bead moves, its partner stays."""
    WRONG_PARTNER_OF_FIVE = "wrong-partner-of-five"
    """The number itself is taken for its partner of five: 4 for 1, 3 for 2."""
    FIVE_BEAD_LEFT = "five-bead-left"
    """The five bead that a digit or a partner needs stays where it is."""
    BORROWED_THOUGH_FIVE = "borrowed-though-five"
    """A ten is borrowed, too, where the five bead on the rod is enough."""
    WRONG_ROD = Slip.WRONG_ROD.value
    """A number is worked one rod too far left."""
    DIGITS_SWAPPED = "digits-swapped"
    """A number is worked with its last two digits in the other order."""
    ADDED_FOR_TAKEN = "added-for-taken"
    """A number with a minus is added."""
    NOT_GIVEN_BACK = Slip.NOT_GIVEN_BACK.value
    NEGATIVE_READ_AS_SHOWN = Slip.NEGATIVE_READ_AS_SHOWN.value
    NOT_CLEARED = "not-cleared"
    """The answer before still stands on the frame, and a column is worked on it."""
    ROD_MISREAD = "rod-misread"
    """The answer is read with its unit rod one rod beside."""
    PRODUCT_ONE_ROD_OFF = Slip.PRODUCT_ONE_ROD_OFF.value
    """A product of one digit is put one rod too far left."""
    ZERO_NOT_SKIPPED = Slip.ZERO_NOT_SKIPPED.value
    """A zero within a factor takes no rod."""
    QUOTIENT_ONE_ROD_OFF = Slip.QUOTIENT_ONE_ROD_OFF.value
    REVISED_WITHOUT_ADDING_BACK = Slip.REVISED_WITHOUT_ADDING_BACK.value
    REMAINDER_NOT_SMALLER = Slip.REMAINDER_NOT_SMALLER.value
    """The last digit of a quotient is 1 too low."""

"""Twenty faults of learners, written by one who had not read the finder, its habits or its tests.

Each is a fixed procedure from the numbers of a column, added or with a minus taken away, to the
answer. They were written from the trade's list of mistakes and the README's list of ids alone, and
are left as they were written.
"""


def digits(number):
    """The digits of what a frame shows, highest first."""
    return [int(sign) for sign in str(abs(number))]


def number(read):
    """The number with these digits."""
    return int("".join(map(str, read)) or "0")


def read_by(reading, numbers):
    """The right sum, each rod of it read by `reading`."""
    right = sum(numbers)
    read = number(map(reading, digits(right)))
    return read if right >= 0 else -read


def worked(rod, numbers):
    """The column worked from the left by who has one way with a rod.

    `rod` is asked with the digit that stands there and the one that is to come (below zero: to go),
    and tells the digit that then stands and how many tens go left. Tens that are not there stay.
    """
    shown = 0
    for term in numbers:
        sign = 1 if term >= 0 else -1
        for power in reversed(range(len(digits(term)))):
            place = 10**power
            coming = sign * (abs(term) // place % 10)
            if not coming:
                continue
            standing = shown // place % 10
            stands, tens = rod(standing, coming)
            shown += (stands - standing) * place
            if shown + tens * 10 * place >= 0:
                shown += tens * 10 * place
    return shown


def rightly(standing, coming):
    """The digit that then stands, and the tens that go left."""
    tens, stands = divmod(standing + coming, 10)
    return stands, tens


def first_rod_lost(numbers):
    """Writes the answer from the right, and leaves the first rod out: 127 is written 27."""
    right = sum(numbers)
    kept = number(digits(right)[1:]) if abs(right) > 9 else abs(right)
    return kept if right >= 0 else -kept


def last_number_twice(numbers):
    """Works the last number two times."""
    return sum(numbers) + numbers[-1]


def last_number_left_out(numbers):
    """Takes the bottom number for the line that waits for the answer, and leaves it out."""
    return sum(numbers[:-1])


def empty_rods_not_written(numbers):
    """Writes a digit for each rod with beads at the bar, and none for an empty one: 80 is 8."""
    right = sum(numbers)
    read = number([digit for digit in digits(right) if digit])
    return read if right >= 0 else -read


def answer_swapped(numbers):
    """Writes the last two digits of the answer in the other order."""
    right = sum(numbers)
    read = digits(right)
    read[-2:] = reversed(read[-2:])
    return number(read) if right >= 0 else -number(read)


def smaller_from_larger(numbers):
    """Takes, rod by rod, the smaller digit from the larger: 52 - 17 is 45."""

    def rod(standing, coming):
        if coming < 0:
            return abs(standing + coming), 0
        return rightly(standing, coming)

    return worked(rod, numbers)


def five_bead_read_as_one(numbers):
    """Counts the bead above the bar as one when reading the answer: 7 is read 3."""
    return read_by(lambda digit: digit - 4 if digit >= 5 else digit, numbers)


def five_bead_not_read(numbers):
    """Counts the beads below the bar alone when reading the answer: 7 is read 2."""
    return read_by(lambda digit: digit % 5, numbers)


def ten_kept_on_its_rod(numbers):
    """Puts the one of a carry on the rod that it came from: 8 + 7 shows 6."""

    def rod(standing, coming):
        stands, tens = rightly(standing, coming)
        return (stands, tens) if tens <= 0 else (min(9, stands + 1), 0)

    return worked(rod, numbers)


def ten_two_rods_left(numbers):
    """Puts the one of a carry two rods to the left, where one was to be."""

    def rod(standing, coming):
        stands, tens = rightly(standing, coming)
        return stands, tens * 10 if tens > 0 else tens

    return worked(rod, numbers)


def ten_added_for_borrowed(numbers):
    """Adds the ten to the left rod where it is to be borrowed from there."""

    def rod(standing, coming):
        stands, tens = rightly(standing, coming)
        return stands, abs(tens)

    return worked(rod, numbers)


def nine_is_full(numbers):
    """Takes a rod for full at nine: where a nine comes to be, clears it and carries."""

    def rod(standing, coming):
        stands, tens = rightly(standing, coming)
        return (0, 1) if coming > 0 and stands == 9 and not tens else (stands, tens)

    return worked(rod, numbers)


def only_what_fits(numbers):
    """Adds as many as the rod holds and takes as many as stand there; the rest is let go."""
    return worked(lambda standing, coming: (min(9, max(0, standing + coming)), 0), numbers)


def counts_the_first(numbers):
    """Counts on from the last one counted, and it too: each number after the first is one short."""
    return numbers[0] + sum(term - (1 if term > 0 else -1) for term in numbers[1:])


def six_read_as_nine(numbers):
    """Reads a six in the column as a nine."""
    return sum(int(str(term).replace("6", "9")) for term in numbers)


def minus_holds_on(numbers):
    """Takes away all that follows a minus: 50 - 20 + 10 is 20."""
    total, taking = 0, False
    for term in numbers:
        taking = taking or term < 0
        total += -abs(term) if taking else term
    return total


def sets_for_adds(numbers):
    """Sets the ones rod to a coming digit, whatever stood there, where it was to be added."""
    shown = 0
    for term in numbers:
        if term >= 0:
            shown = (shown // 10 + term // 10) * 10 + term % 10
        else:
            shown += term
    return shown


def ones_written_whole(numbers):
    """Writes the sum of the ones whole, and the tens in front of it: 38 + 47 is 715."""
    shown = 0
    for term in numbers:
        ones = shown % 10 + term % 10
        if term >= 0 and ones >= 10:
            shown = (shown // 10 + term // 10) * 100 + ones
        else:
            shown += term
    return shown


def borrows_each_time(numbers):
    """Borrows a ten with each number taken, needed or not, and drops the ten too many."""

    def rod(standing, coming):
        stands, tens = rightly(standing, coming)
        return stands, -1 if coming < 0 else tens

    return worked(rod, numbers)


def tens_left_out(numbers):
    """Works the ones of each later number, and not its tens."""
    return numbers[0] + sum((abs(term) % 10) * (1 if term > 0 else -1) for term in numbers[1:])


SEALED = (
    first_rod_lost,
    last_number_twice,
    last_number_left_out,
    empty_rods_not_written,
    answer_swapped,
    smaller_from_larger,
    five_bead_read_as_one,
    five_bead_not_read,
    ten_kept_on_its_rod,
    ten_two_rods_left,
    ten_added_for_borrowed,
    nine_is_full,
    only_what_fits,
    counts_the_first,
    six_read_as_nine,
    minus_holds_on,
    sets_for_adds,
    ones_written_whole,
    borrows_each_time,
    tens_left_out,
)

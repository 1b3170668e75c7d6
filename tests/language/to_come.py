"""What is still to be worked, reckoned from the numbers of a calculation and from the beads alone.

A second model, made on purpose in another way than the judge's: the work is a chain of tasks, as
one writes them on paper; a hand is every reading of its beads that fits them, and all readings are
kept side by side. Digits are plain, rods are those of the frame.
"""

from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from decimal import Decimal
from functools import cache
from math import isqrt
from typing import Any, NamedTuple

from frame.technique.beads import BeadMove, Frame

Digits = tuple[int, ...]
"""What the rods show, the lowest rod first."""


class Work(NamedTuple):
    """A signed digit to be worked on a rod; a carry has the rod of its digit as its source."""

    rod: int
    change: int
    source: int


class Begun(NamedTuple):
    """A digit that was begun, and what its rod was to show before."""

    work: Work
    before: int


@dataclass(frozen=True, eq=False)
class Task:
    """One line of the work. `groups` are worked one after another, the works of a group in any
    order. A trial has none: its rod is to show one of the `lawful` digits."""

    kind: str
    groups: tuple[tuple[Work, ...], ...]
    start: Digits
    then: "Callable[[Digits], list[Task]]"
    facts: dict[str, Any] = field(default_factory=dict)
    rod: int = 0
    lawful: tuple[int, ...] = ()

    @property
    def is_trial(self) -> bool:
        return bool(self.lawful)


class Reading(NamedTuple):
    """One reading of a hand: the task, the digits that the rods are going to, what is not begun,
    carries that wait, what was begun."""

    task: Task
    goals: Digits
    queue: tuple[tuple[Work, ...], ...]
    carries: tuple[Work, ...] = ()
    begun: tuple[Begun, ...] = ()


def goes(digit: int, goal: int, change: int) -> bool:
    """Whether a bead change is on the way from one digit to another."""
    heaven, earth = deck_changes(digit, goal)
    if abs(change) == 5:
        return heaven == change
    return earth * change > 0 and abs(change) <= abs(earth)


def deck_changes(digit: int, goal: int) -> tuple[int, int]:
    """The change of the heaven bead and that of the earth beads."""
    return 5 * (goal // 5 - digit // 5), goal % 5 - digit % 5


def through_five(digit: int, goal: int) -> bool:
    heaven, earth = deck_changes(digit, goal)
    return heaven * earth < 0


@dataclass(frozen=True)
class Job:
    """A calculation on a frame: what its rods are called, how it begins, how it must end."""

    text: str
    lowest: int
    size: int
    first: tuple[Task, ...]
    is_column: bool = False

    def rods(self) -> range:
        return range(self.lowest, self.lowest + self.size)

    def has(self, rod: int) -> bool:
        return self.lowest <= rod < self.lowest + self.size

    def digits(self, frame: Frame) -> Digits:
        return tuple(int(digit) for digit in reversed(frame.digits))

    def begin(self, digits: Digits) -> list[Reading]:
        return self.settled([fresh(task) for task in self.first], digits)

    # --- readings of a hand

    def may_begin(self, reading: Reading, digits: Digits) -> Iterator[tuple[Work, bool]]:
        """The works that may be begun, and whether each is a carry."""
        for carry in reading.carries:
            yield carry, True
        is_resting = len(reading.task.groups) < 2 or (
            not reading.carries and reading.goals == digits
        )
        group_under_way = len(reading.queue) and len(reading.queue[0]) < len(
            reading.task.groups[len(reading.task.groups) - len(reading.queue)]
        )
        if reading.queue and (is_resting or group_under_way):
            for work in reading.queue[0]:
                yield work, False

    def open(self, reading: Reading, work: Work, is_carry: bool) -> Reading | None:
        """The reading with a work begun; None where its carry has no rod to go to."""
        at = work.rod - self.lowest
        if not 0 <= at < self.size:
            return None
        before = reading.goals[at]
        over, after = divmod(before + work.change, 10)
        goals = (*reading.goals[:at], after, *reading.goals[at + 1 :])
        carries = [one for one in reading.carries if not (is_carry and one == work)]
        queue = reading.queue
        if not is_carry:
            rest = tuple(one for one in queue[0] if one != work)
            queue = ((rest,) if rest else ()) + queue[1:]
        if over:
            if over < 0 and not any(reading.goals[at + 1 :]):
                if not reading.task.facts.get("below"):
                    return None
            elif at + 1 >= self.size:
                return None
            else:
                carries.append(Work(work.rod + 1, over, work.source))
        begun = (*reading.begun, Begun(work, before))
        return Reading(reading.task, goals, queue, tuple(sorted(carries)), begun)

    def after(self, readings: list[Reading], digits: Digits, move: BeadMove) -> list[Reading]:
        """The readings that allow a bead, each with no more begun than the bead asks for."""
        found: dict[Any, Reading] = {}
        at = move.rod - self.lowest
        if not 0 <= at < self.size or not possible(digits[at], move.change):
            return []
        here = digits[at] + move.change
        for reading in readings:
            for new in self._after_one(reading, digits, at, move.change):
                for one in (new, *self._reached(new, (*digits[:at], here, *digits[at + 1 :]), at)):
                    found.setdefault((id(one.task), *one[1:4], frozenset(one.begun)), one)
        return list(found.values())

    def _reached(self, reading: Reading, digits: Digits, at: int) -> Iterator[Reading]:
        """The readings in which a rod that strayed has come to what a work begun there asks."""
        if reading.goals[at] == digits[at] or reading.task.is_trial:
            return
        for work, is_carry in self.may_begin(reading, digits):
            new = self.open(reading, work, is_carry) if work.rod == at + self.lowest else None
            if new is not None and new.goals[at] == digits[at]:
                yield new

    def _after_one(
        self, reading: Reading, digits: Digits, at: int, change: int
    ) -> Iterator[Reading]:
        task = reading.task
        if task.is_trial and at == task.rod - self.lowest:
            ends = {*task.lawful, *((0,) if task.kind == "trial" else ())}
            if any(goes(digits[at], end, change) for end in ends):
                goals = list(reading.goals)
                goals[at] = digits[at] + change
                yield reading._replace(goals=tuple(goals))
            return
        waiting, seen = [reading], {key_of(reading)}
        while waiting:
            one = waiting.pop(0)
            if goes(digits[at], one.goals[at], change):
                yield one
                continue
            for work, is_carry in self.may_begin(one, digits):
                new = self.open(one, work, is_carry)
                if new is not None and key_of(new) not in seen:
                    seen.add(key_of(new))
                    waiting.append(new)

    def settled(self, readings: list[Reading], digits: Digits) -> list[Reading]:
        """The readings with the next task in the place of one that is done; a trial digit may be
        changed as well until the next line is begun."""
        found: list[Reading] = []
        waiting = list(readings)
        while waiting:
            reading = waiting.pop(0)
            if reading.task.kind == "done" or not self.is_done(reading, digits):
                found.append(reading)
                continue
            if reading.task.is_trial:
                found.append(reading)
            waiting += [fresh(task) for task in reading.task.then(digits)]
        return found

    def is_done(self, reading: Reading, digits: Digits) -> bool:
        task = reading.task
        if task.is_trial:
            same = all(
                digits[i] == reading.goals[i]
                for i in range(self.size)
                if i != task.rod - self.lowest
            )
            return same and digits[task.rod - self.lowest] in task.lawful
        if len(task.groups) < 2 and digits == self.end_of(task):
            return True
        return not reading.queue and not reading.carries and reading.goals == digits

    # --- ways on

    def finished(self, reading: Reading) -> Reading:
        """The reading with everything begun, the highest first."""
        while reading.carries or reading.queue:
            is_carry = bool(reading.carries)
            work = reading.carries[-1] if is_carry else max(reading.queue[0])
            new = self.open(reading, work, is_carry)
            assert new is not None, f"{self.text}: {work} has no room"
            reading = new
        return reading

    def end_of(self, task: Task) -> Digits:
        """What the rods show when a task is done; of a trial, with its usual digit."""
        if task.is_trial:
            digits = list(task.start)
            digits[task.rod - self.lowest] = task.facts["digit"]
            return tuple(digits)
        return self.finished(fresh(task)).goals

    def end_of_reading(self, reading: Reading) -> Digits:
        if reading.task.is_trial:
            goals = list(reading.goals)
            goals[reading.task.rod - self.lowest] = reading.task.facts["digit"]
            return tuple(goals)
        return self.finished(reading).goals

    def aims(self, reading: Reading, digits: Digits) -> dict[int, set[int]]:
        """The digits that each rod may be going to, with whatever of the task may be begun."""
        found: dict[int, set[int]] = {}
        if reading.task.is_trial:
            at = reading.task.rod - self.lowest
            return {reading.task.rod: {*reading.task.lawful} - {digits[at]}}
        waiting, seen = [reading], {key_of(reading)}
        while waiting:
            one = waiting.pop()
            for at, goal in enumerate(one.goals):
                if goal != digits[at]:
                    found.setdefault(at + self.lowest, set()).add(goal)
            for work, is_carry in self.may_begin(one, digits):
                new = self.open(one, work, is_carry)
                if new is not None and key_of(new) not in seen:
                    seen.add(key_of(new))
                    waiting.append(new)
        return found

    def moves_left(self, reading: Reading, digits: Digits, highest: bool) -> list[BeadMove]:
        """The bead moves of a plain way to the end of the task: what is begun first, then digit
        after digit."""
        now, moves = list(digits), []

        def come_to(goals: Digits) -> None:
            for at, goal in enumerate(goals):
                for change in deck_changes(now[at], goal):
                    if change:
                        moves.append(BeadMove(at + self.lowest, change))
                now[at] = goal

        if reading.task.is_trial:
            come_to(self.end_of_reading(reading))
            return moves
        while reading.carries:
            new = self.open(reading, reading.carries[0], True)
            assert new is not None
            reading = new
        come_to(reading.goals)
        while reading.queue:
            work = (max if highest else min)(reading.queue[0])
            new = self.open(reading, work, False)
            assert new is not None
            reading = new
            while reading.carries:
                new = self.open(reading, reading.carries[0], True)
                assert new is not None
                reading = new
            come_to(reading.goals)
        return moves

    def coming(self, reading: Reading, most: int = 40) -> list[Task]:
        """The tasks after the one under way, each trial with its usual digit."""
        found, digits = [], self.end_of_reading(reading)
        task = reading.task
        for _ in range(most):
            if task.kind == "done":
                break
            task = task.then(digits)[0]
            found.append(task)
            digits = self.end_of(task)
        return found

    def end(self, readings: list[Reading]) -> Digits:
        """What the frame shows when all is worked."""
        digits = self.end_of_reading(readings[0])
        for task in self.coming(readings[0], 400):
            digits = self.end_of(task)
        return digits


def key_of(reading: Reading) -> Any:
    return (*reading[1:4], frozenset(reading.begun))


def fresh(task: Task) -> Reading:
    return Reading(task, task.start, task.groups)


@cache
def possible(digit: int, change: int) -> bool:
    heaven, earth = divmod(digit, 5)
    if abs(change) == 5:
        return heaven == (0 if change > 0 else 1)
    return 0 <= earth + change <= 4


def done(digits: Digits) -> list[Task]:
    return [Task("done", (), digits, done)]


def in_turn(works: list[tuple[int, int]]) -> tuple[tuple[Work, ...], ...]:
    return tuple((Work(rod, change, rod),) for rod, change in works if change)


def at_once(works: list[tuple[int, int]]) -> tuple[tuple[Work, ...], ...]:
    group = tuple(Work(rod, change, rod) for rod, change in works if change)
    return (group,) if group else ()


def or_next(tasks: list[Task]) -> list[Task]:
    """Tasks that move no bead give way to what follows them."""
    found: list[Task] = []
    for task in tasks:
        is_empty = not task.groups and not task.is_trial and task.kind != "done"
        found += task.then(task.start) if is_empty else [task]
    return found


# --- columns of numbers


def scaled(number: Decimal, lowest: int) -> int:
    return int(number.scaleb(-lowest))


def signed_digits(number: int, lowest: int) -> list[tuple[int, int]]:
    """The signed digits of a number of lowest ones, the highest first."""
    sign, text = (1 if number >= 0 else -1), str(abs(number))
    return [(lowest + len(text) - 1 - at, sign * int(figure)) for at, figure in enumerate(text)]


def number_of(digits: Digits) -> int:
    return sum(digit * 10**at for at, digit in enumerate(digits))


@dataclass(frozen=True)
class Column:
    """A column of numbers on a frame that shows `value` lowest ones."""

    numbers: tuple[int, ...]
    lowest: int

    def row(self, at: int, value: int, owed: int | None, digits: Digits) -> list[Task]:
        if at == len(self.numbers):
            return done(digits)
        number = self.numbers[at]
        coming = value + number
        works = signed_digits(number, self.lowest)
        on_top: list[tuple[int, int]] = []
        raised = owed
        if owed is not None and -coming >= 10 ** (owed - self.lowest):
            raised = self.lowest + len(str(-coming))
            on_top = [(rod, 9 - digits[rod - self.lowest]) for rod in range(owed, raised)]
        is_below = coming < 0 or owed is not None
        if not is_below:
            groups = at_once(works)
            owes = None
        else:
            owes = self._owed_after(number_of(digits), on_top, works, raised)
            back = [(owes, -1)] if coming >= 0 and owes is not None else []
            groups = at_once(on_top) + in_turn(works + back)
        facts = {"below": is_below, "owed": owes, "change": number, "returns": coming >= 0}
        left = None if coming >= 0 else owes

        def then(after: Digits) -> list[Task]:
            return self.row(at + 1, coming, left, after)

        return or_next([Task("number", groups, digits, then, facts)])

    def _owed_after(
        self, shown: int, on_top: list[tuple[int, int]], works: list[tuple[int, int]],
        owed: int | None,
    ) -> int | None:  # fmt: skip
        """The rod of the 1 borrowed beyond the number once its digits are worked."""
        for rod, change in on_top:
            shown += change * 10 ** (rod - self.lowest)
        for rod, change in works:
            shown += change * 10 ** (rod - self.lowest)
            if shown < 0:
                owed = rod + 1
                shown += 10 ** (owed - self.lowest)
        return owed


def column(text: str, terms: list[Decimal], frame: Frame, value: Decimal = Decimal(0)) -> Job:
    """The job of numbers that are added on a frame as it stands, which shows `value`."""
    numbers = tuple(scaled(term, frame.lowest) for term in terms)
    digits = tuple(int(digit) for digit in reversed(frame.digits))
    first = Column(numbers, frame.lowest).row(0, scaled(value, frame.lowest), None, digits)
    return Job(text, frame.lowest, len(digits), tuple(first), is_column=True)


# --- written work


def figures(number: Decimal) -> tuple[str, int]:
    """The digits that count and the place of the first."""
    sign_less = format(abs(number), "f")
    whole, _, after = sign_less.partition(".")
    after = after.rstrip("0")
    digits = (whole + after).lstrip("0")
    return (digits, len(digits) - 1 - len(after)) if digits else ("0", 0)


def placed(digits: str, rod: int) -> list[tuple[int, int]]:
    return [(rod - at, int(digit)) for at, digit in enumerate(digits)]


@dataclass(frozen=True)
class Multiplying:
    """The multiplier at the left end, the multiplicand's lowest digit first, then cleared."""

    one: str
    other: str
    last: int
    lowest: int

    def tasks(self, at: int, inner: int, digits: Digits, is_turned: bool) -> list[Task]:
        """The tasks from the product of two digits on, counted from the multiplicand's last and the
        multiplier's first, or its last where the order is turned."""
        if at == len(self.one):
            return done(digits)
        rod, digit = self.last + at, int(self.one[-1 - at])
        if inner == len(self.other):
            shown = digits[rod - self.lowest]
            facts = {"number": digit, "rod": rod}
            return or_next(
                [Task("clear", in_turn([(rod, -shown)]), digits,
                      lambda after: self.tasks(at + 1, 0, after, is_turned), facts)]
            )  # fmt: skip
        index = len(self.other) - 1 - inner if is_turned else inner
        factor = int(self.other[index])
        product = f"{digit * factor:02}"
        zeros_inner = len(self.other[:index]) - len(self.other[:index].rstrip("0"))
        later = self.one[len(self.one) - at :]
        zeros_outer = len(later) - len(later.lstrip("0"))
        facts = {
            "factors": (digit, factor), "number": digit * factor, "rod": rod - 1 - index,
            "zeros": (zeros_inner, zeros_outer),
        }  # fmt: skip
        works = placed(product, rod - 1 - index)
        return or_next(
            [Task("product", in_turn(works), digits,
                  lambda after: self.tasks(at, inner + 1, after, is_turned), facts)]
        )  # fmt: skip

    def begin(self, digits: Digits) -> list[Task]:
        usual = self.tasks(0, 0, digits, False)
        return usual + (self.tasks(0, 0, digits, True) if len(self.other) > 1 else [])


def product(text: str, one: Decimal, other: Decimal, frame: Frame) -> Job:
    (some, place), (others, other_place) = figures(one), figures(other)
    first = place + other_place + 2
    digits = tuple(int(digit) for digit in reversed(frame.digits))
    work = Multiplying(some, others, first + 1 - len(some), frame.lowest)
    setting = at_once(placed(others, frame.highest) + placed(some, first))
    task = Task("set", setting, digits, work.begin)
    return Job(text, frame.lowest, len(digits), tuple(or_next([task])))


@dataclass(frozen=True)
class Trying:
    """Trial digits from one rod down to another. Of a root, the divisor is the root so far, and
    half the square of each digit goes as well; `root` has its digits."""

    divisor: str
    top: int
    last: int
    lowest: int
    root: str = ""

    def shown(self, digits: Digits, high: int, low: int) -> int:
        number = 0
        for rod in range(high, low - 1, -1):
            at = rod - self.lowest
            number = 10 * number + (digits[at] if 0 <= at < len(digits) else 0)
        return number

    def divided_by(self, digits: Digits, rod: int) -> str:
        return str(self.shown(digits, self.top, rod + 1)) if self.root else self.divisor

    def try_on(self, rod: int, digits: Digits) -> list[Task]:
        for place in range(rod, self.last - 1, -1):
            by = self.divided_by(digits, place)
            if by != "0" and self.shown(digits, place - 1, place - 1 - len(by)) >= int(by):
                return [self._trial(place, digits, by)]
        return done(digits)

    def _trial(self, rod: int, digits: Digits, by: str) -> Task:
        two = self.shown(digits, rod - 1, rod - 2)
        most = min(9, two // int(by[0]))
        facts = {"digit": most, "here": two, "there": int(by[0]), "rod": rod}
        lawful = range(max(self._least(rod, digits), 1), most + 1)

        def then(after: Digits) -> list[Task]:
            return self.take(rod, 0, after)

        return Task("trial", (), digits, then, facts, rod, tuple(lawful))

    def _least(self, rod: int, digits: Digits) -> int:
        """A quotient digit may be found from 1 upwards, one of a root is made smaller only."""
        if not self.root:
            return 1
        return int(self.root[self.top - rod])

    def take(self, rod: int, at: int, digits: Digits) -> list[Task]:
        """Take the products of the digit on a rod from the divisor's digit `at` on."""
        by, trial = self.divided_by(digits, rod), digits[rod - self.lowest]
        while at < len(by):
            number, rest = trial * int(by[at]), self.shown(digits, rod - 1, rod - 2 - at)
            if number > rest:
                return self._smaller(rod, at, digits, (Decimal(number), Decimal(rest)))
            if number:
                before = by[:at]
                facts = {
                    "factors": (trial, int(by[at])), "number": number, "rod": rod - 1 - at,
                    "zeros": (len(before) - len(before.rstrip("0")), 0), "trial": rod,
                }  # fmt: skip
                works = [(r, -d) for r, d in placed(f"{number:02}", rod - 1 - at)]

                def then(after: Digits, at: int = at) -> list[Task]:
                    return self.take(rod, at + 1, after)

                return [Task("taken", in_turn(works), digits, then, facts)]
            at += 1
        return self._end_digit(rod, by, trial, digits)

    def _end_digit(self, rod: int, by: str, trial: int, digits: Digits) -> list[Task]:
        if self.root:
            below = rod - 1 - len(by)
            half, rest = 5 * trial * trial, self.shown(digits, rod - 1, below - 2)
            if half > rest:
                why = (Decimal(half) / 10, Decimal(rest) / 10)
                return self._smaller(rod, len(by), digits, why)
            facts = {"factors": (trial, trial), "number": Decimal(half) / 10, "rod": below}
            works = [(r, -d) for r, d in placed(f"{half:03}", below)]
            return or_next(
                [Task("half", in_turn(works), digits, lambda after: self.try_on(rod - 1, after),
                      facts | {"zeros": (0, 0), "trial": rod})]
            )  # fmt: skip
        rest = self.shown(digits, rod - 1, rod - 1 - len(by))
        if rest >= int(by):
            return self._larger(rod, digits, rest, by)
        return self.try_on(rod - 1, digits)

    def _smaller(
        self, rod: int, at: int, digits: Digits, why: tuple[Decimal, Decimal]
    ) -> list[Task]:
        by, trial = self.divided_by(digits, rod), digits[rod - self.lowest]
        taken = by[:at]
        least = int(self.root[self.top - rod]) if self.root else min(1, trial - 1)
        lawful = tuple(range(least, trial))
        facts = {"digit": trial - 1, "here": why[0], "there": why[1], "trial": trial, "rod": rod}

        def back(after: Digits) -> list[Task]:
            less = trial - after[rod - self.lowest]
            return self._divisor_times(
                "back", rod, taken, less, after, lambda last: self.take(rod, at, last)
            )

        tasks = [Task("smaller", (), digits, back, facts, rod, lawful)]
        if taken.strip("0"):
            works = self._works(rod, taken, 1)
            turned = in_turn([*works, (rod, -1)])
            tasks.append(
                Task("turned", turned, digits, lambda after: self.take(rod, at, after),
                     facts | {"makes_up": "back", "number": int(taken)})
            )  # fmt: skip
        return tasks

    def _larger(self, rod: int, digits: Digits, rest: int, by: str) -> list[Task]:
        trial = digits[rod - self.lowest]
        most = min(9, trial + rest // int(by))
        facts = {"digit": trial + 1, "here": rest, "there": int(by), "trial": trial, "rod": rod}

        def again(after: Digits) -> list[Task]:
            more = after[rod - self.lowest] - trial
            return self._divisor_times(
                "again", rod, by, more, after, lambda last: self.take(rod, len(by), last)
            )

        works = [(r, -d) for r, d in self._works(rod, by, 1)]
        turned = in_turn([*works, (rod, 1)])
        lawful = tuple(range(trial + 1, most + 1))
        return [
            Task("larger", (), digits, again, facts, rod, lawful),
            Task("turned", turned, digits, lambda after: self.take(rod, len(by), after),
                 facts | {"makes_up": "again", "number": int(by)}),
        ]  # fmt: skip

    def _works(self, rod: int, taken: str, times: int) -> list[tuple[int, int]]:
        number = str(times * int(taken)).zfill(len(taken))
        return placed(number, rod - 2 + len(number) - len(taken))

    def _divisor_times(
        self, kind: str, rod: int, taken: str, times: int, digits: Digits,
        then: Callable[[Digits], list[Task]],
    ) -> list[Task]:  # fmt: skip
        if not taken.strip("0"):
            return then(digits)
        sign = 1 if kind == "back" else -1
        works = [(r, sign * d) for r, d in self._works(rod, taken, times)]
        facts = {"number": times * int(taken), "rod": rod}
        return [Task(kind, in_turn(works), digits, then, facts)]


def quotient(text: str, dividend: int, divisor: int, frame: Frame) -> Job:
    """A quotient of whole numbers with what is left over."""
    (some, place), (others, other_place) = figures(Decimal(dividend)), figures(Decimal(divisor))
    first = place - other_place - 2
    digits = tuple(int(digit) for digit in reversed(frame.digits))
    work = Trying(others, first + 2, 0, frame.lowest)
    setting = at_once(placed(others, frame.highest) + placed(some, first))
    task = Task("set", setting, digits, lambda after: work.try_on(first + 2, after))
    return Job(text, frame.lowest, len(digits), (task,))


def root(text: str, radicand: int, frame: Frame) -> Job:
    """A square root of a whole number with what is left over."""
    some, place = figures(Decimal(radicand))
    top = place // 2
    first = place - top - 2
    digits = tuple(int(digit) for digit in reversed(frame.digits))
    work = Trying("", top, 0, frame.lowest, str(isqrt(radicand)).zfill(top + 1))

    def begin(after: Digits) -> list[Task]:
        pair = work.shown(after, top - 1, top - 2)
        facts = {"digit": isqrt(pair), "here": pair, "rod": top}
        return [Task("trial", (), after, square, facts, top, (isqrt(pair),))]

    def square(after: Digits) -> list[Task]:
        digit = after[top - frame.lowest]
        works = [(r, -d) for r, d in placed(f"{digit * digit:02}", top - 1)]
        facts = {"factors": (digit, digit), "number": digit * digit, "rod": top - 1}
        more = {"zeros": (0, 0), "trial": top}
        return [Task("taken", in_turn(works), after, halve, facts | more)]

    def halve(after: Digits) -> list[Task]:
        odd, works = 0, []
        for rod in range(top - 1, frame.lowest - 1, -1):
            digit = after[rod - frame.lowest]
            works.append((rod, digit // 2 + 5 * odd - digit))
            odd = digit % 2
        return or_next(
            [Task("halve", in_turn(works), after, lambda last: work.try_on(top - 1, last))]
        )

    task = Task("set", at_once(placed(some, first)), digits, begin)
    return Job(text, frame.lowest, len(digits), (task,))

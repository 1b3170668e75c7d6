"""Sentences taken at their word: for each sentence of a verdict, a question asked of the beads.

A sentence is known by its text alone. What it claims is checked on a scene: the frame, and what is
still to be worked by the reckoning of `to_come`.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from decimal import Decimal

from to_come import (
    Begun,
    Digits,
    Job,
    Reading,
    Task,
    Work,
    deck_changes,
    goes,
    possible,
    through_five,
)

from frame.technique.beads import BeadMove, Frame, Stroke


class Unknown(AssertionError):
    """A sentence, or a part of one, that is in no table."""


@dataclass
class Scene:
    """A sentence where it is said: the frame before the stroke and as it stands now, the readings
    of the hand before and now, and whether the sentence is one of praise, of an omission or help.

    `stray` are the rods on which wrong beads were left lying, with how many.
    """

    job: Job
    before: Frame
    frame: Frame
    readings: list[Reading]
    now: list[Reading]
    raw: list[Reading]
    stroke: Stroke = ()
    stray: dict[int, int] = field(default_factory=dict)
    names_rods: bool = True
    is_young: bool = False
    kind: str = "stroke"

    @property
    def digits(self) -> Digits:
        return self.job.digits(self.before)

    @property
    def digits_now(self) -> Digits:
        return self.job.digits(self.frame)

    @property
    def wrong(self) -> Stroke:
        """The moves of the stroke that the sentence may be about: those wrong by themselves, or
        all where none is."""
        wrong = [m for m in self.stroke if not self.job.after(self.readings, self.digits, m)]
        return tuple(wrong) or self.stroke

    def at(self, rod: int, digits: Digits | None = None) -> int:
        return (self.digits if digits is None else digits)[rod - self.job.lowest]


@dataclass(frozen=True)
class Said:
    """A bead move as it is said: on a named rod, on one counted from the left, or on none."""

    change: int
    place: int | None = None
    from_left: int | None = None
    of_ones: bool = False


SMALL = [
    "zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten",
    "eleven", "twelve", "thirteen", "fourteen", "fifteen", "sixteen", "seventeen", "eighteen",
    "nineteen",
]  # fmt: skip
TENS = ["_", "_", "twenty", "thirty", "forty", "fifty"]


def counted(text: str) -> int:
    if text in SMALL:
        return SMALL.index(text)
    ten, _, one = text.partition("-")
    return 10 * TENS.index(ten) + (SMALL.index(one) if one else 0)


WHOLE = ["ones", "tens", "hundreds"]
SCALES = ["", "thousands", "millions", "billions", "trillions"]
PLACES = {name: rod for rod, name in enumerate(WHOLE)}
for _scale in range(1, 5):
    for _at, _of in enumerate(("", "ten ", "hundred ")):
        PLACES[_of + SCALES[_scale]] = 3 * _scale + _at
PLACES |= {"tenths": -1, "hundredths": -2, "thousandths": -3, "ten thousandths": -4}
PLACES |= {"hundred thousandths": -5, "millionths": -6}
_PLACE = "|".join(sorted(PLACES, key=len, reverse=True))
_COUNT = r"[a-z]+(?:-[a-z]+)?"
_MOVE = re.compile(
    rf"(?:(?P<heaven>five bead)|(?P<count>one|two|three|four) (?P<kind>beads?|ones)) "
    rf"(?P<way>up|down)(?: on the (?P<place>{_PLACE})| on rod (?P<left>{_COUNT}))?",
    re.IGNORECASE,
)


def move_said(text: str) -> Said | None:
    found = _MOVE.fullmatch(text)
    if found is None:
        return None
    if found["heaven"]:
        change = 5 if found["way"] == "down" else -5
    else:
        change = counted(found["count"].lower()) * (1 if found["way"] == "up" else -1)
    place = PLACES[found["place"]] if found["place"] else None
    left = counted(found["left"]) if found["left"] else None
    return Said(change, place, left, found["kind"] == "ones")


def rods_meant(said: Said, scene: Scene) -> list[int]:
    """The rods that a move may be meant for. Where places are named, a move without one is on the
    ones, or for the young on the rod that was just touched; where operands stand, on the rod that
    was just touched, or for the young on any."""
    if said.place is not None:
        return [said.place] if scene.names_rods else []
    if said.from_left is not None:
        return [scene.frame.highest + 1 - said.from_left]
    is_free = scene.kind == "hint" or not scene.stroke
    if scene.is_young:
        is_free = is_free or not scene.names_rods
        return list(scene.job.rods()) if is_free else [move.rod for move in scene.stroke]
    if scene.names_rods:
        return [0]
    return list(scene.job.rods()) if is_free else [move.rod for move in scene.stroke]


# --- works


@dataclass(frozen=True)
class Way:
    """A digit worked: its work, what its rod shows before, and what it goes to."""

    work: Work
    before: int
    is_begun: bool

    @property
    def goal(self) -> int:
        return (self.before + self.work.change) % 10

    @property
    def carries(self) -> bool:
        return not 0 <= self.before + self.work.change <= 9

    @property
    def parts(self) -> list[int]:
        """What it is worked as: the five, the ten, their partners."""
        heaven, earth = deck_changes(self.before, self.goal)
        own = [heaven, earth] if through_five(self.before, self.goal) else [heaven + earth]
        return own + ([10 if self.work.change > 0 else -10] if self.carries else [])


def ways(scene: Scene, reading: Reading, digits: Digits) -> Iterator[Way]:
    """The digits under way, and those that may be begun now."""
    job = scene.job
    for begun in reading.begun:
        if is_open(job, reading, digits, begun):
            yield Way(begun.work, begun.before, True)
    for work, _ in job.may_begin(reading, digits):
        if job.has(work.rod):
            yield Way(work, reading.goals[work.rod - job.lowest], False)


def is_open(job: Job, reading: Reading, digits: Digits, begun: Begun) -> bool:
    """Whether something is left of a digit that was begun, on its rod or of its carry."""
    rods = family(reading, begun.work)
    is_left = any(digits[rod - job.lowest] != reading.goals[rod - job.lowest] for rod in rods)
    return is_left or any(one.source == begun.work.source for one in reading.carries)


def family(reading: Reading, work: Work) -> list[int]:
    """The rods on which a digit and its carry were begun."""
    if work.rod != work.source:
        return [work.rod]
    return [begun.work.rod for begun in reading.begun if begun.work.source == work.source]


def sources(scene: Scene, reading: Reading) -> Iterator[tuple[Work, int]]:
    """The digits begun, with what their rod showed."""
    for begun in reading.begun:
        if begun.work.rod == begun.work.source:
            yield begun.work, begun.before


def is_there(scene: Scene, reading: Reading, rod: int) -> bool:
    """Whether a rod has come to where it goes."""
    return scene.at(rod) == reading.goals[rod - scene.job.lowest]


def chain(reading: Reading, source: int) -> list[int]:
    """The rods of a digit's carry that were begun."""
    return [b.work.rod for b in reading.begun if b.work.source == source != b.work.rod]


def waiting(reading: Reading, source: int) -> list[int]:
    return [one.rod for one in reading.carries if one.source == source]


# --- claims: True where the sentence is true of the scene

Claim = Callable[[Scene, dict[str, str]], bool]


def any_reading(check: Callable[[Scene, Reading, dict[str, str]], bool]) -> Claim:
    def claim(scene: Scene, said: dict[str, str]) -> bool:
        return any(check(scene, reading, said) for reading in scene.readings)

    return claim


def with_move(check: Callable[[Scene, Reading, BeadMove, dict[str, str]], bool]) -> Claim:
    def claim(scene: Scene, said: dict[str, str]) -> bool:
        return any(
            check(scene, reading, move, said)
            for reading in scene.readings
            for move in scene.wrong
            if scene.job.has(move.rod)
        )

    return claim


def nothing(scene: Scene, said: dict[str, str]) -> bool:
    return True


def same_deck(one: BeadMove, other: BeadMove) -> bool:
    return one.rod == other.rod and one.is_heaven == other.is_heaven


def covers(wanted: BeadMove, move: BeadMove) -> bool:
    """Whether a move is all of another or a part of it."""
    is_way = same_deck(wanted, move) and wanted.change * move.change > 0
    return is_way and move.beads <= wanted.beads


def deck_of(digit: int, is_heaven: bool) -> int:
    return digit // 5 if is_heaven else digit % 5


def beads_of(job: Job, rod: int, digit: int, change: int) -> list[BeadMove]:
    """The bead moves on its own rod of a digit that is worked there."""
    changes = deck_changes(digit, (digit + change) % 10)
    return [BeadMove(rod, one) for one in changes if one]


def begins(job: Job, digits: Digits, rod: int, change: int, move: BeadMove) -> bool:
    """Whether a bead makes a part of a digit worked on a rod, or of its carry."""
    at = rod - job.lowest
    while 0 <= at < job.size:
        if any(covers(b, move) for b in beads_of(job, at + job.lowest, digits[at], change)):
            return possible(digits[move.rod - job.lowest], move.change)
        if 0 <= digits[at] + change <= 9:
            return False
        at, change = at + 1, 1 if change > 0 else -1
    return False


def another_first(scene: Scene, reading: Reading, move: BeadMove, said: dict[str, str]) -> bool:
    job = scene.job
    left = job.moves_left(reading, scene.digits, True) + job.moves_left(
        reading, scene.digits, False
    )
    if any(covers(one, move) for one in left):
        return True
    for task in job.coming(reading)[:12]:
        now = Reading(task, task.start, task.groups)
        if any(covers(one, move) for one in job.moves_left(now, task.start, True)):
            return True
        if task.is_trial and task.rod == move.rod and move.change > 0:
            return True
        works = [work for group in task.groups for work in group]
        if any(begins(job, scene.digits, work.rod, work.change, move) for work in works):
            return True
        goals = job.aims(now, task.start).get(move.rod, ())
        if any(goes(task.start[move.rod - job.lowest], goal, move.change) for goal in goals):
            return True
    return False


def stays(scene: Scene, reading: Reading, move: BeadMove, said: dict[str, str]) -> bool:
    """Each bead that was moved is where it must be when the number or line is done, and need not
    move before: of earth beads, those nearer the beam count."""
    job, at = scene.job, move.rod - scene.job.lowest
    here = deck_of(scene.digits[at], move.is_heaven)
    for highest in (True, False):
        shown, is_kept = here, True
        for one in job.moves_left(reading, scene.digits, highest):
            if same_deck(one, move):
                shown += one.change // (5 if move.is_heaven else 1)
                is_kept = is_kept and (shown >= here if move.change < 0 else shown <= here)
        if is_kept:
            return True
    end = deck_of(job.end_of_reading(reading)[at], move.is_heaven)
    is_free = not reading.task.is_trial and len(reading.task.groups) < 2
    return is_free and (end >= here if move.change < 0 else end <= here)


def shows(scene: Scene, said: dict[str, str]) -> bool:
    rods = [move.rod for move in scene.wrong]
    return any(scene.at(rod, scene.digits_now) == int(said["digit"]) for rod in rods)


def missed_five(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    rods = {move.rod for move in scene.wrong}
    for way in ways(scene, reading, scene.digits):
        if not (way.is_begun or way.work.rod in rods):
            continue
        if not way.carries or not through_five(way.before, way.goal):
            continue
        here = scene.at(way.work.rod)
        is_left = deck_changes(here, way.goal)
        if is_left[0] if said.get("five") else any(is_left):
            return True
    return False


def use_five(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    return missed_five(scene, reading, {"five": "five"})


def of_five(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    pair = {int(said["one"]), int(said["other"])} if "one" in said else None
    if pair and sum(map(int, (said["one"], said["other"]))) != 5:
        return False
    rods = {move.rod for move in scene.wrong}
    for way in ways(scene, reading, scene.digits):
        if not through_five(way.before, way.goal) or not (way.is_begun or way.work.rod in rods):
            continue
        earth = abs(deck_changes(way.before, way.goal)[1])
        if (pair is None or earth in pair) and any(deck_changes(scene.at(way.work.rod), way.goal)):
            return True
    aims = scene.job.aims(reading, scene.digits)
    for rod in rods:
        for goal in aims.get(rod, ()) if scene.job.has(rod) else ():
            earth = abs(deck_changes(scene.at(rod), goal)[1])
            if through_five(scene.at(rod), goal) and (pair is None or earth in pair):
                return True
    return False


def of_ten(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    if "one" in said and int(said["one"]) + int(said["other"]) != 10:
        return False
    rods = {move.rod for move in scene.wrong}
    for way in ways(scene, reading, scene.digits):
        if not way.carries or not (way.is_begun or way.work.rod in rods):
            continue
        is_worked = "one" not in said or abs(way.work.change) == int(said["one"])
        if is_worked and any(deck_changes(scene.at(way.work.rod), way.goal)):
            return True
    return False


def deck_aims(scene: Scene, reading: Reading, move: BeadMove) -> set[int]:
    """The changes that a move's deck may still have to make."""
    here = scene.at(move.rod)
    goals = scene.job.aims(reading, scene.digits).get(move.rod, set())
    return {deck_changes(here, goal)[0 if move.is_heaven else 1] for goal in goals}


def only(scene: Scene, reading: Reading, move: BeadMove, said: dict[str, str]) -> bool:
    count = counted(said["count"])
    if count >= move.beads:
        return False
    wanted = 5 if move.is_heaven else count
    return (wanted if move.change > 0 else -wanted) in deck_aims(scene, reading, move)


def not_all(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    task = reading.task
    if task.is_trial:
        usual, start = task.facts["digit"], scene.at(task.rod, task.start)
        return scene.at(task.rod) not in (usual, start)
    return any(way.is_begun for way in ways(scene, reading, scene.digits))


def other_way(scene: Scene, reading: Reading, move: BeadMove, said: dict[str, str]) -> bool:
    return any(change * move.change < 0 for change in deck_aims(scene, reading, move))


def run_out(scene: Scene, reading: Reading, move: BeadMove, said: dict[str, str]) -> bool:
    """The digit cannot be made straight on that rod, or there are no beads for the move at all."""
    if not possible(scene.at(move.rod), move.change):
        return True
    for way in ways(scene, reading, scene.digits):
        is_straight = not way.carries and not through_five(way.before, way.goal)
        if way.work.rod == move.rod and way.work.change * move.change > 0 and not is_straight:
            return True
    return False


def another_rod(scene: Scene, reading: Reading, move: BeadMove, said: dict[str, str]) -> bool:
    aims = scene.job.aims(reading, scene.digits)
    for rod, goals in aims.items():
        for goal in goals if rod != move.rod else ():
            for change in deck_changes(scene.at(rod), goal):
                if change and covers(BeadMove(rod, change), BeadMove(rod, move.change)):
                    return True
    works = [way.work for way in ways(scene, reading, scene.digits)]
    return any(
        begins(scene.job, scene.digits, move.rod, work.change, move)
        for work in works
        if abs(work.rod - move.rod) == 1
    )


def no_rod(scene: Scene, said: dict[str, str]) -> bool:
    return any(not scene.before.has(move.rod) for move in scene.stroke)


def goes_on(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    works = [way.work for way in ways(scene, reading, scene.digits)]
    rod, digit = PLACES[said["rod"]], int(said["number"])
    if not scene.names_rods:
        return False
    is_digit = any((one.rod, abs(one.change)) == (rod, digit) for one in works)
    return is_digit and all(move.rod != rod for move in scene.wrong)


def other_deck(scene: Scene, reading: Reading, move: BeadMove, said: dict[str, str]) -> bool:
    """Some goal of the rod needs the other deck and nothing of this one."""
    here = scene.at(move.rod)
    own, other = (0, 1) if move.is_heaven else (1, 0)
    return any(
        deck_changes(here, goal)[other] and not deck_changes(here, goal)[own]
        for goal in scene.job.aims(reading, scene.digits).get(move.rod, ())
    )


def runs_on(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    for work, _ in sources(scene, reading):
        rods = chain(reading, work.source)
        touched = [
            rod for rod in rods if is_there(scene, reading, rod) or was_moved(scene, reading, rod)
        ]
        left = waiting(reading, work.source) + [r for r in rods if not is_there(scene, reading, r)]
        if touched and any(rod > max(touched) for rod in left):
            return True
    return False


def was_moved(scene: Scene, reading: Reading, rod: int) -> bool:
    before = next(b.before for b in reading.begun if b.work.rod == rod)
    return scene.at(rod) != before


def rod_left_out(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    for work, _ in sources(scene, reading):
        rods = chain(reading, work.source)
        left = [rod for rod in rods if not is_there(scene, reading, rod)]
        left = [rod for rod in left if any(r > rod and was_moved(scene, reading, r) for r in rods)]
        if left:
            return True
    return False


def ten_missing(sign: int) -> Claim:
    def check(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
        for work, before in sources(scene, reading):
            carries = not 0 <= before + work.change <= 9
            if carries and work.change * sign > 0 and not chain(reading, work.source):
                return True
        return False

    return any_reading(check)


def partner_missing(sign: int) -> Claim:
    def check(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
        for work, before in sources(scene, reading):
            rods = chain(reading, work.source)
            is_done = not waiting(reading, work.source) and all(
                is_there(scene, reading, rod) for rod in rods
            )
            is_owed = before + work.change < 0 and not rods
            if work.change * sign > 0 and (rods or is_owed) and is_done:
                change = reading.goals[work.rod - scene.job.lowest] - scene.at(work.rod)
                if change * sign < 0:
                    return True
        return False

    return any_reading(check)


def five_partner_left(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    """The five has moved, its partner not."""
    for way in ways(scene, reading, scene.digits):
        if not way.is_begun or not through_five(way.before, way.goal):
            continue
        here = scene.at(way.work.rod)
        heaven, earth = deck_changes(here, way.goal)
        if not heaven and earth:
            return True
    return False


def five_itself_left(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    """The partner of five has moved, the five not."""
    for way in ways(scene, reading, scene.digits):
        if not way.is_begun or not through_five(way.before, way.goal):
            continue
        heaven, earth = deck_changes(scene.at(way.work.rod), way.goal)
        if heaven and not earth:
            return True
    return False


def unlike(task: Task, said: dict[str, str]) -> bool:
    return "one" in said and factors(task) != (int(said["one"]), int(said["other"]))


def factors(task: Task) -> tuple[int, int] | None:
    return task.facts.get("factors")


PRODUCTS = ("product", "taken")


def due(*kinds: str) -> Claim:
    """The line under way is of such a kind, of the factors and with the number that are said."""

    def check(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
        task = reading.task
        kind = task.facts.get("makes_up", task.kind)
        if kind not in kinds or unlike(task, said):
            return False
        return "number" not in said or Decimal(said["number"]) == Decimal(task.facts["number"])

    return any_reading(check)


def product_is(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    one, other, number = (int(said[name]) for name in ("one", "other", "number"))
    is_due = reading.task.kind in PRODUCTS and factors(reading.task) == (one, other)
    return one * other == number and is_due


def half_is(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    task = reading.task
    if task.kind != "half" or unlike(task, said):
        return False
    return 2 * Decimal(said["number"]) == factors(task)[0] ** 2


def half_due(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    return reading.task.kind == "half" and not unlike(reading.task, said)


def skipped_zero(scene: Scene, reading: Reading, move: BeadMove, said: dict[str, str]) -> bool:
    task = reading.task
    if task.kind not in PRODUCTS or not reading.queue:
        return False
    inner, outer = task.facts["zeros"]
    offs = [*range(1, inner + 1), *range(-outer, 0)]
    return any(is_beside(scene, reading, move, off) for off in offs)


def is_beside(scene: Scene, reading: Reading, move: BeadMove, off: int) -> bool:
    """Whether a bead begins the digit that is due, so many rods off, or is one of its beads."""
    (work, *_) = reading.queue[0]
    if begins(scene.job, scene.digits, work.rod + off, work.change, move):
        return True
    digits = scene.digits
    wanted = deck_and_carry(scene, digits, work)
    return any(covers(BeadMove(one.rod + off, one.change), move) for one in wanted)


def deck_and_carry(scene: Scene, digits: Digits, work: Work) -> list[BeadMove]:
    moves, rod, change = [], work.rod, work.change
    while scene.job.has(rod):
        here = digits[rod - scene.job.lowest]
        moves += beads_of(scene.job, rod, here, change)
        if 0 <= here + change <= 9:
            break
        rod, change = rod + 1, 1 if change > 0 else -1
    return moves


def one_rod(side: int) -> Claim:
    """The product that is due belongs one rod further left (1) or right (-1) than the bead."""

    def check(scene: Scene, reading: Reading, move: BeadMove, said: dict[str, str]) -> bool:
        task = reading.task
        is_product = task.kind in (*PRODUCTS, "half") and not unlike(task, said)
        is_trial = task.kind == "trial" and not said
        if is_trial and task.rod - move.rod == side:
            return True
        return is_product and bool(reading.queue) and is_beside(scene, reading, move, -side)

    return with_move(check)


def trial_off(side: int) -> Claim:
    def check(scene: Scene, reading: Reading, move: BeadMove, said: dict[str, str]) -> bool:
        return reading.task.kind == "trial" and reading.task.rod - move.rod == side

    return with_move(check)


def later(kinds: tuple[str, ...]) -> Claim:
    """The line is one to come, not the one under way, and the bead begins it."""

    def check(scene: Scene, reading: Reading, move: BeadMove, said: dict[str, str]) -> bool:
        if "one" in said and not unlike(reading.task, said):
            return False
        for task in scene.job.coming(reading):
            if task.kind in kinds and not unlike(task, said):
                works = [work for group in task.groups for work in group]
                if any(
                    begins(scene.job, scene.digits, work.rod, work.change, move) for work in works
                ):
                    return True
        return False

    return with_move(check)


def clear_first(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    task = reading.task
    if task.kind != "clear" or task.facts["number"] != int(said["number"]):
        return False
    shown = {scene.at(task.facts["rod"]), scene.at(task.facts["rod"], task.start)}
    return int(said["number"]) in shown


def too_large(scene: Scene, reading: Reading, move: BeadMove, said: dict[str, str]) -> bool:
    task = reading.task
    if task.kind != "trial" or task.rod != move.rod:
        return False
    tried = scene.at(move.rod) + move.change
    there = task.facts.get("there", tried)
    figures = (tried * there, task.facts["here"])
    if "here" in said and (int(said["here"]), int(said["there"])) != (tried, there):
        return False
    return figures == (int(said["product"]), int(said["rest"])) and figures[0] > figures[1]


def figures_of(kind: str) -> Claim:
    """The two figures that decide a revision really stand."""

    def check(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
        facts = reading.task.facts
        if reading.task.kind != kind:
            return False
        if "here" not in said:
            return True
        here, there = Decimal(said["here"]), Decimal(said["there"])
        if (here, there) != (Decimal(facts["here"]), Decimal(facts["there"])):
            return False
        if "one" in said and (int(said["one"]), int(said["other"])) != (
            facts["trial"],
            facts["digit"],
        ):
            return False
        return here > there if kind == "smaller" else here >= there

    return any_reading(check)


def either_revision(scene: Scene, said: dict[str, str]) -> bool:
    """The trial digit is the one that stands, and becomes another."""
    return figures_of("smaller")(scene, said) or figures_of("larger")(scene, said)


def give_back(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    task = reading.task
    if task.kind != "number" or not task.facts["returns"] or task.facts["owed"] is None:
        return False
    rod = task.facts["owed"]
    is_last = len(reading.queue) == 1 and [w.rod for w in reading.queue[0]] == [rod]
    is_number = "number" not in said or Decimal(said["number"]) == Decimal(10) ** rod
    return is_last and is_number


def below_zero(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    return scene.kind == "below"


def try_digit(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    task, number = reading.task, int(said["number"])
    if task.kind != "trial":
        return False
    if "there" not in said:
        return number in task.lawful
    here, there = int(said["here"]), int(said["there"])
    is_so = (here, there) == (task.facts["here"], task.facts.get("there"))
    return is_so and number == min(9, here // there)


def first_root(scene: Scene, reading: Reading, said: dict[str, str]) -> bool:
    here, number = int(said["here"]), int(said["number"])
    is_due = reading.task.kind == "trial" and reading.task.facts["here"] == here
    return is_due and number**2 <= here < (number + 1) ** 2


def due_now(claim: Claim) -> Claim:
    """A claim about the line that is due as the frame now stands."""

    def check(scene: Scene, said: dict[str, str]) -> bool:
        now = Scene(
            scene.job, scene.frame, scene.frame, scene.now, scene.now, scene.now,
            scene.stroke, scene.stray, scene.names_rods, scene.is_young, scene.kind,
        )  # fmt: skip
        return claim(now, said)

    return check


# --- the next act


def next_move(scene: Scene, said: dict[str, str]) -> bool:
    """The bead can be moved on the frame as it stands, and is a part of the work."""
    moves = [move_said(part) for part in said["move"].split(" and ")]
    if None in moves:
        raise Unknown(said["move"])
    if len(moves) == 2 and moves[0].place is None and moves[0].from_left is None:
        moves[0] = Said(moves[0].change, moves[1].place, moves[1].from_left, moves[0].of_ones)
    for rod in rods_meant(moves[-1], scene):
        readings, frame = scene.now, scene.frame
        for one in moves:
            move = BeadMove(rod, one.change)
            readings = scene.job.after(readings, scene.job.digits(frame), move)
            if not readings:
                break
            frame = frame.apply(move)
        if readings:
            return True
    return False


def next_on(scene: Scene, said: dict[str, str]) -> bool:
    rod = PLACES[said["rod"]]
    return scene.names_rods and any(
        scene.job.after(scene.now, scene.digits_now, BeadMove(rod, change))
        for change in (-5, -1, 1, 5)
    )


# --- praise


def made(scene: Scene, said: dict[str, str]) -> bool:
    """The move that is said is the one that was made, and no wrong bead lies."""
    moves = [move_said(part) for part in said["move"].split(" and ")]
    if None in moves:
        raise Unknown(said["move"])
    rods = rods_meant(moves[-1], scene)
    is_made = sorted(one.change for one in moves) == sorted(m.change for m in scene.stroke)
    return is_made and all(move.rod in rods for move in scene.stroke) and all_well(scene)


def all_well(scene: Scene) -> bool:
    """The stroke is a part of lawful work, and no wrong bead lies anywhere."""
    return bool(scene.raw) and not scene.stray


def other_order(scene: Scene, said: dict[str, str]) -> bool:
    """All is well; or the number's end stood there while the hand was on its way to it."""
    was_there = any(scene.job.is_done(one, scene.digits) for one in scene.readings)
    return all_well(scene) or (was_there and not scene.stray)


def undone(scene: Scene, said: dict[str, str]) -> bool:
    """The stroke takes beads off or away that some digit has brought: no reading wants it now."""
    return bool(scene.stroke) and not any(
        scene.job.after(scene.readings, scene.digits, move) for move in scene.wrong
    )


def astray(scene: Scene, said: dict[str, str]) -> bool:
    """Some rod does not show what it must, and the stroke just made was no wrong one."""
    return bool(scene.raw) and left_astray(scene, said)


def left_astray(scene: Scene, said: dict[str, str]) -> bool:
    """Some rod does not show what it must: a bead lies wrong, or was taken back."""
    return any(scene.stray.values()) or any(
        work.is_begun for reading in scene.now for work in ways(scene, reading, scene.digits_now)
    )


def more(scene: Scene, said: dict[str, str]) -> bool:
    """So many beads of the stroke's deck are to follow it."""
    count = counted(said["count"].lower()) * (1 if said["way"] == "up" else -1)
    now = Scene(scene.job, scene.frame, scene.frame, scene.now, scene.now, scene.now, scene.stroke)
    return all_well(scene) and any(
        count in deck_aims(now, reading, move)
        for reading in scene.raw
        for move in scene.stroke
        if not move.is_heaven
    )


def rule_parts(said: dict[str, str]) -> list[int]:
    """What is said to go in, and what out."""
    parts = []
    for part in said["said"].split(", "):
        count, way = part.rsplit(" ", 1)
        parts.append(counted(count.lower()) * (1 if way == "in" else -1))
    return parts


def rule_done(scene: Scene, said: dict[str, str]) -> bool:
    """The parts are what was worked: by the rod's beads and those of its carry."""
    parts = rule_parts(said)
    rods = {move.rod for move in scene.stroke}
    for reading in scene.raw:
        if reading.task.is_trial or reading.task.kind == "turned":
            start = reading.task.start[reading.task.facts["rod"] - scene.job.lowest]
            here = scene.at(reading.task.facts["rod"], scene.digits_now)
            changes = (here - start, sum(move.change for move in scene.stroke))
            if sum(parts) in changes and reading.task.facts["rod"] in rods:
                return all_well(scene)
        for begun in reading.begun:
            way = Way(begun.work, begun.before, True)
            is_of = bool(rods & set(family(reading, begun.work)))
            is_done = not is_open(scene.job, reading, scene.digits_now, begun)
            if begun.work.rod != begun.work.source or not is_of or not is_done:
                continue
            if sorted(way.parts) == sorted(parts) and begun.work.change == sum(parts):
                return all_well(scene)
    return False


def rule_due(scene: Scene, said: dict[str, str]) -> bool:
    """The parts are those of a digit that is under way or may be begun, and add up to it."""
    parts = rule_parts(said)
    return any(
        sorted(way.parts) == sorted(parts) and way.work.change == sum(parts)
        for reading in scene.now
        for way in ways(scene, reading, scene.digits_now)
    )


def borrowed(scene: Scene, said: dict[str, str]) -> bool:
    readings = [*scene.now, *scene.raw]
    owed = [reading.task.facts.get("owed") for reading in readings]
    return any(rod is not None and Decimal(10) ** rod == Decimal(said["number"]) for rod in owed)


def all_there(scene: Scene, said: dict[str, str]) -> bool:
    return any(reading.task.kind == "done" for reading in scene.now)


# --- the table: every sentence, as it stands in the words file, and what it claims

SLIPS: dict[str, Claim] = {
    "Not yet.": with_move(another_first),
    "Another bead comes first.": with_move(another_first),
    "That bead stays.": with_move(stays),
    "That bead stays where it is.": with_move(stays),
    "That bead was right.": undone,
    "That bead was right there.": undone,
    "This rod shows {digit}.": shows,
    "Use the five bead.": any_reading(use_five),
    "This partner uses the five bead.": any_reading(missed_five),
    "Partner of five, please.": any_reading(of_five),
    "Partners of five: {one} and {other}.": any_reading(of_five),
    "Partner of ten, please.": any_reading(of_ten),
    "Partners of ten: {one} and {other}.": any_reading(of_ten),
    "Only {count} here.": with_move(only),
    "Not all yet.": any_reading(not_all),
    "Not all beads have moved.": any_reading(not_all),
    "The other way.": with_move(other_way),
    "This bead goes the other way.": with_move(other_way),
    "The beads run out.": with_move(run_out),
    "The beads run out there.": with_move(run_out),
    "Not this rod.": with_move(another_rod),
    "This move is for another rod.": with_move(another_rod),
    "There is no rod.": no_rod,
    "There is no such rod.": no_rod,
    "The {number} goes on the {rod}.": any_reading(goes_on),
    "The other beads.": with_move(other_deck),
    "The beads across the beam move.": with_move(other_deck),
    "The ten runs on.": any_reading(runs_on),
    "The ten runs on further left.": any_reading(runs_on),
    "Not all rods.": any_reading(rod_left_out),
    "A rod is left out.": any_reading(rod_left_out),
    "Ten in, too.": ten_missing(1),
    "The ten goes in, too.": ten_missing(1),
    "Ten out, too.": ten_missing(-1),
    "The ten goes out, too.": ten_missing(-1),
    "Its partner goes out.": partner_missing(1),
    "Ten in: its partner goes out.": partner_missing(1),
    "Its partner goes in.": partner_missing(-1),
    "Ten out: its partner goes in.": partner_missing(-1),
    "Five has a partner.": any_reading(five_partner_left),
    "The partner of five moves, too.": any_reading(five_partner_left),
    "The five bead moves.": any_reading(five_itself_left),
    "The five bead moves, too.": any_reading(five_itself_left),
    "{one} becomes {other}.": either_revision,
    "Mind the zero.": with_move(skipped_zero),
    "A zero takes a rod, too.": with_move(skipped_zero),
    "One rod to the left.": one_rod(1),
    "{one} × {other}: one rod further left.": one_rod(1),
    "One rod to the right.": one_rod(-1),
    "{one} × {other}: one rod further right.": one_rod(-1),
    "Another one comes first.": later((*PRODUCTS, "half")),
    "{one} × {other} comes later.": later(PRODUCTS),
    "Half that square comes later.": later(("half",)),
    "{one} × {other} = {number}.": any_reading(product_is),
    "Half of it is {number}.": any_reading(half_is),
    "Half of {one} × {other} is {number}.": any_reading(half_is),
    "A product is to come.": due(*PRODUCTS),
    "{one} × {other} is to come.": due(*PRODUCTS),
    "Take it once more.": due("again"),
    "{number} goes once more.": due("again"),
    "Clear the {number} first.": any_reading(clear_first),
    "Try it one rod further left.": trial_off(1),
    "Try it one rod further right.": trial_off(-1),
    "{product} is more than {rest}.": with_move(too_large),
    "{here} × {there} is {product}, more than {rest}.": with_move(too_large),
    "First its product.": due("taken", "half"),
    "First {one} × {other} goes.": due("taken"),
    "Smaller digit first.": figures_of("smaller"),
    "Revise the trial digit first.": figures_of("smaller"),
    "{here} is more than {there}.": figures_of("smaller"),
    "Add it back.": due("back"),
    "Add back what was taken.": due("back"),
    "One more fits.": figures_of("larger"),
    "{here} still holds {there}.": figures_of("larger"),
    "Halve it first.": due("halve"),
    "First halve the rest.": due("halve"),
    "Half the square first.": any_reading(half_due),
    "First half of {one} × {other} goes.": any_reading(half_due),
    "Give it back.": any_reading(give_back),
    "The borrowed {number} goes back.": any_reading(give_back),
    "It is below zero.": any_reading(below_zero),
    "What stands there is below zero.": any_reading(below_zero),
}
WORK: dict[str, Claim] = {
    "Clear the {number}.": any_reading(clear_first),
    "{here} ÷ {there}: try {number}.": any_reading(try_digit),
    "{one} × {other} = {number}: take it away.": any_reading(product_is),
    "{here} is more than {there}: {one} becomes {other}.": figures_of("smaller"),
    "Add {number} back.": due("back"),
    "{here} still holds {there}: {one} becomes {other}.": figures_of("larger"),
    "Take {number} away once more.": due("again"),
    "Try {number}.": any_reading(try_digit),
    "{number} × {number} goes into {here}.": any_reading(first_root),
    "Halve the rest: of two equal strips one is worked.": due("halve"),
    "Half of {one} × {other}, the corner tile: take it away.": any_reading(half_due),
}
WORK = {pattern: due_now(claim) for pattern, claim in WORK.items()}
NEXT: dict[str, Claim] = {
    "Next: {move}.": next_move,
    "{move}.": next_move,
    "Now the {rod}.": next_on,
}
DUE: dict[str, Claim] = {
    "{said}.": rule_due,
    "Borrow {number}.": borrowed,
    "Borrow {number} beyond the number.": borrowed,
}
PRAISE: dict[str, Claim] = {
    "That order works, too.": other_order,
    "Yes. One rod waits.": astray,
    "Yes. One rod is not right.": astray,
    "Not right yet.": left_astray,
    "One rod is not right yet.": left_astray,
    "Right, but later.": other_order,
    "That bead is right, but later.": other_order,
    "Yes. One stroke does it: {count} more {way}.": more,
    "Yes. {count} more {way}.": more,
    "Yes. {said}.": rule_done,
    "Yes. Borrow {number}.": borrowed,
    "Yes. Borrow {number} beyond the number.": borrowed,
    "Yes. {move}.": made,
}
HINTS: dict[str, Claim] = {
    "Look at this rod.": nothing,
    "Look at the {rod} rod.": next_on,
    "Watch. Now you.": nothing,
    "Like this. Now you.": nothing,
    "All the beads are there.": all_there,
}
TABLES = (SLIPS, WORK, DUE, NEXT, PRAISE, HINTS)

_NUMBER = r"−?\d+(?:\.\d+)?"
_FIELDS = {
    "move": rf"{_MOVE.pattern} and {_MOVE.pattern}|{_MOVE.pattern}",
    "rod": _PLACE,
    "count": _COUNT,
    "way": "up|down",
    "said": rf"{_COUNT} (?:in|out)(?:, {_COUNT} (?:in|out))*",
}


def _compiled(pattern: str) -> re.Pattern[str]:
    text, seen = "", set[str]()
    for part in re.split(r"(\{\w+\})", pattern):
        name = part[1:-1]
        if not (part.startswith("{") and part.endswith("}")):
            text += re.escape(part)
        elif name in seen:
            text += f"(?P={name})"
        else:
            inner = re.sub(r"\(\?P<\w+>", "(?:", _FIELDS.get(name, _NUMBER))
            text += f"(?P<{name}>{inner})"
            seen.add(name)
    return re.compile(text, 0 if "{number}" in pattern else re.IGNORECASE)


PATTERNS = [
    (pattern, _compiled(pattern), claim) for table in TABLES for pattern, claim in table.items()
]


@dataclass(frozen=True)
class Claimed:
    """A part of a sentence, the first pattern that it fits, and the questions that it may stand
    for: sentences of one form, "48 is more than 27", have more than one."""

    pattern: str
    text: str
    asked: tuple[tuple[Claim, tuple[tuple[str, str], ...]], ...]

    def holds(self, scene: Scene) -> bool:
        return any(claim(scene, dict(said)) for claim, said in self.asked)


_KNOWN: dict[str, list[Claimed]] = {}


def claims_of(sentence: str) -> list[Claimed]:
    """The claims of a sentence, found by its text. Raises Unknown."""
    if sentence not in _KNOWN:
        parsed = _parsed(sentence.replace("\u202f", "").split(". "))
        if parsed is None:
            raise Unknown(f"no such sentence: {sentence!r}")
        _KNOWN[sentence] = parsed
    return _KNOWN[sentence]


def _parsed(parts: list[str]) -> list[Claimed] | None:
    for end in range(len(parts), 0, -1):
        text = ". ".join(parts[:end])
        text += "" if end == len(parts) else "."
        first = _one(text)
        rest = _parsed(parts[end:]) if first and end < len(parts) else []
        if first and rest is not None:
            return [first, *rest]
    return None


def _one(text: str) -> Claimed | None:
    fits = [
        (pattern, claim, tuple(found.groupdict().items()))
        for pattern, known, claim in PATTERNS
        if (found := known.fullmatch(text))
    ]
    if not fits:
        return None
    return Claimed(fits[0][0], text, tuple((claim, said) for _, claim, said in fits))

"""Simulated learners: eight weeks of lessons and practice by one policy or another.

Each begins when sums through five are taught, and has two lessons a week, after which all 180 cells
are taught. Lessons, attendance and memory are the same for every policy; the minutes of practice
are too.
"""

from dataclasses import dataclass, field
from functools import cache
from random import Random

from memories import DAY, MEMORIES

from frame.practice.evidence import Evidence
from frame.practice.items import items_of_facts
from frame.practice.mastery import Mastery
from frame.practice.standing import Ladder
from frame.practice.wanted import MIDDLE, TodayRules, sets_of
from frame.technique.facts import ADD_AND_TAKE, READ_AND_SET

WEEKS = 8
KEPT = 0.9
"""An item is kept that is recalled with this chance a week after the last day, unused since."""
SLIP = 0.01
"""How often a hand slips at an item that is recalled."""
PAUSE = 3.0
"""Seconds between two exercises."""
HELPED = 6.0
"""Seconds that a miss takes."""

_BEGUN = tuple(fact for fact in ADD_AND_TAKE if "-ten" not in fact)
_LESSONS = tuple(
    tuple(f"{kind}-{number}" for number in numbers)
    for kind, groups in (
        ("add-ten", ((9, 8), (7, 6), (5, 4), (3, 2, 1), ())),
        ("sub-ten", ((9, 8), (7, 6), (5, 4), (3, 2, 1), ())),
        ("add-ten-five", ((6, 7), (8, 9))),
        ("sub-ten-five", ((6, 7), (8, 9), ())),
    )
    for numbers in groups
)
"""What each lesson of the course teaches, from those through ten on."""


@cache
def sets_after(lessons):
    """The practice that is known after so many lessons, on full frames with the fewest rods."""
    known = known_after(lessons)
    return sets_of(known, Ladder())


@cache
def known_after(lessons):
    ours = (fact for lesson in _LESSONS[:lessons] for fact in lesson)
    return frozenset((*READ_AND_SET, "clear", *_BEGUN, *ours))


@dataclass
class Learner:
    """One learner and what the program knows of them."""

    seed: int
    memory_kind: str = "activation"
    scheduler: object = None
    minutes: float = 10.0
    comes: float | None = None
    rules: TodayRules = MIDDLE
    now: float = 1_000 * DAY
    lessons: int = 0
    practised: float = 0.0
    came: int = 0
    asked: int = 0
    right: int = 0
    predicted: list = field(default_factory=list)
    durations: list = field(default_factory=list)

    def __post_init__(self):
        life = Random(f"life {self.seed}")
        self.memory = MEMORIES[self.memory_kind](life)
        self.pace = life.uniform(0.5, 1.2)
        self.regularity = self.comes or life.uniform(0.5, 0.95)
        self.holiday = life.choice((None, None, None, life.randrange(7, 42)))
        self.attendance = Random(f"attendance {self.seed}")
        self.mastery = Mastery() if self.scheduler is None else Mastery(scheduler=self.scheduler)
        self._before()

    def _before(self):
        """Four weeks in which what is known was practised, a few times each, and beads often."""
        past = Random(f"past {self.seed}")
        for day in range(-28, 0):
            at = self.now + day * DAY
            for item in items_of_facts(known_after(0)):
                often = 0.5 if item in READ_AND_SET else 0.2
                if past.random() < often:
                    self.ask(item, at, f"before {day}", past)

    def ask(self, item, at, sitting, random, guided=False):
        """Ask for an item once; whether it was right, and how long it took."""
        seconds = self.memory.seconds(item, at) * random.uniform(0.7, 1.4)
        recalled = guided or random.random() < self.memory.chance(item, at)
        right = recalled and random.random() >= SLIP
        self.memory.asked(item, at, recalled and not guided)
        decision = seconds if right and not guided else None
        self.mastery.add(Evidence(item, at, sitting, right, guided, decision))
        return right, seconds if right else seconds + HELPED

    def lesson(self, day):
        """What is new is shown, and tried twice."""
        new = items_of_facts(_LESSONS[self.lessons]) if self.lessons < len(_LESSONS) else ()
        self.lessons += 1
        random = Random(f"lesson {self.seed} {day}")
        for guided in (True, True, False, False):
            for item in new:
                self.ask(item, self.now, f"lesson {day}", random, guided)
                self.now += 8

    @property
    def known(self):
        return known_after(self.lessons)

    @property
    def sets(self):
        return sets_after(self.lessons)

    def do(self, task, sitting, random):
        """One exercise; whether it was right, and how long it took."""
        is_right, seconds, is_led = True, PAUSE, task.exercise.rung.is_led
        for item in sorted(task.items):
            right, took = self.ask(item, self.now + seconds, sitting, random, is_led)
            is_right, seconds = is_right and right, seconds + took
        seconds += task.strokes * self.pace
        self.now += seconds
        self.practised += seconds
        self.durations.append(seconds)
        self.asked += 1
        self.right += is_right
        return is_right, seconds

    def kept(self):
        """How many of the items that were taught are kept."""
        at = self.now + 7 * DAY
        return sum(self.memory.chance(item, at) >= KEPT for item in items_of_facts(self.known))


def live(learner, policy, weeks=WEEKS):
    """So many weeks."""
    start, last = learner.now, None
    for day in range(7 * weeks):
        learner.now = start + day * DAY + learner.attendance.uniform(-2, 2) * 3600
        is_here = learner.attendance.random() < learner.regularity
        if learner.holiday is not None and 0 <= day - learner.holiday < 7:
            is_here = False
        if day % 7 in (0, 3):
            learner.lesson(day)
            learner.now += 3600
        if is_here and policy is not None:
            away = 1.0 if last is None else day - last
            policy(learner, day, away, Random(f"practice {learner.seed} {day}"))
            learner.came += 1
            last = day
    learner.now = start + 7 * weeks * DAY
    return learner

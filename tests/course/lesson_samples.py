"""Small lessons of the harbour, and how the tests check a text."""

from pathlib import Path

from frame.course.checker import check_lesson
from frame.course.loader import read_lesson
from frame.course.problems import Problem, read_words
from frame.resources import PROBLEM_WORDS

WORDS = read_words(PROBLEM_WORDS)
BROKEN = Path(__file__).parent.parent / "broken"

BEFORE = frozenset(
    {"read-tens", "set-tens", "clear"}
    | {f"{verb}-digit-{digit}" for verb in ("read", "set") for digit in range(10)}
    | {f"add-direct-{number}" for number in range(1, 5)}
)
"""What is taught before the lesson under test."""

PLUS_FOUR = """\
# The second lesson on the quay.
lesson: quay-2
title: Plus four
after: quay-1
rods: 2
new: [add-five-4]
steps:
  - say: One crate is set on the quay. Four more are coming.
  - show: 1
    say: Here is 1 crate.
    speak: Here is one crate.
  - read: 5
    say: How many crates?
    answer: 5
  - set: 4
    rung: follow
  - clear: 57
  - watch: 1 + 4
    say: Five in, one out.
  - follow: 1 + 4
  - finish: 2 + 4
    last: 1
    answer: 6
  - sum: 3 + 4
    answer: 7
  - cover: pale
    say: "Sea fog: you still see a little."
  - sum: 1 + 4
  - practise:
      facts: [add-five-4]
      mix: [add-direct-1, add-direct-2]
      count: 6
      pass: 5
    say: >-
      Which rule fits?
      You choose.
  - cover: alone
  - practise:
      facts: [set-tens]
      count: 3
      pass: 2
      digits: 2
      rung: covered
"""

NETS = """\
lesson: quay-1
title: Nets
new: [read-digit-0, read-digit-1, read-digit-2, read-digit-3]
steps:
  - show: 2
    say: Two nets dry in the sun.
  - read: 0
  - read: 1
  - read: 2
  - practise:
      facts: [read-digit-1, read-digit-2, read-digit-3]
      count: 4
      pass: 4
"""

CRATES = """\
lesson: quay-2
title: Crates shared
after: quay-1
rods: 13
new:
  - place-product
  - multiply-1
  - unit-rod
  - sub-direct-1
  - sub-direct-2
  - divide-2
  - place-quotient-far
  - revise-up
  - decimals
  - below-zero
  - sub-ten-5
steps:
  - show: 2.5
  - set: 1.2
  - watch: 21 x 2
    answer: 42
  - follow: 21 x 2
  - sum: 0.2 x 2
    places: 1
    answer: 0.4
  - follow: 24 / 12
    trial: 1
    answer: 2
  - sum: 1.2 + 2.1
    answer: 3.3
    asked: called
  - sum: 3 - 5
    rung: covered
    answer: -2
"""

SAMPLES = (NETS, PLUS_FOUR, CRATES)


def problems_of(
    content: str | bytes,
    name: str = "lesson.yaml",
    taught: frozenset[str] = BEFORE,
    others: frozenset[str] = frozenset({"quay-1"}),
) -> tuple[Problem, ...]:
    """Every problem in a text, loaded and played."""
    lesson, found = read_lesson(content, name)
    if lesson is not None:
        found += check_lesson(lesson, name, taught, others, not found)
    return tuple(sorted(found, key=lambda problem: (problem.line, problem.column)))

"""Several learners in a sentence."""

from collections.abc import Iterable

from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.learner.learners import Learner
from frame.screens.parts.portraits import by_name, called

_MOST_NAMED = 5


def names_line(learners: Iterable[Learner], words: Words) -> Line:
    """Their names by the alphabet, of many the first ones; the animals are said."""
    everybody = by_name(learners)
    named = [called(words, one) for one in everybody[:_MOST_NAMED]]
    who = Line(", ".join(one.show for one in named), ", ".join(one.speak for one in named))
    left = len(everybody) - len(named)
    return words.line("giving.and_more", who=who, count=left) if left else who

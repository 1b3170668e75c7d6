"""What another file brought, or why it did not, in words."""

from collections.abc import Sequence

from frame.language.catalogue import Words
from frame.language.lines import Line
from frame.learner.merging import Merged
from frame.learner.nickname import nickname_of, search_key
from frame.learner.persons import Person
from frame.learner.trouble import Trouble
from frame.screens.parts.portraits import animal_name, portrait_name

_MOST_NAMED = 2


def merged_line(merged: Merged, words: Words) -> Line:
    """What a file brought that was taken in."""
    back, left_out = merged.back, merged.left_out
    told = [] if merged.is_whole else [words.line("merged.damaged")]
    came = merged.learners - len(back)
    attempts = merged.attempts - sum(one.attempts for one in back)
    if came or attempts:
        told.append(words.line("merged.brought", learners=came, attempts=attempts))
    if back:
        told.append(_of_persons("merged.back", back, words))
    if merged.removed:
        told.append(words.line("merged.removed", removed=merged.removed))
    if not any((merged.learners, merged.attempts, back, merged.removed)):
        told.append(words.line("merged.changed" if merged.is_new else "merged.nothing"))
    if left_out:
        told.append(_of_persons("merged.left_out", left_out, words))
    return Line(" ".join(one.show for one in told), " ".join(one.speak for one in told))


def _of_persons(key: str, some: Sequence[Person], words: Words) -> Line:
    """A sentence that names some children, of many the first ones."""
    named = sorted(some, key=lambda one: search_key(one.name))[:_MOST_NAMED]
    lines = [_person_line(one, words) for one in named]
    who = Line("; ".join(one.show for one in lines), ". ".join(one.speak for one in lines))
    if len(some) > len(named):
        who = words.line("merged.more", who=who, count=len(some) - len(named))
    return words.line(key, who=who)


def _person_line(one: Person, words: Words) -> Line:
    """A child's name and exercises; the picture is said, as no voice can say every name."""
    name = nickname_of(one.name, animal_name(words, one.picture))
    told = words.text("merged.who", name=name, attempts=one.attempts)
    return Line(told, portrait_name(words, one.picture).rstrip("."))


def other_trouble_line(trouble: Trouble, words: Words) -> Line:
    """Why a file that is not the one of this computer can't be used."""
    return words.line(f"other_file.{trouble}")

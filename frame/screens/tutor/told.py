"""What a class needs, in words."""

from collections.abc import Iterable, Iterator
from datetime import datetime

from frame.language.catalogue import Words
from frame.language.days import day_text
from frame.language.printed import printed, printed_sum
from frame.practice.behind import Told
from frame.practice.grouping import Group
from frame.practice.needs import Needing, Pupil, Reason, Week
from frame.technique.habits import Habit


def fault_name(habit: Habit, words: Words) -> str:
    """A fault in a few words, as tutors say it."""
    return words.text(f"report.habit.{habit}.tutor")


def shared_fault(group: Group, words: Words) -> str:
    """The fault that a group's task is about, and how many of the group have it; nothing where it
    is about none."""
    if group.fault is None:
        return ""
    name, all_of_them = fault_name(group.fault, words), len(group.members)
    return words.text("class.told.shared", fault=name, count=group.with_fault, all=all_of_them)


def need_text(one: Needing, most: int, words: Words) -> str:
    """In at most so many parts why a child needs somebody, what weighs most first; that it gets on,
    where nothing does. How little it practised stands beside it, so that it is told only where
    there is nothing else."""
    reasons = [reason for reason in one.reasons if reason is not Reason.AWAY] or one.reasons
    told = [_reason_text(reason, one.pupil, words) for reason in reasons[:most]]
    return "; ".join(told) or words.text("class.told.gets_on")


def need_lines(one: Needing, told: Iterable[Told], words: Words) -> Iterator[str]:
    """The same, a line each, with every fault, how often it showed, and an answer with it."""
    often = {fault.habit: fault for fault in told}
    for reason in one.reasons:
        if reason is Reason.FAULT:
            for habit in one.pupil.likely:
                yield _fault_text(habit, words)
                if habit in often:
                    yield _often_text(often[habit], words)
        else:
            yield _reason_text(reason, one.pupil, words)
    if not one.reasons:
        yield words.text("class.told.gets_on")


def _fault_text(habit: Habit, words: Words) -> str:
    meant = words.text(f"report.habit.{habit}.parent")
    return f"{meant} ({fault_name(habit, words)})"


def _often_text(told: Told, words: Words) -> str:
    facts = {"times": told.times, "of": told.of}
    if told.since is None:
        text = words.text("class.told.times_of_last", **facts)
    else:
        day = day_text(words, datetime.fromtimestamp(told.since).date())
        text = words.text("class.told.times_since", **facts, day=day)
    if told.last is None or told.last.answer is None:
        return text
    asked, given = printed_sum(told.last.calculation, words), printed(told.last.answer)
    return words.text("class.told.as_in", told=text, sum=asked, answer=given)


def _reason_text(reason: Reason, pupil: Pupil, words: Words) -> str:
    match reason:
        case Reason.FAULT:
            return fault_name(pupil.likely[0], words)
        case Reason.DUE:
            return due_text(pupil, words)
    return words.text(f"class.told.{reason}")


def due_text(pupil: Pupil, words: Words) -> str:
    """How much is due, and of which family most."""
    family = max(pupil.due, key=pupil.due.__getitem__)
    name = words.text(f"family.{family}")
    return words.text("class.told.due", count=sum(pupil.due.values()), family=name)


def week_text(week: Week, words: Words) -> str:
    """What a child did in seven days."""
    if not week.days:  # What was worked on paper took no minutes here.
        done = week.exercises.of
        return words.text("class.told.on_paper" if done else "class.told.nothing_done", count=done)
    key = "class.told.day" if week.days == 1 else "class.told.days"
    return words.text(key, days=week.days, minutes=round(week.minutes))


def right_text(week: Week, words: Words) -> str:
    """How much of it was right at once; nothing where nothing was worked."""
    right, of = week.exercises
    return words.text("class.told.right", right=right, of=of) if of else ""


def names_text(names: Iterable[str], most: int, words: Words) -> str:
    """Some names in their order; of many the first ones, and how many more there are."""
    some = list(names)
    shown = ", ".join(some[:most])
    more = len(some) - most
    return words.text("class.told.more", names=shown, count=more) if more > 0 else shown

"""A set of exercises that is practised: the lesson that it is for the lesson screen."""

from dataclasses import replace
from functools import partial

from frame.course.attempts import Origin
from frame.course.lesson import Lesson, Mark, Practise
from frame.course.runner import Runner
from frame.learner.assigned import Work, set_text
from frame.practice.choices import Choices
from frame.practice.drawing import ExerciseError, Request, drawable
from frame.practice.kept_choices import choices_from, choices_to, set_to
from frame.practice.rungs import Asked
from frame.room import Room
from frame.screens.lesson.keeping import Keeping

TITLES = {
    Asked.SHOWN: "practise.beads",
    Asked.CALLED: "practise.called",
    Asked.FLASHED: "practise.flashed",
}
"""The words for each way of asking."""


def known_facts(room: Room) -> frozenset[str]:
    """The facts of the lessons done or known; of all lessons where all are open."""
    if not room.settings.all_open:
        return learned_facts(room)
    return frozenset(fact for entry in room.course.lessons for fact in entry.new)


def learned_facts(room: Room) -> frozenset[str]:
    """The facts of the lessons done, or known by placement."""
    known = {id for id, state in room.lessons.items() if state.is_known}
    return frozenset(
        fact for entry in room.course.lessons if entry.id in known for fact in entry.new
    )


def kept_choices(room: Room) -> Choices | None:
    """What was chosen last, on another day; None where nothing was."""
    learner = room.learner
    if learner is None:
        return None
    nothing: dict[str, object] = {}
    kept = room.keeper.read(lambda store: store.choices(learner), nothing)
    return choices_from(kept) if kept else None


def keep_choices(room: Room) -> None:
    """What is chosen is kept for another day."""
    learner, choices = room.learner, room.choices
    if learner is None or choices is None or choices == kept_choices(room):
        return
    kept, now = choices_to(choices), room.now()
    room.keeper.write(
        lambda store: store.keep_choices(learner, kept, now), f"choices of {learner.id}"
    )


def begin_set(room: Room, choices: Choices, given: str = "") -> Keeping:
    """A set of what is chosen, as the ladder stands now, perhaps one that was `given` with this
    text. Raises ExerciseError where nothing can be drawn."""
    settings = room.settings
    request = choices.request(known_facts(room), room.ladder, settings.conventions)
    if request.facts:
        facts = drawable(request, room.random)
        if not facts:
            raise ExerciseError(request.facts[0])
        request = replace(request, facts=facts)
    runner = Runner(
        _lesson(room, choices, request), request.known, room.random.randrange(2**31),
        settings.conventions, settings.strictness,
    )  # fmt: skip
    anew = partial(begin_set, room, choices, given)
    ticks = Work.SET, given or set_text(set_to(choices))
    return Keeping(room, runner, anew, origin=Origin.SET, ticks=ticks)


def _lesson(room: Room, choices: Choices, request: Request) -> Lesson:
    is_shown = request.asked is Asked.SHOWN
    title = room.words.text(f"family.{choices.beads.family}" if is_shown else TITLES[request.asked])
    step = Practise(request, 0, None, Mark(1, 1))
    return Lesson(f"practise-{request.asked}", title, None, request.rods, (), (step,))

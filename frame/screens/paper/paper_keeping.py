"""Keeps a marked sheet with a learner, who is known by it from then on where they are here, and
tells which papers whoever is here took."""

from datetime import datetime
from typing import NamedTuple

from frame.course.attempts import Origin
from frame.course.next_paper import PaperChoices, choices_from, choices_to, graded_recipe
from frame.course.paper import HandedIn, Paper
from frame.learner.learners import Chosen, Learner
from frame.learner.on_paper import OnPaper, keep_on_paper, on_paper, on_screen
from frame.learner.paper_left import WHAT, paper_from, paper_to
from frame.learner.papers import PaperTaken
from frame.room import Room
from frame.screens.parts.counted import count_records
from frame.sheets.marking import Marked
from frame.sheets.recipe import Recipe
from frame.technique.conventions import Conventions


def keep_sheet(room: Room, learner: Learner, marked: Marked, conventions: Conventions) -> bool:
    """Write each task as an attempt, and count it, unless it was on this day; whether it is new."""
    now = room.now()
    kept = on_paper(learner, marked, conventions, now)
    is_new = not room.store.has_sitting(kept.sitting)
    _keep(room, learner, kept, now, is_new)
    return is_new


def keep_handed_in(room: Room, learner: Learner, handed: HandedIn) -> None:
    """Write each task that was answered as an attempt, and count it; and the marks of a paper."""
    kept = on_screen(learner, handed, room.settings.conventions)
    _keep(room, learner, kept, room.now(), is_new=True)


def _keep(room: Room, learner: Learner, kept: OnPaper, now: datetime, is_new: bool) -> None:
    room.keeper.write(lambda store: keep_on_paper(store, learner, kept, now))
    if is_new and learner == room.learner:
        count_records(room, kept.records, kept.sitting, Origin.PAPER, kept.conventions, now)


def keep_left(room: Room, learner: Learner, paper: Paper | None) -> None:
    """Keep a paper that is not handed in, so that it is found again on another day; None for no
    more."""
    text = "" if paper is None else paper_to(paper, room.seconds())
    name = f"paper of {learner.id}"
    room.keeper.write(lambda store: store.keep_folded(learner, WHAT, text), name)


def left_paper(room: Room) -> Paper | None:
    """The paper that whoever is here did not hand in; None where there is none."""
    learner, none = room.learner, None
    if learner is None:
        return None
    text = room.keeper.read(lambda store: store.folded(learner, WHAT), none)
    return paper_from(text, room.seconds()) if text else None


def kept_choices(room: Room, usual: PaperChoices) -> PaperChoices:
    """What was chosen of papers last, on another day; the usual where nothing was."""
    learner = room.learner
    if learner is None:
        return usual
    nothing: dict[str, object] = {}
    kept = room.keeper.read(lambda store: store.choices(learner, Chosen.PAPER), nothing)
    return choices_from(kept, usual)


def keep_choices(room: Room, choices: PaperChoices) -> None:
    """What is chosen of papers is kept for another day."""
    learner = room.learner
    if learner is None:
        return
    kept, now, name = choices_to(choices), room.now(), f"paper choices of {learner.id}"
    room.keeper.write(lambda store: store.keep_choices(learner, kept, now, Chosen.PAPER), name)


class Past(NamedTuple):
    """A paper that was taken, with the recipe of its sheet."""

    taken: PaperTaken
    recipe: Recipe


def past_papers(room: Room) -> tuple[Past, ...]:
    """Those of whoever is here, oldest first, on paper and on the screen."""
    learner, none = room.learner, tuple[PaperTaken, ...]()
    if learner is None:
        return ()
    papers = room.keeper.read(lambda store: store.papers(learner), none)
    told = ((one, graded_recipe(one.code)) for one in papers)
    return tuple(Past(one, recipe) for one, recipe in told if recipe is not None)

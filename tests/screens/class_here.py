"""A class in the window: animals of the harbour and its market, who worked on paper."""

from datetime import timedelta

from kept import added

from frame.app import Push
from frame.learner.class_kept import Member, keep_class
from frame.learner.on_paper import keep_marked
from frame.practice.families import Family
from frame.screens.tutor.screen import ClassPage
from frame.sheets.enough import recipe_for
from frame.sheets.making import make
from frame.sheets.marking import Answer, mark, mark_wrong
from frame.sheets.topics import facts_of
from frame.technique.conventions import USUAL

SHEETS = (Family.ADD_TEN, Family.SUB_FIVE)
GROUPS = ("quay", "market", "")
CRAB, OTHERS = "Crab", ("Heron", "Mole", "Newt")


def put(pilot, screen):
    pilot.app.take(Push(screen))
    pilot.app.draw()
    return pilot.screen


def worked_on_paper(room, child, at, forgets=False):
    """A sheet a week ago; who forgets carries has each answer ten too small."""
    sheet, now = make(recipe_for(facts_of(SHEETS[at % 2]))), room.now() - timedelta(days=8)
    right = mark_wrong(sheet, [])
    less = [Answer(task.sum.result - 10) for task in sheet.tasks]
    keep_marked(room.store, child, mark(sheet, less) if forgets else right, USUAL, now)
    if forgets:
        keep_marked(room.store, child, right, USUAL, now + timedelta(days=7))


def four_of_the_harbour(room):
    """Crab, who forgets carries, and three others, in groups, the last of them in none."""
    members = []
    for at, name in enumerate((CRAB, *OTHERS)):
        child = added(room.store, name, "crab" if name == CRAB else "heron", now=room.now())
        worked_on_paper(room, child, at, forgets=name == CRAB)
        members.append(Member(child, GROUPS[min(at, 2)]))
    keep_class(room.store, members)
    return tuple(members)


def idle_class(room, count, names=("Sprat",)):
    """So many who did nothing yet."""
    members = [
        Member(added(room.store, f"{names[at % len(names)]} {at}"), GROUPS[at % 3])
        for at in range(count)
    ]
    keep_class(room.store, members)
    return members


def open_class(pilot, *presses):
    """The page of the class; then what is pressed there, by text or by its key."""
    page = put(pilot, ClassPage(pilot.room))
    for one in presses:
        pilot.press(pilot.words.text(one) if one.startswith(("class.", "class_")) else one)
    return page

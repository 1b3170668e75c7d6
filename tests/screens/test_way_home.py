"""From every screen Esc alone leads home; the first screen stays, and so does the board."""

import importlib
import pkgutil
from dataclasses import replace
from datetime import timedelta
from functools import partial
from itertools import cycle
from pathlib import Path

import pygame
import pytest
from calls import called, until_called
from class_here import CRAB, four_of_the_harbour, idle_class, open_class, worked_on_paper
from grown_up import grow_up
from kept import AROUND, NOW, added
from pilot import AtOnce, Pilot
from reports import FULL, ON_PAPER, reporting
from robot import begin, give_answer, until
from tapper import tap_to_the_end

import frame.screens
from frame.app import Pop, Push
from frame.course.attempts import Position
from frame.course.own import own_files, read_own
from frame.course.placement import Claim, Result
from frame.course.plays import Play
from frame.course.runner import Stage
from frame.learner.assigned import Assigned, Work, set_text
from frame.learner.class_file import listed_in
from frame.learner.class_kept import Member, keep_class
from frame.learner.kept_sets import KeptSet
from frame.learner.learners import new_id
from frame.learner.looks import Portrait
from frame.learner.on_paper import on_screen
from frame.learner.settings import Age
from frame.learner.store import LessonState
from frame.practice.choices import Choices
from frame.practice.exercises import Exercise, Kind
from frame.practice.families import Family
from frame.practice.imagining import Found, Step
from frame.practice.kept_choices import set_to
from frame.practice.replay import replay_of
from frame.practice.rungs import Asked, Rung
from frame.screens.board.agendas import Agendas
from frame.screens.board.screen import BoardScreen
from frame.screens.choosing.all_choices import AllChoices
from frame.screens.choosing.classroom import ClassroomScreen
from frame.screens.choosing.code import NewCode
from frame.screens.choosing.free import FreeFrame
from frame.screens.choosing.given_page import GivenPage
from frame.screens.choosing.given_sheet import GivenSheet
from frame.screens.choosing.home import Home
from frame.screens.choosing.lock import Lock
from frame.screens.choosing.named_sets import AnotherName, KeptSets, NewSet, OneSet
from frame.screens.choosing.newcomer import ChooseAge, ChooseAnimal, ChooseFlag, FirstName
from frame.screens.choosing.one_child import OneChild
from frame.screens.choosing.own_lessons import LESSONS, OwnLessons
from frame.screens.choosing.parting import Parting
from frame.screens.choosing.placed import PlacedPage
from frame.screens.choosing.plays import PlaysPage
from frame.screens.choosing.practise import PractiseScreen
from frame.screens.choosing.published import Published
from frame.screens.choosing.report import ReportPage
from frame.screens.choosing.same_child import SameChild
from frame.screens.choosing.settings import NewName, SettingsScreen
from frame.screens.choosing.shared_folder import SharedFolder
from frame.screens.choosing.sheets import SheetsPage
from frame.screens.choosing.two_computers import TwoComputers
from frame.screens.choosing.unkept import Unkept
from frame.screens.choosing.unopened import Unopened
from frame.screens.choosing.usual import keep_set
from frame.screens.choosing.who import Who
from frame.screens.grown.screen import GrownScreen, Part
from frame.screens.lesson.imagining import ImaginingScreen, begin_imagining
from frame.screens.lesson.own import OwnLessonScreen
from frame.screens.lesson.placement import PlacementScreen, begin_placement
from frame.screens.lesson.play import PlayScreen
from frame.screens.lesson.replay import ReplayScreen
from frame.screens.lesson.results import ResultsScreen
from frame.screens.lesson.run import RunScreen
from frame.screens.lesson.screen import LessonScreen
from frame.screens.lesson.tapping import TappingScreen
from frame.screens.lesson.today import TodayScreen, begin_today
from frame.screens.marking.call_sheet import CallSheet
from frame.screens.marking.marks import MarksScreen
from frame.screens.marking.marks_end import MarksEnd
from frame.screens.marking.next_child import NextChild
from frame.screens.marking.touch_wrong import TouchWrong
from frame.screens.marking.type_answers import TypeAnswers
from frame.screens.paper.open_tasks import OpenTasks
from frame.screens.paper.papers import PapersPage
from frame.screens.paper.result import PaperResult
from frame.screens.paper.taking import TakingScreen
from frame.screens.parts.own_files import own_folder
from frame.screens.parts.panel import Panel
from frame.screens.tutor.child import ChildPage
from frame.screens.tutor.class_files import ClassFiles
from frame.screens.tutor.code_to_give import CodeToGive
from frame.screens.tutor.given_before import GivenBefore
from frame.screens.tutor.given_names import GivenNames
from frame.screens.tutor.giving import GivingScreen
from frame.screens.tutor.group_choice import GroupChoice, NewGroup
from frame.screens.tutor.groups import GroupsPage
from frame.screens.tutor.listing import ListPage
from frame.screens.tutor.picker import PickerPage
from frame.screens.tutor.reports import ReportsPage
from frame.screens.tutor.screen import ClassPage
from frame.screens.tutor.taking import TakeList
from frame.screens.tutor.whom import WhomPage
from frame.sheets.code import code_of
from frame.sheets.recipe import Kind as SheetKind
from frame.sheets.recipe import Part as PaperPart
from frame.sheets.recipe import Recipe
from frame.technique.conventions import USUAL
from frame.technique.expression import parse_sum
from frame.technique.reading import plain

BEFORE_ANYBODY = {Unopened: "nobody has a home there yet", Unkept: "everybody has left"}
OVER_THE_BOARD = {Agendas: "Esc leads to the board"}
STAYS = {BoardScreen: "Esc makes it dark and light again; its own button leaves it"}
MOST_ESCAPES = 4
MANY = 800
"""So many attempts fill each part of what has grown."""


def put(pilot, screen):
    pilot.app.take(Push(screen))
    pilot.app.draw()


def to_plays(pilot):
    pilot.press_word("home.free")
    pilot.press_word("free.plays")


def to_play(play, pilot):
    to_plays(pilot)
    pilot.press_word(f"play.{play}")


# Lessons and sets


def asked(text, asked=Asked.SHOWN, rung=Rung.ALONE):
    return Exercise(Kind.SUM, parse_sum(text), rung, 2, asked=asked, pace=0.5)


def in_lesson(stage, lesson="five-add-1"):
    def go(pilot):
        pilot.open(lesson, 0)
        until(pilot, stage)

    return go


def answered(pilot, rung, number):
    begin(pilot, asked("3 + 4", rung=rung))
    until(pilot, Stage.ANSWER)
    give_answer(pilot, number)


STAGES = {
    Stage.TELL: in_lesson(Stage.TELL),
    Stage.DEMO: in_lesson(Stage.DEMO),
    Stage.WORK: in_lesson(Stage.WORK),
    Stage.DONE: in_lesson(Stage.DONE),
    Stage.END: in_lesson(Stage.END, "beads-1"),
    Stage.PRESENT: lambda pilot: begin(pilot, asked("3 + 4", Asked.FLASHED, Rung.NUMBER)),
    Stage.ANSWER: lambda pilot: (begin(pilot, called()), until(pilot, Stage.ANSWER)),
    Stage.REVEAL: lambda pilot: answered(pilot, Rung.COVERED, 99),
}


def called_aloud(pilot):
    begin(pilot, called())
    until_called(pilot)


def held(pilot):
    called_aloud(pilot)
    pilot.screen.hold()


def results(pilot):
    begin(pilot, asked("3 + 4", Asked.CALLED, Rung.NUMBER), count=2)
    for _ in range(2):
        until(pilot, Stage.ANSWER)
        give_answer(pilot, 7)
        pilot.wait(3, 15)
    assert isinstance(pilot.screen, ResultsScreen)


def replay(pilot):
    answered(pilot, Rung.COVERED, 99)
    pilot.wait(3, 15)
    assert isinstance(pilot.screen, ReplayScreen)


def replay_of_results(pilot):
    results(pilot)
    work = pilot.screen.results[0]
    put(pilot, ReplayScreen(pilot.room, work, replay_of(work)))


def practised(tab):
    def go(pilot):
        pilot.room.set(all_open=True)
        pilot.press_word("home.practise")
        pilot.press_word("practise.more")
        pilot.press_word(tab)
        pilot.press_word("practise.start")

    return go


def with_sets(names, *presses):
    """The page of practice, with sets of these names; then what is pressed there."""

    def go(pilot):
        pilot.room.set(all_open=True)
        for name, choices in zip(names, cycle(ASKED), strict=False):
            keep_set(pilot.room, KeptSet(new_id(), name, set_to(choices)))
        pilot.press_word("home.practise")
        for one in presses:
            pilot.press(pilot.words.text(one) if "." in one else one)

    return go


SET_NAMES = (
    *("Quay", "W" * 24, "国" * 24, "", "Дмитрий", "שרה לוי", "محمد", "O’Brien 🦦"),
    *("a", "", "b", "c"),
)
LONG = "Long-tailed skuas"
NEARLY = "Long-taled skuas 0"
ASKED = (
    *(Choices().choose(family=family) for family in (Family.ADD_FIVE, Family.SUB_TEN_FIVE)),
    Choices(Asked.CALLED),
    Choices(Asked.FLASHED).choose(own=True),
    Choices().choose(family=Family.ROOT, rung=Rung.COVERED),
)


# Rooms


def settings(page):
    def go(pilot):
        screen = SettingsScreen(pilot.room)
        put(pilot, screen)
        screen.page = page
        screen.rearrange()

    return go


def asking_to_remove(pilot):
    settings(4)(pilot)
    pilot.press(pilot.words.text("who.remove", name=pilot.room.learner.nickname))


def of_learner(word):
    def go(pilot):
        settings(4)(pilot)
        pilot.press_word(word)

    return go


def another_flag(pilot):
    of_learner("who.change_picture")(pilot)
    pilot.press("Owl")


def given(count, *presses, done=0, lessons=9):
    """Home with so much from a tutor, some of it done; then what is pressed there."""

    def go(pilot):
        room = pilot.room
        for entry in room.course.lessons[:lessons]:
            room.lessons[entry.id] = LessonState(1, Position(), True)
        for one in GIVEN[:count]:
            room.store.assign([(room.learner, one)])
        for one in GIVEN[:done]:
            room.store.tick_off(room.learner, one.work, one.text, room.now())
        pilot.screen.rearrange()
        for one in presses:
            pilot.press(pilot.words.text(one) if "." in one else one)

    return go


def followed(way, work, text=""):
    """Where this was given, and a paper besides."""

    def go(pilot):
        for one in (Assigned("first", NOW, work, text), GIVEN[4]):
            pilot.room.store.assign([(pilot.room.learner, one)])
        way(pilot)

    return go


def giving(*presses, count=3, code=""):
    """The page on which work is given to many children, some of whom have such; then what is
    pressed there."""

    def go(pilot):
        room = pilot.room
        names = ("W" * 24, "国" * 24, "Дмитрий", "Anna", "O’Brien 🦦", "Jean-Luc")
        others = [added(room.store, name, "owl") for name in names]
        for one in GIVEN[:count]:
            room.store.assign([(others[0], one)])
        room.store.tick_off(others[0], GIVEN[0].work, GIVEN[0].text, room.now())
        put(pilot, GivingScreen(room, (room.learner, *others), code))
        for one in presses:
            pilot.press(pilot.words.text(one) if "." in one else one)

    return go


def sharing(folder=None, typed=""):
    """The page of the shared folder, with this one or as far as it is typed."""

    def go(pilot):
        put(pilot, SharedFolder(pilot.room))
        if folder is not None:
            pilot.room.sharer.aside = AtOnce()
            pilot.screen.use(folder)
            pilot.wait(2)
        pilot.type(typed)

    return go


GIVEN = tuple(
    Assigned(f"given-{at}", NOW + timedelta(seconds=at), work, text)
    for at, (work, text) in enumerate(
        (
            (Work.SHEET, "2400-47FJ-RG7H"),
            (Work.LESSON, "below-3"),
            (Work.SET, set_text(set_to(Choices().choose(family=Family.SUB_TEN_FIVE)))),
            (Work.DUE, ""),
            (Work.SHEET, "2M00-40A0-5NB"),
            *((Work.LESSON, f"beads-{number}") for number in range(1, 6)),
        )
    )
)


def first_name(pilot):
    put(pilot, FirstName(pilot.room, "owl-cross", Age.MIDDLE))
    pilot.type("Mary An")


def from_settings(*words):
    def go(pilot):
        pilot.room.store.set_code("2580")
        pilot.press("gear")
        for sign in "2580":
            pilot.press(sign)
        pilot.press("tick")
        for word in words:
            pilot.press_word(word)

    return go


def own_lesson(pilot):
    put(pilot, OwnLessons(pilot.room))
    pilot.press_word("own.new")
    (path,) = own_files(own_folder(pilot.room, LESSONS))
    put(pilot, OwnLessonScreen(pilot.room, read_own(path, pilot.room.course)))


def code_once(pilot):
    put(pilot, NewCode(pilot.room, Pop()))
    for sign in "2580":
        pilot.press(sign)
    pilot.press("tick")


def placing(stage):
    def go(pilot):
        put(pilot, begin_placement(pilot.room))
        until(pilot, stage)

    return go


def imagining(stage):
    def go(pilot):
        for entry in pilot.room.course.lessons[:20]:
            pilot.room.lessons[entry.id] = LessonState(1, Position(), done=False, placed=True)
        put(pilot, begin_imagining(pilot.room))
        until(pilot, stage)

    return go


def placed(count=0, beside=None, found=False):
    claims = tuple(Claim(family, 20, 20) for family in tuple(Family)[:count])

    def go(pilot):
        put(pilot, PlacedPage(pilot.room, Result("ten-add-1", (), beside, claims, 20)))
        if found:
            step = Step(Rung.COVERED, 4, 10)
            pilot.screen.resumed({asked: Found(step, 8, 8) for asked in Asked})

    return go


def my_frame(part, attempts=0, at=None, age=Age.MIDDLE):
    """My frame of somebody simulated, at a part of it and perhaps a spot of that."""

    def go(pilot):
        grow_up(pilot.room, attempts, age)
        pilot.press_word("grown.title")
        if part is not Part.FRAME:
            pilot.press_word(f"grown.{part}")
        if at is not None:
            pilot.screen.tell(at)

    return go


def tapping_offered(pilot):
    pilot.room.lessons["beads-1"] = LessonState(1, Position(), True, True)
    put(pilot, begin_today(pilot.room))
    until(pilot, Stage.END)
    pilot.screen.offers_tapping = True
    pilot.screen.rearrange()


def tapping(pilot):
    put(pilot, TappingScreen(pilot.room))


def tapped(pilot):
    tapping(pilot)
    tap_to_the_end(pilot)


def of_twins(joined, *keys):
    """Beside twenty others of like names, so many of them joined with whoever is here."""

    def go(pilot):
        for number in range(20):
            other = added(pilot.room.store, f"Otter {number}", "otter-checks")
            if number < joined:
                pilot.room.store.join(pilot.room.learner, other, NOW)
        pilot.room.read_anew()
        settings(4)(pilot)
        for key in keys:
            pilot.press(pilot.words.text(key) if "." in key else key)

    return go


def chosen_sheet(*presses, **choices):
    """The page of sheets with these choices; then what is pressed there."""

    def go(pilot):
        pilot.room.set(all_open=True)
        put(pilot, SheetsPage(pilot.room))
        pilot.screen.choose(**choices)
        pilot.screen.rearrange()
        for one in presses:
            pilot.press_word(one)

    return go


def of_called(code, *presses):
    """A sheet with this code to be called; then what is touched."""

    def go(pilot):
        of_learner("marks.open")(pilot)
        pilot.type(code)
        pilot.press_word("marks.call")
        pilot.wait(1, 2)
        for one in presses:
            pilot.press_word(one)

    return go


def of_sheet(code, *deeds):
    """A sheet with this code to be marked; then what is touched or, where they are digits, typed,
    each with Enter."""

    def go(pilot):
        of_learner("marks.open")(pilot)
        pilot.type(code)
        pilot.key(pygame.K_RETURN)
        pilot.wait(1, 2)
        for one in deeds:
            if "." in one:
                pilot.press_word(one)
                continue
            for digit in one:
                pilot.key(pygame.K_0 + int(digit))
            pilot.key(pygame.K_RETURN)

    return go


def of_paper(*presses, answers=0, first=0, **choices):
    """A paper of these choices; answers up to so many, of which every third is right, with those
    before the first right, too; then what is pressed."""

    def go(pilot):
        pilot.room.set(all_open=True)
        put(pilot, PapersPage(pilot.room))
        pilot.screen.choose(**choices)
        pilot.screen.rearrange()
        pilot.press_word("paper.begin")
        for at, task in enumerate(pilot.screen.paper.sheet.tasks[:answers]):
            off = at % 3 if at >= first else 0
            paper = pilot.screen.paper.go(at).put(plain(task.sum.result + off), pilot.clock)
            pilot.screen.paper = paper
        pilot.screen.go(pilot.screen.paper.at)
        for one in presses:
            pilot.press(pilot.words.text(one) if "." in one else one)
            pilot.wait(1, 2)

    return go


def of_paper_left(*presses):
    """A paper waits; then what is pressed."""

    def go(pilot):
        of_paper(answers=12, grade="second-mental-kyu-1")(pilot)
        for _ in range(2):
            pilot.key(pygame.K_ESCAPE)
        for one in presses:
            pilot.press_word(one)

    return go


def past_papers_of(count, **choices):
    """The page of papers, where so many were taken."""

    def go(pilot):
        room = pilot.room
        put(pilot, PapersPage(room))
        pilot.screen.choose(**choices)
        for at in range(count):
            pilot.press_word("paper.begin")
            handed = pilot.screen.paper.hand_in(pilot.clock + 600 * at)
            paper = replace(on_screen(room.learner, handed, USUAL).paper, marks=10 * at)
            begin_taken(room, paper)
            pilot.screen.is_handed_in = True
            pilot.app.take(Pop())
        pilot.app.draw()

    return go


def begin_taken(room, paper):
    """A paper is kept in a sitting of its own."""
    room.store.begin_sitting(paper.sitting, room.learner, AROUND, paper.at)
    room.store.keep_paper(paper)


SHEETS = (SheetKind.COLUMNS, SheetKind.READ)
GRADES = ("mental-dan",)
LONG_COLUMNS, SLIPPED, SUMS = "2400-47FJ-RG7H", "2400-438M-GRNM", "2400-43M8-GRNM"
"""The codes of sixty columns of fifteen numbers, of one with two signs in each other's place, and
of thirty sums."""


def of_sheet_of_many(count, *presses):
    """A sheet that is kept of one of a class, of which so many others wait; then what is
    pressed."""

    def go(pilot):
        room = pilot.room
        others = [one.learner for one in idle_class(room, count, SET_NAMES)]
        keep_class(room.store, [Member(one) for one in (room.learner, *others)])
        of_sheet(SUMS, "19", "74", "marks.to_end", "marks.keep", *presses)(pilot)

    return go


def back_from(way):
    """One screen back from where a way leads."""

    def go(pilot):
        way(pilot)
        pilot.key(pygame.K_ESCAPE)

    return go


def of_class(*presses, count=0, worked=0):
    """The page of four of the harbour, or of so many of whom the first ones worked and the others
    did nothing yet; then what is pressed."""

    def go(pilot):
        if count:
            for at, one in enumerate(idle_class(pilot.room, count, SET_NAMES)[:worked]):
                worked_on_paper(pilot.room, one.learner, at, forgets=at % 3 == 0)
        else:
            four_of_the_harbour(pilot.room)
        open_class(pilot, *presses)

    return go


def looked_over(text, *presses, beside=0, names=("Sprat",)):
    """A list to be looked over, beside a class of so many."""

    def go(pilot):
        idle_class(pilot.room, beside, names)
        put(pilot, TakeList(pilot.room, listed_in(text)))
        for one in presses:
            pilot.press(one)

    return go


def choosing_group(count, can_add):
    names = [SET_NAMES[at % len(SET_NAMES)] or f"pier {at}" for at in range(count)]

    def go(pilot):
        choice = GroupChoice(pilot.room, names, names[-1], "class.no_group", can_add=can_add)
        put(pilot, choice)

    return go


BROKEN_LIST = "\n".join(
    ("name;group;age", "Otter;quay;7", "Seal;market", "Seal;quay", ";quay", '"Crab;quay',
     "国" * 30, *(f"Sprat {at};pier" for at in range(70)))
)  # fmt: skip


WAYS = {
    LessonScreen: {
        **{f"lesson, {stage.name}": go for stage, go in STAGES.items()},
        "called aloud": called_aloud,
        "held": held,
        "practised": practised("practise.beads"),
        "practised by call": practised("practise.called"),
        "practised by flashes": practised("practise.flashed"),
        "given lesson, over": followed(in_lesson(Stage.END, "beads-1"), Work.LESSON, "beads-1"),
    },
    OwnLessonScreen: {"own lesson": own_lesson},
    TodayScreen: {
        "today": lambda pilot: put(pilot, begin_today(pilot.room)),
        "today, tapping offered": tapping_offered,
        "given today, over": followed(tapping_offered, Work.DUE),
    },
    TappingScreen: {"tapping": tapping, "tapping, over": tapped},
    PlacementScreen: {
        "placement": lambda pilot: put(pilot, begin_placement(pilot.room)),
        "placement, number": placing(Stage.ANSWER),
        "placement, sum": placing(Stage.WORK),
    },
    ImaginingScreen: {
        "imagining": imagining(Stage.TELL),
        "imagining, sum": imagining(Stage.WORK),
        "imagining, answer": imagining(Stage.ANSWER),
    },
    PlacedPage: {
        "placed": placed(),
        "placed, all": placed(count=21, beside="mind-one-1"),
        "placed, imagined": placed(count=9, found=True),
    },
    ReplayScreen: {"replay": replay, "replay of results": replay_of_results},
    ResultsScreen: {"results": results},
    FreeFrame: {"free": lambda pilot: pilot.press_word("home.free")},
    PlaysPage: {"small plays": to_plays},
    PlayScreen: {f"play {play}": partial(to_play, play) for play in Play},
    PractiseScreen: {
        "practise": lambda pilot: pilot.press_word("home.practise"),
        **{f"practise, {count}": with_sets(SET_NAMES[:count]) for count in (0, 1, 5, 12)},
        "practise, 25": with_sets(SET_NAMES * 2 + ("d",)),
    },
    AllChoices: {"all choices": with_sets((), "practise.more")},
    Published: {
        "published, called": with_sets((), "practise.more", "practise.called", "published.open"),
        "published, flashed": with_sets((), "practise.more", "practise.flashed", "published.open"),
    },
    RunScreen: {
        "a published run": with_sets(
            (), "practise.more", "practise.called", "published.open", "practise.start"
        )
    },
    NewSet: {"new set": with_sets((), "practise.more", "practise.keep")},
    KeptSets: {"kept sets": with_sets(SET_NAMES, "pencil")},
    OneSet: {
        "one set": with_sets(SET_NAMES, "pencil", "Quay"),
        "one set to go": with_sets(SET_NAMES, "pencil", "Quay", "practise.remove"),
    },
    AnotherName: {
        "another name of a set": with_sets(SET_NAMES, "pencil", "Quay", "who.change_name")
    },
    SettingsScreen: {
        **{f"settings {page}": settings(page) for page in range(6)},
        "removing": asking_to_remove,
        "joined": of_twins(2),
        "settings by the code": from_settings(),
    },
    ClassroomScreen: {"classroom": from_settings("settings.page_6", "classroom.title")},
    SharedFolder: {
        "shared folder": from_settings("settings.page_6", "shared.title"),
        "shared folder, typed": sharing(typed="/media/" + "quay/" * 30),
        "shared folder, in use": sharing(Path("/nowhere") / ("market-" * 20)),
    },
    TwoComputers: {"two computers": from_settings("settings.page_6", "two_computers.title")},
    ClassPage: {
        "class, none": lambda pilot: open_class(pilot),
        "class": of_class(),
        "class of many": of_class(count=60),
        "class, covered": of_class("class.who_next", "class.begin", "back"),
    },
    ListPage: {
        "list": of_class("class.list"),
        "list, none copied": of_class("class.list", "class.paste"),
    },
    ClassFiles: {
        "lists": lambda pilot: put(pilot, ClassFiles(pilot.room)),
        "a new list": of_class("class.list", "class.from_file", "class_files.new"),
    },
    TakeList: {
        "list, looked over": looked_over(BROKEN_LIST),
        "list, few": looked_over("Seal\nHeron"),
        "list, nearly": looked_over(NEARLY, beside=1, names=(LONG,)),
        "list beside a class": looked_over("Seal\nHeron", beside=5),
    },
    WhomPage: {
        "whom": looked_over("Seal\nSeal", "Say who they are: 1"),
        "whom, twice": looked_over("Sprat 0\nSprat 0", "Say who they are: 1", beside=1),
        "whom, nearly": looked_over(NEARLY, "Say who they are: 1", beside=1, names=(LONG,)),
    },
    GroupChoice: {
        "which group": choosing_group(2, can_add=False),
        "which of many groups": choosing_group(40, can_add=True),
    },
    NewGroup: {"new group": lambda pilot: put(pilot, NewGroup(pilot.room))},
    ChildPage: {
        "child": of_class(CRAB),
        "child, saved": of_class(CRAB, "class.save_sheet"),
        "child, new": of_class("Quay 0", count=1),
        "child, out": of_class(CRAB, "class.take_out"),
    },
    GroupsPage: {
        "groups": of_class("class.groups"),
        "groups, saved": of_class("class.groups", "class.save_sheets"),
        "groups of many": of_class("class.groups", count=60, worked=20),
        "groups, none": of_class("class.groups", count=60),
    },
    ReportsPage: {"pages for parents": of_class("class.reports")},
    PickerPage: {
        "who is next": of_class("class.who_next"),
        "who is next, one": of_class("class.who_next", "class.begin"),
        "who is next, any name": of_class("class.who_next", "class.begin", count=9),
    },
    SameChild: {
        "same child": from_settings("settings.page_5", "same_child.open"),
        "same child of many": of_twins(0, "same_child.open"),
        "same child, joined": of_twins(2, "same_child.open"),
    },
    OneChild: {"one child": of_twins(0, "same_child.open", "Otter 0")},
    Parting: {"parting": of_twins(3, "same_child.open", "same_child.part")},
    ReportPage: {
        "report": from_settings("settings.page_5", "report.open"),
        "report, full": reporting(FULL),
        "report, on paper": reporting(ON_PAPER),
        "report, saved": reporting(FULL, "report.save"),
    },
    SheetsPage: {
        "sheets": from_settings("settings.page_5", "sheets.title"),
        **{f"sheets, {kind}": chosen_sheet(kind=kind) for kind in SHEETS},
        **{f"sheets, {name}": chosen_sheet(is_paper=True, grade=name) for name in GRADES},
        "sheets, saved": chosen_sheet("sheets.save", kind=SheetKind.READ),
        "sheets, none": chosen_sheet("sheets.save", topic=Family.ADD_DIRECT, digits=1),
    },
    MarksScreen: {
        "code of a sheet": of_learner("marks.open"),
        "code of a sheet, mistyped": of_sheet(SLIPPED),
        "code of a sheet, half marked": back_from(of_sheet(SUMS, "19")),
    },
    CallSheet: {
        "a sheet called": of_called(SUMS),
        "a sheet called, under way": of_called(SUMS, "marks.call"),
        "a sheet called, seen": of_called(SUMS, "call_sheet.look"),
        "a sheet called, sixty columns": of_called(LONG_COLUMNS, "marks.call"),
    },
    TypeAnswers: {
        "answers": of_sheet(SUMS),
        "answers, a fault": of_sheet(SUMS, "19", "74"),
        "answers of sixty columns": of_sheet(LONG_COLUMNS, "123456789012345678"),
    },
    TouchWrong: {
        "wrong ones": of_sheet(SUMS, "marks.only_wrong", "4", "30"),
    },
    MarksEnd: {
        "marks": of_sheet(SUMS, "19", "74", "marks.to_end"),
        "marks, kept": of_sheet(SUMS, "19", "74", "marks.to_end", "marks.keep"),
        "marks, kept, others": of_sheet_of_many(5),
        "marks of sixty columns": of_sheet(LONG_COLUMNS, "123456789012345678", "marks.to_end"),
        "marks of a paper": of_sheet("2M00-40A0-5NB", "marks.to_end"),
        "marks, all right": of_sheet(SUMS, "marks.only_wrong", "marks.to_end"),
    },
    NextChild: {
        f"whose sheet, {count}": of_sheet_of_many(count, "marks.another_child")
        for count in (1, 5, 19, 60)
    },
    PapersPage: {
        "papers": with_sets((), "paper.open"),
        **{f"papers, {count}": past_papers_of(count) for count in (1, 30)},
        "papers, ours": past_papers_of(0, grade="second-mental-dan"),
        "papers, warm-up": past_papers_of(0, part=PaperPart.WARM_UP),
        "papers, one waits": of_paper_left(),
        "papers, one waits and one is to begin": of_paper_left("paper.begin_new"),
    },
    TakingScreen: {
        "paper on beads": of_paper(),
        "paper on beads, product": of_paper(grade="kyu-1", answers=15),
        "paper on beads, below zero": of_paper(grade="second-dan"),
        "paper typed": of_paper(grade="kyu-1", on_beads=False),
        "paper typed, product": of_paper(grade="kyu-3", on_beads=False, answers=13),
        "paper without a clock": of_paper(is_clocked=False, answers=3),
        "paper, mental": of_paper(grade="mental-dan", answers=149),
        "paper, all answered": of_paper(grade="second-mental-dan", answers=120),
        "paper, one section": of_paper(grade="kyu-2", part=PaperPart.QUOTIENTS),
        "paper, warm-up": of_paper(grade="kyu-2", part=PaperPart.WARM_UP),
        "paper, paused": of_paper("pause"),
    },
    OpenTasks: {
        "paper, open": of_paper("paper.hand_in", answers=17),
        "paper, one open": of_paper("paper.hand_in", grade="kyu-8", answers=29),
        "paper, all of a dan open": of_paper("paper.hand_in", grade="dan"),
        "paper, a part open": of_paper(
            "paper.hand_in", grade="kyu-2", part=PaperPart.QUOTIENTS, answers=3
        ),
        "paper, warm-up open": of_paper("paper.hand_in", part=PaperPart.WARM_UP, answers=2),
    },
    PaperResult: {
        "paper, nothing": of_paper("paper.hand_in", "paper.hand_in"),
        "paper, result": of_paper("paper.hand_in", "paper.hand_in", grade="kyu-8", answers=25),
        "paper, dan": of_paper("paper.hand_in", grade="dan", answers=150),
        "paper, mental dan": of_paper("paper.hand_in", grade="mental-dan", answers=150, first=90),
        "paper, second dan": of_paper(
            "paper.hand_in", grade="second-mental-dan", answers=120, first=80
        ),
        "paper, warmed up": of_paper("paper.hand_in", part=PaperPart.WARM_UP, answers=5),
        "given paper, over": followed(
            of_paper("paper.hand_in", "paper.hand_in", grade="kyu-8", answers=25),
            Work.SHEET,
            code_of(Recipe(kind=SheetKind.PAPER, grade="kyu-8")),
        ),
    },
    NewCode: {
        "new code": lambda pilot: pilot.press("gear"),
        "new code once": code_once,
        "another code": from_settings("settings.page_6", "code.change"),
    },
    NewName: {"another name": of_learner("who.change_name")},
    ChooseAnimal: {"another animal": of_learner("who.change_picture")},
    ChooseFlag: {"another flag": another_flag},
    ChooseAge: {"age": lambda pilot: put(pilot, ChooseAge(pilot.room, Portrait("owl", "cross")))},
    FirstName: {"first name": first_name},
    Lock: {"lock": lambda pilot: put(pilot, Lock(pilot.room))},
    GrownScreen: {
        **{f"my frame, {part}": my_frame(part) for part in Part},
        **{f"my frame, {part} grown": my_frame(part, MANY, at=2) for part in Part},
        "my frame, young": my_frame(Part.FRAME, age=Age.YOUNG),
        "my frame, young and grown": my_frame(Part.FRAME, MANY, age=Age.YOUNG),
    },
    GivenPage: {
        "given": given(2, "slip"),
        "given, nothing open": given(1, "tick", done=1),
        "given, much": given(len(GIVEN), "slip", done=3),
        "given, not yet": given(4, "slip", "today.title", done=1, lessons=0),
    },
    GivenSheet: {"given sheet": given(1, "slip")},
    GivingScreen: {
        "giving": giving(),
        "giving, given": giving("giving.give"),
        "giving, a set": giving("giving.set"),
        "giving, a paper": giving("giving.sheet"),
        "giving, due": giving("giving.due", "giving.slips"),
        "giving, a long code": giving(code="2400-47FJ-RG7H"),
    },
    GivenBefore: {
        "given before, nothing": giving("giving.before", count=0),
        "given before": giving("giving.give", "giving.before", count=10),
    },
    GivenNames: {"given names": giving("giving.give", "giving.before", "One to four", count=10)},
    CodeToGive: {"code to give": giving("giving.sheet", "giving.by_code")},
    OwnLessons: {"own lessons": lambda pilot: put(pilot, OwnLessons(pilot.room))},
}
"""What opens each screen from home, in each of its states."""


def panels():
    """Every panel that no other extends, in all rooms."""
    for module in pkgutil.walk_packages(frame.screens.__path__, "frame.screens."):
        importlib.import_module(module.name)
    kinds, left = [], [Panel]
    while left:
        one = left.pop()
        ours = [kind for kind in one.__subclasses__() if kind.__module__.startswith("frame.")]
        left += ours
        kinds += [] if ours else [one]
    return set(kinds)


def test_no_screen_is_left_out():
    assert (
        panels() - {Home, Who} - set(STAYS) - set(OVER_THE_BOARD) - set(BEFORE_ANYBODY) - set(WAYS)
        == set()
    )


def test_no_stage_of_a_lesson_is_left_out():
    assert set(Stage) - set(STAGES) == {Stage.RESULTS}, "its screen comes up at once"


def escape(pilot, home):
    for _ in range(MOST_ESCAPES):
        pilot.key(pygame.K_ESCAPE)
        pilot.wait(0.1, 2)
        if pilot.screen is home:
            return
    raise AssertionError(f"Esc leads to {pilot.screen}")


@pytest.mark.parametrize("leave", ["esc", "back"])
@pytest.mark.parametrize("kind", OVER_THE_BOARD)
def test_from_what_lies_over_the_board_esc_or_the_sign_leads_to_it(pilot, kind, leave):
    board = BoardScreen(pilot.room)
    put(pilot, board)
    put(pilot, kind(pilot.room))
    if leave == "esc":
        pilot.key(pygame.K_ESCAPE)
    else:
        pilot.press("back")
    assert pilot.screen is board


def test_esc_stops_a_run_and_then_leads_home(pilot, monkeypatch):
    key = {"key": pygame.K_ESCAPE, "mod": 0, "unicode": "", "scancode": 0}
    keys = [pygame.event.Event(pygame.KEYDOWN, key)]

    def stopping(seconds):
        return [*pilot.sleep(seconds), *(keys.pop() for _ in keys[:])]

    monkeypatch.setattr("frame.view.flash_stage.next_events", stopping)
    pilot.tick = 0.00001
    home = pilot.screen
    screen = begin(pilot, asked("3 + 4", Asked.FLASHED, Rung.NUMBER))
    pilot.press_word("flash.start")
    (run,) = pilot.room.store.flash_runs(pilot.room.learner)
    assert run.stopped and pilot.screen is screen
    escape(pilot, home)


def test_from_home_esc_leads_to_the_first_screen_and_there_it_does_nothing(pilot):
    pilot.key(pygame.K_ESCAPE)
    for _ in range(3):
        assert isinstance(pilot.screen, Who)
        pilot.key(pygame.K_ESCAPE)
    assert len(pilot.app.screens) == 1


@pytest.mark.parametrize("opened", [[], ["Otter"], ["gear"]])
def test_whoever_is_new_comes_back_to_the_pictures(tmp_path, opened):
    pilot = Pilot(tmp_path, (800, 480))
    pictures = [button.text for button in pilot.screen.buttons]
    for one in opened:
        pilot.press(one)
    for _ in range(3):
        pilot.key(pygame.K_ESCAPE)
    assert [button.text for button in pilot.screen.buttons] == pictures
    pilot.close()

"""Whose settings are in force: the learner's, or the computer's where nobody is here."""

import json
import sqlite3
from contextlib import closing
from dataclasses import replace

import pytest
from pilot import Pilot

from frame.learner.learners import Learner
from frame.learner.settings import Age, Look, Settings, Volume
from frame.learner.store import Store
from frame.technique.conventions import Carry
from frame.view.theme import THEMES

SCHOOL = {"look": Look.DARK, "volume": Volume.NORMAL, "marks_every": 4, "quick_flash": True}


class Loudspeaker:
    """Notes how loud it is."""

    volume = None

    def set_volume(self, volume):
        self.volume = volume


@pytest.fixture
def pilot(tmp_path):
    pilot = Pilot(tmp_path, (320, 240))
    yield pilot
    pilot.close()


@pytest.fixture
def room(pilot):
    pilot.room.sounds = Loudspeaker()
    return pilot.room


def newcomer(room, name="Otter", age=Age.MIDDLE):
    learner = Learner.new(name, name.lower())
    room.store.add_learner(learner, replace(room.computer, age=age), room.now())
    return learner


def test_the_first_screen_is_as_the_computer_is_set(room, tmp_path):
    room.set_computer(**SCHOOL)
    again = Pilot(tmp_path, (320, 240))
    assert again.room.settings == again.room.computer == Settings(**SCHOOL)
    assert again.room.theme is THEMES[Look.DARK]
    again.close()


def test_who_leaves_leaves_the_computer_as_it_is_set(room):
    room.set_computer(**SCHOOL)
    room.enter(newcomer(room))
    room.set(look=Look.HIGH_CONTRAST, volume=Volume.OFF)
    assert (room.settings.look, room.sounds.volume) == (Look.HIGH_CONTRAST, Volume.OFF)
    room.leave()
    assert room.settings == room.computer == Settings(**SCHOOL)
    assert room.sounds.volume is Volume.NORMAL


def test_a_newcomer_begins_as_the_computer_is_set_and_keeps_that(room):
    room.set_computer(**SCHOOL)
    seal = newcomer(room, "Seal", Age.YOUNG)
    room.set_computer(look=Look.LIGHT)
    room.enter(seal)
    assert room.settings == Settings(age=Age.YOUNG, **SCHOOL)


def test_where_nobody_is_here_the_computer_is_set(room):
    room.set(volume=Volume.OFF, place_names=False)
    assert room.sounds.volume is Volume.OFF
    assert room.settings == room.computer == room.store.computer()
    assert room.computer == Settings(volume=Volume.OFF, place_names=False)


def test_what_is_the_computers_alone_is_set_for_all_who_come(room):
    otter, seal = newcomer(room), newcomer(room, "Seal")
    room.enter(otter)
    room.set(classroom=True, nearest_seat=3.0, left_handed=True)
    assert room.settings == Settings(classroom=True, nearest_seat=3.0, left_handed=True)
    assert room.computer == room.store.computer() == Settings(classroom=True, nearest_seat=3.0)
    room.enter(seal)
    assert room.settings == room.computer
    room.enter(otter)
    assert room.settings.left_handed


def test_a_learner_who_is_here_keeps_their_own_while_the_computer_is_set(room):
    room.enter(newcomer(room))
    room.set_computer(**SCHOOL)
    assert room.settings == Settings(quick_flash=True)
    assert room.sounds.volume is Volume.QUIET
    assert room.store.computer() == room.computer == Settings(**SCHOOL)


def test_a_learner_is_called_otherwise_from_then_on(room):
    otter, seal = newcomer(room), newcomer(room, "Seal")
    room.enter(otter)
    room.rename("Ann", "owl-cross")
    renamed = replace(otter, nickname="Ann", picture="owl-cross")
    assert room.learner == renamed
    assert room.learners() == room.store.learners() == (renamed, seal)


def test_where_nobody_is_here_nobody_is_renamed(room):
    otter = newcomer(room)
    room.rename("Ann", "owl")
    assert room.learners() == (otter,) and not room.is_unsaved


def test_a_new_name_that_cannot_be_kept_yet_is_shown_and_kept_later(room):
    otter, seal = newcomer(room), newcomer(room, "Seal")
    room.enter(otter)
    with closing(sqlite3.connect(room.store.path, isolation_level=None)) as holder:
        holder.execute("BEGIN IMMEDIATE")
        for name in ("Ann", "Ola"):
            room.rename(name, "owl")
        room.leave()
        assert room.is_unsaved
        assert [one.nickname for one in room.learners()] == ["Ola", "Seal"]
    room.keeper.send()
    assert not room.is_unsaved
    assert room.learners() == (replace(otter, nickname="Ola", picture="owl"), seal)


def test_what_cannot_be_kept_is_in_force_all_the_same(room):
    with closing(sqlite3.connect(room.store.path)) as rows, rows:
        rows.execute("DROP TABLE computer")
    room.set_computer(look=Look.DARK)
    assert room.settings.look is Look.DARK
    assert room.is_unsaved


def test_a_learner_steps_aside_for_a_class_and_is_back_as_before(room):
    room.set(look=Look.HIGH_CONTRAST)
    learner = newcomer(room)
    room.enter(learner)
    room.set(look=Look.DARK)
    own, sitting = room.settings, room.sitting
    room.step_aside()
    assert (room.settings, room.learner, room.waiting) == (room.computer, None, learner)
    room.set(marks_every=4)
    assert room.computer.marks_every == 4
    room.step_back()
    assert (room.settings, room.learner, room.waiting) == (own, learner, None)
    assert room.sitting == sitting and room.sounds.volume == own.volume


def test_where_nobody_was_here_nobody_comes_back(room):
    room.step_aside()
    room.step_back()
    assert (room.learner, room.waiting, room.settings) == (None, None, room.computer)


@pytest.mark.parametrize("is_brought_in", [True, False])
@pytest.mark.parametrize(
    ("changes", "is_another"), [({"carry": Carry.FIRST}, True), ({"free_rods": 7}, False)]
)
def test_work_in_other_conventions_counts_to_another_sitting(
    room, changes, is_another, is_brought_in
):
    otter = newcomer(room)
    room.enter(otter)
    before, settings = room.sitting.id, replace(room.settings, **changes)
    if is_brought_in:
        with closing(Store(room.store.path)) as other:
            other.save_settings(otter, settings, room.now())
        room.read_anew()
    else:
        room.set(**changes)
    assert room.settings == settings and (room.sitting.id != before) is is_another
    with closing(sqlite3.connect(room.store.path)) as file:
        kept = "SELECT conventions FROM sitting WHERE id = ?"
        (ways,) = file.execute(kept, (room.sitting.id,)).fetchone()
    assert json.loads(ways)["carry"] == settings.carry

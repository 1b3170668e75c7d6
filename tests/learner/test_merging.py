"""Whatever is done on several computers, their files are joined without loss or double counting,
in any order and however often."""

import json
import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import timedelta
from pathlib import Path
from shutil import copyfile
from tempfile import TemporaryDirectory

import pytest
from computers import RUN, SHARED, TRIED, Computers, rows_of
from hypothesis import given, settings
from hypothesis import strategies as st
from kept import AROUND, NOW, added, begun, timed

from frame.course.attempts import Position
from frame.learner.backups import BackedUp, back_up
from frame.learner.folding import WHAT as FOLDED
from frame.learner.folding import Fold, FoldRules
from frame.learner.kept_sets import KeptSet
from frame.learner.learners import Learner, new_id
from frame.learner.merging import Merged, merge
from frame.learner.other_file import look_into
from frame.learner.paper_left import WHAT as PAPER
from frame.learner.persons import Person
from frame.learner.settings import Settings
from frame.learner.store import LessonState, Store

KINDS = (
    *("come", "try", "try", "go_on", "rename", "set", "choose", "keep", "keep", "let_go"),
    *("give", "give", "tick", "take_back", "remove", "join", "merge"),
)
ACTS = st.tuples(
    st.sampled_from(KINDS), st.integers(0, 2), st.integers(0, 5), st.sampled_from((0, 1))
)
HISTORIES = st.lists(ACTS, min_size=5, max_size=30)
EXAMPLES = [6, pytest.param(300, marks=pytest.mark.proof)]
OF_LEARNERS = set(SHARED) - {"gone", "joined"}
STORES = Path(__file__).with_name("stores")
OLD = sorted(STORES.glob("*.sql"))


def lived(folder, history):
    """Computers on which all this was done."""
    computers = Computers(folder)
    for act in history:
        computers.act(*act)
    return computers


@pytest.mark.parametrize("examples", EXAMPLES)
def test_computers_that_know_of_one_another_hold_the_same_and_all_of_it(examples):
    ways = [(here, there) for here in range(3) for there in range(3) if here != there]

    @given(history=HISTORIES, order=st.permutations(ways * 2))
    @settings(max_examples=examples)
    def hold_the_same(history, order):
        with TemporaryDirectory() as folder, closing(lived(Path(folder), history)) as computers:
            for here, there in [*order, (0, 1), (1, 2), (2, 0), (0, 1), (1, 2)]:
                computers.merge(here, there)
            rows = [rows_of(path) for path in computers.paths]
            assert rows[0] == rows[1] == rows[2]
            done, removed = computers.done, computers.removed
            kept = {attempt for attempt, learner in done.items() if learner not in removed}
            assert {dict(row)["id"] for row in rows[0]["attempt"]} == kept
            assert_sets_are_right(computers, rows[0]["kept_set"])
            before = [path.read_bytes() for path in computers.paths]
            for here, there in ways:
                merged = computers.merge(here, there)
                assert merged == Merged(left_out=merged.left_out)
            assert [path.read_bytes() for path in computers.paths] == before

    hold_the_same()


def assert_sets_are_right(computers, rows):
    """Each set is there, or noted as removed without a trace; none of who was deleted is."""
    sets = {dict(row)["id"]: dict(row) for row in rows}
    assert set(sets) == {one for one, of in computers.sets.items() if of not in computers.removed}
    for one, row in sets.items():
        assert row["removed"] == (one in computers.sets_removed)
        assert bool(row["name"]) != row["removed"]


@pytest.mark.parametrize("examples", EXAMPLES)
def test_neither_order_nor_brackets_make_a_difference(examples):
    @given(history=HISTORIES)
    @settings(max_examples=examples)
    def make_no_difference(history):
        with TemporaryDirectory() as name, closing(lived(Path(name, "all"), history)) as computers:
            found = []
            for number, (a, b, c) in enumerate([(0, 1, 2), (1, 0, 2), (2, 1, 0)]):
                for kind, ways in {"row": [(a, b), (a, c)], "brackets": [(b, c), (a, b)]}.items():
                    with closing(computers.copied(Path(name, f"{kind} {number}"))) as copies:
                        for here, there in ways:
                            copies.merge(here, there)
                        found.append(rows_of(copies.paths[a]))
            assert all(rows == found[0] for rows in found)

    make_no_difference()


@pytest.fixture
def two(tmp_path):
    """Two computers; on both is an otter, who did one exercise."""
    computers = Computers(tmp_path, 2)
    here, there = computers.stores
    otter = added(here, "Otter")
    done(here, otter)
    computers.merge(1, 0)
    yield here, there, otter
    computers.close()


def done(store, learner, count=1, now=NOW):
    """So many exercises of a new sitting are kept."""
    sitting, state = begun(store, learner, now), LessonState(1, Position(count), False)
    store.record(sitting, timed(*[(TRIED, 1.0)] * count), learner, "beads-1", state, now)
    return sitting


def after(seconds):
    return NOW + timedelta(seconds=seconds)


def both(here, there):
    """Each takes the other's file in."""
    merge(here, there.path, NOW)
    merge(there, here.path, NOW)
    return here, there


# What holds


def test_what_was_done_is_counted_once_and_in_its_order(two):
    here, there, otter = two
    done(here, otter, 2, after(10))
    done(there, otter, 3, after(5))
    assert merge(here, there.path, NOW) == Merged(attempts=3, is_new=True)
    assert merge(there, here.path, NOW) == Merged(attempts=2, is_new=True)
    assert len(here.attempts(otter)) == 6
    assert here.tries(otter) == there.tries(otter)


@pytest.mark.parametrize("first", [0, 1])
def test_the_later_name_and_the_later_settings_hold_each_for_itself(two, first):
    here, there, otter = two
    one, other = (here, there) if first else (there, here)
    one.rename(Learner(otter.id, "Seal", "seal"), after(2))
    other.rename(Learner(otter.id, "Crab", "crab"), after(1))
    one.save_settings(otter, Settings(free_rods=5), after(3))
    other.save_settings(otter, Settings(free_rods=7), after(4))
    for store in both(here, there):
        assert store.learners() == (Learner(otter.id, "Seal", "seal"),)
        assert store.settings(otter).free_rods == 7


@pytest.mark.parametrize("first", [0, 1])
def test_the_later_place_in_a_lesson_holds_and_what_was_done_once_stays_so(two, first):
    here, there, otter = two
    one, other = (here, there) if first else (there, here)
    one.record("", [], otter, "beads-2", LessonState(1, Position(4), True, True), after(1))
    other.record("", [], otter, "beads-2", LessonState(2, Position(2), True), after(2))
    for store in both(here, there):
        assert store.lessons(otter)["beads-2"] == LessonState(2, Position(2), True, True)
    with closing(sqlite3.connect(here.path)) as file:
        told = file.execute("SELECT done, mastered FROM lesson WHERE lesson = 'beads-2'").fetchone()
    assert told == (after(1).isoformat(), after(1).isoformat())


def test_a_sitting_that_went_on_elsewhere_has_its_later_end_and_all_its_inputs(two):
    here, there, otter = two
    sitting = done(here, otter)
    merge(there, here.path, NOW)
    here.end_sitting(sitting, after(60))
    here.note_input(sitting, ["mouse", "keys"])
    there.end_sitting(sitting, after(30))
    there.note_input(sitting, ["mouse"])
    for store in both(here, there):
        with closing(sqlite3.connect(store.path)) as file:
            question = "SELECT ended, input FROM sitting WHERE id = ?"
            told = file.execute(question, (sitting,)).fetchone()
        assert told == (after(60).isoformat(), "keys mouse")


@pytest.mark.parametrize("known", ["", "touch"])
def test_where_a_sitting_of_an_older_version_tells_of_no_inputs_those_that_are_known_stay(
    two, known
):
    here, there, otter = two
    sitting = done(here, otter)
    here.note_input(sitting, known.split())
    merge(there, here.path, NOW)
    with closing(sqlite3.connect(there.path)) as file, file:
        file.execute("UPDATE sitting SET input = NULL WHERE id = ?", (sitting,))
    for store in both(here, there):
        with closing(sqlite3.connect(store.path)) as file:
            told = file.execute("SELECT input FROM sitting WHERE id = ?", (sitting,)).fetchone()
        assert told == (known,)


def test_what_was_changed_at_one_time_is_the_same_on_both(two):
    here, there, otter = two
    seal = added(here, "Seal")
    merge(there, here.path, NOW)
    for number, store in enumerate((here, there)):
        store.rename(Learner(otter.id, f"Crab {number}", "crab"), after(1))
        store.save_settings(otter, Settings(free_rods=5 + number), after(1))
        store.record(
            "", [], otter, "beads-2", LessonState(1, Position(2 + number), False), after(1)
        )
        store.join(otter, seal, after(1), apart=bool(number))
    both(here, there)
    assert rows_of(here.path) == rows_of(there.path)


def test_what_is_the_computers_stays_on_it(two):
    here, there, _ = two
    there.set_code("2580")
    there.save_computer(Settings(classroom=True))
    there.keep_plan("[]")
    assert merge(here, there.path, NOW) == Merged()
    assert not here.has_code() and here.computer() == Settings() and here.kept_plan() is None


def test_what_was_folded_is_made_anew_for_who_did_something_elsewhere_alone(two):
    here, there, otter = two
    seal = added(here, "Seal")
    with closing(sqlite3.connect(here.path)) as file, file:
        for learner in (otter, seal):
            file.execute("INSERT INTO folded VALUES (?, ?, '{}')", (learner.id, FOLDED))
    done(there, otter)
    merge(here, there.path, NOW)
    with closing(sqlite3.connect(here.path)) as file:
        assert file.execute("SELECT learner FROM folded").fetchall() == [(seal.id,)]


# Sets that are kept


@pytest.mark.parametrize("first", [0, 1])
def test_the_later_name_of_a_set_holds(two, first):
    here, there, otter = two
    one, other = (here, there) if first else (there, here)
    quay = KeptSet(new_id(), "Quay", {"asked": "called"})
    here.keep_set(otter, quay, after(0))
    merge(there, here.path, NOW)
    one.keep_set(otter, replace(quay, name="Shore"), after(2))
    other.keep_set(otter, replace(quay, name="Pier"), after(1))
    for store in both(here, there):
        assert store.kept_sets(otter) == (replace(quay, name="Shore"),)


@pytest.mark.parametrize("first", [0, 1])
def test_a_set_that_was_removed_stays_so_whatever_it_is_called_elsewhere(two, first):
    here, there, otter = two
    one, other = (here, there) if first else (there, here)
    quay = KeptSet(new_id(), "Heron-by-the-quay", {"asked": "called"})
    here.keep_set(otter, quay, after(0))
    merge(there, here.path, NOW)
    one.remove_set(quay, after(1))
    other.keep_set(otter, replace(quay, name="Heron-by-the-shore"), after(2))
    for store in both(here, there):
        assert store.kept_sets(otter) == ()
        store.keep_set(otter, quay, after(3))
        assert store.kept_sets(otter) == ()
        assert b"Heron-by" not in store.path.read_bytes()


def test_sets_kept_on_two_computers_are_all_there_in_the_order_in_which_they_were_kept(two):
    here, there, otter = two
    for number in range(4):
        one = KeptSet(f"{9 - number}", f"Quay {number}", {})
        (here if number % 2 else there).keep_set(otter, one, after(number))
    for store in both(here, there):
        assert [one.name for one in store.kept_sets(otter)] == [f"Quay {n}" for n in range(4)]


# What is under way


def test_a_paper_under_way_stays_where_attempts_come(two):
    here, there, otter = two
    merge(there, here.path, NOW)
    for what in (FOLDED, PAPER):
        there.keep_folded(otter, what, "as it was")
    done(here, otter)
    merge(there, here.path, NOW)
    assert there.folded(otter, FOLDED) is None
    assert there.folded(otter, PAPER) == "as it was"


# Who was deleted


def test_a_child_with_two_ids_is_counted_as_one(two, tmp_path):
    here, there, otter = two
    seal, again = added(here, "Seal"), added(here, "Seal 2")
    here.join(seal, again, NOW)
    whole, half = tmp_path / "whole.sqlite", added(there, "Otter 2")
    assert back_up(here, whole) == BackedUp(learners=2, attempts=1)
    assert back_up(here, tmp_path / "seal.sqlite", seal).learners == 1
    assert look_into(whole).children == 2
    assert merge(there, whole, NOW).learners == 1
    here.join(otter, half, after(1))
    assert merge(here, there.path, NOW) == Merged(is_new=True), "of a child who was here"
    here.remove_learner(seal, after(2))
    both_seals = (Person("Seal 2", "otter", 0),)
    assert merge(here, whole, NOW).left_out == both_seals, "under the name that was given last"
    assert merge(there, here.path, NOW).removed == 1
    brought = merge(here, whole, after(3), bring_back=True)
    assert (brought.learners, brought.back, brought.left_out) == (1, both_seals, ())


def test_of_a_damaged_file_a_child_with_two_ids_is_counted_as_one(two):
    here, _, otter = two
    here.join(otter, added(here, "Otter 2"), NOW)
    here.close()
    here.path.write_bytes(b"garbage!" + here.path.read_bytes()[8:])
    with closing(Store(here.path)) as store:
        assert store.saved.learners == 1


def test_who_is_deleted_on_one_computer_is_gone_on_all_without_a_trace(two):
    here, there, otter = two
    there.close()
    there = Store(there.path)
    assert there.path.with_suffix(".good").exists()
    heron = Learner(otter.id, "Heron-by-the-quay", "heron")
    there.rename(heron, after(1))
    here.remove_learner(otter, after(2))
    done(there, otter, 2, after(3))
    assert merge(there, here.path, NOW) == Merged(removed=1, is_new=True)
    assert there.learners() == () and not any(rows_of(there.path)[one] for one in OF_LEARNERS)
    there.close()
    for one in there.path.parent.iterdir():
        assert b"Heron-by-the-quay" not in one.read_bytes(), one
    with closing(Store(there.path)) as again:
        assert merge(here, again.path, NOW) == Merged()


def named(learner, attempts=1):
    """How a file tells of a child under one id."""
    return Person(learner.nickname, learner.picture, attempts)


def test_a_deleted_learner_does_not_come_back_by_a_file_of_before(two, tmp_path):
    here, _, otter = two
    old = tmp_path / "old.sqlite"
    copyfile(here.path, old)
    here.remove_learner(otter, after(1))
    assert merge(here, old, NOW) == Merged(left_out=(named(otter),))
    assert here.learners() == ()


def test_who_is_left_out_is_named_with_all_that_the_file_has_of_them(two):
    """The name and the picture that were given last, each for itself, and the exercises under both
    ids."""
    here, there, otter = two
    seal = added(there, "Seal", "seal")
    there.rename(replace(seal, nickname="Wanda"), after(1))
    there.rename(Learner(otter.id, otter.nickname, "owl-cross"), after(2))
    for count, one in ((1, otter), (3, seal)):
        done(there, one, count, after(3))
    there.join(otter, seal, after(4))
    gull = added(there, "Gull", "gull")
    merge(here, there.path, NOW)
    for one in (otter, gull):
        here.remove_learner(one, after(5))
    count = len(there.attempts(otter))
    assert count >= 4
    left_out = merge(here, there.path, NOW).left_out
    assert left_out == (Person("Gull", "gull", 0), Person("Wanda", "owl-cross", count))
    assert merge(here, there.path, after(6), bring_back=True).back == left_out


def test_who_is_brought_back_is_so_on_every_computer_until_deleted_again(two, tmp_path):
    here, there, otter = two
    old = tmp_path / "old.sqlite"
    copyfile(here.path, old)
    here.remove_learner(otter, after(1))
    merge(there, here.path, NOW)
    brought = Merged(learners=1, attempts=1, back=(named(otter),), is_new=True)
    assert merge(here, old, after(2), bring_back=True) == brought
    assert merge(here, old, after(3), bring_back=True) == Merged()
    assert merge(there, here.path, NOW) == Merged(learners=1, attempts=1, is_new=True)
    for store in both(here, there):
        assert store.learners() == (otter,) and len(store.attempts(otter)) == 1
    there.remove_learner(otter, after(4))
    for store in both(here, there):
        assert store.learners() == ()


def test_of_being_deleted_and_brought_back_the_later_holds(two, tmp_path):
    """On two computers that knew nothing of one another meanwhile."""
    here, there, otter = two
    old = tmp_path / "old.sqlite"
    copyfile(here.path, old)
    here.remove_learner(otter, after(1))
    there.remove_learner(otter, after(2))
    merge(here, old, after(3), bring_back=True)
    for store in both(here, there):
        assert store.learners() == (otter,)


@pytest.mark.parametrize("turn", [1, 4])
def test_a_clock_that_was_put_back_neither_deletes_nor_brings_back(two, tmp_path, turn):
    """What was done last holds, whatever time it was."""
    here, _, otter = two
    old = tmp_path / "old.sqlite"
    copyfile(here.path, old)
    for number in range(turn):
        here.remove_learner(otter, after(-number))
        assert merge(here, old, NOW) == Merged(left_out=(named(otter),))
        assert merge(here, old, after(-number - 5), bring_back=True).back == (named(otter),)
        assert here.learners() == (otter,)
    here.remove_learner(otter, after(-100))
    merge(here, old, NOW)
    assert here.learners() == ()


def test_what_belongs_to_nobody_does_not_come_in(two, tmp_path):
    here, there, otter = two
    with closing(sqlite3.connect(there.path)) as file, file:
        for table in ("sitting", "lesson"):
            file.execute(f"UPDATE {table} SET learner = 'nobody'")
    done(there, otter)
    assert merge(here, there.path, NOW) == Merged(attempts=1, is_new=True)


# The same child


def test_who_is_joined_on_one_computer_is_so_on_all_by_the_later_word(two):
    here, there, otter = two
    seal = added(there, "Seal")
    done(there, seal, 2)
    there.join(otter, seal, after(1))
    for store in both(here, there):
        assert set(store.ids_of(otter)) == {otter.id, seal.id}
        assert len(store.attempts(otter)) == 3 and len(store.learners()) == 1
    here.part(otter, after(2))
    for store in both(here, there):
        assert len(store.learners()) == 2 and len(store.attempts(otter)) == 1
    there.join(otter, seal, after(3))
    here.join(seal, otter, after(2.5), apart=True)
    for store in both(here, there):
        assert len(store.learners()) == 1


# Files of every kind


def old_file(script, folder):
    folder.mkdir(parents=True)
    path = folder / "learners.sqlite"
    with closing(sqlite3.connect(path)) as file:
        file.executescript(script.read_text("utf-8"))
    return path


@pytest.mark.parametrize("script", OLD, ids=lambda one: one.stem)
def test_a_file_of_every_earlier_version_is_taken_in_and_stays_as_it_is(script, tmp_path):
    old, same = (old_file(script, tmp_path / name) for name in ("old", "same"))
    before = old.read_bytes()
    with closing(Store(tmp_path / "here" / "learners.sqlite")) as here:
        otter = added(here, "Otter 7")
        merged = merge(here, old, NOW)
        assert merged.is_new and merged.is_whole and merged.learners
        with closing(Store(same)) as brought_up:
            expected = rows_of(same)
            assert merge(here, same, NOW) == merge(here, old, NOW) == Merged()
            assert merged.attempts == sum(
                len(brought_up.attempts(x)) for x in brought_up.learners()
            )
        found = rows_of(here.path)
        assert [row for row in found["learner"] if otter.id not in str(row)] == expected["learner"]
        assert {name: found[name] for name in SHARED if name != "learner"} == {
            name: expected[name] for name in SHARED if name != "learner"
        }
    assert old.read_bytes() == before
    assert [one.name for one in old.parent.iterdir()] == [old.name]


def test_taking_in_ones_own_file_does_nothing(two):
    here, _, _ = two
    before = here.path.read_bytes()
    assert merge(here, here.path, NOW) == Merged()
    assert here.path.read_bytes() == before


def test_a_name_that_is_an_address_for_sqlite_is_a_file_like_any_other(two, tmp_path):
    here, there, otter = two
    done(there, otter)
    for number, name in enumerate(("a?mode=rw#b%20c.sqlite", "file:quay", "quay\udcff.sqlite")):
        odd = tmp_path / name
        try:
            copyfile(there.path, odd)
        except OSError:
            continue  # No such name can be had here.
        assert merge(here, odd, NOW).attempts == (not number)


def test_what_a_killed_process_began_to_write_is_not_taken_in(two, tmp_path):
    """Its journal lies beside the file, which is left as it is."""
    here, there, otter = two
    script = tmp_path / "cut"
    script.mkdir()
    cut = script / "learners.sqlite"
    with closing(sqlite3.connect(there.path, isolation_level=None)) as file:
        file.execute("PRAGMA cache_size = 1")
        file.execute("BEGIN")
        file.execute("CREATE TABLE crates (name TEXT)")
        file.executemany("INSERT INTO crates VALUES (?)", [("lamp" * 500,)] * 200)
        file.execute("UPDATE learner SET nickname = 'Half', named = '9'")
        copyfile(there.path, cut)
        copyfile(f"{there.path}-journal", f"{cut}-journal")
        file.execute("ROLLBACK")
    before = [one.read_bytes() for one in sorted(script.iterdir())]
    assert merge(here, cut, NOW) == Merged()
    assert here.learners() == (otter,)
    assert [one.read_bytes() for one in sorted(script.iterdir())] == before


def test_values_that_nobody_wrote_do_not_come_in(two):
    here, there, otter = two
    seal = added(there, "Seal")
    done(there, seal, 3)
    with closing(sqlite3.connect(there.path)) as file, file:
        file.execute("UPDATE attempt SET rods = 'many' WHERE number % 2")
        file.execute("UPDATE learner SET id = NULL WHERE id = ?", (otter.id,))
        file.execute("UPDATE learner SET settings = x'00' WHERE id = ?", (seal.id,))
    merge(here, there.path, NOW)
    assert here.learners() == (otter,)
    assert merge(here, there.path, NOW) == Merged()


def test_settings_with_names_not_known_are_taken_as_they_are(two):
    here, there, otter = two
    text = json.dumps({"flag": "blue", "free_rods": 5})
    with closing(sqlite3.connect(there.path)) as file, file:
        file.execute("UPDATE learner SET settings = ?, settled = ?", (text, after(1).isoformat()))
    merge(here, there.path, NOW)
    assert here.settings(otter).free_rods == 5
    with closing(sqlite3.connect(here.path)) as file:
        assert file.execute("SELECT settings FROM learner").fetchall() == [(text,)]


def test_runs_of_flashed_numbers_come_in_once(two):
    here, there, otter = two
    there.record_flash(new_id(), begun(there, otter), RUN, NOW)
    for _ in range(2):
        merge(here, there.path, NOW)
    assert here.flash_runs(otter) == (RUN,)


def test_the_paces_of_both_hold_each_from_its_time_and_all_is_folded_by_them(two):
    here, there, otter = two
    here.keep_tapping("here", begun(here, otter), 0.5, after(3))
    there.keep_tapping("there", begun(there, otter), 0.75, after(1))
    there.keep_tapping("left", begun(there, otter), None, after(2))
    for store in both(here, there):
        assert [one.pace for one in store.tappings(otter)] == [0.75, None, 0.5]
        assert [one.pace for one in Fold.of(store, otter, FoldRules()).tappings] == [0.75, 0.5]
    assert merge(here, there.path, NOW) == Merged()


def test_around_a_sitting_what_was_known_stays(two):
    here, there, otter = two
    there.begin_sitting("sitting", otter, AROUND, NOW)
    both(here, there)
    with closing(sqlite3.connect(here.path)) as file:
        question = "SELECT conventions, window, judge FROM sitting WHERE id = 'sitting'"
        assert None not in file.execute(question).fetchone()


def test_a_name_changed_here_and_a_picture_changed_there_both_hold(two):
    here, there, otter = two
    here.rename(replace(otter, nickname="Mila"), NOW + timedelta(hours=1))
    there.rename(replace(otter, picture="seal-plain"), NOW + timedelta(hours=2))
    merge(here, there.path, NOW)
    merge(there, here.path, NOW)
    both = replace(otter, nickname="Mila", picture="seal-plain")
    assert here.learners() == there.learners() == (both,)


def test_a_child_of_two_ids_is_called_as_was_said_last_also_as_one_was_called_before(two):
    here, _, otter = two
    seal = added(here, "Seal")
    here.join(otter, seal, NOW)
    shown = here.learners()[0]
    for hour, name in enumerate(("Otter", "Seal", "Milla", "Otter")):
        shown = replace(shown, nickname=name)
        here.rename(shown, NOW + timedelta(days=1, hours=hour))
        assert here.learners() == (shown,)

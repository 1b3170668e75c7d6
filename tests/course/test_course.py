"""The course as a whole: order, what is taught by when, and the index that home opens by."""

import os
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st
from lesson_samples import WORDS

from frame.course import course as courses
from frame.course.course import check_file, index, load_one, taught
from frame.course.draft import every_problem, read_course
from frame.course.lesson import Practise
from frame.course.problems import LessonError, Problem, problem_text
from frame.resources import LESSONS

FACTS = {
    "reading-1": ("read-digit-1", "read-digit-2", "read-digit-3"),
    "reading-2": ("read-digit-5", "read-digit-6", "read-digit-7"),
    **{f"reading-{number}": () for number in (3, 4, 5)},
    "plus-1": ("set-digit-1", "set-digit-2", "add-direct-1"),
    "plus-2": ("set-digit-3", "set-digit-4", "add-five-4"),
    **{f"plus-{number}": () for number in (3, 4, 5)},
}
FILES = {
    "reading-1": "1-reading/1-crates.yaml",
    "reading-2": "1-reading/2-nets.yaml",
    **{f"reading-{number}": f"1-reading/{number}-quiet.yaml" for number in (3, 4, 5)},
    "plus-1": "10-plus/1-lamps.yaml",
    "plus-2": "10-plus/2-tickets.yaml",
    **{f"plus-{number}": f"10-plus/{number}-quiet.yaml" for number in (3, 4, 5)},
}
BEFORE_IT = {after: before for before, after in pairwise(FACTS)}
SUMS = {"plus-1": "1 + 1", "plus-2": "3 + 4"}


def _text(lesson: str) -> str:
    facts = FACTS[lesson]
    after = f"after: {BEFORE_IT[lesson]}\n" if lesson in BEFORE_IT else ""
    steps = [f"  - {fact.replace('-digit-', ': ')}" for fact in facts if "digit" in fact]
    steps += [f"  - sum: {SUMS[lesson]}"] if lesson in SUMS else []
    steps += [f"  - practise: {{facts: [{facts[-1]}], count: 3, pass: 2}}"] if facts else []
    steps = steps or ["  - say: The quay is quiet."]
    head = f"lesson: {lesson}\ntitle: {lesson}\n{after}new: [{', '.join(facts)}]\nsteps:\n"
    return head + "\n".join(steps) + "\n"


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A small course of two units; the second unit's folder sorts first as text."""
    for unit in ("1-reading", "10-plus"):
        _write_unit(tmp_path / "lessons" / unit)
    return tmp_path / "lessons"


def _write_unit(folder: Path) -> None:
    """The unit of a folder's name, with its lessons."""
    folder.mkdir(parents=True)
    name = folder.name.partition("-")[2]
    (folder / "unit.yaml").write_text(f"unit: {name}\ntitle: {name}\n")
    for lesson, file in FILES.items():
        if file.startswith(f"{folder.name}/"):
            (folder.parent / file).write_text(_text(lesson))


def _change(folder: Path, lesson: str, old: str, new: str) -> None:
    file = folder / FILES[lesson]
    text = file.read_text()
    assert old in text
    file.write_text(text.replace(old, new))


def _problems(folder: Path) -> tuple[Problem, ...]:
    """Every problem of a course, each of its lessons played."""
    return every_problem(read_course(folder))


def _found(folder: Path) -> list[tuple[str, str]]:
    return [(Path(one.file).name, one.code) for one in _problems(folder)]


def test_the_shipped_course_has_no_problems() -> None:
    assert [problem_text(one, WORDS) for one in _problems(LESSONS)] == []


def test_a_course_has_its_units_and_lessons_in_order(folder: Path) -> None:
    course = index(folder, None)
    assert _problems(folder) == ()
    assert [unit.id for unit in course.units] == ["reading", "plus"]
    ids = [lesson.id for unit in course.units for lesson in course.lessons_of(unit.id)]
    assert ids == list(FACTS)


def test_the_chain_orders_lessons_whatever_their_files_are_called(folder: Path) -> None:
    (folder / FILES["reading-1"]).rename(folder / "1-reading" / "9-crates.yaml")
    course = index(folder, None)
    assert [one.id for one in course.lessons_of("reading")] == list(FACTS)[:5]
    assert [one.id for one in course.lessons] == list(FACTS)


def test_sets_of_the_course_may_need_all_that_is_taught_by_then(folder: Path) -> None:
    course = index(folder, None)
    steps = load_one(course, "plus-1").steps
    known = [step.request.known for step in steps if isinstance(step, Practise)]
    assert known == [taught(course, "plus-1")]
    assert known[0] == {*FACTS["reading-1"], *FACTS["reading-2"], *FACTS["plus-1"]}


def test_swapped_lessons_are_caught(folder: Path) -> None:
    _change(folder, "plus-1", "after: reading-5", "after: plus-2")
    _change(folder, "plus-2", "after: plus-1", "after: reading-5")
    _change(folder, "plus-2", "3 + 4", "1 + 4")
    assert ("2-tickets.yaml", "untaught") in _found(folder)


def test_a_sum_not_yet_taught_is_caught(folder: Path) -> None:
    _change(folder, "plus-1", "sum: 1 + 1", "sum: 1 + 4")
    assert _found(folder) == [("1-lamps.yaml", "untaught")]


def test_a_lesson_that_no_longer_teaches_is_caught_in_those_after_it(folder: Path) -> None:
    _change(folder, "plus-1", ", set-digit-2, add-direct-1]", "]")
    for old in ("  - set: 2\n", "  - sum: 1 + 1\n"):
        _change(folder, "plus-1", old, "")
    _change(folder, "plus-1", "[add-direct-1], count", "[set-digit-1], count")
    assert _problems(folder) == ()
    _change(folder, "plus-2", "sum: 3 + 4", "sum: 3 + 1")
    assert ("2-tickets.yaml", "untaught") in _found(folder)


def test_all_problems_of_all_files_come_at_once(folder: Path) -> None:
    _change(folder, "reading-1", "read: 1", "raed: 1")
    _change(folder, "plus-2", "sum: 3 + 4", "sum: 3 + 9")
    (folder / "1-reading" / "unit.yaml").write_text("unit: [reading]\n")
    assert _found(folder) == [
        ("unit.yaml", "missing-key"),
        ("unit.yaml", "kind"),
        ("1-crates.yaml", "unknown-step"),
        ("2-tickets.yaml", "fit"),
    ]


@pytest.mark.parametrize(
    ("lesson", "old", "new", "found"),
    [
        ("plus-2", "after: plus-1\n", "", "after-missing"),
        ("plus-2", "after: plus-1", "after: plus-9", "after-unknown"),
        ("plus-2", "after: plus-1", "after: plus-2", "after-itself"),
        ("plus-2", "lesson: plus-2", "lesson: plus-1", "id-taken"),
        ("reading-1", "new:", "after: plus-2\nnew:", "after-ring"),
        ("reading-2", "read-digit-5,", "read-digit-1, read-digit-5,", "not-new"),
    ],
)
def test_what_is_wrong_between_lessons_is_named(
    folder: Path, lesson: str, old: str, new: str, found: str
) -> None:
    _change(folder, lesson, old, new)
    assert found in {code for _, code in _found(folder)}
    if found != "not-new":  # The index does not play lessons; it must only lead to all of them.
        with pytest.raises(LessonError):
            index(folder, None)


def test_what_is_wrong_with_folders_is_named(folder: Path, tmp_path: Path) -> None:
    (folder / "1-reading" / "unit.yaml").unlink()
    assert _found(folder) == [("unit.yaml", "unit-missing")]
    (folder / "1-reading" / "unit.yaml").write_text("unit: plus\ntitle: a\n")
    assert _found(folder) == [("unit.yaml", "unit-taken")]
    assert _found(tmp_path / "nowhere") == [("nowhere", "no-lessons")]
    (folder / "1-reading" / "unit.yaml").write_text("unit: reading\ntitle: a\n")
    (folder / FILES["reading-5"]).unlink()
    (folder / FILES["reading-5"]).mkdir()
    assert ("5-quiet.yaml", "no-file") in _found(folder)
    assert all(problem_text(one, WORDS) for one in _problems(folder))


@pytest.mark.parametrize("count", range(8))
def test_a_unit_with_other_than_five_lessons_is_named_by_checker_and_index(
    folder: Path, count: int
) -> None:
    """None at all are named as well: home would show an empty rod."""
    *before, last = FILES
    for lesson in reversed(FILES):
        number = int(lesson[-1])
        if lesson.startswith("plus") and number > count:
            (folder / FILES[lesson]).unlink()
    for number in range(6, count + 1):
        more = _text(last).replace(last, f"plus-{number}").replace(before[-1], f"plus-{number - 1}")
        (folder / "10-plus" / f"{number}-quiet.yaml").write_text(more)
    if count == 5:
        assert index(folder, None) and not _problems(folder)
        return
    unit_file = folder / "10-plus" / "unit.yaml"
    told = f"{unit_file}:1:1: found lessons in this unit's folder: {count}; expected 5, "
    assert [problem_text(one, WORDS)[: len(told)] for one in _problems(folder)] == [told]
    with pytest.raises(LessonError) as raised:
        index(folder, None)
    assert raised.value.problems == _problems(folder)


def test_a_lesson_that_cannot_be_read_is_a_lesson_of_its_unit(folder: Path) -> None:
    (folder / FILES["plus-5"]).write_text("- nets\n")
    assert _found(folder) == [("5-quiet.yaml", "kind")]


def test_the_index_says_what_the_lessons_say(folder: Path) -> None:
    course = index(folder, None)
    assert [(unit.id, unit.title) for unit in course.units] == [
        ("reading", "reading"),
        ("plus", "plus"),
    ]
    assert [one.path for one in course.lessons] == list(FILES.values())
    assert [one.id for one in course.lessons_of("plus")] == list(FACTS)[5:]
    known: set[str] = set()
    for one in course.lessons:
        lesson = load_one(course, one.id)
        assert (lesson.id, lesson.title, lesson.after, lesson.new) == (
            one.id, one.title, one.after, one.new,
        )  # fmt: skip
        known |= set(lesson.new)
        assert taught(course, one.id) == known


def test_the_cache_opens_the_course_without_a_lesson_being_read(
    folder: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    cache = tmp_path / "cache" / "course.json"
    built = index(folder, cache)
    monkeypatch.setattr(courses, "read_course", lambda _: pytest.fail("a lesson was read"))
    assert index(folder, cache) == built


def test_the_cache_is_built_anew_when_a_file_changes_comes_or_goes(
    folder: Path, tmp_path: Path
) -> None:
    cache = tmp_path / "course.json"
    index(folder, cache)
    file = folder / FILES["plus-2"]
    _change(folder, "plus-2", "title: plus-2", "title: plus-4")
    os.utime(file, ns=(0, file.stat().st_mtime_ns + 1_000_000))
    assert index(folder, cache).by_id["plus-2"].title == "plus-4"
    last, renamed = folder / FILES["plus-5"], folder / "10-plus" / "6-quiet.yaml"
    last.rename(renamed)
    assert index(folder, cache).by_id["plus-5"].path == "10-plus/6-quiet.yaml"
    renamed.unlink()
    with pytest.raises(LessonError):
        index(folder, cache)


@given(data=st.data())
def test_a_damaged_cache_is_built_anew(
    data: st.DataObject, tmp_path_factory: pytest.TempPathFactory
) -> None:
    folder = tmp_path_factory.mktemp("small")
    _write_unit(folder / "1-reading")
    cache = folder / "course.json"
    right = index(folder, cache)
    whole = cache.read_bytes()
    part = data.draw(st.floats(0, 1, exclude_max=True))
    at, flip = int(part * len(whole)), data.draw(st.integers(1, 255))
    flipped = whole[:at] + bytes([whole[at] ^ flip]) + whole[at + 1 :]
    damaged = data.draw(st.binary() | st.sampled_from((whole[:at], flipped)))
    cache.write_bytes(damaged)
    assert index(folder, cache) == right
    assert cache.read_bytes() == whole


@pytest.mark.skipif(os.name != "posix", reason="pipes with a place")
def test_a_pipe_in_the_place_of_the_cache_is_not_waited_for(folder: Path, tmp_path: Path) -> None:
    cache = tmp_path / "course.json"
    os.mkfifo(cache)
    assert index(folder, cache) == index(folder, None)


def test_a_cache_that_cannot_be_written_is_done_without(folder: Path, tmp_path: Path) -> None:
    (tmp_path / "file").write_text("")
    course = index(folder, tmp_path / "file" / "course.json")
    assert [one.id for one in course.lessons] == list(FACTS)


def test_a_file_of_the_course_is_checked_in_its_place(folder: Path) -> None:
    course = index(folder, None)
    for one in course.lessons:
        assert check_file(folder / one.path, course) == ()
    _change(folder, "plus-1", "sum: 1 + 1", "sum: 1 + 4")
    codes = [one.code for one in check_file(folder / FILES["plus-1"], course)]
    assert codes == ["untaught"]


def test_a_file_of_ones_own_is_checked_after_the_lesson_it_names(
    folder: Path, tmp_path: Path
) -> None:
    course, own = index(folder, None), tmp_path / "own.yaml"
    text = "lesson: own-1\ntitle: Own\nafter: {}\nsteps:\n  - sum: 3 + 4\n"
    own.write_text(text.format("plus-2"))
    assert check_file(own, course) == ()
    own.write_text(text.format("plus-1"))
    assert {one.code for one in check_file(own, course)} == {"untaught"}
    own.write_text(text.replace("after: {}\n", "").replace("3 + 4", "38 + 47").replace(
        "title", "rods: 2\ntitle"))  # fmt: skip
    assert check_file(own, course) == ()
    own.write_text(text.format("plus-2").replace("own-1", "plus-1"))
    assert "id-taken" in {one.code for one in check_file(own, course)}
    own.unlink()
    assert [one.code for one in check_file(own, course)] == ["unreadable"]

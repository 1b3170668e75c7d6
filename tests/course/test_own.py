"""A tutor's own lessons: which files count, one read with its problems, changes, new ones."""

import os
import sys
from pathlib import Path

import pytest
from shipped import the_course

from frame.course.agenda import ITEM_KEYS, Task
from frame.course.course import check_file
from frame.course.lesson import Ask, Line, Practise, Say, Show
from frame.course.own import own_files, read_own, read_own_agenda, write_new
from frame.practice.exercises import Kind
from frame.practice.rungs import Rung
from frame.resources import ASSETS
from frame.technique.facts import ALL_FACTS

COURSE = the_course()
TEMPLATE = (ASSETS / "words" / "lesson-template.en.yaml").read_text(encoding="utf-8")
TEMPLATE_ID = "my-lesson"
AGENDA = (ASSETS / "words" / "agenda-template.en.yaml").read_text(encoding="utf-8")
SHORT = "lesson: quay\ntitle: The quay\nsteps:\n  - sum: 3 + 4\n"


def file_of(folder: Path, text: str, name: str = "quay.yaml") -> Path:
    path = folder / name
    path.write_bytes(text.encode())
    return path


def test_lesson_files_come_by_name_and_number(tmp_path: Path) -> None:
    names = ["quay-10.yaml", "Quay-2.YAML", "quay.yaml", "a3b.yaml", "a3.yaml", "b.yml", "²9.yaml"]
    for name in (*names, ".quay.yaml", "quay.yaml~", "quay.txt"):
        file_of(tmp_path, SHORT, name)
    (tmp_path / "unit.yaml").mkdir()
    found = [path.name for path in own_files(tmp_path)]
    assert found == [
        "a3.yaml",
        "a3b.yaml",
        "b.yml",
        "quay.yaml",
        "Quay-2.YAML",
        "quay-10.yaml",
        "²9.yaml",
    ]


def test_a_folder_that_cannot_be_looked_into_has_no_files(tmp_path: Path) -> None:
    assert own_files(tmp_path / "none") == ()
    assert own_files(file_of(tmp_path, SHORT)) == ()


def test_without_after_the_whole_course_counts_as_taught(tmp_path: Path) -> None:
    own = read_own(file_of(tmp_path, SHORT), COURSE)
    assert own.problems == ()
    assert own.lesson is not None and own.lesson.title == own.title == "The quay"
    assert own.known == set(ALL_FACTS)


def test_with_after_only_what_is_taught_by_then_and_what_is_new(tmp_path: Path) -> None:
    new = "new: [add-five-4]\nsteps:\n  - practise: {facts: [add-five-4], count: 2, pass: 1}\n"
    after = SHORT.replace("steps:\n", f"after: no-partner-5\n{new}")
    own = read_own(file_of(tmp_path, after), COURSE)
    assert own.lesson is not None
    assert {"add-direct-1", "add-five-4"} <= own.known < set(ALL_FACTS)
    assert "add-ten-1" not in own.known
    practise = own.lesson.steps[0]
    assert isinstance(practise, Practise) and practise.request.known == own.known


@pytest.mark.parametrize(
    "old, new, code",
    [
        ("sum", "smu", "unknown-step"),
        ("title: The quay\n", "title: The quay\nafter: beads-99\n", "after-unknown"),
        ("lesson: quay", f"lesson: {COURSE.lessons[0].id}", "id-taken"),
        ("3 + 4", "3 + 4\n    answer: 8", "answer"),
        ("title: The quay\n", "title: The quay\nafter: no-partner-5\n", "untaught"),
    ],
)
def test_problems_are_those_of_the_checker(tmp_path: Path, old: str, new: str, code: str) -> None:
    path = file_of(tmp_path, SHORT.replace(old, new))
    own = read_own(path, COURSE)
    assert own.lesson is None and own.title == "The quay"
    assert own.problems == check_file(path, COURSE)
    assert own.problems[0].code == code


@pytest.mark.parametrize("content, code", [(b"", "empty"), (b"title: \xe9", "byte"),
                                           (b"lesson: qu", "missing-key"),
                                           ("title: é".encode("utf-32"), "encoding"),
                                           (b"\0" * 9, "control"),
                                           (b"#" * 300_000, "size")])  # fmt: skip
def test_what_is_half_written_or_no_text_is_a_problem(
    tmp_path: Path, content: bytes, code: str
) -> None:
    path = tmp_path / "quay.yaml"
    path.write_bytes(content)
    own = read_own(path, COURSE)
    assert own.lesson is None and own.title == ""
    assert own.problems[0].code == code


def test_a_file_that_is_gone_is_a_problem_and_has_changed(tmp_path: Path) -> None:
    path = file_of(tmp_path, SHORT)
    before = read_own(path, COURSE)
    path.unlink()
    gone = read_own(path, COURSE)
    assert [one.code for one in gone.problems] == ["unreadable"]
    assert before.has_changed and not gone.has_changed
    file_of(tmp_path, SHORT)
    assert gone.has_changed and not before.has_changed


@pytest.mark.skipif(sys.platform == "win32", reason="who may read is told otherwise there")
def test_a_file_that_may_not_be_read_is_a_problem(tmp_path: Path) -> None:
    path = file_of(tmp_path, SHORT)
    path.chmod(0)
    if os.access(path, os.R_OK):
        pytest.skip("who is root may read everything")
    assert [one.code for one in read_own(path, COURSE).problems] == ["unreadable"]


def test_a_save_within_one_tick_of_the_file_clock_is_a_change(tmp_path: Path) -> None:
    path = file_of(tmp_path, SHORT)
    own, stamp = read_own(path, COURSE), path.stat()
    assert not own.has_changed
    file_of(tmp_path, SHORT.replace("3 + 4", "4 + 3"))
    os.utime(path, ns=(stamp.st_atime_ns, stamp.st_mtime_ns))
    assert path.stat().st_size == stamp.st_size
    assert own.has_changed


def test_new_lessons_take_free_names_and_their_ids(tmp_path: Path) -> None:
    folder = tmp_path / "deep" / "lessons"
    paths = [write_new(folder, TEMPLATE, TEMPLATE_ID) for _ in range(3)]
    assert [path.name for path in paths] == ["my-lesson.yaml", "my-lesson-2.yaml",
                                             "my-lesson-3.yaml"]  # fmt: skip
    assert own_files(folder) == tuple(paths)
    lessons = [read_own(path, COURSE).lesson for path in paths]
    assert [one and one.id for one in lessons] == [path.stem for path in paths]


def test_a_place_that_cannot_be_written_is_an_error_and_leaves_nothing(tmp_path: Path) -> None:
    with pytest.raises(OSError):
        write_new(file_of(tmp_path, SHORT), TEMPLATE, TEMPLATE_ID)
    assert [path.name for path in tmp_path.iterdir()] == ["quay.yaml"]


def test_an_agenda_has_items_only_where_there_is_no_problem(tmp_path: Path) -> None:
    good = "board: Nets\nitems:\n  - read: 57\n  - show: 4 + 3\n"
    own = read_own_agenda(file_of(tmp_path, good))
    assert (own.title, list(map(str, own.items)), own.problems) == ("Nets", ["57", "4 + 3"], ())
    file_of(tmp_path, good.replace("show", "shw"))
    assert own.has_changed
    own = read_own_agenda(own.path)
    assert (own.title, own.items) == ("Nets", ())
    assert [one.line for one in own.problems] == [4]
    own.path.unlink()
    assert read_own_agenda(own.path).problems and own.has_changed


def test_a_file_of_sums_among_agendas_has_its_name_for_a_title(tmp_path: Path) -> None:
    own = read_own_agenda(file_of(tmp_path, "46 + 39\n\n57\n", "Nets and lamps.TXT"))
    assert (own.title, own.problems) == ("Nets and lamps", ())
    assert [str(item) for item in own.items] == ["46 + 39", "57"]
    for text, codes in (("", ["no-sums"]), ("46 +\n57\nnets\n", ["sum", "sum"])):
        broken = read_own_agenda(file_of(tmp_path, text, "nets.txt"))
        assert ([one.code for one in broken.problems], broken.items) == (codes, ())
        assert broken.problems[0].file == str(tmp_path / "nets.txt")


def test_only_of_the_kinds_asked_for_files_are_found(tmp_path: Path) -> None:
    for name in ("a.txt", "b.yaml", "c.csv", "d.TXT", ".e.txt"):
        file_of(tmp_path, "57\n", name)
    assert [path.name for path in own_files(tmp_path, (".yaml", ".txt"))] == [
        "a.txt", "b.yaml", "d.TXT",
    ]  # fmt: skip
    assert [path.name for path in own_files(tmp_path)] == ["b.yaml"]


def test_a_lesson_among_agendas_is_told_to_be_one(tmp_path: Path) -> None:
    own = read_own_agenda(file_of(tmp_path, SHORT))
    assert [one.code for one in own.problems] == ["agenda-lesson"]


def test_the_template_of_agendas_shows_every_task_and_explains_every_key(tmp_path: Path) -> None:
    own = read_own_agenda(file_of(tmp_path, AGENDA))
    assert own.problems == () and {item.act for item in own.items} == set(Task)
    remarks = " ".join(line for line in AGENDA.splitlines() if "#" in line)
    for keys in ITEM_KEYS.values():
        assert [key for key in keys if key not in remarks] == []


def test_the_template_shows_every_step_and_explains_every_key() -> None:
    from frame.course.loader import LESSON_KEYS, PRACTISE_KEYS, STEP_KEYS, load_lesson

    lesson = load_lesson(TEMPLATE, "template")
    assert TEMPLATE.count(TEMPLATE_ID) == 1 and lesson.id == TEMPLATE_ID
    remarks = " ".join(line for line in TEMPLATE.splitlines() if "#" in line)
    for key in {*STEP_KEYS, "speak", "answer", "rung", "last", "asked", "pace"}:
        assert key in remarks, key
    for key in {*LESSON_KEYS, *PRACTISE_KEYS} - {"by", "places"}:
        assert f"{key}:" in TEMPLATE, key
    kinds = {step.exercise.kind for step in lesson.steps if isinstance(step, Ask)}
    rungs = {step.exercise.rung for step in lesson.steps if isinstance(step, Ask)}
    assert kinds == {Kind.READ, Kind.SET, Kind.CLEAR, Kind.SUM}
    assert rungs >= {Rung.WATCH, Rung.FOLLOW, Rung.FINISH, Rung.ALONE, Rung.PALE}
    assert {type(step) for step in lesson.steps} == {Say, Show, Ask, Practise}
    assert Line("Here are 3 lamps.", "Here are three lamps.") in [s.line for s in lesson.steps]

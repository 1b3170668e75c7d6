"""`sheet` and `mark`: what is ordered is what is written; from the code alone it is made again and
marked; what is refused says why, and nothing is lost."""

import csv
import io
import json
from collections.abc import Callable
from contextlib import closing, redirect_stdout
from pathlib import Path
from typing import Any

import pytest
from kept import NOW, added, store_in
from proofs import some_daily

from frame.cli import main
from frame.learner.assigned import Assigned, Work
from frame.learner.on_paper import keep_marked
from frame.learner.store import Store
from frame.sheets.choices import sizes_of
from frame.sheets.code import recipe_of
from frame.sheets.grades import grades
from frame.sheets.making import sheet_of
from frame.sheets.marking import mark_wrong
from frame.sheets.recipe import Kind
from frame.technique.conventions import USUAL
from frame.technique.expression import parse_calculation
from frame.technique.reading import plain

Capture = pytest.CaptureFixture[str]
Ask = Callable[..., Any]


@pytest.fixture
def pdf(tmp_path: Path) -> Path:
    return tmp_path / "sheet.pdf"


@pytest.fixture
def store(path: Path) -> Any:
    """The learners' file, with an otter and a seal."""
    with closing(store_in(path.parent)) as store:
        added(store, "Otter")
        added(store, "Seal", "seal")
        yield store


def tasks(shape: Any) -> list[Any]:
    return [task for section in shape["sections"] for task in section["tasks"]]


ORDERS = [
    ["columns", "--rows", "4", "--digits", "3", "--minus", "--count", "4"],
    ["--lesson", "ten-add-1", "--count", "4"],
    ["--unit", "five-take", "--count", "4"],
    ["--family", "multiply", "--count", "4"],
    ["--facts", "add-five-4,add-five-3", "--version", "C", "--count", "4"],
    ["--slip", "zero-not-skipped", "--seed", "12", "--count", "4"],
    ["ladder", "--family", "add-ten", "--leaf", "Letter", "--count", "4"],
    ["kyu-3", "--part", "quotients"],
    ["mental-kyu-8", "--part", "warm-up"],
]


@pytest.mark.parametrize("order", ORDERS, ids=" ".join)
def test_from_its_code_the_same_sheet_is_made_again(
    order: list[str], pdf: Path, asked: Ask, path: Path
) -> None:
    words, options = [one for one in order[:1] if one[0] != "-"], order
    options = order[len(words) :]
    first = asked("sheet", *words, str(pdf), *options)
    again = asked("sheet", first["code"], str(pdf.with_name("again.pdf")))
    assert {**again, "file": ""} == {**first, "file": ""}
    assert pdf.read_bytes() == pdf.with_name("again.pdf").read_bytes()
    for task in tasks(first):
        calculation = parse_calculation(task["expression"])
        rest = calculation.remainder
        assert task["answer"] == plain(calculation.result)
        assert task["remainder"] == (None if rest is None else plain(rest))


@pytest.mark.parametrize("kind", [kind for kind in Kind if kind is not Kind.PAPER])
def test_every_kind_is_written(kind: Kind, pdf: Path, capsys: Capture, path: Path) -> None:
    few = ["--count", "4"] if "count" in sizes_of(kind) else []
    assert main(["sheet", kind, str(pdf), *few]) == 0
    out, err = capsys.readouterr()
    assert err == "" and pdf.read_bytes().startswith(b"%PDF-")
    assert sheet_of(recipe_of(out.rsplit(maxsplit=1)[-1])).recipe.kind is kind


GRADES = ("kyu-1", "kyu-10", "dan", "mental-kyu-10", "second-kyu-15", "second-mental-dan")


@pytest.mark.parametrize("grade", some_daily(tuple(grades()), GRADES))
def test_every_grade_has_a_code(grade: str, pdf: Path, asked: Ask, path: Path) -> None:
    shape = asked("sheet", grade, str(pdf), "--part", "warm-up")
    assert recipe_of(shape["code"]).grade == grade and len(tasks(shape)) == 5


@pytest.mark.parametrize("name", ["KYU-6", "Mental-Kyu-8", "Columns"])
def test_capitals_are_no_other_sheet(name: str, pdf: Path, asked: Ask, path: Path) -> None:
    usual = asked("sheet", name.lower(), str(pdf))
    assert asked("sheet", name, str(pdf.with_name("other.pdf")))["code"] == usual["code"]


def test_a_sheet_of_what_is_due_is_of_what_was_done(
    store: Store, pdf: Path, asked: Ask, capsys: Capture
) -> None:
    assert main(["sheet", str(pdf), "--due", "Otter"]) == 2
    assert "is due" in capsys.readouterr().err and not pdf.exists()
    done = asked("sheet", str(pdf), "--family", "add-ten")
    otter, marked = store.learners()[0], mark_wrong(sheet_of(recipe_of(done["code"])), [1])
    keep_marked(store, otter, marked, USUAL, NOW)
    due = asked("sheet", str(pdf.with_name("due.pdf")), "--due", "Otter")
    assert set(due["facts"]) & set(done["facts"])


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        (["colums", "x.pdf"], "perhaps columns"),
        (["kyu-11", "x.pdf"], "perhaps kyu-1"),
        (["x.txt"], ".pdf"),
        (["x.pdf", "--lesson", "ten-ad-1"], "perhaps ten-add-1"),
        (["x.pdf", "--family", "addfive"], "perhaps add-five"),
        (["x.pdf", "--facts", "add-five-4,add-five-9"], "perhaps add-five"),
        (["x.pdf", "--slip", "carry-forgoten"], "perhaps carry-forgotten"),
        (["x.pdf", "--unit", "ten"], "id of a unit"),
        (["x.pdf", "--lesson", "ten-add-1", "--family", "set"], "one of these alone"),
        (["x.pdf", "--lesson", "ten-add-5"], "facts of its own"),
        (["products", "x.pdf", "--lesson", "ten-add-1"], "perhaps columns"),
        (["kyu-3", "x.pdf", "--lesson", "ten-add-1"], "beside what it is for"),
        (["kyu-3", "x.pdf", "--rows", "4"], "no size"),
        (["kyu-3", "x.pdf", "--minus"], "no size"),
        (["mental-kyu-8", "x.pdf", "--part", "products"], "whole, columns, warm-up"),
        (["2400-42D0-R2Q4", "x.pdf", "--minus"], "no --minus beside a code"),
        (["2400-42D0-R2Q4", "x.pdf", "--leaf", "A4"], "no --leaf beside a code"),
        (["2400-42D0-R2Q4", "x.pdf", "--seed", "0", "--part", "whole"], "no --seed, --part beside"),
        (["2400-42D0-R2Q4", "x.pdf", "--version", "B"], "no --version beside"),
        (["2400-42D0-R2Q4", "x.pdf", "--worked", "--rows", "4"], "no --rows, --worked beside"),
        (["columns", "x.pdf", "--part", "warm-up"], "no --part with this kind"),
        (["x.pdf", "--family", "add-ten", "--by", "2"], "columns: found --by"),
        (["read", "x.pdf", "--rows", "1"], "read: found --rows"),
        (["frame", "x.pdf", "--count", "4"], "no --count with this kind"),
        (["x.pdf", "--due", ""], "--due: an empty text"),
        (["x.pdf", "--family", ""], "--family: an empty text"),
        (["columns", "x.pdf", "--facts", " "], "--facts: an empty text"),
        (["x.pdf", "--lesson", "", "--unit", ""], "--lesson: an empty text"),
        (["x.pdf", "--slip", ""], "--slip: an empty text"),
        (
            ["columns", "x.pdf", "--minus", "--facts", "add-direct-1"],
            "taught how numbers are taken",
        ),
        (["columns", "x.pdf", "--minus", "--rows", "2", "--family", "add-five"], "--rows 3"),
        (["products", "x.pdf", "--minus"], "columns, a strip or a ladder"),
        *(
            ([kind, "x.pdf", "--worked"], "or a grade for --worked")
            for kind in ("read", "set", "partners", "strip", "frame")
        ),
        (["columns", "x.pdf", "--rows", "99"], "from 1 to 15"),
        (["columns", "x.pdf", "--seed", "x"], "from 0 to 9999"),
        (["columns", "x.pdf", "--version", "D"], "invalid choice"),
        (["2400-42D0-R2Q2", "x.pdf"], "mistyped"),
        (["2400-42D0", "x.pdf"], "cut off"),
    ],
    ids=str,
)
def test_what_cannot_be_made_is_told_and_nothing_is_written(
    arguments: list[str], said: str, tmp_path: Path, capsys: Capture, path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    monkeypatch.chdir(tmp_path)
    assert main(["sheet", *arguments]) == 2
    out, err = capsys.readouterr()
    assert out == "" and said in err and "Traceback" not in err
    assert not list(tmp_path.glob("*.pdf"))


def test_a_file_that_is_there_is_left_as_it_is(pdf: Path, capsys: Capture, path: Path) -> None:
    pdf.write_text("nets")
    assert main(["sheet", "columns", str(pdf)]) == 2
    assert "sheet-1.pdf" in capsys.readouterr().err or pdf.read_text() == "nets"
    assert pdf.read_text() == "nets"


def test_a_folder_that_is_not_there_is_told(tmp_path: Path, capsys: Capture, path: Path) -> None:
    assert main(["sheet", "columns", str(tmp_path / "away" / "sheet.pdf")]) == 2
    assert "away" in capsys.readouterr().err


# Marking


@pytest.fixture(scope="module")
def eight(tmp_path_factory: pytest.TempPathFactory) -> str:
    """What is said of a sheet of eight columns."""
    folder, said = tmp_path_factory.mktemp("eight"), io.StringIO()
    with pytest.MonkeyPatch.context() as patch, redirect_stdout(said):
        patch.setattr("frame.screens.start.data_folder", lambda: folder)
        assert main(["sheet", "columns", str(folder / "sheet.pdf"), "--count", "8", "--json"]) == 0
    return said.getvalue()


@pytest.fixture
def made(eight: str, path: Path) -> Any:
    """A sheet of eight columns."""
    return json.loads(eight)


def right(made: Any) -> list[str]:
    return [task["answer"] for task in tasks(made)]


def test_all_right_answers_are_right(made: Any, asked: Ask) -> None:
    (child,) = asked("mark", made["code"], "--answers", " ".join(right(made)))["children"]
    assert (child["right"], child["of"], child["wrong"]) == (8, 8, [])


def test_a_class_is_marked_from_a_file(
    made: Any, store: Store, tmp_path: Path, asked: Ask, capsys: Capture
) -> None:
    file, answers = tmp_path / "answers.csv", right(made)
    with file.open("w", encoding="utf-8-sig", newline="") as out:
        rows = csv.writer(out, delimiter=";")
        rows.writerow(["name", *range(1, 9)])
        rows.writerow(["Otter", *answers])
        rows.writerow(["Seal", *answers[:6], "1"])
        rows.writerow([])
    otter, seal = asked("mark", made["code"], str(file), "--keep")["children"]
    assert (otter["name"], otter["right"], seal["name"], seal["right"]) == ("Otter", 8, "Seal", 6)
    assert [one["number"] for one in seal["wrong"]] == [7, 8]
    assert [one["answer"] for one in seal["wrong"]] == ["1", None]
    counts = {one.nickname: store.count_attempts(one) for one in store.learners()}
    assert counts == {"Otter": 8, "Seal": 8}


@pytest.fixture
def short(made: Any, store: Store, tmp_path: Path) -> Path:
    """All answers of Otter, and all but the last of Seal."""
    file, answers = tmp_path / "answers.csv", right(made)
    file.write_text(f"name\nOtter,{','.join(answers)}\n\nSeal,{','.join(answers[:-1])}\n")
    return file


def test_of_fewer_answers_than_tasks_a_word_names_the_line(
    short: Path, made: Any, asked: Ask, capsys: Capture
) -> None:
    assert main(["mark", made["code"], str(short)]) == 0
    out, err = capsys.readouterr()
    assert err.splitlines() == [
        "answers.csv, line 4, Seal: answers: 7, tasks: 8. Those without an answer count as wrong."
    ]
    assert "Seal: 7 of 8 right" in out
    (warning,) = asked("mark", made["code"], str(short))["warnings"]
    assert warning == {"where": "answers.csv, line 4", "name": "Seal", "answers": 7, "tasks": 8}


@pytest.mark.parametrize(("count", "warns"), [(8, 0), (7, 1), (0, 1)])
def test_of_fewer_answers_on_the_command_line_too(
    count: int, warns: int, made: Any, asked: Ask, capsys: Capture
) -> None:
    given = " ".join(right(made)[:count])
    assert len(asked("mark", made["code"], "--answers", given)["warnings"]) == warns
    assert main(["mark", made["code"], "--answers", given]) == 0
    assert capsys.readouterr().err.count("\n") == warns
    assert asked("mark", made["code"], "--wrong", "1")["warnings"] == []


def test_with_whom_a_sheet_was_kept_is_told_with_the_count_of_answers(
    short: Path, made: Any, store: Store, asked: Ask, capsys: Capture
) -> None:
    otter, seal = store.learners()
    assert "kept" not in asked("mark", made["code"], str(short))
    assert main(["mark", made["code"], "--wrong", "1", "--name", "Otter", "--keep"]) == 0
    assert capsys.readouterr().out.endswith("Kept with:\n  Otter  tasks: 8\n")
    told = asked("mark", made["code"], str(short), "--keep")
    assert told["kept"] == [{"name": "Seal", "id": seal.id, "answers": 7, "tasks": 8}]
    assert told["known"] == ["Otter"]
    assert main(["mark", made["code"], str(short), "--keep"]) == 0
    out, err = capsys.readouterr()
    assert "Kept with" not in out
    assert all(f"{one.nickname}: this sheet was kept today already" in err for one in (otter, seal))


def test_a_class_that_is_kept_is_told_by_name(
    short: Path, made: Any, store: Store, capsys: Capture
) -> None:
    assert main(["mark", made["code"], str(short), "--keep"]) == 0
    told = capsys.readouterr().out.partition("Kept with:\n")[2]
    assert told == "  Otter  answers: 8 of 8\n  Seal   answers: 7 of 8\n"


def test_a_sheet_that_is_kept_again_on_one_day_is_told_and_stays_as_it_was(
    made: Any, store: Store, capsys: Capture
) -> None:
    for wrong, said in (("2", ""), ("3 4", "Otter: this sheet was kept today already")):
        capsys.readouterr()
        assert main(["mark", made["code"], "--wrong", wrong, "--name", "Otter", "--keep"]) == 0
        assert capsys.readouterr().err.startswith(said)
    assert sum(one.right for one in store.past(store.learners()[0])) == 7


def test_a_sheet_that_was_given_is_ticked_off_once_it_is_kept(
    made: Any, asked: Ask, path: Path
) -> None:
    with closing(Store(path)) as store:
        otter = added(store, "Otter")
        store.assign([(otter, Assigned("1", NOW, Work.SHEET, made["code"]))])
    for keep, is_done in (((), False), (("--keep",), True)):
        asked("mark", made["code"].lower(), "--wrong", "1", "--name", "Otter", *keep)
        with closing(Store(path)) as store:
            (one,) = store.assigned(otter)
        assert (one.done is not None) is is_done


def test_the_numbers_of_the_wrong_ones_are_enough(made: Any, asked: Ask) -> None:
    (child,) = asked("mark", made["code"].lower(), "--wrong", "2, 5")["children"]
    assert [one["number"] for one in child["wrong"]] == [2, 5] and child["right"] == 6


def test_a_carry_left_out_is_named(pdf: Path, asked: Ask, path: Path) -> None:
    made = asked("sheet", str(pdf), "--family", "add-ten", "--rows", "2", "--count", "6")
    less = " ".join(str(int(one) - 10) for one in right(made))
    (child,) = asked("mark", made["code"], "--answers", less)["children"]
    assert child["wrong"][-1]["slip"] == "carry-forgotten"


@pytest.mark.parametrize(
    ("arguments", "said"),
    [
        ([], "no answers"),
        (["--answers", "1", "--wrong", "2"], "several sorts"),
        (["away.csv", "--wrong", "2"], "several sorts"),
        (["away.csv"], "a CSV file"),
        (["--answers", "1 2 3 4 5 6 7 8 9"], "at most 8"),
        (["--answers", "1 x"], "answer 2"),
        (["--wrong", "9"], "from 1 to 8"),
        (["--wrong", "two"], "from 1 to 8"),
        (["--wrong", "9" * 5000], "from 1 to 8"),
        (["--answers", f"{'9' * 5000} 1 2 3"], "answer 1: found a number of 5000 digits"),
        (["--answers", f"3 {'9' * 22}"], "at most 21 digits"),
        (["--answers", "x" * 200_000], "xxx…'; expected a number"),
        (["--wrong", "2", "--name", "Crab", "--keep"], "Otter, Seal"),
        (["--wrong", "2", "--name", "Otter", "--id", "3f"], "--id without --keep"),
        (["--wrong", "2", "--name", "", "--keep"], "--name: an empty name"),
        (["--wrong", "2", "--id", " ", "--keep"], "--id: an empty id"),
        (["away.csv", "--name", "Otter"], "beside a file"),
        (["away.csv", "--id", "3f", "--keep"], "beside a file"),
    ],
    ids=str,
)
def test_what_cannot_be_marked_is_told_and_nothing_is_kept(
    arguments: list[str], said: str, made: Any, store: Store, capsys: Capture
) -> None:
    assert main(["mark", made["code"], *arguments]) == 2
    out, err = capsys.readouterr()
    assert out == "" and said in err
    assert not any(map(store.count_attempts, store.learners()))


def test_where_one_of_a_class_is_nobody_none_of_it_is_kept(
    made: Any, store: Store, tmp_path: Path, capsys: Capture
) -> None:
    file = tmp_path / "answers.csv"
    file.write_text("Otter,1\nCrab,1\n")
    assert main(["mark", made["code"], str(file), "--keep"]) == 2
    assert "Crab" in capsys.readouterr().err
    assert not any(map(store.count_attempts, store.learners()))


def test_a_child_who_is_there_twice_is_told(
    made: Any, store: Store, tmp_path: Path, capsys: Capture
) -> None:
    file = tmp_path / "answers.csv"
    for content, said in (("Otter,1\nOtter,2\n", "Otter twice"), ("", "no line")):
        file.write_text(content)
        assert main(["mark", made["code"], str(file), "--keep"]) == 2
        assert said in capsys.readouterr().err
    assert not any(map(store.count_attempts, store.learners()))


@pytest.mark.parametrize("content", [b"\xff\xfe\x00", b"Otter,\x00", b'Otter,"1'], ids=repr)
def test_a_broken_file_ends_in_a_word(
    content: bytes, made: Any, store: Store, tmp_path: Path, capsys: Capture
) -> None:
    file = tmp_path / "answers.csv"
    file.write_bytes(content)
    assert main(["mark", made["code"], str(file)]) == 2
    assert "Traceback" not in capsys.readouterr().err


BROKEN = [
    (f"Otter,{'x' * 200_000}", "line 1, answer 1"),
    (f"Otter,{'9' * 200_000}", "line 1, answer 1"),
    ('Otter,1\nSeal,"2,3\nCrab,4\n', "line 2: found a quotation mark"),
    ('Otter,1\n"Seal,2\nCrab,3"\n', "line 2: found a quotation mark"),
    ("Otter 126 92 162 189\n", "line 1: found 'Otter 126 92 162 189'; expected commas"),
    ("Otter,126,92\nSeal 126 92\n", "line 2: found 'Seal 126 92'; expected commas"),
    ("Otter,1\n\n,2,3\n", "line 3: found answers without a name"),
    ("".join(f"c{one},1\n" for one in range(100_000)), "line 61: found more than 60 children"),
    ("name,1\n" + "".join(f"c{one},1\n" for one in range(61)), "line 62: found more than 60"),
]


@pytest.mark.parametrize(("content", "said"), BROKEN, ids=lambda one: repr(one)[:40])
def test_a_table_that_cannot_be_told_apart_is_refused_with_its_line(
    content: str, said: str, made: Any, store: Store, tmp_path: Path, asked: Ask, capsys: Capture
) -> None:
    file = tmp_path / "answers.csv"
    file.write_text(content)
    assert main(["mark", made["code"], str(file), "--keep"]) == 2
    out, err = capsys.readouterr()
    assert out == "" and f"answers.csv, {said}" in err and len(err) < 500
    assert asked("mark", made["code"], str(file), status=2)["error"]["where"]
    assert not any(map(store.count_attempts, store.learners()))


@pytest.mark.parametrize("between", [",", ";", "\t", "   "], ids=repr)
def test_what_separates_the_cells_is_what_stands_in_most_lines(
    between: str, made: Any, tmp_path: Path, asked: Ask
) -> None:
    file, answers = tmp_path / "answers.csv", right(made)
    rows = [["pupil", *map(str, range(1, 9))], ['"Otter"', *answers], ["Seal 2", *answers[:4]], []]
    file.write_text("\n".join(map(between.join, rows)))
    otter, seal = asked("mark", made["code"], str(file))["children"]
    assert (otter["name"], otter["right"], seal["name"], seal["right"]) == ("Otter", 8, "Seal 2", 4)

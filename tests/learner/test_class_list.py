"""A list of a class that is pasted: however it is written, and with all that is wrong in it."""

import csv
import io

import pytest
from each import each_row
from hypothesis import given
from hypothesis import strategies as st
from shipped import the_words

from frame.language.signs import signs_of
from frame.learner.class_list import (
    MOST_CHILDREN,
    ClassList,
    Listed,
    Problem,
    Wrong,
    problem_text,
    read_class,
)
from frame.learner.nickname import MOST_SIGNS, nickname_of

LONG = "W" * (MOST_SIGNS + 1)
FOX_AND_HARE = [("Fox", "reds"), ("Hare", "blues")]


def pairs(text: str) -> list[tuple[str, str]]:
    return [(one.name, one.group) for one in read_class(text).children]


def wrongs(text: str) -> list[Problem]:
    return list(read_class(text).problems)


@pytest.mark.parametrize(
    "text",
    [
        "Fox,reds\nHare,blues",
        "Fox;reds\nHare;blues\n",
        "Fox\treds\r\nHare\tblues\r\n",
        "Fox\treds\rHare\tblues",
        "Fox   reds\n  Hare  blues  ",
        "\ufeffFox, reds\n\n \nHare ,blues,,\n,,\n",
        '"Fox","reds"\n"Hare","blues"',
        '"Fox" ; reds\nHare; "blues" ',
        "Name,Group\nFox,reds\nHare,blues",
        "NAME;\nFox;reds\nHare;blues",
        "\ufeffgroup\tpupil\r\nreds\tFox\r\nblues\tHare\r\n",
        '\ufeff"Name","Group"\nFox,reds\nHare,blues',
    ],
)
def test_a_list_is_read_however_it_is_written(text):
    assert (pairs(text), wrongs(text)) == (FOX_AND_HARE, [])


@each_row(
    ("text", "found"),
    [
        ("Fox\nHare\n", [("Fox", ""), ("Hare", "")]),
        ("Name\nFox\nHare", [("Fox", ""), ("Hare", "")]),
        ("Mary Ann\n", [("Mary Ann", "")]),
        ('"Ng, Ann",reds', [("Ng, Ann", "reds")]),
        ("Ng, Ann\treds\nFox\tblues", [("Ng, Ann", "reds"), ("Fox", "blues")]),
        ('"The ""Fox""",reds', [('The "Fox"', "reds")]),
        ('The "Fox",reds', [('The "Fox"', "reds")]),
        ('"Fox" Lee,reds', [('"Fox" Lee', "reds")]),
        ('"Mary\nAnn",reds\nFox,reds', [("Mary Ann", "reds"), ("Fox", "reds")]),
        ("もり;きいろ\nЁж;красные\nمريم;ب", [("もり", "きいろ"), ("Ёж", "красные"), ("مريم", "ب")]),
        ("Zoe\u0308,reds", [("Zoë", "reds")]),
        ("", []),
        ("\ufeff\r\n \r\n", []),
        ("Name,Group", []),
    ],
)
def test_what_is_in_a_list(text, found):
    assert (pairs(text), wrongs(text)) == (found, [])


def test_each_child_has_the_line_that_it_is_from():
    lines = [one.line for one in read_class('Name\n\nFox\r\n"Mary\nAnn"\rHare').children]
    assert lines == [3, 4, 6]


@pytest.mark.parametrize(
    ("text", "problem"),
    [
        ("Fox,a\n,reds", Problem(2, Wrong.NO_NAME, "reds")),
        ("Fox,a\n\u200d,reds", Problem(2, Wrong.NO_NAME, "\u200d reds")),
        (f"Fox,a\n{LONG},b", Problem(2, Wrong.NAME_TOO_LONG, LONG)),
        (f"Fox,a\nHare,{LONG}", Problem(2, Wrong.GROUP_TOO_LONG, LONG)),
        ("Fox,a\nHare,b\nFOX,A", Problem(3, Wrong.TWICE_IN_GROUP, "FOX", 1)),
        ("Fox\nFox", Problem(2, Wrong.TWICE_IN_GROUP, "Fox", 1)),
        ("Fox,a\nHare,b\nFox,c", Problem(3, Wrong.TWICE, "Fox", 1)),
        ("Fox,a,x,,y", Problem(1, Wrong.TOO_MANY_COLUMNS, "x y")),
        ("Name,Mail,Group\nFox,x,a", Problem(1, Wrong.TOO_MANY_COLUMNS, "Mail")),
        ("Name,Mail,Group\nFox,x,a,9", Problem(2, Wrong.TOO_MANY_COLUMNS, "9")),
        ('Fox,a\n"Hare,b\nSeal,c', Problem(2, Wrong.QUOTE_NOT_CLOSED, '"Hare')),
    ],
)
def test_what_is_wrong_is_told_with_its_line(text, problem):
    assert problem in wrongs(text)


def test_what_can_be_read_is_there_beside_the_problems():
    text = f'{LONG},a,x\n,b\n"Fox,c\nHare,d\nHare,d'
    assert read_class(text) == ClassList(
        (
            Listed("W" * MOST_SIGNS, "a", 1),
            Listed('"Fox', "c", 3),
            Listed("Hare", "d", 4),
            Listed("Hare", "d", 5),
        ),
        (
            Problem(1, Wrong.NAME_TOO_LONG, LONG),
            Problem(1, Wrong.TOO_MANY_COLUMNS, "x"),
            Problem(2, Wrong.NO_NAME, "b"),
            Problem(3, Wrong.QUOTE_NOT_CLOSED, '"Fox'),
            Problem(5, Wrong.TWICE_IN_GROUP, "Hare", 4),
        ),
    )


def test_of_three_of_a_name_the_one_in_the_same_group_is_told():
    assert wrongs("Fox,a\nFox,b\nFox,b") == [
        Problem(2, Wrong.TWICE, "Fox", 1),
        Problem(3, Wrong.TWICE_IN_GROUP, "Fox", 2),
    ]


@pytest.mark.parametrize(("groups", "wrong"), [("aaa", Wrong.TWICE_IN_GROUP), ("abc", Wrong.TWICE)])
def test_each_later_one_of_a_name_is_told_with_the_first(groups, wrong):
    text = "\n".join(f"Fox,{group}" for group in groups)
    assert wrongs(text) == [Problem(2, wrong, "Fox", 1), Problem(3, wrong, "Fox", 1)]


def test_names_that_differ_by_an_accent_are_two():
    assert wrongs("Zoe\nZoë") == []


@pytest.mark.parametrize("beyond", [0, 1, 5])
def test_more_than_sixty_are_told_once_and_are_all_there(beyond):
    count = MOST_CHILDREN + beyond
    found = read_class("\n".join(f"Fox {at}" for at in range(count)))
    told = [Problem(MOST_CHILDREN + 1, Wrong.TOO_MANY_CHILDREN, f"Fox {MOST_CHILDREN}")]
    assert len(found.children) == count
    assert list(found.problems) == told * (beyond > 0)


@pytest.mark.parametrize("wrong", Wrong)
def test_each_problem_can_be_said_on_two_short_lines(wrong):
    text = problem_text(Problem(41, wrong, LONG * 9, 7), the_words())
    assert "41" in text and len(text) < 160 and LONG not in text


NAMES = st.text(min_size=1, max_size=8).filter(lambda name: nickname_of(name, "") != "")
CELLS = st.lists(st.tuples(NAMES, st.text(max_size=8)), min_size=1, max_size=6)


@given(CELLS, st.sampled_from(",;\t"), st.sampled_from(["\n", "\r\n"]), st.booleans())
def test_what_a_table_writes_is_read_again(cells, separator, end, has_heads):
    """All cells in quotes, as the standard library writes RFC 4180."""
    out = io.StringIO(newline="")
    writer = csv.writer(out, delimiter=separator, lineterminator=end, quoting=csv.QUOTE_ALL)
    writer.writerows([("Name", "Group"), *cells] if has_heads else [("X", "Y"), *cells])
    expected = [(nickname_of(name, ""), nickname_of(group, "")) for name, group in cells]
    assert pairs(out.getvalue())[not has_heads :] == expected


@given(st.text(st.one_of(st.characters(), st.sampled_from('",;\t \r\n\ufeff')), max_size=80))
def test_any_text_is_a_list(text):
    found = read_class(text)
    for one in found.children:
        assert one.name == nickname_of(one.name, "") != ""
        assert len(signs_of(one.name)) <= MOST_SIGNS and len(signs_of(one.group)) <= MOST_SIGNS
    lines = [one.line for one in found.problems]
    assert lines == sorted(lines)
    assert all(1 <= line <= text.count("\n") + text.count("\r") + 1 for line in lines)


@given(st.lists(st.text("abc \"';,\t", max_size=9), max_size=9))
def test_no_line_with_a_letter_is_lost(lines):
    """Unless it is within quotes with others, it is in the list or told."""
    text = "\n".join(line.replace('"', "") for line in lines)
    found = read_class(text)
    told = {one.line for one in (*found.children, *found.problems)}
    assert {at for at, line in enumerate(lines, 1) if set(line) & set("abc")} <= told

"""A backup in which few bytes are other ones is taken in or refused, and brings nobody who never
was."""

import json
import re
import sqlite3
from contextlib import closing
from random import Random

import pytest
from damaged import full_file

from frame.cli import main
from frame.learner.backups import back_up
from frame.learner.other_file import look_into
from frame.learner.store import Store

FILES = 400
HEADER, TELLING, MOST = 100, 1500, 5
"""Bytes of the header, so many from where a file tells of a table, and how many are changed."""
SEEDS = [range(12), pytest.param(range(FILES), marks=pytest.mark.proof)]


@pytest.fixture(scope="module")
def sound(tmp_path_factory):
    """A backup of three children."""
    folder = tmp_path_factory.mktemp("sound")
    full_file(folder / "learners.sqlite", learners=3, attempts=60)
    with closing(Store(folder / "learners.sqlite")) as store:
        back_up(store, folder / "backup.sqlite")
    return folder / "backup.sqlite"


def changed(content, random):
    """A few bytes are other ones: in the header, where the tables are told of, or anywhere."""
    content = bytearray(content)
    told = [found.start() for found in re.finditer(b"CREATE TABLE", content)]
    for _ in range(random.randint(1, MOST)):
        begin, end = random.choice(
            [(0, HEADER), (one := random.choice(told), one + TELLING), (0, len(content))]
        )
        content[random.randrange(begin, min(end, len(content)))] = random.randrange(256)
    return bytes(content)


def ids(path):
    with closing(sqlite3.connect(path)) as file:
        return {one for (one,) in file.execute("SELECT id FROM learner")}


@pytest.mark.parametrize("command", ["merge", "restore"])
@pytest.mark.parametrize("seeds", SEEDS)
def test_what_can_be_read_comes_in_and_nobody_else(
    sound, tmp_path, monkeypatch, capsys, seeds, command
):
    known, taken = ids(sound), 0
    for seed in seeds:
        here = tmp_path / f"{seed}"
        monkeypatch.setattr("frame.screens.start.data_folder", lambda here=here: here)
        path = tmp_path / f"{seed}.sqlite"
        path.write_bytes(changed(sound.read_bytes(), Random(seed)))
        status = main([command, str(path), "--json"])
        out, err = capsys.readouterr()
        said = json.loads(out)
        assert err == "" and status == (2 if "error" in said else 0 if said["whole"] else 1), seed
        assert ids(here / "learners.sqlite") <= known, seed
        taken += "error" not in said
        look_into(path)
    assert taken > len(seeds) / 2

"""What is the computer's own: kept for whoever is at it, and nobody's who goes."""

import sqlite3
from contextlib import closing
from dataclasses import replace
from datetime import UTC, datetime

import pytest
from kept import added

from frame.learner.computer import Pasted
from frame.learner.lock_code import COST as USUAL_COST
from frame.learner.lock_code import read_seal
from frame.learner.settings import OF_COMPUTER, Age, Look, Settings, Volume
from frame.learner.store import Store, StoreError
from frame.technique.conventions import Carry, Operands

NOW = datetime(2026, 5, 4, 9, 30, tzinfo=UTC)
SCHOOL = Settings(
    look=Look.HIGH_CONTRAST, volume=Volume.OFF, voice=False, reduced_motion=True, classroom=True,
    nearest_seat=3.0, farthest_seat=9.0, quick_flash=True, letter_keys=False, marks_every=4,
    place_names=False, bead_tint=False, carry=Carry.FIRST, layout=Operands.ONE,
)  # fmt: skip


@pytest.fixture
def store(tmp_path):
    with closing(Store(tmp_path / "learners.sqlite")) as opened:
        yield opened


def raw(store, question, *values):
    with closing(sqlite3.connect(store.path)) as rows, rows:
        return rows.execute(question, values).fetchall()


def again(store, ask):
    """What a new process finds."""
    with closing(Store(store.path)) as opened:
        return ask(opened)


def test_a_new_computer_has_the_usual_settings_and_nothing_kept(store):
    assert store.computer() == Settings()
    assert not store.has_code()
    assert store.kept_plan() is store.pasted() is None
    assert raw(store, "SELECT * FROM computer") == []


def test_what_is_the_computers_is_there_in_a_new_process(store):
    store.save_computer(SCHOOL)
    store.keep_plan("")
    store.keep_plan('{"title": "Fährhafen"}' * 1000)
    store.keep_pasted(Pasted.LIST)
    found = again(store, lambda one: (one.computer(), one.kept_plan(), one.pasted()))
    assert found == (SCHOOL, '{"title": "Fährhafen"}' * 1000, Pasted.LIST)
    store.keep_plan(None)
    store.keep_pasted(None)
    assert again(store, lambda one: (one.kept_plan(), one.pasted())) == (None, None)
    assert store.computer() == SCHOOL


@pytest.mark.parametrize("size", [(320, 240), (1000, 641), (5120, 2880)])
def test_how_large_the_window_was_is_there_in_a_new_process(store, size):
    assert store.window() is None
    for one in ((1280, 720), size, size):
        store.keep_window(one)
        assert again(store, Store.window) == one


@pytest.mark.parametrize("value", ["", "1x1", "800", "800x-480", "999999x480", "800x480x1", 7])
def test_a_size_that_no_window_had_is_not_known(store, value):
    raw(store, "INSERT INTO computer VALUES ('window', ?)", value)
    assert store.window() is None


def test_a_newcomer_begins_with_the_computers_settings(store):
    before = added(store, "Otter", "otter")
    store.save_computer(SCHOOL)
    seal = added(store, "Seal", "seal", Age.YOUNG)
    assert store.settings(seal) == replace(SCHOOL, age=Age.YOUNG)
    assert store.settings(before) == Settings().on(SCHOOL)


def test_what_is_the_computers_alone_no_learner_changes(store):
    store.save_computer(SCHOOL)
    otter = added(store, "Otter", "otter")
    store.save_settings(otter, Settings(left_handed=True), NOW)
    assert store.computer() == SCHOOL
    assert store.settings(otter) == Settings(left_handed=True).on(SCHOOL)
    (text,) = raw(store, "SELECT settings FROM learner")[0]
    assert "left_handed" in text and not any(name in text for name in OF_COMPUTER)


def test_who_goes_takes_nothing_of_the_computers_along(store):
    store.save_computer(SCHOOL)
    store.set_code("2580")
    store.remove_learner(added(store, "Otter", "otter"), NOW)
    assert store.computer() == SCHOOL and store.is_code("2580")


def test_only_the_code_that_was_set_is_the_code(store):
    assert not store.is_code("")
    store.set_code("0042")
    assert again(store, Store.has_code)
    assert again(store, lambda one: one.is_code("0042"))
    odd = ("", "42", "00420", "0042 ", "004", "٠٠٤٢", "0043", "2400", "\ud800", "four")
    assert not any(map(store.is_code, odd))
    store.set_code("1357")
    assert store.is_code("1357") and not store.is_code("0042")


def test_a_code_that_was_sealed_before_is_the_code_still(monkeypatch):
    """As OpenSSL's own command makes it: openssl kdf, SCRYPT with n 16384, r 8, p 1, 32 bytes."""
    monkeypatch.setattr("frame.learner.lock_code.COST", USUAL_COST)
    digest = "4d321c1e43b82d5ad3c756d20edcbce6c4b572854b2241f8243ccca7ed153fe8"
    assert read_seal(f"{bytes(range(16)).hex()} {digest}").fits("2580")


@pytest.mark.parametrize("code", ["", "123", "12345", "12a4", "١٢٣٤", "1.34", "²345", "-123"])
def test_a_code_has_four_digits(store, code):
    store.set_code("1357")
    with pytest.raises(ValueError):
        store.set_code(code)
    assert store.is_code("1357")


def test_a_code_is_kept_as_another_hash_each_time_and_forgotten_without_a_trace(store):
    question = "SELECT value FROM computer WHERE name = 'code'"
    seals = set()
    for _ in range(3):
        store.set_code("8642")
        seals |= {text for (text,) in raw(store, question)}
    assert len(seals) == 3 and "8642" not in seals
    last = raw(store, question)[0][0].encode()
    assert last in store.path.read_bytes()
    store.forget_code()
    assert not store.has_code() and not store.is_code("8642")
    assert not [seal for seal in seals if seal.encode() in store.path.read_bytes()]
    store.forget_code()


DAMAGED = [
    "", "{", "[]", "5", "null", "[" * 99_999, "9" * 9_999, "ab cd", " ", "\ufffd\0",
    b"\xff\xfe", b"", b'{"look": "dark"}', 7, 7.5,
]  # fmt: skip


@pytest.mark.parametrize("value", DAMAGED, ids=range(len(DAMAGED)))
def test_what_cannot_be_read_takes_its_default(store, value):
    for name in ("settings", "code", "pasted", "plan"):
        raw(store, "INSERT INTO computer VALUES (?, ?)", name, value)
    assert store.computer() == Settings()
    assert not store.has_code() and not store.is_code("0000")
    assert store.pasted() is None
    assert store.kept_plan() == (None if isinstance(value, bytes) else str(value))
    otter = added(store, "Otter", "otter")
    assert store.settings(otter) == Settings()
    store.set_code("0000")
    store.save_computer(SCHOOL)
    assert store.is_code("0000") and store.computer() == SCHOOL


def test_text_with_a_damaged_letter_is_read_but_for_the_letter(store):
    raw(store, "INSERT INTO computer VALUES ('plan', CAST(? AS TEXT))", b'["crab\xff"]')
    raw(
        store,
        "INSERT INTO computer VALUES ('settings', CAST(? AS TEXT))",
        b'{"look": "dark", "volume": "\xff"}',
    )
    assert store.kept_plan() == '["crab\ufffd"]'
    assert store.computer() == Settings(look=Look.DARK)


@pytest.mark.parametrize(
    ("stored", "kept"),
    [
        ('{"look": "plaid", "volume": "off"}', Settings(volume=Volume.OFF)),
        ('{"quick_flash": 1, "classroom": "yes", "voice": false}', Settings(voice=False)),
        ('{"screen_diagonal": 99.0, "marks_every": 4}', Settings(marks_every=4)),
        (
            '{"nearest_seat": 9.0, "farthest_seat": 2.0, "classroom": true}',
            Settings(classroom=True),
        ),
        ('{"carry": [], "boats": 3}', Settings()),
    ],
)
def test_each_setting_out_of_range_takes_its_default_alone(store, stored, kept):
    raw(store, "INSERT INTO computer VALUES ('settings', ?)", stored)
    assert store.computer() == kept


@pytest.mark.parametrize(
    "write",
    [
        lambda store: store.save_computer(SCHOOL),
        lambda store: store.set_code("1357"),
        lambda store: store.forget_code(),
        lambda store: store.keep_plan("[]"),
        lambda store: store.keep_pasted(Pasted.SUM),
    ],
)
def test_what_cannot_be_written_is_a_store_error(store, write):
    raw(store, "DROP TABLE computer")
    with pytest.raises(StoreError):
        write(store)

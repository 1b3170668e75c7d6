"""A log is read as it was written, and takes no more room than it may."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from frame.learner.packing import ENTRY_BYTES, pack, unpack
from frame.practice.items import CELLS, PRODUCTS, Cell, Factors, Worked
from frame.practice.log import Entry, Happening, Log
from frame.practice.touches import WRONG_ANSWER
from frame.technique.beads import MOST_RODS, BeadMove
from frame.technique.judge import Judgement
from frame.technique.slips import Slip

EARTH = st.sampled_from([-4, -3, -2, -1, 1, 2, 3, 4])
HEAVEN = st.sampled_from([-5, 5])
CHANGES = st.one_of(
    EARTH.map(lambda one: (one,)), HEAVEN.map(lambda one: (one,)), st.tuples(EARTH, HEAVEN)
)
RODS = st.integers(1 - MOST_RODS, MOST_RODS - 1)
STROKES = st.builds(lambda rod, changes: tuple(BeadMove(rod, c) for c in changes), RODS, CHANGES)
STEPS = st.one_of(st.none(), st.integers(0, 254))
SLIPS = st.sampled_from(["", WRONG_ANSWER, *Slip])
JUDGEMENTS = st.sampled_from([None, *Judgement])
A_DAY = 86_400_000
GOLDEN = "01022700001c09600306a9c500003c03c0007b21fe03e080"


@st.composite
def entries(draw):
    """Strokes and other things, no one before another."""
    found, ms = [], 0
    for _ in range(draw(st.integers(0, 12))):
        ms += draw(st.integers(0, 60_000) | st.integers(0, 30 * A_DAY))
        what = draw(st.sampled_from(list(Happening)))
        stroke = draw(STROKES) if what is Happening.STROKE else ()
        found.append(
            Entry(what, ms, stroke, draw(st.integers(0, 9)), draw(JUDGEMENTS), draw(st.booleans()),
                  draw(SLIPS), draw(STEPS))
        )  # fmt: skip
    return tuple(found)


WORKED = st.builds(
    Worked,
    st.one_of(st.none(), st.sampled_from(CELLS)),
    st.one_of(st.none(), st.sampled_from(PRODUCTS)),
)
LOGS = st.builds(Log, st.lists(WORKED, max_size=20).map(tuple), entries())


@given(LOGS)
def test_reading_is_the_inverse_of_writing(log):
    assert unpack(pack(log)) == log


@given(LOGS)
def test_an_entry_takes_six_bytes_and_a_step_two(log):
    waits = sum(
        later.ms - earlier.ms >= 1 << 15
        for earlier, later in zip(
            (Entry(Happening.DONE, 0), *log.entries), log.entries, strict=False
        )
    )
    room = 2 + 2 * len(log.worked) + ENTRY_BYTES * (len(log.entries) + waits)
    assert len(pack(log)) == (0 if log == Log() else room)
    assert ENTRY_BYTES <= 6


def test_every_slip_and_everything_that_happens_has_its_number():
    for slip in (*Slip, WRONG_ANSWER):
        one = Log(entries=(Entry(Happening.ANSWER, 5, slip=slip),))
        assert unpack(pack(one)) == one
    for what in set(Happening) - {Happening.STROKE}:
        one = Log(entries=(Entry(what, 5),))
        assert unpack(pack(one)) == one


def test_the_layout_of_the_first_version_stays():
    """As files hold it, so that a change of any number is seen."""
    pinch = (BeadMove(1, 2), BeadMove(1, 5))
    log = Log(
        (Worked(Cell(4, 3)), Worked(None, Factors(6, 7))),
        (
            Entry(Happening.STROKE, 1200, pinch, 4, Judgement.WRONG, True, Slip.WRONG_PARTNER, 1),
            Entry(Happening.ANSWER, 1_000_000, judgement=Judgement.RIGHT),
        ),
    )
    assert pack(log).hex() == GOLDEN


@given(st.binary(min_size=1, max_size=40))
def test_bytes_that_nobody_wrote_are_refused_and_never_break(some):
    try:
        read = unpack(some)
    except ValueError:
        return
    assert isinstance(read, Log)


@given(LOGS.filter(lambda log: log.entries), st.data())
def test_a_log_that_is_cut_off_is_refused_or_shorter(log, data):
    whole = pack(log)
    cut = whole[: data.draw(st.integers(1, len(whole) - 1))]
    try:
        read = unpack(cut)
    except ValueError:
        return
    assert read.worked == log.worked
    assert read.entries == log.entries[: len(read.entries)]


def test_another_version_is_refused():
    with pytest.raises(ValueError, match="version"):
        unpack(b"\x02\x00")

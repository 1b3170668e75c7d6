"""What may be told as reached, and why the ladder has moved or has not."""

from each import each_row
from hypothesis import given
from hypothesis import strategies as st
from shipped import the_words

from frame.practice.climb import Climb
from frame.practice.families import Family
from frame.practice.ladder import RUNGS, LadderRules, Try
from frame.practice.rungs import Rung
from frame.practice.why import Reason, Why, why_line, why_of

WORDS = the_words()
SOME, OTHER = "add-five-3 set-digit-4", "add-five-4 set-digit-1"
OTHER_NUMBER = "add-five-3 set-digit-2 add-direct-1"
"""The same fact of the family, worked on another number."""


def done(pattern, rung=Rung.ALONE, facts=SOME, **more):
    """A try for each letter: r right, m missed, l right after a look."""
    given = {"family": Family.ADD_FIVE, "rods": 1, "seconds": 4.0, **more}
    known = frozenset(facts.split())
    return [
        Try(rung=rung, right=one != "m", looks=int(one == "l"), facts=known, **given)
        for one in pattern
    ]


def climbed(to, **more):
    """Ten right at each rung from `alone` up to the one before `to`."""
    way = RUNGS[RUNGS.index(Rung.ALONE) : RUNGS.index(to)]
    return [one for rung in way for one in done("r" * 10, rung, **more)]


COVERED = climbed(Rung.COVERED)
DECAYED = [*COVERED, *done("mm")]

REACHED = {
    "nothing was tried": ([], None),
    "nothing but by hand": (done("r" * 10, Rung.COVERED), None),
    "nothing but by hand, below": (done("r" * 10, Rung.FOLLOW), None),
    "begun": (done("rm"), Rung.ALONE),
    "begun, and covered by hand": (done("r") + done("r" * 30, Rung.COVERED), Rung.ALONE),
    "come up": (climbed(Rung.PALE), Rung.PALE),
    "come up far": (COVERED, Rung.COVERED),
    "sent down to what is led": (done("mm"), None),
    "sent down, and tried there": (done("mm") + done("r", Rung.FINISH), None),
    "come up and sent down": (COVERED + done("mm", Rung.COVERED), None),
    "sent down and come up again": (done("mm") + done("r" * 20, Rung.FINISH), Rung.ALONE),
    "come up, and higher by hand": (COVERED + done("m" * 9, Rung.NUMBER, OTHER), Rung.COVERED),
    "come up, alone by hand all right": (COVERED + done("r" * 10), Rung.COVERED),
    "alone missed by hand": (DECAYED, Rung.ALONE),
    "alone missed, and not yet right again": (DECAYED + done("r" * 8), Rung.ALONE),
    "alone missed, and right again": (DECAYED + done("r" * 9), Rung.COVERED),
    "one try at covered with other numbers":
        (COVERED + done("r", Rung.COVERED, OTHER_NUMBER), Rung.COVERED),
    "the same, then alone without a miss":
        (COVERED + done("r", Rung.COVERED, OTHER_NUMBER) + done("r" * 10), Rung.COVERED),
    "alone missed with other numbers":
        (COVERED + done("mm", facts=OTHER_NUMBER), Rung.ALONE),
    "alone missed with a fact not tried above": (COVERED + done("mmmm", facts=OTHER), Rung.COVERED),
    "above with a fact not tried alone":
        (climbed(Rung.PALE) + done("r" * 5, Rung.PALE, OTHER), Rung.PALE),
}  # fmt: skip


@each_row("case", REACHED)
def test_what_is_told_as_reached(case):
    history, rung = REACHED[case]
    assert Climb.of(history).reached is rung


def test_a_tutor_who_is_content_with_less_is_told_no_more():
    content = LadderRules(share=0.8)
    history = done("mrrrrm" + "r" * 4)
    assert Climb.of(history, content).rung is Rung.PALE
    assert Climb.of(history, content).reached is Rung.ALONE
    assert Climb.of(history + done("r"), content).reached is Rung.PALE


HISTORIES = st.lists(
    st.builds(
        lambda letter, rung, facts: done(letter, rung, facts)[0],
        st.sampled_from("rrrml"),
        st.sampled_from(Rung),
        st.sampled_from([SOME, OTHER, OTHER_NUMBER]),
    ),
    max_size=60,
)
QUICK_RULES = st.builds(LadderRules, up_after=st.sampled_from([1, 2, 10]))


@given(HISTORIES, QUICK_RULES)
def test_what_is_told_is_never_above_where_the_learner_stands(history, rules):
    stands, told = Climb.of(history, rules).rung, Climb.of(history, rules).reached
    assert told in (None, stands, Rung.ALONE)
    assert told is None or RUNGS.index(told) <= RUNGS.index(stands)


# Why

AT_TOP = climbed(Rung.NUMBER)
THREE = climbed(Rung.NUMBER, rods=3)
SLOW = [*climbed(Rung.PALE), *done("r" * 10, Rung.PALE, seconds=9.0)]

WHY = {
    "nothing was tried": ([], Why(Reason.BEGIN, Rung.ALONE)),
    "chosen by hand": (done("r" * 9, Rung.COVERED), Why(Reason.BEGIN, Rung.ALONE)),
    "up": (done("m" + "r" * 9), Why(Reason.RIGHT, Rung.PALE, 9, 10)),
    "down by misses": (done("rrmrm"), Why(Reason.MISSES, Rung.FINISH, 2, 3)),
    "down at once": (done("mm"), Why(Reason.MISSES, Rung.FINISH, 2, 2)),
    "down by looks":
        (climbed(Rung.TRACES) + done("lrlrl", Rung.TRACES), Why(Reason.LOOKS, Rung.PALE, 3, 5)),
    "not enough yet": (done("r" * 3), Why(Reason.MORE, Rung.ALONE, 7, next=Rung.PALE)),
    "one miss is forgiven": (done("rrmr"), Why(Reason.MORE, Rung.ALONE, 6, next=Rung.PALE)),
    "two are not": (done("mrrrrm" + "r" * 3), Why(Reason.MORE, Rung.ALONE, 2, next=Rung.PALE)),
    "twice as many after a fall":
        (climbed(Rung.PALE) + done("mm", Rung.PALE) + done("r"),
         Why(Reason.MORE, Rung.ALONE, 19, next=Rung.PALE)),
    "slower": (SLOW, Why(Reason.SLOWER, Rung.PALE, next=Rung.TRACES, now=9.0, then=4.0)),
    "up to the top": (AT_TOP, Why(Reason.RIGHT, Rung.NUMBER, 10, 10)),
    "not yet a rod more": (AT_TOP + done("r", Rung.NUMBER), Why(Reason.MORE, Rung.NUMBER, 9)),
    "mastered": (AT_TOP + done("r" * 10, Rung.NUMBER), Why(Reason.TOP, Rung.NUMBER)),
    "too slow for a fourth rod":
        (THREE + done("r" * 10, Rung.NUMBER, rods=3, seconds=7.0),
         Why(Reason.SLOWER, Rung.NUMBER, now=7.0, then=4.0)),
    "where no rod more comes":
        (climbed(Rung.NUMBER, rods=14) + done("rm", Rung.NUMBER, rods=14),
         Why(Reason.TOP, Rung.NUMBER)),
}  # fmt: skip


@each_row("case", WHY)
def test_why_the_ladder_moved_or_did_not(case):
    history, why = WHY[case]
    assert why_of(Climb.of(history)) == why


@given(HISTORIES, QUICK_RULES)
def test_so_many_more_right_ones_lead_on_and_not_one_less(history, rules):
    why = why_of(Climb.of(history, rules))
    assert why.rung is Climb.of(history, rules).rung
    if why.reason is Reason.MORE and why.next is not None:
        more = done("r", why.rung) * (why.some - 1)
        assert Climb.of(history + more, rules).rung is why.rung
        assert Climb.of(history + more + done("r", why.rung), rules).rung is why.next


@each_row("case", [case for case in WHY if WHY[case][1].reason is not Reason.BEGIN])
def test_it_is_told_in_one_or_two_short_sentences_with_its_figures(case):
    _, why = WHY[case]
    line = why_line(why, WORDS)
    assert line.show.count(".") <= 2 and len(line.speak.split()) <= 18
    assert "%" not in line.show
    figures = {Reason.RIGHT: (why.some, why.last), Reason.MISSES: (why.some, why.last),
               Reason.LOOKS: (why.some, why.last), Reason.MORE: (why.some,)}  # fmt: skip
    assert all(str(figure) in line.show for figure in figures.get(why.reason, ()))
    comes = why.next or (why.rung if why.reason is not Reason.TOP else None)
    assert not why.names_rung or WORDS.text(f"rung.{why.rung.name}") in line.show
    rod_comes = why.next is None and why.reason in (Reason.MORE, Reason.SLOWER)
    assert rod_comes or comes is None or WORDS.text(f"rung.{comes.name}") in line.show


def test_a_rod_more_is_told_too():
    assert "rod" in why_line(Why(Reason.ROD, Rung.ALONE), WORDS).show

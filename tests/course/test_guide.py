"""The guide without a window: what is told, what falls due, what is seen."""

from dataclasses import replace
from decimal import Decimal
from itertools import pairwise

import pytest
from each import each_row
from ear import says_what_to_do
from guided import (
    COURSE,
    LETTERS_A_SECOND,
    MARK,
    WORDS,
    Guided,
    ask,
    guided,
    line,
    practise,
    say,
    show,
)

from frame.course.attempts import Position
from frame.course.counting import COUNT_FROM
from frame.course.lesson import Practise, Say
from frame.course.pacing import (
    COUNT_SECONDS,
    GLANCE_SECONDS,
    MENDING_SECONDS,
    WAIT_SECONDS,
    Due,
)
from frame.course.runner import MOST_ROUNDS, Runner
from frame.course.stages import Stage
from frame.course.telling import Telling, joined
from frame.course.veil import MOST_PALE, NO_VEIL, Veil
from frame.language.lines import Line
from frame.language.wording import Listener
from frame.practice.exercises import Kind
from frame.practice.rungs import Asked, Rung
from frame.technique.beads import BeadMove
from frame.technique.conventions import Strictness

LESSON_IDS = [entry.id for entry in COURSE.lessons]
MOST_TURNS = 1500
FIVE = "Five gulls. Two more land."
ADD = ("add-direct-1", "add-direct-2", "add-direct-5")
READS, WIPE = "Which number is it?", "Wipe along the beam."


def shown(key, **facts):
    return WORDS.line(key, **facts).show


def spoken(key, **facts):
    return WORDS.line(key, **facts).speak


# Telling


def test_a_sentence_is_told_once_until_something_else_begins():
    telling = Telling()
    for _ in range(3):
        telling.tell_once(line("A"))
    assert (telling.count, telling.line.speak) == (1, "A")
    telling.begin()
    telling.tell_once(line("A"))
    assert telling.count == 2
    telling.begin(line("A"))
    telling.tell_once(line("A"))
    assert telling.count == 2


def test_an_answer_is_told_each_time_and_so_is_all_that_is_told_again():
    telling = Telling()
    for count in range(1, 6):
        telling.answer(line("A"))
        assert (telling.count, telling.said) == (count, line("A"))
    telling.tell(line("A"))
    assert telling.count == 6
    telling.answer(None)
    assert (telling.count, telling.said) == (6, None)


def test_what_was_told_within_something_was_heard():
    telling = Telling()
    telling.tell(line("A B"), line("B"))
    assert [telling.was_heard(one) for one in (line("A B"), line("B"), line("A"), None)] == [
        True, True, False, True,
    ]  # fmt: skip


@pytest.mark.parametrize(
    "first, second, wanted",
    [
        (None, None, None),
        (line("A"), None, line("A")),
        (None, line("B"), line("B")),
        (line("A"), line("A"), line("A")),
        (line("A"), line("B"), Line("B", "A B")),
    ],
)
def test_two_sentences_are_heard_one_after_the_other_and_the_second_is_seen(first, second, wanted):
    assert joined(first, second) == wanted


# What is asked


@each_row(
    "step, heard",
    [
        (say(FIVE), FIVE),
        (show(Decimal(7), FIVE), FIVE),
        (ask("7", kind=Kind.SET), "seven. Make this number."),
        (ask("37", kind=Kind.SET), "thirty-seven. Make this number."),
        (ask("3 + 4"), "three. plus four."),
        (ask("3 - 2 + 8"), "three. minus two. plus eight."),
        (ask("3 x 4", rods=8), "three times four."),
        (ask("8 / 4", rods=8), "eight divided by four."),
        (ask("sqrt 9", rods=8), "The square root of nine."),
        (ask("7", kind=Kind.READ), READS),
        (ask("7", kind=Kind.CLEAR), WIPE),
        (ask("7", kind=Kind.READ, own="How many gulls?"), "How many gulls?"),
        (ask("7", kind=Kind.CLEAR, own="The market closes."), "The market closes."),
        (ask("5 + 2", own=FIVE), FIVE),
        (ask("2 + 5", own=FIVE), f"two. plus five. {FIVE}"),
        (ask("5 + 2 + 2", own=FIVE), f"five. plus two. plus two. {FIVE}"),
        (ask("7", kind=Kind.SET, own="As many as stand."), "seven. As many as stand."),
        (ask("7", kind=Kind.SET, own="Seven gulls."), "Seven gulls."),
        (ask("3 + 4", Rung.FOLLOW), "three. plus four."),
        (ask("3 + 4", Rung.WATCH, own=FIVE), f"three. plus four. {FIVE}"),
        (ask("4 + 3", Rung.FINISH, own=FIVE), "four. plus three. Watch."),
        (ask("3 + 4", Rung.COVERED), "three. plus four."),
        (ask("3 + 4", Rung.NUMBER), "three. plus four. What is the answer?"),
        (practise(ADD, 1, own="More land."), None),
        (practise(("set-digit-3",), 1, own="Three."), "three. Three."),
    ],
)
def test_what_is_told_when_a_lesson_begins(step, heard):
    """What is asked, before the sentence; the sentence alone where it names all the numbers."""
    begun = Guided(step)
    assert len(begun.told) == 1
    if heard is None:
        heard = f"{begun.guide.feedback.of_asked(begun.work).speak} More land."
    assert begun.last == heard
    assert begun.guide.aloud.speak == heard


@pytest.mark.parametrize("asked", [Asked.CALLED, Asked.FLASHED])
def test_numbers_that_are_called_or_flashed_are_not_told_by_the_guide(asked):
    """Before them comes the sentence, after them the question."""
    begun = Guided(ask("3 + 4", Rung.NUMBER, own="Look.", asked=asked, pace=1.0))
    while begun.stage is Stage.PRESENT:
        begun.turn()
    ready = ["Look. " + spoken("flash.ready")] if asked is Asked.FLASHED else ["Look."]
    assert begun.told == [*ready, spoken("lesson.what_answer")]


def test_with_eyes_shut_the_numbers_of_silent_work_are_heard_though_its_sentence_names_them():
    for rung, wanted in ((Rung.COVERED, f"five. plus two. {FIVE}"), (Rung.ALONE, FIVE)):
        assert Guided(ask("5 + 2", rung, own=FIVE), eyes_shut=True).last == wanted


def test_after_a_demonstration_it_is_the_learners_turn_with_the_sum():
    watched = Guided(ask("3 + 1", Rung.WATCH, own="One more."))
    watched.until(Stage.WORK)
    assert watched.told == ["three. plus one. One more.", "Now you. three. plus one."]
    finished = Guided(ask("4 + 3", Rung.FINISH, own="Which is left?"))
    finished.until(Stage.WORK)
    assert finished.told == ["four. plus three. Watch.", "four. plus three. Which is left?"]


def test_the_sentence_of_a_set_is_told_once_and_what_is_asked_each_time():
    begun = Guided(practise(ADD, 4, own="More land."))
    asked = []
    while begun.stage is not Stage.END:
        if begun.stage is Stage.WORK and begun.runner.position.item == len(asked):
            asked.append(begun.guide.feedback.of_asked(begun.work).speak)
        begun.turn()
    assert [told for told in begun.told if "More land." in told] == [f"{asked[0]} More land."]
    assert [told for told in begun.told if told in asked[1:]] == asked[1:]
    assert len(asked) == 4


@each_row("lesson_id", LESSON_IDS)
def test_each_sentence_of_a_lesson_is_told_once_to_who_does_what_it_asks(lesson_id):
    begun, own = guided(lesson_id), {}
    for _ in range(MOST_TURNS):
        if begun.stage is Stage.END:
            break
        if begun.runner.line is not None:
            own[begun.runner.position.step] = begun.runner.line.speak
        begun.turn()
    assert begun.stage is Stage.END and own
    for step, text in own.items():
        heard = [told for told, at in zip(begun.told, begun.told_at, strict=True) if at == step]
        assert sum(text in told for told in heard) == 1, text


@each_row("lesson_id", LESSON_IDS)
def test_whoever_only_hears_knows_what_is_to_be_done_whenever_a_lesson_waits(lesson_id):
    """The sentence heard last names the number to set or the sum, or asks a question."""
    begun, entered = guided(lesson_id), 0
    for _ in range(MOST_TURNS):
        if begun.stage is Stage.END:
            break
        if begun.guide.entered != entered:
            entered = begun.guide.entered
            assert says_what_to_do(begun.last, begun.runner, WORDS), begun.last
        begun.turn()
    end = begun.runner.lesson.end.line
    assert begun.last == (end.speak if end else spoken("lesson.passed"))


# Mistakes

LAX = {"strictness": Strictness.ANSWER}
SEEN = (Rung.FOLLOW, Rung.ALONE, Rung.PALE, Rung.TRACES)


def done(one):
    one.do(one.guide.say_done)


def helped(one):
    one.do(one.guide.help)


def half_way(one):
    one.do(one.guide.fall_short)


def wiped(one):
    one.do(one.guide.wipe, (0,))


def no_number(one):
    one.do(one.guide.give_answer)


def other_order(one):
    one.move(4)


def two(one):
    """Give two for an answer, as soon as one is asked for."""
    while one.stage is Stage.WORK:
        one.turn()
    one.answer(2)


MISTAKES = [
    *((ask("13 + 4", rung), Guided.go_wrong, {}) for rung in SEEN),
    *((ask("3 + 4", rung, rods=1), Guided.go_wrong, {}) for rung in SEEN),
    *((ask("6", rung, kind=Kind.SET, rods=1), Guided.go_wrong, {}) for rung in SEEN),
    (ask("4 + 3", Rung.FINISH, rods=1), Guided.go_wrong, {}),
    (ask("4 + 3", Rung.WATCH, rods=1), Guided.go_wrong, {}),
    (ask("13", kind=Kind.CLEAR), Guided.go_wrong, {}),
    (ask("13 + 14"), other_order, {"strictness": Strictness.ORDER}),
    *((ask("3 + 4", rung), done, LAX) for rung in SEEN),
    *((ask("3 + 4", rung, rods=1), done, LAX) for rung in SEEN),
    (ask("6", kind=Kind.SET, rods=1), done, LAX),
    (ask("13", kind=Kind.CLEAR), done, LAX),
    (ask("7", kind=Kind.READ, rods=1), two, {}),
    (ask("70", kind=Kind.READ), two, {}),
    (ask("3 - 5"), two, {}),
    (ask("7 / 3", rods=8), two, {}),
    (ask("7", kind=Kind.READ), no_number, {}),
    (ask("3 + 4", Rung.NUMBER), no_number, {}),
    (ask("3 + 4"), wiped, {}),
    (ask("3 + 4", Rung.COVERED), wiped, {}),
    (ask("6", kind=Kind.SET, rods=1), wiped, {}),
    (ask("30", kind=Kind.CLEAR), wiped, {}),
    (ask("3 + 4"), half_way, {}),
    (ask("6", kind=Kind.SET, rods=1), half_way, {}),
    (ask("3 + 4"), helped, {}),
    (ask("3 + 4", rods=1), helped, {}),
    (ask("3 + 4", Rung.FOLLOW), helped, {}),
    (ask("3 + 4", Rung.COVERED), helped, {}),
    (ask("30", kind=Kind.CLEAR), helped, {}),
]
"""A step, something that is done there again and again, and how strict the judge is."""


@each_row("listener", Listener)
@each_row("step, act, more", MISTAKES)
def test_the_same_mistake_is_answered_each_time(step, act, more, listener):
    """Two, three, five times: always in words, and the lesson waits on."""
    one = Guided(step, say("So."), listener=listener, **more)
    one.until(Stage.WORK, Stage.ANSWER)
    for _ in range(5):
        before = len(one.told)
        act(one)
        assert len(one.told) > before
        assert one.last
        assert one.stage in (Stage.WORK, Stage.ANSWER)
        assert one.runner.position == Position(0)


def test_a_mistake_that_ends_silent_work_is_answered_too():
    for rung, answers in ((Rung.NUMBER, 1), (Rung.COVERED, 1)):
        one = Guided(ask("3 + 4", rung), say("So."))
        if rung is Rung.COVERED:
            one.move(3)
            done(one)
        one.answer(2)
        assert one.stage is Stage.REVEAL
        assert one.last == one.guide.said.speak
        assert len([told for told in one.told if told == one.last]) == answers


@pytest.mark.parametrize("rods", [1, 2])
def test_from_the_second_wrong_bead_on_the_next_one_is_shown(rods):
    one = Guided(ask("3 + 4", rods=rods))
    for times in range(1, 6):
        one.go_wrong()
        assert bool(one.guide.sight.shows_next) is (times > 1)
        assert bool(one.guide.sight.hinted) is (times > 1)
        assert one.last.endswith(" Like this. Now you.") is (times > 1)
    one.go_right()
    assert (one.guide.sight.shows_next, one.guide.sight.hinted) == ((), ())


@pytest.mark.parametrize(
    "listener, said",
    [
        (Listener.YOUNG, "Only one here. Now the ones."),
        (Listener.OLDER, "Only one here. Next: two ones down."),
    ],
)
def test_where_another_rod_is_shown_than_was_touched_it_is_named(listener, said):
    """Two tens are pushed up, where one is to come later, while two ones are shown to go down."""
    one = Guided(ask("7 + 3"), listener=listener)
    while one.work.term == 0:
        one.go_right()
    one.move(2)
    one.move(2, 1)
    assert one.guide.sight.shows_next == (BeadMove(0, -2),)
    assert one.last == said
    one.move(2)
    assert one.last.endswith(" Now you.")


@pytest.mark.parametrize("listener", Listener)
@pytest.mark.parametrize("rods", [1, 2])
@pytest.mark.parametrize("calculation", ["3 + 4", "3 + 1", "4 - 2"])
def test_from_the_third_answer_on_to_the_same_wrong_bead_no_two_in_a_row_are_alike(
    calculation, rods, listener
):
    one = Guided(ask(calculation, rods=rods), listener=listener)
    answers = [one.last for _ in range(7) if one.go_wrong()]
    assert len(answers) == 7
    assert all(first != second for first, second in pairwise(answers[1:]))
    assert answers[2] not in answers[:2]


def ends(listener, step, **more):
    """What is heard at the tick of an exercise that is worked rightly."""
    one = Guided(step, say("So."), listener=listener, **more)
    while one.stage is not Stage.DONE:
        one.turn()
    return one.last


@pytest.mark.parametrize("listener", Listener)
@pytest.mark.parametrize("calculation", ["3 + 1", "3 + 4", "9 - 6", "7 + 6", "13 - 6", "48 + 37"])
def test_all_that_is_right_ends_in_yes_and_the_number(calculation, listener):
    step = ask(calculation)
    assert ends(listener, step).endswith(
        spoken("lesson.right_answer", number=step.exercise.sum.result)
    )


def test_a_new_rule_is_told_before_yes_and_the_number():
    assert ends(Listener.YOUNG, ask("7 - 4", rods=1)) == "One in, five out. Yes. three."


def test_another_order_at_the_end_says_yes_once():
    one = Guided(ask("8 + 7"), say("So."))
    while one.work.term == 0:
        one.go_right()
    one.move(1, 1)
    one.move(-3)
    assert one.stage is Stage.DONE
    assert one.last.endswith("Yes. fifteen.") and one.last.count("Yes") == 1


def test_from_the_second_done_too_early_on_the_next_bead_is_shown():
    one = Guided(ask("3 + 4"), **LAX)
    one.move(3)
    for times in range(1, 5):
        done(one)
        assert bool(one.guide.sight.shows_next) is (times > 1)
        assert (one.last == "Like this. Now you.") is (times > 1)


def test_a_bead_that_was_put_back_is_outlined_for_a_while_and_until_the_next_touch():
    one = Guided(ask("3 + 4"))
    one.move(4)
    assert one.guide.sight.mending == BeadMove(0, 4)
    one.wait(MENDING_SECONDS - 0.1)
    assert one.guide.sight.mending
    one.wait(0.2)
    assert one.guide.sight.mending is None
    one.move(4)
    one.go_right()
    assert one.guide.sight.mending is None


@pytest.mark.parametrize("rods", [1, 2])
def test_from_the_third_wrong_reading_on_the_beads_are_counted(rods):
    one = Guided(ask("7", kind=Kind.READ, rods=rods))
    said = ["lesson.look_again", "lesson.it_reads", *["lesson.count"] * 3]
    assert said.index("lesson.count") + 1 == COUNT_FROM
    for times, key in enumerate(said, 1):
        one.answer(3)
        assert one.last == spoken(key, number=Decimal(7))
        before = len(one.told)
        one.wait(5)
        counted = ["five.", "six.", "seven.", spoken("lesson.it_reads", number=Decimal(7))]
        assert one.told[before:] == (counted if times >= COUNT_FROM else [])
    one.answer(7)
    assert one.stage is Stage.DONE


@pytest.mark.parametrize("reads, beads", [("0", []), ("4", [1, 2, 3, 4]), ("9", [0, 1, 2, 3, 4])])
def test_each_bead_is_lit_as_it_is_counted(reads, beads):
    one = wrongly_read(ask(reads, kind=Kind.READ, rods=1))
    lit = []
    for _ in range(60):
        one.wait(0.1)
        if [bead.bead for bead in one.guide.sight.counting.seen] != lit:
            lit = [bead.bead for bead in one.guide.sight.counting.seen]
            assert lit == beads[: len(lit)]
            number = one.guide.sight.counting.seen[-1].number
            assert one.last == spoken("lesson.number", number=number)
    assert lit == beads
    assert one.last == spoken("lesson.it_reads", number=Decimal(reads))


def wrongly_read(step, times=COUNT_FROM):
    one = Guided(step)
    for _ in range(times):
        one.answer(11)
    return one


def test_each_number_counted_is_heard_out_before_the_next():
    one = wrongly_read(ask("77", kind=Kind.READ))
    quiet_at, at = one.guide.telling.quiet_at, len(one.told)
    while one.last != spoken("lesson.it_reads", number=Decimal(77)):
        one.wait(0.05, 0.05)
        if len(one.told) > at:
            assert one.now >= quiet_at
            quiet_at, at = one.guide.telling.quiet_at, len(one.told)
    assert one.told[-2] == "seventy-seven."


def test_a_long_count_is_heard_out_however_long_it_takes():
    one = wrongly_read(ask("99", kind=Kind.READ))
    at = len(one.told)
    one.wait(3 * WAIT_SECONDS)
    *counted, reads, again = one.told[at:]
    assert len(counted) == 10 and len(counted) * COUNT_SECONDS > WAIT_SECONDS / 2
    assert reads == spoken("lesson.it_reads", number=Decimal(99))
    assert again.endswith(reads)


@pytest.mark.parametrize("act", [lambda one: one.do(one.guide.type_sign, "9"), no_number])
def test_a_touch_ends_the_counting(act):
    one = wrongly_read(ask("99", kind=Kind.READ))
    one.wait(3)
    assert one.guide.sight.counting.seen
    act(one)
    at = len(one.told)
    one.wait(WAIT_SECONDS - 1)
    assert (one.guide.sight.counting.seen, one.told[at:]) == ((), [])


def test_what_is_counted_is_seen_though_it_was_covered():
    one = wrongly_read(ask("9", Rung.COVERED, kind=Kind.READ, rods=1))
    assert one.guide.sight.veil == NO_VEIL
    one.wait(3)
    assert one.guide.sight.counting.seen and one.guide.sight.veil == NO_VEIL


# Help


HELP = [
    (ask("3 + 4"), ["Look at the ones rod.", "Three ones up.", "Like this. Now you."]),
    (ask("3 + 4", rods=1), ["Three beads up.", "Like this. Now you."]),
    (ask("4 + 3", Rung.FOLLOW, rods=1), ["Like this. Now you."]),
    (ask("30", kind=Kind.CLEAR), [WIPE]),
    (ask("3 + 4", Rung.COVERED), [spoken("lesson.look")]),
]


@pytest.mark.parametrize("step, said", HELP)
def test_show_me_says_a_little_more_each_time_and_then_the_same_again(step, said):
    one = Guided(step)
    for wanted in [*said, said[-1], said[-1]]:
        before = len(one.told)
        helped(one)
        assert one.told[before:] == [wanted]


def test_the_third_show_me_speaks_and_shows():
    one = Guided(ask("3 + 4"))
    for times in range(1, 5):
        helped(one)
        assert (one.guide.sight.pointed == 0) is (times == 1)
        assert bool(one.guide.sight.hinted) is bool(one.guide.sight.shows_next) is (times >= 3)


def test_a_covered_answer_without_a_touch_is_asked_for_its_beads_once():
    one = Guided(ask("3 + 4", Rung.COVERED))
    done(one)
    assert (one.last, one.stage) == (spoken("lesson.move_beads"), Stage.WORK)
    done(one)
    assert (one.last, one.stage) == (READS, Stage.ANSWER)
    moved = Guided(ask("3 + 4", Rung.COVERED))
    moved.move(3)
    done(moved)
    assert (moved.last, moved.stage) == (READS, Stage.ANSWER)
    set_unseen = Guided(ask("7", Rung.COVERED, kind=Kind.SET))
    done(set_unseen)
    assert set_unseen.last == spoken("lesson.move_beads")
    done(set_unseen)
    assert set_unseen.stage is Stage.REVEAL


def test_each_covered_exercise_is_asked_for_its_beads():
    one = Guided(*[ask("3 + 4", Rung.COVERED)] * 2)
    for _ in range(2):
        done(one)
        assert one.last == spoken("lesson.move_beads")
        while one.stage is Stage.WORK:
            one.turn()
        one.answer(7)
        one.wait(5)
    assert one.stage is Stage.END


# Who waits


WAITS = [
    (say(FIVE), f"{FIVE} Touch the arrow."),
    (ask("13 + 4"), "Look at the tens rod."),
    (ask("13 + 4", Rung.PALE), "Look at the tens rod."),
    (ask("13 + 4", Rung.TRACES), "thirteen. plus four."),
    (ask("3 + 4", rods=1, own=FIVE), f"three. plus four. {FIVE}"),
    (ask("3 + 4", Rung.COVERED), "three. plus four."),
    (ask("3 + 4", Rung.NUMBER), "three. plus four. What is the answer?"),
    (ask("7", kind=Kind.READ), READS),
    (ask("7", kind=Kind.READ, own="How many gulls?"), "How many gulls?"),
    (ask("3 + 1", Rung.WATCH, rods=1), "three. plus one. Now you."),
]


@pytest.mark.parametrize("step, again", WAITS)
def test_whoever_waits_is_told_again_once_and_not_twice(step, again):
    one = Guided(step)
    one.until(Stage.TELL, Stage.WORK, Stage.ANSWER)
    before = len(one.told)
    one.wait(WAIT_SECONDS - 0.5)
    assert one.told[before:] == []
    one.wait(6 * WAIT_SECONDS)
    assert one.told[before:] == [again]
    assert one.guide.dues.at(Due.WAIT) is None


@pytest.mark.parametrize(
    "seconds, told", [(0.5, f"{FIVE} Touch the arrow."), (5, "Touch the arrow.")]
)
def test_who_seeks_the_way_on_among_the_beads_is_told_once_behind_what_was_not_heard(seconds, told):
    one = Guided(say(FIVE), say("So."))
    one.wait(seconds)
    assert not one.guide.sight.points_on
    assert one.do(one.guide.seek_on)
    assert (one.last, one.guide.line.show) == (told, f"{FIVE} Touch the arrow.")
    assert one.guide.sight.points_on
    assert not one.do(one.guide.seek_on)
    assert one.told.count(told) == 1
    one.do(one.guide.go_on)
    assert not one.guide.sight.points_on
    assert one.guide.line.show == "So."


def test_where_beads_are_asked_for_nobody_is_shown_the_way_on():
    one = Guided(ask("3 + 4"))
    one.go_wrong()
    assert not one.do(one.guide.seek_on)
    assert not one.guide.sight.points_on


def test_who_waits_before_a_sentence_is_shown_the_way_on():
    one = Guided(show(Decimal(5)))
    one.wait(2 * WAIT_SECONDS)
    assert one.guide.sight.points_on
    assert one.guide.line.show == "Touch the arrow."


@pytest.mark.parametrize("rung", [Rung.FOLLOW, Rung.WATCH])
def test_what_is_taken_once_more_from_two_rods_is_told_once(rung):
    one = Guided(ask("24 / 12", rung, rods=13, trial=1)).until(Stage.WORK)
    before = len(one.told)
    while one.stage is Stage.WORK:
        one.go_right()
    assert one.told[before:].count("Take twelve away once more.") == 1


def test_touching_on_and_on_does_not_put_the_reminder_off():
    one = Guided(say(FIVE))
    for _ in range(8):
        one.wait(WAIT_SECONDS / 4)
        one.do(one.guide.seek_on)
    assert one.guide.dues.at(Due.WAIT) is None
    assert one.told == [FIVE, "Touch the arrow.", f"{FIVE} Touch the arrow."]


def test_whoever_waits_after_a_mistake_is_told_the_same_again():
    one = Guided(ask("13 + 4"))
    one.go_wrong()
    said = one.last
    one.wait(3 * WAIT_SECONDS)
    assert one.last == f"thirteen. plus four. {said}"


@pytest.mark.parametrize("act", [Guided.go_right, Guided.go_wrong, helped, wiped, half_way])
def test_whoever_did_something_and_waits_is_told_again_once(act):
    one = Guided(ask("13 + 4"))
    act(one)
    one.wait(WAIT_SECONDS / 2)
    act(one)
    before = len(one.told)
    one.wait(WAIT_SECONDS - 0.5)
    assert one.told[before:] == []
    one.wait(6 * WAIT_SECONDS)
    assert len(one.told) == before + 1


def test_ten_seconds_of_quiet_are_counted_from_the_end_of_what_is_heard():
    text = "The ferry waits, and waits, and waits. " * 5
    one = Guided(say(text))
    one.wait(len(text) / LETTERS_A_SECOND + WAIT_SECONDS - 0.5)
    assert len(one.told) == 1
    one.wait(1)
    assert len(one.told) == 2


def test_waiting_is_no_help_and_rings_the_rod():
    one = Guided(ask("13 + 4"))
    assert one.guide.sight.pointed is None
    one.wait(WAIT_SECONDS + 3)
    assert one.guide.sight.pointed == 1
    while one.stage is Stage.WORK:
        one.go_right()
    assert one.runner.attempts[0].unaided


def test_nobody_is_told_again_in_a_demonstration_or_when_all_is_done():
    one = Guided(ask("3 + 1", Rung.WATCH), say("So."))
    while one.stage is Stage.DEMO:
        assert one.guide.dues.at(Due.WAIT) is None
        one.wait(0.1)
    while one.stage is Stage.WORK:
        one.go_right()
    assert one.guide.dues.at(Due.WAIT) is None


# What is seen


def at(rung, kind=Kind.SUM):
    return Guided(ask("3 + 4" if kind is Kind.SUM else "7", rung, kind=kind))


VEILS = {
    Rung.FOLLOW: NO_VEIL,
    Rung.ALONE: NO_VEIL,
    Rung.PALE: Veil(1),
    Rung.TRACES: Veil(covered=True, traces=True),
    Rung.COVERED: Veil(covered=True),
    Rung.NUMBER: Veil(covered=True),
}


@pytest.mark.parametrize("rung", VEILS)
def test_each_rung_has_its_veil_and_a_look_lifts_it(rung):
    one = at(rung)
    assert one.guide.sight.veil == VEILS[rung]
    helped(one)
    assert one.guide.sight.veil == NO_VEIL
    assert one.guide.sight.end_look() is rung.is_unseen
    assert one.guide.sight.veil == (VEILS[rung] if rung.is_unseen else NO_VEIL)


@pytest.mark.parametrize("rung", [Rung.PALE, Rung.TRACES, Rung.COVERED, Rung.NUMBER])
def test_the_end_of_an_exercise_lifts_its_veil(rung):
    one = Guided(ask("3 + 4", rung), say("So."))
    while one.stage in (Stage.WORK, Stage.ANSWER):
        one.turn()
    assert (one.stage, one.guide.sight.veil) == (Stage.DONE, NO_VEIL)
    assert one.guide.sight.frame.digits == "07"


def test_beads_grow_paler_as_pale_exercises_are_done():
    one, pale = Guided(*[ask("3 + 1", Rung.PALE)] * 9), []
    while one.stage is not Stage.END:
        if one.stage is Stage.WORK and len(pale) == one.runner.position.step:
            pale.append(one.guide.sight.veil.pale)
        one.turn()
    assert pale == [1, 1, 2, 2, 3, 3, 3, 3, 3]
    assert max(pale) == MOST_PALE


def test_rods_whose_facts_are_sure_are_palest():
    one = Guided(ask("13 + 1", Rung.PALE), sure=frozenset({"set-digit-1", "set-tens"}))
    assert one.guide.sight.veil.faded == {0}


def test_a_number_to_be_read_is_covered_after_a_glance():
    one = Guided(ask("7", Rung.COVERED, kind=Kind.READ))
    assert one.guide.sight.veil == NO_VEIL
    one.wait(GLANCE_SECONDS - 0.1)
    assert one.guide.sight.veil == NO_VEIL
    one.wait(0.2)
    assert one.guide.sight.veil == Veil(covered=True)


def test_the_cover_of_a_sentence_shows_the_rung_it_tells_of():
    for rung, veil in {None: NO_VEIL, **VEILS}.items():
        assert Guided(Say(line("Fog."), MARK, cover=rung)).guide.sight.veil == veil


@pytest.mark.parametrize(
    "rung, stage, has_hint",
    [
        (Rung.WATCH, Stage.DEMO, True),
        (Rung.WATCH, Stage.WORK, True),
        (Rung.FOLLOW, Stage.WORK, True),
        (Rung.FINISH, Stage.DEMO, True),
        (Rung.FINISH, Stage.WORK, False),
        (Rung.ALONE, Stage.WORK, False),
        (Rung.PALE, Stage.WORK, False),
        (Rung.COVERED, Stage.WORK, False),
    ],
)
def test_the_next_bead_has_a_badge_where_the_tool_leads(rung, stage, has_hint):
    one = Guided(ask("4 + 3", rung)).until(stage)
    assert bool(one.guide.sight.hinted) is has_hint


@pytest.mark.parametrize("rods, rung, points", [(1, Rung.ALONE, False), (2, Rung.ALONE, True),
                                                (2, Rung.FOLLOW, False)])  # fmt: skip
def test_a_rod_is_ringed_where_there_is_another_and_help_points(rods, rung, points):
    one = Guided(ask("3 + 4", rung, rods=rods))
    assert one.guide.sight.pointed is None
    helped(one)
    assert (one.guide.sight.pointed == 0) is points


def test_where_a_number_is_all_there_is_no_frame_but_to_set_it_on():
    one = at(Rung.NUMBER)
    assert not one.guide.sight.has_field and not one.guide.takes_beads
    one.guide.answer.use_frame(one.runner)
    assert one.guide.sight.has_field and one.guide.takes_beads
    one.move(5)
    assert (one.guide.answer.typed, one.guide.sight.frame.digits) == ("5", "05")
    one.do(one.guide.type_sign, "7")
    assert not one.guide.sight.has_field
    one.do(one.guide.give_answer)
    assert one.stage is Stage.DONE and one.guide.sight.has_field


@pytest.mark.parametrize("own", [True, False])
def test_where_the_last_frame_is_the_learners_own_none_is_seen_at_the_end(own):
    one, some = ask("3 + 4"), practise(ADD, 2)
    alone = replace(one, exercise=replace(one.exercise, own=own))
    a_set = replace(some, request=replace(some.request, own=own))
    for step in (alone, a_set):
        guide = Guided(step)
        while guide.stage is not Stage.END:
            guide.turn()
        assert guide.guide.sight.has_field is not own
    assert Guided(alone, say("So.")).guide.sight.has_field is not own
    assert Guided(say("So."), a_set).guide.sight.has_field


def test_setting_an_answer_on_the_frame_is_not_waiting():
    one = at(Rung.NUMBER)
    one.guide.answer.use_frame(one.runner)
    before = len(one.told)
    for change in (1, 1, -2, 5, -5, 3):
        one.wait(WAIT_SECONDS / 2)
        one.move(change)
    assert len(one.told) == before


# Going back, and coming back another day


def harbour():
    """Sentences, frames and exercises, and a set in the middle."""
    return (
        say("The quay is bare."), show(Decimal(2), "Two crates."), ask("2 + 1"), say("Three."),
        practise(ADD, 2, own="More land."), say("All are here."), ask("5", kind=Kind.SET),
    )  # fmt: skip


def test_step_back_leads_to_the_sentence_before_and_past_a_set_that_is_over():
    one, stood = Guided(*harbour()), {}
    while one.stage is not Stage.END:
        stood.setdefault(one.runner.position.step, one.guide.sight.frame)
        if one.runner.position.step == 6 and one.stage is Stage.WORK:
            break
        one.turn()
    for step in (5, 3, 2, 1, 0):
        assert one.runner.can_step_back
        one.do(one.guide.step_back)
        assert one.runner.position == Position(step)
        assert one.last == one.guide.aloud.speak
        if step != 5:
            assert one.guide.sight.frame == stood[step]
    assert not one.runner.can_step_back
    one.do(one.guide.step_back)
    assert one.runner.position == Position(0)


def test_what_was_typed_and_said_is_gone_after_a_step_back():
    one = Guided(say("One."), ask("7", kind=Kind.READ))
    one.turn()
    one.answer(5)
    one.do(one.guide.type_sign, "4")
    one.do(one.guide.step_back)
    one.turn()
    assert (one.guide.answer.typed, one.guide.answer.refused, one.guide.said) == ("", "", None)


def test_on_the_way_on_a_set_that_is_over_is_passed_by():
    one = Guided(*harbour())
    while one.runner.position.step < 5:
        one.turn()
    attempts = len(one.runner.attempts)
    one.do(one.guide.step_back)
    assert (one.runner.position, one.last) == (Position(3), "Three.")
    one.do(one.guide.go_on)
    assert (one.runner.position, one.last) == (Position(5), "All are here.")
    assert len(one.runner.attempts) == attempts


def test_step_back_from_a_set_begins_it_again_with_its_sentence():
    one = Guided(*harbour())
    while one.runner.position.step < 4:
        one.turn()
    first = one.last
    assert first.endswith("More land.")
    one.go_wrong()
    one.do(one.guide.step_back)
    assert one.last == "Three."
    one.do(one.guide.go_on)
    assert (one.last, one.guide.said) == (first, None)


@each_row("lesson_id", LESSON_IDS)
def test_a_lesson_resumed_shows_the_frame_as_it_stood(lesson_id):
    """At each step, but where the one before was a set: its numbers are not drawn again. A hand
    that was not judged may leave other beads; the way's are shown another day."""
    one, seen = guided(lesson_id), set()
    lesson, known = one.runner.lesson, one.runner.known
    for _ in range(MOST_TURNS):
        if one.stage is Stage.END:
            break
        step = one.runner.position.step
        if step not in seen and one.runner.position.item == 0 and one.stage is not Stage.DONE:
            seen.add(step)
            again = Guided.of(Runner(lesson, known, one.runner.seed, position=Position(step)))
            assert (again.stage, again.last) == (one.stage, one.last)
            if not is_after_set(lesson, step):
                assert again.guide.sight.frame == one.guide.sight.frame
        one.turn()
    assert len(seen) > len(lesson.steps) / 2


def is_after_set(lesson, step):
    before = [one for one in lesson.steps[:step] if not isinstance(one, Say)]
    return bool(before) and isinstance(before[-1], Practise)


# Time


def test_the_time_of_an_exercise_is_counted_from_the_learners_turn():
    one, began = Guided(*[ask("3 + 4", Rung.NUMBER)] * 3), []
    for _ in range(3):
        began.append((one.now, one.guide.stopwatch.since))
        one.wait(3)
        one.answer(7)
        assert one.now - one.guide.stopwatch.since == pytest.approx(3)
        one.until(Stage.ANSWER, Stage.END)
    assert one.stage is Stage.END
    assert all(now == pytest.approx(since) for now, since in began)


def test_time_at_a_demonstration_is_not_the_learners():
    one = Guided(ask("3 + 4", Rung.WATCH)).until(Stage.WORK)
    assert one.now - one.guide.stopwatch.since < 0.2


def test_what_is_heard_is_heard_out_before_the_lesson_goes_on():
    one = Guided(ask("3 + 4", Rung.NUMBER), say("So."))
    one.answer(7)
    one.do(lambda now: one.guide.pacing.heard(now, 6.0))
    one.wait(5.8)
    assert one.stage is Stage.DONE
    one.wait(0.4)
    assert one.stage is Stage.TELL


# Numbers that are called or flashed


def flashed(count=3, right=0):
    request = {"rods": 2, "rung": Rung.NUMBER, "asked": Asked.FLASHED, "pace": 1.0}
    return Guided(practise(ADD, count, right, own="Look.", **request), say("So."))


def test_a_run_that_was_stopped_is_followed_by_another_column():
    one, columns = flashed(), set()
    for _ in range(4):
        columns.add(str(one.work.exercise))
        one.flash(was_stopped=True)
        assert (one.stage, one.last) == (Stage.PRESENT, spoken("flash.stopped"))
        assert one.runner.position == Position(0)
    assert len(columns) > 1
    assert str(one.work.exercise) not in columns or len(columns) == 4
    assert one.runner.attempts == []


def test_an_exercise_that_is_no_set_stays_the_same_when_it_was_stopped():
    one = Guided(ask("3 + 4", Rung.NUMBER, asked=Asked.FLASHED, pace=1.0))
    one.flash(was_stopped=True)
    assert (str(one.work.exercise), one.last) == ("3 + 4", spoken("flash.stopped"))


@pytest.mark.parametrize("answered", [0, 1, 2])
def test_what_is_left_out_is_counted(answered):
    one = flashed()
    while len(one.runner.attempts) < answered:
        one.turn()
    one.until(Stage.PRESENT)
    one.do(one.guide.skip)
    assert one.runner.left_out == 3 - answered
    one.until(Stage.TELL)
    assert one.last == "So."
    one.do(one.guide.step_back)
    assert not one.runner.can_step_back
    one.do(one.guide.go_on)
    assert (one.stage, one.runner.left_out) == (Stage.END, 3 - answered)


def test_a_set_left_out_is_not_asked_again_on_the_way_on():
    steps = [say("Dawn."), *flashed().runner.lesson.steps]
    one = Guided(*steps)
    one.do(one.guide.go_on)
    one.do(one.guide.skip)
    one.do(one.guide.step_back)
    assert one.last == "Dawn."
    one.do(one.guide.go_on)
    assert (one.last, one.runner.left_out) == ("So.", 3)


# Rounds


def fail(one):
    """One thing that is right, after one that is wrong: no exercise of a set is unaided."""
    if one.stage is Stage.WORK and not one.work.slips and not one.work.is_silent:
        one.go_wrong()
    elif one.stage is Stage.ANSWER and not one.work.slips:
        one.answer(one.work.exercise.sum.result + 1)
    else:
        one.turn()


@pytest.mark.parametrize(
    "facts, others", [(ADD, True), (("add-five-4",), True), (("set-digit-3",), False)]
)
def test_a_set_comes_again_with_other_numbers_where_there_are_others_and_says_so_only_then(
    facts, others
):
    one = Guided(practise(facts, 2, 2, own="More."))
    rounds = {}
    while one.stage is not Stage.END:
        position = one.runner.position
        if one.work is not None:
            rounds.setdefault(position.round, {})[position.item] = str(one.work.exercise)
        fail(one)
    again = [told for told in one.told if told.startswith("Once more")]
    assert len(again) == MOST_ROUNDS - 1
    assert again[0].startswith(spoken("lesson.once_more" if others else "lesson.once_again"))
    same = set(rounds[0].values()) & set(rounds[1].values())
    assert (len(same) == 0) is others


@each_row("seed", range(12))
@each_row("facts", [ADD, ("set-digit-3", "set-digit-4")])
def test_a_set_that_comes_again_does_not_begin_with_what_was_just_worked(facts, seed):
    one = Guided(practise(facts, 3, 3), seed=seed)
    while one.runner.position.round == 0:
        last = one.work.exercise.sum
        fail(one)
    assert one.work.exercise.sum != last


def test_a_set_that_comes_again_tells_what_is_asked_but_not_its_sentence():
    one = Guided(practise(ADD, 2, 2, own="More land."))
    while one.runner.position.round == 0:
        fail(one)
    asked = one.guide.feedback.of_asked(one.work).speak
    assert one.last == f"{spoken('lesson.once_more')} {asked}"
    assert sum("More land." in told for told in one.told) == 1


DEEDS = {
    "set-digit-3": "lesson.set_it", "read-digit-3": "lesson.what_reads", "clear": "lesson.wipe"
}  # fmt: skip


@pytest.mark.parametrize("fact", DEEDS)
def test_what_is_to_be_done_with_a_number_is_read_also_where_a_set_comes_again(fact):
    one, deed = Guided(practise((fact,), 2, 2)), shown(DEEDS[fact])
    assert one.guide.line.show == deed
    while one.runner.position.round == 0:
        fail(one)
    again = "once_more" if one.runner.has_other_numbers else "once_again"
    assert one.guide.line.show == f"{shown(f'lesson.{again}')} {deed}"
    assert one.last.count(deed) <= 1, "it is heard once at most"


@pytest.mark.parametrize("right, is_mastered", [(0, True), (2, False)])
def test_after_two_rounds_the_lesson_ends_well_and_is_not_mastered(right, is_mastered):
    one = Guided(practise(ADD, 2, right), say("So."))
    rounds = set()
    while one.stage is not Stage.END:
        rounds.add(one.runner.position.round)
        fail(one)
    assert rounds == set(range(1 if is_mastered else MOST_ROUNDS))
    assert one.runner.mastered is is_mastered
    assert one.last == spoken("lesson.passed" if is_mastered else "lesson.worked_through")


@pytest.mark.parametrize("tried", [True, False])
def test_the_last_word_of_a_set_practised_counts(tried):
    one = Guided(practise(ADD, 2), is_lesson=False)
    if tried:
        while one.stage is not Stage.END:
            one.turn()
        assert one.last == spoken("practise.over", right=2, all=2)
    else:
        ended = Guided(*one.runner.lesson.steps, position=Position(1), is_lesson=False)
        assert ended.last == spoken("practise.over_untried")


def test_what_was_said_to_somebody_who_waited_is_gone_once_all_is_wiped():
    one = Guided(ask("30", kind=Kind.CLEAR, rods=2))
    one.wait(2 * WAIT_SECONDS)
    assert one.guide.said is not None
    one.do(one.guide.wipe, (0, 1))
    assert one.stage is Stage.DONE and one.guide.said is None

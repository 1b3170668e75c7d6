"""Nothing the tool says is without a recording: the real course, words and recorded tables."""

import random
import sys
from collections.abc import Iterable, Iterator
from decimal import Decimal
from pathlib import Path

import pytest
from shipped import the_course, the_words

from frame.course.course import load_one
from frame.course.lesson import Lesson
from frame.course.spoken import (
    FIRST_FOR_OLDER,
    heard_by_young,
    number_groups,
    spoken_groups,
)
from frame.language.catalogue import load_words
from frame.language.speech import PLAIN, QUICK, SPEEDS, Clips, normal, sentences
from frame.language.verdicts import Hint, hint_line, omission_line, verdict_line
from frame.language.wording import Listener, rule_line
from frame.resources import ASSETS
from frame.technique.beads import BeadMove
from frame.technique.conventions import Strictness
from frame.technique.judge import Judge

sys.path.insert(0, str(Path(__file__).resolve().parents[1] / "technique"))

from random_hands import CHANGES, any_possible, random_plan

WORDS = the_words()
CLIPS = Clips(ASSETS / "voice" / "en")


@pytest.fixture(scope="module")
def lessons() -> tuple[Lesson, ...]:
    course = the_course()
    return tuple(load_one(course, entry.id) for entry in course.lessons)


@pytest.fixture(scope="module")
def lines(lessons: tuple[Lesson, ...]) -> tuple[str, ...]:
    return tuple(text for group in spoken_groups(WORDS, lessons) for text in group.texts)


def own_keys(speed: str) -> set[str]:
    return {words for words, _ in CLIPS.entries(speed)}


def test_every_line_has_a_clip_of_its_own(lines: tuple[str, ...]) -> None:
    recorded = own_keys(PLAIN)
    assert [line for line in lines if normal(line) not in recorded] == []


@pytest.mark.parametrize("speed", SPEEDS)
def test_every_number_group_has_a_clip_at_every_speed(speed: str) -> None:
    recorded = own_keys(speed)
    texts = [text for group in number_groups(WORDS) for text in group.texts]
    assert len(texts) > 1000
    assert [text for text in texts if normal(text) not in recorded] == []


def test_calls_are_recorded_at_every_speed() -> None:
    keys = [normal(WORDS.line(f"call.{key}").speak) for key in ("opening", "closing")]
    assert all(key in own_keys(speed) for key in keys for speed in SPEEDS)


def test_no_line_is_recorded_twice(lines: tuple[str, ...]) -> None:
    keys = [normal(line) for line in lines]
    assert len(keys) == len(set(keys))


def test_nothing_is_recorded_that_nothing_says(lines: tuple[str, ...]) -> None:
    numbers = {normal(text) for group in number_groups(WORDS) for text in group.texts}
    said = numbers | set(map(normal, lines))
    assert {key for speed in SPEEDS for key in own_keys(speed)} <= said


def test_a_lesson_says_what_its_file_says(
    lessons: tuple[Lesson, ...], lines: tuple[str, ...]
) -> None:
    said = set(map(normal, lines))
    written = [step.line.speak for lesson in lessons for step in lesson.steps if step.line]
    assert len(written) > 400
    assert [one for text in written for one in sentences(text) if normal(one) not in said] == []


def test_a_new_line_in_the_words_file_is_asked_for_by_itself(tmp_path: Path) -> None:
    path = tmp_path / "xx.toml"
    text = (ASSETS / "words" / "en.toml").read_text("utf-8")
    path.write_text(f'{text}\n[harbour]\ntide = "The tide turns. It stands at {{number}} ells."\n')
    groups = spoken_groups(load_words(path), ())
    found = next(group.texts for group in groups if group.name == "words-harbour")
    assert found == ("The tide turns.", "It stands at,", "ells.")


def normals(texts: Iterable[str]) -> set[str]:
    return {normal(one) for text in texts for one in sentences(text)}


def test_what_the_young_hear_is_all_recorded(
    lessons: tuple[Lesson, ...], lines: tuple[str, ...]
) -> None:
    assert heard_by_young(WORDS, lessons) < set(map(normal, lines))


def test_the_young_hear_the_first_lessons_and_none_from_the_first_for_older_ones(
    lessons: tuple[Lesson, ...],
) -> None:
    first = [lesson.id for lesson in lessons].index(FIRST_FOR_OLDER)
    early = normals(step.line.speak for one in lessons[:first] for step in one.steps if step.line)
    assert first and early <= heard_by_young(WORDS, lessons)
    assert heard_by_young(WORDS, lessons[:first]) == heard_by_young(WORDS, lessons)


def test_the_young_hear_what_is_told_to_them_at_work_and_not_what_is_told_to_others(
    lessons: tuple[Lesson, ...],
) -> None:
    young, plain = heard_by_young(WORDS, lessons), WORDS.sentences.items()
    whole = [(key, line.speak) for key, line in plain if "{" not in line.speak]
    older = normals(text for key, text in whole if key.endswith(".older"))
    others = normals(text for key, text in whole if not key.endswith(".older"))
    assert normals(text for key, text in whole if key.endswith(".young")) <= young
    assert older - others and not (older - others) & young
    assert normal(WORDS.line("settings.volume_quiet").speak) not in young


def said_at_work(seed: int) -> Iterator[str]:
    """What is said to a hand that often errs, by the functions the screens call."""
    rng = random.Random(seed)
    plan = random_plan(rng, terms=4, digits=4)
    judge = Judge.of(plan, rng.choice(list(Strictness)))
    listener = rng.choice(list(Listener))
    for _ in range(200):
        if judge.finished or not judge.progress.left_in_line:
            break
        yield from (hint_line(judge.progress, level, WORDS, listener).speak for level in Hint)
        if judge.progress.step is not None:
            yield rule_line(judge.progress.step, WORDS, listener).speak
        slip = judge.omission()
        if slip is not None:
            yield omission_line(slip, judge.progress, WORDS, listener).speak
        errs = rng.random() < 0.4
        move = BeadMove(rng.randrange(5), rng.choice(CHANGES)) if errs else any_possible(rng, judge)
        verdict = judge.judge((move,))
        if not verdict.is_right or verdict.part or verdict.slip:
            yield verdict_line(verdict, WORDS, listener).speak
        judge = judge.after(verdict)


@pytest.mark.parametrize(
    "seeds",
    [range(60), pytest.param(range(60, 1500), marks=pytest.mark.proof)],
    ids=["some", "many"],
)
def test_all_that_is_said_at_work_is_recorded_sentence_by_sentence(seeds: range) -> None:
    said = {one for seed in seeds for text in said_at_work(seed) for one in sentences(text)}
    recorded = own_keys(PLAIN)
    assert len(said) > 100
    assert sorted(one for one in said if normal(one) not in recorded) == []


@pytest.mark.parametrize("number", [0, 7, 77, 408, 999, 1000, -35, 80_304, 10**13 - 1, "50.25"])
def test_a_sentence_with_any_number_is_covered(number: int | str) -> None:
    for key in ("lesson.your_frame", "lesson.it_reads", "lesson.right_answer"):
        line = WORDS.line(key, number=Decimal(number))
        assert CLIPS.missing(line.speak) == ()
    assert CLIPS.missing(WORDS.number(Decimal(number)), QUICK) == ()

"""The tutor's own lessons in the real window: the list, playing, saving while one is played."""

from decimal import Decimal

import pygame
import pytest
from pilot import WhenTold
from sight import SHAPES, UPRIGHT, assert_well_laid_out, laid_out

from frame.app import Push
from frame.course.own import own_files, read_own
from frame.course.problems import problem_text, read_words
from frame.course.runner import Stage
from frame.learner.settings import Age, Settings
from frame.resources import PROBLEM_WORDS
from frame.screens.choosing.home import Home
from frame.screens.choosing.own_lessons import LESSONS, OwnLessons
from frame.screens.lesson.own import FileDue, OwnLessonScreen
from frame.screens.parts.fitting import middle_cut, short_name
from frame.screens.parts.own_files import own_folder, path_lines

WORDING = read_words(PROBLEM_WORDS)
LESSON = """\
lesson: quay
title: The quay
rods: 2
steps:
  - say: Lamps burn on the quay.
  - sum: 12 + 2
    say: Two lamps more.
  - sum: 21 + 5
"""
BAD = LESSON.replace("sum: 21", "smu: 21")
LONG = "lesson: quay\ntitle: The quay\nsteps:\n  - say: a: b\n"


@pytest.fixture
def folder(pilot):
    """The folder of own lessons, with one in it."""
    folder = own_folder(pilot.room, LESSONS)
    folder.mkdir()
    save(folder, LESSON)
    return folder


def save(folder, text, name="quay.yaml"):
    content = text if isinstance(text, bytes) else text.encode()
    (folder / name).write_bytes(content)
    return folder / name


def open_list(pilot):
    pilot.app.take(Push(OwnLessons(pilot.room)))
    pilot.app.draw()
    return pilot.screen


def play(pilot, title="The quay"):
    open_list(pilot)
    pilot.press(title)
    assert isinstance(pilot.screen, OwnLessonScreen)
    return pilot.screen


def work(pilot):
    """Do what the exercise asks for."""
    screen = pilot.screen
    while screen.runner.stage is Stage.WORK:
        for move in screen.runner.work.next_stroke:
            pilot.move(move)
            pilot.settle()


def first_problem(path, course):
    """The place and the sentence, as the checker of the command line words them."""
    text = problem_text(read_own(path, course).problems[0], WORDING)
    return path.name + text.removeprefix(str(path))


# The way in


def test_home_has_a_way_in_only_for_who_needs_it(pilot):
    signs = [button.sign for button in pilot.screen.buttons]
    assert "own" not in signs
    pilot.room.set(all_open=True)
    pilot.screen.rearrange()
    pilot.press("own")
    assert isinstance(pilot.screen, OwnLessons)
    pilot.press_word("own.new")
    pilot.room.set(all_open=False)
    pilot.press("back")
    assert isinstance(pilot.screen, Home)
    pilot.press("own")
    assert isinstance(pilot.screen, OwnLessons)


def test_own_lessons_lie_in_the_folder_of_the_learners_file(pilot, tmp_path):
    assert own_folder(pilot.room, LESSONS) == tmp_path / "lessons"


# The list


def test_the_list_shows_titles_and_problems(pilot, folder):
    save(folder, BAD, "wrong.yaml")
    save(folder, BAD.replace("title", "titel"), "wrong-2.yaml")
    save(folder, b"\xff\xfe", "no-text.yaml")
    open_list(pilot)
    lines = pilot.lines()
    assert [button.text for button in pilot.screen.buttons if button.text] == [
        "The quay", pilot.words.text("own.new")
    ]  # fmt: skip
    assert "quay.yaml" in lines
    for name, count in (("wrong.yaml", 1), ("wrong-2.yaml", 3), ("no-text.yaml", 1)):
        path = folder / name
        assert len(read_own(path, pilot.room.course).problems) == count
        key = "own.problem" if count == 1 else "own.problems"
        first = first_problem(path, pilot.room.course)
        assert pilot.words.text(key, count=count, first=first) in lines


def test_a_new_lesson_is_written_told_of_and_can_be_played(pilot, folder):
    for number in range(2, 7):
        save(folder, LESSON, f"quay-{number}.yaml")
    save(folder, "mine", "my-lesson.yaml")
    open_list(pilot)
    pilot.press("step_on")
    pilot.press_word("own.new")
    assert (folder / "my-lesson.yaml").read_text() == "mine"
    assert folder / "my-lesson-2.yaml" in own_files(folder)
    lines = pilot.lines()
    assert str(folder) in lines.replace(" ", "")
    assert pilot.words.text("own.written", name="my-lesson-2.yaml") in lines
    pilot.press("Lamps on the quay")
    assert pilot.screen.runner.lesson.id == "my-lesson-2"


def test_a_folder_that_cannot_be_written_is_told(pilot):
    own_folder(pilot.room, LESSONS).write_text("a file where the folder should be")
    open_list(pilot)
    pilot.press_word("own.new")
    assert pilot.screen.said.startswith("The file could not be written (")
    assert pilot.screen.said in pilot.lines()
    assert own_files(own_folder(pilot.room, LESSONS)) == ()


def test_pages_are_turned_both_ways_and_every_file_is_on_one(pilot, folder):
    for number in range(2, 11):
        save(folder, LESSON.replace("The quay", f"Quay {number}"), f"quay-{number}.yaml")
    open_list(pilot)
    seen, ends = [], (["step_back"], [], ["step_on"])
    for page in range(3):
        assert pilot.words.text("own.page", page=page + 1, all=3) in pilot.lines()
        seen += [own.title for own in pilot.screen.shown]
        assert [one.sign for one in pilot.screen.buttons if one.rests] == ends[page]
        if page < 2:
            pilot.press("step_on")
    assert seen == ["The quay", *(f"Quay {number}" for number in range(2, 11))]
    pilot.press("step_back")
    assert [own.title for own in pilot.screen.shown] == [f"Quay {number}" for number in range(5, 9)]
    pilot.press("step_on")
    assert [own.title for own in pilot.screen.shown] == ["Quay 9", "Quay 10"]
    for path in own_files(folder)[1:]:
        path.unlink()
    pilot.wait(1.3)
    assert [own.title for own in pilot.screen.shown] == ["The quay"]
    assert "step_on" not in [button.sign for button in pilot.screen.buttons]


def test_the_list_follows_the_folder(pilot, folder):
    open_list(pilot)
    assert 0 < pilot.screen.wakes_in(pilot.clock) <= 1
    pilot.wait(1.3)
    assert not pilot.screen.whole and not pilot.screen.stale
    save(folder, BAD)
    save(folder, LESSON.replace("The quay", "The pier"), "pier.yaml")
    pilot.wait(1.3)
    assert [own.title for own in pilot.screen.shown] == ["The pier", "The quay"]
    assert [own.lesson is None for own in pilot.screen.shown] == [False, True]
    save(folder, LESSON)
    pilot.wait(1.3)
    pilot.press("The quay")
    assert isinstance(pilot.screen, OwnLessonScreen)


# Files that take long


@pytest.fixture
def aside(pilot):
    """What is to be done beside the window's thread is done when it is told."""
    pilot.room.aside = WhenTold()
    return pilot.room.aside


def test_a_file_is_told_to_be_looked_at_until_its_answer_is_there(pilot, folder, aside):
    save(folder, BAD, "wrong.yaml")
    open_list(pilot)
    looking = pilot.words.text("own.looking")
    assert pilot.screen.shown == (None, None) and pilot.lines().count(looking) == 2
    assert "quay.yaml" in pilot.lines() and "wrong.yaml" in pilot.lines()
    assert "The quay" not in [button.text for button in pilot.screen.buttons]
    pilot.wait(0.1)
    assert not pilot.screen.whole, "no answer, nothing painted"
    assert 0 < pilot.screen.wakes_in(pilot.clock) <= 0.05
    aside.go_on()
    pilot.wait(0.1)
    assert pilot.lines().count(looking) == 1 and pilot.screen.shown[1] is None
    aside.go_on()
    pilot.wait(0.1)
    assert looking not in pilot.lines()
    assert first_problem(folder / "wrong.yaml", pilot.room.course) in pilot.lines()
    pilot.press("The quay")
    assert isinstance(pilot.screen, OwnLessonScreen)


def test_only_what_is_new_or_has_changed_is_looked_at_again(pilot, folder, aside):
    for number in range(2, 4):
        save(folder, LESSON, f"quay-{number}.yaml")
    open_list(pilot)
    pilot.wait(1.3)
    assert len(aside.waiting) == 3, "what is being looked at is not asked for again"
    for _ in range(3):
        aside.go_on()
    pilot.wait(1.3)
    assert aside.waiting == []
    save(folder, BAD, "quay-2.yaml")
    save(folder, LESSON, "quay-4.yaml")
    pilot.wait(1.3)
    assert len(aside.waiting) == 2
    assert [own is None for own in pilot.screen.shown] == [False, True, False, True]
    for _ in range(2):
        aside.go_on()
    pilot.wait(0.1)
    assert [own.lesson is None for own in pilot.screen.shown] == [False, True, False, False]


def test_a_file_that_changes_while_it_is_looked_at_is_looked_at_again(pilot, folder, aside):
    open_list(pilot)
    aside.go_on()
    save(folder, BAD)
    pilot.wait(1.3)
    assert pilot.screen.shown == (None,)
    aside.go_on()
    pilot.wait(0.1)
    assert [own.lesson is None for own in pilot.screen.shown] == [True]


def test_the_list_can_be_left_while_a_file_is_looked_at(pilot, folder, aside):
    save(folder, LESSON, "quay-2.yaml")
    open_list(pilot)
    pilot.press("back")
    assert isinstance(pilot.screen, Home)
    assert all(future.cancelled() for future, _ in aside.waiting)
    for _ in range(2):
        aside.go_on()


def test_the_lesson_goes_on_while_a_save_is_looked_at(pilot, folder):
    screen = play(pilot)
    pilot.room.aside = aside = WhenTold()
    pilot.press_word("lesson.go_on")
    save(folder, LESSON.replace("21 + 5", "30 + 5"))
    pilot.wait(1.3)
    assert len(aside.waiting) == 1 and 0 < screen.wakes_in(pilot.clock) <= 0.05
    work(pilot)
    pilot.wait(3)
    assert pilot.screen is screen and screen.runner.position.step == 2
    assert len(aside.waiting) == 1, "it is asked for once"
    aside.go_on()
    pilot.wait(0.1)
    assert pilot.screen is not screen and pilot.screen.runner.position.step == 2
    assert pilot.screen.runner.work.exercise.sum.result == 35


@pytest.mark.parametrize("later", [LESSON.replace("21 + 5", "30 + 5"), BAD])
def test_a_save_that_comes_while_one_is_looked_at_comes_to_rest_first(pilot, folder, later):
    screen = play(pilot)
    pilot.room.aside = aside = WhenTold()
    save(folder, LESSON.partition("  - sum")[0])
    pilot.wait(1.3)
    save(folder, later)
    aside.go_on()
    pilot.wait(0.1)
    assert pilot.screen is screen and not screen.problem and aside.waiting == []
    pilot.wait(0.5)
    assert len(aside.waiting) == 1
    aside.go_on()
    pilot.wait(0.1)
    assert (pilot.screen is screen) is (later == BAD)
    assert bool(pilot.screen.problem) is (later == BAD)


# Playing


def test_a_lesson_is_played_to_its_end_and_only_attempts_are_kept(pilot, folder):
    screen = play(pilot)
    assert "Lamps burn on the quay." in pilot.lines()
    pilot.press_word("lesson.go_on")
    for _ in range(2):
        work(pilot)
        pilot.wait(3)
    assert screen.runner.stage is Stage.END
    assert pilot.words.text("lesson.passed") in pilot.lines()
    room = pilot.room
    assert [one[0] for one in room.store.attempts(room.learner)] == ["quay", "quay"]
    assert room.store.lessons(room.learner) == room.lessons == {}
    pilot.press_word("lesson.again")
    assert isinstance(pilot.screen, OwnLessonScreen) and pilot.screen is not screen
    assert pilot.screen.runner.stage is Stage.TELL
    pilot.press("back")
    assert isinstance(pilot.screen, OwnLessons)


def test_a_sound_save_is_taken_up_at_the_same_step(pilot, folder):
    before = play(pilot)
    pilot.press_word("lesson.go_on")
    save(folder, LESSON.replace("12 + 2", "31 + 8").replace("Two lamps more.", "Eight more."))
    assert 0 < pilot.screen.wakes_in(pilot.clock) <= 1
    pilot.wait(1.3)
    screen = pilot.screen
    assert screen is not before and isinstance(screen, OwnLessonScreen)
    assert screen.runner.position.step == 1
    assert screen.runner.work.exercise.sum.terms == (Decimal(31), Decimal(8))
    assert "Eight more." in pilot.lines()
    work(pilot)
    pilot.wait(3)
    assert screen.runner.position.step == 2
    assert len(pilot.app.screens) == 4, "who, home, the list, the lesson"


def test_a_step_that_is_no_more_begins_the_lesson_anew(pilot, folder):
    play(pilot)
    pilot.press_word("lesson.go_on")
    save(folder, LESSON.partition("  - sum")[0])
    pilot.wait(1.3)
    assert pilot.screen.runner.position.step == 0
    assert pilot.screen.runner.total == 1


def test_while_there_are_problems_the_last_good_text_goes_on(pilot, folder):
    screen = play(pilot)
    pilot.press_word("lesson.go_on")
    path = save(folder, BAD)
    pilot.wait(1.3)
    assert pilot.screen is screen
    assert first_problem(path, pilot.room.course) in pilot.lines()
    assert pilot.words.text("lesson.step_count", done=2, all=3) not in pilot.lines()
    work(pilot)
    pilot.wait(3)
    assert screen.runner.position.step == 2 and screen.runner.work.exercise.sum.result == 26
    assert len(pilot.room.store.attempts(pilot.room.learner)) == 1
    save(folder, LESSON.replace("21 + 5", "30 + 5"))
    pilot.wait(1.3)
    assert pilot.screen.problem == ""
    assert pilot.screen.runner.position.step == 2
    assert pilot.screen.runner.work.exercise.sum.result == 35


def test_the_same_text_again_takes_the_strip_away_and_disturbs_nothing(pilot, folder):
    screen = play(pilot)
    pilot.press_word("lesson.go_on")
    pilot.move(screen.runner.work.next_stroke[0])
    pilot.settle()
    before, frame = pilot.pixels(), screen.runner.frame
    save(folder, BAD)
    pilot.wait(1.3)
    assert screen.problem and pilot.pixels() != before
    save(folder, LESSON)
    pilot.wait(1.3)
    assert pilot.screen is screen and screen.problem == ""
    assert screen.runner.frame == frame
    assert pilot.pixels() == before


def test_only_the_strip_is_painted_anew(pilot, folder):
    screen = play(pilot)
    pilot.wait(0.5)
    above = pygame.Rect(0, 0, screen.size[0], screen.strip.top)
    before = pilot.pixels(above)
    for text in (BAD, LONG, LESSON):
        save(folder, text)
        for seconds in (1.1, 0.25):
            pilot.clock += seconds
            screen.advance(pilot.clock)
        assert not screen.whole and screen.stale == [screen.strip]
        pilot.app.draw()
        assert pilot.pixels(above) == before
        assert pilot.pixels(screen.strip) == strip_painted_whole(pilot)
        pilot.clock += 1.1
        screen.advance(pilot.clock)
        assert not screen.whole and screen.stale == [], "nothing new, nothing painted"


def strip_painted_whole(pilot):
    pilot.repaint()
    return pilot.pixels(pilot.screen.strip)


@pytest.mark.parametrize("content", [None, b"", b"title: \xe9\n", b"\xff\xfea\0", b"\0\0\0\0",
                                     LESSON[:30].encode(), b"- " * 999])  # fmt: skip
def test_a_file_that_is_gone_or_no_lesson_is_told_and_comes_back(pilot, folder, content):
    screen = play(pilot)
    path = folder / "quay.yaml"
    if content is None:
        path.unlink()
    else:
        path.write_bytes(content)
    pilot.wait(1.3)
    assert pilot.screen is screen
    assert screen.problem == first_problem(path, pilot.room.course)
    assert screen.problem.startswith("quay.yaml:")
    pilot.press_word("lesson.go_on")
    assert screen.runner.stage is Stage.WORK
    save(folder, LESSON.replace("The quay", "The pier"))
    pilot.wait(1.3)
    assert pilot.screen.runner.lesson.title == "The pier"


def test_a_save_is_taken_only_when_the_file_has_come_to_rest(pilot, folder):
    screen = play(pilot)
    pilot.press_word("lesson.go_on")
    half = LESSON.partition("  - sum: 21")[0]
    save(folder, half[:-3])
    for text in (half, BAD, LESSON):
        pilot.wait(screen.dues.at(FileDue.LOOK) - pilot.clock + 0.001, turns=1)
        assert screen.wakes_in(pilot.clock) < 0.3
        assert pilot.screen is screen and not screen.problem
        save(folder, text)
    pilot.wait(3)
    assert pilot.screen is screen and not screen.problem, "in the end it is as it was"
    save(folder, half)
    pilot.wait(1.3)
    assert pilot.screen.runner.total == 2


def test_a_file_in_use_or_turned_into_a_folder_is_told(pilot, folder):
    screen = play(pilot)
    path = folder / "quay.yaml"
    path.unlink()
    path.mkdir()
    pilot.wait(1.3)
    assert "found a folder" in screen.problem
    pilot.press("back")
    assert isinstance(pilot.screen, OwnLessons) and pilot.screen.shown == ()


def test_a_save_amid_a_drag_takes_no_harm(pilot, folder):
    screen = play(pilot)
    pilot.press_word("lesson.go_on")
    at = tuple(map(round, pilot.bead_at(1, 1)))
    pilot.post(pygame.MOUSEBUTTONDOWN, pos=at, button=1, touch=False)
    save(folder, LESSON.replace("12 + 2", "13 + 1"))
    pilot.wait(1.3)
    assert pilot.screen is not screen
    up = at[0], at[1] - 40
    pilot.post(pygame.MOUSEMOTION, pos=up, rel=(0, -40), buttons=(1, 0, 0), touch=False)
    pilot.post(pygame.MOUSEBUTTONUP, pos=up, button=1, touch=False)
    work(pilot)
    assert pilot.screen.runner.attempts[0].unaided


def test_a_screen_on_top_is_not_taken_away_by_a_save(pilot, folder):
    covered = LESSON.replace("  - sum: 12 + 2\n", "  - sum: 12 + 2\n    rung: number\n")
    save(folder, covered)
    lesson = play(pilot)
    pilot.press_word("lesson.go_on")
    pilot.wait(1)
    for key in (pygame.K_9, pygame.K_RETURN):
        pilot.key(key)
    for _ in range(40):
        if pilot.screen is not lesson:
            break
        pilot.wait(0.2, 2)
    above = pilot.screen
    assert above is not lesson
    save(folder, covered.replace("The quay", "The pier"))
    pilot.wait(2)
    assert pilot.screen is above
    pilot.key(pygame.K_ESCAPE)
    pilot.wait(1.3)
    assert pilot.screen.runner.lesson.title == "The pier"


# How it is laid out

NAMES = ["quay.yaml", "W" * 90 + ".yaml", "a b " * 30 + ".yaml", "quay\udcff.yaml"]
FILES = [LESSON.replace("The quay", "W" * 24), BAD, LONG, LONG.replace("a: b", "a:\tb: {"),
         LESSON.replace("sum: 21", "W" * 60 + ": 21"), LESSON.replace("title: The quay\n", ""),
         LESSON.replace("lesson: quay", "lesson: beads-1")]  # fmt: skip


@pytest.fixture
def own_room(room):
    folder = own_folder(room, LESSONS)
    folder.mkdir(exist_ok=True)
    yield room
    for path in folder.iterdir():
        path.unlink()


@pytest.mark.parametrize("age", Age)
def test_the_list_is_well_laid_out(own_room, age):
    own_room.settings = Settings(age=age, all_open=True)
    folder = own_folder(own_room, LESSONS)
    empty = OwnLessons(own_room)
    assert empty.shown == ()
    for number, text in enumerate(FILES):
        save(folder, text, NAMES[number] if number < len(NAMES) else f"{number}-quay.yaml")
    assert len(own_files(folder)) == len(FILES)
    screens = [("empty", empty), ("home", Home(own_room))]
    for page in range(2):
        screen = laid_out(OwnLessons(own_room))
        screen.turn(page)
        screen.said = own_room.words.text("own.written", name=short_name("W" * 90))
        screens.append((f"page {page}", screen))
    assert_well_laid_out(screens, [*SHAPES, UPRIGHT])


def test_long_paths_are_broken_behind_a_folder_and_cut_in_their_middle(own_room, tmp_path):
    class Far(OwnLessons):
        folder = property(lambda self: tmp_path.joinpath(*depth, "lessons"))

    depth = ()
    for depth in (["harbour"] * 14, ["W" * 120] * 3, ["a market of crates and lamps"] * 40):
        assert_well_laid_out([(str(depth[:1]), Far(own_room))], [*SHAPES, UPRIGHT])

    def fits(line):
        return len(line) <= 20

    assert path_lines("/quay/of/the/harbour/lessons", fits, 2) == [
        "/quay/of/the/",
        "harbour/lessons",
    ]
    assert path_lines("/quay", fits, 2) == ["/quay"]
    cut = path_lines("/first" + "/harbour" * 20 + "/lessons", fits, 2)
    assert len(cut) == 2 and cut[0].startswith("/first/") and cut[1].endswith("/lessons")
    assert "…" in "".join(cut)


def test_both_ends_of_a_long_name_stay():
    assert middle_cut("quay.yaml", 9) == "quay.yaml"
    assert middle_cut("quay-lamps.yaml", 9) == "quay…yaml"
    assert len(middle_cut("x" * 300, 36)) == 36


@pytest.mark.parametrize("age", Age)
def test_a_lesson_with_a_strip_is_well_laid_out(own_room, age):
    own_room.settings = Settings(age=age)
    folder = own_folder(own_room, LESSONS)
    wide = LESSON.replace("12 + 2", "12 x 34").replace("rods: 2", "rods: 9")
    screens = []
    for kind, text in (("beside", LESSON), ("wide", wide)):
        for step in (0, 1):
            path = save(folder, text, "W" * 90 + ".yaml")
            screen = OwnLessonScreen(own_room, read_own(path, own_room.course))
            for _ in range(step):
                screen.runner.go_on()
            save(folder, LONG, path.name)
            for _ in range(2):
                screen.advance(screen.dues.at(FileDue.LOOK))
            assert screen.problem
            screens.append((f"{kind} {step}", screen))
    assert_well_laid_out(screens, SHAPES)


def test_the_template_is_played_as_it_is_written(pilot):
    open_list(pilot)
    pilot.press_word("own.new")
    screen = play(pilot, "Lamps on the quay")
    assert screen.runner.total == len(screen.runner.lesson.steps) + 3

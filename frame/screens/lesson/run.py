"""The rounds of a published run under way, and at their end the published mark beside them."""

from functools import partial

from frame.app import Change, Replace
from frame.course.attempts import Origin
from frame.course.lesson import Lesson, Mark, Practise
from frame.course.runner import Runner
from frame.language.lines import Line
from frame.room import Room
from frame.screens.lesson.keeping import Keeping
from frame.screens.lesson.practice import TITLES
from frame.screens.lesson.results import ResultsScreen
from frame.screens.lesson.screen import LessonScreen
from frame.sheets.rounds import Rounds, Score


class RunScreen(LessonScreen):
    """Worked and kept as a set that is practised."""

    def __init__(self, room: Room, rounds: Rounds) -> None:
        super().__init__(room, _keeping(room, rounds))
        self.rounds = rounds

    def results(self) -> ResultsScreen:
        """How they went, with what is published beside it."""
        results = self.runner.results
        counting = [work for work in results if work.counts]
        score = Score(self.rounds, sum(work.right for work in counting), len(counting))
        return ResultsScreen(self.room, results, score_line(self.room, score))

    def once_more(self) -> Change:
        """The same run with other numbers."""
        return Replace(RunScreen(self.room, self.rounds))


def score_line(room: Room, score: Score) -> Line | None:
    """What is published, and whether it was so; nothing where nothing is published."""
    run, line = score.rounds.run, room.words.line
    if not run.right:
        return None
    if not score.rounds.is_as_published:
        return line("published.slower")
    mark = line("published.mark", right=run.right, tries=run.tries)
    if score.is_enough is False:
        return mark
    key = "published.reached" if score.is_enough else "published.untold"
    return line("published.beside", mark=mark, told=line(key))


def _keeping(room: Room, rounds: Rounds) -> Keeping:
    request, settings = rounds.request, room.settings
    step = Practise(request, 0, None, Mark(1, 1))
    title = room.words.text("published.title", numbers=room.words.text(TITLES[request.asked]))
    runner = Runner(
        Lesson(f"practise-{request.asked}", title, None, request.rods, (), (step,)),
        request.known, room.random.randrange(2**31), settings.conventions, settings.strictness,
    )  # fmt: skip
    return Keeping(room, runner, partial(_keeping, room, rounds), origin=Origin.SET)

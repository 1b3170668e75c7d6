"""The window, with an agenda on the board or as usual; or what keeps it from opening."""

import sys
from pathlib import Path

from frame.commands.output import tell_unusable
from frame.language.catalogue import Words
from frame.resources import PROBLEM_WORDS

OK, PROBLEMS, SIGNALLED = 0, 1, 128
"""Exit statuses; to the last the number of a signal is added, as shells do."""


def show_window(words: Words, agenda: Path | None = None) -> int:
    """The window until it is closed, on the board where a file with its items is given; 0, 128
    and the number of the signal that closed it, or 1 where they or the window cannot be had:
    standard error then says why, and nothing opens."""
    # What follows takes a while to import, and no other command needs it.
    from frame.app import NoScreen
    from frame.course.problems import LessonError, problem_text, read_words
    from frame.learner.store import StoreError
    from frame.screens.start import NoFolder, run

    try:
        signal = run(words, agenda)
    except NoScreen:
        print(words.text("cli.no_screen"), file=sys.stderr)
        return PROBLEMS
    except NoFolder:
        print(words.text("cli.no_folder"), file=sys.stderr)
        return PROBLEMS
    except StoreError as error:
        tell_unusable(error, words)
        return PROBLEMS
    except LessonError as error:
        problem_words = read_words(PROBLEM_WORDS)
        for problem in error.problems:
            print(problem_text(problem, problem_words), file=sys.stderr)
        return PROBLEMS
    return SIGNALLED + signal if signal else OK

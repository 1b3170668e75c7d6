"""The command line: the window without arguments, the commands with some."""

import contextlib
import os
import signal
import sys
import warnings
from collections.abc import Sequence
from functools import cache
from typing import NoReturn, TextIO

from frame.commands.window import show_window
from frame.language.catalogue import Words, WordsError, load_words
from frame.language.escaping import escaped
from frame.resources import ASSETS

PROBLEMS, INTERRUPTED = 1, 130

# pygame warns of how it imports itself, which is not for the user.
warnings.filterwarnings("ignore", "pkg_resources is deprecated", UserWarning)


def program() -> NoReturn:
    """The process: what `main` answers is its exit status. Whoever interrupts it once more while
    it ends, or no longer listens, is not told of that."""
    status = main()
    signal.signal(signal.SIGINT, signal.SIG_IGN)
    for stream in filter(None, (sys.stdout, sys.stderr)):
        try:
            stream.flush()
        except OSError:
            _let_go(stream)
    sys.exit(status)


def main(argv: Sequence[str] | None = None) -> int:
    """Does what the arguments ask; the exit status: 0 done, 1 problems found, 2 wrong use."""
    arguments = list(sys.argv[1:] if argv is None else argv)
    try:
        words = english()
    except WordsError as error:
        print(f"bead-frame: {escaped(str(error))}", file=sys.stderr)
        return PROBLEMS
    try:
        return _command(arguments, words) if arguments else show_window(words)
    except KeyboardInterrupt:
        return INTERRUPTED
    except OSError as error:
        return _stopped(error)


@cache
def english() -> Words:
    """The words of the one language there is. Raises WordsError."""
    return load_words(ASSETS / "words" / "en.toml")


def _command(arguments: list[str], words: Words) -> int:
    # The window opens sooner when the commands are not loaded for it.
    from frame.commands.output import prepare_output
    from frame.commands.running import answer

    prepare_output("--json" in arguments or "-" in arguments)
    return answer(arguments, words)


def _stopped(error: OSError) -> int:
    """Input or output failed: its reader is gone, the disk is full. Nothing more goes out."""
    if not isinstance(error, BrokenPipeError):
        with contextlib.suppress(OSError):  # It may be standard error that failed.
            print(f"bead-frame: {error.strerror or error}", file=sys.stderr)
    if sys.stdout:
        _let_go(sys.stdout)
    return PROBLEMS


def _let_go(stream: TextIO) -> None:
    """What the stream still holds goes nowhere, or Python would complain of it at the very end."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


if __name__ == "__main__":
    program()

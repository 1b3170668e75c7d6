"""`code`: the way back for a grown-up who has forgotten the code."""

from contextlib import closing
from pathlib import Path

from frame.commands.output import tell_unusable
from frame.language.catalogue import Words
from frame.learner.store import Store, StoreError

_PATIENCE = 5.0
"""Seconds; nobody looks at a window meanwhile."""


def forget_code(path: Path, words: Words) -> int:
    """The code in the file at `path` is forgotten; what was done goes to standard output. 0, or 1
    for a file that can't be used."""
    try:
        had_one = _forget(path)
    except StoreError as error:
        tell_unusable(error, words)
        return 1
    print(words.text("cli.code.forgotten" if had_one else "cli.code.none"))
    return 0


def _forget(path: Path) -> bool:
    """Whether there was a code to forget. Raises StoreError."""
    try:
        if not path.exists():
            return False
    except OSError as error:  # It lies where nobody may look.
        raise StoreError(path, error.strerror or "") from error
    with closing(Store(path, _PATIENCE)) as store:
        had_one = store.has_code()
        store.forget_code()
        return had_one

"""`code`: the way back for a grown-up who has forgotten the code."""

from pathlib import Path

from frame.commands.opening import opened_store
from frame.commands.output import tell_unusable
from frame.language.catalogue import Words
from frame.learner.store import StoreError


def forget_code(path: Path, words: Words) -> int:
    """The code in the file at `path` is forgotten; what was done goes to standard output. 0, or 1
    for a file that can't be used."""
    try:
        had_one = _forget(path, words)
    except StoreError as error:
        tell_unusable(error, words)
        return 1
    print(words.text("cli.code.forgotten" if had_one else "cli.code.none"))
    return 0


def _forget(path: Path, words: Words) -> bool:
    """Whether there was a code to forget. Raises StoreError."""
    try:
        if not path.exists():
            return False
    except OSError as error:  # It lies where nobody may look.
        raise StoreError(path, error.strerror or "") from error
    with opened_store(path, words) as store:
        had_one = store.has_code()
        store.forget_code()
        return had_one

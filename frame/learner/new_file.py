"""A file that is written for somebody to take elsewhere, and is there only when it is whole."""

import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from frame.learner.copies import make_private_file
from frame.learner.trouble import StoreError, Trouble, told_of


def free_name(path: Path) -> Path:
    """This path, or one with a number behind its name, that nothing has yet."""
    free, number = path, 1
    while os.path.lexists(free):
        number += 1
        free = path.with_name(f"{path.stem}-{number}{path.suffix}")
    return free


@contextmanager
def new_file(path: Path) -> Iterator[Path]:
    """A file to write, for this user's eyes alone, that is found at the path once it is whole.
    Raises StoreError, which tells of which file; one that is there already is left as it is."""
    if os.path.lexists(path):
        found = "a folder" if os.path.isdir(path) else "a file that is there already"
        raise StoreError(path, found, Trouble.TAKEN)
    fresh = path.with_name(f"{path.name}.part-{os.getpid()}")
    try:
        with told_of(path):
            fresh.unlink(missing_ok=True)
            make_private_file(fresh)
            yield fresh
            fresh.rename(path)
    except StoreError as error:
        if error.trouble is not Trouble.FULL:
            raise
        raise StoreError(path, error.found, error.trouble) from error  # It was only read there.
    finally:
        with suppress(OSError):
            fresh.unlink(missing_ok=True)

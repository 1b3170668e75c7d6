"""A file that is written for somebody to take elsewhere, and is there only when it is whole."""

import os
import unicodedata
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from frame.learner.copies import make_private_file, remove_half_done
from frame.learner.trouble import StoreError, Trouble, told_of


def plain_name(text: str) -> str:
    """A text as every system can have it in the name of a file: its letters and digits, with - for
    all else."""
    return "".join(one if unicodedata.category(one)[0] in "LMN" else "-" for one in text)


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
    Raises StoreError, which tells of which file; one that is there already, or comes meanwhile, is
    left as it is."""
    if os.path.lexists(path):
        raise _taken(path)
    fresh = path.with_name(f"{path.name}.part-{os.getpid()}")
    try:
        with told_of(path):
            fresh.unlink(missing_ok=True)
            make_private_file(fresh)
            yield fresh
            _put(fresh, path)
    except StoreError as error:
        if error.trouble is not Trouble.FULL:
            raise
        raise StoreError(path, error.found, error.trouble) from error  # It was only read there.
    finally:
        remove_half_done(fresh)


def _taken(path: Path) -> StoreError:
    found = "a folder" if os.path.isdir(path) else "a file that is there already"
    return StoreError(path, found, Trouble.TAKEN)


def _put(fresh: Path, path: Path) -> None:
    """Give a whole file its name, unless another program took that meanwhile. Raises StoreError or
    OSError."""
    try:
        os.link(fresh, path)
    except FileExistsError as error:
        raise _taken(path) from error
    except OSError:  # Not every file system has links.
        _put_without_link(fresh, path)


def _put_without_link(fresh: Path, path: Path) -> None:
    """The same, by way of an empty file that takes the name."""
    try:
        path.touch(exist_ok=False)
    except FileExistsError as error:
        raise _taken(path) from error
    try:
        fresh.replace(path)
    except OSError:
        path.unlink()
        raise

"""The learners' file, opened by a command, and what is said where it, or one beside it, can't be
used."""

import sys
from collections.abc import Iterator
from contextlib import closing, contextmanager
from pathlib import Path

from frame.commands.output import Json, Refusal, refusal_near, tell_unusable, write_json
from frame.language.catalogue import Words
from frame.language.escaping import escaped
from frame.learner.copies import Copies
from frame.learner.new_file import free_name
from frame.learner.salvage import Saved
from frame.learner.store import Store, StoreError
from frame.learner.trouble import Trouble
from frame.screens.parts.trouble import saved_text

_PATIENCE = 5.0
"""Seconds that a file is waited for which a window holds; nobody looks at a window meanwhile."""


@contextmanager
def opened_store(path: Path, words: Words) -> Iterator[Store]:
    """The file at `path`; what could be saved of one that is damaged or gone goes to standard error
    at once, for it is told only once. Raises StoreError."""
    with closing(Store(path, _PATIENCE)) as store:
        if store.saved is not None:
            print(escaped(saved_text(store.saved, words)), file=sys.stderr)
        yield store


@contextmanager
def store_that_is_there(path: Path, words: Words) -> Iterator[Store]:
    """The same; raises Refusal where nothing was ever kept."""
    try:
        is_there = path.exists() or Copies(path).is_needed
    except OSError as error:  # It lies where nobody may look.
        raise StoreError(path, error.strerror or "") from error
    if not is_there:
        found = words.text("cli.copies.no_learners")
        raise Refusal(str(path), found, words.text("cli.copies.readable"))
    with opened_store(path, words) as store:
        yield store


def saved_shape(saved: Saved | None) -> Json:
    """What was saved of the learners' file, where it was found damaged or gone."""
    if saved is None:
        return {}
    kept = str(saved.aside) if saved.aside else None
    return {"saved": {"learners": saved.learners, "attempts": saved.attempts, "kept": kept}}


def unusable(error: StoreError, is_json: bool, words: Words) -> int:
    """It is told that the learners' file can't be used; the exit status."""
    if is_json:
        write_json(refusal_of(error, "cli.copies.usable", words).shape)
    else:
        tell_unusable(error, words)
    return 1


def tell_lacking(file: Path, lacking: str, words: Words) -> None:
    """Which letters of a file that was printed no font here has, to standard error."""
    if lacking:
        text = words.text("cli.lacking", file=escaped(file.name), letters=escaped(lacking))
        print(text, file=sys.stderr)


def not_written(error: StoreError, file: Path, usual: str, words: Words) -> Refusal:
    """Why nothing can be written to a file, with a name that is free where it is taken; in a folder
    it is the `usual` one."""
    if error.trouble is not Trouble.TAKEN:
        return refusal_of(error, "cli.copies.writable", words)
    free = free_name(file / usual if file.is_dir() else file)
    return refusal_near(str(file), error.found, words.text("cli.copies.taken"), [str(free)], words)


def refusal_of(error: StoreError, expected: str, words: Words) -> Refusal:
    """What is wrong with a file; `expected` is the key of what it should be."""
    found = error.found
    if error.trouble is Trouble.NEWER:
        found = words.text("cli.copies.version", version=found)
    elif error.trouble is Trouble.FULL:
        found = words.text("cli.full")
    return Refusal(str(error.where), found, words.text(expected))

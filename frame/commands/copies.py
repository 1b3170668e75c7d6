"""`merge`, `restore` and `backup`: the learners' file, taken in from elsewhere and copied."""

from datetime import UTC, datetime
from pathlib import Path

from frame.commands.opening import (
    not_written,
    opened_store,
    refusal_of,
    saved_shape,
    store_that_is_there,
    unusable,
)
from frame.commands.output import Json, Refusal, need_file, write_json
from frame.commands.whom import learner_called
from frame.language.catalogue import Words
from frame.learner.backups import back_up
from frame.learner.merging import Merged, merge
from frame.learner.nickname import search_key
from frame.learner.store import Store, StoreError
from frame.learner.trouble import Trouble
from frame.screens.parts.merged import merged_line

_OK, _IN_PART = 0, 1
_SUFFIX, _ALL = ".sqlite", "all.sqlite"
"""How files of learners end, and what one of everybody may be called."""
_TO_READ = {
    Trouble.FOREIGN: "cli.copies.a_file",
    Trouble.HELD: "cli.copies.held",
    Trouble.NEWER: "cli.copies.newer",
}


def take_in(store_path: Path, file: Path, is_json: bool, words: Words, *, bring_back: bool) -> int:
    """The file at `file` is taken into the one at `store_path`, and who was deleted brought back
    where that is asked for; what it brought goes to standard output. 0, or 1 where the latter can't
    be used, or only a part of the former could be read. Raises Refusal where it can't be at all."""
    need_file(file, words.text("cli.copies.a_file"), _SUFFIX, words)
    try:
        with opened_store(store_path, words) as store:
            merged = merge(store, file, datetime.now(UTC), bring_back=bring_back)
    except StoreError as error:
        if error.where != file:
            return unusable(error, is_json, words)
        raise _not_taken(error, words) from error
    if is_json:
        write_json({**_shape(file, merged), **saved_shape(store.saved)})
    else:
        print(merged_line(merged, words).show)
    return _OK if merged.is_whole else _IN_PART


def _not_taken(error: StoreError, words: Words) -> Refusal:
    """Why a file can't be taken in."""
    if error.trouble is Trouble.DAMAGED:
        found, whole = words.text("cli.copies.damaged"), words.text("cli.copies.whole")
        return Refusal(str(error.where), found, whole)
    return refusal_of(error, _TO_READ.get(error.trouble, "cli.copies.readable"), words)


def _shape(file: Path, merged: Merged) -> Json:
    return {
        "file": str(file), "learners": merged.learners, "attempts": merged.attempts,
        "removed": merged.removed, "back": len(merged.back),
        "left_out": len(merged.left_out), "changed": merged.is_new, "whole": merged.is_whole,
    }  # fmt: skip


def write_backup(
    store_path: Path, file: Path, name: str | None, begins: str, is_json: bool, words: Words
) -> int:
    """All that is kept in the file at `store_path` goes to the new one at `file`, or what is kept
    of the learner of this name, whose id `begins` so; how much that is goes to standard output. 0,
    or 1 where the file can't be used. Raises Refusal for another place, or no such learner."""
    try:
        with store_that_is_there(store_path, words) as store:
            if name is None and not begins:
                _need_more_than_name(store, file, words)
                learner = None
            else:
                learner = learner_called(store, name, begins, words)
            done = back_up(store, file, learner)
    except StoreError as error:
        if error.where != file:
            return unusable(error, is_json, words)
        raise not_written(error, file, _ALL, words) from error
    if is_json:
        write_json({"file": str(file), **done._asdict(), **saved_shape(store.saved)})
    else:
        print(words.text("merged.backed_up", **done._asdict()))
    return _OK


def _need_more_than_name(store: Store, file: Path, words: Words) -> None:
    """Raises Refusal where the file is called as a learner is: it was most likely left out, and a
    backup of everybody is not what was meant."""
    if search_key(str(file)) in {search_key(one.nickname) for one in store.learners()}:
        found = words.text("cli.copies.only_name")
        raise Refusal(str(file), found, words.text("cli.copies.name_and_file"))

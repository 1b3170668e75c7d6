"""`merge`, `restore` and `backup`: the learners' file, taken in from elsewhere and copied."""

from collections.abc import Sequence
from datetime import UTC, datetime
from pathlib import Path

from frame.commands.opening import opened_store
from frame.commands.output import Json, Refusal, need_file, perhaps, tell_unusable, write_json
from frame.language.catalogue import Words
from frame.learner.backups import back_up, free_name
from frame.learner.copies import Copies
from frame.learner.learners import Learner
from frame.learner.merging import Merged, merge
from frame.learner.nickname import called, search_key
from frame.learner.salvage import Saved
from frame.learner.store import Store, StoreError
from frame.learner.trouble import Trouble
from frame.screens.parts.merged import merged_line

_OK, _PROBLEMS = 0, 1
_LEAST_OF_ID = 4
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
    be used. Raises Refusal where the former can't."""
    need_file(file, words.text("cli.copies.a_file"), _SUFFIX, words)
    try:
        with opened_store(store_path, words) as store:
            merged = merge(store, file, datetime.now(UTC), bring_back=bring_back)
    except StoreError as error:
        if error.where != file:
            return _unusable(error, is_json, words)
        raise _not_taken(error, words) from error
    if is_json:
        write_json({**_shape(file, merged), **_saved_shape(store.saved)})
    else:
        print(merged_line(merged, words).show)
    return _OK


def _saved_shape(saved: Saved | None) -> Json:
    """What was saved of the learners' file, where it was found damaged or gone."""
    if saved is None:
        return {}
    kept = str(saved.aside) if saved.aside else None
    return {"saved": {"learners": saved.learners, "attempts": saved.attempts, "kept": kept}}


def _not_taken(error: StoreError, words: Words) -> Refusal:
    """Why a file can't be taken in."""
    if error.trouble is Trouble.DAMAGED:
        found, whole = words.text("cli.copies.damaged"), words.text("cli.copies.whole")
        return Refusal(str(error.where), found, whole)
    return _refusal(error, _TO_READ.get(error.trouble, "cli.copies.readable"), words)


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
        is_there = store_path.exists() or Copies(store_path).is_needed
    except OSError as error:  # It lies where nobody may look.
        return _unusable(StoreError(store_path, error.strerror or ""), is_json, words)
    if not is_there:
        found = words.text("cli.copies.no_learners")
        raise Refusal(str(store_path), found, words.text("cli.copies.readable"))
    try:
        with opened_store(store_path, words) as store:
            if name is None and not begins:
                _need_more_than_name(store, file, words)
                learner = None
            else:
                learner = _learner(store, name, begins, words)
            done = back_up(store, file, learner)
    except StoreError as error:
        if error.where != file:
            return _unusable(error, is_json, words)
        raise _not_written(error, file, words) from error
    if is_json:
        write_json({"file": str(file), **done._asdict(), **_saved_shape(store.saved)})
    else:
        print(words.text("merged.backed_up", **done._asdict()))
    return _OK


def _not_written(error: StoreError, file: Path, words: Words) -> Refusal:
    """Why a backup can't be written to a file, with a name that is free where it is taken."""
    if error.trouble is not Trouble.TAKEN:
        return _refusal(error, "cli.copies.writable", words)
    free = free_name(file / _ALL if file.is_dir() else file)
    expected = perhaps(words.text("cli.copies.taken"), [str(free)], words)
    return Refusal(str(file), error.found, expected)


def _unusable(error: StoreError, is_json: bool, words: Words) -> int:
    if is_json:
        write_json(_refusal(error, "cli.copies.usable", words).shape)
    else:
        tell_unusable(error, words)
    return _PROBLEMS


def _refusal(error: StoreError, expected: str, words: Words) -> Refusal:
    found = error.found
    if error.trouble is Trouble.NEWER:
        found = words.text("cli.copies.version", version=found)
    return Refusal(str(error.where), found, words.text(expected))


def _need_more_than_name(store: Store, file: Path, words: Words) -> None:
    """Raises Refusal where the file is called as a learner is: it was most likely left out, and a
    backup of everybody is not what was meant."""
    if search_key(str(file)) in {search_key(one.nickname) for one in store.learners()}:
        found = words.text("cli.copies.only_name")
        raise Refusal(str(file), found, words.text("cli.copies.name_and_file"))


def _learner(store: Store, name: str | None, begins: str, words: Words) -> Learner:
    """The one learner of this name whose id begins so. Raises Refusal."""
    everybody = store.learners()
    named = everybody
    if name is not None:
        named = tuple(everybody[at] for at in called(name, [one.nickname for one in everybody]))
    fitting = [one for one in named if any(i.startswith(begins.lower()) for i in store.ids_of(one))]
    where = name or f"--id {begins}"
    if not fitting:
        names = ", ".join(sorted({one.nickname for one in everybody}))
        nobody = words.text("cli.copies.nobody")
        found = words.text("cli.copies.no_learner", name=where, names=names or nobody)
        raise Refusal(where, found, words.text("cli.copies.a_learner"))
    if len(fitting) > 1:
        which = "; ".join(_told_apart(store, fitting, words))
        found = words.text("cli.copies.several", count=len(fitting), which=which)
        raise Refusal(where, found, words.text("cli.copies.one_id"))
    return fitting[0]


def _told_apart(store: Store, learners: Sequence[Learner], words: Words) -> list[str]:
    """Each with the picture, the day they came and as much of the id as no other has."""
    length = _LEAST_OF_ID
    while len({one.id[:length] for one in learners}) < len(learners):
        length += 1
    told = []
    for one in learners:
        came = store.came(one)
        day = str(came.astimezone().date()) if came else "?"
        facts = {"name": one.nickname, "picture": one.picture, "id": one.id[:length]}
        told.append(words.text("cli.copies.one_of_them", day=day, **facts))
    return told

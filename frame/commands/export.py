"""`export`: what a learner attempted, written for a spreadsheet or a record store."""

import os
from pathlib import Path

from frame.commands.opening import not_written, saved_shape, store_that_is_there, unusable
from frame.commands.output import Refusal, write_json
from frame.commands.whom import learner_called
from frame.language.catalogue import Words
from frame.learner.exporting import export
from frame.learner.store import StoreError

_USUAL = "exercises"
"""What a file may be called, before its ending."""


def write_export(
    store_path: Path, file: Path, name: str | None, begins: str, words: Words,
    *, is_xapi: bool, is_json: bool,
) -> int:  # fmt: skip
    """All that the learner of this name, whose id `begins` so, attempted goes from the file at
    `store_path` to the new one at `file`; how much that is goes to standard output. 0, or 1 where
    the former can't be used. Raises Refusal for another place, or no such learner."""
    ending = ".jsonl" if is_xapi else ".csv"
    _need_name_and_ending(file, name or begins, ending, words)
    try:
        with store_that_is_there(store_path, words) as store:
            learner = learner_called(store, name, begins, words)
            attempts = export(store, file, learner, is_xapi=is_xapi)
    except StoreError as error:
        if error.where != file:
            return unusable(error, is_json, words)
        raise not_written(error, file, _USUAL + ending, words) from error
    if is_json:
        shape = {"file": str(file), "learner": learner.id, "attempts": attempts}
        write_json({**shape, **saved_shape(store.saved)})
    else:
        print(words.text("cli.export.done", attempts=attempts))
    return 0


def _need_name_and_ending(file: Path, who: str, ending: str, words: Words) -> None:
    """Raises Refusal where nobody is named, or the file is called as no such file is."""
    if not who:
        found = words.text("cli.export.no_name")
        raise Refusal(words.text("cli.command_line"), found, words.text("cli.export.name_and_file"))
    if file.suffix.lower() != ending and not os.path.isdir(file):
        raise Refusal(str(file), words.text("cli.export.ends"), words.text("cli.export.endings"))

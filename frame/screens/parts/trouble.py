"""What is wrong with the learners' file, in words."""

from frame.language.catalogue import Words
from frame.learner.keeper import Keeper
from frame.learner.learners import Learner
from frame.learner.salvage import Saved
from frame.learner.trouble import Trouble


def trouble_text(trouble: Trouble, words: Words) -> str:
    """Why the file can't be used now."""
    return words.text(f"store.{trouble}")


def unsaved_line(keeper: Keeper, words: Words) -> str:
    """That something is not on disk yet, and why."""
    return _with_why(keeper, words, "store.unsaved")


def kept_note(keeper: Keeper, learner: Learner | None, words: Words) -> str:
    """What a learner must know of what is kept of them; usually nothing."""
    if keeper.was_removed and learner is not None:
        return words.text("store.removed", name=learner.nickname)
    if keeper.store.is_damaged:
        return words.text("store.found_damaged")
    return unsaved_line(keeper, words) if keeper.is_unsaved else ""


def waiting_line(keeper: Keeper, words: Words) -> str:
    """That the window waits until all is on disk, and why it is not."""
    return _with_why(keeper, words, "store.waiting")


def lost_line(keeper: Keeper, words: Words) -> str:
    """That something never came to the disk, and why."""
    return _with_why(keeper, words, "store.lost")


def _with_why(keeper: Keeper, words: Words, key: str) -> str:
    why = trouble_text(keeper.trouble.trouble, words) if keeper.trouble else ""
    return f"{why} {words.text(key)}".strip()


def saved_text(saved: Saved, words: Words) -> str:
    """What could be saved of a damaged file, and where that lies, or of one that was gone."""
    counts = {"learners": saved.learners, "attempts": saved.attempts}
    if saved.aside is None:
        return words.text("store.brought_back", **counts)
    return words.text("store.saved", file=saved.aside.name, **counts)
